//! "Log": an engine monitor's file, read on this machine.

use crate::browser::job::use_job;
use crate::fly::log::columns::Columns;
use crate::fly::log::job;
use crate::fly::log::job::{Opened, Picked};
use crate::fly::log::stretches::SessionView;
use crate::kit::controls::{option_field, use_unfolding};
use crate::kit::page::{use_dispatch, use_notify, use_page};
use crate::kit::shared::Shared;
use crate::part;
use crate::state::{Action, ReadingEdit};
use coolpath_core::document::design::Design;
use coolpath_core::document::quantity::Quantity;
use coolpath_core::document::reading::{Reading, Used};
use coolpath_core::language::{counted, tr};
use coolpath_core::prove::log::{ColumnUse, Encoding, Layout, Separator};
use coolpath_core::units::typed::{bare_number, rounded_text};
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// The panel.
#[function_component]
pub fn LogPanel() -> Html {
    let (system, width, dropped) =
        use_page(|page| (page.system(), page.width, page.dropped.clone()));
    let (design, notify) = (use_page(|page| page.design.clone()), use_notify());
    let chosen = use_state(|| None::<Used>);
    let dispatch = use_dispatch();
    let job = use_job::<f64, Shared<Opened>>();
    let session = use_state(|| 0_usize);
    let added = use_state(|| 0_usize);
    let (open, on_toggle) = use_unfolding();
    let anew = {
        let (session, added) = (session.setter(), added.setter());
        Callback::from(move |()| {
            session.set(0);
            added.set(0);
        })
    };
    // A later reading stops an earlier one.
    let read = {
        let (job, anew) = (job.clone(), anew.clone());
        Callback::from(
            move |(picked, encoding, layout): (Picked, Encoding, Layout)| {
                anew.emit(());
                job.start(|run| async move {
                    let opened = job::read(picked, encoding, Some(layout), &run).await?;
                    Ok(Shared::new(opened))
                });
            },
        )
    };
    let pick = {
        let job = job.clone();
        Callback::from(move |file: web_sys::File| {
            let anew = anew.clone();
            job.start(|run| async move {
                let picked = Picked::of(file)?;
                let guessed = picked.guessed().await?;
                anew.emit(());
                let opened = job::read(picked, guessed, None, &run).await?;
                Ok(Shared::new(opened))
            });
        })
    };
    {
        let (pick, open) = (pick.clone(), open.clone());
        use_effect_with(dropped, move |dropped| {
            if let Some(file) = dropped {
                open.set(true);
                pick.emit(file.clone());
            }
        });
    }
    let on_file = on_picked(pick);
    // Changes something about a log that was read, and cuts it anew.
    let change = {
        let job = job.clone();
        Callback::from(move |mut next: Opened| {
            job.start(|run| async move {
                next.cut(&run).await?;
                Ok(Shared::new(next))
            });
        })
    };
    // Once a fit stands in the design, the next flight is there to check it.
    let used = (*chosen).unwrap_or_else(|| usual_use(&design));
    let on_add = {
        let (added, design) = (added.clone(), design.clone());
        Callback::from(move |readings: Vec<Reading>| {
            let (fresh, words) = fresh(&design, readings, used);
            words.into_iter().for_each(|words| notify.emit(words));
            added.set(*added + fresh.len());
            dispatch.emit(Action::Reading(ReadingEdit::AddAll(fresh)));
        })
    };
    html! {
        <details class="section" id="log" open={*open} ontoggle={on_toggle}>
            <summary>{ tr("Log of an engine monitor") }</summary>
            <p class="hint">{ tr("Any text file with one record a line. It is read on this machine and goes nowhere. Drop it on the page or choose it; columns, units and separators are guessed and can be changed.") }</p>
            <div class="buttons">
                <label class="button" for="log-file">{ tr("Choose a log") }</label>
                <input id="log-file" class="visually-hidden" type="file" accept=".csv,.txt,.tsv,.log,text/*" onchange={on_file} />
            </div>
            <div aria-live="polite">
                { job.told(|progress| html! {
                    <p><progress value={progress.to_string()} max="1" aria-label={tr("Reading the log")} />{ tr(" Reading") }</p>
                }) }
                { job.done().map(|opened| was_read(opened, *added)) }
            </div>
            if let Some(opened) = job.done() {
                { layout(opened, &read, &change) }
                { part!(Columns { opened: opened.clone(), change: change.clone() }) }
                { sessions(opened, &session) }
                { used_for(used, &chosen) }
                { part!(SessionView { opened: opened.clone(), session: *session, system, width, on_add, on_leave: left_out(opened, &change) }) }
            }
        </details>
    }
}

