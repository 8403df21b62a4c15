//! How long an answer takes: the page makes one on every keystroke.

use std::hint::black_box;

use bellows::answer::report::View;
use bellows::answer::{Memory, report};
use bellows::judge::assess::assess;
use bellows::judge::basis::Basis;
use bellows::judge::choice::Choosing;
use bellows::judge::fix::Search;
use bellows::judge::map::map;
use bellows::judge::verdict::{Judging, verdict};
use bellows::judge::window::window;
use bellows::physics::run::{Fineness, Hands, Worker, bounds, run};
use bellows::shop::{Candidate, Shop};
use criterion::{Criterion, criterion_group, criterion_main};

/// Every task of the catalogue three times, each in another rhythm, at twelve places, each at another altitude, on a machine
/// that keeps up with few: nothing is shared.
fn worst(shop: &Shop) -> Shop {
    let mut shop = shop.clone();
    for task in &mut shop.tasks {
        task.on = true;
    }
    shop.tasks = [&shop.tasks[..]; 3].concat();
    for (nth, task) in shop.tasks.iter_mut().enumerate() {
        task.pause = format!("{} min", 2 + nth);
    }
    shop.places = vec![shop.places[0].clone(); 12];
    for (nth, place) in shop.places.iter_mut().enumerate() {
        place.altitude = format!("{} ft", 300 * nth);
    }
    shop.candidates[0].flow = "2 cfm".into();
    shop
}

/// Share of all draws of some shops' first machines that need no stepping through time.
fn settled(shops: &[&Shop]) -> String {
    let share = |shop: &&Shop| {
        let basis = Basis::of(shop);
        let verdict = verdict(&basis, &basis.candidates[0]);
        verdict.map_or_else(
            || "none".into(),
            |verdict| format!("{:.0} %", 100.0 * verdict.settled()),
        )
    };
    shops.iter().map(share).collect::<Vec<_>>().join(", ")
}

/// What comes after the verdict, which is known: what mends a machine, and which of three to buy.
fn fixes_and_choice(criterion: &mut Criterion, first: &Shop) {
    let basis = Basis::of(first);
    let known = verdict(&basis, &basis.candidates[0]);
    criterion.bench_function("what mends it, after its verdict", |bench| {
        bench.iter(|| {
            let mut search = Search::new(black_box(first), 0, known.clone());
            while !search.step() {}
            search.fixes()
        })
    });
    let mut three = first.clone();
    three.candidates = [("2.5 cfm", "6 gal"), ("3.2 cfm", "10 gal"), ("4 cfm", "20 gal")]
        .map(|(flow, tank)| Candidate {
            flow: flow.into(),
            tank: tank.into(),
            ..first.candidates[0].clone()
        })
        .into();
    criterion.bench_function("comparison of three, from cold", |bench| {
        bench.iter(|| {
            let mut choosing = Choosing::new(black_box(&three), vec![(0, None), (1, None), (2, None)]);
            while !choosing.step() {}
            choosing.ranked()
        })
    });
}

fn answers(criterion: &mut Criterion) {
    let shop = Shop::demo();
    let basis = Basis::of(&shop);
    criterion.bench_function("assess one candidate", |bench| {
        bench.iter(|| assess(black_box(&basis), &basis.candidates[0]));
    });
    let usual = &basis.candidates[0];
    let case = Judging::new(&basis, usual).and_then(|mut judging| {
        judging.step(1);
        judging.case_of(0, 0)
    });
    if let Some((machine, work, _)) = case {
        criterion.bench_function("one run of three hours", |bench| {
            bench.iter(|| {
                run(
                    black_box(&machine),
                    &work,
                    Worker::Spares,
                    Hands::typical(),
                    Fineness::Coarse,
                )
            })
        });
        criterion.bench_function("bounds of that run", |bench| {
            bench.iter(|| bounds(black_box(&machine), &work, Hands::typical()))
        });
    }
    // The machine of which little is settled beforehand costs most, the large one least.
    for candidate in 0..3 {
        let name = format!("one verdict, candidate {candidate}");
        criterion.bench_function(&name, |bench| {
            bench.iter(|| verdict(black_box(&basis), &basis.candidates[candidate]))
        });
    }
    let [small, first] = [("2.5 cfm", "6 gal"), ("4 cfm", "20 gal")].map(|(flow, tank)| {
        let mut first = Shop::fresh();
        (first.candidates[0].flow, first.candidates[0].tank) = (flow.into(), tank.into());
        let name = format!("a first visit's shop, its verdict, {flow} on {tank}");
        criterion.bench_function(&name, |bench| {
            bench.iter(|| {
                let basis = Basis::of(black_box(&first));
                verdict(&basis, &basis.candidates[0])
            })
        });
        first
    });
    println!("settled by bounds: {}", settled(&[&small, &first, &shop]));
    let worst = worst(&first);
    criterion.bench_function("the worst shop, its verdict", |bench| {
        bench.iter(|| {
            let basis = Basis::of(black_box(&worst));
            verdict(&basis, &basis.candidates[0])
        })
    });
    // The odds of the first draws are what its first sentence rests on; the rest comes in parts.
    criterion.bench_function("the worst shop, its first odds", |bench| {
        bench.iter(|| {
            let basis = Basis::of(black_box(&worst));
            let mut judging = Judging::new(&basis, &basis.candidates[0])?;
            judging.step(2);
            Some(judging.verdict())
        })
    });
    fixes_and_choice(criterion, &first);
    criterion.bench_function("shopping window", |bench| {
        bench.iter(|| window(black_box(&basis)))
    });
    criterion.bench_function("map", |bench| bench.iter(|| map(black_box(&basis))));
    criterion.bench_function("answer from cold", |bench| {
        bench.iter(|| report(black_box(&shop), View::default()));
    });
    // Typing in the label: the flow changes with every key, the window holds.
    let typed = ["4 cfm", "4. cfm", "4.2 cfm"].map(|flow| {
        let mut shop = shop.clone();
        shop.candidates[0].flow = flow.into();
        shop
    });
    criterion.bench_function("answer to a keystroke", |bench| {
        let mut memory = Memory::default();
        memory.report(&shop, View::default());
        let mut keys = typed.iter().cycle();
        bench.iter(|| {
            keys.next()
                .map(|shop| black_box(memory.report(black_box(shop), View::default())).view)
        });
    });
}

criterion_group! {
    name = benches;
    config = Criterion::default().sample_size(10);
    targets = answers
}
criterion_main!(benches);
