//! Engine and its limits.

use crate::document::group::group;
use crate::document::installation::air_between::{
    DEBRIS_AIR, FLASH_AIR, FinPassages, POORER_END_AIR, POORER_SIDE_AIR, PoorerEnd, PoorerSide,
    is_debris_air, is_end_air, is_flash_air, is_side_air,
};
use crate::engine::uneven::Pattern;
use crate::units::si::{degf, deltaf, hp, lb_hp_h};
use serde::{Deserialize, Serialize};
use uom::si::f64::{Power, TemperatureInterval, ThermodynamicTemperature, Volume};

/// What kind of engine it is, and how it stands in the air.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum EngineKind {
    /// Air-cooled, horizontally opposed, four-stroke, not turbocharged, tractor, downdraft.
    #[default]
    AirCooledFlat,
    /// Turbocharged.
    Turbocharged,
    /// Liquid-cooled heads or cylinders.
    LiquidCooled,
    /// Radial.
    Radial,
    /// Two-stroke.
    TwoStroke,
    /// The first, with the propeller behind the exit.
    Pusher,
    /// Cooling air from below upward.
    Updraft,
}

impl EngineKind {
    /// Whether the air's path and the heads' heat are known for this kind.
    #[must_use]
    pub fn is_modelled(self) -> bool {
        matches!(self, Self::AirCooledFlat | Self::Pusher)
    }

    /// Whether the propeller turns behind the exit.
    #[must_use]
    pub fn is_pusher(self) -> bool {
        self == Self::Pusher
    }
}

/// How the head temperature is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum HeadProbe {
    /// Bayonet or threaded probe in the head's well.
    #[default]
    BayonetWell,
    /// Ring under a spark plug.
    UnderPlugRing,
}

/// How the fuel reaches the cylinders.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FuelSystem {
    /// Through a carburettor or a throttle body.
    #[default]
    Carburettor,
    /// Through a nozzle at each cylinder.
    Injected,
}

/// What is known of the cylinders one by one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum CylinderData {
    /// Nothing: the hottest stands above the mean by what is usual.
    #[default]
    Unknown,
    /// Hottest minus coolest head.
    Spread,
    /// Each cylinder's air, fuel and probe.
    Each,
}

const UNKNOWN: fn(&Engine) -> bool = |engine| engine.cylinder_data == CylinderData::Unknown;
const SIDE: fn(&Engine) -> bool =
    |engine| UNKNOWN(engine) && engine.poorer_side != PoorerSide::Neither;
const END: fn(&Engine) -> bool =
    |engine| UNKNOWN(engine) && engine.poorer_end != PoorerEnd::Neither;
const FLASH: fn(&Engine) -> bool =
    |engine| UNKNOWN(engine) && engine.fin_passages == FinPassages::CastingFlash;
const DEBRIS: fn(&Engine) -> bool =
    |engine| UNKNOWN(engine) && engine.fin_passages == FinPassages::Debris;
const SPREAD: fn(&Engine) -> bool = |engine| engine.cylinder_data == CylinderData::Spread;

/// A limit beside the redline.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SecondLimit {
    /// None is given.
    #[default]
    None,
    /// The manual's limit for continuous operation: it counts in cruise and descent.
    Continuous,
    /// The builder's own: it counts always.
    Personal,
}

impl SecondLimit {
    fn is_none(&self) -> bool {
        *self == Self::None
    }
}

/// Usual values of what older files do not hold, K; left out of files, so that these stay readable
/// for earlier versions.
const HEAD_SECOND_K: f64 = degf(400.0);
const OIL_SECOND_K: f64 = degf(220.0);
const OIL_MINIMUM_K: f64 = degf(140.0);
const OIL_WANTED_K: f64 = degf(180.0);

fn is_head_second(limit: &ThermodynamicTemperature) -> bool {
    limit.value == HEAD_SECOND_K
}

fn is_oil_second(limit: &ThermodynamicTemperature) -> bool {
    limit.value == OIL_SECOND_K
}

fn is_oil_minimum(limit: &ThermodynamicTemperature) -> bool {
    limit.value == OIL_MINIMUM_K
}

fn is_oil_wanted(limit: &ThermodynamicTemperature) -> bool {
    limit.value == OIL_WANTED_K
}

