//! The label's figures, each with its sum.

use crate::report::{Figure, Sum};
use crate::sums::{self, PutIn};
use crate::words::Words;
use judge::assess::Facts;
use judge::assess::machine::{DELIVERED_OF_SUCTION, Supply, plug_amps};
use judge::basis::CandidateBasis;
use judge::power::{AmpsFrom, full_load_amps, own_breaker_a, table_volts};
use physics::circuit::Code;
use physics::compressor::{HORSEPOWER_EFFICIENCY, OVERALL_EFFICIENCY, Pump, RATING_PA, typical_clearance};
use quantity::{FreeAir, Gauge, Kind, number};
use shop::MachineKind;

/// The flow of the label that a curve was drawn through.
fn drawn_through(candidate: &CandidateBasis, pump: &Pump) -> Option<(FreeAir, Gauge)> {
    let through =
        |(flow, at): &&(FreeAir, Gauge)| (pump.rated(*at).as_m3_s() / flow.as_m3_s() - 1.0).abs() < 1e-6;
    candidate.flows.iter().find(through).copied()
}

/// What every sum along the delivery curve is given besides the flow.
fn curve(put_in: &mut PutIn, pump: &Pump, at: Gauge) {
    put_in
        .percent("c, loss by clearance", pump.clearance())
        .number(KIND, pump.exponent())
        .pressure("p, on the gauge", at.as_pa())
        .pressure(LABEL_AIR, RATING_PA);
}

const KIND: &str = "e, by kind of machine";
const LABEL_AIR: &str = "p₀, air that labels count in, absolute";
const VOLTS: &str = "V, volts";
const STATED_AT: &str = "p₁, where it is stated, on the gauge";

fn stages(candidate: &CandidateBasis) -> f64 {
    if candidate.kind == MachineKind::PistonTwoStage {
        2.0
    } else {
        1.0
    }
}

fn ends(low: f64, high: f64) -> String {
    format!("{} to {}", number(low, 2), number(high, 2))
}

fn delivers(
    words: Words,
    candidate: &CandidateBasis,
    supply: &Supply,
    pump: &Pump,
    at: Gauge,
) -> Option<Sum> {
    let mut put_in = PutIn::new(words);
    let [least, _, most] = OVERALL_EFFICIENCY;
    let volts = candidate.volts.value;
    let rule = match supply {
        Supply::Measured(_) => {
            put_in.flow("D, displacement", pump.displacement());
            &sums::DELIVERS_MEASURED
        }
        Supply::FromSuction(_) => {
            let [low, _, high] = DELIVERED_OF_SUCTION;
            put_in
                .text("η, share that is delivered", ends(low, high))
                .flow("Q, taken in", candidate.suction?)
                .pressure("p₁, where the guess is made", Gauge::psi(90.0).as_pa());
            &sums::DELIVERS_BY_SUCTION
        }
        Supply::FromAmps(_) => {
            put_in.text("η, share that becomes air", ends(least, most)).of(
                "I, amps",
                Kind::Current,
                candidate.amps?,
            );
            &sums::DELIVERS_BY_AMPS
        }
        Supply::FromHorsepower(_) => {
            let [low, _, high] = HORSEPOWER_EFFICIENCY;
            put_in
                .text("η, share of horsepower", ends(low, high))
                .of("P, horsepower", Kind::Power, candidate.power_w?)
                .text("ηₚ, share of what a plug gives", ends(least, most))
                .of("Iₚ, most that a plug gives", Kind::Current, plug_amps(volts));
            &sums::DELIVERS_BY_POWER
        }
        _ => {
            let (flow, stated_at) = drawn_through(candidate, pump)?;
            put_in
                .flow("q₁, flow stated", flow)
                .pressure(STATED_AT, stated_at.as_pa());
            &sums::DELIVERS
        }
    };
    if supply.range().is_some() && !matches!(supply, Supply::FromSuction(_)) {
        put_in
            .of(VOLTS, Kind::Voltage, volts)
            .number("s, stages", stages(candidate))
            .pressure("p₁, where the guess is made", Gauge::psi(90.0).as_pa());
    }
    curve(&mut put_in, pump, at);
    rule.with(&mut put_in)
}

