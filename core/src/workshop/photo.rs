//! Area from a photograph: a sheet of known size beside an opening gives the picture's perspective.
//!
//! Four corners of the sheet fix a homography from the picture to the sheet's plane; a traced outline
//! mapped through it has its true size, as far as it lies in that plane and the lens is straight.

use crate::language::tr;
use crate::math::normal::RANGE_DEVIATIONS;
use crate::units::si::inch2;
use nalgebra::{SMatrix, SVector};

/// A place in the picture, pixels, or in the plane, m.
pub type Place = [f64; 2];

/// How far a click may be off, pixels, one standard deviation (from memory).
pub const CLICK_PX: f64 = 1.0;

/// Map from the picture to the plane of the sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Homography([f64; 8]);

/// Why a picture cannot be rectified.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum PhotoError {
    /// The corners do not form a four-sided figure that goes round once.
    Corners,
    /// The outline has fewer than three points.
    TooFew,
    /// The outline crosses itself.
    Crosses,
    /// A point stands where another does.
    Repeated,
    /// The outline holds no area, or none that an inlet has.
    NoArea,
    /// The outline reaches the horizon of the sheet's plane.
    Horizon,
}

impl core::fmt::Display for PhotoError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(match self {
            Self::Corners => {
                tr("The four corners of the sheet must be marked one after the other around it.")
            }
            Self::TooFew => tr("Trace the opening with at least three points."),
            Self::Crosses => tr("The traced line crosses itself: trace once around the opening."),
            Self::Repeated => {
                tr("There is a point here already: mark the next one along the edge.")
            }
            Self::NoArea => tr("The traced line holds no area that an inlet could have."),
            Self::Horizon => tr("The opening is seen too much from the side."),
        })
    }
}

impl core::error::Error for PhotoError {}

/// Areas that an inlet may have, m²: those that the table of inputs permits.
const AREAS_M2: (f64, f64) = (inch2(0.5), inch2(600.0));

impl Homography {
    /// The map that takes the picture's corners of a sheet to a sheet of a size, m; the corners in
    /// order around it, the first edge along its width.
    ///
    /// # Errors
    /// [`PhotoError::Corners`] if three of them lie on one line or the order is crossed.
    ///
    /// # Example
    /// A sheet seen squarely, 1000 by 500 pixels for 2 by 1 m: its middle is the middle:
    /// ```
    /// use coolpath_core::workshop::photo::{Homography, PhotoError};
    ///
    /// let corners = [[0.0, 0.0], [1000.0, 0.0], [1000.0, 500.0], [0.0, 500.0]];
    /// let map = Homography::of_sheet(corners, 2.0, 1.0)?;
    /// let middle = map.plane([500.0, 250.0]);
    /// assert!(middle.is_some_and(|[x, y]| (x - 1.0).abs() < 1e-9 && (y - 0.5).abs() < 1e-9));
    /// # Ok::<(), PhotoError>(())
    /// ```
    pub fn of_sheet(corners: [Place; 4], width_m: f64, height_m: f64) -> Result<Self, PhotoError> {
        if !is_convex(&corners) {
            return Err(PhotoError::Corners);
        }
        let targets = [
            [0.0, 0.0],
            [width_m, 0.0],
            [width_m, height_m],
            [0.0, height_m],
        ];
        // u = (a x + b y + c)/(g x + h y + 1), v = (d x + e y + f)/(g x + h y + 1)
        let mut system = SMatrix::<f64, 8, 8>::zeros();
        let mut right = SVector::<f64, 8>::zeros();
        for (at, (&[x, y], [u, v])) in corners.iter().zip(targets).enumerate() {
            for (row, own, target) in [(2 * at, 0, u), (2 * at + 1, 3, v)] {
                system[(row, own)] = x;
                system[(row, own + 1)] = y;
                system[(row, own + 2)] = 1.0;
                system[(row, 6)] = -target * x;
                system[(row, 7)] = -target * y;
                right[row] = target;
            }
        }
        let solved = system.lu().solve(&right).ok_or(PhotoError::Corners)?;
        Ok(Self(solved.into()))
    }

