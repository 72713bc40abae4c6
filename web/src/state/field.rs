//! Numeric fields: their text, and what a typed text means.

use crate::state::field_key::FieldKey;
use crate::state::page::State;
use crate::state::range::Range;
use coolpath_core::document::table::Input;
use coolpath_core::language::tr;
use coolpath_core::units::si::to_degf;
use coolpath_core::units::typed;
use coolpath_core::units::typed::{Dimension, UnitSystem};

/// Text that stands in a field: what was typed, else the design's value.
#[must_use]
pub fn text(state: &State, input: &'static Input, place: usize) -> String {
    let key = FieldKey::new(input.id, place);
    if let Some(draft) = state.drafts.get(&key) {
        return draft.clone();
    }
    input
        .value(&state.design, place)
        .map(|value| shown(value, input.dimension, state.system))
        .unwrap_or_default()
}

/// A value as a field shows it: four digits, or all of a whole number. What the design holds stays
/// exact until the field is edited.
#[must_use]
pub fn shown(si: f64, dimension: Dimension, system: UnitSystem) -> String {
    typed::rounded_text(dimension.shown(system).from_si(si), 4)
}

/// The range in which an input must lie.
#[must_use]
pub fn range(input: &Input) -> Range<'static> {
    Range {
        label: input.label,
        ends: input.permitted,
        dimension: input.dimension,
    }
}

/// Value of a typed text, SI, or what is wrong with it in a sentence.
///
/// # Errors
/// The sentence, with the permitted range in the units shown.
pub fn value(input: &Input, typed: &str, system: UnitSystem) -> Result<f64, String> {
    let is_number = typed::parse(typed, input.dimension, system).is_ok();
    range(input)
        .value(typed, system)
        .map_err(|told| match doubt(input, typed, system) {
            Some(hint) if is_number => format!("{told}. {hint}"),
            _ => told,
        })
}

/// A hint when a number that does not fit would fit in the other system's unit.
fn doubt(input: &Input, typed: &str, system: UnitSystem) -> Option<String> {
    let shown = input.dimension.shown(system);
    let both = [UnitSystem::Customary, UnitSystem::Metric];
    let other = both
        .into_iter()
        .find(|other| input.dimension.shown(*other).symbol != shown.symbol)?;
    let unit = input.dimension.shown(other);
    let value = typed::parse(typed, input.dimension, other).ok()?;
    let (least, most) = input.permitted;
    (value >= least && value <= most).then(|| {
        tr!(
            "Did you mean {} {}? Type the unit with it.",
            typed.trim(),
            unit.symbol
        )
    })
}

/// A question about a value that is permitted but looks like the other unit of temperature.
#[must_use]
pub fn question(input: &Input, value: f64, system: UnitSystem) -> Option<String> {
    if input.dimension != Dimension::Temperature {
        return None;
    }
    let (celsius, fahrenheit) = (value - 273.15, to_degf(value));
    let unlikely = match input.id {
        "condition.oat_k" => celsius > 47.0,
        "engine.head_limit_k" => fahrenheit < 350.0,
        "engine.oil_limit_k" => fahrenheit < 190.0,
        "condition.oil_target_k" => fahrenheit < 140.0,
        _ => false,
    };
    let shown = Dimension::Temperature.shown(system);
    unlikely.then(|| {
        tr!(
            "{:.0} {} is unusual here. Is the unit right?",
            shown.from_si(value),
            shown.symbol
        )
    })
}
