//! Counts of draws against plain judgements, against shares that are known exactly, and against published sums.

#![allow(clippy::unwrap_used, reason = "helpers of tests: a refusal is a failed test")]

use bellows::answer::Draws;
use bellows::answer::report::Told;
use bellows::judge::assess::machine::{machine, store_m3};
use bellows::judge::assess::work::task_work;
use bellows::judge::assess::{Outcome, judge};
use bellows::judge::basis::Basis;
use bellows::judge::doubt::{
    About, Class, Doubt, Grounds, Spread, Which, shares, unknowns, variance_share, wilson,
};
use bellows::physics::run::LongRun;
use bellows::shop::{MachineKind, Shop, Units};

fn class_of(outcome: Outcome) -> Class {
    match outcome {
        Outcome::KeepsUp | Outcome::RunsHard => Class::Keeps,
        Outcome::Waits(_) => Class::Waits,
        Outcome::WillNot(_) => Class::WillNot,
    }
}

fn class_of_wait(wait: f64) -> Class {
    match wait {
        wait if wait > 0.5 => Class::WillNot,
        wait if wait > 1.0 / 60.0 => Class::Waits,
        _ => Class::Keeps,
    }
}

/// The plain judgement of a task at a place with these quantiles: whole line, whole run, nothing shared.
fn plainly(doubt: &Doubt, quantiles: &[f64], place: usize, task: usize) -> (Class, LongRun) {
    let (basis, candidate, pump) = doubt.shop_at(quantiles).unwrap();
    let air = &basis.places[place];
    let store = store_m3(&candidate, basis.auxiliary.as_ref(), place);
    let machine = machine(&candidate, &pump, store, air);
    let work = task_work(&basis.tasks[task], &basis.line, air, machine.cut_out_pa).unwrap();
    let (outcome, run) = judge(&machine, &work, candidate.duty.value);
    (class_of(outcome), run)
}

/// One place, one task: the drill, with the middle of the example's three machines.
fn drilling() -> Shop {
    let mut shop = Shop::demo();
    shop.places.truncate(1);
    shop.tasks.truncate(1);
    shop
}

/// Shops in which each shortcut is used: thin line, metric with two stages, an auxiliary receiver, a guessed flow.
fn shops() -> Vec<(Shop, usize)> {
    let mut thin = Shop::demo();
    thin.line.whip_bore = "5 mm".into();
    thin.line.whip_length = "50 ft".into();
    let mut metric = Shop {
        units: Units::Metric,
        ..Shop::demo()
    };
    metric.candidates[2].kind = MachineKind::PistonTwoStage;
    metric.candidates[2].cut_out = "12 bar".into();
    let mut auxiliary = Shop::demo();
    auxiliary.auxiliary.tank = "30 gal".into();
    auxiliary.auxiliary.stays = true;
    let mut guessed = Shop::demo();
    guessed.candidates[0].flow.clear();
    guessed.candidates[0].at.clear();
    guessed.candidates[0].tank.clear();
    let examples = (0..3).map(|candidate| (Shop::demo(), candidate));
    examples
        .chain([(thin, 0), (metric, 2), (auxiliary, 1), (guessed, 0)])
        .collect()
}

/// The shortcuts against the plain judgement, draw by draw. Differences are left where a wait lies next to a limit: a
/// minute in the hour, or half of all time. 1 % of the judgements and 5 % of the whole verdicts (the worst of up to
/// 18) leave room for that and are below the sampling error of a thousand draws, 3 %, or of that order.
#[test]
fn shortcuts_agree_with_the_plain_judgement() {
    const TRIED: usize = 60;
    let (mut judged, mut off, mut whole_off, mut drawn) = (0, 0, 0, 0);
    let (mut squares, mut waits_compared, mut bias) = (0.0, 0.0_f64, 0.0);
    for (shop, candidate) in shops() {
        let basis = Basis::of(&shop);
        let mut doubt = Doubt::new(&basis, candidate, TRIED).unwrap();
        assert!(doubt.step(TRIED));
        let rows = doubt.found().rows;
        for draw in 0..TRIED {
            let quantiles = doubt.quantiles(draw);
            let waits = doubt.waits(draw).unwrap();
            let mut worst = [Class::Keeps; 2];
            for (row, wait) in rows.iter().zip(&waits) {
                let (plain, run) = plainly(&doubt, &quantiles, row.place, row.task);
                let quick = class_of_wait(*wait);
                worst = [worst[0].max(plain), worst[1].max(quick)];
                judged += 1;
                off += usize::from(plain != quick);
                if plain == Class::Waits && quick == Class::Waits {
                    squares += (wait - run.waiting).powi(2);
                    bias += wait - run.waiting;
                    waits_compared += 1.0;
                }
            }
            drawn += 1;
            whole_off += usize::from(worst[0] != worst[1]);
        }
    }
    println!(
        "{off} of {judged} judgements and {whole_off} of {drawn} verdicts differ; {waits_compared} waits: bias {:.4}, rms {:.4}",
        bias / waits_compared,
        (squares / waits_compared).sqrt()
    );
    assert!(judged > 5_000 && waits_compared > 300.0);
    assert!(off * 100 <= judged, "{off} of {judged}");
    assert!(whole_off * 20 <= drawn, "{whole_off} of {drawn}");
    assert!((bias / waits_compared).abs() < 0.01 && (squares / waits_compared).sqrt() < 0.03);
}

