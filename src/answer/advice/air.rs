//! The air's piece: for which jobs it is enough, how surely, and what then.

use super::ground::AS_IS;
use super::{Case, Ground};
use crate::jobs::{doing, makes_holes, when};
use crate::tasks::not_read;
use crate::words::listed;
use judge::assess::TaskFacts;
use judge::assess::machine::Supply;
use judge::basis::{TaskBasis, Unread};
use judge::grade::Grade;
use judge::paint::Coat;
use judge::power::Cause;
use judge::verdict::{Record, Why};
use physics::air::RATING;
use quantity::{Absolute, FreeAir, Gauge, M3_PER_GALLON};
use shop::TaskKind;
use shop::part::Part;
use uom::si::f64::MassRate;
use uom::si::mass_rate::kilogram_per_second;

/// A trigger time on a full tank that is called a long burst, and one that is called short, s. Judgement.
const LONG_BURST_S: f64 = 60.0;
const SHORT_BURST_S: f64 = 15.0;
/// A tank from which a burst is long by the tank, not by the pump. Judgement.
const LARGE_TANK_M3: f64 = 40.0 * M3_PER_GALLON;
/// Outside air thinner than this share of the sea level's is spoken of: about 3,000 ft.
const THIN_AIR: f64 = 0.90;
/// A timed flow below this share of the printed one is spoken of.
const SHORT_OF_PRINT: f64 = 0.95;
/// So many jobs are named in a sentence.
const NAMED: usize = 3;

/// Jobs in the order in which they are spoken of.
const FIRST_NAMED: [TaskKind; 7] = [
    TaskKind::PaintGun,
    TaskKind::PrimerGun,
    TaskKind::DieGrinder,
    TaskKind::Sander,
    TaskKind::Drill,
    TaskKind::RivetGun,
    TaskKind::RivetPuller,
];

impl<'a> Case<'a> {
    /// The air's piece.
    pub(super) fn air(&self) -> Ground {
        if let Some(ask) = self.asked() {
            return ask;
        }
        let Some(worst) = self.worst() else {
            return self.silent();
        };
        let (sentence, fine) = match worst.grade {
            Grade::Small => self.too_small(worst),
            Grade::Good => (self.enough(), None),
            Grade::Wait => self.waits(worst),
            _ => (self.not_judged(worst), None),
        };
        Ground {
            grade: worst.grade,
            sentence: [self.remark(), sentence].concat(),
            also: fine.into_iter().chain(self.stays()).collect(),
            odds: self.odds(worst),
            next: self.next_for_air(worst),
            next_in_short: self.next_in_short(worst),
            ..Ground::default()
        }
    }

