//! `coolpath compare`: alternatives against the design, as they are and at equal heads.

use crate::batch::args::CompareArgs;
use crate::batch::{BatchError, Printed, place};
use coolpath_core::answer::band::Band;
use coolpath_core::decide::compare::{Preset, at_equal_heads, difference, hardest_for_heads};
use coolpath_core::document::alternative::Alternative;
use coolpath_core::document::condition::Phase;
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::Installation;
use coolpath_core::document::installation::areas::exit_m2;
use serde_json::{Value, json};

/// Changes that stand beside every design, without the one that it has already.
const STANDING: [Preset; 3] = [Preset::HardPlenum, Preset::NewSeals, Preset::WornSeals];

/// The differences of all alternatives, two rows each.
///
/// # Errors
/// [`BatchError::NoSuchCondition`] if the design has no such condition.
pub fn printed(design: &Design, args: &CompareArgs) -> Result<Printed, BatchError> {
    let hardest = hardest_for_heads(design);
    let place = match &args.condition {
        Some(asked) => place(design, asked)?,
        None => hardest.unwrap_or(0),
    };
    let against = Against {
        design,
        place,
        level: design
            .conditions
            .iter()
            .position(|condition| condition.phase == Phase::Cruise),
    };
    let mut rows = Vec::new();
    for other in alternatives(design, args) {
        rows.push(against.row(&other.name, "as_it_is", &other.installation));
        let equal = hardest
            .map(|hardest| at_equal_heads(design, &other.installation, hardest))
            .transpose();
        rows.push(match equal {
            Ok(Some(Some(resized))) => against.row(&other.name, "equal_heads", &resized),
            Ok(_) => refused(&other.name, "equal_heads", "no exit brings the heads there"),
            Err(error) => refused(&other.name, "equal_heads", &error.to_string()),
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
    let own = &design.installation;
    let asked = args.presets.iter().map(|name| Preset::from(*name));
    let mut list: Vec<Alternative> = Vec::new();
    for preset in STANDING.into_iter().chain(asked) {
        let installation = preset.applied(own);
        let is_there = list.iter().any(|one| one.name == preset.name());
        if !is_there && !is_as_sealed(own, &installation) {
            list.push(Alternative {
                name: preset.name().to_owned(),
                installation,
            });
        }
    }
    list.extend(design.alternatives.iter().cloned());
    list
}

/// Whether a change leaves an installation as it is, to rounding.
fn is_as_sealed(own: &Installation, changed: &Installation) -> bool {
    let mut sealed = own.clone();
    sealed.decks = changed.decks.clone();
    let (before, after) = (own.decks.seal_area_m2(), changed.decks.seal_area_m2());
    let alike =
        own.decks.sealing == changed.decks.sealing && (before - after).abs() <= 1e-9 * before.abs();
    alike && sealed == *changed
}

/// The design and the conditions in which it is compared.
struct Against<'a> {
    design: &'a Design,
    place: usize,
    /// The first level condition, for the speed.
    level: Option<usize>,
}

impl Against<'_> {
    fn row(&self, name: &str, exit: &str, other: &Installation) -> Value {
        let shown = match difference(self.design, other, self.place) {
            Ok(shown) => shown,
            Err(error) => return refused(name, exit, &error.to_string()),
        };
        let level = self
            .level
            .map(|level| (level, difference(self.design, other, level)));
        let within = shown.within_uncertainty();
        let mut row = json!({
            "alternative": name,
            "exit": exit,
            "exit_m2": exit_m2(other),
            "condition": self.design.conditions[self.place].name,
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
        if let Some((level, Ok(found))) = &level {
            let within = found.within_uncertainty().speed;
            tell("speed", "m_s", found.by.speed, found.band.speed, within);
            row["level_condition"] = json!(self.design.conditions[*level].name);
        }
        row
    }
}

fn refused(name: &str, exit: &str, why: &str) -> Value {
    json!({ "alternative": name, "exit": exit, "error": why })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::batch::args::DesignArgs;
    use crate::batch::presets::PresetName;
    use coolpath_core::document::example;
    use coolpath_web::decide::compare::words::{Comparing, standing};
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
            let mut work = Comparing::new(&design, &other, 1);
            let mut page = None;
            while !work.is_done() {
                page = work.advance().or(page);
            }
            let page = page.expect("a comparison");
            let (fixed, equal) = (&rows[2 * at], &rows[2 * at + 1]);
            assert_eq!(fixed["alternative"], page.name);
            let shown = page.fixed.shown.as_ref().expect("a difference");
            assert_eq!(fixed["head_k"].as_f64(), Some(shown.by.head));
            assert_eq!(
                fixed["drag_high_n"].as_f64(),
                Some(shown.by.drag + shown.band.drag.above)
            );
            let stand = page.equal.as_ref().expect("an exit");
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
