//! The three test points that the guide has its reader type: invented.

use coolpath_core::document::condition::Mixture;
use coolpath_core::document::quantity::Quantity;
use coolpath_core::document::reading::{Reading, Values};
use coolpath_core::units::si::{degf, foot, inh2o, knot};

/// A test point in the reader's units.
pub(super) struct Point {
    /// Name of the reading.
    pub(super) name: &'static str,
    /// Key of its numbers in the guide.
    pub(super) key: &'static str,
    pub(super) altitude_ft: f64,
    pub(super) oat_degf: f64,
    pub(super) airspeed_kt: f64,
    pub(super) power_percent: f64,
    pub(super) rpm: f64,
    pub(super) mixture: Mixture,
    pub(super) shutter_percent: f64,
    pub(super) heads_degf: [f64; 4],
    pub(super) oil_degf: f64,
    pub(super) drop_inh2o: f64,
}

/// Flown by the cards of the example's two cruises and its cruise climb, the coolest first.
pub(super) const POINTS: [Point; 3] = [
    Point {
        name: "Cold cruise",
        key: "cold",
        altitude_ft: 6000.0,
        oat_degf: 8.0,
        airspeed_kt: 118.0,
        power_percent: 65.0,
        rpm: 2350.0,
        mixture: Mixture::PeakEgt,
        shutter_percent: 50.0,
        heads_degf: [268.0, 286.0, 275.0, 291.0],
        oil_degf: 179.0,
        drop_inh2o: 3.9,
    },
    Point {
        name: "High cruise",
        key: "high",
        altitude_ft: 8000.0,
        oat_degf: 47.0,
        airspeed_kt: 119.0,
        power_percent: 70.0,
        rpm: 2450.0,
        mixture: Mixture::BestPower,
        shutter_percent: 100.0,
        heads_degf: [327.0, 344.0, 335.0, 352.0],
        oil_degf: 178.0,
        drop_inh2o: 3.7,
    },
    Point {
        name: "Cruise climb",
        key: "climb",
        altitude_ft: 5000.0,
        oat_degf: 58.0,
        airspeed_kt: 95.0,
        power_percent: 75.0,
        rpm: 2500.0,
        mixture: Mixture::FullRich,
        shutter_percent: 100.0,
        heads_degf: [309.0, 327.0, 317.0, 334.0],
        oil_degf: 184.0,
        drop_inh2o: 2.4,
    },
];

impl Point {
    pub(super) fn reading(&self) -> Reading {
        let mut values: Values = [
            (Quantity::Altitude, foot(self.altitude_ft)),
            (Quantity::Oat, degf(self.oat_degf)),
            (Quantity::Airspeed, knot(self.airspeed_kt)),
            (Quantity::PowerShare, self.power_percent / 100.0),
            (Quantity::Rpm, self.rpm),
            (Quantity::Shutter, self.shutter_percent / 100.0),
            (Quantity::Oil, degf(self.oil_degf)),
            (Quantity::BaffleDrop, inh2o(self.drop_inh2o)),
        ]
        .into_iter()
        .collect();
        for (head, shown) in Quantity::HEADS.into_iter().zip(self.heads_degf) {
            values.insert(head, degf(shown));
        }
        Reading {
            mixture: self.mixture,
            ..Reading::steady(self.name, values)
        }
    }
}
