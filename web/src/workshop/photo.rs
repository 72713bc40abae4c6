//! "Area from a photograph": mark a sheet's corners, trace the opening, take the area over.

use crate::kit::controls::option_field;
use crate::kit::format;
use crate::kit::page::{use_dispatch, use_page};
use crate::part;
use crate::state::Action;
use coolpath_core::document::installation::InletShape;
use coolpath_core::language::{tr, tr_later};
use coolpath_core::units::quantity::{metre, square_metre};
use coolpath_core::units::typed;
use coolpath_core::units::typed::Dimension;
use coolpath_core::workshop::photo::{PhotoError, Place, Traced, may_follow, traced};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlInputElement, Url};
use yew::prelude::*;

/// What the next click marks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Marking {
    Corners,
    Outline,
    Lip,
}

/// What was marked, in pixels of the picture.
#[derive(Debug, Clone, PartialEq, Default)]
struct Marks {
    corners: Vec<Place>,
    outline: Vec<Place>,
    lip: Vec<Place>,
}

impl Marks {
    fn of(&mut self, marking: Marking) -> (&mut Vec<Place>, usize) {
        match marking {
            Marking::Corners => (&mut self.corners, 4),
            Marking::Outline => (
                &mut self.outline,
                coolpath_core::document::design::MAX_OUTLINE,
            ),
            Marking::Lip => (&mut self.lip, 3),
        }
    }
}

/// Sizes of the sheet, m.
const SHEETS: [(&str, (f64, f64)); 4] = [
    (tr_later("A4, short side first"), (0.210, 0.297)),
    (tr_later("A4, long side first"), (0.297, 0.210)),
    (tr_later("US Letter, short side first"), (0.2159, 0.2794)),
    (tr_later("US Letter, long side first"), (0.2794, 0.2159)),
];

/// A picture: its address in this browser and its size, pixels.
#[derive(Debug, Clone, PartialEq)]
struct Picture {
    address: String,
    size: Option<(f64, f64)>,
}

/// A picture under work, and what is marked on it.
#[derive(Debug, Clone, PartialEq)]
struct Tracing {
    picture: Option<Picture>,
    marks: Marks,
    marking: Marking,
    sheet: usize,
    /// Why the last click marked nothing.
    refused: Option<PhotoError>,
}

/// What happens to it.
enum Deed {
    /// A picture was chosen, at this address.
    Choose(String),
    /// It was loaded, with this size.
    Load(Option<(f64, f64)>),
    /// The next click marks something else.
    Turn(Marking),
    /// A place was clicked on.
    Mark(Place),
    /// The last mark goes.
    TakeBack,
    /// The sheet is one of another size.
    Sheet(usize),
}

impl Tracing {
    fn begun() -> Self {
        Self {
            picture: None,
            marks: Marks::default(),
            marking: Marking::Corners,
            sheet: 0,
            refused: None,
        }
    }

    fn mark(&mut self, place: Place) {
        let marking = self.marking;
        let (list, most) = self.marks.of(marking);
        let spoils = match marking {
            Marking::Outline => may_follow(list, place).err(),
            _ => None,
        };
        if list.len() < most && spoils.is_none() {
            list.push(place);
        }
        self.refused = spoils;
        if marking == Marking::Corners && self.marks.corners.len() == 4 {
            self.marking = Marking::Outline;
        }
    }

    /// The opening, once enough is marked.
    fn found(&self) -> Option<Result<Traced, PhotoError>> {
        match self.marks.corners.as_slice() {
            &[a, b, c, d] if self.marks.outline.len() >= 3 => {
                let lip = match self.marks.lip.as_slice() {
                    &[p, q, r] => Some([p, q, r]),
                    _ => None,
                };
                let sheet = SHEETS[self.sheet].1;
                Some(traced([a, b, c, d], sheet, &self.marks.outline, lip))
            }
            _ => None,
        }
    }
}

impl Reducible for Tracing {
    type Action = Deed;

    fn reduce(self: Rc<Self>, deed: Deed) -> Rc<Self> {
        let mut next = (*self).clone();
        match deed {
            Deed::Choose(address) => {
                next = Self {
                    sheet: next.sheet,
                    ..Self::begun()
                };
                next.picture = Some(Picture {
                    address,
                    size: None,
                });
            }
            Deed::Load(size) => {
                if let Some(picture) = &mut next.picture {
                    picture.size = size;
                }
            }
            Deed::Turn(marking) => next.marking = marking,
            Deed::Mark(place) => next.mark(place),
            Deed::TakeBack => drop(next.marks.of(self.marking).0.pop()),
            Deed::Sheet(sheet) => next.sheet = sheet,
        }
        Rc::new(next)
    }
}

type Tracer = UseReducerHandle<Tracing>;

fn on_file(tracing: &Tracer) -> Callback<Event> {
    let tracing = tracing.clone();
    Callback::from(move |event: Event| {
        let Some(element) = event.target_dyn_into::<HtmlInputElement>() else {
            return;
        };
        let file = element.files().and_then(|files| files.get(0));
        element.set_value("");
        let address = file.and_then(|file| Url::create_object_url_with_blob(&file).ok());
        if let Some(address) = address {
            if let Some(old) = &tracing.picture {
                let _ = Url::revoke_object_url(&old.address);
            }
            tracing.dispatch(Deed::Choose(address));
        }
    })
}

