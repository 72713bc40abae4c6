//! Where the oil cooler, its hose and its shutter stand, in inches.

use super::mouths::INCHES;
use coolpath_core::document::installation::{Cooler, CoolerDischarge, CoolerSupply, Installation};

/// Where the cooler is mounted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CoolerPlace {
    /// Before the firewall, at the end of a hose.
    Firewall,
    /// On the rear baffle.
    RearBaffle,
    /// On the front baffle, before a front cylinder.
    FrontBaffle,
    /// In a scoop of its own under the chin.
    OwnScoop,
}

impl CoolerPlace {
    /// Whether it covers a hole in a baffle.
    #[must_use]
    pub fn is_on_baffle(self) -> bool {
        matches!(self, Self::RearBaffle | Self::FrontBaffle)
    }

    /// Whether the place follows from where the air comes from, whatever is wished.
    #[must_use]
    pub fn is_bound(self) -> bool {
        matches!(self, Self::OwnScoop | Self::FrontBaffle)
    }
}

/// The cooler on the drawing; x aft from the spinner's backplate, z up from the crankshaft.
#[derive(Debug, Clone, PartialEq)]
pub struct CorePlace {
    /// Where it is mounted.
    pub place: CoolerPlace,
    /// +1 on the aircraft's left, −1 on its right.
    pub side: f64,
    /// Width, height and depth of the core, in.
    pub size: (f64, f64, f64),
    /// Inner diameter of the hose, in.
    pub hose: f64,
    /// Middle line of the hose from the baffle to the core's duct; each corner with its radius.
    pub line: Vec<(f64, f64, f64)>,
    /// Middle of the core, x and z, in.
    pub middle: (f64, f64),
    /// Whether a second core stands behind the first.
    pub behind: bool,
    /// Whether a second core stands beside the first.
    pub beside: bool,
    /// Whether the core lies flat, its air going down.
    pub flat: bool,
    /// Middle of the shutter's disc, x and z, in; `None` without one.
    pub shutter: Option<(f64, f64)>,
    /// Diameter of the disc, in.
    pub disc: f64,
    /// The scoop, if it has its own.
    pub scoop: Option<Scoop>,
    /// Whether its air leaves by an exit of its own.
    pub own_exit: bool,
    /// Outboard of the centre line, in.
    pub outboard: f64,
    /// Whether air comes through a duct whose diameter is known.
    pub ducted: bool,
    /// The core's rows and the height of one, m, where its height is counted and not measured.
    pub rows: Option<(u8, f64)>,
}

/// A scoop under the chin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scoop {
    /// x of its mouth, in.
    pub mouth: f64,
    /// Height of its mouth, in.
    pub height: f64,
    /// x of the core's face, in.
    pub face: f64,
    /// x where its own duct ends, in.
    pub end: f64,
    /// Height of its outlet, in.
    pub outlet: f64,
    /// z of its floor, in.
    pub floor: f64,
    /// Area of its mouth, m².
    pub area_m2: f64,
}

/// Width, in, of a scoop and of its outlet (tag: common practice, about the core's).
pub const SCOOP_WIDTH: f64 = 6.5;
/// Ducts shorter than this, in, mean that the core sits on the baffle.
const SHORT_DUCT: f64 = 3.0;
/// Height of the hole in the rear baffle above the crankshaft, in (tag: from memory).
const HOLE: f64 = 3.1;
/// Outboard place of the hose, in (tag: from memory).
const OUTBOARD: f64 = 9.6;
/// Depth of the duct that widens from hose to core, in.
pub const FLARE: f64 = 1.5;

/// Gap that is drawn behind a core before the firewall where none is typed, and the widest drawn, in.
const GAP: f64 = 2.0;
const WIDEST_GAP: f64 = 6.0;
/// Least that is left before the core on the front baffle, and most of a disc there, in.
const FRONT_DISC: f64 = 1.6;

