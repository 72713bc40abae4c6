//! Outlines for SVG, and tracks: polylines with fillets whose length, tangent and parallels are
//! closed forms.

use super::number::{push_short, short};
use super::point::{Area, Point, cross, point};
use std::fmt::Write;

/// Path data, with the box that holds it.
#[derive(Debug, Clone, PartialEq)]
pub struct Outline {
    data: String,
    bounds: Area,
}

impl Outline {
    /// Begins at a point.
    #[must_use]
    pub fn start(p: Point) -> Self {
        Self {
            data: String::new(),
            bounds: Area::NOTHING,
        }
        .jump(p)
    }

    /// Straight lines through points; nothing without any.
    #[must_use]
    pub fn through(points: &[Point]) -> Self {
        let mut points = points.iter();
        let first = points.next().copied().unwrap_or_default();
        points.fold(Self::start(first), |outline, &p| outline.line(p))
    }

    /// Goes on elsewhere, without a line.
    #[must_use]
    pub fn jump(mut self, p: Point) -> Self {
        self.push('M', p);
        self
    }

    /// A straight line.
    #[must_use]
    pub fn line(mut self, p: Point) -> Self {
        self.push('L', p);
        self
    }

    /// A cubic.
    #[must_use]
    pub fn cubic(mut self, first: Point, second: Point, end: Point) -> Self {
        self.push('C', first);
        self.push(' ', second);
        self.push(' ', end);
        self
    }

    /// An arc about a middle between two angles, degrees clockwise from the right; begun with a
    /// line to where it starts.
    #[must_use]
    pub fn arc(mut self, middle: Point, radius: f64, from: f64, to: f64) -> Self {
        self.push('L', middle.around(radius, from));
        self.arc_on(middle, radius, from, to);
        self
    }

    /// A full circle.
    #[must_use]
    pub fn circle(middle: Point, radius: f64) -> Self {
        let mut outline = Self::start(middle.around(radius, 180.0));
        outline.arc_on(middle, radius, 180.0, 360.0);
        outline.arc_on(middle, radius, 0.0, 180.0);
        outline.closed()
    }

    /// A box whose corners are rounded.
    #[must_use]
    pub fn rounded(area: Area, radius: f64) -> Self {
        let r = radius.clamp(0.0, 0.5 * area.width().min(area.height()));
        let corner = |x: f64, y: f64| point(x, y);
        Self::start(corner(area.left, area.top + r))
            .arc(corner(area.left + r, area.top + r), r, 180.0, 270.0)
            .arc(corner(area.right - r, area.top + r), r, 270.0, 360.0)
            .arc(corner(area.right - r, area.bottom - r), r, 0.0, 90.0)
            .arc(corner(area.left + r, area.bottom - r), r, 90.0, 180.0)
            .closed()
    }

    /// A plain box.
    #[must_use]
    pub fn boxed(area: Area) -> Self {
        Self::through(&[
            point(area.left, area.top),
            point(area.right, area.top),
            point(area.right, area.bottom),
            point(area.left, area.bottom),
        ])
        .closed()
    }

    /// Back to where it began.
    #[must_use]
    pub fn closed(mut self) -> Self {
        self.data.push('Z');
        self
    }

    /// Followed by another outline.
    #[must_use]
    pub fn and(mut self, other: &Self) -> Self {
        self.data.push_str(&other.data);
        self.bounds.take_area(other.bounds);
        self
    }

    /// Path data.
    #[must_use]
    pub fn data(&self) -> &str {
        &self.data
    }

    /// The box that holds it, control points of cubics included.
    #[must_use]
    pub fn bounds(&self) -> Area {
        self.bounds
    }

    fn push(&mut self, command: char, p: Point) {
        self.bounds.take(p);
        self.data.push(command);
        push_short(&mut self.data, p.x);
        self.data.push(' ');
        push_short(&mut self.data, p.y);
    }

    fn arc_on(&mut self, middle: Point, radius: f64, from: f64, to: f64) {
        let (low, high) = (from.min(to), from.max(to));
        for angle in [low, high] {
            self.bounds.take(middle.around(radius, angle));
        }
        // Between its ends an arc reaches farthest where it crosses an axis.
        let mut quarter = (low / 90.0).ceil();
        while quarter * 90.0 < high {
            self.bounds.take(middle.around(radius, quarter * 90.0));
            quarter += 1.0;
        }
        let large = u8::from((to - from).abs() > 180.0);
        let sweep = u8::from(to > from);
        let end = middle.around(radius, to);
        let r = short(radius.max(0.05));
        let _ = write!(
            self.data,
            "A{r} {r} 0 {large} {sweep} {} {}",
            short(end.x),
            short(end.y)
        );
    }
}

