//! Walks that no textbook foresees: the answer is wide, never a crash and never a
//! false certainty.

#![allow(clippy::expect_used)] // in what the tests share

use headwalk_tests::simulation::field::{Kind, SPREADS};
use headwalk_tests::simulation::plan::{Breach, Cell, World, any_age, each};
use headwalk_tests::simulation::scout::{Size, walk};
use headwalk_tests::simulation::tally::LEVEL;
use rand::RngExt;
use ripening::rollup::{HeatMoved, Prior, RollUp, Target, WalkingCost, contradiction, roll_up};
use ripening::{Band, Head, Reading, Share, Stage, WholeField};

fn head(reading: Reading, percent: u8) -> Head {
    let share = (reading != Reading::Boot).then(|| Share::new(percent).expect("1 to 100"));
    Head::new(reading, share).expect("a sound head")
}

/// What must be so of every answer.
fn sound(answer: &WholeField, what: &str) {
    let ordered = |band: &Band, low: f64, high: f64| {
        assert!(
            low <= band.low && band.low <= band.mid && band.mid <= band.high && band.high <= high,
            "{what}: {band:?}"
        );
    };
    for stage in Stage::ALL {
        ordered(answer.reached.get(stage), 0.0, 1.0);
        ordered(answer.grain.get(stage), 0.0, 1.0);
        let chance = *answer.chance.get(stage);
        assert!((0.0..=1.0).contains(&chance), "{what}: chance {chance}");
    }
    ordered(&answer.position, 0.0, 9.0);
    let total: f64 = Stage::ALL.iter().map(|s| *answer.chance.get(*s)).sum();
    assert!(
        (total - 1.0).abs() < 1e-9,
        "{what}: chances add up to {total}"
    );
    // A later stage is never reached by more than an earlier one.
    for pair in Stage::ALL.windows(2) {
        for shares in [&answer.reached, &answer.grain] {
            let (early, late) = (shares.get(pair[0]), shares.get(pair[1]));
            assert!(
                early.low >= late.low - 1e-9
                    && early.mid >= late.mid - 1e-9
                    && early.high >= late.high - 1e-9,
                "{what}: {pair:?} {early:?} {late:?}"
            );
        }
    }
}

fn answer(stops: &[Vec<Head>]) -> WholeField {
    roll_up(stops, &Prior::fresh(), LEVEL)
}

#[test]
fn no_head_says_nothing() {
    for stops in [vec![], vec![vec![]], vec![vec![], vec![]]] {
        let answer = answer(&stops);
        sound(&answer, "no head");
        assert_eq!((answer.heads, answer.stops), (0, 0));
        assert!(
            answer.reached.soft_dough.width() > 0.8,
            "{:?}",
            answer.reached.soft_dough
        );
        assert!(answer.position.width() > 2.0, "{:?}", answer.position);
    }
}

#[test]
fn one_head_is_a_wide_band() {
    for (reading, percent, stage) in [
        (Reading::Liquid, 50, Stage::Milk),
        (Reading::Pliable, 50, Stage::SoftDough),
        (Reading::Dented, 50, Stage::HardDough),
        (Reading::DarkSpot, 50, Stage::BlackLayer),
    ] {
        let answer = answer(&[vec![head(reading, percent)]]);
        sound(&answer, "one head");
        assert_eq!((answer.heads, answer.stops), (1, 1));
        let reached = answer.reached.get(stage);
        assert!(reached.width() > 0.6, "{stage:?} {reached:?}");
        assert!(answer.position.width() > 0.2, "{:?}", answer.position);
    }
}

#[test]
fn all_alike_is_no_proof() {
    for reading in Reading::ALL {
        for percent in [1, 50, 100] {
            for (stops, heads) in [(1, 1), (1, 25), (5, 5), (20, 25)] {
                let walk = vec![vec![head(reading, percent); heads]; stops];
                let answer = answer(&walk);
                let what = format!("{reading:?} {percent} {stops} x {heads}");
                sound(&answer, &what);
                assert_eq!(answer.heads as usize, stops * heads);
                assert_eq!(answer.stops as usize, stops);
                assert!(
                    answer.position.high > answer.position.low
                        || reading == Reading::Boot
                        || answer.position.low >= 9.0,
                    "{what}: {:?}",
                    answer.position
                );
            }
        }
    }
}

/// 25 heads in the boot do not prove that none of the field is out: by the rule of
/// three, up to one head in nine may be.
#[test]
fn all_boot_is_not_a_false_zero() {
    let answer = answer(&vec![vec![head(Reading::Boot, 0); 5]; 5]);
    assert_eq!(answer.stage, Stage::Boot);
    assert!(
        answer.reached.heading.high > 0.01,
        "{:?}",
        answer.reached.heading
    );
    assert!(
        answer.reached.soft_dough.high < 0.05,
        "{:?}",
        answer.reached.soft_dough
    );
    let one = roll_up(&[vec![head(Reading::Boot, 0)]], &Prior::fresh(), LEVEL);
    assert!(one.reached.heading.high > 0.2, "{:?}", one.reached.heading);
}

