//! The roll-up's posterior against an independent fit of its documented model
//! (`reference/roll_up/`: importance sampling with numpy and scipy, versions and
//! seeds in the fixture).

#![allow(clippy::expect_used)] // in what the test calls

use headwalk_tests::repository;
use ripening::rollup::{Prior, RollUp};
use ripening::{Band, Head, Reading, Share, Stage};
use serde_json::Value;

/// Largest difference of a quantile of a share reached.
const SHARE: f64 = 0.02;
/// Largest difference of a quantile of the position, in stages.
const POSITION: f64 = 0.03;

fn head(entry: &Value) -> Head {
    let reading = Reading::from_word(entry[0].as_str().expect("a word")).expect("a reading");
    let share = entry[1]
        .as_u64()
        .map(|percent| Share::new(u8::try_from(percent).expect("a percent")).expect("1 to 100"));
    Head::new(reading, share).expect("a sound head")
}

/// The probabilities at which the fixture has quantiles.
const AT: [f64; 3] = [0.05, 0.5, 0.95];

/// Largest difference of three quantiles.
fn apart(ours: [f64; 3], quantiles: &Value) -> f64 {
    ours.iter()
        .enumerate()
        .map(|(i, end)| (end - quantiles[i].as_f64().expect("a number")).abs())
        .fold(0.0, f64::max)
}

#[test]
fn quantiles_agree_with_an_independent_fit() {
    let path = repository().join("tests/reference/roll_up/fixture.json");
    let text = std::fs::read_to_string(path).expect("the fixture");
    let fixture: Value = serde_json::from_str(&text).expect("sound JSON");
    assert_eq!(fixture["quantiles"], serde_json::json!(AT));
    let cases = fixture["cases"].as_array().expect("cases");
    assert!(cases.len() >= 20, "{} cases", cases.len());
    let mut beyond = Vec::new();
    println!("largest difference: of a share reached, of the position");
    for case in cases {
        let name = case["name"].as_str().expect("a name");
        let stops: Vec<Vec<Head>> = case["heads"]
            .as_array()
            .expect("stops")
            .iter()
            .map(|stop| stop.as_array().expect("heads").iter().map(head).collect())
            .collect();
        let mut walk = RollUp::new(Prior::fresh());
        for (key, stop) in (0..).zip(&stops) {
            walk.set_stop(key, stop);
        }
        let mut worst = (0.0, Stage::Boot);
        for stage in Stage::ALL {
            let key = serde_json::to_value(stage).expect("a word");
            let quantiles = &case["reached"][key.as_str().expect("a word")];
            let difference = apart(AT.map(|p| walk.reached_quantile(stage, p)), quantiles);
            if difference > worst.0 {
                worst = (difference, stage);
            }
        }
        let Band { low, mid, high } = walk.whole_field(0.9).position;
        let position = apart([low, mid, high], &case["position"]);
        println!("{name:32} {:.4} ({:?})  {position:.4}", worst.0, worst.1);
        if worst.0 > SHARE || position > POSITION {
            beyond.push(name);
        }
    }
    assert!(
        beyond.is_empty(),
        "too far from the independent fit: {beyond:?}"
    );
}
