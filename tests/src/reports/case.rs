//! Installations that are assumed for the reports, from `reference/reports/assumptions.json`.

use super::measure::{Measure, si};
use crate::table::text::reference_text;
use coolpath_core::document::design::{Calibrated, Design};
use coolpath_core::document::table::{Input, by_id};
use serde_json::{Value, json};

/// What an assumption does to an input.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Assumed {
    /// It is so much, SI, and lies in this range in about nine cases in ten.
    Is(f64, Option<(f64, f64)>),
    /// It becomes so many times what it was.
    Times(f64),
}

/// One assumption.
#[derive(Debug, Clone, Copy)]
pub struct Assumption {
    /// The input.
    pub input: &'static Input,
    /// What it becomes.
    pub assumed: Assumed,
}

/// A quantity that is brought about by an input.
#[derive(Debug, Clone, Copy)]
pub struct Match {
    /// The quantity.
    pub figure: Measure,
    /// The input.
    pub by: &'static Input,
    /// Before the change, SI.
    pub before: Option<f64>,
    /// After it, SI, with a range.
    pub after: Option<(f64, Option<(f64, f64)>)>,
}

/// Levels that were reported of one condition.
#[derive(Debug, Clone)]
pub struct LevelCase {
    /// Ids of the reports.
    pub reports: Vec<String>,
    /// The design with that condition alone.
    pub design: Design,
    /// What was measured besides.
    pub matches: Vec<Match>,
}

/// A change that was reported of one condition.
#[derive(Debug, Clone)]
pub struct ChangeCase {
    /// Ids of the reports.
    pub reports: Vec<String>,
    /// The design before it, with that condition alone.
    pub design: Design,
    /// Choices that it changes.
    pub choices: Option<Value>,
    /// Levels before it, SI.
    pub level: Vec<(Measure, f64)>,
    /// What was measured besides.
    pub matches: Vec<Match>,
    /// What it changes.
    pub after: Vec<Assumption>,
    /// What has to be said beside the result.
    pub remark: String,
    /// Whether something was fitted to this report.
    pub is_fitted: bool,
    /// What it assumes otherwise than the case that is counted.
    pub alternative: Option<String>,
}

/// All that is assumed.
#[derive(Debug, Clone)]
pub struct Cases {
    /// Levels.
    pub levels: Vec<LevelCase>,
    /// Changes.
    pub changes: Vec<ChangeCase>,
    /// Reports that cannot be expressed, and why.
    pub not_expressed: Vec<(String, String)>,
}

impl Cases {
    /// Reads the file.
    ///
    /// # Panics
    /// If it cannot be read or is malformed.
    #[must_use]
    pub fn read() -> Self {
        let file = "reports/assumptions.json";
        let text = reference_text(file);
        let all: Value =
            serde_json::from_str(&text).unwrap_or_else(|error| panic!("{file}: {error}"));
        let mut found = Self {
            levels: Vec::new(),
            changes: Vec::new(),
            not_expressed: list(&all["not_expressed"])
                .iter()
                .map(|one| (words(&one["report"]), words(&one["why"])))
                .collect(),
        };
        for case in list(&all["cases"]) {
            let levels = list(&case["levels"]).iter();
            found
                .levels
                .extend(levels.map(|own| LevelCase::of(case, own)));
            let changes = list(&case["changes"]).iter();
            found
                .changes
                .extend(changes.map(|own| ChangeCase::of(case, own)));
        }
        found
    }
}

impl LevelCase {
    fn of(case: &Value, own: &Value) -> Self {
        Self {
            reports: names(&own["reports"]),
            design: design(case, own),
            matches: matches(own),
        }
    }
}

impl ChangeCase {
    fn of(case: &Value, own: &Value) -> Self {
        let mut design = design(case, own);
        for before in assumptions(&own["before"]) {
            apply(&mut design, &before);
        }
        Self {
            reports: names(&own["reports"]),
            design,
            choices: own.get("after_choices").cloned(),
            level: list(&own["level"])
                .iter()
                .map(|level| {
                    let figure = Measure::named(&words(&level["figure"]));
                    (figure, figure.parsed(&words(&level["value"])))
                })
                .collect(),
            matches: matches(own),
            after: assumptions(&own["after"]),
            remark: own
                .get("fitted")
                .or(own.get("remark"))
                .map(words)
                .unwrap_or_default(),
            is_fitted: own.get("fitted").is_some(),
            alternative: own.get("alternative").map(words),
        }
    }
}

