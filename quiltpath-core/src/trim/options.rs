//! How pieces are to be joined: their order, where the path ends, and what links may do.

/// In which order the pieces of a drawing that was cut are joined.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(rename_all = "snake_case"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub enum JoinOrder {
    /// The drawn order and directions.
    Keep,
    /// The drawn order, each piece in either direction.
    #[cfg_attr(feature = "json", serde(rename = "reverse"))]
    KeepAndReverse,
    /// Any order, each piece in either direction.
    #[default]
    Free,
}

/// Where the path has to start and end: positions along the boundary from its first corner in
/// the order of the corners, or wherever is best.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Terminals {
    /// Where the path starts; `None` for the best place.
    pub start: Option<f64>,
    /// Where the path ends; `None` for the best place.
    pub end: Option<f64>,
}

/// What a route may and must do. Lengths are in the unit of the pieces.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct RouteOptions {
    /// How much the route may depart from the drawing.
    pub order: JoinOrder,
    /// Where the path starts and ends.
    pub terminals: Terminals,
    /// Whether a piece may be stitched over a second time where that helps: to come back from an
    /// end inside the region, or instead of a longer link. With [`JoinOrder::Free`] at any time, else
    /// only right after (or before) the piece itself. Without it an end inside the region that
    /// is no end of the path takes a thread cut.
    pub restitch: bool,
    /// Links longer than this are left out: there the thread is cut. The order is chosen first.
    pub max_link: Option<f64>,
    /// How far inside the boundary links run; 0 for on the boundary itself.
    pub inset: f64,
}
