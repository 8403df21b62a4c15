//! What is asked, and what may go badly.

use super::super::{Telling, rounded};
use super::{cord_advice, doors, length, on_breaker, rather};
use judge::power::Cause;
use quantity::number;

/// Where a generator belongs.
pub fn outdoors(telling: &Telling) -> String {
    format!(
        "Generator outdoors, {} from doors and windows: carbon monoxide kills.",
        doors(telling)
    )
}

/// A question in whole sentences; nothing where the cause is none.
pub fn asked(telling: &Telling, cause: &Cause) -> Option<String> {
    let words = telling.words;
    Some(match cause {
        Cause::NotRead { field } => format!(
            "Can't judge the power yet: what you typed for the {} could not be read.",
            readable(field)
        ),
        Cause::BeyondSums { why } => format!("Can't judge the power yet: {why}."),
        Cause::CurrentUnknown { horsepower: false } => {
            "No amps on the label. Look on the motor nameplate.".into()
        }
        Cause::CurrentUnknown { horsepower: true } => {
            "Horsepower doesn't tell what it draws. Look for volts and amps on the motor nameplate.".into()
        }
        Cause::CurrentGuessed {
            low,
            likely,
            rating_a,
        } => format!(
            "A machine of this flow draws about {} to {}, more than a {} breaker gives. Look for volts and amps on the motor nameplate.",
            number(*low, 0),
            words.amps(likely.round()),
            words.amps(*rating_a)
        ),
        Cause::OddBreaker { breaker_a, .. } => format!(
            "A {} breaker doesn't belong on a usual {} outlet. Don't plug in before an electrician has looked at outlet and wire.",
            words.amps(*breaker_a),
            words.volts(telling.place.volts.value)
        ),
        Cause::VoltsOff { has, plate } => volts_off(telling, *has, *plate),
        Cause::WiredFor { volts, shipped } => format!(
            "Is it wired for {}? Such machines come wired for {}. An electrician reconnects the motor, fits the plug, and checks switch and overload for {0} before it is plugged in.",
            words.volts(*volts),
            words.volts(*shipped)
        ),
        Cause::WhichOutlet {
            amps,
            taken_a,
            wants_a,
        } => format!(
            "It draws {} and needs a {} outlet. Is yours one? (Assuming {}.)",
            words.amps(rounded(*amps)),
            words.amps(*wants_a),
            words.amps(*taken_a)
        ),
        Cause::WhichCord(on) => format!(
            "Which gauge is that cord? It is printed on the jacket. {}",
            cord_advice(telling, on)
        ),
        Cause::InterrupterTrips => "Trust the GFCI: try another outlet, with no cord. If it trips there too, don't use the machine: take it to a motor shop. If it doesn't, have the first GFCI replaced.".into(),
        _ => return None,
    })
}

fn volts_off(telling: &Telling, has: f64, plate: f64) -> String {
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
    format!(
        "{} is {share} % {side} for a {} motor: does the plate say {both}? If it doesn't, it starts badly and runs hot.",
        words.volts(has),
        words.volts(plate)
    )
}

/// What may go badly, in whole sentences; nothing where the cause is none.
pub fn warned(telling: &Telling, cause: &Cause) -> Option<String> {
    Some(match cause {
        Cause::MayTrip { load, expect } => {
            let (does, others) = match (*expect, load.other_a > 0.0) {
                (true, _) => (
                    "Expect it to trip",
                    "Move the compressor to another breaker, or unplug something.",
                ),
                (false, true) => (
                    "It may trip, and stop all else on that breaker, a freezer too",
                    "Move the compressor to another breaker, or unplug something.",
                ),
                (false, false) => ("It may trip in long runs", "Keep the breaker to itself."),
            };
            let rests = if load.rests() && !expect {
                " It runs only part of the time, so the breaker may well hold."
            } else {
                ""
            };
            format!("{}. {does}. {others}{rests}", on_breaker(telling, load))
        }
        Cause::CordLight(on) => format!(
            "That cord is light for {}: the motor starts hard and runs warm. {}",
            length(telling, on.length_m),
            cord_advice(telling, on)
        ),
        Cause::HoseNotCord { length_m, wants } => rather(telling, *length_m, wants.map(|size| size.area_m2)),
        Cause::HardStart { volts, guessed, .. } => hard_start(telling, *volts, *guessed),
        Cause::GeneratorThin {
            rated_kva, wants_kva, ..
        } => format!(
            "{} kVA may balk at starting it. An unloader or a hard-start kit helps, or {} kVA up. {}",
            number(*rated_kva, 1),
            number(*wants_kva, 1),
            outdoors(telling)
        ),
        _ => return None,
    })
}

fn hard_start(telling: &Telling, volts: f64, guessed: bool) -> String {
    let gets = telling.words.volts(volts);
    let cord = super::super::sizes::hose(telling.words);
    if guessed {
        let least = telling.verdict.load.map_or(volts, |load| 0.8 * load.volts);
        return format!(
            "It may start hard: a usual motor gets about {gets} behind that wire and cord. Measure the volts there while it starts: below {} use a shorter cord and more {cord}.",
            telling.words.volts(least)
        );
    }
    format!(
        "A hard start: the motor gets {gets} as it starts, and may hum and stall on a cold start or against tank pressure. Use a shorter cord and more {cord}."
    )
}

/// What a reader calls a field.
fn readable(field: &str) -> &'static str {
    quantity::field::find(field).map_or("field", |row| row.name)
}
