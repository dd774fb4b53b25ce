//! The windows that cost money, each against the published case it stands on.
//! The source is named beside each check.

#![allow(clippy::unwrap_used, clippy::panic)]

use chrono::{Datelike, Days, NaiveDate};
use ripening::heat::{MaturityClass, us_50_100};
use ripening::outlook::{Case, Event, Followed, Sighting, follow_together};
use ripening::weather::{Day, WeatherRecord};
use ripening::windows::{
    BloomWeather, BootNights, Caution, FREEZE_LOSSES, ForageRisk, FreezeLoss, MoneyWindow, Source,
    Standing, Use, WindowKind, windows,
};
use ripening::{Head, Reading, Share, Stage};

fn date(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

/// Eleven even years, 86/64 F from April to September and 70/48 F else, with half
/// an inch of rain every seventh day; `odd` changes days of the last year.
fn record(odd: impl Fn(&mut Day)) -> WeatherRecord {
    let first = date("2016-01-01");
    let days = first
        .iter_days()
        .take_while(|day| *day <= date("2026-12-31"))
        .map(|date| {
            let summer = (4..=9).contains(&date.month());
            let mut day = Day {
                date,
                high_f: if summer { 86.0 } else { 70.0 },
                low_f: if summer { 64.0 } else { 48.0 },
                rain_in: Some(if date.ordinal() % 7 == 0 { 0.5 } else { 0.0 }),
                humidity: None,
                filled: false,
            };
            if date.year() == 2026 {
                odd(&mut day);
            }
            day
        })
        .collect();
    WeatherRecord::from_days(days)
}

/// A medium-early planting of May 15: half bloom comes 58 such days later, on
/// about July 12 (1440 units at 25 a day; K-State eUpdate 661, Table 1).
fn followed(weather: &WeatherRecord, as_of: &str, sightings: Vec<Sighting>) -> Followed {
    let case = Case {
        hybrid: None,
        class: Some(MaturityClass::MediumEarly),
        planted_on: Some(date("2026-05-15")),
        sightings,
        weather,
    };
    follow_together(&us_50_100(), date(as_of), &[case])
        .pop()
        .unwrap()
        .unwrap()
}

fn bloom_seen() -> Vec<Sighting> {
    vec![Sighting::half_bloom(date("2026-07-12"))]
}

fn find(all: &[MoneyWindow], what: impl Fn(&WindowKind) -> bool) -> MoneyWindow {
    all.iter()
        .find(|window| what(&window.kind))
        .unwrap()
        .clone()
}

fn boot(followed: &Followed) -> BootNights {
    let all = windows(followed, Use::Grain, None);
    match find(&all, |kind| matches!(kind, WindowKind::BootNights(_))).kind {
        WindowKind::BootNights(found) => found,
        other => panic!("{other:?}"),
    }
}

fn bloom(followed: &Followed) -> (BloomWeather, MoneyWindow) {
    let all = windows(followed, Use::Grain, None);
    let window = find(&all, |kind| matches!(kind, WindowKind::BloomWeather(_)));
    match &window.kind {
        WindowKind::BloomWeather(found) => (found.clone(), window),
        other => panic!("{other:?}"),
    }
}

/// Brooking 1976: five nights of 10 C (50 F) at meiosis made lines sterile. Downes
/// & Marshall 1971: five days of 18/13 C (64.4/55.4 F). Boot is where pollen is
/// made; the same nights at bloom are another matter.
#[test]
fn five_cold_nights_at_boot_are_seen_and_elsewhere_they_are_not() {
    let cold = |from: &'static str, high: f64, low: f64| {
        record(move |day| {
            let place = (day.date - date(from)).num_days();
            if (0..5).contains(&place) {
                (day.high_f, day.low_f) = (high, low);
            }
        })
    };
    let found = boot(&followed(
        &cold("2026-07-02", 75.0, 50.0),
        "2026-07-25",
        bloom_seen(),
    ));
    assert_eq!(
        (found.cold_in_a_row, found.cold_nights),
        (5, 5),
        "{found:?}"
    );
    assert_eq!(found.lowest_f, Some(50.0));
    let found = boot(&followed(
        &cold("2026-07-02", 64.0, 55.0),
        "2026-07-25",
        bloom_seen(),
    ));
    assert_eq!(
        (found.cold_in_a_row, found.cool_days_in_a_row),
        (0, 5),
        "{found:?}"
    );
    // A degree warmer than either threshold counts for nothing.
    let found = boot(&followed(
        &cold("2026-07-02", 66.0, 56.5),
        "2026-07-25",
        bloom_seen(),
    ));
    assert_eq!(
        (found.cold_in_a_row, found.cool_days_in_a_row),
        (0, 0),
        "{found:?}"
    );
    let found = boot(&followed(
        &cold("2026-06-05", 75.0, 50.0),
        "2026-07-25",
        bloom_seen(),
    ));
    assert_eq!(found.cold_nights, 0, "three weeks before boot: {found:?}");
}

