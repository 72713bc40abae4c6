//! What a cut line promises, and what may be done when it has been cut to: in words. Pure.

use crate::kit::format;
use coolpath_core::answer::evaluate::Limit;
use coolpath_core::answer::verdict::{Judgement, Verdict, worst};
use coolpath_core::document::condition::Phase;
use coolpath_core::language::tr;
use coolpath_core::units::typed::UnitSystem;

/// A condition at the size of a line.
#[derive(Debug, Clone, PartialEq)]
pub struct AtLine {
    /// Name of the condition.
    pub condition: String,
    /// What the aircraft does there.
    pub phase: Phase,
    /// Hottest head and oil at the gauge, K; `None` without an answer.
    pub temperatures_k: Option<(f64, f64)>,
    /// How it stands, or why there is no answer.
    pub outcome: Result<Judgement, String>,
}

/// What stands beside a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Advice {
    /// The worst condition's verdict; `None` if one has no answer.
    pub verdict: Option<Verdict>,
    /// What is predicted there, such as "Climb: hottest head 455 °F, oil 231 °F".
    pub predicted: String,
    /// The limit and which side of it, such as "head limit 435 °F, 20 °F over, chance ≈ 10 %".
    pub standing: String,
    /// What may be done.
    pub may: String,
}

impl Advice {
    /// What is predicted and on which side of the limit it lies, with the verdict.
    #[must_use]
    pub fn sentence(&self) -> String {
        let verdict = self
            .verdict
            .map_or_else(String::new, |verdict| format!(": {}", verdict.words()));
        format!(
            "{}; {}{verdict}.",
            self.predicted,
            self.standing.trim_end_matches('.')
        )
    }
}

/// The change that comes first where a quantity is over.
fn change(worse: Limit) -> &'static str {
    match worse {
        Limit::Head => tr("the openings, the seals or the inlets"),
        Limit::Oil => tr("the oil cooler or its duct"),
    }
}

fn may(judgement: &Judgement, ground_holds: bool) -> String {
    match judgement.verdict {
        Verdict::Inside => tr("Cut to this line: fly.").to_owned(),
        Verdict::TooClose => tr("Cut to this line: fly by the test card only.").to_owned(),
        Verdict::TooCold => {
            tr("Cut to this line: fly by the test card only, the oil warmed by shutter or tape.")
                .to_owned()
        }
        Verdict::Over if ground_holds => tr!(
            "Cut to this line: ground run only; change {} first.",
            change(judgement.worse)
        ),
        Verdict::Over => tr!(
            "Cut to this line: do not run it, the ground run is over its limit too; change {} first.",
            change(judgement.worse)
        ),
    }
}

fn is_over_on_ground(at: &AtLine) -> bool {
    let over = |judgement: &Judgement| judgement.verdict == Verdict::Over;
    at.phase == Phase::Ground && at.outcome.as_ref().is_ok_and(over)
}

