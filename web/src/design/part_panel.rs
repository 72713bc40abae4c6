//! The panel of one part: a few fields, what one more square inch is worth, facts, assumptions.

use crate::design::answers::summary::shutter_words;
use crate::design::fields::choice_field::ChoiceField;
use crate::design::fields::group_fields::{Asked, not_sure};
use crate::design::fields::guesses;
use crate::design::fields::number_field::NumberField;
use crate::design::gain::Gain;
use crate::design::parts;
use crate::design::parts::{Kind, Part};
use crate::kit::controls::{name_field, on_place};
use crate::kit::format;
use crate::kit::page::{use_dispatch, use_page};
use crate::part;
use crate::state::{Action, choices};
use coolpath_core::answer::evaluate::Answer;
use coolpath_core::answer::head_readings::worst_fed;
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::areas::{exit_m2, inlets_m2};
use coolpath_core::document::table;
use coolpath_core::document::table::Input;
use coolpath_core::language::tr;
use coolpath_core::units::typed::{Dimension, UnitSystem};
use yew::prelude::*;

/// What the panel shows.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// The part.
    pub part: Part,
    /// Whether it stands open as a sheet, on a narrow screen.
    pub open: bool,
    /// Chooses another part.
    pub on_select: Callback<Part>,
    /// Closes the sheet.
    pub on_close: Callback<()>,
}

