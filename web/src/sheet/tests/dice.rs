//! Random installations over the whole permitted range of every input, and flows that balance.

use crate::sheet::{Readout, State};
use coolpath_core::answer::evaluate::evaluate;
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::{
    CoolerDischarge, CoolerSupply, Exit, ExitShape, Inlet, InletPosition, InletShape, Lip, Sealing,
};
use coolpath_core::{Installation, document::example as demo};

/// Random numbers from a seed (splitmix64).
pub struct Dice(pub u64);

impl Dice {
    /// The next 64 bits.
    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// From 0 to 1.
    pub fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// One of several.
    pub fn one_of<T: Copy>(&mut self, choices: &[T]) -> T {
        choices[(self.next() % choices.len() as u64) as usize]
    }

    /// Heads or tails.
    pub fn yes(&mut self) -> bool {
        self.next() & 1 == 1
    }
}

/// A design over the whole permitted range.
pub fn random_design(dice: &mut Dice) -> Design {
    let mut design = demo::design();
    let installation = &mut design.installation;
    let count = 1 + dice.next() % 4;
    installation.inlets = (0..count).map(|_| random_inlet(dice)).collect();
    let count = 1 + dice.next() % 4;
    installation.exits = (0..count)
        .map(|_| Exit {
            shape: dice.one_of(&[
                ExitShape::LipGap,
                ExitShape::Traced,
                ExitShape::Louvers,
                ExitShape::Augmentor,
            ]),
            louver_count: dice.one_of(&[1, 6, 100]),
            flap: dice.yes(),
            ..Exit::default()
        })
        .collect();
    installation.engine.cylinders = dice.one_of(&[2, 3, 4, 4, 6, 6, 8]);
    installation.decks.sealing = dice.one_of(&[
        Sealing::HardPlenum,
        Sealing::FlexibleSeals,
        Sealing::MeasuredLeak,
    ]);
    installation.decks.cabin_air = dice.yes();
    installation.decks.induction_from_upper_deck = dice.yes();
    installation.decks.blast_tubes = dice.one_of(&[0, 2, 20]);
    installation.cooler.supply = dice.one_of(&[
        CoolerSupply::UpperDeck,
        CoolerSupply::RearBaffle,
        CoolerSupply::FrontBaffle,
        CoolerSupply::OwnInlet,
    ]);
    installation.cooler.discharge =
        dice.one_of(&[CoolerDischarge::LowerDeck, CoolerDischarge::OwnExit]);
    installation.cooler.bends = dice.one_of(&[0, 1, 2, 5]);
    installation.shutter.fitted = dice.yes();
    let places: Vec<_> = design.places().collect();
    for (input, place) in places {
        let (least, most) = input.permitted;
        let value = if least > 0.0 && most / least > 1.5 {
            (least.ln() + dice.share() * (most / least).ln())
                .exp()
                .clamp(least, most)
        } else {
            least + dice.share() * (most - least)
        };
        input.set(&mut design, place, value);
    }
    design
}

fn random_inlet(dice: &mut Dice) -> Inlet {
    let outline = if dice.yes() {
        (0..12)
            .map(|step| {
                let (sine, cosine) = (f64::from(step) * 0.52).sin_cos();
                let radius = 0.03 + 0.1 * dice.share();
                [radius * cosine, radius * sine]
            })
            .collect()
    } else {
        Vec::new()
    };
    Inlet {
        shape: dice.one_of(&[InletShape::Rectangle, InletShape::Ring, InletShape::Traced]),
        position: dice.one_of(&[
            InletPosition::ForwardClear,
            InletPosition::BehindBladeRoot,
            InletPosition::BellyScoop,
            InletPosition::Flush,
        ]),
        lip: dice.one_of(&[Lip::Thin, Lip::Blunt, Lip::Rounded]),
        diffuser: dice.yes(),
        outline,
        ..Inlet::default()
    }
}

/// Flows that balance, of either sign, up to 5 kg/s.
pub fn random_readout(dice: &mut Dice, installation: &Installation) -> Readout {
    let mut readout = Readout::nominal(&evaluate(&demo::design(), 1).expect("solved"));
    let mut flow = |most: f64| most * (2.0 * dice.share() - 0.6);
    readout.fin_kg_s = flow(4.0);
    readout.cooler_kg_s = flow(0.6);
    readout.seal_kg_s = flow(0.3);
    readout.blast_kg_s = flow(0.05);
    readout.overboard_kg_s = flow(0.1);
    readout.inflow_kg_s = flow(0.3);
    readout.cabin_kg_s = flow(0.05);
    readout.induction_kg_s = flow(0.05).max(0.0);
    let cooler = &installation.cooler;
    let taken = if cooler.supply != CoolerSupply::OwnInlet {
        readout.cooler_kg_s
    } else {
        0.0
    };
    let given = if cooler.discharge == CoolerDischarge::LowerDeck {
        readout.cooler_kg_s
    } else {
        0.0
    };
    let between = readout.fin_kg_s + readout.seal_kg_s + readout.blast_kg_s;
    let drawn = readout.overboard_kg_s + readout.cabin_kg_s + readout.induction_kg_s;
    let entering = between + drawn + taken;
    let leaving = between + readout.inflow_kg_s + given;
    let even = |sum: f64, count: usize| vec![sum / count as f64; count];
    readout.inlets_kg_s = even(entering, installation.inlets.len());
    readout.exits_kg_s = even(leaving, installation.exits.len());
    readout.upper_pa = 3000.0 * (dice.share() - 0.3);
    readout.head.state = dice.one_of(&[State::Inside, State::Close, State::Over].map(Some));
    readout.oil.state = dice.one_of(&[State::TooCold, State::Close, State::Over].map(Some));
    readout.hottest = dice.one_of(&[None, Some(0), Some(9)]);
    readout
}
