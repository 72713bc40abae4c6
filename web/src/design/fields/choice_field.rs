//! One choice among plain words.

use crate::design::fields::names;
use crate::kit::controls::on_option;
use crate::state::choices::Choice;
use crate::state::{Action, State};
use yew::prelude::*;

/// A choice to show.
#[derive(Properties, Clone)]
pub struct Props {
    /// Row of the table of choices.
    pub choice: &'static Choice,
    /// Place in a list.
    pub place: usize,
    /// State of the page.
    pub state: std::rc::Rc<State>,
    /// What choosing does.
    pub dispatch: Callback<Action>,
}

impl PartialEq for Props {
    fn eq(&self, other: &Self) -> bool {
        let taken = |props: &Self| (props.choice.get)(&props.state.design, props.place);
        self.choice.id == other.choice.id
            && self.place == other.place
            && taken(self) == taken(other)
            && names::owner(&self.state.design, self.choice.id, self.place)
                == names::owner(&other.state.design, other.choice.id, other.place)
    }
}

/// A choice.
#[function_component]
pub fn ChoiceField(props: &Props) -> Html {
    let Props {
        choice,
        place,
        state,
        dispatch,
    } = props;
    let (choice, place) = (*choice, *place);
    let id = format!("{}-{place}", choice.id.replace('.', "-"));
    let taken = (choice.get)(&state.design, place).unwrap_or_default();
    let on_change = {
        let dispatch = dispatch.clone();
        on_option(move |option| {
            dispatch.emit(Action::Choose {
                id: choice.id,
                place,
                option,
            });
        })
    };
    html! {
        <div class="field">
            <label for={id.clone()}>{ names::label(&state.design, choice.id, place, choice.label) }</label>
            <select id={id} onchange={on_change}>
                { for choice.options.iter().map(|option| html! {
                    <option value={option.value} selected={option.value == taken}>{ option.phrase }</option>
                }) }
            </select>
        </div>
    }
}
