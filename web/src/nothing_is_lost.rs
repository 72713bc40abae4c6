//! Whatever the builder does, and however the page is reloaded: what was typed is there afterwards.

use crate::decide::size::panel::taken;
use crate::share::code::{code, design_of_code};
use crate::state::action::{Action, List};
use crate::state::choices;
use crate::state::document::{design_of, file_text, opening, state_of, stored_text};
use crate::state::field;
use crate::state::field_key::FieldKey;
use crate::state::page::State;
use crate::state::readings;
use crate::state::readings::ReadingEdit;
use crate::state::reduce::reduce;
use coolpath_core::answer::evaluate::evaluate_all;
use coolpath_core::decide::compare::Preset;
use coolpath_core::decide::size;
use coolpath_core::decide::size::course::Sized;
use coolpath_core::document::alternative::Alternative;
use coolpath_core::document::design::{Calibrated, Design};
use coolpath_core::document::quantity::Quantity;
use coolpath_core::document::{example, table};
use coolpath_core::units::typed::UnitSystem;
use proptest::prelude::*;

fn typed(state: &State, id: &str, place: usize, text: &str) -> State {
    let key = FieldKey::new(id, place);
    let text = text.to_owned();
    reduce(state, Action::Type { key, text })
}

fn chosen(state: &State, id: &'static str, place: usize, option: &str) -> State {
    let option = option.to_owned();
    reduce(state, Action::Choose { id, place, option })
}

fn reloaded(state: &State) -> State {
    state_of(&stored_text(state, 1.0, true).expect("a text")).expect("a state")
}

/// The state, its file and its code open again as they were, and no answer is given.
fn is_refused_and_kept(state: &State, says: &str) {
    let again = reloaded(state);
    assert!(again.design == state.design, "{says}");
    assert_eq!(again.drafts, state.drafts, "{says}");
    let file = file_text(&state.design).expect("a file");
    assert!(
        design_of(&file).expect("a design") == state.design,
        "{says}"
    );
    let link = code(&state.design).expect("a code");
    assert!(design_of_code(&link).is_ok(), "{says}");
    let marked = state.withheld();
    assert!(
        marked.iter().any(|one| one.words.contains(says)),
        "{says}: {marked:?}"
    );
    for answer in evaluate_all(&state.design) {
        answer.expect_err(says);
    }
}

#[test]
fn a_refused_design_of_the_builders_own_survives_a_reload_a_file_and_a_link() {
    let start = State::default();
    let turbo = chosen(&start, "engine.kind", 0, "turbocharged");
    is_refused_and_kept(&turbo, "Turbocharged");
    let pipes = typed(&start, "exit.pipes_area_m2", 0, "70");
    is_refused_and_kept(&pipes, "block more than the opening has");
    let gap = typed(
        &typed(&start, "exit.pipes_area_m2", 0, "40"),
        "exit.gap_m",
        0,
        "2",
    );
    is_refused_and_kept(&gap, "block more than the opening has");
    let flap = chosen(&start, "exit.flap", 0, "true");
    let flap = typed(&flap, "exit.pipes_area_m2", 0, "45");
    let flap = typed(&flap, "exit.flap_open_area_m2", 0, "40");
    is_refused_and_kept(&flap, "block more than the opening has");
    let cold = chosen(&start, "oil.thermostat", 0, "true");
    let cold = typed(&cold, "oil.thermostat_opens_k", 0, "195");
    let cold = typed(&cold, "oil.thermostat_full_k", 0, "190");
    is_refused_and_kept(&cold, "thermostat");
}

