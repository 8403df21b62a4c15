//! A shop as JSON text: what local storage keeps and what is exported and imported.
//!
//! Text from outside is not trusted: it is bounded, its control characters go, and a refusal names the field.

use std::fmt;

use crate::{SCHEMA, Shop, record};
use quantity::field::{NAME_MAX, SECTIONS, TooMany};
use serde_json::Value;

/// Longest JSON that is read, bytes.
pub const FILE_MAX: usize = 200_000;

/// Why a text is no shop. `Display` is the sentence to show.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FileError {
    /// More than [`FILE_MAX`] bytes.
    TooBig {
        /// Its length, bytes.
        bytes: usize,
    },
    /// Not JSON, or not a JSON object.
    NotJson {
        /// Line of the fault, from 1.
        line: usize,
        /// Column of the fault.
        column: usize,
    },
    /// JSON, but no shop: it has no version.
    NoVersion,
    /// Written by a newer Bellows.
    Newer {
        /// Its schema.
        version: u64,
    },
    /// A list is longer than a shop may have.
    TooMany(TooMany),
    /// A text is longer than [`NAME_MAX`].
    TextTooLong {
        /// Path of the field.
        field: String,
        /// Its length, characters.
        length: usize,
    },
    /// A field holds what it cannot hold.
    BadField {
        /// Path of the field.
        field: String,
        /// What it holds, as JSON, shortened.
        read: String,
    },
}

impl fmt::Display for FileError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooBig { bytes } => {
                write!(
                    f,
                    "{bytes} bytes are too many for a shop: choose a file that Bellows has saved"
                )
            }
            Self::NotJson { line, column } => write!(
                f,
                "this is no shop profile, or it is damaged (line {line}, column {column}): choose a file that Bellows has saved"
            ),
            Self::NoVersion => {
                write!(
                    f,
                    "this is no shop profile, as it states no version: choose a file that Bellows has saved"
                )
            }
            Self::Newer { version } => write!(
                f,
                "this shop comes from a newer Bellows (version {version}, this one reads up to {SCHEMA}): load the newer page and try again"
            ),
            Self::TooMany(TooMany { list, count }) => {
                write!(
                    f,
                    "this shop has {count} {}: Bellows takes at most {}",
                    list.many, list.most
                )
            }
            Self::TextTooLong { field, length } => {
                write!(
                    f,
                    "the text in {field} has {length} characters: shorten it to {NAME_MAX}"
                )
            }
            Self::BadField { field, read } => {
                write!(
                    f,
                    "{field} holds {read}, which Bellows does not know there: correct it or leave it out"
                )
            }
        }
    }
}

impl std::error::Error for FileError {}

/// A shop as JSON with the field names of [`Shop`], one field a line; blank fields are left out.
///
/// Texts are cut to [`NAME_MAX`] and control characters go, so that what is written is read again, as long as it
/// stays below [`FILE_MAX`] and its lists within their limits.
pub fn to_json(shop: &Shop) -> String {
    pretty(&tree(shop))
}

/// The shop in a JSON text. Unknown fields are ignored, missing ones are blank, `chosen` is kept within the list.
///
/// # Errors
/// [`FileError`], which says what was read and what would do.
///
/// # Example
/// ```
/// # use shop::file::{FileError, from_json};
/// let shop = from_json(r#"{ "version": 1, "name": "Hangar 7", "chosen": 9 }"#)?;
/// assert_eq!((shop.name.as_str(), shop.chosen), ("Hangar 7", 0));
/// let refused = from_json(r#"{ "version": 1, "tasks": [{ "kind": "nailer" }] }"#).unwrap_err();
/// assert_eq!(refused, FileError::BadField { field: "tasks[0].kind".into(), read: "\"nailer\"".into() });
/// # Ok::<(), FileError>(())
/// ```
pub fn from_json(text: &str) -> Result<Shop, FileError> {
    if text.len() > FILE_MAX {
        return Err(FileError::TooBig { bytes: text.len() });
    }
    shop_of(parsed(text)?)
}

/// A JSON text as a tree. How deep it may nest is bounded by the reader of JSON, at 128.
pub fn parsed(text: &str) -> Result<Value, FileError> {
    serde_json::from_str(text).map_err(|error| FileError::NotJson {
        line: error.line(),
        column: error.column(),
    })
}

