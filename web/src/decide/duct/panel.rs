//! The panel: lengths tried in one condition, the chart, the choices, and the duct taken over.

use crate::browser::job::{End, Job, Run, use_job};
use crate::charts::duct_lengths;
use crate::charts::table::TableView;
use crate::charts::view::FigureView;
use crate::charts::{Size, room};
use crate::decide::duct::words;
use crate::engine;
use crate::engine::task::Ducts;
use crate::kit::controls::option_field;
use crate::kit::later::use_after_pause;
use crate::kit::page::{use_dispatch, use_page};
use crate::kit::shared::Shared;
use crate::kit::unfolding::Unfolding;
use crate::part;
use crate::state::Action;
use coolpath_core::decide::duct_length::{Duct, Lengths, alike, at_likely_losses, with_duct};
use coolpath_core::document::design::Design;
use coolpath_core::language::tr;
use yew::prelude::*;

/// What the lengths follow from.
#[derive(Clone, PartialEq)]
struct Wish {
    design: Shared<Design>,
    inlet: usize,
    place: usize,
}

/// What was found, and for what.
struct Found {
    wish: Wish,
    lengths: Lengths,
    /// The same with the least and with the most likely loss in the duct.
    ends: [Option<Lengths>; 2],
}

type DuctJob = Job<(usize, usize), Shared<Found>>;

/// The panel; it computes only while it stands open.
#[function_component]
pub fn DuctPanel() -> Html {
    html! { <Unfolding id="duct" title={tr("Widening duct")}>{ part!(Tried) }</Unfolding> }
}

/// The lengths, tried anew whenever what they follow from changes.
#[function_component]
fn Tried() -> Html {
    let (design, place, system, width) =
        use_page(|page| (page.design.clone(), page.place(), page.system(), page.width));
    let asked = use_state(|| 0);
    let groups = groups(&design);
    let chosen = (*asked).min(groups.len().saturating_sub(1));
    let wish = Wish {
        inlet: groups
            .get(chosen)
            .and_then(|group| group.first())
            .copied()
            .unwrap_or(0),
        design: design.clone(),
        place,
    };
    let settled = use_after_pause(&wish);
    let job = use_job::<(usize, usize), Shared<Found>>();
    {
        let job = job.clone();
        use_effect_with(settled, move |wish| start(wish.clone(), &job));
    }
    let dispatch = use_dispatch();
    let take = dispatch.reform(|(wish, inlets, duct): (Wish, Vec<usize>, Duct)| {
        taken(&wish.design, &inlets, &duct)
    });
    html! { <>
        <p class="hint">{ tr("Without a widening duct the air’s speed in the inlet is lost. A duct turns part of it into pressure: the longer and the gentler, the more.") }</p>
        if groups.len() > 1 {
            { option_field("duct-inlets", tr("Behind"), groups.iter().map(|group| names(&design, group)), chosen, move |at| asked.set(at)) }
        }
        <div aria-live="polite">
            { job.counted(tr("Trying lengths")) }
            if let Some(found) = job.done() {
                { result(found, &wish, (system, width), &take) }
            }
        </div>
    </> }
}

/// Inlets without a widening duct, and those with one.
fn groups(design: &Design) -> Vec<Vec<usize>> {
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for inlet in 0..design.installation.inlets.len() {
        let group = alike(&design.installation, inlet);
        if !groups.contains(&group) {
            groups.push(group);
        }
    }
    groups
}

/// Names of some inlets.
fn names(design: &Design, inlets: &[usize]) -> String {
    let inlets = inlets
        .iter()
        .filter_map(|at| design.installation.inlets.get(*at));
    let names: Vec<&str> = inlets.map(|inlet| inlet.name.as_str()).collect();
    names.join(", ")
}

/// Begins to try lengths; what is under way is abandoned.
fn start(wish: Wish, job: &DuctJob) {
    job.start(|run| async move {
        let lengths = searched(&wish.design, &wish, &run).await?;
        let mut ends = [None, None];
        for (end, design) in ends
            .iter_mut()
            .zip(at_likely_losses(&wish.design, &lengths.inlets))
        {
            let Some(design) = design else { continue };
            // A loss without an answer leaves that end open.
            match searched(&design, &wish, &run).await {
                Err(End::Fault(_)) => {}
                found => *end = Some(found?),
            }
        }
        Ok(Shared::new(Found {
            wish,
            lengths,
            ends,
        }))
    });
}