/// An independent plain generator: Marsaglia's xorshift64 (2003), its first three shifts.
struct Plain(u64);

impl Plain {
    fn uniform(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }
}

/// One task at one place, 20,000 plain random draws, each judged in full, against 1,000 stratified ones judged by the
/// shortcuts: the shares differ by no more than the two sampling errors together (95 % each), and 1 % for the
/// shortcuts.
#[test]
fn a_plain_large_run_finds_the_same_shares() {
    let basis = Basis::of(&drilling());
    for candidate in [0, 1] {
        let mut doubt = Doubt::new(&basis, candidate, 1_000).unwrap();
        doubt.step(1_000);
        let found = doubt.found();
        assert_eq!(found.rows.len(), 1);
        let mut plain = Plain(88_172_645_463_325_252);
        let mut counts = [0_usize; 3];
        const MANY: usize = 20_000;
        for _ in 0..MANY {
            let quantiles: Vec<f64> = doubt.unknowns().iter().map(|_| plain.uniform()).collect();
            counts[plainly(&doubt, &quantiles, 0, 0).0 as usize] += 1;
        }
        println!("candidate {candidate}: {counts:?} of {MANY}, {:?}", found.whole);
        assert!(
            counts.iter().filter(|count| **count > 0).count() > 1,
            "no doubt to compare"
        );
        for class in [Class::Keeps, Class::Waits, Class::WillNot] {
            let (share, [low, high]) = found.whole.share(class);
            let hits = counts[class as usize];
            let large = hits as f64 / MANY as f64;
            let [large_low, large_high] = wilson(hits, MANY);
            let error = 0.5 * (high - low) + 0.5 * (large_high - large_low) + 0.01;
            assert!(
                (share - large).abs() < error,
                "{class:?}: {share} against {large}"
            );
        }
    }
}

/// Only the flow is unknown, evenly from -20 % to +5 %: the share that keeps up is the part of the range above the
/// flow at which the plain judgement changes, found by halving. A draw stands for 0.025 % of the flow: stratified draws
/// count to one, and rounds that agree within 0.4 % of the tank shift the limit by up to as much of the flow, 16 draws.
#[test]
fn the_share_is_exact_where_only_the_flow_is_unknown() {
    const N: usize = 1_000;
    let mut shop = drilling();
    let mut found_between = 0;
    for flow in ["3.6 cfm", "4 cfm", "4.2 cfm", "4.4 cfm", "4.8 cfm"] {
        shop.candidates[0].flow = flow.into();
        let basis = Basis::of(&shop);
        let mut doubt = Doubt::only(&basis, 0, &[Which::Flow], N).unwrap();
        doubt.step(N);
        let keeps = |quantile: f64| {
            let quantiles = vec![quantile; doubt.unknowns().len()];
            plainly(&doubt, &quantiles, 0, 0).0 == Class::Keeps
        };
        let (mut low, mut high) = (0.0, 1.0);
        for _ in 0..30 {
            let middle = 0.5 * (low + high);
            if keeps(middle) {
                high = middle
            } else {
                low = middle
            }
        }
        let share = match (keeps(0.0), keeps(1.0)) {
            (true, _) => 1.0,
            (_, false) => 0.0,
            _ => 1.0 - high,
        };
        let counted = doubt.found().whole.keeps as f64;
        println!("{flow}: {counted} of {N}, exactly {share:.4}");
        assert!(
            (counted - share * N as f64).abs() <= 17.0,
            "{flow}: {counted}, {share}"
        );
        found_between += usize::from(share > 0.0 && share < 1.0);
    }
    assert!(
        found_between > 0,
        "no flow of these has its limit within the range"
    );
}

