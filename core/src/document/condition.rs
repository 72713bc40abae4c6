//! A flight or ground condition: where, how fast, how much power, with what mixture.

use crate::document::group::group;
use crate::units::si::{degf, deltaf, foot, gal_h, hp, inhg, knot};
use serde::{Deserialize, Serialize};
use uom::si::f64::{
    Length, Power, Pressure, TemperatureInterval, ThermodynamicTemperature, Velocity, VolumeRate,
};

/// What the aircraft does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Phase {
    /// On the ground.
    Ground,
    /// Climbing.
    Climb,
    /// Level.
    #[default]
    Cruise,
    /// Descending.
    Descent,
}

/// How the outside air is given.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum AirKind {
    /// By an OAT.
    #[default]
    Oat,
    /// The certification hot day: 100 °F at sea level.
    HotDay,
    /// Standard atmosphere plus a difference.
    IsaOffset,
}

/// Which airspeed is given.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SpeedKind {
    /// Indicated.
    #[default]
    Indicated,
    /// Calibrated.
    Calibrated,
    /// True.
    True,
}

/// How power is given.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PowerKind {
    /// Share of rated power.
    #[default]
    Share,
    /// Brake power.
    Brake,
    /// Engine speed and manifold pressure, approximate.
    Manifold,
    /// Fuel flow, with a mixture that has a name.
    FuelFlow,
}

/// How the mixture is given.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Mixture {
    /// Full rich.
    FullRich,
    /// Best power.
    #[default]
    BestPower,
    /// Peak EGT.
    PeakEgt,
    /// Lean of peak EGT.
    LeanOfPeak,
    /// So many degrees rich of peak EGT.
    RichByEgt,
    /// So many degrees lean of peak EGT.
    LeanByEgt,
    /// By the equivalence ratio.
    Ratio,
    /// By the fuel flow.
    FuelFlow,
}

/// What the oil-cooler shutter does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ShutterPolicy {
    /// Stands at a fixed opening.
    Fixed,
    /// Is set so that the gauge shows the target.
    #[default]
    HoldOil,
}

/// Share of the cylinders that fire [-].
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Firing(pub f64);

impl Default for Firing {
    fn default() -> Self {
        Self(1.0)
    }
}

/// Usual warming, K; left out of files, so that these stay readable for earlier versions.
const INDUCTION_WARMING_K: f64 = deltaf(90.0);

fn is_usual_warming(warming: &TemperatureInterval) -> bool {
    warming.value == INDUCTION_WARMING_K
}

impl Condition {
    /// The condition with the shutter fully open, so that it regulates nothing and the whole cooler counts.
    #[must_use]
    pub fn with_shutter_open(&self) -> Self {
        Self {
            shutter: ShutterPolicy::Fixed,
            shutter_opening: 1.0,
            ..self.clone()
        }
    }

    /// Warming of the induction air above the outside's total temperature, K; of air from the lower deck a
    /// first guess.
    #[must_use]
    pub(crate) fn induction_warming_k(&self, from_lower_deck: bool) -> f64 {
        if self.warm_induction || from_lower_deck {
            self.induction_warming.value
        } else {
            0.0
        }
    }
}

