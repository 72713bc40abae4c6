//! The template of an inlet: nested outlines in a section square to the thrust line.

use crate::kit::format;
use crate::workshop::cut::drawing::{Drawing, Point, Stroke, at};
use crate::workshop::cut::lines::{LETTERS, Line};
use coolpath_core::document::installation::{Inlet, InletShape, Lip};
use coolpath_core::language::tr;
use coolpath_core::units::typed::{Dimension, UnitSystem};

/// Straight pieces of a quarter circle: a chord of a 100 mm radius leaves the arc by 0.01 mm.
const PIECES: usize = 48;
const MM: f64 = 1000.0;
/// Height of the letters of explanations, mm.
pub(super) const SMALL: f64 = 3.2;

/// What stands on every template.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Title {
    /// Name of the design.
    pub design: String,
    /// Day, as it is written where the builder lives.
    pub day: String,
}

/// Outline of an inlet about its centre, mm, its sides moved outward by some mm; `None` if its shape
/// is not known.
#[must_use]
pub fn outline(inlet: &Inlet, outward_mm: f64) -> Option<Vec<Point>> {
    match inlet.shape {
        InletShape::Ring => {
            let radius = 0.5 * MM * inlet.diameter.value + outward_mm;
            Some(rounded(radius, radius, radius))
        }
        InletShape::Rectangle => {
            let half = |length: f64| 0.5 * MM * length;
            let (wide, high) = (half(inlet.width.value), half(inlet.height.value));
            let corner = (MM * inlet.corner_radius.value).min(wide.min(high));
            Some(rounded(
                wide + outward_mm,
                high + outward_mm,
                corner + outward_mm,
            ))
        }
        InletShape::Traced => traced(inlet, outward_mm),
    }
}

/// A traced outline, scaled to the inlet's area; it has no side to move outward.
fn traced(inlet: &Inlet, outward_mm: f64) -> Option<Vec<Point>> {
    if inlet.outline.len() < 3 || outward_mm != 0.0 {
        return None;
    }
    let own = coolpath_core::workshop::photo::area(&inlet.outline);
    let scale = MM * (inlet.traced_area.value / own).sqrt();
    let points = inlet.outline.iter();
    Some(points.map(|[x, y]| at(scale * x, scale * y)).collect())
}

/// A rectangle with round corners about the origin, mm.
fn rounded(half_width: f64, half_height: f64, radius: f64) -> Vec<Point> {
    let radius = radius.max(0.0);
    let centres = [
        (half_width - radius, half_height - radius, 0.0),
        (radius - half_width, half_height - radius, 1.0),
        (radius - half_width, radius - half_height, 2.0),
        (half_width - radius, radius - half_height, 3.0),
    ];
    let pieces = if radius > 0.0 { PIECES } else { 0 };
    centres
        .into_iter()
        .flat_map(|(x, y, quarter)| {
            (0..=pieces).map(move |piece| {
                let share = piece as f64 / pieces.max(1) as f64;
                let (sine, cosine) = ((quarter + share) * std::f64::consts::FRAC_PI_2).sin_cos();
                at(x + radius * cosine, y + radius * sine)
            })
        })
        .collect()
}

/// The template; `None` if the inlet's shape is not known.
#[must_use]
pub fn template(
    inlet: &Inlet,
    lines: &[Line],
    title: &Title,
    right_side: bool,
    system: UnitSystem,
) -> Option<Drawing> {
    let mut drawing = Drawing::default();
    for line in lines {
        let mut sized = inlet.clone();
        sized.scale_area(line.factor);
        drawing.outline(outline(&sized, 0.0)?, line.kind.stroke());
    }
    let lip_mm = MM * inlet.lip_radius.value;
    if inlet.lip == Lip::Rounded
        && let Some(points) = outline(inlet, lip_mm)
    {
        drawing.outline(points, Stroke::Thin);
    }
    let (low, high) = drawing.extent();
    let reach = 5.0;
    drawing.line(
        at(low.x - reach, 0.0),
        at(high.x + reach, 0.0),
        Stroke::Thin,
    );
    drawing.line(
        at(0.0, low.y - reach),
        at(0.0, high.y + reach),
        Stroke::Thin,
    );
    // An arrow outboard, which turns with the side.
    let tip = at(high.x + reach, 0.0);
    for side in [-2.0, 2.0] {
        drawing.line(tip, at(tip.x - 4.0, side), Stroke::Thin);
    }
    if right_side {
        drawing = drawing.flipped();
    }
    let mut texts = vec![
        (
            4.5,
            if right_side {
                tr!("{}: {}, right side", title.design, inlet.name)
            } else {
                tr!("{}: {}, left side", title.design, inlet.name)
            },
        ),
        (
            SMALL,
            tr!(
                "{}  Section square to the thrust line; the arrow points outboard.",
                title.day
            ),
        ),
    ];
    for line in lines {
        texts.push((SMALL, said(inlet, line, system)));
        texts.extend(
            line.promise(system, LETTERS)
                .into_iter()
                .map(|text| (SMALL, text)),
        );
    }
    if inlet.lip == Lip::Rounded && inlet.shape != InletShape::Traced {
        texts.push((
            SMALL,
            tr!(
                "Thin line: where the inner lip radius of {} begins, about the likely line.",
                format::quantity(inlet.lip_radius.value, Dimension::Length, system, 3)
            ),
        ));
    }
    texts.push((
        SMALL,
        tr(
            "Begin with the full line, then enlarge little by little. Estimates; flight test decides.",
        )
            .to_owned(),
    ));
    let end = drawing.texts(at(low.x, low.y - reach - 8.0), texts);
    drawing.check_scales(at(end.x, end.y - 2.0));
    Some(drawing)
}

