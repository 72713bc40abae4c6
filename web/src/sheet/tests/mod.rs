//! Claims about whole drawings.

mod dice;
mod rules;

use super::proportions::Frame;
use super::scene::Scene;
use super::strands::Branch;
use super::*;
use coolpath_core::answer::evaluate::evaluate;
use coolpath_core::document::design::Design;
use coolpath_core::document::example as demo;
use coolpath_core::document::installation::{
    CoolerDischarge, CoolerRating, CoolerSupply, InletPosition, Sealing,
};
use coolpath_core::units::quantity::{metre, square_metre};
use coolpath_core::units::si::{inch, inch2};
use dice::{Dice, random_design, random_readout};
use rules::{checked, is_xml};

#[test]
fn five_hundred_random_designs_are_drawn_without_a_fault() {
    let mut dice = Dice(7);
    for seed in 0..500 {
        let design = random_design(&mut dice);
        let before = random_design(&mut dice).installation;
        let installation = &design.installation;
        let readout = random_readout(&mut dice, installation);
        let sheets = [
            (375.0, 330.0, true),
            (1024.0, 600.0, false),
            (1440.0, 860.0, false),
        ];
        let views = [View::All, View::Side, View::Front, View::Plan];
        // Every seed takes every view and every sheet, and both faces by turns.
        for (turn, view) in views.into_iter().enumerate() {
            let (width, height, touch) = sheets[(seed + turn) % 3];
            let widths: &dyn TextWidth = if dice.yes() { &Widest } else { &Narrow };
            let request = Request {
                before: dice.yes().then_some(&before),
                flap: dice.share(),
                shutter: dice.share(),
                readout: (seed % 11 != 0).then_some(&readout),
                view,
                selected: dice.one_of(&[
                    None,
                    Some(Part::Exit),
                    Some(Part::Inlets),
                    Some(Part::Shutter),
                    Some(Part::Cooler),
                ]),
                system: dice.one_of(&[UnitSystem::Customary, UnitSystem::Metric]),
                widths,
                touch,
                ..Request::new(installation, width, height)
            };
            let name = format!("design {seed}, {view:?}, {width}");
            let drawing = checked(&request, &name);
            if seed % 10 == 0 {
                is_xml(&drawing.svg, &name);
            }
        }
    }
}

#[test]
fn usual_designs_are_drawn_without_a_fault_in_every_view_width_and_face() {
    let mut dice = Dice(11);
    for seed in 0..6 {
        let mut design = demo::design();
        let installation = &mut design.installation;
        installation.engine.cylinders = dice.one_of(&[2, 4, 6, 8]);
        installation.cooler.bends = dice.one_of(&[0, 1, 2]);
        installation.exits[0].flap = dice.yes();
        if dice.yes() {
            installation.decks.sealing = Sealing::HardPlenum;
        }
        if dice.yes() {
            installation.cooler.supply = CoolerSupply::OwnInlet;
            installation.cooler.discharge = CoolerDischarge::OwnExit;
        }
        let answer = evaluate(&design, seed).expect("solved");
        let readout = Readout::nominal(&answer);
        for view in [View::All, View::Side, View::Front, View::Plan] {
            for (width, height, touch) in [
                (375.0, 330.0, true),
                (1024.0, 560.0, false),
                (1440.0, 900.0, false),
            ] {
                for widths in [&Widest as &dyn TextWidth, &Narrow] {
                    for system in [UnitSystem::Customary, UnitSystem::Metric] {
                        for selected in [None, Some(Part::Exit), Some(Part::Inlets)] {
                            let request = Request {
                                readout: Some(&readout),
                                view,
                                selected,
                                system,
                                widths,
                                touch,
                                ..Request::new(&design.installation, width, height)
                            };
                            let name = format!("design {seed}, {view:?}, {width}, {system:?}");
                            let drawing = checked(&request, &name);
                            if selected.is_some() {
                                is_xml(&drawing.svg, &name);
                            }
                        }
                    }
                }
            }
        }
    }
}

