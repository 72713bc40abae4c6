//! The air path through the cowl: its elements, the network they form, and the solver.

mod brackets;
pub mod butterfly;
pub mod decks;
pub mod drag;
pub mod element;
pub mod flow_terms;
pub mod loss;
pub mod network;
mod relaxed;
pub mod solve;
mod starts;
pub mod state;
