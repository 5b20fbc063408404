//! What stands around what is said of classes and of post, in German.

use super::ClassTexts;

pub(in crate::texts) const TEXTS: ClassTexts = ClassTexts {
    spare: "Reserve für Pannen",
    no_spare: "Keine",
    in_each_kit: "In jedem Päckchen",
    besides_paper: "Außer Papier",
    add_supply: "Band, Steinchen oder anderes hinzufügen",
    supply_name: "Was es ist",
    such_as_gems: "etwa Perlsteinchen",
    add_counted: "Als Anzahl hinzufügen",
    add_ribbon: "Als Band hinzufügen",
    so_many_each: "So viele je Karte",
    how_it_wraps: "Um die geschlossene Karte",
    across: "Quer",
    upright: "Hochkant",
    both_ways: "Beides",
    knot: "Knoten oder Schleife brauchen",
    about_ribbon: "Zweimal über die Karte mit allem, was darauf ist, und über ihre Kanten. Wo es sich kreuzt, zählt nicht. Schneide das erste länger und probier es.",
    does_not_close: "die Karte schließt nicht",
    kits_to_print: "Päckchen zum Drucken",
    about_kits: "Was aus dem Regal kommt, alle Schnitte nach dem Plan hier, und ein Etikett für jedes Päckchen. Ein PDF, das auf diesem Gerät entsteht.",
    kits_on_a4: "Päckchen zum Drucken (A4)",
    kits_on_letter: "Päckchen zum Drucken (Letter)",
    pack_price: "Preis einer Packung",
    no_price: "Gib einen Betrag ein, etwa 12,50.",
    pack_sheets: "Bogen in einer Packung",
    some_without_price: "Papier ohne Preis zählt nicht mit.",
    weight_and_post: "Gewicht und Post",
    no_envelope: "Sie passt in keinen üblichen Umschlag; über die Post steht hier darum nichts.",
    envelope_paper: "Gerechnet mit einem Umschlag von 90 g/m². Wieg eine Karte, bevor du viele \
                     verschickst.",
    bought_envelope: "Gekauft, der gewählte oder der engste",
    which_envelope: "Ihr Umschlag",
    made_counted: "Der Umschlag zählt mit seinem eigenen Zuschnitt und Papier. Wieg eine Karte, bevor du viele verschickst.",
    supplies_not_weighed: "Was eine Karte außer Papier braucht, zählt hier nicht mit, weder beim Gewicht noch bei der Dicke.",
    stiff: "Ist sie steif oder durch Knöpfe, Knoten oder Steine uneben, kann sie mehr kosten oder \
            ein Paket sein.",
    ask_post: "Die Post ändert ihre Regeln: Frag bei deiner nach.",
    why_not_cheaper: "Warum nicht billiger",
    add_scrap: "Reststück davon hinzufügen",
    scrap_upright: "Breite und Höhe wie auf dem Bogen, Druck aufrecht.",
    put_on_shelf: "Ins Regal legen",
    make_envelope: "Umschlag dafür anlegen",
    flat_pattern: "Ein Zuschnitt als eigenes Rezept, mit der Zugabe, die hier gewählt ist. Wie breit \
                   die Nähte sind, haben wir gewählt.",
};
