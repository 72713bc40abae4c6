//! Every choice with its options.

use super::draw_sides;
use super::engine_kind::ENGINE_KIND;
use super::induction::{ALTERNATE, INDUCTION};
use super::{Choice, Choosable, name, take};

pub(super) static CHOICES: &[Choice] = &[
    ENGINE_KIND,
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
        "engine.poorer_side",
        "Air between left and right",
        engine.poorer_side,
        [
            ("neither", "Alike, or not known"),
            ("left", "The left side gets less"),
            ("right", "The right side gets less"),
        ]
    ),
    choice!(
        "engine.poorer_end",
        "Air between front and rear",
        engine.poorer_end,
        [
            ("neither", "Alike, or not known"),
            (
                "front",
                "The front heads get less: they sit behind the inlet ramps"
            ),
            (
                "rear",
                "The rear heads get less: a take-off or a tight rear baffle"
            ),
        ]
    ),
    choice!(
        "engine.fin_passages",
        "Passages between the fins",
        engine.fin_passages,
        [
            ("clear", "Clear: light shines through all of them"),
            (
                "casting_flash",
                "Casting flash at the fin roots of one head"
            ),
            (
                "debris",
                "Something lies on one cylinder: rag, nest, a piece of seal"
            ),
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
        "decks.upper",
        "Upper deck",
        decks.upper,
        [
            ("one", "One, over both banks"),
            (
                "halves",
                "A left and a right half, with an opening between them"
            ),
        ]
    ),
    INDUCTION,
    draw_sides::INDUCTION,
    ALTERNATE,
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
    draw_sides::BLAST,
    choice!(
        "decks.cabin_air",
        "Cabin-heat air from the upper deck",
        decks.cabin_air,
        [
            ("false", "None, or closed"),
            ("true", "Taken through a hose"),
        ]
    ),
    draw_sides::CABIN,
    choice!(
        "decks.cabin_muff",
        "Cabin air is heated",
        decks.cabin_muff,
        [
            ("false", "by nothing more, or not said"),
            ("true", "by a muff on the exhaust"),
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
            ("from_fins", "computed from its rows, tubes and fins"),
        ]
    ),
    choice!(
        "cooler.fin_kind",
        "Fins of the core",
        cooler.fin_kind,
        [
            ("offset", "Cut and offset along the air"),
            ("plain", "Plain, through the whole depth"),
        ]
    ),
    choice!(
        "cooler.supply",
        "The cooler's air comes from",
        cooler.supply,
        [
            ("upper_deck", "a hose or hole off the upper deck"),
            (
                "rear_baffle",
                "the upper deck, bolted to the rear baffle without a hose"
            ),
            (
                "front_baffle",
                "the upper deck, bolted to the front baffle beside a cylinder, without a hose"
            ),
            ("own_inlet", "an inlet of its own"),
        ]
    ),
    choice!(
        "cooler.take_off",
        "The cooler's air is taken",
        cooler.take_off,
        [
            ("left", "behind the left bank"),
            ("right", "behind the right bank"),
        ]
    ),
    choice!(
        "cooler.second",
        "Second cooler of the same kind",
        cooler.second,
        [
            ("none", "None"),
            (
                "beside_oil_shared",
                "Beside it, half of the oil through each"
            ),
            (
                "beside_oil_in_turn",
                "Beside it, all oil through one, then the other"
            ),
            (
                "behind_oil_shared",
                "Behind it, half of the oil through each"
            ),
            (
                "behind_oil_in_turn",
                "Behind it, all oil through the rear one first"
            ),
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
        "cooler.cover",
        "The core's face is covered by",
        cooler.cover,
        [
            ("tape", "Tape on the fins"),
            ("plate", "A plate with an opening"),
        ]
    ),
    choice!(
        "cooler.wall_behind",
        "Behind the core",
        cooler.wall_behind,
        [
            ("false", "Room for the air"),
            ("true", "A wall close by: firewall or baffle"),
        ]
    ),
    choice!(
        "cooler.own_exit_by_attitude",
        "Pressure at the cooler's own exit",
        cooler.own_exit_by_attitude,
        [
            ("false", "One value for every condition"),
            ("true", "Level flight, climb and ground apart"),
        ]
    ),
    choice!(
        "decks.outside_by_attitude",
        "Pressure before the lower deck's leak",
        decks.outside_by_attitude,
        [
            ("false", "One value for every condition"),
            ("true", "Level flight, climb and ground apart"),
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
    listed!("inlet.side", "Feeds", installation.inlets => side, [
        ("both", "Both halves of the upper deck"),
        ("left", "The left half"),
        ("right", "The right half"),
    ]),
    listed!("inlet.at_angle", "In a climb the stream meets the inlet", installation.inlets => at_angle, [
        ("false", "Straight, or not known"),
        ("true", "At an angle, from below"),
    ]),
    listed!("inlet.diffuser", "Behind the opening", installation.inlets => diffuser, [
        ("false", "It opens straight into the upper deck"),
        ("true", "A widening duct leads to the upper deck"),
    ]),
    listed!("exit.shape", "Area given by", installation.exits => shape, [
        ("lip_gap", "Width and lip gap"),
        ("traced", "Traced area"),
        ("louvers", "Number of louvers"),
        ("augmentor", "An augmentor tube round the exhaust"),
    ]),
    listed!("exit.louver_count", "Louvers", installation.exits => louver_count, [
        ("2", "2"), ("4", "4"), ("6", "6"), ("8", "8"), ("10", "10"), ("12", "12"), ("16", "16"),
        ("20", "20"),
    ]),
    listed!("exit.stack_count", "Exhaust stacks in the augmentor", installation.exits => stack_count, [
        ("1", "1"), ("2", "2"), ("3", "3"), ("4", "4"), ("6", "6"),
    ]),
    listed!("exit.edge", "Edge that the air leaves over", installation.exits => edge, [
        ("typed", "Not sure, or a coefficient of my own"),
        ("sharp", "Square lower edge of the firewall"),
        ("ramp", "Ramp from the firewall to the lip"),
        ("rounded", "Rounded lower edge of the firewall"),
        ("louver", "Slots of louvers"),
    ]),
    listed!("exit.by_attitude", "Pressure outside", installation.exits => by_attitude, [
        ("false", "One value for every condition"),
        ("true", "Level flight, climb and ground apart"),
    ]),
    listed!("exit.place", "Where it lies", installation.exits => place, [
        ("typed", "Not said: coefficients of my own"),
        ("belly", "On the belly, ahead of the wing"),
        ("under_wing", "Under the wing"),
        ("firewall", "At the lower edge of the firewall"),
        ("wing_root", "In the side, at the wing root"),
    ]),
    listed!("exit.flap", "Cowl flap", installation.exits => flap, [
        ("false", "None: a fixed exit"),
        ("true", "A flap opens it further"),
    ]),
    listed!("exit.flap_given", "Open flap given by", installation.exits => flap_given, [
        ("area", "The area that it opens"),
        ("angle", "Its length and angle"),
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
    listed!("condition.warm_induction", "Carburettor heat or alternate air", conditions => warm_induction, [
        ("false", "Off"),
        ("true", "On"),
    ]),
    listed!("condition.shutter", "Oil shutter", conditions => shutter, [
        ("hold_oil", "Set to hold an oil temperature"),
        ("fixed", "At a fixed opening"),
    ]),
];
