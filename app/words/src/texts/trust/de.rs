//! The page on which a device comes to trust a server's own authority, in German.

use super::Trust;

pub(super) const TEXTS: Trust = Trust {
    trust_this_server: "Diesem Foldwright-Server vertrauen",
    runs_nearby: "Foldwright läuft auf einem Computer in deiner Nähe, nicht im Internet.",
    phones_ask_for_trust: "Handys müssen wissen, wessen eine Seite ist. Sonst arbeitet sie nicht \
                           ohne Netz, lässt sich nicht installieren und lässt den Bildschirm nicht \
                           an. Im Internet bürgt dafür eine Firma.",
    own_authority: "Hier tut es der Computer selbst, mit einer eigenen Stelle namens {name}. Jedem \
                    Gerät muss einmal gesagt werden, dass es ihr glauben soll.",
    what_you_agree_to: "Wozu du Ja sagst",
    whoever_holds_the_key: "Ein Gerät, das der Stelle vertraut, glaubt jedem, der ihren Schlüssel \
                            hat. Der ist eine Datei auf jenem Computer.",
    limited_to_home_networks: "Das Zertifikat beschränkt sich auf Namen und Adressen von \
                               Heimnetzen. Es kann also für keine Bank und keinen Laden bürgen; \
                               alte Geräte achten vielleicht nicht auf diese Grenze.",
    install_only_if: "Installiere es nur, wenn du weißt, wer diesen Server betreibt, und nur auf \
                      einem eigenen Gerät.",
    download: "Zertifikat herunterladen",
    download_in_safari: "Öffne diese Seite dafür auf iPhone oder iPad in Safari.",
    install: "Installieren",
    menus_differ: "Die Namen der Menüs weichen je nach Version etwas ab.",
    iphone_and_ipad: "iPhone und iPad",
    iphone_allow: "Erlaube das Laden des Profils.",
    iphone_open: "Öffne die Einstellungen und tipp auf „Profil geladen“, oder auf Allgemein und \
                  dann „VPN und Geräteverwaltung“.",
    iphone_compare: "Tipp auf das Profil, dann auf „Weitere Details“ und das Zertifikat. Vergleiche \
                     den Fingerabdruck wie in Schritt 3.",
    iphone_install: "Geh zurück, tipp auf „Installieren“ und gib deinen Code ein.",
    iphone_switch_on: "Schalte es auch in den Einstellungen unter Allgemein, Info, \
                       „Zertifikatsvertrauenseinstellungen“ ein. Sonst weigert sich das Telefon \
                       weiter.",
    android_open: "Öffne die Einstellungen und such nach „CA-Zertifikat“. Es steht unter \
                   Sicherheit, „Verschlüsselung und Anmeldedaten“, „Ein Zertifikat installieren“.",
    android_choose: "Tipp auf „CA-Zertifikat“, dann auf „Trotzdem installieren“. Ein Telefon ohne \
                     Displaysperre verlangt zuerst eine.",
    android_file: "Wähl die Datei aus den Downloads.",
    android_compare: "Tipp unter „Vertrauenswürdige Anmeldedaten“, „Nutzer“ darauf. Vergleiche den \
                      SHA-256-Fingerabdruck wie in Schritt 3.",
    android_firefox: "Nur Firefox: Öffne die Einstellungen, „Über Firefox“, und tipp fünfmal auf \
                      das Logo. Geh zurück zu „Geheime Einstellungen“ und schalte „CA-Zertifikate \
                      von Drittanbietern verwenden“ ein.",
    windows_compare: "Vergleiche den Fingerabdruck wie in Schritt 3: Öffne im Ordner des Downloads \
                      ein Terminal und gib ein:",
    windows_open: "Öffne die Datei und wähl „Zertifikat installieren“, „Aktueller Benutzer“.",
    windows_store: "Wähl „Alle Zertifikate in folgendem Speicher speichern“, dort \
                    „Vertrauenswürdige Stammzertifizierungsstellen“.",
    windows_finish: "Schließ ab und bestätige. Starte den Browser neu.",
    macos_open: "Öffne die Datei. Die Schlüsselbundverwaltung legt sie in den Schlüsselbund \
                 „Anmeldung“.",
    macos_compare: "Such sie dort, öffne sie und vergleiche unter „Details“ den \
                    SHA-256-Fingerabdruck wie in Schritt 3.",
    macos_always: "Wähl unter „Vertrauen“ die Angabe „Immer vertrauen“, schließ das Fenster und \
                   gib dein Passwort ein.",
    linux_and_firefox: "Linux, und Firefox auf jedem Computer",
    linux_compare: "Vergleiche den Fingerabdruck wie in Schritt 3: Öffne ein Terminal im Ordner \
                    des Downloads und gib ein:",
    linux_firefox: "Firefox: Öffne die Einstellungen, such nach „Zertifikate“. Wähl „Zertifikate \
                    anzeigen“, „Zertifizierungsstellen“, „Importieren“. Nimm die Datei und lass \
                    sie Websites identifizieren.",
    linux_chromium: "Chromium: Öffne die Einstellungen, such nach „Zertifikate“, wähl „Zertifikate \
                     verwalten“. Importiere die Datei unter den Zertifizierungsstellen oder \
                     vertrauenswürdigen Zertifikaten.",
    compare: "Fingerabdruck vergleichen",
    shown_must_be_the_same: "Was dein Gerät zeigt, muss dasselbe sein wie in dem Fenster, in dem \
                             Foldwright gestartet wurde. Vergleiche mit jenem Fenster.",
    came_unprotected: "Diese Seite kam ungeschützt zu dir, und jemand im selben Netz könnte sie \
                       geändert haben. Sind sie verschieden, installiere es nicht oder entferne es \
                       sofort.",
    open_foldwright: "Foldwright öffnen",
    same_address: "Nimm jedes Mal dieselbe Adresse: Was du auf diesem Gerät behältst, gehört zu \
                   ihr.",
    remove_later: "Später entfernen",
    iphone_remove: "iPhone und iPad: Einstellungen, Allgemein, „VPN und Geräteverwaltung“, das \
                    Profil, „Profil entfernen“.",
    android_remove: "Android: Einstellungen, such nach „Vertrauenswürdige Anmeldedaten“, „Nutzer“, \
                     das Zertifikat, „Entfernen“.",
    windows_remove: "Windows: Lösch es unter „Vertrauenswürdige Stammzertifizierungsstellen“, \
                     „Zertifikate“. Dorthin kommst du mit:",
    macos_remove: "macOS: Schlüsselbundverwaltung, „Anmeldung“, „Zertifikate“, und lösch es dort.",
    firefox_remove: "Firefox und Chromium: wo es importiert wurde.",
};
