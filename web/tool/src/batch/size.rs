//! `coolpath size`: openings that hold the limits.

use crate::batch::args::{Find, SizeArgs, Which};
use crate::batch::{BatchError, Printed, place};
use coolpath_core::decide::size::course::{Question, Seek, Sized, Sizes, Sizing};
use coolpath_core::decide::size::least_chance;
use coolpath_core::decide::size::{Bounds, Margin, SizeError, Wanted, cruise_drag_n};
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::areas::{exit_m2, inlets_m2};
use coolpath_core::units::typed::{Dimension, UnitSystem, rounded_text};
use serde_json::{Value, json};

/// What was found, or the design with it.
///
/// # Errors
/// [`BatchError`] if the design has no such condition, or there is no size to apply.
pub fn printed(design: &Design, args: &SizeArgs) -> Result<Printed, BatchError> {
    let question = question(design, args)?;
    let found = Sizing::new(design.clone(), question).finished();
    if let Some(which) = args.apply {
        return applied(design, found, which);
    }
    let mut rows = vec![present(design)];
    rows.push(row("nominal", design, &found.nominal));
    rows.extend(
        found
            .robust
            .iter()
            .map(|robust| row("robust", design, robust)),
    );
    let remedies = found.helping().iter().map(|remedy| {
        let mut row = json!({
            "change": remedy.change,
            "condition": condition(design, &remedy.margin),
        });
        row[format!("gain_{}", unit(&remedy.margin))] = json!(remedy.gain);
        row[format!("margin_{}", unit(&remedy.margin))] = json!(remedy.margin.by);
        row
    });
    let value = if args.of.csv {
        Value::Array(rows)
    } else {
        let mut value = json!({ "sizes": rows, "remedies": remedies.collect::<Vec<_>>() });
        if let Err(error) = &found.remedies {
            value["remedies_error"] = json!(error.to_string());
        }
        value
    };
    Ok(Printed {
        value,
        first: &[
            "size",
            "error",
            "inlets_m2",
            "exit_m2",
            "exit_inlet_area_ratio",
        ],
        whole: found.nominal.is_ok(),
    })
}

fn question(design: &Design, args: &SizeArgs) -> Result<Question, BatchError> {
    let installation = &design.installation;
    let usual = Bounds::usual(installation);
    let bounds = |given: Option<(f64, f64)>, keep: bool, own: f64, usual: (f64, f64)| match given {
        Some(given) => given,
        None if keep => (own, own),
        None => (shown(usual.0), shown(usual.1)),
    };
    let keep_exit = args.keep_exit || args.find == Find::Inlets;
    Ok(Question {
        seek: match args.find {
            Find::Exit => Seek::Exit,
            Find::Both | Find::Inlets => Seek::Both,
            Find::Flap => Seek::Flap,
            Find::Ratio => Seek::Ratio,
        },
        bounds: Bounds {
            inlets_m2: bounds(
                args.inlets_m2,
                args.keep_inlets,
                inlets_m2(installation),
                usual.inlets_m2,
            ),
            exit_m2: bounds(
                args.exit_m2,
                keep_exit,
                exit_m2(installation),
                usual.exit_m2,
            ),
        },
        chance: args.chance,
        least_drop_pa: args.least_drop_pa,
        ratio: args.ratio,
        turn_around: None,
        ratio_condition: match &args.condition {
            Some(asked) => place(design, asked)?,
            None => design.first_level().unwrap_or(0),
        },
    })
}

/// An area as the page's field would hold it, which begins with three digits in square inches.
fn shown(area_m2: f64) -> f64 {
    let unit = Dimension::Area.shown(UnitSystem::Customary);
    let text = rounded_text(unit.from_si(area_m2), 3);
    text.parse().map_or(area_m2, |value| unit.to_si(value))
}

fn applied(design: &Design, found: Sizes, which: Which) -> Result<Printed, BatchError> {
    let sized = match which {
        Which::Nominal => found.nominal?,
        Which::Robust => found.robust.ok_or(BatchError::NothingRobust)??,
    };
    Ok(Printed {
        value: json!(sized.applied(design)),
        first: &[],
        whole: true,
    })
}

fn present(design: &Design) -> Value {
    let mut row = openings(design);
    row["size"] = json!("present");
    row["cruise_drag_n"] = json!(cruise_drag_n(design, &design.installation).ok());
    row
}

fn openings(design: &Design) -> Value {
    let (inlets, exit) = (
        inlets_m2(&design.installation),
        exit_m2(&design.installation),
    );
    json!({
        "inlets_m2": inlets,
        "exit_m2": exit,
        "exit_inlet_area_ratio": exit / inlets,
        "chance_inside": least_chance(design),
    })
}

fn row(size: &str, design: &Design, found: &Result<Sized, SizeError>) -> Value {
    let mut row = match found {
        Err(error) => refused(design, error),
        Ok(sized) => {
            let mut row = openings(&sized.applied(design));
            match sized {
                Sized::Openings(found) => {
                    row["cruise_drag_n"] = json!(found.cruise_drag_n);
                    tell(&mut row, "", design, &found.binding);
                }
                Sized::Flap(flap) => {
                    row["flap_closed_m2"] = json!(flap.closed_m2);
                    row["flap_open_m2"] = json!(flap.open_m2);
                    row["fixed_exit_m2"] = json!(flap.fixed_m2);
                    row["saved_m_s"] = json!(flap.saved_m_s);
                    tell(&mut row, "closed_", design, &flap.closed_binding);
                    tell(&mut row, "open_", design, &flap.open_binding);
                }
            }
            row
        }
    };
    row["size"] = json!(size);
    row
}

