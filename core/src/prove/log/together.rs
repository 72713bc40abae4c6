//! Columns without a unit, judged together with the others: what is metric beside them, and what
//! the physics of the air says of their numbers.

use crate::air::atmosphere;
use crate::document::quantity::{ColumnUnit, Quantity};
use crate::language::tr;
use crate::math::order;
use crate::prove::log::column_unit::named_unit;
use crate::prove::log::columns::{ColumnUse, has, words};
use crate::prove::log::table::{LogColumn, LogTable};
use crate::units::typed::Dimension;

/// Why another unit is offered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reason {
    /// Other columns are in °C and hPa.
    MetricBeside,
    /// The outside air pressure of the log fits no other unit.
    AirPressure,
    /// The true airspeed of the log fits no other unit.
    TrueAirspeed,
}

impl Reason {
    /// The reason in words.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::MetricBeside => tr("this log notes °C and hPa"),
            Self::AirPressure => tr("the outside pressure in this log fits no other unit"),
            Self::TrueAirspeed => tr("the true airspeed in this log fits no other unit"),
        }
    }
}

/// A unit offered for a column whose name gives none.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Offer {
    /// The column.
    pub column: usize,
    /// What it is used for.
    pub quantity: Quantity,
    /// The unit offered.
    pub unit: ColumnUnit,
    /// Why.
    pub reason: Reason,
}

/// Farthest that an altitude lies from the one of the air's pressure in the right unit, m.
const ALTITUDE_APART_M: f64 = 400.0;
/// Farthest, in the logarithm, that a true airspeed lies from an indicated one made true in the
/// right unit [-]: knots and miles an hour lie 0.14 apart.
const SPEED_APART: f64 = 0.06;
/// Air pressures outside of an aeroplane in flight, Pa.
const OUTSIDE_PA: (f64, f64) = (3e4, 1.08e5);
/// Numbers at which a comparison is made.
const FEWEST: usize = 3;

/// Units offered for altitude, airspeed and fuel flow where a column's name gives none and the
/// others speak for another unit than the one in use.
#[must_use]
pub fn offers(table: &LogTable, uses: &[ColumnUse]) -> Vec<Offer> {
    let is_metric = is_metric(table, uses);
    let mut found = Vec::new();
    let mut altitude = None;
    for quantity in [Quantity::Altitude, Quantity::Airspeed, Quantity::FuelFlow] {
        let Some((column, used)) = column_of(uses, quantity) else {
            continue;
        };
        let numbers = &table.columns[column];
        let by_name = named_unit(quantity, numbers, &words(&numbers.name));
        if by_name.is_some() {
            if quantity == Quantity::Altitude {
                altitude = Some((column, used));
            }
            continue;
        }
        let by_physics = match quantity {
            Quantity::Altitude => {
                by_pressure(table, numbers).map(|unit| (unit, Reason::AirPressure))
            }
            Quantity::Airspeed => by_true_airspeed(table, uses, numbers, altitude)
                .map(|unit| (unit, Reason::TrueAirspeed)),
            _ => None,
        };
        let beside = || {
            let unit = plain(quantity, metric_symbol(quantity))?;
            is_metric.then_some((unit, Reason::MetricBeside))
        };
        let Some((unit, reason)) = by_physics.or_else(beside) else {
            continue;
        };
        if quantity == Quantity::Altitude {
            altitude = Some((column, unit));
        }
        if unit != used {
            found.push(Offer {
                column,
                quantity,
                unit,
                reason,
            });
        }
    }
    found
}

fn column_of(uses: &[ColumnUse], wanted: Quantity) -> Option<(usize, ColumnUnit)> {
    uses.iter().enumerate().find_map(|(at, used)| match used {
        ColumnUse::Quantity(quantity, unit) if *quantity == wanted => Some((at, *unit)),
        _ => None,
    })
}

fn plain(quantity: Quantity, symbol: &str) -> Option<ColumnUnit> {
    let unit = quantity.dimension().unit_named(symbol)?;
    Some(ColumnUnit::Plain(unit))
}

fn metric_symbol(quantity: Quantity) -> &'static str {
    match quantity {
        Quantity::Altitude => "m",
        Quantity::Airspeed => "km/h",
        _ => "L/h",
    }
}

/// Whether a temperature in °C and a pressure in hPa stand in the log.
fn is_metric(table: &LogTable, uses: &[ColumnUse]) -> bool {
    let used = |dimension: Dimension, symbol: &str| {
        uses.iter().any(|used| match used {
            ColumnUse::Quantity(quantity, ColumnUnit::Plain(unit)) => {
                quantity.dimension() == dimension && unit.symbol == symbol
            }
            _ => false,
        })
    };
    let named = |spellings: &[&str]| {
        let columns = table.columns.iter();
        columns
            .map(|column| words(&column.name))
            .any(|list| has(&list, spellings))
    };
    let celsius = used(Dimension::Temperature, "°C") || named(&["°c", "degc", "celsius"]);
    let hectopascal = used(Dimension::Altimeter, "hPa") || named(&["hpa", "mbar", "millibar"]);
    celsius && hectopascal
}

