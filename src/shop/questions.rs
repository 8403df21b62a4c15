//! The four questions about a builder's own shop: outlet, distance and cord, work, and where it will be finished.
//!
//! An answer is a handful of texts in the shop's fields, so that all of it can be read and changed there afterwards. An
//! answer is the one that stands where giving it would change nothing. "Don't know" leaves the fields blank: what is then
//! assumed is shown as assumed.

use serde::Serialize;
use tsify::Tsify;

use crate::{Place, Shop, Task, TaskKind, Units};

/// One answer that can be given.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Tsify)]
pub struct Choice {
    /// Its name, for [`answered`].
    pub id: &'static str,
    /// What it says.
    pub label: &'static str,
    /// What it costs or means, in a few words; may be blank.
    pub hint: &'static str,
    /// The picture that goes with it; blank where there is none.
    pub picture: &'static str,
    /// Whether it is the answer that stands.
    pub chosen: bool,
}

/// One question: of its answers one stands, or each by itself.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Tsify)]
pub struct Question {
    /// Its name, for [`answered`].
    pub id: &'static str,
    /// The question.
    pub ask: &'static str,
    /// Whether each answer stands by itself.
    pub several: bool,
    /// The answers.
    pub choices: Vec<Choice>,
}

/// Questions that stand on one screen.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Tsify)]
pub struct Sheet {
    /// Its heading.
    pub title: &'static str,
    /// The answers that stand, in a line: "Air drill, driven rivets".
    pub stands: String,
    /// The questions.
    pub questions: Vec<Question>,
}

/// Name, label, hint, picture.
type Row = (&'static str, &'static str, &'static str, &'static str);

const OUTLETS_US: [Row; 7] = [
    ("5-15", "15 A, regular", "", "5-15"),
    ("5-20", "20 A", "T slot", "5-20"),
    ("6-20", "240 V, 20 A", "", "6-20"),
    ("14-30", "Dryer", "4 slots", "14-30"),
    ("10-30", "Old dryer", "3 slots", "10-30"),
    ("14-50", "Range, 50 A", "", "14-50"),
    ("unknown", "Don’t know", "15 A assumed", ""),
];

const OUTLETS_METRIC: [Row; 4] = [
    ("schuko", "16 A, Schuko", "Round, two pins", "schuko"),
    (
        "bs1363",
        "13 A, UK",
        "Three square pins, a fuse in the plug",
        "bs1363",
    ),
    ("hard-wired", "Hard-wired by an electrician", "", ""),
    ("unknown", "Don’t know", "16 A assumed", ""),
];

const BESIDE: [Row; 4] = [
    ("nothing", "Nothing, or don’t know", "", ""),
    ("lights", "Lights", "2 A", ""),
    ("freezer", "Freezer or fridge", "6 A", ""),
    ("heater", "Heater", "12 A", ""),
];

const DISTANCES_US: [Row; 4] = [
    ("here", "Right beside it", "", ""),
    ("25", "25 ft", "", ""),
    ("50", "50 ft", "", ""),
    ("100", "100 ft", "", ""),
];

const DISTANCES_METRIC: [Row; 4] = [
    ("here", "Right beside it", "", ""),
    ("25", "8 m", "", ""),
    ("50", "15 m", "", ""),
    ("100", "30 m", "", ""),
];

const CORDS_US: [Row; 5] = [
    ("none", "None yet", "", ""),
    ("16", "16 gauge", "Printed 16/3", "cord-16"),
    ("14", "14 gauge", "14/3", "cord-14"),
    ("12", "12 gauge", "12/3", "cord-12"),
    ("10", "10 gauge", "10/3", "cord-10"),
];

const CORDS_METRIC: [Row; 3] = [
    ("none", "None yet", "", ""),
    ("1.5", "3 G 1.5", "1.5 mm²", "cord-14"),
    ("2.5", "3 G 2.5", "2.5 mm²", "cord-12"),
];

const HOLES: [Row; 2] = [
    ("drilled", "Air drill", "", "drill"),
    ("punched", "Punched, or a cordless drill", "", "punched"),
];

