//! What a condition answers as a record for files and other programs: plain SI numbers under names
//! that end with their unit.
use crate::answer::pieces::Pieces;

use crate::answer::band::bands;
use crate::answer::evaluate::{Answer, evaluate_all};
use crate::answer::sampling::{DEFAULT_DRAWS, DEFAULT_SEED, Sampling, Summary};
use crate::answer::solved::EvaluateError;
use crate::answer::verdict::{DEFAULT_CHANCE, judge};
use crate::document::design::Design;
use crate::path::butterfly;
use crate::path::state::Sides;
use serde::Serialize;

/// What is known of one condition.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
pub enum Record {
    /// It has an answer.
    Answered(Box<Answered>),
    /// It has none.
    Refused {
        /// Name of the condition.
        condition: String,
        /// Why.
        error: String,
    },
}

/// The two banks under a split upper deck.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Banks {
    /// Mean head of the left bank, K.
    pub left_head_k: f64,
    /// Mean head of the right bank, K.
    pub right_head_k: f64,
    /// Left half of the deck above static, Pa.
    pub left_upper_deck_pa: f64,
    /// Right half of the deck above static, Pa.
    pub right_upper_deck_pa: f64,
    /// From the left half to the right, kg/s.
    pub across_kg_s: f64,
}

impl Banks {
    fn of(sides: &Sides) -> Self {
        Self {
            left_head_k: sides.left.head_k,
            right_head_k: sides.right.head_k,
            left_upper_deck_pa: sides.left.upper_pa,
            right_upper_deck_pa: sides.right.upper_pa,
            across_kg_s: sides.across_kg_s,
        }
    }
}

/// The answer of one condition.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Answered {
    /// Name of the condition.
    pub condition: String,
    /// Mean of the heads, K.
    pub head_mean_k: f64,
    /// Hottest head as its probe reads it, K.
    pub head_hottest_k: f64,
    /// Each head, K, number 1 first; `None` before the cylinders are known one by one.
    pub head_k: Option<Vec<f64>>,
    /// Number of the hottest cylinder, from 1.
    pub hottest_cylinder: Option<usize>,
    /// The lowest limit of the hottest head that counts in the condition, minus that head, K.
    pub head_margin_k: f64,
    /// Oil at the gauge, K.
    pub oil_k: f64,
    /// The lowest limit of the oil that counts in the condition, minus the oil, K.
    pub oil_margin_k: f64,
    /// The smaller margin: `head` or `oil`.
    pub binding_limit: &'static str,
    /// Upper deck above static, Pa.
    pub upper_deck_pa: f64,
    /// Lower deck above static, Pa.
    pub lower_deck_pa: f64,
    /// Upper minus lower deck, Pa.
    pub baffle_dp_pa: f64,
    /// Air through the fins, kg/s.
    pub fin_kg_s: f64,
    /// Air past the seals, kg/s.
    pub leak_kg_s: f64,
    /// Air through the oil cooler, kg/s.
    pub oil_cooler_kg_s: f64,
    /// Air through all inlets, kg/s.
    pub inlet_kg_s: f64,
    /// Air through all exits, kg/s.
    pub exit_kg_s: f64,
    /// Velocity in the inlets over true airspeed \[-\]; `None` at rest.
    pub inlet_velocity_ratio: Option<f64>,
    /// Velocity in the first exit over true airspeed \[-\]; `None` at rest.
    pub exit_velocity_ratio: Option<f64>,
    /// Exit area over inlet area \[-\].
    pub exit_inlet_area_ratio: f64,
    /// Heat from the fins, W.
    pub fin_heat_w: f64,
    /// Heat from the oil cooler, W.
    pub oil_cooler_heat_w: f64,
    /// Heat into the oil, W.
    pub oil_into_oil_w: f64,
    /// Cooling drag, N.
    pub drag_n: f64,
    /// Angle of the shutter's disc from fully open, degrees; `None` without a shutter.
    pub shutter_deg: Option<f64>,
    /// Iterations of the solver.
    pub iterations: u32,
    /// What the solver left, as a share of its scale \[-\].
    pub residual: f64,
    /// Names of the warnings.
    pub warnings: Vec<&'static str>,
    /// The two banks; `None` where one upper deck lies over both.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub banks: Option<Banks>,
    /// Verdict by name.
    pub verdict: &'static str,
    /// Share of the draws that hold both limits \[-\]; `None` where too few have an answer.
    pub chance_inside: Option<f64>,
}

