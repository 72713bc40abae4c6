//! The oil cooler.

use crate::document::condition::Phase;
use crate::document::group::group;
use crate::document::installation::cooler_fins::{
    FIN_PITCH, FIN_THICKNESS, FinKind, OIL_FILM, STRIP, TUBE, is_one, is_usual_fin_pitch,
    is_usual_fin_thickness, is_usual_oil_film, is_usual_strip, is_usual_tube,
};
use crate::document::row::is_hundredths;
use crate::engine::cooler_pair::{Cores, Join};
use crate::units::si::{btu_min, inch, inch2, inh2o, l_min, lb_s};
use serde::{Deserialize, Serialize};
use uom::si::f64::{Area, Length, MassRate, Power, Pressure, VolumeRate};

/// How the cooler's performance is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum CoolerRating {
    /// A rated point from its data sheet.
    #[default]
    Rated,
    /// Estimated from its size.
    FromSize,
    /// Computed from its rows, tubes and fins.
    FromFins,
}

/// Where the cooler's air comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum CoolerSupply {
    /// A hose or opening off the upper deck.
    #[default]
    UpperDeck,
    /// The upper deck, the core bolted to the rear baffle without a duct.
    RearBaffle,
    /// The upper deck, the core bolted to the front baffle beside a front cylinder, without a duct.
    FrontBaffle,
    /// An inlet of its own.
    OwnInlet,
}

impl CoolerSupply {
    /// Whether the core covers a hole of its own size, without a duct.
    #[must_use]
    pub fn is_on_baffle(self) -> bool {
        matches!(self, Self::RearBaffle | Self::FrontBaffle)
    }
}

/// Where the cooler's air goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum CoolerDischarge {
    /// The lower deck.
    #[default]
    LowerDeck,
    /// An exit of its own.
    OwnExit,
}

/// A second cooler of the same kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SecondCooler {
    /// None.
    #[default]
    None,
    /// Beside the first in fresh air; half of the oil through each.
    BesideOilShared,
    /// Beside the first in fresh air; all oil through one after the other.
    BesideOilInTurn,
    /// Behind the first in the same air; half of the oil through each.
    BehindOilShared,
    /// Behind the first in the same air; all oil through the rear one, then the front one.
    BehindOilInTurn,
}

impl SecondCooler {
    fn is_none(&self) -> bool {
        *self == Self::None
    }

    /// The cores of the pair.
    #[must_use]
    pub fn cores(self) -> Cores {
        let two = |air, oil| Cores::Two { air, oil };
        match self {
            Self::None => Cores::One,
            Self::BesideOilShared => two(Join::Shared, Join::Shared),
            Self::BesideOilInTurn => two(Join::Shared, Join::InTurn),
            Self::BehindOilShared => two(Join::InTurn, Join::Shared),
            Self::BehindOilInTurn => two(Join::InTurn, Join::InTurn),
        }
    }

    /// Whether the two stand side by side.
    #[must_use]
    pub fn is_beside(self) -> bool {
        matches!(self, Self::BesideOilShared | Self::BesideOilInTurn)
    }

    /// Whether one stands behind the other.
    #[must_use]
    pub fn is_behind(self) -> bool {
        matches!(self, Self::BehindOilShared | Self::BehindOilInTurn)
    }
}

/// What covers a share of the core's face.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Cover {
    /// Tape on the fins: a smaller core, and no loss of its own.
    #[default]
    Tape,
    /// A plate with an opening against the face, whose edges the air must turn round.
    Plate,
}

impl Cover {
    fn is_tape(&self) -> bool {
        *self == Self::Tape
    }
}

/// Kind of hose to the cooler.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Hose {
    /// Wire-reinforced or corrugated hose.
    #[default]
    Reinforced,
    /// Smooth tube or moulded duct.
    Smooth,
}

