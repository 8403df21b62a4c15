//! The tank while somebody works: one step after the other.

use super::{Fineness, Hands, MOST_S, Machine, Phase, Phases, Rhythm, Run, Step, VARIES, Work, Worker};
use crate::compressor::GAMMA;
use crate::receiver::{CV, Flows, R_DRY_AIR, State};

/// Longest time that a worker is taken to wait at a stretch, s; beyond it the machine will not do.
const PATIENCE_S: f64 = 3_600.0;
/// Share of pressure by which a step may move it.
const BY_PRESSURE: f64 = 0.02;
/// Largest share of the tank's air that flows in and out in one step.
const PASSAGE: f64 = 0.05;
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
struct Sums {
    seconds: f64,
    running_s: f64,
    starts: f64,
    waiting_s: f64,
    trigger_s: f64,
    weak_s: f64,
    drawn_kg: f64,
    delivered_kg: f64,
}

/// What goes on during a step.
#[derive(Clone, Copy)]
struct Doing {
    /// Share of the tool's flow that is drawn.
    share: f64,
    /// The worker waits for this pressure.
    waits_for_pa: Option<f64>,
}

const RESTS: Doing = Doing {
    share: 0.0,
    waits_for_pa: None,
};

/// How a step ended.
struct Ended {
    seconds: f64,
    /// The tool went weak, and waiting is of use.
    weak: bool,
}

/// A tank at work.
pub(super) struct Tank<'a> {
    machine: &'a Machine,
    work: &'a Work,
    worker: Worker,
    pub state: State,
    pub motor: bool,
    sums: Sums,
    lowest_pa: f64,
    pub longest_step_s: f64,
    pub most_s: f64,
    /// A run ends once so much was waited.
    pub most_waiting_s: f64,
    stride: f64,
    steps: usize,
    hopeless: bool,
    /// The worker waits where the tool goes weak, and waiting is of use.
    gives_up: bool,
    breathless: bool,
    /// Tank pressures that pulls of 0 to [`Self::longest_pull_s`] need.
    needs: [f64; NODES + 1],
    longest_pull_s: f64,
    /// Mass delivered at the first start of the motor and at the last, kg.
    start_marks: Option<[f64; 2]>,
}

