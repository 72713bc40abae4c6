//! A flight minute by minute: typed texts, and the legs that they make. Pure.

use crate::kit::format;
use crate::kit::page::Outcome;
use crate::state::panel_texts::{MINUTES, key};
use crate::state::{FieldKey, Range, State, panel_texts};
use coolpath_core::answer::minutes;
use coolpath_core::answer::minutes::{Leg, MOST_MINUTES, Moment, Warmth};
use coolpath_core::decide::size::TurnAround;
use coolpath_core::document::condition::{Condition, Phase};
use coolpath_core::document::design::Design;
use coolpath_core::language::tr;
use coolpath_core::units::si::degf;
use coolpath_core::units::typed;
use coolpath_core::units::typed::{Dimension, UnitSystem};

/// Texts of the temperatures at the start.
pub const START: [&str; 2] = ["flight-start-0", "flight-start-1"];
/// Text of the time after shutdown.
pub const SOAK: &str = "flight-soak";

/// Heads and oil of an engine that is warm enough for take-off (200 and 120 °F, from memory).
const WARM: Warmth = Warmth {
    head_k: degf(200.0),
    oil_k: degf(120.0),
};

/// The typed texts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plan {
    /// Minutes of each condition, in the order of the conditions; empty or 0 leaves it out.
    pub minutes: Vec<String>,
    /// Head and oil at the start.
    pub start: [String; 2],
    /// Minutes after shutdown that are looked at; empty or 0 for none.
    pub soak: String,
}

/// The plan as numbers, SI.
#[derive(Debug, Clone, PartialEq)]
pub struct Flight {
    /// Legs in the order of the conditions.
    pub legs: Vec<Leg>,
    /// At the start.
    pub start: Warmth,
    /// After shutdown, s.
    pub soak_s: f64,
}

fn usual_minutes(phase: Phase) -> &'static str {
    match phase {
        Phase::Ground | Phase::Climb => "6",
        Phase::Cruise => "15",
        Phase::Descent => "8",
    }
}

impl Plan {
    /// A usual flight through the conditions of a design, after the first ground run until everything
    /// is steady (14 CFR 25.1045(b)); without one that has an answer, with a warm engine.
    #[must_use]
    pub fn of(design: &Design, answers: &[Outcome], system: UnitSystem) -> Self {
        let on_ground = |condition: &Condition| condition.phase == Phase::Ground;
        let first = design.conditions.iter().position(on_ground);
        let steady = first.and_then(|place| answers.get(place)?.as_ref().ok());
        let start = steady.map_or(WARM, |answer| Warmth {
            head_k: answer.head_hottest.value,
            oil_k: answer.oil.value,
        });
        let shown = |kelvin: f64| {
            let unit = Dimension::Temperature.shown(system);
            format!("{:.0}", unit.from_si(kelvin))
        };
        Self {
            minutes: design
                .conditions
                .iter()
                .map(|condition| usual_minutes(condition.phase).to_owned())
                .collect(),
            start: [shown(start.head_k), shown(start.oil_k)],
            soak: "30".to_owned(),
        }
    }

    /// The plan with what was typed in place of it.
    #[must_use]
    pub fn typed(&self, state: &State) -> Self {
        let mut plan = self.clone();
        let take = |slot: &mut String, key: FieldKey| {
            if let Some(text) = panel_texts::typed(state, &key) {
                *slot = text;
            }
        };
        for (place, slot) in plan.minutes.iter_mut().enumerate() {
            take(slot, FieldKey::new(MINUTES, place));
        }
        for (slot, id) in plan.start.iter_mut().zip(START) {
            take(slot, key(id));
        }
        take(&mut plan.soak, key(SOAK));
        plan
    }

    /// The plan as numbers.
    ///
    /// # Errors
    /// A sentence for the first text that is no value.
    pub fn flight(&self, design: &Design, system: UnitSystem) -> Result<Flight, String> {
        let number = |text: &str, what: &str, least: f64, most: f64| {
            typed::parse(text, Dimension::Ratio, system)
                .ok()
                .filter(|value| (least..=most).contains(value))
                .ok_or_else(|| tr!("{} must be between {} and {} minutes", what, least, most))
        };
        let temperature = |text: &str, what: &str| {
            let range = Range {
                label: what,
                ends: (230.0, 600.0),
                dimension: Dimension::Temperature,
            };
            range.value(text, system)
        };
        let mut legs = Vec::new();
        for (place, condition) in design.conditions.iter().enumerate() {
            let text = self.minutes.get(place).map_or("", String::as_str);
            if text.trim().is_empty() {
                continue;
            }
            let minutes = number(text, &condition.name, 0.0, MOST_MINUTES)?;
            if minutes > 0.0 {
                legs.push(Leg {
                    condition: place,
                    seconds: 60.0 * minutes,
                });
            }
        }
        let soak_s = if self.soak.trim().is_empty() {
            0.0
        } else {
            60.0 * number(&self.soak, tr("Time after shutdown"), 0.0, MOST_MINUTES)?
        };
        Ok(Flight {
            soak_s,
            legs,
            start: Warmth {
                head_k: temperature(&self.start[0], tr("Head at the start"))?,
                oil_k: temperature(&self.start[1], tr("Oil at the start"))?,
            },
        })
    }
}

