//! A drawing as SVG in millimetres.

use crate::kit::svg_text::escaped;
use crate::workshop::cut::drawing::{Drawing, Item, Point, Stroke, at};
use std::fmt::Write;

/// Room around a drawing, mm.
const MARGIN: f64 = 5.0;

fn attributes(stroke: Stroke) -> &'static str {
    match stroke {
        Stroke::Full | Stroke::Rib => "stroke-width=\"0.35\"",
        Stroke::Dashed => "stroke-width=\"0.35\" stroke-dasharray=\"5 2\"",
        Stroke::Dotted => "stroke-width=\"0.35\" stroke-dasharray=\"1 1.5\"",
        Stroke::Thin => "stroke-width=\"0.15\"",
    }
}

/// Elements of a drawing, moved so that `corner` (lower left) and `height` give the place of y = 0
/// on paper, whose y runs downward.
pub(super) fn elements(drawing: &Drawing, corner: Point, height: f64) -> String {
    let place = |point: &Point| at(point.x - corner.x, height - (point.y - corner.y));
    let mut text = String::new();
    for item in &drawing.items {
        match item {
            Item::Path {
                points,
                closed,
                stroke,
            } => {
                let mut path = String::new();
                for (step, point) in points.iter().map(&place).enumerate() {
                    let _ = write!(
                        path,
                        "{}{:.3} {:.3}",
                        if step == 0 { "M" } else { "L" },
                        point.x,
                        point.y
                    );
                }
                if *closed {
                    path.push('Z');
                }
                let _ = write!(
                    text,
                    "<path d=\"{path}\" fill=\"none\" stroke=\"#000\" {}/>",
                    attributes(*stroke)
                );
            }
            Item::Text {
                at: begin,
                size,
                text: words,
            } => {
                let begin = place(begin);
                let _ = write!(
                    text,
                    "<text x=\"{:.3}\" y=\"{:.3}\" font-size=\"{size}\" font-family=\"sans-serif\">{}</text>",
                    begin.x,
                    begin.y,
                    escaped(words)
                );
            }
        }
    }
    text
}

/// A window onto a drawing, mm, as an SVG of that size.
pub(super) fn window(content: &str, width: f64, height: f64, name: &str) -> String {
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width:.3}mm\" height=\"{height:.3}mm\" \
         viewBox=\"0 0 {width:.3} {height:.3}\" role=\"img\" aria-label=\"{}\">{content}</svg>",
        escaped(name)
    )
}

/// A whole drawing as an SVG file.
#[must_use]
pub fn file(drawing: &Drawing, name: &str) -> String {
    let (low, high) = drawing.extent();
    let (width, height) = (high.x - low.x + 2.0 * MARGIN, high.y - low.y + 2.0 * MARGIN);
    let corner = at(low.x - MARGIN, low.y - MARGIN);
    window(&elements(drawing, corner, height), width, height, name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_drawing_has_its_size_in_millimetres_and_hostile_names_stay_text() {
        let mut drawing = Drawing::default();
        drawing.line(at(0.0, 0.0), at(100.0, 50.0), Stroke::Full);
        drawing.text(at(0.0, 10.0), 3.0, "<script>\"x\"</script>");
        let svg = file(&drawing, "a\" onload=\"b");
        assert!(
            svg.contains("width=\"110.000mm\" height=\"60.000mm\""),
            "{svg}"
        );
        assert!(svg.contains("M5.000 55.000L105.000 5.000"), "{svg}");
        assert!(
            !svg.contains("<script") && !svg.contains("\" onload"),
            "{svg}"
        );
    }
}
