//! Stage numbers, days and BBCH codes as published.

use ripening::Stage;

/// Vanderlip & Reeves 1972, Agronomy Journal 64:13-16, Table 1: stage number and
/// days after emergence.
#[test]
fn numbers_and_days_of_vanderlip_and_reeves() {
    let table = [
        (Stage::Boot, 5, 50),
        (Stage::HalfBloom, 6, 60),
        (Stage::SoftDough, 7, 70),
        (Stage::HardDough, 8, 85),
        (Stage::BlackLayer, 9, 95),
    ];
    for (stage, number, days) in table {
        assert_eq!(stage.published_number(), Some(number), "{stage:?}");
        assert_eq!(stage.published_days(), Some(days), "{stage:?}");
    }
    // The scale names neither heading nor milk.
    for stage in [Stage::Heading, Stage::Milk] {
        assert_eq!(stage.published_number(), None);
        assert_eq!(stage.published_days(), None);
    }
}

/// BBCH monograph 2001: 41-49 boot and 51-59 heading from its text; 65 full
/// flowering, 71 watery, 73/75/77 milk, 83 early dough, 85 soft dough, 87 hard
/// dough, 89 fully ripe from memory.
#[test]
fn bbch_codes_fall_in_their_stages() {
    let codes = [
        (Stage::Boot, vec![41, 45, 49]),
        (Stage::Heading, vec![51, 55, 59]),
        (Stage::HalfBloom, vec![65]),
        (Stage::Milk, vec![71, 73, 75, 77]),
        (Stage::SoftDough, vec![83, 85]),
        (Stage::HardDough, vec![87]),
        (Stage::BlackLayer, vec![89]),
    ];
    for (stage, codes) in codes {
        let (first, last) = stage.bbch();
        for code in codes {
            assert!((first..=last).contains(&code), "{code} is not {stage:?}");
        }
    }
    // Growth goes one way: no code belongs to two stages, none goes back.
    for pair in Stage::ALL.windows(2) {
        assert!(pair[0].bbch().1 < pair[1].bbch().0, "{pair:?}");
    }
}
