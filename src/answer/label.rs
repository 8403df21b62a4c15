//! What the label says, may say and leaves out, in words.

mod figures;
mod measured;

use super::words::{Words, listed};
use crate::report::{Finding, Grade, Section};
use judge::assess::Facts;
use judge::assess::machine::Supply;
use judge::basis::CandidateBasis;
use physics::circuit::MIDDLE_VOLTS;
use physics::compressor::{Claim, PumpError};
use quantity::{Gauge, Kind};
use shop::Units;
use std::fmt::Display;

/// What an efficient motor turns into shaft power, of volts times amps: power factor times efficiency.
/// Common practice, no source; NEC table 430.248 has 0.41 to 0.65 from 1/2 to 3 hp.
const SHAFT_SHARE: f64 = 0.75;

/// A finding without remedies.
pub fn finding(id: &str, grade: Grade, text: String, basis: &str) -> Finding {
    Finding {
        id: id.into(),
        grade,
        text,
        basis: basis.into(),
        remedies: Vec::new(),
    }
}

/// What a sum refused, told as a finding of its own.
pub fn beyond(id: &str, what: &str, error: &dyn Display) -> Finding {
    let text = format!("{what} can’t be figured: {error}.");
    finding(id, Grade::Unsure, text, "what its sum was made for")
}

fn claim(words: Words, facts: &Facts) -> Option<Finding> {
    let (claim, watts, volt_amperes) = facts.claim?;
    let (need, plate) = (words.of(Kind::Power, watts), words.of(Kind::Power, volt_amperes));
    let basis = "isentropic work of the claimed flow against volts times amps (Machinery's Handbook, work of compression)";
    Some(match claim {
        Claim::CannotBe => finding(
            "claim",
            Grade::Bad,
            format!(
                "The flow cannot be: even a perfect pump needs {need} for it, and the plate admits {plate} in all. Read the label again: is the flow a displacement, or stated at a lower pressure?"
            ),
            basis,
        ),
        Claim::Unlikely => finding(
            "claim",
            Grade::Poor,
            format!(
                "The flow is unlikely: the air alone takes {need} of the plate's {plate}, more than small machines reach. It may be displacement, or be stated at a lower pressure. Ask, or time a pump-up."
            ),
            basis,
        ),
        Claim::Weak => finding(
            "claim",
            Grade::Fair,
            format!(
                "The flow is low for the plate: the air takes {need} of {plate}. Either it is modest, or a weak pump."
            ),
            basis,
        ),
        Claim::Typical => finding(
            "claim",
            Grade::Good,
            format!(
                "Flow and plate agree: the air takes {need} of the plate's {plate}, as such machines do."
            ),
            basis,
        ),
    })
}

/// Horsepower that the plug cannot supply.
fn horsepower(words: Words, candidate: &CandidateBasis) -> Option<Finding> {
    let (power, amps) = (candidate.power_w?, candidate.amps?);
    // A kilowatt plate of metric countries prints what the motor takes, horsepower what its shaft gives.
    let share = match words.units {
        Units::Us => SHAFT_SHARE,
        Units::Metric => 1.0,
    };
    let most = candidate.volts.value * amps * share;
    let basis = "volts times amps, of which a good motor turns at most three quarters into shaft power; common practice, no source";
    (power > most).then(|| {
        finding(
            "horsepower",
            Grade::Fair,
            format!(
                "{} on the label cannot come out of {} at {}: at most {} can. It is a peak figure; go by flow, not by horsepower.",
                words.of(Kind::Power, power),
                words.amps(amps),
                words.volts(candidate.volts.value),
                words.of(Kind::Power, most)
            ),
            basis,
        )
    })
}

/// Amps that a plug of that voltage does not carry.
fn plug(words: Words, candidate: &CandidateBasis) -> Option<Finding> {
    let amps = candidate.amps?;
    let low_voltage = candidate.volts.value < MIDDLE_VOLTS;
    (low_voltage && amps > 20.0).then(|| {
        finding(
            "plug",
            Grade::Poor,
            format!(
                "{} at {} is more than any common outlet of that voltage carries: it needs a circuit of its own, or 240 V, at which it would draw about {}.",
                words.amps(amps),
                words.volts(candidate.volts.value),
                words.amps(amps * candidate.volts.value / 240.0)
            ),
            "15 and 20 A outlets; a plugged-in load draws at most 80 % of them (NEC 210.23(A)(1))",
        )
    })
}

