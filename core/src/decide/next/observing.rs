//! Draws of an answer, and of all that could be read before it, in steps.

use crate::answer::band::figures;
use crate::answer::evaluate::Limit;
use crate::answer::head_readings::{hottest_reading, mean_reading};
use crate::answer::model_error::missed;
use crate::answer::pieces::Pieces;
use crate::answer::sampling::Sampling;
use crate::answer::solve_condition::solve_draw;
use crate::answer::solved::{EvaluateError, Solved, condition_at};
use crate::decide::next::candidate::{Candidate, Stage};
use crate::decide::next::reading::{Observed, READINGS};
use crate::decide::next::test_day::{Miss, cooler};
use crate::document::condition::{Condition, Mixture, Phase};
use crate::document::design::{Design, mark, mark_matches};
use crate::document::installation::Installation;
use crate::document::table;
use crate::engine::egt;
use crate::path::report::gauge_temperature;
use crate::units::quantity::metre_per_s;
use crate::units::si::knot;
use core::ops::Range;

/// Speed of a climb that no condition describes, m/s (from memory).
const CLIMB_SPEED: f64 = knot(85.0);
/// Places of the conditions in the design that is drawn.
const ASKED: usize = 0;
const CLIMB: usize = 1;
const LEAN: usize = 2;
const CRUISE: usize = 3;

/// A draw: the answer, and what every reading would show but for its instrument.
#[derive(Debug, Clone)]
pub(crate) struct Record {
    /// The answer, K.
    pub(crate) answer: f64,
    /// Each reading in its SI unit, the model's own error in it; not a number without an answer.
    pub(crate) readings: [f64; READINGS],
    /// Instrument's error of each, in standard deviations.
    pub(crate) errors: [f64; READINGS],
}

/// Draws under way.
#[derive(Debug, Clone)]
pub struct Observing {
    design: Design,
    sampling: Sampling,
    asked: Limit,
    stage: Stage,
    chance: Vec<Chance>,
    done: usize,
    records: Vec<Record>,
}

/// What chance gives a draw beside its assumptions, in standard deviations.
#[derive(Debug, Clone)]
struct Chance {
    /// What the model misses in each of the conditions.
    misses: [Miss; 4],
    /// Each instrument's error.
    errors: [f64; READINGS],
}

impl Chance {
    fn of(sampling: &Sampling, random: &mut fastrand::Rng) -> Self {
        // All numbers are drawn, whether they are used or not, so that draws stay the same.
        let common = sampling.deviations(random);
        Self {
            misses: [ASKED, CLIMB, LEAN, CRUISE]
                .map(|_| Miss::of(common, sampling.deviations(random))),
            errors: sampling.deviations(random),
        }
    }
}

impl Observing {
    /// Draws for an answer: hottest head or oil of a condition.
    ///
    /// # Errors
    /// [`EvaluateError`] if the design is refused or has no such condition.
    ///
    /// # Example
    /// A cool climb tells more of the hottest head on a hot day than the cooler's data sheet:
    /// ```
    /// use coolpath_core::answer::evaluate::Limit;
    /// use coolpath_core::answer::pieces::Pieces;
    /// use coolpath_core::answer::solved::EvaluateError;
    /// use coolpath_core::decide::next::{Candidate, Observing, worths};
    /// use coolpath_core::document::example;
    ///
    /// let mut observing = Observing::new(&example::design(), 1, Limit::Head, 200, 7)?;
    /// while observing.advance(50) {}
    /// let found = worths(&observing);
    /// let place = |wanted| found.iter().position(|worth| worth.candidate == wanted);
    /// assert!(place(Candidate::CoolClimb) < place(Candidate::CoolerSheet));
    /// # Ok::<(), EvaluateError>(())
    /// ```
    pub fn new(
        design: &Design,
        place: usize,
        asked: Limit,
        draws: usize,
        seed: u64,
    ) -> Result<Self, EvaluateError> {
        condition_at(design, place)?;
        let tried = with_tests(design, place);
        let sampling = Sampling::new(&tried, draws, seed)?;
        let mut random = fastrand::Rng::with_seed(seed.wrapping_add(1));
        Ok(Self {
            chance: (0..sampling.draws())
                .map(|_| Chance::of(&sampling, &mut random))
                .collect(),
            sampling,
            design: tried,
            asked,
            stage: Stage::of(design),
            done: 0,
            records: Vec::new(),
        })
    }

