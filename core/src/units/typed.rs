//! Units: what a number is, how it is typed and how it is shown.
//!
//! Values are SI inside. A typed value may carry its unit ("102 mm", "38 C") and a decimal
//! comma; a temperature difference never gets the offset of a temperature.

use crate::units::feet_inches;

/// Customary or metric units on the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum UnitSystem {
    /// Inches, °F, knots, inches of water, horsepower.
    #[default]
    Customary,
    /// Millimetres, °C, km/h, pascals, kilowatts.
    Metric,
}

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
    #[must_use]
    pub fn to_si(&self, value: f64) -> f64 {
        self.factor * (value + self.offset)
    }

    /// Value in this unit of an SI value.
    #[must_use]
    pub fn from_si(&self, si: f64) -> f64 {
        si / self.factor - self.offset
    }
}

/// What a number measures; the first unit of each system is the one shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Dimension {
    /// Dimension of a part: in or mm.
    Length,
    /// Altitude: ft or m.
    Altitude,
    /// Area: in² or cm².
    Area,
    /// Pressure difference: inH₂O or Pa.
    Pressure,
    /// Altimeter setting: inHg or hPa.
    Altimeter,
    /// Oil pressure: psi or bar.
    OilPressure,
    /// Temperature: °F or °C.
    Temperature,
    /// Temperature difference: °F or °C, without offset.
    TemperatureDifference,
    /// Airspeed: kt or km/h.
    Speed,
    /// Mass flow: lb/s or kg/s.
    MassFlow,
    /// Oil flow: US gal/min or L/min.
    OilFlow,
    /// Fuel flow: US gal/h or L/h.
    FuelFlow,
    /// Engine power: hp or kW.
    Power,
    /// Heat flow: Btu/min or kW.
    Heat,
    /// Conductance: Btu/(h·°F) or W/K.
    Conductance,
    /// Conductance per volume, W/(m³·K) shown in kW/(m³·K) in both systems.
    VolumeConductance,
    /// Pressure drop per depth, inH₂O/in or Pa/mm.
    DropPerDepth,
    /// Air per power: lb/(s·hp) or kg/(s·kW).
    AirPerPower,
    /// Specific air consumption: lb/(hp·h) or kg/(kW·h).
    AirConsumption,
    /// Angle, degrees.
    Angle,
    /// Rotational speed, 1/min.
    RotationalSpeed,
    /// Force: lbf or N.
    Force,
    /// Share, shown in per cent.
    Percent,
    /// Plain number.
    Ratio,
    /// Temperature difference per degree of angle.
    DifferencePerDegree,
    /// Time: minutes.
    Time,
    /// Swept volume: in³ or L.
    Displacement,
    /// Count of things.
    Count,
}

const INCH: f64 = 0.0254;
const FOOT: f64 = 0.3048;
/// 1 inH₂O (conventional, 4 °C), Pa.
pub const INCH_OF_WATER_PA: f64 = 249.088_91;
const POUND: f64 = 0.453_592_37;
/// 1 mechanical horsepower, W: 550 ft·lbf/s.
pub const HORSEPOWER_W: f64 = 550.0 * FOOT * POUND * 9.806_65;
const BTU: f64 = 1_055.055_852_62;
const KNOT: f64 = 1852.0 / 3600.0;
const GALLON: f64 = 231.0 * INCH * INCH * INCH;
const RANKINE: f64 = 1.0 / 1.8;

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
    offset: 459.67,
};
const CELSIUS: Unit = Unit {
    symbol: "°C",
    aliases: &["c", "degc", "deg c"],
    factor: 1.0,
    offset: 273.15,
};
const KELVIN: Unit = unit("K", &["k"], 1.0);

