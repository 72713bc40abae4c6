//! Names at the ends of lines, moved apart where they would touch.

use crate::charts::canvas::{SCALE, font, px};
use coolpath_core::math::order;
use plotters::prelude::*;

/// Size of the names, CSS pixels.
pub const TEXT_PX: u32 = 14;
/// Least distance between the middles of two names, CSS pixels.
pub const APART_PX: f64 = 17.0;
/// Width of a letter over its height, wide enough for most fonts [-] (from memory).
const LETTER: f64 = 0.56;
/// Between the plot and the names, CSS pixels.
const GAP_PX: u32 = 6;

/// Width of a name, pixels of the drawing.
#[must_use]
pub fn wide(name: &str) -> u32 {
    (LETTER * f64::from(px(TEXT_PX)) * name.chars().count() as f64).ceil() as u32
}

/// Room that the names need beside the plot, CSS pixels.
#[must_use]
pub fn room(names: &[&str]) -> u32 {
    let longest = names.iter().map(|name| name.chars().count()).max();
    longest.map_or(0, |letters| {
        GAP_PX + (LETTER * f64::from(TEXT_PX) * letters as f64).ceil() as u32
    })
}

/// Places at least so far apart, in the order of those wanted, as near to them as can be (least
/// squares: neighbours that would touch are moved as one block), and between two ends.
#[must_use]
pub fn spread(wanted: &[f64], apart: f64, ends: (f64, f64)) -> Vec<f64> {
    let mut order: Vec<usize> = (0..wanted.len()).collect();
    order::by_number(&mut order, |at| wanted[*at]);
    // Each block: sum of what its members want for its first, and how many they are.
    let mut blocks: Vec<(f64, f64)> = Vec::new();
    // Between the ends already here: a block that is pushed back meets the one before it.
    let first = |(sum, count): (f64, f64)| {
        let last = (count - 1.0) * apart;
        (sum / count).min(ends.1 - last).max(ends.0)
    };
    for place in &order {
        let mut block = (wanted[*place], 1.0);
        while let Some(&(sum, count)) = blocks.last() {
            if first(block) - first((sum, count)) >= count * apart {
                break;
            }
            // A member stands `apart` behind the one before it.
            blocks.pop();
            block = (sum + block.0 - block.1 * count * apart, count + block.1);
        }
        blocks.push(block);
    }
    let mut found = vec![0.0; wanted.len()];
    let mut members = order.into_iter();
    for (sum, count) in blocks {
        let first = first((sum, count));
        for (at, member) in members.by_ref().take(count as usize).enumerate() {
            found[member] = first + at as f64 * apart;
        }
    }
    found
}

/// Draws names at the ends of lines that lie at these heights, pixels of the drawing.
///
/// # Errors
/// What plotters says.
pub fn draw(
    area: &DrawingArea<SVGBackend<'_>, plotters::coord::Shift>,
    names: &[(&str, RGBColor, i32)],
    (right, top, bottom): (i32, i32, i32),
) -> Result<(), Box<dyn std::error::Error>> {
    let scale = f64::from(SCALE);
    let wanted: Vec<f64> = names.iter().map(|name| f64::from(name.2)).collect();
    let half = 0.5 * f64::from(TEXT_PX) * scale;
    let ends = (f64::from(top) + half, f64::from(bottom) - half);
    let places = spread(&wanted, APART_PX * scale, ends);
    let gap = px(GAP_PX) as i32;
    for ((name, colour, height), place) in names.iter().zip(places) {
        let middle = place.round() as i32;
        if (middle - height).unsigned_abs() > px(2) {
            area.draw(&PathElement::new(
                vec![(right, *height), (right + gap - px(1) as i32, middle)],
                colour.stroke_width(px(1)),
            ))?;
        }
        let style = font(TEXT_PX).color(colour);
        area.draw(&Text::new(
            (*name).to_owned(),
            (right + gap, middle - half as i32),
            style,
        ))?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_keep_their_order_and_distance_and_stay_near_their_lines() {
        assert_eq!(spread(&[], 10.0, (0.0, 100.0)), [0.0; 0]);
        // Far apart they stand where they want to; two that touch move by the same amount.
        assert_eq!(spread(&[50.0, 10.0], 10.0, (0.0, 100.0)), [50.0, 10.0]);
        assert_eq!(spread(&[50.0, 54.0], 10.0, (0.0, 100.0)), [47.0, 57.0]);
        assert_eq!(
            spread(&[98.0, 2.0, 99.0], 10.0, (0.0, 100.0)),
            [90.0, 2.0, 100.0]
        );
        let mut seed = 7_u32;
        for _ in 0..500 {
            let mut next = || {
                seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                f64::from(seed >> 8) / f64::from(1 << 24)
            };
            // Crowded toward one end, as lines of equal heads are.
            let wanted: Vec<f64> = (0..14).map(|_| 300.0 * next().sqrt()).collect();
            let found = spread(&wanted, 17.0, (0.0, 300.0));
            let mut order: Vec<usize> = (0..14).collect();
            order::by_number(&mut order, |at| wanted[*at]);
            for pair in order.windows(2) {
                let between = found[pair[1]] - found[pair[0]];
                assert!(between > 17.0 - 1e-9, "{wanted:?}: {found:?}");
            }
            assert!(
                found
                    .iter()
                    .all(|place| (-1e-9..=300.0 + 1e-9).contains(place))
            );
        }
    }

    #[test]
    fn the_longest_name_sets_the_room() {
        assert_eq!(room(&[]), 0);
        assert!(room(&["jammed open", "as set"]) > room(&["as set"]));
    }
}