/// The shop in a tree.
pub(crate) fn shop_of(mut value: Value) -> Result<Shop, FileError> {
    check_version(&value)?;
    check_lists(&value)?;
    tidy(&mut value);
    check_texts(&value, "")?;
    let mut shop = in_tree(&value)?;
    shop.version = SCHEMA;
    shop.chosen = shop.chosen.min(shop.candidates.len().saturating_sub(1));
    Ok(shop)
}

/// A shop as a tree without blank fields, texts bounded, stamped with the schema that this build writes.
#[expect(
    clippy::disallowed_methods,
    reason = "a record of texts, numbers and truth values always has a form in JSON"
)]
pub(crate) fn tree(shop: &Shop) -> Value {
    let mut value = serde_json::to_value(shop).unwrap_or_default();
    tidy(&mut value);
    prune(&mut value);
    if let Value::Object(fields) = &mut value {
        fields.insert("version".to_owned(), SCHEMA.into());
    }
    value
}

/// A tree as text, one field a line.
pub(crate) fn pretty(value: &Value) -> String {
    format!("{value:#}")
}

/// Whether a tree is an object of a version that this build reads.
pub(crate) fn check_version(value: &Value) -> Result<(), FileError> {
    let Value::Object(fields) = value else {
        return Err(FileError::NotJson { line: 1, column: 1 });
    };
    let version = fields.get("version").ok_or(FileError::NoVersion)?;
    match version.as_u64() {
        Some(version) if version <= u64::from(SCHEMA) => Ok(()),
        Some(version) => Err(FileError::Newer { version }),
        None => Err(bad_field("version", version)),
    }
}

fn check_lists(fields: &Value) -> Result<(), FileError> {
    for section in SECTIONS {
        let Some((list, items)) = section
            .list
            .zip(fields.get(section.path).and_then(Value::as_array))
        else {
            continue;
        };
        list.check(items.len()).map_err(FileError::TooMany)?;
    }
    Ok(())
}

/// The shop in a tree of its fields, as it stands there.
///
/// # Errors
/// [`FileError::BadField`] names the first field that cannot hold what stands there.
pub fn in_tree(tree: &Value) -> Result<Shop, FileError> {
    let mut shop = Shop::default();
    record::read(&mut shop, tree, "")?;
    Ok(shop)
}

fn check_texts(value: &Value, path: &str) -> Result<(), FileError> {
    match value {
        Value::String(text) => match text.chars().count() {
            length if length > NAME_MAX => Err(FileError::TextTooLong {
                field: path.to_owned(),
                length,
            }),
            _ => Ok(()),
        },
        Value::Array(items) => items
            .iter()
            .enumerate()
            .try_for_each(|(i, item)| check_texts(item, &format!("{path}[{i}]"))),
        Value::Object(fields) => fields
            .iter()
            .try_for_each(|(name, field)| check_texts(field, &below(path, name))),
        _ => Ok(()),
    }
}

/// Takes out what a field cannot show or what would turn its neighbours round: control and direction characters.
fn tidy(value: &mut Value) {
    match value {
        Value::String(text) => text.retain(is_shown),
        Value::Array(items) => items.iter_mut().for_each(tidy),
        Value::Object(fields) => fields.values_mut().for_each(tidy),
        _ => {}
    }
}

fn is_shown(c: char) -> bool {
    !c.is_control() && !matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// Takes out blank fields and cuts long texts; entries of a list keep their places.
fn prune(value: &mut Value) {
    match value {
        Value::String(text) => {
            if let Some((end, _)) = text.char_indices().nth(NAME_MAX) {
                text.truncate(end);
            }
        }
        Value::Array(items) => items.iter_mut().for_each(prune),
        Value::Object(fields) => {
            fields.values_mut().for_each(prune);
            fields.retain(|_, field| !is_blank(field));
        }
        _ => {}
    }
}

fn is_blank(value: &Value) -> bool {
    match value {
        Value::Null => true,
        Value::Bool(on) => !on,
        Value::Number(number) => number.as_u64() == Some(0),
        Value::String(text) => text.is_empty(),
        Value::Array(items) => items.is_empty(),
        Value::Object(fields) => fields.is_empty(),
    }
}

pub(crate) fn below(path: &str, name: &str) -> String {
    if path.is_empty() {
        name.to_owned()
    } else {
        format!("{path}.{name}")
    }
}

/// The refusal of what a field holds.
pub fn bad_field(field: &str, value: &Value) -> FileError {
    const SHOWN: usize = 40;
    let text = value.to_string();
    let mut read: String = text.chars().take(SHOWN).collect();
    if read.len() < text.len() {
        read.push('…');
    }
    FileError::BadField {
        field: field.to_owned(),
        read,
    }
}
