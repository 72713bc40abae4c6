//! An invented log of flights at one manifold pressure and engine speed, leaned in steps about peak EGT,
//! in which the nozzle of one cylinder becomes partly blocked from one flight to the next.
//!
//! The exhausts follow the curve over the mixture that the core uses, cylinder by cylinder; the fuel that
//! the blocked nozzle does not pass is shared by the others, as a flow divider does.

use coolpath_core::answer::solve_condition::solve_condition;
use coolpath_core::document::condition::Mixture;
use coolpath_core::document::design::Design;
use coolpath_core::document::quantity::Quantity;
use coolpath_core::document::reading::{Moment, Values};
use coolpath_core::engine::egt::below_peak;
use coolpath_core::units::si::{degf, foot, gal_h, inhg, knot};
use std::fmt::Write;

/// Cylinder whose nozzle is blocked.
pub const BLOCKED: usize = 2;
/// Fuel that it passes over that of another \[-\].
pub const SHARE: f64 = 0.8;
/// Cylinders.
const CYLINDERS: usize = 4;
/// Length of a step of the mixture, s.
const STEP_S: u32 = 260;
/// Mean mixture over that of peak EGT in each step \[-\].
const RATIOS: [f64; 6] = [1.00, 1.03, 1.06, 1.09, 1.12, 1.15];
/// Altitude, ft; OAT, °F; manifold pressure, inHg; engine speed, rpm.
const FLOWN: (f64, f64, f64, f64) = (7500.0, 48.0, 21.5, 2400.0);
/// Airspeeds that alternate, so that steps are told apart, kt.
const SPEEDS_KT: [f64; 2] = [112.0, 134.0];

/// Length of each flight, s.
#[must_use]
pub fn length_s() -> u32 {
    STEP_S * RATIOS.len() as u32
}

/// The log: a flight for each entry, with the nozzle blocked all along or not; the clock begins anew in
/// each.
///
/// # Panics
/// If the design has no answer in this cruise.
#[must_use]
pub fn text(design: &Design, blocked: &[bool]) -> String {
    let since: Vec<u32> = blocked
        .iter()
        .map(|blocked| if *blocked { 0 } else { length_s() })
        .collect();
    text_since(design, &since)
}

/// The same with the nozzle blocked from a time on, s.
///
/// # Panics
/// If the design has no answer in this cruise.
#[must_use]
pub fn text_since(design: &Design, blocked_since: &[u32]) -> String {
    let mut text = String::from(
        "Time,Pressure Alt (ft),IAS (kt),OAT (deg F),RPM,MAP (inHg),Fuel Flow (gal/hr)",
    );
    for cylinder in 1..=CYLINDERS {
        let _ = write!(text, ",CHT{cylinder} (deg F),EGT{cylinder} (deg F)");
    }
    text.push_str(",Oil Temp (deg F)\n");
    let fuel_gal_h = RATIOS.map(|ratio| fuel_gal_h(design, ratio));
    for since_s in blocked_since {
        for second in 0..length_s() {
            row(&mut text, second, second >= *since_s, &fuel_gal_h);
        }
    }
    text
}

/// Fuel flow with which the model has a mixture so many times that of peak EGT.
fn fuel_gal_h(design: &Design, ratio: f64) -> f64 {
    const TRIED: f64 = 8.0;
    let (altitude_ft, oat_f, map, rpm) = FLOWN;
    let values: Values = [
        (Quantity::Altitude, foot(altitude_ft)),
        (Quantity::Oat, degf(oat_f)),
        (Quantity::Airspeed, knot(SPEEDS_KT[0])),
        (Quantity::Manifold, inhg(map)),
        (Quantity::Rpm, rpm),
        (Quantity::FuelFlow, gal_h(TRIED)),
    ]
    .into_iter()
    .collect();
    let moment = Moment {
        seconds: 0.0,
        values,
    };
    let engine = &design.installation.engine;
    let condition = moment
        .condition(engine, Mixture::BestPower)
        .expect("complete");
    let solved = solve_condition(&design.installation, &condition, None).expect("a cruise");
    // At one manifold pressure the mixture follows the fuel.
    TRIED * ratio * engine.peak_egt / solved.prepared.phi
}

fn row(text: &mut String, second: u32, blocked: bool, fuel_gal_h: &[f64]) {
    let step = (second / STEP_S) as usize;
    let (altitude_ft, oat_f, map, rpm) = FLOWN;
    let ias = SPEEDS_KT[step % SPEEDS_KT.len()];
    let fuel = fuel_gal_h[step];
    let _ = write!(
        text,
        "{second},{altitude_ft:.0},{ias:.0},{oat_f:.0},{rpm:.0},{map:.1},{fuel:.2}"
    );
    let share = if blocked { SHARE } else { 1.0 };
    let others = RATIOS[step] * CYLINDERS as f64 / (CYLINDERS as f64 - 1.0 + share);
    for cylinder in 1..=CYLINDERS {
        let ratio = if cylinder == BLOCKED {
            share * others
        } else {
            others
        };
        let exhaust = 1460.0 + 8.0 * cylinder as f64 + 1.8 * below_peak(ratio);
        // Heads follow the exhaust by a part.
        let head = 352.0 + 4.0 * cylinder as f64 + 0.15 * 1.8 * below_peak(ratio);
        let _ = write!(text, ",{head:.0},{exhaust:.0}");
    }
    let _ = writeln!(text, ",188");
}
