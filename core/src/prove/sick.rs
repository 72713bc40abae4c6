//! A cylinder that does not fire, or whose nozzle passes too little: recognised before averages are
//! taken.
//!
//! Rules: head **and** exhaust of one cylinder far below the rest: it may not be firing. One exhaust
//! temperature that moves against the rest as the fuel flow changes: its nozzle may be partly
//! blocked. A probe that reads off does so at every mixture and moves neither.
//!
//! # Sources
//! How far is far: derived from open flight logs of one six, whose cylinder 6 stood 190 °F (head) and
//! 1200 °F (exhaust) below the others in one flight.

use crate::document::quantity::Quantity;
use crate::document::reading::{Moment, Sick};
use crate::engine::egt;
use crate::units::si::deltaf;

/// A head so far below the mean of the others is suspect, K.
const COLD_HEAD_K: f64 = deltaf(100.0);
/// An exhaust so far below the mean of the others is suspect, K.
pub(super) const COLD_EXHAUST_K: f64 = deltaf(400.0);
/// Change of the mean exhaust temperature over a flight that tells a blocked nozzle, K.
const LEAST_CHANGE_K: f64 = deltaf(12.0);
/// Fuel of a partly blocked nozzle over that of another that is looked for \[-\].
const SHARES: (f64, f64) = (0.6, 0.97);
/// Fuel that a cylinder takes that does not fire \[-\]: whether its nozzle or its ignition is at fault
/// is not known, so half (from memory).
const FUEL_OF_A_DEAD: f64 = 0.5;
/// Steps of the search.
const STEPS: u32 = 75;

/// One cylinder's value and the mean of the others'.
pub(super) fn against(moment: &Moment, all: &[Quantity], place: usize) -> Option<(f64, f64)> {
    let own = moment.get(*all.get(place)?)?;
    let others: Vec<f64> = all
        .iter()
        .enumerate()
        .filter(|(at, _)| *at != place)
        .filter_map(|(_, quantity)| moment.get(*quantity))
        .collect();
    (others.len() > 1).then(|| (own, others.iter().sum::<f64>() / others.len() as f64))
}

/// Exhaust temperature below its peak, K, of a cylinder that takes a share of another's fuel, at a mean
/// mixture over that of peak EGT, beside so many healthy ones.
pub(super) fn exhaust_of(share: f64, phi_over_peak: f64, healthy: f64) -> f64 {
    // φ_i = φ N / (N − 1 + c)
    egt::below_peak(share * phi_over_peak * (healthy + 1.0) / (healthy + share))
}

/// The cylinder that may not be firing in a moment.
///
/// # Example
/// The third of three heads 60 K, and its exhaust 300 K, below the others:
/// ```
/// use coolpath_core::document::quantity::Quantity;
/// use coolpath_core::document::reading::Moment;
/// use coolpath_core::prove::sick::not_firing;
///
/// let mut moment = Moment::default();
/// for (place, (head, exhaust)) in [(460.0, 1000.0), (462.0, 1010.0), (400.0, 700.0)]
///     .into_iter()
///     .enumerate()
/// {
///     moment.values.insert(Quantity::HEADS[place], head);
///     moment.values.insert(Quantity::EGTS[place], exhaust);
/// }
/// assert_eq!(not_firing(&moment).map(|sick| sick.cylinder), Some(3));
/// ```
#[must_use]
pub fn not_firing(moment: &Moment) -> Option<Sick> {
    (0..Quantity::HEADS.len()).find_map(|place| {
        let (head, heads) = against(moment, &Quantity::HEADS, place)?;
        let (exhaust, exhausts) = against(moment, &Quantity::EGTS, place)?;
        let cold = head < heads - COLD_HEAD_K && exhaust < exhausts - COLD_EXHAUST_K;
        cold.then_some(Sick {
            cylinder: place as u8 + 1,
            share: FUEL_OF_A_DEAD,
            fires: false,
            from_s: 0.0,
        })
    })
}

