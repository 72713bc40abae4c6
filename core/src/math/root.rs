//! Roots of one variable inside a bracket (Brent's method).
//!
//! # Sources
//! R. P. Brent, Algorithms for Minimization without Derivatives, ch. 4 (method from memory).

use crate::language::tr;

/// Why no root was returned.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum RootError {
    /// Both ends have the same sign.
    #[error(
        "{}",
        tr!(
            "no change of sign between {} ({}) and {} ({})",
            .low, .at_low, .high, .at_high
        )
    )]
    NotBracketed {
        /// Lower end of the bracket.
        low: f64,
        /// Upper end of the bracket.
        high: f64,
        /// Value at the lower end.
        at_low: f64,
        /// Value at the upper end.
        at_high: f64,
    },
    /// The iterations ran out.
    #[error("{}", tr!("no root after the last step: {} is left at {}", .residual, .best))]
    NotConverged {
        /// Best abscissa so far.
        best: f64,
        /// Residual there.
        residual: f64,
    },
}

/// A root and how it was found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Root {
    /// Where the function vanishes.
    pub x: f64,
    /// The function's value there.
    pub residual: f64,
    /// Evaluations used.
    pub evaluations: u32,
}

const MAX_EVALUATIONS: u32 = 200;

/// Root of `f` between `low` and `high`, to an absolute tolerance in `x`.
///
/// # Errors
/// [`RootError::NotBracketed`] if the signs at the ends agree or either is not a number;
/// [`RootError::NotConverged`] after 200 evaluations.
///
/// # Example
/// x² = 2 between 1 and 2:
/// ```
/// use coolpath_core::math::root::bracketed_root;
///
/// let root = bracketed_root(|x| x * x - 2.0, 1.0, 2.0, 1e-12)?;
/// assert!((root.x - core::f64::consts::SQRT_2).abs() < 1e-12);
/// # Ok::<(), coolpath_core::math::root::RootError>(())
/// ```
pub fn bracketed_root(
    mut f: impl FnMut(f64) -> f64,
    low: f64,
    high: f64,
    tolerance: f64,
) -> Result<Root, RootError> {
    let (mut a, mut b) = (low, high);
    let (mut fa, mut fb) = (f(a), f(b));
    let mut evaluations = 2;
    if fa == 0.0 {
        return Ok(Root {
            x: a,
            residual: fa,
            evaluations,
        });
    }
    if fb == 0.0 {
        return Ok(Root {
            x: b,
            residual: fb,
            evaluations,
        });
    }
    // Signs, not the product, which can underflow. An infinite end still brackets.
    if fa.is_nan() || fb.is_nan() || fa.signum() == fb.signum() {
        return Err(RootError::NotBracketed {
            low,
            high,
            at_low: fa,
            at_high: fb,
        });
    }
    let (mut c, mut fc) = (a, fa);
    let mut step = b - a;
    let mut previous = step;
    while evaluations < MAX_EVALUATIONS {
        if fb.signum() == fc.signum() {
            (c, fc) = (a, fa);
            step = b - a;
            previous = step;
        }
        if fc.abs() < fb.abs() {
            (a, b, c) = (b, c, b);
            (fa, fb, fc) = (fb, fc, fb);
        }
        let precision = 2.0 * f64::EPSILON * b.abs() + 0.5 * tolerance;
        let half = 0.5 * (c - b);
        if half.abs() <= precision || fb == 0.0 {
            return Ok(Root {
                x: b,
                residual: fb,
                evaluations,
            });
        }
        if previous.abs() >= precision && fa.abs() > fb.abs() {
            let (numerator, denominator) = interpolation(a, b, c, fa, fb, fc);
            let within = (3.0 * half * denominator - (precision * denominator).abs())
                .min((previous * denominator).abs());
            if 2.0 * numerator < within {
                previous = step;
                step = numerator / denominator;
            } else {
                step = half;
                previous = step;
            }
        } else {
            step = half;
            previous = step;
        }
        (a, fa) = (b, fb);
        b += if step.abs() > precision {
            step
        } else {
            precision.copysign(half)
        };
        fb = f(b);
        evaluations += 1;
        if fb.is_nan() {
            break;
        }
    }
    Err(RootError::NotConverged {
        best: b,
        residual: fb,
    })
}

/// As [`bracketed_root`], for a function that can itself fail.
///
/// # Errors
/// The function's last error if it failed anywhere on the way; whether there is a root is said
/// inside.
///
/// # Example
/// A root is found, and a failure on the way comes out as it is:
/// ```
/// use coolpath_core::math::root::fallible_root;
///
/// let found = fallible_root(|x| Ok::<_, &str>(x - 0.25), 0.0, 1.0, 1e-12);
/// assert!(found.is_ok_and(|root| root.is_ok_and(|root| (root.x - 0.25).abs() < 1e-12)));
/// let failed = fallible_root(|_| Err("no air"), 0.0, 1.0, 1e-12);
/// assert_eq!(failed, Err("no air"));
/// ```
pub fn fallible_root<E>(
    mut f: impl FnMut(f64) -> Result<f64, E>,
    low: f64,
    high: f64,
    tolerance: f64,
) -> Result<Result<Root, RootError>, E> {
    let mut failure = None;
    let root = bracketed_root(
        |x| {
            f(x).unwrap_or_else(|error| {
                failure = Some(error);
                f64::NAN
            })
        },
        low,
        high,
        tolerance,
    );
    failure.map_or(Ok(root), Err)
}

/// Secant or inverse quadratic step from `b`, as numerator (not negative) and denominator.
fn interpolation(a: f64, b: f64, c: f64, fa: f64, fb: f64, fc: f64) -> (f64, f64) {
    let s = fb / fa;
    let (p, q) = if a == c {
        ((c - b) * s, 1.0 - s)
    } else {
        let q = fa / fc;
        let r = fb / fc;
        (
            s * ((c - b) * q * (q - r) - (b - a) * (r - 1.0)),
            (q - 1.0) * (r - 1.0) * (s - 1.0),
        )
    };
    if p > 0.0 { (p, -q) } else { (-p, q) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_failure_on_the_way_is_what_is_said_and_a_root_is_found_without() {
        let root = |worst: f64| {
            fallible_root(
                |x| {
                    if x > worst {
                        Err("too far")
                    } else {
                        Ok(x - 1.0)
                    }
                },
                0.0,
                3.0,
                1e-12,
            )
        };
        assert_eq!(root(2.0), Err("too far"));
        let found = root(4.0).expect("no failure").expect("a root");
        assert!((found.x - 1.0).abs() < 1e-12, "{found:?}");
        let none = fallible_root(|x| Ok::<_, ()>(x + 1.0), 0.0, 3.0, 1e-12).expect("no failure");
        assert!(matches!(none, Err(RootError::NotBracketed { .. })));
    }
}
