//! "Calibrate": a few assumptions found from the readings, shown, taken over, taken back.

use crate::charts::view::FigureView;
use crate::charts::{Size, agreement};
use crate::kit::controls::{on_text, on_tick, text_field};
use crate::kit::format;
use crate::state::Action;
use coolpath_core::document::design::Design;
use coolpath_core::prove::calibrate::{
    Calibration, Channel, Fitted, Likely, Outcome, Parameter, Predicted, Scatter, usual_choice,
};
use coolpath_core::units::typed;
use coolpath_core::units::typed::{Dimension, UnitSystem, rounded_text};
use std::rc::Rc;
use std::time::Duration;
use yew::platform::{spawn_local, time::sleep};
use yew::prelude::*;

/// What the panel needs.
#[derive(Properties, Clone)]
pub struct Props {
    /// Design.
    pub design: Rc<Design>,
    /// Units.
    pub system: UnitSystem,
    /// Room for the chart, CSS pixels.
    pub width: u32,
    /// Takes the values over.
    pub dispatch: Callback<Action>,
}

impl PartialEq for Props {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.design, &other.design)
            && self.system == other.system
            && self.width == other.width
    }
}

/// Solutions in one step.
const STEP: usize = 60;

#[derive(Clone)]
enum Shown {
    Nothing,
    Fault(String),
    Working(String),
    Stopped,
    Done(Rc<Outcome>, Rc<Design>),
}

/// The panel.
#[function_component]
pub fn CalibratePanel(props: &Props) -> Html {
    let chosen = use_state(|| None::<Vec<Parameter>>);
    let scatter = use_state(|| [String::new(), String::new(), String::new()]);
    let shown = use_state(|| Shown::Nothing);
    let running = use_mut_ref(|| 0_u64);
    let free = (*chosen)
        .clone()
        .unwrap_or_else(|| usual_choice(&props.design));
    let scattered = scatter_of(&scatter, props.system);
    let start = {
        let (shown, running, design) = (shown.clone(), running.clone(), props.design.clone());
        let (free, scattered) = (free.clone(), scattered.clone());
        Callback::from(move |_: MouseEvent| {
            let begun = scattered.clone().and_then(|scatter| {
                Calibration::new(&design, &free, scatter).map_err(|error| error.to_string())
            });
            let mut fit = match begun {
                Ok(fit) => fit,
                Err(fault) => return shown.set(Shown::Fault(fault)),
            };
            *running.borrow_mut() += 1;
            let mine = *running.borrow();
            let (shown, running, design) = (shown.clone(), running.clone(), design.clone());
            spawn_local(async move {
                let mut told = String::new();
                loop {
                    let said = progress(&fit);
                    if said != told {
                        shown.set(Shown::Working(said.clone()));
                        told = said;
                    }
                    sleep(Duration::ZERO).await;
                    if *running.borrow() != mine {
                        return;
                    }
                    if !fit.advance(STEP) {
                        break;
                    }
                }
                shown.set(match fit.outcome() {
                    Some(Ok(outcome)) => Shown::Done(Rc::new(outcome), design),
                    Some(Err(error)) => Shown::Fault(error.to_string()),
                    None => Shown::Stopped,
                });
            });
        })
    };
    let stop = {
        let (shown, running) = (shown.clone(), running.clone());
        Callback::from(move |_: MouseEvent| {
            *running.borrow_mut() += 1;
            shown.set(Shown::Stopped);
        })
    };
    let none = props.design.readings.is_empty();
    html! {
        <details class="section" id="calibrate">
            <summary>{ "Fit the model to the readings" }</summary>
            <p class="hint">{ "Finds the values with which the model fits your readings best. It starts from typical values and moves only as far as the readings justify. Stretches of flight are followed with their time constants. Nothing changes until you take the values over." }</p>
            if none {
                <p>{ "There are no readings yet: type some, or add stretches of a log." }</p>
            } else {
                { choice(&props.design, &chosen, &free) }
                { scatter_fields(&scatter, props.system) }
                if let Err(fault) = &scattered {
                    <p class="fault" role="alert">{ fault }</p>
                }
                <div class="buttons"><button type="button" onclick={start} disabled={free.is_empty()}>{ "Find the values" }</button></div>
            }
            <div aria-live="polite">
                { match &*shown {
                    Shown::Nothing => Html::default(),
                    Shown::Fault(fault) => html! { <p class="fault" role="alert">{ fault }</p> },
                    Shown::Working(said) => html! {
                        <p>{ said }{ " " }<button type="button" class="quiet" onclick={stop}>{ "Stop" }</button></p>
                    },
                    Shown::Stopped => html! { <p>{ "Stopped. Nothing was changed." }</p> },
                    Shown::Done(outcome, of) => found(outcome, of, props),
                } }
            </div>
        </details>
    }
}

