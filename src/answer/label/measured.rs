//! What was timed at the machine, in words.

use super::finding;
use crate::report::{Finding, Grade};
use crate::words::Words;
use judge::assess::Facts;
use judge::assess::machine::Supply;
use judge::basis::CandidateBasis;
use judge::verdict::{OVER_PRINT, RUNS_DIFFER_S};
use physics::measure::{Delivered, Leak, Measured};
use physics::receiver::Receiver;
use quantity::{Gauge, Kind, number};

/// Shares of the delivered flow that a leak may take: a tenth is the most in a well-kept system, a quarter is bad.
/// Source: DOE compressed-air sourcebook (from memory).
const LEAK_SHARES: [f64; 2] = [0.1, 0.25];

const AT_PSI: f64 = 90.0;

/// What the label promises at 90 psi, m³/s; nothing where it names no flow.
fn promised(candidate: &CandidateBasis) -> Option<f64> {
    match Supply::of_label(candidate).0 {
        Supply::OneFlow(pump) | Supply::TwoFlows(pump) => Some(pump.rated(Gauge::psi(AT_PSI)).as_m3_s()),
        _ => None,
    }
}

/// Against the label: the grade, and the words after the figure.
fn against(words: Words, found: &Delivered, candidate: &CandidateBasis) -> (Grade, String) {
    let Some(label) = promised(candidate) else {
        return (Grade::Note, "; the label names no flow".into());
    };
    let flow = found.pump.rated(Gauge::psi(AT_PSI)).as_m3_s();
    let change = flow / label - 1.0;
    let per_cent = format!("{} %", number(change.abs() * 100.0, 0));
    let (grade, told) = match change {
        change if change.abs() < found.share => {
            (Grade::Good, "no more apart than clock and gauge allow".to_owned())
        }
        change if 1.0 + change > OVER_PRINT => {
            (Grade::Unsure, format!("{per_cent} more. One of the two is wrong"))
        }
        change if change > 0.0 => (Grade::Good, format!("{per_cent} more")),
        change if change > -0.25 => (Grade::Fair, format!("{per_cent} less")),
        _ => (Grade::Poor, format!("{per_cent} less")),
    };
    let label = words.flow(quantity::FreeAir::m3_s(label));
    (grade, format!(", against {label} on the label: {told}"))
}

fn pump_up(words: Words, found: &Delivered, candidate: &CandidateBasis) -> Finding {
    let at = Gauge::psi(AT_PSI);
    let flow = found.pump.rated(at);
    let share = number((found.share * 100.0).ceil(), 0);
    let (grade, against) = against(words, found, candidate);
    let more = match found {
        found if found.spread > 0.05 => {
            " The runs differ widely: let the tank cool to the room and drain it to the same reading before each."
        }
        found if found.share > 0.12 => {
            " Timed from an empty tank to cut-out, several times, it would be known better: let the tank cool to the room between runs."
        }
        _ => " Let the tank cool to the room between runs.",
    };
    let grade = match found.spread * found.mean_s > RUNS_DIFFER_S {
        true => Grade::Unsure,
        false => grade,
    };
    let text = format!(
        "Measured: {} at {}, give or take {share} %{against}. This is what all else here is reckoned with. The pump heats the air, which drives the gauge up; reckoned without that, the same time would look like {}.{more}",
        words.flow(flow),
        words.pressure(at),
        words.flow(found.isothermal.rated(at)),
    );
    let basis = format!(
        "{} in the first place's air; mass and energy of the air in the tank; gauge to 2 % of 160 psi, tank to 3 %, warmth of the air (common practice, no source)",
        match found.runs {
            1 => "one pump-up".into(),
            runs => format!("{runs} pump-ups, averaged,"),
        }
    );
    finding("measured", grade, text, &basis)
}

