//! Computed numbers against expected ones, by a tolerance each.

use std::fmt::Display;

use crate::table::rows::{Row, half_last_digit};

/// Greatest absolute difference that still passes.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Tolerance(f64);

impl Tolerance {
    /// A difference in the unit of the numbers compared.
    ///
    /// # Panics
    /// If the difference is negative or not finite.
    #[must_use]
    pub fn absolute(difference: f64) -> Self {
        assert!(
            difference.is_finite() && difference >= 0.0,
            "a tolerance must be at least 0, not {difference}"
        );
        Self(difference)
    }

    /// Half a unit in the last digit of a number as printed.
    ///
    /// # Panics
    /// If the text is no number.
    #[must_use]
    pub fn printed(number: &str) -> Self {
        match half_last_digit(number) {
            Some(half) => Self(half),
            None => panic!("`{number}` is no number"),
        }
    }
}

/// Gathers comparisons and fails with the worst of them.
///
/// # Panics
/// If any comparison is off by more than its tolerance, or if none was made.
pub fn compare(claim: &str, gather: impl FnOnce(&mut Comparison)) {
    let mut comparison = Comparison::default();
    gather(&mut comparison);
    if let Err(message) = comparison.verdict() {
        panic!("{claim}: {message}");
    }
}

/// What [`compare`] has gathered so far.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Comparison {
    made: usize,
    failed: usize,
    worst: Option<Miss>,
}

#[derive(Debug, Clone, PartialEq)]
struct Miss {
    place: String,
    actual: f64,
    expected: String,
    difference: f64,
    tolerance: f64,
}

impl Miss {
    /// Difference in units of the tolerance; anything that is no number is worst of all.
    fn severity(&self) -> f64 {
        if self.difference.is_nan() {
            f64::INFINITY
        } else if self.tolerance > 0.0 {
            self.difference / self.tolerance
        } else {
            f64::MAX
        }
    }
}

impl Comparison {
    /// Compares with an expected number.
    pub fn value(&mut self, place: impl Display, actual: f64, expected: f64, tolerance: Tolerance) {
        let difference = (actual - expected).abs();
        self.judge(place, actual, expected.to_string(), difference, tolerance);
    }

    /// Compares with the cell of a row, by half the last digit printed there.
    pub fn cell(&mut self, row: &Row<'_>, column: &str, actual: f64) {
        let tolerance = Tolerance(row.half_last_digit(column));
        let place = format!("{row}, column `{column}`");
        self.value(place, actual, row.number(column), tolerance);
    }

    /// Compares with a row that has the columns `role`, `value` and `tolerance`.
    ///
    /// The role `value` asks for the number itself, `low` for no less and `high` for no more.
    ///
    /// # Panics
    /// If the role is another one.
    pub fn row(&mut self, row: &Row<'_>, actual: f64) {
        let tolerance = Tolerance::absolute(row.number("tolerance"));
        let expected = row.number("value");
        match row.text("role") {
            "value" => self.value(row, actual, expected, tolerance),
            "low" => self.at_least(row, actual, expected, tolerance),
            "high" => self.at_most(row, actual, expected, tolerance),
            role => panic!("{row}, column `role`: `{role}` is none of value, low, high"),
        }
    }

    /// Requires a number no less than `low`.
    pub fn at_least(&mut self, place: impl Display, actual: f64, low: f64, tolerance: Tolerance) {
        let expected = format!("at least {low}");
        self.judge(place, actual, expected, low - actual, tolerance);
    }

    /// Requires a number no more than `high`.
    pub fn at_most(&mut self, place: impl Display, actual: f64, high: f64, tolerance: Tolerance) {
        let expected = format!("at most {high}");
        self.judge(place, actual, expected, actual - high, tolerance);
    }

