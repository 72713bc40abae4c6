//! The verdict on a condition: inside its limits, too close to call, over, or oil too cold.
//!
//! * *over*: the answer itself is over a limit, or the chance of holding both limits is below one
//!   half; heads and oil beyond what any engine stands are over whatever the limits say;
//! * *too cold*: in flight the oil stays below its least temperature, or more likely so than not;
//! * *inside*: the chance is at least the chosen one, that of oil warm enough is too, every end of every range has
//!   an answer, and nothing in the answer is absurd;
//! * *too close to call*: all between, and whenever no chance is known.
//!
//! # Chance
//! At once from the bands: each margin as deviations of what the bands are made of, skewed as that
//! is, heads and oil together by their correlation as two normal variables. Each end of a range without an answer takes its one case in twenty. The
//! share of sampled draws replaces it.

use crate::answer::absurd::Absurd;
use crate::answer::band::Bands;
use crate::answer::evaluate::{Answer, Limit};
use crate::answer::sampling::Summary;
use crate::answer::warning::Warning;
use crate::document::condition::Phase;
use crate::document::installation::Installation;
use crate::document::limits::Limits;
use crate::language::tr;
use crate::math::normal::{joint_chance, normal_chance};

/// Chance at which a condition counts as inside unless the builder chooses another [-].
pub const DEFAULT_CHANCE: f64 = 0.9;
/// Chance below which a condition is over [-].
const EVEN: f64 = 0.5;
/// Share beyond an end of a range [-].
const BEYOND_END: f64 = 0.05;

/// How a condition stands to its limits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// Both limits are held with the chosen chance.
    Inside,
    /// Oil stays below its least temperature.
    TooCold,
    /// Neither inside nor over.
    TooClose,
    /// Over a limit, or more likely over than not.
    Over,
}

impl Verdict {
    /// Name for files.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Inside => "inside",
            Self::TooCold => "too_cold",
            Self::TooClose => "too_close",
            Self::Over => "over",
        }
    }

    /// The verdict in words.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Inside => tr("inside"),
            Self::TooCold => tr("too cold"),
            Self::TooClose => tr("too close to call"),
            Self::Over => tr("over"),
        }
    }
}

/// A chance of holding both limits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chance {
    /// The chance [-].
    pub share: f64,
    /// Counted over draws; otherwise from the bands.
    pub sampled: bool,
}

impl Chance {
    /// The chance in words, marked where it comes from the bands, such as "≈ 85 %".
    #[must_use]
    pub fn words(&self) -> String {
        if self.sampled || odds_step(self.share) == STEPS / 2 {
            odds_words(self.share)
        } else {
            odds_about(self.share)
        }
    }
}

/// Steps of odds: a chance is never told finer than one in twenty.
const STEPS: u32 = 20;
/// Chance above which only that is said [-].
const NEARLY_SURE: f64 = 0.95;

/// Odds in twentieths, from 0, under one of them, to 20, over nineteen.
///
/// Rounded down, so that the number never stands on the better side of a limit of chance.
///
/// # Example
/// ```
/// use coolpath_core::answer::verdict::odds_step;
///
/// assert_eq!([0.03, 0.897, 0.95, 0.96].map(odds_step), [0, 17, 19, 20]);
/// ```
#[must_use]
pub fn odds_step(share: f64) -> u32 {
    if share > NEARLY_SURE {
        return STEPS;
    }
    // No number is none at all; the small part is for shares such as 0.55 that no number has exactly.
    (share.max(0.0) * f64::from(STEPS) + 1e-9).floor() as u32
}

/// Odds in steps of 5 %: "over 95 %", "85 %", "50 %", "under 5 %".
#[must_use]
pub fn odds_percent(share: f64) -> String {
    match odds_step(share) {
        STEPS => tr("over 95 %").to_owned(),
        0 => tr("under 5 %").to_owned(),
        step => format!("{} %", 100 * step / STEPS),
    }
}

/// The same of a chance that is no count: "≈ 85 %", "over 95 %".
#[must_use]
pub fn odds_about(share: f64) -> String {
    let percent = odds_percent(share);
    // An open end is none that anything could be near to.
    if (1..STEPS).contains(&odds_step(share)) {
        format!("≈ {percent}")
    } else {
        percent
    }
}

/// As [`odds_percent`], an even chance in words: "over 95 %", "85 %", "about 1 in 2", "under 5 %".
///
/// # Example
/// ```
/// use coolpath_core::answer::verdict::odds_words;
///
/// assert_eq!(odds_words(0.897), "85 %");
/// assert_eq!(odds_words(0.52), "about 1 in 2");
/// ```
#[must_use]
pub fn odds_words(share: f64) -> String {
    if odds_step(share) == STEPS / 2 {
        tr("about 1 in 2").to_owned()
    } else {
        odds_percent(share)
    }
}

