//! The key: scale bar, ribbon, temperatures, leaks, where the pressure goes, the projection.

use super::air::{self, HOT_RISE_K, Heat, width_px};
use super::ink::{Anchor, Ink, KEY, Layer};
use super::path::{Outline, corner};
use super::point::{Area, Point, point};
use super::readout::Readout;
use super::words;
use coolpath_core::language::tr;
use coolpath_core::units::typed::{Chosen, Dimension, UnitSystem};

/// What the key needs to know.
#[derive(Clone, Copy)]
pub struct Key<'a> {
    /// Units.
    pub system: UnitSystem,
    /// The answer, if there is one.
    pub readout: Option<&'a Readout>,
    /// Whether the symbol of the projection stands here.
    pub symbol: bool,
}

/// Height of a key in one row, px.
pub const ROW: f64 = 46.0;
/// Widest key that stands upright, px.
const WIDEST: f64 = 320.0;

/// Draws the key upright in a free corner, as far down as there is room.
pub fn upright(ink: &mut Ink, key: &Key, area: Area) {
    let width = area.width().min(WIDEST);
    let left = area.left + 6.0;
    let mut y = area.top + 8.0;
    let fits = |y: f64, height: f64| y + height <= area.bottom;
    if !fits(y, 26.0) {
        return;
    }
    let bar = scale_bar(ink, key.system, point(left, y));
    let ribbon_at = point(left + bar + 34.0, y + 3.0);
    let ribbon = ribbon_sample(ink, key, ribbon_at);
    if key.symbol && bar + 34.0 + ribbon + 66.0 <= area.width() {
        let at = point(left + width.max(bar + ribbon + 94.0) - 50.0, y - 6.0);
        symbol(ink, key.system, at);
    }
    let Some(readout) = key.readout else { return };
    y += 38.0;
    if !fits(y, 27.0) {
        return;
    }
    temperatures(
        ink,
        key.system,
        readout,
        Area::sized(point(left, y), width - 12.0, 10.0),
    );
    y += 46.0;
    if !fits(y, 6.0) {
        return;
    }
    leaks(ink, readout, point(left, y));
    y += 27.0;
    if fits(y, 34.0) {
        let bar = Area::sized(point(left, y + 7.0), width - 12.0, 24.0);
        pressures(ink, readout, bar);
    }
}

/// Draws the key in one row below a single view.
pub fn in_a_row(ink: &mut Ink, key: &Key, area: Area) {
    let y = area.top + 8.0;
    let mut x = area.left + 8.0;
    x += scale_bar(ink, key.system, point(x, y)) + 30.0;
    let Some(readout) = key.readout else { return };
    let rest = area.right - x - 12.0;
    if rest < 420.0 {
        let bar = Area::sized(point(x, y - 3.0), rest.max(60.0), 10.0);
        temperatures(ink, key.system, readout, bar);
        return;
    }
    x += ribbon_sample(ink, key, point(x, y + 3.0)) + 26.0;
    let wide = (0.4 * rest).min(200.0);
    let bar = Area::sized(point(x, y - 3.0), wide, 10.0);
    temperatures(ink, key.system, readout, bar);
    x += wide + 30.0;
    if area.right - x > 200.0 {
        leaks(ink, readout, point(x, y + 3.0));
    }
}

/// A bar of six inches or 150 mm; returns its width.
fn scale_bar(ink: &mut Ink, system: UnitSystem, at: Point) -> f64 {
    let (step, end) = if system.is_customary(Chosen::Length) {
        (1.0, "6 in")
    } else {
        (25.0 / 25.4, "150 mm")
    };
    let unit = step * ink.plane.scale;
    for place in 0..6_u8 {
        let left = at.x + f64::from(place) * unit;
        let class = if place % 2 == 0 { "sb1" } else { "sb0" };
        let area = Area::sized(point(left, at.y), unit, 5.0);
        ink.path(Layer::Captions, class, &Outline::boxed(area));
    }
    let width = 6.0 * unit;
    for x in [at.x, at.x + width] {
        let tick = Outline::through(&[point(x, at.y - 3.0), point(x, at.y + 8.0)]);
        ink.path(Layer::Captions, "t2", &tick);
    }
    let below = |x: f64| point(x, at.y + 21.0);
    ink.text(Layer::Captions, &KEY, below(at.x), Anchor::Start, "0");
    // Where the bar is short its words begin beside it.
    let words = KEY.width(end, ink.widths);
    let right = (at.x + width + 0.5 * words).max(at.x + 14.0 + words);
    ink.text(Layer::Captions, &KEY, below(right), Anchor::End, end);
    right - at.x
}

/// A ribbon of one pound a second or half a kilogram; returns its width with its words.
fn ribbon_sample(ink: &mut Ink, key: &Key, at: Point) -> f64 {
    let (kg_s, name) = if key.system.is_customary(Chosen::AirFlow) {
        (0.453_592_37, tr("1 lb/s"))
    } else {
        (0.5, tr("0.5 kg/s"))
    };
    if key.readout.is_none() {
        return 0.0;
    }
    let half = 0.5 * width_px(kg_s, ink.plane.scale);
    let area = Area::sized(at.moved(0.0, -half), 46.0, 2.0 * half);
    ink.path(Layer::Captions, "ribk", &Outline::boxed(area));
    for y in [area.top, area.bottom] {
        let edge = Outline::through(&[point(area.left, y), point(area.right, y)]);
        ink.path(Layer::Captions, "ribe", &edge);
    }
    let words = at.moved(54.0, 4.0);
    ink.text(Layer::Captions, &KEY, words, Anchor::Start, name);
    54.0 + KEY.width(name, ink.widths)
}

