//! Observations that a builder can make: what each reads, what it takes, and how it is done.

use crate::decide::next::reading::Observed;
use crate::document::design::Design;
use crate::language::tr;

/// Where the builder stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stage {
    /// Nothing was fitted to a flight yet.
    BeforeFirstFlight,
    /// The design holds values that were fitted to readings.
    AfterCalibration,
}

impl Stage {
    /// Where a design stands.
    #[must_use]
    pub fn of(design: &Design) -> Self {
        if design.calibrated.is_empty() {
            Self::BeforeFirstFlight
        } else {
            Self::AfterCalibration
        }
    }
}

/// An observation.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Candidate {
    /// The engine maker's cooling chart.
    MakersChart,
    /// The data sheet of the oil cooler.
    CoolerSheet,
    /// The spread between the heads of a sister ship.
    SisterShip,
    /// A blow-down test of the upper deck.
    BlowDown,
    /// All heads and the oil in one cool, full-rich climb.
    CoolClimb,
    /// The same in the same climb at a second mixture.
    SecondMixture,
    /// All heads and the oil in one cruise.
    Cruise,
    /// Leaning through the peak of the exhaust temperature.
    ExhaustSweep,
    /// Fuel flow in the climb.
    FuelFlow,
    /// Pressure across the baffles in the climb.
    ClimbDrop,
    /// A tap in the lower deck.
    LowerDeckTap,
    /// A tap behind the exit's lip.
    ExitLipTap,
    /// Oil temperature before and behind the cooler.
    OilBothSides,
}

