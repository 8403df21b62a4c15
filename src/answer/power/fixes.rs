//! What mends a circuit, in words and as changes that the page can try on.

use super::sizes::{from_doors, gauge, hose};
use crate::words::{Words, capital, mid_sentence};
use judge::power::{Circuit, Fix, Step};
use quantity::Kind;

/// A circuit as an electrician would quote it.
fn circuit(words: Words, circuit: &Circuit) -> String {
    let (volts, amps) = (words.volts(circuit.volts), words.amps(circuit.breaker_a));
    if circuit.spare {
        return format!("the spare {volts}, {amps} circuit");
    }
    if circuit.by_plate {
        return format!("a {volts} circuit of its own, sized by the motor’s plate");
    }
    format!(
        "a {amps}, {volts} circuit of its own on {} wire",
        gauge(words, circuit.wire_m2)
    )
}

fn step(words: Words, step: &Step) -> String {
    let length = |metres: f64| words.of(Kind::Length, metres);
    match step {
        Step::GeneratorOutdoors => {
            format!(
                "put the generator outdoors, {} from doors and windows",
                from_doors(words)
            )
        }
        Step::GroundedOutlet => "use a grounded outlet that takes the plug as it is".into(),
        Step::RegularOutlet => "plug it into a regular 120 V outlet".into(),
        Step::SmallerBreaker(amps) => format!("have an electrician put in a {} breaker", words.amps(*amps)),
        Step::MoveOthers { amps, what } if what.is_empty() => format!(
            "put the compressor on another breaker, or take the other {} off this one",
            words.amps(*amps)
        ),
        Step::MoveOthers { what, .. } => format!("plug the {} in on another breaker", mid_sentence(what)),
        Step::AtOutlet { hose_m } => format!(
            "put the compressor at the outlet and run {} of {}",
            length(*hose_m),
            hose(words)
        ),
        Step::ShorterCord {
            size,
            length_m,
            hose_m,
        } => format!(
            "use a shorter cord, {} of {}, and {} more of {}",
            length(*length_m),
            gauge(words, size.area_m2).replace("-gauge", " gauge"),
            length(*hose_m),
            hose(words)
        ),
        Step::HeavierCord { size, length_m } => {
            format!(
                "use a {} cord for the {}",
                gauge(words, size.area_m2),
                length(*length_m)
            )
        }
        Step::Reconnect {
            volts, circuit: on, ..
        } => {
            let on = on.as_ref().map_or_else(String::new, |on| {
                let plug = format!("fits a {} plug, ", on.outlet);
                format!("{plug}puts it on {}, ", circuit(words, on))
            });
            format!(
                "have it wired for {}: an electrician reconnects the motor, {on}and checks switch and overload for {0}",
                words.volts(*volts)
            )
        }
        Step::OwnCircuit(own) if own.spare => format!("plug it into {}", circuit(words, own)),
        Step::OwnCircuit(own) => format!("have an electrician put in {}", circuit(words, own)),
        Step::Generator(kva) => format!("use a generator of {} or more", super::sizes::kva(*kva)),
    }
}

/// A fix in words, as a part of a sentence.
pub fn fix_clause(words: Words, fix: &Fix) -> String {
    let steps: Vec<String> = fix.steps.iter().map(|one| step(words, one)).collect();
    steps.join(", and ")
}

/// A fix in words, its first letter large.
pub fn label(words: Words, fix: &Fix) -> String {
    let text = fix_clause(words, fix);
    if fix.if_needed {
        format!("If it trips after all: {text}")
    } else {
        capital(&text)
    }
}