/// How one quantity stands to its own limit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Standing {
    /// Limit less answer, K.
    pub margin_k: f64,
    /// Chance of holding the limit, from the bands [-]; `None` as long as they are not there.
    pub chance: Option<f64>,
}

impl Standing {
    /// Over the limit, or more likely over than not.
    #[must_use]
    pub fn is_over(&self) -> bool {
        self.margin_k < 0.0 || self.chance.is_some_and(|chance| chance < EVEN)
    }
}

/// A verdict and what it rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct Judgement {
    /// The verdict.
    pub verdict: Verdict,
    /// The hottest head by itself.
    pub head: Standing,
    /// The oil by itself.
    pub oil: Standing,
    /// Chance of holding both limits; `None` as long as neither bands nor draws are there.
    pub chance_inside: Option<Chance>,
    /// Chance that the oil is not below its least temperature; `None` on the ground, and as long as neither bands
    /// nor draws are there.
    pub chance_warm: Option<Chance>,
    /// The quantity that is nearer to its limit by its odds; oil where it is too cold, or may be.
    pub worse: Limit,
    /// The limits it is judged by.
    pub limits: Limits,
    /// Limit less answer of the worse quantity, K; where it stands against the oil's least temperature, the answer
    /// less that.
    pub margin_k: f64,
    /// Whether the oil stays below its least temperature in flight, or more likely so than not.
    pub oil_too_cold: bool,
    /// Whether it stands against the oil's least temperature: too cold, or not inside for that reason alone.
    pub against_least: bool,
    /// What is absurd in the answer, as it was judged where that was made.
    pub absurd: Vec<Absurd>,
    /// Label of the first input with an end of its range without an answer.
    pub open: Option<&'static str>,
}

impl Judgement {
    /// The chance by which it stands: of oil warm enough where it stands against that, else of holding both limits;
    /// `None` as long as neither bands nor draws are there.
    #[must_use]
    pub fn chance(&self) -> Option<Chance> {
        if self.against_least {
            self.chance_warm
        } else {
            self.chance_inside
        }
    }
}

/// Judges a condition.
///
/// # Arguments
/// * `bands` - of the same condition, if they are there
/// * `sampled` - what the draws say of it, if they are there
/// * `wanted` - chance at which it counts as inside \[-\]
///
/// # Example
/// Nothing is promised by a bare answer, however far inside its limits it lies:
/// ```
/// use coolpath_core::answer::evaluate::evaluate;
/// use coolpath_core::answer::solved::EvaluateError;
/// use coolpath_core::answer::verdict::{DEFAULT_CHANCE, Verdict, judge};
/// use coolpath_core::document::example;
///
/// let design = example::design();
/// let answer = evaluate(&design, 4)?;
/// let judgement = judge(&design.installation, &answer, None, None, DEFAULT_CHANCE);
/// assert_eq!(judgement.chance_inside, None);
/// assert_ne!(judgement.verdict, Verdict::Inside);
/// # Ok::<(), EvaluateError>(())
/// ```
#[must_use]
pub fn judge(
    installation: &Installation,
    answer: &Answer,
    bands: Option<&Bands>,
    sampled: Option<&Summary>,
    wanted: f64,
) -> Judgement {
    let engine = &installation.engine;
    let (head_k, oil_k) = (answer.head_margin.value, answer.oil_margin.value);
    let flying = answer.phase != Phase::Ground;
    let above_least_k = answer.oil.value - engine.oil_minimum.value;
    let chance_warm = chance_warm(above_least_k, bands, sampled).filter(|_| flying);
    let warm = |least: f64| chance_warm.is_none_or(|chance| chance.share >= least);
    let oil_too_cold = flying && (above_least_k < 0.0 || !warm(EVEN));
    let absurd: Vec<Absurd> = answer
        .warnings
        .iter()
        .filter_map(|warning| match warning {
            Warning::Absurd(what) => Some(*what),
            _ => None,
        })
        .collect();
    let by_bands = bands.map(|bands| {
        let head = bands.moments.head_hottest.deviations(head_k);
        let oil = bands.moments.oil.deviations(oil_k);
        let ends = bands.open.len() as f64;
        let share = joint_chance(head, oil, bands.head_oil_correlation)
            * (1.0 - BEYOND_END * ends).max(0.0);
        (share, head <= oil, [head, oil].map(normal_chance))
    });
    let standing = |at: usize, margin_k: f64| Standing {
        margin_k,
        chance: by_bands.map(|(.., alone)| alone[at]),
    };
    let (head, oil) = (standing(0, head_k), standing(1, oil_k));
    let by_bands = by_bands.map(|(share, heads_worse, _)| (share, heads_worse));
    let by_draws = sampled.map(|found| (found.both_inside, found.head_inside <= found.oil_inside));
    let chance_inside = match (by_draws, by_bands) {
        (Some((share, _)), _) => Some(Chance {
            share,
            sampled: true,
        }),
        (None, Some((share, _))) => Some(Chance {
            share,
            sampled: false,
        }),
        (None, None) => None,
    };
    // Draws alone cannot tell two saturated shares apart: the bands' odds come first.
    let heads_worse = by_bands
        .or(by_draws)
        .map_or(head_k <= oil_k, |(_, heads)| heads);
    let open = bands.and_then(|bands| bands.open.first().map(|(input, _)| input.label));
    let share = chance_inside.map(|chance| chance.share);
    let over = head_k < 0.0
        || oil_k < 0.0
        || share.is_some_and(|share| share < EVEN)
        || absurd.iter().any(|what| what.is_over());
    let sound = open.is_none() && absurd.is_empty();
    let holds = sound && share.is_some_and(|share| share >= wanted);
    let verdict = if over {
        Verdict::Over
    } else if oil_too_cold {
        Verdict::TooCold
    } else if holds && warm(wanted) {
        Verdict::Inside
    } else {
        Verdict::TooClose
    };
    let against_least = verdict == Verdict::TooCold || (verdict == Verdict::TooClose && holds);
    let worse = if against_least || !heads_worse {
        Limit::Oil
    } else {
        Limit::Head
    };
    Judgement {
        verdict,
        head,
        oil,
        chance_inside,
        chance_warm,
        worse,
        limits: answer.limits,
        margin_k: match worse {
            _ if against_least => above_least_k,
            Limit::Head => head_k,
            Limit::Oil => oil_k,
        },
        oil_too_cold,
        against_least,
        absurd,
        open,
    }
}

