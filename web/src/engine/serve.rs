//! A worker's own side: hears a question, answers it.

use crate::engine::protocol::{Question, Said};
use crate::engine::task::Work;
use coolpath_core::answer::pieces::Pieces;
use std::cell::RefCell;
use std::future::Future;
use std::pin::Pin;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::{DedicatedWorkerGlobalScope, MessageEvent};

/// Work with the text it was told by.
type Prepared = Option<(String, Box<dyn Pieces>)>;

thread_local! {
    /// The work that was asked about last: it is prepared once for all of its pieces.
    static LAST: RefCell<Prepared> = const { RefCell::new(None) };
}

/// An answer that the part of the program that knows all work is fetched for.
pub type Answering = Pin<Box<dyn Future<Output = Said>>>;

/// The numbers that are asked for.
#[must_use]
pub fn answer(question: &Question) -> Said {
    let numbers = LAST.with_borrow_mut(|last| {
        let known = last.take().filter(|(text, _)| *text == question.work);
        let (_, work) = match known {
            Some(known) => last.insert(known),
            None => last.insert((question.work.clone(), begun(&question.work)?)),
        };
        let (_, all) = work.progress();
        if question.from > question.to || question.to > all {
            return Err("There are no such pieces.".to_owned());
        }
        Ok(work.numbers(question.from..question.to))
    });
    numbers.map_or_else(Said::Refused, Said::Numbers)
}

fn begun(text: &str) -> Result<Box<dyn Pieces>, String> {
    let work: Work = serde_json::from_str(text).map_err(|error| error.to_string())?;
    work.begin()
}

/// Serves as a worker from now on.
///
/// # Arguments
/// * `scope` - the worker's own
/// * `answering` - what answers a question
pub fn serve(scope: &DedicatedWorkerGlobalScope, answering: fn(Question) -> Answering) {
    let own = scope.clone();
    let on_message = Closure::<dyn FnMut(MessageEvent)>::new(move |event: MessageEvent| {
        let own = own.clone();
        spawn_local(async move {
            let said = match Question::came(&event.data()) {
                Some(question) => answering(question).await,
                None => Said::Refused("No question of this version.".to_owned()),
            };
            // What cannot be sent is missed by the page, which then works itself.
            let _ = own.post_message(&said.sent());
        });
    });
    scope.set_onmessage(Some(on_message.as_ref().unchecked_ref()));
    // It serves as long as the worker lives.
    on_message.forget();
    let _ = scope.post_message(&Said::Ready.sent());
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::task::Draws;
    use coolpath_core::document::example;

    #[test]
    fn a_question_is_answered_and_one_about_no_such_pieces_refused() {
        let work = |draws| {
            let design = example::design();
            let task = Draws {
                design,
                draws,
                seed: 1,
            };
            serde_json::to_string(&Work::from(task)).expect("a text")
        };
        let ask = |work: String, from, to| answer(&Question { work, from, to });
        let Said::Numbers(first) = ask(work(20), 0, 3) else {
            panic!("refused");
        };
        assert_eq!(first.len(), 3 * 6 * 4);
        // Of other work, and of the first again.
        assert!(matches!(ask(work(30), 29, 30), Said::Numbers(_)));
        assert_eq!(ask(work(20), 0, 3), Said::Numbers(first));
        for (from, to) in [(0, 21), (3, 2)] {
            assert!(matches!(ask(work(20), from, to), Said::Refused(_)));
        }
        assert!(matches!(ask("{}".to_owned(), 0, 1), Said::Refused(_)));
    }
}
