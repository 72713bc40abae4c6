//! Which unit is shown of each quantity: two ready sets, or a choice for each.

/// Quantities whose unit is chosen by itself; others go with the one that they belong to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Chosen {
    /// Lengths, and with them areas and volumes.
    Length,
    /// Altitudes.
    Altitude,
    /// Temperatures and their differences.
    Temperature,
    /// Airspeeds.
    Speed,
    /// Pressure differences of the air.
    Pressure,
    /// Altimeter settings.
    Altimeter,
    /// Oil pressures.
    OilPressure,
    /// Power, and with it heat.
    Power,
    /// Mass flows of air.
    AirFlow,
    /// Flows of fuel and oil.
    LiquidFlow,
    /// Forces.
    Force,
}

impl Chosen {
    /// All of them, in the order in which a choice is stored.
    pub const ALL: [Self; 11] = [
        Self::Length,
        Self::Altitude,
        Self::Temperature,
        Self::Speed,
        Self::Pressure,
        Self::Altimeter,
        Self::OilPressure,
        Self::Power,
        Self::AirFlow,
        Self::LiquidFlow,
        Self::Force,
    ];
}

/// Place of the unit of each chosen quantity in the list of its units, 0 customary and 1 metric.
///
/// Stored as a list, which a later version may lengthen: what is missing is customary.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, serde::Serialize, serde::Deserialize)]
#[serde(from = "Vec<u8>", into = "Vec<u8>")]
pub struct Units([u8; Chosen::ALL.len()]);

impl From<Vec<u8>> for Units {
    fn from(list: Vec<u8>) -> Self {
        let mut units = Self::default();
        for (place, stored) in units.0.iter_mut().zip(list) {
            *place = stored;
        }
        units
    }
}

impl From<Units> for Vec<u8> {
    fn from(units: Units) -> Self {
        units.0.to_vec()
    }
}

/// The units on the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum UnitSystem {
    /// Inches, °F, knots, inches of water, horsepower.
    #[default]
    Customary,
    /// Millimetres, °C, km/h, pascals, kilowatts.
    Metric,
    /// A choice for each quantity.
    Own(Units),
}

impl UnitSystem {
    /// Millimetres and °C with knots, feet of altitude and horsepower, as many fly in Europe.
    pub const MIXED: Self = Self::Own(Units([1, 0, 1, 0, 1, 1, 1, 0, 1, 1, 1]));

    /// Place of a quantity's unit in the list of its units.
    ///
    /// # Example
    /// ```
    /// use coolpath_core::units::system::{Chosen, UnitSystem};
    ///
    /// assert_eq!(UnitSystem::Metric.place(Chosen::Speed), 1);
    /// assert_eq!(UnitSystem::MIXED.place(Chosen::Speed), 0);
    /// assert_eq!(UnitSystem::MIXED.place(Chosen::Temperature), 1);
    /// ```
    #[must_use]
    pub const fn place(self, chosen: Chosen) -> usize {
        match self {
            Self::Customary => 0,
            Self::Metric => 1,
            Self::Own(units) => units.0[chosen as usize] as usize,
        }
    }

    /// The same with another unit of one quantity; a ready set where it comes to that.
    ///
    /// # Example
    /// ```
    /// use coolpath_core::units::system::{Chosen, UnitSystem};
    ///
    /// let mixed = UnitSystem::Customary.with(Chosen::Temperature, 1);
    /// assert_eq!(mixed.place(Chosen::Temperature), 1);
    /// assert_eq!(mixed.with(Chosen::Temperature, 0), UnitSystem::Customary);
    /// ```
    #[must_use]
    pub fn with(self, chosen: Chosen, place: u8) -> Self {
        let mut places = Chosen::ALL.map(|each| self.place(each) as u8);
        places[chosen as usize] = place;
        if places.iter().all(|place| *place == 0) {
            Self::Customary
        } else if places.iter().all(|place| *place == 1) {
            Self::Metric
        } else {
            Self::Own(Units(places))
        }
    }

    /// Name of the unit that volume flows of air are shown in, and the unit, m³/s.
    ///
    /// # Example
    /// ```
    /// use coolpath_core::units::system::UnitSystem;
    ///
    /// let (name, m3_s) = UnitSystem::Metric.air_volume_flow();
    /// assert_eq!((name, 7.2 * m3_s), ("m³/h", 0.002));
    /// ```
    #[must_use]
    pub const fn air_volume_flow(self) -> (&'static str, f64) {
        if self.is_customary(Chosen::AirFlow) {
            ("ft³/min", 0.3048 * 0.3048 * 0.3048 / 60.0)
        } else {
            ("m³/h", 1.0 / 3600.0)
        }
    }

    /// Whether a quantity is shown in its customary unit.
    #[must_use]
    pub const fn is_customary(self, chosen: Chosen) -> bool {
        self.place(chosen) == 0
    }
}
