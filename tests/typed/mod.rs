//! What several tests do: a text is typed into a field of a shop's file.

use serde_json::{Map, Value};

/// Puts a text at a path; a list grows by blank entries.
pub fn set(tree: &mut Value, path: &str, text: &str) {
    let mut at = tree;
    for step in path.split('.') {
        at = match step.parse::<usize>() {
            Ok(index) => {
                let list = at.as_array_mut().unwrap();
                while list.len() <= index {
                    list.push(Value::Object(Map::new()));
                }
                &mut list[index]
            }
            Err(_) => &mut at[step],
        };
    }
    *at = match text {
        "true" => Value::Bool(true),
        "false" => Value::Bool(false),
        _ => Value::from(text),
    };
}