/// What the cooler's place follows from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Around {
    /// x of the front baffle, in.
    pub front_baffle: f64,
    /// z of the ramp that the front baffle ends in, in.
    pub ramp: f64,
    /// x of the rear baffle, in.
    pub rear_baffle: f64,
    /// x of the firewall, in.
    pub firewall: f64,
    /// x of the last cylinder, in.
    pub last_cylinder: f64,
    /// z of the flat chin, in.
    pub chin: f64,
}

/// The place that an installation's numbers suggest.
#[must_use]
pub fn usual_place(installation: &Installation) -> CoolerPlace {
    let cooler = &installation.cooler;
    if cooler.supply == CoolerSupply::OwnInlet {
        CoolerPlace::OwnScoop
    } else if cooler.supply == CoolerSupply::FrontBaffle {
        CoolerPlace::FrontBaffle
    } else if cooler.supply == CoolerSupply::RearBaffle
        || (cooler.bends == 0 && cooler.duct_length.value * INCHES < SHORT_DUCT)
    {
        CoolerPlace::RearBaffle
    } else {
        CoolerPlace::Firewall
    }
}

/// Depth of all cores in the direction of the air, in.
fn depth_in(cooler: &Cooler) -> f64 {
    let cores = if cooler.second.is_behind() { 2.0 } else { 1.0 };
    cores * cooler.depth.value * INCHES
}

/// Gap drawn between the core and the firewall, in.
fn gap_in(cooler: &Cooler) -> f64 {
    if cooler.has_wall_behind() {
        (cooler.standoff_gap.value * INCHES).min(WIDEST_GAP)
    } else {
        GAP
    }
}

/// Room that a hose to the firewall needs between baffle and firewall, in.
#[must_use]
pub fn room_needed(installation: &Installation) -> f64 {
    let cooler = &installation.cooler;
    let hose = cooler.duct_diameter.value * INCHES;
    let depth = depth_in(cooler);
    match usual_place(installation) {
        CoolerPlace::OwnScoop | CoolerPlace::FrontBaffle => 0.0,
        CoolerPlace::RearBaffle => hose + depth + 4.0,
        CoolerPlace::Firewall if cooler.bends == 1 => {
            2.0 + 1.82 * hose + 0.5 * cooler.core_height_m() * INCHES
        }
        // Shutter, two elbows, flare, core, and room behind it.
        CoolerPlace::Firewall => 2.0 + gap_in(cooler) + 2.64 * hose + depth,
    }
}

/// Where everything of the cooler stands.
#[must_use]
pub fn core_place(
    installation: &Installation,
    place: CoolerPlace,
    side: f64,
    around: &Around,
) -> CorePlace {
    let cooler = &installation.cooler;
    let inches = |metres: f64| metres * INCHES;
    let mut core = CorePlace {
        place,
        side,
        size: (
            // Two side by side, or one behind the other.
            inches(cooler.face_width.value) * if cooler.second.is_beside() { 2.0 } else { 1.0 },
            inches(cooler.core_height_m()),
            depth_in(cooler),
        ),
        hose: inches(cooler.duct_diameter.value),
        line: Vec::new(),
        middle: (0.0, 0.0),
        behind: cooler.second.is_behind(),
        beside: cooler.second.is_beside(),
        flat: false,
        shutter: None,
        disc: inches(cooler.duct_diameter.value),
        scoop: None,
        own_exit: cooler.discharge == CoolerDischarge::OwnExit,
        outboard: OUTBOARD,
        ducted: !cooler.supply.is_on_baffle(),
        rows: cooler
            .counts_rows()
            .then_some((cooler.rows, cooler.row_pitch.value)),
    };
    let fitted = installation.shutter.fitted;
    match place {
        CoolerPlace::Firewall => {
            let before_wall = around.firewall - gap_in(cooler) - core.size.2 - FLARE;
            at_firewall(
                &mut core,
                cooler.bends,
                (around.rear_baffle, before_wall),
                fitted,
            );
        }
        CoolerPlace::FrontBaffle => on_front_baffle(&mut core, around, fitted),
        CoolerPlace::RearBaffle => on_baffle(&mut core, around, fitted),
        CoolerPlace::OwnScoop => {
            let areas = (
                cooler.own_inlet_area.value * INCHES * INCHES,
                cooler.own_exit_area.value * INCHES * INCHES,
            );
            in_scoop(&mut core, areas, around, fitted);
        }
    }
    core
}

