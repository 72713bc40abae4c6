//! What columns are used for, by their names: what a builder chose and a file can hold.

use crate::document::quantity::Quantity;
use crate::prove::log::columns::ColumnUse;
use crate::prove::log::table::LogTable;
use std::collections::BTreeMap;

/// Use of columns by name: `-`, `clock`, or a quantity's key and its unit's symbol.
pub type ColumnMap = BTreeMap<String, (String, String)>;

/// Most names that are remembered.
const MOST: usize = 500;
/// Word for a column that is not used.
const NOTHING: &str = "-";
/// Word for the clock.
const CLOCK: &str = "clock";

/// A use in words.
#[must_use]
pub fn words(used: ColumnUse) -> (String, String) {
    match used {
        ColumnUse::Nothing => (NOTHING.to_owned(), String::new()),
        ColumnUse::Clock => (CLOCK.to_owned(), String::new()),
        ColumnUse::Quantity(quantity, unit) => (quantity.key().to_owned(), unit.symbol()),
    }
}

/// The use that words stand for; a unit that does not fit becomes the quantity's first.
#[must_use]
pub fn used(name: &str, symbol: &str) -> Option<ColumnUse> {
    match name {
        NOTHING => return Some(ColumnUse::Nothing),
        CLOCK => return Some(ColumnUse::Clock),
        _ => {}
    }
    let quantity = Quantity::ALL
        .iter()
        .copied()
        .find(|quantity| quantity.key() == name)?;
    let units = quantity.column_units();
    let unit = units
        .iter()
        .find(|unit| unit.symbol() == symbol)
        .or_else(|| units.first())?;
    Some(ColumnUse::Quantity(quantity, *unit))
}

/// Notes a choice.
pub fn remember(map: &mut ColumnMap, column: &str, used: ColumnUse) {
    if map.len() < MOST || map.contains_key(column) {
        map.insert(column.to_owned(), words(used));
    }
}

/// Sets a column's use; whatever else was used for the same gives it up.
pub fn set(uses: &mut [ColumnUse], at: usize, used: ColumnUse) {
    let same = |other: ColumnUse| match (other, used) {
        (ColumnUse::Clock, ColumnUse::Clock) => true,
        (ColumnUse::Quantity(a, _), ColumnUse::Quantity(b, _)) => a == b,
        _ => false,
    };
    for other in uses.iter_mut() {
        if same(*other) {
            *other = ColumnUse::Nothing;
        }
    }
    if let Some(slot) = uses.get_mut(at) {
        *slot = used;
    }
}

/// Puts what is remembered over what was guessed.
pub fn recall(map: &ColumnMap, table: &LogTable, uses: &mut [ColumnUse]) {
    for (at, column) in table.columns.iter().enumerate() {
        if let Some(found) = map
            .get(&column.name)
            .and_then(|(name, symbol)| used(name, symbol))
        {
            set(uses, at, found);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::prove::log::table::LogColumn;

    #[test]
    fn a_choice_comes_back_by_the_columns_name_and_takes_the_quantity_over() {
        let column = |name: &str| LogColumn {
            name: name.to_owned(),
            ..LogColumn::default()
        };
        let table = LogTable {
            columns: vec![column("CHT A"), column("CHT1"), column("t")],
            ..LogTable::default()
        };
        let celsius = used("head_1_k", "°C").expect("a use");
        let mut map = ColumnMap::new();
        remember(&mut map, "CHT A", celsius);
        remember(&mut map, "t", ColumnUse::Clock);
        let mut uses = vec![
            ColumnUse::Nothing,
            used("head_1_k", "°F").expect("a use"),
            ColumnUse::Nothing,
        ];
        recall(&map, &table, &mut uses);
        assert_eq!(uses, [celsius, ColumnUse::Nothing, ColumnUse::Clock]);
    }

    #[test]
    fn words_of_a_use_mean_the_same_again() {
        for &quantity in Quantity::ALL {
            for unit in quantity.column_units() {
                let use_of = ColumnUse::Quantity(quantity, unit);
                let (name, symbol) = words(use_of);
                assert_eq!(used(&name, &symbol), Some(use_of));
            }
        }
        assert_eq!(used("no such quantity", "°F"), None);
    }
}
