//! Everything that keeps a design from being evaluated, each with its place, so that a page can
//! open the design all the same and mark what is wrong where it stands.

use crate::document::alternative::MAX_ALTERNATIVES;
use crate::document::check::DesignError;
use crate::document::design::{Design, MAX_CONDITIONS, MAX_OUTLINE, VERSION};
use crate::document::installation::Installation;
use crate::document::reading::{MAX_MOMENTS, MAX_READINGS, Reading};
use crate::document::table;
use crate::document::table::Input;
use crate::language::tr_later;
use crate::path::openings::MAX_OPENINGS;

/// Where in a design something is wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Spot {
    /// The file as a whole.
    File,
    /// A number of the table of inputs, at a place of its list.
    Input(&'static str, usize),
    /// A choice, by its group and field, at a place of its list.
    Choice(&'static str, usize),
    /// A list, by what it holds.
    List(&'static str),
    /// The traced outline of an inlet.
    Outline(usize),
    /// A reading.
    Reading(usize),
}

/// One thing that is wrong.
#[derive(Debug, Clone, PartialEq)]
pub struct Fault {
    /// The alternative that holds it; `None` for the design itself.
    pub alternative: Option<usize>,
    /// Where it stands.
    pub spot: Spot,
    /// What is wrong.
    pub error: DesignError,
}

/// Widest share of the permitted range by which a value may miss its own range [-], for rounding.
const RANGE_SLACK: f64 = 1e-9;

impl Design {
    /// The first thing that keeps the design from being evaluated. What is wrong with an
    /// alternative or a reading does not: no answer stands on them.
    ///
    /// # Errors
    /// [`DesignError`] with the value and its bounds.
    pub fn check(&self) -> Result<(), DesignError> {
        let first = self.own_faults().into_iter().next();
        first.map_or(Ok(()), |fault| Err(fault.error))
    }

    /// Whether a reading is one that instruments can have shown, in the order of time.
    #[must_use]
    pub(crate) fn is_sound_reading(&self, place: usize) -> bool {
        let mut found = Found(Vec::new());
        if let Some(reading) = self.readings.get(place) {
            judge_reading(place, reading, &mut found);
        }
        found.0.is_empty()
    }

    /// Everything that is wrong with the design, its readings and its alternatives, each with its
    /// place.
    #[must_use]
    pub fn faults(&self) -> Vec<Fault> {
        let mut found = Found(self.own_faults());
        self.count_readings(&mut found);
        for (place, reading) in self.readings.iter().enumerate() {
            judge_reading(place, reading, &mut found);
        }
        let mut faults = found.0;
        for place in 0..self.alternatives.len() {
            faults.extend(self.alternative_faults(place));
        }
        faults
    }

    /// Everything that is wrong with an alternative; nothing past the list's end.
    #[must_use]
    pub fn alternative_faults(&self, place: usize) -> Vec<Fault> {
        let Some(alternative) = self.alternatives.get(place) else {
            return Vec::new();
        };
        let adopted = Self {
            installation: alternative.installation.clone(),
            ..Self::default()
        };
        let mut faults = adopted.own_faults();
        for fault in &mut faults {
            fault.alternative = Some(place);
        }
        faults
    }

    /// What is wrong at one place of the design itself; cheaper than the whole list.
    #[must_use]
    pub fn fault_at(&self, spot: Spot) -> Option<DesignError> {
        let mut found = Found(self.installation.structure());
        match spot {
            Spot::Input(id, place) => {
                let number = table::by_id(id).and_then(|input| self.number_fault(input, place));
                if number.is_some() {
                    return number;
                }
                self.judge_relations(&mut found);
            }
            Spot::Choice(..) => self.count_parts(&mut found),
            Spot::List(_) => {
                self.count_lists(&mut found);
                self.count_readings(&mut found);
            }
            Spot::Outline(_) => self.judge_outlines(&mut found),
            Spot::Reading(place) => {
                if let Some(reading) = self.readings.get(place) {
                    judge_reading(place, reading, &mut found);
                }
            }
            Spot::File => {}
        }
        let here = found.0.into_iter().find(|fault| fault.spot == spot);
        here.map(|fault| fault.error)
    }

    fn own_faults(&self) -> Vec<Fault> {
        let mut found = Found(Vec::new());
        if self.coolpath_design > VERSION {
            found.note(
                Spot::File,
                DesignError::LaterVersion {
                    found: self.coolpath_design,
                    known: VERSION,
                },
            );
        }
        found.0.extend(self.installation.structure());
        self.count_lists(&mut found);
        self.count_parts(&mut found);
        self.judge_outlines(&mut found);
        self.judge_numbers(&mut found);
        self.judge_relations(&mut found);
        found.0
    }

    fn count_lists(&self, found: &mut Found) {
        for (what, count, least, most) in [
            (
                tr_later("conditions"),
                self.conditions.len(),
                1,
                MAX_CONDITIONS,
            ),
            (
                tr_later("alternatives"),
                self.alternatives.len(),
                0,
                MAX_ALTERNATIVES,
            ),
        ] {
            found.count(Spot::List(what), what, count, (least, most));
        }
    }

    fn count_readings(&self, found: &mut Found) {
        let moments = self.readings.iter().map(|reading| reading.moments.len());
        for (what, count, most) in [
            (tr_later("readings"), self.readings.len(), MAX_READINGS),
            (
                tr_later("moments in a reading"),
                moments.max().unwrap_or(0),
                MAX_MOMENTS,
            ),
        ] {
            found.count(Spot::List(what), what, count, (0, most));
        }
    }

    fn count_parts(&self, found: &mut Found) {
        let installation = &self.installation;
        for (id, what, count, range) in [
            (
                "engine.cylinders",
                tr_later("cylinders"),
                installation.engine.cylinders,
                (2, 8),
            ),
            (
                "cooler.bends",
                tr_later("bends"),
                installation.cooler.bends,
                (0, 20),
            ),
            (
                "cooler.rows",
                tr_later("cooler rows"),
                installation.cooler.rows,
                (2, 40),
            ),
            (
                "decks.blast_tubes",
                tr_later("blast tubes"),
                installation.decks.blast_tubes,
                (0, 20),
            ),
        ] {
            found.count(Spot::Choice(id, 0), what, count.into(), range);
        }
        for (place, exit) in installation.exits.iter().enumerate() {
            let spot = Spot::Choice("exit.louver_count", place);
            found.count(
                spot,
                tr_later("louvers"),
                exit.louver_count.into(),
                (1, 100),
            );
        }
    }

    fn judge_outlines(&self, found: &mut Found) {
        for (place, inlet) in self.installation.inlets.iter().enumerate() {
            let mut lengths = inlet.outline.iter().flatten();
            if inlet.outline.len() > MAX_OUTLINE || !lengths.all(|length| length.abs() < 2.0) {
                found.note(Spot::Outline(place), DesignError::Outline { place });
            }
        }
    }

    fn judge_numbers(&self, found: &mut Found) {
        for (input, place) in self.places() {
            if let Some(error) = self.number_fault(input, place) {
                found.note(Spot::Input(input.id, place), error);
            }
        }
    }

    fn number_fault(&self, input: &'static Input, place: usize) -> Option<DesignError> {
        let value = input.value(self, place)?;
        let (id, label) = (input.id, input.label);
        let (least, most) = input.permitted;
        if !(value >= least && value <= most) {
            return Some(DesignError::OutOfRange {
                id,
                label,
                place,
                value,
                least,
                most,
            });
        }
        if self.calibrated.is_empty() || self.is_measured(input, place) {
            return None;
        }
        let range = self.calibration(input, place)?.likely;
        let is_sound = is_range_about(range, value, input.permitted);
        (!is_sound).then_some(DesignError::Range {
            id,
            label,
            place,
            range,
        })
    }

    fn judge_relations(&self, found: &mut Found) {
        let oil = &self.installation.oil;
        let (opens_k, full_k) = (oil.thermostat_opens.value, oil.thermostat_full.value);
        if oil.thermostat && opens_k >= full_k {
            let error = DesignError::ThermostatOrder { opens_k, full_k };
            found.note(Spot::Input("oil.thermostat_opens_k", 0), error);
        }
    }
}

impl Installation {
    /// The first thing for which no air path can be laid out: the kind of engine, a missing or a
    /// surplus opening, an exit without area.
    ///
    /// # Errors
    /// [`DesignError`] by name.
    pub(crate) fn has_a_path(&self) -> Result<(), DesignError> {
        let first = self.structure().into_iter().next();
        first.map_or(Ok(()), |fault| Err(fault.error))
    }

    fn structure(&self) -> Vec<Fault> {
        let mut found = Found(Vec::new());
        let kind = self.engine.kind;
        if !kind.is_modelled() {
            let error = DesignError::NotModelled { kind };
            found.note(Spot::Choice("engine.kind", 0), error);
        }
        for (what, count) in [
            (tr_later("inlets"), self.inlets.len()),
            (tr_later("exits"), self.exits.len()),
        ] {
            found.count(Spot::List(what), what, count, (1, MAX_OPENINGS));
        }
        for (place, exit) in self.exits.iter().enumerate() {
            for (id, opening) in [("exit.pipes_area_m2", 0.0), ("exit.flap_open_area_m2", 1.0)] {
                let net_m2 = exit.area_m2(opening);
                if net_m2 <= 0.0 {
                    let error = DesignError::ExitBlocked { place, net_m2 };
                    found.note(Spot::Input(id, place), error);
                    break;
                }
            }
        }
        found.0
    }
}

fn judge_reading(place: usize, reading: &Reading, found: &mut Found) {
    let spot = Spot::Reading(place);
    let times = reading.moments.iter().map(|moment| moment.seconds);
    let sorted = times.is_sorted_by(|a, b| a < b);
    if !sorted || reading.moments.iter().any(|m| !m.seconds.is_finite()) {
        found.note(spot, DesignError::ReadingOrder { place });
    }
    for (&quantity, &value) in reading.moments.iter().flat_map(|m| &m.values) {
        let (least, most) = quantity.permitted();
        if !(value >= least && value <= most) {
            let error = DesignError::ReadingOutOfRange {
                place,
                quantity,
                value,
            };
            found.note(spot, error);
        }
    }
}

/// Whether a range is in order, lies within what is permitted and holds its value. It has a width,
/// but where the value stands at an end of what is permitted.
fn is_range_about((low, high): (f64, f64), value: f64, (least, most): (f64, f64)) -> bool {
    let slack = RANGE_SLACK * (most - least);
    let holds = low - slack <= value && value <= high + slack;
    let within = least - slack <= low && high <= most + slack;
    let at_an_end = value - least <= slack || most - value <= slack;
    holds && within && (low < high || (low <= high && at_an_end))
}

/// Faults found so far.
struct Found(Vec<Fault>);

impl Found {
    fn note(&mut self, spot: Spot, error: DesignError) {
        self.0.push(Fault {
            alternative: None,
            spot,
            error,
        });
    }

    fn count(
        &mut self,
        spot: Spot,
        what: &'static str,
        count: usize,
        (least, most): (usize, usize),
    ) {
        if !(least..=most).contains(&count) {
            let error = DesignError::Count {
                what,
                count,
                least,
                most,
            };
            self.note(spot, error);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::alternative::Alternative;
    use crate::document::design::Calibrated;
    use crate::document::example;
    use crate::document::installation::EngineKind;
    use crate::document::quantity::Quantity;
    use crate::units::quantity::{kelvin, metre, square_metre};
    use crate::units::si::{degf, inch, inch2};

    fn spots(design: &Design) -> Vec<Spot> {
        design.faults().iter().map(|fault| fault.spot).collect()
    }

    #[test]
    fn every_fault_is_listed_at_its_place_and_the_first_is_the_checks() {
        let mut design = example::design();
        assert!(design.faults().is_empty() && design.check().is_ok());
        design.installation.engine.kind = EngineKind::Turbocharged;
        design.installation.exits[0].pipes_area = square_metre(inch2(70.0));
        design.installation.oil.thermostat = true;
        design.installation.oil.thermostat_opens = kelvin(degf(195.0));
        design.installation.oil.thermostat_full = kelvin(degf(190.0));
        design.installation.inlets[1].width = metre(inch(50.0));
        assert_eq!(
            spots(&design),
            [
                Spot::Choice("engine.kind", 0),
                Spot::Input("exit.pipes_area_m2", 0),
                Spot::Input("inlet.width_m", 1),
                Spot::Input("oil.thermostat_opens_k", 0),
            ]
        );
        for fault in design.faults() {
            assert_eq!(design.fault_at(fault.spot), Some(fault.error));
        }
        assert_eq!(design.fault_at(Spot::Input("inlet.width_m", 0)), None);
        let kind = EngineKind::Turbocharged;
        assert_eq!(design.check(), Err(DesignError::NotModelled { kind }));
    }

    #[test]
    fn a_flap_smaller_than_the_pipes_is_marked_at_the_flap() {
        let mut design = example::design();
        let exit = &mut design.installation.exits[0];
        exit.flap = true;
        exit.pipes_area = square_metre(inch2(45.0));
        exit.flap_area = square_metre(inch2(40.0));
        assert_eq!(spots(&design), [Spot::Input("exit.flap_open_area_m2", 0)]);
    }

    #[test]
    fn an_alternative_is_judged_and_keeps_no_answer_from_the_design() {
        let mut design = example::design();
        let mut installation = design.installation.clone();
        installation.exits.clear();
        let inlet = installation.inlets[0].clone();
        installation.inlets = vec![inlet; 11];
        design.alternatives.push(Alternative {
            name: "Odd".to_owned(),
            installation,
        });
        assert!(design.check().is_ok());
        let faults = design.faults();
        assert_eq!(faults, design.alternative_faults(0));
        assert!(faults.iter().all(|fault| fault.alternative == Some(0)));
        assert_eq!(spots(&design), [Spot::List("inlets"), Spot::List("exits")]);
    }

    #[test]
    fn a_bad_reading_is_marked_and_keeps_no_answer_back() {
        let mut design = example::design();
        let values = [(Quantity::Oil, 1e4)].into_iter().collect();
        design.readings.push(Reading::steady("wild", values));
        assert!(design.check().is_ok());
        assert!(!design.is_sound_reading(0));
        assert_eq!(spots(&design), [Spot::Reading(0)]);
    }

    #[test]
    fn a_calibrated_range_must_be_in_order_narrow_enough_and_hold_its_value() {
        let id = "exit.discharge";
        let with = |likely| {
            let mut design = example::design();
            let value = design.installation.exits[0].discharge;
            design.calibrated.push(Calibrated {
                input: id.to_owned(),
                value,
                likely,
            });
            design
        };
        assert!(with((0.8, 0.9)).faults().is_empty());
        for likely in [
            (0.9, 0.8),
            (0.9, 0.95),
            (0.85, 0.85),
            (-1e300, 1e300),
            (0.2, 0.9),
        ] {
            assert_eq!(spots(&with(likely)), [Spot::Input(id, 0)], "{likely:?}");
        }
        // A range of a value that no longer stands in the design counts for nothing.
        let mut typed = with((0.9, 0.8));
        typed.installation.exits[0].discharge = 0.7;
        assert!(typed.faults().is_empty());
    }
}
