//! What is asked, and what may go badly.

use super::super::sizes::kva;
use super::super::{Telling, rounded};
use super::{Said, cord_advice, doors, length, on_breaker, others, rather};
use judge::power::Cause;
use physics::circuit::Code;
use quantity::number;

/// What a freezer or a refrigerator draws at the least, A. Common practice.
const FREEZER_A: f64 = 3.0;

/// What to look at where a motor hums and does not start. Common practice, no source.
pub const START_HELP: &str = "If it hums and stops, switch off at once. Let the thermal reset cool; then see that the unloader hisses when it stops and that the check valve does not leak, so that the pump starts empty.";

/// Where a generator belongs.
pub fn outdoors(telling: &Telling) -> String {
    format!(
        "Generator outdoors, {} from doors: carbon monoxide kills.",
        doors(telling)
    )
}

/// A question in whole sentences; nothing where the cause is none.
pub fn asked(telling: &Telling, cause: &Cause) -> Option<Said> {
    let words = telling.words;
    Some(match cause {
        Cause::NotRead { field } => Said::new(
            format!(
                "Can't judge the power yet: what you typed for the {} could not be read.",
                readable(field)
            ),
            "Type it again.",
        ),
        Cause::BeyondSums { why } => Said::new(
            format!("Can't judge the power yet: {why}."),
            "Check what is typed for outlet, wire and cord.",
        ),
        Cause::CurrentUnknown { horsepower: false } => Said::new(
            "Can’t say yet: no amps on the label.",
            "Read the amps on the motor’s plate.",
        ),
        Cause::CurrentUnknown { horsepower: true } => Said::new(
            "Horsepower doesn't tell what it draws.",
            "Read the amps on the motor’s plate.",
        ),
        Cause::CurrentGuessed {
            low,
            likely,
            rating_a,
        } => Said::new(
            format!(
                "Can’t say yet: likely about {}, and this outlet gives {}.",
                about(words, *low, *likely),
                words.amps(*rating_a)
            ),
            "Read the amps on the motor’s plate.",
        ),
        Cause::OddBreaker { breaker_a, .. } => Said::new(
            format!(
                "A {} breaker doesn't belong on a usual {} outlet.",
                words.amps(*breaker_a),
                words.volts(telling.place.volts.value)
            ),
            "Don't plug in before an electrician has looked at outlet and wire.",
        ),
        Cause::VoltsOff { has, plate } => volts_off(telling, *has, *plate),
        Cause::WiredFor { volts, shipped } => Said::new(
            format!(
                "Is it wired for {}? Such machines come wired for {}.",
                words.volts(*volts),
                words.volts(*shipped)
            ),
            format!(
                "An electrician reconnects the motor and checks plug, switch and overload for {} first.",
                words.volts(*volts)
            ),
        ),
        Cause::WhichOutlet {
            amps,
            taken_a,
            wants_a,
        } => Said::new(
            format!(
                "It draws {} and needs a {} outlet. Is yours one? (Assuming {}.)",
                words.amps(rounded(*amps)),
                words.amps(*wants_a),
                words.amps(*taken_a)
            ),
            match telling.place.wiring.code {
                Code::Nec if *wants_a <= 20.0 => {
                    "Read the number on the breaker, and look whether one blade slot of the outlet is T-shaped."
                }
                _ => "Read the number on the breaker and the outlet.",
            },
        ),
        Cause::WhichCord(on) => Said::new(
            "Which gauge is that cord? It is printed on the jacket.",
            cord_advice(telling, on),
        ),
        Cause::InterrupterTrips => Said::new(
            "Trust the GFCI: it may have found a fault.",
            "Try another outlet, with no cord. If it trips there too, don't use the machine: take it to a motor shop. If it doesn't, have the first GFCI replaced.",
        ),
        _ => return None,
    })
}

/// "11 to 15 A", or one figure where both are the same.
pub(super) fn about(words: crate::words::Words, low: f64, likely: f64) -> String {
    let [low, likely] = [low, likely].map(f64::round);
    match low == likely {
        true => words.amps(likely),
        false => format!("{} to {}", number(low, 0), words.amps(likely)),
    }
}

