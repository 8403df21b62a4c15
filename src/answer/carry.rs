//! Who gets the machine into the car, and whether it travels, in words.

use super::label::finding;
use super::sums::{self, PutIn};
use super::words::{Words, listed};
use crate::report::{Figure, Finding, Grade, Section, Sum};
use judge::assess::Facts;
use judge::basis::{Basis, CandidateBasis};
use physics::carry::{
    Carry, HANDS_M, LOAD_CONSTANT_KG, Lift, Load, PUSH_N, STEEPEST_DEGREES, USUAL_RAMP_M, carry,
    one_person_kg, shortest_ramp_m, two_people_kg,
};
use quantity::range::OutOfRange;
use quantity::{Kind, M3_PER_GALLON, number};
use shop::Units;

/// Masses that one person and two put into a pickup now and then, kg: a hand-carry machine of about 50 lb, a 20 gal
/// machine of about 130 lb. Common practice, no source.
const PRACTICE_KG: [f64; 2] = [23.0, 59.0];
const LB: f64 = quantity::KG_PER_LB;
const FOOT: f64 = quantity::M_PER_FT;

const LIFTING: &str = "NIOSH 94-110 lifting equation, its limit for repeated work by most people; two people together two thirds of the sum, HSE L23";

/// A mass to a whole pound or kilogram.
fn whole(words: Words, kg: f64) -> String {
    let step = if words.units == Units::Us { LB } else { 1.0 };
    words.of(Kind::Mass, (kg / step).round() * step)
}

/// A length that is enough: up to half a foot or a tenth of a metre more.
fn enough(words: Words, metres: f64) -> String {
    let step = if words.units == Units::Us { 0.5 * FOOT } else { 0.1 };
    words.of(Kind::Length, (metres / step - 1e-6).ceil() * step)
}

/// A height as one measures it: inches or metres.
fn height(words: Words, metres: f64) -> String {
    let kind = if words.units == Units::Us {
        Kind::Bore
    } else {
        Kind::Length
    };
    words.of(kind, metres)
}

/// A machine, the tailgate, and what may be lifted.
#[derive(Clone, Copy, Debug)]
struct Case {
    load: Load,
    /// NIOSH's limits for one and two, kg.
    strict: [f64; 2],
    /// The easiest way by the builder's own limit, else by NIOSH's.
    way: Carry,
    /// Shortest ramps for one person pushing and for two, m.
    ramps: [Option<f64>; 2],
    /// A stationary upright: neither lifted nor pushed up a ramp.
    upright: bool,
}

/// An upright that stands where it was set up: 55 gal and more, or 200 lb and more. Common practice, no source.
fn upright(candidate: &CandidateBasis, mass_kg: f64) -> bool {
    const LARGE_M3: f64 = 55.0 * M3_PER_GALLON;
    const HEAVY_KG: f64 = 200.0 * LB;
    mass_kg >= HEAVY_KG || (candidate.tank_m3.is_given() && candidate.tank_m3.value >= LARGE_M3)
}

