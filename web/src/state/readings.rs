//! Readings on the page: cells, their units, and what editing them does.

use crate::state::field;
use crate::state::field_key::FieldKey;
use crate::state::page::Drafts;
use crate::state::page::State;
use coolpath_core::document::design::Change;
use coolpath_core::document::quantity::{ColumnUnit, Quantity};
use coolpath_core::document::reading::{MAX_READINGS, Reading, Used, Values};
use coolpath_core::language::tr;
use coolpath_core::units::typed;
use coolpath_core::units::typed::{Dimension, UnitSystem};
use std::sync::Arc;

/// Before the quantity in the key of a reading's cell.
const CELL: &str = "reading.";
/// Before the quantity in the key of an instrument's correction.
const CORRECTION: &str = "instrument.";

/// Something the builder did to the readings.
#[derive(Debug, Clone, PartialEq)]
pub enum ReadingEdit {
    /// Typed in a cell of a steady reading.
    Cell(usize, Quantity, String),
    /// Typed an instrument's correction.
    Correction(Quantity, String),
    /// Chose the unit of a quantity.
    Unit(Quantity, String),
    /// Named a reading.
    Name(usize, String),
    /// Put a reading into a set.
    Set(usize, String),
    /// Said what readings are used for.
    Use(Vec<usize>, Used),
    /// Added an empty steady reading.
    Add,
    /// Added readings from a log.
    AddAll(Vec<Reading>),
    /// Removed a reading.
    Remove(usize),
}

/// Something the builder did to the change log.
#[derive(Debug, Clone, PartialEq)]
pub enum ChangeEdit {
    /// Added an entry.
    Add,
    /// Wrote when an entry was made.
    Day(usize, String),
    /// Wrote what was changed.
    What(usize, String),
    /// Removed an entry.
    Remove(usize),
}

/// Most entries of the change log.
pub const MOST_CHANGES: usize = 100;

/// Key of a cell.
#[must_use]
pub fn cell_key(place: usize, quantity: Quantity) -> FieldKey {
    FieldKey::new(&format!("{CELL}{}", quantity.key()), place)
}

/// Key of an instrument's correction.
#[must_use]
pub fn correction_key(quantity: Quantity) -> FieldKey {
    FieldKey::new(&format!("{CORRECTION}{}", quantity.key()), 0)
}

fn quantity_of(name: &str) -> Option<Quantity> {
    Quantity::ALL
        .iter()
        .copied()
        .find(|quantity| quantity.key() == name)
}

/// Whether a key is a cell's or a correction's.
#[must_use]
pub fn is_known(key: &FieldKey) -> bool {
    [CELL, CORRECTION]
        .iter()
        .filter_map(|prefix| key.id.strip_prefix(prefix))
        .any(|name| quantity_of(name).is_some())
}

/// What is wrong with a key's typed text; `None` if nothing is, or it is no cell's.
#[must_use]
pub fn fault(state: &State, key: &FieldKey, text: &str) -> Option<String> {
    if let Some(quantity) = key.id.strip_prefix(CELL).and_then(quantity_of) {
        let reading = state.design.readings.get(key.place)?;
        return cell_value(state, quantity, text)
            .err()
            .map(|fault| format!("{}: {fault}", reading.name));
    }
    let quantity = key.id.strip_prefix(CORRECTION).and_then(quantity_of)?;
    correction_value(quantity, text, state.system).err()
}

/// The unit in which a quantity is noted.
#[must_use]
pub fn unit(state: &State, quantity: Quantity) -> ColumnUnit {
    state
        .column_units
        .get(&quantity)
        .and_then(|symbol| {
            quantity
                .column_units()
                .into_iter()
                .find(|unit| unit.symbol() == *symbol)
        })
        .unwrap_or_else(|| quantity.usual_unit(state.system))
}

/// Digits that a cell shows.
const DIGITS: i32 = 4;

/// Text of a cell: what was typed, else the value in the quantity's unit.
#[must_use]
pub fn cell_text(state: &State, place: usize, quantity: Quantity) -> String {
    if let Some(draft) = state.drafts.get(&cell_key(place, quantity)) {
        return draft.clone();
    }
    state
        .design
        .readings
        .get(place)
        .and_then(|reading| reading.moments.first())
        .and_then(|moment| moment.get(quantity))
        .map(|si| typed::rounded_text(unit(state, quantity).from_si(si), DIGITS))
        .unwrap_or_default()
}

