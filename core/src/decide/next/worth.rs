//! What an observation is worth: the band of the answer that is left once it was made.

use crate::answer::sampling::percentiles;
use crate::decide::next::candidate::Candidate;
use crate::decide::next::observing::{Observing, Record};
use crate::decide::next::reading::Observed;
use crate::math::order;
use crate::math::regression::coefficients;

/// Fewest draws with an answer from which a band is told.
const FEWEST: usize = 100;

/// A candidate and what is left unknown after it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Worth {
    /// The candidate.
    pub candidate: Candidate,
    /// Where the answer lies today, eight cases in ten, K.
    pub today: (f64, f64),
    /// Width of the band after it, about where it is expected today, K. Where the middle will lie, only
    /// the reading tells.
    pub after: (f64, f64),
    /// By how much the band is narrower \[-\].
    pub narrowing: f64,
}

/// All candidates of the builder's stage, the one that narrows the answer most first; what is known
/// already is left out, and of two that narrow alike the one with fewer hours stands first.
#[must_use]
pub fn worths(observing: &Observing) -> Vec<Worth> {
    let mut found: Vec<Worth> = Candidate::at(observing.stage())
        .iter()
        .filter(|candidate| observing.is_open(**candidate))
        .filter_map(|candidate| worth(observing.records(), *candidate))
        .collect();
    // In steps of a hundredth: finer is chance.
    let rank = |worth: &Worth| libm::round(100.0 * worth.narrowing);
    // Of those that are worth the same the quickest first.
    order::by_number(&mut found, |worth| worth.candidate.hangar_hours());
    order::by_number(&mut found, |worth| -rank(worth));
    found
}

/// What a reading shows in a draw, its instrument's error included.
fn shown(record: &Record, reading: Observed) -> f64 {
    let value = record.readings[reading as usize];
    value + record.errors[reading as usize] * reading.instrument().deviation(value)
}

