//! The engine bay to scale: section, front and plan of one installation in one condition, as SVG.
//!
//! Pure: [`Drawing::of`] turns a [`Request`] into markup, the areas of its parts, the fields of its
//! dimensions and the tags in their places. Lengths inside are inches (`proportions`) and, on the
//! sheet, CSS px.
//!
//! ```text
//! Installation ─► Frame ─┐
//! Answer ─► Readout ─► Strands ─► Scene ─► Arrangement ─► Ink (one per view) ─► svg
//! ```
//!
//! # Colours and classes
//! Colours are custom properties of the page (`web/style.css`); [`STYLE`] holds all rules of the
//! classes.

pub mod air;
mod cooler_dimensions;
pub mod core_place;
mod dimension_line;
pub mod dimensions;
pub mod fills;
mod front;
mod ghost;
pub mod half;
pub mod hit;
pub mod ink;
pub mod layout;
mod legend;
pub mod louvers;
pub mod marks;
pub mod mouths;
mod number;
pub mod openings;
pub mod path;
mod plan;
mod plan_air;
mod plan_deck;
pub mod point;
pub mod proportions;
pub mod readout;
pub mod scene;
mod side_air;
mod side_beyond;
mod side_cooling;
pub mod side_levels;
mod side_metal;
mod side_mouths;
mod side_ways;
mod stations;
pub mod strands;
mod style;
pub mod tags;
mod targets;
#[cfg(test)]
mod tests;
pub mod text_width;
pub mod title_block;
mod words;

pub use core_place::CoolerPlace;
pub use dimensions::DimensionField;
pub use hit::HitArea;
pub use marks::mark;
pub use proportions::Proportions;
pub use readout::{Judged, Readout, State};
pub use style::STYLE;
pub use tags::Tag;
pub use text_width::{Narrow, TextWidth, Widest};
pub use title_block::TitleBlock;

use crate::kit::svg_text::escaped;
use coolpath_core::Installation;
use coolpath_core::language::tr;
use coolpath_core::units::typed::{Chosen, UnitSystem};
use ink::{Anchor, CAPTION, Ink, Layer};
use layout::{Arrangement, Paper, Placed};
use number::short;
use point::{Area, Plane, point};
use scene::Scene;
use std::fmt::Write;

/// A part that can be chosen, in the order of the air's way.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Part {
    /// Inlets.
    Inlets,
    /// Upper deck and its sealing.
    UpperDeck,
    /// Engine.
    Engine,
    /// Shutter.
    Shutter,
    /// Oil cooler and its duct.
    Cooler,
    /// Lower deck.
    LowerDeck,
    /// Exit and flap.
    Exit,
    /// Propeller and aircraft.
    Propeller,
}

impl Part {
    /// All parts.
    pub const ALL: [Self; 8] = [
        Self::Inlets,
        Self::UpperDeck,
        Self::Engine,
        Self::Shutter,
        Self::Cooler,
        Self::LowerDeck,
        Self::Exit,
        Self::Propeller,
    ];

    /// Name in `data-part`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Inlets => "inlets",
            Self::UpperDeck => "upper-deck",
            Self::Engine => "engine",
            Self::Shutter => "shutter",
            Self::Cooler => "cooler",
            Self::LowerDeck => "lower-deck",
            Self::Exit => "exit",
            Self::Propeller => "propeller",
        }
    }

    /// The part of a name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|part| part.name() == name)
    }

    /// What builders call it.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::Inlets => tr("Inlets"),
            Self::UpperDeck => tr("Upper deck and seals"),
            Self::Engine => tr("Engine"),
            Self::Shutter => tr("Shutter"),
            Self::Cooler => tr("Oil cooler"),
            Self::LowerDeck => tr("Lower deck"),
            Self::Exit => tr("Exit"),
            Self::Propeller => tr("Propeller"),
        }
    }
}

/// Which views a sheet shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
pub enum View {
    /// All three on one scale.
    #[default]
    All,
    /// Section through the left bank.
    Side,
    /// From in front.
    Front,
    /// From above.
    Plan,
}

/// Everything that a drawing follows from.
#[derive(Clone)]
pub struct Request<'a> {
    /// The installation.
    pub installation: &'a Installation,
    /// The installation before the last edit, whose outline stays dashed.
    pub before: Option<&'a Installation>,
    /// Opening of the cowl flap, 0 to 1 [-].
    pub flap: f64,
    /// Opening of the shutter, 0 closed to 1 open [-].
    pub shutter: f64,
    /// What the condition answers; without it no air is drawn.
    pub readout: Option<&'a Readout>,
    /// Which views.
    pub view: View,
    /// The part that is selected.
    pub selected: Option<Part>,
    /// Parts that nobody has answered for yet: phantom, with a question mark.
    pub unanswered: &'a [Part],
    /// Width, px.
    pub width: f64,
    /// Height, px.
    pub height: f64,
    /// Units; with them first-angle (metric) or third-angle projection.
    pub system: UnitSystem,
    /// Drawing-only dimensions.
    pub proportions: Proportions,
    /// Measures texts.
    pub widths: &'a dyn TextWidth,
    /// For a finger on a small screen: short tags, areas of 44 px.
    pub touch: bool,
    /// Title block, for paper.
    pub title: Option<&'a TitleBlock>,
    /// Prefix of the identifiers in the markup, letters only; one per drawing on a page.
    pub id: &'a str,
}

