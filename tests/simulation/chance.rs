//! `chance`: when the model gives a stage 70 %, it is that stage 7 times in 10;
//! and its log score beats what the counts at the stops would give.

use headwalk_tests::simulation::field::{Kind, SPREADS};
use headwalk_tests::simulation::plan::{Breach, Cell, SIZES, World, each, long};
use headwalk_tests::simulation::rivals::stage_chances;
use headwalk_tests::simulation::scout::walk;
use headwalk_tests::simulation::tally::{LEVEL, Verdict, slack};
use rand::RngExt;
use ripening::Stage;
use ripening::rollup::{Prior, roll_up};

/// Upper ends of the classes of the reliability table.
const CLASSES: [f64; 7] = [0.02, 0.15, 0.35, 0.65, 0.85, 0.98, 1.0];

/// Nobody is charged for less than one in a thousand.
const LEAST: f64 = 1e-3;

/// The true stage, what the model gives each stage, and what the rival does.
type Found = (usize, [f64; 7], [f64; 7]);

#[test]
fn chances_of_the_stage_are_calibrated() {
    let long = long();
    let fields = if long { 9072 } else { 756 };
    let found = each(201, fields, |i, rng| {
        let cell = Cell {
            kind: Kind::ALL[i % 3],
            spread: SPREADS[i / 3 % 3],
            breach: Breach::ALL[i / 9 % 7],
            world: World::Listed,
        };
        // From the boot on.
        let middle = rng.random_range(-350.0..1280.0);
        let field = cell.field(middle, rng);
        let heads = walk(&field, cell.size(SIZES[i / 63 % 3]), cell.eyes(), rng);
        let chance = roll_up(&heads, &Prior::fresh(), LEVEL).chance;
        let ours = Stage::ALL.map(|stage| *chance.get(stage));
        (field.truth().stage.index(), ours, stage_chances(&heads))
    });

    let mut verdict = Verdict::default();
    println!("\n{fields} fields: what the model says of each stage, and how often it is so");
    println!("chance      n     mean    so      rival n  mean    so");
    let mut from = 0.0;
    for to in CLASSES {
        let class = |of: fn(&Found) -> [f64; 7]| {
            let (mut n, mut sum, mut so) = (0.0, 0.0, 0.0);
            for field in &found {
                for (stage, chance) in of(field).into_iter().enumerate() {
                    if chance > from && chance <= to {
                        n += 1.0;
                        sum += chance;
                        so += if field.0 == stage { 1.0 } else { 0.0 };
                    }
                }
            }
            (n, sum / n, so / n)
        };
        let (n, mean, so) = class(|field| field.1);
        let (rival_n, rival_mean, rival_so) = class(|field| field.2);
        println!(
            "to {to:.2}  {n:6}  {mean:.3}  {so:.3}   {rival_n:6}  {rival_mean:.3}  {rival_so:.3}"
        );
        // Classes with few members say little.
        if n >= 200.0 {
            let se = (mean * (1.0 - mean) / n).sqrt();
            verdict.within(
                &format!("so less said, up to {to}"),
                so - mean,
                -0.05,
                0.05,
                slack(se, long),
            );
        }
        from = to;
    }

    let gains: Vec<f64> = found
        .iter()
        .map(|(stage, ours, rival)| ours[*stage].max(LEAST).ln() - rival[*stage].max(LEAST).ln())
        .collect();
    let n = gains.len() as f64;
    let score = |of: fn(&Found) -> f64| {
        found
            .iter()
            .map(|field| of(field).max(LEAST).ln())
            .sum::<f64>()
            / n
    };
    let gain = gains.iter().sum::<f64>() / n;
    let se = (gains.iter().map(|g| (g - gain) * (g - gain)).sum::<f64>()).sqrt() / n;
    println!(
        "mean log score: model {:.4}, rival {:.4}, gain {gain:.4} +-{se:.4}",
        score(|field| field.1[field.0]),
        score(|field| field.2[field.0])
    );
    verdict.within(
        "gain in log score",
        gain,
        0.0,
        f64::INFINITY,
        slack(se, long),
    );
    for (_, ours, _) in &found {
        assert!(
            (ours.iter().sum::<f64>() - 1.0).abs() < 1e-9,
            "chances add up to one"
        );
    }
    verdict.settle();
}
