//! How loud it is, for whom, and what makes it quieter, in words.

mod figures;
mod stated;

use super::day::{self, Running};
use super::label::beyond;
use super::label::finding;
use super::words::Words;
use crate::report::{Finding, Grade, Remedy, Section};
use judge::assess::{Facts, PlaceFacts};
use judge::basis::{Basis, CandidateBasis, PlaceBasis};
use physics::sound::{
    NIOSH, OSHA, Room, Rule, Stated, Voice, dose, neighbour_db, open_air_db, room_db, share_gone_db, sum_db,
    voice_needed,
};
use quantity::range::OutOfRange;
use quantity::{Kind, number};
use shop::MachineKind;
use shop::change::Change;
use stated::{of_power, stated, unstated};

/// Share of a small piston machine's noise that leaves by its inlet. Common practice, no source.
const INLET_SHARE: f64 = 0.7;
/// What a lined box with baffled openings takes off, dB. Common practice, no source.
const BOX_DB: f64 = 10.0;
/// A bare garage for two cars, m: 20 ft by 20 ft by 8.5 ft.
const GARAGE_M: [f64; 3] = [6.1, 6.1, 2.6];
/// Level at a neighbour beyond which complaints come, dBA. Day limits of local ordinances lie near it; common
/// practice, no source.
const NEIGHBOUR_DBA: f64 = 55.0;
/// How far apart two people at work talk, m.
const TALK_M: f64 = 1.0;
/// Nearest distance that the sums know, m.
const NEAREST_M: f64 = *physics::sound::DISTANCE_M.start();

/// A level as one says it: to a whole dB.
fn level(words: Words, db: f64) -> String {
    words.of(Kind::SoundLevel, db.round())
}

fn decibels(words: Words, db: f64) -> String {
    words.of(Kind::LevelLoss, db.round())
}

fn garage() -> Room {
    let [length, width, height] = GARAGE_M;
    Room::bare(length, width, height)
}

/// Levels at one place, dBA.
#[derive(Clone, Copy, Debug)]
struct Levels {
    /// At the ears, as in the open: the least.
    open: f64,
    /// At the ears, in a bare two-car garage: the most.
    room: f64,
    /// The same with the inlet ducted outdoors.
    room_ducted: f64,
    /// At the neighbour's.
    neighbour: Option<f64>,
}

fn neighbour(place: &PlaceBasis, stated: Stated, metres: f64) -> Result<f64, OutOfRange> {
    let wall = neighbour_db(stated, metres, place.wall_loss_db.value)?;
    if !place.inlet_ducted {
        return Ok(wall);
    }
    // The ducted share goes straight outdoors, past the wall.
    let inlet = open_air_db(stated, metres)? - share_gone_db(1.0 - INLET_SHARE)?;
    let body = wall - share_gone_db(INLET_SHARE)?;
    Ok(sum_db(&[inlet, body])?.unwrap_or(wall))
}

fn levels(place: &PlaceBasis, (level_db, at): (f64, f64)) -> Result<Levels, OutOfRange> {
    let level_db = level_db - if place.boxed { BOX_DB } else { 0.0 };
    let stated = Stated { level_db, at_m: at };
    let inlet = share_gone_db(INLET_SHARE)?;
    let gone = if place.inlet_ducted { inlet } else { 0.0 };
    let ears = place.listener_m.value.max(NEAREST_M);
    let room = room_db(stated, ears, garage())?;
    let far = |metres: f64| neighbour(place, stated, metres.max(NEAREST_M));
    Ok(Levels {
        open: open_air_db(stated, ears)? - gone,
        room: room - gone,
        room_ducted: room - inlet,
        neighbour: place.neighbour_m.map(far).transpose()?,
    })
}

