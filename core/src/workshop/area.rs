//! Adding up the area of an opening from pieces, with every step, and why a string misleads.
//!
//! A string laid round an opening, divided by four and squared, gives the area of a square of that
//! perimeter: right for a square, too much for anything longer, too little for a circle.

use crate::language::tr;
use core::f64::consts::{FRAC_PI_4, PI};

/// Shape of a piece, lengths in m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shape {
    /// Rectangle with rounded corners.
    Rectangle {
        /// Width, m.
        width: f64,
        /// Height, m.
        height: f64,
        /// Radius of the corners, m.
        radius: f64,
    },
    /// Circle.
    Circle {
        /// Diameter, m.
        diameter: f64,
    },
    /// Ellipse.
    Ellipse {
        /// Full width, m.
        width: f64,
        /// Full height, m.
        height: f64,
    },
    /// Slot with half-round ends.
    Slot {
        /// Length over all, m.
        length: f64,
        /// Width, m.
        width: f64,
    },
    /// Triangle.
    Triangle {
        /// Base, m.
        base: f64,
        /// Height over it, m.
        height: f64,
    },
}

/// A piece that is added or taken away.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Piece {
    /// Its shape.
    pub shape: Shape,
    /// Taken away, as a pipe or a bracket in the opening.
    pub blocks: bool,
}

/// Why no area was added up.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum AreaError {
    /// A length is not above zero.
    Length {
        /// The piece's place.
        piece: usize,
    },
    /// Corners are rounder than half the shorter side, or a slot is wider than long.
    Proportions {
        /// The piece's place.
        piece: usize,
    },
    /// More is taken away than there is.
    NothingLeft {
        /// What would be left, m².
        net_m2: f64,
    },
}

impl core::fmt::Display for AreaError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::Length { piece } => f.write_str(&tr!(
                "Piece {}: every length must be above zero.",
                piece + 1
            )),
            Self::Proportions { piece } => f.write_str(&tr!(
                "Piece {}: a corner radius is at most half the shorter side, and a slot at least \
                 as long as it is wide.",
                piece + 1
            )),
            Self::NothingLeft { .. } => f.write_str(tr(
                "Pipes and brackets take away more than the opening has.",
            )),
        }
    }
}

impl core::error::Error for AreaError {}

/// One step of the sum.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Step {
    /// The piece.
    pub piece: Piece,
    /// Its area, m², above zero.
    pub area_m2: f64,
    /// The sum after it, m².
    pub sum_m2: f64,
}

/// The sum and its steps.
#[derive(Debug, Clone, PartialEq)]
pub struct Sum {
    /// Steps in order.
    pub steps: Vec<Step>,
    /// Net area, m².
    pub net_m2: f64,
}

impl Shape {
    /// Area, m².
    ///
    /// # Example
    /// A slot of 3 by 1: a square of 2 and a circle of 1 across:
    /// ```
    /// use coolpath_core::workshop::area::Shape;
    /// use core::f64::consts::FRAC_PI_4;
    ///
    /// let slot = Shape::Slot { length: 3.0, width: 1.0 };
    /// assert!((slot.area_m2() - (2.0 + FRAC_PI_4)).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn area_m2(&self) -> f64 {
        match *self {
            // A = w h − (4 − π) r²
            Self::Rectangle {
                width,
                height,
                radius,
            } => width * height - (4.0 - PI) * radius * radius,
            Self::Circle { diameter } => FRAC_PI_4 * diameter * diameter,
            Self::Ellipse { width, height } => FRAC_PI_4 * width * height,
            // A = (l − w) w + π/4 w²
            Self::Slot { length, width } => (length - width) * width + FRAC_PI_4 * width * width,
            Self::Triangle { base, height } => 0.5 * base * height,
        }
    }

    /// Perimeter, m; of a triangle the shortest with this base and height.
    ///
    /// The ellipse's is Ramanujan's second approximation (from memory; within 0.04 % up to 10:1).
    ///
    /// # Example
    /// An upright triangle on a base of 6, 4 high, has two sides of 5:
    /// ```
    /// use coolpath_core::workshop::area::Shape;
    ///
    /// let triangle = Shape::Triangle { base: 6.0, height: 4.0 };
    /// assert!((triangle.perimeter_m() - 16.0).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn perimeter_m(&self) -> f64 {
        match *self {
            Self::Rectangle {
                width,
                height,
                radius,
            } => 2.0 * (width + height) - (8.0 - 2.0 * PI) * radius,
            Self::Circle { diameter } => PI * diameter,
            Self::Ellipse { width, height } => {
                let (a, b) = (0.5 * width, 0.5 * height);
                let h = ((a - b) / (a + b)) * ((a - b) / (a + b));
                PI * (a + b) * (1.0 + 3.0 * h / (10.0 + (4.0 - 3.0 * h).sqrt()))
            }
            Self::Slot { length, width } => 2.0 * (length - width) + PI * width,
            Self::Triangle { base, height } => base + 2.0 * libm::hypot(0.5 * base, height),
        }
    }

    /// What a string round it would give, (perimeter ÷ 4)², m².
    ///
    /// # Example
    /// A string round 4 by 1 is 10 long and gives 6.25, where the area is 4:
    /// ```
    /// use coolpath_core::workshop::area::Shape;
    ///
    /// let strip = Shape::Rectangle { width: 4.0, height: 1.0, radius: 0.0 };
    /// assert!((strip.string_area_m2() - 6.25).abs() < 1e-12);
    /// assert!((strip.area_m2() - 4.0).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn string_area_m2(&self) -> f64 {
        let side = 0.25 * self.perimeter_m();
        side * side
    }

    fn check(&self, piece: usize) -> Result<(), AreaError> {
        let above_zero = |lengths: &[f64]| {
            lengths
                .iter()
                .all(|length| *length > 0.0 && length.is_finite())
        };
        let (lengths_fit, proportions_fit) = match *self {
            Self::Rectangle {
                width,
                height,
                radius,
            } => (
                above_zero(&[width, height]) && radius >= 0.0,
                radius <= 0.5 * width.min(height) * (1.0 + 1e-9),
            ),
            Self::Circle { diameter } => (above_zero(&[diameter]), true),
            Self::Ellipse { width, height } => (above_zero(&[width, height]), true),
            Self::Slot { length, width } => {
                (above_zero(&[length, width]), length >= width * (1.0 - 1e-9))
            }
            Self::Triangle { base, height } => (above_zero(&[base, height]), true),
        };
        if !lengths_fit {
            return Err(AreaError::Length { piece });
        }
        if !proportions_fit {
            return Err(AreaError::Proportions { piece });
        }
        Ok(())
    }
}

