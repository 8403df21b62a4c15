//! Pressure over time: a machine with its switch, a tool in its rhythm, a worker who waits as little as the work allows.
//!
//! [`run`] goes through three hours of one job, pull by pull. Nobody works like a metronome, so pulls, spells and pauses
//! vary ([`Hands`]); an exactly regular rhythm would fall into step with the switch, and a larger tank could then wait
//! longer. One run is only the picture: figures come from many, each with its own hands.

mod bounds;
mod curve;
mod hands;
mod hold;
mod step;
mod tank;

pub use bounds::{Bounds, bounds, never_waits};
pub use curve::Curve;
pub use hands::{Hands, Phase, Phases, VARIES};
pub use hold::{longest_trigger_s, recovery_s};

use crate::receiver::Receiver;
use tank::Tank;

/// Work on which a run's figures rest, s: three hours, waiting not counted.
pub const HOURS_S: f64 = 3.0 * 3_600.0;
/// A run ends after so much time on the clock, s, whatever of the work is left.
const MOST_S: f64 = 12.0 * 3_600.0;
/// Share of the tank's air that one pull may take and still be drawn out over its spell.
const RIPPLE: f64 = 0.003;
/// Pulls in three hours beyond which they are drawn out over their spells.
const MOST_PULLS: f64 = 3_000.0;

/// A compressor on its tank, at a place.
#[derive(Clone, Debug, PartialEq)]
pub struct Machine {
    /// The tank, with auxiliary receivers and line.
    pub receiver: Receiver,
    /// Mass flow delivered against tank pressure, kg/s.
    pub delivery: Curve,
    /// Temperature of the air as it comes into the tank, K.
    pub in_kelvin: f64,
    /// Absolute pressure at which the switch starts the motor, Pa.
    pub cut_in_pa: f64,
    /// Absolute pressure at which the switch stops it, Pa.
    pub cut_out_pa: f64,
    /// Leak at each pascal of absolute tank pressure, kg/(s Pa): a choked leak is proportional.
    pub leak_kg_s_pa: f64,
}

impl Machine {
    /// Absolute pressure in the middle of the switch's band, Pa: delivery is compared with demand there.
    pub fn mid_band_pa(&self) -> f64 {
        0.5 * (self.cut_in_pa + self.cut_out_pa)
    }
}

/// The two levels of a task's rhythm: the trigger within a spell of work, the spell against its pause.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rhythm {
    /// Seconds on the trigger.
    pub on_s: f64,
    /// Seconds off it.
    pub off_s: f64,
    /// Length of the spell.
    pub spell_s: f64,
    /// Length of the pause after it.
    pub pause_s: f64,
}

impl Rhythm {
    /// Share of the spell on the trigger.
    pub fn spell_share(&self) -> f64 {
        self.on_s / (self.on_s + self.off_s)
    }
    /// Share of all time on the trigger.
    pub fn long_share(&self) -> f64 {
        self.spell_share() * self.spell_s / (self.spell_s + self.pause_s)
    }
}

/// A task as the tank sees it.
#[derive(Clone, Debug, PartialEq)]
pub struct Work {
    /// Mass flow drawn on the trigger against tank pressure, kg/s.
    pub draw: Curve,
    /// Absolute tank pressure below which the tool gets less than it needs at the least, Pa.
    pub enough_pa: f64,
    /// The rhythm.
    pub rhythm: Rhythm,
    /// A pull ends when its air is through, not when its seconds are: a hole takes so much work, and a tool with less
    /// pressure takes longer over it. Otherwise the trigger is held for so long, as with paint.
    pub by_air: bool,
    /// What others draw meanwhile, on their mean, kg/s.
    pub beside_kg_s: f64,
}

impl Work {
    /// Mass flow on the trigger with a full tank, kg/s: the regulator passes no more.
    fn full_kg_s(&self, machine: &Machine) -> f64 {
        self.draw.at(machine.cut_out_pa)
    }

    /// How fast a pull gets on at a tank pressure: 1 with the full flow, less where the tool fades and the pull goes
    /// [by its air](Self::by_air).
    fn pace(&self, machine: &Machine, pressure_pa: f64) -> f64 {
        if self.by_air {
            (self.draw.at(pressure_pa) / self.full_kg_s(machine)).clamp(0.2, 1.0)
        } else {
            1.0
        }
    }

