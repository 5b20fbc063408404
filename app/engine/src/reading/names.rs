//! Envelopes and sheets by name: C6, A7, DL, No. 10, A4, Letter.

use super::line::Said;
use super::sense::Sense;
use super::token::Placed;
use super::walk::{About, Next, Walk};
use crate::length::{Figure, Unit, Written, read};
use crate::paper::{ENVELOPES, Envelope, SHEETS, SheetForm};

impl Walk<'_> {
    /// A sheet or an envelope by name. A name that both have is an envelope
    /// where the line speaks of one, or where sheets of that name are rare.
    pub(super) fn named(&mut self, word: &str, here: &Placed) -> bool {
        let envelope = ENVELOPES.iter().find(|it| first_word(it) == word);
        let whole = SHEETS.iter().filter(|it| it.form == SheetForm::Sheet);
        let sheet = whole.into_iter().find(|it| it.name.to_lowercase() == word);
        let is_size = word.chars().any(|it| it.is_ascii_digit());
        let close = self.is_about_envelope();
        let cut_from = self.next == Next::Sheet || self.sense_ahead(1) == Some(Sense::Sheet);
        let is_envelope = close
            || is_size
                && !cut_from
                && sheet.is_none_or(|sheet| !sheet.common || self.tells_of_envelope());
        if let Some(envelope) = envelope.filter(|_| is_envelope) {
            self.next = Next::Anything;
            let at = here.at.clone();
            self.line.said.push(Said::Envelope(envelope, at));
            return true;
        }
        let Some(sheet) = sheet.filter(|_| cut_from || is_size) else {
            return false;
        };
        self.next = Next::Anything;
        self.line.said.push(Said::Sheet(sheet, here.at.clone()));
        true
    }

    /// An envelope by its number: "No. 10 envelope".
    pub(super) fn numbered(&mut self, figure: Figure, here: &Placed) -> bool {
        let named = ENVELOPES.iter().find(|it| {
            let number = it.name.strip_prefix("No. ");
            let number = number.and_then(|number| number.split(" (").next());
            let number = number.and_then(|number| read(number, Unit::Inch).ok());
            number.is_some() && number == figure.length(Written::Inch)
        });
        let about = self.is_about_envelope() || self.tells_of_envelope();
        let Some(envelope) = named.filter(|_| about) else {
            return false;
        };
        let at = here.at.clone();
        self.line.said.push(Said::Envelope(envelope, at));
        true
    }

    /// Whether what stands here is an envelope by what stands beside it.
    fn is_about_envelope(&self) -> bool {
        self.about == About::Envelope
            || self.next == Next::Envelope
            || (1..=2).any(|by| self.sense_ahead(by) == Some(Sense::Envelope))
    }

    /// Whether the line tells of an envelope anywhere.
    fn tells_of_envelope(&self) -> bool {
        let mut senses = self.placed.iter().filter_map(Placed::sense);
        senses.any(|sense| matches!(sense, Sense::Envelope | Sense::Fits))
    }
}

fn first_word(envelope: &Envelope) -> String {
    let name = envelope.name.to_lowercase();
    name.split(' ').next().unwrap_or_default().to_owned()
}