#[test]
fn an_alternative_that_is_refused_is_opened_marked_and_survives_being_adopted() {
    let mut odd = example::design().installation;
    odd.exits.clear();
    let inlet = odd.inlets[0].clone();
    odd.inlets = vec![inlet; 11];
    let mut short = example::design();
    short.installation.decks.seal_length.value = 13.0 * 0.0254;
    let worn = Preset::WornSeals.applied(&short.installation);
    for (name, installation) in [("Odd", odd), ("Worn seals", worn)] {
        let alternative = Alternative {
            name: name.to_owned(),
            installation,
        };
        let state = reduce(
            &State::default(),
            Action::AddAlternative(Box::new(alternative)),
        );
        assert!(!state.alternative_faults(0).is_empty(), "{name}");
        assert!(state.withheld().is_empty(), "{name}");
        let file = file_text(&state.design).expect("a file");
        assert!(design_of(&file).expect("a design") == state.design);
        size_like(&state.design);
        let adopted = reduce(&state, Action::Adopt(0));
        assert!(!adopted.withheld().is_empty(), "{name}");
        assert!(reloaded(&adopted) == adopted, "{name}");
        assert_eq!(
            adopted.undo_name().as_deref(),
            Some(&*format!("adopting “{name}”"))
        );
        let back = reduce(&adopted, Action::Undo);
        assert!(back.design == state.design, "{name}");
    }
}

/// The comparison answers for a refused alternative by name, and does not compute it.
fn size_like(design: &Design) {
    let other = &design.alternatives[0].installation;
    let made = coolpath_core::decide::compare::difference(design, other, 1);
    made.expect_err("refused by name");
}

#[test]
fn empty_lists_of_a_file_are_shown_and_can_be_begun_again() {
    let mut design = example::design();
    design.installation.inlets.clear();
    design.installation.exits.clear();
    design.conditions.clear();
    let mut state = reduce(&State::default(), Action::Open(Box::new(design)));
    assert_eq!(state.withheld().len(), 3);
    assert!(reloaded(&state) == state);
    assert_eq!(state.shown, 0);
    for list in [List::Inlets, List::Exits, List::Conditions] {
        state = reduce(&state, Action::Remove(list, 0));
        state = reduce(&state, Action::Add(list));
    }
    assert!(state.withheld().is_empty(), "{:?}", state.withheld());
}

#[test]
fn what_earlier_versions_of_this_page_stored_opens() {
    let state = state_of(include_str!("../tests/earlier/state.json")).expect("a state");
    let width = table::by_id("inlet.width_m").expect("an input");
    let height = table::by_id("inlet.height_m").expect("an input");
    assert!((width.value(&state.design, 0).expect("a value") - 0.1905).abs() < 1e-12);
    assert_eq!(field::text(&state, height, 0), "tall");
    assert_eq!(readings::cell_text(&state, 0, Quantity::Oil), "93.33");
    assert_eq!(state.system, UnitSystem::Metric);
    let file = include_str!("../tests/earlier/design.json");
    assert!(design_of(file).expect("a design") == state.design);
    // What nobody touched took today's defaults, and says so.
    assert!(
        state
            .design
            .changes
            .iter()
            .any(|change| change.what.contains("today's default"))
    );
    let again = file_text(&state.design).expect("a file");
    assert!(design_of(&again).expect("a design") == state.design);
    let link = include_str!("../tests/earlier/code.txt");
    let linked = design_of_code(link).expect("a design");
    assert_eq!(linked.alternatives[0].name, "Worn seals");
    assert_eq!(linked.measured, ["exit.discharge"]);
}

#[test]
fn a_state_that_was_saved_from_storage_opens_as_a_file_with_its_texts() {
    let state = typed(&State::default(), "inlet.width_m", 0, "wide");
    let text = stored_text(&state, 1.0, true).expect("a text");
    let opened = reduce(&State::default(), opening(&text).expect("an action"));
    assert_eq!(opened.drafts, state.drafts);
    assert!(opened.design == state.design);
    let opened = reduce(
        &state,
        opening(&file_text(&example::design()).expect("a file")).expect("an action"),
    );
    assert!(opened.drafts.is_empty());
}

#[test]
fn undo_says_what_it_takes_back_and_does_so_after_a_reload() {
    let mut state = State::default();
    for text in ["5", "5.", "5.6"] {
        state = typed(&state, "exit.gap_m", 0, text);
    }
    let name = "Exit gap, lip to firewall 4.6 → 5.6 in";
    assert_eq!(state.undo_name().as_deref(), Some(name));
    state = typed(&state, "inlet.width_m", 1, "wide");
    assert_eq!(
        state.undo_name().as_deref(),
        Some("Inlet width 2 6.25 → “wide”")
    );
    let state = reloaded(&state);
    let state = reduce(&state, Action::Undo);
    assert_eq!(state.undo_name().as_deref(), Some(name));
    assert_eq!(
        state.redo_name().as_deref(),
        Some("Inlet width 2 6.25 → “wide”")
    );
    let state = reduce(&reloaded(&state), Action::Undo);
    assert!(state.design == example::design() && state.drafts.is_empty());
    let state = reduce(&reduce(&reloaded(&state), Action::Redo), Action::Redo);
    assert_eq!(state.drafts[&FieldKey::new("inlet.width_m", 1)], "wide");
}

