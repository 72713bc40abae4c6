//! Line charts: some series over one quantity, with limits across.

use crate::charts::canvas::{Role, axes, drawn, font, px};
use crate::charts::figure::{Readout, Size};
use crate::charts::line_ends;
use coolpath_core::language::{tr, tr_later};
use coolpath_core::units::typed::rounded_text;
use plotters::coord::types::RangedCoordf64;
use plotters::prelude::*;

/// One line.
pub struct Series {
    /// What it shows.
    pub name: &'static str,
    /// Its role, which gives colour; the place in the list gives the dash.
    pub role: Role,
    /// Its points, shown units.
    pub points: Vec<(f64, f64)>,
    /// Its band at some places along: how far below and above, shown units; empty if not known.
    pub band: Vec<(f64, f64, f64)>,
}

impl Series {
    /// Outline of the band about the line: along its lower side and back along its upper one.
    fn outline(&self) -> Vec<(f64, f64)> {
        if self.band.is_empty() {
            return Vec::new();
        }
        let side = |(x, y): &(f64, f64), sign: f64| {
            let (below, above) = between(&self.band, *x);
            (*x, y + if sign < 0.0 { -below } else { above })
        };
        let low = self.points.iter().map(|point| side(point, -1.0));
        let high = self.points.iter().rev().map(|point| side(point, 1.0));
        low.chain(high).collect()
    }
}

/// Half-widths at a place, straight between the places where they are known.
fn between(band: &[(f64, f64, f64)], x: f64) -> (f64, f64) {
    let after = band.partition_point(|known| known.0 < x);
    match (after.checked_sub(1).map(|at| band[at]), band.get(after)) {
        (Some((x0, below0, above0)), Some(&(x1, below1, above1))) => {
            let share = (x - x0) / (x1 - x0);
            // Beside an open place nothing is known either.
            let side = |from: f64, to: f64| {
                if from.is_infinite() || to.is_infinite() {
                    f64::INFINITY
                } else {
                    from + share * (to - from)
                }
            };
            (side(below0, below1), side(above0, above1))
        }
        (Some((_, below, above)), None) | (None, Some(&(_, below, above))) => (below, above),
        (None, None) => (0.0, 0.0),
    }
}

/// A line chart.
pub struct LineChart {
    /// Name for a screen reader.
    pub label: String,
    /// Quantity and unit along.
    pub along: String,
    /// Quantity and unit up.
    pub up: String,
    /// Shaded stretches along.
    pub shades: Vec<(f64, f64)>,
    /// Lines, the first full, the second dashed.
    pub series: Vec<Series>,
    /// Values that must not be exceeded, shown units, and whose they are.
    pub limits: Vec<(&'static str, f64)>,
    /// A value along to mark, such as the condition's own, and its name over the plot.
    pub marks: Vec<(f64, &'static str)>,
    /// Single points, such as values set aside: drawn as crosses beside the lines.
    pub crosses: Vec<(f64, f64)>,
}

/// Smallest and largest of some numbers, widened a little; something to draw even for none.
fn extent(numbers: impl Iterator<Item = f64>) -> (f64, f64) {
    let (low, high) = numbers
        .filter(|number| number.is_finite())
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), n| {
            (low.min(n), high.max(n))
        });
    if low > high {
        return (0.0, 1.0);
    }
    let room = 0.06 * (high - low).max(1e-9 + 0.01 * high.abs());
    (low - room, high + room)
}

/// A band in its tint, with an edge in the colour of its line: the tint alone stands out too little.
fn band(
    chart: &mut ChartContext<'_, SVGBackend<'_>, Cartesian2d<RangedCoordf64, RangedCoordf64>>,
    role: Role,
    outline: Vec<(f64, f64)>,
    (bottom, top): (f64, f64),
) -> Result<(), Box<dyn std::error::Error>> {
    // An open side runs to the edge.
    let mut outline: Vec<(f64, f64)> = outline
        .into_iter()
        .map(|(x, y)| (x, y.clamp(bottom, top)))
        .collect();
    let tint = if role == Role::First {
        Role::Band
    } else {
        Role::OtherBand
    };
    chart.draw_series(std::iter::once(Polygon::new(
        outline.clone(),
        tint.colour().mix(0.6).filled(),
    )))?;
    outline.extend(outline.first().copied());
    chart.draw_series(std::iter::once(PathElement::new(
        outline,
        role.colour().stroke_width(px(1)),
    )))?;
    Ok(())
}

/// Name of a limit.
fn limit_name((whose, value): &(&str, f64)) -> String {
    tr!("{} limit {}", whose, rounded_text(*value, 3))
}

/// Margins about the plot, CSS pixels.
const MARGIN: u32 = 8;
const LABELS_LEFT: u32 = 62;
const LABELS_BELOW: u32 = 46;
/// Room over the plot for the names of marks, CSS pixels.
const NAMES_ABOVE: u32 = 22;
/// What marks the condition's own value.
pub const HERE: &str = tr_later("you are here");

