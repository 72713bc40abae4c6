//! The few parameters that readings can teach, each with its prior range.

use crate::document::design::{Calibrated, Design, mark};
use crate::document::installation::{
    CylinderData, ExitPlace, InletPosition, ReferenceKind, Sealing, oil_heat_share_id,
};
use crate::document::table;
use crate::document::table::Input;
use crate::language::tr;
use crate::math::normal::RANGE_DEVIATIONS;
use crate::units::si::deltaf;
use serde::{Deserialize, Serialize};

/// Range of a chart's head temperature on either side, K (from memory: engines differ so much).
const CHART_HEAD_K: f64 = deltaf(15.0);

/// A parameter that may be fitted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Parameter {
    /// Leak between the decks.
    Leak,
    /// Pressure coefficient outside the exits.
    ExitPressure,
    /// Recovery of the inlets.
    InletRecovery,
    /// Fin constant: the fins' pressure drop at the known point.
    FinDrop,
    /// Head conductance: the mean head at the known point.
    HeadConductance,
    /// Spread between the heads.
    HeadSpread,
    /// Air consumption, which the fuel flow and the mixture hang on.
    AirConsumption,
    /// Level of the exhaust temperatures.
    ExhaustLevel,
    /// Heat into the oil.
    OilShare,
    /// Time constant of the heads.
    HeadLag,
    /// Time constant of the oil.
    OilLag,
}

impl Parameter {
    /// All of them.
    pub const ALL: [Self; 11] = [
        Self::Leak,
        Self::ExitPressure,
        Self::InletRecovery,
        Self::FinDrop,
        Self::HeadConductance,
        Self::HeadSpread,
        Self::AirConsumption,
        Self::ExhaustLevel,
        Self::OilShare,
        Self::HeadLag,
        Self::OilLag,
    ];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Leak => tr("leak between the decks"),
            Self::ExitPressure => tr("exit pressure coefficient"),
            Self::InletRecovery => tr("inlet recovery"),
            Self::FinDrop => tr("fin constant (Δp at the known point)"),
            Self::HeadConductance => tr("head conductance (mean head at the known point)"),
            Self::HeadSpread => tr("spread between the heads"),
            Self::AirConsumption => tr("air consumption at best power"),
            Self::ExhaustLevel => tr("level of the exhaust temperatures"),
            Self::OilShare => tr("heat into the oil"),
            Self::HeadLag => tr("time constant of the heads"),
            Self::OilLag => tr("time constant of the oil"),
        }
    }

    /// Whether it moves no steady answer.
    pub(super) fn is_lag(self) -> bool {
        matches!(self, Self::HeadLag | Self::OilLag)
    }

    /// The input behind it; `None` where the design has none, such as a cooling chart's Δp.
    #[must_use]
    pub fn input(self, design: &Design) -> Option<&'static Input> {
        let installation = &design.installation;
        let id = match self {
            Self::Leak => match installation.decks.sealing {
                Sealing::HardPlenum => "decks.plenum_leak_m2",
                Sealing::FlexibleSeals => "decks.seal_gap_m",
                Sealing::MeasuredLeak => "decks.measured_leak_m2",
            },
            Self::ExitPressure => match installation.exits.first()?.place {
                ExitPlace::Typed => "exit.pressure_coefficient",
                ExitPlace::Belly => "exit.belly_pressure_coefficient",
                ExitPlace::UnderWing => "exit.under_wing_pressure_coefficient",
                ExitPlace::Firewall => "exit.firewall_pressure_coefficient",
                ExitPlace::WingRoot => "exit.wing_root_pressure_coefficient",
            },
            Self::InletRecovery => match installation.inlets.first()?.position {
                InletPosition::ForwardClear => "inlet.recovery_forward",
                InletPosition::BehindBladeRoot => "inlet.recovery_root",
                InletPosition::BellyScoop => "inlet.recovery_belly",
                InletPosition::Flush => "inlet.recovery_flush",
            },
            Self::FinDrop => {
                if installation.reference.kind == ReferenceKind::Chart {
                    return None;
                }
                if installation.engine.cylinders > 4 {
                    "reference.drop_six_cylinders_pa"
                } else {
                    "reference.drop_four_cylinders_pa"
                }
            }
            Self::HeadConductance => match installation.reference.kind {
                ReferenceKind::Generic if installation.engine.cylinders > 4 => {
                    "reference.head_six_k"
                }
                ReferenceKind::Generic => "reference.head_k",
                ReferenceKind::Chart => "reference.chart_head_k",
                ReferenceKind::Readings => "reference.reading_head_k",
            },
            Self::HeadSpread => match installation.engine.cylinder_data {
                CylinderData::Unknown => "engine.unevenness",
                CylinderData::Spread => "engine.head_spread_k",
                CylinderData::Each => return None,
            },
            Self::AirConsumption => "engine.air_consumption_kg_j",
            Self::ExhaustLevel => "engine.egt_peak_k",
            Self::OilShare => oil_heat_share_id(installation.engine.piston_cooling_jets),
            Self::HeadLag => "lags.heads_s",
            Self::OilLag => "lags.oil_s",
        };
        let input = table::by_id(id)?;
        // What the builder measured is not to be moved.
        (!design.is_measured(input, 0)).then_some(input)
    }

    /// Its prior; `None` where the design has no such input.
    ///
    /// A value that came from an earlier calibration is no prior: the same readings would count
    /// twice. The default and its range stand in.
    #[must_use]
    pub fn prior(self, design: &Design) -> Option<Prior> {
        let input = self.input(design)?;
        let value = if design.calibration(input, 0).is_some() {
            input.default
        } else {
            input.value(design, 0)?
        };
        let (low, high) = match self {
            Self::HeadConductance if input.likely.is_none() => {
                (value - CHART_HEAD_K, value + CHART_HEAD_K)
            }
            _ => design.usual_range(input, value)?,
        };
        Some(Prior::new(value, low, high, input.permitted))
    }

    /// Gives the design a value of it; every inlet of the same position and every exit moves
    /// alike.
    pub(super) fn set(self, design: &mut Design, input: &Input, value: f64) {
        let by = value - input.value(design, 0).unwrap_or(value);
        for place in self.places(design, input) {
            if let Some(old) = input.value(design, place) {
                let (least, most) = input.permitted;
                input.set(design, place, (old + by).clamp(least, most));
            }
        }
    }

    fn places(self, design: &Design, input: &Input) -> Vec<usize> {
        (0..)
            .take_while(|place| input.value(design, *place).is_some())
            .filter(|place| input.used(design, *place) || *place == 0)
            .filter(|place| {
                let inlets = &design.installation.inlets;
                self != Self::InletRecovery
                    || inlets.get(*place).map(|inlet| inlet.position)
                        == inlets.first().map(|inlet| inlet.position)
            })
            .collect()
    }

    /// What the design notes of a calibrated value.
    pub(super) fn notes(
        self,
        design: &Design,
        input: &Input,
        value: f64,
        likely: (f64, f64),
    ) -> Vec<Calibrated> {
        self.places(design, input)
            .into_iter()
            .filter_map(|place| {
                let own = input.value(design, place)?;
                let (least, most) = input.permitted;
                let end = |end: f64| (end - value + own).clamp(least, most);
                Some(Calibrated {
                    input: mark(input.id, place),
                    value: own,
                    likely: (end(likely.0), end(likely.1)),
                })
            })
            .collect()
    }
}

