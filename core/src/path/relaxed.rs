//! A start for Newton where the usual ones fail, from any network at once.
//!
//! Each branch's pressure drop is taken as a straight line about its present flow; both deck
//! pressures then follow from two linear balances, and new flows from the pressures. In flows a
//! branch that hardly flows is as tame as any other, which it is not in pressures. Temperatures and
//! the oil follow one round behind.
//!
//! # Sources
//! Todini, Pilati, A Gradient Algorithm for the Analysis of Pipe Networks, 1988 (method from
//! memory).

use crate::air::atmosphere;
use crate::path::budget::Budget;
use crate::path::element::{Exit, Inlet, loss_drop, orifice_flow};
use crate::path::network::{Cowl, Discharge, Supply};
use crate::path::newton::Scale;
use crate::path::openings::MAX_OPENINGS;
use crate::path::state::{State, Trial};

/// Where a branch begins or ends.
#[derive(Debug, Clone, Copy)]
enum End {
    Upper,
    Lower,
    /// Outside, at a pressure, Pa gauge.
    Outside(f64),
}

/// What a branch asks of its flow.
#[derive(Debug, Clone, Copy)]
enum Law {
    Inlet(Inlet),
    /// A sharp opening, C_d A in m².
    Opening(f64),
    /// A nozzle, by its place among the exits.
    Exit(Exit, usize),
    Fins,
    Cooler,
}

/// A branch, its present flow, kg/s, and the line about it.
#[derive(Debug, Clone, Copy)]
struct Branch {
    from: End,
    to: End,
    law: Law,
    flow: f64,
    /// Its line: W = `at_no_difference` + `conductance` (p_from − p_to).
    at_no_difference: f64,
    conductance: f64,
}

/// Inlets, exits, three leaks to the outside, seal, blast tubes, fins, cooler.
const MOST_BRANCHES: usize = 2 * MAX_OPENINGS + 7;

/// Rounds at most.
const ROUNDS: u32 = 200;
/// Rounds before temperatures and oil go only half their way: a stream that turns back and forth
/// would carry them to and fro for ever.
const UNDAMPED: u32 = 30;
/// Change of flows and pressures, as a share of their scales, that counts as none.
const NEAR: f64 = 1e-13;
/// Flow below which a branch is taken as straight, as a share of the scale.
const STRAIGHT: f64 = 1e-13;
/// Least that a nozzle passes of what a sharp opening would: choked.
const LEAST_SHARE: f64 = 0.1;
/// Hottest that air may be, as a share of the gas in the cylinders [-]: flows that do not balance
/// yet can mix to any temperature.
const HOTTEST: f64 = 2.0;
/// The same where even a trickle past the exhaust is to balance [-].
const HOTTEST_OF_ANY: f64 = 100.0;
/// Difference over which the slope of the oil's balance is taken, K.
const OIL_DIFFERENCE_K: f64 = 1e-3;
/// Most that the oil moves in one round, K.
const OIL_STEP_K: f64 = 60.0;

/// What the oil does meanwhile.
#[derive(Debug, Clone, Copy)]
pub(super) enum Oil {
    /// It begins at a temperature, K, and follows its own balance.
    Free(f64),
    /// It is held at a temperature, K.
    Held(f64),
    /// The same; a deck that hardly any air passes may be as hot as its heat makes it.
    HeldInAnyAir(f64),
}

/// Where the rounds came to rest.
#[derive(Debug, Clone, Copy)]
pub(super) struct Relaxed {
    /// The trial.
    pub trial: Trial,
    /// Flows and pressures no longer changed.
    pub at_rest: bool,
    /// The openings cannot feed what the intake takes: no deck can be so empty.
    pub starved: bool,
}

