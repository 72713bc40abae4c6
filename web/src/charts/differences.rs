//! Differences of alternatives with their bands: from a mark for the design as it is to a mark for each
//! alternative, better always to the right.

use crate::charts::canvas::{Role, drawn, font, px};
use crate::charts::figure::{Figure, Readout, Size};
use crate::charts::line_ends;
use crate::kit::format::number;
use crate::kit::format::signed;
use coolpath_core::language::tr;
use plotters::coord::Shift;
use plotters::coord::types::RangedCoordf64;
use plotters::prelude::*;

/// One difference: name, value, lower and upper end, shown unit.
#[derive(Debug, Clone, PartialEq)]
pub struct Bar {
    /// Name of the alternative.
    pub name: String,
    /// The difference.
    pub by: f64,
    /// Lower end of its band.
    pub low: f64,
    /// Upper end of its band.
    pub high: f64,
}

impl Bar {
    /// Decimals that its band leaves a meaning, one at most.
    fn decimals(&self) -> usize {
        let widest = (self.by - self.low).max(self.high - self.by);
        usize::from(widest < 10.0)
    }

    /// Whether its band reaches to both sides of no difference.
    #[must_use]
    pub fn is_unsure(&self) -> bool {
        self.low <= 0.0 && self.high >= 0.0
    }
}

/// What is compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Subject<'a> {
    /// What the chart is of.
    pub topic: &'a str,
    /// Unit of the numbers.
    pub unit: &'a str,
    /// Whether less of it is better.
    pub less_is_better: bool,
}

impl Subject<'_> {
    /// Place of a difference along the chart, where better lies to the right.
    fn along(&self, by: f64) -> f64 {
        if self.less_is_better { -by } else { by }
    }

    /// The difference of a bar with its sign and unit, no finer than its band allows.
    #[must_use]
    pub fn words(&self, bar: &Bar) -> String {
        format!("{} {}", signed(bar.by, bar.decimals()), self.unit)
    }
}

/// Height of a row, its name over its band, CSS pixels.
const ROW_PX: u32 = 58;
/// What stands above and below the rows, CSS pixels.
const ABOVE_PX: u32 = 30;
const BELOW_PX: u32 = 46;
/// Half the height of a band and of a mark, CSS pixels.
const BAND_PX: u32 = 7;
const MARK_PX: u32 = 6;
/// Half the height of the line for now, CSS pixels.
const NOW_PX: u32 = 15;
/// Between the stripes of a band, CSS pixels.
const STRIPES_PX: u32 = 7;

/// The chart of one quantity; its height follows the number of bars.
#[must_use]
pub fn figure(title: &str, of: &Subject, bars: &[Bar], width: u32) -> Figure {
    let size = Size {
        width,
        height: ABOVE_PX + BELOW_PX + ROW_PX * bars.len().max(1) as u32,
    };
    let ends = bars.iter().flat_map(|bar| [bar.low, bar.high]);
    let (low, high) = ends
        .map(|end| of.along(end))
        .fold((0.0_f64, 0.0_f64), |(low, high), end| {
            (low.min(end), high.max(end))
        });
    let room = 0.08 * (high - low).max(0.1);
    let (left, right) = (low - room, high + room);
    Figure {
        title: title.to_owned(),
        topic: of.topic.to_owned(),
        sentence: tr(
            "Box: now. Disc: better; diamond and stripes: worse, each with its band of nine \
                   cases in ten.",
        )
        .to_owned(),
        svg: drawing(of, bars, (left, right), size),
        columns: vec![
            tr("Alternative").to_owned(),
            tr!("Difference, {}", of.unit),
            tr("From").to_owned(),
            tr("To").to_owned(),
        ],
        rows: bars
            .iter()
            .map(|bar| {
                let text = |value: f64| signed(value, bar.decimals());
                vec![
                    bar.name.clone(),
                    text(bar.by),
                    text(bar.low),
                    text(bar.high),
                ]
            })
            .collect(),
        source: tr(
            "Against the design as it is. Where a band reaches the box, it is too close to call; \
                 what both share has cancelled.",
        )
        .to_owned(),
        readout: Readout::new(
            size,
            (8, 8),
            (left, right),
            bars.iter().map(|bar| of.along(bar.by)).collect(),
        ),
    }
}

/// A box's edge: one of its own, since that of a rectangle has no width here.
fn edge(
    surface: &DrawingArea<SVGBackend<'_>, Shift>,
    [(left, top), (right, bottom)]: [(i32, i32); 2],
    role: Role,
    width: u32,
) -> Drawn {
    let outline = vec![
        (left, top),
        (right, top),
        (right, bottom),
        (left, bottom),
        (left, top),
    ];
    surface.draw(&PathElement::new(
        outline,
        role.colour().stroke_width(px(width)),
    ))?;
    Ok(())
}

