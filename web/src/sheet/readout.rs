//! What the drawing shows of an answer, in SI.

use coolpath_core::answer::band::Bands;
use coolpath_core::answer::evaluate::{Answer, Limit};
use coolpath_core::answer::verdict::{DEFAULT_CHANCE, Judgement, Verdict, judge};
use coolpath_core::document::installation::Installation;
use coolpath_core::language::tr;

/// How a temperature stands to its limit; shape and word carry it, never colour alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum State {
    /// Inside its limit with the chosen chance.
    Inside,
    /// Too close to call.
    Close,
    /// Over its limit.
    Over,
    /// More likely over its limit than not, but not by the best estimate.
    LikelyOver,
    /// Below its minimum.
    TooCold,
}

impl State {
    /// Name in style classes.
    #[must_use]
    pub fn class(self) -> &'static str {
        match self {
            Self::Inside => "clear",
            Self::Close => "close",
            Self::Over | Self::LikelyOver => "over",
            Self::TooCold => "cold",
        }
    }

    /// In words.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Inside => tr("inside its limit"),
            Self::Close => tr("too close to call"),
            Self::Over => tr("over its limit"),
            Self::LikelyOver => tr("likely over its limit"),
            Self::TooCold => tr("too cold"),
        }
    }
}

/// A temperature and its state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Judged {
    /// Temperature, K.
    pub kelvin: f64,
    /// Its state; none where it was not judged.
    pub state: Option<State>,
}

/// Pressures, flows and temperatures of one condition.
#[derive(Debug, Clone, PartialEq)]
pub struct Readout {
    /// Outside air, K.
    pub outside_k: f64,
    /// Total pressure before the first inlet, Pa above static.
    pub ram_pa: f64,
    /// Upper deck, Pa above static.
    pub upper_pa: f64,
    /// Upper deck, K.
    pub upper_k: f64,
    /// Lower deck, Pa above static.
    pub lower_pa: f64,
    /// Lower deck, K.
    pub lower_k: f64,
    /// Air before the fins, K.
    pub before_fins_k: f64,
    /// Air behind the fins, K.
    pub behind_fins_k: f64,
    /// Air before the cooler, K.
    pub before_cooler_k: f64,
    /// Air behind the cooler, K.
    pub behind_cooler_k: f64,
    /// Each inlet, kg/s, positive inward.
    pub inlets_kg_s: Vec<f64>,
    /// Through the fins, kg/s, positive downward.
    pub fin_kg_s: f64,
    /// Through the cooler, kg/s, positive from its supply.
    pub cooler_kg_s: f64,
    /// Past the seals, kg/s, positive downward.
    pub seal_kg_s: f64,
    /// Through the blast tubes, kg/s, positive downward.
    pub blast_kg_s: f64,
    /// Through leaks to the outside, kg/s, positive outward.
    pub overboard_kg_s: f64,
    /// Cabin air, kg/s, positive from the upper deck.
    pub cabin_kg_s: f64,
    /// Induction air from the upper deck, kg/s.
    pub induction_kg_s: f64,
    /// Through leaks into the lower deck, kg/s, positive inward.
    pub inflow_kg_s: f64,
    /// Each exit, kg/s, positive outward.
    pub exits_kg_s: Vec<f64>,
    /// Hottest head.
    pub head: Judged,
    /// Which cylinder of the left bank is the hottest, if that is known.
    pub hottest: Option<usize>,
    /// Oil at the gauge.
    pub oil: Judged,
    /// Shares of the driving pressure that inlets, cylinders and exit use up, if all use some.
    pub pressure_shares: Option<[f64; 3]>,
}

