//! The page on which devices come to trust the own authority, filled.

use foldwright_words::Language;
use html_escape::encode_double_quoted_attribute as escaped;

/// What stands on the page besides its texts.
pub(crate) struct Filled<'a> {
    /// What the authority is called.
    pub(crate) name: &'a str,
    /// The fingerprint of its certificate.
    pub(crate) fingerprint: &'a str,
    /// Where its certificate is.
    pub(crate) certificate: &'a str,
    /// Where the app is.
    pub(crate) open: &'a str,
}

/// Fills the layout; a text that has no place in it, or a place without a text, does
/// not compile.
macro_rules! filled {
    ($texts:ident: $($label:ident),+ $(,)?; $($name:ident = $text:expr),+ $(,)?) => {
        format!(
            include_str!("trust.html"),
            $($label = escaped($texts.$label),)+
            $($name = escaped($text),)+
        )
    };
}

/// The page in a language.
pub(crate) fn page(language: Language, filled: &Filled<'_>) -> String {
    let texts = language.trust();
    filled! {
        texts:
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
            firefox_remove,;
        language = language.tag(),
        own_authority = &texts.own_authority(filled.name),
        fingerprint = filled.fingerprint,
        certificate = filled.certificate,
        open = filled.open,
    }
}
