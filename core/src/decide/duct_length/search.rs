//! The lengths of a widening duct solved one after the other, each from its neighbour.

use crate::answer::band::figures;
use crate::answer::solve_condition::solve_in_search;
use crate::answer::solved::{EvaluateError, Solved, condition_at};
use crate::decide::duct_length::fitted::{
    alike, best_area_ratio, permitted, recovery, with_duct, without_duct,
};
use crate::decide::duct_length::lengths::{
    Answered, Duct, DuctError, Lengths, Level, Row, Wider, paying,
};
use crate::document::condition::Condition;
use crate::document::design::Design;
use crate::document::installation::Installation;
use crate::document::installation::areas::inlets_m2;
use crate::math::root::fallible_root;
use crate::path::budget::Budget;
use crate::units::si::inch;

/// Shortest and longest duct that is looked at, inches: what a cowl has room for (from memory).
const LENGTHS_IN: (u32, u32) = (2, 24);

/// Lengths that are looked at, m.
fn lengths_m() -> Vec<f64> {
    let (least, most) = permitted("inlet.diffuser_length_m");
    (LENGTHS_IN.0..=LENGTHS_IN.1)
        .map(|inches| inch(f64::from(inches)))
        .filter(|length| (least..=most).contains(length))
        .collect()
}

/// The lengths under way, one a step.
pub struct DuctLengths {
    design: Design,
    inlet: usize,
    condition: usize,
    inlets: Vec<usize>,
    lengths_m: Vec<f64>,
    budget: Budget<'static>,
    near: Option<Solved>,
    without: Option<Answered>,
    rows: Vec<Row>,
}

impl DuctLengths {
    /// Nothing solved yet.
    ///
    /// # Arguments
    /// * `inlet` - place of the inlet
    /// * `condition` - place of the condition
    ///
    /// # Errors
    /// [`DuctError`] if the design is refused or has no such inlet or condition.
    pub fn new(design: &Design, inlet: usize, condition: usize) -> Result<Self, DuctError> {
        design.check().map_err(EvaluateError::Design)?;
        condition_at(design, condition)?;
        let count = design.installation.inlets.len();
        if inlet >= count {
            return Err(DuctError::NoSuchInlet {
                place: inlet,
                count,
            });
        }
        Ok(Self {
            inlets: alike(&design.installation, inlet),
            design: design.clone(),
            inlet,
            condition,
            lengths_m: lengths_m(),
            // Of the rows, and of the wider inlets in the level condition.
            budget: Budget::of_a_search(2),
            near: None,
            without: None,
            rows: Vec::new(),
        })
    }

    /// Steps done, and all.
    #[must_use]
    pub fn progress(&self) -> (usize, usize) {
        let before = usize::from(self.without.is_some());
        (before + self.rows.len(), self.lengths_m.len() + 2)
    }

    /// One step: the inlets without a duct, one length, or at last the wider inlets, with which all is
    /// found.
    ///
    /// # Errors
    /// [`DuctError`] by name: an inlet without air, a condition without an answer.
    pub fn advance(&mut self) -> Result<Option<Lengths>, DuctError> {
        let Some(without) = self.without else {
            self.without = Some(self.bare()?);
            return Ok(None);
        };
        if let Some(&length_m) = self.lengths_m.get(self.rows.len()) {
            let row = self.row(length_m)?;
            self.rows.push(row);
            return Ok(None);
        }
        let heads_k: Vec<f64> = self
            .rows
            .iter()
            .map(|row| row.best.answered.head_k)
            .collect();
        let mut found = Lengths {
            inlets: self.inlets.clone(),
            without,
            rows: self.rows.clone(),
            pays: paying(&heads_k),
            wider: None,
        };
        found.wider = match found.advised() {
            Some(duct) => self.wider(duct)?,
            None => None,
        };
        Ok(Some(found))
    }

    /// All that is left, at once.
    ///
    /// # Errors
    /// As [`advance`](Self::advance).
    ///
    /// # Example
    /// Longer ducts on the line of best recovery leave the heads cooler:
    /// ```
    /// use coolpath_core::decide::duct_length::{DuctError, DuctLengths};
    /// use coolpath_core::document::example;
    ///
    /// let found = DuctLengths::new(&example::design(), 0, 1)?.finished()?;
    /// let heads = found.rows.iter().map(|row| row.best.answered.head_k);
    /// assert!(heads.is_sorted_by(|a, b| a >= b));
    /// assert!(found.advised().is_some_and(|duct| duct.answered.head_k < found.without.head_k));
    /// # Ok::<(), DuctError>(())
    /// ```
    pub fn finished(mut self) -> Result<Lengths, DuctError> {
        loop {
            if let Some(found) = self.advance()? {
                return Ok(found);
            }
        }
    }

    fn at(&self, place: usize) -> Result<&Condition, DuctError> {
        Ok(condition_at(&self.design, place)?)
    }

