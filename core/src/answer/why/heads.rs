//! Why: what the heads get from the gas, and where they settle.

use crate::answer::known_point::GAS_EXPONENT;
use crate::answer::solved::Solved;
use crate::answer::why::derivation::{Derivation, term};
use crate::document::installation::Installation;
use crate::engine::mixture;
use crate::language::tr;
use crate::units::typed::Dimension;

pub(super) fn gas_conductance(solved: &Solved) -> Derivation {
    let point = &solved.prepared.point;
    Derivation {
        answer: tr("Conductance from gas to head"),
        symbol: "G_gas",
        equation: "G_gas = G_gas,ᵣ (W_ch/W_ch,ᵣ)^m",
        source: tr("form of Schey & Pinkel, NACA TN 584, 1936; exponent from memory"),
        terms: vec![
            term(
                "G_gas,ᵣ",
                tr("conductance at the known point"),
                point.gas_w_k,
                Dimension::Conductance,
                None,
            ),
            term(
                "W_ch",
                tr("charge air"),
                solved.prepared.charge_kg_s,
                Dimension::MassFlow,
                Some("engine.air_consumption_kg_j"),
            ),
            term(
                "W_ch,ᵣ",
                tr("charge air at the known point"),
                point.charge_kg_s,
                Dimension::MassFlow,
                None,
            ),
            term("m", tr("exponent"), GAS_EXPONENT, Dimension::Ratio, None),
        ],
        value: solved.prepared.cowl.heads.gas_w_k,
        dimension: Dimension::Conductance,
        recompute: |t| t[0] * libm::pow(t[1] / t[2], t[3]),
    }
}

pub(super) fn gas_temperature(installation: &Installation, solved: &Solved) -> Derivation {
    let engine = &installation.engine;
    let prepared = &solved.prepared;
    let point = &prepared.point;
    let shift = engine.ignition_advance * engine.advance_effect
        + if engine.break_in {
            engine.break_in_shift.value
        } else {
            0.0
        };
    Derivation {
        answer: tr("Effective gas temperature"),
        symbol: "T_g",
        equation: "T_g = T_g,ᵣ + ΔT_φ + c (T_ch − T_ch,ᵣ) + ΔT_more",
        source: tr("mixture curve fitted to open flight logs of one six-cylinder engine"),
        terms: vec![
            term(
                "T_g,ᵣ",
                tr("gas temperature at the known point"),
                point.gas_k,
                Dimension::Temperature,
                None,
            ),
            term(
                "ΔT_φ",
                tr("this mixture against that of the known point"),
                mixture::gas_temperature(prepared.phi) - mixture::gas_temperature(point.phi),
                Dimension::TemperatureDifference,
                None,
            ),
            term(
                "c",
                tr("gas temperature per degree of charge"),
                engine.charge_effect,
                Dimension::Ratio,
                Some("engine.charge_effect"),
            ),
            term(
                "T_ch",
                tr("charge temperature"),
                prepared.charge_k,
                Dimension::Temperature,
                None,
            ),
            term(
                "T_ch,ᵣ",
                tr("charge temperature at the known point"),
                point.charge_k,
                Dimension::Temperature,
                None,
            ),
            term(
                "ΔT_more",
                tr("ignition advance and break-in"),
                shift,
                Dimension::TemperatureDifference,
                None,
            ),
        ],
        value: prepared.cowl.heads.gas_k,
        dimension: Dimension::Temperature,
        recompute: |t| t[0] + t[1] + t[2] * (t[3] - t[4]) + t[5],
    }
}

pub(super) fn head(solved: &Solved) -> Derivation {
    let heads = &solved.prepared.cowl.heads;
    let state = &solved.solution.state;
    Derivation {
        answer: tr("Mean head"),
        symbol: "T_h",
        equation: "T_h = (G_gas T_g + G_fin T_a + G_ho T_oil) / (G_gas + G_fin + G_ho)",
        source: tr("Schey & Pinkel, NACA TN 584, 1936, written as conductances"),
        terms: vec![
            term(
                "G_gas",
                tr("gas to head"),
                heads.gas_w_k,
                Dimension::Conductance,
                None,
            ),
            term(
                "T_g",
                tr("effective gas temperature"),
                heads.gas_k,
                Dimension::Temperature,
                None,
            ),
            term(
                "G_fin",
                tr("head to cooling air"),
                heads.fins.at(state.fins.flow_kg_s),
                Dimension::Conductance,
                Some("reference.conductance_slope"),
            ),
            term(
                "T_a",
                tr("air before the fins"),
                state.fins.in_k,
                Dimension::Temperature,
                None,
            ),
            term(
                "G_ho",
                tr("head to oil"),
                heads.oil_w_k,
                Dimension::Conductance,
                Some("oil.conduction_share"),
            ),
            term(
                "T_oil",
                tr("hot oil"),
                state.trial.oil_k,
                Dimension::Temperature,
                None,
            ),
        ],
        value: state.head_k,
        dimension: Dimension::Temperature,
        recompute: |t| (t[0] * t[1] + t[2] * t[3] + t[4] * t[5]) / (t[0] + t[2] + t[4]),
    }
}
