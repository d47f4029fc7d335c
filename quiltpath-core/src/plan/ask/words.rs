//! Values that a plan leaves out where they are the default.

/// Whether a value is that of its type by default.
#[cfg(feature = "json")]
pub(super) fn is_default<T: Default + PartialEq>(value: &T) -> bool {
    *value == T::default()
}
