//! Where the oil cooler stands, and a second one of the same kind.

use coolpath_core::air::atmosphere;
use coolpath_core::answer::evaluate::{Answer, evaluate};
use coolpath_core::answer::prepare::prepare;
use coolpath_core::decide::shutter_card::{Tape, tape_card};
use coolpath_core::document::condition::AirKind;
use coolpath_core::document::design::Design;
use coolpath_core::document::example;
use coolpath_core::document::installation::{
    CoolerDischarge, CoolerRating, CoolerSupply, Cover, SecondCooler,
};
use coolpath_core::path::solve::solve;
use coolpath_core::units::quantity::{kelvin, metre};
use coolpath_core::units::si::{degf, inch};
use coolpath_core::units::typed::UnitSystem;
use coolpath_tests::designs::unregulated;

const CLIMB: usize = 1;

/// The example without shutter and thermostat, so that nothing regulates.
fn bare() -> Design {
    let mut design = unregulated();
    design.installation.shutter.fitted = false;
    design.installation.oil.thermostat = false;
    design.installation.cooler.rating = CoolerRating::Rated;
    design
}

fn climb(design: &Design) -> Answer {
    evaluate(design, CLIMB).expect("an answer")
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9 * b.abs()
}

#[test]
fn a_cooler_on_the_baffle_is_one_behind_a_hole_of_its_own_size() {
    let mut on_baffle = bare();
    let cooler = &mut on_baffle.installation.cooler;
    cooler.supply = CoolerSupply::RearBaffle;
    cooler.baffle_preheat_share = 0.2;
    let mut behind_hole = on_baffle.clone();
    let cooler = &mut behind_hole.installation.cooler;
    cooler.supply = CoolerSupply::UpperDeck;
    cooler.preheat_share = 0.2;
    cooler.bends = 0;
    cooler.duct_length = metre(0.0);
    let face_m2 = cooler.face_width.value * cooler.core_height_m();
    cooler.duct_diameter = metre((4.0 * face_m2 / std::f64::consts::PI).sqrt());
    let (a, b) = (climb(&on_baffle), climb(&behind_hole));
    assert!(near(a.oil.value, b.oil.value) && near(a.cooler_flow.value, b.cooler_flow.value));
}

#[test]
fn the_baffle_gives_more_air_than_a_hose_and_its_warmth_costs_oil_temperature() {
    let hose = bare();
    let mut baffle = hose.clone();
    baffle.installation.cooler.supply = CoolerSupply::RearBaffle;
    let mut cool = baffle.clone();
    cool.installation.cooler.baffle_preheat_share = 0.0;
    assert!(climb(&baffle).cooler_flow.value > climb(&hose).cooler_flow.value);
    assert!(climb(&baffle).oil.value > climb(&cool).oil.value + 1.0);
}

#[test]
fn two_beside_each_other_that_share_the_oil_are_one_of_twice_the_size() {
    let mut two = bare();
    two.installation.cooler.second = SecondCooler::BesideOilShared;
    let mut big = bare();
    let cooler = &mut big.installation.cooler;
    cooler.face_width.value *= 2.0;
    cooler.rated_heat.value *= 2.0;
    cooler.rated_air_flow.value *= 2.0;
    cooler.rated_oil_flow.value *= 2.0;
    let (a, b) = (climb(&two), climb(&big));
    assert!(near(a.oil.value, b.oil.value), "{:?} {:?}", a.oil, b.oil);
    assert!(near(a.cooler_flow.value, b.cooler_flow.value));
    assert!(near(a.cooler_heat.value, b.cooler_heat.value));
}

