//! What can be said at once, in German.

use foldwright_gathered::gathered;

use super::{First, LeftOut};

fn grouped(number: usize) -> String {
    crate::texts::grouped(number, '.')
}

#[gathered]
pub(super) const TEXTS: First = First {
    skip_to_page: "Zum Inhalt",
    main_menu: "Hauptmenü",
    recipes: "Rezepte",
    new: "Neu",
    settings: "Einstellungen",
    messages: "Meldungen",
    close_message: "Meldung schließen",
    nothing_here: "Hier ist nichts",
    no_page_here: "Diese Adresse führt zu keiner Seite von Foldwright.",
    to_recipes: "Zu den Rezepten",
    not_all_here: "Noch nicht alles da",
    not_fetched: "Dieser Teil von Foldwright ist noch nicht auf diesem Gerät und ließ sich nicht \
                  holen. Deine Rezepte bleiben, wo sie sind.",
    try_again: "Noch einmal versuchen",
    undo: "Rückgängig",
    close: "Schließen",
    cancel: "Abbrechen",
    download: "Herunterladen",
    download_it: "Herunterladen",
    words_of_trade: "Fachwörter",
    what_words_mean: "Was bedeuten diese Wörter?",
    open_what_can_be_read: "Öffnen, was lesbar ist",
    choose_a_fold: "Wähl einen Falz für deine Karte.",
    make_it_fit: "Pass sie deinem Papier und Umschlag an.",
    follow_it: "Folge ihr am Tisch, Schritt für Schritt.",
    choose_fold: "Einen Falz wählen",
    type_measurements: "Vorhandene Maße eingeben",
    from_scrap: "Was wird aus einem Reststück?",
    add_from_file: "Aus einer Datei hinzufügen",
    adding_from_file: "Hinzufügen aus einer Datei",
    adding_another: "Gerade wird eine andere Datei hinzugefügt. Wähl diese danach noch einmal.",
    comparing_recipes: "Vorhandene Rezepte werden angesehen",
    taking_away: "Was hinzukam, wird wieder entfernt",
    not_kept_here: "Dieser Browser lässt Foldwright nichts speichern. Lade deine Rezepte herunter, \
                    bevor du die Seite verlässt.",
    new_version: "Neue Version",
    newer_is_ready: "Ein neueres Foldwright ist da. Deine Rezepte bleiben, wie sie sind.",
    change_to_it: "Wechseln",
    later: "Später",
    saved_here: "Hier gespeichert",
    saved_waiting: "Hier gespeichert · wartet aufs Netz",
    saved_sending: "Hier gespeichert · unterwegs",
    on_all_devices: "Auf allen Geräten",
    saved_too_large: "Hier gespeichert · zu groß zum Senden",
    saved_here_only: "Nur hier gespeichert",
    saved_server_problem: "Hier gespeichert · Problem am Server",
    look_it_over: "Sieh es durch, bevor du schneidest. Wie es war, steht unter „Frühere \
                   Fassungen“.",
    i_have_looked: "Ich habe nachgesehen",
    newer_recipe: "Ein Rezept stammt aus einem neueren Foldwright und bleibt unberührt. Schließ \
                   alle Tabs von Foldwright und öffne es neu.",
    broken_and_no_room: "Etwas in diesem Browser ist nicht lesbar. Es bleibt, wo es ist, denn zum \
                         Beiseitelegen fehlt der Platz.",
    broken_and_aside: "Etwas in diesem Browser ist nicht ganz lesbar. Es liegt beiseite und ist \
                       nicht gelöscht; du findest es in den Einstellungen.",
    aside_deleted: "Was beiseite lag, ist gelöscht.",
    storage_full: "Der Speicher dieses Browsers ist voll; die letzte Änderung ist nur auf dieser \
                   Seite. Lade sie herunter und lösch dann Rezepte, die du nicht mehr brauchst.",
    revived: "Ein anderer Tab hatte dieses Rezept gelöscht. Deine Änderung hat es zurückgeholt.",
    deleted_elsewhere: "Dieses Rezept wurde in einem anderen Tab oder auf einem anderen Gerät \
                        gelöscht. Änderst du hier etwas, bleibt es.",
    changed_in_another_tab: "Ein anderer Tab hat dieses Rezept zur selben Zeit geändert. Beide \
                             bleiben: hier das andere, deines als Kopie daneben.",
    open_my_copy: "Meine Kopie öffnen",
    recipe_file: "rezept",
    from_another_tab: " (aus einem anderen Tab)",
    was_for_no_card: "Es war für keine Karte und ist jetzt für eine.",
    folds_did_not_go: "Die Falze passten nicht zu den Feldern: einige sind jetzt Talfalze oder \
                       weg.",
    too_large: "{name}: Diese Datei hat {megabytes} MB, und keine Datei mit Rezepten hat mehr als \
                {most}. Wähl eine andere.",
    reading_file: "{name} wird gelesen",
    adding_recipes: |done, all| {
        format!(
            "{} von {} Rezepten hinzugefügt",
            grouped(done),
            grouped(all)
        )
    },
    looking_at_documents: |done, all| {
        format!(
            "{} von {} Dokumenten angesehen",
            grouped(done),
            grouped(all)
        )
    },
    merging_documents: |done, all| {
        format!(
            "{} von {} Dokumenten zusammengeführt",
            grouped(done),
            grouped(all)
        )
    },
    deleted: "„{name}“ ist gelöscht.",
    changed_in_places: "„{name}“ wurde an mehreren Stellen zugleich geändert.",
    not_opening_again: "Die letzte Änderung ist nur auf dieser Seite, denn mit ihr ließe sich das \
                        Rezept nicht mehr öffnen. {faults}",
    back_whole: "„{name}“ ist ganz wieder da.",
    back_but_for: "„{name}“ ist wieder da, bis auf dies: {lost}",
    text_is_cut: "Ein Text endet jetzt nach {most} Zeichen; er hatte {had}.",
    numbers_follow: |count| match count {
        1 => "1 Zahl folgt daraus".to_owned(),
        _ => format!("{} Zahlen folgen daraus", grouped(count)),
    },
    left_out: |what, name| {
        let what = match what {
            LeftOut::OnTop => "Eine Antwort dazu, was oben liegt",
            LeftOut::Upright => "Eine Seite, die aufrecht stehen soll",
            LeftOut::Rule => "Eine Regel",
            LeftOut::Flat => "Eine Falzlinie, die flach bleibt",
            LeftOut::GluePlace => "Eine Klebestelle",
            LeftOut::Cutout => "Ein Fenster oder eine geformte Kante",
            LeftOut::Line => "Eine Falzlinie oder ein Schnitt",
            LeftOut::Layer => "Eine Auflage",
            LeftOut::Other => "Ein Teil",
        };
        match name {
            Some(name) => format!("{what}, „{name}“, fehlt jetzt."),
            None => format!("{what} fehlt jetzt."),
        }
    },
};
