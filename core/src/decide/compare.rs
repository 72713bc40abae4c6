//! Comparing installations on the same conditions, and how sure a difference is.
//!
//! What both share cancels: an assumption with the same value in both is moved in both at once.
//! An assumption that one alone has, or whose value differs, is moved in that one only. The
//! condition is common, so that what is not known of it is the same in both; so is the model's own
//! error, which cancels. At a fixed
//! exit a leak lowers drag, which misleads; so each comparison can also be made at equal heads,
//! the other's exit re-sized. Each search has a budget of states ([`budget`](crate::path::budget)).

use crate::answer::band::{Band, figures, uncertain};
use crate::answer::solve_condition::solve_in_search;
use crate::answer::solved::{EvaluateError, Solved, condition_at};
use crate::document::condition::{Condition, Phase};
use crate::document::design::Design;
use crate::document::installation::areas::{exit_m2, inlets_m2, resized};
use crate::document::installation::seal_leak;
use crate::document::installation::{
    CoolerSupply, ExitEdge, Installation, Sealing, SecondCooler, UpperDeck,
};
use crate::document::table::Input;
use crate::language::tr;
use crate::math::root::fallible_root;
use crate::path::budget::Budget;
use crate::units::quantity::metre;

/// What is compared, each in its SI unit.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Compared<T> {
    /// Hottest head, K.
    pub head: T,
    /// Oil at the gauge, K.
    pub oil: T,
    /// Pressure across the baffles, Pa.
    pub baffle_drop: T,
    /// Air through the inlets, kg/s.
    pub inlet_flow: T,
    /// Cooling drag, N.
    pub drag: T,
    /// Speed in level flight at constant power, m/s; zero outside level flight.
    pub speed: T,
}

const COUNT: usize = 6;

impl<T: Copy> Compared<T> {
    fn from_array(each: [T; COUNT]) -> Self {
        let [head, oil, baffle_drop, inlet_flow, drag, speed] = each;
        Self {
            head,
            oil,
            baffle_drop,
            inlet_flow,
            drag,
            speed,
        }
    }

    /// In a fixed order.
    #[must_use]
    pub fn each(&self) -> [T; COUNT] {
        [
            self.head,
            self.oil,
            self.baffle_drop,
            self.inlet_flow,
            self.drag,
            self.speed,
        ]
    }
}

/// The difference of two installations in one condition: the other minus the first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Difference {
    /// Differences.
    pub by: Compared<f64>,
    /// How far each may lie below and above.
    pub band: Compared<Band>,
}

impl Difference {
    /// Whether each difference is smaller than its own uncertainty.
    ///
    /// # Example
    /// 5 K cooler, but it might be 8 K warmer than that; 20 N less, give or take 5:
    /// ```
    /// use coolpath_core::answer::band::Band;
    /// use coolpath_core::decide::compare::{Compared, Difference};
    ///
    /// let band = |above: f64| Band { below: 1.0, above };
    /// let found = Difference {
    ///     by: Compared { head: -5.0, drag: -20.0, ..Compared::default() },
    ///     band: Compared { head: band(8.0), drag: band(5.0), ..Compared::default() },
    /// };
    /// assert!(found.within_uncertainty().head);
    /// assert!(!found.within_uncertainty().drag);
    /// ```
    #[must_use]
    pub fn within_uncertainty(&self) -> Compared<bool> {
        let mut within = [false; COUNT];
        let pairs = self.by.each().into_iter().zip(self.band.each());
        for (slot, (by, band)) in within.iter_mut().zip(pairs) {
            // The side that leads to zero decides.
            let toward_zero = if by >= 0.0 { band.below } else { band.above };
            *slot = by.abs() <= toward_zero;
        }
        Compared::from_array(within)
    }
}

fn quantities(installation: &Installation, phase: Phase, found: &Solved) -> [f64; COUNT] {
    let figures = figures(installation, found);
    let speed = if phase == Phase::Cruise {
        // Drag is speed lost.
        found.prepared.speed_cost(installation, -figures.drag)
    } else {
        None
    };
    [
        figures.head_hottest,
        figures.oil,
        figures.baffle_drop,
        figures.inlet_flow,
        figures.drag,
        speed.unwrap_or_default(),
    ]
}

