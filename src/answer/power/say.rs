//! Each cause in a short form, for a headline, and in a long one, with its figures and what to do.

mod danger;
mod warn;

pub use warn::outdoors;

use super::Telling;
use super::sizes::{from_doors, gauge, gauge_alone, hose, kva};
use crate::words::{Words, mid_sentence};
use judge::basis::PlaceBasis;
use judge::power::{Cause, Found, OnBreaker, OnCord, PowerVerdict};
use physics::circuit::Code;
use quantity::Kind;

/// A cause in a clause, without a stop: "it needs a 240 V outlet".
pub fn short(telling: &Telling, cause: &Cause) -> String {
    let words = telling.words;
    match cause {
        Cause::CarbonMonoxide { .. } => "carbon monoxide from that generator kills".into(),
        Cause::NoGround { outlet: Some(face) } => format!("a {face} outlet has no ground"),
        Cause::NoGround { outlet: None } => "a two-prong adapter leaves no ground".into(),
        Cause::WrongAdapter => "its plug isn't made for that outlet".into(),
        Cause::BreakerOverWire {
            breaker_a, area_m2, ..
        } => format!(
            "a {} breaker on {} wire",
            words.amps(*breaker_a),
            gauge(words, *area_m2)
        ),
        Cause::BreakerOverOutlet {
            breaker_a, outlet, ..
        } => {
            format!("a {} breaker behind a {outlet} outlet", words.amps(*breaker_a))
        }
        Cause::LargeBreaker { breaker_a, .. } => format!(
            "a {} breaker doesn't protect its cord and plug",
            words.amps(*breaker_a)
        ),
        Cause::CordOverloaded(_) => "the cord is too thin and overheats".into(),
        Cause::OtherVolts { needs, .. } => format!("it needs a {} outlet", words.volts(*needs)),
        Cause::RegularOutlet { needs } => format!("it runs on {}", words.volts(*needs)),
        Cause::ThreePhase => "it needs three-phase power".into(),
        Cause::LargerOutlet { wants_a, .. } | Cause::WhichOutlet { wants_a, .. } => {
            format!("it needs a {} outlet", words.amps(*wants_a))
        }
        Cause::Trips(_) => "the breaker trips".into(),
        Cause::CordTooLong(_) => "the cord is too light for its length".into(),
        Cause::LowVolts { by_cord: true, .. } => "cord and wire leave too few volts".into(),
        Cause::LowVolts { by_cord: false, .. } => "the wire to that outlet is too long".into(),
        Cause::Stalls { .. } => "it hums and doesn't start".into(),
        Cause::GeneratorStalls { .. } => "the generator is too small".into(),
        Cause::NotRead { .. } | Cause::BeyondSums { .. } => "its power can't be judged yet".into(),
        Cause::CurrentGuessed { .. } | Cause::CurrentUnknown { .. } => {
            "read the amps on the motor’s plate".into()
        }
        Cause::OddBreaker { breaker_a, .. } => {
            format!(
                "a {} breaker doesn't belong on that outlet",
                words.amps(*breaker_a)
            )
        }
        Cause::VoltsOff { has, .. } => {
            format!("read whether its plate allows {}", words.volts(*has))
        }
        Cause::WiredFor { volts, .. } => {
            format!("check that it is wired for {}", words.volts(*volts))
        }
        Cause::WhichCord(_) => "read the gauge on the cord".into(),
        Cause::InterrupterTrips => "the GFCI trips: trust it".into(),
        Cause::MayTrip { expect: true, .. } => "expect the breaker to trip".into(),
        Cause::MayTrip { expect: false, .. } => "the breaker may trip".into(),
        Cause::CordLight(_) => "the cord is light for its length".into(),
        Cause::HoseNotCord { .. } => "that run is for hose, not a cord".into(),
        Cause::HardStart { .. } => "it may start hard".into(),
        Cause::GeneratorThin { .. } => "the generator may balk at starting it".into(),
        Cause::KinderCord(_)
        | Cause::CordToBuy { .. }
        | Cause::MotorCircuit { .. }
        | Cause::Reel
        | Cause::PlugToFit { .. }
        | Cause::Runs => "the outlet runs it".into(),
        Cause::FullBreaker(_) => "keep the breaker to itself".into(),
        Cause::StaysHome => "it stays home".into(),
    }
}

