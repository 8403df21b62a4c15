//! What is not known for sure, within which range, and what the range rests on.

use crate::assess::claim;
use crate::assess::machine::Supply;
use crate::basis::{Basis, CandidateBasis, PlaceBasis, TaskBasis, TaskOrigins};
use physics::air::standard_pressure;
use physics::compressor::{Claim, Pump};
use quantity::{FreeAir, Gauge, M3_PER_GALLON, Origin, PA_PER_PSI};
use uom::si::mass_rate::kilogram_per_second;

/// What a label's one flow may be worth: labels of small machines promise up to a fifth too much. Common practice,
/// no source.
pub const ONE_FLOW: [f64; 2] = [0.80, 1.05];
/// Two flows that agree with a piston's curve come from a test, if a kind one. Common practice, no source.
pub const TWO_FLOWS: [f64; 2] = [0.88, 1.04];
/// Two flows of which one must be wrong. Common practice, no source.
pub const CONTRADICTION: [f64; 2] = [0.70, 1.05];
/// A flow that is unlikely for its amps, or cannot be: such a machine is asked about, whatever its odds. Common practice, no source.
pub const UNLIKELY: [f64; 2] = [0.60, 1.0];
/// A volume on a code plate is rounded. Common practice, no source.
pub const TANK: [f64; 2] = [0.95, 1.03];
/// Tanks of portable machines, where none is given, gallons. Common practice, no source.
pub const TANK_GAL: [f64; 2] = [2.0, 20.0];
/// Either way of a switch point that was given: the error of the small gauge on the machine. From memory: 2 % of
/// 160 psi.
pub const SWITCH_GIVEN_PA: f64 = 3.0 * PA_PER_PSI;
/// Either way of a usual switch point. Common practice, no source.
pub const SWITCH_TAKEN_PA: f64 = 10.0 * PA_PER_PSI;
/// The most that couplers and hoses leak unnoticed, free air with the tank full. Common practice, no source.
pub const LEAK_CFM: f64 = 0.1;
/// Either way of the usual pressure of the air at a place: most days of the year. From memory.
pub const WEATHER_PA: f64 = 1_500.0;
/// Where no altitude is given sea level is taken; half of the draws lie between there and this field, m. Common practice,
/// no source: most towns lie lower.
pub const FIELD_M: f64 = 600.0;
/// Either way of the temperature, K, of a place that has one, and of one that has none. Common practice, no source.
pub const HEAT_K: [f64; 2] = [8.0, 12.0];
/// Factors on a time that was typed. Common practice, no source.
pub const TIME_GIVEN: [f64; 2] = [0.85, 1.2];
/// Factors on a typical time: two builders differ by a fifth (one standard deviation). Common practice, no source.
pub const TIME_TAKEN: [f64; 2] = [0.7, 1.4];
/// Either way of the lowest useful pressure that was typed, and of a typical one. Common practice, no source.
pub const LOWEST_PA: [f64; 2] = [3.0 * PA_PER_PSI, 5.0 * PA_PER_PSI];
/// Either way of what a painter lets the gun's pressure sink while it sprays: some say 2 psi. Common practice, no source.
pub const FADE_PA: f64 = PA_PER_PSI;

/// An unknown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Which {
    /// What the machine delivers: a factor on its likely curve.
    Flow,
    /// The tank's volume, m³.
    Tank,
    /// Where the switch starts the motor, gauge, Pa.
    CutIn,
    /// Where it stops it, gauge, Pa.
    CutOut,
    /// What leaks, kg/s for each pascal of tank pressure.
    Leak,
    /// Pressure of the air outside, Pa: altitude and weather.
    Weather,
    /// Its temperature, K.
    Heat,
    /// A factor on the seconds that the trigger is held.
    Trigger,
    /// A factor on the length of a spell of work.
    Spell,
    /// A factor on the pause after it.
    Pause,
    /// How much more pressure the tools need to be of use than is taken, Pa.
    Lowest,
    /// A factor on what a tool takes: its size and its wear. Index into [`Basis::tasks`].
    Tool(usize),
}

impl Which {
    /// Its dimension of the draws: what matters most comes first, as the first dimensions are the most even. Tools share
    /// one, each shifted by its task's index.
    pub(super) fn dimension(self) -> (usize, u64) {
        match self {
            Self::Tool(task) => (0, task as u64),
            Self::Flow => (1, 0),
            Self::Spell => (2, 0),
            Self::Pause => (3, 0),
            Self::Trigger => (4, 0),
            Self::Lowest => (5, 0),
            Self::Tank => (6, 0),
            Self::CutOut => (7, 0),
            Self::CutIn => (8, 0),
            Self::Heat => (9, 0),
            Self::Weather => (10, 0),
            Self::Leak => (11, 0),
        }
    }
}

/// The dimension in which a worker's own rows begin.
pub(super) const HANDS: usize = 12;

