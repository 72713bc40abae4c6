//! The plan of least expected regret.

use crate::answer::sampling::shuffle;
use crate::math::normal::normal_quantile;
use crate::units::si::{deltaf, knot};

/// Margins on the hot day, read in flight and corrected, at which a builder may stop, K; a reading over a
/// limit never ends a plan.
const STOPS_K: [f64; 6] = [
    0.0,
    deltaf(5.0),
    deltaf(10.0),
    deltaf(15.0),
    deltaf(20.0),
    deltaf(30.0),
];
/// Chance with which the first cut must hold the limits on the cool day of the test \[-\].
const FLOWN_FROM: f64 = 0.9;
/// Regret by which a plan with one more step must be better, h: less is chance.
const ONE_MORE_H: f64 = 0.05;
/// Seed of the readings' errors.
const SEED: u64 = 5;

/// What regret is made of, all in hours of work.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Prices {
    /// One more cut, its flight and the reading of it, h.
    pub cut_h: f64,
    /// A new lip, where the exit turns out too hot when nothing is left to cut, h.
    pub lip_h: f64,
    /// A metre per second of cruise, h.
    pub speed_h: f64,
}

impl Default for Prices {
    /// Four hours for a cut, thirty for a lip, and five for a knot (from memory).
    fn default() -> Self {
        Self {
            cut_h: 4.0,
            lip_h: 30.0,
            speed_h: 5.0 / knot(1.0),
        }
    }
}

/// What draws say of exits from small to large.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Table {
    /// Net areas, m², rising.
    pub areas_m2: Vec<f64>,
    /// Cruising speed that each costs, m/s.
    pub costs_m_s: Vec<f64>,
    /// Least margin to a limit over all conditions, K: a list over the areas for each draw.
    pub margins_k: Vec<Vec<f64>>,
    /// By how much more margin there is on the cool day of a test, K.
    pub relief_k: f64,
    /// What a flight's reading, corrected to the hot day, leaves unknown of the margin, one standard
    /// deviation, K.
    pub reading_k: f64,
}

impl Table {
    /// The same at more areas, straight between its own.
    #[must_use]
    pub fn refined(&self, pieces: usize) -> Self {
        let pieces = pieces.max(1);
        let between = |list: &[f64]| -> Vec<f64> {
            let mut fine = Vec::new();
            for pair in list.windows(2) {
                fine.extend((0..pieces).map(|at| {
                    let share = at as f64 / pieces as f64;
                    // What has no answer has none until the next that has.
                    if share > 0.0 && !(pair[0].is_finite() && pair[1].is_finite()) {
                        return pair[0];
                    }
                    pair[0] + share * (pair[1] - pair[0])
                }));
            }
            fine.extend(list.last());
            fine
        };
        Self {
            areas_m2: between(&self.areas_m2),
            costs_m_s: between(&self.costs_m_s),
            margins_k: self.margins_k.iter().map(|list| between(list)).collect(),
            ..*self
        }
    }
}

/// A step of a plan.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Step {
    /// Net area to which the exit is cut, m².
    pub exit_m2: f64,
    /// Chance that the plan ends here \[-\].
    pub ends: f64,
    /// Chance that it ends here and is too hot on the hot day all the same \[-\].
    pub too_hot: f64,
}

/// A plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// Its steps, the smallest exit first.
    pub steps: Vec<Step>,
    /// Margin on the hot day, by the corrected reading, from which a builder stops, K.
    pub stop_k: f64,
    /// Expected regret, h.
    pub regret_h: f64,
    /// The best single cut, m², and its expected regret, h.
    pub single: (f64, f64),
}

impl Plan {
    /// Chance that it ends too hot, with a new lip to make \[-\].
    #[must_use]
    pub fn lip(&self) -> f64 {
        self.steps.iter().map(|step| step.too_hot).sum()
    }
}

/// The search for a plan, a first cut at a time.
#[derive(Debug, Clone)]
pub struct Planning {
    table: Table,
    prices: Prices,
    /// Regret of ending at an area, h: a list over the draws for each area.
    regrets: Vec<Vec<f64>>,
    /// Margins read at an area in the first and in the second flight, K: the same.
    read: [Vec<Vec<f64>>; 2],
    first: usize,
    best: Option<Choice>,
    single: Option<(usize, f64)>,
}

/// Places of a plan's areas and of its stop.
#[derive(Debug, Clone, PartialEq)]
struct Choice {
    places: Vec<usize>,
    stop: usize,
    regret_h: f64,
}

