//! What to do about the line: set the regulator, buy a hose, hang a second regulator, fit a vented tip.

use super::super::label::finding;
use super::super::words::{Words, capital};
use crate::report::{Finding, Grade, Remedy};
use judge::assess::{Facts, TaskFacts};
use judge::basis::{Basis, CandidateBasis, PlaceBasis, TaskBasis};
use judge::line::{Thin, Weakest, two_settings};
use physics::line::Leg;
use quantity::{Gauge, Kind, PA_PER_PSI};
use shop::TaskKind;
use shop::change::Change;

/// What names the weakest link: a line for the headline, the whole of it, and what to do.
#[derive(Clone, Debug, PartialEq)]
pub struct Link {
    /// It is the limit by itself: with it put right nothing else is wanted.
    pub alone: bool,
    /// A line.
    pub short: String,
    /// The whole.
    pub long: String,
    /// What to do first; blank where nothing needs doing.
    pub first: String,
    /// The same as changes to the shop.
    pub remedies: Vec<Remedy>,
}

fn called(leg: Leg) -> (&'static str, &'static str) {
    match leg {
        Leg::Trunk => ("hose", "trunk_bore"),
        Leg::Whip => ("whip hose", "whip_bore"),
    }
}

fn loss(words: Words, pa: f64) -> String {
    words.pressure(Gauge::pa(pa.max(0.5 * PA_PER_PSI)))
}

fn hose(words: Words, task: &TaskBasis, thin: &Thin) -> Link {
    let (name, field) = called(thin.leg);
    let bore = words.bore_enough(thin.wants_m);
    let present = format!(
        "{} of {}",
        words.of(Kind::Length, thin.length_m),
        words.of(Kind::Bore, thin.bore_m)
    );
    let (short, help) = match thin.alone {
        true => (
            format!("The {name} is the limit, not the compressor: use {bore}."),
            "More compressor or more tank would not help.",
        ),
        false => (
            format!("The {name} is too thin, and {bore} alone is not enough."),
            "Without it more compressor would not help; with it alone the compressor is still too small.",
        ),
    };
    Link {
        alone: thin.alone,
        short,
        long: format!(
            "{present} {name} loses {} while the tool runs ({}); {bore} would lose {}. {help}",
            loss(words, thin.lost_pa),
            task.name,
            loss(words, thin.then_lost_pa)
        ),
        first: format!("Use {bore} {name}."),
        remedies: vec![Remedy {
            label: format!("a {bore} {name}"),
            changes: vec![Change {
                field: format!("line.{field}"),
                text: bore,
            }],
        }],
    }
}

fn tool_pressure(words: Words, task: &TaskBasis, needs: Option<Gauge>, cut_in: Gauge) -> Link {
    let cut_in = words.pressure(cut_in);
    let asks = match needs {
        Some(needs) => format!("asks for {} in the tank", words.pressure(needs)),
        None => format!("never gets its {} through this line", words.pressure(task.lowest)),
    };
    Link {
        alone: true,
        short: format!(
            "{}: the pressure is the limit, not the flow.",
            capital(&task.name)
        ),
        long: format!(
            "{} {asks}, and the switch starts the motor at {cut_in}. In between the tool is weak.",
            capital(&task.name)
        ),
        first: "Shorter hose and fewer couplers first; then a smaller tool, or an electric one.".into(),
        remedies: Vec::new(),
    }
}

/// The weakest link in words; `None` where it is the machine, of which other lines speak.
pub fn link(words: Words, task: &TaskBasis, weakest: &Weakest) -> Option<Link> {
    match weakest {
        Weakest::Machine => None,
        Weakest::Hose(thin) => Some(hose(words, task, thin)),
        Weakest::ToolPressure { needs, cut_in } => Some(tool_pressure(words, task, *needs, *cut_in)),
    }
}

/// The link that alone keeps the work that decides from being done; nothing where the machine is it, or is it as well.
pub fn limit(words: Words, basis: &Basis, candidate: &CandidateBasis, facts: &Facts) -> Option<Link> {
    let worst = facts.verdict.as_ref()?.worst();
    let worst = worst.filter(|record| record.grade > judge::grade::Grade::Good)?;
    // A line that the sums refuse is told at its field.
    let Ok(Some(weakest)) = judge::line::weakest(basis, candidate, worst.place, worst.task) else {
        return None;
    };
    link(words, basis.tasks.get(worst.task)?, &weakest).filter(|link| link.alone)
}

