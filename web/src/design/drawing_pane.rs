//! The drawing's place on the page: the one file that knows which drawing is shown.

use crate::browser::window;
use crate::design::dimension_editor::{Dimension as Figure, DimensionEditor};
use crate::design::parts::Part;
use crate::design::strip::manner;
use crate::kit::format;
use crate::kit::later::use_a_frame_later;
use crate::kit::page::{Outcome, use_page};
use crate::kit::part::part;
use crate::kit::shared::Shared;
use crate::part;
use crate::sheet;
use crate::sheet::readout::Readout;
use crate::sheet::text_width::Widest;
use crate::sheet::{Drawing, Request, View};
use coolpath_core::answer::band::Bands;
use coolpath_core::answer::evaluate::Answer;
use coolpath_core::document::condition::Condition;
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::Installation;
use coolpath_core::language::{tr, tr_later};
use coolpath_core::units::typed::{Dimension, UnitSystem};
use web_sys::Element;
use yew::prelude::*;

/// What the drawing shows.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// The part that is chosen.
    pub selected: Part,
    /// Chooses a part.
    pub on_select: Callback<Part>,
}

/// Views and what they are called.
const VIEWS: [(View, &str); 4] = [
    (View::All, tr_later("All")),
    (View::Side, tr_later("Side")),
    (View::Front, tr_later("Front")),
    (View::Plan, tr_later("Plan")),
];
/// Below this room one view is shown at a time, with parts as large as a finger, CSS px.
const NARROW: f64 = 600.0;
/// From this room on all views are shown until one is chosen; in less they are small, CSS px.
const ROOMY: f64 = 760.0;
/// From this width of the page on the part stands beside the drawing, CSS px.
const BESIDE: f64 = 960.0;
/// Most height beside the part, CSS px.
const TALLEST: f64 = 900.0;
/// Height over width of a single view and of all, and the least and most height, CSS px.
const SHAPES: ((f64, f64), (f64, f64)) = ((0.88, 0.5), (300.0, 510.0));

/// What of the page is drawn.
#[derive(Properties, Clone, PartialEq)]
struct Shown {
    selected: Part,
    on_select: Callback<Part>,
    design: Shared<Design>,
    answers: Shared<Vec<Outcome>>,
    bands: Option<Shared<Bands>>,
    place: usize,
    system: UnitSystem,
}

/// The drawing, or why there is none; the page's numbers are painted before it.
#[function_component]
pub fn DrawingPane(props: &Props) -> Html {
    let Props {
        selected,
        on_select,
    } = props.clone();
    let shown = use_page(move |page| Shown {
        selected,
        on_select: on_select.clone(),
        design: page.design.clone(),
        answers: page.answers.clone(),
        bands: page
            .bands
            .get(page.place())
            .and_then(|bands| bands.clone().ok())
            .map(Shared::from),
        place: page.place(),
        system: page.system(),
    });
    let shown = use_a_frame_later(&shown);
    part::<DrawnPage>(shown)
}

