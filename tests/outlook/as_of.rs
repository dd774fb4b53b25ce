//! Nothing dated after the day of the outlook has any influence, whatever stands
//! there: rows after it are changed, dropped or doubled at random, walks after it
//! added, and the answer stays the same to the last bit.

#![allow(clippy::unwrap_used, clippy::expect_used)]

use chrono::{Days, NaiveDate};
use headwalk_tests::open_weather::{City, rows};
use proptest::prelude::*;
use ripening::heat::us_50_100;
use ripening::outlook::{
    BloomHeat, Outlook, PaceBelief, Planted, Season, Sighting, Track, Why, outlook, position_fan,
};
use ripening::weather::{RawDay, clean};
use ripening::{Head, Reading, Share};

fn date(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

fn heads(reading: Reading, percent: u8) -> Vec<Vec<Head>> {
    vec![vec![Head::new(reading, Share::new(percent).ok()).unwrap(); 5]; 3]
}

fn answer(rows: &[RawDay], as_of: NaiveDate, later: Option<Sighting>) -> Result<Outlook, Why> {
    let scale = us_50_100();
    let record = clean(rows, Some(as_of)).map_err(|_| Why::NoWeather)?.record;
    let season = Season::new(&scale, &record, as_of)?;
    let mut sightings: Vec<Sighting> = [
        Sighting::of_heads(date("2015-07-28"), &heads(Reading::Bloom, 60)),
        Sighting::of_heads(date("2015-08-07"), &heads(Reading::Liquid, 70)),
    ]
    .into_iter()
    .flatten()
    .collect();
    sightings.extend(later);
    let planted = Planted {
        on: Some(date("2015-05-20")),
        bloom_heat: BloomHeat::published(&scale, None),
    };
    let track = Track::follow(&season, &planted, &sightings)?;
    let belief = PaceBelief::published();
    assert!(!position_fan(&season, &track, &belief, 7).is_empty());
    Ok(outlook(&season, &track, &belief))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    #[test]
    fn later_rows_have_no_influence(
        days in 70_u64..150,
        mutations in prop::collection::vec((0_usize..400, 0_u8..5, -60.0_f64..1200.0), 1..60),
        later_share in 1_u8..=100,
    ) {
        let as_of = date("2015-05-20") + Days::new(days);
        let mut rows = rows(City::NewYork);
        let before = answer(&rows, as_of, None);
        let first_later = rows.iter().position(|row| row.date > as_of).unwrap();
        for (place, what, value) in mutations {
            let place = first_later + place % (rows.len() - first_later);
            match what {
                0 => rows[place].high = Some(value),
                1 => rows[place].low = None,
                2 => rows[place].unit = ripening::temperature::TempUnit::Fahrenheit,
                3 => { let row = rows[place]; rows.push(row); }
                _ if rows.len() > first_later + 1 => { rows.remove(place); }
                _ => {}
            }
        }
        let later = Sighting::of_heads(as_of + Days::new(1), &heads(Reading::DarkSpot, later_share));
        prop_assert_eq!(before, answer(&rows, as_of, later));
    }
}

/// The property above can fail: a row before the day does have influence.
#[test]
fn earlier_rows_have_influence() {
    let as_of = date("2015-08-20");
    let mut rows = rows(City::NewYork);
    let before = answer(&rows, as_of, None).unwrap();
    for row in rows.iter_mut().filter(|row| row.date < as_of) {
        row.high = row.high.map(|high| high + 3.0);
        row.low = row.low.map(|low| low + 3.0);
    }
    assert_ne!(answer(&rows, as_of, None).unwrap(), before);
}

/// What cannot be known is missing, and says why.
#[test]
fn unknown_is_null_with_a_reason() {
    let rows = rows(City::NewYork);
    // Nothing before 2012: no past season.
    let first = answer(&rows, date("2012-09-01"), None);
    assert!(matches!(first, Err(Why::NotPlantedYet { .. })), "{first:?}");
    let this_year: Vec<RawDay> = rows
        .iter()
        .filter(|row| row.date >= date("2015-04-01"))
        .copied()
        .collect();
    let alone = answer(&this_year, date("2015-08-10"), None).unwrap();
    let black = &alone.events.black_layer;
    assert_eq!((black.p10, black.p50, black.p90), (None, None, None));
    assert!(matches!(black.why, Some(Why::NoDaysAhead { .. })));
    // Half bloom lies behind and needs no days ahead.
    assert!(alone.events.half_bloom.p50.is_some());
    // The weather must reach near to the day.
    assert!(matches!(
        answer(&this_year[..40], date("2015-08-10"), None),
        Err(Why::WeatherEndsEarly { .. })
    ));
    // A walk stands in for weather that begins after planting.
    let from_july: Vec<RawDay> = rows
        .iter()
        .filter(|row| row.date < date("2015-03-01") || row.date >= date("2015-07-20"))
        .copied()
        .collect();
    let walked = answer(&from_july, date("2015-08-10"), None).unwrap();
    assert!(walked.events.black_layer.p50.is_some());
    let open = answer(&from_july, date("2015-07-27"), None);
    assert!(matches!(open, Err(Why::HeatUnknown { .. })), "{open:?}");
}