/// The hot turn-around in the flight as it is planned: stopped at the temperatures at the start, where
/// they were typed, and left to stand for the minutes after shutdown.
///
/// # Errors
/// A sentence where a text is no value, or no leg belongs to it.
pub fn turn_around(
    design: &Design,
    answers: &[Outcome],
    state: &State,
    system: UnitSystem,
) -> Result<TurnAround, String> {
    let flight = Plan::of(design, answers, system)
        .typed(state)
        .flight(design, system)?;
    let on_ground = |condition: &Condition| condition.phase == Phase::Ground;
    let is_typed = |id| panel_texts::typed(state, &key(id)).is_some();
    let is_given = START.into_iter().any(is_typed) || !design.conditions.iter().any(on_ground);
    let start = is_given.then_some(flight.start);
    TurnAround::new(design, &flight.legs, start, flight.soak_s).ok_or_else(|| {
        tr(
            "The turn-around needs minutes for a ground run or a climb: enter them in “Minute by minute”",
        )
            .to_owned()
    })
}

/// What the flight says, a sentence each.
#[must_use]
pub fn sentences(
    design: &Design,
    flight: &Flight,
    moments: &[Moment],
    system: UnitSystem,
) -> Vec<String> {
    let limits = design.installation.engine.limits_always();
    let unit = Dimension::Temperature.shown(system);
    let shown = |kelvin: f64| format!("{:.0} {}", unit.from_si(kelvin), unit.symbol);
    let name_of = |moment: &Moment| {
        let leg = flight.legs.get(moment.leg);
        leg.map_or("", |leg| design.condition_name(leg.condition))
    };
    let name_at = |seconds: f64| {
        moments
            .iter()
            .find(|moment| moment.seconds >= seconds)
            .map_or("", name_of)
    };
    let over =
        |limit_k: f64, of: fn(&Warmth) -> f64, what: &str, deed: &str| match minutes::first_over(
            moments, limit_k, of,
        ) {
            Some(seconds) => tr!(
                "{} pass {} at minute {:.1}, in “{}”: {} before that.{}",
                what,
                shown(limit_k),
                seconds / 60.0,
                name_at(seconds),
                deed,
                minutes::peak(moments, of).map_or_else(String::new, |hottest| tr!(
                    " They would peak at {} at minute {:.1}.",
                    shown(of(&hottest.warmth)),
                    hottest.seconds / 60.0
                ))
            ),
            None => match minutes::peak(moments, of) {
                Some(hottest) => tr!(
                    "{} stay within {}: {} at most, at minute {:.1}, in “{}”.",
                    what,
                    shown(limit_k),
                    shown(of(&hottest.warmth)),
                    hottest.seconds / 60.0,
                    name_of(hottest)
                ),
                None => tr!("{} stay within {}.", what, shown(limit_k)),
            },
        };
    let mut list = vec![
        over(
            limits.head.kelvin,
            |warmth| warmth.head_k,
            tr("Heads"),
            tr("level off, speed up or reduce power"),
        ),
        over(
            limits.oil.kelvin,
            |warmth| warmth.oil_k,
            tr("Oil temperatures"),
            tr("level off or reduce power, and watch the oil pressure"),
        ),
    ];
    let fastest = moments
        .iter()
        .min_by(|a, b| a.head_rate_k_s.total_cmp(&b.head_rate_k_s))
        .filter(|moment| moment.head_rate_k_s < 0.0);
    if let Some(moment) = fastest {
        let difference = Dimension::TemperatureDifference.shown(system);
        list.push(tr!(
            "Heads cool fastest in “{}”, by {:.0} {} a minute at first. Whether rapid cooling does harm is disputed; this is the rate, not advice.",
            name_of(moment),
            difference.from_si(-60.0 * moment.head_rate_k_s),
            difference.symbol
        ));
    }
    list
}

