//! The JSON Schema of the design file, draft 2020-12.
//!
//! Names and kinds are traced from the very types that read a file, numbers come from the core's table
//! of inputs, and what a file must hold, and the range of a whole number, is found by trying. Which
//! lists have bounds is written down in `kinds`, by the core's own constants.

mod kinds;
mod trials;

use crate::schema::kinds::Kinds;
use coolpath_core::document::condition::Condition;
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::{Exit, Inlet};
use coolpath_core::document::reading::Reading;
use serde_json::{Value, json};
use serde_reflection::{Registry, Tracer, TracerConfig};

/// Why there is no schema.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum SchemaError {
    /// The types cannot be traced.
    #[error("the design file's types cannot be traced: {0}")]
    Trace(#[from] serde_reflection::Error),
    /// The example for the trials cannot be written.
    #[error("the design file cannot be written: {0}")]
    Json(#[from] serde_json::Error),
    /// A type of a kind that no design file had so far.
    #[error("`{0}` has a shape that the schema does not know")]
    Shape(String),
}

/// The schema.
///
/// # Errors
/// [`SchemaError`] if the design's types have a shape that is not known here.
pub fn schema() -> Result<Value, SchemaError> {
    let registry = registry()?;
    let mut kinds = Kinds::new(&registry)?;
    let mut schema = kinds.named("Design", "")?;
    schema["$schema"] = json!("https://json-schema.org/draft/2020-12/schema");
    schema["title"] = json!("Coolpath design file");
    schema["description"] = json!(
        "Every number stands in the SI unit that ends its key; a key that is left out takes its \
         default. `unit`, `likely` (range that holds in about nine cases in ten) and `tag` (kind of \
         source) are notes."
    );
    schema["$defs"] = Value::Object(kinds.definitions);
    Ok(schema)
}

fn tracer() -> Tracer {
    Tracer::new(TracerConfig::default().is_human_readable(true))
}

/// All types that a design file is made of.
fn registry() -> Result<Registry, SchemaError> {
    let mut first = tracer();
    first.trace_simple_type::<Design>()?;
    let choices = match first.registry() {
        Ok(registry) => return Ok(registry),
        Err(serde_reflection::Error::MissingVariants(choices)) => choices,
        Err(error) => return Err(error.into()),
    };
    // Each pass sees one more variant of every choice; lists are looked into once only, so that what
    // they hold is traced by itself.
    let mut tracer = tracer();
    let mut more = true;
    while more {
        tracer.trace_simple_type::<Design>()?;
        tracer.trace_simple_type::<Condition>()?;
        tracer.trace_simple_type::<Inlet>()?;
        tracer.trace_simple_type::<Exit>()?;
        tracer.trace_simple_type::<Reading>()?;
        more = false;
        for choice in &choices {
            more |= tracer.check_incomplete_enum(choice).is_some();
        }
    }
    Ok(tracer.registry()?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design_file;
    use coolpath_core::document::design::VERSION;
    use coolpath_core::document::{example, table};
    use jsonschema::Validator;
    use std::path::Path;

    fn validator() -> Validator {
        let schema = schema().expect("a schema");
        jsonschema::meta::validate(&schema).expect("a schema by the draft's own schema");
        jsonschema::draft202012::new(&schema).expect("a validator")
    }

    fn faults(validator: &Validator, design: &Value) -> Vec<String> {
        validator
            .iter_errors(design)
            .map(|error| format!("{}: {error}", error.instance_path()))
            .collect()
    }

    #[test]
    fn the_example_and_files_of_every_format_are_valid() {
        let validator = validator();
        let none: Vec<String> = Vec::new();
        for design in [example::design(), Design::default(), trials::sample()] {
            assert_eq!(faults(&validator, &json!(design)), none);
        }
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
        for file in [
            "web/tests/earlier/design.json",
            "reference/flights/six_310hp_design.json",
        ] {
            let path = root.join(file);
            let stored: Value =
                serde_json::from_str(&design_file::text(&path).expect(file)).expect(file);
            assert_eq!(faults(&validator, &stored), none, "{file} as it is stored");
            let renewed = design_file::design(&path).expect(file);
            assert_eq!(renewed.coolpath_design, VERSION);
            assert_eq!(
                faults(&validator, &json!(renewed)),
                none,
                "{file} in today's form"
            );
        }
    }

    #[test]
    fn what_is_broken_fails_where_it_stands() {
        let validator = validator();
        let sample = json!(trials::sample());
        for (at, value) in [
            ("/coolpath_design", json!(VERSION + 1)),
            ("/installation/engine/cylinders", json!(1)),
            ("/installation/engine/cylinders", json!(9)),
            ("/installation/engine/kind", json!("steam")),
            ("/installation/inlets/0/width_m", json!(50.0)),
            ("/installation/inlets/0/width_m", json!("wide")),
            ("/conditions/0/oat_k", json!(-1.0)),
            ("/conditions", json!([])),
            ("/alternatives/0/installation/exits", json!([])),
            ("/readings/0/moments/0/values/oil_k", json!(1e4)),
            ("/calibrated/0/likely", json!([1.0])),
        ] {
            let mut broken = sample.clone();
            *broken
                .pointer_mut(at)
                .unwrap_or_else(|| panic!("{at} is there")) = value;
            let found = faults(&validator, &broken);
            assert_eq!(found.len(), 1, "{at}: {found:?}");
            assert!(found[0].starts_with(at), "{at}: {found:?}");
        }
        let mut misspelt = sample.clone();
        misspelt["installation"]["engine"]["rated_powr_w"] = json!(1e5);
        assert_eq!(faults(&validator, &misspelt).len(), 1);
        for (at, key) in [("", "coolpath_design"), ("/alternatives/0", "name")] {
            let mut lacking = sample.clone();
            let holder = lacking.pointer_mut(at).and_then(Value::as_object_mut);
            holder.expect(at).remove(key);
            let found = faults(&validator, &lacking);
            assert!(found.len() == 1 && found[0].contains(key), "{found:?}");
        }
    }

    /// Places of the choices in a design, by the walk of a schema beside it.
    fn choices(
        schema: &Value,
        kind: &Value,
        design: &Value,
        at: &str,
        found: &mut Vec<(String, usize)>,
    ) {
        let name = kind["$ref"]
            .as_str()
            .and_then(|path| path.strip_prefix("#/$defs/"));
        let kind = name.map_or(kind, |name| &schema["$defs"][name]);
        if let Some(names) = kind["enum"].as_array() {
            found.push((at.to_owned(), names.len()));
        }
        let inner = kind["properties"].as_object();
        for (key, inner) in inner.into_iter().flatten() {
            if let Some(value) = design.get(key) {
                choices(schema, inner, value, &format!("{at}/{key}"), found);
            }
        }
        if let Some(first) = design.get(0) {
            choices(schema, &kind["items"], first, &format!("{at}/0"), found);
        }
    }

    #[test]
    fn every_choice_lists_all_its_names() {
        let schema = schema().expect("a schema");
        let sample = json!(trials::sample());
        let mut found = Vec::new();
        choices(&schema, &schema, &sample, "", &mut found);
        assert!(found.len() > 20, "{found:?}");
        for (at, count) in found {
            let mut tried = sample.clone();
            *tried.pointer_mut(&at).expect("a choice") = json!("?");
            let told = serde_json::from_value::<Design>(tried)
                .expect_err(&at)
                .to_string();
            // "unknown variant `?`, expected one of `a`, `b`"
            assert_eq!(told.matches('`').count(), 2 * (count + 1), "{at}: {told}");
        }
    }

    #[test]
    fn every_row_of_the_table_stands_in_it_with_its_range_and_default() {
        let schema = schema().expect("a schema");
        for input in table::all() {
            let (group, key) = input.id.split_once('.').expect("a group");
            let kinds = schema["$defs"].as_object().expect("kinds");
            let home = kinds
                .iter()
                .find(|(name, _)| name.to_lowercase() == group)
                .unwrap_or_else(|| panic!("{group} is there"));
            let own = &home.1["properties"][key];
            assert_eq!(
                own["minimum"].as_f64(),
                Some(input.permitted.0),
                "{}",
                input.id
            );
            assert_eq!(
                own["maximum"].as_f64(),
                Some(input.permitted.1),
                "{}",
                input.id
            );
            assert_eq!(own["default"].as_f64(), Some(input.default), "{}", input.id);
            assert_eq!(own["title"], input.label);
        }
    }
}