#[test]
fn the_same_shop_gives_the_same_answer_and_every_stratum_once() {
    let basis = Basis::of(&Shop::demo());
    let run = |slice: usize| {
        let mut doubt = Doubt::new(&basis, 0, 300).unwrap();
        while !doubt.step(slice) {}
        doubt
    };
    let (one, other) = (run(7), run(300));
    assert_eq!(one.found(), other.found());
    for unknown in 0..one.unknowns().len() {
        let mut places: Vec<f64> = (0..300)
            .map(|draw| one.quantiles(draw)[unknown] * 300.0)
            .collect();
        places.sort_by(f64::total_cmp);
        for (index, place) in places.iter().enumerate() {
            assert!((place - (index as f64 + 0.5)).abs() < 1e-9);
        }
    }
    // No two unknowns are drawn in step: their correlation is that of chance, 1/√300, within four times that.
    for one_of in 0..one.unknowns().len() {
        for other_of in 0..one_of {
            let product = |draw| {
                let quantiles = one.quantiles(draw);
                (quantiles[one_of] - 0.5) * (quantiles[other_of] - 0.5) * 12.0
            };
            let correlation = (0..300).map(product).sum::<f64>() / 300.0;
            assert!(
                correlation.abs() < 4.0 / 300_f64.sqrt(),
                "{one_of}, {other_of}: {correlation}"
            );
        }
    }
    // A task less leaves the draws of the machine as they were.
    let mut less = Shop::demo();
    less.tasks[1].on = false;
    let less = Doubt::new(&Basis::of(&less), 0, 300).unwrap();
    assert_eq!(less.quantiles(11)[0], one.quantiles(11)[0]);
    assert_eq!(shares(&basis, 0, 300), Some(one.found().whole));
}

/// Saltelli et al. (2008), section 1.2.1 (from memory): a linear model Y = Σ aᵢ Xᵢ has Sᵢ = aᵢ² V(Xᵢ) / V(Y). With
/// two even unknowns and a = 1, 2 that is 0.2 and 0.8; an unknown that does not matter has 0. Ten groups leave out
/// what varies within a group, 1 % of its variance; the rest of the tolerance is 2/√n.
#[test]
fn a_linear_sum_has_its_known_variance_shares() {
    let basis = Basis::of(&Shop::demo());
    let n = 2_000;
    let doubt = Doubt::new(&basis, 0, n).unwrap();
    let all: Vec<Vec<f64>> = (0..n).map(|draw| doubt.quantiles(draw)).collect();
    let values: Vec<f64> = all.iter().map(|at| at[0] + 2.0 * at[1]).collect();
    for (unknown, share) in [(0, 0.2), (1, 0.8), (2, 0.0)] {
        let strata: Vec<u16> = all.iter().map(|at| (at[unknown] * n as f64) as u16).collect();
        let found = variance_share(&values, &strata);
        assert!((found - share).abs() < 0.045, "{unknown}: {found}, not {share}");
    }
    assert_eq!(variance_share(&[1.0; 500], &(0..500).collect::<Vec<u16>>()), 0.0);
    assert_eq!(variance_share(&[1.0, 2.0], &[0, 1]), 0.0);
}

