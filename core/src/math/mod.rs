//! Numerics that know no physics: roots, highest places, linear equations, Broyden's update, fast powers, lags.

pub(crate) mod broyden;
pub mod elimination;
pub(crate) mod fast_power;
pub mod highest;
pub mod lag;
pub mod normal;
pub mod order;
pub mod regression;
pub mod root;
