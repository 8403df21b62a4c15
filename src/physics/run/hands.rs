//! How a rhythm varies: nobody works like a metronome.

use super::Rhythm;

/// How far a pull, a gap, a spell or a pause strays from its typical length, either way, evenly: a standard deviation of
/// about a third. Common practice, no source.
pub const VARIES: f64 = 0.6;

/// Steps of the four rows: fractions of quadratic irrationals, whose multiples fill 0 to 1 evenly (Weyl): (√5 − 1)/2,
/// √2 − 1, √3 − 1, (√13 − 3)/2.
const STEPS: [f64; 4] = [
    0.618_033_988_749_895,
    0.414_213_562_373_095,
    0.732_050_807_568_877,
    0.302_775_637_731_995,
];
/// Odd multiples, so that pairs of hands which begin close by differ in all four rows.
const APART: [f64; 4] = [1.0, 37.0, 73.0, 101.0];

/// One pair of hands: where in four low-discrepancy rows it begins, for pulls, gaps, spells and pauses.
///
/// ```
/// # use physics::run::{Hands, Phase, Phases, Rhythm};
/// let rhythm = Rhythm { on_s: 4.0, off_s: 4.0, spell_s: 180.0, pause_s: 240.0 };
/// let phases = Phases::new(rhythm, Hands::typical(), 10_800.0, false);
/// let on: f64 = phases.filter_map(|phase| if let Phase::Pull(s) = phase { Some(s) } else { None }).sum();
/// assert!((on / 10_800.0 / rhythm.long_share() - 1.0).abs() < 0.05);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hands {
    at: [f64; 4],
}

impl Hands {
    /// The hands at `quantile`, from 0 to 1: the same always varies alike.
    pub fn at(quantile: f64) -> Self {
        Self {
            at: APART.map(|times| (times * quantile).fract()),
        }
    }

    /// A middling pair.
    pub fn typical() -> Self {
        Self::at(0.5 / 101.0)
    }

    fn factor(&mut self, row: usize) -> f64 {
        let (Some(at), Some(step)) = (self.at.get_mut(row), STEPS.get(row)) else {
            return 1.0;
        };
        *at += step;
        if *at >= 1.0 {
            *at -= 1.0;
        }
        1.0 + VARIES * (2.0 * *at - 1.0)
    }
}

/// A piece of a job.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Phase {
    /// The trigger is wanted for so long, s.
    Pull(f64),
    /// It is not, for so long, s: between pulls, or in the pause.
    Rest(f64),
    /// A whole spell of so long, s, its pulls drawn out evenly over it.
    Even(f64),
}

/// The pieces of a job, one after the other, until its hours are over at the end of a pause.
pub struct Phases {
    rhythm: Rhythm,
    hands: Hands,
    left_s: f64,
    even: bool,
    /// What is left of the spell.
    spell_s: f64,
    next: Next,
}

#[derive(Clone, Copy)]
enum Next {
    Spell,
    Pull,
    Gap,
    Pause,
}

impl Phases {
    /// So many seconds of a job; `even` where pulls are drawn out over their spells.
    pub fn new(rhythm: Rhythm, hands: Hands, seconds: f64, even: bool) -> Self {
        Self {
            rhythm,
            hands,
            left_s: seconds,
            even,
            spell_s: 0.0,
            next: Next::Spell,
        }
    }

    fn within_spell(&mut self, row: usize, typical_s: f64, after: Next) -> f64 {
        let seconds = (typical_s * self.hands.factor(row)).min(self.spell_s);
        self.spell_s -= seconds;
        self.next = if self.spell_s > 1e-9 { after } else { Next::Pause };
        seconds
    }
}

impl Iterator for Phases {
    type Item = Phase;

    fn next(&mut self) -> Option<Phase> {
        if let Next::Spell = self.next {
            // A job without any length is over.
            if self.left_s <= 1e-9 {
                return None;
            }
            self.spell_s = (self.rhythm.spell_s * self.hands.factor(2)).min(self.left_s.max(1e-3));
            self.left_s -= self.spell_s;
            self.next = if self.even { Next::Pause } else { Next::Pull };
            if self.even {
                return Some(Phase::Even(self.spell_s));
            }
        }
        Some(match self.next {
            Next::Pull => Phase::Pull(self.within_spell(0, self.rhythm.on_s, Next::Gap)),
            Next::Gap => Phase::Rest(self.within_spell(1, self.rhythm.off_s, Next::Pull)),
            Next::Spell | Next::Pause => {
                let pause_s = self.rhythm.pause_s * self.hands.factor(3);
                self.left_s -= pause_s;
                self.next = Next::Spell;
                Phase::Rest(pause_s)
            }
        })
    }
}
