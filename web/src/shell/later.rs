//! A piece of the page whose program comes when it is first looked at.

use crate::browser::window;
use crate::shell::arrive::arrive;
use crate::shell::route::{View, route};
use coolpath_core::language::tr;
use std::future::Future;
use std::pin::Pin;
use std::time::Duration;
use yew::platform::{spawn_local, time::sleep};
use yew::prelude::*;

/// A piece of the page.
#[derive(Debug, Clone, PartialEq)]
pub enum Piece {
    /// A view.
    View(View),
    /// A picture of the first visit, of four cylinders or of six.
    Picture {
        /// Whether it is of six.
        six: bool,
    },
    /// The questions about one's own aircraft.
    Questions {
        /// Goes on to the page itself.
        begun: Callback<()>,
        /// Leaves the questions.
        leave: Callback<()>,
    },
    /// What is shared.
    Share,
}

impl Piece {
    /// What it is called.
    fn name(&self) -> &'static str {
        match self {
            Self::View(view) => view.name(),
            Self::Picture { .. } => tr("The picture"),
            Self::Questions { .. } => tr("My aircraft"),
            Self::Share => tr("Share"),
        }
    }
}

/// The program of a piece did not come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NotFetched;

/// A piece that is on its way.
pub type Coming = Pin<Box<dyn Future<Output = Result<Html, NotFetched>>>>;

/// What brings pieces.
pub type Fetch = Callback<Piece, Coming>;

/// Which piece, and what brings it.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// The piece.
    pub piece: Piece,
    /// What brings it.
    pub fetch: Fetch,
}

/// A piece as soon as its program is there.
#[function_component]
pub fn Later(props: &Props) -> Html {
    let come = use_state(|| None::<Result<Html, NotFetched>>);
    let fetch = {
        let (fetch, come) = (props.fetch.clone(), come.setter());
        use_callback(props.piece.clone(), move |(), piece| {
            let (coming, come) = (fetch.emit(piece.clone()), come.clone());
            come.set(None);
            spawn_local(async move {
                let piece = coming.await;
                // Its program has just been made ready; the picture of it is another task.
                sleep(Duration::ZERO).await;
                come.set(Some(piece));
            });
        })
    };
    {
        let fetch = fetch.clone();
        use_effect_with((), move |()| fetch.emit(()));
    }
    let view = match props.piece {
        Piece::View(view) => Some(view),
        _ => None,
    };
    // What the link leads to exists only now.
    use_effect_with(matches!(*come, Some(Ok(_))), move |here| {
        let leads_to = route(&window::fragment()).filter(|route| *here && Some(route.view) == view);
        if let Some(anchor) = leads_to.and_then(|route| route.anchor) {
            arrive(anchor);
        }
    });
    match &*come {
        None => html! { <p class="hint" role="status">{ tr("Loading…") }</p> },
        Some(Ok(piece)) => piece.clone(),
        // Beside its words a picture is no loss.
        Some(Err(NotFetched)) if matches!(props.piece, Piece::Picture { .. }) => Html::default(),
        Some(Err(NotFetched)) => html! {
            <p class="message" role="alert">
                { tr!("The rest of the program, which “{}” needs, could not be fetched. Nothing is lost; your design stays as it is. ", props.piece.name()) }
                <button type="button" onclick={move |_: MouseEvent| fetch.emit(())}>{ tr("Try again") }</button>
            </p>
        },
    }
}
