//! Typed quantities: units, decimal signs, rubbish, and round trips.

use coolpath_core::units::typed::{Dimension, ParseError, UnitSystem, parse, rounded_text, text};

const DIMENSIONS: [Dimension; 26] = [
    Dimension::Length,
    Dimension::Altitude,
    Dimension::Area,
    Dimension::Pressure,
    Dimension::Altimeter,
    Dimension::OilPressure,
    Dimension::Temperature,
    Dimension::TemperatureDifference,
    Dimension::Speed,
    Dimension::MassFlow,
    Dimension::OilFlow,
    Dimension::FuelFlow,
    Dimension::Power,
    Dimension::Heat,
    Dimension::Conductance,
    Dimension::VolumeConductance,
    Dimension::DropPerDepth,
    Dimension::AirPerPower,
    Dimension::AirConsumption,
    Dimension::Angle,
    Dimension::RotationalSpeed,
    Dimension::Force,
    Dimension::Percent,
    Dimension::Ratio,
    Dimension::DifferencePerDegree,
    Dimension::Count,
];

fn customary(text: &str, dimension: Dimension) -> f64 {
    parse(text, dimension, UnitSystem::Customary)
        .unwrap_or_else(|error| panic!("{text}: {error:?}"))
}

#[test]
fn typed_values_carry_their_unit_and_either_decimal_sign() {
    for (text, dimension, si) in [
        ("14.5", Dimension::Length, 14.5 * 0.0254),
        ("14,5", Dimension::Length, 14.5 * 0.0254),
        ("0,5", Dimension::Length, 0.0127),
        ("10.", Dimension::Length, 0.254),
        (".5", Dimension::Length, 0.0127),
        ("102 mm", Dimension::Length, 0.102),
        ("102mm", Dimension::Length, 0.102),
        ("10,2 cm", Dimension::Length, 0.102),
        ("4\"", Dimension::Length, 0.1016),
        ("2'", Dimension::Length, 0.6096),
        ("38 C", Dimension::Temperature, 311.15),
        ("100 °F", Dimension::Temperature, 310.927_777_777_777_8),
        ("-10", Dimension::Temperature, (-10.0 + 459.67) / 1.8),
        ("−10", Dimension::Temperature, (-10.0 + 459.67) / 1.8),
        ("-10 C", Dimension::Temperature, 263.15),
        ("3,500 ft", Dimension::Altitude, 1066.8),
        ("3.500,5 ft", Dimension::Altitude, 3500.5 * 0.3048),
        ("1,013.25 hPa", Dimension::Altimeter, 101_325.0),
        ("29.92", Dimension::Altimeter, 29.92 * 3386.389),
        ("100 mph", Dimension::Speed, 44.704),
        ("12 %", Dimension::Percent, 0.12),
        ("1e-3", Dimension::Ratio, 1e-3),
        ("+2", Dimension::Ratio, 2.0),
    ] {
        let found = customary(text, dimension);
        assert!(
            (found - si).abs() <= 1e-12 * si.abs(),
            "{text}: {found}, not {si}"
        );
    }
    let metric = parse("150", Dimension::Length, UnitSystem::Metric).expect("150 mm");
    assert!((metric - 0.150).abs() < 1e-15);
}

#[test]
fn a_difference_of_25_celsius_is_45_fahrenheit() {
    let kelvin = customary("25 C", Dimension::TemperatureDifference);
    let shown = Dimension::TemperatureDifference.shown(UnitSystem::Customary);
    assert!((shown.from_si(kelvin) - 45.0).abs() < 1e-12);
    assert_eq!(
        text(
            kelvin,
            Dimension::TemperatureDifference,
            UnitSystem::Customary
        ),
        "45"
    );
}