const RIVETS: [Row; 3] = [
    ("driven", "Driven", "Rivet gun", "driven"),
    ("pulled", "Pulled", "", "pulled"),
    ("both", "Both", "", ""),
];

const EXTRAS: [Row; 5] = [
    ("grinder", "Die grinder", "", ""),
    ("sander", "Air sander", "", ""),
    ("primer", "Prime parts", "", ""),
    ("paint", "Paint the airplane", "", ""),
    ("together", "One drills while one rivets", "", ""),
];

const FINISHES: [Row; 4] = [
    ("here", "Here, or don’t know", "", ""),
    ("hangar", "Hangar, 120 V outlet", "", ""),
    ("hangar-240", "Hangar, 240 V outlet", "", ""),
    ("hangar-generator", "Hangar, on a generator", "", ""),
];

const FINISHES_METRIC: [Row; 3] = [
    ("here", "Here, or don’t know", "", ""),
    ("hangar", "Hangar, an ordinary outlet", "", ""),
    ("hangar-generator", "Hangar, on a generator", "", ""),
];

/// The four sheets, as they stand for a shop.
///
/// ```
/// # use shop::{Shop, questions::sheets};
/// let sheets = sheets(&Shop::fresh());
/// assert_eq!(sheets.len(), 4);
/// assert_eq!(sheets[0].stands, "15 A assumed, nothing else on it");
/// assert_eq!(sheets[2].stands, "Air drill, driven rivets");
/// let outlet = &sheets[0].questions[0];
/// assert_eq!(outlet.choices.iter().find(|choice| choice.chosen).map(|choice| choice.id), Some("unknown"));
/// ```
pub fn sheets(shop: &Shop) -> Vec<Sheet> {
    let metric = shop.units == Units::Metric;
    let pick = |us: &'static [Row], other: &'static [Row]| if metric { other } else { us };
    let one = |id, ask, rows| question(shop, (id, ask), rows, false);
    let sheet = |title, questions: Vec<Question>| Sheet {
        title,
        stands: stands(&questions),
        questions,
    };
    vec![
        sheet(
            "Outlet",
            vec![
                one(
                    "outlet",
                    "What will you plug it into?",
                    pick(&OUTLETS_US, &OUTLETS_METRIC),
                ),
                one("beside", "What else is on that breaker?", &BESIDE),
            ],
        ),
        sheet(
            "Distance and cord",
            vec![
                one(
                    "distance",
                    "How far from the outlet?",
                    pick(&DISTANCES_US, &DISTANCES_METRIC),
                ),
                one("cord", "Which cord?", pick(&CORDS_US, &CORDS_METRIC)),
            ],
        ),
        sheet(
            "Work",
            vec![
                one("holes", "How are the holes made?", &HOLES),
                one("rivets", "Which rivets?", &RIVETS),
                question(shop, ("extras", "What else?"), &EXTRAS, true),
            ],
        ),
        sheet(
            "Finished",
            vec![one(
                "finish",
                "Where will the airplane be finished?",
                pick(&FINISHES, &FINISHES_METRIC),
            )],
        ),
    ]
}

/// The answers that stand, in a line; what goes without saying is left out.
fn stands(questions: &[Question]) -> String {
    let chosen = questions
        .iter()
        .flat_map(|question| question.choices.iter().map(move |choice| (question.id, choice)))
        .filter(|(_, choice)| choice.chosen);
    let said: Vec<&str> = chosen
        .filter_map(|(question, choice)| match (question, choice.id) {
            ("outlet", "unknown") => Some(choice.hint),
            ("beside", "nothing") => Some("nothing else on it"),
            ("cord", "none") => None,
            ("holes", "punched") => Some("no air for holes"),
            ("rivets", "driven") => Some("driven rivets"),
            ("rivets", "pulled") => Some("pulled rivets"),
            ("rivets", "both") => Some("driven and pulled rivets"),
            ("finish", "here") => Some("Here"),
            _ => Some(choice.label),
        })
        .collect();
    said.join(", ")
}

