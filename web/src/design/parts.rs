//! The parts of an installation, and which inputs and choices belong to each. Pure.

use coolpath_core::document::design::Design;
use coolpath_core::language::tr;

/// A part that can be chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// Propeller and spinner.
    Propeller,
    /// An inlet by its place.
    Inlet(usize),
    /// Upper deck and its sealing.
    UpperDeck,
    /// Engine and its cooling data.
    Engine,
    /// The limits of the engine's manual.
    Limits,
    /// Duct or hose to the oil cooler.
    Duct,
    /// Butterfly in that duct.
    Shutter,
    /// Oil and its cooler.
    Cooler,
    /// Lower deck.
    LowerDeck,
    /// An exit by its place.
    Exit(usize),
    /// Cowl flap of an exit.
    Flap(usize),
    /// Aircraft and its instruments.
    Aircraft,
    /// The condition that is shown.
    Condition,
}

/// A part without its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Propeller and spinner.
    Propeller,
    /// Inlets.
    Inlet,
    /// Upper deck.
    UpperDeck,
    /// Engine.
    Engine,
    /// Limits.
    Limits,
    /// Duct.
    Duct,
    /// Shutter.
    Shutter,
    /// Oil and cooler.
    Cooler,
    /// Lower deck.
    LowerDeck,
    /// Exits.
    Exit,
    /// Cowl flaps.
    Flap,
    /// Aircraft.
    Aircraft,
    /// Conditions.
    Condition,
}

/// Ids that belong to another part than the rest of their group.
const APART: [(&str, Kind); 31] = [
    ("airframe.propeller_diameter_m", Kind::Propeller),
    ("airframe.propeller_efficiency", Kind::Propeller),
    ("airframe.propeller_share", Kind::Propeller),
    ("engine.pusher_suction_share", Kind::Propeller),
    ("engine.head_limit_k", Kind::Limits),
    ("engine.oil_limit_k", Kind::Limits),
    ("decks.inflow_leak_m2", Kind::LowerDeck),
    ("decks.inflow_pressure_share", Kind::LowerDeck),
    ("decks.outside_by_attitude", Kind::LowerDeck),
    ("decks.inflow_climb_share", Kind::LowerDeck),
    ("decks.inflow_ground_share", Kind::LowerDeck),
    ("decks.skin_conductance_w_per_k", Kind::LowerDeck),
    ("cooler.duct_diameter_m", Kind::Duct),
    ("cooler.duct_length_m", Kind::Duct),
    ("cooler.hose_friction_factor", Kind::Duct),
    ("cooler.tube_roughness", Kind::Duct),
    ("cooler.bend_loss", Kind::Duct),
    ("cooler.entrance_loss", Kind::Duct),
    ("cooler.preheat_share", Kind::Duct),
    ("cooler.baffle_preheat_share", Kind::Duct),
    ("cooler.own_inlet_area_m2", Kind::Duct),
    ("cooler.own_inlet_recovery", Kind::Duct),
    ("cooler.hose", Kind::Duct),
    ("cooler.take_off", Kind::Duct),
    ("cooler.bends", Kind::Duct),
    ("exit.flap_open_area_m2", Kind::Flap),
    ("exit.flap_pressure_coefficient", Kind::Flap),
    ("exit.flap_drag", Kind::Flap),
    ("exit.flap_given", Kind::Flap),
    ("exit.flap_chord_m", Kind::Flap),
    ("exit.flap_open_angle_deg", Kind::Flap),
];

/// The one part that an input or a choice belongs to.
#[must_use]
pub fn kind_of(id: &str) -> Option<Kind> {
    if let Some((_, kind)) = APART.iter().find(|(apart, _)| *apart == id) {
        return Some(*kind);
    }
    Some(match id.split('.').next()? {
        "airframe" => Kind::Aircraft,
        "inlet" => Kind::Inlet,
        "decks" => Kind::UpperDeck,
        "engine" | "reference" | "lags" | "cylinder" => Kind::Engine,
        "oil" | "cooler" => Kind::Cooler,
        "shutter" => Kind::Shutter,
        "exit" => Kind::Exit,
        "condition" => Kind::Condition,
        _ => return None,
    })
}

