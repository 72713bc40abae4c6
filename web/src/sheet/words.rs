//! Figures and names as the drawing writes them.

use super::readout::State;
use coolpath_core::language::{self, tr};
use coolpath_core::units::typed::{Chosen, Dimension, UnitSystem, rounded_text};

fn with_unit(number: &str, dimension: Dimension, system: UnitSystem) -> String {
    let number = language::number(number.to_owned());
    let symbol = dimension.shown(system).symbol;
    format!("{} {symbol}", number.replace('-', "−"))
}

/// A number with so many decimals; what rounds to zero has no sign.
fn fixed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    if text.bytes().all(|byte| matches!(byte, b'-' | b'0' | b'.')) {
        return text.replace('-', "");
    }
    text
}

/// A mass flow to hundredths.
#[must_use]
pub fn flow(kg_s: f64, system: UnitSystem) -> String {
    let value = Dimension::MassFlow.shown(system).from_si(kg_s);
    with_unit(&fixed(value, 2), Dimension::MassFlow, system)
}

/// A pressure difference: tenths of an inch of water, or tens of pascals.
#[must_use]
pub fn pressure(pa: f64, system: UnitSystem) -> String {
    let value = Dimension::Pressure.shown(system).from_si(pa);
    let number = match system.place(Chosen::Pressure) {
        0 => fixed(value, 1),
        1 => fixed((value / 10.0).round() * 10.0, 0),
        _ => rounded_text(value, 2).replace('-', "−"),
    };
    with_unit(&number, Dimension::Pressure, system)
}

/// A temperature of the air to whole degrees.
#[must_use]
pub fn air_temperature(kelvin: f64, system: UnitSystem) -> String {
    let value = Dimension::Temperature.shown(system).from_si(kelvin);
    with_unit(&fixed(value, 0), Dimension::Temperature, system)
}

/// A temperature that is judged, to 5 °F or 2 °C: the model is no finer.
#[must_use]
pub fn judged_temperature(kelvin: f64, system: UnitSystem) -> String {
    let step = if system.is_customary(Chosen::Temperature) {
        5.0
    } else {
        2.0
    };
    let value = Dimension::Temperature.shown(system).from_si(kelvin);
    let stepped = (value / step).round() * step;
    with_unit(&fixed(stepped, 0), Dimension::Temperature, system)
}

/// An area to whole square inches or square centimetres.
#[must_use]
pub fn area(square_metres: f64, system: UnitSystem) -> String {
    let value = Dimension::Area.shown(system).from_si(square_metres);
    with_unit(&fixed(value, 0), Dimension::Area, system)
}

/// A length as it was put in.
#[must_use]
pub fn length(metres: f64, system: UnitSystem) -> String {
    let value = Dimension::Length.shown(system).from_si(metres);
    with_unit(&rounded_text(value, 4), Dimension::Length, system)
}

/// The hottest head as its readers call it.
#[must_use]
pub fn hottest(system: UnitSystem, short: bool) -> &'static str {
    match (system.is_customary(Chosen::Temperature), short) {
        (true, false) => tr("Hottest CHT"),
        (true, true) => tr("CHT"),
        (false, false) => tr("Hottest head"),
        (false, true) => tr("Head"),
    }
}

/// Where a shutter stands.
#[must_use]
pub fn shutter(opening: f64) -> String {
    let angle = coolpath_core::path::butterfly::angle_from_open(opening.clamp(0.0, 1.0));
    match angle.round() {
        a if a <= 0.0 => tr("fully open").to_owned(),
        a if a >= 90.0 => tr("closed").to_owned(),
        a => tr!("{:.0}°, {:.0} % open", a, 100.0 * opening),
    }
}

/// Share of a pressure, per cent.
#[must_use]
pub fn percent(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}

/// A temperature and its state, for those who hear the drawing.
#[must_use]
pub fn spoken(value: &str, state: Option<State>) -> String {
    match state {
        Some(state) => format!("{value}, {}", state.word()),
        None => value.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_rounded_to_what_the_model_knows() {
        let us = UnitSystem::Customary;
        assert_eq!(flow(0.789_25, us), "1.74 lb/s");
        assert_eq!(pressure(-30.0, us), "−0.1 inH₂O");
        assert_eq!(pressure(-3.0, us), "0.0 inH₂O");
        assert_eq!(pressure(797.0, UnitSystem::Metric), "800 Pa");
        assert_eq!(judged_temperature(508.0, us), "455 °F");
        assert_eq!(length(0.11684, us), "4.6 in");
        assert_eq!(length(0.15875, UnitSystem::Metric), "158.8 mm");
    }

    #[test]
    fn a_shutter_is_told_by_its_angle() {
        assert_eq!(shutter(1.0), "fully open");
        assert_eq!(shutter(0.0), "closed");
        assert_eq!(shutter(0.5), "45°, 50 % open");
    }
}
