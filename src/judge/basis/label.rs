//! What a label and a plate say.

use super::plate;
use super::reader::Reader;
use super::vessel::{Vessel, relief, stamp};
use super::{CandidateBasis, StartClue};
use quantity::around::{figure_first, two_figures, without};
use quantity::field::Bears;
use quantity::{FreeAir, Gauge, Kind, M3_PER_GALLON, Origin, PA_PER_PSI, bare_number, read_flow_at, write};
use shop::pumps::{PumpKind, pump_kind};
use shop::{Candidate, MachineKind};

/// Flows of the label: "5.1 cfm @ 90 psi" in one field, or flow and pressure in two.
fn label_flow(
    reader: &mut Reader,
    names: [&str; 2],
    texts: [&str; 2],
    typical_at_psi: f64,
    pump: Option<PumpKind>,
) -> Option<(FreeAir, Gauge, bool)> {
    if two_figures(texts[0]) {
        let message = format!(
            "“{}” is two figures: write the one of this pressure here, the other under “More from the plate”",
            texts[0].trim()
        );
        reader.refuse(names[0], message);
        return None;
    }
    let read = read_flow_at(&figure_first(texts[0].trim()), reader.units);
    let read = reader.noted(names[0], read);
    let at = flow_pressure(reader, names[1], texts[1], pump).or(read.and_then(|(_, at)| at));
    let (flow, _) = read?;
    let stated = at.is_some();
    let at = at.unwrap_or_else(|| reader.take(names[1], typical_at_psi * PA_PER_PSI).value);
    Some((FreeAir::m3_s(flow), Gauge::pa(at), stated))
}

/// No one-stage machine's flow is stated at more, psi: from here on it is the tank's limit. Common practice, no source.
const TANK_MAX_PSI: f64 = 140.0;

/// The pressure at which a flow is stated. The tank's limit is what a hurried eye finds first.
fn flow_pressure(reader: &mut Reader, name: &str, text: &str, pump: Option<PumpKind>) -> Option<f64> {
    let shown = text.trim();
    if two_figures(shown) {
        reader.refuse(
            name,
            format!("“{shown}” is two figures: which of them stands beside this flow?"),
        );
        return None;
    }
    if shown.to_ascii_lowercase().contains("max") {
        reader.refuse(
            name,
            format!("“{shown}” is the most that the tank gets: what pressure stands beside the flow?"),
        );
        return None;
    }
    let at = reader.get(name, text)?;
    let lasting = matches!(pump, Some(PumpKind::TwoStage | PumpKind::Rotary));
    if at > TANK_MAX_PSI * PA_PER_PSI && !lasting {
        let usual = write(Kind::Pressure, 90.0 * PA_PER_PSI, reader.units);
        reader.refuse(
            name,
            format!("“{shown}” looks like the most that the tank gets: what pressure stands beside the flow? Usually {usual}; for a two-stage pump type that under pump"),
        );
        return None;
    }
    Some(at)
}

/// Cut-in and cut-out. The switch usually opens near 120 psi, 175 in two-stage machines, and closes 30 psi lower:
/// common practice, no source.
fn switch(reader: &mut Reader, candidate: &Candidate) -> (Gauge, Gauge, [Origin; 2]) {
    let usual_out = if candidate.kind == MachineKind::PistonTwoStage {
        175.0
    } else {
        120.0
    } * PA_PER_PSI;
    let band = 30.0 * PA_PER_PSI;
    let out = reader.given("cut_out", &candidate.cut_out);
    let cut_in = reader.given("cut_in", &candidate.cut_in);
    let cut_in = match (cut_in, out) {
        (Some(low), Some(high)) if low.value >= high.value => {
            let [low, high] = [low, high].map(|at| write(Kind::Pressure, at.value, reader.units));
            reader.refuse("cut_in", format!("cut-in {low} is not below cut-out {high}: the switch could never open; are the two swapped?"));
            None
        }
        _ => cut_in,
    };
    let out = out.unwrap_or_else(|| {
        let above = cut_in.map_or(0.0, |low| low.value + band);
        reader.take("cut_out", usual_out.max(above))
    });
    let usual_in = (out.value - band).max(0.6 * out.value);
    let cut_in = cut_in.unwrap_or_else(|| reader.take("cut_in", usual_in));
    let origins = [cut_in.origin, out.origin];
    (Gauge::pa(cut_in.value), Gauge::pa(out.value), origins)
}

