//! The page: state in the middle, the frame around it, one view at a time.

use crate::browser::{popovers, storage, window};
use crate::design::withheld::Withheld;
use crate::kit::page::{BandSet, Book, Outcome, Page, known_bands, use_book};
use crate::kit::shared::Shared;
use crate::kit::verdict;
use crate::kit::verdict::Verdict;
use crate::part;
use crate::share::arrived::Arrived;
use crate::shell::desk::{Deed, Desk};
use crate::shell::first_use::FirstUse;
use crate::shell::foot::Foot;
use crate::shell::header::Header;
use crate::shell::keeping::Keeping;
use crate::shell::later::Fetch;
use crate::shell::live::{use_bands, use_route};
use crate::shell::room::Room;
use crate::shell::route::View;
use crate::shell::toolbar;
use crate::shell::verdict_bar::VerdictBar;
use crate::state::{Action, State};
use coolpath_core::answer::evaluate;
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::Installation;
use coolpath_core::language::tr;
use std::rc::Rc;
use yew::prelude::*;

/// All answers of a design.
pub(crate) fn outcomes(design: &Design) -> Vec<Outcome> {
    evaluate::evaluate_all(design)
        .into_iter()
        .map(|found| found.map(Rc::new))
        .collect()
}

/// Verdicts on the answers, with the bands that are known.
pub(crate) fn verdicts(
    installation: &Installation,
    answers: &[Outcome],
    bands: &BandSet,
) -> Vec<Option<Verdict>> {
    answers
        .iter()
        .enumerate()
        .map(|(place, outcome)| {
            let answer = outcome.as_ref().ok()?;
            Some(verdict::of(installation, answer, known_bands(bands, place)))
        })
        .collect()
}

type Dispatcher = UseReducerDispatcher<Desk>;

/// What changes the desk in one way; the same one as long as the page stands.
#[hook]
fn use_deed<T: 'static>(dispatcher: Dispatcher, deed: fn(T) -> Deed) -> Callback<T> {
    use_callback((), move |value: T, ()| dispatcher.dispatch(deed(value)))
}

/// All that stands on the page, worked out from its state.
#[hook]
fn use_everything(desk: &Desk, dispatcher: &Dispatcher) -> Page {
    let answers = Shared::from(use_memo(desk.design.clone(), |design| outcomes(design)));
    let bands = use_bands(&desk.design);
    let verdicts = Shared::from(use_memo(
        (desk.design.clone(), answers.clone(), bands.clone()),
        |(design, answers, bands)| verdicts(&design.installation, answers, bands),
    ));
    Page {
        state: desk.state.clone(),
        design: desk.design.clone(),
        answers,
        bands,
        verdicts,
        refused: desk.state.refused_sentence().map(AttrValue::from),
        width: window::use_width(),
        dropped: desk.dropped.clone(),
        dispatch: use_deed(dispatcher.clone(), Deed::Act),
        notify: use_deed(dispatcher.clone(), Deed::Say),
    }
}

/// What the page is given.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// What brings the views.
    pub fetch: Fetch,
}

/// The page.
#[function_component]
pub fn App(props: &Props) -> Html {
    let desk = use_reducer(Desk::opened);
    let dispatcher = desk.dispatcher();
    let page = use_everything(&desk, &dispatcher);
    let on_drop = on_drop(&dispatcher, &page.dispatch, &page.notify);
    let book = use_book(Some(page));
    let route = use_route();
    let visited = use_mut_ref(|| [false; View::ALL.len()]);
    let on_drag_over = Callback::from(|event: DragEvent| event.prevent_default());
    let on_ask = use_deed(dispatcher.clone(), |()| Deed::Ask);
    let begun = use_deed(dispatcher.clone(), |()| Deed::Begin);
    use_effect_with((), |()| storage::started());
    use_effect_with((), |()| popovers::close_by_themselves());
    html! {
        <ContextProvider<Book> context={book}>
        <div class="page" ondrop={on_drop} ondragover={on_drag_over}>
            if desk.welcoming || desk.asking {
                { part!(FirstUse { welcoming: desk.welcoming, asking: desk.asking, begun, fetch: props.fetch.clone() }) }
                { said_line(&desk, &dispatcher) }
            } else {
                { part!(Header { view: route.view, on_ask, fetch: props.fetch.clone() }) }
                { part!(VerdictBar) }
                // Small components that speak up from time to time stand here, under the verdict.
                <div class="notices">
                    { part!(Arrived) }
                    { said_line(&desk, &dispatcher) }
                    { stale_line(&desk.state) }
                    { part!(Withheld) }
                </div>
                <main id="main">
                    { for View::ALL.into_iter().enumerate().map(|(at, view)| {
                        let shown = view == route.view;
                        // Once visited it stays, so that nothing begun in it is lost.
                        visited.borrow_mut()[at] |= shown;
                        html! {
                            <div key={view.fragment()} id={view.fragment()} class="view" hidden={!shown}>
                                if visited.borrow()[at] { { part!(Room { view, page: route.page, shown, fetch: props.fetch.clone() }) } }
                            </div>
                        }
                    }) }
                </main>
                { part!(Keeping) }
                { part!(Foot) }
            }
        </div>
        </ContextProvider<Book>>
    }
}

fn said_line(desk: &Desk, dispatcher: &Dispatcher) -> Html {
    let Some(sentence) = desk.notice.clone() else {
        return Html::default();
    };
    let hush = {
        let dispatcher = dispatcher.clone();
        Callback::from(move |_: MouseEvent| dispatcher.dispatch(Deed::Hush))
    };
    html! {
        <p class="message" role="status">{ sentence }
            <button type="button" class="quiet" onclick={hush}>{ tr("Close") }</button></p>
    }
}

fn stale_line(state: &State) -> Html {
    let faults = state.faults();
    if faults.is_empty() {
        return Html::default();
    }
    let is_one = faults.len() == 1;
    let list: Vec<String> = faults.into_iter().map(|(_, fault)| fault).collect();
    let list = list.join("; ");
    let said = if is_one {
        tr!(
            "The answers are for the last valid values; one text is not used: {}",
            list
        )
    } else {
        tr!(
            "The answers are for the last valid values; some texts are not used: {}",
            list
        )
    };
    html! {
        <p class="stale" role="status">
            { said }
        </p>
    }
}

/// Takes what is dropped on the page: a design file, or else a log.
fn on_drop(
    dispatcher: &Dispatcher,
    dispatch: &Callback<Action>,
    notify: &Callback<String>,
) -> Callback<DragEvent> {
    let (dispatcher, dispatch, notify) = (dispatcher.clone(), dispatch.clone(), notify.clone());
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
                dispatcher.dispatch(Deed::Drop(file));
                window::set_fragment("log");
            }
            None => {}
        }
    })
}