/// A cause in whole sentences: the fact with its figure, and what to do.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Said {
    /// The fact.
    pub fact: String,
    /// What is told with the whole alone: the rule behind it, or what else helps; blank where there is none.
    pub rule: String,
    /// What to do; blank where there is nothing to do.
    pub advice: String,
}

impl Said {
    fn new(fact: impl Into<String>, advice: impl Into<String>) -> Self {
        Self {
            fact: fact.into(),
            rule: String::new(),
            advice: advice.into(),
        }
    }

    /// Fact, rule and advice.
    pub fn whole(&self) -> String {
        let parts = [&self.fact, &self.rule, &self.advice].map(String::as_str);
        let said: Vec<&str> = parts.into_iter().filter(|part| !part.is_empty()).collect();
        said.join(" ")
    }
}

/// A cause in whole sentences: the figure first, then what to do.
pub fn long(telling: &Telling, found: &Found) -> Said {
    danger::said(telling, &found.cause)
        .or_else(|| outlet(telling, found))
        .or_else(|| warn::asked(telling, &found.cause))
        .or_else(|| warn::warned(telling, &found.cause))
        .unwrap_or_else(|| fine(telling, &found.cause))
}

fn length(telling: &Telling, metres: f64) -> String {
    telling.words.of(Kind::Length, metres)
}

/// "100 ft of 3/8 in hose; if it must be a cord, 12 gauge".
fn rather(telling: &Telling, length_m: f64, wants: Option<f64>) -> String {
    let words = telling.words;
    let hose = format!(
        "Put the compressor at the outlet and run {} of {}",
        length(telling, length_m),
        hose(words)
    );
    match wants {
        Some(area) => format!("{hose}; if it must be a cord, {}.", gauge_alone(words, area)),
        None => format!("{hose}: no cord that stores sell does that run."),
    }
}

/// What to do about a cord: another one for a short run, hose for a long one.
fn cord_advice(telling: &Telling, on: &OnCord) -> String {
    let wants = on.wants.map(|size| size.area_m2);
    match wants {
        Some(area) if !on.rather_hose && on.length_m < LONG_RUN_M => format!(
            "For {} use a {} cord.",
            length(telling, on.length_m),
            gauge(telling.words, area)
        ),
        wants => rather(telling, on.length_m, wants),
    }
}

/// From here on a run is one for hose first, m (100 ft).
const LONG_RUN_M: f64 = 30.0;

/// "the freezer", by its name where that was told, or "the other 6 A".
fn others(telling: &Telling, other_a: f64) -> String {
    match &*telling.place.other_name {
        "" => format!("the other {}", telling.words.amps(other_a)),
        name => format!("the {}", mid_sentence(name)),
    }
}

/// What the rest of the breaker's load does, where the air is worse: "With the freezer the breaker may trip."
pub fn aside(telling: &Telling) -> Option<String> {
    match &telling.verdict.cause {
        Cause::MayTrip { load, expect } if load.other_a > 0.0 => {
            let does = match *expect {
                true => ", expect the breaker to trip",
                false => " the breaker may trip",
            };
            Some(format!("With {}{does}.", others(telling, load.other_a)))
        }
        _ => None,
    }
}

/// "With the freezer that is 18 A on a 15 A breaker", or the machine alone.
fn on_breaker(telling: &Telling, on: &OnBreaker) -> String {
    let words = telling.words;
    let rating = words.amps(on.rating_a);
    let total = match telling.printed() {
        true => words.amps(on.total_a()),
        false => format!("likely about {}", words.amps(on.total_a().round())),
    };
    if on.other_a > 0.0 {
        format!(
            "With {} that is {total} on a {rating} breaker",
            others(telling, on.other_a)
        )
    } else {
        format!("It draws {total} on a {rating} breaker")
    }
}

