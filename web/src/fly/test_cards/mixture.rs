//! The mixture on a card: which one, how to check it, and what the other would give. Pure.

use crate::kit::format;
use coolpath_core::answer::evaluate::{Answer, evaluate};
use coolpath_core::document::condition::{Mixture, Phase};
use coolpath_core::document::design::Design;
use coolpath_core::engine::egt;
use coolpath_core::language::tr;
use coolpath_core::units::si::deltaf;
use coolpath_core::units::typed::{Dimension, UnitSystem};

/// What a card is flown with, and what the leanest mixture for climb gives beside it.
pub struct Mixtures {
    /// With the condition's own mixture.
    pub answer: Answer,
    /// A rich climb leaned to best power.
    pub leaned: Option<Answer>,
}

fn with(design: &Design, place: usize, mixture: Mixture) -> Option<Answer> {
    let mut other = design.clone();
    other.conditions.get_mut(place)?.mixture = mixture;
    evaluate(&other, place).ok()
}

/// The mixtures of a condition.
///
/// A climb for certification is flown at the leanest mixture recommended for it (14 CFR
/// 23.1043(a)(5) of 2014, read in excerpt). What that is, the manual says; best power, some 125 °F rich of peak (common
/// practice), stands for it here beside a climb that is planned at full rich.
pub fn of(design: &Design, place: usize, own: &Answer) -> Mixtures {
    let condition = design.conditions.get(place);
    let is_rich_climb = condition.is_some_and(|condition| {
        condition.phase == Phase::Climb && condition.mixture == Mixture::FullRich
    });
    Mixtures {
        answer: own.clone(),
        leaned: is_rich_climb
            .then(|| with(design, place, Mixture::BestPower))
            .flatten(),
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
    if mixtures.leaned.is_some() {
        vec![
            (tr("Mixture"), tr("full rich").to_owned()),
            (tr("Check it by"), check),
        ]
    } else {
        vec![(tr("Mixture"), check)]
    }
}

/// What the leanest mixture for climb would give, beside what is expected.
pub fn beside(mixtures: &Mixtures, system: UnitSystem) -> Option<(&'static str, String)> {
    let leaned = mixtures.leaned.as_ref()?;
    Some((
        tr("Leaned for climb"),
        tr!(
            "head {}, oil {}, if the manual recommends it",
            format::temperature(leaned.head_hottest.value, system),
            format::temperature(leaned.oil.value, system)
        ),
    ))
}
