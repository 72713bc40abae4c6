//! When a cylinder began to be sick, in a flight that is read as a whole: a change point, by the rules of
//! [`sick`](crate::prove::sick).
//!
//! A cylinder that does not fire is cold in most moments to the end; its exhaust fell before its head did,
//! and tells since when. A nozzle that became blocked shows by the rule after some moment, and not before
//! it; of such moments it is the one about which what the exhaust misses is least:
//!
//! Σ (T_i − T_peak(c_i φ_i) − L)², c = 1 before and the blocked share after, L one level

use crate::document::quantity::Quantity;
use crate::document::reading::{Moment, Sick};
use crate::prove::sick::{COLD_EXHAUST_K, against, blocked_nozzle, exhaust_of, not_firing};

/// Fewest moments on either side of a change.
const FEWEST: usize = 6;
/// Squares that a change leaves of those of a healthy nozzle \[-\], or it is none: a cylinder that runs
/// leaner than the others crosses its peak by itself too (from memory).
const MOST_MISSED: f64 = 0.5;

/// The cylinder that stopped firing, and since when; `None` where all fire at the end.
pub(crate) fn stopped_firing(moments: &[Moment]) -> Option<Sick> {
    // From the last: which one, and back to where most moments since then show it.
    let cold = |moment: &Moment| not_firing(moment).map(|sick| sick.cylinder);
    let sick = moments.iter().rev().take(FEWEST).find_map(not_firing)?;
    let (mut shown, mut first) = (0, None);
    for (count, moment) in moments.iter().rev().enumerate() {
        if cold(moment) == Some(sick.cylinder) {
            shown += 1;
            if 2 * shown > count {
                first = Some(moments.len() - 1 - count);
            }
        }
    }
    let first = first.filter(|first| moments.len() - first >= FEWEST)?;
    let place = usize::from(sick.cylinder) - 1;
    let exhaust_fell = |moment: &&Moment| {
        against(moment, &Quantity::EGTS, place)
            .is_some_and(|(own, others)| own < others - COLD_EXHAUST_K)
    };
    let before = moments[..first].iter().rev().take_while(exhaust_fell);
    Some(since(sick, moments, first - before.count()))
}

/// The nozzle that became partly blocked, and since when.
///
/// # Arguments
/// * `phi_over_peak` - mean mixture of each moment over that of peak EGT \[-\]
pub(crate) fn became_blocked(moments: &[Moment], phi_over_peak: &[f64]) -> Option<Sick> {
    let all: Vec<&Moment> = moments.iter().collect();
    let candidates = (FEWEST..all.len().saturating_sub(FEWEST)).filter_map(|at| {
        let sick = blocked_nozzle(&all[at..], &phi_over_peak[at..])?;
        let before = blocked_nozzle(&all[..at], &phi_over_peak[..at]);
        before
            .is_none_or(|before| before.cylinder != sick.cylinder)
            .then_some((at, sick))
    });
    let whole = blocked_nozzle(&all, phi_over_peak).map(|sick| (0, sick));
    let best = candidates
        .map(|(at, sick)| (missed(&all, phi_over_peak, at, &sick), at, sick))
        .filter(|(with, _, sick)| {
            let healthy = missed(&all, phi_over_peak, all.len(), sick);
            *with < MOST_MISSED * healthy
        })
        .chain(whole.map(|(at, sick)| (missed(&all, phi_over_peak, at, &sick), at, sick)))
        .min_by(|one, other| one.0.total_cmp(&other.0))?;
    Some(since(best.2, moments, best.1))
}

/// The same cylinder, since a moment.
fn since(sick: Sick, moments: &[Moment], at: usize) -> Sick {
    let from_s = moments
        .get(at)
        .filter(|_| at > 0)
        .map_or(0.0, |moment| moment.seconds);
    Sick { from_s, ..sick }
}

