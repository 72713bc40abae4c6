//! "Save" beside a figure or a table: as a picture, as a table for other programs, to the clipboard.

use crate::browser::copying::{Copied, copied};
use crate::browser::{clipboard, files, picture, window};
use crate::charts::figure::Figure;
use crate::charts::standing_alone;
use crate::kit::controls::use_unfolding;
use crate::kit::page::use_page;
use crate::kit::refused::use_refused;
use crate::kit::table_text::{Between, TableText};
use crate::state::document::file_stem;
use coolpath_core::language::tr;
use yew::platform::spawn_local;
use yew::prelude::*;

/// What can be saved.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// Its table.
    pub sheet: TableText,
    /// Its chart.
    #[prop_or_default]
    pub figure: Option<Figure>,
}

/// Ways out of the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Way {
    Svg,
    Png,
    Csv,
    Copy,
}

/// What came of it.
enum Said {
    /// A file was saved, or not.
    File(String),
    /// The text of the table was copied, or stands there to be copied.
    Copied(Copied),
}

/// A byte order mark: without it some spreadsheets take the text for one of another alphabet.
const MARK: char = '\u{feff}';

fn chart(props: &Props, refused: Option<&str>) -> standing_alone::Picture {
    props.figure.as_ref().map_or_else(
        || standing_alone::Picture {
            svg: String::new(),
            width: 0.0,
            height: 0.0,
        },
        |figure| standing_alone::picture(figure, refused, &window::style_variable),
    )
}

async fn taken(props: Props, refused: Option<AttrValue>, stem: String, way: Way) -> Said {
    let refused = refused.as_deref();
    let comma = clipboard::has_decimal_comma();
    let (name, done) = match way {
        Way::Copy => {
            let text = props.sheet.text(Between::Tab, comma, refused);
            let then = tr("Copied: paste it into a spreadsheet.");
            return Said::Copied(copied(text, then).await);
        }
        Way::Csv => {
            let name = format!("{stem}.csv");
            let text = props.sheet.text(Between::Comma, comma, refused);
            let done = files::download(&name, "text/csv", &format!("{MARK}{text}"));
            (name, done)
        }
        Way::Svg => {
            let name = format!("{stem}.svg");
            let done = files::download(&name, "image/svg+xml", &chart(&props, refused).svg);
            (name, done)
        }
        Way::Png => {
            let name = format!("{stem}.png");
            let made = chart(&props, refused);
            let size = (made.width, made.height);
            let done = picture::download_png(&name, &made.svg, size).await;
            (name, done)
        }
    };
    Said::File(files::told(&name, done))
}

/// The menu.
#[function_component]
pub fn Save(props: &Props) -> Html {
    let (open, on_toggle) = use_unfolding();
    let said = use_state(|| None::<Said>);
    let refused = use_refused();
    let aircraft = use_page(|page| page.design.name.clone());
    let button = |way: Way, label: &'static str| {
        let stem = format!("{}-{}", file_stem(&aircraft), file_stem(&props.sheet.title));
        let (props, refused, said) = (props.clone(), refused.clone(), said.clone());
        let press = Callback::from(move |_: MouseEvent| {
            let (props, refused, stem) = (props.clone(), refused.clone(), stem.clone());
            let said = said.clone();
            spawn_local(async move { said.set(Some(taken(props, refused, stem, way).await)) });
        });
        html! { <button type="button" class="quiet" onclick={press}>{ label }</button> }
    };
    html! {
        <details class="save" name="save" ontoggle={on_toggle}>
            <summary aria-label={tr!("Save: {}", props.sheet.title)}>{ tr("Save") }</summary>
            if *open {
                <div class="save-body">
                    if props.figure.is_some() {
                        { button(Way::Png, tr("Chart as a picture (PNG)")) }
                        { button(Way::Svg, tr("Chart as a drawing (SVG)")) }
                    }
                    { button(Way::Csv, tr("Table as a file (CSV)")) }
                    { button(Way::Copy, tr("Copy the table")) }
                    <div aria-live="polite">
                        { said.as_ref().map(|said| match said {
                            Said::File(sentence) => html! { <p class="hint">{ sentence.clone() }</p> },
                            Said::Copied(copied) => copied.view(tr!("Text of the table: {}", props.sheet.title)),
                        }) }
                    </div>
                </div>
            }
        </details>
    }
}
