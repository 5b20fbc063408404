//! Pages as Poppler's `pdftoppm` draws them, and the square codes that the crate `rqrr`
//! finds there.

use std::process::Command;

use rqrr::PreparedImage;

use crate::kept::Kept;

/// What is drawn on a page, in shades of grey: a portable graymap (Netpbm, `pgm`).
pub(crate) struct Drawn {
    pub(crate) width: usize,
    pub(crate) height: usize,
    /// Dots to an inch.
    pub(crate) dots: u16,
    /// Row by row, from 0 to 255.
    pub(crate) shades: Vec<u8>,
}

impl Drawn {
    /// A page of a file, counted from 1, in so many dots to an inch.
    pub(crate) fn of(kept: &Kept, page: u8, dots: u16) -> Self {
        let page = page.to_string();
        let drawn = Command::new("pdftoppm")
            .args(["-gray", "-singlefile", "-r", &dots.to_string(), "-f", &page])
            .arg(&kept.file)
            .output();
        let drawn = drawn.unwrap_or_else(|why| panic!("pdftoppm is needed, see tests/run: {why}"));
        assert!(drawn.status.success());
        let mut head = drawn.stdout.splitn(4, u8::is_ascii_whitespace);
        assert_eq!(head.next(), Some(&b"P5"[..]));
        let mut number = || {
            let text = head.next().and_then(|text| std::str::from_utf8(text).ok());
            text.and_then(|text| text.parse().ok()).expect("a number")
        };
        let (width, height): (usize, usize) = (number(), number());
        let shades = drawn.stdout.len() - width * height;
        Self {
            width,
            height,
            dots,
            shades: drawn.stdout[shades..].to_vec(),
        }
    }

    /// How light a place is, from 0 to 255; white beside the page.
    pub(crate) fn shade(&self, x: i32, y: i32) -> u8 {
        let place = |at: i32, most: usize| usize::try_from(at).ok().filter(|at| *at < most);
        let at = place(x, self.width).zip(place(y, self.height));
        at.map_or(255, |(x, y)| self.shades[y * self.width + x])
    }

    /// What each code says, and how wide it is in millimetres; fails where less than
    /// four modules round one are white.
    pub(crate) fn codes(&self) -> Vec<(String, f64)> {
        let mut image = PreparedImage::prepare_from_greyscale(self.width, self.height, |x, y| {
            self.shades[y * self.width + x]
        });
        let grids = image.detect_grids();
        let codes = grids.iter().map(|grid| {
            let (about, says) = grid.decode().expect("a code that can be read");
            let [from, to] = [grid.bounds[0], grid.bounds[2]];
            let wide = f64::from(to.x - from.x);
            let modules = f64::from(17 + 4 * u32::try_from(about.version.0).expect("a version"));
            #[expect(clippy::cast_possible_truncation, reason = "a few dots")]
            let white = (4.0 * wide / modules).floor() as i32 - 2;
            for x in from.x - white..=to.x + white {
                for y in from.y - white..=to.y + white {
                    let is_within = (from.x - 2..=to.x + 2).contains(&x)
                        && (from.y - 2..=to.y + 2).contains(&y);
                    assert!(is_within || self.shade(x, y) > 250, "{x}, {y}");
                }
            }
            (says, wide / f64::from(self.dots) * 25.4)
        });
        codes.collect()
    }
}

/// The longest link there can be: a host of 253 characters (RFC 1035, 2.3.4, less what
/// wraps it), a port of five digits, and a token of 64.
pub(crate) fn longest_link() -> String {
    let label = "harbour-library-".repeat(4);
    let host = format!("{0}.{0}.{0}.{1}", &label[..63], &label[..61]);
    assert_eq!(host.len(), 253);
    format!(
        "https://{host}:65535/shared/{}",
        "0123456789abcdef".repeat(4)
    )
}
