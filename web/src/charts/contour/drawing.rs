//! The picture of a grid of sizes: lines of equal heads, steps of drag, limits, marks.

use crate::charts::canvas::{Role, axes, drawn, px};
use crate::charts::contour::free_labels::{FreeLabels, Pixel, Weight, named};
use crate::charts::contour::grid::{Grid, Point, Quantity, level_lines, lower_edges};
use crate::charts::figure::Size;
use crate::charts::line_ends;
use crate::charts::plane::Plane;
use crate::kit::format::number;
use coolpath_core::language::tr;
use coolpath_core::math::order;
use coolpath_core::units::typed::{Dimension, Unit, UnitSystem, rounded_text};
use plotters::coord::Shift;
use plotters::prelude::*;

type Fault = Box<dyn std::error::Error>;
type Surface<'a> = DrawingArea<SVGBackend<'a>, Shift>;

/// Hottest head of all conditions.
pub const HOTTEST: Quantity = |spot| Some(spot.hottest_k);
/// Least margin of the heads.
pub const HEAD_MARGIN: Quantity = |spot| Some(spot.head.margin_k);
/// Least margin of the oil.
pub const OIL_MARGIN: Quantity = |spot| Some(spot.oil.margin_k);
/// Cooling drag in cruise.
pub const DRAG: Quantity = |spot| spot.cruise_drag_n;

/// What a contour is drawn of.
pub struct Picture<'a> {
    /// What the sizes give.
    pub grid: &'a Grid,
    /// The limits of heads and oil, K, where they are the same in every condition.
    pub limits_k: [Option<f64>; 2],
    /// The openings as they are.
    pub present: Point,
    /// Those that are proposed.
    pub proposed: Option<Point>,
    /// Ends of both axes, shown units: left, right, bottom, top.
    pub frame: (f64, f64, f64, f64),
    /// Units.
    pub system: UnitSystem,
}

/// A line of one level: its name, its kind, its pieces in pixels of the drawing.
struct Level {
    name: String,
    role: Role,
    pieces: Vec<[Pixel; 2]>,
}

/// Most lines of equal heads, and most steps of drag.
const HEAD_LEVELS: f64 = 7.0;
const DRAG_LEVELS: f64 = 8.0;
/// Charts narrower than this have short names, CSS px.
const NARROW_PX: u32 = 520;
/// How much of the shade's colour each step of drag adds [-].
const SHADE: f64 = 0.07;

/// Round levels between the ends of some values: no more than so many.
fn round_levels(values: impl Iterator<Item = f64>, most: f64) -> Vec<f64> {
    let (low, high) = values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
        (low.min(value), high.max(value))
    });
    let range = high - low;
    if !(range.is_finite() && range > 0.0) {
        return Vec::new();
    }
    let wanted = range / most;
    let decade = 10_f64.powf(wanted.log10().floor());
    let step = [1.0, 2.0, 4.0, 5.0, 10.0]
        .into_iter()
        .map(|part| part * decade)
        .find(|step| *step >= wanted)
        .unwrap_or(range);
    let first = (low / step).ceil();
    (0..=most as u32)
        .map(|at| (first + f64::from(at)) * step)
        .filter(|level| *level > low && *level < high)
        .collect()
}

/// Names of both limits, short ones without their numbers.
#[must_use]
pub fn limit_names(limits_k: [Option<f64>; 2], system: UnitSystem, is_short: bool) -> [String; 2] {
    let temperature = Dimension::Temperature.shown(system);
    let name = |what: &str, kelvin: Option<f64>| match kelvin.filter(|_| !is_short) {
        Some(kelvin) => {
            let limit = temperature.from_si(kelvin);
            tr!("{} limit {:.0} {}", what, limit, temperature.symbol)
        }
        None => tr!("{} limit", what),
    };
    let [heads, oil] = limits_k;
    [name(tr("CHT"), heads), name(tr("oil"), oil)]
}