const HEAD_SECOND: fn(&Engine) -> bool = |engine| engine.head_second != SecondLimit::None;
const OIL_SECOND: fn(&Engine) -> bool = |engine| engine.oil_second != SecondLimit::None;

group! {
    /// Engine and its limits.
    pub struct Engine, "engine" {
        choices {
            /// Kind of engine.
            kind: EngineKind = EngineKind::AirCooledFlat;
            /// Number of cylinders.
            cylinders: u8 = 4;
            /// Oil jets cool the pistons.
            piston_cooling_jets: bool = false;
            /// New or freshly overhauled, rings not yet seated.
            break_in: bool = false;
            /// Kind of head probe.
            head_probe: HeadProbe = HeadProbe::BayonetWell;
            /// How the fuel reaches the cylinders.
            fuel_system: FuelSystem = FuelSystem::Carburettor;
            /// What is known of the cylinders one by one.
            cylinder_data: CylinderData = CylinderData::Unknown;
            /// Side of the engine that the cooling air reaches worse.
            #[serde(skip_serializing_if = "PoorerSide::is_neither")]
            poorer_side: PoorerSide = PoorerSide::Neither;
            /// End of the engine that the cooling air reaches worse.
            #[serde(skip_serializing_if = "PoorerEnd::is_neither")]
            poorer_end: PoorerEnd = PoorerEnd::Neither;
            /// What stands between the fins.
            #[serde(skip_serializing_if = "FinPassages::is_clear")]
            fin_passages: FinPassages = FinPassages::Clear;
            /// Page of the engine's manual that states the limits.
            limits_page: String = String::new();
            /// A limit of the heads beside the redline.
            #[serde(skip_serializing_if = "SecondLimit::is_none")]
            head_second: SecondLimit = SecondLimit::None;
            /// A limit of the oil beside the redline.
            #[serde(skip_serializing_if = "SecondLimit::is_none")]
            oil_second: SecondLimit = SecondLimit::None;
        }
        numbers {
            /// Rated power.
            rated_power, "rated_power_w": Power = hp(150.0), Power,
                in hp(30.0), hp(500.0), likely None, Example,
                "Rated power", "engine manual", if |_| true;
            /// Rated speed.
            rated_rpm, "rated_rpm": f64 = 2700.0, RotationalSpeed,
                in 1500.0, 4500.0, likely None, Example,
                "Rated speed", "engine manual", if |_| true;
            /// Compression ratio [-].
            compression_ratio, "compression_ratio": f64 = 8.5, Ratio,
                in 6.0, 12.0, likely None, Example,
                "Compression ratio", "engine manual", if |_| true;
            /// Share of the propeller's suction that stands at the exits of a pusher [-].
            pusher_suction, "pusher_suction_share": f64 = 0.3, Ratio,
                in 0.0, 1.0, likely Some((0.05, 0.7)), FromMemory,
                "Share of the propeller's suction at the exits",
                "1 right before the disc, next to nothing half a diameter ahead of it; blade roots work \
                 little",
                if |engine| engine.kind.is_pusher();
            /// Highest permitted head temperature, hottest cylinder, by the probe.
            head_limit, "head_limit_k": ThermodynamicTemperature = degf(435.0), Temperature,
                in degf(250.0), degf(600.0), likely None, Example,
                "Head temperature limit", "your limit, from your engine's manual", if |_| true;
            /// Highest permitted oil temperature at the gauge.
            oil_limit, "oil_limit_k": ThermodynamicTemperature = degf(245.0), Temperature,
                in degf(150.0), degf(320.0), likely None, Example,
                "Oil temperature limit", "your limit, from your engine's manual", if |_| true;
            /// Hottest minus coolest head at the known point.
            head_spread, "head_spread_k": TemperatureInterval = deltaf(40.0),
                TemperatureDifference,
                in 0.0, deltaf(200.0), likely Some((deltaf(20.0), deltaf(80.0))), FromMemory,
                "Spread between hottest and coolest head",
                "20 to 80 °F is commonly reported; the hottest stands half of it above the mean",
                if SPREAD;
            /// Standard deviation of a cylinder's air over the mean's [-].
            air_spread, "air_spread": f64 = 0.13, Ratio,
                in 0.0, 0.5, likely None, Derived,
                "How much air differs between cylinders (standard deviation)",
                "open logs of one six: 13 %", if UNKNOWN;
            /// The same of the mixture, injected [-].
            injected_spread, "injected_fuel_spread": f64 = 0.03, Ratio,
                in 0.0, 0.3, likely None, Derived,
                "How much fuel differs between cylinders, injected (standard deviation)",
                "open logs of one six: 3 %",
                if |engine| UNKNOWN(engine) && engine.fuel_system == FuelSystem::Injected;
            /// The same of the mixture, carburettor [-].
            carburettor_spread, "carburettor_fuel_spread": f64 = 0.05, Ratio,
                in 0.0, 0.3, likely None, FromMemory,
                "How much fuel differs between cylinders, carburettor (standard deviation)",
                "wider than injected; no data",
                if |engine| UNKNOWN(engine) && engine.fuel_system == FuelSystem::Carburettor;
            /// Standard deviation of what a probe reads off.
            probe_spread, "probe_spread_k": TemperatureInterval = deltaf(12.0),
                TemperatureDifference,
                in 0.0, deltaf(60.0), likely None, Derived,
                "How much probes differ from one another (standard deviation)",
                "open logs of one six: 12 °F", if UNKNOWN;
            /// Peak EGT at rated speed and manifold pressure, mean of the probes.
            egt_peak, "egt_peak_k": ThermodynamicTemperature = degf(1450.0), Temperature,
                in degf(900.0), degf(1900.0), likely Some((degf(1350.0), degf(1550.0))), FromMemory,
                "Peak EGT at rated speed and manifold pressure",
                "depends on where the probes sit; readings find it", if |_| true;
            /// How much more uneven this engine is than the average one [-].
            unevenness, "unevenness": f64 = 0.0, Ratio,
                in -2.0, 3.0, likely Some((-1.645, 1.645)), Derived,
                "How uneven this engine's cylinders are, in standard deviations from the usual",
                "not known before the first flight: the hottest head lies some 20 °F above the mean, \
                 give or take 8", if UNKNOWN;
            /// Air of the poorer side over the other's [-].
            #[serde(skip_serializing_if = "is_side_air")]
            poorer_side_air, "poorer_side_air": f64 = POORER_SIDE_AIR, Ratio,
                in 0.3, 1.0, likely Some((0.80, 0.99)), FromMemory,
                "Air of the poorer side over the other side",
                "a tighter inlet, a take-off for oil or cabin air, the propeller's blades; readings of                  each head tell",
                if SIDE;
            /// Air of the poorer end over the other's [-].
            #[serde(skip_serializing_if = "is_end_air")]
            poorer_end_air, "poorer_end_air": f64 = POORER_END_AIR, Ratio,
                in 0.3, 1.0, likely Some((0.75, 0.99)), FromMemory,
                "Air of the poorer end over the other end",
                "front heads in the shadow of the inlet's ramp, rear ones behind a take-off; readings of                  each head tell",
                if END;
            /// What a head with casting flash keeps of its air [-].
            #[serde(skip_serializing_if = "is_flash_air")]
            flash_air, "flash_air": f64 = FLASH_AIR, Ratio,
                in 0.3, 1.0, likely Some((0.85, 0.99)), FromMemory,
                "Air that a head with casting flash keeps",
                "a few closed passages of some dozens; count those that light does not shine through",
                if FLASH;
            /// What a cylinder under debris keeps of its air [-].
            #[serde(skip_serializing_if = "is_debris_air")]
            debris_air, "debris_air": f64 = DEBRIS_AIR, Ratio,
                in 0.1, 1.0, likely Some((0.4, 0.95)), FromMemory,
                "Air that a cylinder under debris keeps",
                "the share of its top that is left open", if DEBRIS;
            /// Share of the spread that comes from uneven air, the rest from uneven mixture [-].
            spread_air_share, "spread_air_share": f64 = 0.5, Ratio,
                in 0.0, 1.0, likely Some((0.3, 0.7)), FromMemory,
                "Share of the spread due to uneven air", "an even split until measured",
                if SPREAD;
            /// Reading minus head temperature, bayonet probe.
            probe_bias, "probe_bias_k": TemperatureInterval = 0.0, TemperatureDifference,
                in deltaf(-80.0), deltaf(80.0), likely Some((deltaf(-5.0), deltaf(5.0))), FromMemory,
                "Probe reading minus head temperature", "check it in boiling water",
                if |engine| engine.head_probe == HeadProbe::BayonetWell;
            /// Reading minus head temperature, ring under a spark plug.
            ring_bias, "ring_bias_k": TemperatureInterval = deltaf(35.0), TemperatureDifference,
                in deltaf(-80.0), deltaf(120.0), likely Some((deltaf(20.0), deltaf(50.0))),
                FromMemory,
                "Plug-ring reading minus head temperature",
                "rings under a plug are said to read 20 to 50 °F above the head's well",
                if |engine| engine.head_probe == HeadProbe::UnderPlugRing;
            /// Ignition advance beyond that of the known point, degrees.
            ignition_advance, "ignition_advance_deg": f64 = 0.0, Angle,
                in -15.0, 15.0, likely None, Example,
                "Ignition advance beyond the engine's standard", "timing light", if |_| true;
            /// Rise of the effective gas temperature per degree of advance.
            advance_effect, "advance_effect_k_per_deg": f64 = deltaf(8.0), DifferencePerDegree,
                in 0.0, deltaf(30.0), likely Some((deltaf(3.0), deltaf(15.0))), FromMemory,
                "Gas temperature per degree of advance",
                "two to three degrees of head per degree of advance, turned into gas temperature",
                if |engine| engine.ignition_advance != 0.0;
            /// Rise of the effective gas temperature while rings seat.
            break_in_shift, "break_in_shift_k": TemperatureInterval = deltaf(80.0),
                TemperatureDifference,
                in 0.0, deltaf(300.0), likely Some((deltaf(30.0), deltaf(150.0))), FromMemory,
                "Gas temperature rise during break-in",
                "a new engine's heads run some 10 to 50 °F hotter until the rings seat",
                if |engine| engine.break_in;
            /// Change of gas temperature per change of charge temperature [-].
            charge_effect, "charge_effect": f64 = 0.8, Ratio,
                in 0.0, 1.5, likely Some((0.4, 1.0)), Derived,
                "Gas temperature per degree of charge temperature",
                "fitted with the mixture curve to open flight logs", if |_| true;
            /// Air consumption per brake energy at best power and 8.5:1.
            air_consumption, "air_consumption_kg_j": f64 = lb_hp_h(6.2), AirConsumption,
                in lb_hp_h(4.0), lb_hp_h(9.0), likely Some((lb_hp_h(5.7), lb_hp_h(6.9))), Derived,
                "Air consumption at best power",
                "open logs: an injected six takes 6.5 to 6.7, a four-cylinder trainer about 6.0",
                if |_| true;
            /// Exponent of temperature in the charge air [-].
            charge_exponent, "charge_exponent": f64 = 0.8, Ratio,
                in 0.0, 1.5, likely Some((0.5, 1.1)), Derived,
                "Charge air falls with outside temperature to the power",
                "0.5 is usual practice, open logs of one six fit 1.1; the smaller errs hot on hot days",
                if |_| true;
            /// True over indicated fuel flow [-].
            fuel_flow_scale, "fuel_flow_scale": f64 = 1.0, Ratio,
                in 0.7, 1.4, likely Some((0.97, 1.03)), CommonPractice,
                "True fuel flow over the fuel flow shown", "check it at the pump over a few flights",
                if |_| true;
            /// Displacement of all cylinders; zero if it is not given.
            displacement, "displacement_m3": Volume = 0.0, Displacement,
                in 0.0, 0.02, likely None, Example,
                "Displacement (optional, a check of the air consumption)", "engine manual; 0 leaves it out",
                if |_| true;
            /// Exhaust heat into the lower deck, as a share of brake power [-].
            exhaust_heat_share, "exhaust_heat_share": f64 = 0.06, Ratio,
                in 0.0, 0.4, likely Some((0.02, 0.15)), FromMemory,
                "Exhaust heat into the lower deck over brake power", "pipes and muffler",
                if |_| true;
            /// Mixture at full rich, equivalence ratio [-].
            full_rich, "full_rich_phi": f64 = 1.6, Ratio,
                in 0.8, 2.2, likely Some((1.40, 1.75)), Derived,
                "Full rich: fuel over stoichiometric",
                "1.63 ± 0.05 in open logs of one injected six; for carburettors there are no data",
                if |_| true;
            /// Mixture at best power, equivalence ratio [-].
            best_power, "best_power_phi": f64 = 1.2, Ratio,
                in 0.8, 2.2, likely Some((1.12, 1.25)), FromMemory,
                "Best power: fuel over stoichiometric", "textbook value", if |_| true;
            /// Mixture at peak EGT, equivalence ratio [-].
            peak_egt, "peak_egt_phi": f64 = 1.045, Ratio,
                in 0.8, 2.2, likely Some((1.02, 1.07)), Derived,
                "Peak EGT: fuel over stoichiometric",
                "open logs of one injected six, on the axis of the gas-temperature curve", if |_| true;
            /// Mixture lean of peak, equivalence ratio [-].
            lean_of_peak, "lean_of_peak_phi": f64 = 0.94, Ratio,
                in 0.6, 2.2, likely Some((0.88, 0.99)), Derived,
                "Lean of peak: fuel over stoichiometric",
                "some 50 °F of EGT lean of peak, by the EGT curve", if |_| true;
            /// Highest head temperature by the second limit, hottest cylinder, by the probe.
            #[serde(skip_serializing_if = "is_head_second")]
            head_second_limit, "head_second_limit_k": ThermodynamicTemperature = HEAD_SECOND_K,
                Temperature,
                in degf(250.0), degf(600.0), likely None, Example,
                "Second head temperature limit", "your own, or your engine's manual", if HEAD_SECOND;
            /// Highest oil temperature by the second limit, at the gauge.
            #[serde(skip_serializing_if = "is_oil_second")]
            oil_second_limit, "oil_second_limit_k": ThermodynamicTemperature = OIL_SECOND_K,
                Temperature,
                in degf(150.0), degf(320.0), likely None, Example,
                "Second oil temperature limit", "your own, or your engine's manual", if OIL_SECOND;
            /// Lowest oil temperature to fly with, at the gauge.
            #[serde(skip_serializing_if = "is_oil_minimum")]
            oil_minimum, "oil_minimum_k": ThermodynamicTemperature = OIL_MINIMUM_K, Temperature,
                in degf(32.0), degf(220.0), likely None, CommonPractice,
                "Least oil temperature to fly", "engine manual; 140 °F is common practice",
                if |_| true;
            /// Oil temperature that boils its water off, at the gauge.
            #[serde(skip_serializing_if = "is_oil_wanted")]
            oil_wanted, "oil_wanted_k": ThermodynamicTemperature = OIL_WANTED_K, Temperature,
                in degf(100.0), degf(250.0), likely None, CommonPractice,
                "Oil temperature wanted", "180 °F boils water off; common practice", if |_| true;
        }
    }
}

