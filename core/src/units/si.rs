//! SI values of customary units, for tables of defaults and ranges.

/// Inches, m.
pub const fn inch(value: f64) -> f64 {
    value * 0.0254
}
/// Square inches, m².
pub const fn inch2(value: f64) -> f64 {
    value * 0.0254 * 0.0254
}
/// Feet, m.
pub const fn foot(value: f64) -> f64 {
    value * 0.3048
}
/// Knots, m/s.
pub const fn knot(value: f64) -> f64 {
    value * 1852.0 / 3600.0
}
/// Degrees Fahrenheit, K.
pub const fn degf(value: f64) -> f64 {
    (value + 459.67) / 1.8
}
/// Difference in degrees Fahrenheit, K.
pub const fn deltaf(value: f64) -> f64 {
    value / 1.8
}
/// Horsepower, W.
pub const fn hp(value: f64) -> f64 {
    value * crate::units::typed::HORSEPOWER_W
}
/// Pounds per second, kg/s.
pub const fn lb_s(value: f64) -> f64 {
    value * 0.453_592_37
}
/// Inches of water, Pa.
pub const fn inh2o(value: f64) -> f64 {
    value * crate::units::typed::INCH_OF_WATER_PA
}
/// Pounds per square inch, Pa.
pub const fn psi(value: f64) -> f64 {
    value * 6_894.757_293
}
/// Litres per minute, m³/s.
pub const fn l_min(value: f64) -> f64 {
    value * 1e-3 / 60.0
}
/// US gallons per hour, m³/s.
pub const fn gal_h(value: f64) -> f64 {
    value * 231.0 * 0.0254 * 0.0254 * 0.0254 / 3600.0
}
/// Btu per minute, W.
pub const fn btu_min(value: f64) -> f64 {
    value * 1_055.055_852_62 / 60.0
}
/// Pounds per second and horsepower, kg/J.
pub const fn lb_s_hp(value: f64) -> f64 {
    lb_s(value) / hp(1.0)
}
/// Pounds per horsepower and hour, kg/J.
pub const fn lb_hp_h(value: f64) -> f64 {
    lb_s(value) / hp(1.0) / 3600.0
}
/// Inches of mercury, Pa.
pub const fn inhg(value: f64) -> f64 {
    value * 3386.389
}