impl Picture<'_> {
    fn level(
        &self,
        (name, role): (String, Role),
        (of, si): (Quantity, f64),
        place: &impl Fn(&Point) -> Pixel,
    ) -> Level {
        let pieces = level_lines(self.grid, of, si);
        Level {
            name,
            role,
            pieces: pieces.iter().map(|[a, b]| [place(a), place(b)]).collect(),
        }
    }

    /// Lines of heads by round temperatures, and both limits behind them.
    fn levels(&self, is_short: bool, place: &impl Fn(&Point) -> Pixel) -> Vec<Level> {
        let unit = Dimension::Temperature.shown(self.system);
        let shown = self.grid.values(HOTTEST).map(|kelvin| unit.from_si(kelvin));
        let limit = self.limits_k[0].map(|kelvin| unit.from_si(kelvin));
        let round = round_levels(shown, HEAD_LEVELS);
        let step = round
            .windows(2)
            .next()
            .map_or(0.0, |pair| pair[1] - pair[0]);
        let mut levels: Vec<Level> = round
            .into_iter()
            // A line beside the limit's says nothing more.
            .filter(|level| limit.is_none_or(|limit| (level - limit).abs() > 0.3 * step))
            .map(|level| {
                let name = format!("{} {}", rounded_text(level, 3), unit.symbol);
                self.level((name, Role::Second), (HOTTEST, unit.to_si(level)), place)
            })
            .collect();
        let [heads, oil] = limit_names(self.limits_k, self.system, is_short);
        levels.push(self.level((oil, Role::Third), (OIL_MARGIN, 0.0), place));
        levels.push(self.level((heads, Role::Limit), (HEAD_MARGIN, 0.0), place));
        levels.retain(|level| !level.pieces.is_empty());
        levels
    }

    fn force(&self) -> &'static Unit {
        Dimension::Force.shown(self.system)
    }

    /// Steps of drag, shown unit.
    fn drags(&self) -> Vec<f64> {
        let unit = self.force();
        round_levels(
            self.grid.values(DRAG).map(|newton| unit.from_si(newton)),
            DRAG_LEVELS,
        )
    }

    fn drag_name(&self, level: f64, is_short: bool) -> String {
        let (value, unit) = (number(level, 3), self.force().symbol);
        if is_short {
            format!("{value} {unit}")
        } else {
            tr!("{} {} drag", value, unit)
        }
    }

    /// Room for names beside the plot, CSS px.
    fn aside(&self, is_short: bool) -> u32 {
        let limits = limit_names(self.limits_k, self.system, is_short);
        let drags: Vec<String> = self
            .drags()
            .into_iter()
            .map(|level| self.drag_name(level, is_short))
            .collect();
        let all: Vec<&str> = limits.iter().chain(&drags).map(String::as_str).collect();
        line_ends::room(&all)
    }

    /// Where both limits hold, `None` where nothing is known.
    fn holds(&self, point: Point) -> Option<bool> {
        let head = self.grid.between(point, HEAD_MARGIN)?;
        Some(head.min(self.grid.between(point, OIL_MARGIN)?) >= 0.0)
    }
}

