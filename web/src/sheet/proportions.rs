//! The frame that everything stands in, in inches: the design's own dimensions, and where it has
//! none, proportions by cylinder count.
//!
//! x runs aft from the spinner's backplate, z up from the crankshaft, v outboard. The proportions
//! are from memory (tag), about those of air-cooled flat engines; nothing is computed from them.

use super::core_place::{self, Around, CoolerPlace, CorePlace};
use super::mouths::{self, INCHES, Mouth, Station};
use super::openings::{self, LipExit, Louvers};
use super::path::{cubic_points, height_at};
use coolpath_core::Installation;
use coolpath_core::document::installation::{Sealing, UpperDeck};

/// Dimensions that only the drawing needs; each has a default by the number of cylinders.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Proportions {
    /// Height of the firewall, m.
    pub firewall_height_m: Option<f64>,
    /// Width of the firewall, m.
    pub firewall_width_m: Option<f64>,
    /// Length of the crankcase, m.
    pub engine_length_m: Option<f64>,
    /// Where the cooler is mounted.
    pub cooler_place: Option<CoolerPlace>,
    /// Whether the cooler stands on the aircraft's right.
    pub cooler_on_right: bool,
    /// Depth of the exit's belly below the crankshaft, m.
    pub exit_height_m: Option<f64>,
    /// Length of the cowl flap from its hinge, m.
    pub flap_length_m: Option<f64>,
}

/// Cylinder pitch, in.
const PITCH: f64 = 7.5;
/// First cylinder aft of the spinner's backplate, in.
const FIRST: f64 = 10.8;
/// How far the right bank stands aft of the left, in.
pub const BANK_OFFSET: f64 = 0.8;
/// Nose of the inlets aft of the spinner's backplate, in.
pub const MOUTH: f64 = 1.3;
/// Radius of the fins, in.
pub const FINS: f64 = 3.5;
/// Radius of the barrel, in.
pub const BARREL: f64 = 2.72;
/// Radius of the bore, in.
pub const BORE: f64 = 2.4;
/// Side baffle outboard of the crankshaft, in.
pub const SIDE_BAFFLE: f64 = 16.8;
/// Where the crankcase begins, in.
pub const CASE: f64 = 4.2;
/// Hinge of the flap before the firewall, in.
const HINGE: f64 = 6.6;
/// From the lower edge of an inlet down to where its ramp meets the front baffle, in.
const RAMP_DROP: f64 = 0.55;
/// z of the front baffle's upper end where no inlet is in the nose, in.
const NO_RAMP: f64 = 3.6;
/// The lip behind the firewall, in.
const LIP: f64 = 2.4;

/// Lengths in inches of one installation.
#[derive(Debug, Clone, PartialEq)]
pub struct Frame {
    /// x of each cylinder of the left bank.
    pub cylinders: Vec<f64>,
    /// x of the front baffle.
    pub front_baffle: f64,
    /// z of its upper end, where the ramp behind the inlet meets it.
    pub ramp: f64,
    /// Whether the propeller turns behind.
    pub pusher: bool,
    /// x of the rear baffle.
    pub rear_baffle: f64,
    /// x of the firewall.
    pub firewall: f64,
    /// z of the firewall's upper end.
    pub top: f64,
    /// z of the firewall's lower end: the belly.
    pub bottom: f64,
    /// Half of the cowl's width.
    pub half_width: f64,
    /// Radius of the spinner.
    pub spinner: f64,
    /// Length of the spinner.
    pub spinner_length: f64,
    /// Inlets.
    pub mouths: Vec<Mouth>,
    /// Exits with a lip.
    pub lips: Vec<LipExit>,
    /// Rows of louvers.
    pub louvers: Vec<Louvers>,
    /// z of the flat chin.
    pub chin: f64,
    /// Hinge of the lip's panel, x and z.
    pub hinge: (f64, f64),
    /// Tip of the lip with the flap closed.
    pub closed_tip: (f64, f64),
    /// Tip of the lip as it stands.
    pub tip: (f64, f64),
    /// Lowest place of the tip with the flap open.
    pub lowest_tip: f64,
    /// Angle of the flap from closed, radians.
    pub flap_turn: f64,
    /// Whether a rigid lid covers the cylinders.
    pub plenum: bool,
    /// z of that lid.
    pub lid: f64,
    /// Control points of the top skin: two cubics with one tangent.
    pub upper_skin: [[(f64, f64); 4]; 2],
    /// Control points of the lower skin from the lip to the chin.
    pub lower_skin: [[(f64, f64); 4]; 2],
    /// The oil cooler.
    pub core: CorePlace,
    /// Blast tubes and their diameter.
    pub blast: (u8, f64),
    /// Diameter of the cabin-air hose.
    pub cabin: Option<f64>,
    /// Whether the engine draws its air from the upper deck.
    pub induction: bool,
    /// Opening in the wall between the halves of the upper deck, in²; `None` without a wall.
    pub across: Option<f64>,
}

