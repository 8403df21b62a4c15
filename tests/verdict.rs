//! The one verdict: what more flow, more tank and less work may never do, and how far 128 draws may be trusted.
//!
//! The cases of the properties fit into about a minute; `BELLOWS_CASES=10000` draws as many as that once, and
//! `BELLOWS_SEED` begins elsewhere.

#![allow(clippy::unwrap_used, reason = "helpers of tests: a refusal is a failed test")]

use bellows::answer::report::{Sort, View};
use bellows::answer::{Memory, compare};
use bellows::judge::basis::Basis;
use bellows::judge::draws::Draws;
use bellows::judge::fix::{AirStep, fixes};
use bellows::judge::grade::Grade;
use bellows::judge::standing::Standing;
use bellows::judge::verdict::{AskAir, Judging, LONG_WAIT_MIN, Record, Why, record_of, tenths, verdict};
use bellows::judge::window::window;
use bellows::physics::run::{Hands, bounds, waits_over};
use bellows::quantity::M3_PER_GALLON;
use bellows::shop::change::Change;
use bellows::shop::edit::with;
use bellows::shop::{Auxiliary, Candidate, Line, Place, Shop, Task, TaskKind};
use drawn::Stream;

mod drawn;

/// Waiting may rise by so much, minutes in the hour, and the job be done in so many fewer of 128 draws, where it should
/// fall and rise: each draw's own rhythm meets the switch anew.
const HALF_A_MINUTE: f64 = 0.5;
const THREE_DRAWS: usize = 3;

fn cases(usual: usize) -> usize {
    std::env::var("BELLOWS_CASES").map_or(usual, |text| text.parse().unwrap())
}

fn seed(usual: u64) -> u64 {
    std::env::var("BELLOWS_SEED").map_or(usual, |text| text.parse().unwrap())
}

