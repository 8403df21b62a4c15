//! Water in the tank and at the tool, in words.

mod drain;

pub use drain::humid;
mod figures;

use super::day::{self, Running};
use super::label;
use super::label::finding;
use super::words::Words;
use crate::report::{Finding, Grade, Section};
use judge::assess::machine::store_m3;
use judge::assess::{Facts, PlaceFacts};
use judge::basis::{Basis, CandidateBasis, PlaceBasis};
use physics::air::{Air, ZERO_CELSIUS};
use physics::water::{
    AtTool, Dryer, Fill, PAINT_MARGIN_K, WaterError, at_tool, condensate_kg_h, condensate_kg_m3, fill,
    hours_to_collect, paint_air, pressure_dew_point_kelvin,
};
use quantity::{Absolute, FreeAir, Gauge, Kind, number};
use shop::{TaskKind, Units};
use uom::si::f64::MassRate;
use uom::si::mass_rate::kilogram_per_second;

/// A humid summer day: 30 °C, 80 %.
const SUMMER_KELVIN: f64 = ZERO_CELSIUS + 30.0;
const SUMMER_HUMIDITY: f64 = 0.8;
/// How much warmer than the room a tank gets by hard running, K. Common practice, no source.
const HOT_TANK_K: f64 = 15.0;
/// Water that a tank should not hold more of: 1 kg, or what fills a hundredth of it. Common practice, no source.
const MOST_WATER_KG: f64 = 1.0;
const MOST_WATER_SHARE: f64 = 0.01;
/// Mass of water in a cubic metre, kg.
const WATER_KG_M3: f64 = 1_000.0;
/// US fluid ounce, mL. Exact: a gallon of 231 in³ has 128.
const ML_PER_FL_OZ: f64 = 29.573_529_562_5;

/// What dries air for a color coat; a refrigerated dryer is for machines that run all day in a shop.
const TRAIN: &str = "Put a trap, a coalescing filter and a desiccant dryer at the bench end.";
const BALANCE: &str = "balance of water, saturated in a tank at the room's temperature; ASHRAE Fundamentals";

/// Two figures: no weather is known better.
fn rough(value: f64) -> String {
    let step = 10_f64.powf((value.max(0.1).log10()).floor() - 1.0);
    number((value / step).round() * step, usize::from(value < 10.0))
}

/// An amount of water: mL or L, and fluid ounces where gallons are spoken.
fn amount(words: Words, kg: f64) -> String {
    let ml = kg * 1e6 / WATER_KG_M3;
    let metric = if ml < 995.0 {
        format!("{} mL", rough(ml))
    } else {
        format!("{} L", rough(ml / 1_000.0))
    };
    match words.units {
        Units::Metric => metric,
        Units::Us => format!("{metric} ({} fl oz)", rough(ml / ML_PER_FL_OZ)),
    }
}

/// A temperature to a whole degree.
fn temperature(words: Words, kelvin: f64) -> String {
    let per_degree = if words.units == Units::Us { 1.8 } else { 1.0 };
    let degrees = ((kelvin - ZERO_CELSIUS) * per_degree).round();
    words.of(Kind::Temperature, degrees / per_degree + ZERO_CELSIUS)
}

/// Hours of work, to the half hour below ten.
fn hours(words: Words, hours: f64) -> String {
    let step = if hours < 10.0 { 0.5 } else { 1.0 };
    words.of(
        Kind::Hours,
        ((hours / step).round() * step).max(0.5) * quantity::S_PER_H,
    )
}

/// What drops in a tank.
#[derive(Clone, Copy, Debug)]
struct Dropped {
    /// In one fill from empty.
    fill: Fill,
    /// In an hour of work, kg, where the machine's running is known.
    hour_kg: Option<f64>,
}

/// A machine's tank at a place.
struct Tank<'a> {
    words: Words,
    basis: &'a Basis,
    place: &'a PlaceBasis,
    found: &'a PlaceFacts,
    candidate: &'a CandidateBasis,
    volume_m3: f64,
    running: Option<Running>,
}

