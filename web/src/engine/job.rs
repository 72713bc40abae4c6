//! Long work of a panel, shared among the workers, or done on the page where there are none.

use crate::browser::job::{End, Run};
use crate::engine::hand::State;
use crate::engine::pool::{Turn, ask, best, count};
use crate::engine::protocol::{Part, Question, Said};
use crate::engine::task::{Course, Going, Kinds, Task};
use crate::kit::short_tasks::Pace;
use crate::state::json;
use coolpath_core::answer::pieces::Pieces;
use serde::de::DeserializeOwned;
use std::cell::{Cell, RefCell};
use std::ops::Range;
use std::rc::Rc;
use std::time::Duration;
use yew::platform::{spawn_local, time::sleep};

/// Questions that a piece of work is divided into.
const QUESTIONS: usize = 40;
/// Pieces that the page does between two looks at the clock.
const STEP: usize = 4;
/// How long to wait before looking again whether a worker has come or has said something.
const SOON: Duration = Duration::from_millis(4);

/// How often work in steps, which cannot change hands, looks whether a worker has come.
const LOOKS: usize = 100;

/// Work under way: what is still to be asked for, and what came before its turn.
#[derive(Default)]
struct Board {
    left: RefCell<Vec<Range<usize>>>,
    came: RefCell<Vec<(usize, Vec<f64>)>>,
    /// Questions that workers have.
    asked: Cell<usize>,
    /// Nobody waits for it any more.
    closed: Cell<bool>,
}

impl Board {
    /// All pieces, in questions of equal size.
    fn of(all: usize) -> Rc<Self> {
        let size = all.div_ceil(QUESTIONS).max(1);
        let blocks = (0..all)
            .step_by(size)
            .map(|from| from..all.min(from + size));
        let board = Self::default();
        // Taken from its end.
        *board.left.borrow_mut() = blocks.rev().collect();
        Rc::new(board)
    }

    fn next(&self) -> Option<Range<usize>> {
        self.left.borrow_mut().pop()
    }

    fn give_back(&self, pieces: Range<usize>) {
        self.left.borrow_mut().push(pieces);
    }

    fn put(&self, pieces: Range<usize>, numbers: Vec<f64>) {
        self.came.borrow_mut().push((pieces.start, numbers));
    }

    /// Gives the work what has come of the pieces whose turn it is.
    fn hand_over(&self, work: &mut impl Pieces) {
        let mut came = self.came.borrow_mut();
        loop {
            let (done, _) = work.progress();
            let Some(at) = came.iter().position(|(from, _)| *from == done) else {
                return;
            };
            work.take(&came.swap_remove(at).1);
        }
    }
}

/// Nobody asks for pieces of work that was abandoned.
struct Closing(Rc<Board>);

impl Drop for Closing {
    fn drop(&mut self) {
        self.0.closed.set(true);
    }
}

/// Does a piece of work to its end, telling how far it is.
///
/// The page works itself until the first worker is there, and where none comes; the result is the same to the bit.
///
/// # Errors
/// The work was abandoned, or it cannot be done.
pub async fn done<T: Task, D: 'static>(
    task: T,
    run: &Run<(usize, usize), D>,
) -> Result<T::Begun, End> {
    let mut work = task.begin()?;
    let (_, all) = work.progress();
    run.tell((0, all));
    run.rest().await?;
    let board = Board::of(all);
    let _closing = Closing(board.clone());
    let (part, work_text) = told(&task.into())?;
    for worker in 0..count() {
        spawn_local(keep_asking(worker, part, work_text.clone(), board.clone()));
    }
    let mut pace = Pace::begun();
    let mut told = 0;
    loop {
        board.hand_over(&mut work);
        let (done, _) = work.progress();
        if done == all {
            return Ok(work);
        }
        if done > told {
            told = done;
            run.tell((done, all));
        }
        if board.asked.get() > 0 {
            run.wait(SOON).await?;
        } else if let Some(pieces) = board.next() {
            let mine = pieces.start..pieces.end.min(pieces.start + STEP);
            if mine.end < pieces.end {
                board.give_back(mine.end..pieces.end);
            }
            board.put(mine.clone(), work.numbers(mine));
            run.breathe(&mut pace).await?;
        }
    }
}

