//! All fields of a group: choices and measured numbers first, assumptions folded away.

use crate::design::fields::choice_field::ChoiceField;
use crate::design::fields::guesses;
use crate::design::fields::guesses::Guess;
use crate::design::fields::number_field::NumberField;
use crate::state::choices;
use crate::state::{Action, State};
use coolpath_core::document::table;
use coolpath_core::document::table::Input;
use std::rc::Rc;
use yew::prelude::*;

/// Fields of a group at a place.
#[derive(Properties, Clone)]
pub struct Props {
    /// Prefix of the group's inputs, such as `inlet`.
    pub prefix: &'static str,
    /// Place in a list.
    #[prop_or_default]
    pub place: usize,
    /// State of the page.
    pub state: Rc<State>,
    /// What editing does.
    pub dispatch: Callback<Action>,
}

impl PartialEq for Props {
    fn eq(&self, other: &Self) -> bool {
        self.prefix == other.prefix
            && self.place == other.place
            && Rc::ptr_eq(&self.state, &other.state)
    }
}

/// Inputs of a group that play a part in the design.
fn used<'a>(
    state: &'a State,
    prefix: &'a str,
    place: usize,
) -> impl Iterator<Item = &'static Input> + 'a {
    table::all().filter(move |input| {
        input
            .id
            .strip_prefix(prefix)
            .is_some_and(|rest| rest.starts_with('.'))
            && input.used(&state.design, place)
    })
}

/// Fields of a group.
#[function_component]
pub fn GroupFields(props: &Props) -> Html {
    let Props {
        prefix,
        place,
        state,
        dispatch,
    } = props;
    let (prefix, place) = (*prefix, *place);
    let number = |input: &'static Input| {
        html! {
            <NumberField key={input.id} {input} {place} state={state.clone()} dispatch={dispatch.clone()} />
        }
    };
    // What is read off instruments is typed, however well it is known.
    let assumed = |input: &&'static Input| input.likely.is_some() && prefix != "condition";
    let assumptions: Vec<&'static Input> = used(state, prefix, place).filter(assumed).collect();
    html! {
        <>
            <div class="fields">
                { for choices::of_group(prefix)
                    .filter(|choice| choices::is_used(choice, &state.design, place))
                    .map(|choice| html! {
                        <ChoiceField key={choice.id} {choice} {place} state={state.clone()} dispatch={dispatch.clone()} />
                    }) }
                { for used(state, prefix, place).filter(|input| !assumed(input)).map(number) }
            </div>
            if let Some(guess) = guesses::of_group(prefix, &state.design) {
                { not_sure(guess, place, state, dispatch) }
            }
            if !assumptions.is_empty() {
                <details class="assumptions">
                    <summary>{ format!("Assumptions ({}): fine-tuning", assumptions.len()) }</summary>
                    <div class="fields">{ for assumptions.into_iter().map(number) }</div>
                </details>
            }
        </>
    }
}

/// A question that is answered by a phrase and its picture.
fn not_sure(
    guess: &'static Guess,
    place: usize,
    state: &State,
    dispatch: &Callback<Action>,
) -> Html {
    html! {
        <details class="not-sure">
            <summary>{ guess.ask }</summary>
            <div class="phrases" role="group" aria-label={guess.ask}>
                { for guess.phrases.iter().map(|phrase| {
                    let action = guess.action(phrase, &state.design, place);
                    html! {
                        <button type="button" class="quiet" onclick={dispatch.reform(move |_: MouseEvent| action.clone())}>
                            <svg class="sketch" viewBox="0 0 72 40" aria-hidden="true"><path d={phrase.picture} /></svg>
                            <span>{ phrase.words }</span>
                        </button>
                    }
                }) }
            </div>
            <p class="hint">{ "Estimates from memory, inside the range that each input names; better is to measure." }</p>
        </details>
    }
}
