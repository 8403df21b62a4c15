//! How long an answer takes: the page makes one on every keystroke.

use std::hint::black_box;

use bellows::answer::report::View;
use bellows::answer::{Memory, report};
use bellows::judge::assess::assess;
use bellows::judge::basis::Basis;
use bellows::judge::doubt::{DRAWS, Doubt};
use bellows::judge::map::map;
use bellows::judge::window::window;
use bellows::shop::Shop;
use criterion::{Criterion, criterion_group, criterion_main};

fn answers(criterion: &mut Criterion) {
    let shop = Shop::demo();
    let basis = Basis::of(&shop);
    criterion.bench_function("assess one candidate", |bench| {
        bench.iter(|| assess(black_box(&basis), &basis.candidates[0]));
    });
    // The machine of which nothing is settled beforehand costs most, the large one least.
    for candidate in 0..3 {
        let name = format!("a thousand draws, candidate {candidate}");
        criterion.bench_function(&name, |bench| {
            bench.iter(|| {
                let mut doubt = Doubt::new(black_box(&basis), candidate, DRAWS)?;
                doubt.step(DRAWS);
                Some(doubt.found())
            });
        });
    }
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
    config = Criterion::default().sample_size(20);
    targets = answers
}
criterion_main!(benches);
