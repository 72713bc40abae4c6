//! The drawing's place on the page: the one file that knows which drawing is shown.

use crate::design::answers::Outcome;
use crate::design::drawing::{CowlDrawing, Part as Shape};
use crate::design::parts::Part;
use coolpath_core::answer::per_inch;
use coolpath_core::answer::solve_condition::solve_condition;
use coolpath_core::document::design::Design;
use coolpath_core::units::typed::UnitSystem;
use std::rc::Rc;
use yew::prelude::*;

/// What the drawing shows.
#[derive(Properties, Clone)]
pub struct Props {
    /// Design that the answers belong to.
    pub design: Rc<Design>,
    /// Answers in the order of the conditions.
    pub answers: Rc<Vec<Outcome>>,
    /// The condition's place.
    pub place: usize,
    /// Units.
    pub system: UnitSystem,
    /// The part that is chosen.
    pub selected: Part,
    /// Chooses a part.
    pub on_select: Callback<Part>,
}

impl PartialEq for Props {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.design, &other.design)
            && Rc::ptr_eq(&self.answers, &other.answers)
            && self.place == other.place
            && self.system == other.system
            && self.selected == other.selected
    }
}

/// The drawing, or why there is none.
#[function_component]
pub fn DrawingPane(props: &Props) -> Html {
    let Props {
        design,
        answers,
        place,
        system,
        on_select,
        ..
    } = props;
    let (Some(condition), Some(outcome)) = (design.conditions.get(*place), answers.get(*place))
    else {
        return Html::default();
    };
    let choose = on_select.reform(|shape: Shape| match shape {
        Shape::Aircraft => Part::Propeller,
        Shape::Inlets => Part::Inlet(0),
        Shape::Decks => Part::UpperDeck,
        Shape::Engine => Part::Engine,
        Shape::Oil => Part::Cooler,
        Shape::Exit => Part::Exit(0),
    });
    match outcome {
        Ok(answer) => html! {
            <div class="drawing-frame">
                <CowlDrawing installation={design.installation.clone()} answer={answer.clone()}
                    flap={condition.flap} worth={Vec::<per_inch::Worth>::new()} system={*system} on_choose={choose} />
            </div>
        },
        Err(error) => html! { <p class="fault">{ error.to_string() }</p> },
    }
}

/// What one more square inch is worth in a condition; nothing where it has no answer.
#[must_use]
pub fn worths(design: &Design, place: usize) -> Vec<per_inch::Worth> {
    design
        .conditions
        .get(place)
        .and_then(|condition| {
            let solved = solve_condition(&design.installation, condition, None).ok()?;
            per_inch::worth(&design.installation, condition.phase, &solved).ok()
        })
        .unwrap_or_default()
}
