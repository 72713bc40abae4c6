//! What every stream of a cowl does at given deck pressures, flows and oil, and what is left of the
//! balances.
//!
//! Temperatures follow the streams upwind: where the air enters is known first. Outside air
//! enters with the total temperature of the free stream.

use crate::air::atmosphere;
use crate::path::element::{ExitFlow, orifice_flow};
use crate::path::network::{Cowl, Discharge, Opening, Supply};
use crate::path::openings::MAX_OPENINGS;
use crate::path::state::{FlowTerms, HeatedFlow, Residual, State, Trial};

/// Mass and mass × temperature of streams that mix.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Mix {
    pub(super) flow: f64,
    pub(super) flow_k: f64,
}

impl Mix {
    pub(super) fn add(&mut self, flow_kg_s: f64, temperature_k: f64) {
        self.flow += flow_kg_s;
        self.flow_k += flow_kg_s * temperature_k;
    }
}

/// What crosses between the decks and the outside before their temperatures are known.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Entering {
    pub(super) upper: Mix,
    pub(super) lower: Mix,
}

impl Cowl {
    /// Everything that follows from a trial.
    #[must_use]
    pub fn state(&self, trial: Trial) -> State {
        self.state_with(trial, FlowTerms::of(self, &trial, None), None)
    }

    /// As [`Cowl::state`], with the help of a state nearby of the same cowl.
    #[must_use]
    pub(crate) fn state_near(&self, trial: Trial, near: &State) -> State {
        let terms = FlowTerms::of(self, &trial, Some((&near.trial, &near.terms)));
        self.state_with(trial, terms, Some(&near.trial))
    }

    fn state_with(&self, trial: Trial, terms: FlowTerms, near: Option<&Trial>) -> State {
        let mut state = self.blank(trial, terms);
        let mut entering = self.entering(&mut state);
        let from_outside = self.cooler_draws_from_outside(trial.cooler_kg_s);
        if from_outside {
            self.pass_cooler(&mut state, self.stream.total_k, near, &mut entering);
        }
        if trial.fin_kg_s >= 0.0 {
            let upper_k = self.upper_temperature(entering.upper);
            state.upper_k = upper_k;
            let below = &mut entering.lower;
            self.pass_fins(&mut state, upper_k, trial.lower_pa);
            self.pass_leaks(&mut state, trial.upper_pa, upper_k);
            below.add(state.fins.flow_kg_s, state.fins.out_k);
            below.add(state.seal_kg_s + state.blast_kg_s, upper_k);
            let cooler_from_upper =
                trial.cooler_kg_s >= 0.0 && self.cooler.supply == Supply::UpperDeck;
            if cooler_from_upper {
                // No more air can have passed a cylinder than passes the fins.
                let most = state.fins.flow_kg_s / trial.cooler_kg_s.max(f64::MIN_POSITIVE);
                let share = self.cooler.preheat_share.min(most);
                let rise = share * (state.fins.out_k - upper_k);
                // The preheat is taken from the stream behind the fins, so that no heat appears.
                state.preheat_w = trial.cooler_kg_s * atmosphere::SPECIFIC_HEAT * rise;
                entering.lower.flow_k -= trial.cooler_kg_s * rise;
                self.pass_cooler(&mut state, upper_k + rise, near, &mut entering);
            }
            let lower_k = self.lower_temperature(entering.lower, trial.oil_k);
            state.lower_k = lower_k;
            if !from_outside && !cooler_from_upper {
                self.pass_cooler(&mut state, lower_k, near, &mut entering);
            }
        } else {
            let lower_k = self.lower_temperature(entering.lower, trial.oil_k);
            state.lower_k = lower_k;
            self.pass_fins(&mut state, lower_k, trial.upper_pa);
            self.pass_leaks(&mut state, trial.lower_pa, lower_k);
            entering.upper.add(-state.fins.flow_kg_s, state.fins.out_k);
            entering
                .upper
                .add(-(state.seal_kg_s + state.blast_kg_s), lower_k);
            let cooler_from_lower =
                trial.cooler_kg_s < 0.0 && self.cooler.discharge == Discharge::LowerDeck;
            if cooler_from_lower {
                self.pass_cooler(&mut state, lower_k, near, &mut entering);
            }
            let upper_k = self.upper_temperature(entering.upper);
            state.upper_k = upper_k;
            if !from_outside && !cooler_from_lower {
                self.pass_cooler(&mut state, upper_k, near, &mut entering);
            }
        }
        self.leaving(&mut state);
        self.close(&mut state);
        state
    }