    /// A place of the picture in the plane, m; `None` beyond the horizon.
    ///
    /// # Example
    /// Seen from one side, the diagonals of the picture still cross in the middle of the sheet. Those
    /// of this trapezium cross at (50, 37.5): y = 0.75 x and y = 0.75 (100 − x):
    /// ```
    /// use coolpath_core::workshop::photo::{Homography, PhotoError};
    ///
    /// let corners = [[0.0, 0.0], [100.0, 0.0], [80.0, 60.0], [20.0, 60.0]];
    /// let map = Homography::of_sheet(corners, 2.0, 1.0)?;
    /// let middle = map.plane([50.0, 37.5]);
    /// assert!(middle.is_some_and(|[x, y]| (x - 1.0).abs() < 1e-9 && (y - 0.5).abs() < 1e-9));
    /// # Ok::<(), PhotoError>(())
    /// ```
    #[must_use]
    pub fn plane(&self, [x, y]: Place) -> Option<Place> {
        let [a, b, c, d, e, f, g, h] = self.0;
        let depth = g * x + h * y + 1.0;
        (depth > 1e-9).then(|| [(a * x + b * y + c) / depth, (d * x + e * y + f) / depth])
    }
}

fn is_convex(corners: &[Place; 4]) -> bool {
    let turn = |at: usize| {
        let [p, q, r] = [0, 1, 2].map(|step| corners[(at + step) % 4]);
        (q[0] - p[0]) * (r[1] - q[1]) - (q[1] - p[1]) * (r[0] - q[0])
    };
    let turns = [0, 1, 2, 3].map(turn);
    turns.iter().all(|turn| *turn > 1e-6) || turns.iter().all(|turn| *turn < -1e-6)
}

/// Area within an outline, in the square of its unit.
///
/// # Example
/// A triangle of 4 by 3:
/// ```
/// use coolpath_core::workshop::photo::area;
///
/// assert_eq!(area(&[[0.0, 0.0], [4.0, 0.0], [0.0, 3.0]]), 6.0);
/// ```
#[must_use]
pub fn area(outline: &[Place]) -> f64 {
    let next = outline.iter().cycle().skip(1);
    let twice: f64 = outline
        .iter()
        .zip(next)
        .map(|(a, b)| a[0] * b[1] - b[0] * a[1])
        .sum();
    0.5 * twice.abs()
}

/// Radius, m, of the circle through three places; `None` if they lie on one line.
///
/// # Example
/// Three places of a circle of 5 about the origin:
/// ```
/// use coolpath_core::workshop::photo::radius;
///
/// let found = radius([[5.0, 0.0], [3.0, 4.0], [-4.0, 3.0]]);
/// assert!(found.is_some_and(|radius| (radius - 5.0).abs() < 1e-12));
/// assert_eq!(radius([[0.0, 0.0], [1.0, 1.0], [2.0, 2.0]]), None);
/// ```
#[must_use]
pub fn radius([p, q, r]: [Place; 3]) -> Option<f64> {
    let length = |a: Place, b: Place| libm::hypot(b[0] - a[0], b[1] - a[1]);
    let twice_area = ((q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])).abs();
    let product = length(p, q) * length(q, r) * length(r, p);
    // R = abc / (4 A)
    (twice_area > 1e-9 * product.max(1e-12)).then(|| product / (2.0 * twice_area))
}

/// What a photograph gives.
#[derive(Debug, Clone, PartialEq)]
pub struct Traced {
    /// The outline about its middle, m.
    pub outline: Vec<Place>,
    /// Its area, m².
    pub area_m2: f64,
    /// How far the area may be off in about nine cases in ten, m²: from the clicks alone.
    pub area_band_m2: f64,
    /// Radius through the three places marked on the lip, m, and how far it may be off.
    pub lip_m: Option<(f64, f64)>,
}