fn on_load(tracing: &Tracer) -> Callback<Event> {
    let tracing = tracing.dispatcher();
    Callback::from(move |event: Event| {
        let image = event
            .target()
            .and_then(|target| target.dyn_into::<web_sys::HtmlImageElement>().ok());
        let size = image.map(|image| {
            (
                f64::from(image.natural_width().max(1)),
                f64::from(image.natural_height().max(1)),
            )
        });
        tracing.dispatch(Deed::Load(size));
    })
}

/// Marks the place of a click, in pixels of the picture.
fn on_click(tracing: &Tracer, frame: &NodeRef) -> Callback<MouseEvent> {
    let (tracing, frame) = (tracing.clone(), frame.clone());
    Callback::from(move |event: MouseEvent| {
        let area = frame
            .cast::<Element>()
            .map(|element| element.get_bounding_client_rect());
        let size = tracing.picture.as_ref().and_then(|picture| picture.size);
        let (Some(area), Some((wide, tall))) = (area, size) else {
            return;
        };
        tracing.dispatch(Deed::Mark([
            (f64::from(event.client_x()) - area.left()) / area.width() * wide,
            (f64::from(event.client_y()) - area.top()) / area.height() * tall,
        ]));
    })
}

/// The panel.
#[function_component]
pub fn PhotoPanel() -> Html {
    let tracing = use_reducer(Tracing::begun);
    let zoom = use_state(|| 1_u32);
    let frame = use_node_ref();
    let choose_sheet = {
        let tracing = tracing.dispatcher();
        move |at| tracing.dispatch(Deed::Sheet(at))
    };
    html! {
        <details class="section" id="photo" open={true}>
            <summary>{ tr("Area from a photograph") }</summary>
            <p class="hint">{ tr("Hold a sheet of paper in the plane of the opening, photograph both from the front, far away and zoomed in. Mark the sheet's four corners one after the other around it, the first edge being the side named below; then trace the opening. The picture stays on this machine.") }</p>
            <div class="fields">
                { option_field("photo-sheet", tr("Sheet, first edge"), SHEETS.map(|(name, _)| tr(name).to_owned()), tracing.sheet, choose_sheet) }
            </div>
            <div class="buttons">
                <label class="button" for="photo-file">{ tr("Choose a photograph") }</label>
                <input id="photo-file" class="visually-hidden" type="file" accept="image/*" onchange={on_file(&tracing)} />
            </div>
            if let Some(picture) = &tracing.picture {
                { marked(&tracing, picture, &zoom, &frame) }
            }
            { match tracing.found() {
                None => Html::default(),
                Some(Err(error)) => html! { <p class="fault" role="alert">{ error.to_string() }</p> },
                Some(Ok(found)) => part!(Outline { found }),
            } }
        </details>
    }
}

/// The picture with its marks, and what the next click does.
fn marked(
    tracing: &Tracer,
    picture: &Picture,
    zoom: &UseStateHandle<u32>,
    frame: &NodeRef,
) -> Html {
    let choose = |to: Marking, label: &'static str| {
        let turn = tracing.dispatcher();
        let on_change = Callback::from(move |_: Event| turn.dispatch(Deed::Turn(to)));
        html! {
            <label class="tick"><input type="radio" name="photo-marking" checked={tracing.marking == to} onchange={on_change} />{ label }</label>
        }
    };
    let take_back = {
        let tracing = tracing.dispatcher();
        Callback::from(move |_: MouseEvent| tracing.dispatch(Deed::TakeBack))
    };
    html! {
        <>
            <fieldset>
                <legend>{ tr("The next click marks") }</legend>
                { choose(Marking::Corners, tr("a corner of the sheet")) }
                { choose(Marking::Outline, tr("a point of the opening's edge")) }
                { choose(Marking::Lip, tr("one of three points along the lip's curve, seen from the side")) }
            </fieldset>
            <div class="buttons"><button type="button" onclick={take_back}>{ tr("Take the last mark back") }</button></div>
            <div class="buttons">
                { for [1_u32, 2, 4].into_iter().map(|times| {
                    let set = zoom.clone();
                    let on_zoom = Callback::from(move |_: MouseEvent| set.set(times));
                    html! { <button type="button" class="quiet" aria-pressed={(**zoom == times).to_string()} onclick={on_zoom}>{ tr!("{} × size", times) }</button> }
                }) }
            </div>
            <div class="scroll photo-room" tabindex="0" role="region" aria-label={tr("Photograph")}>
            <div class="photo-frame" ref={frame.clone()} onclick={on_click(tracing, frame)} style={format!("width: {}%", 100 * **zoom)}>
                <img src={picture.address.clone()} alt={tr("Your photograph")} onload={on_load(tracing)} />
                if let Some(size) = picture.size { { overlay(&tracing.marks, size) } }
            </div>
            </div>
            if let Some(error) = &tracing.refused {
                <p class="fault" role="alert">{ error.to_string() }</p>
            }
            <p class="hint" aria-live="polite">{ tr!("{} of 4 corners, {} points of the edge.", tracing.marks.corners.len(), tracing.marks.outline.len()) }</p>
        </>
    }
}

