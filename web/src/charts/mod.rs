//! Charts: answers in, figures out; drawn by plotters as SVG and coloured by the page's style.

pub mod canvas;
pub mod figure;
pub mod ladder;
pub mod shutter;

pub use figure::{Figure, Size};
