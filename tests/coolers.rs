//! Where the oil cooler stands, and a second one of the same kind.

use coolpath_core::answer::evaluate::{Answer, evaluate};
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::{CoolerRating, CoolerSupply, SecondCooler};
use coolpath_core::units::quantity::metre;
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