fn sold_as(cfm: f64, gallons: f64) -> Candidate {
    Candidate {
        flow: format!("{cfm:.3} cfm"),
        at: "90 psi".into(),
        tank: format!("{gallons:.3} gal"),
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

fn at_sea_level() -> Place {
    Place {
        name: "Garage".into(),
        altitude: "0 ft".into(),
        temperature: "70 F".into(),
        ..Place::default()
    }
}

fn hangar() -> Place {
    Place {
        name: "Hangar".into(),
        altitude: "4,900 ft".into(),
        temperature: "90 F".into(),
        ..Place::default()
    }
}

fn drilling(place: Place, candidate: Candidate) -> Shop {
    Shop {
        places: vec![place],
        tasks: vec![task(TaskKind::Drill)],
        candidates: vec![candidate],
        ..Shop::default()
    }
}

fn record(shop: &Shop) -> Record {
    let basis = Basis::of(shop);
    assert!(basis.faults.is_empty(), "{:?}", basis.faults);
    record_of(&basis, &basis.candidates[0], 0, 0).unwrap()
}

/// Whether `more` is nowhere worse than `less` beyond what is borne; and by how much it is.
fn no_worse(less: &Record, more: &Record) -> Result<(f64, usize), String> {
    let longer = more.minutes[1] - less.minutes[1];
    let fewer = less.done.saturating_sub(more.done);
    // A grade may only step where the draws do.
    let fits = more.grade <= less.grade || fewer > 0;
    if longer <= HALF_A_MINUTE && fewer <= THREE_DRAWS && fits {
        Ok((longer, fewer))
    } else {
        Err(format!("{less:?} then {more:?}"))
    }
}

/// Waits once rose with the tank, 4, 5 and 7 min at 12, 15 and 20 gal, to fall to nothing at 22.
#[test]
fn a_larger_tank_does_not_wait_longer_in_the_garage_at_3_9_cfm() {
    let tanks = [12.0, 15.0, 20.0, 22.0, 25.0];
    let found = tanks.map(|gallons| record(&drilling(at_sea_level(), sold_as(3.9, gallons))));
    println!("{:?}", found.map(|record| (record.minutes, record.done)));
    for pair in found.windows(2) {
        no_worse(&pair[0], &pair[1]).unwrap();
    }
}

/// They once rose from 7 min at 18 gal to 11 at 28, and fell to nothing at 29.
#[test]
fn a_larger_tank_does_not_wait_longer_in_the_hangar_at_4_cfm() {
    let tanks = [18.0, 23.0, 28.0, 29.0, 30.0];
    let found = tanks.map(|gallons| record(&drilling(hangar(), sold_as(4.0, gallons))));
    println!("{:?}", found.map(|record| (record.minutes, record.done)));
    for pair in found.windows(2) {
        no_worse(&pair[0], &pair[1]).unwrap();
    }
}

/// A switch that starts the motor 15 psi below what two drills need: the larger the tank, the longer the tool is weak
/// before the motor has lifted it again, and with a second one the wait once rose from 2.0 to 2.6 min. The job fails with
/// either, by the switch.
#[test]
fn a_second_tank_does_not_wait_longer_where_the_switch_starts_late() {
    let mut shop = drilling(
        Place {
            altitude: "3,210 ft".into(),
            temperature: "70 F".into(),
            ..Place::default()
        },
        Candidate {
            cut_in: "68.15 psi".into(),
            cut_out: "111.0 psi".into(),
            ..sold_as(12.007, 27.722)
        },
    );
    shop.tasks[0].people = "2".into();
    (shop.line.trunk_bore, shop.line.whip_bore) = ("1/2 in".into(), "3/8 in".into());
    let one = record(&shop);
    let mut most = 0.0_f64;
    for gallons in [2, 5, 10, 20, 40, 80] {
        shop.auxiliary.tank = format!("{gallons} gal");
        let both = record(&shop);
        most = most.max(no_worse(&one, &both).unwrap().0);
        assert_eq!((both.grade, both.why), (Grade::Small, Some(Why::Switch)));
    }
    println!("{most:.2} min longer at the most");
}

/// A machine once did with 20 gal and ran hard with 60.
#[test]
fn sixty_gallons_are_no_worse_than_twenty_at_4_8_cfm() {
    for place in [at_sea_level(), hangar()] {
        let [small, large] =
            [20.0, 60.0].map(|gallons| record(&drilling(place.clone(), sold_as(4.8, gallons))));
        no_worse(&small, &large).unwrap();
    }
}

/// What is called good is good in eight of ten, task by task; no grade denies its own odds.
#[test]
fn no_grade_says_yes_where_the_odds_say_no() {
    for (cfm, gallons) in [(2.1, 7.0), (3.5, 20.0), (4.0, 25.0), (5.0, 30.0), (11.5, 60.0)] {
        let mut shop = Shop::fresh();
        for task in &mut shop.tasks {
            task.on = true;
        }
        shop.candidates = vec![sold_as(cfm, gallons)];
        let basis = Basis::of(&shop);
        let verdict = verdict(&basis, &basis.candidates[0]).unwrap();
        for record in &verdict.records {
            let wanted = match record.done_tenths() {
                8.. => Grade::Good,
                5..=7 => Grade::Wait,
                _ => Grade::Small,
            };
            assert_eq!(record.grade, wanted, "{record:?}");
        }
        let worst = verdict.records.iter().map(|record| record.grade).max();
        assert_eq!(Some(verdict.grade()), worst);
        println!(
            "{cfm} cfm on {gallons} gal: {:?}, {:.0} % settled by bounds",
            verdict.grade(),
            100.0 * verdict.settled()
        );
    }
}

/// A triple of machine, task and place, as texts that a reader could type.
fn drawn(stream: &mut Stream) -> Shop {
    let kinds = [
        TaskKind::Drill,
        TaskKind::Drill,
        TaskKind::Deburr,
        TaskKind::BackRivet,
        TaskKind::DieGrinder,
        TaskKind::Sander,
        TaskKind::PrimerGun,
        TaskKind::Other,
    ];
    let cut_out = stream.between(110.0, 170.0);
    let switch = stream.next() < 0.5;
    let (cfm, gallons) = (stream.between(1.0, 14.0), stream.between(1.5, 80.0));
    let rhythm = stream.next() < 0.5;
    let mut typed = |low: f64, high: f64, unit: &str, is: bool| {
        let value = stream.between(low, high);
        if is {
            format!("{value:.2} {unit}")
        } else {
            String::new()
        }
    };
    let candidate = Candidate {
        cut_in: typed(cut_out - 45.0, cut_out - 15.0, "psi", switch),
        cut_out: if switch {
            format!("{cut_out:.1} psi")
        } else {
            String::new()
        },
        ..sold_as(cfm, gallons)
    };
    let task = Task {
        trigger_on: typed(1.0, 15.0, "s", rhythm),
        trigger_off: typed(0.0, 15.0, "s", rhythm),
        spell: typed(0.5, 20.0, "min", rhythm),
        pause: typed(0.0, 15.0, "min", rhythm),
        ..Task::default()
    };
    let altitude = typed(0.0, 8_000.0, "ft", true);
    let people = stream.one_of(&["1", "1", "2"]);
    Shop {
        places: vec![Place {
            altitude,
            temperature: "70 F".into(),
            ..Place::default()
        }],
        tasks: vec![Task {
            kind: stream.one_of(&kinds),
            on: true,
            people: people.into(),
            ..task
        }],
        line: Line {
            trunk_bore: "1/2 in".into(),
            whip_bore: "3/8 in".into(),
            ..Line::default()
        },
        candidates: vec![candidate],
        ..Shop::default()
    }
}

/// The shop with more of something, or with less to do.
fn eased(shop: &Shop, stream: &mut Stream) -> Vec<(&'static str, Shop)> {
    let basis = Basis::of(shop);
    let candidate = &basis.candidates[0];
    let cfm = candidate.flows[0].0.as_cfm();
    let gallons = candidate.tank_m3.value / M3_PER_GALLON;
    let lowest = basis.tasks[0].lowest.as_psi();
    let more = stream.between(1.02, 2.0);
    let with = |change: &dyn Fn(&mut Shop)| {
        let mut eased = shop.clone();
        change(&mut eased);
        eased
    };
    let mut all = vec![
        (
            "more flow",
            with(&|shop| shop.candidates[0].flow = format!("{:.3} cfm", cfm * more)),
        ),
        (
            "a larger tank",
            with(&|shop| shop.candidates[0].tank = format!("{:.3} gal", gallons * more)),
        ),
        (
            "a second tank",
            with(&|shop| {
                shop.auxiliary = Auxiliary {
                    tank: "10 gal".into(),
                    ..Auxiliary::default()
                }
            }),
        ),
    ];
    // The lowest useful pressure as it is, typed, against a lower one: both have the range of a typed figure.
    let at = |psi: f64| with(&|shop| shop.tasks[0].lowest = format!("{psi:.2} psi"));
    all.push((
        "a lower lowest pressure",
        at(lowest - 0.1 * stream.between(5.0, 150.0)),
    ));
    if shop.tasks[0].people == "2" {
        all.push((
            "one driller fewer",
            with(&|shop| shop.tasks[0].people = "1".into()),
        ));
    }
    all
}

/// Over 10,000 triples from this seed, once, in some 45,000 pairs and by the pace at the start of each step: waits rose by 0.44
/// min at the most (case 6739, a second tank) and one draw was lost at the most. The one pair that failed then has a test of
/// its own, [`a_second_tank_does_not_wait_longer_where_the_switch_starts_late`].
#[test]
fn more_air_or_less_work_is_never_worse() {
    let mut stream = Stream(seed(19));
    let (mut longest, mut fewest) = ((0.0, String::new()), (0, String::new()));
    let mut settled = [0; 2];
    let mut worse = Vec::new();
    for case in 0..cases(90) {
        let shop = drawn(&mut stream);
        let plain = record(&shop);
        settled = [settled[0] + plain.settled, settled[1] + plain.draws];
        let lowest = Basis::of(&shop).tasks[0].lowest.as_psi();
        for (what, eased) in eased(&shop, &mut stream) {
            let less = if what == "a lower lowest pressure" {
                let mut typed = shop.clone();
                typed.tasks[0].lowest = format!("{lowest:.2} psi");
                record(&typed)
            } else {
                plain
            };
            let more = record(&eased);
            match no_worse(&less, &more) {
                Ok((longer, fewer)) => {
                    if longer > longest.0 {
                        longest = (longer, format!("case {case}, {what}"));
                    }
                    if fewer > fewest.0 {
                        fewest = (fewer, format!("case {case}, {what}"));
                    }
                }
                Err(both) => {
                    println!("case {case}, {what}: {both}");
                    worse.push(format!("case {case}, {what}: {both}\n{shop:?}"));
                }
            }
        }
    }
    println!(
        "longest rise {:.2} min ({}), most draws lost {} ({})",
        longest.0, longest.1, fewest.0, fewest.1
    );
    println!(
        "{:.0} % settled by bounds",
        100.0 * settled[0] as f64 / settled[1] as f64
    );
    assert!(worse.is_empty(), "{} fail: {:#?}", worse.len(), worse.first());
}

/// Root mean square of the odds of 128 draws against those of so many others, over drawn shops.
fn root_mean_square(shops: usize, others: usize) -> f64 {
    let bits = others.next_power_of_two().trailing_zeros();
    let mut stream = Stream(5);
    let (mut squares, mut worst, mut open) = (0.0, (0.0, 0), 0);
    for case in 0..shops {
        let shop = drawn(&mut stream);
        let basis = Basis::of(&shop);
        let odds = |draws: Draws, most: usize| {
            let mut judging = Judging::with(&basis, &basis.candidates[0], draws).unwrap();
            judging.step(most);
            let record = judging.verdict().records[0];
            assert_eq!(record.draws, most);
            record.done as f64 / record.draws as f64
        };
        let (few, many) = (odds(Draws::usual(), 128), odds(Draws::of(bits, 11), others));
        let off: f64 = few - many;
        squares += off * off;
        open += usize::from(many > 0.02 && many < 0.98);
        if off.abs() > worst.0 {
            worst = (off.abs(), case);
        }
    }
    let rms = (squares / shops as f64).sqrt();
    println!(
        "{shops} shops, {open} of them open: rms {rms:.4}, worst {:.3} in case {}",
        worst.0, worst.1
    );
    assert!(
        open * 4 > shops,
        "only {open} of {shops} shops are in doubt at all"
    );
    rms
}

#[test]
fn a_hundred_and_twenty_eight_draws_come_within_a_twenty_fifth_of_a_thousand() {
    assert!(root_mean_square(24, 1_024) < 0.04);
}

/// It came to 0.0088 once, 0.049 in the worst shop.
#[test]
#[ignore = "takes a quarter of an hour"]
fn a_hundred_and_twenty_eight_draws_come_within_a_twenty_fifth_of_ten_thousand_over_a_thousand_shops() {
    assert!(root_mean_square(1_000, 10_000) < 0.04);
}

/// Shops that differ by place, tasks and line; what the page tells their owners to look for does the job there. Over 1,000
/// of this seed, once: 934 had an answer, and each was good.
#[test]
fn what_to_look_for_typed_back_in_is_good() {
    let mut stream = Stream(23);
    let (mut found, mut none) = (0, 0);
    for case in 0..cases(8).min(1_000) {
        let mut shop = Shop::fresh();
        shop.places[0].altitude = format!("{:.0} ft", stream.between(0.0, 6_000.0));
        shop.line.trunk_length = format!("{:.0} ft", stream.between(10.0, 50.0));
        for task in &mut shop.tasks {
            task.on = stream.next() < 0.3 || (task.kind == TaskKind::Drill && stream.next() < 0.7);
        }
        if stream.next() < 0.3 {
            shop.places.push(hangar());
        }
        let Some(window) = window(&Basis::of(&shop)) else {
            none += 1;
            continue;
        };
        found += 1;
        shop.candidates = vec![sold_as(window.flow.as_cfm(), window.tank_m3 / M3_PER_GALLON)];
        let basis = Basis::of(&shop);
        let verdict = verdict(&basis, &basis.candidates[0]).unwrap();
        let beyond = |record: &&Record| !window.beyond.contains(&record.task);
        for record in verdict.records.iter().filter(beyond) {
            assert_eq!(record.grade, Grade::Good, "case {case}: {window:?} {record:?}");
        }
    }
    println!("{found} shops with an answer, {none} without");
    assert!(found > none);
}

/// The trade's "3 to 5 cfm at 90 psi with 20 to 30 gal"; common practice, no source.
#[test]
fn a_first_visit_is_told_to_look_for_about_four_cfm_on_twenty_to_thirty_gallons() {
    let window = window(&Basis::of(&Shop::fresh())).unwrap();
    println!("{window:?}");
    assert!((3.5..=4.5).contains(&window.flow.as_cfm()), "{window:?}");
    assert!(
        (19.9..=30.1).contains(&(window.tank_m3 / M3_PER_GALLON)),
        "{window:?}"
    );
    assert!(tenths(window.done, window.draws) >= 8);
}

/// One drills, one rivets: with both going the driller waits, and riveting alone still does not.
#[test]
fn a_riveter_beside_a_driller_costs_the_driller() {
    let shop = |together: bool| Shop {
        tasks: [TaskKind::Drill, TaskKind::RivetGun]
            .map(|kind| Task {
                together,
                ..task(kind)
            })
            .into(),
        ..drilling(at_sea_level(), sold_as(4.0, 20.0))
    };
    let of = |together: bool| {
        let basis = Basis::of(&shop(together));
        let verdict = verdict(&basis, &basis.candidates[0]).unwrap();
        [verdict.records[0], verdict.records[1]]
    };
    let (apart, both) = (of(false), of(true));
    println!("drill apart {:?}, beside a riveter {:?}", apart[0], both[0]);
    assert!(both[0].done + 5 < apart[0].done);
    assert!(both[0].minutes[2] > apart[0].minutes[2]);
    assert!(
        both[0].grade == Grade::Wait || both[0].grade == Grade::Small,
        "{both:?}"
    );
}

/// Two people with a drill each take what two drills take.
#[test]
fn two_drillers_take_twice_the_air() {
    let mut shop = drilling(at_sea_level(), sold_as(5.0, 30.0));
    assert_eq!(record(&shop).grade, Grade::Good);
    shop.tasks[0].people = "2".into();
    assert_eq!(record(&shop).grade, Grade::Small);
}

fn timed(runs: &str, printed: &str) -> Option<AskAir> {
    let candidate = Candidate {
        pump_up: runs.into(),
        pump_from: "90 psi".into(),
        pump_to: "120 psi".into(),
        ..sold_as(3.0, 20.0)
    };
    let mut shop = drilling(at_sea_level(), candidate);
    shop.candidates[0].flow = printed.into();
    let basis = Basis::of(&shop);
    assert!(basis.candidates[0].measured.is_some(), "{:?}", basis.faults);
    verdict(&basis, &basis.candidates[0]).unwrap().asks
}

/// Twenty gallons from 90 to 120 psi in about 110 s are near 3 cfm.
#[test]
fn timed_runs_that_differ_and_flows_far_over_the_label_are_asked_about() {
    assert_eq!(timed("110 s; 111 s", "3 cfm"), None);
    assert!(matches!(
        timed("182 s; 120 s", "3 cfm"),
        Some(AskAir::RunsDiffer(_))
    ));
    assert!(matches!(timed("65 s", "3 cfm"), Some(AskAir::TimedOverPrint(over)) if over > 1.3));
    assert_eq!(timed("150 s", "3 cfm"), None, "less than printed is a fact");
}

/// One label twice is judged alike, whatever else the shop holds: the draws are the same for every machine and key.
#[test]
fn a_machine_is_judged_alike_beside_others() {
    let mut shop = Shop::demo();
    let of = |shop: &Shop, index: usize| {
        let basis = Basis::of(shop);
        verdict(&basis, &basis.candidates[index]).unwrap()
    };
    let alone = of(&shop, 0);
    let first = shop.candidates[0].clone();
    shop.candidates.push(first);
    assert_eq!(of(&shop, 3), alone);
    // Slices or all at once.
    let basis = Basis::of(&shop);
    let mut judging = Judging::new(&basis, &basis.candidates[0]).unwrap();
    while !judging.step(5) {}
    assert_eq!(judging.verdict(), alone);
}

/// As many places and tasks as a shop may hold, no two alike.
fn largest(shop: &Shop) -> Shop {
    let mut large = Shop {
        places: vec![shop.places[0].clone(); 12],
        tasks: shop.tasks.iter().cycle().take(60).cloned().collect(),
        ..shop.clone()
    };
    for (nth, task) in large.tasks.iter_mut().enumerate() {
        (task.on, task.pause) = (true, format!("{} min", 2 + nth));
    }
    for (nth, place) in large.places.iter_mut().enumerate() {
        place.altitude = format!("{} ft", 300 * nth);
    }
    large
}

/// As many places and tasks as a shop may hold once took a quarter of a minute. Equal ones now cost next to nothing, and of
/// wholly different ones the first odds are there after a few slices.
#[test]
fn the_largest_shop_says_its_first_odds_about_as_fast_as_a_small_one_all_of_them() {
    let time = |judged: &dyn Fn() -> usize| {
        let begun = std::time::Instant::now();
        (judged(), begun.elapsed().as_secs_f64())
    };
    let mut shop = Shop::fresh();
    shop.candidates = vec![sold_as(2.5, 6.0)];
    let whole = |shop: &Shop| {
        let basis = Basis::of(shop);
        verdict(&basis, &basis.candidates[0]).unwrap().draws
    };
    let (_, small) = time(&|| whole(&shop));
    let mut large = Shop {
        places: vec![shop.places[0].clone(); 12],
        tasks: shop.tasks.iter().cycle().take(60).cloned().collect(),
        ..shop.clone()
    };
    let (_, equal) = time(&|| whole(&large));
    large = largest(&shop);
    let first = || {
        let basis = Basis::of(&large);
        let mut judging = Judging::new(&basis, &basis.candidates[0]).unwrap();
        while !judging.slice() && judging.verdict().draws == 0 {}
        judging.verdict().draws
    };
    let (draws, different) = time(&first);
    println!("small {small:.3} s, equal {equal:.3} s, {draws} draws of different ones {different:.3} s");
    assert!(draws > 0);
    assert!(equal < 4.0 * small, "{equal} s against {small} s");
    assert!(different < 12.0 * small, "{different} s against {small} s");
}

/// As many wholly different jobs as a shop may hold, 720: its first sentence rests on the usual work, says so, and is there about
/// as fast as the whole answer of a first visit.
#[test]
fn the_largest_shop_is_answered_first_from_a_part_that_is_marked() {
    let time = |answered: &dyn Fn() -> String| {
        let begun = std::time::Instant::now();
        (answered(), begun.elapsed().as_secs_f64())
    };
    let mut shop = Shop::fresh();
    shop.candidates = vec![sold_as(2.5, 6.0)];
    let (whole, usual) = time(&|| {
        Memory::default()
            .answer(&shop, View::default())
            .answer
            .sentence
            .clone()
    });
    let large = largest(&shop);
    let (first, part) = time(&|| {
        let mut memory = Memory::default();
        let first = memory.first(&large, View::default()).unwrap();
        assert_eq!(first.so_far, "So far, from 6 of 720 different jobs");
        first.answer.sentence.clone()
    });
    println!("first visit {usual:.3} s: {whole}\n720 jobs {part:.3} s: {first}");
    assert!(
        first.starts_with("So far, from 6 of 720 different jobs: "),
        "{first}"
    );
    assert!(part < 6.0 * usual, "{part} s against {usual} s");
    assert!(
        Memory::default().first(&shop, View::default()).is_none(),
        "{whole}"
    );
}

/// So many jobs that three machines would take minutes: the chosen one is judged, and the comparison says that others are not.
#[test]
fn a_comparison_of_the_largest_shop_is_broken_off_and_says_so() {
    let mut shop = Shop::fresh();
    shop.tasks.retain(|task| task.on && task.kind != TaskKind::Drill);
    shop.candidates = vec![sold_as(60.0, 80.0), sold_as(61.0, 80.0), sold_as(62.0, 80.0)];
    shop.chosen = 2;
    let all = compare(&shop, Sort::default());
    assert_eq!(all.rows.len(), 3, "{}", all.sentence);
    assert!(!all.sentence.contains("not compared"), "{}", all.sentence);
    let some = compare(&largest(&shop), Sort::default());
    println!("{}", some.sentence);
    assert!(some.rows.iter().any(|row| row.chosen) && some.rows.len() < 3);
    assert!(
        some.sentence.contains("not compared: so many different jobs"),
        "{}",
        some.sentence
    );
}

/// A link once froze the page for half a minute: the shortest pull, no time between, for a day.
#[test]
fn a_rhythm_of_a_million_strokes_is_judged_about_as_fast_as_any() {
    let time = |shop: &Shop| {
        let begun = std::time::Instant::now();
        record(shop);
        begun.elapsed().as_secs_f64()
    };
    let usual = drilling(at_sea_level(), sold_as(2.1, 7.0));
    let mut strokes = usual.clone();
    strokes.tasks[0] = Task {
        trigger_on: "0.1 s".into(),
        trigger_off: "0 s".into(),
        spell: "1440 min".into(),
        ..strokes.tasks[0].clone()
    };
    let (usual, strokes) = (time(&usual), time(&strokes));
    println!("usual {usual:.3} s, strokes {strokes:.3} s");
    assert!(strokes < 10.0 * usual, "{strokes} s against {usual} s");
}

/// As much as a shop may hold of places and tasks is judged as if it held each kind of place and task once.
#[test]
fn equal_tasks_at_equal_places_are_one_row() {
    let few = Shop {
        places: vec![at_sea_level(), hangar()],
        tasks: [TaskKind::Drill, TaskKind::Sander].map(task).into(),
        ..drilling(hangar(), sold_as(6.0, 20.0))
    };
    let many = Shop {
        places: (0..12).map(|nth| few.places[nth % 2].clone()).collect(),
        tasks: (0..60)
            .map(|nth| Task {
                name: format!("Job {nth}"),
                ..few.tasks[nth % 2].clone()
            })
            .collect(),
        ..few.clone()
    };
    let of = |shop: &Shop| {
        let basis = Basis::of(shop);
        verdict(&basis, &basis.candidates[0]).unwrap()
    };
    let (few, many) = (of(&few), of(&many));
    assert_eq!(many.records.len(), 720);
    for record in &many.records {
        let like = few.record(record.place % 2, record.task % 2).unwrap();
        let here = Record {
            place: record.place,
            task: record.task,
            ..*like
        };
        assert_eq!(*record, here);
    }
    assert_eq!(
        (many.all_done, many.all_unwaited),
        (few.all_done, few.all_unwaited)
    );
}

/// A run that may end early ends as the whole one does.
#[test]
fn waits_that_are_sure_to_be_too_long_are_so_in_the_whole_run() {
    let mut stream = Stream(31);
    let (mut over, mut total) = (0, 0);
    for case in 0..12 {
        let shop = drawn(&mut stream);
        let basis = Basis::of(&shop);
        let mut judging = Judging::new(&basis, &basis.candidates[0]).unwrap();
        judging.step(usize::MAX);
        for draw in 0..128 {
            let (machine, work, _) = judging.case_of(0, draw).unwrap();
            if work.enough_pa >= machine.cut_out_pa {
                continue;
            }
            let hands = Hands::at((draw as f64 + 0.5) / 128.0);
            let whole = bellows::physics::run::run(
                &machine,
                &work,
                bellows::physics::run::Worker::Spares,
                hands,
                bellows::physics::run::Fineness::Coarse,
            );
            let bounds = bounds(&machine, &work, hands);
            let (early, steps) = waits_over(&machine, &work, hands, &bounds, LONG_WAIT_MIN);
            assert_eq!(
                early,
                whole.minutes_waiting() >= LONG_WAIT_MIN,
                "case {case}, draw {draw}: {bounds:?} {whole:?}"
            );
            assert!(steps <= whole.steps);
            over += usize::from(early);
            total += 1;
        }
    }
    println!("{over} of {total} wait too long");
    assert!(8 * over > total && over < total);
}

/// Several jobs, some of them together, with a machine that may or may not do.
fn busy(stream: &mut Stream) -> Shop {
    let mut shop = Shop::fresh();
    for task in &mut shop.tasks {
        task.on = stream.next() < 0.4;
        task.together = stream.next() < 0.2;
    }
    // Two of a kind, one of which may be put right.
    let twin = shop.tasks[stream.one_of(&[0, 1, 2])].clone();
    shop.tasks.push(twin);
    if stream.next() < 0.3 {
        shop.places.push(hangar());
    }
    let (cfm, gallons) = (stream.between(1.5, 8.0), stream.between(4.0, 40.0));
    shop.candidates = vec![Candidate {
        amps: format!("{:.1} A", stream.between(7.0, 16.0)),
        ..sold_as(cfm, gallons)
    }];
    shop
}

/// How a machine would stand with some fields typed otherwise, judged from the beginning.
fn stands(shop: &Shop, changes: &[Change]) -> Standing {
    Standing::of(&Basis::of(&with(shop, changes).unwrap()), 0)
}

/// Fixes are graded no further than it takes and keep what they do not change: what is offered stands as the changed shop
/// is judged, and a second tank that mends is offered. Over 1,000 shops of this seed, once: 520 fixes offered, 1,187 second
/// tanks refused, each as the changed shop is judged.
#[test]
fn fixes_stand_as_the_changed_shop_is_judged() {
    let mut stream = Stream(37);
    let (mut offered, mut refused) = (0, 0);
    for case in 0..cases(40).min(1_000) {
        let shop = busy(&mut stream);
        let before = stands(&shop, &[]);
        let found = fixes(&shop, 0);
        for fix in &found {
            assert_eq!(
                stands(&shop, &fix.changes),
                fix.then,
                "case {case}: {fix:?} in {shop:?}"
            );
            offered += 1;
        }
        let only_air = before.danger < Grade::Ask && before.power == Grade::Good;
        if !only_air || !matches!(before.air, Grade::Wait | Grade::Small) {
            continue;
        }
        for gallons in [20.0, 30.0] {
            let typed = [
                ("tank", format!("{gallons} gal")),
                ("rated", "150 psi".to_owned()),
            ];
            let changes = typed.map(|(field, text)| Change {
                field: format!("auxiliary.{field}"),
                text,
            });
            let mends = stands(&shop, &changes).grade() < before.grade().min(Grade::Trip);
            let is_offered = found.iter().any(|fix| {
                matches!(fix.air, Some(AirStep::SecondTank(m3)) if (m3 / M3_PER_GALLON - gallons).abs() < 0.1)
            });
            assert_eq!(is_offered, mends, "case {case}, {gallons} gal: {shop:?}");
            refused += usize::from(!mends);
        }
    }
    println!("{offered} fixes offered, {refused} second tanks refused");
    assert!(offered > 0 && refused > 0);
}