#[test]
fn lanes_add_up_at_every_split_of_random_designs() {
    let mut dice = Dice(3);
    for seed in 0..500 {
        let design = random_design(&mut dice);
        let installation = &design.installation;
        let readout = random_readout(&mut dice, installation);
        let request = Request {
            readout: Some(&readout),
            ..Request::new(installation, 1000.0, 600.0)
        };
        let scene = Scene::new(&request, true);
        let strands = &scene.strands;
        let bank = scene.frame.cylinders.len();
        let fins: f64 = (0..2 * bank)
            .map(|place| strands.through(Branch::Fin(place)))
            .sum();
        let close = |drawn: f64, flow: f64, what: &str| {
            assert!(
                (drawn - flow.abs()).abs() < 1e-5,
                "{seed} {what}: {drawn} {flow}"
            );
        };
        close(fins, readout.fin_kg_s, "fins");
        // The leak is seen in both decks.
        close(
            strands.through(Branch::Seal),
            2.0 * readout.seal_kg_s,
            "seal",
        );
        let inlets: f64 = [Branch::Front, Branch::Belly, Branch::Flush]
            .into_iter()
            .map(|branch| strands.through(branch))
            .sum();
        close(inlets, readout.inlet_kg_s(), "inlets");
        let exits = strands.through(Branch::Lip) + strands.through(Branch::Louvers);
        close(exits, readout.exit_kg_s(), "exits");
    }
}

fn drawn(change: impl FnOnce(&mut Design), ask: impl FnOnce(&mut Request)) -> Drawing {
    let mut design = demo::design();
    change(&mut design);
    let answer = evaluate(&design, 1).expect("solved");
    let readout = Readout::nominal(&answer);
    let mut request = Request {
        readout: Some(&readout),
        ..Request::new(&design.installation, 1200.0, 700.0)
    };
    ask(&mut request);
    Drawing::of(&request)
}

#[test]
fn projection_follows_the_units() {
    let place = |drawing: &Drawing, view: View| {
        drawing
            .views
            .iter()
            .find(|(other, _)| *other == view)
            .map(|(_, area)| *area)
            .expect("drawn")
    };
    let third = drawn(|_| (), |_| ());
    let first = drawn(|_| (), |request| request.system = UnitSystem::Metric);
    let (side, front, plan) = (View::Side, View::Front, View::Plan);
    assert!(place(&third, front).right < place(&third, side).left);
    assert!(place(&third, plan).bottom < place(&third, side).top);
    assert!(place(&first, front).left > place(&first, side).right);
    assert!(place(&first, plan).top > place(&first, side).bottom);
    assert!(third.svg.contains("Third-angle") && first.svg.contains("First-angle"));
    for drawing in [&third, &first] {
        // Views share their axes.
        assert!((place(drawing, front).top - place(drawing, side).top).abs() < 1e-9);
    }
}

#[test]
fn what_is_not_fitted_is_not_drawn() {
    let with = drawn(|_| (), |_| ());
    let without = drawn(|design| design.installation.shutter.fitted = false, |_| ());
    let shutter = |drawing: &Drawing| drawing.parts.iter().any(|hit| hit.part == Part::Shutter);
    assert!(shutter(&with) && with.svg.contains("\"disc\""));
    assert!(!shutter(&without) && !without.svg.contains("\"disc\""));
    assert!(!without.tags.iter().any(|tag| tag.part == Part::Shutter));
    let lid = |drawing: &Drawing| drawing.svg.contains("class=\"lid\"");
    let plenum = drawn(
        |design| design.installation.decks.sealing = Sealing::HardPlenum,
        |_| (),
    );
    assert!(lid(&plenum) && !lid(&with));
    let still = drawn(|_| (), |request| request.readout = None);
    assert!(!still.svg.contains("class=\"lane\"") && !still.svg.contains("class=\"leak"));
}