/// What is decisive comes first: the only unknown that matters; a flow guessed from amps, which spans a factor of two,
/// where tool and rhythm were timed.
#[test]
fn what_matters_most_is_ranked_first() {
    let mut shop = drilling();
    shop.candidates[0].flow = "4.4 cfm".into();
    let basis = Basis::of(&shop);
    let mut doubt = Doubt::only(&basis, 0, &[Which::Flow, Which::Heat], 1_000).unwrap();
    doubt.step(1_000);
    let found = doubt.found();
    assert_eq!(found.about, Some(About::KeepsUp));
    let first = found.drivers.first().unwrap();
    assert_eq!(doubt.unknowns()[first.unknown].which, Which::Flow);
    assert!(first.share > 0.5, "{found:?}");
    assert_eq!(found.rows[0].driver, Some(*first));

    shop.candidates[0].flow.clear();
    shop.candidates[0].at.clear();
    let task = &mut shop.tasks[0];
    (task.flow, task.trigger_on) = ("11.5 cfm".into(), "4 s".into());
    (task.spell, task.pause) = ("3 min".into(), "4 min".into());
    let basis = Basis::of(&shop);
    let mut doubt = Doubt::new(&basis, 0, 1_000).unwrap();
    doubt.step(1_000);
    let found = doubt.found();
    let first = found.drivers.first().unwrap();
    let unknown = &doubt.unknowns()[first.unknown];
    assert_eq!((unknown.which, unknown.grounds), (Which::Flow, Grounds::FromAmps));
    assert!(first.share > 0.3, "{:?}", found.drivers);
}

/// A verdict that is the same in every draw still hangs on something: for how long one waits.
#[test]
fn a_sure_wait_is_ranked_by_its_length_and_a_sure_yes_by_nothing() {
    let mut shop = drilling();
    shop.candidates[0].flow = "2.6 cfm".into();
    let basis = Basis::of(&shop);
    let mut doubt = Doubt::only(&basis, 0, &[Which::Flow, Which::Pause], 400).unwrap();
    doubt.step(400);
    let found = doubt.found();
    assert_eq!((found.whole.waits, found.about), (400, Some(About::Wait)));
    assert!(!found.drivers.is_empty());

    // So much from so few amps cannot be: no range holds it. With the plate silent it may.
    shop.candidates[0].flow = "20 cfm".into();
    assert!(Doubt::new(&Basis::of(&shop), 0, 200).is_none());
    shop.candidates[0].amps.clear();
    let mut doubt = Doubt::new(&Basis::of(&shop), 0, 200).unwrap();
    doubt.step(200);
    let found = doubt.found();
    assert_eq!((found.whole.keeps, found.about), (200, None));
    assert!(found.drivers.is_empty() && found.rows[0].driver.is_none());
}

#[test]
fn measuring_the_flow_narrows_it() {
    let spread = |shop: &Shop| {
        let unknown = unknowns(&Basis::of(shop), 0).unwrap().remove(0);
        assert_eq!(unknown.which, Which::Flow);
        (unknown.grounds, unknown.spreads[0])
    };
    let width = |spread: Spread| spread.high - spread.low;
    let mut shop = Shop::demo();
    let (one, label) = spread(&shop);
    assert_eq!(one, Grounds::OneFlow);
    (shop.candidates[0].flow2, shop.candidates[0].at2) = ("5.1 cfm".into(), "40 psi".into());
    let (two, narrower) = spread(&shop);
    assert_eq!(two, Grounds::TwoFlows);
    assert!(width(narrower) < width(label));
    let label = &mut shop.candidates[0];
    (label.pump_from, label.pump_to) = ("0 psi".into(), "120 psi".into());
    label.pump_up = "300 s; 302 s; 301 s; 299 s".into();
    let basis = Basis::of(&shop);
    let (measured, own) = spread(&shop);
    assert_eq!(measured, Grounds::Measured);
    let share = basis.candidates[0].measured.unwrap().delivered.unwrap().share;
    assert!((width(own) - 2.0 * share).abs() < 1e-12, "{own:?}, {share}");
    // A flow that the amps hardly allow is doubted more than one that they do.
    let mut doubtful = Shop::demo();
    doubtful.candidates[0].flow = "7 cfm".into();
    assert_eq!(spread(&doubtful).0, Grounds::Unlikely);
}

