//! Large frames in pieces. On a slow network a frame that goes whole keeps all
//! others waiting, and the question whether the other side is still there with
//! them; other frames may go between pieces.
//!
//! A piece begins with a zero, a name of no letters, which no frame does. Then
//! it says how many bytes of its frame follow in later pieces. Those of one
//! frame come in order, and those of no other in between.

use std::borrow::Cow;

use crate::document::Malformed;
use crate::frame::{number, put};

/// The largest frame that goes whole, and the largest piece. Our own bound:
/// half a second at 512 kbit/s.
pub const WHOLE: usize = 32 * 1024;

/// The largest frame a server takes. Our own bound: what a file of everything
/// can hold of one document, and more than twice what a file can hold of one
/// recipe.
pub const LARGEST: usize = 11_000_000;

/// What pieces begin with.
const PIECE: u8 = 0;
/// The most bytes before those of the frame.
const HEAD: usize = 5;

/// Whether what came is a piece.
pub fn is_piece(bytes: &[u8]) -> bool {
    bytes.first() == Some(&PIECE)
}

/// What goes over the socket for a frame: the frame, or its pieces.
pub fn cut(frame: &[u8]) -> Vec<Vec<u8>> {
    if frame.len() <= WHOLE {
        return vec![frame.to_vec()];
    }
    let mut rest = frame.len();
    let chunks = frame.chunks(WHOLE - HEAD);
    let pieces = chunks.map(|chunk| {
        rest -= chunk.len();
        let mut piece = Vec::with_capacity(WHOLE);
        piece.push(PIECE);
        put(&mut piece, rest);
        piece.extend_from_slice(chunk);
        piece
    });
    pieces.collect()
}

/// Puts pieces together again.
#[derive(Debug)]
pub struct Gathering {
    most: usize,
    frame: Vec<u8>,
    /// How many bytes are still to come.
    rest: usize,
}

impl Gathering {
    /// For frames of at most so many bytes.
    pub fn new(most: usize) -> Self {
        Self {
            most,
            frame: Vec::new(),
            rest: 0,
        }
    }

    /// Takes in what came over the socket. Returns a frame that is all here;
    /// refuses a piece that does not go on from the last one, and one of a
    /// frame that is too large.
    pub fn take<'a>(&mut self, bytes: &'a [u8]) -> Result<Option<Cow<'a, [u8]>>, Malformed> {
        let Some(piece) = bytes.strip_prefix(&[PIECE]) else {
            return Ok(Some(Cow::Borrowed(bytes)));
        };
        let (rest, bytes) = number(piece).ok_or(Malformed)?;
        let whole = bytes.len() + rest;
        let begins = self.frame.is_empty();
        let fits = if begins {
            whole <= self.most
        } else {
            whole == self.rest
        };
        if bytes.is_empty() || !fits {
            return Err(Malformed);
        }
        self.frame.extend_from_slice(bytes);
        self.rest = rest;
        Ok((rest == 0).then(|| Cow::Owned(std::mem::take(&mut self.frame))))
    }
}

#[cfg(test)]
mod tests {
    use super::{Gathering, WHOLE, cut, is_piece};
    use crate::frame::{Message, read, write};

    fn frame(length: usize) -> Vec<u8> {
        let mut frame = write("recipe/a1", Message::Update(&[]));
        frame.resize(length, 7);
        frame
    }

    #[test]
    fn frames_come_together_again() {
        for length in [13, WHOLE, WHOLE + 1, 2 * WHOLE - 10, 2 * WHOLE, 20 * WHOLE] {
            let frame = frame(length);
            let mut gathering = Gathering::new(length);
            // One after the other.
            for _ in 0..2 {
                let pieces = cut(&frame);
                let (last, before) = pieces.split_last().expect("something");
                for piece in before {
                    assert!(is_piece(piece) && piece.len() <= WHOLE, "{length}");
                    assert_eq!(read(piece), None);
                    assert_eq!(gathering.take(piece), Ok(None));
                    // Others may come in between.
                    let other = write("shelf", Message::State(&[]));
                    let taken = gathering.take(&other).expect("a frame");
                    assert_eq!(taken.as_deref(), Some(&*other));
                }
                assert_eq!(is_piece(last), length > WHOLE);
                let taken = gathering.take(last).expect("the last piece");
                assert_eq!(taken.as_deref(), Some(&*frame), "{length}");
            }
        }
    }

    #[test]
    fn what_does_not_go_on_or_is_too_large_is_refused() {
        let frame = frame(3 * WHOLE);
        let pieces = cut(&frame);
        assert!(Gathering::new(3 * WHOLE - 1).take(&pieces[0]).is_err());
        let mut gathering = Gathering::new(3 * WHOLE);
        assert_eq!(gathering.take(&pieces[0]), Ok(None));
        assert!(gathering.take(&pieces[2]).is_err(), "one is missing");
        assert!(gathering.take(&pieces[0]).is_err(), "it came before");
        assert_eq!(gathering.take(&pieces[1]), Ok(None));
        for odd in [
            &[0][..],
            &[0, 0],
            &[0, 5],
            &[0, 0x80],
            &[0, 0xff, 0xff, 0xff, 0xff, 1],
        ] {
            assert!(Gathering::new(100).take(odd).is_err(), "{odd:?}");
        }
    }
}
