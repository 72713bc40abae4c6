//! One dimension: its extension lines, its arrows, and the field of its value.

use super::ink::{FIELD, Ink, Layer};
use super::path::Outline;
use super::point::{Area, Point};
use super::words;
use coolpath_core::units::typed::UnitSystem;

/// A dimension whose value can be edited in place.
#[derive(Debug, Clone, PartialEq)]
pub struct DimensionField {
    /// Id of the input.
    pub input: &'static str,
    /// Its place in the list of inlets or exits.
    pub place: usize,
    /// Value, SI.
    pub value: f64,
    /// Value as it is written.
    pub text: String,
    /// Box of the field, px.
    pub area: Area,
    /// Box that can be clicked or tapped, px.
    pub hit: Area,
}

/// Height of a field, px.
const HEIGHT: f64 = 26.0;
/// Shorter dimensions have their arrows outside, px.
const SHORT: f64 = 34.0;

/// What is dimensioned between two points.
pub(super) struct Span {
    /// The measured points.
    pub(super) from: Point,
    pub(super) to: Point,
    /// Where the extension lines begin.
    pub(super) ends: [Point; 2],
    /// Middle of the field.
    pub(super) field: Point,
}

/// What a dimension tells: an input and what it holds.
pub(super) struct Told {
    /// Id of the input.
    pub(super) input: &'static str,
    /// Its place in the list of inlets or exits.
    pub(super) place: usize,
    /// Its value, SI.
    pub(super) value: f64,
    /// How it is written.
    pub(super) text: String,
}

impl Told {
    /// A length between the points, m.
    pub(super) fn length(
        input: &'static str,
        place: usize,
        metres: f64,
        system: UnitSystem,
    ) -> Self {
        Self {
            input,
            place,
            value: metres,
            text: words::length(metres, system),
        }
    }
}

/// Extension lines with a gap, arrows of 8 × 4.8 px, and the value in a field.
pub(super) fn dimension(ink: &mut Ink, span: &Span, told: Told) -> DimensionField {
    let Told {
        input,
        place,
        value,
        text,
    } = told;
    let width = FIELD.width(&text, ink.widths) + 18.0;
    let along = span.to.from(span.from);
    let (length, ahead) = (along.length(), along.unit());
    let level = ahead.x.abs() > ahead.y.abs();
    for (end, p) in span.ends.iter().zip([span.from, span.to]) {
        let out = p.from(*end);
        if out.length() > 5.0 {
            let out = out.unit();
            let line = Outline::through(&[
                end.moved(out.x * 3.0, out.y * 3.0),
                p.moved(out.x * 5.0, out.y * 5.0),
            ]);
            ink.path(Layer::Dimensions, "dimex", &line);
        }
    }
    let middle = span.from.toward(span.to, 0.5);
    let inline = span.field.from(middle).length() < 1.0;
    let outside = length < SHORT || (inline && level && length < width + 26.0);
    let step = |p: Point, by: f64| p.moved(ahead.x * by, ahead.y * by);
    if outside {
        let lines = Outline::through(&[step(span.from, -16.0), span.from])
            .jump(span.to)
            .line(step(span.to, 16.0));
        ink.path(Layer::Dimensions, "dimln", &lines);
    } else {
        let line = Outline::through(&[span.from, span.to]);
        ink.path(Layer::Dimensions, "dimln", &line);
    }
    if !inline {
        // The line goes on to the field.
        let near = if span.field.from(span.from).length() < span.field.from(span.to).length() {
            span.from
        } else {
            span.to
        };
        let line = Outline::through(&[near, span.field]);
        ink.path(Layer::Dimensions, "dimln", &line);
    }
    let turn = if outside { -1.0 } else { 1.0 };
    head(ink, span.from, ahead.times(-turn));
    head(ink, span.to, ahead.times(turn));
    // A value that has no room on its line stands beneath it.
    let field = if inline && outside {
        if level {
            span.field.moved(0.0, 21.0)
        } else {
            span.field.moved(0.5 * width + 14.0, 0.0)
        }
    } else {
        span.field
    };
    let area = Area::about(field, width, HEIGHT);
    DimensionField {
        input,
        place,
        value,
        text,
        area,
        hit: area,
    }
}

fn head(ink: &mut Ink, tip: Point, ahead: Point) {
    let side = ahead.turned();
    let at = |along: f64, aside: f64| {
        tip.moved(
            ahead.x * along + side.x * aside,
            ahead.y * along + side.y * aside,
        )
    };
    let outline = Outline::through(&[tip, at(-8.0, -2.4), at(-8.0, 2.4)]).closed();
    ink.path(Layer::Dimensions, "dimah", &outline);
}