/// Singh et al. 2015: highs above 36-38 C around flowering. Prasad et al. 2015: mean
/// above 25 C. The days that count are those from ten before half bloom to five
/// after it.
#[test]
fn heat_over_bloom_counts_from_ten_days_before_to_five_after() {
    let hot = |from: &'static str| {
        record(move |day| {
            if (0..3).contains(&(day.date - date(from)).num_days()) {
                (day.high_f, day.low_f) = (103.0, 75.0);
            }
        })
    };
    let (found, window) = bloom(&followed(&hot("2026-07-06"), "2026-08-10", bloom_seen()));
    assert_eq!((found.hot_days, found.very_hot_days), (3, 3), "{found:?}");
    assert_eq!(found.highest_f, Some(103.0));
    let span = window.span.unwrap();
    let seen = date("2026-07-12");
    assert!(
        (span.from - (seen - Days::new(10))).num_days().abs() <= 3,
        "{span:?}"
    );
    assert!(
        (span.to - (seen + Days::new(5))).num_days().abs() <= 3,
        "{span:?}"
    );
    assert_eq!(window.source, Source::BloomHeat);
    assert_eq!(window.caution, Caution::RainShownNoLossClaimed);
    let (found, _) = bloom(&followed(&hot("2026-08-01"), "2026-08-10", bloom_seen()));
    assert_eq!(found.hot_days, 0);
}

/// The window is dated from the heads: heads that bloom ten days late move it.
#[test]
fn bloom_weather_is_dated_from_the_heads_not_from_the_calendar() {
    let weather = record(|_| {});
    let head = || Head::new(Reading::Bloom, Share::new(50).ok()).unwrap();
    let heads = vec![vec![head(); 5]; 5];
    let at = |day: &str| {
        let sighting = Sighting::of_heads(date(day), &heads).unwrap();
        bloom(&followed(&weather, "2026-08-10", vec![sighting]))
            .1
            .span
            .unwrap()
            .from
    };
    // Four days either side of what the table says of the class. (Much further off
    // than that, the planting itself is in doubt, and the dates follow in part.)
    let moved = (at("2026-07-16") - at("2026-07-08")).num_days();
    assert!((7..=9).contains(&moved), "{moved}");
}

/// Common practice: the last irrigation carries the crop from soft dough on.
/// Extension advice: silage at soft dough, 65-70 % whole-plant moisture.
#[test]
fn last_irrigation_and_silage_stand_around_soft_dough() {
    let weather = record(|_| {});
    let followed = followed(&weather, "2026-07-20", bloom_seen());
    let soft = followed.outlook().events.get(Event::SoftDough).clone();
    let all = windows(&followed, Use::Forage, None);
    for what in [WindowKind::LastIrrigation, WindowKind::Silage] {
        let window = find(&all, |kind| *kind == what);
        let span = window.span.unwrap();
        assert_eq!(
            (Some(span.earliest), Some(span.latest)),
            (soft.p10, soft.p90)
        );
        assert_eq!(window.standing, Standing::Ahead);
    }
    let silage = find(&all, |kind| *kind == WindowKind::Silage);
    assert_eq!(silage.caution, Caution::TestWholePlantMoisture);
    assert!(
        all.iter()
            .all(|window| window.kind != WindowKind::HarvestAid)
    );
    // 306 units from half bloom in the same table: some twelve days at 25 a day.
    let days = (soft.p50.unwrap() - date("2026-07-12")).num_days();
    assert!((10..=15).contains(&days), "{days}");
}