impl Planning {
    /// A search over a table's areas.
    #[must_use]
    pub fn new(table: Table, prices: Prices) -> Self {
        let draws = table.margins_k.len();
        let areas = 0..table.areas_m2.len();
        let regrets = areas
            .clone()
            .map(|at| {
                let margins = table.margins_k.iter();
                margins
                    .map(|own| regret(&table, &prices, own, at))
                    .collect()
            })
            .collect();
        let mut random = fastrand::Rng::with_seed(SEED);
        let mut read = || -> Vec<Vec<f64>> {
            let mut slices: Vec<usize> = (0..draws).collect();
            shuffle(&mut slices, &mut random);
            let errors: Vec<f64> = slices
                .into_iter()
                .map(|slice| table.reading_k * normal_quantile((slice as f64 + 0.5) / draws as f64))
                .collect();
            areas
                .clone()
                .map(|at| {
                    let both = table.margins_k.iter().zip(&errors);
                    both.map(|(own, error)| own[at] + error).collect()
                })
                .collect()
        };
        let read = [read(), read()];
        Self {
            first: first_flown(&table),
            table,
            prices,
            regrets,
            read,
            best: None,
            single: None,
        }
    }

    /// Tries all plans with one more first cut; false when all are tried.
    pub fn advance(&mut self) -> bool {
        let first = self.first;
        let count = self.table.areas_m2.len();
        if first >= count || self.table.margins_k.is_empty() {
            return false;
        }
        let alone = self.expected(&[first], 0);
        if self.single.is_none_or(|(_, least)| alone < least) {
            self.single = Some((first, alone));
        }
        self.consider(vec![first], 0, alone);
        for stop in 0..STOPS_K.len() {
            for second in first + 1..count {
                let regret_h = self.expected(&[first, second], stop);
                self.consider(vec![first, second], stop, regret_h);
                for third in second + 1..count {
                    let regret_h = self.expected(&[first, second, third], stop);
                    self.consider(vec![first, second, third], stop, regret_h);
                }
            }
        }
        self.first += 1;
        self.first < count
    }

    /// The plan, once all are tried; `None` without any draw or area.
    #[must_use]
    pub fn plan(&self) -> Option<Plan> {
        let best = self.best.as_ref()?;
        let (single, single_h) = self.single?;
        let draws = self.table.margins_k.len();
        let mut steps: Vec<Step> = best
            .places
            .iter()
            .map(|place| Step {
                exit_m2: self.table.areas_m2[*place],
                ends: 0.0,
                too_hot: 0.0,
            })
            .collect();
        for draw in 0..draws {
            let end = self.end(&best.places, best.stop, draw);
            let share = 1.0 / draws as f64;
            steps[end].ends += share;
            if self.table.margins_k[draw][best.places[end]] < 0.0 {
                steps[end].too_hot += share;
            }
        }
        Some(Plan {
            steps,
            stop_k: STOPS_K[best.stop],
            regret_h: best.regret_h,
            single: (self.table.areas_m2[single], single_h),
        })
    }

    fn consider(&mut self, places: Vec<usize>, stop: usize, regret_h: f64) {
        let is_better = self.best.as_ref().is_none_or(|best| {
            let more = places.len() as f64 - best.places.len() as f64;
            regret_h < best.regret_h - (ONE_MORE_H * more).max(0.0)
                || (more < 0.0 && regret_h <= best.regret_h)
        });
        if is_better {
            self.best = Some(Choice {
                places,
                stop,
                regret_h,
            });
        }
    }

    /// Step at which a plan ends in a draw.
    fn end(&self, places: &[usize], stop: usize, draw: usize) -> usize {
        let last = places.len() - 1;
        (0..last)
            .find(|step| self.read[*step][places[*step]][draw] >= STOPS_K[stop])
            .unwrap_or(last)
    }

    fn expected(&self, places: &[usize], stop: usize) -> f64 {
        let draws = self.table.margins_k.len();
        let sum: f64 = (0..draws)
            .map(|draw| {
                let end = self.end(places, stop, draw);
                end as f64 * self.prices.cut_h + self.regrets[places[end]][draw]
            })
            .sum();
        sum / draws as f64
    }
}

/// Regret of ending at an area in a draw, h.
fn regret(table: &Table, prices: &Prices, margins_k: &[f64], at: usize) -> f64 {
    let needed = margins_k.iter().position(|margin| *margin >= 0.0);
    match needed {
        Some(needed) if margins_k[at] >= 0.0 => {
            let lost = table.costs_m_s[at] - table.costs_m_s[needed];
            prices.speed_h * lost.max(0.0)
        }
        _ => prices.lip_h,
    }
}

