//! An upper deck that is split in a left and a right half over the two banks.
//!
//! ```text
//!   inlets left ─► left half ──► fins of the left bank ──┐
//!                      │ opening across                  ├─► lower deck
//!   inlets right ─► right half ► fins of the right bank ─┘
//! ```
//!
//! Each bank has half of the fins, of the heads' heat and of all leaks: it behaves as the whole engine does
//! at twice its own flow. The oil cooler takes its air from one half. What joins the halves is an orifice:
//! Δp = w|w| / (2 ρ (C_d A)²). The network of one deck, solved before, is where Newton begins; a large
//! opening leads back to it. Air must run down through the fins of both banks, and forward through a
//! cooler that takes it from the deck; where it does not, no answer is given.

use crate::air::atmosphere;
use crate::math::elimination::linear_solution;
use crate::path::balance::Entering;
use crate::path::budget::Budget;
use crate::path::element::orifice_flow;
use crate::path::network::{Cowl, Discharge, Supply};
use crate::path::newton::{BALANCED, GAUGE_SCALE_K, Goal, Scale};
use crate::path::openings::MAX_OPENINGS;
use crate::path::report::{Method, Report, Solution, SolveError, gauge_temperature};
use crate::path::split_deck::Halves;
use crate::path::state::{FlowTerms, HeatedFlow, Residual, Side, Sides, State, Trial};

const UNKNOWNS: usize = 8;
type Vector = [f64; UNKNOWNS];
const MAX_STEPS: u32 = 40;
/// Residual that is still accepted where rounding stops the last steps [-].
const ACCEPTED: f64 = 1e-9;
/// An opening that would carry less than this share of the flow is shut [-].
const SHUT: f64 = 1e-9;

/// Unknowns of the split network.
#[derive(Debug, Clone, Copy)]
struct Point {
    /// Flow through the fins of each bank, kg/s.
    fins: [f64; 2],
    /// Pressure of each half, Pa gauge.
    upper: [f64; 2],
    cooler_kg_s: f64,
    lower_pa: f64,
    oil_k: f64,
    /// From the left half to the right, kg/s.
    across_kg_s: f64,
}

impl Point {
    fn of(trial: &Trial) -> Self {
        Self {
            fins: [0.5 * trial.fin_kg_s; 2],
            upper: [trial.upper_pa; 2],
            cooler_kg_s: trial.cooler_kg_s,
            lower_pa: trial.lower_pa,
            oil_k: trial.oil_k,
            across_kg_s: 0.0,
        }
    }

    /// A part of a step away; flows but that across grow or shrink by a factor.
    fn moved(&self, step: &Vector, share: f64) -> Self {
        let grown = |flow: f64, by: f64| flow * libm::exp(share * by);
        Self {
            fins: [grown(self.fins[0], step[0]), grown(self.fins[1], step[1])],
            upper: [
                self.upper[0] + share * step[2],
                self.upper[1] + share * step[3],
            ],
            cooler_kg_s: grown(self.cooler_kg_s, step[4]),
            lower_pa: self.lower_pa + share * step[5],
            oil_k: self.oil_k + share * step[6],
            across_kg_s: self.across_kg_s + share * step[7],
        }
    }

    /// Whether next to nothing runs down through one bank, or presses on it.
    fn is_about_to_reverse(&self) -> bool {
        const LITTLE_FLOW: f64 = 0.1;
        const LITTLE_PRESSURE: f64 = 0.05;
        let little =
            |[left, right]: [f64; 2], share: f64| left.min(right) < share * left.max(right);
        let across = self.upper.map(|upper_pa| upper_pa - self.lower_pa);
        little(self.fins, LITTLE_FLOW) || little(across, LITTLE_PRESSURE)
    }

    /// A half as a whole engine that runs at twice its flow.
    fn doubled(&self, half: usize, cooler_kg_s: f64) -> Trial {
        Trial {
            fin_kg_s: 2.0 * self.fins[half],
            cooler_kg_s,
            upper_pa: self.upper[half],
            lower_pa: self.lower_pa,
            oil_k: self.oil_k,
        }
    }
}

/// A trial worked out: what is left of the balances, and the state as of one deck.
struct Worked {
    state: State,
    residual: Vector,
    size: f64,
}

