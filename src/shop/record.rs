//! Records read by name: what stands in a tree goes into the fields of a shop. One reader serves every record, as each record
//! only lists its fields; a reader derived for each of them weighs 30 kB more on a phone.

use serde_json::Value;

use crate::file::{FileError, bad_field, below};
use crate::word::{self, Word};
use crate::{Auxiliary, Candidate, Limits, Line, Place, Shop, Task};

/// What a field can hold.
pub enum Slot<'a> {
    /// A text.
    Text(&'a mut String),
    /// A text or nothing.
    Maybe(&'a mut Option<String>),
    /// True or false.
    Tick(&'a mut bool),
    /// A number without a sign.
    Number(&'a mut dyn Number),
    /// One of some words.
    Choice(&'a mut dyn Choice),
    /// Another record.
    Part(&'a mut dyn Record),
    /// Records one after the other.
    List(&'a mut dyn List),
}

/// A record: its fields by name.
pub trait Record {
    /// Each field's name and what it can hold.
    fn fields(&mut self) -> Vec<(&'static str, Slot<'_>)>;
}

/// A number without a sign.
pub trait Number {
    /// Whether it holds that much.
    fn put(&mut self, number: u64) -> bool;
}

/// One of some words.
pub trait Choice {
    /// Whether the word is one of them.
    fn choose(&mut self, word: &str) -> bool;
}

/// Records one after the other.
pub trait List {
    /// Puts what a tree holds in the place of what was there.
    ///
    /// # Errors
    /// [`FileError::BadField`].
    fn read(&mut self, items: &[Value], path: &str) -> Result<(), FileError>;
}

impl<T: Record + Default> List for Vec<T> {
    fn read(&mut self, items: &[Value], path: &str) -> Result<(), FileError> {
        self.clear();
        for (index, item) in items.iter().enumerate() {
            let mut entry = T::default();
            read(&mut entry, item, &format!("{path}[{index}]"))?;
            self.push(entry);
        }
        Ok(())
    }
}

impl<T: TryFrom<u64>> Number for T {
    fn put(&mut self, number: u64) -> bool {
        T::try_from(number).map(|number| *self = number).is_ok()
    }
}

impl<T: Word> Choice for T {
    fn choose(&mut self, word: &str) -> bool {
        word::named(word).map(|choice| *self = choice).is_some()
    }
}

/// The record in a tree; `path` is what the reader calls it.
///
/// # Errors
/// [`FileError::BadField`] names the first field that cannot hold what stands there.
pub fn of<T: Record + Default>(tree: &Value, path: &str) -> Result<T, FileError> {
    let mut record = T::default();
    read(&mut record, tree, path)?;
    Ok(record)
}

/// The records in a tree that is a list of them.
///
/// # Errors
/// As [`of`].
pub fn list<T: Record + Default>(tree: &Value, path: &str) -> Result<Vec<T>, FileError> {
    let items = tree.as_array().ok_or_else(|| bad_field(path, tree))?;
    let mut list = Vec::new();
    List::read(&mut list, items, path)?;
    Ok(list)
}

/// Reads what a tree has into a record; names that the record lacks are passed over.
///
/// # Errors
/// [`FileError::BadField`] names the first field that cannot hold what stands there.
pub(crate) fn read(record: &mut dyn Record, tree: &Value, path: &str) -> Result<(), FileError> {
    let Value::Object(found) = tree else {
        return Err(bad_field(if path.is_empty() { "shop" } else { path }, tree));
    };
    let mut fields = record.fields();
    for (name, value) in found {
        if let Some((_, slot)) = fields.iter_mut().find(|(known, _)| known == name) {
            put(slot, value, &below(path, name))?;
        }
    }
    Ok(())
}

fn put(slot: &mut Slot, value: &Value, path: &str) -> Result<(), FileError> {
    let taken = match (slot, value) {
        (Slot::Part(part), _) => return read(*part, value, path),
        (Slot::List(list), Value::Array(items)) => return list.read(items, path),
        (Slot::Text(text), Value::String(found)) => {
            text.clone_from(found);
            true
        }
        (Slot::Maybe(text), Value::String(found)) => {
            **text = Some(found.clone());
            true
        }
        (Slot::Maybe(text), Value::Null) => {
            **text = None;
            true
        }
        (Slot::Tick(tick), Value::Bool(found)) => {
            **tick = *found;
            true
        }
        (Slot::Number(number), Value::Number(found)) => found.as_u64().is_some_and(|found| number.put(found)),
        (Slot::Choice(choice), Value::String(found)) => choice.choose(found),
        _ => false,
    };
    if taken {
        Ok(())
    } else {
        Err(bad_field(path, value))
    }
}

/// A type of field, by what it can hold.
pub trait Field {
    /// Where what is read goes.
    fn slot(&mut self) -> Slot<'_>;
}

macro_rules! field {
    ($kind:ty: $slot:ident) => {
        impl Field for $kind {
            fn slot(&mut self) -> Slot<'_> {
                Slot::$slot(self)
            }
        }
    };
}

field!(String: Text);
field!(Option<String>: Maybe);
field!(bool: Tick);
field!(u32: Number);
field!(usize: Number);

impl<T: Record + Default> Field for Vec<T> {
    fn slot(&mut self) -> Slot<'_> {
        Slot::List(self)
    }
}

/// Lists a record's fields. One that is forgotten, or that the record lacks, does not compile.
///
/// ```
/// # use shop::record;
/// #[derive(Default)]
/// struct Can { name: String, litres: u32 }
/// shop::record! { Can: name litres }
/// let tree = serde_json::json!({ "name": "Oil", "litres": 5, "colour": "red" });
/// let can: Can = record::of(&tree, "can")?;
/// assert_eq!((&*can.name, can.litres), ("Oil", 5));
/// let refused = record::of::<Can>(&serde_json::json!({ "litres": -5 }), "can");
/// assert!(refused.is_err_and(|error| error.to_string().starts_with("can.litres holds -5")));
/// # Ok::<(), shop::file::FileError>(())
/// ```
#[macro_export]
macro_rules! record {
    ($kind:ident: $($field:ident)+) => {
        impl $crate::record::Record for $kind {
            fn fields(&mut self) -> Vec<(&'static str, $crate::record::Slot<'_>)> {
                let Self { $($field),+ } = self;
                vec![$((stringify!($field), $crate::record::Field::slot($field))),+]
            }
        }

        impl $crate::record::Field for $kind {
            fn slot(&mut self) -> $crate::record::Slot<'_> {
                $crate::record::Slot::Part(self)
            }
        }
    };
}

record! { Shop:
    version name units places tasks line auxiliary limits candidates chosen
}

record! { Place:
    name altitude station_pressure temperature humidity volts breaker other_load other_name branch_gauge
    branch_length cord_gauge cord_length generator outlet wire_metal adapter generator_stands gfci spare_volts spare_breaker
    cord_planned machine_comes listener neighbour wall_loss inlet_ducted boxed box_size box_fan airplane
    compressor_stands
}

record! { Task:
    kind name on flow setting lowest trigger_on trigger_off spell pause people together gun paint sprayed
}

record! { Candidate:
    name kind flow at flow2 at2 tank volts amps power start cut_in cut_out duty sound sound_at weight wheels price
    pump_up pump_from pump_to leak_time leak_from leak_to suction peak_power pump plug stamp relief sound_power
}

record! { Line:
    droop trunk_bore trunk_length couplers whip_bore whip_length loss_share pipe breathing
}

record! { Auxiliary:
    tank rated condition stays
}

record! { Limits:
    lift tailgate budget loudest hours day tariff
}