#[test]
fn rubbish_is_refused_by_name() {
    let refused = |text: &str, dimension| parse(text, dimension, UnitSystem::Customary);
    assert_eq!(refused("", Dimension::Length), Err(ParseError::Empty));
    assert_eq!(refused("  ", Dimension::Length), Err(ParseError::Empty));
    for text in [
        "-", "abc", ".", ",", "--3", "NaN", "inf", "e5", "1.2.3.4x", "−",
    ] {
        assert!(
            matches!(
                refused(text, Dimension::Length),
                Err(ParseError::NotANumber | ParseError::UnknownUnit { .. })
            ),
            "{text}"
        );
    }
    for (text, unit) in [("5 kg", "kg"), ("5 in in", "in in"), ("5 psi", "psi")] {
        let found = refused(text, Dimension::Length);
        assert_eq!(
            found,
            Err(ParseError::UnknownUnit {
                unit: unit.to_owned()
            }),
            "{text}"
        );
    }
    assert!(refused("1e999", Dimension::Length).is_err());
}

#[test]
fn every_unit_of_every_dimension_reads_its_own_symbol_and_back() {
    for dimension in DIMENSIONS {
        for unit in dimension.units() {
            let si = unit.to_si(12.5);
            assert!(
                (unit.from_si(si) - 12.5).abs() < 1e-9,
                "{dimension:?} {}",
                unit.symbol
            );
            let typed = format!("12.5 {}", unit.symbol);
            for system in [UnitSystem::Customary, UnitSystem::Metric] {
                // A lone symbol may mean the shown unit of either system; both read the same.
                let found = parse(&typed, dimension, system).expect("its own symbol");
                if !unit.symbol.is_empty() {
                    assert!((found - si).abs() <= 1e-12 * si.abs(), "{typed}");
                }
            }
        }
    }
}

#[test]
fn two_switches_of_units_show_the_same_text() {
    for dimension in DIMENSIONS {
        for typed in ["14.5", "949.9999", "0.0625", "3", "123456.7", "0.1"] {
            let si = customary(typed, dimension);
            let metric = text(si, dimension, UnitSystem::Metric);
            assert!(!metric.contains("NaN"));
            let back = text(si, dimension, UnitSystem::Customary);
            assert_eq!(back, typed, "{dimension:?}");
        }
    }
}

#[test]
fn numbers_are_rounded_without_trailing_zeros_or_minus_nought() {
    assert_eq!(rounded_text(0.0, 3), "0");
    assert_eq!(rounded_text(-0.0, 3), "0");
    assert_eq!(rounded_text(1234.5, 3), "1234");
    assert_eq!(rounded_text(0.012_345, 3), "0.0123");
    assert_eq!(rounded_text(2.500, 3), "2.5");
    assert_eq!(rounded_text(f64::NAN, 3), "0");
}

#[test]
fn a_tape_measures_feet_inches_and_fractions_are_lengths() {
    for (text, inches) in [
        ("5'6\"", 66.0),
        ("5' 6", 66.0),
        ("5′ 6″", 66.0),
        ("5 ft 6 in", 66.0),
        ("5'6 1/2\"", 66.5),
        ("1' 0.5\"", 12.5),
        ("4 5/8", 4.625),
        ("4 5/8 in", 4.625),
        ("2-1/8", 2.125),
        ("2-1/8\"", 2.125),
        ("7/16", 0.4375),
        ("5/4", 1.25),
        ("2'", 24.0),
        ("1'200", 1200.0),
    ] {
        let si = customary(text, Dimension::Length);
        assert!((si - inches * 0.0254).abs() < 1e-12, "{text}: {si}");
    }
    for text in [
        "5'14\"", "4 9/8", "1/0", "/8", "7/", "1/2/3", "5'6'7", "-1/2", "3 4", "5'x",
    ] {
        let found = parse(text, Dimension::Length, UnitSystem::Customary);
        assert!(found.is_err(), "{text}: {found:?}");
    }
    // A fraction of a millimetre is no measure; with its unit it is one of an inch.
    assert!(parse("7/16", Dimension::Length, UnitSystem::Metric).is_err());
    let inch = parse("7/16 in", Dimension::Length, UnitSystem::Metric).expect("inches");
    assert!((inch - 0.4375 * 0.0254).abs() < 1e-15);
    assert!(parse("5/8", Dimension::Area, UnitSystem::Customary).is_err());
}

