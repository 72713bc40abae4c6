//! "Check on the next flight": what is kept from the fit, predicted and judged.

use crate::browser::job::{End, Run, use_job};
use crate::charts::view::FigureView;
use crate::charts::{Size, held, room};
use crate::engine::flight_task::Check;
use crate::engine::job::followed;
use crate::fly::next_flight::tables;
use crate::fly::next_flight::words::{advice, coverage, headline};
use crate::fly::path::use_opened;
use crate::fly::used_for;
use crate::kit::page::{use_dispatch, use_page};
use crate::kit::shared::Shared;
use crate::part;
use crate::state::Action;
use coolpath_core::document::design::Design;
use coolpath_core::language::tr;
use coolpath_core::prove::flights::{Checked, Judged, check_only_windows};
use coolpath_core::units::typed::UnitSystem;
use std::rc::Rc;
use yew::prelude::*;

/// Widest and highest that the chart is drawn, CSS pixels.
const CHART: Size = Size {
    width: 640,
    height: 420,
};

/// What was found, and the design that it is of.
type Found = (Shared<Design>, Rc<Checked>);

/// What the panel needs.
#[derive(Properties, Clone, PartialEq)]
pub struct NextFlightProps {
    /// Whether its step is next, so that it stands open.
    pub next: bool,
    /// Told of what a check found, in a few words, and of which design.
    pub on_checked: Callback<(Shared<Design>, String)>,
}

/// The panel.
#[function_component]
pub fn NextFlightPanel(props: &NextFlightProps) -> Html {
    let opened = use_opened(props.next);
    let (design, system, width) = use_page(|page| (page.design.clone(), page.system(), page.width));
    let edits = use_dispatch().reform(Action::Reading);
    let job = use_job::<(usize, usize), Found>();
    let marked = check_only_windows(&design).len();
    let start = {
        let (job, design, told) = (job.clone(), design.clone(), props.on_checked.clone());
        Callback::from(move |_: MouseEvent| {
            let (design, told) = (design.clone(), told.clone());
            job.start(|run| checked(run, design, told));
        })
    };
    html! {
        <details class="section" id="next-flight" open={opened}>
            <summary>{ tr("Check against readings the fit has not seen") }</summary>
            <p class="hint">{ tr("Mark another flight “check only”. The usual values are fitted to what is marked “fit”, and everything that is marked “check only” is predicted with its band of nine in ten. A climb or descent starts from the temperatures read first, two minutes are one window; nothing of it is fitted.") }</p>
            if !design.readings.is_empty() {
                { used_for::list(&design, &edits) }
            }
            if marked == 0 {
                <p>{ tr("No reading is marked “check only”.") }</p>
            } else {
                <p class="fitted-on">{ headline(&design) }{ "." }</p>
                <div class="buttons"><button type="button" onclick={start}>{ tr("Check the model") }</button></div>
            }
            <div aria-live="polite">
                { job.told(|_| html! { <p>{ tr("Fitting without them, then predicting them…") }{ " " }{ job.stop_button() }</p> }) }
                { job.done().map(|(of, checked)| html! { <>
                    if *of != design { <p class="stale">{ tr("The design or its readings have changed since. Check again.") }</p> }
                    { part!(Result { checked: checked.clone(), of: of.clone(), system, width }) }
                </> }) }
            </div>
        </details>
    }
}

/// Checks a design on what its fit has not seen, and tells what that found.
async fn checked(
    run: Run<(usize, usize), Found>,
    design: Shared<Design>,
    told: Callback<(Shared<Design>, String)>,
) -> std::result::Result<Found, End> {
    let check = Check {
        design: (*design).clone(),
    };
    let found = followed(check, &run).await?;
    let (held, all) = found.held();
    told.emit((design.clone(), tr!("held on {} of {}", held, all)));
    Ok((design, Rc::new(found)))
}

/// What a check found; it is drawn anew only when one of it changes.
#[derive(Properties, Clone)]
struct ResultProps {
    checked: Rc<Checked>,
    of: Shared<Design>,
    system: UnitSystem,
    width: u32,
}

impl PartialEq for ResultProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.checked, &other.checked)
            && self.of == other.of
            && (self.system, self.width) == (other.system, other.width)
    }
}

#[function_component]
fn Result(props: &ResultProps) -> Html {
    let ResultProps {
        checked,
        of,
        system,
        width,
    } = props;
    let system = *system;
    let windows = check_only_windows(of);
    let named = |place: usize| {
        windows
            .get(place)
            .map_or_else(String::new, |window| window.reading.name.clone())
    };
    let answer = coverage(checked, of, system);
    let size = Size {
        width: room(*width, CHART.width),
        height: CHART.height.min(*width),
    };
    let title = |judged: &Judged| tables::title(judged, &named);
    let figure = held::figure(checked, &answer, &headline(of), &title, system, size);
    html! {
        <>
            if let Some(figure) = figure {
                { part!(FigureView { figure }) }
            } else {
                <p><strong>{ format!("{answer}.") }</strong></p>
            }
            <p>{ advice(checked) }</p>
            { tables::summaries(checked, system) }
            <p class="hint">{ tr("“Before this fit” is the same model with the values that the fit starts from. Nine windows in ten should lie inside each band.") }</p>
            { tables::windows(checked, &named, system) }
            { for checked.refused.iter().map(|one| html! { <p class="question">{ tr!("“{}” is not compared: {}", named(one.place), one.reason) }</p> }) }
        </>
    }
}
