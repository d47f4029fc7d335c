//! How much work an SVG drawing may ask for, besides what is the same for all drawings.

/// How deep elements may be nested, counting each step through a `use`.
pub(super) const MAX_DEPTH: usize = 256;

/// How many bytes of attribute values and titles may be read, counting each use of one: 256 MiB.
pub(super) const MAX_READ: usize = 1 << 28;

/// How many tags, and how many attributes, a file may have.
pub(super) const MAX_MARKUP: usize = 5_000_000;

/// How many pairs of attributes, each pair in one element, a file may have.
pub(super) const MAX_ATTRIBUTE_PAIRS: usize = 1_000_000_000;

/// How many namespace declarations a file may have.
pub(super) const MAX_NAMESPACES: usize = 10_000;

/// How many bytes the entities of the document type may unfold to: 16 MiB.
pub(super) const MAX_ENTITY_TEXT: usize = 1 << 24;

/// How many steps the matching of style rules may take in all.
pub(super) const MAX_MATCHING: usize = 20_000_000;

/// How many bytes a compressed file may unfold to: 128 MiB.
pub(super) const MAX_UNPACKED: u64 = 1 << 27;
