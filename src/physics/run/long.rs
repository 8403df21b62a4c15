//! The long run of an exactly regular rhythm.

mod quick;

pub use quick::{Wait, quick_wait};

use std::borrow::Cow;

use super::{Machine, Rhythm, Step, Work, Worker};
use crate::receiver::{CV, Flows, State};

/// Longest time that a worker is taken to wait at a stretch, s; beyond it the machine will not do.
const PATIENCE_S: f64 = 3_600.0;
/// An answer that has not repeated is averaged after so many rounds of spell and pause and so much time, s.
const ROUNDS: usize = 24;
const SECONDS: f64 = 3.0 * 3_600.0;
/// The most of both.
const MOST_ROUNDS: usize = 400;
const MOST_SECONDS: f64 = 12.0 * 3_600.0;
/// Share of the tank's air that one pull of the trigger may take and still count as part of an even draw.
const RIPPLE: f64 = 0.003;
/// Pulls in a spell from which on they may be drawn out over it.
const MANY: f64 = 80.0;
/// Two rounds that begin with tank masses and temperatures this close, relatively, are one and the same.
const SAME: f64 = 2e-5;
/// Largest share of the tank's air that flows in and out in one step.
const PASSAGE: f64 = 0.05;

/// Long-run answer for a task on a machine.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LongRun {
    /// Share of time that the motor runs.
    pub running: f64,
    /// Starts an hour.
    pub starts_per_hour: f64,
    /// Share of time spent waiting.
    pub waiting: f64,
    /// Share of trigger time with less than the tool needs at the least.
    pub weak: f64,
    /// Mean mass flow drawn, kg/s.
    pub drawn_kg_s: f64,
    /// Lowest tank pressure seen, absolute, Pa.
    pub lowest_pa: f64,
    /// The worker's patience ended: the machine never came back.
    pub hopeless: bool,
    /// The state repeated, so that the answer is one whole period; otherwise it is an average.
    pub periodic: bool,
}

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

impl Sums {
    fn since(self, earlier: Self) -> Self {
        Self {
            seconds: self.seconds - earlier.seconds,
            running_s: self.running_s - earlier.running_s,
            starts: self.starts - earlier.starts,
            waiting_s: self.waiting_s - earlier.waiting_s,
            trigger_s: self.trigger_s - earlier.trigger_s,
            weak_s: self.weak_s - earlier.weak_s,
            drawn_kg: self.drawn_kg - earlier.drawn_kg,
            delivered_kg: self.delivered_kg - earlier.delivered_kg,
        }
    }
}

struct Run<'a> {
    machine: &'a Machine,
    work: &'a Work,
    state: State,
    motor: bool,
    waiting: bool,
    sums: Sums,
    lowest_pa: f64,
    longest_step_s: f64,
    /// Factor on the steps' length; 1 where every figure counts.
    stride: f64,
    hopeless: bool,
    /// Mass delivered so far at each start of the motor, kg.
    start_marks: Vec<f64>,
    /// The worker waits, and waiting is of use.
    gives_up: bool,
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

/// Whether the running motor makes more than the tool takes when it begins to be weak.
fn lasting(machine: &Machine, work: &Work) -> bool {
    let taken = work.draw.at(work.enough_pa) + machine.leak_kg_s_pa * work.enough_pa;
    machine.delivery.at(work.enough_pa) > taken
}

impl<'a> Run<'a> {
    /// A full tank at rest, the motor off.
    fn full(machine: &'a Machine, work: &'a Work, worker: Worker) -> Self {
        let state = machine
            .receiver
            .state(machine.cut_out_pa, machine.receiver.wall_k);
        Self {
            machine,
            work,
            state,
            motor: false,
            waiting: false,
            sums: Sums::default(),
            lowest_pa: machine.cut_out_pa,
            longest_step_s: 30.0,
            stride: 1.0,
            hopeless: false,
            start_marks: Vec::new(),
            gives_up: worker == Worker::Patient && !lasting(machine, work),
        }
    }

