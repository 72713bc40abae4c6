//! What an alternative differs in, and what a comparison says, in words. Pure.

use crate::charts::differences::{Bar, Subject};
use crate::kit::format;
use crate::state::choices;
use coolpath_core::decide::compare::Preset;
use coolpath_core::decide::comparison::{Comparison, NotAtEqualHeads};
use coolpath_core::document::alternative::Alternative;
use coolpath_core::document::design::Design;
use coolpath_core::language::{counted, tr, tr_later};
use coolpath_core::units::typed::{Dimension, UnitSystem};

/// What an alternative differs in from the design, in words.
#[must_use]
pub fn differences_in_words(
    design: &Design,
    alternative: &Alternative,
    system: UnitSystem,
) -> Vec<String> {
    let other = Design {
        installation: alternative.installation.clone(),
        ..design.clone()
    };
    let mut words = Vec::new();
    let lists = [
        (
            design.installation.inlets.len(),
            other.installation.inlets.len(),
            counted(other.installation.inlets.len(), "inlet", "inlets"),
        ),
        (
            design.installation.exits.len(),
            other.installation.exits.len(),
            counted(other.installation.exits.len(), "exit", "exits"),
        ),
    ];
    for (own, its, what) in lists {
        if own != its {
            words.push(tr!("{} instead of {}", what, own));
        }
    }
    for choice in choices::all().filter(|choice| !choice.id.starts_with("condition.")) {
        for place in 0..MOST_PLACES {
            let (own, its) = ((choice.get)(design, place), (choice.get)(&other, place));
            if let (Some(own), Some(its)) = (own, its)
                && own != its
            {
                let phrase = choice.options.iter().find(|option| option.value == its);
                words.push(format!(
                    "{}: {}",
                    choice.label(),
                    phrase.map_or(its.as_str(), |option| option.phrase())
                ));
            }
        }
    }
    for (input, place) in other.places() {
        if input.id.starts_with("condition.") || !input.used(&other, place) {
            continue;
        }
        let (own, its) = (input.value(design, place), input.value(&other, place));
        let was_used = input.used(design, place);
        if let Some(its) = its
            && (own != Some(its) || !was_used)
        {
            let shown = |si: f64| format::quantity(si, input.dimension, system, 3);
            words.push(match own {
                Some(own) if was_used => {
                    tr!("{}: {} instead of {}", input.label, shown(its), shown(own))
                }
                _ => format!("{}: {}", input.label, shown(its)),
            });
        }
    }
    words
}

/// Most entries of a list of openings.
const MOST_PLACES: usize = coolpath_core::path::openings::MAX_OPENINGS;

/// What the plenum and the seals are worth, in a sentence; none before they are compared.
#[must_use]
pub fn verdict(made: &[Comparison], system: UnitSystem) -> Option<String> {
    let of = |preset: Preset, name: &str, many: bool| {
        let found = made.iter().find(|one| one.name == preset.name())?;
        worth(found, name, many, system)
    };
    let mut parts: Vec<String> = [
        of(Preset::HardPlenum, tr("a plenum"), false),
        of(Preset::WornSeals, tr("worn seals"), true),
    ]
    .into_iter()
    .flatten()
    .collect();
    if parts.is_empty() {
        parts.extend(of(Preset::NewSeals, tr("new seals"), true));
    }
    (!parts.is_empty()).then(|| format::capital(&parts.join("; ")))
}

/// What one alternative buys or costs: in speed with heads held equal, else in head temperature.
fn worth(found: &Comparison, name: &str, many: bool, system: UnitSystem) -> Option<String> {
    let speed = found.at_equal_heads().and_then(|stand| match &stand.level {
        Some(Ok(level)) => Some((level.by.speed, level.within_uncertainty().speed)),
        _ => None,
    });
    if let Some((by, within)) = speed {
        let amount = format::quantity(by.abs(), Dimension::Speed, system, 1);
        return Some(match (within, by > 0.0, many) {
            (true, ..) => tr!("{}: the speed difference is too close to call", name),
            (false, true, false) => tr!("{} buys {} at the same CHT", name, amount),
            (false, true, true) => tr!("{} buy {} at the same CHT", name, amount),
            (false, false, false) => tr!("{} costs {} at the same CHT", name, amount),
            (false, false, true) => tr!("{} cost {} at the same CHT", name, amount),
        });
    }
    let shown = found.fixed.shown.as_ref().ok()?;
    // Without a level condition, or an answer in it, what an exit makes up for has no price.
    let beyond = match &found.equal {
        Err(NotAtEqualHeads::NoExit) => tr("more than any exit makes up for"),
        _ => tr("with the exit as it is"),
    };
    let amount = format::quantity(
        shown.by.head.abs(),
        Dimension::TemperatureDifference,
        system,
        2,
    );
    let is_unsure = shown.within_uncertainty().head;
    Some(match (is_unsure, shown.by.head > 0.0, many) {
        (true, ..) => tr!("{}: the CHT difference is too close to call", name),
        (false, true, false) => tr!("{} adds {} CHT, {}", name, amount, beyond),
        (false, true, true) => tr!("{} add {} CHT, {}", name, amount, beyond),
        (false, false, false) => tr!("{} takes {} off the CHT", name, amount),
        (false, false, true) => tr!("{} take {} off the CHT", name, amount),
    })
}

