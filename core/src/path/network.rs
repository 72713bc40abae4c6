//! What a cowl is, in plain numbers: the engine bay as a network of openings and branches.
//!
//! ```text
//!             ┌─────────────► fins ────────────┐
//! 0 ─► 1 ─► 2 ┼─ seal leak, blast tubes ───────┼─► 4 ─► 5 (exits)
//!    inlets   ├─ duct ► shutter ► cooler ──────┘
//!             └─ overboard, cabin, induction      4 ◄── inflow leak
//!                                                 4 ──► induction
//! ```

use crate::engine::bypass::Bypass;
use crate::engine::cooler::Conductance;
use crate::engine::cooler_pair::Cores;
use crate::engine::heads::{FinResistance, Heads};
use crate::path::element::{CoolerDuct, Exit, Inlet};
use crate::path::openings::Openings;
use crate::path::split_deck::Halves;

/// The undisturbed air and what the propeller adds.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct FreeStream {
    /// Static pressure, Pa absolute.
    pub pressure_pa: f64,
    /// Static temperature, K.
    pub temperature_k: f64,
    /// Total temperature, K.
    pub total_k: f64,
    /// Density, kg/m³.
    pub density: f64,
    /// True airspeed, m/s.
    pub speed_m_s: f64,
    /// Dynamic pressure ½ρV², Pa.
    pub dynamic_pa: f64,
    /// Impact pressure, Pa.
    pub impact_pa: f64,
    /// Rise in total pressure that the propeller gives the air that enters, Pa.
    pub propeller_rise_pa: f64,
}

/// A plain opening to the outside.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Opening {
    /// C_d A, m².
    pub effective_area_m2: f64,
    /// Pressure outside, Pa gauge.
    pub outside_pa: f64,
}

/// Where the cooler's air comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Supply {
    /// The upper deck.
    UpperDeck,
    /// An inlet of its own. The duct holds what is lost behind its lip.
    OwnInlet(Inlet),
}

/// Where the cooler's air goes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Discharge {
    /// The lower deck.
    LowerDeck,
    /// An exit of its own.
    OwnExit(Exit),
}

/// The oil cooler and its duct.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoolerBranch {
    /// Air side.
    pub duct: CoolerDuct,
    /// Heat transfer of one core.
    pub conductance: Conductance,
    /// The cores behind the duct.
    pub cores: Cores,
    /// Where its air comes from.
    pub supply: Supply,
    /// Where its air goes.
    pub discharge: Discharge,
    /// Share of its air that has passed a cylinder first [-].
    pub preheat_share: f64,
}

/// The oil's heat balance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OilLoop {
    /// Friction and piston heat that does not come through the heads, W.
    pub friction_heat_w: f64,
    /// Volume flow of the pump, m³/s.
    pub pump_m3_s: f64,
    /// Thermostatic bypass, if fitted.
    pub bypass: Option<Bypass>,
    /// Conductance sump → lower deck, W/K.
    pub sump_w_k: f64,
}

/// Everything about one installation in one condition, in SI units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cowl {
    /// Undisturbed air.
    pub stream: FreeStream,
    /// Inlets.
    pub inlets: Openings<Inlet>,
    /// How the upper deck is split; `None` for one deck over both banks.
    pub halves: Option<Halves>,
    /// Resistance of the fins.
    pub fins: FinResistance,
    /// Heat paths of the heads.
    pub heads: Heads,
    /// Seal leak upper → lower deck, C_d A, m².
    pub seal_m2: f64,
    /// Blast tubes upper → lower deck, C_d A, m².
    pub blast_m2: f64,
    /// Leak from the upper deck to the outside.
    pub overboard: Opening,
    /// Cabin heat and other air taken from the upper deck to the outside.
    pub cabin: Opening,
    /// Induction air taken from the upper deck, kg/s.
    pub induction_kg_s: f64,
    /// Induction air taken from the lower deck, kg/s.
    pub lower_induction_kg_s: f64,
    /// Leak from the outside into the lower deck.
    pub inflow: Opening,
    /// The oil cooler.
    pub cooler: CoolerBranch,
    /// Exits from the lower deck.
    pub exits: Openings<Exit>,
    /// Exhaust heat into the lower deck, W.
    pub exhaust_heat_w: f64,
    /// Conductance lower deck → outside through the cowl's skin, W/K.
    pub skin_w_k: f64,
    /// The oil's heat balance.
    pub oil: OilLoop,
}

impl Cowl {
    /// Pressures at the two ends of the cooler's branch, Pa gauge, first where it begins.
    #[must_use]
    pub(crate) fn cooler_ends(&self, upper_pa: f64, lower_pa: f64) -> (f64, f64) {
        let from = match self.cooler.supply {
            Supply::UpperDeck => upper_pa,
            Supply::OwnInlet(inlet) => inlet.ram_pa,
        };
        let to = match self.cooler.discharge {
            Discharge::LowerDeck => lower_pa,
            Discharge::OwnExit(exit) => exit.outside_pa,
        };
        (from, to)
    }

    /// What the engine breathes from the upper and from the lower deck, kg/s.
    pub(crate) fn drawn_kg_s(&self) -> [f64; 2] {
        [self.induction_kg_s, self.lower_induction_kg_s]
    }

    /// Lowest and highest pressure at the boundaries, Pa gauge.
    #[must_use]
    pub fn pressure_bounds(&self) -> (f64, f64) {
        let mut low = f64::INFINITY;
        let mut high = f64::NEG_INFINITY;
        let mut take = |pressure: f64| {
            low = low.min(pressure);
            high = high.max(pressure);
        };
        for inlet in self.inlets.as_slice() {
            take(inlet.ram_pa);
        }
        for exit in self.exits.as_slice() {
            take(exit.rest_pa());
        }
        for opening in [self.overboard, self.cabin, self.inflow] {
            if opening.effective_area_m2 > 0.0 {
                take(opening.outside_pa);
            }
        }
        if let Supply::OwnInlet(inlet) = self.cooler.supply {
            take(inlet.ram_pa);
        }
        if let Discharge::OwnExit(exit) = self.cooler.discharge {
            take(exit.outside_pa);
        }
        (low, high)
    }

    /// Pressure below which no deck can be, Pa gauge: next to nothing is left of the outside's.
    #[must_use]
    pub fn pressure_floor(&self) -> f64 {
        -0.9 * self.stream.pressure_pa
    }
}
