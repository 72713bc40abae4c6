//! The three-state verdict: inside, too close to call, over; and what stands beside them.
//!
//! Shape and word carry a state, colour only helps. The core judges; here stand its words and marks.

use crate::kit::format;
use coolpath_core::answer::band::Bands;
use coolpath_core::answer::evaluate::{Answer, Limit};
use coolpath_core::answer::verdict;
use coolpath_core::answer::verdict::{
    DEFAULT_CHANCE, Judgement, Verdict as Judged, judge, odds_step,
};
use coolpath_core::document::installation::Installation;
use coolpath_core::document::limits::Held;
use coolpath_core::language::{tr, tr_later};
use coolpath_core::units::typed::UnitSystem;
use yew::prelude::*;

/// State of a condition.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum State {
    /// The chance of holding both limits is at least the wanted one.
    Inside,
    /// Neither inside nor over.
    TooClose,
    /// The best estimate is over a limit, or the chance is below one half.
    Over,
    /// Oil stays so cold that it is warned of.
    TooCold,
    /// The condition cannot be solved.
    NoAnswer,
}

impl State {
    /// Style class.
    #[must_use]
    pub fn class(self) -> &'static str {
        match self {
            Self::Inside => "state-inside",
            Self::TooClose => "state-close",
            Self::Over => "state-over",
            Self::TooCold => "state-cold",
            Self::NoAnswer => "state-none",
        }
    }

    /// The state in words, as a sentence begins.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Inside => tr("Inside limits"),
            Self::TooClose => tr("Too close to call"),
            Self::Over => tr("Too hot"),
            Self::TooCold => tr("Too cold"),
            Self::NoAnswer => tr("No answer"),
        }
    }
}

impl From<Judged> for State {
    fn from(verdict: Judged) -> Self {
        match verdict {
            Judged::Inside => Self::Inside,
            Judged::TooCold => Self::TooCold,
            Judged::TooClose => Self::TooClose,
            Judged::Over => Self::Over,
        }
    }
}

/// What is said of one condition.
#[derive(Debug, Clone, PartialEq)]
pub struct Verdict {
    /// State.
    pub state: State,
    /// What the core says.
    pub judgement: Judgement,
    /// Best estimate of the quantity with the worse odds, K.
    pub value_k: f64,
    /// Its limit, and what that is called.
    pub limit: (&'static str, f64),
}

impl Verdict {
    /// The state in words; what is likely beyond a limit but not by the best estimate is told apart.
    #[must_use]
    pub fn words(&self) -> &'static str {
        if self.judgement.against_least && self.value_k >= self.limit.1 {
            return match self.state {
                State::TooCold => tr("Likely too cold"),
                _ => tr("May be too cold"),
            };
        }
        if self.state == State::Over && self.value_k <= self.limit.1 {
            return tr("Likely too hot");
        }
        self.state.words()
    }

    /// The chance by which it stands; `None` until the bands are known.
    #[must_use]
    pub fn chance(&self) -> Option<f64> {
        self.judgement.chance().map(|chance| chance.share)
    }
}

/// The verdict on an answer.
#[must_use]
pub fn of(installation: &Installation, answer: &Answer, bands: Option<&Bands>) -> Verdict {
    let found = judge(installation, answer, bands, None, DEFAULT_CHANCE);
    let named = |held: Held| (held.kind.words(), held.kelvin);
    let (value_k, limit) = match found.worse {
        Limit::Head => (answer.head_hottest.value, named(found.limits.head)),
        Limit::Oil if found.against_least => {
            let least_k = installation.engine.oil_minimum.value;
            (answer.oil.value, (tr("minimum"), least_k))
        }
        Limit::Oil => (answer.oil.value, named(found.limits.oil)),
    };
    Verdict {
        state: found.verdict.into(),
        judgement: found,
        value_k,
        limit,
    }
}

/// Place of the worst verdict, one without an answer before all others.
#[must_use]
pub fn worst(verdicts: &[Option<Verdict>]) -> Option<usize> {
    verdict::worst(
        verdicts
            .iter()
            .map(|found| found.as_ref().map(|found| &found.judgement)),
    )
}

/// What a limit's quantity is called.
#[must_use]
pub fn quantity(limit: Limit) -> &'static str {
    match limit {
        Limit::Head => tr("CHT"),
        Limit::Oil => tr("oil"),
    }
}

/// The quantity and its limit, such as "CHT 455 °F, limit 435 °F".
#[must_use]
pub fn against_limit(verdict: &Verdict, system: UnitSystem) -> String {
    format!(
        "{} {}, {} {}",
        quantity(verdict.judgement.worse),
        format::temperature(verdict.value_k, system),
        verdict.limit.0,
        format::degrees(verdict.limit.1, system)
    )
}

