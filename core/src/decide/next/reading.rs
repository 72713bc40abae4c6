//! What a candidate reads, and how far the instrument may be off.

use crate::document::row::Tag;
use crate::engine::egt;
use crate::language::tr;
use crate::math::normal::RANGE_DEVIATIONS;
use crate::units::si::{deltaf, inh2o};

/// A single reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Observed {
    /// Mean of the heads in the cool climb.
    ClimbMean,
    /// Hottest head above the mean there.
    ClimbExcess,
    /// Oil at the gauge there.
    ClimbOil,
    /// Oil before the cooler less oil behind it there.
    ClimbOilFall,
    /// Pressure across the baffles there.
    ClimbDrop,
    /// Lower deck above static there.
    ClimbLower,
    /// Pressure outside the first exit there.
    ClimbExit,
    /// Fuel mass flow there.
    ClimbFuel,
    /// Exhaust temperature below its peak there.
    ClimbExhaust,
    /// Mean of the heads in the same climb, leaned to best power.
    LeanMean,
    /// Hottest head above the mean there.
    LeanExcess,
    /// Oil at the gauge there.
    LeanOil,
    /// Mean of the heads in cruise.
    CruiseMean,
    /// Hottest head above the mean there.
    CruiseExcess,
    /// Oil at the gauge there.
    CruiseOil,
    /// Hottest head above the mean in a climb of another aircraft of the same kind.
    SisterExcess,
    /// Mean head at the engine's known point.
    KnownHead,
    /// Pressure across the fins at the engine's known point.
    KnownDrop,
    /// Leak between the decks, as the design describes it.
    Leak,
    /// Rated heat of the oil cooler.
    CoolerHeat,
}

/// Number of readings.
pub(crate) const READINGS: usize = Observed::CoolerHeat as usize + 1;

/// How far an instrument may be off, one standard deviation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Instrument {
    /// By a fixed amount, in the reading's SI unit.
    pub by: f64,
    /// By a share of the reading \[-\].
    pub share: f64,
    /// Where the number comes from.
    pub tag: Tag,
    /// The same in words.
    pub source: &'static str,
}

impl Instrument {
    fn by(by: f64, tag: Tag, source: &'static str) -> Self {
        Self {
            by,
            share: 0.0,
            tag,
            source,
        }
    }

    fn share(share: f64, tag: Tag, source: &'static str) -> Self {
        Self {
            by: 0.0,
            share,
            tag,
            source,
        }
    }

    /// Standard deviation about a reading, in its SI unit.
    #[must_use]
    pub fn deviation(&self, reading: f64) -> f64 {
        libm::hypot(self.by, self.share * reading)
    }
}

impl Observed {
    /// How far its instrument may be off.
    ///
    /// # Example
    /// A water tube is off by a tenth of an inch, whatever it reads:
    /// ```
    /// use coolpath_core::decide::next::Observed;
    /// use coolpath_core::units::si::inh2o;
    ///
    /// let tube = Observed::ClimbDrop.instrument();
    /// assert!((tube.deviation(inh2o(4.0)) - inh2o(0.1)).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn instrument(self) -> Instrument {
        use Tag::{Derived, FromMemory};
        match self {
            Self::ClimbMean | Self::LeanMean | Self::CruiseMean => Instrument::by(
                deltaf(3.0),
                FromMemory,
                tr("mean of several probes on one monitor"),
            ),
            Self::ClimbExcess | Self::LeanExcess | Self::CruiseExcess => Instrument::by(
                deltaf(4.0),
                FromMemory,
                tr("two probes of one monitor compared"),
            ),
            Self::ClimbOil | Self::LeanOil | Self::CruiseOil => {
                Instrument::by(deltaf(4.0), FromMemory, tr("one oil probe on a monitor"))
            }
            Self::ClimbOilFall => Instrument::by(
                deltaf(4.0),
                FromMemory,
                tr("two oil probes compared in one bath before"),
            ),
            Self::ClimbDrop | Self::ClimbLower | Self::ClimbExit => {
                Instrument::by(inh2o(0.1), FromMemory, tr("a water tube read in flight"))
            }
            Self::ClimbFuel => Instrument::share(
                0.03 / RANGE_DEVIATIONS,
                FromMemory,
                tr("a flow meter within 3 %, nine cases in ten"),
            ),
            Self::ClimbExhaust => Instrument::by(
                egt::SCATTER_K,
                Derived,
                tr("scatter of exhaust temperatures about their curve"),
            ),
            Self::SisterExcess => Instrument::by(
                deltaf(10.0),
                FromMemory,
                tr("two engines of one make in cowls of one kind"),
            ),
            Self::KnownHead => Instrument::by(
                deltaf(15.0) / RANGE_DEVIATIONS,
                FromMemory,
                tr("one engine about its maker's chart, 15 °F nine cases in ten"),
            ),
            Self::KnownDrop => {
                Instrument::share(0.08, FromMemory, tr("one engine about its maker's chart"))
            }
            Self::Leak => {
                Instrument::share(0.15, FromMemory, tr("a blow-down test with a known blower"))
            }
            Self::CoolerHeat => {
                Instrument::share(0.05, FromMemory, tr("a cooler about its data sheet"))
            }
        }
    }

    /// Inputs of the design that it reads directly, whichever of them plays a part; none for what follows
    /// from a solved condition.
    pub(crate) fn inputs(self) -> &'static [&'static str] {
        match self {
            Self::KnownHead => &["reference.head_k", "reference.head_six_k"],
            Self::KnownDrop => &[
                "reference.drop_four_cylinders_pa",
                "reference.drop_six_cylinders_pa",
            ],
            Self::Leak => &[
                "decks.seal_gap_m",
                "decks.plenum_leak_m2",
                "decks.measured_leak_m2",
            ],
            Self::CoolerHeat => &["cooler.rated_heat_per_100degf_w"],
            _ => &[],
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::table;

    #[test]
    fn inputs_read_directly_are_in_the_table() {
        for reading in [
            Observed::KnownHead,
            Observed::KnownDrop,
            Observed::Leak,
            Observed::CoolerHeat,
        ] {
            for id in reading.inputs() {
                assert!(table::by_id(id).is_some(), "{id}");
            }
            assert!(!reading.inputs().is_empty());
        }
    }
}
