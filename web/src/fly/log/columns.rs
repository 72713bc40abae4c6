//! The columns of a log: what each is used for, and in which unit.

use crate::fly::log::job::Opened;
use crate::fly::log::memory;
use crate::kit::controls::{on_option, use_unfolding};
use crate::kit::shared::Shared;
use crate::part;
use coolpath_core::document::quantity::Quantity;
use coolpath_core::language::tr;
use coolpath_core::prove;
use coolpath_core::prove::log::column_map;
use coolpath_core::prove::log::{ColumnUse, Offer};
use coolpath_core::units::typed::rounded_text;
use yew::prelude::*;

/// Most values that stand beside a column's name.
const SHOWN_VALUES: usize = 3;

/// The log, and who hears of it with other columns.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// The log.
    pub opened: Shared<Opened>,
    /// Who hears.
    pub change: Callback<Opened>,
}

/// What is asked about the columns, and all of them once they are looked at: a log may have hundreds.
#[function_component]
pub fn Columns(props: &Props) -> Html {
    let Props { opened, change } = props;
    let (open, on_toggle) = use_unfolding();
    let on_use = {
        let (opened, change) = (opened.clone(), change.clone());
        Callback::from(move |(at, used): (usize, ColumnUse)| {
            let mut next = (*opened).clone();
            column_map::set(&mut next.uses, at, used);
            let mut known = memory::kept();
            column_map::remember(&mut known, &next.table.columns[at].name, used);
            memory::keep(&known);
            change.emit(next);
        })
    };
    let on_take = {
        let (opened, change) = (opened.clone(), change.clone());
        Callback::from(move |taken: Vec<(usize, ColumnUse)>| {
            let mut next = (*opened).clone();
            for (at, used) in taken {
                column_map::set(&mut next.uses, at, used);
            }
            change.emit(next);
        })
    };
    let (taken, free): (Vec<usize>, Vec<usize>) =
        (0..opened.uses.len()).partition(|at| opened.uses[*at] != ColumnUse::Nothing);
    html! {
        <>
        { offers(opened, &on_take) }
        if taken.is_empty() {
            <p class="question" role="alert">{ tr("No column was recognised, so that nothing can be read: open “Columns and their units”, then “Columns not in use”, and say what each is.") }</p>
        }
        <details id="log-columns" ontoggle={on_toggle}>
            <summary>{ tr("Columns and their units") }</summary>
            if *open {
                <p class="hint">{ tr("Check the units, column by column: logs mix them. What you choose is remembered by the column's name.") }</p>
                { table(opened, &taken, &on_use, tr("Columns in use")) }
                if !free.is_empty() {
                    { part!(Unused { opened: opened.clone(), free, on_use }) }
                }
            }
        </details>
        </>
    }
}

/// Columns that are not in use, and who hears of a use.
#[derive(Properties, Clone, PartialEq)]
struct UnusedProps {
    opened: Shared<Opened>,
    free: Vec<usize>,
    on_use: Callback<(usize, ColumnUse)>,
}

/// The columns that are not in use, once they are looked at.
#[function_component]
fn Unused(props: &UnusedProps) -> Html {
    let (open, on_toggle) = use_unfolding();
    html! {
        <details id="log-unused" ontoggle={on_toggle}>
            <summary>{ tr!("Columns not in use ({})", props.free.len()) }</summary>
            if *open { { table(&props.opened, &props.free, &props.on_use, tr("Columns not in use")) } }
        </details>
    }
}

/// Units offered for columns whose names give none, with one button for all of them.
fn offers(opened: &Opened, on_take: &Callback<Vec<(usize, ColumnUse)>>) -> Html {
    let known = memory::kept();
    let found: Vec<Offer> = prove::log::offers(&opened.table, &opened.uses)
        .into_iter()
        .filter(|offer| !known.contains_key(&opened.table.columns[offer.column].name))
        .collect();
    if found.is_empty() {
        return Html::default();
    }
    let said: Vec<String> = found
        .iter()
        .map(|offer| {
            let name = &opened.table.columns[offer.column].name;
            let symbol = offer.unit.label();
            tr!("“{}” in {} ({})", name, symbol, offer.reason.words())
        })
        .collect();
    let uses: Vec<(usize, ColumnUse)> = found
        .iter()
        .map(|offer| {
            (
                offer.column,
                ColumnUse::Quantity(offer.quantity, offer.unit),
            )
        })
        .collect();
    let take = on_take.reform(move |_: MouseEvent| uses.clone());
    html! {
        <p class="question" id="log-offers" role="status">
            { tr!("No unit stands with these columns: {}? ", said.join("; ")) }
            <button type="button" onclick={take}>{ tr("Take these units") }</button>
        </p>
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
                    <th scope="col">{ tr("Column of the file") }</th>
                    <th scope="col">{ tr("First numbers") }</th>
                    <th scope="col">{ tr("Is") }</th>
                    <th scope="col">{ tr("Unit") }</th>
                </tr></thead>
                <tbody>{ for list.iter().map(|at| row(opened, *at, on_use)) }</tbody>
            </table>
        </div>
    }
}

fn row(opened: &Opened, at: usize, on_use: &Callback<(usize, ColumnUse)>) -> Html {
    let column = &opened.table.columns[at];
    let label = if column.name.is_empty() {
        tr!("Column {}", at + 1)
    } else {
        column.name.clone()
    };
    let first: Vec<String> = column
        .values
        .iter()
        .filter(|value| value.is_finite())
        .take(SHOWN_VALUES)
        .map(|value| rounded_text(value, 6))
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
            <td><select aria-label={tr!("What {} is", label)} onchange={on_quantity}>
                <option value="-" selected={name == "-"}>{ tr("not used") }</option>
                <option value="clock" selected={name == "clock"}>{ tr("clock") }</option>
                { for Quantity::ALL.iter().map(|quantity| html! {
                    <option value={quantity.key()} selected={quantity.key() == name}>{ quantity.label() }</option>
                }) }
            </select></td>
            <td>
                if !units.is_empty() {
                    <select aria-label={tr!("Unit of {}", label)} onchange={on_unit}>
                        { for units.iter().map(|unit| {
                            let text = unit.symbol();
                            html! { <option value={text.clone()} selected={text == symbol}>{ unit.label() }</option> }
                        }) }
                    </select>
                }
            </td>
        </tr>
    }
}
