//! The first questions as far as they are answered: as a text that a reload brings back.

use crate::design::start_my_own::{Answers, QUESTIONS, SCREENS};
use crate::state::{choices, json};
use coolpath_core::units::typed::UnitSystem;
use serde::{Deserialize, Serialize};

/// How far somebody came.
#[derive(Debug, Clone, PartialEq)]
pub struct HalfAnswered {
    /// The screen.
    pub at: usize,
    /// What was answered.
    pub answers: Answers,
}

/// The same as it is kept.
#[derive(Serialize, Deserialize)]
struct Kept {
    at: usize,
    texts: Vec<String>,
    options: Vec<(String, String)>,
    uncut: bool,
    units: UnitSystem,
}

/// As a text, with the units of what was typed.
#[must_use]
pub fn kept(half: &HalfAnswered, units: UnitSystem) -> Option<String> {
    let Answers {
        texts,
        options,
        uncut,
    } = half.answers.clone();
    let options = options
        .into_iter()
        .map(|(id, option)| (id.to_owned(), option))
        .collect();
    json::text(&Kept {
        at: half.at,
        texts,
        options,
        uncut,
        units,
    })
    .ok()
}

/// What a text says; `None` of other questions than those that are asked now, or of other units.
#[must_use]
pub fn read(text: &str, units: UnitSystem) -> Option<HalfAnswered> {
    let kept: Kept = serde_json::from_str(text).ok()?;
    if kept.texts.len() != QUESTIONS.len() || kept.units != units {
        return None;
    }
    let options = kept
        .options
        .into_iter()
        .map(|(id, option)| Some((choices::by_id(&id)?.id, option)))
        .collect::<Option<_>>()?;
    Some(HalfAnswered {
        at: kept.at.min(SCREENS.len() - 1),
        answers: Answers {
            texts: kept.texts,
            options,
            uncut: kept.uncut,
        },
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_answered_comes_back_and_other_questions_do_not() {
        let mut answers = Answers::proposed(UnitSystem::Metric);
        answers.texts[0] = "180 hp".to_owned();
        answers
            .options
            .push(("decks.sealing", "hard_plenum".to_owned()));
        answers.uncut = true;
        let half = HalfAnswered { at: 2, answers };
        let text = kept(&half, UnitSystem::Metric).expect("a text");
        assert_eq!(read(&text, UnitSystem::Metric), Some(half.clone()));
        assert_eq!(read(&text, UnitSystem::Customary), None);
        assert_eq!(read("{}", UnitSystem::Metric), None);
        let mut fewer = half;
        fewer.answers.texts.pop();
        let text = kept(&fewer, UnitSystem::Metric).expect("a text");
        assert_eq!(read(&text, UnitSystem::Metric), None);
    }
}
