//! What a view draws, layer upon layer, with the box that holds it.

use super::number::short;
use super::path::Outline;
use super::point::{Area, Plane, Point, point};
use super::text_width::TextWidth;
use crate::kit::svg_text::escaped;
use std::fmt::Write;

/// Layers from below; metal covers air, so that a ribbon wider than its gap reads as squeezed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Layer {
    /// What lies beyond the section.
    Beyond,
    /// Bodies of hoses and ducts.
    Hose,
    /// Edges of the air's lanes.
    Edges,
    /// Tints of the air's lanes.
    Tints,
    /// Chevrons on the air.
    Chevrons,
    /// Metal that the section cuts.
    Metal,
    /// Outline of the design before.
    Ghost,
    /// Leaks.
    Leaks,
    /// Captions and key.
    Captions,
    /// Dimension lines.
    Dimensions,
    /// Tags and their leaders.
    Tags,
}

/// How many layers there are, and their style classes.
const NAMES: [&str; 11] = [
    "beyond",
    "hoses",
    "edges",
    "tints",
    "chevrons",
    "metal",
    "before",
    "leaks",
    "captions",
    "dimensions",
    "tags",
];

/// Where a text stands against its point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// Begins there.
    Start,
    /// Is centred there.
    Middle,
    /// Ends there.
    End,
}

/// A face in which the drawing writes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Face {
    /// Style class.
    pub class: &'static str,
    /// Size, px.
    pub size: f64,
    /// Weight.
    pub weight: u16,
    /// Added between letters, px.
    pub spacing: f64,
}

/// Caption of a view.
pub const CAPTION: Face = Face {
    class: "vt",
    size: 13.0,
    weight: 500,
    spacing: 0.05 * 13.0,
};
/// Words of the key.
pub const KEY: Face = Face {
    class: "ls",
    size: 13.0,
    weight: 400,
    spacing: 0.0,
};
/// Number of a cylinder.
pub const NUMBER: Face = Face {
    class: "num",
    size: 13.0,
    weight: 600,
    spacing: 0.0,
};
/// Value of a dimension.
pub const FIELD: Face = Face {
    class: "dimtx",
    size: 14.0,
    weight: 600,
    spacing: 0.0,
};
/// Label of a tag.
pub const TAG_LABEL: Face = Face {
    class: "tl",
    size: 13.0,
    weight: 400,
    spacing: 0.0,
};
/// Value of a tag.
pub const TAG_VALUE: Face = Face {
    class: "tv",
    size: 14.0,
    weight: 600,
    spacing: 0.0,
};

impl Face {
    /// Width of a text, px.
    #[must_use]
    pub fn width(&self, text: &str, widths: &dyn TextWidth) -> f64 {
        let letters = u32::try_from(text.chars().count()).unwrap_or(u32::MAX);
        widths.width(text, self.size, self.weight) + self.spacing * f64::from(letters)
    }
}

/// A sheet of layers.
pub struct Ink<'a> {
    layers: [String; NAMES.len()],
    /// Gradients and the like.
    pub defs: String,
    /// The box that holds everything drawn.
    pub bounds: Area,
    /// Prefix of every identifier.
    pub id: String,
    /// Where the view stands.
    pub plane: Plane,
    /// Measures texts.
    pub widths: &'a dyn TextWidth,
    named: u32,
}

impl<'a> Ink<'a> {
    /// An empty sheet.
    #[must_use]
    pub fn new(id: String, plane: Plane, widths: &'a dyn TextWidth) -> Self {
        Self {
            layers: Default::default(),
            defs: String::new(),
            bounds: Area::NOTHING,
            id,
            plane,
            widths,
            named: 0,
        }
    }

    /// A fresh identifier.
    pub fn name(&mut self) -> String {
        self.named += 1;
        format!("{}{}", self.id, self.named)
    }

    /// An outline with a style class.
    pub fn path(&mut self, layer: Layer, class: &str, outline: &Outline) {
        self.styled(layer, class, outline, "");
    }

    /// An outline with a style class and more attributes.
    pub fn styled(&mut self, layer: Layer, class: &str, outline: &Outline, more: &str) {
        self.bounds.take_area(outline.bounds());
        let _ = write!(
            self.layers[layer as usize],
            "<path class=\"{class}\" d=\"{}\"{more}/>",
            outline.data()
        );
    }

    /// A line through points given in the view's inches.
    pub fn line(&mut self, layer: Layer, class: &str, points: &[(f64, f64)]) {
        let outline = self.through(points);
        self.path(layer, class, &outline);
    }

    /// An outline through points given in the view's inches.
    #[must_use]
    pub fn through(&self, points: &[(f64, f64)]) -> Outline {
        let points: Vec<Point> = points.iter().map(|&(a, b)| self.plane.at(a, b)).collect();
        Outline::through(&points)
    }

    /// Cubics given in the view's inches.
    #[must_use]
    pub fn cubics(&self, cubics: &[[(f64, f64); 4]]) -> Outline {
        let at = |(a, b): (f64, f64)| self.plane.at(a, b);
        let first = cubics.first().map_or((0.0, 0.0), |cubic| cubic[0]);
        cubics
            .iter()
            .fold(Outline::start(at(first)), |outline, cubic| {
                outline.cubic(at(cubic[1]), at(cubic[2]), at(cubic[3]))
            })
    }

    /// A text.
    pub fn text(&mut self, layer: Layer, face: &Face, at: Point, anchor: Anchor, text: &str) {
        let width = face.width(text, self.widths);
        let (left, name) = match anchor {
            Anchor::Start => (at.x, ""),
            Anchor::Middle => (at.x - 0.5 * width, " text-anchor=\"middle\""),
            Anchor::End => (at.x - width, " text-anchor=\"end\""),
        };
        self.bounds.take_area(Area::sized(
            point(left, at.y - 0.8 * face.size),
            width,
            face.size,
        ));
        let _ = write!(
            self.layers[layer as usize],
            "<text class=\"{}\" x=\"{}\" y=\"{}\"{name}>{}</text>",
            face.class,
            short(at.x),
            short(at.y),
            escaped(text)
        );
    }

    /// Markup as it stands; its box must be told.
    pub fn raw(&mut self, layer: Layer, markup: &str, bounds: Area) {
        self.layers[layer as usize].push_str(markup);
        if bounds.left <= bounds.right {
            self.bounds.take_area(bounds);
        }
    }

    /// Everything drawn, from below.
    #[must_use]
    pub fn markup(&self) -> String {
        self.layers
            .iter()
            .zip(NAMES)
            .filter(|(layer, _)| !layer.is_empty())
            .fold(String::new(), |mut all, (layer, name)| {
                let _ = write!(all, "<g class=\"{name}\">{layer}</g>");
                all
            })
    }
}
