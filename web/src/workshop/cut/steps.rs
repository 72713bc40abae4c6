//! "Cut in steps": this much, a flight, stop or cut on; and the same on paper.

use crate::browser::job::use_job;
use crate::engine;
use crate::engine::task::{Draws, Exits};
use crate::kit::format;
use crate::kit::page::use_page;
use crate::kit::panel_field::PanelField;
use crate::kit::shared::Shared;
use crate::kit::short_tasks::Pace;
use crate::part;
use crate::state::panel_texts::{key, typed_or};
use coolpath_core::answer::sampling::DEFAULT_SEED;
use coolpath_core::answer::verdict::{odds_about, odds_percent};
use coolpath_core::decide::cut::{Plan, Planning, Prices};
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::ExitShape;
use coolpath_core::document::installation::areas::{inlets_m2, resized};
use coolpath_core::language::{tr, tr_later};
use coolpath_core::units::feet_inches::Rounded;
use coolpath_core::units::si::knot;
use coolpath_core::units::typed::{Dimension, UnitSystem, bare_number};
use yew::prelude::*;

/// Draws of a plan.
const DRAWS: usize = 300;
/// Pieces between two areas that are solved.
const PIECES: usize = 4;
/// Chance of a new lip from which a plan is not offered \[-\].
const TOO_OFTEN: f64 = 0.525;

/// Fields of the prices: name, label, what stands for an empty one.
const PRICES: [(&str, &str, &str); 3] = [
    ("steps-cut", tr_later("Hours for a cut and its flight"), "4"),
    ("steps-lip", tr_later("Hours for a new lip"), "30"),
    ("steps-knot", tr_later("Hours a knot is worth"), "5"),
];

/// A plan and the design that it is for.
#[derive(Debug, Clone, PartialEq)]
pub struct Planned {
    plan: Plan,
    design: Shared<Design>,
}

impl Planned {
    /// Whether it is a plan for this design.
    #[must_use]
    pub fn is_for(&self, design: &Design) -> bool {
        *self.design == *design
    }
}

/// What the panel needs.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// Hears of a plan.
    pub on_plan: Callback<Shared<Planned>>,
}

/// The panel.
#[function_component]
pub fn StepsPanel(props: &Props) -> Html {
    let (design, system) = use_page(|page| (page.design.clone(), page.system()));
    let typed = use_page(|page| PRICES.map(|(id, _, usual)| typed_or(&page.state, id, usual)));
    let job = use_job::<(usize, usize), Shared<Planned>>();
    let judged = prices(&typed);
    let start = {
        let (job, design, on_plan) = (job.clone(), design.clone(), props.on_plan.clone());
        let judged = judged.clone();
        Callback::from(move |_: MouseEvent| {
            let (design, judged, on_plan) = (design.clone(), judged.clone(), on_plan.clone());
            job.start(|run| async move {
                let prices = judged?;
                let of = Draws {
                    design: (*design).clone(),
                    draws: DRAWS,
                    seed: DEFAULT_SEED,
                };
                let needs = engine::job::done(Exits { of }, &run).await?;
                run.rest().await?;
                let mut pace = Pace::begun();
                let mut planning = Planning::new(needs.table().refined(PIECES), prices);
                while planning.advance() {
                    run.breathe(&mut pace).await?;
                }
                let plan = planning
                    .plan()
                    .ok_or_else(|| tr("No draw of this design has an answer.").to_owned())?;
                let planned = Shared::new(Planned { plan, design });
                on_plan.emit(planned.clone());
                Ok(planned)
            });
        })
    };
    html! {
        <section id="cut-steps" aria-label={tr("Cut in steps")}>
            <h3>{ tr("Cut the exit in steps") }</h3>
            <p class="hint">{ tr("What is not known is drawn from its range, a thousand times and more; each time another exit would be right. The plan with the least regret is sought: an exit still too small at the end costs a new lip, one too large costs speed, and each step a cut and a flight. It is about the exit of the design as it stands: use a size first.") }</p>
            <div class="fields">
                { for PRICES.into_iter().map(|(id, label, usual)| part!(PanelField { of: key(id), label: tr(label), usual })) }
            </div>
            if let Err(fault) = &judged { <p class="fault" role="alert">{ fault.clone() }</p> }
            <div class="buttons"><button type="button" onclick={start} disabled={judged.is_err()}>{ tr("Plan the steps") }</button></div>
            <div aria-live="polite">
                { job.counted(tr("Planning")) }
                if let Some(planned) = job.done() {
                    if !planned.is_for(&design) {
                        <p class="stale">{ tr("The design has changed since: plan the steps again.") }</p>
                    }
                    { told(planned, system) }
                }
            </div>
        </section>
    }
}

/// Prices from their texts.
fn prices(typed: &[String; 3]) -> Result<Prices, String> {
    let hours = |at: usize| {
        bare_number(&typed[at])
            .filter(|hours| (0.0..=1000.0).contains(hours))
            .ok_or_else(|| tr!("{} must be between 0 and 1000.", tr(PRICES[at].1)))
    };
    Ok(Prices {
        cut_h: hours(0)?,
        lip_h: hours(1)?,
        speed_h: hours(2)? / knot(1.0),
    })
}

