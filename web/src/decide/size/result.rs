//! What a sizing found: a sentence, now against proposed, what would fix it, the picture.

use crate::charts::save::Save;
use crate::decide::size::openings_words::{
    area, as_it_is, changes, exit_words, inlet_words, shown_beside,
};
use crate::kit::format;
use crate::kit::shared::Shared;
use crate::kit::table_text::TableText;
use crate::part;
use coolpath_core::answer::evaluate::{Limit, evaluate_all};
use coolpath_core::answer::verdict::{odds_about, odds_step};
use coolpath_core::decide::size;
use coolpath_core::decide::size::course::Sized;
use coolpath_core::decide::size::map::Report;
use coolpath_core::decide::size::{Margin, SizeError, Wanted};
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::areas::{exit_m2, inlets_m2};
use coolpath_core::language::tr;
use coolpath_core::units::typed::{Dimension, UnitSystem, rounded_text};
use yew::prelude::*;

/// Chance below which a size is shown as the nearest, but not offered: what is not shown as one half or
/// more.
pub(super) const OFFERED_FROM: f64 = 0.475;
/// Remedies that are listed, and the gain from which one is, K or Pa.
const LISTED: usize = 6;
const LEAST_GAIN: f64 = 0.25;

/// How far a margin lies inside or outside, in words.
fn margin_words(margin: &Margin, design: &Design, system: UnitSystem) -> String {
    let name = design.condition_name(margin.condition);
    let kelvin = Dimension::TemperatureDifference;
    let (by, is_held) = (margin.by.abs(), margin.by >= 0.0);
    let is_just_held = margin.scaled.abs() < 0.01;
    let place = match margin.after_take_off_s {
        None => tr!("in “{}”", name),
        Some(seconds) => tr!("in the turn-around, {} (“{}”)", moment_words(seconds), name),
    };
    let degrees = format::quantity(by, kelvin, system, 2);
    let pressure = format::quantity(by, Dimension::Pressure, system, 2);
    match margin.wanted {
        Wanted::Limit(Limit::Head) if is_just_held => tr!("CHT just at its limit {}", place),
        Wanted::Limit(Limit::Head) if is_held => tr!("CHT {} under limit {}", degrees, place),
        Wanted::Limit(Limit::Head) => tr!("CHT {} over limit {}", degrees, place),
        Wanted::Limit(Limit::Oil) if is_just_held => tr!("Oil just at its limit {}", place),
        Wanted::Limit(Limit::Oil) if is_held => tr!("Oil {} under limit {}", degrees, place),
        Wanted::Limit(Limit::Oil) => tr!("Oil {} over limit {}", degrees, place),
        Wanted::Drop if is_just_held => tr!("Δp just at your minimum {}", place),
        Wanted::Drop if is_held => tr!("Δp {} above your minimum {}", pressure, place),
        Wanted::Drop => tr!("Δp {} below your minimum {}", pressure, place),
    }
}

/// A moment of the turn-around by its take-off.
fn moment_words(after_take_off_s: f64) -> String {
    let minutes = after_take_off_s / 60.0;
    if after_take_off_s.abs() < 1.0 {
        tr("at take-off").to_owned()
    } else if minutes > 0.0 {
        tr!("{} min after take-off", rounded_text(minutes, 2))
    } else {
        tr!("{} min before take-off", rounded_text(-minutes, 2))
    }
}

/// What is done to the openings for a size that is offered, or only comes nearest.
fn cut_words(changes: Option<&str>, offered: bool) -> String {
    match (changes, offered) {
        (Some(changes), true) => tr!("Cut {}", changes),
        (Some(changes), false) => tr!("Nearest: cut {}", changes),
        (None, true) => tr("Keep the openings as they are").to_owned(),
        (None, false) => tr("Nearest: the openings as they are").to_owned(),
    }
}

/// The size that the headline speaks of: with the wanted confidence, else the best estimate.
pub(super) fn best(report: &Report) -> Option<(&Sized, f64, bool)> {
    if let Some(Ok(sized)) = &report.sizes.robust {
        return Some((sized, report.sizes.robust_chance, true));
    }
    let sized = report.sizes.nominal.as_ref().ok()?;
    Some((sized, report.sizes.nominal_chance, false))
}

