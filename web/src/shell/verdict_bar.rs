//! The line that stays: the worst condition, its odds, what helps most, and the three decisions.

use crate::design::bench;
use crate::kit::format;
use crate::kit::later::use_after_pause;
use crate::kit::page::use_page;
use crate::kit::verdict;
use crate::kit::verdict::Verdict;
use coolpath_core::answer::solved::EvaluateError;
use coolpath_core::answer::verdict::odds_about;
use coolpath_core::decide::size;
use coolpath_core::decide::size::{Demand, Wanted};
use coolpath_core::document::design::Design;
use coolpath_core::language::tr;
use coolpath_core::units::typed::UnitSystem;
use yew::prelude::*;

/// The line.
#[function_component]
pub fn VerdictBar() -> Html {
    let (design, answers, bands, verdicts, system) = use_page(|page| {
        (
            page.design.clone(),
            page.answers.clone(),
            page.bands.clone(),
            page.verdicts.clone(),
            page.system(),
        )
    });
    let settled = use_after_pause(&design);
    let help = use_memo((settled.clone(), system), |(design, system)| {
        biggest_help(design, *system)
    });
    let at = verdict::worst(&verdicts);
    let name = at.map_or("", |at| design.condition_name(at));
    let found = at.and_then(|at| verdicts[at].clone());
    let state = found
        .as_ref()
        .map_or(verdict::State::NoAnswer, |found| found.state);
    let state_words = found.as_ref().map_or(state.words(), Verdict::words);
    let title = match (&found, at.and_then(|at| answers.get(at))) {
        (Some(found), _) => {
            tr!(" in “{}”: {}", name, verdict::against_limit(found, system))
        }
        (None, Some(Err(error))) => tr!(" for “{}”: {}", name, error),
        _ => String::new(),
    };
    let short = match &found {
        Some(found) => format!(
            ": {} {}",
            verdict::quantity(found.judgement.worse),
            format::temperature(found.value_k, system)
        ),
        None => format!(": {name}"),
    };
    let no_bands = at.and_then(|at| bands.get(at)?.as_ref().err());
    let is_answered = at.is_none_or(|at| answers.get(at).is_none_or(Result::is_ok));
    let is_current = settled == design;
    let is_cold = found
        .as_ref()
        .is_some_and(|found| found.judgement.against_least);
    let help = if is_cold {
        // What cools is no help there.
        Some(what_warms(&design).to_owned())
    } else {
        (*help).clone()
    };
    html! {
        <section class={classes!("verdict", state.class())} aria-label={tr("Verdict")}>
            <span class="verdict-mark">{ verdict::mark(state, 34) }</span>
            <div class="verdict-words" aria-live="polite">
                <h2 class="long"><span class="state-words">{ state_words }</span>{ title }</h2>
                <h2 class="short" aria-hidden="true"><span class="state-words">{ state_words }</span>{ short }</h2>
                <p>{ odds(found.as_ref(), no_bands, is_answered) }
                    <span class="help">
                    { match (help, is_current) {
                        (Some(help), true) => html! { <>{ tr("Biggest help: ") }<strong>{ help }</strong></> },
                        _ => Html::default(),
                    } }
                    </span>
                </p>
            </div>
            <nav class="jobs" aria-label={tr("Decisions")}>{ bench::jobs() }</nav>
        </section>
    }
}

/// The odds, or why there are none: bands are still worked out, or have no answer.
fn odds(found: Option<&Verdict>, no_bands: Option<&EvaluateError>, is_answered: bool) -> Html {
    let Some(chance) = found.and_then(Verdict::chance) else {
        return html! { <span class="odds-words">{ no_odds(no_bands, is_answered) }</span> };
    };
    let is_cold = found.is_some_and(|found| found.judgement.against_least);
    let (long, short) = if is_cold {
        (
            tr("Odds that the oil is warm enough "),
            tr("odds of warm oil "),
        )
    } else {
        (
            tr("Odds that both limits hold "),
            tr("odds that limits hold "),
        )
    };
    html! {
        <span class="odds-words">
            <span class="long">{ long }</span>
            <span class="short" aria-hidden="true">{ short }</span>
            { verdict::odds_boxes(chance) }
            <strong>{ odds_about(chance) }</strong>
            <span class="odds-said">{ format!(", {} ", verdict::odds(chance)) }</span>
        </span>
    }
}

fn no_odds(no_bands: Option<&EvaluateError>, is_answered: bool) -> String {
    match no_bands {
        None if !is_answered => {
            tr("Odds that both limits hold: none without an answer.").to_owned()
        }
        None => tr("Odds that both limits hold: working …").to_owned(),
        Some(error) => tr!("Odds that both limits hold: not known. {}", error),
    }
}

/// What mends oil that is too cold.
fn what_warms(design: &Design) -> &'static str {
    if design.installation.shutter.fitted {
        tr("tape on part of the cooler")
    } else {
        tr("tape or a shutter on the cooler")
    }
}

/// The one change that helps the worst limit most, with what it gains.
fn biggest_help(design: &Design, system: UnitSystem) -> Option<String> {
    design.check().ok()?;
    let best = size::remedies(design, &Demand::nominal(design))
        .ok()?
        .into_iter()
        .find(|remedy| remedy.gain > 0.0)?;
    matches!(best.margin.wanted, Wanted::Limit(_)).then(|| {
        format!(
            "{}, −{}",
            tr(&best.change),
            format::difference(best.gain, system)
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::document::example;
    use coolpath_core::path::report::SolveError;

    #[test]
    fn odds_that_nobody_works_out_any_more_are_not_told_as_under_way() {
        assert!(no_odds(None, true).ends_with("working …"));
        assert!(no_odds(None, false).ends_with("none without an answer."));
        let gave_up = EvaluateError::Solve(SolveError::GaveUp { states: 9 });
        let said = no_odds(Some(&gave_up), true);
        assert!(said.contains("not known. The solver gave up"), "{said}");
    }

    #[test]
    fn the_example_is_told_what_helps_most() {
        let help = biggest_help(&example::design(), UnitSystem::Customary).expect("a remedy");
        assert!(help.contains(", −") && help.ends_with("°F"), "{help}");
    }
}
