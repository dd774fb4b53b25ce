//! Earlier walks: moved by the weather of the planting's station, and kept answers
//! that go when that weather, the station or a date changes.

use std::collections::BTreeMap;

use headwalk_tests::devices::SetClock;
use ripening::temperature::TempUnit;
use service::{Answers, Place, Service, TypedDay, ask};
use uuid::Uuid;

use crate::faces::{Face, service};

const HEADS: &str = "planting,walked_on,stop,reading,share\n\
    South,2026-08-01,1,pliable,60\n\
    South,2026-08-01,2,pliable,70\n\
    South,2026-08-01,3,pliable,50\n\
    South,2026-08-11,1,dented,10\n\
    South,2026-08-11,2,pliable,100\n\
    South,2026-08-11,3,dented,20\n";

const PLANTINGS: &str = "planting,hybrid,planted_on,purpose,station\n\
    South,H,2026-05-20,grain,A\n";

/// Days of August at a station, each alike.
fn weather(station: &str, high: f64, low: f64) -> String {
    let mut text = "station,date,high_f,low_f\n".to_owned();
    for day in 1..=20 {
        text += &format!("{station},2026-08-{day:02},{high},{low}\n");
    }
    text
}

fn import_weather(service: &mut Service, text: String) {
    service.ask(ask::ImportWeatherFile {
        text,
        station: None,
        strict: false,
        job: None,
    });
}

fn south() -> (Service, SetClock, Uuid) {
    let (mut service, clock) = service();
    service.ask(ask::ImportPlantingFile {
        text: PLANTINGS.to_owned(),
    });
    service.ask(ask::ImportHeadFile {
        text: HEADS.to_owned(),
    });
    let planting = service.rows()[0].id;
    (service, clock, planting)
}

/// The answer of the second walk.
fn second(service: &mut Service, planting: Uuid) -> Answers {
    service.ask(ask::Planting { planting }).answer.walks[0]
        .now
        .clone()
}

fn position(answers: &Answers) -> f64 {
    answers.with_history.unwrap().position.mid
}

/// What the table `answer` holds, by its key.
fn kept(service: &Service) -> BTreeMap<Vec<u8>, String> {
    let db = service.notebook().db();
    let mut rows = db.prepare("SELECT walk, made_by FROM answer").unwrap();
    rows.query_map([], |row| Ok((row.get(0)?, row.get(1)?)))
        .unwrap()
        .collect::<Result<_, _>>()
        .unwrap()
}

#[test]
fn weather_of_the_station_moves_the_history() {
    let (mut service, _, planting) = south();
    let by_days = second(&mut service, planting);
    // 95/65 is 30 units a day, 60/50 is 5: the heads in between know better than
    // days, and pull the answer to where that weather would have it.
    import_weather(&mut service, weather("A", 95.0, 65.0));
    let hot = second(&mut service, planting);
    import_weather(&mut service, weather("A", 95.0, 65.0));
    assert_eq!(second(&mut service, planting), hot, "the same once more");
    import_weather(&mut service, weather("A", 80.0, 60.0));
    let mild = second(&mut service, planting);

    assert_eq!(by_days.alone, hot.alone);
    assert_eq!(by_days.alone, mild.alone);
    assert!(position(&mild) < position(&hot), "{mild:?} {hot:?}");
    let width = |answers: &Answers| answers.with_history.unwrap().position.width();
    // 10 days at 20 units: weather knows the heat to 8 %, days to 30 %.
    assert!(width(&mild) < width(&by_days), "{mild:?} {by_days:?}");
}

