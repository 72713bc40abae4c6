//! One numeric field with its label, message and origin.

use crate::design::fields::names;
use crate::kit::controls::{on_text, on_tick};
use crate::state::field;
use crate::state::field_key::FieldKey;
use crate::state::questions;
use crate::state::questions::Question;
use crate::state::{Action, State};
use coolpath_core::document::fault::Spot;
use coolpath_core::document::row::Tag;
use coolpath_core::document::table::Input;
use coolpath_core::units::typed;
use yew::prelude::*;

/// A field to show.
#[derive(Properties, Clone)]
pub struct Props {
    /// Row of the table.
    pub input: &'static Input,
    /// Place in a list.
    pub place: usize,
    /// Whether buttons beside it step the value.
    #[prop_or_default]
    pub steps: bool,
    /// State of the page.
    pub state: std::rc::Rc<State>,
    /// What typing does.
    pub dispatch: Callback<Action>,
}

impl PartialEq for Props {
    fn eq(&self, other: &Self) -> bool {
        let shown = |props: &Self| {
            (
                field::text(&props.state, props.input, props.place),
                props
                    .input
                    .value(&props.state.design, props.place)
                    .map(f64::to_bits),
                props.state.design.is_measured(props.input, props.place),
                props
                    .state
                    .design
                    .calibration(props.input, props.place)
                    .cloned(),
                props
                    .state
                    .fault_at(Spot::Input(props.input.id, props.place)),
                questions::of(&props.state, &FieldKey::new(props.input.id, props.place)),
            )
        };
        let owner = |props: &Self| names::owner(&props.state.design, props.input.id, props.place);
        self.input.id == other.input.id
            && self.place == other.place
            && owner(self) == owner(other)
            && self.state.system == other.state.system
            && shown(self) == shown(other)
    }
}

/// A numeric field.
#[function_component]
pub fn NumberField(props: &Props) -> Html {
    let Props {
        input,
        place,
        state,
        dispatch,
        steps,
    } = props;
    let (input, place, system) = (*input, *place, state.system);
    let key = FieldKey::new(input.id, place);
    let id = key.element_id();
    let text = field::text(state, input, place);
    let unit = input.dimension.shown(system);
    let judged = field::value(input, &text, system);
    // A text that is no value comes first; then what is wrong with the value that stands.
    let fault = judged
        .as_ref()
        .err()
        .cloned()
        .or_else(|| state.fault_at(Spot::Input(input.id, place)));
    let asked = questions::of(state, &key);
    let question = judged
        .ok()
        .and_then(|value| field::question(input, value, system));
    let on_input = {
        let (dispatch, key) = (dispatch.clone(), key.clone());
        on_text(move |text| {
            dispatch.emit(Action::Type {
                key: key.clone(),
                text,
            });
        })
    };
    // A keypad without a minus sign only where no minus can be meant.
    let keypad = if unit.from_si(input.permitted.0) >= 0.0 {
        "decimal"
    } else {
        "text"
    };
    let (fault_id, origin_id) = (format!("{id}-fault"), format!("{id}-origin"));
    let mut described = Vec::new();
    if fault.is_some() || question.is_some() || asked.is_some() {
        described.push(fault_id.clone());
    }
    if input.likely.is_some() {
        described.push(origin_id.clone());
    }
    html! {
        <div class={classes!("field", fault.is_some().then_some("field-fault"))}>
            <label for={id.clone()}>
                { names::label(&state.design, input.id, place, input.label) }
                if !unit.symbol.is_empty() {
                    <span class="unit">{ format!(" ({})", unit.symbol) }</span>
                }
            </label>
            <span class={if *steps { "stepper" } else { "plain" }}>
                if *steps { { step_button(props, "−", -1.0) } }
                <input id={id} type="text" inputmode={keypad} autocomplete="off" spellcheck="false"
                    value={text} oninput={on_input} onkeydown={on_arrow(props)}
                    aria-invalid={fault.is_some().then_some("true")}
                    aria-describedby={(!described.is_empty()).then(|| described.join(" "))} />
                if *steps { { step_button(props, "+", 1.0) } }
            </span>
            if let Some(fault) = fault {
                <p class="fault" id={fault_id}>{ fault }</p>
                { asked.map(|asked| question_with_answers(asked, None, dispatch)) }
            } else if let Some(asked) = asked {
                { question_with_answers(asked, Some(fault_id), dispatch) }
            } else if let Some(question) = question {
                <p class="question" id={fault_id}>{ question }</p>
            }
            if input.likely.is_some() {
                { origin(props, &key, origin_id) }
            }
        </div>
    }
}