impl LineChart {
    fn along_ends(&self) -> (f64, f64) {
        extent(
            self.series
                .iter()
                .flat_map(|series| series.points.iter().map(|point| point.0)),
        )
    }

    /// Names of lines and limits.
    fn names<'a>(&'a self, limits: &'a [String]) -> Vec<&'a str> {
        let lines = self.series.iter().map(|series| series.name);
        lines.chain(limits.iter().map(String::as_str)).collect()
    }

    /// Where rows at these values stand along the chart.
    #[must_use]
    pub fn readout(&self, size: Size, along: Vec<f64>) -> Readout {
        let limits: Vec<String> = self.limits.iter().map(limit_name).collect();
        Readout::new(
            size,
            (
                MARGIN + LABELS_LEFT,
                MARGIN + line_ends::room(&self.names(&limits)),
            ),
            self.along_ends(),
            along,
        )
    }

    /// The chart as markup.
    #[must_use]
    pub fn svg(&self, size: Size) -> String {
        let all = || self.series.iter().flat_map(|series| series.points.iter());
        let (left, right) = self.along_ends();
        let limits: Vec<String> = self.limits.iter().map(limit_name).collect();
        let names = self.names(&limits);
        let outlines: Vec<(Role, Vec<(f64, f64)>)> = self
            .series
            .iter()
            .map(|series| (series.role, series.outline()))
            .filter(|(_, outline)| !outline.is_empty())
            .collect();
        let above = if self.marks.iter().any(|(_, name)| !name.is_empty()) {
            NAMES_ABOVE
        } else {
            0
        };
        let (bottom, top) = extent(
            all()
                .chain(outlines.iter().flat_map(|(_, outline)| outline))
                .map(|point| point.1)
                .chain(self.limits.iter().map(|limit| limit.1))
                .chain(self.crosses.iter().map(|cross| cross.1)),
        );
        drawn(size, &self.label, |area| {
            let mut chart = ChartBuilder::on(area)
                .margin(px(MARGIN))
                .margin_top(px(MARGIN + above))
                .margin_right(px(MARGIN + line_ends::room(&names)))
                .x_label_area_size(px(LABELS_BELOW))
                .y_label_area_size(px(LABELS_LEFT))
                .build_cartesian_2d(left..right, bottom..top)?;
            axes(&mut chart, &self.along, &self.up, 4)?;
            for (from, to) in &self.shades {
                chart.draw_series(std::iter::once(Rectangle::new(
                    [(*from, bottom), (*to, top)],
                    Role::Band.colour().mix(0.6).filled(),
                )))?;
            }
            for (role, outline) in outlines {
                band(&mut chart, role, outline, (bottom, top))?;
            }
            for (_, limit) in &self.limits {
                chart.draw_series(LineSeries::new(
                    [(left, *limit), (right, *limit)],
                    Role::Limit.dashed().stroke_width(px(1)),
                ))?;
            }
            for (mark, _) in &self.marks {
                chart.draw_series(LineSeries::new(
                    [(*mark, bottom), (*mark, top)],
                    Role::Ink.colour().stroke_width(px(1)),
                ))?;
            }
            for (place, series) in self.series.iter().enumerate() {
                let colour = if place == 0 {
                    series.role.colour()
                } else {
                    series.role.dashed()
                };
                chart.draw_series(LineSeries::new(
                    series.points.iter().copied(),
                    colour.stroke_width(px(2)),
                ))?;
            }
            chart.draw_series(
                self.crosses
                    .iter()
                    .map(|cross| Cross::new(*cross, px(4), Role::Ink.colour().stroke_width(px(1)))),
            )?;
            let (along, up) = chart.plotting_area().get_pixel_range();
            for (mark, name) in self.marks.iter().filter(|(_, name)| !name.is_empty()) {
                let wide = line_ends::wide(name) as i32;
                let middle = chart.backend_coord(&(*mark, top)).0 - wide / 2;
                let place = middle.max(along.start).min(along.end - wide);
                let over = up.start - px(18) as i32;
                area.draw(&Text::new(*name, (place, over), font(line_ends::TEXT_PX)))?;
            }
            let height = |value: f64| chart.backend_coord(&(right, value.clamp(bottom, top))).1;
            let lines = self.series.iter().filter_map(|series| {
                let end = series.points.last()?;
                Some((series.name, series.role.colour(), height(end.1)))
            });
            let over = limits.iter().zip(&self.limits);
            let over = over
                .map(|(name, (_, value))| (name.as_str(), Role::Limit.colour(), height(*value)));
            let all: Vec<(&str, RGBColor, i32)> = lines.chain(over).collect();
            line_ends::draw(area, &all, (along.end, up.start, up.end))
        })
    }
}
