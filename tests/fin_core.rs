//! A cooler computed from its rows, tubes and fins: independent values, limits, and its place in the whole.

use coolpath_core::answer::evaluate::{Answer, evaluate};
use coolpath_core::answer::prepare::prepare;
use coolpath_core::document::design::Design;
use coolpath_core::document::example;
use coolpath_core::document::installation::{Cooler, CoolerRating, FinKind};
use coolpath_core::engine::cooler::effectiveness;
use coolpath_core::path::fin_core::{
    FinCore, exponent_about, fin_efficiency, rectangle_friction, rectangle_nusselt,
};
use coolpath_core::path::network::CoolerBranch;
use coolpath_core::units::quantity::metre;
use coolpath_tests::table::{Row, Table, compare};

const CLIMB: usize = 1;
/// Mass flux about which the network takes powers, kg/(s·m²).
const FLUX: f64 = 6.0;
const HEAT_CAPACITY_OIL: f64 = 2100.0;
const HEAT_CAPACITY_AIR: f64 = 3.5 * 8314.32 / 28.9644;

#[test]
fn friction_and_heat_of_a_rectangle_are_those_of_its_equations() {
    compare("rectangles", |comparison| {
        for row in Table::read("fin_duct").rows() {
            let aspect = row.input("aspect");
            let found = match row.text("quantity") {
                "friction of a rectangle" => rectangle_friction(aspect),
                _ => rectangle_nusselt(aspect),
            };
            comparison.row(&row, found);
        }
    });
}

#[test]
fn fins_are_as_efficient_as_the_table_says() {
    compare("straight fins", |comparison| {
        for row in Table::read("fin_efficiency").rows() {
            let thickness = row.number("thickness_m");
            // The tip's area goes onto the length.
            let found = fin_efficiency(
                row.number("film_w_m2_k"),
                row.number("conductivity_w_m_k"),
                thickness,
                row.number("height_m") + 0.5 * thickness,
            );
            comparison.cell(&row, "straight", found);
        }
    });
}

/// The core of a row of the table.
fn core(row: &Row<'_>) -> FinCore {
    let strip = row.input("strip");
    FinCore {
        width_m: row.input("width"),
        rows: row.input("rows"),
        row_pitch_m: row.input("pitch"),
        depth_m: row.input("depth"),
        tube_m: row.input("tube"),
        fin_pitch_m: row.input("spacing"),
        fin_m: row.input("fin"),
        strip_m: (strip > 0.0).then_some(strip),
    }
}

#[test]
fn whole_cores_are_those_of_the_independent_model() {
    compare("cores", |comparison| {
        for row in Table::read("fin_core").rows() {
            let (core, flux) = (core(&row), row.input("flux"));
            let found = match row.text("quantity") {
                "air conductance" => core.air_conductance(flux),
                "drop" => core.drop(flux),
                _ => {
                    let oil = 1.0 / (row.input("oil_film") * core.oil_m2());
                    let conductance = 1.0 / (1.0 / core.air_conductance(flux) + oil);
                    let air_w_k = flux * core.face_m2() * HEAT_CAPACITY_AIR;
                    let oil_w_k = row.input("oil") * HEAT_CAPACITY_OIL;
                    let (small, large) = (air_w_k.min(oil_w_k), air_w_k.max(oil_w_k));
                    small * effectiveness(conductance / small, small / large)
                }
            };
            comparison.row(&row, found);
        }
    });
}

const CORE: FinCore = FinCore {
    width_m: 0.165,
    rows: 11.0,
    row_pitch_m: 0.012,
    depth_m: 0.05,
    tube_m: 0.003,
    fin_pitch_m: 0.0014,
    fin_m: 0.00015,
    strip_m: None,
};

#[test]
fn without_fins_the_tubes_alone_give_heat_to_a_slot() {
    // As far apart as the core is wide and as thin as nothing: plates, Nu 7.541 on D = 2 b, developed.
    let bare = FinCore {
        fin_pitch_m: 1e3,
        fin_m: 1e-9,
        depth_m: 10.0,
        ..CORE
    };
    let slot = 0.009;
    let film = bare.air_conductance(0.02) / bare.oil_m2();
    let conductivity =
        2.646_38e-3 * 330_f64.powf(1.5) / (330.0 + 245.4 * 10_f64.powf(-12.0 / 330.0));
    let expected = 7.541 * conductivity / (2.0 * slot);
    assert!((film / expected - 1.0).abs() < 0.01, "{film} {expected}");
}

#[test]
fn a_face_twice_as_large_carries_twice_and_a_deeper_core_more_for_more_pressure() {
    for strip_m in [None, Some(0.003)] {
        let core = FinCore { strip_m, ..CORE };
        let twice = FinCore {
            width_m: 2.0 * core.width_m,
            ..core
        };
        let more_rows = FinCore { rows: 22.0, ..core };
        for double in [twice, more_rows] {
            let ratio = double.air_conductance(7.0) / core.air_conductance(7.0);
            assert!((ratio - 2.0).abs() < 1e-12);
            assert!((double.drop(7.0) / core.drop(7.0) - 1.0).abs() < 1e-12);
            assert!((double.oil_m2() / core.oil_m2() - 2.0).abs() < 1e-12);
        }
        let deep = FinCore {
            depth_m: 2.0 * core.depth_m,
            ..core
        };
        let more = deep.air_conductance(7.0) / core.air_conductance(7.0);
        // Plain channels lose part of what the entry gives.
        assert!(more > 1.3 && more <= 2.0 + 1e-12, "{more}");
        assert!(deep.drop(7.0) > 1.4 * core.drop(7.0));
        let offset_beats_plain = FinCore {
            strip_m: Some(0.003),
            ..core
        };
        assert!(offset_beats_plain.air_conductance(7.0) >= core.air_conductance(7.0));
        assert!(offset_beats_plain.drop(7.0) >= core.drop(7.0));
    }
}

