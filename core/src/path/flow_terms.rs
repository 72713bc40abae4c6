//! What follows from the flows and the oil of a trial, and from the air that enters the cooler.
//!
//! These terms hold nearly all powers and exponentials of the network. A trial that differs in one
//! unknown from a state already known takes over those that the unknown does not touch.

use crate::air::atmosphere;
use crate::engine::bypass::{Passing, Sensed};
use crate::engine::cooler::Stream;
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
        if differs(|trial| trial.cooler_kg_s) {
            terms.core_sigma_pa = cowl.cooler.duct.core_drop(trial.cooler_kg_s.abs());
        }
        if differs(|trial| trial.oil_k) {
            terms.pump_kg_s = cowl.oil.pump_m3_s * oil::density(trial.oil_k);
        }
        terms
    }

    fn set_fins(&mut self, cowl: &Cowl, fin_kg_s: f64) {
        self.fin_w_k = cowl.heads.fins.at(fin_kg_s);
        self.fin_sigma_pa = cowl.fins.sigma_drop(fin_kg_s);
    }

    /// Sets what the cooler does once the air that enters it is known, K.
    ///
    /// # Arguments
    /// * `near` - another trial of the same cowl, whose cooler these terms still hold
    pub(super) fn set_cooler(
        &mut self,
        cowl: &Cowl,
        trial: &Trial,
        air_k: f64,
        near: Option<&Trial>,
    ) {
        let specific_heat = oil::specific_heat(trial.oil_k);
        let air = Stream {
            flow_kg_s: trial.cooler_kg_s.abs(),
            specific_heat: atmosphere::SPECIFIC_HEAT,
        };
        let known = near
            .filter(|there| there.cooler_kg_s == trial.cooler_kg_s && there.oil_k == trial.oil_k)
            .map(|_| self.cooler);
        let pump_kg_s = self.pump_kg_s;
        let passing = |share: f64| {
            if let Some(known) = known
                && known.share == share
            {
                return known;
            }
            let oil = Stream {
                flow_kg_s: share * pump_kg_s,
                specific_heat,
            };
            let (heat_w_k, slope) = cowl.cooler.conductance.heat_per_kelvin(air, oil);
            let slope_w_k = if share > 0.0 {
                slope * heat_w_k / share
            } else {
                // A trickle gives up all its warmth.
                pump_kg_s * specific_heat
            };
            Passing {
                share,
                heat_w_k,
                slope_w_k,
            }
        };
        let start = near.map_or(1.0, |_| self.cooler.share);
        self.cooler = match cowl.oil.bypass {
            None => passing(1.0),
            Some(bypass) => {
                let sensed = Sensed {
                    hot_k: trial.oil_k,
                    cooling_k_per_w_k: (trial.oil_k - air_k) / (pump_kg_s * specific_heat),
                };
                bypass.settled(sensed, start, passing)
            }
        };
    }
}