/// Ends of the shutter's disc in the side view.
fn disc(drawing: &Drawing) -> [(f64, f64); 2] {
    let from = drawing.svg.find("class=\"disc").expect("a disc");
    let path = drawing.svg[from..].split(" d=\"").nth(1).expect("a path");
    let path = path.split('"').next().expect("an end");
    let numbers: Vec<f64> = path
        .split(['M', 'L', ' '])
        .filter_map(|number| number.parse().ok())
        .collect();
    [(numbers[0], numbers[1]), (numbers[2], numbers[3])]
}

#[test]
fn a_closed_disc_stands_upright_and_an_open_one_lies_level() {
    let [a, b] = disc(&drawn(|_| (), |request| request.shutter = 0.0));
    assert!((a.0 - b.0).abs() < 0.11 && (a.1 - b.1).abs() > 20.0);
    let [a, b] = disc(&drawn(|_| (), |request| request.shutter = 1.0));
    assert!((a.1 - b.1).abs() < 0.11 && (a.0 - b.0).abs() > 20.0);
    let [a, b] = disc(&drawn(|_| (), |request| request.shutter = 0.5));
    assert!(((a.0 - b.0).abs() - (a.1 - b.1).abs()).abs() < 0.21);
}

#[test]
fn the_flap_stands_at_the_angle_of_its_area() {
    let mut installation = demo::design().installation;
    let exit = &mut installation.exits[0];
    exit.flap = true;
    exit.width = metre(inch(14.0));
    exit.pipes_area = square_metre(0.0);
    exit.gap = metre(inch(3.0));
    exit.flap_area = square_metre(inch2(14.0 * 7.0));
    let frame = Frame::of(&installation, 1.0, &Proportions::default());
    // 9 in of flap come down by 4 in from 0.15 in above their hinge.
    let expected = (3.85_f64 / 9.0).asin() + (0.15_f64 / 9.0).asin();
    assert!(
        (frame.flap_turn - expected).abs() < 2e-3,
        "{}",
        frame.flap_turn
    );
    let closed = Frame::of(&installation, 0.0, &Proportions::default());
    assert!(closed.flap_turn.abs() < 1e-9);
}

#[test]
fn reversed_air_is_dashed_and_says_so() {
    let mut design = demo::design();
    design.installation.decks.inflow_leak = square_metre(inch2(60.0));
    design.installation.decks.inflow_pressure = 1.0;
    for inlet in &mut design.installation.inlets {
        inlet.position = InletPosition::Flush;
        inlet.recovery_flush = 0.05;
    }
    design.installation.exits[0].pressure_coefficient = 0.5;
    let answer = evaluate(&design, 1).expect("solved");
    assert!(answer.leak_flow.value < 0.0 && answer.fin_flow.value < 0.0);
    let readout = Readout::nominal(&answer);
    let drawing = Drawing::of(&Request {
        readout: Some(&readout),
        ..Request::new(&design.installation, 1200.0, 700.0)
    });
    assert!(drawing.svg.contains("class=\"leak rev\""));
    assert!(drawing.svg.contains("stroke-dasharray=\"5 3\""));
    let tag = drawing
        .tags
        .iter()
        .find(|tag| tag.label.contains("reversed"))
        .expect("a tag");
    assert!(tag.state == Some(State::Close) && !tag.value.contains('−'));
    let forward = drawn(|_| (), |_| ());
    assert!(!forward.svg.contains("stroke-dasharray=\"5 3\""));
}

#[test]
fn names_cannot_break_the_markup() {
    let title = TitleBlock {
        design: "<script>\"&' of a very long name that no block could ever hold, truly".to_owned(),
        condition: "a]]><b>".to_owned(),
        day: "1 < 2".to_owned(),
    };
    let design = demo::design();
    let request = Request {
        title: Some(&title),
        ..Request::new(&design.installation, 1000.0, 700.0)
    };
    let drawing = checked(&request, "title");
    is_xml(&drawing.svg, "title");
    assert!(!drawing.svg.contains("<script"));
    assert!(drawing.svg.contains("1 &lt; 2"));
}

