//! Reads the tables in `reference/` and judges computed numbers against them.
//!
//! ```no_run
//! use coolpath_tests::table::{Table, compare};
//!
//! # fn impact_pressure_pa(cas_kt: f64) -> f64 { cas_kt }
//! compare("impact pressure follows from calibrated airspeed", |comparison| {
//!     for row in Table::read("airspeed").rows_where("quantity", "impact pressure") {
//!         comparison.row(&row, impact_pressure_pa(row.input("cas_kt")));
//!     }
//! });
//! ```

mod case;
mod comparison;
mod rows;
#[cfg(test)]
mod sample;
pub mod text;

pub use case::Case;
pub use comparison::{Comparison, Tolerance, compare};
pub use rows::{Row, Table, half_last_digit};
