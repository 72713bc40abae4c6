//! "Size the openings": what is sought, within which bounds, and what was found.

use crate::charts::Size as ChartSize;
use crate::charts::contour;
use crate::charts::view::FigureView;
use crate::decide::size::job::{Job, Report, Sized};
use crate::decide::size::request::{Ask, Request, Text};
use crate::kit::controls::{on_option, on_text, on_tick};
use crate::kit::format;
use crate::state::Action;
use coolpath_core::answer::evaluate::Limit;
use coolpath_core::decide::size;
use coolpath_core::decide::size::{Margin, SizeError, Wanted};
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::areas::exit_m2;
use coolpath_core::document::installation::areas::inlets_m2;
use coolpath_core::document::installation::{ExitShape, Inlet, InletShape};
use coolpath_core::units::typed::{Dimension, UnitSystem};
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

/// The panel.
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
    let shown = use_state(|| Shown::Nothing);
    let running = use_mut_ref(|| 0_u64);
    let start = {
        let (request, shown, running, design) = (
            request.clone(),
            shown.clone(),
            running.clone(),
            design.clone(),
        );
        Callback::from(move |ask: Ask| {
            let numbers = match request.numbers(&design, system) {
                Ok(numbers) => numbers,
                Err(fault) => return shown.set(Shown::Fault(fault)),
            };
            if let Err(error) = design.check() {
                return shown.set(Shown::Fault(error.to_string()));
            }
            *running.borrow_mut() += 1;
            let mine = *running.borrow();
            let (shown, running, design) = (shown.clone(), running.clone(), design.clone());
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
        })
    };
    let stop = {
        let (shown, running) = (shown.clone(), running.clone());
        Callback::from(move |_: MouseEvent| {
            *running.borrow_mut() += 1;
            shown.set(Shown::Stopped);
        })
    };
    let ask = |ask: Ask, words: &'static str| {
        html! { <button type="button" onclick={start.reform(move |_: MouseEvent| ask)}>{ words }</button> }
    };
    html! {
        <details class="section" id="size">
            <summary>{ "Size the openings" }</summary>
            <p class="hint">{ "All inlets grow alike; the exit is the first one. Every condition must hold its limits with the shutter fully open. Equal bounds or a lock leave an opening as it is." }</p>
            { fields(&request, design, system) }
            <div class="buttons">
                { ask(Ask::Exit, "Smallest exit for these inlets") }
                { ask(Ask::Ratio, "Inlets for the velocity ratio") }
                { ask(Ask::Both, "Both, for least cruise drag") }
                { ask(Ask::Flap, "A cowl flap") }
            </div>
            <div aria-live="polite">
                { match &*shown {
                    Shown::Nothing => Html::default(),
                    Shown::Fault(fault) => html! { <p class="fault" role="alert">{ fault }</p> },
                    Shown::Working(done, all) => html! {
                        <p>
                            <progress value={done.to_string()} max={all.to_string()} aria-label="Sizing" />
                            { format!(" Step {done} of {all} ") }
                            <button type="button" class="quiet" onclick={stop}>{ "Stop" }</button>
                        </p>
                    },
                    Shown::Stopped => html! { <p>{ "Stopped. Nothing was changed." }</p> },
                    Shown::Done(report, of) => html! {
                        <>
                            if !is_same_to_size(of, design) {
                                <p class="stale">{ "The design has changed since: this is the size of the design before." }</p>
                            }
                            { report_view(report, of, *width, system, dispatch) }
                        </>
                    },
                } }
            </div>
        </details>
    }
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

