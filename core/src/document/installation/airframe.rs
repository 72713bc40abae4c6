//! Aircraft and propeller.

use crate::document::group::group;
use crate::units::si::{inch, knot};
use uom::si::f64::{Length, Velocity};

group! {
    /// Aircraft and propeller.
    pub struct Airframe, "airframe" {
        choices {}
        numbers {
            /// Propeller diameter.
            propeller_diameter, "propeller_diameter_m": Length = inch(72.0), Length,
                in inch(40.0), inch(110.0), likely None, Example,
                "Propeller diameter", "measure it", if |_| true;
            /// Share of the shaft power not lost to blade drag [-].
            propeller_efficiency, "propeller_efficiency": f64 = 0.85, Ratio,
                in 0.5, 1.0, likely Some((0.80, 0.88)), FromMemory,
                "Propeller profile efficiency",
                "what blade drag leaves of the power; momentum theory takes the rest", if |_| true;
            /// Share of the propeller's pressure rise that reaches the inlets [-].
            propeller_share, "propeller_share": f64 = 0.3, Ratio,
                in 0.0, 1.0, likely Some((0.0, 0.6)), FromMemory,
                "Share of the propeller's pressure rise at the inlets",
                "blade roots do little work; about 0.1 with bare round shanks", if |_| true;
            /// The same share on the ground, at rest or taxiing [-].
            propeller_share_rest, "propeller_share_rest": f64 = 0.35, Ratio,
                in 0.0, 1.0, likely Some((0.2, 0.6)), Derived,
                "Share of the propeller's pressure rise at the inlets, on the ground",
                "three idle runs of one aircraft give 0.37 to 0.39", if |_| true;
            /// Induced drag over total drag in level flight [-].
            induced_share, "induced_share": f64 = 0.25, Ratio,
                in 0.0, 0.7, likely Some((0.15, 0.35)), FromMemory,
                "Induced share of the drag in cruise", "textbook cruise value", if |_| true;
            /// Spillage drag as a share of ½ρA₁(V₀ − V₁)² [-].
            spillage, "spillage": f64 = 0.2, Ratio,
                in 0.0, 1.0, likely Some((0.1, 0.4)), FromMemory,
                "Spillage drag share",
                "air turned away at an inlet that is too big; 1 is the bound for a sharp lip",
                if |_| true;
            /// Calibrated minus indicated airspeed.
            position_error, "position_error_m_s": Velocity = 0.0, Speed,
                in knot(-20.0), knot(20.0), likely None, Example,
                "Airspeed correction (calibrated minus indicated)", "flight test or manual",
                if |_| true;
            /// Share of the ram temperature rise that the OAT probe shows [-].
            oat_recovery, "oat_recovery": f64 = 0.0, Ratio,
                in 0.0, 1.0, likely None, Example,
                "OAT probe recovery", "0 if the indicator corrects it or the probe is shaded",
                if |_| true;
        }
    }
}
