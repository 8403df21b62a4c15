//! The word that stands for a choice in files, links and fields.

use serde::{Serialize, de::DeserializeOwned};
use serde_json::Value;

/// The word for a choice.
///
/// ```
/// # use shop::{MachineKind, word};
/// assert_eq!(word::of(MachineKind::PistonTwoStage), "piston_two_stage");
/// assert_eq!(word::named("rotary"), Some(MachineKind::Rotary));
/// assert_eq!(word::named::<MachineKind>("bellows"), None);
/// ```
pub fn of<T: Serialize>(choice: T) -> String {
    match serde_json::to_value(choice) {
        Ok(Value::String(word)) => word,
        _ => String::new(),
    }
}

/// The choice that a word stands for.
#[expect(
    clippy::disallowed_methods,
    reason = "that the word stands for none is the answer"
)]
pub fn named<T: DeserializeOwned>(word: &str) -> Option<T> {
    serde_json::from_value(word.into()).ok()
}