fn overlay(marks: &Marks, (wide, tall): (f64, f64)) -> Html {
    let points = |list: &[Place]| {
        list.iter()
            .map(|[x, y]| format!("{x:.1},{y:.1}"))
            .collect::<Vec<_>>()
            .join(" ")
    };
    let dots = |list: &[Place], class: &'static str| {
        let radius = (0.004 * wide).max(2.0).to_string();
        list.iter()
            .map(|[x, y]| html! { <circle {class} cx={x.to_string()} cy={y.to_string()} r={radius.clone()} /> })
            .collect::<Html>()
    };
    html! {
        <svg viewBox={format!("0 0 {wide} {tall}")} preserveAspectRatio="none" aria-hidden="true">
            <polygon class="photo-sheet" points={points(&marks.corners)} />
            <polygon class="photo-edge" points={points(&marks.outline)} />
            { dots(&marks.corners, "photo-sheet") }
            { dots(&marks.outline, "photo-edge") }
            { dots(&marks.lip, "photo-lip") }
        </svg>
    }
}

/// What was traced.
#[derive(Properties, Clone, PartialEq)]
struct OutlineProps {
    found: Traced,
}

/// The area, and the inlet that may take it.
#[function_component]
fn Outline(props: &OutlineProps) -> Html {
    let found = &props.found;
    let (design, system) = use_page(|page| (page.design.clone(), page.system()));
    let dispatch = use_dispatch();
    let inlet = use_state(|| 0_usize);
    let area = |si: f64| format::quantity(si, Dimension::Area, system, 3);
    let length = |si: f64| format::quantity(si, Dimension::Length, system, 2);
    let inlets = &design.installation.inlets;
    let at = (*inlet).min(inlets.len().saturating_sub(1));
    let choose_inlet = {
        let inlet = inlet.clone();
        move |at| inlet.set(at)
    };
    let take = {
        let (design, found) = (design.clone(), found.clone());
        Callback::from(move |_: MouseEvent| {
            let mut next = (*design).clone();
            if let Some(inlet) = next.installation.inlets.get_mut(at) {
                inlet.outline.clone_from(&found.outline);
                inlet.shape = InletShape::Traced;
                inlet.traced_area = square_metre(found.area_m2);
                if let Some((radius, _)) = found.lip_m {
                    inlet.lip_radius = metre(radius);
                }
            }
            dispatch.emit(Action::Adjust(Box::new(next)));
        })
    };
    let share = typed::rounded_text(100.0 * found.area_band_m2 / found.area_m2, 2);
    html! {
        <>
            <p class="headline">{ tr!("Area {} ± {} ({} %)", area(found.area_m2), area(found.area_band_m2), share) }</p>
            if let Some((radius, band)) = found.lip_m {
                <p>{ tr!("Radius of the lip {} ± {}.", length(radius), length(band)) }</p>
            }
            <p class="hint">{ tr("± is what clicks of one pixel leave open. A lens that bends lines, or a sheet out of the opening's plane, adds to it: a sheet 1 % nearer to the camera makes the opening 2 % smaller.") }</p>
            <div class="fields">
                { option_field("photo-inlet", tr("Take it over for"), inlets.iter().map(|inlet| inlet.name.clone()), at, choose_inlet) }
            </div>
            <div class="buttons"><button type="button" onclick={take}>{ tr("Take the outline over") }</button></div>
        </>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn after(tracing: Tracing, deeds: impl IntoIterator<Item = Deed>) -> Tracing {
        let done = deeds
            .into_iter()
            .fold(Rc::new(tracing), |tracing, deed| tracing.reduce(deed));
        (*done).clone()
    }

    #[test]
    fn four_corners_turn_the_clicks_to_the_edge_which_may_not_cross_itself() {
        let corners = [[0.0, 0.0], [210.0, 0.0], [210.0, 297.0], [0.0, 297.0]];
        let tracing = after(Tracing::begun(), corners.map(Deed::Mark));
        assert_eq!(tracing.marking, Marking::Outline);
        assert!(tracing.found().is_none());
        let edge = [[20.0, 20.0], [120.0, 20.0], [120.0, 70.0]];
        let tracing = after(tracing, edge.map(Deed::Mark));
        let found = tracing.found().expect("marked").expect("traced");
        // Half of 100 mm × 50 mm.
        assert!((found.area_m2 - 0.0025).abs() < 1e-6, "{}", found.area_m2);
        let crossed = after(tracing.clone(), [Deed::Mark([70.0, -10.0])]);
        assert!(crossed.refused.is_some());
        assert_eq!(crossed.marks, tracing.marks);
        let fewer = after(crossed, [Deed::TakeBack]);
        assert_eq!(fewer.marks.outline.len(), 2);
        let another = after(fewer, [Deed::Sheet(2), Deed::Choose("blob:1".to_owned())]);
        assert_eq!((another.sheet, another.marks), (2, Marks::default()));
    }
}
