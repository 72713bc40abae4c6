//! Cautions, shown where they apply.

use crate::kit::page::use_page;
use coolpath_core::answer::evaluate::Answer;
use coolpath_core::document::design::Design;
use coolpath_core::language::tr;
use yew::prelude::*;

/// Whether any of the answers exceeds a limit.
#[must_use]
pub fn is_too_hot<'a>(answers: impl IntoIterator<Item = &'a Answer>) -> bool {
    answers
        .into_iter()
        .any(|answer| answer.head_margin.value < 0.0 || answer.oil_margin.value < 0.0)
}

/// The cautions of a design.
#[must_use]
pub fn cautions(design: &Design, too_hot: bool) -> Vec<&'static str> {
    let installation = &design.installation;
    let mut list = vec![tr(
        "The limits are those of your engine's manual; nothing here replaces them. Every number \
         is an estimate, and flight test decides.",
    )];
    if too_hot {
        list.push(tr(
            "Hot in flight: reduce power, level off, fly faster, enrich the mixture, open the \
             flaps, go back to the field, and watch the oil pressure.",
        ));
    }
    if installation.shutter.fitted {
        list.push(tr(
            "A shutter is one more thing that can fail. Let it fail open, never shut a cooler off \
             fully, and look at the line “jammed shut” for your hottest day. Oil that congeals in \
             a cold cooler overheats the engine in ice-cold air.",
        ));
    }
    if installation.exits.iter().any(|exit| exit.flap) {
        list.push(tr(
            "Ram pressure is about 1 psi at 200 KIAS: a door of 20 in² carries some 32 lbf at \
             250 KIAS. Latch flaps and doors for it, and look for cracks in the cowl.",
        ));
    }
    list.push(tr(
        "Do not drill baffles for more air, and do not just cut a hole in the belly, where \
         pressure is high in a climb. Try one change at a time, with parts that come off again.",
    ));
    if installation.decks.cabin_air {
        list.push(tr(
            "A heat muff fed with air from the engine bay is suspect: check the cabin for carbon \
             monoxide.",
        ));
    }
    list.push(tr(
        "After any change, look again at the clearance of fuel and oil hoses from the exhaust, \
         and check the cabin for carbon monoxide.",
    ));
    list.push(tr(
        "Before a change, your operating limitations, your authority or association and a \
         licensed engineer or inspector come first. Test alone, near the field, by a written plan \
         (FAA AC 90-89 describes one); note clock times, and do not write while flying.",
    ));
    list
}

/// The cautions.
#[function_component]
pub fn Cautions() -> Html {
    let cautions = use_page(|page| {
        let found = page.answers.iter().flatten().map(AsRef::as_ref);
        cautions(&page.design, is_too_hot(found))
    });
    html! {
        <section class="section cautions" aria-label={tr("Cautions")}>
            <h2>{ tr("Cautions") }</h2>
            <ul>
                { for cautions.into_iter().map(|caution| html! { <li>{ caution }</li> }) }
            </ul>
        </section>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::document::example;

    #[test]
    fn limits_come_first_and_a_hot_engine_and_a_shutter_get_their_caution() {
        let mut design = example::design();
        let list = cautions(&design, true);
        assert!(list[0].contains("manual"));
        assert!(list[1].contains("reduce power"));
        assert!(list.iter().any(|caution| caution.contains("jammed shut")));
        design.installation.shutter.fitted = false;
        let list = cautions(&design, false);
        assert!(
            !list
                .iter()
                .any(|c| c.contains("jammed shut") || c.contains("reduce power"))
        );
    }
}
