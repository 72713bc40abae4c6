//! The table of choices: every option of the design that is not a number, in plain words.

use coolpath_core::document::design::Design;
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;

/// One option.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Choosable {
    /// Its name in the file.
    pub value: &'static str,
    /// What the builder calls it.
    pub phrase: &'static str,
}

/// One choice.
pub struct Choice {
    /// Identifier, group and field.
    pub id: &'static str,
    /// What is chosen.
    pub label: &'static str,
    /// The options.
    pub options: &'static [Choosable],
    /// The option taken in a design, as its name in the file.
    pub get: fn(&Design, usize) -> Option<String>,
    /// Takes an option; false if it or the place does not exist.
    pub set: fn(&mut Design, usize, &str) -> bool,
}

/// The choice with an id.
#[must_use]
pub fn by_id(id: &str) -> Option<&'static Choice> {
    CHOICES.iter().find(|choice| choice.id == id)
}

/// All choices.
#[must_use]
pub fn all() -> &'static [Choice] {
    CHOICES
}

/// The choices of a group.
pub fn of_group(prefix: &str) -> impl Iterator<Item = &'static Choice> {
    CHOICES.iter().filter(move |choice| {
        choice
            .id
            .strip_prefix(prefix)
            .is_some_and(|rest| rest.starts_with('.'))
    })
}

/// Name in the file of a stored option.
fn name<T: Serialize>(stored: &T) -> Option<String> {
    match serde_json::to_value(stored).ok()? {
        Value::String(text) => Some(text),
        other => Some(other.to_string()),
    }
}

/// Takes an option by its name in the file.
fn take<T: DeserializeOwned>(slot: &mut T, option: &str) -> bool {
    let text = serde_json::from_value(Value::String(option.to_owned()));
    match text.or_else(|_| serde_json::from_str(option)) {
        Ok(value) => {
            *slot = value;
            true
        }
        Err(_) => false,
    }
}

macro_rules! choice {
    ($id:literal, $label:literal, $group:ident.$field:ident, [$(($value:literal, $phrase:literal)),* $(,)?]) => {
        Choice {
            id: $id,
            label: $label,
            options: &[$(Choosable { value: $value, phrase: $phrase }),*],
            get: |design, place| {
                if place == 0 { name(&design.installation.$group.$field) } else { None }
            },
            set: |design, place, option| {
                place == 0 && take(&mut design.installation.$group.$field, option)
            },
        }
    };
}

macro_rules! listed {
    ($id:literal, $label:literal, $($list:ident).+ => $field:ident, [$(($value:literal, $phrase:literal)),* $(,)?]) => {
        Choice {
            id: $id,
            label: $label,
            options: &[$(Choosable { value: $value, phrase: $phrase }),*],
            get: |design, place| {
                design.$($list).+.get(place).and_then(|entry| name(&entry.$field))
            },
            set: |design, place, option| {
                design.$($list).+.get_mut(place).is_some_and(|entry| take(&mut entry.$field, option))
            },
        }
    };
}

