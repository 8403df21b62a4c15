//! The tank while somebody works: one step after the other.

use super::step::Doing;
use super::{Fineness, Hands, MOST_S, Machine, Phase, Phases, Run, Step, VARIES, Work, Worker};
use crate::compressor::GAMMA;
use crate::receiver::{R_DRY_AIR, State};

/// Longest time that a worker is taken to wait at a stretch, s; beyond it the machine will not do.
const PATIENCE_S: f64 = 3_600.0;
/// How many times as long a coarse step may be as a fine one.
const COARSE: f64 = 9.0;
/// Steps and pieces after which a run ends: what was seen then stands for the rest.
const MOST_STEPS: usize = 40_000;
const MOST_PHASES: usize = 6_000;
/// Who waits, waits for this much more pressure at the least.
const LEAST_GAIN: f64 = 1e-3;
/// A pull of which a full tank holds less than this is done on what the motor makes.
const BREATHLESS: f64 = 0.05;
/// Lengths of a pull for which the pressure that it needs is tabulated.
const NODES: usize = 8;

#[derive(Clone, Copy, Default)]
pub(super) struct Sums {
    pub seconds: f64,
    pub running_s: f64,
    pub starts: f64,
    pub waiting_s: f64,
    pub trigger_s: f64,
    pub weak_s: f64,
    pub drawn_kg: f64,
    pub delivered_kg: f64,
}

/// A tank at work.
pub(super) struct Tank<'a> {
    pub machine: &'a Machine,
    pub work: &'a Work,
    worker: Worker,
    pub state: State,
    pub motor: bool,
    pub sums: Sums,
    pub lowest_pa: f64,
    pub longest_step_s: f64,
    pub most_s: f64,
    /// A run ends once so much was waited.
    pub most_waiting_s: f64,
    /// One over how many times as long as the finest a step may be.
    pub per_stride: f64,
    pub steps: usize,
    hopeless: bool,
    /// The worker waits where the tool goes weak, and waiting is of use.
    pub gives_up: bool,
    breathless: bool,
    /// Tank pressures that pulls of 0 to [`Self::longest_pull_s`] need.
    needs: [f64; NODES + 1],
    longest_pull_s: f64,
    /// One over the tool's full flow, s/kg.
    pub per_full: f64,
    /// Heat that the walls exchanged in the middle of the last step, W/K: a step begins with that, and its own middle
    /// counts.
    pub conductance: f64,
    /// Mass delivered at the first start of the motor and at the last, kg.
    pub start_marks: Option<[f64; 2]>,
}

/// Pressures from which pulls of 0, 1/8 … 8/8 of `longest_s` end at the lowest useful one, the motor running.
fn needs(machine: &Machine, work: &Work, longest_s: f64) -> [f64; NODES + 1] {
    let step_s = longest_s / NODES as f64;
    let wall_k = machine.receiver.wall_k;
    let sinking = |pressure: f64| {
        let out = work.draw.at(pressure) + work.aside(machine, pressure);
        let net = out * wall_k - machine.delivery.at(pressure) * machine.in_kelvin;
        GAMMA * R_DRY_AIR / machine.receiver.volume_m3 * net / work.pace(machine, pressure)
    };
    let mut needs = [work.enough_pa; NODES + 1];
    let mut pressure = work.enough_pa;
    for need in needs.iter_mut().skip(1) {
        let middle = pressure + 0.5 * step_s * sinking(pressure);
        pressure = (pressure + step_s * sinking(middle)).max(pressure);
        *need = pressure;
    }
    needs
}

/// Whether a full tank holds next to nothing of one pull.
fn breathless(machine: &Machine, work: &Work) -> bool {
    let full = machine
        .receiver
        .state(machine.cut_out_pa, machine.receiver.wall_k);
    let left = (work.enough_pa / machine.cut_out_pa)
        .clamp(0.0, 1.0)
        .powf(1.0 / GAMMA);
    full.mass_kg * (1.0 - left) < BREATHLESS * work.full_kg_s(machine) * work.rhythm.on_s
}

