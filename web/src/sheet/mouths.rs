//! Where the inlets stand, in inches, with their true shapes.

use coolpath_core::document::installation::{Inlet, InletPosition, InletShape, Installation, Lip};
use coolpath_core::units::si::inch;

/// Inches in a metre.
pub const INCHES: f64 = 1.0 / inch(1.0);

/// Where an inlet stands on the cowl.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Station {
    /// In the nose.
    Front,
    /// Under the chin.
    Belly,
    /// Flush in the top skin.
    Flush,
}

/// Form of an opening.
#[derive(Debug, Clone, PartialEq)]
pub enum Form {
    /// A box with rounded corners; their radius, in.
    Rounded(f64),
    /// A circle.
    Ring,
    /// A traced outline about its middle, in; outboard and up.
    Traced(Vec<(f64, f64)>),
}

/// The edge of an opening.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Edge {
    /// Sheet.
    Thin,
    /// Square.
    Blunt,
    /// Round.
    Round,
}

/// One inlet on the drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Mouth {
    /// Its place in the installation's list.
    pub place: usize,
    /// +1 on the aircraft's left, −1 on its right, 0 in the middle.
    pub side: f64,
    /// Where it stands.
    pub station: Station,
    /// Form of the opening.
    pub form: Form,
    /// Width, in.
    pub width: f64,
    /// Height, in.
    pub height: f64,
    /// Kind of edge.
    pub edge: Edge,
    /// Radius of the lip, in; half of its thickness for the other edges.
    pub lip: f64,
    /// Its middle outboard of the centre line, in.
    pub outboard: f64,
    /// Its middle above the crankshaft, in.
    pub up: f64,
    /// Length, in, and area ratio of a diffuser.
    pub diffuser: Option<(f64, f64)>,
    /// Whether width and height are inputs of their own.
    pub measured: bool,
}

impl Mouth {
    /// Outboard edge, in, lip included.
    #[must_use]
    pub fn outer(&self) -> f64 {
        self.outboard + 0.5 * self.width + 2.0 * self.lip
    }

    /// Inboard edge of the opening, in.
    #[must_use]
    pub fn inner(&self) -> f64 {
        self.outboard - 0.5 * self.width
    }
}

/// Distance of an inlet from the spinner, in (tag: from memory, usual proportions).
const ROOT_CLEARANCE: f64 = 1.5;

/// All inlets; those in front alternate between left and right, beginning on the left.
#[must_use]
pub fn mouths(installation: &Installation, spinner_radius: f64, half_width: f64) -> Vec<Mouth> {
    let count = |inlet: &Inlet| {
        installation
            .inlets
            .iter()
            .filter(|other| station(other.position) == station(inlet.position))
            .count()
    };
    let mut seen = [0_usize; 3];
    let mut taken = [spinner_radius + ROOT_CLEARANCE; 2];
    installation
        .inlets
        .iter()
        .enumerate()
        .map(|(place, inlet)| {
            let mut mouth = mouth(place, inlet);
            let kind = mouth.station as usize;
            let turn = seen[kind];
            seen[kind] += 1;
            mouth.side = if turn % 2 == 0 { 1.0 } else { -1.0 };
            let inner = &mut taken[turn % 2];
            let half = 0.5 * mouth.width;
            match mouth.station {
                Station::Front => {
                    let root = *inner + half;
                    let clear = (half_width - 3.4 - half).min(0.66 * half_width);
                    let wanted = if inlet.position == InletPosition::ForwardClear {
                        clear
                    } else {
                        root
                    };
                    mouth.outboard = wanted.max(root);
                    *inner = mouth.outer() + 1.0;
                }
                Station::Belly | Station::Flush => {
                    // Even numbers stand in pairs about the middle, an odd one begins in it.
                    let odd = count(inlet) % 2;
                    let pair = (turn + odd) / 2;
                    let pair = f64::from(u8::try_from(pair).unwrap_or(u8::MAX));
                    let first = if odd == 1 { 0.0 } else { 0.5 };
                    mouth.outboard = (pair + first) * (mouth.width + 1.5);
                }
            }
            mouth
        })
        .collect()
}

fn station(position: InletPosition) -> Station {
    match position {
        InletPosition::ForwardClear | InletPosition::BehindBladeRoot => Station::Front,
        InletPosition::BellyScoop => Station::Belly,
        InletPosition::Flush => Station::Flush,
    }
}

fn mouth(place: usize, inlet: &Inlet) -> Mouth {
    let inches = |metres: f64| metres * INCHES;
    let (form, width, height) = match inlet.shape {
        InletShape::Rectangle => (
            Form::Rounded(inches(inlet.corner_radius.value)),
            inches(inlet.width.value),
            inches(inlet.height.value),
        ),
        InletShape::Ring => {
            let diameter = inches(inlet.diameter.value);
            (Form::Ring, diameter, diameter)
        }
        InletShape::Traced => traced(inlet),
    };
    let (edge, lip) = match inlet.lip {
        Lip::Thin => (Edge::Thin, 0.05),
        Lip::Blunt => (Edge::Blunt, 0.16),
        Lip::Rounded => (Edge::Round, inches(inlet.lip_radius.value).max(0.05)),
    };
    Mouth {
        place,
        side: 1.0,
        station: station(inlet.position),
        form,
        width,
        height,
        edge,
        lip,
        outboard: 0.0,
        up: if inlet.position == InletPosition::ForwardClear {
            1.9
        } else {
            2.5
        },
        diffuser: inlet
            .diffuser
            .then(|| (inches(inlet.diffuser_length.value), inlet.diffuser_ratio)),
        measured: inlet.shape != InletShape::Traced,
    }
}

/// A traced outline to scale; without one a slot one and a half times as wide as high.
fn traced(inlet: &Inlet) -> (Form, f64, f64) {
    let points: Vec<(f64, f64)> = inlet
        .outline
        .iter()
        .map(|&[x, y]| (x * INCHES, y * INCHES))
        .filter(|(x, y)| x.is_finite() && y.is_finite())
        .collect();
    if points.len() < 3 {
        let square = inlet.traced_area.value.max(0.0) * INCHES * INCHES;
        let (width, height) = ((1.5 * square).sqrt(), (square / 1.5).sqrt());
        return (Form::Rounded(0.4 * height), width, height);
    }
    let range = |values: &mut dyn Iterator<Item = f64>| {
        values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
            (low.min(value), high.max(value))
        })
    };
    let (left, right) = range(&mut points.iter().map(|p| p.0));
    let (low, high) = range(&mut points.iter().map(|p| p.1));
    let (x, y) = (0.5 * (left + right), 0.5 * (low + high));
    let centred = points.iter().map(|p| (p.0 - x, p.1 - y)).collect();
    (
        Form::Traced(centred),
        (right - left).max(0.1),
        (high - low).max(0.1),
    )
}
