//! Readings taken in flight: what each instrument showed, and the condition they describe.
//!
//! A reading is one steady test point, or a stretch of flight with many moments, such as a whole
//! climb. What the instruments showed is kept as it was; [`Instruments`] holds what must be added
//! to it, and [`Reading::corrected`] applies that.

use crate::document::quantity::Quantity;
use crate::language::tr;
use crate::units::quantity::{cubic_metre_per_s, kelvin, metre, metre_per_s, pascal};

use crate::document::condition::Firing;
use crate::document::condition::{
    AirKind, Condition, Mixture, Phase, PowerKind, ShutterPolicy, SpeedKind,
};
use crate::document::installation::Engine;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::sync::Arc;

/// Most readings in one design.
pub const MAX_READINGS: usize = 60;
/// Most moments in one reading.
pub const MAX_MOMENTS: usize = 480;
/// Engine speed over rated speed where none was noted \[-\] (from memory; it moves the oil pump
/// only).
const USUAL_RPM_SHARE: f64 = 0.9;

/// Numbers by quantity, SI.
pub type Values = BTreeMap<Quantity, f64>;

/// What stood on the instruments at one time.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Moment {
    /// Since the first moment of the reading, s.
    #[serde(default)]
    pub seconds: f64,
    /// What was read, SI.
    #[serde(default)]
    pub values: Values,
}

/// A cylinder that burns less than the others.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sick {
    /// Its number, from 1.
    pub cylinder: u8,
    /// Fuel that it takes over that of another \[-\].
    pub share: f64,
    /// Whether it fires.
    pub fires: bool,
    /// Since when in its reading, s; 0 all along.
    #[serde(default, skip_serializing_if = "is_start")]
    pub from_s: f64,
}

fn is_start(seconds: &f64) -> bool {
    *seconds == 0.0
}

impl Sick {
    /// Whether it is so in a moment.
    #[must_use]
    pub fn is_in(&self, moment: &Moment) -> bool {
        moment.seconds >= self.from_s
    }
}

/// What a reading is used for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Used {
    /// A fit sees it.
    Fit,
    /// No fit sees it: the fitted model is checked on it.
    CheckOnly,
    /// Nothing.
    LeftOut,
}

/// One reading.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Reading {
    /// Name.
    pub name: String,
    /// Set that it belongs to, such as "old seals".
    pub set: String,
    /// Mixture at the reading.
    pub mixture: Mixture,
    /// Whether calibration leaves it out.
    pub left_out: bool,
    /// Whether a fit never sees it, so that the fitted model can be checked on it.
    #[serde(skip_serializing_if = "core::ops::Not::not")]
    pub check_only: bool,
    /// Whether it is all of a flight: every moment counts, with errors that are correlated.
    #[serde(skip_serializing_if = "core::ops::Not::not")]
    pub whole: bool,
    /// Log that it was taken from; empty for one that was typed.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub log: String,
    /// What the aircraft did, where that was noted: climb, level or descent.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub flown: Option<Phase>,
    /// A cylinder that burned less than the others, if one did.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sick: Option<Sick>,
    /// Moments: one for a steady test point. Shared, since a design is copied at every keystroke.
    pub moments: Arc<Vec<Moment>>,
}

/// What must be added to what an instrument shows, SI; absent means nothing.
pub type Instruments = Values;

/// What keeps a moment from being a condition.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[non_exhaustive]
pub enum Lacking {
    /// A quantity is missing.
    Quantity(Quantity),
    /// Neither power, nor fuel flow, nor engine speed with manifold pressure was noted.
    Power,
}

impl core::fmt::Display for Lacking {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::Quantity(quantity) => f.write_str(&tr!("{} is missing", quantity.label())),
            Self::Power => f.write_str(tr(
                "power is missing: give it in per cent, or as engine speed with manifold pressure, \
                 or as fuel flow",
            )),
        }
    }
}

impl core::error::Error for Lacking {}

