//! Test cards: the conditions in the order in which to fly them, and what stands on each. Pure.

use crate::fly::test_cards::mixture;
use crate::kit::format;
use crate::kit::shutter_words::at_stop;
use coolpath_core::answer::evaluate::Answer;
use coolpath_core::document::condition::{Condition, Phase, PowerKind, ShutterPolicy};
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::FuelSystem;
use coolpath_core::language::{tr, tr_later};
use coolpath_core::math::order;
use coolpath_core::prove::overshoot::still_to_come;
use coolpath_core::units::si::{deltaf, knot};
use coolpath_core::units::system::Chosen;
use coolpath_core::units::typed::{Dimension, UnitSystem, rounded_text};
use coolpath_core::workshop::gauge;

/// Degrees below the limit at which a test ends unless others are typed, K: 15 °F (from memory).
pub const USUAL_RESERVE_K: f64 = 15.0 / 1.8;

/// How closely airspeed is held, m/s: 3 kt (common practice).
const HELD_WITHIN_M_S: f64 = knot(3.0);

/// Below this an airspeed indicator shows nothing, m/s: 30 kt (common practice).
const LEAST_ON_DIAL_M_S: f64 = knot(30.0);

/// One card.
#[derive(Debug, Clone, PartialEq)]
pub struct Card {
    /// Place of the condition in the design.
    pub place: usize,
    /// Its name.
    pub name: String,
    /// What the aircraft does.
    pub phase: Phase,
    /// What to set, a line each.
    pub set: Vec<(&'static str, String)>,
    /// What is expected.
    pub expected: Vec<(&'static str, String)>,
    /// Why it is not to be flown as the design stands.
    pub refused: Option<String>,
    /// When it may begin.
    pub start: &'static str,
    /// How to fly it.
    pub how: &'static str,
}

/// Cards of the conditions that have an answer, those with the most margin first.
#[must_use]
pub fn cards(design: &Design, answers: &[Option<&Answer>], system: UnitSystem) -> Vec<Card> {
    let margin = |answer: &Answer| answer.head_margin.value.min(answer.oil_margin.value);
    let mut order: Vec<(usize, &Answer)> = answers
        .iter()
        .enumerate()
        .filter_map(|(place, answer)| Some((place, (*answer)?)))
        .collect();
    order::by_number(&mut order, |(_, answer)| -margin(answer));
    order
        .into_iter()
        .filter_map(|(place, answer)| {
            let condition = design.conditions.get(place)?;
            let mixtures = mixture::of(design, place, answer);
            let mut set = settings(design, condition, answer, system);
            set.extend(mixture::settings(design, &mixtures, system));
            let mut expected = expected(&mixtures.answer, system);
            expected.extend(mixture::beside(&mixtures, system));
            Some(Card {
                place,
                name: condition.name.clone(),
                phase: condition.phase,
                set,
                expected,
                refused: refused(answer, system),
                start: start(condition.phase),
                how: how(condition.phase),
            })
        })
        .collect()
}

fn settings(
    design: &Design,
    condition: &Condition,
    answer: &Answer,
    system: UnitSystem,
) -> Vec<(&'static str, String)> {
    let quantity = |si: f64, dimension: Dimension| format::quantity(si, dimension, system, 3);
    let power = match condition.power {
        PowerKind::Share => format!("{:.0} %", 100.0 * condition.power_share),
        PowerKind::Brake => quantity(condition.brake_power.value, Dimension::Power),
        PowerKind::Manifold => quantity(condition.manifold.value, Dimension::Altimeter),
        PowerKind::FuelFlow => quantity(condition.fuel_flow.value, Dimension::FuelFlow),
    };
    let mut list = vec![
        (
            tr("Pressure altitude"),
            tr!(
                "{}, altimeter on {}",
                quantity(condition.altitude.value, Dimension::Altitude),
                if system.is_customary(Chosen::Altimeter) {
                    tr("29.92 inHg")
                } else {
                    tr("1013 hPa")
                }
            ),
        ),
        (
            tr("Airspeed"),
            match condition.phase {
                Phase::Ground => quantity(condition.airspeed.value, Dimension::Speed),
                _ => format!(
                    "{} ± {}",
                    quantity(condition.airspeed.value, Dimension::Speed),
                    quantity(HELD_WITHIN_M_S, Dimension::Speed)
                ),
            },
        ),
        (
            tr("Power"),
            tr!("{} at {} rpm", power, rounded_text(condition.rpm, 4)),
        ),
    ];
    if design.installation.exits.iter().any(|exit| exit.flap) {
        list.push((tr("Cowl flap"), tr!("{:.0} % open", 100.0 * condition.flap)));
    }
    if design.installation.shutter.fitted {
        list.push((
            tr("Shutter"),
            match condition.shutter {
                ShutterPolicy::Fixed => tr!("{:.0} % open", 100.0 * condition.shutter_opening),
                ShutterPolicy::HoldOil => at_stop(answer.shutter, system).unwrap_or_else(|| {
                    tr!(
                        "set for {} of oil",
                        format::degrees(condition.oil_target.value, system)
                    )
                }),
            },
        ));
    }
    if condition.phase != Phase::Ground {
        list.push((tr("Wing flaps"), tr("per manual").to_owned()));
    }
    let warm = condition.warm_induction;
    let (what, stands) = match design.installation.engine.fuel_system {
        FuelSystem::Carburettor if warm => (tr("Carburettor heat"), tr("on")),
        FuelSystem::Carburettor => (tr("Carburettor heat"), tr("off, cold")),
        FuelSystem::Injected if warm => (tr("Alternate air"), tr("open")),
        FuelSystem::Injected => (tr("Alternate air"), tr("closed")),
    };
    list.push((what, stands.to_owned()));
    list
}

/// Why a card is not to be flown: what it expects is over a limit.
fn refused(answer: &Answer, system: UnitSystem) -> Option<String> {
    let limits = &answer.limits;
    let over: Vec<String> = [
        (tr("head"), answer.head_hottest.value, limits.head.kelvin),
        (tr("oil"), answer.oil.value, limits.oil.kelvin),
    ]
    .into_iter()
    .filter(|(_, value, limit)| value > limit)
    .map(|(what, value, limit)| {
        tr!(
            "{} {}, limit {}",
            what,
            format::temperature(value, system),
            format::degrees(limit, system)
        )
    })
    .collect();
    (!over.is_empty()).then(|| {
        tr!(
            "Predicted over the limit ({}): do not fly this card yet.",
            over.join("; ")
        )
    })
}

fn expected(answer: &Answer, system: UnitSystem) -> Vec<(&'static str, String)> {
    vec![
        (
            tr("Outside air"),
            format::degrees(answer.outside_air.value, system),
        ),
        (
            tr("Hottest head"),
            format::temperature(answer.head_hottest.value, system),
        ),
        (tr("Oil"), format::temperature(answer.oil.value, system)),
        ("Δp", drop_words(answer.baffle_drop.value, system)),
    ]
}

/// A pressure across the baffles, with what an airspeed indicator shows of it where that is on its dial.
fn drop_words(drop_pa: f64, system: UnitSystem) -> String {
    let speed = Dimension::Speed.shown(system);
    let drop = format::quantity(drop_pa, Dimension::Pressure, system, 2);
    let reading_m_s = gauge::indicator_reading(drop_pa);
    if reading_m_s < LEAST_ON_DIAL_M_S {
        return drop;
    }
    tr!(
        "{}, or {} {} on an indicator",
        drop,
        rounded_text(speed.from_si(reading_m_s), 3),
        speed.symbol
    )
}

fn start(phase: Phase) -> &'static str {
    match phase {
        // 14 CFR 25.1045(b): settled at idle before take-off power.
        Phase::Ground => tr("Start: settled at idle."),
        // CS 22.1047: settled at three quarters of maximum continuous power or more.
        Phase::Climb => tr(
            "Start: level at 75 % power or more until heads and oil change by less than 2 °F (1 °C) a \
             minute.",
        ),
        Phase::Cruise => tr("Start: trimmed, power and mixture set."),
        Phase::Descent => tr("Start: from settled cruise."),
    }
}

fn how(phase: Phase) -> &'static str {
    match phase {
        Phase::Ground => tr(
            "Into the wind, brakes held, area clear, someone with an extinguisher. Until temperatures have been steady for two minutes, the time limit, or the abort temperature.",
        ),
        Phase::Climb => tr(
            "One minute of take-off power, then maximum continuous. Not faster than best rate of climb. \
             Go on until five minutes after the highest head has passed, or abort.",
        ),
        Phase::Cruise => tr(
            "Level, ball in the middle. Until every head and the oil change by less than 2 °F (1 °C) a \
             minute, then two minutes more.",
        ),
        Phase::Descent => tr(
            "Hold airspeed and power to the end. The rate of cooling is what is wanted; whether rapid cooling does harm is disputed.",
        ),
    }
}