/// The records of all conditions in their order, judged by 2,000 draws of every assumption.
///
/// # Errors
/// [`EvaluateError`] if the design is refused.
///
/// # Example
/// ```
/// use coolpath_core::answer::record::{Record, records};
/// use coolpath_core::answer::solved::EvaluateError;
/// use coolpath_core::document::example;
///
/// let mut design = example::design();
/// design.conditions.truncate(2);
/// let records = records(&design)?;
/// let Record::Answered(climb) = &records[1] else { panic!("it has an answer") };
/// assert!(climb.chance_inside.is_some_and(|share| (0.0..=1.0).contains(&share)));
/// # Ok::<(), EvaluateError>(())
/// ```
pub fn records(design: &Design) -> Result<Vec<Record>, EvaluateError> {
    let mut sampling = Sampling::new(design, DEFAULT_DRAWS, DEFAULT_SEED)?;
    while sampling.advance(DEFAULT_DRAWS) {}
    let answers = evaluate_all(design);
    let each = answers.iter().zip(&design.conditions).enumerate();
    Ok(each
        .map(|(place, (answer, condition))| match answer {
            Ok(answer) => {
                let sampled = sampling.summary(place);
                Record::Answered(Box::new(answered(design, place, answer, sampled.as_ref())))
            }
            Err(error) => Record::Refused {
                condition: condition.name.clone(),
                error: error.to_string(),
            },
        })
        .collect())
}

fn answered(design: &Design, place: usize, answer: &Answer, sampled: Option<&Summary>) -> Answered {
    let bands = bands(design, place).ok();
    let judgement = judge(
        &design.installation,
        answer,
        bands.as_ref(),
        sampled,
        DEFAULT_CHANCE,
    );
    let counted = judgement.chance_inside.filter(|chance| chance.sampled);
    let heads: Vec<f64> = answer.heads.iter().map(|head| head.value).collect();
    Answered {
        condition: answer.name.clone(),
        head_mean_k: answer.head_mean.value,
        head_hottest_k: answer.head_hottest.value,
        head_k: (!heads.is_empty()).then_some(heads),
        hottest_cylinder: answer.hottest_cylinder.map(|place| place + 1),
        head_margin_k: answer.head_margin.value,
        oil_k: answer.oil.value,
        oil_margin_k: answer.oil_margin.value,
        binding_limit: answer.binding.name(),
        upper_deck_pa: answer.upper_deck.value,
        lower_deck_pa: answer.lower_deck.value,
        baffle_dp_pa: answer.baffle_drop.value,
        fin_kg_s: answer.fin_flow.value,
        leak_kg_s: answer.leak_flow.value,
        oil_cooler_kg_s: answer.cooler_flow.value,
        inlet_kg_s: answer.inlet_flow.value,
        exit_kg_s: answer.exit_flow.value,
        inlet_velocity_ratio: answer.inlet_velocity_ratio,
        exit_velocity_ratio: answer.exit_velocity_ratio,
        exit_inlet_area_ratio: answer.area_ratio,
        fin_heat_w: answer.fin_heat.value,
        oil_cooler_heat_w: answer.cooler_heat.value,
        oil_into_oil_w: answer.oil_heat.value,
        drag_n: answer.drag.value,
        shutter_deg: answer.shutter_opening.map(butterfly::angle_from_open),
        iterations: answer.report.iterations,
        residual: answer.report.residual,
        warnings: answer
            .warnings
            .iter()
            .map(|warning| warning.name())
            .collect(),
        banks: answer.state.sides.as_ref().map(Banks::of),
        verdict: judgement.verdict.name(),
        chance_inside: counted.map(|chance| chance.share),
    }
}
