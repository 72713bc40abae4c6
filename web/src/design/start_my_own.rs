//! One's own aircraft: six screens of questions that a builder answers from memory or with a ruler.

use crate::sheet::{Part, View};
use crate::state::{choices, field};
use coolpath_core::document::design::{Assumed, Design, mark};
use coolpath_core::document::example;
use coolpath_core::document::installation::areas::inlets_m2;
use coolpath_core::document::origin::Origin;
use coolpath_core::document::table;
use coolpath_core::document::table::Input;
use coolpath_core::language::{tr, tr_later};
use coolpath_core::units::typed::UnitSystem;

/// One question: the inputs that its answer sets, the first being the one shown.
pub struct Question {
    /// Inputs and their places.
    pub targets: &'static [(&'static str, usize)],
    /// What is asked.
    pub ask: &'static str,
}

/// The questions, in the order in which a builder would walk round the aeroplane.
pub const QUESTIONS: [Question; 12] = [
    Question {
        targets: &[("airframe.propeller_diameter_m", 0)],
        ask: tr_later("Propeller diameter"),
    },
    Question {
        targets: &[("inlet.width_m", 0), ("inlet.width_m", 1)],
        ask: tr_later("Width of each of the two inlets"),
    },
    Question {
        targets: &[("inlet.height_m", 0), ("inlet.height_m", 1)],
        ask: tr_later("Height of each inlet"),
    },
    Question {
        targets: &[("exit.width_m", 0)],
        ask: tr_later("Width of the exit"),
    },
    Question {
        targets: &[("exit.gap_m", 0)],
        ask: tr_later("Gap of the exit, lip to firewall"),
    },
    Question {
        targets: &[("cooler.duct_diameter_m", 0)],
        ask: tr_later("Diameter of the oil cooler's hose"),
    },
    Question {
        targets: &[("engine.rated_power_w", 0)],
        ask: tr_later("Rated power"),
    },
    Question {
        targets: &[("engine.head_limit_k", 0)],
        ask: tr_later("Head limit in your engine's manual"),
    },
    Question {
        targets: &[("engine.oil_limit_k", 0)],
        ask: tr_later("Oil limit in your engine's manual"),
    },
    Question {
        targets: &[("condition.airspeed_m_s", 1)],
        ask: tr_later("Best-climb airspeed"),
    },
    Question {
        targets: &[("condition.airspeed_m_s", 2)],
        ask: tr_later("Cruise-climb airspeed"),
    },
    Question {
        targets: &[("condition.airspeed_m_s", 3), ("condition.airspeed_m_s", 4)],
        ask: tr_later("Cruise airspeed (indicated)"),
    },
];

/// One screen: choices by their ids, then questions by their places.
pub struct Screen {
    /// What it is about.
    pub title: &'static str,
    /// Choices.
    pub choices: &'static [&'static str],
    /// Questions.
    pub questions: &'static [usize],
    /// The view of one's own aircraft that stands above them, and the part that they are about.
    pub shown: (View, Option<Part>),
}

/// The screens, in their order.
pub const SCREENS: [Screen; 6] = [
    Screen {
        title: tr_later("Engine and propeller"),
        choices: &["engine.cylinders"],
        questions: &[6, 0],
        shown: (View::Side, Some(Part::Engine)),
    },
    Screen {
        title: tr_later("Plenum or seals?"),
        choices: &["decks.sealing"],
        questions: &[],
        shown: (View::Side, Some(Part::UpperDeck)),
    },
    Screen {
        title: tr_later("Inlets"),
        choices: &[],
        questions: &[1, 2],
        shown: (View::Front, Some(Part::Inlets)),
    },
    Screen {
        title: tr_later("Exit"),
        choices: &[],
        questions: &[3, 4],
        shown: (View::Side, Some(Part::Exit)),
    },
    Screen {
        title: tr_later("Oil cooler and shutter"),
        choices: &["shutter.fitted"],
        questions: &[5],
        shown: (View::Side, Some(Part::Shutter)),
    },
    Screen {
        title: tr_later("Limits and speeds"),
        choices: &[],
        questions: &[7, 8, 9, 10, 11],
        shown: (View::Side, None),
    },
];

/// Exit over inlet area that stands in for an exit not cut yet: common practice, without a source.
pub const UNCUT_RATIO: f64 = 1.2;

/// What was answered.
#[derive(Debug, Clone, PartialEq)]
pub struct Answers {
    /// Text of each question.
    pub texts: Vec<String>,
    /// Option of each choice that was made, by its id.
    pub options: Vec<(&'static str, String)>,
    /// Whether the exit is not cut yet.
    pub uncut: bool,
}

impl Answers {
    /// What stands on the screens before anything is answered: the example.
    #[must_use]
    pub fn proposed(system: UnitSystem) -> Self {
        Self {
            texts: QUESTIONS
                .iter()
                .map(|question| question.proposal(system))
                .collect(),
            options: Vec::new(),
            uncut: false,
        }
    }

