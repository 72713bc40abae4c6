//! What a split upper deck adds: the air from half to half, and a bank by itself.

use crate::air::atmosphere::DENSITY_SL;
use crate::answer::solved::Solved;
use crate::answer::why::derivation::{Derivation, term};
use crate::language::{tr, tr_later};
use crate::path::state::{Side, Sides};
use crate::units::typed::Dimension;

/// What a bank's answers are called.
pub(super) struct Words {
    fins: &'static str,
    head: &'static str,
}

/// The left bank.
pub(super) const LEFT: Words = Words {
    fins: tr_later("Pressure across the left bank, its air taken twice"),
    head: tr_later("Mean head of the left bank, the hotter"),
};
/// The right bank.
pub(super) const RIGHT: Words = Words {
    fins: tr_later("Pressure across the right bank, its air taken twice"),
    head: tr_later("Mean head of the right bank, the hotter"),
};

impl Words {
    pub(super) fn fins(&self, derivation: Derivation) -> Derivation {
        Derivation {
            answer: self.fins,
            ..derivation
        }
    }

    pub(super) fn head(&self, derivation: Derivation) -> Derivation {
        Derivation {
            answer: self.head,
            ..derivation
        }
    }
}

/// A bank as a whole engine at twice the bank's flow: half of its fins have half of its heat.
pub(super) fn as_whole_engine(solved: &Solved, bank: &Side) -> Solved {
    let mut whole = *solved;
    let state = &mut whole.solution.state;
    state.trial.upper_pa = bank.upper_pa;
    state.trial.fin_kg_s = 2.0 * bank.fin_kg_s;
    state.fins.flow_kg_s = 2.0 * bank.fin_kg_s;
    state.fins.out_k = bank.rear_k;
    state.fins.drop_pa = bank.drop_pa;
    state.head_k = bank.head_k;
    whole
}

/// Air from the left half to the right.
pub(super) fn across(solved: &Solved, sides: &Sides) -> Derivation {
    let cowl = &solved.prepared.cowl;
    let area_m2 = cowl.halves.map_or(0.0, |halves| halves.across_m2);
    Derivation {
        answer: tr("Air from the left half to the right"),
        symbol: "W_across",
        equation: "W_across = C_d A √(2 σ ρ₀ |p_left − p_right|), from the higher to the lower",
        source: tr("orifice, as for a leak"),
        terms: vec![
            term(
                "C_d A",
                tr("opening between the halves"),
                area_m2,
                Dimension::Area,
                Some("decks.crossover_area_m2"),
            ),
            term(
                "σ",
                tr("density ratio of the outside air"),
                cowl.stream.density / DENSITY_SL,
                Dimension::Ratio,
                None,
            ),
            term(
                "p_left",
                tr("left half of the deck"),
                sides.left.upper_pa,
                Dimension::Pressure,
                None,
            ),
            term(
                "p_right",
                tr("right half of the deck"),
                sides.right.upper_pa,
                Dimension::Pressure,
                None,
            ),
        ],
        value: sides.across_kg_s,
        dimension: Dimension::MassFlow,
        recompute: |t| {
            let drop = t[2] - t[3];
            (t[0] * libm::sqrt(2.0 * t[1] * DENSITY_SL * drop.abs())).copysign(drop)
        },
    }
}