    pub(super) fn blank(&self, trial: Trial, terms: FlowTerms) -> State {
        State {
            trial,
            terms,
            upper_k: self.stream.total_k,
            lower_k: self.stream.total_k,
            head_k: 0.0,
            fins: HeatedFlow::default(),
            cooler: HeatedFlow::default(),
            preheat_w: 0.0,
            inlets: [0.0; MAX_OPENINGS],
            seal_kg_s: 0.0,
            blast_kg_s: 0.0,
            overboard_kg_s: 0.0,
            cabin_kg_s: 0.0,
            inflow_kg_s: 0.0,
            exits: [ExitFlow::default(); MAX_OPENINGS],
            cooler_jet_m_s: 0.0,
            sump_heat_w: 0.0,
            skin_heat_w: 0.0,
            oil_heat_w: 0.0,
            sides: None,
            residual: Residual::default(),
        }
    }

    /// Whether a cooler flow of this sign begins outside the cowl.
    pub(super) fn cooler_draws_from_outside(&self, cooler_kg_s: f64) -> bool {
        if cooler_kg_s >= 0.0 {
            self.cooler.supply != Supply::UpperDeck
        } else {
            self.cooler.discharge != Discharge::LowerDeck
        }
    }

    /// Streams that come in from the outside; they need no deck temperature.
    fn entering(&self, state: &mut State) -> Entering {
        let mut entering = Entering::default();
        self.entering_upper(state, &mut entering.upper);
        self.entering_lower(state, &mut entering.lower);
        entering
    }

    pub(super) fn entering_upper(&self, state: &mut State, upper: &mut Mix) {
        let upper_pa = state.trial.upper_pa;
        let outside_k = self.stream.total_k;
        for (flow, inlet) in state.inlets.iter_mut().zip(self.inlets.as_slice()) {
            if upper_pa <= inlet.ram_pa {
                *flow = inlet.flow(upper_pa, inlet.density);
                upper.add(*flow, outside_k);
            }
        }
        for (opening, flow) in [
            (self.overboard, &mut state.overboard_kg_s),
            (self.cabin, &mut state.cabin_kg_s),
        ] {
            if upper_pa < opening.outside_pa {
                *flow = self.inward(opening, upper_pa);
                upper.add(-*flow, outside_k);
            }
        }
    }

    pub(super) fn entering_lower(&self, state: &mut State, lower: &mut Mix) {
        let lower_pa = state.trial.lower_pa;
        let outside_k = self.stream.total_k;
        if lower_pa < self.inflow.outside_pa {
            state.inflow_kg_s = -self.inward(self.inflow, lower_pa);
            lower.add(state.inflow_kg_s, outside_k);
        }
        for (flow, exit) in state.exits.iter_mut().zip(self.exits.as_slice()) {
            if lower_pa < exit.rest_pa() {
                *flow = exit.flow(lower_pa, outside_k, self.stream.pressure_pa, outside_k);
                lower.add(-flow.flow_kg_s, outside_k);
            }
        }
    }

    /// Flow outward (so negative), kg/s, through an opening that outside air enters.
    fn inward(&self, opening: Opening, inside_pa: f64) -> f64 {
        let density = atmosphere::density(
            self.stream.pressure_pa + opening.outside_pa,
            self.stream.total_k,
        );
        orifice_flow(
            opening.effective_area_m2,
            inside_pa - opening.outside_pa,
            density,
        )
    }

    fn upper_temperature(&self, entering: Mix) -> f64 {
        if entering.flow > 0.0 {
            entering.flow_k / entering.flow
        } else {
            self.stream.total_k
        }
    }

    pub(super) fn lower_temperature(&self, entering: Mix, oil_k: f64) -> f64 {
        // Σ W c_p (T_in − T_l) + Q_exhaust + UA_sump (T_oil − T_l) − UA_skin (T_l − T₀) = 0
        let skin = self.skin_w_k / atmosphere::SPECIFIC_HEAT;
        let sump = self.oil.sump_w_k / atmosphere::SPECIFIC_HEAT;
        let heat = self.exhaust_heat_w / atmosphere::SPECIFIC_HEAT;
        (entering.flow_k + heat + sump * oil_k + skin * self.stream.temperature_k)
            / (entering.flow + sump + skin)
    }