/// The last stage is known only from below; a field all at black layer is there.
#[test]
fn all_ripe_is_ripe() {
    let answer = answer(&vec![vec![head(Reading::DarkSpot, 100); 5]; 5]);
    assert_eq!(answer.stage, Stage::BlackLayer);
    assert!(answer.chance.black_layer > 0.95, "{:?}", answer.chance);
    assert!(answer.reached.black_layer.low > 0.7);
    assert!(
        answer.reached.black_layer.low < 1.0,
        "not every head was seen"
    );
}

#[test]
fn five_hundred_heads() {
    let found = each(601, 6, |i, rng| {
        let cell = Cell {
            kind: Kind::ALL[i % 3],
            spread: SPREADS[1],
            breach: Breach::Nothing,
            world: World::Listed,
        };
        let field = cell.field(700.0, rng);
        let size = Size {
            stops: if i < 3 { 100 } else { 20 },
            heads: if i < 3 { 5 } else { 25 },
            unequal: false,
        };
        let answer = answer(&walk(&field, size, cell.eyes(), rng));
        sound(&answer, "500 heads");
        let truth = field.truth();
        (
            answer.heads,
            answer.reached.hard_dough,
            truth.reached.hard_dough,
        )
    });
    for (heads, band, truth) in found {
        println!("500 heads: {band:?}, truth {truth:.3}");
        assert_eq!(heads, 500);
        assert!(band.width() < 0.30, "{band:?}");
        assert!((band.mid - truth).abs() < 0.15, "{band:?} {truth}");
    }
}

/// Any heads at all, as no field has them: sound answers, and advice that can be read.
#[test]
fn any_heads_at_all() {
    let answers = each(602, 60, |_, rng| {
        let stops = rng.random_range(1..=12);
        let walk: Vec<Vec<Head>> = (0..stops)
            .map(|_| {
                (0..rng.random_range(0..=9))
                    .map(|_| {
                        head(
                            Reading::ALL[rng.random_range(0..7)],
                            rng.random_range(1..=100),
                        )
                    })
                    .collect()
            })
            .collect();
        let mut roll_up = RollUp::new(Prior::fresh());
        for (key, stop) in walk.iter().enumerate() {
            roll_up.set_stop(key as u64, stop);
        }
        let answer = roll_up.whole_field(LEVEL);
        let advice = roll_up.advice(&Target::default(), &WalkingCost::default());
        let history = roll_up.posterior().forward(HeatMoved {
            mean: rng.random_range(0.0..900.0),
            sd: rng.random_range(0.0..200.0),
        });
        let mut next = RollUp::new(history.clone());
        next.set_stop(1, &walk[0]);
        let alone = {
            let mut alone = RollUp::new(Prior::fresh());
            alone.set_stop(1, &walk[0]);
            alone
        };
        let clash = contradiction(&alone, &history);
        (walk, answer, advice, next.whole_field(LEVEL), clash)
    });
    for (walk, answer, advice, next, clash) in answers {
        let what = format!("{walk:?}");
        sound(&answer, &what);
        sound(&next, &what);
        assert!(advice.position_width.is_finite() && (0.0..=1.0).contains(&advice.stage_chance));
        for more in &advice.more {
            assert!(more.position_width.is_finite() && more.minutes > 0.0 && more.stops > 0);
            assert!((0.0..=1.0).contains(&more.stage_chance));
        }
        if let Some(clash) = clash {
            assert!(clash.ahead.is_finite() && (0.0..=1.0).contains(&clash.history_applies));
        }
    }
}

/// More heads of the same kind never widen the band much, and a higher level is a
/// wider band that holds the narrower one.
#[test]
fn levels_nest() {
    let bands = each(603, 40, |i, rng| {
        let cell = Cell {
            kind: Kind::ALL[i % 3],
            spread: SPREADS[i % 3],
            breach: Breach::Everything,
            world: World::Listed,
        };
        let field = cell.field(any_age(rng), rng);
        let heads = walk(&field, cell.size((5, 5)), cell.eyes(), rng);
        [0.5, 0.8, 0.9, 0.99].map(|level| roll_up(&heads, &Prior::fresh(), level))
    });
    for levels in bands {
        for pair in levels.windows(2) {
            for stage in Stage::ALL {
                let (inner, outer) = (pair[0].reached.get(stage), pair[1].reached.get(stage));
                assert!(outer.low <= inner.low + 1e-12 && inner.high <= outer.high + 1e-12);
                assert!((outer.mid - inner.mid).abs() < 1e-12);
            }
        }
    }
}
/// Half of the field in the boot, half of it ripe: nobody knows what this is, and
/// the answer must not be sure of a stage between.
#[test]
fn two_fields_in_one() {
    let walk = [
        vec![head(Reading::Boot, 0); 5],
        vec![head(Reading::DarkSpot, 90); 5],
        vec![head(Reading::Boot, 0); 5],
        vec![head(Reading::DarkSpot, 90); 5],
    ];
    let answer = answer(&walk);
    sound(&answer, "boot and ripe");
    let reached = answer.reached.soft_dough;
    assert!(reached.low < 0.5 && reached.high > 0.5, "{reached:?}");
    assert!(reached.width() > 0.3, "{reached:?}");
}
