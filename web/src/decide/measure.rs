//! "What should I measure next?": observations ranked by how far each narrows an answer.

use crate::browser::job::use_job;
use crate::charts::table::TableView;
use crate::engine;
use crate::engine::task::{Draws, Observe};
use crate::kit::controls::option_field;
use crate::kit::format;
use crate::kit::shared::Shared;
use crate::kit::table_text::TableText;
use crate::part;
use coolpath_core::answer::evaluate::Limit;
use coolpath_core::answer::sampling::DEFAULT_SEED;
use coolpath_core::decide::next::{COOLER_K, Stage, Worth, worths};
use coolpath_core::document::design::Design;
use coolpath_core::language::tr;
use coolpath_core::units::typed::{Dimension, UnitSystem};
use yew::prelude::*;

/// Draws from which the bands are told.
const DRAWS: usize = 1000;
/// Narrowing from which an observation is advised \[-\]: below it stands chance.
const WORTHWHILE: f64 = 0.03;

/// What the panel needs.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// The design whose draws were made.
    pub design: Shared<Design>,
    /// Place of the condition that is asked about.
    pub place: usize,
    /// Units shown.
    pub system: UnitSystem,
}

/// What was found, and for what.
struct Ranked {
    stage: Stage,
    asked: Limit,
    found: Vec<Worth>,
}

fn quantity(asked: Limit) -> &'static str {
    match asked {
        Limit::Head => tr("hottest head"),
        Limit::Oil => tr("oil"),
    }
}

/// The table and its headline; it ranks by itself whenever what is asked about changes.
#[function_component]
pub fn MeasureNext(props: &Props) -> Html {
    let asked = use_state(|| Limit::Head);
    let job = use_job::<(usize, usize), Shared<Ranked>>();
    {
        let job = job.clone();
        let wish = (props.design.clone(), props.place, *asked);
        use_effect_with(wish, move |(design, place, asked)| {
            let (design, place, asked) = (design.clone(), *place, *asked);
            job.start(|run| async move {
                let of = Draws {
                    design: (*design).clone(),
                    draws: DRAWS,
                    seed: DEFAULT_SEED,
                };
                let oil = asked == Limit::Oil;
                let observing = engine::job::done(Observe { of, place, oil }, &run).await?;
                run.rest().await?;
                Ok(Shared::new(Ranked {
                    stage: observing.stage(),
                    asked,
                    found: worths(&observing),
                }))
            });
        });
    }
    let choose = {
        let asked = asked.clone();
        move |at: usize| asked.set(if at == 0 { Limit::Head } else { Limit::Oil })
    };
    let name = props.design.condition_name(props.place);
    html! {
        <section id="measure-next" aria-label={tr("What should I measure next?")}>
            <h3>{ tr("What should I measure next?") }</h3>
            { option_field("measure-asked", tr("I want to be surer of"), [tr("the hottest head"), tr("the oil")].map(str::to_owned), usize::from(*asked == Limit::Oil), choose) }
            <div aria-live="polite">
                { job.counted(tr("Ranking what could be measured")) }
                if let Some(ranked) = job.done() {
                    <p class="answer-more"><strong>{ headline(ranked, name, props.system) }</strong></p>
                    { part!(TableView { sheet: table(ranked, name, props.system) }) }
                    <p class="hint">{ notes(ranked, &props.design, props.system) }</p>
                }
            </div>
        </section>
    }
}

/// Ends of a band with one unit.
fn ends((low, high): (f64, f64), system: UnitSystem) -> String {
    let from = format::degrees(low, system);
    let number = from.split(' ').next().unwrap_or("");
    tr!("{} to {}", number, format::degrees(high, system))
}

/// Width of a band.
fn width((low, high): (f64, f64), system: UnitSystem) -> String {
    let unit = Dimension::TemperatureDifference.shown(system);
    format!("{:.0} {}", unit.from_si(high - low), unit.symbol)
}

/// Time in the hangar.
fn hours(worth: &Worth) -> String {
    let hours = worth.candidate.hangar_hours();
    let flight = if worth.candidate.is_flown() {
        tr("a flight")
    } else {
        tr("no flight")
    };
    if hours > 0.0 {
        format!("{hours} h, {flight}")
    } else {
        tr!("none, {}", flight)
    }
}

