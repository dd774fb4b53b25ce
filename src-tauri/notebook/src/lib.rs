//! The store on the scout's device, and the one typed service that every face
//! (phone, desk, command line) calls.

pub mod service;