#[test]
fn undo_brings_back_the_units_in_which_a_text_was_typed() {
    let state = typed(&State::default(), "inlet.width_m", 0, "7.2");
    let state = reduce(&state, Action::Units(UnitSystem::Metric));
    let state = typed(&state, "inlet.height_m", 0, "90");
    let state = reduce(&reduce(&state, Action::Undo), Action::Redo);
    assert!(state.faults().is_empty());
    let back = reduce(&reduce(&state, Action::Undo), Action::Undo);
    assert_eq!(back.system, UnitSystem::Customary);
    let again = reduce(&back, Action::Redo);
    let width = table::by_id("inlet.width_m").expect("an input");
    let shown = field::value(width, &field::text(&again, width, 0), again.system);
    // What is shown is rounded, what is kept is not.
    let (shown, kept) = (
        shown.expect("a width"),
        width.value(&again.design, 0).expect("a width"),
    );
    assert!((shown - kept).abs() < 1e-4, "{shown} {kept}");
}

#[test]
fn a_text_that_becomes_valid_with_the_units_is_what_the_design_holds() {
    let state = typed(&State::default(), "inlet.width_m", 0, "200");
    assert_eq!(state.faults().len(), 1);
    let metric = reduce(&state, Action::Units(UnitSystem::Metric));
    assert!(metric.faults().is_empty());
    assert!((metric.design.installation.inlets[0].width.value - 0.2).abs() < 1e-12);
    assert!(reduce(&metric, Action::Undo).design == state.design);
}

#[test]
fn another_value_is_no_longer_a_measured_one() {
    let key = FieldKey::new("exit.discharge", 0);
    let measured = true;
    let state = typed(&State::default(), "exit.discharge", 0, "0.8");
    let state = reduce(&state, Action::Measured { key, measured });
    let same = typed(&state, "exit.discharge", 0, "0.80");
    assert_eq!(same.design.measured, ["exit.discharge"]);
    let other = typed(&same, "exit.discharge", 0, "0.7");
    assert!(other.design.measured.is_empty());
}

#[test]
fn a_calibrated_range_from_a_link_is_judged_at_its_field() {
    let mut design = example::design();
    design.calibrated.push(Calibrated {
        input: "exit.discharge".to_owned(),
        value: design.installation.exits[0].discharge,
        likely: (0.9, 0.95),
    });
    let linked = design_of_code(&code(&design).expect("a code")).expect("a design");
    let state = reduce(&State::default(), Action::Open(Box::new(linked)));
    is_refused_and_kept(&state, "calibrated range");
    let element = state.withheld()[0].element.clone();
    assert_eq!(element.as_deref(), Some("exit-discharge-0"));
}

#[test]
fn taking_a_size_keeps_the_texts_of_all_else() {
    let state = typed(&State::default(), "condition.oat_k", 3, "-");
    let state = typed(&state, "cooler.duct_diameter_m", 0, "3 in");
    let demand = size::Demand::nominal(&state.design);
    let bounds = size::Bounds {
        inlets_m2: (0.02, 0.1),
        exit_m2: (0.02, 0.2),
    };
    let found = size::least_drag(&state.design, &demand, &bounds).expect("a size");
    let taken = taken(&Sized::Openings(Box::new(found)), &state.design);
    let sized = reduce(&state, taken);
    assert!(sized.design != state.design);
    assert_eq!(sized.drafts, state.drafts);
    let back = reduce(&reloaded(&sized), Action::Undo);
    assert!(back.design == state.design);
}

