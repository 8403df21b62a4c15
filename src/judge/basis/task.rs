//! A task: what its tool takes, and in what rhythm.

use super::reader::Reader;
use super::{Given, TaskBasis};
use quantity::{FreeAir, Gauge, Kind};
use shop::Task;
use shop::catalogue::typical;

fn task_flow(reader: &mut Reader, task: &Task, on_s: f64) -> (FreeAir, [FreeAir; 2], bool) {
    let usual = typical(task.kind);
    let stroke = task.kind.by_stroke();
    let kind = if stroke { Kind::StrokeVolume } else { Kind::Flow };
    let per = if stroke { on_s } else { 1.0 };
    let flows = usual.amounts_si().map(|amount| FreeAir::m3_s(amount / per));
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
            reader.take("flow", kind, usual.amounts_si()[1]);
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
    let (flow, flow_range, flow_given) = task_flow(reader, task, on.value);
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
    }
}
