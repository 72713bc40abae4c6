//! Writes the drawing of invented aircraft as pages, to be looked at:
//! `cargo run -p coolpath-web --example sheet -- folder`.

use coolpath_core::answer::evaluate::evaluate;
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::{
    CoolerDischarge, CoolerRating, CoolerSupply, EngineKind, Exit, ExitEdge, ExitShape, FlapGiven,
    Inlet, InletPosition, InletShape, Lip, Sealing, SecondCooler,
};
use coolpath_core::units::quantity::{metre, square_metre, watt};
use coolpath_core::units::si::{hp, inch, inch2};
use coolpath_core::units::typed::UnitSystem;
use coolpath_core::{Installation, document::example as demo};
use coolpath_web::sheet::{
    Drawing, Part, Proportions, Readout, Request, STYLE, State, TextWidth, TitleBlock, View, Widest,
};
use std::path::Path;

/// One page.
struct Page {
    name: &'static str,
    design: Design,
    before: Option<Installation>,
    condition: usize,
    selected: Option<Part>,
    system: UnitSystem,
    states: Option<(State, State)>,
    title: bool,
    asked: &'static [Part],
    proportions: Proportions,
}

fn page(name: &'static str, design: Design) -> Page {
    Page {
        name,
        design,
        before: None,
        condition: 1,
        selected: None,
        system: UnitSystem::Metric,
        states: None,
        title: false,
        asked: &[],
        proportions: Proportions::default(),
    }
}

/// A flat six with a plenum, rings with diffusers and a cowl flap.
fn six() -> Design {
    let mut design = demo::design();
    let installation = &mut design.installation;
    installation.engine.cylinders = 6;
    installation.engine.rated_power = watt(hp(250.0));
    installation.airframe.propeller_diameter = metre(inch(78.0));
    installation.decks.sealing = Sealing::HardPlenum;
    for inlet in &mut installation.inlets {
        inlet.shape = InletShape::Ring;
        inlet.diameter = metre(inch(5.5));
        inlet.position = InletPosition::ForwardClear;
        inlet.lip_radius = metre(inch(0.5));
        inlet.diffuser = true;
        inlet.diffuser_ratio = 1.9;
        inlet.diffuser_length = metre(inch(7.0));
    }
    installation.cooler.face_width = metre(inch(7.5));
    installation.cooler.face_height = metre(inch(6.0));
    installation.cooler.bends = 1;
    let exit = &mut installation.exits[0];
    exit.width = metre(inch(17.0));
    exit.gap = metre(inch(3.5));
    exit.pipes_area = square_metre(inch2(7.0));
    exit.flap = true;
    exit.flap_area = square_metre(inch2(116.0));
    for condition in &mut design.conditions[..3] {
        condition.flap = 1.0;
    }
    design
}

/// A scoop for the oil cooler alone, and blunt inlets.
fn scoop() -> Design {
    let mut design = demo::design();
    let installation = &mut design.installation;
    installation.airframe.propeller_diameter = metre(inch(68.0));
    for inlet in &mut installation.inlets {
        inlet.width = metre(inch(6.5));
        inlet.height = metre(inch(3.05));
        inlet.lip = Lip::Blunt;
        inlet.position = InletPosition::ForwardClear;
    }
    installation.cooler.supply = CoolerSupply::OwnInlet;
    installation.cooler.discharge = CoolerDischarge::OwnExit;
    installation.shutter.fitted = false;
    installation.exits[0].gap = metre(inch(3.35));
    design
}

/// The cooler on the rear baffle.
fn baffle() -> Design {
    let mut design = demo::design();
    let installation = &mut design.installation;
    installation.cooler.bends = 0;
    installation.cooler.duct_length = metre(0.0);
    installation.cooler.face_width = metre(inch(7.0));
    installation.cooler.face_height = metre(inch(5.5));
    installation.shutter.fitted = false;
    for inlet in &mut installation.inlets {
        inlet.shape = InletShape::Ring;
        inlet.diameter = metre(inch(4.75));
        inlet.position = InletPosition::ForwardClear;
    }
    design
}

/// A core whose rows were counted, its data sheet lost.
fn counted() -> Design {
    let mut design = demo::design();
    design.installation.cooler.rating = CoolerRating::FromSize;
    design
}

/// Traced inlets, a belly scoop, louvers and two exits.
fn unusual() -> Design {
    let mut design = demo::design();
    let installation = &mut design.installation;
    let outline: Vec<[f64; 2]> = (0..24)
        .map(|step| {
            let angle = f64::from(step) * core::f64::consts::TAU / 24.0;
            let (sine, cosine) = angle.sin_cos();
            [0.085 * cosine, 0.042 * sine + 0.012 * cosine]
        })
        .collect();
    for inlet in &mut installation.inlets {
        inlet.shape = InletShape::Traced;
        inlet.outline.clone_from(&outline);
        inlet.lip = Lip::Thin;
    }
    installation.inlets.push(Inlet {
        position: InletPosition::BellyScoop,
        width: metre(inch(5.0)),
        height: metre(inch(2.0)),
        ..Inlet::default()
    });
    installation.decks.cabin_air = true;
    installation.exits[0].width = metre(inch(9.0));
    let second = installation.exits[0].clone();
    installation.exits.push(second);
    installation.exits.push(Exit {
        shape: ExitShape::Louvers,
        louver_count: 8,
        ..Exit::default()
    });
    design
}

/// An augmentor round the exhaust, and two coolers one behind the other on the rear baffle.
fn augmented() -> Design {
    let mut design = demo::design();
    let installation = &mut design.installation;
    installation.exits[0].shape = ExitShape::Augmentor;
    installation.exits[0].tube_diameter = metre(inch(7.5));
    installation.exits[0].pipes_area = square_metre(0.0);
    installation.cooler.supply = CoolerSupply::RearBaffle;
    installation.cooler.second = SecondCooler::BehindOilInTurn;
    installation.shutter.fitted = false;
    design
}

