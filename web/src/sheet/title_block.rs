//! The title block, for paper.

use super::ink::{Anchor, Face, Ink, Layer};
use super::legend;
use super::path::Outline;
use super::point::{Area, point};
use coolpath_core::language::tr;
use coolpath_core::units::typed::UnitSystem;

/// What the title block says.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct TitleBlock {
    /// Name of the design.
    pub design: String,
    /// Name of the condition.
    pub condition: String,
    /// Day, as it shall be written.
    pub day: String,
}

/// Height of the block, px.
pub const HEIGHT: f64 = 46.0;

const LABEL: Face = Face {
    class: "ls",
    size: 13.0,
    weight: 400,
    spacing: 0.0,
};
const VALUE: Face = Face {
    class: "tv",
    size: 14.0,
    weight: 600,
    spacing: 0.0,
};

/// Draws the border and, at its lower right corner, the block.
pub fn draw(ink: &mut Ink, block: &TitleBlock, frame: Area, system: UnitSystem) {
    let border = frame.grown(-1.0);
    ink.path(Layer::Captions, "o nofill", &Outline::boxed(border));
    let most = border.width() - 90.0;
    let mut cells: Vec<(&str, String)> = Vec::new();
    let room = 0.4 * most;
    for (label, text, room) in [
        (tr("Aircraft"), &block.design, room),
        (tr("Condition"), &block.condition, 0.35 * most),
        (tr("Drawn"), &block.day, 0.2 * most),
    ] {
        if !text.is_empty() {
            cells.push((label, fitted(ink, text, room - 24.0)));
        }
    }
    let widths: Vec<f64> = cells
        .iter()
        .map(|(label, text)| {
            let text = VALUE.width(text, ink.widths);
            text.max(LABEL.width(label, ink.widths)) + 24.0
        })
        .collect();
    let symbol = 68.0_f64.max(LABEL.width(tr("Projection"), ink.widths) + 24.0);
    let top = border.bottom - HEIGHT;
    let mut left = border.right - symbol - widths.iter().sum::<f64>();
    for ((label, text), width) in cells.iter().zip(&widths) {
        let cell = Area::sized(point(left, top), *width, HEIGHT);
        ink.path(Layer::Captions, "p fillp", &Outline::boxed(cell));
        let at = |down: f64| point(left + 12.0, top + down);
        ink.text(Layer::Captions, &LABEL, at(17.0), Anchor::Start, label);
        ink.text(Layer::Captions, &VALUE, at(35.0), Anchor::Start, text);
        left += width;
    }
    let cell = Area::sized(point(left, top), border.right - left, HEIGHT);
    ink.path(Layer::Captions, "p fillp", &Outline::boxed(cell));
    let at = point(left + 12.0, top + 17.0);
    ink.text(Layer::Captions, &LABEL, at, Anchor::Start, tr("Projection"));
    legend::symbol(ink, system, point(left + 12.0, top + 23.0));
}

/// A text cut to a width, with an ellipsis.
fn fitted(ink: &Ink, text: &str, width: f64) -> String {
    if VALUE.width(text, ink.widths) <= width {
        return text.to_owned();
    }
    let mut kept = String::new();
    for letter in text.chars() {
        kept.push(letter);
        if VALUE.width(&format!("{kept}…"), ink.widths) > width {
            kept.pop();
            break;
        }
    }
    format!("{}…", kept.trim_end())
}