/// A candidate's worth over the draws; `None` where too few have an answer.
fn worth(records: &[Record], candidate: Candidate) -> Option<Worth> {
    let mut rows = Vec::new();
    let mut answers = Vec::new();
    for record in records {
        let row: Vec<f64> = candidate
            .readings()
            .iter()
            .map(|reading| shown(record, *reading))
            .collect();
        if row.iter().all(|value| value.is_finite()) {
            rows.push(row);
            answers.push(record.answer);
        }
    }
    if rows.len() < FEWEST {
        return None;
    }
    let slopes = coefficients(&rows, &answers);
    let predicted = |row: &[f64]| -> f64 { row.iter().zip(&slopes).map(|(x, b)| b * x).sum() };
    let mean = rows.iter().map(|row| predicted(row)).sum::<f64>() / rows.len() as f64;
    // What the readings do not tell.
    let left = rows
        .iter()
        .zip(&answers)
        .map(|(row, answer)| answer - (predicted(row) - mean));
    let (today, after) = (percentiles(answers.iter().copied()), percentiles(left));
    let narrowing = 1.0 - (after.p90 - after.p10) / (today.p90 - today.p10);
    let (today, after) = ((today.p10, today.p90), (after.p10, after.p90));
    // A band that seems wider was not told from today's.
    Some(Worth {
        candidate,
        today,
        after: if narrowing > 0.0 { after } else { today },
        narrowing: narrowing.max(0.0),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answer::evaluate::Limit;
    use crate::answer::model_error::{HEAD_COMMON_K, HEAD_K};
    use crate::answer::pieces::Pieces;
    use crate::decide::next::candidate::Stage;
    use crate::document::design::{Calibrated, Design};
    use crate::document::example;

    fn drawn(design: &Design, asked: Limit, draws: usize, seed: u64) -> Observing {
        let mut observing = Observing::new(design, 1, asked, draws, seed).expect("the example");
        while observing.advance(100) {}
        observing
    }

    fn square(x: f64) -> f64 {
        x * x
    }

    /// Ends of the band, eight cases in ten, that a measurement leaves: of the draws whose readings are
    /// nearest to the one taken, each moved to it along their own slope. It assumes no straight line over
    /// the whole range and no normal variable.
    fn left_by(records: &[Record], candidate: Candidate, truth: &Record) -> (f64, f64) {
        let taken: Vec<f64> = candidate
            .readings()
            .iter()
            .map(|reading| shown(truth, *reading))
            .collect();
        let rows: Vec<Vec<f64>> = records
            .iter()
            .map(|record| {
                let readings = candidate.readings().iter();
                readings.map(|reading| shown(record, *reading)).collect()
            })
            .collect();
        let count = rows.len() as f64;
        let scales: Vec<f64> = (0..taken.len())
            .map(|at| {
                let mean = rows.iter().map(|row| row[at]).sum::<f64>() / count;
                let squares: f64 = rows.iter().map(|row| square(row[at] - mean)).sum();
                (squares / count).sqrt()
            })
            .collect();
        let mut near: Vec<(f64, usize)> = rows
            .iter()
            .enumerate()
            .map(|(place, row)| {
                let off = row.iter().zip(&taken).zip(&scales);
                (off.map(|((x, y), s)| square((x - y) / s)).sum(), place)
            })
            .collect();
        order::by_number(&mut near, |(off, _)| *off);
        near.truncate(250);
        let rows: Vec<Vec<f64>> = near.iter().map(|(_, place)| rows[*place].clone()).collect();
        let answers: Vec<f64> = near
            .iter()
            .map(|(_, place)| records[*place].answer)
            .collect();
        let slopes = coefficients(&rows, &answers);
        let moved = rows.iter().zip(&answers).map(|(row, answer)| {
            let by = row.iter().zip(&taken).zip(&slopes);
            answer + by.map(|((x, y), slope)| slope * (y - x)).sum::<f64>()
        });
        let found = percentiles(moved);
        (found.p10, found.p90)
    }

    #[test]
    fn promised_bands_are_met_by_two_hundred_simulated_measurements() {
        let design = example::design();
        let observing = drawn(&design, Limit::Head, 2000, 3);
        // Truths of their own: none of them is among the draws that are conditioned.
        let truths = drawn(&design, Limit::Head, 200, 11);
        for candidate in [
            Candidate::CoolClimb,
            Candidate::Cruise,
            Candidate::ClimbDrop,
            Candidate::SisterShip,
        ] {
            let promised = worth(observing.records(), candidate).expect("draws");
            let promised_k = promised.after.1 - promised.after.0;
            let (mut width, mut inside, mut count) = (0.0, 0.0, 0.0);
            for truth in truths.records() {
                let (low, high) = left_by(observing.records(), candidate, truth);
                width += high - low;
                inside += f64::from(u8::from((low..=high).contains(&truth.answer)));
                count += 1.0;
            }
            assert!(count > 190.0, "{count} truths");
            let (ratio, held) = (width / count / promised_k, inside / count);
            println!(
                "{candidate:?}: promised {promised_k:.1} K, met by {ratio:.3} of it, held {held:.2}, \
                 narrower by {:.2}",
                promised.narrowing
            );
            assert!((ratio - 1.0).abs() < 0.15, "{candidate:?}: {ratio:.3}");
            // Eight in ten, within three standard deviations of two hundred.
            assert!((held - 0.8).abs() < 0.085, "{candidate:?} held {held:.2}");
        }
    }

    #[test]
    fn what_is_of_the_model_alone_is_left_whatever_is_measured() {
        let found = worths(&drawn(&example::design(), Limit::Head, 1000, 3));
        // Eight in ten of the part that no other condition shows.
        let own_k = (square(HEAD_K) - square(HEAD_COMMON_K)).sqrt();
        for worth in &found {
            let left = worth.after.1 - worth.after.0;
            assert!(left > 2.0 * 1.28 * own_k, "{worth:?}");
            assert!(worth.narrowing < 1.0);
        }
        for pair in found.windows(2) {
            assert!(pair[0].narrowing > pair[1].narrowing - 0.011);
        }
        assert_eq!(found[0].candidate, Candidate::CoolClimb, "{found:?}");
    }

    #[test]
    fn oil_is_told_by_other_readings_than_heads() {
        let mut design = example::design();
        design.conditions[1] = design.conditions[1].with_shutter_open();
        let narrowing = |asked: Limit, wanted: Candidate| {
            let found = worths(&drawn(&design, asked, 600, 3));
            let own = found.iter().find(|worth| worth.candidate == wanted);
            own.expect("in the list").narrowing
        };
        let sheet = |asked| narrowing(asked, Candidate::CoolerSheet);
        assert!(sheet(Limit::Oil) >= sheet(Limit::Head));
        let chart = |asked| narrowing(asked, Candidate::MakersChart);
        assert!(chart(Limit::Head) > chart(Limit::Oil) + 0.05);
        assert!(
            narrowing(Limit::Oil, Candidate::OilBothSides)
                > narrowing(Limit::Oil, Candidate::SisterShip) + 0.1
        );
    }

    #[test]
    fn a_calibrated_design_has_another_list_and_what_is_measured_leaves_it() {
        let mut design = example::design();
        design.measured.push("decks.seal_gap_m".to_owned());
        let before = worths(&drawn(&design, Limit::Head, 150, 3));
        let has = |list: &[Worth], wanted| list.iter().any(|worth| worth.candidate == wanted);
        assert!(!has(&before, Candidate::BlowDown));
        assert!(has(&before, Candidate::SisterShip));
        design.calibrated.push(Calibrated {
            input: "oil.heat_share".to_owned(),
            value: design.installation.oil.heat_share,
            likely: (
                0.9 * design.installation.oil.heat_share,
                1.1 * design.installation.oil.heat_share,
            ),
        });
        let observing = drawn(&design, Limit::Head, 150, 3);
        assert_eq!(observing.stage(), Stage::AfterCalibration);
        let after = worths(&observing);
        assert!(!has(&after, Candidate::SisterShip) && has(&after, Candidate::SecondMixture));
    }
}