const RATED: fn(&Cooler) -> bool = |cooler| cooler.rating == CoolerRating::Rated;
const FROM_SIZE: fn(&Cooler) -> bool = |cooler| cooler.rating == CoolerRating::FromSize;
const FROM_FINS: fn(&Cooler) -> bool = |cooler| cooler.rating == CoolerRating::FromFins;
const NO_FINS: fn(&Cooler) -> bool = |cooler| cooler.rating != CoolerRating::FromFins;
const ROWS: fn(&Cooler) -> bool = |cooler| cooler.counts_rows();
const DUCTED: fn(&Cooler) -> bool = |cooler| !cooler.supply.is_on_baffle();
const BEFORE_WALL: fn(&Cooler) -> bool = |cooler| cooler.has_wall_behind();
const OWN_INLET: fn(&Cooler) -> bool = |cooler| cooler.supply == CoolerSupply::OwnInlet;
const OWN_EXIT: fn(&Cooler) -> bool = |cooler| cooler.discharge == CoolerDischarge::OwnExit;
const OWN_EXIT_APART: fn(&Cooler) -> bool =
    |cooler| OWN_EXIT(cooler) && cooler.own_exit_by_attitude;

/// Half of a split upper deck that the cooler's air comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum TakeOff {
    /// The left, seen from the pilot's seat.
    #[default]
    Left,
    /// The right.
    Right,
}

impl TakeOff {
    fn is_left(&self) -> bool {
        *self == Self::Left
    }
}

const STANDOFF_GAP: f64 = inch(1.0);
const STANDOFF_DISCHARGE: f64 = 0.6;

fn is_usual_gap(gap: &Length) -> bool {
    gap.value == STANDOFF_GAP
}

fn is_usual_gap_discharge(discharge: &f64) -> bool {
    *discharge == STANDOFF_DISCHARGE
}

