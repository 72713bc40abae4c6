//! What is drawn a task later, so that a long picture does not come in one piece.

use std::time::Duration;
use yew::platform::{spawn_local, time::sleep};
use yew::prelude::*;

/// What comes.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// How many tasks of the browser come before it.
    #[prop_or(1)]
    pub after: u32,
    /// It; components, which do their work where they are drawn.
    pub children: Children,
}

/// What is drawn once the browser has had time to answer; from then on it follows at once.
#[function_component]
pub fn Soon(props: &Props) -> Html {
    let has_come = use_state_eq(|| false);
    {
        let (has_come, after) = (has_come.setter(), props.after);
        use_effect_with((), move |()| {
            spawn_local(async move {
                for _ in 0..after {
                    sleep(Duration::ZERO).await;
                }
                has_come.set(true);
            });
        });
    }
    if *has_come {
        html! { <>{ props.children.clone() }</> }
    } else {
        Html::default()
    }
}
