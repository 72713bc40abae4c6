//! Tags on rails above and below a view.
//!
//! Tags and anchors have one order, so that leaders cannot cross; tags stand outside the outline,
//! so that none is crossed.

use super::Part;
use super::ink::{Anchor, Ink, Layer, TAG_LABEL, TAG_VALUE};
use super::marks;
use super::number::short;
use super::path::Outline;
use super::point::{Area, Point, point};
use super::readout::State;
use super::text_width::TextWidth;
use coolpath_core::math::order;

/// Height of a tag, px.
pub const HEIGHT: f64 = 36.0;
/// Between neighbours, px.
const GAP: f64 = 6.0;
/// Between neighbouring anchors, px: a leader must not touch the next one's dot.
const ANCHOR_GAP: f64 = 7.0;
/// Left and right of the text, px in all.
const PADDING: f64 = 16.0;
/// Taken by a mark, px.
const MARK: f64 = 15.0;
/// Most tags on a rail of a small screen.
const MOST_SMALL: usize = 4;

/// A tag that is wanted.
#[derive(Debug, Clone, PartialEq)]
pub struct Wanted {
    /// Part that it belongs to.
    pub part: Part,
    /// Label, and the same for narrow rails.
    pub label: (String, String),
    /// Value, and the same for narrow rails.
    pub value: (String, String),
    /// State of the value.
    pub state: Option<State>,
    /// Where it points.
    pub anchor: Point,
    /// The lower, the sooner it is left out.
    pub rank: u8,
}

/// A tag in its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Tag {
    /// Part that it belongs to.
    pub part: Part,
    /// Label.
    pub label: String,
    /// Value.
    pub value: String,
    /// State of the value.
    pub state: Option<State>,
    /// Its box, px.
    pub area: Area,
    /// Its leader from the tag to the anchor, px.
    pub leader: Vec<Point>,
}

/// A rail.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rail {
    /// Left end, px.
    pub left: f64,
    /// Right end, px.
    pub right: f64,
    /// Upper edge of the tags, px.
    pub top: f64,
    /// Line at which leaders turn upright, px.
    pub jog: f64,
    /// Whether the tags stand above the view.
    pub above: bool,
}

/// Places tags on a rail, shortened or left out as far as room demands.
#[must_use]
pub fn placed(rail: &Rail, wanted: &[Wanted], small: bool, widths: &dyn TextWidth) -> Vec<Tag> {
    let mut list: Vec<&Wanted> = wanted.iter().collect();
    order::by_number(&mut list, |tag| tag.anchor.x);
    while small && list.len() > MOST_SMALL {
        drop_least(&mut list);
    }
    let room = rail.right - rail.left;
    let mut level = if small { 2 } else { 0 };
    loop {
        let sizes: Vec<f64> = list.iter().map(|tag| width(tag, level, widths)).collect();
        let needed: f64 = sizes.iter().map(|size| size + GAP).sum::<f64>() - GAP;
        if needed <= room || list.is_empty() {
            return set(rail, &list, level, &sizes);
        }
        if level < 2 {
            level += 1;
        } else {
            drop_least(&mut list);
        }
    }
}

fn drop_least(list: &mut Vec<&Wanted>) {
    if let Some(place) = (0..list.len()).min_by_key(|&place| list[place].rank) {
        list.remove(place);
    }
}

fn texts(tag: &Wanted, level: u8) -> (&str, &str) {
    let label = if level >= 1 {
        &tag.label.1
    } else {
        &tag.label.0
    };
    let value = if level >= 2 {
        &tag.value.1
    } else {
        &tag.value.0
    };
    (label, value)
}

fn width(tag: &Wanted, level: u8, widths: &dyn TextWidth) -> f64 {
    let (label, value) = texts(tag, level);
    let text = TAG_LABEL
        .width(label, widths)
        .max(TAG_VALUE.width(value, widths));
    let mark = if tag.state.is_some() { MARK } else { 0.0 };
    (text + PADDING + mark).ceil()
}

/// Left edges by least squares with minimal gaps: pool adjacent violators, inside the rail.
#[must_use]
pub fn spread(wanted: &[f64], sizes: &[f64], gap: f64, (least, most): (f64, f64)) -> Vec<f64> {
    struct Block {
        sum: f64,
        count: f64,
        size: f64,
        places: usize,
    }
    let left = |block: &Block| (block.sum / block.count).min(most - block.size).max(least);
    let mut blocks: Vec<Block> = Vec::new();
    for (&start, &size) in wanted.iter().zip(sizes) {
        let mut block = Block {
            sum: start,
            count: 1.0,
            size,
            places: 1,
        };
        while let Some(last) = blocks.pop_if(|last| left(last) + last.size + gap > left(&block)) {
            let shift = last.size + gap;
            block = Block {
                // Each member wants the block where it would stand itself.
                sum: last.sum + block.sum - block.count * shift,
                count: last.count + block.count,
                size: shift + block.size,
                places: last.places + block.places,
            };
        }
        blocks.push(block);
    }
    let mut edges = Vec::with_capacity(sizes.len());
    let mut place = 0;
    for block in &blocks {
        let mut edge = left(block);
        for size in &sizes[place..place + block.places] {
            edges.push(edge);
            edge += size + gap;
        }
        place += block.places;
    }
    edges
}

