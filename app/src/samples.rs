//! Finished cards to look into before there is one of one's own: those of an invented
//! harbour library's paper workshop.

use foldwright_engine::length::Notation;
use foldwright_engine::paper::{PrintedPaper, StockId};
use foldwright_engine::recipe::{
    EditError, Face, LayerId, LayerKind, Recipe, Seat, Side, starters,
};
use foldwright_words::SampleTexts;

use crate::offered::Offered;
use crate::spoken::{naming, starting};

/// Where a layer lies.
#[derive(Clone, Copy)]
enum On {
    /// On a panel, counted along the base, on its outside.
    Outside(usize),
    /// On its inside.
    Inside(usize),
    /// On the layer before it.
    Last,
}

/// A finished card: a fold to start from, of a paper, with layers on it.
pub(crate) struct Sample {
    /// The fold it starts from, by which it is known.
    pub(crate) fold: &'static str,
    /// Its name, and what it is for.
    told: fn(&SampleTexts) -> (&'static str, &'static str),
    /// The paper of the base, where it is not the fold's own.
    base: Option<PrintedPaper>,
    layers: &'static [(On, LayerKind, PrintedPaper)],
}

/// All of them. Their layers come from papers that are sold in the same sizes
/// wherever the maker measures.
pub(crate) const SAMPLES: [Sample; 6] = [
    Sample {
        fold: "gate",
        told: |texts| (texts.gate, texts.gate_about),
        base: None,
        layers: &[
            (On::Outside(0), LayerKind::Mat, PrintedPaper::Waves),
            (On::Outside(2), LayerKind::Mat, PrintedPaper::Waves),
            (On::Inside(1), LayerKind::Mat, PrintedPaper::WindStars),
            (On::Last, LayerKind::Focal, PrintedPaper::Lighthouses),
        ],
    },
    Sample {
        fold: "z",
        told: |texts| (texts.z, texts.z_about),
        base: None,
        layers: &[
            (On::Inside(0), LayerKind::Mat, PrintedPaper::SailStripes),
            (On::Inside(1), LayerKind::Mat, PrintedPaper::Boats),
            (On::Inside(2), LayerKind::Mat, PrintedPaper::SailStripes),
        ],
    },
    Sample {
        fold: "stairs",
        told: |texts| (texts.stairs, texts.stairs_about),
        base: Some(PrintedPaper::Planks),
        layers: &[],
    },
    Sample {
        fold: "tent",
        told: |texts| (texts.tent, texts.tent_about),
        base: None,
        layers: &[
            (On::Outside(0), LayerKind::Mat, PrintedPaper::Nets),
            (On::Last, LayerKind::Focal, PrintedPaper::Bookplates),
        ],
    },
    Sample {
        fold: "window",
        told: |texts| (texts.window, texts.window_about),
        base: None,
        layers: &[],
    },
    Sample {
        fold: "v-fold",
        told: |texts| (texts.v_fold, texts.v_fold_about),
        base: None,
        layers: &[(On::Outside(0), LayerKind::Mat, PrintedPaper::Gulls)],
    },
];

impl Sample {
    /// Its recipe, in the unit and with the names of its reader.
    pub(crate) fn recipe(
        &self,
        texts: &SampleTexts,
        notation: Notation,
    ) -> Result<Recipe, EditError> {
        let starter = starters().iter().find(|starter| starter.id == self.fold);
        let mut recipe = starting(starter.ok_or(EditError::NoPanel)?, notation);
        let (name, about) = (self.told)(texts);
        name.clone_into(&mut recipe.name);
        about.clone_into(&mut recipe.about);
        if let Some(paper) = self.base {
            recipe.base.stock = stock(&mut recipe, paper);
        }
        let mut last = None;
        for (on, kind, paper) in self.layers {
            let seat = seat(&recipe, *on, last).ok_or(EditError::NoPanel)?;
            let added = recipe.add_layer(seat, *kind, naming())?.id;
            let stock = stock(&mut recipe, *paper);
            let mut layers = recipe.layers.iter_mut();
            if let Some(layer) = layers.find(|layer| layer.id == added) {
                layer.stock = stock;
            }
            last = Some(added);
        }
        Ok(recipe)
    }
}

fn seat(recipe: &Recipe, on: On, last: Option<LayerId>) -> Option<Seat> {
    let face = |panel: usize, side| {
        let panel = recipe.base.panels.get(panel)?.id;
        Some(Seat::Face(Face { panel, side }))
    };
    match on {
        On::Outside(panel) => face(panel, Side::B),
        On::Inside(panel) => face(panel, Side::A),
        On::Last => last.map(Seat::Layer),
    }
}

/// That paper among those of the recipe, to which it is added where it is new.
fn stock(recipe: &mut Recipe, paper: PrintedPaper) -> StockId {
    let mut wanted = Offered::Printed(paper).stock();
    let known = recipe.stocks.iter().find(|stock| stock.name == wanted.name);
    if let Some(stock) = known {
        return stock.id;
    }
    let used = recipe.stocks.iter().map(|stock| stock.id.0).max();
    wanted.id = StockId(used.map_or(1, |used| used.saturating_add(1)));
    let id = wanted.id;
    recipe.stocks.push(wanted);
    id
}

#[cfg(test)]
mod tests {
    use foldwright_engine::card::{Tools, work_out};
    use foldwright_engine::length::{DecimalMark, Notation, Step};
    use foldwright_engine::problem::Weight;
    use foldwright_words::Language;

    use super::SAMPLES;
    use crate::spoken::speak;

    /// Whoever opens one of them as their first card must be able to make it.
    #[test]
    fn each_can_be_made_as_it_is() {
        for language in Language::ALL {
            speak(language);
            for step in [Step::Sixteenth, Step::Millimetre] {
                let notation = Notation {
                    step,
                    decimal: DecimalMark::Point,
                };
                for sample in &SAMPLES {
                    let recipe = sample.recipe(language.samples(), notation);
                    let recipe = recipe.unwrap_or_else(|why| panic!("{}: {why:?}", sample.fold));
                    let card = work_out(&recipe, &Tools::default());
                    let grave = card.problems.iter();
                    let grave: Vec<_> = grave.filter(|it| it.weight > Weight::Note).collect();
                    assert!(grave.is_empty(), "{} in {step:?}: {grave:?}", sample.fold);
                    assert!(card.folded.is_some() && !card.cut_list.blanks.is_empty());
                }
            }
        }
    }
}
