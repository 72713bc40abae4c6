//! An upper deck in two halves as four other programs solved it (`reference/network_halves.csv` and
//! `network_frozen.csv`): the cowl that is such a network, and what is compared of a state.

use coolpath_core::air::atmosphere;
use coolpath_core::path::element::orifice_flow;
use coolpath_core::path::network::{Cowl, Opening};
use coolpath_core::path::openings::{MAX_OPENINGS, Openings};
use coolpath_core::path::split_deck::{Draws, Halves};
use coolpath_core::path::state::State;

use crate::plain_network::{Plain, RAM, inlet};
use crate::table::{Comparison, Row, Tolerance};

/// 1e-12 of the square of all flow, (kg/s)²; it is 1.1 to 1.3 kg/s.
const CLOSED_KG2_S2: f64 = 1.5e-12;

/// What differs between the plain networks.
#[derive(Debug, Clone, Copy)]
pub struct PlainHalves {
    /// Left and right inlet, m².
    pub inlets_m2: [f64; 2],
    /// Ram at the right inlet over that at the left [-].
    pub ram_right: f64,
    /// The oil branch begins in the left half.
    pub oil_on_left: bool,
    /// Opening between the halves, m²; `None` for one deck.
    pub across_m2: Option<f64>,
}

impl PlainHalves {
    /// The network as a cowl: the plain one with its plenum divided, and a leak to the outside.
    #[must_use]
    pub fn cowl(&self) -> Cowl {
        let mut inlets = Openings::default();
        for (area_m2, share) in self.inlets_m2.into_iter().zip([1.0, self.ram_right]) {
            inlets.push(inlet(area_m2, share * RAM));
        }
        let mut left_share = [0.5; MAX_OPENINGS];
        left_share[..2].copy_from_slice(&[1.0, 0.0]);
        Cowl {
            inlets,
            halves: self.across_m2.map(|area| Halves {
                across_m2: 0.6 * area,
                left_share,
                cooler_on_left: self.oil_on_left,
                draws: Draws::default(),
            }),
            overboard: Opening {
                effective_area_m2: 0.6 * 0.0006,
                outside_pa: -0.2 * RAM,
            },
            ..Plain::default().cowl()
        }
    }
}

/// Pressures, Pa, and flows, kg/s, of a state in the tables' columns; one deck is two halves alike.
#[must_use]
pub fn figures(cowl: &Cowl, state: &State) -> Vec<(&'static str, f64)> {
    let trial = &state.trial;
    let upper = state.sides.map_or([trial.upper_pa; 2], |sides| {
        [sides.left.upper_pa, sides.right.upper_pa]
    });
    let banks = state.sides.map_or([0.5 * trial.fin_kg_s; 2], |sides| {
        [sides.left.fin_kg_s, sides.right.fin_kg_s]
    });
    let stream = &cowl.stream;
    let before = upper.map(|pa| atmosphere::density(stream.pressure_pa + pa, stream.total_k));
    let tubes_left = cowl.halves.map_or(0.5, |halves| halves.draws.blast);
    let leak = |half: usize| {
        let tubes = [tubes_left, 1.0 - tubes_left][half];
        let area_m2 = 0.5 * cowl.seal_m2 + tubes * cowl.blast_m2;
        orifice_flow(area_m2, upper[half] - trial.lower_pa, before[half])
    };
    let share = |place: usize| {
        let alone = if place == 0 { 1.0 } else { 0.0 };
        cowl.halves.map_or(alone, |halves| halves.left_share[place])
    };
    let mut inlets = [0.0; 2];
    for (place, inlet) in cowl.inlets.as_slice().iter().enumerate() {
        inlets[0] += share(place) * inlet.flow(upper[0], before[0]);
        inlets[1] += (1.0 - share(place)) * inlet.flow(upper[1], before[1]);
    }
    let mut found = vec![
        ("left_pa", upper[0]),
        ("right_pa", upper[1]),
        ("lower_pa", trial.lower_pa),
        ("inlet_left_kg_s", inlets[0]),
        ("inlet_right_kg_s", inlets[1]),
        ("bank_left_kg_s", banks[0]),
        ("bank_right_kg_s", banks[1]),
        ("leak_left_kg_s", leak(0)),
        ("leak_right_kg_s", leak(1)),
        ("oil_kg_s", trial.cooler_kg_s),
        (
            "exit_kg_s",
            state.exits.iter().map(|exit| exit.flow_kg_s).sum(),
        ),
    ];
    found.extend(state.sides.map(|sides| ("across_kg_s", sides.across_kg_s)));
    found
}

/// Compares a state's figures with a row, each within what its solver allows.
///
/// The first two solvers agree with each other in all digits printed. The others carry constants and
/// friction of their own, and the heads of one have seven digits of a thousand hectopascals. The core
/// closes the square of what crosses to 1e-12 of that of all its flow: of next to nothing only the first
/// digits are known.
pub fn compare_row(
    comparison: &mut Comparison,
    place: &str,
    row: &Row<'_>,
    found: &[(&'static str, f64)],
) {
    let solver = row.text("solver");
    let (share, least_pa, least_kg_s): (f64, f64, f64) = match solver {
        "pandapipes" => (1e-6, 1e-4, 1e-9),
        "epanet" => (4e-4, 0.05, 1e-9),
        _ => (1e-6, 1e-6, 1e-10),
    };
    for (column, found) in found {
        let expected = row.number(column);
        let least: f64 = match *column {
            pressure if pressure.ends_with("_pa") => least_pa,
            "across_kg_s" => least_kg_s.max(0.5 * CLOSED_KG2_S2 / expected.abs()),
            _ => least_kg_s,
        };
        let tolerance = Tolerance::absolute(least.max(share * expected.abs()));
        comparison.value(
            format!("{place} {solver} {column}"),
            *found,
            expected,
            tolerance,
        );
    }
}
