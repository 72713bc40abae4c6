//! Sizing: how big inlets and exit must be to hold the limits in every condition.
//!
//! The builder's conditions are judged with the shutter fully open, which is the hardest case
//! for the heads (the cooler takes air from them) and the most that the oil can get. A size is
//! nominal, or robust when each limit is lowered by an [`Allowance`] for what is not known. A hot
//! turn-around ([`TurnAround`]) can be one more case: where the size for the steady conditions does
//! not hold it, the same search is made once more with it.

mod allowance;
mod chance;
pub mod course;
mod flap;
mod judge;
mod least_drag;
pub mod map;
mod remedy;
mod request;
mod search;
mod spot;
mod turn_around;
mod turned;

pub use crate::decide::size::allowance::allowance;
pub use crate::decide::size::chance::{chance_inside, least_chance};
pub use crate::decide::size::flap::{FlapSize, flap};
pub use crate::decide::size::judge::{cruise_drag_n, cruise_speed_of};
pub use crate::decide::size::least_drag::least_drag;
pub use crate::decide::size::remedy::{Remedy, remedies};
pub use crate::decide::size::request::{
    Allowance, Bounds, Demand, Margin, SizeError, USUAL_VELOCITY_RATIO, Wanted,
};
pub use crate::decide::size::search::{Found, inlets_for_velocity_ratio, smallest_exit};
pub use crate::decide::size::spot::{Nearest, Spot, spots};
pub use crate::decide::size::turn_around::TurnAround;
pub use crate::decide::size::turned::turn_around_margin;