/// At the ears in a bare garage, at the place where it is loudest.
pub fn loudest_db(basis: &Basis, candidate: &CandidateBasis) -> Option<f64> {
    // What is beyond the sums is told among the findings.
    let stated = stated(candidate).and_then(|stated| stated.into_iter().next())?;
    let rooms = basis.places.iter().flat_map(|place| levels(place, stated));
    rooms.map(|levels| levels.room).reduce(f64::max)
}

/// Whether one can talk there.
fn talk(room_db: f64) -> &'static str {
    match voice_needed(room_db, TALK_M) {
        Ok(Voice::Normal) => "two people at arm's length talk normally",
        Ok(Voice::Raised) => "noticeable: two people at arm's length raise their voices",
        Ok(Voice::Loud | Voice::VeryLoud) => "two people at arm's length must speak up loudly",
        Ok(Voice::Shout) => "two people at arm's length must shout",
        Ok(Voice::Beyond) | Err(_) => "not even shouting is understood",
    }
}

struct Ears<'a> {
    words: Words,
    basis: &'a Basis,
    place: &'a PlaceBasis,
    /// Level that the label states or that is typical, dBA, and where, m.
    stated: (f64, f64),
    levels: Levels,
    running: Option<Running>,
}

impl Ears<'_> {
    fn heard(&self) -> Finding {
        let (words, place, levels) = (self.words, self.place, self.levels);
        let limit = self.basis.limits.loudest_dba;
        let against = limit.map_or_else(String::new, |limit| {
            let limit_text = words.of(Kind::SoundLevel, limit);
            match (levels.open > limit, levels.room > limit) {
                (true, _) => format!(
                    " That is {} over your limit of {limit_text} even in the open: stand farther off, duct the inlet outdoors, box it, or look for a quieter one.",
                    decibels(words, (levels.open - limit).max(1.0))
                ),
                (false, true) => format!(
                    " In such a room that is {} over your limit of {limit_text}; in the open it is within.",
                    decibels(words, (levels.room - limit).max(1.0))
                ),
                _ => format!(" That is within your limit of {limit_text}."),
            }
        });
        let grade = match limit {
            Some(limit) if levels.open > limit => Grade::Poor,
            Some(limit) if levels.room > limit => Grade::Fair,
            _ => Grade::Note,
        };
        finding(
            "ears",
            grade,
            format!(
                "{}: at your ears, {} off, {} as in the open and {} in a bare two-car garage: {} in that room.{against}",
                place.name,
                words.of(Kind::Length, place.listener_m.value),
                level(words, levels.open),
                level(words, levels.room),
                talk(levels.room)
            ),
            &format!(
                "distance by ISO 9613-2, the room by its absorption (bare, {}){}; a lined or larger room lies between the two; voices by ISO 9921",
                number(garage().absorption, 1),
                self.counted()
            ),
        )
    }

    /// What has been taken off already.
    fn counted(&self) -> &'static str {
        match (self.place.inlet_ducted, self.place.boxed) {
            (true, true) => "; ducted inlet and box are counted",
            (true, false) => "; the ducted inlet is counted",
            (false, true) => "; the box is counted",
            (false, false) => "",
        }
    }

    fn dose_of(&self, rule: Rule) -> Result<f64, OutOfRange> {
        let share = self.running.map_or(1.0, |running| running.mean);
        // By the level as printed, so that the figures go together.
        dose(self.levels.room.round(), day::hours(self.basis), share, rule)
    }

    fn dose(&self) -> Option<Finding> {
        let (words, name) = (self.words, &self.place.name);
        let (niosh, osha) = match self
            .dose_of(NIOSH)
            .and_then(|niosh| Ok((niosh, self.dose_of(OSHA)?)))
        {
            Ok(doses) => doses,
            Err(error) => return Some(beyond("dose", &format!("{name}: the day's noise dose"), &error)),
        };
        let day = words.of(Kind::Hours, day::hours(self.basis) * quantity::S_PER_H);
        let (grade, text) = if niosh == 0.0 {
            let text = format!(
                "{name}: the machine alone does not count towards a day's noise dose: below {}.",
                words.of(Kind::SoundLevel, NIOSH.threshold_db)
            );
            (Grade::Note, text)
        } else {
            let (grade, advice) = match (niosh, osha) {
                (_, osha) if osha > 1.0 => (Grade::Bad, "wear hearing protection all day, and move it out"),
                (niosh, _) if niosh > 1.0 => (Grade::Poor, "wear hearing protection while it runs"),
                (niosh, _) if niosh > 0.5 => (
                    Grade::Fair,
                    "the tools come on top, so wear hearing protection while it runs",
                ),
                _ => (Grade::Note, "the tools come on top"),
            };
            let text = format!(
                "{name}: in the room, a day of {day} gives {} of a day's noise dose by NIOSH and {} by OSHA: {advice}.",
                words.share(niosh),
                words.share(osha)
            );
            (grade, text)
        };
        let basis = match self.running {
            Some(running) => format!(
                "NIOSH 98-126, 29 CFR 1910.95; {}",
                day::rests_on(words, self.basis, running)
            ),
            None => "NIOSH 98-126, 29 CFR 1910.95; as if it ran all day, for want of flow or tasks".into(),
        };
        Some(finding("dose", grade, text, &basis))
    }

    fn neighbour(&self) -> Option<Finding> {
        let (words, place) = (self.words, self.place);
        let (heard, metres) = (self.levels.neighbour?, place.neighbour_m?);
        let (grade, advice) = if heard > NEIGHBOUR_DBA {
            (
                Grade::Fair,
                "keep to daytime, never at night, shut the door on that side, ask him",
            )
        } else {
            (Grade::Note, "few complain by day; leave it off at night")
        };
        let duct = if place.inlet_ducted {
            " The ducted inlet passes the wall: point its mouth away from him, with a silencer on it, which is not counted."
        } else {
            ""
        };
        Some(finding(
            "neighbour",
            grade,
            format!(
                "{}: the neighbour, {} off behind walls that take {}, hears {}: {advice}.{duct}",
                place.name,
                words.of(Kind::Length, metres),
                decibels(words, place.wall_loss_db.value),
                level(words, heard)
            ),
            &format!(
                "distance by ISO 9613-2; many local ordinances ask for about {} by day and less at night, and the local one decides",
                words.of(Kind::SoundLevel, NEIGHBOUR_DBA)
            ),
        ))
    }
}