/// What a line is and predicts.
fn said(inlet: &Inlet, line: &Line, system: UnitSystem) -> String {
    let mut sized = inlet.clone();
    sized.scale_area(line.factor);
    let length = |si: f64| format::cut_length(si, system, line.kind.rounded());
    let size = match sized.shape {
        InletShape::Ring => tr!("ring {}", length(sized.diameter.value)),
        InletShape::Rectangle => tr!(
            "{} × {}, corners {}",
            length(sized.width.value),
            length(sized.height.value),
            length(sized.corner_radius.value)
        ),
        InletShape::Traced => tr("as traced").to_owned(),
    };
    format!(
        "{}: {}, {size}; {}",
        line.kind.legend(),
        format::quantity(sized.area_m2(), Dimension::Area, system, 3),
        line.heads(system),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::workshop::cut::drawing::Item;
    use crate::workshop::cut::lines::LineKind;
    use coolpath_core::document::example;

    fn area_mm2(points: &[Point]) -> f64 {
        let next = points.iter().cycle().skip(1);
        0.5 * points
            .iter()
            .zip(next)
            .map(|(a, b)| a.x * b.y - b.x * a.y)
            .sum::<f64>()
            .abs()
    }

    fn line(kind: LineKind, factor: f64) -> Line {
        Line {
            kind,
            factor,
            head_k: 500.0,
            head_most_k: 520.0,
            conditions: Vec::new(),
        }
    }

    #[test]
    fn outlines_hold_the_areas_that_the_core_computes_with() {
        let mut inlet = example::design().installation.inlets[0].clone();
        for shape in [InletShape::Rectangle, InletShape::Ring] {
            inlet.shape = shape;
            for factor in [0.85, 1.0, 1.2] {
                let mut sized = inlet.clone();
                sized.scale_area(factor);
                let drawn = area_mm2(&outline(&sized, 0.0).expect("a shape")) * 1e-6;
                let error = drawn / (factor * inlet.area_m2()) - 1.0;
                assert!(error.abs() < 3e-4, "{shape:?} {factor}: {error}");
            }
        }
        inlet.shape = InletShape::Traced;
        assert_eq!(outline(&inlet, 0.0), None);
        inlet.outline = vec![[0.0, 0.0], [0.1, 0.0], [0.0, 0.1]];
        let drawn = area_mm2(&outline(&inlet, 0.0).expect("traced")) * 1e-6;
        assert!((drawn / inlet.area_m2() - 1.0).abs() < 1e-9);
    }

    #[test]
    fn lines_nest_and_the_other_side_is_the_mirror() {
        let inlet = &example::design().installation.inlets[0];
        let lines = [
            line(LineKind::FirstCut, 0.85),
            line(LineKind::Likely, 1.0),
            line(LineKind::NeverBeyond, 1.15),
        ];
        let of = |right| {
            template(
                inlet,
                &lines,
                &Title::default(),
                right,
                UnitSystem::Customary,
            )
            .expect("a template")
        };
        let widths = |drawing: &Drawing| -> Vec<f64> {
            drawing
                .items
                .iter()
                .filter_map(|item| match item {
                    Item::Path {
                        points,
                        closed: true,
                        stroke,
                    } if *stroke != Stroke::Thin => {
                        Some(points.iter().map(|point| point.x).fold(0.0, f64::max))
                    }
                    _ => None,
                })
                .collect()
        };
        let (left, right) = (of(false), of(true));
        assert!(widths(&left).windows(2).all(|pair| pair[0] < pair[1]));
        assert_eq!(widths(&left).len(), 3);
        let tip = |drawing: &Drawing, sign: f64| {
            drawing.items.iter().any(|item| {
                matches!(item, Item::Path { points, stroke: Stroke::Thin, .. }
                    if points.len() == 2 && points[0].x * sign > 60.0 && points[1].y == 2.0)
            })
        };
        assert!(tip(&left, 1.0) && !tip(&left, -1.0));
        assert!(tip(&right, -1.0) && !tip(&right, 1.0));
    }
}
