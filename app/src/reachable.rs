//! Where links lead.

/// Whether a link leads to this computer only, so that no other device can follow it.
pub(crate) fn is_this_computer(link: &str) -> bool {
    let host = link.split_once("://").map_or(link, |(_, rest)| rest);
    ["localhost", "127.", "[::1]"]
        .iter()
        .any(|own| host.starts_with(own))
}