fn at_firewall(core: &mut CorePlace, bends: u8, (baffle, before_wall): (f64, f64), fitted: bool) {
    let (_, _, depth) = core.size;
    // Centre line radius of an elbow, diameters (tag: common practice).
    let radius = 0.82 * core.hose;
    let housing = if fitted { 0.8 + core.hose } else { 0.8 };
    let bend = baffle + housing + radius;
    match bends {
        0 => {
            core.line = vec![(baffle, HOLE, 0.0), (before_wall, HOLE, 0.0)];
            core.middle = (before_wall + FLARE + 0.5 * depth, HOLE);
        }
        1 => {
            let down = -4.6_f64.max(core.hose - HOLE);
            core.flat = true;
            core.line = vec![
                (baffle, HOLE, 0.0),
                (bend, HOLE, radius),
                (bend, down + 0.5 * depth + FLARE, 0.0),
            ];
            core.middle = (bend, down);
        }
        _ => {
            let face = before_wall.max(bend + radius + 0.4);
            let down = HOLE - (2.0 * radius + 0.6).max(7.0);
            core.line = vec![
                (baffle, HOLE, 0.0),
                (bend, HOLE, radius),
                (bend, down, radius),
                (face, down, 0.0),
            ];
            core.middle = (face + FLARE + 0.5 * depth, down);
        }
    }
    if fitted {
        core.shutter = Some((baffle + 0.5 + 0.5 * core.hose, HOLE));
    }
}

fn on_baffle(core: &mut CorePlace, around: &Around, fitted: bool) {
    const MIDDLE: f64 = 0.6;
    let (_, height, depth) = core.size;
    let box_depth = if fitted { core.hose + 0.6 } else { 0.0 };
    let face = around.rear_baffle + 0.1 + box_depth;
    core.hose = height;
    core.line = vec![(around.rear_baffle, MIDDLE, 0.0), (face, MIDDLE, 0.0)];
    core.middle = (face + 0.5 * depth, MIDDLE);
    if fitted {
        core.shutter = Some((around.rear_baffle + 0.4 + 0.5 * core.disc, MIDDLE));
    }
}

/// Below the ramp that leads from the inlet to the cylinders; its air goes forward and down.
fn on_front_baffle(core: &mut CorePlace, around: &Around, fitted: bool) {
    let (_, height, depth) = core.size;
    let middle = around.ramp - 0.5 - 0.5 * height;
    core.disc = core.disc.min(FRONT_DISC);
    let box_depth = if fitted { core.disc + 0.4 } else { 0.0 };
    let face = around.front_baffle - 0.1 - box_depth;
    core.hose = height;
    core.line = vec![(around.front_baffle, middle, 0.0), (face, middle, 0.0)];
    core.middle = (face - 0.5 * depth, middle);
    if fitted {
        core.shutter = Some((around.front_baffle - 0.2 - 0.5 * core.disc, middle));
    }
}

fn in_scoop(core: &mut CorePlace, (inlet, outlet): (f64, f64), around: &Around, fitted: bool) {
    let (_, height, depth) = core.size;
    let mouth = 10.5;
    let disc_room = if fitted { core.disc + 1.0 } else { 0.0 };
    let face = (around.last_cylinder + 1.0).max(mouth + 5.0 + disc_room);
    let scoop = Scoop {
        mouth,
        height: inlet / SCOOP_WIDTH,
        face,
        end: face + depth + 7.2,
        outlet: (outlet / SCOOP_WIDTH).max(0.8),
        floor: around.chin - inlet / SCOOP_WIDTH,
        area_m2: inlet / (INCHES * INCHES),
    };
    core.middle = (face + 0.5 * depth, scoop.floor + 0.5 * height);
    core.scoop = Some(scoop);
    core.outboard = 0.0;
    if fitted {
        core.disc = core.disc.min(height);
        core.shutter = Some((face - 0.6 - 0.5 * core.disc, core.middle.1));
    }
}
