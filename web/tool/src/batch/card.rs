//! `coolpath card`: the shutter over outside air.

use crate::batch::args::CardArgs;
use crate::batch::{BatchError, Printed, place};
use coolpath_core::answer::solved::{EvaluateError, ShutterState};
use coolpath_core::decide::shutter_card::{CardPoint, Tape, shutter_card, tape_card, usual_oats_k};
use coolpath_core::document::design::Design;
use coolpath_core::path::butterfly;
use coolpath_core::units::typed::UnitSystem;
use serde_json::{Value, json};

/// The card of one condition.
///
/// # Errors
/// [`BatchError::NoSuchCondition`] if the design has no such condition.
pub fn printed(design: &Design, args: &CardArgs) -> Result<Printed, BatchError> {
    let place = match &args.condition {
        Some(asked) => place(design, asked)?,
        None => design.first_level().unwrap_or(0),
    };
    let oats_k = if args.oat_k.is_empty() {
        usual_oats_k(UnitSystem::Customary)
    } else {
        args.oat_k.clone()
    };
    let condition = &design.conditions[place];
    let points = shutter_card(design, condition, &oats_k);
    let tapes = tape_card(&design.installation, condition, &oats_k);
    let whole = points.iter().all(Result::is_ok);
    let rows = oats_k.iter().zip(points).zip(tapes);
    let value = rows
        .map(|((oat_k, point), tape)| {
            let mut row = match point {
                Ok(point) => row(&point),
                Err(error) => json!({ "error": error.to_string() }),
            };
            row["condition"] = json!(condition.name);
            row["oat_k"] = json!(oat_k);
            tell_tape(&mut row, tape);
            row
        })
        .collect();
    Ok(Printed {
        value: Value::Array(value),
        first: &[
            "condition",
            "oat_k",
            "state",
            "shutter_opening",
            "shutter_deg",
            "oil_k",
        ],
        whole,
    })
}

fn row(point: &CardPoint) -> Value {
    json!({
        "state": state(point.state),
        "shutter_opening": point.opening,
        "shutter_opening_low": point.opening_band.0,
        "shutter_opening_high": point.opening_band.1,
        "shutter_deg": butterfly::angle_from_open(point.opening),
        "oil_k": point.oil.value,
        "oil_jammed_shut_k": point.oil_jammed_shut.value,
        "oil_jammed_open_k": point.oil_jammed_open.value,
        "oil_through_cooler": point.oil_through_cooler,
        "congealing_drop_pa": point.congealing.map(|drop| drop.value),
    })
}

fn state(state: ShutterState) -> &'static str {
    match state {
        ShutterState::NotFitted => "not_fitted",
        ShutterState::Fixed => "fixed",
        ShutterState::Holds => "holds",
        ShutterState::OpenTooHot { .. } => "open_too_hot",
        ShutterState::ClosedTooCold { .. } => "closed_too_cold",
        _ => "other",
    }
}

fn tell_tape(row: &mut Value, tape: Result<Tape, EvaluateError>) {
    let (name, share) = match tape {
        Ok(Tape::Holds(share)) => ("holds", Some(share)),
        Ok(Tape::NoneTooHot) => ("none_too_hot", None),
        Ok(Tape::MostTooCold) => ("most_too_cold", None),
        Err(_) => ("no_answer", None),
    };
    row["tape"] = json!(name);
    row["tape_share"] = json!(share);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::batch::args::DesignArgs;
    use coolpath_core::document::example;
    use std::path::PathBuf;

    fn args(condition: Option<&str>, oat_k: &[f64]) -> CardArgs {
        CardArgs {
            of: DesignArgs {
                design: PathBuf::new(),
                csv: false,
            },
            condition: condition.map(str::to_owned),
            oat_k: oat_k.to_vec(),
        }
    }

    #[test]
    fn colder_air_shuts_the_shutter_further() {
        let printed = printed(&example::design(), &args(None, &[])).expect("a card");
        let rows = printed.value.as_array().expect("rows");
        assert_eq!(rows.len(), 14);
        let opening = |row: &Value| row["shutter_opening"].as_f64().expect("an opening");
        assert!(rows.iter().map(opening).is_sorted());
        assert!(opening(&rows[0]) < opening(&rows[13]));
    }

    #[test]
    fn a_condition_and_temperatures_can_be_named() {
        let design = example::design();
        let printed = printed(&design, &args(Some("2"), &[280.0, 290.0])).expect("a card");
        assert_eq!(printed.value.as_array().map(Vec::len), Some(2));
        assert_eq!(printed.value[0]["condition"], design.conditions[1].name);
        assert_eq!(printed.value[1]["oat_k"], 290.0);
    }
}
