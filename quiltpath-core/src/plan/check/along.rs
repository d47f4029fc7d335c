//! The pieces of a line by the distance along it.

/// Where each piece of a line ends.
pub(super) struct Along {
    ends: Vec<(f64, usize)>,
}

impl Along {
    /// A line of pieces, each with its length and its number.
    pub(super) fn new(pieces: impl Iterator<Item = (f64, usize)>) -> Self {
        let mut along = 0.0;
        let ends = pieces.map(|(length, piece)| {
            along += length;
            (along, piece)
        });
        Self {
            ends: ends.collect(),
        }
    }

    /// The number of the piece at a distance along the line.
    pub(super) fn at(&self, along: f64) -> Option<usize> {
        let index = self.ends.partition_point(|(end, _)| *end < along);
        let end = self.ends.get(index).or_else(|| self.ends.last());
        end.map(|(_, piece)| *piece)
    }
}
