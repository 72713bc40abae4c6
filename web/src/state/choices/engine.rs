//! Choices of the engine and of what is known of its cooling.

use super::engine_kind::ENGINE_KIND;
use super::{Choice, Choosable, name, take};
use coolpath_core::document::installation::{CylinderData, ReferenceKind};

pub(super) static CHOICES: &[Choice] = &[
    ENGINE_KIND,
    choice!(
        "engine.cylinders",
        "Cylinders",
        engine.cylinders,
        [("2", "Two"), ("4", "Four"), ("6", "Six"), ("8", "Eight")]
    ),
    choice!(
        "engine.piston_cooling_jets",
        "Piston cooling oil jets",
        engine.piston_cooling_jets,
        [("false", "No, or not sure"), ("true", "Yes"),]
    ),
    choice!(
        "engine.fuel_system",
        "Fuel reaches the cylinders",
        engine.fuel_system,
        [
            ("carburettor", "Through a carburettor or throttle body"),
            ("injected", "Through a nozzle at each cylinder"),
        ]
    ),
    choice!(
        "engine.cylinder_data",
        "What is known of each cylinder",
        engine.cylinder_data,
        [
            ("unknown", "Nothing yet: usual differences"),
            ("spread", "Hottest minus coolest head"),
            ("each", "Air, fuel and probe of each, from readings"),
        ]
    ),
    choice!(
        "engine.poorer_side",
        "Air between left and right",
        engine.poorer_side,
        [
            ("neither", "Alike, or not known"),
            ("left", "The left side gets less"),
            ("right", "The right side gets less"),
        ],
        if |installation| installation.engine.cylinder_data == CylinderData::Unknown
    ),
    choice!(
        "engine.poorer_end",
        "Air between front and rear",
        engine.poorer_end,
        [
            ("neither", "Alike, or not known"),
            (
                "front",
                "The front heads get less: they sit behind the inlet ramps"
            ),
            (
                "rear",
                "The rear heads get less: a take-off or a tight rear baffle"
            ),
        ],
        if |installation| installation.engine.cylinder_data == CylinderData::Unknown
    ),
    choice!(
        "engine.fin_passages",
        "Passages between the fins",
        engine.fin_passages,
        [
            ("clear", "Clear: light shines through all of them"),
            (
                "casting_flash",
                "Casting flash at the fin roots of one head"
            ),
            (
                "debris",
                "Something lies on one cylinder: rag, nest, a piece of seal"
            ),
        ],
        if |installation| installation.engine.cylinder_data == CylinderData::Unknown
    ),
    choice!(
        "engine.break_in",
        "Rings",
        engine.break_in,
        [
            ("false", "Seated"),
            ("true", "New or freshly overhauled: breaking in"),
        ]
    ),
    choice!(
        "engine.head_probe",
        "Head temperature probe",
        engine.head_probe,
        [
            ("bayonet_well", "Bayonet or screw-in, in the head's well"),
            ("under_plug_ring", "Ring under a spark plug"),
        ]
    ),
    choice!(
        "engine.head_second",
        "Head temperature limit beside the redline",
        engine.head_second,
        [
            ("none", "None"),
            (
                "continuous",
                "For continuous operation: in cruise and descent"
            ),
            ("personal", "My own: always"),
        ]
    ),
    choice!(
        "engine.oil_second",
        "Oil temperature limit beside the redline",
        engine.oil_second,
        [
            ("none", "None"),
            (
                "continuous",
                "For continuous operation: in cruise and descent"
            ),
            ("personal", "My own: always"),
        ]
    ),
    choice!(
        "reference.kind",
        "What is known of this engine's cooling",
        reference.kind,
        [
            ("chart", "A point of the engine maker's cooling chart"),
            ("readings", "My own readings in flight"),
            ("generic", "Nothing yet: a generic engine of this power"),
        ]
    ),
    choice!(
        "reference.chart_density",
        "The chart's pressure drop is",
        reference.chart_density,
        [
            ("front", "corrected with the density before the fins"),
            ("rear", "corrected with the density behind the fins"),
            ("as_measured", "as a gauge reads it"),
        ],
        if |installation| installation.reference.kind == ReferenceKind::Chart
    ),
];
