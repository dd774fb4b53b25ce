//! Air, grain, money and harvest against values published or computed elsewhere.

mod equilibrium;
mod harvest;
mod money;
mod psychrometrics;
