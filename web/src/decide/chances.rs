//! "How sure?": every assumption drawn from its range; percentiles, chances, what to measure next.

use crate::browser::job::use_job;
use crate::charts::table::TableView;
use crate::charts::view::FigureView;
use crate::charts::{Size, chances, room};
use crate::decide::measure::MeasureNext;
use crate::engine;
use crate::engine::task::Draws;
use crate::kit::page::use_page;
use crate::kit::part::part;
use crate::kit::shared::Shared;
use crate::kit::soon::Soon;
use crate::kit::table_text::TableText;
use crate::part;
use coolpath_core::answer::pieces::Pieces;
use coolpath_core::answer::sampling::{
    DEFAULT_DRAWS, DEFAULT_SEED, Percentiles, Sampling, Summary,
};
use coolpath_core::decide::chances::{Rank, how_to_measure, ranking};
use coolpath_core::document::design::Design;
use coolpath_core::language::tr;
use coolpath_core::units::typed::{Dimension, UnitSystem};
use yew::prelude::*;

/// Assumptions that are listed.
const LISTED: usize = 6;

/// A finished sampling of a design, with what it says of each condition.
struct Done {
    sampling: Sampling,
    summaries: Vec<Option<Summary>>,
    design: Shared<Design>,
}

/// The panel.
#[function_component]
pub fn SurePanel() -> Html {
    let (design, place, system, width) =
        use_page(|page| (page.design.clone(), page.place(), page.system(), page.width));
    let job = use_job::<(usize, usize), Shared<Done>>();
    let start = {
        let (job, design) = (job.clone(), design.clone());
        Callback::from(move |_: MouseEvent| {
            let design = design.clone();
            job.start(|run| async move {
                let task = Draws {
                    design: (*design).clone(),
                    draws: DEFAULT_DRAWS,
                    seed: DEFAULT_SEED,
                };
                let sampling = engine::job::done(task, &run).await?;
                let places = 0..design.conditions.len();
                Ok(Shared::new(Done {
                    summaries: places.map(|place| sampling.summary(place)).collect(),
                    sampling,
                    design,
                }))
            });
        })
    };
    html! {
        <details class="section" id="sure">
            <summary>{ tr("How sure? Chances, and what to measure next") }</summary>
            <p class="hint">{ tr!("Runs the numbers {} times, each time with every assumption drawn at random from its likely range, and counts how often both limits hold. The same design gives the same odds. Assumptions are taken as independent.", DEFAULT_DRAWS) }</p>
            <div class="buttons"><button type="button" onclick={start}>{ tr("Run 2,000 trials") }</button></div>
            <div aria-live="polite">
                { job.counted(tr("Drawing")) }
                if let Some(done) = job.done() {
                    if *done.design != *design {
                        <p class="stale">{ tr("The design has changed: these odds are for the earlier one. Run the trials again.") }</p>
                    }
                    { part!(Results { done: done.clone(), place, system, width }) }
                }
            </div>
        </details>
    }
}

/// What the results need; they are drawn anew only when one of it changes.
#[derive(Properties, Clone, PartialEq)]
struct ResultsProps {
    done: Shared<Done>,
    place: usize,
    system: UnitSystem,
    width: u32,
}

/// What the draws say; each picture in a task of its own.
#[function_component]
fn Results(props: &ResultsProps) -> Html {
    html! {
        <>
            { chances(&props.done, props.system) }
            <Soon>{ part!(SpreadOf { what: Spread::Heads, of: props.clone() }) }</Soon>
            <Soon>{ part!(SpreadOf { what: Spread::Oil, of: props.clone() }) }</Soon>
            <Soon after={2}>{ part!(MeasureNext { design: props.done.design.clone(), place: props.place, system: props.system }) }</Soon>
            <Soon after={2}>{ part::<Matter>(props.clone()) }</Soon>
        </>
    }
}

fn three(found: &Percentiles, dimension: Dimension, system: UnitSystem) -> String {
    let unit = dimension.shown(system);
    let number = |si: f64| {
        let shown = unit.from_si(si);
        if dimension == Dimension::Temperature {
            format!("{shown:.0}")
        } else {
            coolpath_core::units::typed::rounded_text(shown, 3)
        }
    };
    format!(
        "{} · {} · {} {}",
        number(found.p10),
        number(found.p50),
        number(found.p90),
        unit.symbol
    )
    .replace('-', "−")
}

fn percent(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}

