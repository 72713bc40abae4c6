//! Upper and lower deck: sealing, leaks and draws.

use crate::document::condition::Phase;
use crate::document::group::group;
use crate::document::installation::inlet::InletSide;
use crate::document::row::is_hundredths;
use crate::units::si::{inch, inch2, inh2o};
use serde::{Deserialize, Serialize};
use uom::si::f64::{Area, Length, MassRate, Pressure};

/// How the upper deck is sealed against the lower.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Sealing {
    /// A rigid plenum over the cylinders.
    HardPlenum,
    /// Flexible seals between baffles and cowl.
    #[default]
    FlexibleSeals,
    /// A leak area found by test.
    MeasuredLeak,
}

/// Where the engine breathes, unless it is from the upper deck.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Breathes {
    /// From an intake of its own, of which no more is said.
    #[default]
    Outside,
    /// From a scoop of its own, through a filter.
    Scoop,
    /// From the lower deck.
    LowerDeck,
}

impl Breathes {
    fn is_outside(&self) -> bool {
        *self == Self::Outside
    }
}

/// Whether one upper deck lies over both banks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum UpperDeck {
    /// One deck over both banks.
    #[default]
    One,
    /// A left and a right half, with an opening between them.
    Halves,
}

impl UpperDeck {
    fn is_one(&self) -> bool {
        *self == Self::One
    }
}

/// Usual loss, Pa; left out of files, so that these stay readable for earlier versions.
const FILTER_DROP_PA: f64 = inh2o(2.0);

fn is_usual_filter(drop: &Pressure) -> bool {
    drop.value == FILTER_DROP_PA
}

const SCOOP: fn(&Decks) -> bool =
    |decks| decks.breathes == Breathes::Scoop && !decks.induction_from_upper_deck;
const BY_ATTITUDE: fn(&Decks) -> bool = |decks| decks.outside_by_attitude;
const HALVES: fn(&Decks) -> bool = |decks| decks.upper == UpperDeck::Halves;

/// Usual values, left out of files, so that these stay readable for earlier versions.
const ACROSS_M2: f64 = inch2(12.0);
const RIGHT_RISE: f64 = 1.1;

fn is_usual_across(area: &Area) -> bool {
    area.value == ACROSS_M2
}

fn is_usual_rise(share: &f64) -> bool {
    *share == RIGHT_RISE
}

/// Usual need, kg/s; left out of files, so that these stay readable for earlier versions.
const BLAST_LEAST_KG_S: f64 = 0.002;

fn is_usual_blast(least: &MassRate) -> bool {
    least.value == BLAST_LEAST_KG_S
}

