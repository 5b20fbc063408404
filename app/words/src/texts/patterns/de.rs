//! What is said as a recipe is made of a crease pattern in a file, in German.

use super::PatternTexts;

pub(in crate::texts) const TEXTS: PatternTexts = PatternTexts {
    how_large: "Wie groß ist der Bogen?",
    untold: "Die Datei sagt nicht, wie lang ihre Längen sind. Gib die längere Seite des flachen Bogens an.",
    longer_side: "Längere Seite",
    no_size: "Gib eine Länge über 0 und bis 10 m an.",
    add: "Rezept hinzufügen",
    open: "Öffnen",
    no_fold: "Das ist kein Faltmuster im Format FOLD, oder die Datei ist beschädigt.",
    version: "Diese Datei hat eine spätere Version des Formats FOLD. Speichere sie als Version 1.2.",
    too_much: "Dieses Muster hat mehr Ecken, Kanten oder Bilder, als sich lesen lassen. Speichere \
               einen kleineren Teil.",
    no_pattern: "In dieser Datei ist kein Faltmuster: Die Orte der Ecken fehlen, oder die Kanten. \
                 Speichere sie mit beiden.",
    folded: "Diese Datei zeigt etwas Gefaltetes. Speichere das flache Faltmuster.",
    in_space: "Dieses Muster liegt nicht flach. Speichere das flache Faltmuster.",
    too_long: "Bei der Größe in der Datei ist dieser Bogen länger als 10 m. Speichere ihn mit anderer Einheit.",
    no_border: "Keine Kante ist als Rand bezeichnet, und außen liegen Falze. Bezeichne den Rand (B).",
    sheets: "In diesem Muster sind mehrere Bögen. Speichere jeden als eigene Datei.",
    crossed: "Der Rand kreuzt oder berührt sich, oder ein Loch. Bessere ihn aus und wähle die Datei neu.",
    too_fine: "Ein Teil des Randes ist feiner, als sich schneiden lässt. Mach ihn einfacher und wähle \
               die Datei neu.",
    order: "Welches Feld auf welchem liegt, wird nicht gelesen; wo es offen ist, fragt die Karte.",
    added: "„{name}“ hinzugefügt, {size}.",
    too_large: "Diese Datei ist größer als {megabytes} MB. Speichere nur das Faltmuster.",
    damaged: "Eintrag {number} von „{list}“ in dieser Datei ist nicht lesbar. Speichere sie dort neu, \
              wo sie herkommt.",
    damaged_list: "Die Liste „{list}“ in dieser Datei ist nicht lesbar, zu kurz oder zu lang. \
                   Speichere sie dort neu, wo sie herkommt.",
    border: "Der Rand ist offen, verzweigt oder berührt sich {left} von links, {bottom} von unten. \
             Schließ ihn dort.",
    lines: "Dieses Muster hat {number} Linien; ein Rezept fasst {most}. Lass einige weg.",
    panels: "Dieses Muster hat {number} Felder in einer Reihe; ein Rezept fasst {most}. Lass einige weg.",
    cutouts: "Dieses Muster hat {number} Löcher und abgeschnittene Teile; ein Rezept fasst {most}. \
              Lass einige weg.",
    unassigned: "Falze ohne Richtung: {count}. Sie sind Talfalze, bis du sie umdrehst.",
    flat: "Falze, die flach bleiben, weggelassen: {count}.",
    partly: "Falze, die nur zum Teil gefaltet sind: {count}. Hier werden sie flach gefaltet.",
    unknown: "Kanten unbekannter Art, weggelassen: {count}.",
    twice: "Kanten, die auf anderen liegen, weggelassen: {count}.",
    points: "Kanten ohne Länge, weggelassen: {count}.",
    beside: "Kanten neben dem Papier, weggelassen: {count}.",
    frames: "Weitere Bilder in der Datei, weggelassen: {count}.",
    moved: "Punkte wurden um bis zu {length} verschoben, wo sie auf Papier eins oder gerade sind.",
};
