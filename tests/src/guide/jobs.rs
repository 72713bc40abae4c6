//! What the four jobs of the guide find for the worked example.
use coolpath_core::answer::evaluate::evaluate;
use coolpath_core::answer::pieces::Pieces;

use crate::guide::figure::Figure;
use crate::guide::readings::POINTS;
use crate::guide::worked::{CLIMB, CRUISE, Figures, conditions, put};
use coolpath_core::air::atmosphere::LAPSE_RATE;
use coolpath_core::answer::sampling::{DEFAULT_DRAWS, DEFAULT_SEED, Sampling};
use coolpath_core::answer::solved::ShutterState;
use coolpath_core::decide::chances::ranking;
use coolpath_core::decide::climb::{Holding, slowest_airspeed};
use coolpath_core::decide::compare::hardest_for_heads;
use coolpath_core::decide::comparison::{Comparing, Comparison, standing};
use coolpath_core::decide::shutter_card::shutter_card;
use coolpath_core::decide::size::course::{Question, Seek, Sized, Sizes, Sizing};
use coolpath_core::decide::size::{Bounds, cruise_drag_n, cruise_speed_of};
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::Installation;
use coolpath_core::document::installation::areas::{exit_m2, inlets_m2};
use coolpath_core::prove::calibrate::{Calibration, Scatter, usual_choice};
use coolpath_core::units::si::degf;
use coolpath_core::units::typed::{Dimension, UnitSystem, rounded_text};

/// The figures of all jobs.
pub(super) fn jobs(figures: &mut Figures, design: &Design) {
    sizes(figures, "size", design);
    climbing(figures, "climb", design);
    comparisons(figures, design);
    shutter(figures, design);
    measuring(figures, design);
    proved(figures, design);
}

/// The question as the page's panel asks it before anything is typed.
fn question(design: &Design, seek: Seek) -> Question {
    let shown = |m2: f64| {
        let unit = Dimension::Area.shown(UnitSystem::Customary);
        let text = rounded_text(unit.from_si(m2), 3);
        unit.to_si(text.parse().expect("a number"))
    };
    let (inlets, exit) = (
        inlets_m2(&design.installation),
        exit_m2(&design.installation),
    );
    Question {
        seek,
        bounds: Bounds {
            inlets_m2: (shown(0.5 * inlets), shown(2.5 * inlets)),
            exit_m2: (shown(0.4 * exit), shown(2.5 * exit)),
        },
        chance: 0.9,
        least_drop_pa: 0.0,
        ratio: 0.45,
        turn_around: None,
        ratio_condition: design.first_level().unwrap_or(0),
    }
}

fn sizes(figures: &mut Figures, prefix: &str, design: &Design) {
    put(
        figures,
        format!("{prefix}.now.speed-cost"),
        Figure::of(speed_cost(design, &design.installation), Dimension::Speed),
    );
    for (short, seek) in [("both", Seek::Both), ("exit", Seek::Exit)] {
        let found: Sizes = Sizing::new(design.clone(), question(design, seek)).finished();
        let mut tell = |name: &str, figure: Figure| {
            put(figures, format!("{prefix}.{short}.{name}"), figure);
        };
        let robust = found
            .robust
            .as_ref()
            .and_then(|robust| robust.as_ref().ok());
        let is_found = if robust.is_some() {
            "a size"
        } else {
            "no size"
        };
        tell("robust", Figure::Words(is_found.to_owned()));
        tell("odds", Figure::odds(found.nominal_chance));
        let nominal = found.nominal.as_ref().expect("a nominal size");
        openings(&mut tell, "", design, nominal);
        if let Some(robust) = robust {
            tell("robust-odds", Figure::odds(found.robust_chance));
            openings(&mut tell, "robust-", design, robust);
        }
        for (at, remedy) in found.helping().iter().take(3).enumerate() {
            let at = at + 1;
            let change = Figure::Words(remedy.change.to_string());
            let gain = Figure::of(remedy.gain, Dimension::TemperatureDifference);
            tell(&format!("remedy-{at}"), change);
            tell(&format!("gain-{at}"), gain);
        }
    }
}

/// Speed, m/s, that an installation's cooling costs in the design's cruise.
fn speed_cost(design: &Design, installation: &Installation) -> f64 {
    let drag = cruise_drag_n(design, installation).expect("an answer");
    cruise_speed_of(design, drag).expect("a speed")
}

