//! "Before and after": two sets of readings brought to one condition.

use crate::browser::job::{End, Run, use_job};
use crate::kit::controls::option_field;
use crate::kit::format;
use crate::kit::page::use_page;
use crate::kit::shared::Shared;
use crate::kit::short_tasks::Pace;
use coolpath_core::document::condition::Condition;
use coolpath_core::document::design::Design;
use coolpath_core::document::reading::Reading;
use coolpath_core::language::tr;
use coolpath_core::prove::before_after::{BeforeAfter, ComparedQuantity, Difference};
use coolpath_core::prove::calibrate::Scatter;
use coolpath_core::units::typed::{Dimension, UnitSystem};
use yew::prelude::*;

/// What differs between two sets of readings.
#[derive(Clone)]
struct Found {
    differences: Vec<Difference>,
    design: Shared<Design>,
    pair: [String; 2],
    condition: String,
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
pub fn BeforeAfterPanel() -> Html {
    let (design, place, system) =
        use_page(|page| (page.design.clone(), page.place(), page.system()));
    let names = sets(&design);
    let chosen = use_state(|| [0_usize, 1_usize]);
    let job = use_job::<(usize, usize), Found>();
    let condition = design.conditions.get(place);
    let pair = chosen.map(|at| names.get(at).cloned().unwrap_or_default());
    let start = {
        let (job, design, pair) = (job.clone(), design.clone(), pair.clone());
        Callback::from(move |_: MouseEvent| {
            let (design, pair) = (design.clone(), pair.clone());
            if let Some(condition) = design.conditions.get(place).cloned() {
                job.start(|run| compared(run, design, pair, condition));
            }
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
            <summary>{ tr("Before and after a change") }</summary>
            <p class="hint">{ tr("Two sets of readings, flown on different days, brought by the model to one condition. The design must be the same for both: do not type the change in between. Give each reading its set in the table of readings, and change one thing at a time.") }</p>
            if names.len() < 2 {
                <p>{ tr("Give the readings two sets first, such as “old seals” and “new seals”.") }</p>
            } else {
                <div class="fields">
                    { select("set-before", tr("Before"), 0) }
                    { select("set-after", tr("After"), 1) }
                </div>
                if let Some(log) = common_log(&design, &pair) {
                    <p class="stale">{ tr!("Both sets have stretches of one flight, “{}”: what differs between them is no effect of a change.", log) }</p>
                }
                <div class="buttons"><button type="button" onclick={start} disabled={pair[0] == pair[1]}>{ tr!("Compare at “{}”", condition.map_or("", |c| c.name.as_str())) }</button></div>
            }
            <div aria-live="polite">
                { job.told(|(done, all)| html! { <p><progress value={done.to_string()} max={all.to_string()} aria-label={tr("Comparing")} /></p> }) }
                if let Some(found) = job.done() {
                    if *found.design != *design { <p class="stale">{ tr("The design or its readings have changed since. Compare again.") }</p> }
                    { for found.differences.iter().map(|difference| html! {
                        <p class={if difference.is_clear() { "headline" } else { "hint" }}>{ sentence(difference, &found.pair, &found.condition, system) }</p>
                    }) }
                }
            </div>
        </details>
    }
}

/// A log of which two different sets have readings.
fn common_log(design: &Design, [before, after]: &[String; 2]) -> Option<String> {
    let of = |set: &str| {
        let set = set.to_owned();
        let readings = design.readings.iter();
        readings.filter(move |reading| reading.set.trim() == set && !reading.log.is_empty())
    };
    let is_shared = |reading: &&Reading| of(after).any(|other| other.log == reading.log);
    (before != after).then(|| {
        of(before)
            .find(is_shared)
            .map(|reading| reading.log.clone())
    })?
}

/// Brings two sets to one condition, a step at a time.
async fn compared(
    run: Run<(usize, usize), Found>,
    design: Shared<Design>,
    pair: [String; 2],
    condition: Condition,
) -> Result<Found, End> {
    let sets = [&*pair[0], &*pair[1]];
    let mut comparison = BeforeAfter::new(&design, sets, &condition, Scatter::default())
        .map_err(|error| error.to_string())?;
    let mut told = 0;
    let mut pace = Pace::begun();
    loop {
        let (done, all) = comparison.progress();
        if done == 0 || done >= told + all / 10 {
            told = done;
            run.tell((done, all));
        }
        run.breathe(&mut pace).await?;
        if !comparison.advance() {
            break;
        }
    }
    Ok(Found {
        differences: comparison.differences(),
        design,
        pair,
        condition: condition.name,
    })
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
            ComparedQuantity::HeadMean => (
                tr("mean of the heads"),
                Dimension::TemperatureDifference,
                format::degrees,
            ),
            ComparedQuantity::Oil => (tr("oil"), Dimension::TemperatureDifference, format::degrees),
            ComparedQuantity::BaffleDrop => (
                tr("Δp across the baffles"),
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
        tr(
            " Not clearly a change: it is smaller than the uncertainty that readings and assumptions leave.",
        )
    };
    tr!(
        "“{}” against “{}”, {} at “{}”: {}{} ± {} {} ({} to {}).{}",
        after,
        before,
        what,
        at,
        sign,
        number(change.abs()),
        number(difference.band.wider()),
        unit.symbol,
        shown(difference.before, system),
        shown(difference.after, system),
        judged,
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::answer::band::Band;

    #[test]
    fn two_sets_of_one_flight_are_noticed_and_those_of_two_are_not() {
        let reading = |set: &str, log: &str| Reading {
            set: set.to_owned(),
            log: log.to_owned(),
            ..Reading::default()
        };
        let mut design = coolpath_core::document::example::design();
        design.readings = vec![
            reading("old", "a.csv"),
            reading("old ", "b.csv"),
            reading("new", "b.csv"),
            reading("other", ""),
        ];
        let common =
            |before: &str, after: &str| common_log(&design, &[before.to_owned(), after.to_owned()]);
        assert_eq!(common("old", "new").as_deref(), Some("b.csv"));
        assert_eq!(common("new", "other"), None);
        assert_eq!(common("new", "new"), None);
    }

    #[test]
    fn a_clear_change_is_told_with_its_uncertainty_and_an_unclear_one_as_such() {
        let difference = |after: f64| Difference {
            compared: ComparedQuantity::HeadMean,
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
