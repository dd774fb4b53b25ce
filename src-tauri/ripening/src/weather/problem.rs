//! What can be wrong with a weather record, and what was done about it.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use thiserror::Error;

use super::day::Span;

/// One thing found wrong, and its treatment. Every row that is not used as it
/// stands has one.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct WeatherProblem {
    /// Line of the file, where it has one (gaps have none).
    #[cfg_attr(feature = "ts", ts(type = "number | null"))]
    pub line: Option<u64>,
    /// The day or days it is about.
    pub span: Span,
    /// What is wrong.
    pub fault: WeatherFault,
    /// What was done.
    pub treatment: Treatment,
}

impl std::fmt::Display for WeatherProblem {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        if let Some(line) = self.line {
            write!(f, "line {line}: ")?;
        }
        if self.span.from == self.span.to {
            write!(f, "{}: ", self.span.from)?;
        } else {
            write!(f, "{} to {}: ", self.span.from, self.span.to)?;
        }
        write!(f, "{}; {}", self.fault, self.treatment)
    }
}

/// What is wrong with a day or a row.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, Error)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case", tag = "code")]
pub enum WeatherFault {
    /// 999 or the like, the usual sign for "not measured".
    #[error("{value} stands for a missing value")]
    MissingMark {
        /// The value as it stands.
        value: f64,
    },
    /// A high or a low is not given.
    #[error("high or low is not given")]
    NotGiven,
    /// Outside what is believable for a field (-80 to 140 F).
    #[error("{value_f:.1} F is not believable")]
    NotBelievable {
        /// The value in deg F.
        value_f: f64,
    },
    /// The low is above the high.
    #[error("low {low_f:.1} F is above high {high_f:.1} F")]
    LowAboveHigh {
        /// High, deg F.
        high_f: f64,
        /// Low, deg F.
        low_f: f64,
    },
    /// The row only makes sense in the other unit of temperature.
    #[error("high {high_f:.1} F and low {low_f:.1} F look like the other unit of temperature")]
    OtherUnit {
        /// High as read, deg F.
        high_f: f64,
        /// Low as read, deg F.
        low_f: f64,
    },
    /// The same date came before with the same values.
    #[error("this date came before, with the same values")]
    SameAgain,
    /// The same date came before with other values.
    #[error("this date came before, with other values")]
    Differs,
    /// The row is earlier than the one before it.
    #[error("earlier than the row before it")]
    OutOfOrder,
    /// Rain below 0, above 40 inches, or a missing mark.
    #[error("rain {value_in:.2} in is not believable")]
    Rain {
        /// As read, inches.
        value_in: f64,
    },
    /// Humidity outside 0 to 100.
    #[error("humidity {value} % is not believable")]
    Humidity {
        /// As read, percent.
        value: f64,
    },
    /// No row for these days.
    #[error("no temperatures")]
    Gap,
}

/// What was done about it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, Error)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Treatment {
    /// The day's temperatures were left out; a gap rule may fill them.
    #[error("temperatures left out")]
    TemperaturesLeftOut,
    /// Only this value was left out.
    #[error("value left out")]
    ValueLeftOut,
    /// High and low were exchanged, because nearly the whole file has them so.
    #[error("columns taken as exchanged")]
    Exchanged,
    /// The later row of the file replaced the earlier one.
    #[error("the later row was used")]
    LaterRowUsed,
    /// The row was ignored.
    #[error("row ignored")]
    Ignored,
    /// The row was put in its place.
    #[error("row put in its place")]
    PutInPlace,
    /// Filled by a straight line between the neighbouring days.
    #[error("filled by a straight line between the days beside it")]
    FilledByLine,
    /// Filled by the mean of the same dates in other years, moved to meet the
    /// days on either side.
    #[error("filled by the mean of the same dates in other years")]
    FilledByMean,
    /// Left open: sums over it are reported as incomplete.
    #[error("left open")]
    LeftOpen,
}

/// Why a whole weather record was refused.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum WeatherRefusal {
    /// Given as Fahrenheit, looks like Celsius.
    #[error(
        "temperatures given as F look like C (highest {highest:.1}, on {on}): name the columns high_c and low_c"
    )]
    LooksLikeCelsius {
        /// Highest value, as it stands.
        highest: f64,
        /// Its day.
        on: NaiveDate,
    },
    /// Given as Celsius, looks like Fahrenheit.
    #[error(
        "temperatures given as C look like F (highest {highest:.1}, on {on}): name the columns high_f and low_f"
    )]
    LooksLikeFahrenheit {
        /// Highest value, as it stands.
        highest: f64,
        /// Its day.
        on: NaiveDate,
    },
    /// Nothing usable.
    #[error("no day has both a high and a low")]
    NoDay,
}
