//! Where the model has left its ground, so that an answer is no prediction: looked at once, when a condition
//! is answered; the warnings say it and the verdict counts it.
//!
//! Of each temperature that has several readings the one that is worse counts: the hottest head as its probe
//! reads it; the oil at the gauge and where it is hottest; the mean head by the model and by its probes; the
//! air of both decks.

use crate::document::condition::Phase;
use crate::language::tr;
use crate::path::network::Cowl;
use crate::path::state::State;
use crate::units::si::{degf, inh2o};

/// Head above which the model has left its ground, K: aluminium is soft there (common practice).
const HEAD_K: f64 = degf(550.0);
/// Oil above which the model has left its ground, K (common practice).
const OIL_K: f64 = degf(300.0);
/// Exits over inlets below which the model has left its ground [-] (from memory; exits are commonly one to
/// one and a half times the inlets).
const EXIT: f64 = 0.1;

/// Total pressure before the inlets on the ground, Pa, below which next to nothing drives the air: a tenth of an inch
/// of water, a breeze of some 12 kt. A propeller before the inlets gives more even at idle (from memory).
const REST_PA: f64 = inh2o(0.1);

/// What makes an answer unbelievable.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Absurd {
    /// A head or the oil is no number.
    NotFinite,
    /// The hottest head is over 550 °F.
    Heads,
    /// The oil is over 300 °F.
    Oil,
    /// The oil is hotter than the mean head.
    OilAboveHeads,
    /// The air of a deck is hotter than the mean head.
    AirAboveHeads,
    /// On the ground next to nothing drives the air, and what comes out is no prediction.
    AtRest {
        /// Whether heads or oil come out beyond what any engine stands.
        too_hot: bool,
    },
    /// The exits have less than a tenth of the inlets' area.
    Exit {
        /// Exits over inlets [-].
        ratio: f64,
    },
}

/// What the instruments of a solved condition show.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shown {
    /// Hottest head as its probe reads it, K.
    pub hottest_k: f64,
    /// Mean head as the probes read it, K.
    pub mean_k: f64,
    /// Oil at the gauge, K.
    pub gauge_k: f64,
}

/// Whether next to nothing drives the air on the ground.
fn is_at_rest(cowl: &Cowl, phase: Phase) -> bool {
    let mut inlets = cowl.inlets.as_slice().iter();
    phase == Phase::Ground && inlets.all(|inlet| inlet.ram_pa < REST_PA)
}

/// Those that are.
fn named<const N: usize>(judged: [(bool, Absurd); N]) -> Vec<Absurd> {
    let those = judged
        .into_iter()
        .filter_map(|(is, what)| is.then_some(what));
    those.collect()
}

impl Absurd {
    /// What is absurd in a solved condition; empty in an ordinary one.
    ///
    /// Where on the ground next to nothing drives the air, that stands for all temperatures: no input is wrong.
    #[must_use]
    pub fn of(cowl: &Cowl, state: &State, phase: Phase, shown: Shown) -> Vec<Self> {
        let Shown {
            hottest_k,
            mean_k,
            gauge_k,
        } = shown;
        let hot_oil_k = state.trial.oil_k;
        let oil_k = gauge_k.max(hot_oil_k);
        let head_k = mean_k.min(state.head_k);
        let air_k = state.lower_k.max(state.upper_k);
        let inlets: f64 = cowl.inlets.as_slice().iter().map(|at| at.area_m2).sum();
        let exits: f64 = cowl.exits.as_slice().iter().map(|at| at.area_m2).sum();
        let ratio = exits / inlets;
        let all_finite = [hottest_k, mean_k, state.head_k, gauge_k, hot_oil_k]
            .iter()
            .all(|kelvin| kelvin.is_finite());
        let temperatures = [
            (hottest_k > HEAD_K, Self::Heads),
            (oil_k > OIL_K, Self::Oil),
            (oil_k > head_k, Self::OilAboveHeads),
            (air_k > head_k, Self::AirAboveHeads),
        ];
        let mut found = named([(!all_finite, Self::NotFinite)]);
        let temperatures = named(temperatures);
        if is_at_rest(cowl, phase) && !temperatures.is_empty() {
            let too_hot = temperatures.iter().any(|what| what.is_over());
            found.push(Self::AtRest { too_hot });
        } else {
            found.extend(temperatures);
        }
        found.extend(named([(ratio < EXIT, Self::Exit { ratio })]));
        found
    }