impl Moment {
    /// A value, SI.
    #[must_use]
    pub fn get(&self, quantity: Quantity) -> Option<f64> {
        self.values.get(&quantity).copied()
    }

    /// The heads that were read, K, cylinder 1 first.
    pub fn heads(&self) -> impl Iterator<Item = f64> + '_ {
        Quantity::HEADS
            .into_iter()
            .filter_map(|head| self.get(head))
    }

    /// Mean of the heads, K; `None` with fewer than two.
    ///
    /// # Example
    /// (440 + 450 + 460)/3 K; one head alone has no mean:
    /// ```
    /// use coolpath_core::document::quantity::Quantity;
    /// use coolpath_core::document::reading::Moment;
    ///
    /// let mut moment = Moment::default();
    /// moment.values.insert(Quantity::HEADS[0], 440.0);
    /// assert_eq!(moment.head_mean(), None);
    /// moment.values.insert(Quantity::HEADS[1], 450.0);
    /// moment.values.insert(Quantity::HEADS[2], 460.0);
    /// assert_eq!(moment.head_mean(), Some(450.0));
    /// ```
    #[must_use]
    pub fn head_mean(&self) -> Option<f64> {
        let heads: Vec<f64> = self.heads().collect();
        (heads.len() > 1).then(|| heads.iter().sum::<f64>() / heads.len() as f64)
    }

    /// Hottest head, K.
    #[must_use]
    pub fn head_hottest(&self) -> Option<f64> {
        self.heads().max_by(f64::total_cmp)
    }

    /// Mean of the exhaust temperatures, K; `None` with fewer than two.
    #[must_use]
    pub fn exhaust_mean(&self) -> Option<f64> {
        let all: Vec<f64> = Quantity::EGTS
            .into_iter()
            .filter_map(|egt| self.get(egt))
            .collect();
        (all.len() > 1).then(|| all.iter().sum::<f64>() / all.len() as f64)
    }

    /// Leaves a sick cylinder out: the others share the fuel that it does not burn.
    fn without(&mut self, sick: Sick) {
        let count = self.heads().count() as f64;
        let place = usize::from(sick.cylinder.max(1)) - 1;
        if place >= Quantity::HEADS.len() || count < 2.0 {
            return;
        }
        self.values.remove(&Quantity::HEADS[place]);
        self.values.remove(&Quantity::EGTS[place]);
        if let Some(fuel) = self.values.get_mut(&Quantity::FuelFlow) {
            // φ_i = φ N / (N − 1 + c)
            *fuel *= count / (count - 1.0 + sick.share);
        }
    }

    /// Upper minus lower deck, Pa, as it was read or as both decks give it.
    ///
    /// # Example
    /// 1900 − 400 Pa where both decks were read:
    /// ```
    /// use coolpath_core::document::quantity::Quantity;
    /// use coolpath_core::document::reading::Moment;
    ///
    /// let mut moment = Moment::default();
    /// moment.values.insert(Quantity::UpperDeck, 1900.0);
    /// moment.values.insert(Quantity::LowerDeck, 400.0);
    /// assert_eq!(moment.baffle_drop(), Some(1500.0));
    /// ```
    #[must_use]
    pub fn baffle_drop(&self) -> Option<f64> {
        self.get(Quantity::BaffleDrop)
            .or_else(|| Some(self.get(Quantity::UpperDeck)? - self.get(Quantity::LowerDeck)?))
    }

    /// The moment as a condition, to be computed.
    ///
    /// Power comes from manifold pressure and engine speed if both were noted, else from its share
    /// of rated power, else from the fuel flow; a fuel flow beside another source of power gives
    /// the mixture. A monitor's per cent power comes second because it does not see the mixture: the
    /// same 77 % stood beside 16 and 29 gal/h in flights of one engine
    /// (`reference/flights/steady_windows.csv`). A flap that was not noted counts as closed, a
    /// shutter as open. A moment alone does not tell a climb from level flight:
    /// [`Reading::condition_of`] does.
    ///
    /// # Errors
    /// [`Lacking`] names what is missing.
    pub fn condition(&self, engine: &Engine, mixture: Mixture) -> Result<Condition, Lacking> {
        let need = |quantity| self.get(quantity).ok_or(Lacking::Quantity(quantity));
        let airspeed = need(Quantity::Airspeed)?;
        let (share, rpm) = (self.get(Quantity::PowerShare), self.get(Quantity::Rpm));
        let (manifold, fuel) = (self.get(Quantity::Manifold), self.get(Quantity::FuelFlow));
        let power = match (share, manifold, rpm, fuel) {
            (_, Some(_), Some(_), _) => PowerKind::Manifold,
            (Some(_), ..) => PowerKind::Share,
            (.., Some(_)) => PowerKind::FuelFlow,
            _ => return Err(Lacking::Power),
        };
        let mut condition = Condition {
            phase: if airspeed > 0.0 {
                Phase::Cruise
            } else {
                Phase::Ground
            },
            air: AirKind::Oat,
            speed: SpeedKind::Indicated,
            power,
            mixture: if fuel.is_some() && power != PowerKind::FuelFlow {
                Mixture::FuelFlow
            } else {
                mixture
            },
            shutter: ShutterPolicy::Fixed,
            altitude: metre(need(Quantity::Altitude)?),
            oat: kelvin(need(Quantity::Oat)?),
            airspeed: metre_per_s(airspeed),
            rpm: rpm.unwrap_or(USUAL_RPM_SHARE * engine.rated_rpm),
            flap: self.get(Quantity::Flap).unwrap_or(0.0),
            shutter_opening: self.get(Quantity::Shutter).unwrap_or(1.0),
            ..Condition::default()
        };
        condition.power_share = share.unwrap_or(condition.power_share).max(0.02);
        if let Some(manifold) = manifold {
            condition.manifold = pascal(manifold);
        }
        if let Some(fuel) = fuel {
            condition.fuel_flow = cubic_metre_per_s(fuel);
        }
        Ok(condition)
    }
}

