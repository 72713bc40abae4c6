//! What nobody can measure at first, as phrases with pictures: each stands for an input's value.

use crate::design::choice_sketches;
use crate::kit::format;
use crate::state::{Action, FieldKey};
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::seal_leak;
use coolpath_core::document::installation::{ExitPlace, Sealing};
use coolpath_core::language::{tr, tr_later};
use coolpath_core::units::typed::{Dimension, UnitSystem};

/// One answer to "not sure?".
pub struct Phrase {
    /// What the builder sees on the aeroplane.
    pub words: &'static str,
    /// Lines of its picture, as SVG path data in a box of 72 × 40.
    pub picture: &'static str,
    /// Value, SI, or the option of a choice.
    pub stands_for: Meaning,
}

/// What a phrase stands for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Meaning {
    /// A number, SI.
    Value(f64),
    /// Total leak area of the seals, m²; their gap follows from their length.
    SealLeak(f64),
    /// An option of a choice.
    Option(&'static str),
}

impl Phrase {
    /// Its words, with what it stands for where that is an area.
    #[must_use]
    pub fn said(&self, system: UnitSystem) -> String {
        match self.stands_for {
            Meaning::SealLeak(leak) => tr!(
                "{}: about {} in all",
                tr(self.words),
                format::quantity(leak, Dimension::Area, system, 2)
            ),
            Meaning::Value(_) | Meaning::Option(_) => tr(self.words).to_owned(),
        }
    }
}

/// A question with its phrases.
pub struct Guess {
    /// Input or choice that is set.
    pub id: &'static str,
    /// What is asked.
    pub ask: &'static str,
    /// The phrases.
    pub phrases: &'static [Phrase],
    /// Whether it is asked in a design.
    pub used: fn(&Design) -> bool,
}

/// The questions of a group.
pub fn of_group(prefix: &str, design: &Design) -> impl Iterator<Item = &'static Guess> {
    GUESSES.iter().filter(move |guess| {
        guess
            .id
            .strip_prefix(prefix)
            .is_some_and(|rest| rest.starts_with('.'))
            && (guess.used)(design)
    })
}

impl Guess {
    /// What choosing a phrase does.
    #[must_use]
    pub fn action(&self, phrase: &Phrase, design: &Design, place: usize) -> Action {
        let set = |value: f64| Action::Set {
            key: FieldKey::new(self.id, place),
            value,
        };
        match phrase.stands_for {
            Meaning::Value(value) => set(value),
            Meaning::SealLeak(leak) => set(leak / design.installation.decks.seal_length.value),
            Meaning::Option(option) => Action::Choose {
                id: self.id,
                place,
                option: option.to_owned(),
            },
        }
    }
}