fn contradiction(words: Words, candidate: &CandidateBasis, facts: &Facts) -> Option<Finding> {
    let error = facts.contradiction?;
    let [one, other] = candidate.flows[..] else {
        return None;
    };
    let (one, other) = if one.1 <= other.1 {
        (one, other)
    } else {
        (other, one)
    };
    let points = format!(
        "{} at {} and {} at {}",
        words.flow(one.0),
        words.pressure(one.1),
        words.flow(other.0),
        words.pressure(other.1)
    );
    let text = match error {
        PumpError::Rising => format!(
            "{points} cannot both be: no compressor delivers more at the higher pressure. Are the two swapped?"
        ),
        PumpError::Steep(_) => format!(
            "{points} do not go together: no piston machine in order falls off so fast. One of them is misread, or is displacement."
        ),
        PumpError::SamePressure => {
            format!("{points}: two flows at one pressure fix nothing. Give them at two pressures.")
        }
        PumpError::OutOfRange => format!("{points}: a flow or a pressure is no figure to reckon with."),
    };
    let basis = "re-expansion of the air in the clearance; the lower of the two promises is reckoned with";
    Some(finding("contradiction", Grade::Poor, text, basis))
}

/// What is taken in is not what comes out.
fn suction(words: Words, [low, high]: [&str; 2]) -> Finding {
    let at = words.pressure(Gauge::psi(90.0));
    finding(
        "guess",
        Grade::Unsure,
        format!(
            "The label prints the air taken in, not what it delivers: likely {low} to {high} at {at}. Look for the flow delivered at that pressure, or at 6 to 7 bar."
        ),
        "share of the air taken in that small pumps deliver: rule of thumb",
    )
}

fn guess(words: Words, facts: &Facts) -> Option<Finding> {
    let [low, high] = facts
        .supply
        .range()?
        .map(|pump| words.flow(pump.rated(Gauge::psi(90.0))));
    if matches!(facts.supply, Supply::FromSuction(_)) {
        return Some(suction(words, [&low, &high]));
    }
    let from = match facts.supply {
        Supply::FromAmps(_) => {
            "volts times amps and what small machines make of them; common practice, no source"
        }
        _ => "printed horsepower, which says little; common practice, no source",
    };
    let at = words.pressure(Gauge::psi(90.0));
    Some(finding(
        "guess",
        Grade::Unsure,
        format!(
            "A guess, not a figure: somewhere between {low} and {high} at {at}. Equal horsepower can mean very different flow. Look for “cfm”, “SCFM” or “L/min” at {at} on the plate or the pump's sheet."
        ),
        from,
    ))
}

fn missing(words: Words, candidate: &CandidateBasis, facts: &Facts) -> Option<Finding> {
    let mut look = Vec::new();
    // A flow that was measured needs no label.
    if matches!(facts.supply, Supply::Measured(_)) {
    } else if candidate.flows.is_empty() {
        look.push(format!("delivered flow at {}", words.pressure(Gauge::psi(90.0))));
    } else if !candidate.pressure_stated {
        look.push(format!(
            "the pressure at which the flow is stated (taken: {}; a flow without one is often displacement, a third too high)",
            words.pressure(candidate.flows[0].1)
        ));
    }
    if !candidate.tank_m3.is_given() {
        look.push(format!(
            "the tank's volume (taken: {})",
            words.volume(candidate.tank_m3.value)
        ));
    }
    if candidate.amps.is_none() {
        look.push("amps on the motor's plate".into());
    }
    if candidate.sound.is_none() {
        look.push("the sound level with its distance".into());
    }
    (!look.is_empty()).then(|| {
        finding(
            "missing",
            Grade::Note,
            format!("Look on the machine for {}.", listed(&look)),
            "what is typical is taken until then",
        )
    })
}

/// The section about the label.
pub fn section(words: Words, candidate: &CandidateBasis, facts: &Facts) -> Section {
    let [timed, leak] = measured::findings(words, candidate, facts);
    let leaks = leak.as_ref().map_or(Grade::Good, |finding| finding.grade);
    let findings: Vec<Finding> = [
        timed,
        claim(words, facts),
        contradiction(words, candidate, facts),
        horsepower(words, candidate),
        plug(words, candidate),
        guess(words, facts),
        missing(words, candidate, facts),
        super::pump::kind(words, candidate),
        leak,
    ]
    .into_iter()
    .flatten()
    .collect();
    let grade = findings
        .iter()
        .map(|finding| finding.grade)
        .max()
        .unwrap_or(Grade::Note);
    let rest = findings.iter().filter(|finding| finding.id != "leak");
    let worse = rest.map(|finding| finding.grade).max() < Some(leaks);
    let sentence = match grade {
        Grade::Poor | Grade::Fair if worse => "The machine leaks more than it should.",
        Grade::Bad => "The label contradicts itself.",
        Grade::Poor | Grade::Fair => "The label promises more than it should.",
        Grade::Unsure => "The label leaves the main figure out.",
        Grade::Note => "The label leaves something out.",
        Grade::Good => "The figures on the label go together.",
    };
    Section {
        id: "label".into(),
        title: "Is the label honest?".into(),
        grade,
        sentence: sentence.into(),
        findings,
        figures: figures::figures(words, candidate, facts),
        ..Section::default()
    }
}
