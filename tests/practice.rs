//! Facts of the trade. Each is common practice, no source; what is checked is that Bellows says what an
//! old hand says.

#![allow(clippy::unwrap_used, reason = "helpers of tests: a refusal is a failed test")]

use bellows::judge::assess::{Facts, STARTS_MOST, assess, machine::Supply, machine::machine};
use bellows::judge::basis::Basis;
use bellows::judge::grade::Grade;
use bellows::judge::verdict::Record;
use bellows::judge::window::window;
use bellows::physics::circuit::same_power_amps;
use bellows::physics::run::recovery_s;
use bellows::quantity::M3_PER_GALLON;
use bellows::shop::catalogue::typical;
use bellows::shop::{Candidate, Place, Shop, Task, TaskKind, Units};

/// A machine by its flow at 90 psi and its tank, all else blank.
fn sold_as(flow: &str, tank: &str) -> Candidate {
    Candidate {
        flow: flow.into(),
        at: "90 psi".into(),
        tank: tank.into(),
        ..Candidate::default()
    }
}

fn task(kind: TaskKind) -> Task {
    Task {
        kind,
        on: true,
        ..Task::default()
    }
}

/// A drill in the rhythm [on, off, spell, pause].
fn drilling([on, off, spell, pause]: [&str; 4]) -> Task {
    Task {
        trigger_on: on.into(),
        trigger_off: off.into(),
        spell: spell.into(),
        pause: pause.into(),
        ..task(TaskKind::Drill)
    }
}

/// One place, sea level and 70 °F, one task, one machine.
fn shop(candidate: Candidate, task: Task) -> Shop {
    Shop {
        units: Units::Us,
        places: vec![Place {
            altitude: "0 ft".into(),
            temperature: "70 F".into(),
            ..Place::default()
        }],
        tasks: vec![task],
        candidates: vec![candidate],
        ..Shop::default()
    }
}

fn facts(shop: &Shop) -> Facts {
    let basis = Basis::of(shop);
    assert!(basis.faults.is_empty(), "{:?}", basis.faults);
    assess(&basis, &basis.candidates[0])
}

fn record(candidate: Candidate, task: Task) -> Record {
    facts(&shop(candidate, task)).places[0].tasks[0].record
}

/// Common practice, no source: about 2 cfm need about half an hour to fill an empty 60 gal tank to 120 psi.
/// "About" is a quarter either way; found: 29.5 min.
#[test]
fn two_cfm_fill_sixty_gallons_in_about_half_an_hour() {
    let basis = Basis::of(&shop(sold_as("2 cfm", "60 gal"), task(TaskKind::Drill)));
    let (candidate, place) = (&basis.candidates[0], &basis.places[0]);
    let pump = Supply::of(candidate).0.likely().unwrap();
    let machine = machine(candidate, &pump, 60.0 * M3_PER_GALLON, place);
    let minutes = recovery_s(&machine, place.air.pressure().as_pa(), 7_200.0).unwrap() / 60.0;
    assert!((22.5..37.5).contains(&minutes), "{minutes} min");
}

/// Common practice, no source: an air drill takes 11 to 12 cfm on the trigger, which is held about half the time
/// while holes are drilled; most switches open near 120 psi and tools are set to 90.
#[test]
fn what_is_taken_for_blank_fields_is_what_the_trade_reckons_with() {
    let basis = Basis::of(&shop(Candidate::default(), task(TaskKind::Drill)));
    let drill = &basis.tasks[0];
    assert!(
        (11.0..=12.0).contains(&drill.flow.as_cfm()),
        "{}",
        drill.flow.as_cfm()
    );
    assert!(
        (0.4..=0.6).contains(&drill.rhythm.spell_share()),
        "{}",
        drill.rhythm.spell_share()
    );
    assert!((drill.setting.as_psi() - 90.0).abs() < 0.5);
    let switch = &basis.candidates[0];
    assert!(
        (115.0..=125.0).contains(&switch.cut_out.as_psi()),
        "{}",
        switch.cut_out.as_psi()
    );
    assert!(
        (85.0..=95.0).contains(&switch.cut_in.as_psi()),
        "{}",
        switch.cut_in.as_psi()
    );
}

/// Common practice, no source: a builder who drills briskly, half the time on the trigger, outruns a small
/// portable machine of about 2.2 cfm and has to stop and wait.
#[test]
fn a_small_portable_machine_makes_a_brisk_driller_wait() {
    for tank in ["2 gal", "4 gal", "6 gal"] {
        for rhythm in [
            ["5 s", "5 s", "10 min", "2 min"],
            ["4 s", "4 s", "3 min", "4 min"],
        ] {
            let found = record(sold_as("2.2 cfm", tank), drilling(rhythm));
            assert_eq!(found.grade, Grade::Small, "{tank}: {found:?}");
        }
    }
}