impl<'a> Request<'a> {
    /// A sheet of all views without an answer, to be filled in.
    #[must_use]
    pub fn new(installation: &'a Installation, width: f64, height: f64) -> Self {
        Self {
            installation,
            before: None,
            flap: 0.0,
            shutter: 1.0,
            readout: None,
            view: View::All,
            selected: None,
            unanswered: &[],
            width,
            height,
            system: UnitSystem::Customary,
            proportions: Proportions::default(),
            widths: &Widest,
            touch: false,
            title: None,
            id: "d",
        }
    }
}

/// A finished drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// The whole `<svg>` element.
    pub svg: String,
    /// Scale, px/in.
    pub scale: f64,
    /// Where parts can be chosen.
    pub parts: Vec<HitArea>,
    /// Dimensions that can be edited in place.
    pub dimensions: Vec<DimensionField>,
    /// Tags in their places.
    pub tags: Vec<Tag>,
    /// The box that holds everything drawn, px.
    pub bounds: Area,
    /// The views and the boxes that hold them, px.
    pub views: Vec<(View, Area)>,
}

/// Narrower sheets show one view at a time, px.
const NARROW_SHEET: f64 = 600.0;

impl Drawing {
    /// Draws what a request asks for.
    #[must_use]
    pub fn of(request: &Request) -> Self {
        let view = if request.view == View::All && request.width < NARROW_SHEET {
            View::Side
        } else {
            request.view
        };
        let scene = Scene::new(request, view == View::All);
        let paper = Paper {
            width: request.width.max(160.0),
            height: request.height.max(120.0),
            view,
            first_angle: !request.system.is_customary(Chosen::Length),
            titled: request.title.is_some(),
        };
        let arrangement = layout::arranged(&scene, &paper, request.widths);
        Sheet {
            request,
            scene: &scene,
            frame: Area::sized(point(0.0, 0.0), paper.width, paper.height),
            drawing: Self {
                svg: String::new(),
                scale: arrangement.scale,
                parts: Vec::new(),
                dimensions: Vec::new(),
                tags: Vec::new(),
                bounds: Area::NOTHING,
                views: Vec::new(),
            },
            defs: patterns(request.id),
            body: String::new(),
            fields: String::new(),
        }
        .filled(&arrangement)
    }
}

/// Hatching of cut metal and of the cooler's core.
fn patterns(id: &str) -> String {
    format!(
        "<pattern id=\"{id}h\" width=\"4.5\" height=\"4.5\" patternUnits=\"userSpaceOnUse\" \
         patternTransform=\"rotate(45)\"><path d=\"M0 0V4.5\" class=\"hl\"/></pattern>\
         <pattern id=\"{id}x\" width=\"5\" height=\"5\" patternUnits=\"userSpaceOnUse\">\
         <path d=\"M0 0L5 5M0 5L5 0\" class=\"xl\"/></pattern>"
    )
}

/// A drawing while it grows.
struct Sheet<'a> {
    request: &'a Request<'a>,
    scene: &'a Scene<'a>,
    frame: Area,
    drawing: Drawing,
    defs: String,
    body: String,
    fields: String,
}

