//! Sizing: how big inlets and exit must be to hold the limits in every condition.
//!
//! The builder's conditions are judged with the shutter fully open, which is the hardest case
//! for the heads (the cooler takes air from them) and the most that the oil can get. A size is
//! nominal, or robust when each limit is lowered by an [`Allowance`] for what is not known.

mod allowance;
mod flap;
mod remedy;
mod search;

pub use allowance::{Allowance, allowance, normal_quantile};
pub use flap::{FlapSize, flap};
pub use remedy::{Remedy, remedies};
pub use search::{Found, inlets_for_velocity_ratio, least_drag, smallest_exit};

use crate::answer::band::figures;
use crate::answer::evaluate::{EvaluateError, Limit, Solved, solved};
use crate::document::condition::{Condition, Phase, ShutterPolicy};
use crate::document::design::Design;
use crate::document::installation::Installation;
use crate::path::drag;

/// How far the openings may be changed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// Area of all inlets together, m²; equal ends lock it.
    pub inlets_m2: (f64, f64),
    /// Net area of the first exit, flap closed, m²; equal ends lock it.
    pub exit_m2: (f64, f64),
}

/// What must hold.
#[derive(Debug, Clone, PartialEq)]
pub struct Demand {
    /// What each condition's limits are lowered by, in the order of the conditions.
    pub allowances: Vec<Allowance>,
    /// Least pressure across the baffles in every condition with airspeed, Pa; zero asks nothing.
    pub least_drop_pa: f64,
}

impl Demand {
    /// Limits as they stand, without any allowance.
    #[must_use]
    pub fn nominal(design: &Design) -> Self {
        Self {
            allowances: vec![Allowance::default(); design.conditions.len()],
            least_drop_pa: 0.0,
        }
    }
}

/// Which demand is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wanted {
    /// A temperature limit.
    Limit(Limit),
    /// The least pressure across the baffles.
    Drop,
}

/// How far a condition lies inside a demand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Margin {
    /// The condition's place.
    pub condition: usize,
    /// The demand.
    pub wanted: Wanted,
    /// Inside it by so much, K or Pa; negative outside.
    pub by: f64,
    /// The same over a scale that makes demands comparable [-]: 10 K, or 100 Pa.
    pub scaled: f64,
}

const SCALE_K: f64 = 10.0;
const SCALE_PA: f64 = 100.0;

/// Why no size was found.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum SizeError {
    /// A condition has no answer.
    Evaluate(EvaluateError),
    /// Not even the best permitted sizes hold a limit.
    OutOfReach {
        /// What is missed most.
        shortfall: Margin,
        /// Inlet area of the best permitted sizes, m².
        inlets_m2: f64,
        /// Exit area of the best permitted sizes, m².
        exit_m2: f64,
    },
    /// The condition that was named does not move, or does not exist.
    NoAirspeed {
        /// Its place.
        condition: usize,
    },
    /// No inlet within the bounds has this velocity ratio.
    RatioOutOfReach {
        /// Ratio with the smallest inlets [-].
        smallest: f64,
        /// Ratio with the largest inlets [-].
        largest: f64,
    },
    /// Bounds are not positive or out of order.
    Bounds,
}

impl core::fmt::Display for SizeError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::Evaluate(error) => error.fmt(f),
            Self::OutOfReach { .. } => f.write_str("No size within your bounds holds every limit."),
            Self::NoAirspeed { .. } => f.write_str(
                "A velocity ratio needs a condition with airspeed: at rest there is none.",
            ),
            Self::RatioOutOfReach { smallest, largest } => write!(
                f,
                "Within your bounds the inlet velocity ratio lies between {largest:.2} and \
                 {smallest:.2}."
            ),
            Self::Bounds => f.write_str("Bounds must be areas above zero, the smaller one first."),
        }
    }
}

impl core::error::Error for SizeError {}

/// Area of all inlets, m².
#[must_use]
pub fn inlets_m2(installation: &Installation) -> f64 {
    installation
        .inlets
        .iter()
        .map(|inlet| inlet.area_m2())
        .sum()
}

/// Net area of the first exit with the flap closed, m².
#[must_use]
pub fn exit_m2(installation: &Installation) -> f64 {
    installation
        .exits
        .first()
        .map_or(0.0, |exit| exit.closed_area_m2())
}

/// The installation with other areas: all inlets grow alike and keep their proportions.
#[must_use]
pub fn resized(installation: &Installation, inlets: f64, exit: f64) -> Installation {
    let mut sized = installation.clone();
    let factor = inlets / inlets_m2(installation);
    for inlet in &mut sized.inlets {
        inlet.scale_area(factor);
    }
    if let Some(first) = sized.exits.first_mut() {
        first.set_closed_area(exit);
    }
    sized
}

/// The condition with the shutter fully open.
pub(crate) fn shutter_open(condition: &Condition) -> Condition {
    Condition {
        shutter: ShutterPolicy::Fixed,
        shutter_opening: 1.0,
        ..condition.clone()
    }
}

