//! What one more square inch of a part is worth, in a sentence.

use crate::design::parts::Part;
use crate::kit::format::signed;
use crate::kit::page::use_page;
use coolpath_core::answer::per_inch::{Opening, Worth, worth_of};
use coolpath_core::answer::solve_condition::solve_condition;
use coolpath_core::document::design::Design;
use coolpath_core::language::tr;
use coolpath_core::units::typed::{Chosen, Dimension, UnitSystem};
use yew::prelude::*;

/// What the sentence is of.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// The part.
    pub part: Part,
}

/// What one more square inch of a part is worth, in the condition that is shown; its cost in the
/// first level one.
#[function_component]
pub fn Gain(props: &Props) -> Html {
    let (design, place, system) =
        use_page(|page| (page.design.clone(), page.place(), page.system()));
    let (opening, name) = match props.part {
        Part::Inlet(place) => (Opening::Inlet(place), tr("inlet")),
        Part::Exit(place) => (Opening::Exit(place), tr("exit")),
        Part::UpperDeck => (Opening::Seal, tr("leak")),
        _ => return Html::default(),
    };
    let Some(here) = worth(&design, place, opening) else {
        return Html::default();
    };
    let level = match design.first_level() {
        Some(level) if level == place => Some(here),
        level => level.and_then(|level| worth(&design, level, opening)),
    };
    html! { <p class="worth-note">{ gain_words(name, &here, level.as_ref(), system) }</p> }
}

/// Nothing where the condition has no answer.
fn worth(design: &Design, place: usize, opening: Opening) -> Option<Worth> {
    let condition = design.conditions.get(place)?;
    let solved = solve_condition(&design.installation, condition, None).ok()?;
    worth_of(&design.installation, condition.phase, &solved, opening).ok()
}

fn gain_words(name: &str, here: &Worth, level: Option<&Worth>, system: UnitSystem) -> String {
    let (step, per_step) = if system.is_customary(Chosen::Length) {
        ("+1 in²", 1.0)
    } else {
        ("+10 cm²", 10.0 / 6.4516)
    };
    let difference = Dimension::TemperatureDifference.shown(system);
    let change = |kelvin: f64| {
        format!(
            "{} {}",
            signed(difference.from_si(kelvin * per_step), 1),
            difference.symbol
        )
    };
    let cost = level.and_then(|worth| worth.speed).map(|speed| {
        let unit = Dimension::Speed.shown(system);
        let by = unit.from_si(speed.value * per_step);
        if by <= 0.0 {
            tr!(" and costs {:.2} {} in cruise", by.abs(), unit.symbol)
        } else {
            tr!(" and gains {:.2} {} in cruise", by, unit.symbol)
        }
    });
    tr!(
        "{} of {} is worth {} on CHT, {} on oil{}.",
        step,
        name,
        change(here.head.value),
        change(here.oil.value),
        cost.unwrap_or_default()
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::document::example;

    #[test]
    fn a_square_inch_of_exit_cools_and_costs() {
        let design = example::design();
        let of = |place| worth(&design, place, Opening::Exit(0)).expect("an exit");
        let words = gain_words(tr("exit"), &of(1), Some(&of(3)), UnitSystem::Customary);
        assert!(words.starts_with("+1 in² of exit is worth −"), "{words}");
        assert!(words.contains("and costs 0.0"), "{words}");
        assert!(
            words.contains("CHT, −") && words.ends_with(" kt in cruise."),
            "{words}"
        );
    }
}
