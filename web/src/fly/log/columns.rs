//! The columns of a log: what each is used for, and in which unit.

use crate::fly::log::job::Opened;
use crate::kit::controls::on_option;
use coolpath_core::document::quantity::Quantity;
use coolpath_core::prove::log::ColumnUse;
use coolpath_core::prove::log::column_map;
use coolpath_core::units::typed::rounded_text;
use yew::prelude::*;

/// Most values that stand beside a column's name.
const SHOWN_VALUES: usize = 3;

/// Table of the columns; `on_use` hears a column and its new use.
pub fn columns(opened: &Opened, on_use: &Callback<(usize, ColumnUse)>) -> Html {
    let (taken, free): (Vec<usize>, Vec<usize>) =
        (0..opened.uses.len()).partition(|at| opened.uses[*at] != ColumnUse::Nothing);
    html! {
        <>
            { table(opened, &taken, on_use, "Columns in use") }
            if !free.is_empty() {
                <details>
                    <summary>{ format!("Columns not in use ({})", free.len()) }</summary>
                    { table(opened, &free, on_use, "Columns not in use") }
                </details>
            }
        </>
    }
}

fn table(
    opened: &Opened,
    list: &[usize],
    on_use: &Callback<(usize, ColumnUse)>,
    name: &'static str,
) -> Html {
    html! {
        <div class="scroll" tabindex="0" role="region" aria-label={name}>
            <table class="log-columns">
                <thead><tr>
                    <th scope="col">{ "Column of the file" }</th>
                    <th scope="col">{ "First numbers" }</th>
                    <th scope="col">{ "Is" }</th>
                    <th scope="col">{ "Unit" }</th>
                </tr></thead>
                <tbody>{ for list.iter().map(|at| row(opened, *at, on_use)) }</tbody>
            </table>
        </div>
    }
}

fn row(opened: &Opened, at: usize, on_use: &Callback<(usize, ColumnUse)>) -> Html {
    let column = &opened.table.columns[at];
    let label = if column.name.is_empty() {
        format!("Column {}", at + 1)
    } else {
        column.name.clone()
    };
    let first: Vec<String> = column
        .values
        .iter()
        .filter(|value| value.is_finite())
        .take(SHOWN_VALUES)
        .map(|value| rounded_text(*value, 6))
        .collect();
    let (name, symbol) = column_map::words(opened.uses[at]);
    let choose = {
        let on_use = on_use.clone();
        move |name: &str, symbol: &str| {
            if let Some(used) = column_map::used(name, symbol) {
                on_use.emit((at, used));
            }
        }
    };
    let on_quantity = {
        let (choose, symbol) = (choose.clone(), symbol.clone());
        on_option(move |option| {
            choose(&option, &symbol);
        })
    };
    let on_unit = {
        let name = name.clone();
        on_option(move |option| {
            choose(&name, &option);
        })
    };
    let units = match opened.uses[at] {
        ColumnUse::Quantity(quantity, _) => quantity.column_units(),
        _ => Vec::new(),
    };
    html! {
        <tr key={at}>
            <th scope="row">{ label.clone() }</th>
            <td>{ first.join(" · ") }</td>
            <td><select aria-label={format!("What {label} is")} onchange={on_quantity}>
                <option value="-" selected={name == "-"}>{ "not used" }</option>
                <option value="clock" selected={name == "clock"}>{ "clock" }</option>
                { for Quantity::ALL.iter().map(|quantity| html! {
                    <option value={quantity.key()} selected={quantity.key() == name}>{ quantity.label() }</option>
                }) }
            </select></td>
            <td>
                if !units.is_empty() {
                    <select aria-label={format!("Unit of {label}")} onchange={on_unit}>
                        { for units.iter().map(|unit| {
                            let text = unit.symbol();
                            html! { <option value={text.clone()} selected={text == symbol}>{ text.clone() }</option> }
                        }) }
                    </select>
                }
            </td>
        </tr>
    }
}
