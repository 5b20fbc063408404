//! The settings, in German.

use foldwright_gathered::gathered;

use super::Settings;

#[gathered]
pub(in crate::texts) const TEXTS: Settings = Settings {
    language: "Sprache",
    as_the_browser_says: "Wie der Browser",
    measuring: "Messen",
    new_recipes_start_so: "Damit beginnen neue Rezepte. Jedes Rezept lässt sich einzeln ändern.",
    unit: "Einheit",
    inches: "Zoll",
    millimetres: "Millimeter",
    smallest_division: "Kleinste Teilung auf deinem Lineal",
    decimal_mark: "Dezimalzeichen",
    board_length: "Länge deines Rillbretts ab dem Anschlag",
    board_above_zero: "Gib eine Länge über 0 an.",
    how_long_not_said: "Dieser Browser sagt nicht, wie lange er sie behält. Lade ab und zu eine \
                        Kopie herunter.",
    kept_for_good: "Er hat zugesagt, sie zu behalten, bis du sie löschst.",
    may_be_cleared: "Er löscht sie vielleicht, wenn der Platz knapp wird oder du lange nicht hier \
                     warst.",
    not_promised: "Er hat nicht zugesagt, sie zu behalten. Installiere Foldwright oder nutze es \
                   öfter und frag noch einmal. Lade bis dahin ab und zu eine Kopie herunter.",
    your_recipes: "Deine Rezepte",
    ask_to_keep: "Um Aufbewahren bitten",
    download_everything: "Mit Arbeitsstand, Papier und Verlauf herunterladen",
    like_an_app: "Wie eine App nutzen",
    can_be_installed: "Im Menü des Browsers kannst du Foldwright installieren oder auf den \
                       Startbildschirm legen. Dann öffnet es sich für sich, auch ohne Netz, und \
                       deine Rezepte gehen nicht so leicht verloren.",
    set_aside: "Beiseitegelegt",
    not_read_whole: "Das hier war beim Öffnen nicht ganz lesbar. Nichts davon wurde gelöscht.",
    other_devices: "Andere Geräte",
    devices_can_share: "Laptop und Handy können dieselben Rezepte haben, jedes für sich. Auch \
                        gelöschte Rezepte holst du dort zurück.",
    devices: "Geräte",
    about: "Über Foldwright",
    about_foldwright: "Foldwright berechnet gefaltete Karten aus deinem Papier und führt dich \
                       durch die Arbeit, alles auf diesem Gerät.",
    licence: "Freie Software unter MIT-Lizenz oder Apache License 2.0, nach deiner Wahl.",
    keeps: |recipes| match recipes {
        0 => "Dieser Browser hat noch keine Rezepte.".to_owned(),
        1 => "Dieser Browser hat 1 Rezept.".to_owned(),
        many => format!(
            "Dieser Browser hat {} Rezepte.",
            crate::texts::grouped(many, '.')
        ),
    },
    measured_now: "Neue Rezepte haben jetzt Teilstriche alle {division}, Dezimalen wie {decimal}. Dein \
                   Rillbrett misst {board}.",
    room_taken: "{hundredths} % vom Platz dieses Browsers für Foldwright sind belegt.",
    in_workshop: "Dieses Gerät gehört zur Werkstatt „{workshop}“. {status}.",
    version: "Version {version}.",
};
