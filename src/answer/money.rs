//! What the whole set costs to buy and to run, in words.

use super::day;
use super::label::beyond;
use super::label::finding;
use super::sums::{self, PutIn};
use super::words::{Words, listed};
use crate::report::{Figure, Finding, Grade, Section, Sum};
use judge::assess::Facts;
use judge::basis::{Basis, CandidateBasis};
use judge::line::two_settings;
use judge::power::{Circuit, Step};
use physics::circuit::CordSize;
use physics::cost::{Budget, Extra, Money, against, electricity, energy_kwh, price_per_cfm, set_total};
use quantity::range::OutOfRange;
use quantity::{Gauge, Kind, M3_S_PER_CFM, number};
use shop::{TaskKind, Units};

/// Cubic metres in ten litres: receivers are priced by them.
const TEN_LITRES_M3: f64 = 0.01;
/// 100 L/min, m³/s: by which metric labels compare.
const HUNDRED_L_MIN: f64 = 0.1 / 60.0;
/// 10 AWG, m², less 2 %: from here on a cord is dear. NEC chapter 9 table 8, 10,380 circular mils (from memory).
const HEAVY_CORD_M2: f64 = 0.98 * 5.26e-6;

const TYPICAL: &str = "prices of extras are typical ranges in US dollars of about 2025, taken one for one in other money, common practice, no source: your own are better";

/// Money to two figures, never cents: extras are known no better.
fn rough(words: Words, money: f64) -> String {
    let step = match money.abs() {
        size if size < 100.0 => 1.0,
        size if size < 1_000.0 => 5.0,
        _ => 10.0,
    };
    words.of(Kind::Money, (money / step).round() * step)
}

fn span(words: Words, money: Money) -> String {
    let (low, high) = (rough(words, money.low), rough(words, money.high));
    if low == high {
        low
    } else {
        format!("{low} to {high}")
    }
}

/// An extra, how many of it, and what it is called.
struct Piece {
    extra: Extra,
    count: f64,
    name: String,
}

/// Whips: one for each of the people of the task with most of them.
fn people(basis: &Basis) -> f64 {
    let on = basis.tasks.iter().filter(|task| task.on);
    on.map(|task| task.people.floor()).fold(1.0, f64::max)
}

/// What the power asks for at each place, by the same fix that the plan names; a cord that does is there already.
fn for_power(words: Words, facts: &Facts) -> Vec<Piece> {
    let fixes = facts.places.iter().filter_map(|found| found.power.first_fix());
    let steps = fixes.flat_map(|fix| &fix.steps);
    steps.flat_map(|step| for_step(words, step)).collect()
}

fn for_step(words: Words, step: &Step) -> Vec<Piece> {
    let piece = |extra, count, name: String| Piece { extra, count, name };
    let cord = |size: &CordSize, length_m: f64| {
        let extra = if size.area_m2 > HEAVY_CORD_M2 {
            Extra::Cord10
        } else {
            Extra::Cord12
        };
        let name = format!(
            "{} of {} cord",
            words.of(Kind::Length, length_m),
            words.cord_enough(size.area_m2)
        );
        piece(extra, length_m, name)
    };
    let more_hose = |hose_m: f64| {
        let name = format!("{} more of main hose", words.of(Kind::Length, hose_m));
        piece(Extra::TrunkHose, hose_m, name)
    };
    let circuit = |circuit: &Circuit| {
        let (amps, volts) = (words.amps(circuit.breaker_a), words.volts(circuit.volts));
        piece(
            Extra::Circuit,
            1.0,
            format!("a {amps}, {volts} circuit by an electrician"),
        )
    };
    match step {
        Step::HeavierCord { size, length_m } => vec![cord(size, *length_m)],
        Step::ShorterCord {
            size,
            length_m,
            hose_m,
        } => vec![cord(size, *length_m), more_hose(*hose_m)],
        Step::AtOutlet { hose_m } => vec![more_hose(*hose_m)],
        Step::OwnCircuit(own) if !own.spare => vec![circuit(own)],
        Step::Reconnect {
            circuit: Some(own), ..
        } if !own.spare => vec![circuit(own)],
        Step::Reconnect { .. } | Step::SmallerBreaker(_) => {
            vec![piece(Extra::Visit, 1.0, "an electrician’s visit".into())]
        }
        Step::GeneratorOutdoors
        | Step::GroundedOutlet
        | Step::RegularOutlet
        | Step::MoveOthers { .. }
        | Step::OwnCircuit(_)
        | Step::Generator(_) => Vec::new(),
    }
}

