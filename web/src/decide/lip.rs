//! "Inlet lip": what each inlet's lip leaves of the pressure before it, in all conditions.

use crate::charts::inlet_recovery;
use crate::charts::view::FigureView;
use crate::charts::{Size, room};
use crate::kit::controls::option_field;
use crate::kit::page::use_page;
use crate::kit::unfolding::Unfolding;
use crate::part;
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::Inlet;
use coolpath_core::language::tr;
use yew::prelude::*;

/// The panel; it draws only while it stands open.
#[function_component]
pub fn LipPanel() -> Html {
    html! { <Unfolding id="lip" title={tr("Inlet lip")}>{ part!(Drawn) }</Unfolding> }
}

#[function_component]
fn Drawn() -> Html {
    let (design, answers, width) =
        use_page(|page| (page.design.clone(), page.answers.clone(), page.width));
    let asked = use_state(|| 0);
    let places = unlike(&design);
    let place = places.get(*asked).or(places.first()).copied().unwrap_or(0);
    let Some(inlet) = design.installation.inlets.get(place) else {
        return html! {};
    };
    let answered = answers.iter().filter_map(|answer| answer.as_deref().ok());
    let size = Size {
        width: room(width, 640),
        height: 280,
    };
    let names = places
        .iter()
        .filter_map(|place| design.installation.inlets.get(*place));
    html! { <>
        <p class="hint">{ tr("An opening that draws air faster than it comes pulls it round the lip, and the flow separates inside. So it does where the stream meets the inlet at too great an angle.") }</p>
        if places.len() > 1 {
            { option_field("lip-inlet", tr("Inlet"), names.map(|inlet| inlet.name.clone()), *asked, move |at| asked.set(at)) }
        }
        { part!(FigureView { figure: inlet_recovery::figure(inlet, place, answered, size) }) }
    </> }
}

/// Places of the inlets that no earlier one is like but by its name.
fn unlike(design: &Design) -> Vec<usize> {
    let inlets = &design.installation.inlets;
    let renamed = |inlet: &Inlet| Inlet {
        name: String::new(),
        ..inlet.clone()
    };
    let is_first = |place: &usize| {
        let own = renamed(&inlets[*place]);
        inlets[..*place]
            .iter()
            .all(|earlier| renamed(earlier) != own)
    };
    (0..inlets.len()).filter(is_first).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::document::example;

    #[test]
    fn inlets_that_differ_by_name_alone_are_asked_for_once() {
        let mut design = example::design();
        assert_eq!(unlike(&design), [0]);
        design.installation.inlets[1].at_angle = true;
        assert_eq!(unlike(&design), [0, 1]);
    }
}