fn question(shop: &Shop, (id, ask): (&'static str, &'static str), rows: &[Row], several: bool) -> Question {
    let stands = |choice: &str| match several {
        true => extra_is_on(shop, choice),
        false => answered(shop, id, choice).as_ref() == Some(shop),
    };
    let mut choices: Vec<Choice> = rows
        .iter()
        .map(|&(id, label, hint, picture)| Choice {
            id,
            label,
            hint,
            picture,
            chosen: stands(id),
        })
        .collect();
    // A cord without a length is that of no distance: the first that stands is the answer.
    if !several {
        let mut found = false;
        for choice in &mut choices {
            choice.chosen &= !found;
            found |= choice.chosen;
        }
    }
    Question {
        id,
        ask,
        several,
        choices,
    }
}

/// The shop with an answer given; of several answers that stand by themselves, with that one turned over. None for a question
/// or an answer that is not asked.
///
/// ```
/// # use shop::{Shop, questions::answered};
/// let shop = answered(&Shop::fresh(), "outlet", "5-20").ok_or("no such answer")?;
/// assert_eq!((&*shop.places[0].outlet, &*shop.places[0].breaker), ("5-20", "20 A"));
/// assert!(answered(&shop, "outlet", "9-99").is_none());
/// # Ok::<(), &str>(())
/// ```
pub fn answered(shop: &Shop, question: &str, choice: &str) -> Option<Shop> {
    let mut next = shop.clone();
    let done = match question {
        "finish" => finish(&mut next, choice),
        "holes" => work(&mut next, &[(TaskKind::Drill, choice == "drilled")]),
        "rivets" => rivets(&mut next, choice),
        "extras" => extra(&mut next, choice),
        _ => {
            let metric = next.units == Units::Metric;
            if next.places.is_empty() {
                next.places.push(Place::default());
            }
            let place = next.places.first_mut()?;
            match question {
                "outlet" => outlet(place, choice),
                "beside" => beside(place, choice),
                "distance" => distance(place, choice, metric),
                "cord" => cord(place, choice, metric),
                _ => None,
            }
        }
    };
    done.map(|()| next)
}

fn outlet(place: &mut Place, choice: &str) -> Option<()> {
    let [outlet, breaker, volts] = match choice {
        "5-15" => ["5-15", "15 A", "120 V"],
        "5-20" => ["5-20", "20 A", "120 V"],
        "6-20" => ["6-20", "20 A", "240 V"],
        "14-30" => ["14-30", "30 A", "240 V"],
        "10-30" => ["10-30", "30 A", "240 V"],
        "14-50" => ["14-50", "50 A", "240 V"],
        "schuko" => ["Schuko", "16 A", "230 V"],
        "bs1363" => ["BS 1363", "32 A", "230 V"],
        "hard-wired" => ["hard-wired", "", "230 V"],
        "unknown" => ["", "", ""],
        _ => return None,
    };
    (place.outlet, place.breaker, place.volts) = (outlet.into(), breaker.into(), volts.into());
    Some(())
}

fn beside(place: &mut Place, choice: &str) -> Option<()> {
    let [load, name] = match choice {
        "nothing" => ["", ""],
        "lights" => ["2 A", "lights"],
        "freezer" => ["6 A", "freezer"],
        "heater" => ["12 A", "heater"],
        _ => return None,
    };
    (place.other_load, place.other_name) = (load.into(), name.into());
    Some(())
}

/// What a distance is as text; blank beside the outlet.
fn length(choice: &str, metric: bool) -> Option<&'static str> {
    Some(match (choice, metric) {
        ("here", _) => "",
        ("25", false) => "25 ft",
        ("50", false) => "50 ft",
        ("100", false) => "100 ft",
        ("25", true) => "8 m",
        ("50", true) => "15 m",
        ("100", true) => "30 m",
        _ => return None,
    })
}

/// The distance is the cord's length where there is a cord, else the one that is planned.
fn distance(place: &mut Place, choice: &str, metric: bool) -> Option<()> {
    let length = length(choice, metric)?;
    if length.is_empty() {
        place.cord_gauge.clear();
    }
    reach(place, length.to_owned());
    Some(())
}