static LENGTH: [Unit; 5] = [
    unit("in", &["inch", "inches", "\"", "″"], INCH),
    unit("mm", &[], 1e-3),
    unit("cm", &[], 1e-2),
    unit("m", &[], 1.0),
    unit("ft", &["'", "feet", "foot"], FOOT),
];
static ALTITUDE: [Unit; 2] = [
    unit("ft", &["'", "feet", "foot"], FOOT),
    unit("m", &["metre", "metres", "meter"], 1.0),
];
static AREA: [Unit; 4] = [
    unit("in²", &["in2", "sq in", "sqin", "in^2"], INCH * INCH),
    unit("cm²", &["cm2", "sq cm", "cm^2"], 1e-4),
    unit("mm²", &["mm2", "mm^2"], 1e-6),
    unit("m²", &["m2", "m^2"], 1.0),
];
static PRESSURE: [Unit; 5] = [
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
static ALTIMETER: [Unit; 2] = [
    unit("inHg", &["in hg", "inches"], 3386.389),
    unit("hPa", &["mbar", "mb"], 100.0),
];
static OIL_PRESSURE: [Unit; 3] = [
    unit("psi", &[], 6_894.757_293),
    unit("bar", &[], 1e5),
    unit("kPa", &[], 1000.0),
];
static TEMPERATURE: [Unit; 3] = [FAHRENHEIT, CELSIUS, KELVIN];
static DIFFERENCE: [Unit; 3] = [
    unit("°F", &["f", "degf", "deg f"], RANKINE),
    unit("°C", &["c", "degc", "deg c"], 1.0),
    unit("K", &["k"], 1.0),
];
static SPEED: [Unit; 4] = [
    unit("kt", &["kts", "knots", "kn", "knot"], KNOT),
    unit("km/h", &["kmh", "kph"], 1.0 / 3.6),
    unit("mph", &["mi/h"], 1609.344 / 3600.0),
    unit("m/s", &[], 1.0),
];
static MASS_FLOW: [Unit; 4] = [
    unit("lb/s", &["lbs/s"], POUND),
    unit("kg/s", &[], 1.0),
    unit("lb/min", &[], POUND / 60.0),
    unit("kg/h", &[], 1.0 / 3600.0),
];
static OIL_FLOW: [Unit; 2] = [
    unit("gal/min", &["gpm", "us gal/min"], GALLON / 60.0),
    unit("L/min", &["l/min"], 1e-3 / 60.0),
];
static FUEL_FLOW: [Unit; 2] = [
    unit("gal/h", &["gph", "us gal/h"], GALLON / 3600.0),
    unit("L/h", &["l/h", "lph"], 1e-3 / 3600.0),
];
static POWER: [Unit; 3] = [
    unit("hp", &["bhp"], HORSEPOWER_W),
    unit("kW", &[], 1000.0),
    unit("PS", &["ps"], 75.0 * 9.806_65),
];
static HEAT: [Unit; 3] = [
    unit("Btu/min", &["btu/min"], BTU / 60.0),
    unit("kW", &[], 1000.0),
    unit("W", &[], 1.0),
];
static CONDUCTANCE: [Unit; 2] = [
    unit("Btu/(h·°F)", &["btu/h/f"], BTU / 3600.0 / RANKINE),
    unit("W/K", &[], 1.0),
];
static VOLUME_CONDUCTANCE: [Unit; 1] = [unit("kW/(m³·K)", &["kw/m3/k"], 1000.0)];
static DROP_PER_DEPTH: [Unit; 2] = [
    unit("inH₂O/in", &["inh2o/in"], INCH_OF_WATER_PA / INCH),
    unit("Pa/mm", &[], 1000.0),
];
static AIR_PER_POWER: [Unit; 2] = [
    unit("lb/(s·hp)", &["lb/s/hp"], POUND / HORSEPOWER_W),
    unit("kg/(s·kW)", &["kg/s/kw"], 1e-3),
];
static AIR_CONSUMPTION: [Unit; 2] = [
    unit("lb/(hp·h)", &["lb/hp/h"], POUND / HORSEPOWER_W / 3600.0),
    unit("kg/(kW·h)", &["kg/kw/h"], 1e-3 / 3600.0),
];
static ANGLE: [Unit; 1] = [unit("°", &["deg", "degrees"], 1.0)];
static ROTATION: [Unit; 1] = [unit("rpm", &["1/min", "/min"], 1.0)];
static FORCE: [Unit; 2] = [unit("lbf", &["lb"], POUND * 9.806_65), unit("N", &[], 1.0)];
static PERCENT: [Unit; 1] = [unit("%", &["per cent", "percent"], 0.01)];
static RATIO: [Unit; 1] = [unit("", &[], 1.0)];
static TIME: [Unit; 1] = [unit("min", &["minutes", "minute"], 60.0)];
static DISPLACEMENT: [Unit; 3] = [
    unit(
        "in³",
        &["in3", "cu in", "cuin", "cubic inches"],
        INCH * INCH * INCH,
    ),
    unit("L", &["l", "liter", "liters", "litre", "litres"], 1e-3),
    unit("cm³", &["cm3", "cc"], 1e-6),
];
static DIFFERENCE_PER_DEGREE: [Unit; 2] = [
    unit("°F/°", &["f/deg"], RANKINE),
    unit("°C/°", &["c/deg"], 1.0),
];

impl Dimension {
    /// All units that are understood.
    #[must_use]
    pub fn units(self) -> &'static [Unit] {
        match self {
            Self::Length => &LENGTH,
            Self::Altitude => &ALTITUDE,
            Self::Area => &AREA,
            Self::Pressure => &PRESSURE,
            Self::Altimeter => &ALTIMETER,
            Self::OilPressure => &OIL_PRESSURE,
            Self::Temperature => &TEMPERATURE,
            Self::TemperatureDifference => &DIFFERENCE,
            Self::Speed => &SPEED,
            Self::MassFlow => &MASS_FLOW,
            Self::OilFlow => &OIL_FLOW,
            Self::FuelFlow => &FUEL_FLOW,
            Self::Power => &POWER,
            Self::Heat => &HEAT,
            Self::Conductance => &CONDUCTANCE,
            Self::VolumeConductance => &VOLUME_CONDUCTANCE,
            Self::DropPerDepth => &DROP_PER_DEPTH,
            Self::AirPerPower => &AIR_PER_POWER,
            Self::AirConsumption => &AIR_CONSUMPTION,
            Self::Angle => &ANGLE,
            Self::RotationalSpeed => &ROTATION,
            Self::Force => &FORCE,
            Self::Percent => &PERCENT,
            Self::Time => &TIME,
            Self::Displacement => &DISPLACEMENT,
            Self::Ratio | Self::Count => &RATIO,
            Self::DifferencePerDegree => &DIFFERENCE_PER_DEGREE,
        }
    }

    /// The unit with a symbol or another spelling, in any case.
    #[must_use]
    pub fn unit_named(self, name: &str) -> Option<&'static Unit> {
        let wanted = name.trim().to_lowercase();
        self.units().iter().find(|unit| {
            unit.symbol.to_lowercase() == wanted || unit.aliases.contains(&wanted.as_str())
        })
    }

    /// The unit that a system shows.
    #[must_use]
    pub fn shown(self, system: UnitSystem) -> &'static Unit {
        let units = self.units();
        match system {
            UnitSystem::Customary => &units[0],
            UnitSystem::Metric => units.get(1).unwrap_or(&units[0]),
        }
    }
}

