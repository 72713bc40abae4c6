//! `coolpath chances`: every assumption drawn from its range.

use crate::batch::Printed;
use coolpath_core::answer::pieces::Pieces;
use coolpath_core::answer::sampling::{Drawn, Percentiles, Sampling, Summary};
use coolpath_core::answer::solved::EvaluateError;
use coolpath_core::decide::chances::{how_to_measure, ranking};
use coolpath_core::document::design::{Design, mark};
use serde_json::{Map, Value, json};

/// What so many draws say of every condition.
///
/// # Errors
/// [`EvaluateError`] if the design is refused.
pub fn printed(design: &Design, draws: u32, seed: u64) -> Result<Printed, EvaluateError> {
    let draws = draws as usize;
    let mut sampling = Sampling::new(design, draws, seed)?;
    while sampling.advance(draws) {}
    let mut whole = true;
    let conditions = design.conditions.iter().enumerate();
    let value = conditions
        .map(|(place, condition)| {
            let mut row = match sampling.summary(place) {
                Some(found) => summary(&found),
                None => {
                    whole = false;
                    json!({ "error": "too few draws have an answer" })
                }
            };
            row["condition"] = json!(condition.name);
            row["draws"] = json!(draws);
            row["to_measure_for_heads"] = ranks(&sampling, place, |drawn| drawn.head);
            row["to_measure_for_oil"] = ranks(&sampling, place, |drawn| drawn.oil);
            row
        })
        .collect();
    Ok(Printed {
        value: Value::Array(value),
        first: &["condition", "chance_inside", "head_inside", "oil_inside"],
        whole,
    })
}

fn summary(found: &Summary) -> Value {
    json!({
        "head": percentiles(&found.head, "k"),
        "oil": percentiles(&found.oil, "k"),
        "baffle_dp": percentiles(&found.baffle_drop, "pa"),
        "drag": percentiles(&found.drag, "n"),
        "head_inside": found.head_inside,
        "oil_inside": found.oil_inside,
        "chance_inside": found.both_inside,
        "draws_without_air": found.without_air,
        "draws_contradictory": found.contradictions,
        "draws_unsolved": found.unsolved,
    })
}

fn percentiles(found: &Percentiles, unit: &str) -> Value {
    let each = [
        ("p05", found.p05),
        ("p10", found.p10),
        ("p50", found.p50),
        ("p90", found.p90),
        ("p95", found.p95),
    ];
    let object: Map<String, Value> = each
        .into_iter()
        .map(|(name, si)| (format!("{name}_{unit}"), json!(si)))
        .collect();
    Value::Object(object)
}

fn ranks(sampling: &Sampling, place: usize, figure: fn(&Drawn) -> f64) -> Value {
    let ranks = ranking(sampling, place, figure);
    let list = ranks.iter().filter(|rank| rank.share > 0.0).map(|rank| {
        json!({
            "input": mark(rank.input.id, rank.place),
            "label": rank.input.label,
            "variance_share": rank.share,
            "narrowing": rank.narrowing,
            "how": how_to_measure(rank.input.id),
        })
    });
    list.collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::answer::record::{Record, records};
    use coolpath_core::answer::sampling::{DEFAULT_DRAWS, DEFAULT_SEED};
    use coolpath_core::document::example;

    #[test]
    fn the_usual_draws_are_those_of_evaluate_and_a_seed_changes_them() {
        let mut design = example::design();
        design.conditions.truncate(2);
        let draws = DEFAULT_DRAWS as u32;
        let usual = printed(&design, draws, DEFAULT_SEED)
            .expect("chances")
            .value;
        let records = records(&design).expect("records");
        let Record::Answered(climb) = &records[1] else {
            panic!("an answer");
        };
        assert_eq!(usual[1]["chance_inside"].as_f64(), climb.chance_inside);
        let other = printed(&design, draws, 7).expect("chances").value;
        assert_ne!(usual[1]["head"], other[1]["head"]);
        let head = &usual[1]["head"];
        assert!(head["p05_k"].as_f64() < head["p95_k"].as_f64());
        let first = &usual[1]["to_measure_for_heads"][0];
        assert!(first["how"].as_str().is_some_and(|how| !how.is_empty()));
    }
}