/// Rates of a rising head for which a card gives the abort temperature, K/s: 10, 20 and 30 °F a minute.
pub const HEAD_RATES_K_S: [f64; 3] = [
    deltaf(10.0) / 60.0,
    deltaf(20.0) / 60.0,
    deltaf(30.0) / 60.0,
];
/// The same of the oil, which has more still to come: 3, 6 and 10 °F a minute.
pub const OIL_RATES_K_S: [f64; 3] = [deltaf(3.0) / 60.0, deltaf(6.0) / 60.0, deltaf(10.0) / 60.0];

/// At which temperature, K, a test ends that must stay so far below a limit while it rises: what is
/// still to come with its time constant stands in between.
#[must_use]
pub fn abort_at(limit_k: f64, below_k: f64, rate_k_s: f64, lag_s: f64) -> f64 {
    limit_k - below_k.max(still_to_come(rate_k_s, lag_s))
}

/// Where air leaks, from front to back; one line to tick each.
pub const LEAK_CHECKS: [&str; 12] = [
    tr_later(
        "With a lamp inside, in the dark: no light past the seals, the corners or the spinner.",
    ),
    tr_later(
        "Every seal curves toward the upper deck, so that pressure holds it against the cowl; none is folded back.",
    ),
    tr_later("Corners overlap, and the seals reach into the inlets' ramps."),
    tr_later(
        "Baffles fit tight on the cylinders; gaps at the case, the heads and the rear are sealed.",
    ),
    tr_later("Inter-cylinder baffles are tight underneath and their springs or rods hold."),
    tr_later("Front cylinders: the dam is where it belongs, with no gap beside it."),
    tr_later("Holes for ignition leads, cables and hoses have grommets."),
    tr_later("The oil cooler's flange and its hose: no gap, both clamps tight, no tear."),
    tr_later("Blast tubes and the cabin hose are no larger than they need be."),
    tr_later("Oil door, cowl joints and hinge lines are sealed."),
    tr_later("The exit is clear of hoses and of sagging seals."),
    tr_later(
        "After any change: fuel and oil hoses are clear of the exhaust, and the cabin has a carbon monoxide detector.",
    ),
];

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::answer::evaluate;
    use coolpath_core::document::example;

    #[test]
    fn a_test_ends_earlier_the_faster_it_still_warms() {
        let at = |degf_a_minute: f64| abort_at(700.0, 10.0, deltaf(degf_a_minute) / 60.0, 120.0);
        // 18 °F a minute are 10 K a minute: 20 K are still to come in 120 s.
        assert!((at(18.0) - 680.0).abs() < 1e-9);
        assert_eq!(at(1.8), 690.0);
    }

    #[test]
    fn cards_come_coolest_first_and_name_what_to_set() {
        let design = example::design();
        let answers: Vec<Option<Answer>> = evaluate::evaluate_all(&design)
            .into_iter()
            .map(Result::ok)
            .collect();
        let borrowed: Vec<Option<&Answer>> = answers.iter().map(Option::as_ref).collect();
        let cards = cards(&design, &borrowed, UnitSystem::Customary);
        assert_eq!(cards.len(), 6);
        let margins: Vec<f64> = cards
            .iter()
            .filter_map(|card| borrowed[card.place])
            .map(|answer| answer.head_margin.value.min(answer.oil_margin.value))
            .collect();
        assert!(margins.windows(2).all(|pair| pair[0] >= pair[1]));
        let last = cards.last().expect("a card");
        assert_eq!(last.name, design.conditions[1].name);
        assert!(last.set.iter().any(|(what, _)| *what == "Airspeed"));
        assert!(last.how.contains("five minutes after"));
        assert!(last.start.contains("75 %"));
        let set = |what: &str| {
            let found = last.set.iter().find(|(name, _)| *name == what);
            found.map(|(_, value)| value.clone()).expect(what)
        };
        assert!(set("Pressure altitude").contains("29.92"));
        assert!(set("Airspeed").contains("± 3 kt"), "{}", set("Airspeed"));
        assert_eq!(set("Mixture"), "full rich");
        assert!(
            set("Shutter").starts_with("Fully open"),
            "{}",
            set("Shutter")
        );
        // The example's climb is over its limit, its cruise is not.
        let told = last.refused.as_deref().expect("refused");
        assert!(told.contains("head 400 °F, limit 385 °F"), "{told}");
        assert_eq!(cards[0].refused, None);
        assert!(set("Check it by").contains("gal/h"));
        assert!(
            last.expected
                .iter()
                .any(|(what, _)| what.starts_with("Leaned for climb"))
        );
    }
}
