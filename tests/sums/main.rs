//! Every figure of the page opens its sum, and the sum shown is the sum done: where the equation is closed, it is
//! read as it is shown, done again with the numbers shown, and compared with the figure shown.

mod equation;
mod figure;

use bellows::answer::report;
use bellows::report::{Figure, Report, Sum, View};
use bellows::shop::{Shop, Units};
use equation::{Known, Sums, statements};
use figure::{Read, figures};

/// How a figure is checked.
enum Check {
    /// By its equation: the symbols of the figures in its text, in their order, and the step that each is rounded to
    /// besides its three figures, SI.
    Closed(&'static [(&'static str, f64)]),
    /// Rounded upwards by at most so much, SI.
    Up(&'static str, f64),
    /// Stepped through time, or sought in a list: what goes in is named.
    Stepped,
}

const CFM: f64 = 0.028_316_846_592 / 60.0;
/// Flows are written to a tenth of a cfm or to five litres a minute.
const FLOW: f64 = 5e-3 / 60.0;

/// Pressures are written to a whole psi or a tenth of a bar.
const PSI: f64 = 1e4;

fn check(list: &str, name: &str) -> Check {
    use Check::{Closed, Stepped, Up};
    let what = name.rsplit(": ").next().unwrap_or(name);
    match (list, what) {
        ("window", "least flow") => Up("Q", 0.5 * CFM),
        ("window", "least tank") => Stepped,
        ("air", _) => Closed(&[("p", 0.0)]),
        ("label", "loss by clearance") => Closed(&[("c", 0.001)]),
        ("label", "current") => Closed(&[("I", 0.0)]),
        ("label", "breaker that carries it plugged in") => Up("B", 1.0),
        ("label", what) if what.starts_with("delivers at") => Closed(&[("q", FLOW)]),
        ("row", "set the regulator to") => Closed(&[("S", PSI)]),
        ("row" | "auxiliary", _) => Stepped,
        ("power", "running") => Closed(&[("V", 1.0), ("I", 0.0)]),
        ("power", "starting") => Closed(&[("V", 1.0), ("t", 0.01)]),
        ("power", "longest cord of this gauge") => Closed(&[("l", 0.0)]),
        ("power", "smallest cord that does") => Stepped,
        _ => panic!("{list}: {name} has no check"),
    }
}

/// What was put in under a symbol: one figure, or the ends of a range.
fn known(sum: &Sum) -> Vec<(String, Vec<Read>)> {
    let named = sum
        .put_in
        .iter()
        .filter_map(|(name, text)| Some((name.split_once(", ")?.0, text)));
    let symbols = named.filter(|(symbol, _)| !symbol.contains(' '));
    symbols
        .map(|(symbol, text)| (symbol.to_owned(), figures(text)))
        .collect()
}

/// The sum done with the numbers shown, at the lower or upper end of what is a range, and how far it may be off for
/// their rounding.
fn done(sum: &Sum, symbol: &str, end: usize) -> (f64, f64) {
    let statements = statements(sum.equation);
    let reads: Vec<(String, Read)> = known(sum)
        .into_iter()
        .map(|(symbol, ends)| {
            let read = *ends
                .get(end)
                .or(ends.first())
                .unwrap_or_else(|| panic!("no number for {symbol} in {sum:#?}"));
            (symbol, read)
        })
        .collect();
    let value = |moved: Option<(usize, f64)>| {
        let all = reads.iter().enumerate().map(|(index, (symbol, read))| {
            let by = moved
                .filter(|(which, _)| *which == index)
                .map_or(0.0, |(_, by)| by);
            (symbol.clone(), read.value + by)
        });
        let known: Known = all.collect();
        let sums = Sums {
            statements: &statements,
            known: &known,
        };
        sums.value(symbol)
            .unwrap_or_else(|fault| panic!("{fault} in {sum:#?}"))
    };
    let middle = value(None);
    let spread = (0..reads.len()).map(|index| {
        let half = reads[index].1.half;
        [half, -half]
            .map(|by| (value(Some((index, by))) - middle).abs())
            .into_iter()
            .fold(0.0, f64::max)
    });
    (middle, spread.sum())
}

/// No symbol without a number, no number without a use.
fn whole(sum: &Sum, at: &str) {
    let statements = statements(sum.equation);
    if statements.is_empty() {
        return;
    }
    let known = known(sum);
    let none = Known::new();
    let used = Sums {
        statements: &statements,
        known: &none,
    }
    .used();
    for symbol in &used {
        let there =
            symbol == "π" || statements.contains_key(symbol) || known.iter().any(|(name, _)| name == symbol);
        assert!(there, "{at}: nothing put in for {symbol}: {sum:#?}");
    }
    for (symbol, _) in &known {
        assert!(
            used.contains(symbol),
            "{at}: {symbol} is not in the equation: {sum:#?}"
        );
    }
}