impl Case {
    /// Where its mass is stated and the tailgate within the sums.
    #[expect(
        clippy::disallowed_methods,
        reason = "the section says that the tailgate is too high, the one thing that is refused"
    )]
    fn known(basis: &Basis, candidate: &CandidateBasis) -> Option<Self> {
        Self::of(candidate.mass_kg?, basis, candidate).ok()
    }

    fn of(mass_kg: f64, basis: &Basis, candidate: &CandidateBasis) -> Result<Self, OutOfRange> {
        let load = Load {
            mass_kg,
            tailgate_m: basis.limits.tailgate_m.value,
            wheels: candidate.wheels,
            own_limit_kg: basis.limits.lift_kg,
        };
        let lift = Lift::onto(load.tailgate_m);
        let upright = upright(candidate, mass_kg);
        let way = carry(load)?;
        Ok(Self {
            load,
            way: if upright && way == Carry::Ramp {
                Carry::Stays
            } else {
                way
            },
            upright,
            strict: [one_person_kg(lift)?, two_people_kg(lift)?],
            ramps: [
                shortest_ramp_m(mass_kg, load.tailgate_m)?,
                shortest_ramp_m(
                    (0.5 * mass_kg).max(*physics::carry::MASS_KG.start()),
                    load.tailgate_m,
                )?,
            ],
        })
    }

    /// How many do it by practice, though no advised limit says so.
    fn by_practice(&self) -> Option<Carry> {
        let beyond = self.load.own_limit_kg.is_none() && self.way != Carry::Alone;
        let [one, two] = PRACTICE_KG;
        match self.load.mass_kg {
            mass if beyond && mass <= one => Some(Carry::Alone),
            mass if beyond && mass <= two && self.way != Carry::Two => Some(Carry::Two),
            _ => None,
        }
    }

    fn grade(&self) -> Grade {
        match (self.way, self.by_practice()) {
            (Carry::Alone | Carry::Two, _) | (_, Some(Carry::Alone)) => Grade::Note,
            (Carry::Ramp, _) | (_, Some(_)) => Grade::Fair,
            (Carry::Stays, None) => Grade::Poor,
        }
    }

    fn verdict(&self) -> &'static str {
        match (self.by_practice(), self.way) {
            (Some(Carry::Alone), _) | (None, Carry::Alone) => "one person can load it",
            (Some(_), _) | (None, Carry::Two) => "two people can load it",
            (None, Carry::Ramp) => "it rolls up a ramp",
            (None, Carry::Stays) => "use a liftgate or a hoist, or it stays where it is",
        }
    }

    fn limits(&self, words: Words) -> String {
        let mass = |kg: f64| whole(words, kg);
        match self.load.own_limit_kg {
            Some(limit) => format!(
                "your own limit is {} for one, and two together manage about two thirds of the sum, {}",
                words.of(Kind::Mass, limit),
                mass(2.0 * physics::carry::TEAM_SHARE * limit)
            ),
            None => format!(
                "now and then one person loads about {} and two about {}; NIOSH, strict, advises no more than {} for one and {} for two onto that tailgate, a limit for repeated lifts by most people",
                mass(PRACTICE_KG[0]),
                mass(PRACTICE_KG[1]),
                mass(self.strict[0]),
                mass(self.strict[1])
            ),
        }
    }

    fn lift(&self, words: Words) -> Finding {
        finding(
            "lift",
            self.grade(),
            format!(
                "{} onto a tailgate {} high: {}. For comparison, {}.",
                words.of(Kind::Mass, self.load.mass_kg),
                height(words, self.load.tailgate_m),
                self.verdict(),
                self.limits(words)
            ),
            &format!("{LIFTING}; what two can load: rule of thumb"),
        )
    }

    /// How a stationary upright is moved and set up.
    fn stands(&self, words: Words) -> Finding {
        let clear = match words.units {
            Units::Us => "18 in",
            Units::Metric => "45 cm",
        };
        finding(
            "stands",
            Grade::Note,
            format!(
                "It is top-heavy: a liftgate or a hoist, two people and an appliance dolly, never pushed up a ramp by hand. Unplug it, bleed the tank, drain the oil if it must lie down, and strap it upright. Where it stands, bolt it down on rubber pads with {clear} clear all around."
            ),
            "makers’ instructions for stationary machines; rule of thumb",
        )
    }

    fn ramp(&self, words: Words) -> Finding {
        let length = |metres: f64| enough(words, metres);
        let rolls = if self.load.wheels {
            "On its wheels"
        } else {
            "It has no wheels; on a dolly or hand truck"
        };
        let text = match self.ramps {
            [Some(one), _] if one <= USUAL_RAMP_M => {
                format!(
                    "{rolls} one person pushes it up a ramp of {} or longer, a second one steadies it.",
                    length(one)
                )
            }
            [_, Some(two)] if two <= USUAL_RAMP_M => {
                format!(
                    "{rolls} two people push it up a ramp of {} or longer.",
                    length(two)
                )
            }
            _ => format!(
                "{rolls} it is too heavy to push up a ramp of usual length: use a winch or a liftgate."
            ),
        };
        let basis = format!(
            "no steeper than {} degrees; inclined plane, a push of {} N as most adults manage for a few steps (Snook and Ciriello, 1991)",
            number(STEEPEST_DEGREES, 0),
            number(PUSH_N, 0)
        );
        finding("ramp", Grade::Note, text, &basis)
    }

    fn travels(&self) -> bool {
        self.way != Carry::Stays || self.by_practice().is_some()
    }

    /// The strict limit for one, by the equation.
    fn alone(&self, words: Words) -> Option<Sum> {
        let lift = Lift::onto(self.load.tailgate_m);
        let mut put_in = PutIn::new(words);
        put_in
            .of("r, reach from the ankles", Kind::Length, lift.reach_m)
            .of("a, height of the hands at the start", Kind::Length, lift.from_m)
            .of("t, tailgate", Kind::Length, self.load.tailgate_m);
        sums::LIFT_ONE.with(&mut put_in)
    }

    fn figures(&self, words: Words) -> Vec<Figure> {
        let given = |name: &'static str, value: String, rule: &sums::Rule| {
            let sum = rule.with(PutIn::new(words).text(name, value.clone()));
            sums::figure(name, value, sum)
        };
        let [alone, together] = self.strict.map(|kg| whole(words, kg));
        let mut two = PutIn::new(words);
        two.of("m, one person, by NIOSH", Kind::Mass, self.strict[0]);
        vec![
            given("mass", words.of(Kind::Mass, self.load.mass_kg), &sums::TYPED),
            given("tailgate", height(words, self.load.tailgate_m), &sums::TYPED),
            sums::figure("one person, by NIOSH", alone, self.alone(words)),
            sums::figure("two people, by NIOSH", together, sums::LIFT_TWO.with(&mut two)),
            given(
                "two people, by practice",
                whole(words, PRACTICE_KG[1]),
                &sums::LIFT_PRACTICE,
            ),
        ]
    }
}

