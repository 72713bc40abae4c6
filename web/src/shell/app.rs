//! The page: state in the middle, the frame around it, one view at a time.

use crate::browser::{storage, window};
use crate::decide::view::DecideView;
use crate::design::answers::{BandSet, Outcome};
use crate::design::bench::Bench;
use crate::design::withheld::Withheld;
use crate::fly::FlightTest;
use crate::kit::refused::Refused;
use crate::kit::verdict;
use crate::kit::verdict::Verdict;
use crate::report::ReportView;
use crate::share::code::is_code;
use crate::share::panel::Arrived;
use crate::shell::first_use::FirstUse;
use crate::shell::header::Header;
use crate::shell::keeping::Keeping;
use crate::shell::live::{use_bands, use_route};
use crate::shell::route::{Route, View};
use crate::shell::toolbar;
use crate::shell::verdict_bar::VerdictBar;
use crate::state::reduce::reduce;
use crate::state::{Action, State};
use crate::workshop::view::WorkshopView;
use coolpath_core::answer::evaluate;
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::Installation;
use std::rc::Rc;
use yew::prelude::*;

/// All answers of a design.
fn outcomes(design: &Design) -> Vec<Outcome> {
    evaluate::evaluate_all(design)
        .into_iter()
        .map(|found| found.map(Rc::new))
        .collect()
}

fn verdicts(
    installation: &Installation,
    answers: &[Outcome],
    bands: &BandSet,
) -> Vec<Option<Verdict>> {
    answers
        .iter()
        .enumerate()
        .map(|(place, outcome)| {
            let spread = bands.get(place).and_then(Option::as_ref);
            let answer = outcome.as_ref().ok()?;
            Some(verdict::of(installation, answer, spread.map(AsRef::as_ref)))
        })
        .collect()
}

/// Whether nothing is stored here yet, and the link brings nothing either.
fn is_first_visit() -> bool {
    !storage::holds_any() && storage::kept_names().is_empty() && !is_code(&window::fragment())
}

/// What all views show.
#[derive(Clone)]
struct Shown {
    state: Rc<State>,
    design: Rc<Design>,
    answers: Rc<Vec<Outcome>>,
    bands: Rc<BandSet>,
    verdicts: Rc<Vec<Option<Verdict>>>,
    width: u32,
    dropped: Option<web_sys::File>,
    dispatch: Callback<Action>,
}

