//! From pixels to the millimetres of the drawing: by the sheet's marks, or by the width given.

use super::marks;
use super::net::Net;
use super::options::ScanOptions;
use crate::error::{Error, GeometryFault};
use crate::geom::{Bounds, Point, Vector};

/// What is less wide than this many pixels has no width to be sized by.
const LEAST_WIDTH: f64 = 1.0;

/// From pixels to the millimetres of the drawing.
pub(super) struct View<'a> {
    sheet: Option<&'a marks::Found>,
    /// Where the drawing begins, in pixels, or on the paper in millimetres.
    origin: Point,
    scale: f64,
    pub(super) pixel_mm: f64,
}

impl<'a> View<'a> {
    pub(super) fn of(
        net: &Net,
        sheet: Option<&'a marks::Found>,
        options: &ScanOptions,
    ) -> Result<Self, Error> {
        let place = |point: Point| sheet.map_or(point, |sheet| sheet.to_paper.map(point));
        let all = net
            .edges
            .iter()
            .flat_map(|edge| &edge.points)
            .chain(&net.nodes);
        let places: Vec<Point> = all.map(|&point| place(point)).collect();
        let bounds = Bounds::of_nonempty(&places);
        let origin = match (options.width_mm, sheet) {
            (None, Some(sheet)) => sheet.blank.drawing_box().min,
            _ => bounds.min,
        };
        let pixel = match sheet {
            Some(sheet) => {
                let middle = sheet.to_picture.map(bounds.centre());
                let beside = [middle, middle + Vector::x()].map(|at| sheet.to_paper.map(at));
                (beside[1] - beside[0]).norm()
            }
            None => 1.0,
        };
        let scale = match (options.width_mm, sheet, options.pixel_mm) {
            // An upright line is as wide as its centre was found wrong, by shares of a pixel.
            (Some(width), _, _) if bounds.width() > LEAST_WIDTH * pixel => width / bounds.width(),
            (None, Some(_), _) => 1.0,
            (None, None, Some(pixel)) => pixel,
            _ => return Err(GeometryFault::NoSize { axis: "width" }.into()),
        };
        Ok(Self {
            sheet,
            origin,
            scale,
            pixel_mm: pixel * scale,
        })
    }

    pub(super) fn map(&self, point: Point) -> Point {
        let place = self.sheet.map_or(point, |sheet| sheet.to_paper.map(point));
        Point::from((place - self.origin) * self.scale)
    }
}