    /// Where the builder stands.
    #[must_use]
    pub fn stage(&self) -> Stage {
        self.stage
    }

    /// The draws that have an answer.
    pub(crate) fn records(&self) -> &[Record] {
        &self.records
    }

    /// Whether what a candidate reads is still unknown.
    pub(crate) fn is_open(&self, candidate: Candidate) -> bool {
        candidate.readings().iter().all(|reading| {
            let inputs = reading.inputs();
            inputs.is_empty() || self.input_of(*reading).is_some()
        })
    }

    /// The input that a reading shows directly, if it is one of the assumptions.
    fn input_of(&self, reading: Observed) -> Option<&'static str> {
        let assumed = |id: &&&'static str| {
            let all = &self.sampling.assumptions;
            all.iter().any(|assumption| assumption.input.id == **id)
        };
        reading.inputs().iter().find(assumed).copied()
    }

    fn solved(&self, varied: &Design, place: usize, miss: &Miss) -> Option<Solved> {
        let installation = &varied.installation;
        let condition = missed(installation, &varied.conditions[place], miss.oil_k);
        solve_draw(installation, &condition, self.sampling.nominal(place)).ok()
    }

    fn answer(&self, varied: &Design, miss: &Miss) -> Option<f64> {
        let solved = self.solved(varied, ASKED, miss)?;
        let figures = figures(&varied.installation, &solved);
        Some(match self.asked {
            Limit::Head => figures.head_hottest + miss.hottest_k(),
            Limit::Oil => figures.oil + miss.oil_k,
        })
    }

    fn readings(&self, varied: &Design, misses: &[Miss; 4]) -> [f64; READINGS] {
        let mut readings = [f64::NAN; READINGS];
        let installation = &varied.installation;
        for (place, slots) in [
            (
                CLIMB,
                [
                    Observed::ClimbMean,
                    Observed::ClimbExcess,
                    Observed::ClimbOil,
                ],
            ),
            (
                LEAN,
                [Observed::LeanMean, Observed::LeanExcess, Observed::LeanOil],
            ),
            (
                CRUISE,
                [
                    Observed::CruiseMean,
                    Observed::CruiseExcess,
                    Observed::CruiseOil,
                ],
            ),
        ] {
            let miss = &misses[place];
            let Some(solved) = self.solved(varied, place, miss) else {
                continue;
            };
            let [mean, excess, oil] = slots.map(|slot| slot as usize);
            let mean_k = mean_reading(installation, &solved);
            readings[mean] = mean_k + miss.mean_k;
            readings[excess] = hottest_reading(installation, &solved) - mean_k + miss.excess_k;
            readings[oil] = figures(installation, &solved).oil + miss.oil_k;
            if place == CLIMB {
                climb_readings(installation, &solved, miss, &mut readings);
            }
        }
        for reading in [
            Observed::KnownHead,
            Observed::KnownDrop,
            Observed::Leak,
            Observed::CoolerHeat,
        ] {
            let value = self
                .input_of(reading)
                .and_then(table::by_id)
                .and_then(|input| input.value(varied, 0));
            readings[reading as usize] = value.unwrap_or(f64::NAN);
        }
        readings
    }
}

/// Each draw is a piece: the answer and every reading, all of them no numbers where there is no answer.
impl Pieces for Observing {
    fn progress(&self) -> (usize, usize) {
        (self.done, self.chance.len())
    }