/// A question with answers of one touch.
fn question_with_answers(
    question: Question,
    id: Option<String>,
    dispatch: &Callback<Action>,
) -> Html {
    html! {
        <p class="question" {id} role="status">
            { question.words }{ " " }
            { for question.answers.into_iter().map(|(says, action)| {
                let answer = dispatch.reform(move |_: MouseEvent| action.clone());
                html! { <button type="button" class="quiet" onclick={answer}>{ says }</button> }
            }) }
        </p>
    }
}

/// What one step up or down does; nothing where the value is unknown.
fn stepped(props: &Props, steps: f64) -> Option<Action> {
    let value = props.input.value(&props.state.design, props.place)?;
    let next = names::step(props.input.dimension, value, props.state.system, steps);
    let (least, most) = props.input.permitted;
    Some(Action::Set {
        key: FieldKey::new(props.input.id, props.place),
        value: next.clamp(least, most),
    })
}

/// A button beside the field; the keys that do the same are arrows, so that no tab stops here.
fn step_button(props: &Props, sign: &'static str, steps: f64) -> Html {
    let press = {
        let props = props.clone();
        Callback::from(move |_: MouseEvent| {
            if let Some(action) = stepped(&props, steps) {
                props.dispatch.emit(action);
            }
        })
    };
    let way = if steps < 0.0 { "less" } else { "more" };
    html! {
        <button type="button" tabindex="-1" aria-label={format!("{}, {way}", props.input.label)} onclick={press}>{ sign }</button>
    }
}

/// Arrows up and down step the value, ten at a time with the shift key.
fn on_arrow(props: &Props) -> Callback<KeyboardEvent> {
    let props = props.clone();
    Callback::from(move |event: KeyboardEvent| {
        let way = match event.key().as_str() {
            "ArrowUp" => 1.0,
            "ArrowDown" => -1.0,
            _ => return,
        };
        let many = if event.shift_key() { 10.0 } else { 1.0 };
        if let Some(action) = stepped(&props, way * many) {
            event.prevent_default();
            props.dispatch.emit(action);
        }
    })
}

/// Where an assumption comes from, how far it may be off, and whether it was measured.
fn origin(props: &Props, key: &FieldKey, id: String) -> Html {
    let Props {
        input,
        place,
        state,
        dispatch,
        ..
    } = props;
    let unit = input.dimension.shown(state.system);
    let shown = |si: f64| typed::rounded_text(unit.from_si(si), 3);
    let value = input.value(&state.design, *place).unwrap_or(input.default);
    let is_default = input.is_default(value);
    let measured = state.design.is_measured(input, *place);
    let range = state.design.likely(input, *place).map(|(low, high)| {
        format!("{}–{} {}", shown(low), shown(high), unit.symbol)
            .replace("–-", " to −")
            .replace('-', "−")
            .trim_end()
            .to_owned()
    });
    let on_change = {
        let (dispatch, key) = (dispatch.clone(), key.clone());
        on_tick(move |ticked| {
            dispatch.emit(Action::Measured {
                key: key.clone(),
                measured: ticked,
            });
        })
    };
    let calibrated = state.design.calibration(input, *place).is_some();
    let whose = if calibrated {
        "Calibrated with your readings"
    } else if is_default {
        origin_phrase(input.tag)
    } else {
        "Your value"
    };
    html! {
        <p class="origin" id={id}>
            if measured {
                { "Measured by you: no range." }
            } else {
                { format!("{whose}: {}. {}.", range.unwrap_or_default(), capital(input.source)) }
            }
            <label class="tick">
                <input type="checkbox" checked={measured} onchange={on_change} />
                { "I measured this" }
            </label>
        </p>
    }
}

/// A text with a capital letter at its beginning.
fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

fn origin_phrase(tag: Tag) -> &'static str {
    match tag {
        Tag::Example => "Example",
        Tag::Published => "Published",
        Tag::Library => "From an engineering library",
        Tag::Derived => "Derived from other values here",
        Tag::CommonPractice => "Common practice",
        Tag::FromMemory => "Our estimate",
    }
}