/// Follows a course to its end, telling how far it is.
///
/// The page follows it itself where no worker comes, or one stops; what is found is the same to the bit.
///
/// # Errors
/// The work was abandoned, or it cannot be done.
pub async fn followed<C: Course + Clone, D: 'static>(
    course: C,
    run: &Run<(usize, usize), D>,
) -> Result<Found<C>, End> {
    run.tell((0, 0));
    run.rest().await?;
    let (part, work) = told::<C::Kind>(&course.clone().into())?;
    if let Some(found) = followed_beside(part, &work, run).await? {
        return Ok(found);
    }
    let mut going = course.begin()?;
    let mut pace = Pace::begun();
    loop {
        if let Some(found) = Going::advance(&mut going)? {
            return Ok(found);
        }
        if run.breathe(&mut pace).await? {
            run.tell(Going::progress(&going));
        }
    }
}

/// A work as a worker is told of it, and the part that knows it.
fn told<K: Kinds>(work: &K) -> Result<(Part, String), String> {
    let text = json::text(work).map_err(|error| error.to_string())?;
    Ok((K::PART, text))
}

/// What a course finds.
type Found<C> = <<C as Course>::Going as Going>::Found;

/// Follows a course in one of the workers; `None` where none of them can, or can no longer.
async fn followed_beside<F: DeserializeOwned, D: 'static>(
    part: Part,
    work: &str,
    run: &Run<(usize, usize), D>,
) -> Result<Option<F>, End> {
    let Some(worker) = one_worker(run).await? else {
        return Ok(None);
    };
    let (mut done, mut steps) = (0, 1);
    loop {
        let question = Question {
            part,
            work: work.to_owned(),
            from: done,
            to: done + steps,
        };
        match ask(worker, &question) {
            Turn::Asked(said) => match said.await {
                Said::Progress(so_far, all) => {
                    // A page that is busy meanwhile is not waited for at each step.
                    (done, steps) = (so_far, all.div_ceil(QUESTIONS).max(1));
                    run.goes_on()?;
                    run.tell((done, all));
                }
                Said::Found(text) => {
                    run.goes_on()?;
                    return Ok(serde_json::from_str(&text).ok());
                }
                Said::Ready | Said::Numbers(_) | Said::Refused(_) => return Ok(None),
            },
            Turn::Later => run.wait(SOON).await?,
            Turn::Never => return Ok(None),
        }
    }
}

/// A worker that has come, waited for a moment.
async fn one_worker<D: 'static>(run: &Run<(usize, usize), D>) -> Result<Option<usize>, End> {
    count();
    for _ in 0..LOOKS {
        match best() {
            Some((at, State::Free | State::Asked)) => return Ok(Some(at)),
            Some(_) => run.wait(SOON).await?,
            None => return Ok(None),
        }
    }
    Ok(None)
}

/// Asks a worker for pieces as long as some are left.
async fn keep_asking(worker: usize, part: Part, work: String, board: Rc<Board>) {
    while !board.closed.get() {
        let Some(pieces) = board.next() else {
            return;
        };
        let question = Question {
            part,
            work: work.clone(),
            from: pieces.start,
            to: pieces.end,
        };
        match ask(worker, &question) {
            Turn::Asked(said) => {
                board.asked.set(board.asked.get() + 1);
                let said = said.await;
                board.asked.set(board.asked.get() - 1);
                match said {
                    Said::Numbers(numbers) => board.put(pieces, numbers),
                    // The page does it, and says what it finds.
                    _ => return board.give_back(pieces),
                }
            }
            Turn::Later => {
                board.give_back(pieces);
                sleep(SOON).await;
            }
            Turn::Never => return board.give_back(pieces),
        }
    }
}