group! {
    /// Oil cooler and its duct.
    pub struct Cooler, "cooler" {
        choices {
            /// How its performance is known.
            rating: CoolerRating = CoolerRating::Rated;
            /// Where its air comes from.
            supply: CoolerSupply = CoolerSupply::UpperDeck;
            /// Half of a split upper deck that its air comes from.
            #[serde(skip_serializing_if = "TakeOff::is_left")]
            take_off: TakeOff = TakeOff::Left;
            /// Where its air goes.
            discharge: CoolerDischarge = CoolerDischarge::LowerDeck;
            /// What covers a share of the core's face.
            #[serde(skip_serializing_if = "Cover::is_tape")]
            cover: Cover = Cover::Tape;
            /// A wall stands close behind the core.
            #[serde(skip_serializing_if = "core::ops::Not::not")]
            wall_behind: bool = false;
            /// Kind of hose.
            hose: Hose = Hose::Reinforced;
            /// Number of bends in the duct.
            bends: u8 = 2;
            /// Number of rows of the core.
            rows: u8 = 10;
            /// The pressure at its own exit is given for level flight, climb and ground apart.
            #[serde(skip_serializing_if = "core::ops::Not::not")]
            own_exit_by_attitude: bool = false;
            /// Kind of its fins.
            #[serde(skip_serializing_if = "FinKind::is_offset")]
            fin_kind: FinKind = FinKind::Offset;
            /// A second cooler of the same kind.
            #[serde(skip_serializing_if = "SecondCooler::is_none")]
            second: SecondCooler = SecondCooler::None;
        }
        numbers {
            /// Rated heat per 100 °F between oil and air inlet.
            rated_heat, "rated_heat_per_100degf_w": Power = btu_min(350.0), Heat,
                in btu_min(20.0), btu_min(4000.0), likely Some((btu_min(310.0), btu_min(390.0))), Example,
                "Rated heat per 100 °F between oil and air", "the cooler's data sheet", if RATED;
            /// Air flow at the rated point.
            rated_air_flow, "rated_air_flow_kg_s": MassRate = lb_s(0.5), MassFlow,
                in lb_s(0.03), lb_s(6.0), likely None, Example,
                "Air flow at the rated point", "the cooler's data sheet", if RATED;
            /// σΔp on the air side at the rated point.
            rated_air_drop, "rated_air_drop_pa": Pressure = inh2o(3.5), Pressure,
                in inh2o(0.2), inh2o(30.0), likely Some((inh2o(3.0), inh2o(4.0))), Example,
                "Air pressure drop at the rated point, at standard density", "the cooler's data sheet", if RATED;
            /// Oil flow at the rated point.
            rated_oil_flow, "rated_oil_flow_m3_s": VolumeRate = l_min(16.0), OilFlow,
                in l_min(1.0), l_min(100.0), likely None, Example,
                "Oil flow at the rated point", "the cooler's data sheet", if |_| true;
            /// Width of the core.
            face_width, "face_width_m": Length = inch(6.5), Length,
                in inch(1.0), inch(30.0), likely None, Example,
                "Core width", "measure the finned face", if |_| true;
            /// Height of the core.
            face_height, "face_height_m": Length = inch(5.0), Length,
                in inch(1.0), inch(30.0), likely None, Example,
                "Core height", "measure the finned face", if RATED;
            /// Height of one row of the core.
            row_pitch, "row_pitch_m": Length = inch(0.47), Length,
                in inch(0.15), inch(1.5), likely Some((inch(0.38), inch(0.55))), FromMemory,
                "Height of one row of the core", "tube and fins together; measure it if you can",
                if ROWS;
            /// Height of a tube of the core, outside.
            #[serde(skip_serializing_if = "is_usual_tube")]
            tube_height, "tube_height_m": Length = TUBE, Length,
                in inch(0.03), inch(0.14), likely Some((inch(0.08), inch(0.14))), FromMemory,
                "Height of a tube of the core", "outside, without the fins; measure it if you can",
                if FROM_FINS;
            /// From fin to fin.
            #[serde(skip_serializing_if = "is_usual_fin_pitch")]
            fin_pitch, "fin_pitch_m": Length = FIN_PITCH, Length,
                in inch(1.0) / 30.0, inch(0.25), likely None, Example,
                "Distance from fin to fin", "an inch over the fins on one inch: 0.056 in for 18",
                if FROM_FINS;
            /// Thickness of a fin.
            #[serde(skip_serializing_if = "is_usual_fin_thickness")]
            fin_thickness, "fin_thickness_m": Length = FIN_THICKNESS, Length,
                in inch(0.002), inch(0.02), likely Some((inch(0.004), inch(0.008))), FromMemory,
                "Thickness of a fin", "thin aluminium sheet", if FROM_FINS;
            /// Length along the air after which fins are offset.
            #[serde(skip_serializing_if = "is_usual_strip")]
            strip, "fin_strip_m": Length = STRIP, Length,
                in inch(0.04), inch(2.0), likely Some((inch(0.1), inch(0.25))), FromMemory,
                "Length of a fin along the air until it is offset", "look along the core's depth",
                if |cooler| FROM_FINS(cooler) && cooler.fin_kind == FinKind::Offset;
            /// Film coefficient of the oil in the tubes at the rated oil flow, W/(m²·K).
            #[serde(skip_serializing_if = "is_usual_oil_film")]
            oil_film, "oil_film_w_per_m2_k": f64 = OIL_FILM, Film,
                in 50.0, 10e3, likely Some((600.0, 2400.0)), FromMemory,
                "Heat from the oil to its tubes, per area", "stirred by turbulators, on the tubes' flat sides",
                if FROM_FINS;
            /// Conductance over that of perfect fins [-].
            #[serde(skip_serializing_if = "is_one")]
            fin_conductance_factor, "fin_conductance_factor": f64 = 1.0, Ratio,
                in 0.2, 2.0, likely Some((0.75, 1.3)), FromMemory,
                "Conductance of the core over that computed from its fins",
                "less with poor solder or tubes passed by", if FROM_FINS;
            /// Pressure drop over that of clean fins [-].
            #[serde(skip_serializing_if = "is_one")]
            fin_drop_factor, "fin_drop_factor": f64 = 1.0, Ratio,
                in 0.3, 4.0, likely Some((0.8, 1.6)), FromMemory,
                "Air pressure drop of the core over that computed from its fins",
                "more where fins are bent or dirty", if FROM_FINS;
            /// Depth of the core in the direction of the air.
            depth, "depth_m": Length = inch(2.0), Length,
                in inch(0.5), inch(8.0), likely None, Example,
                "Core depth", "measure along the air", if |_| true;
            /// Conductance of the core per volume at a face mass flux of 9 kg/(m²·s), W/(m³·K).
            size_conductance, "size_conductance_w_per_m3_k": f64 = 90e3, VolumeConductance,
                in 20e3, 300e3, likely Some((45e3, 150e3)), FromMemory,
                "Conductance per core volume", "aluminium fins, wide band: use a data sheet if you can",
                if FROM_SIZE;
            /// σΔp per depth at a face mass flux of 9 kg/(m²·s), Pa/m.
            size_drop, "size_drop_pa_per_m": f64 = inh2o(1.1) / inch(1.0), DropPerDepth,
                in inh2o(0.2) / inch(1.0), inh2o(5.0) / inch(1.0),
                likely Some((inh2o(0.6) / inch(1.0), inh2o(2.0) / inch(1.0))), FromMemory,
                "Air pressure drop per core depth", "aluminium fins, wide band: use a data sheet if you can",
                if FROM_SIZE;
            /// Share of the thermal resistance on the air side [-].
            air_share, "air_resistance_share": f64 = 0.5, Ratio,
                in 0.1, 0.9, likely Some((0.3, 0.7)), FromMemory,
                "Share of the thermal resistance on the air side", "half and half at the rated point", if NO_FINS;
            /// Exponent of flow in the core's pressure drop [-].
            core_exponent, "core_exponent": f64 = 1.75, Ratio,
                in 1.0, 2.0, likely Some((1.6, 1.9)), FromMemory,
                "Exponent of flow in the core's pressure drop", "narrow fins: between laminar and turbulent", if NO_FINS;
            /// Share of the core's face that tape or a plate covers [-].
            blanked_share, "blanked_share": f64 = 0.0, Percent,
                in 0.0, 0.95, likely None, Example,
                "Share of the core's face covered (winter plate or tape)",
                "covered area over the whole face; never cover all of it", if |_| true;
            /// Gap between the core and the wall behind it.
            #[serde(skip_serializing_if = "is_usual_gap")]
            standoff_gap, "standoff_gap_m": Length = STANDOFF_GAP, Length,
                in inch(0.1), inch(12.0), likely None, Example,
                "Gap behind the core", "from the back of the fins to the firewall or baffle",
                if BEFORE_WALL;
            /// Discharge coefficient of that gap [-].
            #[serde(skip_serializing_if = "is_usual_gap_discharge")]
            standoff_discharge, "standoff_discharge": f64 = STANDOFF_DISCHARGE, Ratio,
                in 0.2, 1.0, likely Some((0.5, 0.8)), CommonPractice,
                "Discharge coefficient of the gap behind the core",
                "a slot that air turns sideways into: 0.6 with sharp edges on all four sides, less \
                 where a side is closed off", if BEFORE_WALL;
            /// Diameter of the duct.
            duct_diameter, "duct_diameter_m": Length = inch(4.0), Length,
                in inch(0.5), inch(12.0), likely None, Example,
                "Duct diameter", "measure the hose's inside", if DUCTED;
            /// Length of the duct.
            duct_length, "duct_length_m": Length = inch(20.0), Length,
                in 0.0, inch(150.0), likely None, Example,
                "Duct length", "along its middle", if DUCTED;
            /// Darcy friction factor of reinforced hose [-].
            hose_friction, "hose_friction_factor": f64 = 0.05, Ratio,
                in 0.005, 0.3, likely Some((0.025, 0.10)), FromMemory,
                "Friction factor of the hose", "wire-reinforced, not stretched tight",
                if |cooler| DUCTED(cooler) && cooler.hose == Hose::Reinforced;
            /// Roughness over diameter of a smooth tube [-].
            tube_roughness, "tube_roughness": f64 = 0.001, Ratio,
                in 0.0, 0.05, likely Some((0.0001, 0.003)), FromMemory,
                "Roughness of the tube over its diameter", "moulded laminate",
                if |cooler| DUCTED(cooler) && cooler.hose == Hose::Smooth;
            /// Loss of each bend [-].
            bend_loss, "bend_loss": f64 = 0.30, Ratio,
                in 0.0, 1.5, likely Some((0.20, 0.45)), Library,
                "Loss of one bend", "round bends of radius 0.75 to 3 diameters, 90°",
                if |cooler| DUCTED(cooler) && cooler.bends > 0;
            /// Loss of the duct's entrance [-].
            entrance_loss, "entrance_loss": f64 = 0.5, Ratio,
                in 0.0, 1.5, likely Some((0.2, 0.9)), Library,
                "Loss of the duct's entrance", "0.5 sharp, less when rounded, up to 1 for a pipe that sticks out",
                if |_| true;
            /// Share of the cooler's air that has passed a cylinder [-].
            preheat_share, "preheat_share": f64 = 0.1, Ratio,
                in 0.0, 1.0, likely Some((0.0, 0.3)), FromMemory,
                "Share of the cooler's air that has passed a cylinder",
                "0 from a clear part of the rear baffle", if |cooler| cooler.supply == CoolerSupply::UpperDeck;
            /// The same for a cooler on the rear baffle [-].
            baffle_preheat_share, "baffle_preheat_share": f64 = 0.25, Ratio,
                in 0.0, 1.0, likely Some((0.05, 0.5)), FromMemory,
                "Share of the cooler's air that has passed a cylinder, on the rear baffle",
                "it stands right behind the rear cylinder and takes some of the air that has brushed it",
                if |cooler| cooler.supply == CoolerSupply::RearBaffle;
            /// Area of the cooler's own inlet.
            own_inlet_area, "own_inlet_area_m2": Area = inch2(10.0), Area,
                in inch2(0.5), inch2(200.0), likely None, Example,
                "Area of the cooler's own inlet", "measure it", if OWN_INLET;
            /// Ram recovery of the cooler's own inlet [-].
            own_inlet_recovery, "own_inlet_recovery": f64 = 0.75, Ratio,
                in 0.0, 1.0, likely Some((0.5, 0.95)), FromMemory,
                "Ram recovery of the cooler's own inlet", "depends on its place", if OWN_INLET;
            /// Loss of the lip of the cooler's own inlet [-], on the velocity in excess of the approach.
            own_inlet_lip_loss, "own_inlet_lip_loss": f64 = 0.5, Ratio,
                in 0.0, 2.0, likely Some((0.1, 1.0)), FromMemory,
                "Lip loss of the cooler's own inlet",
                "0.1 well rounded, 0.5 blunt, 1 a thin edge; only where it draws more than the ram brings",
                if OWN_INLET;
            /// Area of the cooler's own exit.
            own_exit_area, "own_exit_area_m2": Area = inch2(15.0), Area,
                in inch2(0.5), inch2(300.0), likely None, Example,
                "Area of the cooler's own exit", "measure it", if OWN_EXIT;
            /// Pressure coefficient outside the cooler's own exit [-].
            own_exit_pressure, "own_exit_pressure_coefficient": f64 = -0.1, Ratio,
                in -1.0, 0.6, likely Some((-0.3, 0.15)), FromMemory,
                "Pressure coefficient at the cooler's own exit", "depends on its place", if OWN_EXIT;
            /// Pressure coefficient outside the cooler's own exit in a climb [-].
            #[serde(skip_serializing_if = "is_hundredths::<0>")]
            own_exit_climb, "own_exit_climb_pressure_coefficient": f64 = 0.0, Ratio,
                in -1.0, 0.8, likely Some((-0.25, 0.25)), FromMemory,
                "Pressure coefficient at the cooler's own exit in a climb",
                "as for the main exit", if OWN_EXIT_APART;
            /// Pressure outside the cooler's own exit on the ground over the propeller's rise [-].
            #[serde(skip_serializing_if = "is_hundredths::<0>")]
            own_exit_ground, "own_exit_ground_share": f64 = 0.0, Ratio,
                in -0.5, 0.5, likely Some((-0.15, 0.15)), FromMemory,
                "Pressure at the cooler's own exit on the ground, over the propeller's pressure rise",
                "as for the main exit", if OWN_EXIT_APART;
            /// Discharge coefficient of the cooler's own exit [-].
            own_exit_discharge, "own_exit_discharge": f64 = 0.85, Ratio,
                in 0.3, 1.0, likely Some((0.65, 0.95)), FromMemory,
                "Discharge coefficient of the cooler's own exit", "as for the main exit", if OWN_EXIT;
            /// Velocity coefficient of the cooler's own exit [-].
            own_exit_velocity, "own_exit_velocity_coefficient": f64 = 0.98, Ratio,
                in 0.5, 1.0, likely Some((0.90, 1.0)), FromMemory,
                "Velocity coefficient of the cooler's own exit", "as for the main exit", if OWN_EXIT;
        }
    }
}