impl Part {
    /// The part without its place.
    #[must_use]
    pub fn kind(self) -> Kind {
        match self {
            Self::Propeller => Kind::Propeller,
            Self::Inlet(_) => Kind::Inlet,
            Self::UpperDeck => Kind::UpperDeck,
            Self::Engine => Kind::Engine,
            Self::Limits => Kind::Limits,
            Self::Duct => Kind::Duct,
            Self::Shutter => Kind::Shutter,
            Self::Cooler => Kind::Cooler,
            Self::LowerDeck => Kind::LowerDeck,
            Self::Exit(_) => Kind::Exit,
            Self::Flap(_) => Kind::Flap,
            Self::Aircraft => Kind::Aircraft,
            Self::Condition => Kind::Condition,
        }
    }

    /// Place in the design's lists; `shown` is the condition that is shown.
    #[must_use]
    pub fn place(self, shown: usize) -> usize {
        match self {
            Self::Inlet(place) | Self::Exit(place) | Self::Flap(place) => place,
            Self::Condition => shown,
            _ => 0,
        }
    }

    /// Title of the part's panel.
    #[must_use]
    pub fn title(self, design: &Design, shown: usize) -> String {
        let installation = &design.installation;
        let named = |name: Option<&String>, else_: &str| {
            name.filter(|name| !name.trim().is_empty())
                .map_or_else(|| else_.to_owned(), Clone::clone)
        };
        match self {
            Self::Propeller => tr("Propeller and spinner").to_owned(),
            Self::Inlet(place) => {
                named(installation.inlets.get(place).map(|e| &e.name), tr("Inlet"))
            }
            Self::UpperDeck => tr("Upper deck and sealing").to_owned(),
            Self::Engine => tr("Engine").to_owned(),
            Self::Limits => tr("Limits").to_owned(),
            Self::Duct => tr("Cooler duct").to_owned(),
            Self::Shutter => tr("Shutter").to_owned(),
            Self::Cooler => tr("Oil and cooler").to_owned(),
            Self::LowerDeck => tr("Lower deck").to_owned(),
            Self::Exit(place) => named(installation.exits.get(place).map(|e| &e.name), tr("Exit")),
            Self::Flap(place) => tr!("Cowl flap {}", place + 1),
            Self::Aircraft => tr("Aircraft and instruments").to_owned(),
            Self::Condition => named(
                design.conditions.get(shown).map(|e| &e.name),
                tr("Condition"),
            ),
        }
    }
}

/// The parts of a design in the order of the air, then what stands around it.
#[must_use]
pub fn parts(design: &Design) -> Vec<Part> {
    let installation = &design.installation;
    let mut list: Vec<Part> = (0..installation.inlets.len()).map(Part::Inlet).collect();
    list.extend([
        Part::UpperDeck,
        Part::Engine,
        Part::Duct,
        Part::Shutter,
        Part::Cooler,
    ]);
    list.push(Part::LowerDeck);
    list.extend((0..installation.exits.len()).map(Part::Exit));
    let flaps = installation.exits.iter().enumerate();
    list.extend(
        flaps
            .filter(|(_, exit)| exit.flap)
            .map(|(at, _)| Part::Flap(at)),
    );
    list.extend([
        Part::Propeller,
        Part::Limits,
        Part::Aircraft,
        Part::Condition,
    ]);
    list
}

