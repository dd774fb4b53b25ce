//! Daily weather: as it was read, cleaned by stated rules, and the seasons it
//! offers for the days ahead.

mod clean;
mod day;
mod distance;
mod ensemble;
mod fill;
mod normal;
mod problem;
mod units_check;

pub use clean::{Cleaned, RawDay, clean};
pub use day::{Day, Span, WeatherRecord};
pub use distance::distance_km;
pub use ensemble::{
    ENOUGH_SEASONS, EnsembleMaking, MOST_SEASONS, Member, NoEnsemble, WeatherEnsemble,
};
pub use fill::{LONGEST_LINE, LONGEST_MEAN};
pub use problem::{Treatment, WeatherFault, WeatherProblem, WeatherRefusal};
