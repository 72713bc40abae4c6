//! Units: what a number is, how it is typed and how it is shown.
//!
//! Values are SI inside. A typed value may carry its unit ("102 mm", "38 C") and a decimal
//! comma; a temperature difference never gets the offset of a temperature.

use crate::language::tr;
pub use crate::units::system::{Chosen, UnitSystem};
pub use crate::units::unit::{HORSEPOWER_W, INCH_OF_WATER_PA, Unit};

use crate::units::feet_inches;
use crate::units::unit;
use crate::units::unit::INCH;

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
    /// Film coefficient, W/(m²·K) in both systems.
    Film,
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

impl Dimension {
    /// All units that are understood.
    #[must_use]
    pub fn units(self) -> &'static [Unit] {
        match self {
            Self::Length => &unit::LENGTH,
            Self::Altitude => &unit::ALTITUDE,
            Self::Area => &unit::AREA,
            Self::Pressure => &unit::PRESSURE,
            Self::Altimeter => &unit::ALTIMETER,
            Self::OilPressure => &unit::OIL_PRESSURE,
            Self::Temperature => &unit::TEMPERATURE,
            Self::TemperatureDifference => &unit::DIFFERENCE,
            Self::Speed => &unit::SPEED,
            Self::MassFlow => &unit::MASS_FLOW,
            Self::OilFlow => &unit::OIL_FLOW,
            Self::FuelFlow => &unit::FUEL_FLOW,
            Self::Power => &unit::POWER,
            Self::Heat => &unit::HEAT,
            Self::Conductance => &unit::CONDUCTANCE,
            Self::VolumeConductance => &unit::VOLUME_CONDUCTANCE,
            Self::Film => &unit::FILM,
            Self::DropPerDepth => &unit::DROP_PER_DEPTH,
            Self::AirPerPower => &unit::AIR_PER_POWER,
            Self::AirConsumption => &unit::AIR_CONSUMPTION,
            Self::Angle => &unit::ANGLE,
            Self::RotationalSpeed => &unit::ROTATION,
            Self::Force => &unit::FORCE,
            Self::Percent => &unit::PERCENT,
            Self::Time => &unit::TIME,
            Self::Displacement => &unit::DISPLACEMENT,
            Self::Ratio | Self::Count => &unit::RATIO,
            Self::DifferencePerDegree => &unit::DIFFERENCE_PER_DEGREE,
        }
    }

    /// The unit with a symbol or another spelling, in any case.
    ///
    /// # Example
    /// ```
    /// use coolpath_core::units::typed::Dimension;
    ///
    /// assert_eq!(Dimension::Area.unit_named("SQ IN").map(|unit| unit.symbol), Some("in²"));
    /// assert_eq!(Dimension::Area.unit_named("kt"), None);
    /// ```
    #[must_use]
    pub fn unit_named(self, name: &str) -> Option<&'static Unit> {
        let wanted = name.trim().to_lowercase();
        self.units().iter().find(|unit| {
            unit.symbol.to_lowercase() == wanted || unit.aliases.contains(&wanted.as_str())
        })
    }

    /// The unit that a system shows.
    ///
    /// # Example
    /// ```
    /// use coolpath_core::units::typed::{Dimension, UnitSystem};
    ///
    /// assert_eq!(Dimension::Pressure.shown(UnitSystem::Customary).symbol, "inH₂O");
    /// assert_eq!(Dimension::Pressure.shown(UnitSystem::Metric).symbol, "Pa");
    /// ```
    #[must_use]
    pub fn shown(self, system: UnitSystem) -> &'static Unit {
        let units = self.units();
        let (chosen, is_its_own) = self.chosen();
        let place = system.place(chosen);
        // What goes with another quantity has a customary and a metric unit.
        let place = if is_its_own { place } else { place.min(1) };
        units.get(place).unwrap_or(&units[0])
    }

    /// The quantity whose choice of unit it follows, and whether it is that quantity itself.
    fn chosen(self) -> (Chosen, bool) {
        match self {
            Self::Length => (Chosen::Length, true),
            Self::Area | Self::Displacement => (Chosen::Length, false),
            Self::Altitude => (Chosen::Altitude, true),
            Self::Temperature | Self::TemperatureDifference => (Chosen::Temperature, true),
            Self::DifferencePerDegree => (Chosen::Temperature, false),
            Self::Speed => (Chosen::Speed, true),
            Self::Pressure => (Chosen::Pressure, true),
            Self::DropPerDepth => (Chosen::Pressure, false),
            Self::Altimeter => (Chosen::Altimeter, true),
            Self::OilPressure => (Chosen::OilPressure, true),
            Self::Power => (Chosen::Power, true),
            Self::Heat | Self::Conductance | Self::AirPerPower | Self::AirConsumption => {
                (Chosen::Power, false)
            }
            Self::MassFlow => (Chosen::AirFlow, true),
            Self::FuelFlow | Self::OilFlow => (Chosen::LiquidFlow, true),
            Self::Force => (Chosen::Force, true),
            Self::VolumeConductance
            | Self::Film
            | Self::Angle
            | Self::RotationalSpeed
            | Self::Percent
            | Self::Ratio
            | Self::Time
            | Self::Count => (Chosen::Length, false),
        }
    }
}

/// Why a typed text is no value.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum ParseError {
    /// Nothing was typed.
    #[error("{}", tr("nothing was typed"))]
    Empty,
    /// No number could be read.
    #[error("{}", tr("this is no number"))]
    NotANumber,
    /// The number is followed by a unit that does not fit.
    #[error("{}", tr!("“{}” is no unit of this quantity", .unit))]
    UnknownUnit {
        /// What follows the number.
        unit: String,
    },
}

