//! Texts at the stations of the side view.

use coolpath_core::answer::evaluate::Answer;
use coolpath_core::answer::per_inch::Worth;
use coolpath_core::units::typed::{Dimension, UnitSystem, rounded_text};

/// A figure with its unit.
#[must_use]
pub fn figure(si: f64, dimension: Dimension, system: UnitSystem, digits: i32) -> String {
    let unit = dimension.shown(system);
    format!("{} {}", rounded_text(unit.from_si(si), digits), unit.symbol)
}

/// A temperature to whole degrees.
#[must_use]
pub fn temperature(kelvin: f64, system: UnitSystem) -> String {
    let unit = Dimension::Temperature.shown(system);
    format!("{:.0} {}", unit.from_si(kelvin), unit.symbol)
}

/// Pressure, flow and temperature of the upper deck.
#[must_use]
pub fn upper_deck(answer: &Answer, system: UnitSystem) -> [String; 2] {
    [
        figure(answer.upper_deck.value, Dimension::Pressure, system, 3),
        temperature(answer.upper_deck_air.value, system),
    ]
}

/// Pressure and temperature of the lower deck.
#[must_use]
pub fn lower_deck(answer: &Answer, system: UnitSystem) -> [String; 2] {
    [
        figure(answer.lower_deck.value, Dimension::Pressure, system, 3),
        temperature(answer.lower_deck_air.value, system),
    ]
}

/// A mass flow.
#[must_use]
pub fn flow(kg_s: f64, system: UnitSystem) -> String {
    figure(kg_s, Dimension::MassFlow, system, 3)
}

/// What one more square inch is worth, such as "+1 in²: heads −6 °F, oil −2 °F, −0.1 kt".
#[must_use]
pub fn worth(worth: &Worth, system: UnitSystem) -> String {
    // A metric step of the same kind: 10 cm².
    let (step, per_step) = match system {
        UnitSystem::Customary => ("+1 in²", 1.0),
        UnitSystem::Metric => ("+10 cm²", 10.0 / 6.4516),
    };
    let difference = Dimension::TemperatureDifference.shown(system);
    let change = |kelvin: f64| {
        format!(
            "{} {}",
            signed(difference.from_si(kelvin * per_step), 1),
            difference.symbol
        )
    };
    let mut text = format!(
        "{step}: heads {}, oil {}",
        change(worth.head.value),
        change(worth.oil.value)
    );
    if let Some(speed) = worth.speed {
        let unit = Dimension::Speed.shown(system);
        let change = signed(unit.from_si(speed.value * per_step), 2);
        text.push_str(&format!(", {change} {}", unit.symbol));
    }
    text
}

/// A number with its sign and so many decimals; a change that rounds to nothing has no sign.
#[must_use]
pub fn signed(value: f64, decimals: usize) -> String {
    let text = format!("{:.decimals$}", value.abs());
    if text.bytes().all(|byte| matches!(byte, b'0' | b'.')) {
        return text;
    }
    format!("{}{text}", if value < 0.0 { "−" } else { "+" })
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::answer::per_inch as core_worth;
    use coolpath_core::answer::solve_condition::solve_condition;
    use coolpath_core::document::example;

    #[test]
    fn a_bigger_exit_cools_heads_and_costs_speed_in_words() {
        let design = example::design();
        let condition = &design.conditions[3];
        let base = solve_condition(&design.installation, condition, None).expect("solved");
        let list = core_worth::worth(&design.installation, condition.phase, &base).expect("worth");
        let exit = list
            .iter()
            .find(|worth| matches!(worth.opening, core_worth::Opening::Exit(0)))
            .expect("an exit");
        let text = worth(exit, UnitSystem::Customary);
        assert!(text.starts_with("+1 in²: heads −"), "{text}");
        assert!(text.ends_with("kt") && text.contains("oil −"), "{text}");
    }

    #[test]
    fn a_change_that_rounds_to_nothing_has_no_sign() {
        assert_eq!(signed(-0.02, 1), "0.0");
        assert_eq!(signed(-0.06, 1), "−0.1");
        assert_eq!(signed(3.0, 0), "+3");
    }
}
