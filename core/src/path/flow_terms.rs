//! What follows from the flows and the oil of a trial alone, whatever the decks do.
//!
//! These terms hold nearly all powers and exponentials of the network. A trial that differs in one
//! unknown from a state already known takes over those that the unknown does not touch.

use crate::air::atmosphere;
use crate::engine::oil;
use crate::path::network::Cowl;
use crate::path::state::FlowTerms;
use crate::path::state::Trial;

impl FlowTerms {
    /// The terms of a trial.
    ///
    /// # Arguments
    /// * `near` - another trial and its terms, of the same cowl
    pub(super) fn of(cowl: &Cowl, trial: &Trial, near: Option<(&Trial, &Self)>) -> Self {
        let mut terms = near.map_or_else(Self::default, |(_, terms)| *terms);
        let differs = |unknown: fn(&Trial) -> f64| {
            near.is_none_or(|(there, _)| unknown(there) != unknown(trial))
        };
        if differs(|trial| trial.fin_kg_s) {
            terms.set_fins(cowl, trial.fin_kg_s);
        }
        let other_flow = differs(|trial| trial.cooler_kg_s);
        if other_flow {
            terms.core_sigma_pa = cowl.cooler.duct.core_drop(trial.cooler_kg_s.abs());
        }
        let other_oil = differs(|trial| trial.oil_k);
        if other_oil {
            terms.set_oil_flows(cowl, trial.oil_k);
        }
        if other_flow || other_oil {
            terms.cooler_w_k = cowl.cooler.conductance.heat_per_kelvin(
                trial.cooler_kg_s.abs(),
                atmosphere::SPECIFIC_HEAT,
                terms.cooler_oil_kg_s,
                oil::specific_heat(trial.oil_k),
            );
        }
        terms
    }

    fn set_fins(&mut self, cowl: &Cowl, fin_kg_s: f64) {
        self.fin_w_k = cowl.heads.fins.at(fin_kg_s);
        self.fin_sigma_pa = cowl.fins.sigma_drop(fin_kg_s);
    }

    fn set_oil_flows(&mut self, cowl: &Cowl, oil_k: f64) {
        self.pump_kg_s = cowl.oil.pump_m3_s * oil::density(oil_k);
        let bypass = cowl.oil.bypass;
        let share = bypass.map_or(1.0, |bypass| bypass.cooler_share(oil_k));
        self.cooler_oil_kg_s = share * self.pump_kg_s;
    }
}
