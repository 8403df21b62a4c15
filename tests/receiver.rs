//! The tank against real air: `fixtures/tank.csv`, integrated apart from Bellows on CoolProp's equation of state.

#![allow(clippy::unwrap_used, reason = "helpers of tests: a refusal is a failed test")]

use bellows::physics::receiver::{Flows, R_DRY_AIR, Receiver, Walls, isothermal_seconds};
use bellows::quantity::{M3_PER_GALLON, M3_S_PER_CFM, PA_PER_PSI};

/// As in the fixture's script: outside air, walls and room, and the air that comes in warm from the pump.
const AMBIENT_PA: f64 = 14.696 * PA_PER_PSI;
const ROOM_K: f64 = 294.0;
const WARM_K: f64 = 334.0;

/// A tank that a steady flow of free air fills, or draws down where it is negative.
struct Case {
    gallons: f64,
    cfm: f64,
    from_psi: f64,
    to_psi: f64,
}

impl Case {
    fn volume_m3(&self) -> f64 {
        self.gallons * M3_PER_GALLON
    }
    fn pressures_pa(&self) -> [f64; 2] {
        [self.from_psi, self.to_psi].map(|psi| psi * PA_PER_PSI + AMBIENT_PA)
    }
    fn handbook_s(&self) -> f64 {
        let [from, to] = self.pressures_pa();
        isothermal_seconds(self.volume_m3(), from, to, -self.cfm * M3_S_PER_CFM, AMBIENT_PA)
    }
    /// Seconds by Bellows, in steps of a two-thousandth of the handbook's time.
    fn seconds(&self, walls: Walls) -> f64 {
        let receiver = Receiver::cylinder(self.volume_m3(), ROOM_K).with_walls(walls);
        let [from_pa, to_pa] = self.pressures_pa();
        let rate = self.cfm * M3_S_PER_CFM * AMBIENT_PA / (R_DRY_AIR * ROOM_K);
        let flows = |_| Flows {
            in_kg_s: rate.max(0.0),
            in_kelvin: WARM_K,
            out_kg_s: (-rate).max(0.0),
        };
        let step = self.handbook_s() / 2_000.0;
        let mut state = receiver.state(from_pa, ROOM_K);
        for steps in 1..10_000 {
            let before = receiver.pressure_pa(state);
            state = receiver.step(state, step, flows);
            let after = receiver.pressure_pa(state);
            if (after - to_pa) * rate >= 0.0 {
                return step * (f64::from(steps) - (after - to_pa) / (after - before));
            }
        }
        panic!("{} gal at {} cfm never gets there", self.gallons, self.cfm);
    }
}

/// Cases with these walls, and the seconds that real air takes.
fn real_air(walls: &str) -> Vec<(Case, f64)> {
    let rows: Vec<_> = include_str!("fixtures/tank.csv")
        .lines()
        .filter_map(|line| line.strip_prefix(walls)?.strip_prefix(','))
        .map(|row| {
            let figures: Vec<f64> = row.split(',').map(|figure| figure.parse().unwrap()).collect();
            let [gallons, cfm, from_psi, to_psi, seconds] = figures[..] else {
                panic!("not a row: {row}");
            };
            (
                Case {
                    gallons,
                    cfm,
                    from_psi,
                    to_psi,
                },
                seconds,
            )
        })
        .collect();
    assert_eq!(rows.len(), 10, "{walls}");
    rows
}

fn near_real_air(walls: Walls, name: &str, share: f64) {
    for (case, real) in real_air(name) {
        let own = case.seconds(walls);
        let off = own / real - 1.0;
        let Case {
            gallons,
            cfm,
            from_psi,
            to_psi,
        } = case;
        assert!(
            off.abs() < share,
            "{name}, {gallons} gal, {cfm} cfm, {from_psi} to {to_psi} psi: {own:.2} s against {real:.2} s, {off:.4}"
        );
    }
}

/// Found: 0.4 to 1.0 % too long. Real air's cp / cv at 7 to 13 bar is 1.41 to 1.43, and it packs half a per
/// cent denser; 2 % holds both.
#[test]
fn without_heat_from_the_walls_the_times_are_real_airs() {
    near_real_air(Walls::Adiabatic, "adiabatic", 0.02);
}

/// Found: 0.5 to 0.7 % too short, the compressibility that the ideal gas leaves out.
#[test]
fn at_one_temperature_the_times_are_real_airs() {
    near_real_air(Walls::Isothermal, "isothermal", 0.01);
}

/// The same law for the walls with conductivity, viscosity and heat capacity of the air as it is. Found: -0.4 to
/// +0.3 %: what the constants at 300 K leave out is small beside the spread of the law itself, 0.10 to 0.15 for 0.13.
#[test]
fn with_natural_convection_the_times_are_real_airs() {
    near_real_air(Walls::Natural, "natural", 0.01);
}

/// The slow limit is the handbook's formula (CAGI handbook, DOE sourcebook; from memory): exact for an ideal gas of
/// one temperature, so rounding is all that may differ; real air packs
/// 0.5 to 0.7 % denser, below the one per cent.
#[test]
fn the_slow_limit_is_the_handbook_formula() {
    for (case, real) in real_air("isothermal") {
        let (own, handbook) = (case.seconds(Walls::Isothermal), case.handbook_s());
        assert!(
            (own / handbook - 1.0).abs() < 1e-6,
            "{own} s against {handbook} s"
        );
        assert!(
            (handbook / real - 1.0).abs() < 0.01,
            "{handbook} s against {real} s"
        );
    }
}

/// By hand, ideal gas, 120 to 90 psi gauge or 134.7 to 104.7 psia, 20 gal or 2.674 ft³. At one temperature the tank
/// gives 2.674 x 30 / 14.7 = 5.46 ft³ of free air, 29.8 s at 11 cfm. Without heat what stays behind follows
/// p ~ ρ^1.4, so the share 1 - 0.7773^(1/1.4) = 0.1647 goes, worth 22.2 psi: 22.0 s.
#[test]
fn a_drill_on_twenty_gallons_holds_twenty_two_to_thirty_seconds() {
    let drill = Case {
        gallons: 20.0,
        cfm: -11.0,
        from_psi: 120.0,
        to_psi: 90.0,
    };
    let [slow, fast, between] =
        [Walls::Isothermal, Walls::Adiabatic, Walls::Natural].map(|walls| drill.seconds(walls));
    // Three figures kept by hand.
    assert!((slow - 29.8).abs() < 0.1, "{slow}");
    assert!((fast - 22.0).abs() < 0.1, "{fast}");
    assert!(fast < between && between < slow, "{between}");
}

/// Against the standard library's, over what heat exchange and far more can ask for: 10⁻¹¹ is what is claimed.
#[test]
fn cube_roots_are_those_of_the_standard_library() {
    for power in -290..=2_000 {
        let x = 10_f64.powf(f64::from(power) / 10.0 + 0.037);
        let off = bellows::physics::receiver::cube_root(x) / x.cbrt() - 1.0;
        assert!(off.abs() < 1e-11, "{x:e} is off by {off:e}");
    }
    assert_eq!(bellows::physics::receiver::cube_root(0.0), 0.0);
}