#[test]
fn every_second_cooler_cools_the_oil_and_one_in_the_same_air_takes_more_pressure() {
    let one = climb(&bare());
    let with = |second| {
        let mut design = bare();
        design.installation.cooler.second = second;
        climb(&design)
    };
    for second in [
        SecondCooler::BesideOilShared,
        SecondCooler::BesideOilInTurn,
        SecondCooler::BehindOilShared,
        SecondCooler::BehindOilInTurn,
    ] {
        let answer = with(second);
        assert!(answer.oil.value < one.oil.value - 1.0, "{second:?}");
        let more_air = answer.cooler_flow.value > one.cooler_flow.value;
        assert_eq!(more_air, second.is_beside(), "{second:?}");
    }
    // Counterflow beats cores that share the oil in the same air.
    let (in_turn, shared) = (
        with(SecondCooler::BehindOilInTurn),
        with(SecondCooler::BehindOilShared),
    );
    assert!(in_turn.oil.value < shared.oil.value);
}

/// What a field of the file that no old design has must not change.
fn answers(design: &Design) -> Vec<String> {
    (0..design.conditions.len())
        .map(|place| format!("{:?}", evaluate(design, place).expect("an answer")))
        .collect()
}

#[test]
fn a_design_without_a_wall_behind_the_core_keeps_every_bit_and_its_file() {
    let own = example::design();
    let mut typed = own.clone();
    // What is typed of a gap that does not exist counts for nothing.
    typed.installation.cooler.standoff_gap = metre(0.003);
    typed.installation.cooler.standoff_discharge = 0.3;
    assert_eq!(answers(&own), answers(&typed));
    let text = serde_json::to_string(&own).expect("a file");
    for key in ["wall_behind", "standoff"] {
        assert!(!text.contains(key), "{key}");
    }
}

#[test]
fn a_cooler_on_the_front_baffle_is_one_on_the_rear_baffle_that_no_cylinder_warms() {
    let mut front = bare();
    front.installation.cooler.supply = CoolerSupply::FrontBaffle;
    let mut rear = bare();
    rear.installation.cooler.supply = CoolerSupply::RearBaffle;
    let warmed = climb(&rear);
    rear.installation.cooler.baffle_preheat_share = 0.0;
    let (a, b) = (climb(&front), climb(&rear));
    assert_eq!(format!("{a:?}"), format!("{b:?}"));
    assert!(a.oil.value < warmed.oil.value - 1.0);
}

/// The climb with a gap behind the core, in.
fn gapped(change: fn(&mut Design), gap_in: f64) -> Answer {
    let mut design = bare();
    change(&mut design);
    let cooler = &mut design.installation.cooler;
    cooler.wall_behind = true;
    cooler.standoff_gap = metre(inch(gap_in));
    climb(&design)
}

#[test]
fn a_wide_gap_behind_the_core_costs_nothing_and_a_narrow_one_nearly_all_of_its_air() {
    let free = climb(&bare());
    let gaps = [0.1, 0.25, 0.5, 1.0, 2.0, 4.0, 12.0];
    let flows = gaps.map(|gap| gapped(|_| (), gap).cooler_flow.value);
    assert!(flows.windows(2).all(|pair| pair[0] < pair[1]), "{flows:?}");
    let last = flows[gaps.len() - 1] / free.cooler_flow.value;
    assert!(last < 1.0 && last > 0.998, "{last}");
    assert!(flows[0] < 0.25 * free.cooler_flow.value, "{flows:?}");
    let oil = |gap: f64| gapped(|_| (), gap).oil.value;
    assert!(oil(0.25) > oil(1.0) && oil(1.0) > free.oil.value);
}

#[test]
fn the_air_behind_the_core_loses_the_dynamic_pressure_of_its_jet_through_the_gap() {
    let mut design = bare();
    let cooler = &mut design.installation.cooler;
    cooler.supply = CoolerSupply::FrontBaffle;
    cooler.wall_behind = true;
    cooler.standoff_gap = metre(0.02);
    cooler.standoff_discharge = 0.7;
    let open_m2 = 0.02 * 2.0 * (cooler.face_width.value + cooler.core_height_m());
    let cowl = prepare(&design.installation, &design.conditions[CLIMB])
        .expect("a cowl")
        .cowl;
    let state = solve(&cowl, None).expect("a balance").state;
    let (trial, flow) = (state.trial, state.cooler.flow_kg_s);
    let density = |gauge_pa: f64, kelvin: f64| {
        atmosphere::density(cowl.stream.pressure_pa + gauge_pa, kelvin)
    };
    let before = density(trial.upper_pa, state.cooler.in_k);
    let behind = density(trial.lower_pa, state.cooler.out_k);
    let jet_m_s = flow / (behind * 0.7 * open_m2);
    let duct = &cowl.cooler.duct;
    let volume = 0.5 * (1.0 / before + 1.0 / behind);
    let used_pa = duct.duct_drop(flow, before, state.cooler.in_k)
        + duct.core_drop(flow) * atmosphere::DENSITY_SL * volume
        + 0.5 * behind * jet_m_s * jet_m_s;
    let driving_pa = trial.upper_pa - trial.lower_pa;
    assert!(near(used_pa, driving_pa), "{used_pa} {driving_pa}");
}

