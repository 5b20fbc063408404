//! The words of the trade, in German.

use super::{Explained, Group, Term};

#[expect(clippy::too_many_lines, reason = "an arm for each word")]
pub(super) const fn explained(term: Term) -> Explained {
    let (word, means) = match term {
        Term::Sheet => (
            "Bogen",
            "Papier, wie es verkauft wird, bevor etwas daraus geschnitten ist.",
        ),
        Term::Base => (
            "Kartenrohling",
            "Das gefaltete Teil, aus dem die Karte besteht. Alles andere wird daraufgeklebt.",
        ),
        Term::Panel => (
            "Feld",
            "Was zwischen Falzen, Schnitten und Kanten eines Teils liegt. Eine Klappkarte hat zwei: vorn und hinten.",
        ),
        Term::FlatSize => (
            "Offene Größe",
            "Die Größe eines Teils, bevor es gefaltet ist, so wie du es schneidest.",
        ),
        Term::FinishedSize => (
            "Geschlossene Größe",
            "Die Größe der zugefalteten Karte. Nach ihr richtet sich der Umschlag.",
        ),
        Term::Score => (
            "Rille",
            "Eine Linie, die vor dem Falten ins Papier gedrückt wird, damit der Falz sauber und gerade wird.",
        ),
        Term::Mountain => (
            "Bergfalz",
            "Ein Falz, dessen Kante zu dir zeigt wie ein Dachfirst. Gezeichnet aus Strichen und Punkten.",
        ),
        Term::Valley => (
            "Talfalz",
            "Ein Falz, der von dir weg sinkt wie ein Graben. Gezeichnet aus Strichen.",
        ),
        Term::Layer => (
            "Auflage",
            "Ein Teil, das flach auf ein Feld oder auf eine andere Auflage geklebt wird.",
        ),
        Term::Mat => (
            "Auflage mit gleichem Rand",
            "Eine Auflage, etwas kleiner als das, worauf sie liegt, sodass ringsum gleich viel davon zu sehen bleibt.",
        ),
        Term::Border => (
            "Rand",
            "Was vom Feld um eine Auflage herum zu sehen ist: an allen Seiten gleich breit.",
        ),
        Term::FocalPiece => (
            "Blickfang",
            "Die Auflage, die zuerst gesehen werden soll: ein Bild, ein Gruß, eine Form.",
        ),
        Term::Overhang => (
            "Überstand",
            "Wie weit eine Auflage über das Feld hinausreicht, das sie trägt.",
        ),
        Term::Tab => (
            "Klebelasche",
            "Ein schmaler Streifen, der den Kleber trägt und danach nicht mehr zu sehen ist.",
        ),
        Term::Insert => (
            "Einlage",
            "Ein inneres Blatt zum Schreiben, an einer Kante angeklebt oder lose eingelegt.",
        ),
        Term::PrintDirection => (
            "Druckrichtung",
            "Wo auf bedrucktem Papier oben ist. Sind beide Seiten bedruckt, liegen ihre Köpfe an derselben Kante oder an gegenüberliegenden.",
        ),
        Term::Grain => (
            "Laufrichtung",
            "Die Richtung, in der die meisten Fasern des Papiers liegen. Längs der Laufrichtung faltet es sich glatter als quer dazu.",
        ),
        Term::Weight => (
            "Gewicht",
            "Was ein Quadratmeter des Papiers wiegt, in g/m². Karton für einen Rohling hat etwa 200 bis 300.",
        ),
        Term::Caliper => (
            "Dicke",
            "Wie dick ein Bogen ist. Dickes Papier braucht Platz in jedem Falz.",
        ),
        Term::Trimmer => (
            "Schneidemaschine",
            "Sie schneidet einen Bogen gerade durch, von einer Kante zur anderen.",
        ),
        Term::Fence => (
            "Anschlag",
            "Woran eine Kante des Papiers liegt, während du schneidest oder rillst. Von ihm aus wird gemessen.",
        ),
        Term::ScoringBoard => (
            "Rillbrett",
            "Ein Brett mit Rillen in gleichen Abständen und einem Anschlag an einem Ende.",
        ),
        Term::BoneFolder => (
            "Falzbein",
            "Ein glattes, stumpfes Werkzeug, mit dem man rillt und Falze nachstreicht.",
        ),
        Term::Kit => (
            "Päckchen",
            "Alle geschnittenen Teile, die jemand für eine Karte braucht, vorher zusammengelegt.",
        ),
        Term::Recipe => (
            "Rezept",
            "Eine Karte, wie Foldwright sie aufhebt: Maße, Papiere, Falze und Auflagen, und deine Notizen.",
        ),
        Term::Bench => (
            "Werktisch",
            "Dort führt dich Foldwright am Tisch durch die Karte, Schritt für Schritt.",
        ),
    };
    Explained { word, means }
}

pub(super) const fn about(group: Group) -> &'static str {
    match group {
        Group::Card => "Die Karte",
        Group::Folds => "Ihre Falze",
        Group::Layers => "Was daraufgeklebt wird",
        Group::Paper => "Papier",
        Group::Tools => "Werkzeug",
        Group::Making => "Die Karte machen",
    }
}
