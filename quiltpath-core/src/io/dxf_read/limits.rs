//! How much work a DXF may ask for, besides what is the same for all drawings.

/// How deep blocks may be inserted in blocks.
pub(super) const MAX_DEPTH: usize = 64;
