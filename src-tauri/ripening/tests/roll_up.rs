//! The roll-up from outside: soundness in every walk, the same bits in every
//! order, and what carries over.

#![allow(clippy::unwrap_used)] // in what the tests call

use ripening::rollup::{HeatMoved, Prior, RollUp, Target, WalkingCost, contradiction, roll_up};
use ripening::{Band, Head, Reading, Share, Stage, Verdict, WholeField};

fn head(reading: Reading, percent: u8) -> Head {
    let share = (reading != Reading::Boot).then(|| Share::new(percent).unwrap());
    Head::new(reading, share).unwrap()
}

/// Heads around an age (heat units since bloom), spread by a fixed pattern.
fn walk(stops: usize, heads: usize, age: f64) -> Vec<Vec<Head>> {
    let pattern = |i: usize| ((i * 7919 + 13) % 101) as f64 / 50.0 - 1.0;
    (0..stops)
        .map(|stop| {
            let here = age + 70.0 * pattern(stop);
            (0..heads)
                .map(|i| read(here + 130.0 * pattern(31 * stop + i)))
                .collect()
        })
        .collect()
}

fn read(age: f64) -> Head {
    let top = age + 85.0;
    let marks = [
        (Reading::DarkSpot, 1107.0),
        (Reading::Dented, 747.0),
        (Reading::Pliable, 297.0),
        (Reading::Liquid, 130.0),
        (Reading::Bloom, 0.0),
    ];
    for (reading, mark) in marks {
        if top >= mark {
            let share = ((age - mark) / 170.0 + 0.5).min(1.0);
            let step = (share * 20.0).round().max(1.0) as u8;
            return head(reading, step * 5);
        }
    }
    head(Reading::Boot, 100)
}

fn of(stops: &[Vec<Head>], prior: Prior) -> RollUp {
    let mut walk = RollUp::new(prior);
    for (key, heads) in stops.iter().enumerate() {
        walk.set_stop(key as u64, heads);
    }
    walk
}

fn assert_sound(field: &WholeField) {
    let mut before = Band {
        low: 1.0,
        mid: 1.0,
        high: 1.0,
    };
    let mut sum = 0.0;
    for stage in Stage::ALL {
        for band in [field.reached.get(stage), field.grain.get(stage)] {
            assert!(
                0.0 <= band.low && band.low <= band.mid,
                "{stage:?} {band:?}"
            );
            assert!(
                band.mid <= band.high && band.high <= 1.0,
                "{stage:?} {band:?}"
            );
        }
        let reached = field.reached.get(stage);
        // A later stage cannot have been reached by more heads.
        assert!(reached.low <= before.low, "{stage:?}");
        assert!(reached.mid <= before.mid, "{stage:?}");
        assert!(reached.high <= before.high, "{stage:?}");
        before = *reached;
        let chance = *field.chance.get(stage);
        assert!((0.0..=1.0).contains(&chance));
        sum += chance;
    }
    assert!((sum - 1.0).abs() < 1e-9);
    let position = field.position;
    assert!(5.0 <= position.low && position.low <= position.mid);
    assert!(position.mid <= position.high && position.high <= 9.0);
}

