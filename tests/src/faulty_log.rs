//! An invented log with planted faults, for the tests of import: two power-ons on plain seconds, a clock
//! that is set back, a ground run at idle, oil that glitches over several rows, a low probe, and a
//! cylinder that does not fire.

use std::fmt::Write;

/// Length of the ground run at the start of each session, s.
pub const GROUND_S: u32 = 240;
/// Length of each session, s.
pub const LENGTH_S: u32 = 1200;
/// Rows in which the oil stands 90 °F too high.
pub const GLITCH: core::ops::Range<u32> = 700..712;
/// When the clock is set back, and by how much, s.
pub const SET_BACK: (u32, u32) = (500, 7);
/// Cylinder that does not fire.
pub const COLD: usize = 3;
/// Cylinder whose probe reads low.
pub const LOW: usize = 2;

/// The log: two sessions, each a ground run, then level flight.
#[must_use]
pub fn text() -> String {
    let mut text = String::from(
        "Time,Pressure Alt (ft),IAS (kt),OAT (deg F),RPM,MAP (inHg),Fuel Flow (gal/hr)",
    );
    for cylinder in 1..=4 {
        let _ = write!(text, ",CHT{cylinder} (deg F),EGT{cylinder} (deg F)");
    }
    text.push_str(",Oil Temp (deg F)\n");
    for _ in 0..2 {
        for second in 0..LENGTH_S {
            row(&mut text, second);
        }
    }
    text
}

fn row(text: &mut String, second: u32) {
    let ground = second < GROUND_S;
    let (after, by) = SET_BACK;
    let clock = if second < after { second } else { second - by };
    let (altitude, ias, rpm, map, fuel) = if ground {
        (900, 4, 1000, 9.8, 2.4)
    } else {
        (4500, 120, 2450, 23.5, 9.6)
    };
    let _ = write!(text, "{clock},{altitude},{ias},65,{rpm},{map},{fuel}");
    // Towards the steady level of each phase.
    let begun = if ground { second } else { second - GROUND_S };
    let left = (-f64::from(begun) / 60.0).exp();
    let (from, to) = if ground {
        (120.0, 250.0)
    } else {
        (250.0, 350.0)
    };
    let usual = to + (from - to) * left;
    for cylinder in 1..=4 {
        let (head, exhaust) = match cylinder {
            COLD if !ground => (150.0 + 30.0 * left, 240.0),
            LOW => (usual - 60.0, 1350.0),
            _ => (
                usual + 4.0 * cylinder as f64,
                1340.0 + 10.0 * cylinder as f64,
            ),
        };
        let _ = write!(text, ",{head:.0},{exhaust:.0}");
    }
    let glitch = if GLITCH.contains(&second) { 90.0 } else { 0.0 };
    let _ = writeln!(
        text,
        ",{:.0}",
        185.0 - 30.0 * (-f64::from(second) / 300.0).exp() + glitch
    );
}