group! {
    /// Upper and lower deck.
    pub struct Decks, "decks" {
        choices {
            /// Sealing.
            sealing: Sealing = Sealing::FlexibleSeals;
            /// Whether one upper deck lies over both banks.
            #[serde(skip_serializing_if = "UpperDeck::is_one")]
            upper: UpperDeck = UpperDeck::One;
            /// The engine draws its induction air from the upper deck.
            induction_from_upper_deck: bool = false;
            /// Where it draws that otherwise.
            #[serde(skip_serializing_if = "Breathes::is_outside")]
            breathes: Breathes = Breathes::Outside;
            /// Alternate air comes from the lower deck, so that its warming is computed.
            #[serde(skip_serializing_if = "core::ops::Not::not")]
            alternate_from_lower_deck: bool = false;
            /// Cabin air passes a muff on the exhaust.
            #[serde(skip_serializing_if = "core::ops::Not::not")]
            cabin_muff: bool = false;
            /// Number of blast tubes.
            blast_tubes: u8 = 2;
            /// Cabin heat or other air is taken from the upper deck.
            cabin_air: bool = false;
            /// Half of a split deck that the blast tubes leave from.
            #[serde(skip_serializing_if = "InletSide::is_both")]
            blast_side: InletSide = InletSide::Both;
            /// The same of the hose for cabin air.
            #[serde(skip_serializing_if = "InletSide::is_both")]
            cabin_side: InletSide = InletSide::Both;
            /// The same of the induction, where it draws from the upper deck.
            #[serde(skip_serializing_if = "InletSide::is_both")]
            induction_side: InletSide = InletSide::Both;
            /// The pressure before the lower deck's leak is given for level flight, climb and ground apart.
            #[serde(skip_serializing_if = "core::ops::Not::not")]
            outside_by_attitude: bool = false;
        }
        numbers {
            /// Leak area of a hard plenum.
            plenum_leak, "plenum_leak_m2": Area = inch2(1.5), Area,
                in 0.0, inch2(60.0), likely Some((inch2(0.5), inch2(4.0))), Derived,
                "Leak area of the plenum",
                "joints, plugs and rods of a well-made plenum; from what builders report of heads before \
                 and after sealing (reports R07, R45, R47)",
                if |decks| decks.sealing == Sealing::HardPlenum;
            /// Length of the flexible seals.
            seal_length, "seal_length_m": Length = inch(80.0), Length,
                in inch(5.0), inch(300.0), likely None, Example,
                "Length of the flexible seals", "measure along the baffles",
                if |decks| decks.sealing == Sealing::FlexibleSeals;
            /// Mean gap of the flexible seals.
            seal_gap, "seal_gap_m": Length = inch(6.0 / 80.0), Length,
                in 0.0, inch(1.0), likely Some((inch(3.0 / 80.0), inch(12.0 / 80.0))), Derived,
                "Mean gap of the seals",
                "new seals leak about 6 in² in all (3 to 12), worn ones 20 (10 to 40), broken ones 30 (15 to \
                 60); from what builders report of heads before and after (reports R07, R45, R47)",
                if |decks| decks.sealing == Sealing::FlexibleSeals;
            /// Measured leak area.
            measured_leak, "measured_leak_m2": Area = inch2(5.0), Area,
                in 0.0, inch2(100.0), likely Some((inch2(4.0), inch2(6.0))), Example,
                "Measured leak area", "blow-down test", if |decks| decks.sealing == Sealing::MeasuredLeak;
            /// Opening between the halves of the upper deck.
            #[serde(skip_serializing_if = "is_usual_across")]
            across, "crossover_area_m2": Area = ACROSS_M2, Area,
                in 0.0, inch2(1000.0), likely Some((inch2(6.0), inch2(24.0))), FromMemory,
                "Opening between the left and right half",
                "all ways across: ahead of the crankcase, over it and behind it; 0 for a split plenum",
                if HALVES;
            /// Propeller's pressure rise on the right over the mean of both sides, in a climb [-].
            #[serde(skip_serializing_if = "is_usual_rise")]
            right_rise, "right_rise_in_climb": f64 = RIGHT_RISE, Ratio,
                in 0.5, 1.5, likely Some((1.0, 1.3)), FromMemory,
                "Propeller's pressure rise on the right over the mean, in a climb",
                "nose up, the blade that goes down works harder: on the right where the propeller turns \
                 clockwise seen from the seat; below 1 for the other way",
                if HALVES;
            /// Discharge coefficient of leaks and tubes [-].
            leak_discharge, "leak_discharge": f64 = 0.6, Ratio,
                in 0.4, 1.0, likely Some((0.57, 0.65)), Published,
                "Discharge coefficient of a leak", "sharp-edged orifice (ISO 5167-2)", if |_| true;
            /// Leak from the upper deck to the outside.
            overboard_leak, "overboard_leak_m2": Area = inch2(0.5), Area,
                in 0.0, inch2(40.0), likely Some((0.0, inch2(2.0))), FromMemory,
                "Leak area from upper deck to outside", "spinner gap, cowl joints, oil door",
                if |_| true;
            /// Pressure coefficient outside the overboard leak [-].
            overboard_pressure, "overboard_pressure_coefficient": f64 = -0.3, Ratio,
                in -1.0, 1.0, likely Some((-0.5, 0.2)), FromMemory,
                "Pressure coefficient outside that leak", "behind a spinner −0.3 to −0.5", if |_| true;
            /// Diameter of each blast tube.
            blast_diameter, "blast_tube_diameter_m": Length = inch(0.5), Length,
                in 0.0, inch(3.0), likely None, Example,
                "Diameter of a blast tube", "measure it", if |decks| decks.blast_tubes > 0;
            /// Air that each blast tube must bring.
            #[serde(skip_serializing_if = "is_usual_blast")]
            blast_least, "blast_least_kg_s": MassRate = BLAST_LEAST_KG_S, MassFlow,
                in 0.0, 0.05, likely None, FromMemory,
                "Air that each blast tube must bring in flight",
                "some 3 to 9 ft³/min for a magneto, an alternator or a fuel pump; their makers know",
                if |decks| decks.blast_tubes > 0;
            /// Diameter of the hose for cabin air.
            cabin_diameter, "cabin_hose_diameter_m": Length = inch(1.5), Length,
                in 0.0, inch(4.0), likely None, Example,
                "Diameter of the cabin-heat hose", "measure it; closed when heat is off",
                if |decks| decks.cabin_air;
            /// Rise of the cabin air over that of the exhaust gas above it [-].
            #[serde(skip_serializing_if = "is_hundredths::<12>")]
            muff_effectiveness, "muff_effectiveness": f64 = 0.12, Ratio,
                in 0.0, 0.8, likely Some((0.05, 0.25)), FromMemory,
                "Cabin muff: rise of the air over that of the exhaust gas above it",
                "a plain can round a pipe or muffler; studs or fins on it give more",
                if |decks| decks.cabin_air && decks.cabin_muff;
            /// Ram recovery of the induction scoop [-].
            #[serde(skip_serializing_if = "is_hundredths::<70>")]
            scoop_recovery, "scoop_recovery": f64 = 0.7, Ratio,
                in 0.0, 1.0, likely Some((0.4, 0.95)), FromMemory,
                "Ram recovery of the induction scoop", "depends on its place; touches full throttle alone",
                if SCOOP;
            /// Pressure lost in the induction filter at rated power at sea level.
            #[serde(skip_serializing_if = "is_usual_filter")]
            filter_drop, "filter_drop_pa": Pressure = FILTER_DROP_PA, Pressure,
                in 0.0, inh2o(20.0), likely Some((inh2o(1.0), inh2o(6.0))), FromMemory,
                "Pressure lost in the induction filter at rated power",
                "1 inH₂O clean to 6 dirty; touches full throttle alone", if SCOOP;
            /// Leak from the outside into the lower deck.
            inflow_leak, "inflow_leak_m2": Area = inch2(1.0), Area,
                in 0.0, inch2(100.0), likely Some((0.0, inch2(3.0))), FromMemory,
                "Leak area from outside into the lower deck", "gear legs, cowl joints, open scoops",
                if |_| true;
            /// Share of the impact pressure that stands before the inflow leak [-].
            inflow_pressure, "inflow_pressure_share": f64 = 0.3, Ratio,
                in -0.5, 1.0, likely Some((0.0, 1.0)), FromMemory,
                "Share of the ram pressure before that leak", "1 for a forward-facing gap",
                if |_| true;
            /// Share of the impact pressure before the inflow leak in a climb [-].
            #[serde(skip_serializing_if = "is_hundredths::<40>")]
            inflow_climb, "inflow_climb_share": f64 = 0.4, Ratio,
                in -0.5, 1.0, likely Some((0.0, 1.0)), FromMemory,
                "Share of the ram pressure before that leak, in a climb",
                "nose up, gear legs and the belly's joints face the stream more", if BY_ATTITUDE;
            /// Pressure before the inflow leak on the ground over the propeller's pressure rise [-].
            #[serde(skip_serializing_if = "is_hundredths::<0>")]
            inflow_ground, "inflow_ground_share": f64 = 0.0, Ratio,
                in -0.5, 1.0, likely Some((-0.15, 0.30)), FromMemory,
                "Pressure before that leak on the ground, over the propeller's pressure rise",
                "the slipstream blows into gaps that face it, and draws on those along it", if BY_ATTITUDE;
            /// Conductance of the cowl's skin, W/K.
            skin_conductance, "skin_conductance_w_per_k": f64 = 15.0, Conductance,
                in 1.0, 200.0, likely Some((7.0, 30.0)), FromMemory,
                "Heat through the lower cowl's skin", "some 0.6 m² at 25 W/(m²·K)", if |_| true;
        }
    }
}

