//! A worker's own side: hears a question, answers it.

use crate::browser::language;
use crate::engine::protocol::{Question, Said, language_came};
use crate::engine::task::{Begun, Kinds};
use coolpath_core::language::{tr, tr_later};
use std::cell::RefCell;
use std::future::Future;
use std::pin::Pin;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::{DedicatedWorkerGlobalScope, MessageEvent};

/// Works that are kept under way; each was told by its text. The one asked about last stands last.
const KEPT: usize = 4;

thread_local! {
    static UNDER_WAY: RefCell<Vec<(String, Begun)>> = const { RefCell::new(Vec::new()) };
}

/// What is answered where the part of the program that answers could not be fetched.
pub const NOT_FETCHED: &str = tr_later("The engine was not fetched.");

/// An answer that the part of the program that knows all work is fetched for.
pub type Answering = Pin<Box<dyn Future<Output = Said>>>;

/// What a question is answered by a part that knows these kinds of work.
#[must_use]
pub fn answer<K: Kinds>(question: &Question) -> Said {
    let known = UNDER_WAY.with_borrow_mut(|under_way| {
        let at = under_way
            .iter()
            .position(|(text, _)| *text == question.work)?;
        Some(under_way.remove(at).1)
    });
    let begun = known.map_or_else(|| begun::<K>(&question.work), Ok);
    let answered = begun.and_then(|mut begun| {
        let said = said(&mut begun, question)?;
        if !matches!(said, Said::Found(_)) {
            keep(question.work.clone(), begun);
        }
        Ok(said)
    });
    answered.unwrap_or_else(Said::Refused)
}

fn keep(text: String, begun: Begun) {
    UNDER_WAY.with_borrow_mut(|under_way| {
        under_way.push((text, begun));
        if under_way.len() > KEPT {
            under_way.remove(0);
        }
    });
}

fn begun<K: Kinds>(text: &str) -> Result<Begun, String> {
    let work: K = serde_json::from_str(text).map_err(|error| error.to_string())?;
    work.begin()
}

fn said(begun: &mut Begun, Question { from, to, .. }: &Question) -> Result<Said, String> {
    match begun {
        Begun::Pieces(pieces) => {
            let (_, all) = pieces.progress();
            if from > to || *to > all {
                return Err(tr("There are no such pieces.").to_owned());
            }
            Ok(Said::Numbers(pieces.numbers(*from..*to)))
        }
        Begun::Course(course) => loop {
            if let Some(found) = course.advance()? {
                return Ok(Said::Found(found));
            }
            let (done, all) = course.progress();
            if done >= *to || done < *from {
                return Ok(Said::Progress(done, all));
            }
        },
    }
}

/// Serves as a worker from now on.
///
/// # Arguments
/// * `scope` - the worker's own
/// * `answering` - what answers a question
pub fn serve(scope: &DedicatedWorkerGlobalScope, answering: fn(Question) -> Answering) {
    let own = scope.clone();
    let on_message = Closure::<dyn FnMut(MessageEvent)>::new(move |event: MessageEvent| {
        if let Some(spoken) = language_came(&event.data()) {
            // The page speaks it already, so that its file is right.
            let _ = language::speak(spoken);
            return;
        }
        let own = own.clone();
        spawn_local(async move {
            let said = match Question::came(&event.data()) {
                Some(question) => answering(question).await,
                None => Said::Refused(tr("No question of this version.").to_owned()),
            };
            // What cannot be sent is missed by the page, which then works itself.
            let _ = own.post_message(&said.sent());
        });
    });
    scope.set_onmessage(Some(on_message.as_ref().unchecked_ref()));
    // It serves as long as the worker lives.
    on_message.forget();
    let own = scope.clone();
    spawn_local(async move {
        // What answers is here before the page relies on it.
        let said = match answering(Question::default()).await {
            Said::Refused(why) if why == NOT_FETCHED => Said::Refused(why),
            _ => Said::Ready,
        };
        let _ = own.post_message(&said.sent());
    });
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::protocol::Part;
    use crate::engine::task::{Draws, Work};
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
        let ask = |work: String, from, to| {
            let part = Part::Decisions;
            answer::<Work>(&Question {
                part,
                work,
                from,
                to,
            })
        };
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
