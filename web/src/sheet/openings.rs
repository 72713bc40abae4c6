//! Where the exits stand, in inches: lip, flap, pipes, louvers.

use super::mouths::INCHES;
use coolpath_core::document::installation::{Exit, ExitEdge, ExitShape, FlapGiven, Installation};

/// An exit under the firewall: a lip and the belly above it.
#[derive(Debug, Clone, PartialEq)]
pub struct LipExit {
    /// Its place in the installation's list.
    pub place: usize,
    /// Middle outboard of the centre line, to the aircraft's left, in.
    pub middle: f64,
    /// Width, in.
    pub width: f64,
    /// Gap as it is built, in.
    pub gap: f64,
    /// Gap with the flap where it stands, in.
    pub open_gap: f64,
    /// Gap with the flap fully open, in.
    pub widest_gap: f64,
    /// Whether a flap is fitted.
    pub flap: bool,
    /// Diameter of each pipe in it, in.
    pub pipe: Option<f64>,
    /// Pipes in it.
    pub pipes: u8,
    /// Whether width and gap are inputs of their own.
    pub measured: bool,
    /// Edge that the air leaves over.
    pub edge: ExitEdge,
    /// Length of the flap, in, where it goes by its angle.
    pub chord: Option<f64>,
    /// Length of the augmentor's tube, in, if it is one; its diameter is the gap.
    pub tube: Option<f64>,
}

/// A row of louvers in the lower skin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Louvers {
    /// Its place in the installation's list.
    pub place: usize,
    /// How many.
    pub count: u8,
    /// Area of one, in².
    pub area: f64,
}

/// Width, in, that an exit known by its area alone is drawn with (tag: common practice).
const USUAL_WIDTH: f64 = 14.0;
/// Room between two exits side by side, in.
const BETWEEN: f64 = 2.0;

/// All exits with lips, from the aircraft's left, and all rows of louvers.
#[must_use]
pub fn exits(installation: &Installation, flap: f64) -> (Vec<LipExit>, Vec<Louvers>) {
    let mut lips = Vec::new();
    let mut louvers = Vec::new();
    let pipes = if installation.engine.cylinders > 2 {
        2
    } else {
        1
    };
    for (place, exit) in installation.exits.iter().enumerate() {
        if exit.shape == ExitShape::Louvers {
            louvers.push(Louvers {
                place,
                count: exit.louver_count,
                area: exit.louver_area.value * INCHES * INCHES,
            });
        } else {
            lips.push(lip(place, exit, flap, pipes));
        }
    }
    let total: f64 = lips.iter().map(|lip| lip.width + BETWEEN).sum::<f64>() - BETWEEN;
    let mut left = 0.5 * total;
    for lip in &mut lips {
        lip.middle = left - 0.5 * lip.width;
        left -= lip.width + BETWEEN;
    }
    (lips, louvers)
}

fn lip(place: usize, exit: &Exit, flap: f64, pipes: u8) -> LipExit {
    let square = |metres2: f64| metres2 * INCHES * INCHES;
    let measured = exit.shape == ExitShape::LipGap;
    if exit.shape == ExitShape::Augmentor {
        return tube(place, exit);
    }
    let width = if measured {
        (exit.width.value * INCHES).max(0.1)
    } else {
        USUAL_WIDTH
    };
    let blocked = square(exit.pipes_area.value);
    let gap_at = |opening: f64| ((square(exit.area_m2(opening)) + blocked) / width).max(0.0);
    let gap = if measured {
        exit.gap.value * INCHES
    } else {
        square(exit.traced_area.value) / width
    };
    let opening = if exit.flap { flap.clamp(0.0, 1.0) } else { 0.0 };
    LipExit {
        place,
        middle: 0.0,
        width,
        gap,
        open_gap: if exit.flap { gap_at(opening) } else { gap },
        widest_gap: if exit.flap { gap_at(1.0).max(gap) } else { gap },
        flap: exit.flap,
        // d = √(4A/πn)
        pipe: (blocked > 0.0)
            .then(|| (4.0 * blocked / (core::f64::consts::PI * f64::from(pipes))).sqrt()),
        pipes: if blocked > 0.0 { pipes } else { 0 },
        measured,
        edge: exit.edge,
        chord: (exit.flap && exit.flap_given == FlapGiven::Angle)
            .then_some(exit.flap_chord.value * INCHES),
        tube: None,
    }
}

/// The mouth of an augmentor, as wide as it is high, round its stacks.
fn tube(place: usize, exit: &Exit) -> LipExit {
    let diameter = exit.tube_diameter.value * INCHES;
    LipExit {
        place,
        middle: 0.0,
        width: diameter,
        gap: diameter,
        open_gap: diameter,
        widest_gap: diameter,
        flap: false,
        pipe: (exit.stack_count > 0).then_some(exit.stack_diameter.value * INCHES),
        pipes: exit.stack_count,
        measured: false,
        edge: exit.edge,
        chord: None,
        tube: Some(exit.tube_length.value * INCHES),
    }
}

/// Angle of a flap from closed, radians, that lets its tip down from one height to another.
///
/// sin α = (z − z_tip)/l at both heights; a tip lower than the flap is long stands at 80°.
#[must_use]
pub fn flap_turn(length: f64, hinge: f64, closed_tip: f64, tip: f64) -> f64 {
    const STEEPEST: f64 = 80.0;
    let slope = |z: f64| {
        ((hinge - z) / length.max(0.1))
            .clamp(-1.0, 1.0)
            .asin()
            .clamp(-STEEPEST.to_radians(), STEEPEST.to_radians())
    };
    slope(tip) - slope(closed_tip)
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::document::example as demo;

    #[test]
    fn the_flaps_gap_gives_back_its_area() {
        let mut installation = demo::design().installation;
        installation.exits[0].flap = true;
        let (lips, _) = exits(&installation, 0.5);
        let exit = &installation.exits[0];
        let open = lips[0].open_gap * lips[0].width / INCHES / INCHES - exit.pipes_area.value;
        assert!((open - exit.area_m2(0.5)).abs() < 1e-12);
        assert!((lips[0].gap - 4.6).abs() < 1e-9);
    }

    #[test]
    fn two_exits_stand_side_by_side_about_the_middle() {
        let mut installation = demo::design().installation;
        let second = installation.exits[0].clone();
        installation.exits.push(second);
        let (lips, _) = exits(&installation, 0.0);
        assert!((lips[0].middle + lips[1].middle).abs() < 1e-9);
        assert!((lips[0].middle - lips[1].middle - 16.0).abs() < 1e-9);
    }

    #[test]
    fn a_flap_is_turned_by_what_its_tip_comes_down() {
        let turn = flap_turn(9.0, 0.0, 0.0, -4.5);
        assert!((turn.to_degrees() - 30.0).abs() < 1e-9);
        assert!(flap_turn(9.0, 0.0, 0.0, -90.0).to_degrees() <= 80.0);
    }
}
