//! The page: state in the middle, the form on one side, the answers on the other.

use crate::browser::{storage, window};
use crate::decide::card::panel::CardPanel;
use crate::decide::chances::SurePanel;
use crate::decide::climb::ClimbPanel;
use crate::decide::compare::panel::ComparePanel;
use crate::decide::minutes::panel::FlightPanel;
use crate::decide::size::panel::SizePanel;
use crate::design::answers::cautions::{Cautions, is_too_hot};
use crate::design::answers::condition_view::ConditionView;
use crate::design::answers::summary::Summary;
use crate::design::answers::{BandSet, Outcome, headline, reference_lines};
use crate::design::area::panel::AreaHelper;
use crate::design::sections::Sections;
use crate::design::withheld::Withheld;
use crate::fly::FlightTest;
use crate::kit::refused::Refused;
use crate::report::Paper;
use crate::share::panel::{Arrived, Share};
use crate::shell::first_use::FirstUse;
use crate::shell::keeping::Keeping;
use crate::shell::shelf::Shelf;
use crate::shell::toolbar;
use crate::shell::toolbar::Toolbar;
use crate::state::reduce::reduce;
use crate::state::{Action, State};
use crate::workshop::gauges::panel::Gauges;
use coolpath_core::answer::band::bands;
use coolpath_core::answer::evaluate;
use coolpath_core::answer::evaluate::Answer;
use coolpath_core::document::design::Design;
use coolpath_core::document::example;
use std::rc::Rc;
use std::time::Duration;
use yew::platform::{spawn_local, time::sleep};
use yew::prelude::*;

/// All answers of a design.
fn outcomes(design: &Design) -> Vec<Outcome> {
    evaluate::evaluate_all(design)
        .into_iter()
        .map(|found| found.map(Rc::new))
        .collect()
}

/// The page.
#[function_component]
pub fn App() -> Html {
    let started = use_memo((), |()| storage::load());
    let cell = use_mut_ref(|| Rc::new(started.0.clone()));
    let notice = use_state(|| started.1.clone());
    let redraw = use_force_update();
    let dispatch = {
        let (cell, notice) = (cell.clone(), notice.clone());
        use_callback((), move |action: Action, ()| {
            let next = Rc::new(reduce(&cell.borrow(), action));
            // Stored before anything is computed from it: a fault loses nothing.
            if let Err(sentence) = storage::save(&next) {
                notice.set(Some(sentence));
            }
            *cell.borrow_mut() = next;
            redraw.force_update();
        })
    };
    let state: Rc<State> = cell.borrow().clone();
    let notify = {
        let notice = notice.clone();
        Callback::from(move |sentence: String| notice.set(Some(sentence)))
    };
    let design = use_memo(state.design.clone(), Clone::clone);
    let answers = use_memo(design.clone(), |design| outcomes(design));
    let bands = use_bands(&design);
    let width = window::use_width();
    use_effect_with((), |()| storage::started());
    let dropped = use_state(|| None::<web_sys::File>);
    let on_drop = {
        let (dispatch, notify, dropped) = (dispatch.clone(), notify.clone(), dropped.clone());
        Callback::from(move |event: DragEvent| {
            event.prevent_default();
            let file = event
                .data_transfer()
                .and_then(|data| data.files())
                .and_then(|files| files.get(0));
            match file {
                Some(file) if file.name().ends_with(".json") => {
                    toolbar::open(file, dispatch.clone(), notify.clone());
                }
                // Anything else is taken for a log.
                Some(file) => {
                    dropped.set(Some(file));
                    window::go_to("log");
                }
                None => {}
            }
        })
    };
    let on_drag_over = Callback::from(|event: DragEvent| event.prevent_default());
    let hush = {
        let notice = notice.clone();
        Callback::from(move |_: MouseEvent| notice.set(None))
    };
    let found: Vec<Rc<Answer>> = answers.iter().flatten().cloned().collect();
    let refused = Refused(state.refused_sentence().map(AttrValue::from));
    html! {
        <ContextProvider<Refused> context={refused}>
        <div class="page" ondrop={on_drop} ondragover={on_drag_over}>
            <header class="masthead">
                <h1>{ "Coolpath" }</h1>
                <p>{ "Will the air cool this engine? An estimate to size openings with, before anything is cut. " }<a href="#flight-test">{ "Then prove it in flight." }</a></p>
                <Toolbar state={state.clone()} dispatch={dispatch.clone()} notify={notify.clone()} />
                <Keeping state={state.clone()} dispatch={dispatch.clone()} notify={notify.clone()} />
                <Shelf state={state.clone()} dispatch={dispatch.clone()} notify={notify.clone()} />
                <Share design={design.clone()} dispatch={dispatch.clone()} {notify} />
                <Arrived dispatch={dispatch.clone()} />
                if let Some(sentence) = (*notice).clone() {
                    <p class="message" role="status">{ sentence }
                        <button type="button" class="quiet" onclick={hush}>{ "Close" }</button></p>
                }
            </header>
            <FirstUse system={state.system} is_example={state.design == example::design()} dispatch={dispatch.clone()} />
            <main>
                <div class="columns">
                { answers_part(&state, &design, &answers, &bands, &found, width, &dispatch) }
                <div class="form">
                    <Sections state={state.clone()} dispatch={dispatch.clone()} />
                    <AreaHelper design={design.clone()} system={state.system} dispatch={dispatch.clone()} />
                    <Gauges design={design.clone()} system={state.system} dispatch={dispatch.clone()} />
                    <Cautions design={(*design).clone()} too_hot={is_too_hot(found.iter().map(AsRef::as_ref))} />
                </div>
                </div>
                <FlightTest state={state.clone()} design={design.clone()} answers={answers.clone()} {width} dropped={(*dropped).clone()} dispatch={dispatch.clone()} />
                <Paper state={state.clone()} design={design.clone()} answers={answers.clone()} bands={bands.clone()} dispatch={dispatch.clone()} />
            </main>
            <p class="short-line"><a href="#answers">{ headline::short_line(&answers, state.system) }</a></p>
        </div>
        </ContextProvider<Refused>>
    }
}

