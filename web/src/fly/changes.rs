//! "Change log": what was changed on the aircraft, one entry a change.

use crate::kit::controls::on_text;
use crate::kit::page::{use_dispatch, use_page};
use crate::state::readings::MOST_CHANGES;
use crate::state::{Action, ChangeEdit};
use coolpath_core::language::tr;
use yew::prelude::*;

/// The panel.
#[function_component]
pub fn ChangesPanel() -> Html {
    let changes = use_page(|page| page.design.changes.clone());
    let emit = use_dispatch().reform(Action::Change);
    let field = |(id, label): (&str, String),
                 text: &str,
                 edit: fn(usize, String) -> ChangeEdit,
                 place: usize| {
        let emit = emit.clone();
        let on_input = on_text(move |text| {
            emit.emit(edit(place, text));
        });
        html! { <input id={format!("{id}-{place}")} type="text" autocomplete="off" aria-label={label} value={text.to_owned()} oninput={on_input} /> }
    };
    html! {
        <details class="section" id="changes">
            <summary>{ tr("Change log") }</summary>
            <p class="hint">{ tr("One change at a time, each with its day, so that a set of readings can be told from the next. What may be changed, and who must sign for it, is for your operating limitations and local rules to say.") }</p>
            if !changes.is_empty() {
                <div class="scroll" tabindex="0" role="region" aria-label={tr("Change log")}>
                    <table>
                        <thead><tr><th scope="col">{ tr("Day") }</th><th scope="col">{ tr("What was changed") }</th><th scope="col"><span class="visually-hidden">{ tr("Remove") }</span></th></tr></thead>
                        <tbody>{ for changes.iter().enumerate().map(|(place, change)| html! {
                            <tr>
                                <td>{ field(("change-day", tr!("Day of change {}", place + 1)), &change.day, ChangeEdit::Day, place) }</td>
                                <td class="wide">{ field(("change-what", tr!("Change {}", place + 1)), &change.what, ChangeEdit::What, place) }</td>
                                <td><button type="button" class="quiet" onclick={emit.reform(move |_: MouseEvent| ChangeEdit::Remove(place))} aria-label={tr!("Remove change {}", place + 1)}>{ tr("Remove") }</button></td>
                            </tr>
                        }) }</tbody>
                    </table>
                </div>
            }
            <div class="buttons"><button type="button" disabled={changes.len() >= MOST_CHANGES} onclick={emit.reform(|_: MouseEvent| ChangeEdit::Add)}>{ tr("Add a change") }</button></div>
        </details>
    }
}
