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
//! Stations: 0 undisturbed air, 1 the openings of the inlets, 2 the upper deck, 4 the lower deck,
//! 5 the openings of the exits. All streams, both deck pressures and the oil are balanced together.
//!
//! # Rooms
//! Each room imports only rooms that stand before it; one example of each. The functions inside end
//! with examples of their own, most of them cases from a source or by hand.
//!
//! ## [`language`]: texts in the language that was chosen
//! ```
//! use coolpath_core::language::counted;
//!
//! assert_eq!(counted(3, "reading", "readings"), "3 readings");
//! ```
//!
//! ## [`units`]: dimensions, parsing and showing numbers
//! ```
//! use coolpath_core::units::typed::{Dimension, ParseError, UnitSystem, parse};
//!
//! // Twelve inches are 304.8 mm.
//! let width = parse("12", Dimension::Length, UnitSystem::Customary)?;
//! assert!((width - 0.3048).abs() < 1e-12);
//! # Ok::<(), ParseError>(())
//! ```
//!
//! ## [`math`]: roots, the normal distribution
//! ```
//! use coolpath_core::math::root::{RootError, bracketed_root};
//!
//! let root = bracketed_root(|x| x * x * x - 8.0, 0.0, 5.0, 1e-12)?;
//! assert!((root.x - 2.0).abs() < 1e-12);
//! # Ok::<(), RootError>(())
//! ```
//!
//! ## [`air`]: atmosphere, airspeeds, propeller
//! ```
//! use coolpath_core::air::atmosphere::{density, standard_pressure, standard_temperature};
//!
//! // 0.7364 kg/m³ at 5000 m by the tape, 4996 m of pressure altitude (US Standard Atmosphere 1976)
//! let air = density(standard_pressure(4996.0), standard_temperature(4996.0));
//! assert!((air - 0.7364).abs() < 5e-5);
//! ```
//!
//! ## [`engine`]: breathing, mixture, heads, oil, cooler
//! ```
//! use coolpath_core::engine::mixture::fuel_flow;
//!
//! // The fuel that burns with all the oxygen of 0.1 kg/s of air
//! assert!((fuel_flow(0.1, 1.0) - 0.0068).abs() < 1e-12);
//! ```
//!
//! ## [`path`]: openings, losses, the network and its solver, drag
//! ```
//! use coolpath_core::path::element::orifice_flow;
//!
//! // 800 Pa drive air of 1 kg/m³ at 40 m/s through 0.01 m².
//! assert!((orifice_flow(0.01, 800.0, 1.0) - 0.4).abs() < 1e-12);
//! ```
//!
//! ## [`document`]: what the builder says
//! ```
//! use coolpath_core::Design;
//!
//! // A design without anything typed is complete: every input has a default with its source.
//! let design = Design::default();
//! assert!(design.check().is_ok());
//! assert!(design.places().all(|(input, _)| !input.source.is_empty()));
//! ```
//!
//! ## [`answer`]: a condition solved
//! ```
//! use coolpath_core::answer::evaluate::evaluate;
//! use coolpath_core::answer::solved::EvaluateError;
//! use coolpath_core::document::example;
//!
//! let climb = evaluate(&example::design(), 1)?;
//! let across = climb.upper_deck - climb.lower_deck;
//! assert_eq!(climb.baffle_drop, across);
//! # Ok::<(), EvaluateError>(())
//! ```
//!
//! ## [`decide`]: size, compare, climb, shutter card, chances
//! ```
//! use coolpath_core::decide::size::{Demand, smallest_exit};
//! use coolpath_core::document::example;
//! use coolpath_core::units::quantity::kelvin;
//! use coolpath_core::units::si::{degf, inch2};
//!
//! // A colder limit takes a wider exit.
//! let smallest = |limit_degf: f64| {
//!     let mut design = example::design();
//!     design.installation.engine.head_limit = kelvin(degf(limit_degf));
//!     smallest_exit(&design, &Demand::nominal(&design), (inch2(20.0), inch2(140.0)))
//!         .map(|found| found.exit_m2)
//! };
//! assert!(smallest(400.0)? < smallest(390.0)?);
//! # Ok::<(), coolpath_core::decide::size::SizeError>(())
//! ```
//!
//! ## [`prove`]: logs, calibration, hot day, before and after
//! ```
//! use coolpath_core::prove::hot_day::{RULE_HEAD, by_rule};
//! use coolpath_core::units::si::degf;
//!
//! // 14 CFR 27.1043(c): 12 °F more on a day 12 °F hotter
//! let head = by_rule(degf(435.0), RULE_HEAD, degf(70.0), degf(82.0));
//! assert!((head - degf(447.0)).abs() < 1e-9);
//! ```
//!
//! ## [`workshop`]: areas, photographs, gauges
//! ```
//! use coolpath_core::workshop::area::Shape;
//!
//! // A string round a strip of 4 by 1 says 6.25.
//! let strip = Shape::Rectangle { width: 4.0, height: 1.0, radius: 0.0 };
//! assert!((strip.area_m2() - 4.0).abs() < 1e-12);
//! assert!((strip.string_area_m2() - 6.25).abs() < 1e-12);
//! ```
//!
//! # Numbers
//! Documents and answers use `uom` quantities; the formula rooms work in plain SI numbers whose
//! names or docs give the unit, next to the equation. Transcendental functions come from `libm`,
//! so that every platform computes the same bits.

pub mod air;
pub mod answer;
pub mod decide;
pub mod document;
pub mod engine;
pub mod language;
pub mod math;
pub mod path;
pub mod prove;
pub mod units;
pub mod workshop;

pub use crate::document::condition::Condition;
pub use crate::document::design::Design;
pub use crate::document::installation::Installation;

/// The example of the crate's own page runs with the others.
#[cfg(doctest)]
#[doc = include_str!("../README.md")]
struct Readme;
