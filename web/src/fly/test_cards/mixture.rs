//! The mixture on a card: which one, how to check it, and what the other would give. Pure.

use crate::kit::format;
use coolpath_core::answer::evaluate::{Answer, evaluate};
use coolpath_core::document::condition::{Mixture, Phase};
use coolpath_core::document::design::Design;
use coolpath_core::engine::egt;
use coolpath_core::language::tr;
use coolpath_core::units::si::deltaf;
use coolpath_core::units::typed::{Dimension, UnitSystem};

/// What a card is flown with, and what full rich gives beside it.
pub struct Mixtures {
    /// With the card's own mixture.
    pub answer: Answer,
    /// At full rich, where the card is flown leaner.
    pub rich: Option<Answer>,
    /// Whether it is the leanest that is recommended for climb.
    pub is_climb: bool,
}

fn with(design: &Design, place: usize, mixture: Mixture) -> Option<Answer> {
    let mut other = design.clone();
    other.conditions.get_mut(place)?.mixture = mixture;
    evaluate(&other, place).ok()
}

/// The mixtures of a condition.
///
/// A climb for certification is flown at the leanest mixture recommended for it (14 CFR
/// 23.1043(a)(5) of 2014, read in excerpt). A condition at full rich takes best power instead, some 125 °F rich of peak (common
/// practice), since the manual's own is not known here.
pub fn of(design: &Design, place: usize, own: &Answer) -> Mixtures {
    let condition = design.conditions.get(place);
    let is_climb = condition.is_some_and(|condition| condition.phase == Phase::Climb);
    let is_rich = condition.is_some_and(|condition| condition.mixture == Mixture::FullRich);
    if !is_climb {
        return Mixtures {
            answer: own.clone(),
            rich: None,
            is_climb,
        };
    }
    let lean = is_rich
        .then(|| with(design, place, Mixture::BestPower))
        .flatten();
    let rich = if is_rich {
        Some(own.clone())
    } else {
        with(design, place, Mixture::FullRich)
    };
    Mixtures {
        answer: lean.unwrap_or_else(|| own.clone()),
        rich,
        is_climb,
    }
}

/// How far the exhaust stands below its peak, and on which side, K.
fn from_peak(design: &Design, answer: &Answer) -> (f64, &'static str) {
    let ratio = answer.mixture / design.installation.engine.peak_egt;
    let side = if ratio < 1.0 { tr("lean") } else { tr("rich") };
    (-egt::below_peak(ratio), side)
}

fn by(design: &Design, answer: &Answer, system: UnitSystem) -> String {
    let (below, side) = from_peak(design, answer);
    let flow = answer.fuel_on_gauge_m3_s(&design.installation.engine);
    let flow = format::quantity(flow, Dimension::FuelFlow, system, 3);
    // The curve is no finer than a few degrees.
    if below < deltaf(5.0) {
        return tr!("EGT at its peak, or {}", flow);
    }
    let apart = format::difference(below, system);
    tr!("EGT {} {} of peak, or {}", apart, side, flow)
}

/// Lines of what to set.
pub fn settings(
    design: &Design,
    mixtures: &Mixtures,
    system: UnitSystem,
) -> Vec<(&'static str, String)> {
    let check = by(design, &mixtures.answer, system);
    if mixtures.is_climb {
        vec![
            (
                tr("Mixture"),
                tr("leanest recommended for climb (manual)").to_owned(),
            ),
            (tr("Check it by"), check),
        ]
    } else {
        vec![(tr("Mixture"), check)]
    }
}

/// What full rich would give, beside what is expected.
pub fn beside(
    design: &Design,
    mixtures: &Mixtures,
    system: UnitSystem,
) -> Option<(&'static str, String)> {
    let rich = mixtures.rich.as_ref()?;
    let flow = rich.fuel_on_gauge_m3_s(&design.installation.engine);
    Some((
        tr("At full rich"),
        tr!(
            "hottest head {} at {}",
            format::temperature(rich.head_hottest.value, system),
            format::quantity(flow, Dimension::FuelFlow, system, 3)
        ),
    ))
}
