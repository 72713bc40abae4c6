//! The air as strands: which stream becomes which, and where each lies in the two stacks.
//!
//! In each deck the streams that enter are stacked in one order and those that leave in another,
//! both from below; laid over each other they say which part of which stream goes where. Since
//! both orders follow the places of the openings, strands cannot cross.

use super::mouths::{Mouth, Station};
use super::readout::Readout;
use coolpath_core::math::order;

/// A place where air enters or leaves a deck.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Branch {
    /// Inlets under the chin.
    Belly,
    /// Inlets in the nose.
    Front,
    /// Inlets in the top skin.
    Flush,
    /// Leak from the upper deck to the outside.
    Overboard,
    /// Half of the fins of one cylinder: twice its place, plus one for the aft half.
    Fin(usize),
    /// Oil cooler.
    Cooler,
    /// Blast tubes.
    Blast,
    /// Cabin air.
    Cabin,
    /// Induction air.
    Induction,
    /// Seals.
    Seal,
    /// Leak from outside into the lower deck.
    Inflow,
    /// Louvers.
    Louvers,
    /// Exits with a lip.
    Lip,
}

/// A strand's way through one deck.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Leg {
    /// Where it comes from.
    pub from: Branch,
    /// Where it goes.
    pub to: Branch,
    /// Its middle above the bottom of the stack, kg/s.
    pub middle: f64,
}

/// One strand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strand {
    /// Flow, kg/s, never negative.
    pub flow: f64,
    /// Fins or cooler that it passes from deck to deck.
    pub through: Option<Branch>,
    /// Its middle from the middle of what it passes, kg/s, toward the stack's top.
    pub aside: f64,
    /// In the upper deck.
    pub upper: Option<Leg>,
    /// In the lower deck.
    pub lower: Option<Leg>,
    /// Whether it runs from the lower to the upper deck.
    pub backward: bool,
}

/// All strands and the heights of both stacks.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Strands {
    /// The strands, from below.
    pub list: Vec<Strand>,
    /// Height of the upper stack, kg/s.
    pub upper: f64,
    /// Height of the lower stack, kg/s.
    pub lower: f64,
}

/// How the cooler is joined to the decks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CoolerJoints {
    /// Its air comes from the upper deck.
    pub upper: bool,
    /// Its air goes to the lower deck.
    pub lower: bool,
    /// It stands before the cylinders.
    pub front: bool,
}

/// Streams below this are not drawn, kg/s: a thousandth of a millimetre wide.
const NOTHING: f64 = 1e-8;

/// A stream of a deck: its branch, what flows inward, and whether it is an inlet by nature.
type Stream = (Branch, f64);

impl Strands {
    /// The strands of a readout; `cylinders` stand in a bank.
    #[must_use]
    pub fn of(
        readout: &Readout,
        mouths: &[Mouth],
        louvers: &[usize],
        cylinders: usize,
        joints: CoolerJoints,
    ) -> Self {
        let half = readout.fin_kg_s / (2.0 * cylinders.max(1) as f64);
        let upper = deck(&upper_streams(readout, mouths, cylinders, half, joints));
        let lower = deck(&lower_streams(readout, louvers, cylinders, half, joints));
        let height = |legs: &[(Leg, f64)]| legs.iter().map(|(_, flow)| flow).sum();
        Self {
            upper: height(&upper),
            lower: height(&lower),
            list: joined(&upper, &lower),
        }
    }

    /// Flow that the strands carry through a branch, kg/s, whichever way; what passes it in both
    /// decks counts in both.
    #[must_use]
    pub fn through(&self, branch: Branch) -> f64 {
        let carried = |strand: &Strand| {
            if passes(branch) {
                return f64::from(u8::from(strand.through == Some(branch)));
            }
            let legs = [strand.upper, strand.lower].into_iter().flatten();
            legs.map(|leg| f64::from(u8::from(leg.from == branch || leg.to == branch)))
                .sum()
        };
        self.list
            .iter()
            .map(|strand| strand.flow * carried(strand))
            .sum()
    }

    /// Middle of a branch's strands in the upper stack, kg/s; the stack's own without any.
    #[must_use]
    pub fn upper_middle(&self, branch: Branch) -> f64 {
        let (mut flow, mut moment) = (0.0, 0.0);
        for strand in &self.list {
            let Some(leg) = strand.upper else { continue };
            if leg.from == branch || leg.to == branch {
                flow += strand.flow;
                moment += strand.flow * leg.middle;
            }
        }
        if flow > 0.0 {
            moment / flow
        } else {
            0.5 * self.upper
        }
    }
}

