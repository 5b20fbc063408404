//! Beginning a recipe: with a fold, a list of measurements, or a scrap, in German.

use foldwright_gathered::gathered;

use super::Begin;

#[gathered]
pub(in crate::texts) const TEXTS: Begin = Begin {
    pick_one: "Wähl einen. Größe, Falze und Papier lassen sich später ändern.",
    or_type: "Oder vorhandene Maße eingeben",
    from_a_list: "Aus einer Liste",
    list_cleared: "Die Liste ist leer.",
    from_measurements: "Aus vorhandenen Maßen",
    type_or_paste: "Tipp oder füg eine Liste aus deinem Ordner ein, ein Teil pro Zeile. Sie wird \
                    beim Tippen gelesen und bleibt auf diesem Gerät.",
    your_list: "Deine Liste",
    list_example: "Kartenrohling 297 x 210, Rillen bei 148,5\nAuflage 138 x 200",
    clear_list: "Liste leeren",
    make_recipe: "Ein Rezept daraus machen",
    card_comes_up: "Eine Karte erscheint, sobald eine Zeile eine Größe nennt, etwa 210 x 148.",
    which_way: "Wie wird sie gefalzt?",
    list_gives_scores: "Die Liste nennt die Rillen, aber nicht, wohin gefalzt wird.",
    line_by_line: "Zeile für Zeile",
    what_numbers_say: "Was die Zahlen sagen",
    ticked_will_hold: "Was angehakt ist, gilt auch in anderer Größe.",
    no_envelope: "passt in keinen gängigen Umschlag",
    as_it_is: "Unverändert.",
    same_size: "Gleiche Größe, innen andere Längen.",
    your_recipe: "Dein Rezept",
    a_fold: "Ein Falz zum Anfangen",
    from_a_scrap_name: " aus einem Reststück",
    scrap_off_list: "Das Reststück ist von der Liste.",
    scraps_on_hand: "Vorhandene Reststücke",
    put_on_list: "Dieses auf die Liste setzen",
    from_scrap: "Aus einem Reststück",
    what_from_this_scrap: "Was wird aus diesem Reststück?",
    measure_scrap: "Miss es mit aufrechtem Druck. Hier kommen Rezepte und Falze, die sich daraus \
                    schneiden lassen, die mit den kleinsten Änderungen zuerst. Keines wird \
                    größer.",
    the_scrap: "Das Reststück",
    closed: "geschlossen {size}",
    closed_is: "Geschlossen: {size}",
    looking: "{done} von {all} angesehen …",
    can_be_cut: |found, all| match found {
        0 => format!("Keines von {all} lässt sich daraus schneiden."),
        1 => format!("1 von {all} lässt sich daraus schneiden."),
        found => format!("{found} von {all} lassen sich daraus schneiden."),
    },
    goes_into: "passt in {envelope}",
    instead_of: "Statt {size}.",
    take_off_list: "{size} von der Liste nehmen",
};
