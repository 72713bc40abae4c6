//! Texts typed in panels that are no inputs of the design, such as bounds of a sizing: they are
//! kept over a reload, shown anew in other units, and taken back like all others.

use crate::state::compared::View;
use crate::state::field;
use crate::state::field_key::FieldKey;
use crate::state::page::{Drafts, State};
use coolpath_core::language::{tr, tr_later};
use coolpath_core::units::typed;
use coolpath_core::units::typed::{Dimension, UnitSystem};

/// Minutes of each condition; its places are those of the conditions.
pub const MINUTES: &str = "flight-minutes";
/// Most pieces of an opening that is added up.
pub const MOST_PIECES: usize = 12;
/// Lengths of a piece.
pub const PIECE_LENGTHS: usize = 3;

/// What a text's number measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Measure {
    /// A quantity with a unit of its own.
    Of(Dimension),
    /// Volume flow of a blower.
    AirFlow,
    /// The same in all units: a count, minutes, a share, or no number.
    Plain,
}

/// A text, or a list of texts.
struct PanelText {
    /// Its name; also the name of its element in the page's markup, before the place in a list.
    id: &'static str,
    label: &'static str,
    measure: Measure,
    /// How many there are, where it is a list.
    most: Option<usize>,
}

const fn one(id: &'static str, label: &'static str, measure: Measure) -> PanelText {
    PanelText {
        id,
        label,
        measure,
        most: None,
    }
}

const fn list(id: &'static str, label: &'static str, measure: Measure, most: usize) -> PanelText {
    PanelText {
        id,
        label,
        measure,
        most: Some(most),
    }
}

/// Lengths of a piece; each piece has a list of its own, whose name ends in the piece's place.
const LENGTHS: PanelText = list(
    "area-",
    tr_later("a length of a piece"),
    Measure::Of(Dimension::Length),
    PIECE_LENGTHS,
);

const TEXTS: &[PanelText] = {
    use Measure::{AirFlow, Of, Plain};
    use coolpath_core::document::design::MAX_CONDITIONS;
    use coolpath_core::units::typed::Dimension as D;
    &[
        one(
            "size-inletsleast",
            tr_later("all inlets, at least"),
            Of(D::Area),
        ),
        one(
            "size-inletsmost",
            tr_later("all inlets, at most"),
            Of(D::Area),
        ),
        one("size-exitleast", tr_later("exit, at least"), Of(D::Area)),
        one("size-exitmost", tr_later("exit, at most"), Of(D::Area)),
        one(
            "size-chance",
            tr_later("chance that both limits hold"),
            Plain,
        ),
        one("size-drop", tr_later("minimum Δp"), Of(D::Pressure)),
        one("size-ratio", tr_later("target inlet velocity ratio"), Plain),
        one(
            "climb-target",
            tr_later("head temperature to hold"),
            Of(D::Temperature),
        ),
        one(
            "card-oat",
            tr_later("OAT on the ground"),
            Of(D::Temperature),
        ),
        one("card-notches", tr_later("notches of the lever"), Plain),
        one("card-strips", tr_later("strips of tape"), Plain),
        list(
            MINUTES,
            tr_later("minutes of a condition"),
            Plain,
            MAX_CONDITIONS,
        ),
        one(
            "flight-start-0",
            tr_later("head at the start"),
            Of(D::Temperature),
        ),
        one(
            "flight-start-1",
            tr_later("oil at the start"),
            Of(D::Temperature),
        ),
        one("flight-soak", tr_later("minutes after shutdown"), Plain),
        one(
            "scatter-0",
            tr_later("scatter of heads"),
            Of(D::TemperatureDifference),
        ),
        one(
            "scatter-1",
            tr_later("scatter of oil"),
            Of(D::TemperatureDifference),
        ),
        one(
            "scatter-2",
            tr_later("scatter of pressures"),
            Of(D::Pressure),
        ),
        one(
            "sea-level",
            tr_later("air at sea level"),
            Of(D::Temperature),
        ),
        one("barrel", tr_later("cylinder barrel"), Of(D::Temperature)),
        one(
            "reserve",
            tr_later("end of a test below the limit"),
            Of(D::TemperatureDifference),
        ),
        one(
            "knock-off",
            tr_later("knock-it-off altitude"),
            Of(D::Altitude),
        ),
        one("oil-pressure", tr_later("minimum oil pressure"), Plain),
        one("fuel-pressure", tr_later("minimum fuel pressure"), Plain),
        one(
            "ground-minutes",
            tr_later("time limit on the ground"),
            Plain,
        ),
        one("log-from", tr_later("beginning of a stretch"), Plain),
        one("log-to", tr_later("end of a stretch"), Plain),
        one("gauge-drop", tr_later("Δp at the gauge"), Of(D::Pressure)),
        one("gauge-flow", tr_later("air flow of the blower"), AirFlow),
        one(
            "gauge-deck",
            tr_later("pressure in the deck"),
            Of(D::Pressure),
        ),
        one("cut-less", tr_later("first cut smaller by"), Plain),
        one("cut-more", tr_later("never larger than by"), Plain),
        one("steps-cut", tr_later("hours for one more cut"), Plain),
        one("steps-lip", tr_later("hours for a new lip"), Plain),
        one("steps-knot", tr_later("hours that a knot is worth"), Plain),
        list(
            "area-kind",
            tr_later("shape of a piece"),
            Plain,
            MOST_PIECES,
        ),
        list(
            "area-blocks",
            tr_later("what stands in an opening"),
            Plain,
            MOST_PIECES,
        ),
    ]
};

