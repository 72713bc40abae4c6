//! A figure on the page: title, sentence, chart, readout, table, source.

use crate::charts::Figure;
use crate::charts::save::Save;
use crate::charts::table::table;
use crate::kit::controls::use_unfolding;
use crate::kit::table_text::TableText;
use crate::part;
use coolpath_core::language::tr;
use web_sys::Element;
use yew::prelude::*;

/// A figure to show.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// The figure.
    pub figure: Figure,
    /// What is laid over the chart, if it is read and moved by hand; it has readout and keys of its own.
    #[prop_or_default]
    pub over: Option<Html>,
    /// What stands under the chart in place of its readout.
    #[prop_or_default]
    pub under: Html,
}

/// Width of the readout's own drawing, units; it lies over the chart at any size.
const OVERLAY: f64 = 1000.0;

/// Where along a chart a pointer is, as a share of its width, and how far down, as a share of its height.
#[must_use]
pub fn pointed(frame: &NodeRef, (x, y): (i32, i32)) -> Option<(f64, f64)> {
    // Events are heard at the page's root, so that their current target is no help.
    let area = frame.cast::<Element>()?.get_bounding_client_rect();
    (area.width() > 0.0 && area.height() > 0.0).then(|| {
        (
            (f64::from(x) - area.left()) / area.width(),
            (f64::from(y) - area.top()) / area.height(),
        )
    })
}

/// The row that a key leads to from the one that is read.
fn row_by_key(key: &str, row: Option<usize>, rows: usize) -> Option<usize> {
    let last = rows.checked_sub(1)?;
    match (key, row) {
        ("ArrowRight" | "ArrowUp", None) | ("Home", _) => Some(0),
        ("ArrowLeft" | "ArrowDown", None) | ("End", _) => Some(last),
        ("ArrowRight" | "ArrowUp", Some(at)) => Some(last.min(at + 1)),
        ("ArrowLeft" | "ArrowDown", Some(at)) => Some(at.saturating_sub(1)),
        _ => None,
    }
}

/// A figure.
#[function_component]
pub fn FigureView(props: &Props) -> Html {
    let figure = &props.figure;
    // Only this project's own charts pass here; their labels are escaped where they are drawn.
    let chart = Html::from_html_unchecked(AttrValue::from(figure.svg.clone()));
    let sheet = TableText {
        title: figure.topic.clone(),
        columns: figure.columns.clone(),
        rows: figure.rows.clone(),
    };
    html! {
        <figure class="figure">
            { part!(Save { sheet: sheet.clone(), figure: figure.clone() }) }
            <figcaption><h3>{ &figure.title }</h3><p>{ figure.caption() }</p></figcaption>
            if let Some(over) = &props.over {
                <div class="chart-frame">{ chart }{ over.clone() }</div>
                { props.under.clone() }
            } else {
                { part!(Read { figure: figure.clone(), chart }) }
            }
            { part!(Numbers { sheet }) }
            <p class="source">{ &figure.source }</p>
        </figure>
    }
}

/// What a table shows.
#[derive(Properties, Clone, PartialEq)]
struct NumbersProps {
    sheet: TableText,
}

/// A chart's numbers, drawn once they are looked at.
#[function_component]
fn Numbers(props: &NumbersProps) -> Html {
    let (open, on_toggle) = use_unfolding();
    html! {
        <details class="chart-numbers" ontoggle={on_toggle}>
            <summary>{ tr("The numbers") }</summary>
            if *open { { table(&props.sheet, false) } }
        </details>
    }
}

/// A chart to read.
#[derive(Properties, Clone, PartialEq)]
struct ReadProps {
    figure: Figure,
    chart: Html,
}

/// A chart that is read along its axis with a pointer, a finger or the arrow keys.
#[function_component]
fn Read(props: &ReadProps) -> Html {
    let figure = &props.figure;
    let row = use_state(|| None::<usize>);
    let frame = use_node_ref();
    let on_move = {
        let (row, readout, frame) = (row.clone(), figure.readout.clone(), frame.clone());
        Callback::from(move |event: PointerEvent| {
            let share = pointed(&frame, (event.client_x(), event.client_y()));
            let found = share.and_then(|(across, _)| readout.row_at(across));
            if *row != found {
                row.set(found);
            }
        })
    };
    let on_leave = {
        let row = row.clone();
        Callback::from(move |event: PointerEvent| {
            // A finger that is lifted has read; a mouse that leaves has not.
            if event.pointer_type() == "mouse" {
                row.set(None);
            }
        })
    };
    let rows = figure.readout.along.len();
    let on_key = {
        let row = row.clone();
        Callback::from(move |event: KeyboardEvent| {
            if event.key() == "Escape" {
                row.set(None);
            } else if let Some(found) = row_by_key(&event.key(), *row, rows) {
                event.prevent_default();
                row.set(Some(found));
            }
        })
    };
    let place = row.and_then(|row| figure.readout.share_of(row));
    let words = row.and_then(|row| figure.row_text(row));
    let hint = tr("Point at the chart, or use the arrow keys, to read it.");
    let said = words.unwrap_or_else(|| hint.to_owned());
    let line = place.map(|place| {
        let x = (place * OVERLAY).to_string();
        html! {
            <svg class="pointer-line" viewBox={format!("0 0 {OVERLAY} 10")} preserveAspectRatio="none" aria-hidden="true">
                <line x1={x.clone()} y1="0" x2={x} y2="10" />
            </svg>
        }
    });
    // A chart without rows along it, which the table tells all the same.
    if rows == 0 {
        return html! { <div class="chart-frame">{ props.chart.clone() }</div> };
    }
    html! { <>
        <div class="chart-frame" ref={frame} tabindex="0" role="slider" aria-label={tr!("Read: {}", figure.topic)}
            aria-valuemin="1" aria-valuemax={rows.to_string()} aria-valuenow={row.map_or(1, |row| row + 1).to_string()} aria-valuetext={said.clone()}
            onpointermove={on_move.clone()} onpointerdown={on_move} onpointerleave={on_leave} onkeydown={on_key}>
            { props.chart.clone() }
            { line }
        </div>
        <p class="readout" aria-hidden="true">{ said }</p>
    </> }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn arrows_walk_along_the_rows_and_stop_at_their_ends() {
        assert_eq!(row_by_key("ArrowRight", None, 3), Some(0));
        assert_eq!(row_by_key("ArrowLeft", None, 3), Some(2));
        assert_eq!(row_by_key("ArrowRight", Some(2), 3), Some(2));
        assert_eq!(row_by_key("ArrowLeft", Some(0), 3), Some(0));
        assert_eq!(row_by_key("End", Some(0), 3), Some(2));
        assert_eq!(row_by_key("Home", Some(2), 3), Some(0));
        assert_eq!(row_by_key("a", Some(1), 3), None);
        assert_eq!(row_by_key("End", None, 0), None);
    }
}
