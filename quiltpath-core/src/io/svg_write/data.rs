//! Path data: short numbers, commands only where they change.

use crate::geom::Point;
use crate::io::ticks::{Portions, Ticks};

/// Path data under way: commands are written where they change, equal points once.
pub(super) struct Data<'a> {
    out: Portions<'a>,
    command: char,
    at: [Ticks; 2],
}

impl<'a> Data<'a> {
    pub(super) fn start(out: &'a mut String, at: Point) -> Self {
        let at = [Ticks::of(at.x), Ticks::of(at.y)];
        let mut data = Self {
            out: Portions::new(out),
            command: 'M',
            at,
        };
        data.out.put('M');
        data.pair(at);
        data
    }

    pub(super) fn line(&mut self, to: Point) {
        let to = [Ticks::of(to.x), Ticks::of(to.y)];
        if to != self.at {
            self.command('L');
            self.pair(to);
            self.at = to;
        }
    }

    pub(super) fn curve(&mut self, points: [Point; 3]) {
        self.command('C');
        for (index, point) in points.into_iter().enumerate() {
            if index > 0 {
                self.out.put(' ');
            }
            self.at = [Ticks::of(point.x), Ticks::of(point.y)];
            self.pair(self.at);
        }
    }

    /// Gives a line that is shorter than a step an end all the same.
    pub(super) fn finish(mut self) {
        if self.command == 'M' {
            self.command('L');
            self.pair(self.at);
        }
    }

    fn command(&mut self, command: char) {
        let written = if self.command == command {
            ' '
        } else {
            command
        };
        self.out.put(written);
        self.command = command;
    }

    fn pair(&mut self, [x, y]: [Ticks; 2]) {
        self.out.ticks(x);
        self.out.put(',');
        self.out.ticks(y);
    }
}

/// Writes a line as it is.
pub(in crate::io) fn chords(out: &mut String, points: &[Point]) {
    let mut data = Data::start(out, points[0]);
    for &point in &points[1..] {
        data.line(point);
    }
    data.finish();
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn commands_stand_where_they_change() {
        let points = [(0.0, 0.0), (1.0, 0.5), (1.0, 0.500_01), (-2.0, 3.0)];
        let points = points.map(|(x, y)| Point::new(x, y));
        let mut out = String::new();
        chords(&mut out, &points);
        assert_eq!(out, "M0,0L1,0.5 -2,3");
        out.clear();
        chords(&mut out, &[Point::new(1.0, 1.0), Point::new(1.0, 1.000_01)]);
        assert_eq!(out, "M1,1L1,1");
    }
}