fn upper_streams(
    readout: &Readout,
    mouths: &[Mouth],
    cylinders: usize,
    half: f64,
    joints: CoolerJoints,
) -> Vec<Stream> {
    let inlet = |station: Station| {
        readout
            .inlets_kg_s
            .iter()
            .enumerate()
            .filter(|(place, _)| {
                mouths
                    .iter()
                    .find(|mouth| mouth.place == *place)
                    .map_or(station == Station::Front, |mouth| mouth.station == station)
            })
            .map(|(_, flow)| flow)
            .sum::<f64>()
    };
    let mut streams = vec![
        (Branch::Belly, inlet(Station::Belly)),
        (Branch::Front, inlet(Station::Front)),
        (Branch::Flush, inlet(Station::Flush)),
        (Branch::Overboard, -readout.overboard_kg_s),
    ];
    let cooler = (Branch::Cooler, -readout.cooler_kg_s);
    streams.extend((joints.upper && joints.front).then_some(cooler));
    streams.extend((0..2 * cylinders).map(|place| (Branch::Fin(place), -half)));
    streams.extend((joints.upper && !joints.front).then_some(cooler));
    streams.extend([
        (Branch::Blast, -readout.blast_kg_s),
        (Branch::Cabin, -readout.cabin_kg_s),
        (Branch::Induction, -readout.induction_kg_s),
        (Branch::Seal, -readout.seal_kg_s),
    ]);
    streams
}

fn lower_streams(
    readout: &Readout,
    louvers: &[usize],
    cylinders: usize,
    half: f64,
    joints: CoolerJoints,
) -> Vec<Stream> {
    let out = |through_louvers: bool| {
        readout
            .exits_kg_s
            .iter()
            .enumerate()
            .filter(|(place, _)| louvers.contains(place) == through_louvers)
            .map(|(_, flow)| flow)
            .sum::<f64>()
    };
    let mut streams = vec![(Branch::Inflow, readout.inflow_kg_s)];
    // A core in the chin stands below the others, one on the front baffle before them.
    let first = joints.front || !joints.upper;
    let cooler = (Branch::Cooler, readout.cooler_kg_s);
    streams.extend((joints.lower && first).then_some(cooler));
    streams.extend((0..2 * cylinders).map(|place| (Branch::Fin(place), half)));
    streams.extend([
        (Branch::Blast, readout.blast_kg_s),
        (Branch::Seal, readout.seal_kg_s),
    ]);
    streams.extend((joints.lower && !first).then_some(cooler));
    streams.extend([(Branch::Louvers, -out(true)), (Branch::Lip, -out(false))]);
    streams
}

/// Lays what enters a deck over what leaves it.
fn deck(streams: &[Stream]) -> Vec<(Leg, f64)> {
    let pick = |sign: f64| {
        streams
            .iter()
            .map(|&(branch, inward)| (branch, inward * sign))
            .filter(|(_, flow)| *flow > NOTHING)
            .collect::<Vec<_>>()
    };
    let (entering, leaving) = (pick(1.0), pick(-1.0));
    let (mut from, mut to) = (0, 0);
    let (mut used, mut filled) = (0.0, 0.0);
    let mut height = 0.0;
    let mut legs = Vec::new();
    while let (Some(&(source, gives)), Some(&(sink, takes))) = (entering.get(from), leaving.get(to))
    {
        let flow = (gives - used).min(takes - filled);
        if flow > NOTHING {
            let middle = height + 0.5 * flow;
            legs.push((
                Leg {
                    from: source,
                    to: sink,
                    middle,
                },
                flow,
            ));
        }
        height += flow;
        used += flow;
        filled += flow;
        if gives - used <= NOTHING {
            from += 1;
            used = 0.0;
        }
        if takes - filled <= NOTHING {
            to += 1;
            filled = 0.0;
        }
    }
    legs
}

fn passes(branch: Branch) -> bool {
    matches!(branch, Branch::Fin(_) | Branch::Cooler)
}

/// Joins the legs of both decks at the fins and the cooler; a leg between these two belongs to a
/// strand of each.
fn joined(upper: &[(Leg, f64)], lower: &[(Leg, f64)]) -> Vec<Strand> {
    let of = |legs: &[(Leg, f64)], branch: Branch| {
        legs.iter()
            .filter(|(leg, _)| leg.from == branch || leg.to == branch)
            .copied()
            .collect::<Vec<_>>()
    };
    let mut strands = Vec::new();
    let mut done: Vec<Branch> = Vec::new();
    for (legs, above) in [(upper, true), (lower, false)] {
        for (leg, flow) in legs {
            let ends = [leg.from, leg.to];
            if !ends.into_iter().any(passes) {
                strands.push(Strand {
                    flow: *flow,
                    through: None,
                    aside: 0.0,
                    upper: above.then_some(*leg),
                    lower: (!above).then_some(*leg),
                    backward: false,
                });
            }
            for branch in ends.into_iter().filter(|branch| passes(*branch)) {
                if !done.contains(&branch) {
                    done.push(branch);
                    strands.extend(passing(branch, &of(upper, branch), &of(lower, branch)));
                }
            }
        }
    }
    strands
}

