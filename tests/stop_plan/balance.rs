//! Stop plans as a sample: every place as likely as any other, stops spread more
//! evenly than by plain chance, and a walk hardly longer than the shortest.

#![allow(clippy::expect_used)] // in what the tests share

use headwalk_tests::simulation::plan::each;
use rand::RngExt;
use ripening::stop_plan::{Outline, PlanRequest, Spot, stop_plan};

/// An L of 38 acres: the unit square of 400 m without its north-east quarter,
/// corners as shares of 400 m.
const CORNERS: [[f64; 2]; 6] = [
    [0.0, 0.0],
    [1.0, 0.0],
    [1.0, 0.5],
    [0.5, 0.5],
    [0.5, 1.0],
    [0.0, 1.0],
];
const SIDE: f64 = 400.0;
/// Near the equator a degree east is a degree north, to 1 in 100,000.
const DEGREE: f64 = 111_195.0;

fn outline() -> Outline {
    let ring = CORNERS
        .iter()
        .map(|c| c.iter().map(|part| part * SIDE / DEGREE).collect())
        .collect();
    Outline::new(&[vec![ring]]).expect("sound")
}

fn in_field(place: [f64; 2]) -> bool {
    place[0] < 0.5 || place[1] < 0.5
}

/// Back to shares of the side.
fn place(spot: &Spot) -> [f64; 2] {
    [
        spot.longitude * DEGREE / SIDE,
        spot.latitude * DEGREE / SIDE,
    ]
}

fn request(stops: u32, edge_meters: f64, seed: u64) -> PlanRequest {
    PlanRequest {
        stops,
        spare: 0,
        edge_meters,
        start: None,
        seed,
    }
}

fn apart(a: [f64; 2], b: [f64; 2]) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

/// Spatial balance of Stevens & Olsen 2004 (JASA 99:262-278): the variance of the
/// shares of the field that lie nearest to each stop, here relative to even shares.
fn imbalance(stops: &[[f64; 2]]) -> f64 {
    let mut nearest = vec![0.0; stops.len()];
    let mut cells = 0.0;
    for i in 0..60 {
        for j in 0..60 {
            let cell = [(f64::from(i) + 0.5) / 60.0, (f64::from(j) + 0.5) / 60.0];
            if in_field(cell) {
                let closest = (0..stops.len())
                    .min_by(|a, b| apart(stops[*a], cell).total_cmp(&apart(stops[*b], cell)))
                    .expect("a stop");
                nearest[closest] += 1.0;
                cells += 1.0;
            }
        }
    }
    let n = stops.len() as f64;
    nearest
        .iter()
        .map(|count| (n * count / cells - 1.0) * (n * count / cells - 1.0))
        .sum::<f64>()
        / n
}

#[test]
fn stops_are_more_even_than_by_plain_chance() {
    let outline = outline();
    println!("stops  plan   plain chance  ratio  (variance of the shares nearest to a stop)");
    for stops in [3_u32, 5, 8, 12, 20] {
        let both = each(21, 400, |i, rng| {
            let plan = stop_plan(&outline, &request(stops, 0.0, i as u64)).expect("room");
            let planned: Vec<[f64; 2]> = plan.stops.iter().map(place).collect();
            let mut chance = Vec::new();
            while chance.len() < stops as usize {
                let place = [rng.random(), rng.random()];
                if in_field(place) {
                    chance.push(place);
                }
            }
            (imbalance(&planned), imbalance(&chance))
        });
        let n = both.len() as f64;
        let planned = both.iter().map(|pair| pair.0).sum::<f64>() / n;
        let chance = both.iter().map(|pair| pair.1).sum::<f64>() / n;
        println!(
            "{stops:5}  {planned:.3}  {chance:.3}         {:.2}",
            planned / chance
        );
        assert!(planned < 0.65 * chance, "{stops} stops");
    }
}