fn bits(field: &WholeField) -> u64 {
    let mut bands = vec![field.position];
    for stage in Stage::ALL {
        bands.push(*field.reached.get(stage));
        bands.push(*field.grain.get(stage));
        let chance = *field.chance.get(stage);
        bands.push(Band {
            low: chance,
            mid: chance,
            high: chance,
        });
    }
    // FNV-1a over the bits of every number.
    let mut hash = 0xcbf2_9ce4_8422_2325_u64;
    for band in bands {
        for value in [band.low, band.mid, band.high] {
            for byte in value.to_bits().to_le_bytes() {
                hash = (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
            }
        }
    }
    hash
}

#[test]
fn every_walk_gets_a_sound_answer() {
    let boot = vec![head(Reading::Boot, 100); 5];
    let walks = [
        vec![],
        vec![vec![]],
        vec![boot.clone(); 5],
        vec![boot.clone(), vec![head(Reading::DarkSpot, 100); 5]],
        vec![vec![head(Reading::DarkSpot, 100); 20]; 5],
        vec![vec![head(Reading::Pliable, 50); 500]],
        walk(50, 10, 320.0),
        walk(1, 5, 320.0),
        walk(3, 1, 700.0),
        vec![walk(1, 9, 300.0).remove(0), vec![read(300.0)], boot],
    ];
    for stops in walks {
        let walk = of(&stops, Prior::fresh());
        for level in [0.0, 0.5, 0.9, 0.99, 1.0] {
            assert_sound(&walk.whole_field(level));
        }
        let advice = walk.advice(&Target::default(), &WalkingCost::default());
        assert!(advice.position_width.is_finite() && advice.stage_chance.is_finite());
    }
}

#[test]
fn one_head_leaves_much_open() {
    for reading in Reading::ALL {
        for percent in [1, 50, 100] {
            let field = roll_up(&[vec![head(reading, percent)]], &Prior::fresh(), 0.9);
            assert_sound(&field);
            assert!(field.position.width() > 0.2 || reading >= Reading::Dented || percent == 100);
        }
    }
    // Half of a single head: no share of the planting is all but certain.
    let field = roll_up(&[vec![head(Reading::Pliable, 50)]], &Prior::fresh(), 0.9);
    assert!(field.reached.soft_dough.width() > 0.6);
    assert!(field.reached.hard_dough.high > 0.02);
}

#[test]
fn a_planting_all_in_the_boot_is_in_the_boot() {
    let field = roll_up(
        &vec![vec![head(Reading::Boot, 100); 5]; 5],
        &Prior::fresh(),
        0.9,
    );
    assert_eq!(field.stage, Stage::Boot);
    assert!(field.chance.boot > 0.9);
    assert!(field.reached.milk.high < 0.1);
}

#[test]
fn ripe_heads_make_a_ripe_planting() {
    let ripe = vec![vec![head(Reading::DarkSpot, 100); 5]; 5];
    let field = roll_up(&ripe, &Prior::fresh(), 0.9);
    assert_eq!(field.stage, Stage::BlackLayer);
    assert!(field.reached.black_layer.low > 0.8);
    assert_eq!(field.position.high, 9.0);
}

#[test]
fn older_heads_never_make_a_younger_planting() {
    let mut before = 0.0;
    for age in (0..=1200).step_by(60) {
        let field = roll_up(&walk(4, 5, f64::from(age)), &Prior::fresh(), 0.9);
        assert!(field.position.mid >= before - 1e-6, "{age}");
        before = field.position.mid;
    }
}

#[test]
fn more_stops_narrow_the_band() {
    let width = |stops| {
        let field = roll_up(&walk(stops, 5, 320.0), &Prior::fresh(), 0.9);
        field.reached.soft_dough.width()
    };
    assert!(width(12) < width(6));
    assert!(width(6) < width(3));
}

#[test]
fn the_order_of_entry_changes_no_bit() {
    // A walk of the usual size, and one that needs finer nodes.
    for (stops, heads) in [(5, 5), (14, 8)] {
        let stops = walk(stops, heads, 310.0);
        let plain = bits(&of(&stops, Prior::fresh()).whole_field(0.9));
        let mut other = RollUp::new(Prior::fresh());
        other.set_stop(99, &stops[0]);
        for (key, heads) in stops.iter().enumerate().rev() {
            let mut heads = heads.clone();
            // Head by head, backwards, with a wrong one in between.
            for n in 1..heads.len() {
                other.set_stop(1000 - key as u64, &heads[n..]);
            }
            heads.reverse();
            other.set_stop(1000 - key as u64, &[read(900.0)]);
            other.set_stop(1000 - key as u64, &heads);
        }
        other.set_stop(99, &[]);
        assert_eq!(bits(&other.whole_field(0.9)), plain);
        assert_eq!(bits(&roll_up(&stops, &Prior::fresh(), 0.9)), plain);
    }
}

/// The memory of a history grows with the heat between two walks, and a mistyped year
/// lies tens of thousands of units away.
#[test]
fn more_heat_than_all_stages_take_leaves_no_history() {
    let first = of(&walk(5, 5, 120.0), Prior::fresh()).posterior();
    for (days, is_history) in [(100.0, true), (200.0, false), (2.9e6, false)] {
        let moved = HeatMoved::from_days(days);
        assert_eq!(first.forward(moved).has_history(), is_history, "{days}");
    }
    for (mean, sd) in [(f64::NAN, 0.0), (-1.0, 0.0), (10.0, f64::INFINITY)] {
        assert!(!first.forward(HeatMoved { mean, sd }).has_history());
    }
}

#[test]
fn earlier_walks_narrow_the_band_when_they_agree() {
    let first = of(&walk(5, 5, 120.0), Prior::fresh());
    let history = first.posterior().forward(HeatMoved {
        mean: 200.0,
        sd: 10.0,
    });
    assert!(history.has_history());
    let today = walk(5, 5, 320.0);
    let alone = of(&today, Prior::fresh());
    let both = of(&today, history.clone());
    assert_sound(&both.whole_field(0.9));
    let width = |walk: &RollUp| walk.whole_field(0.9).reached.soft_dough.width();
    assert!(width(&both) < 0.95 * width(&alone));
    assert_eq!(contradiction(&alone, &history), None);
    // Forgotten, it is as if there had been none.
    let forgotten = of(&today, history.weakened(0.0));
    assert_eq!(
        bits(&forgotten.whole_field(0.9)),
        bits(&alone.whole_field(0.9))
    );
}

#[test]
fn a_contradiction_is_noticed_and_not_averaged_away() {
    let first = of(&walk(5, 5, 120.0), Prior::fresh());
    let history = first.posterior().forward(HeatMoved {
        mean: 200.0,
        sd: 10.0,
    });
    for (age, ahead) in [(800.0, 480.0), (-40.0, -360.0)] {
        let today = walk(5, 5, age);
        let alone = of(&today, Prior::fresh());
        let found = contradiction(&alone, &history).unwrap();
        assert!(found.history_applies < 0.5);
        assert!((found.ahead - ahead).abs() < 120.0, "{found:?}");
        let (both, alone) = (
            of(&today, history.clone()).whole_field(0.9),
            alone.whole_field(0.9),
        );
        assert!((both.position.mid - alone.position.mid).abs() < 0.05);
    }
}

#[test]
fn without_weather_the_days_are_wide() {
    let moved = HeatMoved::from_days(10.0);
    assert_eq!((moved.mean, moved.sd), (200.0, 60.0));
    assert_eq!(HeatMoved::from_days(-3.0).mean, 0.0);
}

#[test]
fn advice_follows_the_walk() {
    let (target, cost) = (Target::default(), WalkingCost::default());
    let empty = RollUp::new(Prior::fresh());
    assert_eq!(empty.advice(&target, &cost).verdict, Verdict::NoHeads);
    // However good two stops look, they cannot tell how much stops differ.
    let two = of(
        &vec![vec![head(Reading::Pliable, 100); 20]; 2],
        Prior::fresh(),
    );
    assert_ne!(two.advice(&target, &cost).verdict, Verdict::Enough);
    let many = of(&walk(20, 5, 520.0), Prior::fresh());
    let advice = many.advice(&target, &cost);
    assert_eq!(advice.verdict, Verdict::Enough);
    assert!(advice.more.is_empty());
    let strict = Target {
        stage_chance: 0.999,
        position_width: 0.05,
    };
    let some = of(&walk(4, 5, 300.0), Prior::fresh());
    let advice = some.advice(&strict, &cost);
    assert_eq!(advice.verdict, Verdict::OutOfReach);
    for pair in advice.more.windows(2) {
        assert!(pair[1].position_width < pair[0].position_width);
        assert!(pair[1].minutes > pair[0].minutes);
    }
    assert!(advice.more[0].position_width < advice.position_width);
}