/// A flow to two figures: leaks are small.
fn small(words: Words, m3_s: f64) -> String {
    if m3_s <= 0.0 {
        return words.of(Kind::Flow, 0.0);
    }
    let unit = quantity::M3_S_PER_CFM;
    let step = 10_f64.powf((m3_s / unit).log10().floor() - 1.0) * unit;
    words.of(Kind::Flow, (m3_s / step).round() * step)
}

/// How often the leak alone starts the motor.
fn starts(
    words: Words,
    leak: &Leak,
    candidate: &CandidateBasis,
    facts: &Facts,
    measured: &Measured,
) -> String {
    let inlet = measured.air.pressure();
    let [high, low] = [candidate.cut_out, candidate.cut_in].map(|reading| reading.at(inlet).as_pa());
    let machine = facts.places.first().and_then(|place| place.machine.as_ref());
    let tank = Receiver::cylinder(candidate.tank_m3.value, measured.air.kelvin());
    let receiver = machine.map_or(tank, |machine| machine.receiver);
    let fall_s = leak.fall_s(&receiver, high, low);
    let pump_s = machine
        .and_then(|machine| physics::run::recovery_s(machine, low, quantity::S_PER_H))
        .unwrap_or(0.0);
    let between = fall_s + pump_s;
    if between > 24.0 * quantity::S_PER_H {
        return "the motor would not start for it within a day".into();
    }
    if between > quantity::S_PER_H {
        return format!(
            "switched on, the motor starts every {} for nothing",
            words.time(between)
        );
    }
    let times = (quantity::S_PER_H / between).round();
    let times = if times > 1.0 {
        format!("{} times", number(times, 0))
    } else {
        "once".into()
    };
    format!("switched on, the motor starts {times} an hour for nothing")
}

fn leak_down(
    words: Words,
    leak: &Leak,
    candidate: &CandidateBasis,
    facts: &Facts,
    measured: &Measured,
) -> Finding {
    let at = Gauge::psi(AT_PSI);
    let [lost, error] =
        [leak.free_air(at, &measured.air), leak.error(at, &measured.air)].map(|flow| flow.as_m3_s());
    let basis = "the gauge's fall in the first place's air; a leak is choked, so it goes with absolute pressure; a tenth of the flow is the most in a well-kept system (DOE compressed-air sourcebook, from memory)";
    if lost <= error {
        let text = format!(
            "No leak shows beyond the gauge's own error; it is below {} at {}. A longer wait would tell more.",
            small(words, lost + error),
            words.pressure(at)
        );
        return finding("leak", Grade::Good, text, basis);
    }
    let delivered = facts.supply.likely().map(|pump| pump.rated(at).as_m3_s());
    let share = delivered.map(|flow| lost / flow.max(1e-9));
    let grade = match share {
        Some(share) if share > LEAK_SHARES[1] => Grade::Poor,
        Some(share) if share > LEAK_SHARES[0] => Grade::Fair,
        _ => Grade::Note,
    };
    let of_flow = share.map_or_else(String::new, |share| {
        format!(", {} % of what it delivers", number((share * 100.0).max(1.0), 0))
    });
    let text = format!(
        "It loses {} at {}, give or take {}{of_flow}: {}. A tank still warm from pumping loses pressure as it cools: wait for that before the clock starts. Soapy water on fittings, drain and check valve finds the leak; let the pressure off before you mend it.",
        small(words, lost),
        words.pressure(at),
        small(words, error),
        starts(words, leak, candidate, facts, measured)
    );
    finding("leak", grade, text, basis)
}

/// What the times show, where there are any.
pub fn findings(words: Words, candidate: &CandidateBasis, facts: &Facts) -> [Option<Finding>; 2] {
    let Some(measured) = candidate.measured else {
        return [None, None];
    };
    [
        measured.delivered.map(|found| pump_up(words, &found, candidate)),
        measured
            .leak
            .map(|leak| leak_down(words, &leak, candidate, facts, &measured)),
    ]
}
