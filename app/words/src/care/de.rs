//! What can hurt at the table, in German.

use foldwright_engine::care::Hazard;

use super::Caution;

const TOOL: &str = "Die Anleitung zum Werkzeug und die Regeln bei dir gehen vor.";
const GLUE: &str = "Die Anleitung zum Kleber und die Regeln bei dir gehen vor.";
const PART: &str = "Die Anleitung zum Teil und die Regeln bei dir gehen vor.";

pub(crate) const fn told(hazard: Hazard) -> Caution {
    match hazard {
        Hazard::Knife => Caution {
            title: "Scharfe Klinge",
            words: "Schneide auf einer Schneidematte am Sicherheitslineal aus Metall, vom Körper weg. Die \
                    Finger bleiben hinter der Klinge. Tausch stumpfe Klingen aus, und steck die \
                    Kappe auf, sobald du das Messer ablegst. Entsorge Klingen in einer festen, \
                    geschlossenen Dose. Kinder nur mit Erwachsenen daneben.",
            defers: TOOL,
        },
        Hazard::RotaryBlade => Caution {
            title: "Rollklinge",
            words: "Schließ nach jedem Schnitt den Schutz. Ist die Klinge für Papier zu stumpf, \
                    schneidet sie noch Haut. Kinder nur mit Erwachsenen daneben.",
            defers: TOOL,
        },
        Hazard::Trimmer => Caution {
            title: "Schneidemaschine mit Schiene",
            words: "Halt das Papier weit weg von der Schiene, und fahr nie mit dem Finger an der \
                    Klinge entlang. Schieb die Klinge in die Abdeckung, wenn du nicht schneidest. \
                    Kinder nur mit Erwachsenen daneben.",
            defers: TOOL,
        },
        Hazard::Guillotine => Caution {
            title: "Hebelschneider",
            words: "Lass die Finger hinter dem Schutz, und behalte die ganze Kante im Auge, wenn \
                    der Hebel kommt. Verriegle den Hebel unten, wenn du nicht schneidest. Kinder \
                    nur mit Erwachsenen daneben.",
            defers: TOOL,
        },
        Hazard::Scissors => Caution {
            title: "Schere",
            words: "Dreh das Papier, nicht die Schere, und halt die andere Hand hinter den \
                    Klingen. Schließ sie, bevor du sie ablegst oder weitergibst, Griffe voran.",
            defers: TOOL,
        },
        Hazard::CornerPunch => Caution {
            title: "Eckenrunder",
            words: "Stell den Eckenrunder auf den Tisch und drück mit der flachen Hand, die \
                    Finger weg von der Öffnung. Lös eine verklemmte Ecke mit Papier, nicht mit dem \
                    Finger.",
            defers: TOOL,
        },
        Hazard::Die => Caution {
            title: "Stanzformen",
            words: "Eine Stanzform schneidet Finger wie Papier: Fass sie an den Seiten an. Halt \
                    Finger, Haare und Ärmel weg von Platten und Walzen der Maschine.",
            defers: TOOL,
        },
        Hazard::HotGlue => Caution {
            title: "Heißkleber",
            words: "Düse und Kleber verbrennen die Haut beim Berühren. Stell die Pistole auf ihre \
                    Füße auf eine hitzefeste Fläche, und verstreich Kleber nie mit dem Finger. \
                    Stell kaltes Wasser bereit, und zieh den Stecker, bevor du weggehst. Kinder \
                    nur mit Erwachsenen daneben.",
            defers: TOOL,
        },
        Hazard::SprayGlue => Caution {
            title: "Sprühkleber und Kleber mit Lösemittel",
            words: "Öffne ein Fenster, halt Flammen fern, und beachte das Etikett.",
            defers: GLUE,
        },
        Hazard::HeatTool => Caution {
            title: "Heißluftgerät",
            words: "Die Düse und alles, was sie erhitzt hat, können dich verbrennen. Arbeite auf \
                    einer hitzefesten Fläche, lüfte den Raum, und bleib in Bewegung, damit nichts \
                    versengt. Lass das Gerät abkühlen, bevor du es wegräumst. Kinder nur mit \
                    Erwachsenen daneben.",
            defers: TOOL,
        },
        Hazard::SmallParts => Caution {
            title: "Kleinteile",
            words: "An Knöpfen, Schmucksteinen, Glöckchen und Klammern kann ein Kind unter drei \
                    Jahren ersticken. Bewahr sie außer Reichweite auf. Lass Kleinteile auf Karten \
                    für so kleine Kinder weg.",
            defers: PART,
        },
        Hazard::ButtonCell => Caution {
            title: "Knopfzelle",
            words: "Eine verschluckte Knopfzelle verletzt binnen Stunden: Hol sofort ärztliche \
                    Hilfe. Nimm nur kindersichere Halterungen, und schließ neue und leere Zellen \
                    weg.",
            defers: PART,
        },
    }
}