/// Leak areas: core's; exit pressures: from memory, inside the input's likely range.
pub static GUESSES: &[Guess] = &[
    Guess {
        id: "decks.seal_gap_m",
        ask: tr_later("Not sure about the gap? Your seals are"),
        phrases: &[
            Phrase {
                words: tr_later("new, overlapping, no light through"),
                picture: "M4 8 H68 M36 38 V20 C36 12 42 10 52 9",
                stands_for: Meaning::SealLeak(seal_leak::NEW_M2),
            },
            Phrase {
                words: tr_later("some years old, wavy"),
                picture: "M4 8 H68 M36 38 V22 C36 16 40 18 44 14 S50 16 54 11",
                stands_for: Meaning::SealLeak(seal_leak::AGED_M2),
            },
            Phrase {
                words: tr_later("worn, curled away in places"),
                picture: "M4 8 H68 M36 38 V24 C36 16 44 16 50 20 S58 28 52 30",
                stands_for: Meaning::SealLeak(seal_leak::WORN_M2),
            },
            Phrase {
                words: tr_later("torn or missing in places"),
                picture: "M4 8 H30 M42 8 H68 M36 38 V28 C36 24 40 22 46 26 M56 36 L62 30",
                stands_for: Meaning::SealLeak(seal_leak::BROKEN_M2),
            },
        ],
        used: |design| design.installation.decks.sealing == Sealing::FlexibleSeals,
    },
    Guess {
        id: "inlet.position",
        ask: tr_later("Which looks like yours?"),
        phrases: &[
            Phrase {
                words: tr_later("in front, a hand's width or more from the spinner"),
                picture: "M8 6 V34 M8 20 H2 M20 34 C20 28 22 26 28 26 M20 8 V16 M20 8 C30 4 44 4 68 6 M20 16 C30 18 40 20 44 26",
                stands_for: Meaning::Option("forward_clear"),
            },
            Phrase {
                words: tr_later("in front, close to the spinner, behind the blade roots"),
                picture: "M10 2 V38 M4 20 C4 12 10 12 14 12 V28 C10 28 4 28 4 20 M20 10 V30 M20 10 C30 4 44 4 68 6 M20 30 C32 34 50 36 68 36",
                stands_for: Meaning::Option("behind_blade_root"),
            },
            Phrase {
                words: tr_later("a scoop under the belly"),
                picture: "M4 12 C20 20 40 22 68 22 M26 36 C22 36 22 24 26 24 M26 36 C40 34 54 26 68 24",
                stands_for: Meaning::Option("belly_scoop"),
            },
            Phrase {
                words: tr_later("a hole flush with the skin"),
                picture: "M4 14 H24 M46 14 H68 M24 14 C30 16 32 24 40 26 M46 14 C42 16 42 20 46 24",
                stands_for: Meaning::Option("flush"),
            },
        ],
        used: |_| true,
    },
    Guess {
        id: "exit.edge",
        ask: tr_later("Which lower edge of the firewall looks like yours?"),
        phrases: &[
            Phrase {
                words: tr_later("square: firewall and belly meet in a corner"),
                picture: "M4 34 H40 M30 4 V22 H68",
                stands_for: Meaning::Option("sharp"),
            },
            Phrase {
                words: tr_later("a ramp from the firewall to the belly"),
                picture: "M4 34 H40 M30 4 V12 L48 22 H68",
                stands_for: Meaning::Option("ramp"),
            },
            Phrase {
                words: tr_later("rounded, by a fifth of the gap or more"),
                picture: "M4 34 H40 M30 4 V10 C30 18 34 22 44 22 H68",
                stands_for: Meaning::Option("rounded"),
            },
            Phrase {
                words: tr_later("no lip: slots of louvers in the skin"),
                picture: "M4 16 H14 L20 24 M20 16 H30 L36 24 M36 16 H46 L52 24 M52 16 H68",
                stands_for: Meaning::Option("louver"),
            },
        ],
        used: |_| true,
    },
    Guess {
        id: "exit.pressure_coefficient",
        ask: tr_later("Which exit looks like yours?"),
        phrases: &[
            Phrase {
                words: tr_later("the lip ends in line with the belly behind it (−0.10)"),
                picture: "M4 28 H34 M44 4 V20 C44 26 48 28 68 28",
                stands_for: Meaning::Value(-0.10),
            },
            Phrase {
                words: tr_later(
                    "the lip stands down into the stream and shelters the exit (−0.25)",
                ),
                picture: "M4 24 C16 24 26 30 34 36 M44 4 V18 C44 22 48 24 68 24",
                stands_for: Meaning::Value(-0.25),
            },
            Phrase {
                words: tr_later(
                    "the belly behind it bulges down, or gear and pipes dam the air (+0.05)",
                ),
                picture: "M4 20 H34 M44 4 V20 C46 30 56 34 68 34",
                stands_for: Meaning::Value(0.05),
            },
        ],
        used: |design| {
            let first = design.installation.exits.first();
            first.is_none_or(|exit| exit.place == ExitPlace::Typed)
        },
    },
    Guess {
        id: "exit.place",
        ask: tr_later("Where does it lie beside the wing?"),
        phrases: &[
            Phrase {
                words: tr_later("on the belly, well ahead of the wing"),
                picture: choice_sketches::ON_THE_BELLY,
                stands_for: Meaning::Option("belly"),
            },
            Phrase {
                words: tr_later("under the wing, behind its leading edge"),
                picture: choice_sketches::UNDER_THE_WING,
                stands_for: Meaning::Option("under_wing"),
            },
            Phrase {
                words: tr_later("between the lip and the firewall's lower edge"),
                picture: choice_sketches::AT_THE_FIREWALL,
                stands_for: Meaning::Option("firewall"),
            },
            Phrase {
                words: tr_later("in the side of the cowl, at the wing root"),
                picture: choice_sketches::AT_THE_WING_ROOT,
                stands_for: Meaning::Option("wing_root"),
            },
        ],
        used: |_| true,
    },
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::State;
    use crate::state::reduce::reduce;
    use coolpath_core::document::table;

    #[test]
    fn every_phrase_changes_what_it_stands_for_and_leaves_a_valid_design() {
        let start = State::default();
        for guess in GUESSES {
            let mut seen = Vec::new();
            for phrase in guess.phrases {
                let action = guess.action(phrase, &start.design, 0);
                let next = reduce(&start, action);
                next.design.check().expect("a valid design");
                assert!(
                    seen.iter().all(|design| *design != next.design),
                    "{} says nothing",
                    phrase.words
                );
                seen.push(next.design);
            }
        }
    }

    #[test]
    fn the_leak_of_seals_is_told_in_the_units_that_are_shown() {
        let new = &GUESSES[0].phrases[0];
        assert_eq!(
            new.said(UnitSystem::Customary),
            "new, overlapping, no light through: about 6 in² in all"
        );
        assert!(
            new.said(UnitSystem::Metric)
                .ends_with("about 39 cm² in all")
        );
    }

    #[test]
    fn values_lie_inside_their_likely_range() {
        for guess in GUESSES {
            for phrase in guess.phrases {
                if let Meaning::Value(value) = phrase.stands_for {
                    let input = table::by_id(guess.id).expect("an input");
                    let (low, high) = input.likely.expect("a range");
                    assert!(low <= value && value <= high, "{}", phrase.words);
                }
            }
        }
    }
}