impl Reading {
    /// Whether a fit sees it.
    #[must_use]
    pub fn is_fitted(&self) -> bool {
        !self.left_out && !self.check_only
    }

    /// What it is used for.
    #[must_use]
    pub fn used(&self) -> Used {
        match (self.left_out, self.check_only) {
            (true, _) => Used::LeftOut,
            (false, true) => Used::CheckOnly,
            (false, false) => Used::Fit,
        }
    }

    /// Uses it for something else.
    pub fn use_for(&mut self, used: Used) {
        self.left_out = used == Used::LeftOut;
        self.check_only = used == Used::CheckOnly;
    }

    /// A moment of it, corrected, as a condition.
    ///
    /// # Errors
    /// [`Lacking`] names what is missing.
    pub fn condition_of(&self, moment: &Moment, engine: &Engine) -> Result<Condition, Lacking> {
        let mut condition = moment.condition(engine, self.mixture)?;
        if condition.phase != Phase::Ground {
            condition.phase = self.phase_at(moment);
        }
        if self
            .sick
            .is_some_and(|sick| !sick.fires && sick.is_in(moment))
        {
            condition.firing = Firing(1.0 - 1.0 / f64::from(engine.cylinders.max(2)));
        }
        Ok(condition)
    }

    /// A steady test point.
    #[must_use]
    pub fn steady(name: &str, values: Values) -> Self {
        Self {
            name: name.to_owned(),
            moments: Arc::new(vec![Moment {
                seconds: 0.0,
                values,
            }]),
            ..Self::default()
        }
    }

    /// Whether it is one steady test point.
    #[must_use]
    pub fn is_steady(&self) -> bool {
        self.moments.len() < 2
    }

    /// From the first to the last moment, s.
    #[must_use]
    pub fn duration_s(&self) -> f64 {
        self.moments.last().map_or(0.0, |last| last.seconds)
    }

