//! How much room there is at the server, in words.

use foldwright_api::Room;

use crate::spoken::texts;

/// From so full on the disk is warned of, in hundredths. Our own bound.
const NEARLY_FULL: u64 = 80;

/// Whether the server's disk is nearly full.
pub(crate) fn is_nearly_full(room: Room) -> bool {
    room.disk.is_some_and(|(free, whole)| {
        whole.saturating_sub(free).saturating_mul(100) >= whole.saturating_mul(NEARLY_FULL)
    })
}

/// How much room a workshop takes, and how much there is.
pub(crate) fn room_in_words(room: Room) -> String {
    let texts = &texts().devices;
    let size = |bytes, divided| size(bytes, texts.decimal_mark, divided);
    let taken = size(room.taken, u64::div_ceil);
    match room.disk {
        Some((free, _)) => texts.takes_of_disk(&taken, &size(free, |free, unit| free / unit)),
        None => texts.takes_of_database(&taken),
    }
}

/// A number of bytes, as people read it: to a tenth below ten of a unit, else
/// whole. `divided` rounds, so that no more room is promised than there is.
fn size(bytes: u64, mark: &str, divided: fn(u64, u64) -> u64) -> String {
    const STEPS: [&str; 4] = ["kB", "MB", "GB", "TB"];
    let mut unit = 1000;
    let mut steps = STEPS.iter().peekable();
    loop {
        let name = steps.next().unwrap_or(&"TB");
        let tenths = divided(bytes, unit / 10);
        if tenths < 100 {
            return match (tenths / 10, tenths % 10) {
                (whole, 0) => format!("{whole} {name}"),
                (whole, tenth) => format!("{whole}{mark}{tenth} {name}"),
            };
        }
        let whole = divided(bytes, unit);
        if whole < 1000 || steps.peek().is_none() {
            return format!("{whole} {name}");
        }
        unit *= 1000;
    }
}

#[cfg(test)]
mod tests {
    use super::{Room, is_nearly_full, room_in_words, size};

    /// By hand.
    #[test]
    fn sizes_are_told_to_a_tenth_below_ten_of_a_unit() {
        let sizes = [
            (0, "0 kB", "0 kB"),
            (1, "0.1 kB", "0 kB"),
            (999, "1 kB", "0.9 kB"),
            (9_901, "10 kB", "9.9 kB"),
            (999_000, "999 kB", "999 kB"),
            (999_001, "1 MB", "999 kB"),
            (1_000_000, "1 MB", "1 MB"),
            (1_900_000, "1.9 MB", "1.9 MB"),
            (1_900_001, "2 MB", "1.9 MB"),
            (9_999_999, "10 MB", "9.9 MB"),
            (41_900_000_000, "42 GB", "41 GB"),
            (u64::MAX, "18446745 TB", "18446744 TB"),
        ];
        for (bytes, up, down) in sizes {
            assert_eq!(size(bytes, ".", u64::div_ceil), up);
            assert_eq!(size(bytes, ".", |bytes, unit| bytes / unit), down);
        }
    }

    #[test]
    fn what_is_taken_is_rounded_up_and_what_is_free_down() {
        let room = Room {
            taken: 1_850_000,
            disk: Some((7_390_000_000, 8_000_000_000)),
        };
        assert_eq!(
            room_in_words(room),
            "This workshop takes 1.9 MB. The disk has 7.3 GB left."
        );
    }

    #[test]
    fn a_disk_is_nearly_full_from_eighty_hundredths_on() {
        let room = |disk| Room { taken: 5, disk };
        assert!(is_nearly_full(room(Some((20, 100)))));
        assert!(!is_nearly_full(room(Some((21, 100)))));
        assert!(!is_nearly_full(room(None)));
        assert!(room_in_words(room(None)).contains("database"));
    }
}