#[test]
fn the_dimension_of_a_selected_part_names_its_input() {
    let exit = drawn(|_| (), |request| request.selected = Some(Part::Exit));
    let inlets = drawn(|_| (), |request| request.selected = Some(Part::Inlets));
    let named = |drawing: &Drawing| {
        drawing
            .dimensions
            .iter()
            .map(|field| field.input)
            .collect::<Vec<_>>()
    };
    assert_eq!(named(&exit), ["exit.gap_m", "exit.width_m"]);
    assert_eq!(named(&inlets), ["inlet.height_m", "inlet.width_m"]);
    let hose = drawn(|_| (), |request| request.selected = Some(Part::Shutter));
    assert_eq!(named(&hose), ["cooler.duct_diameter_m"]);
    let core = drawn(|_| (), |request| request.selected = Some(Part::Cooler));
    let mut found = named(&core);
    found.sort_unstable();
    assert_eq!(found, ["cooler.face_height_m", "cooler.face_width_m"]);
    for drawing in [&exit, &inlets, &hose, &core] {
        for field in &drawing.dimensions {
            let input = coolpath_core::document::table::by_id(field.input).expect("an input");
            let value = input.value(&demo::design(), field.place).expect("a value");
            assert!((value - field.value).abs() < 1e-12);
            let attribute = format!("data-dimension=\"{}\"", field.input);
            assert!(drawing.svg.contains(&attribute));
        }
    }
}

