//! The design view: the drawing with its parts, or the whole form, or all results.

use crate::charts::save::Save;
use crate::design::answers::cautions::Cautions;
use crate::design::answers::condition_view::ConditionView;
use crate::design::answers::summary::Summary;
use crate::design::answers::{headline, reference_lines, summary_sheet};
use crate::design::drawing_pane::DrawingPane;
use crate::design::part_panel::PartPanel;
use crate::design::parts;
use crate::design::parts::Part;
use crate::design::sections::Sections;
use crate::design::strip::Strip;
use crate::kit::page::{use_dispatch, use_page};
use crate::part;
use crate::state::Action;
use coolpath_core::answer::evaluate::Answer;
use coolpath_core::language::tr;
use std::rc::Rc;
use yew::prelude::*;

/// A page of the view.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Page {
    /// The drawing with the part that is chosen.
    Drawing,
    /// The whole form.
    Inputs,
    /// Tables and charts.
    Results,
}

/// The view, with the page of it that is in the context.
#[function_component]
pub fn Bench() -> Html {
    let page = use_context::<Page>().unwrap_or(Page::Drawing);
    let selected = use_state(|| Part::Exit(0));
    let sheet = use_state(|| false);
    let on_select = {
        let (selected, sheet) = (selected.setter(), sheet.setter());
        use_callback((), move |part: Part, ()| {
            selected.set(part);
            sheet.set(true);
        })
    };
    let on_close = {
        let sheet = sheet.setter();
        use_callback((), move |(), ()| sheet.set(false))
    };
    let on_key = {
        let sheet = sheet.setter();
        Callback::from(move |event: KeyboardEvent| {
            if event.key() == "Escape" {
                sheet.set(false);
            }
        })
    };
    // A part that has been removed since is chosen no more.
    let wanted = *selected;
    let part = use_page(move |page| {
        let stands = parts::parts(&page.design).contains(&wanted);
        if stands { wanted } else { Part::Inlet(0) }
    });
    let body = match page {
        Page::Drawing => html! { <>
            <div class="bench" onkeydown={on_key}>
                <section class="draw" id="drawing" aria-label={tr("Drawing")}>
                    { part!(DrawingPane { selected: part, on_select: on_select.clone() }) }
                </section>
                { part!(PartPanel { part, open: *sheet, on_select, on_close }) }
            </div>
            { part!(Strip) }
            <nav class="jobs phone-jobs" aria-label={tr("Decisions")}>{ jobs() }</nav>
            { pages(page) }
            { part!(Cautions) }
        </> },
        Page::Inputs => html! { <>
            { pages(page) }
            { part!(Strip) }
            <div class="form" id="inputs" tabindex="-1">
                { part!(Sections) }
                { part!(Cautions) }
            </div>
        </> },
        Page::Results => html! { <>
            { pages(page) }
            { part!(Strip) }
            { part!(Results) }
        </> },
    };
    html! { <div class="bench-view">{ body }</div> }
}

/// The three decisions.
pub fn jobs() -> Html {
    html! { <>
        <a class="button primary" href="#size">{ tr("Size the openings") }</a>
        <a class="button" href="#compare">{ tr("Plenum or seals?") }</a>
        <a class="button" href="#card">{ tr("Shutter today") }</a>
    </> }
}

/// The pages of the view.
fn pages(page: Page) -> Html {
    let link = |to: Page, href: &'static str, name: &'static str| {
        html! { <a {href} aria-current={(to == page).then_some("page")}>{ name }</a> }
    };
    html! {
        <nav class="pages" aria-label={tr("Pages of the design")}>
            { link(Page::Drawing, "#design", tr("Drawing")) }
            { link(Page::Inputs, "#inputs", tr("All inputs")) }
            { link(Page::Results, "#results", tr("All results")) }
        </nav>
    }
}

/// All conditions, one in full, and what practitioners say.
#[function_component]
fn Results() -> Html {
    let (design, answers, bands, system, place) = use_page(|page| {
        (
            page.design.clone(),
            page.answers.clone(),
            page.bands.clone(),
            page.system(),
            page.place(),
        )
    });
    let on_show = use_dispatch().reform(Action::Show);
    let found: Vec<Rc<Answer>> = answers.iter().flatten().cloned().collect();
    let lines = reference_lines::lines(&design, &found, system);
    html! {
        <div class="results" id="results" tabindex="-1">
            <section class="section" id="answers" aria-label={tr("All conditions")}>
                <h2>{ tr("All conditions") }</h2>
                { for headline::sentences(&answers, system).into_iter().map(|(under, text)| html! {
                    <p class={if under { "headline" } else { "headline outside" }}>{ text }</p>
                }) }
                { part!(Save { sheet: summary_sheet::sheet(&design, &answers, &bands, system) }) }
                <div class="scroll" tabindex="0" role="region" aria-label={tr("Answers per condition")}>
                    { part!(Summary { design, answers, bands, system, shown: place, on_show }) }
                </div>
                <p class="hint">{ tr("Small range under a number: 9 chances in 10. Temperatures are rounded.") }</p>
            </section>
            { part!(ConditionView) }
            <details class="section" id="practice">
                <summary>{ tr("What practitioners say, beside this design") }</summary>
                <p class="hint">{ tr("Common practice, without a source; each holds for its own condition only.") }</p>
                <dl class="numbers">
                    { for lines.into_iter().map(|line| html! { <div><dt>{ line.rule }</dt><dd>{ line.own }</dd></div> }) }
                </dl>
            </details>
        </div>
    }
}
