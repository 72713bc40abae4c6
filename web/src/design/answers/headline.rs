//! The worst conditions, named in a sentence each.

use crate::kit::format;
use crate::kit::page::Outcome;
use coolpath_core::answer::evaluate::Answer;
use coolpath_core::answer::solved::ShutterState;
use coolpath_core::language::tr;
use coolpath_core::units::typed::{Dimension, UnitSystem};
use std::rc::Rc;

/// The answer with the smallest margin.
fn worst(answers: &[Outcome], margin: fn(&Answer) -> f64) -> Option<&Rc<Answer>> {
    answers
        .iter()
        .filter_map(|outcome| outcome.as_ref().ok())
        .min_by(|a, b| margin(a).total_cmp(&margin(b)))
}

/// A sign for what is over; what is under may still be too close to call, and has none.
fn sign(margin_k: f64) -> &'static str {
    if margin_k >= 0.0 { "" } else { "✗ " }
}

/// Sentences on heads and on oil, and whether the best estimate is under the limit.
#[must_use]
pub fn sentences(answers: &[Outcome], system: UnitSystem) -> Vec<(bool, String)> {
    let mut list = Vec::new();
    if let Some(answer) = worst(answers, |answer| answer.head_margin.value) {
        let margin = answer.head_margin.value;
        list.push((
            margin >= 0.0,
            tr!(
                "{}Hottest CHT {} in “{}”, {}. {}",
                sign(margin),
                format::temperature(answer.head_hottest.value, system),
                answer.name,
                format::margin(margin, answer.limits.head.kind, system),
                reason_for_heads(answer),
            ),
        ));
    }
    if let Some(answer) = worst(answers, |answer| answer.oil_margin.value) {
        let margin = answer.oil_margin.value;
        list.push((
            margin >= 0.0,
            tr!(
                "{}Oil temperature {} in “{}”, {}. {}",
                sign(margin),
                format::temperature(answer.oil.value, system),
                answer.name,
                format::margin(margin, answer.limits.oil.kind, system),
                reason_for_oil(answer, system),
            ),
        ));
    }
    list
}

/// What uses up the pressure where heads are worst.
fn reason_for_heads(answer: &Answer) -> String {
    let used = answer.pressure_used_pa();
    let whole: f64 = used.iter().sum();
    if whole <= 0.0 {
        return tr("Nothing drives the air there.").to_owned();
    }
    let [at_inlet, across, at_exit] = used.map(|pressure| (100.0 * pressure / whole).round());
    tr!(
        "Pressure used: inlets {} %, cylinders {} %, exit {} %.",
        at_inlet,
        across,
        at_exit
    )
}

/// Where the oil's heat goes where oil is worst.
fn reason_for_oil(answer: &Answer, system: UnitSystem) -> String {
    let quantity = |si: f64, dimension| format::quantity(si, dimension, system, 2);
    let into = answer.oil_heat.value;
    let share = if into > 0.0 {
        (100.0 * answer.cooler_heat.value / into).round()
    } else {
        0.0
    };
    let shutter = match answer.shutter {
        ShutterState::OpenTooHot { .. } => tr(", its shutter fully open"),
        ShutterState::ClosedTooCold { .. } => tr(", its shutter shut"),
        _ => "",
    };
    tr!(
        "Of the {} that go into the oil the cooler takes {} %, with {} of air{}.",
        quantity(into, Dimension::Heat),
        share,
        quantity(answer.cooler_flow.value, Dimension::MassFlow),
        shutter,
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::answer::evaluate::evaluate_all;
    use coolpath_core::document::example;

    fn outcomes() -> Vec<Outcome> {
        evaluate_all(&example::design())
            .into_iter()
            .map(|found| found.map(Rc::new))
            .collect()
    }

    #[test]
    fn the_worst_conditions_are_named_and_the_shares_add_up() {
        let list = sentences(&outcomes(), UnitSystem::Customary);
        assert_eq!(list.len(), 2);
        let (inside, heads) = &list[0];
        assert!(!inside && heads.contains("Take-off climb"), "{heads}");
        let shares: f64 = heads
            .split(" %")
            .filter_map(|piece| piece.rsplit(' ').next()?.parse::<f64>().ok())
            .sum();
        assert!((shares - 100.0).abs() <= 1.5, "{heads}");
    }

    #[test]
    fn without_answers_nothing_is_claimed() {
        assert!(sentences(&[], UnitSystem::Metric).is_empty());
    }
}
