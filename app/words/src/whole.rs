//! What the tables of a whole card say, wherever it is written out.

use std::collections::BTreeSet;

use foldwright_engine::card::{Card, Supplied};
use foldwright_engine::care::Hazard;
use foldwright_engine::part::Part;
use foldwright_engine::recipe::{Recipe, Stacked, StripId};
use foldwright_engine::score::Chart;
use foldwright_engine::steps::{between_passes, how_to_lay, score_label};

use crate::{Speaker, sentence};

/// More envelopes than these are a table, and nobody's next step.
const MOST_ENVELOPES: usize = 3;

/// How a piece is scored without being turned, as it is read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ToldPass {
    /// What to do after the pass before; `None` before the first.
    pub between: Option<String>,
    /// How the piece lies, in sentences.
    pub lies: String,
    /// Each score: how far it is from the fence, and how it folds.
    pub marks: Vec<[String; 2]>,
}

impl Speaker<'_> {
    /// The papers a card is cut from: the name of each, the size of a sheet of it,
    /// and its weight.
    pub fn paper_rows(&self, recipe: &Recipe, card: &Card) -> Vec<[String; 3]> {
        let used = |id| {
            let pieces = card.laid.all_pieces().map(|piece| piece.stock);
            let layers = card.laid.layers.iter().map(|layer| layer.stock);
            pieces.chain(layers).any(|stock| stock == id)
        };
        let stocks = recipe.stocks.iter().filter(|stock| used(stock.id));
        let rows = stocks.map(|stock| {
            let size = self.short_size(stock.size());
            [stock.name.clone(), size, self.weight(stock.weight)]
        });
        rows.collect()
    }

    /// What a card is cut from: the name of each part, its size, and its paper.
    pub fn cut_rows(&self, recipe: &Recipe, card: &Card) -> Vec<[String; 3]> {
        let rows = card.cut_list.blanks.iter().map(|blank| {
            let name = match blank.part {
                Part::Strip(of) => self.strip(of),
                Part::Layer(layer) => self.stacked(Stacked::Layer { layer }),
            };
            let paper = recipe.stock(blank.stock);
            let paper = paper.map_or_else(String::new, |stock| stock.name.clone());
            [sentence(name), self.short_size(blank.size), paper]
        });
        rows.collect()
    }

    /// What a card takes that is not paper, as it stands in tables.
    pub fn supplied(&self, of: Supplied) -> String {
        match of {
            Supplied::Count(count) => count.to_string(),
            Supplied::Length(length) => self.short_length(length),
            Supplied::Share(of) => format!("1/{of}"),
        }
    }

    /// What cards take that is not paper: the name of each, how much one card takes of
    /// it, and so many. Of what a card that does not close would take, nothing is said.
    pub fn supply_rows(&self, recipe: &Recipe, card: &Card, cards: u32) -> Vec<[String; 3]> {
        let rows = recipe.supplies.iter().map(|supply| {
            let each = card.supplied(supply.takes);
            let written =
                |of: Option<Supplied>| of.map_or_else(String::new, |of| self.supplied(of));
            let all = each.map(|each| each.times(cards));
            [supply.name.clone(), written(each), written(all)]
        });
        rows.collect()
    }

    /// A few envelopes that take the card, the chosen one first: the name of each,
    /// its size, and the room it has besides the card.
    pub fn envelope_rows(&self, recipe: &Recipe, card: &Card) -> Vec<[String; 3]> {
        let chosen = recipe.posting.envelope.as_deref();
        let mut fits: Vec<_> = card.envelopes.iter().collect();
        fits.sort_by_key(|fit| Some(fit.envelope.id) != chosen);
        let rows = fits.into_iter().take(MOST_ENVELOPES).map(|fit| {
            let size = fit.envelope.size_words(recipe.notation.decimal);
            [self.envelope(fit.envelope), size, self.spare(fit)]
        });
        rows.collect()
    }

    /// How a piece is scored, pass by pass.
    pub fn passes(
        &self,
        recipe: &Recipe,
        card: &Card,
        of: StripId,
        chart: &Chart,
    ) -> Vec<ToldPass> {
        let before = std::iter::once(None).chain(chart.passes.iter().map(Some));
        let passes = chart.passes.iter().zip(before).map(|(pass, before)| {
            let marks = pass.marks.iter().map(|mark| {
                let label = self.label(&score_label(of, mark));
                [self.short_length(mark.exact), label]
            });
            ToldPass {
                between: before.map(|it| self.instruction(&between_passes(of, it, pass))),
                lies: self
                    .instructions(&how_to_lay(recipe, card, of, pass))
                    .join(" "),
                marks: marks.collect(),
            }
        });
        passes.collect()
    }

    /// What to be careful with: what each is called, and how to take care where it
    /// was not met before.
    pub fn cautions(
        &self,
        care: &[Hazard],
        met: &mut BTreeSet<Hazard>,
    ) -> Vec<(&'static str, Option<String>)> {
        let cautions = care.iter().map(|hazard| {
            let caution = self.caution(*hazard);
            let words = || format!("{} {}", caution.words, caution.defers);
            (caution.title, met.insert(*hazard).then(words))
        });
        cautions.collect()
    }
}
