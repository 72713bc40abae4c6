//! Rows of `reference/reports.csv`.

use super::measure::Measure;
use crate::table::Table;

/// What kind of number was reported.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A temperature.
    Level,
    /// By how much it changed.
    Change,
}

/// On which side the truth may lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bound {
    /// It was reported as it was.
    None,
    /// No more than this.
    AtMost,
    /// No less than this.
    AtLeast,
}

/// One reported number.
#[derive(Debug, Clone)]
pub struct Report {
    /// Its own id.
    pub id: String,
    /// Level or change.
    pub kind: Kind,
    /// Group that it is counted in.
    pub group: String,
    /// What was reported.
    pub figure: Measure,
    /// Low end, °F or mph.
    pub low: f64,
    /// High end, °F or mph.
    pub high: f64,
    /// On which side the truth may lie.
    pub bound: Bound,
    /// `yes`, `no`, or `apart`: reported by itself.
    pub judged: String,
    /// Condition in words.
    pub condition: String,
}

impl Report {
    /// Middle of what was reported, °F or mph.
    #[must_use]
    pub fn middle(&self) -> f64 {
        0.5 * (self.low + self.high)
    }

    /// As it is shown.
    #[must_use]
    pub fn shown(&self) -> String {
        let sign = self.kind == Kind::Change;
        let number = |value: f64| {
            if sign {
                format!("{value:+.0}")
            } else {
                format!("{value:.0}")
            }
        };
        let range = if self.low < self.high {
            format!("{} to {}", number(self.low), number(self.high))
        } else {
            number(self.low)
        };
        match self.bound {
            Bound::None => range,
            Bound::AtMost => format!("at most {range}"),
            Bound::AtLeast => format!("at least {range}"),
        }
    }
}

/// All reports, in their order.
///
/// # Panics
/// If the table is malformed.
#[must_use]
pub fn reports() -> Vec<Report> {
    let table = Table::read("reports");
    table
        .rows()
        .map(|row| Report {
            id: row.text("id").to_owned(),
            kind: match row.text("kind") {
                "level" => Kind::Level,
                "change" => Kind::Change,
                other => panic!("{row}: `{other}` is neither level nor change"),
            },
            group: row.text("group").to_owned(),
            figure: Measure::named(row.text("figure")),
            low: row.number("low"),
            high: row.number("high"),
            bound: match row.text("bound") {
                "" => Bound::None,
                "at_most" => Bound::AtMost,
                "at_least" => Bound::AtLeast,
                other => panic!("{row}: `{other}` is no bound"),
            },
            judged: row.text("judged").to_owned(),
            condition: row.text("condition").to_owned(),
        })
        .collect()
}