/// Relaxes a network.
///
/// # Arguments
/// * `oil` - what the oil does
/// * `scale` - of flows and pressures
/// * `budget` - states that may be worked out
pub(super) fn relaxed(cowl: &Cowl, oil: Oil, scale: &Scale, budget: &Budget<'_>) -> Relaxed {
    let Scale {
        flow_kg_s,
        pressure_pa,
        ..
    } = *scale;
    let (oil_k, oil_is_free, hottest) = match oil {
        Oil::Free(oil_k) => (oil_k, true, HOTTEST),
        Oil::Held(oil_k) => (oil_k, false, HOTTEST),
        Oil::HeldInAnyAir(oil_k) => (oil_k, false, HOTTEST_OF_ANY),
    };
    let outside_k = cowl.stream.temperature_k;
    let bounds_k = (0.5 * outside_k, hottest * cowl.heads.gas_k.max(outside_k));
    let mut branches = Branches::of(cowl, flow_kg_s);
    let (low, high) = cowl.pressure_bounds();
    let floor_pa = cowl.pressure_floor();
    let mut decks = [0.5 * (low + high); 2];
    let mut trial = branches.trial(decks, oil_k, floor_pa);
    let mut last_oil_step = 0.0_f64;
    let mut at_rest = false;
    let mut temperatures = None;
    for round in 0..ROUNDS {
        if budget.is_spent() {
            break;
        }
        let share = if round < UNDAMPED { 1.0 } else { 0.5 };
        let state = budget.state(cowl, trial);
        let state = tamed(state, bounds_k, share, &mut temperatures);
        let Some(next) = branches.step(cowl, &state, STRAIGHT * flow_kg_s) else {
            break;
        };
        let moved = (next[0] - decks[0]).abs().max((next[1] - decks[1]).abs());
        let flows = branches.follow(next);
        decks = next;
        let mut oil = trial.oil_k;
        let mut oil_step = 0.0;
        if oil_is_free {
            oil_step = share * oil_correction(cowl, &state, budget);
            if oil_step * last_oil_step < 0.0 {
                oil_step *= 0.5;
            }
            last_oil_step = oil_step;
            oil += oil_step;
        }
        trial = branches.trial(decks, oil, floor_pa);
        let pressures = decks
            .iter()
            .fold(pressure_pa, |most, pa| most.max(pa.abs()));
        if moved <= NEAR * pressures && flows <= NEAR * flow_kg_s && oil_step.abs() <= NEAR * oil {
            at_rest = true;
            break;
        }
    }
    Relaxed {
        trial,
        at_rest,
        starved: at_rest
            && (0..2).any(|deck| decks[deck] < floor_pa && cowl.drawn_kg_s()[deck] > 0.0),
    }
}

/// A state with temperatures that air can have, since flows that do not balance yet can mix to any,
/// and that have gone only a share of the way from those of the round before.
fn tamed(
    mut state: State,
    (least, most): (f64, f64),
    share: f64,
    before: &mut Option<[f64; 5]>,
) -> State {
    let mut temperatures = [
        &mut state.upper_k,
        &mut state.lower_k,
        &mut state.fins.out_k,
        &mut state.cooler.in_k,
        &mut state.cooler.out_k,
    ];
    for (place, temperature_k) in temperatures.iter_mut().enumerate() {
        // Also if it is not a number.
        **temperature_k = temperature_k.max(least).min(most);
        if let Some(before) = before {
            **temperature_k = before[place] + share * (**temperature_k - before[place]);
        }
    }
    *before = Some(temperatures.map(|temperature_k| *temperature_k));
    state
}

/// Newton's step of the oil towards its own balance, K, with flows and pressures as they are.
fn oil_correction(cowl: &Cowl, state: &State, budget: &Budget<'_>) -> f64 {
    let oil_k = state.trial.oil_k;
    let warmer = Trial {
        oil_k: oil_k + OIL_DIFFERENCE_K,
        ..state.trial
    };
    let gained = state.residual.oil_w;
    let warmer_w = budget.state_near(cowl, warmer, state).residual.oil_w;
    let slope = (warmer_w - gained) / OIL_DIFFERENCE_K;
    let most = OIL_STEP_K.min(0.5 * oil_k);
    let step = if slope < 0.0 {
        -gained / slope
    } else {
        most.copysign(gained)
    };
    if step.is_nan() {
        return 0.0;
    }
    step.clamp(-most, most)
}

struct Branches {
    items: [Branch; MOST_BRANCHES],
    count: usize,
    drawn_kg_s: [f64; 2],
}

