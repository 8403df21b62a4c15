//! The table as the page takes it: texts and numbers, in one system of units.

use super::{Field, Holds, SECTIONS, Section};
use crate::{Kind, Units, write};
use serde::Serialize;
use tsify::Tsify;

/// A field as a form shows it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Tsify)]
pub struct FieldRow {
    /// Its path without the numbers of list entries: "places.breaker".
    pub path: String,
    /// What a reader calls it.
    pub name: &'static str,
    /// "figure", "words", "choice" or "tick".
    pub holds: &'static str,
    /// The unit of a bare number; blank where there is none.
    pub unit: &'static str,
    /// The units that labels print it in, the usual one first; none where there is but one.
    pub units: Vec<&'static str>,
    /// A figure as a label or a person states it.
    pub example: &'static str,
    /// Least that it takes, as text.
    pub low: String,
    /// Most that it takes, as text.
    pub high: String,
    /// Most characters that are kept.
    pub most: usize,
}

/// A list as a form shows it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Tsify)]
pub struct FieldList {
    /// Its path: "places".
    pub path: &'static str,
    /// One of them.
    pub one: &'static str,
    /// Several of them.
    pub many: &'static str,
    /// Most that a shop holds.
    pub most: usize,
}

/// The whole table in one system of units.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Tsify)]
pub struct FieldTable {
    /// Every field.
    pub fields: Vec<FieldRow>,
    /// Every list.
    pub lists: Vec<FieldList>,
}

impl FieldTable {
    /// The table for a reader of such units.
    ///
    /// ```
    /// # use quantity::{Units, field::page::FieldTable};
    /// let table = FieldTable::of(Units::Us);
    /// let breaker = table.fields.iter().find(|row| row.path == "places.breaker").unwrap();
    /// assert_eq!((breaker.unit, &*breaker.low, &*breaker.high), ("A", "1 A", "400 A"));
    /// let flow = table.fields.iter().find(|row| row.path == "candidates.flow").unwrap();
    /// assert_eq!(flow.units, ["cfm", "L/min", "m³/h"]);
    /// assert_eq!(table.lists[0].most, 12);
    /// ```
    pub fn of(units: Units) -> Self {
        let rows = |section: &'static Section| section.fields.iter().map(move |field| (section, field));
        let lists = SECTIONS.into_iter().filter_map(|section| {
            let list = section.list?;
            Some(FieldList {
                path: section.path,
                one: list.one,
                many: list.many,
                most: list.most,
            })
        });
        Self {
            fields: SECTIONS
                .into_iter()
                .flat_map(rows)
                .map(|(section, field)| FieldRow::of(section, field, units))
                .collect(),
            lists: lists.collect(),
        }
    }
}

impl FieldRow {
    fn of(section: &Section, field: &Field, units: Units) -> Self {
        let (holds, figure) = match field.holds {
            Holds::Words => ("words", None),
            Holds::Choice => ("choice", None),
            Holds::Tick => ("tick", None),
            Holds::Figure { kind, low, high } => ("figure", Some((kind, low, high))),
        };
        let end = |value: f64, kind| write(kind, value, units);
        Self {
            path: match section.path {
                "" => field.key.to_owned(),
                path => format!("{path}.{}", field.key),
            },
            name: field.name,
            holds,
            unit: figure.map_or("", |(kind, ..)| bare_unit(kind, units)),
            units: figure.map_or_else(Vec::new, |(kind, ..)| printed_units(kind, units)),
            example: figure.map_or("", |(kind, ..)| kind.example(units)),
            low: figure.map_or_else(String::new, |(kind, low, _)| end(low, kind)),
            high: figure.map_or_else(String::new, |(kind, _, high)| end(high, kind)),
            most: field.most_characters(),
        }
    }
}

/// What labels print: both systems, and what is common beside them. Common practice, no source.
fn printed_units(kind: Kind, units: Units) -> Vec<&'static str> {
    let own = bare_unit(kind, units);
    let others = [Units::Us, Units::Metric].map(|other| bare_unit(kind, other));
    let beside: &[&str] = match kind {
        Kind::Flow => &["m³/h"],
        Kind::Power => &["W"],
        Kind::Pressure => &["kPa"],
        _ => &[],
    };
    let mut all = vec![own];
    all.extend(others.into_iter().filter(|other| *other != own));
    all.extend(beside);
    all.dedup();
    if all.len() > 1 { all } else { Vec::new() }
}

/// What a bare number is taken in.
///
/// ```
/// # use quantity::{Kind, Units, field::page::bare_unit};
/// assert_eq!((bare_unit(Kind::Flow, Units::Us), bare_unit(Kind::Flow, Units::Metric)), ("cfm", "L/min"));
/// ```
pub fn bare_unit(kind: Kind, units: Units) -> &'static str {
    if kind == Kind::WireArea && units == Units::Us {
        return "AWG";
    }
    kind.unit(units).shown
}
