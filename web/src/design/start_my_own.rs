//! "Start my own": twelve questions that a builder answers from memory or with a ruler.

use crate::state::field;
use coolpath_core::document::design::Design;
use coolpath_core::document::example;
use coolpath_core::document::table;
use coolpath_core::document::table::Input;
use coolpath_core::units::typed;
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
        ask: "Propeller diameter",
    },
    Question {
        targets: &[("inlet.width_m", 0), ("inlet.width_m", 1)],
        ask: "Width of each of the two inlets",
    },
    Question {
        targets: &[("inlet.height_m", 0), ("inlet.height_m", 1)],
        ask: "Height of each inlet",
    },
    Question {
        targets: &[("exit.width_m", 0)],
        ask: "Width of the exit",
    },
    Question {
        targets: &[("exit.gap_m", 0)],
        ask: "Gap of the exit, lip to firewall",
    },
    Question {
        targets: &[("cooler.duct_diameter_m", 0)],
        ask: "Diameter of the oil cooler's hose",
    },
    Question {
        targets: &[("engine.rated_power_w", 0)],
        ask: "Rated power",
    },
    Question {
        targets: &[("engine.head_limit_k", 0)],
        ask: "Head limit in your engine's manual",
    },
    Question {
        targets: &[("engine.oil_limit_k", 0)],
        ask: "Oil limit in your engine's manual",
    },
    Question {
        targets: &[("condition.airspeed_m_s", 1)],
        ask: "Best-climb airspeed",
    },
    Question {
        targets: &[("condition.airspeed_m_s", 2)],
        ask: "Cruise-climb airspeed",
    },
    Question {
        targets: &[("condition.airspeed_m_s", 3), ("condition.airspeed_m_s", 4)],
        ask: "Cruise airspeed (indicated)",
    },
];

impl Question {
    /// Row of the table that the answer belongs to.
    #[must_use]
    pub fn input(&self) -> Option<&'static Input> {
        self.targets.first().and_then(|(id, _)| table::by_id(id))
    }

    /// Text that stands in the field before it is answered.
    #[must_use]
    pub fn proposal(&self, system: UnitSystem) -> String {
        self.targets
            .first()
            .and_then(|&(id, place)| {
                let input = table::by_id(id)?;
                let value = input.value(&example::design(), place)?;
                Some(typed::text(value, input.dimension, system))
            })
            .unwrap_or_default()
    }
}

/// Design from the answers; all else has its default.
///
/// # Errors
/// For each answer that is no value, its place and the sentence that says so.
pub fn design(answers: &[String], system: UnitSystem) -> Result<Design, Vec<(usize, String)>> {
    let mut design = example::design();
    design.name = "My design".to_owned();
    let mut faults = Vec::new();
    for (place, (question, answer)) in QUESTIONS.iter().zip(answers).enumerate() {
        for &(id, target) in question.targets {
            let Some(input) = table::by_id(id) else {
                continue;
            };
            match field::value(input, answer, system) {
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
    // The cooler grows with the engine until its own numbers are typed.
    let ratio = design.installation.engine.rated_power.value
        / example::design().installation.engine.rated_power.value;
    let cooler = &mut design.installation.cooler;
    cooler.rated_heat *= ratio;
    cooler.rated_air_flow *= ratio;
    cooler.rated_oil_flow *= ratio;
    design.installation.oil.pump_flow *= ratio;
    match (faults.is_empty(), design.check()) {
        (true, Ok(())) => Ok(design),
        (true, Err(error)) => Err(vec![(0, error.to_string())]),
        (false, _) => Err(faults),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn proposals(system: UnitSystem) -> Vec<String> {
        QUESTIONS
            .iter()
            .map(|question| question.proposal(system))
            .collect()
    }

    #[test]
    fn every_question_has_an_input_and_its_proposals_make_the_example() {
        assert!(QUESTIONS.iter().all(|question| question.input().is_some()));
        for system in [UnitSystem::Customary, UnitSystem::Metric] {
            let made = design(&proposals(system), system).expect("a design");
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
        let mut answers = proposals(UnitSystem::Customary);
        answers[1] = "150 mm".to_owned();
        answers[6] = "200".to_owned();
        let made = design(&answers, UnitSystem::Customary).expect("a design");
        for inlet in &made.installation.inlets {
            assert!((inlet.width.value - 0.15).abs() < 1e-12);
        }
        let ratio =
            made.installation.cooler.rated_heat / example::design().installation.cooler.rated_heat;
        assert!((ratio.value - 200.0 / 150.0).abs() < 1e-9);
        answers[7] = "hot".to_owned();
        answers[9] = "-".to_owned();
        let faults = design(&answers, UnitSystem::Customary).expect_err("two faults");
        assert_eq!(
            faults.iter().map(|fault| fault.0).collect::<Vec<_>>(),
            [7, 9]
        );
    }
}