    /// A condition solved, from the neighbour if it is the asked one.
    fn solved(
        &self,
        installation: &Installation,
        place: usize,
        length_m: Option<f64>,
    ) -> Result<Solved, DuctError> {
        let condition = self.at(place)?;
        let near = self.near.as_ref().filter(|_| place == self.condition);
        solve_in_search(installation, condition, near, &self.budget).map_err(|error| {
            DuctError::NoAnswer {
                condition: condition.name.clone(),
                length_m,
                error,
            }
        })
    }

    /// The inlets as they are, without ducts: each must take in air.
    fn bare(&mut self) -> Result<Answered, DuctError> {
        let bare = without_duct(&self.design.installation, &self.inlets, 1.0);
        let found = self.solved(&bare, self.condition, None)?;
        for place in &self.inlets {
            let flow_kg_s = found.solution.state.inlets[*place];
            // What is no number is no air either.
            if !flow_kg_s.is_normal() || flow_kg_s < 0.0 {
                return Err(DuctError::NoAir {
                    inlet: bare.inlets[*place].name.clone(),
                    condition: self.at(self.condition)?.name.clone(),
                });
            }
        }
        self.near = Some(found);
        Ok(answered(&bare, &found))
    }

    fn row(&mut self, length_m: f64) -> Result<Row, DuctError> {
        let inlet = &self.design.installation.inlets[self.inlet];
        let best_ratio = best_area_ratio(inlet, length_m);
        Ok(Row {
            own: self.duct(inlet.diffuser_ratio, length_m)?,
            best: self.duct(best_ratio, length_m)?,
        })
    }

    fn duct(&mut self, area_ratio: f64, length_m: f64) -> Result<Duct, DuctError> {
        let own = &self.design.installation;
        let ducted = with_duct(own, &self.inlets, area_ratio, length_m);
        let found = self.solved(&ducted, self.condition, Some(length_m))?;
        let duct = Duct {
            length_m,
            area_ratio,
            recovery: recovery(&own.inlets[self.inlet], area_ratio, length_m),
            answered: answered(&ducted, &found),
        };
        self.near = Some(found);
        Ok(duct)
    }

    /// Inlets without a duct that hold the hottest head of a duct.
    fn wider(&self, duct: &Duct) -> Result<Option<Wider>, DuctError> {
        let own = &self.design.installation;
        let bare = |ln_factor: f64| without_duct(own, &self.inlets, libm::exp(ln_factor));
        let most = self
            .inlets
            .iter()
            .map(|place| own.inlets[*place].area_factors().1)
            .fold(f64::INFINITY, f64::min);
        let miss = |ln_factor: f64| -> Result<f64, DuctError> {
            let wide = bare(ln_factor);
            let found = self.solved(&wide, self.condition, None)?;
            Ok(figures(&wide, &found).head_hottest - duct.answered.head_k)
        };
        let Ok(root) = fallible_root(miss, 0.0, libm::log(most), 1e-7)? else {
            return Ok(None);
        };
        let wide = bare(root.x);
        let found = self.solved(&wide, self.condition, None)?;
        let area_m2 = inlets_m2(&wide);
        let answered = answered(&wide, &found);
        Ok(Some(Wider {
            inlets_m2: area_m2,
            added_m2: area_m2 - inlets_m2(own),
            drag_n: answered.drag_n - duct.answered.drag_n,
            answered,
            level: self.level(&wide, duct)?,
        }))
    }

    /// What wider inlets cost beside a duct in the first level condition.
    fn level(&self, wide: &Installation, duct: &Duct) -> Result<Option<Level>, DuctError> {
        let Some(condition) = self.design.first_level() else {
            return Ok(None);
        };
        let own = &self.design.installation;
        let ducted = with_duct(own, &self.inlets, duct.area_ratio, duct.length_m);
        let with_wide = self.solved(wide, condition, None)?;
        let with_duct = self.solved(&ducted, condition, Some(duct.length_m))?;
        let drag_n = figures(wide, &with_wide).drag - figures(&ducted, &with_duct).drag;
        Ok(Some(Level {
            condition,
            drag_n,
            speed_m_s: with_duct.prepared.speed_cost(own, drag_n),
        }))
    }
}