/// Texas extension: not before physiological maturity and mean grain below 30 %.
/// With either unsure it is not open; the label and local rules come first.
#[test]
fn a_harvest_aid_waits_for_black_layer_and_for_dry_grain() {
    use ripening::dry_down::Window;
    let weather = record(|_| {});
    let aid = |as_of: &str, dry: Option<&str>| {
        let followed = followed(&weather, as_of, bloom_seen());
        let black = followed.outlook().events.get(Event::BlackLayer).clone();
        let dry = dry.map(date);
        let dry = Window {
            p10: dry,
            p50: dry,
            p90: dry,
        };
        let all = windows(&followed, Use::Grain, Some(&dry));
        (find(&all, |kind| *kind == WindowKind::HarvestAid), black)
    };
    // Dry long before black layer: black layer decides.
    let (window, black) = aid("2026-08-10", Some("2026-08-01"));
    assert_eq!(window.span.unwrap().latest, black.p90.unwrap());
    assert_eq!(window.standing, Standing::Ahead);
    // Black layer long past, grain still wet: the grain decides.
    let (window, _) = aid("2026-10-10", Some("2026-11-01"));
    assert_eq!(window.span.unwrap().earliest, date("2026-11-01"));
    assert_eq!(window.standing, Standing::Ahead);
    let (window, _) = aid("2026-10-10", Some("2026-09-20"));
    assert_eq!(window.standing, Standing::MayBeOpen);
    assert_eq!(window.caution, Caution::LabelAndLocalRulesFirst);
    assert_eq!(window.source, Source::HarvestAidExtension);
    let (window, _) = aid("2026-10-10", None);
    assert_eq!((window.span, window.standing), (None, Standing::Unknown));
}

fn freeze(followed: &Followed) -> FreezeLoss {
    let all = windows(followed, Use::Grain, None);
    match find(&all, |kind| matches!(kind, WindowKind::Freeze(_))).kind {
        WindowKind::Freeze(found) => found,
        other => panic!("{other:?}"),
    }
}

/// Staggenborg & Vanderlip 1996, 28 F for four hours: grain weight 27 to 52 % less
/// at soft dough, 6.5 to 27 % at hard dough; no loss after physiological maturity.
#[test]
fn a_freeze_costs_what_is_published_for_the_stage_it_meets() {
    assert_eq!(
        FREEZE_LOSSES,
        [
            (Stage::SoftDough, 27.0, 52.0),
            (Stage::HardDough, 6.5, 27.0),
            (Stage::BlackLayer, 0.0, 0.0),
        ]
    );
    let frost = |on: &'static str, low: f64| {
        record(move |day| {
            if day.date == date(on) {
                day.low_f = low;
            }
        })
    };
    // Sixteen days past half bloom it is at soft dough, 34 days past at hard dough.
    for (on, stage, low, high) in [
        ("2026-07-29", Stage::SoftDough, 27.0, 52.0),
        ("2026-08-15", Stage::HardDough, 6.5, 27.0),
    ] {
        let found = freeze(&followed(&frost(on, 27.5), "2026-08-20", bloom_seen()));
        assert_eq!(found.meets, Some(stage), "{on}: {found:?}");
        assert_eq!((found.loss_low, found.loss_high), (Some(low), Some(high)));
        let at = |f: f64| {
            found
                .chances
                .iter()
                .find(|chance| chance.at_f == f)
                .unwrap()
        };
        assert_eq!(at(28.0).was_on, Some(date(on)));
        assert!(at(28.0).before_black_layer > 0.9);
        // It did not come to 26 F, at which plants are killed (Texas extension).
        assert_eq!(at(26.0).was_on, None);
    }
    // Before soft dough no published loss was found: none is given.
    let found = freeze(&followed(
        &frost("2026-07-16", 27.5),
        "2026-08-20",
        bloom_seen(),
    ));
    assert_eq!((found.meets, found.loss_low), (None, None), "{found:?}");
    // After black layer nothing is lost.
    let found = freeze(&followed(
        &frost("2026-10-20", 27.5),
        "2026-10-25",
        bloom_seen(),
    ));
    let at_28 = found
        .chances
        .iter()
        .find(|chance| chance.at_f == 28.0)
        .unwrap();
    assert!(at_28.before_black_layer < 0.02, "{at_28:?}");
}

