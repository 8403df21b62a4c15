//! From typed text to judgement, in figures and enums: no sentences.
//!
//! **In:** a shop as typed. **Out:** what each machine does for each task at each place, what its power does, what would
//! mend it, what to look for, and how sure all that is. Words are [`answer`](../answer/index.html)'s business, sums those
//! of `physics`. Begin with [`basis`], which reads the text, then [`assess`], which judges it.
//!
//! | question | module |
//! |---|---|
//! | What do the typed texts mean, and what is taken for the blank ones? | [`basis`] |
//! | What does a machine do for each task at each place? | [`assess`] |
//! | What could hurt somebody? | [`danger`] |
//! | Does the outlet run it, safely, and what mends that? | [`power`] |
//! | Which link of the air line is the weakest? | [`mod@line`] |
//! | Does a spray gun hold its pressure through a coat? | [`paint`] |
//! | What do a box and the cold do to a machine? | [`boxed`], [`cold`] |
//! | How good is that, and which of two grades is worse? | [`grade`], [`standing`] |
//! | What would fix it, least effort first? | [`fix`] |
//! | Which machine to buy? | [`choice`] |
//! | What to look for, from a shop alone? | [`window`] |
//! | Which flow on which tank keeps up? | [`mod@map`] |
//! | In how many shops does it do each job, how long does one wait, and what would settle that? | [`mod@verdict`] |

pub mod assess;
pub mod basis;
pub mod boxed;
mod care;
pub mod choice;
pub mod cold;
pub mod danger;
pub mod draws;
pub mod fix;
pub mod grade;
pub mod line;
pub mod map;
pub mod paint;
pub mod power;
pub mod standing;
pub mod verdict;
pub mod window;