impl Cooler {
    /// Pressure outside its own exit, Pa gauge, at a dynamic pressure and a propeller's pressure rise, Pa.
    pub(crate) fn own_outside_pa(&self, phase: Phase, dynamic_pa: f64, propeller_pa: f64) -> f64 {
        match phase {
            Phase::Climb if self.own_exit_by_attitude => self.own_exit_climb * dynamic_pa,
            Phase::Ground if self.own_exit_by_attitude => {
                self.own_exit_pressure * dynamic_pa + self.own_exit_ground * propeller_pa
            }
            _ => self.own_exit_pressure * dynamic_pa,
        }
    }

    /// Share of the air that has passed a cylinder before the core \[-\].
    #[must_use]
    pub fn preheated_share(&self) -> f64 {
        match self.supply {
            CoolerSupply::UpperDeck => self.preheat_share,
            CoolerSupply::RearBaffle => self.baffle_preheat_share,
            CoolerSupply::FrontBaffle | CoolerSupply::OwnInlet => 0.0,
        }
    }

    /// Whether the air must turn out sideways between the core and a wall.
    #[must_use]
    pub fn has_wall_behind(&self) -> bool {
        self.wall_behind && self.discharge == CoolerDischarge::LowerDeck
    }

    /// Open sides of the gap behind the cores, m²; `None` where no wall stands close.
    #[must_use]
    pub fn standoff_area_m2(&self) -> Option<f64> {
        let beside = if self.second.is_beside() { 2.0 } else { 1.0 };
        let width_m = beside * self.face_width.value;
        // A = 2 (b + h) g
        self.has_wall_behind()
            .then(|| 2.0 * (width_m + self.core_height_m()) * self.standoff_gap.value)
    }

    /// Area of all faces that fresh air meets, m².
    #[must_use]
    pub fn faces_m2(&self) -> f64 {
        let one = self.face_width.value * self.core_height_m();
        if self.second.is_beside() {
            2.0 * one
        } else {
            one
        }
    }

    /// Share of the face that is open \[-\].
    #[must_use]
    pub fn open_share(&self) -> f64 {
        1.0 - self.blanked_share
    }

    /// Whether its height is counted in rows.
    #[must_use]
    pub fn counts_rows(&self) -> bool {
        self.rating != CoolerRating::Rated
    }

    /// Height of the core, m: measured, or counted in rows.
    #[must_use]
    pub fn core_height_m(&self) -> f64 {
        match self.rating {
            CoolerRating::Rated => self.face_height.value,
            CoolerRating::FromSize | CoolerRating::FromFins => {
                f64::from(self.rows) * self.row_pitch.value
            }
        }
    }
}