/// Solves the network with its upper deck split.
///
/// # Arguments
/// * `whole` - the solution with one deck
///
/// # Errors
/// [`SolveError::HalvesReversed`] where air runs upward or backward; [`SolveError::NotConverged`];
/// [`SolveError::GaveUp`].
pub(super) fn solve_halves(
    cowl: &Cowl,
    halves: &Halves,
    whole: &Solution,
    goal: Goal,
    scale: &Scale,
    budget: &Budget<'_>,
) -> Result<Solution, SolveError> {
    let split = Split {
        cowl,
        halves: *halves,
        goal,
        scale,
        budget,
        tight: cowl.cooler.duct.is_tight() && goal == Goal::Pressure,
    };
    let trial = whole.state.trial;
    if trial.fin_kg_s <= 0.0 || !(split.tight || split.cooler_is_forward(trial.cooler_kg_s)) {
        return Err(SolveError::HalvesReversed);
    }
    let mut point = Point::of(&trial);
    if split.tight {
        point.cooler_kg_s = 0.0;
    }
    let mut found = split.balanced(point);
    if found.worked.size > ACCEPTED {
        found = split.narrowed(point);
    }
    budget.lasts()?;
    let residual = found.worked.size;
    let iterations = whole.report.iterations + found.steps;
    if residual > ACCEPTED {
        return Err(if found.point.is_about_to_reverse() {
            SolveError::HalvesReversed
        } else {
            SolveError::NotConverged {
                residual,
                iterations,
            }
        });
    }
    Ok(Solution {
        state: found.worked.state,
        report: Report {
            method: Method::Halves,
            iterations,
            residual,
        },
    })
}

/// Where Newton came to.
struct Found {
    point: Point,
    worked: Worked,
    steps: u32,
}

/// A split network and what is asked of it.
#[derive(Clone, Copy)]
struct Split<'a> {
    cowl: &'a Cowl,
    halves: Halves,
    goal: Goal,
    scale: &'a Scale,
    budget: &'a Budget<'a>,
    /// Nothing passes the cooler.
    tight: bool,
}