/// Points of a cubic, both ends included.
#[must_use]
pub fn cubic_points(ends: [(f64, f64); 4], steps: u32) -> Vec<(f64, f64)> {
    (0..=steps)
        .map(|step| {
            let t = f64::from(step) / f64::from(steps);
            let u = 1.0 - t;
            let weights = [u * u * u, 3.0 * u * u * t, 3.0 * u * t * t, t * t * t];
            weights
                .iter()
                .zip(ends)
                .fold((0.0, 0.0), |(a, b), (weight, (x, y))| {
                    (a + weight * x, b + weight * y)
                })
        })
        .collect()
}

/// Second coordinate of a polyline that runs to the right, at a first coordinate.
#[must_use]
pub fn height_at(line: &[(f64, f64)], x: f64) -> f64 {
    for pair in line.windows(2) {
        let ((x0, y0), (x1, y1)) = (pair[0], pair[1]);
        if x <= x1 {
            return y0 + (y1 - y0) * ((x - x0) / (x1 - x0).max(1e-9)).clamp(0.0, 1.0);
        }
    }
    line.last().map_or(0.0, |&(_, y)| y)
}

/// A corner of a track and the radius of its fillet, px.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Corner {
    /// Where the legs meet.
    pub at: Point,
    /// Radius of the fillet.
    pub radius: f64,
}

/// A corner with a fillet.
#[must_use]
pub const fn corner(at: Point, radius: f64) -> Corner {
    Corner { at, radius }
}

/// The parallel line at a distance, positive to the right of the way; corners are mitred and
/// their fillets keep their middle.
#[must_use]
pub fn beside(corners: &[Corner], distance: f64) -> Vec<Corner> {
    /// A sharper turn back than this would throw its mitre far out.
    const LONGEST_MITRE: f64 = 3.0;
    corners
        .iter()
        .enumerate()
        .map(|(place, here)| {
            let leg = |a: &Corner, b: &Corner| b.at.from(a.at).unit();
            let before = place.checked_sub(1).map(|last| leg(&corners[last], here));
            let after = corners.get(place + 1).map(|next| leg(here, next));
            let first = before.or(after).unwrap_or(point(1.0, 0.0));
            let second = after.unwrap_or(first);
            let sum = point(
                first.turned().x + second.turned().x,
                first.turned().y + second.turned().y,
            );
            // m = 2 (n₁ + n₂)/|n₁ + n₂|²: the mitre whose share along each normal is one
            let squared =
                (sum.x * sum.x + sum.y * sum.y).max(4.0 / (LONGEST_MITRE * LONGEST_MITRE));
            let mitre = sum.times(2.0 / squared);
            let turn = cross(first, second);
            let radius = if here.radius <= 0.0 || turn.abs() < 1e-9 {
                here.radius
            } else {
                (here.radius - distance * turn.signum()).max(1.0)
            };
            corner(
                here.at.moved(mitre.x * distance, mitre.y * distance),
                radius,
            )
        })
        .collect()
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Piece {
    Straight {
        from: Point,
        to: Point,
    },
    Arc {
        middle: Point,
        radius: f64,
        from: f64,
        sweep: f64,
    },
}

impl Piece {
    fn length(&self) -> f64 {
        match *self {
            Self::Straight { from, to } => to.from(from).length(),
            Self::Arc { radius, sweep, .. } => radius * sweep.abs().to_radians(),
        }
    }

    fn at(&self, share: f64) -> (Point, Point) {
        match *self {
            Self::Straight { from, to } => (from.toward(to, share), to.from(from).unit()),
            Self::Arc {
                middle,
                radius,
                from,
                sweep,
            } => {
                let angle = from + sweep * share;
                let outward = point(0.0, 0.0).around(1.0, angle);
                let ahead = outward.turned().times(sweep.signum());
                (middle.around(radius, angle), ahead)
            }
        }
    }
}

/// A line with rounded corners.
#[derive(Debug, Clone, PartialEq)]
pub struct Track {
    pieces: Vec<Piece>,
    outline: Outline,
}

impl Track {
    /// Rounds the corners of a line; a fillet takes at most half of a leg that it shares.
    #[must_use]
    pub fn new(corners: &[Corner]) -> Self {
        let start = corners.first().map_or(Point::default(), |first| first.at);
        let mut track = Self {
            pieces: Vec::new(),
            outline: Outline::start(start),
        };
        let mut here = start;
        for place in 1..corners.len() {
            let last = place + 1 == corners.len();
            let bend = if last { None } else { fillet(corners, place) };
            let Some((start, arc, end)) = bend else {
                here = track.straight(here, corners[place].at);
                continue;
            };
            track.straight(here, start);
            if let Piece::Arc {
                middle,
                radius,
                from,
                sweep,
            } = arc
            {
                track.outline.arc_on(middle, radius, from, from + sweep);
            }
            // The corner holds the arc.
            track.pieces.push(arc);
            here = end;
        }
        track
    }

    fn straight(&mut self, from: Point, to: Point) -> Point {
        if to.from(from).length() > 1e-9 {
            self.pieces.push(Piece::Straight { from, to });
            self.outline.push('L', to);
        }
        to
    }

    /// Length, px.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.pieces.iter().map(Piece::length).sum()
    }

    /// The point at a distance from the start, and the direction there.
    #[must_use]
    pub fn at(&self, distance: f64) -> (Point, Point) {
        let mut left = distance.max(0.0);
        for (place, piece) in self.pieces.iter().enumerate() {
            let length = piece.length();
            if left <= length || place + 1 == self.pieces.len() {
                return piece.at((left / length.max(1e-9)).min(1.0));
            }
            left -= length;
        }
        (self.outline.bounds().middle(), point(1.0, 0.0))
    }

    /// As an outline.
    #[must_use]
    pub fn outline(&self) -> &Outline {
        &self.outline
    }
}