#[test]
fn the_powers_of_the_network_stay_near_the_core_over_the_fluxes_of_flight() {
    for strip_m in [None, Some(0.003)] {
        let core = FinCore { strip_m, ..CORE };
        let heat = exponent_about(FLUX, |flux| core.air_conductance(flux));
        let drop = exponent_about(FLUX, |flux| core.drop(flux));
        assert!((0.1..0.6).contains(&heat), "{heat}");
        assert!((1.1..1.9).contains(&drop), "{drop}");
        for flux in [3.0, 4.0, 9.0, 12.0_f64] {
            let by = |exponent: f64| (flux / FLUX).powf(exponent);
            let heat_off = core.air_conductance(FLUX) * by(heat) / core.air_conductance(flux);
            let drop_off = core.drop(FLUX) * by(drop) / core.drop(flux);
            assert!((heat_off - 1.0).abs() < 0.1, "{flux}: {heat_off}");
            assert!((drop_off - 1.0).abs() < 0.1, "{flux}: {drop_off}");
        }
    }
}

fn finned() -> Design {
    let mut design = example::design();
    design.installation.cooler.rating = CoolerRating::FromFins;
    design.installation.cooler.rows = 11;
    design
}

fn branch(design: &Design) -> CoolerBranch {
    let prepared = prepare(&design.installation, &design.conditions[CLIMB]);
    prepared.expect("it is prepared").cowl.cooler
}

fn climb(design: &Design) -> Answer {
    evaluate(design, CLIMB).expect("an answer")
}

#[test]
fn the_network_gets_the_core_s_own_numbers() {
    let design = finned();
    let cooler = &design.installation.cooler;
    let core = FinCore {
        width_m: cooler.face_width.value,
        rows: 11.0,
        row_pitch_m: cooler.row_pitch.value,
        depth_m: cooler.depth.value,
        tube_m: cooler.tube_height.value,
        fin_pitch_m: cooler.fin_pitch.value,
        fin_m: cooler.fin_thickness.value,
        strip_m: Some(cooler.strip.value),
    };
    let branch = branch(&design);
    let air_kg_s = FLUX * core.face_m2();
    assert!((cooler.core_height_m() * cooler.face_width.value - core.face_m2()).abs() < 1e-12);
    let drop = branch.duct.core_drop(air_kg_s);
    assert!((drop / core.drop(FLUX) - 1.0).abs() < 1e-9);
    let oil_kg_s = branch.conductance.rated_oil_kg_s;
    let film = 1.0 / (cooler.oil_film * core.oil_m2());
    let expected = 1.0 / (1.0 / core.air_conductance(FLUX) + film);
    let found = branch.conductance.at(air_kg_s, oil_kg_s);
    assert!((found / expected - 1.0).abs() < 1e-9);
    // Both factors stand on what was computed.
    let mut worse = design.clone();
    worse.installation.cooler.fin_conductance_factor = 0.8;
    worse.installation.cooler.fin_drop_factor = 1.5;
    let worse = self::branch(&worse);
    assert!((worse.conductance.at(air_kg_s, oil_kg_s) / found - 0.8).abs() < 1e-9);
    assert!((worse.duct.core_drop(air_kg_s) / drop - 1.5).abs() < 1e-9);
    // Hardly any oil gives up next to nothing.
    assert!(branch.conductance.at(air_kg_s, 1e-9) < 1e-2 * found);
    assert_eq!(branch.conductance.at(air_kg_s, 0.0), 0.0);
}

#[test]
fn half_behind_tape_is_half_a_core() {
    let whole = branch(&finned());
    let mut taped = finned();
    taped.installation.cooler.blanked_share = 0.5;
    let taped = branch(&taped);
    let oil_kg_s = whole.conductance.rated_oil_kg_s;
    let ratio = taped.conductance.at(0.1, oil_kg_s) / whole.conductance.at(0.2, oil_kg_s);
    assert!((ratio - 0.5).abs() < 1e-9, "{ratio}");
    assert!((taped.duct.core_drop(0.1) / whole.duct.core_drop(0.2) - 1.0).abs() < 1e-9);
}

#[test]
fn more_rows_closer_fins_and_offset_ones_cool_the_oil() {
    let oil = |change: fn(&mut Cooler)| {
        let mut design = finned();
        change(&mut design.installation.cooler);
        climb(&design).oil.value
    };
    let own = oil(|_| {});
    assert!(oil(|cooler| cooler.rows = 14) < own - 1.0);
    assert!(oil(|cooler| cooler.fin_kind = FinKind::Plain) > own + 1.0);
    assert!(oil(|cooler| cooler.fin_pitch = metre(0.003)) > own);
    assert!(oil(|cooler| cooler.oil_film = 300.0) > own + 1.0);
}

#[test]
fn a_rated_cooler_keeps_every_bit_and_its_file_whatever_is_typed_of_fins() {
    let own = example::design();
    let mut typed = own.clone();
    let cooler = &mut typed.installation.cooler;
    cooler.fin_pitch = metre(0.004);
    cooler.oil_film = 100.0;
    cooler.fin_kind = FinKind::Plain;
    assert_eq!(climb(&own), climb(&typed));
    let text = serde_json::to_string(&own).expect("a file");
    for key in ["fin_pitch", "fin_kind", "tube_height", "oil_film"] {
        assert!(!text.contains(key), "{key}");
    }
}