/// Why a typed text is no value.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum ParseError {
    /// Nothing was typed.
    #[error("nothing was typed")]
    Empty,
    /// No number could be read.
    #[error("this is no number")]
    NotANumber,
    /// The number is followed by a unit that does not fit.
    #[error("“{unit}” is no unit of this quantity")]
    UnknownUnit {
        /// What follows the number.
        unit: String,
    },
}

/// SI value of a typed text; a bare number is in the unit that the system shows.
///
/// # Errors
/// [`ParseError`] if it is no number or its unit does not fit the dimension.
pub fn parse(text: &str, dimension: Dimension, system: UnitSystem) -> Result<f64, ParseError> {
    let trimmed = text.trim();
    if trimmed.is_empty() {
        return Err(ParseError::Empty);
    }
    if dimension == Dimension::Length
        && let Some((inches, with_unit)) = feet_inches::inches(trimmed)
    {
        // A bare fraction is one of an inch; nobody measures in fractions of a millimetre.
        return if with_unit || system == UnitSystem::Customary {
            Ok(INCH * inches)
        } else {
            Err(ParseError::NotANumber)
        };
    }
    let (number, rest) = split_number(trimmed);
    let value = number_value(number).ok_or(ParseError::NotANumber)?;
    let name = rest.trim();
    if name.is_empty() {
        return Ok(dimension.shown(system).to_si(value));
    }
    dimension
        .unit_named(name)
        .map(|unit| unit.to_si(value))
        .ok_or_else(|| ParseError::UnknownUnit {
            unit: name.to_owned(),
        })
}

