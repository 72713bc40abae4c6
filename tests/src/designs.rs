//! Designs and parts that several tests begin with.

use coolpath_core::document::design::Design;
use coolpath_core::document::example;
use coolpath_core::document::installation::{ExitShape, FlapGiven};
use coolpath_core::path::ejector::Ejector;
use coolpath_core::path::element::Exit;
use coolpath_core::units::quantity::metre;

/// The example with the shutter fully open everywhere, so that it regulates nothing.
#[must_use]
pub fn unregulated() -> Design {
    let mut design = example::design();
    for condition in &mut design.conditions {
        *condition = condition.with_shutter_open();
    }
    design
}

/// The same with a flap of 0.2 m, by its open angle, under a lip of 0.35 by 0.09 m.
#[must_use]
pub fn flapped(angle_deg: f64) -> Design {
    let mut design = unregulated();
    let exit = &mut design.installation.exits[0];
    exit.shape = ExitShape::LipGap;
    exit.width = metre(0.35);
    exit.gap = metre(0.09);
    exit.flap = true;
    exit.flap_given = FlapGiven::Angle;
    exit.flap_chord = metre(0.2);
    exit.flap_angle = angle_deg;
    design
}

/// An augmentor: 0.1 kg/s of gas at 100 m/s into a tube of 0.01 m².
#[must_use]
pub fn augmentor() -> Exit {
    Exit {
        area_m2: 0.0075,
        discharge: 0.8,
        velocity_coefficient: 0.96,
        outside_pa: -100.0,
        jet_cosine: 0.9,
        ejector: Some(Ejector {
            gas_kg_s: 0.1,
            gas_m3_kg: 2.5,
            stacks_m2: 0.0025,
            pulses: 1.2,
            wall_loss: 0.1,
        }),
    }
}
