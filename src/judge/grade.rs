//! Grades, best first.

use serde::Serialize;

/// How a machine stands in a shop. Air and power are graded apart; a headline takes the worse of the two and names it.
///
/// ```
/// # use judge::grade::Grade;
/// assert!(Grade::Danger > Grade::Outlet && Grade::Ask < Grade::Small);
/// assert_eq!([Grade::Good, Grade::Trip].into_iter().max(), Some(Grade::Trip));
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Grade {
    /// Does the job; nobody waits to speak of.
    Good,
    /// Works, with waits at a named job.
    Wait,
    /// May trip the breaker, or start badly.
    Trip,
    /// Can't be judged yet: a figure is missing, refused or contradicts another.
    #[default]
    Ask,
    /// Too small for a named job.
    Small,
    /// This outlet or cord can't run it.
    Outlet,
    /// Could hurt somebody: said before all else.
    Danger,
}
