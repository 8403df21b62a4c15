//! The circuit's figures for a place, each with its sum.

use crate::report::{Figure, Sum};
use crate::sums::{self, PutIn};
use crate::words::Words;
use judge::assess::power::{PowerFacts, feed, gauge_of};
use judge::basis::{CandidateBasis, PlaceBasis, StartClue};
use physics::circuit::{CordLimits, RATED_C, Strands, Wire, ohm_per_m};
use quantity::{Kind, figure};
use shop::Units;

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

    /// The panel, what else it feeds, and the wire in the wall.
    fn panel(&self, put_in: &mut PutIn) {
        let place = self.place;
        put_in
            .of("Vₚ, at the panel", Kind::Voltage, place.volts.value)
            .of("I₀, other loads on the breaker", Kind::Current, place.other_a)
            .text(
                "b, branch wire, one conductor",
                self.ohms(place.branch.0.value, Strands::Solid),
            )
            .of("L, its length", Kind::Length, length(feed(place).branch));
    }

    fn cord(&self, put_in: &mut PutIn) {
        let ohms = match self.place.cord {
            Some((area, _)) => self.ohms(area, Strands::Stranded),
            None => "0 ohm/km".into(),
        };
        put_in
            .text("c, cord, one conductor", ohms)
            .of("l, its length", Kind::Length, self.cord_m());
    }

    fn cord_m(&self) -> f64 {
        length(feed(self.place).cord)
    }

    fn volts(&self) -> PutIn {
        let mut put_in = PutIn::new(self.words);
        put_in.of(
            "V₁, volts of the motor",
            Kind::Voltage,
            self.candidate.volts.value,
        );
        put_in
    }

    fn plate(&self) -> PutIn {
        let mut put_in = self.volts();
        put_in.of("I₁, its current", Kind::Current, self.facts.amps);
        put_in
    }

    /// The current as it starts, and what that rests on.
    fn locked(&self, put_in: &mut PutIn) {
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
        put_in.of(name, Kind::Current, likely);
    }

    fn running(&self) -> Option<Figure> {
        let (words, running) = (self.words, self.facts.running?);
        let mut put_in = self.plate();
        self.panel(&mut put_in);
        self.cord(&mut put_in);
        Some(self.named(
            "running",
            format!(
                "{} and {} at the motor",
                words.volts(running.volts),
                words.amps(running.amps)
            ),
            sums::RUNNING.with(&mut put_in),
        ))
    }

    fn starting(&self) -> Option<Figure> {
        let (words, starting, start) = (self.words, self.facts.starting?, self.facts.start?);
        let mut put_in = self.volts();
        self.locked(&mut put_in);
        self.panel(&mut put_in);
        self.cord(&mut put_in);
        Some(self.named(
            "starting",
            format!(
                "{} at the motor, {} of its torque; {} to {} locked",
                words.volts(starting.volts),
                words.share(starting.torque_share),
                words.amps(start.low),
                words.amps(start.high)
            ),
            sums::STARTING.with(&mut put_in),
        ))
    }

    /// The motor, what a cord must keep, the panel.
    fn limits(&self) -> PutIn {
        let limits = CordLimits::default();
        let mut put_in = self.plate();
        self.locked(&mut put_in);
        put_in
            .percent("d, most that wire and cord lose while running", limits.drop_share)
            .percent("k, least at the start", limits.start_share);
        self.panel(&mut put_in);
        put_in
    }

    fn longest(&self) -> Option<Figure> {
        let (words, longest) = (self.words, self.facts.longest_cord?);
        let gauge = gauge_of(self.place.cord?.0)?;
        let mut put_in = self.limits();
        put_in
            .of("A, most for this gauge", Kind::Current, gauge.cord_ampacity_a()?)
            .text(
                "c, cord, one conductor",
                self.ohms(gauge.area_m2(), Strands::Stranded),
            );
        Some(self.named(
            "longest cord of this gauge",
            words.of(Kind::Length, longest.length_m),
            sums::LONGEST_CORD.with(&mut put_in),
        ))
    }

    fn smallest(&self) -> Option<Figure> {
        let (words, gauge) = (self.words, self.facts.smallest_cord??);
        let mut put_in = self.limits();
        put_in.of("l, length", Kind::Length, self.cord_m());
        Some(self.named(
            "smallest cord that does",
            words.cord_enough(gauge.area_m2()),
            sums::SMALLEST_CORD.with(&mut put_in),
        ))
    }

    fn named(&self, what: &str, value: String, sum: Option<Sum>) -> Figure {
        sums::figure(&format!("{}: {what}", self.place.name), value, sum)
    }
}

fn length(wire: Option<Wire>) -> f64 {
    wire.map_or(0.0, |wire| wire.length_m)
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