/// Rectifies a traced outline.
///
/// # Arguments
/// * `corners` - of the sheet in the picture, around it, the first edge along its width
/// * `sheet_m` - its width and height, m
/// * `outline` - of the opening in the picture
/// * `lip` - three places along the curve of the lip, if they were marked
///
/// # Errors
/// [`PhotoError`] says what to mark anew.
///
/// # Example
/// One pixel a millimetre: a square of 100 pixels is one of 0.01 m²:
/// ```
/// use coolpath_core::workshop::photo::{PhotoError, traced};
///
/// let sheet = [[0.0, 0.0], [297.0, 0.0], [297.0, 210.0], [0.0, 210.0]];
/// let opening = [[400.0, 50.0], [500.0, 50.0], [500.0, 150.0], [400.0, 150.0]];
/// let found = traced(sheet, (0.297, 0.210), &opening, None)?;
/// assert!((found.area_m2 - 0.01).abs() < 1e-9);
/// # Ok::<(), PhotoError>(())
/// ```
pub fn traced(
    corners: [Place; 4],
    sheet_m: (f64, f64),
    outline: &[Place],
    lip: Option<[Place; 3]>,
) -> Result<Traced, PhotoError> {
    if outline.len() < 3 {
        return Err(PhotoError::TooFew);
    }
    if crosses(outline) {
        return Err(PhotoError::Crosses);
    }
    let measured = |corners: [Place; 4], outline: &[Place], lip: Option<[Place; 3]>| {
        let map = Homography::of_sheet(corners, sheet_m.0, sheet_m.1)?;
        let plane = |places: &[Place]| {
            places
                .iter()
                .map(|place| map.plane(*place).ok_or(PhotoError::Horizon))
                .collect::<Result<Vec<Place>, _>>()
        };
        let flat = plane(outline)?;
        let lip = match lip {
            Some(places) => {
                let flat = plane(&places)?;
                radius([flat[0], flat[1], flat[2]])
            }
            None => None,
        };
        Ok((area(&flat), lip, flat))
    };
    let (area_m2, radius_m, flat) = measured(corners, outline, lip)?;
    if !(AREAS_M2.0..=AREAS_M2.1).contains(&area_m2) {
        return Err(PhotoError::NoArea);
    }
    // Each click moved by its own error in both directions; first order.
    let (mut of_area, mut of_radius) = (0.0, 0.0);
    let mut note = |moved: Result<(f64, Option<f64>, Vec<Place>), PhotoError>| {
        if let Ok((area, radius, _)) = moved {
            of_area += (area - area_m2) * (area - area_m2);
            if let (Some(radius), Some(own)) = (radius, radius_m) {
                of_radius += (radius - own) * (radius - own);
            }
        }
    };
    for axis in 0..2 {
        for at in 0..4 {
            let mut moved = corners;
            moved[at][axis] += CLICK_PX;
            note(measured(moved, outline, lip));
        }
        for at in 0..outline.len() {
            let mut moved = outline.to_vec();
            moved[at][axis] += CLICK_PX;
            note(measured(corners, &moved, lip));
        }
        if let Some(lip) = lip {
            for at in 0..3 {
                let mut moved = lip;
                moved[at][axis] += CLICK_PX;
                note(measured(corners, outline, Some(moved)));
            }
        }
    }
    let band = |squares: f64| RANGE_DEVIATIONS * squares.sqrt();
    let middle = [0, 1].map(|axis| {
        let values = || flat.iter().map(|place| place[axis]);
        0.5 * (values().fold(f64::INFINITY, f64::min) + values().fold(f64::NEG_INFINITY, f64::max))
    });
    Ok(Traced {
        // The plane's y runs down the sheet as in the picture; outlines have it upward.
        outline: flat
            .iter()
            .map(|[x, y]| [x - middle[0], middle[1] - y])
            .collect(),
        area_m2,
        area_band_m2: band(of_area),
        lip_m: radius_m.map(|radius| (radius, band(of_radius))),
    })
}

/// Whether a point may follow the others of an outline under way.
///
/// # Errors
/// [`PhotoError::Repeated`] within a click's error of another point, [`PhotoError::Crosses`] where
/// the line to it crosses the line so far.
///
/// # Example
/// ```
/// use coolpath_core::workshop::photo::{PhotoError, may_follow};
///
/// let so_far = [[0.0, 0.0], [10.0, 0.0], [10.0, 10.0]];
/// assert_eq!(may_follow(&so_far, [0.0, 10.0]), Ok(()));
/// assert_eq!(may_follow(&so_far, [10.0, 9.5]), Err(PhotoError::Repeated));
/// assert_eq!(may_follow(&so_far, [5.0, -5.0]), Err(PhotoError::Crosses));
/// ```
pub fn may_follow(outline: &[Place], place: Place) -> Result<(), PhotoError> {
    let near = |other: &Place| libm::hypot(other[0] - place[0], other[1] - place[1]) <= CLICK_PX;
    if outline.iter().any(near) {
        return Err(PhotoError::Repeated);
    }
    let Some(last) = outline.last() else {
        return Ok(());
    };
    // The edge that ends at the last point only touches the new one.
    let earlier = outline.windows(2).take(outline.len().saturating_sub(2));
    for edge in earlier {
        if cross((edge[0], edge[1]), (*last, place)) {
            return Err(PhotoError::Crosses);
        }
    }
    Ok(())
}