fn cord(place: &mut Place, choice: &str, metric: bool) -> Option<()> {
    let gauge = match (choice, metric) {
        ("none", _) => "",
        ("16", false) => "16 AWG",
        ("14", false) => "14 AWG",
        ("12", false) => "12 AWG",
        ("10", false) => "10 AWG",
        ("1.5", true) => "1.5 mm²",
        ("2.5", true) => "2.5 mm²",
        _ => return None,
    };
    let usual = if metric { "8 m" } else { "25 ft" };
    let known = [&place.cord_length, &place.cord_planned];
    let known = known.into_iter().find(|length| !length.is_empty()).cloned();
    place.cord_gauge = gauge.into();
    let length = match (known, gauge) {
        (Some(length), _) => length,
        (None, "") => String::new(),
        (None, _) => usual.into(),
    };
    reach(place, length);
    Some(())
}

fn reach(place: &mut Place, length: String) {
    (place.cord_length, place.cord_planned) = if place.cord_gauge.is_empty() {
        (String::new(), length)
    } else {
        (length, String::new())
    };
}

/// Switches kinds of work on or off; a kind that the shop lacks is added where it is on.
fn work(shop: &mut Shop, kinds: &[(TaskKind, bool)]) -> Option<()> {
    for &(kind, on) in kinds {
        let mut met = false;
        for task in shop.tasks.iter_mut().filter(|task| task.kind == kind) {
            // One of a kind is enough to say that it is done; all go where it is not.
            task.on = on && (task.on || !met);
            met = true;
        }
        if on && !met {
            shop.tasks.push(Task {
                kind,
                on,
                ..Task::default()
            });
        }
    }
    Some(())
}

fn rivets(shop: &mut Shop, choice: &str) -> Option<()> {
    let (driven, pulled) = match choice {
        "driven" => (true, false),
        "pulled" => (false, true),
        "both" => (true, true),
        _ => return None,
    };
    let gun = [TaskKind::RivetGun, TaskKind::BackRivet, TaskKind::Squeezer].map(|kind| (kind, driven));
    work(shop, &gun)?;
    work(shop, &[(TaskKind::RivetPuller, pulled)])
}

fn kind_of_extra(choice: &str) -> Option<TaskKind> {
    Some(match choice {
        "grinder" => TaskKind::DieGrinder,
        "sander" => TaskKind::Sander,
        "primer" => TaskKind::PrimerGun,
        "paint" => TaskKind::PaintGun,
        _ => return None,
    })
}

fn is_on(shop: &Shop, kind: TaskKind) -> bool {
    shop.tasks.iter().any(|task| task.kind == kind && task.on)
}

/// The two kinds of work that go on side by side.
const PAIR: [TaskKind; 2] = [TaskKind::Drill, TaskKind::RivetGun];

fn extra_is_on(shop: &Shop, choice: &str) -> bool {
    match kind_of_extra(choice) {
        Some(kind) => is_on(shop, kind),
        None => PAIR.iter().all(|kind| {
            shop.tasks
                .iter()
                .any(|task| task.kind == *kind && task.on && task.together)
        }),
    }
}

fn extra(shop: &mut Shop, choice: &str) -> Option<()> {
    let on = !extra_is_on(shop, choice);
    if let Some(kind) = kind_of_extra(choice) {
        return work(shop, &[(kind, on)]);
    }
    if choice != "together" {
        return None;
    }
    if on {
        work(shop, &PAIR.map(|kind| (kind, true)))?;
    }
    for task in shop.tasks.iter_mut().filter(|task| PAIR.contains(&task.kind)) {
        task.together = on;
    }
    Some(())
}