/// Key of a text that stands alone.
#[must_use]
pub fn key(id: &str) -> FieldKey {
    FieldKey::new(id, 0)
}

/// Key of a length of a piece.
#[must_use]
pub fn length_key(piece: usize, which: usize) -> FieldKey {
    FieldKey::new(&format!("{}{piece}", LENGTHS.id), which)
}

fn of(key: &FieldKey) -> Option<&'static PanelText> {
    let is_piece = || {
        let piece = key.id.strip_prefix(LENGTHS.id)?.parse::<usize>().ok()?;
        (piece < MOST_PIECES).then_some(&LENGTHS)
    };
    TEXTS
        .iter()
        .find(|text| text.id == key.id)
        .or_else(is_piece)
        .filter(|text| key.place < text.most.unwrap_or(1))
}

/// Whether a key is that of a panel's text.
#[must_use]
pub fn is_known(key: &FieldKey) -> bool {
    of(key).is_some()
}

/// Name of its element in the page's markup.
#[must_use]
pub fn element_id(key: &FieldKey) -> String {
    match of(key).and_then(|text| text.most) {
        Some(_) => format!("{}-{}", key.id, key.place),
        None => key.id.clone(),
    }
}

/// Whether an element of the page's markup is that of a panel's text.
#[must_use]
pub fn is_element(element: &str) -> bool {
    let listed = || {
        let (id, place) = element.rsplit_once('-')?;
        let found = FieldKey::new(id, place.parse().ok()?);
        Some(of(&found)?.most.is_some() && element_id(&found) == element)
    };
    of(&key(element)).is_some_and(|text| text.most.is_none()) || listed().unwrap_or(false)
}

/// What was typed; `None` where nothing was.
#[must_use]
pub fn typed(state: &State, key: &FieldKey) -> Option<String> {
    state.drafts.get(key).cloned()
}

/// What was typed for a text that stands alone, or what is usual.
#[must_use]
pub fn typed_or(state: &State, id: &str, usual: &str) -> String {
    typed(state, &key(id)).unwrap_or_else(|| usual.to_owned())
}

/// Shows texts in other units, so that each goes on to mean what it meant. One with a unit of its
/// own, and one that is no number, stay as they were typed.
pub(super) fn switch_units(drafts: &mut Drafts, from: UnitSystem, to: UnitSystem) {
    for (key, text) in drafts.iter_mut() {
        let Some(panel_text) = of(key) else {
            continue;
        };
        match panel_text.measure {
            Measure::Plain => {}
            Measure::Of(dimension) => {
                // What means the same in both systems carries its unit.
                let meant = typed::parse(text, dimension, from);
                if let Ok(si) = meant
                    && typed::parse(text, dimension, to) != meant
                {
                    *text = field::shown(si, dimension, to);
                }
            }
            Measure::AirFlow => {
                let Some(number) = typed::bare_number(text) else {
                    continue;
                };
                let flow = number * from.air_volume_flow().1 / to.air_volume_flow().1;
                *text = typed::rounded_text(flow, 4);
            }
        }
    }
}