fn volts_off(telling: &Telling, has: f64, plate: f64) -> Said {
    let words = telling.words;
    let share = number(100.0 * (has / plate - 1.0).abs(), 0);
    let side = if has < plate { "low" } else { "high" };
    let both = format!("{}-{}", number(has.min(plate), 0), number(has.max(plate), 0));
    // At 208 V the plate says 208-230, whatever it is called.
    let both = if (200.0..216.0).contains(&has) {
        "208-230".into()
    } else {
        both
    };
    Said::new(
        format!(
            "{} is {share} % {side} for a {} motor: does the plate say {both}?",
            words.volts(has),
            words.volts(plate)
        ),
        "Read the plate. If it doesn't say so, the motor starts badly and runs hot.",
    )
}

/// What may go badly, in whole sentences; nothing where the cause is none.
pub fn warned(telling: &Telling, cause: &Cause) -> Option<Said> {
    Some(match cause {
        Cause::MayTrip { load, expect } => {
            let named = !telling.place.other_name.is_empty();
            let does = match (*expect, load.other_a > 0.0) {
                (true, _) => "Expect it to trip",
                (false, true) if named || load.other_a < FREEZER_A => "It may trip",
                (false, true) => "It may trip, and stop a freezer too",
                (false, false) => "It may trip in long runs",
            };
            let first = match (load.other_a > 0.0, named) {
                (true, true) => format!(
                    "Plug {} in on another breaker, or the compressor.",
                    others(telling, load.other_a)
                ),
                (false, _) if !*expect => "Keep the breaker to itself.".into(),
                _ => "Move the compressor to another breaker, or unplug something.".into(),
            };
            Said::new(format!("{}. {does}.", on_breaker(telling, load)), first)
        }
        Cause::CordLight(on) => Said::new(
            format!(
                "That cord is light for {}: the motor starts hard and runs warm.",
                length(telling, on.length_m)
            ),
            cord_advice(telling, on),
        ),
        Cause::HoseNotCord { length_m, wants } => Said::new(
            format!(
                "{} is a run for hose, not for a cord.",
                length(telling, *length_m)
            ),
            rather(telling, *length_m, wants.map(|size| size.area_m2)),
        ),
        Cause::HardStart { volts, guessed, .. } => Said {
            rule: START_HELP.into(),
            ..hard_start(telling, *volts, *guessed)
        },
        Cause::GeneratorThin {
            rated_kva, wants_kva, ..
        } => Said::new(
            format!("A generator of {} may balk at starting it.", kva(*rated_kva)),
            format!(
                "An unloader or a hard-start kit helps, or {} up.",
                kva(*wants_kva)
            ),
        ),
        _ => return None,
    })
}

fn hard_start(telling: &Telling, volts: f64, guessed: bool) -> Said {
    let gets = telling.words.volts(volts);
    let cord = super::super::sizes::hose(telling.words);
    if telling.place.cord.is_none() {
        let start = if guessed {
            "a usual motor gets"
        } else {
            "the motor gets"
        };
        return Said::new(
            format!("The wire to that outlet is long: {start} about {gets} and may start hard."),
            "Put the compressor nearer the panel and run hose, or have an electrician pull heavier wire.",
        );
    }
    if guessed {
        let least = telling.verdict.load.map_or(volts, |load| 0.8 * load.volts);
        return Said::new(
            format!(
                "It works, but may start hard: a usual motor gets about {gets} behind that wire and cord."
            ),
            format!(
                "Measure the volts there while it starts: below {} use a shorter cord and more {cord}.",
                telling.words.volts(least)
            ),
        );
    }
    Said::new(
        format!(
            "A hard start on that cord: the motor gets {gets}, and may hum and stall when cold or against tank pressure."
        ),
        format!("Use a shorter cord and more {cord}."),
    )
}

/// What a reader calls a field.
fn readable(field: &str) -> &'static str {
    quantity::field::find(field).map_or("field", |row| row.name)
}
