//! What can be wrong with a design, in words.

use crate::document::design::MAX_OUTLINE;
use crate::document::installation::EngineKind;
use crate::document::quantity::Quantity;
use crate::language::tr;

/// Why a design cannot be evaluated.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum DesignError {
    /// The file comes from a later version of this program.
    LaterVersion {
        /// Version in the file.
        found: u32,
        /// Latest version that can be read.
        known: u32,
    },
    /// A number lies outside its permitted range.
    OutOfRange {
        /// The input.
        id: &'static str,
        /// What the builder calls it.
        label: &'static str,
        /// Its place in a list.
        place: usize,
        /// The number, SI.
        value: f64,
        /// Lowest permitted, SI.
        least: f64,
        /// Highest permitted, SI.
        most: f64,
    },
    /// A list has too few or too many entries.
    Count {
        /// What is counted.
        what: &'static str,
        /// How many there are.
        count: usize,
        /// Fewest permitted.
        least: usize,
        /// Most permitted.
        most: usize,
    },
    /// This kind of engine is not modelled.
    NotModelled {
        /// The kind.
        kind: EngineKind,
    },
    /// More of an exit is blocked than is open.
    ExitBlocked {
        /// Its place in the list.
        place: usize,
        /// Net area, m².
        net_m2: f64,
    },
    /// The range noted with a calibrated value is none: out of order, too wide or beside the value.
    Range {
        /// The input.
        id: &'static str,
        /// What the builder calls it.
        label: &'static str,
        /// Its place in a list.
        place: usize,
        /// The range, SI.
        range: (f64, f64),
    },
    /// A traced outline has too many points, or lies outside any cowl.
    Outline {
        /// Place of the inlet.
        place: usize,
    },
    /// A reading holds a number that no instrument shows.
    ReadingOutOfRange {
        /// Its place in the list.
        place: usize,
        /// The quantity.
        quantity: Quantity,
        /// The number, SI.
        value: f64,
    },
    /// The moments of a reading are not in the order of time.
    ReadingOrder {
        /// Its place in the list.
        place: usize,
    },
    /// The thermostat's temperatures are out of order.
    ThermostatOrder {
        /// Begins to open, K.
        opens_k: f64,
        /// Fully open, K.
        full_k: f64,
    },
}

impl core::fmt::Display for DesignError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::LaterVersion { found, known } => f.write_str(&tr!(
                "This file has format {}; this program reads formats up to {}. \
                 Nothing was changed.",
                found, known
            )),
            Self::OutOfRange { id, label, place, value, least, most } => f.write_str(&tr!(
                "{} ({}, number {}) must be between {} and {} in SI units; it is \
                 {}.",
                label, id, place + 1, least, most, value
            )),
            Self::Count { what, count, least, most } => {
                f.write_str(&tr!(
                    "There must be {} to {} {}; there are {}.",
                    least, most, tr(what), count
                ))
            }
            Self::NotModelled { kind } => f.write_str(refusal(*kind)),
            Self::ExitBlocked { place, .. } => f.write_str(&tr!(
                "Exit {}: pipes and brackets block more than the opening has.",
                place + 1
            )),
            Self::Range { label, place, range, .. } => f.write_str(&tr!(
                "{} (number {}): its calibrated range, {} to {} in SI units, must be in order, \
                 within what is permitted, and hold the value. Type another value, or mark it as \
                 measured.",
                label, place + 1, range.0, range.1
            )),
            Self::Outline { place } => f.write_str(&tr!(
                "Inlet {}: its traced outline must have at most {} points within 2 m.",
                place + 1, MAX_OUTLINE
            )),
            Self::ReadingOutOfRange {
                place,
                quantity,
                value,
            } => {
                let (least, most) = quantity.permitted();
                f.write_str(&tr!(
                    "Reading {}: {} must be between {} and {} in SI units; it is {}.",
                    place + 1, quantity.label(), least, most, value
                ))
            }
            Self::ReadingOrder { place } => f.write_str(&tr!(
                "Reading {}: its moments must follow each other in time.",
                place + 1
            )),
            Self::ThermostatOrder { .. } => f.write_str(
                tr(
                    "The thermostat must begin to open below the temperature at which it is fully open.",
                ),
            ),
        }
    }
}

impl core::error::Error for DesignError {}

/// Why a kind of engine is refused, in words.
#[must_use]
pub(crate) fn refusal(kind: EngineKind) -> &'static str {
    match kind {
        EngineKind::AirCooledFlat | EngineKind::Pusher => "",
        EngineKind::Turbocharged => tr(
            "Turbocharged engines are not modelled: the charge is hotter and denser than this \
             program assumes, and the turbocharger heats the bay.",
        ),
        EngineKind::LiquidCooled => tr(
            "Liquid-cooled engines are not modelled: their heat leaves through a radiator, not \
             through fins.",
        ),
        EngineKind::Radial => {
            tr("Radial engines are not modelled: their air path has no two decks.")
        }
        EngineKind::TwoStroke => {
            tr("Two-stroke engines are not modelled: the heat relations here are for four strokes.")
        }
        EngineKind::Updraft => tr(
            "Updraft cooling is not modelled: no source is known here for what the fins do with air \
             from below, and for how much the exhaust warms that air before it reaches them.",
        ),
    }
}