fn progress(fit: &Calibration) -> String {
    let (tried, considered, all) = fit.progress();
    if fit.fitted().is_none() {
        format!("Fitting: {tried} sets of values tried.")
    } else {
        // In tenths, so that the page is not drawn anew at every step.
        format!(
            "Weighing the other assumptions: {} %.",
            (10 * considered / all.max(1)) * 10
        )
    }
}

fn choice(
    design: &Design,
    chosen: &UseStateHandle<Option<Vec<Parameter>>>,
    free: &[Parameter],
) -> Html {
    html! {
        <fieldset>
            <legend>{ "Values to be found" }</legend>
            { for Parameter::ALL.into_iter().map(|parameter| {
                let set = chosen.clone();
                let own = free.to_vec();
                let on_change = on_tick(move |ticked| {
                    let mut next = own.clone();
                    next.retain(|other| *other != parameter);
                    if ticked {
                        next.push(parameter);
                    }
                    next.sort_unstable();
                    set.set(Some(next));
                });
                let fixed = parameter.prior(design).is_none();
                html! {
                    <label class="tick">
                        <input type="checkbox" checked={free.contains(&parameter) && !fixed} disabled={fixed} onchange={on_change} />
                        { parameter.name() }
                        if fixed { { " (measured, or from a chart: it stands)" } }
                    </label>
                }
            }) }
        </fieldset>
    }
}

const SCATTERS: [(&str, Dimension); 3] = [
    ("Heads may be off by", Dimension::TemperatureDifference),
    ("Oil may be off by", Dimension::TemperatureDifference),
    ("Pressures may be off by", Dimension::Pressure),
];

/// What was typed for the scatter of the readings, or the usual.
fn scatter_of(texts: &[String; 3], system: UnitSystem) -> Result<Scatter, String> {
    let usual = Scatter::default();
    let mut values = [usual.head_k, usual.oil_k, usual.pressure_pa];
    for ((value, text), (label, dimension)) in values.iter_mut().zip(texts).zip(SCATTERS) {
        if text.trim().is_empty() {
            continue;
        }
        *value = typed::parse(text, dimension, system)
            .ok()
            .filter(|typed| *typed > 0.01 * *value && *typed < 100.0 * *value)
            .ok_or_else(|| format!("“{label}” must be a number above zero"))?;
    }
    let [head_k, oil_k, pressure_pa] = values;
    Ok(Scatter {
        head_k,
        oil_k,
        pressure_pa,
        ..Scatter::default()
    })
}

fn scatter_fields(texts: &UseStateHandle<[String; 3]>, system: UnitSystem) -> Html {
    let usual = Scatter::default();
    let values = [usual.head_k, usual.oil_k, usual.pressure_pa];
    html! {
        <div class="fields">
            { for SCATTERS.into_iter().zip(values).enumerate().map(|(at, ((label, dimension), value))| {
                let set = texts.clone();
                let heard = on_text(move |text| {
                    let mut next = (*set).clone();
                    next[at] = text;
                    set.set(next);
                });
                let unit = dimension.shown(system);
                let usual = rounded_text(unit.from_si(value), 2);
                text_field(format!("scatter-{at}"), format!("{label} ({})", unit.symbol), &texts[at], &usual, heard)
            }) }
            <p class="hint">{ "Instruments and model together, from one reading to the next (one standard deviation; the values shown are estimates, no source read). What it says below is only as good as these." }</p>
        </div>
    }
}

