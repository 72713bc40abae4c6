//! Exits in a condition: lips, flaps, louvers, augmentors, and what draws on them.

use crate::air::atmosphere;
use crate::air::propeller::Slipstream;
use crate::document::condition::Condition;
use crate::document::installation;
use crate::document::installation::{ExitShape, Installation};
use crate::path::ejector::Ejector;
use crate::path::element::Exit;
use crate::path::network::FreeStream;
use crate::path::openings::Openings;

/// Exits in a condition, and the drag area of the open flaps, m².
///
/// # Arguments
/// * `exhaust_kg_s` - all of the engine's exhaust gas
pub(super) fn exit_elements(
    installation: &Installation,
    condition: &Condition,
    stream: &FreeStream,
    slipstream: &Slipstream,
    exhaust_kg_s: f64,
) -> (Openings<Exit>, f64) {
    let mut exits = Openings::default();
    let mut flap_drag_m2 = 0.0;
    let all = installation.exits.iter();
    // Each augmentor takes its part of the exhaust.
    let augmentors = all.fold(0.0, |count, exit| {
        count + f64::from(u8::from(exit.shape == ExitShape::Augmentor))
    });
    let engine = &installation.engine;
    let suction_pa = if engine.kind.is_pusher() {
        engine.pusher_suction * slipstream.suction_pa
    } else {
        0.0
    };
    let Condition { flap, phase, .. } = *condition;
    for exit in &installation.exits {
        exits.push(Exit {
            area_m2: exit.area_m2(flap),
            discharge: exit.discharge_coefficient(),
            velocity_coefficient: exit.velocity_coefficient,
            outside_pa: exit.outside_pa(
                flap,
                phase,
                stream.dynamic_pa,
                slipstream.pressure_rise_pa,
            ) - suction_pa,
            jet_cosine: libm::cos(exit.jet_angle.to_radians()),
            ejector: (exit.shape == ExitShape::Augmentor)
                .then(|| augmentor(exit, exhaust_kg_s / augmentors, stream)),
        });
        flap_drag_m2 += exit.flap_drag_m2(flap);
    }
    (exits, flap_drag_m2)
}

fn augmentor(exit: &installation::Exit, gas_kg_s: f64, stream: &FreeStream) -> Ejector {
    Ejector {
        gas_kg_s,
        gas_m3_kg: 1.0 / atmosphere::density(stream.pressure_pa, exit.gas_temperature.value),
        stacks_m2: exit.stacks_m2(),
        pulses: exit.pulses,
        // ½ f L/D
        wall_loss: 0.5 * exit.tube_friction * exit.tube_length.value / exit.tube_diameter.value,
    }
}