/// Difference of another installation to the design's own in one condition.
///
/// # Errors
/// [`EvaluateError`] if either has no answer there, or the search's budget did not last.
///
/// # Example
/// An installation differs in nothing from itself, and surely so:
/// ```
/// use coolpath_core::answer::solved::EvaluateError;
/// use coolpath_core::decide::compare::{Compared, difference};
/// use coolpath_core::document::example;
///
/// let design = example::design();
/// let found = difference(&design, &design.installation, 3)?;
/// assert_eq!(found.by, Compared::default());
/// # Ok::<(), EvaluateError>(())
/// ```
pub fn difference(
    design: &Design,
    other: &Installation,
    place: usize,
) -> Result<Difference, EvaluateError> {
    let condition = condition_at(design, place)?;
    let mut pair = [design.clone(), design.clone()];
    pair[1].installation = other.clone();
    for design in &pair {
        design.check().map_err(EvaluateError::Design)?;
    }
    let search = Budget::of_a_search(1);
    let starts = [
        solve_in_search(&pair[0].installation, condition, None, &search)?,
        solve_in_search(&pair[1].installation, condition, None, &search)?,
    ];
    let (first, second) = (
        quantities(&pair[0].installation, condition.phase, &starts[0]),
        quantities(&pair[1].installation, condition.phase, &starts[1]),
    );
    let of = |pair: &[Design; 2], step: &Step| {
        let at = |which: usize| {
            if step.moved[which].is_none() {
                return Some([first, second][which]);
            }
            let installation = &pair[which].installation;
            let near = Some(&starts[which]);
            let found = solve_in_search(installation, condition, near, &search).ok()?;
            Some(quantities(installation, condition.phase, &found))
        };
        (at(0), at(1))
    };
    let by: [f64; COUNT] = core::array::from_fn(|at| second[at] - first[at]);
    let mut band = [Band::default(); COUNT];
    for step in steps(&pair) {
        for end in 0..2 {
            step.set(&mut pair, Some(end));
            match of(&pair, &step) {
                (Some(first), Some(second)) => {
                    for (at, band) in band.iter_mut().enumerate() {
                        band.add(second[at] - first[at] - by[at]);
                    }
                }
                // Where neither has an answer there is no difference to speak of.
                (None, None) => {}
                _ => band = [Band::OPEN; COUNT],
            }
        }
        step.set(&mut pair, None);
        // Ends that were not tried are not ends without an answer.
        search.lasts()?;
    }
    Ok(Difference {
        by: Compared::from_array(by),
        band: Compared::from_array(band),
    })
}

/// An assumption and in which of the two designs it is moved.
struct Step {
    input: &'static Input,
    place: usize,
    /// Value and range in each design in which it is moved.
    moved: [Option<(f64, (f64, f64))>; 2],
}

impl Step {
    /// Sets the assumption to an end of its range, or back to its value.
    fn set(&self, pair: &mut [Design; 2], end: Option<usize>) {
        for (design, moved) in pair.iter_mut().zip(self.moved) {
            if let Some((value, (low, high))) = moved {
                let to = match end {
                    Some(0) => low,
                    Some(_) => high,
                    None => value,
                };
                self.input.set(design, self.place, to);
            }
        }
    }
}

fn steps(pair: &[Design; 2]) -> Vec<Step> {
    let mut steps: Vec<Step> = uncertain(&pair[0])
        .map(|(input, place, value, range)| Step {
            input,
            place,
            moved: [Some((value, range)), None],
        })
        .collect();
    for (input, place, value, range) in uncertain(&pair[1]) {
        let same = steps.iter_mut().find(|step| {
            step.input.id == input.id
                && step.place == place
                && step.moved[0].is_some_and(|(first, _)| first == value)
        });
        match same {
            Some(step) => step.moved[1] = Some((value, range)),
            None => steps.push(Step {
                input,
                place,
                moved: [None, Some((value, range))],
            }),
        }
    }
    steps
}

/// The other installation with its first exit re-sized, so that the hottest head in a condition is
/// that of the design's own; `None` if no exit from a fifth to five times its area brings it there.
///
/// # Errors
/// [`EvaluateError`] if either has no answer, or the search's budget did not last.
pub fn at_equal_heads(
    design: &Design,
    other: &Installation,
    place: usize,
) -> Result<Option<Installation>, EvaluateError> {
    let condition = condition_at(design, place)?;
    let search = Budget::of_a_search(1);
    let head = |installation: &Installation| -> Result<f64, EvaluateError> {
        let found = solve_in_search(installation, condition, None, &search)?;
        Ok(figures(installation, &found).head_hottest)
    };
    let wanted = head(&design.installation)?;
    let (inlets, exit) = (inlets_m2(other), exit_m2(other));
    let with_exit = |ln_factor: f64| resized(other, inlets, exit * libm::exp(ln_factor));
    let end = libm::log(5.0);
    let root = fallible_root(
        |ln_factor| head(&with_exit(ln_factor)).map(|there| there - wanted),
        -end,
        end,
        1e-7,
    )?;
    Ok(root.ok().map(|root| with_exit(root.x)))
}

/// The condition in which heads are judged equal: the one in flight whose hottest head stands nearest to its
/// limit in the design as it is; a ground run only where nothing flies, since no exit is sized for one. A
/// condition whose budget does not last is not judged.
#[must_use]
pub fn hardest_for_heads(design: &Design) -> Option<usize> {
    let search = Budget::of_a_search(design.conditions.len());
    let margin = |place: usize, condition: &Condition| {
        let found = solve_in_search(&design.installation, condition, None, &search).ok()?;
        let head_k = figures(&design.installation, &found).head_hottest;
        Some(design.limits_in(place).head.kelvin - head_k)
    };
    let conditions = design.conditions.iter().enumerate();
    conditions
        .filter_map(|(place, condition)| {
            let is_on_ground = condition.phase == Phase::Ground;
            Some((place, is_on_ground, margin(place, condition)?))
        })
        .min_by(|a, b| a.1.cmp(&b.1).then(a.2.total_cmp(&b.2)))
        .map(|(place, ..)| place)
}