type Plot<'a, 'b> = ChartContext<'a, SVGBackend<'b>, Cartesian2d<RangedCoordf64, RangedCoordf64>>;
type Drawn = Result<(), Box<dyn std::error::Error>>;

/// One row for each bar, the first on top, about a line for the design as it is.
fn drawing(of: &Subject, bars: &[Bar], (left, right): (f64, f64), size: Size) -> String {
    drawn(size, of.topic, |surface| {
        let rows = bars.len().max(1) as f64;
        let mut chart = ChartBuilder::on(surface)
            .margin(px(8))
            .margin_top(px(ABOVE_PX))
            .x_label_area_size(px(BELOW_PX - 8))
            .build_cartesian_2d(left..right, 0.0..rows)?;
        chart
            .configure_mesh()
            .disable_mesh()
            .axis_style(Role::Ink.colour().stroke_width(px(1)))
            .label_style(font(14))
            .x_labels(6)
            .y_labels(0)
            .x_desc(tr!("{}, better to the right", of.unit))
            .axis_desc_style(font(14))
            .x_label_formatter(&|x| number(of.along(*x) + 0.0, 3))
            .draw()?;
        let (along, up) = chart.plotting_area().get_pixel_range();
        let zero = chart.backend_coord(&(0.0, rows)).0;
        for (place, bar) in bars.iter().enumerate() {
            row(surface, &chart, of, bar, rows - place as f64)?;
        }
        for place in 0..bars.len() {
            let y = middle(&chart, rows - place as f64);
            // Over the band, and never through the name above it.
            let reach = px(NOW_PX) as i32;
            surface.draw(&PathElement::new(
                vec![(zero, y - reach), (zero, y + reach)],
                Role::Ink.colour().stroke_width(px(1)),
            ))?;
            let half = px(MARK_PX - 1) as i32;
            let corners = [(zero - half, y - half), (zero + half, y + half)];
            surface.draw(&Rectangle::new(corners, Role::Ground.colour().filled()))?;
            edge(surface, corners, Role::Ink, 2)?;
        }
        let now = line_ends::wide(tr("now")) as i32;
        let place = (zero - now / 2).max(along.start).min(along.end - now);
        let over = up.start - px(20) as i32;
        surface.draw(&Text::new(tr("now"), (place, over), font(14)))?;
        Ok(())
    })
}

/// Height of a row's marks on the drawing, below its name.
fn middle(chart: &Plot, top: f64) -> i32 {
    chart.backend_coord(&(0.0, top)).1 + px(40) as i32
}

