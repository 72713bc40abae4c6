//! What each choice of an installation does to the example, as a page of text.

use coolpath_core::decide::compare::{Difference, Preset, difference};
use coolpath_core::document::design::Design;
use coolpath_core::document::example;
use coolpath_core::document::installation::{
    Breathes, CoolerRating, Cover, EngineKind, ExitPlace, ExitShape, FinKind, FlapGiven,
    Installation, Lip, SecondCooler,
};
use coolpath_core::units::quantity::metre;
use coolpath_core::units::si::{inch, knot};
use std::fmt::Write as _;

/// A name, and what it makes of an installation.
type Choice = (String, Installation);

/// Conditions that are shown: the example's climb and cruise.
const SHOWN: [usize; 2] = [1, 3];

fn finned(it: &mut Installation, kind: FinKind, rows: u8) {
    it.cooler.rating = CoolerRating::FromFins;
    it.cooler.fin_kind = kind;
    it.cooler.rows = rows;
}

fn widen_inlets(it: &mut Installation) {
    for inlet in &mut it.inlets {
        inlet.width = metre(inlet.width.value + inch(1.0));
    }
}

/// Every choice that an installation of the example's dimensions can take at once.
fn choices(own: &Installation) -> Vec<Choice> {
    let mut list: Vec<Choice> = Preset::ALL
        .into_iter()
        .map(|preset| (preset.name().to_owned(), preset.applied(own)))
        .collect();
    let mut add = |name: &str, change: fn(&mut Installation)| {
        let mut changed = own.clone();
        change(&mut changed);
        list.push((name.to_owned(), changed));
    };
    add(
        "Second cooler behind the first, oil through the rear one first",
        |it| {
            it.cooler.second = SecondCooler::BehindOilInTurn;
        },
    );
    add("Half of the cooler's face behind a winter plate", |it| {
        it.cooler.blanked_share = 0.5;
        it.cooler.cover = Cover::Plate;
    });
    add("Cooler computed from its fins, offset, 11 rows", |it| {
        finned(it, FinKind::Offset, 11);
    });
    add("The same, 13 rows", |it| finned(it, FinKind::Offset, 13));
    add("The same, 11 rows, plain fins", |it| {
        finned(it, FinKind::Plain, 11);
    });
    add("An inch between the cooler and the firewall", |it| {
        it.cooler.wall_behind = true;
        it.cooler.standoff_gap = metre(inch(1.0));
    });
    add("Cowl flap, 8 in long, 20° (open in the climb)", |it| {
        it.exits[0].flap = true;
        it.exits[0].flap_given = FlapGiven::Angle;
    });
    add("Exit pressure coefficient +0.10 in the climb alone", |it| {
        it.exits[0].by_attitude = true;
        it.exits[0].climb_pressure = 0.10;
    });
    for (name, place) in [
        ("on the belly ahead of the wing", ExitPlace::Belly),
        ("under the wing", ExitPlace::UnderWing),
        ("at the lower edge of the firewall", ExitPlace::Firewall),
        ("in the side at the wing root", ExitPlace::WingRoot),
    ] {
        let mut changed = own.clone();
        changed.exits[0].place = place;
        changed.exits[0].by_attitude = true;
        list.push((format!("Exit {name}, by attitude"), changed));
    }
    let mut add = |name: &str, change: fn(&mut Installation)| {
        let mut changed = own.clone();
        change(&mut changed);
        list.push((name.to_owned(), changed));
    };
    add("Pressure before the lower deck's leak by attitude", |it| {
        it.decks.outside_by_attitude = true;
    });
    add("Induction air from the upper deck", |it| {
        it.decks.induction_from_upper_deck = true;
    });
    add("Induction air from the lower deck", |it| {
        it.decks.breathes = Breathes::LowerDeck;
    });
    add("Induction air from a scoop through a filter", |it| {
        it.decks.breathes = Breathes::Scoop;
    });
    add("Cabin heat: a 1.5 in hose through a muff", |it| {
        it.decks.cabin_air = true;
        it.decks.cabin_muff = true;
    });
    add(
        "Augmentor round all of the exhaust, annulus as large as the exit",
        |it| {
            let net_m2 = it.exits[0].closed_area_m2();
            it.exits[0].shape = ExitShape::Augmentor;
            it.exits[0].set_closed_area(net_m2);
        },
    );
    add("Propeller behind the exit", |it| {
        it.engine.kind = EngineKind::Pusher
    });
    add("Inlets an inch wider", widen_inlets);
    add(
        "Inlet lips of thin sheet, met at 15° from below in the climb",
        |it| {
            for inlet in &mut it.inlets {
                inlet.lip = Lip::Thin;
                inlet.at_angle = true;
                inlet.climb_angle = 15.0;
            }
        },
    );
    add("Exit gap half an inch wider", |it| {
        it.exits[0].gap = metre(it.exits[0].gap.value + inch(0.5));
    });
    list
}

/// The page.
///
/// # Panics
/// If a choice has no answer.
#[must_use]
pub fn page() -> String {
    let mut design = example::design();
    // The flap of the choice that has one stands open in the climb.
    design.conditions[SHOWN[0]].flap = 1.0;
    let mut text = heading(&design);
    for (name, changed) in choices(&design.installation) {
        let _ = write!(text, "| {name} |");
        for place in SHOWN {
            let found = difference(&design, &changed, place);
            let found = found.unwrap_or_else(|error| panic!("{name}: {error}"));
            let cells = cells(&found, place == SHOWN[1]);
            let _ = write!(text, " {cells} |");
        }
        text.push('\n');
    }
    text
}

fn heading(design: &Design) -> String {
    let names = SHOWN.map(|place| design.conditions[place].name.clone());
    format!(
        "# What each choice does to the example\n\n\
         The other installation minus the example's own, everything else as it is: hottest head and \
         oil in °F, speed at constant power in knots. In brackets how far the difference may lie \
         below and above by the likely ranges of what is assumed. The oil is held by the shutter \
         where it can be. Computed values (tag: regression), made by `choices_table`.\n\n\
         | choice | {0}: heads | {0}: oil | {1}: heads | {1}: oil | {1}: speed |\n\
         |---|---|---|---|---|---|\n",
        names[0], names[1]
    )
}

/// Differences of heads, oil and, where asked for, speed, each with its band.
fn cells(found: &Difference, with_speed: bool) -> String {
    let (by, band) = (found.by.each(), found.band.each());
    let figure = |at: usize, unit: f64, digits: usize| {
        let value = by[at] / unit;
        let (below, above) = (band[at].below / unit, band[at].above / unit);
        let least = 0.5 * 0.1_f64.powi(i32::try_from(digits).unwrap_or(0));
        let shown = if value.abs() < least {
            format!("{:.digits$}", 0.0)
        } else {
            format!("{value:+.digits$}")
        };
        format!("{shown} (−{below:.digits$} +{above:.digits$})")
    };
    // In the order of `Compared::each`: head, oil, Δp, air, drag, speed.
    let mut cells = vec![figure(0, 1.0 / 1.8, 0), figure(1, 1.0 / 1.8, 0)];
    if with_speed {
        cells.push(figure(5, knot(1.0), 2));
    }
    cells.join(" | ").replace('-', "−")
}