/// How the clearance comes about; behind a measured flow stands the label's.
fn clearance(words: Words, candidate: &CandidateBasis, pump: &Pump) -> Option<Sum> {
    let mut put_in = PutIn::new(words);
    put_in
        .number(KIND, pump.exponent())
        .pressure(LABEL_AIR, RATING_PA);
    let label = Supply::of_label(candidate).0;
    if let (Supply::TwoFlows(_), [one, other]) = (label, &candidate.flows[..]) {
        put_in
            .flow("q₁, one flow", one.0)
            .pressure(STATED_AT, one.1.as_pa())
            .flow("q₂, the other", other.0)
            .pressure("p₂, where that is stated", other.1.as_pa());
        return sums::CLEARANCE_FITTED.with(&mut put_in);
    }
    let through = label.likely().and_then(|pump| drawn_through(candidate, &pump));
    let at = through.map_or(Gauge::psi(90.0), |(_, at)| at);
    put_in
        .percent("c₀, typical of the kind", typical_clearance(candidate.kind))
        .pressure(STATED_AT, at.as_pa());
    sums::CLEARANCE_TYPICAL.with(&mut put_in)
}

fn current(
    words: Words,
    candidate: &CandidateBasis,
    amps: f64,
    from: AmpsFrom,
    pump: Option<&Pump>,
) -> Option<Sum> {
    let volts = candidate.volts.value;
    let mut put_in = PutIn::new(words);
    let rule = match from {
        AmpsFrom::Plate => {
            put_in.of("I, plate", Kind::Current, amps);
            &sums::AMPS_PLATE
        }
        AmpsFrom::Flow => {
            let at = Gauge::psi(90.0);
            put_in
                .flow("q, delivered flow", pump?.rated(at))
                .pressure("p, where, on the gauge", at.as_pa())
                .pressure(LABEL_AIR, RATING_PA)
                .number("s, stages", stages(candidate))
                .number("η, share that becomes air", OVERALL_EFFICIENCY[1]);
            &sums::AMPS_BY_FLOW
        }
        AmpsFrom::Power => {
            let base = table_volts(volts);
            put_in
                .of("horsepower", Kind::Power, candidate.power_w?)
                .of("Iₜ, of the table", Kind::Current, amps * volts / base)
                .of("Vₜ, of the table", Kind::Voltage, base);
            &sums::AMPS_BY_POWER
        }
    };
    put_in.of(VOLTS, Kind::Voltage, volts);
    rule.with(&mut put_in)
}

/// What it delivers, draws and asks of a breaker.
pub fn figures(words: Words, candidate: &CandidateBasis, facts: &Facts) -> Vec<Figure> {
    let mut figures = Vec::new();
    let likely = facts.supply.likely();
    if let Some(pump) = &likely {
        for psi in [40.0, 90.0, 120.0] {
            let at = Gauge::psi(psi);
            let flow = match facts
                .supply
                .range()
                .map(|ends| ends.map(|end| words.flow(end.rated(at))))
            {
                Some([low, high]) => format!("{low} to {high}, a guess"),
                None => words.flow(pump.rated(at)),
            };
            let sum = delivers(words, candidate, &facts.supply, pump, at);
            figures.push(sums::figure(
                &format!("delivers at {}", words.pressure(at)),
                flow,
                sum,
            ));
        }
        let from = match facts.supply {
            Supply::Measured(_) => "the shape behind what was measured",
            Supply::TwoFlows(_) => "from the two flows",
            Supply::OneFlow(_) => "typical, as one flow cannot tell",
            _ => "typical, as no flow is given",
        };
        figures.push(sums::figure(
            "loss by clearance",
            format!("{} %, {from}", number(pump.clearance() * 100.0, 1)),
            clearance(words, candidate, pump),
        ));
    }
    if let Some((amps, from)) = full_load_amps(candidate, likely.as_ref()) {
        let told = if from == AmpsFrom::Plate {
            "plate"
        } else {
            "estimated"
        };
        figures.push(sums::figure(
            "current",
            format!(
                "{} at {}, {told}",
                words.amps(amps),
                words.volts(candidate.volts.value)
            ),
            current(words, candidate, amps, from, likely.as_ref()),
        ));
        figures.push(sums::figure(
            "breaker of its own",
            words.amps(own_breaker_a(Code::Nec, amps)),
            sums::BREAKER.with(PutIn::new(words).of("I, current", Kind::Current, amps)),
        ));
    }
    figures
}
