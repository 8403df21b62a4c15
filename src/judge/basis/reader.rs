//! Reads one field after the other by the table of fields, and notes what was refused and what was taken.

use quantity::field::{Bears, Field, check_length};
use quantity::{Known, ReadError, Units, write};
use shop::change::{Change, Fault};
use shop::part::Part;

/// A field whose text was not taken. The text stays; what hangs on it is not judged.
#[derive(Clone, Debug, PartialEq)]
pub struct Refusal {
    /// The part of the shop that it belongs to.
    pub part: Part,
    /// Its row in the table: what it is called and what it bears on.
    pub field: &'static Field,
    /// The sentence for beside the field: what was read and what would do.
    pub message: String,
}

impl Refusal {
    /// Its path in the shop, e.g. `candidates.0.flow`.
    pub fn path(&self) -> String {
        self.part.path(self.field.key)
    }

    /// As the page takes it.
    pub fn fault(&self) -> Fault {
        Fault {
            field: self.path(),
            message: self.message.clone(),
        }
    }
}

/// A field that was refused, by identity. What hangs on it is not judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Unread {
    /// The part of the shop.
    pub part: Part,
    /// The field's name in it.
    pub key: &'static str,
}

impl Unread {
    /// What a reader calls the field.
    pub fn name(self) -> &'static str {
        self.part.section().row(self.key).name
    }
}

/// What the fields of one part of a shop are read with.
pub(super) struct Reader {
    pub units: Units,
    pub part: Part,
    pub refusals: Vec<Refusal>,
    pub taken: Vec<Change>,
}

impl Reader {
    pub fn refuse(&mut self, key: &str, message: impl ToString) {
        self.refusals.push(Refusal {
            part: self.part,
            field: self.row(key),
            message: message.to_string(),
        });
    }

    /// Whether a field of this part was refused.
    pub fn refused(&self, key: &str) -> bool {
        let of = |refusal: &&Refusal| refusal.part == self.part && refusal.field.key == key;
        self.refusals.iter().any(|refusal| of(&refusal))
    }

    /// Path of the first field of this part that was refused and that such a judgement rests on.
    pub fn first_refused(&self, bears: Bears) -> Option<String> {
        let of = |refusal: &&Refusal| refusal.part == self.part && refusal.field.bears == bears;
        self.refusals.iter().find(of).map(Refusal::path)
    }

    /// The first field of this part that was refused and that the air is judged by.
    pub fn unread_air(&self) -> Option<Unread> {
        let of = |refusal: &&Refusal| refusal.part == self.part && refusal.field.bears == Bears::Air;
        let found = self.refusals.iter().find(of)?;
        Some(Unread {
            part: self.part,
            key: found.field.key,
        })
    }

    /// What a reading found; a refusal is noted beside the field.
    pub fn noted<T>(&mut self, key: &str, read: Result<Option<T>, ReadError>) -> Option<T> {
        match read {
            Ok(value) => value,
            Err(error) => {
                self.refuse(key, error);
                None
            }
        }
    }

    /// A name or another word, as far as it is kept.
    pub fn words<'a>(&mut self, key: &str, text: &'a str) -> &'a str {
        let kept = check_length(text);
        if let Err(error) = kept {
            self.refuse(key, error);
        }
        text.trim()
    }

    pub fn row(&self, key: &str) -> &'static Field {
        self.part.section().row(key)
    }

    /// What a field says; nothing where it is blank or refused.
    pub fn get(&mut self, key: &str, text: &str) -> Option<f64> {
        self.get_as(self.row(key), text)
    }

    /// The same by a row of its own.
    pub fn get_as(&mut self, field: &Field, text: &str) -> Option<f64> {
        self.noted(field.key, field.read(text, self.units))
    }

    /// What a field says, with its origin.
    pub fn given(&mut self, key: &str, text: &str) -> Option<Known> {
        let origin = self.part.section().origin;
        self.get(key, text).map(|value| Known { value, origin })
    }

    /// What a field says, or what is usual.
    pub fn or(&mut self, key: &str, text: &str, usual: f64) -> Known {
        self.or_as(self.row(key), text, usual)
    }

    /// The same by a row of its own.
    pub fn or_as(&mut self, field: &Field, text: &str, usual: f64) -> Known {
        let origin = self.part.section().origin;
        match self.get_as(field, text) {
            Some(value) => Known { value, origin },
            None => self.take_as(field, usual),
        }
    }

    /// What is usual, noted so that the page can show it.
    pub fn take(&mut self, key: &str, usual: f64) -> Known {
        self.take_as(self.row(key), usual)
    }

    /// The same by a row of its own.
    pub fn take_as(&mut self, field: &Field, usual: f64) -> Known {
        // What is usual beside a figure at the end of its row may lie beyond its own.
        let usual = field
            .range()
            .map_or(usual, |row| usual.max(*row.start()).min(*row.end()));
        if let Some(kind) = field.kind() {
            self.taken.push(Change {
                field: self.part.path(field.key),
                text: write(kind, usual, self.units),
            });
        }
        Known {
            value: usual,
            origin: self.part.section().blank,
        }
    }
}