/// What a cylinder's exhaust misses, K², if its nozzle was blocked since a moment.
fn missed(moments: &[&Moment], phi_over_peak: &[f64], since: usize, sick: &Sick) -> f64 {
    let place = usize::from(sick.cylinder) - 1;
    let healthy = moments
        .first()
        .map_or(0.0, |moment| moment.heads().count() as f64 - 1.0);
    let off: Vec<f64> = moments
        .iter()
        .zip(phi_over_peak)
        .enumerate()
        .filter_map(|(at, (moment, phi))| {
            let share = if at < since { 1.0 } else { sick.share };
            let own = moment.get(Quantity::EGTS[place])?;
            Some(own - exhaust_of(share, *phi, healthy))
        })
        .collect();
    let level = off.iter().sum::<f64>() / off.len() as f64;
    off.iter().map(|off| (off - level) * (off - level)).sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::reading::Values;
    use crate::engine::egt::below_peak;
    use crate::units::si::degf;

    /// A moment a minute of four cylinders; the third's head and exhaust by themselves, °F and K.
    fn moments(of: impl Fn(usize) -> ([f64; 4], [f64; 4])) -> Vec<Moment> {
        (0..40)
            .map(|minute| {
                let (heads, exhausts) = of(minute);
                let mut values = Values::new();
                for place in 0..4 {
                    values.insert(Quantity::HEADS[place], degf(heads[place]));
                    values.insert(Quantity::EGTS[place], exhausts[place]);
                }
                Moment {
                    seconds: 60.0 * minute as f64,
                    values,
                }
            })
            .collect()
    }

    #[test]
    fn a_cylinder_that_stops_firing_is_dated_by_its_exhaust() {
        let since = |stop: usize| {
            stopped_firing(&moments(|minute| {
                // Its head cools slowly, its exhaust at once.
                let cooled = minute.saturating_sub(stop) as f64;
                let head = if minute >= stop {
                    380.0 - 40.0 * cooled.min(5.0)
                } else {
                    380.0
                };
                let exhaust = if minute >= stop { 500.0 } else { 1010.0 };
                (
                    [375.0, 370.0, head, 385.0],
                    [1000.0, 1005.0, exhaust, 1010.0],
                )
            }))
        };
        let found = since(17).expect("it does not fire");
        assert_eq!(
            (found.cylinder, found.fires, found.from_s),
            (3, false, 17.0 * 60.0)
        );
        assert_eq!(since(100), None);
        // Cold from the first moment whose head shows it.
        assert!(since(0).is_some_and(|sick| sick.from_s == 0.0));
    }

    /// Leaned and enriched again and again; the second nozzle passes a share since some minute.
    fn blocked(since: usize, share: f64) -> (Vec<Moment>, Vec<f64>) {
        let ratios: Vec<f64> = (0..40)
            .map(|minute| 1.02 + 0.13 * f64::from(minute % 7) / 6.0)
            .collect();
        let noise = [2.0, -1.0, 0.5, -2.0, 1.0, 1.5, -0.5];
        let found = moments(|minute| {
            let share = if minute >= since { share } else { 1.0 };
            let other = ratios[minute] * 4.0 / (3.0 + share);
            let off = |place: usize| noise[(minute * 3 + place) % noise.len()];
            let at = |ratio: f64, place: usize| 1050.0 + below_peak(ratio) + off(place);
            (
                [380.0; 4],
                [
                    at(other, 0),
                    at(share * other, 1) - 20.0,
                    at(other, 2) + 15.0,
                    at(other, 3),
                ],
            )
        });
        (found, ratios)
    }

    #[test]
    fn a_nozzle_that_becomes_blocked_in_flight_is_dated() {
        for since in [12, 21, 30] {
            let (moments, ratios) = blocked(since, 0.8);
            let found = became_blocked(&moments, &ratios).expect("a blocked nozzle");
            assert_eq!(found.cylinder, 2);
            let off = (found.from_s - 60.0 * since as f64).abs();
            assert!(off <= 60.0, "{since}: {found:?}");
            assert!((found.share - 0.8).abs() < 0.05, "{found:?}");
        }
        let (moments, ratios) = blocked(0, 0.8);
        let found = became_blocked(&moments, &ratios).expect("a blocked nozzle");
        assert_eq!((found.cylinder, found.from_s), (2, 0.0));
        let (moments, ratios) = blocked(100, 0.8);
        assert_eq!(became_blocked(&moments, &ratios), None);
    }
}
