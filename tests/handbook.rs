//! The compressor and the receiver against printed tables.

#![allow(clippy::unwrap_used, reason = "helpers of tests: a refusal is a failed test")]

use bellows::physics::air::standard_pressure;
use bellows::physics::compressor::{Pump, isentropic_watts};
use bellows::physics::receiver::isothermal_seconds;
use bellows::quantity::{Absolute, FreeAir, Gauge, M3_PER_GALLON, M3_S_PER_CFM, PA_PER_PSI};
use bellows::shop::MachineKind;

/// Watts in one mechanical horsepower, 33,000 ft lbf a minute.
const WATTS_PER_HP: f64 = 745.699_9;

/// Free air at 100 psi gauge at an altitude, per cent of that at sea level, for a machine known by one flow.
fn per_cent_of_sea_level(kind: MachineKind, feet: f64) -> f64 {
    let pump = Pump::of_one_flow(kind, FreeAir::cfm(100.0), Gauge::psi(100.0)).unwrap();
    let delivered = |altitude_m: f64| {
        let site = standard_pressure(altitude_m).unwrap();
        pump.delivered(Gauge::psi(100.0).at(site), site).as_cfm()
    };
    100.0 * delivered(feet * 0.3048) / delivered(0.0)
}

/// US Army FM 5-434 (2000), table 9-1, reciprocating machines at 100 psi gauge: feet, per cent of sea level.
/// The table is printed to a tenth of a per cent but names no clearance, so one typical clearance is held
/// against a whole trade's machines.
#[test]
fn efficiency_falls_with_altitude_as_the_army_prints_it() {
    // Found: one stage -1.4 points at 2,000 ft, where the table's own row breaks its slope, and +0.4 to +0.7 above;
    // two stages +0.1 to +0.5. No clearance fits the first row and the others at once: 2.5 points and 1 point.
    for (feet, printed) in [
        (2_000.0, 98.7),
        (5_000.0, 92.5),
        (8_000.0, 87.3),
        (10_000.0, 84.0),
    ] {
        let read = per_cent_of_sea_level(MachineKind::PistonOneStage, feet);
        assert!(
            (read - printed).abs() < 2.5,
            "{feet} ft: {read:.2} against {printed}"
        );
    }
    for (feet, printed) in [
        (2_000.0, 99.4),
        (5_000.0, 98.5),
        (8_000.0, 97.6),
        (10_000.0, 97.0),
    ] {
        let read = per_cent_of_sea_level(MachineKind::PistonTwoStage, feet);
        assert!(
            (read - printed).abs() < 1.0,
            "{feet} ft: {read:.2} against {printed}"
        );
    }
}

/// Theoretical horsepower for 1 cfm of free air from 14.7 psia.
fn horsepower(kind: MachineKind, psi: f64) -> f64 {
    let site = Absolute::psi(14.7);
    isentropic_watts(kind, FreeAir::cfm(1.0), Gauge::psi(psi).at(site), site) / WATTS_PER_HP
}

/// Machinery's Handbook 31, table 36: gauge psi, mean effective pressure of one stage, adiabatic, psi.
/// The horsepower for 1 cfm is that pressure x 144 in²/ft² / 33,000 ft lbf/min.
#[test]
fn one_stage_takes_the_printed_work() {
    // Found: -0.4 to -0.6 %. The table's exponent is not stated; 1.406 in place of 1.4 would account for 0.25 % at
    // 50 psi and 0.4 % at 150, the reading of the tables for the rest: 1.5 % holds either.
    for (psi, mean_psi) in [
        (50.0, 27.23),
        (90.0, 38.89),
        (100.0, 41.28),
        (120.0, 45.69),
        (150.0, 51.47),
    ] {
        let printed = mean_psi * 144.0 / 33_000.0;
        let read = horsepower(MachineKind::PistonOneStage, psi);
        assert!(
            (read / printed - 1.0).abs() < 0.015,
            "{psi} psi: {read} against {printed}"
        );
    }
}

/// Machinery's Handbook 31, table 37: gauge psi, theoretical horsepower for 1 cfm in two stages with cooling
/// between, and the same with 15 % friction.
#[test]
fn two_stages_take_the_printed_work() {
    // Found: -0.5 to +0.25 %. Three figures printed, and 0.0005 in 0.145 is 0.35 %; the rest as for one stage.
    for (psi, printed, with_friction) in [
        (90.0, 0.145, 0.167),
        (100.0, 0.153, 0.176),
        (120.0, 0.168, 0.193),
        (150.0, 0.186, 0.214),
    ] {
        let read = horsepower(MachineKind::PistonTwoStage, psi);
        assert!(
            (read / printed - 1.0).abs() < 0.015,
            "{psi} psi: {read} against {printed}"
        );
        assert!(
            (read * 1.15 / with_friction - 1.0).abs() < 0.015,
            "{psi} psi with friction"
        );
    }
}

/// Machinery's Handbook 31, table 36: isothermal horsepower for 1 cfm. No machine does with less, and one stage
/// without cooling takes more than two with it.
#[test]
fn work_lies_above_the_isothermal_and_more_stages_come_nearer_to_it() {
    for (psi, isothermal) in [(90.0, 0.126), (100.0, 0.132), (120.0, 0.142)] {
        let (one, two) = (
            horsepower(MachineKind::PistonOneStage, psi),
            horsepower(MachineKind::PistonTwoStage, psi),
        );
        assert!(
            isothermal < two && two < one,
            "{psi} psi: {isothermal}, {two}, {one}"
        );
    }
}

/// The handbook formula t = V (P1 - P2) / (Q Patm) by hand: 80 gal is 80 x 231 / 1728 = 10.694 ft³; from 150 to
/// 100 psi it holds 10.694 x 50 / 14.7 = 36.38 ft³ of free air, which 20 cfm use up in 1.819 min, 109.1 s.
/// CAGI handbook, DOE sourcebook (formula from memory; the sum is done here).
#[test]
fn the_storage_formula_is_the_sum_done_by_hand() {
    let seconds = isothermal_seconds(
        80.0 * M3_PER_GALLON,
        150.0 * PA_PER_PSI,
        100.0 * PA_PER_PSI,
        20.0 * M3_S_PER_CFM,
        14.7 * PA_PER_PSI,
    );
    // Four figures kept by hand.
    assert!((seconds - 109.1).abs() < 0.1, "{seconds}");
}
