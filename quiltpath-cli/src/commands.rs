//! The subcommands, one a file.

pub(crate) mod align;
pub(crate) mod compare;
pub(crate) mod convert;
pub(crate) mod corner;
pub(crate) mod fit;
pub(crate) mod generate;
pub(crate) mod measure;
pub(crate) mod plan;
pub(crate) mod rank;
pub(crate) mod resume;
pub(crate) mod scan;
pub(crate) mod stitch;
pub(crate) mod stitched;
pub(crate) mod template;
pub(crate) mod transform;
pub(crate) mod trim;
