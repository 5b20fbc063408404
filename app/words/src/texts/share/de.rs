//! Sharing a recipe by link, in German.

use super::Share;

pub(in crate::texts) const TEXTS: Share = Share {
    copied: "Kopiert.",
    not_copied: "Dieser Browser lässt Foldwright nicht kopieren. Der Link ist markiert: kopier ihn \
                 selbst.",
    link_as_picture: "Der Link als Bild: halte die Kamera eines Handys darauf",
    the_link: "Der Link",
    copy_link: "Link kopieren",
    needs_workshop: "Ein Link führt auf diesen Server, also muss das Rezept dort sein. Gründe \
                     eine Werkstatt oder tritt einer bei; dann liegt dort, was du machst.",
    to_workshop: "Zur Werkstatt",
    not_at_server: "Dieses Rezept ist noch nicht auf dem Server. Bleib verbunden und versuch es \
                    noch einmal.",
    who_can_read: "Alle mit dem Link können das Rezept lesen, niemand es damit ändern. Er zeigt \
                   auch spätere Änderungen, bis du ihn beendest.",
    make_link: "Link erzeugen",
    links_of_recipe: "Links dieses Rezepts",
    made_elsewhere: "Er ist von einem anderen Gerät und hier nicht zu sehen. Erzeuge einen \
                     eigenen zum Weitergeben.",
    end_link: "Diesen Link beenden",
    made_on: "Erzeugt am {day}",
};
