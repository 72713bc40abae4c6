//! Why: pressures outside the lower deck, where they go by attitude or by the exit's place.

use crate::answer::solved::Solved;
use crate::answer::why::derivation::{Derivation, Term, term};
use crate::document::condition::Phase;
use crate::document::installation::{ExitPlace, Installation};
use crate::language::tr;
use crate::units::typed::Dimension;

/// The first exit's and the lower deck's leak's, each where more than one number was asked for.
pub(super) fn outside(installation: &Installation, solved: &Solved) -> Vec<Derivation> {
    let prepared = &solved.prepared;
    let (cowl, phase) = (&prepared.cowl, prepared.phase);
    let mut list = Vec::new();
    if let Some((exit, of)) = installation
        .exits
        .first()
        .zip(cowl.exits.as_slice().first())
        && (exit.by_attitude || exit.place != ExitPlace::Typed)
    {
        let share = exit.ground_share(phase);
        let drawn_pa = exit.outside_pa(
            prepared.flap,
            phase,
            cowl.stream.dynamic_pa,
            prepared.pressure_rise_pa,
        ) - of.outside_pa;
        list.push(Derivation {
            answer: tr("Pressure outside the first exit"),
            symbol: "p₅",
            equation: "p₅ = C_p q + s T/A − p_s",
            source: tr("definition of a pressure coefficient"),
            terms: vec![
                coefficient(
                    exit.coefficient(prepared.flap, phase),
                    exit_input(exit.place, phase, exit.by_attitude),
                ),
                pressure("q", tr("dynamic pressure"), cowl.stream.dynamic_pa),
                share_of(share, "exit.ground_pressure_share"),
                pressure(
                    "T/A",
                    tr("pressure rise of the propeller"),
                    prepared.pressure_rise_pa,
                ),
                pressure("p_s", tr("suction of a propeller behind it"), drawn_pa),
            ],
            value: of.outside_pa,
            dimension: Dimension::Pressure,
            recompute: |t| t[0] * t[1] + t[2] * t[3] - t[4],
        });
    }
    if installation.decks.outside_by_attitude {
        let (ram, rise) = installation.decks.inflow_shares(phase);
        let input = match phase {
            Phase::Climb => "decks.inflow_climb_share",
            _ => "decks.inflow_pressure_share",
        };
        list.push(Derivation {
            answer: tr("Pressure before the lower deck's leak"),
            symbol: "p_i",
            equation: "p_i = k qc + s T/A",
            source: tr("definition of these shares"),
            terms: vec![
                term(
                    "k",
                    tr("share of the impact pressure"),
                    ram,
                    Dimension::Ratio,
                    Some(input),
                ),
                pressure("qc", tr("impact pressure"), cowl.stream.impact_pa),
                share_of(rise, "decks.inflow_ground_share"),
                pressure(
                    "T/A",
                    tr("pressure rise of the propeller"),
                    prepared.pressure_rise_pa,
                ),
            ],
            value: cowl.inflow.outside_pa,
            dimension: Dimension::Pressure,
            recompute: |t| t[0] * t[1] + t[2] * t[3],
        });
    }
    list
}

fn exit_input(place: ExitPlace, phase: Phase, by_attitude: bool) -> &'static str {
    match place {
        _ if by_attitude && phase == Phase::Climb => match place {
            ExitPlace::Typed => "exit.climb_pressure_coefficient",
            _ => "exit.climb_pressure_rise",
        },
        ExitPlace::Typed => "exit.pressure_coefficient",
        ExitPlace::Belly => "exit.belly_pressure_coefficient",
        ExitPlace::UnderWing => "exit.under_wing_pressure_coefficient",
        ExitPlace::Firewall => "exit.firewall_pressure_coefficient",
        ExitPlace::WingRoot => "exit.wing_root_pressure_coefficient",
    }
}

fn coefficient(value: f64, input: &'static str) -> Term {
    term(
        "C_p",
        tr("pressure coefficient, with what an open flap adds"),
        value,
        Dimension::Ratio,
        Some(input),
    )
}

fn share_of(value: f64, input: &'static str) -> Term {
    term(
        "s",
        tr("share of the propeller's pressure rise on the ground"),
        value,
        Dimension::Ratio,
        Some(input),
    )
}

fn pressure(symbol: &'static str, what: &'static str, pa: f64) -> Term {
    term(symbol, what, pa, Dimension::Pressure, None)
}