/// Each of the twelve squares of 100 m holds its share of the stops over many seeds.
#[test]
fn every_place_is_as_likely() {
    let outline = outline();
    let seeds = 4000;
    let counts = each(22, seeds, |i, _| {
        let plan = stop_plan(&outline, &request(5, 0.0, i as u64)).expect("room");
        let mut count = [0_u32; 16];
        for spot in &plan.stops {
            let [x, y] = place(spot);
            count[(x * 4.0) as usize + 4 * (y * 4.0) as usize] += 1;
        }
        count
    });
    let total = (5 * seeds) as f64;
    for square in 0..16 {
        let share = f64::from(counts.iter().map(|c| c[square]).sum::<u32>()) / total;
        let truth = if square % 4 >= 2 && square / 4 >= 2 {
            0.0
        } else {
            1.0 / 12.0
        };
        // Four standard errors of independent draws; balanced ones vary less.
        let slack = 4.0 * (truth * (1.0 - truth) / total).sqrt();
        assert!((share - truth).abs() <= slack, "square {square}: {share}");
    }
}

/// Mean of a field that changes from one side to the other: stops of a plan err
/// less than as many stops at random, which is what balance is for.
#[test]
fn a_slope_is_averaged_better_than_by_plain_chance() {
    let outline = outline();
    let truth = 5.0 / 12.0;
    let errors = each(23, 2000, |i, rng| {
        let plan = stop_plan(&outline, &request(5, 0.0, i as u64)).expect("room");
        let planned = plan.stops.iter().map(|s| place(s)[0]).sum::<f64>() / 5.0 - truth;
        let (mut sum, mut stops) = (0.0, 0);
        while stops < 5 {
            let place: [f64; 2] = [rng.random(), rng.random()];
            if in_field(place) {
                sum += place[0];
                stops += 1;
            }
        }
        let chance = sum / 5.0 - truth;
        (planned, chance)
    });
    let n = errors.len() as f64;
    let bias = errors.iter().map(|e| e.0).sum::<f64>() / n;
    let planned = (errors.iter().map(|e| e.0 * e.0).sum::<f64>() / n).sqrt();
    let chance = (errors.iter().map(|e| e.1 * e.1).sum::<f64>() / n).sqrt();
    println!(
        "error of the mean of a slope, 5 stops: plan {planned:.4} (bias {bias:.4}), plain chance {chance:.4}"
    );
    assert!(bias.abs() < 3.0 * planned / n.sqrt());
    assert!(planned < 0.7 * chance);
}

/// Against all 5,040 orders of seven stops.
#[test]
fn the_walk_is_hardly_longer_than_the_shortest() {
    let outline = outline();
    let ratios = each(24, 60, |i, _| {
        let plan = stop_plan(&outline, &request(7, 10.0, i as u64)).expect("room");
        let places: Vec<[f64; 2]> = plan.stops.iter().map(place).collect();
        let mut shortest = f64::INFINITY;
        each_order(&mut places.clone(), 0, &mut |order| {
            let length = order.windows(2).map(|leg| apart(leg[0], leg[1])).sum();
            shortest = shortest.min(length);
        });
        plan.walk_meters / (shortest * SIDE)
    });
    let mean = ratios.iter().sum::<f64>() / ratios.len() as f64;
    let worst = ratios.iter().copied().fold(0.0, f64::max);
    println!("length over the shortest: mean {mean:.4}, worst {worst:.4}");
    assert!(mean < 1.01 && worst < 1.1);
    assert!(
        ratios.iter().all(|ratio| *ratio > 0.999),
        "shorter than the shortest"
    );
}

fn each_order(places: &mut [[f64; 2]], from: usize, visit: &mut impl FnMut(&[[f64; 2]])) {
    if from == places.len() {
        visit(places);
    }
    for i in from..places.len() {
        places.swap(from, i);
        each_order(places, from + 1, visit);
        places.swap(from, i);
    }
}