/// The strands through fins or cooler; both decks may divide them differently.
fn passing(branch: Branch, above: &[(Leg, f64)], below: &[(Leg, f64)]) -> Vec<Strand> {
    let ends = |legs: &[(Leg, f64)]| {
        let mut height = 0.0;
        legs.iter()
            .map(|(_, flow)| {
                height += flow;
                height
            })
            .collect::<Vec<_>>()
    };
    let (above_ends, below_ends) = (ends(above), ends(below));
    let whole = above_ends
        .last()
        .copied()
        .unwrap_or(0.0)
        .max(below_ends.last().copied().unwrap_or(0.0));
    let mut cuts: Vec<f64> = above_ends.iter().chain(&below_ends).copied().collect();
    order::ascending(&mut cuts);
    let mut strands = Vec::new();
    let mut start = 0.0;
    for cut in cuts {
        let flow = cut - start;
        if flow <= NOTHING {
            continue;
        }
        let middle = start + 0.5 * flow;
        let within = |legs: &[(Leg, f64)], ends: &[f64]| {
            let place = ends.iter().position(|end| middle < *end)?;
            let (leg, width) = legs[place];
            let begins = ends[place] - width;
            Some(Leg {
                middle: leg.middle - 0.5 * width + (middle - begins),
                ..leg
            })
        };
        let (upper, lower) = (within(above, &above_ends), within(below, &below_ends));
        strands.push(Strand {
            flow,
            through: Some(branch),
            aside: middle - 0.5 * whole,
            backward: upper.map_or_else(
                || lower.is_some_and(|leg| leg.to == branch),
                |leg| leg.from == branch,
            ),
            upper,
            lower,
        });
        start = cut;
    }
    strands
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::{answer::evaluate::evaluate, document::example as demo};

    const BOTH: CoolerJoints = CoolerJoints {
        upper: true,
        lower: true,
        front: false,
    };

    fn example() -> Readout {
        Readout::nominal(&evaluate(&demo::design(), 1).expect("solved"))
    }

    fn strands(readout: &Readout) -> Strands {
        Strands::of(readout, &[], &[], 2, BOTH)
    }

    #[test]
    fn widths_add_up_wherever_the_air_divides() {
        let readout = example();
        let strands = strands(&readout);
        let close = |branch: Branch, flow: f64| {
            assert!(
                (strands.through(branch) - flow.abs()).abs() < 1e-6,
                "{branch:?}"
            );
        };
        close(Branch::Front, readout.inlet_kg_s());
        close(Branch::Cooler, readout.cooler_kg_s);
        close(Branch::Lip, readout.exit_kg_s());
        for fin in 0..4 {
            close(Branch::Fin(fin), 0.25 * readout.fin_kg_s);
        }
        assert!((strands.upper - readout.inlet_kg_s()).abs() < 1e-6);
    }

    #[test]
    fn a_reversed_leak_feeds_the_last_cylinder_from_behind() {
        let mut readout = example();
        readout.seal_kg_s = -0.05;
        readout.fin_kg_s = readout.inlet_kg_s() + 0.05
            - readout.cooler_kg_s
            - readout.blast_kg_s
            - readout.overboard_kg_s;
        let list = strands(&readout).list;
        let fed: Vec<_> = list
            .iter()
            .filter(|strand| strand.upper.is_some_and(|leg| leg.from == Branch::Seal))
            .collect();
        let sum: f64 = fed.iter().map(|strand| strand.flow).sum();
        assert!((sum - 0.05).abs() < 1e-6);
        assert!(
            fed.iter()
                .all(|strand| strand.through != Some(Branch::Fin(0)))
        );
    }

    #[test]
    fn a_flow_that_turns_round_runs_from_below() {
        let mut readout = example();
        for flow in readout
            .inlets_kg_s
            .iter_mut()
            .chain(&mut readout.exits_kg_s)
        {
            *flow = -*flow;
        }
        for flow in [
            &mut readout.fin_kg_s,
            &mut readout.cooler_kg_s,
            &mut readout.seal_kg_s,
            &mut readout.blast_kg_s,
            &mut readout.overboard_kg_s,
            &mut readout.inflow_kg_s,
        ] {
            *flow = -*flow;
        }
        let list = strands(&readout).list;
        assert!(
            list.iter()
                .filter(|strand| strand.through.is_some())
                .all(|strand| strand.backward)
        );
        assert!(list.iter().any(|strand| {
            strand.upper.is_some_and(|leg| leg.to == Branch::Front)
                && strand.lower.is_some_and(|leg| leg.from == Branch::Lip)
        }));
    }

    #[test]
    fn front_cylinders_lie_below_the_rear_ones() {
        let list = strands(&example()).list;
        let middle = |fin: usize| {
            list.iter()
                .find(|strand| strand.through == Some(Branch::Fin(fin)))
                .and_then(|strand| strand.upper)
                .map(|leg| leg.middle)
                .expect("fed from above")
        };
        assert!((1..4).all(|fin| middle(fin) > middle(fin - 1)));
    }
}