impl Branches {
    /// All branches of a cowl, each with some flow.
    fn of(cowl: &Cowl, flow_kg_s: f64) -> Self {
        let blank = Branch {
            from: End::Upper,
            to: End::Lower,
            law: Law::Fins,
            flow: 0.5 * flow_kg_s,
            at_no_difference: 0.0,
            conductance: 0.0,
        };
        let mut branches = Self {
            items: [blank; MOST_BRANCHES],
            count: 0,
            drawn_kg_s: cowl.drawn_kg_s(),
        };
        let mut add = |from, to, law| {
            branches.items[branches.count] = Branch {
                from,
                to,
                law,
                ..blank
            };
            branches.count += 1;
        };
        add(End::Upper, End::Lower, Law::Fins);
        if !cowl.cooler.duct.is_tight() {
            let from = match cowl.cooler.supply {
                Supply::UpperDeck => End::Upper,
                Supply::OwnInlet(inlet) => End::Outside(inlet.ram_pa),
            };
            let to = match cowl.cooler.discharge {
                Discharge::LowerDeck => End::Lower,
                Discharge::OwnExit(exit) => End::Outside(exit.outside_pa),
            };
            add(from, to, Law::Cooler);
        }
        for inlet in cowl.inlets.as_slice() {
            add(End::Outside(inlet.ram_pa), End::Upper, Law::Inlet(*inlet));
        }
        for (place, exit) in cowl.exits.as_slice().iter().enumerate() {
            let law = Law::Exit(*exit, place);
            add(End::Lower, End::Outside(exit.rest_pa()), law);
        }
        for (from, to, area_m2) in [
            (End::Upper, End::Lower, cowl.seal_m2),
            (End::Upper, End::Lower, cowl.blast_m2),
            (
                End::Upper,
                End::Outside(cowl.overboard.outside_pa),
                cowl.overboard.effective_area_m2,
            ),
            (
                End::Upper,
                End::Outside(cowl.cabin.outside_pa),
                cowl.cabin.effective_area_m2,
            ),
            (
                End::Outside(cowl.inflow.outside_pa),
                End::Lower,
                cowl.inflow.effective_area_m2,
            ),
        ] {
            if area_m2 > 0.0 {
                add(from, to, Law::Opening(area_m2));
            }
        }
        branches
    }

    fn all(&self) -> &[Branch] {
        &self.items[..self.count]
    }

    /// The network's own unknowns, with no deck below the floor.
    fn trial(&self, decks: [f64; 2], oil_k: f64, floor_pa: f64) -> Trial {
        let flow = |wanted: fn(&Law) -> bool| {
            let found = self.all().iter().find(|branch| wanted(&branch.law));
            found.map_or(0.0, |branch| branch.flow)
        };
        Trial {
            fin_kg_s: flow(|law| matches!(law, Law::Fins)),
            cooler_kg_s: flow(|law| matches!(law, Law::Cooler)),
            upper_pa: decks[0].max(floor_pa),
            lower_pa: decks[1].max(floor_pa),
            oil_k,
        }
    }

    /// Deck pressures, Pa, at which the straightened branches balance; `None` if they are singular.
    fn step(&mut self, cowl: &Cowl, state: &State, straight_kg_s: f64) -> Option<[f64; 2]> {
        // For each deck Σ ± (W₀ + c (p_from − p_to)) = what is taken from it
        let mut matrix = [[0.0; 2]; 2];
        let mut right = self.drawn_kg_s;
        for branch in &mut self.items[..self.count] {
            branch.straighten(cowl, state, straight_kg_s);
            for (end, sign) in [(branch.to, 1.0), (branch.from, -1.0)] {
                let Some(row) = end.deck() else { continue };
                right[row] -= sign * branch.at_no_difference;
                for (other, other_sign) in [(branch.from, 1.0), (branch.to, -1.0)] {
                    let part = sign * other_sign * branch.conductance;
                    match other {
                        End::Outside(pressure_pa) => right[row] -= part * pressure_pa,
                        End::Upper => matrix[row][0] += part,
                        End::Lower => matrix[row][1] += part,
                    }
                }
            }
        }
        let determinant = matrix[0][0] * matrix[1][1] - matrix[0][1] * matrix[1][0];
        let decks = [
            (right[0] * matrix[1][1] - matrix[0][1] * right[1]) / determinant,
            (matrix[0][0] * right[1] - right[0] * matrix[1][0]) / determinant,
        ];
        decks.iter().all(|pa| pa.is_finite()).then_some(decks)
    }

    /// Takes the flows that the lines give at deck pressures, Pa; returns the largest change, kg/s.
    fn follow(&mut self, decks: [f64; 2]) -> f64 {
        let mut most = 0.0_f64;
        for branch in &mut self.items[..self.count] {
            let difference = branch.from.pressure(decks) - branch.to.pressure(decks);
            let flow = branch.at_no_difference + branch.conductance * difference;
            most = most.max((flow - branch.flow).abs());
            branch.flow = flow;
        }
        most
    }
}

impl End {
    /// Row of the deck in the balances.
    fn deck(self) -> Option<usize> {
        match self {
            Self::Upper => Some(0),
            Self::Lower => Some(1),
            Self::Outside(_) => None,
        }
    }

    /// Pressure, Pa gauge.
    fn pressure(self, decks: [f64; 2]) -> f64 {
        match self {
            Self::Outside(pressure_pa) => pressure_pa,
            Self::Upper => decks[0],
            Self::Lower => decks[1],
        }
    }

    /// Density of the air that comes from here, kg/m³.
    fn density(self, cowl: &Cowl, state: &State) -> f64 {
        let (gauge_pa, temperature_k) = match self {
            Self::Outside(pressure_pa) => (pressure_pa, cowl.stream.total_k),
            Self::Upper => (state.trial.upper_pa, state.upper_k),
            Self::Lower => (state.trial.lower_pa, state.lower_k),
        };
        atmosphere::density(cowl.stream.pressure_pa + gauge_pa, temperature_k)
    }
}