/// Words around a motor's start on a plate: "LRA 60", "code G".
const START_WORDS: [&str; 10] = [
    "lra", "l.r.a", "locked", "rotor", "starting", "start", "inrush", "kva", "code", "letter",
];

fn start_clue(reader: &mut Reader, text: &str) -> StartClue {
    let text = &*without(text.trim(), &START_WORDS);
    let mut letters = text.chars();
    match (letters.next(), letters.next()) {
        (None, _) => return StartClue::Unknown,
        (Some('?' | '-'), None) => return StartClue::Unknown,
        (Some(letter), None) if letter.is_ascii_alphabetic() => {
            return StartClue::Letter(letter.to_ascii_uppercase());
        }
        _ => {}
    }
    if let Some(number) = text.strip_suffix(['x', 'X', '×']) {
        let multiple = bare_number(number).filter(|multiple| (1.0..=20.0).contains(multiple));
        if let Some(multiple) = multiple {
            return StartClue::Multiple(multiple);
        }
        reader.refuse(
            "start",
            format!("“{text}” is no multiple of the running current: use 1x to 20x, e.g. 6x"),
        );
        return StartClue::Unknown;
    }
    match reader.get("start", text) {
        Some(amps) => StartClue::Amps(amps),
        None => StartClue::Unknown,
    }
}

/// Share of time that a pump usually may run; where its kind is untold, between the 50 % of oil-free pumps and the 75 % of
/// the best with a belt. Common practice, no source.
fn usual_duty(pump: Option<PumpKind>) -> f64 {
    pump.map_or(0.6, |pump| pump.traits().duty[1])
}

fn vessel(reader: &mut Reader, candidate: &Candidate) -> Vessel {
    Vessel {
        stamp: stamp(reader, "stamp", &candidate.stamp),
        relief: relief(reader, "relief", &candidate.relief),
    }
}

pub(super) fn candidate_basis(
    reader: &mut Reader,
    candidate: &Candidate,
    usual_volts: f64,
) -> CandidateBasis {
    let pump = pump_kind(&candidate.pump, candidate.kind);
    let first = label_flow(
        reader,
        ["flow", "at"],
        [&candidate.flow, &candidate.at],
        90.0,
        pump,
    );
    let second = label_flow(
        reader,
        ["flow2", "at2"],
        [&candidate.flow2, &candidate.at2],
        40.0,
        pump,
    );
    let (cut_in, cut_out, switch_origins) = switch(reader, candidate);
    let sound_at = reader.or("sound_at", &candidate.sound_at, 1.0);
    let sound = reader.get("sound", &candidate.sound);
    let (printed_volts, three_phase) = plate::three_phase(&candidate.volts);
    let connections = plate::connections(reader, &printed_volts, &candidate.amps);
    let (volts, amps) = plate::pair(reader, &printed_volts, &candidate.amps, usual_volts);
    let power_w = reader.get("power", &candidate.power);
    let start = start_clue(reader, &candidate.start);
    let volts = reader.or("volts", &volts, usual_volts);
    let amps = reader.get("amps", &amps);
    let name = reader.words("name", &candidate.name);
    CandidateBasis {
        unread: reader.first_refused(Bears::Power),
        unread_air: None,
        name: if name.is_empty() {
            "this machine".into()
        } else {
            name.into()
        },
        kind: candidate.kind,
        pump,
        vessel: vessel(reader, candidate),
        suction: reader
            .get(
                "suction",
                &without(&candidate.suction, &["suction", "intake", "inlet", "capacity"]),
            )
            .map(FreeAir::m3_s),
        sound_power_db: reader.get("sound_power", &candidate.sound_power),
        flows: [first, second]
            .into_iter()
            .flatten()
            .map(|(flow, at, _)| (flow, at))
            .collect(),
        pressure_stated: first.or(second).is_some_and(|(_, _, stated)| stated),
        // What a portable machine of unknown tank is taken to have: common practice, no source.
        tank_m3: reader.or("tank", &candidate.tank, 6.0 * M3_PER_GALLON),
        volts,
        amps,
        connections,
        three_phase,
        power_w,
        peak_power_w: reader.get("peak_power", &candidate.peak_power),
        start,
        cut_in,
        cut_out,
        switch_origins,
        duty: reader.or("duty", &candidate.duty, usual_duty(pump)),
        sound: sound.map(|level| (level, sound_at)),
        mass_kg: reader.get("weight", &candidate.weight),
        wheels: candidate.wheels,
        price: reader.get("price", &candidate.price),
        measured: None,
    }
}
