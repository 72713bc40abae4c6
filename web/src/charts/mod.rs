//! Charts: answers in, figures out; drawn by plotters as SVG and coloured by the page's style.

pub mod agreement;
pub mod canvas;
pub mod chances;
pub mod contour;
pub mod differences;
pub mod duct_lengths;
pub mod exit_sweep;
pub mod figure;
pub mod held;
pub mod inlet_recovery;
pub mod ladder;
mod line_ends;
pub mod lines;
pub mod plane;
pub mod save;
pub mod shutter;
mod standing_alone;
mod stretches;
pub mod sweeps;
pub mod table;
pub mod trace;
pub mod view;

pub use crate::charts::figure::{Figure, Size, column, room};