/// Adds up pieces.
///
/// # Errors
/// [`AreaError`] by name.
///
/// # Example
/// An opening of 0.3 by 0.1 m with a pipe of 0.05 m in it: 0.03 − π/4 · 0.0025 m²:
/// ```
/// use coolpath_core::workshop::area::{AreaError, Piece, Shape, sum};
/// use core::f64::consts::FRAC_PI_4;
///
/// let opening = Shape::Rectangle { width: 0.3, height: 0.1, radius: 0.0 };
/// let pipe = Shape::Circle { diameter: 0.05 };
/// let total = sum(&[
///     Piece { shape: opening, blocks: false },
///     Piece { shape: pipe, blocks: true },
/// ])?;
/// assert!((total.net_m2 - (0.03 - FRAC_PI_4 * 0.0025)).abs() < 1e-15);
/// # Ok::<(), AreaError>(())
/// ```
pub fn sum(pieces: &[Piece]) -> Result<Sum, AreaError> {
    let mut steps = Vec::with_capacity(pieces.len());
    let mut net_m2 = 0.0;
    for (place, piece) in pieces.iter().enumerate() {
        piece.shape.check(place)?;
        let area_m2 = piece.shape.area_m2();
        net_m2 += if piece.blocks { -area_m2 } else { area_m2 };
        steps.push(Step {
            piece: *piece,
            area_m2,
            sum_m2: net_m2,
        });
    }
    if net_m2 <= 0.0 {
        return Err(AreaError::NothingLeft { net_m2 });
    }
    Ok(Sum { steps, net_m2 })
}

#[cfg(test)]
mod tests {
    use super::*;

    const INCH: f64 = 0.0254;
    const INCH2: f64 = INCH * INCH;

    fn rectangle(width: f64, height: f64) -> Shape {
        Shape::Rectangle {
            width: width * INCH,
            height: height * INCH,
            radius: 0.0,
        }
    }

    #[test]
    fn a_string_is_right_for_a_square_alone() {
        let inches = |m2: f64| m2 / INCH2;
        let slot = rectangle(8.0, 3.0);
        assert!((inches(slot.area_m2()) - 24.0).abs() < 1e-9);
        assert!((inches(slot.string_area_m2()) - 30.25).abs() < 1e-9);
        let circle = Shape::Circle {
            diameter: 4.0 * INCH,
        };
        assert!((inches(circle.area_m2()) - 12.566).abs() < 1e-3);
        assert!((inches(circle.string_area_m2()) - 9.870).abs() < 1e-3);
        let square = rectangle(5.0, 5.0);
        assert!((square.area_m2() - square.string_area_m2()).abs() < 1e-15);
    }

    #[test]
    fn shapes_meet_where_they_must() {
        let circle = Shape::Circle { diameter: 0.1 };
        for same in [
            Shape::Ellipse {
                width: 0.1,
                height: 0.1,
            },
            Shape::Slot {
                length: 0.1,
                width: 0.1,
            },
            Shape::Rectangle {
                width: 0.1,
                height: 0.1,
                radius: 0.05,
            },
        ] {
            assert!((same.area_m2() - circle.area_m2()).abs() < 1e-15);
            assert!((same.perimeter_m() - circle.perimeter_m()).abs() < 1e-12);
        }
    }

    #[test]
    fn pipes_are_taken_away_step_by_step() {
        let pieces = [
            Piece {
                shape: rectangle(14.0, 4.0),
                blocks: false,
            },
            Piece {
                shape: Shape::Circle {
                    diameter: 2.0 * INCH,
                },
                blocks: true,
            },
            Piece {
                shape: rectangle(1.0, 4.0),
                blocks: true,
            },
        ];
        let sum = sum(&pieces).expect("a sum");
        assert!((sum.net_m2 / INCH2 - (56.0 - PI - 4.0)).abs() < 1e-9);
        assert_eq!(sum.steps.len(), 3);
        assert!((sum.steps[1].sum_m2 / INCH2 - (56.0 - PI)).abs() < 1e-9);
    }

    #[test]
    fn impossible_pieces_are_named() {
        let piece = |shape, blocks| Piece { shape, blocks };
        let open = piece(rectangle(4.0, 4.0), false);
        let negative = piece(rectangle(-1.0, 4.0), false);
        assert_eq!(sum(&[open, negative]), Err(AreaError::Length { piece: 1 }));
        let round = Shape::Rectangle {
            width: 0.1,
            height: 0.1,
            radius: 0.06,
        };
        assert_eq!(
            sum(&[piece(round, false)]),
            Err(AreaError::Proportions { piece: 0 })
        );
        let blocked = piece(rectangle(5.0, 4.0), true);
        assert!(matches!(
            sum(&[open, blocked]),
            Err(AreaError::NothingLeft { .. })
        ));
    }
}