/// What was found, and what may be done with it.
fn found(outcome: &Rc<Outcome>, of: &Rc<Design>, props: &Props) -> Html {
    let stale = **of != *props.design;
    let take = {
        let (outcome, dispatch, design) = (
            outcome.clone(),
            props.dispatch.clone(),
            props.design.clone(),
        );
        Callback::from(move |_: MouseEvent| {
            dispatch.emit(Action::Adjust(Box::new(outcome.applied(&design))));
        })
    };
    let taken = outcome
        .fitted
        .iter()
        .all(|fitted| props.design.calibration(fitted.input, 0).is_some());
    html! {
        <>
            if taken {
                <p>{ "These values stand in the design. Undo takes them back." }</p>
            } else if stale {
                <p class="stale">{ "The design or its readings have changed since. Find the values again." }</p>
            }
            { warnings(outcome) }
            { values(&outcome.fitted, props.system) }
            <div class="buttons"><button type="button" onclick={take} disabled={stale || taken}>{ "Take these values over" }</button></div>
            { misses(outcome, props.system) }
            <Agreement outcome={outcome.clone()} of={of.clone()} system={props.system} width={props.width} />
            { predictions(&outcome.predicted, of, props.system) }
        </>
    }
}

/// What the chart of a calibration needs; it is drawn anew only when one of it changes.
#[derive(Properties, Clone)]
struct AgreementProps {
    outcome: Rc<Outcome>,
    of: Rc<Design>,
    system: UnitSystem,
    width: u32,
}

impl PartialEq for AgreementProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.outcome, &other.outcome)
            && self.system == other.system
            && self.width == other.width
    }
}

/// Predicted against measured.
#[function_component]
fn Agreement(props: &AgreementProps) -> Html {
    let size = Size {
        width: props.width.min(560),
        height: 320,
    };
    agreement::figure(&props.outcome, &props.of, props.system, size)
        .map(|figure| html! { <FigureView {figure} /> })
        .unwrap_or_default()
}

fn warnings(outcome: &Outcome) -> Html {
    let mut said: Vec<String> = outcome
        .fitted
        .iter()
        .filter(|fitted| !fitted.is_seen())
        .map(|fitted| {
            format!(
                "These readings do not show the {}: what was assumed stands.",
                fitted.parameter.name()
            )
        })
        .collect();
    said.extend(outcome.alike.iter().map(|pair| {
        let [one, two] = pair.parameters;
        format!(
            "These readings cannot tell {} and {} apart ({:.0} % alike): trust what they do together, not each.",
            one.name(),
            two.name(),
            100.0 * pair.correlation.abs()
        )
    }));
    said.extend(outcome.fitted.iter().filter(|fitted| fitted.moved.abs() > 2.5).map(|fitted| {
        format!(
            "The {} moved far outside what was thought likely: look for a wrong unit, a wrong size or a bad probe first.",
            fitted.parameter.name()
        )
    }));
    if outcome.unusable > 0 {
        said.push(format!(
            "{} moments are incomplete or have no answer; they are left out.",
            outcome.unusable
        ));
    }
    if said.is_empty() {
        return Html::default();
    }
    html! { <ul class="warnings">{ for said.into_iter().map(|said| html! { <li>{ said }</li> }) }</ul> }
}

fn values(fitted: &[Fitted], system: UnitSystem) -> Html {
    let shown = |fitted: &Fitted, si: f64| {
        rounded_text(fitted.input.dimension.shown(system).from_si(si), 3).replace('-', "−")
    };
    let range = |fitted: &Fitted, (low, high): (f64, f64)| {
        format!("{} to {}", shown(fitted, low), shown(fitted, high))
    };
    html! {
        <div class="scroll" tabindex="0" role="region" aria-label="Values found">
            <table>
                <thead><tr>
                    <th scope="col">{ "Value" }</th>
                    <th scope="col">{ "Before (nine cases in ten)" }</th>
                    <th scope="col">{ "Found" }</th>
                    <th scope="col">{ "Nineteen cases in twenty" }</th>
                    <th scope="col">{ "Uncertainty left" }</th>
                </tr></thead>
                <tbody>{ for fitted.iter().map(|fitted| html! {
                    <tr>
                        <th scope="row">{ fitted.parameter.name() }</th>
                        <td>{ format!("{} ({})", shown(fitted, fitted.prior.value), range(fitted, (fitted.prior.low, fitted.prior.high))) }</td>
                        <td>{ format!("{} {}", shown(fitted, fitted.value), fitted.input.dimension.shown(system).symbol) }</td>
                        <td>{ range(fitted, fitted.stated) }</td>
                        <td>{ format!("{:.0} %", 100.0 * fitted.left) }</td>
                    </tr>
                }) }</tbody>
            </table>
            <p class="hint">{ "With all other assumptions as they stand. “Uncertainty left” is what remains of the range before: 100 % means that the readings taught nothing." }</p>
        </div>
    }
}

