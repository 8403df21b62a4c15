//! The wait alone, for a thousand draws: as [`long_run`](super::long_run) finds it, with fewer and longer steps.

use super::{Machine, Rhythm, Run, SECONDS, Sums, Work, Worker, lasting, smoothed};
use crate::compressor::GAMMA;

/// Steps are so much longer than where every figure counts.
const STRIDE: f64 = 3.0;
/// Two rounds that begin with tank masses and temperatures this close, relatively, count as one and the same.
const SAME: f64 = 0.004;
/// Rounds after which the later ones are averaged.
const ROUNDS: usize = 6;

/// How a worker fares who waits for the tank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wait {
    /// Share of time spent waiting.
    pub share: f64,
    /// The machine never came back.
    pub hopeless: bool,
}

impl Wait {
    const NONE: Self = Self {
        share: 0.0,
        hopeless: false,
    };
}

/// The share of time that a worker waits, as in [`LongRun::waiting`](super::LongRun::waiting), at a tenth of the cost.
///
/// Three steps, each only where the one before does not settle it:
///
/// 1. Where the running motor makes more than the weak tool takes, nobody waits. This is exact.
/// 2. The pulls of a spell are drawn out evenly over it, from the worst tank that a spell can begin with: just above
///    cut-in, the motor off. Where the pressure then stays above the tool's limit by more than one pull moves it
///    (γ p Δm / m, no heat from the walls), and the pause brings the tank back to cut-in, nobody waits.
/// 3. The rhythm is run pull by pull, with steps three times as long, from the tank that a pause leaves after a wait,
///    until a round begins within 0.4 % of an earlier one.
///
/// # Validity
/// As `long_run`. The class of the wait (none worth naming, some, too much) agrees in 99 of 100 draws and the share of
/// waiting within 0.03 (root mean square): `tests/doubt.rs` holds that against `long_run`.
/// # Source
/// Own method.
pub fn quick_wait(machine: &Machine, work: &Work) -> Wait {
    if lasting(machine, work) || never_weak(machine, work) {
        return Wait::NONE;
    }
    let work = smoothed(machine, work);
    let mut run = Run::full(machine, &work, Worker::Patient);
    run.stride = STRIDE;
    // A spell with waits ends between weak and full again: the pause from there leads near to where rounds begin.
    let spent_pa = 0.5 * (work.enough_pa + work.resume_pa.min(machine.cut_out_pa));
    run.state = machine.receiver.state(spent_pa, machine.receiver.wall_k);
    run.motor = true;
    run.phase(work.rhythm.pause_s, false, &mut |_| {});
    let mut since = run.sums;
    let mut begins: Vec<(f64, f64, bool, Sums)> = Vec::with_capacity(ROUNDS);
    while begins.len() < ROUNDS && run.sums.seconds < SECONDS && !run.hopeless {
        let (mass_kg, kelvin, motor) = (run.state.mass_kg, run.state.kelvin, run.motor);
        let same = begins.iter().find(|(mass, warm, ran, _)| {
            *ran == motor && (mass / mass_kg - 1.0).abs() < SAME && (warm / kelvin - 1.0).abs() < SAME
        });
        if let Some((_, _, _, sums)) = same {
            since = *sums;
            break;
        }
        begins.push((mass_kg, kelvin, motor, run.sums));
        // Not settled in the end: what follows the second round is averaged.
        since = begins.get(2).map_or(since, |(_, _, _, sums)| *sums);
        run.round(&mut |_| {});
    }
    let window = run.sums.since(since);
    Wait {
        share: (window.waiting_s / window.seconds.max(1.0)).clamp(0.0, 1.0),
        hopeless: run.hopeless,
    }
}

/// Step 2 of [`quick_wait`].
fn never_weak(machine: &Machine, work: &Work) -> bool {
    let Rhythm {
        on_s, off_s, spell_s, ..
    } = work.rhythm;
    let pulls = (spell_s / (on_s + off_s)).floor();
    let share = (pulls * on_s + (spell_s - pulls * (on_s + off_s)).min(on_s)) / spell_s;
    let limit = work.enough_pa;
    let tank_kg = machine.receiver.state(limit, machine.receiver.wall_k).mass_kg;
    let pull_kg = work.draw.at(machine.cut_out_pa) * on_s * (1.0 - share);
    let even = Work {
        draw: work.draw.times(share),
        enough_pa: limit * (1.0 + GAMMA * pull_kg / tank_kg),
        rhythm: Rhythm {
            on_s: spell_s,
            off_s: 0.0,
            ..work.rhythm
        },
        ..*work
    };
    let from_pa = machine.cut_in_pa * 1.001;
    if even.enough_pa >= machine.cut_in_pa {
        return false;
    }
    let mut run = Run::full(machine, &even, Worker::WorksOn);
    run.state = machine.receiver.state(from_pa, machine.receiver.wall_k);
    run.stride = STRIDE;
    run.round(&mut |_| {});
    run.sums.weak_s == 0.0 && machine.receiver.pressure_pa(run.state) >= machine.cut_in_pa
}
