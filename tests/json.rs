//! Records as JSON and back, beside `serde_json`, a general-purpose reader and writer of RFC 8259.

use bellows::answer::report::{Label, View};
use bellows::quantity::json::{self, Wrong};
use bellows::shop::change::Fault;
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
        let wrong: Wrong<'_> = json::value::<Shop>(&tree).unwrap_err();
        assert_eq!(wrong.field, field);
    }
}
