//! Reads one field after the other, and notes faults and what was taken.

use std::ops::RangeInclusive;

use super::Figure;
use quantity::{Kind, read, write};
use shop::Units;
use shop::change::{Change, Fault};

/// What the fields are read with.
pub(super) struct Reader {
    pub units: Units,
    pub path: String,
    pub faults: Vec<Fault>,
    pub taken: Vec<Change>,
}

impl Reader {
    pub fn field(&self, name: &str) -> String {
        format!("{}.{name}", self.path)
    }
    pub fn fault(&mut self, name: &str, message: impl Into<String>) {
        let field = self.field(name);
        self.faults.push(Fault {
            field,
            message: message.into(),
        });
    }
    /// Path of the first of some fields that could not be read.
    pub fn refused(&self, names: &[&str]) -> Option<String> {
        let mut paths = names.iter().map(|name| self.field(name));
        paths.find(|path| self.faults.iter().any(|fault| fault.field == *path))
    }
    /// What a field says; nothing where it is blank or cannot be read.
    pub fn get(&mut self, name: &str, kind: Kind, text: &str) -> Option<f64> {
        match read(kind, text, self.units) {
            Ok(value) => value,
            Err(error) => {
                self.fault(name, error.to_string());
                None
            }
        }
    }
    /// The same where zero makes no sense.
    pub fn above_zero(&mut self, name: &str, kind: Kind, text: &str) -> Option<f64> {
        let value = self.get(name, kind, text)?;
        if value > 0.0 {
            return Some(value);
        }
        self.fault(
            name,
            format!(
                "“{}” must be above zero, e.g. {}",
                text.trim(),
                kind.example(self.units)
            ),
        );
        None
    }
    pub fn take(&mut self, name: &str, kind: Kind, typical: f64) -> Figure {
        self.taken.push(Change {
            field: self.field(name),
            text: write(kind, typical, self.units),
        });
        Figure {
            value: typical,
            given: false,
        }
    }
    /// What a field says, or what is typical.
    pub fn or(&mut self, name: &str, kind: Kind, text: &str, typical: f64) -> Figure {
        match self.get(name, kind, text) {
            Some(value) => Figure { value, given: true },
            None => self.take(name, kind, typical),
        }
    }
    pub fn above_zero_or(&mut self, name: &str, kind: Kind, text: &str, typical: f64) -> Figure {
        match self.above_zero(name, kind, text) {
            Some(value) => Figure { value, given: true },
            None => self.take(name, kind, typical),
        }
    }
    pub fn within(&mut self, name: &str, kind: Kind, text: &str, range: &RangeInclusive<f64>) -> Option<f64> {
        let value = self.get(name, kind, text)?;
        if range.contains(&value) {
            return Some(value);
        }
        let (low, high) = (
            write(kind, *range.start(), self.units),
            write(kind, *range.end(), self.units),
        );
        self.fault(
            name,
            format!("“{}” is out of range here: use {low} to {high}", text.trim()),
        );
        None
    }
}
