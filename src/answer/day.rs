//! How much of a working day a machine runs.

use judge::assess::PlaceFacts;
use judge::basis::Basis;

use super::words::Words;

/// Share of time that the machine runs at a place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Running {
    /// Mean of the tasks that are on, each as long as the others: a day's sums go by it.
    pub mean: f64,
    /// The hardest task's share.
    pub worst: f64,
    /// That task's index into [`Basis::tasks`].
    pub task: usize,
}

/// How much the machine runs at a place; `None` where the flow is unknown or no task is on.
pub fn running(found: &PlaceFacts) -> Option<Running> {
    let share = |row: &judge::assess::TaskFacts| row.run.running.clamp(0.0, 1.0);
    let hardest = found
        .tasks
        .iter()
        .max_by(|one, other| share(one).total_cmp(&share(other)))?;
    let sum: f64 = found.tasks.iter().map(share).sum();
    Some(Running {
        mean: sum / found.tasks.len() as f64,
        worst: share(hardest),
        task: hardest.task,
    })
}

/// Why a day's sums go by the mean, in words.
pub fn rests_on(words: Words, basis: &Basis, running: Running) -> String {
    format!(
        "running {} of the time, the mean of its tasks; at the hardest, “{}”, {}",
        words.share(running.mean),
        basis.tasks[running.task].name,
        words.share(running.worst)
    )
}

/// Working hours in a day; no day has more than 24.
pub fn hours(basis: &Basis) -> f64 {
    (basis.limits.day_s.value / quantity::S_PER_H).min(24.0)
}

/// Electrical power while running, W: volts times amps, a little more than the meter counts.
pub fn watts(found: &PlaceFacts) -> Option<f64> {
    let load = found.power.load?;
    Some(load.amps * load.volts)
}