static CHOICES: &[Choice] = &[
    choice!(
        "engine.kind",
        "Kind of engine and installation",
        engine.kind,
        [
            (
                "air_cooled_flat",
                "Air-cooled flat four-stroke, tractor, air from above downward"
            ),
            ("turbocharged", "Turbocharged"),
            ("liquid_cooled", "Liquid-cooled"),
            ("radial", "Radial"),
            ("two_stroke", "Two-stroke"),
            ("pusher", "Pusher"),
            ("updraft", "Updraft"),
        ]
    ),
    choice!(
        "engine.cylinders",
        "Cylinders",
        engine.cylinders,
        [("2", "Two"), ("4", "Four"), ("6", "Six"), ("8", "Eight")]
    ),
    choice!(
        "engine.piston_cooling_jets",
        "Piston cooling oil jets",
        engine.piston_cooling_jets,
        [("false", "No, or not sure"), ("true", "Yes"),]
    ),
    choice!(
        "engine.fuel_system",
        "Fuel reaches the cylinders",
        engine.fuel_system,
        [
            ("carburettor", "Through a carburettor or throttle body"),
            ("injected", "Through a nozzle at each cylinder"),
        ]
    ),
    choice!(
        "engine.cylinder_data",
        "What is known of each cylinder",
        engine.cylinder_data,
        [
            ("unknown", "Nothing yet: usual differences"),
            ("spread", "Hottest minus coolest head"),
            ("each", "Air, fuel and probe of each, from readings"),
        ]
    ),
    choice!(
        "engine.break_in",
        "Rings",
        engine.break_in,
        [
            ("false", "Seated"),
            ("true", "New or freshly overhauled: breaking in"),
        ]
    ),
    choice!(
        "engine.head_probe",
        "Head temperature probe",
        engine.head_probe,
        [
            ("bayonet_well", "Bayonet or screw-in, in the head's well"),
            ("under_plug_ring", "Ring under a spark plug"),
        ]
    ),
    choice!(
        "engine.head_second",
        "Head temperature limit beside the redline",
        engine.head_second,
        [
            ("none", "None"),
            (
                "continuous",
                "For continuous operation: in cruise and descent"
            ),
            ("personal", "My own: always"),
        ]
    ),
    choice!(
        "engine.oil_second",
        "Oil temperature limit beside the redline",
        engine.oil_second,
        [
            ("none", "None"),
            (
                "continuous",
                "For continuous operation: in cruise and descent"
            ),
            ("personal", "My own: always"),
        ]
    ),
    choice!(
        "reference.kind",
        "What is known of this engine's cooling",
        reference.kind,
        [
            ("chart", "A point of the engine maker's cooling chart"),
            ("readings", "My own readings in flight"),
            ("generic", "Nothing yet: a generic engine of this power"),
        ]
    ),
    choice!(
        "reference.chart_density",
        "The chart's pressure drop is",
        reference.chart_density,
        [
            ("front", "corrected with the density before the fins"),
            ("rear", "corrected with the density behind the fins"),
            ("as_measured", "as a gauge reads it"),
        ]
    ),
    choice!(
        "decks.sealing",
        "Sealing between upper and lower deck",
        decks.sealing,
        [
            ("hard_plenum", "Rigid plenum over the cylinders"),
            ("flexible_seals", "Flexible baffle seals against the cowl"),
            ("measured_leak", "Leak area known from a blow-down test"),
        ]
    ),
    choice!(
        "decks.induction_from_upper_deck",
        "Induction air comes",
        decks.induction_from_upper_deck,
        [
            ("false", "from an intake of its own"),
            ("true", "from the upper deck"),
        ]
    ),
    choice!(
        "decks.blast_tubes",
        "Blast tubes",
        decks.blast_tubes,
        [
            ("0", "None"),
            ("1", "1"),
            ("2", "2"),
            ("3", "3"),
            ("4", "4"),
            ("5", "5"),
            ("6", "6"),
        ]
    ),
    choice!(
        "decks.cabin_air",
        "Cabin-heat air from the upper deck",
        decks.cabin_air,
        [
            ("false", "None, or closed"),
            ("true", "Taken through a hose"),
        ]
    ),
    choice!(
        "oil.grade",
        "Oil grade",
        oil.grade,
        [
            ("sae50", "Single grade SAE 50"),
            ("sae40", "Single grade SAE 40"),
            ("multigrade20w50", "Multigrade 20W-50"),
            ("multigrade15w50", "Multigrade 15W-50"),
        ]
    ),
    choice!(
        "oil.probe",
        "The oil gauge's probe sits",
        oil.probe,
        [
            (
                "after_cooler",
                "behind the cooler, where oil enters the engine"
            ),
            ("before_cooler", "in the hot oil, before the cooler"),
        ]
    ),
    choice!(
        "oil.thermostat",
        "Thermostatic bypass",
        oil.thermostat,
        [("true", "Fitted"), ("false", "Not fitted"),]
    ),
    choice!(
        "cooler.rating",
        "The cooler's performance is",
        cooler.rating,
        [
            ("rated", "known from its data sheet"),
            ("from_size", "estimated from its size (wide band)"),
        ]
    ),
    choice!(
        "cooler.supply",
        "The cooler's air comes from",
        cooler.supply,
        [
            ("upper_deck", "a hose or hole off the upper deck"),
            ("own_inlet", "an inlet of its own"),
        ]
    ),
    choice!(
        "cooler.discharge",
        "The cooler's air goes to",
        cooler.discharge,
        [
            ("lower_deck", "the lower deck"),
            ("own_exit", "an exit of its own"),
        ]
    ),
    choice!(
        "cooler.hose",
        "Duct to the cooler",
        cooler.hose,
        [
            ("reinforced", "Wire-reinforced hose"),
            ("smooth", "Smooth tube or moulded duct"),
        ]
    ),
    choice!(
        "cooler.bends",
        "Bends in the duct",
        cooler.bends,
        [
            ("0", "None"),
            ("1", "1"),
            ("2", "2"),
            ("3", "3"),
            ("4", "4"),
        ]
    ),
    choice!(
        "shutter.fitted",
        "Shutter in the cooler's duct",
        shutter.fitted,
        [("true", "Butterfly fitted"), ("false", "None"),]
    ),
    listed!("inlet.shape", "Shape", installation.inlets => shape, [
        ("rectangle", "Rectangle with rounded corners"),
        ("ring", "Round ring"),
        ("traced", "Any shape, by its traced area"),
    ]),
    listed!("inlet.position", "Position", installation.inlets => position, [
        ("forward_clear", "In front, clear of the spinner"),
        ("behind_blade_root", "In front, close to the spinner behind the blade roots"),
        ("belly_scoop", "Scoop under the belly"),
        ("flush", "Flush with the skin"),
    ]),
    listed!("inlet.lip", "Lip", installation.inlets => lip, [
        ("rounded", "Rounded"),
        ("thin", "Thin sheet"),
        ("blunt", "Blunt edge"),
    ]),
    listed!("inlet.diffuser", "Behind the opening", installation.inlets => diffuser, [
        ("false", "It opens straight into the upper deck"),
        ("true", "A widening duct leads to the upper deck"),
    ]),
    listed!("exit.shape", "Area given by", installation.exits => shape, [
        ("lip_gap", "Width and lip gap"),
        ("traced", "Traced area"),
        ("louvers", "Number of louvers"),
    ]),
    listed!("exit.louver_count", "Louvers", installation.exits => louver_count, [
        ("2", "2"), ("4", "4"), ("6", "6"), ("8", "8"), ("10", "10"), ("12", "12"), ("16", "16"),
        ("20", "20"),
    ]),
    listed!("exit.flap", "Cowl flap", installation.exits => flap, [
        ("false", "None: a fixed exit"),
        ("true", "A flap opens it further"),
    ]),
    listed!("condition.phase", "Phase", conditions => phase, [
        ("ground", "Ground"),
        ("climb", "Climb"),
        ("cruise", "Level"),
        ("descent", "Descent"),
    ]),
    listed!("condition.air", "Outside air", conditions => air, [
        ("oat", "By OAT"),
        ("hot_day", "Hot day: 100 °F at sea level, less with altitude"),
        ("isa_offset", "Standard temperature plus a difference"),
    ]),
    listed!("condition.speed", "Airspeed is", conditions => speed, [
        ("indicated", "indicated"),
        ("calibrated", "calibrated"),
        ("true", "true"),
    ]),
    listed!("condition.power", "Power given as", conditions => power, [
        ("share", "per cent of rated power"),
        ("brake", "brake power"),
        ("manifold", "engine speed and manifold pressure (approximate)"),
        ("fuel_flow", "fuel flow"),
    ]),
    listed!("condition.mixture", "Mixture", conditions => mixture, [
        ("full_rich", "Full rich"),
        ("best_power", "Best power"),
        ("peak_egt", "Peak EGT"),
        ("lean_of_peak", "Lean of peak, about 50 °F"),
        ("rich_by_egt", "Rich of peak EGT by"),
        ("lean_by_egt", "Lean of peak EGT by"),
        ("ratio", "By fuel–air ratio"),
        ("fuel_flow", "By fuel flow"),
    ]),
    listed!("reading.mixture", "Mixture", readings => mixture, [
        ("full_rich", "Full rich"),
        ("best_power", "Best power"),
        ("peak_egt", "Peak EGT"),
        ("lean_of_peak", "Lean of peak"),
    ]),
    listed!("condition.shutter", "Oil shutter", conditions => shutter, [
        ("hold_oil", "Set to hold an oil temperature"),
        ("fixed", "At a fixed opening"),
    ]),
];