/// One regulator, or two where drill and rivet gun want different settings.
fn regulators(basis: &Basis) -> Piece {
    let (count, name) = match two_settings(basis) {
        Some(_) => (2.0, "two regulators with gauges, one for each setting"),
        None => (1.0, "a regulator with gauge"),
    };
    Piece {
        extra: Extra::Regulator,
        count,
        name: name.into(),
    }
}

/// What goes with the machine in this shop.
fn pieces(words: Words, basis: &Basis, candidate: &CandidateBasis, facts: &Facts) -> Vec<Piece> {
    let line = &basis.line;
    let length = |metres: f64| words.of(Kind::Length, metres);
    let piece = |extra, count, name: String| Piece { extra, count, name };
    let people = people(basis);
    let whips = if people > 1.0 {
        format!("{} whip hoses of {}", number(people, 0), length(line.whip.1))
    } else {
        format!("a whip hose of {}", length(line.whip.1))
    };
    let mut pieces = vec![
        piece(
            Extra::TrunkHose,
            line.trunk.1,
            format!("{} of main hose", length(line.trunk.1)),
        ),
        piece(Extra::Whip, people * line.whip.1, whips),
        piece(
            Extra::Coupler,
            line.couplers,
            format!("{} couplers with plugs", number(line.couplers, 0)),
        ),
        regulators(basis),
        piece(Extra::Trap, 1.0, "a water trap at the bench end".into()),
        piece(Extra::Drain, 1.0, "a drain within reach".into()),
    ];
    pieces.extend(for_power(words, facts));
    if let Some(tank) = basis.auxiliary.filter(|tank| tank.may_join(candidate.cut_out)) {
        let name = format!("a second tank of {}", words.volume(tank.tank_m3));
        pieces.push(piece(Extra::Receiver10L, tank.tank_m3 / TEN_LITRES_M3, name));
    }
    if basis
        .tasks
        .iter()
        .any(|task| task.on && task.kind == TaskKind::PaintGun)
    {
        let name = "a coalescing filter, a desiccant dryer and a hose for paint alone".into();
        pieces.push(piece(Extra::PaintAir, 1.0, name));
    }
    pieces
}

/// What the set costs; without a price the extras alone.
fn whole_set(candidate: &CandidateBasis, pieces: &[Piece]) -> Result<Money, OutOfRange> {
    let extras: Vec<(Extra, f64)> = pieces.iter().map(|piece| (piece.extra, piece.count)).collect();
    set_total(candidate.price.unwrap_or(0.0), &extras)
}

fn set(words: Words, candidate: &CandidateBasis, pieces: &[Piece], total: Money) -> Finding {
    let names: Vec<String> = pieces.iter().map(|piece| piece.name.clone()).collect();
    let extras = listed(&names);
    let (grade, text) = match candidate.price {
        Some(price) => (
            Grade::Note,
            format!(
                "The whole set costs {}: {} for the machine, the rest for {extras}. Leave out what lies in the shop already.",
                span(words, total),
                words.of(Kind::Money, price)
            ),
        ),
        None => (
            Grade::Unsure,
            format!(
                "The price is not stated. What goes with the machine costs {}: {extras}.",
                span(words, total)
            ),
        ),
    };
    finding("set", grade, text, TYPICAL)
}