/// The drawing of what is given.
#[function_component]
fn DrawnPage(props: &Shown) -> Html {
    let Shown {
        selected,
        on_select,
        design,
        answers,
        bands,
        place,
        system,
    } = props;
    let (place, system) = (*place, *system);
    let (whole, frame) = (use_node_ref(), use_node_ref());
    let edited = use_state(|| None::<Figure>);
    let left = use_state(|| None::<Figure>);
    use_focus_again(&whole, &left);
    let chosen_view = use_state(|| None::<View>);
    let (width, height) = use_room(&frame);
    let ghost = use_earlier(design);
    let (Some(condition), Some(outcome)) = (design.conditions.get(place), answers.get(place))
    else {
        return Html::default();
    };
    let narrow = width < NARROW;
    let shown = match *chosen_view {
        Some(View::All) if narrow => View::Side,
        Some(view) => view,
        None if width < ROOMY => View::Side,
        None => View::All,
    };
    let ((one, all), (least, most)) = SHAPES;
    let shape = if narrow { one } else { all };
    let readout = outcome
        .as_ref()
        .ok()
        .map(|answer| Readout::judged(&design.installation, answer, bands.as_deref()));
    let shutter = outcome.as_ref().map_or(1.0, |answer| opening(answer));
    let drawing = Drawing::of(&Request {
        before: (ghost.installation != design.installation).then_some(&ghost.installation),
        flap: condition.flap,
        shutter,
        readout: readout.as_ref(),
        view: shown,
        selected: drawn(*selected),
        system,
        widths: &Widest,
        touch: narrow,
        ..Request::new(
            &design.installation,
            width,
            height.unwrap_or_else(|| (width * shape).clamp(least, most)),
        )
    });
    let choose = choosing(on_select.clone(), whole.clone(), edited.setter(), narrow);
    let on_close = {
        let (edited, left) = (edited.clone(), left.setter());
        Callback::from(move |again: bool| {
            if again {
                left.set((*edited).clone());
            }
            edited.set(None);
        })
    };
    let on_click = choose.reform(|event: MouseEvent| event.target_dyn_into::<Element>());
    let on_key = {
        let choose = choose.clone();
        Callback::from(move |event: KeyboardEvent| {
            if event.key() == "Enter" || event.key() == " " {
                event.prevent_default();
                choose.emit(event.target_dyn_into::<Element>());
            }
        })
    };
    let edit = on_select.reform(|_: MouseEvent| Part::Condition);
    html! { <>
        <div class="draw-bar">
            <p><strong>{ format!("{}, {}.", condition.name, manner(condition, system)) }</strong>{ tr(" Click a part to edit it.") }</p>
            { view_switch(shown, narrow, &chosen_view) }
            <button type="button" class="quiet" onclick={edit}>{ tr("Edit this condition") }</button>
        </div>
        <div ref={whole} class="drawing-frame sheet-frame">
            <div ref={frame} class="sheet-room" onclick={on_click} onkeydown={on_key}>
                { Html::from_html_unchecked(AttrValue::from(drawing.svg)) }
            </div>
            if let Some(dimension) = (*edited).clone() {
                { part!(DimensionEditor { dimension, on_close }) }
            }
            if let Err(error) = outcome {
                <p class="fault">{ error.to_string() }</p>
            }
        </div>
    </> }
}

/// What a touched element of the drawing does: a figure opens its field, a part its panel.
fn choosing(
    on_select: Callback<Part>,
    whole: NodeRef,
    edited: UseStateSetter<Option<Figure>>,
    narrow: bool,
) -> Callback<Option<Element>> {
    Callback::from(move |target: Option<Element>| {
        let (Some(target), Some(whole)) = (target, whole.cast::<Element>()) else {
            return;
        };
        if let Some(figure) = Figure::at(&target, &whole) {
            // On a narrow screen the part would cover the drawing.
            if let Some(part) = figure.part().filter(|_| !narrow) {
                on_select.emit(part);
            }
            edited.set(Some(figure));
        } else if let Some(part) = part_at(&target) {
            on_select.emit(chosen(part));
        }
    })
}

/// The views to choose from; a narrow screen shows one at a time.
fn view_switch(shown: View, narrow: bool, chosen_view: &UseStateHandle<Option<View>>) -> Html {
    let offered = VIEWS
        .into_iter()
        .filter(|(one, _)| !(narrow && *one == View::All));
    html! {
        <div class="view-switch" role="group" aria-label={tr("View")}>
            { for offered.map(|(one, name)| {
                let chosen_view = chosen_view.clone();
                let turn = Callback::from(move |_: MouseEvent| chosen_view.set(Some(one)));
                html! { <button type="button" class="quiet" aria-pressed={(one == shown).to_string()} onclick={turn}>{ tr(name) }</button> }
            }) }
        </div>
    }
}

/// The part of the drawing that an element belongs to.
fn part_at(element: &Element) -> Option<sheet::Part> {
    let area = element.closest("[data-part]").ok().flatten()?;
    sheet::Part::named(&area.get_attribute("data-part")?)
}

/// Puts the focus on the figure again whose field was closed, once that is gone.
#[hook]
fn use_focus_again(whole: &NodeRef, left: &UseStateHandle<Option<Figure>>) {
    let (whole, setter) = (whole.clone(), left.setter());
    use_effect_with((**left).clone(), move |figure| {
        if let Some((figure, whole)) = figure.as_ref().zip(whole.cast::<Element>()) {
            figure.focus_figure(&whole);
            setter.set(None);
        }
    });
}

/// Width of the drawing's frame, once it is known; before that of the page. And its height, where
/// that follows from the window: laid out in it, texts have their own size. CSS px.
#[hook]
fn use_room(frame: &NodeRef) -> (f64, Option<f64>) {
    let room = use_state(|| (0.0, 0.0));
    let page = window::use_width();
    {
        let (frame, room) = (frame.clone(), room.clone());
        use_effect_with(page, move |_| {
            let found = frame.cast::<Element>().map_or((0.0, 0.0), |element| {
                (
                    f64::from(element.client_width()),
                    f64::from(element.client_height()),
                )
            });
            if found.0 > 0.0 && found != *room {
                room.set(found);
            }
        });
    }
    let (width, height) = *room;
    let beside = f64::from(page) >= BESIDE;
    (
        if width > 0.0 { width } else { f64::from(page) },
        (beside && height > 0.0).then(|| height.clamp(SHAPES.1.0, TALLEST)),
    )
}

