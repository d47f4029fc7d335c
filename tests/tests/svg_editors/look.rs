//! How a shape is painted, and the many ways in which a file says so.

use super::dice::Dice;

/// What can be seen of a shape.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Look {
    Stroked,
    Filled,
    Both,
    Dashed,
    /// No paint, or a paint that nobody can see.
    Unpainted,
    Hidden,
    NotDisplayed,
}

impl Look {
    /// The properties that make a shape look like this.
    pub(crate) fn properties(self, dice: &mut Dice) -> Vec<(&'static str, &'static str)> {
        let colour = dice.pick(&["black", "#123456", "#abc", "rgb(1, 2,3)", "currentColor"]);
        let wide = dice.pick(&["1", "0.5mm", "2px", ".25"]);
        let stroked = vec![("fill", "none"), ("stroke", colour), ("stroke-width", wide)];
        let with = |more: &[(&'static str, &'static str)]| [&stroked[..], more].concat();
        match self {
            Self::Stroked => stroked,
            Self::Filled => vec![("fill", colour), ("stroke", "none")],
            Self::Both => vec![("fill", "white"), ("stroke", colour)],
            Self::Dashed => with(&[("stroke-dasharray", dice.pick(&["4 2", "1,1", "3"]))]),
            Self::Hidden => with(&[("visibility", "hidden")]),
            Self::NotDisplayed => with(&[("display", "none")]),
            Self::Unpainted => match dice.below(5) {
                0 => with(&[("opacity", "0")]),
                1 => with(&[("stroke-opacity", "0")]),
                2 => vec![("fill", "none"), ("stroke", colour), ("stroke-width", "0")],
                3 => vec![("fill", colour), ("fill-opacity", "0"), ("stroke", "none")],
                _ => vec![("fill", "none"), ("stroke", "none")],
            },
        }
    }
}

/// Where a look is said. Those that come later beat those before, by SVG 2 and CSS.
#[derive(Clone, Copy, PartialEq, Eq, Debug, PartialOrd, Ord)]
pub(crate) enum Way {
    Attributes,
    Group,
    Class,
    TwoClasses,
    Attribute,
    Child,
    Descendant,
    Id,
    Style,
    Important,
}

pub(crate) const WAYS: [Way; 10] = [
    Way::Attributes,
    Way::Group,
    Way::Class,
    Way::TwoClasses,
    Way::Attribute,
    Way::Child,
    Way::Descendant,
    Way::Id,
    Way::Style,
    Way::Important,
];

/// What is written for one shape so that it has its look.
#[derive(Default)]
pub(crate) struct Written {
    /// Attributes of the shape, without its id.
    pub(crate) attributes: Vec<(String, String)>,
    /// A rule for the style sheet.
    pub(crate) rule: Option<String>,
    /// Attributes of a group of its own round the shape.
    pub(crate) group: Option<Vec<(String, String)>>,
}

/// Says the look of the element `tag` with this id. `name` is free for a class.
pub(crate) fn write(
    dice: &mut Dice,
    look: Look,
    way: Way,
    tag: &str,
    id: &str,
    name: &str,
) -> Written {
    let properties = look.properties(dice);
    let own = |properties: &[(&str, &str)]| -> Vec<(String, String)> {
        let pairs = properties.iter();
        pairs
            .map(|(name, value)| ((*name).to_owned(), (*value).to_owned()))
            .collect()
    };
    let block = |dice: &mut Dice, important: &str| declarations(dice, &properties, important);
    let mut written = Written::default();
    let class = |name: &str| ("class".to_owned(), name.to_owned());
    match way {
        Way::Attributes => written.attributes = own(&properties),
        Way::Group => written.group = Some(own(&properties)),
        Way::Class | Way::TwoClasses | Way::Important => {
            let selector = match way {
                Way::TwoClasses => format!("{tag}.{name}.also"),
                Way::Class if dice.once_in(2) => format!(".never,.{name}"),
                _ => format!(".{name}"),
            };
            let important = if way == Way::Important {
                "!important"
            } else {
                ""
            };
            written.rule = Some(format!("{selector}{}", block(dice, important)));
            written.attributes.push(class(&match way {
                Way::TwoClasses => format!(" also  {name} "),
                _ => name.to_owned(),
            }));
        }
        Way::Attribute => {
            written.rule = Some(format!("[data-look={name}]{}", block(dice, "")));
            written
                .attributes
                .push(("data-look".to_owned(), name.to_owned()));
        }
        Way::Child | Way::Descendant => {
            let joint = match way {
                Way::Child => dice.pick(&[" > ", ">"]),
                _ => " ",
            };
            let last = dice.pick(&[tag, "*"]);
            written.rule = Some(format!(".{name}{joint}{last}{}", block(dice, "")));
            written.group = Some(vec![class(name)]);
        }
        Way::Id => written.rule = Some(format!("#{id}{}", block(dice, ""))),
        Way::Style => {
            let block = block(dice, "");
            let inside = block.trim_start_matches([' ', '{']).trim_end_matches('}');
            written
                .attributes
                .push(("style".to_owned(), inside.to_owned()));
        }
    }
    // What is weaker may say the contrary.
    if way > Way::Group && dice.once_in(3) {
        let contrary = properties
            .iter()
            .map(|(name, value)| (*name, contrary(name, value)));
        written
            .attributes
            .extend(own(&contrary.collect::<Vec<_>>()));
    }
    if way == Way::Important {
        let contrary = properties
            .iter()
            .map(|(name, value)| format!("{name}:{}", contrary(name, value)));
        let style = contrary.collect::<Vec<_>>().join(";");
        written.attributes.push(("style".to_owned(), style));
    }
    written
}

fn contrary(name: &str, value: &str) -> &'static str {
    match (name, value) {
        ("fill" | "stroke", "none") => "red",
        ("display", _) => "inline",
        ("visibility", _) => "visible",
        ("fill" | "stroke" | "stroke-dasharray", _) => "none",
        (_, "0") => "1",
        _ => "0",
    }
}

/// A block of declarations, with other properties in it and blanks as they come.
fn declarations(dice: &mut Dice, properties: &[(&str, &str)], important: &str) -> String {
    let mut all: Vec<String> = properties
        .iter()
        .map(|(name, value)| format!("{name}:{}{value}{important}", dice.pick(&["", " "])))
        .collect();
    for _ in 0..dice.below(3) {
        let other = dice.pick(&[
            "stroke-linecap:round",
            "font-family:'Plain; Sans'",
            "-edit-mode:edges",
            "paint-order:stroke markers",
            "marker:none",
            "enable-background:new",
        ]);
        all.insert(dice.below(all.len() + 1), other.to_owned());
    }
    let between = dice.pick(&[";", "; ", ";\n  ", " ; "]);
    let end = dice.pick(&["", ";", ";\n"]);
    let open = dice.pick(&["{", " {", "{ "]);
    format!("{open}{}{end}}}", all.join(between))
}
