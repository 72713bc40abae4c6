//! An upper deck in two halves at constant density, against four independent solvers.

use coolpath_core::path::solve::solve;
use coolpath_tests::plain_halves::{PlainHalves, compare_row, figures};
use coolpath_tests::plain_network::SLOW;
use coolpath_tests::table::{Row, Table, compare};

fn network(row: &Row<'_>) -> PlainHalves {
    PlainHalves {
        inlets_m2: ["inlet_left_m2", "inlet_right_m2"].map(|column| row.number(column)),
        ram_right: row.number("ram_right_share"),
        oil_on_left: row.text("oil_from") == "left",
        across_m2: row.number_if_any("across_m2"),
    }
}

/// Pressures and flows at the table's own speed.
fn found(network: &PlainHalves) -> Vec<(&'static str, f64)> {
    let cowl = network.cowl();
    let state = solve(&cowl, None)
        .unwrap_or_else(|error| panic!("{network:?}: {error}"))
        .state;
    let scaled = |(column, value): (&'static str, f64)| {
        let by = if column.ends_with("_pa") {
            SLOW
        } else {
            SLOW.sqrt()
        };
        (column, value / by)
    };
    figures(&cowl, &state).into_iter().map(scaled).collect()
}

#[test]
fn two_halves_match_four_independent_solvers() {
    compare("two halves match four independent solvers", |comparison| {
        let table = Table::read("network_halves");
        let (mut left, mut right) = (0, 0);
        for row in table.rows() {
            let network = network(&row);
            let found = found(&network);
            compare_row(comparison, &format!("{network:?}"), &row, &found);
            let across = row.number_if_any("across_kg_s").unwrap_or(0.0);
            right += usize::from(across > 0.0);
            left += usize::from(across < 0.0);
        }
        assert!(left >= 20 && right >= 20, "{left} {right}");
    });
}

#[test]
fn the_larger_the_opening_the_nearer_to_one_deck() {
    let at = |across_m2| {
        found(&PlainHalves {
            inlets_m2: [0.015, 0.010],
            ram_right: 1.0,
            oil_on_left: false,
            across_m2,
        })
    };
    let one = at(None);
    let mut last = f64::INFINITY;
    for across_m2 in [1e-7, 1e-3, 0.02, 0.1, 1.0, 10.0, 100.0] {
        let two = at(Some(across_m2));
        let apart = two
            .iter()
            .zip(&one)
            .map(|((_, two), (_, one))| (two / one - 1.0).abs())
            .fold(0.0, f64::max);
        // By the square of the area, since the drop across is.
        assert!(apart < last, "{across_m2}: {apart} {last}");
        last = apart;
    }
    assert!(last < 2e-8, "{last}");
}