/// Chance that the oil is not below its least temperature, which its best estimate lies so far above, K.
fn chance_warm(
    above_least_k: f64,
    bands: Option<&Bands>,
    sampled: Option<&Summary>,
) -> Option<Chance> {
    if let Some(found) = sampled {
        return Some(Chance {
            share: 1.0 - found.oil_too_cold,
            sampled: true,
        });
    }
    let cold = bands?
        .cold_oil
        .map_or(0.0, |oil| normal_chance(oil.deviations(-above_least_k)));
    Some(Chance {
        share: 1.0 - cold,
        sampled: false,
    })
}

/// Place of the worst condition: the first without an answer, or else the worst by its verdict, then its
/// chance, where every condition has one, then its margin; `None` without any condition.
///
/// # Example
/// A condition without an answer comes first:
/// ```
/// use coolpath_core::answer::evaluate::evaluate;
/// use coolpath_core::answer::solved::EvaluateError;
/// use coolpath_core::answer::verdict::{DEFAULT_CHANCE, judge, worst};
/// use coolpath_core::document::example;
///
/// let design = example::design();
/// let judged = |place| -> Result<_, EvaluateError> {
///     let answer = evaluate(&design, place)?;
///     Ok(judge(&design.installation, &answer, None, None, DEFAULT_CHANCE))
/// };
/// let (ground, climb) = (judged(0)?, judged(1)?);
/// assert_eq!(worst([Some(&ground), Some(&climb)]), Some(1));
/// assert_eq!(worst([Some(&climb), None]), Some(1));
/// assert_eq!(worst([]), None);
/// # Ok::<(), EvaluateError>(())
/// ```
#[must_use]
pub fn worst<'a>(judgements: impl IntoIterator<Item = Option<&'a Judgement>>) -> Option<usize> {
    let judgements: Vec<Option<&Judgement>> = judgements.into_iter().collect();
    let Some(judged) = judgements.iter().copied().collect::<Option<Vec<_>>>() else {
        return judgements.iter().position(Option::is_none);
    };
    let rank = |verdict: Verdict| match verdict {
        Verdict::Over => 0,
        Verdict::TooClose => 1,
        Verdict::TooCold => 2,
        Verdict::Inside => 3,
    };
    let shares: Option<Vec<f64>> = judged
        .iter()
        .map(|judgement| judgement.chance_inside.map(|chance| chance.share))
        .collect();
    let share = |place: usize| shares.as_ref().map_or(0.0, |shares| shares[place]);
    (0..judged.len()).min_by(|&a, &b| {
        rank(judged[a].verdict)
            .cmp(&rank(judged[b].verdict))
            .then(share(a).total_cmp(&share(b)))
            .then(judged[a].margin_k.total_cmp(&judged[b].margin_k))
    })
}
