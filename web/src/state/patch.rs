//! The difference of two JSON values, small enough to keep a hundred of them.
//!
//! `{"v": x}` puts x in place; `{"o": {key: …}, "d": [keys]}` changes members of an object and
//! drops others; `{"a": {place: …}}` changes items of a list; `{}` changes nothing.

use serde_json::{Map, Value, json};

/// What turns one value into another.
#[must_use]
pub fn patch(from: &Value, to: &Value) -> Value {
    match (from, to) {
        (from, to) if from == to => json!({}),
        (Value::Object(from), Value::Object(to)) => {
            let changed: Map<String, Value> = to
                .iter()
                .filter(|(key, value)| from.get(*key) != Some(value))
                .map(|(key, value)| {
                    let change = match from.get(key) {
                        Some(old) => patch(old, value),
                        None => json!({ "v": value }),
                    };
                    (key.clone(), change)
                })
                .collect();
            let dropped: Vec<&String> = from.keys().filter(|key| !to.contains_key(*key)).collect();
            json!({ "o": changed, "d": dropped })
        }
        (Value::Array(from), Value::Array(to)) if from.len() == to.len() => {
            let changed: Map<String, Value> = from
                .iter()
                .zip(to)
                .enumerate()
                .filter(|(_, (old, new))| old != new)
                .map(|(place, (old, new))| (place.to_string(), patch(old, new)))
                .collect();
            json!({ "a": changed })
        }
        _ => json!({ "v": to }),
    }
}

/// A value with a patch applied; `None` if the patch was not made for it.
#[must_use]
pub fn patched(value: &Value, patch: &Value) -> Option<Value> {
    let patch = patch.as_object()?;
    if let Some(put) = patch.get("v") {
        return Some(put.clone());
    }
    let mut next = value.clone();
    if let Some(changed) = patch.get("o") {
        let object = next.as_object_mut()?;
        for key in patch.get("d")?.as_array()? {
            object.remove(key.as_str()?)?;
        }
        for (key, change) in changed.as_object()? {
            let old = object.get(key).unwrap_or(&Value::Null);
            let new = patched(old, change)?;
            object.insert(key.clone(), new);
        }
    }
    if let Some(changed) = patch.get("a") {
        let list = next.as_array_mut()?;
        for (place, change) in changed.as_object()? {
            let item = list.get_mut(place.parse::<usize>().ok()?)?;
            *item = patched(item, change)?;
        }
    }
    Some(next)
}

#[cfg(all(test, not(target_arch = "wasm32")))]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn any_value() -> impl Strategy<Value = Value> {
        let leaf = prop_oneof![
            Just(Value::Null),
            any::<bool>().prop_map(Value::from),
            any::<i32>().prop_map(Value::from),
            any::<f64>().prop_map(Value::from),
            "[a-c]{0,3}".prop_map(Value::from),
        ];
        leaf.prop_recursive(4, 40, 4, |inner| {
            prop_oneof![
                prop::collection::vec(inner.clone(), 0..4).prop_map(Value::from),
                prop::collection::btree_map("[a-d]", inner, 0..4)
                    .prop_map(|map| Value::Object(map.into_iter().collect())),
            ]
        })
    }

    proptest! {
        #[test]
        fn a_patch_leads_from_any_value_to_any_other(from in any_value(), to in any_value()) {
            let text = patch(&from, &to).to_string();
            let read: Value = serde_json::from_str(&text).expect("a patch");
            prop_assert_eq!(patched(&from, &read), Some(to));
        }

        #[test]
        fn a_patch_for_another_value_is_refused_or_ignored(one in any_value(), two in any_value(), three in any_value()) {
            let _ = patched(&three, &patch(&one, &two));
        }
    }

    #[test]
    fn a_single_change_is_a_small_patch() {
        let from = json!({ "a": [{ "b": 1, "c": "long text that stays" }], "d": 2 });
        let to = json!({ "a": [{ "b": 3, "c": "long text that stays" }], "d": 2 });
        // The order of an object's keys is the library's matter.
        assert_eq!(
            patch(&from, &to),
            json!({ "d": [], "o": { "a": { "a": { "0": { "d": [], "o": { "b": { "v": 3 } } } } } } })
        );
    }
}