/// The answer in a sentence, and what must be known beside it.
pub fn headline(report: &Report, of: &Design, system: UnitSystem) -> Html {
    let Some((sized, chance, confident)) = best(report) else {
        return html! { <><h2 class="answer">{ tr("No size within your bounds is enough") }</h2></> };
    };
    let offered = confident || chance >= OFFERED_FROM;
    // Larger openings than the least that hold every limit are likelier to hold them.
    let present = report.sizes.present_chance;
    let is_asked = report.sizes.robust.is_some();
    if is_asked && !offered && odds_step(present) > odds_step(chance) {
        return better_as_they_are(present, chance);
    }
    let title = match sized {
        Sized::Openings(_) => {
            cut_words(changes(of, &sized.applied(of), system).as_deref(), offered)
        }
        Sized::Flap(flap) => tr!(
            "A flap from {} closed to {} open",
            area(flap.closed_m2, system),
            area(flap.open_m2, system)
        ),
    };
    let what = if confident && odds_step(chance) >= odds_step(report.chance) {
        tr("This holds both limits with the chance you asked for")
    } else if confident {
        tr("This comes nearest to the chance you asked for")
    } else {
        tr("This just holds every limit at the best estimate")
    };
    let first = report
        .sizes
        .helping()
        .iter()
        .find(|remedy| remedy.gain > 0.0)
        .filter(|_| !confident);
    html! { <>
        <h2 class="answer">{ format::unbroken(&title) }</h2>
        <p class="answer-more">
            { tr!("{}: odds {} in the worst condition.", what, odds_about(chance)) }
            if let Some(remedy) = first {
                { tr(" Change or measure first: ") }<strong>{ tr(&remedy.change).to_owned() }</strong>{ "." }
            }
        </p>
    </> }
}

/// What is said where no size is offered and the openings as they are hold the limits with better odds.
fn better_as_they_are(present: f64, chance: f64) -> Html {
    html! { <>
        <h2 class="answer">{ tr("No size within your bounds is offered: the openings as they are have better odds") }</h2>
        <p class="answer-more">
            { tr!("Odds in the worst condition: {} as they are, {} at the least that hold every limit by the best estimate.", odds_about(present), odds_about(chance)) }
        </p>
    </> }
}

/// One size as a column of the table.
struct Column {
    title: String,
    cells: Vec<String>,
}

/// The sizes as a table that leaves the page: a row for each, so that a column has one unit.
fn sheet(names: &[&str], columns: &[Column]) -> TableText {
    let rows = columns
        .iter()
        .map(|column| [vec![column.title.clone()], column.cells.clone()].concat());
    TableText::new(
        tr("Sizes"),
        &[&[tr("Size")], names].concat(),
        rows.collect(),
    )
}

fn hottest(design: &Design, system: UnitSystem) -> String {
    evaluate_all(design)
        .into_iter()
        .flatten()
        .map(|answer| answer.head_hottest.value)
        .max_by(f64::total_cmp)
        .map_or_else(
            || format::NONE.to_owned(),
            |kelvin| format::temperature(kelvin, system),
        )
}

fn column(title: &str, design: &Design, against: &Design, system: UnitSystem) -> Column {
    let installation = &design.installation;
    let own = &against.installation;
    let inlet_length = shown_beside(inlets_m2(own), inlets_m2(installation));
    let exit_length = shown_beside(exit_m2(own), exit_m2(installation));
    let drag = size::cruise_drag_n(against, installation).ok();
    let cost = drag
        .and_then(|drag| size::cruise_speed_of(against, drag))
        .map_or_else(
            || format::NONE.to_owned(),
            |cost| format::quantity(cost, Dimension::Speed, system, 2),
        );
    Column {
        title: title.to_owned(),
        cells: vec![
            area(inlets_m2(installation), system),
            installation
                .inlets
                .first()
                .map_or_else(String::new, |inlet| {
                    inlet_words(inlet, system, inlet_length)
                }),
            area(exit_m2(installation), system),
            exit_words(installation, system, exit_length).1,
            format::ratio(Some(exit_m2(installation) / inlets_m2(installation))),
            hottest(design, system),
            drag.map_or_else(
                || format::NONE.to_owned(),
                |newton| format::quantity(newton, Dimension::Force, system, 3),
            ),
            cost,
        ],
    }
}

