//! Weather in the notebook, and the dates made of it.

use service::{
    Changed, ChosenBy, FortnightPage, NewPlanting, OutlookPage, Place, PlantingDetails,
    ProblemCode, Purpose, Reply, Service, TypedDay, WeatherFileReview, ask,
};
use std::fs;

use ripening::Reading;
use ripening::temperature::TempUnit;
use ripening::windows::WindowKind;
use uuid::Uuid;

use crate::faces::{Face, head, named, service};

fn weather_text() -> String {
    fs::read_to_string(headwalk_tests::demo_data().join("weather.csv")).unwrap()
}

fn import(
    service: &mut Service,
    text: &str,
    station: Option<&str>,
) -> (WeatherFileReview, Reply<WeatherFileReview>) {
    let reply = service.ask(ask::ImportWeatherFile {
        text: text.to_owned(),
        station: station.map(str::to_owned),
        strict: false,
        job: None,
    });
    (reply.answer.clone(), reply)
}

fn outlook(service: &mut Service, planting: Uuid) -> OutlookPage {
    let request = ask::Outlook {
        planting,
        as_of: None,
    };
    service.ask(request).answer
}

fn typed(station: &str, date: &str, high: f64, low: f64) -> TypedDay {
    TypedDay {
        station: station.to_owned(),
        date: date.parse().unwrap(),
        unit: TempUnit::Fahrenheit,
        high,
        low,
        rain_in: None,
        humidity: None,
    }
}

#[test]
fn a_weather_file_is_stored_once_and_rebuilds_to_the_same_bytes() {
    let (mut service, _) = service();
    let text = weather_text();
    let reviewed = service.ask(ask::ReviewWeatherFile {
        text: text.clone(),
        station: None,
        job: None,
    });
    assert!(reviewed.changed.is_empty());
    let (review, reply) = import(&mut service, &text, None);
    assert_eq!(reviewed.answer, review);
    assert_eq!(reply.changed, [Changed::Weather]);
    assert_eq!(review.stations.len(), 2);
    assert_eq!(review.refused, 0);
    assert!(
        review
            .stations
            .iter()
            .all(|station| station.already_here == 0)
    );

    let digest = service.notebook().view_digest().unwrap();
    let (again, reply) = import(&mut service, &text, None);
    assert!(reply.changed.is_empty());
    for station in &again.stations {
        assert_eq!(station.already_here, station.rows);
    }
    service
        .with_notebook(|notebook| notebook.rebuild())
        .unwrap();
    assert_eq!(service.notebook().view_digest().unwrap(), digest);

    let rows = service.ask(ask::Stations {}).answer.rows;
    assert_eq!(rows.len(), 2);
    assert!(
        rows.iter()
            .all(|row| row.days > 3000 && row.open.is_empty())
    );
}

#[test]
fn a_bad_weather_file_changes_nothing() {
    let (mut service, _) = service();
    for (text, station) in [
        ("planting,walked_on\n", None),
        // No name for the station.
        ("date,high_f,low_f\n2026-07-01,95,65\n", None),
    ] {
        let problem = service.refuse(ask::ImportWeatherFile {
            text: text.to_owned(),
            station,
            strict: false,
            job: None,
        });
        assert_eq!(problem.code, ProblemCode::BadInput);
    }
    // Celsius in columns named for Fahrenheit.
    let mut text = String::from("date,high_f,low_f\n");
    for day in 1..=31 {
        text.push_str(&format!("2026-07-{day:02},31,17\n2026-05-{day:02},24,11\n"));
    }
    let problem = service.refuse(ask::ImportWeatherFile {
        text,
        station: Some("Yard".to_owned()),
        strict: false,
        job: None,
    });
    assert!(problem.message.contains("look like C"), "{problem:?}");
}

#[test]
fn typed_days_count_and_bad_ones_are_refused() {
    let (mut service, _) = service();
    let reply = service.ask(ask::TypeWeather {
        day: typed("Yard", "2026-08-19", 95.0, 65.0),
    });
    assert_eq!(reply.changed, [Changed::Weather]);
    service.ask(ask::TypeWeather {
        day: typed("Yard", "2026-08-19", 93.0, 65.0),
    });
    let rows = service.ask(ask::Stations {}).answer.rows;
    assert_eq!(rows[0].days, 1, "the later of two for a day stands");
    for day in [
        typed("Yard", "2026-08-18", 65.0, 95.0),
        typed("Yard", "2026-08-18", 999.0, 65.0),
        typed("Yard", "2026-08-21", 95.0, 65.0),
        typed(" ", "2026-08-18", 95.0, 65.0),
    ] {
        let problem = service.refuse(ask::TypeWeather { day });
        assert_eq!(problem.code, ProblemCode::BadInput);
    }
}