impl Frame {
    /// The frame of an installation with its flap at an opening, 0 to 1.
    #[must_use]
    pub fn of(installation: &Installation, flap: f64, proportions: &Proportions) -> Self {
        let bank = usize::from(installation.engine.cylinders.clamp(1, 12)).div_ceil(2);
        let inches = |metres: Option<f64>| {
            metres
                .map(|metres| metres * INCHES)
                .filter(|inches| inches.is_finite() && *inches > 0.0)
        };
        let cylinders = cylinder_places(bank, inches(proportions.engine_length_m));
        let last = cylinders.last().copied().unwrap_or(FIRST);
        let rear_baffle = last + 4.9;
        let firewall = rear_baffle + core_place::room_needed(installation).max(16.6);
        // Grows by 0.8 in above and below with each pair of cylinders beyond four.
        let pairs = f64::from(u8::try_from(bank).unwrap_or(6)) - 2.0;
        let spinner = 0.09 * installation.airframe.propeller_diameter.value * INCHES;
        let usual_half =
            inches(proportions.firewall_width_m).map_or(19.6 + 0.9 * pairs, |w| 0.5 * w);
        let mouths = mouths::mouths(installation, spinner, usual_half);
        let (mut lips, louvers) = openings::exits(installation, flap);
        let half_width = half_width(usual_half, &mouths, &lips);
        let (lip_top, lip_bottom) = nose(&mouths);
        let height = inches(proportions.firewall_height_m);
        let usual_bottom = inches(proportions.exit_height_m).map_or(-12.2 - 0.8 * pairs, |z| -z);
        let usual_top = height.map_or(10.8 + 0.8 * pairs, |height| height + usual_bottom);
        let top = usual_top.max(lip_top + 3.4).max(6.0);
        let bottom = usual_bottom.min(lip_bottom - 5.0).min(-8.0);
        let hinge_length = lips
            .first()
            .and_then(|lip| lip.chord)
            .or(inches(proportions.flap_length_m))
            .unwrap_or(HINGE + LIP);
        let panel = Panel::new(&lips, bottom, firewall, hinge_length);
        for lip in &mut lips {
            // No flap opens further than it is long.
            lip.open_gap = lip.open_gap.min((bottom - panel.deepest).max(lip.gap));
        }
        let usual_place = core_place::usual_place(installation);
        let place = proportions
            .cooler_place
            .filter(|place| !place.is_bound() && !usual_place.is_bound())
            .unwrap_or(usual_place);
        let front_baffle = FIRST - 4.25;
        let around = Around {
            front_baffle,
            ramp: ramp(&mouths),
            rear_baffle,
            firewall,
            last_cylinder: last,
            chin: panel.chin,
        };
        let side = if proportions.cooler_on_right {
            -1.0
        } else {
            1.0
        };
        let decks = &installation.decks;
        Self {
            front_baffle,
            ramp: ramp(&mouths),
            rear_baffle,
            firewall,
            top,
            bottom,
            half_width,
            spinner,
            spinner_length: 1.75 * spinner,
            upper_skin: upper_skin(&mouths, top, firewall),
            lower_skin: lower_skin(&mouths, panel.chin),
            mouths,
            lips,
            louvers,
            chin: panel.chin,
            hinge: panel.hinge,
            closed_tip: panel.closed_tip,
            tip: panel.tip,
            lowest_tip: panel.lowest_tip,
            flap_turn: panel.turn,
            pusher: installation.engine.kind.is_pusher(),
            plenum: decks.sealing == Sealing::HardPlenum,
            lid: top - 3.0,
            core: core_place::core_place(installation, place, side, &around),
            blast: (decks.blast_tubes, decks.blast_diameter.value * INCHES),
            cabin: decks
                .cabin_air
                .then_some(decks.cabin_diameter.value * INCHES),
            induction: decks.induction_from_upper_deck,
            across: (decks.upper == UpperDeck::Halves)
                .then_some(decks.across.value * INCHES * INCHES),
            cylinders,
        }
    }

    /// x of the first cylinder.
    #[must_use]
    pub fn first(&self) -> f64 {
        self.cylinders.first().copied().unwrap_or(FIRST)
    }

    /// x of the last cylinder.
    #[must_use]
    pub fn last(&self) -> f64 {
        self.cylinders.last().copied().unwrap_or(FIRST)
    }

