//! How each figure comes about: what is the same whoever asks. The numbers are put in where a figure is made.
//!
//! `tests/sums.rs` does each sum again from what it shows, by the equation that it shows.

use std::borrow::Cow;

use super::words::Words;
use crate::report::{Figure, Sum};
use quantity::{FreeAir, Kind, figure as figure_of};

/// Equation, source, and what the sum leaves out.
#[derive(Debug)]
pub struct Rule {
    /// As in [`Sum::equation`]. Between symbols a space multiplies; what follows a comma is a remark.
    equation: &'static str,
    source: &'static str,
    leaves_out: &'static str,
}

impl Rule {
    /// With its numbers.
    pub fn with(&self, put_in: &mut PutIn) -> Option<Sum> {
        Some(Sum {
            equation: self.equation,
            put_in: std::mem::take(&mut put_in.known),
            source: self.source,
            leaves_out: self.leaves_out,
        })
    }
}

/// What goes into a sum, written in the user's units; each name is "symbol, meaning", or a name alone. Built call by
/// call: lists and chained iterators of these weighed as much again as all sums together.
#[derive(Debug)]
pub struct PutIn {
    words: Words,
    known: Vec<(Cow<'static, str>, String)>,
}

impl PutIn {
    /// Nothing yet.
    pub fn new(words: Words) -> Self {
        Self {
            words,
            known: Vec::new(),
        }
    }
    /// A text.
    #[inline(never)]
    pub fn text(&mut self, name: &'static str, text: String) -> &mut Self {
        self.known.push((Cow::Borrowed(name), text));
        self
    }
    /// A text under a name that is made.
    pub fn named(&mut self, name: &str, text: String) -> &mut Self {
        self.known.push((Cow::Owned(name.to_owned()), text));
        self
    }
    /// A figure of any kind.
    #[inline(never)]
    pub fn of(&mut self, name: &'static str, kind: Kind, value: f64) -> &mut Self {
        self.text(name, self.words.of(kind, value))
    }
    /// A pressure, Pa, to three figures; its name says so where it is absolute.
    pub fn pressure(&mut self, name: &'static str, pa: f64) -> &mut Self {
        self.of(name, Kind::Pressure, pa)
    }
    /// A free-air flow.
    pub fn flow(&mut self, name: &'static str, flow: FreeAir) -> &mut Self {
        self.of(name, Kind::Flow, flow.as_m3_s())
    }
    /// A share, as per cent to three figures.
    #[inline(never)]
    pub fn percent(&mut self, name: &'static str, share: f64) -> &mut Self {
        self.text(name, self.words.percent(share))
    }
    /// A bare number.
    #[inline(never)]
    pub fn number(&mut self, name: &'static str, value: f64) -> &mut Self {
        self.text(name, figure_of(value))
    }
}

/// A figure with its sum.
#[inline(never)]
pub fn figure(name: &str, value: String, sum: Option<Sum>) -> Figure {
    Figure {
        name: name.to_owned(),
        value,
        sum,
    }
}

// Air

pub const AIR: Rule = Rule {
    equation: "p = 101,325 (1 − 0.0065 H/288.15)^5.25588, in Pa\nH = 6,356,766 z/(6,356,766 + z), in m",
    source: "US Standard Atmosphere 1976, ISO 2533 (from memory)",
    leaves_out: "weather, which moves the pressure by 2 or 3 %: a barometer is better",
};
pub const AIR_READ: Rule = Rule {
    equation: "p as read from a barometer",
    source: "typed",
    leaves_out: "the weather of other days",
};

// The label

pub const DELIVERS: Rule = Rule {
    equation: "q = q₁ (1 − c g)/(1 − c g₁)\ng = ((p + p₀)/p₀)^e − 1\ng₁ = ((p₁ + p₀)/p₀)^e − 1",
    source: "re-expansion of the air left in the clearance, any text on reciprocating compressors (from memory); checked against FM 5-434, table 9-1",
    leaves_out: "wear, a clogged filter, a slipping belt; a flow that is really a displacement",
};
pub const DELIVERS_MEASURED: Rule = Rule {
    equation: "q = D (1 − c g)\ng = ((p + p₀)/p₀)^e − 1\nD by halving, until a pump-up stepped through time takes as long as the timed one",
    source: "mass and energy of the air in the tank; re-expansion in the clearance (from memory)",
    leaves_out: "what gauge and clock are off",
};
pub const DELIVERS_BY_SUCTION: Rule = Rule {
    equation: "q = η Q (1 − c g)/(1 − c g₁)\ng = ((p + p₀)/p₀)^e − 1\ng₁ = ((p₁ + p₀)/p₀)^e − 1",
    source: "share of the air taken in that small pumps deliver: common practice, no source",
    leaves_out: "all that a stated or a measured flow would tell",
};
pub const DELIVERS_BY_AMPS: Rule = Rule {
    equation: "q = (η V I/w) (1 − c g)/(1 − c g₁)\nw = 3.5 s p₀ (((p₁ + p₀)/p₀)^(2/(7 s)) − 1)\ng = ((p + p₀)/p₀)^e − 1\ng₁ = ((p₁ + p₀)/p₀)^e − 1",
    source: "isentropic work (Machinery's Handbook 31, tables 36 and 37); share that small machines reach: common practice, no source",
    leaves_out: "all that a stated or a measured flow would tell",
};
pub const DELIVERS_BY_POWER: Rule = Rule {
    equation: "q = (min(η P, ηₚ V Iₚ)/w) (1 − c g)/(1 − c g₁)\nw = 3.5 s p₀ (((p₁ + p₀)/p₀)^(2/(7 s)) − 1)\ng = ((p + p₀)/p₀)^e − 1\ng₁ = ((p₁ + p₀)/p₀)^e − 1",
    source: "isentropic work (Machinery's Handbook 31, tables 36 and 37); shares: common practice, no source",
    leaves_out: "that printed horsepower may be a peak; all that a stated flow would tell",
};
pub const CLEARANCE_FITTED: Rule = Rule {
    equation: "c = (q₁ − q₂)/(q₁ g₂ − q₂ g₁)\ng₁ = ((p₁ + p₀)/p₀)^e − 1\ng₂ = ((p₂ + p₀)/p₀)^e − 1",
    source: "the delivery curve through both flows; re-expansion in the clearance (from memory)",
    leaves_out: "leaks and heating, which it takes in as if they were clearance",
};
pub const CLEARANCE_TYPICAL: Rule = Rule {
    equation: "c = min(c₀, 0.5/g₁)\ng₁ = ((p₁ + p₀)/p₀)^e − 1",
    source: "common practice, no source; 7 % reproduces FM 5-434, table 9-1",
    leaves_out: "this machine's own clearance: a second flow at another pressure would tell it",
};
pub const AMPS_PLATE: Rule = Rule {
    equation: "I as on the motor's plate",
    source: "the plate, as typed",
    leaves_out: "what a cold or loaded pump draws beyond it",
};
pub const AMPS_BY_FLOW: Rule = Rule {
    equation: "I = 3.5 s p₀ q (((p + p₀)/p₀)^(2/(7 s)) − 1)/(η V)",
    source: "isentropic work (Machinery's Handbook 31, tables 36 and 37); share: common practice, no source",
    leaves_out: "this motor's own efficiency: read its plate",
};
pub const AMPS_BY_POWER: Rule = Rule {
    equation: "I = Iₜ Vₜ/V, with Iₜ from the table at that horsepower",
    source: "NEC table 430.248, straight between its rows",
    leaves_out: "that printed horsepower may be a peak: read the plate",
};
pub const BREAKER: Rule = Rule {
    equation: "B = 1.25 I, up to the next size sold",
    source: "NEC 430.22 and 240.6",
    leaves_out: "other loads on the breaker; the surge as the motor starts",
};

// What to look for

pub const WINDOW_FLOW: Rule = Rule {
    equation: "the smallest flow sold with which every job is done in 8 of 10 tries at every place\neach try: one machine, one day, one pair of hands, one set of tools out of their ranges, three hours at each job\nthe tank is the largest that two people move, or a larger one where no flow does with that",
    source: "the same tries as every verdict; sizes sold: common practice, no source",
    leaves_out: "a machine's wear; a switch that is not the usual one; sizes between those sold",
};
pub const WINDOW_TANK: Rule = Rule {
    equation: "the smallest tank sold with which that flow does every job in 8 of 10 tries at every place\ndm/dt = in − out\nm cᵥ dT/dt = in (cₚ Tᵢ − cᵥ T) − out R T + h A (T₀ − T)\nstepped through three hours of varied pulls, spells and pauses, tank by tank, by halving the list",
    source: "first law for an open system; walls by Nu = 0.13 Ra^(1/3) (from memory); sizes sold: common practice, no source",
    leaves_out: "air that hoses hold; sizes between those sold",
};

// The tank over time

pub const TRIGGER: Rule = Rule {
    equation: "dm/dt = in − out\nm cᵥ dT/dt = in (cₚ Tᵢ − cᵥ T) − out R T + h A (T₀ − T)\np = m R T/V\nstepped from a full tank at rest, trigger held, until the tool goes weak (for good where the running motor then makes more than it takes): by the midpoint rule, under 2 % of p and half the walls' time a step",
    source: "first law for an open system; walls by Nu = 0.13 Ra^(1/3) (Incropera, from memory); flow on the trigger: ISO 6358 and the line",
    leaves_out: "air in the hoses; a tank that starts warm",
};
pub const BACK_TO_FULL: Rule = Rule {
    equation: "dm/dt = in − out\nm cᵥ dT/dt = in (cₚ Tᵢ − cᵥ T) − out R T + h A (T₀ − T)\np = m R T/V\nstepped with the motor running and nothing drawn, up to cut-out: by the midpoint rule, under 2 % of p and half the walls' time a step",
    source: "first law for an open system; walls by Nu = 0.13 Ra^(1/3) (Incropera, from memory)",
    leaves_out: "that the tank cools once the motor stops, and the gauge sinks a little",
};
pub const LONG_RUN: Rule = Rule {
    equation: "dm/dt = in − out\nm cᵥ dT/dt = in (cₚ Tᵢ − cᵥ T) − out R T + h A (T₀ − T)\np = m R T/V\nstepped as for the longest trigger, through three hours of varied pulls, spells and pauses, waiting before a pull for what it needs",
    source: "own method, checked against plain integration; walls by Nu = 0.13 Ra^(1/3) (from memory)",
    leaves_out: "days that are not like this rhythm; a worker who stops before the tool is weak",
};
pub const REGULATOR: Rule = Rule {
    equation: "S = p + l + s q",
    source: "droop as ISO 6953-1 names it, a straight line: common practice, no source; hoses and couplers as under “Air line”",
    leaves_out: "the regulator's creep as the tank falls",
};

// Power

pub const RUNNING: Rule = Rule {
    equation: "V = √((B + √(B² − 4 R² S²))/2)\nI = S/V\nB = V₀² − 1.7 R S\nS = V₁ I₁\nV₀ = Vₚ − 2 I₀ b L\nR = 2 (b L + c l)",
    source: "Ohm's law, drops added as vectors at a power factor of 0.85; the motor's volt-amperes held constant; wire as warm as its load makes it",
    leaves_out: "poor joints; a weak grid",
};
pub const STARTING: Rule = Rule {
    equation: "V = V₀ Z/√((0.7 Z + R)² + 0.51 Z²)\nt = (V/V₁)²\nZ = V₁/Iₗ\nV₀ = Vₚ − 2 I₀ b L\nR = 2 (b L + c l)",
    source: "voltage divider, drops added as vectors, a standing motor's power factor of 0.7; torque as the square of the voltage; wire as cold as the place",
    leaves_out: "a cold, stiff or loaded pump; a weak grid",
};
pub const LONGEST_CORD: Rule = Rule {
    equation: "l = 0.035 V₁/(2 I₁ c)",
    source: "the tables printed in most tool manuals, within one gauge; copper at 20 °C",
    leaves_out: "other cords joined to it; the warmth of a coiled cord",
};
pub const SMALLEST_CORD: Rule = Rule {
    equation: "the thinnest cord sold that carries 1.25 I₁ and loses no more than 0.035 V₁ over l",
    source: "the tables printed in most tool manuals, within one gauge; NEC tables 400.5(A)(1) and 430.22",
    leaves_out: "other cords joined to it; the warmth of a coiled cord",
};

// The auxiliary receiver

pub const STORE: Rule = Rule {
    equation: "dm/dt = in − out\nm cᵥ dT/dt = in (cₚ Tᵢ − cᵥ T) − out R T + h A (T₀ − T)\np = m R T/V\nstepped as for the viewed task, once with the tank alone, once with both",
    source: "first law for an open system; walls by Nu = 0.13 Ra^(1/3) (Incropera, from memory)",
    leaves_out: "what pipe and joint between the tanks lose",
};

// The air line: solved back from the tool

pub const LINE_REGULATOR: Rule = Rule {
    equation: "g = p₁ − d\nd wide open, the tank as low as still gives the tool its setting",
    source: "common practice, no source",
    leaves_out: "that the least drop grows with the flow",
};
pub const LINE_HOSE: Rule = Rule {
    equation: "g = p₂ − p₀\nΔ = p₁ − p₂\np₁ = √(p₂² + G² 287.05 T (f l/D + 2 ln(p₁/p₂)))\nG = 4 ρ q/(π D²)",
    source: "isothermal flow with friction, Rennels and Hudson (from memory); f by Churchill, smooth wall; checked against pipe tables",
    leaves_out: "bends, kinks and fittings pressed on with a narrower bore",
};
pub const LINE_COUPLERS: Rule = Rule {
    equation: "g = p₂ − p₀\nΔ = p₁ − p₂\np₁ = w/(b p₂ + √((b p₂)² + (1 − 2 b) w))\nw = p₂² + ((1 − b) x)²\nx = ρ q √(T/293.15)/(1.185 C)\ndone once for each coupler, from the tool back",
    source: "ISO 6358-1:2013 (from memory); C and b of a quarter-inch body: common practice, no source",
    leaves_out: "worn or dirty couplers; another body",
};
pub const LINE_CHOKED: Rule = Rule {
    equation: "the flow chokes here: what stands before it is the least that passes q",
    source: "isothermal flow with friction; ISO 6358-1 (from memory)",
    leaves_out: "what chokes elsewhere as well",
};

// Water

pub const FILL: Rule = Rule {
    equation: "v = max(0, Wₐ mₐ + W (mₑ − mₐ) − Wₑ mₑ)/ρ",
    source: "balance of water, saturated at the room's temperature: Hyland and Wexler, ASHRAE Fundamentals (from memory)",
    leaves_out: "a tank that is warm, which keeps more and passes it on",
};
pub const HOURLY: Rule = Rule {
    equation: "v = 3,600 d max(0, W − Wₑ) q s/ρ",
    source: "balance of water, saturated at the room's temperature: Hyland and Wexler, ASHRAE Fundamentals (from memory)",
    leaves_out: "a tank that is warm, which keeps more and passes it on; weather that changes",
};
pub const DAILY: Rule = Rule {
    equation: "v = h u",
    source: "hours of work, as typed or taken",
    leaves_out: "weather that changes in the day",
};
pub const MEAN_SHARE: Rule = Rule {
    equation: "s = Σ/n, the mean of the shares",
    source: "each task as long as the others: common practice, no source",
    leaves_out: "how long each task really is",
};

// Sound

pub const OPEN_AIR: Rule = Rule {
    equation: "L = L₁ − b − 20 log₁₀(r/r₁) + 10 log₁₀(1 − x)",
    source: "ISO 9613-2, a point over hard ground (from memory); box and inlet: common practice, no source",
    leaves_out: "walls near by; wind; the tools",
};
pub const IN_ROOM: Rule = Rule {
    equation: "L = L₁ − b + 10 log₁₀((2/(4 π r²) + 4/R)/(2/(4 π r₁²))) + 10 log₁₀(1 − x)\nR = S α/(1 − α)",
    source: "Beranek, sound in rooms; ISO 3744, a source on the floor (from memory); box and inlet: common practice, no source",
    leaves_out: "what stands in the room and swallows sound; the tools",
};
pub const NEIGHBOUR: Rule = Rule {
    equation: "L = L₁ − b − 20 log₁₀(r/r₁) − w",
    source: "ISO 9613-2, a point over hard ground (from memory); box: common practice, no source",
    leaves_out: "open doors; wind; walls and trees between",
};
pub const NEIGHBOUR_DUCTED: Rule = Rule {
    equation: "L = 10 log₁₀(10^(A/10) + 10^(B/10))\nA = O + 10 log₁₀(x)\nB = O − w + 10 log₁₀(1 − x)\nO = L₁ − b − 20 log₁₀(r/r₁)",
    source: "ISO 9613-2, a point over hard ground (from memory); box and inlet: common practice, no source",
    leaves_out: "a silencer at the duct's mouth; open doors; wind",
};

// Carrying

pub const TYPED: Rule = Rule {
    equation: "no sum: as typed, or as is typical",
    source: "the label or the shop",
    leaves_out: "nothing",
};
pub const LIFT_ONE: Rule = Rule {
    equation: "M = 23 (0.25/r) (1 − 0.3 u) min(1, 0.82 + 0.045/d), in kg, with metres\nu = max(a − 0.75, 0.75 − a, z − 0.75, 0.75 − z)\nd = max(0.25, z − a)\nz = min(1.75, t + a)",
    source: "NIOSH 94-110, metric form (from memory); reach and grip: common practice, no source",
    leaves_out: "a twist, a bad grip, many lifts in an hour, wet ground, a sore back",
};
pub const LIFT_TWO: Rule = Rule {
    equation: "M = 2 × 2/3 m",
    source: "HSE L23, team handling: two thirds of the sum (from memory)",
    leaves_out: "two people of unlike height; what one may lift leaves out the rest",
};
pub const LIFT_PRACTICE: Rule = Rule {
    equation: "no sum: about what two people are seen to lift now and then",
    source: "common practice, no source",
    leaves_out: "who they are, and their backs",
};

// Money

pub const PIECE: Rule = Rule {
    equation: "K = n e",
    source: "typical range of prices, US dollars of about 2025, taken one for one in other money: common practice, no source",
    leaves_out: "your own prices; tax; what lies in the shop already",
};
pub const PIECE_BY_METRE: Rule = Rule {
    equation: "K = n e, n in metres",
    ..PIECE
};
pub const PIECE_BY_VOLUME: Rule = Rule {
    equation: "K = e V/0.01, V in m³: priced by the ten litres",
    ..PIECE
};
pub const WHOLE_SET: Rule = Rule {
    equation: "K = Σ, of all below",
    source: "the label's price; extras by typical prices, US dollars of about 2025, taken one for one in other money: common practice, no source",
    leaves_out: "tax, oil, repairs; what lies in the shop already",
};
