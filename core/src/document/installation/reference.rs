//! The known point that heads and fins are scaled from.

use crate::document::group::group;
use crate::units::si::{degf, foot, hp, inh2o, knot, lb_s, lb_s_hp};
use serde::{Deserialize, Serialize};
use uom::si::f64::{Length, MassRate, Power, Pressure, ThermodynamicTemperature, Velocity};

/// Where the known point comes from, best first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ReferenceKind {
    /// The engine maker's cooling chart.
    Chart,
    /// The builder's own readings in flight.
    Readings,
    /// A generic air-cooled flat engine of this power.
    #[default]
    Generic,
}

/// Which density a cooling chart's pressure drop is stated at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ChartDensity {
    /// σΔp with the density before the fins.
    #[default]
    Front,
    /// σΔp with the density behind the fins.
    Rear,
    /// Δp as a gauge reads it at the chart's altitude and air temperature.
    AsMeasured,
}

const GENERIC: fn(&Reference) -> bool = |point| point.kind == ReferenceKind::Generic;
const CHART: fn(&Reference) -> bool = |point| point.kind == ReferenceKind::Chart;
const READINGS: fn(&Reference) -> bool = |point| point.kind == ReferenceKind::Readings;
const FLOW_GUESSED: fn(&Reference) -> bool = |point| point.kind != ReferenceKind::Chart;

