//! Where an oil cooler's shutter stands, in words. Pure.

use crate::kit::format;
use coolpath_core::answer::solved::ShutterState;
use coolpath_core::language::tr;
use coolpath_core::path::butterfly;
use coolpath_core::units::typed::UnitSystem;

/// What is short of the target where the shutter stands at a stop.
#[must_use]
pub fn at_stop(state: ShutterState, system: UnitSystem) -> Option<String> {
    match state {
        ShutterState::OpenTooHot { excess } => Some(tr!(
            "Fully open; oil {} above target",
            format::difference(excess.value, system)
        )),
        ShutterState::ClosedTooCold { shortfall } => Some(tr!(
            "Fully closed; oil {} below target",
            format::difference(shortfall.value, system)
        )),
        _ => None,
    }
}

/// Whether an opening is told as fully open.
#[must_use]
pub fn is_fully_open(opening: f64) -> bool {
    opening >= 0.995
}

/// How far it is open, and by how much its disc is turned from there.
#[must_use]
pub fn between(opening: f64) -> String {
    if is_fully_open(opening) {
        return tr("Fully open").to_owned();
    }
    tr!(
        "{:.0} % open ({:.0}° from fully open)",
        100.0 * opening,
        butterfly::angle_from_open(opening)
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_angle_counts_from_fully_open_as_in_a_record() {
        assert_eq!(between(0.25), "25 % open (68° from fully open)");
        assert_eq!(between(1.0), "Fully open");
        assert_eq!(between(0.0), "0 % open (90° from fully open)");
    }
}
