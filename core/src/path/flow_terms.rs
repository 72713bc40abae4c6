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
            let branch = &cowl.cooler;
            let (heat_w_k, slope) = branch.cores.heat_per_kelvin(&branch.conductance, air, oil);
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answer::prepare::prepare;
    use crate::document::example;
    use crate::path::solve::solve;

    fn cowl() -> Cowl {
        let design = example::design();
        prepare(&design.installation, &design.conditions[3])
            .expect("prepared")
            .cowl
    }

    #[test]
    fn terms_lent_by_a_neighbour_are_those_of_the_trial_itself() {
        let with_valve = cowl();
        let mut without = with_valve;
        without.oil.bypass = None;
        for cowl in [with_valve, without] {
            each_term_is_its_own(&cowl);
        }
    }

    fn each_term_is_its_own(cowl: &Cowl) {
        let solved = solve(cowl, None).expect("solved").state;
        let near = solved.trial;
        let trials = [
            Trial {
                fin_kg_s: 1.1 * near.fin_kg_s,
                ..near
            },
            Trial {
                cooler_kg_s: 1.1 * near.cooler_kg_s,
                ..near
            },
            Trial {
                cooler_kg_s: -near.cooler_kg_s,
                ..near
            },
            Trial {
                upper_pa: 1.1 * near.upper_pa,
                ..near
            },
            Trial {
                oil_k: near.oil_k + 3.0,
                ..near
            },
            Trial {
                oil_k: near.oil_k - 15.0,
                ..near
            },
            near,
        ];
        for trial in trials {
            let (lent, own) = (
                cowl.state_near(trial, &solved).terms,
                cowl.state(trial).terms,
            );
            for (lent, own) in [
                (lent.fin_w_k, own.fin_w_k),
                (lent.fin_sigma_pa, own.fin_sigma_pa),
                (lent.core_sigma_pa, own.core_sigma_pa),
                (lent.pump_kg_s, own.pump_kg_s),
                (lent.cooler.share, own.cooler.share),
                (lent.cooler.heat_w_k, own.cooler.heat_w_k),
                (lent.cooler.slope_w_k, own.cooler.slope_w_k),
            ] {
                assert!(
                    (lent - own).abs() <= 1e-6 * own.abs(),
                    "{trial:?}: {lent} {own}"
                );
            }
        }
    }

    #[test]
    fn a_trickle_through_a_closed_valve_gives_up_all_its_warmth() {
        let mut cowl = cowl();
        let bypass = cowl.oil.bypass.as_mut().expect("a thermostat");
        bypass.leak_share = 0.0;
        let cold_k = bypass.opens_k - 10.0;
        let trial = Trial {
            oil_k: cold_k,
            ..solve(&cowl, None).expect("solved").state.trial
        };
        let terms = cowl.state(trial).terms;
        assert_eq!((terms.cooler.share, terms.cooler.heat_w_k), (0.0, 0.0));
        // dQ/ds = ṁ c per kelvin
        let by_hand = cowl.oil.pump_m3_s * oil::density(cold_k) * oil::specific_heat(cold_k);
        assert!((terms.cooler.slope_w_k - by_hand).abs() < 1e-9 * by_hand);
    }
}