fn usual_use(design: &Design) -> Used {
    if design.calibrated.is_empty() {
        Used::Fit
    } else {
        Used::CheckOnly
    }
}

/// Those of some readings that a design has not yet, to be used so, and what is to be said of the others.
fn fresh(
    design: &Design,
    mut readings: Vec<Reading>,
    used: Used,
) -> (Vec<Reading>, Option<String>) {
    let is_there = |reading: &Reading| {
        let mut own = design.readings.iter();
        own.any(|other| other.log == reading.log && other.moments == reading.moments)
    };
    let before = readings.len();
    readings.retain(|reading| !is_there(reading));
    for reading in &mut readings {
        reading.use_for(used);
    }
    let words = (readings.len() < before)
        .then(|| tr("What is among the readings already was not added again.").to_owned());
    (readings, words)
}

/// What choosing a file does.
fn on_picked(pick: Callback<web_sys::File>) -> Callback<Event> {
    Callback::from(move |event: Event| {
        let Some(element) = event.target_dyn_into::<HtmlInputElement>() else {
            return;
        };
        let file = element.files().and_then(|files| files.get(0));
        element.set_value("");
        if let Some(file) = file {
            pick.emit(file);
        }
    })
}

/// What was read, and how much of it was added to the readings.
fn was_read(opened: &Opened, added: usize) -> Html {
    html! {
        <p>{ tr!("{}: {} rows, {} columns, {}.", opened.picked.name, opened.table.rows, opened.table.columns.len(),
            if opened.sessions.len() == 1 { tr("one session").to_owned() } else { tr!("{} sessions", opened.sessions.len()) }) }
            if added > 0 { { tr!(" {} added to the readings.", if added == 1 { tr("One stretch").to_owned() } else { tr!("{} stretches", added) }) } }
        </p>
    }
}

type Read = Callback<(Picked, Encoding, Layout)>;

const ENCODINGS: [Encoding; 4] = [
    Encoding::Utf8,
    Encoding::Utf16Le,
    Encoding::Utf16Be,
    Encoding::Latin1,
];
/// Most rows of header that can be chosen.
const MOST_HEADER: usize = 12;

