//! "Report": everything that an inspector needs to check a figure, on paper.

use crate::browser::window;
use crate::charts;
use crate::charts::Size;
use crate::charts::sweeps::View;
use crate::design::answers::cautions::{cautions, is_too_hot};
use crate::design::answers::condition_view::{SweepBands, use_sweep_bands};
use crate::design::answers::summary::Summary;
use crate::design::answers::why::origin;
use crate::design::answers::{details, headline};
use crate::design::drawing_pane::{ALL_VIEWS_PX, Still};
use crate::kit::controls::option_field;
use crate::kit::format;
use crate::kit::later::use_after_pause;
use crate::kit::page::{BandSet, Outcome, use_page};
use crate::kit::refused::RefusedNote;
use crate::kit::shared::Shared;
use crate::kit::verdict::Verdict;
use crate::part;
use crate::report::tables;
use crate::report::tables::Rows;
use crate::sheet::View as Drawn;
use crate::workshop::cut::sheets::Paper;
use coolpath_core::answer::evaluate::Answer;
use coolpath_core::answer::solve_condition::solve_condition;
use coolpath_core::answer::verdict;
use coolpath_core::answer::why::derivations;
use coolpath_core::document::design::Design;
use coolpath_core::language::tr;
use coolpath_core::units::typed::UnitSystem;
use std::rc::Rc;
use yew::prelude::*;

/// What the report is of.
#[derive(Clone, PartialEq)]
pub struct Wanted {
    /// Design.
    pub design: Shared<Design>,
    /// Its answers.
    pub answers: Shared<Vec<Outcome>>,
    /// Their bands.
    pub bands: Shared<BandSet>,
    /// The verdicts on them.
    pub verdicts: Shared<Vec<Option<Verdict>>>,
    /// Units.
    pub system: UnitSystem,
}

/// Size of a chart on paper, CSS pixels.
const CHART: Size = Size {
    width: 560,
    height: 240,
};

/// The panel; it draws the report only while it stands open.
#[function_component]
pub fn ReportPanel() -> Html {
    let wanted = use_page(|page| Wanted {
        design: page.design.clone(),
        answers: page.answers.clone(),
        bands: page.bands.clone(),
        verdicts: page.verdicts.clone(),
        system: page.system(),
    });
    let letter = use_state(|| false);
    let choose_paper = {
        let letter = letter.clone();
        move |at| letter.set(at == 1)
    };
    let print = Callback::from(|_: MouseEvent| window::print_only("print-report"));
    let shown = use_after_pause(&wanted);
    // What is printed is never out of date.
    let waiting = shown != wanted;
    html! {
        <section class="section" id="report-panel" tabindex="-1" aria-label={tr("Report")}>
            <p class="hint">{ tr("Inputs with where each comes from, limits, answers with bands, the equations with their values, readings, cautions, the change log: for your inspector and your own files. Check it on the screen, then print.") }</p>
            <div class="fields">
                { option_field("report-paper", tr("Paper of the report"), Paper::ALL.map(|paper| paper.name().to_owned()), usize::from(*letter), choose_paper) }
            </div>
            <div class="buttons"><button type="button" onclick={print} disabled={waiting}>{ tr("Print the report") }</button></div>
            { part!(Report { shown, letter: *letter }) }
        </section>
    }
}

fn table(name: &'static str, columns: &[&'static str], rows: Rows) -> Html {
    if rows.is_empty() {
        return Html::default();
    }
    html! {
        <>
            <h3>{ name }</h3>
            <div class="scroll" tabindex="0" role="region" aria-label={tr!("Report: {}", name)}>
                <table>
                    <thead><tr>{ for columns.iter().map(|column| html! { <th scope="col">{ *column }</th> }) }</tr></thead>
                    <tbody>{ for rows.into_iter().map(|row| html! { <tr>{ for row.into_iter().map(|cell| html! { <td>{ cell }</td> }) }</tr> }) }</tbody>
                </table>
            </div>
        </>
    }
}

/// The worst condition that has an answer.
fn worst<'a>(
    answers: &'a [Outcome],
    verdicts: &[Option<Verdict>],
) -> Option<(usize, &'a Rc<Answer>)> {
    let judged: Vec<(usize, &Verdict)> = verdicts
        .iter()
        .enumerate()
        .filter_map(|(place, verdict)| Some((place, verdict.as_ref()?)))
        .collect();
    let at = verdict::worst(judged.iter().map(|(_, verdict)| Some(&verdict.judgement)))?;
    let (place, _) = judged[at];
    Some((place, answers.get(place)?.as_ref().ok()?))
}

/// What the report shows, and on which paper.
#[derive(Properties, Clone, PartialEq)]
pub struct ReportProps {
    /// What it is of.
    pub shown: Wanted,
    /// On US Letter.
    pub letter: bool,
}

