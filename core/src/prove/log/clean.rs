//! What the probes gave, without what they cannot have measured.

use crate::document::quantity::Quantity;
use crate::math::order;
use crate::prove::sick::COLD_EXHAUST_K;
use crate::units::si::deltaf;

/// Most that a temperature may stand off the median of its neighbours in time, K: a head or an oil
/// sump cannot move faster (from memory).
const SPIKE_K: f64 = 12.0;
/// Rows on either side whose median judges a row.
const NEIGHBOURS: usize = 3;
/// Heads and oil do not move farther than this within [`SOON_S`]: 20 °F in 3 s (from memory).
const JUMP_K: f64 = deltaf(20.0);
/// See [`JUMP_K`], s.
const SOON_S: f64 = 3.0;
/// Farther apart in time they may move by so much more, K/s: faster than any head warms at take-off
/// (from memory).
const FASTEST_K_S: f64 = 1.0;
/// What stands elsewhere for so long is a level of its own and no glitch, s (from memory).
const LEVEL_S: f64 = 60.0;
/// A head so far below the median of the others is no head's temperature, K (from memory).
const DEAD_BELOW_K: f64 = 70.0;
/// A head so far off the median of the others is doubtful, K (from memory).
const DOUBTFUL_K: f64 = 28.0;
/// A probe that moves less than this while another moves by [`ALIVE_K`] is dead, K.
const STILL_K: f64 = 0.3;
/// See [`STILL_K`], K.
const ALIVE_K: f64 = 20.0;
/// Below this no engine runs: head above 60 °C tells it, K.
const WARM_K: f64 = 333.15;

/// What became of a channel.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fate {
    /// Kept.
    Kept,
    /// Kept, but far from its neighbours.
    Doubtful,
    /// Set aside whole: it does not move, or stands where no head is.
    Dead,
}

/// Why a value was set aside.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Why {
    /// The quantity cannot have it.
    Impossible,
    /// Metal and oil do not get there and back so fast.
    TooFast,
}

/// A value that was set aside.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SetAside {
    /// Its row in the session.
    pub row: usize,
    /// What was read, SI.
    pub value: f64,
    /// Why it cannot be.
    pub why: Why,
}

/// One quantity of a session.
#[derive(Debug, Clone, PartialEq)]
pub struct Channel {
    /// The quantity.
    pub quantity: Quantity,
    /// Its values, SI; NaN where there is none or it was set aside.
    pub values: Vec<f64>,
    /// Rows that were set aside, in their order.
    pub set_aside: Vec<SetAside>,
    /// What became of it.
    pub fate: Fate,
}

/// A quantity's values, SI, cleaned; `seconds` are the times of its rows.
pub(super) fn channel(quantity: Quantity, mut values: Vec<f64>, seconds: &[f64]) -> Channel {
    let mut set_aside = Vec::new();
    let (least, most) = quantity.permitted();
    let rows: Vec<usize> = (0..values.len())
        .filter(|row| {
            let value = values[*row];
            value.is_finite() && !(value >= least && value <= most)
        })
        .collect();
    take_out(&mut values, &rows, Why::Impossible, &mut set_aside);
    // Only these cannot jump.
    if quantity.is_head() || quantity == Quantity::Oil {
        let rows = jumps(&values, seconds);
        take_out(&mut values, &rows, Why::TooFast, &mut set_aside);
        let rows: Vec<usize> = spikes(&values).iter().map(|(row, _)| *row).collect();
        take_out(&mut values, &rows, Why::TooFast, &mut set_aside);
    }
    order::by_number(&mut set_aside, |one| one.row as f64);
    Channel {
        quantity,
        values,
        set_aside,
        fate: Fate::Kept,
    }
}

fn take_out(values: &mut [f64], rows: &[usize], why: Why, set_aside: &mut Vec<SetAside>) {
    for &row in rows {
        set_aside.push(SetAside {
            row,
            value: values[row],
            why,
        });
        values[row] = f64::NAN;
    }
}

/// Rows between two jumps that no metal makes.
#[derive(Debug, Clone)]
struct Piece {
    rows: Vec<usize>,
}

impl Piece {
    fn first(&self) -> usize {
        self.rows.first().copied().unwrap_or(0)
    }

    fn last(&self) -> usize {
        self.rows.last().copied().unwrap_or(0)
    }
}

