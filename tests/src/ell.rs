//! An L-shaped corner drawing that tests of quilts out of square share.

/// Its points, x to the right and y down: legs 2 deep and 5 long, both ends at one height of them.
pub const ELL: [(f64, f64); 10] = [
    (1.2, 5.0),
    (0.0, 4.0),
    (2.0, 3.0),
    (0.4, 1.5),
    (0.0, 0.4),
    (0.5, 0.0),
    (2.5, 0.3),
    (3.0, 2.0),
    (4.0, 0.0),
    (5.0, 1.2),
];