impl Decks {
    /// Area of the leak between the decks, m².
    #[must_use]
    pub fn seal_area_m2(&self) -> f64 {
        match self.sealing {
            Sealing::HardPlenum => self.plenum_leak.value,
            Sealing::FlexibleSeals => self.seal_length.value * self.seal_gap.value,
            Sealing::MeasuredLeak => self.measured_leak.value,
        }
    }

    /// Whether it draws its air through a scoop and a filter of its own.
    pub(crate) fn has_scoop(&self) -> bool {
        SCOOP(self)
    }

    /// Whether the engine draws its air from the lower deck, its warm air on or off.
    #[must_use]
    pub fn draws_from_lower_deck(&self, warm_induction: bool) -> bool {
        if warm_induction {
            self.alternate_from_lower_deck
        } else {
            self.breathes == Breathes::LowerDeck && !self.induction_from_upper_deck
        }
    }

    /// Shares of the impact pressure and of the propeller's pressure rise that stand before the lower deck's
    /// leak \[-\].
    pub(crate) fn inflow_shares(&self, phase: Phase) -> (f64, f64) {
        match phase {
            Phase::Climb if self.outside_by_attitude => (self.inflow_climb, 0.0),
            Phase::Ground if self.outside_by_attitude => (self.inflow_pressure, self.inflow_ground),
            _ => (self.inflow_pressure, 0.0),
        }
    }

    /// Area of all blast tubes, m².
    ///
    /// # Example
    /// Two tubes of 20 mm: 2 · π/4 · 0.0004 m²:
    /// ```
    /// use coolpath_core::document::installation::Decks;
    /// use coolpath_core::units::quantity::metre;
    /// use core::f64::consts::FRAC_PI_4;
    ///
    /// let decks = Decks {
    ///     blast_tubes: 2,
    ///     blast_diameter: metre(0.02),
    ///     ..Decks::default()
    /// };
    /// assert!((decks.blast_area_m2() - 2.0 * FRAC_PI_4 * 0.0004).abs() < 1e-15);
    /// ```
    #[must_use]
    pub fn blast_area_m2(&self) -> f64 {
        let diameter = self.blast_diameter.value;
        f64::from(self.blast_tubes) * core::f64::consts::FRAC_PI_4 * diameter * diameter
    }

    /// Area of the cabin-air hose, m²; none when no cabin air is taken.
    #[must_use]
    pub(crate) fn cabin_area_m2(&self) -> f64 {
        if !self.cabin_air {
            return 0.0;
        }
        core::f64::consts::FRAC_PI_4 * self.cabin_diameter.value * self.cabin_diameter.value
    }
}
