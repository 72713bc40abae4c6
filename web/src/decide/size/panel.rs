//! "Size the openings": what is sought, within which bounds, and what was found.

use crate::browser::job::{Job, use_job};
use crate::decide::minutes::plan;
use crate::decide::size::map::SizeMap;
use crate::decide::size::request::{Request, Text};
use crate::decide::size::result;
use crate::engine;
use crate::engine::task::Size;
use crate::kit::controls::{on_option, on_tick};
use crate::kit::later::use_after_pause;
use crate::kit::page::{use_dispatch, use_page};
use crate::kit::panel_field::PanelField;
use crate::kit::shared::Shared;
use crate::kit::soon::Soon;
use crate::part;
use crate::state::Action;
use coolpath_core::decide::size::TurnAround;
use coolpath_core::decide::size::course::{Seek, Sized};
use coolpath_core::decide::size::map::Report;
use coolpath_core::document::design::Design;
use coolpath_core::language::tr;
use coolpath_core::units::typed::UnitSystem;
use yew::prelude::*;

type SizeJob = Job<(usize, usize), (Shared<Report>, Shared<Design>)>;

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
    fn asked(self, request: &Request) -> (Seek, Request) {
        let seek = match self {
            Self::Exit => Seek::Exit,
            Self::Inlets | Self::Both => Seek::Both,
            Self::Flap => Seek::Flap,
            Self::Ratio => Seek::Ratio,
        };
        let mut request = request.clone();
        request.exit_locked |= self == Self::Inlets;
        (seek, request)
    }
}

/// What a sizing follows from.
#[derive(Clone, PartialEq)]
struct Wish {
    design: Shared<Design>,
    request: Request,
    change: Change,
    system: UnitSystem,
    turn_around: Option<Result<TurnAround, String>>,
}

/// The panel; it sizes by itself as soon as it is shown and whenever its question changes.
#[function_component]
pub fn SizePanel() -> Html {
    let (design, system, width) = use_page(|page| (page.design.clone(), page.system(), page.width));
    let dispatch = use_dispatch();
    // What is proposed while nothing is typed, and the locks.
    let proposed = use_state(|| Request::of(&design, system));
    let asked_in = use_state(|| system);
    if *asked_in != system {
        // The areas proposed are numbers in a unit.
        asked_in.set(system);
        proposed.set(Request::of(&design, system));
    }
    let request = {
        let proposed = (*proposed).clone();
        use_page(move |page| proposed.clone().typed(&page.state))
    };
    let change = use_state(|| Change::Both);
    let job = use_job::<(usize, usize), (Shared<Report>, Shared<Design>)>();
    let sized = use_part_to_size(&design);
    let turn_around = {
        let is_asked = request.turn_around;
        use_page(move |page| {
            let design = &page.design;
            is_asked.then(|| plan::turn_around(design, &page.answers, &page.state, page.system()))
        })
    };
    let settled = use_after_pause(&Wish {
        turn_around,
        design: sized,
        request: request.clone(),
        change: *change,
        system,
    });
    {
        let job = job.clone();
        use_effect_with(settled, move |wish| start(wish.clone(), &job));
    }
    let pick = |to: Change, words: &'static str| {
        let set = change.setter();
        let on_click = Callback::from(move |_: MouseEvent| set.set(to));
        html! { <button type="button" aria-pressed={(*change == to).to_string()} onclick={on_click}>{ words }</button> }
    };
    // Into the design as it stands: a name or an alternative may have come since.
    let take = {
        let design = design.clone();
        dispatch.reform(move |sized: Sized| taken(&sized, &design))
    };
    let take_tried = {
        let design = design.clone();
        dispatch.reform(move |tried: Design| {
            Action::Adjust(Box::new(Design {
                installation: tried.installation,
                ..(*design).clone()
            }))
        })
    };
    let done = job.done();
    html! {
        <section class="section job" id="size" tabindex="-1" aria-label={tr("How big?")}>
            <p class="ask">{ tr("How big?") }</p>
            <div aria-live="polite">
                { match done {
                    Some((report, of)) => result::headline(report, of, system),
                    None => html! { <h2 class="answer">{ tr("Size the openings") }</h2> },
                } }
            </div>
            <div class="job-columns">
                <div>
                    <p class="ask" id="size-change">{ tr("I can still change") }</p>
                    <div class="segments" role="group" aria-labelledby="size-change">
                        { pick(Change::Inlets, tr("Inlets")) }
                        { pick(Change::Exit, tr("Exit")) }
                        { pick(Change::Both, tr("Both")) }
                        { pick(Change::Flap, tr("Cowl flap")) }
                    </div>
                    { job.counted(tr("Sizing")) }
                    if let Some((report, of)) = done {
                        if !is_same_to_size(of, &design) {
                            <p class="stale">{ tr("The design has changed: this size is for the earlier one.") }</p>
                        }
                        { result::sizes(report, of, system, is_same_to_size(of, &design).then_some(&take)) }
                    }
                    <details class="drawer">
                        <summary>{ tr("More: bounds, confidence, velocity ratio") }</summary>
                        <p class="hint">{ tr("Inlets scale together; “exit” is the first one. Every condition must hold its limits with the shutter fully open. To keep an opening as it is, tick its box or set equal bounds.") }</p>
                        { fields(&proposed, &request, &design, system) }
                        <div class="buttons">{ pick(Change::Ratio, tr("Inlets for the velocity ratio")) }</div>
                    </details>
                </div>
                <div>
                    if let Some((report, of)) = done {
                        <Soon>{ part!(SizeMap { report: report.clone(), of: of.clone(), width, system, take: is_same_to_size(of, &design).then(|| take_tried.clone()) }) }</Soon>
                        { result::remedies_view(report, of, system) }
                    }
                </div>
            </div>
        </section>
    }
}