fn set(rail: &Rail, list: &[&Wanted], level: u8, sizes: &[f64]) -> Vec<Tag> {
    let wanted: Vec<f64> = list
        .iter()
        .zip(sizes)
        .map(|(tag, size)| tag.anchor.x - 0.5 * size)
        .collect();
    let lefts = spread(&wanted, sizes, GAP, (rail.left, rail.right));
    let points: Vec<f64> = list.iter().map(|tag| tag.anchor.x).collect();
    let none = vec![0.0; points.len()];
    let anchors = spread(
        &points,
        &none,
        ANCHOR_GAP,
        (rail.left - 1e4, rail.right + 1e4),
    );
    list.iter()
        .zip(sizes)
        .zip(lefts.iter().zip(&anchors))
        .map(|((tag, &size), (&left, &x))| {
            let (label, value) = texts(tag, level);
            let area = Area::sized(point(left, rail.top), size, HEIGHT);
            let edge = if rail.above { area.bottom } else { area.top };
            let foot = x.clamp(left + 10.0, left + size - 10.0);
            let anchor = point(x, tag.anchor.y);
            let leader = if (foot - x).abs() < 0.6 {
                vec![point(x, edge), anchor]
            } else {
                vec![point(foot, edge), point(x, rail.jog), anchor]
            };
            Tag {
                part: tag.part,
                label: label.to_owned(),
                value: value.to_owned(),
                state: tag.state,
                area,
                leader,
            }
        })
        .collect()
}

/// Draws a tag: its leader with a casing, a dot, its box and texts.
pub fn draw(ink: &mut Ink, tag: &Tag, selected: bool) {
    let state = tag
        .state
        .map_or(String::new(), |state| format!(" st-{}", state.class()));
    let chosen = if selected { " tsel" } else { "" };
    let open = format!(
        "<g class=\"tag{state}{chosen}\" data-part=\"{}\">",
        tag.part.name()
    );
    ink.raw(Layer::Tags, &open, Area::NOTHING);
    let leader = Outline::through(&tag.leader);
    ink.path(Layer::Tags, "ldh", &leader);
    ink.path(Layer::Tags, "ld", &leader);
    if let Some(&end) = tag.leader.last() {
        ink.path(Layer::Tags, "lddot", &Outline::circle(end, 2.6));
    }
    let area = tag.area;
    let markup = format!(
        "<rect class=\"tagbg\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" rx=\"4\"/>",
        short(area.left),
        short(area.top),
        short(area.width()),
        short(area.height())
    );
    ink.raw(Layer::Tags, &markup, area);
    let mut text_left = area.left + 0.5 * PADDING;
    if let Some(state) = tag.state {
        let middle = point(area.left + 12.0, area.top + 0.5 * HEIGHT);
        let mark = marks::mark(state, middle);
        ink.raw(Layer::Tags, &mark, Area::NOTHING);
        text_left += MARK;
    }
    let at = |down: f64| point(text_left, area.top + down);
    ink.text(Layer::Tags, &TAG_LABEL, at(14.0), Anchor::Start, &tag.label);
    ink.text(Layer::Tags, &TAG_VALUE, at(30.0), Anchor::Start, &tag.value);
    ink.raw(Layer::Tags, "</g>", Area::NOTHING);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn free_tags_stand_over_their_anchors() {
        let lefts = spread(&[10.0, 200.0], &[50.0, 60.0], 6.0, (0.0, 400.0));
        assert_eq!(lefts, vec![10.0, 200.0]);
    }

    #[test]
    fn crowded_tags_share_the_displacement() {
        // Two equal tags over one anchor: each moves by half of what overlaps.
        let lefts = spread(&[100.0, 100.0], &[50.0, 50.0], 6.0, (0.0, 400.0));
        assert_eq!(lefts, vec![72.0, 128.0]);
    }

    #[test]
    fn a_rail_holds_its_tags() {
        let lefts = spread(&[-40.0, -30.0, 390.0], &[50.0; 3], 6.0, (0.0, 400.0));
        assert_eq!(lefts, vec![0.0, 56.0, 350.0]);
    }
}
