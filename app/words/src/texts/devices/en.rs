//! Devices that share recipes, in English.

use foldwright_gathered::gathered;

use super::Devices;

#[gathered]
pub(in crate::texts) const TEXTS: Devices = Devices {
    one_more: "One more device",
    show_code_here: "Show a code here, and scan it with the other device’s camera.",
    show_code: "Show a code",
    address_for_camera: "The address with the code, for a camera",
    code: "Code",
    no_camera: "No camera? On the other device, open this address and type the code under Devices:",
    deleted: "Deleted",
    brought_back_for: "Recipes can be brought back for 30 days. After that they are erased, on \
                       every device.",
    bring_back: "Bring back",
    open_it: "Open it",
    bring_in_again: "With a code of the workshop you can bring it in again.",
    give_a_name: "Give this device a name, and it has the same recipes, paper and progress as the \
                  others.",
    why_devices: "Recipes, paper and progress can be the same on your laptop and your phone. Each \
                  works by itself for as long as you like. What changed comes together when they \
                  are on the network again.",
    bring_device_in: "Bring this device in",
    name_of_device: "Name of this device",
    bring_in: "Bring it in",
    where_codes_are: "The first device takes the code that the server prints when it starts. Every \
                      other one takes a code that a device already in the workshop shows under \
                      Devices. Recipes that are here come along.",
    code_does_not_work: "This code doesn’t work. It may be mistyped, used already, or older than \
                         ten minutes; ask for a new one.",
    type_code_and_name: "Type the code and a name for this device.",
    phone: "Phone",
    tablet: "Tablet",
    laptop: "Laptop",
    devices: "Devices",
    now: "now",
    no_key: "This device is in no workshop, or no longer.",
    missing: "There is no such thing, or not any more.",
    senseless: "The server does not understand that.",
    nameless: "A name needs at least one letter, digit or sign to see.",
    too_many_codes: "Too many codes were tried. Wait a minute and try again.",
    unreached: "The server can’t be reached. Try again when it can.",
    in_this_workshop: "In this workshop",
    looking: "Looking for devices…",
    look_again: "Look again",
    room_at_server: "Room at the server",
    decimal_mark: ".",
    disk_nearly_full: "The server's disk is nearly full. Make room there, or what you change here \
                       can't go to your other devices.",
    copy_of_everything: "A copy of everything",
    one_file_with_all: "One file with all that the server has of this workshop, but photographs; \
                        what is deleted included. “Add from a file” takes it in anywhere.",
    name_of_workshop: "Name of the workshop",
    rename_it: "Rename it",
    server_not_reached: "The server can’t be reached at the moment. Everything is saved on this \
                         device and goes on its way as soon as it can.",
    server_misunderstood: "What the server sent can’t be understood, so the connection was ended. \
                           Everything is saved on this device. It is tried again by itself.",
    this_device: "this device",
    has_left: "This device has left the workshop. Everything it had is still here.",
    is_out: "The device is out of the workshop.",
    leave: "Leave the workshop",
    remove: "Remove it from the workshop",
    all_stays_here: "Everything stays on this device. It no longer gets what others change.",
    is_cut_off: "It is cut off at once. What it already has stays on it.",
    disk_is_full: "Its disk is full.",
    database_is_read_only: "It may not write to its database.",
    database_is_away: "It can’t reach its database.",
    database_is_busy: "Its database is busy.",
    database_is_damaged: "Its database is damaged.",
    database_is_newer: "Its database is from a later Foldwright.",
    no_workshops_kept: "It keeps no workshops.",
    not_understood: "It does not understand this page.",
    earlier_page: "This page is from an earlier Foldwright. Load it again.",
    log_says_why: "Its log says why.",
    good_once: |minutes| match minutes {
        1 => "Good once, for one more minute.".to_owned(),
        minutes => format!("Good once, for {minutes} more minutes."),
    },
    this_computer_only: "This server is open to this computer only. For phones, start it again \
                         with “{command}” and follow what it prints.",
    bring_back_this: "Bring back {recipe}",
    is_back: "“{recipe}” is back.",
    in_now: "This device is in the workshop “{workshop}” now.",
    minutes_ago: |count| match count {
        1 => "1 minute ago".to_owned(),
        count => format!("{count} minutes ago"),
    },
    hours_ago: |count| match count {
        1 => "1 hour ago".to_owned(),
        count => format!("{count} hours ago"),
    },
    days_ago: |count| match count {
        1 => "1 day ago".to_owned(),
        count => format!("{count} days ago"),
    },
    server_problem: "Server problem: {why}",
    in_workshop: "In the workshop “{workshop}”.",
    workshop_called: "The workshop is called “{name}” now.",
    server_cannot_take: "Everything is saved on this device, but the server can’t take it. {why} \
                         It is tried again by itself.",
    seen: "seen {ago}",
    called_now: "It is called “{name}” now.",
    takes_of_disk: "This workshop takes {taken}. The disk has {free} left.",
    takes_of_database: "This workshop takes {taken} of the server's database.",
    was_removed: "This device was removed from the workshop “{workshop}”.",
    was_removed_by: "“{by}” removed this device from the workshop “{workshop}”.",
    not_known: "The server does not know this device any more. The workshop “{workshop}” may be \
                gone from it, or an older copy was put back.",
    all_still_here: |only_here| match only_here {
        0 => "Everything it had is still here; changes no longer come or go.".to_owned(),
        1 => "Everything it had is still here; 1 recipe is on no other device as it is here."
            .to_owned(),
        many => format!(
            "Everything it had is still here; {many} recipes are on no other device as they are \
             here."
        ),
    },
    had_cleared: "This browser had cleared what it kept. What the workshop “{workshop}” has comes \
                  back.",
    outlived: |recipe, by| match by {
        None => format!(
            "“{recipe}” was deleted in one place while it was changed on another device. The \
             change keeps it. Delete it again if nobody needs it."
        ),
        Some(by) => format!(
            "“{recipe}” was deleted in one place while it was changed on “{by}”. The change keeps \
             it. Delete it again if nobody needs it."
        ),
    },
    too_large: "“{recipe}” has more than {most} MB and is too large to send. Other devices keep \
                what they had of it. Shorten its notes and names, or make two recipes of it. All \
                other recipes go on as ever.",
    past_too_large: "The earlier versions of “{recipe}” have more than {most} MB. They are too \
                     large to send and stay on this device. Download the recipe if you want to \
                     keep one elsewhere. The recipe itself goes on as ever.",
};