fn report_view(
    report: &Report,
    design: &Rc<Design>,
    width: u32,
    system: UnitSystem,
    dispatch: &Callback<Action>,
) -> Html {
    let proposed = match &report.nominal {
        Ok(Sized::Openings(found)) => Some((found.inlets_m2, found.exit_m2)),
        Ok(Sized::Flap(flap)) => Some((inlets_m2(&flap.design.installation), flap.open_m2)),
        Err(_) => None,
    };
    let installation = &design.installation;
    let figure = contour::figure(
        &report.grid,
        installation.engine.head_limit.value,
        (inlets_m2(installation), exit_m2(installation)),
        proposed,
        system,
        ChartSize {
            width: width.min(640),
            height: 320,
        },
    );
    html! {
        <>
            <div class="beside">
                { sized_view("At the nominal values", &report.nominal, design, system, dispatch) }
                { report.robust.as_ref().map(|robust| sized_view("With the chosen chance", robust, design, system, dispatch)) }
            </div>
            if report.robust.is_some() {
                <p class="hint">{ "The chance holds for each limit in each condition by itself, from the likely ranges of all assumptions. Measuring an assumption, above all the known point of your engine, brings both sizes together. Metal can't be put back: cut the nominal size first." }</p>
            }
            { remedies_view(report, design, system) }
            <FigureView {figure} />
        </>
    }
}

fn area(m2: f64, system: UnitSystem) -> String {
    format::quantity(m2, Dimension::Area, system, 3)
}

/// Dimensions of an inlet of the chosen shape.
fn inlet_words(inlet: &Inlet, system: UnitSystem) -> String {
    let length = |m: f64| format::quantity(m, Dimension::Length, system, 3);
    let what = match inlet.shape {
        InletShape::Rectangle => format!(
            "{} × {}, corners {}",
            length(inlet.width.value),
            length(inlet.height.value),
            length(inlet.corner_radius.value)
        ),
        InletShape::Ring => format!("{} across", length(inlet.diameter.value)),
        InletShape::Traced => area(inlet.area_m2(), system),
    };
    format!("{}: {what}", inlet.name)
}

fn exit_words(design: &Design, system: UnitSystem) -> Option<String> {
    let exit = design.installation.exits.first()?;
    let length = |m: f64| format::quantity(m, Dimension::Length, system, 3);
    Some(match exit.shape {
        ExitShape::LipGap => format!(
            "{}: gap {} over {} width, {} of it blocked by pipes",
            exit.name,
            length(exit.gap.value),
            length(exit.width.value),
            area(exit.pipes_area.value, system)
        ),
        ExitShape::Traced => format!(
            "{}: {} in all",
            exit.name,
            area(exit.traced_area.value, system)
        ),
        ExitShape::Louvers => format!(
            "{}: {} louvers of {} each",
            exit.name,
            exit.louver_count,
            area(exit.louver_area.value, system)
        ),
    })
}

/// How far a margin lies inside or outside, in words.
fn margin_words(margin: &Margin, design: &Design, system: UnitSystem) -> String {
    let name = design
        .conditions
        .get(margin.condition)
        .map_or("", |condition| condition.name.as_str());
    let kelvin = Dimension::TemperatureDifference;
    let by = margin.by.abs();
    let side = if margin.by >= 0.0 {
        "inside"
    } else {
        "outside"
    };
    let is_just_held = margin.scaled.abs() < 0.01;
    let (what, amount) = match margin.wanted {
        Wanted::Limit(Limit::Head) => ("head limit", format::quantity(by, kelvin, system, 2)),
        Wanted::Limit(Limit::Oil) => ("oil limit", format::quantity(by, kelvin, system, 2)),
        Wanted::Drop => (
            "least Δp",
            format::quantity(by, Dimension::Pressure, system, 2),
        ),
    };
    if is_just_held {
        return format!("the {what} in “{name}”, just held");
    }
    format!("the {what} in “{name}”, {amount} {side}")
}

