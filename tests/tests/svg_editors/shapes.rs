//! Shapes: their geometry, their look, and where they are moved.

use std::fmt::Write as _;

use super::drawing::Drawing;
use super::look::{self, Look, WAYS, Way};
use super::path_data::{Hand, path_data};

impl Drawing {
    /// A shape whose look is said in one of the ways; what is said of it is counted.
    pub(crate) fn shape(&mut self, looks: &[Look]) -> String {
        let look = self.dice.pick(looks);
        let (tag, own) = self.geometry(look == Look::Filled || look == Look::Unpainted);
        let id = self.fresh(self.dice_word());
        let name = self.fresh("c");
        let way = match self.dice.pick(&WAYS) {
            // `usvg` knows no other letters in selectors.
            Way::Id if !id.is_ascii() => Way::Style,
            way => way,
        };
        let written = look::write(&mut self.dice, look, way, tag, &id, &name);
        if let Some(rule) = written.rule {
            let between = self.dice.pick(&["\n", "", " /* a rule */ ", "\n\t"]);
            self.css.push_str(&rule);
            self.css.push_str(between);
        }
        let mut all: Vec<(String, String)> = vec![("id".to_owned(), id.clone())];
        all.extend(own);
        all.extend(written.attributes);
        if self.dice.once_in(3) {
            let transform = self.transform();
            all.push(("transform".to_owned(), transform));
        }
        if self.dice.once_in(3) {
            all.push(("e:nodetypes".to_owned(), "cccz".to_owned()));
        }
        // The order of attributes is free.
        let from = self.dice.below(all.len());
        all.rotate_left(from);
        let title = self.dice.once_in(5);
        self.made(tag);
        let make = |drawing: &mut Self| {
            let all: Vec<(&str, &str)> =
                all.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect();
            if title {
                let text = format!("Blüte {id}");
                drawing.known.titles.insert(id.clone(), text.clone());
                drawing.inside(tag, &all, |drawing| {
                    let prefix = drawing.prefix;
                    let _ = write!(drawing.body, "<{prefix}title>{text}</{prefix}title>");
                });
            } else {
                drawing.line(tag, &all);
            }
        };
        match written.group {
            Some(group) => {
                let group: Vec<(&str, &str)> = group
                    .iter()
                    .map(|(n, v)| (n.as_str(), v.as_str()))
                    .collect();
                self.inside("g", &group, make);
            }
            None => make(self),
        }
        match look {
            Look::Stroked | Look::Filled | Look::Both => self.see(&id),
            Look::Dashed => {
                self.see(&id);
                self.note("with dashes");
            }
            Look::Unpainted => self.note("that can't be seen"),
            Look::Hidden => self.note("\"visibility: hidden\""),
            Look::NotDisplayed => self.note("\"display: none\""),
        }
        id
    }

