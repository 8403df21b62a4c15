//! The shop in one line: where, on which outlet, for which work. What stands there unasked is what the answer assumes.

use crate::words::{Words, listed, mid_sentence};
use judge::basis::{Basis, PlaceBasis};
use quantity::Kind;
use shop::TaskKind;

/// So many kinds of work are named.
const WORK_NAMED: usize = 4;

/// "Garage, 15 A outlet, drilling and riveting".
pub fn line(words: Words, basis: &Basis) -> String {
    let mut parts = Vec::new();
    let places: Vec<String> = basis.places.iter().map(|place| place.name.clone()).collect();
    if !places.is_empty() {
        parts.push(listed(&places));
    }
    parts.extend(basis.places.first().map(|place| outlet(words, place)));
    let work = work(basis);
    if !work.is_empty() {
        parts.push(listed(&work));
    }
    parts.join(", ")
}

fn outlet(words: Words, place: &PlaceBasis) -> String {
    if let Some(va) = place.generator_va {
        return format!("{} generator", words.of(Kind::ApparentPower, va));
    }
    // Volts are said where they are not the usual ones of a 120 V outlet.
    let amps = words.amps(place.breaker_a.value);
    let volts = match place.volts.value > 150.0 {
        true => format!("{} ", words.volts(place.volts.value)),
        false => String::new(),
    };
    let taken = match place.other_a > 0.0 {
        true if place.other_name.is_empty() => format!(" with {} in use", words.amps(place.other_a)),
        true => format!(" shared with the {}", mid_sentence(&place.other_name)),
        false => String::new(),
    };
    let metres = place
        .cord
        .map(|(_, metres)| metres)
        .or(place.wiring.cord_planned_m);
    let away = metres.map_or_else(String::new, |metres| {
        format!(" {} away", words.of(Kind::Length, metres))
    });
    format!("{volts}{amps} outlet{away}{taken}")
}

/// The kinds of work that are on, in the trade's words, each once.
fn work(basis: &Basis) -> Vec<String> {
    let mut named: Vec<String> = Vec::new();
    let on = basis.tasks.iter().filter(|task| task.on);
    for name in on.filter_map(|task| said(task.kind)) {
        if !named.iter().any(|known| known == name) {
            named.push(name.into());
        }
    }
    if named.len() > WORK_NAMED {
        named.truncate(WORK_NAMED - 1);
        named.push("more".into());
    }
    named
}

/// What a kind of work counts as in one line; small tools that every build has go unsaid.
fn said(kind: TaskKind) -> Option<&'static str> {
    Some(match kind {
        TaskKind::Drill => "drilling",
        TaskKind::RivetGun | TaskKind::BackRivet => "riveting",
        TaskKind::RivetPuller => "pulled rivets",
        TaskKind::DieGrinder => "die grinder",
        TaskKind::Sander => "sanding",
        TaskKind::PrimerGun => "priming",
        TaskKind::PaintGun => "painting",
        TaskKind::Other => "another tool",
        TaskKind::Deburr | TaskKind::Squeezer | TaskKind::BlowOff | TaskKind::ClecoTool => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use shop::{Shop, Units};

    fn said_of(shop: &Shop) -> String {
        let basis = Basis::of(shop);
        line(Words::new(&basis), &basis)
    }

    #[test]
    fn a_first_visit_says_what_it_assumes() {
        assert_eq!(
            said_of(&Shop::fresh()),
            "Garage, 15 A outlet, drilling and riveting"
        );
        let metric = said_of(&Shop::fresh_in(Units::Metric));
        assert!(metric.contains("230 V"), "{metric}");
    }

    #[test]
    fn what_runs_beside_it_is_said() {
        let mut shop = Shop::fresh();
        shop.places[0].other_load = "6 A".into();
        assert_eq!(
            said_of(&shop),
            "Garage, 15 A outlet with 6 A in use, drilling and riveting"
        );
        shop.places[0].cord_planned = "50 ft".into();
        assert_eq!(
            said_of(&shop),
            "Garage, 15 A outlet 50 ft away with 6 A in use, drilling and riveting"
        );
        shop.places[0].cord_planned.clear();
        shop.places[0].other_name = "Freezer".into();
        assert_eq!(
            said_of(&shop),
            "Garage, 15 A outlet shared with the freezer, drilling and riveting"
        );
    }

    #[test]
    fn what_is_typed_is_said() {
        let mut shop = Shop::fresh();
        shop.places[0].generator = "3.5 kVA".into();
        shop.tasks
            .iter_mut()
            .for_each(|task| task.on = task.kind == TaskKind::PaintGun);
        assert_eq!(said_of(&shop), "Garage, 3.5 kVA generator, painting");
        shop.tasks.clear();
        shop.places.clear();
        assert_eq!(said_of(&shop), "");
    }
}