/// Value of a cell's text, SI; `None` for an empty one. A unit may be typed with the number.
///
/// # Errors
/// A sentence with the permitted range.
pub fn cell_value(state: &State, quantity: Quantity, text: &str) -> Result<Option<f64>, String> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    let unit = unit(state, quantity);
    let (least, most) = quantity.permitted();
    let must = || {
        let bound = |si: f64| typed::rounded_text(unit.from_si(si), 4);
        tr!(
            "{} must be between {} and {} {}",
            quantity.label(),
            bound(least),
            bound(most),
            unit.label()
        )
    };
    let power = |text: &str| typed::parse(text, Dimension::Power, state.system).ok();
    let value = match (typed::bare_number(text), quantity) {
        (Some(number), _) => unit.to_si(number),
        // Brake power, such as "112 hp".
        (None, Quantity::PowerShare) if !text.contains('%') => {
            let rated = state.design.installation.engine.rated_power.value;
            power(text).ok_or_else(must)? / rated
        }
        (None, _) => typed::parse(text, quantity.dimension(), state.system).map_err(|_| must())?,
    };
    if (least..=most).contains(&value) {
        Ok(Some(value))
    } else {
        Err(must())
    }
}

/// Text of an instrument's correction.
#[must_use]
pub fn correction_text(state: &State, quantity: Quantity) -> String {
    if let Some(draft) = state.drafts.get(&correction_key(quantity)) {
        return draft.clone();
    }
    state
        .design
        .instruments
        .get(&quantity)
        .map(|si| field::shown(*si, quantity.correction_dimension(), state.system))
        .unwrap_or_default()
}

/// Value of a correction's text, SI; `None` for an empty one.
fn correction_value(
    quantity: Quantity,
    text: &str,
    system: UnitSystem,
) -> Result<Option<f64>, String> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    let dimension = quantity.correction_dimension();
    let (least, most) = quantity.permitted();
    typed::parse(text, dimension, system)
        .ok()
        .filter(|value| value.abs() <= 0.25 * (most - least))
        .map(Some)
        .ok_or_else(|| {
            tr!(
                "What is added to {} must be a number in {}",
                quantity.label(),
                dimension.shown(system).symbol
            )
        })
}

/// Applies an edit.
pub(super) fn edit(next: &mut State, edit: ReadingEdit) {
    match edit {
        ReadingEdit::Cell(place, quantity, text) => cell(next, place, quantity, text),
        ReadingEdit::Correction(quantity, text) => {
            if let Ok(value) = correction_value(quantity, &text, next.system) {
                put(&mut next.design.instruments, quantity, value);
            }
            next.drafts.insert(correction_key(quantity), text);
        }
        ReadingEdit::Unit(quantity, symbol) => {
            // A valid text stands for a value, which is shown anew; an invalid one is kept.
            settle(next, quantity);
            next.column_units.insert(quantity, symbol);
            take_valid(next);
        }
        ReadingEdit::Name(place, name) => with(next, place, |reading| reading.name = name),
        ReadingEdit::Set(place, set) => with(next, place, |reading| reading.set = set),
        ReadingEdit::Use(places, used) => {
            for place in places {
                with(next, place, |reading| reading.use_for(used));
            }
        }
        ReadingEdit::Add => {
            let name = tr!("Point {}", next.design.readings.len() + 1);
            add(next, vec![Reading::steady(&name, Values::new())]);
        }
        ReadingEdit::AddAll(readings) => add(next, readings),
        ReadingEdit::Remove(place) => remove(next, place),
    }
}

fn put(values: &mut Values, quantity: Quantity, value: Option<f64>) {
    match value {
        Some(value) => {
            values.insert(quantity, value);
        }
        None => {
            values.remove(&quantity);
        }
    }
}

fn with(next: &mut State, place: usize, change: impl FnOnce(&mut Reading)) {
    if let Some(reading) = next.design.readings.get_mut(place) {
        change(reading);
    }
}

fn cell(next: &mut State, place: usize, quantity: Quantity, text: String) {
    if let Ok(value) = cell_value(next, quantity, &text) {
        take(next, place, quantity, value);
    }
    next.drafts.insert(cell_key(place, quantity), text);
}

