//! The inside of a widening duct: its stations as a table, and a rib outline of each at full size.
//!
//! Walls are straight from the opening to the end, so that every length grows evenly with the distance and
//! the area as its square: s(x) = 1 + (√AR − 1) x/L, A(x) = A₁ s². A rectangle keeps its proportions, its
//! corners grow along; a ring becomes a cone; a traced outline is scaled about its middle.

use crate::kit::format;
use crate::kit::table_text::TableText;
use crate::workshop::cut::drawing::{Drawing, Stroke, at};
use crate::workshop::cut::inlet::{SMALL, Title, outline};
use coolpath_core::document::installation::{Inlet, InletShape};
use coolpath_core::language::tr;
use coolpath_core::units::feet_inches::Rounded;
use coolpath_core::units::typed::{Dimension, UnitSystem};

/// Stations, both ends among them.
const STATIONS: usize = 6;
/// Between two ribs, mm.
const BETWEEN_MM: f64 = 14.0;
/// Half of the cross in the middle of each rib, mm.
const CROSS_MM: f64 = 6.0;

/// A place along the duct.
#[derive(Debug, Clone, PartialEq)]
pub struct Station {
    /// Distance from the opening along the middle, m.
    pub along_m: f64,
    /// The inside of the duct there, as an opening.
    pub inside: Inlet,
}

/// Stations of an inlet's widening duct, evenly from the opening to the end; none without a duct.
#[must_use]
pub fn stations(inlet: &Inlet) -> Vec<Station> {
    if !inlet.diffuser {
        return Vec::new();
    }
    let widening = inlet.diffuser_ratio.sqrt() - 1.0;
    (0..STATIONS)
        .map(|place| {
            let share = place as f64 / (STATIONS - 1) as f64;
            // s = 1 + (√AR − 1) x/L
            let scale = 1.0 + widening * share;
            let mut inside = inlet.clone();
            inside.scale_area(scale * scale);
            Station {
                along_m: share * inlet.diffuser_length.value,
                inside,
            }
        })
        .collect()
}

fn length(metres: f64, system: UnitSystem) -> String {
    format::cut_length(metres, system, Rounded::Nearest)
}

fn area(inside: &Inlet, system: UnitSystem) -> String {
    format::quantity(inside.area_m2(), Dimension::Area, system, 3)
}

/// Sides of a station, by name.
fn sides(inside: &Inlet, system: UnitSystem) -> Vec<(&'static str, String)> {
    match inside.shape {
        InletShape::Rectangle => vec![
            (tr("Width"), length(inside.width.value, system)),
            (tr("Height"), length(inside.height.value, system)),
            (
                tr("Corner radius"),
                length(inside.corner_radius.value, system),
            ),
        ],
        InletShape::Ring => vec![(tr("Diameter"), length(inside.diameter.value, system))],
        InletShape::Traced => Vec::new(),
    }
}

/// The stations as a table; `None` without a duct.
#[must_use]
pub fn table(inlet: &Inlet, system: UnitSystem) -> Option<TableText> {
    let stations = stations(inlet);
    let first = stations.first()?;
    let mut columns = vec![tr("Station"), tr("From the opening")];
    columns.extend(
        sides(&first.inside, system)
            .into_iter()
            .map(|(name, _)| name),
    );
    columns.push(tr("Area"));
    let rows = stations.iter().enumerate().map(|(place, station)| {
        let mut row = vec![(place + 1).to_string(), length(station.along_m, system)];
        row.extend(
            sides(&station.inside, system)
                .into_iter()
                .map(|(_, side)| side),
        );
        row.push(area(&station.inside, system));
        row
    });
    let title = tr!("Inside of the widening duct, {}", inlet.name);
    Some(TableText::new(title, &columns, rows.collect()))
}

/// What stands below a rib.
fn said(place: usize, station: &Station, system: UnitSystem) -> String {
    let sides = sides(&station.inside, system);
    let sides = sides
        .iter()
        .map(|(name, side)| format!("{} {side}, ", name.to_lowercase()));
    tr!(
        "Station {}, {} from the opening: {}{}",
        place + 1,
        length(station.along_m, system),
        sides.collect::<String>(),
        area(&station.inside, system)
    )
}

