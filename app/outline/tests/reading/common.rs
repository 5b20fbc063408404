//! What tests of outlines share.

use foldwright_engine::length::Length;
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::{Dot, Traced};
use foldwright_outline::{Drawing, Found, read};

/// The outlines in a drawing that is sound.
pub(crate) fn drawing(text: &str) -> Drawing {
    read(text).unwrap_or_else(|why| panic!("{why:?}: {text}"))
}

/// What stands in an `svg` element with these attributes.
pub(crate) fn svg(attributes: &str, inside: &str) -> String {
    format!("<svg xmlns=\"http://www.w3.org/2000/svg\" {attributes}>{inside}</svg>")
}

/// Width and height in millimetres.
pub(crate) fn mm(size: Size) -> [f64; 2] {
    [size.width, size.height].map(Length::as_mm_f64)
}

/// As large as the file says, with its holes.
pub(crate) fn whole(found: &Found) -> (Traced, Size) {
    let size = found.size().expect("it is told");
    found.traced(size.width, true).expect("it can be cut")
}

/// Its area in square millimetres, its holes taken off.
pub(crate) fn area((traced, size): &(Traced, Size)) -> f64 {
    let ring = |dots: &Vec<Dot>| {
        let next = dots.iter().cycle().skip(1);
        let twice = dots
            .iter()
            .zip(next)
            .map(|(a, b)| f64::from(a.0) * f64::from(b.1) - f64::from(b.0) * f64::from(a.1));
        (twice.sum::<f64>() / 2.0).abs()
    };
    let [width, height] = mm(*size);
    let holes = traced.holes.iter().map(ring).sum::<f64>();
    (ring(&traced.rim) - holes) * width * height / 1e10
}
