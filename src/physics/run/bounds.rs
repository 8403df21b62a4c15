//! What a run must come to at the least, and whether nobody waits for sure: without stepping through time.

use super::{HOURS_S, Hands, Machine, Phase, Phases, Work};
use crate::compressor::GAMMA;
use crate::receiver::R_DRY_AIR;

/// Share by which the tank's air may be warmer than the room when the tool goes weak after hours at the motor's side.
const WARM: f64 = 0.05;

/// What three hours of a job come to, before they are stepped through.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// Minutes of waiting in the hour, at the least.
    pub least_minutes: f64,
    /// What the job takes at the most, waiting not counted, s.
    pub longest_s: f64,
}

/// The tank as a bucket of air above the lowest useful pressure, kg, and the flow that fills it, kg/s.
#[derive(Clone, Copy)]
struct Bucket {
    holds: f64,
    fills: f64,
    has: f64,
}

impl Bucket {
    /// A full one.
    fn full(holds: f64, fills: f64) -> Self {
        Self {
            holds,
            fills,
            has: holds,
        }
    }

    /// So long with so much drawn; returns what is missing in the end, kg, and is then empty.
    fn after(&mut self, seconds: f64, drawn: f64) -> f64 {
        let has = (self.has + self.fills * seconds - drawn).min(self.holds);
        self.has = has.max(0.0);
        (-has).max(0.0)
    }
}

/// At the best: the whole band from cut-out, the air cold when the tank is full and warm when the tool goes weak, the
/// motor at its best flow and never off before the tank is full.
fn kindest(machine: &Machine, work: &Work) -> Bucket {
    let receiver = &machine.receiver;
    let lowest = work.enough_pa.min(machine.cut_in_pa);
    let full = machine.cut_out_pa;
    let holds = (full - lowest / (1.0 + WARM)) * receiver.volume_m3 / (R_DRY_AIR * receiver.wall_k);
    Bucket::full(
        holds.max(0.0),
        machine.delivery.at(lowest) - work.aside(machine, lowest),
    )
}

/// At the worst: the motor off just above cut-in, the air as warm as it comes in, no heat from the walls, the motor at
/// its flow at cut-in and off again once the tank is back there.
fn harshest(machine: &Machine, work: &Work) -> Bucket {
    let receiver = &machine.receiver;
    let from = machine.cut_in_pa;
    let left = (work.enough_pa / from).clamp(0.0, 1.0).powf(1.0 / GAMMA);
    let holds = from * receiver.volume_m3 / (R_DRY_AIR * machine.in_kelvin) * (1.0 - left);
    Bucket::full(holds, machine.delivery.at(from) - work.aside(machine, from))
}

/// How long a piece of a job takes with the full flow, and how much of that is on the trigger, s.
fn on_trigger(phase: Phase, spell_share: f64) -> (f64, f64) {
    match phase {
        Phase::Pull(seconds) => (seconds, seconds),
        Phase::Even(seconds) => (seconds, spell_share * seconds),
        Phase::Rest(seconds) => (seconds, 0.0),
    }
}