/// Whether a choice plays a part in a design.
#[must_use]
pub fn is_used(choice: &Choice, design: &Design, place: usize) -> bool {
    use coolpath_core::document::installation::{CoolerRating, ExitShape, ReferenceKind};
    let installation = &design.installation;
    match choice.id {
        "reference.chart_density" => installation.reference.kind == ReferenceKind::Chart,
        "cooler.rows" => installation.cooler.rating == CoolerRating::FromSize,
        "exit.louver_count" => installation
            .exits
            .get(place)
            .is_some_and(|exit| exit.shape == ExitShape::Louvers),
        "condition.shutter" => installation.shutter.fitted,
        _ => true,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The example with one of everything.
    fn design() -> Design {
        let mut design = coolpath_core::document::example::design();
        design.readings.push(Default::default());
        design
    }

    #[test]
    fn every_option_can_be_taken_and_is_given_back() {
        for choice in CHOICES {
            let mut design = design();
            for option in choice.options {
                assert!(
                    (choice.set)(&mut design, 0, option.value),
                    "{} {}",
                    choice.id,
                    option.value
                );
                assert_eq!(
                    (choice.get)(&design, 0).as_deref(),
                    Some(option.value),
                    "{}",
                    choice.id
                );
            }
            assert!(
                !(choice.set)(&mut design, 0, "no such option"),
                "{}",
                choice.id
            );
            assert_eq!((choice.get)(&design, 99), None, "{}", choice.id);
        }
    }

    #[test]
    fn the_examples_choices_are_among_the_options() {
        let design = design();
        for choice in CHOICES {
            let taken = (choice.get)(&design, 0).expect("a value");
            assert!(
                choice.options.iter().any(|option| option.value == taken),
                "{}: {taken}",
                choice.id
            );
        }
    }
}
