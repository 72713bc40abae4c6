//! What is asked once about a number that may stand in the wrong unit, with answers of one touch.
//! Each answer writes the unit behind the number, and a text with a unit is not asked about.

use crate::state::action::Action;
use crate::state::field_key::FieldKey;
use crate::state::page::State;
use coolpath_core::document::table::Input;
use coolpath_core::language::tr;
use coolpath_core::units::typed;
use coolpath_core::units::typed::{Chosen, Dimension, Unit, UnitSystem};

/// A question, and its answers: what each says and does.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// What is asked.
    pub words: String,
    /// The answers.
    pub answers: Vec<(String, Action)>,
}

/// OAT in a °F field that would be a usual one in °C, °F.
const OAT_ASKED_F: (f64, f64) = (30.0, 45.0);
/// Limits of heads that manuals usually give, °F (common practice).
const HEADS_USUAL_F: (f64, f64) = (300.0, 500.0);
/// Limits of oil that manuals usually give, °F (common practice).
const OIL_USUAL_F: (f64, f64) = (180.0, 260.0);

/// What is asked about the text of a field; `None` where nothing is.
#[must_use]
pub fn of(state: &State, key: &FieldKey) -> Option<Question> {
    let number = typed::bare_number(state.drafts.get(key)?)?;
    match key.id.as_str() {
        "condition.oat_k" => oat(state, key, number),
        "engine.head_limit_k" => limit(state, key, number, HEADS_USUAL_F),
        "engine.oil_limit_k" => limit(state, key, number, OIL_USUAL_F),
        _ => None,
    }
}

/// The shown unit of temperatures and the other one.
fn units(system: UnitSystem) -> (&'static Unit, &'static Unit) {
    let of = |system| Dimension::Temperature.shown(system);
    let (customary, metric) = (of(UnitSystem::Customary), of(UnitSystem::Metric));
    if system.is_customary(Chosen::Temperature) {
        (customary, metric)
    } else {
        (of(system), customary)
    }
}

fn with_unit(key: &FieldKey, text: &str, unit: &Unit) -> Action {
    Action::Type {
        key: key.clone(),
        text: format!("{} {}", text.trim(), unit.symbol),
    }
}

fn oat(state: &State, key: &FieldKey, number: f64) -> Option<Question> {
    let is_asked = state.system.is_customary(Chosen::Temperature)
        && (OAT_ASKED_F.0..=OAT_ASKED_F.1).contains(&number)
        && types_metric(state, key);
    let (shown, other) = units(state.system);
    let text = state.drafts.get(key)?;
    let answer = |unit: &Unit| {
        (
            format!("{number} {}", unit.symbol),
            with_unit(key, text, unit),
        )
    };
    is_asked.then(|| Question {
        words: tr!(
            "{} {} outside? Your other numbers are metric: {}?",
            number,
            shown.symbol,
            other.symbol
        ),
        answers: vec![answer(other), answer(shown)],
    })
}

/// Whether the units that were typed elsewhere in the design are metric ones.
fn types_metric(state: &State, beside: &FieldKey) -> bool {
    let mut counts = (0, 0);
    for (key, text) in state.drafts.iter().filter(|(key, _)| *key != beside) {
        let Some(input) = key.input() else { continue };
        match typed_unit_is_metric(input, text) {
            Some(true) => counts.0 += 1,
            Some(false) => counts.1 += 1,
            None => {}
        }
    }
    counts.0 > counts.1
}

/// Whether a typed text carries a metric unit; `None` without a unit that tells.
fn typed_unit_is_metric(input: &Input, text: &str) -> Option<bool> {
    let is_unit = |c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '−' | '+' | ' '));
    let at = text.find(is_unit)?;
    let unit = input.dimension.unit_named(&text[at..])?;
    const CUSTOMARY: [&str; 14] = [
        "in", "ft", "in²", "inH₂O", "inHg", "psi", "°F", "kt", "mph", "lb/s", "gal/min", "gal/h",
        "hp", "lbf",
    ];
    const METRIC: [&str; 17] = [
        "mm", "cm", "m", "cm²", "mm²", "m²", "Pa", "hPa", "kPa", "bar", "°C", "km/h", "m/s",
        "kg/s", "L/min", "L/h", "kW",
    ];
    if METRIC.contains(&unit.symbol) {
        Some(true)
    } else if CUSTOMARY.contains(&unit.symbol) {
        Some(false)
    } else {
        None
    }
}

