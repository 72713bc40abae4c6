//! What a person sees and does on the built page, in a real browser.

mod harness;
mod loading;
mod main_job;