/// The design as it was before its installation changed last; it stays while the drawing is drawn
/// anew for another reason.
#[hook]
fn use_earlier(design: &Shared<Design>) -> Shared<Design> {
    let known = use_mut_ref(|| (design.clone(), design.clone()));
    let (earlier, current) = &mut *known.borrow_mut();
    if current != design {
        let before = core::mem::replace(current, design.clone());
        if before.installation != design.installation {
            *earlier = before;
        }
    }
    earlier.clone()
}

/// Opening of the shutter that is drawn; one that is not fitted leaves the way open.
fn opening(answer: &Answer) -> f64 {
    answer.shutter_opening.unwrap_or(1.0)
}

/// Size in which all views are laid out to be looked at, also on paper, px.
pub const ALL_VIEWS_PX: (f64, f64) = (760.0, 430.0);

/// A drawing that is only looked at: on paper, beside an alternative, on the first screen.
pub struct Still<'a> {
    /// Installation.
    pub installation: &'a Installation,
    /// Condition.
    pub condition: &'a Condition,
    /// Its answer.
    pub answer: &'a Answer,
    /// Units.
    pub system: UnitSystem,
    /// Which views.
    pub view: View,
    /// Width and height in which it is laid out, px; it is shown as wide as there is room.
    pub size: (f64, f64),
    /// Prefix of the identifiers in its markup, letters only, its own on the page.
    pub id: &'a str,
}

impl Still<'_> {
    /// The picture, with its numbers in words.
    pub fn html(&self) -> Html {
        let (width, height) = self.size;
        let drawing = Drawing::of(&Request {
            flap: self.condition.flap,
            shutter: opening(self.answer),
            readout: Some(&Readout::nominal(self.answer)),
            view: self.view,
            system: self.system,
            id: self.id,
            ..Request::new(self.installation, width, height)
        });
        html! {
            <div class="still" role="img" aria-label={self.words()}>
                <div inert={true}>{ Html::from_html_unchecked(AttrValue::from(drawing.svg)) }</div>
            </div>
        }
    }

    fn words(&self) -> String {
        let answer = self.answer;
        let flow = |kg_s| format::quantity(kg_s, Dimension::MassFlow, self.system, 3);
        let deck = |pascal, kelvin| {
            format!(
                "{}, {}",
                format::quantity(pascal, Dimension::Pressure, self.system, 3),
                format::temperature(kelvin, self.system)
            )
        };
        tr!(
            "Drawing for {}. Upper deck {}. Lower deck {}. Air through the inlets {}, through the \
             fins {}, through the oil cooler {}.",
            answer.name,
            deck(answer.upper_deck.value, answer.upper_deck_air.value),
            deck(answer.lower_deck.value, answer.lower_deck_air.value),
            flow(answer.inlet_flow.value),
            flow(answer.fin_flow.value),
            flow(answer.cooler_flow.value),
        )
    }
}

/// The part of the page that a part of the drawing stands for.
fn chosen(part: sheet::Part) -> Part {
    match part {
        sheet::Part::Propeller => Part::Propeller,
        sheet::Part::Inlets => Part::Inlet(0),
        sheet::Part::UpperDeck => Part::UpperDeck,
        sheet::Part::Engine => Part::Engine,
        sheet::Part::Shutter => Part::Shutter,
        sheet::Part::Cooler => Part::Cooler,
        sheet::Part::LowerDeck => Part::LowerDeck,
        sheet::Part::Exit => Part::Exit(0),
    }
}

/// The part of the drawing that stands for a part of the page; none for what is not drawn.
fn drawn(part: Part) -> Option<sheet::Part> {
    Some(match part {
        Part::Propeller => sheet::Part::Propeller,
        Part::Inlet(_) => sheet::Part::Inlets,
        Part::UpperDeck => sheet::Part::UpperDeck,
        Part::Engine | Part::Limits => sheet::Part::Engine,
        Part::Duct | Part::Shutter => sheet::Part::Shutter,
        Part::Cooler => sheet::Part::Cooler,
        Part::LowerDeck => sheet::Part::LowerDeck,
        Part::Exit(_) | Part::Flap(_) => sheet::Part::Exit,
        Part::Aircraft | Part::Condition => return None,
    })
}