/// Solutions of all conditions from an earlier size, to start from.
pub(crate) type Warm = Vec<Option<Solved>>;

/// A design's conditions, ready to be judged at many sizes.
pub(crate) struct Judge<'a> {
    conditions: Vec<Condition>,
    demand: &'a Demand,
    /// Places of the conditions that count.
    pub(crate) places: Vec<usize>,
}

impl<'a> Judge<'a> {
    pub(crate) fn new(design: &Design, demand: &'a Demand) -> Self {
        Self {
            conditions: design.conditions.iter().map(shutter_open).collect(),
            demand,
            places: (0..design.conditions.len()).collect(),
        }
    }

    /// The least margin of one condition.
    pub(crate) fn margin(
        &self,
        installation: &Installation,
        place: usize,
        warm: &mut Warm,
    ) -> Result<Margin, SizeError> {
        let condition = &self.conditions[place];
        let found =
            solved(installation, condition, warm[place].as_ref()).map_err(SizeError::Evaluate)?;
        warm[place] = Some(found);
        let figures = figures(installation, &found);
        let allowance = self
            .demand
            .allowances
            .get(place)
            .copied()
            .unwrap_or_default();
        let engine = &installation.engine;
        let kelvin = |limit, by: f64| Margin {
            condition: place,
            wanted: Wanted::Limit(limit),
            by,
            scaled: by / SCALE_K,
        };
        let head = engine.head_limit.value - figures.head_hottest - allowance.head_k;
        let oil = engine.oil_limit.value - figures.oil - allowance.oil_k;
        let mut least = if head <= oil {
            kelvin(Limit::Head, head)
        } else {
            kelvin(Limit::Oil, oil)
        };
        if self.demand.least_drop_pa > 0.0 && condition.phase != Phase::Ground {
            let by = figures.baffle_drop - self.demand.least_drop_pa;
            if by / SCALE_PA < least.scaled {
                least = Margin {
                    condition: place,
                    wanted: Wanted::Drop,
                    by,
                    scaled: by / SCALE_PA,
                };
            }
        }
        Ok(least)
    }

    /// The least margin of all conditions that count.
    pub(crate) fn worst(
        &self,
        installation: &Installation,
        warm: &mut Warm,
    ) -> Result<Margin, SizeError> {
        let mut worst: Option<Margin> = None;
        for &place in &self.places {
            let margin = self.margin(installation, place, warm)?;
            if worst.is_none_or(|so_far| margin.scaled < so_far.scaled) {
                worst = Some(margin);
            }
        }
        worst.ok_or(SizeError::Bounds)
    }
}

/// Mean cooling drag of the level conditions, N, as the builder flies them; of all conditions
/// with airspeed if none is level.
///
/// # Errors
/// [`EvaluateError`] if one of them has no answer.
pub fn cruise_drag_n(design: &Design, installation: &Installation) -> Result<f64, EvaluateError> {
    let level = |condition: &&Condition| condition.phase == Phase::Cruise;
    let mut chosen: Vec<&Condition> = design.conditions.iter().filter(level).collect();
    if chosen.is_empty() {
        chosen = design
            .conditions
            .iter()
            .filter(|condition| condition.airspeed.value > 0.0)
            .collect();
    }
    let mut sum = 0.0;
    for condition in &chosen {
        let found = solved(installation, condition, None)?;
        sum += figures(installation, &found).drag;
    }
    Ok(sum / chosen.len().max(1) as f64)
}

/// Speed, m/s, that a change of mean cruise drag, N, is worth in the first level condition.
#[must_use]
pub fn cruise_speed_of(design: &Design, drag_n: f64) -> Option<f64> {
    let condition = design
        .conditions
        .iter()
        .find(|condition| condition.phase == Phase::Cruise)?;
    let found = solved(&design.installation, condition, None).ok()?;
    drag::speed_cost(
        found.prepared.cowl.stream.speed_m_s,
        drag_n,
        design.installation.airframe.induced_share,
        found.prepared.thrust_n,
    )
}

/// Hottest head of all conditions, K, at one inlet area over a list of exit areas, m²; `None`
/// where a condition has no answer.
#[must_use]
pub fn hottest_heads(design: &Design, inlets_m2: f64, exits_m2: &[f64]) -> Vec<Option<f64>> {
    let conditions: Vec<Condition> = design.conditions.iter().map(shutter_open).collect();
    let mut warm: Warm = vec![None; conditions.len()];
    exits_m2
        .iter()
        .map(|&exit| {
            let sized = resized(&design.installation, inlets_m2, exit);
            let mut hottest = f64::NEG_INFINITY;
            for (condition, warm) in conditions.iter().zip(&mut warm) {
                let found = solved(&sized, condition, warm.as_ref()).ok()?;
                hottest = hottest.max(figures(&sized, &found).head_hottest);
                *warm = Some(found);
            }
            Some(hottest)
        })
        .collect()
}