/// A prior: a normal variable x of mean 0 and deviation 1, bent so that its 5th, 50th and 95th
/// percentile are the low end, the value and the high end of a range.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Prior {
    /// Value, SI.
    pub value: f64,
    /// Low end of the likely range, SI.
    pub low: f64,
    /// High end, SI.
    pub high: f64,
    permitted: (f64, f64),
    bend: f64,
    scale: f64,
}

/// Widest ratio of the two sides of a range; beyond it the narrow side is taken as wider.
const MOST_ONE_SIDED: f64 = 8.0;

impl Prior {
    fn new(value: f64, low: f64, high: f64, permitted: (f64, f64)) -> Self {
        // A side that the permitted range cuts off still has some width.
        let widest = (high - value).max(value - low);
        let up = (high - value).max(widest / MOST_ONE_SIDED);
        let down = (value - low).max(widest / MOST_ONE_SIDED);
        // p = v + a (e^{bx} − 1)/b with p(±z) at the ends: e^{bz} = up/down
        let bend = libm::log(up / down) / RANGE_DEVIATIONS;
        let scale = if bend.abs() < 1e-9 {
            up / RANGE_DEVIATIONS
        } else {
            up * bend / libm::expm1(bend * RANGE_DEVIATIONS)
        };
        Self {
            value,
            low,
            high,
            permitted,
            bend,
            scale,
        }
    }

    /// Value, SI, at so many deviations from the middle.
    ///
    /// # Example
    /// At the middle it is the input's own value, 1.645 deviations below it the low end of its range:
    /// ```
    /// use coolpath_core::document::example;
    /// use coolpath_core::math::normal::RANGE_DEVIATIONS;
    /// use coolpath_core::prove::calibrate::Parameter;
    ///
    /// let prior = Parameter::ExitPressure.prior(&example::design());
    /// assert!(prior.is_some_and(|prior| {
    ///     let off = prior.at(-RANGE_DEVIATIONS) - prior.low;
    ///     prior.at(0.0) == prior.value && off.abs() < 1e-9
    /// }));
    /// ```
    #[must_use]
    pub fn at(&self, x: f64) -> f64 {
        let off = if self.bend.abs() < 1e-9 {
            self.scale * x
        } else {
            self.scale * libm::expm1(self.bend * x) / self.bend
        };
        (self.value + off).clamp(self.permitted.0, self.permitted.1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::example;

    #[test]
    fn a_prior_passes_through_the_ends_of_its_range() {
        let design = example::design();
        for parameter in Parameter::ALL {
            let prior = parameter.prior(&design).expect("in the example");
            assert!((prior.at(0.0) - prior.value).abs() <= 1e-12 * prior.value.abs());
            let width = prior.high - prior.low;
            for (x, end) in [
                (-RANGE_DEVIATIONS, prior.low),
                (RANGE_DEVIATIONS, prior.high),
            ] {
                let miss = (prior.at(x) - end).abs();
                assert!(miss < 1e-9 * width, "{parameter:?}: {miss} of {width}");
            }
        }
    }

    #[test]
    fn every_exit_moves_alike() {
        let mut design = example::design();
        let mut second = design.installation.exits[0].clone();
        second.pressure_coefficient += 0.05;
        design.installation.exits.push(second);
        let input = Parameter::ExitPressure.input(&design).expect("an exit");
        let before = design.installation.exits[0].pressure_coefficient;
        Parameter::ExitPressure.set(&mut design, input, before - 0.1);
        let exits = &design.installation.exits;
        assert!((exits[0].pressure_coefficient - before + 0.1).abs() < 1e-12);
        assert!((exits[1].pressure_coefficient - before + 0.05).abs() < 1e-12);
        let notes = Parameter::ExitPressure.notes(&design, input, before - 0.1, (-0.3, 0.0));
        assert_eq!(notes.len(), 2);
        assert_eq!(notes[1].input, "exit.pressure_coefficient#1");
    }
}
