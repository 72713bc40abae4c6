//! The field of a dimension, laid over its figure in the drawing.

use crate::design::fields::number_field::NumberField;
use crate::design::parts;
use crate::design::parts::{Kind, Part};
use crate::kit::page::{use_dispatch, use_page};
use crate::part;
use crate::state::field;
use crate::state::field_key::FieldKey;
use crate::state::{Action, State};
use coolpath_core::document::table;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement, HtmlInputElement, Node};
use yew::prelude::*;

/// Begins the ids of the field: the part's panel holds the same input.
const WITHIN: &str = "drawn-";
/// Width of the field with its frame, CSS px; the style sheet has the same.
const WIDTH: f64 = 224.0;
/// Room for it with a message of two lines, CSS px.
const HEIGHT: f64 = 150.0;
/// From its upper edge to the middle of the figure, CSS px: an exit's figure stands above what it
/// measures, an inlet's below, and neither opening is to be covered.
const ABOVE: (f64, f64) = (72.0, 16.0);

/// A dimension in the drawing whose figure was pressed.
#[derive(Debug, Clone, PartialEq)]
pub struct Dimension {
    /// Id of its input.
    pub id: &'static str,
    /// Its place in the list of inlets or exits.
    pub place: usize,
    /// Left and upper edge of its field in the frame, CSS px.
    corner: (f64, f64),
}

impl Dimension {
    /// The dimension whose figure holds an element, if it is one's.
    #[must_use]
    pub fn at(element: &Element, frame: &Element) -> Option<Self> {
        let figure = element.closest("[data-dimension]").ok().flatten()?;
        let input = table::by_id(&figure.get_attribute("data-dimension")?)?;
        let place = figure.get_attribute("data-place")?.parse().ok()?;
        let (room, about) = (
            frame.get_bounding_client_rect(),
            figure.get_bounding_client_rect(),
        );
        let middle = (
            about.left() + 0.5 * about.width() - room.left(),
            about.top() + 0.5 * about.height() - room.top(),
        );
        Some(Self {
            id: input.id,
            place,
            corner: corner(
                (middle.0, middle.1 - above(input.id)),
                (room.width(), room.height()),
            ),
        })
    }

    /// Finds its figure.
    fn selector(&self) -> String {
        format!(
            "[data-dimension='{}'][data-place='{}']",
            self.id, self.place
        )
    }

    /// Puts the focus on its figure again.
    pub fn focus_figure(&self, frame: &Element) {
        let figure = frame.query_selector(&self.selector()).ok().flatten();
        if let Some(figure) = figure {
            focus(&figure);
        }
    }

    /// The part that it belongs to.
    #[must_use]
    pub fn part(&self) -> Option<Part> {
        match parts::kind_of(self.id)? {
            Kind::Inlet => Some(Part::Inlet(self.place)),
            Kind::Exit => Some(Part::Exit(self.place)),
            Kind::Duct => Some(Part::Duct),
            Kind::Cooler => Some(Part::Cooler),
            _ => None,
        }
    }

    fn key(&self) -> FieldKey {
        FieldKey::new(self.id, self.place)
    }
}

/// How far a field begins above the middle of its figure, CSS px.
fn above(id: &str) -> f64 {
    if id.starts_with("exit.") {
        ABOVE.0
    } else {
        ABOVE.1
    }
}

/// Upper left corner of a field about the middle of its upper edge, within a frame's width and height.
fn corner(top: (f64, f64), frame: (f64, f64)) -> (f64, f64) {
    let kept = |wanted: f64, room: f64| wanted.clamp(0.0, room.max(0.0));
    (
        kept(top.0 - 0.5 * WIDTH, frame.0 - WIDTH),
        kept(top.1, frame.1 - HEIGHT),
    )
}

/// Elements of the drawing are no `HtmlElement`s; what gives them the focus is the same.
fn focus(element: &Element) {
    let _ = element.unchecked_ref::<HtmlElement>().focus();
}

/// What is edited.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// The dimension.
    pub dimension: Dimension,
    /// Closes the field; true where its figure is to have the focus again.
    pub on_close: Callback<bool>,
}

/// What stands in a field.
fn text(state: &State, dimension: &Dimension) -> String {
    table::by_id(dimension.id).map_or_else(String::new, |input| {
        field::text(state, input, dimension.place)
    })
}

/// The field. Enter closes it, Escape brings back what stood there, and leaving it closes it too.
#[function_component]
pub fn DimensionEditor(props: &Props) -> Html {
    let Props {
        dimension,
        on_close,
    } = props;
    let frame = use_node_ref();
    let dispatch = use_dispatch();
    let stands = {
        let dimension = dimension.clone();
        use_page(move |page| text(&page.state, &dimension))
    };
    let stood = use_state_eq(|| stands.clone());
    {
        let frame = frame.clone();
        use_effect_with(dimension.clone(), move |_| {
            let found = frame
                .cast::<Element>()
                .and_then(|frame| frame.query_selector("input").ok().flatten())
                .and_then(|input| input.dyn_into::<HtmlInputElement>().ok());
            if let Some(input) = found {
                let _ = input.focus();
                input.select();
            }
        });
    }
    let on_key = {
        let (on_close, dimension) = (on_close.clone(), dimension.clone());
        Callback::from(move |event: KeyboardEvent| match event.key().as_str() {
            "Enter" => {
                event.prevent_default();
                on_close.emit(true);
            }
            "Escape" => {
                if *stood != stands {
                    dispatch.emit(Action::Type {
                        key: dimension.key(),
                        text: (*stood).clone(),
                    });
                }
                on_close.emit(true);
            }
            _ => {}
        })
    };
    let on_leave = {
        let (on_close, frame) = (on_close.clone(), frame.clone());
        Callback::from(move |event: FocusEvent| {
            let to = event
                .related_target()
                .and_then(|to| to.dyn_into::<Node>().ok());
            let stays = frame
                .cast::<Node>()
                .is_some_and(|frame| frame.contains(to.as_ref()));
            if !stays {
                on_close.emit(false);
            }
        })
    };
    let (left, top) = dimension.corner;
    html! {
        <div ref={frame} class="dimension-editor" style={format!("left: {left:.0}px; top: {top:.0}px")}
            onkeydown={on_key} onfocusout={on_leave} onmousedown={keep_focus()}>
            <key={format!("{}-{}", dimension.id, dimension.place)}>{ part!(NumberField { id: dimension.id, place: dimension.place, within: WITHIN, steps: true }) }</>
        </div>
    }
}

/// Pressing what takes no focus, such as the frame, must not take it from the field.
fn keep_focus() -> Callback<MouseEvent> {
    Callback::from(|event: MouseEvent| {
        let input = event
            .target_dyn_into::<Element>()
            .is_some_and(|target| target.tag_name() == "INPUT");
        if !input {
            event.prevent_default();
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_field_stays_within_the_frame() {
        assert_eq!(corner((400.0, 300.0), (1000.0, 500.0)), (288.0, 300.0));
        assert_eq!(corner((10.0, -20.0), (1000.0, 500.0)), (0.0, 0.0));
        assert_eq!(
            corner((990.0, 490.0), (1000.0, 500.0)),
            (1000.0 - WIDTH, 500.0 - HEIGHT)
        );
        assert_eq!(corner((90.0, 300.0), (100.0, 500.0)).0, 0.0);
    }
}