impl<'a> Tank<'a> {
    /// A full tank at rest, the motor off.
    pub fn full(machine: &'a Machine, work: &'a Work, worker: Worker, fineness: Fineness) -> Self {
        let longest_pull_s = (1.0 + VARIES) * work.rhythm.on_s;
        let gives_up = worker != Worker::WorksOn && !work.lasting(machine);
        Self {
            machine,
            work,
            worker,
            state: machine
                .receiver
                .state(machine.cut_out_pa, machine.receiver.wall_k),
            motor: false,
            sums: Sums::default(),
            lowest_pa: machine.cut_out_pa,
            longest_step_s: 30.0,
            most_s: MOST_S,
            most_waiting_s: f64::INFINITY,
            per_stride: match fineness {
                Fineness::Fine => 1.0,
                Fineness::Coarse => 1.0 / COARSE,
            },
            steps: 0,
            hopeless: false,
            gives_up,
            breathless: gives_up && breathless(machine, work),
            needs: needs(machine, work, longest_pull_s),
            longest_pull_s,
            per_full: 1.0 / work.full_kg_s(machine).max(1e-12),
            conductance: 0.0,
            start_marks: None,
        }
    }

    pub fn pressure_pa(&self) -> f64 {
        self.machine.receiver.pressure_pa(self.state)
    }

    pub fn seconds(&self) -> f64 {
        self.sums.seconds
    }

    pub fn weak_s(&self) -> f64 {
        self.sums.weak_s
    }

    fn over(&self) -> bool {
        let sums = &self.sums;
        let over = sums.seconds >= self.most_s || sums.waiting_s > self.most_waiting_s;
        self.hopeless || self.steps > MOST_STEPS || over
    }

    /// The pressure that a pull of so many seconds needs, by the temperature that the tank's air has.
    fn needed_pa(&self, seconds: f64) -> f64 {
        let place = (seconds / self.longest_pull_s).clamp(0.0, 1.0) * NODES as f64;
        let index = (place as usize).min(NODES - 1);
        let enough = self.work.enough_pa;
        let Some([low, high]) = self.needs.get(index..index + 2) else {
            return enough;
        };
        let above = low + (high - low) * (place - index as f64) - enough;
        enough + above * self.state.kelvin / self.machine.receiver.wall_k
    }

    fn rest(&mut self, seconds: f64, observe: &mut dyn FnMut(Step)) {
        let mut left = seconds;
        while left > 1e-9 && !self.over() {
            left -= self.advance(left, Doing::Rests, observe).done_s;
        }
    }

    /// Waits for a pressure, at the most until the switch opens.
    fn wait(&mut self, for_pa: f64, observe: &mut dyn FnMut(Step)) {
        let mut waited = 0.0;
        while self.motor && self.pressure_pa() < for_pa * (1.0 - 1e-6) && !self.over() {
            waited += self
                .advance(PATIENCE_S - waited, Doing::Waits(for_pa), observe)
                .done_s;
            self.hopeless = waited > PATIENCE_S - 1.0;
        }
    }

    /// Before a pull, or what is left of one: waits, where that is of use, for the pressure that it needs.
    fn wait_before(&mut self, pull_s: f64, is_weak: bool, observe: &mut dyn FnMut(Step)) {
        if !self.gives_up || !self.motor {
            return;
        }
        let cut_out = self.machine.cut_out_pa;
        let target = match self.worker {
            Worker::WorksOn => return,
            Worker::Patient if !is_weak => return,
            Worker::Patient => cut_out,
            Worker::Spares => self
                .needed_pa(pull_s)
                .max(self.work.enough_pa * (1.0 + LEAST_GAIN))
                .min(cut_out),
        };
        self.wait(target, observe);
    }

    /// The trigger is wanted for so long. Waiting does not count towards it.
    fn pull(&mut self, seconds: f64, observe: &mut dyn FnMut(Step)) {
        if self.breathless {
            return self.on_what_the_motor_makes(seconds, 0.0);
        }
        let mut left = seconds;
        let mut is_weak = self.pressure_pa() <= self.work.enough_pa * (1.0 + 1e-5);
        self.wait_before(left, is_weak, observe);
        while left > 1e-9 && !self.over() {
            let ended = self.advance(left, Doing::Pulls, observe);
            left -= ended.done_s;
            is_weak = ended.weak;
            if is_weak && left > 1e-9 {
                self.wait_before(left, is_weak, observe);
            }
        }
    }

