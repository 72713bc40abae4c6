//! Areas added up from pieces, outlines traced in photographs, and gauges: values by hand, and what is
//! refused.

use coolpath_core::math::normal::RANGE_DEVIATIONS;
use coolpath_core::workshop::area::{AreaError, Piece, Shape, sum};
use coolpath_core::workshop::gauge::leak_area;
use coolpath_core::workshop::photo::{
    Homography, PhotoError, Place, area, may_follow, radius, traced,
};
use std::f64::consts::{FRAC_PI_4, PI, TAU};

fn close(found: f64, expected: f64, tolerance: f64) {
    assert!(
        (found - expected).abs() <= tolerance,
        "{found} instead of {expected}, tolerance {tolerance}"
    );
}

#[test]
fn areas_and_perimeters_of_unequal_sides() {
    let rectangle = Shape::Rectangle {
        width: 0.5,
        height: 0.2,
        radius: 0.05,
    };
    close(rectangle.area_m2(), 0.1 - (4.0 - PI) * 0.0025, 1e-12);
    close(
        rectangle.perimeter_m(),
        1.4 - (8.0 - 2.0 * PI) * 0.05,
        1e-12,
    );
    let slot = Shape::Slot {
        length: 0.5,
        width: 0.2,
    };
    close(slot.area_m2(), 0.06 + FRAC_PI_4 * 0.04, 1e-12);
    close(slot.perimeter_m(), 0.6 + PI * 0.2, 1e-12);
    let circle = Shape::Circle { diameter: 0.3 };
    close(circle.area_m2(), FRAC_PI_4 * 0.09, 1e-12);
    close(circle.perimeter_m(), PI * 0.3, 1e-12);
    let triangle = Shape::Triangle {
        base: 0.6,
        height: 0.4,
    };
    close(triangle.area_m2(), 0.12, 1e-12);
    close(triangle.perimeter_m(), 1.6, 1e-12);
    close(triangle.string_area_m2(), 0.16, 1e-12);
    // Twice as wide as high: 8 E(¾) = 9.688448 with the complete elliptic integral 1.2110560
    let ellipse = Shape::Ellipse {
        width: 4.0,
        height: 2.0,
    };
    close(ellipse.area_m2(), 2.0 * PI, 1e-12);
    close(ellipse.perimeter_m(), 9.688_448, 1e-6);
}

/// What a single piece adds up to.
fn alone(shape: Shape) -> Result<f64, AreaError> {
    let piece = Piece {
        shape,
        blocks: false,
    };
    sum(&[piece]).map(|sum| sum.net_m2)
}

#[test]
fn a_corner_is_at_most_half_as_round_as_the_shorter_side_and_a_slot_as_wide_as_long() {
    let rectangle = |radius| Shape::Rectangle {
        width: 0.5,
        height: 0.2,
        radius,
    };
    let slot = |length| Shape::Slot { length, width: 0.2 };
    for (fits, does_not) in [(rectangle(0.1), rectangle(0.11)), (slot(0.2), slot(0.19))] {
        close(alone(fits).expect("an area"), fits.area_m2(), 1e-15);
        assert_eq!(alone(does_not), Err(AreaError::Proportions { piece: 0 }));
    }
    close(
        alone(slot(0.5)).expect("an area"),
        0.06 + FRAC_PI_4 * 0.04,
        1e-12,
    );
    for none in [
        Shape::Circle { diameter: 0.0 },
        Shape::Triangle {
            base: 0.6,
            height: f64::INFINITY,
        },
    ] {
        assert_eq!(alone(none), Err(AreaError::Length { piece: 0 }));
    }
}

#[test]
fn what_is_refused_says_which_piece_or_what_to_mark() {
    let second = AreaError::Length { piece: 1 }.to_string();
    assert!(second.contains("Piece 2") && second.contains("above zero"));
    let fifth = AreaError::Proportions { piece: 4 }.to_string();
    assert!(fifth.contains("Piece 5") && fifth.contains("half the shorter side"));
    assert!(PhotoError::Corners.to_string().contains("four corners"));
    assert!(PhotoError::TooFew.to_string().contains("three points"));
}

#[test]
fn a_leak_without_flow_or_pressure_or_hole_has_no_area() {
    for (flow, drop, discharge) in [(0.0, 600.0, 0.8), (0.3, 0.0, 0.8), (0.3, 600.0, 0.0)] {
        assert_eq!(leak_area(flow, drop, 288.15, discharge), None);
    }
}

#[test]
fn three_places_of_a_circle_give_its_radius_whatever_its_size() {
    // All at 5 from (20, 10): three, four, five.
    let places = [[25.0, 10.0], [23.0, 14.0], [16.0, 13.0]];
    for scale in [1.0, 1e-3] {
        let found = radius(places.map(|place| place.map(|at| scale * at)));
        close(found.expect("a circle"), 5.0 * scale, 1e-12 * scale);
    }
}

/// A sheet of 0.297 by 0.210 m seen squarely, a pixel for each mm.
const SQUARELY: [Place; 4] = [[0.0, 0.0], [297.0, 0.0], [297.0, 210.0], [0.0, 210.0]];

