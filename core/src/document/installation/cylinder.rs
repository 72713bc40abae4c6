//! One cylinder as readings found it.

use crate::document::group::group;
use crate::units::si::deltaf;
use uom::si::f64::TemperatureInterval;

group! {
    /// One cylinder against the mean of all.
    pub struct Cylinder, "cylinder" {
        choices {}
        numbers {
            /// Its cooling air over the mean's [-].
            air, "air_share": f64 = 1.0, Ratio,
                in 0.3, 2.0, likely Some((0.79, 1.21)), Derived,
                "Cooling air of this cylinder over the mean", "open logs of one six: ±13 %", if |_| true;
            /// Its mixture over the mean's, less one [-].
            fuel, "fuel_trim": f64 = 0.0, Ratio,
                in -0.4, 0.4, likely Some((-0.06, 0.06)), Derived,
                "Mixture of this cylinder against the mean", "open logs of one six: ±3 %", if |_| true;
            /// What its probe reads above the head.
            probe, "probe_offset_k": TemperatureInterval = 0.0, TemperatureDifference,
                in deltaf(-120.0), deltaf(120.0), likely Some((deltaf(-20.0), deltaf(20.0))), Derived,
                "What this cylinder's probe reads above the head", "open logs of one six: ±12 °F",
                if |_| true;
        }
    }
}
