//! The worked example: an invented two-seat touring homebuilt with a flat four of 150 hp.

use crate::document::condition::{AirKind, Condition, Mixture, Phase, ShutterPolicy};
use crate::document::design::Design;
use crate::document::installation::{Inlet, InletPosition, Installation};
use crate::units::quantity::{kelvin, metre, metre_per_s, square_metre};
use crate::units::si::{degf, foot, inch, inch2, knot};

/// The worked example.
#[must_use]
pub fn design() -> Design {
    Design {
        name: "Example: two-seat tourer, flat four, 150 hp".to_owned(),
        installation: installation(),
        conditions: conditions(),
        ..Design::default()
    }
}

fn installation() -> Installation {
    let mut installation = Installation::default();
    let inlet = |name: &str, position: InletPosition| Inlet {
        name: name.to_owned(),
        position,
        width: metre(inch(6.25)),
        height: metre(inch(3.5)),
        ..Inlet::default()
    };
    installation.engine.head_limit = kelvin(degf(385.0));
    installation.inlets = vec![
        inlet("Left inlet", InletPosition::BehindBladeRoot),
        inlet("Right inlet", InletPosition::BehindBladeRoot),
    ];
    installation.exits[0].name = "Cowl exit".to_owned();
    installation.exits[0].width = metre(inch(14.0));
    installation.exits[0].gap = metre(inch(4.6));
    installation.exits[0].pipes_area = square_metre(inch2(6.0));
    installation
}

fn conditions() -> Vec<Condition> {
    let base = Condition::default();
    vec![
        Condition {
            name: "Ground run, warm day".to_owned(),
            phase: Phase::Ground,
            oat: kelvin(degf(70.0)),
            altitude: metre(foot(500.0)),
            airspeed: metre_per_s(0.0),
            power_share: 0.08,
            rpm: 1000.0,
            mixture: Mixture::FullRich,
            shutter: ShutterPolicy::Fixed,
            shutter_opening: 1.0,
            ..base.clone()
        },
        Condition {
            name: "Take-off climb, hot day".to_owned(),
            phase: Phase::Climb,
            air: AirKind::HotDay,
            altitude: metre(foot(1500.0)),
            airspeed: metre_per_s(knot(85.0)),
            power_share: 0.88,
            rpm: 2500.0,
            mixture: Mixture::FullRich,
            ..base.clone()
        },
        Condition {
            name: "Cruise climb, hot day".to_owned(),
            phase: Phase::Climb,
            air: AirKind::HotDay,
            altitude: metre(foot(5000.0)),
            airspeed: metre_per_s(knot(95.0)),
            power_share: 0.75,
            rpm: 2500.0,
            mixture: Mixture::FullRich,
            ..base.clone()
        },
        Condition {
            name: "High cruise".to_owned(),
            altitude: metre(foot(8000.0)),
            oat: kelvin(degf(50.0)),
            airspeed: metre_per_s(knot(120.0)),
            power_share: 0.70,
            rpm: 2450.0,
            mixture: Mixture::BestPower,
            ..base.clone()
        },
        Condition {
            name: "Cold cruise".to_owned(),
            altitude: metre(foot(6000.0)),
            oat: kelvin(degf(5.0)),
            airspeed: metre_per_s(knot(118.0)),
            power_share: 0.65,
            rpm: 2350.0,
            mixture: Mixture::PeakEgt,
            ..base.clone()
        },
        Condition {
            name: "Descent".to_owned(),
            phase: Phase::Descent,
            altitude: metre(foot(5000.0)),
            oat: kelvin(degf(60.0)),
            airspeed: metre_per_s(knot(135.0)),
            power_share: 0.30,
            rpm: 2200.0,
            mixture: Mixture::BestPower,
            ..base
        },
    ]
}