/// What a chart of differences says: which alternative is best and which is worst of those that are
/// not too close to call.
///
/// # Arguments
/// * `ends` - what the best one has, and the worst one
#[must_use]
pub fn chart_title(bars: &[Bar], of: &Subject, ends: [&str; 2]) -> String {
    let gain = |bar: &Bar| if of.less_is_better { -bar.by } else { bar.by };
    let most = |sign: f64| {
        bars.iter()
            .filter(|bar| !bar.is_unsure() && sign * gain(bar) > 0.0)
            .max_by(|a, b| (sign * gain(a)).total_cmp(&(sign * gain(b))))
    };
    let said = |bar: &Bar, end: &str| format!("{end}: {}, {}", bar.name, of.words(bar));
    let found = [(most(1.0), ends[0]), (most(-1.0), ends[1])];
    let parts: Vec<String> = found
        .into_iter()
        .filter_map(|(bar, end)| Some(said(bar?, end)))
        .collect();
    if parts.is_empty() {
        return tr!("{}: too close to call", of.topic);
    }
    format::capital(&parts.join("; "))
}

/// Rows of a comparison's table.
pub const ROWS: [(&str, Dimension); 5] = [
    (tr_later("Hottest head"), Dimension::TemperatureDifference),
    (tr_later("Oil"), Dimension::TemperatureDifference),
    (tr_later("Δp across the baffles"), Dimension::Pressure),
    (tr_later("Air through the inlets"), Dimension::MassFlow),
    (tr_later("Cooling drag"), Dimension::Force),
];