#[test]
fn an_outlook_before_and_after_a_walk() {
    let (mut service, _) = service();
    let row = service.plant(NewPlanting {
        details: PlantingDetails {
            hybrid: Some("H-17".to_owned()),
            ..named("North 40").details
        },
        ..named("North 40")
    });
    let page = outlook(&mut service, row.id);
    assert!(
        page.outlook.is_none() && page.why.is_some(),
        "no weather yet"
    );

    import(&mut service, &weather_text(), None);
    // Two stations and no place: nobody knows which.
    assert!(outlook(&mut service, row.id).station.is_none());
    service.ask(ask::UseStation {
        planting: row.id,
        station: Some("demo-north".to_owned()),
        whole_field: false,
    });
    let before = outlook(&mut service, row.id);
    assert_eq!(before.station.as_ref().unwrap().by, ChosenBy::Planting);
    let width = |page: &OutlookPage| {
        let dates = &page.outlook.as_ref().unwrap().events.black_layer;
        (dates.p90.unwrap() - dates.p10.unwrap()).num_days()
    };
    let wide = width(&before);
    assert!(!before.fan.is_empty() && !before.weather.is_empty());
    let grain = before.outlook.as_ref().unwrap();
    assert!(grain.events.moisture_14.p50 > grain.events.black_layer.p50);

    let walk = service.start(row.id);
    for share in [20, 30, 40, 50, 60] {
        service.tap(walk.stops[0].id, head(Reading::Pliable, share));
    }
    let after = outlook(&mut service, row.id);
    assert!(width(&after) < wide, "{} {wide}", width(&after));
    assert_eq!(after.walks.len(), 1);
    let kinds: Vec<bool> = after
        .windows
        .iter()
        .map(|window| matches!(window.kind, WindowKind::HarvestAid))
        .collect();
    assert_eq!(kinds.iter().filter(|&&aid| aid).count(), 1);

    let FortnightPage { rows, from, to } = service.ask(ask::Fortnight { as_of: None }).answer;
    assert_eq!((to - from).num_days(), 14);
    assert_eq!(rows.len(), 1);
    // Soft dough is now: the last irrigation is a question of this fortnight.
    assert!(
        rows[0]
            .windows
            .iter()
            .any(|window| window.kind == WindowKind::LastIrrigation),
        "{rows:?}"
    );
}

#[test]
fn forage_has_its_own_windows() {
    let (mut service, _) = service();
    import(&mut service, &weather_text(), None);
    let row = service.plant(NewPlanting {
        details: PlantingDetails {
            purpose: Some(Purpose::Silage),
            ..named("Bend").details
        },
        ..named("Bend")
    });
    service.ask(ask::UseStation {
        planting: row.id,
        station: Some("demo-north".to_owned()),
        whole_field: false,
    });
    let page = outlook(&mut service, row.id);
    let has = |what: fn(&WindowKind) -> bool| page.windows.iter().any(|window| what(&window.kind));
    assert!(has(|kind| *kind == WindowKind::Silage));
    assert!(has(|kind| matches!(kind, WindowKind::PrussicAcid(_))));
    assert!(has(|kind| matches!(kind, WindowKind::Nitrate(_))));
    assert!(!has(|kind| *kind == WindowKind::HarvestAid));
    assert!(page.outlook.unwrap().events.moisture_14.why.is_some());
}

#[test]
fn the_nearest_station_is_found_and_used() {
    let (mut service, _) = service();
    import(&mut service, &weather_text(), None);
    let place = |latitude, longitude| Place {
        latitude,
        longitude,
        accuracy_m: None,
        age_s: None,
    };
    for (name, latitude) in [("demo-north", 39.0), ("demo-south", 38.0)] {
        service.ask(ask::PlaceStation {
            name: name.to_owned(),
            place: place(latitude, -40.0),
        });
    }
    let rows = service
        .ask(ask::NearestStations {
            place: place(38.9, -40.0),
        })
        .answer
        .rows;
    assert_eq!(rows[0].name, "demo-north");
    assert!((rows[0].km - 11.12).abs() < 0.01, "{rows:?}");

    let row = service.plant(named("North 40"));
    let walk = service.start(row.id);
    service.ask(ask::AddStop {
        id: None,
        walk: walk.id,
        place: Some(place(38.9, -40.0)),
    });
    let page = outlook(&mut service, row.id);
    let station = page.station.unwrap();
    assert_eq!(station.name, "demo-north");
    assert!(matches!(station.by, ChosenBy::Nearest { km } if (km - 11.12).abs() < 0.01));
}
