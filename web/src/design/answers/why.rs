//! "Why?": the main answers as equations with the values put in and where each came from.

use crate::kit::controls::use_unfolding;
use crate::kit::format;
use crate::kit::shared::Shared;
use coolpath_core::answer::solve_condition::solve_condition;
use coolpath_core::answer::why::{Derivation, Term, derivations};
use coolpath_core::document::design::Design;
use coolpath_core::document::origin::Origin;
use coolpath_core::document::table;
use coolpath_core::language::tr;
use coolpath_core::units::typed::UnitSystem;
use yew::prelude::*;

/// What the derivations are made of.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// Design.
    pub design: Shared<Design>,
    /// Condition.
    pub place: usize,
    /// Units.
    pub system: UnitSystem,
}

/// Derivations of a condition; none where it has no answer.
fn found(design: &Design, place: usize) -> Vec<Derivation> {
    design
        .conditions
        .get(place)
        .and_then(|condition| solve_condition(&design.installation, condition, None).ok())
        .map(|solved| derivations(&design.installation, &solved))
        .unwrap_or_default()
}

/// Where a term's value comes from, in words.
///
/// # Arguments
/// * `place` - the condition that is derived
#[must_use]
pub fn origin(term: &Term, design: &Design, place: usize) -> String {
    let Some(input) = term.input.and_then(table::by_id) else {
        return tr("computed").to_owned();
    };
    let place = if input.id.starts_with("condition.") {
        place
    } else {
        0
    };
    let whose = Origin::of(design, input, place).words();
    tr!("from “{}”: {}; {}", input.label, whose, input.source)
}

/// The derivations of a condition.
#[function_component]
pub fn Why(props: &Props) -> Html {
    let (open, on_toggle) = use_unfolding();
    html! {
        <details class="why" ontoggle={on_toggle}>
            <summary>{ tr("Why? Show the working") }</summary>
            if *open {
                { for found(&props.design, props.place).iter().map(|derivation| derived(derivation, props)) }
            }
        </details>
    }
}

fn derived(derivation: &Derivation, props: &Props) -> Html {
    let system = props.system;
    let number = |si: f64, dimension| format::quantity(si, dimension, system, 5);
    html! {
        <section class="derivation" aria-label={derivation.answer}>
            <h3>{ format!("{}: {} = {}", derivation.answer, derivation.symbol, number(derivation.value, derivation.dimension)) }</h3>
            <p class="equation">{ derivation.equation }</p>
            <ul>
                { for derivation.terms.iter().map(|term| html! {
                    <li>
                        <span class="equation">{ format!("{} = {}", term.symbol, number(term.value, term.dimension)) }</span>
                        { format!(": {} ({})", term.meaning, origin(term, &props.design, props.place)) }
                    </li>
                }) }
            </ul>
            <p class="source">{ derivation.source }</p>
        </section>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::document::example;

    #[test]
    fn a_term_says_whether_it_was_typed_measured_or_a_default() {
        let mut design = example::design();
        let list = found(&design, 1);
        let share = list[0]
            .terms
            .iter()
            .find(|term| term.input.is_some())
            .expect("an input");
        assert!(origin(share, &design, 1).contains("our estimate"));
        design.installation.airframe.propeller_share = 0.2;
        assert!(origin(share, &design, 1).contains("your value"));
        design.measured.push("airframe.propeller_share".to_owned());
        assert!(origin(share, &design, 1).contains("measured by you"));
        assert_eq!(origin(&list[0].terms[0], &design, 1), "computed");
    }
}
