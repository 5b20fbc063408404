//! The page on which a device comes to trust a server's own authority.

mod de;
mod en;

use crate::Language;

area! {
    /// The page on which a device comes to trust a server's own authority.
    Trust {
        trust_this_server,
        runs_nearby,
        phones_ask_for_trust,
        what_you_agree_to,
        whoever_holds_the_key,
        limited_to_home_networks,
        install_only_if,
        download,
        download_in_safari,
        install,
        menus_differ,
        iphone_and_ipad,
        iphone_allow,
        iphone_open,
        iphone_compare,
        iphone_install,
        iphone_switch_on,
        android_open,
        android_choose,
        android_file,
        android_compare,
        android_firefox,
        windows_compare,
        windows_open,
        windows_store,
        windows_finish,
        macos_open,
        macos_compare,
        macos_always,
        linux_and_firefox,
        linux_compare,
        linux_firefox,
        linux_chromium,
        compare,
        shown_must_be_the_same,
        came_unprotected,
        open_foldwright,
        same_address,
        remove_later,
        iphone_remove,
        android_remove,
        windows_remove,
        macos_remove,
        firefox_remove,
    }
    fills {
        own_authority(name: &str),
    }
}

static ENGLISH: Trust = en::TEXTS;
static GERMAN: Trust = de::TEXTS;

const _: [[&str; Trust::TEXTS]; 2] = [en::TEXTS.texts(), de::TEXTS.texts()];

impl Language {
    /// What stands in it on the page on which a device comes to trust a server's
    /// own authority.
    pub const fn trust(self) -> &'static Trust {
        match self {
            Self::English => &ENGLISH,
            Self::German => &GERMAN,
        }
    }
}