/// The first area that may be flown on the cool day, or the largest.
fn first_flown(table: &Table) -> usize {
    let draws = table.margins_k.len() as f64;
    (0..table.areas_m2.len())
        .find(|at| {
            let holds = |own: &&Vec<f64>| own[*at] + table.relief_k >= 0.0;
            table.margins_k.iter().filter(holds).count() as f64 >= FLOWN_FROM * draws
        })
        .unwrap_or(table.areas_m2.len().saturating_sub(1))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::si::inch2;

    /// Exits from 40 to 100 in²; needs about 60 in² with a spread, 4 K a square inch, and 0.15 kn for one.
    fn table(spread: f64, reading_k: f64) -> Table {
        let areas: Vec<f64> = (0..31).map(|at| 40.0 + 2.0 * f64::from(at)).collect();
        let draws = 200;
        let margins_k = (0..draws)
            .map(|draw| {
                let z = normal_quantile((f64::from(draw) + 0.5) / f64::from(draws));
                let need = 60.0 + spread * z;
                areas.iter().map(|area| 4.0 * (area - need)).collect()
            })
            .collect();
        Table {
            costs_m_s: areas
                .iter()
                .map(|area| knot(0.15) * (area - 40.0))
                .collect(),
            areas_m2: areas.into_iter().map(inch2).collect(),
            margins_k,
            relief_k: 60.0,
            reading_k,
        }
    }

    fn planned(table: Table, prices: Prices) -> (Plan, Planning) {
        let mut planning = Planning::new(table, prices);
        while planning.advance() {}
        (planning.plan().expect("a plan"), planning)
    }

    #[test]
    fn chances_sum_to_one() {
        for (spread, reading_k) in [(0.0, 0.0), (4.0, 5.0), (10.0, 6.0), (25.0, 6.0)] {
            let (plan, _) = planned(table(spread, reading_k), Prices::default());
            let sum: f64 = plan.steps.iter().map(|step| step.ends).sum();
            assert!((sum - 1.0).abs() < 1e-9, "{plan:?}");
            for step in &plan.steps {
                assert!(step.too_hot <= step.ends && step.too_hot >= 0.0);
            }
            assert!(
                plan.steps
                    .windows(2)
                    .all(|pair| pair[0].exit_m2 < pair[1].exit_m2)
            );
            assert!((1..=3).contains(&plan.steps.len()));
        }
    }

    #[test]
    fn with_nothing_unknown_there_is_one_step_and_no_regret() {
        let (plan, _) = planned(table(0.0, 0.0), Prices::default());
        assert_eq!(plan.steps.len(), 1);
        assert!(
            (plan.steps[0].exit_m2 / inch2(60.0) - 1.0).abs() < 1e-9,
            "{plan:?}"
        );
        assert!(plan.regret_h.abs() < 1e-12 && plan.lip() == 0.0);
    }

    #[test]
    fn the_more_is_unknown_the_smaller_the_first_of_several_cuts() {
        // A cut costs little beside what is lost, and the test's day forbids nothing.
        let prices = Prices {
            cut_h: 1.0,
            speed_h: 10.0 / knot(1.0),
            ..Prices::default()
        };
        let mut firsts = Vec::new();
        for spread in [0.0, 4.0, 8.0, 12.0, 16.0] {
            let mut known_so_far = table(spread, 0.5 * spread);
            known_so_far.relief_k = 1e3;
            let (plan, _) = planned(known_so_far, prices);
            println!("{spread}: {plan:?}");
            assert!(spread == 0.0 || plan.steps.len() > 1, "{spread}: {plan:?}");
            assert!(spread == 0.0 || plan.steps[0].exit_m2 < plan.single.0);
            firsts.push(plan.steps[0].exit_m2);
        }
        // Areas lie 2 in² apart, so that neighbours may share one.
        assert!(firsts.is_sorted_by(|a, b| a >= b), "{firsts:?}");
        assert!(firsts[4] < firsts[1] - inch2(3.0), "{firsts:?}");
    }

    #[test]
    fn no_single_cut_has_less_expected_regret() {
        for (spread, reading_k) in [(0.0, 0.0), (3.0, 6.0), (10.0, 6.0), (10.0, 40.0)] {
            let table = table(spread, reading_k);
            let prices = Prices::default();
            let (plan, planning) = planned(table.clone(), prices);
            for at in 0..table.areas_m2.len() {
                // All of them, also those that the test's day forbids.
                let own: f64 = planning.regrets[at].iter().sum::<f64>() / 200.0;
                assert!(
                    plan.regret_h <= own + ONE_MORE_H * 2.0,
                    "{at}: {plan:?}, {own}"
                );
            }
            assert!(plan.regret_h <= plan.single.1 + 1e-12);
        }
    }

    #[test]
    fn a_flight_that_tells_nothing_leaves_one_cut() {
        let (plan, _) = planned(table(8.0, 1e6), Prices::default());
        assert_eq!(plan.steps.len(), 1, "{plan:?}");
    }

    #[test]
    fn the_first_cut_holds_on_the_cool_day() {
        let mut tight = table(10.0, 6.0);
        tight.relief_k = 20.0;
        let (plan, _) = planned(tight, Prices::default());
        // Nine in ten need no more than 60 + 1.2816 · 10 in², less what the cool day gives, 5 in².
        assert!(
            plan.steps[0].exit_m2 >= inch2(60.0 + 12.8 - 5.0),
            "{plan:?}"
        );
    }

    #[test]
    fn refining_keeps_the_given_areas_and_lies_straight_between() {
        let coarse = table(3.0, 1.0);
        let fine = coarse.refined(4);
        assert_eq!(fine.areas_m2.len(), 4 * (coarse.areas_m2.len() - 1) + 1);
        assert_eq!(fine.areas_m2[8], coarse.areas_m2[2]);
        let middle = 0.5 * (coarse.margins_k[5][2] + coarse.margins_k[5][3]);
        assert!((fine.margins_k[5][10] - middle).abs() < 1e-9);
    }
}
