//! Which parts of a drawing are read: those inside the elements of given names.

use roxmltree::{Document, Node};

use crate::error::{DrawingFault, Error};

/// True when an element's id, or its attribute `label` of any namespace, is one of these.
pub(super) fn is_named(node: Node<'_, '_>, names: &[String]) -> bool {
    own_names(node).any(|own| names.iter().any(|name| name == own))
}

fn own_names<'a>(node: Node<'a, '_>) -> impl Iterator<Item = &'a str> {
    label(node).into_iter().chain(node.attribute("id"))
}

/// The label that a drawing program gives an element.
fn label<'a>(node: Node<'a, '_>) -> Option<&'a str> {
    let mut attributes = node.attributes();
    attributes
        .find(|attribute| attribute.name() == "label")
        .map(|attribute| attribute.value())
}

/// Refuses a name that nothing in the drawing has.
pub(super) fn check(document: &Document<'_>, names: &[String]) -> Result<(), Error> {
    let elements = || document.descendants().filter(Node::is_element);
    for name in names {
        if elements().any(|node| own_names(node).any(|own| own == name)) {
            continue;
        }
        let groups = elements().filter(|node| node.tag_name().name() == "g");
        let mut layers: Vec<String> = Vec::new();
        for name in groups.filter_map(|node| own_names(node).next()) {
            if !layers.iter().any(|known| known == name) {
                layers.push(name.to_owned());
            }
            if layers.len() == MAX_LISTED {
                break;
            }
        }
        let name = name.clone();
        return Err(DrawingFault::NoLayer { name, layers }.into());
    }
    Ok(())
}

/// How many names an error lists.
const MAX_LISTED: usize = 20;
