//! A formula with its numbers: data for the screens, which have the words.

use serde::{Deserialize, Serialize};

/// Which formula was worked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Formula {
    /// Weight at base moisture per weight as cut.
    DryShare,
    /// Wet grain: what a hundredweight as cut fetches.
    WetValue,
    /// Grain drier than the base: what a hundredweight at base moisture
    /// fetches after it has dried below.
    OverDryValue,
    /// Wet grain: what a hundredweight as cut fetches under a buyer's shrink
    /// factor.
    BuyerShrink,
    /// Fuel to dry a bushel.
    DryingCost,
    /// All energy (fuel and fans) to dry a bushel, by rule of thumb.
    AllEnergyCost,
    /// Bushels an acre on the ground from seeds counted in a square foot.
    GroundLoss,
}

impl Formula {
    /// The formula in the symbols of its terms.
    pub fn expression(self) -> &'static str {
        match self {
            Formula::DryShare => "(100 - M) / (100 - B)",
            Formula::WetValue => "P * (100 - M) / (100 - B)",
            Formula::OverDryValue => "P * (100 - B) / (100 - M)",
            Formula::BuyerShrink => "P * (1 - S * (M - B) / 100)",
            Formula::DryingCost => "(M - B) * F * P",
            Formula::AllEnergyCost => "(M - B) * 0.022 * P",
            Formula::GroundLoss => "N * 43560 / S / 56",
        }
    }

    /// Where the formula, or its fixed numbers, come from.
    pub fn source(self) -> &'static str {
        match self {
            Formula::DryShare | Formula::WetValue => {
                "Conservation of dry matter; base moisture is the buyer's"
            }
            Formula::OverDryValue => {
                "Conservation of dry matter; Texas A&M AgriLife over-dry example"
            }
            Formula::BuyerShrink => {
                "The buyer's factor; commonly 1.2 to 1.5 a point (SDSU Extension, of corn)"
            }
            Formula::DryingCost => "Iowa State University Extension: fuel per bushel and point",
            Formula::AllEnergyCost => "NDSU Extension rule of thumb",
            Formula::GroundLoss => "43,560 square feet an acre, 56 lb a bushel",
        }
    }
}

/// What a term stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Quantity {
    /// Moisture of the grain.
    Moisture,
    /// Moisture the price is for, or dried to.
    BaseMoisture,
    /// Price of grain.
    GrainPrice,
    /// Weight that a buyer takes off for a point.
    ShrinkPerPoint,
    /// Price of fuel.
    FuelPrice,
    /// Fuel for one bushel and one point.
    FuelUse,
    /// Weight at base moisture per weight as cut.
    DryShare,
    /// Value of grain.
    Value,
    /// Cost.
    Cost,
    /// Seeds counted on the ground.
    SeedsOnGround,
    /// Seeds to a pound.
    SeedsPerPound,
    /// Loss.
    Loss,
}

/// Unit of a term.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Unit {
    /// Percent, wet basis where it is moisture.
    Percent,
    /// A bare ratio.
    Ratio,
    /// Dollars a hundredweight (100 lb).
    DollarsPerCwt,
    /// Dollars a bushel (56 lb).
    DollarsPerBushel,
    /// Dollars a gallon.
    DollarsPerGallon,
    /// Dollars a therm.
    DollarsPerTherm,
    /// Dollars a kilowatt-hour.
    DollarsPerKilowattHour,
    /// Gallons for a bushel and a point.
    GallonsPerBushelPoint,
    /// Therms for a bushel and a point.
    ThermsPerBushelPoint,
    /// Kilowatt-hours for a bushel and a point.
    KilowattHoursPerBushelPoint,
    /// Seeds a square foot.
    SeedsPerSquareFoot,
    /// Seeds a pound.
    SeedsPerPound,
    /// Bushels an acre.
    BushelsPerAcre,
}

/// One number of a formula.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Term {
    /// Letter it has in the expression; empty for the result.
    pub symbol: String,
    /// What it stands for.
    pub quantity: Quantity,
    /// The number.
    pub value: f64,
    /// Its unit.
    pub unit: Unit,
}

impl Term {
    /// A term of an expression.
    pub fn new(symbol: &str, quantity: Quantity, value: f64, unit: Unit) -> Term {
        Term {
            symbol: symbol.to_owned(),
            quantity,
            value,
            unit,
        }
    }
}

/// A formula with the numbers that went in and the one that came out.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Worked {
    /// Which formula.
    pub formula: Formula,
    /// It, in the symbols of the terms.
    pub expression: String,
    /// What went in.
    pub terms: Vec<Term>,
    /// What came out.
    pub result: Term,
    /// Where it comes from.
    pub source: String,
}

impl Worked {
    /// Puts a worked formula together.
    pub fn new(formula: Formula, terms: Vec<Term>, result: Term) -> Worked {
        Worked {
            formula,
            expression: formula.expression().to_owned(),
            terms,
            result,
            source: formula.source().to_owned(),
        }
    }
}