/// A difference with its band in words, marked where it is too close to call.
#[must_use]
pub fn cell(
    by: f64,
    band: &coolpath_core::answer::band::Band,
    within: bool,
    dimension: Dimension,
    system: UnitSystem,
) -> String {
    let unit = dimension.shown(system);
    // No finer than two digits of the band: what lies below that is noise.
    let widest = unit.from_si(band.wider().max(0.01 * by.abs()).max(1e-9));
    let finest = match dimension {
        Dimension::Speed | Dimension::Force | Dimension::TemperatureDifference => 1,
        _ => 6,
    };
    let decimals = (1 - widest.log10().floor() as i32).clamp(0, finest) as usize;
    let number = |si: f64| {
        let text = format!("{:.decimals$}", unit.from_si(si));
        let is_zero = text.chars().all(|c| matches!(c, '-' | '0' | '.'));
        if is_zero {
            "0".to_owned()
        } else {
            text.replace('-', "−")
        }
    };
    let sign = if by > 0.0 && number(by) != "0" {
        "+"
    } else {
        ""
    };
    let mark = if within {
        tr(", too close to call")
    } else {
        ""
    };
    if number(by) == "0" {
        return tr!(
            "no difference ({} to {} {})",
            number(by - band.below),
            number(by + band.above),
            unit.symbol
        );
    }
    tr!(
        "{}{} {} ({} to {}){}",
        sign,
        number(by),
        unit.symbol,
        number(by - band.below),
        number(by + band.above),
        mark
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::answer::band::Band;
    use coolpath_core::answer::solved::EvaluateError;
    use coolpath_core::decide::comparison::{Comparing, standing};
    use coolpath_core::document::example;

    fn comparison(design: &Design, alternative: &Alternative, place: usize) -> Comparison {
        let mut work = Comparing::new(design, alternative, place);
        loop {
            if let Some(made) = work.advance() {
                assert!(work.is_done());
                return made;
            }
        }
    }

    fn alternative(preset: Preset) -> Alternative {
        Alternative {
            name: preset.name().to_owned(),
            installation: preset.applied(&example::design().installation),
        }
    }

    #[test]
    fn a_plenum_and_worn_seals_stand_beside_the_example_and_are_judged_in_a_sentence() {
        let design = example::design();
        let list = standing(&design);
        let names: Vec<&str> = list.iter().map(|one| one.name.as_str()).collect();
        assert_eq!(
            names,
            ["Hard plenum", "Worn seals"],
            "new seals are what it has"
        );
        assert_eq!(verdict(&[], UnitSystem::Customary), None);
        let made: Vec<Comparison> = list.iter().map(|one| comparison(&design, one, 1)).collect();
        let said = verdict(&made, UnitSystem::Customary).expect("a sentence");
        assert!(
            said.starts_with("A plenum ") && said.contains("; worn seals "),
            "{said}"
        );
    }

    #[test]
    fn no_exit_no_level_flight_and_no_answer_are_three_things() {
        let mut design = example::design();
        let worn = alternative(Preset::WornSeals);
        let said = |made: &Comparison| {
            verdict(std::slice::from_ref(made), UnitSystem::Customary).expect("a sentence")
        };
        let mut made = comparison(&design, &worn, 1);
        made.equal = Err(NotAtEqualHeads::NoExit);
        assert!(said(&made).ends_with(" CHT, more than any exit makes up for"));
        made.equal = Err(NotAtEqualHeads::NoAnswer(EvaluateError::NoSuchCondition {
            place: 9,
            count: 1,
        }));
        assert!(said(&made).ends_with(" CHT, with the exit as it is"));
        design.conditions.truncate(2);
        assert_eq!(design.first_level(), None);
        let climbing = comparison(&design, &worn, 1);
        let words = said(&climbing);
        assert_eq!(
            words.contains("more than any exit makes up for"),
            climbing.at_equal_heads().is_none(),
            "{words}"
        );
    }

    #[test]
    fn the_words_name_what_was_changed_and_nothing_else() {
        let design = example::design();
        let words = differences_in_words(
            &design,
            &alternative(Preset::HardPlenum),
            UnitSystem::Customary,
        );
        assert_eq!(words.len(), 2, "{words:?}");
        assert!(words[0].contains("Rigid plenum"));
        assert!(words[1].contains("Leak area of the plenum: 1.5 in²"));
        let same = Alternative {
            name: String::new(),
            installation: design.installation.clone(),
        };
        assert!(differences_in_words(&design, &same, UnitSystem::Metric).is_empty());
    }

    #[test]
    fn a_difference_of_temperatures_has_no_offset_and_says_when_it_is_unsure() {
        let band = Band {
            below: 10.0,
            above: 10.0,
        };
        let text = cell(
            5.0,
            &band,
            true,
            Dimension::TemperatureDifference,
            UnitSystem::Customary,
        );
        assert_eq!(text, "+9 °F (−9 to 27), too close to call");
        // Seven thousandths of a knot are no difference.
        let hair = Band {
            below: 0.02,
            above: 0.02,
        };
        let text = cell(
            -0.0036,
            &hair,
            true,
            Dimension::Speed,
            UnitSystem::Customary,
        );
        assert_eq!(text, "no difference (0 to 0 kt)");
    }

    #[test]
    fn the_title_names_the_best_and_the_worst_that_are_sure() {
        let of = Subject {
            topic: "Speed",
            unit: "kt",
            less_is_better: false,
        };
        let bar = |name: &str, by: f64, half: f64| Bar {
            name: name.to_owned(),
            by,
            low: by - half,
            high: by + half,
        };
        let title = |bars: &[Bar]| chart_title(bars, &of, ["most speed", "least"]);
        let list = [
            bar("Plenum", 0.4, 0.2),
            bar("Worn", -1.3, 0.5),
            bar("Other", 9.0, 20.0),
        ];
        assert_eq!(
            title(&list),
            "Most speed: Plenum, +0.4 kt; least: Worn, −1.3 kt"
        );
        assert_eq!(title(&list[1..]), "Least: Worn, −1.3 kt");
        assert_eq!(title(&list[2..]), "Speed: too close to call");
    }

    #[test]
    fn worn_seals_stand_twice() {
        let design = example::design();
        let made = comparison(&design, &alternative(Preset::WornSeals), 3);
        let fixed = made.fixed.shown.expect("an answer");
        assert!(fixed.by.head > 0.0);
        let equal = made.equal.expect("an exit");
        assert!(equal.exit_m2 > made.fixed.exit_m2);
        let plenum = comparison(&design, &alternative(Preset::HardPlenum), 3);
        let equal = plenum.at_equal_heads().expect("a smaller exit");
        assert!(equal.exit_m2 < plenum.fixed.exit_m2);
        let level = equal.level.as_ref().expect("a level condition");
        let level = level.as_ref().expect("an answer");
        assert!(level.by.speed > 0.0, "{}", level.by.speed);
    }
}
