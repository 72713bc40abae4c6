//! The template of an exit: lip-gap heights across its width, and a go/no-go gauge.
//!
//! An exit is a trimmed lip: what is cut is the distance from the firewall's lower edge to the lip. The
//! heights are gross, so that the net area is left beside pipes and brackets.

use crate::kit::format;
use crate::workshop::cut::drawing::{Drawing, Stroke, at};
use crate::workshop::cut::inlet::{SMALL, Title};
use crate::workshop::cut::lines::{LETTERS, Line, LineKind};
use coolpath_core::document::installation::{Exit, ExitShape};
use coolpath_core::language::tr;
use coolpath_core::units::typed::{Dimension, UnitSystem};

const MM: f64 = 1000.0;
/// Between two stations across the width, mm.
const STATION_MM: f64 = 25.4;
/// Width of each step of the gauge, mm.
const STEP_MM: f64 = 35.0;

/// Width of a letter over its height [-] (from memory).
const LETTER: f64 = 0.6;

/// Gap of a line, m.
fn gap_m(exit: &Exit, line: &Line) -> f64 {
    let mut sized = exit.clone();
    sized.set_closed_area(line.factor * exit.closed_area_m2());
    sized.gap.value
}

/// The template of the lip; `None` unless the exit is given by width and gap.
#[must_use]
pub fn template(exit: &Exit, lines: &[Line], title: &Title, system: UnitSystem) -> Option<Drawing> {
    if exit.shape != ExitShape::LipGap {
        return None;
    }
    let width = MM * exit.width.value;
    let half = 0.5 * width;
    let area = |si: f64| format::quantity(si, Dimension::Area, system, 3);
    let mut drawing = Drawing::default();
    // The firewall's lower edge, the lip below it.
    drawing.line(at(-half, 0.0), at(half, 0.0), Stroke::Full);
    for line in lines {
        let gap = MM * gap_m(exit, line);
        drawing.outline(
            vec![
                at(-half, 0.0),
                at(half, 0.0),
                at(half, -gap),
                at(-half, -gap),
            ],
            line.kind.stroke(),
        );
    }
    let deepest = lines
        .iter()
        .map(|line| MM * gap_m(exit, line))
        .fold(0.0, f64::max);
    let stations = (half / STATION_MM).floor() as i32;
    for station in -stations..=stations {
        let x = f64::from(station) * STATION_MM;
        drawing.line(at(x, 2.0), at(x, -deepest - 2.0), Stroke::Thin);
    }
    drawing.line(at(0.0, 8.0), at(0.0, -deepest - 8.0), Stroke::Thin);
    let mut texts = vec![
        (
            4.5,
            tr!(
                "{}: {}, lip over the firewall's lower edge",
                title.design,
                exit.name
            ),
        ),
        (
            SMALL,
            tr!(
                "{}  Top line: firewall edge. Upright lines: stations every 1 in from the centre-line.",
                title.day
            ),
        ),
    ];
    // As wide as the template, which fewer sheets then hold.
    let letters = ((width / (LETTER * SMALL)) as usize).max(LETTERS);
    for line in lines {
        let gap = gap_m(exit, line);
        let text = tr!(
            "{}: gap {} at every station, {} net; {}",
            line.kind.legend(),
            format::cut_length(gap, system, line.kind.rounded()),
            area(gap * exit.width.value - exit.pipes_area.value),
            line.heads(system),
        );
        texts.push((SMALL, text));
        texts.extend(
            line.promise(system, letters)
                .into_iter()
                .map(|text| (SMALL, text)),
        );
    }
    texts.extend([
        (
            SMALL,
            tr!(
                "Net: less {} for pipes and brackets, which the gap makes up for.",
                area(exit.pipes_area.value)
            ),
        ),
        (
            SMALL,
            tr(
                "Measure the gap square to the flow. Begin with the first cut, then trim little by little. Estimates; \
                 flight test decides.",
            )
                .to_owned(),
        ),
    ]);
    let end = drawing.texts(at(-half, -deepest - 14.0), texts);
    drawing.check_scales(at(end.x, end.y - 2.0));
    Some(drawing)
}

/// A gauge to cut out: one step must pass between firewall and lip, the other must not.
#[must_use]
pub fn gauge(exit: &Exit, lines: &[Line], title: &Title, system: UnitSystem) -> Option<Drawing> {
    if exit.shape != ExitShape::LipGap {
        return None;
    }
    let of = |kind: LineKind| lines.iter().find(|line| line.kind == kind);
    let (first, last) = (of(LineKind::FirstCut)?, of(LineKind::NeverBeyond)?);
    let (go, no_go) = (MM * gap_m(exit, first), MM * gap_m(exit, last));
    let length = |mm: f64, kind: LineKind| format::cut_length(mm / MM, system, kind.rounded());
    let mut drawing = Drawing::default();
    drawing.outline(
        vec![
            at(0.0, 0.0),
            at(2.0 * STEP_MM, 0.0),
            at(2.0 * STEP_MM, no_go),
            at(STEP_MM, no_go),
            at(STEP_MM, go),
            at(0.0, go),
        ],
        Stroke::Full,
    );
    drawing.text(at(3.0, 0.5 * go), 4.0, tr("GO"));
    drawing.text(at(3.0, 0.5 * go - 6.0), 3.0, length(go, first.kind));
    drawing.text(at(STEP_MM + 3.0, 0.5 * go), 4.0, tr("NO GO"));
    drawing.text(
        at(STEP_MM + 3.0, 0.5 * go - 6.0),
        3.0,
        length(no_go, last.kind),
    );
    drawing.text(
        at(0.0, -6.0),
        3.0,
        tr!(
            "{}: {}. GO must pass between firewall and lip, NO GO must not.",
            title.design,
            exit.name
        ),
    );
    let mut texts = Vec::new();
    for line in [first, last] {
        texts.push((SMALL, format!("{}:", line.kind.legend())));
        texts.extend(
            line.promise(system, LETTERS)
                .into_iter()
                .map(|text| (SMALL, text)),
        );
    }
    let end = drawing.texts(at(0.0, -13.0), texts);
    drawing.check_scales(at(end.x, end.y - 2.0));
    Some(drawing)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::workshop::cut::drawing::Item;
    use coolpath_core::document::example;

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
    fn gaps_leave_the_net_area_beside_the_pipes() {
        let mut exit = example::design().installation.exits[0].clone();
        exit.shape = ExitShape::LipGap;
        let net = exit.closed_area_m2();
        for factor in [0.85, 1.15] {
            let gap = gap_m(&exit, &line(LineKind::Likely, factor));
            let own = gap * exit.width.value - exit.pipes_area.value;
            assert!((own / (factor * net) - 1.0).abs() < 1e-12);
        }
    }

    #[test]
    fn the_gauge_has_one_step_for_each_end() {
        let exit = example::design().installation.exits[0].clone();
        let lines = [
            line(LineKind::FirstCut, 0.85),
            line(LineKind::Likely, 1.0),
            line(LineKind::NeverBeyond, 1.15),
        ];
        let drawing = gauge(&exit, &lines, &Title::default(), UnitSystem::Metric).expect("a gauge");
        let Item::Path { points, .. } = &drawing.items[0] else {
            panic!("no outline");
        };
        assert!(points[2].y > points[5].y, "{points:?}");
        assert!((points[5].y - 1000.0 * gap_m(&exit, &lines[0])).abs() < 1e-9);
        let louvers = Exit {
            shape: ExitShape::Louvers,
            ..exit
        };
        assert_eq!(
            gauge(&louvers, &lines, &Title::default(), UnitSystem::Metric),
            None
        );
    }
}