    /// Whether it is too hot, whatever the limits say.
    #[must_use]
    pub fn is_over(self) -> bool {
        matches!(
            self,
            Self::NotFinite | Self::Heads | Self::Oil | Self::AtRest { too_hot: true }
        )
    }

    /// Short name for files.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::NotFinite => "not_finite",
            Self::Heads => "heads_absurd",
            Self::Oil => "oil_absurd",
            Self::OilAboveHeads => "oil_above_heads",
            Self::AirAboveHeads => "air_above_heads",
            Self::AtRest { .. } => "at_rest",
            Self::Exit { .. } => "exit_absurd",
        }
    }

    /// What it means, in a sentence.
    pub(super) fn sentence(self) -> String {
        match self {
            Self::NotFinite => tr(
                "A temperature could not be computed: nothing here is a prediction. \
                 Look for a wrong input first.",
            )
                .to_owned(),
            Self::Heads | Self::Oil | Self::OilAboveHeads => {
                tr(
                    "No engine runs this hot for long. The numbers are not a prediction here; what is certain \
                     is that the engine cannot be cooled this way. Look for a wrong input first.",
                )
                    .to_owned()
            }
            Self::AirAboveHeads => tr(
                "The air in the cowl comes out hotter than the heads that warm \
                 it: next to none flows. The numbers are no prediction; look for a closed or missing opening.",
            )
                .to_owned(),
            Self::AtRest { .. } => tr(
                "At rest, with no wind or little of it, next to nothing drives the air through this cowl: \
                 nothing is predicted here. Face the wind and keep the ground run short; the limits of your \
                 engine's manual come first.",
            )
                .to_owned(),
            Self::Exit { ratio } => tr!(
                "The exits have {:.0} % of the inlets' area: no cowl is built so, and the numbers \
                 are no prediction. Look for a wrong dimension.",
                100.0 * ratio
            ),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answer::evaluate::{Answer, evaluate};
    use crate::document::example;

    fn shown(answer: &Answer) -> Shown {
        Shown {
            hottest_k: answer.head_hottest.value,
            mean_k: answer.head_mean.value,
            gauge_k: answer.oil.value,
        }
    }

    #[test]
    fn of_each_temperature_the_worse_reading_counts() {
        let answer = evaluate(&example::design(), 4).expect("an answer");
        let usual = shown(&answer);
        let of = |change: &dyn Fn(&mut State, &mut Shown)| {
            let (mut state, mut shown) = (answer.state, usual);
            change(&mut state, &mut shown);
            Absurd::of(&answer.cowl, &state, answer.phase, shown)
        };
        assert_eq!(of(&|_, _| {}), []);
        for kelvin in [HEAD_K - 0.1, HEAD_K + 0.1] {
            let expected = if kelvin > HEAD_K {
                vec![Absurd::Heads]
            } else {
                vec![]
            };
            assert_eq!(of(&|_, shown| shown.hottest_k = kelvin), expected);
        }
        let hot = OIL_K + 0.1;
        // Heads hot enough to stay above the oil.
        let above = OIL_K + 1.0;
        let warm = |state: &mut State, shown: &mut Shown| {
            (state.head_k, shown.mean_k) = (above, above);
        };
        let oil = [Absurd::Oil];
        assert_eq!(
            of(&|state, shown| {
                warm(state, shown);
                shown.gauge_k = hot
            }),
            oil
        );
        assert_eq!(
            of(&|state, shown| {
                warm(state, shown);
                state.trial.oil_k = hot
            }),
            oil
        );
        assert_eq!(of(&warm), []);

        let below = usual.gauge_k.max(answer.state.trial.oil_k) - 0.1;
        let cool = [Absurd::OilAboveHeads];
        assert_eq!(of(&|state, _| state.head_k = below), cool);
        assert_eq!(of(&|_, shown| shown.mean_k = below), cool);
        let air_k = usual.mean_k.min(answer.state.head_k) + 0.1;
        let air = [Absurd::AirAboveHeads];
        assert_eq!(of(&|state, _| state.lower_k = air_k), air);
        assert_eq!(of(&|state, _| state.upper_k = air_k), air);
        assert_eq!(
            of(&|_, shown| shown.hottest_k = f64::NAN),
            [Absurd::NotFinite]
        );
    }
}
