//! Reported beside predicted.

use super::case::{Assumed, Assumption, Cases, ChangeCase, LevelCase, Match, apply, with_choices};
use super::measure::Measure;
use super::report::{Bound, Kind, Report, reports};
use super::solving::{Goal, reach};
use coolpath_core::answer::band::{Band, bands};
use coolpath_core::answer::spread::{uncertain, uncertain_in};
use coolpath_core::document::design::{Design, mark};
use coolpath_core::document::table::{Input, by_id};
use coolpath_core::math::normal::{RANGE_DEVIATIONS, normal_quantile};
use coolpath_core::units::si::{degf, deltaf};

/// Draws of all assumptions for the band of a change.
pub const DRAWS: usize = 400;
const SEED: u64 = 7;
/// Share of the draws that must have an answer.
const LEAST_ANSWERED: f64 = 0.8;

/// A report beside its prediction, °F or mph.
#[derive(Debug, Clone)]
pub struct Judged {
    /// The report.
    pub report: Report,
    /// What the model says.
    pub predicted: f64,
    /// Its band of nine in ten.
    pub band: (f64, f64),
    /// Share of the draws without an answer [-].
    pub lost: f64,
    /// What has to be said beside it.
    pub remark: String,
    /// Whether something was fitted to it.
    pub is_fitted: bool,
    /// Whether another prediction of the same report is the one that may count.
    pub is_alternative: bool,
}

impl Judged {
    /// Predicted minus reported; a bound that is kept is no miss.
    #[must_use]
    pub fn miss(&self) -> f64 {
        let miss = self.predicted - self.report.middle();
        match self.report.bound {
            Bound::None => miss,
            Bound::AtMost => miss.max(0.0),
            Bound::AtLeast => miss.min(0.0),
        }
    }

    /// Predicted over reported [-].
    #[must_use]
    pub fn ratio(&self) -> f64 {
        self.predicted / self.report.middle()
    }

    /// Whether the band holds what was reported: of a range or a bound some of it.
    #[must_use]
    pub fn is_inside(&self) -> bool {
        let (low, high) = match self.report.bound {
            Bound::None => (self.report.low, self.report.high),
            Bound::AtMost => (f64::NEG_INFINITY, self.report.high),
            Bound::AtLeast => (self.report.low, f64::INFINITY),
        };
        self.band.0 <= high && low <= self.band.1
    }

    /// Whether the band holds the middle of what was reported.
    #[must_use]
    pub fn holds_the_middle(&self) -> bool {
        (self.band.0..=self.band.1).contains(&self.report.middle())
    }

    /// Whether both go the same way.
    #[must_use]
    pub fn has_its_sign(&self) -> bool {
        self.predicted * self.report.middle() > 0.0
    }

    /// Whether it is counted.
    #[must_use]
    pub fn counts(&self) -> bool {
        self.report.judged == "yes" && !self.is_alternative
    }
}

/// All reports beside their predictions, and those without one, with the reason.
#[derive(Debug, Clone, Default)]
pub struct Outcome {
    /// With a prediction, in the order of the reports.
    pub judged: Vec<Judged>,
    /// Without one.
    pub left_out: Vec<(Report, String)>,
}

impl Outcome {
    /// Judges all reports.
    ///
    /// # Panics
    /// If the files are malformed.
    #[must_use]
    pub fn of_all() -> Self {
        let cases = Cases::read();
        let all = reports();
        let find = |id: &str| -> Report {
            let found = all.iter().find(|report| report.id == id);
            found.unwrap_or_else(|| panic!("no report {id}")).clone()
        };
        let mut found = Self::default();
        for case in &cases.levels {
            let own: Vec<Report> = case.reports.iter().map(|id| find(id)).collect();
            let predicted = level(case, &own);
            found.add(own, predicted, &About::default());
        }
        for case in &cases.changes {
            let own: Vec<Report> = case.reports.iter().map(|id| find(id)).collect();
            let predicted = change(case, &own);
            let about = About {
                remark: case.alternative.as_ref().unwrap_or(&case.remark).clone(),
                is_fitted: case.is_fitted,
                is_alternative: case.alternative.is_some(),
            };
            found.add(own, predicted, &about);
        }
        for (id, why) in &cases.not_expressed {
            found.left_out.push((find(id), why.clone()));
        }
        let place = |report: &Report| all.iter().position(|own| own.id == report.id);
        found.judged.sort_by_key(|one| place(&one.report));
        found
    }