/// The picture, and the plane that its axes make; no plane where it cannot be drawn.
pub fn drawing(picture: &Picture, size: Size, label: &str) -> (String, Option<Plane>) {
    let area = Dimension::Area.shown(picture.system);
    let (left, right, bottom, top) = picture.frame;
    let is_short = size.width < NARROW_PX;
    let aside = picture.aside(is_short);
    let mut plane = None;
    let svg = drawn(size, label, |surface| {
        let mut chart = ChartBuilder::on(surface)
            .margin(px(8))
            .margin_right(px(8 + aside))
            .x_label_area_size(px(46))
            .y_label_area_size(px(62))
            .build_cartesian_2d(left..right, bottom..top)?;
        let (along, up) = chart.plotting_area().get_pixel_range();
        plane = Some(Plane::of(
            size,
            (&along, &up),
            (area.to_si(left), area.to_si(right)),
            (area.to_si(bottom), area.to_si(top)),
        ));
        let place =
            |point: &Point| chart.backend_coord(&(area.from_si(point.0), area.from_si(point.1)));
        let (drags, levels) = (picture.drags(), picture.levels(is_short, &place));
        let mut edges = Vec::new();
        for level in &drags {
            for edge in lower_edges(picture.grid, DRAG, picture.force().to_si(*level)) {
                edges.push((*level, edge.iter().map(place).collect::<Vec<Pixel>>()));
            }
        }
        for (_, edge) in &mut edges {
            shade(surface, edge, up.start)?;
            edge.truncate(line_of(edge, up.end));
        }
        edges.retain(|(_, edge)| edge.len() > 1);
        axes(
            &mut chart,
            &tr!("all inlets, {}", area.symbol),
            &tr!("exit, net, {}", area.symbol),
            3,
        )?;
        let mut labels = FreeLabels::new(along.clone(), up.clone());
        let marks: Vec<Pixel> = std::iter::once(&picture.present)
            .chain(&picture.proposed)
            .map(|point| chart.backend_coord(&(area.from_si(point.0), area.from_si(point.1))))
            .collect();
        lines(surface, &mut labels, (&levels, &edges), &marks)?;
        let mut ends = line_end_names(picture, (&levels, &edges), along.end, is_short);
        inner_names(surface, &mut labels, &levels, along.end)?;
        let region = |pixel: Pixel| {
            let at = |range: &std::ops::Range<i32>, pixel: i32, ends: (f64, f64)| {
                let share = f64::from(pixel - range.start) / f64::from(range.end - range.start);
                area.to_si(ends.0 + share * (ends.1 - ends.0))
            };
            picture.holds((
                at(&along, pixel.0, (left, right)),
                at(&up, pixel.1, (top, bottom)),
            ))
        };
        mark_names(surface, &mut labels, &marks, region)?;
        order::by_number(&mut ends, |(_, _, height)| f64::from(*height));
        let ends: Vec<(&str, RGBColor, i32)> = ends
            .iter()
            .map(|(name, colour, height)| (name.as_str(), *colour, *height))
            .collect();
        line_ends::draw(surface, &ends, (along.end, up.start, up.end))
    });
    (svg, plane)
}

/// How many points of an edge are a line: where it has left through the bottom it goes on along it.
fn line_of(edge: &[Pixel], bottom: i32) -> usize {
    let left = edge
        .iter()
        .position(|point| point.1 >= bottom - px(1) as i32);
    left.map_or(edge.len(), |at| at + 1)
}

/// Shades what lies above an edge up to the top.
fn shade(surface: &Surface<'_>, edge: &[Pixel], top: i32) -> Result<(), Fault> {
    let (Some(first), Some(last)) = (edge.first(), edge.last()) else {
        return Ok(());
    };
    let mut outline = edge.to_vec();
    outline.extend([(last.0, top), (first.0, top)]);
    surface.draw(&Polygon::new(
        outline,
        Role::Third.colour().mix(SHADE).filled(),
    ))?;
    Ok(())
}

/// Draws the edges of drag, the lines of heads and oil, and the marks.
fn lines(
    surface: &Surface<'_>,
    labels: &mut FreeLabels,
    (levels, edges): (&[Level], &[(f64, Vec<Pixel>)]),
    marks: &[Pixel],
) -> Result<(), Fault> {
    for (_, edge) in edges {
        surface.draw(&PathElement::new(
            edge.clone(),
            Role::Third.dotted().stroke_width(px(1)),
        ))?;
        let pieces: Vec<[Pixel; 2]> = edge.windows(2).map(|pair| [pair[0], pair[1]]).collect();
        labels.add_line(Weight::Fine, &pieces);
    }
    for level in levels {
        let (style, weight) = match level.role {
            Role::Limit => (level.role.colour().stroke_width(px(3)), Weight::Limit),
            Role::Third => (Role::Limit.colour().stroke_width(px(2)), Weight::Limit),
            _ => (level.role.colour().stroke_width(px(1)), Weight::Fine),
        };
        for piece in &level.pieces {
            surface.draw(&PathElement::new(piece.to_vec(), style))?;
        }
        labels.add_line(weight, &level.pieces);
    }
    if let [here, proposed] = marks {
        labels.add_line(Weight::Limit, &[[*here, *proposed]]);
        surface.draw(&PathElement::new(
            vec![*here, *proposed],
            Role::Ink.dashed().stroke_width(px(1)),
        ))?;
        surface.draw(&TriangleMarker::new(
            *proposed,
            px(8),
            Role::First.colour().filled(),
        ))?;
    }
    if let Some(here) = marks.first() {
        surface.draw(&Circle::new(*here, px(5), Role::Ground.colour().filled()))?;
        let ring = Role::Ink.colour().stroke_width(px(2));
        surface.draw(&Circle::new(*here, px(5), ring))?;
    }
    for mark in marks {
        labels.add_mark(*mark);
    }
    Ok(())
}