/// What stands in a part's panel at first, choices and inputs; those not in use are left out there.
#[must_use]
pub fn main_fields(kind: Kind) -> &'static [&'static str] {
    match kind {
        Kind::Propeller => &["airframe.propeller_diameter_m"],
        Kind::Inlet => &[
            "inlet.shape",
            "inlet.width_m",
            "inlet.height_m",
            "inlet.diameter_m",
            "inlet.traced_area_m2",
            "inlet.lip_radius_m",
            "inlet.diffuser",
        ],
        Kind::UpperDeck => &[
            "decks.sealing",
            "decks.seal_length_m",
            "decks.seal_gap_m",
            "decks.plenum_leak_m2",
            "decks.measured_leak_m2",
        ],
        Kind::Engine => &[
            "engine.cylinders",
            "engine.rated_power_w",
            "engine.rated_rpm",
            "reference.kind",
        ],
        Kind::Limits => &["engine.head_limit_k", "engine.oil_limit_k"],
        Kind::Duct => &[
            "cooler.hose",
            "cooler.duct_diameter_m",
            "cooler.duct_length_m",
            "cooler.bends",
            "cooler.baffle_preheat_share",
        ],
        Kind::Shutter => &["shutter.fitted", "shutter.closed_gap"],
        Kind::Cooler => &[
            "cooler.supply",
            "cooler.face_width_m",
            "cooler.face_height_m",
            "cooler.depth_m",
            "oil.thermostat",
        ],
        Kind::LowerDeck => &["decks.inflow_leak_m2"],
        Kind::Exit => &[
            "exit.width_m",
            "exit.gap_m",
            "exit.traced_area_m2",
            "exit.louver_count",
            "exit.louver_area_m2",
            "exit.tube_diameter_m",
            "exit.tube_length_m",
            "exit.pipes_area_m2",
            "exit.flap",
        ],
        Kind::Flap => &[
            "exit.flap_given",
            "exit.flap_open_area_m2",
            "exit.flap_chord_m",
            "exit.flap_open_angle_deg",
        ],
        Kind::Aircraft => &["airframe.position_error_m_s"],
        Kind::Condition => &[
            "condition.airspeed_m_s",
            "condition.altitude_m",
            "condition.oat_k",
            "condition.power_share",
            "condition.oil_target_k",
        ],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::choices;
    use coolpath_core::document::{example, table};

    const KINDS: [Kind; 13] = [
        Kind::Propeller,
        Kind::Inlet,
        Kind::UpperDeck,
        Kind::Engine,
        Kind::Limits,
        Kind::Duct,
        Kind::Shutter,
        Kind::Cooler,
        Kind::LowerDeck,
        Kind::Exit,
        Kind::Flap,
        Kind::Aircraft,
        Kind::Condition,
    ];

    #[test]
    fn every_input_and_choice_belongs_to_exactly_one_part() {
        for input in table::all() {
            assert!(kind_of(input.id).is_some(), "{}", input.id);
        }
        let readings = |id: &str| id.starts_with("reading.");
        for choice in choices::all().filter(|choice| !readings(choice.id)) {
            assert!(kind_of(choice.id).is_some(), "{}", choice.id);
        }
        for (at, (id, _)) in APART.iter().enumerate() {
            let known = table::by_id(id).is_some() || choices::by_id(id).is_some();
            assert!(known, "{id} is no input and no choice");
            assert!(
                APART[..at].iter().all(|(other, _)| other != id),
                "{id} twice"
            );
        }
    }

    #[test]
    fn every_part_has_inputs_and_shows_few_of_its_own_at_first() {
        let mut design = example::design();
        design.installation.exits[0].flap = true;
        for kind in KINDS {
            assert!(
                table::all().any(|input| kind_of(input.id) == Some(kind)),
                "{kind:?}"
            );
            let used = main_fields(kind).iter().filter(|id| {
                let row = table::by_id(id);
                assert!(row.is_some() || choices::by_id(id).is_some(), "{id}");
                assert_eq!(kind_of(id), Some(kind), "{id}");
                row.is_none_or(|row| row.used(&design, 0))
            });
            assert!((1..=5).contains(&used.count()), "{kind:?}");
        }
    }

    #[test]
    fn a_design_lists_its_openings_by_name_and_a_flap_only_where_one_is_fitted() {
        let mut design = example::design();
        let list = parts(&design);
        assert_eq!(
            list.iter()
                .filter(|part| part.kind() == Kind::Inlet)
                .count(),
            2
        );
        assert!(list.iter().all(|part| part.kind() != Kind::Flap));
        design.installation.exits[0].flap = true;
        assert!(parts(&design).contains(&Part::Flap(0)));
        assert_eq!(
            Part::Inlet(0).title(&design, 0),
            design.installation.inlets[0].name
        );
    }
}
