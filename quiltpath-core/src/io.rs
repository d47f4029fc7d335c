//! Formats: bytes to drawings, point lists and plans, and solved plans back to text.

#[cfg(feature = "json")]
pub mod json;
#[cfg(feature = "svg")]
pub mod picture;