impl Sheet<'_> {
    fn filled(mut self, arrangement: &Arrangement) -> Drawing {
        let alone = arrangement.views.len() == 1;
        for (place, placed) in arrangement.views.iter().enumerate() {
            self.view(placed, alone, place == 0);
        }
        self.key(arrangement);
        let small = if arrangement.scale < air::SMALL {
            " small"
        } else {
            ""
        };
        let (width, height) = (short(self.frame.width()), short(self.frame.height()));
        let mut svg = format!(
            "<svg class=\"bay{small}\" xmlns=\"http://www.w3.org/2000/svg\" \
             viewBox=\"0 0 {width} {height}\" width=\"{width}\" height=\"{height}\" role=\"group\" \
             aria-label=\"{}\"><defs>{}</defs>",
            escaped(tr("Drawing of the cooling installation, to scale")),
            self.defs
        );
        let _ = write!(svg, "{}{}</svg>", self.body, self.fields);
        self.drawing.svg = svg;
        self.drawing
    }

    /// Least side of what can be pressed: 44 px by a finger, 30 px with a mouse.
    fn least(&self) -> f64 {
        if self.scene.touch { 44.0 } else { 30.0 }
    }

    fn take(&mut self, ink: &Ink) {
        self.defs.push_str(&ink.defs);
        self.drawing.bounds.take_area(ink.bounds);
    }

    fn view(&mut self, placed: &Placed, alone: bool, tabbed: bool) {
        let (request, scene) = (self.request, self.scene);
        let letter = match placed.view {
            View::All | View::Side => 's',
            View::Front => 'f',
            View::Plan => 'p',
        };
        let id = format!("{}{letter}", request.id);
        let mut ink = Ink::new(id, placed.plane, request.widths);
        layout::lines(&mut ink, scene, placed.view);
        let room = placed.caption_end - placed.caption.x;
        let [whole, short] = captions(scene, placed.view);
        let fits = CAPTION.width(&whole, request.widths) <= room;
        let caption = if fits { whole } else { short };
        ink.text(
            Layer::Captions,
            &CAPTION,
            placed.caption,
            Anchor::Start,
            &caption,
        );
        let fields = dimensions::draw(&mut ink, scene, placed.view, alone, request.system);
        self.fields(placed, fields);
        if let Some(rails) = placed.rails {
            let (above, below) = stations::rails(&ink, scene, request, placed.view, alone);
            for (rail, wanted) in rails.iter().zip([above, below]) {
                for tag in tags::placed(rail, &wanted, scene.touch, request.widths) {
                    tags::draw(&mut ink, &tag, request.selected == Some(tag.part));
                    self.drawing.tags.push(tag);
                }
            }
        }
        let targets = targets::targets(&ink, scene, placed.view, request.system);
        let areas = hit::areas(targets, placed.view, self.least(), &self.frame);
        let name = match placed.view {
            View::All | View::Side => "side",
            View::Front => "front",
            View::Plan => "plan",
        };
        let _ = write!(
            self.body,
            "<g class=\"view {name}\">{}<g class=\"hits\">{}</g></g>",
            ink.markup(),
            hit::markup(&areas, tabbed)
        );
        self.take(&ink);
        self.drawing.parts.extend(areas);
        self.drawing.views.push((placed.view, placed.area));
    }

    /// Fields go over everything else: they are controls themselves.
    fn fields(&mut self, placed: &Placed, fields: Vec<DimensionField>) {
        let mut ink = Ink::new("n".to_owned(), placed.plane, self.request.widths);
        // Inside the view, where no tag stands.
        let room = Area {
            left: self.frame.left + 4.0,
            right: self.frame.right - 4.0,
            ..placed.area
        };
        for mut field in fields {
            field.settle(&room, &self.frame, self.least());
            dimensions::field(&mut ink, &field, self.request.installation);
            self.drawing.dimensions.push(field);
        }
        self.fields.push_str(&ink.markup());
        self.drawing.bounds.take_area(ink.bounds);
    }

    fn key(&mut self, arrangement: &Arrangement) {
        let request = self.request;
        let plane = Plane {
            scale: arrangement.scale,
            origin: point(0.0, 0.0),
            down: true,
        };
        let mut ink = Ink::new(format!("{}k", request.id), plane, request.widths);
        let key = legend::Key {
            system: request.system,
            readout: request.readout,
            symbol: request.title.is_none(),
        };
        if arrangement.upright {
            legend::upright(&mut ink, &key, arrangement.key);
        } else {
            legend::in_a_row(&mut ink, &key, arrangement.key);
        }
        if let Some(title) = request.title {
            title_block::draw(&mut ink, title, self.frame, request.system);
        }
        let _ = write!(self.body, "<g class=\"key\">{}</g>", ink.markup());
        self.take(&ink);
    }
}

/// What a view is called, and the same where there is little room.
fn captions(scene: &Scene, view: View) -> [String; 2] {
    let off = if scene.frame.plenum {
        tr("PLENUM LID OFF")
    } else {
        tr("TOP COWL OFF")
    };
    let half = match (scene.half_plan, scene.frame.core.side > 0.0) {
        (true, true) => tr(", LEFT HALF"),
        (true, false) => tr(", RIGHT HALF"),
        _ => "",
    };
    let (whole, short) = match view {
        View::All | View::Side => (
            tr("SECTION THROUGH THE LEFT BANK").to_owned(),
            tr("LEFT BANK, SECTION").to_owned(),
        ),
        View::Front if scene.touch => (
            tr("FRONT, LEFT BANK IN SECTION").to_owned(),
            tr("FRONT").to_owned(),
        ),
        View::Front => (
            tr("FRONT, LEFT BANK IN SECTION AT No. 1").to_owned(),
            tr("FRONT, SECTION AT No. 1").to_owned(),
        ),
        View::Plan => (tr!("PLAN{}, {}", half, off), tr!("PLAN{}", half)),
    };
    [whole, short]
}
