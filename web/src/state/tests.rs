//! What the builder can do to the state, and what never happens to it.

use crate::state::action::Action;
use crate::state::action::List;
use crate::state::document::{design_of, file_name, file_text, state_of, stored_text};
use crate::state::field;
use crate::state::field_key::FieldKey;
use crate::state::page::State;
use crate::state::reduce::reduce;
use coolpath_core::answer::evaluate::evaluate;
use coolpath_core::document::design::VERSION;
use coolpath_core::document::usual_condition::UsualCondition;
use coolpath_core::document::{example, table};
use coolpath_core::units::typed::UnitSystem;

const WIDTH: &str = "inlet.width_m";

fn typed(state: &State, id: &str, text: &str) -> State {
    reduce(
        state,
        Action::Type {
            key: FieldKey::new(id, 0),
            text: text.to_owned(),
        },
    )
}

fn shown(state: &State, id: &str) -> String {
    field::text(state, table::by_id(id).expect("an input"), 0)
}

fn width(state: &State) -> f64 {
    state.design.installation.inlets[0].width.value
}

#[test]
fn a_typed_width_reaches_the_design_and_the_text_stays_as_typed() {
    let state = typed(&State::default(), WIDTH, "7,5");
    assert!((width(&state) - 7.5 * 0.0254).abs() < 1e-15);
    assert_eq!(shown(&state, WIDTH), "7,5");
    let state = typed(&state, WIDTH, "180 mm");
    assert!((width(&state) - 0.18).abs() < 1e-15);
    assert_eq!(shown(&state, WIDTH), "180 mm");
}

#[test]
fn rubbish_stays_on_the_page_and_out_of_the_design() {
    let start = State::default();
    for text in ["", "-", "wide", "0", "1e9", "5 kg"] {
        let state = typed(&start, WIDTH, text);
        assert_eq!(width(&state), width(&start), "{text}");
        assert_eq!(shown(&state, WIDTH), text);
        let faults = state.faults();
        assert_eq!(faults.len(), 1, "{text}");
        assert!(
            faults[0]
                .1
                .starts_with("Inlet width must be between 0.5 and 40 in"),
            "{}",
            faults[0].1
        );
        let mended = typed(&state, WIDTH, "6");
        assert!(mended.faults().is_empty());
    }
    // Half a number on the way to a whole one.
    let state = typed(&start, WIDTH, "10.");
    assert_eq!(shown(&state, WIDTH), "10.");
    assert!((width(&state) - 0.254).abs() < 1e-15);
}

#[test]
fn two_switches_of_units_show_the_same_text_and_keep_what_was_wrong() {
    let state = typed(
        &typed(&State::default(), WIDTH, "6.3"),
        "inlet.height_m",
        "tall",
    );
    let value = width(&state);
    let metric = reduce(&state, Action::Units(UnitSystem::Metric));
    assert_eq!(shown(&metric, WIDTH), "160");
    assert_eq!(shown(&metric, "inlet.height_m"), "tall");
    let back = reduce(&metric, Action::Units(UnitSystem::Customary));
    assert_eq!(shown(&back, WIDTH), "6.3");
    assert_eq!(width(&back).to_bits(), value.to_bits());
}

#[test]
fn undo_takes_back_a_word_not_a_letter_and_redo_brings_it_again() {
    let start = State::default();
    let mut state = start.clone();
    for text in ["7", "7.", "7.2"] {
        state = typed(&state, WIDTH, text);
    }
    assert_eq!(state.past.len(), 1);
    let undone = reduce(&state, Action::Undo);
    assert_eq!(undone.design, start.design);
    assert_eq!(shown(&undone, WIDTH), "6.25");
    let again = reduce(&undone, Action::Redo);
    assert_eq!(shown(&again, WIDTH), "7.2");
    assert_eq!(reduce(&start, Action::Undo), start);
}

#[test]
fn lists_grow_and_shrink_and_texts_and_marks_follow_their_entry() {
    let mut state = State::default();
    let second = FieldKey::new(WIDTH, 1);
    state = reduce(
        &state,
        Action::Type {
            key: second.clone(),
            text: "odd".to_owned(),
        },
    );
    let recovery = FieldKey::new("inlet.recovery_root", 1);
    state = reduce(
        &state,
        Action::Measured {
            key: recovery,
            measured: true,
        },
    );
    assert_eq!(state.design.measured, ["inlet.recovery_root#1"]);
    let copied = reduce(&state, Action::Copy(List::Inlets, 0));
    assert_eq!(copied.design.installation.inlets.len(), 3);
    assert!(copied.drafts.contains_key(&FieldKey::new(WIDTH, 2)));
    assert_eq!(copied.design.measured, ["inlet.recovery_root#2"]);
    let removed = reduce(&copied, Action::Remove(List::Inlets, 0));
    assert!(removed.drafts.contains_key(&second));
    assert_eq!(removed.design.measured, ["inlet.recovery_root#1"]);
    // The last one stays.
    let mut one = removed;
    for _ in 0..5 {
        one = reduce(&one, Action::Remove(List::Inlets, 0));
    }
    assert_eq!(one.design.installation.inlets.len(), 1);
    // And there is room for four.
    for _ in 0..9 {
        one = reduce(&one, Action::Add(List::Inlets));
    }
    assert_eq!(one.design.installation.inlets.len(), 4);
    assert!(one.design.check().is_ok());
}

