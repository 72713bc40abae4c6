//! The table of inputs: every number's default, permitted and likely range, unit, tag and source.
//!
//! Each group of inputs (`installation`, `condition`) declares its numbers once with the `group!`
//! macro: the field, its default and its row come from the same line. A row knows its group only;
//! here it is lifted to the group's place in a design. The page, the file's validation and the
//! uncertainty all read this table.

use crate::document::condition::Condition;
use crate::document::design::{Calibrated, Design, MAX_CONDITIONS, mark_matches};
use crate::document::installation::{
    Airframe, Cooler, Cylinder, Decks, Engine, Exit, FuelSystem, Inlet, Lags, Oil, Reference,
    Shutter,
};
use crate::document::row::{Row, Tag};
use crate::language::tr;
use crate::units::typed::Dimension;
use std::sync::LazyLock;

/// One number of a design.
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
    home: Home,
}

/// Where a group stands in a design.
trait Group: Sized {
    fn of(design: &Design, place: usize) -> Option<&Self>;
    fn of_mut(design: &mut Design, place: usize) -> Option<&mut Self>;
}

/// Groups that a design has once; they stand at place 0.
macro_rules! single {
    ($($group:ident at $field:ident),* $(,)?) => { $(
        impl Group for $group {
            fn of(design: &Design, place: usize) -> Option<&Self> {
                (place == 0).then_some(&design.installation.$field)
            }

            fn of_mut(design: &mut Design, place: usize) -> Option<&mut Self> {
                (place == 0).then_some(&mut design.installation.$field)
            }
        }
    )* };
}

/// Groups that stand in a list.
macro_rules! listed {
    ($($group:ident at $($field:ident).+),* $(,)?) => { $(
        impl Group for $group {
            fn of(design: &Design, place: usize) -> Option<&Self> {
                design.$($field).+.get(place)
            }

            fn of_mut(design: &mut Design, place: usize) -> Option<&mut Self> {
                design.$($field).+.get_mut(place)
            }
        }
    )* };
}

/// The row of the group that holds a number, and the table of all rows.
macro_rules! table_of {
    ($($group:ident),* $(,)?) => {
        #[derive(Clone, Copy)]
        enum Home {
            $( $group(&'static Row<$group>), )*
        }

        impl Home {
            fn value(self, design: &Design, place: usize) -> Option<f64> {
                match self {
                    $( Self::$group(row) => $group::of(design, place).map(row.get), )*
                }
            }

            fn set(self, design: &mut Design, place: usize, value: f64) -> bool {
                match self {
                    $( Self::$group(row) => $group::of_mut(design, place)
                        .map(|group| (row.set)(group, value))
                        .is_some(), )*
                }
            }

            fn used(self, design: &Design, place: usize) -> bool {
                match self {
                    $( Self::$group(row) => $group::of(design, place).is_some_and(row.used), )*
                }
            }
        }

        static TABLE: LazyLock<Vec<Input>> = LazyLock::new(|| {
            let mut table = Vec::new();
            $( table.extend($group::ROWS.iter().map(|row| Input::lifted(row, Home::$group(row)))); )*
            table
        });
    };
}

single!(
    Airframe at airframe,
    Engine at engine,
    Reference at reference,
    Decks at decks,
    Oil at oil,
    Cooler at cooler,
    Shutter at shutter,
    Lags at lags,
);
listed!(
    Inlet at installation.inlets,
    Exit at installation.exits,
    Cylinder at installation.cylinders,
    Condition at conditions,
);
table_of!(
    Airframe, Engine, Reference, Inlet, Decks, Oil, Cooler, Shutter, Exit, Cylinder, Lags,
    Condition,
);

impl Input {
    fn lifted<G>(row: &'static Row<G>, home: Home) -> Self {
        Self {
            id: row.id,
            label: tr(row.label),
            dimension: row.dimension,
            default: row.default,
            permitted: row.permitted,
            likely: row.likely,
            tag: row.tag,
            source: tr(row.source),
            home,
        }
    }

    /// Value in a design, SI; the place is that in a list, 0 for all else. `None` past its end.
    #[must_use]
    pub fn value(&self, design: &Design, place: usize) -> Option<f64> {
        self.home.value(design, place)
    }

    /// Sets the value in a design, SI; false past a list's end.
    pub fn set(&self, design: &mut Design, place: usize, value: f64) -> bool {
        self.home.set(design, place, value)
    }

    /// Whether the number plays a part in a design.
    #[must_use]
    pub fn used(&self, design: &Design, place: usize) -> bool {
        self.home.used(design, place)
    }

    /// Whether a value is the default, to rounding.
    #[must_use]
    pub fn is_default(&self, value: f64) -> bool {
        (value - self.default).abs() <= 1e-12 * self.default.abs()
    }

    /// Likely range, SI, about the value that stands in a design.
    ///
    /// A value that was changed carries the default's range along, within what is permitted: as a
    /// factor where the range is one factor to both sides, else as a difference. A number that the
    /// builder marked as measured has none.
    #[must_use]
    pub(crate) fn likely_about(&self, value: f64) -> Option<(f64, f64)> {
        let (low, high) = self.likely?;
        let (least, most) = self.permitted;
        let square = self.default * self.default;
        let (low, high) = if low > 0.0 && (low * high - square).abs() <= 1e-9 * square {
            (value * low / self.default, value * high / self.default)
        } else {
            (value - (self.default - low), value + (high - self.default))
        };
        Some((low.max(least), high.min(most)))
    }
}

impl core::fmt::Debug for Input {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.debug_struct("Input")
            .field("id", &self.id)
            .finish_non_exhaustive()
    }
}

/// By how much leaner a carburettor's full rich may be than the injected engines' that were flown, fuel over stoichiometric
/// \[-\] (from memory: at rated power carburetted engines take fuel for 1.2 to 1.4; a published example has 1.39).
const LEANER_BY_CARBURETTOR_PHI: f64 = 0.15;

/// Mean heads of a generic engine.
const GENERIC_HEADS: [&str; 2] = ["reference.head_k", "reference.head_six_k"];

/// All rows of the table.
pub fn all() -> impl Iterator<Item = &'static Input> {
    TABLE.iter()
}

