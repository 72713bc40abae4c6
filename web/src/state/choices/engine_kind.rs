//! Kinds of engine, those that are refused with their reason among them.

use super::{Choice, Choosable, name, take};

pub(super) const ENGINE_KIND: Choice = choice!(
    "engine.kind",
    "Kind of engine and installation",
    engine.kind,
    [
        (
            "air_cooled_flat",
            "Air-cooled flat four-stroke, tractor, air from above downward"
        ),
        ("turbocharged", "Turbocharged"),
        ("liquid_cooled", "Liquid-cooled"),
        ("radial", "Radial"),
        ("two_stroke", "Two-stroke"),
        (
            "pusher",
            "Air-cooled flat four-stroke, pusher: propeller behind the exit"
        ),
        (
            "updraft",
            "Air-cooled flat four-stroke, updraft: air from below upward"
        ),
    ]
);