impl Engine {
    /// Standard deviation of a cylinder's mixture over the mean's [-].
    #[must_use]
    pub(crate) fn fuel_spread(&self) -> f64 {
        match self.fuel_system {
            FuelSystem::Carburettor => self.carburettor_spread,
            FuelSystem::Injected => self.injected_spread,
        }
    }

    /// What is told of the air of cylinders that are not known one by one; `None` if they are alike.
    #[must_use]
    pub(crate) fn air_pattern(&self) -> Option<Pattern> {
        let told = |is_told: fn(&Self) -> bool, share: f64| if is_told(self) { share } else { 1.0 };
        let pattern = Pattern {
            side: told(SIDE, self.poorer_side_air),
            end: told(END, self.poorer_end_air),
            one: told(FLASH, self.flash_air) * told(DEBRIS, self.debris_air),
        };
        let is_told = SIDE(self) || END(self) || FLASH(self) || DEBRIS(self);
        is_told.then_some(pattern)
    }

    /// What the chosen probe reads above a head's temperature, K.
    #[must_use]
    pub(crate) fn head_reading_bias_k(&self) -> f64 {
        match self.head_probe {
            HeadProbe::BayonetWell => self.probe_bias.value,
            HeadProbe::UnderPlugRing => self.ring_bias.value,
        }
    }
}
