//! One step of a tank: how long it may be, where it leads, and what switches on the way.

use super::curve::{greater, lesser};
use super::tank::Tank;
use super::{Rhythm, Step};
use crate::receiver::{CV, Flows, Halfway};

/// Share of pressure by which a step may move it.
const BY_PRESSURE: f64 = 0.02;
/// Largest share of the tank's air that flows in and out in one step.
const PASSAGE: f64 = 0.05;

/// What goes on during a step.
#[derive(Clone, Copy)]
pub(super) enum Doing {
    /// The trigger is let go.
    Rests,
    /// So it is, until the tank has this pressure.
    Waits(f64),
    /// A pull.
    Pulls,
    /// A spell, its pulls drawn out evenly over it.
    Evenly,
    /// The trigger is held, whatever comes.
    Holds,
}

/// How a step ended.
pub(super) struct Ended {
    /// How far the work got on, s: the step's own length where the tool has its full flow or none.
    pub done_s: f64,
    /// The tool went weak, and waiting is of use.
    pub weak: bool,
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

impl Tank<'_> {
    /// [`Work::pace`], asked for in every step.
    fn pace(&self, pressure_pa: f64) -> f64 {
        if self.work.by_air {
            self.pace_at(self.work.draw.at(pressure_pa))
        } else {
            1.0
        }
    }

    /// The same by what the tool takes.
    fn pace_at(&self, taken_kg_s: f64) -> f64 {
        lesser(greater(taken_kg_s * self.per_full, 0.2), 1.0)
    }

    /// Seconds on the trigger and off it in a spell that is drawn out: where the tool fades and pulls go by their air, the
    /// pulls are longer and the gaps are not.
    fn stretched(&self, pressure_pa: f64) -> (f64, f64) {
        let Rhythm { on_s, off_s, .. } = self.work.rhythm;
        (on_s / self.pace(pressure_pa), off_s)
    }

    /// Share of the tool's flow that is drawn.
    fn share(&self, doing: Doing, pressure_pa: f64) -> f64 {
        match doing {
            Doing::Rests | Doing::Waits(_) => 0.0,
            Doing::Pulls | Doing::Holds => 1.0,
            Doing::Evenly => {
                let (on_s, off_s) = self.stretched(pressure_pa);
                on_s / (on_s + off_s)
            }
        }
    }

    /// How fast the work gets on, against the clock.
    #[inline]
    fn speed(&self, doing: Doing, pressure_pa: f64) -> f64 {
        match doing {
            Doing::Pulls => self.pace(pressure_pa),
            Doing::Evenly => {
                let (on_s, off_s) = self.stretched(pressure_pa);
                (self.work.rhythm.on_s + off_s) / (on_s + off_s)
            }
            Doing::Rests | Doing::Waits(_) | Doing::Holds => 1.0,
        }
    }

    fn flows(&self, doing: Doing) -> impl Fn(f64) -> Flows {
        let (machine, work) = (self.machine, self.work);
        move |pressure_pa| {
            let share = self.share(doing, pressure_pa);
            let taken = if share > 0.0 {
                share * work.draw.at(pressure_pa)
            } else {
                0.0
            };
            Flows {
                in_kg_s: if self.motor {
                    machine.delivery.at(pressure_pa)
                } else {
                    0.0
                },
                in_kelvin: machine.in_kelvin,
                out_kg_s: work.aside(machine, pressure_pa) + taken,
            }
        }
    }

    /// The longest step that keeps the midpoint rule honest: a share of pressure, half the walls' time constant, and a
    /// share of what the tank holds passing through it, since its warmth changes even where the pressure stands still.
    /// `turns` is the share of pressure that goes by in a second.
    fn longest_s(&self, turns: f64, per_kg: f64, flows: Flows) -> f64 {
        let by_pressure = turns.abs() * (1.0 / BY_PRESSURE);
        let by_passage = (flows.in_kg_s + flows.out_kg_s) * per_kg * (1.0 / PASSAGE);
        let by_walls = self.conductance * per_kg * (2.0 / CV);
        let most = greater(
            greater(by_pressure, by_passage) * self.per_stride,
            greater(by_walls, 1e-9),
        );
        lesser(self.longest_step_s, 1.0 / most)
    }