/// Common practice, no source: about 13 cfm at 90 psi run a drill all day with hardly any tank.
/// The motor starts far too often on so small a tank, and that is said.
#[test]
fn thirteen_cfm_run_a_drill_all_day_with_hardly_any_tank() {
    let all_day = ["5 s", "5 s", "480 min", "0 min"];
    for tank in ["2 gal", "4 gal", "8 gal"] {
        let facts = facts(&shop(sold_as("13 cfm", tank), drilling(all_day)));
        let found = &facts.places[0].tasks[0];
        assert_eq!(found.run.waiting, 0.0, "{tank}");
        assert_eq!(found.record.unwaited_tenths(), 10, "{tank}: {:?}", found.record);
        assert!(found.trigger_s.is_none(), "{tank}: {:?}", found.trigger_s);
        assert!(found.run.running < 0.7, "{tank}: {:?}", found.run);
        // It is not the flow that lacks.
        assert!(
            found.starts_often() && found.run.starts_per_hour > STARTS_MOST,
            "{tank}"
        );
    }
}

/// Common practice, no source: a rivet gun is on the trigger a tenth of the time, which a small machine of about
/// 2 cfm and 6 gal can follow.
#[test]
fn a_rivet_gun_is_within_reach_of_two_cfm() {
    let gun = typical(TaskKind::RivetGun);
    let share = gun.trigger_s[0] / (gun.trigger_s[0] + gun.trigger_s[1]);
    assert!((0.05..=0.15).contains(&share), "{share}");
    let found = record(sold_as("2 cfm", "6 gal"), task(TaskKind::RivetGun));
    assert_eq!(found.grade, Grade::Good, "{found:?}");
}

/// Common practice, no source: for a metal airframe without painting, 3 to 5 cfm at 90 psi with 20 to 30 gal.
#[test]
fn the_window_of_a_metal_airframe() {
    let mut garage = Shop::fresh();
    garage.places.truncate(1);
    for (name, shop) in [("garage and hangar", Shop::fresh()), ("garage alone", garage)] {
        let found = window(&Basis::of(&shop)).unwrap();
        assert!((3.0..=5.0).contains(&found.flow.as_cfm()), "{name}");
        assert!((19.9..=30.1).contains(&(found.tank_m3 / M3_PER_GALLON)), "{name}");
    }
}

/// Common practice, no source: a motor of 14 A at 120 V draws 7 to 7.5 A when it is wired for 240 V.
#[test]
fn twice_the_voltage_is_half_the_current() {
    let amps = same_power_amps(14.0, 120.0, 240.0).unwrap();
    assert!((6.9..=7.5).contains(&amps), "{amps}");
}

/// Common practice, no source: horsepower does not tell flow. Two machines of one horsepower and different flow
/// get different verdicts; one flow with whatever horsepower printed gets one verdict.
#[test]
fn flow_decides_and_horsepower_does_not() {
    let drill = || drilling(["5 s", "5 s", "5 min", "5 min"]);
    let with_power = |flow: &str, power: &str| Candidate {
        power: power.into(),
        amps: "15 A".into(),
        ..sold_as(flow, "20 gal")
    };
    let (weak, strong) = (
        record(with_power("2.5 cfm", "2 hp"), drill()),
        record(with_power("6 cfm", "2 hp"), drill()),
    );
    assert!(
        weak.grade == Grade::Small && strong.grade == Grade::Good,
        "{weak:?}, {strong:?}"
    );
    for power in ["", "1 hp", "3 hp", "6.5 hp"] {
        assert_eq!(record(with_power("2.5 cfm", power), drill()), weak, "{power}");
        assert_eq!(record(with_power("6 cfm", power), drill()), strong, "{power}");
    }
}

/// Common practice, no source: the same machine delivers less free air by mass in a high hangar, and a task that it
/// just follows at sea level makes it work longer there.
#[test]
fn a_high_hangar_asks_more_of_the_same_machine() {
    let at = |altitude: &str| {
        let mut shop = shop(
            sold_as("4 cfm", "20 gal"),
            drilling(["4 s", "4 s", "3 min", "6 min"]),
        );
        shop.places[0].altitude = altitude.into();
        facts(&shop).places[0].tasks[0].run.running
    };
    let (low, high) = (at("0 ft"), at("7,000 ft"));
    assert!(high > low, "{low}, {high}");
}
