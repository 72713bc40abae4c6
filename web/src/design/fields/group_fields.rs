//! All fields of a group: choices and measured numbers first, assumptions folded away.

use crate::design::fields::choice_field::ChoiceField;
use crate::design::fields::guesses;
use crate::design::fields::guesses::{Guess, Phrase};
use crate::design::fields::number_field::NumberField;
use crate::kit::page::{use_dispatch, use_page};
use crate::part;
use crate::state::choices;
use crate::state::{Action, State};
use coolpath_core::document::design::Design;
use coolpath_core::document::table;
use coolpath_core::language::tr;
use coolpath_core::units::typed::UnitSystem;
use yew::prelude::*;

/// Fields of a group at a place.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// Prefix of the group's inputs, such as `inlet`.
    pub prefix: &'static str,
    /// Place in a list.
    #[prop_or_default]
    pub place: usize,
}

/// Which fields of a group play a part in the design.
#[derive(Debug, Clone, PartialEq)]
struct Group {
    choices: Vec<&'static str>,
    numbers: Vec<&'static str>,
    assumptions: Vec<&'static str>,
    guesses: Vec<Asked>,
}

/// A question that is answered by a phrase and its picture.
#[derive(Debug, Clone, PartialEq)]
pub struct Asked {
    ask: &'static str,
    phrases: Vec<(String, &'static str, Action)>,
}

impl Asked {
    /// A question as it is asked at a place of a design.
    pub fn of(guess: &Guess, design: &Design, place: usize, system: UnitSystem) -> Self {
        let phrase = |phrase: &Phrase| {
            let action = guess.action(phrase, design, place);
            (phrase.said(system), phrase.picture, action)
        };
        Self {
            ask: guess.ask,
            phrases: guess.phrases.iter().map(phrase).collect(),
        }
    }
}

impl Group {
    fn of(state: &State, prefix: &'static str, place: usize) -> Self {
        let design = &state.design;
        let used = table::all().filter(|input| {
            input
                .id
                .strip_prefix(prefix)
                .is_some_and(|rest| rest.starts_with('.'))
                && input.used(design, place)
        });
        // What is read off instruments is typed, however well it is known.
        let (assumed, typed): (Vec<_>, Vec<_>) =
            used.partition(|input| input.likely.is_some() && prefix != "condition");
        Self {
            choices: choices::of_group(prefix)
                .filter(|choice| (choice.used)(design, place))
                .map(|choice| choice.id)
                .collect(),
            numbers: typed.into_iter().map(|input| input.id).collect(),
            assumptions: assumed.into_iter().map(|input| input.id).collect(),
            guesses: guesses::of_group(prefix, design)
                .map(|guess| Asked::of(guess, design, place, state.system))
                .collect(),
        }
    }
}

/// Fields of a group.
#[function_component]
pub fn GroupFields(props: &Props) -> Html {
    let (prefix, place) = (props.prefix, props.place);
    let group = use_page(move |page| Group::of(&page.state, prefix, place));
    let dispatch = use_dispatch();
    let number = |&id: &&'static str| html! { <key={id}>{ part!(NumberField { id, place }) }</> };
    html! {
        <>
            <div class="fields">
                { for group.choices.iter().map(|&id| html! { <key={id}>{ part!(ChoiceField { id, place }) }</> }) }
                { for group.numbers.iter().map(number) }
            </div>
            { for group.guesses.iter().map(|asked| not_sure(asked, &dispatch)) }
            if !group.assumptions.is_empty() {
                <details class="assumptions">
                    <summary>{ tr!("Assumptions ({}): fine-tuning", group.assumptions.len()) }</summary>
                    <div class="fields">{ for group.assumptions.iter().map(number) }</div>
                </details>
            }
        </>
    }
}

/// A question with its pictures, folded away.
pub fn not_sure(asked: &Asked, dispatch: &Callback<Action>) -> Html {
    html! {
        <details class="not-sure">
            <summary>{ tr(asked.ask) }</summary>
            <div class="phrases" role="group" aria-label={tr(asked.ask)}>
                { for asked.phrases.iter().map(|(words, picture, action)| {
                    let action = action.clone();
                    html! {
                        <button type="button" class="quiet" onclick={dispatch.reform(move |_: MouseEvent| action.clone())}>
                            <svg class="sketch" viewBox="0 0 72 40" aria-hidden="true"><path d={*picture} /></svg>
                            <span>{ words.clone() }</span>
                        </button>
                    }
                }) }
            </div>
            <p class="hint">{ tr("Estimates from memory, inside the range that each input names; better is to measure.") }</p>
        </details>
    }
}
