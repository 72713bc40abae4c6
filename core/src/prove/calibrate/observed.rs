//! What the readings say, side by side with what the model says of the same moments.

use crate::answer::band::figures;
use crate::answer::minutes::slowness;
use crate::answer::solve_condition::solve_condition;
use crate::answer::solved::Solved;
use crate::document::condition::Condition;
use crate::document::design::Design;
use crate::document::installation::Installation;
use crate::prove::calibrate::channel::CHANNELS;
use crate::prove::calibrate::channel::Channel;
use crate::prove::calibrate::scatter::INDEPENDENT_S;

/// What the model says in steady state, by [`Channel`], SI; and [`SLOWNESS`].
pub(crate) type Steady = [f64; CHANNELS + 1];

/// Place, after the channels, of the heads' time constant over that in cruise \[-\].
pub(crate) const SLOWNESS: usize = CHANNELS;

/// Model values of a condition in steady state; `None` if it has no answer.
pub(crate) fn steady(
    installation: &Installation,
    condition: &Condition,
    near: Option<&Solved>,
) -> Option<(Steady, Solved)> {
    let solved = solve_condition(installation, condition, near).ok()?;
    let state = &solved.solution.state;
    let read = figures(installation, &solved);
    Some((
        [
            read.head_mean,
            read.head_hottest - read.head_mean,
            read.head_hottest,
            read.oil,
            read.baffle_drop,
            state.trial.upper_pa,
            state.trial.lower_pa,
            solved.prepared.exhaust_k,
            slowness(&solved),
        ],
        solved,
    ))
}

/// A reading made ready: the moments that are conditions, and what was measured in them.
#[derive(Debug, Clone)]
pub(crate) struct Observed {
    /// Place of the reading in the design.
    pub place: usize,
    /// Whether it is a whole flight, whose errors are taken as correlated.
    pub whole: bool,
    /// Times, s.
    pub seconds: Vec<f64>,
    /// The moments as conditions.
    pub conditions: Vec<Condition>,
    /// Measured, by channel.
    pub measured: Vec<Vec<Option<f64>>>,
    /// What the model says of each moment at the start.
    pub first: Vec<Steady>,
    /// Solutions to start from.
    pub near: Vec<Solved>,
    /// Moments that could not be used.
    pub unusable: usize,
}

impl Observed {
    fn empty(place: usize) -> Self {
        Self {
            place,
            whole: false,
            seconds: Vec::new(),
            conditions: Vec::new(),
            measured: vec![Vec::new(); CHANNELS],
            first: Vec::new(),
            near: Vec::new(),
            unusable: 0,
        }
    }

    /// Takes a moment in; a condition without an answer is counted and left out.
    fn take(
        &mut self,
        installation: &Installation,
        seconds: f64,
        condition: Option<Condition>,
        measured: impl Fn(Channel) -> Option<f64>,
    ) {
        let answered = condition.and_then(|condition| {
            let (values, solution) = steady(installation, &condition, None)?;
            Some((condition, values, solution))
        });
        let Some((condition, values, solution)) = answered else {
            self.unusable += 1;
            return;
        };
        self.seconds.push(seconds);
        self.conditions.push(condition);
        self.first.push(values);
        self.near.push(solution);
        for (slot, channel) in self.measured.iter_mut().zip(Channel::ALL) {
            slot.push(measured(channel));
        }
    }

    /// The conditions of the moments, each with a solution near its own.
    pub fn moments(&self) -> impl Iterator<Item = (&Condition, &Solved)> {
        self.conditions.iter().zip(&self.near)
    }

    /// How many independent readings each of a channel's moments counts as \[-\]: n moments of a
    /// stretch count as 1 + duration/120 s.
    pub fn weight(&self, channel: Channel) -> f64 {
        let count = self.measured[channel as usize].iter().flatten().count();
        match (self.seconds.first(), self.seconds.last()) {
            (Some(first), Some(last)) if count > 0 => {
                ((1.0 + (last - first) / INDEPENDENT_S) / count as f64).min(1.0)
            }
            _ => 0.0,
        }
    }
}

/// Readings of a design that have something to compare and are not left out; of one that no
/// instruments can have shown no moment is used.
pub(crate) fn observed(design: &Design) -> Vec<Observed> {
    let engine = &design.installation.engine;
    let own = design.readings.iter().enumerate();
    own.filter(|(_, reading)| !reading.left_out)
        .map(|(place, reading)| {
            let mut found = Observed::empty(place);
            found.whole = reading.whole;
            if !design.is_sound_reading(place) {
                found.unusable = reading.moments.len();
                return found;
            }
            for moment in reading.corrected(&design.instruments) {
                let condition = reading.condition_of(&moment, engine).ok();
                let measured = |channel: Channel| channel.measured(&moment);
                found.take(&design.installation, moment.seconds, condition, measured);
            }
            found
        })
        .collect()
}

/// The design's own conditions that have an answer, each as a reading in which nothing was read.
pub(crate) fn conditions(design: &Design) -> Vec<Observed> {
    let own = design.conditions.iter().enumerate();
    own.map(|(place, condition)| {
        let mut found = Observed::empty(place);
        found.take(&design.installation, 0.0, Some(condition.clone()), |_| None);
        found
    })
    .filter(|found| !found.conditions.is_empty())
    .collect()
}
