//! A figure on the page: title, sentence, chart, readout, table, source.

use crate::charts::Figure;
use crate::charts::save::Save;
use crate::charts::table::table;
use crate::kit::sheet::Sheet;
use web_sys::Element;
use yew::prelude::*;

/// A figure to show.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// The figure.
    pub figure: Figure,
}

/// Width of the readout's own drawing, units; it lies over the chart at any size.
const OVERLAY: f64 = 1000.0;

/// A figure.
#[function_component]
pub fn FigureView(props: &Props) -> Html {
    let figure = &props.figure;
    let row = use_state(|| None::<usize>);
    // Events are heard at the page's root, so that their current target is no help.
    let frame = use_node_ref();
    let on_move = {
        let (row, readout, frame) = (row.clone(), figure.readout.clone(), frame.clone());
        Callback::from(move |event: PointerEvent| {
            let share = frame
                .cast::<Element>()
                .map(|element| element.get_bounding_client_rect())
                .filter(|area| area.width() > 0.0)
                .map(|area| (f64::from(event.client_x()) - area.left()) / area.width());
            let found = share.and_then(|share| readout.row_at(share));
            if *row != found {
                row.set(found);
            }
        })
    };
    let on_leave = {
        let row = row.clone();
        Callback::from(move |_: PointerEvent| row.set(None))
    };
    // Only this project's own charts pass here; their labels are escaped where they are drawn.
    let chart = Html::from_html_unchecked(AttrValue::from(figure.svg.clone()));
    let sheet = Sheet {
        title: figure.topic.clone(),
        columns: figure.columns.clone(),
        rows: figure.rows.clone(),
    };
    let place = row.and_then(|row| figure.readout.share_of(row));
    let words = row.and_then(|row| figure.row_text(row));
    html! {
        <figure class="figure">
            <Save sheet={sheet.clone()} figure={figure.clone()} />
            <figcaption><h3>{ &figure.title }</h3><p>{ figure.caption() }</p></figcaption>
            <div class="chart-frame" ref={frame} onpointermove={on_move.clone()} onpointerdown={on_move} onpointerleave={on_leave}>
                { chart }
                if let Some(place) = place {
                    <svg class="pointer-line" viewBox={format!("0 0 {OVERLAY} 10")} preserveAspectRatio="none" aria-hidden="true">
                        <line x1={(place * OVERLAY).to_string()} y1="0" x2={(place * OVERLAY).to_string()} y2="10" />
                    </svg>
                }
            </div>
            <p class="readout" aria-hidden="true">{ words.unwrap_or_else(|| "Point at the chart to read it.".to_owned()) }</p>
            <details>
                <summary>{ "The numbers" }</summary>
                { table(&sheet, false) }
            </details>
            <p class="source">{ &figure.source }</p>
        </figure>
    }
}
