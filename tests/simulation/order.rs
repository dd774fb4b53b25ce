//! The answer does not depend on the order in which stops and heads were entered,
//! nor on corrections on the way: the same bits.

use headwalk_tests::simulation::field::{Kind, SPREADS};
use headwalk_tests::simulation::plan::{Breach, Cell, SIZES, World, any_age, each};
use headwalk_tests::simulation::scout::walk;
use headwalk_tests::simulation::tally::LEVEL;
use rand::RngExt;
use rand_chacha::ChaCha8Rng;
use ripening::rollup::{HeatMoved, Prior, RollUp, Target, WalkingCost, roll_up};
use ripening::{Head, Stage, WholeField};

fn bits(answer: &WholeField) -> Vec<u64> {
    let mut bits = vec![
        u64::from(answer.heads),
        u64::from(answer.stops),
        answer.stage as u64,
    ];
    let mut band = |band: &ripening::Band| {
        bits.extend([band.low, band.mid, band.high].map(f64::to_bits));
    };
    band(&answer.position);
    for stage in Stage::ALL {
        band(answer.reached.get(stage));
        band(answer.grain.get(stage));
    }
    bits.extend(Stage::ALL.map(|stage| answer.chance.get(stage).to_bits()));
    bits
}

fn shuffle<T>(things: &mut [T], rng: &mut ChaCha8Rng) {
    for i in (1..things.len()).rev() {
        things.swap(i, rng.random_range(0..=i));
    }
}

#[test]
fn order_of_entry_does_not_matter() {
    each(701, 18, |i, rng| {
        let cell = Cell {
            kind: Kind::ALL[i % 3],
            spread: SPREADS[i / 3 % 3],
            breach: Breach::Everything,
            world: World::Listed,
        };
        let field = cell.field(any_age(rng), rng);
        let size = SIZES[i / 9 % 3];
        let earlier = walk(&field.after(-220.0), cell.size(size), cell.eyes(), rng);
        let heads = walk(&field, cell.size(size), cell.eyes(), rng);

        let tidy = |prior: &Prior, heads: &[Vec<Head>]| {
            let mut roll_up = RollUp::new(prior.clone());
            for (key, stop) in heads.iter().enumerate() {
                roll_up.set_stop(key as u64, stop);
            }
            roll_up
        };
        let moved = HeatMoved {
            mean: 220.0,
            sd: 15.0,
        };
        let history = tidy(&Prior::fresh(), &earlier).posterior().forward(moved);
        for prior in [Prior::fresh(), history] {
            let expected = tidy(&prior, &heads);
            let advice = expected.advice(&Target::default(), &WalkingCost::default());

            // Stops in any order, heads in any order, some first entered wrong, one
            // entered and emptied again; answers asked for on the way.
            let mut order: Vec<usize> = (0..heads.len()).collect();
            shuffle(&mut order, rng);
            let mut messy = RollUp::new(prior.clone());
            messy.set_stop(99, &heads[0]);
            for stop in order {
                let mut entered = heads[stop].clone();
                shuffle(&mut entered, rng);
                if rng.random_bool(0.5) {
                    messy.set_stop(stop as u64, &entered[..entered.len() / 2]);
                    messy.whole_field(LEVEL);
                }
                messy.set_stop(stop as u64, &entered);
            }
            messy.set_stop(99, &[]);
            assert_eq!(
                bits(&messy.whole_field(LEVEL)),
                bits(&expected.whole_field(LEVEL))
            );
            assert_eq!(
                messy.advice(&Target::default(), &WalkingCost::default()),
                advice
            );

            // The keys do not matter either, nor does doing it at one stroke.
            let mut renamed = heads.clone();
            shuffle(&mut renamed, rng);
            for stop in &mut renamed {
                shuffle(stop, rng);
            }
            assert_eq!(
                bits(&roll_up(&renamed, &prior, LEVEL)),
                bits(&expected.whole_field(LEVEL))
            );
        }
    });
}
