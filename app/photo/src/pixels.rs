//! A picture as rows of pixels.

use foldwright_engine::paper::Colour;

/// How far round a place its colour is looked for, in pixels.
const ROUND: u32 = 3;

/// Into so many steps the way from one pixel to the next is parted: as many as a
/// channel has.
const STEPS: u32 = 256;

/// A picture: rows from the top, each pixel red, green, blue and how much it hides.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pixels {
    width: u32,
    height: u32,
    bytes: Vec<u8>,
}

impl Pixels {
    /// From its bytes, four a pixel; `None` where they are not as many as that takes,
    /// or there are none.
    pub fn new(width: u32, height: u32, bytes: Vec<u8>) -> Option<Self> {
        let pixels = u64::from(width) * u64::from(height);
        let fits = pixels > 0 && u64::try_from(bytes.len()) == Ok(4 * pixels);
        fits.then_some(Self {
            width,
            height,
            bytes,
        })
    }

    /// How many pixels are beside each other.
    pub fn width(&self) -> u32 {
        self.width
    }

    /// How many pixels are above each other.
    pub fn height(&self) -> u32 {
        self.height
    }

    /// Its bytes, four a pixel.
    pub fn bytes(&self) -> &[u8] {
        &self.bytes
    }

    /// The colour round a place, told by its shares of the width, from the left, and
    /// of the height, from the top: the mean of a few pixels, since no two of a
    /// photograph are alike.
    pub fn round(&self, [across, down]: [f64; 2]) -> Colour {
        let middle = |share: f64, side: u32| {
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "within the picture"
            )]
            let at = (share.clamp(0.0, 1.0) * f64::from(side)) as u32;
            at.saturating_sub(ROUND)..=at.saturating_add(ROUND)
        };
        let (mut sums, mut count) = ([0_u32; 3], 0_u32);
        for y in middle(down, self.height) {
            for x in middle(across, self.width) {
                for (sum, channel) in sums.iter_mut().zip(self.channels(x, y)) {
                    *sum += u32::from(channel);
                }
                count += 1;
            }
        }
        // A mean of bytes is a byte.
        let [red, green, blue] =
            sums.map(|sum| u8::try_from((sum + count / 2) / count).unwrap_or(u8::MAX));
        Colour { red, green, blue }
    }

    /// The colour of a pixel; of the nearest one outside of the picture.
    pub fn at(&self, x: u32, y: u32) -> Colour {
        let [red, green, blue] = self.channels(x, y);
        Colour { red, green, blue }
    }

    pub(crate) fn channels(&self, x: u32, y: u32) -> [u8; 3] {
        let (x, y) = (x.min(self.width - 1), y.min(self.height - 1));
        let first = (y as usize * self.width as usize + x as usize) * 4;
        let pixel = self.bytes.get(first..first + 3);
        pixel.map_or([0; 3], |it| [it[0], it[1], it[2]])
    }
    /// The colour at a place, from the four pixels round it, where the middle of the
    /// first pixel is half a pixel in. It is asked for millions of places in a row.
    pub(crate) fn between(&self, [x, y]: [f64; 2]) -> [u8; 3] {
        let (left, right, across) = beside(x, self.width);
        let (top, bottom, down) = beside(y, self.height);
        let (pixels, _) = self.bytes.as_chunks::<4>();
        let [above, below] = [top, bottom].map(|y| {
            let row = y * self.width as usize;
            [left, right].map(|x| pixels.get(row + x).copied().unwrap_or_default())
        });
        [0, 1, 2].map(|channel| {
            let along = |row: &[[u8; 4]; 2]| {
                let [one, other] = row.map(|pixel| u32::from(pixel[channel]));
                one * (STEPS - across) + other * across
            };
            let sum = along(&above) * (STEPS - down) + along(&below) * down;
            // A mean of bytes is a byte.
            u8::try_from((sum + STEPS * STEPS / 2) / (STEPS * STEPS)).unwrap_or(u8::MAX)
        })
    }
}

/// The pixels of a side whose middles are before and after a place, and how many
/// steps it is from the first towards the second; beyond the picture the nearest
/// pixel counts.
fn beside(at: f64, side: u32) -> (usize, usize, u32) {
    let last = side - 1;
    let at = (at - 0.5).clamp(0.0, f64::from(last));
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "within the picture"
    )]
    let steps = (at * f64::from(STEPS) + 0.5) as u64;
    let (first, step) = (steps / u64::from(STEPS), steps % u64::from(STEPS));
    #[expect(
        clippy::cast_possible_truncation,
        reason = "a place within the picture, and less than the steps"
    )]
    let (first, step) = (first as usize, step as u32);
    (first, (first + 1).min(last as usize), step)
}