fn verify(list: &str, figure: &Figure) {
    let at = format!("{list}: {} = {}", figure.name, figure.value);
    let Some(sum) = &figure.sum else {
        panic!("{at} has no sum");
    };
    for text in [sum.equation, sum.source, sum.leaves_out] {
        assert!(!text.is_empty(), "{at}: {sum:?}");
    }
    assert!(!sum.put_in.is_empty(), "{at}: {sum:?}");
    for (name, text) in &sum.put_in {
        assert!(
            !name.is_empty() && !text.is_empty() && !text.contains('?'),
            "{at}: {sum:?}"
        );
    }
    let shown = figures(&figure.value);
    match check(list, &figure.name) {
        Check::Closed(symbols) => {
            if !sum.equation.lines().any(|line| line.contains(" = ")) {
                let (_, given) = &sum.put_in[0];
                assert!(figure.value.contains(given.as_str()), "{at}: {sum:#?}");
                return;
            }
            whole(sum, &at);
            let ends = if figure.value.contains(" to ") && symbols.len() == 1 {
                2
            } else {
                1
            };
            for (index, (symbol, step)) in symbols.iter().cycle().take(symbols.len().max(ends)).enumerate() {
                let (value, spread) = done(sum, symbol, if ends == 2 { index } else { 0 });
                let Read { value: told, half } = shown[index];
                // A ten-thousandth for tables that the crate reads between their rows.
                let may = spread + half.max(0.5 * step) * 1.01 + 1e-4 * value.abs();
                assert!(
                    (told - value).abs() <= may,
                    "{at}: {symbol} comes to {value}, not {told}, ± {may}: {sum:#?}"
                );
            }
        }
        Check::Up(symbol, most) => {
            whole(sum, &at);
            let (value, spread) = done(sum, symbol, 0);
            let told = shown[0];
            let slack = spread + told.half + 1e-3 * value;
            assert!(
                told.value >= value - slack && told.value <= value + most + slack,
                "{at}: {value}: {sum:#?}"
            );
        }
        Check::Stepped => {}
    }
}

/// Lists whose figures have no sums.
const WITHOUT: [&str; 5] = ["line", "water", "sound", "carry", "money"];

/// Every list of figures, by the name that the page asks for it.
fn lists(report: &Report) -> Vec<(String, Vec<Figure>)> {
    let mut lists = vec![("window".to_owned(), report.window.figures.clone())];
    for place in &report.places {
        lists.push(("air".into(), vec![place.air.clone()]));
        lists.extend(
            place
                .tasks
                .iter()
                .map(|row| ("row".to_owned(), row.figures.clone())),
        );
    }
    lists.extend(
        report
            .sections
            .iter()
            .map(|section| (section.id.clone(), section.figures.clone())),
    );
    lists.retain(|(list, _)| !WITHOUT.contains(&list.as_str()));
    lists
}

/// The example in both systems of units, with each of its machines at each of its places, and labels that leave out
/// or add what a sum goes by.
fn shops() -> Vec<(&'static str, Shop)> {
    let demo = Shop::demo();
    let with = |name: &'static str, change: &dyn Fn(&mut Shop)| {
        let mut shop = demo.clone();
        change(&mut shop);
        (name, shop)
    };
    vec![
        with("the example", &|_| {}),
        with("its second machine", &|shop| shop.chosen = 1),
        with("its third machine", &|shop| shop.chosen = 2),
        with("no flow", &|shop| shop.candidates[0].flow.clear()),
        with("horsepower alone", &|shop| {
            let label = &mut shop.candidates[0];
            label.flow.clear();
            label.amps.clear();
            label.power = "2 hp".into();
        }),
        with("no amps", &|shop| shop.candidates[0].amps.clear()),
        with("two flows", &|shop| {
            shop.candidates[0].flow2 = "6.2 cfm".into();
            shop.candidates[0].at2 = "40 psi".into();
        }),
        with("a barometer", &|shop| {
            shop.places[1].station_pressure = "25.1 inHg".into()
        }),
    ]
}

#[test]
fn every_figure_opens_a_sum_that_comes_out() {
    for (name, shop) in shops() {
        for units in [Units::Us, Units::Metric] {
            let shop = Shop {
                units,
                ..shop.clone()
            };
            for place in 0..shop.places.len() {
                for task in [None, Some(0), Some(2)] {
                    println!("{name}, {units:?}, place {place}, task {task:?}");
                    let report = report(&shop, View { place, task });
                    for (list, figures) in lists(&report) {
                        figures.iter().for_each(|figure| verify(&list, figure));
                    }
                }
            }
        }
    }
}

/// The check above can fail: a tenth more in any number, and the sum no longer comes out.
#[test]
fn a_wrong_number_is_found() {
    let report = report(&Shop::demo(), View::default());
    let lists = lists(&report);
    let find = |list: &str, name: &str| {
        let all = lists
            .iter()
            .filter(|(id, _)| id == list)
            .flat_map(|(_, figures)| figures);
        all.clone()
            .find(|figure| figure.name == name)
            .cloned()
            .expect("such a figure")
    };
    let mut figure = find("label", "delivers at 40 psi");
    verify("label", &figure);
    let flow = figures(&figure.value)[0].value / CFM;
    figure.value = format!("{:.1} cfm", 1.1 * flow);
    assert!(std::panic::catch_unwind(|| verify("label", &figure)).is_err());
}