/// A change to the present design that is one click away.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Preset {
    /// A rigid plenum.
    HardPlenum,
    /// New flexible seals.
    NewSeals,
    /// Worn flexible seals.
    WornSeals,
    /// Torn or missing flexible seals.
    BrokenSeals,
    /// A cooler rated a third higher.
    BiggerCooler,
    /// An inch more duct to the cooler.
    WiderDuct,
    /// Widening ducts behind the inlets.
    Diffusers,
    /// A rounded lower edge of the firewall.
    RoundedEdge,
    /// A square lower edge of the firewall.
    SquareEdge,
    /// The cooler bolted to the rear baffle.
    CoolerOnBaffle,
    /// The cooler bolted to the front baffle.
    CoolerOnFrontBaffle,
    /// A second cooler beside the first.
    SecondCooler,
    /// An upper deck in two halves without a way across.
    SplitDeck,
    /// One upper deck over both banks.
    OneDeck,
}

impl Preset {
    /// All of them.
    pub const ALL: [Self; 14] = [
        Self::HardPlenum,
        Self::NewSeals,
        Self::WornSeals,
        Self::BrokenSeals,
        Self::BiggerCooler,
        Self::WiderDuct,
        Self::Diffusers,
        Self::RoundedEdge,
        Self::SquareEdge,
        Self::CoolerOnBaffle,
        Self::CoolerOnFrontBaffle,
        Self::SecondCooler,
        Self::SplitDeck,
        Self::OneDeck,
    ];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::HardPlenum => tr("Hard plenum"),
            Self::NewSeals => tr("New flexible seals"),
            Self::WornSeals => tr("Worn seals"),
            Self::BrokenSeals => tr("Torn or missing seals"),
            Self::BiggerCooler => tr("Oil cooler rated a third higher"),
            Self::WiderDuct => tr("An inch more duct to the cooler"),
            Self::Diffusers => tr("Widening ducts behind the inlets"),
            Self::RoundedEdge => tr("Rounded firewall edge at the exit"),
            Self::SquareEdge => tr("Square firewall edge at the exit"),
            Self::CoolerOnBaffle => tr("Cooler on the rear baffle, no hose"),
            Self::CoolerOnFrontBaffle => tr("Cooler on the front baffle, no hose"),
            Self::SecondCooler => tr("A second cooler beside the first"),
            Self::SplitDeck => tr("Upper deck split between the banks"),
            Self::OneDeck => tr("One upper deck over both banks"),
        }
    }

    /// The installation with this change.
    #[must_use]
    pub fn applied(self, installation: &Installation) -> Installation {
        let mut changed = installation.clone();
        let seals = |changed: &mut Installation, leak_m2: f64| {
            changed.decks.sealing = Sealing::FlexibleSeals;
            changed.decks.seal_gap = metre(leak_m2 / changed.decks.seal_length.value);
        };
        let edges = |changed: &mut Installation, edge| {
            for exit in &mut changed.exits {
                exit.edge = edge;
            }
        };
        match self {
            Self::HardPlenum => changed.decks.sealing = Sealing::HardPlenum,
            Self::NewSeals => seals(&mut changed, seal_leak::NEW_M2),
            Self::WornSeals => seals(&mut changed, seal_leak::WORN_M2),
            Self::BrokenSeals => seals(&mut changed, seal_leak::BROKEN_M2),
            Self::BiggerCooler => {
                changed.cooler.rated_heat *= 4.0 / 3.0;
                changed.cooler.rated_air_flow *= 4.0 / 3.0;
            }
            Self::WiderDuct => {
                changed.cooler.duct_diameter = metre(changed.cooler.duct_diameter.value + 0.0254);
            }
            Self::Diffusers => {
                for inlet in &mut changed.inlets {
                    inlet.diffuser = true;
                }
            }
            Self::RoundedEdge => edges(&mut changed, ExitEdge::Rounded),
            Self::SquareEdge => edges(&mut changed, ExitEdge::Sharp),
            Self::CoolerOnBaffle => changed.cooler.supply = CoolerSupply::RearBaffle,
            Self::CoolerOnFrontBaffle => changed.cooler.supply = CoolerSupply::FrontBaffle,
            Self::SecondCooler => changed.cooler.second = SecondCooler::BesideOilShared,
            Self::SplitDeck => {
                changed.decks.upper = UpperDeck::Halves;
                changed.decks.across.value = 0.0;
            }
            Self::OneDeck => changed.decks.upper = UpperDeck::One,
        }
        changed
    }
}
