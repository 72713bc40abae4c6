//! Cooling-air physics of an air-cooled, horizontally opposed piston engine.
//!
//! A [`Design`] holds an [`Installation`] and the [`Condition`]s it is judged in;
//! [`evaluate`](answer::evaluate::evaluate) answers with pressures, flows, temperatures, heat,
//! drag and margins. The way of the air, whose stations all names here refer to:
//!
//! ```text
//!             ┌─────────────► fins ────────────┐
//! 0 ─► 1 ─► 2 ┼─ seal leak, blast tubes ───────┼─► 4 ─► 5 (exits)
//!    inlets   ├─ duct ► shutter ► cooler ──────┘
//!             └─ overboard, cabin, induction      4 ◄── inflow leak
//! ```
//!
//! # Rooms
//! Each room imports only rooms that stand before it:
//!
//! | room | what lives there |
//! |---|---|
//! | [`units`] | dimensions, parsing and showing numbers |
//! | [`math`] | roots, Broyden's update, fast powers |
//! | [`air`] | atmosphere, airspeeds, propeller |
//! | [`engine`] | mixture, power, heads, oil, cooler |
//! | [`path`] | openings, losses, the network and its solver, drag |
//! | [`document`] | what the builder says: design file and table of inputs |
//! | [`answer`] | a condition solved: answers, bands, why |
//! | [`decide`] | size, compare, climb, shutter card, chances |
//! | [`prove`] | logs, calibration, hot day, before and after |
//! | [`workshop`] | areas, photographs, gauges |
//!
//! Documents and answers use `uom` quantities; the formula rooms work in plain SI numbers whose
//! names or docs give the unit, next to the equation. Transcendental functions come from `libm`,
//! so that every platform computes the same bits.
//!
//! # Example
//! ```
//! use coolpath_core::answer::evaluate::evaluate;
//! use coolpath_core::answer::solved::EvaluateError;
//! use coolpath_core::document::example;
//!
//! let climb = evaluate(&example::design(), 1)?;
//! assert!(climb.baffle_drop.value > 0.0);
//! # Ok::<(), EvaluateError>(())
//! ```

pub mod air;
pub mod answer;
pub mod decide;
pub mod document;
pub mod engine;
pub mod math;
pub mod path;
pub mod prove;
pub mod units;
pub mod workshop;

pub use crate::document::condition::Condition;
pub use crate::document::design::Design;
pub use crate::document::installation::Installation;