fn sized_view(
    title: &'static str,
    sized: &Result<Sized, SizeError>,
    design: &Rc<Design>,
    system: UnitSystem,
    dispatch: &Callback<Action>,
) -> Html {
    let speed = |m_s: f64| format::quantity(m_s, Dimension::Speed, system, 2);
    let rows: Vec<(&str, String)> = match sized {
        Err(error) => {
            let more = match error {
                SizeError::OutOfReach {
                    shortfall,
                    inlets_m2,
                    exit_m2,
                } => format!(
                    " Nearest are inlets of {} with an exit of {}: {}.",
                    area(*inlets_m2, system),
                    area(*exit_m2, system),
                    margin_words(shortfall, design, system)
                ),
                _ => String::new(),
            };
            return html! {
                <section class="found"><h3>{ title }</h3><p class="headline outside">{ format!("{error}{more}") }</p></section>
            };
        }
        Ok(Sized::Openings(found)) => {
            let sized = Design {
                installation: found.installation.clone(),
                ..(**design).clone()
            };
            let mut rows = vec![
                ("All inlets", area(found.inlets_m2, system)),
                ("Exit, net", area(found.exit_m2, system)),
                ("Exit over inlets", format!("{:.2}", found.ratio())),
            ];
            for inlet in &found.installation.inlets {
                rows.push(("Inlet", inlet_words(inlet, system)));
            }
            if let Some(words) = exit_words(&sized, system) {
                rows.push(("Exit", words));
            }
            rows.push(("Binds", margin_words(&found.binding, design, system)));
            rows.push((
                "Cooling drag in cruise",
                format::quantity(found.cruise_drag_n, Dimension::Force, system, 3),
            ));
            if let Some(cost) = size::cruise_speed_of(design, found.cruise_drag_n) {
                rows.push(("It costs", speed(cost)));
            }
            rows.push((
                "Common practice",
                practice(design, found.inlets_m2, found.ratio()),
            ));
            rows
        }
        Ok(Sized::Flap(flap)) => vec![
            ("Closed, net", area(flap.closed_m2, system)),
            (
                "Binds closed",
                margin_words(&flap.closed_binding, design, system),
            ),
            ("Open, net", area(flap.open_m2, system)),
            (
                "Binds open",
                margin_words(&flap.open_binding, design, system),
            ),
            ("Fixed exit instead, net", area(flap.fixed_m2, system)),
            (
                "Saved in cruise against it",
                flap.saved_m_s
                    .map_or_else(|| format::NONE.to_owned(), speed),
            ),
        ],
    };
    let take = sized.as_ref().ok().map(|sized| {
        let action = Action::Open(Box::new(sized.applied(design)));
        html! {
            <button type="button" onclick={dispatch.reform(move |_: MouseEvent| action.clone())}>{ "Take this size over" }</button>
        }
    });
    html! {
        <section class="found">
            <h3>{ title }</h3>
            <dl class="numbers">
                { for rows.into_iter().map(|(what, words)| html! { <div><dt>{ what }</dt><dd>{ words }</dd></div> }) }
            </dl>
            { take }
        </section>
    }
}

/// Practitioners' figures beside a size.
fn practice(design: &Design, inlets_m2: f64, ratio: f64) -> String {
    let horsepower =
        Dimension::Power.units()[0].from_si(design.installation.engine.rated_power.value);
    let square_inches = Dimension::Area.units()[0].from_si(inlets_m2);
    format!(
        "{:.2} in² of inlet per hp (0.35 is usual), exit over inlets {ratio:.2} (1.0 to 1.4 in climb); without a source",
        square_inches / horsepower
    )
}

fn remedies_view(report: &Report, design: &Design, system: UnitSystem) -> Html {
    if report.remedies.is_empty() {
        return Html::default();
    }
    let pressure = |remedy: &size::Remedy| remedy.margin.wanted == Wanted::Drop;
    html! {
        <section>
            <h3>{ "What would mend it, one change at a time" }</h3>
            <p class="hint">{ "From the nearest openings above; each line is solved anew. The largest gain stands first." }</p>
            <ul>
                { for report.remedies.iter().map(|remedy| {
                    let dimension = if pressure(remedy) { Dimension::Pressure } else { Dimension::TemperatureDifference };
                    let better = if remedy.gain >= 0.0 { "better" } else { "worse" };
                    html! {
                        <li>{ format!(
                            "{}: {} {better}; then {}",
                            remedy.change,
                            format::quantity(remedy.gain.abs(), dimension, system, 2),
                            margin_words(&remedy.margin, design, system)
                        ) }</li>
                    }
                }) }
            </ul>
        </section>
    }
}