    fn flows(&self, trigger: bool) -> impl Fn(f64) -> Flows + 'a {
        let (machine, work, motor) = (self.machine, self.work, self.motor);
        move |pressure_pa| Flows {
            in_kg_s: if motor {
                machine.delivery.at(pressure_pa)
            } else {
                0.0
            },
            in_kelvin: machine.in_kelvin,
            out_kg_s: machine.leak_kg_s_pa * pressure_pa
                + if trigger { work.draw.at(pressure_pa) } else { 0.0 },
        }
    }

    /// The longest step that keeps the midpoint rule honest: 2 % of pressure, half the walls' time constant, and a
    /// share of what the tank holds passing through it, since its warmth changes even where the pressure stands still.
    fn step_seconds(&self, pressure_pa: f64, rates: (f64, f64), flows: Flows, conductance: f64) -> f64 {
        let slope = pressure_pa * (rates.0 / self.state.mass_kg + rates.1 / self.state.kelvin);
        let by_pressure = 0.02 * pressure_pa / slope.abs().max(1e-9);
        let by_walls = 0.5 * self.state.mass_kg * CV / conductance.max(1e-9);
        let by_passage = PASSAGE * self.state.mass_kg / (flows.in_kg_s + flows.out_kg_s).max(1e-9);
        let longest = self.stride * by_pressure.min(by_passage);
        longest.min(by_walls).min(self.longest_step_s)
    }

    /// The pressure at which something switches, given where the step leads.
    fn crossing(&self, to_pa: f64, trigger: bool) -> Option<f64> {
        if self.motor && to_pa >= self.machine.cut_out_pa {
            return Some(self.machine.cut_out_pa);
        }
        if !self.motor && to_pa <= self.machine.cut_in_pa {
            return Some(self.machine.cut_in_pa);
        }
        if self.waiting && to_pa >= self.work.resume_pa {
            return Some(self.work.resume_pa);
        }
        let gives_up = trigger && self.motor && self.gives_up && to_pa < self.work.enough_pa;
        gives_up.then_some(self.work.enough_pa)
    }

    fn switch(&mut self, pressure_pa: f64, trigger: bool) {
        if self.motor && pressure_pa >= self.machine.cut_out_pa * (1.0 - 1e-5) {
            self.motor = false;
            self.waiting = false;
        } else if !self.motor && pressure_pa <= self.machine.cut_in_pa * (1.0 + 1e-5) {
            self.motor = true;
            self.sums.starts += 1.0;
            self.start_marks.push(self.sums.delivered_kg);
        }
        self.waiting &= pressure_pa < self.work.resume_pa * (1.0 - 1e-5);
        let weak = pressure_pa < self.work.enough_pa * (1.0 + 1e-5);
        self.waiting |= trigger && self.motor && self.gives_up && weak;
    }

    /// Advances by `limit_s` or to the next switching, whichever comes first; returns the seconds gone.
    fn advance(&mut self, limit_s: f64, wants_trigger: bool, observe: &mut impl FnMut(Step)) -> f64 {
        let trigger = wants_trigger && !self.waiting;
        let receiver = &self.machine.receiver;
        let flows = self.flows(trigger);
        let from_pa = receiver.pressure_pa(self.state);
        let at_start = flows(from_pa);
        let conductance = receiver.wall_conductance(self.state);
        let rates = receiver.rates_with(self.state, at_start, conductance);
        let mut seconds = self
            .step_seconds(from_pa, rates, at_start, conductance)
            .min(limit_s);
        let mut next = receiver.step_from(self.state, rates, seconds, &flows);
        let mut to_pa = receiver.pressure_pa(next);
        let crossing = self.crossing(to_pa, trigger);
        if let Some(limit_pa) = crossing {
            // One secant lands within a fraction of a millibar: the step is nearly straight.
            let share = ((limit_pa - from_pa) / (to_pa - from_pa)).clamp(0.0, 1.0);
            seconds *= if share.is_finite() { share } else { 1.0 };
            next = receiver.step_from(self.state, rates, seconds, &flows);
            to_pa = receiver.pressure_pa(next);
        }
        self.count(seconds, from_pa, to_pa, trigger, next);
        observe(Step {
            seconds: self.sums.seconds,
            pressure_pa: to_pa,
            running: self.motor,
            trigger,
            waiting: self.waiting,
        });
        self.switch(crossing.unwrap_or(to_pa), trigger);
        seconds
    }

    fn count(&mut self, seconds: f64, from_pa: f64, to_pa: f64, trigger: bool, next: State) {
        let middle = 0.5 * (from_pa + to_pa);
        let leaked = self.machine.leak_kg_s_pa * middle * seconds;
        let drawn = leaked
            + if trigger {
                self.work.draw.at(middle) * seconds
            } else {
                0.0
            };
        self.sums.seconds += seconds;
        self.sums.drawn_kg += drawn;
        self.sums.delivered_kg += next.mass_kg - self.state.mass_kg + drawn;
        if self.motor {
            self.sums.running_s += seconds;
        }
        if self.waiting {
            self.sums.waiting_s += seconds;
        }
        if trigger {
            self.sums.trigger_s += seconds;
            self.sums.weak_s += seconds * share_below(self.work.enough_pa, from_pa, to_pa);
        }
        self.state = next;
        self.lowest_pa = self.lowest_pa.min(to_pa);
    }

    /// A phase of the rhythm: `seconds` with the trigger held or not. Waiting does not count towards it.
    fn phase(&mut self, seconds: f64, trigger: bool, observe: &mut impl FnMut(Step)) {
        let mut left = seconds;
        let mut waited = 0.0;
        while left > 1e-9 && !self.hopeless {
            let held = trigger && self.waiting;
            let limit = if held { PATIENCE_S } else { left };
            let gone = self.advance(limit, trigger, observe);
            if held {
                waited += gone;
                self.hopeless = waited >= PATIENCE_S;
            } else {
                left -= gone;
            }
        }
    }

    /// A spell of work and the pause after it.
    fn round(&mut self, observe: &mut impl FnMut(Step)) {
        let rhythm = self.work.rhythm;
        let mut left = rhythm.spell_s;
        while left > 1e-9 && !self.hopeless {
            let on = rhythm.on_s.min(left);
            self.phase(on, true, observe);
            let off = rhythm.off_s.min(left - on);
            self.phase(off, false, observe);
            left -= on + off;
        }
        self.waiting = false;
        self.phase(rhythm.pause_s, false, observe);
    }

    /// Starts an hour from the mass that the motor delivers from one start to another, since starts come in
    /// bunches and a window may end between them.
    fn starts_by_mass(&self, settled: Sums, window: Sums) -> Option<f64> {
        let first = self
            .start_marks
            .iter()
            .position(|mark| *mark >= settled.delivered_kg)?;
        let marks = self.start_marks.get(first..)?;
        let per_start = (marks.last()? - marks.first()?) / (marks.len() - 1) as f64;
        (marks.len() > 1 && per_start > 0.0).then(|| window.drawn_kg / per_start / window.seconds * 3_600.0)
    }

    fn answer(&self, window: Sums, periodic: bool) -> LongRun {
        // What the window put into or took from the tank is not part of the long run.
        let fair = if window.delivered_kg > 0.0 {
            window.drawn_kg / window.delivered_kg
        } else {
            1.0
        };
        let share = |part: f64, whole: f64| {
            if whole > 0.0 {
                (part / whole).clamp(0.0, 1.0)
            } else {
                0.0
            }
        };
        LongRun {
            running: share(window.running_s * fair, window.seconds),
            starts_per_hour: window.starts * fair / window.seconds.max(1.0) * 3_600.0,
            waiting: share(window.waiting_s, window.seconds),
            weak: share(window.weak_s, window.trigger_s),
            drawn_kg_s: window.drawn_kg / window.seconds.max(1.0),
            lowest_pa: self.lowest_pa,
            hopeless: self.hopeless,
            periodic,
        }
    }
}

