//! Where a value of a design comes from, and how that is said.

use crate::document::design::Design;
use crate::document::row::Tag;
use crate::document::table::Input;
use crate::language::tr;

/// Where a value comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Origin {
    /// The builder measured it.
    Measured,
    /// The builder's readings made it.
    Calibrated,
    /// It stands for what the builder has not told yet.
    Assumed,
    /// The builder put it in.
    Own,
    /// It is the default, which comes from there.
    Default(Tag),
}

impl Origin {
    /// Where an input's value at a place comes from.
    ///
    /// # Example
    /// ```
    /// use coolpath_core::document::example;
    /// use coolpath_core::document::origin::Origin;
    /// use coolpath_core::document::row::Tag;
    /// use coolpath_core::document::table;
    ///
    /// let mut design = example::design();
    /// let share = table::by_id("airframe.propeller_share").expect("an input");
    /// assert_eq!(Origin::of(&design, share, 0), Origin::Default(Tag::FromMemory));
    /// design.installation.airframe.propeller_share = 0.2;
    /// assert_eq!(Origin::of(&design, share, 0).words(), "your value");
    /// ```
    #[must_use]
    pub fn of(design: &Design, input: &Input, place: usize) -> Self {
        let is_default = |value| input.is_default(value);
        if design.is_measured(input, place) {
            Self::Measured
        } else if design.calibration(input, place).is_some() {
            Self::Calibrated
        } else if design.is_assumed(input, place) {
            Self::Assumed
        } else if input.value(design, place).is_none_or(is_default) {
            Self::Default(input.tag)
        } else {
            Self::Own
        }
    }

    /// The same in the builder's words.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Measured => tr("measured by you"),
            Self::Calibrated => tr("calibrated with your readings"),
            Self::Assumed => tr("assumed until you type yours"),
            Self::Own => tr("your value"),
            Self::Default(tag) => tag.phrase(),
        }
    }
}