/// The advice in a sentence.
fn headline(ranked: &Ranked, name: &str, system: UnitSystem) -> String {
    let what = quantity(ranked.asked);
    let best = ranked.found.first();
    let Some(best) = best.filter(|worth| worth.narrowing >= WORTHWHILE) else {
        return tr!(
            "Nothing on this list would narrow the {} in “{}”: what remains is the model’s own error, and how well that condition is known.",
            what,
            name
        );
    };
    // On the ground first, where that is worth most of the flight.
    let ground = ranked
        .found
        .iter()
        .find(|worth| !worth.candidate.is_flown() && worth.narrowing >= WORTHWHILE)
        .filter(|worth| {
            worth.candidate != best.candidate && ranked.stage == Stage::BeforeFirstFlight
        });
    let before = ground.map_or_else(String::new, |worth| {
        tr!(
            " Before any flight: {}, {:.0} % narrower.",
            format::uncapitalled(worth.candidate.label(ranked.stage)),
            100.0 * worth.narrowing
        )
    });
    tr!(
        "{}: the {} in “{}” then lies in a band of {} eight times in ten, today in one of {}.{}",
        best.candidate.label(ranked.stage),
        what,
        name,
        width(best.after, system),
        width(best.today, system),
        before,
    )
}

fn table(ranked: &Ranked, name: &str, system: UnitSystem) -> TableText {
    let rows = ranked
        .found
        .iter()
        .map(|worth| {
            vec![
                worth.candidate.label(ranked.stage).to_owned(),
                ends(worth.after, system),
                width(worth.after, system),
                format!("{:.0} %", 100.0 * worth.narrowing),
                hours(worth),
                worth.candidate.how().to_owned(),
            ]
        })
        .collect();
    let what = quantity(ranked.asked);
    TableText::new(
        tr!("What to measure next for the {} in “{}”", what, name),
        &[
            tr("Measure"),
            tr("Band afterwards"),
            tr("Width"),
            tr("Narrower by"),
            tr("Hangar time"),
            tr("How"),
        ],
        rows,
    )
}

/// What stands behind the numbers.
fn notes(ranked: &Ranked, design: &Design, system: UnitSystem) -> String {
    let fit = if ranked.stage == Stage::BeforeFirstFlight && !design.readings.is_empty() {
        tr("You have readings that the design was not fitted to yet: calibrate first, under Fly. ")
    } else {
        ""
    };
    tr!(
        "{}Eight cases in ten lie in a band, shown about where it is expected today; where its middle will \
         lie, the reading tells. The instruments’ errors and the model’s own are in it: of the model’s, a test \
         teaches the part that is the same in all conditions. Climb and cruise are flown with the shutter \
         open, the climb on a day {} cooler. Hours and most instrument errors are from memory.",
        fit,
        format::difference(COOLER_K, system)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::decide::next::Candidate;
    use coolpath_core::units::si::degf;

    fn worth(candidate: Candidate, half_k: f64, narrowing: f64) -> Worth {
        let middle = degf(400.0);
        Worth {
            candidate,
            today: (middle - 20.0, middle + 20.0),
            after: (middle - half_k, middle + half_k),
            narrowing,
        }
    }

    #[test]
    fn the_headline_names_the_best_and_what_the_ground_can_tell() {
        let ranked = Ranked {
            stage: Stage::BeforeFirstFlight,
            asked: Limit::Head,
            found: vec![
                worth(Candidate::CoolClimb, 10.0, 0.5),
                worth(Candidate::SisterShip, 18.0, 0.1),
            ],
        };
        let said = headline(&ranked, "Climb", UnitSystem::Customary);
        assert_eq!(
            said,
            "All heads and the oil in one cool full-rich climb: the hottest head in “Climb” then lies in a \
             band of 36 °F eight times in ten, today in one of 72 °F. Before any flight: spread between the heads of a sister ship, \
             10 % narrower."
        );
        let sheet = table(&ranked, "Climb", UnitSystem::Customary);
        let row = ["382 to 418 °F", "36 °F", "50 %", "none, a flight"];
        assert_eq!(sheet.rows[0][1..5], row);
    }

    #[test]
    fn nothing_is_advised_that_tells_nothing() {
        let ranked = Ranked {
            stage: Stage::AfterCalibration,
            asked: Limit::Oil,
            found: vec![worth(Candidate::BlowDown, 20.0, 0.01)],
        };
        assert!(headline(&ranked, "Climb", UnitSystem::Metric).starts_with("Nothing on this list"));
    }
}
