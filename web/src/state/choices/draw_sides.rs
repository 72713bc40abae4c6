//! Which half of a split upper deck each of the airs taken from it comes from.

use super::{Choice, Choosable, name, take};
use coolpath_core::document::installation::{Decks, UpperDeck};

macro_rules! side {
    ($id:literal, $label:literal, $field:ident) => {
        choice!(
            $id,
            $label,
            decks.$field,
            [
                ("both", "from both halves alike"),
                ("left", "from the left half"),
                ("right", "from the right half"),
            ]
        )
    };
}

pub(super) const BLAST: Choice = side!(
    "decks.blast_side",
    "The blast tubes’ air is taken",
    blast_side
);
pub(super) const CABIN: Choice = side!("decks.cabin_side", "Cabin air is taken", cabin_side);
pub(super) const INDUCTION: Choice = side!(
    "decks.induction_side",
    "Induction air is taken",
    induction_side
);

/// Whether the side of a draw, by its choice's id, plays a part.
pub(super) fn is_used(id: &str, decks: &Decks) -> bool {
    let is_taken = match id {
        "decks.blast_side" => decks.blast_tubes > 0,
        "decks.cabin_side" => decks.cabin_air,
        _ => decks.induction_from_upper_deck,
    };
    is_taken && decks.upper == UpperDeck::Halves
}