/// The lengths of a design that differs from the wish's by its duct's loss at most.
async fn searched(
    design: &Design,
    wish: &Wish,
    run: &Run<(usize, usize), Shared<Found>>,
) -> Result<Lengths, End> {
    let ducts = Ducts {
        design: design.clone(),
        inlet: wish.inlet,
        place: wish.place,
    };
    engine::job::followed(ducts, run).await
}

/// The design with a duct behind these inlets, its area ratio to a hundredth: nobody builds closer.
fn taken(design: &Design, inlets: &[usize], duct: &Duct) -> Action {
    let ratio = (100.0 * duct.area_ratio).round() / 100.0;
    Action::Adjust(Box::new(Design {
        installation: with_duct(&design.installation, inlets, ratio, duct.length_m),
        ..design.clone()
    }))
}

/// Whether the design has this duct already, as far as it is taken over.
fn is_taken(design: &Design, inlets: &[usize], duct: &Duct) -> bool {
    taken(design, inlets, duct) == Action::Adjust(Box::new(design.clone()))
}

fn result(
    found: &Shared<Found>,
    wish: &Wish,
    (system, width): (coolpath_core::units::typed::UnitSystem, u32),
    take: &Callback<(Wish, Vec<usize>, Duct)>,
) -> Html {
    let (lengths, of) = (&found.lengths, &found.wish.design);
    let view = duct_lengths::View {
        found: lengths,
        condition: of.condition_name(found.wish.place),
        limit_k: of.limits_in(found.wish.place).head.kelvin,
        system,
        size: Size {
            width: room(width, 640),
            height: 280,
        },
    };
    let figure = duct_lengths::figure(&view, &words::answer(lengths, system));
    let now = found.wish == *wish;
    let offered = lengths.worthwhile().filter(|_| now);
    let button = offered.map(|duct| {
        if is_taken(of, &lengths.inlets, duct) {
            return html! { <p class="hint">{ tr("Your design has this duct.") }</p> };
        }
        let (take, all) = (take.clone(), (wish.clone(), lengths.inlets.clone(), *duct));
        let press = move |_: MouseEvent| take.emit(all.clone());
        html! { <div class="buttons"><button type="button" class="primary" onclick={press}>{ tr("Use this duct") }</button></div> }
    });
    html! { <>
        if !now {
            <p class="stale">{ tr("The design or the condition has changed: this is for the earlier one.") }</p>
        }
        { part!(FigureView { figure }) }
        if lengths.worthwhile().is_some() {
            <p class="answer-more">{ words::beside(lengths, of, found.wish.place, system) }</p>
            <p class="hint">{ words::likely(&found.ends, system) }</p>
        }
        { part!(TableView { sheet: words::choices(lengths, of, system) }) }
        { button.unwrap_or_default() }
        <p class="hint">{ tr!("The duct stands behind: {}. Both the length and the room at its end must fit between cowl and baffles. A duct on the full line needs smooth walls and clean air: behind a sharp lip or the spinner’s wake it loses more.", names(of, &lengths.inlets)) }</p>
    </> }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::decide::duct_length::DuctLengths;
    use coolpath_core::document::example;

    fn adjusted(action: Action) -> Design {
        let Action::Adjust(design) = action else {
            panic!("{action:?}");
        };
        *design
    }

    #[test]
    fn a_duct_that_was_taken_stands_behind_all_inlets_alike_and_is_known_again() {
        let mut design = example::design();
        design
            .installation
            .inlets
            .push(design.installation.inlets[0].clone());
        design.installation.inlets[2].diffuser = true;
        assert_eq!(groups(&design), [vec![0, 1], vec![2]]);
        assert_eq!(names(&design, &[0, 1]), "Left inlet, Right inlet");
        let found = DuctLengths::new(&design, 0, 1)
            .and_then(DuctLengths::finished)
            .expect("lengths");
        let duct = found.advised().expect("a duct");
        assert!(!is_taken(&design, &found.inlets, duct));
        let after = adjusted(taken(&design, &found.inlets, duct));
        for inlet in &after.installation.inlets[..2] {
            assert!(inlet.diffuser);
            assert!((inlet.diffuser_ratio - duct.area_ratio).abs() <= 0.005);
            assert_eq!(inlet.diffuser_length.value, duct.length_m);
        }
        assert_eq!(after.installation.inlets[2], design.installation.inlets[2]);
        assert!(is_taken(&after, &found.inlets, duct));
        // All inlets have a duct now.
        assert_eq!(groups(&after), [vec![0, 1, 2]]);
    }
}
