//! What one side says, and how it becomes the first lines: no longer than they can be read in an aisle.

use super::{mark, verdict};
use crate::danger::Warning;
use crate::report::Answer;
use judge::grade::Grade;

/// What one side says, and how grave that is.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ground {
    /// How grave.
    pub grade: Grade,
    /// What to look for, which stands by itself: nothing of a machine is typed, and nothing of it is judged.
    pub is_bare: bool,
    /// The sentence, or two.
    pub sentence: String,
    /// What goes with it where there is room, the least of use first.
    pub also: Vec<String>,
    /// How sure, or why: a sentence; may be blank.
    pub odds: String,
    /// What to do next.
    pub next: String,
    /// The same in a few words, where there are fewer.
    pub next_in_short: Option<String>,
    /// What could hurt somebody and is said whatever the room.
    pub must: Vec<String>,
    /// What else to mind, where there is room.
    pub more: Vec<String>,
}

/// What is to be done where nothing is.
pub(super) const AS_IS: &str = "Works as is.";

/// Most words of the first lines. Judgement.
const MOST_WORDS: usize = 39;

impl From<&Warning> for Ground {
    fn from(warning: &Warning) -> Self {
        Self {
            grade: warning.grade,
            sentence: warning.short.clone(),
            next: warning.first.clone(),
            ..Self::default()
        }
    }
}

fn words(text: &str) -> usize {
    text.split_whitespace().count()
}

fn joined<'a>(parts: impl Iterator<Item = &'a String>) -> String {
    let parts: Vec<&str> = parts
        .map(String::as_str)
        .filter(|part| !part.is_empty())
        .collect();
    parts.join(" ")
}

impl Ground {
    /// Words of all that is said.
    fn words(&self) -> usize {
        let parts = self.also.iter().chain(&self.must).chain(&self.more);
        let single = [&self.sentence, &self.odds, &self.next];
        parts.chain(single).map(|part| words(part)).sum()
    }

    /// With what has no room left out: the longer way to say what to do, what else to mind, what goes with the sentence, the
    /// odds. It stands with its side, too.
    fn brief(mut self) -> Self {
        // Where something is to be done, it does not work as it is.
        if self.next == AS_IS && !(self.more.is_empty() && self.must.is_empty()) {
            self.next.clear();
            self.next_in_short = None;
        }
        let is_long = |ground: &Self| ground.words() > MOST_WORDS;
        if let Some(short) = self.next_in_short.take().filter(|_| is_long(&self)) {
            self.next = short;
        }
        while is_long(&self) && self.more.pop().is_some() {}
        while is_long(&self) && !self.also.is_empty() {
            self.also.remove(0);
        }
        if is_long(&self) {
            self.odds.clear();
        }
        self
    }
}

/// A ground as the page is told it.
impl From<Ground> for Answer {
    fn from(ground: Ground) -> Self {
        let ground = ground.brief();
        let mut more: Vec<&String> = ground.more.iter().chain(&ground.must).collect();
        more.retain(|text| !ground.next.contains(text.as_str()));
        let (grade, verdict) = match ground.is_bare {
            true => (crate::report::Grade::Note, ""),
            false => (mark(ground.grade), verdict(ground.grade)),
        };
        Self {
            grade,
            verdict: verdict.into(),
            sentence: joined(std::iter::once(&ground.sentence).chain(&ground.also)),
            standing: ground.grade,
            odds: ground.odds,
            next: joined(std::iter::once(&ground.next).chain(more)),
        }
    }
}
