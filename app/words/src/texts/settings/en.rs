//! The settings, in English.

use foldwright_gathered::gathered;

use super::Settings;

#[gathered]
pub(in crate::texts) const TEXTS: Settings = Settings {
    language: "Language",
    as_the_browser_says: "As the browser says",
    measuring: "Measuring",
    new_recipes_start_so: "New recipes start with these. Each recipe can be changed by itself.",
    unit: "Unit",
    inches: "Inches",
    millimetres: "Millimetres",
    smallest_division: "Smallest division on your ruler",
    decimal_mark: "Decimal mark",
    board_length: "Length of your scoring board, from the fence",
    board_above_zero: "Give a length above 0.",
    how_long_not_said: "This browser does not say how long it keeps them. Download a copy from \
                        time to time.",
    kept_for_good: "It has promised to keep them until you delete them.",
    may_be_cleared: "It may clear them when the device runs short of room, or when you have not \
                     been here for long.",
    not_promised: "It did not promise to keep them. Install Foldwright or use it more often and \
                   ask again. Until then, download a copy from time to time.",
    your_recipes: "Your recipes",
    ask_to_keep: "Ask it to keep them",
    download_everything: "Download with progress, paper and history",
    like_an_app: "Use it like an app",
    can_be_installed: "Your browser's menu can install Foldwright or add it to the home screen. It \
                       then opens by itself, without a connection too. Your recipes are safer from \
                       being cleared.",
    set_aside: "Set aside",
    not_read_whole: "These could not be read whole when they were opened. Nothing of them was \
                     deleted.",
    other_devices: "Other devices",
    devices_can_share: "Laptop and phone can have the same recipes, each usable alone. Deleted \
                        recipes can be brought back there too.",
    devices: "Devices",
    about: "About Foldwright",
    about_foldwright: "Foldwright works out folded cards from your own paper and leads you through \
                       making them. Everything is worked out on this device.",
    licence: "Free software under the MIT licence or the Apache License 2.0, at your choice.",
    keeps: |recipes| match recipes {
        0 => "This browser keeps no recipes yet.".to_owned(),
        1 => "This browser keeps 1 recipe.".to_owned(),
        many => format!(
            "This browser keeps {} recipes.",
            crate::texts::grouped(many, ',')
        ),
    },
    measured_now: "New recipes now have divisions of {division}, decimals as in {decimal}. Your board \
                   is {board} long.",
    room_taken: "{hundredths} % of this browser's room for Foldwright is taken.",
    in_workshop: "This device is in the workshop “{workshop}”. {status}.",
    version: "Version {version}.",
};
