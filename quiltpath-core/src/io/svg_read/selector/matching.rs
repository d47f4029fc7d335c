//! Selectors as their parts, and whether an element matches them.

use std::cell::Cell;

use roxmltree::Node;

use crate::io::svg_read::limits::MAX_MATCHING;

/// How strong a selector is: ids, classes and the like, types.
pub(in crate::io::svg_read) type Strength = [usize; 3];

#[derive(Debug, Clone, PartialEq)]
pub(in crate::io::svg_read) struct Selector {
    /// From left to right; the last describes the element itself.
    pub(super) parts: Vec<(Combinator, Vec<Test>)>,
    pub(in crate::io::svg_read) strength: Strength,
}

/// How a compound stands to the one before it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Combinator {
    Inside,
    Child,
    Next,
    After,
}

#[derive(Debug, Clone, PartialEq)]
pub(super) enum Test {
    Any,
    Type(String),
    Id(String),
    Class(String),
    Attribute(String, Operator, String),
    Place {
        step: i64,
        offset: i64,
        from_end: bool,
        of_type: bool,
    },
    Root,
    Empty,
    Never,
    /// One of these (`true`), or none of them.
    Choice(bool, Vec<Selector>),
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Operator {
    Exists,
    Is,
    Word,
    Dash,
    Start,
    End,
    Part,
}

/// What an element needs at least for a selector to match it, to look rules up by.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub(in crate::io::svg_read) enum Key {
    Id(String),
    Class(String),
    Type(String),
    Any,
}

/// Counts the steps of matching, which hostile selectors can make endless.
#[derive(Debug, Default)]
pub(in crate::io::svg_read) struct Budget(Cell<usize>);

impl Budget {
    /// Takes steps; false when there are none left.
    pub(in crate::io::svg_read) fn take(&self, steps: usize) -> bool {
        self.0.set(self.0.get().saturating_add(steps));
        !self.is_spent()
    }

    pub(in crate::io::svg_read) fn is_spent(&self) -> bool {
        self.0.get() > MAX_MATCHING
    }
}

impl Selector {
    pub(in crate::io::svg_read) fn key(&self) -> Key {
        let tests = self.parts.last().map_or(&[][..], |(_, tests)| tests);
        let of = |found: fn(&Test) -> Option<Key>| tests.iter().find_map(found);
        of(|test| match test {
            Test::Id(id) => Some(Key::Id(id.clone())),
            _ => None,
        })
        .or_else(|| {
            of(|test| match test {
                Test::Class(name) => Some(Key::Class(name.clone())),
                _ => None,
            })
        })
        .or_else(|| {
            of(|test| match test {
                Test::Type(name) => Some(Key::Type(name.clone())),
                _ => None,
            })
        })
        .unwrap_or(Key::Any)
    }

    pub(in crate::io::svg_read) fn matches(&self, node: Node<'_, '_>, budget: &Budget) -> bool {
        self.matches_to(self.parts.len(), node, budget)
    }

    /// Whether the first `count` parts match, the last of them this element.
    fn matches_to(&self, count: usize, node: Node<'_, '_>, budget: &Budget) -> bool {
        let Some((combinator, tests)) = count.checked_sub(1).and_then(|at| self.parts.get(at))
        else {
            return true;
        };
        if !tests.iter().all(|test| test.holds(node, budget)) {
            return false;
        }
        if count == 1 {
            return true;
        }
        let next = |node: Node<'_, '_>| budget.take(1) && self.matches_to(count - 1, node, budget);
        match combinator {
            Combinator::Child => node.parent_element().is_some_and(next),
            Combinator::Next => node.prev_sibling_element().is_some_and(next),
            Combinator::Inside => {
                std::iter::successors(node.parent_element(), Node::parent_element)
                    .take_while(|_| !budget.is_spent())
                    .any(next)
            }
            Combinator::After => {
                std::iter::successors(node.prev_sibling_element(), Node::prev_sibling_element)
                    .take_while(|_| !budget.is_spent())
                    .any(next)
            }
        }
    }
}

impl Test {
    pub(super) fn strength(&self) -> Strength {
        match self {
            Self::Any => [0, 0, 0],
            Self::Type(_) => [0, 0, 1],
            Self::Id(_) => [1, 0, 0],
            Self::Choice(_, selectors) => {
                let strengths = selectors.iter().map(|selector| selector.strength);
                strengths.max().unwrap_or_default()
            }
            _ => [0, 1, 0],
        }
    }

    fn holds(&self, node: Node<'_, '_>, budget: &Budget) -> bool {
        budget.take(1);
        match self {
            Self::Any => true,
            Self::Type(name) => node.tag_name().name() == name,
            Self::Id(id) => node.attribute("id") == Some(id),
            Self::Class(name) => node.attribute("class").is_some_and(|classes| {
                budget.take(classes.len() / 8);
                classes.split_ascii_whitespace().any(|class| class == name)
            }),
            Self::Attribute(name, operator, wanted) => {
                node.attribute(name.as_str()).is_some_and(|value| {
                    budget.take(value.len() / 8);
                    operator.holds(value, wanted)
                })
            }
            Self::Place {
                step,
                offset,
                from_end,
                of_type,
            } => {
                let mut place = 1;
                let mut at = node;
                while let Some(other) = match from_end {
                    true => at.next_sibling_element(),
                    false => at.prev_sibling_element(),
                } {
                    if !budget.take(1) {
                        return false;
                    }
                    if !of_type || other.tag_name() == node.tag_name() {
                        place += 1;
                    }
                    at = other;
                }
                let past = place - offset;
                match step {
                    0 => past == 0,
                    step => past % step == 0 && past / step >= 0,
                }
            }
            Self::Root => node.parent_element().is_none(),
            Self::Empty => !node.has_children(),
            Self::Never => false,
            Self::Choice(wanted, selectors) => {
                let any = selectors.iter().any(|one| one.matches(node, budget));
                any == *wanted
            }
        }
    }
}

impl Operator {
    fn holds(self, value: &str, wanted: &str) -> bool {
        match self {
            Self::Exists => true,
            Self::Is => value == wanted,
            Self::Word => value.split_ascii_whitespace().any(|word| word == wanted),
            Self::Dash => {
                let rest = value.strip_prefix(wanted);
                rest.is_some_and(|rest| rest.is_empty() || rest.starts_with('-'))
            }
            _ if wanted.is_empty() => false,
            Self::Start => value.starts_with(wanted),
            Self::End => value.ends_with(wanted),
            Self::Part => value.contains(wanted),
        }
    }
}
