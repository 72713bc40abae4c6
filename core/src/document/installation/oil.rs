//! Oil, its cooler, and the shutter in the cooler's duct.

use crate::document::group::group;
use crate::engine::cooler_pair::{Cores, Join};
use crate::units::si::{btu_min, degf, inch, inch2, inh2o, l_min, lb_s, psi};
use serde::{Deserialize, Serialize};
use uom::si::f64::{Area, Length, MassRate, Power, Pressure, ThermodynamicTemperature, VolumeRate};

/// Oil grade: what its viscosity is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Grade {
    /// Single grade 50.
    Sae50,
    /// Single grade 40.
    Sae40,
    /// Multigrade 20W-50.
    Multigrade20w50,
    /// Multigrade 15W-50.
    #[default]
    Multigrade15w50,
}

impl Grade {
    /// Viscosities at 40 and 100 °C, cSt (typical values, from memory).
    #[must_use]
    pub fn viscosities_cst(self) -> (f64, f64) {
        match self {
            Self::Sae50 => (215.0, 19.6),
            Self::Sae40 => (140.0, 14.6),
            Self::Multigrade20w50 => (165.0, 19.0),
            Self::Multigrade15w50 => (140.0, 19.4),
        }
    }
}

/// Where the oil gauge's probe sits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum OilProbe {
    /// In the hot oil, before the cooler or in the sump.
    BeforeCooler,
    /// Behind the cooler, where the oil enters the engine.
    #[default]
    AfterCooler,
}

group! {
    /// Oil.
    pub struct Oil, "oil" {
        choices {
            /// Grade.
            grade: Grade = Grade::Multigrade15w50;
            /// Where the gauge's probe sits.
            probe: OilProbe = OilProbe::AfterCooler;
            /// A thermostatic bypass is fitted.
            thermostat: bool = true;
        }
        numbers {
            /// Heat into the oil over brake power at the known point [-].
            heat_share, "heat_share": f64 = 0.08, Ratio,
                in 0.01, 0.25, likely Some((0.055, 0.12)), Derived,
                "Heat into the oil over brake power",
                "without piston cooling jets: from six builders' oil temperatures; one six's logs \
                 ask for 0.11", if |_| true;
            /// The same with piston cooling jets [-].
            heat_share_jets, "heat_share_jets": f64 = 0.10, Ratio,
                in 0.01, 0.30, likely Some((0.07, 0.14)), FromMemory,
                "Heat into the oil over brake power, piston cooling jets",
                "a fiftieth of the power more than without; what the jets add is taken from the fins",
                if |_| true;
            /// Share of that heat that comes from the heads by conduction [-].
            conduction_share, "conduction_share": f64 = 0.70, Ratio,
                in 0.0, 1.0, likely Some((0.45, 0.85)), FromMemory,
                "Share of the oil's heat that comes from hot metal",
                "split from open flight logs: oil moves 0.3 to 0.4 °F per °F of head", if |_| true;
            /// Hot oil at the known point.
            reference_oil, "reference_oil_k": ThermodynamicTemperature = degf(215.0), Temperature,
                in degf(120.0), degf(300.0), likely Some((degf(195.0), degf(235.0))), FromMemory,
                "Hot oil at the known point", "usual temperature at rated power", if |_| true;
            /// Flow of the oil pump at rated speed.
            pump_flow, "pump_flow_m3_s": VolumeRate = l_min(16.0), OilFlow,
                in l_min(2.0), l_min(100.0), likely Some((l_min(11.0), l_min(24.0))), FromMemory,
                "Oil pump flow at rated speed", "what reaches the cooler, past the relief valve", if |_| true;
            /// Oil delivered at which the thermostat begins to send more oil through the cooler.
            thermostat_opens, "thermostat_opens_k": ThermodynamicTemperature = degf(170.0),
                Temperature,
                in degf(80.0), degf(260.0), likely Some((degf(160.0), degf(180.0))), CommonPractice,
                "Thermostat begins to open the cooler", "stamped on the valve or in the manual",
                if |oil| oil.thermostat;
            /// Oil delivered at which all oil goes through the cooler.
            thermostat_full, "thermostat_full_k": ThermodynamicTemperature = degf(190.0),
                Temperature,
                in degf(90.0), degf(290.0), likely Some((degf(183.0), degf(197.0))), CommonPractice,
                "Thermostat sends all oil through the cooler", "stamped on the valve or in the manual",
                if |oil| oil.thermostat;
            /// Share of the oil through the cooler with the thermostat cold [-].
            thermostat_leak, "thermostat_leak_share": f64 = 0.6, Ratio,
                in 0.0, 1.0, likely Some((0.2, 1.0)), Derived,
                "Share of the oil through the cooler with a cold thermostat",
                "the valve holds no firm minimum: one aircraft's logs, and reports of winter flying, \
                 show oil 90 to 100 °F above the outside air where the valve should be shut",
                if |oil| oil.thermostat;
            /// Conductance sump → lower deck, W/K.
            sump_conductance, "sump_conductance_w_per_k": f64 = 8.0, Conductance,
                in 0.0, 100.0, likely Some((3.0, 15.0)), FromMemory,
                "Heat from the sump's skin", "some 0.25 m² at 30 W/(m²·K)", if |_| true;
            /// Oil-side pressure drop of cooler and lines that is still acceptable.
            drop_limit, "drop_limit_pa": Pressure = psi(40.0), OilPressure,
                in psi(5.0), psi(200.0), likely None, Example,
                "Acceptable oil pressure drop in cooler and lines", "engine manual", if |_| true;
            /// Oil-side pressure drop at the cooler's rated point.
            rated_drop, "rated_drop_pa": Pressure = psi(8.0), OilPressure,
                in psi(0.2), psi(60.0), likely Some((psi(4.0), psi(15.0))), FromMemory,
                "Oil pressure drop of cooler and lines, hot, at rated oil flow",
                "the cooler's data sheet", if |_| true;
        }
    }
}

