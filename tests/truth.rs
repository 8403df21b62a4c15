//! Numerical truth: three hours at a job against plain integration with a small step.
//!
//! The reference below is written apart from `run`: explicit Euler, 5 ms, its own loop, switch and worker, who tries out
//! each pull before he begins it. It shares the tabulated flows, the constants of air and the varied rhythm.

use bellows::physics::receiver::{CP, CV, R_DRY_AIR, Receiver, State};
use bellows::physics::run::{
    Curve, Fineness, HOURS_S, Hands, Machine, Phase, Phases, Rhythm, Work, Worker, bounds, longest_trigger_s,
    never_waits, observe_run, run,
};
use bellows::quantity::{M3_PER_GALLON, M3_S_PER_CFM, PA_PER_PSI};
use drawn::Stream;

mod drawn;

const AMBIENT_PA: f64 = 14.7 * PA_PER_PSI;
const DENSITY: f64 = 1.2;

fn gauge(psi: f64) -> f64 {
    psi * PA_PER_PSI + AMBIENT_PA
}

fn drawn_case(draws: &mut Stream) -> (Machine, Work) {
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
        by_air: draws.next() < 0.5,
        beside_kg_s: DENSITY * M3_S_PER_CFM * draws.between(-1.0, 1.0).max(0.0),
        rhythm: Rhythm {
            on_s: draws.between(1.0, 15.0),
            off_s: draws.between(0.0, 15.0),
            spell_s: draws.between(60.0, 900.0),
            pause_s: draws.between(0.0, 600.0),
        },
    };
    (machine, work)
}

/// A tank stepped plainly, 5 ms at a time.
struct Plain<'a> {
    machine: &'a Machine,
    work: &'a Work,
    mass_kg: f64,
    kelvin: f64,
    motor: bool,
    seconds: f64,
    waited_s: f64,
    running_s: f64,
    trigger_s: f64,
    /// Below the lowest useful pressure less and plus three thousandths: a pressure may graze it for long.
    weak_s: [f64; 2],
    drawn_kg: f64,
    delivered_kg: f64,
}

const DT: f64 = 0.005;

impl Plain<'_> {
    fn pressure(&self) -> f64 {
        self.mass_kg * R_DRY_AIR * self.kelvin / self.machine.receiver.volume_m3
    }

    fn step(&mut self, dt: f64, trigger: bool) {
        let (machine, work) = (self.machine, self.work);
        let pressure = self.pressure();
        if self.motor && pressure >= machine.cut_out_pa {
            self.motor = false;
        } else if !self.motor && pressure <= machine.cut_in_pa {
            self.motor = true;
        }
        let flow_in = if self.motor {
            machine.delivery.at(pressure)
        } else {
            0.0
        };
        let tool = if trigger { work.draw.at(pressure) } else { 0.0 };
        let flow_out = tool + work.beside_kg_s + machine.leak_kg_s_pa * pressure;
        let state = State {
            mass_kg: self.mass_kg,
            kelvin: self.kelvin,
        };
        let receiver = &machine.receiver;
        let heat = receiver.wall_conductance(state) * (receiver.wall_k - self.kelvin)
            + flow_in * (CP * machine.in_kelvin - CV * self.kelvin)
            - flow_out * R_DRY_AIR * self.kelvin;
        self.kelvin += dt * heat / (self.mass_kg * CV);
        self.mass_kg += dt * (flow_in - flow_out);
        self.seconds += dt;
        self.drawn_kg += dt * flow_out;
        self.delivered_kg += dt * flow_in;
        self.running_s += if self.motor { dt } else { 0.0 };
        if trigger {
            self.trigger_s += dt;
            for (weak_s, share) in self.weak_s.iter_mut().zip([0.997, 1.003]) {
                *weak_s += if pressure < share * work.enough_pa {
                    dt
                } else {
                    0.0
                };
            }
        }
    }

    fn pace(&self) -> f64 {
        if self.work.by_air {
            self.work.draw.at(self.pressure()) / self.work.draw.at(self.machine.cut_out_pa)
        } else {
            1.0
        }
    }

    /// Whether a pull of so many seconds, begun now with the motor running, ends above the lowest useful pressure: tried.
    fn would_hold(&self, pull_s: f64) -> bool {
        let mut tried = Plain { ..*self };
        let mut left = pull_s;
        while left > 0.0 {
            left -= 4.0 * DT * tried.pace();
            tried.motor = true;
            tried.step(4.0 * DT, true);
            if tried.pressure() < self.work.enough_pa {
                return false;
            }
        }
        true
    }

    fn pull(&mut self, seconds: f64, waits: bool) {
        let enough = self.work.enough_pa;
        let mut left = seconds;
        let mut asks = waits;
        while left > 0.0 {
            if asks && self.motor && !self.would_hold(left) {
                self.waited_s += 10.0 * DT;
                (0..10).for_each(|_| self.step(DT, false));
                continue;
            }
            asks = false;
            left -= DT * self.pace();
            self.step(DT, true);
            asks |= waits && self.motor && self.pressure() < enough;
        }
    }
}