/// The fillet of a corner: where it starts, its arc, where it ends.
fn fillet(corners: &[Corner], place: usize) -> Option<(Point, Piece, Point)> {
    let here = corners[place];
    let (before, after) = (corners[place - 1].at, corners[place + 1].at);
    let (first, second) = (here.at.from(before), after.from(here.at));
    let (into, out) = (first.unit(), second.unit());
    let cosine = (into.x * out.x + into.y * out.y).clamp(-1.0, 1.0);
    let turn = cosine.acos();
    if here.radius <= 0.0 || !(0.02..=3.12).contains(&turn) {
        return None;
    }
    let share = |length: f64, whole: bool| if whole { length } else { 0.5 * length };
    let room =
        share(first.length(), place == 1).min(share(second.length(), place + 2 == corners.len()));
    // t = r tan(θ/2)
    let tangent = (0.5 * turn).tan();
    let start_back = (here.radius * tangent).min(room);
    let radius = start_back / tangent;
    if radius < 0.05 {
        return None;
    }
    let sign = cross(into, out).signum();
    let start = here.at.moved(-into.x * start_back, -into.y * start_back);
    let end = here.at.moved(out.x * start_back, out.y * start_back);
    let inward = into.turned().times(sign * radius);
    let middle = start.moved(inward.x, inward.y);
    let from = (start.y - middle.y).atan2(start.x - middle.x).to_degrees();
    let arc = Piece::Arc {
        middle,
        radius,
        from,
        sweep: sign * turn.to_degrees(),
    };
    Some((start, arc, end))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bend() -> Vec<Corner> {
        vec![
            corner(point(0.0, 0.0), 0.0),
            corner(point(100.0, 0.0), 20.0),
            corner(point(100.0, 80.0), 0.0),
        ]
    }

    #[test]
    fn a_fillet_shortens_a_corner_by_its_two_tangents_less_its_arc() {
        let track = Track::new(&bend());
        let expected = 180.0 - 2.0 * 20.0 + 20.0 * core::f64::consts::FRAC_PI_2;
        assert!((track.length() - expected).abs() < 1e-9);
        let (middle, ahead) = track.at(80.0 + 5.0 * core::f64::consts::PI);
        let on_arc = point(80.0, 20.0).around(20.0, -45.0);
        assert!(middle.from(on_arc).length() < 1e-9);
        assert!((ahead.x - ahead.y).abs() < 1e-9 && ahead.x > 0.0);
    }

    #[test]
    fn a_parallel_keeps_its_distance_at_every_place() {
        let track = Track::new(&bend());
        for distance in [-12.0, 7.0] {
            let other = Track::new(&beside(&bend(), distance));
            // Δlength = −d θ for a turn to the right by θ
            let difference = other.length() - track.length();
            let expected = -distance * core::f64::consts::FRAC_PI_2;
            assert!((difference - expected).abs() < 1e-9, "{difference}");
            for share in [0.1, 0.5, 0.9] {
                let (p, ahead) = track.at(share * track.length());
                let side = p.moved(ahead.turned().x * distance, ahead.turned().y * distance);
                let nearest = (0..=2000)
                    .map(|step| {
                        let (q, _) = other.at(other.length() * f64::from(step) / 2000.0);
                        q.from(side).length()
                    })
                    .fold(f64::INFINITY, f64::min);
                assert!(nearest < 0.1, "{nearest}");
            }
        }
    }

    #[test]
    fn a_fillet_too_big_for_its_legs_shrinks() {
        let mut corners = bend();
        corners[1].radius = 500.0;
        let track = Track::new(&corners);
        let expected = 20.0 + 80.0 * core::f64::consts::FRAC_PI_2;
        assert!((track.length() - expected).abs() < 1e-9);
    }

    #[test]
    fn a_height_is_read_between_the_points_of_a_line() {
        let line = cubic_points([(0.0, 0.0), (1.0, 1.0), (2.0, 2.0), (3.0, 3.0)], 8);
        assert!((height_at(&line, 1.37) - 1.37).abs() < 1e-9);
        assert_eq!(height_at(&line, 9.0), 3.0);
    }
}