/// What a range rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grounds {
    /// Timed at the machine: the error of that.
    Measured,
    /// One flow on the label.
    OneFlow,
    /// Two flows on the label that agree.
    TwoFlows,
    /// Two flows on the label of which one must be wrong.
    Contradiction,
    /// A flow that is unlikely for the amps.
    Unlikely,
    /// What the pump takes in, no delivered flow.
    FromSuction,
    /// Amps, no flow.
    FromAmps,
    /// Horsepower, no flow and no amps.
    FromHorsepower,
    /// The shop gives it; what is left is how well anyone knows it.
    Given,
    /// Nothing was given: a typical figure.
    Typical,
}

/// A range. Half of the draws lie below `likely`, half above, evenly on each side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    /// Least.
    pub low: f64,
    /// Middle of the draws.
    pub likely: f64,
    /// Most.
    pub high: f64,
}

impl Spread {
    /// Even from `low` to `high`.
    pub fn even([low, high]: [f64; 2]) -> Self {
        Self {
            low,
            likely: 0.5 * (low + high),
            high,
        }
    }

    /// Half below `likely` and half above.
    pub fn about(likely: f64, [low, high]: [f64; 2]) -> Self {
        Self {
            low: low.min(likely),
            likely,
            high: high.max(likely),
        }
    }

    fn either_way(likely: f64, by: f64) -> Self {
        Self::even([likely - by, likely + by])
    }

    /// The figure below which the share `quantile` of the draws lies.
    pub fn at(&self, quantile: f64) -> f64 {
        let twice = 2.0 * quantile.clamp(0.0, 1.0);
        if twice < 1.0 {
            self.low + (self.likely - self.low) * twice
        } else {
            self.likely + (self.high - self.likely) * (twice - 1.0)
        }
    }
}

/// An unknown with its range, or its ranges place by place or task by task, which are then drawn together: one day's
/// weather, one builder's hands.
#[derive(Clone, Debug, PartialEq)]
pub struct Unknown {
    /// What it is.
    pub which: Which,
    /// What the range rests on.
    pub grounds: Grounds,
    /// One; for weather and heat one for each place; for rhythm and pressure one for each task.
    pub spreads: Vec<Spread>,
}

pub(super) fn flow(candidate: &CandidateBasis) -> Option<(Grounds, Spread)> {
    let (supply, contradiction) = Supply::of(candidate);
    let claimed = claim(candidate).map(|(claimed, _, _)| claimed);
    let unlikely = matches!(claimed, Some(Claim::Unlikely | Claim::CannotBe));
    let rated = |pump: &Pump| pump.rated(Gauge::psi(90.0)).as_m3_s();
    let guess = |[low, likely, high]: [Pump; 3]| {
        let shares = [&low, &high].map(|pump| rated(pump) / rated(&likely));
        Spread::about(1.0, shares)
    };
    Some(match supply {
        Supply::Measured(_) => {
            let share = candidate.measured?.delivered?.share.min(0.5);
            (Grounds::Measured, Spread::either_way(1.0, share))
        }
        Supply::TwoFlows(_) | Supply::OneFlow(_) if unlikely => (Grounds::Unlikely, Spread::even(UNLIKELY)),
        Supply::TwoFlows(_) => (Grounds::TwoFlows, Spread::even(TWO_FLOWS)),
        Supply::OneFlow(_) if contradiction.is_some() => {
            (Grounds::Contradiction, Spread::even(CONTRADICTION))
        }
        Supply::OneFlow(_) => (Grounds::OneFlow, Spread::even(ONE_FLOW)),
        Supply::FromSuction(pumps) => (Grounds::FromSuction, guess(pumps)),
        Supply::FromAmps(pumps) => (Grounds::FromAmps, guess(pumps)),
        Supply::FromHorsepower(pumps) => (Grounds::FromHorsepower, guess(pumps)),
        Supply::Nothing => return None,
    })
}

fn tank(candidate: &CandidateBasis) -> (Grounds, Spread) {
    let figure = candidate.tank_m3;
    if figure.is_given() {
        (
            Grounds::Given,
            Spread::even(TANK.map(|share| share * figure.value)),
        )
    } else {
        let range = TANK_GAL.map(|gallons| gallons * M3_PER_GALLON);
        (Grounds::Typical, Spread::about(figure.value, range))
    }
}

/// The pressures outside of a place; and whether its altitude was given.
fn weather(place: &PlaceBasis) -> (bool, Spread) {
    let pressure = place.air.pressure().as_pa();
    let high = standard_pressure(FIELD_M).map_or(pressure, |high| high.as_pa());
    if !place.air_origins[0].is_given() {
        (false, Spread::about(pressure, [high, pressure + WEATHER_PA]))
    } else {
        (true, Spread::either_way(pressure, WEATHER_PA))
    }
}

