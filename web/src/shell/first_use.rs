//! The first visit: the example, one's own aircraft, or a file or a link.

use crate::browser::storage;
use crate::design::drawing_pane::Still;
use crate::kit::controls::on_text;
use crate::kit::page::{use_dispatch, use_notify};
use crate::part;
use crate::share::code::design_of_code;
use crate::sheet::View;
use crate::shell::later::{Fetch, Later, Piece};
use crate::shell::toolbar;
use crate::state::{Action, choices};
use coolpath_core::answer::evaluate;
use coolpath_core::document::example;
use coolpath_core::language::{tr, tr_later};
use coolpath_core::units::typed::UnitSystem;
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// What the first visit needs.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// Whether nothing is stored yet.
    pub welcoming: bool,
    /// Whether the questions are asked at once.
    pub asking: bool,
    /// Goes on to the page itself.
    pub begun: Callback<()>,
    /// What brings its pieces.
    pub fetch: Fetch,
}

/// What a first visit begins with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Begin {
    /// The example.
    Example,
    /// One's own aircraft.
    Own,
}

impl Begin {
    /// Name in `data-begin` of a button, and in `data-begun` of the document once it was pressed.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Example => "example",
            Self::Own => "own",
        }
    }
}

/// What the first visit is asked.
const TITLE: &str = tr_later("Will the air cool this engine?");
/// What answers it.
const LEAD: &str = tr_later(
    "Find out before you cut. Sizes in, temperatures out, each with its odds. It is an estimate: your engine’s manual sets the limits, and flight test decides.",
);

/// First use.
#[function_component]
pub fn FirstUse(props: &Props) -> Html {
    let asking = use_state(|| props.asking || storage::half_answered().is_some());
    let ask = {
        let asking = asking.clone();
        Callback::from(move |_: MouseEvent| asking.set(true))
    };
    let leave = {
        let (asking, begun, welcoming) = (asking.clone(), props.begun.clone(), props.welcoming);
        use_callback((), move |(), ()| {
            asking.set(false);
            if !welcoming {
                begun.emit(());
            }
        })
    };
    if *asking {
        let piece = Piece::Questions {
            begun: props.begun.clone(),
            leave,
        };
        return part!(Later {
            piece,
            fetch: props.fetch.clone()
        });
    }
    let example = props.begun.reform(|_: MouseEvent| ());
    let way = |what: Begin, words: &'static str| {
        let begin = match what {
            Begin::Example => example.clone(),
            Begin::Own => ask.clone(),
        };
        html! { <button type="button" class="primary" onclick={begin}>{ words }</button> }
    };
    let picture = |six: bool| {
        html! {
            <div class="first-picture" aria-hidden="true">
                { part!(Later { piece: Piece::Picture { six }, fetch: props.fetch.clone() }) }
            </div>
        }
    };
    html! {
        <main class="first-use">
            { lead() }
            { begun_cards([picture(false), picture(true)], way) }
            { part!(Bring { begun: props.begun.clone() }) }
        </main>
    }
}

/// Name, question and what answers it.
pub(crate) fn lead() -> Html {
    html! { <>
        <h1 class="brand">{ tr("Coolpath") }</h1>
        <h2 class="first-title">{ tr(TITLE) }</h2>
        <p class="first-lead">{ tr(LEAD) }</p>
    </> }
}

/// The two ways on.
///
/// # Arguments
/// * `pictures` - of the example and of one's own aircraft
/// * `way` - a button that begins something, with its words
pub(crate) fn begun_cards(
    [example, own]: [Html; 2],
    way: impl Fn(Begin, &'static str) -> Html,
) -> Html {
    html! {
        <div class="first-cards">
            <section class="first-card">
                { example }
                <h3>{ tr("Try the example") }</h3>
                <p>{ tr("An invented two-seater that runs too hot in the climb. Put it right in five minutes.") }</p>
                { way(Begin::Example, tr("Try the example")) }
            </section>
            <section class="first-card">
                { own }
                <h3>{ tr("My aircraft") }</h3>
                <p>{ tr("Six short screens. “Not cut yet” is an answer. You end on the job that you came for.") }</p>
                { way(Begin::Own, tr("Enter my aircraft")) }
            </section>
        </div>
    }
}

/// The example's condition that is shown: its take-off climb.
pub(crate) const SHOWN: usize = 1;

/// Whose picture is shown.
#[derive(Properties, Clone, PartialEq)]
pub struct PictureProps {
    /// Whether it has six cylinders.
    pub six: bool,
}

/// A drawing that cannot be used, beside the words of its card.
#[function_component]
pub fn Picture(props: &PictureProps) -> Html {
    let shown = use_memo(props.six, |six| {
        let mut design = example::design();
        if *six {
            if let Some(choice) = choices::by_id("decks.sealing") {
                (choice.set)(&mut design, 0, "hard_plenum");
            }
            if let Some(choice) = choices::by_id("engine.cylinders") {
                (choice.set)(&mut design, 0, "6");
            }
        }
        let answer = evaluate::evaluate(&design, SHOWN).ok()?;
        let still = Still {
            installation: &design.installation,
            condition: design.conditions.get(SHOWN)?,
            answer: &answer,
            system: UnitSystem::Customary,
            view: View::Side,
            size: (480.0, 400.0),
            id: if *six { "six" } else { "four" },
        };
        Some(still.html())
    });
    html! { <>{ (*shown).clone() }</> }
}

/// What is done once a design has been brought.
#[derive(Properties, Clone, PartialEq)]
struct BringProps {
    begun: Callback<()>,
}

/// Opening a file, a link or a code.
#[function_component]
fn Bring(props: &BringProps) -> Html {
    let (dispatch, notify) = (use_dispatch(), use_notify());
    let on_file = {
        let (dispatch, notify, begun) = (dispatch.clone(), notify.clone(), props.begun.clone());
        Callback::from(move |event: Event| {
            let Some(element) = event.target_dyn_into::<HtmlInputElement>() else {
                return;
            };
            if let Some(file) = element.files().and_then(|files| files.get(0)) {
                element.set_value("");
                let opened = {
                    let (dispatch, begun) = (dispatch.clone(), begun.clone());
                    Callback::from(move |action: Action| {
                        begun.emit(());
                        dispatch.emit(action);
                    })
                };
                toolbar::open(file, opened, notify.clone());
            }
        })
    };
    let on_code = {
        let begun = props.begun.clone();
        on_text(move |text| {
            if text.trim().is_empty() {
                return;
            }
            match design_of_code(&text) {
                Ok(design) => {
                    begun.emit(());
                    dispatch.emit(Action::Open(Box::new(design)));
                }
                Err(sentence) => notify.emit(sentence),
            }
        })
    };
    html! {
        <section class="first-open" aria-label={tr("Open a file or a link")}>
            <label class="button" for="first-file">{ tr("Open a file") }</label>
            <input id="first-file" class="visually-hidden" type="file" accept=".json,application/json" onchange={on_file} />
            <label for="first-code">{ tr("or paste a link") }</label>
            <input id="first-code" type="text" autocomplete="off" spellcheck="false" oninput={on_code} />
            <p class="hint">{ tr("Nothing you type leaves this machine. ") }<a href="guide.html" target="_blank">{ tr("Read the guide") }</a></p>
        </section>
    }
}
