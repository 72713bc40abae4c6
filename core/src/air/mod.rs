//! The air outside: atmosphere, airspeeds, what the propeller adds.

pub mod airspeed;
pub mod atmosphere;
pub mod propeller;
