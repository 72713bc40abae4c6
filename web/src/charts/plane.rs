//! Where a chart's plot lies and what its axes measure, for what is laid over the chart.

use crate::charts::canvas::SCALE;
use crate::charts::figure::Size;
use std::ops::Range;

/// One axis: two ends in pixels of the chart as it is laid out, and what stands there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Axis {
    /// Pixels of the first and the last value, CSS px from the left or from the top.
    pub pixels: (f64, f64),
    /// First and last value, SI.
    pub ends: (f64, f64),
}

impl Axis {
    /// Pixel of a value.
    #[must_use]
    pub fn pixel(&self, value: f64) -> f64 {
        let share = (value - self.ends.0) / (self.ends.1 - self.ends.0);
        self.pixels.0 + share * (self.pixels.1 - self.pixels.0)
    }

    /// Value at a pixel; beyond an end that end's.
    #[must_use]
    pub fn value(&self, pixel: f64) -> f64 {
        let share = (pixel - self.pixels.0) / (self.pixels.1 - self.pixels.0);
        self.ends.0 + share.clamp(0.0, 1.0) * (self.ends.1 - self.ends.0)
    }
}

/// The plane of a chart with two axes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plane {
    /// Size of the chart as it is laid out, CSS px.
    pub size: (f64, f64),
    /// The axis along.
    pub along: Axis,
    /// The axis up.
    pub up: Axis,
}

impl Plane {
    /// The plane of a chart whose plot covers these pixels of the drawing.
    #[must_use]
    pub fn of(
        size: Size,
        (along, up): (&Range<i32>, &Range<i32>),
        (from_along, to_along): (f64, f64),
        (from_up, to_up): (f64, f64),
    ) -> Self {
        let size = size.drawable();
        let css = |pixel: i32| f64::from(pixel) / f64::from(SCALE);
        Self {
            size: (f64::from(size.width), f64::from(size.height)),
            along: Axis {
                pixels: (css(along.start), css(along.end)),
                ends: (from_along, to_along),
            },
            up: Axis {
                // The drawing counts from the top.
                pixels: (css(up.end), css(up.start)),
                ends: (from_up, to_up),
            },
        }
    }

    /// What stands at a place, given as shares of the chart's width and height.
    #[must_use]
    pub fn values(&self, (across, down): (f64, f64)) -> (f64, f64) {
        (
            self.along.value(across * self.size.0),
            self.up.value(down * self.size.1),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_value_has_a_place_and_the_place_has_the_value() {
        let size = Size {
            width: 400,
            height: 300,
        };
        let plane = Plane::of(
            size,
            (&(280..1400), &(40..1000)),
            (0.02, 0.09),
            (0.01, 0.05),
        );
        assert_eq!(plane.up.pixel(0.01), 250.0);
        assert_eq!(plane.along.pixel(0.02), 70.0);
        for (a, b) in [(0.03, 0.02), (0.09, 0.05), (0.02, 0.044)] {
            let (x, y) = (plane.along.pixel(a) / 400.0, plane.up.pixel(b) / 300.0);
            let found = plane.values((x, y));
            assert!((found.0 - a).abs() < 1e-12 && (found.1 - b).abs() < 1e-12);
        }
        assert_eq!(plane.values((0.0, 1.0)), (0.02, 0.01));
    }
}
