//! The band of oil that a shutter holds.
//!
//! It leaves its target only where the shutter stands at a stop, which no single input may show and all
//! together do: hot, it is what an open shutter leaves, cold, what a shut one does.

use crate::answer::figures::figures;
use crate::answer::model_error;
use crate::answer::model_error::missed;
use crate::answer::moments::{Band, Moments};
use crate::answer::solve_condition::solve_in_search;
use crate::answer::solved::Solved;
use crate::answer::spread::Change;
use crate::document::condition::Condition;
use crate::document::installation::Installation;
use crate::math::normal::RANGE_DEVIATIONS;
use crate::path::budget::Budget;
use crate::path::report::{Solution, gauge_temperature};
use crate::path::solve::solve_within;

/// What the model's miss of the oil changes where a shutter makes it good.
pub(super) fn oil_missed(
    installation: &Installation,
    condition: &Condition,
    nominal: &Solved,
    search: &Budget<'_>,
) -> Change {
    let base = figures(installation, nominal);
    let ends = [-1.0, 1.0].map(|side| {
        let by = side * RANGE_DEVIATIONS * model_error::OIL_K;
        let there = missed(installation, condition, by);
        let solved = solve_in_search(installation, &there, Some(nominal), search).ok()?;
        let mut moved = figures(installation, &solved);
        moved.oil += by;
        let pairs = moved.each().into_iter().zip(base.each());
        Some(pairs.map(|(moved, base)| moved - base).collect())
    });
    Change::of_error(ends)
}

/// How much hotter than wanted, K, the gauge may be with the shutter shut before nothing that is not known
/// could bring it below (derived: twice the 27 K by which the ranges of the example's inputs together move it, and more).
pub(super) const NEVER_COLD_K: f64 = 60.0;

/// The solution with a shutter that holds oil shut instead.
pub(super) struct Shut(Solution);

impl Shut {
    pub(super) fn gauge_k(&self, installation: &Installation) -> f64 {
        gauge_temperature(&self.0.state, installation.oil.probe.is_after_cooler())
    }
}

/// The same condition with its shutter shut; `None` where none holds oil, or it has no answer.
///
/// # Arguments
/// * `near` - that of a condition nearby
pub(super) fn shut(
    installation: &Installation,
    solved: &Solved,
    near: Option<&Shut>,
    search: &Budget<'_>,
) -> Option<Shut> {
    solved.open_gauge_k?;
    let mut prepared = solved.prepared;
    prepared.set_shutter(installation, 0.0);
    let start = near.map_or(solved.solution.start(), |near| near.0.start());
    let budget = Budget::of_a_condition_in(search);
    solve_within(&prepared.cowl, Some(start), &budget)
        .ok()
        .map(Shut)
}

/// The oil gauge with the shutter at a stop.
pub(super) struct Gauge {
    /// Its place among the quantities.
    pub(super) place: usize,
    /// What it shows, K.
    pub(super) kelvin: f64,
    /// Where that lies.
    pub(super) moments: Moments,
}

impl Gauge {
    /// Low and high end of where it lies, K.
    fn ends(&self) -> (f64, f64) {
        let band = self.moments.band();
        (self.kelvin - band.below, self.kelvin + band.above)
    }

    /// Where it lies as seen from a nominal answer, K.
    pub(super) fn seen_from(&self, nominal_k: f64) -> Moments {
        self.moments.moved(self.kelvin - nominal_k)
    }
}

/// Oil that a shutter holds.
pub(super) struct HeldOil {
    pub(super) target_k: f64,
    /// With the shutter open.
    pub(super) open: Gauge,
    /// With the shutter shut; `None` where that is never too cold.
    pub(super) shut: Option<Gauge>,
    /// What the model's miss changes.
    pub(super) missed: Change,
}

impl HeldOil {
    /// Band of the oil, from that of single inputs.
    pub(super) fn band(&self, nominal_k: f64, single: &Band) -> Band {
        let (low_k, high_k) = self.open.ends();
        let above = high_k.max(self.target_k) - nominal_k;
        let below = match &self.shut {
            _ if nominal_k > self.target_k => nominal_k - low_k.max(self.target_k),
            Some(shut) => nominal_k - shut.ends().0.min(self.target_k),
            None => single.below,
        };
        Band {
            below: below.max(0.0),
            above: above.max(0.0),
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::answer::band::{Bands, bands};
    use crate::answer::evaluate::evaluate;
    use crate::answer::pieces::Pieces;
    use crate::answer::sampling::Sampling;
    use crate::answer::verdict::{DEFAULT_CHANCE, Judgement, Verdict, judge};
    use crate::document::condition::AirKind;
    use crate::document::design::Design;
    use crate::document::example;
    use crate::units::quantity::kelvin;

    /// A flight of the example by itself, in air of a temperature, °C.
    fn cold(place: usize, oat_degc: f64, shutter: bool) -> Design {
        let mut design = example::design();
        design.installation.shutter.fitted = shutter;
        design.conditions = vec![design.conditions[place].clone()];
        design.conditions[0].air = AirKind::Oat;
        design.conditions[0].oat = kelvin(oat_degc + 273.15);
        design
    }

    fn judged(design: &Design, bands: &Bands) -> Judgement {
        let answer = evaluate(design, 0).expect("an answer");
        let installation = &design.installation;
        judge(installation, &answer, Some(bands), None, DEFAULT_CHANCE)
    }

    #[test]
    fn cold_oil_has_the_low_end_and_the_chance_of_draws_held_by_a_shutter_or_not() {
        for (place, oat_degc, shutter) in [
            (3, -40.0, true),
            (3, -20.0, true),
            (4, -30.0, true),
            (5, 0.0, true),
            (4, -11.0, false),
            (5, 15.0, false),
        ] {
            let design = cold(place, oat_degc, shutter);
            let mut drawn = Sampling::new(&design, 2000, 1).expect("sound");
            while drawn.advance(2000) {}
            let drawn = drawn.summary(0).expect("answers");
            let bands = bands(&design, 0).expect("an answer");
            let low_k = bands.nominal.oil - bands.figures.oil.below;
            assert!(
                (low_k - drawn.oil.p05).abs() < 3.0,
                "{place} at {oat_degc}: {low_k} {}",
                drawn.oil.p05
            );
            let judged = judged(&design, &bands);
            let cold = 1.0 - judged.chance_warm.expect("in flight").share;
            assert!(
                (cold - drawn.oil_too_cold).abs() < 0.04,
                "{place} at {oat_degc}: {cold} {}",
                drawn.oil_too_cold
            );
        }
    }

    #[test]
    fn oil_that_may_be_too_cold_is_not_inside() {
        let verdict = |oat_degc: f64, shutter: bool| {
            let design = cold(4, oat_degc, shutter);
            let bands = bands(&design, 0).expect("an answer");
            let judged = judged(&design, &bands);
            (judged.verdict, judged.against_least)
        };
        // 141 °F by the best estimate, where 140 °F is the least: three cases in ten are colder.
        assert_eq!(verdict(-11.0, false), (Verdict::TooClose, true));
        assert_eq!(verdict(-30.0, false), (Verdict::TooCold, true));
        assert_eq!(verdict(-20.0, true), (Verdict::Inside, false));
    }
}