/// The openings of a size, as the page's table shows them.
fn openings(tell: &mut impl FnMut(&str, Figure), prefix: &str, design: &Design, sized: &Sized) {
    let installation = sized.applied(design).installation;
    let (inlet, exit) = (&installation.inlets[0], &installation.exits[0]);
    for (name, si, dimension) in [
        ("inlets", inlets_m2(&installation), Dimension::Area),
        ("width", inlet.width.value, Dimension::Length),
        ("height", inlet.height.value, Dimension::Length),
        ("exit", exit_m2(&installation), Dimension::Area),
        ("gap", exit.gap.value, Dimension::Length),
        (
            "speed-cost",
            speed_cost(design, &installation),
            Dimension::Speed,
        ),
    ] {
        tell(&format!("{prefix}{name}"), Figure::of(si, dimension));
    }
}

/// The slowest climb that holds the head limit.
fn climbing(figures: &mut Figures, prefix: &str, design: &Design) {
    let limit = design.installation.engine.head_limit.value;
    let slowest = slowest_airspeed(&design.installation, &design.conditions[CLIMB], limit);
    let Ok(Holding::From(speed)) = slowest else {
        panic!("no airspeed holds the limit: {slowest:?}");
    };
    put(
        figures,
        format!("{prefix}.slowest"),
        Figure::of(speed, Dimension::Speed),
    );
}

fn comparisons(figures: &mut Figures, design: &Design) {
    let place = hardest_for_heads(design).expect("a condition");
    let name = design.conditions[place].name.clone();
    put(figures, "compare.condition".to_owned(), Figure::Words(name));
    let made: Vec<Comparison> = standing(design)
        .iter()
        .filter_map(|other| Comparing::new(design, other, place).finished())
        .collect();
    let mut speeds = Vec::new();
    for (short, one) in ["plenum", "worn"].into_iter().zip(&made) {
        let mut tell = |name: &str, figure: Figure| {
            put(figures, format!("compare.{short}.{name}"), figure);
        };
        let fixed = one.fixed.shown.as_ref().expect("an answer");
        let kelvin = Dimension::TemperatureDifference;
        let (by, band) = (fixed.by.head, fixed.band.head);
        tell("name", Figure::Words(one.name.clone()));
        tell("cht", Figure::of(by, kelvin));
        tell("cht-size", Figure::of(by.abs(), kelvin));
        tell("cht-low-size", Figure::of((by - band.below).abs(), kelvin));
        tell("cht-high-size", Figure::of((by + band.above).abs(), kelvin));
        tell("cht-low", Figure::of(by - band.below, kelvin));
        tell("cht-high", Figure::of(by + band.above, kelvin));
        let equal = one.at_equal_heads().expect("an exit");
        tell("exit", Figure::of(equal.exit_m2, Dimension::Area));
        let level = equal.level.as_ref().and_then(|level| level.as_ref().ok());
        let level = level.expect("a level condition");
        let (by, band) = (level.by.speed, level.band.speed);
        speeds.push(by);
        tell("speed", Figure::of(by, Dimension::Speed));
        tell("speed-size", Figure::of(by.abs(), Dimension::Speed));
        tell("speed-low", Figure::of(by - band.below, Dimension::Speed));
        tell("speed-high", Figure::of(by + band.above, Dimension::Speed));
    }
    assert!(
        -speeds[1] > 3.0 * speeds[0],
        "the guide says that worn seals cost several times what a plenum buys: {speeds:?}"
    );
}

/// Outside air on the ground of the shutter's job, °F.
const WINTER_DEGF: f64 = 20.0;
/// Notches of its lever: the page's own before anything is typed.
const NOTCHES: f64 = 6.0;