// Ranges of what is read off instruments: power ±4 points, airspeed ±3 kt, OAT ±2 °C (common
// practice), manifold pressure ±0.4 inHg (from memory).
group! {
    /// One condition.
    pub struct Condition, "condition" {
        choices {
            /// Name.
            name: String = "Cruise".to_owned();
            /// What the aircraft does.
            phase: Phase = Phase::Cruise;
            /// How the outside air is given.
            air: AirKind = AirKind::Oat;
            /// Which airspeed is given.
            speed: SpeedKind = SpeedKind::Indicated;
            /// How power is given.
            power: PowerKind = PowerKind::Share;
            /// Mixture.
            mixture: Mixture = Mixture::BestPower;
            /// Share of the cylinders that fire [-]; below one where readings show a dead one.
            firing: Firing = Firing::default();
            /// What the shutter does.
            shutter: ShutterPolicy = ShutterPolicy::HoldOil;
            /// Carburettor heat or alternate air is on.
            #[serde(skip_serializing_if = "core::ops::Not::not")]
            warm_induction: bool = false;
        }
        numbers {
            /// Altitude on the altimeter.
            altitude, "altitude_m": Length = foot(8000.0), Altitude,
                in foot(-1500.0), foot(30000.0), likely None, Example,
                "Altitude", "what the altimeter shows", if |_| true;
            /// Altimeter setting.
            altimeter_setting, "altimeter_setting_pa": Pressure = 101_325.0, Altimeter,
                in inhg(27.0), inhg(32.0), likely None, Example,
                "Altimeter setting", "29.92 makes the altitude a pressure altitude", if |_| true;
            /// Outside air temperature on the gauge.
            oat, "oat_k": ThermodynamicTemperature = degf(59.0), Temperature,
                in degf(-70.0), degf(130.0), likely Some((degf(55.4), degf(62.6))), Example,
                "OAT", "thermometer", if |condition| condition.air == AirKind::Oat;
            /// Difference to the standard atmosphere.
            isa_offset, "isa_offset_k": TemperatureInterval = deltaf(0.0), TemperatureDifference,
                in deltaf(-100.0), deltaf(100.0), likely Some((-2.0, 2.0)), Example,
                "Difference to standard temperature", "choose it",
                if |condition| condition.air == AirKind::IsaOffset;
            /// Airspeed.
            airspeed, "airspeed_m_s": Velocity = knot(130.0), Speed,
                in 0.0, knot(280.0), likely Some((knot(127.0), knot(133.0))), Example,
                "Airspeed", "zero on the ground", if |_| true;
            /// Share of rated power [-].
            power_share, "power_share": f64 = 0.75, Percent,
                in 0.02, 1.1, likely Some((0.71, 0.79)), Example,
                "Power", "power chart of the manual",
                if |condition| condition.power == PowerKind::Share;
            /// Brake power.
            brake_power, "brake_power_w": Power = hp(112.0), Power,
                in hp(3.0), hp(500.0), likely Some((hp(0.96 * 112.0), hp(1.04 * 112.0))), Example,
                "Brake power", "power chart of the manual",
                if |condition| condition.power == PowerKind::Brake;
            /// Engine speed.
            rpm, "rpm": f64 = 2400.0, RotationalSpeed,
                in 500.0, 4500.0, likely None, Example,
                "Engine speed", "tachometer", if |_| true;
            /// Fuel flow.
            fuel_flow, "fuel_flow_m3_s": VolumeRate = gal_h(9.0), FuelFlow,
                in gal_h(0.5), gal_h(60.0), likely None, Example,
                "Fuel flow", "flow meter",
                if |condition| condition.mixture == Mixture::FuelFlow
                    || condition.power == PowerKind::FuelFlow;
            /// Manifold pressure.
            manifold, "manifold_pa": Pressure = inhg(24.0), Altimeter,
                in inhg(5.0), inhg(32.0), likely Some((inhg(23.6), inhg(24.4))), Example,
                "Manifold pressure",
                "gauge; power from it is approximate (±8 %, from memory), your engine's chart is better",
                if |condition| condition.power == PowerKind::Manifold;
            /// Opening of the cowl flap, 0 closed to 1 open [-].
            flap, "flap_opening": f64 = 0.0, Percent,
                in 0.0, 1.0, likely None, Example,
                "Cowl flap opening", "0 closed, 100 % open", if |_| true;
            /// Opening of the shutter, 0 closed to 1 open [-].
            shutter_opening, "shutter_opening": f64 = 1.0, Percent,
                in 0.0, 1.0, likely None, Example,
                "Shutter opening", "0 closed, 100 % open",
                if |condition| condition.shutter == ShutterPolicy::Fixed;
            /// Oil temperature to hold at the gauge.
            oil_target, "oil_target_k": ThermodynamicTemperature = degf(190.0), Temperature,
                in degf(100.0), degf(280.0), likely None, CommonPractice,
                "Oil temperature to hold", "180 to 200 °F is common practice",
                if |condition| condition.shutter == ShutterPolicy::HoldOil;
            /// EGT below its peak.
            egt_below_peak, "egt_below_peak_k": TemperatureInterval = deltaf(100.0),
                TemperatureDifference,
                in 0.0, deltaf(400.0), likely Some((deltaf(80.0), deltaf(120.0))), FromMemory,
                "EGT below its peak", "peak found by leaning slowly, one cylinder",
                if |condition| matches!(condition.mixture, Mixture::RichByEgt | Mixture::LeanByEgt);
            /// Equivalence ratio [-].
            phi, "phi": f64 = 1.2, Ratio,
                in 0.6, 2.2, likely Some((1.15, 1.25)), FromMemory,
                "Mixture: fuel over stoichiometric", "1.6 full rich, 1.2 best power, 1.05 peak EGT",
                if |condition| condition.mixture == Mixture::Ratio;
            /// Warming of the induction air by carburettor heat or alternate air.
            #[serde(skip_serializing_if = "is_usual_warming")]
            induction_warming, "induction_warming_k": TemperatureInterval = INDUCTION_WARMING_K,
                TemperatureDifference,
                in 0.0, deltaf(200.0), likely Some((deltaf(50.0), deltaf(130.0))), FromMemory,
                "Warming of the induction air",
                "carburettor heat of certificated aircraft gives 90 °F at three quarters of the power; \
                 alternate air is as warm as the lower deck, where that is chosen whatever stands here",
                if |condition| condition.warm_induction;
            /// Wind on the ground, positive on the nose.
            wind, "wind_m_s": Velocity = 0.0, Speed,
                in knot(-40.0), knot(40.0), likely None, Example,
                "Wind on the nose (behind: below zero)", "wind sock; it adds to the speed on the ground",
                if |condition| condition.phase == Phase::Ground;
        }
    }
}