/// What differs, each with its name and in words.
pub(super) fn differences(before: View<'_>, after: View<'_>) -> Vec<(&'static str, String)> {
    if before.system != after.system {
        return Vec::new();
    }
    let keys = before.drafts.keys();
    let only_after = after.drafts.keys();
    keys.chain(only_after.filter(|key| !before.drafts.contains_key(key)))
        .filter_map(|key| {
            let (old, new) = (before.drafts.get(key), after.drafts.get(key));
            let label = tr(of(key).filter(|_| old != new)?.label);
            let shown = |text: Option<&String>| {
                text.map_or_else(|| tr("as proposed").to_owned(), |text| format!("“{text}”"))
            };
            Some((label, format!("{label} {} → {}", shown(old), shown(new))))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::Action;
    use crate::state::document::{state_of, stored_text};
    use crate::state::readings;
    use crate::state::reduce::reduce;

    fn with(state: &State, key: FieldKey, text: &str) -> State {
        let text = text.to_owned();
        reduce(state, Action::Type { key, text })
    }

    #[test]
    fn what_was_typed_in_a_panel_survives_a_reload_and_is_taken_back_and_told() {
        let state = with(&State::default(), key("card-notches"), "4");
        let state = with(&state, FieldKey::new(MINUTES, 2), "12");
        let again = state_of(&stored_text(&state, 1.0, true).expect("a text")).expect("a state");
        assert_eq!(typed(&again, &key("card-notches")).as_deref(), Some("4"));
        assert_eq!(
            again.undo_name().as_deref(),
            Some("minutes of a condition as proposed → “12”")
        );
        let back = reduce(&again, Action::Undo);
        assert_eq!(typed(&back, &FieldKey::new(MINUTES, 2)), None);
        assert_eq!(typed(&back, &key("card-notches")).as_deref(), Some("4"));
        assert!(back.faults().is_empty());
        let is_refused =
            |(key, text): (&FieldKey, &String)| readings::fault(&back, key, text).is_some();
        assert!(!back.drafts.iter().any(is_refused));
    }

    #[test]
    fn a_text_without_a_unit_keeps_its_meaning_in_other_units() {
        let mut state = State::default();
        for (id, text) in [
            ("climb-target", "392"),
            ("card-oat", "50 °F"),
            ("gauge-flow", "100"),
            ("size-chance", "80"),
            ("size-exitmost", "wide"),
        ] {
            state = with(&state, key(id), text);
        }
        let metric = reduce(&state, Action::Units(UnitSystem::Metric));
        let shown = |id: &str| typed(&metric, &key(id)).expect("a text");
        assert_eq!(shown("climb-target"), "200");
        assert_eq!(shown("card-oat"), "50 °F");
        assert_eq!(shown("gauge-flow"), "169.9");
        assert_eq!(shown("size-chance"), "80");
        assert_eq!(shown("size-exitmost"), "wide");
    }

    #[test]
    fn minutes_follow_their_condition_and_an_unknown_text_is_not_kept() {
        let state = with(&State::default(), FieldKey::new(MINUTES, 1), "7");
        let moved = reduce(&state, Action::MoveUp(crate::state::List::Conditions, 1));
        assert_eq!(
            typed(&moved, &FieldKey::new(MINUTES, 0)).as_deref(),
            Some("7")
        );
        for unknown in [
            key("area-12"),
            FieldKey::new("card-notches", 1),
            key("other"),
        ] {
            let state = with(&State::default(), unknown.clone(), "1");
            assert_eq!(typed(&state, &unknown), None, "{unknown:?}");
        }
    }

    #[test]
    fn elements_are_named_by_their_texts() {
        assert_eq!(element_id(&key("size-exitmost")), "size-exitmost");
        assert_eq!(element_id(&length_key(1, 0)), "area-1-0");
        for own in ["size-exitmost", "flight-minutes-3", "area-1-0", "scatter-2"] {
            assert!(is_element(own), "{own}");
        }
        for foreign in ["flight-minutes", "area-1", "share-code", "size-exitmost-0"] {
            assert!(!is_element(foreign), "{foreign}");
        }
    }
}
