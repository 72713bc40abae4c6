//! The design file: one installation, its conditions, and what the builder has measured.

use crate::document::alternative::Alternative;
use crate::document::condition::{Condition, Phase};
use crate::document::installation::Installation;
use crate::document::reading::{Instruments, Reading};
use serde::{Deserialize, Serialize};

/// Version of the file that this program writes.
pub const VERSION: u32 = 3;
/// Most conditions in one design.
pub const MAX_CONDITIONS: usize = 24;

/// Most points of a traced outline.
pub const MAX_OUTLINE: usize = 400;

/// One design file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Design {
    /// Version of the file's format.
    pub coolpath_design: u32,
    /// Name of the design.
    #[serde(default)]
    pub name: String,
    /// The installation.
    #[serde(default)]
    pub installation: Installation,
    /// The conditions it is judged in.
    #[serde(default)]
    pub conditions: Vec<Condition>,
    /// Inputs that the builder has measured, so that they carry no range: `id` or `id#place`.
    #[serde(default)]
    pub measured: Vec<String>,
    /// Inputs that stand for what the builder has not told yet.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub assumed: Vec<Assumed>,
    /// Other installations to compare with; absent from files without any.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub alternatives: Vec<Alternative>,
    /// What was read in flight, as the instruments showed it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub readings: Vec<Reading>,
    /// What must be added to what the instruments show.
    #[serde(default, skip_serializing_if = "Instruments::is_empty")]
    pub instruments: Instruments,
    /// Inputs whose value and range come from the readings.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub calibrated: Vec<Calibrated>,
    /// What was changed on the aircraft, and when.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub changes: Vec<Change>,
}

/// An input that was calibrated with readings.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Calibrated {
    /// The input: `id` or `id#place`.
    pub input: String,
    /// Value that was found, SI. Another value in the design is no longer a calibrated one.
    pub value: f64,
    /// Range in which it lies in about nine cases in ten, SI.
    pub likely: (f64, f64),
}

/// An input that holds what was taken for it until the builder tells his own.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Assumed {
    /// The input: `id` or `id#place`.
    pub input: String,
    /// Value that was taken, SI. Another value in the design is no longer an assumed one.
    pub value: f64,
}

/// One entry of the change log.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Change {
    /// When, as the builder writes it.
    pub day: String,
    /// What was changed.
    pub what: String,
}

impl Default for Design {
    fn default() -> Self {
        Self {
            coolpath_design: VERSION,
            name: "New design".to_owned(),
            installation: Installation::default(),
            conditions: vec![Condition::default()],
            measured: Vec::new(),
            assumed: Vec::new(),
            alternatives: Vec::new(),
            readings: Vec::new(),
            instruments: Instruments::new(),
            calibrated: Vec::new(),
            changes: Vec::new(),
        }
    }
}

impl Design {
    /// Name of a condition; empty without one at this place.
    #[must_use]
    pub fn condition_name(&self, place: usize) -> &str {
        let condition = self.conditions.get(place);
        condition.map_or("", |condition| condition.name.as_str())
    }

    /// Whether a fit sees a reading: it is marked for it, and no stretch of a flight that is fitted as
    /// a whole, which would count twice.
    #[must_use]
    pub fn fits(&self, place: usize) -> bool {
        let reading = self.readings.get(place);
        reading.is_some_and(|reading| reading.is_fitted() && !self.is_fitted_whole(reading))
    }

    /// Whether a reading is a stretch of a flight that is fitted as a whole.
    #[must_use]
    pub fn is_fitted_whole(&self, reading: &Reading) -> bool {
        let is_of_it = |other: &Reading| {
            other.whole && other.is_fitted() && !other.log.is_empty() && other.log == reading.log
        };
        !reading.whole && self.readings.iter().any(is_of_it)
    }

    /// The readings that a fit sees.
    pub fn fitted_readings(&self) -> impl Iterator<Item = &Reading> {
        let all = self.readings.iter().enumerate();
        all.filter(|(place, _)| self.fits(*place))
            .map(|(_, reading)| reading)
    }

    /// Place of the first condition in level flight; `None` without one.
    #[must_use]
    pub fn first_level(&self) -> Option<usize> {
        self.conditions
            .iter()
            .position(|condition| condition.phase == Phase::Cruise)
    }

    /// The design with one condition alone, none of whose inputs is marked as measured.
    ///
    /// # Example
    /// What is alike in all conditions stays:
    /// ```
    /// use coolpath_core::document::example;
    ///
    /// let design = example::design();
    /// let cruise = design.with_only(design.conditions[3].clone());
    /// assert_eq!(cruise.conditions.len(), 1);
    /// assert_eq!(cruise.installation, design.installation);
    /// ```
    #[must_use]
    pub fn with_only(&self, condition: Condition) -> Self {
        let mut alone = self.clone();
        alone
            .measured
            .retain(|mark| !mark.starts_with("condition."));
        alone.conditions = vec![condition];
        alone
    }
}

/// The mark of a measured input: its id, with `#place` past the first of a list.
#[must_use]
pub fn mark(id: &str, place: usize) -> String {
    if place == 0 {
        id.to_owned()
    } else {
        format!("{id}#{place}")
    }
}

/// Whether a mark names an input at a place.
pub(crate) fn mark_matches(text: &str, id: &str, place: usize) -> bool {
    match text.split_once('#') {
        None => place == 0 && text == id,
        Some((name, at)) => name == id && at.parse() == Ok(place),
    }
}
