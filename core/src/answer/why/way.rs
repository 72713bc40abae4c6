//! Why: pressures and flows on the air's way.

use crate::air::atmosphere;
use crate::answer::solved::Solved;
use crate::answer::why::derivation::{Derivation, term};
use crate::document::condition::Phase;
use crate::document::installation::{Installation, Lip};
use crate::language::tr;
use crate::path::ejector::Ejector;
use crate::path::network::{Discharge, Supply};
use crate::units::typed::Dimension;

pub(super) fn ram(installation: &Installation, solved: &Solved) -> Derivation {
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
        answer: tr("Ram pressure before the first inlet"),
        symbol: "H₀",
        equation: "H₀ = k qc + s T/A",
        source: tr(
            "impact pressure of the standard airspeed calibration; momentum theory of the propeller",
        ),
        terms: vec![
            term(
                "k",
                tr("ram recovery of its position"),
                recovery,
                Dimension::Ratio,
                None,
            ),
            term(
                "qc",
                tr("impact pressure"),
                stream.impact_pa,
                Dimension::Pressure,
                None,
            ),
            term(
                "s T/A",
                tr("the propeller's share of its pressure rise"),
                stream.propeller_rise_pa,
                Dimension::Pressure,
                Some(if solved.prepared.phase == Phase::Ground {
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

/// What the first inlet's lip costs; none where the stream meets it straight.
pub(super) fn lip(installation: &Installation, solved: &Solved) -> Option<Derivation> {
    let inlet = solved.prepared.cowl.inlets.as_slice().first()?;
    let met = &inlet.incidence;
    if met.chord <= 0.0 {
        return None;
    }
    let flow_kg_s = solved.solution.state.inlets[0].max(0.0);
    let speed = flow_kg_s / (inlet.density * inlet.area_m2);
    let approach = inlet.approach_speed();
    let tolerated = if approach > 0.0 {
        met.tolerated_chord(speed / approach)
    } else {
        met.chord
    };
    let rounded = installation.inlets.first()?.lip == Lip::Rounded;
    let ratio = |symbol, what, value, input| term(symbol, what, value, Dimension::Ratio, input);
    let swift = |symbol, what, value| term(symbol, what, value, Dimension::Speed, None);
    Some(Derivation {
        answer: tr("Lost behind the first inlet’s lip"),
        symbol: "Δ",
        equation: "Δ = ½ρ (K max(0, V₁ − V_a)² + f V₁ V_a max(0, c − c_t)²)",
        source: tr(
            "momentum balance of a sharp lip, in the incompressible form: Fradenburgh, Wyatt, \
                 Theoretical Performance Characteristics of Sharp-Lip Inlets at Subsonic Speeds, 1953; the \
                 angle tolerated by potential flow",
        ),
        terms: vec![
            ratio(
                "ρ",
                tr("density in the opening, kg/m³"),
                inlet.density,
                None,
            ),
            ratio("K", tr("loss of the lip"), inlet.lip_loss, None),
            swift("V₁", tr("speed in the opening"), speed),
            swift("V_a", tr("speed of approach"), approach),
            ratio(
                "f",
                tr("loss over that of the momentum balance"),
                met.factor,
                Some("inlet.lip_separation_factor"),
            ),
            ratio(
                "c",
                tr("2 sin(α/2) of the stream’s angle"),
                met.chord,
                Some("inlet.climb_angle_deg"),
            ),
            ratio(
                "c_t",
                tr("the same of the angle that the lip tolerates"),
                tolerated,
                Some(if rounded {
                    "inlet.lip_nose_term"
                } else {
                    "inlet.lip_crossflow"
                }),
            ),
        ],
        value: inlet.drop(flow_kg_s, inlet.density)
            - 0.5 * inlet.density * inlet.diffusion_loss * speed * speed,
        dimension: Dimension::Pressure,
        recompute: |t| {
            let (excess, beyond) = ((t[2] - t[3]).max(0.0), (t[5] - t[6]).max(0.0));
            0.5 * t[0] * (t[1] * excess * excess + t[4] * t[2] * t[3] * beyond * beyond)
        },
    })
}

pub(super) fn inlet_flow(solved: &Solved) -> Derivation {
    let state = &solved.solution.state;
    let exits: f64 = state.exits.iter().map(|exit| exit.flow_kg_s).sum();
    let own_exit = match solved.prepared.cowl.cooler.discharge {
        Discharge::LowerDeck => 0.0,
        Discharge::OwnExit(_) => state.cooler.flow_kg_s,
    };
    let own_inlet = match solved.prepared.cowl.cooler.supply {
        Supply::UpperDeck => 0.0,
        Supply::OwnInlet(_) => state.cooler.flow_kg_s,
    };
    let taken = state.overboard_kg_s
        + state.cabin_kg_s
        + solved.prepared.cowl.drawn_kg_s().iter().sum::<f64>()
        + own_exit
        - own_inlet;
    Derivation {
        answer: tr("Air through the inlets"),
        symbol: "W₁",
        equation: "W₁ = W₅ + W_taken − W_inflow",
        source: tr("conservation of mass"),
        terms: vec![
            term(
                "W₅",
                tr("air through the exits"),
                exits,
                Dimension::MassFlow,
                None,
            ),
            term(
                "W_taken",
                tr("overboard leak, cabin, induction, the cooler's own exit less its own inlet"),
                taken,
                Dimension::MassFlow,
                None,
            ),
            term(
                "W_inflow",
                tr("air that leaks into the lower deck from outside"),
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

pub(super) fn fin_drop(solved: &Solved) -> Derivation {
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
        answer: tr("Pressure across the baffles"),
        symbol: "Δp",
        equation: "Δp = (σΔp)ᵣ (W/Wᵣ)^n / σ₃",
        source: tr("Bell, Morgan, Disher, Mercer, NACA TN 1092, 1946: density behind the fins"),
        terms: vec![
            term(
                "(σΔp)ᵣ",
                tr("pressure drop of the known point, at standard density"),
                point.sigma_drop_pa,
                Dimension::Pressure,
                None,
            ),
            term(
                "W",
                tr("air through the fins"),
                state.fins.flow_kg_s,
                Dimension::MassFlow,
                None,
            ),
            term(
                "Wᵣ",
                tr("air at the known point"),
                point.flow_kg_s,
                Dimension::MassFlow,
                None,
            ),
            term(
                "n",
                tr("exponent of flow"),
                cowl.fins.exponent,
                Dimension::Ratio,
                Some("reference.drop_exponent"),
            ),
            term(
                "σ₃",
                tr("density ratio behind the fins"),
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

/// Speed in the first exit, or what an augmentor draws.
pub(super) fn jet(solved: &Solved) -> Derivation {
    let first = solved.prepared.cowl.exits.as_slice().first();
    match first.and_then(|exit| exit.ejector) {
        Some(ejector) => augmentor(solved, &ejector),
        None => nozzle_jet(solved),
    }
}

fn augmentor(solved: &Solved, ejector: &Ejector) -> Derivation {
    let cowl = &solved.prepared.cowl;
    let state = &solved.solution.state;
    let mouth_m2 = cowl
        .exits
        .as_slice()
        .first()
        .map_or(0.0, |exit| exit.area_m2);
    let volume =
        |kelvin: f64, pa: f64| 1.0 / atmosphere::density(cowl.stream.pressure_pa + pa, kelvin);
    // Air that comes in at the tube's end mixes with nothing.
    let drawn = state.exits[0].flow_kg_s.max(0.0);
    let air = volume(state.lower_k, state.trial.lower_pa);
    let tube_m2 = mouth_m2 + ejector.stacks_m2;
    let flow = |symbol, what, value| term(symbol, what, value, Dimension::MassFlow, None);
    Derivation {
        answer: tr("Speed at the end of the augmentor"),
        symbol: "V₂",
        equation: "V₂ = (W_p v_p + W_s v_s)/A",
        source: tr("constant-area mixing, textbook: mixed volumes add"),
        terms: vec![
            flow("W_p", tr("exhaust gas"), ejector.gas_kg_s),
            term(
                "v_p",
                tr("its volume, m³/kg"),
                ejector.gas_m3_kg,
                Dimension::Ratio,
                Some("exit.gas_temperature_k"),
            ),
            flow("W_s", tr("air drawn"), drawn),
            term("v_s", tr("its volume, m³/kg"), air, Dimension::Ratio, None),
            term(
                "A",
                tr("area of the tube"),
                tube_m2,
                Dimension::Area,
                Some("exit.tube_diameter_m"),
            ),
        ],
        value: (ejector.gas_kg_s * ejector.gas_m3_kg + drawn * air) / tube_m2,
        dimension: Dimension::Speed,
        recompute: |t| (t[0] * t[1] + t[2] * t[3]) / t[4],
    }
}

fn nozzle_jet(solved: &Solved) -> Derivation {
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
        answer: tr("Speed in the first exit"),
        symbol: "V₅",
        equation: "V₅ = √(2 c_p T_l (1 − (p₅/p_l)^(2/7)))",
        source: tr("isentropic nozzle, textbook"),
        terms: vec![
            term(
                "T_l",
                tr("air before the exit"),
                kelvin,
                Dimension::Temperature,
                None,
            ),
            term(
                "p₅",
                tr("pressure behind it, absolute"),
                outside,
                Dimension::Pressure,
                None,
            ),
            term(
                "p_l",
                tr("pressure before it, absolute"),
                inside,
                Dimension::Pressure,
                None,
            ),
            term("±", tr("direction"), sign, Dimension::Ratio, None),
        ],
        value: state.exits[0].speed_m_s,
        dimension: Dimension::Speed,
        recompute: |t| {
            let cooling = -libm::expm1((2.0 / 7.0) * libm::log(t[1] / t[2]));
            t[3] * (2.0 * atmosphere::SPECIFIC_HEAT * t[0] * cooling).sqrt()
        },
    }
}