fn leak(candidate: &CandidateBasis, place: Option<&PlaceBasis>) -> (Grounds, Spread) {
    if let Some(leak) = candidate.measured.and_then(|measured| measured.leak) {
        let error = leak.error_kg_s_pa.min(leak.kg_s_pa);
        return (Grounds::Measured, Spread::either_way(leak.kg_s_pa, error));
    }
    let most = place.map_or(0.0, |place| {
        let mass = FreeAir::cfm(LEAK_CFM).mass(place.air.density());
        mass.get::<kilogram_per_second>() / candidate.cut_out.at(place.air.pressure()).as_pa()
    });
    (Grounds::Typical, Spread::even([0.0, most]))
}

/// A range for each of a list; typical if one of them is.
fn each<T>(
    which: Which,
    items: &[T],
    range: impl Fn(&T) -> (bool, Spread),
    matters: impl Fn(&T) -> bool,
) -> Unknown {
    let ranges: Vec<_> = items.iter().map(range).collect();
    let typical = items
        .iter()
        .zip(&ranges)
        .any(|(item, (given, _))| matters(item) && !given);
    Unknown {
        which,
        grounds: if typical { Grounds::Typical } else { Grounds::Given },
        spreads: ranges.into_iter().map(|(_, spread)| spread).collect(),
    }
}

fn one(which: Which, (grounds, spread): (Grounds, Spread)) -> Unknown {
    Unknown {
        which,
        grounds,
        spreads: vec![spread],
    }
}

fn times(basis: &Basis, which: Which, origin: impl Fn(&TaskOrigins) -> Origin) -> Unknown {
    let range = |task: &TaskBasis| {
        let given = origin(&task.origins).is_given();
        // A squeezer takes its stroke's volume however long the trigger is held.
        let spread = if which == Which::Trigger && task.kind.by_stroke() {
            Spread::even([1.0, 1.0])
        } else {
            Spread::about(1.0, if given { TIME_GIVEN } else { TIME_TAKEN })
        };
        (given, spread)
    };
    each(which, &basis.tasks, range, |task| task.on)
}

fn tool(index: usize, task: &TaskBasis) -> Unknown {
    let range = task.flow_range.map(|end| end.as_m3_s() / task.flow.as_m3_s());
    let grounds = if task.origins.flow.is_given() {
        Grounds::Given
    } else {
        Grounds::Typical
    };
    one(Which::Tool(index), (grounds, Spread::about(1.0, range)))
}

fn switch(candidate: &CandidateBasis, which: Which, given: bool, at: Gauge) -> Unknown {
    let (grounds, by) = if given {
        (Grounds::Given, SWITCH_GIVEN_PA)
    } else {
        (Grounds::Typical, SWITCH_TAKEN_PA)
    };
    // Cut-in stays above nothing and below cut-out.
    let band = candidate.cut_out.as_pa() - candidate.cut_in.as_pa();
    let by = by.min(0.45 * band).min(0.45 * candidate.cut_in.as_pa());
    one(which, (grounds, Spread::either_way(at.as_pa(), by)))
}

/// All unknowns of a candidate in a shop; `None` where nothing is known of its flow, or nothing that can be.
pub fn unknowns(basis: &Basis, candidate: &CandidateBasis) -> Option<Vec<Unknown>> {
    let heat = |place: &PlaceBasis| {
        let given = place.air_origins[1].is_given();
        let by = HEAT_K[usize::from(!given)];
        (given, Spread::either_way(place.air.kelvin(), by))
    };
    let lowest = |task: &TaskBasis| {
        let given = task.origins.lowest.is_given();
        let by = match task.spray {
            Some(_) if !given => FADE_PA,
            _ => LOWEST_PA[usize::from(!given)],
        };
        (given, Spread::either_way(0.0, by))
    };
    let [cut_in_given, cut_out_given] = candidate.switch_origins.map(Origin::is_given);
    let mut unknowns = vec![
        one(Which::Flow, flow(candidate)?),
        one(Which::Tank, tank(candidate)),
        switch(candidate, Which::CutIn, cut_in_given, candidate.cut_in),
        switch(candidate, Which::CutOut, cut_out_given, candidate.cut_out),
        one(Which::Leak, leak(candidate, basis.places.first())),
        each(Which::Weather, &basis.places, weather, |_| true),
        each(Which::Heat, &basis.places, heat, |_| true),
        times(basis, Which::Trigger, |origins| origins.trigger),
        times(basis, Which::Spell, |origins| origins.spell),
        times(basis, Which::Pause, |origins| origins.pause),
        each(Which::Lowest, &basis.tasks, lowest, |task| task.on),
    ];
    let on = basis.tasks.iter().enumerate().filter(|(_, task)| task.on);
    unknowns.extend(on.map(|(index, task)| tool(index, task)));
    Some(unknowns)
}
