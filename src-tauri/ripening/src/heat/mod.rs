//! Heat units: what a planting lives on between two dates.
//!
//! A heat unit means nothing without its base, its upper limit, its way of
//! counting a day and the table of marks that was made with them, so the four
//! travel together as one named [`HeatScale`].

mod daily;
mod line;
mod mark;
mod maturity;
mod plausible;
mod published;
mod scale;

pub use daily::Method;
pub use line::{HeatLine, HeatSum};
pub use mark::{Mark, MarkAt, MarkTable};
pub use maturity::{MaturityClass, heat_to_half_bloom};
pub use published::{
    extension_50_100, metric_10_38, published_scales, regional_center_50_86, us_50_100,
};
pub use scale::{HeatError, HeatScale};