group! {
    /// The known point.
    pub struct Reference, "reference" {
        choices {
            /// Where it comes from.
            kind: ReferenceKind = ReferenceKind::Generic;
            /// Density convention of the chart.
            chart_density: ChartDensity = ChartDensity::Front;
        }
        numbers {
            /// Fin heat over fuel heat [-].
            fin_heat_share, "fin_heat_share": f64 = 0.17, Ratio,
                in 0.05, 0.35, likely Some((0.14, 0.20)), Published,
                "Share of the fuel's heat that leaves through the fins",
                "FAA-H-8083-32, Aviation Maintenance Technician Handbook, Powerplant, ch. 1: \
                 15 to 20 %, read second-hand",
                if |_| true;
            /// Effective gas temperature at the generic point.
            gas_temperature, "gas_temperature_k": ThermodynamicTemperature = degf(1152.0),
                Temperature,
                in degf(800.0), degf(1500.0), likely Some((degf(1100.0), degf(1200.0))), FromMemory,
                "Effective gas temperature at a mixture of 1.2 and an 80 °F charge",
                "open flight logs; NACA reports of radial engines give about 1150 °F", if |_| true;
            /// Mean head of a generic engine of up to four cylinders.
            head, "head_k": ThermodynamicTemperature = degf(390.0), Temperature,
                in degf(300.0), degf(550.0), likely Some((degf(355.0), degf(425.0))), Derived,
                "Mean head of a generic four at rated power, best-power mixture and 100 °F air",
                "fitted to reports of a dozen installations; the spread between them is the range",
                if |_| true;
            /// Mean head of a generic engine of six or more cylinders.
            head_six, "head_six_k": ThermodynamicTemperature = degf(405.0), Temperature,
                in degf(300.0), degf(550.0), likely Some((degf(368.0), degf(442.0))), Derived,
                "Mean head of a generic six at rated power, best-power mixture and 100 °F air",
                "fitted to reports of a dozen installations; the spread between them is the range",
                if |_| true;
            /// Air before the fins at the generic point.
            air, "air_k": ThermodynamicTemperature = degf(100.0), Temperature,
                in degf(-40.0), degf(150.0), likely None, Derived,
                "Air at the known point", "hot day at sea level", if GENERIC;
            /// Air flow through the fins per rated power.
            flow_per_power, "flow_kg_j": f64 = lb_s_hp(0.0147), AirPerPower,
                in lb_s_hp(0.006), lb_s_hp(0.03),
                likely Some((lb_s_hp(0.011), lb_s_hp(0.017))), FromMemory,
                "Air through the fins per rated power", "generic; replace it with your engine's chart",
                if FLOW_GUESSED;
            /// σΔp behind the fins at the generic point, four cylinders.
            drop_four, "drop_four_cylinders_pa": Pressure = inh2o(4.2), Pressure,
                in inh2o(1.5), inh2o(15.0), likely Some((inh2o(3.5), inh2o(5.5))), FromMemory,
                "Fin pressure drop at the known point, four cylinders, at standard density",
                "about 5.5 inH₂O as measured at sea level on a hot day", if FLOW_GUESSED;
            /// σΔp behind the fins at the generic point, six cylinders.
            drop_six, "drop_six_cylinders_pa": Pressure = inh2o(5.3), Pressure,
                in inh2o(1.5), inh2o(15.0), likely Some((inh2o(4.5), inh2o(7.0))), FromMemory,
                "Fin pressure drop at the known point, six cylinders, at standard density",
                "about 7 inH₂O as measured at sea level on a hot day", if FLOW_GUESSED;
            /// Exponent of flow in the fins' pressure drop [-].
            drop_exponent, "drop_exponent": f64 = 1.8, Ratio,
                in 1.4, 2.1, likely Some((1.7, 2.0)), Library,
                "Exponent of flow in the fins' pressure drop",
                "between laminar and rough-pipe flow; NACA fin tests", if |_| true;
            /// Slope of ln conductance over ln flow at the known point [-].
            conductance_slope, "conductance_slope": f64 = 0.60, Ratio,
                in 0.35, 0.9, likely Some((0.56, 0.64)), Published,
                "Growth of fin conductance with flow",
                "Schey & Pinkel, Effect of several factors on the cooling of a radial engine in \
                 flight, NACA TN 584, 1936: head minus air falls as flow^0.39", if |_| true;
            /// Air flow of the chart point.
            chart_flow, "chart_flow_kg_s": MassRate = lb_s(2.0), MassFlow,
                in lb_s(0.2), lb_s(12.0), likely None, Example,
                "Chart: cooling air flow", "the engine maker's cooling chart", if CHART;
            /// Pressure drop of the chart point.
            chart_drop, "chart_drop_pa": Pressure = inh2o(5.0), Pressure,
                in inh2o(0.5), inh2o(25.0), likely None, Example,
                "Chart: pressure drop", "the engine maker's cooling chart", if CHART;
            /// Power of the chart point.
            chart_power, "chart_power_w": Power = hp(150.0), Power,
                in hp(15.0), hp(500.0), likely None, Example,
                "Chart: power", "the engine maker's cooling chart", if CHART;
            /// Head of the chart point.
            chart_head, "chart_head_k": ThermodynamicTemperature = degf(435.0), Temperature,
                in degf(200.0), degf(550.0), likely None, Example,
                "Chart: head temperature", "the engine maker's cooling chart", if CHART;
            /// Air before the fins of the chart point.
            chart_air, "chart_air_k": ThermodynamicTemperature = degf(100.0), Temperature,
                in degf(-60.0), degf(150.0), likely None, Example,
                "Chart: cooling air temperature", "the engine maker's cooling chart", if CHART;
            /// Pressure altitude of the chart point.
            chart_altitude, "chart_altitude_m": Length = 0.0, Altitude,
                in foot(-1000.0), foot(25000.0), likely None, Example,
                "Chart: pressure altitude", "the engine maker's cooling chart", if CHART;
            /// Mixture of the chart point, equivalence ratio [-].
            chart_mixture, "chart_mixture_phi": f64 = 1.6, Ratio,
                in 0.8, 2.2, likely Some((1.30, 1.75)), FromMemory,
                "Chart: mixture, fuel over stoichiometric", "charts are made at full rich",
                if CHART;
            /// Measured drop across the fins.
            reading_drop, "reading_drop_pa": Pressure = inh2o(5.0), Pressure,
                in inh2o(0.5), inh2o(25.0), likely Some((inh2o(4.7), inh2o(5.3))), Example,
                "Reading: Δp across the cylinders", "water U-tube or indicator across the baffles",
                if READINGS;
            /// Mean head measured.
            reading_head, "reading_head_k": ThermodynamicTemperature = degf(390.0), Temperature,
                in degf(200.0), degf(550.0), likely Some((degf(385.0), degf(395.0))), Example,
                "Reading: mean of the head temperatures", "all cylinders, steady", if READINGS;
            /// Power at the reading.
            reading_power, "reading_power_w": Power = hp(112.0), Power,
                in hp(10.0), hp(500.0), likely Some((hp(106.0), hp(118.0))), Example,
                "Reading: power", "power chart of the manual", if READINGS;
            /// Outside air at the reading.
            reading_oat, "reading_oat_k": ThermodynamicTemperature = degf(60.0), Temperature,
                in degf(-60.0), degf(130.0), likely None, Example,
                "Reading: OAT", "corrected OAT", if READINGS;
            /// Pressure altitude at the reading.
            reading_altitude, "reading_altitude_m": Length = foot(5000.0), Altitude,
                in foot(-1000.0), foot(25000.0), likely None, Example,
                "Reading: pressure altitude", "altimeter on 29.92", if READINGS;
            /// Mixture at the reading, equivalence ratio [-].
            reading_mixture, "reading_mixture_phi": f64 = 1.2, Ratio,
                in 0.6, 2.2, likely Some((1.15, 1.25)), FromMemory,
                "Reading: mixture, fuel over stoichiometric", "1.6 full rich, 1.2 best power, 1.05 peak EGT",
                if READINGS;
            /// Airspeed at the reading.
            reading_airspeed, "reading_airspeed_m_s": Velocity = knot(120.0), Speed,
                in 0.0, knot(280.0), likely None, Example,
                "Reading: airspeed", "it warms the air before the fins by a few degrees", if READINGS;
            /// Engine speed at the reading.
            reading_rpm, "reading_rpm": f64 = 2400.0, RotationalSpeed,
                in 500.0, 4500.0, likely None, Example,
                "Reading: engine speed", "tachometer", if READINGS;
            /// Oil at the gauge at the reading.
            reading_oil, "reading_oil_k": ThermodynamicTemperature = degf(190.0), Temperature,
                in degf(60.0), degf(320.0), likely Some((degf(185.0), degf(195.0))), Example,
                "Reading: oil temperature", "gauge, steady", if READINGS;
        }
    }
}
