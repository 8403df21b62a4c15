//! What the trade calls the jobs, in the middle of a sentence.

use judge::basis::TaskBasis;
use shop::TaskKind;
use shop::catalogue::typical;

/// Holes by a drill that works by itself: what a cordless one takes over.
pub fn makes_holes(task: &TaskBasis) -> bool {
    matches!(task.kind, TaskKind::Drill | TaskKind::Deburr) && !task.together
}

/// "drilling", "riveting"; a task that the reader named keeps its name.
pub fn doing(task: &TaskBasis) -> String {
    if task.kind == TaskKind::Other || task.name != typical(task.kind).name {
        return format!("“{}”", task.name);
    }
    match task.kind {
        TaskKind::Drill => "drilling",
        TaskKind::Deburr => "deburring",
        TaskKind::RivetGun => "riveting",
        TaskKind::BackRivet => "back-riveting",
        TaskKind::Squeezer => "squeezing rivets",
        TaskKind::BlowOff => "blow-off",
        TaskKind::DieGrinder => "the die grinder",
        TaskKind::Sander => "sanding",
        TaskKind::PrimerGun => "priming",
        TaskKind::PaintGun => "painting",
        TaskKind::RivetPuller => "pulled rivets",
        TaskKind::ClecoTool => "clecos",
        TaskKind::Other => "that tool",
    }
    .into()
}

/// "when drilling", "with the die grinder": where somebody waits.
pub fn when(task: &TaskBasis) -> String {
    let doing = doing(task);
    let by_tool = matches!(
        task.kind,
        TaskKind::DieGrinder
            | TaskKind::Other
            | TaskKind::RivetPuller
            | TaskKind::ClecoTool
            | TaskKind::BlowOff
    );
    match by_tool || doing.starts_with('“') {
        true => format!("with {doing}"),
        false => format!("when {doing}"),
    }
}
