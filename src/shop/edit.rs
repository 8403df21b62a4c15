//! A shop with other texts in some of its fields, by path: what a form, a fix or a test sets.

use std::fmt;

use serde_json::Value;

use crate::Shop;
use crate::change::Change;

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
    let mut tree = serde_json::to_value(shop).map_err(|_| refused(""))?;
    for Change { field, text } in changes {
        let pointer = format!("/{}", field.replace('.', "/"));
        let at = tree.pointer_mut(&pointer).ok_or_else(|| refused(field))?;
        *at = match at {
            Value::Bool(_) => Value::Bool(text == "true"),
            _ => Value::from(text.as_str()),
        };
    }
    serde_json::from_value(tree).map_err(|_| refused(""))
}