fn misses(outcome: &Outcome, system: UnitSystem) -> Html {
    let rows: Vec<(Channel, (f64, f64))> = Channel::ALL
        .into_iter()
        .filter_map(|channel| Some((channel, outcome.rms(channel)?)))
        .collect();
    let shown = |channel: Channel, si: f64| {
        let dimension = if channel.is_pressure() {
            Dimension::Pressure
        } else {
            Dimension::TemperatureDifference
        };
        format::quantity(si, dimension, system, 2)
    };
    html! {
        <table>
            <caption>{ "How far the model is off the readings (root mean square)" }</caption>
            <thead><tr><th scope="col">{ "What" }</th><th scope="col">{ "Before" }</th><th scope="col">{ "After" }</th></tr></thead>
            <tbody>{ for rows.into_iter().map(|(channel, (before, after))| html! {
                <tr><th scope="row">{ channel.name() }</th><td>{ shown(channel, before) }</td><td>{ shown(channel, after) }</td></tr>
            }) }</tbody>
        </table>
    }
}

fn predictions(predicted: &[Predicted], design: &Design, system: UnitSystem) -> Html {
    let engine = &design.installation.engine;
    let temperature = |likely: &Likely, limit: f64| {
        let difference = Dimension::TemperatureDifference.shown(system);
        let over = if likely.after > limit {
            " over limit"
        } else if likely.after + likely.either_way > limit {
            " may pass the limit"
        } else {
            ""
        };
        format!(
            "{} ± {:.0}{over}",
            format::degrees(likely.after, system),
            difference.from_si(likely.either_way)
        )
    };
    html! {
        <div class="scroll" tabindex="0" role="region" aria-label="Conditions with these values">
            <table>
                <caption>{ "Your conditions with these values" }</caption>
                <thead><tr>
                    <th scope="col">{ "Condition" }</th>
                    <th scope="col">{ "Hottest head before" }</th>
                    <th scope="col">{ "Hottest head now" }</th>
                    <th scope="col">{ "Oil now" }</th>
                    <th scope="col">{ "Δp now" }</th>
                </tr></thead>
                <tbody>{ for predicted.iter().map(|found| html! {
                    <tr>
                        <th scope="row">{ design.conditions.get(found.condition).map_or("", |condition| condition.name.as_str()) }</th>
                        <td>{ format::degrees(found.head.before, system) }</td>
                        <td>{ temperature(&found.head, engine.head_limit.value) }</td>
                        <td>{ temperature(&found.oil, engine.oil_limit.value) }</td>
                        <td>{ format!("{} ± {}", format::quantity(found.baffle_drop.after, Dimension::Pressure, system, 2), format::quantity(found.baffle_drop.either_way, Dimension::Pressure, system, 1)) }</td>
                    </tr>
                }) }</tbody>
            </table>
            <p class="hint">{ "± holds in about nine cases in ten with every other assumption in its range. It is narrower than the small print under the answers, which takes the assumptions one by one: readings settle what several of them do together." }</p>
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    #[test]
    fn scatter_is_the_usual_unless_typed() {
        let none = [String::new(), String::new(), String::new()];
        assert_eq!(
            scatter_of(&none, UnitSystem::Customary),
            Ok(Scatter::default())
        );
        let typed = ["9".to_owned(), String::new(), "0.1".to_owned()];
        let scatter = scatter_of(&typed, UnitSystem::Customary).expect("numbers");
        assert!((scatter.head_k - 5.0).abs() < 1e-9);
        assert!((scatter.pressure_pa - 24.908_891).abs() < 1e-6);
        let rubbish = [String::new(), "none".to_owned(), String::new()];
        assert!(scatter_of(&rubbish, UnitSystem::Metric).is_err());
    }
}