impl Branch {
    /// Takes the drop as a straight line about the present flow.
    fn straighten(&mut self, cowl: &Cowl, state: &State, straight_kg_s: f64) {
        let around = self.flow.abs().max(straight_kg_s);
        let sign = if self.flow < 0.0 { -1.0 } else { 1.0 };
        // On the same side of rest, where the law may change.
        let (near, far) = (sign * around, sign * 1.001 * around);
        let (at_near, at_far) = (self.drop(cowl, state, near), self.drop(cowl, state, far));
        let slope = (at_far - at_near) / (far - near);
        self.conductance = 1.0 / slope.max(f64::MIN_POSITIVE);
        self.at_no_difference = near - self.conductance * at_near;
    }

    /// Pressure used up at a flow, kg/s, with densities as they are, Pa.
    fn drop(&self, cowl: &Cowl, state: &State, flow_kg_s: f64) -> f64 {
        let upstream = if flow_kg_s >= 0.0 { self.from } else { self.to };
        let ambient_pa = cowl.stream.pressure_pa;
        match self.law {
            Law::Inlet(inlet) => inlet.drop(flow_kg_s, upstream.density(cowl, state)),
            Law::Opening(area_m2) => {
                loss_drop(1.0, flow_kg_s, area_m2, upstream.density(cowl, state))
            }
            Law::Fins => {
                let behind_pa = if flow_kg_s >= 0.0 {
                    state.trial.lower_pa
                } else {
                    state.trial.upper_pa
                };
                let behind = atmosphere::density(ambient_pa + behind_pa, state.fins.out_k);
                (cowl.fins.sigma_drop(flow_kg_s) * atmosphere::DENSITY_SL / behind)
                    .copysign(flow_kg_s)
            }
            Law::Cooler => {
                let core_pa = cowl.cooler.duct.core_drop(flow_kg_s.abs());
                cowl.cooler_drop(state, flow_kg_s, core_pa).0
            }
            Law::Exit(exit, place) => {
                // The nozzle as a sharp opening that passes as much at the pressures as they are.
                let difference = state.trial.lower_pa - exit.rest_pa();
                let density = upstream.density(cowl, state);
                let plain = orifice_flow(exit.discharge * exit.area_m2, difference, density);
                let real = state.exits[place].flow_kg_s;
                let share = if flow_kg_s * difference > 0.0 && plain != 0.0 {
                    real / plain
                } else {
                    1.0
                };
                let area_m2 = exit.discharge * exit.area_m2 * share.max(LEAST_SHARE);
                loss_drop(1.0, flow_kg_s, area_m2, density)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answer::prepare::prepare;
    use crate::document::example;
    use crate::path::report::Method;
    use crate::path::solve::solve;

    const SCALE: Scale = Scale {
        pressure_pa: 1000.0,
        flow_kg_s: 1.0,
        heat_w: 1.0,
    };

    #[test]
    fn a_relaxed_network_rests_where_newton_ends() {
        let design = example::design();
        for condition in &design.conditions {
            let cowl = prepare(&design.installation, condition)
                .expect("prepared")
                .cowl;
            let solved = solve(&cowl, None).expect("solved");
            assert_eq!(solved.report.method, Method::Newton);
            let (found, budget) = (solved.state.trial, Budget::of_a_condition());
            let rest = relaxed(&cowl, Oil::Free(400.0), &SCALE, &budget);
            assert!(rest.at_rest && !rest.starved, "{}", condition.name);
            for (a, b) in [
                (found.fin_kg_s, rest.trial.fin_kg_s),
                (found.cooler_kg_s, rest.trial.cooler_kg_s),
                (found.upper_pa, rest.trial.upper_pa),
                (found.lower_pa, rest.trial.lower_pa),
                (found.oil_k, rest.trial.oil_k),
            ] {
                assert!(
                    (a - b).abs() < 1e-8 * a.abs(),
                    "{}: {a} {b}",
                    condition.name
                );
            }
        }
    }

    #[test]
    fn an_intake_that_takes_more_than_any_opening_feeds_is_starved() {
        let design = example::design();
        let mut cowl = prepare(&design.installation, &design.conditions[0])
            .expect("prepared")
            .cowl;
        cowl.induction_kg_s = 100.0;
        let rest = relaxed(&cowl, Oil::Held(370.0), &SCALE, &Budget::of_a_condition());
        assert!(rest.starved, "{:?}", rest.trial);
    }
}
