//! SI values of customary units, for tables of defaults and ranges.
//!
//! The numbers are those of the units that are typed and shown; each is applied in the order in which it is written
//! here, on which the last bit depends.

use crate::units::unit::{
    BTU, DEGF_PER_K, FOOT, GALLON_IN3, HORSEPOWER_W, HOUR, INCH, INCH_OF_MERCURY, INCH_OF_WATER_PA,
    LITRE, NAUTICAL_MILE, POUND, PSI, ZERO_F,
};

/// Inches, m.
pub const fn inch(value: f64) -> f64 {
    value * INCH
}
/// Square inches, m².
pub const fn inch2(value: f64) -> f64 {
    value * INCH * INCH
}
/// Feet, m.
pub const fn foot(value: f64) -> f64 {
    value * FOOT
}
/// Knots, m/s.
pub const fn knot(value: f64) -> f64 {
    value * NAUTICAL_MILE / HOUR
}
/// Degrees Fahrenheit, K.
pub const fn degf(value: f64) -> f64 {
    (value + ZERO_F) / DEGF_PER_K
}
/// Degrees Fahrenheit of a temperature, K.
pub const fn to_degf(kelvin: f64) -> f64 {
    kelvin * DEGF_PER_K - ZERO_F
}
/// Difference in degrees Fahrenheit, K.
pub const fn deltaf(value: f64) -> f64 {
    value / DEGF_PER_K
}
/// Horsepower, W.
pub const fn hp(value: f64) -> f64 {
    value * HORSEPOWER_W
}
/// Pounds per second, kg/s.
pub const fn lb_s(value: f64) -> f64 {
    value * POUND
}
/// Inches of water, Pa.
pub const fn inh2o(value: f64) -> f64 {
    value * INCH_OF_WATER_PA
}
/// Pounds per square inch, Pa.
pub const fn psi(value: f64) -> f64 {
    value * PSI
}
/// Litres per minute, m³/s.
pub const fn l_min(value: f64) -> f64 {
    value * LITRE / 60.0
}
/// US gallons per hour, m³/s.
pub const fn gal_h(value: f64) -> f64 {
    value * GALLON_IN3 * INCH * INCH * INCH / HOUR
}
/// Btu per minute, W.
pub const fn btu_min(value: f64) -> f64 {
    value * BTU / 60.0
}
/// Pounds per second and horsepower, kg/J.
pub const fn lb_s_hp(value: f64) -> f64 {
    lb_s(value) / hp(1.0)
}
/// Pounds per horsepower and hour, kg/J.
pub const fn lb_hp_h(value: f64) -> f64 {
    lb_s(value) / hp(1.0) / HOUR
}
/// Inches of mercury, Pa.
pub const fn inhg(value: f64) -> f64 {
    value * INCH_OF_MERCURY
}
