//! Sessions: the stretches of a log between two starts of its clock.

use crate::document::quantity::Quantity;
use crate::prove::log::cells::Cells;
use crate::prove::log::clean::{Channel, channel, judge_heads};
use crate::prove::log::columns::ColumnUse;
use crate::prove::log::table::LogTable;
use core::ops::Range;

/// A step back by less is a clock that was set, s (from memory: a monitor corrects its clock by
/// seconds when it first hears a satellite).
const SET_BACK_S: f64 = 120.0;
/// A step back by no more than this is a clock that trembles, s.
const TREMBLE_S: f64 = 1.0;
/// A step of the clock forward that begins another session, s.
const GAP_S: f64 = 600.0;
/// A step back of about one day is midnight, to so many seconds.
const MIDNIGHT_S: f64 = 300.0;
const DAY_S: f64 = 86_400.0;
/// Fewest rows of a session.
const FEWEST_ROWS: usize = 2;

/// One session of a log.
#[derive(Debug, Clone, PartialEq)]
pub struct Session {
    /// Rows of the table.
    pub rows: Range<usize>,
    /// Time of each row since the first, s, never falling.
    pub seconds: Vec<f64>,
    /// Its quantities.
    pub channels: Vec<Channel>,
}

/// A quantity, SI, by the time, s.
#[cfg(test)]
pub(super) type Course = fn(f64) -> f64;

impl Session {
    /// A made-up session of one row a second, its quantities by the time, s.
    #[cfg(test)]
    pub(super) fn made(rows: u32, channels: &[(Quantity, Course)]) -> Self {
        let seconds: Vec<f64> = (0..rows).map(f64::from).collect();
        Self {
            rows: 0..seconds.len(),
            channels: channels
                .iter()
                .map(|&(quantity, of)| Channel {
                    quantity,
                    values: seconds.iter().copied().map(of).collect(),
                    set_aside: Vec::new(),
                    fate: super::clean::Fate::Kept,
                })
                .collect(),
            seconds,
        }
    }

    /// The sessions of a table.
    ///
    /// # Arguments
    /// * `row_s` - time from row to row where no column is the clock, s
    #[must_use]
    pub fn all(table: &LogTable, uses: &[ColumnUse], row_s: f64) -> Vec<Self> {
        let mut sessions = Self::bare(table, uses, row_s);
        for session in &mut sessions {
            for at in 0..uses.len() {
                session.add_column(table, uses, at);
            }
            session.judge();
        }
        sessions
    }

    /// The same without quantities: [`Session::add_column`] adds them, so that the work can be cut.
    #[must_use]
    pub fn bare(table: &LogTable, uses: &[ColumnUse], row_s: f64) -> Vec<Self> {
        let clock = uses
            .iter()
            .position(|used| *used == ColumnUse::Clock)
            .and_then(|at| table.columns.get(at));
        let times: Vec<f64> = match clock {
            Some(column) => filled(&column.values),
            None => (0..table.rows).map(|row| row as f64 * row_s).collect(),
        };
        split(&times)
            .into_iter()
            .filter(|(rows, _)| rows.len() >= FEWEST_ROWS)
            .map(|(rows, seconds)| Self {
                rows,
                seconds,
                channels: Vec::new(),
            })
            .collect()
    }

    /// Takes a column in, if it holds a quantity: without spikes and impossible values.
    pub fn add_column(&mut self, table: &LogTable, uses: &[ColumnUse], at: usize) {
        if let (Some(column), Some(ColumnUse::Quantity(quantity, unit))) =
            (table.columns.get(at), uses.get(at))
        {
            let values = column
                .values
                .rows(self.rows.clone())
                .map(|value| unit.to_si(value))
                .collect();
            self.channels
                .push(channel(*quantity, values, &self.seconds));
        }
    }

    /// Judges the heads against each other, when all columns are in.
    pub fn judge(&mut self) {
        self.channels.sort_by_key(|channel| channel.quantity);
        judge_heads(&mut self.channels);
    }

    /// A quantity's channel.
    #[must_use]
    pub fn channel(&self, quantity: Quantity) -> Option<&Channel> {
        self.channels
            .iter()
            .find(|channel| channel.quantity == quantity)
    }

    /// Its length, s.
    #[must_use]
    pub fn duration_s(&self) -> f64 {
        self.seconds.last().copied().unwrap_or(0.0)
    }