impl Tank<'_> {
    fn full(&self, air: &Air) -> Absolute {
        self.candidate.cut_out.at(air.pressure())
    }

    /// Free air delivered while running, halfway between cut-in and cut-out.
    fn flow(&self) -> Option<FreeAir> {
        let machine = self.found.machine.as_ref()?;
        let mass = MassRate::new::<kilogram_per_second>(machine.delivery.at(machine.mid_band_pa()).max(0.0));
        Some(FreeAir::of_mass(mass, self.place.air.density()))
    }

    fn dropped(&self, air: &Air) -> Result<Dropped, WaterError> {
        let (full, kelvin) = (self.full(air), air.kelvin());
        let per_m3 = condensate_kg_m3(air, full, kelvin)?.max(0.0);
        let hour_kg = match self.flow().zip(self.running) {
            Some((flow, running)) => Some(condensate_kg_h(per_m3, flow, running.mean)?),
            None => None,
        };
        Ok(Dropped {
            fill: fill(air, self.volume_m3, air.pressure(), full, kelvin)?,
            hour_kg,
        })
    }

    /// The place's air on a humid summer day, and what drops in it.
    #[expect(
        clippy::disallowed_methods,
        reason = "what is beyond the sums in summer is so today, and today's is told"
    )]
    fn dropped_in_summer(&self) -> Option<(Air, Dropped)> {
        let air = Air::new(self.place.air.pressure(), SUMMER_KELVIN, SUMMER_HUMIDITY);
        let dropped = |air: Air| Ok((air, self.dropped(&air)?));
        air.map_err(WaterError::from).and_then(dropped).ok()
    }

    /// Most water that the tank should hold.
    fn most_kg(&self) -> f64 {
        MOST_WATER_KG.min(MOST_WATER_SHARE * self.volume_m3 * WATER_KG_M3)
    }

    /// Hours of work until the tank holds that; none of them where more drops than the sums take.
    fn hours_to_most(&self, hour_kg: f64) -> Option<f64> {
        hours_to_collect(self.most_kg(), hour_kg).unwrap_or(Some(0.0))
    }

    /// Worse than a note where the tank holds too much before the day is over.
    fn grade(&self, hour_kg: f64) -> Grade {
        let early = |needed| needed < day::hours(self.basis);
        if self.hours_to_most(hour_kg).is_some_and(early) {
            Grade::Fair
        } else {
            Grade::Note
        }
    }

    fn rate(&self, hour_kg: f64) -> String {
        let day = day::hours(self.basis);
        format!(
            "{} an hour, {} in a day of {}",
            amount(self.words, hour_kg),
            amount(self.words, hour_kg * day),
            hours(self.words, day)
        )
    }

    fn condensate(&self, dropped: Dropped) -> Finding {
        let (words, name) = (self.words, &self.place.name);
        let fill = amount(words, dropped.fill.dropped_kg());
        let Some((hour_kg, running)) = dropped.hour_kg.zip(self.running) else {
            return finding(
                "condensate",
                Grade::Unsure,
                format!(
                    "{name}: pumping the empty tank up drops {fill}. How much an hour of work drops hangs on flow and tasks, of which one is still missing."
                ),
                BALANCE,
            );
        };
        let Some(needed) = self.hours_to_most(hour_kg) else {
            return finding(
                "condensate",
                Grade::Note,
                format!("{name}: the air is so dry that nothing drops in the tank."),
                BALANCE,
            );
        };
        let most = amount(words, self.most_kg());
        let share = if self.most_kg() < MOST_WATER_KG {
            ", a hundredth of its volume,"
        } else {
            ""
        };
        finding(
            "condensate",
            self.grade(hour_kg),
            format!(
                "{name}: about {} drop out in the tank, {fill} in each fill from empty. Undrained it holds {most}{share} after {} of work.",
                self.rate(hour_kg),
                hours(words, needed)
            ),
            &format!("{}; {BALANCE}", day::rests_on(words, self.basis, running)),
        )
    }

    /// The same on a humid summer day, where that is worse.
    fn in_summer(&self, today: Dropped) -> Option<(f64, Finding)> {
        let (_, dropped) = self.dropped_in_summer()?;
        let hour_kg = dropped.hour_kg?;
        if hour_kg <= today.hour_kg? {
            return None;
        }
        let needed = self.hours_to_most(hour_kg)?;
        let words = self.words;
        let text = format!(
            "{} on a humid summer day ({}, {} humid): {}. The tank holds {} after {} of work; undrained, sooner or later it spits water through your tools.",
            self.place.name,
            words.of(Kind::Temperature, SUMMER_KELVIN),
            words.share(SUMMER_HUMIDITY),
            self.rate(hour_kg),
            amount(words, self.most_kg()),
            hours(words, needed)
        );
        let basis = "the same tasks in that air; common practice";
        Some((needed, finding("summer", self.grade(hour_kg), text, basis)))
    }

    /// Highest setting at a tool: its air is the wettest.
    fn line(&self) -> Gauge {
        let on = self.basis.tasks.iter().filter(|task| task.on);
        let highest = on.map(|task| task.setting.as_pa()).reduce(f64::max);
        let most = self.candidate.cut_out.as_pa();
        Gauge::pa(highest.unwrap_or(Gauge::psi(90.0).as_pa()).min(most))
    }

    fn at_tool(&self, tank_kelvin: f64) -> Result<AtTool, WaterError> {
        let air = &self.place.air;
        let line = self.line().at(air.pressure());
        at_tool(air, self.full(air), tank_kelvin, line, air.kelvin())
    }

    fn tool(&self) -> Option<Finding> {
        let (words, kelvin) = (self.words, self.place.air.kelvin());
        let warm = self.at_tool(kelvin + HOT_TANK_K);
        let (rested, hot) = match self.at_tool(kelvin).and_then(|rested| Ok((rested, warm?))) {
            Ok(found) => found,
            Err(error) => {
                let what = format!("{}: the air at the tool", self.place.name);
                return Some(label::beyond("tool", &what, &error));
            }
        };
        let then = if hot.liquid_kg_m3 > 1e-4 {
            let per_m3 = match words.units {
                Units::Metric => format!("{} g of each m³ of free air", rough(hot.liquid_kg_m3 * 1e3)),
                Units::Us => {
                    // 1 ft³ is 0.0283168 m³: a hundred of them.
                    let ml = hot.liquid_kg_m3 * 2.831_68e3;
                    format!("{} mL of each 100 ft³ of free air", rough(ml))
                }
            };
            format!(
                "{per_m3} then condense in the hose. Put the trap where the hose meets the bench; in a pipe, slope it and give each outlet a drop leg"
            )
        } else {
            "even then none condenses in the hose. A trap where the hose meets the bench catches what does on a worse day".into()
        };
        Some(finding(
            "tool",
            Grade::Note,
            format!(
                "{}: from a tank that has rested, air at {} reaches the tool at {} humidity, without drops. Hard running warms the tank: {then}.",
                self.place.name,
                words.pressure(self.line()),
                words.share(rested.humidity)
            ),
            &format!(
                "{BALANCE}; warm is taken as {} above the room, common practice, no source",
                words.warmer(HOT_TANK_K)
            ),
        ))
    }

    /// What painting asks for here.
    fn paint(&self) -> Option<Finding> {
        let (words, air) = (self.words, &self.place.air);
        let line = self.line().at(air.pressure());
        let dew = pressure_dew_point_kelvin(air, self.full(air), air.kelvin(), line);
        let basis = format!(
            "dew point {} below the coldest of the line: rule of thumb; dryers by class of ISO 8573-1",
            words.warmer(PAINT_MARGIN_K)
        );
        let Ok(dew) = dew else {
            let text = format!(
                "{}: the air is too dry to fog a paint gun today. {TRAIN}",
                self.place.name
            );
            return Some(finding("paint", Grade::Note, text, &basis));
        };
        let paint = match paint_air(dew, air.kelvin()) {
            Ok(paint) => paint,
            Err(error) => {
                let what = format!("{}: the air for painting", self.place.name);
                return Some(label::beyond("paint", &what, &error));
            }
        };
        let (grade, then) = match paint.dryer {
            Dryer::Beyond => (
                Grade::Poor,
                "no usual dryer does it: warm the line and the place first.",
            ),
            _ => (Grade::Note, TRAIN),
        };
        Some(finding(
            "paint",
            grade,
            format!(
                "{}: painting wants air that stays dry down to {} at {}; from a cool tank it is dry down to {}, from a hot one it is wetter. {then}",
                self.place.name,
                temperature(words, paint.needed_kelvin),
                words.pressure(self.line()),
                temperature(words, dew)
            ),
            &basis,
        ))
    }
}

