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
#[non_exhaustive]
pub struct Terminals {
    /// Where the path starts; `None` for the best place.
    pub start: Option<f64>,
    /// Where the path ends; `None` for the best place.
    pub end: Option<f64>,
}

impl Terminals {
    /// The same, for a path that starts there; `None` for the best place.
    #[must_use]
    pub fn with_start(mut self, position: impl Into<Option<f64>>) -> Self {
        self.start = position.into();
        self
    }

    /// The same, for a path that ends there; `None` for the best place.
    #[must_use]
    pub fn with_end(mut self, position: impl Into<Option<f64>>) -> Self {
        self.end = position.into();
        self
    }
}

/// What a route may and must do. Lengths are in the unit of the pieces.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[non_exhaustive]
pub struct RouteOptions {
    /// How much the route may depart from the drawing.
    pub order: JoinOrder,
    /// Where the path starts and ends.
    pub terminals: Terminals,
    /// Whether a piece may be stitched over a second time where that helps: to come back from an
    /// end inside the region, or instead of a longer link. With [`JoinOrder::Free`] at any time,
    /// else only right after (or before) the piece itself. Without it an end inside the region that
    /// is no end of the path takes a thread cut.
    pub restitch: bool,
    /// Links longer than this are left out: there the thread is cut. The order is chosen first.
    pub max_link: Option<f64>,
    /// How far inside the boundary links run; 0 for on the boundary itself.
    pub inset: f64,
}

impl RouteOptions {
    /// The same options with this order.
    #[must_use]
    pub fn with_order(mut self, order: JoinOrder) -> Self {
        self.order = order;
        self
    }

    /// The same options with these ends of the path.
    #[must_use]
    pub fn with_terminals(mut self, terminals: Terminals) -> Self {
        self.terminals = terminals;
        self
    }

    /// The same options, pieces being stitched over a second time where that helps, or not.
    #[must_use]
    pub fn with_restitch(mut self, restitch: bool) -> Self {
        self.restitch = restitch;
        self
    }

    /// The same options, thread cuts taking the place of longer links; `None` for links of any
    /// length.
    #[must_use]
    pub fn with_max_link(mut self, length: impl Into<Option<f64>>) -> Self {
        self.max_link = length.into();
        self
    }

    /// The same options with links this far inside the boundary.
    #[must_use]
    pub fn with_inset(mut self, inset: f64) -> Self {
        self.inset = inset;
        self
    }
}