/// Whether a line ends at the right edge, and at which height.
fn right_end(points: impl Iterator<Item = Pixel>, right: i32) -> Option<i32> {
    let end = points.max_by_key(|point| point.0)?;
    (end.0 >= right - px(3) as i32).then_some(end.1)
}

/// Names of what ends at the right edge.
fn line_end_names(
    picture: &Picture,
    (levels, edges): (&[Level], &[(f64, Vec<Pixel>)]),
    right: i32,
    is_short: bool,
) -> Vec<(String, RGBColor, i32)> {
    let of_heads = levels.iter().filter_map(|level| {
        let height = right_end(level.pieces.iter().flatten().copied(), right)?;
        Some((level.name.clone(), name_colour(level), height))
    });
    let of_drag = edges.iter().filter_map(|(level, edge)| {
        let height = right_end(edge.iter().copied(), right)?;
        let name = picture.drag_name(*level, is_short);
        Some((name, Role::Third.colour(), height))
    });
    of_heads.chain(of_drag).collect()
}

fn name_colour(level: &Level) -> RGBColor {
    if level.role == Role::Second {
        Role::Ink.colour()
    } else {
        Role::Limit.colour()
    }
}

/// Names of what leaves through the top or the bottom, on a gap in itself.
fn inner_names(
    surface: &Surface<'_>,
    labels: &mut FreeLabels,
    levels: &[Level],
    right: i32,
) -> Result<(), Fault> {
    // The limits come last in the list and choose first.
    for level in levels.iter().rev() {
        if right_end(level.pieces.iter().flatten().copied(), right).is_some() {
            continue;
        }
        let is_limit = level.role != Role::Second;
        if let Some(corner) = labels.on_line(&level.name, &level.pieces, is_limit) {
            named(surface, &level.name, corner, name_colour(level))?;
        }
    }
    Ok(())
}

/// Names of the marks and of the regions.
fn mark_names(
    surface: &Surface<'_>,
    labels: &mut FreeLabels,
    marks: &[Pixel],
    region: impl Fn(Pixel) -> Option<bool>,
) -> Result<(), Fault> {
    let ink = Role::Ink.colour();
    for (mark, name) in marks.iter().zip([tr("you are here"), tr("proposed")]) {
        named(surface, name, labels.beside(name, *mark), ink)?;
    }
    for (name, is_held, colour) in [
        (tr("within limits"), true, ink),
        (tr("too hot"), false, Role::Limit.colour()),
    ] {
        if let Some(corner) = labels.in_region(name, |pixel| region(pixel) == Some(is_held)) {
            named(surface, name, corner, colour)?;
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_that_leaves_through_the_bottom_ends_there() {
        let edge = [(0, 10), (10, 60), (20, 100), (30, 100), (90, 100)];
        assert_eq!(line_of(&edge, 100), 3);
        assert_eq!(line_of(&edge, 1000), 5);
        assert_eq!(line_of(&edge[2..], 100), 1);
        let part = edge[..3].iter().copied();
        assert_eq!(right_end(part, 90), None);
    }

    #[test]
    fn levels_are_round_numbers_between_the_ends_and_not_too_many() {
        let levels = |low: f64, high: f64| round_levels([low, high].into_iter(), 7.0);
        assert_eq!(levels(7.3, 19.2), [8.0, 10.0, 12.0, 14.0, 16.0, 18.0]);
        assert_eq!(levels(391.0, 560.0), [400.0, 440.0, 480.0, 520.0]);
        assert!(levels(5.0, 5.0).is_empty() && round_levels([].into_iter(), 7.0).is_empty());
        for high in 1..400 {
            let found = levels(0.37, f64::from(high));
            assert!((2..=7).contains(&found.len()), "{high}: {found:?}");
        }
    }
}
