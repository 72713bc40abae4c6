//! Units of each dimension: how they are written, and what they are in SI.

/// A unit: SI = factor × (value + offset).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// How it is written.
    pub symbol: &'static str,
    /// Other spellings that are understood, lower case.
    pub aliases: &'static [&'static str],
    /// SI units per unit.
    pub factor: f64,
    /// Added before the factor is applied; not zero only for temperatures.
    pub offset: f64,
}

impl Unit {
    /// SI value of a value in this unit.
    ///
    /// # Example
    /// Water boils at 212 °F, which is 373.15 K:
    /// ```
    /// use coolpath_core::units::typed::{Dimension, UnitSystem};
    ///
    /// let fahrenheit = Dimension::Temperature.shown(UnitSystem::Customary);
    /// assert!((fahrenheit.to_si(212.0) - 373.15).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn to_si(&self, value: f64) -> f64 {
        self.factor * (value + self.offset)
    }

    /// Value in this unit of an SI value.
    ///
    /// # Example
    /// One knot is one nautical mile, 1852 m, an hour:
    /// ```
    /// use coolpath_core::units::typed::{Dimension, UnitSystem};
    ///
    /// let knots = Dimension::Speed.shown(UnitSystem::Customary);
    /// assert!((knots.from_si(1852.0 / 3600.0) - 1.0).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn from_si(&self, si: f64) -> f64 {
        si / self.factor - self.offset
    }
}

pub(super) const INCH: f64 = 0.0254;
pub(super) const FOOT: f64 = 0.3048;
/// 1 inH₂O (conventional, 4 °C), Pa.
pub const INCH_OF_WATER_PA: f64 = 249.088_91;
pub(super) const POUND: f64 = 0.453_592_37;
/// 1 mechanical horsepower, W: 550 ft·lbf/s.
pub const HORSEPOWER_W: f64 = 550.0 * FOOT * POUND * 9.806_65;
pub(super) const BTU: f64 = 1_055.055_852_62;
pub(super) const NAUTICAL_MILE: f64 = 1852.0;
pub(super) const HOUR: f64 = 3600.0;
const KNOT: f64 = NAUTICAL_MILE / HOUR;
/// Cubic inches of a gallon.
pub(super) const GALLON_IN3: f64 = 231.0;
const GALLON: f64 = GALLON_IN3 * INCH * INCH * INCH;
pub(super) const INCH_OF_MERCURY: f64 = 3386.389;
pub(super) const PSI: f64 = 6_894.757_293;
pub(super) const LITRE: f64 = 1e-3;
/// Degrees Fahrenheit of a kelvin.
pub(super) const DEGF_PER_K: f64 = 1.8;
/// Degrees Fahrenheit from absolute zero to 0 °F.
pub(super) const ZERO_F: f64 = 459.67;
const RANKINE: f64 = 1.0 / DEGF_PER_K;

