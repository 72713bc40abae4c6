//! What a session's probes gave that no engine has: set aside, doubted, and offered to be left out.

use coolpath_core::document::quantity::Quantity;
use coolpath_core::language::{counted, tr};
use coolpath_core::math::order;
use coolpath_core::prove::log::{Channel, Fate, Session, SetAside, Why};
use coolpath_core::units::typed::{UnitSystem, rounded_text};
use yew::prelude::*;

/// What was set aside, in words, and what may be left out; `on_leave` hears which.
pub fn set_aside(session: &Session, system: UnitSystem, on_leave: &Callback<Quantity>) -> Html {
    let mut said: Vec<Html> = Vec::new();
    for channel in &session.channels {
        let label = channel.quantity.label();
        match channel.fate {
            Fate::Kept => {}
            Fate::Doubtful => {
                let (quantity, leave) = (channel.quantity, on_leave.clone());
                let on_click = Callback::from(move |_: MouseEvent| leave.emit(quantity));
                said.push(html! { <>
                    { tr!("{} stands far from the other heads at all times; it is kept. A probe, or a cylinder that differs? ", label) }
                    <button type="button" class="quiet" onclick={on_click}>{ tr!("Leave {} out of the mean", label) }</button>
                </> });
            }
            Fate::Dead => {
                said.push(html! { tr!("{} is set aside: it does not move like a head", label) })
            }
        }
        said.extend(
            [Why::TooFast, Why::Impossible]
                .into_iter()
                .filter_map(|why| Some(html! { words(session, channel, why, system)? })),
        );
    }
    if said.is_empty() {
        return html! { <p class="hint">{ tr("Nothing was set aside.") }</p> };
    }
    html! { <ul class="warnings">{ for said.into_iter().map(|said| html! { <li>{ said }</li> }) }</ul> }
}

/// Values set aside for one reason, with the farthest of them.
fn words(session: &Session, channel: &Channel, why: Why, system: UnitSystem) -> Option<String> {
    let own: Vec<&SetAside> = channel
        .set_aside
        .iter()
        .filter(|one| one.why == why)
        .collect();
    let median = middle(&channel.values)?;
    let worst = own.iter().max_by(|a, b| {
        (a.value - median)
            .abs()
            .total_cmp(&(b.value - median).abs())
    })?;
    let unit = channel.quantity.dimension().shown(system);
    let count = counted(own.len(), "value", "values");
    let because = match why {
        Why::TooFast => tr("it cannot move there and back so fast"),
        Why::Impossible => tr("impossible"),
    };
    Some(tr!(
        "{}: {} set aside, such as {} {} at minute {}: {}",
        channel.quantity.label(),
        count,
        rounded_text(unit.from_si(worst.value), 4),
        unit.symbol,
        rounded_text(
            session.seconds.get(worst.row).copied().unwrap_or(0.0) / 60.0,
            3
        ),
        because
    ))
}

/// Median of the values that are left; 0 where none is.
fn middle(values: &[f64]) -> Option<f64> {
    let mut finite: Vec<f64> = values.iter().copied().filter(|v| v.is_finite()).collect();
    order::ascending(&mut finite);
    Some(finite.get(finite.len() / 2).copied().unwrap_or(0.0))
}
