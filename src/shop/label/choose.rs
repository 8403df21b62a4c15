//! Figures to fields.

use super::draft::Draft;
use super::scene::Scene;
use super::sense::Sense;
use super::unit::Measure;
use super::{Field, LabelReading, electric, facts, flows, owner, pump};
use quantity::{Kind, PA_PER_PSI, short, would_be};

/// Chooses for every figure of a text its field, or why it goes nowhere.
pub(super) fn choose(scene: &Scene) -> LabelReading {
    let mut draft = Draft::new(scene.units);
    facts::facts(scene, &mut draft);
    let spent = pump::pump_up(scene, &mut draft);
    flows::flows(scene, &mut draft);
    electric::electric(scene, &mut draft);
    for index in (0..scene.figures.len()).filter(|index| !spent[*index]) {
        one(scene, &mut draft, index);
    }
    draft.settle()
}

fn one(scene: &Scene, draft: &mut Draft, index: usize) {
    match scene.figures[index].measure() {
        None => bare(scene, draft, index),
        Some(Measure::Pressure) if scene.stated.used[index] => {}
        Some(Measure::Pressure) => pressure(scene, draft, index),
        Some(Measure::Volume) => volume(scene, draft, index),
        Some(Measure::Sound) => sound(scene, draft, index),
        Some(Measure::Share) => share(scene, draft, index),
        Some(Measure::Mass) => mass(scene, draft, index),
        Some(Measure::Money) => money(scene, draft, index),
        Some(Measure::Length) => length(scene, draft, index),
        _ => {}
    }
}

/// A figure without a unit or a word that tells one.
fn bare(scene: &Scene, draft: &mut Draft, index: usize) {
    let figure = &scene.figures[index];
    if let Some((text, piece)) = facts::face(scene, index) {
        return draft.claim(3, Field::Plug, text, piece);
    }
    // A lone spoken "one" or the "1." of a list is no figure of the machine.
    let small = figure.numbers.len() == 1 && figure.value() <= 10.0 && figure.value().fract() == 0.0;
    if !small {
        let before = &scene.contexts[index].before;
        let from = before.end.saturating_sub(3).max(before.start).min(figure.first);
        draft.unread(scene.pieces[from].from..scene.span(index).end);
    }
}

/// A pressure that no flow is stated at.
fn pressure(scene: &Scene, draft: &mut Draft, index: usize) {
    let (figure, piece) = (&scene.figures[index], scene.span(index));
    let text = figure.text();
    let before = scene.sense_before(index);
    // "On 110 psi / off 140 psi" behind a pressure switch.
    let sense = match scene.previous_word(index) {
        "on" => Some(Sense::CutIn),
        "off" => Some(Sense::CutOut),
        _ => scene.sense(index),
    };
    let owned = scene
        .owner(index)
        .filter(|_| !matches!(before, Some(Sense::CutIn | Sense::CutOut | Sense::Relief)));
    if let Some(thing) = owned {
        return draft.leave(piece, format!("{text} is the {thing}'s, not the compressor's"));
    }
    if figure.numbers.len() > 1 {
        return range(scene, draft, index);
    }
    match sense {
        Some(Sense::CutIn) => draft.claim(3, Field::CutIn, text, piece),
        Some(Sense::CutOut) => draft.claim(4, Field::CutOut, text, piece),
        Some(Sense::Stamp) => draft.claim(2, Field::Stamp, text, piece),
        Some(Sense::Relief) => draft.claim(2, Field::Relief, text, piece),
        Some(Sense::Test) => draft.leave(
            piece,
            format!("{text} is a test: look for what is stamped on the tank"),
        ),
        None if ["rated", "rating"].contains(&scene.previous_word(index)) => rated(scene, draft, index),
        Some(Sense::Suction) => draft.leave(piece, format!("{text} is at an inlet, not in the tank")),
        Some(Sense::Regulated) => draft.leave(piece, format!("{text} is the regulator's")),
        Some(Sense::Tank) if before.is_some() => draft.claim(1, Field::Stamp, text, piece),
        Some(Sense::Max) => draft.claim(3, Field::CutOut, text, piece),
        _ if scene.is_at(index) || !is_switch(scene, &text) => {
            draft.leave(piece, format!("{text}: it isn't said of what"));
        }
        _ => draft.claim(1, Field::CutOut, text, piece),
    }
}