/// Now against what was found, with what can be taken over.
///
/// # Arguments
/// * `of` - the design that was sized
/// * `take` - takes a size over; `None` while it is that of another design
pub fn sizes(
    report: &Report,
    of: &Shared<Design>,
    system: UnitSystem,
    take: Option<&Callback<Sized>>,
) -> Html {
    let found = [
        (
            tr("Best estimate"),
            Some(&report.sizes.nominal),
            report.sizes.nominal_chance,
            report.sizes.nominal_turn_around,
        ),
        (
            tr("With confidence"),
            report.sizes.robust.as_ref(),
            report.sizes.robust_chance,
            report.sizes.robust_turn_around,
        ),
    ];
    let mut columns = vec![column(tr("Now"), of, of, system)];
    for (title, sized, ..) in &found {
        if let Some(Ok(sized)) = sized {
            columns.push(column(title, &sized.applied(of), of, system));
        }
    }
    let names = [
        tr("All inlets"),
        tr("Each inlet"),
        tr("Exit, net of pipes"),
        exit_words(&of.installation, system, as_it_is).0,
        tr("Exit over inlets"),
        tr("Hottest CHT"),
        tr("Cooling drag, cruise"),
        tr("Speed cost, cruise"),
    ];
    html! { <>
        { part!(Save { sheet: sheet(&names, &columns) }) }
        <div class="scroll" tabindex="0" role="region" aria-label={tr("Sizes")}>
            <table class="now-table">
                <thead><tr><td></td>{ for columns.iter().enumerate().map(|(at, column)| html! {
                    <th scope="col" class={(at > 0).then_some("proposed")}>{ column.title.clone() }</th>
                }) }</tr></thead>
                <tbody>
                    { for names.iter().enumerate().map(|(row, name)| html! {
                        <tr><th scope="row">{ *name }</th>{ for columns.iter().enumerate().map(|(at, column)| html! {
                            <td class={(at > 0).then_some("proposed")}>{ column.cells[row].clone() }</td>
                        }) }</tr>
                    }) }
                </tbody>
            </table>
        </div>
        { for found.into_iter().map(|(title, sized, chance, turned)| sized.map_or_else(Html::default, |sized| {
            one_size(title, sized, (chance, turned), of, system, take)
        })) }
        <div class="buttons"><a class="button" href="#cut">{ tr("Templates of the present openings") }</a></div>
        <p class="hint">{ tr("You can’t uncut metal: cut the smaller size first, fly, then enlarge. The plan beside the templates gives the steps, and the odds of stopping at each.") }</p>
    </> }
}

/// Why no size was found, in the units that are shown.
fn refused(error: &SizeError, system: UnitSystem) -> String {
    match error {
        SizeError::Unbuildable { what, reach_m2 } => tr!(
            "Within your bounds no {} has dimensions that this program permits: with its present \
             shape {} to {} (net) would.",
            what,
            area(reach_m2.0, system),
            area(reach_m2.1, system)
        ),
        _ => error.to_string(),
    }
}

