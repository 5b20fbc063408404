//! How a card comes out: what its folds wrap, what of it is seen, and how it
//! lies.

pub(crate) mod de;
pub(crate) mod en;

use foldwright_engine::allowance::{Inside, Wrap};
use foldwright_engine::card::Facts;
use foldwright_engine::lay::{LayReport, LayerLies};
use foldwright_engine::paper::{EnvelopeFit, Stock};
use foldwright_engine::plane::Bearing;
use foldwright_engine::recipe::{Placing, Shaped};

use crate::Speaker;

/// Something of a card besides its steps and its problems.
#[derive(Debug, Clone, Copy)]
pub enum OfCard<'a> {
    /// The card, for those who cannot see it.
    Whole(&'a Facts),
    /// Its size, thickness and mass. A label.
    Figures(&'a Facts),
    /// What a fold wraps, and the room it asks for.
    Wraps(&'a Wrap),
    /// How far something stays from the fold it lies in.
    Stays(Inside),
    /// How something is placed now that was placed otherwise.
    Placed(Shaped, Placing),
    /// How the print on a face runs, turned so far from upright; `None` where it
    /// has no direction. A label.
    Print(Option<Bearing>),
    /// What room an envelope has besides the card. A label.
    Spare(&'a EnvelopeFit),
    /// How a layer lies on its sheet. A label.
    LayerLies(LayerLies),
    /// How many a sheet gives. A label.
    PerSheet(i64),
}

impl Speaker<'_> {
    /// The card in a sentence, for those who cannot see it.
    pub fn whole(&self, facts: &Facts) -> String {
        self.of_card(OfCard::Whole(facts))
    }

    /// Its size, thickness and mass, as a label.
    pub fn figures(&self, facts: &Facts) -> String {
        self.of_card(OfCard::Figures(facts))
    }

    /// What a fold wraps, and the room it asks for, in a sentence.
    pub fn wraps(&self, wrap: &Wrap) -> String {
        self.of_card(OfCard::Wraps(wrap))
    }

    /// How far something stays from the fold it lies in, in a sentence.
    pub fn stays(&self, inside: Inside) -> String {
        self.of_card(OfCard::Stays(inside))
    }

    /// How something is placed now, in a sentence.
    pub fn placed(&self, of: Shaped, place: Placing) -> String {
        self.of_card(OfCard::Placed(of, place))
    }

    /// How a print runs, as a label.
    pub fn print(&self, turned: Option<Bearing>) -> String {
        self.of_card(OfCard::Print(turned))
    }

    /// How a layer of that paper lies on its sheet, and how many the sheet gives
    /// then, as labels.
    pub fn layer_lies(&self, stock: &Stock, report: &LayReport) -> [String; 2] {
        let lies = OfCard::LayerLies(report.of_layer(stock));
        [lies, OfCard::PerSheet(report.per_sheet)].map(|of| self.of_card(of))
    }

    /// What room an envelope has besides the card, as a label.
    pub fn spare(&self, fit: &EnvelopeFit) -> String {
        self.of_card(OfCard::Spare(fit))
    }
}