    pub(super) fn pass_fins(&self, state: &mut State, in_k: f64, behind_pa: f64) {
        let flow = state.trial.fin_kg_s;
        let fin = state.terms.fin_w_k;
        state.head_k = self
            .heads
            .temperature_with(fin, 0.0, in_k, state.trial.oil_k);
        // Q = G_fin (T_h − T_a);  T₃ = T_a + Q / (W c_p)
        let heat_w = fin * (state.head_k - in_k);
        let out_k = if flow == 0.0 {
            in_k
        } else {
            in_k + heat_w / (flow.abs() * atmosphere::SPECIFIC_HEAT)
        };
        let behind = atmosphere::density(self.stream.pressure_pa + behind_pa, out_k);
        let drop_pa = (state.terms.fin_sigma_pa * atmosphere::DENSITY_SL / behind).copysign(flow);
        state.fins = HeatedFlow {
            flow_kg_s: flow,
            in_k,
            out_k,
            heat_w,
            drop_pa,
        };
    }

    pub(super) fn pass_leaks(&self, state: &mut State, before_pa: f64, before_k: f64) {
        let density = atmosphere::density(self.stream.pressure_pa + before_pa, before_k);
        let drop = state.trial.upper_pa - state.trial.lower_pa;
        state.seal_kg_s = orifice_flow(self.seal_m2, drop, density);
        state.blast_kg_s = orifice_flow(self.blast_m2, drop, density);
    }

    /// Cooler heat and pressure drop; its air joins the deck it runs into.
    pub(super) fn pass_cooler(
        &self,
        state: &mut State,
        in_k: f64,
        near: Option<&Trial>,
        entering: &mut Entering,
    ) {
        state.terms.set_cooler(self, &state.trial, in_k, near);
        let oil_k = state.trial.oil_k;
        let flow = state.trial.cooler_kg_s;
        let magnitude = flow.abs();
        let heat_w = state.terms.cooler.heat_w_k * (oil_k - in_k);
        let out_k = if magnitude == 0.0 {
            in_k
        } else {
            in_k + heat_w / (magnitude * atmosphere::SPECIFIC_HEAT)
        };
        state.cooler = HeatedFlow {
            flow_kg_s: flow,
            in_k,
            out_k,
            heat_w,
            drop_pa: 0.0,
        };
        let (drop_pa, jet_m_s) = self.cooler_drop(state, flow, state.terms.core_sigma_pa);
        state.cooler.drop_pa = drop_pa;
        state.cooler_jet_m_s = jet_m_s;
        if flow >= 0.0 && self.cooler.discharge == Discharge::LowerDeck {
            entering.lower.add(flow, out_k);
        }
        if flow < 0.0 && self.cooler.supply == Supply::UpperDeck {
            entering.upper.add(-flow, out_k);
        }
    }

    /// Pressure, Pa, that a flow through the cooler's branch uses up, and the jet of its own exit,
    /// m/s, with the temperatures of a state; both with the flow's sign.
    pub(super) fn cooler_drop(
        &self,
        state: &State,
        flow_kg_s: f64,
        core_sigma_pa: f64,
    ) -> (f64, f64) {
        let magnitude = flow_kg_s.abs();
        if magnitude == 0.0 {
            return (0.0, 0.0);
        }
        let ends = self.cooler_ends(state.trial.upper_pa, state.trial.lower_pa);
        let HeatedFlow { in_k, out_k, .. } = state.cooler;
        let (duct_k, far_k) = if flow_kg_s >= 0.0 {
            (in_k, out_k)
        } else {
            (out_k, in_k)
        };
        let duct_density = atmosphere::density(self.stream.pressure_pa + ends.0, duct_k);
        let far_density = atmosphere::density(self.stream.pressure_pa + ends.1, far_k);
        let volume = 0.5 * (1.0 / duct_density + 1.0 / far_density);
        let duct = &self.cooler.duct;
        let mut drop_pa = duct.duct_drop(magnitude, duct_density, duct_k)
            + core_sigma_pa * atmosphere::DENSITY_SL * volume
            + duct.behind_drop(magnitude, far_density);
        if let Supply::OwnInlet(inlet) = self.cooler.supply
            && flow_kg_s > 0.0
        {
            drop_pa += inlet.drop(magnitude, duct_density);
        }
        let mut jet_m_s = 0.0;
        if let Discharge::OwnExit(exit) = self.cooler.discharge {
            jet_m_s = magnitude / (far_density * exit.discharge * exit.area_m2);
            // The jet's dynamic pressure is lost.
            drop_pa += 0.5 * far_density * jet_m_s * jet_m_s;
        }
        (drop_pa.copysign(flow_kg_s), jet_m_s.copysign(flow_kg_s))
    }

