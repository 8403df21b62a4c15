//! What would mend what limits, each as a change that the page can try on.

use super::words::{Words, capital};
use crate::report::{Finding, Grade, Remedy, Section};
use judge::assess::Facts;
use judge::assess::remedy::{TaskRemedies, task_remedies};
use judge::basis::{Basis, CandidateBasis};
use quantity::{FreeAir, Gauge, Kind, M3_PER_GALLON};
use shop::change::Change;

fn remedy(label: String, field: String, text: String) -> Remedy {
    Remedy {
        label,
        changes: vec![Change { field, text }],
    }
}

fn of_task(
    words: Words,
    basis: &Basis,
    candidate: &CandidateBasis,
    facts: &Facts,
    task: usize,
    found: &TaskRemedies,
) -> Vec<Remedy> {
    let mut remedies = Vec::new();
    let index = basis.tasks[task].index;
    for (bore, field, name) in [
        (found.trunk_bore_m, "trunk_bore", "main hose"),
        (found.whip_bore_m, "whip_bore", "whip hose"),
    ] {
        if let Some(bore) = bore {
            let text = words.of(Kind::Bore, bore);
            remedies.push(remedy(format!("a {text} {name}"), format!("line.{field}"), text));
        }
    }
    if let Some(volume) = found.auxiliary_m3 {
        let present = basis.auxiliary.as_ref().map_or(0.0, |tank| tank.tank_m3);
        let text = words.volume_enough(volume + present);
        remedies.push(remedy(
            format!("a second tank of {text}, stamped for it"),
            "auxiliary.tank".into(),
            text,
        ));
    }
    if let Some(off) = found.off_s {
        let text = words.of(Kind::Duration, off.ceil());
        remedies.push(remedy(
            format!("an easier rhythm: {text} between pulls of the trigger"),
            format!("tasks.{index}.trigger_off"),
            text,
        ));
    }
    if let (Some(factor), Some(pump)) = (found.flow_factor, facts.supply.likely()) {
        let at = Gauge::psi(90.0);
        let flow = FreeAir::cfm(pump.rated(at).as_cfm() * factor);
        let own = |name: &str| format!("candidates.{}.{name}", basis.chosen);
        let texts = [
            ("flow", words.flow_enough(flow)),
            ("at", words.pressure(at)),
            ("flow2", String::new()),
            ("pump_up", String::new()),
        ];
        remedies.push(Remedy {
            label: format!(
                "a machine that delivers {} on this tank of {}",
                words.flow_enough(flow),
                words.volume(candidate.tank_m3.value)
            ),
            changes: texts
                .into_iter()
                .map(|(name, text)| Change {
                    field: own(name),
                    text,
                })
                .collect(),
        });
    }
    remedies
}

/// The section: what limits in air and in power, and what would mend each.
pub fn section(
    words: Words,
    basis: &Basis,
    candidate: &CandidateBasis,
    facts: &Facts,
    circuits: &[Finding],
    worst: Option<(usize, usize)>,
) -> Option<Section> {
    let mut findings = Vec::new();
    for (place, circuit) in circuits
        .iter()
        .enumerate()
        .filter(|(_, circuit)| circuit.grade >= Grade::Fair)
    {
        let remedies = super::power::remedies(words, basis, basis.chosen, place, &facts.places[place].power);
        findings.push(Finding {
            id: format!("mend-power-{place}"),
            text: format!("{}: {}", basis.places[place].name, circuit.text),
            remedies,
            ..circuit.clone()
        });
    }
    // Where the flow is a guess there is no one verdict to mend.
    if let Some((place, task)) = worst.filter(|_| {
        facts.supply.range().is_none()
            && facts
                .verdict
                .as_ref()
                .is_some_and(|verdict| verdict.asks.is_none())
    }) {
        findings.extend(air_finding(words, basis, candidate, facts, place, task));
    }
    let grade = findings.iter().map(|finding| finding.grade).max()?;
    let changes = findings
        .iter()
        .flat_map(|finding| &finding.remedies)
        .flat_map(|remedy| &remedy.changes);
    let receiver = changes
        .into_iter()
        .any(|change| change.field.starts_with("auxiliary."));
    Some(Section {
        id: "mend".into(),
        title: "What would mend it".into(),
        grade,
        sentence: "Each of these is the smallest that does by the same sums; try one on and see the whole answer change.".into(),
        findings,
        cautions: if receiver {
            vec!["A second tank needs a stamp not below the compressor’s max pressure, and its own relief valve.".into()]
        } else {
            Vec::new()
        },
        ..Section::default()
    })
}

fn air_finding(
    words: Words,
    basis: &Basis,
    candidate: &CandidateBasis,
    facts: &Facts,
    place: usize,
    task: usize,
) -> Option<Finding> {
    let found = task_remedies(basis, candidate, facts, place, task)?;
    let row = facts.places[place].tasks.iter().find(|row| row.task == task)?;
    let remedies = of_task(words, basis, candidate, facts, task, &found);
    let name = &basis.tasks[task].name;
    let none = if remedies.is_empty() {
        " Nothing small mends that: it takes another kind of supply, or another tool.".to_owned()
    } else {
        String::new()
    };
    Some(Finding {
        id: "mend-air".into(),
        grade: super::tasks::grade(&row.record),
        text: format!(
            "{} at “{}”: {}.{none}",
            capital(name),
            basis.places[place].name,
            super::tasks::verdict(&row.record)
        ),
        basis: format!(
            "tried on the same run of tank and tool, tanks from {} to {}",
            words.volume(judge::window::TANKS_GAL[0] * M3_PER_GALLON),
            words.volume(judge::window::TANKS_GAL[judge::window::TANKS_GAL.len() - 1] * M3_PER_GALLON)
        ),
        remedies,
    })
}
