//! Designs of earlier formats: a default that nobody touched takes today's value.

use crate::document::design::{Change, Design, VERSION};
use crate::document::installation::{CylinderData, Installation};
use crate::document::table;
use crate::units::si::{degf, deltaf, inch, inch2, lb_hp_h};

/// Defaults of format 1 that are others today, SI.
const FORMAT_1: [(&str, f64); 11] = [
    ("engine.air_consumption_kg_j", lb_hp_h(5.88)),
    ("engine.full_rich_phi", 1.45),
    ("engine.peak_egt_phi", 1.0),
    ("engine.lean_of_peak_phi", 0.9),
    ("reference.gas_temperature_k", degf(1150.0)),
    ("reference.head_k", degf(430.0)),
    ("reference.chart_mixture_phi", 1.45),
    ("decks.plenum_leak_m2", inch2(1.0)),
    ("decks.seal_gap_m", inch(5.0 / 80.0)),
    ("oil.thermostat_leak_share", 0.10),
    ("shutter.closed_gap", 0.12),
];
/// Defaults of format 2, and of format 1, that are others today, SI.
const FORMAT_2: [(&str, f64); 2] = [("oil.heat_share", 0.065), ("oil.heat_share_jets", 0.085)];
/// Spread between the heads that format 1 took for granted, K.
const USUAL_SPREAD_K: f64 = deltaf(40.0);
/// Mean head of the generic engine in format 1, K.
const USUAL_HEAD_K: f64 = degf(430.0);

impl Design {
    /// The design in today's format, and the labels of the values that changed with it.
    ///
    /// A value that equals the default of its format and is not marked as measured takes today's
    /// default; what was changed is noted once in the change log.
    #[must_use]
    pub fn renewed(mut self) -> (Self, Vec<&'static str>) {
        let format = self.coolpath_design;
        if format >= VERSION {
            return (self, Vec::new());
        }
        self.coolpath_design = VERSION;
        let measured = self.measured.clone();
        let is_measured = |id: &str| measured.iter().any(|mark| mark == id);
        let mut defaults = FORMAT_2.to_vec();
        if format == 1 {
            keep_what_was_typed(&mut self.installation, is_measured("engine.head_spread_k"));
            for other in &mut self.alternatives {
                keep_what_was_typed(&mut other.installation, is_measured("engine.head_spread_k"));
            }
            defaults.extend(FORMAT_1);
        }
        let mut changed = Vec::new();
        for (id, old) in defaults {
            let Some(input) = table::by_id(id) else {
                continue;
            };
            if is_measured(id) {
                continue;
            }
            let is_old = |value: f64| (value - old).abs() <= 1e-9 * old.abs();
            if input.value(&self, 0).is_some_and(is_old) {
                input.set(&mut self, 0, input.default);
                if input.used(&self, 0) {
                    changed.push(input.label);
                }
            }
            for place in 0..self.alternatives.len() {
                let mut lent = Self {
                    installation: self.alternatives[place].installation.clone(),
                    ..Self::default()
                };
                if input.value(&lent, 0).is_some_and(is_old) {
                    input.set(&mut lent, 0, input.default);
                    self.alternatives[place].installation = lent.installation;
                }
            }
        }
        if !changed.is_empty() {
            self.changes.push(Change {
                day: String::new(),
                // A text of the design, the same whatever the page speaks.
                what: format!(
                    "Opened from an earlier format: {} took today's default.",
                    changed.join("; ")
                ),
            });
        }
        (self, changed)
    }
}

/// What format 1 held for all engines stays where the builder had changed it.
fn keep_what_was_typed(installation: &mut Installation, spread_measured: bool) {
    let engine = &mut installation.engine;
    let spread_k = engine.head_spread.value;
    if spread_measured || (spread_k - USUAL_SPREAD_K).abs() > 1e-9 {
        engine.cylinder_data = CylinderData::Spread;
    }
    let head = installation.reference.head;
    if engine.cylinders > 4 && (head.value - USUAL_HEAD_K).abs() > 1e-9 {
        installation.reference.head_six = head;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_untouched_default_of_an_earlier_format_takes_todays_and_a_typed_one_stays() {
        let mut old = Design {
            coolpath_design: 1,
            ..Design::default()
        };
        old.installation.engine.full_rich = 1.45;
        old.installation.shutter.closed_gap = 0.12;
        old.measured.push("shutter.closed_gap".to_owned());
        old.installation.oil.thermostat_leak = 0.3;
        let (new, changed) = old.clone().renewed();
        assert_eq!(new.coolpath_design, VERSION);
        assert!((new.installation.engine.full_rich - 1.6).abs() < 1e-12);
        assert!((new.installation.shutter.closed_gap - 0.12).abs() < 1e-12);
        assert!((new.installation.oil.thermostat_leak - 0.3).abs() < 1e-12);
        assert_eq!(changed, ["Full rich: fuel over stoichiometric"]);
        assert_eq!(new.changes.len(), 1);
        // Once.
        let (again, changed) = new.clone().renewed();
        assert!(changed.is_empty() && again == new);
    }

    #[test]
    fn the_heat_into_the_oil_is_renewed_in_format_2_and_nothing_else() {
        let mut old = Design {
            coolpath_design: 2,
            ..Design::default()
        };
        old.installation.oil.heat_share = 0.065;
        old.installation.oil.heat_share_jets = 0.09;
        old.installation.engine.full_rich = 1.45;
        let (new, changed) = old.renewed();
        assert!((new.installation.oil.heat_share - 0.08).abs() < 1e-12);
        assert!((new.installation.oil.heat_share_jets - 0.09).abs() < 1e-12);
        assert!((new.installation.engine.full_rich - 1.45).abs() < 1e-12);
        assert_eq!(changed, ["Heat into the oil over brake power"]);
    }
}