/// "80 gal, rated 200 psi" is the tank's rating; else it isn't said whose.
fn rated(scene: &Scene, draft: &mut Draft, index: usize) {
    let text = scene.figures[index].text();
    let of_tank = index.checked_sub(1).is_some_and(|before| {
        scene.figures[before].is(Measure::Volume)
            && scene.figures[index].first - scene.figures[before].last <= 4
    });
    match of_tank {
        true => draft.claim(2, Field::Stamp, text, scene.span(index)),
        false => draft.leave(scene.span(index), format!("{text}: it isn't said of what")),
    }
}

/// Whether a pressure that stands alone is high enough for a switch: tools are run at 90 psi and less.
fn is_switch(scene: &Scene, text: &str) -> bool {
    let pa = would_be(Kind::Pressure, text, scene.units);
    pa.is_some_and(|pa| pa > 95.0 * PA_PER_PSI)
}

/// "90-120 psi": where the switch starts and stops. What begins at nothing is a gauge's or a regulator's.
fn range(scene: &Scene, draft: &mut Draft, index: usize) {
    let (figure, piece) = (&scene.figures[index], scene.span(index));
    let value = |text: &str| would_be(Kind::Pressure, text, scene.units).unwrap_or(0.0);
    let (low, high) = (figure.part(0), figure.part(1));
    let switch = figure.numbers.len() == 2
        && value(&low) >= 60.0 * PA_PER_PSI
        && value(&low) < value(&high)
        && is_switch(scene, &high);
    if !switch || scene.has(index, Sense::Regulated) {
        return draft.leave(
            piece,
            format!("{} is a range: it isn't said of what", figure.text()),
        );
    }
    draft.claim(2, Field::CutIn, low, piece.clone());
    draft.claim(3, Field::CutOut, high, piece);
}

fn volume(scene: &Scene, draft: &mut Draft, index: usize) {
    let (figure, piece) = (&scene.figures[index], scene.span(index));
    let text = figure.text();
    if let Some(thing) = scene.owner(index) {
        return draft.leave(piece, format!("{text} is the {thing}'s, not the compressor's"));
    }
    if scene.has(index, Sense::Oil) {
        return draft.leave(piece, format!("{text} is oil or fuel"));
    }
    let weight = match scene.sense(index) {
        Some(Sense::Total) => 4,
        Some(Sense::Tank) => 3,
        _ => 2,
    };
    match several(scene, index) {
        Some((count, each, piece)) => {
            let (total, count, each) = (short(count * each), short(count), short(each));
            let shown = figure.unit.map_or("", |(_, shown)| shown);
            let note = format!("{count} x {each} {shown} together");
            draft.noted(
                weight.max(3),
                Field::Tank,
                format!("{total} {shown}"),
                piece,
                note,
            );
        }
        None if figure.numbers.len() > 1 => draft.leave(piece, format!("{text}: which of them?")),
        None => draft.claim(weight, Field::Tank, text, piece),
    }
}

/// Several tanks of one size: "2 x 2 gal", "two 2-gallon tanks", "2 tanks, 2 gal each".
fn several(scene: &Scene, index: usize) -> Option<(f64, f64, std::ops::Range<usize>)> {
    let figure = &scene.figures[index];
    let piece = scene.span(index);
    let is_count = |value: f64| [2.0, 3.0, 4.0].contains(&value);
    if let [one, other] = &figure.numbers[..] {
        let (count, each) = if is_count(one.1) {
            (one.1, other.1)
        } else {
            (other.1, one.1)
        };
        return (figure.joint == 'x' && is_count(count)).then_some((count, each, piece));
    }
    let each = scene.has(index, Sense::Each);
    let tanks = scene.next_word(index) == "tanks";
    let previous = index
        .checked_sub(1)
        .map(|previous| (previous, &scene.figures[previous]));
    let counted = previous.filter(|(_, counted)| {
        let near = scene.figures[index].first - counted.last <= 4;
        counted.unit.is_none() && counted.numbers.len() == 1 && is_count(counted.value()) && near
    });
    match counted {
        Some((previous, counted)) if each || tanks && scene.follows(index) => Some((
            counted.value(),
            figure.value(),
            scene.span(previous).start..piece.end,
        )),
        _ => None,
    }
}