/// SI value of a typed text; a bare number is in the unit that the system shows. A length may be a
/// sum of products.
///
/// # Errors
/// [`ParseError`] if it is no number or its unit does not fit the dimension.
///
/// # Example
/// 4 in are 101.6 mm; a difference of 18 °F is one of 10 K, without an offset:
/// ```
/// use coolpath_core::units::typed::{Dimension, ParseError, UnitSystem, parse};
///
/// let inches = parse("4", Dimension::Length, UnitSystem::Customary)?;
/// assert!((inches - 0.1016).abs() < 1e-12);
/// let millimetres = parse("101,6 mm", Dimension::Length, UnitSystem::Customary)?;
/// assert!((millimetres - 0.1016).abs() < 1e-12);
/// let difference = parse("18 °F", Dimension::TemperatureDifference, UnitSystem::Metric)?;
/// assert!((difference - 10.0).abs() < 1e-12);
/// let sum = parse("2 1/8 + 3*2.5", Dimension::Length, UnitSystem::Customary)?;
/// assert!((sum - 9.625 * 0.0254).abs() < 1e-12);
/// assert!(parse("4 kt", Dimension::Length, UnitSystem::Customary).is_err());
/// # Ok::<(), ParseError>(())
/// ```
pub fn parse(text: &str, dimension: Dimension, system: UnitSystem) -> Result<f64, ParseError> {
    let trimmed = text.trim();
    if trimmed.is_empty() {
        return Err(ParseError::Empty);
    }
    if dimension == Dimension::Length {
        return length(trimmed, system);
    }
    one(trimmed, dimension, system)
}

/// SI value of a typed length: a sum of products, such as `2 1/8 + 3*2.5` or `4 in - 3 mm`.
fn length(text: &str, system: UnitSystem) -> Result<f64, ParseError> {
    let sum = terms(text).into_iter().try_fold(0.0, |sum, (sign, term)| {
        Ok(sum + sign * product(term.trim(), system)?)
    })?;
    // Products of what is finite may not be.
    if sum.is_finite() {
        Ok(sum)
    } else {
        Err(ParseError::NotANumber)
    }
}

/// The terms of a sum with their signs. A minus sign without a space on both its sides belongs to
/// its number: `2-1/8` are two inches and an eighth, as a tape is read aloud.
fn terms(text: &str) -> Vec<(f64, &str)> {
    let mut found = Vec::new();
    let (mut begin, mut sign) = (0, 1.0);
    for (at, c) in text.char_indices() {
        let (before, after) = (&text[..at], &text[at + c.len_utf8()..]);
        let splits = match c {
            '+' => at > 0 && !before.ends_with(['e', 'E']),
            '-' | '−' => before.ends_with(' ') && after.starts_with(' '),
            _ => false,
        };
        if splits {
            found.push((sign, &text[begin..at]));
            begin = at + c.len_utf8();
            sign = if c == '+' { 1.0 } else { -1.0 };
        }
    }
    found.push((sign, &text[begin..]));
    found
}

/// SI value of a product with one length in it at most; without one it is in the unit shown.
fn product(text: &str, system: UnitSystem) -> Result<f64, ParseError> {
    let factors: Vec<&str> = text.split(['*', '×']).map(str::trim).collect();
    if factors.len() == 1 {
        return one(text, Dimension::Length, system);
    }
    let mut times = 1.0;
    let mut length = None;
    for factor in factors {
        let fraction = || match feet_inches::inches(factor) {
            Some((number, false)) => Some(number),
            _ => None,
        };
        match bare_number(factor).or_else(fraction) {
            Some(number) => times *= number,
            None if length.is_none() => length = Some(one(factor, Dimension::Length, system)?),
            None => return Err(ParseError::NotANumber),
        }
    }
    let unit = || Dimension::Length.shown(system).to_si(1.0);
    Ok(times * length.unwrap_or_else(unit))
}

/// SI value of one number with its unit.
fn one(text: &str, dimension: Dimension, system: UnitSystem) -> Result<f64, ParseError> {
    if dimension == Dimension::Length
        && let Some((inches, with_unit)) = feet_inches::inches(text)
    {
        // A bare fraction is one of an inch; nobody measures in fractions of a millimetre.
        return if with_unit || system.is_customary(Chosen::Length) {
            Ok(INCH * inches)
        } else {
            Err(ParseError::NotANumber)
        };
    }
    let (number, rest) = split_number(text);
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
///
/// # Example
/// ```
/// use coolpath_core::units::typed::bare_number;
///
/// assert_eq!(bare_number("14,5"), Some(14.5));
/// assert_eq!(bare_number("3,500"), Some(3500.0));
/// assert_eq!(bare_number("12 in"), None);
/// ```
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
///
/// # Example
/// 0.1016 m are 4 in or 101.6 mm:
/// ```
/// use coolpath_core::units::typed::{Dimension, UnitSystem, text};
///
/// assert_eq!(text(0.1016, Dimension::Length, UnitSystem::Customary), "4");
/// assert_eq!(text(0.1016, Dimension::Length, UnitSystem::Metric), "101.6");
/// ```
#[must_use]
pub fn text(si: f64, dimension: Dimension, system: UnitSystem) -> String {
    rounded_text(dimension.shown(system).from_si(si), 7)
}

/// Text of a number with so many significant digits at most, without trailing zeros.
///
/// # Example
/// ```
/// use coolpath_core::units::typed::rounded_text;
///
/// assert_eq!(rounded_text(1234.567, 5), "1234.6");
/// assert_eq!(rounded_text(0.000_123_4, 2), "0.00012");
/// assert_eq!(rounded_text(2.500, 3), "2.5");
/// ```
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
