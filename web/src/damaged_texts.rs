//! Whatever stands in a file, a code or a field: a message or a value, never a panic.

use crate::share::code::{code, design_of_code};
use crate::state::document::{design_of, file_text, state_of};
use coolpath_core::answer::evaluate::evaluate;
use coolpath_core::document::example;
use coolpath_core::units::typed::{Dimension, UnitSystem, bare_number, parse};
use proptest::prelude::*;

const DIMENSIONS: [Dimension; 8] = [
    Dimension::Length,
    Dimension::Area,
    Dimension::Pressure,
    Dimension::Temperature,
    Dimension::TemperatureDifference,
    Dimension::Speed,
    Dimension::Percent,
    Dimension::FuelFlow,
];

/// The example's file with some of its bytes replaced, or cut off.
fn damaged() -> impl Strategy<Value = String> {
    let text = file_text(&example::design()).expect("a text");
    let length = text.len();
    (
        prop::collection::vec((0..length, any::<u8>()), 0..12),
        0..length,
        any::<bool>(),
    )
        .prop_map(move |(changes, end, cut)| {
            let mut bytes = text.clone().into_bytes();
            for (at, byte) in changes {
                bytes[at] = byte;
            }
            if cut {
                bytes.truncate(end);
            }
            String::from_utf8_lossy(&bytes).into_owned()
        })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn a_damaged_design_file_is_refused_or_opened_and_judged(text in damaged()) {
        if let Ok(design) = design_of(&text) {
            prop_assert_eq!(design.check().is_ok(), evaluate(&design, 0).is_ok());
            let again = file_text(&design).expect("a text");
            prop_assert!(design_of(&again) == Ok(design));
        }
        let _ = state_of(&text);
    }

    #[test]
    fn any_text_is_no_design_and_no_panic(text in "\\PC*") {
        prop_assert!(design_of(&text).is_err());
        prop_assert!(design_of_code(&text).is_err());
    }

    #[test]
    fn a_damaged_code_is_refused_or_opened(at in 10_usize..2500, byte in "[A-Za-z0-9_-]", end in 0_usize..3000) {
        let mut text = code(&example::design()).expect("a code");
        if at < text.len() {
            text.replace_range(at..=at, &byte);
        }
        text.truncate(end.max(20));
        if let Ok(design) = design_of_code(&text) {
            let again = code(&design).expect("a code");
            prop_assert!(design_of_code(&again).is_ok());
        }
    }

    #[test]
    fn a_typed_quantity_is_a_finite_number_or_none(text in "[-+−0-9.,'eE °a-zA-Z/²%]{0,16}", which in 0..DIMENSIONS.len()) {
        for system in [UnitSystem::Customary, UnitSystem::Metric] {
            if let Ok(value) = parse(&text, DIMENSIONS[which], system) {
                prop_assert!(value.is_finite(), "{text}: {value}");
            }
        }
        if let Some(value) = bare_number(&text) {
            prop_assert!(value.is_finite());
        }
    }

    #[test]
    fn any_typed_text_is_no_panic(text in "\\PC*") {
        for dimension in DIMENSIONS {
            let _ = parse(&text, dimension, UnitSystem::Customary);
        }
        let _ = bare_number(&text);
    }
}
