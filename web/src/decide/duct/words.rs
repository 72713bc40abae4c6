//! What the lengths of a widening duct say, in sentences and a table.

use crate::kit::format;
use crate::kit::table_text::TableText;
use coolpath_core::decide::duct_length::{Answered, Duct, Lengths, WORTH_AN_INCH_K};
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::areas::inlets_m2;
use coolpath_core::language::tr;
use coolpath_core::units::si::inch;
use coolpath_core::units::typed::{Chosen, Dimension, UnitSystem, rounded_text};

fn length(metres: f64, system: UnitSystem) -> String {
    format::quantity(metres, Dimension::Length, system, 3)
}

fn area(m2: f64, system: UnitSystem) -> String {
    format::quantity(m2, Dimension::Area, system, 3)
}

fn cooling(kelvin: f64, system: UnitSystem) -> String {
    format::quantity(kelvin, Dimension::TemperatureDifference, system, 2)
}

/// The step from one length to the next.
fn step(system: UnitSystem) -> String {
    if system.is_customary(Chosen::Length) {
        tr("inch").to_owned()
    } else {
        length(inch(1.0), system)
    }
}

/// Cooling of the hottest head by a duct, K.
fn gain_k(found: &Lengths, duct: &Duct) -> f64 {
    found.without.head_k - duct.answered.head_k
}

/// The answer in a sentence.
#[must_use]
pub fn answer(found: &Lengths, system: UnitSystem) -> String {
    let least = cooling(WORTH_AN_INCH_K, system);
    let Some(duct) = found.worthwhile() else {
        return tr!(
            "No widening duct pays: it cools the hottest head by less than {} for each {}",
            least,
            step(system)
        );
    };
    let long = length(duct.length_m, system);
    if found.pays.is_none() {
        let step = step(system);
        return tr!(
            "The longer the better up to {}: the last {} still cools by {} or more",
            long,
            step,
            least
        );
    }
    tr!(
        "A duct of {} pays; beyond it another {} cools by less than {}",
        long,
        step(system),
        least
    )
}

/// What the duct comes to with the least and with the most likely loss in it; what does not pay is said.
#[must_use]
pub fn likely(ends: &[Option<Lengths>; 2], system: UnitSystem) -> String {
    let at = |end: &Option<Lengths>| {
        let found = end.as_ref()?;
        Some(match found.worthwhile() {
            None => tr("none pays").to_owned(),
            Some(duct) => tr!(
                "a duct of {} takes off {}",
                length(duct.length_m, system),
                cooling(gain_k(found, duct), system)
            ),
        })
    };
    match ends.each_ref().map(at) {
        [Some(least), Some(most)] => tr!(
            "The loss in the duct is the least certain part. With little of it {}; with much of it {}. \
             Measured pressure at the duct’s end settles it.",
            least,
            most
        ),
        _ => String::new(),
    }
}

/// What the advised duct does, and the same by wider inlets.
#[must_use]
pub fn beside(found: &Lengths, of: &Design, place: usize, system: UnitSystem) -> String {
    let Some(duct) = found.worthwhile() else {
        return String::new();
    };
    let opening = of
        .installation
        .inlets
        .get(found.inlets.first().copied().unwrap_or(0));
    let opening_m2 = opening.map_or(0.0, |inlet| inlet.area_m2());
    let does = tr!(
        "{} long, it opens from {} to {} ({} times the area), recovers {:.0} % of the dynamic pressure in the opening, \
         and takes {} off the hottest head in “{}”.",
        length(duct.length_m, system),
        area(opening_m2, system),
        area(duct.area_ratio * opening_m2, system),
        rounded_text(duct.area_ratio, 3),
        100.0 * duct.recovery,
        cooling(gain_k(found, duct), system),
        of.condition_name(place),
    );
    let Some(wider) = found.wider else {
        return tr!(
            "{} No inlets of a permitted size hold that head without a duct.",
            does
        );
    };
    let cost = wider
        .level
        .and_then(|level| Some((level, level.speed_m_s?)));
    let cost = cost.map_or_else(String::new, |(level, speed)| {
        let side = if speed < 0.0 {
            tr("faster")
        } else {
            tr("slower")
        };
        tr!(
            "; in “{}” that is {} {} than with the duct",
            of.condition_name(level.condition),
            format::quantity(speed.abs(), Dimension::Speed, system, 2),
            side
        )
    });
    tr!(
        "{} Without a duct the inlets would have to grow from {} to {} in all to hold the same head{}.",
        does,
        area(inlets_m2(&of.installation), system),
        area(wider.inlets_m2, system),
        cost,
    )
}