/// Id of the input that holds the heat into the oil, with or without piston cooling jets.
#[must_use]
pub fn oil_heat_share_id(jets: bool) -> &'static str {
    if jets {
        "oil.heat_share_jets"
    } else {
        "oil.heat_share"
    }
}

/// How the cooler's performance is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum CoolerRating {
    /// A rated point from its data sheet.
    #[default]
    Rated,
    /// Estimated from its size.
    FromSize,
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
    /// An inlet of its own.
    OwnInlet,
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
const DUCTED: fn(&Cooler) -> bool = |cooler| cooler.supply != CoolerSupply::RearBaffle;
const OWN_INLET: fn(&Cooler) -> bool = |cooler| cooler.supply == CoolerSupply::OwnInlet;
const OWN_EXIT: fn(&Cooler) -> bool = |cooler| cooler.discharge == CoolerDischarge::OwnExit;

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
            /// Kind of hose.
            hose: Hose = Hose::Reinforced;
            /// Number of bends in the duct.
            bends: u8 = 2;
            /// Number of rows of the core.
            rows: u8 = 10;
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
                if FROM_SIZE;
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
                "Share of the thermal resistance on the air side", "half and half at the rated point", if |_| true;
            /// Exponent of flow in the core's pressure drop [-].
            core_exponent, "core_exponent": f64 = 1.75, Ratio,
                in 1.0, 2.0, likely Some((1.6, 1.9)), FromMemory,
                "Exponent of flow in the core's pressure drop", "narrow fins: between laminar and turbulent", if |_| true;
            /// Share of the core that is blanked [-].
            blanked_share, "blanked_share": f64 = 0.0, Percent,
                in 0.0, 0.95, likely None, Example,
                "Blanked share of the core", "tape over the fins", if |_| true;
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

group! {
    /// Butterfly in the cooler's duct.
    pub struct Shutter, "shutter" {
        choices {
            /// A shutter is fitted.
            fitted: bool = true;
        }
        numbers {
            /// Area that stays open past the closed disc, as a share of the duct's [-].
            closed_gap, "closed_gap": f64 = 0.15, Percent,
                in 0.0, 0.5, likely Some((0.05, 0.27)), Derived,
                "What stays open when the shutter is closed",
                "so that it moves the oil by the 50 to 65 °F that builders report; a tight disc would \
                 move it twice as far",
                if |shutter| shutter.fitted;
            /// Area of holes drilled in the disc, as a share of the duct's [-].
            drilled_share, "drilled_share": f64 = 0.0, Percent,
                in 0.0, 0.5, likely None, Example,
                "Holes drilled in the shutter's disc", "area of all holes over that of the duct",
                if |shutter| shutter.fitted;
            /// Which of the published loss tables: −0.5 lowest, +0.5 highest [-].
            table_choice, "table_choice": f64 = 0.0, Ratio,
                in -1.0, 1.0, likely Some((-0.5, 0.5)), Published,
                "Spread between published shutter losses",
                "Weisbach's table in the middle; sources differ twofold at 45°, 3.5-fold at 60°",
                if |shutter| shutter.fitted;
        }
    }
}

impl Cooler {
    /// Share of the air that has passed a cylinder before the core \[-\].
    #[must_use]
    pub fn preheated_share(&self) -> f64 {
        match self.supply {
            CoolerSupply::UpperDeck => self.preheat_share,
            CoolerSupply::RearBaffle => self.baffle_preheat_share,
            CoolerSupply::OwnInlet => 0.0,
        }
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

    /// Height of the core, m: measured, or counted in rows.
    #[must_use]
    pub fn core_height_m(&self) -> f64 {
        match self.rating {
            CoolerRating::Rated => self.face_height.value,
            CoolerRating::FromSize => f64::from(self.rows) * self.row_pitch.value,
        }
    }
}