#[test]
fn what_is_blank_is_wider_than_what_is_given() {
    let mut typed = Shop::demo();
    for task in &mut typed.tasks {
        (task.trigger_on, task.lowest) = ("4 s".into(), "40 psi".into());
        task.setting = "90 psi".into();
    }
    let mut blank = Shop::demo();
    for place in &mut blank.places {
        (place.altitude, place.temperature) = Default::default();
    }
    let label = &mut blank.candidates[0];
    (label.tank, label.cut_in, label.cut_out) = Default::default();
    let ranges = |shop: &Shop| unknowns(&Basis::of(shop), 0).unwrap();
    for (typed, blank) in ranges(&typed).iter().zip(&ranges(&blank)) {
        assert_eq!(typed.which, blank.which);
        let wider = matches!(
            typed.which,
            Which::Tank
                | Which::CutIn
                | Which::CutOut
                | Which::Weather
                | Which::Heat
                | Which::Trigger
                | Which::Lowest
        );
        if wider {
            let width = |spread: &Spread| spread.high - spread.low;
            assert!(
                width(&typed.spreads[0]) < width(&blank.spreads[0]),
                "{typed:?} {blank:?}"
            );
            assert_eq!(
                (typed.grounds, blank.grounds),
                (Grounds::Given, Grounds::Typical),
                "{typed:?}"
            );
        }
        for spread in typed.spreads.iter().chain(&blank.spreads) {
            assert!(
                spread.low <= spread.likely && spread.likely <= spread.high,
                "{typed:?} {blank:?}"
            );
        }
    }
}

#[test]
fn nothing_known_is_no_doubt_to_reckon() {
    let basis = Basis::of(&Shop::fresh());
    assert!(Doubt::new(&basis, 0, 100).is_none());
    assert!(Doubt::new(&Basis::of(&Shop::demo()), 9, 100).is_none());
    let idle = Shop {
        tasks: Vec::new(),
        ..Shop::demo()
    };
    assert!(Doubt::new(&Basis::of(&idle), 0, 100).is_none());
    let nowhere = Shop {
        places: Vec::new(),
        ..Shop::demo()
    };
    assert!(Doubt::new(&Basis::of(&nowhere), 0, 100).is_none());
}

/// Wilson's bounds contain the share that made the draws in about 95 of 100 runs: 400 runs of 60 draws, each by the
/// independent generator; 95 % ± 4 % is four standard deviations of that count.
#[test]
fn the_bounds_hold_in_nineteen_of_twenty_runs() {
    let mut plain = Plain(0x1234_5678_9abc_def1);
    let mut held = 0;
    for _ in 0..400 {
        let hits = (0..60).filter(|_| plain.uniform() < 0.3).count();
        let [low, high] = wilson(hits, 60);
        held += usize::from((low..=high).contains(&0.3));
    }
    assert!((364..=396).contains(&held), "{held} of 400");
}

/// The middle of a spread is its likely figure, its ends are its ends, and half of the draws lie on each side.
#[test]
fn a_lopsided_range_has_its_middle_where_it_is_likely() {
    let spread = Spread::about(6.0, [2.0, 20.0]);
    for (quantile, figure) in [
        (0.0, 2.0),
        (0.25, 4.0),
        (0.5, 6.0),
        (0.75, 13.0),
        (1.0, 20.0),
        (7.0, 20.0),
    ] {
        assert!((spread.at(quantile) - figure).abs() < 1e-12);
    }
}

/// Extremes that a reader takes: every draw is counted, whatever the figures.
#[test]
fn odd_shops_are_counted_to_the_last_draw() {
    for (flow, tank, cut_in, cut_out, altitude, temperature) in [
        ("0.01 cfm", "0.1 gal", "1 psi", "200 psi", "14000 ft", "-20 F"),
        ("900 cfm", "5000 gal", "119 psi", "120 psi", "0 ft", "120 F"),
        ("2 cfm", "1 gal", "10 psi", "12 psi", "-300 ft", "40 F"),
    ] {
        let mut shop = Shop::demo();
        let label = &mut shop.candidates[0];
        (label.flow, label.tank) = (flow.into(), tank.into());
        (label.cut_in, label.cut_out) = (cut_in.into(), cut_out.into());
        for place in &mut shop.places {
            (place.altitude, place.temperature) = (altitude.into(), temperature.into());
        }
        let mut doubt = Doubt::new(&Basis::of(&shop), 0, 40).unwrap();
        assert!(doubt.step(1_000));
        let found = doubt.found();
        assert_eq!(found.whole.draws(), 40);
        for row in &found.rows {
            assert_eq!(row.shares.draws(), 40);
        }
        for draw in 0..40 {
            let waits = doubt.waits(draw).unwrap();
            assert!(waits.iter().all(|wait| (0.0..=1.0).contains(wait)), "{waits:?}");
        }
    }
}

fn told(shop: &Shop) -> Told {
    let mut draws = Draws::default();
    draws.start(shop);
    while !draws.step(250) {}
    draws.told()
}

