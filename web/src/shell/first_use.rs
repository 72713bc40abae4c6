//! The first visit: the example, one's own aircraft in six screens, or a file or a link.

use crate::design::choice_sketches;
use crate::design::drawing_pane::Still;
use crate::design::start_my_own;
use crate::design::start_my_own::{Answers, GAP, QUESTIONS, SCREENS, Screen};
use crate::kit::controls::{on_text, on_tick};
use crate::kit::page::{Page, use_dispatch, use_notify, use_page};
use crate::part;
use crate::share::code::design_of_code;
use crate::sheet::{Drawing, Request as DrawingRequest, View};
use crate::shell::later::{Fetch, Later, Piece};
use crate::shell::toolbar;
use crate::state::{Action, choices};
use coolpath_core::answer::evaluate;
use coolpath_core::document::design::Design;
use coolpath_core::document::example;
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
const TITLE: &str = "Will the air cool this engine?";
/// What answers it.
const LEAD: &str = "Find out before you cut. Sizes in, temperatures out, each with its odds. It is an estimate: your engine’s manual sets the limits, and flight test decides.";

/// First use.
#[function_component]
pub fn FirstUse(props: &Props) -> Html {
    let asking = use_state(|| props.asking);
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
        <h1 class="brand">{ "Coolpath" }</h1>
        <h2 class="first-title">{ TITLE }</h2>
        <p class="first-lead">{ LEAD }</p>
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
                <h3>{ "Try the example" }</h3>
                <p>{ "An invented two-seater that runs too hot in the climb. Put it right in five minutes." }</p>
                { way(Begin::Example, "Try the example") }
            </section>
            <section class="first-card">
                { own }
                <h3>{ "My aircraft" }</h3>
                <p>{ "Six short screens. “Not cut yet” is an answer. You end on the job that you came for." }</p>
                { way(Begin::Own, "Enter my aircraft") }
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
        <section class="first-open" aria-label="Open a file or a link">
            <label class="button" for="first-file">{ "Open a file" }</label>
            <input id="first-file" class="visually-hidden" type="file" accept=".json,application/json" onchange={on_file} />
            <label for="first-code">{ "or paste a link" }</label>
            <input id="first-code" type="text" autocomplete="off" spellcheck="false" oninput={on_code} />
            <p class="hint">{ "Nothing you type leaves this machine. " }<a href="guide.html" target="_blank">{ "Read the guide" }</a></p>
        </section>
    }
}

/// What the questions need.
#[derive(Properties, Clone, PartialEq)]
pub struct QuestionsProps {
    /// Goes on to the page itself.
    pub begun: Callback<()>,
    /// Leaves the questions.
    pub leave: Callback<()>,
}

/// The decisions that the questions may end on: their fragments and names.
const JOBS: [(&str, &str); 4] = [
    ("design", "Show my results"),
    ("size", "Size the openings"),
    ("compare", "Plenum or seals?"),
    ("card", "Shutter today"),
];

/// The six screens.
#[function_component]
pub fn Questions(props: &QuestionsProps) -> Html {
    let QuestionsProps { begun, leave } = props;
    let (system, width) = use_page(|page| (Page::system(page), page.width));
    let dispatch = use_dispatch();
    let at = use_state(|| 0_usize);
    let answers = use_state(|| Answers::proposed(system));
    let faults = use_state(Vec::<(usize, String)>::new);
    let last = *at + 1 == SCREENS.len();
    let screen = &SCREENS[*at];
    let next = {
        let (at, answers, faults) = (at.clone(), answers.clone(), faults.clone());
        Callback::from(move |event: SubmitEvent| {
            event.prevent_default();
            let found = answers.faults(&SCREENS[*at], system);
            if found.is_empty() && *at + 1 < SCREENS.len() {
                at.set(*at + 1);
            }
            faults.set(found);
        })
    };
    let back = {
        let (at, faults, leave) = (at.clone(), faults.clone(), leave.clone());
        Callback::from(move |_: MouseEvent| {
            faults.set(Vec::new());
            match at.checked_sub(1) {
                Some(before) => at.set(before),
                None => leave.emit(()),
            }
        })
    };
    let done = |job: &'static str| {
        let (answers, faults) = (answers.clone(), faults.clone());
        let (dispatch, begun) = (dispatch.clone(), begun.clone());
        Callback::from(
            move |_: MouseEvent| match start_my_own::design(&answers, system) {
                Ok(design) => {
                    begun.emit(());
                    dispatch.emit(Action::Open(Box::new(design)));
                    crate::browser::window::set_fragment(job);
                }
                Err(found) => faults.set(found),
            },
        )
    };
    html! {
        <main class="first-use">
            <h1 class="brand">{ "Coolpath" }</h1>
            <form class="question-screen" onsubmit={next}>
                <p class="question-count">{ format!("{} of {}", *at + 1, SCREENS.len()) }</p>
                <h2>{ screen.title }</h2>
                { own_picture(screen, &answers, system, width) }
                { screen_fields(screen, system, &answers, &faults) }
                if last { { assumed(&answers, system) } }
                <div class="buttons">
                    <button type="button" onclick={back}>{ if *at == 0 { "Cancel" } else { "Back" } }</button>
                    if last {
                        { for JOBS.into_iter().enumerate().map(|(place, (job, name))| html! {
                            <button type="button" class={(place == 0).then_some("primary")} onclick={done(job)}>{ name }</button>
                        }) }
                    } else {
                        <button type="submit" class="primary">{ "Next" }</button>
                    }
                </div>
                <p class="hint">{ "The numbers shown at first are the example’s. Everything can be changed later." }</p>
            </form>
        </main>
    }
}