    fn add(&mut self, reports: Vec<Report>, predicted: Option<Vec<Predicted>>, about: &About) {
        let Some(predicted) = predicted else {
            let why = "cannot be expressed: the assumed installation does not reach what was reported before";
            self.left_out
                .extend(reports.into_iter().map(|report| (report, why.to_owned())));
            return;
        };
        let pairs = reports.into_iter().zip(predicted);
        self.judged.extend(pairs.map(|(report, found)| Judged {
            report,
            predicted: found.value,
            band: found.band,
            lost: found.lost,
            remark: about.remark.clone(),
            is_fitted: about.is_fitted,
            is_alternative: about.is_alternative,
        }));
    }

    /// What counts of a kind and of a group, or of all groups.
    pub fn counted<'a>(
        &'a self,
        kind: Kind,
        group: Option<&'a str>,
    ) -> impl Iterator<Item = &'a Judged> {
        self.judged.iter().filter(move |one| {
            one.counts()
                && one.report.kind == kind
                && group.is_none_or(|group| one.report.group == group)
        })
    }
}

/// What has to be said of a case.
#[derive(Default)]
struct About {
    remark: String,
    is_fitted: bool,
    is_alternative: bool,
}

/// Middle of some numbers; `None` of none.
#[must_use]
pub fn median(numbers: impl Iterator<Item = f64>) -> Option<f64> {
    let mut all: Vec<f64> = numbers.collect();
    all.sort_by(f64::total_cmp);
    let half = all.len() / 2;
    match all.len() {
        0 => None,
        count if count % 2 == 1 => Some(all[half]),
        _ => Some(0.5 * (all[half - 1] + all[half])),
    }
}

struct Predicted {
    value: f64,
    band: (f64, f64),
    lost: f64,
}

/// °F of a temperature or of a difference, mph of a speed.
fn shown(figure: Measure, kind: Kind, si: f64) -> f64 {
    match (figure, kind) {
        (Measure::Speed, _) => si * 3600.0 / 1609.344,
        (_, Kind::Change) => si / deltaf(1.0),
        (_, Kind::Level) => (si - degf(0.0)) / deltaf(1.0),
    }
}

fn level(case: &LevelCase, reports: &[Report]) -> Option<Vec<Predicted>> {
    let mut design = case.design.clone();
    let goals: Vec<Goal> = case.matches.iter().filter_map(Match::goal_before).collect();
    let state = reach(&mut design, &goals)?;
    // What was measured leaves nothing to be doubted in what brought it about.
    design
        .measured
        .extend(goals.iter().map(|goal| mark(goal.by.id, 0)));
    let all = bands(&design, 0).ok()?.figures;
    reports
        .iter()
        .map(|report| {
            let value = report.figure.of(&design, &state)?;
            let band: Band = match report.figure {
                Measure::HeadMean => all.head_mean,
                Measure::Oil => all.oil,
                _ => all.head_hottest,
            };
            let shown = |si: f64| shown(report.figure, Kind::Level, si);
            Some(Predicted {
                value: shown(value),
                band: (shown(value - band.below), shown(value + band.above)),
                lost: 0.0,
            })
        })
        .collect()
}

/// What an assumption of the state after a change is, drawn by itself.
struct Later {
    at: usize,
    range: (f64, f64),
}

