//! What the builder says: the design file, the table of its inputs, and what makes it fit to be evaluated.

pub mod alternative;
pub mod check;
pub mod condition;
pub mod design;
pub mod example;
pub mod fault;
pub(crate) mod flown;
mod group;
pub mod installation;
pub mod limits;
pub mod origin;
pub mod quantity;
pub mod reading;
pub mod renewed;
pub mod row;
pub mod table;
pub mod usual_condition;
mod written_input;
