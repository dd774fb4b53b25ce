//! Shrink: what weight and value become when water leaves.

use super::{Formula, GrainError, Quantity, Term, Unit, Worked, in_range};

/// Pounds in a bushel of grain sorghum.
pub const POUNDS_PER_BUSHEL: f64 = 56.0;

/// Base moisture commonly used for grain sorghum, percent. Not universal: the
/// buyer's own base is a setting.
pub const PUBLISHED_BASE: f64 = 14.0;

fn checked(moisture: f64, base: f64) -> Result<(), GrainError> {
    in_range("moisture", moisture, 0.0, 60.0)?;
    in_range("base moisture", base, 5.0, 30.0)?;
    Ok(())
}

/// Weight at `base` percent moisture per weight at `moisture` percent: below 1
/// for wet grain, above 1 for grain drier than the base.
///
/// # Errors
/// [`GrainError`] outside 0-60 % or a base outside 5-30 %.
pub fn dry_share(moisture: f64, base: f64) -> Result<f64, GrainError> {
    checked(moisture, base)?;
    Ok((100.0 - moisture) / (100.0 - base))
}

/// Dollars that a hundredweight fetches at a price for base moisture.
///
/// Wet grain: a hundredweight as cut, shrunk to base. Grain drier than the
/// base: what had been a hundredweight at base moisture, since the buyer pays
/// for its lower weight as it is. So no moisture is worth more than the price.
///
/// # Errors
/// [`GrainError`] outside 0-60 %, a base outside 5-30 %, a price outside 0-1000.
pub fn value_per_cwt(moisture: f64, base: f64, price_per_cwt: f64) -> Result<f64, GrainError> {
    in_range("price per cwt", price_per_cwt, 0.0, 1000.0)?;
    let share = dry_share(moisture, base)?;
    Ok(if share > 1.0 {
        price_per_cwt / share
    } else {
        price_per_cwt * share
    })
}

/// Pounds at `moisture` percent that hold the dry matter of one bushel (56 lb)
/// at `base` percent.
///
/// # Errors
/// [`GrainError`] outside 0-60 % or a base outside 5-30 %.
pub fn pounds_equal_to_a_bushel(moisture: f64, base: f64) -> Result<f64, GrainError> {
    Ok(POUNDS_PER_BUSHEL / dry_share(moisture, base)?)
}

/// Weight of the water alone, percent of the weight as cut, for each point
/// above `base` percent: 1.163 at base 14.
///
/// # Errors
/// [`GrainError`] for a base outside 5-30 %.
pub fn water_per_point(base: f64) -> Result<f64, GrainError> {
    in_range("base moisture", base, 5.0, 30.0)?;
    Ok(100.0 / (100.0 - base))
}

/// Least shrink factor of a buyer that does not pay for water: the water's own,
/// cut off after the second digit as it is usually printed (1.16 at base 14).
///
/// # Errors
/// [`GrainError`] for a base outside 5-30 %.
pub fn least_shrink_per_point(base: f64) -> Result<f64, GrainError> {
    Ok(libm::floor(100.0 * water_per_point(base)?) / 100.0)
}

/// Most that a shrink factor can be, percent for a point (our limit).
pub const MOST_SHRINK_PER_POINT: f64 = 3.0;

/// Percent of its weight that a buyer takes off wet grain at a constant shrink
/// factor, never less than the water weighs; nothing at `base` and below it
/// (University of Arkansas FSA1078: nothing is added below base).
///
/// Buyers commonly take 1.2 to 1.5 for each point (South Dakota State
/// University Extension, of corn; common practice for sorghum, of which no
/// published factor was found).
///
/// # Errors
/// [`GrainError`] outside 0-60 %, a base outside 5-30 %, a factor above 3, or
/// one that pays for water.
pub fn buyer_weight_off(moisture: f64, base: f64, per_point: f64) -> Result<f64, GrainError> {
    checked(moisture, base)?;
    let least = least_shrink_per_point(base)?;
    if per_point < least {
        return Err(GrainError::PaysForWater {
            per_point,
            base,
            least,
        });
    }
    in_range("shrink per point", per_point, least, MOST_SHRINK_PER_POINT)?;
    let over = (moisture - base).max(0.0);
    Ok((over * taken_per_point(base, per_point)?).min(100.0))
}

