//! Batch use: reads a design file from standard input and prints one JSON object per condition,
//! in SI units. `--demo` prints the worked example's design file instead.

use coolpath_core::answer::band::bands;
use coolpath_core::answer::evaluate::{Answer, evaluate_all};
use coolpath_core::answer::sampling::{DEFAULT_DRAWS, DEFAULT_SEED, Sampling, Summary};
use coolpath_core::answer::verdict::{DEFAULT_CHANCE, judge};
use coolpath_core::document::design::Design;
use coolpath_core::document::example;
use coolpath_core::path::butterfly;
use serde_json::{Value, json};
use std::io::Read;
use std::process::ExitCode;

fn main() -> ExitCode {
    if std::env::args().nth(1).as_deref() == Some("--demo") {
        return print(&serde_json::to_value(example::design()).unwrap_or_default());
    }
    let mut text = String::new();
    if let Err(error) = std::io::stdin().read_to_string(&mut text) {
        return refuse(&format!("The input could not be read: {error}."));
    }
    let design = match serde_json::from_str::<Design>(text.trim_start_matches('\u{feff}')) {
        Ok(design) => design.renewed().0,
        Err(error) => return refuse(&format!("This is no design file: {error}.")),
    };
    if let Err(error) = design.check() {
        return refuse(&error.to_string());
    }
    let mut sampling = match Sampling::new(&design, DEFAULT_DRAWS, DEFAULT_SEED) {
        Ok(sampling) => sampling,
        Err(error) => return refuse(&error.to_string()),
    };
    while sampling.advance(DEFAULT_DRAWS) {}
    let answers = evaluate_all(&design);
    let objects =
        answers
            .iter()
            .zip(&design.conditions)
            .enumerate()
            .map(|(place, (answer, condition))| match answer {
                Ok(answer) => {
                    let sampled = sampling.summary(place);
                    let mut found = object(answer);
                    judged(&mut found, &design, place, answer, sampled.as_ref());
                    found
                }
                Err(error) => json!({ "condition": condition.name, "error": error.to_string() }),
            });
    print(&Value::Array(objects.collect()))
}

/// Adds the verdict and the sampled chance of holding both limits.
fn judged(
    found: &mut Value,
    design: &Design,
    place: usize,
    answer: &Answer,
    sampled: Option<&Summary>,
) {
    let bands = bands(design, place).ok();
    let judgement = judge(
        &design.installation,
        answer,
        bands.as_ref(),
        sampled,
        DEFAULT_CHANCE,
    );
    let counted = judgement.chance_inside.filter(|chance| chance.sampled);
    found["verdict"] = json!(judgement.verdict.name());
    found["chance_inside"] = json!(counted.map(|chance| chance.share));
}

fn object(answer: &Answer) -> Value {
    json!({
        "condition": answer.name,
        "head_mean_k": answer.head_mean.value,
        "head_hottest_k": answer.head_hottest.value,
        "head_k": heads(answer),
        "hottest_cylinder": answer.hottest_cylinder.map(|place| place + 1),
        "head_margin_k": answer.head_margin.value,
        "oil_k": answer.oil.value,
        "oil_margin_k": answer.oil_margin.value,
        "binding_limit": answer.binding.name(),
        "upper_deck_pa": answer.upper_deck.value,
        "lower_deck_pa": answer.lower_deck.value,
        "baffle_dp_pa": answer.baffle_drop.value,
        "fin_kg_s": answer.fin_flow.value,
        "leak_kg_s": answer.leak_flow.value,
        "oil_cooler_kg_s": answer.cooler_flow.value,
        "inlet_kg_s": answer.inlet_flow.value,
        "exit_kg_s": answer.exit_flow.value,
        "inlet_velocity_ratio": answer.inlet_velocity_ratio,
        "exit_velocity_ratio": answer.exit_velocity_ratio,
        "exit_inlet_area_ratio": answer.area_ratio,
        "fin_heat_w": answer.fin_heat.value,
        "oil_cooler_heat_w": answer.cooler_heat.value,
        "oil_into_oil_w": answer.oil_heat.value,
        "drag_n": answer.drag.value,
        "shutter_deg": answer.shutter_opening.map(butterfly::angle_from_open),
        "iterations": answer.report.iterations,
        "residual": answer.report.residual,
        "warnings": answer.warnings.iter().map(|warning| warning.name()).collect::<Vec<_>>(),
    })
}

/// Each head, K, number 1 first; null before the cylinders are known one by one.
fn heads(answer: &Answer) -> Option<Vec<f64>> {
    let each: Vec<f64> = answer.heads.iter().map(|head| head.value).collect();
    (!each.is_empty()).then_some(each)
}

fn print(value: &Value) -> ExitCode {
    match serde_json::to_string_pretty(value) {
        Ok(text) => {
            println!("{text}");
            ExitCode::SUCCESS
        }
        Err(error) => refuse(&format!("The answer could not be written: {error}.")),
    }
}

fn refuse(message: &str) -> ExitCode {
    eprintln!("{message}");
    ExitCode::FAILURE
}