/// Rows that stand, for less than [`LEVEL_S`], where what was read before or after cannot have got.
fn jumps(values: &[f64], seconds: &[f64]) -> Vec<usize> {
    let reaches = |from: usize, to: usize| {
        let apart_s = (seconds[to] - seconds[from]).abs();
        let most_k = JUMP_K + FASTEST_K_S * (apart_s - SOON_S).max(0.0);
        (values[to] - values[from]).abs() <= most_k
    };
    let mut pieces: Vec<Piece> = Vec::new();
    for row in (0..values.len().min(seconds.len())).filter(|row| values[*row].is_finite()) {
        match pieces.last_mut() {
            Some(piece) if reaches(piece.last(), row) => piece.rows.push(row),
            _ => pieces.push(Piece { rows: vec![row] }),
        }
    }
    // The longest is trusted; from there on to both ends.
    let Some(trusted) = (0..pieces.len()).max_by_key(|at| pieces[*at].rows.len()) else {
        return Vec::new();
    };
    let is_level = |piece: &Piece| seconds[piece.last()] - seconds[piece.first()] >= LEVEL_S;
    let mut found: Vec<usize> = Vec::new();
    let mut here = trusted;
    for next in trusted + 1..pieces.len() {
        if reaches(pieces[here].last(), pieces[next].first()) || is_level(&pieces[next]) {
            here = next;
        } else {
            found.extend(&pieces[next].rows);
        }
    }
    here = trusted;
    for next in (0..trusted).rev() {
        if reaches(pieces[here].first(), pieces[next].last()) || is_level(&pieces[next]) {
            here = next;
        } else {
            found.extend(&pieces[next].rows);
        }
    }
    found.sort_unstable();
    found
}

/// Values far from the median of their neighbours in time.
fn spikes(values: &[f64]) -> Vec<(usize, f64)> {
    let mut found = Vec::new();
    let mut near: Vec<f64> = Vec::with_capacity(2 * NEIGHBOURS + 1);
    for (row, &value) in values.iter().enumerate() {
        if !value.is_finite() {
            continue;
        }
        near.clear();
        let from = row.saturating_sub(NEIGHBOURS);
        let to = (row + NEIGHBOURS + 1).min(values.len());
        near.extend(values[from..to].iter().filter(|value| value.is_finite()));
        order::ascending(&mut near);
        if (value - near[near.len() / 2]).abs() > SPIKE_K {
            found.push((row, value));
        }
    }
    found
}

/// Smallest, median and largest of the finite values; `None` if there are none.
fn spread(values: &[f64]) -> Option<(f64, f64, f64)> {
    let mut sorted: Vec<f64> = values.iter().copied().filter(|v| v.is_finite()).collect();
    order::ascending(&mut sorted);
    Some((*sorted.first()?, sorted[sorted.len() / 2], *sorted.last()?))
}

/// Whether the exhaust of a head's cylinder stands far below the others.
fn has_cold_exhaust(channels: &[Channel], head: Quantity, rows: &[usize]) -> bool {
    let Some(place) = Quantity::HEADS.iter().position(|other| *other == head) else {
        return false;
    };
    let median = |quantity: Quantity| {
        let found = channels
            .iter()
            .find(|channel| channel.quantity == quantity)?;
        let values: Vec<f64> = rows.iter().map(|row| found.values[*row]).collect();
        Some(spread(&values)?.1)
    };
    let others: Vec<f64> = (0..Quantity::EGTS.len())
        .filter(|other| *other != place)
        .filter_map(|other| median(Quantity::EGTS[other]))
        .collect();
    match (median(Quantity::EGTS[place]), spread(&others)) {
        (Some(own), Some((_, usual, _))) => own < usual - COLD_EXHAUST_K,
        _ => false,
    }
}

