//! Solutions of all moments of all readings under one design, some at a time.

use crate::document::design::Design;
use crate::prove::calibrate::observed::{Observed, Steady, steady};

/// Solutions under way.
pub(super) struct Solving {
    /// The design.
    pub design: Design,
    /// Model values of each reading's moments so far.
    pub steady: Vec<Vec<Steady>>,
    /// Reading and moment that come next.
    pub at: (usize, usize),
}

impl Solving {
    /// Nothing solved yet, of so many readings.
    pub fn new(design: Design, readings: usize) -> Self {
        Self {
            design,
            steady: vec![Vec::new(); readings],
            at: (0, 0),
        }
    }

    /// Whether all moments are solved.
    pub fn is_done(&self, readings: &[Observed]) -> bool {
        self.at.0 >= readings.len()
    }

    /// Makes at most so many solutions and gives back how many are left; where a moment has no
    /// answer, its value at the start stands in.
    pub fn advance(&mut self, readings: &[Observed], mut left: usize) -> usize {
        while left > 0 {
            let (place, moment) = self.at;
            let Some(reading) = readings.get(place) else {
                break;
            };
            let Some(condition) = reading.conditions.get(moment) else {
                self.at = (place + 1, 0);
                continue;
            };
            let near = Some(&reading.near[moment]);
            let found = steady(&self.design.installation, condition, near);
            left -= 1;
            self.steady[place].push(found.map_or(reading.first[moment], |(values, _)| values));
            self.at = (place, moment + 1);
        }
        left
    }
}