    /// The moments with every instrument's correction added, as the healthy cylinders see them: a
    /// sick one's temperatures are left out, and the others share its fuel.
    #[must_use]
    pub fn corrected(&self, instruments: &Instruments) -> Vec<Moment> {
        let mut moments = Vec::clone(&self.moments);
        for moment in &mut moments {
            for (quantity, value) in &mut moment.values {
                *value += instruments.get(quantity).unwrap_or(&0.0);
            }
            if let Some(sick) = self.sick.filter(|sick| sick.is_in(moment)) {
                moment.without(sick);
            }
        }
        moments
    }

    /// The moment of the hottest head: the first at which it occurs; of a reading without heads,
    /// that of the hottest oil.
    #[must_use]
    pub fn hottest<'a>(&self, moments: &'a [Moment]) -> Option<&'a Moment> {
        let heat = |moment: &Moment| {
            moment
                .head_hottest()
                .or_else(|| moment.get(Quantity::Oil))
                .unwrap_or(f64::NEG_INFINITY)
        };
        moments.iter().reduce(|best, moment| {
            if heat(moment) > heat(best) {
                moment
            } else {
                best
            }
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::example;
    use crate::units::si::{degf, foot, knot};

    fn climb() -> Moment {
        let values = [
            (Quantity::Altitude, foot(3000.0)),
            (Quantity::Oat, degf(80.0)),
            (Quantity::Airspeed, knot(90.0)),
            (Quantity::PowerShare, 0.9),
            (Quantity::Head1, degf(400.0)),
            (Quantity::Head3, degf(420.0)),
        ];
        Moment {
            seconds: 0.0,
            values: values.into_iter().collect(),
        }
    }

    #[test]
    fn heads_are_averaged_over_those_that_were_read() {
        let moment = climb();
        assert!((moment.head_mean().expect("two") - degf(410.0)).abs() < 1e-9);
        assert_eq!(moment.head_hottest(), Some(degf(420.0)));
    }

    #[test]
    fn a_moment_without_power_or_air_names_what_is_missing() {
        let design = example::design();
        let mut moment = climb();
        moment.values.remove(&Quantity::PowerShare);
        let lacking = moment.condition(&design.installation.engine, Mixture::BestPower);
        assert_eq!(lacking, Err(Lacking::Power));
        moment.values.insert(Quantity::FuelFlow, 1e-5);
        let by_fuel = moment
            .condition(&design.installation.engine, Mixture::FullRich)
            .expect("power");
        assert_eq!(by_fuel.power, PowerKind::FuelFlow);
        assert_eq!(by_fuel.mixture, Mixture::FullRich);
        moment.values.remove(&Quantity::Oat);
        let lacking = moment.condition(&design.installation.engine, Mixture::BestPower);
        assert_eq!(lacking, Err(Lacking::Quantity(Quantity::Oat)));
    }

    #[test]
    fn manifold_pressure_with_engine_speed_goes_before_a_monitors_per_cent() {
        let engine = &example::design().installation.engine;
        let mut moment = climb();
        moment.values.insert(Quantity::Manifold, 84_000.0);
        let power = |moment: &Moment| {
            let found = moment.condition(engine, Mixture::BestPower);
            found.expect("power").power
        };
        assert_eq!(power(&moment), PowerKind::Share, "no engine speed");
        moment.values.insert(Quantity::Rpm, 2500.0);
        assert_eq!(power(&moment), PowerKind::Manifold);
        moment.values.remove(&Quantity::PowerShare);
        assert_eq!(power(&moment), PowerKind::Manifold);
    }

    #[test]
    fn corrections_are_added_to_a_copy_and_the_raw_reading_stays() {
        let mut reading = Reading::steady("one", climb().values);
        Arc::make_mut(&mut reading.moments).push(climb());
        let instruments = [(Quantity::Head3, -5.0)].into_iter().collect();
        let corrected = reading.corrected(&instruments);
        assert_eq!(corrected[1].head_hottest(), Some(degf(420.0) - 5.0));
        assert_eq!(corrected[1].get(Quantity::Head1), Some(degf(400.0)));
        assert_eq!(reading.moments[1].head_hottest(), Some(degf(420.0)));
    }
}