/// One alternative: its name with the difference, its band, the bar from now to its mark.
fn row(
    surface: &DrawingArea<SVGBackend<'_>, Shift>,
    chart: &Plot,
    of: &Subject,
    bar: &Bar,
    top: f64,
) -> Drawn {
    let worse = of.along(bar.by) < 0.0;
    let (line, tint) = if worse {
        (Role::Third, Role::OtherBand)
    } else {
        (Role::First, Role::Band)
    };
    let at = |by: f64| chart.backend_coord(&(of.along(by), top)).0;
    let y = middle(chart, top);
    let (a, b) = (at(bar.low), at(bar.high));
    let (from, to) = (a.min(b), a.max(b));
    let half = px(BAND_PX) as i32;
    let corners = [(from, y - half), (to, y + half)];
    surface.draw(&Rectangle::new(corners, tint.colour().filled()))?;
    if worse {
        let mut x = from + px(STRIPES_PX) as i32;
        while x < to {
            let foot = (x - 2 * half).max(from);
            let ends = vec![(x, y - half), (foot, y - half + (x - foot))];
            let stripe = line.colour().mix(0.5).stroke_width(px(1));
            surface.draw(&PathElement::new(ends, stripe))?;
            x += px(STRIPES_PX) as i32;
        }
    }
    edge(surface, corners, line, 1)?;
    let mark = at(bar.by);
    surface.draw(&PathElement::new(
        vec![(at(0.0), y), (mark, y)],
        line.colour().stroke_width(px(2)),
    ))?;
    let size = px(MARK_PX) as i32;
    if worse {
        let diamond = vec![
            (mark, y - size - 4),
            (mark + size + 4, y),
            (mark, y + size + 4),
            (mark - size - 4, y),
        ];
        surface.draw(&Polygon::new(diamond, line.colour().filled()))?;
    } else {
        surface.draw(&Circle::new((mark, y), size, line.colour().filled()))?;
    }
    let unsure = if bar.is_unsure() {
        tr(", too close to call")
    } else {
        ""
    };
    let name = format!("{} {}{unsure}", bar.name, of.words(bar));
    let start = chart.plotting_area().get_pixel_range().0.start;
    let over = y - px(34) as i32;
    surface.draw(&Text::new(
        name,
        (start, over),
        font(14).color(&line.colour()),
    ))?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    const HEADS: Subject = Subject {
        topic: "Hottest CHT",
        unit: "°F",
        less_is_better: true,
    };

    fn bar(name: &str, by: f64, low: f64, high: f64) -> Bar {
        Bar {
            name: name.to_owned(),
            by,
            low,
            high,
        }
    }

    #[test]
    fn bars_are_drawn_with_their_ends_in_the_table_and_none_is_no_fault() {
        let worn = bar("Worn <seals>", 12.0, -3.0, 20.0);
        let made = figure("Worn seals heat", &HEADS, &[worn], 300);
        assert_eq!(made.rows[0][2], "−3");
        assert!(!made.svg.contains("<seals>") && !made.svg.contains("NaN"));
        assert!(made.svg.contains("+12 °F, too close to call"));
        assert!(figure("Nothing", &HEADS, &[], 300).svg.contains("svg"));
    }

    #[test]
    fn better_lies_to_the_right_and_shape_and_hue_tell_it_from_worse() {
        let list = [
            bar("Plenum", -5.0, -12.0, -2.0),
            bar("Worn", 12.0, 5.0, 20.0),
        ];
        let made = figure("A plenum cools", &HEADS, &list, 560);
        // A reader of rows finds them in that order too.
        assert!(made.readout.share_of(0) > made.readout.share_of(1));
        let more = Subject {
            less_is_better: false,
            ..HEADS
        };
        let turned = figure("A plenum cools", &more, &list, 560);
        assert!(turned.readout.share_of(0) < turned.readout.share_of(1));
        assert_eq!(made.svg.matches("<circle").count(), 1, "one disc");
        assert_eq!(made.svg.matches("<polygon").count(), 1, "one diamond");
        for role in ["band", "other-band", "first", "third"] {
            assert!(made.svg.contains(&format!("var(--chart-{role})")), "{role}");
        }
        for words in ["better to the right", "now"] {
            assert!(made.svg.contains(words), "{words}");
        }
    }

    #[test]
    fn a_name_never_crosses_the_line_for_now_nor_leaves_the_chart() {
        let mut seed = 5_u32;
        let mut next = || {
            seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            f64::from(seed >> 8) / f64::from(1 << 24)
        };
        for _ in 0..60 {
            let list: Vec<Bar> = ["Hard plenum", "Worn seals"]
                .into_iter()
                .map(|name| {
                    let by = 40.0 * next() - 20.0;
                    bar(name, by, by - 8.0 * next(), by + 8.0 * next())
                })
                .collect();
            let made = figure("Heads", &HEADS, &list, 350);
            for bar in &list {
                let at = made.svg.find(&format!("\n{} ", bar.name)).expect("a name");
                let before = &made.svg[..at];
                let tag = &before[before.rfind("<text").expect("a text")..];
                let number = |markup: &str, name: &str| -> f64 {
                    let found = markup.split(&format!(" {name}=\"")).nth(1);
                    let digits = found.and_then(|rest| rest.split('"').next());
                    digits.and_then(|text| text.parse().ok()).expect("a number")
                };
                let (x, top) = (number(tag, "x") / 4.0, number(tag, "y") / 4.0);
                let name = made.svg[at..].split('<').next().unwrap_or_default();
                let wide = f64::from(line_ends::wide(name.trim())) / 4.0;
                assert!(x >= 7.0 && x + wide <= 351.0, "{name} {x} {wide}");
                // Upright lines of ink begin below the name or end above it.
                let lines = made.svg.split("<polyline").skip(1);
                for line in lines.filter(|line| line.contains("chart-ink")) {
                    let points = line.split("points=\"").nth(1).unwrap_or_default();
                    let points = points.split('"').next().unwrap_or_default();
                    let pairs: Vec<(f64, f64)> = points
                        .split_whitespace()
                        .filter_map(|pair| {
                            let (x, y) = pair.split_once(',')?;
                            Some((x.parse::<f64>().ok()? / 4.0, y.parse::<f64>().ok()? / 4.0))
                        })
                        .collect();
                    let is_upright = pairs.windows(2).all(|pair| pair[0].0 == pair[1].0);
                    let (low, high) = pairs.iter().fold((f64::MAX, f64::MIN), |(low, high), p| {
                        (low.min(p.1), high.max(p.1))
                    });
                    let apart = high < top || low > top + 15.0;
                    assert!(!is_upright || apart, "{name}: {line}");
                }
            }
        }
    }
}
