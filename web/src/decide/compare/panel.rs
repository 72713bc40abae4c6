//! "Compare": alternatives beside the design, at the fixed exit and at equal heads.

use crate::browser::job::{Shown, use_job};
use crate::charts::differences::Bar;
use crate::charts::save::Save;
use crate::charts::table::table as table_html;
use crate::charts::view::FigureView;
use crate::charts::{column, differences};
use crate::decide::compare::table_text;
use crate::decide::compare::words;
use crate::decide::compare::words::{ROWS, cell};
use crate::design::drawing_pane::{ALL_VIEWS_PX, Still};
use crate::kit::controls::{name_field, use_unfolding};
use crate::kit::format;
use crate::kit::page::{use_dispatch, use_page};
use crate::kit::shared::Shared;
use crate::kit::table_text::TableText;
use crate::part;
use crate::sheet::View;
use crate::state::Action;
use crate::state::faults;
use coolpath_core::answer::evaluate;
use coolpath_core::answer::solve_condition::solve_condition;
use coolpath_core::answer::solved::EvaluateError;
use coolpath_core::decide::compare::{Compared, Difference, Preset};
use coolpath_core::decide::comparison;
use coolpath_core::decide::comparison::{Comparing, Comparison, Stand};
use coolpath_core::document::alternative::{Alternative, MAX_ALTERNATIVES};
use coolpath_core::document::design::Design;
use coolpath_core::language::tr;
use coolpath_core::units::typed::{Dimension, UnitSystem};
use std::rc::Rc;
use std::time::Duration;
use yew::prelude::*;

/// The panel.
#[function_component]
pub fn ComparePanel() -> Html {
    let (design, place, system, width) =
        use_page(|page| (page.design.clone(), page.place(), page.system(), page.width));
    let dispatch = use_dispatch();
    let standing = use_memo(design.clone(), |design| comparison::standing(design));
    let made = use_comparisons(&design, &standing, place);
    let own = made.get(standing.len()..).unwrap_or_default();
    let full = design.alternatives.len() >= MAX_ALTERNATIVES;
    let add = |name: &'static str,
               installation: coolpath_core::document::installation::Installation| {
        let action = Action::AddAlternative(Box::new(Alternative {
            name: name.to_owned(),
            installation,
        }));
        html! {
            <button type="button" class="quiet" disabled={full} onclick={dispatch.reform(move |_: MouseEvent| action.clone())}>{ name }</button>
        }
    };
    let condition = design.condition_name(place);
    let is_sound = design.check().is_ok();
    let waiting = is_sound && made.len() < standing.len() + design.alternatives.len();
    html! {
        <section class="section job" id="compare" tabindex="-1" aria-label={tr("Plenum or seals?")}>
            <p class="ask">{ tr("Plenum or seals?") }</p>
            <div aria-live="polite"><h2 class="answer">{ words::verdict(&made, system).unwrap_or_else(|| {
                if waiting { tr("Comparing …").to_owned() } else { tr("No comparison: this design has no answer").to_owned() }
            }) }</h2></div>
            <p class="answer-more">{ tr!("Temperatures, pressure, air and drag in “{}”; speed in the first level condition. With a fixed exit a leak lowers drag, which is misleading: compare speed at equal CHT.", condition) }</p>
            <div class="job-columns even compare-columns">
                <div>{ all_table(&made, system) }</div>
                <div class="compare-charts">{ charts(&made, system, column(width, None, 640)) }</div>
                <details class="drawer" open=true>
                    <summary>{ tr!("Other alternatives ({} of {})", design.alternatives.len(), MAX_ALTERNATIVES) }</summary>
                    <div class="phrases" role="group" aria-label={tr("Quick alternatives")}>
                        { for Preset::ALL.into_iter()
                            .map(|preset| (preset.name(), preset.applied(&design.installation)))
                            // What the design has already is no alternative.
                            .filter(|(_, changed)| *changed != design.installation)
                            .map(|(name, changed)| add(name, changed)) }
                        { add(tr("The design as it is now"), design.installation.clone()) }
                    </div>
                    { for design.alternatives.iter().enumerate().map(|(at, alternative)| {
                        alternative_view(&AlternativeView { design: &design, is_sound, place, system, dispatch: &dispatch }, at, alternative, own.get(at))
                    }) }
                </details>
            </div>
        </section>
    }
}