fn add(next: &mut State, readings: Vec<Reading>) {
    let room = MAX_READINGS.saturating_sub(next.design.readings.len());
    next.design.readings.extend(readings.into_iter().take(room));
}

fn remove(next: &mut State, place: usize) {
    if place >= next.design.readings.len() {
        return;
    }
    next.design.readings.remove(place);
    let drafts = std::mem::take(&mut next.drafts);
    next.drafts = drafts
        .into_iter()
        .filter_map(|(key, text)| {
            if !key.id.starts_with(CELL) || key.place < place {
                return Some((key, text));
            }
            let moved = key.place.checked_sub(1).filter(|_| key.place > place)?;
            Some((
                FieldKey {
                    place: moved,
                    ..key
                },
                text,
            ))
        })
        .collect();
}

/// Drops the valid texts of a quantity's cells, which stand for values.
fn settle(next: &mut State, quantity: Quantity) {
    let name = format!("{CELL}{}", quantity.key());
    let valid: Vec<FieldKey> = next
        .drafts
        .iter()
        .filter(|(key, text)| key.id == name && cell_value(next, quantity, text).is_ok())
        .map(|(key, _)| key.clone())
        .collect();
    for key in valid {
        next.drafts.remove(&key);
    }
}

/// Takes the values of texts that are valid in the units now shown, so that a cell never shows
/// another number than the reading holds.
pub(super) fn take_valid(next: &mut State) {
    let cells: Vec<(usize, Quantity, Option<f64>)> = next
        .drafts
        .iter()
        .filter_map(|(key, text)| {
            let quantity = key.id.strip_prefix(CELL).and_then(quantity_of)?;
            Some((key.place, quantity, cell_value(next, quantity, text).ok()?))
        })
        .collect();
    for (place, quantity, value) in cells {
        take(next, place, quantity, value);
    }
    let corrections: Vec<(Quantity, Option<f64>)> = next
        .drafts
        .iter()
        .filter_map(|(key, text)| {
            let quantity = key.id.strip_prefix(CORRECTION).and_then(quantity_of)?;
            Some((
                quantity,
                correction_value(quantity, text, next.system).ok()?,
            ))
        })
        .collect();
    for (quantity, value) in corrections {
        put(&mut next.design.instruments, quantity, value);
    }
}

fn take(next: &mut State, place: usize, quantity: Quantity, value: Option<f64>) {
    with(next, place, |reading| {
        let held = reading
            .moments
            .first()
            .and_then(|moment| moment.get(quantity));
        if reading.moments.len() == 1
            && held != value
            && let Some(moment) = Arc::make_mut(&mut reading.moments).first_mut()
        {
            put(&mut moment.values, quantity, value);
        }
    });
}

/// Texts to keep when the units of the page change: those of cells and corrections that are no
/// value.
pub(super) fn is_kept_on_switch(state: &State, key: &FieldKey, text: &str) -> bool {
    is_known(key) && fault(state, key, text).is_some()
}

/// Texts that still stand for something after a design was adjusted: all of cells, and those of
/// inputs whose value did not change.
pub(super) fn drop_changed(
    drafts: &mut Drafts,
    before: &State,
    after: &coolpath_core::document::design::Design,
) {
    drafts.retain(|key, _| {
        key.input().is_none_or(|input| {
            input.value(&before.design, key.place) == input.value(after, key.place)
        })
    });
}