impl Split<'_> {
    /// Whether a flow's air has a temperature that is known before the lower deck's.
    fn cooler_is_forward(&self, cooler_kg_s: f64) -> bool {
        cooler_kg_s > 0.0 || self.cowl.cooler_draws_from_outside(cooler_kg_s)
    }

    /// Newton's steps from a start, until it balances or nothing comes closer.
    fn balanced(&self, start: Point) -> Found {
        let mut found = Found {
            point: start,
            worked: self.worked(&start),
            steps: 0,
        };
        for _ in 0..MAX_STEPS {
            if found.worked.size <= BALANCED * 0.1 || self.budget.is_spent() {
                break;
            }
            let residual = &found.worked.residual;
            let slopes = self.slopes(&found.point, residual);
            let Some(step) = linear_solution(&slopes, &residual.map(|part| -part)) else {
                break;
            };
            let Some((point, worked)) = self.accepted(&found.point, &step, found.worked.size)
            else {
                break;
            };
            found = Found {
                point,
                worked,
                steps: found.steps + 1,
            };
        }
        found
    }

    /// From an opening so wide that the halves are nearly one deck to the one that is asked for.
    fn narrowed(&self, start: Point) -> Found {
        /// Share of the way, in logarithms, of the first step and of the shortest.
        const STEP: (f64, f64) = (1.0 / 12.0, 1.0 / 800.0);
        // As wide as carries the whole flow at a hundredth of the span.
        let span = 0.01 * self.scale.pressure_pa;
        let wide = self.scale.flow_kg_s / libm::sqrt(2.0 * self.cowl.stream.density * span);
        let asked = self.halves.across_m2.max(1e-6 * wide);
        let ratio = (wide / asked).max(1.0);
        let at = |left: f64| {
            let mut split = *self;
            if left > 0.0 {
                split.halves.across_m2 = asked * libm::pow(ratio, left);
            }
            split
        };
        let mut last = at(1.0).balanced(start);
        let (mut left, mut step) = (1.0, STEP.0);
        while last.worked.size <= ACCEPTED && left > 0.0 && !self.budget.is_spent() {
            let next_left = if left - step < 0.5 * STEP.1 {
                0.0
            } else {
                left - step
            };
            let next = at(next_left).balanced(last.point);
            if next.worked.size <= ACCEPTED {
                (last, left) = (next, next_left);
                step = (1.5 * step).min(STEP.0);
            } else if step > STEP.1 {
                step *= 0.5;
            } else {
                // The nearest that was balanced tells why.
                return Found {
                    worked: next.worked,
                    ..last
                };
            }
        }
        last
    }

    fn slopes(&self, point: &Point, residual: &Vector) -> [Vector; UNKNOWNS] {
        const DIFFERENCE: f64 = 1e-6;
        let pressure = DIFFERENCE * self.scale.pressure_pa;
        let flow = DIFFERENCE * self.scale.flow_kg_s;
        let sizes = [
            DIFFERENCE, DIFFERENCE, pressure, pressure, DIFFERENCE, pressure, 1e-4, flow,
        ];
        let mut matrix = [[0.0; UNKNOWNS]; UNKNOWNS];
        for (column, size) in sizes.into_iter().enumerate() {
            if column == 4 && self.tight {
                matrix[4][4] = 1.0;
                continue;
            }
            let mut step = [0.0; UNKNOWNS];
            step[column] = size;
            let shifted = self.worked(&point.moved(&step, 1.0)).residual;
            for (row, line) in matrix.iter_mut().enumerate() {
                line[column] = (shifted[row] - residual[row]) / size;
            }
        }
        matrix
    }

    /// The step, or the part of it that lessens the residual; `None` if no part does.
    fn accepted(&self, point: &Point, step: &Vector, size: f64) -> Option<(Point, Worked)> {
        let span = self.scale.pressure_pa;
        let limits = [2.0, 2.0, span, span, 2.0, span, 120.0, f64::INFINITY];
        let mut share = step
            .iter()
            .zip(limits)
            .fold(1.0, |share: f64, (part, limit)| {
                share.min(limit / part.abs().max(limit.min(f64::MAX)))
            });
        for _ in 0..12 {
            let next = point.moved(step, share);
            let worked = self.worked(&next);
            if worked.size < size {
                return Some((next, worked));
            }
            share *= 0.4;
        }
        None
    }

    fn worked(&self, point: &Point) -> Worked {
        self.budget.spend();
        let cowl = self.cowl;
        let taking = self.halves.half_of_cooler();
        let outside_k = cowl.stream.total_k;
        let mut entering = Entering::default();
        let mut banks: [State; 2] = core::array::from_fn(|half| {
            let trial = point.doubled(half, point.cooler_kg_s);
            let mut state = cowl.blank(trial, FlowTerms::of(cowl, &trial, None));
            cowl.pass_fins(&mut state, outside_k, point.lower_pa);
            cowl.pass_leaks(&mut state, trial.upper_pa, outside_k);
            state
        });
        for (bank, flow) in banks.iter().zip(point.fins) {
            entering.lower.add(flow, bank.fins.out_k);
            let leaks = 0.5 * (bank.seal_kg_s + bank.blast_kg_s);
            entering.lower.add(leaks, outside_k);
        }
        let rise = self.preheat(&banks[taking], point);
        entering.lower.flow_k -= point.cooler_kg_s * rise;
        cowl.pass_cooler(&mut banks[taking], outside_k + rise, None, &mut entering);
        let mut state = self.joined(point, &banks);
        state.preheat_w = point.cooler_kg_s * atmosphere::SPECIFIC_HEAT * rise;
        self.lower_deck(&mut state, entering);
        let flows: [HalfFlows; 2] = core::array::from_fn(|half| self.half_flows(point, half));
        self.sum_up(&mut state, &banks, &flows, point);
        let residual = self.residual(&state, &banks, &flows, point);
        let size = residual.iter().fold(0.0, |most: f64, part| {
            if part.is_nan() {
                f64::INFINITY
            } else {
                most.max(part.abs())
            }
        });
        Worked {
            state,
            residual,
            size,
        }
    }

    /// How much warmer the cooler's air is for having passed a cylinder of its bank, K.
    fn preheat(&self, bank: &State, point: &Point) -> f64 {
        if self.cowl.cooler.supply != Supply::UpperDeck || point.cooler_kg_s <= 0.0 {
            return 0.0;
        }
        let fins = point.fins[self.halves.half_of_cooler()];
        let share = self.cowl.cooler.preheat_share.min(fins / point.cooler_kg_s);
        share * (bank.fins.out_k - bank.fins.in_k)
    }

    /// Both banks as one engine.
    fn joined(&self, point: &Point, banks: &[State; 2]) -> State {
        let taking = &banks[self.halves.half_of_cooler()];
        let mean = |part: fn(&State) -> f64| 0.5 * (part(&banks[0]) + part(&banks[1]));
        let fin_kg_s = point.fins[0] + point.fins[1];
        let trial = Trial {
            fin_kg_s,
            cooler_kg_s: point.cooler_kg_s,
            upper_pa: 0.5 * (point.upper[0] + point.upper[1]),
            lower_pa: point.lower_pa,
            oil_k: point.oil_k,
        };
        let terms = FlowTerms {
            fin_w_k: mean(|bank| bank.terms.fin_w_k),
            fin_sigma_pa: mean(|bank| bank.terms.fin_sigma_pa),
            ..taking.terms
        };
        let mut state = self.cowl.blank(trial, terms);
        state.head_k = mean(|bank| bank.head_k);
        let heat_w = mean(|bank| bank.fins.heat_w);
        state.fins = HeatedFlow {
            flow_kg_s: fin_kg_s,
            in_k: state.upper_k,
            out_k: state.upper_k + heat_w / (fin_kg_s * atmosphere::SPECIFIC_HEAT),
            heat_w,
            drop_pa: mean(|bank| bank.fins.drop_pa),
        };
        state.cooler = taking.cooler;
        state.cooler_jet_m_s = taking.cooler_jet_m_s;
        state.seal_kg_s = mean(|bank| bank.seal_kg_s);
        state.blast_kg_s = mean(|bank| bank.blast_kg_s);
        state
    }

    /// Temperature of the lower deck, and what leaves it.
    fn lower_deck(&self, state: &mut State, mut entering: Entering) {
        let cowl = self.cowl;
        let outside_k = cowl.stream.total_k;
        let ambient_pa = cowl.stream.pressure_pa;
        let lower_pa = state.trial.lower_pa;
        let inflow = cowl.inflow;
        if lower_pa < inflow.outside_pa {
            state.inflow_kg_s = -cowl.inward(inflow, lower_pa);
            entering.lower.add(state.inflow_kg_s, outside_k);
        }
        for (flow, exit) in state.exits.iter_mut().zip(cowl.exits.as_slice()) {
            if lower_pa < exit.rest_pa() {
                *flow = exit.flow(lower_pa, outside_k, ambient_pa, outside_k);
                entering.lower.add(-flow.flow_kg_s, outside_k);
            }
        }
        state.lower_k = cowl.lower_temperature(entering.lower, state.trial.oil_k);
        if lower_pa >= inflow.outside_pa {
            let density = atmosphere::density(ambient_pa + lower_pa, state.lower_k);
            state.inflow_kg_s = orifice_flow(
                inflow.effective_area_m2,
                inflow.outside_pa - lower_pa,
                density,
            );
        }
        for (flow, exit) in state.exits.iter_mut().zip(cowl.exits.as_slice()) {
            if lower_pa >= exit.rest_pa() {
                *flow = exit.flow(lower_pa, state.lower_k, ambient_pa, outside_k);
            }
        }
    }

    /// What crosses between a half and the outside.
    fn half_flows(&self, point: &Point, half: usize) -> HalfFlows {
        let cowl = self.cowl;
        let upper_pa = point.upper[half];
        let inside = atmosphere::density(cowl.stream.pressure_pa + upper_pa, cowl.stream.total_k);
        let mut flows = HalfFlows::default();
        for (place, inlet) in cowl.inlets.as_slice().iter().enumerate() {
            let density = if upper_pa <= inlet.ram_pa {
                inlet.density
            } else {
                inside
            };
            flows.inlets[place] = self.halves.share(place, half) * inlet.flow(upper_pa, density);
        }
        for (opening, flow) in [
            (cowl.overboard, &mut flows.overboard_kg_s),
            (cowl.cabin, &mut flows.cabin_kg_s),
        ] {
            let drop = upper_pa - opening.outside_pa;
            *flow = 0.5
                * if drop < 0.0 {
                    cowl.inward(opening, upper_pa)
                } else {
                    orifice_flow(opening.effective_area_m2, drop, inside)
                };
        }
        flows
    }

    fn sum_up(&self, state: &mut State, banks: &[State; 2], flows: &[HalfFlows; 2], point: &Point) {
        let cowl = self.cowl;
        for (place, flow) in state.inlets.iter_mut().enumerate() {
            *flow = flows[0].inlets[place] + flows[1].inlets[place];
        }
        state.overboard_kg_s = flows[0].overboard_kg_s + flows[1].overboard_kg_s;
        state.cabin_kg_s = flows[0].cabin_kg_s + flows[1].cabin_kg_s;
        state.sump_heat_w = cowl.oil.sump_w_k * (point.oil_k - state.lower_k);
        state.skin_heat_w = cowl.skin_w_k * (state.lower_k - cowl.stream.temperature_k);
        state.oil_heat_w =
            cowl.oil.friction_heat_w + cowl.heads.oil_w_k * (state.head_k - point.oil_k);
        let side = |half: usize| Side {
            upper_pa: point.upper[half],
            fin_kg_s: point.fins[half],
            fin_w_k: banks[half].terms.fin_w_k,
            head_k: banks[half].head_k,
            rear_k: banks[half].fins.out_k,
            drop_pa: banks[half].fins.drop_pa,
        };
        state.sides = Some(Sides {
            left: side(0),
            right: side(1),
            across_kg_s: point.across_kg_s,
        });
        let (from, to) =
            cowl.cooler_ends(point.upper[self.halves.half_of_cooler()], point.lower_pa);
        state.residual = Residual {
            cooler_pa: from - to - state.cooler.drop_pa,
            oil_w: state.oil_heat_w - state.cooler.heat_w - state.sump_heat_w,
            ..Residual::default()
        };
    }

    fn residual(
        &self,
        state: &State,
        banks: &[State; 2],
        flows: &[HalfFlows; 2],
        point: &Point,
    ) -> Vector {
        let (cowl, scale) = (self.cowl, self.scale);
        let fins = |half: usize| {
            (point.upper[half] - point.lower_pa - banks[half].fins.drop_pa) / scale.pressure_pa
        };
        let takes_from_deck = cowl.cooler.supply == Supply::UpperDeck;
        let upper = |half: usize| {
            let bank = &banks[half];
            let inlets: f64 = flows[half].inlets.iter().sum();
            let cooler = if takes_from_deck && half == self.halves.half_of_cooler() {
                point.cooler_kg_s
            } else {
                0.0
            };
            let across = if half == 0 {
                point.across_kg_s
            } else {
                -point.across_kg_s
            };
            let out = point.fins[half]
                + 0.5 * (bank.seal_kg_s + bank.blast_kg_s + cowl.induction_kg_s)
                + flows[half].overboard_kg_s
                + flows[half].cabin_kg_s
                + cooler
                + across;
            (inlets - out) / scale.flow_kg_s
        };
        let exits: f64 = state.exits.iter().map(|exit| exit.flow_kg_s).sum();
        let into_lower = if cowl.cooler.discharge == Discharge::LowerDeck {
            point.cooler_kg_s
        } else {
            0.0
        };
        let lower = state.trial.fin_kg_s
            + state.seal_kg_s
            + state.blast_kg_s
            + into_lower
            + state.inflow_kg_s
            - exits;
        let cooler = match self.goal {
            Goal::Pressure if self.tight => 0.0,
            Goal::Pressure => state.residual.cooler_pa / scale.pressure_pa,
            Goal::Gauge(gauge) => {
                (gauge_temperature(state, gauge.after_cooler) - gauge.target_k) / GAUGE_SCALE_K
            }
        };
        [
            fins(0),
            fins(1),
            upper(0),
            upper(1),
            cooler,
            lower / scale.flow_kg_s,
            state.residual.oil_w / scale.heat_w,
            self.across(point),
        ]
    }

    /// What is left of (p_left − p_right) 2 ρ (C_d A)² = w|w|.
    fn across(&self, point: &Point) -> f64 {
        let area = self.halves.across_m2;
        let flow = self.scale.flow_kg_s;
        let per_pascal = 2.0 * self.cowl.stream.density * area * area;
        if per_pascal * self.scale.pressure_pa < SHUT * SHUT * flow * flow {
            return point.across_kg_s / flow;
        }
        let driven = per_pascal * (point.upper[0] - point.upper[1]);
        let carried = point.across_kg_s * point.across_kg_s.abs();
        (driven - carried) / (per_pascal * self.scale.pressure_pa + flow * flow)
    }
}

/// What crosses between a half and the outside, kg/s, inlets inward, the others outward.
#[derive(Debug, Clone, Copy, Default)]
struct HalfFlows {
    inlets: [f64; MAX_OPENINGS],
    overboard_kg_s: f64,
    cabin_kg_s: f64,
}
