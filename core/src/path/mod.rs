//! The air path through the cowl: its elements, the network they form, and the solver.

mod balance;
mod banks;
mod brackets;
pub mod budget;
pub mod butterfly;
pub mod drag;
pub mod ejector;
pub mod element;
pub mod fin_core;
mod flow_terms;
mod halves;
pub mod inlet_map;
pub mod loss;
pub mod network;
mod newton;
pub mod openings;
mod relaxed;
pub mod report;
pub mod solve;
pub mod split_deck;
mod starts;
pub mod state;
