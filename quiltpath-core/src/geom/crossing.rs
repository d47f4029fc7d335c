//! Self-crossings of a line (filled in below).