#[test]
fn conditions_move_and_the_one_shown_stays_within_the_list() {
    let state = State::default();
    let moved = reduce(&state, Action::MoveUp(List::Conditions, 1));
    assert_eq!(moved.design.conditions[0], state.design.conditions[1]);
    let mut few = reduce(&state, Action::Show(5));
    for _ in 0..5 {
        few = reduce(&few, Action::Remove(List::Conditions, 0));
    }
    assert_eq!((few.design.conditions.len(), few.shown), (1, 0));
}

#[test]
fn the_condition_shown_stays_the_same_when_another_is_removed_or_moved() {
    let state = reduce(&State::default(), Action::Show(3));
    let name = |state: &State| state.design.condition_name(state.shown).to_owned();
    for action in [
        Action::Remove(List::Conditions, 0),
        Action::MoveUp(List::Conditions, 3),
        Action::Remove(List::Conditions, 5),
    ] {
        let next = reduce(&state, action);
        assert_eq!(name(&next), name(&state));
    }
}

#[test]
fn the_state_survives_storage_with_its_faults_and_units() {
    let state = reduce(
        &typed(&State::default(), WIDTH, "wide"),
        Action::Units(UnitSystem::Metric),
    );
    let found = state_of(&stored_text(&state, 0.0, true).expect("text")).expect("state");
    assert!(found.design == state.design, "the design changed");
    assert_eq!(found.drafts, state.drafts);
    assert_eq!(found.system, UnitSystem::Metric);
    for broken in ["", "{}", "null", "{\"coolpath_state\":99}"] {
        assert!(state_of(broken).is_err(), "{broken}");
    }
    let later = stored_text(&state, 0.0, true).expect("text").replacen(
        "\"coolpath_state\":1",
        "\"coolpath_state\":2",
        1,
    );
    assert!(
        state_of(&later)
            .expect_err("later")
            .contains("later version")
    );
}

#[test]
fn a_design_file_comes_back_as_it_was_and_a_broken_one_says_where() {
    let design = example::design();
    let text = file_text(&design).expect("text");
    assert!(
        design_of(&text).expect("design") == design,
        "the design changed"
    );
    assert!(design_of(&format!("\u{feff}{text}")).expect("with a mark") == design);
    let broken = design_of(&text[..text.len() / 2]).expect_err("cut off");
    assert!(
        broken.contains("line") && broken.contains("column"),
        "{broken}"
    );
    let misspelt = design_of(&text.replacen("width_m", "widht_m", 1)).expect_err("misspelt");
    assert!(
        misspelt.contains("widht_m") && misspelt.contains("Nothing was changed"),
        "{misspelt}"
    );
    let today = format!("\"coolpath_design\": {VERSION}");
    let later = design_of(&text.replacen(&today, "\"coolpath_design\": 70", 1));
    assert!(later.expect_err("later").contains("later version"));
    let wild = text.replacen("\"rated_rpm\": 2700.0", "\"rated_rpm\": 1e9", 1);
    let wild = design_of(&wild).expect("what parses is opened");
    assert!(wild.check().is_err(), "out of range");
    assert_eq!(
        file_name(&design),
        "example-two-seat-tourer-flat-four-150-hp.coolpath.json"
    );
    let mut nameless = design;
    nameless.name = "///".to_owned();
    assert_eq!(file_name(&nameless), "design.coolpath.json");
}

#[test]
fn a_limit_or_an_oat_in_the_wrong_unit_is_questioned() {
    let limit = table::by_id("engine.head_limit_k").expect("an input");
    let fault = field::value(limit, "224", UnitSystem::Customary).expect_err("too low in °F");
    assert!(fault.contains("Did you mean 224 °C?"), "{fault}");
    let oat = table::by_id("condition.oat_k").expect("an input");
    let hot = field::value(oat, "48", UnitSystem::Metric).expect("permitted");
    assert!(field::question(oat, hot, UnitSystem::Metric).is_some());
    let mild = field::value(oat, "30", UnitSystem::Metric).expect("permitted");
    assert!(field::question(oat, mild, UnitSystem::Metric).is_none());
}

#[test]
fn usual_conditions_are_added_whole_and_have_answers() {
    let mut state = State::default();
    let before = state.design.conditions.len();
    for usual in UsualCondition::ALL {
        state = reduce(&state, Action::AddUsual(usual));
        let place = state.design.conditions.len() - 1;
        assert_eq!(state.design.conditions[place].name, usual.name());
        state.design.check().expect("a valid design");
        evaluate(&state.design, place).expect("an answer");
    }
    assert_eq!(
        state.design.conditions.len(),
        before + UsualCondition::ALL.len()
    );
}
