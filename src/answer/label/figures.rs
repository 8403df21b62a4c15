//! The label's figures, each with its sum.

use crate::answer::sums;
use crate::answer::words::Words;
use crate::assess::Facts;
use crate::assess::machine::{Supply, plug_amps};
use crate::assess::power::{AmpsFrom, full_load_amps, table_volts};
use crate::basis::CandidateBasis;
use crate::circuit::PLUG_LOAD_SHARE;
use crate::compressor::{HORSEPOWER_EFFICIENCY, OVERALL_EFFICIENCY, Pump, RATING_PA, typical_clearance};
use crate::quantity::{FreeAir, Gauge, Kind, figure, number};
use crate::report::{Figure, Sum};
use crate::shop::MachineKind;

/// The flow of the label that a curve was drawn through.
fn drawn_through(candidate: &CandidateBasis, pump: &Pump) -> Option<(FreeAir, Gauge)> {
    let through =
        |(flow, at): &&(FreeAir, Gauge)| (pump.rated(*at).as_m3_s() / flow.as_m3_s() - 1.0).abs() < 1e-6;
    candidate.flows.iter().find(through).copied()
}

/// What every sum along the delivery curve is given besides the flow.
fn curve(words: Words, pump: &Pump, at: Gauge) -> [(&'static str, String); 4] {
    [
        ("c, loss by clearance", words.percent(pump.clearance())),
        ("e, by kind of machine", figure(pump.exponent())),
        ("p, on the gauge", words.exactly(at.as_pa())),
        ("p₀, air that labels count in, absolute", words.exactly(RATING_PA)),
    ]
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
    let curve = curve(words, pump, at);
    let stages = || {
        (
            "s, stages",
            if candidate.kind == MachineKind::PistonTwoStage {
                "2"
            } else {
                "1"
            }
            .into(),
        )
    };
    let guessed_at = || {
        (
            "p₁, where the guess is made",
            words.exactly(Gauge::psi(90.0).as_pa()),
        )
    };
    let volts = || ("V, volts", words.of(Kind::Voltage, candidate.volts.value));
    let [least, _, most] = OVERALL_EFFICIENCY;
    match supply {
        Supply::Measured(_) => {
            let displacement = (
                "D, displacement",
                words.of(Kind::Flow, pump.displacement().as_m3_s()),
            );
            sums::DELIVERS_MEASURED.with([displacement].into_iter().chain(curve))
        }
        Supply::FromAmps(_) => {
            let amps = ("I, amps", words.amps(candidate.amps?));
            let own = [
                ("η, share that becomes air", ends(least, most)),
                volts(),
                amps,
                stages(),
                guessed_at(),
            ];
            sums::DELIVERS_BY_AMPS.with(own.into_iter().chain(curve))
        }
        Supply::FromHorsepower(_) => {
            let [low, _, high] = HORSEPOWER_EFFICIENCY;
            let own = [
                ("η, share of horsepower", ends(low, high)),
                ("P, horsepower", words.of(Kind::Power, candidate.power_w?)),
                ("ηₚ, share of what a plug gives", ends(least, most)),
                volts(),
                (
                    "Iₚ, most that a plug gives",
                    words.amps(plug_amps(candidate.volts.value)),
                ),
                stages(),
                guessed_at(),
            ];
            sums::DELIVERS_BY_POWER.with(own.into_iter().chain(curve))
        }
        _ => {
            let (flow, stated_at) = drawn_through(candidate, pump)?;
            let own = [
                ("q₁, flow stated", words.of(Kind::Flow, flow.as_m3_s())),
                (
                    "p₁, where it is stated, on the gauge",
                    words.exactly(stated_at.as_pa()),
                ),
            ];
            sums::DELIVERS.with(own.into_iter().chain(curve))
        }
    }
}

/// How the clearance comes about; behind a measured flow stands the label's.
fn clearance(words: Words, candidate: &CandidateBasis, pump: &Pump) -> Option<Sum> {
    let rest = [
        ("e, by kind of machine", figure(pump.exponent())),
        ("p₀, air that labels count in, absolute", words.exactly(RATING_PA)),
    ];
    let label = Supply::of_label(candidate).0;
    if let (Supply::TwoFlows(_), [one, other]) = (label, &candidate.flows[..]) {
        let own = [
            ("q₁, one flow", words.of(Kind::Flow, one.0.as_m3_s())),
            ("p₁, where, on the gauge", words.exactly(one.1.as_pa())),
            ("q₂, the other", words.of(Kind::Flow, other.0.as_m3_s())),
            ("p₂, where, on the gauge", words.exactly(other.1.as_pa())),
        ];
        return sums::CLEARANCE_FITTED.with(own.into_iter().chain(rest));
    }
    let through = label.likely().and_then(|pump| drawn_through(candidate, &pump));
    let at = through.map_or(Gauge::psi(90.0), |(_, at)| at);
    let own = [
        (
            "c₀, typical of the kind",
            words.percent(typical_clearance(candidate.kind)),
        ),
        (
            "p₁, where the flow is stated, on the gauge",
            words.exactly(at.as_pa()),
        ),
    ];
    sums::CLEARANCE_TYPICAL.with(own.into_iter().chain(rest))
}

fn current(
    words: Words,
    candidate: &CandidateBasis,
    amps: f64,
    from: AmpsFrom,
    pump: Option<&Pump>,
) -> Option<Sum> {
    let volts = ("V, volts", words.of(Kind::Voltage, candidate.volts.value));
    match from {
        AmpsFrom::Plate => sums::AMPS_PLATE.with([("I, plate", words.amps(amps)), volts]),
        AmpsFrom::Flow => {
            let at = Gauge::psi(90.0);
            let stages = if candidate.kind == MachineKind::PistonTwoStage {
                "2"
            } else {
                "1"
            };
            sums::AMPS_BY_FLOW.with([
                (
                    "q, delivered flow",
                    words.of(Kind::Flow, pump?.rated(at).as_m3_s()),
                ),
                ("p, where, on the gauge", words.exactly(at.as_pa())),
                ("p₀, air that labels count in, absolute", words.exactly(RATING_PA)),
                ("s, stages", stages.into()),
                ("η, share that becomes air", number(OVERALL_EFFICIENCY[1], 2)),
                volts,
            ])
        }
        AmpsFrom::Horsepower => {
            let base = table_volts(candidate.volts.value);
            sums::AMPS_BY_POWER.with([
                ("horsepower", words.of(Kind::Power, candidate.power_w?)),
                (
                    "Iₜ, of the table",
                    words.amps(amps * candidate.volts.value / base),
                ),
                ("Vₜ, of the table", words.volts(base)),
                volts,
            ])
        }
    }
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
                format!("delivers at {}", words.pressure(at)),
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
            "breaker that carries it plugged in",
            format!("{} or more", words.amps((amps / PLUG_LOAD_SHARE).ceil())),
            sums::BREAKER.with([("I, current", words.amps(amps))]),
        ));
    }
    figures
}
