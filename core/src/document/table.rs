//! The table of inputs: every number's default, permitted and likely range, unit, tag and source.
//!
//! Each group of inputs (`installation`, `condition`) declares its numbers once with the
//! [`group!`](crate::document::table) macro: the field, its default and its row in the table come from the
//! same line. The page, the file's validation and the uncertainty all read this table.

use crate::document::condition::Condition;
use crate::document::design::Design;
use crate::document::installation::{
    Airframe, Cooler, Decks, Engine, Exit, Inlet, Lags, Oil, Reference, Shutter,
};
use crate::units::typed::Dimension;

/// Where a number comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Tag {
    /// An invented example: the builder's own number belongs here.
    Example,
    /// Read in a published source.
    Published,
    /// From a general-purpose library.
    Library,
    /// Derived from other values here.
    Derived,
    /// What practitioners say; no source.
    CommonPractice,
    /// From memory; no source read.
    FromMemory,
}

impl Tag {
    /// The tag in plain words.
    #[must_use]
    pub fn phrase(self) -> &'static str {
        match self {
            Self::Example => "example, put your own here",
            Self::Published => "published",
            Self::Library => "from an engineering library",
            Self::Derived => "derived from other values here",
            Self::CommonPractice => "common practice, no source",
            Self::FromMemory => "estimate, no source read",
        }
    }
}

/// Standard deviations from the middle to an end of a likely range, which is its 5th or 95th
/// percentile.
pub const RANGE_DEVIATIONS: f64 = 1.644_853_626_951_472_7;

/// One row of the table.
pub struct Input {
    /// Name of the number in the file, such as `engine.rated_power_w`.
    pub id: &'static str,
    /// What the builder calls it.
    pub label: &'static str,
    /// What it measures.
    pub dimension: Dimension,
    /// Default, SI.
    pub default: f64,
    /// Permitted range, SI.
    pub permitted: (f64, f64),
    /// Range in which the true value likely lies (about nine cases in ten), SI; `None` if the
    /// builder knows the number.
    pub likely: Option<(f64, f64)>,
    /// Kind of source.
    pub tag: Tag,
    /// The source in words.
    pub source: &'static str,
    /// Value in a design; the index is the place in a list, 0 for all else. `None` past its end.
    pub value: fn(&Design, usize) -> Option<f64>,
    /// Sets the value in a design; false past a list's end.
    pub set: fn(&mut Design, usize, f64) -> bool,
    /// Whether the number plays a part in a design.
    pub used: fn(&Design, usize) -> bool,
}

impl Input {
    /// Whether a value is the default, to rounding.
    #[must_use]
    pub fn is_default(&self, value: f64) -> bool {
        (value - self.default).abs() <= 1e-12 * self.default.abs()
    }

    /// Likely range, SI, about the value that stands in a design.
    ///
    /// A value that was changed carries the default's range along, within what is permitted. A
    /// number that the builder marked as measured has none.
    #[must_use]
    pub fn likely_about(&self, value: f64) -> Option<(f64, f64)> {
        let (low, high) = self.likely?;
        let (least, most) = self.permitted;
        Some((
            (value - (self.default - low)).max(least),
            (value + (high - self.default)).min(most),
        ))
    }
}

impl core::fmt::Debug for Input {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.debug_struct("Input")
            .field("id", &self.id)
            .finish_non_exhaustive()
    }
}

/// All rows of the table.
pub fn all() -> impl Iterator<Item = &'static Input> {
    [
        Airframe::INPUTS,
        Engine::INPUTS,
        Reference::INPUTS,
        Inlet::INPUTS,
        Decks::INPUTS,
        Oil::INPUTS,
        Cooler::INPUTS,
        Shutter::INPUTS,
        Exit::INPUTS,
        Lags::INPUTS,
        Condition::INPUTS,
    ]
    .into_iter()
    .flatten()
}

/// The row with an id.
#[must_use]
pub fn by_id(id: &str) -> Option<&'static Input> {
    all().find(|input| input.id == id)
}

/// A group of inputs and where it stands in a design.
pub(crate) trait Group: Sized {
    /// The group's instance at a place.
    fn of(design: &Design, place: usize) -> Option<&Self>;
    /// The same, to be changed.
    fn of_mut(design: &mut Design, place: usize) -> Option<&mut Self>;
}

/// A stored number as plain SI.
pub trait Si {
    /// From an SI value.
    fn from_si(value: f64) -> Self;
    /// The SI value.
    fn si(&self) -> f64;
}

impl Si for f64 {
    fn from_si(value: f64) -> Self {
        value
    }

    fn si(&self) -> f64 {
        *self
    }
}

impl<D, U> Si for uom::si::Quantity<D, U, f64>
where
    D: uom::si::Dimension + ?Sized,
    U: uom::si::Units<f64> + ?Sized,
{
    fn from_si(value: f64) -> Self {
        Self {
            dimension: core::marker::PhantomData,
            units: core::marker::PhantomData,
            value,
        }
    }

    fn si(&self) -> f64 {
        self.value
    }
}
