//! Lengths, `viewBox` and viewports (SVG 2, §8; units of CSS Values and Units 3, §6.2).

use kurbo::{Affine, Vec2};
use roxmltree::Node;
use svgtypes::{Align, AspectRatio, Length, LengthUnit, ViewBox};

/// A millimetre has so many pixels: CSS has 96 to the inch.
pub(crate) const PX_A_MM: f64 = 96.0 / 25.4;

/// What user units mean somewhere.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Frame {
    /// From user units to millimetres, with y up; to units of the drawing where its size
    /// is not told.
    pub(crate) place: Affine,
    /// Width and height of the viewport in user units, which percentages are of.
    pub(crate) room: [f64; 2],
    /// Whether the file tells how large it is.
    pub(crate) told: bool,
}

/// What a length is measured along, where it is told in percent.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Along {
    Width,
    Height,
    Both,
}

/// A length in user units; `None` where that is not known without a font, or it can't
/// be read.
pub(crate) fn length(text: &str, room: [f64; 2], along: Along) -> Option<f64> {
    let Length { number, unit } = text.trim().parse().ok()?;
    let whole = match along {
        Along::Width => room[0],
        Along::Height => room[1],
        // SVG 2, §8.9: the diagonal over the root of two.
        Along::Both => (room[0].hypot(room[1])) / std::f64::consts::SQRT_2,
    };
    if unit == LengthUnit::Percent {
        return sound(number * whole / 100.0);
    }
    absolute(number, unit)
}

/// A length in pixels that nothing else is needed for.
fn absolute(number: f64, unit: LengthUnit) -> Option<f64> {
    let pixels = match unit {
        LengthUnit::None | LengthUnit::Px => 1.0,
        LengthUnit::In => 96.0,
        LengthUnit::Cm => PX_A_MM * 10.0,
        LengthUnit::Mm => PX_A_MM,
        LengthUnit::Pt => 96.0 / 72.0,
        LengthUnit::Pc => 16.0,
        LengthUnit::Em | LengthUnit::Ex | LengthUnit::Percent => return None,
    };
    sound(number * pixels)
}

/// Numbers beyond are none of a drawing. Our own bound.
pub(crate) fn sound(number: f64) -> Option<f64> {
    (number.abs() <= 1e9).then_some(number)
}

/// How a `viewBox` fits into a viewport (SVG 2, §8.2).
fn fit(view: ViewBox, room: [f64; 2], aspect: AspectRatio) -> Affine {
    let scale = [room[0] / view.w, room[1] / view.h];
    let even = if aspect.slice {
        scale[0].max(scale[1])
    } else {
        scale[0].min(scale[1])
    };
    let (scale, [x, y]) = match aspect.align {
        Align::None => (scale, [0.0, 0.0]),
        Align::XMinYMin => ([even; 2], [0.0, 0.0]),
        Align::XMidYMin => ([even; 2], [0.5, 0.0]),
        Align::XMaxYMin => ([even; 2], [1.0, 0.0]),
        Align::XMinYMid => ([even; 2], [0.0, 0.5]),
        Align::XMidYMid => ([even; 2], [0.5, 0.5]),
        Align::XMaxYMid => ([even; 2], [1.0, 0.5]),
        Align::XMinYMax => ([even; 2], [0.0, 1.0]),
        Align::XMidYMax => ([even; 2], [0.5, 1.0]),
        Align::XMaxYMax => ([even; 2], [1.0, 1.0]),
    };
    let spare = Vec2::new(
        x * (room[0] - view.w * scale[0]),
        y * (room[1] - view.h * scale[1]),
    );
    Affine::translate(spare)
        * Affine::scale_non_uniform(scale[0], scale[1])
        * Affine::translate(Vec2::new(-view.x, -view.y))
}

fn aspect(node: Node<'_, '_>) -> AspectRatio {
    let text = node.attribute("preserveAspectRatio").unwrap_or_default();
    text.parse().unwrap_or(AspectRatio {
        defer: false,
        align: Align::XMidYMid,
        slice: false,
    })
}

