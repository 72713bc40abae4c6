//! Test cards: the conditions in the order in which to fly them, and what stands on each. Pure.

use crate::kit::format;
use coolpath_core::answer::evaluate::Answer;
use coolpath_core::document::condition::{Condition, Phase, PowerKind, ShutterPolicy};
use coolpath_core::document::design::Design;
use coolpath_core::units::typed::{Dimension, UnitSystem, rounded_text};
use coolpath_core::workshop::gauge;

/// Degrees below the limit at which a test ends unless others are typed, K: 15 °F (from memory).
pub const USUAL_RESERVE_K: f64 = 15.0 / 1.8;

/// One card.
#[derive(Debug, Clone, PartialEq)]
pub struct Card {
    /// Place of the condition in the design.
    pub place: usize,
    /// Its name.
    pub name: String,
    /// What to set, a line each.
    pub set: Vec<(&'static str, String)>,
    /// What is expected.
    pub expected: Vec<(&'static str, String)>,
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
    order.sort_by(|a, b| margin(b.1).total_cmp(&margin(a.1)));
    order
        .into_iter()
        .filter_map(|(place, answer)| {
            let condition = design.conditions.get(place)?;
            Some(Card {
                place,
                name: condition.name.clone(),
                set: settings(design, condition, system),
                expected: expected(answer, system),
                how: how(condition.phase),
            })
        })
        .collect()
}

fn settings(
    design: &Design,
    condition: &Condition,
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
            "Altitude",
            quantity(condition.altitude.value, Dimension::Altitude),
        ),
        (
            "Airspeed",
            quantity(condition.airspeed.value, Dimension::Speed),
        ),
        (
            "Power",
            format!("{power} at {} rpm", rounded_text(condition.rpm, 4)),
        ),
    ];
    if design.installation.exits.iter().any(|exit| exit.flap) {
        list.push(("Cowl flap", format!("{:.0} % open", 100.0 * condition.flap)));
    }
    if design.installation.shutter.fitted {
        list.push((
            "Shutter",
            match condition.shutter {
                ShutterPolicy::Fixed => format!("{:.0} % open", 100.0 * condition.shutter_opening),
                ShutterPolicy::HoldOil => format!(
                    "set for {} of oil",
                    format::degrees(condition.oil_target.value, system)
                ),
            },
        ));
    }
    list
}

fn expected(answer: &Answer, system: UnitSystem) -> Vec<(&'static str, String)> {
    let drop = answer.baffle_drop.value;
    let speed = Dimension::Speed.shown(system);
    vec![
        (
            "Outside air",
            format::degrees(answer.outside_air.value, system),
        ),
        (
            "Hottest head",
            format::temperature(answer.head_hottest.value, system),
        ),
        ("Oil", format::temperature(answer.oil.value, system)),
        (
            "Δp",
            format!(
                "{}, or {} {} on an airspeed indicator",
                format::quantity(drop, Dimension::Pressure, system, 2),
                rounded_text(speed.from_si(gauge::indicator_reading(drop)), 3),
                speed.symbol
            ),
        ),
    ]
}

fn how(phase: Phase) -> &'static str {
    match phase {
        Phase::Ground => {
            "Into the wind, brakes held, area clear. Until the temperatures have stood for two \
             minutes, or the abort temperature."
        }
        Phase::Climb => {
            "Start level and settled 1000 ft below. Hold airspeed and power. Go on until five \
             minutes after the highest head temperature has passed, or the abort temperature."
        }
        Phase::Cruise => {
            "Level, trimmed, ball in the middle. Until every head and the oil change by less than \
             2 °F (1 °C) a minute, then two minutes more."
        }
        Phase::Descent => {
            "From settled cruise. Hold airspeed and power to the end. The rate of cooling is what \
             is wanted; whether rapid cooling harms is disputed."
        }
    }
}

/// Where air leaks, from front to back; one line to tick each.
pub const LEAK_CHECKS: [&str; 12] = [
    "Lamp inside in the dark: no light past the seals, the corners or the spinner.",
    "Every seal bends toward the upper deck, so that pressure presses it on the cowl; none is folded back.",
    "Corners overlap, and the seals reach into the inlets' ramps.",
    "Baffles lie on the cylinders; gaps at the case, the heads and the rear are closed with sealant.",
    "Inter-cylinder baffles are tight underneath and their springs or rods hold.",
    "The front of each front cylinder: a dam where it is to be, no gap beside it.",
    "Holes for plug leads, cables and hoses have grommets.",
    "The oil cooler's flange and its hose: no gap, both clamps tight, no tear.",
    "Blast tubes and the cabin hose are no larger than they need be.",
    "Oil door, cowl joint and hinge lines are closed.",
    "The exit is clear of hoses and of sagging seals.",
    "After any change: fuel and oil hoses are clear of the exhaust, and the cabin has a carbon monoxide detector.",
];

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::answer::evaluate;
    use coolpath_core::document::example;

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
    }
}
