//! What the probes gave, without what they cannot have measured.

use crate::document::quantity::Quantity;

/// Most that a temperature may stand off the median of its neighbours in time, K: a head or an oil
/// sump cannot move faster (from memory).
const SPIKE_K: f64 = 12.0;
/// Rows on either side whose median judges a row.
const NEIGHBOURS: usize = 3;
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

/// One quantity of a session.
#[derive(Debug, Clone, PartialEq)]
pub struct Channel {
    /// The quantity.
    pub quantity: Quantity,
    /// Its values, SI; NaN where there is none or it was set aside.
    pub values: Vec<f64>,
    /// Rows that were set aside as spikes or as no possible value, each with its value, SI.
    pub set_aside: Vec<(usize, f64)>,
    /// What became of it.
    pub fate: Fate,
}

/// A quantity's values, SI, cleaned.
pub(super) fn channel(quantity: Quantity, mut values: Vec<f64>) -> Channel {
    let mut set_aside = Vec::new();
    let (least, most) = quantity.permitted();
    for (row, value) in values.iter_mut().enumerate() {
        if value.is_finite() && !(*value >= least && *value <= most) {
            set_aside.push((row, *value));
            *value = f64::NAN;
        }
    }
    // Only these cannot jump.
    if quantity.is_head() || quantity == Quantity::Oil {
        for (row, value) in spikes(&values) {
            set_aside.push((row, value));
            values[row] = f64::NAN;
        }
    }
    set_aside.sort_by_key(|(row, _)| *row);
    Channel {
        quantity,
        values,
        set_aside,
        fate: Fate::Kept,
    }
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
        near.sort_by(f64::total_cmp);
        if (value - near[near.len() / 2]).abs() > SPIKE_K {
            found.push((row, value));
        }
    }
    found
}

/// Smallest, median and largest of the finite values; `None` if there are none.
fn spread(values: &[f64]) -> Option<(f64, f64, f64)> {
    let mut sorted: Vec<f64> = values.iter().copied().filter(|v| v.is_finite()).collect();
    sorted.sort_by(f64::total_cmp);
    Some((*sorted.first()?, sorted[sorted.len() / 2], *sorted.last()?))
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
    for (head, found) in heads.into_iter().zip(spreads) {
        let channel = &mut channels[head];
        channel.fate = match found {
            None => Fate::Dead,
            Some(spread) if most > ALIVE_K && moves(&spread) < STILL_K => Fate::Dead,
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
        channel(quantity, (0..100).map(of).collect())
    }

    #[test]
    fn a_spike_is_set_aside_and_a_ramp_is_not() {
        let found = head(Quantity::Head1, |row| {
            if row == 50 { 500.0 } else { 400.0 + row as f64 }
        });
        assert_eq!(found.set_aside, [(50, 500.0)]);
        assert!(found.values[50].is_nan() && found.values[51] == 451.0);
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
