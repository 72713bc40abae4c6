//! Oil.

use crate::document::group::group;
use crate::units::si::{degf, l_min, psi};
use serde::{Deserialize, Serialize};
use uom::si::f64::{Pressure, ThermodynamicTemperature, VolumeRate};

/// Oil grade: what its viscosity is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Grade {
    /// Single grade 50.
    Sae50,
    /// Single grade 40.
    Sae40,
    /// Multigrade 20W-50.
    Multigrade20w50,
    /// Multigrade 15W-50.
    #[default]
    Multigrade15w50,
}

impl Grade {
    /// Viscosities at 40 and 100 °C, cSt (typical values, from memory).
    #[must_use]
    pub fn viscosities_cst(self) -> (f64, f64) {
        match self {
            Self::Sae50 => (215.0, 19.6),
            Self::Sae40 => (140.0, 14.6),
            Self::Multigrade20w50 => (165.0, 19.0),
            Self::Multigrade15w50 => (140.0, 19.4),
        }
    }
}

/// Where the oil gauge's probe sits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum OilProbe {
    /// In the hot oil, before the cooler or in the sump.
    BeforeCooler,
    /// Behind the cooler, where the oil enters the engine.
    #[default]
    AfterCooler,
}

impl OilProbe {
    /// Whether it sits behind the cooler.
    #[must_use]
    pub fn is_after_cooler(self) -> bool {
        self == Self::AfterCooler
    }
}

group! {
    /// Oil.
    pub struct Oil, "oil" {
        choices {
            /// Grade.
            grade: Grade = Grade::Multigrade15w50;
            /// Where the gauge's probe sits.
            probe: OilProbe = OilProbe::AfterCooler;
            /// A thermostatic bypass is fitted.
            thermostat: bool = true;
        }
        numbers {
            /// Heat into the oil over brake power at the known point [-].
            heat_share, "heat_share": f64 = 0.08, Ratio,
                in 0.01, 0.25, likely Some((0.055, 0.12)), Derived,
                "Heat into the oil over brake power",
                "without piston cooling jets: from six builders' oil temperatures; one six's logs \
                 ask for 0.11", if |_| true;
            /// The same with piston cooling jets [-].
            heat_share_jets, "heat_share_jets": f64 = 0.10, Ratio,
                in 0.01, 0.30, likely Some((0.07, 0.14)), FromMemory,
                "Heat into the oil over brake power, piston cooling jets",
                "a fiftieth of the power more than without; what the jets add is taken from the fins",
                if |_| true;
            /// Share of that heat that comes from the heads by conduction [-].
            conduction_share, "conduction_share": f64 = 0.70, Ratio,
                in 0.0, 1.0, likely Some((0.45, 0.85)), FromMemory,
                "Share of the oil's heat that comes from hot metal",
                "split from open flight logs: oil moves 0.3 to 0.4 °F per °F of head", if |_| true;
            /// Hot oil at the known point.
            reference_oil, "reference_oil_k": ThermodynamicTemperature = degf(215.0), Temperature,
                in degf(120.0), degf(300.0), likely Some((degf(195.0), degf(235.0))), FromMemory,
                "Hot oil at the known point", "usual temperature at rated power", if |_| true;
            /// Flow of the oil pump at rated speed.
            pump_flow, "pump_flow_m3_s": VolumeRate = l_min(16.0), OilFlow,
                in l_min(2.0), l_min(100.0), likely Some((l_min(11.0), l_min(24.0))), FromMemory,
                "Oil pump flow at rated speed", "what reaches the cooler, past the relief valve", if |_| true;
            /// Oil delivered at which the thermostat begins to send more oil through the cooler.
            thermostat_opens, "thermostat_opens_k": ThermodynamicTemperature = degf(170.0),
                Temperature,
                in degf(80.0), degf(260.0), likely Some((degf(160.0), degf(180.0))), CommonPractice,
                "Thermostat begins to open the cooler", "stamped on the valve or in the manual",
                if |oil| oil.thermostat;
            /// Oil delivered at which all oil goes through the cooler.
            thermostat_full, "thermostat_full_k": ThermodynamicTemperature = degf(190.0),
                Temperature,
                in degf(90.0), degf(290.0), likely Some((degf(183.0), degf(197.0))), CommonPractice,
                "Thermostat sends all oil through the cooler", "stamped on the valve or in the manual",
                if |oil| oil.thermostat;
            /// Share of the oil through the cooler with the thermostat cold [-].
            thermostat_leak, "thermostat_leak_share": f64 = 0.6, Ratio,
                in 0.0, 1.0, likely Some((0.2, 1.0)), Derived,
                "Share of the oil through the cooler with a cold thermostat",
                "the valve holds no firm minimum: one aircraft's logs, and reports of winter flying, \
                 show oil 90 to 100 °F above the outside air where the valve should be shut",
                if |oil| oil.thermostat;
            /// Conductance sump → lower deck, W/K.
            sump_conductance, "sump_conductance_w_per_k": f64 = 8.0, Conductance,
                in 0.0, 100.0, likely Some((3.0, 15.0)), FromMemory,
                "Heat from the sump's skin", "some 0.25 m² at 30 W/(m²·K)", if |_| true;
            /// Oil-side pressure drop of cooler and lines that is still acceptable.
            drop_limit, "drop_limit_pa": Pressure = psi(40.0), OilPressure,
                in psi(5.0), psi(200.0), likely None, Example,
                "Acceptable oil pressure drop in cooler and lines", "engine manual", if |_| true;
            /// Oil-side pressure drop at the cooler's rated point.
            rated_drop, "rated_drop_pa": Pressure = psi(8.0), OilPressure,
                in psi(0.2), psi(60.0), likely Some((psi(4.0), psi(15.0))), FromMemory,
                "Oil pressure drop of cooler and lines, hot, at rated oil flow",
                "the cooler's data sheet", if |_| true;
        }
    }
}

/// Id of the input that holds the heat into the oil, with or without piston cooling jets.
#[must_use]
pub fn oil_heat_share_id(jets: bool) -> &'static str {
    if jets {
        "oil.heat_share_jets"
    } else {
        "oil.heat_share"
    }
}