#[test]
fn a_length_may_be_a_sum_of_products_and_keeps_the_units_of_its_terms() {
    for (text, inches) in [
        ("3*2.5", 7.5),
        ("3 × 2 1/8", 6.375),
        ("1/8*3", 0.375),
        ("2 1/8 + 1/16", 2.1875),
        ("2+1/8", 2.125),
        ("2 - 1/8", 1.875),
        ("2 − 1/8", 1.875),
        ("2-1/8", 2.125),
        ("5'6\" + 1/2", 66.5),
        ("4 in + 25.4 mm", 5.0),
        ("2 * 25.4 mm", 2.0),
        ("2*3*1", 6.0),
        ("1e+1", 10.0),
        ("4⅝", 4.625),
        ("½", 0.5),
        ("3½\"", 3.5),
        ("1 + 2*3 - 1/2", 6.5),
        ("14,5 + 0,5", 15.0),
    ] {
        let si = customary(text, Dimension::Length);
        assert!((si - inches * 0.0254).abs() < 1e-12, "{text}: {si}");
    }
    for text in [
        "2+",
        "*3",
        "3*",
        "2++3",
        "2 in * 3 in",
        "3*kt",
        "1e300*1e300",
        "2 - ",
        "2 3/8 1/4",
        "4½½",
    ] {
        let found = parse(text, Dimension::Length, UnitSystem::Customary);
        assert!(found.is_err(), "{text}: {found:?}");
    }
    let metric = parse("3*25 + 1/8 in", Dimension::Length, UnitSystem::Metric).expect("a length");
    assert!((metric - (0.075 + 0.003_175)).abs() < 1e-12, "{metric}");
    // Other quantities are one number.
    assert!(parse("3*2", Dimension::Area, UnitSystem::Customary).is_err());
}

#[test]
fn a_choice_for_each_quantity_is_kept_and_older_states_open() {
    use coolpath_core::units::typed::Chosen;
    let read = |text: &str| serde_json::from_str::<UnitSystem>(text).expect("units");
    assert_eq!(read("\"customary\""), UnitSystem::Customary);
    assert_eq!(read("\"metric\""), UnitSystem::Metric);
    let mixed = UnitSystem::MIXED.with(Chosen::Pressure, 2);
    let written = serde_json::to_string(&mixed).expect("a text");
    assert_eq!(read(&written), mixed);
    assert_eq!(Dimension::Pressure.shown(mixed).symbol, "hPa");
    assert_eq!(Dimension::Speed.shown(mixed).symbol, "kt");
    assert_eq!(Dimension::Length.shown(mixed).symbol, "mm");
    assert_eq!(Dimension::Area.shown(mixed).symbol, "cm²");
    // A shorter list is customary at its end, and no place leads beyond a list of units.
    let short = read(r#"{"own":[1]}"#);
    assert_eq!(Dimension::Length.shown(short).symbol, "mm");
    assert_eq!(Dimension::Speed.shown(short).symbol, "kt");
    let wild = read(r#"{"own":[9,9,9,9,9,9,9,9,9,9,9,9,9]}"#);
    for dimension in DIMENSIONS {
        let shown = dimension.shown(wild);
        assert!(dimension.units().contains(shown), "{dimension:?}");
    }
    // Power goes with heat: horsepower of either kind has its own, PS the metric one.
    let ps = UnitSystem::Customary.with(Chosen::Power, 2);
    assert_eq!(Dimension::Power.shown(ps).symbol, "PS");
    assert_eq!(Dimension::Heat.shown(ps).symbol, "kW");
}