/// The design of a case with one of its conditions alone.
fn design(case: &Value, own: &Value) -> Design {
    let place = own["condition"].as_u64().unwrap_or_default() as usize;
    let condition = &list(&case["conditions"])[place];
    let base = Design {
        name: words(&case["name"]),
        ..Design::default()
    };
    let mut choices =
        json!({ "installation": case["choices"], "conditions": [condition["choices"]] });
    if let Some(more) = own.get("choices") {
        merge(&mut choices, more);
    }
    let mut design = with_choices(&base, &choices);
    for list in [&case["assumed"], &condition["assumed"]] {
        for one in assumptions(list) {
            apply(&mut design, &one);
        }
    }
    design
}

/// A design with other choices.
///
/// # Panics
/// If they are none of a design.
pub(super) fn with_choices(design: &Design, choices: &Value) -> Design {
    let mut all = serde_json::to_value(design).unwrap_or_else(|error| panic!("{error}"));
    merge(&mut all, choices);
    serde_json::from_value(all).unwrap_or_else(|error| panic!("{}: {error}", design.name))
}

fn merge(into: &mut Value, from: &Value) {
    match (into, from) {
        (Value::Object(into), Value::Object(from)) => {
            for (key, value) in from {
                merge(into.entry(key.clone()).or_insert(Value::Null), value);
            }
        }
        (into, from) => *into = from.clone(),
    }
}

/// Sets an input, with its range if one is assumed.
pub(super) fn apply(design: &mut Design, one: &Assumption) {
    let input = one.input;
    let Some(was) = input.value(design, 0) else {
        panic!("{}: no {}", design.name, input.id);
    };
    match one.assumed {
        Assumed::Times(times) => {
            input.set(design, 0, was * times);
        }
        Assumed::Is(value, range) => {
            input.set(design, 0, value);
            design.calibrated.extend(range.map(|likely| Calibrated {
                input: input.id.to_owned(),
                value,
                likely,
            }));
        }
    }
}

fn assumptions(value: &Value) -> Vec<Assumption> {
    list(value)
        .iter()
        .map(|one| {
            let input = input(&one["input"]);
            let number = |key: &str| one.get(key).map(|text| si(&words(text), input.dimension));
            let assumed = match one["times"].as_f64() {
                Some(times) => Assumed::Times(times),
                None => Assumed::Is(
                    number("value").unwrap_or_else(|| panic!("{}: no value", input.id)),
                    number("low").zip(number("high")),
                ),
            };
            assert!(
                !words(&one["why"]).is_empty() && !words(&one["tag"]).is_empty(),
                "{}: an assumption needs a reason and a tag",
                input.id
            );
            Assumption { input, assumed }
        })
        .collect()
}

fn matches(own: &Value) -> Vec<Match> {
    let Some(all) = own.get("match") else {
        return Vec::new();
    };
    list(all)
        .iter()
        .map(|one| {
            let figure = Measure::named(&words(&one["figure"]));
            let number = |key: &str| one.get(key).map(|text| figure.parsed(&words(text)));
            Match {
                figure,
                by: input(&one["by"]),
                before: number("before").or(number("to")),
                after: number("after").map(|after| (after, number("low").zip(number("high")))),
            }
        })
        .collect()
}

fn input(value: &Value) -> &'static Input {
    let id = words(value);
    by_id(&id).unwrap_or_else(|| panic!("no input is named `{id}`"))
}

fn names(value: &Value) -> Vec<String> {
    list(value).iter().map(words).collect()
}

fn list(value: &Value) -> &[Value] {
    value
        .as_array()
        .unwrap_or_else(|| panic!("{value} is no list"))
}

fn words(value: &Value) -> String {
    value
        .as_str()
        .unwrap_or_else(|| panic!("{value} is no text"))
        .to_owned()
}