/// Waiting share, running share, mean draw, least and most weak share of three hours of work.
fn plain(machine: &Machine, work: &Work, waits: bool) -> [f64; 5] {
    let full = machine
        .receiver
        .state(machine.cut_out_pa, machine.receiver.wall_k);
    let mut tank = Plain {
        machine,
        work,
        mass_kg: full.mass_kg,
        kelvin: full.kelvin,
        motor: false,
        seconds: 0.0,
        waited_s: 0.0,
        running_s: 0.0,
        trigger_s: 0.0,
        weak_s: [0.0; 2],
        drawn_kg: 0.0,
        delivered_kg: 0.0,
    };
    let taken = work.draw.at(work.enough_pa) + work.beside_kg_s;
    let waits = waits && machine.delivery.at(work.enough_pa) < taken;
    for phase in Phases::new(work.rhythm, Hands::typical(), HOURS_S, false) {
        match phase {
            Phase::Pull(seconds) => tank.pull(seconds, waits),
            Phase::Rest(seconds) | Phase::Even(seconds) => {
                let end = tank.seconds + seconds;
                while tank.seconds < end {
                    tank.step(DT.min(end - tank.seconds).max(1e-6), false);
                }
            }
        }
        if tank.seconds > 12.0 * 3_600.0 {
            break;
        }
    }
    let fair = tank.drawn_kg / tank.delivered_kg.max(1e-9);
    [
        tank.waited_s / tank.seconds,
        (tank.running_s * fair / tank.seconds).min(1.0),
        tank.drawn_kg / tank.seconds,
        tank.weak_s[0] / tank.trigger_s.max(1.0),
        tank.weak_s[1] / tank.trigger_s.max(1.0),
    ]
}

/// A hundredth of the hour is more than half a minute; running hangs on where in the band the three hours end.
#[test]
fn three_hours_come_to_what_plain_integration_with_a_small_step_says() {
    let names = ["waiting", "running", "mean draw"];
    let allowed = [0.008, 0.02, 0.02];
    let mut draws = Stream(20_26);
    let mut waited = 0;
    for case in 0..14 {
        let (machine, work) = drawn_case(&mut draws);
        for worker in [Worker::WorksOn, Worker::Spares] {
            let plain = plain(&machine, &work, worker == Worker::Spares);
            for fineness in [Fineness::Fine, Fineness::Coarse] {
                let run = run(&machine, &work, worker, Hands::typical(), fineness);
                let waiting = if run.hopeless { 1.0 } else { run.waiting };
                let got = [waiting, run.running, run.drawn_kg_s / plain[2]];
                let wanted = [plain[0], plain[1], 1.0];
                assert!(
                    (plain[3] - 0.01..=plain[4] + 0.01).contains(&run.weak),
                    "case {case}, {worker:?}, {fineness:?}: weak {} against {} to {}",
                    run.weak,
                    plain[3],
                    plain[4]
                );
                for i in 0..3 {
                    assert!(
                        (got[i] - wanted[i]).abs() <= allowed[i],
                        "case {case}, {worker:?}, {fineness:?}, {}: {} against {}, {run:?}, {work:?}",
                        names[i],
                        got[i],
                        wanted[i]
                    );
                }
                waited += usize::from(plain[0] > 0.01);
            }
        }
    }
    assert!(waited > 6, "too few cases wait to check anything: {waited}");
}

/// The balance of flow below, the patient man above; and who never waits by the bounds never waits.
#[test]
fn a_run_lies_between_the_balance_of_flow_and_the_patient_man() {
    let mut draws = Stream(7);
    let (mut never, mut waits) = (0, 0);
    let mut closest: f64 = f64::MAX;
    for case in 0..2_000 {
        let (machine, work) = drawn_case(&mut draws);
        let hands = Hands::at(f64::from(case) / 2_000.0);
        let bounds = bounds(&machine, &work, hands);
        let is_sure = never_waits(&machine, &work, hands);
        let minutes = |worker| run(&machine, &work, worker, hands, Fineness::Coarse).minutes_waiting();
        let spares = minutes(Worker::Spares);
        never += usize::from(is_sure);
        waits += usize::from(bounds.least_minutes > 5.0);
        assert!(
            !is_sure || spares == 0.0,
            "case {case}: waits {spares} min, {machine:?} {work:?}"
        );
        // Two tenths of a minute and a hundredth: what the steps and the tank's warmth leave open.
        assert!(
            bounds.least_minutes <= 1.01 * spares + 0.2,
            "case {case}: at least {} but {spares} min",
            bounds.least_minutes
        );
        let patient = minutes(Worker::Patient);
        assert!(
            spares <= patient + 0.2,
            "case {case}: {spares} against {patient} min"
        );
        if bounds.least_minutes > 5.0 {
            closest = closest.min(spares - bounds.least_minutes);
        }
    }
    println!("never waits {never}, over five minutes by the balance {waits}, closest {closest:.2} min");
    assert!(never > 200 && waits > 200, "{never} {waits}");
}

/// The cost does not grow with the number of strokes: a hundredth of a second on the trigger, none off it, for a day.
#[test]
fn a_million_strokes_cost_no_more_than_a_thousand() {
    let mut draws = Stream(3);
    let (machine, mut work) = drawn_case(&mut draws);
    for rhythm in [
        [0.01, 0.0, 86_400.0, 0.0],
        [0.01, 0.01, 0.02, 0.01],
        [1e-3, 1e-3, 86_400.0, 60.0],
        [3_600.0, 0.0, 86_400.0, 86_400.0],
    ] {
        let [on_s, off_s, spell_s, pause_s] = rhythm;
        work.rhythm = Rhythm {
            on_s,
            off_s,
            spell_s,
            pause_s,
        };
        let mut steps = 0;
        observe_run(&machine, &work, Worker::Spares, 3.0 * 3_600.0, 30.0, &mut |_| {
            steps += 1
        });
        assert!(steps < 45_000, "{rhythm:?}: {steps} steps");
        let run = run(
            &machine,
            &work,
            Worker::Spares,
            Hands::typical(),
            Fineness::Coarse,
        );
        assert!(run.waiting.is_finite() && run.running.is_finite(), "{run:?}");
    }
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
