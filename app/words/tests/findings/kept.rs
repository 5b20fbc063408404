//! What can keep a recipe or a file from being taken over.

use foldwright_engine::recipe::{
    Detail, Fault, FileError, Measured, Misread, Needed, Parts, Recipe, Spot, VERSION, Written,
};

use super::There;

/// Everything that can keep the recipe from holding together.
pub(crate) fn faults(recipe: &Recipe) -> Vec<Fault> {
    let there = There::of(recipe);
    let (measure, stock) = (recipe.measures[0].id, recipe.stocks[0].id);
    let needed = every!(Needed:
        Needed::Measure => [Needed::Measure],
        Needed::Paper => [Needed::Paper],
        Needed::Panel => [Needed::Panel],
        Needed::Layer => [Needed::Layer],
        Needed::PanelToGlue => [Needed::PanelToGlue],
        Needed::PanelToCut => [Needed::PanelToCut],
        Needed::FoldInRule => [Needed::FoldInRule],
        Needed::ClearanceRule => [Needed::ClearanceRule],
        Needed::Envelope => [Needed::Envelope],
    );
    let measured = every!(Measured:
        Measured::Measure(_) => [Measured::Measure(measure)],
        Measured::Limit(_) => [Measured::Limit(measure)],
        Measured::Designed(_) => [Measured::Designed(measure)],
        Measured::GlueMargin => [Measured::GlueMargin],
        Measured::Plus => [Measured::Plus],
        Measured::GlueOf(_) => [Measured::GlueOf(there.layer)],
        Measured::SheetWidth(_) => [Measured::SheetWidth(stock)],
        Measured::SheetHeight(_) => [Measured::SheetHeight(stock)],
        Measured::Caliper(_) => [Measured::Caliper(stock)],
    );
    let written = every!(Written:
        Written::Name => [Written::Name],
        Written::About => [Written::About],
        Written::Note => [Written::Note],
    );
    let panels = Parts::Panels;
    let mut all = every!(Fault:
        Fault::NoPanel => [Fault::NoPanel],
        Fault::Folds { .. } => [Fault::Folds { panels: 3, folds: 0 }],
        Fault::TooMany { .. } => [Fault::TooMany { parts: panels, number: 121 }],
        Fault::Twice(_) => [Fault::Twice(panels)],
        Fault::Name(_) => [Fault::Name(panels)],
        Fault::Missing(_) => [Fault::Missing(needed[0])],
        Fault::TooLong(_) => [Fault::TooLong(measured[0])],
        Fault::NotPositive(_) => [Fault::NotPositive(measured[0])],
        Fault::Copies(_) => [Fault::Copies(0)],
        Fault::Text(_) => [Fault::Text(written[0])],
        Fault::Limits(_) => [Fault::Limits(measure)],
        Fault::Times(_) => [Fault::Times(-1001)],
        Fault::Outline => [Fault::Outline],
        Fault::Circle(_) => [Fault::Circle(there.layer)],
        Fault::Supply => [Fault::Supply],
    );
    let more = needed.into_iter().skip(1).map(Fault::Missing);
    all.extend(more);
    let more = measured.into_iter().skip(1);
    all.extend(more.flat_map(|what| [Fault::TooLong(what), Fault::NotPositive(what)]));
    all.extend(written.into_iter().skip(1).map(Fault::Text));
    all
}

/// Every reason to refuse a file.
pub(crate) fn file_errors(recipe: &Recipe) -> Vec<FileError> {
    let misread = |faults| Misread {
        recipe: Box::new(recipe.clone()),
        faults,
    };
    let panels = Parts::Panels;
    let misshapen = |name: &str, at| FileError::Misshapen {
        recipe: 1,
        name: name.to_owned(),
        at,
        detail: None,
    };
    let detailed = |at, detail| FileError::Misshapen {
        recipe: 1,
        name: "Quay".to_owned(),
        at,
        detail: Some(detail),
    };
    let of = |parts, number| Spot::Of(parts, number);
    let mut all = every!(FileError:
        FileError::NotJson { .. } => [FileError::NotJson { line: 120 }],
        FileError::NotOurs => [FileError::NotOurs],
        FileError::Newer { .. } => [FileError::Newer { version: VERSION + 1 }],
        FileError::Misshapen { .. } => [
            detailed(Spot::Whole, Detail::Name),
            misshapen("", of(Parts::Measures, Some(12))),
            misshapen("Quay", of(Parts::Relations, Some(12))),
            misshapen("Quay", of(Parts::Papers, Some(2))),
            misshapen("Quay", of(Parts::Layers, Some(2))),
            misshapen("Quay", of(Parts::Pieces, Some(2))),
            misshapen("Quay", of(Parts::Supplies, Some(2))),
            misshapen("Quay", of(Parts::Notes, None)),
            misshapen("Quay", Spot::Base),
            misshapen("Quay", Spot::Posting),
            misshapen("Quay", Spot::FoldingIn),
            misshapen("Quay", Spot::Copies),
            misshapen("Quay", of(Parts::Panels, Some(2))),
            misshapen("Quay", of(Parts::Lines, Some(2))),
            misshapen("Quay", of(Parts::Cutouts, Some(2))),
            misshapen("Quay", of(Parts::Answers, Some(2))),
            misshapen("Quay", Spot::Whole),
        ],
        FileError::Faulty { .. } => [FileError::Faulty {
            recipe: 1,
            of: misread(vec![Fault::NoPanel, Fault::Copies(0)]),
        }],
        FileError::TooLarge { .. } => [FileError::TooLarge {
            recipe: 1,
            of: misread(vec![Fault::TooMany { parts: panels, number: 121 }]),
        }],
    );
    let layer = of(Parts::Layers, Some(2));
    all.extend(Detail::ALL.map(|detail| detailed(layer, detail)));
    all
}
