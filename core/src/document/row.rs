//! One number of a group: its default, ranges, unit, tag and source, and how the group holds it.

use crate::language::tr;
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
            Self::Example => tr("example"),
            Self::Published => tr("published"),
            Self::Library => tr("from an engineering library"),
            Self::Derived => tr("derived from other values here"),
            Self::CommonPractice => tr("common practice"),
            Self::FromMemory => tr("our estimate"),
        }
    }
}

/// What the table says of a number, and where its group `G` holds it.
pub struct Row<G: 'static> {
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
    /// Value in the group, SI.
    pub get: fn(&G) -> f64,
    /// Sets the value in the group, SI.
    pub set: fn(&mut G, f64),
    /// Whether the number plays a part.
    pub used: fn(&G) -> bool,
}

impl<G> Row<G> {
    /// A value that misses the permitted range by no more than rounding, put onto its end; any
    /// other as it is.
    #[must_use]
    pub fn settled(&self, value: f64) -> f64 {
        let (least, most) = self.permitted;
        let kept = value.clamp(least, most);
        if (value - kept).abs() <= 1e-9 * kept.abs() {
            kept
        } else {
            value
        }
    }
}

/// Whether a value is so many hundredths, as a usual value that is left out of files.
pub(crate) fn is_hundredths<const HUNDREDTHS: i32>(value: &f64) -> bool {
    *value == f64::from(HUNDREDTHS) / 100.0
}

/// A number as a group stores it. Only the macro of the groups may go by the bare SI number, since
/// the row's dimension stands beside it there.
pub(crate) trait Stored {
    /// From an SI value.
    fn stored(value: f64) -> Self;
    /// The SI value.
    fn si(&self) -> f64;
}

impl Stored for f64 {
    fn stored(value: f64) -> Self {
        value
    }

    fn si(&self) -> f64 {
        *self
    }
}

impl<D, U> Stored for uom::si::Quantity<D, U, f64>
where
    D: uom::si::Dimension + ?Sized,
    U: uom::si::Units<f64> + ?Sized,
{
    fn stored(value: f64) -> Self {
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