#[test]
fn a_size_found_before_an_alternative_was_kept_leaves_it_there() {
    let mut state = State::default();
    state
        .design
        .measured
        .push("airframe.propeller_share".to_owned());
    let before = state.design.clone();
    let demand = size::Demand::nominal(&before);
    let bounds = size::Bounds {
        inlets_m2: (0.02, 0.1),
        exit_m2: (0.02, 0.2),
    };
    let wide = size::least_drag(&before, &demand, &bounds).expect("a size");
    let roomy = Design {
        installation: wide.installation.clone(),
        ..before
    };
    let flap = size::flap(&roomy, &demand, (0.01, 0.2)).expect("a flap");
    let kept = done(&state, &Deed::Keep);
    for sized in [Sized::Openings(Box::new(wide)), Sized::Flap(Box::new(flap))] {
        let taken = reduce(&kept, taken(&sized, &kept.design));
        assert_eq!(taken.design.alternatives, kept.design.alternatives);
        assert!(taken.design.installation != kept.design.installation);
    }
}

#[test]
fn a_number_that_is_none_never_enters_the_design() {
    let start = State::default();
    let mut wild = example::design();
    wild.installation.exits[0].gap.value = f64::NAN;
    let key = FieldKey::new("exit.gap_m", 0);
    let value = f64::INFINITY;
    for action in [Action::Adjust(Box::new(wild)), Action::Set { key, value }] {
        assert!(reduce(&start, action).design == start.design);
    }
}

/// Something the builder may do.
#[derive(Debug, Clone)]
enum Deed {
    Type(usize, usize, String),
    Cell(usize, Quantity, String),
    Choose(usize, usize, usize),
    Units(bool),
    Keep,
    Adopt(usize),
    TakeASize,
    Copy(u8, usize),
    Remove(u8, usize),
    MoveUp(u8, usize),
    AddReading,
    RemoveReading(usize),
    Measured(usize),
    Open,
    Undo,
    Redo,
    Reload,
}

fn text() -> impl Strategy<Value = String> {
    prop_oneof![
        "[0-9]{1,3}(\\.[0-9]{1,3})?",
        "[0-9]{1,2}( mm| in|,5|'|\\.)?",
        "\\PC{0,8}",
        Just(String::new()),
    ]
}

fn deed() -> impl Strategy<Value = Deed> {
    let inputs = table::all().count();
    let choices = choices::all().count();
    let quantities = Quantity::ALL.len();
    prop_oneof![
        8 => (0..inputs, 0..3_usize, text()).prop_map(|(at, place, text)| Deed::Type(at, place, text)),
        2 => (0..3_usize, 0..quantities, text())
            .prop_map(|(place, at, text)| Deed::Cell(place, Quantity::ALL[at], text)),
        3 => (0..choices, 0..2_usize, 0..8_usize).prop_map(|(at, place, option)| Deed::Choose(at, place, option)),
        1 => any::<bool>().prop_map(Deed::Units),
        1 => Just(Deed::Keep),
        1 => (0..4_usize).prop_map(Deed::Adopt),
        1 => Just(Deed::TakeASize),
        1 => (0..3_u8, 0..4_usize).prop_map(|(list, at)| Deed::Copy(list, at)),
        1 => (0..3_u8, 0..4_usize).prop_map(|(list, at)| Deed::Remove(list, at)),
        1 => (0..3_u8, 0..4_usize).prop_map(|(list, at)| Deed::MoveUp(list, at)),
        1 => Just(Deed::AddReading),
        1 => (0..3_usize).prop_map(Deed::RemoveReading),
        1 => (0..inputs).prop_map(Deed::Measured),
        1 => Just(Deed::Open),
        3 => Just(Deed::Undo),
        2 => Just(Deed::Redo),
        3 => Just(Deed::Reload),
    ]
}

fn list(at: u8) -> List {
    [List::Inlets, List::Exits, List::Conditions][usize::from(at)]
}

