//! The word that stands for a choice in files, links and fields.

use quantity::{MachineKind, Units};
use serde::Serialize;
use serde_json::Value;

use crate::TaskKind;

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

/// A choice that files, links, fields and the page name by a word.
pub trait Word: Serialize + Copy + 'static {
    /// All that there are.
    const ALL: &'static [Self];
}

/// Lists the words of a choice, each by its variant. One that is forgotten does not compile.
#[macro_export]
macro_rules! words {
    ($kind:ident: $($variant:ident)+) => {
        impl $crate::word::Word for $kind {
            const ALL: &'static [Self] = {
                const fn is_listed(choice: $kind) -> $kind {
                    match choice {
                        $($kind::$variant)|+ => choice,
                    }
                }
                &[$(is_listed($kind::$variant)),+]
            };
        }

        impl $crate::record::Field for $kind {
            fn slot(&mut self) -> $crate::record::Slot<'_> {
                $crate::record::Slot::Choice(self)
            }
        }
    };
}

words!(MachineKind: PistonOneStage PistonTwoStage Rotary);
words!(Units: Us Metric);
words!(TaskKind: Other Drill Deburr RivetGun BackRivet Squeezer BlowOff DieGrinder Sander PrimerGun PaintGun RivetPuller ClecoTool);

/// The choice that a word stands for.
pub fn named<T: Word>(word: &str) -> Option<T> {
    T::ALL.iter().copied().find(|choice| of(*choice) == word)
}