/// Sets dead heads aside and notes doubtful ones.
pub(super) fn judge_heads(channels: &mut [Channel]) {
    let heads: Vec<usize> = (0..channels.len())
        .filter(|at| channels[*at].quantity.is_head())
        .collect();
    // The hottest head of each row tells when the engine was warm.
    let rows = channels.first().map_or(0, |channel| channel.values.len());
    let warm: Vec<usize> = (0..rows)
        .filter(|row| {
            heads
                .iter()
                .any(|head| channels[*head].values[*row] > WARM_K)
        })
        .collect();
    let of = |channel: &Channel| {
        let values: Vec<f64> = warm.iter().map(|row| channel.values[*row]).collect();
        spread(&values)
    };
    let spreads: Vec<Option<(f64, f64, f64)>> =
        heads.iter().map(|head| of(&channels[*head])).collect();
    let medians: Vec<f64> = spreads.iter().flatten().map(|spread| spread.1).collect();
    let Some((_, typical_k, _)) = spread(&medians) else {
        return;
    };
    let moves = |spread: &(f64, f64, f64)| spread.2 - spread.0;
    let most = spreads.iter().flatten().map(moves).fold(0.0, f64::max);
    let cold: Vec<bool> = heads
        .iter()
        .map(|head| has_cold_exhaust(channels, channels[*head].quantity, &warm))
        .collect();
    for ((head, found), cold) in heads.into_iter().zip(spreads).zip(cold) {
        let channel = &mut channels[head];
        channel.fate = match found {
            None => Fate::Dead,
            Some(spread) if most > ALIVE_K && moves(&spread) < STILL_K => Fate::Dead,
            // A head and an exhaust that are both cold are no two dead probes: it may not fire.
            Some((_, median, _)) if median < typical_k - DEAD_BELOW_K && cold => Fate::Kept,
            Some((_, median, _)) if median < typical_k - DEAD_BELOW_K => Fate::Dead,
            Some((_, median, _)) if (median - typical_k).abs() > DOUBTFUL_K => Fate::Doubtful,
            Some(_) => Fate::Kept,
        };
        if channel.fate == Fate::Dead {
            channel.values.fill(f64::NAN);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn head(quantity: Quantity, of: impl Fn(usize) -> f64) -> Channel {
        let seconds: Vec<f64> = (0..100).map(f64::from).collect();
        channel(quantity, (0..100).map(of).collect(), &seconds)
    }

    #[test]
    fn a_spike_is_set_aside_and_a_ramp_is_not() {
        let found = head(Quantity::Head1, |row| {
            if row == 50 { 500.0 } else { 400.0 + row as f64 }
        });
        let spike = SetAside {
            row: 50,
            value: 500.0,
            why: Why::TooFast,
        };
        assert_eq!(found.set_aside, [spike]);
        assert!(found.values[50].is_nan() && found.values[51] == 451.0);
    }

    #[test]
    fn a_glitch_of_many_rows_is_set_aside_and_a_level_of_its_own_is_not() {
        // Oil that stands 30 K higher for 25 s, in steps.
        let oil = |row: usize| match row {
            40..=52 => 390.0,
            53..=64 => 402.0,
            _ => 360.0 + 0.02 * row as f64,
        };
        let found = head(Quantity::Oil, oil);
        let rows: Vec<usize> = found.set_aside.iter().map(|one| one.row).collect();
        assert_eq!(rows, (40..=64).collect::<Vec<_>>());
        assert!(found.set_aside.iter().all(|one| one.why == Why::TooFast));
        assert!(found.values[39].is_finite() && found.values[65].is_finite());
        // At the beginning of a log too.
        let found = head(Quantity::Oil, |row| if row < 12 { 420.0 } else { 360.0 });
        assert_eq!(found.set_aside.len(), 12);
        // A minute and more at another level: a sensor that was moved, or a cut in the log.
        let seconds: Vec<f64> = (0..200).map(f64::from).collect();
        let levels = (0..200).map(|row| if row < 100 { 340.0 } else { 360.0 });
        let found = channel(Quantity::Oil, levels.collect(), &seconds);
        assert_eq!(found.set_aside, []);
        // Heads at take-off: 1.5 K a second.
        let found = head(Quantity::Head1, |row| 350.0 + 1.5 * row as f64);
        assert_eq!(found.set_aside, []);
    }

    #[test]
    fn idle_manifold_pressure_is_no_impossible_value_and_none_at_all_is() {
        let idle = crate::units::si::inhg(9.8);
        let found = head(Quantity::Manifold, |row| if row == 7 { 0.0 } else { idle });
        assert_eq!(found.set_aside.len(), 1);
        assert_eq!(found.set_aside[0].why, Why::Impossible);
    }

    #[test]
    fn a_dead_probe_goes_a_low_one_is_doubted_and_the_rest_stays() {
        let mut channels = vec![
            head(Quantity::Head1, |row| 420.0 + row as f64),
            head(Quantity::Head2, |row| 430.0 + row as f64),
            head(Quantity::Head3, |row| 425.0 + row as f64),
            head(Quantity::Head4, |_| 327.6),
            head(Quantity::Head5, |row| 385.0 + row as f64),
            head(Quantity::Head6, |_| f64::NAN),
        ];
        judge_heads(&mut channels);
        let fates: Vec<Fate> = channels.iter().map(|channel| channel.fate).collect();
        use Fate::{Dead, Doubtful, Kept};
        assert_eq!(fates, [Kept, Kept, Kept, Dead, Doubtful, Dead]);
        assert!(channels[3].values[10].is_nan());
    }
}
