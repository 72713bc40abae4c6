//! Windows beside what one fit predicts of them.

use coolpath_core::document::design::Design;
use coolpath_core::document::reading::Reading;
use coolpath_core::prove::calibrate::CalibrateError;
use coolpath_core::prove::flights::{Checked, Window, check};

/// Windows, and what was found of them.
#[derive(Debug, Clone)]
pub struct Predicted {
    /// The windows.
    pub windows: Vec<Window>,
    /// What was found; its places are theirs.
    pub found: Checked,
}

impl Predicted {
    /// Windows after a fit on some readings.
    ///
    /// # Errors
    /// [`CalibrateError`] if nothing can be fitted on.
    pub fn after(
        design: &Design,
        fit: &[Reading],
        windows: Vec<Window>,
    ) -> Result<Self, CalibrateError> {
        let found = check(design, fit, &windows)?;
        Ok(Self { windows, found })
    }

    /// Some of the windows, by their place and what they are: the fit does not look at windows, so that
    /// it is the same for all of them.
    #[must_use]
    pub fn part(&self, is_in: impl Fn(usize, &Window) -> bool) -> Self {
        let mut windows = Vec::new();
        let places: Vec<Option<usize>> = (self.windows.iter().enumerate())
            .map(|(place, window)| {
                is_in(place, window).then(|| {
                    windows.push(window.clone());
                    windows.len() - 1
                })
            })
            .collect();
        let mut found = self.found.clone();
        found
            .judged
            .retain_mut(|one| moved(&mut one.place, &places));
        found
            .refused
            .retain_mut(|one| moved(&mut one.place, &places));
        Self { windows, found }
    }

    /// The windows of one flight.
    #[must_use]
    pub fn of(&self, flight: &str) -> Self {
        self.part(|_, window| window.flight == flight)
    }
}

/// Whether a place is kept, and its new one in it.
fn moved(place: &mut usize, places: &[Option<usize>]) -> bool {
    let to = places[*place];
    *place = to.unwrap_or(*place);
    to.is_some()
}
