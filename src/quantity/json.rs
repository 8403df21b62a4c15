//! Records as JSON text and back. Each lists its fields once; one writer and one reader serve them all.
//!
//! A derived reader and writer are compiled anew for every record, and weighed many times as much on a phone.

use std::borrow::Cow;
use std::fmt::Write as _;

pub use serde_json::Value;

use crate::plain;

/// What has a form in JSON.
pub trait Write {
    /// Puts it at the end of a text.
    fn write(&self, out: &mut String);
}

/// What can be filled from JSON.
pub trait Read {
    /// Takes what a value holds. Unknown fields are ignored, missing ones stay as they are.
    ///
    /// # Errors
    /// [`Wrong`] names the first field that cannot hold what stands there.
    fn read<'v>(&mut self, value: &'v Value) -> Result<(), Wrong<'v>>;
}

/// A value where it cannot stand.
#[derive(Debug, PartialEq)]
pub struct Wrong<'v> {
    /// Path of the field from where the reading began, e.g. `tasks[0].kind`; blank is the whole.
    pub field: String,
    /// What stands there.
    pub value: &'v Value,
}

impl<'v> Wrong<'v> {
    fn here(value: &'v Value) -> Self {
        Self {
            field: String::new(),
            value,
        }
    }

    /// The same, seen from one step nearer to the root.
    fn within(mut self, step: &str) -> Self {
        if !(self.field.is_empty() || self.field.starts_with('[')) {
            self.field.insert(0, '.');
        }
        self.field.insert_str(0, step);
        self
    }
}

/// The JSON text of a value.
pub fn text(value: &dyn Write) -> String {
    let mut out = String::new();
    value.write(&mut out);
    out
}

/// The value that a JSON tree holds.
///
/// # Errors
/// [`Wrong`], as [`Read::read`].
pub fn value<T: Read + Default>(tree: &Value) -> Result<T, Wrong<'_>> {
    let mut value = T::default();
    value.read(tree)?;
    Ok(value)
}

/// Lists the fields of records that are written.
#[macro_export]
macro_rules! written {
    ($($record:ty { $($field:ident),* $(,)? })*) => {$(
        impl $crate::json::Write for $record {
            fn write(&self, out: &mut String) {
                let Self { $($field),* } = self;
                $crate::json::write_fields(out, &[$((stringify!($field), $field)),*]);
            }
        }
    )*};
}

/// Lists the fields of records that are written and read.
#[macro_export]
macro_rules! record {
    ($($record:ty { $($field:ident),* $(,)? })*) => {$(
        $crate::written! { $record { $($field),* } }
        impl $crate::json::Read for $record {
            fn read<'v>(&mut self, value: &'v $crate::json::Value) -> Result<(), $crate::json::Wrong<'v>> {
                let Self { $($field),* } = self;
                $crate::json::read_fields(value, &mut [$((stringify!($field), $field)),*])
            }
        }
    )*};
}

/// Lists the words for the kinds of a thing.
#[macro_export]
macro_rules! words {
    ($($kind:ty { $($variant:ident = $word:literal),* $(,)? })*) => {$(
        impl $kind {
            /// The word that stands for it in JSON.
            pub fn word(self) -> &'static str {
                match self { $(Self::$variant => $word),* }
            }
        }
        impl $crate::json::Write for $kind {
            fn write(&self, out: &mut String) {
                self.word().write(out);
            }
        }
        impl $crate::json::Read for $kind {
            fn read<'v>(&mut self, value: &'v $crate::json::Value) -> Result<(), $crate::json::Wrong<'v>> {
                let words = [$(($word, Self::$variant)),*];
                $crate::json::read_word(self, value, &words)
            }
        }
    )*};
}

/// A record as an object.
pub fn write_fields(out: &mut String, fields: &[(&str, &dyn Write)]) {
    write_items(out, ['{', '}'], fields, |(name, field), out| {
        name.write(out);
        out.push(':');
        field.write(out);
    });
}

/// Items between brackets, a comma between each two.
fn write_items<T>(out: &mut String, [open, close]: [char; 2], items: &[T], write: impl Fn(&T, &mut String)) {
    out.push(open);
    for (at, item) in items.iter().enumerate() {
        if at > 0 {
            out.push(',');
        }
        write(item, out);
    }
    out.push(close);
}

/// Fills the fields of a record from an object.
pub fn read_fields<'v>(value: &'v Value, fields: &mut [(&str, &mut dyn Read)]) -> Result<(), Wrong<'v>> {
    let object = value.as_object().ok_or_else(|| Wrong::here(value))?;
    for (name, field) in fields {
        if let Some(value) = object.get(*name) {
            field.read(value).map_err(|wrong| wrong.within(name))?;
        }
    }
    Ok(())
}