/// The page.
#[function_component]
pub fn App() -> Html {
    let started = use_memo((), |()| (is_first_visit(), storage::load()));
    let (first_visit, (stored, said)) = &*started;
    let cell = use_mut_ref(|| Rc::new(stored.clone()));
    let notice = use_state(|| said.clone());
    let welcoming = use_state(|| *first_visit);
    let asking = use_state(|| false);
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
    let found = use_memo(
        (Same(answers.clone()), Same(bands.clone())),
        |(answers, bands)| verdicts(&design.installation, &answers.0, &bands.0),
    );
    let width = window::use_width();
    let route = use_route();
    use_effect_with((), |()| storage::started());
    let dropped = use_state(|| None::<web_sys::File>);
    let on_drop = on_drop(&dispatch, &notify, &dropped);
    let on_drag_over = Callback::from(|event: DragEvent| event.prevent_default());
    let on_ask = {
        let asking = asking.clone();
        Callback::from(move |()| asking.set(true))
    };
    let begun = {
        let (welcoming, asking, dispatch) = (welcoming.clone(), asking.clone(), dispatch.clone());
        let shown = state.shown;
        Callback::from(move |()| {
            welcoming.set(false);
            asking.set(false);
            // Stored now, so that the next visit goes on from here.
            dispatch.emit(Action::Show(shown));
        })
    };
    let refused = Refused(state.refused_sentence().map(AttrValue::from));
    let visited = use_mut_ref(|| [false; View::ALL.len()]);
    let all = Shown {
        state: state.clone(),
        design: design.clone(),
        answers: answers.clone(),
        bands: bands.clone(),
        verdicts: found.clone(),
        width,
        dropped: (*dropped).clone(),
        dispatch: dispatch.clone(),
    };
    html! {
        <ContextProvider<Refused> context={refused}>
        <div class="page" ondrop={on_drop} ondragover={on_drag_over}>
            if *welcoming || *asking {
                <FirstUse system={state.system} welcoming={*welcoming} asking={*asking} dispatch={dispatch.clone()} notify={notify.clone()} {begun} />
                { said_line(&notice) }
            } else {
                <Header view={route.view} state={state.clone()} design={design.clone()} dispatch={dispatch.clone()} notify={notify.clone()} {on_ask} />
                <VerdictBar design={design.clone()} {answers} verdicts={found} system={state.system} />
                // Small components that speak up from time to time stand here, under the verdict.
                <div class="notices">
                    <Arrived dispatch={dispatch.clone()} />
                    { said_line(&notice) }
                    { stale_line(&state) }
                    <Withheld state={state.clone()} />
                </div>
                <main id="main">
                    { for View::ALL.into_iter().enumerate().map(|(at, view)| {
                        let shown = view == route.view;
                        visited.borrow_mut()[at] |= shown;
                        let content = visited.borrow()[at].then(|| view_of(view, route, shown, &all));
                        html! {
                            <div key={view.fragment()} id={view.fragment()} class="view" hidden={!shown}>
                                { content.unwrap_or_default() }
                            </div>
                        }
                    }) }
                </main>
                <Keeping state={state.clone()} dispatch={dispatch.clone()} notify={notify.clone()} />
            }
        </div>
        </ContextProvider<Refused>>
    }
}

/// Something compared by its identity.
#[derive(Clone)]
struct Same<T>(Rc<T>);

impl<T> PartialEq for Same<T> {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}

/// A view; once visited it stays, so that nothing begun in it is lost.
fn view_of(view: View, route: Route, shown: bool, all: &Shown) -> Html {
    let Shown {
        state,
        design,
        answers,
        bands,
        verdicts,
        width,
        dropped,
        dispatch,
    } = all.clone();
    match view {
        View::Design => html! {
            <Bench page={route.page} {shown} {state} {design} {answers} {bands} {verdicts} {width} {dispatch} />
        },
        View::Decide => html! { <DecideView {shown} {state} {design} {width} {dispatch} /> },
        View::Fly => html! {
            <FlightTest {shown} {state} {design} {answers} {width} {dropped} {dispatch} />
        },
        View::Workshop => html! { <WorkshopView {shown} {state} {design} {dispatch} /> },
        View::Report => html! {
            <ReportView {shown} {design} {answers} {bands} system={state.system} />
        },
    }
}

fn said_line(notice: &UseStateHandle<Option<String>>) -> Html {
    let Some(sentence) = (**notice).clone() else {
        return Html::default();
    };
    let hush = {
        let notice = notice.clone();
        Callback::from(move |_: MouseEvent| notice.set(None))
    };
    html! {
        <p class="message" role="status">{ sentence }
            <button type="button" class="quiet" onclick={hush}>{ "Close" }</button></p>
    }
}

fn stale_line(state: &State) -> Html {
    let faults = state.faults();
    if faults.is_empty() {
        return Html::default();
    }
    let texts = if faults.len() == 1 {
        "one text is"
    } else {
        "some texts are"
    };
    let list: Vec<String> = faults.into_iter().map(|(_, fault)| fault).collect();
    html! {
        <p class="stale" role="status">
            { format!("The answers are for the last valid values; {texts} not used: {}", list.join("; ")) }
        </p>
    }
}

/// Takes what is dropped on the page: a design file, or else a log.
fn on_drop(
    dispatch: &Callback<Action>,
    notify: &Callback<String>,
    dropped: &UseStateHandle<Option<web_sys::File>>,
) -> Callback<DragEvent> {
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
            Some(file) => {
                dropped.set(Some(file));
                window::set_fragment("log");
            }
            None => {}
        }
    })
}