/// All comparisons side by side: heads held equal first, since that is the fair one.
fn all_table(made: &[Comparison], system: UnitSystem) -> Html {
    if made.is_empty() {
        return Html::default();
    }
    let equal: Vec<Result<Vec<String>, String>> =
        made.iter().map(|one| equal_cells(one, system)).collect();
    let fixed: Vec<Vec<String>> = made.iter().map(|one| cells(&one.fixed, system)).collect();
    let group = |title: &'static str| {
        html! { <tr class="group"><th scope="colgroup" colspan={(made.len() + 1).to_string()}>{ title }</th></tr> }
    };
    let row = |name: &'static str, texts: Vec<String>| {
        html! { <tr><th scope="row">{ name }</th>{ for texts.into_iter().map(|text| html! { <td>{ text }</td> }) }</tr> }
    };
    let of_equal = |at: usize| {
        equal
            .iter()
            .map(|cells| {
                cells
                    .as_ref()
                    .map_or_else(String::clone, |cells| cells[at].clone())
            })
            .collect()
    };
    let of_fixed = |at: usize| fixed.iter().map(|cells| cells[at].clone()).collect();
    html! {
        <>
        { part!(Save { sheet: table_text::all(made, system) }) }
        <div class="scroll" tabindex="0" role="region" aria-label={tr("All comparisons")}>
            <table class="compare-table">
                <thead><tr><th scope="col">{ tr("Compared with now") }</th>{ for made.iter().map(|one| html! { <th scope="col">{ one.name.clone() }</th> }) }</tr></thead>
                <tbody>
                    { group(tr("Heads held equal, exit re-sized")) }
                    { row(tr("Speed in level flight"), of_equal(SPEED)) }
                    { row(tr("Exit, net"), of_equal(SPEED + 1)) }
                    { row(tr("Cooling drag"), of_equal(SPEED - 1)) }
                    { group(tr("Exit as it is")) }
                    { row(tr("Hottest CHT"), of_fixed(0)) }
                    { row(tr("Oil"), of_fixed(1)) }
                    { row(tr("Speed in level flight"), of_fixed(SPEED)) }
                </tbody>
            </table>
        </div>
        <p class="hint">{ tr("Heads are held equal in the flying condition whose heads stand nearest to their limit. The ranges are those of an exit cut once to that size.") }</p>
        </>
    }
}

/// Place of the speed among the cells of a stand; drag stands before it and the exit behind it.
const SPEED: usize = ROWS.len();

/// What the view of an alternative needs beside it.
struct AlternativeView<'a> {
    design: &'a Shared<Design>,
    /// Whether the design can be compared at all.
    is_sound: bool,
    place: usize,
    system: UnitSystem,
    dispatch: &'a Callback<Action>,
}

fn alternative_view(
    beside: &AlternativeView<'_>,
    at: usize,
    alternative: &Alternative,
    made: Option<&Comparison>,
) -> Html {
    let &AlternativeView {
        design,
        is_sound,
        place,
        system,
        dispatch,
    } = beside;
    let id = format!("alternative-{at}");
    let on_name = {
        let dispatch = dispatch.clone();
        move |name| dispatch.emit(Action::NameAlternative(at, name))
    };
    let words = words::differences_in_words(design, alternative, system);
    let faults = design.alternative_faults(at);
    html! {
        <section class="entry" key={id.clone()} aria-label={alternative.name.clone()}>
            { name_field(id, tr!("Alternative {}", at + 1), &alternative.name, on_name) }
            <p class="hint">{ if words.is_empty() {
                tr("The same as the design.").to_owned()
            } else {
                tr!("Differs: {}.", words.join("; "))
            } }</p>
            { for faults.iter().map(|fault| html! {
                <p class="fault">{ faults::words(&fault.error, system) }</p>
            }) }
            { made.map_or_else(
                || if is_sound { html! { <p class="hint">{ tr("Comparing …") }</p> } } else { Html::default() },
                |made| table(made, system),
            ) }
            if faults.is_empty() {
                { part!(Drawn { design: design.clone(), at, place, system }) }
            }
            <div class="buttons">
                <button type="button" class="quiet" aria-label={tr!("Adopt {}", alternative.name)}
                    onclick={dispatch.reform(move |_: MouseEvent| Action::Adopt(at))}>{ tr("Adopt") }</button>
                <button type="button" class="quiet" aria-label={tr!("Delete {}", alternative.name)}
                    onclick={dispatch.reform(move |_: MouseEvent| Action::RemoveAlternative(at))}>{ tr("Delete") }</button>
            </div>
        </section>
    }
}