    /// What is wrong on a screen: the question's place and the sentence.
    #[must_use]
    pub fn faults(&self, screen: &Screen, system: UnitSystem) -> Vec<(usize, String)> {
        screen
            .questions
            .iter()
            .filter(|&&place| !(self.uncut && place == GAP))
            .filter_map(|&place| {
                let input = QUESTIONS.get(place)?.input()?;
                let text = self.texts.get(place)?;
                Some((place, field::value(input, text, system).err()?))
            })
            .collect()
    }

    /// The option taken of a choice.
    #[must_use]
    pub fn option(&self, id: &str) -> Option<String> {
        let taken = self.options.iter().find(|(other, _)| *other == id);
        taken
            .map(|(_, option)| option.clone())
            .or_else(|| choices::by_id(id).and_then(|choice| (choice.get)(&example::design(), 0)))
    }
}

/// Place of the question about the exit's gap.
pub const GAP: usize = 4;

impl Question {
    /// Row of the table that the answer belongs to.
    #[must_use]
    pub fn input(&self) -> Option<&'static Input> {
        self.targets.first().and_then(|(id, _)| table::by_id(id))
    }

    /// The example's value, SI.
    fn proposed(&self) -> Option<f64> {
        let &(_, place) = self.targets.first()?;
        self.input()?.value(&example::design(), place)
    }

    /// Text that stands in the field before it is answered.
    #[must_use]
    pub fn proposal(&self, system: UnitSystem) -> String {
        self.input()
            .zip(self.proposed())
            .map(|(input, value)| field::shown(value, input.dimension, system))
            .unwrap_or_default()
    }

    /// Value of an answer, SI; a proposal that was left as it is stands for all its digits.
    fn value(&self, input: &Input, answer: &str, system: UnitSystem) -> Result<f64, String> {
        match self.proposed() {
            Some(value) if answer == self.proposal(system) => Ok(value),
            _ => field::value(input, answer, system),
        }
    }
}

/// Design from the answers; all else has its default.
///
/// # Errors
/// For each answer that is no value, its place and the sentence that says so.
pub fn design(answers: &Answers, system: UnitSystem) -> Result<Design, Vec<(usize, String)>> {
    let mut design = example::design();
    design.name = tr("My design").to_owned();
    let mut faults = Vec::new();
    for (id, option) in &answers.options {
        if let Some(choice) = choices::by_id(id) {
            (choice.set)(&mut design, 0, option);
        }
    }
    for (place, (question, answer)) in QUESTIONS.iter().zip(&answers.texts).enumerate() {
        if answers.uncut && place == GAP {
            continue;
        }
        for &(id, target) in question.targets {
            let Some(input) = table::by_id(id) else {
                continue;
            };
            match question.value(input, answer, system) {
                Ok(value) => {
                    input.set(&mut design, target, value);
                }
                Err(fault) => {
                    faults.push((place, fault));
                    break;
                }
            }
        }
    }
    if answers.uncut {
        let wanted = UNCUT_RATIO * inlets_m2(&design.installation);
        if let Some(exit) = design.installation.exits.first_mut() {
            exit.set_closed_area(wanted);
        }
    }
    // The cooler grows with the engine until its own numbers are typed.
    let ratio = design.installation.engine.rated_power.value
        / example::design().installation.engine.rated_power.value;
    let cooler = &mut design.installation.cooler;
    cooler.rated_heat *= ratio;
    cooler.rated_air_flow *= ratio;
    cooler.rated_oil_flow *= ratio;
    design.installation.oil.pump_flow *= ratio;
    // So does the descent with the cruise.
    let cruise = |design: &Design| design.conditions[CRUISE].airspeed.value;
    let faster = cruise(&design) / cruise(&example::design());
    design.conditions[DESCENT].airspeed *= faster;
    design.assumed = assumed(&design, answers);
    match (faults.is_empty(), design.check()) {
        (true, Ok(())) => Ok(design),
        (true, Err(error)) => Err(vec![(0, error.to_string())]),
        (false, _) => Err(faults),
    }
}

/// Places of the example's level cruise and of its descent.
const CRUISE: usize = 3;
const DESCENT: usize = 5;

/// What stands in a design as if the builder had put it in, though nobody asked for it.
fn assumed(design: &Design, answers: &Answers) -> Vec<Assumed> {
    let is_asked = |id: &str, place: usize| {
        let questions = QUESTIONS.iter().enumerate();
        let mut answered = questions.filter(|(at, _)| !(answers.uncut && *at == GAP));
        answered.any(|(_, question)| question.targets.contains(&(id, place)))
    };
    design
        .places()
        .filter(|(input, place)| Origin::of(design, input, *place) == Origin::Own)
        .filter(|(input, place)| !is_asked(input.id, *place))
        .filter_map(|(input, place)| {
            Some(Assumed {
                input: mark(input.id, place),
                value: input.value(design, place)?,
            })
        })
        .collect()
}

