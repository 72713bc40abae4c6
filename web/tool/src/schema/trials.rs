//! What is found by trying: a design with one of everything, changed at one place and read again.

use coolpath_core::document::alternative::Alternative;
use coolpath_core::document::check::DesignError;
use coolpath_core::document::design::{Assumed, Calibrated, Change, Design};
use coolpath_core::document::fault::Spot;
use coolpath_core::document::installation::Cylinder;
use coolpath_core::document::quantity::Quantity;
use coolpath_core::document::reading::{Reading, Sick};
use serde_json::{Value, json};

/// A design that holds one of everything.
pub(crate) fn sample() -> Design {
    let mut design = Design::default();
    design.installation.cylinders = vec![Cylinder::default()];
    design.alternatives = vec![Alternative {
        name: "Other".to_owned(),
        installation: design.installation.clone(),
    }];
    let values = Quantity::ALL
        .iter()
        .map(|quantity| (*quantity, quantity.permitted().1))
        .collect();
    design.readings = vec![Reading {
        sick: Some(Sick {
            cylinder: 1,
            share: 0.5,
            fires: true,
            from_s: 60.0,
        }),
        ..Reading::steady("One", values)
    }];
    design.instruments = [(Quantity::Oil, 1.0)].into_iter().collect();
    let discharge = design.installation.exits[0].discharge;
    design.calibrated = vec![Calibrated {
        input: "exit.discharge".to_owned(),
        value: discharge,
        likely: (0.9 * discharge, discharge),
    }];
    design.assumed = vec![Assumed {
        input: "exit.discharge".to_owned(),
        value: discharge,
    }];
    design.changes = vec![Change::default()];
    design
}

/// Whether a file without the key at a place is refused.
pub(crate) fn is_required(sample: &Value, holder: &str, key: &str) -> bool {
    let mut tried = sample.clone();
    let object = tried.pointer_mut(holder).and_then(Value::as_object_mut);
    object.is_some_and(|object| object.remove(key).is_some())
        && serde_json::from_value::<Design>(tried).is_err()
}

/// Fewest and most of what a whole number counts, if the design's check knows such bounds.
pub(crate) fn count_range(sample: &Value, at: &str, id: &str) -> Option<(usize, usize)> {
    let mut tried = sample.clone();
    *tried.pointer_mut(at)? = json!(u8::MAX);
    let design: Design = serde_json::from_value(tried).ok()?;
    design.faults().iter().find_map(|fault| match fault.error {
        DesignError::Count { least, most, .. } if is_choice(fault.spot, id) => Some((least, most)),
        _ => None,
    })
}

fn is_choice(spot: Spot, id: &str) -> bool {
    matches!(spot, Spot::Choice(choice, _) if choice == id)
}
