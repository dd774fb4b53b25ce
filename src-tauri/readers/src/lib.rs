//! Readers of files: heads, plantings, observations, weather and outlines, each row by
//! row, with every bad one named. Nothing is stored here.

pub mod head_file;
pub mod observation_file;
pub mod outline_file;
pub mod planting_file;
pub mod watch;
pub mod weather_file;
