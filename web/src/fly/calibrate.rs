//! "Calibrate": a few assumptions found from the readings, shown, taken over, taken back.

use crate::browser::job::{End, Run, use_job};
use crate::charts::table::TableView;
use crate::charts::view::FigureView;
use crate::charts::{Size, agreement, room};
use crate::engine::flight_task::Fit;
use crate::engine::job::followed;
use crate::fly::next_flight::words::headline;
use crate::fly::path::{StepProps, use_opened};
use crate::fly::whole_flights::over_flights;
use crate::kit::controls::on_tick;
use crate::kit::format;
use crate::kit::page::{use_dispatch, use_page};
use crate::kit::panel_field::PanelField;
use crate::kit::shared::Shared;
use crate::kit::soon::Soon;
use crate::kit::table_text::TableText;
use crate::part;
use crate::state::Action;
use crate::state::panel_texts::{key, typed_or};
use coolpath_core::document::design::Design;
use coolpath_core::language::{tr, tr_later};
use coolpath_core::prove::calibrate::{
    Channel, Fitted, Likely, Outcome, Parameter, Predicted, Scatter, usual_choice,
};
use coolpath_core::units::si::deltaf;
use coolpath_core::units::typed;
use coolpath_core::units::typed::{Dimension, UnitSystem, rounded_text};
use yew::prelude::*;

/// What was found, and the design that it is of.
type Found = (Shared<Outcome>, Shared<Design>);

/// The panel.
#[function_component]
pub fn CalibratePanel(props: &StepProps) -> Html {
    let opened = use_opened(props.next);
    let (design, system, width) = use_page(|page| (page.design.clone(), page.system(), page.width));
    let dispatch = use_dispatch();
    let chosen = use_state(|| None::<Vec<Parameter>>);
    let scatter = use_page(|page| SCATTERS.map(|(id, ..)| typed_or(&page.state, id, "")));
    let job = use_job::<(usize, usize), Found>();
    let free = (*chosen).clone().unwrap_or_else(|| usual_choice(&design));
    let scattered = scatter_of(&scatter, system);
    let start = {
        let (job, design) = (job.clone(), design.clone());
        let (free, scattered) = (free.clone(), scattered.clone());
        Callback::from(move |_: MouseEvent| {
            let (design, free, scattered) = (design.clone(), free.clone(), scattered.clone());
            job.start(|run| calibrated(run, design, free, scattered));
        })
    };
    let shown = View {
        design: &design,
        system,
        width,
        dispatch: &dispatch,
    };
    html! {
        <details class="section" id="calibrate" open={opened}>
            <summary>{ tr("Fit the model to the readings") }</summary>
            <p class="hint">{ tr("Finds the values with which the model fits your readings best. It starts from typical values and moves only as far as the readings justify. Stretches of flight are followed with their time constants. Nothing changes until you take the values over.") }</p>
            if design.readings.is_empty() {
                <p>{ tr("There are no readings yet: type some, or add stretches of a log.") }</p>
            } else {
                { choice(&design, &chosen, &free) }
                { scatter_fields(system) }
                if let Err(fault) = &scattered {
                    <p class="fault" role="alert">{ fault }</p>
                }
                <div class="buttons"><button type="button" onclick={start} disabled={free.is_empty()}>{ tr("Find the values") }</button></div>
            }
            <div aria-live="polite">
                { job.told(|so_far| html! { <p>{ progress(so_far) }{ " " }{ job.stop_button() }</p> }) }
                { job.done().map(|(outcome, of)| found(outcome, of, &shown)) }
            </div>
        </details>
    }
}

/// Fits a design to its readings.
async fn calibrated(
    run: Run<(usize, usize), Found>,
    design: Shared<Design>,
    free: Vec<Parameter>,
    scatter: Result<Scatter, String>,
) -> Result<Found, End> {
    let fit = Fit {
        design: (*design).clone(),
        free,
        scatter: scatter?,
    };
    let outcome = followed(fit, &run).await?;
    Ok((Shared::new(outcome), design))
}

/// How far a fit is; of how many sets of values nobody knows.
fn progress(&(done, all): &(usize, usize)) -> String {
    match (100 * done).checked_div(all) {
        None => tr!("Fitting: {} sets of values tried.", done),
        Some(percent) => tr!("Weighing the other assumptions: {} %.", percent),
    }
}

fn choice(
    design: &Design,
    chosen: &UseStateHandle<Option<Vec<Parameter>>>,
    free: &[Parameter],
) -> Html {
    html! {
        <fieldset>
            <legend>{ tr("Values to fit") }</legend>
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
                        if fixed { { tr(" (measured or from a chart: not fitted)") } }
                    </label>
                }
            }) }
        </fieldset>
    }
}

const SCATTERS: [(&str, &str, Dimension); 3] = [
    (
        "scatter-0",
        tr_later("CHT readings may be off by"),
        Dimension::TemperatureDifference,
    ),
    (
        "scatter-1",
        tr_later("Oil readings may be off by"),
        Dimension::TemperatureDifference,
    ),
    (
        "scatter-2",
        tr_later("Pressure readings may be off by"),
        Dimension::Pressure,
    ),
];