/// A cooler on the front baffle.
fn front_baffle() -> Design {
    let mut design = demo::design();
    design.installation.cooler.supply = CoolerSupply::FrontBaffle;
    design.installation.shutter.fitted = false;
    design
}

/// A pusher with a ramp and a flap by its angle, and two coolers side by side.
fn pusher() -> Design {
    let mut design = demo::design();
    let installation = &mut design.installation;
    installation.engine.kind = EngineKind::Pusher;
    let exit = &mut installation.exits[0];
    exit.edge = ExitEdge::Ramp;
    exit.flap = true;
    exit.flap_given = FlapGiven::Angle;
    installation.cooler.second = SecondCooler::BesideOilShared;
    design.conditions[1].flap = 1.0;
    design
}

/// A tailwind on the ground: the lower deck pushes back.
fn reversed() -> Design {
    let mut design = scoop();
    let decks = &mut design.installation.decks;
    decks.inflow_leak = square_metre(inch2(30.0));
    decks.inflow_pressure = 1.0;
    for inlet in &mut design.installation.inlets {
        inlet.position = InletPosition::Flush;
        inlet.recovery_flush = 0.05;
    }
    for exit in &mut design.installation.exits {
        exit.pressure_coefficient = 0.5;
    }
    design
}

fn pages() -> Vec<Page> {
    let close = Some((State::Close, State::Close));
    let mut narrower = demo::design().installation;
    narrower.exits[0].gap = metre(inch(3.0));
    narrower.inlets[1].width = metre(inch(5.0));
    let unshuttered = page("four", demo::design());
    vec![
        Page {
            states: Some((State::Over, State::Close)),
            ..unshuttered
        },
        Page {
            condition: 3,
            system: UnitSystem::Customary,
            ..page("shutter", demo::design())
        },
        Page {
            selected: Some(Part::Exit),
            before: Some(narrower),
            system: UnitSystem::Customary,
            ..page("edited", demo::design())
        },
        Page {
            selected: Some(Part::Exit),
            states: close,
            ..page("six", six())
        },
        Page {
            selected: Some(Part::Inlets),
            ..page("scoop", scoop())
        },
        Page {
            selected: Some(Part::Cooler),
            title: true,
            ..page("baffle", baffle())
        },
        Page {
            selected: Some(Part::Cooler),
            ..page("scoop-core", scoop())
        },
        Page {
            selected: Some(Part::Cooler),
            ..page("rows", counted())
        },
        Page {
            selected: Some(Part::Cooler),
            ..page("front", front_baffle())
        },
        page("unusual", unusual()),
        page("augmented", augmented()),
        page("pusher", pusher()),
        page("reversed", reversed()),
        Page {
            proportions: Proportions {
                cooler_on_right: true,
                ..Proportions::default()
            },
            ..page("right", demo::design())
        },
        Page {
            asked: &[Part::Exit, Part::Cooler],
            ..page("asked", demo::design())
        },
    ]
}

/// The page's own style sheet, whose colours the drawing takes.
const PAGE_STYLE: &str = include_str!("../style.css");

fn html(body: &str, theme: &str) -> String {
    format!(
        "<!doctype html><html lang=\"en\" style=\"color-scheme:{theme}\"><meta charset=\"utf-8\">\
         <style>{PAGE_STYLE}{STYLE}body{{margin:0;background:var(--sheet)}}</style>{body}"
    )
}

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let folder = std::env::args().nth(1).unwrap_or_else(|| ".".to_owned());
    let folder = Path::new(&folder);
    std::fs::create_dir_all(folder)?;
    for page in pages() {
        let design = &page.design;
        let condition = &design.conditions[page.condition];
        let answer = match evaluate(design, page.condition) {
            Ok(answer) => answer,
            Err(error) => {
                println!("{}: {error}", page.name);
                continue;
            }
        };
        let readout = match page.states {
            Some((head, oil)) => Readout::of(&answer, Some(head), Some(oil)),
            None => Readout::nominal(&answer),
        };
        let title = TitleBlock {
            design: design.name.clone(),
            condition: condition.name.clone(),
            day: "1 June".to_owned(),
        };
        let widest: &dyn TextWidth = &Widest;
        for (suffix, width, height, view, touch, widths) in [
            ("all", 1440.0, 860.0, View::All, false, widest),
            ("page", 1040.0, 610.0, View::All, false, widest),
            ("side", 375.0, 330.0, View::Side, true, widest),
            ("front", 375.0, 420.0, View::Front, true, widest),
            ("plan", 375.0, 420.0, View::Plan, true, widest),
            ("bigplan", 1040.0, 610.0, View::Plan, false, widest),
        ] {
            let started = std::time::Instant::now();
            let drawing = Drawing::of(&Request {
                before: page.before.as_ref(),
                flap: condition.flap,
                shutter: answer.shutter_opening.unwrap_or(1.0),
                readout: Some(&readout),
                view,
                selected: page.selected,
                unanswered: page.asked,
                proportions: page.proportions,
                system: page.system,
                widths,
                touch,
                title: page.title.then_some(&title),
                ..Request::new(&design.installation, width, height)
            });
            println!(
                "{} {suffix}: {:.2} ms, {} kB",
                page.name,
                1e3 * started.elapsed().as_secs_f64(),
                drawing.svg.len() / 1000
            );
            for theme in ["light", "dark"] {
                let file = folder.join(format!("{}-{suffix}-{theme}.html", page.name));
                std::fs::write(file, html(&drawing.svg, theme))?;
            }
        }
    }
    Ok(())
}
