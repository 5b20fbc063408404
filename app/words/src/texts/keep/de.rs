//! What is kept of recipes: earlier versions, paper, and what can’t be opened, in German.

use super::Keep;

pub(in crate::texts) const TEXTS: Keep = Keep {
    always_so: "Es war immer so, wie es ist.",
    is_as_it_was: "Das Rezept ist, wie es war. Die jetzige Fassung liegt bei den anderen.",
    what_gave_way: "Was zurückstand",
    decided_otherwise: "Hier so entschieden, anderswo zugleich anders. Jedes lässt sich noch \
                        verwenden.",
    same_now: "Zahlen, Namen und Notizen sind jetzt dieselben.",
    one_thing: "Nur eines davon",
    use_this: "Verwenden",
    is_so_now: "So steht es jetzt im Rezept.",
    no_recipe: "Kein Rezept",
    no_such_recipe: "Dieses Rezept gibt es nicht",
    not_at_address: "Dieser Browser hat unter dieser Adresse kein Rezept. Vielleicht wurde es \
                     gelöscht oder in einem anderen Browser gemacht.",
    by_a_newer: "Aus einem neueren Foldwright",
    saved_by_newer: "Dieses Rezept stammt aus einem neueren Foldwright und bleibt, wie es ist. \
                     Schließ alle Tabs von Foldwright und öffne es neu.",
    not_whole: "Dieses Rezept ist nicht ganz lesbar",
    is_damaged: "Was dieser Browser hat, ist beschädigt. Es liegt beiseite, nichts davon wurde \
                 gelöscht. Eine heruntergeladene Datei fügst du unter „Rezepte“ hinzu.",
    papers_of_recipes: "Die Papiere deiner Rezepte und wie viele Bogen da sind. Der Werktisch kann \
                        abziehen, was eine Karte verbraucht. Was zwei zugleich nehmen oder \
                        bringen, zählt zusammen.",
    no_paper_named: "Noch nennt kein Rezept ein Papier.",
    versions_are_kept: "{recipe}: Vor jeder Arbeit daran bleibt eine Fassung, vom letzten Tag \
                        mehrere, davor eine je Tag. Gehst du zurück, bleibt auch die jetzige.",
    until_changed_on: "· bis zur Änderung auf {device}",
    go_back: "Zurück zu {when}",
    one_thing_of: "{version}, nur eines davon",
    use_what: "Verwenden: {what}",
    is_so_without: "So steht es jetzt im Rezept. Herausgenommen: {gone}.",
    one_fewer_of: "Ein Bogen weniger von {paper}",
    one_more_of: "Ein Bogen mehr von {paper}",
    sheets_of: "Bogen von {paper}",
};