/// Applies an edit of the change log.
pub(super) fn change(next: &mut State, edit: ChangeEdit) {
    let changes = &mut next.design.changes;
    match edit {
        ChangeEdit::Add => {
            if changes.len() < MOST_CHANGES {
                changes.push(Change::default());
            }
        }
        ChangeEdit::Day(place, day) => {
            if let Some(entry) = changes.get_mut(place) {
                entry.day = day;
            }
        }
        ChangeEdit::What(place, what) => {
            if let Some(entry) = changes.get_mut(place) {
                entry.what = what;
            }
        }
        ChangeEdit::Remove(place) => {
            if place < changes.len() {
                changes.remove(place);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::action::Action;
    use crate::state::document;
    use crate::state::reduce::reduce;

    fn done(state: &State, edit: ReadingEdit) -> State {
        reduce(state, Action::Reading(edit))
    }

    fn cell(state: &State, place: usize, quantity: Quantity, text: &str) -> State {
        done(state, ReadingEdit::Cell(place, quantity, text.to_owned()))
    }

    fn kelvin(state: &State, place: usize, quantity: Quantity) -> Option<f64> {
        state.design.readings[place].moments[0].get(quantity)
    }

    #[test]
    fn a_cell_takes_its_columns_unit_or_the_one_that_is_typed() {
        let state = done(&State::default(), ReadingEdit::Add);
        let state = cell(&state, 0, Quantity::Oat, "86");
        assert!((kelvin(&state, 0, Quantity::Oat).expect("a value") - 303.15).abs() < 1e-9);
        let state = cell(&state, 0, Quantity::Oat, "30 C");
        assert!((kelvin(&state, 0, Quantity::Oat).expect("a value") - 303.15).abs() < 1e-9);
        let state = done(&state, ReadingEdit::Unit(Quantity::Oat, "°C".to_owned()));
        assert_eq!(cell_text(&state, 0, Quantity::Oat), "30");
        let state = cell(&state, 0, Quantity::Oat, "");
        assert_eq!(kelvin(&state, 0, Quantity::Oat), None);
    }

    #[test]
    fn a_pressure_may_be_noted_as_an_airspeed_indicator_reads_it() {
        let state = done(&State::default(), ReadingEdit::Add);
        let unit = "kt on an airspeed indicator".to_owned();
        let state = done(&state, ReadingEdit::Unit(Quantity::BaffleDrop, unit));
        let state = cell(&state, 0, Quantity::BaffleDrop, "95.77");
        let drop = kelvin(&state, 0, Quantity::BaffleDrop).expect("a value");
        assert!(
            (drop / typed::INCH_OF_WATER_PA - 6.0).abs() < 2e-3,
            "{drop} Pa"
        );
        let inches = "inH₂O".to_owned();
        let state = done(&state, ReadingEdit::Unit(Quantity::BaffleDrop, inches));
        let shown = cell_text(&state, 0, Quantity::BaffleDrop);
        let inches: f64 = shown.parse().expect("a number");
        assert!((inches - 6.0).abs() < 5e-3, "{shown}");
    }

    #[test]
    fn rubbish_in_a_cell_stays_there_and_follows_its_reading() {
        let mut state = done(&State::default(), ReadingEdit::Add);
        state = done(&state, ReadingEdit::Add);
        state = cell(&state, 1, Quantity::Head1, "hot");
        assert_eq!(kelvin(&state, 1, Quantity::Head1), None);
        assert!(
            state.faults().is_empty(),
            "the answers do not stand on readings"
        );
        let refused: Vec<String> = state
            .drafts
            .iter()
            .filter_map(|(key, text)| fault(&state, key, text))
            .collect();
        assert_eq!(refused.len(), 1);
        assert!(refused[0].contains("CHT 1 must be between"), "{refused:?}");
        state = done(&state, ReadingEdit::Remove(0));
        assert_eq!(cell_text(&state, 0, Quantity::Head1), "hot");
        let metric = reduce(&state, Action::Units(UnitSystem::Metric));
        assert_eq!(cell_text(&metric, 0, Quantity::Head1), "hot");
        let text = document::stored_text(&metric, 0.0, true).expect("text");
        let back = document::state_of(&text).expect("a state");
        assert_eq!(back.drafts, metric.drafts);
        assert_eq!(back.design, metric.design);
        let undone = reduce(&state, Action::Undo);
        assert_eq!(cell_text(&undone, 1, Quantity::Head1), "hot");
    }

    #[test]
    fn corrections_are_kept_apart_from_the_readings() {
        let mut state = done(&State::default(), ReadingEdit::Add);
        state = cell(&state, 0, Quantity::Oil, "200");
        state = done(
            &state,
            ReadingEdit::Correction(Quantity::Oil, "-9".to_owned()),
        );
        let raw = kelvin(&state, 0, Quantity::Oil).expect("a value");
        let reading = &state.design.readings[0];
        let corrected = reading.corrected(&state.design.instruments)[0]
            .get(Quantity::Oil)
            .expect("a value");
        assert!((corrected - raw + 5.0).abs() < 1e-9);
        let file = document::file_text(&state.design).expect("a file");
        assert_eq!(document::design_of(&file).expect("a design"), state.design);
    }
}