/// Whether it goes along to the other places: as the power judges it, which knows what stays home.
fn trip(words: Words, basis: &Basis, facts: &Facts, case: Option<&Case>) -> Option<Finding> {
    let [first, others @ ..] = &basis.places[..] else {
        return None;
    };
    let quoted = |stays: bool| {
        let all = others.iter().zip(facts.places.iter().skip(1));
        let those = all.filter(|(_, found)| found.stays_home() == stays);
        let names: Vec<String> = those.map(|(place, _)| format!("“{}”", place.name)).collect();
        (!names.is_empty()).then(|| listed(&names))
    };
    let mut texts = Vec::new();
    if let Some(left) = quoted(true) {
        texts.push(format!(
            "It stays at “{}”: {left} wants a machine of its own, a lighter one.",
            first.name
        ));
    }
    let mut grade = if texts.is_empty() {
        Grade::Note
    } else {
        Grade::Fair
    };
    if let Some(to) = quoted(false) {
        let (how_hard, text) = along(&first.name, &to, case);
        grade = grade.max(how_hard);
        texts.push(text);
    }
    if texts.is_empty() {
        return None;
    }
    let text = texts.join(" ");
    let tank = match &basis.auxiliary {
        Some(tank) if tank.stays => format!(
            " The second tank of {} stays behind and is not counted there.",
            words.volume(tank.tank_m3)
        ),
        Some(tank) => format!(
            " The second tank of {} has to be carried as well, and its weight is not counted here.",
            words.volume(tank.tank_m3)
        ),
        None => String::new(),
    };
    Some(finding(
        "trip",
        grade,
        format!("{text}{tank}"),
        "by the lift above",
    ))
}

/// How it gets from the first place to those where it is to work too.
fn along(from: &str, to: &str, case: Option<&Case>) -> (Grade, String) {
    match case {
        Some(case) if case.travels() => (
            Grade::Note,
            format!(
                "It can go along from “{from}” to {to}: one machine does for all, a cord and hose for each."
            ),
        ),
        Some(_) => (
            Grade::Fair,
            format!(
                "From “{from}” to {to} it goes by liftgate or hoist alone: a lighter machine there saves that."
            ),
        ),
        None => (
            Grade::Unsure,
            format!("Whether it can go along from “{from}” to {to} hangs on its weight."),
        ),
    }
}

fn unstated(words: Words) -> Finding {
    finding(
        "mass",
        Grade::Unsure,
        format!(
            "The weight is not stated: look for it on the sheet or the carton, whose shipping weight is a little more. Above about {} it is no lift for two.",
            whole(words, PRACTICE_KG[1])
        ),
        "what two can load: rule of thumb",
    )
}

/// A tailgate higher than lifting is known for.
fn too_high(words: Words, basis: &Basis) -> Finding {
    finding(
        "lift",
        Grade::Unsure,
        format!(
            "No lifting figure holds for a tailgate {} high: they end at {}. Use a hoist or a liftgate.",
            height(words, basis.limits.tailgate_m.value),
            height(words, *HANDS_M.end())
        ),
        LIFTING,
    )
}

/// How it gets into the car, where its mass is stated and the tailgate within the sums.
pub fn way(basis: &Basis, candidate: &CandidateBasis) -> Option<&'static str> {
    Case::known(basis, candidate).map(|case| case.verdict())
}

/// Whether neither a lift by two nor a ramp gets it into the car.
pub fn stays(basis: &Basis, candidate: &CandidateBasis) -> bool {
    Case::known(basis, candidate).is_some_and(|case| case.way == Carry::Stays && case.by_practice().is_none())
}

/// The section about carrying.
pub fn section(words: Words, basis: &Basis, candidate: &CandidateBasis, facts: &Facts) -> Section {
    let case = Case::known(basis, candidate);
    let mut findings = Vec::new();
    let sentence = match &case {
        Some(case) => {
            findings.push(case.lift(words));
            findings.push(if case.upright {
                case.stands(words)
            } else {
                case.ramp(words)
            });
            format!("{}: {}.", words.of(Kind::Mass, case.load.mass_kg), case.verdict())
        }
        // A mass that the field takes is never out of range: it is the tailgate.
        None if candidate.mass_kg.is_some() => {
            findings.push(too_high(words, basis));
            "How it gets into the car is beyond these sums.".into()
        }
        None => {
            findings.push(unstated(words));
            "Its weight is not stated.".into()
        }
    };
    findings.extend(trip(words, basis, facts, case.as_ref()));
    Section {
        id: "carry".into(),
        title: "Can I move it?".into(),
        grade: findings
            .iter()
            .map(|found| found.grade)
            .fold(Grade::Note, Grade::max),
        sentence,
        findings,
        figures: case.map_or_else(Vec::new, |case| case.figures(words)),
        cautions: vec![
            format!(
                "Bleed the tank and unplug before lifting; lift square, close and from the legs, and stop at pain. Nobody is advised to lift more than {} alone even at the best place.",
                whole(words, LOAD_CONSTANT_KG)
            ),
            "No ramp steeper than 20 degrees, nobody below a load on it; strap it upright for the drive."
                .into(),
        ],
        ..Section::default()
    }
}