/// A field of the panel.
enum Field {
    Number(&'static Input),
    Choice(&'static choices::Choice),
}

/// Fields of a part that are in use: those at first, the rest, and the assumptions.
fn fields(part: Part, design: &Design, place: usize) -> (Vec<Field>, Vec<Field>, Vec<Field>) {
    let kind = part.kind();
    let main = parts::main_fields(kind);
    let number = |id: &str| {
        table::by_id(id)
            .filter(|input| input.used(design, place))
            .map(Field::Number)
    };
    let choice = |id: &str| {
        choices::by_id(id)
            .filter(|choice| (choice.used)(design, place))
            .map(Field::Choice)
    };
    let first = main
        .iter()
        .filter_map(|id| number(id).or_else(|| choice(id)))
        .collect();
    let others = choices::all()
        .map(|choice| choice.id)
        .chain(table::all().map(|input| input.id))
        .filter(|id| parts::kind_of(id) == Some(kind) && !main.contains(id));
    let (mut more, mut assumed) = (Vec::new(), Vec::new());
    for id in others {
        match choice(id).or_else(|| number(id)) {
            Some(Field::Number(input)) if input.likely.is_some() => {
                assumed.push(Field::Number(input));
            }
            Some(field) => more.push(field),
            None => {}
        }
    }
    (first, more, assumed)
}

/// The panel.
#[function_component]
pub fn PartPanel(props: &Props) -> Html {
    let Props {
        part,
        open,
        on_select,
        on_close,
    } = props;
    let (design, answers, system, shown) = use_page(|page| {
        (
            page.design.clone(),
            page.answers.clone(),
            page.system(),
            page.place(),
        )
    });
    let part = *part;
    let place = part.place(shown);
    let (first, more, assumed) = fields(part, &design, place);
    let title = part.title(&design, shown);
    let list = parts::parts(&design);
    let choose = {
        let (on_select, list) = (on_select.clone(), list.clone());
        on_place(move |at| {
            if let Some(part) = list.get(at) {
                on_select.emit(*part);
            }
        })
    };
    let close = on_close.reform(|_: MouseEvent| ());
    let answer = answers.get(shown).and_then(|outcome| outcome.as_ref().ok());
    let view = |field: &Field, steps: bool| field_view(field, place, steps);
    let dispatch = use_dispatch();
    let questions: Vec<Asked> = guesses::GUESSES
        .iter()
        .filter(|guess| parts::kind_of(guess.id) == Some(part.kind()) && (guess.used)(&design))
        .map(|guess| Asked::of(guess, &design, place, system))
        .collect();
    html! {
        <section class={classes!("panel", open.then_some("sheet-open"))} id="part" tabindex="-1" aria-label={title.clone()}>
            <div class="panel-head">
                <span class="grip" aria-hidden="true"></span>
                <h2 class="visually-hidden">{ title }</h2>
                <div class="part-list">
                    <label class="visually-hidden" for="part-shown">{ tr("Part") }</label>
                    <select id="part-shown" onchange={choose}>
                        { for list.iter().map(|other| html! {
                            <option selected={*other == part}>{ other.title(&design, shown) }</option>
                        }) }
                    </select>
                </div>
                <button type="button" class="quiet sheet-done" onclick={close}>{ tr("Done") }</button>
            </div>
            <div class="part-fields" key={format!("{part:?}-{shown}")}>
                { for first.iter().map(|field| view(field, true)) }
                if part == Part::Limits { { part!(LimitsPage) } }
            </div>
            { for questions.iter().map(|asked| not_sure(asked, &dispatch)) }
            { part!(Gain { part }) }
            { facts(part, &design, answer.map(AsRef::as_ref), system) }
            if !more.is_empty() {
                <details class="drawer" key={format!("more-{part:?}")}>
                    <summary>{ tr!("More ({})", more.len()) }</summary>
                    <div class="part-fields">{ for more.iter().map(|field| view(field, true)) }</div>
                </details>
            }
            if !assumed.is_empty() {
                <details class="drawer assumptions" key={format!("assumed-{part:?}")}>
                    <summary>{ tr!("Assumptions ({})", assumed.len()) }</summary>
                    <div class="part-fields">{ for assumed.iter().map(|field| view(field, false)) }</div>
                </details>
            }
            <p class="panel-foot"><a href="#inputs">{ tr("All inputs") }</a><a href="#results">{ tr("All results") }</a></p>
        </section>
    }
}

fn field_view(field: &Field, place: usize, steps: bool) -> Html {
    match field {
        Field::Number(input) => {
            html! { <key={input.id}>{ part!(NumberField { id: input.id, place, steps }) }</> }
        }
        Field::Choice(choice) => {
            html! { <key={choice.id}>{ part!(ChoiceField { id: choice.id, place }) }</> }
        }
    }
}

/// The page of the manual where the limits stand.
#[function_component]
pub fn LimitsPage() -> Html {
    let noted = use_page(|page| page.state.design.installation.engine.limits_page.clone());
    let dispatch = use_dispatch();
    let on_page = move |page| dispatch.emit(Action::NotePage(page));
    name_field(
        "limits-page",
        tr("Manual page for these limits"),
        &noted,
        on_page,
    )
}

/// A few numbers about a part.
fn facts(part: Part, design: &Design, answer: Option<&Answer>, system: UnitSystem) -> Html {
    let Some(answer) = answer else {
        return Html::default();
    };
    let installation = &design.installation;
    let of = |si: f64, dimension, digits| format::quantity(si, dimension, system, digits);
    let area = |m2: f64| of(m2, Dimension::Area, 3);
    let flow = |si: f64| of(si, Dimension::MassFlow, 3);
    let pressure = |si: f64| of(si, Dimension::Pressure, 2);
    let warm = |kelvin: f64| format::temperature(kelvin, system);
    let rows: Vec<(&str, String)> = match part.kind() {
        Kind::Inlet => vec![
            (tr("All inlets"), area(inlets_m2(installation))),
            (
                tr("Velocity ratio"),
                format::ratio(answer.inlet_velocity_ratio),
            ),
        ],
        Kind::Exit | Kind::Flap => vec![
            (tr("Net area"), area(exit_m2(installation))),
            (
                tr("Exit over inlets"),
                format::ratio(Some(answer.area_ratio)),
            ),
        ],
        Kind::UpperDeck => {
            let mut rows = match &answer.state.sides {
                None => vec![(tr("Pressure"), pressure(answer.upper_deck.value))],
                Some(sides) => vec![
                    (tr("Pressure, left half"), pressure(sides.left.upper_pa)),
                    (tr("Pressure, right half"), pressure(sides.right.upper_pa)),
                    (
                        if sides.across_kg_s < 0.0 {
                            tr("Air across, right to left")
                        } else {
                            tr("Air across, left to right")
                        },
                        flow(sides.across_kg_s.abs()),
                    ),
                ],
            };
            rows.push((tr("Air lost past the seals"), flow(answer.leak_flow.value)));
            if let Some(cabin) = answer.cabin {
                rows.push((tr("Air to the cabin"), flow(cabin.flow_kg_s)));
                rows.push((tr("Cabin air arrives at"), warm(cabin.air_k)));
            }
            if let Some(share) = answer.full_throttle {
                rows.push((tr("Full throttle here"), format!("{:.0} %", 100.0 * share)));
            }
            rows
        }
        Kind::Engine => {
            let mut rows = vec![
                (
                    tr("Δp across the cylinders"),
                    pressure(answer.baffle_drop.value),
                ),
                (tr("Air through the fins"), flow(answer.fin_flow.value)),
            ];
            if let Some(sides) = &answer.state.sides {
                rows.push((tr("Mean head, left bank"), warm(sides.left.head_k)));
                rows.push((tr("Mean head, right bank"), warm(sides.right.head_k)));
            }
            if let Some((head, air)) = worst_fed(&installation.engine) {
                let less = tr!("{}, {:.0} % less than the mean", head, 100.0 * (1.0 - air));
                rows.push((tr("Least air"), less));
            }
            rows
        }
        Kind::Limits => vec![
            (tr("Hottest CHT"), warm(answer.head_hottest.value)),
            (tr("Oil temperature"), warm(answer.oil.value)),
        ],
        Kind::Cooler => vec![
            (tr("Air"), flow(answer.cooler_flow.value)),
            (
                tr("Heat out"),
                of(answer.cooler_heat.value, Dimension::Heat, 3),
            ),
        ],
        Kind::Duct => vec![(tr("Air"), flow(answer.cooler_flow.value))],
        Kind::Shutter => vec![(tr("Now"), shutter_words(answer, system))],
        Kind::LowerDeck => vec![
            (tr("Pressure"), pressure(answer.lower_deck.value)),
            (tr("Air"), warm(answer.lower_deck_air.value)),
        ],
        Kind::Propeller => vec![(tr("Ram at the inlet"), pressure(answer.ram.value))],
        Kind::Aircraft | Kind::Condition => vec![(
            tr("True airspeed"),
            of(answer.true_airspeed.value, Dimension::Speed, 3),
        )],
    };
    html! {
        <dl class="facts">
            { for rows.into_iter().map(|(what, value)| html! { <><dt>{ what }</dt><dd>{ value }</dd></> }) }
        </dl>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::document::example;

    #[test]
    fn each_used_input_of_a_part_stands_in_its_panel_once() {
        let design = example::design();
        for part in parts::parts(&design) {
            let place = part.place(1);
            let (first, more, assumed) = fields(part, &design, place);
            let ids: Vec<&str> = first
                .iter()
                .chain(&more)
                .chain(&assumed)
                .map(|field| match field {
                    Field::Number(input) => input.id,
                    Field::Choice(choice) => choice.id,
                })
                .collect();
            for input in table::all().filter(|input| {
                parts::kind_of(input.id) == Some(part.kind()) && input.used(&design, place)
            }) {
                assert_eq!(
                    ids.iter().filter(|id| **id == input.id).count(),
                    1,
                    "{}",
                    input.id
                );
            }
            assert!((1..=5).contains(&first.len()), "{part:?}: {}", first.len());
        }
    }
}
