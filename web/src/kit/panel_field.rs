//! The field of a text that is typed in a panel and is no input of the design.

use crate::kit::controls::on_text;
use crate::kit::page::{use_dispatch, use_page};
use crate::state::{Action, FieldKey, panel_texts};
use yew::prelude::*;

/// A field to show.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// Its text.
    pub of: FieldKey,
    /// Its label.
    pub label: AttrValue,
    /// Unit beside the label.
    #[prop_or_default]
    pub unit: &'static str,
    /// What stands in it before anything was typed.
    #[prop_or_default]
    pub usual: AttrValue,
    /// What an empty field stands for.
    #[prop_or_default]
    pub placeholder: Option<AttrValue>,
    /// Keypad of a telephone.
    #[prop_or("decimal")]
    pub keypad: &'static str,
    /// Where the field itself says what is wrong with its text: what that is, if anything.
    #[prop_or_default]
    pub judged: Option<Result<(), String>>,
}

/// What typing in a panel's field does.
pub fn on_typed(dispatch: &Callback<Action>, key: FieldKey) -> Callback<InputEvent> {
    let dispatch = dispatch.clone();
    on_text(move |text| {
        dispatch.emit(Action::Type {
            key: key.clone(),
            text,
        });
    })
}

/// The field.
#[function_component]
pub fn PanelField(props: &Props) -> Html {
    let key = props.of.clone();
    let typed = use_page(move |page| panel_texts::typed(&page.state, &key));
    let heard = on_typed(&use_dispatch(), props.of.clone());
    let id = panel_texts::element_id(&props.of);
    let text = typed.map_or_else(|| props.usual.clone(), AttrValue::from);
    let fault_id = format!("{id}-fault");
    let fault = props.judged.clone().map(Result::err);
    let refused = matches!(fault, Some(Some(_)));
    html! {
        <div class={classes!("field", refused.then_some("field-fault"))}>
            <label for={id.clone()}>{ props.label.clone() }
                if !props.unit.is_empty() { <span class="unit">{ format!(" ({})", props.unit) }</span> }
            </label>
            <input {id} type="text" inputmode={props.keypad} autocomplete="off" value={text}
                placeholder={props.placeholder.clone()} oninput={heard}
                aria-invalid={refused.then_some("true")}
                aria-describedby={fault.is_some().then(|| fault_id.clone())} />
            if let Some(fault) = fault {
                <p id={fault_id} class="fault">{ fault.unwrap_or_default() }</p>
            }
        </div>
    }
}