/// The altitude's unit that the outside pressure speaks for.
fn by_pressure(table: &LogTable, altitude: &LogColumn) -> Option<ColumnUnit> {
    let (pressure, pa) = table.columns.iter().find_map(|column| {
        let list = words(&column.name);
        let is_outside = has(
            &list,
            &["static", "baro", "barometric", "ambient", "outside"],
        ) && has(
            &list,
            &["p", "press", "pressure", "hpa", "mbar", "inhg", "pa"],
        );
        let pa = pa_per_number(&list, column)?;
        is_outside.then_some((column, pa))
    })?;
    let off =
        |unit: &ColumnUnit| {
            median(altitude.values.iter().zip(pressure.values.iter()).map(
                |(altitude, pressure)| {
                    let standard_m = altitude_of(pressure * pa);
                    (unit.to_si(altitude) - standard_m).abs()
                },
            ))
        };
    closest(Quantity::Altitude, &["ft", "m"], ALTITUDE_APART_M, off)
}

/// Pa for one of a column's numbers; `None` if its numbers are no outside pressure.
fn pa_per_number(list: &[String], column: &LogColumn) -> Option<f64> {
    let usual = median(column.values.iter())?;
    let named = |any: &[&str]| has(list, any);
    let candidates: &[f64] = if named(&["hpa", "mbar", "millibar"]) {
        &[100.0]
    } else if named(&["inhg"]) {
        &[3386.389]
    } else {
        &[100.0, 3386.389, 1.0]
    };
    let is_outside = |pa: &&f64| (OUTSIDE_PA.0..=OUTSIDE_PA.1).contains(&(usual * **pa));
    candidates.iter().find(is_outside).copied()
}

