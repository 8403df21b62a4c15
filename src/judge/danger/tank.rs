//! Tanks against switch and relief valve.

use quantity::{Gauge, M3_PER_GALLON};
use shop::pumps::PumpKind;

use super::{Case, Cause, Danger, Tank, ask, danger};
use crate::basis::vessel::{Condition, Relief, Stamp};

/// A switch set so far below the stamp leaves the relief valve in peace: a tenth, rounded down to 5 psi. The trade; Oregon OAR
/// 437-004-1505 has the valve within 10 % above the working pressure.
const BELOW_STAMP: f64 = 0.92;

/// Stamps of tanks sold, psi. Common practice, no source.
const STAMPS_PSI: [f64; 5] = [125.0, 150.0, 165.0, 175.0, 200.0];

/// A stamp stands at least so much above the switch, that the relief valve between them rests. The trade.
const ROOM_OVER: f64 = 1.05;

/// A tank up to this is a hand-carry machine's, whose oil-free pump may go to 200 psi, gal. Common practice, no source.
const HAND_CARRY_GAL: f64 = 12.0;

/// Most that one-stage pumps go to, portable ones and others, psi. Common practice, no source.
const ONE_STAGE_PSI: [f64; 2] = [200.0, 160.0];

/// Slack for figures rounded by conversion, as a share.
const SAME: f64 = 1.0005;

fn above(one: Gauge, other: Gauge) -> bool {
    one.as_pa() > other.as_pa() * SAME
}

/// Where a switch may open on a tank of this stamp.
fn switch_to(stamp: Gauge) -> Gauge {
    Gauge::psi((stamp.as_psi() * BELOW_STAMP / 5.0).floor() * 5.0)
}

/// The least stamp sold that bears a switch.
fn stamp_for(cut_out: Gauge) -> Gauge {
    let enough = |psi: &f64| *psi >= ROOM_OVER * cut_out.as_psi();
    let sold = STAMPS_PSI.into_iter().find(enough);
    // Beyond what is sold the next 25 psi.
    Gauge::psi(sold.unwrap_or_else(|| (ROOM_OVER * cut_out.as_psi() / 25.0).ceil() * 25.0))
}

/// The machine's own tank, switch and valve.
pub(super) fn own(case: &Case) -> Vec<Danger> {
    let machine = case.candidate;
    let (vessel, cut_out) = (machine.vessel, machine.cut_out);
    let mut found = Vec::new();
    match vessel.stamp {
        Stamp::Missing => found.push(danger(Cause::NoStamp(Tank::Own))),
        Stamp::At(stamp) if above(cut_out, stamp) => found.push(over_stamp(case, stamp)),
        Stamp::At(_) => {}
        Stamp::Untold => found.extend(over_pump(case)),
    }
    match (vessel.relief, vessel.stamp) {
        (Relief::Blocked, _) => found.push(danger(Cause::ReliefBlocked)),
        (Relief::At(relief), Stamp::At(stamp)) if above(relief, stamp) => {
            found.push(danger(Cause::ReliefOverStamp { relief, stamp }));
        }
        (Relief::At(relief), _) if machine.switch_origins[1].is_given() && above(cut_out, relief) => {
            found.push(ask(Cause::ReliefUnderSwitch { relief, cut_out }));
        }
        _ => {}
    }
    found
}

fn over_stamp(case: &Case, stamp: Gauge) -> Danger {
    let cut_out = case.candidate.cut_out;
    if !case.candidate.switch_origins[1].is_given() {
        return ask(Cause::SwitchUntold {
            tank: Tank::Own,
            stamp,
            taken: cut_out,
        });
    }
    danger(Cause::SwitchOverStamp {
        cut_out,
        stamp,
        switch_to: switch_to(stamp),
    })
}

/// A switch that no such pump reaches, or no such pump should.
fn over_pump(case: &Case) -> Option<Danger> {
    let machine = case.candidate;
    let small = machine.tank_m3.is_given() && machine.tank_m3.value <= HAND_CARRY_GAL * M3_PER_GALLON;
    let [portable, other] = ONE_STAGE_PSI.map(Gauge::psi);
    let usual = match machine.pump {
        Some(pump) => pump.traits().most(),
        None if small => portable,
        None => other,
    };
    let cut_out = machine.cut_out;
    (machine.switch_origins[1].is_given() && above(cut_out, usual)).then(|| {
        ask(Cause::SwitchOverPump {
            cut_out,
            usual,
            pump: machine.pump.filter(|pump| *pump != PumpKind::Rotary),
        })
    })
}

/// The second tank, where it stands at this place.
pub(super) fn second(case: &Case) -> Vec<Danger> {
    let Some(tank) = case.basis.auxiliary.filter(|tank| case.place == 0 || !tank.stays) else {
        return Vec::new();
    };
    let mut found = Vec::new();
    if tank.condition == Condition::Unsound {
        found.push(danger(Cause::UnsoundTank));
    }
    match tank.stamp {
        Stamp::Missing => found.push(danger(Cause::NoStamp(Tank::Second))),
        Stamp::Untold if tank.condition == Condition::Used => found.push(ask(Cause::UsedTank)),
        Stamp::Untold => {}
        Stamp::At(stamp) => found.extend(second_stamped(case, stamp)),
    }
    found
}

fn second_stamped(case: &Case, stamp: Gauge) -> Option<Danger> {
    let (cut_out, vessel) = (case.candidate.cut_out, case.candidate.vessel);
    if above(cut_out, stamp) {
        let taken = ask(Cause::SwitchUntold {
            tank: Tank::Second,
            stamp,
            taken: cut_out,
        });
        let wants = stamp_for(cut_out);
        let typed = danger(Cause::SwitchOverSecond {
            cut_out,
            stamp,
            wants,
        });
        return Some(if case.candidate.switch_origins[1].is_given() {
            typed
        } else {
            taken
        });
    }
    match vessel.relief {
        Relief::At(relief) if above(relief, stamp) => Some(ask(Cause::SecondRelief { relief, stamp })),
        _ => None,
    }
}
