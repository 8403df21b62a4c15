//! The first words on a shop of hundreds of different jobs: from some of them, and marked so, until all are judged.

use crate::report::Report;
use judge::basis::{Basis, Refusal};
use judge::danger::{dangers, worst};
use judge::grade::Grade;
use judge::verdict::Judging;
use shop::Shop;
use shop::catalogue::typical;

/// So many different jobs are judged before anything is said: half a second on a desktop.
const AT_ONCE: usize = 24;
/// So many are judged first where there are more.
const FIRST: usize = 6;

/// Some of a shop's work at one of its places.
pub struct Part {
    /// The shop with no more than that.
    pub shop: Shop,
    /// Which part it is, at the head of a sentence.
    said: String,
}

/// The part that is told first: the gravest place, who works together, then the usual work; none where all is told at once.
pub fn part(shop: &Shop, basis: &Basis) -> Option<Part> {
    let machine = basis.candidates.get(basis.chosen)?;
    let all = Judging::new(basis, machine)?.rows();
    if all <= AT_ONCE {
        return None;
    }
    let mut place = (0, Grade::Good);
    for index in 0..basis.places.len() {
        let grade = worst(&dangers(basis, machine, index));
        if grade > place.1 {
            place = (index, grade);
        }
    }
    let mut on: Vec<usize> = (0..shop.tasks.len())
        .filter(|task| shop.tasks[*task].on)
        .collect();
    let key = |task: &usize| {
        let of = &shop.tasks[*task];
        (!of.together, !typical(of.kind).usual, *task)
    };
    quantity::order::by_key(&mut on, key);
    let mut part = shop.clone();
    part.places = part.places.get(place.0).cloned().into_iter().collect();
    for task in on.iter().skip(FIRST) {
        part.tasks[*task].on = false;
    }
    Some(Part {
        shop: part,
        said: format!("So far, from {} of {all} different jobs", on.len().min(FIRST)),
    })
}

impl Part {
    /// Marks what was told of the part, beside what is already known of the whole shop.
    pub fn mark(&self, told: &mut Report, basis: &Basis) {
        for answer in [&mut told.answer, &mut told.air] {
            if !answer.sentence.is_empty() {
                answer.sentence = format!("{}: {}", self.said, answer.sentence);
            }
        }
        told.so_far.clone_from(&self.said);
        told.faults = basis.faults.iter().map(Refusal::fault).collect();
        told.taken.clone_from(&basis.taken);
    }
}
