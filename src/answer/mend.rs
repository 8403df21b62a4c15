//! What would mend what limits, each as a change that the page can try on.

use super::words::{Words, capital};
use crate::report::{Finding, Grade, Remedy, Section};
use judge::assess::Facts;
use judge::assess::remedy::{PowerRemedies, TaskRemedies, power_remedies, task_remedies};
use judge::basis::{Basis, CandidateBasis};
use physics::circuit::PLUG_LOAD_SHARE;
use quantity::{FreeAir, Gauge, Kind, M3_PER_GALLON};
use shop::change::Change;

fn remedy(label: String, field: String, text: String) -> Remedy {
    Remedy {
        label,
        changes: vec![Change { field, text }],
    }
}

/// What would mend a place's circuit.
pub fn of_power(
    words: Words,
    basis: &Basis,
    candidate: &CandidateBasis,
    facts: &Facts,
    place: usize,
) -> Vec<Remedy> {
    let Some((at, power)) = basis
        .places
        .get(place)
        .zip(facts.places.get(place).and_then(|found| found.power.as_ref()))
    else {
        return Vec::new();
    };
    let field = |name: &str| format!("places.{place}.{name}");
    let PowerRemedies {
        cord,
        cord_length_m,
        others_off,
        breaker_a,
        volts,
    } = power_remedies(at, candidate, power);
    let mut remedies = Vec::new();
    if let Some(gauge) = cord {
        let text = words.cord_enough(gauge.area_m2());
        remedies.push(remedy(format!("a cord of {text}"), field("cord_gauge"), text));
    }
    if let Some(length) = cord_length_m {
        let text = words.of(Kind::Length, rounded_down(words, length));
        remedies.push(remedy(
            format!("this cord cut to {text}, and more air hose"),
            field("cord_length"),
            text,
        ));
    }
    if others_off {
        remedies.push(remedy(
            "everything else on that breaker off".into(),
            field("other_load"),
            words.amps(0.0),
        ));
    }
    if let Some(rating) = breaker_a {
        let text = words.amps(rating);
        remedies.push(remedy(
            format!("an outlet on a {text} circuit, by an electrician"),
            field("breaker"),
            text,
        ));
    }
    if let Some(volts) = volts {
        remedies.push(other_voltage(words, basis, candidate, place, volts));
    }
    remedies
}

/// A whole step below, so that the figure still does after rounding: 5 ft, or 1 m.
fn rounded_down(words: Words, length_m: f64) -> f64 {
    let step = if words.units == shop::Units::Us {
        5.0 * 0.3048
    } else {
        1.0
    };
    ((length_m / step).floor() * step).max(step)
}

/// Breakers of circuits that serve one machine, A.
const OWN_BREAKERS_A: [f64; 4] = [15.0, 20.0, 30.0, 50.0];

/// A circuit of the other voltage with nothing else on it; a machine that is plated for the lower one draws that much less on it.
fn other_voltage(
    words: Words,
    basis: &Basis,
    candidate: &CandidateBasis,
    place: usize,
    volts: f64,
) -> Remedy {
    let text = words.volts(volts);
    let amps = candidate
        .amps
        .map_or(0.0, |amps| amps * candidate.volts.value / volts);
    let breaker = OWN_BREAKERS_A
        .into_iter()
        .find(|rating| amps <= PLUG_LOAD_SHARE * rating);
    let of_place = |name: &str, text: String| Change {
        field: format!("places.{place}.{name}"),
        text,
    };
    let mut changes = vec![
        of_place("volts", text.clone()),
        of_place("other_load", words.amps(0.0)),
    ];
    changes.extend(breaker.map(|rating| of_place("breaker", words.amps(rating))));
    let mut label = format!("a {text} circuit of its own, by an electrician");
    if (candidate.volts.value / volts - 1.0).abs() > 0.1 {
        let own = |name: &str| format!("candidates.{}.{name}", basis.chosen);
        changes.push(Change {
            field: own("volts"),
            text,
        });
        if let Some(amps) = candidate.amps {
            let amps = words.amps(amps * candidate.volts.value / volts);
            label = format!("{label}, if the motor can be wired for it ({amps})");
            changes.push(Change {
                field: own("amps"),
                text: amps,
            });
        }
    }
    Remedy { label, changes }
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
        (found.trunk_bore_m, "trunk_bore", "trunk hose"),
        (found.whip_bore_m, "whip_bore", "whip"),
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
            format!("an auxiliary receiver of {text}"),
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
        let remedies = of_power(words, basis, candidate, facts, place);
        findings.push(Finding {
            id: format!("mend-power-{place}"),
            text: format!("{}: {}", basis.places[place].name, circuit.text),
            remedies,
            ..circuit.clone()
        });
    }
    // Where the flow is a guess there is no one verdict to mend.
    if let Some((place, task)) = worst.filter(|_| facts.supply.range().is_none()) {
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
            vec!["An auxiliary receiver needs a code stamp, its own relief valve and a rated pressure not below cut-out.".into()]
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
        grade: super::tasks::grade(row.outcome),
        text: format!(
            "{} at “{}”: {}.{none}",
            capital(name),
            basis.places[place].name,
            super::tasks::verdict(row.outcome)
        ),
        basis: format!(
            "tried on the same run of tank and tool, tanks from {} to {}",
            words.volume(judge::window::TANKS_GAL[0] * M3_PER_GALLON),
            words.volume(judge::window::TANKS_GAL[judge::window::TANKS_GAL.len() - 1] * M3_PER_GALLON)
        ),
        remedies,
    })
}
