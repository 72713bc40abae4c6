//! A check as JSON, SI units.

use crate::check::input::Flights;
use coolpath_core::math::normal::RANGE_DEVIATIONS;
use coolpath_core::prove::calibrate::{Fitted, OverFlights};
use coolpath_core::prove::flights::{Checked, Figure, Judged, ReadAndPredicted, summary};
use serde_json::{Map, Value, json};

/// The object that is printed.
#[must_use]
pub fn object(checked: &Checked, flights: &Flights) -> Value {
    let windows = checked.judged.iter().map(|judged| window(judged, flights));
    let on_refused = checked.refused.iter().filter_map(|refused| {
        let found = flights.on.get(refused.place)?;
        Some(json!({
            "used_for": "on",
            "file": found.file,
            "flight": found.window.flight,
            "start_s": found.window.start_s,
            "phase": found.window.phase.name(),
            "reason": refused.reason.to_string(),
        }))
    });
    let fit_refused = checked.unused.iter().filter_map(|refused| {
        let found = flights.fit.get(refused.place)?;
        Some(json!({
            "used_for": "fit",
            "file": found.file,
            "flight": found.flight,
            "start_s": found.start_s,
            "reason": refused.reason.to_string(),
        }))
    });
    let (held, all) = checked.held();
    json!({
        "fitted": checked.fitted.iter().map(fitted).collect::<Vec<_>>(),
        "whole_flights": checked.whole.iter().map(over_flights).collect::<Vec<_>>(),
        "windows": windows.collect::<Vec<_>>(),
        "held": held,
        "of": all,
        "summary": summaries(&checked.judged),
        "refused": fit_refused.chain(on_refused).collect::<Vec<_>>(),
    })
}

fn fitted(fitted: &Fitted) -> Value {
    let (low, high) = fitted.likely;
    json!({
        "name": fitted.parameter.name(),
        "input": fitted.input.id,
        "value": fitted.value,
        "sd": (high - low) / (2.0 * RANGE_DEVIATIONS),
        "moved": fitted.moved,
    })
}

/// How a channel errs over the whole flights of the fit.
fn over_flights(own: &OverFlights) -> Value {
    let unit = if own.channel.is_pressure() { "pa" } else { "k" };
    let mut object = Map::new();
    object.insert("name".to_owned(), json!(own.channel.name()));
    object.insert("moments".to_owned(), json!(own.moments));
    object.insert("seconds".to_owned(), json!(own.seconds));
    object.insert(format!("sd_{unit}"), json!(own.error.deviation));
    object.insert("memory_s".to_owned(), json!(own.error.memory_s));
    object.insert("independent".to_owned(), json!(own.independent));
    Value::Object(object)
}

fn window(judged: &Judged, flights: &Flights) -> Value {
    let mut object = Map::new();
    if let Some(found) = flights.on.get(judged.place) {
        let window = &found.window;
        object.insert("file".to_owned(), json!(found.file));
        object.insert("flight".to_owned(), json!(window.flight));
        object.insert("start_s".to_owned(), json!(window.start_s + judged.from_s));
        object.insert("phase".to_owned(), json!(window.phase.name()));
        if !window.note.is_empty() {
            object.insert("note".to_owned(), json!(window.note));
        }
    }
    let condition = judged
        .condition
        .iter()
        .map(|(quantity, si)| (quantity.key().to_owned(), json!(si)));
    object.insert("condition".to_owned(), Value::Object(condition.collect()));
    for figure in figures(core::slice::from_ref(judged)) {
        let compared = judged
            .get(figure)
            .map_or(Value::Null, |found| compared(figure, found));
        object.insert(figure.name().to_owned(), compared);
    }
    Value::Object(object)
}

/// The main figures, and of the others those that were read.
fn figures(judged: &[Judged]) -> Vec<Figure> {
    Figure::all()
        .filter(|figure| {
            Figure::MAIN.contains(figure) || judged.iter().any(|one| one.get(*figure).is_some())
        })
        .collect()
}

/// A key with the unit of a figure.
fn key(name: &str, figure: Figure) -> String {
    let unit = if figure.is_pressure() { "pa" } else { "k" };
    format!("{name}_{unit}")
}

fn compared(figure: Figure, compared: ReadAndPredicted) -> Value {
    let numbers = [
        ("measured", compared.measured),
        ("predicted", compared.predicted),
        ("low", compared.low),
        ("high", compared.high),
    ];
    let object = numbers.map(|(name, si)| (key(name, figure), json!(si)));
    Value::Object(object.into_iter().collect())
}

fn summaries(judged: &[Judged]) -> Value {
    let each = figures(judged).into_iter().map(|figure| {
        let found = summary(judged, figure).map_or(Value::Null, |found| {
            let mut object = Map::new();
            object.insert("n".to_owned(), json!(found.count));
            object.insert(key("bias", figure), json!(found.bias));
            object.insert(key("rms", figure), json!(found.rms));
            if let Some(before) = found.rms_before {
                object.insert(key("rms_before", figure), json!(before));
            }
            object.insert("inside_share".to_owned(), json!(found.inside_share));
            Value::Object(object)
        });
        (figure.name().to_owned(), found)
    });
    Value::Object(each.collect())
}