/// The kind that a word stands for.
pub fn read_word<'v, T: Copy>(kind: &mut T, value: &'v Value, words: &[(&str, T)]) -> Result<(), Wrong<'v>> {
    let named = words.iter().find(|(word, _)| value == word);
    *kind = named.ok_or_else(|| Wrong::here(value))?.1;
    Ok(())
}

impl Write for str {
    fn write(&self, out: &mut String) {
        out.push('"');
        for c in self.chars() {
            if c < ' ' {
                // Writing into a text cannot fail.
                let _ = write!(out, "\\u{:04x}", u32::from(c));
                continue;
            }
            if matches!(c, '"' | '\\') {
                out.push('\\');
            }
            out.push(c);
        }
        out.push('"');
    }
}

impl Write for String {
    fn write(&self, out: &mut String) {
        self.as_str().write(out);
    }
}

impl Write for Cow<'_, str> {
    fn write(&self, out: &mut String) {
        (**self).write(out);
    }
}

impl<T: Write + ?Sized> Write for &T {
    fn write(&self, out: &mut String) {
        (**self).write(out);
    }
}

impl Write for bool {
    fn write(&self, out: &mut String) {
        out.push_str(if *self { "true" } else { "false" });
    }
}

impl Write for usize {
    fn write(&self, out: &mut String) {
        let _ = write!(out, "{self}");
    }
}

impl Write for u32 {
    fn write(&self, out: &mut String) {
        let _ = write!(out, "{self}");
    }
}

/// To a thousandth, which is finer than a picture shows. JSON has no form for what is not finite: null, as elsewhere.
impl Write for f64 {
    fn write(&self, out: &mut String) {
        if self.is_finite() {
            out.push_str(&plain(*self, 3));
        } else {
            out.push_str("null");
        }
    }
}

impl<T: Write> Write for Option<T> {
    fn write(&self, out: &mut String) {
        match self {
            Some(value) => value.write(out),
            None => out.push_str("null"),
        }
    }
}

impl<T: Write> Write for [T] {
    fn write(&self, out: &mut String) {
        write_items(out, ['[', ']'], self, T::write);
    }
}

impl<T: Write> Write for Vec<T> {
    fn write(&self, out: &mut String) {
        self.as_slice().write(out);
    }
}

impl<T: Write, const N: usize> Write for [T; N] {
    fn write(&self, out: &mut String) {
        self.as_slice().write(out);
    }
}

/// As a list of two.
impl<A: Write, B: Write> Write for (A, B) {
    fn write(&self, out: &mut String) {
        let pair: [&dyn Write; 2] = [&self.0, &self.1];
        pair.write(out);
    }
}

impl Read for String {
    fn read<'v>(&mut self, value: &'v Value) -> Result<(), Wrong<'v>> {
        value.as_str().ok_or_else(|| Wrong::here(value))?.clone_into(self);
        Ok(())
    }
}

impl Read for bool {
    fn read<'v>(&mut self, value: &'v Value) -> Result<(), Wrong<'v>> {
        *self = value.as_bool().ok_or_else(|| Wrong::here(value))?;
        Ok(())
    }
}

impl Read for usize {
    fn read<'v>(&mut self, value: &'v Value) -> Result<(), Wrong<'v>> {
        let number = value.as_u64().and_then(|number| number.try_into().ok());
        *self = number.ok_or_else(|| Wrong::here(value))?;
        Ok(())
    }
}

impl Read for u32 {
    fn read<'v>(&mut self, value: &'v Value) -> Result<(), Wrong<'v>> {
        let number = value.as_u64().and_then(|number| number.try_into().ok());
        *self = number.ok_or_else(|| Wrong::here(value))?;
        Ok(())
    }
}

impl<T: Read + Default> Read for Option<T> {
    fn read<'v>(&mut self, tree: &'v Value) -> Result<(), Wrong<'v>> {
        *self = if tree.is_null() { None } else { Some(value(tree)?) };
        Ok(())
    }
}

impl<T: Read + Default> Read for Vec<T> {
    fn read<'v>(&mut self, value: &'v Value) -> Result<(), Wrong<'v>> {
        self.clear();
        let items = value.as_array().ok_or_else(|| Wrong::here(value))?;
        for (at, item) in items.iter().enumerate() {
            let entry = self::value(item).map_err(|wrong| wrong.within(&format!("[{at}]")))?;
            self.push(entry);
        }
        Ok(())
    }
}

/// From a list of two.
impl<A: Read, B: Read> Read for (A, B) {
    fn read<'v>(&mut self, value: &'v Value) -> Result<(), Wrong<'v>> {
        let pair = value.as_array().ok_or_else(|| Wrong::here(value))?;
        let [a, b] = pair.as_slice() else {
            return Err(Wrong::here(value));
        };
        self.0.read(a)?;
        self.1.read(b)
    }
}