    /// Streams that leave to the outside; they carry their deck's temperature.
    fn leaving(&self, state: &mut State) {
        self.leaving_upper(state);
        self.leaving_lower(state);
    }

    pub(super) fn leaving_upper(&self, state: &mut State) {
        let upper_pa = state.trial.upper_pa;
        let density = atmosphere::density(self.stream.pressure_pa + upper_pa, state.upper_k);
        for (flow, inlet) in state.inlets.iter_mut().zip(self.inlets.as_slice()) {
            if upper_pa > inlet.ram_pa {
                *flow = inlet.flow(upper_pa, density);
            }
        }
        for (opening, flow) in [
            (self.overboard, &mut state.overboard_kg_s),
            (self.cabin, &mut state.cabin_kg_s),
        ] {
            if upper_pa >= opening.outside_pa {
                let drop = upper_pa - opening.outside_pa;
                *flow = orifice_flow(opening.effective_area_m2, drop, density);
            }
        }
    }

    pub(super) fn leaving_lower(&self, state: &mut State) {
        let lower_pa = state.trial.lower_pa;
        let ambient_pa = self.stream.pressure_pa;
        if lower_pa >= self.inflow.outside_pa {
            let density = atmosphere::density(ambient_pa + lower_pa, state.lower_k);
            let drop = self.inflow.outside_pa - lower_pa;
            state.inflow_kg_s = orifice_flow(self.inflow.effective_area_m2, drop, density);
        }
        for (flow, exit) in state.exits.iter_mut().zip(self.exits.as_slice()) {
            if lower_pa >= exit.rest_pa() {
                *flow = exit.flow(lower_pa, state.lower_k, ambient_pa, self.stream.total_k);
            }
        }
    }

    /// Heat of the sump, of the cowl's skin and into the oil.
    pub(super) fn warm(&self, state: &mut State) {
        let oil_k = state.trial.oil_k;
        state.sump_heat_w = self.oil.sump_w_k * (oil_k - state.lower_k);
        state.skin_heat_w = self.skin_w_k * (state.lower_k - self.stream.temperature_k);
        state.oil_heat_w = self.oil.friction_heat_w + self.heads.oil_w_k * (state.head_k - oil_k);
    }

    fn close(&self, state: &mut State) {
        let Trial {
            upper_pa,
            lower_pa,
            cooler_kg_s,
            ..
        } = state.trial;
        let (from, to) = self.cooler_ends(upper_pa, lower_pa);
        let out_of_upper = if self.cooler.supply == Supply::UpperDeck {
            cooler_kg_s
        } else {
            0.0
        };
        let into_lower = if self.cooler.discharge == Discharge::LowerDeck {
            cooler_kg_s
        } else {
            0.0
        };
        let between = state.fins.flow_kg_s + state.seal_kg_s + state.blast_kg_s;
        let inlets: f64 = state.inlets.iter().sum();
        let exits: f64 = state.exits.iter().map(|exit| exit.flow_kg_s).sum();
        self.warm(state);
        state.residual = Residual {
            fins_pa: upper_pa - lower_pa - state.fins.drop_pa,
            cooler_pa: from - to - state.cooler.drop_pa,
            upper_kg_s: inlets
                - between
                - out_of_upper
                - state.overboard_kg_s
                - state.cabin_kg_s
                - self.induction_kg_s,
            lower_kg_s: between + into_lower + state.inflow_kg_s
                - exits
                - self.lower_induction_kg_s,
            oil_w: state.oil_heat_w - state.cooler.heat_w - state.sump_heat_w,
        };
    }
}