/// What this outlet cannot do.
fn outlet(telling: &Telling, found: &Found) -> Option<Said> {
    let words = telling.words;
    let asked = found.grade < judge::grade::Grade::Outlet;
    Some(match &found.cause {
        Cause::OtherVolts { needs, wants_a, .. } => {
            let volts = words.volts(*needs);
            let circuit = wants_a.map_or_else(
                || format!("a {volts} circuit"),
                |amps| {
                    format!(
                        "a {}, {volts} circuit",
                        words.amps(amps.max(least_breaker(telling)))
                    )
                },
            );
            let first = if asked {
                format!("It needs a {volts} outlet. Is there one?")
            } else {
                format!("{} can't run it: it needs {volts}.", telling.outlet())
            };
            Said::new(first, format!("An electrician can put in {circuit}."))
        }
        Cause::RegularOutlet { needs } => Said::new(
            format!("It runs on {}, not on that outlet.", words.volts(*needs)),
            format!(
                "Plug it into a regular {} outlet with nothing else on it.",
                words.volts(*needs)
            ),
        ),
        Cause::ThreePhase => Said::new(
            "Its motor wants three-phase power, and a house outlet has one phase: it can’t run it.",
            "Look for a single-phase motor, or ask an electrician about a phase converter.",
        ),
        Cause::LargerOutlet {
            amps,
            outlet_a,
            wants_a,
        } => Said::new(
            format!(
                "It draws {}: it needs a {} outlet, and its plug doesn't fit a {} one.",
                words.amps(super::rounded(*amps)),
                words.amps(*wants_a),
                words.amps(*outlet_a)
            ),
            format!(
                "Have an electrician put in a {} circuit and outlet.",
                words.amps(*wants_a)
            ),
        ),
        Cause::Trips(on) => Said::new(
            format!("{}: it trips.", on_breaker(telling, on)),
            "Move the compressor to another breaker, or switch the rest off.",
        ),
        Cause::CordTooLong(on) => Said::new(
            format!(
                "That cord is too light for {}: the motor gets low volts and may not start.",
                length(telling, on.length_m)
            ),
            cord_advice(telling, on),
        ),
        Cause::LowVolts { volts, by_cord, .. } => low_volts(telling, *volts, *by_cord),
        Cause::Stalls { volts, .. } => Said {
            rule: warn::START_HELP.into(),
            ..Said::new(
                format!(
                    "The motor gets only {} as it starts: it hums and doesn't turn.",
                    words.volts(*volts)
                ),
                "Use a shorter cord and more hose, or an outlet nearer the panel.",
            )
        },
        Cause::GeneratorStalls { wants_kva, .. } => Said::new(
            "That generator is too small: it will most likely stall as the motor starts.",
            format!("Use {} or more.", kva(*wants_kva)),
        ),
        _ => return None,
    })
}

/// The least breaker of a circuit that is put in for one machine, A.
fn least_breaker(telling: &Telling) -> f64 {
    match telling.place.wiring.code {
        Code::Nec => 20.0,
        Code::Iec => 16.0,
    }
}

fn low_volts(telling: &Telling, volts: Option<f64>, by_cord: bool) -> Said {
    let gets = volts.map_or_else(
        || "The motor can't run at all".to_owned(),
        |volts| format!("The motor gets only {} while it runs", telling.words.volts(volts)),
    );
    if by_cord {
        return Said::new(
            format!("{gets}."),
            "Use a shorter or heavier cord, and more hose.",
        );
    }
    Said::new(
        format!("{gets}: the wire to that outlet is too long and thin."),
        "Put the compressor nearer the panel and run hose, or have an electrician pull heavier wire.",
    )
}

/// What works, and what makes it work better.
fn fine(telling: &Telling, cause: &Cause) -> Said {
    let words = telling.words;
    match cause {
        Cause::KinderCord(on) => on.wants.map_or_else(Said::default, |size| {
            Said::new(
                "That cord works.",
                format!(
                    "{} or heavier is kinder to the motor.",
                    gauge_alone(words, size.area_m2)
                ),
            )
        }),
        Cause::CordToBuy { length_m, size } => Said::new(
            format!("{} runs it.", telling.outlet()),
            format!(
                "For {} use a {} cord.",
                length(telling, *length_m),
                gauge(words, size.area_m2)
            ),
        ),
        Cause::FullBreaker(on) if on.other_a > 0.0 => Said::new(
            format!("{}: it holds, with nothing to spare.", on_breaker(telling, on)),
            "Add nothing more.",
        ),
        Cause::FullBreaker(on) => full_breaker(telling, on),
        Cause::MotorCircuit { breaker_a, .. } => Said::new(
            format!(
                "A lawful motor circuit: for a machine that an electrician wired in, a {} breaker may be larger than the wire's own (NEC 430.52).",
                words.amps(*breaker_a)
            ),
            "Check that the motor has its overload.",
        ),
        Cause::PlugToFit { outlet } => Said::new(
            String::new(),
            format!("Have an electrician fit a {outlet} cord and plug."),
        ),
        Cause::Reel => Said::new(
            String::new(),
            "Unwind a cord reel all the way: left wound it overheats.",
        ),
        Cause::StaysHome => Said::new(
            "It stays home.",
            format!(
                "“{}” wants a small machine of its own, or its own circuit.",
                telling.place.name
            ),
        ),
        _ => runs(telling),
    }
}

