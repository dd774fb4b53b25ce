//! Air, grain, money and harvest against values published or computed elsewhere.

mod equilibrium;
mod money;
mod psychrometrics;
