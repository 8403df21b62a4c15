//! How long a full tank holds the trigger, and how long it takes to fill.

use super::tank::Tank;
use super::{Curve, Fineness, Machine, Rhythm, Work, Worker};

/// A trigger held for longer than this from a full tank is held for good, s.
const FOR_GOOD_S: f64 = 3_600.0;

/// Seconds that the trigger can be held from a full tank until the tool goes weak; `None` is for good.
pub fn longest_trigger_s(machine: &Machine, work: &Work) -> Option<f64> {
    // The tank then settles above the limit for good.
    if work.lasting(machine) && machine.cut_in_pa > work.enough_pa {
        return None;
    }
    let mut tank = Tank::full(machine, work, Worker::WorksOn, Fineness::Fine);
    while tank.seconds() < FOR_GOOD_S {
        if tank.pressure_pa() <= work.enough_pa * (1.0 + 1e-6) {
            return Some(tank.seconds());
        }
        let weak_s = tank.weak_s();
        tank.hold(FOR_GOOD_S);
        if tank.weak_s() > weak_s {
            // The step ran past the limit: take the part of it that was above.
            return Some(tank.seconds() - (tank.weak_s() - weak_s));
        }
    }
    None
}

/// Seconds that the motor takes from `from_pa` (air at the place's temperature) to cut-out with nothing drawn;
/// `None` if it does not get there within `within_s`.
///
/// The tank is still warm when the switch opens; it then cools and the reading sinks a little.
pub fn recovery_s(machine: &Machine, from_pa: f64, within_s: f64) -> Option<f64> {
    let idle = Work {
        draw: Curve::of(0.0, 1.0, |_| 0.0),
        enough_pa: 0.0,
        rhythm: Rhythm {
            on_s: 0.0,
            off_s: 1.0,
            spell_s: 1.0,
            pause_s: 0.0,
        },
        by_air: false,
        beside_kg_s: 0.0,
    };
    let mut tank = Tank::full(machine, &idle, Worker::WorksOn, Fineness::Fine);
    tank.state = machine.receiver.state(from_pa, machine.receiver.wall_k);
    tank.motor = from_pa < machine.cut_out_pa;
    tank.fill(within_s);
    (!tank.motor).then_some(tank.seconds())
}
