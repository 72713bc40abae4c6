//! Why: each main answer as its equation with the values put in.
//!
//! The terms are taken from the solved state itself, and each derivation carries the function
//! that recomputes its result from them, so that what is shown cannot drift from what is solved.

use crate::air::atmosphere;
use crate::answer::known_point::GAS_EXPONENT;
use crate::answer::solved::Solved;
use crate::document::installation::{Installation, OilProbe};
use crate::engine::mixture;
use crate::engine::oil;
use crate::path::report::gauge_temperature;
use crate::units::typed::Dimension;

/// One term of an equation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Term {
    /// Symbol in the equation.
    pub symbol: &'static str,
    /// What it is.
    pub meaning: &'static str,
    /// Value, SI.
    pub value: f64,
    /// What it measures.
    pub dimension: Dimension,
    /// Identifier of the input it is, if it is one.
    pub input: Option<&'static str>,
}

/// An answer with its equation.
#[derive(Debug, Clone)]
pub struct Derivation {
    /// The answer.
    pub answer: &'static str,
    /// Symbol of the answer.
    pub symbol: &'static str,
    /// The equation, in the symbols of its terms.
    pub equation: &'static str,
    /// Source of the equation.
    pub source: &'static str,
    /// The terms, in the order that `recompute` takes.
    pub terms: Vec<Term>,
    /// The answer's value, SI, from the solved state.
    pub value: f64,
    /// What it measures.
    pub dimension: Dimension,
    /// The answer from the terms' values.
    pub recompute: fn(&[f64]) -> f64,
}

const fn term(
    symbol: &'static str,
    meaning: &'static str,
    value: f64,
    dimension: Dimension,
    input: Option<&'static str>,
) -> Term {
    Term {
        symbol,
        meaning,
        value,
        dimension,
        input,
    }
}

/// Derivations of the main answers of a solved condition, in the order of the air's way.
#[must_use]
pub fn derivations(installation: &Installation, solved: &Solved) -> Vec<Derivation> {
    vec![
        ram(installation, solved),
        inlet_flow(solved),
        fin_drop(solved),
        gas_conductance(solved),
        gas_temperature(installation, solved),
        head(solved),
        oil_heat(solved),
        gauge(installation, solved),
        jet(solved),
        drag(solved),
    ]
}

fn ram(installation: &Installation, solved: &Solved) -> Derivation {
    let stream = &solved.prepared.cowl.stream;
    let recovery = installation
        .inlets
        .first()
        .map_or(0.0, |inlet| inlet.recovery());
    let value = solved
        .prepared
        .cowl
        .inlets
        .as_slice()
        .first()
        .map_or(0.0, |inlet| inlet.ram_pa);
    Derivation {
        answer: "Ram pressure before the first inlet",
        symbol: "H₀",
        equation: "H₀ = k qc + s T/A",
        source: "impact pressure of the standard airspeed calibration; momentum theory of the propeller",
        terms: vec![
            term(
                "k",
                "ram recovery of its position",
                recovery,
                Dimension::Ratio,
                None,
            ),
            term(
                "qc",
                "impact pressure",
                stream.impact_pa,
                Dimension::Pressure,
                None,
            ),
            term(
                "s T/A",
                "the propeller's share of its pressure rise",
                stream.propeller_rise_pa,
                Dimension::Pressure,
                Some(if solved.prepared.on_ground {
                    "airframe.propeller_share_rest"
                } else {
                    "airframe.propeller_share"
                }),
            ),
        ],
        value,
        dimension: Dimension::Pressure,
        recompute: |t| t[0] * t[1] + t[2],
    }
}