/// Most width of the picture above the questions, and its height in a narrow and in a wide window,
/// CSS px.
const OWN_PX: (u32, f64, f64) = (640, 300.0, 390.0);

/// One's own aircraft as far as it is answered, with the part that is asked about; its air is not
/// drawn, since nothing is known of it yet.
fn own_picture(screen: &Screen, answers: &Answers, system: UnitSystem, width: u32) -> Html {
    let Ok(design) = start_my_own::drawable(answers, system) else {
        return Html::default();
    };
    let (view, selected) = screen.shown;
    let (most, low, high) = OWN_PX;
    let drawing = Drawing::of(&DrawingRequest {
        view,
        selected,
        system,
        id: "own",
        ..DrawingRequest::new(
            &design.installation,
            f64::from(width.min(most)),
            if width < most { low } else { high },
        )
    });
    html! {
        <div class="first-picture still" aria-hidden="true">
            <div inert={true}>{ Html::from_html_unchecked(AttrValue::from(drawing.svg)) }</div>
        </div>
    }
}

/// How much was assumed beside what was answered.
fn assumed(answers: &Answers, system: UnitSystem) -> Html {
    let Ok(design) = start_my_own::design(answers, system) else {
        return Html::default();
    };
    let count = assumptions(&design);
    html! {
        <p class="hint">{ format!(
            "Assumed until you say more: two identical inlets, one exit, {}a cooler and oil pump scaled with the power, and {count} values with a likely range, each listed with its part.",
            if answers.uncut { "an exit of 1.2 times the inlets’ area, " } else { "" }
        ) }</p>
    }
}

fn assumptions(design: &Design) -> usize {
    design
        .places()
        .filter(|(input, place)| input.likely.is_some() && input.used(design, *place))
        .count()
}

fn screen_fields(
    screen: &Screen,
    system: UnitSystem,
    answers: &UseStateHandle<Answers>,
    faults: &UseStateHandle<Vec<(usize, String)>>,
) -> Html {
    html! { <>
        { for screen.choices.iter().map(|id| choice_cards(id, answers)) }
        <div class="fields">
            { for screen.questions.iter().map(|&place| question_field(system, place, answers, faults)) }
        </div>
        if screen.questions.contains(&GAP) {
            { uncut(answers) }
        }
    </> }
}

fn uncut(answers: &UseStateHandle<Answers>) -> Html {
    let change = {
        let answers = answers.clone();
        on_tick(move |uncut| {
            answers.set(Answers {
                uncut,
                ..(*answers).clone()
            });
        })
    };
    html! {
        <label class="tick" for="question-uncut"><input id="question-uncut" type="checkbox" checked={answers.uncut} onchange={change} />{ "Not cut yet" }</label>
    }
}

fn choice_cards(id: &'static str, answers: &UseStateHandle<Answers>) -> Html {
    let Some(choice) = choices::by_id(id) else {
        return Html::default();
    };
    let taken = answers.option(id);
    html! {
        <fieldset class="choice-cards" key={id}>
            <legend>{ choice.label }</legend>
            { for choice.options.iter().map(|option| {
                let take = {
                    let answers = answers.clone();
                    on_tick(move |_| {
                        let mut next = (*answers).clone();
                        next.options.retain(|(other, _)| *other != id);
                        next.options.push((id, option.value.to_owned()));
                        answers.set(next);
                    })
                };
                html! {
                    <label class="choice-card">
                        <input type="radio" name={id} checked={taken.as_deref() == Some(option.value)} onchange={take} />
                        if let Some(lines) = choice_sketches::sketch(id, option.value) {
                            <svg class="sketch" viewBox="0 0 72 40" aria-hidden="true"><path d={lines} /></svg>
                        }
                        <span>{ option.phrase }</span>
                    </label>
                }
            }) }
        </fieldset>
    }
}

fn question_field(
    system: UnitSystem,
    place: usize,
    answers: &UseStateHandle<Answers>,
    faults: &UseStateHandle<Vec<(usize, String)>>,
) -> Html {
    let question = &QUESTIONS[place];
    let id = format!("question-{place}");
    let fault_id = format!("{id}-fault");
    let symbol = question
        .input()
        .map_or("", |input| input.dimension.shown(system).symbol);
    let fault = faults
        .iter()
        .find(|fault| fault.0 == place)
        .map(|fault| fault.1.clone());
    let on_input = {
        let answers = answers.clone();
        on_text(move |typed| {
            let mut next = (*answers).clone();
            if let Some(text) = next.texts.get_mut(place) {
                *text = typed;
            }
            answers.set(next);
        })
    };
    html! {
        <div class={classes!("field", fault.is_some().then_some("field-fault"))} key={place}>
            <label for={id.clone()}>{ question.ask }<span class="unit">{ format!(" ({symbol})") }</span></label>
            <input id={id} type="text" inputmode="decimal" autocomplete="off" disabled={answers.uncut && place == GAP}
                value={answers.texts.get(place).cloned().unwrap_or_default()} oninput={on_input}
                aria-describedby={fault.is_some().then(|| fault_id.clone())} />
            if let Some(fault) = fault {
                <p class="fault" id={fault_id}>{ fault }</p>
            }
        </div>
    }
}