    /// The front inlet of a side, nearest to the centre line.
    #[must_use]
    pub fn front_mouth(&self, side: f64) -> Option<&Mouth> {
        self.mouths
            .iter()
            .find(|mouth| mouth.station == Station::Front && mouth.side == side)
    }

    /// The front inlet that the side view shows: the left one, else the right one.
    #[must_use]
    pub fn shown_mouth(&self) -> Option<&Mouth> {
        self.front_mouth(1.0).or_else(|| self.front_mouth(-1.0))
    }

    /// z of the top skin.
    #[must_use]
    pub fn skin_above(&self, x: f64) -> f64 {
        height_at(&sampled(&self.upper_skin), x)
    }

    /// z of the lower skin, forward of the hinge.
    #[must_use]
    pub fn skin_below(&self, x: f64) -> f64 {
        height_at(&sampled(&self.lower_skin), x)
    }

    /// z of what seals the upper deck at the rear baffle: skin or lid.
    #[must_use]
    pub fn seal(&self) -> f64 {
        if self.plenum {
            self.lid
        } else {
            self.skin_above(self.rear_baffle)
        }
    }

    /// The exit that the section cuts: the first one.
    #[must_use]
    pub fn main_exit(&self) -> Option<&LipExit> {
        self.lips.first()
    }
}

fn cylinder_places(bank: usize, length: Option<f64>) -> Vec<f64> {
    let gaps = f64::from(u8::try_from(bank.saturating_sub(1)).unwrap_or(5));
    // Before the first and behind the last cylinder stand 6.6 and 5.5 in of case.
    let pitch = length.map_or(PITCH, |length| {
        ((length - 12.1) / gaps.max(1.0)).clamp(7.3, 14.0)
    });
    (0..bank)
        .map(|place| FIRST + pitch * f64::from(u8::try_from(place).unwrap_or(5)))
        .collect()
}

/// Wide enough for every opening.
fn half_width(usual: f64, mouths: &[Mouth], lips: &[LipExit]) -> f64 {
    let outermost = mouths
        .iter()
        .map(|mouth| mouth.outer() + 1.4)
        .chain(
            lips.iter()
                .map(|lip| lip.middle.abs() + 0.5 * lip.width + 3.0),
        )
        .fold(SIDE_BAFFLE + 1.6, f64::max);
    usual.max(outermost)
}

/// Upper and lower end of the lips of the inlets in front, in.
fn nose(mouths: &[Mouth]) -> (f64, f64) {
    mouths
        .iter()
        .filter(|mouth| mouth.station == Station::Front)
        .fold((2.5, 2.5), |(top, bottom), mouth| {
            let half = 0.5 * mouth.height + 2.0 * mouth.lip;
            (top.max(mouth.up + half), bottom.min(mouth.up - half))
        })
}

/// Where the ramp behind the inlet that the side view shows meets the front baffle, z in.
fn ramp(mouths: &[Mouth]) -> f64 {
    let (up, half, _) = section_nose(mouths);
    if mouths.iter().any(|mouth| mouth.station == Station::Front) {
        up - half - RAMP_DROP
    } else {
        NO_RAMP
    }
}

/// The mouth that shapes the nose in the section: middle, half height, lip radius.
fn section_nose(mouths: &[Mouth]) -> (f64, f64, f64) {
    let front = |side: f64| {
        mouths
            .iter()
            .find(|mouth| mouth.station == Station::Front && mouth.side == side)
    };
    front(1.0)
        .or_else(|| front(-1.0))
        .map_or((2.5, 0.0, 0.1), |mouth| {
            (mouth.up, 0.5 * mouth.height, mouth.lip)
        })
}

fn upper_skin(mouths: &[Mouth], top: f64, firewall: f64) -> [[(f64, f64); 4]; 2] {
    let (up, half, radius) = section_nose(mouths);
    let lip = up + half + 2.0 * radius;
    let crest = (FIRST + 7.0, top - 0.75);
    // The second cubic leaves along the first one's last tangent.
    let slope = 0.45 / 11.0;
    [
        [
            (MOUTH + radius, lip),
            (MOUTH + radius + 2.3, (lip + 2.5).min(top - 1.0)),
            (FIRST - 4.0, crest.1 - 11.0 * slope),
            crest,
        ],
        [
            crest,
            (crest.0 + 5.0, crest.1 + 5.0 * slope),
            (firewall - 8.0, top),
            (firewall, top),
        ],
    ]
}