fn done(state: &State, deed: &Deed) -> State {
    let input = |at: usize| table::all().nth(at).expect("an input");
    let action = match deed {
        Deed::Type(at, place, text) => return typed(state, input(*at).id, *place, text),
        Deed::Cell(place, quantity, text) => {
            Action::Reading(ReadingEdit::Cell(*place, *quantity, text.clone()))
        }
        Deed::Choose(at, place, option) => {
            let choice = choices::all().nth(*at).expect("a choice");
            let option = choice.options[option % choice.options.len()];
            return chosen(state, choice.id, *place, option.value);
        }
        Deed::Units(true) => Action::Units(UnitSystem::Metric),
        Deed::Units(false) => Action::Units(UnitSystem::Customary),
        Deed::Keep => Action::AddAlternative(Box::new(Alternative {
            name: "Kept".to_owned(),
            installation: Preset::WornSeals.applied(&state.design.installation),
        })),
        Deed::Adopt(place) => Action::Adopt(*place),
        Deed::TakeASize => {
            let demand = size::Demand::nominal(&state.design);
            let found = size::smallest_exit(&state.design, &demand, (0.01, 0.2));
            let Ok(found) = found else {
                return state.clone();
            };
            taken(&Sized::Openings(Box::new(found)), &state.design)
        }
        Deed::Copy(at, place) => Action::Copy(list(*at), *place),
        Deed::Remove(at, place) => Action::Remove(list(*at), *place),
        Deed::MoveUp(at, place) => Action::MoveUp(list(*at), *place),
        Deed::AddReading => Action::Reading(ReadingEdit::Add),
        Deed::RemoveReading(place) => Action::Reading(ReadingEdit::Remove(*place)),
        Deed::Measured(at) => Action::Measured {
            key: FieldKey::new(input(*at).id, 0),
            measured: true,
        },
        Deed::Open => Action::Open(Box::new(example::design())),
        Deed::Undo => Action::Undo,
        Deed::Redo => Action::Redo,
        Deed::Reload => return reloaded(state),
    };
    reduce(state, action)
}

/// Every valid text that stands in a field is the value that the design holds.
fn shows_what_it_holds(state: &State) {
    for (key, text) in &state.drafts {
        let Some(input) = key.input() else { continue };
        let held = input.value(&state.design, key.place);
        if let (Ok(value), Some(held)) = (field::value(input, text, state.system), held) {
            assert_eq!(value.to_bits(), held.to_bits(), "{} “{text}”", key.id);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn what_was_typed_is_there_after_whatever_is_done(deeds in prop::collection::vec(deed(), 1..30)) {
        let mut state = State::default();
        for deed in &deeds {
            let next = done(&state, deed);
            if let Deed::Type(at, place, text) = deed {
                let key = FieldKey::new(table::all().nth(*at).expect("an input").id, *place);
                prop_assert_eq!(&next.drafts[&key], text);
            }
            if let Deed::Cell(place, quantity, text) = deed {
                prop_assert_eq!(&readings::cell_text(&next, *place, *quantity), text);
            }
            shows_what_it_holds(&next);
            // A reload changes nothing, the steps of undo among it.
            let again = reloaded(&next);
            prop_assert!(again.design == next.design, "the design after {deed:?}");
            prop_assert_eq!(&again.drafts, &next.drafts);
            prop_assert_eq!(again.shown, next.shown);
            prop_assert_eq!(again.past.len(), next.past.len());
            for (one, other) in again.past.iter().zip(&next.past).chain(again.future.iter().zip(&next.future)) {
                prop_assert!(one.design == other.design, "a step of undo after {deed:?}");
                prop_assert_eq!(&one.drafts, &other.drafts);
                prop_assert_eq!(one.system, other.system);
            }
            // What an edit replaced comes back with undo, and with redo goes again.
            if next.past.len() > state.past.len() && !matches!(deed, Deed::Redo) {
                let undone = reduce(&next, Action::Undo);
                prop_assert!(undone.design == state.design, "undo of {deed:?}");
                prop_assert_eq!(&undone.drafts, &state.drafts);
                let redone = reduce(&undone, Action::Redo);
                prop_assert!(redone.design == next.design, "redo of {deed:?}");
                prop_assert_eq!(&redone.drafts, &next.drafts);
            }
            prop_assert!(next.past.is_empty() == next.undo_name().is_none());
            let file = file_text(&next.design).expect("a file");
            prop_assert!(design_of(&file).as_ref() == Ok(&next.design));
            state = next;
        }
    }
}