#[test]
fn an_outline_stands_about_its_middle_with_up_above() {
    let triangle = [[400.0, 50.0], [500.0, 50.0], [460.0, 150.0]];
    let found = traced(SQUARELY, (0.297, 0.210), &triangle, None).expect("an area");
    close(found.area_m2, 0.005, 1e-12);
    // The middle of what it spans lies at (450, 100).
    let expected = [[-0.05, 0.05], [0.05, 0.05], [0.01, -0.05]];
    for (place, expected) in found.outline.iter().zip(expected) {
        close(place[0], expected[0], 1e-12);
        close(place[1], expected[1], 1e-12);
    }
}

#[test]
fn a_sheet_may_be_marked_either_way_round_but_not_with_three_corners_in_a_line() {
    let [a, b, c, d] = SQUARELY;
    let opening = [[400.0, 50.0], [500.0, 50.0], [500.0, 150.0], [400.0, 150.0]];
    let other_way = traced([a, d, c, b], (0.210, 0.297), &opening, None);
    close(other_way.expect("an area").area_m2, 0.01, 1e-12);
    let middle = [0.5 * (a[0] + c[0]), 0.5 * (a[1] + c[1])];
    // On the diagonal, and a hair beyond it.
    for fourth in [middle, [middle[0] - 1e-9, middle[1]]] {
        for corners in [[a, b, c, fourth], [a, fourth, c, b]] {
            let refused = traced(corners, (0.297, 0.210), &opening, None);
            assert_eq!(refused, Err(PhotoError::Corners));
        }
    }
}

#[test]
fn the_band_of_a_traced_area_is_that_of_clicks_drawn_at_random() {
    let corners = [
        [100.0, 120.0],
        [690.0, 100.0],
        [720.0, 540.0],
        [80.0, 510.0],
    ];
    let sheet_m = (0.297, 0.210);
    let place = |turn: f64| [880.0 + 150.0 * turn.cos(), 320.0 + 150.0 * turn.sin()];
    let outline: Vec<Place> = (0..6).map(|at| place(TAU * f64::from(at) / 6.0)).collect();
    let lip = [place(-1.2), place(0.0), place(1.2)];
    let found = traced(corners, sheet_m, &outline, Some(lip)).expect("an area");

    let mut random = fastrand::Rng::with_seed(7);
    // Sum of twelve uniform numbers less six: mean 0, deviation 1; so is a click, in pixels.
    let mut normal = || (0..12).map(|_| random.f64()).sum::<f64>() - 6.0;
    let mut clicked = |[x, y]: Place| [x + normal(), y + normal()];
    let tries = 5000;
    let (mut areas, mut radii) = (Vec::new(), Vec::new());
    for _ in 0..tries {
        let map = Homography::of_sheet(corners.map(&mut clicked), sheet_m.0, sheet_m.1);
        let map = map.expect("a sheet");
        let flat = |place: Place| map.plane(place).expect("before the horizon");
        let outline: Vec<Place> = outline.iter().map(|at| flat(clicked(*at))).collect();
        areas.push(area(&outline));
        radii.push(radius(lip.map(&mut clicked).map(flat)).expect("a circle"));
    }
    let deviation = |values: &[f64]| {
        let mean = values.iter().sum::<f64>() / f64::from(tries);
        let squares: f64 = values.iter().map(|value| (value - mean).powi(2)).sum();
        (squares / f64::from(tries)).sqrt()
    };
    // So many tries find a deviation to 1 %; the rest is for what the first order leaves out.
    let expected = RANGE_DEVIATIONS * deviation(&areas);
    close(found.area_band_m2, expected, 0.04 * expected);
    let expected = RANGE_DEVIATIONS * deviation(&radii);
    close(found.lip_m.expect("a radius").1, expected, 0.04 * expected);
}

#[test]
fn a_line_that_touches_another_does_not_cross_it() {
    // The edge from (100, 100) ends on the one from (0, 0) to (100, 0).
    let touching = [[0.0, 0.0], [100.0, 0.0], [100.0, 100.0], [50.0, 0.0]];
    for mirror in [1.0, -1.0] {
        let flipped = touching.map(|[x, y]| [300.0 + mirror * x, y]);
        for first in 0..4 {
            let mut outline = flipped.to_vec();
            outline.rotate_left(first);
            let found = traced(SQUARELY, (0.297, 0.210), &outline, None);
            close(found.expect("an area").area_m2, 0.0025, 1e-12);
        }
    }
}

#[test]
fn an_outlines_last_edges_may_not_cross_either() {
    // From (0, 100) to (20, 30), and from (20, 80) home to (0, 0)
    let outline = [
        [0.0, 0.0],
        [100.0, 0.0],
        [100.0, 100.0],
        [0.0, 100.0],
        [20.0, 30.0],
        [20.0, 80.0],
    ];
    let found = traced(SQUARELY, (0.297, 0.210), &outline, None);
    assert_eq!(found, Err(PhotoError::Crosses));
}

#[test]
fn a_point_far_along_the_same_line_is_no_repetition() {
    assert_eq!(may_follow(&[[10.0, 40.0]], [100.0, 40.5]), Ok(()));
    assert_eq!(may_follow(&[[40.0, 10.0]], [40.5, 100.0]), Ok(()));
    assert_eq!(
        may_follow(&[[10.0, 40.0]], [10.6, 40.7]),
        Err(PhotoError::Repeated)
    );
}
