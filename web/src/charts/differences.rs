//! Differences of alternatives with their uncertainty, a row each: its name over a point and a bar.

use crate::charts::canvas::{Role, drawn, font, px};
use crate::charts::figure::{Figure, Readout, Size};
use coolpath_core::units::typed::rounded_text;
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

/// Height of a row, its name over its bar, CSS pixels.
const ROW_PX: u32 = 56;
/// What stands above and below the rows, CSS pixels.
const ABOVE_PX: u32 = 30;
const BELOW_PX: u32 = 46;

/// The chart of one quantity; its height follows the number of bars.
#[must_use]
pub fn figure(title: &str, unit: &str, bars: &[Bar], width: u32) -> Figure {
    let size = Size {
        width,
        height: ABOVE_PX + BELOW_PX + ROW_PX * bars.len().max(1) as u32,
    };
    let low = bars.iter().map(|bar| bar.low).fold(0.0, f64::min);
    let high = bars.iter().map(|bar| bar.high).fold(0.0, f64::max);
    let room = 0.08 * (high - low).max(0.1);
    let (left, right) = (low - room, high + room);
    let svg = drawing(title, unit, bars, (left, right), size);
    let text = |value: f64| rounded_text(value, 2).replace('-', "−");
    Figure {
        title: title.to_owned(),
        sentence: "Point: likeliest; bar: where it lies in nine cases of ten.".to_owned(),
        svg,
        columns: vec![
            "Alternative".to_owned(),
            format!("Difference, {unit}"),
            "From".to_owned(),
            "To".to_owned(),
        ],
        rows: bars
            .iter()
            .map(|bar| {
                vec![
                    bar.name.clone(),
                    text(bar.by),
                    text(bar.low),
                    text(bar.high),
                ]
            })
            .collect(),
        source: "Against the design as it is. Where a bar reaches zero, the difference is within \
                 its uncertainty; what both share has cancelled."
            .to_owned(),
        readout: Readout::new(
            size,
            (8, 8),
            (left, right),
            bars.iter().map(|bar| bar.by).collect(),
        ),
    }
}

/// One row for each bar, the first on top, about a line for the design as it is.
fn drawing(title: &str, unit: &str, bars: &[Bar], (left, right): (f64, f64), size: Size) -> String {
    drawn(size, title, |surface| {
        let rows = bars.len().max(1) as f64;
        let mut chart = ChartBuilder::on(surface)
            .margin(px(8))
            .margin_top(px(ABOVE_PX))
            .x_label_area_size(px(BELOW_PX - 8))
            .build_cartesian_2d(left..right, 0.0..rows)?;
        chart
            .configure_mesh()
            .disable_y_mesh()
            .light_line_style(TRANSPARENT)
            .bold_line_style(Role::Grid.colour().stroke_width(px(1)))
            .axis_style(Role::Ink.colour().stroke_width(px(1)))
            .label_style(font(14))
            .x_labels(6)
            .y_labels(0)
            .x_desc(unit)
            .axis_desc_style(font(14))
            .x_label_formatter(&|x| rounded_text(*x, 3).replace('-', "−"))
            .draw()?;
        chart.draw_series(LineSeries::new(
            [(0.0, 0.0), (0.0, rows)],
            Role::Ink.colour().stroke_width(px(1)),
        ))?;
        let zero = chart.backend_coord(&(0.0, rows));
        surface.draw(&Text::new(
            "as it is now",
            (zero.0 - px(38) as i32, zero.1 - px(20) as i32),
            font(14),
        ))?;
        for (place, bar) in bars.iter().enumerate() {
            let top = rows - place as f64;
            let y = top - 0.68;
            let thick = Role::First.colour().stroke_width(px(2));
            for piece in [
                [(bar.low, y), (bar.high, y)],
                [(bar.low, y - 0.1), (bar.low, y + 0.1)],
                [(bar.high, y - 0.1), (bar.high, y + 0.1)],
            ] {
                chart.draw_series(std::iter::once(PathElement::new(piece.to_vec(), thick)))?;
            }
            chart.draw_series(std::iter::once(Circle::new(
                (bar.by, y),
                px(5),
                Role::First.colour().filled(),
            )))?;
            chart.draw_series(std::iter::once(Text::new(
                bar.name.clone(),
                (left + 0.012 * (right - left), top - 0.06),
                font(14),
            )))?;
        }
        Ok(())
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bars_are_drawn_with_their_ends_in_the_table_and_none_is_no_fault() {
        let bar = Bar {
            name: "Worn <seals>".to_owned(),
            by: 12.0,
            low: -3.0,
            high: 20.0,
        };
        let figure = figure("Heads", "°F", &[bar], 300);
        assert_eq!(figure.rows[0][2], "−3");
        assert!(!figure.svg.contains("<seals>") && !figure.svg.contains("NaN"));
        assert!(super::figure("Heads", "°F", &[], 300).svg.contains("svg"));
    }
}
