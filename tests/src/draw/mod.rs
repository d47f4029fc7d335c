//! The demo artwork: invented motifs, each drawn as one continuous line.

pub mod block;
pub mod bloom;
pub mod border;
pub mod corner;
pub mod curl;
pub mod ease;
pub mod flowers;
pub mod pen;
pub mod ribbon;
#[cfg(test)]
mod tests;
pub mod vine;

use kurbo::{BezPath, PathEl, Point};
use quiltpath_core::Error;
use std::fmt::Write;

/// Every drawing: the file's name within the artwork folder, and its SVG text.
pub fn files() -> Vec<(&'static str, String)> {
    let border_size = (border::WIDTH, border::HEIGHT);
    let corner_size = (corner::SIDE, corner::SIDE);
    let vine_size = (vine::WIDTH, vine::HEIGHT);
    let border = svg("border", "Garden border", border_size, &border::border());
    let corner = svg("corner", "Garden corner", corner_size, &corner::corner());
    let vine = svg("vine", "Vine", vine_size, &vine::vine());
    let hook = svg("hook", "Hook corner", vine::HOOK, &vine::hook());
    let flowers_size = (flowers::WIDTH, flowers::HEIGHT);
    let flowers = svg(
        "flowers",
        "Flowers on stems",
        flowers_size,
        &flowers::flowers(),
    );
    let block_size = (block::SIDE, block::SIDE);
    let block = svg("block", "Rosette block", block_size, &block::block());
    let ribbon = svg("ribbon", "Ribbon", ribbon::RIBBON, &ribbon::ribbon());
    let knot = svg("knot", "Knot", ribbon::KNOT, &ribbon::knot());
    vec![
        ("demo/block.svg", block),
        ("demo/border.svg", border),
        ("demo/corner.svg", corner),
        ("motifs/flowers.svg", flowers),
        ("motifs/knot.svg", knot),
        ("motifs/ribbon.svg", ribbon),
        ("motifs/vine.svg", vine),
        ("motifs/hook-corner.svg", hook),
    ]
}

/// The pictures that no command makes: the file's name within the artwork folder, and its text.
///
/// # Errors
///
/// Those of the library that draws them.
pub fn pictures() -> Result<Vec<(&'static str, String)>, Error> {
    Ok(vec![("demo/pictures/ease.svg", ease::picture()?)])
}

/// Writes one line as an SVG drawing, in inches.
fn svg(id: &str, title: &str, (width, height): (f64, f64), line: &BezPath) -> String {
    format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" width="{width}in" height="{height}in" viewBox="0 0 {width} {height}">
<desc>invented demo motif, drawn by the project's own script</desc>
<path id="{id}" fill="none" stroke="black" stroke-width="0.03" d="{}"><title>{title}</title></path>
</svg>
"#,
        data(line)
    )
}

/// Path data with absolute commands, one to a line.
fn data(line: &BezPath) -> String {
    let mut text = String::new();
    for el in line {
        let (command, points): (char, &[Point]) = match el {
            PathEl::MoveTo(p) => ('M', &[p]),
            PathEl::LineTo(p) => ('L', &[p]),
            PathEl::CurveTo(a, b, p) => ('C', &[a, b, p]),
            PathEl::QuadTo(..) | PathEl::ClosePath => {
                unreachable!("the pen draws open lines of cubics")
            }
        };
        if command != 'M' {
            text.push('\n');
        }
        text.push(command);
        for (k, p) in points.iter().enumerate() {
            let gap = if k > 0 { " " } else { "" };
            write!(text, "{gap}{} {}", p.x, p.y).expect("writing to a string cannot fail");
        }
    }
    text
}
