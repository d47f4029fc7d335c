//! What shapes are in: groups, layers, symbols, pages, what cuts and hides; and what is no shape.

use std::fmt::Write as _;

use super::drawing::Drawing;
use super::look::Look;
use super::path_data::path_data;

impl Drawing {
    pub(crate) fn piece(&mut self) {
        const SEEN: [Look; 4] = [Look::Stroked, Look::Stroked, Look::Filled, Look::Both];
        const ALL: [Look; 7] = [
            Look::Stroked,
            Look::Filled,
            Look::Both,
            Look::Dashed,
            Look::Unpainted,
            Look::Hidden,
            Look::NotDisplayed,
        ];
        let deep = self.depth > 5;
        match self.dice.below(if deep { 4 } else { 16 }) {
            0..=2 => {
                self.shape(&SEEN);
            }
            3 => {
                self.shape(&ALL);
            }
            4..=6 => self.group(),
            7 => self.used_symbol(),
            8 => self.used_shape(),
            9 => self.nested_page(),
            10 => self.switch(),
            11 => self.not_displayed(),
            12 => self.invisible(),
            13 => self.cut(),
            14 => self.marked(),
            _ => self.flat_or_dot(),
        }
    }

    fn pieces(&mut self) {
        for _ in 0..1 + self.dice.below(3) {
            self.piece();
        }
    }

    fn group(&mut self) {
        self.made("group");
        let transform = self.transform();
        let id = self.fresh("g");
        let tag = self.dice.pick(&["g", "g", "g", "a"]);
        let mut attributes = vec![("id", id.as_str())];
        if !self.dice.once_in(3) {
            attributes.push(("transform", &transform));
        }
        let lock = self.dice.once_in(4);
        if lock {
            attributes.extend([("e:insensitive", "true"), ("xml:space", "preserve")]);
        }
        self.inside(tag, &attributes, Self::pieces);
    }

    /// A layer that can be asked for by its name.
    pub(crate) fn labelled(&mut self, at: usize) {
        self.made("layer");
        let label = ["Quilting", "Rand 2", "feather & vine", "Entwürfe"][at % 4];
        self.layer = Some(label.to_owned());
        self.known.layers.insert(label.to_owned(), Vec::new());
        let id = self.fresh("layer");
        let attributes = [("e:groupmode", "layer"), ("id", &id), ("e:label", label)];
        self.inside("g", &attributes, Self::pieces);
        self.layer = None;
    }

    fn used_symbol(&mut self) {
        self.made("symbol");
        let id = self.fresh("sym");
        let view = format!(
            "{} {} {} {}",
            self.dice.below(20),
            self.dice.below(20),
            20 + self.dice.below(100),
            20 + self.dice.below(100)
        );
        let aspect = self.aspect();
        let boxed = !self.dice.once_in(4);
        let mut attributes = vec![("id", id.as_str())];
        if boxed {
            attributes.extend([("viewBox", view.as_str()), ("preserveAspectRatio", aspect)]);
        }
        // What is in a symbol is seen where it is used.
        let known = self.known.seen.len();
        let held = self.layer.take();
        let make = |drawing: &mut Self| {
            drawing.no_percent = true;
            drawing.inside("symbol", &attributes, |drawing| {
                for _ in 0..1 + drawing.dice.below(2) {
                    drawing.shape(&[Look::Stroked, Look::Filled]);
                }
            });
            drawing.no_percent = false;
        };
        if self.dice.once_in(2) {
            self.aside(make);
        } else {
            make(self);
        }
        self.layer = held;
        let shapes = self.known.seen.split_off(known);
        let times = 1 + self.dice.below(2);
        for _ in 0..times {
            let sized = boxed && !self.dice.once_in(4);
            self.reference(&id, sized);
            for shape in &shapes {
                self.see(shape);
            }
        }
    }

    fn used_shape(&mut self) {
        self.made("use");
        let known = self.known.seen.len();
        let held = self.layer.take();
        let id = self.fresh("def");
        let mut shape = String::new();
        self.aside(|drawing| {
            let transform = drawing.transform();
            drawing.inside("g", &[("id", &id), ("transform", &transform)], |drawing| {
                shape = drawing.shape(&[Look::Stroked, Look::Both]);
            });
        });
        self.layer = held;
        self.known.seen.truncate(known);
        self.reference(&id, false);
        self.see(&shape);
    }

