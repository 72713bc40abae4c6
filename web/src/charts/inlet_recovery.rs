//! What an inlet's lip leaves of the pressure before it, over how fast the opening draws the air.

use crate::charts::canvas::Role;
use crate::charts::figure::{Figure, Size};
use crate::charts::lines::{LineChart, Series};
use coolpath_core::answer::evaluate::Answer;
use coolpath_core::document::condition::Phase;
use coolpath_core::document::installation;
use coolpath_core::language::tr;
use coolpath_core::path::inlet_map::Incidence;

/// Share below which a loss is none \[-\].
const NONE: f64 = 0.005;
/// Largest velocity ratio that is drawn at least \[-\].
const FARTHEST: f64 = 1.3;
/// Steps of the lines.
const STEPS: u32 = 26;

/// Where a condition stands.
struct Point<'a> {
    condition: &'a str,
    ratio: f64,
    kept: f64,
}

/// Recovery over the velocity ratio of one inlet, with all conditions that have an answer.
///
/// # Arguments
/// * `place` - of the inlet
/// * `answers` - of the conditions, with what they are called
#[must_use]
pub fn figure<'a>(
    inlet: &installation::Inlet,
    place: usize,
    answers: impl Iterator<Item = &'a Answer>,
    size: Size,
) -> Figure {
    let points: Vec<Point<'_>> = answers.filter_map(|answer| point(answer, place)).collect();
    let straight = Incidence::default();
    let climbing = inlet.incidence(Phase::Climb);
    let farthest = points
        .iter()
        .fold(FARTHEST, |most, point| most.max(1.1 * point.ratio));
    let ratios: Vec<f64> = (0..=STEPS)
        .map(|step| farthest * f64::from(step) / f64::from(STEPS))
        .collect();
    let series = |name, role, of: &Incidence| Series {
        name,
        role,
        points: ratios
            .iter()
            .map(|ratio| {
                (
                    *ratio,
                    100.0 * of.recovery_at_throat(inlet.lip_loss(), *ratio),
                )
            })
            .collect(),
        band: Vec::new(),
    };
    let mut lines = vec![series(tr("straight"), Role::First, &straight)];
    let askew = climbing != straight;
    if askew {
        lines.push(series(tr("in a climb"), Role::Second, &climbing));
    }
    let topic = tr!("Pressure kept at the lip, {}", inlet.name);
    let chart = LineChart {
        label: topic.clone(),
        along: tr("speed in the opening over that of approach").to_owned(),
        up: tr("total pressure kept, %").to_owned(),
        shades: Vec::new(),
        series: lines,
        limits: Vec::new(),
        marks: vec![(1.0, tr("as fast as it comes"))],
        crosses: points
            .iter()
            .map(|at| (at.ratio, 100.0 * at.kept))
            .collect(),
    };
    Figure {
        title: title(&points),
        topic,
        sentence: if askew {
            tr(
                "Crosses: your conditions. Full line: the stream meets the inlet straight; dashed: at its angle in a climb.",
            )
        } else {
            tr(
                "Crosses: your conditions. Left of the mark air spills round the lip outside: that costs drag, not pressure.",
            )
        }
        .to_owned(),
        svg: chart.svg(size),
        columns: [tr("Condition"), tr("Speed ratio"), tr("Kept, %"), tr("Lost, %")]
            .map(str::to_owned)
            .to_vec(),
        readout: chart.readout(size, points.iter().map(|at| at.ratio).collect()),
        rows: points
            .iter()
            .map(|at| {
                vec![
                    at.condition.to_owned(),
                    format!("{:.2}", at.ratio),
                    format!("{:.1}", 100.0 * at.kept),
                    format!("{:.1}", 100.0 * (1.0 - at.kept)),
                ]
            })
            .collect(),
        source: tr(
            "Computed from your inputs. The loss of a thin lip is a momentum balance (Fradenburgh and Wyatt, \
             Theoretical Performance Characteristics of Sharp-Lip Inlets at Subsonic Speeds, 1953); what a rounded \
             lip tolerates is an estimate. What the place of the inlet costs comes before this.",
        )
            .to_owned(),
    }
}

fn point(answer: &Answer, place: usize) -> Option<Point<'_>> {
    let inlet = answer.cowl.inlets.as_slice().get(place)?;
    let approach = inlet.approach_speed();
    let speed = answer.state.inlets.get(place)?.max(0.0) / (inlet.density * inlet.area_m2);
    let ratio = speed / approach;
    ratio.is_finite().then(|| Point {
        condition: &answer.name,
        ratio,
        kept: inlet.incidence.recovery_at_throat(inlet.lip_loss, ratio),
    })
}

/// The answer: where the lip costs most.
fn title(points: &[Point<'_>]) -> String {
    let worst = points.iter().min_by(|a, b| a.kept.total_cmp(&b.kept));
    match worst {
        None => tr("No condition has an answer").to_owned(),
        Some(at) if 1.0 - at.kept < NONE => {
            tr("In no condition does the lip cost pressure").to_owned()
        }
        Some(at) => tr!(
            "The lip costs most in “{}”: {:.0} % of the pressure before the inlet",
            at.condition,
            100.0 * (1.0 - at.kept)
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::answer::evaluate::evaluate;
    use coolpath_core::document::design::Design;
    use coolpath_core::document::example;
    use coolpath_core::document::installation::Lip;

    fn drawn(design: &Design) -> Figure {
        let places = 0..design.conditions.len();
        let answers: Vec<Answer> = places
            .filter_map(|place| evaluate(design, place).ok())
            .collect();
        let size = Size {
            width: 600,
            height: 280,
        };
        figure(&design.installation.inlets[0], 0, answers.iter(), size)
    }

    #[test]
    fn every_condition_stands_on_the_line_and_the_title_names_where_the_lip_costs_most() {
        let mut design = example::design();
        let figure = drawn(&design);
        assert_eq!(figure.rows.len(), design.conditions.len());
        assert!(!figure.svg.contains("in a climb"));
        for inlet in &mut design.installation.inlets {
            inlet.lip = Lip::Thin;
            inlet.at_angle = true;
            inlet.climb_angle = 30.0;
        }
        let askew = drawn(&design);
        assert!(askew.svg.contains("in a climb"));
        let lost =
            |figure: &Figure, row: usize| figure.rows[row][3].parse::<f64>().expect("a number");
        let climb = 1;
        assert!(lost(&askew, climb) > 3.0 && lost(&figure, climb) < 0.1);
        let name = &design.conditions[climb].name;
        assert!(
            askew.title.contains(name.as_str()) || askew.title.contains("climb"),
            "{}",
            askew.title
        );
    }
}