/// A typed number without a unit; `None` if anything else stands there.
#[must_use]
pub fn bare_number(text: &str) -> Option<f64> {
    let (number, rest) = split_number(text.trim());
    if rest.trim().is_empty() {
        number_value(number)
    } else {
        None
    }
}

/// The leading number and what follows it.
fn split_number(text: &str) -> (&str, &str) {
    let mut end = 0;
    let mut previous = ' ';
    for (at, c) in text.char_indices() {
        let sign = matches!(c, '+' | '-' | '−') && (at == 0 || matches!(previous, 'e' | 'E'));
        let rest = &text[at + c.len_utf8()..];
        let exponent = matches!(c, 'e' | 'E')
            && previous.is_ascii_digit()
            && rest.starts_with(|next: char| next.is_ascii_digit() || matches!(next, '+' | '-'));
        if !(c.is_ascii_digit() || matches!(c, '.' | ',' | '\'' | '\u{a0}') || sign || exponent) {
            break;
        }
        // An apostrophe groups thousands before three digits; elsewhere it is a foot mark.
        let group = rest.bytes().take_while(u8::is_ascii_digit).count();
        if (c == '\'' && group != 3) || (c == '\u{a0}' && group == 0) {
            break;
        }
        end = at + c.len_utf8();
        previous = c;
    }
    text.split_at(end)
}

/// Value of a number with a decimal point or a decimal comma.
///
/// With both signs present the last one is the decimal sign. A lone comma is a decimal comma
/// ("14,5"), except before exactly three digits after one to three others ("3,500"), where it
/// groups thousands.
fn number_value(number: &str) -> Option<f64> {
    let plain: String = number
        .chars()
        .filter(|c| !matches!(c, '\'' | '\u{a0}'))
        .map(ascii_minus)
        .collect();
    let commas = plain.matches(',').count();
    let points = plain.matches('.').count();
    let normal = match (commas, points) {
        (0, 0 | 1) => plain,
        (1, 0) => {
            let (before, after) = plain.split_once(',')?;
            let digits = before.trim_start_matches(['-', '+']);
            let groups = after.len() == 3
                && after.bytes().all(|b| b.is_ascii_digit())
                && (1..=3).contains(&digits.len())
                && !digits.starts_with('0');
            if groups {
                format!("{before}{after}")
            } else {
                plain.replace(',', ".")
            }
        }
        _ => {
            let decimal = if plain.rfind(',') > plain.rfind('.') {
                ','
            } else {
                '.'
            };
            let grouping = if decimal == ',' { '.' } else { ',' };
            let joined: String = plain.chars().filter(|&c| c != grouping).collect();
            if joined.matches(decimal).count() > 1 {
                joined.replace(decimal, "")
            } else {
                joined.replace(decimal, ".")
            }
        }
    };
    if !normal.bytes().any(|b| b.is_ascii_digit()) {
        return None;
    }
    normal.parse::<f64>().ok().filter(|value| value.is_finite())
}

fn ascii_minus(c: char) -> char {
    if c == '−' { '-' } else { c }
}

/// Text of an SI value in the unit that a system shows, without the unit.
///
/// Seven significant digits, so that no switch of units changes what is shown.
#[must_use]
pub fn text(si: f64, dimension: Dimension, system: UnitSystem) -> String {
    rounded_text(dimension.shown(system).from_si(si), 7)
}

/// Text of a number with so many significant digits at most, without trailing zeros.
#[must_use]
pub fn rounded_text(value: f64, digits: i32) -> String {
    if value == 0.0 || !value.is_finite() {
        return "0".to_owned();
    }
    let magnitude = libm::floor(libm::log10(value.abs())) as i32;
    let decimals = (digits - 1 - magnitude).clamp(0, 12) as usize;
    let fixed = format!("{value:.decimals$}");
    if !fixed.contains('.') {
        return fixed;
    }
    let short = fixed.trim_end_matches('0').trim_end_matches('.');
    if short == "-0" {
        "0".to_owned()
    } else {
        short.to_owned()
    }
}