#[test]
fn every_cooler_has_the_dimensions_of_what_was_typed_of_it() {
    let fields = |change: fn(&mut Design), part: Part, view: View| {
        let mut found: Vec<(&str, String)> = drawn(change, |request| {
            request.selected = Some(part);
            request.view = view;
            request.system = UnitSystem::Customary;
        })
        .dimensions
        .into_iter()
        .map(|field| (field.input, field.text))
        .collect();
        found.sort_unstable();
        found
    };
    let counted: fn(&mut Design) =
        |design| design.installation.cooler.rating = CoolerRating::FromSize;
    let on_baffle: fn(&mut Design) =
        |design| design.installation.cooler.supply = CoolerSupply::RearBaffle;
    let scooped: fn(&mut Design) =
        |design| design.installation.cooler.supply = CoolerSupply::OwnInlet;
    let of = |list: &[(&'static str, &str)]| -> Vec<(&str, String)> {
        list.iter()
            .map(|(id, text)| (*id, (*text).to_owned()))
            .collect()
    };
    // Rows are counted: what one is high stands there with how many they are.
    assert_eq!(
        fields(counted, Part::Cooler, View::Side),
        of(&[("cooler.row_pitch_m", "10 × 0.47 in")])
    );
    // A scoop's mouth is an area.
    assert_eq!(
        fields(scooped, Part::Cooler, View::Side),
        of(&[
            ("cooler.face_height_m", "5 in"),
            ("cooler.own_inlet_area_m2", "10 in²")
        ])
    );
    assert_eq!(
        fields(scooped, Part::Cooler, View::Plan),
        of(&[("cooler.face_width_m", "6.5 in")])
    );
    // A core on the baffle has no hose, nor has one in a scoop.
    assert!(fields(on_baffle, Part::Shutter, View::Side).is_empty());
    assert!(fields(scooped, Part::Shutter, View::Side).is_empty());
}

#[test]
fn the_design_before_stays_dashed_where_it_differs() {
    let mut before = demo::design().installation;
    let same = before.clone();
    before.exits[0].gap = metre(inch(3.0));
    let ghosts = |before: &Installation| {
        let design = demo::design();
        Drawing::of(&Request {
            before: Some(before),
            ..Request::new(&design.installation, 1200.0, 700.0)
        })
        .svg
        .matches("class=\"ghost\"")
        .count()
    };
    assert!(ghosts(&before) >= 3);
    assert_eq!(ghosts(&same), 0);
}

#[test]
fn parts_are_reached_in_the_order_of_the_airs_way() {
    let drawing = drawn(|_| (), |_| ());
    let side: Vec<Part> = drawing
        .parts
        .iter()
        .filter(|hit| hit.view == View::Side)
        .map(|hit| hit.part)
        .collect();
    assert_eq!(side, Part::ALL);
    let tabbed = drawing.svg.matches("tabindex=\"0\"").count();
    assert_eq!(tabbed, Part::ALL.len());
    for part in Part::ALL {
        assert_eq!(Part::named(part.name()), Some(part));
    }
}

#[test]
fn a_half_plan_claims_no_likeness_that_is_not_there() {
    // The ticks of a half view are two short strokes at each end of its centre line.
    let strokes = |change: fn(&mut Design)| {
        let drawing = drawn(change, |_| ());
        let plan = drawing.svg.split("class=\"view plan\"").nth(1);
        plan.expect("a plan").matches("class=\"t2\"").count()
    };
    let like = strokes(|_| ());
    let unlike = strokes(|design| design.installation.inlets[1].width = metre(inch(4.0)));
    assert_eq!(like, unlike + 2);
}

#[test]
fn a_dimension_is_named_after_its_entry_and_can_be_hit_by_a_finger() {
    for (touch, width, least) in [(true, 351.0, 44.0), (false, 1200.0, 30.0)] {
        for (part, view, names) in [
            (Part::Inlets, View::Front, vec!["Right inlet width"]),
            (Part::Inlets, View::Side, vec!["Left inlet height"]),
            (Part::Exit, View::Side, vec!["Cowl exit gap"]),
            (Part::Exit, View::Front, vec!["Cowl exit width"]),
            (Part::Shutter, View::Side, vec!["Duct diameter"]),
            (Part::Cooler, View::Side, vec!["Core height"]),
            (Part::Cooler, View::Plan, vec!["Core width"]),
        ] {
            let drawing = drawn(
                |_| (),
                |request| {
                    (request.selected, request.view) = (Some(part), view);
                    (request.width, request.height, request.touch) = (width, 330.0, touch);
                },
            );
            assert_eq!(drawing.dimensions.len(), names.len(), "{part:?} {view:?}");
            for (field, name) in drawing.dimensions.iter().zip(names) {
                let label = format!("aria-label=\"{name}, {}\"", field.text);
                assert!(drawing.svg.contains(&label), "{label}");
                assert!(field.hit.width() >= least && field.hit.height() >= least);
                let frame = Area::sized(point(0.0, 0.0), width, 330.0);
                assert_eq!(field.hit.kept_in(&frame), field.hit, "{part:?} {view:?}");
            }
        }
    }
}

#[test]
fn heads_and_oil_are_marked_as_the_verdict_judges_them() {
    use coolpath_core::answer::band::bands;
    use coolpath_core::answer::evaluate::Limit;
    use coolpath_core::answer::verdict::{DEFAULT_CHANCE, Verdict, judge};
    let design = demo::design();
    let mut seen = Vec::new();
    for place in 0..design.conditions.len() {
        let answer = evaluate(&design, place).expect("solved");
        let bands = bands(&design, place).expect("bands");
        let installation = &design.installation;
        let found = judge(installation, &answer, Some(&bands), None, DEFAULT_CHANCE);
        let readout = Readout::judged(installation, &answer, Some(&bands));
        let (worse, other) = match found.worse {
            Limit::Head => (readout.head, readout.oil),
            Limit::Oil => (readout.oil, readout.head),
        };
        let expected = match found.verdict {
            Verdict::Inside => State::Inside,
            Verdict::TooClose => State::Close,
            Verdict::TooCold => State::TooCold,
            Verdict::Over if found.margin_k >= 0.0 => State::LikelyOver,
            Verdict::Over => State::Over,
        };
        assert_eq!(worse.state, Some(expected), "condition {place}");
        if expected == State::Inside {
            assert_eq!(other.state, Some(State::Inside), "condition {place}");
        }
        let nominal = Readout::nominal(&answer);
        if expected == State::Close {
            // No tick and no triangle: it is under its limit, but nobody can be sure of that.
            assert_eq!(nominal.head.state.or(nominal.oil.state), None);
        }
        seen.push(expected);
    }
    for state in [State::Inside, State::Close, State::Over] {
        assert!(seen.contains(&state), "{state:?} in {seen:?}");
    }
}