    fn judge(
        &mut self,
        place: impl Display,
        actual: f64,
        expected: String,
        difference: f64,
        Tolerance(tolerance): Tolerance,
    ) {
        self.made += 1;
        if difference <= tolerance {
            return;
        }
        self.failed += 1;
        let miss = Miss {
            place: place.to_string(),
            actual,
            expected,
            difference,
            tolerance,
        };
        if !matches!(&self.worst, Some(worst) if worst.severity() >= miss.severity()) {
            self.worst = Some(miss);
        }
    }

    /// Passes, or names the worst case.
    ///
    /// # Errors
    /// The message, if a comparison failed or none was made.
    pub fn verdict(&self) -> Result<(), String> {
        if self.made == 0 {
            return Err("nothing was compared".to_owned());
        }
        let Some(worst) = &self.worst else {
            return Ok(());
        };
        Err(format!(
            "{} of {} comparisons failed; worst is {}: {} instead of {}, off by {:e}, tolerance {:e}",
            self.failed,
            self.made,
            worst.place,
            worst.actual,
            worst.expected,
            worst.difference,
            worst.tolerance
        ))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::table::sample::{message, sample};

    #[test]
    fn differences_up_to_the_tolerance_pass() {
        let mut comparison = Comparison::default();
        comparison.value("edge", 1.5, 1.0, Tolerance::absolute(0.5));
        comparison.value("exact", 2.0, 2.0, Tolerance::absolute(0.0));
        comparison.at_least("low", 3.0, 3.0, Tolerance::absolute(0.0));
        comparison.at_most("high", 2.9, 3.0, Tolerance::absolute(0.0));
        assert_eq!(comparison.verdict(), Ok(()));
    }

    #[test]
    fn the_worst_case_is_reported_with_its_tolerance() {
        let mut comparison = Comparison::default();
        comparison.value("first", 1.2, 1.0, Tolerance::absolute(0.1));
        comparison.value("second", 100.0, 103.0, Tolerance::absolute(0.5));
        comparison.value("third", 7.0, 7.0, Tolerance::absolute(0.5));
        assert_eq!(
            comparison.verdict(),
            Err(
                "2 of 3 comparisons failed; worst is second: 100 instead of 103, off by 3e0, \
                 tolerance 5e-1"
                    .to_owned()
            )
        );
    }

    #[test]
    fn what_is_no_number_fails() {
        let tolerance = Tolerance::absolute(1e9);
        for judge in [
            (|c, t| Comparison::value(c, "here", f64::NAN, 1.0, t)) as fn(&mut Comparison, _),
            |c, t| c.at_least("here", f64::NAN, 1.0, t),
            |c, t| c.at_most("here", f64::INFINITY, 1.0, t),
        ] {
            let mut comparison = Comparison::default();
            comparison.value("elsewhere", 1e10, 0.0, Tolerance::absolute(0.0));
            judge(&mut comparison, tolerance);
            let said = comparison.verdict().expect_err("it passed");
            assert!(said.starts_with("2 of 2"), "{said}");
        }
    }

    #[test]
    fn no_comparison_at_all_fails() {
        let said = message(|| compare("everything agrees", |_| {}));
        assert_eq!(said, "everything agrees: nothing was compared");
    }

    #[test]
    fn rows_are_judged_by_their_role() {
        let table = sample();
        let mut comparison = Comparison::default();
        comparison.row(&table.row("A1"), 12.505);
        comparison.row(&table.row("A2"), 310.0);
        comparison.cell(&table.row("A1"), "value", 12.504);
        assert_eq!(comparison.verdict(), Ok(()));

        comparison.row(&table.row("A2"), 299.0);
        let said = comparison.verdict().expect_err("it passed");
        assert!(said.contains("sample.csv line 3 (A2): 299 instead of at least 300"));
    }

    #[test]
    fn negative_tolerances_are_refused() {
        let said = message(|| {
            let _ = Tolerance::absolute(-1.0);
        });
        assert!(said.starts_with("a tolerance must be at least 0"), "{said}");
    }
}
