//! The design view: the drawing with its parts, or the whole form, or all results.

use crate::design::answers::cautions::{Cautions, is_too_hot};
use crate::design::answers::condition_view::ConditionView;
use crate::design::answers::summary::Summary;
use crate::design::answers::{BandSet, Outcome, headline, reference_lines};
use crate::design::drawing_pane::DrawingPane;
use crate::design::part_panel::PartPanel;
use crate::design::parts::Part;
use crate::design::sections::Sections;
use crate::design::strip::{Strip, manner};
use crate::kit::verdict::Verdict;
use crate::state::{Action, State};
use coolpath_core::answer::evaluate::Answer;
use coolpath_core::document::design::Design;
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

/// What the view needs.
#[derive(Properties, Clone)]
pub struct Props {
    /// Page of the view.
    pub page: Page,
    /// Whether the view is shown; while it is not, nothing is worked out.
    pub shown: bool,
    /// State of the page.
    pub state: Rc<State>,
    /// Design.
    pub design: Rc<Design>,
    /// Its answers.
    pub answers: Rc<Vec<Outcome>>,
    /// Their bands.
    pub bands: Rc<BandSet>,
    /// Verdicts on them.
    pub verdicts: Rc<Vec<Option<Verdict>>>,
    /// Room for charts, CSS pixels.
    pub width: u32,
    /// What editing does.
    pub dispatch: Callback<Action>,
}

impl PartialEq for Props {
    fn eq(&self, other: &Self) -> bool {
        (!self.shown && !other.shown)
            || (self.shown == other.shown
                && self.page == other.page
                && Rc::ptr_eq(&self.state, &other.state)
                && Rc::ptr_eq(&self.answers, &other.answers)
                && Rc::ptr_eq(&self.bands, &other.bands)
                && Rc::ptr_eq(&self.verdicts, &other.verdicts)
                && self.width == other.width)
    }
}

/// The view.
#[function_component]
pub fn Bench(props: &Props) -> Html {
    let Props {
        page,
        state,
        design,
        answers,
        bands,
        verdicts,
        dispatch,
        ..
    } = props;
    let selected = use_state(|| Part::Exit(0));
    let sheet = use_state(|| false);
    let system = state.system;
    let on_show = dispatch.reform(Action::Show);
    let on_select = {
        let (selected, sheet) = (selected.clone(), sheet.clone());
        Callback::from(move |part: Part| {
            selected.set(part);
            sheet.set(true);
        })
    };
    let on_close = {
        let sheet = sheet.clone();
        Callback::from(move |()| sheet.set(false))
    };
    let on_key = {
        let sheet = sheet.clone();
        Callback::from(move |event: KeyboardEvent| {
            if event.key() == "Escape" {
                sheet.set(false);
            }
        })
    };
    // A part that has been removed since is chosen no more.
    let part = if crate::design::parts::parts(design).contains(&selected) {
        *selected
    } else {
        Part::Inlet(0)
    };
    let found: Vec<Rc<Answer>> = answers.iter().flatten().cloned().collect();
    let strip = html! {
        <Strip design={design.clone()} answers={answers.clone()} bands={bands.clone()} verdicts={verdicts.clone()}
            {system} shown={state.shown} on_show={on_show.clone()} />
    };
    let cautions = html! {
        <Cautions design={(**design).clone()} too_hot={is_too_hot(found.iter().map(AsRef::as_ref))} />
    };
    let body = match page {
        Page::Drawing => html! { <>
            <div class="bench" onkeydown={on_key}>
                <section class="draw" id="drawing" aria-label="Drawing">
                    { caption(state, design, &on_select) }
                    <DrawingPane design={design.clone()} answers={answers.clone()} place={state.shown}
                        {system} selected={part} on_select={on_select.clone()} />
                </section>
                <PartPanel state={state.clone()} design={design.clone()} answers={answers.clone()} {part}
                    open={*sheet} {on_select} {on_close} dispatch={dispatch.clone()} />
            </div>
            { strip }
            <nav class="jobs phone-jobs" aria-label="Decisions">{ jobs() }</nav>
            { pages(*page) }
            { cautions }
        </> },
        Page::Inputs => html! { <>
            { pages(*page) }
            { strip }
            <div class="form" id="inputs" tabindex="-1">
                <Sections state={state.clone()} dispatch={dispatch.clone()} />
                { cautions }
            </div>
        </> },
        Page::Results => html! { <>
            { pages(*page) }
            { strip }
            { results(props, &found, on_show) }
        </> },
    };
    html! { <div class="bench-view">{ body }</div> }
}

/// The three decisions.
pub fn jobs() -> Html {
    html! { <>
        <a class="button primary" href="#size">{ "Size the openings" }</a>
        <a class="button" href="#compare">{ "Plenum or seals?" }</a>
        <a class="button" href="#card">{ "Shutter today" }</a>
    </> }
}

/// The pages of the view.
fn pages(page: Page) -> Html {
    let link = |to: Page, href: &'static str, name: &'static str| {
        html! { <a {href} aria-current={(to == page).then_some("page")}>{ name }</a> }
    };
    html! {
        <nav class="pages" aria-label="Pages of the design">
            { link(Page::Drawing, "#design", "Drawing") }
            { link(Page::Inputs, "#inputs", "All inputs") }
            { link(Page::Results, "#results", "All results") }
        </nav>
    }
}

fn caption(state: &State, design: &Design, on_select: &Callback<Part>) -> Html {
    let condition = design.conditions.get(state.shown);
    let words = condition.map_or_else(String::new, |condition| {
        format!("{}, {}.", condition.name, manner(condition, state.system))
    });
    let edit = on_select.reform(|_: MouseEvent| Part::Condition);
    html! {
        <div class="draw-bar">
            <p><strong>{ words }</strong>{ " Click a part to edit it." }</p>
            <button type="button" class="quiet" onclick={edit}>{ "Edit this condition" }</button>
        </div>
    }
}

fn results(props: &Props, found: &[Rc<Answer>], on_show: Callback<usize>) -> Html {
    let Props {
        state,
        design,
        answers,
        bands,
        width,
        ..
    } = props;
    let system = state.system;
    let lines = reference_lines::lines(design, found, system);
    html! {
        <div class="results" id="results" tabindex="-1">
            <section class="section" id="answers" aria-label="All conditions">
                <h2>{ "All conditions" }</h2>
                { for headline::sentences(answers, system).into_iter().map(|(inside, text)| html! {
                    <p class={if inside { "headline inside" } else { "headline outside" }}>{ text }</p>
                }) }
                <div class="scroll" tabindex="0" role="region" aria-label="Answers per condition">
                    <Summary design={design.clone()} answers={answers.clone()} bands={bands.clone()} {system} shown={state.shown} on_show={on_show.clone()} />
                </div>
                <p class="hint">{ "Small range under a number: 9 chances in 10. Temperatures are rounded." }</p>
            </section>
            <ConditionView design={design.clone()} answers={answers.clone()} place={state.shown} {system} width={*width} {on_show} />
            <details class="section" id="practice">
                <summary>{ "What practitioners say, beside this design" }</summary>
                <p class="hint">{ "Common practice, without a source; each holds for its own condition only." }</p>
                <dl class="numbers">
                    { for lines.into_iter().map(|line| html! { <div><dt>{ line.rule }</dt><dd>{ line.own }</dd></div> }) }
                </dl>
            </details>
        </div>
    }
}
