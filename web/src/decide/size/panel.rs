//! "Size the openings": what is sought, within which bounds, and what was found.

use crate::decide::size::job::{Job, Report};
use crate::decide::size::request::{Ask, Request, Text};
use crate::decide::size::result;
use crate::kit::after_pause::use_after_pause;
use crate::kit::controls::{on_option, on_text, on_tick};
use crate::state::Action;
use coolpath_core::document::design::Design;
use coolpath_core::units::typed::UnitSystem;
use std::cell::RefCell;
use std::rc::Rc;
use std::time::Duration;
use yew::platform::{spawn_local, time::sleep};
use yew::prelude::*;

/// What the sizing needs.
#[derive(Properties, Clone)]
pub struct Props {
    /// Design to size.
    pub design: Rc<Design>,
    /// Units.
    pub system: UnitSystem,
    /// Room for the chart, CSS pixels.
    pub width: u32,
    /// Takes a size over.
    pub dispatch: Callback<Action>,
}

impl PartialEq for Props {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.design, &other.design)
            && self.system == other.system
            && self.width == other.width
    }
}

/// What the panel shows of a sizing.
#[derive(Clone, PartialEq)]
enum Shown {
    Nothing,
    Fault(String),
    Working(usize, usize),
    Stopped,
    Done(Rc<Report>, Rc<Design>),
}

/// What can still be changed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Change {
    Inlets,
    Exit,
    Both,
    Flap,
    Ratio,
}

impl Change {
    /// What is asked of the sizing, and the request with its locks.
    fn asked(self, request: &Request) -> (Ask, Request) {
        let ask = match self {
            Self::Exit => Ask::Exit,
            Self::Inlets | Self::Both => Ask::Both,
            Self::Flap => Ask::Flap,
            Self::Ratio => Ask::Ratio,
        };
        let mut request = request.clone();
        request.exit_locked |= self == Self::Inlets;
        (ask, request)
    }
}

/// What a sizing follows from.
#[derive(Clone)]
struct Wish {
    design: Rc<Design>,
    request: Request,
    change: Change,
}

impl PartialEq for Wish {
    fn eq(&self, other: &Self) -> bool {
        (Rc::ptr_eq(&self.design, &other.design) || is_same_to_size(&self.design, &other.design))
            && self.request == other.request
            && self.change == other.change
    }
}

/// The panel; it sizes by itself as soon as it is shown and whenever its question changes.
#[function_component]
pub fn SizePanel(props: &Props) -> Html {
    let Props {
        design,
        system,
        width,
        dispatch,
    } = props;
    let system = *system;
    let request = use_state(|| Request::of(design, system));
    let asked_in = use_state(|| system);
    if *asked_in != system {
        // Areas typed without a unit would change their meaning with it.
        asked_in.set(system);
        request.set(Request::of(design, system));
    }
    let change = use_state(|| Change::Both);
    let shown = use_state(|| Shown::Nothing);
    let running = use_mut_ref(|| 0_u64);
    let wish = Wish {
        design: design.clone(),
        request: (*request).clone(),
        change: *change,
    };
    let settled = use_after_pause(&wish);
    {
        let (shown, running) = (shown.clone(), running.clone());
        use_effect_with((settled, system), move |(wish, system)| {
            start(wish, *system, &shown, &running);
        });
    }
    let stop = {
        let (shown, running) = (shown.clone(), running.clone());
        Callback::from(move |_: MouseEvent| {
            *running.borrow_mut() += 1;
            shown.set(Shown::Stopped);
        })
    };
    let pick = |to: Change, words: &'static str| {
        let set = change.setter();
        let on_click = Callback::from(move |_: MouseEvent| set.set(to));
        html! { <button type="button" aria-pressed={(*change == to).to_string()} onclick={on_click}>{ words }</button> }
    };
    let done = match &*shown {
        Shown::Done(report, of) => Some((report, of)),
        _ => None,
    };
    html! {
        <section class="section job" id="size" tabindex="-1" aria-label="How big?">
            <p class="ask">{ "How big?" }</p>
            <div aria-live="polite">
                { match done {
                    Some((report, of)) => result::headline(report, of, system),
                    None => html! { <h2 class="answer">{ "Size the openings" }</h2> },
                } }
            </div>
            <div class="job-columns">
                <div>
                    <p class="ask" id="size-change">{ "I can still change" }</p>
                    <div class="segments" role="group" aria-labelledby="size-change">
                        { pick(Change::Inlets, "Inlets") }
                        { pick(Change::Exit, "Exit") }
                        { pick(Change::Both, "Both") }
                        { pick(Change::Flap, "Cowl flap") }
                    </div>
                    { working(&shown, stop) }
                    if let Some((report, of)) = done {
                        if !is_same_to_size(of, design) {
                            <p class="stale">{ "The design has changed since: this is the size of the design before." }</p>
                        }
                        { result::sizes(report, of, system, dispatch) }
                    }
                    <details class="drawer">
                        <summary>{ "More: bounds, confidence, velocity ratio" }</summary>
                        <p class="hint">{ "Inlets scale together; the exit is the first one. Every condition must hold its limits with the shutter fully open. Equal bounds or a lock leave an opening as it is." }</p>
                        { fields(&request, design, system) }
                        <div class="buttons">{ pick(Change::Ratio, "Inlets for the velocity ratio") }</div>
                    </details>
                </div>
                <div>
                    if let Some((report, of)) = done { { result::picture(report, of, *width, system) } }
                </div>
            </div>
        </section>
    }
}