#[test]
fn weather_that_says_nothing_of_the_days_between_drops_nothing() {
    let (mut service, _, planting) = south();
    import_weather(&mut service, weather("A", 90.0, 60.0));
    let before = second(&mut service, planting);
    let rows = kept(&service);
    assert_eq!(rows.len(), 2);
    let typed = |date: &str, high: f64| ask::TypeWeather {
        day: TypedDay {
            station: "A".to_owned(),
            date: date.parse().unwrap(),
            unit: TempUnit::Fahrenheit,
            high,
            low: 60.0,
            rain_in: None,
            humidity: None,
        },
    };
    // Another station, and a day after the last walk.
    import_weather(&mut service, weather("B", 70.0, 50.0));
    service.ask(typed("2026-08-20", 99.0));
    assert_eq!(second(&mut service, planting), before);
    assert_eq!(kept(&service), rows, "nothing was computed anew");

    // A day between the walks.
    service.ask(typed("2026-08-05", 99.0));
    let after = second(&mut service, planting);
    assert!(position(&after) > position(&before));
    assert_ne!(kept(&service), rows);
    // A day before the first walk.
    service.ask(typed("2026-07-31", 70.0));
    assert_eq!(second(&mut service, planting), after);
}

#[test]
fn another_station_another_history() {
    let (mut service, _, planting) = south();
    import_weather(&mut service, weather("A", 95.0, 65.0));
    import_weather(&mut service, weather("B", 75.0, 55.0));
    let by_a = second(&mut service, planting);
    let use_station = |station: Option<&str>| ask::UseStation {
        planting,
        station: station.map(str::to_owned),
        whole_field: false,
    };
    service.ask(use_station(Some("B")));
    let by_b = second(&mut service, planting);
    assert!(position(&by_b) < position(&by_a), "{by_b:?} {by_a:?}");
    // The list's answer is the page's.
    assert_eq!(service.rows()[0].last_walk.as_ref().unwrap().now, by_b);
    // No station is named and two have weather: nobody knows which, days count.
    service.ask(use_station(None));
    let by_days = second(&mut service, planting);
    assert_ne!(by_days.with_history, by_a.with_history);
    assert_ne!(by_days.with_history, by_b.with_history);
    // A station without a day is no weather.
    service.ask(use_station(Some("C")));
    assert_eq!(second(&mut service, planting), by_days);
    service.ask(use_station(Some("A")));
    assert_eq!(second(&mut service, planting), by_a);
}

/// The nearest station can change with the place of a stop of the walk that is
/// open: its history moves by the new one from then on.
#[test]
fn the_open_walk_follows_its_station() {
    let (mut service, _, planting) = south();
    import_weather(&mut service, weather("A", 95.0, 65.0));
    import_weather(&mut service, weather("B", 75.0, 55.0));
    for (name, latitude) in [("A", 38.0), ("B", 40.0)] {
        service.ask(ask::PlaceStation {
            name: name.to_owned(),
            place: Place {
                latitude,
                longitude: -99.0,
                accuracy_m: None,
                age_s: None,
            },
        });
    }
    service.ask(ask::UseStation {
        planting,
        station: None,
        whole_field: false,
    });
    let page = service.start(planting);
    let by_days = page.now.with_history.unwrap();
    let stop_at = |latitude: f64| ask::AddStop {
        id: None,
        walk: page.id,
        place: Some(Place {
            latitude,
            longitude: -99.0,
            accuracy_m: None,
            age_s: None,
        }),
    };
    let now = |service: &mut Service, request: ask::AddStop| {
        service.ask(request).answer.now.with_history.unwrap()
    };
    let near_b = now(&mut service, stop_at(40.0));
    assert_ne!(near_b, by_days);
    // Mean place of the stops: nearer to A now.
    now(&mut service, stop_at(38.0));
    let near_a = now(&mut service, stop_at(38.0));
    assert!(near_a.position.mid > near_b.position.mid);
    assert_eq!(service.page(page.id).now.with_history, Some(near_a));

    // Weather that comes while the walk is open counts at the next tap.
    import_weather(&mut service, weather("A", 80.0, 60.0));
    let stop = service.page(page.id).stops[0].id;
    let tapped = service.tap(stop, crate::faces::head(ripening::Reading::Dented, 30));
    assert_eq!(service.page(page.id).now, tapped.now);
}
