//! Choices of conditions and readings.

use super::{Choice, Choosable, name, take};
use coolpath_core::document::condition::Phase;
use coolpath_core::document::quantity::Quantity;

pub(super) static CHOICES: &[Choice] = &[
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
    Choice {
        id: "reading.flown",
        label: "Flown",
        options: &[
            Choosable {
                value: "cruise",
                phrase: "Level",
            },
            Choosable {
                value: "climb",
                phrase: "Climb",
            },
            Choosable {
                value: "descent",
                phrase: "Descent",
            },
        ],
        get: |design, place| {
            let reading = design.readings.get(place)?;
            let noted = reading.flown.unwrap_or_default();
            let moment = reading.moments.first();
            name(&moment.map_or(noted, |moment| reading.phase_at(moment)))
        },
        set: |design, place, option| {
            let mut flown = Phase::Cruise;
            let reading = design.readings.get_mut(place);
            reading.is_some_and(|reading| {
                let is_taken = take(&mut flown, option);
                if is_taken {
                    reading.flown = Some(flown);
                }
                is_taken
            })
        },
        // The altitude of many moments tells it, and on the ground nothing flies.
        used: |design, place| {
            let reading = design.readings.get(place);
            let moment = reading
                .filter(|one| one.is_steady())
                .and_then(|one| one.moments.first());
            moment.is_some_and(|moment| moment.get(Quantity::Airspeed) != Some(0.0))
        },
    },
    listed!("condition.warm_induction", "Carburettor heat or alternate air", conditions => warm_induction, [
        ("false", "Off"),
        ("true", "On"),
    ]),
    listed!("condition.shutter", "Oil shutter", conditions => shutter, [
        ("hold_oil", "Set to hold an oil temperature"),
        ("fixed", "At a fixed opening"),
    ], if |installation, _| installation.shutter.fitted),
];