#[test]
fn a_wall_behind_a_core_with_an_exit_of_its_own_is_no_gap() {
    let mut design = bare();
    design.installation.cooler.discharge = CoolerDischarge::OwnExit;
    let own = climb(&design);
    design.installation.cooler.wall_behind = true;
    assert_eq!(format!("{own:?}"), format!("{:?}", climb(&design)));
}

/// The climb with a share of the face covered.
fn covered(share: f64, cover: Cover) -> Answer {
    let mut design = bare();
    design.installation.cooler.blanked_share = share;
    design.installation.cooler.cover = cover;
    climb(&design)
}

#[test]
fn a_plate_that_covers_nothing_is_none_and_the_choice_alone_changes_no_bit() {
    let own = example::design();
    let mut plate = own.clone();
    plate.installation.cooler.cover = Cover::Plate;
    let numbers = |design: &Design| answers(design).join("\n");
    assert_eq!(numbers(&own), numbers(&plate));
    let text = serde_json::to_string(&own).expect("a file");
    assert!(!text.contains("\"cover\""));
}

#[test]
fn covering_more_of_the_face_leaves_less_air_and_hotter_oil_and_a_plate_more_so_than_tape() {
    for cover in [Cover::Tape, Cover::Plate] {
        let found = [0.0, 0.2, 0.5, 0.8, 0.95].map(|share| covered(share, cover));
        for pair in found.windows(2) {
            assert!(pair[1].cooler_flow.value < pair[0].cooler_flow.value);
            assert!(pair[1].oil.value > pair[0].oil.value);
        }
    }
    for share in [0.2, 0.5, 0.9] {
        let (tape, plate) = (covered(share, Cover::Tape), covered(share, Cover::Plate));
        assert!(plate.cooler_flow.value < tape.cooler_flow.value, "{share}");
    }
}

#[test]
fn a_covered_core_cautions_never_to_cover_all_of_it() {
    let cautioned = |answer: &Answer| {
        let sentences: Vec<String> = answer
            .warnings
            .iter()
            .map(|one| one.sentence(UnitSystem::Customary))
            .collect();
        sentences
            .iter()
            .any(|text| text.contains("never cover all of it"))
    };
    assert!(!cautioned(&covered(0.0, Cover::Plate)));
    assert!(cautioned(&covered(0.3, Cover::Tape)));
    assert!(cautioned(&covered(0.3, Cover::Plate)));
}

#[test]
fn the_cards_tape_is_the_cover_that_holds_the_oil_whatever_covers_it() {
    for cover in [Cover::Tape, Cover::Plate] {
        let mut design = bare();
        design.installation.cooler.cover = cover;
        let cruise = design.conditions[3].clone();
        let oat_k = degf(10.0);
        let found = tape_card(&design.installation, &cruise, &[oat_k]);
        let Some(&Ok(Tape::Holds(share))) = found.first() else {
            panic!("{cover:?}: {found:?}");
        };
        design.installation.cooler.blanked_share = share;
        let mut cold = cruise.clone();
        cold.air = AirKind::Oat;
        cold.oat = kelvin(oat_k);
        let oil_k = evaluate(&design.with_only(cold), 0)
            .expect("an answer")
            .oil
            .value;
        assert!(
            (oil_k - cruise.oil_target.value).abs() < 0.05,
            "{cover:?}: {oil_k}"
        );
    }
}