    fn reference(&mut self, id: &str, sized: bool) {
        let link = format!("#{id}");
        let href = self.dice.pick(&["href", "xlink:href"]);
        let (x, y) = (self.measure(-20.0, 60.0), self.measure(-20.0, 60.0));
        // `usvg` takes a percentage of a percentage here.
        let outside = std::mem::replace(&mut self.no_percent, true);
        let (width, height) = (self.measure(20.0, 200.0), self.measure(20.0, 200.0));
        self.no_percent = outside;
        let transform = self.transform();
        let mut attributes = vec![(href, link.as_str())];
        if href == "href" && self.dice.once_in(3) {
            attributes.push(("xlink:href", "#nowhere"));
        }
        if !self.dice.once_in(3) {
            attributes.extend([("x", x.as_str()), ("y", y.as_str())]);
        }
        if sized {
            attributes.extend([("width", width.as_str()), ("height", height.as_str())]);
        }
        if self.dice.once_in(2) {
            attributes.push(("transform", &transform));
        }
        self.line("use", &attributes);
    }

    fn aspect(&mut self) -> &'static str {
        self.dice.pick(&[
            "xMidYMid",
            "none",
            "xMinYMin meet",
            "xMaxYMax slice",
            "xMidYMin slice",
            "xMinYMax",
        ])
    }

    fn nested_page(&mut self) {
        self.made("nested page");
        let (x, y) = (self.measure(0.0, 50.0), self.measure(0.0, 50.0));
        let (width, height) = (self.measure(20.0, 300.0), self.measure(20.0, 300.0));
        let (left, top) = (self.number(-20.0, 20.0), self.number(-20.0, 20.0));
        let view = format!("{left} {top} 120 80");
        let aspect = self.aspect();
        let mut attributes = vec![("x", x.as_str()), ("y", y.as_str())];
        attributes.extend([("width", width.as_str()), ("height", height.as_str())]);
        if !self.dice.once_in(4) {
            attributes.extend([("viewBox", view.as_str()), ("preserveAspectRatio", aspect)]);
        }
        self.inside("svg", &attributes, Self::pieces);
    }

    /// The wrapper round private data and the plain drawing: the first that fits is drawn.
    fn switch(&mut self) {
        self.made("switch");
        self.note("<switch> element");
        let private = self.dice.once_in(2);
        self.inside("switch", &[], |drawing| {
            if private {
                let data = [
                    ("requiredExtensions", "http://example.org/private/"),
                    ("x", "0"),
                    ("y", "0"),
                    ("width", "1"),
                    ("height", "1"),
                ];
                drawing.inside("foreignObject", &data, |drawing| {
                    drawing.body.push_str("<e:pgf href='#data'/>");
                });
            } else {
                drawing.silent = true;
                drawing.inside("g", &[("systemLanguage", "de")], |drawing| {
                    drawing.shape(&[Look::Stroked]);
                });
                drawing.silent = false;
            }
            drawing.inside("g", &[], Self::pieces);
            // Only the first choice counts.
            drawing.silent = true;
            drawing.inside("g", &[], |drawing| {
                drawing.shape(&[Look::Stroked]);
            });
            drawing.silent = false;
        });
    }

    fn not_displayed(&mut self) {
        self.made("hidden layer");
        self.note("\"display: none\"");
        let attribute = self
            .dice
            .pick(&[("display", "none"), ("style", "display:none")]);
        self.silent = true;
        self.inside("g", &[attribute], |drawing| {
            for _ in 0..2 {
                drawing.shape(&[Look::Stroked, Look::Hidden]);
            }
        });
        self.silent = false;
    }

    /// Visibility is inherited, and what is inside may be seen again.
    fn invisible(&mut self) {
        self.made("invisible layer");
        let attribute = self
            .dice
            .pick(&[("visibility", "hidden"), ("style", "visibility:collapse")]);
        self.inside("g", &[attribute], |drawing| {
            drawing.silent = true;
            drawing.shape(&[Look::Stroked, Look::Filled]);
            drawing.silent = false;
            drawing.note("\"visibility: hidden\"");
            drawing.inside("g", &[("visibility", "visible")], |drawing| {
                drawing.shape(&[Look::Stroked, Look::Filled]);
            });
        });
    }

    /// Clipped, masked or blurred: what is drawn stays whole.
    fn cut(&mut self) {
        let id = self.fresh("clip");
        let (tag, property, units) = self.dice.pick(&[
            ("clipPath", "clip-path", "clipPathUnits"),
            ("mask", "mask", "maskUnits"),
            ("filter", "filter", "filterUnits"),
        ]);
        self.made(property);
        // Without that a level line has no box to be cut by, and `usvg` leaves it out.
        let units = (units, "userSpaceOnUse");
        let attributes = [
            ("id", id.as_str()),
            units,
            ("width", "999"),
            ("height", "999"),
        ];
        self.aside(|drawing| {
            drawing.inside(tag, &attributes, |drawing| match tag {
                "filter" => drawing.line("feGaussianBlur", &[("stdDeviation", "2")]),
                _ => {
                    let filled = [("width", "50"), ("height", "50"), ("fill", "white")];
                    drawing.line("rect", &filled);
                }
            });
        });
        if tag != "filter" {
            self.note("with a clip path or a mask");
        }
        let link = format!("url(#{id})");
        let style = format!("{property}:{link}");
        let attribute = match self.dice.once_in(2) {
            true => (property, link.as_str()),
            false => ("style", style.as_str()),
        };
        self.inside("g", &[attribute], |drawing| {
            drawing.shape(&[Look::Stroked, Look::Both]);
        });
    }

    /// A line with arrows, and one painted with a gradient.
    fn marked(&mut self) {
        self.made("marker");
        let (marker, gradient) = (self.fresh("marker"), self.fresh("gradient"));
        self.aside(|drawing| {
            drawing.inside(
                "marker",
                &[("id", &marker), ("orient", "auto"), ("overflow", "visible")],
                |drawing| {
                    drawing.line(
                        "path",
                        &[
                            ("d", "M0 0L-4 2V-2Z"),
                            ("fill", "none"),
                            ("stroke", "#a1b2c3"),
                        ],
                    );
                },
            );
            let ends = [("id", gradient.as_str()), ("x1", "0"), ("x2", "1")];
            drawing.inside("linearGradient", &ends, |drawing| {
                drawing.line("stop", &[("offset", "0"), ("stop-color", "red")]);
                drawing.line("stop", &[("offset", "1"), ("stop-color", "blue")]);
            });
        });
        let (marker, gradient) = (format!("url(#{marker})"), format!("url(#{gradient})"));
        let id = self.fresh("arrow");
        let data = path_data(&mut self.dice, self.hand, self.size);
        self.line(
            "path",
            &[
                ("id", &id),
                ("d", &data),
                ("fill", "none"),
                ("stroke", "black"),
                ("marker-end", &marker),
                ("marker-mid", &marker),
            ],
        );
        self.see(&id);
        let id = self.fresh("shaded");
        self.line("circle", &[("id", &id), ("r", "12"), ("fill", &gradient)]);
        self.see(&id);
    }

    fn flat_or_dot(&mut self) {
        if self.dice.once_in(2) {
            self.made("flat");
            self.note("no area");
            self.silent = true;
            let transform = self
                .dice
                .pick(&["scale(0)", "scale(1,0)", "matrix(0 0 0 0 1 2)"]);
            self.inside("g", &[("transform", transform)], |drawing| {
                drawing.shape(&[Look::Stroked]);
            });
            self.silent = false;
        } else {
            self.made("dot");
            self.note("with dots");
            let data = self.dice.pick(&["M5 5h0", "m9,3 0,0", "M1 2L1 2", "M3 3z"]);
            self.line(
                "path",
                &[
                    ("d", data),
                    ("stroke", "#d4e5f6"),
                    ("stroke-linecap", "round"),
                    ("fill", "none"),
                ],
            );
        }
    }

    /// The box of the page that many sets of drawings carry, unseen.
    pub(crate) fn page_box(&mut self) {
        self.made("page box");
        self.note("that can't be seen");
        let (tag, shape) = self.dice.pick(&[
            ("path", ("d", "M0 0h24v24H0z")),
            ("rect", ("width", "100%")),
        ]);
        let rest = [("height", "24"), ("fill", "none"), ("stroke", "none")];
        self.line(tag, &[shape, rest[0], rest[1], rest[2]]);
    }

    /// Words, pictures, comments, and elements of the editor's own.
    pub(crate) fn decoration(&mut self) {
        if self.dice.once_in(2) {
            self.made("text");
            self.note("<text> element");
            self.inside("text", &[("x", "3"), ("y", "4")], |drawing| {
                let prefix = drawing.prefix;
                let _ = write!(
                    drawing.body,
                    "<{prefix}tspan dy=\"3\">Mein Rand, 4½</{prefix}tspan>"
                );
            });
        }
        if self.dice.once_in(3) {
            self.made("image");
            self.note("<image> element");
            self.line(
                "image",
                &[
                    ("width", "9"),
                    ("height", "9"),
                    ("xlink:href", "data:image/png;base64,iVBORw0KGgo="),
                ],
            );
        }
        if self.dice.once_in(2) {
            self.made("foreign");
            self.body
                .push_str("<!-- <path d=\"M0 0h99\" stroke=\"red\"/> --><e:path d=\"M0 0h99\"/><?editor <path d='M0 0h9'/>?>");
            let prefix = self.prefix;
            let _ = write!(
                self.body,
                "<{prefix}desc><![CDATA[<path d='M0 0h9'/>]]></{prefix}desc>"
            );
        }
    }
}
