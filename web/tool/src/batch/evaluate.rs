//! `coolpath evaluate`: every condition of a design solved.

use crate::batch::Printed;
use coolpath_core::answer::record::{Record, records};
use coolpath_core::answer::solved::EvaluateError;
use coolpath_core::document::design::Design;
use serde_json::json;

/// The answers of all conditions.
///
/// # Errors
/// [`EvaluateError`] if the design is refused.
pub fn printed(design: &Design) -> Result<Printed, EvaluateError> {
    let records = records(design)?;
    Ok(Printed {
        whole: records
            .iter()
            .all(|record| matches!(record, Record::Answered(_))),
        value: json!(records),
        first: &["condition", "verdict", "chance_inside", "error"],
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::batch::table;
    use coolpath_core::document::example;

    #[test]
    fn a_condition_without_an_answer_is_named_and_the_others_are_printed() {
        let mut design = example::design();
        design.conditions.truncate(2);
        assert!(printed(&design).expect("answers").whole);
        // Standing still without the propeller's help: nothing drives the air.
        design.installation.airframe.propeller_share_rest = 0.0;
        let printed = printed(&design).expect("answers");
        assert!(!printed.whole);
        assert!(printed.value[0]["error"].is_string());
        assert!(printed.value[1]["head_hottest_k"].is_f64());
        let text = table::csv(&printed.value, printed.first).expect("a table");
        assert!(text.starts_with("condition,verdict,chance_inside,error,"));
        assert_eq!(text.lines().count(), 3);
    }
}
