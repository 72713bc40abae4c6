//! Differences of alternatives with their uncertainty, as points with bars.

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

/// The chart of one quantity.
#[must_use]
pub fn figure(title: &str, unit: &str, bars: &[Bar], size: Size) -> Figure {
    let low = bars.iter().map(|bar| bar.low).fold(0.0, f64::min);
    let high = bars.iter().map(|bar| bar.high).fold(0.0, f64::max);
    let room = 0.15 * (high - low).max(0.1);
    let last = bars.len().max(1) as f64 - 0.5;
    let svg = drawn(size, title, |surface| {
        let mut chart = ChartBuilder::on(surface)
            .margin(px(8))
            .x_label_area_size(px(12))
            .y_label_area_size(px(52))
            .build_cartesian_2d(-0.5..last, (low - room)..(high + room))?;
        chart
            .configure_mesh()
            .disable_x_mesh()
            .light_line_style(TRANSPARENT)
            .bold_line_style(Role::Grid.colour().stroke_width(px(1)))
            .axis_style(Role::Ink.colour().stroke_width(px(1)))
            .label_style(font(11))
            .x_labels(0)
            .y_labels(6)
            .y_desc(unit)
            .axis_desc_style(font(11))
            .y_label_formatter(&|y| rounded_text(*y, 3))
            .draw()?;
        chart.draw_series(LineSeries::new(
            [(-0.5, 0.0), (last, 0.0)],
            Role::Ink.colour().stroke_width(px(1)),
        ))?;
        for (place, bar) in bars.iter().enumerate() {
            let x = place as f64;
            let thick = Role::First.colour().stroke_width(px(2));
            for piece in [
                [(x, bar.low), (x, bar.high)],
                [(x - 0.06, bar.low), (x + 0.06, bar.low)],
                [(x - 0.06, bar.high), (x + 0.06, bar.high)],
            ] {
                chart.draw_series(std::iter::once(PathElement::new(piece.to_vec(), thick)))?;
            }
            chart.draw_series(std::iter::once(Circle::new(
                (x, bar.by),
                px(5),
                Role::First.colour().filled(),
            )))?;
            chart.draw_series(std::iter::once(Text::new(
                format!("{}", place + 1),
                (x + 0.08, bar.by),
                font(12),
            )))?;
        }
        Ok(())
    });
    let text = |value: f64| rounded_text(value, 2).replace('-', "−");
    let named: Vec<String> = bars
        .iter()
        .enumerate()
        .map(|(place, bar)| format!("{}: {}", place + 1, bar.name))
        .collect();
    Figure {
        title: title.to_owned(),
        sentence: format!("{}.", named.join("; ")),
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
            (8 + 52, 8),
            (-0.5, last),
            (0..bars.len()).map(|place| place as f64).collect(),
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bars_are_drawn_with_their_ends_in_the_table_and_none_is_no_fault() {
        let size = Size {
            width: 300,
            height: 200,
        };
        let bar = Bar {
            name: "Worn <seals>".to_owned(),
            by: 12.0,
            low: -3.0,
            high: 20.0,
        };
        let figure = figure("Heads", "°F", &[bar], size);
        assert_eq!(figure.rows[0][2], "−3");
        assert!(!figure.svg.contains("<seals>") && !figure.svg.contains("NaN"));
        assert!(super::figure("Heads", "°F", &[], size).svg.contains("svg"));
    }
}
