//! Points and upright boxes on the sheet, px, y downward.

/// A point or a displacement, px.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Downward.
    pub y: f64,
}

/// The point at x and y.
#[must_use]
pub const fn point(x: f64, y: f64) -> Point {
    Point { x, y }
}

impl Point {
    /// Moved by a displacement.
    #[must_use]
    pub fn moved(self, x: f64, y: f64) -> Self {
        point(self.x + x, self.y + y)
    }

    /// Displacement from another point to this one.
    #[must_use]
    pub fn from(self, other: Self) -> Self {
        point(self.x - other.x, self.y - other.y)
    }

    /// So many times as long.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        point(self.x * factor, self.y * factor)
    }

    /// Distance from the origin.
    #[must_use]
    pub fn length(self) -> f64 {
        self.x.hypot(self.y)
    }

    /// Direction of unit length; to the right if there is none.
    #[must_use]
    pub fn unit(self) -> Self {
        let length = self.length();
        if length < 1e-9 {
            point(1.0, 0.0)
        } else {
            self.times(1.0 / length)
        }
    }

    /// Turned a quarter clockwise on the screen.
    #[must_use]
    pub fn turned(self) -> Self {
        point(-self.y, self.x)
    }

    /// The share of the way to another point.
    #[must_use]
    pub fn toward(self, other: Self, share: f64) -> Self {
        point(
            self.x + (other.x - self.x) * share,
            self.y + (other.y - self.y) * share,
        )
    }

    /// The point at an angle, degrees clockwise from the right, and a distance.
    #[must_use]
    pub fn around(self, radius: f64, degrees: f64) -> Self {
        let (sine, cosine) = degrees.to_radians().sin_cos();
        self.moved(radius * cosine, radius * sine)
    }
}

/// Twice the signed area between two displacements; positive for a turn clockwise on the screen.
#[must_use]
pub fn cross(a: Point, b: Point) -> f64 {
    a.x * b.y - a.y * b.x
}

/// An upright box, px.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Area {
    /// Left edge.
    pub left: f64,
    /// Upper edge.
    pub top: f64,
    /// Right edge.
    pub right: f64,
    /// Lower edge.
    pub bottom: f64,
}

impl Area {
    /// Holds nothing yet.
    pub const NOTHING: Self = Self {
        left: f64::INFINITY,
        top: f64::INFINITY,
        right: f64::NEG_INFINITY,
        bottom: f64::NEG_INFINITY,
    };

    /// From its upper left corner and its size.
    #[must_use]
    pub fn sized(corner: Point, width: f64, height: f64) -> Self {
        Self {
            left: corner.x,
            top: corner.y,
            right: corner.x + width,
            bottom: corner.y + height,
        }
    }

    /// About its middle.
    #[must_use]
    pub fn about(middle: Point, width: f64, height: f64) -> Self {
        Self::sized(middle.moved(-0.5 * width, -0.5 * height), width, height)
    }

    /// Between two opposite corners.
    #[must_use]
    pub fn between(a: Point, b: Point) -> Self {
        Self {
            left: a.x.min(b.x),
            top: a.y.min(b.y),
            right: a.x.max(b.x),
            bottom: a.y.max(b.y),
        }
    }

    /// Grown to hold a point.
    pub fn take(&mut self, p: Point) {
        self.left = self.left.min(p.x);
        self.top = self.top.min(p.y);
        self.right = self.right.max(p.x);
        self.bottom = self.bottom.max(p.y);
    }

    /// Grown to hold another box.
    pub fn take_area(&mut self, other: Self) {
        self.left = self.left.min(other.left);
        self.top = self.top.min(other.top);
        self.right = self.right.max(other.right);
        self.bottom = self.bottom.max(other.bottom);
    }

    /// Width, px.
    #[must_use]
    pub fn width(&self) -> f64 {
        self.right - self.left
    }

    /// Height, px.
    #[must_use]
    pub fn height(&self) -> f64 {
        self.bottom - self.top
    }

    /// Middle.
    #[must_use]
    pub fn middle(&self) -> Point {
        point(
            0.5 * (self.left + self.right),
            0.5 * (self.top + self.bottom),
        )
    }

    /// Wider on each side.
    #[must_use]
    pub fn grown(&self, by: f64) -> Self {
        Self {
            left: self.left - by,
            top: self.top - by,
            right: self.right + by,
            bottom: self.bottom + by,
        }
    }

    /// What both cover, if anything.
    #[must_use]
    pub fn common(&self, other: &Self) -> Option<Self> {
        let both = Self {
            left: self.left.max(other.left),
            top: self.top.max(other.top),
            right: self.right.min(other.right),
            bottom: self.bottom.min(other.bottom),
        };
        (both.left < both.right && both.top < both.bottom).then_some(both)
    }

    /// Whether another box lies wholly inside.
    #[must_use]
    pub fn holds(&self, other: &Self) -> bool {
        other.left >= self.left
            && other.top >= self.top
            && other.right <= self.right
            && other.bottom <= self.bottom
    }

    /// Moved as little as needed to lie inside another box; centred where it is too big.
    #[must_use]
    pub fn kept_in(&self, frame: &Self) -> Self {
        let shift = |low: f64, high: f64, least: f64, most: f64| {
            if high - low > most - least {
                0.5 * (least + most - low - high)
            } else {
                (least - low).max(0.0) - (high - most).max(0.0)
            }
        };
        let x = shift(self.left, self.right, frame.left, frame.right);
        let y = shift(self.top, self.bottom, frame.top, frame.bottom);
        Self {
            left: self.left + x,
            top: self.top + y,
            right: self.right + x,
            bottom: self.bottom + y,
        }
    }
}

/// Maps a view's inches to the sheet: one scale, one origin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plane {
    /// px per inch.
    pub scale: f64,
    /// Where the view's origin lies.
    pub origin: Point,
    /// Whether the second coordinate runs down the sheet (a plan) or up.
    pub down: bool,
}

impl Plane {
    /// The sheet's point of two coordinates in inches.
    #[must_use]
    pub fn at(&self, a: f64, b: f64) -> Point {
        let sign = if self.down { 1.0 } else { -1.0 };
        self.origin.moved(a * self.scale, sign * b * self.scale)
    }

    /// Length on the sheet, px, of inches.
    #[must_use]
    pub fn px(&self, inches: f64) -> f64 {
        inches * self.scale
    }

    /// Box between two points in inches.
    #[must_use]
    pub fn area(&self, a: (f64, f64), b: (f64, f64)) -> Area {
        Area::between(self.at(a.0, a.1), self.at(b.0, b.1))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn up_is_up_in_a_section_and_down_in_a_plan() {
        let mut plane = Plane {
            scale: 2.0,
            origin: point(10.0, 20.0),
            down: false,
        };
        assert_eq!(plane.at(1.0, 3.0), point(12.0, 14.0));
        plane.down = true;
        assert_eq!(plane.at(1.0, 3.0), point(12.0, 26.0));
    }

    #[test]
    fn a_box_is_moved_no_further_than_needed() {
        let frame = Area::sized(point(0.0, 0.0), 100.0, 50.0);
        let kept = Area::sized(point(95.0, -4.0), 20.0, 10.0).kept_in(&frame);
        assert_eq!(kept, Area::sized(point(80.0, 0.0), 20.0, 10.0));
        assert!(frame.holds(&kept));
    }
}