fn layout(opened: &Shared<Opened>, read: &Read, change: &Callback<Opened>) -> Html {
    let place = |found: Option<usize>| found.unwrap_or(0);
    let again = {
        let (opened, read) = (opened.clone(), read.clone());
        move |encoding: Encoding, layout: Layout| {
            read.emit((opened.picked.clone(), encoding, layout));
        }
    };
    let current = opened.layout;
    let on_row = {
        let (opened, change) = (opened.clone(), change.clone());
        Callback::from(move |event: Event| {
            let seconds = event
                .target_dyn_into::<HtmlInputElement>()
                .and_then(|element| bare_number(&element.value()))
                .filter(|seconds| (0.01..=600.0).contains(seconds));
            if let Some(row_s) = seconds {
                change.emit(Opened {
                    row_s,
                    ..(*opened).clone()
                });
            }
        })
    };
    let (of_encoding, of_separator, of_decimal, of_header) =
        (again.clone(), again.clone(), again.clone(), again);
    let encoding = opened.encoding;
    html! {
        <details>
            <summary>{ tr!("How it was read: {}, {} between the cells, decimal {}", counted(current.header_rows, "header row", "header rows"), current.separator.name(), if current.decimal_comma { tr("comma") } else { tr("point") }) }</summary>
            <div class="fields">
                { option_field("log-encoding", tr("Characters"), ENCODINGS.map(|encoding| encoding.label().to_owned()),
                    place(ENCODINGS.iter().position(|other| *other == encoding)),
                    move |at| of_encoding(ENCODINGS[at], current)) }
                { option_field("log-separator", tr("Between the cells"), Separator::ALL.map(|separator| separator.name().to_owned()),
                    place(Separator::ALL.iter().position(|other| *other == current.separator)),
                    move |at| of_separator(encoding, Layout { separator: Separator::ALL[at], ..current })) }
                { option_field("log-decimal", tr("Decimal sign"), [tr("point"), tr("comma")].map(str::to_owned), usize::from(current.decimal_comma),
                    move |at| of_decimal(encoding, Layout { decimal_comma: at == 1, ..current })) }
                { option_field("log-header", tr("Rows of header"), (0..=MOST_HEADER).map(|rows| rows.to_string()), current.header_rows,
                    move |at| of_header(encoding, Layout { header_rows: at, ..current })) }
                if !opened.uses.contains(&ColumnUse::Clock) {
                    <div class="field">
                        <label for="log-row">{ tr("Seconds from row to row (no clock was found)") }</label>
                        <input id="log-row" type="text" inputmode="decimal" autocomplete="off" value={rounded_text(opened.row_s, 4)} onchange={on_row} />
                    </div>
                }
            </div>
            if opened.table.ragged_count > 0 {
                <p class="question">{ tr!("{} rows have another number of cells than the header, the first in line {} ({} cells). They are read as far as they go.",
                    opened.table.ragged_count, opened.table.ragged[0].0, opened.table.ragged[0].1) }</p>
            }
        </details>
    }
}

/// Takes a quantity's column out of use; the column's name is not remembered for it.
fn left_out(opened: &Shared<Opened>, change: &Callback<Opened>) -> Callback<Quantity> {
    let (opened, change) = (opened.clone(), change.clone());
    Callback::from(move |quantity: Quantity| {
        let mut next = (*opened).clone();
        for used in &mut next.uses {
            if matches!(used, ColumnUse::Quantity(own, _) if *own == quantity) {
                *used = ColumnUse::Nothing;
            }
        }
        change.emit(next);
    })
}

/// What is added from the log is for.
fn used_for(used: Used, chosen: &UseStateHandle<Option<Used>>) -> Html {
    let uses = [Used::Fit, Used::CheckOnly];
    let set = chosen.clone();
    option_field(
        "log-use",
        tr("What is added from this log is for"),
        [tr("the fit"), tr("checking only")].map(str::to_owned),
        usize::from(used == Used::CheckOnly),
        move |at| set.set(uses.get(at).copied()),
    )
}

fn sessions(opened: &Shared<Opened>, session: &UseStateHandle<usize>) -> Html {
    if opened.sessions.len() < 2 {
        return Html::default();
    }
    let names: Vec<String> = opened
        .sessions
        .iter()
        .enumerate()
        .map(|(at, session)| {
            tr!(
                "{}: {} min",
                at + 1,
                rounded_text(session.duration_s() / 60.0, 3)
            )
        })
        .collect();
    let set = session.clone();
    option_field(
        "log-session",
        tr("Session (parted where the clock restarts or the log pauses)"),
        names,
        **session,
        move |at| set.set(at),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::document::reading::Values;

    #[test]
    fn a_stretch_is_not_added_twice_and_another_is() {
        let of = |log: &str| Reading {
            log: log.to_owned(),
            ..Reading::steady("one", Values::new())
        };
        let mut design = coolpath_core::document::example::design();
        design.readings = vec![of("a.csv")];
        let (added, words) = fresh(&design, vec![of("a.csv"), of("b.csv")], Used::CheckOnly);
        let logs: Vec<&str> = added.iter().map(|reading| reading.log.as_str()).collect();
        assert_eq!((logs, words.is_some()), (vec!["b.csv"], true));
        assert_eq!(added[0].used(), Used::CheckOnly);
        assert_eq!(fresh(&design, vec![of("b.csv")], Used::Fit).1, None);
    }
}
