//! What columns are used for, by their names: what a builder chose and a file can hold.

use crate::document::quantity::{ColumnUnit, Quantity};
use crate::language::tr;
use crate::prove::log::columns::ColumnUse;
use crate::prove::log::table::{HEADER_JOINT, LogTable};
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

/// Why words stand for no use.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum NoUse {
    /// No quantity has this key.
    #[error("{}", tr!("`{}` is no quantity; `clock`, `-` or a key such as `head_1_k` is", .0))]
    Quantity(String),
    /// The quantity is not noted in this unit.
    #[error("{}", tr!("`{}` is no unit of `{}`; {} are", .symbol, .key, .known))]
    Unit {
        /// Key of the quantity.
        key: &'static str,
        /// What was taken for a unit.
        symbol: String,
        /// Units that it has.
        known: String,
    },
}

/// The use that words stand for; a unit that does not fit becomes the quantity's first.
#[must_use]
pub fn used(name: &str, symbol: &str) -> Option<ColumnUse> {
    match strictly_used(name, symbol) {
        Ok(found) => Some(found),
        Err(NoUse::Unit { .. }) => {
            let quantity = quantity_of(name)?;
            let first = quantity.column_units().into_iter().next()?;
            Some(ColumnUse::Quantity(quantity, first))
        }
        Err(_) => None,
    }
}

/// The use that words stand for; a unit by its symbol or another spelling.
///
/// # Errors
/// [`NoUse`] if there is no such quantity, or it has no such unit.
pub fn strictly_used(name: &str, symbol: &str) -> Result<ColumnUse, NoUse> {
    match name {
        NOTHING => return Ok(ColumnUse::Nothing),
        CLOCK => return Ok(ColumnUse::Clock),
        _ => {}
    }
    let quantity = quantity_of(name).ok_or_else(|| NoUse::Quantity(name.to_owned()))?;
    let units = quantity.column_units();
    let spelt = quantity.dimension().unit_named(symbol);
    units
        .iter()
        .find(|unit| {
            unit.symbol() == symbol || spelt.is_some_and(|spelt| **unit == ColumnUnit::Plain(spelt))
        })
        .map(|unit| ColumnUse::Quantity(quantity, *unit))
        .ok_or_else(|| NoUse::Unit {
            key: quantity.key(),
            symbol: symbol.to_owned(),
            known: units
                .iter()
                .map(ColumnUnit::symbol)
                .collect::<Vec<_>>()
                .join(", "),
        })
}

fn quantity_of(key: &str) -> Option<Quantity> {
    let mut all = Quantity::ALL.iter().copied();
    all.find(|quantity| quantity.key() == key)
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

/// Puts a map over what was guessed. A column with several header cells is known by all of them
/// joined, as [`LogTable`] names it, or by one.
pub fn recall(map: &ColumnMap, table: &LogTable, uses: &mut [ColumnUse]) {
    for (at, column) in table.columns.iter().enumerate() {
        if let Some(found) = entry(map, &column.name).and_then(|(name, symbol)| used(name, symbol))
        {
            set(uses, at, found);
        }
    }
}

fn entry<'a>(map: &'a ColumnMap, column: &str) -> Option<&'a (String, String)> {
    map.get(column)
        .or_else(|| column.split(HEADER_JOINT).find_map(|part| map.get(part)))
}

/// Names in a map that no column of a table has.
#[must_use]
pub fn strangers<'a>(map: &'a ColumnMap, table: &LogTable) -> Vec<&'a str> {
    map.keys()
        .map(String::as_str)
        .filter(|name| {
            !table.columns.iter().any(|column| {
                column.name == *name || column.name.split(HEADER_JOINT).any(|part| part == *name)
            })
        })
        .collect()
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

    #[test]
    fn a_wrong_unit_is_told_or_replaced_and_a_part_of_a_columns_name_is_enough() {
        let celsius = strictly_used("oil_k", "C").expect("spelt otherwise");
        assert_eq!(words(celsius), ("oil_k".to_owned(), "°C".to_owned()));
        let told = strictly_used("oil_k", "psi").expect_err("no temperature");
        assert!(told.to_string().contains("`psi`"), "{told}");
        assert_eq!(used("oil_k", "psi"), used("oil_k", "°F"));
        let column = LogColumn {
            name: "Oil in (deg) · OilT".to_owned(),
            ..LogColumn::default()
        };
        let table = LogTable {
            columns: vec![column],
            ..LogTable::default()
        };
        let mut map = ColumnMap::new();
        remember(&mut map, "OilT", celsius);
        let mut uses = vec![ColumnUse::Nothing];
        recall(&map, &table, &mut uses);
        assert_eq!(uses, [celsius]);
        remember(&mut map, "Oil", celsius);
        assert_eq!(strangers(&map, &table), ["Oil"]);
    }
}
