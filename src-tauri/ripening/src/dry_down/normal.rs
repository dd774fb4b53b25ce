//! The standard normal distribution.

/// Probability below `z`.
pub(super) fn below(z: f64) -> f64 {
    0.5 * libm::erfc(-z * std::f64::consts::FRAC_1_SQRT_2)
}

/// The `z` with this probability below it, by Newton steps on [`below`] from a
/// rough start (Hastings' approximation, Abramowitz & Stegun 26.2.23).
/// Probabilities are held to 1e-12 from the ends.
pub(super) fn quantile(probability: f64) -> f64 {
    let p = probability.clamp(1e-12, 1.0 - 1e-12);
    let tail = p.min(1.0 - p);
    let t = (-2.0 * libm::log(tail)).sqrt();
    let rough = t
        - (2.515_517 + t * (0.802_853 + t * 0.010_328))
            / (1.0 + t * (1.432_788 + t * (0.189_269 + t * 0.001_308)));
    let mut z = if p < 0.5 { -rough } else { rough };
    for _ in 0..3 {
        let density = libm::exp(-0.5 * z * z) / (2.0 * std::f64::consts::PI).sqrt();
        z -= (below(z) - p) / density;
    }
    z
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quantile_and_probability_are_each_others_inverse() {
        for step in 1..1000 {
            let p = f64::from(step) / 1000.0;
            assert!((below(quantile(p)) - p).abs() < 1e-12, "{p}");
        }
        // Tables of the normal distribution.
        assert!((quantile(0.9) - 1.281_551_566).abs() < 1e-8);
        assert!((quantile(0.975) - 1.959_963_985).abs() < 1e-8);
    }
}