fn answered(installation: &Installation, found: &Solved) -> Answered {
    let figures = figures(installation, found);
    Answered {
        head_k: figures.head_hottest,
        oil_k: figures.oil,
        drag_n: figures.drag,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answer::evaluate::evaluate;
    use crate::decide::duct_length::lengths::WORTH_AN_INCH_K;
    use crate::document::condition::{Mixture, PowerKind};
    use crate::document::example;
    use crate::document::installation::InletPosition;
    use crate::units::quantity::metre;

    const CLIMB: usize = 1;

    fn ducted() -> Design {
        let mut design = example::design();
        for inlet in &mut design.installation.inlets {
            inlet.diffuser = true;
            inlet.diffuser_ratio = 1.7;
            inlet.diffuser_length = metre(inch(9.0));
        }
        design
    }

    fn found(design: &Design) -> Lengths {
        let search = DuctLengths::new(design, 0, CLIMB).expect("a search");
        search.finished().expect("an answer")
    }

    #[test]
    fn the_row_of_the_designs_own_length_is_the_designs_own_answer() {
        let design = ducted();
        let found = found(&design);
        assert_eq!(found.rows.len(), 23);
        assert_eq!(found.inlets, [0, 1]);
        let own = evaluate(&design, CLIMB).expect("an answer");
        let row = found.rows[9 - 2].own;
        assert_eq!((row.length_m, row.area_ratio), (inch(9.0), 1.7));
        assert!((row.answered.head_k - own.head_hottest.value).abs() < 1e-4);
        assert!((row.answered.oil_k - own.oil.value).abs() < 1e-4);
        assert!((row.answered.drag_n - own.drag.value).abs() < 1e-4);
        let loss = design.installation.inlets[0].diffusion_loss();
        assert!((row.recovery - (1.0 - loss)).abs() < 1e-12);
    }

    #[test]
    fn without_a_duct_the_heads_are_those_of_the_bare_inlets_whatever_the_design_has() {
        let bare = evaluate(&example::design(), CLIMB).expect("an answer");
        for design in [example::design(), ducted()] {
            let without = found(&design).without;
            assert!((without.head_k - bare.head_hottest.value).abs() < 1e-4);
        }
    }

    #[test]
    fn another_inch_beyond_the_length_that_pays_is_not_worth_it_and_the_one_before_it_is() {
        let found = found(&example::design());
        let pays = found.pays.expect("a length that pays");
        let head = |at: usize| found.rows[at].best.answered.head_k;
        assert!(head(pays - 1) - head(pays) >= WORTH_AN_INCH_K);
        for at in pays..found.rows.len() - 1 {
            assert!(head(at) - head(at + 1) < WORTH_AN_INCH_K, "row {at}");
        }
        assert_eq!(
            found.advised().map(|duct| duct.length_m),
            Some(found.rows[pays].own.length_m)
        );
    }

    #[test]
    fn the_wider_inlets_hold_the_head_of_the_duct_and_cost_what_the_condition_says() {
        let design = example::design();
        let found = found(&design);
        let duct = *found.advised().expect("a duct");
        let wider = found.wider.expect("wider inlets");
        let mut wide = design.clone();
        let factor = wider.inlets_m2 / inlets_m2(&design.installation);
        for inlet in &mut wide.installation.inlets {
            inlet.scale_area(factor);
        }
        let answer = evaluate(&wide, CLIMB).expect("an answer");
        assert!((answer.head_hottest.value - duct.answered.head_k).abs() < 1e-3);
        assert!((answer.drag.value - duct.answered.drag_n - wider.drag_n).abs() < 1e-3);
        assert!((answer.oil.value - wider.answered.oil_k).abs() < 1e-3);
        // A larger opening turns more air away.
        let level = wider.level.expect("a level condition");
        assert_eq!(Some(level.condition), design.first_level());
        assert!(level.drag_n > 0.0 && level.speed_m_s.is_some_and(|speed| speed > 0.0));
    }

    #[test]
    fn an_inlet_that_air_leaves_by_is_named() {
        let mut design = example::design();
        let right = &mut design.installation.inlets[1];
        right.position = InletPosition::Flush;
        right.recovery_flush = 0.0;
        design.installation.exits[0].set_closed_area(1e-3);
        let refused = DuctLengths::new(&design, 0, 3).and_then(DuctLengths::finished);
        let Err(DuctError::NoAir { inlet, condition }) = &refused else {
            panic!("{refused:?}");
        };
        assert_eq!(
            (inlet.as_str(), condition.as_str()),
            ("Right inlet", "High cruise")
        );
    }

    #[test]
    fn what_is_not_there_and_what_has_no_answer_is_named() {
        let mut design = example::design();
        let refused = |design: &Design, inlet: usize, condition: usize| {
            let search = DuctLengths::new(design, inlet, condition);
            search.and_then(DuctLengths::finished).expect_err("refused")
        };
        assert_eq!(
            refused(&design, 2, CLIMB),
            DuctError::NoSuchInlet { place: 2, count: 2 }
        );
        let error = refused(&design, 0, 99);
        assert!(matches!(
            error,
            DuctError::Design(EvaluateError::NoSuchCondition { .. })
        ));
        // The fuel flow cannot give both.
        design.conditions[CLIMB].mixture = Mixture::FuelFlow;
        design.conditions[CLIMB].power = PowerKind::FuelFlow;
        let error = refused(&design, 0, CLIMB);
        let DuctError::NoAnswer {
            condition,
            length_m: None,
            error: EvaluateError::Prepare(_),
        } = &error
        else {
            panic!("{error:?}");
        };
        assert_eq!(*condition, design.conditions[CLIMB].name);
        assert!(
            error
                .to_string()
                .starts_with("“Take-off climb, hot day” has no answer: ")
        );
    }
}