/// Share of a step in which a pressure that goes straight from `from` to `to` is below `limit`.
fn share_below(limit: f64, from: f64, to: f64) -> f64 {
    match (from < limit, to < limit) {
        (true, true) => 1.0,
        (false, false) => 0.0,
        (true, false) => (limit - from) / (to - from),
        (false, true) => (limit - to) / (from - to),
    }
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
            stride: match fineness {
                Fineness::Fine => 1.0,
                Fineness::Coarse => 3.0,
            },
            steps: 0,
            hopeless: false,
            gives_up,
            breathless: gives_up && breathless(machine, work),
            needs: needs(machine, work, longest_pull_s),
            longest_pull_s,
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

    fn flows(&self, share: f64) -> impl Fn(f64) -> Flows + 'a {
        let (machine, work, motor) = (self.machine, self.work, self.motor);
        move |pressure_pa| Flows {
            in_kg_s: if motor {
                machine.delivery.at(pressure_pa)
            } else {
                0.0
            },
            in_kelvin: machine.in_kelvin,
            out_kg_s: work.aside(machine, pressure_pa)
                + if share > 0.0 {
                    share * work.draw.at(pressure_pa)
                } else {
                    0.0
                },
        }
    }

    /// The longest step that keeps the midpoint rule honest: a share of pressure, half the walls' time constant, and a
    /// share of what the tank holds passing through it, since its warmth changes even where the pressure stands still.
    fn step_seconds(&self, pressure_pa: f64, rates: (f64, f64), flows: Flows, conductance: f64) -> f64 {
        let slope = pressure_pa * (rates.0 / self.state.mass_kg + rates.1 / self.state.kelvin);
        let by_pressure = BY_PRESSURE * pressure_pa / slope.abs().max(1e-9);
        let by_walls = 0.5 * self.state.mass_kg * CV / conductance.max(1e-9);
        let by_passage = PASSAGE * self.state.mass_kg / (flows.in_kg_s + flows.out_kg_s).max(1e-9);
        let longest = self.stride * by_pressure.min(by_passage);
        longest.min(by_walls).min(self.longest_step_s)
    }

    /// The pressure at which something switches, given where the step leads.
    fn crossing(&self, to_pa: f64, doing: Doing) -> Option<f64> {
        let machine = self.machine;
        let target = doing.waits_for_pa.filter(|target| to_pa >= *target);
        if self.motor && to_pa >= machine.cut_out_pa {
            return Some(target.map_or(machine.cut_out_pa, |target| target.min(machine.cut_out_pa)));
        }
        if target.is_some() {
            return target;
        }
        if !self.motor && to_pa <= machine.cut_in_pa {
            return Some(machine.cut_in_pa);
        }
        self.goes_weak(to_pa, doing).then_some(self.work.enough_pa)
    }

    fn goes_weak(&self, pressure_pa: f64, doing: Doing) -> bool {
        doing.share > 0.0 && self.motor && self.gives_up && pressure_pa < self.work.enough_pa * (1.0 + 1e-5)
    }

    /// Advances by `limit_s` or to the next switching, whichever comes first.
    fn advance(&mut self, limit_s: f64, doing: Doing, observe: &mut dyn FnMut(Step)) -> Ended {
        let receiver = &self.machine.receiver;
        let flows = self.flows(doing.share);
        let from_pa = receiver.pressure_pa(self.state);
        let at_start = flows(from_pa);
        let conductance = receiver.wall_conductance(self.state);
        let rates = receiver.rates_with(self.state, at_start, conductance);
        let mut seconds = self
            .step_seconds(from_pa, rates, at_start, conductance)
            .min(limit_s);
        let mut next = receiver.step_from(self.state, rates, seconds, &flows);
        let mut to_pa = receiver.pressure_pa(next);
        let crossing = self.crossing(to_pa, doing);
        if let Some(limit_pa) = crossing {
            // One secant lands within a fraction of a millibar: the step is nearly straight.
            let share = ((limit_pa - from_pa) / (to_pa - from_pa)).clamp(0.0, 1.0);
            seconds *= if share.is_finite() { share } else { 1.0 };
            next = receiver.step_from(self.state, rates, seconds, &flows);
            to_pa = receiver.pressure_pa(next);
        }
        self.count(seconds, from_pa, to_pa, doing, next);
        observe(Step {
            seconds: self.sums.seconds,
            pressure_pa: to_pa,
            running: self.motor,
            trigger: doing.share > 0.0,
            waiting: doing.waits_for_pa.is_some(),
        });
        let at_pa = crossing.unwrap_or(to_pa);
        let weak = self.goes_weak(at_pa, doing);
        self.switch(at_pa);
        Ended { seconds, weak }
    }

    fn switch(&mut self, pressure_pa: f64) {
        if self.motor && pressure_pa >= self.machine.cut_out_pa * (1.0 - 1e-5) {
            self.motor = false;
        } else if !self.motor && pressure_pa <= self.machine.cut_in_pa * (1.0 + 1e-5) {
            self.motor = true;
            self.sums.starts += 1.0;
            let mark = self.sums.delivered_kg;
            self.start_marks = Some([self.start_marks.map_or(mark, |[first, _]| first), mark]);
        }
    }

    fn count(&mut self, seconds: f64, from_pa: f64, to_pa: f64, doing: Doing, next: State) {
        let drawn = self.flows(doing.share)(0.5 * (from_pa + to_pa)).out_kg_s * seconds;
        self.steps += 1;
        self.sums.seconds += seconds;
        self.sums.drawn_kg += drawn;
        self.sums.delivered_kg += next.mass_kg - self.state.mass_kg + drawn;
        if self.motor {
            self.sums.running_s += seconds;
        }
        if doing.waits_for_pa.is_some() {
            self.sums.waiting_s += seconds;
        }
        if doing.share > 0.0 {
            self.sums.trigger_s += seconds * doing.share;
            self.sums.weak_s += seconds * doing.share * share_below(self.work.enough_pa, from_pa, to_pa);
        }
        self.state = next;
        self.lowest_pa = self.lowest_pa.min(to_pa);
    }

    fn rest(&mut self, seconds: f64, observe: &mut dyn FnMut(Step)) {
        let mut left = seconds;
        while left > 1e-9 && !self.over() {
            left -= self.advance(left, RESTS, observe).seconds;
        }
    }

    /// Waits for a pressure, at the most until the switch opens.
    fn wait(&mut self, for_pa: f64, observe: &mut dyn FnMut(Step)) {
        let doing = Doing {
            share: 0.0,
            waits_for_pa: Some(for_pa),
        };
        let mut waited = 0.0;
        while self.motor && self.pressure_pa() < for_pa * (1.0 - 1e-6) && !self.over() {
            waited += self.advance(PATIENCE_S - waited, doing, observe).seconds;
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
            let pace = self.work.pace(self.machine, self.pressure_pa());
            let doing = Doing {
                share: 1.0,
                waits_for_pa: None,
            };
            let ended = self.advance(left / pace, doing, observe);
            left -= pace * ended.seconds;
            is_weak = ended.weak;
            if is_weak && left > 1e-9 {
                self.wait_before(left, is_weak, observe);
            }
        }
    }

    /// A spell with its pulls drawn out evenly over it: at the lowest useful pressure it goes on as fast as the motor
    /// makes air. Where the tool fades and pulls go by their air, the pulls are longer and the gaps are not.
    fn even(&mut self, seconds: f64, observe: &mut dyn FnMut(Step)) {
        let Rhythm { on_s, off_s, .. } = self.work.rhythm;
        let mut left = seconds;
        while left > 1e-9 && !self.over() {
            let stretched_s = on_s / self.work.pace(self.machine, self.pressure_pa());
            let pace = (on_s + off_s) / (stretched_s + off_s);
            let doing = Doing {
                share: stretched_s / (stretched_s + off_s),
                waits_for_pa: None,
            };
            let ended = self.advance(left / pace, doing, observe);
            left -= pace * ended.seconds;
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
        let doing = Doing {
            share: 1.0,
            waits_for_pa: None,
        };
        self.advance(most_s, doing, &mut |_| {});
    }

    /// Lets the motor run with nothing drawn by the tool, at the most for `within_s`.
    pub fn fill(&mut self, within_s: f64) {
        while self.motor && self.sums.seconds < within_s && self.steps < MOST_STEPS {
            self.advance(within_s - self.sums.seconds, RESTS, &mut |_| {});
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