fn shutter(figures: &mut Figures, design: &Design) {
    let ground = design.conditions[0].altitude.value;
    put(
        figures,
        "card.ground".to_owned(),
        Figure::of(degf(WINTER_DEGF), Dimension::Temperature),
    );
    for (short, place) in [("climb", CLIMB), ("cruise", CRUISE)] {
        let condition = &design.conditions[place];
        let oat = degf(WINTER_DEGF) - LAPSE_RATE * (condition.altitude.value - ground);
        let point = shutter_card(design, condition, &[oat])
            .remove(0)
            .expect("a point");
        assert_eq!(point.state, ShutterState::Holds, "{short}");
        let mut tell = |name: &str, figure: Figure| {
            put(figures, format!("card.{short}.{name}"), figure);
        };
        // To the open side, as the page rounds it.
        let notch = (point.opening * NOTCHES - 1e-9).ceil();
        tell("oat", Figure::of(oat, Dimension::Temperature));
        tell("notch", Figure::plain(notch));
        tell("opening", Figure::of(point.opening, Dimension::Percent));
        let jammed = point.oil_jammed_shut.value;
        tell("jammed", Figure::rounded(jammed, Dimension::Temperature));
    }
    let climb = &design.conditions[CLIMB];
    let hot = evaluate(design, CLIMB)
        .expect("an answer")
        .outside_air
        .value;
    let point = shutter_card(design, climb, &[hot])
        .remove(0)
        .expect("a point");
    let jammed = point.oil_jammed_shut.value;
    assert!(
        jammed > design.installation.engine.oil_limit.value,
        "the guide says that a shutter jammed shut passes the limit: {jammed} K"
    );
    put(
        figures,
        "card.hot.jammed".to_owned(),
        Figure::rounded(jammed, Dimension::Temperature),
    );
}

fn measuring(figures: &mut Figures, design: &Design) {
    let mut sampling = Sampling::new(design, DEFAULT_DRAWS, DEFAULT_SEED).expect("draws");
    while sampling.advance(DEFAULT_DRAWS) {}
    let ranks = ranking(&sampling, CLIMB, |drawn| drawn.head);
    let first = ranks.first().expect("an assumption");
    put(
        figures,
        "sure.first".to_owned(),
        Figure::Words(first.input.label.to_owned()),
    );
    put(
        figures,
        "sure.narrowing".to_owned(),
        Figure::of(first.narrowing, Dimension::Percent),
    );
}

fn proved(figures: &mut Figures, design: &Design) {
    let mut flown = design.clone();
    for point in &POINTS {
        flown.readings.push(point.reading());
        let mut tell = |name: &str, value: f64, unit: &'static str| {
            put(
                figures,
                format!("reading.{}.{name}", point.key),
                Figure::Number {
                    value,
                    unit,
                    step: 0.0,
                },
            );
        };
        tell("altitude", point.altitude_ft, "ft");
        tell("oat", point.oat_degf, "°F");
        tell("airspeed", point.airspeed_kt, "kt");
        tell("power", point.power_percent, "%");
        tell("rpm", point.rpm, "rpm");
        tell("shutter", point.shutter_percent, "%");
        tell("oil", point.oil_degf, "°F");
        tell("dp", point.drop_inh2o, "inH₂O");
        for (at, head) in point.heads_degf.into_iter().enumerate() {
            tell(&format!("cht-{}", at + 1), head, "°F");
        }
    }
    let climb = POINTS.last().expect("a climb").reading();
    let engine = &flown.installation.engine;
    let flown_in = climb
        .condition_of(&climb.moments[0], engine)
        .expect("a whole reading");
    let in_climb = Design {
        conditions: vec![flown_in],
        ..flown.clone()
    };
    let answer = evaluate(&in_climb, 0).expect("an answer");
    put(
        figures,
        "reading.climb.fuel".to_owned(),
        Figure::of(answer.fuel_on_gauge_m3_s(engine), Dimension::FuelFlow),
    );
    put(
        figures,
        "reading.climb.phi".to_owned(),
        Figure::plain(engine.full_rich),
    );
    // What the fuel-flow meter showed.
    flown.measured.push("engine.full_rich_phi".to_owned());
    let chosen = usual_choice(&flown);
    let mut work = Calibration::new(&flown, &chosen, Scatter::default()).expect("readings");
    while work.advance(100_000) {}
    let outcome = work.outcome().expect("an end").expect("a fit");
    put(
        figures,
        "proved.values".to_owned(),
        Figure::plain(outcome.fitted.len() as f64),
    );
    let climb = outcome
        .predicted
        .iter()
        .find(|found| found.condition == CLIMB)
        .expect("the climb");
    for (name, kelvin, dimension) in [
        ("before", climb.head.before, Dimension::Temperature),
        ("after", climb.head.after, Dimension::Temperature),
        (
            "either-way",
            climb.head.either_way,
            Dimension::TemperatureDifference,
        ),
    ] {
        put(
            figures,
            format!("proved.climb.{name}"),
            Figure::of(kelvin, dimension),
        );
    }
    let applied = outcome.applied(&flown);
    conditions(figures, "proved.", &applied);
    climbing(figures, "proved.climb", &applied);
    sizes(figures, "proved.size", &applied);
}
