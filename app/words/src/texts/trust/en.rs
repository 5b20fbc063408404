//! The page on which a device comes to trust a server's own authority, in English.

use super::Trust;

pub(super) const TEXTS: Trust = Trust {
    trust_this_server: "Trust this Foldwright server",
    runs_nearby: "Foldwright runs on a computer near you, not on the internet.",
    phones_ask_for_trust: "Phones let a page work offline, be installed and keep the screen awake \
                           only where they are sure whose it is. On the internet a company vouches \
                           for that.",
    own_authority: "Here the computer does it by itself, with an authority of its own called \
                    {name}. Each device has to be told once to believe it.",
    what_you_agree_to: "What you agree to",
    whoever_holds_the_key: "A device that trusts the authority believes whoever holds its key, \
                            which is a file on that computer.",
    limited_to_home_networks: "The certificate limits itself to names and addresses of home \
                               networks. So it cannot vouch for a bank or a shop; old devices may \
                               not heed that limit.",
    install_only_if: "Install it only if you know who runs this server, and only on a device of \
                      your own.",
    download: "Download the certificate",
    download_in_safari: "On an iPhone or iPad, open this page in Safari for it.",
    install: "Install it",
    menus_differ: "Names of menus differ a little between versions.",
    iphone_and_ipad: "iPhone and iPad",
    iphone_allow: "Allow the download of the profile.",
    iphone_open: "Open Settings and tap “Profile Downloaded”, or General, then “VPN & Device \
                  Management”.",
    iphone_compare: "Tap the profile, then “More Details” and the certificate. Compare the \
                     fingerprint as in step 3.",
    iphone_install: "Go back, tap “Install” and enter your passcode.",
    iphone_switch_on: "In Settings, go to General, About, “Certificate Trust Settings” and switch \
                       it on there too. Without this the phone goes on refusing.",
    android_open: "Open Settings and search for “CA certificate”. It is under Security, \
                   “Encryption & credentials”, “Install a certificate”.",
    android_choose: "Tap “CA certificate”, then “Install anyway”. A phone without a screen lock \
                     asks for one first.",
    android_file: "Choose the file from the downloads.",
    android_compare: "Under “Trusted credentials”, “User”, tap it. Compare the SHA-256 fingerprint \
                      as in step 3.",
    android_firefox: "Firefox only: open Settings, “About Firefox”, and tap the logo five times. \
                      Go back to “Secret settings” and switch on “Use third party CA \
                      certificates”.",
    windows_compare: "Compare the fingerprint as in step 3: open Terminal in the folder of the \
                      download and type:",
    windows_open: "Open the file and choose “Install Certificate”, “Current User”.",
    windows_store: "Choose “Place all certificates in the following store”, and there “Trusted \
                    Root Certification Authorities”.",
    windows_finish: "Finish and confirm. Start the browser again.",
    macos_open: "Open the file. Keychain Access adds it to the keychain “login”.",
    macos_compare: "Find it there, open it, and compare the SHA-256 fingerprint under “Details” as \
                    in step 3.",
    macos_always: "Under “Trust”, choose “Always Trust”, close the window and enter your password.",
    linux_and_firefox: "Linux, and Firefox on any computer",
    linux_compare: "Compare the fingerprint as in step 3: open a terminal in the folder of the \
                    download and type:",
    linux_firefox: "Firefox: open Settings, search for “certificates”, and choose “View \
                    Certificates”, “Authorities”, “Import”. Pick the file and let it identify \
                    websites.",
    linux_chromium: "Chromium: open Settings, search for “certificates”, and choose “Manage \
                     certificates”. Import the file among the authorities or trusted \
                     certificates.",
    compare: "Compare the fingerprint",
    shown_must_be_the_same: "What your device shows must be what stands in the window in which \
                             Foldwright was started. Compare with that window.",
    came_unprotected: "This page came to you unprotected, and someone on the same network could \
                       have changed it. If they differ, do not install it, or remove it at once.",
    open_foldwright: "Open Foldwright",
    same_address: "Use the same address every time: what you keep on this device belongs to it.",
    remove_later: "Remove it later",
    iphone_remove: "iPhone and iPad: Settings, General, “VPN & Device Management”, the profile, \
                    “Remove Profile”.",
    android_remove: "Android: Settings, search for “Trusted credentials”, “User”, the certificate, \
                     “Remove”.",
    windows_remove: "Windows: under “Trusted Root Certification Authorities”, “Certificates”, \
                     delete it. To get there, run:",
    macos_remove: "macOS: Keychain Access, “login”, “Certificates”, and delete it there.",
    firefox_remove: "Firefox and Chromium: where it was imported.",
};
