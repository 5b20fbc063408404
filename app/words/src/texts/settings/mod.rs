//! The settings.

pub(super) mod de;
pub(super) mod en;

area! {
    /// The settings.
    Settings {
        language,
        as_the_browser_says,
        measuring,
        new_recipes_start_so,
        unit,
        inches,
        millimetres,
        smallest_division,
        decimal_mark,
        board_length,
        board_above_zero,
        how_long_not_said,
        kept_for_good,
        may_be_cleared,
        not_promised,
        your_recipes,
        ask_to_keep,
        download_everything,
        like_an_app,
        can_be_installed,
        set_aside,
        not_read_whole,
        other_devices,
        devices_can_share,
        devices,
        about,
        about_foldwright,
        licence,
    }
    fills {
        measured_now(division: &str, decimal: &str, board: &str),
        room_taken(hundredths: u64),
        in_workshop(workshop: &str, status: &str),
        version(version: &str),
    }
    says {
        keeps(recipes: usize),
    }
}