fn change(case: &ChangeCase, reports: &[Report]) -> Option<Vec<Predicted>> {
    let nominal = changed(case, &case.design, &case.after, reports)?;
    let doubts: Vec<_> = uncertain(&case.design)
        .chain(uncertain_in(&case.design, 0))
        .collect();
    let later: Vec<Later> = case
        .after
        .iter()
        .enumerate()
        .filter_map(|(at, one)| match one.assumed {
            Assumed::Is(_, Some(range)) => Some(Later { at, range }),
            _ => None,
        })
        .collect();
    let matched = case
        .matches
        .iter()
        .filter(|own| own.after.is_some_and(|after| after.1.is_some()));
    let columns = latin_hypercube(doubts.len() + later.len() + matched.count());
    let mut drawn: Vec<Vec<f64>> = vec![Vec::with_capacity(DRAWS); reports.len()];
    for draw in 0..DRAWS {
        let mut deviations = columns.iter().map(|column| column[draw]);
        let mut design = case.design.clone();
        for (input, place, value, range) in &doubts {
            let to = moved(input, *value, *range, deviations.next().unwrap_or_default());
            input.set(&mut design, *place, to);
        }
        let mut after = case.after.clone();
        for own in &later {
            let one: &mut Assumption = &mut after[own.at];
            if let Assumed::Is(value, range) = one.assumed {
                let x = deviations.next().unwrap_or_default();
                one.assumed = Assumed::Is(moved(one.input, value, own.range, x), range);
            }
        }
        let mut own = case.clone();
        for one in &mut own.matches {
            if let Some((to, Some(range))) = one.after {
                let x = deviations.next().unwrap_or_default();
                one.after = Some((to + reach_of(to, range, x), None));
            }
        }
        if let Some(found) = changed(&own, &design, &after, reports) {
            for (column, value) in drawn.iter_mut().zip(found) {
                column.push(value);
            }
        }
    }
    let answered = drawn.first().map_or(0, Vec::len) as f64 / DRAWS as f64;
    if answered < LEAST_ANSWERED {
        return None;
    }
    let pairs = reports.iter().zip(nominal).zip(drawn);
    Some(
        pairs
            .map(|((report, value), mut column)| {
                column.sort_by(f64::total_cmp);
                let at = |share: f64| column[(share * (column.len() - 1) as f64).round() as usize];
                let shown = |si: f64| shown(report.figure, Kind::Change, si);
                Predicted {
                    value: shown(value),
                    band: (shown(at(0.05)), shown(at(0.95))),
                    lost: 1.0 - answered,
                }
            })
            .collect(),
    )
}

/// Changes of the reported figures, SI; `None` where a state has no answer or the level before it
/// is out of reach.
fn changed(
    case: &ChangeCase,
    before: &Design,
    after: &[Assumption],
    reports: &[Report],
) -> Option<Vec<f64>> {
    let (design, first) = at_the_level(case, before)?;
    let mut later = design.clone();
    if let Some(choices) = &case.choices {
        later = with_choices(&later, choices);
    }
    for one in after {
        apply(&mut later, one);
    }
    let goals: Vec<Goal> = case.matches.iter().filter_map(Match::goal_after).collect();
    let second = reach(&mut later, &goals)?;
    let of = |report: &Report| {
        Some(report.figure.of(&later, &second)? - report.figure.of(&design, &first)?)
    };
    reports.iter().map(of).collect()
}

/// The design before a change, brought to the reported level.
pub(super) fn at_the_level(
    case: &ChangeCase,
    before: &Design,
) -> Option<(Design, coolpath_core::answer::solved::Solved)> {
    let mut design = before.clone();
    let known = if design.installation.engine.cylinders > 4 {
        "reference.head_six_k"
    } else {
        "reference.head_k"
    };
    let matched = case.matches.iter().filter_map(Match::goal_before);
    let levels = case.level.iter().filter_map(|(figure, to)| {
        Some(Goal {
            figure: *figure,
            to: *to,
            by: by_id(if *figure == Measure::Oil {
                "oil.heat_share"
            } else {
                known
            })?,
        })
    });
    let goals: Vec<Goal> = matched.chain(levels).collect();
    let state = reach(&mut design, &goals)?;
    Some((design, state))
}

fn moved(input: &Input, value: f64, range: (f64, f64), deviations: f64) -> f64 {
    let (least, most) = input.permitted;
    (value + reach_of(value, range, deviations)).clamp(least, most)
}

/// Two half-normals that meet at the value; the ends of the range are the 5th and 95th percentiles.
fn reach_of(value: f64, (low, high): (f64, f64), deviations: f64) -> f64 {
    let reach = if deviations < 0.0 {
        value - low
    } else {
        high - value
    };
    reach * deviations / RANGE_DEVIATIONS
}

/// Standard deviations of each draw, each slice of equal chance used once.
fn latin_hypercube(columns: usize) -> Vec<Vec<f64>> {
    let mut random = fastrand::Rng::with_seed(SEED);
    (0..columns)
        .map(|_| {
            let mut slices: Vec<u32> = (0..DRAWS as u32).collect();
            // By a number of fixed width, so that every machine draws the same.
            for at in (1..slices.len()).rev() {
                slices.swap(at, random.u32(0..=at as u32) as usize);
            }
            slices
                .into_iter()
                .map(|slice| normal_quantile((f64::from(slice) + 0.5) / DRAWS as f64))
                .collect()
        })
        .collect()
}