/// The choices side by side.
#[must_use]
pub fn choices(found: &Lengths, of: &Design, system: UnitSystem) -> TableText {
    let force = |newton: f64| format::quantity(newton, Dimension::Force, system, 3);
    let own_m2 = inlets_m2(&of.installation);
    let none = || format::NONE.to_owned();
    let row = |name: &str, inlets_m2: f64, duct: Option<&Duct>, answered: &Answered| {
        vec![
            name.to_owned(),
            format::degrees(answered.head_k, system),
            duct.map_or_else(none, |duct| length(duct.length_m, system)),
            duct.map_or_else(none, |duct| rounded_text(duct.area_ratio, 3)),
            area(inlets_m2, system),
            format::degrees(answered.oil_k, system),
            force(answered.drag_n),
        ]
    };
    let mut rows = vec![row(tr("No duct"), own_m2, None, &found.without)];
    if let Some(duct) = found.advised() {
        rows.push(row(tr("This duct"), own_m2, Some(duct), &duct.answered));
        if let Some(wider) = &found.wider {
            rows.push(row(
                tr("Wider inlets, no duct"),
                wider.inlets_m2,
                None,
                &wider.answered,
            ));
        }
    }
    let columns = [
        tr("Choice"),
        tr("Hottest CHT"),
        tr("Duct length"),
        tr("Area ratio"),
        tr("All inlets"),
        tr("Oil"),
        tr("Cooling drag"),
    ];
    TableText::new(tr("Duct or wider inlets"), &columns, rows)
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::decide::duct_length::{DuctLengths, at_likely_losses};
    use coolpath_core::document::design::mark;
    use coolpath_core::document::example;
    use coolpath_core::units::si::inch2;

    fn found() -> Lengths {
        let search = DuctLengths::new(&example::design(), 0, 1);
        search.and_then(DuctLengths::finished).expect("lengths")
    }

    #[test]
    fn the_answer_names_length_and_worth_in_the_units_shown() {
        let found = found();
        let inches = 2 + found.pays.expect("one pays");
        assert_eq!(
            answer(&found, UnitSystem::Customary),
            format!("A duct of {inches} in pays; beyond it another inch cools by less than 0.5 °F")
        );
        let metric = answer(&found, UnitSystem::Metric);
        assert!(
            metric.ends_with("another 25.4 mm cools by less than 0.28 °C"),
            "{metric}"
        );
    }

    #[test]
    fn less_loss_in_the_duct_takes_more_off_and_a_measured_one_has_no_range() {
        let mut design = example::design();
        let at = |design: &Design| {
            at_likely_losses(design, &[0, 1]).map(|end| {
                let search = DuctLengths::new(&end?, 0, 1);
                Some(search.and_then(DuctLengths::finished).expect("lengths"))
            })
        };
        let ends = at(&design);
        let [Some(least), Some(most)] = &ends else {
            panic!("two ends");
        };
        let gain = |found: &Lengths| gain_k(found, found.advised().expect("a duct"));
        assert!(gain(least) > gain(most) + 1.0);
        let said = likely(&ends, UnitSystem::Customary);
        let (little, much) = said.split_once("; with much").expect("two halves");
        assert!(
            little.contains(&cooling(gain(least), UnitSystem::Customary)),
            "{said}"
        );
        assert!(
            much.contains(&cooling(gain(most), UnitSystem::Customary)),
            "{said}"
        );
        design.measured.push(mark("inlet.diffuser_loss_factor", 0));
        let measured = at(&design);
        assert!(measured.iter().all(Option::is_none));
        assert_eq!(likely(&measured, UnitSystem::Customary), "");
    }

    #[test]
    fn where_nothing_pays_or_everything_does_that_is_said() {
        let mut endless = found();
        endless.pays = None;
        assert_eq!(
            answer(&endless, UnitSystem::Customary),
            "The longer the better up to 24 in: the last inch still cools by 0.5 °F or more"
        );
        let mut useless = found();
        useless.without = useless.rows[useless.pays.expect("one pays")].best.answered;
        assert_eq!(
            answer(&useless, UnitSystem::Customary),
            "No widening duct pays: it cools the hottest head by less than 0.5 °F for each inch"
        );
        assert_eq!(
            beside(&useless, &example::design(), 1, UnitSystem::Customary),
            ""
        );
    }

    #[test]
    fn wider_inlets_stand_beside_the_duct_with_their_cost_or_saving() {
        let (mut found, design) = (found(), example::design());
        let said = beside(&found, &design, 1, UnitSystem::Customary);
        let duct = *found.advised().expect("a duct");
        let off = 1.8 * (found.without.head_k - duct.answered.head_k);
        assert!(
            said.contains(&format!(
                "takes {off:.0} °F off the hottest head in “Take-off climb"
            )),
            "{said}"
        );
        let wider = found.wider.as_mut().expect("wider inlets");
        let grown = wider.inlets_m2 / inch2(1.0);
        assert!(
            said.contains(&format!(" to {grown:.1} in² in all")),
            "{said}"
        );
        assert!(
            said.contains("; in “High cruise” that is 0.")
                && said.ends_with(" kt slower than with the duct."),
            "{said}"
        );
        let level = wider.level.as_mut().expect("a level condition");
        level.speed_m_s = level.speed_m_s.map(|speed| -speed);
        assert!(
            beside(&found, &design, 1, UnitSystem::Customary)
                .ends_with(" kt faster than with the duct.")
        );
        found.wider = None;
        let alone = beside(&found, &design, 1, UnitSystem::Customary);
        assert!(alone.ends_with("No inlets of a permitted size hold that head without a duct."));
        assert_eq!(
            choices(&found, &design, UnitSystem::Customary).rows.len(),
            2
        );
    }

    #[test]
    fn the_same_head_stands_in_the_table_for_the_duct_and_the_wider_inlets() {
        let sheet = choices(&found(), &example::design(), UnitSystem::Metric);
        assert_eq!(sheet.rows.len(), 3);
        assert_eq!(sheet.rows[1][1], sheet.rows[2][1]);
        assert_ne!(sheet.rows[0][1], sheet.rows[1][1]);
        assert_eq!(sheet.rows[2][2], format::NONE);
    }
}
