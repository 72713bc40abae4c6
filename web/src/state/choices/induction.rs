//! Where the engine breathes: one choice over two fields of the file, of which earlier versions know one.

use super::{Choice, Choosable, name, take};
use coolpath_core::document::installation::Breathes;

const fn option(value: &'static str, phrase: &'static str) -> Choosable {
    Choosable { value, phrase }
}

pub(super) const INDUCTION: Choice = Choice {
    id: "decks.induction_from_upper_deck",
    label: "Induction air comes",
    options: &[
        option("false", "from an intake of its own"),
        option("scoop", "from a scoop of its own, through a filter"),
        option("true", "from the upper deck"),
        option("lower_deck", "from the lower deck"),
    ],
    get: |design, place| {
        let decks = &design.installation.decks;
        let taken = match decks.breathes {
            _ if decks.induction_from_upper_deck => "true",
            Breathes::Outside => "false",
            Breathes::Scoop => "scoop",
            Breathes::LowerDeck => "lower_deck",
        };
        (place == 0).then(|| taken.to_owned())
    },
    set: |design, place, option| {
        let (upper, breathes) = match option {
            "true" => (true, Breathes::Outside),
            "false" => (false, Breathes::Outside),
            "scoop" => (false, Breathes::Scoop),
            "lower_deck" => (false, Breathes::LowerDeck),
            _ => return false,
        };
        if place != 0 {
            return false;
        }
        let decks = &mut design.installation.decks;
        (decks.induction_from_upper_deck, decks.breathes) = (upper, breathes);
        true
    },
    used: |_, _| true,
};

pub(super) const ALTERNATE: Choice = choice!(
    "decks.alternate_from_lower_deck",
    "Warm induction air comes",
    decks.alternate_from_lower_deck,
    [
        ("false", "from a muff: warming typed"),
        ("true", "from the lower deck: warmth computed"),
    ]
);
