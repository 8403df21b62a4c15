//! A label and what is typed besides, as a shop; its answer, section by section.

use bellows::answer::report;
use bellows::answer::report::{Report, View};
use bellows::shop::{Shop, Units, file, label};
use serde_json::Value;

use crate::typed::set;

/// A first visit's shop with a label read into it and fields typed.
pub fn shop(units: Units, printed: &str, typed: &[(&str, &str)]) -> Shop {
    let mut shop = Shop::fresh_in(units);
    label::fill(&label::read_label(printed, units), &mut shop.candidates[0]);
    typed_into(&shop, typed)
}

/// A shop with fields typed into it.
pub fn typed_into(shop: &Shop, typed: &[(&str, &str)]) -> Shop {
    let mut tree: Value = serde_json::from_str(&file::to_json(shop)).unwrap();
    for (path, text) in typed {
        set(&mut tree, path, text);
    }
    file::from_json(&tree.to_string()).unwrap()
}

/// The whole answer.
pub fn answered(shop: &Shop) -> Report {
    report(shop, View::default())
}

/// All that a section says, what it rests on and its cautions left out; "head" is the first lines, "look for" the window.
pub fn said(report: &Report, id: &str) -> String {
    match id {
        "head" => {
            let answer = &report.answer;
            format!("{} {} {}", answer.sentence, answer.odds, answer.next)
        }
        "look for" => report.window.sentence.clone(),
        _ => {
            let sections = report.sections.iter().filter(|section| section.id == id);
            let texts = sections.flat_map(|section| {
                let findings = section.findings.iter().flat_map(|finding| {
                    let remedies = finding.remedies.iter().map(|remedy| remedy.label.clone());
                    std::iter::once(finding.text.clone()).chain(remedies)
                });
                std::iter::once(section.sentence.clone())
                    .chain(findings)
                    .collect::<Vec<_>>()
            });
            texts.collect::<Vec<_>>().join(" ")
        }
    }
}
