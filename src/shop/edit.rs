//! A shop with other texts in some of its fields, by path: what a form, a fix or a test sets.

use std::fmt;

use quantity::field::page::bare_unit;
use quantity::field::{self, Holds};
use quantity::{Kind, Units};
use serde_json::Value;

use crate::change::Change;
use crate::{Shop, TaskKind, file, word};

/// No field of the shop bears this path, or none that takes a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NoSuchField {
    /// The path.
    pub path: String,
}

impl fmt::Display for NoSuchField {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "a shop has no field “{}”", self.path)
    }
}

/// The shop with some fields changed. A switch takes "true" or "false".
///
/// # Errors
/// [`NoSuchField`] for a path that the shop does not have; nothing is changed then.
///
/// ```
/// # use shop::{Shop, change::Change, edit::with};
/// let change = |field: &str, text: &str| Change { field: field.into(), text: text.into() };
/// let shop = with(&Shop::fresh(), &[change("places.0.breaker", "20 A"), change("tasks.0.on", "false")])?;
/// assert!(shop.places[0].breaker == "20 A" && !shop.tasks[0].on);
/// assert!(with(&shop, &[change("places.7.breaker", "20 A")]).is_err());
/// # Ok::<(), shop::edit::NoSuchField>(())
/// ```
pub fn with(shop: &Shop, changes: &[Change]) -> Result<Shop, NoSuchField> {
    let refused = |path: &str| NoSuchField { path: path.into() };
    let mut tree = tree_of(shop);
    for Change { field, text } in changes {
        let pointer = format!("/{}", field.replace('.', "/"));
        let at = tree.pointer_mut(&pointer).ok_or_else(|| refused(field))?;
        *at = match at {
            Value::Bool(_) => Value::Bool(text == "true"),
            _ => Value::from(text.as_str()),
        };
    }
    file::in_tree(&tree).map_err(|_| refused(""))
}

/// A shop as a tree of its fields.
pub fn tree_of(shop: &Shop) -> Value {
    // Every field is a text, a switch, a number or a list of such: none of them can be refused.
    serde_json::to_value(shop).unwrap_or(Value::Null)
}

/// The text in a field, "true" or "false" for a switch; blank where the shop has no such field.
///
/// ```
/// # use shop::{Shop, edit::text_at};
/// assert_eq!((text_at(&Shop::fresh(), "places.0.name"), text_at(&Shop::fresh(), "places.7.name")), ("Garage".into(), String::new()));
/// ```
pub fn text_at(shop: &Shop, field: &str) -> String {
    match tree_of(shop).pointer(&format!("/{}", field.replace('.', "/"))) {
        Some(Value::String(text)) => text.clone(),
        Some(Value::Bool(on)) => on.to_string(),
        _ => String::new(),
    }
}

/// The shop with an entry put into one of its lists.
///
/// # Errors
/// [`NoSuchField`] where it has no such list, or the entry is none of it.
pub fn with_entry(shop: &Shop, list: &str, index: usize, entry: Value) -> Result<Shop, NoSuchField> {
    let refused = || NoSuchField { path: list.into() };
    let mut tree = tree_of(shop);
    let entries = tree
        .get_mut(list)
        .and_then(Value::as_array_mut)
        .ok_or_else(refused)?;
    entries.insert(index.min(entries.len()), entry);
    file::in_tree(&tree).map_err(|_| refused())
}

/// The shop in other units, where what was typed keeps its meaning: a bare number is first given the unit that it was
/// taken in.
///
/// ```
/// # use shop::{Shop, Units, edit::in_units};
/// let mut shop = Shop::fresh();
/// (shop.candidates[0].flow, shop.candidates[0].tank) = ("4.2".into(), "75 L".into());
/// let metric = in_units(&shop, Units::Metric);
/// assert_eq!((&*metric.candidates[0].flow, &*metric.candidates[0].tank), ("4.2 cfm", "75 L"));
/// ```
pub fn in_units(shop: &Shop, units: Units) -> Shop {
    let from = shop.units;
    if from == units {
        return shop.clone();
    }
    let mut tree = tree_of(shop);
    pin(&mut tree, &mut Vec::new(), "", (from, units));
    // A shop always goes there and back: were that not so, the plain change of units would be the next best.
    let pinned = file::in_tree(&tree).unwrap_or_else(|_| shop.clone());
    Shop { units, ..pinned }
}

/// Goes through a tree of texts and gives bare numbers their unit; `kind` is that of the part that is being gone through.
fn pin(at: &mut Value, path: &mut Vec<String>, kind: &str, systems: (Units, Units)) {
    match at {
        Value::Object(parts) => {
            let kind = parts
                .get("kind")
                .and_then(Value::as_str)
                .unwrap_or(kind)
                .to_owned();
            for (key, part) in parts {
                path.push(key.clone());
                pin(part, path, &kind, systems);
                path.pop();
            }
        }
        // The table of fields knows a list's entries by their list.
        Value::Array(parts) => parts.iter_mut().for_each(|part| pin(part, path, kind, systems)),
        Value::String(text) => {
            if let Some(unit) = unit_lost(&path.join("."), kind, systems).filter(|_| is_bare(text)) {
                *text = format!("{} {unit}", text.trim());
            }
        }
        _ => {}
    }
}

/// The unit that a bare number of a field has in the first system and not in the second.
fn unit_lost(path: &str, kind: &str, (from, to): (Units, Units)) -> Option<&'static str> {
    let Holds::Figure { kind: figure, .. } = field::find(path)?.holds else {
        return None;
    };
    let strokes = word::named::<TaskKind>(kind).is_some_and(TaskKind::by_stroke);
    let figure = match (path, strokes) {
        ("tasks.flow", true) => Kind::StrokeVolume,
        _ => figure,
    };
    let unit = bare_unit(figure, from);
    // Money counts the same in both.
    (figure != Kind::Money && unit != bare_unit(figure, to)).then_some(unit)
}

/// Whether a text is a number without a unit.
fn is_bare(text: &str) -> bool {
    let text = text.trim();
    text.ends_with(|c: char| c.is_ascii_digit())
        && text.chars().all(|c| c.is_ascii_digit() || "+-.,/ ".contains(c))
}
