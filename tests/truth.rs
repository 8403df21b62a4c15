//! Numerical truth: the long-run answer against a plain integration of eight hours with a small step.
//!
//! The reference below is written apart from `run`: explicit Euler, 5 ms, its own loop, switch and worker.
//! It shares only the tabulated flows and the constants of air.

use bellows::physics::receiver::{CP, CV, R_DRY_AIR, Receiver};
use bellows::physics::run::{Curve, Machine, Rhythm, Work, Worker, long_run, longest_trigger_s};
use bellows::quantity::{M3_PER_GALLON, M3_S_PER_CFM, PA_PER_PSI};

const AMBIENT_PA: f64 = 14.7 * PA_PER_PSI;
const DENSITY: f64 = 1.2;

/// A repeatable stream of numbers in 0..1 (Numerical Recipes' 64-bit congruential generator, from memory).
struct Draws(u64);

impl Draws {
    fn next(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1u64 << 53) as f64
    }
    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.next()
    }
}

fn gauge(psi: f64) -> f64 {
    psi * PA_PER_PSI + AMBIENT_PA
}

fn drawn_case(draws: &mut Draws) -> (Machine, Work) {
    let flow_cfm = draws.between(1.0, 14.0);
    let cut_out = draws.between(110.0, 170.0);
    let cut_in = cut_out - draws.between(15.0, 40.0);
    let machine = Machine {
        receiver: Receiver::cylinder(draws.between(2.0, 80.0) * M3_PER_GALLON, 293.0),
        delivery: Curve::of(AMBIENT_PA * 0.5, gauge(cut_out) * 1.02, |pressure| {
            let ratio = (pressure / AMBIENT_PA).max(1.0);
            DENSITY * flow_cfm * M3_S_PER_CFM * (1.0 - 0.07 * (ratio.powf(0.8) - 1.0)) / 0.73
        }),
        in_kelvin: 333.0,
        cut_in_pa: gauge(cut_in),
        cut_out_pa: gauge(cut_out),
        leak_kg_s_pa: 0.0,
    };
    let tool_cfm = draws.between(2.0, 18.0);
    let setting = gauge(draws.between(60.0, 95.0));
    let work = Work {
        draw: Curve::of(AMBIENT_PA * 0.5, gauge(cut_out) * 1.02, |pressure| {
            DENSITY * tool_cfm * M3_S_PER_CFM * pressure.min(setting) / setting
        }),
        enough_pa: setting - draws.between(5.0, 25.0) * PA_PER_PSI,
        resume_pa: setting + draws.between(2.0, 40.0) * PA_PER_PSI,
        by_air: false,
        beside_kg_s: 0.0,
        rhythm: Rhythm {
            on_s: draws.between(1.0, 15.0),
            off_s: draws.between(0.0, 15.0),
            spell_s: draws.between(60.0, 900.0),
            pause_s: draws.between(0.0, 600.0),
        },
    };
    (machine, work)
}

