//! State of the network: the unknowns, and everything that follows from them.

use crate::engine::bypass::Passing;
use crate::path::element::ExitFlow;
use crate::path::openings::MAX_OPENINGS;

/// Unknowns of the network.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Trial {
    /// Flow through the fins, kg/s, positive downward.
    pub fin_kg_s: f64,
    /// Flow through the cooler, kg/s, positive from its supply.
    pub cooler_kg_s: f64,
    /// Upper deck, Pa gauge.
    pub upper_pa: f64,
    /// Lower deck, Pa gauge.
    pub lower_pa: f64,
    /// Oil where it is hottest, K.
    pub oil_k: f64,
}

/// Number of unknowns.
pub(super) const UNKNOWNS: usize = 5;

/// Slopes of the balances by the unknowns, row by row.
pub(super) type Slopes = [[f64; UNKNOWNS]; UNKNOWNS];

/// Where a search begins.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Start {
    /// A trial.
    pub trial: Trial,
    /// The balances' slopes there, where a solution nearby has left them.
    pub(super) slopes: Option<Slopes>,
}

impl From<Trial> for Start {
    fn from(trial: Trial) -> Self {
        Self {
            trial,
            slopes: None,
        }
    }
}

/// One stream through a heated branch.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct HeatedFlow {
    /// Mass flow, kg/s, with the branch's sign.
    pub flow_kg_s: f64,
    /// Temperature before the branch, K.
    pub in_k: f64,
    /// Temperature behind the branch, K.
    pub out_k: f64,
    /// Heat taken up, W.
    pub heat_w: f64,
    /// Pressure used up at this flow, Pa, with the flow's sign.
    pub drop_pa: f64,
}

/// Everything that follows from a trial.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct State {
    /// The trial itself.
    pub trial: Trial,
    /// What follows from its flows, its oil and the cooler's air.
    pub terms: FlowTerms,
    /// Upper deck, K.
    pub upper_k: f64,
    /// Lower deck, K.
    pub lower_k: f64,
    /// Mean head, K.
    pub head_k: f64,
    /// Fins.
    pub fins: HeatedFlow,
    /// Cooler.
    pub cooler: HeatedFlow,
    /// Heat that the cooler's air picked up from the cylinder before it, W.
    pub preheat_w: f64,
    /// Each inlet, kg/s.
    pub inlets: [f64; MAX_OPENINGS],
    /// Seal leak, kg/s.
    pub seal_kg_s: f64,
    /// Blast tubes, kg/s.
    pub blast_kg_s: f64,
    /// Overboard leak, kg/s.
    pub overboard_kg_s: f64,
    /// Cabin air, kg/s.
    pub cabin_kg_s: f64,
    /// Inflow leak, kg/s, positive inward.
    pub inflow_kg_s: f64,
    /// Each exit.
    pub exits: [ExitFlow; MAX_OPENINGS],
    /// Jet of the cooler's own exit, m/s.
    pub cooler_jet_m_s: f64,
    /// Heat from the sump to the lower deck, W.
    pub sump_heat_w: f64,
    /// Heat through the cowl's skin, W.
    pub skin_heat_w: f64,
    /// Heat into the oil, W.
    pub oil_heat_w: f64,
    /// The two banks, where the upper deck is split.
    pub sides: Option<Sides>,
    /// What is left of the balances.
    pub residual: Residual,
}

/// The two halves of a split upper deck, and the banks below them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sides {
    /// Left.
    pub left: Side,
    /// Right.
    pub right: Side,
    /// From the left half to the right, kg/s.
    pub across_kg_s: f64,
}

/// A half of the upper deck and the bank below it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Side {
    /// Pressure above the bank, Pa gauge.
    pub upper_pa: f64,
    /// Through the bank's fins, kg/s.
    pub fin_kg_s: f64,
    /// Conductance of the whole engine's fins at the bank's flow, W/K.
    pub fin_w_k: f64,
    /// Mean head of the bank, K.
    pub head_k: f64,
    /// Air behind the bank's fins, K.
    pub rear_k: f64,
    /// Pressure used up in the bank's fins, Pa.
    pub drop_pa: f64,
}

/// What is left of each balance; all vanish in a solution.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Residual {
    /// Pressure across the fins not used up, Pa.
    pub fins_pa: f64,
    /// Pressure across the cooler not used up, Pa.
    pub cooler_pa: f64,
    /// Net flow into the upper deck, kg/s.
    pub upper_kg_s: f64,
    /// Net flow into the lower deck, kg/s.
    pub lower_kg_s: f64,
    /// Net heat into the oil, W.
    pub oil_w: f64,
}

/// What follows from the flows and the oil of a trial, and from the air that enters the cooler.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct FlowTerms {
    /// Conductance from the fins to the air, W/K.
    pub fin_w_k: f64,
    /// σΔp of the fins, Pa, with σ of the density behind them.
    pub fin_sigma_pa: f64,
    /// σΔp of the cooler's core, Pa, with σ of its mean specific volume.
    pub core_sigma_pa: f64,
    /// Oil through the pump, kg/s.
    pub pump_kg_s: f64,
    /// Share of the oil through the cooler, and the heat it gives up there.
    pub cooler: Passing,
}

impl FlowTerms {
    /// Oil through the cooler, kg/s.
    #[must_use]
    pub fn cooler_oil_kg_s(&self) -> f64 {
        self.cooler.share * self.pump_kg_s
    }
}