    /// What others draw and what leaks at a pressure, kg/s.
    fn aside(&self, machine: &Machine, pressure_pa: f64) -> f64 {
        machine.leak_kg_s_pa * pressure_pa + self.beside_kg_s
    }

    /// Whether the running motor makes more than everything takes when the tool begins to be weak: it then lifts the
    /// tool by itself, and nobody waits.
    fn lasting(&self, machine: &Machine) -> bool {
        let taken = self.draw.at(self.enough_pa) + self.aside(machine, self.enough_pa);
        machine.delivery.at(self.enough_pa) > taken
    }

    /// Whether pulls are drawn out over their spell: each moves the tank by less than anyone could see, or there are
    /// so many that the work of a run would grow with them.
    fn by_mean(&self, machine: &Machine) -> bool {
        let Rhythm { on_s, off_s, .. } = self.rhythm;
        let tank = machine.receiver.state(machine.cut_in_pa, machine.receiver.wall_k);
        let pull_kg = self.draw.at(machine.cut_in_pa) * on_s * (1.0 - self.rhythm.spell_share());
        let spells = self.rhythm.spell_s / (self.rhythm.spell_s + self.rhythm.pause_s);
        pull_kg <= RIPPLE * tank.mass_kg || HOURS_S * spells > MOST_PULLS * (on_s + off_s)
    }
}

/// What the worker does for want of air.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Worker {
    /// Waits as little as the work allows: before a pull, until the tank holds what that pull needs above the lowest
    /// useful pressure, no further, and never for a motor that is off.
    Spares,
    /// Begins at once, and lets the tank fill to cut-out each time that the tool goes weak.
    Patient,
    /// Works on with a weak tool.
    WorksOn,
}

/// How finely a run is stepped.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fineness {
    /// Each step moves the pressure by 2 % at the most: where a figure counts.
    Fine,
    /// Nine times as much: where one of many runs is judged. Waits then differ from fine ones by 0.1 min an hour or so, as root
    /// mean square over draws, and by 0.3 at the most but for tanks of 2 gal.
    Coarse,
}

/// What three hours at one job came to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Run {
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
    /// Steps that it took: what it cost.
    pub steps: usize,
}

impl Run {
    /// Minutes of waiting in an hour of the job, waiting included.
    pub fn minutes_waiting(&self) -> f64 {
        60.0 * if self.hopeless { 1.0 } else { self.waiting }
    }
}

/// One step of a run, as an observer sees it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// Time at its end, s.
    pub seconds: f64,
    /// Absolute tank pressure at its end, Pa.
    pub pressure_pa: f64,
    /// The motor ran during it.
    pub running: bool,
    /// The trigger was held during it.
    pub trigger: bool,
    /// The worker waited during it.
    pub waiting: bool,
}

