//! Choices of the decks and of the air that is taken from them.

use super::draw_sides;
use super::induction::{ALTERNATE, INDUCTION};
use super::{Choice, Choosable, name, take};

pub(super) static CHOICES: &[Choice] = &[
    choice!(
        "decks.sealing",
        "Sealing between upper and lower deck",
        decks.sealing,
        [
            ("hard_plenum", "Rigid plenum over the cylinders"),
            ("flexible_seals", "Flexible baffle seals against the cowl"),
            ("measured_leak", "Leak area known from a blow-down test"),
        ]
    ),
    choice!(
        "decks.upper",
        "Upper deck",
        decks.upper,
        [
            ("one", "One, over both banks"),
            (
                "halves",
                "A left and a right half, with an opening between them"
            ),
        ]
    ),
    INDUCTION,
    draw_sides::INDUCTION,
    ALTERNATE,
    choice!(
        "decks.blast_tubes",
        "Blast tubes",
        decks.blast_tubes,
        [
            ("0", "None"),
            ("1", "1"),
            ("2", "2"),
            ("3", "3"),
            ("4", "4"),
            ("5", "5"),
            ("6", "6"),
        ]
    ),
    draw_sides::BLAST,
    choice!(
        "decks.cabin_air",
        "Cabin-heat air from the upper deck",
        decks.cabin_air,
        [
            ("false", "None, or closed"),
            ("true", "Taken through a hose"),
        ]
    ),
    draw_sides::CABIN,
    choice!(
        "decks.cabin_muff",
        "Cabin air is heated",
        decks.cabin_muff,
        [
            ("false", "by nothing more, or not said"),
            ("true", "by a muff on the exhaust"),
        ],
        if |installation| installation.decks.cabin_air
    ),
    choice!(
        "decks.outside_by_attitude",
        "Pressure before the lower deck's leak",
        decks.outside_by_attitude,
        [
            ("false", "One value for every condition"),
            ("true", "Level flight, climb and ground apart"),
        ]
    ),
];
