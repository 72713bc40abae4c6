//! What practitioners say, each with its own condition, beside what this design has.

use crate::kit::format;
use coolpath_core::answer::evaluate::Answer;
use coolpath_core::document::condition::Phase;
use coolpath_core::document::design::Design;
use coolpath_core::language::tr;
use coolpath_core::units::si::{degf, foot};
use coolpath_core::units::typed::{Dimension, UnitSystem};
use std::rc::Rc;

/// A common-practice figure beside the design's own.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// The rule and the condition it is meant for.
    pub rule: String,
    /// The design's own figure.
    pub own: String,
}

/// The lines for a design and its answers.
#[must_use]
pub fn lines(design: &Design, answers: &[Rc<Answer>], system: UnitSystem) -> Vec<Line> {
    let installation = &design.installation;
    let first = |phase: Phase| answers.iter().find(|answer| answer.phase == phase);
    let inlet_m2: f64 = installation
        .inlets
        .iter()
        .map(|inlet| inlet.area_m2())
        .sum();
    let horsepower = Dimension::Power.units()[0].from_si(installation.engine.rated_power.value);
    let square_inches = Dimension::Area.units()[0].from_si(inlet_m2);
    let mut lines = vec![Line {
        rule: tr("Inlet area per rated power: 0.35 in² per hp, for a fixed-pitch climb").to_owned(),
        own: tr!("{:.2} in² per hp", square_inches / horsepower),
    }];
    if let Some(climb) = first(Phase::Climb) {
        lines.push(Line {
            rule: tr("Exit over inlet area, in climb: 1.0 to 1.4").to_owned(),
            own: tr!("{:.2} in “{}”", climb.area_ratio, climb.name),
        });
        let six = installation.engine.cylinders > 4;
        let (rule, low, high) = if six {
            (tr("six"), 6.0, 8.0)
        } else {
            (tr("four"), 5.0, 6.0)
        };
        let unit = Dimension::Pressure;
        let inch = unit.units()[0];
        lines.push(Line {
            rule: tr!(
                "Pressure across the baffles of {} cylinders, in climb: {} to {}",
                rule,
                format::quantity(inch.to_si(low), unit, system, 2),
                format::quantity(inch.to_si(high), unit, system, 2)
            ),
            own: tr!(
                "{} in “{}”",
                format::quantity(climb.baffle_drop.value, unit, system, 2),
                climb.name
            ),
        });
        let cubic_feet_per_minute =
            climb.inlet_flow.value / climb.cowl.stream.density / foot(1.0).powi(3) * 60.0;
        lines.push(Line {
            rule: tr(
                "20 cubic feet of air a minute per hp: what these inlets would take in if the \
                   air did not slow down before them (velocity ratio 1)",
            )
            .to_owned(),
            own: tr!(
                "{:.0} in “{}”",
                cubic_feet_per_minute / horsepower,
                climb.name
            ),
        });
    }
    if let Some(cruise) = first(Phase::Cruise) {
        lines.push(Line {
            rule: tr(
                "Inlet velocity over airspeed, in cruise: 0.3 to 0.5 (a hot climb on the same \
                   inlets has 0.7 to 0.9)",
            )
            .to_owned(),
            own: tr!(
                "{} in “{}”",
                format::ratio(cruise.inlet_velocity_ratio),
                cruise.name
            ),
        });
        lines.push(Line {
            rule: tr!(
                "Oil temperature: {} to {}",
                format::temperature(degf(180.0), system),
                format::temperature(degf(200.0), system)
            ),
            own: tr!(
                "{} in “{}”",
                format::temperature(cruise.oil.value, system),
                cruise.name
            ),
        });
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::answer::evaluate::evaluate_all;
    use coolpath_core::document::example;

    #[test]
    fn every_rule_names_its_condition_and_stands_beside_a_number() {
        let design = example::design();
        let answers: Vec<Rc<Answer>> = evaluate_all(&design)
            .into_iter()
            .flatten()
            .map(Rc::new)
            .collect();
        let lines = lines(&design, &answers, UnitSystem::Customary);
        assert_eq!(lines.len(), 6);
        assert!(
            lines
                .iter()
                .all(|line| line.own.bytes().any(|b| b.is_ascii_digit()))
        );
        // 2 (6.25 · 3.5 − 0.858 · 0.75²) / 150 = 0.285
        assert!(lines[0].own.starts_with("0.29"), "{}", lines[0].own);
    }
}
