//! Fields whose text is no valid value.

use crate::state::field;
use crate::state::field_key::FieldKey;
use crate::state::page::State;
use crate::state::readings;

impl State {
    /// Fields whose text is no valid value, with what is wrong with it.
    #[must_use]
    pub fn faults(&self) -> Vec<(FieldKey, String)> {
        self.drafts
            .iter()
            .filter_map(|(key, text)| {
                let fault = match key.input() {
                    Some(input) => field::value(input, text, self.system).err(),
                    None => readings::fault(self, key, text),
                };
                fault.map(|fault| (key.clone(), fault))
            })
            .collect()
    }
}