/// What the engine does after shutdown, in a sentence; `None` without moments.
#[must_use]
pub fn soak_sentence(moments: &[Moment], system: UnitSystem) -> Option<String> {
    let shown = |kelvin: f64| format::degrees(kelvin, system);
    let (first, last) = (moments.first()?, moments.last()?);
    let hottest = moments
        .iter()
        .max_by(|a, b| a.warmth.oil_k.total_cmp(&b.warmth.oil_k))?;
    let oil = if hottest.seconds > 0.0 {
        tr!(
            "the oil climbs from {} to {} at minute {:.0}",
            shown(first.warmth.oil_k),
            shown(hottest.warmth.oil_k),
            hottest.seconds / 60.0
        )
    } else {
        tr!("the oil cools from {}", shown(first.warmth.oil_k))
    };
    Some(tr!(
        "Heat soak after shutdown: {}; heads are at {} after {:.0} minutes. A rough picture, from estimates; an open oil door or cowl flap lets the heat out.",
        oil,
        shown(last.warmth.head_k),
        last.seconds / 60.0
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::answer::evaluate::evaluate_all;
    use coolpath_core::document::example;
    use std::rc::Rc;

    fn plan(design: &Design, system: UnitSystem) -> Plan {
        let answers: Vec<Outcome> = evaluate_all(design)
            .into_iter()
            .map(|outcome| outcome.map(Rc::new))
            .collect();
        Plan::of(design, &answers, system)
    }

    #[test]
    fn a_flight_starts_from_the_steady_ground_run_and_without_one_warm() {
        let mut design = example::design();
        let ground = evaluate_all(&design).remove(0).expect("an answer");
        let start = plan(&design, UnitSystem::Customary).start;
        let degf = |kelvin: f64| format!("{:.0}", kelvin * 1.8 - 459.67);
        assert_eq!(start[0], degf(ground.head_hottest.value));
        assert_eq!(start[1], degf(ground.oil.value));
        design.conditions.remove(0);
        assert_eq!(plan(&design, UnitSystem::Customary).start, ["200", "120"]);
    }

    #[test]
    fn the_example_gets_too_hot_some_minutes_into_its_climb_and_cools_in_its_descent() {
        let design = example::design();
        let plan = plan(&design, UnitSystem::Customary);
        let flight = plan
            .flight(&design, UnitSystem::Customary)
            .expect("numbers");
        assert_eq!(flight.legs.len(), 6);
        let moments = minutes::flight(&design, &flight.legs, flight.start, 15.0).expect("a flight");
        let said = sentences(&design, &flight, &moments, UnitSystem::Customary);
        assert!(
            said[0].starts_with("Heads pass 385 °F at minute "),
            "{}",
            said[0]
        );
        assert!(said[0].contains("Take-off climb"), "{}", said[0]);
        assert!(
            said[1].starts_with("Oil temperatures stay within"),
            "{}",
            said[1]
        );
        // The coldest air comes after the longest heat.
        assert!(
            said[2].contains("“Cold cruise”") && said[2].contains("°F a minute"),
            "{}",
            said[2]
        );
    }

    #[test]
    fn heat_soak_is_told_with_its_peak() {
        let design = example::design();
        let start = Warmth {
            head_k: 460.0,
            oil_k: 350.0,
        };
        let moments = minutes::soak(&design, 5, start, 1800.0, 60.0).expect("an answer");
        let said = soak_sentence(&moments, UnitSystem::Customary).expect("moments");
        assert!(
            said.contains("climbs from 170 °F to") && said.contains("after 30 minutes"),
            "{said}"
        );
        assert_eq!(soak_sentence(&[], UnitSystem::Customary), None);
    }

    #[test]
    fn an_empty_leg_is_left_out_and_rubbish_is_told() {
        let design = example::design();
        let mut plan = plan(&design, UnitSystem::Metric);
        plan.minutes[0] = String::new();
        plan.minutes[1] = "4,5".to_owned();
        let flight = plan.flight(&design, UnitSystem::Metric).expect("numbers");
        assert_eq!(flight.legs.len(), 5);
        assert!((flight.legs[0].seconds - 270.0).abs() < 1e-9);
        plan.minutes[2] = "long".to_owned();
        let told = plan.flight(&design, UnitSystem::Metric).expect_err("told");
        assert!(told.starts_with("Cruise climb"), "{told}");
        plan.minutes[2] = "2".to_owned();
        plan.start[1] = "700".to_owned();
        let told = plan.flight(&design, UnitSystem::Metric).expect_err("told");
        assert_eq!(told, "Oil at the start must be between −43 and 326 °C");
    }
}
