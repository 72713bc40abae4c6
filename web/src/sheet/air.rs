//! How air is painted: ribbons of one width scale, coloured by temperature, and leak arrows.

use super::ink::{Ink, Layer};
use super::number::short;
use super::path::{Corner, Outline, Track};
use super::point::{Area, Point, point};
use std::fmt::Write;

/// Width of a ribbon, in per kg/s: 1.25 in per lb/s, on every drawing.
pub const INCHES_PER_KG_S: f64 = 1.25 / 0.453_592_37;
/// Thinnest ribbon, px.
const THINNEST: f64 = 1.6;
/// Rise above the outside air that takes the hottest colour, K: 160 °F.
pub const HOT_RISE_K: f64 = 160.0 / 1.8;

/// Width on the sheet, px, of a flow in kg/s.
#[must_use]
pub fn width_px(flow: f64, scale: f64) -> f64 {
    flow.abs() * INCHES_PER_KG_S * scale
}

/// Colours of the air above a temperature outside, K.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Heat {
    /// Outside air, K.
    pub outside_k: f64,
}

/// Edge and tint of a ribbon, as CSS colours or references.
#[derive(Debug, Clone, PartialEq)]
pub struct Paint {
    /// Edge.
    pub edge: String,
    /// Tint.
    pub tint: String,
}

impl Heat {
    /// Share of the way from the cool to the hot colour, per cent.
    #[must_use]
    pub fn share(&self, kelvin: f64) -> u32 {
        let share = ((kelvin - self.outside_k) / HOT_RISE_K).clamp(0.0, 1.0);
        (0..=100_u32)
            .min_by(|a, b| {
                let off = |percent: u32| (f64::from(percent) - 100.0 * share).abs();
                off(*a).total_cmp(&off(*b))
            })
            .unwrap_or(0)
    }

    /// Colour of an edge, mixed in OKLab.
    #[must_use]
    pub fn edge(&self, kelvin: f64) -> String {
        mixed("--hot", "--cool", self.share(kelvin))
    }

    /// Edge and tint of one temperature.
    #[must_use]
    pub fn paint(&self, kelvin: f64) -> Paint {
        Paint {
            edge: self.edge(kelvin),
            tint: mixed("--hot-t", "--cool-t", self.share(kelvin)),
        }
    }

    /// Edge and tint that change between two points of the sheet.
    #[must_use]
    pub fn gradient(&self, ink: &mut Ink, stops: &[(f64, f64)], from: Point, to: Point) -> Paint {
        let name = ink.name();
        for (suffix, hot, cool) in [("e", "--hot", "--cool"), ("t", "--hot-t", "--cool-t")] {
            let _ = write!(
                ink.defs,
                "<linearGradient id=\"{name}{suffix}\" gradientUnits=\"userSpaceOnUse\" \
                 x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\">",
                short(from.x),
                short(from.y),
                short(to.x),
                short(to.y)
            );
            for &(at, kelvin) in stops {
                let _ = write!(
                    ink.defs,
                    "<stop offset=\"{at:.2}\" style=\"stop-color:{}\"/>",
                    mixed(hot, cool, self.share(kelvin))
                );
            }
            ink.defs.push_str("</linearGradient>");
        }
        Paint {
            edge: format!("url(#{name}e)"),
            tint: format!("url(#{name}t)"),
        }
    }
}

fn mixed(hot: &str, cool: &str, percent: u32) -> String {
    match percent {
        0 => format!("var({cool})"),
        100 => format!("var({hot})"),
        _ => format!("color-mix(in oklab,var({hot}) {percent}%,var({cool}))"),
    }
}

/// A ribbon along corners; a reversed one has dashed edges.
pub fn lane(ink: &mut Ink, corners: &[Corner], width: f64, paint: &Paint, reversed: bool) -> Track {
    let track = Track::new(corners);
    let width = width.max(THINNEST);
    ink.bounds
        .take_area(track.outline().bounds().grown(0.5 * width + 1.0));
    let dash = if reversed {
        " stroke-dasharray=\"5 3\""
    } else {
        ""
    };
    for (layer, colour, stroke, dash) in [
        (Layer::Edges, &paint.edge, width + 2.0, dash),
        (Layer::Tints, &paint.tint, (width - 0.4).max(0.6), ""),
    ] {
        ink.styled(
            layer,
            "lane",
            track.outline(),
            &format!(
                " style=\"stroke:{colour};stroke-width:{}\"{dash}",
                short(stroke)
            ),
        );
    }
    track
}