/// The report itself.
#[function_component]
pub fn Report(props: &ReportProps) -> Html {
    let Wanted {
        design,
        answers,
        bands,
        verdicts,
        system,
    } = &props.shown;
    let (system, letter) = (*system, props.letter);
    let least = worst(answers, verdicts);
    let swept = use_sweep_bands(design, least.map_or(0, |(place, _)| place));
    let engine = &design.installation.engine;
    let found = answers.iter().filter_map(|outcome| outcome.as_ref().ok());
    let too_hot = is_too_hot(found.map(AsRef::as_ref));
    let page = if engine.limits_page.is_empty() {
        tr("page not noted").to_owned()
    } else {
        tr!("page {}", engine.limits_page)
    };
    let limits: Rows = [
        (tr("Head, hottest cylinder"), engine.head_limit.value),
        (tr("Oil temperature"), engine.oil_limit.value),
    ]
    .into_iter()
    .map(|(what, kelvin)| {
        vec![
            what.to_owned(),
            format::degrees(kelvin, system),
            tr!("the owner's, from the engine's manual, {}", page),
        ]
    })
    .collect();
    let changes: Rows = design
        .changes
        .iter()
        .map(|change| vec![change.day.clone(), change.what.clone()])
        .collect();
    html! {
        <article class={if letter { "report report-letter" } else { "report report-a4" }}>
            <h2>{ tr!("Cooling report: {}", design.name) }</h2>
            <p>{ tr!("Coolpath {}, design {}, {}.", env!("CARGO_PKG_VERSION"), tables::fingerprint(design), window::today()) }</p>
            { part!(RefusedNote) }
            <p>{ tr("An estimate. The engine's manual sets the limits, flight test decides, and local rules, the authority and licensed engineers or inspectors come first.") }</p>
            { for headline::sentences(answers, system).into_iter().map(|(_, text)| html! { <p><strong>{ text }</strong></p> }) }
            { table(tr("Limits"), &[tr("What"), tr("Limit"), tr("Whose")], limits) }
            <h3>{ tr("Answers") }</h3>
            <div class="scroll answers-paper" tabindex="0" role="region" aria-label={tr("Answers of the report")}>
                { part!(Summary { design: design.clone(), answers: answers.clone(), bands: bands.clone(), system, shown: usize::MAX, on_show: Callback::noop() }) }
            </div>
            <p class="hint">{ tr("Small print: how far a number may lie below and above in about nine cases in ten.") }</p>
            { least.map(|(place, answer)| worst_condition(design, place, answer, &swept, system)).unwrap_or_default() }
            { table(tr("Alternatives, computed as they stand"), &[tr("Alternative"), tr("Condition"), tr("Hottest head"), tr("Oil"), "Δp"], tables::alternatives(design, system)) }
            { table(tr("Numbers put in"), &[tr("What"), tr("Value"), tr("Where from"), tr("Likely range"), tr("Source")], tables::inputs(design, system)) }
            { table(tr("Choices"), &[tr("What"), tr("Taken")], tables::choices(design)) }
            { table(tr("Readings"), &[tr("Reading"), tr("What"), tr("As shown"), tr("Corrected")], tables::readings(design, system)) }
            { table(tr("Instruments: added to what they show"), &[tr("What"), tr("Added")], tables::instruments(design, system)) }
            { table(tr("Change log"), &[tr("Day"), tr("What was changed")], changes) }
            <h3>{ tr("Cautions") }</h3>
            <ul>{ for cautions(design, too_hot).into_iter().map(|caution| html! { <li>{ caution }</li> }) }</ul>
            <div class="signatures">
                { for [tr("Made by, date"), tr("Checked by, date"), tr("Inspector, date")].into_iter().map(|who| html! { <div><span>{ who }</span></div> }) }
            </div>
        </article>
    }
}

/// The worst condition in full: drawing, numbers, equations, charts.
fn worst_condition(
    design: &Design,
    place: usize,
    answer: &Answer,
    swept: &SweepBands,
    system: UnitSystem,
) -> Html {
    let Some(condition) = design.conditions.get(place) else {
        return Html::default();
    };
    let installation = &design.installation;
    let view = |bands| View {
        installation,
        condition,
        system,
        size: CHART,
        bands,
    };
    let mut figures = vec![charts::ladder::figure(answer, system, CHART)];
    figures.extend(charts::sweeps::over_airspeed(&view(&swept.airspeed)));
    figures.push(charts::sweeps::over_oat(&view(&swept.oat)));
    let rows: Rows = details::rows(answer, system)
        .into_iter()
        .map(|(what, value)| vec![what.to_owned(), value])
        .collect();
    let equations: Rows = solve_condition(installation, condition, None)
        .map(|solved| derivations(installation, &solved))
        .unwrap_or_default()
        .iter()
        .map(|derived| {
            let terms: Vec<String> = derived
                .terms
                .iter()
                .map(|term| {
                    format!(
                        "{} = {} ({}; {})",
                        term.symbol,
                        format::quantity(term.value, term.dimension, system, 5),
                        term.meaning,
                        origin(term, design, place)
                    )
                })
                .collect();
            vec![
                derived.answer.to_owned(),
                format!(
                    "{} = {}",
                    derived.equation,
                    format::quantity(derived.value, derived.dimension, system, 5)
                ),
                terms.join("; "),
                derived.source.to_owned(),
            ]
        })
        .collect();
    let drawing = Still {
        installation,
        condition,
        answer,
        system,
        view: Drawn::All,
        size: ALL_VIEWS_PX,
        id: "report",
    };
    html! {
        <>
            <h3>{ tr!("The worst condition: {}", condition.name) }</h3>
            <div class="scroll" tabindex="0" role="region" aria-label={tr("Drawing of the report")}>
                { drawing.html() }
            </div>
            { table(tr("Its numbers"), &[tr("What"), tr("Value")], rows) }
            { table(tr("The working"), &[tr("Answer"), tr("Equation"), tr("Terms"), tr("Source")], equations) }
            { for figures.into_iter().map(|figure| html! {
                <figure class="figure">
                    <figcaption><h3>{ figure.title.clone() }</h3><p>{ figure.caption() }</p></figcaption>
                    { Html::from_html_unchecked(AttrValue::from(figure.svg.clone())) }
                    <p class="source">{ figure.source.clone() }</p>
                </figure>
            }) }
        </>
    }
}
