//! Pressure ladder: how the ram pressure is used up on the way through the cowl.

use crate::charts::canvas::{Role, drawn, font, px};
use crate::charts::figure::{Figure, Readout, Size};
use crate::kit::format::number;
use coolpath_core::answer::evaluate::Answer;
use coolpath_core::language::{tr, tr_later};
use coolpath_core::units::typed::{Dimension, UnitSystem};
use plotters::prelude::*;

const STATIONS: [&str; 4] = [
    tr_later("ram"),
    tr_later("upper deck"),
    tr_later("lower deck"),
    "exit",
];
/// The same where there is no room for two words.
const SHORT: [&str; 4] = [
    tr_later("ram"),
    tr_later("upper"),
    tr_later("lower"),
    tr_later("exit"),
];
/// Charts narrower than this have no room for two words, CSS pixels.
const ROOMY_PX: u32 = 440;

/// Pressures of an answer at the stations, in the shown unit.
fn steps(answer: &Answer, system: UnitSystem) -> [f64; 4] {
    let unit = Dimension::Pressure.shown(system);
    [
        answer.ram.value,
        answer.upper_deck.value,
        answer.lower_deck.value,
        answer.exit_outside_pa(),
    ]
    .map(|pressure| unit.from_si(pressure))
}

/// The ladder of one condition.
#[must_use]
pub fn figure(answer: &Answer, system: UnitSystem, size: Size) -> Figure {
    let unit = Dimension::Pressure.shown(system);
    let pressures = steps(answer, system);
    let across = pressures[1] - pressures[2];
    let text = |value: f64| number(value, 3);
    let names = if size.width < ROOMY_PX {
        &SHORT
    } else {
        &STATIONS
    };
    Figure {
        title: tr!(
            "Of {} {} before the inlet, {} cool the cylinders and {} push the air out",
            text(pressures[0]),
            unit.symbol,
            text(across),
            text(pressures[2] - pressures[3]),
        ),
        topic: tr!("Pressure ladder, {}", answer.name),
        sentence: String::new(),
        svg: drawn(size, &tr!("Pressure ladder, {}", answer.name), |area| {
            let low = pressures.iter().copied().fold(0.0, f64::min);
            let high = pressures.iter().copied().fold(0.1, f64::max);
            let room = 0.12 * (high - low);
            let mut chart = ChartBuilder::on(area)
                .margin(px(8))
                .x_label_area_size(px(30))
                .y_label_area_size(px(62))
                .build_cartesian_2d(-0.5..3.5, (low - 0.3 * room)..(high + room))?;
            chart
                .configure_mesh()
                .disable_x_mesh()
                .light_line_style(TRANSPARENT)
                .bold_line_style(Role::Grid.colour().stroke_width(px(1)))
                .axis_style(Role::Ink.colour().stroke_width(px(1)))
                .label_style(font(14))
                .x_labels(4)
                .x_label_formatter(&|x| station(names, *x))
                .y_desc(tr!("above outside static, {}", unit.symbol))
                .axis_desc_style(font(14))
                .y_label_formatter(&|y| number(*y, 3))
                .draw()?;
            for (place, pressure) in pressures.iter().enumerate() {
                let middle = place as f64;
                let role = if place == 1 || place == 2 {
                    Role::First
                } else {
                    Role::Second
                };
                chart.draw_series(std::iter::once(Rectangle::new(
                    [(middle - 0.32, 0.0), (middle + 0.32, *pressure)],
                    role.colour().filled(),
                )))?;
                chart.draw_series(std::iter::once(Text::new(
                    number(*pressure, 3),
                    (middle - 0.12, pressure.max(0.0) + 0.85 * room),
                    font(14),
                )))?;
            }
            Ok(())
        }),
        columns: vec![
            tr("Station").to_owned(),
            tr!("Pressure above static, {}", unit.symbol),
        ],
        rows: STATIONS
            .iter()
            .zip(pressures)
            .map(|(name, pressure)| vec![tr(name).to_owned(), text(pressure)])
            .collect(),
        source: tr("Computed from your inputs; an estimate until flown.").to_owned(),
        readout: Readout::new(size, (8 + 62, 8), (-0.5, 3.5), vec![0.0, 1.0, 2.0, 3.0]),
    }
}

/// Name of the station at a place on the axis; nothing between them.
fn station(names: &[&str; 4], x: f64) -> String {
    let place = x.round();
    if (x - place).abs() > 0.01 || !(0.0..=3.0).contains(&place) {
        return String::new();
    }
    tr(names[place as usize]).to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::answer::evaluate::evaluate;
    use coolpath_core::document::example;

    #[test]
    fn the_ladder_shows_the_answers_own_pressures() {
        let answer = evaluate(&example::design(), 1).expect("the example has an answer");
        let sized = |width: u32| {
            let size = Size { width, height: 240 };
            figure(&answer, UnitSystem::Metric, size)
        };
        let narrow = sized(360).svg;
        assert!(narrow.contains("upper") && !narrow.contains("upper deck"));
        let figure = sized(500);
        let upper: f64 = figure.rows[1][1].parse().expect("a number");
        assert!((upper - answer.upper_deck.value).abs() < 0.006 * answer.upper_deck.value);
        for station in STATIONS {
            assert!(figure.svg.contains(station), "{station} is missing");
        }
    }
}
