//! "Before and after": two sets of readings brought to one condition.

use crate::kit::controls::option_field;
use crate::kit::format;
use coolpath_core::document::design::Design;
use coolpath_core::prove::before_after::{BeforeAfter, Compared, Difference};
use coolpath_core::prove::calibrate::Scatter;
use coolpath_core::units::typed::{Dimension, UnitSystem};
use std::rc::Rc;
use std::time::Duration;
use yew::platform::{spawn_local, time::sleep};
use yew::prelude::*;

/// What the panel needs.
#[derive(Properties, Clone)]
pub struct Props {
    /// Design.
    pub design: Rc<Design>,
    /// Condition that is shown; both sets are brought to it.
    pub place: usize,
    /// Units.
    pub system: UnitSystem,
}

impl PartialEq for Props {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.design, &other.design)
            && self.place == other.place
            && self.system == other.system
    }
}

#[derive(Clone)]
enum Shown {
    Nothing,
    Fault(String),
    Working(usize, usize),
    Done(Rc<Vec<Difference>>, Rc<Design>, [String; 2], String),
}

/// Names of the sets that the readings belong to.
fn sets(design: &Design) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for reading in &design.readings {
        let name = reading.set.trim();
        if !name.is_empty() && !names.iter().any(|other| other == name) {
            names.push(name.to_owned());
        }
    }
    names
}

/// The panel.
#[function_component]
pub fn BeforeAfterPanel(props: &Props) -> Html {
    let names = sets(&props.design);
    let chosen = use_state(|| [0_usize, 1_usize]);
    let shown = use_state(|| Shown::Nothing);
    let running = use_mut_ref(|| 0_u64);
    let condition = props.design.conditions.get(props.place).cloned();
    let pair = chosen.map(|at| names.get(at).cloned().unwrap_or_default());
    let start = {
        let (shown, running, design, pair, condition) = (
            shown.clone(),
            running.clone(),
            props.design.clone(),
            pair.clone(),
            condition.clone(),
        );
        Callback::from(move |_: MouseEvent| {
            let Some(condition) = condition.clone() else {
                return;
            };
            let begun = BeforeAfter::new(
                &design,
                [&pair[0], &pair[1]],
                &condition,
                Scatter::default(),
            );
            let mut comparison = match begun {
                Ok(comparison) => comparison,
                Err(error) => return shown.set(Shown::Fault(error.to_string())),
            };
            *running.borrow_mut() += 1;
            let mine = *running.borrow();
            let (shown, running, design, pair) =
                (shown.clone(), running.clone(), design.clone(), pair.clone());
            spawn_local(async move {
                let mut told = 0;
                loop {
                    let (done, all) = comparison.progress();
                    if done == 0 || done >= told + all / 10 {
                        told = done;
                        shown.set(Shown::Working(done, all));
                    }
                    sleep(Duration::ZERO).await;
                    if *running.borrow() != mine {
                        return;
                    }
                    if !comparison.advance() {
                        break;
                    }
                }
                let differences = Rc::new(comparison.differences());
                shown.set(Shown::Done(differences, design, pair, condition.name));
            });
        })
    };
    let select = |id: &'static str, label: &'static str, which: usize| {
        let set = chosen.clone();
        option_field(id, label, names.clone(), chosen[which], move |at| {
            let mut next = *set;
            next[which] = at;
            set.set(next);
        })
    };
    html! {
        <details class="section" id="before-after">
            <summary>{ "Before and after a change" }</summary>
            <p class="hint">{ "Two sets of readings, flown on different days, brought by the model to one condition. The design must be the same for both: do not type the change in between. Give each reading its set in the table of readings, and change one thing at a time." }</p>
            if names.len() < 2 {
                <p>{ "Give the readings two sets first, such as “old seals” and “new seals”." }</p>
            } else {
                <div class="fields">
                    { select("set-before", "Before", 0) }
                    { select("set-after", "After", 1) }
                </div>
                <div class="buttons"><button type="button" onclick={start} disabled={pair[0] == pair[1]}>{ format!("Compare at “{}”", condition.as_ref().map_or("", |c| c.name.as_str())) }</button></div>
            }
            <div aria-live="polite">
                { match &*shown {
                    Shown::Nothing => Html::default(),
                    Shown::Fault(fault) => html! { <p class="fault" role="alert">{ fault }</p> },
                    Shown::Working(done, all) => html! { <p><progress value={done.to_string()} max={all.to_string()} aria-label="Comparing" /></p> },
                    Shown::Done(differences, of, pair, at) => html! {
                        <>
                            if **of != *props.design { <p class="stale">{ "The design or its readings have changed since. Compare again." }</p> }
                            { for differences.iter().map(|difference| html! { <p class={if difference.is_clear() { "headline" } else { "hint" }}>{ sentence(difference, pair, at, props.system) }</p> }) }
                        </>
                    },
                } }
            </div>
        </details>
    }
}

/// What a difference says.
#[must_use]
pub fn sentence(
    difference: &Difference,
    pair: &[String; 2],
    at: &str,
    system: UnitSystem,
) -> String {
    let (what, dimension, shown): (&str, Dimension, fn(f64, UnitSystem) -> String) =
        match difference.compared {
            Compared::HeadMean => (
                "mean of the heads",
                Dimension::TemperatureDifference,
                format::degrees,
            ),
            Compared::Oil => ("oil", Dimension::TemperatureDifference, format::degrees),
            Compared::BaffleDrop => (
                "Δp across the baffles",
                Dimension::Pressure,
                |si, system| format::quantity(si, Dimension::Pressure, system, 2),
            ),
        };
    let unit = dimension.shown(system);
    let number = |si: f64| {
        let value = unit.from_si(si);
        if dimension == Dimension::Pressure {
            coolpath_core::units::typed::rounded_text(value, 2)
        } else {
            format!("{value:.0}")
        }
    };
    let change = difference.change();
    let sign = if change < 0.0 { "−" } else { "+" };
    let [before, after] = pair;
    let judged = if difference.is_clear() {
        ""
    } else {
        " Not clearly a change: it is smaller than what the readings and assumptions leave open."
    };
    format!(
        "“{after}” against “{before}”, {what} at “{at}”: {sign}{} ± {} {} ({} to {}).{judged}",
        number(change.abs()),
        number(difference.band.wider()),
        unit.symbol,
        shown(difference.before, system),
        shown(difference.after, system),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::answer::band::Band;

    #[test]
    fn a_clear_change_is_told_with_its_uncertainty_and_an_unclear_one_as_such() {
        let difference = |after: f64| Difference {
            compared: Compared::HeadMean,
            before: 480.0,
            after,
            band: Band {
                below: 2.5,
                above: 2.5,
            },
        };
        let pair = ["old seals".to_owned(), "new seals".to_owned()];
        let said = sentence(&difference(474.0), &pair, "Climb", UnitSystem::Customary);
        assert!(
            said.contains("“new seals” against “old seals”") && said.contains("−11 ± 4 °F"),
            "{said}"
        );
        let said = sentence(&difference(479.0), &pair, "Climb", UnitSystem::Metric);
        assert!(said.contains("Not clearly a change"), "{said}");
    }
}
