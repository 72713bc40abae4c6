//! Choices of the oil, its cooler and the shutter.

use super::{Choice, Choosable, name, take};
use coolpath_core::document::installation::{
    CoolerDischarge, CoolerRating, CoolerSupply, UpperDeck,
};

pub(super) static CHOICES: &[Choice] = &[
    choice!(
        "oil.grade",
        "Oil grade",
        oil.grade,
        [
            ("sae50", "Single grade SAE 50"),
            ("sae40", "Single grade SAE 40"),
            ("multigrade20w50", "Multigrade 20W-50"),
            ("multigrade15w50", "Multigrade 15W-50"),
        ]
    ),
    choice!(
        "oil.probe",
        "The oil gauge's probe sits",
        oil.probe,
        [
            (
                "after_cooler",
                "behind the cooler, where oil enters the engine"
            ),
            ("before_cooler", "in the hot oil, before the cooler"),
        ]
    ),
    choice!(
        "oil.thermostat",
        "Thermostatic bypass",
        oil.thermostat,
        [("true", "Fitted"), ("false", "Not fitted"),]
    ),
    choice!(
        "cooler.rating",
        "The cooler's performance is",
        cooler.rating,
        [
            ("rated", "known from its data sheet"),
            ("from_size", "estimated from its size (wide band)"),
            ("from_fins", "computed from its rows, tubes and fins"),
        ]
    ),
    choice!(
        "cooler.fin_kind",
        "Fins of the core",
        cooler.fin_kind,
        [
            ("offset", "Cut and offset along the air"),
            ("plain", "Plain, through the whole depth"),
        ],
        if |installation| installation.cooler.rating == CoolerRating::FromFins
    ),
    choice!(
        "cooler.supply",
        "The cooler's air comes from",
        cooler.supply,
        [
            ("upper_deck", "a hose or hole off the upper deck"),
            (
                "rear_baffle",
                "the upper deck, bolted to the rear baffle without a hose"
            ),
            (
                "front_baffle",
                "the upper deck, bolted to the front baffle beside a cylinder, without a hose"
            ),
            ("own_inlet", "an inlet of its own"),
        ]
    ),
    choice!(
        "cooler.take_off",
        "The cooler's air is taken",
        cooler.take_off,
        [
            ("left", "behind the left bank"),
            ("right", "behind the right bank"),
        ],
        if |installation| installation.decks.upper == UpperDeck::Halves
            && installation.cooler.supply != CoolerSupply::OwnInlet
    ),
    choice!(
        "cooler.second",
        "Second cooler of the same kind",
        cooler.second,
        [
            ("none", "None"),
            (
                "beside_oil_shared",
                "Beside it, half of the oil through each"
            ),
            (
                "beside_oil_in_turn",
                "Beside it, all oil through one, then the other"
            ),
            (
                "behind_oil_shared",
                "Behind it, half of the oil through each"
            ),
            (
                "behind_oil_in_turn",
                "Behind it, all oil through the rear one first"
            ),
        ]
    ),
    choice!(
        "cooler.discharge",
        "The cooler's air goes to",
        cooler.discharge,
        [
            ("lower_deck", "the lower deck"),
            ("own_exit", "an exit of its own"),
        ]
    ),
    choice!(
        "cooler.cover",
        "The core's face is covered by",
        cooler.cover,
        [
            ("tape", "Tape on the fins"),
            ("plate", "A plate with an opening"),
        ],
        if |installation| installation.cooler.blanked_share > 0.0
    ),
    choice!(
        "cooler.wall_behind",
        "Behind the core",
        cooler.wall_behind,
        [
            ("false", "Room for the air"),
            ("true", "A wall close by: firewall or baffle"),
        ],
        if |installation| installation.cooler.discharge == CoolerDischarge::LowerDeck
    ),
    choice!(
        "cooler.own_exit_by_attitude",
        "Pressure at the cooler's own exit",
        cooler.own_exit_by_attitude,
        [
            ("false", "One value for every condition"),
            ("true", "Level flight, climb and ground apart"),
        ],
        if |installation| installation.cooler.discharge == CoolerDischarge::OwnExit
    ),
    choice!(
        "cooler.hose",
        "Duct to the cooler",
        cooler.hose,
        [
            ("reinforced", "Wire-reinforced hose"),
            ("smooth", "Smooth tube or moulded duct"),
        ],
        if |installation| !installation.cooler.supply.is_on_baffle()
    ),
    choice!(
        "cooler.bends",
        "Bends in the duct",
        cooler.bends,
        [
            ("0", "None"),
            ("1", "1"),
            ("2", "2"),
            ("3", "3"),
            ("4", "4"),
        ],
        if |installation| !installation.cooler.supply.is_on_baffle()
    ),
    choice!(
        "shutter.fitted",
        "Shutter in the cooler's duct",
        shutter.fitted,
        [("true", "Butterfly fitted"), ("false", "None"),]
    ),
];