fn lower_skin(mouths: &[Mouth], chin: f64) -> [[(f64, f64); 4]; 2] {
    let (up, half, radius) = section_nose(mouths);
    let lip = up - half - 2.0 * radius;
    let cheek = (1.5, (-7.6_f64).min(lip - 2.4).max(chin + 1.6));
    let front = (-5.2_f64).min(lip - 1.4).max(cheek.1 + 0.6);
    [
        [
            (MOUTH + radius, lip),
            (MOUTH - 1.1, lip - 1.2),
            (MOUTH - 1.3, front),
            cheek,
        ],
        [
            cheek,
            // Along the first cubic's last tangent, so that the cheek has no kink.
            (
                cheek.0 + 1.46 * (cheek.0 - MOUTH + 1.3),
                (cheek.1 + 1.46 * (cheek.1 - front)).max(chin),
            ),
            (7.5, chin),
            (16.0, chin),
        ],
    ]
}

fn sampled(cubics: &[[(f64, f64); 4]; 2]) -> Vec<(f64, f64)> {
    let mut points = cubic_points(cubics[0], 20);
    points.extend(cubic_points(cubics[1], 16).into_iter().skip(1));
    points
}

/// The lip's panel: from its hinge to its tip.
struct Panel {
    chin: f64,
    hinge: (f64, f64),
    closed_tip: (f64, f64),
    tip: (f64, f64),
    lowest_tip: f64,
    /// As far down as a flap of this length can reach.
    deepest: f64,
    turn: f64,
}

impl Panel {
    fn new(lips: &[LipExit], bottom: f64, firewall: f64, length: f64) -> Self {
        let (gap, open, widest, flap) = lips.first().map_or((0.2, 0.2, 0.2, false), |lip| {
            (lip.gap, lip.open_gap, lip.widest_gap, lip.flap)
        });
        let closed = bottom - gap;
        let chin = closed - 0.15;
        let tip_x = firewall + LIP;
        let hinge = (tip_x - length.clamp(3.0, 14.0), chin);
        let reach = (tip_x - hinge.0).hypot(closed - chin);
        let turned = |gap: f64| openings::flap_turn(reach, chin, closed, bottom - gap);
        let tip_at = |turn: f64| {
            let angle = (chin - closed).atan2(tip_x - hinge.0) + turn;
            (hinge.0 + reach * angle.cos(), chin - reach * angle.sin())
        };
        let turn = if flap { turned(open) } else { 0.0 };
        let lowest = if flap {
            tip_at(turned(widest)).1
        } else {
            closed
        };
        Self {
            chin,
            hinge,
            closed_tip: (tip_x, closed),
            tip: if flap { tip_at(turn) } else { (tip_x, closed) },
            lowest_tip: lowest.min(closed),
            deepest: tip_at(turned(1e6)).1,
            turn,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::document::example as demo;

    fn frame() -> Frame {
        Frame::of(&demo::design().installation, 0.0, &Proportions::default())
    }

    #[test]
    fn the_example_stands_where_its_proportions_say() {
        let frame = frame();
        assert_eq!(frame.cylinders, vec![10.8, 18.3]);
        assert!((frame.firewall - 39.8).abs() < 1e-9);
        assert!((frame.top - 10.8).abs() < 1e-9 && (frame.bottom + 12.2).abs() < 1e-9);
        assert!((frame.closed_tip.1 + 16.8).abs() < 1e-9);
    }

    #[test]
    fn the_skins_join_without_a_kink() {
        for skin in [frame().upper_skin, frame().lower_skin] {
            let slope = |a: (f64, f64), b: (f64, f64)| (b.1 - a.1) / (b.0 - a.0);
            let before = slope(skin[0][2], skin[0][3]);
            let after = slope(skin[1][0], skin[1][1]);
            assert!(
                (before - after).abs() < 0.35 * before.abs().max(0.1),
                "{before} {after}"
            );
        }
    }

    #[test]
    fn an_open_flap_opens_the_gap_that_its_area_asks_for() {
        let mut installation = demo::design().installation;
        installation.exits[0].flap = true;
        let frame = Frame::of(&installation, 1.0, &Proportions::default());
        let gap = frame.bottom - frame.tip.1;
        assert!((gap - frame.lips[0].widest_gap).abs() < 0.01, "{gap}");
        assert!(frame.flap_turn > 0.0);
    }

    #[test]
    fn overrides_are_taken() {
        let proportions = Proportions {
            firewall_height_m: Some(0.70),
            firewall_width_m: Some(1.2),
            engine_length_m: Some(0.6),
            ..Proportions::default()
        };
        let frame = Frame::of(&demo::design().installation, 0.0, &proportions);
        assert!((frame.top - frame.bottom - 0.70 * INCHES).abs() < 1e-9);
        assert!((frame.half_width - 0.6 * INCHES).abs() < 1e-9);
        assert!(frame.cylinders[1] - frame.cylinders[0] > PITCH);
    }
}