/// Takes a size over: texts of all fields that it does not change stay.
#[must_use]
pub fn taken(sized: &Sized, design: &Design) -> Action {
    Action::Adjust(Box::new(sized.applied(design)))
}

/// Begins a sizing; one under way is abandoned.
fn start(wish: Wish, job: &SizeJob) {
    job.start(|run| async move {
        let (seek, request) = wish.change.asked(&wish.request);
        let mut question = request.question(seek, &wish.design, wish.system)?;
        question.turn_around = wish.turn_around.transpose()?;
        let size = Size {
            design: (*wish.design).clone(),
            question,
        };
        let report = engine::job::followed(size, &run).await?;
        Ok((Shared::new(report), wish.design))
    });
}

/// The design, which stays the same one while nothing changes that the sizing reads.
#[hook]
fn use_part_to_size(design: &Shared<Design>) -> Shared<Design> {
    let kept = use_mut_ref(|| design.clone());
    if !is_same_to_size(&kept.borrow(), design) {
        *kept.borrow_mut() = design.clone();
    }
    let kept = kept.borrow();
    kept.clone()
}

/// Whether two designs differ in nothing that the sizing reads: a name or an alternative is none.
fn is_same_to_size(a: &Design, b: &Design) -> bool {
    a.installation == b.installation && a.conditions == b.conditions && a.measured == b.measured
}

fn fields(
    proposed: &UseStateHandle<Request>,
    request: &Request,
    design: &Design,
    system: UnitSystem,
) -> Html {
    let lock = |id: &'static str, words: &'static str, on: bool, set: fn(&mut Request, bool)| {
        let proposed = proposed.clone();
        let change = on_tick(move |ticked| {
            let mut next = (*proposed).clone();
            set(&mut next, ticked);
            proposed.set(next);
        });
        html! {
            <label class="tick" for={id}><input {id} type="checkbox" checked={on} onchange={change} />{ words }</label>
        }
    };
    let on_condition = {
        let proposed = proposed.clone();
        on_option(move |option| {
            if let Ok(condition) = option.parse() {
                let mut next = (*proposed).clone();
                next.condition = condition;
                proposed.set(next);
            }
        })
    };
    html! {
        <>
            <div class="fields">
                { for Text::ALL.into_iter().map(|which| text_field(proposed, request, which, system)) }
                <div class="field">
                    <label for="size-condition">{ tr("Condition of the velocity ratio") }</label>
                    <select id="size-condition" onchange={on_condition}>
                        { for design.conditions.iter().enumerate().map(|(place, condition)| html! {
                            <option value={place.to_string()} selected={place == request.condition}>{ condition.name.clone() }</option>
                        }) }
                    </select>
                </div>
            </div>
            { lock("size-lock-inlets", tr("Keep the inlets as they are"), request.inlets_locked, |next, on| next.inlets_locked = on) }
            { lock("size-lock-exit", tr("Keep the exit as it is"), request.exit_locked, |next, on| next.exit_locked = on) }
            { lock("size-turn-around", tr("Hold the limits in the hot turn-around too: stop, soak, taxi and climb, for the minutes under “Minute by minute”"), request.turn_around, |next, on| next.turn_around = on) }
            if request.turn_around {
                <p class="hint">{ tr("Stopped hot and left to stand, then your first ground runs and climbs, each for its minutes in “Minute by minute”, in the hot day’s air (100 °F at sea level). Map and odds are of steady conditions.") }</p>
            }
        </>
    }
}

fn text_field(proposed: &Request, request: &Request, which: Text, system: UnitSystem) -> Html {
    let (label, dimension) = which.meaning();
    let unit = dimension.shown(system).symbol;
    let usual = proposed.text(which).to_owned();
    let judged = request.value(which, system).map(drop);
    part!(PanelField {
        of: which.key(),
        label,
        unit,
        usual,
        judged
    })
}
