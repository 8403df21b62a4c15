//! A task: what its tool takes, and in what rhythm.

use super::reader::Reader;
use super::spray::{Spray, spray};
use super::{TaskBasis, TaskOrigins};
use quantity::field::{Field, STROKE, STROKE_TIME};
use quantity::{FreeAir, Gauge, Known, PA_PER_PSI, S_PER_MIN};
use shop::catalogue::typical;
use shop::guns::{FADE_PSI, sprays};
use shop::{Task, TaskKind};

/// The rows for what a tool takes and for how long: where it works by the stroke, they are its stroke's.
fn rows(reader: &Reader, kind: TaskKind) -> [&'static Field; 2] {
    if kind.by_stroke() {
        return [&STROKE, &STROKE_TIME];
    }
    ["flow", "trigger_on"].map(|key| reader.row(key))
}

/// What hand tools are made for, with the tool at rest: 90 psi, printed on nearly all. Common practice, no source.
const AT_REST_PSI: f64 = 90.0;

/// The most at rest: what the tool's maker prints, taken from a setting that was typed, else 90 psi. A spray gun is set while
/// it sprays.
fn rest_most(task: &Task, setting: Known) -> Option<Gauge> {
    let usual = Gauge::psi(AT_REST_PSI);
    let typed = setting.is_given() && setting.value > usual.as_pa();
    let most = if typed { Gauge::pa(setting.value) } else { usual };
    (!sprays(task.kind)).then_some(most)
}

/// Where no lowest pressure is typed: a gun may fade by [`FADE_PSI`] in a coat; any other tool keeps the typical share of
/// its setting.
fn usual_lowest(task: &Task, setting_pa: f64) -> f64 {
    let usual = typical(task.kind);
    if sprays(task.kind) {
        return (setting_pa - FADE_PSI * PA_PER_PSI).max(0.5 * setting_pa);
    }
    setting_pa * usual.lowest().as_pa() / usual.setting().as_pa()
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
    (field, on_s): (&Field, f64),
    spray: Option<&Spray>,
) -> (Known<FreeAir>, [FreeAir; 2]) {
    let usual = usual_amounts(task, spray);
    let stroke = task.kind.by_stroke();
    let per = if stroke { on_s } else { 1.0 };
    let flows = usual.map(|amount| FreeAir::m3_s(amount / per));
    match reader.get_as(field, &task.flow) {
        Some(amount) => {
            let flow = FreeAir::m3_s(amount / per);
            let range = [0.9, 1.1].map(|share| FreeAir::m3_s(flow.as_m3_s() * share));
            (Known::typed(flow), range)
        }
        None => {
            let taken = reader.take_as(field, usual[1]);
            (taken.map(|_| flows[1]), [flows[0], flows[2]])
        }
    }
}

pub(super) fn task_basis(reader: &mut Reader, index: usize, task: &Task) -> TaskBasis {
    let usual = typical(task.kind);
    let name = reader.words("name", &task.name);
    let [flow_row, on_row] = rows(reader, task.kind);
    let on = reader.or_as(on_row, &task.trigger_on, usual.trigger_s[0]);
    let off_s = reader
        .or("trigger_off", &task.trigger_off, usual.trigger_s[1])
        .value;
    let spell = reader.or("spell", &task.spell, usual.spell_min[0] * S_PER_MIN);
    let pause = reader.or("pause", &task.pause, usual.spell_min[1] * S_PER_MIN);
    let spray = spray(reader, task);
    let (flow, flow_range) = task_flow(reader, task, (flow_row, on.value), spray.as_ref());
    let setting = reader.or("setting", &task.setting, usual.setting().as_pa());
    let usual_lowest = usual_lowest(task, setting.value);
    let mut lowest = reader.or("lowest", &task.lowest, usual_lowest);
    if lowest.value > setting.value {
        reader.refuse(
            "lowest",
            "the lowest useful pressure is above the setting: it must be the lower of the two",
        );
        lowest = reader.take("lowest", usual_lowest);
    }
    let people = reader.or("people", &task.people, 1.0).value;
    TaskBasis {
        index,
        kind: task.kind,
        name: if name.is_empty() {
            usual.name.into()
        } else {
            name.into()
        },
        on: task.on,
        flow: flow.value,
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
        unread_air: reader.unread_air(),
        together: task.together,
        origins: TaskOrigins {
            flow: flow.origin,
            trigger: on.origin,
            spell: spell.origin,
            pause: pause.origin,
            setting: setting.origin,
            lowest: lowest.origin,
        },
        source: usual.source,
        rest_most: rest_most(task, setting),
        spray,
    }
}