/// Cells of a stand in the order of the table.
fn cells(stand: &Stand, system: UnitSystem) -> Vec<String> {
    let refused = |error: &EvaluateError| error.to_string();
    let mut cells: Vec<String> = match &stand.shown {
        Err(error) => ROWS.iter().map(|_| refused(error)).collect(),
        Ok(found) => {
            let within = found.within_uncertainty().each();
            ROWS.iter()
                .enumerate()
                .map(|(at, (_, dimension))| {
                    cell(
                        found.by.each()[at],
                        &found.band.each()[at],
                        within[at],
                        *dimension,
                        system,
                    )
                })
                .collect()
        }
    };
    cells.push(match &stand.level {
        None => format::NONE.to_owned(),
        Some(Err(error)) => refused(error),
        Some(Ok(found)) => cell(
            found.by.speed,
            &found.band.speed,
            found.within_uncertainty().speed,
            Dimension::Speed,
            system,
        ),
    });
    cells.push(format::quantity(stand.exit_m2, Dimension::Area, system, 3));
    cells
}

/// Cells of a comparison at equal heads; why there are none.
fn equal_cells(made: &Comparison, system: UnitSystem) -> Result<Vec<String>, String> {
    match &made.equal {
        Ok(stand) => Ok(cells(stand, system)),
        Err(why) => Err(why.to_string()),
    }
}

fn table(made: &Comparison, system: UnitSystem) -> Html {
    let fixed = cells(&made.fixed, system);
    let equal = equal_cells(made, system);
    let names = ROWS
        .iter()
        .map(|(name, _)| tr(name))
        .chain([tr("Speed in level flight"), tr("Exit, net")]);
    let rows = names
        .enumerate()
        .map(|(at, name)| {
            let equal = equal.as_ref().map_or_else(
                |why| match at {
                    0 => why.clone(),
                    _ => format::NONE.to_owned(),
                },
                |equal| equal[at].clone(),
            );
            vec![name.to_owned(), fixed[at].clone(), equal]
        })
        .collect();
    let columns = [
        tr("Difference to the design"),
        tr("At the fixed exit"),
        tr("At equal heads"),
    ];
    let sheet = TableText::new(tr!("Comparison: {}", made.name), &columns, rows);
    table_html(&sheet, false)
}

/// Whose drawing it is.
#[derive(Properties, Clone, PartialEq)]
struct DrawnProps {
    design: Shared<Design>,
    /// Place of the alternative.
    at: usize,
    /// Place of the condition.
    place: usize,
    system: UnitSystem,
}

/// The drawing of an alternative, made while it is looked at.
#[function_component]
fn Drawn(props: &DrawnProps) -> Html {
    let (open, on_toggle) = use_unfolding();
    let Some(alternative) = props.design.alternatives.get(props.at) else {
        return Html::default();
    };
    html! {
        <details ontoggle={on_toggle}>
            <summary>{ tr!("Drawing of “{}”", alternative.name) }</summary>
            if *open {
                <div class="scroll" tabindex="0" role="region" aria-label={tr!("Drawing of {}", alternative.name)}>
                    { drawing(alternative, props) }
                </div>
            }
        </details>
    }
}