/// Whether two lines between points cross.
fn cross((a, b): (Place, Place), (c, d): (Place, Place)) -> bool {
    let side = |a: Place, b: Place, c: Place| {
        (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
    };
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}

/// Whether a closed line crosses itself.
fn crosses(outline: &[Place]) -> bool {
    let count = outline.len();
    let edge = |at: usize| (outline[at], outline[(at + 1) % count]);
    (0..count).any(|one| {
        (one + 2..count)
            .filter(|other| !(one == 0 && *other == count - 1))
            .any(|other| cross(edge(one), edge(other)))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_point_that_spoils_the_outline_is_refused_when_it_is_marked() {
        let so_far = [[0.0, 0.0], [100.0, 0.0], [100.0, 80.0]];
        assert_eq!(may_follow(&so_far, [0.0, 80.0]), Ok(()));
        assert_eq!(
            may_follow(&so_far, [100.4, 80.0]),
            Err(PhotoError::Repeated)
        );
        assert_eq!(may_follow(&so_far, [50.0, -20.0]), Err(PhotoError::Crosses));
        assert_eq!(may_follow(&[], [0.0, 0.0]), Ok(()));
    }

    #[test]
    fn an_outline_without_area_is_none() {
        let sheet = [[0.0, 0.0], [1000.0, 0.0], [1000.0, 1000.0], [0.0, 1000.0]];
        let line = [[10.0, 10.0], [20.0, 20.0], [30.0, 30.0]];
        let found = traced(sheet, (0.2, 0.2), &line, None);
        assert_eq!(found, Err(PhotoError::NoArea));
    }

    /// A camera that looks at the plane from a slant: plane, m → picture, pixels.
    fn camera([x, y]: Place) -> Place {
        let depth = 1.0 + 0.9 * x + 0.5 * y;
        [
            300.0 + (1500.0 * x + 220.0 * y) / depth,
            200.0 + (-130.0 * x + 1350.0 * y) / depth,
        ]
    }

    const SHEET: (f64, f64) = (0.210, 0.297);

    fn corners() -> [Place; 4] {
        [[0.0, 0.0], [0.210, 0.0], [0.210, 0.297], [0.0, 0.297]].map(camera)
    }

    #[test]
    fn a_known_shape_under_perspective_keeps_its_area_and_radius() {
        // A ring of 5 in beside the sheet, clicked at 24 places to the pixel.
        let place = |angle: f64| {
            let (centre, radius) = ([0.33, 0.15], 0.0635);
            camera([
                centre[0] + radius * libm::cos(angle),
                centre[1] + radius * libm::sin(angle),
            ])
            .map(libm::round)
        };
        let turn = core::f64::consts::TAU;
        let outline: Vec<Place> = (0..48)
            .map(|at| place(turn * f64::from(at) / 48.0))
            .collect();
        let lip = [place(0.0), place(0.8), place(1.6)];
        let found = traced(corners(), SHEET, &outline, Some(lip)).expect("an area");
        let truth = core::f64::consts::PI * 0.0635 * 0.0635;
        assert!(
            (found.area_m2 / truth - 1.0).abs() < 0.01,
            "{}",
            found.area_m2 / truth
        );
        assert!(found.area_band_m2 > 0.0 && found.area_band_m2 < 0.05 * truth);
        let (radius, band) = found.lip_m.expect("a radius");
        assert!(
            (radius - 0.0635).abs() < band.max(0.002),
            "{radius} ± {band}"
        );
        // A wide slot, exactly.
        let slot = [[0.25, 0.02], [0.453, 0.02], [0.453, 0.096], [0.25, 0.096]].map(camera);
        let found = traced(corners(), SHEET, &slot, None).expect("an area");
        assert!((found.area_m2 - 0.203 * 0.076).abs() < 1e-9);
        assert!((area(&found.outline) - found.area_m2).abs() < 1e-12);
    }

    #[test]
    fn what_cannot_be_rectified_says_why() {
        let [a, b, c, d] = corners();
        let outline = [[0.25, 0.02], [0.4, 0.02], [0.4, 0.1]].map(camera);
        let of = |corners, outline: &[Place]| traced(corners, SHEET, outline, None).err();
        assert_eq!(of([a, c, b, d], &outline), Some(PhotoError::Corners));
        assert_eq!(of([a, a, b, c], &outline), Some(PhotoError::Corners));
        assert_eq!(of([a, b, c, d], &outline[..2]), Some(PhotoError::TooFew));
        let bow = [[0.25, 0.02], [0.4, 0.1], [0.4, 0.02], [0.25, 0.1]].map(camera);
        assert_eq!(of([a, b, c, d], &bow), Some(PhotoError::Crosses));
    }
}