/// Design to draw while answers are typed: what is no value yet has what was proposed.
///
/// # Errors
/// Where even that is no design.
pub fn drawable(answers: &Answers, system: UnitSystem) -> Result<Design, Vec<(usize, String)>> {
    design(answers, system).or_else(|faults| {
        let mut known = answers.clone();
        for (place, _) in &faults {
            let proposed = QUESTIONS.get(*place).map(|one| one.proposal(system));
            if let Some((text, proposed)) = known.texts.get_mut(*place).zip(proposed) {
                *text = proposed;
            }
        }
        design(&known, system)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_question_stands_on_one_screen_and_every_choice_exists() {
        let mut seen: Vec<usize> = SCREENS.iter().flat_map(|s| s.questions).copied().collect();
        seen.sort_unstable();
        assert_eq!(seen, (0..QUESTIONS.len()).collect::<Vec<_>>());
        for id in SCREENS.iter().flat_map(|screen| screen.choices) {
            assert!(choices::by_id(id).is_some(), "{id}");
        }
        assert_eq!(QUESTIONS[GAP].targets, [("exit.gap_m", 0)]);
    }

    #[test]
    fn what_nobody_asked_for_is_told_as_assumed_until_it_is_typed() {
        let mut answers = Answers::proposed(UnitSystem::Customary);
        answers.texts[6] = "200".to_owned();
        answers.texts[11] = "90".to_owned();
        let made = design(&answers, UnitSystem::Customary).expect("a design");
        let origin = |design: &Design, id: &str, place: usize| {
            Origin::of(design, table::by_id(id).expect("an input"), place)
        };
        for (id, place, expected) in [
            ("cooler.rated_heat_per_100degf_w", 0, Origin::Assumed),
            ("condition.airspeed_m_s", 5, Origin::Assumed),
            ("condition.airspeed_m_s", 3, Origin::Own),
            ("inlet.width_m", 1, Origin::Own),
        ] {
            assert_eq!(origin(&made, id, place), expected, "{id} {place}");
        }
        // The descent follows the cruise, as in the example: 135 of 120.
        let descent = made.conditions[DESCENT].airspeed.value;
        let cruise = made.conditions[CRUISE].airspeed.value;
        assert!((descent / cruise - 1.125).abs() < 1e-9);
        let mut typed = made.clone();
        let input = table::by_id("condition.airspeed_m_s").expect("an input");
        input.set(&mut typed, DESCENT, 50.0);
        assert_eq!(
            origin(&typed, "condition.airspeed_m_s", DESCENT),
            Origin::Own
        );
    }

    #[test]
    fn an_exit_that_is_not_cut_yet_follows_the_inlets() {
        let mut answers = Answers::proposed(UnitSystem::Customary);
        answers.uncut = true;
        answers.texts[GAP] = "?".to_owned();
        answers.options.push(("engine.cylinders", "6".to_owned()));
        let made = design(&answers, UnitSystem::Customary).expect("a design");
        let ratio = made.installation.exits[0].closed_area_m2() / inlets_m2(&made.installation);
        assert!((ratio - UNCUT_RATIO).abs() < 1e-9);
        assert_eq!(answers.option("engine.cylinders").as_deref(), Some("6"));
        assert!(
            answers
                .faults(&SCREENS[3], UnitSystem::Customary)
                .is_empty()
        );
    }

    #[test]
    fn every_question_has_an_input_and_its_proposals_make_the_example() {
        assert!(QUESTIONS.iter().all(|question| question.input().is_some()));
        for system in [UnitSystem::Customary, UnitSystem::Metric] {
            let made = design(&Answers::proposed(system), system).expect("a design");
            let example = example::design();
            for (id, place) in QUESTIONS
                .iter()
                .filter_map(|question| question.targets.first())
            {
                let input = table::by_id(id).expect("an input");
                let (own, other) = (input.value(&made, *place), input.value(&example, *place));
                let (own, other) = (own.expect("own"), other.expect("other"));
                assert!((own - other).abs() < 1e-6 * other.abs(), "{id}");
            }
        }
    }

    #[test]
    fn an_answer_sets_all_its_targets_and_a_bad_one_is_told_with_its_place() {
        let mut answers = Answers::proposed(UnitSystem::Customary);
        answers.texts[1] = "150 mm".to_owned();
        answers.texts[6] = "200".to_owned();
        let made = design(&answers, UnitSystem::Customary).expect("a design");
        for inlet in &made.installation.inlets {
            assert!((inlet.width.value - 0.15).abs() < 1e-12);
        }
        let ratio =
            made.installation.cooler.rated_heat / example::design().installation.cooler.rated_heat;
        assert!((ratio.value - 200.0 / 150.0).abs() < 1e-9);
        answers.texts[7] = "hot".to_owned();
        answers.texts[9] = "-".to_owned();
        let faults = design(&answers, UnitSystem::Customary).expect_err("two faults");
        assert_eq!(
            faults.iter().map(|fault| fault.0).collect::<Vec<_>>(),
            [7, 9]
        );
        // What was answered is drawn all the same.
        let drawn = drawable(&answers, UnitSystem::Customary).expect("a design");
        assert!((drawn.installation.inlets[0].width.value - 0.15).abs() < 1e-12);
    }
}
