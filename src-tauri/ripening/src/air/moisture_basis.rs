//! The two ways to say how wet grain is.
//!
//! The trade says percent of the wet weight; the equations of equilibrium use
//! water per dry matter.

/// Percent dry basis from percent wet basis (0 to below 100).
pub fn dry_basis(wet_percent: f64) -> f64 {
    100.0 * wet_percent / (100.0 - wet_percent)
}

/// Percent wet basis from percent dry basis (0 or more).
pub fn wet_basis(dry_percent: f64) -> f64 {
    100.0 * dry_percent / (100.0 + dry_percent)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_two_bases_are_each_others_inverse() {
        for tenth in 0..600 {
            let wet = f64::from(tenth) / 10.0;
            assert!((wet_basis(dry_basis(wet)) - wet).abs() < 1e-12);
        }
        assert!((dry_basis(20.0) - 25.0).abs() < 1e-12);
    }
}