/// Colours from the outside air to 160 °F above it.
fn temperatures(ink: &mut Ink, system: UnitSystem, readout: &Readout, area: Area) {
    let name = ink.name();
    for (suffix, hot, cool) in [("t", "--hot-t", "--cool-t"), ("e", "--hot", "--cool")] {
        ink.defs.push_str(&format!(
            "<linearGradient id=\"{name}{suffix}\"><stop offset=\"0\" \
             style=\"stop-color:var({cool})\"/><stop offset=\"1\" \
             style=\"stop-color:var({hot})\"/></linearGradient>"
        ));
    }
    let paint = format!(" fill=\"url(#{name}t)\" stroke=\"url(#{name}e)\" stroke-width=\"1.25\"");
    ink.styled(Layer::Captions, "key", &Outline::boxed(area), &paint);
    let unit = Dimension::Temperature.shown(system);
    let at = |share: f64| unit.from_si(readout.outside_k + share * HOT_RISE_K);
    let below = |x: f64| point(x, area.bottom + 15.0);
    let cold = words::air_temperature(readout.outside_k, system);
    let hot = words::air_temperature(readout.outside_k + HOT_RISE_K, system);
    let middle = format!("{:.0}", at(0.5)).replace('-', "−");
    let used: f64 = [&cold, &hot, &middle]
        .iter()
        .map(|text| KEY.width(text, ink.widths) + 8.0)
        .sum();
    ink.text(
        Layer::Captions,
        &KEY,
        below(area.left),
        Anchor::Start,
        &cold,
    );
    ink.text(Layer::Captions, &KEY, below(area.right), Anchor::End, &hot);
    if used < area.width() {
        let x = 0.5 * (area.left + area.right);
        ink.text(Layer::Captions, &KEY, below(x), Anchor::Middle, &middle);
    }
}

fn leaks(ink: &mut Ink, readout: &Readout, at: Point) {
    let heat = Heat {
        outside_k: readout.outside_k,
    };
    let colour = heat.edge(readout.upper_k);
    let mut x = at.x;
    for (name, reversed) in [(tr("leak"), false), (tr("reversed"), true)] {
        let line = [
            corner(point(x, at.y), 0.0),
            corner(point(x + 32.0, at.y), 0.0),
        ];
        air::arrow(ink, &line, &colour, reversed);
        let words = point(x + 41.0, at.y + 4.0);
        ink.text(Layer::Captions, &KEY, words, Anchor::Start, name);
        x += 41.0 + KEY.width(name, ink.widths) + 16.0;
    }
}

/// Shares of the driving pressure.
fn pressures(ink: &mut Ink, readout: &Readout, area: Area) {
    let Some(shares) = readout.pressure_shares else {
        return;
    };
    let title = point(area.left, area.top - 7.0);
    ink.text(
        Layer::Captions,
        &KEY,
        title,
        Anchor::Start,
        tr("Pressure used"),
    );
    let mut left = area.left;
    for (place, (share, name)) in shares
        .into_iter()
        .zip([tr("inlets"), tr("cylinders"), tr("exit")])
        .enumerate()
    {
        let width = area.width() * share;
        let part = Area::sized(point(left, area.top), width, area.height());
        left += width;
        let class = format!("sp sp{place}");
        ink.path(Layer::Captions, &class, &Outline::boxed(part));
        let number = words::percent(share);
        let whole = format!("{name} {number}");
        let room = width - 8.0;
        let text = [whole.as_str(), number.as_str()]
            .into_iter()
            .find(|text| KEY.width(text, ink.widths) <= room);
        if let Some(text) = text {
            let at = point(part.middle().x, area.top + 16.5);
            let face = super::ink::Face {
                class: "lsi",
                ..KEY
            };
            ink.text(Layer::Captions, &face, at, Anchor::Middle, text);
        }
    }
}

/// The symbol of the projection, 44 × 18 px: a cone and its view.
///
/// First angle: the view from the left stands on the right. Third angle: on the left.
pub fn symbol(ink: &mut Ink, system: UnitSystem, at: Point) {
    let first = !system.is_customary(Chosen::Length);
    let (cone, circles) = if first { (2.0, 33.0) } else { (26.0, 11.0) };
    let p = |x: f64, y: f64| at.moved(x, y);
    let body = Outline::through(&[
        p(cone, 5.0),
        p(cone + 16.0, 2.0),
        p(cone + 16.0, 16.0),
        p(cone, 13.0),
    ])
    .closed();
    let middle = p(circles, 9.0);
    let rings = Outline::circle(middle, 7.0).and(&Outline::circle(middle, 3.6));
    let axis = Outline::through(&[p(0.0, 9.0), p(44.0, 9.0)]);
    let name = if first {
        tr("First-angle projection")
    } else {
        tr("Third-angle projection")
    };
    let open = format!(
        "<g class=\"projection\" role=\"img\" aria-label=\"{name}\" data-angle=\"{}\">",
        if first { 1 } else { 3 }
    );
    ink.raw(Layer::Captions, &open, Area::NOTHING);
    ink.path(Layer::Captions, "p nofill", &body);
    ink.path(Layer::Captions, "p nofill", &rings);
    ink.path(Layer::Captions, "c", &axis);
    ink.raw(Layer::Captions, "</g>", Area::NOTHING);
}