/// Why a plan is not offered, if it is not.
fn refused(plan: &Plan) -> Option<String> {
    (plan.lip() > TOO_OFTEN).then(|| {
        tr!(
            "No plan is offered: even this exit and 15 % more would be too hot with a chance of {}. Size the \
             openings first, or change what stands first under “What would fix it”.",
            odds_percent(plan.lip())
        )
    })
}

fn told(planned: &Planned, system: UnitSystem) -> Html {
    if let Some(why) = refused(&planned.plan) {
        return html! { <p class="headline outside">{ why }</p> };
    }
    html! { <>
        <ol>{ for lines(planned, system).into_iter().map(|line| html! { <li>{ line }</li> }) }</ol>
        <p class="hint">{ regret(planned, system) }</p>
    </> }
}

/// The steps in words; none where no plan is offered.
#[must_use]
pub fn lines(planned: &Planned, system: UnitSystem) -> Vec<String> {
    let plan = &planned.plan;
    if refused(plan).is_some() {
        return Vec::new();
    }
    let stop = if plan.stop_k > 0.0 {
        tr!(
            "both {} or more under",
            format::difference(plan.stop_k, system)
        )
    } else {
        tr("both inside").to_owned()
    };
    let last = plan.steps.len() - 1;
    let steps = plan.steps.iter().enumerate().map(|(at, step)| {
        let cut = size(planned, step.exit_m2, system);
        let begin = if at == 0 {
            tr!("Cut the exit to {}.", cut)
        } else {
            tr!("Else cut on to {}.", cut)
        };
        let end = if at == last {
            tr("Fly the card once more and keep to what it shows.").to_owned()
        } else {
            tr!(
                "Fly the test card of the climb on a cool day and correct it to the hot day. Stop if hottest \
                 head and oil are then {} their limits.", stop
            )
        };
        tr!(
            "{} {} Chance to end here, cool enough {}.",
            begin,
            end,
            odds_about((step.ends - step.too_hot).max(0.0))
        )
    });
    let lip = tr!(
        "If the card of the last cut is over a limit, corrected to the hot day: a new lip, or a change of \
         another part; chance {}. Abort any test by the engine’s own limits.",
        odds_about(plan.lip())
    );
    let template = tr(
        "Mark these sizes on the template: its dashed line is a usual first cut, not this plan’s.",
    );
    steps.chain([lip, template.to_owned()]).collect()
}

/// What a single cut would have cost.
fn regret(planned: &Planned, system: UnitSystem) -> String {
    let Plan {
        regret_h,
        single: (single_m2, single_h),
        ..
    } = planned.plan;
    tr!(
        "Expected regret {:.1} h; of one cut alone, best to {}, {:.1} h. Steps are between 0.6 \
         and 1.15 times the exit of the design.",
        regret_h,
        size(planned, single_m2, system),
        single_h
    )
}

/// An exit's size: its gap, where it has one, and its net area; never rounded up, metal can still go.
fn size(planned: &Planned, exit_m2: f64, system: UnitSystem) -> String {
    let installation = &planned.design.installation;
    let cut = resized(installation, inlets_m2(installation), exit_m2);
    let area = format::quantity(exit_m2, Dimension::Area, system, 3);
    match cut.exits.first() {
        Some(exit) if exit.shape == ExitShape::LipGap => tr!(
            "a gap of {} ({} net)",
            format::cut_length(exit.gap.value, system, Rounded::Down),
            area
        ),
        _ => tr!("{} net", area),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::decide::cut::Step;
    use coolpath_core::document::example;
    use coolpath_core::units::si::inch2;

    fn planned(too_hot: f64) -> Planned {
        let step = |in2: f64, ends: f64, too_hot: f64| Step {
            exit_m2: inch2(in2),
            ends,
            too_hot,
        };
        Planned {
            plan: Plan {
                steps: vec![step(50.4, 0.6, 0.0), step(61.6, 0.4, too_hot)],
                stop_k: 5.0 / 1.8,
                regret_h: 3.2,
                single: (inch2(58.0), 5.0),
            },
            design: Shared::new(example::design()),
        }
    }

    #[test]
    fn a_plan_says_what_to_cut_when_to_stop_and_the_chance_of_each_end() {
        let said = lines(&planned(0.05), UnitSystem::Customary);
        assert_eq!(said.len(), 4);
        assert!(
            said[0].starts_with("Cut the exit to a gap of 4"),
            "{}",
            said[0]
        );
        assert!(said[0].contains("5 °F or more under"), "{}", said[0]);
        assert!(
            said[0].ends_with("Chance to end here, cool enough ≈ 60 %."),
            "{}",
            said[0]
        );
        assert!(said[1].starts_with("Else cut on to") && said[1].contains("35 %"));
        assert!(said[2].contains("new lip"));
    }

    #[test]
    fn a_plan_that_mostly_ends_too_hot_is_not_offered() {
        let hot = planned(0.6);
        assert!(lines(&hot, UnitSystem::Metric).is_empty());
        assert!(refused(&hot.plan).is_some_and(|why| why.contains("60 %")));
    }

    #[test]
    fn prices_say_which_field_is_out_of_range() {
        let texts = ["4", "many", "5"].map(str::to_owned);
        assert_eq!(
            prices(&texts).err().as_deref(),
            Some("Hours for a new lip must be between 0 and 1000.")
        );
    }
}
