//! Air that is breathed, and the pipe that carries it.

use super::{Case, Cause, Danger, ask, danger};
use crate::basis::Pipe;

/// A compressor for tools gives no breathing air: oil mist, carbon monoxide, solvent, whatever it takes in. OSHA 1910.134(i)
/// asks for grade D air, monitored (from memory).
pub(super) fn breathed(case: &Case) -> Option<Danger> {
    case.basis.line.breathed.then(|| danger(Cause::BreathedAir))
}

/// PVC under air pressure breaks into shards: OSHA hazard information bulletin of 1988 on PVC pipe in above-ground
/// compressed-air lines (from memory).
pub(super) fn shatters(case: &Case) -> Option<Danger> {
    (case.basis.line.pipe == Some(Pipe::Shatters)).then(|| danger(Cause::Shatters))
}

/// A pipe of which nobody knows whether it is made for compressed air: what was not judged is not good. Judgement.
pub(super) fn which_pipe(case: &Case) -> Option<Danger> {
    (case.basis.line.pipe == Some(Pipe::Unknown)).then(|| ask(Cause::WhichPipe))
}
