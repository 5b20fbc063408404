//! What goes over the socket: the name of a document, then a message of the
//! y-sync protocol about it. Numbers have seven bits a byte, the lowest first.

/// The longest name of a document.
const LONGEST_NAME: usize = 120;

/// A message about a document.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Message<'a> {
    /// What the other side has seen: it wants the rest.
    State(&'a [u8]),
    /// The rest.
    Rest(&'a [u8]),
    /// A change.
    Update(&'a [u8]),
}

/// Reads a frame; `None` for what is none.
pub fn read(frame: &[u8]) -> Option<(&str, Message<'_>)> {
    let (name, rest) = chunk(frame)?;
    let name = std::str::from_utf8(name)
        .ok()
        .filter(|name| is_name(name))?;
    let (kind, rest) = number(rest)?;
    if kind != 0 {
        return None;
    }
    let (step, rest) = number(rest)?;
    let (payload, rest) = chunk(rest)?;
    if !rest.is_empty() {
        return None;
    }
    let message = match step {
        0 => Message::State(payload),
        1 => Message::Rest(payload),
        2 => Message::Update(payload),
        _ => return None,
    };
    Some((name, message))
}

/// Writes a frame.
pub fn write(name: &str, message: Message<'_>) -> Vec<u8> {
    let (step, payload) = match message {
        Message::State(payload) => (0, payload),
        Message::Rest(payload) => (1, payload),
        Message::Update(payload) => (2, payload),
    };
    let mut frame = Vec::with_capacity(name.len() + payload.len() + 10);
    put(&mut frame, name.len());
    frame.extend_from_slice(name.as_bytes());
    frame.extend_from_slice(&[0, step]);
    put(&mut frame, payload.len());
    frame.extend_from_slice(payload);
    frame
}

/// Whether something may be the name of a document.
pub fn is_name(name: &str) -> bool {
    let allowed = |byte: u8| byte.is_ascii_alphanumeric() || matches!(byte, b'/' | b'-' | b'_');
    (1..=LONGEST_NAME).contains(&name.len()) && name.bytes().all(allowed)
}

/// A number at the beginning of bytes, and what follows.
pub(crate) fn number(bytes: &[u8]) -> Option<(usize, &[u8])> {
    let mut value = 0_usize;
    for (at, byte) in bytes.iter().take(4).enumerate() {
        value |= usize::from(byte & 0x7f) << (7 * at);
        if byte & 0x80 == 0 {
            return Some((value, bytes.get(at + 1..)?));
        }
    }
    None
}

fn chunk(bytes: &[u8]) -> Option<(&[u8], &[u8])> {
    let (length, rest) = number(bytes)?;
    rest.split_at_checked(length)
}

pub(crate) fn put(frame: &mut Vec<u8>, mut number: usize) {
    loop {
        // Seven bits always fit.
        let low = u8::try_from(number & 0x7f).unwrap_or(0);
        number >>= 7;
        if number == 0 {
            frame.push(low);
            return;
        }
        frame.push(low | 0x80);
    }
}

#[cfg(test)]
mod tests {
    use super::{Message, read, write};

    #[test]
    fn frames_come_back() {
        for payload in [vec![], vec![7; 127], vec![8; 128], vec![9; 70_000]] {
            for message in [
                Message::State(&payload),
                Message::Rest(&payload),
                Message::Update(&payload),
            ] {
                let frame = write("recipe/a1", message);
                assert_eq!(read(&frame), Some(("recipe/a1", message)));
                for cut in 0..frame.len().min(200) {
                    assert_eq!(read(&frame[..cut]), None);
                }
            }
        }
    }

    #[test]
    fn odd_names_are_none() {
        for name in ["", "../x", "a b", "ü", &"x".repeat(121)] {
            assert_eq!(read(&write(name, Message::Update(&[]))), None);
        }
    }
}