/// The work with its pulls of the trigger drawn out over the spell, where one pull does not move the tank by more
/// than [`RIPPLE`]: a squeezer's strokes make thousands of steps and no difference.
fn smoothed<'a>(machine: &Machine, work: &'a Work) -> Cow<'a, Work> {
    let Rhythm {
        on_s, off_s, spell_s, ..
    } = work.rhythm;
    let pulls = (spell_s / (on_s + off_s)).floor();
    let rest_s = spell_s - pulls * (on_s + off_s);
    let share = (pulls * on_s + rest_s.min(on_s)) / spell_s;
    let pull_kg = work.draw.at(machine.cut_in_pa) * on_s * (1.0 - share);
    let tank_kg = machine
        .receiver
        .state(machine.cut_in_pa, machine.receiver.wall_k)
        .mass_kg;
    if pull_kg > RIPPLE * tank_kg || pulls < MANY || off_s <= 0.0 {
        return Cow::Borrowed(work);
    }
    let rhythm = Rhythm {
        on_s: spell_s,
        off_s: 0.0,
        ..work.rhythm
    };
    Cow::Owned(Work {
        draw: work.draw.times(share),
        rhythm,
        ..*work
    })
}

/// What a machine and a task settle to when the work goes on for hours.
///
/// Rounds of spell and pause are run from a full tank until one begins as an earlier one began; what lies
/// between is one period and holds for ever. Where the switch and the rhythm never fall into step, the
/// later half of the rounds is averaged, corrected for what the tank gained or lost meanwhile.
///
/// # Validity
/// Finite, positive times and pressures with cut-in below cut-out; the number of rounds is bounded.
/// # Source
/// Own method; checked in `tests/truth.rs` against eight hours of plain integration with a small step.
pub fn long_run(machine: &Machine, work: &Work, worker: Worker) -> LongRun {
    let work = smoothed(machine, work);
    let mut run = Run::full(machine, &work, worker);
    let mut begins: Vec<(State, bool, Sums)> = Vec::with_capacity(ROUNDS);
    for _ in 0..MOST_ROUNDS {
        let same = begins.iter().find(|(state, motor, _)| {
            *motor == run.motor
                && (state.mass_kg / run.state.mass_kg - 1.0).abs() < SAME
                && (state.kelvin / run.state.kelvin - 1.0).abs() < SAME
        });
        if let Some((_, _, sums)) = same {
            return run.answer(run.sums.since(*sums), true);
        }
        let long_enough = begins.len() >= ROUNDS && run.sums.seconds > SECONDS;
        if run.hopeless || long_enough || run.sums.seconds > MOST_SECONDS {
            break;
        }
        begins.push((run.state, run.motor, run.sums));
        run.round(&mut |_| {});
    }
    let settled = begins
        .get(2)
        .or(begins.last())
        .map_or(Sums::default(), |(_, _, sums)| *sums);
    let window = run.sums.since(settled);
    let answer = run.answer(window, false);
    let starts_per_hour = run
        .starts_by_mass(settled, window)
        .unwrap_or(answer.starts_per_hour);
    LongRun {
        starts_per_hour,
        ..answer
    }
}

/// Runs for `seconds` from a full tank and shows every step to `observe`.
pub fn observe_run(
    machine: &Machine,
    work: &Work,
    worker: Worker,
    seconds: f64,
    longest_step_s: f64,
    mut observe: impl FnMut(Step),
) {
    let mut run = Run::full(machine, work, worker);
    run.longest_step_s = longest_step_s;
    while run.sums.seconds < seconds && !run.hopeless {
        let before = run.sums.seconds;
        run.round(&mut observe);
        if run.sums.seconds <= before {
            return;
        }
    }
}