/// Where chevrons stand along a track, px.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spacing {
    /// First one from the start.
    pub first: f64,
    /// None closer to the end than this.
    pub before_end: f64,
    /// Distance between them.
    pub step: f64,
}

/// Chevrons along a track, turned round for a flow that runs against it.
pub fn chevrons(
    ink: &mut Ink,
    track: &Track,
    width: f64,
    colour: &str,
    spacing: Spacing,
    against: bool,
) {
    let half = 0.5 * (0.5 * width).clamp(3.0, 13.0);
    let mut at = spacing.first;
    while at <= track.length() - spacing.before_end {
        let (p, ahead) = track.at(at);
        let ahead = if against { ahead.times(-1.0) } else { ahead };
        let side = ahead.turned();
        let corner = |along: f64, aside: f64| {
            p.moved(
                ahead.x * along + side.x * aside,
                ahead.y * along + side.y * aside,
            )
        };
        let outline = Outline::through(&[
            corner(-0.55 * half, -half),
            corner(0.45 * half, 0.0),
            corner(-0.55 * half, half),
        ]);
        ink.styled(
            Layer::Chevrons,
            "chev",
            &outline,
            &format!(" style=\"stroke:{colour}\""),
        );
        at += spacing.step.max(4.0);
    }
}

/// A slender arrow along corners; a reversed leak runs the other way, dashed and amber.
pub fn arrow(ink: &mut Ink, corners: &[Corner], colour: &str, reversed: bool) {
    let way: Vec<Corner> = if reversed {
        corners.iter().rev().copied().collect()
    } else {
        corners.to_vec()
    };
    let track = Track::new(&way);
    let (tip, ahead) = track.at(track.length());
    let side = ahead.turned();
    let small = if ink.plane.scale < SMALL { 0.7 } else { 1.0 };
    let at = |along: f64, aside: f64| {
        tip.moved(
            (ahead.x * along + side.x * aside) * small,
            (ahead.y * along + side.y * aside) * small,
        )
    };
    let head = Outline::through(&[at(1.0, 0.0), at(-7.0, -3.2), at(-5.4, 0.0), at(-7.0, 3.2)]);
    let mut bounds = track.outline().bounds();
    bounds.take_area(head.bounds());
    let class = if reversed { "leak rev" } else { "leak" };
    let markup = format!(
        "<g class=\"{class}\" style=\"--c:{colour}\"><path d=\"{}\"/><path class=\"head\" \
         d=\"{}Z\"/></g>",
        track.outline().data(),
        head.data()
    );
    ink.raw(Layer::Leaks, &markup, bounds);
}

/// Below this scale, px/in, lines are drawn lighter.
pub const SMALL: f64 = 5.2;

/// Air that goes away from the viewer: a cross in a circle; toward the viewer: a dot in one.
pub fn across(ink: &mut Ink, at: Point, colour: &str, away: bool) {
    let radius = if ink.plane.scale < SMALL { 3.4 } else { 4.4 };
    let style = format!(" style=\"stroke:{colour}\"");
    ink.styled(
        Layer::Chevrons,
        "into",
        &Outline::circle(at, radius),
        &style,
    );
    let arm = 0.66 * radius;
    let mark = if away {
        Outline::through(&[at.moved(-arm, -arm), at.moved(arm, arm)])
            .jump(at.moved(arm, -arm))
            .line(at.moved(-arm, arm))
    } else {
        Outline::circle(at, 0.8)
    };
    ink.styled(Layer::Chevrons, "intox", &mark, &style);
}

/// A box about a point.
#[must_use]
pub fn dot(at: Point, radius: f64) -> Area {
    Area::about(point(at.x, at.y), 2.0 * radius, 2.0 * radius)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn colours_span_160_degrees_fahrenheit() {
        let heat = Heat { outside_k: 300.0 };
        assert_eq!(heat.edge(290.0), "var(--cool)");
        assert_eq!(heat.edge(300.0 + HOT_RISE_K), "var(--hot)");
        assert_eq!(heat.share(300.0 + 0.25 * HOT_RISE_K), 25);
    }

    #[test]
    fn a_pound_a_second_is_an_inch_and_a_quarter_wide() {
        assert!((width_px(0.453_592_37, 8.0) - 10.0).abs() < 1e-9);
        // 70 mm per kg/s
        assert!((INCHES_PER_KG_S * 25.4 - 70.0).abs() < 0.01);
    }
}
