//! What makes a design fit to be evaluated, and what is wrong where it is not.

use crate::document::alternative::MAX_ALTERNATIVES;
use crate::document::design::{Design, MAX_CONDITIONS, MAX_OUTLINE, VERSION};
use crate::document::installation::EngineKind;
use crate::document::quantity::Quantity;
use crate::document::reading::{MAX_MOMENTS, MAX_READINGS};
use crate::path::openings::MAX_OPENINGS;

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
            Self::LaterVersion { found, known } => write!(
                f,
                "This file has format {found}; this program reads formats up to {known}. \
                 Nothing was changed."
            ),
            Self::OutOfRange { id, label, place, value, least, most } => write!(
                f,
                "{label} ({id}, number {}) must be between {least} and {most} in SI units; it is \
                 {value}.",
                place + 1
            ),
            Self::Count { what, count, least, most } => {
                write!(f, "There must be {least} to {most} {what}; there are {count}.")
            }
            Self::NotModelled { kind } => f.write_str(refusal(*kind)),
            Self::ExitBlocked { place, .. } => write!(
                f,
                "Exit {}: pipes and brackets block more than the opening has.",
                place + 1
            ),
            Self::Outline { place } => write!(
                f,
                "Inlet {}: its traced outline must have at most {MAX_OUTLINE} points within 2 m.",
                place + 1
            ),
            Self::ReadingOutOfRange {
                place,
                quantity,
                value,
            } => {
                let (least, most) = quantity.permitted();
                write!(
                    f,
                    "Reading {}: {} must be between {least} and {most} in SI units; it is {value}.",
                    place + 1,
                    quantity.label()
                )
            }
            Self::ReadingOrder { place } => write!(
                f,
                "Reading {}: its moments must follow each other in time.",
                place + 1
            ),
            Self::ThermostatOrder { .. } => f.write_str(
                "The thermostat must begin to open below the temperature at which it is fully open.",
            ),
        }
    }
}

impl core::error::Error for DesignError {}

/// Why a kind of engine is refused, in words.
#[must_use]
pub fn refusal(kind: EngineKind) -> &'static str {
    match kind {
        EngineKind::AirCooledFlat => "",
        EngineKind::Turbocharged => {
            "Turbocharged engines are not modelled: the charge is hotter and denser than this \
             program assumes, and the turbocharger heats the bay."
        }
        EngineKind::LiquidCooled => {
            "Liquid-cooled engines are not modelled: their heat leaves through a radiator, not \
             through fins."
        }
        EngineKind::Radial => "Radial engines are not modelled: their air path has no two decks.",
        EngineKind::TwoStroke => {
            "Two-stroke engines are not modelled: the heat relations here are for four strokes."
        }
        EngineKind::Pusher => {
            "Pushers are not modelled: the propeller draws on the exit instead of feeding the inlets."
        }
        EngineKind::Updraft => {
            "Updraft cooling is not modelled: air here runs from above downward."
        }
    }
}

impl Design {
    /// The first thing that keeps the design from being evaluated.
    ///
    /// # Errors
    /// [`DesignError`] with the value and its bounds.
    pub fn check(&self) -> Result<(), DesignError> {
        if self.coolpath_design > VERSION {
            return Err(DesignError::LaterVersion {
                found: self.coolpath_design,
                known: VERSION,
            });
        }
        let kind = self.installation.engine.kind;
        if kind != EngineKind::AirCooledFlat {
            return Err(DesignError::NotModelled { kind });
        }
        for (what, count, most) in [
            ("inlets", self.installation.inlets.len(), MAX_OPENINGS),
            ("exits", self.installation.exits.len(), MAX_OPENINGS),
            ("conditions", self.conditions.len(), MAX_CONDITIONS),
        ] {
            if count == 0 || count > most {
                return Err(DesignError::Count {
                    what,
                    count,
                    least: 1,
                    most,
                });
            }
        }
        for (what, count, least, most) in [
            ("cylinders", self.installation.engine.cylinders, 2, 8),
            ("bends", self.installation.cooler.bends, 0, 20),
            ("cooler rows", self.installation.cooler.rows, 2, 40),
            (
                "louvers",
                self.installation
                    .exits
                    .iter()
                    .map(|exit| exit.louver_count)
                    .max()
                    .unwrap_or(1),
                1,
                100,
            ),
            ("blast tubes", self.installation.decks.blast_tubes, 0, 20),
        ] {
            if count < least || count > most {
                return Err(DesignError::Count {
                    what,
                    count: count.into(),
                    least: least.into(),
                    most: most.into(),
                });
            }
        }
        if self.alternatives.len() > MAX_ALTERNATIVES {
            return Err(DesignError::Count {
                what: "alternatives",
                count: self.alternatives.len(),
                least: 0,
                most: MAX_ALTERNATIVES,
            });
        }
        let outlines = self.installation.inlets.iter().map(|inlet| &inlet.outline);
        for (place, outline) in outlines.enumerate() {
            let mut lengths = outline.iter().flatten();
            if outline.len() > MAX_OUTLINE || !lengths.all(|length| length.abs() < 2.0) {
                return Err(DesignError::Outline { place });
            }
        }
        self.check_readings()?;
        for (input, place) in self.places() {
            let Some(value) = input.value(self, place) else {
                continue;
            };
            let (least, most) = input.permitted;
            if !(value >= least && value <= most) {
                return Err(DesignError::OutOfRange {
                    id: input.id,
                    label: input.label,
                    place,
                    value,
                    least,
                    most,
                });
            }
        }
        for (place, exit) in self.installation.exits.iter().enumerate() {
            let net_m2 = exit.area_m2(0.0).min(exit.area_m2(1.0));
            if net_m2 <= 0.0 {
                return Err(DesignError::ExitBlocked { place, net_m2 });
            }
        }
        let oil = &self.installation.oil;
        let (opens_k, full_k) = (oil.thermostat_opens.value, oil.thermostat_full.value);
        if oil.thermostat && opens_k >= full_k {
            return Err(DesignError::ThermostatOrder { opens_k, full_k });
        }
        Ok(())
    }

    fn check_readings(&self) -> Result<(), DesignError> {
        let moments = self.readings.iter().map(|reading| reading.moments.len());
        for (what, count, most) in [
            ("readings", self.readings.len(), MAX_READINGS),
            (
                "moments in a reading",
                moments.max().unwrap_or(0),
                MAX_MOMENTS,
            ),
        ] {
            if count > most {
                return Err(DesignError::Count {
                    what,
                    count,
                    least: 0,
                    most,
                });
            }
        }
        for (place, reading) in self.readings.iter().enumerate() {
            let times = reading.moments.iter().map(|moment| moment.seconds);
            let sorted = times.is_sorted_by(|a, b| a < b);
            if !sorted || reading.moments.iter().any(|m| !m.seconds.is_finite()) {
                return Err(DesignError::ReadingOrder { place });
            }
            for (&quantity, &value) in reading.moments.iter().flat_map(|m| &m.values) {
                let (least, most) = quantity.permitted();
                if !(value >= least && value <= most) {
                    return Err(DesignError::ReadingOutOfRange {
                        place,
                        quantity,
                        value,
                    });
                }
            }
        }
        Ok(())
    }
}
