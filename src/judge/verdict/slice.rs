//! How much of a long job is done at a time, so that who waits for it can do something else meanwhile.

/// Steps of runs in a slice: 20 to 50 ms on a desktop.
const SLICE: usize = 200_000;
/// What judging a row in a draw takes beside its run, in steps: its machine, its work and the bounds of both.
const ROW: usize = 150;
/// What a line solved for a row takes, in steps.
const LINE: usize = 10_000;
/// What looking up a row takes that was judged at other sizes, in steps.
const LOOK: usize = 20;
/// What reading a changed shop anew and judging its power takes, in steps.
const SET: usize = 10_000;

/// What is left of a slice, and what was spent in all.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Budget {
    left: usize,
    spent: usize,
}

/// The slice is over; the job goes on in the next.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Paused;

impl Budget {
    /// No end to it.
    pub const ENDLESS: Self = Self {
        left: usize::MAX,
        spent: 0,
    };

    /// A new slice.
    pub fn refill(&mut self) {
        self.left = SLICE;
    }

    /// Counts a row that was judged in a draw with a run of so many steps.
    pub fn row(&mut self, steps: usize) {
        self.take(ROW + steps);
    }

    /// Counts a row that was looked up.
    pub fn look(&mut self) {
        self.take(LOOK);
    }

    /// Counts a line that was solved.
    pub fn line(&mut self) {
        self.take(LINE);
    }

    /// Counts a set of changes whose shop was read and whose power was judged.
    pub fn set(&mut self) {
        self.take(SET);
    }

    fn take(&mut self, steps: usize) {
        self.left = self.left.saturating_sub(steps);
        self.spent = self.spent.saturating_add(steps);
    }

    /// # Errors
    /// [`Paused`] where nothing is left of the slice.
    pub fn go_on(&self) -> Result<(), Paused> {
        if self.left > 0 { Ok(()) } else { Err(Paused) }
    }

    /// Slices that were spent in all.
    pub fn slices(&self) -> usize {
        self.spent / SLICE
    }
}