fn sound(scene: &Scene, draft: &mut Draft, index: usize) {
    let (figure, piece) = (&scene.figures[index], scene.span(index));
    let text = figure.text();
    if let Some(thing) = scene.owner(index) {
        return draft.leave(piece, format!("{text} is the {thing}'s, not the compressor's"));
    }
    if figure.numbers.len() > 1 {
        return draft.leave(piece, format!("{text} is a range: which of them?"));
    }
    if scene.has(index, Sense::SoundPower) {
        let text = text.replace("dBA", "dB");
        let note = format!("{text} is sound power: some 8 to 11 dB more than a meter shows at 1 m");
        return draft.noted(2, Field::SoundPower, text, piece, note);
    }
    draft.claim(2, Field::Sound, text, piece);
}

fn share(scene: &Scene, draft: &mut Draft, index: usize) {
    let figure = &scene.figures[index];
    if !scene.has(index, Sense::Duty) {
        return;
    }
    // "duty cycle 60/40": on, and off.
    draft.claim(2, Field::Duty, figure.part(0), scene.span(index));
}

fn mass(scene: &Scene, draft: &mut Draft, index: usize) {
    let (figure, piece) = (&scene.figures[index], scene.span(index));
    let text = figure.text();
    if let Some(thing) = scene.owner(index) {
        return draft.leave(piece, format!("{text} is the {thing}'s, not the compressor's"));
    }
    if figure.numbers.len() > 1 {
        return draft.leave(piece, format!("{text} is a range: which of them?"));
    }
    // "Shipping weight" is both.
    if scene.has(index, Sense::Shipping) {
        let note = format!("{text} is with its packing");
        return draft.noted(1, Field::Weight, text, piece, note);
    }
    let weight = 2 + u8::from(scene.sense(index) == Some(Sense::Weight));
    draft.claim(weight, Field::Weight, text, piece);
}

fn money(scene: &Scene, draft: &mut Draft, index: usize) {
    let (figure, piece) = (&scene.figures[index], scene.span(index));
    let text = figure.text();
    let last = figure.last;
    let per = scene.pieces.get(last + 1).is_some_and(|piece| piece.is('/'));
    let sense = if per {
        Some(Sense::Former)
    } else {
        scene.sense(index)
    };
    // A kit has one price, whatever is named before it.
    if let Some(Some(thing)) = owner::behind(&scene.pieces, figure.last) {
        return draft.leave(piece, format!("{text} is the {thing}'s, not the compressor's"));
    }
    match sense {
        Some(Sense::Former | Sense::Shipping) => draft.leave(piece, format!("{text} is not its price now")),
        _ if figure.numbers.len() > 1 => draft.leave(piece, format!("{text} is a range: which of them?")),
        Some(Sense::Price) => draft.claim(3, Field::Price, text, piece),
        _ => draft.claim(2, Field::Price, text, piece),
    }
}

/// A length is the distance of the sound before it, or nothing that a field asks for.
fn length(scene: &Scene, draft: &mut Draft, index: usize) {
    let Some(previous) = index
        .checked_sub(1)
        .filter(|_| scene.figures[index].numbers.len() == 1)
    else {
        return;
    };
    let figure = &scene.figures[index];
    let near = figure.first - scene.figures[previous].last <= 5;
    let before = figure.first.checked_sub(1).map(|at| &scene.pieces[at]);
    let said = before.is_some_and(|piece| piece.is('@') || ["at", "from"].contains(&piece.word()))
        || scene.follows(index) && before.is_none_or(|piece| !piece.is(','));
    if near && said && scene.figures[previous].is(Measure::Sound) && !scene.has(previous, Sense::SoundPower) {
        draft.claim(2, Field::SoundAt, figure.text(), scene.span(index));
    }
}
