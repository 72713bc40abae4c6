//! The six screens that ask for one's own aircraft.

use crate::browser::{storage, window};
use crate::design::choice_sketches;
use crate::design::half_answered;
use crate::design::half_answered::HalfAnswered;
use crate::design::start_my_own;
use crate::design::start_my_own::{Answers, GAP, QUESTIONS, SCREENS, Screen, UNCUT_RATIO};
use crate::kit::controls::{on_text, on_tick};
use crate::kit::page::{Page, use_dispatch, use_page};
use crate::sheet::{Drawing, Request as DrawingRequest};
use crate::state::{Action, choices};
use coolpath_core::document::design::Design;
use coolpath_core::language::{tr, tr_later};
use coolpath_core::units::typed::UnitSystem;
use yew::prelude::*;

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
    ("design", tr_later("Show my results")),
    ("size", tr_later("Size the openings")),
    ("compare", tr_later("Plenum or seals?")),
    ("card", tr_later("Shutter today")),
];

/// The six screens.
#[function_component]
pub fn Questions(props: &QuestionsProps) -> Html {
    let QuestionsProps { begun, leave } = props;
    let (system, width) = use_page(|page| (Page::system(page), page.width));
    let dispatch = use_dispatch();
    let begun_before = use_memo((), |()| {
        half_answered::read(&storage::half_answered()?, system)
    });
    let at = use_state(|| (*begun_before).as_ref().map_or(0, |before| before.at));
    let answers = use_state(|| match &*begun_before {
        Some(before) => before.answers.clone(),
        None => Answers::proposed(system),
    });
    {
        let half = HalfAnswered {
            at: *at,
            answers: (*answers).clone(),
        };
        use_effect_with((half, system), |(half, system)| {
            storage::keep_half_answered(half_answered::kept(half, *system).as_deref());
        });
    }
    // Each screen begins at its top, whatever the one before was scrolled to.
    use_effect_with(*at, |_| window::to_top());
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
                None => {
                    storage::keep_half_answered(None);
                    leave.emit(());
                }
            }
        })
    };
    let done = |job: &'static str| {
        let (answers, faults) = (answers.clone(), faults.clone());
        let (dispatch, begun) = (dispatch.clone(), begun.clone());
        Callback::from(
            move |_: MouseEvent| match start_my_own::design(&answers, system) {
                Ok(design) => {
                    storage::keep_half_answered(None);
                    begun.emit(());
                    dispatch.emit(Action::Open(Box::new(design)));
                    window::to_top();
                    window::set_fragment(job);
                }
                Err(found) => faults.set(found),
            },
        )
    };
    html! {
        <main class="first-use">
            <h1 class="brand">{ tr("Coolpath") }</h1>
            <form class="question-screen" onsubmit={next}>
                <p class="question-count">{ tr!("{} of {}", *at + 1, SCREENS.len()) }</p>
                <h2>{ tr(screen.title) }</h2>
                { own_picture(screen, &answers, system, width) }
                { screen_fields(screen, system, &answers, &faults) }
                if last { { assumed(&answers, system) } }
                <div class="buttons">
                    <button type="button" onclick={back}>{ if *at == 0 { tr("Cancel") } else { tr("Back") } }</button>
                    if last {
                        { for JOBS.into_iter().enumerate().map(|(place, (job, name))| html! {
                            <button type="button" class={(place == 0).then_some("primary")} onclick={done(job)}>{ tr(name) }</button>
                        }) }
                    } else {
                        <button type="submit" class="primary">{ tr("Next") }</button>
                    }
                </div>
                <p class="hint">{ tr("The numbers shown at first are the example’s. Everything can be changed later.") }</p>
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
        <p class="hint">{ tr!(
            "Assumed until you say more: two identical inlets, one exit, {}a cooler and oil pump scaled with the power, and {} values with a likely range, each listed with its part.",
            if answers.uncut { tr("an exit of 1.2 times the inlets’ area, ") } else { "" }, count
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
    html! { <>
        <label class="tick" for="question-uncut"><input id="question-uncut" type="checkbox" checked={answers.uncut} onchange={change} />{ tr("Not cut yet") }</label>
        if answers.uncut {
            <p class="hint">{ tr!("Until it is cut it counts as {} times the inlets’ area.", UNCUT_RATIO) }</p>
        }
    </> }
}

fn choice_cards(id: &'static str, answers: &UseStateHandle<Answers>) -> Html {
    let Some(choice) = choices::by_id(id) else {
        return Html::default();
    };
    let taken = answers.option(id);
    html! {
        <fieldset class="choice-cards" key={id}>
            <legend>{ choice.label() }</legend>
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
                        <span>{ option.phrase() }</span>
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
            <label for={id.clone()}>{ tr(question.ask) }<span class="unit">{ format!(" ({symbol})") }</span></label>
            <input id={id} type="text" inputmode="decimal" autocomplete="off" disabled={answers.uncut && place == GAP}
                value={answers.texts.get(place).cloned().unwrap_or_default()} oninput={on_input}
                aria-describedby={fault.is_some().then(|| fault_id.clone())} />
            if let Some(fault) = fault {
                <p class="fault" id={fault_id}>{ fault }</p>
            }
        </div>
    }
}