/// Rib outlines at full size, one below the other; `None` without a duct, or if the opening's shape is
/// not known.
#[must_use]
pub fn ribs(inlet: &Inlet, title: &Title, right_side: bool, system: UnitSystem) -> Option<Drawing> {
    let stations = stations(inlet);
    if stations.is_empty() {
        return None;
    }
    let mut drawing = Drawing::default();
    let mut texts = Vec::new();
    let mut top = 0.0;
    for (place, station) in stations.iter().enumerate() {
        let points = outline(&station.inside, 0.0)?;
        let lowest = points
            .iter()
            .map(|point| point.y)
            .fold(f64::INFINITY, f64::min);
        let highest = points
            .iter()
            .map(|point| point.y)
            .fold(f64::NEG_INFINITY, f64::max);
        let middle = top - highest;
        let points = points
            .into_iter()
            .map(|point| at(point.x, point.y + middle));
        drawing.outline(points.collect(), Stroke::Rib);
        for (x, y) in [(CROSS_MM, 0.0), (0.0, CROSS_MM)] {
            drawing.line(at(-x, middle - y), at(x, middle + y), Stroke::Thin);
        }
        texts.push((middle + lowest - 1.5 * SMALL, said(place, station, system)));
        top = middle + lowest - 1.5 * SMALL - BETWEEN_MM;
    }
    if right_side {
        drawing = drawing.flipped();
    }
    let (low, _) = drawing.extent();
    for (y, text) in texts {
        drawing.text(at(low.x, y), SMALL, text);
    }
    let end = drawing.texts(
        at(low.x, top),
        [
            (4.5, if right_side {
                tr!("{}: {}, right side, widening duct", title.design, inlet.name)
            } else {
                tr!("{}: {}, left side, widening duct", title.design, inlet.name)
            }),
            (
                SMALL,
                tr!(
                    "{}  Each outline is the inside of the duct, square to its middle; crosses mark the middle.",
                    title.day
                ),
            ),
            (
                SMALL,
                tr(
                    "Walls run straight from one station to the next. If the opening is cut larger, begin the duct as large.",
                ).to_owned(),
            ),
        ],
    );
    drawing.check_scales(at(end.x, end.y - 2.0));
    Some(drawing)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::workshop::cut::drawing::{Item, Point};
    use crate::workshop::cut::sheets::{Paper, tiles};
    use crate::workshop::cut::{dxf, svg};
    use coolpath_core::document::example;
    use coolpath_core::path::loss::equivalent_cone_angle;

    fn ducted(shape: InletShape) -> Inlet {
        let mut inlet = example::design().installation.inlets[0].clone();
        inlet.shape = shape;
        inlet.diffuser = true;
        inlet.diffuser_ratio = 2.25;
        inlet.outline = vec![[0.0, 0.0], [0.1, 0.0], [0.0, 0.1]];
        inlet
    }

    fn rib_outlines(drawing: &Drawing) -> Vec<&Vec<Point>> {
        let ribs = drawing.items.iter().filter_map(|item| match item {
            Item::Path {
                points,
                closed: true,
                stroke: Stroke::Rib,
            } => Some(points),
            _ => None,
        });
        ribs.collect()
    }

    fn area_mm2(points: &[Point]) -> f64 {
        let next = points.iter().cycle().skip(1);
        let twice = points.iter().zip(next).map(|(a, b)| a.x * b.y - b.x * a.y);
        0.5 * twice.sum::<f64>().abs()
    }

    fn width_mm(points: &[Point]) -> f64 {
        let most = points
            .iter()
            .map(|point| point.x)
            .fold(f64::NEG_INFINITY, f64::max);
        let least = points
            .iter()
            .map(|point| point.x)
            .fold(f64::INFINITY, f64::min);
        most - least
    }

    #[test]
    fn ribs_of_every_shape_have_straight_walls_and_end_at_the_area_ratio() {
        for shape in [InletShape::Rectangle, InletShape::Ring, InletShape::Traced] {
            let inlet = ducted(shape);
            let drawing =
                ribs(&inlet, &Title::default(), false, UnitSystem::Customary).expect("ribs");
            let found = rib_outlines(&drawing);
            assert_eq!(found.len(), STATIONS);
            let first = width_mm(found[0]);
            for (place, rib) in found.iter().enumerate() {
                // √2.25 = 1.5: half as wide again at the end, a tenth more at each station.
                let scale = 1.0 + 0.1 * place as f64;
                assert!(
                    (width_mm(rib) / first - scale).abs() < 1e-9,
                    "{shape:?} {place}"
                );
                let drawn = area_mm2(rib) * 1e-6 / (scale * scale * inlet.area_m2());
                assert!((drawn - 1.0).abs() < 3e-4, "{shape:?} {place}: {drawn}");
            }
        }
    }

    #[test]
    fn a_ring_becomes_the_cone_that_the_core_computes_with() {
        let inlet = ducted(InletShape::Ring);
        let all = stations(&inlet);
        let (first, last) = (&all[0], &all[STATIONS - 1]);
        assert_eq!(last.along_m, inlet.diffuser_length.value);
        let radius = |station: &Station| 0.5 * station.inside.diameter.value;
        let full = 2.0
            * ((radius(last) - radius(first)) / last.along_m)
                .atan()
                .to_degrees();
        let cone = equivalent_cone_angle(inlet.area_m2(), 2.25, inlet.diffuser_length.value);
        assert!((full - cone).abs() < 1e-9, "{full} and {cone}");
    }

    #[test]
    fn the_table_names_what_is_measured_of_each_shape() {
        let columns = |shape| {
            table(&ducted(shape), UnitSystem::Customary)
                .expect("a table")
                .columns
        };
        assert_eq!(
            columns(InletShape::Rectangle),
            [
                "Station",
                "From the opening",
                "Width",
                "Height",
                "Corner radius",
                "Area"
            ]
        );
        assert_eq!(columns(InletShape::Ring)[2..], ["Diameter", "Area"]);
        assert_eq!(columns(InletShape::Traced)[2..], ["Area"]);
        let rows = table(&ducted(InletShape::Rectangle), UnitSystem::Customary)
            .expect("a table")
            .rows;
        // 6.25 × 3.5 in, half as large again after 8 in.
        assert_eq!(rows[0][..4], ["1", "0 in", "6 1/4 in", "3 1/2 in"]);
        assert_eq!(rows[5][..4], ["6", "8 in", "9 3/8 in", "5 1/4 in"]);
        let mut bare = ducted(InletShape::Ring);
        bare.diffuser = false;
        assert_eq!(table(&bare, UnitSystem::Customary), None);
        assert_eq!(
            ribs(&bare, &Title::default(), false, UnitSystem::Customary),
            None
        );
    }

    #[test]
    fn ribs_lie_apart_on_the_sheets_and_in_both_files() {
        let inlet = ducted(InletShape::Rectangle);
        let drawing = ribs(&inlet, &Title::default(), false, UnitSystem::Metric).expect("ribs");
        let heights: Vec<(f64, f64)> = rib_outlines(&drawing)
            .iter()
            .map(|rib| {
                let all = rib.iter().map(|point| point.y);
                all.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), y| {
                    (low.min(y), high.max(y))
                })
            })
            .collect();
        assert!(
            heights
                .windows(2)
                .all(|pair| pair[1].1 < pair[0].0 - BETWEEN_MM)
        );
        let said = "Station 6, 203 mm from the opening";
        assert!(svg::file(&drawing, "ribs").contains(said));
        let dxf = dxf::file(&drawing);
        assert!(dxf.contains(said));
        assert_eq!(dxf.matches("POLYLINE\r\n8\r\nRIBS\r\n").count(), STATIONS);
        let sheets = tiles(&drawing, "ribs", Paper::A4);
        assert!(sheets.len() > 1 && sheets.iter().any(|sheet| sheet.svg.contains(said)));
    }

    #[test]
    fn the_other_sides_ribs_are_the_mirror() {
        let inlet = ducted(InletShape::Traced);
        let of = |right| ribs(&inlet, &Title::default(), right, UnitSystem::Metric).expect("ribs");
        let (left, right) = (of(false), of(true));
        let pairs = rib_outlines(&left).into_iter().flatten();
        for (a, b) in pairs.zip(rib_outlines(&right).into_iter().flatten()) {
            assert_eq!((a.x, a.y), (-b.x, b.y));
        }
    }
}