/// How far the sizing is, or why there is none.
fn working(shown: &Shown, stop: Callback<MouseEvent>) -> Html {
    match shown {
        Shown::Nothing | Shown::Done(..) => Html::default(),
        Shown::Fault(fault) => html! { <p class="fault" role="alert">{ fault }</p> },
        Shown::Working(done, all) => html! {
            <p>
                <progress value={done.to_string()} max={all.to_string()} aria-label="Sizing" />
                { format!(" Step {done} of {all} ") }
                <button type="button" class="quiet" onclick={stop}>{ "Stop" }</button>
            </p>
        },
        Shown::Stopped => html! { <p>{ "Stopped. Nothing was changed." }</p> },
    }
}

/// Begins a sizing; one under way is abandoned.
fn start(
    wish: &Wish,
    system: UnitSystem,
    shown: &UseStateHandle<Shown>,
    running: &Rc<RefCell<u64>>,
) {
    *running.borrow_mut() += 1;
    let (ask, request) = wish.change.asked(&wish.request);
    let numbers = match request.numbers(&wish.design, system) {
        Ok(numbers) => numbers,
        Err(fault) => return shown.set(Shown::Fault(fault)),
    };
    if let Err(error) = wish.design.check() {
        return shown.set(Shown::Fault(error.to_string()));
    }
    let mine = *running.borrow();
    let (shown, running, design) = (shown.clone(), running.clone(), wish.design.clone());
    let mut job = Job::new((*design).clone(), ask, numbers, request.condition);
    spawn_local(async move {
        let mut more = true;
        while more {
            let (done, all) = job.progress();
            shown.set(Shown::Working(done, all));
            sleep(Duration::ZERO).await;
            if *running.borrow() != mine {
                return;
            }
            more = job.advance();
        }
        if let Some(report) = job.report {
            shown.set(Shown::Done(Rc::new(report), design));
        }
    });
}

/// Whether two designs differ in nothing that the sizing reads: a name or an alternative is none.
fn is_same_to_size(a: &Design, b: &Design) -> bool {
    a.installation == b.installation && a.conditions == b.conditions && a.measured == b.measured
}

fn fields(request: &UseStateHandle<Request>, design: &Design, system: UnitSystem) -> Html {
    let lock = |id: &'static str, words: &'static str, on: bool, set: fn(&mut Request, bool)| {
        let request = request.clone();
        let change = on_tick(move |ticked| {
            let mut next = (*request).clone();
            set(&mut next, ticked);
            request.set(next);
        });
        html! {
            <label class="tick" for={id}><input {id} type="checkbox" checked={on} onchange={change} />{ words }</label>
        }
    };
    let on_condition = {
        let request = request.clone();
        on_option(move |option| {
            if let Ok(condition) = option.parse() {
                let mut next = (*request).clone();
                next.condition = condition;
                request.set(next);
            }
        })
    };
    html! {
        <>
            <div class="fields">
                { for Text::ALL.into_iter().map(|which| text_field(request, which, system)) }
                <div class="field">
                    <label for="size-condition">{ "Condition of the velocity ratio" }</label>
                    <select id="size-condition" onchange={on_condition}>
                        { for design.conditions.iter().enumerate().map(|(place, condition)| html! {
                            <option value={place.to_string()} selected={place == request.condition}>{ condition.name.clone() }</option>
                        }) }
                    </select>
                </div>
            </div>
            { lock("size-lock-inlets", "Leave the inlets as they are", request.inlets_locked, |next, on| next.inlets_locked = on) }
            { lock("size-lock-exit", "Leave the exit as it is", request.exit_locked, |next, on| next.exit_locked = on) }
        </>
    }
}

fn text_field(request: &UseStateHandle<Request>, which: Text, system: UnitSystem) -> Html {
    let (label, dimension) = which.meaning();
    let id = format!("size-{which:?}").to_lowercase();
    let fault = request.value(which, system).err();
    let unit = dimension.shown(system).symbol;
    let on_input = {
        let request = request.clone();
        on_text(move |text| {
            request.set((*request).clone().with(which, text));
        })
    };
    let fault_id = format!("{id}-fault");
    html! {
        <div class={classes!("field", fault.is_some().then_some("field-fault"))}>
            <label for={id.clone()}>{ label }
                if !unit.is_empty() { <span class="unit">{ format!(" ({unit})") }</span> }
            </label>
            <input {id} type="text" inputmode="decimal" autocomplete="off" value={request.text(which).to_owned()}
                aria-invalid={fault.is_some().to_string()} aria-describedby={fault_id.clone()} oninput={on_input} />
            <p id={fault_id} class="fault">{ fault.unwrap_or_default() }</p>
        </div>
    }
}
