//! What the streams of a split upper deck do at given pressures and flows, and what is left of the balances.
//!
//! Each bank is worked out as the whole engine at twice the bank's flow, by the elements of the network of
//! one deck.

use crate::air::atmosphere;
use crate::path::balance::Entering;
use crate::path::budget::Budget;
use crate::path::network::{Cowl, Discharge, Supply};
use crate::path::newton::{GAUGE_SCALE_K, Goal, Scale, largest};
use crate::path::openings::MAX_OPENINGS;
use crate::path::report::gauge_temperature;
use crate::path::split_deck::{Halves, of_half};
use crate::path::state::{FlowTerms, HeatedFlow, Residual, Side, Sides, State, Trial};

pub(super) const UNKNOWNS: usize = 8;
pub(super) type Vector = [f64; UNKNOWNS];
/// An opening that would carry less than this share of the flow is shut [-].
const SHUT: f64 = 1e-9;

/// Unknowns of the split network.
#[derive(Debug, Clone, Copy)]
pub(super) struct Point {
    /// Flow through the fins of each bank, kg/s.
    fins: [f64; 2],
    /// Pressure of each half, Pa gauge.
    upper: [f64; 2],
    pub(super) cooler_kg_s: f64,
    lower_pa: f64,
    oil_k: f64,
    /// From the left half to the right, kg/s.
    across_kg_s: f64,
}

impl Point {
    pub(super) fn of(trial: &Trial) -> Self {
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
    pub(super) fn moved(&self, step: &Vector, share: f64) -> Self {
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
    pub(super) fn is_about_to_reverse(&self) -> bool {
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
pub(super) struct Worked {
    pub(super) state: State,
    pub(super) residual: Vector,
    pub(super) size: f64,
}

/// A split network and what is asked of it.
#[derive(Clone, Copy)]
pub(super) struct Split<'a> {
    pub(super) cowl: &'a Cowl,
    pub(super) halves: Halves,
    pub(super) goal: Goal,
    pub(super) scale: &'a Scale,
    pub(super) budget: &'a Budget<'a>,
    /// Nothing passes the cooler.
    pub(super) tight: bool,
}

impl Split<'_> {
    /// Whether a flow's air has a temperature that is known before the lower deck's.
    pub(super) fn cooler_is_forward(&self, cooler_kg_s: f64) -> bool {
        cooler_kg_s > 0.0 || self.cowl.cooler_draws_from_outside(cooler_kg_s)
    }

    /// Everything that follows from a point.
    pub(super) fn worked(&self, point: &Point) -> Worked {
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
            cowl.entering_upper(&mut state, &mut entering.upper);
            cowl.leaving_upper(&mut state);
            state
        });
        for (half, bank) in banks.iter().enumerate() {
            entering.lower.add(point.fins[half], bank.fins.out_k);
            let tubes = of_half(self.halves.draws.blast, half) * bank.blast_kg_s;
            let leaks = 0.5 * bank.seal_kg_s + tubes;
            entering.lower.add(leaks, outside_k);
        }
        let rise = self.preheat(&banks[taking], point);
        entering.lower.flow_k -= point.cooler_kg_s * rise;
        cowl.pass_cooler(&mut banks[taking], outside_k + rise, None, &mut entering);
        let mut state = self.joined(point, &banks);
        state.preheat_w = point.cooler_kg_s * atmosphere::SPECIFIC_HEAT * rise;
        cowl.entering_lower(&mut state, &mut entering.lower);
        state.lower_k = cowl.lower_temperature(entering.lower, point.oil_k);
        cowl.leaving_lower(&mut state);
        cowl.warm(&mut state);
        self.close(&mut state, point);
        let residual = self.residual(&state, &banks, point);
        let size = largest(&residual);
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
        let drawn = |left: f64, part: fn(&State) -> f64| {
            left * part(&banks[0]) + (1.0 - left) * part(&banks[1])
        };
        let draws = &self.halves.draws;
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
        state.blast_kg_s = drawn(draws.blast, |bank| bank.blast_kg_s);
        state.overboard_kg_s = mean(|bank| bank.overboard_kg_s);
        state.cabin_kg_s = drawn(draws.cabin, |bank| bank.cabin_kg_s);
        for (place, flow) in state.inlets.iter_mut().enumerate() {
            *flow = self.inlet(banks, place, 0) + self.inlet(banks, place, 1);
        }
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
        state
    }

    /// What an inlet brings into a half, kg/s: its share of what it would bring into one deck.
    fn inlet(&self, banks: &[State; 2], place: usize, half: usize) -> f64 {
        self.halves.share(place, half) * banks[half].inlets[place]
    }

    /// Leaks and draws of a half, kg/s.
    fn given_up(&self, bank: &State, half: usize) -> f64 {
        let draws = &self.halves.draws;
        0.5 * bank.seal_kg_s
            + of_half(draws.blast, half) * bank.blast_kg_s
            + 0.5 * bank.overboard_kg_s
            + of_half(draws.cabin, half) * bank.cabin_kg_s
            + of_half(draws.induction, half) * self.cowl.induction_kg_s
    }

    /// What is left across the cooler, and of the oil's heat.
    fn close(&self, state: &mut State, point: &Point) {
        let taking = self.halves.half_of_cooler();
        let (from, to) = self.cowl.cooler_ends(point.upper[taking], point.lower_pa);
        state.residual = Residual {
            cooler_pa: from - to - state.cooler.drop_pa,
            oil_w: state.oil_heat_w - state.cooler.heat_w - state.sump_heat_w,
            ..Residual::default()
        };
    }

    fn residual(&self, state: &State, banks: &[State; 2], point: &Point) -> Vector {
        let (cowl, scale) = (self.cowl, self.scale);
        let fins = |half: usize| {
            (point.upper[half] - point.lower_pa - banks[half].fins.drop_pa) / scale.pressure_pa
        };
        let takes_from_deck = cowl.cooler.supply == Supply::UpperDeck;
        let upper = |half: usize| {
            let bank = &banks[half];
            let inlets: f64 = (0..MAX_OPENINGS)
                .map(|place| self.inlet(banks, place, half))
                .sum();
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
            let out = point.fins[half] + self.given_up(bank, half) + cooler + across;
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
            - exits
            - cowl.lower_induction_kg_s;
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
