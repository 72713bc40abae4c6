//! The line that stays: the worst condition, its odds, what helps most, and the three decisions.

use crate::design::answers::Outcome;
use crate::design::bench;
use crate::kit::after_pause::use_after_pause;
use crate::kit::format;
use crate::kit::verdict;
use crate::kit::verdict::Verdict;
use coolpath_core::decide::size;
use coolpath_core::decide::size::{Demand, Wanted};
use coolpath_core::document::design::Design;
use coolpath_core::units::typed::UnitSystem;
use std::rc::Rc;
use yew::prelude::*;

/// What the line shows.
#[derive(Properties, Clone)]
pub struct Props {
    /// Design that the answers belong to.
    pub design: Rc<Design>,
    /// Answers in the order of the conditions.
    pub answers: Rc<Vec<Outcome>>,
    /// Verdicts on them.
    pub verdicts: Rc<Vec<Option<Verdict>>>,
    /// Units.
    pub system: UnitSystem,
}

impl PartialEq for Props {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.answers, &other.answers)
            && Rc::ptr_eq(&self.verdicts, &other.verdicts)
            && self.system == other.system
    }
}

/// A design by its identity, so that what is slow follows once per design.
#[derive(Clone)]
struct Same(Rc<Design>);

impl PartialEq for Same {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}

/// The line.
#[function_component]
pub fn VerdictBar(props: &Props) -> Html {
    let Props {
        design,
        answers,
        verdicts,
        system,
    } = props;
    let settled = use_after_pause(&Same(design.clone()));
    let help = use_memo((settled.clone(), *system), |(design, system)| {
        biggest_help(&design.0, *system)
    });
    let at = verdict::worst(verdicts);
    let name = at
        .and_then(|at| design.conditions.get(at))
        .map_or("", |condition| condition.name.as_str());
    let found = at.and_then(|at| verdicts[at].clone());
    let state = found
        .as_ref()
        .map_or(verdict::State::NoAnswer, |found| found.state);
    let title = match (&found, at.and_then(|at| answers.get(at))) {
        (Some(found), _) => {
            format!(" in “{name}”: {}", verdict::against_limit(found, *system))
        }
        (None, Some(Err(error))) => format!(" for “{name}”: {error}"),
        _ => String::new(),
    };
    let short = match &found {
        Some(found) => format!(
            ": {} {}",
            verdict::quantity(found.worse),
            format::temperature(found.value_k, *system)
        ),
        None => format!(": {name}"),
    };
    let is_current = Rc::ptr_eq(&settled.0, design);
    html! {
        <section class={classes!("verdict", state.class())} aria-label="Verdict">
            <span class="verdict-mark">{ verdict::mark(state, 34) }</span>
            <div class="verdict-words" aria-live="polite">
                <h2 class="long"><span class="state-words">{ state.words() }</span>{ title }</h2>
                <h2 class="short" aria-hidden="true"><span class="state-words">{ state.words() }</span>{ short }</h2>
                <p>{ odds(found.as_ref()) }
                    <span class="help">
                    { match (&*help, is_current) {
                        (Some(help), true) => html! { <>{ "Biggest help: " }<strong>{ help.clone() }</strong></> },
                        _ => Html::default(),
                    } }
                    </span>
                </p>
            </div>
            <nav class="jobs" aria-label="Decisions">{ bench::jobs() }</nav>
        </section>
    }
}

fn odds(found: Option<&Verdict>) -> Html {
    let Some(chance) = found.and_then(|found| found.chance) else {
        return html! { <span class="odds-words">{ "Odds that both limits hold: working …" }</span> };
    };
    html! {
        <span class="odds-words">
            <span class="long">{ "Odds that both limits hold " }</span>
            <span class="short" aria-hidden="true">{ "odds that limits hold " }</span>
            { verdict::odds_boxes(chance) }
            <strong>{ format!("≈ {}", verdict::percent(chance)) }</strong>
            <span class="odds-said">{ format!(", {} ", verdict::odds(chance)) }</span>
        </span>
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
            best.change,
            format::difference(best.gain, system)
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::document::example;

    #[test]
    fn the_example_is_told_what_helps_most() {
        let help = biggest_help(&example::design(), UnitSystem::Customary).expect("a remedy");
        assert!(help.contains(", −") && help.ends_with("°F"), "{help}");
    }
}
