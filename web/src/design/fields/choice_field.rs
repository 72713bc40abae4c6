//! One choice among plain words.

use crate::design::fields::names;
use crate::kit::controls::on_option;
use crate::state::choices::Choice;
use crate::state::{Action, State};
use coolpath_core::document::fault::Spot;
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
        let taken = |props: &Self| {
            (
                (props.choice.get)(&props.state.design, props.place),
                fault(props),
            )
        };
        self.choice.id == other.choice.id
            && self.place == other.place
            && taken(self) == taken(other)
            && names::owner(&self.state.design, self.choice.id, self.place)
                == names::owner(&other.state.design, other.choice.id, other.place)
    }
}

/// What is wrong with the option taken.
fn fault(props: &Props) -> Option<String> {
    let spot = Spot::Choice(props.choice.id, props.place);
    props.state.fault_at(spot)
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
    // An option that a file brought and this list has not is shown as it is.
    let is_listed = choice.options.iter().any(|option| option.value == taken);
    let fault = fault(props);
    let fault_id = format!("{id}-fault");
    html! {
        <div class={classes!("field", fault.is_some().then_some("field-fault"))}>
            <label for={id.clone()}>{ names::label(&state.design, choice.id, place, choice.label) }</label>
            <select id={id} onchange={on_change} aria-invalid={fault.is_some().then_some("true")}
                aria-describedby={fault.is_some().then(|| fault_id.clone())}>
                if !is_listed {
                    <option value={taken.clone()} selected=true>{ taken.clone() }</option>
                }
                { for choice.options.iter().map(|option| html! {
                    <option value={option.value} selected={option.value == taken}>{ option.phrase }</option>
                }) }
            </select>
            if let Some(fault) = fault {
                <p class="fault" id={fault_id}>{ fault }</p>
            }
        </div>
    }
}
