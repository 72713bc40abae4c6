//! A cylinder that may not be firing, or a nozzle that may be blocked: said first, in red, with what
//! to look at.

use crate::kit::format;
use coolpath_core::document::quantity::Quantity;
use coolpath_core::document::reading::{Reading, Sick};
use coolpath_core::language::tr;
use coolpath_core::math::order;
use coolpath_core::units::typed::UnitSystem;
use yew::prelude::*;

/// One finding: the cylinder, and the readings that show it.
#[derive(Debug, Clone, PartialEq)]
struct Finding {
    sick: Sick,
    places: Vec<usize>,
}

fn findings(sick: &[Option<Sick>]) -> Vec<Finding> {
    let mut found: Vec<Finding> = Vec::new();
    for (place, sick) in sick.iter().enumerate() {
        let Some(sick) = sick else { continue };
        let same = |other: &&mut Finding| {
            (other.sick.cylinder, other.sick.fires) == (sick.cylinder, sick.fires)
        };
        match found.iter_mut().find(same) {
            Some(finding) => finding.places.push(place),
            None => found.push(Finding {
                sick: *sick,
                places: vec![place],
            }),
        }
    }
    // What does not fire first.
    order::by_number(&mut found, |finding| f64::from(finding.sick.fires));
    found
}

/// When in its flight something began; nothing where it was so all along.
fn since(from_s: f64) -> String {
    if from_s == 0.0 {
        return String::new();
    }
    tr!(", since about {:.0} min after lift-off", from_s / 60.0)
}

fn words(finding: &Finding, readings: &[Reading], system: UnitSystem) -> (String, &'static str) {
    let number = finding.sick.cylinder;
    let since = since(finding.sick.from_s);
    let place = usize::from(number.max(1)) - 1;
    let moment = finding
        .places
        .first()
        .and_then(|first| readings.get(*first)?.moments.last());
    let read = |all: &[Quantity], what: &str| {
        let kelvin = moment?.get(*all.get(place)?)?;
        Some(format!("{what} {}", format::degrees(kelvin, system)))
    };
    let numbers: Vec<String> = [
        read(&Quantity::HEADS, tr("CHT")),
        read(&Quantity::EGTS, tr("EGT")),
    ]
    .into_iter()
    .flatten()
    .collect();
    let shown = if numbers.is_empty() {
        String::new()
    } else {
        format!(" ({})", numbers.join(", "))
    };
    if finding.sick.fires {
        let share = 100.0 * finding.sick.share;
        (
            tr!(
                "The nozzle of cylinder {} may be partly blocked{}{}: its EGT moves against the \
                 others as the fuel flow changes, as if it got about {:.0} % of their fuel.",
                number,
                since,
                shown,
                share
            ),
            tr(
                "Before the next flight: take the nozzle out, clean and check it, look at its line and at \
             the fuel filter. Until then do not lean by the other cylinders.",
            ),
        )
    } else {
        (
            tr!(
                "Cylinder {} may not be firing{}{}: its CHT and EGT are far below the others.",
                number,
                since,
                shown
            ),
            tr(
                "Before the next flight: look at its plugs, leads and both magnetos, its nozzle or induction \
             pipe, and its compression.",
            ),
        )
    }
}

/// The readings that show it, where there are others.
fn where_seen(finding: &Finding, readings: &[Reading]) -> String {
    let names: Vec<String> = finding
        .places
        .iter()
        .filter_map(|place| Some(format!("“{}”", readings.get(*place)?.name)))
        .collect();
    if names.len() == readings.len() {
        return String::new();
    }
    tr!("Seen in {}. ", names.join(", "))
}

/// The findings of some readings; nothing where all cylinders burn alike.
pub fn alert(sick: &[Option<Sick>], readings: &[Reading], system: UnitSystem) -> Html {
    let found = findings(sick);
    if found.is_empty() {
        return Html::default();
    }
    html! {
        <div class="grave" role="alert">
            { for found.iter().map(|finding| {
                let (what, look) = words(finding, readings, system);
                html! { <p><strong>{ what }</strong>{ " " }{ where_seen(finding, readings) }{ look }{ tr(" Its temperatures are left out of the averages, and the others share its fuel.") }</p> }
            }) }
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::document::reading::Values;
    use coolpath_core::units::si::degf;

    #[test]
    fn what_does_not_fire_is_said_first_with_its_numbers_and_what_to_look_at() {
        let sick = |cylinder, fires| {
            Some(Sick {
                cylinder,
                share: 0.8,
                fires,
                from_s: 0.0,
            })
        };
        let values: Values = [
            (Quantity::HEADS[5], degf(150.0)),
            (Quantity::EGTS[5], degf(220.0)),
        ]
        .into_iter()
        .collect();
        let readings = vec![Reading::steady("one", values); 3];
        let found = findings(&[sick(2, true), None, sick(6, false), sick(6, false)]);
        assert_eq!(found.len(), 2);
        assert_eq!((found[0].sick.cylinder, found[0].places.len()), (6, 2));
        let (what, look) = words(&found[0], &readings, UnitSystem::Customary);
        assert!(
            what.starts_with("Cylinder 6 may not be firing (CHT 150 °F, EGT 220 °F)"),
            "{what}"
        );
        assert!(look.contains("plugs") && look.contains("compression"));
        let (what, look) = words(&found[1], &readings, UnitSystem::Customary);
        assert!(
            what.contains("nozzle of cylinder 2") && what.contains("80 %"),
            "{what}"
        );
        assert!(look.contains("clean"));
        let later = Sick {
            from_s: 1390.0,
            ..found[0].sick
        };
        let found = findings(&[None, Some(later)]);
        let (what, _) = words(&found[0], &readings, UnitSystem::Customary);
        assert!(
            what.starts_with(
                "Cylinder 6 may not be firing, since about 23 min after lift-off (CHT"
            ),
            "{what}"
        );
    }
}