/// Every text of what is told.
fn texts(told: &Told) -> String {
    let section = &told.section;
    let findings = section
        .findings
        .iter()
        .flat_map(|found| [&found.text, &found.basis]);
    let figures = section
        .figures
        .iter()
        .flat_map(|figure| [&figure.name, &figure.value]);
    let all = findings.chain(figures).map(String::as_str);
    all.chain([&*told.sentence, &section.sentence])
        .collect::<Vec<_>>()
        .join(" | ")
}

#[test]
fn the_count_is_told_with_what_would_settle_it() {
    let told = told(&Shop::demo());
    assert_eq!(told.section.id, "doubt");
    assert!(
        told.sentence
            .starts_with("Machines, tools, days and hands differ: nobody waits for air in "),
        "{}",
        told.sentence
    );
    assert!(told.sentence.contains("To know more: "), "{}", told.sentence);
    let found = |id: &str| {
        told.section
            .findings
            .iter()
            .filter(|found| found.id == id)
            .count()
    };
    assert!(found("counted") == 1 && found("left-out") == 1 && found("settles") >= 2);
    // Every range is told: eleven of machine, day and hands, and one for each task that is on.
    let on = Shop::demo().tasks.iter().filter(|task| task.on).count();
    assert_eq!(told.section.figures.len(), 11 + on);
    // The table has each task at each place, and its counts add up.
    let chart = told.section.chart.unwrap();
    assert_eq!(chart.rows.len(), 2 * on);
    for row in &chart.rows {
        let counts = row[2..5]
            .iter()
            .map(|count| count.replace(',', "").parse::<usize>().unwrap());
        assert_eq!(counts.sum::<usize>(), 1_000, "{row:?}");
    }
}

#[test]
fn sure_and_unknown_are_told_for_what_they_are() {
    let blank = told(&Shop::fresh());
    assert!(blank.sentence.is_empty() && blank.section.sentence.contains("no verdict to doubt yet"));

    let mut shop = drilling();
    (shop.candidates[0].flow, shop.candidates[0].amps) = ("20 cfm".into(), String::new());
    let sure = told(&shop);
    assert_eq!(sure.sentence, "Its air keeps up in every one of 1,000 draws.");
    assert!(sure.section.chart.is_none());
    let all = texts(&sure);
    assert!(
        !all.contains("100 %") && all.contains("not even every draw is a promise"),
        "{all}"
    );

    // A flow measured well and a tool that was timed leave less doubt, and other things to settle it.
    let by_label = texts(&told(&drilling()));
    let mut shop = drilling();
    let label = &mut shop.candidates[0];
    (label.pump_from, label.pump_to, label.pump_up) =
        ("0 psi".into(), "120 psi".into(), "300 s; 302 s".into());
    let measured = texts(&told(&shop));
    // 4.2 cfm less 20 % and more 5 %, to a tenth.
    assert!(by_label.contains("3.4 cfm to 4.4 cfm at 90 psi"), "{by_label}");
    assert_ne!(by_label, measured);

    let metric = told(&Shop {
        units: Units::Metric,
        ..Shop::demo()
    });
    let all = texts(&metric);
    assert!(
        all.contains("L/min") && all.contains("bar") && !all.contains("psi"),
        "{all}"
    );
}

/// Going back to a machine that was drawn, or changing what no verdict rests on, draws nothing anew.
#[test]
fn draws_are_kept_while_nothing_that_matters_changes() {
    let mut draws = Draws::default();
    let mut shop = Shop::demo();
    assert!(draws.start(&shop));
    assert!(!draws.step(10));
    assert!(draws.step(5_000));
    let first = draws.told();
    shop.chosen = 2;
    assert!(draws.start(&shop) && !draws.step(0));
    assert!(draws.step(5_000));
    assert_ne!(draws.told(), first);
    shop.chosen = 0;
    shop.limits.budget = "$300".into();
    assert!(draws.start(&shop) && draws.step(0), "drawn anew");
    assert_eq!(draws.told(), first);
    shop.candidates[0].flow = "4.3 cfm".into();
    assert!(
        draws.start(&shop) && !draws.step(0),
        "an old count for a new flow"
    );
    // Nothing to draw: nothing of before is told.
    assert!(!draws.start(&Shop::fresh()) && draws.step(0));
    assert!(draws.told().sentence.is_empty());
}
