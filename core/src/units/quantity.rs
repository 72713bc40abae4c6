//! Typed quantities from plain SI numbers: one constructor for each type, so that a number of
//! another dimension does not compile.
//!
//! ```compile_fail
//! use coolpath_core::units::quantity::watt;
//! use uom::si::f64::ThermodynamicTemperature;
//!
//! let head: ThermodynamicTemperature = watt(500.0);
//! ```

use core::marker::PhantomData;
use uom::si::f64::{
    Area, Force, Length, MassRate, Power, Pressure, TemperatureInterval, ThermodynamicTemperature,
    Velocity, VolumeRate,
};

macro_rules! constructors {
    ($( $(#[$meta:meta])* $name:ident : $quantity:ident; )*) => { $(
        $(#[$meta])*
        #[must_use]
        pub const fn $name(value: f64) -> $quantity {
            $quantity {
                dimension: PhantomData,
                units: PhantomData,
                value,
            }
        }
    )* };
}

constructors! {
    /// Area, m².
    square_metre: Area;
    /// Force, N.
    newton: Force;
    /// Length, m.
    metre: Length;
    /// Mass flow, kg/s.
    kg_per_s: MassRate;
    /// Power or heat flow, W.
    watt: Power;
    /// Pressure or difference of pressures, Pa.
    pascal: Pressure;
    /// Difference of temperatures, K.
    kelvin_apart: TemperatureInterval;
    /// Temperature, K.
    kelvin: ThermodynamicTemperature;
    /// Speed, m/s.
    metre_per_s: Velocity;
    /// Volume flow, m³/s.
    cubic_metre_per_s: VolumeRate;
}
