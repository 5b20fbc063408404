//! Basic shapes (SVG 2, §10) as curves.

use kurbo::{BezPath, Point, SvgArc, Vec2};
use roxmltree::Node;
use svgtypes::PointsParser;

use crate::frame::{Along, length};
use crate::path::{arc, path};

/// The curves of a shape; `None` where a length or its data can't be read. A shape that
/// is not drawn, since it has no size, is empty.
pub(crate) fn shape(node: Node<'_, '_>, room: [f64; 2]) -> Option<BezPath> {
    let number = |name: &str, along| match node.attribute(name) {
        Some(text) => length(text, room, along),
        None => Some(0.0),
    };
    match node.tag_name().name() {
        "path" => path(node.attribute("d").unwrap_or_default()),
        "rect" => rect(node, room),
        "circle" => {
            let radius = number("r", Along::Both)?;
            let centre = Point::new(number("cx", Along::Width)?, number("cy", Along::Height)?);
            Some(ellipse(centre, [radius, radius]))
        }
        "ellipse" => {
            let [rx, ry] = radii(node, room)?;
            let centre = Point::new(number("cx", Along::Width)?, number("cy", Along::Height)?);
            Some(ellipse(centre, [rx, ry]))
        }
        "polygon" | "polyline" => {
            let mut corners = BezPath::new();
            let points = node.attribute("points").unwrap_or_default();
            for (x, y) in PointsParser::from(points) {
                let at = Point::new(crate::frame::sound(x)?, crate::frame::sound(y)?);
                if corners.elements().is_empty() {
                    corners.move_to(at);
                } else {
                    corners.line_to(at);
                }
            }
            if node.tag_name().name() == "polygon" && !corners.elements().is_empty() {
                corners.close_path();
            }
            Some(corners)
        }
        _ => None,
    }
}

/// `rx` and `ry`: each is the other where it is not told, or `auto`.
fn radii(node: Node<'_, '_>, room: [f64; 2]) -> Option<[f64; 2]> {
    let told = |name: &str, along| match node.attribute(name) {
        None | Some("auto") => Some(None),
        Some(text) => length(text, room, along).map(Some),
    };
    let (rx, ry) = (told("rx", Along::Width)?, told("ry", Along::Height)?);
    let known = rx.or(ry).unwrap_or(0.0);
    Some([rx.unwrap_or(known), ry.unwrap_or(known)])
}

fn rect(node: Node<'_, '_>, room: [f64; 2]) -> Option<BezPath> {
    let number = |name: &str, along| match node.attribute(name) {
        Some(text) => length(text, room, along),
        None => Some(0.0),
    };
    let (x, y) = (number("x", Along::Width)?, number("y", Along::Height)?);
    let (wide, high) = (
        number("width", Along::Width)?,
        number("height", Along::Height)?,
    );
    let mut path = BezPath::new();
    if wide <= 0.0 || high <= 0.0 {
        return Some(path);
    }
    let [rx, ry] = radii(node, room)?;
    let (rx, ry) = (rx.clamp(0.0, wide / 2.0), ry.clamp(0.0, high / 2.0));
    let (right, below) = (x + wide, y + high);
    let corners = [
        [(right - rx, y), (right, y + ry)],
        [(right, below - ry), (right - rx, below)],
        [(x + rx, below), (x, below - ry)],
        [(x, y + ry), (x + rx, y)],
    ];
    path.move_to((x + rx, y));
    for [from, to] in corners {
        path.line_to(from);
        if rx > 0.0 && ry > 0.0 {
            quarter(&mut path, from.into(), to.into(), [rx, ry]);
        }
    }
    path.close_path();
    Some(path)
}

fn ellipse(centre: Point, [rx, ry]: [f64; 2]) -> BezPath {
    let mut path = BezPath::new();
    if rx <= 0.0 || ry <= 0.0 {
        return path;
    }
    let at = |x: f64, y: f64| centre + Vec2::new(x * rx, y * ry);
    let stops = [at(1.0, 0.0), at(0.0, 1.0), at(-1.0, 0.0), at(0.0, -1.0)];
    path.move_to(stops[0]);
    for (from, to) in stops.iter().zip(stops.iter().cycle().skip(1)) {
        quarter(&mut path, *from, *to, [rx, ry]);
    }
    path.close_path();
    path
}

/// A quarter of an ellipse along the axes, the way y grows from x.
fn quarter(path: &mut BezPath, from: Point, to: Point, [rx, ry]: [f64; 2]) {
    arc(
        path,
        SvgArc {
            from,
            to,
            radii: Vec2::new(rx, ry),
            x_rotation: 0.0,
            large_arc: false,
            sweep: true,
        },
    );
}
