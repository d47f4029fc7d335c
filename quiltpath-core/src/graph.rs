//! Multigraphs: the fewest walks, the least that is walked twice, and pairs that cost least.

mod euler;
mod matching;
mod pairs;
mod rural;
mod sets;
mod straight;
mod ways;

pub(crate) use euler::{Step, euler_walk, fewest_trails};
pub(crate) use rural::{Edge, Ends, Net, Route, least_of, least_route};
pub(crate) use sets::{root, unite};
pub(crate) use straight::{Strand, straight_walks};