fn inlet_flow(solved: &Solved) -> Derivation {
    let state = &solved.solution.state;
    let exits: f64 = state.exits.iter().map(|exit| exit.flow_kg_s).sum();
    let own_exit = match solved.prepared.cowl.cooler.discharge {
        crate::path::network::Discharge::LowerDeck => 0.0,
        crate::path::network::Discharge::OwnExit(_) => state.cooler.flow_kg_s,
    };
    let own_inlet = match solved.prepared.cowl.cooler.supply {
        crate::path::network::Supply::UpperDeck => 0.0,
        crate::path::network::Supply::OwnInlet(_) => state.cooler.flow_kg_s,
    };
    let taken =
        state.overboard_kg_s + state.cabin_kg_s + solved.prepared.cowl.induction_kg_s + own_exit
            - own_inlet;
    Derivation {
        answer: "Air through the inlets",
        symbol: "W₁",
        equation: "W₁ = W₅ + W_taken − W_inflow",
        source: "conservation of mass",
        terms: vec![
            term(
                "W₅",
                "air through the exits",
                exits,
                Dimension::MassFlow,
                None,
            ),
            term(
                "W_taken",
                "overboard leak, cabin, induction, the cooler's own exit less its own inlet",
                taken,
                Dimension::MassFlow,
                None,
            ),
            term(
                "W_inflow",
                "air that leaks into the lower deck from outside",
                state.inflow_kg_s,
                Dimension::MassFlow,
                Some("decks.inflow_leak_m2"),
            ),
        ],
        value: state.inlets.iter().sum(),
        dimension: Dimension::MassFlow,
        recompute: |t| t[0] + t[1] - t[2],
    }
}

fn fin_drop(solved: &Solved) -> Derivation {
    let cowl = &solved.prepared.cowl;
    let state = &solved.solution.state;
    let point = &solved.prepared.point;
    let behind_pa = if state.fins.flow_kg_s >= 0.0 {
        state.trial.lower_pa
    } else {
        state.trial.upper_pa
    };
    let sigma = atmosphere::density(cowl.stream.pressure_pa + behind_pa, state.fins.out_k)
        / atmosphere::DENSITY_SL;
    Derivation {
        answer: "Pressure across the baffles",
        symbol: "Δp",
        equation: "Δp = (σΔp)ᵣ (W/Wᵣ)^n / σ₃",
        source: "Bell, Morgan, Disher, Mercer, NACA TN 1092, 1946: density behind the fins",
        terms: vec![
            term(
                "(σΔp)ᵣ",
                "pressure drop of the known point, at standard density",
                point.sigma_drop_pa,
                Dimension::Pressure,
                None,
            ),
            term(
                "W",
                "air through the fins",
                state.fins.flow_kg_s,
                Dimension::MassFlow,
                None,
            ),
            term(
                "Wᵣ",
                "air at the known point",
                point.flow_kg_s,
                Dimension::MassFlow,
                None,
            ),
            term(
                "n",
                "exponent of flow",
                cowl.fins.exponent,
                Dimension::Ratio,
                Some("reference.drop_exponent"),
            ),
            term(
                "σ₃",
                "density ratio behind the fins",
                sigma,
                Dimension::Ratio,
                None,
            ),
        ],
        value: state.fins.drop_pa,
        dimension: Dimension::Pressure,
        recompute: |t| (t[0] * libm::pow(t[1].abs() / t[2], t[3]) / t[4]).copysign(t[1]),
    }
}

fn gas_conductance(solved: &Solved) -> Derivation {
    let point = &solved.prepared.point;
    Derivation {
        answer: "Conductance from gas to head",
        symbol: "G_gas",
        equation: "G_gas = G_gas,ᵣ (W_ch/W_ch,ᵣ)^m",
        source: "form of Schey & Pinkel, NACA TN 584, 1936; exponent from memory",
        terms: vec![
            term(
                "G_gas,ᵣ",
                "conductance at the known point",
                point.gas_w_k,
                Dimension::Conductance,
                None,
            ),
            term(
                "W_ch",
                "charge air",
                solved.prepared.charge_kg_s,
                Dimension::MassFlow,
                Some("engine.air_consumption_kg_j"),
            ),
            term(
                "W_ch,ᵣ",
                "charge air at the known point",
                point.charge_kg_s,
                Dimension::MassFlow,
                None,
            ),
            term("m", "exponent", GAS_EXPONENT, Dimension::Ratio, None),
        ],
        value: solved.prepared.cowl.heads.gas_w_k,
        dimension: Dimension::Conductance,
        recompute: |t| t[0] * libm::pow(t[1] / t[2], t[3]),
    }
}