/// Altitude of a pressure in the standard atmosphere, m.
fn altitude_of(pressure_pa: f64) -> f64 {
    let (mut low, mut high) = (-2000.0, 11_000.0);
    for _ in 0..40 {
        let middle = 0.5 * (low + high);
        if atmosphere::standard_pressure(middle) > pressure_pa {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

/// The indicated airspeed's unit that a true airspeed, whose unit is named, speaks for.
fn by_true_airspeed(
    table: &LogTable,
    uses: &[ColumnUse],
    indicated: &LogColumn,
    altitude: Option<(usize, ColumnUnit)>,
) -> Option<ColumnUnit> {
    let (true_airspeed, true_unit) = table.columns.iter().find_map(|column| {
        let list = words(&column.name);
        let is_true =
            has(&list, &["tas", "ktas"]) || (has(&list, &["true"]) && has(&list, &["airspeed"]));
        if !is_true {
            return None;
        }
        let in_knots = has(&list, &["ktas"])
            .then(|| plain(Quantity::Airspeed, "kt"))
            .flatten();
        let unit = in_knots.or_else(|| named_unit(Quantity::Airspeed, column, &list))?;
        Some((column, unit))
    })?;
    let (height, height_unit) = altitude?;
    let oat = column_of(uses, Quantity::Oat);
    let off = |unit: &ColumnUnit| {
        let rows = indicated
            .values
            .iter()
            .zip(true_airspeed.values.iter())
            .enumerate();
        median(rows.filter_map(|(row, (indicated, true_airspeed))| {
            let altitude_m = height_unit.to_si(table.columns[height].values.get(row)?);
            let standard_k = atmosphere::standard_temperature(altitude_m);
            let outside_k = oat
                .and_then(|(at, unit)| Some(unit.to_si(table.columns[at].values.get(row)?)))
                .filter(|kelvin| kelvin.is_finite())
                .unwrap_or(standard_k);
            let density = atmosphere::density(atmosphere::standard_pressure(altitude_m), outside_k);
            // V = V_e √(ρ₀/ρ)
            let expected = unit.to_si(indicated) * libm::sqrt(SEA_LEVEL_DENSITY / density);
            let ratio = true_unit.to_si(true_airspeed) / expected;
            (indicated > 0.0 && true_airspeed > 0.0).then(|| libm::log(ratio).abs())
        }))
    };
    closest(
        Quantity::Airspeed,
        &["kt", "km/h", "mph", "m/s"],
        SPEED_APART,
        off,
    )
}

/// Density at sea level in the standard atmosphere, kg/m³ (its definition).
const SEA_LEVEL_DENSITY: f64 = 1.225;

/// The unit with the least misfit, where that is small enough.
fn closest(
    quantity: Quantity,
    symbols: &[&str],
    most: f64,
    off: impl Fn(&ColumnUnit) -> Option<f64>,
) -> Option<ColumnUnit> {
    let units = symbols.iter().filter_map(|symbol| plain(quantity, symbol));
    let judged = units.filter_map(|unit| Some((off(&unit)?, unit)));
    let mut judged: Vec<(f64, ColumnUnit)> = judged.collect();
    order::by_number(&mut judged, |(off, _)| *off);
    let (best, unit) = *judged.first()?;
    let tells = judged.get(1).is_none_or(|second| second.0 > 2.0 * best);
    (best <= most && tells).then_some(unit)
}

fn median(values: impl Iterator<Item = f64>) -> Option<f64> {
    let mut finite: Vec<f64> = values.filter(|value| value.is_finite()).collect();
    order::ascending(&mut finite);
    (finite.len() >= FEWEST).then(|| finite[finite.len() / 2])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::prove::log::columns::guess;

    fn table(columns: &[(&str, [f64; 4])]) -> LogTable {
        LogTable {
            columns: columns
                .iter()
                .map(|(name, values)| LogColumn {
                    name: (*name).to_owned(),
                    values: values.iter().copied().collect(),
                    numbers: 4,
                    ..LogColumn::default()
                })
                .collect(),
            rows: 4,
            ..LogTable::default()
        }
    }

    fn offered(columns: &[(&str, [f64; 4])]) -> Vec<(String, Reason)> {
        let table = table(columns);
        offers(&table, &guess(&table))
            .into_iter()
            .map(|offer| {
                let text = format!("{} {}", offer.quantity.key(), offer.unit.symbol());
                (text, offer.reason)
            })
            .collect()
    }

    const ALTITUDE: (&str, [f64; 4]) = ("Altitude", [1200.0, 1210.0, 1220.0, 1230.0]);
    const SPEED: (&str, [f64; 4]) = ("IAS", [185.0, 186.0, 184.0, 185.0]);
    const FUEL: (&str, [f64; 4]) = ("Fuel Flow", [24.0, 24.5, 24.0, 25.0]);
    const OAT: (&str, [f64; 4]) = ("OAT (°C)", [7.0, 7.0, 7.0, 7.0]);
    const MANIFOLD: (&str, [f64; 4]) = ("MAP hPa", [800.0, 810.0, 800.0, 805.0]);

    #[test]
    fn metric_units_are_offered_where_the_log_notes_celsius_and_hectopascal() {
        let found = offered(&[ALTITUDE, SPEED, FUEL, OAT, MANIFOLD]);
        let texts: Vec<&str> = found.iter().map(|(text, _)| text.as_str()).collect();
        assert_eq!(
            texts,
            ["altitude_m m", "airspeed_m_s km/h", "fuel_flow_m3_s L/h"]
        );
        assert!(
            found
                .iter()
                .all(|(_, reason)| *reason == Reason::MetricBeside)
        );
        // °C alone is usual beside feet and knots.
        assert_eq!(offered(&[ALTITUDE, SPEED, FUEL, OAT]), []);
        let named = ("Altitude (ft)", ALTITUDE.1);
        let found = offered(&[named, OAT, MANIFOLD]);
        assert_eq!(found, []);
    }

    #[test]
    fn the_outside_pressure_tells_feet_from_metres() {
        // 1,215 m is 875 hPa in the standard atmosphere; 1,215 ft are 970.
        let metres = ("Static pressure", [876.6, 875.6, 874.5, 873.4]);
        let found = offered(&[ALTITUDE, metres]);
        assert_eq!(found, [("altitude_m m".to_owned(), Reason::AirPressure)]);
        let feet = ("Static pressure (hPa)", [970.0, 969.6, 969.2, 968.8]);
        assert_eq!(offered(&[ALTITUDE, OAT, MANIFOLD, feet]), []);
    }

    #[test]
    fn the_true_airspeed_tells_knots_from_kilometres_an_hour() {
        // At 1,200 m and 7 °C the true airspeed is 6 % above the indicated one.
        let height = ("Altitude (m)", ALTITUDE.1);
        let of = |tas: f64| offered(&[height, SPEED, OAT, ("TAS (kt)", [tas; 4])]);
        let found = of(185.0 * 1.06 / 1.852);
        assert_eq!(
            found,
            [("airspeed_m_s km/h".to_owned(), Reason::TrueAirspeed)]
        );
        assert_eq!(of(185.0 * 1.06), []);
        let mph = of(185.0 * 1.06 * 1609.344 / 1852.0);
        assert_eq!(mph, [("airspeed_m_s mph".to_owned(), Reason::TrueAirspeed)]);
        // A speed that fits no unit offers none.
        assert_eq!(of(40.0), []);
    }
}