/// The cylinder whose nozzle may be partly blocked, from the moments of one flight.
///
/// # Arguments
/// * `phi_over_peak` - mean mixture of each moment over that of peak EGT \[-\]
#[must_use]
pub fn blocked_nozzle(moments: &[&Moment], phi_over_peak: &[f64]) -> Option<Sick> {
    (0..Quantity::EGTS.len()).find_map(|place| {
        let pairs: Vec<(f64, f64, f64)> = moments
            .iter()
            .zip(phi_over_peak)
            .filter_map(|(moment, phi)| {
                let (own, others) = against(moment, &Quantity::EGTS, place)?;
                Some((own, others, *phi))
            })
            .collect();
        if pairs.len() < 3 {
            return None;
        }
        let count = pairs.len() as f64;
        let mean = |of: fn(&(f64, f64, f64)) -> f64| pairs.iter().map(of).sum::<f64>() / count;
        let (own, others) = (mean(|pair| pair.0), mean(|pair| pair.1));
        let spread = pairs
            .iter()
            .map(|pair| (pair.1 - others).abs())
            .fold(0.0, f64::max);
        let together: f64 = pairs
            .iter()
            .map(|pair| (pair.0 - own) * (pair.1 - others))
            .sum();
        let of_others: f64 = pairs
            .iter()
            .map(|pair| (pair.1 - others) * (pair.1 - others))
            .sum();
        // It moves against the others, by a good part of what they move.
        if spread < LEAST_CHANGE_K || together > -0.3 * of_others {
            return None;
        }
        let healthy = moments
            .first()
            .map_or(0.0, |moment| moment.heads().count() as f64 - 1.0);
        let miss = |share: f64| {
            let curve: Vec<f64> = pairs
                .iter()
                .map(|pair| exhaust_of(share, pair.2, healthy))
                .collect();
            let level = curve.iter().sum::<f64>() / count;
            pairs
                .iter()
                .zip(&curve)
                .map(|(pair, curve)| {
                    let miss = (pair.0 - own) - (curve - level);
                    miss * miss
                })
                .sum::<f64>()
        };
        let (least, most) = SHARES;
        let share = (0..=STEPS)
            .map(|step| least + (most - least) * f64::from(step) / f64::from(STEPS))
            .min_by(|&a, &b| miss(a).total_cmp(&miss(b)))?;
        Some(Sick {
            cylinder: place as u8 + 1,
            share,
            fires: true,
            from_s: 0.0,
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::reading::Values;
    use crate::units::si::degf;

    fn moment(heads: [f64; 4], exhausts: [f64; 4]) -> Moment {
        let mut values = Values::new();
        for place in 0..4 {
            values.insert(Quantity::HEADS[place], degf(heads[place]));
            values.insert(Quantity::EGTS[place], degf(exhausts[place]));
        }
        Moment {
            seconds: 0.0,
            values,
        }
    }

    #[test]
    fn a_cylinder_that_does_not_fire_is_named_and_a_low_probe_is_not() {
        let healthy = moment(
            [380.0, 370.0, 390.0, 375.0],
            [1400.0, 1380.0, 1420.0, 1390.0],
        );
        assert_eq!(not_firing(&healthy), None);
        let low_probe = moment(
            [380.0, 370.0, 250.0, 375.0],
            [1400.0, 1380.0, 1420.0, 1390.0],
        );
        assert_eq!(not_firing(&low_probe), None);
        let sick = moment(
            [380.0, 370.0, 160.0, 375.0],
            [1400.0, 1380.0, 250.0, 1390.0],
        );
        let found = not_firing(&sick).expect("a sick cylinder");
        assert_eq!((found.cylinder, found.fires), (3, false));
    }

    #[test]
    fn a_blocked_nozzle_is_found_with_its_share() {
        let share = 0.8;
        let phis: Vec<f64> = (0..6).map(|at| 1.05 + 0.012 * f64::from(at)).collect();
        let moments: Vec<Moment> = phis
            .iter()
            .map(|phi| {
                let other = phi * 4.0 / (3.0 + share);
                let at = |ratio: f64| 1450.0 + 1.8 * egt::below_peak(ratio);
                moment(
                    [380.0; 4],
                    [
                        at(other),
                        at(other) - 20.0,
                        at(other) + 15.0,
                        at(share * other),
                    ],
                )
            })
            .collect();
        let all: Vec<&Moment> = moments.iter().collect();
        let found = blocked_nozzle(&all, &phis).expect("a blocked nozzle");
        assert_eq!(found.cylinder, 4);
        assert!((found.share - share).abs() < 0.03, "{}", found.share);
        // Moments of healthy cylinders alone.
        let healthy: Vec<Moment> = phis
            .iter()
            .map(|phi| moment([380.0; 4], [1450.0 + 1.8 * egt::below_peak(*phi); 4]))
            .collect();
        let all: Vec<&Moment> = healthy.iter().collect();
        assert_eq!(blocked_nozzle(&all, &phis), None);
    }
}