/// The `viewBox` of an element; an error where it can't be read or is empty.
fn view_box(node: Node<'_, '_>) -> Result<Option<ViewBox>, ()> {
    let Some(text) = node.attribute("viewBox") else {
        return Ok(None);
    };
    let view: ViewBox = text.parse().map_err(|_| ())?;
    let numbers = [view.x, view.y, view.w, view.h];
    let is_sound = numbers.into_iter().all(|number| sound(number).is_some());
    (is_sound && view.w > 0.0 && view.h > 0.0)
        .then_some(Some(view))
        .ok_or(())
}

impl Frame {
    /// That of the outermost element. Its size is told where its width or its height is,
    /// in a unit that needs no window.
    pub(crate) fn of_root(node: Node<'_, '_>) -> Option<Self> {
        let side = |name: &str| {
            let Length { number, unit } = node.attribute(name)?.trim().parse().ok()?;
            absolute(number, unit)
        };
        let (width, height) = (side("width"), side("height"));
        if width.is_some_and(|it| it <= 0.0) || height.is_some_and(|it| it <= 0.0) {
            return None;
        }
        let view = view_box(node).ok()?;
        let room = match (width, height, view) {
            (Some(width), Some(height), _) => Some([width, height]),
            (Some(width), None, Some(view)) => Some([width, width * view.h / view.w]),
            (None, Some(height), Some(view)) => Some([height * view.w / view.h, height]),
            (Some(side), None, None) | (None, Some(side), None) => Some([side, side]),
            (None, None, _) => None,
        };
        let inside = match (room, view) {
            (Some(room), Some(view)) => fit(view, room, aspect(node)),
            _ => Affine::IDENTITY,
        };
        let unit = if room.is_some() { 1.0 / PX_A_MM } else { 1.0 };
        let own = view.map(|view| [view.w, view.h]).or(room);
        Some(Self {
            place: Affine::scale_non_uniform(unit, -unit) * inside,
            room: own.unwrap_or([0.0, 0.0]),
            told: room.is_some(),
        })
    }

    /// That of a viewport within it: of an `svg` element, or of a `symbol` that `by`
    /// draws.
    pub(crate) fn within(self, node: Node<'_, '_>, by: Option<Node<'_, '_>>) -> Option<Self> {
        let text = |name: &str| {
            let outer = by.and_then(|by| by.attribute(name));
            outer.or_else(|| node.attribute(name))
        };
        let side = |name: &str, along| match text(name) {
            None | Some("auto") => length("100%", self.room, along),
            Some(text) => length(text, self.room, along),
        };
        let corner = |name: &str, along| match (by, node.attribute(name)) {
            (None, Some(text)) => length(text, self.room, along),
            _ => Some(0.0),
        };
        let room = [side("width", Along::Width)?, side("height", Along::Height)?];
        let at = Vec2::new(corner("x", Along::Width)?, corner("y", Along::Height)?);
        let view = view_box(node).ok()?;
        let inside = match view {
            Some(view) if room[0] > 0.0 && room[1] > 0.0 => fit(view, room, aspect(node)),
            Some(_) => return None,
            None => Affine::IDENTITY,
        };
        Some(Self {
            place: self.place * Affine::translate(at) * inside,
            room: view.map_or(room, |view| [view.w, view.h]),
            told: self.told,
        })
    }

    /// The same, moved by an element's `transform`; `None` where that can't be read.
    pub(crate) fn moved(self, node: Node<'_, '_>) -> Option<Self> {
        let Some(text) = node.attribute("transform") else {
            return Some(self);
        };
        let to: svgtypes::Transform = text.trim().parse().ok()?;
        let numbers = [to.a, to.b, to.c, to.d, to.e, to.f];
        let is_sound = numbers.into_iter().all(|number| sound(number).is_some());
        is_sound.then(|| Self {
            place: self.place * Affine::new(numbers),
            ..self
        })
    }
}
