//! Records read by name: what stands in a tree goes into the fields of a shop. One reader serves every record, as each record
//! only lists its fields; a reader derived for each of them weighs 30 kB more on a phone.

use quantity::{MachineKind, Units};
use serde_json::Value;

use crate::file::{FileError, bad_field, below};
use crate::{Auxiliary, Candidate, Limits, Line, Place, Shop, Task, TaskKind, word};

/// What a field can hold.
pub(crate) enum Slot<'a> {
    Text(&'a mut String),
    Tick(&'a mut bool),
    Number(&'a mut dyn Number),
    Choice(&'a mut dyn Choice),
    Part(&'a mut dyn Record),
    List(&'a mut dyn List),
}

/// A record: its fields by name.
pub(crate) trait Record {
    fn fields(&mut self) -> Vec<(&'static str, Slot<'_>)>;
}

/// A number without a sign.
pub(crate) trait Number {
    /// Whether it holds that much.
    fn put(&mut self, number: u64) -> bool;
}

/// One of some words.
pub(crate) trait Choice {
    /// Whether the word is one of them.
    fn choose(&mut self, word: &str) -> bool;
}

/// Records one after the other.
pub(crate) trait List {
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

/// Where each type of field goes.
trait Field {
    fn slot(&mut self) -> Slot<'_>;
}

/// Types of field, by what they hold.
macro_rules! fields {
    ($($slot:ident: $($kind:ty),+;)+) => {
        $($(impl Field for $kind {
            fn slot(&mut self) -> Slot<'_> {
                Slot::$slot(self)
            }
        })+)+
    };
}

fields! {
    Text: String;
    Tick: bool;
    Number: u32, usize;
    Choice: MachineKind, TaskKind, Units;
    Part: Line, Auxiliary, Limits;
    List: Vec<Place>, Vec<Task>, Vec<Candidate>;
}

macro_rules! choices {
    ($($kind:ty),+) => {
        $(impl Choice for $kind {
            fn choose(&mut self, word: &str) -> bool {
                word::named(word).map(|choice| *self = choice).is_some()
            }
        })+
    };
}

choices!(MachineKind, TaskKind, Units);

/// Lists a record's fields. One that is forgotten, or that the record lacks, does not compile.
macro_rules! record {
    ($kind:ident: $($field:ident)+) => {
        impl Record for $kind {
            fn fields(&mut self) -> Vec<(&'static str, Slot<'_>)> {
                let Self { $($field),+ } = self;
                vec![$((stringify!($field), $field.slot())),+]
            }
        }
    };
}

record! { Shop:
    version name units places tasks line auxiliary limits candidates chosen
}

record! { Place:
    name altitude station_pressure temperature humidity volts breaker other_load branch_gauge branch_length
    cord_gauge cord_length generator outlet wire_metal adapter generator_stands gfci spare_volts spare_breaker
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