/// The row with an id.
///
/// # Example
/// Each input is one row, with its range, its tag and its source:
/// ```
/// use coolpath_core::document::example;
/// use coolpath_core::document::table::by_id;
///
/// let design = example::design();
/// let input = by_id("engine.rated_power_w");
/// assert!(input.is_some_and(|input| input.value(&design, 0).is_some()));
/// assert!(by_id("engine.colour").is_none());
/// ```
#[must_use]
pub fn by_id(id: &str) -> Option<&'static Input> {
    all().find(|input| input.id == id)
}

/// Whether a value is still the one that was noted, to rounding.
fn holds(value: f64, noted: f64) -> bool {
    (noted - value).abs() <= 1e-9 * value.abs()
}

impl Design {
    /// Whether the builder marked an input as measured.
    #[must_use]
    pub fn is_measured(&self, input: &Input, place: usize) -> bool {
        self.measured
            .iter()
            .any(|mark| mark_matches(mark, input.id, place))
    }

    /// Whether an input holds what was taken for it until the builder tells his own.
    #[must_use]
    pub fn is_assumed(&self, input: &Input, place: usize) -> bool {
        let value = input.value(self, place);
        self.assumed.iter().any(|taken| {
            mark_matches(&taken.input, input.id, place)
                && value.is_some_and(|value| holds(value, taken.value))
        })
    }

    /// The calibration of an input, if the design still holds the value that it found.
    #[must_use]
    pub fn calibration(&self, input: &Input, place: usize) -> Option<&Calibrated> {
        let value = input.value(self, place)?;
        self.calibrated
            .iter()
            .find(|found| mark_matches(&found.input, input.id, place) && holds(value, found.value))
    }

    /// Range, SI, in which an input likely lies; `None` for what the builder knows or measured.
    #[must_use]
    pub fn likely(&self, input: &Input, place: usize) -> Option<(f64, f64)> {
        if self.is_measured(input, place) {
            return None;
        }
        if let Some(found) = self.calibration(input, place) {
            return Some(found.likely);
        }
        self.usual_range(input, input.value(self, place)?)
    }

    /// An input's range, SI, about a value, as wide as this design makes it.
    ///
    /// The heads of a generic engine were fitted to reports of fours and sixes. A two takes the four's and
    /// an eight the six's, with the range doubled (from memory). What full rich is was flown with fuel injection alone:
    /// with a carburettor it may be leaner by [`LEANER_BY_CARBURETTOR_PHI`].
    pub(crate) fn usual_range(&self, input: &Input, value: f64) -> Option<(f64, f64)> {
        let (low, high) = input.likely_about(value)?;
        if input.id == "engine.full_rich_phi"
            && self.installation.engine.fuel_system == FuelSystem::Carburettor
        {
            let (least, _) = input.permitted;
            return Some(((low - LEANER_BY_CARBURETTOR_PHI).max(least), high));
        }
        let is_reported = (4..=6).contains(&self.installation.engine.cylinders);
        if is_reported || !GENERIC_HEADS.contains(&input.id) {
            return Some((low, high));
        }
        let (least, most) = input.permitted;
        let (low, high) = (2.0 * low - value, 2.0 * high - value);
        Some((low.max(least), high.min(most)))
    }

    /// Every row of the table at every place where the design has it.
    pub fn places(&self) -> impl Iterator<Item = (&'static Input, usize)> + '_ {
        all().flat_map(move |input| {
            (0..MAX_CONDITIONS)
                .take_while(move |&place| input.value(self, place).is_some())
                .map(move |place| (input, place))
        })
    }
}
