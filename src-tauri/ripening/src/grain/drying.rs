//! What it costs to dry a bushel, by fuel and price.
//!
//! Dryers differ more than prices do, so a cost is a range of published use.

use serde::{Deserialize, Serialize};

use super::{Formula, GrainError, Quantity, Term, Unit, Worked, in_range};

/// Heat of a gallon of propane, BTU (common practice).
const BTU_PER_GALLON: f64 = 91_500.0;
/// Heat of a therm, BTU, by definition.
const BTU_PER_THERM: f64 = 100_000.0;
/// Heat of a kilowatt-hour, BTU.
const BTU_PER_KILOWATT_HOUR: f64 = 3_412.0;

/// What the dryer burns.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Fuel {
    /// Priced by the gallon.
    Propane,
    /// Priced by the therm.
    NaturalGas,
    /// Priced by the kilowatt-hour.
    Electricity,
}

impl Fuel {
    /// Units of this fuel with the heat of one gallon of propane.
    fn per_gallon_of_propane(self) -> f64 {
        match self {
            Fuel::Propane => 1.0,
            Fuel::NaturalGas => BTU_PER_GALLON / BTU_PER_THERM,
            Fuel::Electricity => BTU_PER_GALLON / BTU_PER_KILOWATT_HOUR,
        }
    }

    fn use_unit(self) -> Unit {
        match self {
            Fuel::Propane => Unit::GallonsPerBushelPoint,
            Fuel::NaturalGas => Unit::ThermsPerBushelPoint,
            Fuel::Electricity => Unit::KilowattHoursPerBushelPoint,
        }
    }

    fn price_unit(self) -> Unit {
        match self {
            Fuel::Propane => Unit::DollarsPerGallon,
            Fuel::NaturalGas => Unit::DollarsPerTherm,
            Fuel::Electricity => Unit::DollarsPerKilowattHour,
        }
    }
}

/// Fuel to take one point of moisture out of one wet bushel, as gallons of
/// propane (0 to 0.1); other fuels by their heat.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct DryerUse {
    /// A thrifty dryer.
    pub low: f64,
    /// The usual figure.
    pub typical: f64,
    /// A hungry one.
    pub high: f64,
}

impl DryerUse {
    /// Iowa State University Extension: 0.018 gallon, from 0.010 to 0.025.
    pub const PUBLISHED: DryerUse = DryerUse {
        low: 0.010,
        typical: 0.018,
        high: 0.025,
    };

    /// All energy, fuel and fans: 0.022 gallon (NDSU Extension), over the span
    /// of the published figures, 0.010 (Iowa State, fuel) to 0.025.
    pub const ALL_ENERGY: DryerUse = DryerUse {
        low: 0.010,
        typical: 0.022,
        high: 0.025,
    };
}

/// Fuel cost of drying one wet bushel, dollars, over the range of dryers.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct DryingCost {
    /// With a thrifty dryer.
    pub low: f64,
    /// With the usual one.
    pub typical: f64,
    /// With a hungry one.
    pub high: f64,
    /// The usual figure with its numbers.
    pub worked: Worked,
}

/// Fuel cost of drying a wet bushel from `moisture` to `base` percent; nothing
/// when it is there already.
///
/// # Errors
/// [`GrainError`] for a moisture outside 0-60 %, a price outside 0-100, or a
/// use outside 0-0.1 or out of order.
pub fn drying_cost(
    moisture: f64,
    base: f64,
    fuel: Fuel,
    fuel_price: f64,
    usage: DryerUse,
) -> Result<DryingCost, GrainError> {
    in_range("moisture", moisture, 0.0, 60.0)?;
    in_range("base moisture", base, 5.0, 30.0)?;
    in_range("fuel price", fuel_price, 0.0, 100.0)?;
    in_range("fuel use", usage.high, 0.0, 0.1)?;
    in_range("fuel use", usage.low, 0.0, usage.high)?;
    in_range("fuel use", usage.typical, usage.low, usage.high)?;
    let points = (moisture - base).max(0.0);
    let per_gallon = points * fuel_price * fuel.per_gallon_of_propane();
    let typical = per_gallon * usage.typical;
    let worked = Worked::new(
        Formula::DryingCost,
        vec![
            Term::new("M", Quantity::Moisture, moisture.max(base), Unit::Percent),
            Term::new("B", Quantity::BaseMoisture, base, Unit::Percent),
            Term::new(
                "F",
                Quantity::FuelUse,
                usage.typical * fuel.per_gallon_of_propane(),
                fuel.use_unit(),
            ),
            Term::new("P", Quantity::FuelPrice, fuel_price, fuel.price_unit()),
        ],
        Term::new("", Quantity::Cost, typical, Unit::DollarsPerBushel),
    );
    Ok(DryingCost {
        low: per_gallon * usage.low,
        typical,
        high: per_gallon * usage.high,
        worked,
    })
}

/// NDSU's rule for all energy, fuel and fans: cents for one bushel and one
/// point at a propane price in dollars a gallon.
///
/// # Errors
/// [`GrainError`] for a price outside 0-100.
pub fn all_energy_cents_per_point(propane_price: f64) -> Result<f64, GrainError> {
    in_range("propane price", propane_price, 0.0, 100.0)?;
    Ok(propane_price * DryerUse::ALL_ENERGY.typical * 100.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dry_grain_costs_nothing_to_dry() {
        let cost = drying_cost(13.0, 14.0, Fuel::Propane, 2.0, DryerUse::PUBLISHED).unwrap();
        assert_eq!((cost.low, cost.typical, cost.high), (0.0, 0.0, 0.0));
    }

    #[test]
    fn the_same_heat_costs_the_same() {
        let propane = drying_cost(20.0, 14.0, Fuel::Propane, 0.915, DryerUse::PUBLISHED).unwrap();
        let gas = drying_cost(20.0, 14.0, Fuel::NaturalGas, 1.0, DryerUse::PUBLISHED).unwrap();
        assert!((propane.typical - gas.typical).abs() < 1e-12);
    }

    #[test]
    fn a_worked_cost_multiplies_out() {
        for fuel in [Fuel::Propane, Fuel::NaturalGas, Fuel::Electricity] {
            let cost = drying_cost(19.0, 14.0, fuel, 0.8, DryerUse::PUBLISHED).unwrap();
            let terms: Vec<f64> = cost.worked.terms.iter().map(|term| term.value).collect();
            let product = (terms[0] - terms[1]) * terms[2] * terms[3];
            assert!((product - cost.worked.result.value).abs() < 1e-12);
        }
    }

    #[test]
    fn a_use_out_of_order_is_refused() {
        let usage = DryerUse {
            low: 0.02,
            typical: 0.01,
            high: 0.03,
        };
        assert!(drying_cost(20.0, 14.0, Fuel::Propane, 2.0, usage).is_err());
    }
}
