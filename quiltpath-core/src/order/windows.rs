//! Where the windows begin, so that the thread is cut as seldom as possible.
//!
//! Problem: of all the ways to place a number of windows that together reach every atom (`passes`),
//! those with which atoms fall into the fewest runs. A run is a stretch of a strand that one window
//! reaches. Stretches may just as well overlap: taken away from all but one of them, an atom leaves
//! no more stretches than before, since a stretch that would fall into two can end where the other
//! begins. So wanted is a cover of each strand by the longest stretches that chosen windows reach,
//! and a stretch that is longer is never worse. Method: window by window downwards (`search`). What
//! counts of the windows before is the last of them and what is covered; of two ways to the same
//! last window, one that covers as much with no more runs takes the other's place. A way is left
//! when its runs and the fewest that each strand still takes, from any windows further down, are
//! more than the best found. Neighbours that the same windows reach are one unit. Guarantee: the
//! fewest runs over all choices of windows when nothing was dropped for want of room; otherwise no
//! choice comes below the least bound among the ways dropped. Where three or more ends meet,
//! strands are counted apart, and the bound is less by the pairs that can be joined there
//! (`order`). Held against all choices on small nets, and against an integer program on 40 nets of
//! up to 130 atoms (`tests/tests/windows`). Failure: none; the work is limited by `WORK` and
//! `WAYS`.

mod every;
mod lines;
mod search;
#[cfg(test)]
mod tests;

pub(super) use every::every;
pub(super) use lines::Lines;
pub(super) use search::choose;
