//! The circuit's figures for a place, each with its sum.

use crate::report::{Figure, Sum};
use crate::sums::{self, PutIn};
use crate::words::Words;
use judge::basis::{CandidateBasis, PlaceBasis, StartClue};
use judge::power::{Fit, Load, PowerVerdict, cord_to_take, feed, warm_feed};
use physics::circuit::{Code, CordSize, Feed, Strands, Wire, longest_cord_m, ohm_per_m};
use quantity::{Kind, figure};
use shop::Units;

struct Circuit<'a> {
    words: Words,
    candidate: &'a CandidateBasis,
    place: &'a PlaceBasis,
    load: Load,
}

/// Temperature at which a cord's drop is reckoned, °C: as `physics::circuit::cord_drop_share`.
const COLD_C: f64 = 20.0;

impl Circuit<'_> {
    /// Resistance of one conductor, by the length in which the user measures cords.
    fn ohms(&self, per_m: f64) -> String {
        match self.words.units {
            Units::Us => format!("{} ohm/kft", figure(per_m * 304.8)),
            Units::Metric => format!("{} ohm/km", figure(per_m * 1e3)),
        }
    }

    fn ohms_of(&self, wire: Option<Wire>, celsius: f64) -> String {
        let Some(wire) = wire else {
            return self.ohms(0.0);
        };
        match wire.loop_ohm(celsius) {
            Ok(ohm) => self.ohms(ohm / (2.0 * wire.length_m)),
            Err(error) => error.to_string(),
        }
    }

    /// The panel, what else it feeds, the wire in the wall and the cord, at a feed's temperature.
    fn way(&self, put_in: &mut PutIn, feed: &Feed) {
        put_in
            .of("Vₚ, at the panel", Kind::Voltage, self.place.volts.value)
            .of(
                "I₀, other loads on the breaker",
                Kind::Current,
                self.place.other_a,
            )
            .text(
                "b, branch wire, one conductor",
                self.ohms_of(feed.branch, feed.celsius),
            )
            .of("L, its length", Kind::Length, length(feed.branch))
            .text("c, cord, one conductor", self.ohms_of(feed.cord, feed.celsius))
            .of("l, its length", Kind::Length, length(feed.cord));
    }

    fn volts(&self) -> PutIn {
        let mut put_in = PutIn::new(self.words);
        put_in.of("V₁, volts of the motor", Kind::Voltage, self.load.volts);
        put_in
    }

    fn plate(&self) -> PutIn {
        let mut put_in = self.volts();
        put_in.of("I₁, its current", Kind::Current, self.load.amps);
        put_in
    }

    /// The current as it starts, and what that rests on.
    fn locked(&self, put_in: &mut PutIn) {
        let name = match self.candidate.start {
            StartClue::Letter(_) if self.load.start_given => {
                "Iₗ, rotor locked, middle of its code letter (NEC table 430.7(B))"
            }
            StartClue::Amps(_) if self.load.start_given => "Iₗ, rotor locked, by the plate",
            StartClue::Multiple(_) if self.load.start_given => "Iₗ, rotor locked, by its multiple of I₁",
            _ => "Iₗ, rotor locked, 6 times I₁ (4 to 8: rule of thumb)",
        };
        put_in.of(name, Kind::Current, self.load.start.likely);
    }

    fn running(&self) -> Option<Figure> {
        let (words, running) = (self.words, self.load.running?);
        let mut put_in = self.plate();
        self.way(&mut put_in, &warm_feed(self.place, self.load.amps));
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
        let (words, starting, start) = (self.words, self.load.starting?, self.load.start);
        let mut put_in = self.volts();
        self.locked(&mut put_in);
        self.way(&mut put_in, &feed(self.place));
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

    fn code(&self) -> Code {
        self.place.wiring.code
    }

    fn longest(&self) -> Option<Figure> {
        let (words, (area_m2, _)) = (self.words, self.place.cord?);
        let size = CordSize::of(self.code(), area_m2);
        let longest_m = longest_cord_m(size, self.load.amps, self.load.volts);
        let per_m = ohm_per_m(area_m2, Strands::Stranded, COLD_C);
        // What is beyond the sums is among the findings.
        let (Ok(longest_m), Ok(per_m)) = (longest_m, per_m) else {
            return None;
        };
        let mut put_in = self.plate();
        put_in.text("c, cord, one conductor", self.ohms(per_m));
        (longest_m > 0.0).then(|| {
            self.named(
                "longest cord of this gauge",
                words.of(Kind::Length, longest_m),
                sums::LONGEST_CORD.with(&mut put_in),
            )
        })
    }

    fn smallest(&self) -> Option<Figure> {
        let (words, (_, length_m)) = (self.words, self.place.cord?);
        let advice = cord_to_take(self.code(), self.load.amps, self.load.volts, length_m)?;
        let mut put_in = self.plate();
        put_in.of("l, length", Kind::Length, length_m);
        Some(self.named(
            "smallest cord that does",
            words.of(Kind::WireArea, advice.size?.area_m2),
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

/// The circuit's figures for a place; none where volts or current say nothing of it.
pub fn figures(
    words: Words,
    candidate: &CandidateBasis,
    place: &PlaceBasis,
    verdict: &PowerVerdict,
) -> Vec<Figure> {
    let Some(load) = verdict.load.filter(|load| load.fit != Fit::Other) else {
        return Vec::new();
    };
    let circuit = Circuit {
        words,
        candidate,
        place,
        load,
    };
    let figures = [
        circuit.running(),
        circuit.starting(),
        circuit.longest(),
        circuit.smallest(),
    ];
    figures.into_iter().flatten().collect()
}