fn chances(done: &Done, system: UnitSystem) -> Html {
    let conditions = done.design.conditions.iter().zip(&done.summaries);
    let rows = conditions
        .map(|(condition, found)| chance_row(&condition.name, found.as_ref(), system))
        .collect();
    let sheet = TableText::new(
        tr("Odds by condition"),
        &[
            tr("Condition"),
            tr("Hottest head"),
            tr("Oil"),
            "Δp",
            tr("Cooling drag"),
            tr("Odds within both limits"),
        ],
        rows,
    );
    html! {
        <>
            <p class="hint">{ tr("Three numbers: one trial in ten comes out below the first, half below the second, one in ten above the third.") }</p>
            { part!(TableView { sheet }) }
        </>
    }
}

/// What a figure is of.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Spread {
    Heads,
    Oil,
}

/// What a figure needs.
#[derive(Properties, Clone, PartialEq)]
struct SpreadProps {
    what: Spread,
    of: ResultsProps,
}

/// Heads or oil of all conditions as a figure.
#[function_component]
fn SpreadOf(props: &SpreadProps) -> Html {
    let ResultsProps {
        done,
        system,
        width,
        ..
    } = &props.of;
    let row = |(place, found): (usize, &Option<Summary>)| {
        let limits = done.design.limits_in(place);
        let (found, limit) = match props.what {
            Spread::Heads => (found.as_ref().map(|found| found.head), limits.head),
            Spread::Oil => (found.as_ref().map(|found| found.oil), limits.oil),
        };
        chances::Row {
            condition: done.design.condition_name(place).to_owned(),
            found,
            limit_k: limit.kelvin,
        }
    };
    let list: Vec<chances::Row> = done.summaries.iter().enumerate().map(row).collect();
    let what = match props.what {
        Spread::Heads => tr("Hottest head"),
        Spread::Oil => tr("Oil"),
    };
    let (draws, _) = done.sampling.progress();
    let size = Size {
        width: room(*width, 560),
        height: 240,
    };
    let figure = chances::figure(what, &list, draws, *system, size);
    part!(FigureView { figure })
}

fn chance_row(name: &str, summary: Option<&Summary>, system: UnitSystem) -> Vec<String> {
    let Some(found) = summary else {
        return vec![name.to_owned(), tr("No answer.").to_owned()];
    };
    let notes: Vec<String> = [
        (found.without_air, tr("no air flow, counted as over limit")),
        (found.contradictions, tr("skipped: impossible combination")),
        (found.unsolved, tr("no solution, counted as over limit")),
    ]
    .into_iter()
    .filter(|(count, _)| *count > 0)
    .map(|(count, why)| tr!("; {} trials {}", count, why))
    .collect();
    let left_out = notes.concat();
    vec![
        name.to_owned(),
        three(&found.head, Dimension::Temperature, system),
        three(&found.oil, Dimension::Temperature, system),
        three(&found.baffle_drop, Dimension::Pressure, system),
        three(&found.drag, Dimension::Force, system),
        tr!(
            "{} (heads {}, oil {}){}",
            percent(found.both_inside),
            percent(found.head_inside),
            percent(found.oil_inside),
            left_out
        ),
    ]
}

/// Which assumptions matter most.
#[function_component]
fn Matter(props: &ResultsProps) -> Html {
    let (sampling, place) = (&props.done.sampling, props.place);
    let name = props.done.design.condition_name(place);
    let list = |ranks: Vec<Rank>| {
        html! {
            <ol>
                { for ranks.into_iter().filter(|rank| rank.share > 0.005).take(LISTED).map(|rank| html! {
                    <li>{ tr!(
                        "{}: measuring this narrows the range by {}. {}",
                        rank.input.label,
                        percent(rank.narrowing),
                        how_to_measure(rank.input.id)
                    ) }</li>
                }) }
            </ol>
        }
    };
    html! {
        <>
            <h3>{ tr("Which assumptions matter most") }</h3>
            <h4>{ tr!("What to measure next, for the heads in “{}”", name) }</h4>
            { list(ranking(sampling, place, |drawn| drawn.head)) }
            <h4>{ tr!("What to measure next, for the oil in “{}”", name) }</h4>
            { list(ranking(sampling, place, |drawn| drawn.oil)) }
            <p class="hint">{ tr("Ranked by how much knowing each one would narrow the answer, not by how wide its range is. Once you have measured one, mark its field as measured.") }</p>
        </>
    }
}
