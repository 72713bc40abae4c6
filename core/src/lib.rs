//! Cooling-air physics of an air-cooled, horizontally opposed piston engine.
//!
//! A [`Design`] holds an [`Installation`] and the [`Condition`]s it is judged in;
//! [`evaluate`](evaluate::evaluate) answers with pressures, flows, temperatures, heat, drag and
//! margins. Documents and answers use `uom` quantities; the formula modules (`air`, `loss`,
//! `cylinders`, `path` …) work in plain SI numbers whose names or docs give the unit, next to the
//! equation. Transcendental functions come from `libm`, so that every platform computes the same
//! bits.
//!
//! ```
//! use coolpath_core::{demo, evaluate};
//!
//! let design = demo::design();
//! let climb = evaluate::evaluate(&design, 1)?;
//! assert!(climb.baffle_drop.value > 0.0);
//! # Ok::<(), evaluate::EvaluateError>(())
//! ```

pub mod air;
pub mod airspeed;
pub mod area;
pub mod band;
pub mod before_after;
pub mod calibrate;
pub mod climb;
pub mod compare;
pub mod condition;
pub mod correct;
pub mod cylinders;
pub mod demo;
pub mod design;
pub mod drag;
pub mod evaluate;
pub mod gauge;
mod hold;
pub mod inputs;
pub mod installation;
pub mod known_point;
pub mod log;
pub mod loss;
pub mod mixture;
pub mod oil;
pub mod path;
pub mod photo;
pub mod power;
pub mod prepare;
pub mod propeller;
mod raised;
pub mod readings;
pub mod root;
pub mod shutter;
pub mod shutter_card;
pub mod size;
pub mod sweep;
pub mod transient;
pub mod uncertainty;
pub mod units;
pub mod warning;
pub mod why;
pub mod worth;

pub use condition::Condition;
pub use design::Design;
pub use installation::Installation;