/// Whether it is sure, without stepping through time, that nobody waits in a [`run`](super::run).
///
/// At its worst the tank is a bucket that holds what is between cut-in and the lowest useful pressure without any heat from
/// the walls, and the motor fills no more than that; where even that never runs dry, nobody waits. Nor does anybody where
/// the motor starts in time and makes more than everything takes.
///
/// | symbol | meaning | unit |
/// |---|---|---|
/// | m₁ = p₁V/(R T) | air in the tank at cut-in p₁, as warm as it comes in | kg |
/// | m₁ (1 − (p₀/p₁)^(1/γ)) | of that, what is above the lowest useful pressure p₀ | kg |
///
/// # Validity
/// As [`run`](super::run). It may be false where nobody waits.
/// # Source
/// Mass balance; adiabatic discharge p ~ m^γ. `tests/truth.rs` holds runs against it.
/// # Example
/// ```
/// # use physics::{receiver::Receiver, run::{Curve, Hands, Machine, Rhythm, Work, never_waits}};
/// let machine = Machine {
///     receiver: Receiver::cylinder(0.08, 293.0),
///     delivery: Curve::of(1e5, 1e6, |_| 0.004),
///     in_kelvin: 333.0, cut_in_pa: 7.5e5, cut_out_pa: 9.6e5, leak_kg_s_pa: 0.0,
/// };
/// let rhythm = Rhythm { on_s: 4.0, off_s: 4.0, spell_s: 180.0, pause_s: 240.0 };
/// let work = |kg_s: f64| Work {
///     draw: Curve::of(1e5, 1e6, |_| kg_s), enough_pa: 6.3e5, rhythm, by_air: true, beside_kg_s: 0.0,
/// };
/// assert!(never_waits(&machine, &work(0.003), Hands::typical()));
/// assert!(!never_waits(&machine, &work(0.015), Hands::typical()));
/// ```
pub fn never_waits(machine: &Machine, work: &Work, hands: Hands) -> bool {
    // Between cut-in and a higher useful pressure the tool is weak with the motor off.
    if machine.cut_in_pa <= work.enough_pa {
        return false;
    }
    let mut worst = harshest(machine, work);
    let (full_kg_s, share) = (work.full_kg_s(machine), work.rhythm.spell_share());
    let mut phases = Phases::new(work.rhythm, hands, HOURS_S, work.by_mean(machine));
    work.lasting(machine)
        || worst.fills > 0.0
            && phases.all(|phase| {
                let (seconds, trigger_s) = on_trigger(phase, share);
                worst.after(seconds, trigger_s * full_kg_s) <= 0.0
            })
}

/// Bounds of [`run`](super::run) with a worker who [waits as little as he may](super::Worker::Spares).
///
/// The tank is a bucket of air above the lowest useful pressure. At its best it holds all from cut-out and the motor
/// fills it whenever it is not full; then each spell that takes W kg makes one wait for at least (W − has)/Q less its
/// own length, and in the long run for W/Q less all of it. Whether nobody waits is [`never_waits`].
///
/// | symbol | meaning | unit |
/// |---|---|---|
/// | W | air that the tool takes | kg |
/// | Q | what the motor makes beyond leaks and others | kg/s |
///
/// # Validity
/// As [`run`](super::run). The air in the tank stays within 5 % of the room's temperature when the tool goes weak.
/// # Source
/// Mass balance; adiabatic discharge p ~ m^γ. `tests/truth.rs` holds runs against both.
pub fn bounds(machine: &Machine, work: &Work, hands: Hands) -> Bounds {
    let even = work.by_mean(machine);
    let share = work.rhythm.spell_share();
    let full_kg_s = work.full_kg_s(machine);
    // What fades takes less air a second, unless the pull lasts until its air is through.
    let weak_kg_s = if work.by_air {
        full_kg_s
    } else {
        work.draw.at(work.enough_pa)
    };
    let stretch = 1.0 / work.pace(machine, work.enough_pa);
    // A motor that starts below the lowest useful pressure leaves the tool weaker still.
    let weakest = 1.0 / work.pace(machine, work.enough_pa.min(machine.cut_in_pa));
    let mut best = kindest(machine, work);
    let (mut clock_s, mut waits_s, mut longest_s) = (0.0, 0.0, 0.0);
    for phase in Phases::new(work.rhythm, hands, HOURS_S, even) {
        let (seconds, trigger_s) = on_trigger(phase, share);
        let stretched_s = seconds + trigger_s * (stretch - 1.0);
        let missing = best.after(stretched_s, trigger_s * weak_kg_s);
        clock_s += stretched_s;
        longest_s += seconds + trigger_s * (weakest - 1.0);
        waits_s += if missing > 0.0 {
            missing / best.fills.max(1e-12)
        } else {
            0.0
        };
    }
    Bounds {
        least_minutes: 60.0 * waits_s / (clock_s + waits_s).max(1.0),
        longest_s,
    }
}