/// Running share, starts an hour, waiting share, weak share, mean draw, averaged after the first two hours;
/// with each the spread of that average over the ends of all rounds from the fifth to the eighth hour, and for the
/// weak share what a thousandth more or less of the limit makes: a pressure may graze it for long.
fn plain(machine: &Machine, work: &Work, worker: Worker) -> [(f64, f64); 5] {
    let dt = 0.005;
    let receiver = machine.receiver;
    let mut state = receiver.state(machine.cut_out_pa, receiver.wall_k);
    let (mut motor, mut waiting) = (false, false);
    let (mut in_round, mut in_pull) = (0.0, 0.0);
    let rhythm = work.rhythm;
    let lifts = machine.delivery.at(work.enough_pa) > work.draw.at(work.enough_pa);
    let (mut running, mut starts, mut waited, mut weak, mut trigger_s) = (0.0, 0.0, 0.0, 0.0, 0.0);
    let (mut drawn, mut delivered, mut graze) = (0.0, 0.0, 0.0);
    let mut ends: Vec<[f64; 5]> = Vec::new();
    // Counting starts with the first round after two hours, when the full tank of the start is forgotten, and
    // ends with the first round after eight hours of it.
    let (warm_up, hours) = (7_200.0, 8.0 * 3_600.0);
    let (mut time, mut counting, mut counted) = (0.0, false, 0.0);
    loop {
        let pressure = receiver.pressure_pa(state);
        if motor && pressure >= machine.cut_out_pa {
            motor = false;
            waiting = false;
        } else if !motor && pressure <= machine.cut_in_pa {
            motor = true;
            starts += if counting { 1.0 } else { 0.0 };
        }
        if pressure >= work.resume_pa {
            waiting = false;
        }
        let wants = in_round < rhythm.spell_s && in_pull < rhythm.on_s;
        if worker == Worker::Patient && !lifts && wants && motor && pressure < work.enough_pa {
            waiting = true;
        }
        let trigger = wants && !waiting;
        let flow_in = if motor { machine.delivery.at(pressure) } else { 0.0 };
        let flow_out = if trigger { work.draw.at(pressure) } else { 0.0 };
        if counting {
            counted += dt;
            running += if motor { dt } else { 0.0 };
            waited += if waiting { dt } else { 0.0 };
            drawn += flow_out * dt;
            delivered += flow_in * dt;
            if trigger {
                trigger_s += dt;
                weak += if pressure < work.enough_pa { dt } else { 0.0 };
                let near = (pressure / work.enough_pa - 1.0).abs() < 1e-3;
                graze += if near { dt } else { 0.0 };
            }
        }
        let heat = receiver.wall_conductance(state) * (receiver.wall_k - state.kelvin)
            + flow_in * (CP * machine.in_kelvin - CV * state.kelvin)
            - flow_out * R_DRY_AIR * state.kelvin;
        state.kelvin += dt * heat / (state.mass_kg * CV);
        state.mass_kg += dt * (flow_in - flow_out);
        time += dt;
        if !waiting {
            in_round += dt;
            in_pull += dt;
            if in_pull >= rhythm.on_s + rhythm.off_s {
                in_pull -= rhythm.on_s + rhythm.off_s;
            }
            if in_round >= rhythm.spell_s + rhythm.pause_s {
                in_round -= rhythm.spell_s + rhythm.pause_s;
                in_pull = in_round;
                if counted >= 0.625 * hours {
                    // Eight hours end somewhere between two starts: what the tank gained or lost is taken out.
                    let fair = if delivered > 0.0 { drawn / delivered } else { 1.0 };
                    ends.push([
                        running * fair / counted,
                        starts * fair * 3_600.0 / counted,
                        waited / counted,
                        weak / trigger_s.max(1.0),
                        drawn / counted,
                    ]);
                }
                if counted >= hours {
                    break;
                }
                counting |= time >= warm_up;
            }
        }
    }
    std::array::from_fn(|i| {
        let of = |pick: fn(f64, f64) -> f64| ends.iter().map(|end| end[i]).fold(ends[0][i], pick);
        let grazes = if i == 3 { graze / trigger_s.max(1.0) } else { 0.0 };
        (ends[ends.len() - 1][i], of(f64::max) - of(f64::min) + grazes)
    })
}

