//! Choices of inlets and exits.

use super::{Choice, Choosable, name, take};
use coolpath_core::document::installation::{ExitShape, UpperDeck};

pub(super) static CHOICES: &[Choice] = &[
    listed!("inlet.shape", "Shape", installation.inlets => shape, [
        ("rectangle", "Rectangle with rounded corners"),
        ("ring", "Round ring"),
        ("traced", "Any shape, by its traced area"),
    ]),
    listed!("inlet.position", "Position", installation.inlets => position, [
        ("forward_clear", "In front, clear of the spinner"),
        ("behind_blade_root", "In front, close to the spinner behind the blade roots"),
        ("belly_scoop", "Scoop under the belly"),
        ("flush", "Flush with the skin"),
    ]),
    listed!("inlet.lip", "Lip", installation.inlets => lip, [
        ("rounded", "Rounded"),
        ("thin", "Thin sheet"),
        ("blunt", "Blunt edge"),
    ]),
    listed!("inlet.side", "Feeds", installation.inlets => side, [
        ("both", "Both halves of the upper deck"),
        ("left", "The left half"),
        ("right", "The right half"),
    ], if |installation, _| installation.decks.upper == UpperDeck::Halves),
    listed!("inlet.at_angle", "In a climb the stream meets the inlet", installation.inlets => at_angle, [
        ("false", "Straight, or not known"),
        ("true", "At an angle, from below"),
    ]),
    listed!("inlet.diffuser", "Behind the opening", installation.inlets => diffuser, [
        ("false", "It opens straight into the upper deck"),
        ("true", "A widening duct leads to the upper deck"),
    ]),
    listed!("exit.shape", "Area given by", installation.exits => shape, [
        ("lip_gap", "Width and lip gap"),
        ("traced", "Traced area"),
        ("louvers", "Number of louvers"),
        ("augmentor", "An augmentor tube round the exhaust"),
    ]),
    listed!("exit.louver_count", "Louvers", installation.exits => louver_count, [
        ("2", "2"), ("4", "4"), ("6", "6"), ("8", "8"), ("10", "10"), ("12", "12"), ("16", "16"),
        ("20", "20"),
    ], if |_, exit| exit.shape == ExitShape::Louvers),
    listed!("exit.stack_count", "Exhaust stacks in the augmentor", installation.exits => stack_count, [
        ("1", "1"), ("2", "2"), ("3", "3"), ("4", "4"), ("6", "6"),
    ], if |_, exit| exit.shape == ExitShape::Augmentor),
    listed!("exit.edge", "Edge that the air leaves over", installation.exits => edge, [
        ("typed", "Not sure, or a coefficient of my own"),
        ("sharp", "Square lower edge of the firewall"),
        ("ramp", "Ramp from the firewall to the lip"),
        ("rounded", "Rounded lower edge of the firewall"),
        ("louver", "Slots of louvers"),
    ]),
    listed!("exit.by_attitude", "Pressure outside", installation.exits => by_attitude, [
        ("false", "One value for every condition"),
        ("true", "Level flight, climb and ground apart"),
    ]),
    listed!("exit.place", "Where it lies", installation.exits => place, [
        ("typed", "Not said: coefficients of my own"),
        ("belly", "On the belly, ahead of the wing"),
        ("under_wing", "Under the wing"),
        ("firewall", "At the lower edge of the firewall"),
        ("wing_root", "In the side, at the wing root"),
    ]),
    listed!("exit.flap", "Cowl flap", installation.exits => flap, [
        ("false", "None: a fixed exit"),
        ("true", "A flap opens it further"),
    ]),
    listed!("exit.flap_given", "Open flap given by", installation.exits => flap_given, [
        ("area", "The area that it opens"),
        ("angle", "Its length and angle"),
    ], if |_, exit| exit.flap && exit.shape == ExitShape::LipGap),
];