/// A machine that takes nearly all of its breaker: lawful, best alone.
fn full_breaker(telling: &Telling, on: &OnBreaker) -> Said {
    let words = telling.words;
    let rule = match telling.place.wiring.code {
        Code::Nec => format!(
            "NEC 210.23, (A)(1) to 2020 and (B)(1) in 2023, gives one plugged-in load {} of a breaker that serves more; alone it may take it all.",
            words.amps(0.8 * on.rating_a)
        ),
        Code::Iec => String::new(),
    };
    if !telling.printed() {
        return untold(telling);
    }
    let amps = words.amps(super::rounded(on.amps));
    let fact = format!(
        "It draws {amps} of a {} breaker: it runs.",
        words.amps(on.rating_a)
    );
    Said {
        rule,
        ..Said::new(fact, "Keep the breaker to itself.")
    }
}

/// A current that nobody printed: about what it may be, where volts or power are known, and where to read it.
fn untold(telling: &Telling) -> Said {
    let load = telling.verdict.load.filter(|load| load.told);
    let about = load.map_or_else(String::new, |load| {
        let [low, likely] = load.guess;
        format!(", likely about {}", warn::about(telling.words, low, likely))
    });
    Said::new(
        format!("Can’t say yet: no amps on the label{about}."),
        "Read the amps on the motor’s plate.",
    )
}

/// "Your 15 A outlet runs it", with the figures.
fn runs(telling: &Telling) -> Said {
    let (words, place) = (telling.words, telling.place);
    let Some(load) = telling.verdict.load else {
        return Said::default();
    };
    if !load.printed() {
        return untold(telling);
    }
    let amps = words.amps(super::rounded(load.amps));
    let own = match place.wiring.code {
        Code::Iec => "Give it a socket of its own.",
        Code::Nec => "",
    };
    let volts = load.running.map_or_else(String::new, |running| {
        format!(", with {} at the motor", words.volts(running.volts))
    });
    let runs = match place.wiring.hard_wired() {
        true => "The circuit runs it".into(),
        false => format!("{} runs it", telling.outlet()),
    };
    Said::new(
        format!("{runs}: {amps} of {}{volts}.", words.amps(gives(place))),
        own,
    )
}

/// What an outlet gives one machine, A: its face's, or the breaker's.
fn gives(place: &PlaceBasis) -> f64 {
    match place.wiring.face() {
        Some(face) => face.amps.min(place.breaker_a.value),
        None => place.breaker_a.value,
    }
}

/// The same while the fold is closed: "Yes: 11.5 A of 15 A."; nothing where more is to be said.
pub fn in_short(words: Words, place: &PlaceBasis, found: &PowerVerdict) -> Option<String> {
    let load = found.load.filter(|load| load.printed())?;
    let of = |amps: f64| words.amps(super::rounded(amps));
    match &found.cause {
        Cause::Runs if place.generator_va.is_none() => {
            Some(format!("Yes: {} of {}.", of(load.amps), words.amps(gives(place))))
        }
        Cause::MayTrip { load, expect } if load.other_a > 0.0 => Some(format!(
            "{} and {} on {}: {}.",
            of(load.amps),
            of(load.other_a),
            words.amps(load.rating_a),
            if *expect {
                "expect it to trip"
            } else {
                "it may trip"
            }
        )),
        _ => None,
    }
}

/// How far from doors, for a sentence.
fn doors(telling: &Telling) -> &'static str {
    from_doors(telling.words)
}