impl Candidate {
    /// What is worth thinking of at a stage, in no order.
    ///
    /// Before the first flight a letter, a data sheet and a test on the ground stand beside what the
    /// flight itself will show. Once values were fitted to this very engine, another's spread or a chart
    /// for all of its kind says nothing more, and a second mixture does.
    ///
    /// # Example
    /// ```
    /// use coolpath_core::decide::next::{Candidate, Stage};
    ///
    /// let before = Candidate::at(Stage::BeforeFirstFlight);
    /// let after = Candidate::at(Stage::AfterCalibration);
    /// assert!(before.contains(&Candidate::MakersChart) && !after.contains(&Candidate::MakersChart));
    /// assert!(after.contains(&Candidate::SecondMixture));
    /// ```
    #[must_use]
    pub fn at(stage: Stage) -> &'static [Self] {
        match stage {
            Stage::BeforeFirstFlight => &[
                Self::MakersChart,
                Self::CoolerSheet,
                Self::SisterShip,
                Self::BlowDown,
                Self::CoolClimb,
                Self::Cruise,
                Self::ExhaustSweep,
                Self::FuelFlow,
                Self::ClimbDrop,
                Self::LowerDeckTap,
                Self::ExitLipTap,
                Self::OilBothSides,
            ],
            Stage::AfterCalibration => &[
                Self::CoolerSheet,
                Self::BlowDown,
                Self::CoolClimb,
                Self::SecondMixture,
                Self::Cruise,
                Self::ExhaustSweep,
                Self::FuelFlow,
                Self::ClimbDrop,
                Self::LowerDeckTap,
                Self::ExitLipTap,
                Self::OilBothSides,
            ],
        }
    }

    /// What it reads.
    #[must_use]
    pub fn readings(self) -> &'static [Observed] {
        match self {
            Self::MakersChart => &[Observed::KnownHead, Observed::KnownDrop],
            Self::CoolerSheet => &[Observed::CoolerHeat],
            Self::SisterShip => &[Observed::SisterExcess],
            Self::BlowDown => &[Observed::Leak],
            Self::CoolClimb => &[
                Observed::ClimbMean,
                Observed::ClimbExcess,
                Observed::ClimbOil,
            ],
            Self::SecondMixture => &[Observed::LeanMean, Observed::LeanExcess, Observed::LeanOil],
            Self::Cruise => &[
                Observed::CruiseMean,
                Observed::CruiseExcess,
                Observed::CruiseOil,
            ],
            Self::ExhaustSweep => &[Observed::ClimbExhaust],
            Self::FuelFlow => &[Observed::ClimbFuel],
            Self::ClimbDrop => &[Observed::ClimbDrop],
            Self::LowerDeckTap => &[Observed::ClimbLower],
            Self::ExitLipTap => &[Observed::ClimbExit],
            Self::OilBothSides => &[Observed::ClimbOil, Observed::ClimbOilFall],
        }
    }

    /// What the builder calls it, at a stage.
    #[must_use]
    pub fn label(self, stage: Stage) -> &'static str {
        match (self, stage) {
            (Self::MakersChart, _) => tr("The engine maker's cooling chart"),
            (Self::CoolerSheet, _) => tr("The oil cooler's data sheet"),
            (Self::SisterShip, _) => tr("Spread between the heads of a sister ship"),
            (Self::BlowDown, _) => tr("Blow-down test of the upper deck"),
            (Self::CoolClimb, Stage::BeforeFirstFlight) => {
                tr("All heads and the oil in one cool full-rich climb")
            }
            (Self::CoolClimb, Stage::AfterCalibration) => {
                tr("All heads and the oil in another cool full-rich climb")
            }
            (Self::SecondMixture, _) => tr("All heads and the oil in the same climb at best power"),
            (Self::Cruise, Stage::BeforeFirstFlight) => tr("All heads and the oil in one cruise"),
            (Self::Cruise, Stage::AfterCalibration) => {
                tr("All heads and the oil in another cruise")
            }
            (Self::ExhaustSweep, _) => tr("EGT sweep: leaning slowly through the peak"),
            (Self::FuelFlow, _) => tr("Fuel flow in the climb"),
            (Self::ClimbDrop, _) => tr("Δp across the baffles in the climb"),
            (Self::LowerDeckTap, _) => tr("A tap in the lower deck"),
            (Self::ExitLipTap, _) => tr("A tap behind the exit lip"),
            (Self::OilBothSides, _) => tr("Oil temperature before and after the cooler"),
        }
    }

    /// Hours in the hangar before it can be read, the flight itself left out (from memory).
    #[must_use]
    pub fn hangar_hours(self) -> f64 {
        match self {
            Self::CoolClimb | Self::SecondMixture | Self::Cruise | Self::ExhaustSweep => 0.0,
            Self::MakersChart | Self::CoolerSheet => 0.5,
            Self::SisterShip => 1.0,
            Self::LowerDeckTap => 2.0,
            Self::BlowDown | Self::ClimbDrop | Self::ExitLipTap => 3.0,
            Self::OilBothSides => 4.0,
            Self::FuelFlow => 5.0,
        }
    }

    /// Whether it takes a flight.
    #[must_use]
    pub fn is_flown(self) -> bool {
        !matches!(
            self,
            Self::MakersChart | Self::CoolerSheet | Self::SisterShip | Self::BlowDown
        )
    }

    /// How it is done, in a sentence.
    #[must_use]
    pub fn how(self) -> &'static str {
        match self {
            Self::MakersChart => tr(
                "Ask the engine's maker for the chart of head temperature against Δp and air flow, and type \
                 a point of it as the known point.",
            ),
            Self::CoolerSheet => {
                tr("Type heat and air pressure drop of this very part from its maker's sheet.")
            }
            Self::SisterShip => tr(
                "Ask an owner of the same engine in the same cowl for all head temperatures of one climb: \
                 hottest less mean.",
            ),
            Self::BlowDown => tr(
                "Close the upper deck, blow a known flow of air into it, and read its pressure; a lamp inside \
                 shows where it leaks.",
            ),
            Self::CoolClimb => tr(
                "On a cool morning, climb full rich at a steady speed until no head rises any more, with an \
                 end by temperature; note all heads, oil, OAT, power and altitude, or take the log.",
            ),
            Self::SecondMixture => tr(
                "Repeat the climb leaned to best power where the manual permits it; note all heads and the \
                 oil once they are steady.",
            ),
            Self::Cruise => tr(
                "Hold level for five minutes at the power of your cruise; note all heads, oil, OAT and fuel \
                 flow once nothing moves.",
            ),
            Self::ExhaustSweep => tr(
                "In level flight at a power at which the manual permits it, lean slowly with one EGT in view, \
                 note its peak, then what it shows at the climb's setting.",
            ),
            Self::FuelFlow => tr(
                "Fit a flow meter, check it against the fuel filled in, and note the flow in the climb.",
            ),
            Self::ClimbDrop => tr(
                "One tube into the upper deck and one into the lower, to a water tube or a spare airspeed \
                 indicator; read it in the steady climb.",
            ),
            Self::LowerDeckTap => tr(
                "One tube with its end out of any draught in the lower deck, against the aircraft's static; \
                 read it in the steady climb.",
            ),
            Self::ExitLipTap => tr(
                "A flush hole just behind the exit lip, against the aircraft's static; read it in the steady \
                 climb.",
            ),
            Self::OilBothSides => tr(
                "A second oil probe on the cooler's other side, both first compared in one bath; read both in \
                 the steady climb.",
            ),
        }
    }
}