fn limit(state: &State, key: &FieldKey, number: f64, usual_f: (f64, f64)) -> Option<Question> {
    let input = key.input()?;
    let text = state.drafts.get(key)?;
    let (shown, other) = units(state.system);
    let customary = units(UnitSystem::Customary).0;
    let in_f = |unit: &Unit| customary.from_si(unit.to_si(number));
    let is_usual = |unit: &Unit| (usual_f.0..=usual_f.1).contains(&in_f(unit));
    if is_usual(shown) {
        return None;
    }
    let (least, most) = input.permitted;
    let is_permitted = (least..=most).contains(&shown.to_si(number));
    let mut answers = Vec::new();
    if is_usual(other) {
        let says = format!("{number} {}", other.symbol);
        answers.push((says, with_unit(key, text, other)));
    }
    if is_permitted {
        let stands = format!("{} {}", text.trim(), shown.symbol);
        for (which, words) in [
            ("continuous", tr("It is the continuous limit")),
            ("redline", tr("It is the redline")),
        ] {
            let action = Action::Limit {
                key: key.clone(),
                text: stands.clone(),
                which,
            };
            answers.push((words.to_owned(), action));
        }
    }
    if answers.is_empty() {
        return None;
    }
    let bound = |f: f64| typed::rounded_text(shown.from_si(customary.to_si(f)), 3);
    let asks = match (is_usual(other), is_permitted) {
        (true, true) => tr!(
            "{}? And which limit is this: continuous or redline?",
            other.symbol
        ),
        (true, false) => format!("{}?", other.symbol),
        _ => tr("Which limit is this: continuous or redline?").to_owned(),
    };
    Some(Question {
        words: tr!(
            "{} {} is outside what manuals usually give ({} to {} {}). {}",
            number,
            shown.symbol,
            bound(usual_f.0),
            bound(usual_f.1),
            shown.symbol,
            asks
        ),
        answers,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::reduce::reduce;

    fn typed(state: &State, id: &str, text: &str) -> State {
        let key = FieldKey::new(id, 0);
        let text = text.to_owned();
        reduce(state, Action::Type { key, text })
    }

    fn asked(state: &State, id: &str) -> Option<Question> {
        of(state, &FieldKey::new(id, 0))
    }

    /// Each answer settles the question; the values in °F.
    fn settled(state: &State, id: &str) -> Vec<f64> {
        let question = asked(state, id).expect("a question");
        let answers = question.answers.into_iter();
        answers
            .map(|(says, action)| {
                let next = reduce(state, action);
                assert_eq!(asked(&next, id), None, "{says}");
                assert!(next.faults().is_empty(), "{says}: {:?}", next.faults());
                let input = FieldKey::new(id, 0).input().expect("an input");
                let si = input.value(&next.design, 0).expect("a value");
                (si * 1.8 - 459.67).round()
            })
            .collect()
    }

    #[test]
    fn a_mild_oat_in_fahrenheit_beside_metric_numbers_is_asked_about_once() {
        const OAT: &str = "condition.oat_k";
        let plain = typed(&State::default(), OAT, "38");
        assert_eq!(asked(&plain, OAT), None);
        let metric = typed(&plain, "inlet.width_m", "160 mm");
        assert!(asked(&metric, OAT).expect("asked").words.contains("°C?"));
        assert_eq!(settled(&metric, OAT), [100.0, 38.0]);
        let both = typed(&metric, "inlet.height_m", "3.25 in");
        assert_eq!(asked(&both, OAT), None);
        for text in ["29", "46", "38 F", "hot"] {
            assert_eq!(asked(&typed(&metric, OAT, text), OAT), None, "{text}");
        }
        let shown = reduce(&metric, Action::Units(UnitSystem::Metric));
        assert_eq!(asked(&typed(&shown, OAT, "38"), OAT), None);
    }

    #[test]
    fn a_limit_that_no_manual_gives_is_asked_about() {
        const HEAD: &str = "engine.head_limit_k";
        const OIL: &str = "engine.oil_limit_k";
        let start = State::default();
        for (id, text) in [(HEAD, "435"), (HEAD, "300"), (HEAD, "510 F"), (OIL, "245")] {
            assert_eq!(asked(&typed(&start, id, text), id), None, "{text}");
        }
        // Refused in °F, plausible in °C.
        assert_eq!(settled(&typed(&start, HEAD, "224"), HEAD), [435.0]);
        assert_eq!(
            settled(&typed(&start, HEAD, "255"), HEAD),
            [491.0, 255.0, 255.0]
        );
        assert_eq!(settled(&typed(&start, HEAD, "510"), HEAD), [510.0, 510.0]);
        assert_eq!(settled(&typed(&start, OIL, "118"), OIL), [244.0]);
        assert_eq!(settled(&typed(&start, OIL, "270"), OIL), [270.0, 270.0]);
        let metric = reduce(&start, Action::Units(UnitSystem::Metric));
        assert_eq!(settled(&typed(&metric, HEAD, "435"), HEAD), [435.0]);
    }

    #[test]
    fn which_limit_it_is_stands_with_the_page_of_the_manual() {
        let id = "engine.head_limit_k";
        let state = typed(&State::default(), id, "510");
        let (_, redline) = asked(&state, id).expect("asked").answers.remove(1);
        let state = reduce(&state, redline);
        let page = &state.design.installation.engine.limits_page;
        assert!(page.ends_with("head limit is the redline"), "{page}");
        let state = typed(&state, id, "520");
        let (_, continuous) = asked(&state, id).expect("asked").answers.remove(0);
        let page = reduce(&state, continuous)
            .design
            .installation
            .engine
            .limits_page;
        assert!(
            page.ends_with("head limit is the continuous limit"),
            "{page}"
        );
        assert!(!page.contains("redline"), "{page}");
    }
}