    fn numbers(&self, draws: Range<usize>) -> Vec<f64> {
        let mut varied = self.design.clone();
        let mut numbers = Vec::new();
        for draw in draws {
            self.sampling.vary(draw, &mut varied);
            let misses = &self.chance[draw].misses;
            let answer = self.answer(&varied, &misses[ASKED]);
            numbers.push(answer.unwrap_or(f64::NAN));
            numbers.extend(answer.map_or([f64::NAN; READINGS], |_| self.readings(&varied, misses)));
        }
        numbers
    }

    fn take(&mut self, numbers: &[f64]) {
        for [answer, readings @ ..] in numbers.as_chunks::<{ 1 + READINGS }>().0 {
            if !answer.is_nan() {
                self.records.push(Record {
                    answer: *answer,
                    readings: *readings,
                    errors: self.chance[self.done].errors,
                });
            }
            self.done += 1;
        }
    }
}

/// What is read in the climb beside heads and oil.
fn climb_readings(
    installation: &Installation,
    solved: &Solved,
    miss: &Miss,
    readings: &mut [f64; READINGS],
) {
    let state = &solved.solution.state;
    let prepared = &solved.prepared;
    let drop = state.trial.upper_pa - state.trial.lower_pa;
    let exits = prepared.cowl.exits.as_slice();
    let fall = gauge_temperature(state, false) - gauge_temperature(state, true);
    let over_peak = prepared.phi / installation.engine.peak_egt;
    for (slot, value) in [
        (
            Observed::ClimbOilFall,
            // The oil's miss is one of the level, by the share of itself here.
            fall * (1.0 + miss.oil_k / (state.trial.oil_k - state.upper_k).max(1.0)),
        ),
        (Observed::ClimbDrop, drop * (1.0 + miss.drop_share)),
        (Observed::ClimbLower, state.trial.lower_pa),
        (
            Observed::ClimbExit,
            exits.first().map_or(f64::NAN, |exit| exit.outside_pa),
        ),
        (
            Observed::ClimbFuel,
            prepared.fuel_kg_s / installation.engine.fuel_flow_scale,
        ),
        (Observed::ClimbExhaust, -egt::below_peak(over_peak)),
        (
            Observed::SisterExcess,
            readings[Observed::ClimbExcess as usize],
        ),
    ] {
        readings[slot as usize] = value;
    }
}

/// The design with the condition that is asked about alone, and the test flights behind it.
fn with_tests(design: &Design, place: usize) -> Design {
    let asked = design.conditions[place].clone();
    let of_phase = |phase: Phase| {
        let own = (asked.phase == phase).then_some(&asked);
        own.or_else(|| design.conditions.iter().find(|other| other.phase == phase))
            .unwrap_or(&asked)
    };
    let climb = cooler(&flown(
        of_phase(Phase::Climb),
        Phase::Climb,
        Mixture::FullRich,
    ));
    let lean = flown(&climb, Phase::Climb, Mixture::BestPower);
    let cruise = flown(of_phase(Phase::Cruise), Phase::Cruise, Mixture::BestPower);
    let mut tried = design.clone();
    tried.conditions = vec![asked, climb, lean, cruise];
    // Marks of a condition belong to its place, which is another one now.
    let moved = |text: &String| -> Option<String> {
        let Some(id) = text
            .split('#')
            .next()
            .filter(|id| id.starts_with("condition."))
        else {
            return Some(text.clone());
        };
        mark_matches(text, id, place).then(|| mark(id, ASKED))
    };
    tried.measured = design.measured.iter().filter_map(moved).collect();
    tried
        .calibrated
        .retain_mut(|noted| match moved(&noted.input) {
            Some(text) => {
                noted.input = text;
                true
            }
            None => false,
        });
    tried
}

/// A condition as it is flown for a test: shutter open, at a mixture by name.
fn flown(condition: &Condition, phase: Phase, mixture: Mixture) -> Condition {
    let mut flown = Condition {
        phase,
        mixture,
        ..condition.with_shutter_open()
    };
    if flown.airspeed.value <= 0.0 {
        flown.airspeed = metre_per_s(CLIMB_SPEED);
    }
    flown
}
