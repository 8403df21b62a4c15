//! What could hurt somebody: what it is, stop, and who puts it right.

use super::super::Telling;
use super::super::sizes::gauge;
use super::{Said, cord_advice, doors};
use judge::power::Cause;
use physics::circuit::{Code, Metal};

/// A danger in whole sentences; nothing where the cause is none.
pub fn said(telling: &Telling, cause: &Cause) -> Option<Said> {
    let words = telling.words;
    Some(match cause {
        Cause::CarbonMonoxide { .. } => Said::new(
            "Carbon monoxide kills: never run a generator indoors, in a garage or by an open door.",
            format!("Put it outdoors, {} from doors and windows.", doors(telling)),
        ),
        Cause::NoGround { outlet: Some(face) } => Said::new(
            format!(
                "A {face} outlet has no ground: a fault in the machine would put its frame under voltage."
            ),
            "Don't plug it in there. Have an electrician put in a grounded circuit.",
        ),
        Cause::NoGround { outlet: None } => Said::new(
            "A two-prong adapter leaves no ground: a fault in the machine can kill.",
            "Stop. Plug it into a grounded outlet; where there is none, an electrician puts one in.",
        ),
        Cause::WrongAdapter => Said::new(
            "Its plug isn't made for that outlet, so the breaker there doesn't protect it.",
            "Unplug it and have an electrician put in the outlet that fits.",
        ),
        Cause::BreakerOverWire {
            breaker_a,
            area_m2,
            metal,
            most_a,
        } => over_wire(telling, *breaker_a, *area_m2, *metal, *most_a),
        Cause::BreakerOverOutlet {
            breaker_a, outlet, ..
        } => Said::new(
            format!(
                "A {} breaker doesn't belong on a {outlet} outlet: outlet, plug and cord can overheat before it trips.",
                words.amps(*breaker_a)
            ),
            "Stop, and have an electrician put it right.",
        ),
        Cause::LargeBreaker {
            breaker_a, wants_a, ..
        } => Said::new(
            format!(
                "A {} breaker does not protect that cord or plug: they can burn before it trips.",
                words.amps(*breaker_a)
            ),
            format!(
                "Unplug it and have an electrician put in its own {} breaker and outlet.",
                words.amps(wants_a.max(super::least_breaker(telling)))
            ),
        ),
        Cause::CordOverloaded(on) => Said::new(
            format!(
                "That cord is made for {} and this machine draws {}: it overheats.",
                words.amps(super::super::rounded(on.cord.carries_a)),
                words.amps(on.amps)
            ),
            format!("Unplug it. {}", cord_advice(telling, on)),
        ),
        _ => return None,
    })
}

fn over_wire(telling: &Telling, breaker_a: f64, area_m2: f64, metal: Metal, most_a: f64) -> Said {
    let words = telling.words;
    let wire = match metal {
        Metal::Copper => format!("{} wire", gauge(words, area_m2)),
        Metal::Aluminum => format!("{} aluminum wire", gauge(words, area_m2)),
    };
    let rule = match telling.place.wiring.code {
        Code::Nec => " (NEC 240.4(D))",
        Code::Iec => "",
    };
    let most = if most_a > 0.0 {
        format!("That wire takes {} at most{rule}.", words.amps(most_a))
    } else {
        format!("That wire doesn't belong in a wall{rule}.")
    };
    Said::new(
        format!(
            "A {} breaker on {wire}: the wire can burn before it trips. {most}",
            words.amps(breaker_a)
        ),
        "Stop. Have an electrician put it right.",
    )
}
