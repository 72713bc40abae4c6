//! One worker, as the page sees it.

use crate::browser::language;
use crate::engine::protocol::{Question, Said, language_sent};
use coolpath_core::language::tr;
use js_sys::{Function, Promise, Reflect};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{MessageEvent, Worker};

/// Name of the loader's function that starts a worker with a compiled program.
const START: &str = "coolpathWorker";

/// What a worker does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum State {
    /// It is being started.
    Coming,
    /// It waits for a question.
    Free,
    /// It was asked.
    Asked,
    /// It does not work here, or no longer.
    Gone,
}

/// Where what it says is left for whoever asked.
#[derive(Default)]
struct Mailbox {
    said: RefCell<Option<Said>>,
    /// Wakes whoever waits.
    wake: RefCell<Option<Function>>,
}

impl Mailbox {
    fn put(&self, said: Said) {
        *self.said.borrow_mut() = Some(said);
        let wake = self.wake.borrow_mut().take();
        if let Some(wake) = wake {
            // Nobody can refuse what is resolved.
            let _ = wake.call0(&JsValue::NULL);
        }
    }
}

/// A worker.
pub struct Hand {
    worker: Worker,
    state: Rc<Cell<State>>,
    mailbox: Rc<Mailbox>,
    _on_message: Closure<dyn FnMut(MessageEvent)>,
    _on_error: Closure<dyn FnMut()>,
}

impl Hand {
    /// Starts one; `None` where the browser refuses workers, or the page has none.
    #[must_use]
    pub fn started() -> Option<Self> {
        let start: Function = Reflect::get(&js_sys::global(), &START.into())
            .ok()?
            .dyn_into()
            .ok()?;
        let started = start.call1(&JsValue::NULL, &wasm_bindgen::module()).ok()?;
        let worker: Worker = started.dyn_into().ok()?;
        let state = Rc::new(Cell::new(State::Coming));
        let mailbox: Rc<Mailbox> = Rc::default();
        let on_message = {
            let (state, mailbox) = (state.clone(), mailbox.clone());
            let worker = worker.clone();
            Closure::new(move |event: MessageEvent| {
                let said = Said::came(&event.data());
                // Before any question, which it answers with sentences.
                if let (Said::Ready, Some(spoken)) = (&said, language::spoken()) {
                    let _ = worker.post_message(&language_sent(&spoken));
                }
                // What it refuses later is one work, not all.
                state.set(match said {
                    Said::Refused(_) if state.get() == State::Coming => State::Gone,
                    _ => State::Free,
                });
                mailbox.put(said);
            })
        };
        let on_error = {
            let (state, mailbox) = (state.clone(), mailbox.clone());
            Closure::new(move || {
                state.set(State::Gone);
                mailbox.put(Said::Refused(tr("it stopped").to_owned()));
            })
        };
        worker.set_onmessage(Some(on_message.as_ref().unchecked_ref()));
        worker.set_onerror(Some(on_error.as_ref().unchecked_ref()));
        Some(Self {
            worker,
            state,
            mailbox,
            _on_message: on_message,
            _on_error: on_error,
        })
    }

    /// What it does.
    #[must_use]
    pub fn state(&self) -> State {
        self.state.get()
    }

    /// Asks it, which must be free, and waits for what it says.
    pub fn ask(&self, question: &Question) -> impl Future<Output = Said> + use<> {
        let mailbox = self.mailbox.clone();
        let woken = Promise::new(&mut |resolve, _| *mailbox.wake.borrow_mut() = Some(resolve));
        self.state.set(State::Asked);
        if self.worker.post_message(&question.sent()).is_err() {
            self.state.set(State::Gone);
            mailbox.put(Said::Refused(tr("it cannot be asked").to_owned()));
        }
        async move {
            // What wakes is resolved, never refused.
            let _ = JsFuture::from(woken).await;
            let said = mailbox.said.borrow_mut().take();
            said.unwrap_or_else(|| Said::Refused(tr("it said nothing").to_owned()))
        }
    }
}
