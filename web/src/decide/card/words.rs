//! The shutter card in the builder's own marks. Pure.

use coolpath_core::answer::solved::ShutterState;
use coolpath_core::decide::shutter_card::{CardPoint, MOST_TAPED, Tape, taped_oil_k};
use coolpath_core::document::condition::Condition;
use coolpath_core::document::installation::Installation;
use coolpath_core::language::tr;

/// Most notches or strips that are counted.
pub const MOST_MARKS: u32 = 40;

/// Number of notches or strips from a typed text.
///
/// # Errors
/// A sentence with the permitted range.
pub fn marks(text: &str, what: &str) -> Result<u32, String> {
    text.trim()
        .parse()
        .ok()
        .filter(|count| (1..=MOST_MARKS).contains(count))
        .ok_or_else(|| {
            tr!(
                "{} must be a whole number between 1 and {}",
                what,
                MOST_MARKS
            )
        })
}

/// The notch for an opening, 0 closed, rounded to the open side: too cool errs safely.
#[must_use]
pub fn notch(opening: f64, notches: u32) -> u32 {
    (opening * f64::from(notches) - 1e-9).ceil().max(0.0) as u32
}

/// How far the shutter is open at the notch for an opening [-].
#[must_use]
pub fn notch_opening(opening: f64, notches: u32) -> f64 {
    f64::from(notch(opening, notches)) / f64::from(notches.max(1))
}

/// Opening in words.
#[must_use]
pub fn opening(point: &CardPoint, notches: u32) -> String {
    match point.state {
        ShutterState::OpenTooHot { .. } => tr!("fully open, {} of {}", notches, notches),
        ShutterState::ClosedTooCold { .. } => tr!("closed, 0 of {}: too cold", notches),
        _ => tr!("{} of {}", notch(point.opening, notches), notches),
    }
}

/// Oil at the gauge, K, under as many strips as a card tells at an outside temperature, K; `None` without an answer.
#[must_use]
pub fn oil_under_k(
    installation: &Installation,
    condition: &Condition,
    oat_k: f64,
    tape: Tape,
    strips: u32,
) -> Option<f64> {
    taped_oil_k(installation, condition, oat_k, taped_share(tape, strips)).ok()
}

/// Share of the core's face under as many strips as a card tells, rounded to fewer: too cool errs safely.
fn taped_share(tape: Tape, strips: u32) -> f64 {
    match tape {
        Tape::NoneTooHot => 0.0,
        Tape::MostTooCold => MOST_TAPED,
        Tape::Holds(share) => f64::from(whole_strips(share, strips)) / f64::from(strips.max(1)),
    }
}

fn whole_strips(share: f64, strips: u32) -> u32 {
    (share * f64::from(strips) + 1e-9).floor() as u32
}

/// Strips of tape in words, rounded to fewer strips: too cool errs safely.
#[must_use]
pub fn strips(tape: Tape, strips: u32) -> String {
    match tape {
        Tape::NoneTooHot => tr("none").to_owned(),
        Tape::MostTooCold => tr("maximum tape: still too cold").to_owned(),
        Tape::Holds(share) => {
            let count = whole_strips(share, strips);
            if count == 0 {
                tr("none").to_owned()
            } else {
                tr!("{} of {}", count, strips)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn notches_round_to_the_open_side_and_strips_to_fewer() {
        assert_eq!(notch(0.0, 6), 0);
        assert_eq!(notch(0.01, 6), 1);
        assert_eq!(notch(0.5, 6), 3);
        assert_eq!(notch(1.0, 6), 6);
        assert_eq!(notch_opening(0.56, 6), 4.0 / 6.0);
        assert_eq!(notch_opening(1.0, 0), 0.0);
        assert_eq!(strips(Tape::Holds(0.49), 8), "3 of 8");
        assert_eq!(strips(Tape::Holds(0.05), 8), "none");
        assert_eq!(taped_share(Tape::Holds(0.49), 8), 3.0 / 8.0);
        assert_eq!(taped_share(Tape::MostTooCold, 8), MOST_TAPED);
    }

    #[test]
    fn a_count_that_is_none_is_told() {
        assert_eq!(marks(" 6 ", "Notches"), Ok(6));
        for text in ["0", "41", "six", "", "2.5"] {
            assert!(marks(text, "Notches").is_err(), "{text}");
        }
    }
}
