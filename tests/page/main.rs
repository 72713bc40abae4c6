//! What a person sees and does on the built page, in a real browser.

mod charts_and_habits;
mod harness;
mod loading;
mod main_job;
