//! What undo would take back, in words. Pure.

use crate::state::State;
use coolpath_core::units::typed;

/// What the last step changed, such as "Exit gap, lip to firewall 4.6 → 5.6 in"; none where it was
/// no single number.
#[must_use]
pub fn of(state: &State) -> Option<String> {
    let before = &state.past.last()?.design;
    let mut changed = state.design.places().filter_map(|(input, place)| {
        let (old, new) = (
            input.value(before, place)?,
            input.value(&state.design, place)?,
        );
        (old != new).then_some((input, old, new))
    });
    let (input, old, new) = changed.next()?;
    if changed.next().is_some() {
        return None;
    }
    let unit = input.dimension.shown(state.system);
    let shown = |si: f64| typed::rounded_text(unit.from_si(si), 3).replace('-', "−");
    let name = input.label.split(',').next().unwrap_or(input.label);
    Some(
        format!(
            "{} {} → {} {}",
            name.to_lowercase(),
            shown(old),
            shown(new),
            unit.symbol
        )
        .trim_end()
        .to_owned(),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::reduce::reduce;
    use crate::state::{Action, FieldKey};

    #[test]
    fn one_number_is_named_with_both_values_and_several_are_not() {
        let start = State::default();
        assert_eq!(of(&start), None);
        let typed = reduce(
            &start,
            Action::Type {
                key: FieldKey::new("exit.gap_m", 0),
                text: "5.6".to_owned(),
            },
        );
        assert_eq!(of(&typed).as_deref(), Some("exit gap 4.6 → 5.6 in"));
        let named = reduce(&typed, Action::NameDesign("Other".to_owned()));
        assert_eq!(of(&named), None);
    }
}