fn budget(words: Words, basis: &Basis, candidate: &CandidateBasis, total: Money) -> Option<Finding> {
    let budget = basis.limits.budget?;
    let named = words.of(Kind::Money, budget);
    let known = candidate.price.is_some();
    let left = match against(total, budget) {
        Ok(left) => left,
        Err(error) => return Some(beyond("budget", "What is left of the budget", &error)),
    };
    let (grade, text) = match left {
        Budget::Within(_) if !known => (
            Grade::Unsure,
            format!(
                "Of {named} the extras leave {} to {} for the machine.",
                rough(words, budget - total.high),
                rough(words, budget - total.low)
            ),
        ),
        Budget::Within(left) => (
            Grade::Good,
            format!("Within {named}: at least {} are left.", rough(words, left)),
        ),
        Budget::Maybe => (
            Grade::Fair,
            format!(
                "Of {named}, {} are left if the extras are cheap, and {} are lacking if they are dear.",
                rough(words, budget - total.low),
                rough(words, total.high - budget)
            ),
        ),
        Budget::Over(over) => (
            Grade::Poor,
            format!(
                "Over {named} by at least {}: save on extras that lie in the shop, buy used, or look for a cheaper machine.",
                rough(words, over)
            ),
        ),
    };
    Some(finding("budget", grade, text, TYPICAL))
}

/// What the motor's current costs over the build.
struct Current {
    watts: f64,
    hours: f64,
    share: f64,
    kwh: f64,
    money: f64,
}

impl Current {
    /// By the mean over all places of their tasks' mean; `None` while flow, tasks or amps are missing.
    fn of(basis: &Basis, facts: &Facts) -> Option<Result<Self, OutOfRange>> {
        let shares: Vec<f64> = facts
            .places
            .iter()
            .filter_map(|found| Some(day::running(found)?.mean))
            .collect();
        let known = facts.places.iter().filter_map(day::watts);
        let (watts, hours) = (
            known.reduce(f64::max)?,
            basis.limits.hours_s.value / quantity::S_PER_H,
        );
        if shares.is_empty() {
            return None;
        }
        let share = shares.iter().sum::<f64>() / shares.len() as f64;
        Some(Self::by(watts, hours, share, basis.limits.tariff.value))
    }

    fn by(watts: f64, hours: f64, share: f64, tariff: f64) -> Result<Self, OutOfRange> {
        Ok(Self {
            watts,
            hours,
            share,
            kwh: energy_kwh(watts, hours, share)?,
            money: electricity(watts, hours, share, tariff)?,
        })
    }
}

fn current(words: Words, basis: &Basis, current: Option<&Current>) -> Finding {
    let Some(current) = current else {
        return finding(
            "electricity",
            Grade::Unsure,
            "What the electricity costs cannot be told before flow, tasks and amps are known: look for amps on the motor's plate.".into(),
            "volts, amps and running share",
        );
    };
    finding(
        "electricity",
        Grade::Note,
        format!(
            "Electricity over the build: about {}, {} kWh in {} of work of which the motor runs {}.",
            rough(words, current.money),
            number(current.kwh, 0),
            words.of(Kind::Hours, current.hours * quantity::S_PER_H),
            words.share(current.share)
        ),
        &format!(
            "{} W by volts times amps, a little more than the meter counts; {}; running share: the mean of the tasks, then of the places",
            number(current.watts, 0),
            words.of(Kind::Tariff, basis.limits.tariff.value)
        ),
    )
}

/// Price for flow, e.g. "$100 for each cfm at 90 psi".
pub fn each_flow(words: Words, candidate: &CandidateBasis, facts: &Facts) -> Option<String> {
    let delivered = facts.supply.likely()?.rated(Gauge::psi(90.0));
    let each = match price_per_cfm(candidate.price?, delivered) {
        Ok(each) => each,
        Err(error) => return Some(format!("can’t be figured: {error}")),
    };
    let at = words.pressure(Gauge::psi(90.0));
    let (money, unit) = match words.units {
        Units::Us => (each, "cfm"),
        Units::Metric => (each * HUNDRED_L_MIN / M3_S_PER_CFM, "100 L/min"),
    };
    Some(format!("{} for each {unit} at {at}", rough(words, money)))
}

/// Price for flow, by which two machines on a shelf compare.
fn per_flow(words: Words, candidate: &CandidateBasis, facts: &Facts) -> Option<Finding> {
    let each = each_flow(words, candidate, facts)?;
    let (grade, guess) = if facts.supply.range().is_some() {
        (Grade::Unsure, " The flow is a guess, and so is this.")
    } else {
        (Grade::Note, "")
    };
    Some(finding(
        "per_flow",
        grade,
        format!("{each}: compare machines by this, not by horsepower.{guess}"),
        "price over delivered flow",
    ))
}

