//! SVG drawings out.