/// A colder freeze is never likelier than a warmer one (Texas extension: freezing
/// 32, injury 28, killed 26).
#[test]
fn colder_freezes_are_no_likelier() {
    let weather = WeatherRecord::from_days(
        record(|_| {})
            .days()
            .iter()
            .map(|day| {
                let mut day = *day;
                // A first frost between August 20 and October 1 in each past year.
                let first = 232 + 6 * (day.date.year() - 2016) as u32;
                if day.date.year() < 2026 && day.date.ordinal() >= first {
                    day.low_f = 31.0 - f64::from((day.date.year() - 2016) % 3) * 3.0;
                }
                day
            })
            .collect(),
    );
    let found = freeze(&followed(&weather, "2026-08-01", bloom_seen()));
    let chances: Vec<f64> = found
        .chances
        .iter()
        .map(|each| each.before_black_layer)
        .collect();
    let temperatures: Vec<f64> = found.chances.iter().map(|each| each.at_f).collect();
    assert_eq!(temperatures, [32.0, 28.0, 26.0]);
    assert!(chances[0] > 0.1 && chances[0] < 1.0, "{chances:?}");
    assert!(
        chances[0] >= chances[1] && chances[1] >= chances[2],
        "{chances:?}"
    );
}

fn forage(followed: &Followed, acid: bool) -> (ForageRisk, MoneyWindow) {
    let all = windows(followed, Use::Forage, None);
    let window = find(&all, |kind| match kind {
        WindowKind::PrussicAcid(_) => acid,
        WindowKind::Nitrate(_) => !acid,
        _ => false,
    });
    match &window.kind {
        WindowKind::PrussicAcid(risk) | WindowKind::Nitrate(risk) => (risk.clone(), window),
        other => panic!("{other:?}"),
    }
}

/// Nebraska extension: wait 5 to 7 days after a freeze, other states up to two
/// weeks, and each new freeze starts the wait again: test, ask the vet.
#[test]
fn prussic_acid_waits_from_the_last_freeze() {
    let frosts = record(|day| {
        if [date("2026-10-02"), date("2026-10-05")].contains(&day.date) {
            day.low_f = 31.0;
        }
    });
    let (risk, window) = forage(&followed(&frosts, "2026-10-08", bloom_seen()), true);
    let freeze = risk.freeze.unwrap();
    assert_eq!(freeze.on, date("2026-10-05"));
    assert_eq!(
        (freeze.wait_least, freeze.wait_most),
        (date("2026-10-10"), date("2026-10-19"))
    );
    assert_eq!(window.standing, Standing::MayBeOpen);
    assert_eq!(window.caution, Caution::TestAskVetPrussicAcid);
    let (risk, window) = forage(&followed(&frosts, "2026-10-20", bloom_seen()), true);
    assert_eq!((risk.freeze, window.standing), (None, Standing::Ahead));
}

/// Common practice: nitrate is high after drought and after a freeze.
#[test]
fn nitrate_is_cautioned_after_drought() {
    let wet = record(|_| {});
    let dry = record(|day| {
        if day.date >= date("2026-07-01") {
            day.rain_in = Some(0.0);
        }
    });
    let (risk, window) = forage(&followed(&dry, "2026-08-01", bloom_seen()), false);
    assert!(risk.dry && risk.rain_three_weeks_in == Some(0.0));
    assert_eq!(window.standing, Standing::MayBeOpen);
    assert_eq!(window.caution, Caution::TestAskVetNitrate);
    let (risk, window) = forage(&followed(&wet, "2026-08-01", bloom_seen()), false);
    assert_eq!((risk.dry, window.standing), (false, Standing::Ahead));
    // Grain plantings have neither caution.
    let grain = windows(
        &followed(&wet, "2026-08-01", bloom_seen()),
        Use::Grain,
        None,
    );
    assert!(!grain.iter().any(|window| matches!(
        window.kind,
        WindowKind::PrussicAcid(_) | WindowKind::Nitrate(_)
    )));
}
