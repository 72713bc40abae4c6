//! Names of fields, each with the part that it belongs to, and how far one step goes. Pure but for
//! the markup of a label.

use coolpath_core::document::design::Design;
use coolpath_core::units::typed::{Chosen, Dimension, UnitSystem};
use yew::prelude::*;

/// Name of the entry that a field belongs to; none for what a design has once.
#[must_use]
pub fn owner(design: &Design, id: &str, place: usize) -> Option<String> {
    let installation = &design.installation;
    match id.split('.').next()? {
        "inlet" => installation
            .inlets
            .get(place)
            .map(|entry| entry.name.clone()),
        "exit" => installation
            .exits
            .get(place)
            .map(|entry| entry.name.clone()),
        "condition" => design.conditions.get(place).map(|entry| entry.name.clone()),
        _ => None,
    }
}

/// A label in two, where it begins with what the entry is: what only a screen reader needs beside the entry's title, and what is shown.
#[must_use]
pub fn parted(owner: &str, label: &str) -> (String, String) {
    for kind in ["Inlet ", "Exit "] {
        if let Some(rest) = label.strip_prefix(kind) {
            return (format!("{owner} "), rest.to_owned());
        }
    }
    (format!("{owner}: "), label.to_owned())
}

/// A label's text in markup.
pub fn label(owner: Option<&str>, label: &str) -> Html {
    match owner {
        None => html! { <span class="what">{ label.to_owned() }</span> },
        Some(owner) => {
            let (owner, what) = parted(owner, label);
            html! { <><span class="visually-hidden">{ owner }</span><span class="what">{ what }</span></> }
        }
    }
}

/// A value so many steps on, SI: sixteenths of an inch or millimetres, else a round fiftieth.
#[must_use]
pub fn step(dimension: Dimension, value: f64, system: UnitSystem, steps: f64) -> f64 {
    let unit = dimension.shown(system);
    let shown = unit.from_si(value);
    let one = match (dimension, system.is_customary(Chosen::Length)) {
        (Dimension::Length, true) => 0.0625,
        (Dimension::Length | Dimension::Temperature, _) => 1.0,
        _ => round_fiftieth(shown),
    };
    // From a value between two steps the first press goes to the next of them.
    let next = ((shown / one).round() + steps) * one;
    unit.to_si(next)
}

/// 1, 2 or 5 times a power of ten, near a fiftieth of a value.
fn round_fiftieth(value: f64) -> f64 {
    let wanted = (value.abs() / 50.0).max(1e-3);
    let power = 10_f64.powf(wanted.log10().floor());
    let head = wanted / power;
    power
        * match head {
            head if head < 1.5 => 1.0,
            head if head < 3.5 => 2.0,
            head if head < 7.5 => 5.0,
            _ => 10.0,
        }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::document::example;

    #[test]
    fn a_field_is_called_by_its_part() {
        let design = example::design();
        let name = owner(&design, "inlet.width_m", 0).expect("an inlet");
        assert_eq!(
            parted(&name, "Inlet width"),
            ("Left inlet ".to_owned(), "width".to_owned())
        );
        assert_eq!(owner(&design, "engine.rated_power_w", 0), None);
        assert_eq!(parted("Descent", "Airspeed").0, "Descent: ");
    }

    #[test]
    fn steps_are_sixteenths_or_millimetres_and_come_back() {
        let inch = 0.0254;
        let up = step(Dimension::Length, 4.6 * inch, UnitSystem::Customary, 1.0);
        assert!((up / inch - 4.6875).abs() < 1e-9, "{}", up / inch);
        let back = step(Dimension::Length, up, UnitSystem::Customary, -1.0);
        assert!((back / inch - 4.625).abs() < 1e-9);
        let mm = step(Dimension::Length, 0.1, UnitSystem::Metric, 10.0);
        assert!((mm - 0.11).abs() < 1e-9);
        assert!((round_fiftieth(150.0) - 2.0).abs() < 1e-9);
    }
}
