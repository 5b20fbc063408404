//! What is said as a layer is made of an outline in an SVG file, in German.

use super::OutlineTexts;

pub(in crate::texts) const TEXTS: OutlineTexts = OutlineTexts {
    from_svg: "Umriss aus einer SVG-Datei",
    about: "Wähle den Umriss, der geschnitten wird. Er wird eine Auflage; Füllung, Linien und \
            Farben zählen nicht.",
    which: "Umrisse in der Datei",
    width: "Breite der Auflage",
    untold: "Die Datei sagt nicht, wie groß der Umriss ist. Miss deine Stanzform oder deinen Stempel und \
             gib die Breite an.",
    with_holes: "Was darin liegt, ausschneiden",
    add: "Als Auflage hinzufügen",
    left_out: "Aus der Datei nicht übernommen",
    no_svg: "Das ist keine SVG-Datei, oder sie ist beschädigt.",
    too_much: "In dieser Zeichnung ist mehr, als sich lesen lässt. Speichere nur den Umriss und \
               wähle das.",
    no_frame: "Die Größe oder die ViewBox dieser Zeichnung lässt sich nicht lesen.",
    no_outline: "In dieser Datei ist kein geschlossener Umriss. Verbinde die Enden der Linien und \
                 wähle sie neu.",
    no_size: "Gib eine Breite über 0 an, bei der keine Seite länger als 10 m ist.",
    empty: "Dieser Umriss umschließt nichts.",
    crossed: "Dieser Umriss kreuzt oder berührt sich, oder etwas darin. Wähle einen anderen, oder \
              bessere die Zeichnung aus.",
    from_a_file: "Aus einer Datei",
    too_large: "Diese Datei ist größer als {megabytes} MB. Speichere nur den Umriss und wähle das.",
    too_fine: "Bei dieser Breite hat der Umriss über {most} Ecken. Mach ihn kleiner oder einfacher.",
    one: "Umriss {number}",
    one_of_size: "Umriss {number}, {width} × {height}",
    holes: "Löcher: {count}",
    texts_left: "Texte: {count}. Wandle sie im Zeichenprogramm in Pfade um.",
    pictures: "Bilder: {count}",
    open: "Offene Linien: {count}",
    hidden: "Ausgeblendet: {count}",
    unread: "Formen, die sich nicht lesen lassen: {count}",
    missing: "Kopien von etwas, das nicht in der Datei ist: {count}",
    others: "Anderes: {count}",
    styled: "Formatvorlagen, die etwas verschieben oder ausblenden können und nicht befolgt \
             werden: {count}",
    clipped: "Beschnitten oder maskiert, aber ganz übernommen: {count}",
    huge: "Umrisse, die größer als 10 m sind: {count}",
    smaller: "Kleinere Umrisse: {count}",
};