fn refused(design: &Design, error: &SizeError) -> Value {
    let mut row = json!({ "error": error.to_string() });
    if let SizeError::OutOfReach {
        shortfall,
        inlets_m2,
        exit_m2,
    } = error
    {
        row["best_inlets_m2"] = json!(inlets_m2);
        row["best_exit_m2"] = json!(exit_m2);
        tell(&mut row, "", design, shortfall);
    }
    row
}

/// Adds a margin to a row: what binds, where, and by how much.
fn tell(row: &mut Value, prefix: &str, design: &Design, margin: &Margin) {
    row[format!("{prefix}binding_limit")] = json!(match margin.wanted {
        Wanted::Limit(limit) => limit.name(),
        Wanted::Drop => "baffle_dp",
    });
    row[format!("{prefix}binding_condition")] = condition(design, margin);
    row[format!("{prefix}margin_{}", unit(margin))] = json!(margin.by);
}

fn unit(margin: &Margin) -> &'static str {
    match margin.wanted {
        Wanted::Limit(_) => "k",
        Wanted::Drop => "pa",
    }
}

fn condition(design: &Design, margin: &Margin) -> Value {
    let found = design.conditions.get(margin.condition);
    json!(found.map(|condition| &condition.name))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::batch::args::{DesignArgs, Find};
    use coolpath_core::decide::size::USUAL_VELOCITY_RATIO;
    use coolpath_core::decide::size::map::Mapping;
    use coolpath_core::document::example;
    use coolpath_web::decide::size::request::Request;
    use std::path::PathBuf;

    fn args(find: Find) -> SizeArgs {
        SizeArgs {
            of: DesignArgs {
                design: PathBuf::new(),
                csv: false,
            },
            find,
            inlets_m2: None,
            exit_m2: None,
            keep_inlets: false,
            keep_exit: false,
            chance: 0.9,
            least_drop_pa: 0.0,
            ratio: USUAL_VELOCITY_RATIO,
            condition: None,
            apply: None,
        }
    }

    /// The example with higher limits, so that a size holds them with a chance, too.
    fn lenient() -> Design {
        let mut design = example::design();
        design.installation.engine.head_limit.value += 60.0;
        design.installation.engine.oil_limit.value += 30.0;
        design.measured.push("airframe.propeller_share".to_owned());
        design
    }

    /// One question has one answer, on the page and on the command line, to the bit.
    #[test]
    fn sizes_are_the_pages_own() {
        let mut robust = 0;
        for design in [example::design(), lenient()] {
            for (find, seek) in [
                (Find::Exit, Seek::Exit),
                (Find::Both, Seek::Both),
                (Find::Flap, Seek::Flap),
                (Find::Ratio, Seek::Ratio),
                (Find::Inlets, Seek::Both),
            ] {
                let mut request = Request::of(&design, UnitSystem::Customary);
                request.exit_locked = find == Find::Inlets;
                let asked = request
                    .question(seek, &design, UnitSystem::Customary)
                    .expect("numbers");
                let page = Mapping::new(design.clone(), asked).finished().sizes;
                let question = question(&design, &args(find)).expect("a question");
                let found = Sizing::new(design.clone(), question).finished();
                let own = |sized: &Result<Sized, SizeError>| {
                    sized.clone().map(|sized| sized.applied(&design))
                };
                assert_eq!(own(&found.nominal), own(&page.nominal), "{find:?}");
                assert_eq!(
                    found.robust.as_ref().map(own),
                    page.robust.as_ref().map(own),
                    "{find:?}"
                );
                assert_eq!(found.remedies, page.remedies, "{find:?}");
                if let Ok(sized) = &found.nominal {
                    let chance = least_chance(&sized.applied(&design));
                    assert_eq!(chance, page.nominal_chance, "{find:?}");
                }
                if let Some(Ok(sized)) = &found.robust {
                    let chance = least_chance(&sized.applied(&design));
                    assert_eq!(chance, page.robust_chance, "{find:?}");
                    robust += 1;
                }
            }
        }
        assert!(robust > 0, "some size holds with a chance");
    }

    #[test]
    fn a_size_can_be_applied_and_what_was_not_found_cannot() {
        let design = example::design();
        let mut asked = args(Find::Exit);
        asked.apply = Some(Which::Nominal);
        let sized = printed(&design, &asked).expect("a design").value;
        let sized: Design = serde_json::from_value(sized).expect("a design");
        assert!(sized.check().is_ok());
        assert_ne!(exit_m2(&sized.installation), exit_m2(&design.installation));
        asked.find = Find::Ratio;
        asked.apply = Some(Which::Robust);
        let error = printed(&design, &asked).expect_err("none");
        assert!(error.is_wrong_usage());
    }

    #[test]
    fn a_size_out_of_reach_is_told_with_what_would_mend_it() {
        let mut asked = args(Find::Exit);
        asked.exit_m2 = Some((0.001, 0.002));
        let printed = printed(&example::design(), &asked);
        let told = printed.map(|printed| (printed.whole, printed.value));
        let (whole, value) = told.expect("an answer");
        assert!(!whole);
        assert!(value["sizes"][1]["error"].is_string(), "{value:#}");
    }
}
