//! Records as JSON and back, beside `serde_json`, a general-purpose reader and writer of RFC 8259.

use bellows::json::{self, NotJson, Tree, Wrong};
use bellows::report::{Fault, Label, View};
use bellows::shop::{Shop, Task, TaskKind};
use proptest::prelude::*;
use serde_json::{Value, json};

fn tree(value: &dyn json::Write) -> serde_json::Result<Value> {
    serde_json::from_str(&json::text(value))
}

proptest! {
    /// Every character has a form, those that RFC 8259 wants escaped too.
    #[test]
    fn any_text_is_read_as_it_was_written(field in any::<String>(), message in "[\\x00-\\x7f]*") {
        let fault = Fault { field: field.clone(), message: message.clone() };
        prop_assert_eq!(tree(&fault)?, json!({ "field": field, "message": message }));
    }

    /// To half a thousandth and the last digit of either.
    #[test]
    fn any_place_in_a_picture_is_read_as_it_was_written(x in -1e5..1e5) {
        let label = Label { text: String::new(), style: String::new(), at: [x, 0.0] };
        let read = tree(&label)?["at"][0].as_f64();
        prop_assert!(read.is_some_and(|read| (read - x).abs() < 5.001e-4), "{:?}", read);
    }
}

/// Any JSON, names that come twice left out: `serde_json` keeps one of them.
fn any_json() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<i64>().prop_map(Value::from),
        any::<f64>().prop_map(Value::from),
        any::<String>().prop_map(Value::from),
    ];
    leaf.prop_recursive(4, 40, 6, |inner| {
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..6).prop_map(Value::from),
            prop::collection::hash_map("[a-c\\\\\"é😀]{0,3}", inner, 0..6)
                .prop_map(|fields| Value::Object(fields.into_iter().collect())),
        ]
    })
}

proptest! {
    /// Both layouts, written and read both ways round.
    #[test]
    fn any_json_is_read_as_by_another_reader(value in any_json()) {
        for text in [value.to_string(), serde_json::to_string_pretty(&value)?] {
            let tree = Tree::parse(&text).map_err(|at| TestCaseError::fail(format!("{at:?} in {text}")))?;
            for written in [json::text(&tree), tree.pretty()] {
                prop_assert_eq!(serde_json::from_str::<Value>(&written)?, serde_json::from_str::<Value>(&text)?);
                prop_assert_eq!(Tree::parse(&written), Ok(tree.clone()));
            }
        }
    }

    /// Text of JSON's own characters, mostly broken: taken and refused as by the other reader.
    #[test]
    fn what_is_no_json_is_refused_as_by_another_reader(text in "([\\[\\]{},:\"\\\\u0-9d8cef.+-]|true|null|\"a\"| |\n){0,12}") {
        // It also refuses what no f64 holds, and that alone.
        let other = serde_json::from_str::<Value>(&text);
        let too_large = other.as_ref().is_err_and(|error| error.to_string().contains("out of range"));
        prop_assert_eq!(Tree::parse(&text).is_ok(), other.is_ok() || too_large, "{}", text);
    }

    #[test]
    fn any_text_at_all_is_read_or_refused(text in any::<String>()) {
        prop_assert_eq!(Tree::parse(&text).is_ok(), serde_json::from_str::<Value>(&text).is_ok());
    }
}

/// RFC 8259, sections 3 to 7: each with why it is refused.
#[test]
fn the_grammar_s_corners_are_kept() {
    let good = [
        (r#""\ud834\udd1e""#, "\u{1d11e}"), // section 7's own example, the G clef
        (r#""\u00e9\/\b\f\n\r\t""#, "é/\u{8}\u{c}\n\r\t"),
    ];
    for (text, read) in good {
        assert_eq!(Tree::parse(text), Ok(Tree::String(read.into())));
    }
    let bad = [
        (r#""\ud834""#, 8), // half a pair
        (r#""\udd1e""#, 8), // the wrong half
        ("\"\t\"", 2),      // a control character as it is
        ("012", 2),         // a leading nought
        ("1.", 2),
        (".5", 1),
        ("+1", 1),
        ("[1,]", 4),
        ("{\"a\" 1}", 6),
        ("[] []", 4),
        ("tru", 3),
        ("\u{feff}1", 1), // a mark of byte order
        ("", 0),
    ];
    for (text, column) in bad {
        assert_eq!(Tree::parse(text), Err(NotJson { line: 1, column }), "{text}");
    }
}

#[test]
fn depth_is_bounded() {
    let nested = |depth: usize| "[".repeat(depth) + &"]".repeat(depth);
    assert!(Tree::parse(&nested(128)).is_ok());
    assert!(Tree::parse(&nested(129)).is_err());
    assert!(Tree::parse(&"[".repeat(1_000_000)).is_err());
}

#[test]
fn of_two_fields_of_one_name_the_last_counts() {
    let tree = Tree::parse(r#"{ "a": 1, "a": 2 }"#).unwrap();
    assert_eq!(tree.get("a").and_then(Tree::as_count), Some(2));
}

#[test]
fn none_and_what_is_not_finite_are_null() {
    let label = Label {
        text: String::new(),
        style: String::new(),
        at: [f64::NAN, f64::INFINITY],
    };
    assert_eq!(tree(&label).unwrap()["at"], json!([null, null]));
    assert_eq!(
        tree(&View::default()).unwrap(),
        json!({ "place": 0, "task": null })
    );
}

#[test]
fn what_is_missing_stays_and_what_is_unknown_is_ignored() {
    let mut task = Task {
        flow: "4 cfm".into(),
        ..Task::default()
    };
    let partial = json!({ "kind": "sander", "wings": 2 });
    let partial = Tree::parse(&partial.to_string()).unwrap();
    json::Read::read(&mut task, &partial).unwrap();
    assert_eq!((task.kind, task.flow.as_str()), (TaskKind::Sander, "4 cfm"));
}

#[test]
fn a_value_in_the_wrong_place_is_named_by_its_path() {
    let cases = [
        (json!([]), ""),
        (json!({ "name": null }), "name"),
        (json!({ "chosen": -1 }), "chosen"),
        (json!({ "chosen": 1.5 }), "chosen"),
        (json!({ "version": 4_294_967_296_u64 }), "version"),
        (json!({ "line": { "droop": 1 } }), "line.droop"),
        (json!({ "places": {} }), "places"),
        (json!({ "places": [{}, { "boxed": "yes" }] }), "places[1].boxed"),
        (json!({ "tasks": [["drill"]] }), "tasks[0]"),
        (json!({ "tasks": [{ "kind": "Drill" }] }), "tasks[0].kind"),
    ];
    for (tree, field) in cases {
        let tree = Tree::parse(&tree.to_string()).unwrap();
        let wrong: Wrong<'_> = json::value::<Shop>(&tree).unwrap_err();
        assert_eq!(wrong.field, field);
    }
}
