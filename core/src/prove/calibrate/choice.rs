//! Which parameters are fitted unless the builder chooses others.

use crate::document::design::Design;
use crate::document::quantity::Quantity;
use crate::prove::calibrate::parameter::Parameter;

/// What can be learnt from the readings there are.
#[must_use]
pub fn usual_choice(design: &Design) -> Vec<Parameter> {
    let moments = || {
        design
            .fitted_readings()
            .flat_map(|reading| reading.moments.iter())
    };
    let any = |quantities: &[Quantity]| {
        moments().any(|moment| quantities.iter().any(|q| moment.get(*q).is_some()))
    };
    let pressures = any(&[
        Quantity::BaffleDrop,
        Quantity::UpperDeck,
        Quantity::LowerDeck,
    ]);
    let stretches = design.fitted_readings().any(|reading| !reading.is_steady());
    let mut chosen = vec![Parameter::HeadConductance, Parameter::HeadSpread];
    if any(&Quantity::EGTS) && any(&[Quantity::FuelFlow]) {
        chosen.extend([Parameter::AirConsumption, Parameter::ExhaustLevel]);
    }
    if any(&[Quantity::Oil]) {
        chosen.push(Parameter::OilShare);
    }
    if pressures {
        chosen.extend([Parameter::Leak, Parameter::ExitPressure]);
    }
    if stretches {
        chosen.extend([Parameter::HeadLag, Parameter::OilLag]);
    }
    chosen.sort_unstable();
    chosen
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::example;
    use crate::document::reading::{Reading, Values};

    #[test]
    fn what_is_chosen_follows_what_was_read() {
        let mut design = example::design();
        let mut values = Values::new();
        values.insert(Quantity::Head1, 480.0);
        design.readings = vec![Reading::steady("one", values.clone())];
        assert_eq!(
            usual_choice(&design),
            [Parameter::HeadConductance, Parameter::HeadSpread]
        );
        values.insert(Quantity::BaffleDrop, 900.0);
        values.insert(Quantity::Oil, 360.0);
        design.readings.push(Reading::steady("two", values));
        let chosen = usual_choice(&design);
        assert!(chosen.contains(&Parameter::Leak) && chosen.contains(&Parameter::OilShare));
        assert!(!chosen.contains(&Parameter::HeadLag));
    }
}
