//! Pieces of the page that stand in programs of their own, fetched when they are first looked at.

use coolpath_web::decide::view::DecideView;
use coolpath_web::design::bench::Bench;
use coolpath_web::engine::flight_task::FlightWork;
use coolpath_web::engine::protocol::{Part, Question, Said};
use coolpath_web::engine::serve::{Answering, NOT_FETCHED, answer};
use coolpath_web::engine::task::Work;
use coolpath_web::fly::FlightTest;
use coolpath_web::part;
use coolpath_web::report::panel::ReportPanel;
use coolpath_web::share::panel::ShareBody;
use coolpath_web::shell::first_use::Picture;
use coolpath_web::shell::later::{Coming, Fetch, NotFetched, Piece};
use coolpath_web::shell::questions::Questions;
use coolpath_web::shell::route::View;
use coolpath_web::workshop::view::WorkshopView;
use wasm_split_helpers::{SplitLoaderError, wasm_split};
use yew::prelude::*;

/// Why a piece is not here.
struct Failed;

impl From<SplitLoaderError> for Failed {
    fn from(_: SplitLoaderError) -> Self {
        Self
    }
}

#[wasm_split(design, fallible)]
fn design() -> Result<Html, Failed> {
    Ok(part!(Bench))
}

#[wasm_split(decide, fallible)]
fn decide() -> Result<Html, Failed> {
    Ok(part!(DecideView))
}

#[wasm_split(fly, fallible)]
fn fly() -> Result<Html, Failed> {
    Ok(part!(FlightTest))
}

#[wasm_split(paper, fallible)]
fn workshop() -> Result<Html, Failed> {
    Ok(part!(WorkshopView))
}

#[wasm_split(paper, fallible)]
fn report() -> Result<Html, Failed> {
    Ok(part!(ReportPanel))
}

#[wasm_split(design, fallible)]
fn picture(six: bool) -> Result<Html, Failed> {
    Ok(part!(Picture { six }))
}

#[wasm_split(design, fallible)]
fn questions(begun: Callback<()>, leave: Callback<()>) -> Result<Html, Failed> {
    Ok(part!(Questions { begun, leave }))
}

#[wasm_split(design, fallible)]
fn share() -> Result<Html, Failed> {
    Ok(part!(ShareBody))
}

#[wasm_split(engine, fallible)]
fn decided(question: Question) -> Result<Said, Failed> {
    Ok(answer::<Work>(&question))
}

#[wasm_split(fly, fallible)]
fn proved(question: Question) -> Result<Said, Failed> {
    Ok(answer::<FlightWork>(&question))
}

/// What answers a question in a worker.
pub fn answering(question: Question) -> Answering {
    Box::pin(async move {
        let came = match question.part {
            Part::Decisions => decided(question).await,
            Part::Flights => proved(question).await,
        };
        came.unwrap_or_else(|Failed| Said::Refused(NOT_FETCHED.to_owned()))
    })
}

/// What brings the pieces.
pub fn fetch() -> Fetch {
    Callback::from(|piece: Piece| -> Coming {
        Box::pin(async move {
            let come = match piece {
                Piece::View(View::Design) => design().await,
                Piece::View(View::Decide) => decide().await,
                Piece::View(View::Fly) => fly().await,
                Piece::View(View::Workshop) => workshop().await,
                Piece::View(View::Report) => report().await,
                Piece::Picture { six } => picture(six).await,
                Piece::Questions { begun, leave } => questions(begun, leave).await,
                Piece::Share => share().await,
            };
            come.map_err(|Failed| NotFetched)
        })
    })
}