const fn unit(symbol: &'static str, aliases: &'static [&'static str], factor: f64) -> Unit {
    Unit {
        symbol,
        aliases,
        factor,
        offset: 0.0,
    }
}

const FAHRENHEIT: Unit = Unit {
    symbol: "°F",
    aliases: &["f", "degf", "deg f"],
    factor: RANKINE,
    offset: ZERO_F,
};
const CELSIUS: Unit = Unit {
    symbol: "°C",
    aliases: &["c", "degc", "deg c"],
    factor: 1.0,
    offset: 273.15,
};
const KELVIN: Unit = unit("K", &["k"], 1.0);

pub(super) static LENGTH: [Unit; 5] = [
    unit("in", &["inch", "inches", "\"", "″"], INCH),
    unit("mm", &[], 1e-3),
    unit("cm", &[], 1e-2),
    unit("m", &[], 1.0),
    unit("ft", &["'", "feet", "foot"], FOOT),
];
pub(super) static ALTITUDE: [Unit; 2] = [
    unit("ft", &["'", "feet", "foot"], FOOT),
    unit("m", &["metre", "metres", "meter"], 1.0),
];
pub(super) static AREA: [Unit; 4] = [
    unit("in²", &["in2", "sq in", "sqin", "in^2"], INCH * INCH),
    unit("cm²", &["cm2", "sq cm", "cm^2"], 1e-4),
    unit("mm²", &["mm2", "mm^2"], 1e-6),
    unit("m²", &["m2", "m^2"], 1.0),
];
pub(super) static PRESSURE: [Unit; 5] = [
    unit(
        "inH₂O",
        &["inh2o", "in h2o", "inwc", "in wc", "\"h2o", "iwc"],
        INCH_OF_WATER_PA,
    ),
    unit("Pa", &["pa"], 1.0),
    unit("hPa", &["mbar"], 100.0),
    unit("kPa", &[], 1000.0),
    unit("mmH₂O", &["mmh2o", "mm h2o"], INCH_OF_WATER_PA / 25.4),
];
pub(super) static ALTIMETER: [Unit; 2] = [
    unit("inHg", &["in hg", "inches"], INCH_OF_MERCURY),
    unit("hPa", &["mbar", "mb"], 100.0),
];
pub(super) static OIL_PRESSURE: [Unit; 3] = [
    unit("psi", &[], PSI),
    unit("bar", &[], 1e5),
    unit("kPa", &[], 1000.0),
];
pub(super) static TEMPERATURE: [Unit; 3] = [FAHRENHEIT, CELSIUS, KELVIN];
pub(super) static DIFFERENCE: [Unit; 3] = [
    unit("°F", &["f", "degf", "deg f"], RANKINE),
    unit("°C", &["c", "degc", "deg c"], 1.0),
    unit("K", &["k"], 1.0),
];
pub(super) static SPEED: [Unit; 4] = [
    unit("kt", &["kts", "knots", "kn", "knot"], KNOT),
    unit("km/h", &["kmh", "kph"], 1.0 / 3.6),
    unit("mph", &["mi/h"], 1609.344 / 3600.0),
    unit("m/s", &[], 1.0),
];
pub(super) static MASS_FLOW: [Unit; 4] = [
    unit("lb/s", &["lbs/s"], POUND),
    unit("kg/s", &[], 1.0),
    unit("lb/min", &[], POUND / 60.0),
    unit("kg/h", &[], 1.0 / 3600.0),
];
pub(super) static OIL_FLOW: [Unit; 2] = [
    unit("gal/min", &["gpm", "us gal/min"], GALLON / 60.0),
    unit("L/min", &["l/min"], LITRE / 60.0),
];
pub(super) static FUEL_FLOW: [Unit; 2] = [
    unit("gal/h", &["gph", "us gal/h"], GALLON / 3600.0),
    unit("L/h", &["l/h", "lph"], LITRE / HOUR),
];
pub(super) static POWER: [Unit; 3] = [
    unit("hp", &["bhp"], HORSEPOWER_W),
    unit("kW", &[], 1000.0),
    unit("PS", &["ps"], 75.0 * 9.806_65),
];
pub(super) static HEAT: [Unit; 3] = [
    unit("Btu/min", &["btu/min"], BTU / 60.0),
    unit("kW", &[], 1000.0),
    unit("W", &[], 1.0),
];
pub(super) static CONDUCTANCE: [Unit; 2] = [
    unit("Btu/(h·°F)", &["btu/h/f"], BTU / 3600.0 / RANKINE),
    unit("W/K", &[], 1.0),
];
pub(super) static VOLUME_CONDUCTANCE: [Unit; 1] = [unit("kW/(m³·K)", &["kw/m3/k"], 1000.0)];
pub(super) static FILM: [Unit; 1] = [unit("W/(m²·K)", &["w/m2/k"], 1.0)];
pub(super) static DROP_PER_DEPTH: [Unit; 2] = [
    unit("inH₂O/in", &["inh2o/in"], INCH_OF_WATER_PA / INCH),
    unit("Pa/mm", &[], 1000.0),
];
pub(super) static AIR_PER_POWER: [Unit; 2] = [
    unit("lb/(s·hp)", &["lb/s/hp"], POUND / HORSEPOWER_W),
    unit("kg/(s·kW)", &["kg/s/kw"], 1e-3),
];
pub(super) static AIR_CONSUMPTION: [Unit; 2] = [
    unit("lb/(hp·h)", &["lb/hp/h"], POUND / HORSEPOWER_W / 3600.0),
    unit("kg/(kW·h)", &["kg/kw/h"], 1e-3 / 3600.0),
];
pub(super) static ANGLE: [Unit; 1] = [unit("°", &["deg", "degrees"], 1.0)];
pub(super) static ROTATION: [Unit; 1] = [unit("rpm", &["1/min", "/min"], 1.0)];
pub(super) static FORCE: [Unit; 2] = [unit("lbf", &["lb"], POUND * 9.806_65), unit("N", &[], 1.0)];
pub(super) static PERCENT: [Unit; 1] = [unit("%", &["per cent", "percent"], 0.01)];
pub(super) static RATIO: [Unit; 1] = [unit("", &[], 1.0)];
pub(super) static TIME: [Unit; 1] = [unit("min", &["minutes", "minute"], 60.0)];
pub(super) static DISPLACEMENT: [Unit; 3] = [
    unit(
        "in³",
        &["in3", "cu in", "cuin", "cubic inches"],
        INCH * INCH * INCH,
    ),
    unit("L", &["l", "liter", "liters", "litre", "litres"], LITRE),
    unit("cm³", &["cm3", "cc"], 1e-6),
];
pub(super) static DIFFERENCE_PER_DEGREE: [Unit; 2] = [
    unit("°F/°", &["f/deg"], RANKINE),
    unit("°C/°", &["c/deg"], 1.0),
];