fn no_paint() -> Finding {
    finding(
        "paint",
        Grade::Note,
        "Drills and rivet guns bear this air with a trap and a drop of oil at the tool, never an oiler on a line that will paint. A full-size paint gun would need a trap, a coalescing filter and a desiccant dryer.".into(),
        "rule of thumb",
    )
}

fn beyond(words: Words, tank: &Tank) -> Finding {
    finding(
        "condensate",
        Grade::Unsure,
        format!(
            "{}: the water in air at {} is beyond these sums; drain at each day's end all the same.",
            tank.place.name,
            words.pressure(tank.candidate.cut_out)
        ),
        "properties of humid air, up to 20 bar",
    )
}

fn sentence(words: Words, basis: &Basis, wettest: Option<(f64, &str)>) -> String {
    match wettest {
        Some((hour_kg, place)) => format!(
            "A working day drops up to {} of water in the tank (at “{place}”): drain it daily.",
            amount(words, hour_kg * day::hours(basis))
        ),
        None => "Every tank collects water: drain it daily.".into(),
    }
}

/// The section about water.
pub fn section(words: Words, basis: &Basis, candidate: &CandidateBasis, facts: &Facts) -> Section {
    let painting = basis
        .tasks
        .iter()
        .any(|task| task.on && task.kind == TaskKind::PaintGun);
    let (mut findings, mut figures) = (Vec::new(), Vec::new());
    let mut wettest: Option<(f64, &str)> = None;
    let mut soonest: Option<f64> = None;
    let places = basis.places.iter().zip(&facts.places).enumerate();
    for (index, (place, found)) in places.filter(|(_, (_, found))| !found.stays_home()) {
        let tank = Tank {
            words,
            basis,
            place,
            found,
            candidate,
            volume_m3: store_m3(candidate, basis.auxiliary.as_ref(), index),
            running: day::running(found),
        };
        let Ok(dropped) = tank.dropped(&place.air) else {
            findings.push(beyond(words, &tank));
            continue;
        };
        findings.push(tank.condensate(dropped));
        let today = dropped.hour_kg.and_then(|hour_kg| tank.hours_to_most(hour_kg));
        let summer = tank.in_summer(dropped);
        let sooner = summer.as_ref().map(|(needed, _)| *needed).or(today);
        soonest = [soonest, sooner].into_iter().flatten().reduce(f64::min);
        findings.extend(summer.map(|(_, finding)| finding));
        findings.extend(tank.tool());
        if painting {
            findings.extend(tank.paint());
        }
        figures.extend(tank.figures(dropped));
        if let Some(hour_kg) = dropped.hour_kg
            && wettest.is_none_or(|(most, _)| hour_kg > most)
        {
            wettest = Some((hour_kg, &place.name));
        }
    }
    findings.push(drain::drain(words, basis, soonest));
    if !painting {
        findings.push(no_paint());
    }
    Section {
        id: "water".into(),
        title: "Will it spit water?".into(),
        grade: findings.iter().map(|found| found.grade).fold(Grade::Note, Grade::max),
        sentence: sentence(words, basis, wettest),
        findings,
        figures,
        cautions: vec![
            "Water rusts a tank from the inside, where nobody sees it: drain it, and have it inspected as the local code asks. Scrap one that weeps, is dented or has lost its plate; never weld or patch it.".into(),
            "Open the drain slowly, with the pressure let down, eyes protected and nobody in front of it.".into(),
        ],
        ..Section::default()
    }
}
