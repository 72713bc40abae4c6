//! What a fit says of the whole flights that it saw: how many moments, and how much they agree by
//! themselves.

use crate::charts::table::TableView;
use crate::kit::format;
use crate::kit::table_text::TableText;
use coolpath_core::language::tr;
use coolpath_core::prove::calibrate::{Channel, OverFlights};
use coolpath_core::units::typed::{Dimension, UnitSystem, rounded_text};
use yew::prelude::*;

/// After so long, s, it is told how much of a miss is left.
const LATER_S: f64 = 60.0;

/// The moments of whole flights, and what they count as; nothing without any.
pub fn over_flights(whole: &[OverFlights], system: UnitSystem) -> Html {
    if whole.is_empty() {
        return Html::default();
    }
    let columns = [
        tr("What was read"),
        tr("Off by (one standard deviation)"),
        tr("Of an error, left a minute later"),
        tr("Counts as"),
    ];
    let rows = whole.iter().map(|own| {
        let dimension = if own.channel.is_pressure() {
            Dimension::Pressure
        } else {
            Dimension::TemperatureDifference
        };
        vec![
            own.channel.name().to_owned(),
            format::quantity(own.error.deviation, dimension, system, 2),
            percent(own),
            tr!("{} readings", rounded_text(own.independent, 2)),
        ]
    });
    let sheet = TableText::new(
        tr("What the moments of the flight count as"),
        &columns,
        rows.collect(),
    );
    html! {
        <>
            <p class="over-flights">{ sentence(whole) }</p>
            <TableView {sheet} captioned=true />
        </>
    }
}

fn percent(own: &OverFlights) -> String {
    format!("{:.0} %", 100.0 * own.error.left_after(LATER_S))
}

/// The answer in words: by the heads, or by what else was read.
fn sentence(whole: &[OverFlights]) -> String {
    let of = |channel: Channel| whole.iter().find(|own| own.channel == channel);
    let first = of(Channel::HeadMean)
        .or(of(Channel::HeadAlone))
        .or(whole.first());
    let Some(first) = first else {
        return String::new();
    };
    tr!(
        "{} moments over {} min. Of an error in the {}, {} is still there a minute later, so that they \
         count as {} independent readings.",
        first.moments,
        rounded_text(first.seconds / 60.0, 2),
        first.channel.name(),
        percent(first),
        rounded_text(first.independent, 2),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::prove::calibrate::Correlated;

    #[test]
    fn moments_minutes_and_correlation_are_told_of_the_heads() {
        let of = |channel, moments| OverFlights {
            channel,
            moments,
            seconds: 3570.0,
            error: Correlated {
                deviation: 3.0,
                memory_s: 60.0 / 2.0_f64.ln(),
            },
            independent: 21.4,
        };
        let said = sentence(&[of(Channel::Oil, 9), of(Channel::HeadMean, 238)]);
        assert_eq!(
            said,
            "238 moments over 60 min. Of an error in the mean of the heads, 50 % is still there a minute later, \
             so that they count as 21 independent readings."
        );
        assert!(sentence(&[of(Channel::Oil, 9)]).starts_with("9 moments over 60 min"));
    }
}
