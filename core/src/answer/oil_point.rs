//! One oil reading as a known point: the heat into the oil that reproduces it.
//!
//! A reading of the oil at the known point's own condition fixes one number. The cooler is bought
//! by its data sheet, so that the heat into the oil, which no sheet tells, takes it: the share of
//! brake power for which the whole balance shows the gauge's temperature. The oil warms as the
//! share grows, so there is one.

use crate::answer::solve_condition::solve_condition;
use crate::answer::solved::EvaluateError;
use crate::document::condition::{AirKind, Condition, Mixture, Phase, PowerKind, SpeedKind};
use crate::document::design::{Calibrated, Design, mark};
use crate::document::installation::{Installation, ReferenceKind, oil_heat_share_id};
use crate::document::table;
use crate::document::table::Input;
use crate::language::tr;
use crate::math::root::{RootError, fallible_root};

/// Range on either side of the share that an oil reading fixes, of itself [-]: 5 °F of a gauge in
/// 130 °F above the air, and the shutter's place at the reading (from memory).
const LIKELY: f64 = 0.15;

/// Why an oil reading fixes nothing.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum OilPointError {
    /// The known point is no reading.
    #[error("{}", tr("the known point is not your own reading"))]
    NoReading,
    /// The reading's condition has no answer.
    #[error(transparent)]
    NoAnswer(#[from] EvaluateError),
    /// No share of the power into the oil gives this temperature.
    #[error(
        "{}",
        tr(
            "no likely heat into the oil gives this temperature: look at the cooler, its hose and the shutter"
        )
    )]
    OutOfReach {
        /// Oil at the least heat, K.
        coolest_k: f64,
        /// Oil at the most heat, K.
        warmest_k: f64,
    },
}

/// The condition that the known point's reading was taken in, with the shutter open.
#[must_use]
pub fn reading_condition(installation: &Installation) -> Condition {
    let reading = &installation.reference;
    let speed_m_s = reading.reading_airspeed;
    Condition {
        name: tr("Reading").to_owned(),
        phase: if speed_m_s.value > 0.0 {
            Phase::Cruise
        } else {
            Phase::Ground
        },
        air: AirKind::Oat,
        speed: SpeedKind::Indicated,
        power: PowerKind::Brake,
        mixture: Mixture::Ratio,
        altitude: reading.reading_altitude,
        oat: reading.reading_oat,
        airspeed: speed_m_s,
        brake_power: reading.reading_power,
        rpm: reading.reading_rpm,
        phi: reading.reading_mixture,
        ..Condition::default().with_shutter_open()
    }
}

/// Heat into the oil over brake power [-] with which the answer at the known point's reading shows
/// the oil that was read.
///
/// # Errors
/// [`OilPointError`] by name.
///
/// # Example
/// ```
/// use coolpath_core::answer::oil_point::{OilPointError, oil_share_of_reading};
/// use coolpath_core::document::example;
///
/// // The example's known point is no reading.
/// let design = example::design();
/// assert_eq!(oil_share_of_reading(&design), Err(OilPointError::NoReading));
/// ```
pub fn oil_share_of_reading(design: &Design) -> Result<f64, OilPointError> {
    let installation = &design.installation;
    if installation.reference.kind != ReferenceKind::Readings {
        return Err(OilPointError::NoReading);
    }
    let condition = reading_condition(installation);
    let wanted_k = installation.reference.reading_oil.value;
    let Some(input) = share_input(installation) else {
        return Err(OilPointError::NoReading);
    };
    let mut other = design.clone();
    let miss_k = |share: f64| -> Result<f64, EvaluateError> {
        input.set(&mut other, 0, share);
        let solved = solve_condition(&other.installation, &condition, None)?;
        Ok(solved.oil_gauge_k(&other.installation) - wanted_k)
    };
    let (least, most) = input.permitted;
    match fallible_root(miss_k, least, most, 1e-9)? {
        Ok(root) => Ok(root.x),
        Err(RootError::NotBracketed {
            at_low, at_high, ..
        }) => Err(OilPointError::OutOfReach {
            coolest_k: wanted_k + at_low,
            warmest_k: wanted_k + at_high,
        }),
        Err(RootError::NotConverged { residual, .. }) => Err(OilPointError::OutOfReach {
            coolest_k: wanted_k + residual,
            warmest_k: wanted_k + residual,
        }),
    }
}

/// The design with the heat into the oil that its oil reading asks for, noted as calibrated.
///
/// # Errors
/// [`OilPointError`] by name.
pub fn with_oil_point(design: &Design) -> Result<Design, OilPointError> {
    let share = oil_share_of_reading(design)?;
    let Some(input) = share_input(&design.installation) else {
        return Err(OilPointError::NoReading);
    };
    let mut design = design.clone();
    input.set(&mut design, 0, share);
    let name = mark(input.id, 0);
    design.calibrated.retain(|note| note.input != name);
    let (least, most) = input.permitted;
    design.calibrated.push(Calibrated {
        input: name,
        value: share,
        likely: (
            (share * (1.0 - LIKELY)).max(least),
            (share * (1.0 + LIKELY)).min(most),
        ),
    });
    Ok(design)
}

/// The input that holds the heat into this engine's oil.
fn share_input(installation: &Installation) -> Option<&'static Input> {
    table::by_id(oil_heat_share_id(installation.engine.piston_cooling_jets))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::example;
    use crate::units::quantity::kelvin;
    use crate::units::si::degf;

    fn with_reading(oil_degf: f64) -> Design {
        let mut design = example::design();
        design.installation.reference.kind = ReferenceKind::Readings;
        design.installation.reference.reading_oil = kelvin(degf(oil_degf));
        design
    }

    #[test]
    fn the_oil_that_was_read_comes_back_at_the_readings_own_condition() {
        for jets in [false, true] {
            for oil_degf in [185.0, 200.0, 225.0] {
                let mut design = with_reading(oil_degf);
                design.installation.engine.piston_cooling_jets = jets;
                let design = with_oil_point(&design).expect("in reach");
                let condition = reading_condition(&design.installation);
                let solved =
                    solve_condition(&design.installation, &condition, None).expect("solved");
                let gauge_k = solved.oil_gauge_k(&design.installation);
                assert!(
                    (gauge_k - degf(oil_degf)).abs() < 0.01,
                    "{oil_degf}: {gauge_k}"
                );
                assert_eq!(design.calibrated.len(), 1);
                assert!(design.faults().is_empty());
            }
        }
    }

    #[test]
    fn hotter_oil_asks_for_more_heat_and_what_none_gives_is_refused() {
        let share = |oil_degf: f64| oil_share_of_reading(&with_reading(oil_degf));
        assert!(share(220.0).expect("in reach") > share(195.0).expect("in reach"));
        let refused = share(80.0).expect_err("colder than the least heat gives");
        assert!(
            matches!(refused, OilPointError::OutOfReach { coolest_k, .. } if coolest_k > degf(80.0))
        );
    }
}