fn answers_part(
    state: &Rc<State>,
    design: &Rc<Design>,
    answers: &Rc<Vec<Outcome>>,
    bands: &Rc<BandSet>,
    found: &[Rc<Answer>],
    width: u32,
    dispatch: &Callback<Action>,
) -> Html {
    let faults = state.faults();
    let on_show = dispatch.reform(Action::Show);
    let lines = reference_lines::lines(design, found, state.system);
    html! {
        <div class="answers-part" id="answers">
            <section class="section" aria-label="Answers">
                <h2>{ "Answers" }</h2>
                <Withheld state={state.clone()} />
                if !faults.is_empty() {
                    <p class="stale" role="status">
                        { format!("These answers are for the last valid values; {} not used: ", if faults.len() == 1 { "one text is" } else { "some texts are" }) }
                        { faults.iter().map(|(_, fault)| fault.clone()).collect::<Vec<_>>().join("; ") }
                    </p>
                }
                <div aria-live="polite">
                    { for headline::sentences(answers, state.system).into_iter().map(|(inside, text)| html! {
                        <p class={if inside { "headline inside" } else { "headline outside" }}>{ text }</p>
                    }) }
                </div>
                <div class="scroll" tabindex="0" role="region" aria-label="Answers per condition">
                    <Summary design={design.clone()} answers={answers.clone()} bands={bands.clone()} system={state.system} shown={state.shown} on_show={on_show.clone()} />
                </div>
                <p class="hint">{ "Small print under a number: how far it may lie below and above, from the likely ranges of all assumptions (about nine cases in ten). Temperatures are rounded." }</p>
            </section>
            <ConditionView design={design.clone()} answers={answers.clone()} place={state.shown} system={state.system} {width} {on_show} />
            <SizePanel design={design.clone()} system={state.system} {width} dispatch={dispatch.clone()} />
            <ClimbPanel design={design.clone()} place={state.shown} system={state.system} />
            <FlightPanel design={design.clone()} system={state.system} state={state.clone()} dispatch={dispatch.clone()} {width} />
            <CardPanel design={design.clone()} place={state.shown} system={state.system} {width} />
            <SurePanel design={design.clone()} place={state.shown} system={state.system} {width} />
            <ComparePanel design={design.clone()} place={state.shown} system={state.system} {width} dispatch={dispatch.clone()} />
            <details class="section">
                <summary>{ "What practitioners say, beside this design" }</summary>
                <p class="hint">{ "Common practice, without a source; each holds for its own condition only." }</p>
                <dl class="numbers">
                    { for lines.into_iter().map(|line| html! { <div><dt>{ line.rule }</dt><dd>{ line.own }</dd></div> }) }
                </dl>
            </details>
        </div>
    }
}

/// Bands, computed one condition at a time after the last keystroke, so that typing stays fluid.
#[hook]
fn use_bands(design: &Rc<Design>) -> Rc<BandSet> {
    let shown = use_state(|| Rc::new(BandSet::new()));
    let generation = use_mut_ref(|| 0_u64);
    {
        let shown = shown.clone();
        use_effect_with(design.clone(), move |design| {
            *generation.borrow_mut() += 1;
            let mine = *generation.borrow();
            let design = design.clone();
            shown.set(Rc::new(BandSet::new()));
            spawn_local(async move {
                let mut set = BandSet::new();
                sleep(Duration::from_millis(150)).await;
                if design.check().is_err() {
                    return;
                }
                for place in 0..design.conditions.len() {
                    sleep(Duration::ZERO).await;
                    if *generation.borrow() != mine {
                        return;
                    }
                    set.push(bands(&design, place).ok().map(Rc::new));
                    shown.set(Rc::new(set.clone()));
                }
            });
        });
    }
    (*shown).clone()
}
