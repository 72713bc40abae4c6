//! Why: the oil's heat and what its gauge reads.

use crate::answer::solved::Solved;
use crate::answer::why::derivation::{Derivation, term};
use crate::document::installation::Installation;
use crate::engine::oil;
use crate::language::tr;
use crate::units::typed::Dimension;

pub(super) fn oil_heat(solved: &Solved) -> Derivation {
    let cowl = &solved.prepared.cowl;
    let state = &solved.solution.state;
    Derivation {
        answer: tr("Heat into the oil"),
        symbol: "Q_oil",
        equation: "Q_oil = Q_friction + G_ho (T_h − T_oil) = Q_cooler + Q_sump",
        source: tr("heat balance; the split from memory and open flight logs"),
        terms: vec![
            term(
                "Q_friction",
                tr("friction and pistons"),
                cowl.oil.friction_heat_w,
                Dimension::Heat,
                Some("oil.heat_share"),
            ),
            term(
                "G_ho",
                tr("head to oil"),
                cowl.heads.oil_w_k,
                Dimension::Conductance,
                None,
            ),
            term(
                "T_h",
                tr("mean head"),
                state.head_k,
                Dimension::Temperature,
                None,
            ),
            term(
                "T_oil",
                tr("hot oil"),
                state.trial.oil_k,
                Dimension::Temperature,
                None,
            ),
        ],
        value: state.cooler.heat_w + state.sump_heat_w,
        dimension: Dimension::Heat,
        recompute: |t| t[0] + t[1] * (t[2] - t[3]),
    }
}

pub(super) fn gauge(installation: &Installation, solved: &Solved) -> Derivation {
    let state = &solved.solution.state;
    let capacity = state.terms.pump_kg_s * oil::specific_heat(state.trial.oil_k);
    Derivation {
        answer: tr("Oil at the gauge"),
        symbol: "T_gauge",
        equation: "T_gauge = T_oil − Q_probe / C",
        source: tr("heat balance of the oil that passes the cooler; Cragoe's specific heat"),
        terms: vec![
            term(
                "T_oil",
                tr("hot oil"),
                state.trial.oil_k,
                Dimension::Temperature,
                None,
            ),
            term(
                "Q_probe",
                tr("heat given up before the probe: the cooler's if the probe sits behind it"),
                if installation.oil.probe.is_after_cooler() {
                    state.cooler.heat_w
                } else {
                    0.0
                },
                Dimension::Heat,
                None,
            ),
            term(
                "C",
                tr("heat capacity of the oil flow"),
                capacity,
                Dimension::Conductance,
                Some("oil.pump_flow_m3_s"),
            ),
        ],
        value: solved.oil_gauge_k(installation),
        dimension: Dimension::Temperature,
        recompute: |t| t[0] - t[1] / t[2],
    }
}