/// What a factor takes off for a point: never less than the water weighs, though it
/// may be printed with two digits.
fn taken_per_point(base: f64, per_point: f64) -> Result<f64, GrainError> {
    Ok(per_point.max(water_per_point(base)?))
}

fn price_term(price_per_cwt: f64) -> Term {
    let price = Quantity::GrainPrice;
    Term::new("P", price, price_per_cwt, Unit::DollarsPerCwt)
}

/// Value of a hundredweight as cut under a buyer's shrink factor, with its
/// numbers.
///
/// # Errors
/// As [`buyer_weight_off`], and for a price outside 0-1000.
pub fn buyer_shrink_worked(
    moisture: f64,
    base: f64,
    per_point: f64,
    price_per_cwt: f64,
) -> Result<Worked, GrainError> {
    in_range("price per cwt", price_per_cwt, 0.0, 1000.0)?;
    let off = buyer_weight_off(moisture, base, per_point)?;
    Ok(Worked::new(
        Formula::BuyerShrink,
        vec![
            price_term(price_per_cwt),
            Term::new(
                "S",
                Quantity::ShrinkPerPoint,
                taken_per_point(base, per_point)?,
                Unit::Percent,
            ),
            Term::new("M", Quantity::Moisture, moisture.max(base), Unit::Percent),
            Term::new("B", Quantity::BaseMoisture, base, Unit::Percent),
        ],
        Term::new(
            "",
            Quantity::Value,
            price_per_cwt * (1.0 - off / 100.0),
            Unit::DollarsPerCwt,
        ),
    ))
}

/// [`dry_share`] with its numbers.
///
/// # Errors
/// As [`dry_share`].
pub fn shrink_worked(moisture: f64, base: f64) -> Result<Worked, GrainError> {
    let share = dry_share(moisture, base)?;
    Ok(Worked::new(
        Formula::DryShare,
        vec![
            Term::new("M", Quantity::Moisture, moisture, Unit::Percent),
            Term::new("B", Quantity::BaseMoisture, base, Unit::Percent),
        ],
        Term::new("", Quantity::DryShare, share, Unit::Ratio),
    ))
}

/// [`value_per_cwt`] with its numbers.
///
/// # Errors
/// As [`value_per_cwt`].
pub fn value_worked(moisture: f64, base: f64, price_per_cwt: f64) -> Result<Worked, GrainError> {
    let value = value_per_cwt(moisture, base, price_per_cwt)?;
    let formula = if moisture < base {
        Formula::OverDryValue
    } else {
        Formula::WetValue
    };
    Ok(Worked::new(
        formula,
        vec![
            price_term(price_per_cwt),
            Term::new("M", Quantity::Moisture, moisture, Unit::Percent),
            Term::new("B", Quantity::BaseMoisture, base, Unit::Percent),
        ],
        Term::new("", Quantity::Value, value, Unit::DollarsPerCwt),
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn grain_at_base_is_worth_the_price() {
        assert_eq!(dry_share(14.0, 14.0), Ok(1.0));
        assert_eq!(value_per_cwt(14.0, 14.0, 8.5), Ok(8.5));
    }

    #[test]
    fn value_falls_on_both_sides_of_the_base() {
        for step in 1..=60 {
            let away = f64::from(step) / 10.0;
            assert!(value_per_cwt(14.0 + away, 14.0, 8.5).unwrap() < 8.5);
            assert!(value_per_cwt(14.0 - away, 14.0, 8.5).unwrap() < 8.5);
        }
    }

    #[test]
    fn impossible_numbers_are_refused_by_name() {
        let error = dry_share(f64::NAN, 14.0).unwrap_err();
        assert!(
            error
                .to_string()
                .starts_with("moisture NaN is out of range")
        );
        assert!(dry_share(20.0, 0.0).is_err());
        assert!(value_per_cwt(20.0, 14.0, -1.0).is_err());
    }
}