/// A remedy for each place that has not got it yet.
fn switches(basis: &Basis, field: &str, label: &str, has: impl Fn(&PlaceBasis) -> bool) -> Vec<Remedy> {
    let lacking = basis.places.iter().enumerate().filter(|(_, place)| !has(place));
    lacking
        .map(|(index, place)| Remedy {
            label: format!("{label} at “{}”", place.name),
            changes: vec![Change {
                field: format!("places.{index}.{field}"),
                text: "true".into(),
            }],
        })
        .collect()
}

fn inlet(words: Words, basis: &Basis, candidate: &CandidateBasis) -> Option<Finding> {
    if candidate.kind == MachineKind::Rotary || basis.places.is_empty() {
        return None;
    }
    let off = match share_gone_db(INLET_SHARE) {
        Ok(off) => decibels(words, off),
        Err(error) => return Some(beyond("inlet", "What a ducted inlet takes off", &error)),
    };
    let share = words.share(INLET_SHARE);
    let remedies = switches(basis, "inlet_ducted", "the inlet ducted outdoors", |place| {
        place.inlet_ducted
    });
    let text = if remedies.is_empty() {
        format!(
            "The inlet is ducted outdoors everywhere: {share} of the noise goes with it, about {off} off inside."
        )
    } else {
        format!(
            "Duct the inlet outdoors, filter at its mouth, duct no narrower than the inlet and away from exhaust and paint: about {share} of a small machine's noise leaves there, so about {off} come off inside."
        )
    };
    let basis = "share of the noise: common practice, no source; the level by -10 log(1 - share)";
    Some(Finding {
        remedies,
        ..finding("inlet", Grade::Note, text, basis)
    })
}

