//! What a browser shows where there is no app, in German.

use super::NoApp;

pub(super) const TEXTS: NoApp = NoApp {
    purpose: "Faltkarten aus dem eigenen Papier ausrechnen und am Basteltisch Schritt für Schritt \
              machen.",
    could_not_start: "Foldwright konnte nicht starten. Aktualisiere diesen Browser oder nimm einen \
                      anderen und öffne die Seite noch einmal. Gespeicherte Rezepte bleiben, wo \
                      sie sind.",
    needs_javascript: "Foldwright berechnet Karten in deinem Browser und braucht dafür JavaScript. \
                       Schalte JavaScript für diese Seite ein und öffne sie noch einmal.",
    nothing_here: "Unter dieser Adresse ist nichts.",
    speaks_https: "Dieser Server spricht HTTPS: Setz https:// vor die Adresse.",
};