impl Readout {
    /// What an answer says, with the states of its two temperatures.
    #[must_use]
    pub fn of(answer: &Answer, head: Option<State>, oil: Option<State>) -> Self {
        let (cowl, state) = (&answer.cowl, &answer.state);
        let inlets = cowl.inlets.as_slice().len();
        let exits = cowl.exits.as_slice().len();
        Self {
            outside_k: answer.outside_air.value,
            ram_pa: answer.ram.value,
            upper_pa: answer.upper_deck.value,
            upper_k: answer.upper_deck_air.value,
            lower_pa: answer.lower_deck.value,
            lower_k: answer.lower_deck_air.value,
            before_fins_k: state.fins.in_k,
            behind_fins_k: answer.behind_fins.value,
            before_cooler_k: state.cooler.in_k,
            behind_cooler_k: state.cooler.out_k,
            inlets_kg_s: state.inlets.iter().copied().take(inlets).collect(),
            fin_kg_s: answer.fin_flow.value,
            cooler_kg_s: answer.cooler_flow.value,
            seal_kg_s: answer.leak_flow.value,
            blast_kg_s: state.blast_kg_s,
            overboard_kg_s: state.overboard_kg_s,
            cabin_kg_s: state.cabin_kg_s,
            induction_kg_s: cowl.induction_kg_s,
            inflow_kg_s: state.inflow_kg_s,
            exits_kg_s: state
                .exits
                .iter()
                .take(exits)
                .map(|exit| exit.flow_kg_s)
                .collect(),
            head: Judged {
                kelvin: answer.head_hottest.value,
                state: head,
            },
            hottest: None,
            oil: Judged {
                kelvin: answer.oil.value,
                state: oil,
            },
            pressure_shares: pressure_shares(answer),
        }
    }

    /// As [`Readout::of`], judged by the condition's verdict: the quantity with the worse odds has
    /// its state, the other the state of its own chance, never a worse one.
    #[must_use]
    pub fn judged(installation: &Installation, answer: &Answer, bands: Option<&Bands>) -> Self {
        let found = judge(installation, answer, bands, None, DEFAULT_CHANCE);
        let state = |limit: Limit| Some(state_of(&found, limit));
        Self::of(answer, state(Limit::Head), state(Limit::Oil))
    }

    /// As [`Readout::of`] where no chance is known: only what is over its limit is marked.
    #[must_use]
    pub fn nominal(answer: &Answer) -> Self {
        let by = |margin: f64| (margin < 0.0).then_some(State::Over);
        Self::of(
            answer,
            by(answer.head_margin.value),
            by(answer.oil_margin.value),
        )
    }

    /// Air through all inlets, kg/s.
    #[must_use]
    pub fn inlet_kg_s(&self) -> f64 {
        self.inlets_kg_s.iter().sum()
    }

    /// Air through all exits, kg/s.
    #[must_use]
    pub fn exit_kg_s(&self) -> f64 {
        self.exits_kg_s.iter().sum()
    }

    /// Whether the lower deck pushes back on the upper.
    #[must_use]
    pub fn pushed_back(&self) -> bool {
        self.upper_pa < self.lower_pa
    }
}

/// How one quantity stands in a condition that was judged.
fn state_of(found: &Judgement, limit: Limit) -> State {
    if limit == Limit::Oil && found.oil_too_cold {
        return State::TooCold;
    }
    let over = |margin_k: f64| {
        if margin_k >= 0.0 && found.absurd.is_empty() {
            State::LikelyOver
        } else {
            State::Over
        }
    };
    let whole = match found.verdict {
        Verdict::Inside => State::Inside,
        Verdict::TooCold | Verdict::TooClose => State::Close,
        Verdict::Over => over(found.margin_k),
    };
    if found.worse == limit {
        return whole;
    }
    let alone = match limit {
        Limit::Head => found.head,
        Limit::Oil => found.oil,
    };
    let sound = found.open.is_none() && found.absurd.is_empty();
    if alone.is_over() {
        over(alone.margin_k)
    } else if sound && alone.chance.is_some_and(|chance| chance >= DEFAULT_CHANCE) {
        State::Inside
    } else {
        State::Close
    }
}

/// Shares of the pressure used on the air's way; nothing where a part of it pushes back.
fn pressure_shares(answer: &Answer) -> Option<[f64; 3]> {
    let steps = answer.pressure_used_pa();
    let whole: f64 = steps.iter().sum();
    (whole > 0.0 && steps.iter().all(|step| *step >= 0.0)).then(|| steps.map(|step| step / whole))
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::{answer::evaluate::evaluate, document::example as demo};

    #[test]
    fn the_example_loses_no_air_on_its_way() {
        let readout = Readout::nominal(&evaluate(&demo::design(), 1).expect("solved"));
        let upper = readout.fin_kg_s
            + readout.cooler_kg_s
            + readout.seal_kg_s
            + readout.blast_kg_s
            + readout.overboard_kg_s
            + readout.cabin_kg_s
            + readout.induction_kg_s;
        assert!((readout.inlet_kg_s() - upper).abs() < 1e-6);
        let shares = readout.pressure_shares.expect("all three use some");
        assert!((shares.iter().sum::<f64>() - 1.0).abs() < 1e-9);
    }
}