/// A second place, or none.
fn finish(shop: &mut Shop, choice: &str) -> Option<()> {
    if choice == "here" {
        shop.places.truncate(1);
        return Some(());
    }
    let metric = shop.units == Units::Metric;
    let [volts, outlet, breaker, generator] = match (choice, metric) {
        ("hangar", false) => ["120 V", "", "", ""],
        ("hangar", true) => ["230 V", "", "", ""],
        ("hangar-240", false) => ["240 V", "6-20", "20 A", ""],
        ("hangar-generator", false) => ["120 V", "", "", "3.5 kVA"],
        ("hangar-generator", true) => ["230 V", "", "", "3.5 kVA"],
        _ => return None,
    };
    if shop.places.len() < 2 {
        shop.places.push(Place {
            name: "Hangar".into(),
            ..Place::default()
        });
    }
    let place = shop.places.get_mut(1)?;
    (place.volts, place.outlet, place.breaker) = (volts.into(), outlet.into(), breaker.into());
    place.generator = generator.into();
    Some(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::change::Change;

    /// Every answer in every order leaves a shop that the fields take, and is then the one that stands.
    #[test]
    fn each_answer_stands_once_it_is_given() {
        for units in [Units::Us, Units::Metric] {
            let fresh = Shop::fresh_in(units);
            for sheet in sheets(&fresh) {
                for question in &sheet.questions {
                    for choice in &question.choices {
                        let given = answered(&fresh, question.id, choice.id).unwrap();
                        let again = sheets(&given);
                        let again = again.iter().flat_map(|sheet| &sheet.questions);
                        let again = again.into_iter().find(|other| other.id == question.id).unwrap();
                        let stands: Vec<_> = again.choices.iter().filter(|choice| choice.chosen).collect();
                        let own = stands.iter().any(|stands| stands.id == choice.id);
                        // A cord of no length is assumed to be a short one.
                        let turned_off = question.several && choice.chosen;
                        assert!(own || turned_off, "{} {}: {stands:?}", question.id, choice.id);
                    }
                }
            }
        }
    }

    #[test]
    fn distance_and_cord_are_told_in_either_order() {
        let [cord_first, distance_first] = [["cord", "distance"], ["distance", "cord"]].map(|order| {
            order.iter().fold(Shop::fresh(), |shop, question| {
                let choice = if *question == "cord" { "12" } else { "50" };
                answered(&shop, question, choice).unwrap()
            })
        });
        assert_eq!(cord_first, distance_first);
        let place = &cord_first.places[0];
        assert_eq!(
            (&*place.cord_gauge, &*place.cord_length, &*place.cord_planned),
            ("12 AWG", "50 ft", "")
        );
        let without = answered(&cord_first, "cord", "none").unwrap();
        assert_eq!(
            (&*without.places[0].cord_length, &*without.places[0].cord_planned),
            ("", "50 ft")
        );
        let beside = answered(&without, "distance", "here").unwrap();
        assert_eq!(beside, Shop::fresh());
    }

    #[test]
    fn what_is_given_is_taken_by_its_fields() {
        for units in [Units::Us, Units::Metric] {
            let fresh = Shop::fresh_in(units);
            for sheet in sheets(&fresh) {
                for question in &sheet.questions {
                    for choice in &question.choices {
                        let given = answered(&fresh, question.id, choice.id).unwrap();
                        for (index, place) in given.places.iter().enumerate() {
                            for (key, text) in [
                                ("volts", &place.volts),
                                ("breaker", &place.breaker),
                                ("other_load", &place.other_load),
                                ("cord_gauge", &place.cord_gauge),
                                ("cord_length", &place.cord_length),
                                ("cord_planned", &place.cord_planned),
                                ("generator", &place.generator),
                            ] {
                                let change = Change {
                                    field: format!("places.{index}.{key}"),
                                    text: text.clone(),
                                };
                                assert!(change.is_taken(units), "{change:?}");
                            }
                        }
                    }
                }
            }
        }
    }

    #[test]
    fn a_hangar_comes_and_goes_and_the_garage_stays() {
        let garage = answered(&Shop::fresh(), "outlet", "5-20").unwrap();
        let both = answered(&garage, "finish", "hangar-240").unwrap();
        assert_eq!((both.places.len(), &*both.places[1].volts), (2, "240 V"));
        assert_eq!(answered(&both, "finish", "here").unwrap(), garage);
    }
}
