//! What each reading and each log is used for: a fit sees it, the model is only checked on it, or
//! nothing.

use crate::kit::controls::on_option;
use crate::state::ReadingEdit;
use coolpath_core::document::design::Design;
use coolpath_core::document::reading::{Reading, Used};
use coolpath_core::language::{tr, tr_later};
use yew::prelude::*;

const CHOICES: [(Used, &str, &str); 3] = [
    (Used::Fit, "fit", tr_later("fit")),
    (Used::CheckOnly, "check", tr_later("check only")),
    (Used::LeftOut, "none", tr_later("left out")),
];

/// A list of the uses for some readings; none is chosen where they differ.
pub fn choice(
    name: &str,
    used: Option<Used>,
    places: Vec<usize>,
    edits: &Callback<ReadingEdit>,
) -> Html {
    let edits = edits.clone();
    let on_change = on_option(move |option| {
        if let Some((used, ..)) = CHOICES.iter().find(|(_, key, _)| *key == option) {
            edits.emit(ReadingEdit::Use(places.clone(), *used));
        }
    });
    html! {
        <select aria-label={name.to_owned()} onchange={on_change}>
            if used.is_none() {
                <option value="" selected=true>{ tr("mixed") }</option>
            }
            { for CHOICES.into_iter().map(|(own, key, words)| html! {
                <option value={key} selected={used == Some(own)}>{ tr(words) }</option>
            }) }
        </select>
    }
}

/// Readings that came from one log, by their places; what was typed has no log.
fn by_log(design: &Design) -> Vec<(String, Vec<usize>)> {
    let mut found: Vec<(String, Vec<usize>)> = Vec::new();
    for (place, reading) in design.readings.iter().enumerate() {
        match found.iter_mut().find(|(log, _)| *log == reading.log) {
            Some((_, places)) => places.push(place),
            None => found.push((reading.log.clone(), vec![place])),
        }
    }
    found
}

/// What readings have in common; none where they differ.
fn common(design: &Design, places: &[usize]) -> Option<Used> {
    let mut all = places
        .iter()
        .filter_map(|place| Some(design.readings.get(*place)?.used()));
    let first = all.next()?;
    all.all(|used| used == first).then_some(first)
}

/// A reading's name, and whether the whole flight counts in its stead.
fn name(design: &Design, place: usize, reading: &Reading) -> String {
    if reading.is_fitted() && !design.fits(place) {
        tr!("{} (counts in the whole flight)", reading.name)
    } else if reading.used() == Used::CheckOnly && design.is_fitted_whole(reading) {
        tr!(
            "{} (seen in the whole flight: checks nothing)",
            reading.name
        )
    } else {
        reading.name.clone()
    }
}

/// Each log as a whole, and each of its readings and stretches.
pub fn list(design: &Design, edits: &Callback<ReadingEdit>) -> Html {
    html! {
        <ul class="used-for" aria-label={tr("What the readings are used for")}>
            { for by_log(design).into_iter().map(|(log, places)| {
                let typed = log.is_empty();
                let title = if typed { tr("Typed readings").to_owned() } else { log };
                let used = common(design, &places);
                html! {
                    <li key={title.clone()}>
                        <div class="used-row used-log"><strong>{ title.clone() }</strong>
                            { choice(&tr!("Use all of {} for", title), used, places.clone(), edits) }</div>
                        if places.len() > 1 {
                            <ul>{ for places.into_iter().filter_map(|place| {
                                let reading = design.readings.get(place)?;
                                Some(html! {
                                    <li key={place} class="used-row"><span>{ name(design, place, reading) }</span>
                                        { choice(&tr!("Use {} of {} for", reading.name, title), Some(reading.used()), vec![place], edits) }</li>
                                })
                            }) }</ul>
                        }
                    </li>
                }
            }) }
        </ul>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::document::example;
    use coolpath_core::document::reading::Values;

    #[test]
    fn a_log_has_a_use_where_all_of_it_has_the_same() {
        let mut design = example::design();
        let of = |log: &str| Reading {
            log: log.to_owned(),
            ..Reading::steady("one", Values::new())
        };
        design.readings = vec![of("a.csv"), of("b.csv"), of("a.csv")];
        assert_eq!(
            by_log(&design),
            [
                ("a.csv".to_owned(), vec![0, 2]),
                ("b.csv".to_owned(), vec![1])
            ]
        );
        assert_eq!(common(&design, &[0, 2]), Some(Used::Fit));
        design.readings[0].whole = true;
        let shown = |place: usize| name(&design, place, &design.readings[place]);
        assert_eq!(
            [shown(0), shown(1), shown(2)],
            ["one", "one", "one (counts in the whole flight)"]
        );
        design.readings[2].use_for(Used::CheckOnly);
        assert_eq!(common(&design, &[0, 2]), None);
        assert_eq!(common(&design, &[2]), Some(Used::CheckOnly));
        assert!(!design.readings[2].is_fitted());
    }
}
