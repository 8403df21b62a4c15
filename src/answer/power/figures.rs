//! The circuit's figures for a place, each with its sum.

use crate::answer::sums;
use crate::answer::words::Words;
use crate::assess::power::{PowerFacts, feed, gauge_of};
use crate::basis::{CandidateBasis, PlaceBasis, StartClue};
use crate::circuit::{CordLimits, RATED_C, Strands, Wire, ohm_per_m};
use crate::quantity::{Kind, figure};
use crate::report::Figure;
use crate::shop::Units;

type Known = (&'static str, String);

struct Circuit<'a> {
    words: Words,
    candidate: &'a CandidateBasis,
    place: &'a PlaceBasis,
    facts: &'a PowerFacts,
}

impl Circuit<'_> {
    /// Resistance of one conductor, by the length in which the user measures cords.
    fn ohms(&self, area_m2: f64, strands: Strands) -> String {
        let per_m = ohm_per_m(area_m2, strands, RATED_C).unwrap_or(0.0);
        match self.words.units {
            Units::Us => format!("{} ohm/kft", figure(per_m * 304.8)),
            Units::Metric => format!("{} ohm/km", figure(per_m * 1e3)),
        }
    }

    fn volts(&self, volts: f64) -> String {
        self.words.of(Kind::Voltage, volts)
    }

    fn length(&self, wire: Option<Wire>) -> String {
        self.words
            .of(Kind::Length, wire.map_or(0.0, |wire| wire.length_m))
    }

    /// The panel, what else it feeds, and the wire in the wall.
    fn panel(&self) -> Vec<Known> {
        let place = self.place;
        vec![
            ("Vₚ, at the panel", self.volts(place.volts.value)),
            ("I₀, other loads on the breaker", self.words.amps(place.other_a)),
            (
                "b, branch wire, one conductor",
                self.ohms(place.branch.0.value, Strands::Solid),
            ),
            ("L, its length", self.length(feed(place).branch)),
        ]
    }

    fn cord(&self) -> Vec<Known> {
        let cord = feed(self.place).cord;
        let ohms = self.place.cord.map_or_else(
            || "0 ohm/km".into(),
            |(area, _)| self.ohms(area, Strands::Stranded),
        );
        vec![
            ("c, cord, one conductor", ohms),
            ("l, its length", self.length(cord)),
        ]
    }

    fn plate(&self) -> [Known; 2] {
        [
            ("V₁, volts of the motor", self.volts(self.candidate.volts.value)),
            ("I₁, its current", self.words.amps(self.facts.amps)),
        ]
    }

    /// The current as it starts, and what that rests on.
    fn locked(&self) -> Known {
        let name = match (self.candidate.start, self.facts.start) {
            (StartClue::Letter(_), Some(_)) => {
                "Iₗ, rotor locked, middle of its code letter (NEC table 430.7(B))"
            }
            (StartClue::Amps(_), Some(_)) => "Iₗ, rotor locked, by the plate",
            (StartClue::Multiple(_), Some(_)) => "Iₗ, rotor locked, by its multiple of I₁",
            _ => "Iₗ, rotor locked, 6 times I₁ (4 to 8: common practice, no source)",
        };
        let likely = self
            .facts
            .start
            .map_or(6.0 * self.facts.amps, |start| start.likely);
        (name, self.words.amps(likely))
    }

    fn running(&self) -> Option<Figure> {
        let (words, running) = (self.words, self.facts.running?);
        let put_in = self.plate().into_iter().chain(self.panel()).chain(self.cord());
        Some(self.named(
            "running",
            format!(
                "{} and {} at the motor",
                words.volts(running.volts),
                words.amps(running.amps)
            ),
            sums::RUNNING.with(put_in),
        ))
    }

    fn starting(&self) -> Option<Figure> {
        let (words, starting, start) = (self.words, self.facts.starting?, self.facts.start?);
        let [volts, _] = self.plate();
        let put_in = [volts, self.locked()]
            .into_iter()
            .chain(self.panel())
            .chain(self.cord());
        Some(self.named(
            "starting",
            format!(
                "{} at the motor, {} of its torque; {} to {} locked",
                words.volts(starting.volts),
                words.share(starting.torque_share),
                words.amps(start.low),
                words.amps(start.high)
            ),
            sums::STARTING.with(put_in),
        ))
    }

    /// What a cord must keep.
    fn limits(&self) -> [Known; 2] {
        let limits = CordLimits::default();
        [
            (
                "d, most that wire and cord lose while running",
                self.words.percent(limits.drop_share),
            ),
            ("k, least at the start", self.words.percent(limits.start_share)),
        ]
    }

    fn longest(&self) -> Option<Figure> {
        let (words, longest) = (self.words, self.facts.longest_cord?);
        let gauge = gauge_of(self.place.cord?.0)?;
        let own = [
            ("A, most for this gauge", words.amps(gauge.cord_ampacity_a()?)),
            (
                "c, cord, one conductor",
                self.ohms(gauge.area_m2(), Strands::Stranded),
            ),
            self.locked(),
        ];
        let put_in = self
            .plate()
            .into_iter()
            .chain(own)
            .chain(self.limits())
            .chain(self.panel());
        Some(self.named(
            "longest cord of this gauge",
            words.of(Kind::Length, longest.length_m),
            sums::LONGEST_CORD.with(put_in),
        ))
    }

    fn smallest(&self) -> Option<Figure> {
        let (words, gauge) = (self.words, self.facts.smallest_cord??);
        let put_in = [("l, length", self.length(feed(self.place).cord)), self.locked()];
        let put_in = put_in
            .into_iter()
            .chain(self.plate())
            .chain(self.limits())
            .chain(self.panel());
        Some(self.named(
            "smallest cord that does",
            words.of(Kind::WireArea, gauge.area_m2()),
            sums::SMALLEST_CORD.with(put_in),
        ))
    }

    fn named(&self, what: &str, value: String, sum: Option<crate::report::Sum>) -> Figure {
        sums::figure(format!("{}: {what}", self.place.name), value, sum)
    }
}

/// The circuit's figures for a place.
pub fn figures(
    words: Words,
    candidate: &CandidateBasis,
    place: &PlaceBasis,
    facts: &PowerFacts,
) -> Vec<Figure> {
    let circuit = Circuit {
        words,
        candidate,
        place,
        facts,
    };
    [
        circuit.running(),
        circuit.starting(),
        circuit.longest(),
        circuit.smallest(),
    ]
    .into_iter()
    .flatten()
    .collect()
}