/// What a line promises over all conditions; `None` without any.
#[must_use]
pub fn advice(conditions: &[AtLine], system: UnitSystem) -> Option<Advice> {
    let at = &conditions[worst(conditions.iter().map(|at| at.outcome.as_ref().ok()))?];
    let judgement = match &at.outcome {
        Ok(judgement) => judgement,
        Err(why) => {
            return Some(Advice {
                verdict: None,
                predicted: tr!("{}: no answer", at.condition),
                standing: why.clone(),
                may: tr("Do not cut to this line before this condition has an answer.").to_owned(),
            });
        }
    };
    let (head_k, oil_k) = at.temperatures_k?;
    let shown = |kelvin: f64| format::temperature(kelvin, system);
    let held = match judgement.worse {
        Limit::Head => judgement.limits.head,
        Limit::Oil => judgement.limits.oil,
    };
    let by = format::difference(judgement.margin_k, system);
    let (kind, limit) = (held.kind.words(), shown(held.kelvin));
    let standing = if judgement.against_least {
        if judgement.margin_k < 0.0 {
            tr!("oil {} under its least in flight", by)
        } else {
            tr!("oil {} above its least in flight", by)
        }
    } else {
        match (judgement.worse, judgement.margin_k < 0.0) {
            (Limit::Head, true) => tr!("head {} {}, {} over", kind, limit, by),
            (Limit::Head, false) => tr!("head {} {}, {} under", kind, limit, by),
            (Limit::Oil, true) => tr!("oil {} {}, {} over", kind, limit, by),
            (Limit::Oil, false) => tr!("oil {} {}, {} under", kind, limit, by),
        }
    };
    let chance = judgement.chance();
    let chance = chance.map_or_else(String::new, |chance| tr!(", chance {}", chance.words()));
    Some(Advice {
        verdict: Some(judgement.verdict),
        predicted: tr!(
            "{}: hottest head {}, oil {}",
            at.condition,
            shown(head_k),
            shown(oil_k)
        ),
        standing: format!("{standing}{chance}"),
        may: may(judgement, !conditions.iter().any(is_over_on_ground)),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::workshop::cut::inlet::{self, Title};
    use crate::workshop::cut::lines::{Hottest, Line, LineKind, Opening, scaled};
    use crate::workshop::cut::{dxf, exit, svg};
    use coolpath_core::document::design::Design;
    use coolpath_core::document::example;
    use coolpath_core::units::quantity::kelvin;

    fn line(design: Design, kind: LineKind, factor: f64) -> Line {
        let mut hottest = Hottest::new(design);
        while hottest.advance() {}
        hottest.line(kind, factor)
    }

    fn told(design: Design) -> Advice {
        line(design, LineKind::Likely, 1.0)
            .advice(UnitSystem::Customary)
            .expect("conditions")
    }

    /// Words beside each line on the templates of inlet, lip and gauge, in all their forms.
    fn written(design: &Design) -> Vec<String> {
        let lines = |opening: Opening| -> Vec<Line> {
            LineKind::ALL
                .into_iter()
                .zip([0.85, 1.0, 1.15])
                .map(|(kind, factor)| line(scaled(design, opening, factor), kind, factor))
                .collect()
        };
        let (inlets, exits) = (lines(Opening::Inlets), lines(Opening::Exit));
        let (title, system) = (Title::default(), UnitSystem::Customary);
        let installation = &design.installation;
        [
            inlet::template(&installation.inlets[0], &inlets, &title, false, system),
            exit::template(&installation.exits[0], &exits, &title, system),
            exit::gauge(&installation.exits[0], &exits, &title, system),
        ]
        .into_iter()
        .flat_map(|drawing| {
            let drawing = drawing.expect("a template");
            [svg::file(&drawing, "x"), dxf::file(&drawing)]
        })
        .collect()
    }

    #[test]
    fn every_template_says_of_each_line_what_may_be_done() {
        for text in written(&example::design()) {
            assert!(text.contains("ground run only"), "{text}");
            assert!(
                text.contains("head limit") && text.contains("over"),
                "{text}"
            );
            assert!(!text.contains("fly"), "{text}");
        }
        for text in written(&allowed(119.0)) {
            assert!(text.contains("Cut to this line: fly."), "{text}");
            assert!(!text.contains("ground run only"), "{text}");
        }
    }

    /// The example without its open ground run, its heads allowed so much more.
    fn allowed(more_k: f64) -> Design {
        let mut design = example::design();
        design.conditions.remove(0);
        let engine = &mut design.installation.engine;
        engine.head_limit = kelvin(engine.head_limit.value + more_k);
        engine.oil_limit = kelvin(430.0);
        design
    }

    #[test]
    fn a_line_over_the_limit_is_for_the_ground_alone_and_names_the_change() {
        // Not even the outermost line of the example may be flown; of a smaller exit even the ground run is more
        // likely over than not.
        for (factor, may) in [
            (0.85, "do not run it"),
            (1.0, "ground run only; change the openings"),
            (1.15, "ground run only; change the openings"),
        ] {
            let found = told(scaled(&example::design(), Opening::Exit, factor));
            assert_eq!(found.verdict, Some(Verdict::Over));
            assert!(
                found
                    .predicted
                    .starts_with("Take-off climb, hot day: hottest head")
            );
            assert!(found.standing.contains("over"), "{}", found.standing);
            assert!(found.may.contains(may), "{}", found.may);
            assert!(!found.may.contains("fly"));
        }
    }

    #[test]
    fn a_line_that_is_inside_says_fly_and_one_that_is_close_the_test_card() {
        let inside = told(allowed(80.0));
        assert_eq!(inside.verdict, Some(Verdict::Inside));
        assert_eq!(inside.may, "Cut to this line: fly.");
        assert!(inside.standing.contains("under") && inside.standing.contains("chance over 95 %"));
        let close = told(allowed(28.0));
        assert_eq!(close.verdict, Some(Verdict::TooClose), "{close:?}");
        assert!(close.may.contains("test card only"));
    }

    #[test]
    fn a_condition_without_an_answer_is_never_passed_over() {
        let mut design = allowed(80.0);
        design.installation.airframe.propeller_share = 0.0;
        design.conditions[2].airspeed.value = 0.0;
        let found = told(design);
        assert_eq!(found.verdict, None);
        assert!(
            found.predicted.ends_with("no answer"),
            "{}",
            found.predicted
        );
        assert!(!found.may.contains("fly") && !found.standing.is_empty());
    }
}
