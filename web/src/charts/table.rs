//! A table with its name, which leaves the page by the menu beside it.

use crate::charts::save::Save;
use crate::kit::table_text::TableText;
use crate::part;
use yew::prelude::*;

/// A table to show.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// The table.
    pub sheet: TableText,
    /// Whether its name stands above it.
    #[prop_or_default]
    pub captioned: bool,
}

/// The table in a region of its own, the first cell of each row being the row's head.
pub fn table(sheet: &TableText, captioned: bool) -> Html {
    html! {
        <div class="scroll" tabindex="0" role="region" aria-label={sheet.title.clone()}>
            <table>
                if captioned { <caption>{ &sheet.title }</caption> }
                <thead><tr>{ for sheet.columns.iter().map(|column| html! { <th scope="col">{ column }</th> }) }</tr></thead>
                <tbody>
                    { for sheet.rows.iter().map(|row| html! {
                        <tr>{ for row.iter().enumerate().map(|(at, cell)| if at == 0 {
                            html! { <th scope="row">{ cell }</th> }
                        } else {
                            html! { <td>{ cell }</td> }
                        }) }</tr>
                    }) }
                </tbody>
            </table>
        </div>
    }
}

/// The table with its menu.
#[function_component]
pub fn TableView(props: &Props) -> Html {
    html! {
        <div class="table-view">
            { part!(Save { sheet: props.sheet.clone() }) }
            { table(&props.sheet, props.captioned) }
        </div>
    }
}
