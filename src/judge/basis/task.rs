//! A task: what its tool takes, and in what rhythm.

use super::reader::Reader;
use super::spray::{Spray, spray};
use super::{Figure, Given, TaskBasis};
use quantity::{FreeAir, Gauge, Kind};
use shop::Task;
use shop::catalogue::typical;
use shop::guns::sprays;

/// What hand tools are made for, with the tool at rest: 90 psi, printed on nearly all. Common practice, no source.
const AT_REST_PSI: f64 = 90.0;

/// The most at rest: what the tool's maker prints, taken from a setting that was typed, else 90 psi. A spray gun is set while
/// it sprays.
fn rest_most(task: &Task, setting: Figure) -> Option<Gauge> {
    let usual = Gauge::psi(AT_REST_PSI);
    let typed = setting.given && setting.value > usual.as_pa();
    let most = if typed { Gauge::pa(setting.value) } else { usual };
    (!sprays(task.kind)).then_some(most)
}

/// What the trade knows of the task, a gun's flow where one sprays.
fn usual_amounts(task: &Task, spray: Option<&Spray>) -> [f64; 3] {
    match spray {
        Some(spray) if spray.gun_given => spray.gun.flow.map(|cfm| FreeAir::cfm(cfm).as_m3_s()),
        _ => typical(task.kind).amounts_si(),
    }
}

fn task_flow(
    reader: &mut Reader,
    task: &Task,
    on_s: f64,
    spray: Option<&Spray>,
) -> (FreeAir, [FreeAir; 2], bool) {
    let usual = usual_amounts(task, spray);
    let stroke = task.kind.by_stroke();
    let kind = if stroke { Kind::StrokeVolume } else { Kind::Flow };
    let per = if stroke { on_s } else { 1.0 };
    let flows = usual.map(|amount| FreeAir::m3_s(amount / per));
    match reader.above_zero("flow", kind, &task.flow) {
        Some(amount) => {
            let flow = FreeAir::m3_s(amount / per);
            (
                flow,
                [0.9, 1.1].map(|share| FreeAir::m3_s(flow.as_m3_s() * share)),
                true,
            )
        }
        None => {
            reader.take("flow", kind, usual[1]);
            (flows[1], [flows[0], flows[2]], false)
        }
    }
}

pub(super) fn task_basis(reader: &mut Reader, index: usize, task: &Task) -> TaskBasis {
    let usual = typical(task.kind);
    let on = reader.above_zero_or("trigger_on", Kind::Duration, &task.trigger_on, usual.trigger_s[0]);
    let off_s = reader
        .or(
            "trigger_off",
            Kind::Duration,
            &task.trigger_off,
            usual.trigger_s[1],
        )
        .value;
    let spell = reader.above_zero_or("spell", Kind::Minutes, &task.spell, usual.spell_min[0] * 60.0);
    let pause = reader.or("pause", Kind::Minutes, &task.pause, usual.spell_min[1] * 60.0);
    let spray = spray(reader, task);
    let (flow, flow_range, flow_given) = task_flow(reader, task, on.value, spray.as_ref());
    let setting = reader.above_zero_or("setting", Kind::Pressure, &task.setting, usual.setting().as_pa());
    // A typed setting without a lowest keeps the typical share of it.
    let share = usual.lowest().as_pa() / usual.setting().as_pa();
    let mut lowest = reader.above_zero_or("lowest", Kind::Pressure, &task.lowest, setting.value * share);
    if lowest.value > setting.value {
        reader.fault(
            "lowest",
            "the lowest useful pressure is above the setting: it must be the lower of the two",
        );
        lowest = reader.take("lowest", Kind::Pressure, setting.value * share);
    }
    let people = reader
        .or("people", Kind::Count, &task.people, 1.0)
        .value
        .clamp(1.0, 20.0);
    let name = task.name.trim();
    TaskBasis {
        index,
        kind: task.kind,
        name: if name.is_empty() {
            usual.name.into()
        } else {
            name.into()
        },
        on: task.on,
        flow,
        flow_range,
        setting: Gauge::pa(setting.value),
        lowest: Gauge::pa(lowest.value),
        rhythm: physics::run::Rhythm {
            on_s: on.value,
            off_s,
            spell_s: spell.value,
            pause_s: pause.value,
        },
        people,
        together: task.together,
        given: Given {
            flow: flow_given,
            trigger: on.given,
            spell: spell.given,
            pause: pause.given,
            lowest: lowest.given,
        },
        source: usual.source,
        rest_most: rest_most(task, setting),
        spray,
    }
}