    /// Seconds until the work has got on by `left_s`, by its speed halfway there.
    fn seconds_for(&self, left_s: f64, doing: Doing, pressure_pa: f64, turns: f64) -> f64 {
        if matches!(doing, Doing::Pulls | Doing::Evenly) {
            let guess = left_s / self.speed(doing, pressure_pa);
            left_s / self.speed(doing, pressure_pa * (1.0 + 0.5 * turns * guess))
        } else {
            left_s
        }
    }

    /// The pressure at which something switches, given where the step leads.
    fn crossing(&self, to_pa: f64, doing: Doing) -> Option<f64> {
        let machine = self.machine;
        let target = match doing {
            Doing::Waits(for_pa) if to_pa >= for_pa => Some(for_pa),
            _ => None,
        };
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
        let draws = !matches!(doing, Doing::Rests | Doing::Waits(_));
        draws && self.motor && self.gives_up && pressure_pa < self.work.enough_pa * (1.0 + 1e-5)
    }

    /// Advances until the work has got on by `left_s` or to the next switching, whichever comes first.
    pub fn advance(&mut self, left_s: f64, doing: Doing, observe: &mut dyn FnMut(Step)) -> Ended {
        let receiver = &self.machine.receiver;
        let flows = self.flows(doing);
        let from_pa = receiver.pressure_pa(self.state);
        let at_start = flows(from_pa);
        let rates = receiver.rates_with(self.state, at_start, self.conductance);
        let per_kg = 1.0 / self.state.mass_kg;
        let turns = rates.0 * per_kg + rates.1 / self.state.kelvin;
        let longest = self.longest_s(turns, per_kg, at_start);
        // Nothing gets on faster than the clock.
        let until_done = if left_s < longest {
            self.seconds_for(left_s, doing, from_pa, turns)
        } else {
            f64::INFINITY
        };
        let mut seconds = lesser(longest, until_done);
        let (mut next, mut halfway) = receiver.step_from(self.state, rates, seconds, &flows);
        let mut to_pa = receiver.pressure_pa(next);
        let crossing = self.crossing(to_pa, doing);
        if let Some(limit_pa) = crossing {
            // One secant lands within a fraction of a millibar: the step is nearly straight.
            let share = (limit_pa - from_pa) / (to_pa - from_pa);
            seconds *= lesser(greater(share, 0.0), 1.0);
            (next, halfway) = receiver.step_from(self.state, rates, seconds, &flows);
            to_pa = receiver.pressure_pa(next);
        }
        drop(flows);
        let done_s = if crossing.is_none() && until_done <= longest {
            left_s
        } else {
            let speed = match doing {
                Doing::Pulls if self.work.by_air => self
                    .pace_at(halfway.flows.out_kg_s - self.work.aside(self.machine, 0.5 * (from_pa + to_pa))),
                Doing::Evenly => self.speed(doing, 0.5 * (from_pa + to_pa)),
                _ => 1.0,
            };
            lesser(seconds * speed, left_s)
        };
        self.count(seconds, [from_pa, to_pa], doing, halfway);
        self.state = next;
        observe(Step {
            seconds: self.sums.seconds,
            pressure_pa: to_pa,
            running: self.motor,
            trigger: !matches!(doing, Doing::Rests | Doing::Waits(_)),
            waiting: matches!(doing, Doing::Waits(_)),
        });
        let at_pa = crossing.unwrap_or(to_pa);
        let weak = self.goes_weak(at_pa, doing);
        self.switch(at_pa);
        Ended { done_s, weak }
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

    fn count(&mut self, seconds: f64, [from_pa, to_pa]: [f64; 2], doing: Doing, halfway: Halfway) {
        self.steps += 1;
        self.conductance = halfway.conductance;
        self.sums.seconds += seconds;
        self.sums.drawn_kg += halfway.flows.out_kg_s * seconds;
        self.sums.delivered_kg += halfway.flows.in_kg_s * seconds;
        if self.motor {
            self.sums.running_s += seconds;
        }
        match doing {
            Doing::Waits(_) => self.sums.waiting_s += seconds,
            Doing::Rests => {}
            Doing::Pulls | Doing::Evenly | Doing::Holds => {
                let trigger_s = seconds * self.share(doing, 0.5 * (from_pa + to_pa));
                self.sums.trigger_s += trigger_s;
                self.sums.weak_s += trigger_s * share_below(self.work.enough_pa, from_pa, to_pa);
            }
        }
        self.lowest_pa = lesser(self.lowest_pa, to_pa);
    }
}
