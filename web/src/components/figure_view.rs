//! A figure on the page: title, sentence, chart, table, source.

use crate::charts::Figure;
use yew::prelude::*;

/// A figure to show.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// The figure.
    pub figure: Figure,
}

/// A figure.
#[function_component]
pub fn FigureView(props: &Props) -> Html {
    let figure = &props.figure;
    // Only this project's own charts pass here; their labels are escaped where they are drawn.
    let chart = Html::from_html_unchecked(AttrValue::from(figure.svg.clone()));
    html! {
        <figure class="figure">
            <figcaption><h3>{ &figure.title }</h3><p>{ &figure.sentence }</p></figcaption>
            { chart }
            <details>
                <summary>{ "The numbers" }</summary>
                <div class="scroll" tabindex="0" role="region" aria-label={format!("Table: {}", figure.title)}>
                <table>
                    <thead><tr>{ for figure.columns.iter().map(|column| html! { <th scope="col">{ column }</th> }) }</tr></thead>
                    <tbody>
                        { for figure.rows.iter().map(|row| html! {
                            <tr>{ for row.iter().map(|cell| html! { <td>{ cell }</td> }) }</tr>
                        }) }
                    </tbody>
                </table>
                </div>
            </details>
            <p class="source">{ &figure.source }</p>
        </figure>
    }
}
