//! One half of the plan.

use super::proportions::BANK_OFFSET;
use super::scene::Scene;

/// One half of the plan: v is turned over on the aircraft's right.
#[derive(Debug, Clone, Copy)]
pub struct Half {
    /// +1 on the aircraft's left, −1 on its right.
    pub side: f64,
    /// How far its bank stands aft, in.
    pub offset: f64,
}

impl Half {
    /// The half of a side.
    #[must_use]
    pub fn of(side: f64) -> Self {
        Self {
            side,
            offset: if side > 0.0 { 0.0 } else { BANK_OFFSET },
        }
    }

    /// A point of the view.
    #[must_use]
    pub fn at(&self, x: f64, v: f64) -> (f64, f64) {
        (x, self.side * v)
    }

    /// Points of the view.
    #[must_use]
    pub fn all(&self, points: &[(f64, f64)]) -> Vec<(f64, f64)> {
        points.iter().map(|&(x, v)| self.at(x, v)).collect()
    }
}

/// The halves that a scene's plan shows; a half plan shows the cooler's.
#[must_use]
pub fn halves(scene: &Scene) -> Vec<Half> {
    if scene.half_plan {
        vec![Half::of(scene.frame.core.side)]
    } else {
        vec![Half::of(1.0), Half::of(-1.0)]
    }
}
