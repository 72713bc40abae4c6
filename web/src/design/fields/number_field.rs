//! One numeric field with its label, message and origin.

use crate::design::fields::names;
use crate::kit::controls::{on_text, on_tick};
use crate::kit::format;
use crate::kit::page::{use_dispatch, use_page};
use crate::state::field;
use crate::state::field_key::FieldKey;
use crate::state::questions;
use crate::state::questions::Question;
use crate::state::{Action, State};
use coolpath_core::document::fault::Spot;
use coolpath_core::document::origin::Origin;
use coolpath_core::document::table;
use coolpath_core::document::table::Input;
use coolpath_core::language::tr;
use coolpath_core::units::typed::UnitSystem;
use yew::prelude::*;

/// A field to show.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// Its input in the table.
    pub id: &'static str,
    /// Place in a list.
    #[prop_or_default]
    pub place: usize,
    /// Begins the ids in its markup, where the same input stands on the page once more.
    #[prop_or_default]
    pub within: &'static str,
    /// Whether buttons beside it step the value.
    #[prop_or_default]
    pub steps: bool,
}

/// All that a field shows of the page's state; it is drawn anew only when some of it changes.
#[derive(Debug, Clone, PartialEq)]
struct Shown {
    text: String,
    system: UnitSystem,
    owner: Option<String>,
    value: Option<f64>,
    likely: Option<(f64, f64)>,
    origin: Origin,
    fault: Option<String>,
    asked: Option<Question>,
}

impl Shown {
    fn of(state: &State, input: &'static Input, place: usize) -> Self {
        let design = &state.design;
        Self {
            text: field::text(state, input, place),
            system: state.system,
            owner: names::owner(design, input.id, place),
            value: input.value(design, place),
            likely: design.likely(input, place),
            origin: Origin::of(design, input, place),
            fault: state.fault_at(Spot::Input(input.id, place)),
            asked: questions::of(state, &FieldKey::new(input.id, place)),
        }
    }
}

/// A field as its pieces need it.
#[derive(Clone)]
struct Field {
    input: &'static Input,
    key: FieldKey,
    within: &'static str,
    shown: Shown,
    dispatch: Callback<Action>,
}

/// A numeric field.
#[function_component]
pub fn NumberField(props: &Props) -> Html {
    let (id, place) = (props.id, props.place);
    let dispatch = use_dispatch();
    let found = use_page(move |page| {
        let input = table::by_id(id)?;
        Some(Shown::of(&page.state, input, place))
    });
    match table::by_id(id).zip(found) {
        Some((input, shown)) => Field {
            input,
            key: FieldKey::new(id, place),
            within: props.within,
            shown,
            dispatch,
        }
        .html(props.steps),
        None => Html::default(),
    }
}

