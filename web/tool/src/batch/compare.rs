//! `coolpath compare`: alternatives against the design, as they are and at equal heads.

use crate::batch::args::CompareArgs;
use crate::batch::{BatchError, Printed, place};
use coolpath_core::answer::band::Band;
use coolpath_core::decide::compare::{Preset, hardest_for_heads};
use coolpath_core::decide::comparison::{Comparing, Stand, with_presets};
use coolpath_core::document::alternative::Alternative;
use coolpath_core::document::design::Design;
use serde_json::{Value, json};

/// The differences of all alternatives, two rows each.
///
/// # Errors
/// [`BatchError::NoSuchCondition`] if the design has no such condition.
pub fn printed(design: &Design, args: &CompareArgs) -> Result<Printed, BatchError> {
    let place = match &args.condition {
        Some(asked) => place(design, asked)?,
        None => hardest_for_heads(design).unwrap_or(0),
    };
    let mut rows = Vec::new();
    for other in alternatives(design, args) {
        let Some(made) = Comparing::new(design, &other, place).finished() else {
            continue;
        };
        let name = &made.name;
        rows.push(row(design, place, name, "as_it_is", &made.fixed));
        rows.push(match &made.equal {
            Ok(equal) => row(design, place, name, "equal_heads", equal),
            Err(why) => refused(name, "equal_heads", &why.to_string()),
        });
    }
    Ok(Printed {
        whole: rows
            .iter()
            .all(|row| row["exit"] != "as_it_is" || row.get("error").is_none()),
        value: Value::Array(rows),
        first: &[
            "alternative",
            "exit",
            "error",
            "exit_m2",
            "condition",
            "level_condition",
        ],
    })
}

/// What stands beside the design: the usual changes, those that were asked for, the builder's own.
fn alternatives(design: &Design, args: &CompareArgs) -> Vec<Alternative> {
    let asked: Vec<Preset> = args
        .presets
        .iter()
        .map(|name| Preset::from(*name))
        .collect();
    let mut list = with_presets(design, &asked);
    list.extend(design.alternatives.iter().cloned());
    list
}

fn row(design: &Design, place: usize, name: &str, exit: &str, stand: &Stand) -> Value {
    let shown = match &stand.shown {
        Ok(shown) => shown,
        Err(error) => return refused(name, exit, &error.to_string()),
    };
    let within = shown.within_uncertainty();
    let mut row = json!({
        "alternative": name,
        "exit": exit,
        "exit_m2": stand.exit_m2,
        "condition": design.conditions[place].name,
    });
    let mut tell = |name: &str, unit: &str, by: f64, band: Band, within: bool| {
        let key = |part: &str| format!("{name}{part}_{unit}");
        row[key("")] = json!(by);
        row[key("_low")] = json!(by - band.below);
        row[key("_high")] = json!(by + band.above);
        row[format!("{name}_within_uncertainty")] = json!(within);
    };
    let (by, band) = (shown.by, shown.band);
    tell("head", "k", by.head, band.head, within.head);
    tell("oil", "k", by.oil, band.oil, within.oil);
    tell(
        "baffle_dp",
        "pa",
        by.baffle_drop,
        band.baffle_drop,
        within.baffle_drop,
    );
    tell(
        "inlet",
        "kg_s",
        by.inlet_flow,
        band.inlet_flow,
        within.inlet_flow,
    );
    tell("drag", "n", by.drag, band.drag, within.drag);
    if let (Some(level), Some(Ok(found))) = (design.first_level(), &stand.level) {
        let within = found.within_uncertainty().speed;
        tell("speed", "m_s", found.by.speed, found.band.speed, within);
        row["level_condition"] = json!(design.conditions[level].name);
    }
    row
}

fn refused(name: &str, exit: &str, why: &str) -> Value {
    json!({ "alternative": name, "exit": exit, "error": why })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::batch::args::DesignArgs;
    use crate::batch::presets::PresetName;
    use coolpath_core::decide::comparison::standing;
    use coolpath_core::document::example;
    use std::path::PathBuf;

    fn args(condition: Option<&str>, presets: &[PresetName]) -> CompareArgs {
        CompareArgs {
            of: DesignArgs {
                design: PathBuf::new(),
                csv: false,
            },
            condition: condition.map(str::to_owned),
            presets: presets.to_vec(),
        }
    }

    #[test]
    fn differences_are_the_pages_own() {
        let mut design = example::design();
        design.alternatives.push(Alternative {
            name: "Wider".to_owned(),
            installation: Preset::WiderDuct.applied(&design.installation),
        });
        let rows = printed(&design, &args(Some("2"), &[])).expect("rows").value;
        let others = standing(&design)
            .into_iter()
            .chain(design.alternatives.clone());
        let mut compared = 0;
        for (at, other) in others.enumerate() {
            let page = Comparing::new(&design, &other, 1).finished();
            let page = page.expect("a comparison");
            let (fixed, equal) = (&rows[2 * at], &rows[2 * at + 1]);
            assert_eq!(fixed["alternative"], page.name);
            let shown = page.fixed.shown.as_ref().expect("a difference");
            assert_eq!(fixed["head_k"].as_f64(), Some(shown.by.head));
            assert_eq!(
                fixed["drag_high_n"].as_f64(),
                Some(shown.by.drag + shown.band.drag.above)
            );
            let stand = page.at_equal_heads().expect("an exit");
            assert_eq!(equal["exit_m2"].as_f64(), Some(stand.exit_m2));
            let level = stand.level.as_ref().and_then(|level| level.as_ref().ok());
            assert_eq!(
                equal["speed_m_s"].as_f64(),
                level.map(|level| level.by.speed)
            );
            compared += 1;
        }
        assert_eq!(rows.as_array().map(Vec::len), Some(2 * compared));
        assert!(compared > 2);
    }

    #[test]
    fn a_change_that_is_asked_for_is_compared_once() {
        let design = example::design();
        let names = |presets: &[PresetName]| {
            let rows = printed(&design, &args(None, presets)).expect("rows").value;
            rows.as_array().map_or(0, Vec::len)
        };
        let usual = names(&[]);
        assert_eq!(
            names(&[PresetName::Diffusers, PresetName::HardPlenum]),
            usual + 2
        );
    }
}
