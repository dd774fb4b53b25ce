//! Stop plans are sound: inside, off the edges, the same for the same seed, and
//! refused with a clear word where there is no room.

use proptest::prelude::*;
use ripening::stop_plan::{
    Outline, OutlineError, PacedRequest, PlanRequest, Spot, StopPlanError, paced_plan, stop_plan,
};

/// Meters to a degree on a sphere of 6,371 km; this file's own, to check by.
const DEGREE: f64 = 111_195.0;

type Ring = Vec<Vec<f64>>;

/// A ring of `radii` meters around a middle, as longitude and latitude.
fn ring(middle: Spot, radii: &[f64]) -> Ring {
    let turn = std::f64::consts::TAU / radii.len() as f64;
    radii
        .iter()
        .enumerate()
        .map(|(i, radius)| {
            let (north, east) = (turn * i as f64).sin_cos();
            vec![
                middle.longitude + radius * east / (DEGREE * middle.latitude.to_radians().cos()),
                middle.latitude + radius * north / DEGREE,
            ]
        })
        .collect()
}

/// Place in meters from the middle.
fn meters(middle: Spot, longitude: f64, latitude: f64) -> (f64, f64) {
    (
        (longitude - middle.longitude) * DEGREE * middle.latitude.to_radians().cos(),
        (latitude - middle.latitude) * DEGREE,
    )
}

/// Crossings of a ray, and the distance from the ring's lines.
fn inside_and_distance(middle: Spot, ring: &Ring, spot: Spot) -> (bool, f64) {
    let (x, y) = meters(middle, spot.longitude, spot.latitude);
    let corners: Vec<(f64, f64)> = ring.iter().map(|c| meters(middle, c[0], c[1])).collect();
    let mut inside = false;
    let mut nearest = f64::INFINITY;
    for i in 0..corners.len() {
        let (a, b) = (corners[i], corners[(i + 1) % corners.len()]);
        if (a.1 > y) != (b.1 > y) && x < a.0 + (y - a.1) / (b.1 - a.1) * (b.0 - a.0) {
            inside = !inside;
        }
        let (dx, dy) = (b.0 - a.0, b.1 - a.1);
        let along = (((x - a.0) * dx + (y - a.1) * dy) / (dx * dx + dy * dy)).clamp(0.0, 1.0);
        nearest = nearest.min((x - a.0 - along * dx).hypot(y - a.1 - along * dy));
    }
    (inside, nearest)
}