impl Field {
    fn html(&self, steps: bool) -> Html {
        let Self {
            input, shown, key, ..
        } = self;
        let id = format!("{}{}", self.within, key.element_id());
        let unit = input.dimension.shown(shown.system);
        let judged = field::value(input, &shown.text, shown.system);
        // A text that is no value comes first; then what is wrong with the value that stands.
        let fault = judged.as_ref().err().cloned().or(shown.fault.clone());
        let asked = shown.asked.clone();
        let question = judged
            .ok()
            .and_then(|value| field::question(input, value, shown.system));
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
                    { names::label(shown.owner.as_deref(), input.label) }
                    if !unit.symbol.is_empty() {
                        <span class="unit">{ format!(" ({})", unit.symbol) }</span>
                    }
                </label>
                <span class={if steps { "stepper" } else { "plain" }}>
                    if steps { { self.step_button("−", -1.0) } }
                    <input id={id} type="text" inputmode={keypad} autocomplete="off" spellcheck="false"
                        value={shown.text.clone()} oninput={self.on_input()} onkeydown={self.on_arrow()}
                        aria-invalid={fault.is_some().then_some("true")}
                        aria-describedby={(!described.is_empty()).then(|| described.join(" "))} />
                    if steps { { self.step_button("+", 1.0) } }
                </span>
                if let Some(fault) = fault {
                    <p class="fault" id={fault_id}>{ fault }</p>
                    { asked.map(|asked| self.question_with_answers(asked, None)) }
                } else if let Some(asked) = asked {
                    { self.question_with_answers(asked, Some(fault_id)) }
                } else if let Some(question) = question {
                    <p class="question" id={fault_id}>{ question }</p>
                }
                if input.likely.is_some() {
                    { self.origin(origin_id) }
                }
            </div>
        }
    }

    fn on_input(&self) -> Callback<InputEvent> {
        let (dispatch, key) = (self.dispatch.clone(), self.key.clone());
        on_text(move |text| {
            dispatch.emit(Action::Type {
                key: key.clone(),
                text,
            });
        })
    }

    /// A question with answers of one touch.
    fn question_with_answers(&self, question: Question, id: Option<String>) -> Html {
        html! {
            <p class="question" {id} role="status">
                { question.words }{ " " }
                { for question.answers.into_iter().map(|(says, action)| {
                    let answer = self.dispatch.reform(move |_: MouseEvent| action.clone());
                    html! { <button type="button" class="quiet" onclick={answer}>{ says }</button> }
                }) }
            </p>
        }
    }

    /// What one step up or down does; nothing where the value is unknown.
    fn stepped(&self, steps: f64) -> Option<Action> {
        let value = self.shown.value?;
        let next = names::step(self.input.dimension, value, self.shown.system, steps);
        let (least, most) = self.input.permitted;
        Some(Action::Set {
            key: self.key.clone(),
            value: next.clamp(least, most),
        })
    }

    /// A button beside the field; the keys that do the same are arrows, so that no tab stops here.
    fn step_button(&self, sign: &'static str, steps: f64) -> Html {
        let press = {
            let field = self.clone();
            Callback::from(move |_: MouseEvent| {
                if let Some(action) = field.stepped(steps) {
                    field.dispatch.emit(action);
                }
            })
        };
        let way = if steps < 0.0 { tr("less") } else { tr("more") };
        html! {
            <button type="button" tabindex="-1" aria-label={format!("{}, {way}", self.input.label)} onclick={press}>{ sign }</button>
        }
    }

    /// Arrows up and down step the value, ten at a time with the shift key.
    fn on_arrow(&self) -> Callback<KeyboardEvent> {
        let field = self.clone();
        Callback::from(move |event: KeyboardEvent| {
            let way = match event.key().as_str() {
                "ArrowUp" => 1.0,
                "ArrowDown" => -1.0,
                _ => return,
            };
            let many = if event.shift_key() { 10.0 } else { 1.0 };
            if let Some(action) = field.stepped(way * many) {
                event.prevent_default();
                field.dispatch.emit(action);
            }
        })
    }

    /// Where an assumption comes from, how far it may be off, and whether it was measured.
    fn origin(&self, id: String) -> Html {
        let Self {
            input, shown, key, ..
        } = self;
        let unit = input.dimension.shown(shown.system);
        let number = |si: f64| format::number(unit.from_si(si), 3);
        let range = shown.likely.map(|(low, high)| {
            let (low, high) = (number(low), number(high));
            let range = if high.starts_with('−') {
                tr!("{} to {}", low, high)
            } else {
                format!("{low}–{high}")
            };
            format!("{range} {}", unit.symbol).trim_end().to_owned()
        });
        let on_change = {
            let (dispatch, key) = (self.dispatch.clone(), key.clone());
            on_tick(move |ticked| {
                dispatch.emit(Action::Measured {
                    key: key.clone(),
                    measured: ticked,
                });
            })
        };
        let measured = shown.origin == Origin::Measured;
        let whose = format::capital(shown.origin.words());
        html! {
            <p class="origin" id={id}>
                if measured {
                    { tr!("{}: no range.", whose) }
                } else {
                    { format!("{whose}: {}. {}.", range.unwrap_or_default(), format::capital(input.source)) }
                }
                <label class="tick">
                    <input type="checkbox" checked={measured} onchange={on_change} />
                    { tr("I measured this") }
                </label>
            </p>
        }
    }
}
