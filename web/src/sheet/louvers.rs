//! Where rows of louvers stand.

use super::proportions::Frame;

/// Where rows of louvers stand: first and last x of each, in.
#[must_use]
pub fn louver_places(frame: &Frame) -> Vec<(u8, f64)> {
    let rows = frame.louvers.len().max(1) as f64;
    let (start, end) = (17.0, frame.hinge.0 - 1.2);
    frame
        .louvers
        .iter()
        .enumerate()
        .map(|(place, row)| {
            let share = (place as f64 + 0.5) / rows;
            (row.count, start + (end - start) * share)
        })
        .collect()
}