/// Three hours of one job on a machine, from a full tank.
///
/// Before each pull the worker compares the gauge with what the pull needs: the pressure from which it ends at the
/// lowest useful one with the motor running, found by stepping dp/dt back from there:
///
/// dp/dt = (γ R / V) (ṁᵢ Tᵢ − ṁₒ T)
///
/// | symbol | meaning | unit | from |
/// |---|---|---|---|
/// | p, V, T | tank pressure, volume, temperature | Pa, m³, K | `machine.receiver` |
/// | ṁᵢ, Tᵢ | delivered flow, its temperature | kg/s, K | `machine` |
/// | ṁₒ | flow of tool, leak and others | kg/s | `work` |
/// | γ, R | 1.4, gas constant of dry air | 1, J/(kg K) | constants |
///
/// Below that he waits, if the motor runs, until the tank is there or the switch opens. A pull that no full tank holds
/// is broken up. Pulls that move the tank by less than 0.3 % of its air, and those of which three hours hold more than
/// 3,000, are drawn out over their spell, so that the cost does not grow with their number.
///
/// # Validity
/// Finite, positive times and pressures, cut-in below cut-out, lowest useful pressure below cut-out. Twelve hours on the
/// clock at the most.
/// # Source
/// Own method; `tests/truth.rs` holds it against plain integration with a small step, and between the long-run balance
/// of flow and the patient man.
/// # Example
/// A machine that makes more than its tool takes never stops anybody:
/// ```
/// # use physics::{receiver::Receiver, run::{Curve, Fineness, Hands, Machine, Rhythm, Work, Worker, run}};
/// let machine = Machine {
///     receiver: Receiver::cylinder(0.08, 293.0),
///     delivery: Curve::of(1e5, 1e6, |_| 0.004),
///     in_kelvin: 333.0, cut_in_pa: 7.5e5, cut_out_pa: 9.6e5, leak_kg_s_pa: 0.0,
/// };
/// let rhythm = Rhythm { on_s: 4.0, off_s: 4.0, spell_s: 180.0, pause_s: 240.0 };
/// let work = Work { draw: Curve::of(1e5, 1e6, |_| 0.003), enough_pa: 6.3e5, rhythm, by_air: true, beside_kg_s: 0.0 };
/// let run = run(&machine, &work, Worker::Spares, Hands::typical(), Fineness::Fine);
/// assert!(run.waiting == 0.0 && run.running < 0.2);
/// ```
pub fn run(machine: &Machine, work: &Work, worker: Worker, hands: Hands, fineness: Fineness) -> Run {
    let mut tank = Tank::full(machine, work, worker, fineness);
    tank.work_through(hands, HOURS_S, &mut |_| {});
    tank.answer()
}

/// A coarse [`run`] with the worker who waits as little as he may, which ends as soon as it is sure that he waits for more
/// than `most_minutes` in the hour: whether he does, and the steps that it took.
///
/// A job that takes C at the most, waiting not counted, ends with a share of W/(C + W) at the least once W was waited.
///
/// | symbol | meaning | unit | from |
/// |---|---|---|---|
/// | W | waited so far | s | the run |
/// | C | [`Bounds::longest_s`] | s | `bounds` |
///
/// # Validity
/// As [`run`], and `most_minutes` from 0 to 60.
/// # Source
/// The share grows with W and falls with C; `tests/verdict.rs` holds it against whole runs.
/// # Example
/// ```
/// # use physics::{receiver::Receiver, run::{Curve, Hands, Machine, Rhythm, Work, bounds, waits_over}};
/// let machine = Machine {
///     receiver: Receiver::cylinder(0.02, 293.0),
///     delivery: Curve::of(1e5, 1e6, |_| 0.001),
///     in_kelvin: 333.0, cut_in_pa: 7.5e5, cut_out_pa: 9.6e5, leak_kg_s_pa: 0.0,
/// };
/// let rhythm = Rhythm { on_s: 4.0, off_s: 4.0, spell_s: 180.0, pause_s: 240.0 };
/// let work = Work { draw: Curve::of(1e5, 1e6, |_| 0.008), enough_pa: 6.3e5, rhythm, by_air: true, beside_kg_s: 0.0 };
/// let hands = Hands::typical();
/// let (over, _) = waits_over(&machine, &work, hands, &bounds(&machine, &work, hands), 5.0);
/// assert!(over);
/// ```
pub fn waits_over(
    machine: &Machine,
    work: &Work,
    hands: Hands,
    bounds: &Bounds,
    most_minutes: f64,
) -> (bool, usize) {
    let share = most_minutes / 60.0;
    let mut tank = Tank::full(machine, work, Worker::Spares, Fineness::Coarse);
    tank.most_waiting_s = bounds.longest_s * share / (1.0 - share).max(1e-9);
    tank.work_through(hands, HOURS_S, &mut |_| {});
    let run = tank.answer();
    (run.minutes_waiting() >= most_minutes, run.steps)
}

/// Runs from a full tank until `seconds` are on the clock and shows every step to `observe`.
pub fn observe_run(
    machine: &Machine,
    work: &Work,
    worker: Worker,
    seconds: f64,
    longest_step_s: f64,
    observe: &mut dyn FnMut(Step),
) {
    let mut tank = Tank::full(machine, work, worker, Fineness::Fine);
    tank.longest_step_s = longest_step_s;
    tank.most_s = seconds;
    tank.work_through(Hands::typical(), seconds, observe);
}