fn gas_temperature(installation: &Installation, solved: &Solved) -> Derivation {
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
        answer: "Effective gas temperature",
        symbol: "T_g",
        equation: "T_g = T_g,ᵣ + ΔT_φ + c (T_ch − T_ch,ᵣ) + ΔT_more",
        source: "mixture curve fitted to open flight logs of one six-cylinder engine",
        terms: vec![
            term(
                "T_g,ᵣ",
                "gas temperature at the known point",
                point.gas_k,
                Dimension::Temperature,
                None,
            ),
            term(
                "ΔT_φ",
                "this mixture against that of the known point",
                mixture::gas_temperature(prepared.phi) - mixture::gas_temperature(point.phi),
                Dimension::TemperatureDifference,
                None,
            ),
            term(
                "c",
                "gas temperature per degree of charge",
                engine.charge_effect,
                Dimension::Ratio,
                Some("engine.charge_effect"),
            ),
            term(
                "T_ch",
                "charge temperature",
                prepared.charge_k,
                Dimension::Temperature,
                None,
            ),
            term(
                "T_ch,ᵣ",
                "charge temperature at the known point",
                point.charge_k,
                Dimension::Temperature,
                None,
            ),
            term(
                "ΔT_more",
                "ignition advance and break-in",
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

fn head(solved: &Solved) -> Derivation {
    let heads = &solved.prepared.cowl.heads;
    let state = &solved.solution.state;
    Derivation {
        answer: "Mean head",
        symbol: "T_h",
        equation: "T_h = (G_gas T_g + G_fin T_a + G_ho T_oil) / (G_gas + G_fin + G_ho)",
        source: "Schey & Pinkel, NACA TN 584, 1936, written as conductances",
        terms: vec![
            term(
                "G_gas",
                "gas to head",
                heads.gas_w_k,
                Dimension::Conductance,
                None,
            ),
            term(
                "T_g",
                "effective gas temperature",
                heads.gas_k,
                Dimension::Temperature,
                None,
            ),
            term(
                "G_fin",
                "head to cooling air",
                heads.fins.at(state.fins.flow_kg_s),
                Dimension::Conductance,
                Some("reference.conductance_slope"),
            ),
            term(
                "T_a",
                "air before the fins",
                state.fins.in_k,
                Dimension::Temperature,
                None,
            ),
            term(
                "G_ho",
                "head to oil",
                heads.oil_w_k,
                Dimension::Conductance,
                Some("oil.conduction_share"),
            ),
            term(
                "T_oil",
                "hot oil",
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

fn oil_heat(solved: &Solved) -> Derivation {
    let cowl = &solved.prepared.cowl;
    let state = &solved.solution.state;
    Derivation {
        answer: "Heat into the oil",
        symbol: "Q_oil",
        equation: "Q_oil = Q_friction + G_ho (T_h − T_oil) = Q_cooler + Q_sump",
        source: "heat balance; the split from memory and open flight logs",
        terms: vec![
            term(
                "Q_friction",
                "friction and pistons",
                cowl.oil.friction_heat_w,
                Dimension::Heat,
                Some("oil.heat_share"),
            ),
            term(
                "G_ho",
                "head to oil",
                cowl.heads.oil_w_k,
                Dimension::Conductance,
                None,
            ),
            term(
                "T_h",
                "mean head",
                state.head_k,
                Dimension::Temperature,
                None,
            ),
            term(
                "T_oil",
                "hot oil",
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

fn gauge(installation: &Installation, solved: &Solved) -> Derivation {
    let state = &solved.solution.state;
    let after_cooler = installation.oil.probe == OilProbe::AfterCooler;
    let capacity = state.terms.pump_kg_s * oil::specific_heat(state.trial.oil_k);
    Derivation {
        answer: "Oil at the gauge",
        symbol: "T_gauge",
        equation: "T_gauge = T_oil − Q_probe / C",
        source: "heat balance of the oil that passes the cooler; Cragoe's specific heat",
        terms: vec![
            term(
                "T_oil",
                "hot oil",
                state.trial.oil_k,
                Dimension::Temperature,
                None,
            ),
            term(
                "Q_probe",
                "heat given up before the probe: the cooler's if the probe sits behind it",
                if after_cooler {
                    state.cooler.heat_w
                } else {
                    0.0
                },
                Dimension::Heat,
                None,
            ),
            term(
                "C",
                "heat capacity of the oil flow",
                capacity,
                Dimension::Conductance,
                Some("oil.pump_flow_m3_s"),
            ),
        ],
        value: gauge_temperature(state, after_cooler),
        dimension: Dimension::Temperature,
        recompute: |t| t[0] - t[1] / t[2],
    }
}

fn jet(solved: &Solved) -> Derivation {
    let cowl = &solved.prepared.cowl;
    let state = &solved.solution.state;
    let ambient = cowl.stream.pressure_pa;
    let outside = cowl
        .exits
        .as_slice()
        .first()
        .map_or(0.0, |exit| exit.outside_pa);
    let (inside, outside, kelvin, sign) = if state.trial.lower_pa >= outside {
        (
            ambient + state.trial.lower_pa,
            ambient + outside,
            state.lower_k,
            1.0,
        )
    } else {
        (
            ambient + outside,
            ambient + state.trial.lower_pa,
            cowl.stream.temperature_k,
            -1.0,
        )
    };
    Derivation {
        answer: "Speed in the first exit",
        symbol: "V₅",
        equation: "V₅ = √(2 c_p T_l (1 − (p₅/p_l)^(2/7)))",
        source: "isentropic nozzle, textbook",
        terms: vec![
            term(
                "T_l",
                "air before the exit",
                kelvin,
                Dimension::Temperature,
                None,
            ),
            term(
                "p₅",
                "pressure behind it, absolute",
                outside,
                Dimension::Pressure,
                None,
            ),
            term(
                "p_l",
                "pressure before it, absolute",
                inside,
                Dimension::Pressure,
                None,
            ),
            term("±", "direction", sign, Dimension::Ratio, None),
        ],
        value: state.exits[0].speed_m_s,
        dimension: Dimension::Speed,
        recompute: |t| {
            let cooling = -libm::expm1((2.0 / 7.0) * libm::log(t[1] / t[2]));
            t[3] * (2.0 * atmosphere::SPECIFIC_HEAT * t[0] * cooling).sqrt()
        },
    }
}

fn drag(solved: &Solved) -> Derivation {
    let prepared = &solved.prepared;
    let parts = crate::path::drag::cooling_drag(
        &prepared.cowl,
        &solved.solution.state,
        prepared.spillage,
        prepared.flap_drag_m2,
    );
    Derivation {
        answer: "Cooling drag",
        symbol: "D",
        equation: "D = D_exits + D_overboard + D_spillage + D_flap",
        source: "momentum theorem; spillage and flap from memory",
        terms: vec![
            term(
                "D_exits",
                "Σ W (V_s − C_v V₅ cos θ) − (p₅ − p₀) A_j",
                parts.exits_n,
                Dimension::Force,
                None,
            ),
            term(
                "D_overboard",
                "leaks, cabin air, air out of an inlet: W V_s",
                parts.overboard_n,
                Dimension::Force,
                None,
            ),
            term(
                "D_spillage",
                "air turned away at the inlets",
                parts.spillage_n,
                Dimension::Force,
                Some("airframe.spillage"),
            ),
            term("D_flap", "open flaps", parts.flap_n, Dimension::Force, None),
        ],
        value: parts.total_n(),
        dimension: Dimension::Force,
        recompute: |t| t[0] + t[1] + t[2] + t[3],
    }
}
