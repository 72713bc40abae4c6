//! Numerics that know no physics: roots, Broyden's update, fast powers.

pub(crate) mod broyden;
pub(crate) mod fast_power;
pub mod normal;
pub mod regression;
pub mod root;