    /// The worst record of each task over all places, in the shop's order.
    fn by_task(&self) -> Vec<&'a Record> {
        let mut worst: Vec<&Record> = Vec::new();
        for record in self.verdict.iter().flat_map(|verdict| &verdict.records) {
            match worst.iter_mut().find(|kept| kept.task == record.task) {
                Some(kept) if (record.grade, kept.done) > (kept.grade, record.done) => *kept = record,
                Some(_) => {}
                None => worst.push(record),
            }
        }
        worst
    }

    /// Tasks whose worst grade is as wanted, those that are named first in front.
    fn tasks_that(&self, wanted: impl Fn(Grade) -> bool) -> Vec<usize> {
        let records = self.by_task().into_iter().filter(|record| wanted(record.grade));
        let mut tasks: Vec<usize> = records.map(|record| record.task).collect();
        let rank = |task: &usize| {
            let kind = self.basis.tasks[*task].kind;
            FIRST_NAMED
                .iter()
                .position(|first| *first == kind)
                .unwrap_or(FIRST_NAMED.len())
        };
        quantity::order::by_key(&mut tasks, rank);
        tasks
    }

    fn named(&self, tasks: &[usize]) -> String {
        let names: Vec<String> = tasks
            .iter()
            .take(NAMED)
            .map(|task| doing(&self.basis.tasks[*task]))
            .collect();
        listed(&names)
    }

    /// "Fine for riveting."; nothing where the machine is remarked on first, as two things are enough at once.
    fn fine_for(&self) -> Option<String> {
        if !self.remark().is_empty() {
            return None;
        }
        let fine = self.tasks_that(|grade| grade == Grade::Good);
        let of = |task: &usize| self.basis.tasks[*task].kind;
        let riveting = fine.iter().copied().find(|task| of(task) == TaskKind::RivetGun);
        let sprays = |task: &usize| matches!(of(task), TaskKind::PaintGun | TaskKind::PrimerGun);
        let holds = |task: &usize| {
            let mut coats = self.coats.iter().filter(|coat| coat.task == *task);
            coats.all(|coat| coat.grade == Grade::Good)
        };
        // The odds know nothing of a gun that fades.
        let fine = fine.into_iter().filter(|task| !sprays(task) || holds(task));
        let named: Vec<usize> = match riveting {
            Some(riveting) => fine.filter(sprays).chain([riveting]).collect(),
            None => fine.take(2).collect(),
        };
        (!named.is_empty()).then(|| format!("Fine for {}.", self.named(&named)))
    }

    fn too_small(&self, worst: &Record) -> (String, Option<String>) {
        let small = self.tasks_that(|grade| grade == Grade::Small);
        let jobs = match small.len() {
            0..=NAMED => self.named(&small),
            _ => format!("{} and more", self.named(&small[..2])),
        };
        match self.long_burst(worst) {
            Some([burst, refill]) => (
                format!("Too small for steady {jobs}: {burst} bursts, then {refill} to refill."),
                None,
            ),
            None => (format!("Too small for {jobs}."), self.fine_for()),
        }
    }

    fn waits(&self, worst: &Record) -> (String, Option<String>) {
        let task = &self.basis.tasks[worst.task];
        // Nobody waits in a coat: it is held, or spoiled.
        if let Some(coat) = self.coat(worst) {
            let said = crate::paint::painting(self.words, self.basis, coat).short;
            return (said, self.fine_for());
        }
        if let Some([burst, refill]) = self.long_burst(worst) {
            let bursts = format!(
                "Works in bursts of {burst}; then expect {refill} to refill {}.",
                when(task)
            );
            return (bursts, self.fine_for());
        }
        let short = self
            .trigger_s(worst)
            .is_some_and(|seconds| seconds < SHORT_BURST_S);
        let how = if short { "Works in short bursts" } else { "Works" };
        let fine = self.fine_for().filter(|_| self.beside(worst).is_none());
        (
            format!("{how}: expect to wait {}.", self.when_together(worst)),
            fine,
        )
    }

    /// The coat of a record, where one is sprayed.
    fn coat(&self, record: &Record) -> Option<&'a Coat> {
        let mut coats = self.coats.iter();
        coats.find(|coat| (coat.place, coat.task) == (record.place, record.task))
    }

    /// What goes on at the same time as the work that decides.
    fn beside(&self, worst: &Record) -> Option<&TaskBasis> {
        let task = &self.basis.tasks[worst.task];
        let mut tasks = self.basis.tasks.iter().enumerate();
        let other =
            tasks.find(|(index, other)| *index != worst.task && other.on && other.together && task.together);
        other.map(|(_, other)| other)
    }

    /// "when drilling", or "when drilling while the other is riveting".
    fn when_together(&self, worst: &Record) -> String {
        let task = &self.basis.tasks[worst.task];
        match self.beside(worst) {
            Some(other) => format!("{} while the other is {}", when(task), doing(other)),
            None => when(task),
        }
    }

    fn enough(&self) -> String {
        let fine = self.tasks_that(|grade| grade == Grade::Good);
        let most = if self.remark().is_empty() {
            NAMED
        } else {
            NAMED - 1
        };
        format!(
            "Does the job: plenty for {}.",
            self.named(&fine[..fine.len().min(most)])
        )
    }

    /// What leaves it open: a refused field with what was read and what would do.
    fn not_judged(&self, worst: &Record) -> String {
        let job = doing(&self.basis.tasks[worst.task]);
        match worst.why {
            Some(Why::NotRead(
                unread @ Unread {
                    part: Part::Task(_), ..
                },
            )) => {
                format!("Can’t say yet for {job}: {}", not_read(self.basis, unread))
            }
            Some(Why::NotRead(unread)) => format!("Can’t say yet: {}", not_read(self.basis, unread)),
            _ => format!("Can’t say yet for {job}."),
        }
    }

    /// The air in a clause, where something else leads.
    pub(super) fn air_clause(&self, grade: Grade) -> String {
        match (grade, self.worst()) {
            (_, None) | (Grade::Ask, _) => String::new(),
            (Grade::Small, Some(_)) => {
                let small = self.tasks_that(|grade| grade == Grade::Small);
                format!("And it is too small for {}.", self.named(&small))
            }
            (Grade::Wait, Some(worst)) => format!(
                "Its air does, with waits {}.",
                when(&self.basis.tasks[worst.task])
            ),
            _ if !self.other_pressure().is_empty() => self.other_pressure().trim_end().into(),
            _ if self.far_more() => "Its air is far more than you need.".into(),
            _ => "Its air is enough.".into(),
        }
    }

    /// Twice what to look for.
    fn far_more(&self) -> bool {
        let rated = self
            .facts
            .supply
            .likely()
            .map(|pump| pump.rated(Gauge::psi(90.0)).as_m3_s());
        let wanted = self.window.map(|window| window.flow.as_m3_s());
        rated
            .zip(wanted)
            .is_some_and(|(rated, wanted)| rated > 2.0 * wanted)
    }

    fn facts_of(&self, record: &Record) -> Option<&'a TaskFacts> {
        let place = self.facts.places.get(record.place)?;
        place.tasks.iter().find(|facts| facts.task == record.task)
    }

    fn trigger_s(&self, record: &Record) -> Option<f64> {
        self.facts_of(record)?.trigger_s
    }

    /// Trigger time on a full tank and the time to fill it again, where a large tank hides a small pump.
    fn long_burst(&self, record: &Record) -> Option<[String; 2]> {
        let facts = self.facts_of(record)?;
        let burst = facts.trigger_s.filter(|seconds| *seconds > LONG_BURST_S)?;
        let refill = facts.recovery_s?;
        (self.candidate.tank_m3.value >= LARGE_TANK_M3 && refill > 5.0 * LONG_BURST_S)
            .then(|| [self.words.time(burst), self.words.time(refill)])
    }

    /// "It stays home at “Garage”.", where another place is left to a machine of its own.
    fn stays(&self) -> Option<String> {
        let stays = self
            .facts
            .places
            .iter()
            .any(|place| place.power.cause == Cause::StaysHome);
        let home = self.basis.places.first().filter(|_| stays)?;
        Some(format!("It stays home at “{}”.", home.name))
    }

    /// What must be known before the sentence: timed below print, flow stated at another pressure, thin air.
    fn remark(&self) -> String {
        [self.timed_short(), self.other_pressure(), self.thin_air()].concat()
    }

    fn timed_short(&self) -> String {
        let at = Gauge::psi(90.0);
        let (Supply::Measured(timed), label) = (self.facts.supply, Supply::of_label(self.candidate).0) else {
            return String::new();
        };
        let Some(printed) = label.likely().filter(|_| label.range().is_none()) else {
            return String::new();
        };
        match timed.rated(at).as_m3_s() < SHORT_OF_PRINT * printed.rated(at).as_m3_s() {
            true => format!(
                "Timed, it makes {} at 90 psi, less than printed. ",
                self.words.flow(timed.rated(at))
            ),
            false => String::new(),
        }
    }

    fn other_pressure(&self) -> String {
        let at = Gauge::psi(90.0);
        match (self.facts.supply, &self.candidate.flows[..]) {
            (Supply::OneFlow(pump), [(flow, stated)]) if stated.as_pa() < 0.8 * at.as_pa() => format!(
                "{} is at {}: likely {} at {}. ",
                self.words.flow(*flow),
                self.words.pressure(*stated),
                self.words.flow(pump.rated(at)),
                self.words.pressure(at)
            ),
            _ => String::new(),
        }
    }

    /// "At 8,000 ft its 5 cfm is worth 3.4 cfm."
    fn thin_air(&self) -> String {
        let Some(worst) = self.worst() else {
            return String::new();
        };
        let (place, facts) = (&self.basis.places[worst.place], &self.facts.places[worst.place]);
        let (Some(machine), Some(pump)) = (&facts.machine, self.facts.supply.likely()) else {
            return String::new();
        };
        let outside = place.air.pressure();
        if outside.as_pa() > THIN_AIR * RATING.pressure().as_pa() {
            return String::new();
        }
        let at: Absolute = Gauge::psi(90.0).at(outside);
        let mass = MassRate::new::<kilogram_per_second>(machine.delivery.at(at.as_pa()));
        let worth = FreeAir::of_mass(mass, RATING.density());
        let label = pump.rated(Gauge::psi(90.0));
        format!(
            "Up here its {} is worth {}. ",
            self.words.flow(label),
            self.words.flow(worth)
        )
    }

    fn odds(&self, worst: &Record) -> String {
        let (done, unwaited) = (worst.done_tenths(), worst.unwaited_tenths());
        match worst.grade {
            Grade::Good if unwaited >= 8 => {
                format!("Should do: {unwaited} in 10 shops like yours never wait.")
            }
            Grade::Good => format!("Should do: {done} in 10 shops like yours hardly wait."),
            Grade::Small | Grade::Wait if self.coat(worst).is_some() => {
                format!("In {} of 10 shops like yours the gun fades.", 10 - done)
            }
            Grade::Small | Grade::Wait => {
                format!("{} of 10 shops like yours wait too long.", 10 - done)
            }
            _ => String::new(),
        }
    }

    /// The same in a few words, where more is to be said.
    fn next_in_short(&self, worst: &Record) -> Option<String> {
        let remarked = !self.timed_short().is_empty() || !self.other_pressure().is_empty();
        let task = self.basis.tasks.get(worst.task)?;
        match (task.kind, worst.grade) {
            _ if remarked => None,
            (_, Grade::Good) => None,
            _ if makes_holes(task) => Some("Drill cordless.".into()),
            (TaskKind::PaintGun, Grade::Small) => Some("Borrow or rent a bigger one for the paint.".into()),
            _ => None,
        }
    }

    /// What to do about the air, by the job that decides.
    fn next_for_air(&self, worst: &Record) -> String {
        if !self.timed_short().is_empty() {
            return "Check intake filter, leaks, reed valves and belt; then time it again.".into();
        }
        if !self.other_pressure().is_empty() {
            return "Find its cfm at 90 psi in the manual.".into();
        }
        if worst.grade == Grade::Good {
            return AS_IS.into();
        }
        let more = self.look_for();
        let task = &self.basis.tasks[worst.task];
        match task.kind {
            _ if makes_holes(task) => format!("Drill cordless, or look for {more}."),
            TaskKind::PaintGun if worst.grade == Grade::Small => {
                format!("Borrow or rent a bigger one for the paint, or look for {more}.")
            }
            TaskKind::DieGrinder => "Use an electric or cordless grinder.".into(),
            TaskKind::Sander => format!("Use an electric sander, or look for {more}."),
            _ => format!("Look for {more}."),
        }
    }

    /// "4 cfm or more on a 20 gal tank".
    pub(super) fn look_for(&self) -> String {
        super::look_for(self.words, self.basis, self.window)
    }
}