/// What was typed for the scatter of the readings, or the usual.
fn scatter_of(texts: &[String; 3], system: UnitSystem) -> Result<Scatter, String> {
    let usual = Scatter::default();
    let mut values = [usual.head_k, usual.oil_k, usual.pressure_pa];
    for ((value, text), (_, label, dimension)) in values.iter_mut().zip(texts).zip(SCATTERS) {
        if text.trim().is_empty() {
            continue;
        }
        *value = typed::parse(text, dimension, system)
            .ok()
            .filter(|typed| *typed > 0.01 * *value && *typed < 100.0 * *value)
            .ok_or_else(|| tr!("“{}” must be a number above zero", tr(label)))?;
    }
    let [head_k, oil_k, pressure_pa] = values;
    Ok(Scatter {
        head_k,
        oil_k,
        pressure_pa,
        ..Scatter::default()
    })
}

fn scatter_fields(system: UnitSystem) -> Html {
    let usual = Scatter::default();
    let values = [usual.head_k, usual.oil_k, usual.pressure_pa];
    html! {
        <div class="fields">
            { for SCATTERS.into_iter().zip(values).map(|((id, label, dimension), value)| {
                let unit = dimension.shown(system);
                part!(PanelField { of: key(id), label: format!("{} ({})", tr(label), unit.symbol), placeholder: rounded_text(unit.from_si(value), 2) })
            }) }
            <p class="hint">{ tr("Instruments and model together, from one reading to the next (one standard deviation; the values shown are estimates, no source read). What it says below is only as good as these.") }</p>
        </div>
    }
}

/// What stands on the page beside what was found.
struct View<'a> {
    design: &'a Shared<Design>,
    system: UnitSystem,
    width: u32,
    dispatch: &'a Callback<Action>,
}

/// What was found, and what may be done with it.
fn found(outcome: &Shared<Outcome>, of: &Shared<Design>, view: &View<'_>) -> Html {
    let stale = **of != **view.design;
    let take = {
        let (outcome, dispatch, design) =
            (outcome.clone(), view.dispatch.clone(), view.design.clone());
        Callback::from(move |_: MouseEvent| {
            dispatch.emit(Action::Adjust(Box::new(outcome.applied(&design))));
        })
    };
    let taken = outcome
        .fitted
        .iter()
        .all(|fitted| view.design.calibration(fitted.input, 0).is_some());
    html! {
        <>
            if taken {
                <p>{ tr("These values stand in the design. Undo takes them back.") }</p>
            } else if stale {
                <p class="stale">{ tr("The design or its readings have changed since. Find the values again.") }</p>
            }
            <p class="fitted-on">{ headline(of) }{ "." }</p>
            { over_flights(&outcome.whole, view.system) }
            { warnings(outcome, view.system) }
            { values(&outcome.fitted, view.system) }
            <div class="buttons"><button type="button" onclick={take} disabled={stale || taken}>{ tr("Take these values over") }</button></div>
            { misses(outcome, view.system) }
            <Soon>{ part!(Agreement { outcome: outcome.clone(), of: of.clone(), system: view.system, width: view.width }) }</Soon>
            { predictions(&outcome.predicted, of, view.system) }
        </>
    }
}

/// What the chart of a calibration needs; it is drawn anew only when one of it changes.
#[derive(Properties, Clone, PartialEq)]
struct AgreementProps {
    outcome: Shared<Outcome>,
    of: Shared<Design>,
    system: UnitSystem,
    width: u32,
}

/// Predicted against measured.
#[function_component]
fn Agreement(props: &AgreementProps) -> Html {
    let size = Size {
        width: room(props.width, 560),
        height: 320,
    };
    agreement::figure(&props.outcome, &props.of, props.system, size)
        .map(|figure| part!(FigureView { figure }))
        .unwrap_or_default()
}

fn warnings(outcome: &Outcome, system: UnitSystem) -> Html {
    let mut said: Vec<String> = outcome
        .fitted
        .iter()
        .filter(|fitted| !fitted.is_seen())
        .map(|fitted| {
            tr!(
                "These readings do not show the {}: the assumed value stays.",
                fitted.parameter.name()
            )
        })
        .collect();
    said.extend(outcome.alike.iter().map(|pair| {
        let [one, two] = pair.parameters;
        tr!(
            "These readings cannot tell {} and {} apart ({:.0} % alike): trust what they do together, not each.",
            one.name(),
            two.name(),
            100.0 * pair.correlation.abs()
        )
    }));
    let is_far = |fitted: &&Fitted| fitted.is_seen() && fitted.moved.abs() > 2.5;
    said.extend(outcome.fitted.iter().filter(is_far).map(|fitted| {
        tr!(
            "The {} moved far outside what was thought likely: look for a wrong unit, a wrong size or a bad probe first.",
            fitted.parameter.name()
        )
    }));
    said.extend(worse(outcome, system));
    if outcome.unusable > 0 {
        said.push(tr!(
            "{} moments are incomplete or have no answer; they are left out.",
            outcome.unusable
        ));
    }
    if said.is_empty() {
        return Html::default();
    }
    html! { <ul class="warnings">{ for said.into_iter().map(|said| html! { <li>{ said }</li> }) }</ul> }
}

