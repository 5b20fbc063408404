//! Strips to try things on.

use std::collections::BTreeMap;

use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::paper::ReadyPaper;
use foldwright_engine::recipe::{
    Base, Fold, FoldingIn, Ids, Measure, MeasureId, Panel, PanelId, Posting, Recipe, Runs, Scoring,
    Strip,
};

/// The strip's height.
pub(crate) const HEIGHT: MeasureId = MeasureId(100);
/// The strip's length.
pub(crate) const LENGTH: MeasureId = MeasureId(101);
/// The allowance of panels folded in.
pub(crate) const ALLOWANCE: MeasureId = MeasureId(102);

/// The width of the panel at a place along the strip.
pub(crate) const fn panel(place: u32) -> MeasureId {
    MeasureId(place)
}

/// A strip of these widths, folded as the labels say, resting on one panel.
pub(crate) fn strip(
    widths: &[Length],
    height: Length,
    labels: &str,
    rests: u32,
    runs: Runs,
) -> Recipe {
    let numbers = 0..u32::try_from(widths.len()).expect("a test's strip is short");
    let stock = ReadyPaper::Cream.stock("cream".to_owned());
    let measure =
        |id: u32, name: &str, value: Length| Measure::new(MeasureId(id), name.to_owned(), value);
    let mut measures = vec![
        measure(HEIGHT.0, "height", height),
        measure(LENGTH.0, "length", widths.iter().copied().sum()),
        measure(ALLOWANCE.0, "allowance", Length::mm(2)),
    ];
    measures.extend(
        numbers
            .clone()
            .zip(widths)
            .map(|(id, width)| measure(id, &format!("panel {} width", id + 1), *width)),
    );
    Recipe {
        name: "Strip".to_owned(),
        about: String::new(),
        designed_on: None,
        notation: Notation {
            step: Step::Sixteenth,
            decimal: DecimalMark::Point,
        },
        measures,
        relations: Vec::new(),
        base: Base {
            strip: Strip {
                lines: Vec::new(),
                cutouts: Vec::new(),
                keep: None,
                cut_at: None,
                stock: stock.id,
                length: LENGTH,
                height: HEIGHT,
                panels: numbers
                    .map(|id| Panel {
                        id: PanelId(id),
                        name: format!("panel {}", id + 1),
                        width: panel(id),
                    })
                    .collect(),
                folds: labels
                    .chars()
                    .map(|label| {
                        if label == 'M' {
                            Fold::Mountain
                        } else {
                            Fold::Valley
                        }
                    })
                    .collect(),
            },
            rests: PanelId(rests),
            runs,
            on_top: Vec::new(),
        },
        pieces: Vec::new(),
        stocks: vec![stock],
        layers: Vec::new(),
        supplies: Vec::new(),
        upright: Vec::new(),
        lay: None,
        scoring: Scoring::default(),
        glue_margin: Length::mm(3),
        folding_in: FoldingIn {
            rule: "sixteenth".to_owned(),
            allowance: ALLOWANCE,
        },
        posting: Posting {
            rule: "eighth-round".to_owned(),
            envelope: None,
            is_envelope: false,
            made_of: None,
        },
        copies: 1,
        class: None,
        own_steps: Vec::new(),
        order: Vec::new(),
        notes: BTreeMap::new(),
        photos: BTreeMap::new(),
        runs: Vec::new(),
        ids: Ids::default(),
    }
}
