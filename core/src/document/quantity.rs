//! What can be read off an instrument, and in which units it may be noted.

use crate::air::airspeed;
use crate::language::tr;
use crate::units::si::{degf, foot, gal_h, inh2o, inhg, knot};
use crate::units::typed::{Dimension, Unit, UnitSystem};
use serde::{Deserialize, Serialize};

/// Most cylinders that a reading can hold.
const MAX_HEADS: usize = 8;

macro_rules! quantities {
    ($( $(#[$meta:meta])* $name:ident, $key:literal, $label:literal, $dimension:ident, $least:expr, $most:expr; )*) => {
        /// A quantity that is read off an instrument.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        pub enum Quantity {
            $( $(#[$meta])* #[serde(rename = $key)] $name, )*
        }

        impl Quantity {
            /// All of them, in the order of the table.
            pub const ALL: &'static [Self] = &[ $( Self::$name, )* ];

            /// Its name in the file; the unit at the end is the one that the file holds.
            #[must_use]
            pub fn key(self) -> &'static str {
                match self { $( Self::$name => $key, )* }
            }

            /// What the builder calls it.
            #[must_use]
            pub fn label(self) -> &'static str {
                tr(match self { $( Self::$name => $label, )* })
            }

            /// What it measures.
            #[must_use]
            pub fn dimension(self) -> Dimension {
                match self { $( Self::$name => Dimension::$dimension, )* }
            }

            /// Permitted range, SI.
            #[must_use]
            pub fn permitted(self) -> (f64, f64) {
                match self { $( Self::$name => ($least, $most), )* }
            }
        }
    };
}

quantities! {
    /// Pressure altitude.
    Altitude, "altitude_m", "Pressure altitude", Altitude, foot(-1500.0), foot(30000.0);
    /// Outside air temperature on the gauge.
    Oat, "oat_k", "OAT", Temperature, degf(-70.0), degf(140.0);
    /// Indicated airspeed.
    Airspeed, "airspeed_m_s", "Airspeed, indicated", Speed, 0.0, knot(280.0);
    /// Share of rated power.
    PowerShare, "power_share", "Power", Percent, 0.0, 1.2;
    /// Engine speed.
    Rpm, "rpm", "Engine speed", RotationalSpeed, 0.0, 4500.0;
    /// Manifold pressure.
    Manifold, "manifold_pa", "Manifold pressure", Altimeter, inhg(5.0), inhg(35.0);
    /// Fuel flow.
    FuelFlow, "fuel_flow_m3_s", "Fuel flow", FuelFlow, 0.0, gal_h(60.0);
    /// Opening of the cowl flap.
    Flap, "flap_opening", "Cowl flap", Percent, 0.0, 1.0;
    /// Opening of the shutter.
    Shutter, "shutter_opening", "Shutter", Percent, 0.0, 1.0;
    /// Head of cylinder 1.
    Head1, "head_1_k", "CHT 1", Temperature, degf(-70.0), degf(700.0);
    /// Head of cylinder 2.
    Head2, "head_2_k", "CHT 2", Temperature, degf(-70.0), degf(700.0);
    /// Head of cylinder 3.
    Head3, "head_3_k", "CHT 3", Temperature, degf(-70.0), degf(700.0);
    /// Head of cylinder 4.
    Head4, "head_4_k", "CHT 4", Temperature, degf(-70.0), degf(700.0);
    /// Head of cylinder 5.
    Head5, "head_5_k", "CHT 5", Temperature, degf(-70.0), degf(700.0);
    /// Head of cylinder 6.
    Head6, "head_6_k", "CHT 6", Temperature, degf(-70.0), degf(700.0);
    /// Head of cylinder 7.
    Head7, "head_7_k", "CHT 7", Temperature, degf(-70.0), degf(700.0);
    /// Head of cylinder 8.
    Head8, "head_8_k", "CHT 8", Temperature, degf(-70.0), degf(700.0);
    /// Oil at the gauge.
    Oil, "oil_k", "Oil", Temperature, degf(-70.0), degf(400.0);
    /// Upper minus lower deck.
    BaffleDrop, "baffle_drop_pa", "Δp across the baffles", Pressure, inh2o(-10.0), inh2o(40.0);
    /// Upper deck above static.
    UpperDeck, "upper_deck_pa", "Upper deck above static", Pressure, inh2o(-20.0), inh2o(40.0);
    /// Lower deck above static.
    LowerDeck, "lower_deck_pa", "Lower deck above static", Pressure, inh2o(-20.0), inh2o(40.0);
    /// Exhaust gas of cylinder 1.
    Egt1, "egt_1_k", "EGT 1", Temperature, degf(-70.0), degf(1900.0);
    /// Exhaust gas of cylinder 2.
    Egt2, "egt_2_k", "EGT 2", Temperature, degf(-70.0), degf(1900.0);
    /// Exhaust gas of cylinder 3.
    Egt3, "egt_3_k", "EGT 3", Temperature, degf(-70.0), degf(1900.0);
    /// Exhaust gas of cylinder 4.
    Egt4, "egt_4_k", "EGT 4", Temperature, degf(-70.0), degf(1900.0);
    /// Exhaust gas of cylinder 5.
    Egt5, "egt_5_k", "EGT 5", Temperature, degf(-70.0), degf(1900.0);
    /// Exhaust gas of cylinder 6.
    Egt6, "egt_6_k", "EGT 6", Temperature, degf(-70.0), degf(1900.0);
    /// Exhaust gas of cylinder 7.
    Egt7, "egt_7_k", "EGT 7", Temperature, degf(-70.0), degf(1900.0);
    /// Exhaust gas of cylinder 8.
    Egt8, "egt_8_k", "EGT 8", Temperature, degf(-70.0), degf(1900.0);
}

impl Quantity {
    /// The heads, cylinder 1 first.
    pub const HEADS: [Self; MAX_HEADS] = [
        Self::Head1,
        Self::Head2,
        Self::Head3,
        Self::Head4,
        Self::Head5,
        Self::Head6,
        Self::Head7,
        Self::Head8,
    ];

    /// The exhaust gases, cylinder 1 first.
    pub const EGTS: [Self; MAX_HEADS] = [
        Self::Egt1,
        Self::Egt2,
        Self::Egt3,
        Self::Egt4,
        Self::Egt5,
        Self::Egt6,
        Self::Egt7,
        Self::Egt8,
    ];

    /// Whether it is an exhaust gas temperature. A cylinder that does not fire has one near that of
    /// its surroundings, so that no low reading is impossible.
    #[must_use]
    pub fn is_egt(self) -> bool {
        Self::EGTS.contains(&self)
    }

    /// Whether it is a head's temperature.
    #[must_use]
    pub fn is_head(self) -> bool {
        Self::HEADS.contains(&self)
    }

    /// What a correction of it measures: a temperature's is a difference.
    #[must_use]
    pub fn correction_dimension(self) -> Dimension {
        match self.dimension() {
            Dimension::Temperature => Dimension::TemperatureDifference,
            other => other,
        }
    }

    /// Units in which a column of it may be noted; a pressure difference also as what an airspeed
    /// indicator plumbed across the decks reads.
    #[must_use]
    pub fn column_units(self) -> Vec<ColumnUnit> {
        let mut units: Vec<ColumnUnit> = self
            .dimension()
            .units()
            .iter()
            .map(ColumnUnit::Plain)
            .collect();
        if self == Self::BaffleDrop {
            units.extend(Dimension::Speed.units().iter().map(ColumnUnit::Indicator));
        }
        units
    }

    /// The unit that a column shows unless another was chosen.
    #[must_use]
    pub fn usual_unit(self, system: UnitSystem) -> ColumnUnit {
        ColumnUnit::Plain(self.dimension().shown(system))
    }
}

/// The unit of a column of readings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ColumnUnit {
    /// A unit of the quantity itself.
    Plain(&'static Unit),
    /// What an airspeed indicator reads with the pressure difference across it.
    Indicator(&'static Unit),
}

impl ColumnUnit {
    /// The name by which it is kept.
    #[must_use]
    pub fn symbol(&self) -> String {
        match self {
            Self::Plain(unit) => unit.symbol.to_owned(),
            Self::Indicator(unit) => format!("{} on an airspeed indicator", unit.symbol),
        }
    }

    /// How it is shown.
    #[must_use]
    pub fn label(&self) -> String {
        match self {
            Self::Plain(_) => self.symbol(),
            Self::Indicator(unit) => tr!("{} on an airspeed indicator", unit.symbol),
        }
    }

    /// SI value of a number in this unit.
    #[must_use]
    pub fn to_si(&self, value: f64) -> f64 {
        match self {
            Self::Plain(unit) => unit.to_si(value),
            Self::Indicator(unit) => airspeed::impact_pressure(unit.to_si(value).max(0.0)),
        }
    }

    /// Number in this unit of an SI value.
    #[must_use]
    pub fn from_si(&self, si: f64) -> f64 {
        match self {
            Self::Plain(unit) => unit.from_si(si),
            Self::Indicator(unit) => unit.from_si(airspeed::calibrated_airspeed(si.max(0.0))),
        }
    }
}
