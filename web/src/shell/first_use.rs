//! What to try first, and the twelve questions of one's own design.

use crate::design::start_my_own;
use crate::design::start_my_own::QUESTIONS;
use crate::kit::controls::on_text;
use crate::state::Action;
use coolpath_core::units::typed::UnitSystem;
use yew::prelude::*;

/// What the first use needs.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// Units shown.
    pub system: UnitSystem,
    /// Whether the worked example is shown, untouched.
    pub is_example: bool,
    /// Takes the new design.
    pub dispatch: Callback<Action>,
}

/// First use.
#[function_component]
pub fn FirstUse(props: &Props) -> Html {
    let asking = use_state(|| false);
    let answers = use_state(Vec::<String>::new);
    let faults = use_state(Vec::<(usize, String)>::new);
    let begin = {
        let (asking, answers, faults) = (asking.clone(), answers.clone(), faults.clone());
        let system = props.system;
        Callback::from(move |_: MouseEvent| {
            answers.set(
                QUESTIONS
                    .iter()
                    .map(|question| question.proposal(system))
                    .collect(),
            );
            faults.set(Vec::new());
            asking.set(!*asking);
        })
    };
    let done = {
        let (asking, answers, faults) = (asking.clone(), answers.clone(), faults.clone());
        let (dispatch, system) = (props.dispatch.clone(), props.system);
        Callback::from(move |event: SubmitEvent| {
            event.prevent_default();
            match start_my_own::design(&answers, system) {
                Ok(design) => {
                    asking.set(false);
                    dispatch.emit(Action::Open(Box::new(design)));
                }
                Err(found) => faults.set(found),
            }
        })
    };
    html! {
        <section class="section first-use" aria-label="First steps">
            if props.is_example {
                <p>{ "This is a worked example, an invented tourer whose heads get too hot in the take-off climb. " }
                   { "Make the exit gap or an inlet larger, and watch the climb's margin and the knots in cruise. " }
                   { "Then give the baffles worn seals, or close the shutter, and see which of it matters." }</p>
            }
            <button type="button" onclick={begin.clone()} aria-expanded={asking.to_string()}>
                { if *asking { "Leave the questions" } else { "Start my own: twelve questions" } }
            </button>
            if *asking {
                <form onsubmit={done}>
                    <p class="hint">{ "Two like inlets in front and one exit are assumed; every other number has a default, which you can change afterwards. The numbers shown are the example's." }</p>
                    <div class="fields">
                        { for QUESTIONS.iter().enumerate().map(|(place, question)| {
                            question_field(props.system, place, question, &answers, &faults)
                        }) }
                    </div>
                    <div class="buttons"><button type="submit">{ "Make this my design" }</button></div>
                </form>
            }
        </section>
    }
}

fn question_field(
    system: UnitSystem,
    place: usize,
    question: &start_my_own::Question,
    answers: &UseStateHandle<Vec<String>>,
    faults: &UseStateHandle<Vec<(usize, String)>>,
) -> Html {
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
            let mut texts = (*answers).clone();
            if let Some(text) = texts.get_mut(place) {
                *text = typed;
            }
            answers.set(texts);
        })
    };
    html! {
        <div class={classes!("field", fault.is_some().then_some("field-fault"))} key={place}>
            <label for={id.clone()}>{ question.ask }<span class="unit">{ format!(" ({symbol})") }</span></label>
            <input id={id} type="text" inputmode="decimal" autocomplete="off"
                value={answers.get(place).cloned().unwrap_or_default()} oninput={on_input}
                aria-describedby={fault.is_some().then(|| fault_id.clone())} />
            if let Some(fault) = fault {
                <p class="fault" id={fault_id}>{ fault }</p>
            }
        </div>
    }
}