    /// The rows between two times, s.
    #[must_use]
    pub fn rows_between(&self, from_s: f64, to_s: f64) -> Range<usize> {
        let at = |time: f64| self.seconds.partition_point(|seconds| *seconds < time);
        at(from_s)..at(to_s).max(at(from_s))
    }

    /// Mean of a channel over some of its rows; `None` if it has no value there.
    #[must_use]
    pub fn mean(&self, channel: &Channel, rows: Range<usize>) -> Option<f64> {
        let values = channel.values.get(rows)?;
        let (mut sum, mut count) = (0.0, 0_u32);
        for value in values.iter().filter(|value| value.is_finite()) {
            sum += value;
            count += 1;
        }
        (count > 0).then(|| sum / f64::from(count))
    }

    /// Slope of a channel between two times, SI per second, by least squares; `None` with too few
    /// values.
    #[must_use]
    pub fn slope(&self, channel: &Channel, from_s: f64, to_s: f64) -> Option<f64> {
        let middle = 0.5 * (from_s + to_s);
        let (mut count, mut t, mut x, mut tt, mut tx) = (0.0, 0.0, 0.0, 0.0, 0.0);
        for row in self.rows_between(from_s, to_s) {
            let value = channel.values[row];
            if value.is_finite() {
                let time = self.seconds[row] - middle;
                count += 1.0;
                t += time;
                x += value;
                tt += time * time;
                tx += time * value;
            }
        }
        let spread = count * tt - t * t;
        (count > 2.0 && spread > 0.0).then(|| (count * tx - t * x) / spread)
    }
}

/// Times with each missing one taken from the row before.
fn filled(times: &Cells) -> Vec<f64> {
    let mut last = times.iter().find(|t| t.is_finite()).unwrap_or(0.0);
    times
        .iter()
        .map(|time| {
            if time.is_finite() {
                last = time;
            }
            last
        })
        .collect()
}

/// Whether a step of the clock, s, after so many seconds of a session begins another one: a long
/// pause, or a clock that goes back to where the session began, or by minutes.
fn is_restart(step_s: f64, now_s: f64) -> bool {
    step_s > GAP_S || step_s <= -SET_BACK_S || (step_s < -TREMBLE_S && now_s + step_s <= TREMBLE_S)
}

/// Rows of each session and their times since its start.
fn split(times: &[f64]) -> Vec<(Range<usize>, Vec<f64>)> {
    let mut sessions = Vec::new();
    let mut begin = 0;
    let mut seconds: Vec<f64> = Vec::new();
    let mut now = 0.0;
    for (row, &time) in times.iter().enumerate() {
        if row > begin {
            let step = time - times[row - 1];
            if (step + DAY_S).abs() < MIDNIGHT_S {
                now += step + DAY_S;
            } else if is_restart(step, now) {
                sessions.push((begin..row, core::mem::take(&mut seconds)));
                begin = row;
                now = 0.0;
            } else {
                // Clocks that are set back stand still instead.
                now += step.max(0.0);
            }
        }
        seconds.push(now);
    }
    if !seconds.is_empty() {
        sessions.push((begin..times.len(), seconds));
    }
    sessions
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_clock_that_restarts_begins_a_session_and_midnight_does_not() {
        let found = split(&[86_398.0, 86_399.0, 0.0, 1.0, 0.0, 0.5, 0.5, 900.0, 901.0]);
        let shown: Vec<(Range<usize>, Vec<f64>)> = vec![
            (0..4, vec![0.0, 1.0, 2.0, 3.0]),
            (4..7, vec![0.0, 0.5, 0.5]),
            (7..9, vec![0.0, 1.0]),
        ];
        // One second back is a clock that was set, not a restart.
        assert_eq!(
            found,
            [
                (0..7, vec![0.0, 1.0, 2.0, 3.0, 3.0, 3.5, 3.5]),
                shown[2].clone()
            ]
        );
        let found = split(&[5.0, 6.0, 7.0, 8.0, 9.0, 5.0, 6.0]);
        assert_eq!(found.len(), 2, "back to where it began: {found:?}");
        // Five seconds back in the middle: the clock was corrected.
        let found = split(&[10.0, 11.0, 20.0, 30.0, 25.0, 26.0]);
        assert_eq!(found, [(0..6, vec![0.0, 1.0, 10.0, 20.0, 20.0, 21.0])]);
        let found = split(&[5.0, 6.0, 0.0, 1.0]);
        assert_eq!(found, [(0..2, vec![0.0, 1.0]), (2..4, vec![0.0, 1.0])]);
    }
}
