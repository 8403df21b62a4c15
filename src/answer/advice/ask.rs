//! What can't be said yet, and what would settle it.

use super::{Case, Ground};
use crate::words::capital;
use judge::assess::machine::Supply;
use judge::grade::Grade;
use judge::verdict::AskAir;
use quantity::{Gauge, Kind, number};

/// W in one horsepower.
const HP_W: f64 = 745.7;

impl Case<'_> {
    fn ask(&self, sentence: String, odds: String, next: &str) -> Ground {
        Ground {
            grade: Grade::Ask,
            sentence,
            odds,
            next: next.into(),
            ..Ground::default()
        }
    }

    /// What stands between the label and a verdict, if anything.
    pub(super) fn asked(&self) -> Option<Ground> {
        if self.basis.places.is_empty() || !self.basis.tasks.iter().any(|task| task.on) {
            let lacking = if self.basis.places.is_empty() {
                "place"
            } else {
                "task"
            };
            return Some(self.ask(
                format!("This shop has no {lacking} yet."),
                String::new(),
                &format!("Add a {lacking} and the answer appears here."),
            ));
        }
        if let Some(suction) = self.candidate.suction.filter(|_| self.candidate.flows.is_empty()) {
            return Some(self.suction(suction));
        }
        match self.verdict.and_then(|verdict| verdict.asks)? {
            AskAir::Guessed => Some(self.guessed()),
            AskAir::CannotBe => Some(self.incredible("isn't possible")),
            AskAir::Unlikely => Some(self.incredible("is hardly possible")),
            AskAir::Contradiction => Some(self.ask(
                "The two flows on this label contradict each other.".into(),
                "One of them is misread, swapped, or displacement.".into(),
                "Look for cfm at 90 psi in the manual.",
            )),
            AskAir::RunsDiffer(share) => Some(self.ask(
                format!("Your timed runs differ by {} %.", number(100.0 * share, 0)),
                "That is more than a hand on a stopwatch.".into(),
                "Strike the bad run, or time it again from the same pressure.",
            )),
            AskAir::TimedOverPrint(times) => Some(self.ask(
                format!("Timed, it makes {} times what is printed.", number(times, 1)),
                "One of the two is wrong.".into(),
                "Check tank size and gauge readings, and time it again.",
            )),
        }
    }
}

impl Case<'_> {
    /// Nothing is typed of the machine that matters to a verdict.
    pub(super) fn is_blank(&self) -> bool {
        let candidate = self.candidate;
        let told = candidate.amps.is_some() || candidate.tank_m3.is_given() || candidate.price.is_some();
        candidate.flows.is_empty() && !told && self.asked().is_none() && self.worst().is_none()
    }

    /// Nothing typed that tells the air.
    pub(super) fn silent(&self) -> Ground {
        let next = format!("Look for {}.", self.look_for());
        if self.is_blank() {
            return Ground {
                is_bare: true,
                ..self.ask(
                    next,
                    "Enough in 8 of 10 shops like yours.".into(),
                    &self.more_air_for_less_tank(),
                )
            };
        }
        self.ask(
            "Can't tell without cfm at 90 psi.".into(),
            "Look on the box or in the manual.".into(),
            &next,
        )
    }

    /// "With 5 cfm a 25 gal tank will do.", so that a smaller tank that does is no riddle; nothing where there is none.
    fn more_air_for_less_tank(&self) -> String {
        let smaller = self.window.and_then(|window| window.smaller);
        smaller.map_or_else(String::new, |(tank_m3, flow)| {
            format!(
                "With {} {} tank will do.",
                self.words.flow_enough(flow),
                super::with_article(&self.words.volume_enough(tank_m3))
            )
        })
    }

    /// The flow is a guess from amps or horsepower.
    fn guessed(&self) -> Ground {
        let at = Gauge::psi(90.0);
        let Some([low, high]) = self.facts.supply.range() else {
            return self.silent();
        };
        let likely = format!(
            "likely {} to {}",
            self.words.flow(low.rated(at)),
            self.words.flow(high.rated(at))
        );
        let printed_hp = self.candidate.power_w.is_some() || self.candidate.peak_power_w.is_some();
        let sentence = match printed_hp {
            true => "Look for cfm at 90 psi: horsepower tells nothing.",
            false => "Can't tell without cfm at 90 psi.",
        };
        let odds = match self.candidate.amps {
            Some(amps) => {
                let volts = self.candidate.volts.value;
                let drawn = number(amps * volts / HP_W, 1);
                format!(
                    "{} at {} is {drawn} hp at most: {likely}.",
                    self.words.amps(amps),
                    self.words.volts(volts)
                )
            }
            None => format!("{}.", capital(&likely)),
        };
        let next = format!("Find it on the box: {}.", self.look_for());
        self.ask(sentence.into(), odds, &next)
    }

    /// The claimed flow is more than volts and amps can make.
    fn incredible(&self, how: &str) -> Ground {
        let Some((_, watts, drawn)) = self.facts.claim else {
            return self.silent();
        };
        let flow = self
            .candidate
            .flows
            .first()
            .map_or_else(String::new, |(flow, _)| self.words.flow(*flow));
        let amps = self
            .candidate
            .amps
            .map_or_else(String::new, |amps| self.words.amps(amps));
        let guess = Supply::guess(self.candidate).range();
        let likely = guess.map_or_else(String::new, |[low, high]| {
            let at = Gauge::psi(90.0);
            format!(
                " Likely {} to {}.",
                self.words.flow(low.rated(at)),
                self.words.flow(high.rated(at))
            )
        });
        self.ask(
            format!("{flow} {how} on {amps}."),
            format!(
                "The bare work is {} hp of the {} hp it draws.{likely}",
                number(watts / HP_W, 1),
                number(drawn / HP_W, 1)
            ),
            "Check the flow on the motor nameplate or in the manual.",
        )
    }

    /// Only the suction flow of a European label: delivery is half to seven tenths of it.
    fn suction(&self, suction: quantity::FreeAir) -> Ground {
        let share = |share: f64| {
            self.words
                .flow(quantity::FreeAir::m3_s(share * suction.as_m3_s()))
        };
        self.ask(
            format!(
                "{} is suction, not delivery.",
                self.words.of(Kind::Flow, suction.as_m3_s())
            ),
            format!(
                "Likely {} to {} delivered.",
                share(SUCTION_DELIVERED[0]),
                share(SUCTION_DELIVERED[1])
            ),
            "Look for the flow delivered at 6 or 7 bar.",
        )
    }
}

/// What a small piston machine delivers at 6 to 7 bar of the suction flow that its label states. Common practice, no source.
const SUCTION_DELIVERED: [f64; 2] = [0.53, 0.70];