/// What a box would do where there is none yet; where there is one, see [`super::boxed`].
fn in_a_box(words: Words, basis: &Basis, candidate: &CandidateBasis) -> Vec<Finding> {
    let there = basis.places.iter();
    let mut findings: Vec<Finding> = there
        .filter_map(|place| super::boxed::at_place(words, candidate, place))
        .collect();
    let remedies = switches(basis, "boxed", "a sound box", |place| place.boxed);
    if !remedies.is_empty() {
        let off = decibels(words, BOX_DB);
        let text = format!(
            "A lined box with two baffled openings and a fan takes about {off} off. Without the fan motor and pump overheat."
        );
        findings.push(Finding {
            remedies,
            ..finding(
                "box-none",
                Grade::Note,
                text,
                "what a box takes off: rule of thumb",
            )
        });
    }
    findings
}

fn tools() -> Finding {
    finding(
        "tools",
        Grade::Note,
        "Your rivet gun is louder than the compressor: ears covered for everyone in the room while you rivet or grind, the bucker too.".into(),
        "rule of thumb",
    )
}

fn at_place<'a>(
    words: Words,
    basis: &'a Basis,
    candidate: &CandidateBasis,
    place: &'a PlaceBasis,
    found: &PlaceFacts,
) -> Option<Result<Ears<'a>, OutOfRange>> {
    let stated = match stated(candidate)? {
        Ok(stated) => stated,
        Err(error) => return Some(Err(error)),
    };
    Some(levels(place, stated).map(|levels| Ears {
        words,
        basis,
        place,
        stated,
        levels,
        running: day::running(found),
    }))
}

fn sentence(words: Words, all: &[Ears]) -> String {
    let loudest = all
        .iter()
        .max_by(|one, other| one.levels.room.total_cmp(&other.levels.room));
    match loudest {
        Some(ears) => format!(
            "At your ears it is {} to {} (at “{}”): {}.",
            level(words, ears.levels.open),
            level(words, ears.levels.room),
            ears.place.name,
            talk(ears.levels.room)
        ),
        None => "No dBA on the label: likely as such pumps are.".into(),
    }
}

/// The section about sound.
pub fn section(words: Words, basis: &Basis, candidate: &CandidateBasis, facts: &Facts) -> Section {
    let places = basis.places.iter().zip(&facts.places);
    let places = places.filter(|(_, found)| !found.stays_home());
    let mut findings: Vec<Finding> = unstated(words, candidate).into_iter().collect();
    findings.extend(of_power(words, candidate));
    let mut all: Vec<Ears> = Vec::new();
    for (place, found) in places {
        match at_place(words, basis, candidate, place, found) {
            Some(Ok(ears)) => all.push(ears),
            Some(Err(error)) => findings.push(beyond("level", &format!("{}: the level", place.name), &error)),
            None => {}
        }
    }
    for ears in &all {
        findings.push(ears.heard());
        findings.extend(ears.dose());
        findings.extend(ears.neighbour());
    }
    findings.extend(inlet(words, basis, candidate));
    findings.extend(in_a_box(words, basis, candidate));
    findings.push(tools());
    Section {
        id: "sound".into(),
        title: "How loud is it?".into(),
        grade: findings.iter().map(|found| found.grade).fold(Grade::Note, Grade::max),
        sentence: sentence(words, &all),
        figures: all.iter().flat_map(Ears::figures).collect(),
        findings,
        cautions: vec![
            "Where one must shout to be heard at arm's length, wear hearing protection.".into(),
            "Do not shut a machine into a box or closet without cooling air, and keep what burns away from it.".into(),
        ],
        ..Section::default()
    }
}