impl Link {
    pub(super) fn finding(self) -> Finding {
        Finding {
            remedies: self.remedies,
            ..finding(
                "weakest",
                Grade::Poor,
                format!("{} {} {}", self.short, self.long, self.first),
                "pressure that the tool needs against the switch, through this hose and through one from the rack",
            )
        }
    }
}

/// A line that the sums do not take.
pub(super) fn refused(why: &str) -> Finding {
    let text = format!("The line can’t be judged yet: {why}.");
    finding(
        "weakest",
        Grade::Unsure,
        text,
        "what is beyond the sums is not judged",
    )
}

const AT_REST: &str = "most hand tools print 90 psi at most; a rivet gun is set on scrap";

/// How to set the regulator for a task.
pub(super) fn setting(
    words: Words,
    place: &PlaceBasis,
    task: &TaskBasis,
    facts: &TaskFacts,
) -> Option<Finding> {
    let (setting, losses) = facts.work.regulator.zip(facts.work.losses)?;
    let running = losses.tool().above(place.air.pressure());
    let (at_rest, running) = (words.pressure(setting), words.pressure(running));
    let enough = losses.tool().as_pa() >= task.lowest.at(place.air.pressure()).as_pa();
    let fine = if enough {
        "fine".to_owned()
    } else {
        format!("too little, it needs {}", words.pressure(task.lowest))
    };
    let text = match task.kind {
        TaskKind::PrimerGun | TaskKind::PaintGun => format!(
            "Set {} at the gun with the trigger held; that is about {at_rest} with it at rest. It may sink to {} in a coat, no lower.",
            words.pressure(task.setting),
            words.pressure(task.lowest)
        ),
        TaskKind::RivetGun | TaskKind::BackRivet => format!(
            "Set the rivet gun on scrap: {at_rest} at the regulator is a start, {} to {} by gun.",
            words.pressure(Gauge::psi(25.0)),
            words.pressure(Gauge::psi(60.0))
        ),
        TaskKind::BlowOff => format!(
            "Leave the line at {at_rest} and use a vented (safety) tip. Eye protection and a chip guard, and never at skin or clothes."
        ),
        _ => format!(
            "Set {at_rest} at the regulator with the tool at rest. With the trigger held it gets about {running}: {fine}."
        ),
    };
    let basis = match task.kind {
        TaskKind::BlowOff => {
            "OSHA 1910.242(b): under 30 psi with the tip dead-ended, which a vented tip keeps at any line pressure (OSHA STD 01-13-001)"
        }
        _ => AT_REST,
    };
    let grade = if enough { Grade::Note } else { Grade::Poor };
    Some(finding("setting", grade, text, basis))
}

/// Drill and rivet gun on one bench: a regulator each.
pub(super) fn second_regulator(words: Words, basis: &Basis) -> Option<Finding> {
    let [high, low] = two_settings(basis)?;
    let text = format!(
        "Your tools want two settings, {} and about {}: put a second regulator at the bench for the low one, with its own hose.",
        words.pressure(high),
        words.pressure(low)
    );
    Some(finding("second-regulator", Grade::Note, text, AT_REST))
}

/// Blowing chips off, where it is part of the work.
pub(super) fn blow_off(words: Words, basis: &Basis) -> Option<Finding> {
    let blows = basis
        .tasks
        .iter()
        .any(|task| task.on && task.kind == TaskKind::BlowOff);
    blows.then(|| {
        let text = format!(
            "For blow-off leave the line at {} and use a vented (safety) tip, eye protection and a chip guard.",
            words.pressure(Gauge::psi(90.0))
        );
        finding(
            "blow-off",
            Grade::Note,
            text,
            "OSHA 1910.242(b): under 30 psi with the tip dead-ended, which a vented tip keeps at any line pressure (OSHA STD 01-13-001)",
        )
    })
}
