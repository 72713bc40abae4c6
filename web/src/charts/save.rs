//! "Save" beside a figure or a table: as a picture, as a table for other programs, to the clipboard.

use crate::browser::{clipboard, files, picture, window};
use crate::charts::figure::Figure;
use crate::charts::standing_alone;
use crate::kit::controls::use_unfolding;
use crate::kit::page::use_page;
use crate::kit::refused::use_refused;
use crate::kit::sheet::{Between, Sheet};
use crate::state::document::file_stem;
use web_sys::HtmlTextAreaElement;
use yew::platform::spawn_local;
use yew::prelude::*;

/// What can be saved.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// Its table.
    pub sheet: Sheet,
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

/// What came of it: a sentence, and the text where the builder must copy it.
type Said = (String, Option<String>);

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
            if clipboard::copied(&text).await {
                return ("Copied: paste it into a spreadsheet.".to_owned(), None);
            }
            let said = "The browser keeps the clipboard shut here. Copy the text below.";
            return (said.to_owned(), Some(text));
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
    let said = match done {
        Ok(()) => format!("Saved as {name}, in the browser's folder for downloads."),
        Err(error) => format!("The file could not be saved: {error:?}"),
    };
    (said, None)
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
            <summary aria-label={format!("Save: {}", props.sheet.title)}>{ "Save" }</summary>
            if *open {
                <div class="save-body">
                    if props.figure.is_some() {
                        { button(Way::Png, "Chart as a picture (PNG)") }
                        { button(Way::Svg, "Chart as a drawing (SVG)") }
                    }
                    { button(Way::Csv, "Table as a file (CSV)") }
                    { button(Way::Copy, "Copy the table") }
                    <div aria-live="polite">
                        if let Some((sentence, text)) = &*said {
                            <p class="hint">{ sentence.clone() }</p>
                            if let Some(text) = text {
                                <textarea rows="5" readonly=true aria-label={format!("Text of the table: {}", props.sheet.title)}
                                    value={text.clone()} onfocus={select()} />
                            }
                        }
                    </div>
                </div>
            }
        </details>
    }
}

/// Selects a text when its field gets the focus.
fn select() -> Callback<FocusEvent> {
    Callback::from(|event: FocusEvent| {
        if let Some(field) = event.target_dyn_into::<HtmlTextAreaElement>() {
            field.select();
        }
    })
}
