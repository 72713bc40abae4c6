//! The marks of the states: told apart by shape, so that colour is never needed.

use super::number::short;
use super::point::Point;
use super::readout::State;

/// A mark of 14 px about a point: a disc with a tick, a diamond with two waves, a triangle, or a
/// flake of three strokes.
#[must_use]
pub fn mark(state: State, at: Point) -> String {
    let shapes = match state {
        State::Inside => {
            "<circle class=\"b\" r=\"6.5\"/><path class=\"m\" d=\"M-3 .2L-.8 2.6L3.2 -2.4\"/>"
        }
        State::Close => {
            "<path class=\"b\" d=\"M0 -7L7 0L0 7L-7 0Z\"/><path class=\"m\" d=\"M-3 -1.4Q-1.5 -3 0 \
             -1.5T3 -1.6M-3 1.9Q-1.5 .3 0 1.8T3 1.7\"/>"
        }
        State::Over | State::LikelyOver => {
            "<path class=\"b\" d=\"M0 -7.2L7.4 6H-7.4Z\"/><path class=\"m\" d=\"M0 -2.6V1.4M0 \
             3.6V3.8\"/>"
        }
        State::TooCold => {
            "<rect class=\"b\" x=\"-6.5\" y=\"-6.5\" width=\"13\" height=\"13\" rx=\"2\"/><path \
             class=\"m\" d=\"M0 -4V4M-3.5 -2L3.5 2M-3.5 2L3.5 -2\"/>"
        }
    };
    format!(
        "<g class=\"mk {}\" transform=\"translate({} {})\">{shapes}</g>",
        state.class(),
        short(at.x),
        short(at.y)
    )
}
