//! What the oil temperature of the builder's own reading asks for, and a button that takes it.

use crate::kit::format::degrees;
use crate::kit::later::use_after_pause;
use crate::kit::page::{use_dispatch, use_page};
use crate::state::Action;
use coolpath_core::answer::known_point::oil_heat_share;
use coolpath_core::answer::oil_point::{OilPointError, oil_share_of_reading, with_oil_point};
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::ReferenceKind;
use coolpath_core::language::tr;
use coolpath_core::units::typed::UnitSystem;
use yew::prelude::*;

/// Share of the power [-] below which two heats into the oil are the same.
const SAME: f64 = 5e-4;

/// The oil reading as a known point; nothing where the known point is no reading.
#[function_component]
pub fn OilPoint() -> Html {
    let (design, system) = use_page(|page| (page.design.clone(), page.system()));
    let dispatch = use_dispatch();
    let settled = use_after_pause(&(design.clone(), system));
    let told = use_memo(settled, |(design, system)| told(design, *system));
    let Some(told) = (*told).clone() else {
        return Html::default();
    };
    let take = told.asked.is_some().then(|| {
        let design = design.clone();
        Callback::from(move |_: MouseEvent| {
            if let Ok(with) = with_oil_point(&design) {
                dispatch.emit(Action::Adjust(Box::new(with)));
            }
        })
    });
    html! {
        <p class="hint" id="oil-point">
            { told.words }
            if let (Some(onclick), Some(asked)) = (take, told.asked) {
                { " " }
                <button type="button" {onclick}>{ tr!("Take {}", percent(asked)) }</button>
            }
        </p>
    }
}

/// What is said of the oil reading, and the share of the power that may be taken.
#[derive(Debug, Clone, PartialEq)]
struct Told {
    words: String,
    asked: Option<f64>,
}

fn percent(share: f64) -> String {
    tr!("{:.1} %", 100.0 * share)
}

fn told(design: &Design, system: UnitSystem) -> Option<Told> {
    let installation = &design.installation;
    if installation.reference.kind != ReferenceKind::Readings {
        return None;
    }
    let read = degrees(installation.reference.reading_oil.value, system);
    let assumed = oil_heat_share(installation);
    let only = |words: String| Told { words, asked: None };
    Some(match oil_share_of_reading(design) {
        Ok(share) if (share - assumed).abs() < SAME => only(tr!(
            "The oil answers your reading of {}: {} of the power goes into it.",
            read,
            percent(share)
        )),
        Ok(share) => Told {
            words: tr!(
                "Your oil reading of {}, shutter open, asks for {} of the power into the oil; {} is \
                 assumed.",
                read,
                percent(share),
                percent(assumed)
            ),
            asked: Some(share),
        },
        Err(
            error @ OilPointError::OutOfReach {
                coolest_k,
                warmest_k,
            },
        ) => only(tr!(
            "Oil at {}: {}. From {} to {} could be explained.",
            read,
            error,
            degrees(coolest_k, system),
            degrees(warmest_k, system)
        )),
        // Its reason stands at the answers.
        Err(_) => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::document::example;
    use coolpath_core::units::quantity::kelvin;
    use coolpath_core::units::si::degf;

    #[test]
    fn the_oil_reading_asks_for_a_share_and_is_content_once_it_has_it() {
        let mut design = example::design();
        assert_eq!(told(&design, UnitSystem::Customary), None);
        design.installation.reference.kind = ReferenceKind::Readings;
        design.installation.reference.reading_oil = kelvin(degf(215.0));
        let first = told(&design, UnitSystem::Customary).expect("a sentence");
        assert!(first.words.contains("reading of 215 °F") && first.asked.is_some());
        let with = with_oil_point(&design).expect("in reach");
        let then = told(&with, UnitSystem::Customary).expect("a sentence");
        assert!(then.words.starts_with("The oil answers") && then.asked.is_none());
        design.installation.reference.reading_oil = kelvin(degf(60.0));
        let refused = told(&design, UnitSystem::Customary).expect("a sentence");
        assert!(refused.words.contains("could be explained") && refused.asked.is_none());
    }
}
