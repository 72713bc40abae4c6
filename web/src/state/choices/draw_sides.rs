//! Which half of a split upper deck each of the airs taken from it comes from.

use super::{Choice, Choosable, name, take};
use coolpath_core::document::installation::UpperDeck;

/// A side, with `|decks| …` for whether that air is taken at all.
macro_rules! side {
    ($id:literal, $label:literal, $field:ident, |$decks:ident| $taken:expr) => {
        choice!(
            $id,
            $label,
            decks.$field,
            [
                ("both", "from both halves alike"),
                ("left", "from the left half"),
                ("right", "from the right half"),
            ],
            if |installation| {
                let $decks = &installation.decks;
                $taken && $decks.upper == UpperDeck::Halves
            }
        )
    };
}

pub(super) const BLAST: Choice = side!(
    "decks.blast_side",
    "The blast tubes’ air is taken",
    blast_side,
    |decks| decks.blast_tubes > 0
);
pub(super) const CABIN: Choice = side!(
    "decks.cabin_side",
    "Cabin air is taken",
    cabin_side,
    |decks| decks.cabin_air
);
pub(super) const INDUCTION: Choice = side!(
    "decks.induction_side",
    "Induction air is taken",
    induction_side,
    |decks| decks.induction_from_upper_deck
);
