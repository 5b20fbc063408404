//! A shared recipe, as it is read, in English.

use foldwright_gathered::gathered;

use super::Shared;

#[gathered]
pub(in crate::texts) const TEXTS: Shared = Shared {
    your_unit_and_paper: "Your unit and paper",
    on_your_paper: "On your paper",
    measured_in: "Measured in",
    as_shared: "As it was shared",
    your_sheet: "Your sheet",
    measured_upright: "Measured with the print upright.",
    the_sheet: "The sheet",
    use_this_sheet: "Use this sheet",
    a_shared_recipe: "A shared recipe",
    fetching: "Fetching it …",
    by_a_newer: "Shared by a newer Foldwright",
    written_by_newer: "This recipe was written by a newer Foldwright. Close all Foldwright tabs \
                       and open the link again to get the newer one.",
    not_here_yet: "Not on this device yet",
    needs_connection: "The server can’t be reached now. Once this page has been opened with a \
                       connection, it also opens without one.",
    nothing_shared: "Nothing is shared here",
    not_opened: "This link opens no recipe. It may have been ended, or not copied whole. Ask \
                 whoever gave it to you for a new one.",
    is_newer_card: "This is the newer card.",
    has_changed: "The one who shared it has changed it. Your version stays until you take the \
                  newer one.",
    take_newer: "Take the newer",
    has_ended: "The one who shared it has ended the link. What this device has of it stays.",
    no_connection: "There is no connection. This is what this device keeps.",
    newer_has_changed: "A newer Foldwright has changed what is shared. Close all Foldwright tabs \
                        and open the link again to see it.",
    keep_it: "Keep it",
    open_copy: "Open your copy",
    print: "Print",
    step_by_step: "Step by step",
    closed_from_front: "Closed, from the front",
    paper: "Paper",
    sheet_size: "Sheet, width × height",
    weight: "Weight",
    what_to_cut: "What to cut",
    piece: "Piece",
    width_height: "Width × height",
    from_paper: "From",
    all_measurements: "All measurements",
    scores: "Scores",
    no_envelope: "No standard envelope takes it.",
    envelope: "Envelope",
    note: "Note:",
    too_large_here: "This card is too large to be written out here. With JavaScript switched on, \
                     this page shows it step by step.",
    to_foldwright: "To Foldwright",
    not_now: "Not now",
    cannot_read_now: "The server cannot read what is shared at the moment. Open this page again in \
                      a while.",
    with_javascript: "With JavaScript switched on, this page also shows the card in your own unit \
                      and on your own paper. It leads through the steps without a connection.",
    scrap: "Scrap, {size}",
    base_cut_from: "The card base is cut from {sheet}.",
    lengths_differ: |count| match count {
        1 => "1 length differs from the card as it was shared".to_owned(),
        more => format!("{more} lengths differ from the card as it was shared"),
    },
    shared_by: "Shared by {who}.",
    among_yours: "“{recipe}” is among your recipes, with how far you have come.",
    for_cards: "For {copies} cards.",
};