/// Heads or oil that lie further off after the fit than before.
fn worse(outcome: &Outcome, system: UnitSystem) -> Vec<String> {
    const WORSE_K: f64 = deltaf(3.0);
    [Channel::HeadMean, Channel::HeadSpread, Channel::Oil]
        .into_iter()
        .filter_map(|channel| Some((channel, outcome.rms(channel)?)))
        .filter(|(_, (before, after))| after - before > WORSE_K)
        .map(|(channel, (before, after))| {
            tr!(
                "After this fit the {} is further off than before, {} instead of {}: other readings, such as the \
                 exhaust temperatures, pull the values. Find what differs, or leave those readings out, before you take the values over.",
                channel.name(),
                format::quantity(after, Dimension::TemperatureDifference, system, 2),
                format::quantity(before, Dimension::TemperatureDifference, system, 2)
            )
        })
        .collect()
}

fn values(fitted: &[Fitted], system: UnitSystem) -> Html {
    let shown = |fitted: &Fitted, si: f64| {
        rounded_text(fitted.input.dimension.shown(system).from_si(si), 3).replace('-', "−")
    };
    let range = |fitted: &Fitted, (low, high): (f64, f64)| {
        tr!("{} to {}", shown(fitted, low), shown(fitted, high))
    };
    let rows = fitted
        .iter()
        .map(|fitted| {
            let prior = &fitted.prior;
            vec![
                fitted.parameter.name().to_owned(),
                format!(
                    "{} ({})",
                    shown(fitted, prior.value),
                    range(fitted, (prior.low, prior.high))
                ),
                format!(
                    "{} {}",
                    shown(fitted, fitted.value),
                    fitted.input.dimension.shown(system).symbol
                ),
                range(fitted, fitted.stated),
                format!("{:.0} %", 100.0 * fitted.left),
            ]
        })
        .collect();
    let columns = [
        tr("Value"),
        tr("Before this fit (9 chances in 10)"),
        tr("Found"),
        tr("19 chances in 20"),
        tr("Uncertainty left"),
    ];
    html! {
        <>
            { part!(TableView { sheet: TableText::new(tr("Values found"), &columns, rows) }) }
            <p class="hint">{ tr("With all other assumptions as they are. “Before this fit” is the starting value, whatever an earlier fit left in the design. “Uncertainty left” is how much of the earlier range remains: 100 % means the readings added nothing.") }</p>
        </>
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
    let rows = rows
        .into_iter()
        .map(|(channel, (before, after))| {
            vec![
                channel.name().to_owned(),
                shown(channel, before),
                shown(channel, after),
            ]
        })
        .collect();
    let title = tr("How far the model is from the readings it was fitted to (root mean square)");
    let sheet = TableText::new(
        title,
        &[tr("What"), tr("Before this fit"), tr("After")],
        rows,
    );
    html! { <TableView {sheet} captioned=true /> }
}

fn predictions(predicted: &[Predicted], design: &Design, system: UnitSystem) -> Html {
    let temperature = |likely: &Likely, limit: f64| {
        let difference = Dimension::TemperatureDifference.shown(system);
        let over = if likely.after > limit {
            tr(" over limit")
        } else if likely.after + likely.either_way > limit {
            tr(" may pass the limit")
        } else {
            ""
        };
        format!(
            "{} ± {:.0}{over}",
            format::degrees(likely.after, system),
            difference.from_si(likely.either_way)
        )
    };
    let pressure = |si: f64, digits: i32| format::quantity(si, Dimension::Pressure, system, digits);
    let rows = predicted
        .iter()
        .map(|found| {
            let condition = design.conditions.get(found.condition);
            let limits = design.limits_in(found.condition);
            vec![
                condition.map_or_else(String::new, |condition| condition.name.clone()),
                format::degrees(found.head.before, system),
                temperature(&found.head, limits.head.kelvin),
                temperature(&found.oil, limits.oil.kelvin),
                format!(
                    "{} ± {}",
                    pressure(found.baffle_drop.after, 2),
                    pressure(found.baffle_drop.either_way, 1)
                ),
            ]
        })
        .collect();
    let columns = [
        tr("Condition"),
        tr("Hottest head before this fit"),
        tr("Hottest head now"),
        tr("Oil now"),
        tr("Δp now"),
    ];
    let sheet = TableText::new(tr("Your conditions with these values"), &columns, rows);
    html! {
        <>
            <TableView {sheet} captioned=true />
            <p class="hint">{ tr("± holds about nine times in ten with every other assumption in its range. It is narrower than the grey range under the answers, which takes the assumptions one by one: readings settle what several of them do together. The odds of the verdict count the grey range: they stay cautious until the open assumptions are settled too.") }</p>
        </>
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
