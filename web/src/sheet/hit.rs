//! What can be clicked, tapped or reached with the keyboard.

use super::number::short;
use super::path::Outline;
use super::point::Area;
use super::{Part, View};
use crate::kit::svg_text::escaped;
use std::fmt::Write;

/// A part's area in one view.
#[derive(Debug, Clone, PartialEq)]
pub struct HitArea {
    /// The part.
    pub part: Part,
    /// The view.
    pub view: View,
    /// Its box, px.
    pub area: Area,
    /// Smaller parts inside that take their own clicks.
    pub holes: Vec<Area>,
    /// What it is called.
    pub label: String,
}

/// An area that is wanted, before it is grown to a finger's size.
#[derive(Debug, Clone, PartialEq)]
pub struct Target {
    /// The part.
    pub part: Part,
    /// Its box, px.
    pub area: Area,
    /// What it is called.
    pub label: String,
}

/// Grows targets to a least size, keeps them in the frame, and lets small ones go before large.
#[must_use]
pub fn areas(targets: Vec<Target>, view: View, least: f64, frame: &Area) -> Vec<HitArea> {
    let grown: Vec<Area> = targets
        .iter()
        .map(|target| {
            Area::about(
                target.area.middle(),
                target.area.width().max(least).min(frame.width()),
                target.area.height().max(least).min(frame.height()),
            )
            .kept_in(frame)
        })
        .collect();
    let size = |area: &Area| area.width() * area.height();
    targets
        .into_iter()
        .enumerate()
        .map(|(place, target)| {
            let area = grown[place];
            let mut holes: Vec<Area> = Vec::new();
            for (other, smaller) in grown.iter().enumerate() {
                let goes_before =
                    size(smaller) < size(&area) || (size(smaller) == size(&area) && other < place);
                if other == place || !goes_before {
                    continue;
                }
                if let Some(hole) = area.common(smaller) {
                    add_hole(&mut holes, hole);
                }
            }
            HitArea {
                part: target.part,
                view,
                area,
                holes,
                label: target.label,
            }
        })
        .collect()
}

/// Holes must not overlap, or what both cover would be filled again.
fn add_hole(holes: &mut Vec<Area>, mut hole: Area) {
    while let Some(place) = holes.iter().position(|other| other.common(&hole).is_some()) {
        hole.take_area(holes.swap_remove(place));
    }
    holes.push(hole);
}

/// The areas as buttons, in the order of the air's way; only one view takes part in tabbing.
#[must_use]
pub fn markup(areas: &[HitArea], tabbed: bool) -> String {
    let mut all = String::new();
    for hit in areas {
        let outline = hit
            .holes
            .iter()
            .fold(Outline::rounded(hit.area, 4.0), |outline, hole| {
                outline.and(&Outline::boxed(*hole))
            });
        let _ = write!(
            all,
            "<g class=\"part\" data-part=\"{}\" role=\"button\" tabindex=\"{}\" \
             aria-label=\"{}\"><path class=\"hit\" fill-rule=\"evenodd\" d=\"{}\"/></g>",
            hit.part.name(),
            if tabbed { 0 } else { -1 },
            escaped(&hit.label),
            outline.data()
        );
    }
    all
}

/// A box as attributes of a rectangle.
#[must_use]
pub fn rectangle(area: &Area) -> String {
    format!(
        "x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"",
        short(area.left),
        short(area.top),
        short(area.width()),
        short(area.height())
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheet::point::point;

    fn target(part: Part, left: f64, size: f64) -> Target {
        Target {
            part,
            area: Area::sized(point(left, 50.0), size, size),
            label: "a".to_owned(),
        }
    }

    #[test]
    fn a_small_part_is_a_hole_in_the_large_one() {
        let frame = Area::sized(point(0.0, 0.0), 400.0, 300.0);
        let wanted = vec![
            target(Part::Engine, 50.0, 100.0),
            target(Part::Exit, 90.0, 5.0),
        ];
        let areas = areas(wanted, View::Side, 44.0, &frame);
        assert_eq!(
            areas[0].holes,
            vec![areas[1].area.common(&areas[0].area).expect("inside")]
        );
        assert!(areas[1].holes.is_empty());
        assert!((areas[1].area.width() - 44.0).abs() < 1e-9);
    }
}
