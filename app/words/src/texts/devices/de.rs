//! Devices that share recipes, in German.

use foldwright_gathered::gathered;

use super::Devices;

#[gathered]
pub(in crate::texts) const TEXTS: Devices = Devices {
    one_more: "Noch ein Gerät",
    show_code_here: "Zeig hier einen Code und scanne ihn mit der Kamera des anderen Geräts.",
    show_code: "Code zeigen",
    address_for_camera: "Die Adresse mit dem Code, für eine Kamera",
    code: "Code",
    no_camera: "Keine Kamera? Öffne dort diese Adresse und gib den Code unter Geräte ein:",
    deleted: "Gelöscht",
    brought_back_for: "Rezepte lassen sich 30 Tage zurückholen, dann werden sie überall getilgt.",
    bring_back: "Zurückholen",
    open_it: "Öffnen",
    bring_in_again: "Mit einem Code der Werkstatt holst du es wieder herein.",
    give_a_name: "Gib diesem Gerät einen Namen; dann hat es dieselben Rezepte, Papiere und \
                  Arbeitsstände wie die anderen.",
    why_devices: "Laptop und Handy können dieselben Rezepte, Papiere und Arbeitsstände haben. \
                  Jedes arbeitet für sich, solange du willst. Änderungen kommen zusammen, sobald \
                  sie im Netz sind.",
    bring_device_in: "Dieses Gerät hereinholen",
    name_of_device: "Name dieses Geräts",
    bring_in: "Hereinholen",
    where_codes_are: "Das erste Gerät nimmt den Code, den der Server beim Start ausgibt. Jedes \
                      weitere nimmt einen, den ein Gerät der Werkstatt unter Geräte zeigt. \
                      Rezepte von hier kommen mit.",
    code_does_not_work: "Dieser Code geht nicht. Vielleicht ist er vertippt, benutzt oder älter \
                         als zehn Minuten; bitte um einen neuen.",
    type_code_and_name: "Gib den Code und einen Namen für dieses Gerät ein.",
    phone: "Handy",
    tablet: "Tablet",
    laptop: "Laptop",
    devices: "Geräte",
    now: "gerade eben",
    no_key: "Dieses Gerät gehört zu keiner Werkstatt, oder nicht mehr.",
    missing: "Das gibt es nicht, oder nicht mehr.",
    senseless: "Der Server versteht das nicht.",
    nameless: "Ein Name braucht ein sichtbares Zeichen.",
    too_many_codes: "Zu viele Versuche. Warte eine Minute und versuch es noch einmal.",
    unreached: "Der Server ist nicht erreichbar. Versuch es später noch einmal.",
    in_this_workshop: "In dieser Werkstatt",
    looking: "Geräte werden gesucht …",
    look_again: "Noch einmal suchen",
    room_at_server: "Platz auf dem Server",
    decimal_mark: ",",
    disk_nearly_full: "Die Platte des Servers ist fast voll. Schaff dort Platz, sonst kommen \
                       Änderungen von hier nicht zu anderen Geräten.",
    copy_of_everything: "Eine Kopie von allem",
    one_file_with_all: "Eine Datei mit allem außer Fotos, was der Server von dieser Werkstatt \
                        hat, auch Gelöschtem. „Aus einer Datei hinzufügen“ nimmt sie überall auf.",
    name_of_workshop: "Name der Werkstatt",
    rename_it: "Umbenennen",
    server_not_reached: "Der Server ist nicht erreichbar. Alles ist auf diesem Gerät gespeichert \
                         und wird gesendet, sobald es geht.",
    server_misunderstood: "Der Server war nicht zu verstehen; die Verbindung wurde beendet. Alles \
                           ist auf diesem Gerät gespeichert. Es wird von selbst wieder versucht.",
    this_device: "dieses Gerät",
    has_left: "Dieses Gerät hat die Werkstatt verlassen. Alles, was es hatte, ist noch hier.",
    is_out: "Das Gerät gehört nicht mehr zur Werkstatt.",
    leave: "Werkstatt verlassen",
    remove: "Aus der Werkstatt entfernen",
    all_stays_here: "Alles bleibt auf diesem Gerät. Änderungen von anderen kommen nicht mehr.",
    is_cut_off: "Es wird sofort getrennt. Was es schon hat, bleibt darauf.",
    disk_is_full: "Seine Festplatte ist voll.",
    database_is_read_only: "Er darf nicht in seine Datenbank schreiben.",
    database_is_away: "Er erreicht seine Datenbank nicht.",
    database_is_busy: "Seine Datenbank ist beschäftigt.",
    database_is_damaged: "Seine Datenbank ist beschädigt.",
    database_is_newer: "Seine Datenbank stammt aus einem neueren Foldwright.",
    no_workshops_kept: "Er bewahrt keine Werkstätten auf.",
    not_understood: "Er versteht diese Seite nicht.",
    earlier_page: "Diese Seite stammt aus einem älteren Foldwright. Lade sie neu.",
    log_says_why: "Warum, steht in seinem Protokoll.",
    good_once: |minutes| match minutes {
        1 => "Gilt einmal, noch eine Minute.".to_owned(),
        minutes => format!("Gilt einmal, noch {minutes} Minuten."),
    },
    this_computer_only: "Dieser Server ist nur für diesen Computer offen. Starte ihn für Handys \
                         neu mit „{command}“ und folge dem, was er ausgibt.",
    bring_back_this: "{recipe} zurückholen",
    is_back: "„{recipe}“ ist wieder da.",
    in_now: "Dieses Gerät gehört jetzt zur Werkstatt „{workshop}“.",
    minutes_ago: |count| match count {
        1 => "vor 1 Minute".to_owned(),
        count => format!("vor {count} Minuten"),
    },
    hours_ago: |count| match count {
        1 => "vor 1 Stunde".to_owned(),
        count => format!("vor {count} Stunden"),
    },
    days_ago: |count| match count {
        1 => "vor 1 Tag".to_owned(),
        count => format!("vor {count} Tagen"),
    },
    server_problem: "Problem am Server: {why}",
    in_workshop: "In der Werkstatt „{workshop}“.",
    workshop_called: "Die Werkstatt heißt jetzt „{name}“.",
    server_cannot_take: "Alles ist auf diesem Gerät gespeichert, aber der Server kann es nicht \
                         aufnehmen. {why} Es wird von selbst wieder versucht.",
    seen: "zuletzt {ago}",
    called_now: "Es heißt jetzt „{name}“.",
    takes_of_disk: "Diese Werkstatt belegt {taken}. Auf der Platte sind noch {free} frei.",
    takes_of_database: "Diese Werkstatt belegt {taken} in der Datenbank des Servers.",
    was_removed: "Dieses Gerät wurde aus der Werkstatt „{workshop}“ entfernt.",
    was_removed_by: "„{by}“ hat dieses Gerät aus der Werkstatt „{workshop}“ entfernt.",
    not_known: "Der Server kennt dieses Gerät nicht mehr. Vielleicht ist die Werkstatt \
                „{workshop}“ weg oder eine ältere Kopie eingespielt.",
    all_still_here: |only_here| match only_here {
        0 => {
            "Alles, was es hatte, ist noch hier; Änderungen kommen und gehen nicht mehr.".to_owned()
        }
        1 => "Alles, was es hatte, ist noch hier; 1 Rezept ist so auf keinem anderen Gerät."
            .to_owned(),
        many => format!(
            "Alles, was es hatte, ist noch hier; {many} Rezepte sind so auf keinem anderen Gerät."
        ),
    },
    had_cleared: "Dieser Browser hatte alles gelöscht. Was die Werkstatt „{workshop}“ hat, kommt \
                  zurück.",
    outlived: |recipe, by| match by {
        None => format!(
            "„{recipe}“ wurde gelöscht, während ein anderes Gerät es änderte. Die Änderung behält \
             es. Lösch es noch einmal, wenn es niemand braucht."
        ),
        Some(by) => format!(
            "„{recipe}“ wurde gelöscht, während „{by}“ es änderte. Die Änderung behält es. Lösch \
             es noch einmal, wenn es niemand braucht."
        ),
    },
    too_large: "„{recipe}“ hat mehr als {most} MB und lässt sich so nicht senden. Andere Geräte \
                behalten, was sie davon hatten. Kürze Notizen und Namen, oder mach zwei Rezepte \
                daraus. Sonst geht es weiter wie immer.",
    past_too_large: "Die früheren Fassungen von „{recipe}“ haben mehr als {most} MB. So viel \
                     lässt sich nicht senden; sie bleiben auf diesem Gerät. Lade das Rezept \
                     herunter, wenn du eine anderswo willst. Sonst geht es weiter wie immer.",
};