#[test]
fn eight_hours_of_plain_integration_agree() {
    let names = [
        "running share",
        "starts an hour",
        "waiting share",
        "weak share",
        "mean draw",
    ];
    let (mut compared, mut blurred) = (0, 0);
    let mut draws = Draws(20_26);
    for case in 0..30 {
        let (machine, work) = drawn_case(&mut draws);
        for worker in [Worker::WorksOn, Worker::Patient] {
            let run = long_run(&machine, &work, worker);
            let got = [
                run.running,
                run.starts_per_hour,
                run.waiting,
                run.weak,
                run.drawn_kg_s,
            ];
            for (i, (expected, spread)) in plain(&machine, &work, worker).into_iter().enumerate() {
                // Shares are of 1; starts and draw are relative. Where a pattern of many rounds does not end with
                // the eighth hour, the reference itself is only known to within its spread.
                let allowed = 0.005 * if i == 1 || i == 4 { expected } else { 1.0 };
                let off = (got[i] - expected).abs();
                assert!(
                    off <= allowed + spread,
                    "case {case}, {worker:?}, {}: {} against {expected}, spread {spread}, {run:?}",
                    names[i],
                    got[i]
                );
                compared += 1;
                blurred += usize::from(spread > allowed);
            }
        }
    }
    assert!(
        blurred * 4 < compared,
        "the reference is too blurred to check: {blurred} of {compared}"
    );
}

/// Seconds on the trigger from a full tank until the tool goes weak, 2 ms; an hour is for good.
fn plain_trigger_s(machine: &Machine, work: &Work) -> f64 {
    let dt = 0.002;
    let receiver = machine.receiver;
    let mut state = receiver.state(machine.cut_out_pa, receiver.wall_k);
    let (mut motor, mut time) = (false, 0.0);
    while receiver.pressure_pa(state) > work.enough_pa && time < 3_600.0 {
        let pressure = receiver.pressure_pa(state);
        motor |= pressure <= machine.cut_in_pa;
        let flow_in = if motor { machine.delivery.at(pressure) } else { 0.0 };
        let flow_out = work.draw.at(pressure);
        let heat = receiver.wall_conductance(state) * (receiver.wall_k - state.kelvin)
            + flow_in * (CP * machine.in_kelvin - CV * state.kelvin)
            - flow_out * R_DRY_AIR * state.kelvin;
        state.kelvin += dt * heat / (state.mass_kg * CV);
        state.mass_kg += dt * (flow_in - flow_out);
        time += dt;
    }
    time
}

/// A pump that nearly makes what the tool takes: the pressure falls slowly while the air in the tank still cools, and
/// a step that looks at the pressure alone runs too far. Two milliseconds are 0.1 % of the shortest trigger here.
#[test]
fn a_trigger_that_the_pump_nearly_sustains_is_as_long_as_plain_integration_says() {
    let mut compared = 0;
    for gallons in [2.0, 3.5, 20.0, 60.0] {
        for share in [0.3, 0.5, 0.6, 0.7, 0.75, 0.8, 0.85] {
            let (tool, cut_in) = (DENSITY * 16.0 * M3_S_PER_CFM, gauge(88.75));
            let machine = Machine {
                receiver: Receiver::cylinder(gallons * M3_PER_GALLON, 293.0),
                delivery: Curve::of(AMBIENT_PA, gauge(122.0), |_| share * tool),
                in_kelvin: 333.0,
                cut_in_pa: cut_in,
                cut_out_pa: gauge(120.0),
                leak_kg_s_pa: 0.0,
            };
            let work = Work {
                draw: Curve::of(AMBIENT_PA, gauge(122.0), |_| tool),
                enough_pa: gauge(86.0),
                resume_pa: gauge(100.0),
                by_air: false,
                beside_kg_s: 0.0,
                rhythm: Rhythm {
                    on_s: 5.0,
                    off_s: 5.0,
                    spell_s: 300.0,
                    pause_s: 300.0,
                },
            };
            let (plain, run) = (
                plain_trigger_s(&machine, &work),
                longest_trigger_s(&machine, &work),
            );
            let run = run.unwrap_or(3_600.0);
            assert!(
                (run / plain - 1.0).abs() < 0.01,
                "{gallons} gal, {share}: {run} s against {plain} s"
            );
            compared += usize::from(plain < 3_600.0);
        }
    }
    assert!(compared > 20, "{compared}");
}
