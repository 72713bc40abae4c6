//! What a person sees and does on the built page, in a real browser.

mod accessibility;
mod charts_and_habits;
mod decide;
mod drawing;
mod engine;
mod faults;
mod figures;
mod flight_test;
mod guide;
mod harness;
mod loading;
mod longer_texts;
mod main_job;
mod monkey;
mod next_flight;
mod paper;
mod saving;
mod sharing;
mod size_map;
mod views;
mod whole_flight;