impl Piece {
    fn cost(&self) -> Money {
        let each = self.extra.typical();
        Money {
            low: self.count * each.low,
            high: self.count * each.high,
        }
    }

    fn sum(&self, words: Words) -> Option<Sum> {
        let mut put_in = PutIn::new(words);
        put_in.text("e, price of one", between(words, self.extra.typical()));
        let rule = match self.extra {
            Extra::TrunkHose | Extra::Whip | Extra::Cord12 | Extra::Cord10 => {
                put_in.of("n, length in all", Kind::Length, self.count);
                &sums::PIECE_BY_METRE
            }
            Extra::Receiver10L => {
                put_in.of("V, volume", Kind::Volume, self.count * TEN_LITRES_M3);
                &sums::PIECE_BY_VOLUME
            }
            _ => {
                put_in.number("n, pieces", self.count);
                &sums::PIECE
            }
        };
        rule.with(&mut put_in)
    }
}

/// Money between two ends, as exactly as it is reckoned.
fn between(words: Words, money: Money) -> String {
    format!(
        "{} to {}",
        words.of(Kind::Money, money.low),
        words.of(Kind::Money, money.high)
    )
}

fn figures(words: Words, candidate: &CandidateBasis, pieces: &[Piece], total: Money) -> Vec<Figure> {
    let mut figures = Vec::new();
    let mut all = PutIn::new(words);
    if let Some(price) = candidate.price {
        let (name, price) = ("the machine", words.of(Kind::Money, price));
        all.text(name, price.clone());
        let sum = sums::TYPED.with(PutIn::new(words).text(name, price.clone()));
        figures.push(sums::figure(name, price, sum));
    }
    for piece in pieces {
        all.named(&piece.name, between(words, piece.cost()));
        figures.push(sums::figure(
            &piece.name,
            span(words, piece.cost()),
            piece.sum(words),
        ));
    }
    let name = if candidate.price.is_some() {
        "the whole set"
    } else {
        "all without the machine"
    };
    figures.push(sums::figure(
        name,
        span(words, total),
        sums::WHOLE_SET.with(&mut all),
    ));
    figures
}

fn sentence(words: Words, candidate: &CandidateBasis, total: Money, current: Option<&Current>) -> String {
    let set = match candidate.price {
        Some(_) => format!("The whole set costs {}", span(words, total)),
        None => format!(
            "The price is not stated; what goes with it costs {}",
            span(words, total)
        ),
    };
    match current {
        Some(current) => format!(
            "{set}, its electricity over the build about {}.",
            rough(words, current.money)
        ),
        None => format!("{set}."),
    }
}

/// The section about money.
pub fn section(words: Words, basis: &Basis, candidate: &CandidateBasis, facts: &Facts) -> Section {
    let pieces = pieces(words, basis, candidate, facts);
    let spent = Current::of(basis, facts);
    let total = match whole_set(candidate, &pieces) {
        Ok(total) => total,
        // Only absurd lengths come here, such as twenty whips of a kilometre.
        Err(error) => {
            return Section {
                id: "money".into(),
                title: "What does it all cost?".into(),
                grade: Grade::Unsure,
                sentence: format!(
                    "The sum is beyond reckoning: look at the prices and lengths again ({error})."
                ),
                ..Section::default()
            };
        }
    };
    let mut findings = vec![set(words, candidate, &pieces, total)];
    findings.extend(budget(words, basis, candidate, total));
    let spent = match spent.transpose() {
        Ok(spent) => {
            findings.push(current(words, basis, spent.as_ref()));
            spent
        }
        Err(error) => {
            findings.push(beyond("electricity", "The electricity", &error));
            None
        }
    };
    findings.extend(per_flow(words, candidate, facts));
    Section {
        id: "money".into(),
        title: "What does it all cost?".into(),
        grade: findings
            .iter()
            .map(|found| found.grade)
            .fold(Grade::Note, Grade::max),
        sentence: sentence(words, candidate, total, spent.as_ref()),
        figures: figures(words, candidate, &pieces, total),
        findings,
        cautions: vec![
            "Do not save on a used tank: no code plate, no relief valve, rust or a weld means no.".into(),
        ],
        ..Section::default()
    }
}
