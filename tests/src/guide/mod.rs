//! What the guide and the README say, beside what the core says: marked numbers, links, labels, named
//! functions.

pub mod figure;
mod jobs;
pub mod markup;
mod readings;
pub mod worked;