fn request(stops: u32, edge_meters: f64, seed: u64) -> PlanRequest {
    PlanRequest {
        stops,
        spare: 3,
        edge_meters,
        start: None,
        seed,
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_stop_is_inside_and_off_the_edges(
        radii in prop::collection::vec(120.0..500.0_f64, 3..14),
        latitude in -50.0..60.0_f64,
        longitude in -179.0..179.0_f64,
        hole in prop::bool::ANY,
        edge in 0.0..12.0_f64,
        stops in 1..20_u32,
        seed in any::<u64>(),
    ) {
        let middle = Spot { latitude, longitude };
        let outer = ring(middle, &radii);
        // The hole lies well within the smallest radius of a triangle.
        let mut rings = vec![outer.clone()];
        if hole {
            rings.push(ring(middle, &[25.0; 5]));
        }
        let outline = Outline::new(&[rings.clone()]).expect("a sound outline");
        let plan = stop_plan(&outline, &request(stops, edge, seed)).expect("room enough");
        prop_assert_eq!(plan.stops.len(), stops as usize);
        prop_assert_eq!(plan.spare.len(), 3);
        for spot in plan.stops.iter().chain(&plan.spare) {
            let (inside, distance) = inside_and_distance(middle, &outer, *spot);
            prop_assert!(inside && distance > edge - 0.1, "{:?} {} {}", spot, inside, distance);
            if hole {
                let (inside, distance) = inside_and_distance(middle, &rings[1], *spot);
                prop_assert!(!inside && distance > edge - 0.1);
            }
        }
        // The walk is as long as it says.
        let walked: f64 = plan.stops.windows(2).map(|leg| {
            let (x, y) = meters(middle, leg[1].longitude, leg[1].latitude);
            let (u, v) = meters(middle, leg[0].longitude, leg[0].latitude);
            (x - u).hypot(y - v)
        }).sum();
        prop_assert!((walked - plan.walk_meters).abs() < 0.01 * walked + 0.1);
        // Same seed, same plan, to the last bit.
        prop_assert_eq!(&plan, &stop_plan(&outline, &request(stops, edge, seed)).expect("again"));
    }

    #[test]
    fn paced_stops_are_inside_and_add_up(
        rows in 10..400_u32,
        paces in 20..900_u32,
        stops in 1..30_u32,
        seed in any::<u64>(),
    ) {
        let request = PacedRequest { stops, rows, paces, edge_rows: 2, edge_paces: 5, seed };
        let plan = paced_plan(&request).expect("room enough");
        prop_assert_eq!(plan.stops.len(), stops as usize);
        let (mut row, mut pace) = (0_i64, 0_i64);
        for stop in &plan.stops {
            prop_assert!((3..=rows - 2).contains(&stop.row), "{:?}", stop);
            prop_assert!((6..=paces - 5).contains(&stop.pace), "{:?}", stop);
            row += i64::from(stop.rows_on);
            pace += i64::from(stop.paces_on);
            prop_assert_eq!((row, pace), (i64::from(stop.row), i64::from(stop.pace)));
        }
        prop_assert_eq!(&plan, &paced_plan(&request).expect("again"));
    }
}

const HERE: Spot = Spot {
    latitude: 38.2,
    longitude: -99.1,
};

#[test]
fn other_seed_other_plan() {
    let outline = Outline::new(&[vec![ring(HERE, &[300.0; 4])]]).expect("sound");
    let plans: Vec<_> = (0..50)
        .map(|seed| stop_plan(&outline, &request(5, 10.0, seed)).expect("room"))
        .collect();
    for (i, plan) in plans.iter().enumerate() {
        assert!(!plans[..i].contains(plan), "seed {i} repeats a plan");
    }
}

/// The first stops of a longer draw are those of the shorter: spare places carry
/// on where the plan ended.
#[test]
fn spare_places_carry_the_draw_on() {
    let outline = Outline::new(&[vec![ring(HERE, &[300.0; 6])]]).expect("sound");
    let short = stop_plan(&outline, &request(5, 10.0, 3)).expect("room");
    let long = stop_plan(&outline, &request(8, 10.0, 3)).expect("room");
    let both: Vec<Spot> = short.stops.iter().chain(&short.spare).copied().collect();
    assert!(both.iter().all(|spot| long.stops.contains(spot)));
}

#[test]
fn walk_begins_at_the_stop_nearest_the_start_where_that_is_short() {
    let outline = Outline::new(&[vec![ring(HERE, &[300.0; 6])]]).expect("sound");
    let start = Spot {
        latitude: HERE.latitude - 0.004,
        ..HERE
    };
    let asked = PlanRequest {
        start: Some(start),
        ..request(6, 10.0, 4)
    };
    let from_gate = stop_plan(&outline, &asked).expect("room");
    let free = stop_plan(&outline, &request(6, 10.0, 4)).expect("room");
    let to_gate = |spot: &Spot| {
        let (x, y) = meters(start, spot.longitude, spot.latitude);
        x.hypot(y)
    };
    assert!(to_gate(&from_gate.stops[0]) <= to_gate(&from_gate.stops[5]));
    assert!(from_gate.walk_meters >= free.walk_meters);
    let far = PlanRequest {
        start: Some(Spot {
            latitude: 48.0,
            ..HERE
        }),
        ..asked
    };
    assert_eq!(stop_plan(&outline, &far), Err(StopPlanError::Start));
}

/// A field in two parts, a road between them: stops on both sides, none on the road.
#[test]
fn parts_are_one_field() {
    let square = |west: f64, east: f64| {
        vec![vec![
            vec![west, 38.0],
            vec![east, 38.0],
            vec![east, 38.004],
            vec![west, 38.004],
        ]]
    };
    let outline =
        Outline::new(&[square(-99.0, -98.996), square(-98.9955, -98.991)]).expect("sound");
    let plan = stop_plan(&outline, &request(12, 15.0, 9)).expect("room");
    let west = plan.stops.iter().filter(|s| s.longitude < -98.996).count();
    assert!((4..=8).contains(&west), "{west} of 12 stops on one half");
    assert!(
        !plan
            .stops
            .iter()
            .any(|s| (-98.996..-98.9955).contains(&s.longitude))
    );
}

#[test]
fn rooms_too_small_are_refused() {
    let strip = Outline::new(&[vec![vec![
        vec![-99.0, 38.0],
        vec![-98.99, 38.0],
        vec![-98.99, 38.00015],
        vec![-99.0, 38.00015],
    ]]])
    .expect("a strip of 17 m is sound");
    assert!(stop_plan(&strip, &request(5, 5.0, 1)).is_ok());
    assert_eq!(
        stop_plan(&strip, &request(5, 10.0, 1)),
        Err(StopPlanError::TooNarrow(10.0))
    );
    assert_eq!(
        stop_plan(&strip, &request(0, 5.0, 1)),
        Err(StopPlanError::Stops(3))
    );
    assert_eq!(
        stop_plan(&strip, &request(61, 5.0, 1)),
        Err(StopPlanError::Stops(64))
    );
    for edge in [-1.0, f64::INFINITY] {
        assert_eq!(
            stop_plan(&strip, &request(5, edge, 1)),
            Err(StopPlanError::EdgeDistance(edge))
        );
    }
    let paced = PacedRequest {
        stops: 5,
        rows: 10,
        paces: 10,
        edge_rows: 5,
        edge_paces: 1,
        seed: 1,
    };
    assert_eq!(paced_plan(&paced), Err(StopPlanError::TooFewRows(10, 10)));
    // Two rows of two paces hold four different stops, not five.
    let corner = PacedRequest {
        edge_rows: 4,
        edge_paces: 4,
        ..paced
    };
    assert_eq!(paced_plan(&corner), Err(StopPlanError::TooFewRows(10, 10)));
    assert!(paced_plan(&PacedRequest { stops: 4, ..corner }).is_ok());
}

#[test]
fn odd_outlines_are_refused_in_plain_words() {
    let refused = |corners: &[[f64; 2]]| {
        let ring = corners.iter().map(|c| c.to_vec()).collect();
        Outline::new(&[vec![ring]]).expect_err("refused")
    };
    assert_eq!(
        Outline::new(&[]).expect_err("refused"),
        OutlineError::TooFewCorners
    );
    assert_eq!(
        Outline::new(&[vec![]]).expect_err("refused"),
        OutlineError::TooFewCorners
    );
    assert_eq!(
        refused(&[[-99.0, 38.0], [-99.01, 38.0]]),
        OutlineError::TooFewCorners
    );
    // The same corner three times is one corner.
    assert_eq!(refused(&[[-99.0, 38.0]; 4]), OutlineError::TooFewCorners);
    // Latitude first: -99 is no latitude.
    let swapped = refused(&[[38.0, -99.0], [38.0, -99.01], [38.01, -99.0]]);
    assert!(matches!(
        swapped,
        OutlineError::NotOnEarth { corner: 1, .. }
    ));
    assert!(swapped.to_string().contains("longitude comes first"));
    assert!(matches!(
        refused(&[[f64::NAN, 38.0], [-99.0, 38.0], [-99.0, 38.1]]),
        OutlineError::NotOnEarth { .. }
    ));
    assert_eq!(
        refused(&[[-99.0, 38.0], [-97.0, 38.0], [-97.0, 39.0]]),
        OutlineError::TooLarge
    );
    assert!(matches!(
        refused(&[[-99.0, 38.0], [-98.9999, 38.0], [-98.9999, 38.0001]]),
        OutlineError::TooSmall(_)
    ));
    // A bow tie.
    assert!(matches!(
        refused(&[
            [-99.0, 38.0],
            [-98.99, 38.01],
            [-98.99, 38.0],
            [-99.0, 38.01]
        ]),
        OutlineError::NotPlain(_)
    ));
    // A hole that is not in the field.
    let hole_outside = Outline::new(&[vec![
        ring(HERE, &[200.0; 4]),
        ring(
            Spot {
                longitude: -99.0,
                ..HERE
            },
            &[20.0; 4],
        ),
    ]]);
    assert!(matches!(hole_outside, Err(OutlineError::NotPlain(_))));
    // A position of one number.
    assert!(matches!(
        Outline::new(&[vec![vec![vec![1.0], vec![2.0], vec![3.0]]]]),
        Err(OutlineError::NotOnEarth { .. })
    ));
}
