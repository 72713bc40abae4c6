//! What page and workers say to each other.
//!
//! A worker is asked for the numbers of some pieces of work that falls into such, or to follow a course of steps up
//! to one of them. It answers with the numbers, with how far the course is or what it found, or with a sentence that
//! says why there is nothing. What it keeps of the work only saves time, no answer depends on it: whoever no longer
//! wants the work asks no more, and how far it is follows from the answers that came.

use crate::browser::language::Spoken;
use coolpath_core::language::tr;
use js_sys::{Array, Float64Array};
use wasm_bindgen::{JsCast, JsValue};

/// Version of what is said; page and worker run the same program, so that another one is a fault.
pub const VERSION: u32 = 2;

/// The part of the program that knows a work; a worker fetches it when it is first asked for.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Part {
    /// What is decided before a flight.
    #[default]
    Decisions,
    /// What a flight proves.
    Flights,
}

/// A question.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Question {
    /// Who knows the work.
    pub part: Part,
    /// The work, as its [`Kinds`](crate::engine::task::Kinds) write it.
    pub work: String,
    /// First of the pieces that are asked for; of a course, the steps that are known to be done.
    pub from: usize,
    /// First of the pieces behind them; of a course, the steps that are to be done.
    pub to: usize,
}

impl Question {
    /// As it is sent.
    #[must_use]
    pub fn sent(&self) -> JsValue {
        let parts: [JsValue; 5] = [
            VERSION.into(),
            (self.part as u32).into(),
            self.work.as_str().into(),
            (self.from as f64).into(),
            (self.to as f64).into(),
        ];
        Array::from_iter(parts).into()
    }

    /// As it came; `None` of what is no question of this version.
    #[must_use]
    pub fn came(data: &JsValue) -> Option<Self> {
        let parts: &Array = data.dyn_ref()?;
        let number = |at: u32| parts.get(at).as_f64();
        if number(0)? != f64::from(VERSION) {
            return None;
        }
        let named = |part: &Part| f64::from(*part as u32) == number(1).unwrap_or_default();
        Some(Self {
            part: [Part::Decisions, Part::Flights].into_iter().find(named)?,
            work: parts.get(2).as_string()?,
            from: number(3)? as usize,
            to: number(4)? as usize,
        })
    }
}

/// The language that a worker is to speak, as it is sent.
#[must_use]
pub fn language_sent(spoken: &Spoken) -> JsValue {
    Array::of2(&spoken.code.as_str().into(), &spoken.text.as_str().into()).into()
}

/// The language as it came; `None` of anything else.
#[must_use]
pub fn language_came(data: &JsValue) -> Option<Spoken> {
    let parts: &Array = data.dyn_ref()?;
    Some(Spoken {
        code: parts.get(0).as_string()?,
        text: parts.get(1).as_string()?,
    })
}

/// What a worker says.
#[derive(Debug, Clone, PartialEq)]
pub enum Said {
    /// It is ready to be asked.
    Ready,
    /// The numbers.
    Numbers(Vec<f64>),
    /// Steps of a course that are done, and steps in all.
    Progress(usize, usize),
    /// What a course found, as text.
    Found(String),
    /// Why there is nothing; the page then works itself, and says what it finds.
    Refused(String),
}

impl Said {
    /// As it is sent.
    #[must_use]
    pub fn sent(&self) -> JsValue {
        match self {
            Self::Ready => JsValue::from(VERSION),
            Self::Numbers(numbers) => Float64Array::from(numbers.as_slice()).into(),
            Self::Progress(done, all) => {
                Array::of2(&(*done as f64).into(), &(*all as f64).into()).into()
            }
            Self::Found(text) => Array::of1(&text.as_str().into()).into(),
            Self::Refused(why) => JsValue::from(why.as_str()),
        }
    }

    /// As it came.
    #[must_use]
    pub fn came(data: &JsValue) -> Self {
        if let Some(numbers) = data.dyn_ref::<Float64Array>() {
            return Self::Numbers(numbers.to_vec());
        }
        if let Some(parts) = data.dyn_ref::<Array>() {
            let steps = |at: u32| parts.get(at).as_f64().unwrap_or_default() as usize;
            return match parts.get(0).as_string() {
                Some(text) => Self::Found(text),
                None => Self::Progress(steps(0), steps(1)),
            };
        }
        match data.as_f64() {
            Some(version) if version == f64::from(VERSION) => Self::Ready,
            Some(version) => Self::Refused(tr!("an engine of version {}", version)),
            None => Self::Refused(data.as_string().unwrap_or_default()),
        }
    }
}