    /// A spell with its pulls drawn out evenly over it: at the lowest useful pressure it goes on as fast as the motor
    /// makes air.
    fn even(&mut self, seconds: f64, observe: &mut dyn FnMut(Step)) {
        let mut left = seconds;
        while left > 1e-9 && !self.over() {
            let ended = self.advance(left, Doing::Evenly, observe);
            left -= ended.done_s;
            if ended.weak && left > 1e-9 {
                if self.worker == Worker::Patient {
                    self.wait(self.machine.cut_out_pa, observe);
                } else {
                    let trigger_s = left * self.work.rhythm.spell_share();
                    return self.on_what_the_motor_makes(trigger_s, left - trigger_s);
                }
            }
        }
    }

    /// Work on what the motor makes at the lowest useful pressure, the tank no help: it takes as long as that air does.
    fn on_what_the_motor_makes(&mut self, trigger_s: f64, gaps_s: f64) {
        let enough = self.work.enough_pa;
        let trigger_s = trigger_s / self.work.pace(self.machine, enough);
        let takes_kg = trigger_s * self.work.draw.at(enough);
        let aside = self.work.aside(self.machine, enough);
        let makes = self.machine.delivery.at(enough) - aside;
        let works_s = trigger_s + gaps_s;
        let clock_s = (takes_kg / makes.max(1e-12)).max(works_s);
        if clock_s > PATIENCE_S.max(60.0 * works_s) {
            self.hopeless = true;
            return;
        }
        self.sums.seconds += clock_s;
        self.sums.running_s += clock_s;
        self.sums.waiting_s += clock_s - works_s;
        self.sums.trigger_s += trigger_s;
        self.sums.drawn_kg += takes_kg + aside * clock_s;
        self.sums.delivered_kg += takes_kg + aside * clock_s;
    }

    /// Works through so many seconds of a job, waiting not counted.
    pub fn work_through(&mut self, hands: Hands, seconds: f64, observe: &mut dyn FnMut(Step)) {
        let even = self.work.by_mean(self.machine);
        let phases = Phases::new(self.work.rhythm, hands, seconds, even);
        for phase in phases.take(MOST_PHASES) {
            match phase {
                Phase::Pull(seconds) => self.pull(seconds, observe),
                Phase::Rest(seconds) => self.rest(seconds, observe),
                Phase::Even(seconds) => self.even(seconds, observe),
            }
            if self.over() {
                break;
            }
        }
    }

    /// Holds the trigger until the tool goes weak or `most_s` are over.
    pub fn hold(&mut self, most_s: f64) {
        self.advance(most_s, Doing::Holds, &mut |_| {});
    }

    /// Lets the motor run with nothing drawn by the tool, at the most for `within_s`.
    pub fn fill(&mut self, within_s: f64) {
        while self.motor && self.sums.seconds < within_s && self.steps < MOST_STEPS {
            self.advance(within_s - self.sums.seconds, Doing::Rests, &mut |_| {});
        }
    }

    /// Starts an hour from the mass that the motor delivers from one start to another, since starts come in bunches and
    /// a run may end between them.
    fn starts_per_hour(&self) -> f64 {
        let sums = self.sums;
        let per_hour = 3_600.0 / sums.seconds.max(1.0);
        match self.start_marks {
            Some([first, last]) if last > first => {
                (sums.starts - 1.0) * sums.drawn_kg / (last - first) * per_hour
            }
            _ => sums.starts * per_hour,
        }
    }

    /// What it came to. What the tank gained or lost is not part of how long the motor runs.
    pub fn answer(&self) -> Run {
        let sums = self.sums;
        let share = |part: f64, whole: f64| {
            if whole > 0.0 {
                (part / whole).clamp(0.0, 1.0)
            } else {
                0.0
            }
        };
        let fair = if sums.delivered_kg > 0.0 {
            sums.drawn_kg / sums.delivered_kg
        } else {
            1.0
        };
        Run {
            running: share(sums.running_s * fair, sums.seconds),
            starts_per_hour: self.starts_per_hour(),
            waiting: share(sums.waiting_s, sums.seconds),
            weak: share(sums.weak_s, sums.trigger_s),
            drawn_kg_s: sums.drawn_kg / sums.seconds.max(1.0),
            lowest_pa: self.lowest_pa,
            hopeless: self.hopeless,
            steps: self.steps,
        }
    }
}