fn drawing(alternative: &Alternative, props: &DrawnProps) -> Html {
    let Some(condition) = props.design.conditions.get(props.place) else {
        return Html::default();
    };
    let Ok(found) = solve_condition(&alternative.installation, condition, None) else {
        return html! { <p class="fault">{ tr("No drawing: it has no answer in this condition.") }</p> };
    };
    let answer = evaluate::answer(&alternative.installation, condition, &found);
    Still {
        installation: &alternative.installation,
        condition,
        answer: &answer,
        system: props.system,
        view: View::All,
        size: ALL_VIEWS_PX,
        id: &format!("alternative{}", "i".repeat(props.at + 1)),
    }
    .html()
}

fn bars(
    made: &[Comparison],
    dimension: Dimension,
    system: UnitSystem,
    of: impl Fn(&Comparison) -> Option<Difference>,
    which: fn(&Compared<f64>) -> f64,
    band: fn(&Compared<coolpath_core::answer::band::Band>) -> coolpath_core::answer::band::Band,
) -> Vec<Bar> {
    let unit = dimension.shown(system);
    made.iter()
        .filter_map(|comparison| {
            let found = of(comparison)?;
            let (by, band) = (which(&found.by), band(&found.band));
            Some(Bar {
                name: comparison.name.clone(),
                by: unit.from_si(by),
                low: unit.from_si(by - band.below),
                high: unit.from_si(by + band.above),
            })
        })
        .collect()
}

fn charts(made: &[Comparison], system: UnitSystem, width: u32) -> Html {
    if made.is_empty() {
        return Html::default();
    }
    let heads = bars(
        made,
        Dimension::TemperatureDifference,
        system,
        |made| made.fixed.shown.clone().ok(),
        |by| by.head,
        |band| band.head,
    );
    let speeds = bars(
        made,
        Dimension::Speed,
        system,
        |made| made.at_equal_heads()?.level.clone()?.ok(),
        |by| by.speed,
        |band| band.speed,
    );
    let of_heads = differences::Subject {
        topic: tr("Hottest CHT, exit as it is"),
        unit: Dimension::TemperatureDifference.shown(system).symbol,
        less_is_better: true,
    };
    let of_speeds = differences::Subject {
        topic: tr("Speed in level flight, heads held equal"),
        unit: Dimension::Speed.shown(system).symbol,
        less_is_better: false,
    };
    let view = |of: &differences::Subject, bars: &[Bar], words: [&str; 2]| {
        let title = words::chart_title(bars, of, words);
        part!(FigureView {
            figure: differences::figure(&title, of, bars, width)
        })
    };
    html! {
        <>
            if !speeds.is_empty() {
                { view(&of_speeds, &speeds, [tr("fastest"), tr("slowest")]) }
            }
            { view(&of_heads, &heads, [tr("coolest heads"), tr("hottest")]) }
        </>
    }
}

/// Comparisons, one alternative a task, after the last keystroke.
#[hook]
fn use_comparisons(
    design: &Shared<Design>,
    standing: &Rc<Vec<Alternative>>,
    place: usize,
) -> Shared<Vec<Comparison>> {
    let job = use_job::<Shared<Vec<Comparison>>, Shared<Vec<Comparison>>>();
    {
        let (job, standing) = (job.clone(), standing.clone());
        use_effect_with((design.clone(), place), move |(design, place)| {
            let (design, place) = (design.clone(), *place);
            job.start(move |run| async move {
                let mut made = Shared::<Vec<Comparison>>::default();
                run.tell(made.clone());
                run.wait(Duration::from_millis(400)).await?;
                if design.check().is_err() {
                    return Ok(made);
                }
                for alternative in standing.iter().chain(&design.alternatives) {
                    let mut work = Comparing::new(&design, alternative, place);
                    let mut next = (*made).clone();
                    while !work.is_done() {
                        run.rest().await?;
                        next.extend(work.advance());
                    }
                    made = Shared::new(next);
                    run.tell(made.clone());
                }
                Ok(made)
            });
        });
    }
    match job.shown() {
        Shown::Working(made) | Shown::Done(made) => made.clone(),
        _ => Shared::default(),
    }
}