    fn dice_word(&self) -> &'static str {
        ["path", "Pfad-", "_x3C_leaf_", "line_", "é"][self.next % 5]
    }

    /// A tag with its geometry; `round` asks for one that has an inside.
    fn geometry(&mut self, round: bool) -> (&'static str, Vec<(String, String)>) {
        let size = self.size;
        let hand = self.hand;
        let tags: &[&'static str] = match round {
            true => &["path", "path", "rect", "circle", "ellipse"],
            false => &[
                "path", "path", "path", "path", "rect", "circle", "ellipse", "line", "polyline",
                "polygon",
            ],
        };
        let tag = self.dice.pick(tags);
        let mut own = Vec::new();
        let mut put = |name: &str, value: String| own.push((name.to_owned(), value));
        match tag {
            "path" => put("d", path_data(&mut self.dice, hand, size)),
            "polyline" | "polygon" => put("points", self.points()),
            "line" => {
                for name in ["x1", "y1", "x2", "y2"] {
                    if !self.dice.once_in(6) || name == "x2" {
                        put(name, self.number(1.0, size));
                    }
                }
            }
            "rect" => {
                for name in ["x", "y"] {
                    if !self.dice.once_in(4) {
                        put(name, self.measure(-0.2 * size, size));
                    }
                }
                put("width", self.measure(0.1 * size, size));
                put("height", self.measure(0.1 * size, size));
                for name in ["rx", "ry"] {
                    if self.dice.once_in(3) {
                        let radius = self.number(0.01 * size, 0.6 * size);
                        put(name, radius);
                    }
                }
            }
            _ => {
                for name in ["cx", "cy"] {
                    if !self.dice.once_in(4) {
                        put(name, self.measure(-0.2 * size, size));
                    }
                }
                let radii: &[&str] = if tag == "circle" {
                    &["r"]
                } else {
                    &["rx", "ry"]
                };
                for name in radii {
                    put(name, self.measure(0.05 * size, 0.5 * size));
                }
            }
        }
        (tag, own)
    }

    /// A length, now and then with a unit.
    pub(crate) fn measure(&mut self, from: f64, to: f64) -> String {
        // CSS Values 4, section 6.2: the units in pixels.
        let (unit, px) = self.dice.pick(&[
            ("", 1.0),
            ("", 1.0),
            ("", 1.0),
            ("", 1.0),
            ("px", 1.0),
            ("mm", 96.0 / 25.4),
            ("pt", 4.0 / 3.0),
            ("in", 96.0),
            ("cm", 96.0 / 2.54),
            ("pc", 16.0),
            ("%", 1.0),
        ]);
        let unit = match unit {
            "%" if self.no_percent => "",
            unit => unit,
        };
        let value = self.dice.between(from, to) / px;
        let decimals = self.hand.decimals.max(2);
        let number = Hand {
            decimals,
            ..self.hand
        }
        .number(&mut self.dice, value);
        format!("{number}{unit}")
    }

    fn points(&mut self) -> String {
        let count = 3 + self.dice.below(20);
        let pair = self.dice.pick(&[",", " ", ", "]);
        let between = self.dice.pick(&[" ", "\n", "  ", ", "]);
        let points: Vec<String> = (0..count)
            .map(|_| {
                let (x, y) = (self.number(0.0, self.size), self.number(0.0, self.size));
                format!("{x}{pair}{y}")
            })
            .collect();
        points.join(between)
    }

    pub(crate) fn transform(&mut self) -> String {
        let size = self.size;
        let count = self.dice.pick(&[1, 1, 1, 2, 3]);
        let list: Vec<String> = (0..count)
            .map(|_| {
                let mut n = |from: f64, to: f64| {
                    let value = self.dice.between(from, to);
                    format!("{value:.5}")
                };
                let (kind, values) = match n(0.0, 8.0).as_bytes()[0] {
                    b'0' => ("translate", vec![n(-size, size)]),
                    b'1' => ("translate", vec![n(-size, size), n(-size, size)]),
                    b'2' => ("scale", vec![n(0.3, 2.0)]),
                    b'3' => ("scale", vec![n(0.3, 2.0), n(-2.0, -0.3)]),
                    b'4' => ("rotate", vec![n(-360.0, 360.0)]),
                    b'5' => ("rotate", vec![n(-180.0, 180.0), n(0.0, size), n(0.0, size)]),
                    b'6' => (
                        ["skewX", "skewY"][usize::from(n(0.0, 2.0).starts_with('1'))],
                        vec![n(-40.0, 40.0)],
                    ),
                    _ => (
                        "matrix",
                        vec![
                            n(0.5, 1.5),
                            n(-0.4, 0.4),
                            n(-0.4, 0.4),
                            n(-1.5, -0.5),
                            n(-size, size),
                            n(-size, size),
                        ],
                    ),
                };
                let between = self.dice.pick(&[",", " ", ", "]);
                let open = self.dice.pick(&["(", "( ", " ("]);
                format!("{kind}{open}{})", values.join(between))
            })
            .collect();
        list.join(self.dice.pick(&[" ", ",", "", "\n"]))
    }
}
