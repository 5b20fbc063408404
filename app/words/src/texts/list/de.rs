//! The list of recipes, in German.

use foldwright_gathered::gathered;

use super::List;

fn grouped(number: usize) -> String {
    crate::texts::grouped(number, '.')
}

#[gathered]
pub(in crate::texts) const TEXTS: List = List {
    new_recipe: "Neues Rezept",
    search_recipes: "Rezepte durchsuchen",
    search: "Suchen",
    show_more: "Mehr zeigen",
    paper_on_hand: "Papiervorrat",
    download_all: "Alle herunterladen",
    a_recipe: "Ein Rezept",
    not_flat_yet: "lässt sich noch nicht flach falten",
    to_the_bench: "An den Werktisch",
    share_by_link: "Als Link teilen",
    duplicate: "Verdoppeln",
    earlier_versions: "Frühere Fassungen",
    download_as_file: "Als Datei herunterladen",
    delete: "Löschen",
    copy: " (Kopie)",
    only_in_this_browser: "Diese Rezepte sind nur in diesem Browser, seit einem Monat ohne Kopie. \
                           Lade unten alle herunter.",
    bring_in_device: "Oder nimm ein weiteres Gerät dazu",
    download_as_it_is: "Herunterladen, wie es ist",
    delete_it: "Löschen",
    name: "Name",
    rename: "Umbenennen",
    nearly_full: "{hundredths} % vom Platz dieses Browsers für Foldwright sind belegt. Lade \
                  Rezepte, die du hier nicht mehr brauchst, herunter und lösch sie dann.",
    not_whole: "{name} ist nicht ganz lesbar. Sieh nach, was zu machen ist.",
    quoted: "„{name}“",
    more_for: "Mehr zu {name}",
    share: "„{name}“ teilen",
    there_too: "„{name}“ ist auch da.",
    looking_at: |done, all| format!("{} von {} angesehen …", grouped(done), grouped(all)),
    none_called: "Kein Rezept heißt „{sought}“.",
    shown: |shown, all| {
        format!(
            "{} von {} Rezepten sind zu sehen.",
            grouped(shown),
            grouped(all)
        )
    },
    gathering: |done, all| match all {
        1 => "1 Rezept wird gesammelt …".to_owned(),
        all => format!(
            "{} von {} Rezepten gesammelt …",
            grouped(done),
            grouped(all)
        ),
    },
};