/// What limits one size, and the button that takes it over.
fn one_size(
    title: &str,
    sized: &Result<Sized, SizeError>,
    (chance, turned): (f64, Option<Margin>),
    of: &Shared<Design>,
    system: UnitSystem,
    take: Option<&Callback<Sized>>,
) -> Html {
    let found = match sized {
        Err(error) => {
            let more = match error {
                SizeError::OutOfReach {
                    shortfall,
                    inlets_m2,
                    exit_m2,
                } => tr!(
                    " Nearest are inlets of {} with an exit of {}: {}.",
                    area(*inlets_m2, system),
                    area(*exit_m2, system),
                    margin_words(shortfall, of, system)
                ),
                _ => String::new(),
            };
            let refused = refused(error, system);
            return html! { <p class="headline outside">{ format!("{title}: {refused}{more}") }</p> };
        }
        Ok(found) => found,
    };
    let mut limiting = match found {
        Sized::Openings(found) => vec![
            tr!(
                "Limiting condition: {}.",
                margin_words(&found.binding, of, system)
            ),
            format!("{}.", practice(of, found.inlets_m2, found.ratio())),
        ],
        Sized::Flap(flap) => vec![
            tr!(
                "Closed, {}: {}.",
                area(flap.closed_m2, system),
                margin_words(&flap.closed_binding, of, system)
            ),
            tr!(
                "Open, {}: {}.",
                area(flap.open_m2, system),
                margin_words(&flap.open_binding, of, system)
            ),
            tr!(
                "A fixed exit would need {}; the flap saves {} in cruise.",
                area(flap.fixed_m2, system),
                flap.saved_m_s.map_or_else(
                    || format::NONE.to_owned(),
                    |speed| format::quantity(speed, Dimension::Speed, system, 2)
                )
            ),
        ],
    };
    if let Some(margin) = turned {
        limiting.push(format!("{}.", margin_words(&margin, of, system)));
    }
    html! {
        <section class="found" aria-label={title.to_owned()}>
            { for limiting.into_iter().map(|line| html! { <p class="hint">{ line }</p> }) }
            if chance >= OFFERED_FROM {
                { take.map(|take| {
                    let (take, found) = (take.clone(), found.clone());
                    let press = move |_: MouseEvent| take.emit(found.clone());
                    html! { <div class="buttons"><button type="button" class="primary" onclick={press}>{ tr("Use this size") }</button></div> }
                }) }
            } else {
                <p class="hint">{ tr!("{}: odds {}. Shown as the nearest, not offered.", title, odds_about(chance)) }</p>
            }
        </section>
    }
}

/// Practitioners' figures beside a size.
fn practice(design: &Design, inlets_m2: f64, ratio: f64) -> String {
    let horsepower =
        Dimension::Power.units()[0].from_si(design.installation.engine.rated_power.value);
    let square_inches = Dimension::Area.units()[0].from_si(inlets_m2);
    tr!(
        "{:.2} in² of inlet per hp (0.35 is usual), exit over inlets {:.2} (1.0 to 1.4 in climb); rules of thumb, no source",
        square_inches / horsepower,
        ratio
    )
}

/// What else would fix a size that is out of reach.
pub fn remedies_view(report: &Report, design: &Design, system: UnitSystem) -> Html {
    // What gains less than is shown helps nobody.
    let helps = |remedy: &&size::Remedy| remedy.gain > LEAST_GAIN;
    if let Err(error) = &report.sizes.remedies {
        return html! { <p class="hint">{ tr!("What would fix it is not known: {}", refused(error, system)) }</p> };
    }
    let helping: Vec<&size::Remedy> = report
        .sizes
        .helping()
        .iter()
        .filter(helps)
        .take(LISTED)
        .collect();
    if helping.is_empty() {
        return Html::default();
    }
    let pressure = |remedy: &size::Remedy| remedy.margin.wanted == Wanted::Drop;
    html! {
        <section>
            <h3>{ tr("What would fix it, one change at a time") }</h3>
            <p class="hint">{ tr("Starting from the nearest openings; each change is solved by itself, the largest gain first.") }</p>
            <ul>
                { for helping.into_iter().map(|remedy| {
                    let dimension = if pressure(remedy) { Dimension::Pressure } else { Dimension::TemperatureDifference };
                    html! {
                        <li>{ tr!(
                            "{}: {} better; then {}",
                            tr(&remedy.change),
                            format::quantity(remedy.gain, dimension, system, 2),
                            margin_words(&remedy.margin, design, system)
                        ) }</li>
                    }
                }) }
            </ul>
        </section>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn areas_that_may_be_built_are_told_in_the_units_that_are_shown() {
        let error = SizeError::Unbuildable {
            what: "exit".into(),
            reach_m2: (0.01, 0.05),
        };
        let said = refused(&error, UnitSystem::Metric);
        assert!(said.ends_with("100 cm² to 500 cm² (net) would."), "{said}");
        let said = refused(&error, UnitSystem::Customary);
        assert!(
            said.ends_with("15.5 in² to 77.5 in² (net) would."),
            "{said}"
        );
    }
}