/// A chance as a person says it, such as "about 1 in 2".
#[must_use]
pub fn odds(chance: f64) -> &'static str {
    const WORDS: [&str; 21] = [
        tr_later("under 1 in 20"),
        tr_later("about 1 in 20"),
        tr_later("about 1 in 10"),
        tr_later("about 1 in 7"),
        tr_later("about 1 in 5"),
        tr_later("about 1 in 4"),
        tr_later("about 3 in 10"),
        tr_later("about 1 in 3"),
        tr_later("about 2 in 5"),
        tr_later("nearly 1 in 2"),
        tr_later("about 1 in 2"),
        tr_later("just over 1 in 2"),
        tr_later("about 3 in 5"),
        tr_later("about 2 in 3"),
        tr_later("about 7 in 10"),
        tr_later("about 3 in 4"),
        tr_later("about 4 in 5"),
        tr_later("about 6 in 7"),
        tr_later("about 9 in 10"),
        tr_later("about 19 in 20"),
        tr_later("over 19 in 20"),
    ];
    tr(WORDS[odds_step(chance) as usize])
}

/// A state's mark: disc and tick, diamond and two waves, triangle, snow star, ring.
pub fn mark(state: State, size: u32) -> Html {
    let shapes = match state {
        State::Inside => html! { <>
            <circle cx="12" cy="12" r="10" /><path class="sign" d="M7 12.5l3.4 3.4L17 9" />
        </> },
        State::TooClose => html! { <>
            <path d="M12 1.5 22.5 12 12 22.5 1.5 12Z" />
            <path class="sign" d="M7 10.5c1.7-1.6 3.3-1.6 5 0s3.3 1.6 5 0M7 14.5c1.7-1.6 3.3-1.6 5 0s3.3 1.6 5 0" />
        </> },
        State::Over => html! { <>
            <path d="M12 2 23 21.5H1Z" /><path class="sign" d="M12 9v5.5M12 17.8v.4" />
        </> },
        State::TooCold => html! { <>
            <rect x="2" y="2" width="20" height="20" rx="3" />
            <path class="sign" d="M12 5.5v13M6.4 8.75l11.2 6.5M17.6 8.75l-11.2 6.5" />
        </> },
        State::NoAnswer => html! { <>
            <circle class="hollow" cx="12" cy="12" r="9.5" /><path class="sign dark" d="M7.5 12h9" />
        </> },
    };
    html! {
        <svg class={classes!("state-mark", state.class())} width={size.to_string()} height={size.to_string()} viewBox="0 0 24 24" aria-hidden="true">{ shapes }</svg>
    }
}

/// A chance as twenty boxes.
pub fn odds_boxes(chance: f64) -> Html {
    let full = odds_step(chance);
    html! {
        <svg class="odds" viewBox="-.5 -.5 126.5 13" aria-hidden="true">
            { for (0..20).map(|at| html! {
                <rect x={format!("{:.1}", 6.3 * f64::from(at))} y="0" width="4.8" height="12" rx="1" class={if at < full { "full" } else { "empty" }} />
            }) }
        </svg>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::answer::band::bands;
    use coolpath_core::answer::evaluate::evaluate;
    use coolpath_core::document::example;
    use coolpath_core::document::installation::SecondLimit;
    use coolpath_core::units::quantity::kelvin;
    use coolpath_core::units::si::degf;

    #[test]
    fn the_examples_climb_is_over_and_generous_limits_are_inside() {
        let mut design = example::design();
        let spread = bands(&design, 1).expect("bands");
        let answer = evaluate(&design, 1).expect("an answer");
        let found = of(&design.installation, &answer, Some(&spread));
        assert_eq!(
            (found.state, found.judgement.worse),
            (State::Over, Limit::Head)
        );
        assert!(found.chance().is_some_and(|chance| chance < 0.5));
        assert!(against_limit(&found, UnitSystem::Customary).contains("°F, limit 385 °F"));
        // Without bands nothing is inside, and what is over stays so.
        assert_eq!(of(&design.installation, &answer, None).state, State::Over);
        let engine = &mut design.installation.engine;
        engine.head_limit = kelvin(585.0);
        engine.oil_limit = kelvin(430.0);
        let answer = evaluate(&design, 1).expect("an answer");
        let found = of(&design.installation, &answer, Some(&spread));
        assert_eq!(found.state, State::Inside);
    }

    #[test]
    fn a_lower_limit_is_named_beside_its_number() {
        let mut design = example::design();
        let engine = &mut design.installation.engine;
        engine.head_second = SecondLimit::Personal;
        engine.head_second_limit = kelvin(degf(350.0));
        let answer = evaluate(&design, 1).expect("an answer");
        let found = of(&design.installation, &answer, None);
        let said = against_limit(&found, UnitSystem::Customary);
        assert!(said.ends_with(", personal limit 350 °F"), "{said}");
        let over = degf(350.0) - answer.head_hottest.value;
        assert!((answer.head_margin.value - over).abs() < 1e-9);
    }

    #[test]
    fn odds_come_in_twentieths_with_open_ends_and_never_flatter() {
        assert_eq!(odds(0.51), "about 1 in 2");
        assert_eq!(odds(0.15), "about 1 in 7");
        assert_eq!(odds(0.149), "about 1 in 10");
        assert_eq!(odds(0.01), "under 1 in 20");
        assert_eq!(odds(0.97), "over 19 in 20");
    }
}
