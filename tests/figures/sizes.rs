//! How long a change of a card of many parts takes.

use std::hint::black_box;
use std::time::Instant;

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::draw::{flat, state, svg};
use foldwright_engine::faces::View;
use foldwright_engine::fold::questions;
use foldwright_engine::length::Length;
use foldwright_engine::recipe::{
    EditError, Face, LayerId, LayerKind, MeasureId, PanelId, Placing, Recipe, Seat, Side, StripId,
    starters,
};

use crate::measure::{Figure, Trouble, Workshop, median};
use foldwright_words::English;

const RUNS: u32 = 11;

/// The slowest of three large cards.
pub(crate) fn edit(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let refused = |error: EditError| Trouble(format!("no large card: {error:?}"));
    let cards = [
        ("60 panels with 60 layers", accordion(60, 60)),
        ("120 panels", accordion(120, 0)),
        ("200 layers on two panels", accordion(2, 200)),
    ];
    let mut slowest: Option<(f64, &str)> = None;
    for (name, card) in cards {
        let (recipe, measures) = card.map_err(refused)?;
        for measure in measures {
            let times = (0..RUNS).map(|_| one_edit(&recipe, measure)).collect();
            let time =
                median(times).ok_or_else(|| Trouble(String::from("nothing was measured")))?;
            eprintln!("{name}: {time:.1} ms");
            if slowest.is_none_or(|(most, _)| time > most) {
                slowest = Some((time, name));
            }
        }
    }
    let (value, name) = slowest.ok_or_else(|| Trouble(String::from("there are no cards")))?;
    Ok(vec![Figure {
        name: "edit_large_ms",
        value,
        unit: "ms",
        target: Some(50.0),
        how: format!(
            "native release build: a panel's width, or a mat's border, set, the card worked out \
             and drawn flat and closed as SVG, and what is open about its order asked; median of \
             {RUNS} runs, slowest of 60 panels with 60 layers, 120 panels, and 200 layers on two \
             panels ({name})"
        ),
    }])
}

/// An accordion of so many panels with so many layers on its faces in turn,
/// and the measures to change. Of the layers every second is a mat on the
/// panel, the others lie across each other where they were put.
fn accordion(panels: usize, layers: usize) -> Result<(Recipe, Vec<MeasureId>), EditError> {
    let book = starters().iter().find(|starter| starter.id == "book");
    let mut recipe = book.ok_or(EditError::NoPanel)?.recipe.clone();
    recipe.layers.clear();
    while recipe.base.panels.len() < panels {
        let last = recipe.base.panels.len().saturating_sub(1);
        recipe.add_panel(StripId::Base, last, Some(Length::mm(60)), &English)?;
    }
    let names: Vec<PanelId> = recipe.base.panels.iter().map(|panel| panel.id).collect();
    let faces: Vec<_> = [Side::A, Side::B]
        .into_iter()
        .flat_map(|side| names.iter().map(move |panel| (*panel, side)))
        .collect();
    let mut changed: Vec<_> = recipe
        .base
        .panels
        .last()
        .map(|it| it.width)
        .into_iter()
        .collect();
    let places = faces.iter().cycle().zip(0_i64..).take(layers);
    for ((panel, side), number) in places {
        let seat = Seat::Face(Face {
            panel: *panel,
            side: *side,
        });
        if number % 2 == 0 {
            let id = recipe.add_layer(seat, LayerKind::Mat, &English)?.id;
            changed.truncate(1);
            changed.extend(border(&recipe, id));
        } else {
            let id = recipe.add_layer(seat, LayerKind::Focal, &English)?.id;
            recipe.place_layer(id, Placing::Distances)?;
            let layer = recipe.layer(id).ok_or(EditError::NoLayer)?;
            let sizes = [layer.left, layer.bottom, layer.width, layer.height];
            let lengths = [number * 7 % 30, number * 11 % 60, 20, 30];
            for (measure, length) in sizes.into_iter().zip(lengths) {
                recipe.set(measure, Length::mm(length))?;
            }
        }
    }
    Ok((recipe, changed))
}

fn border(recipe: &Recipe, layer: LayerId) -> Option<MeasureId> {
    match recipe.layer(layer)?.place {
        Placing::Border(border) => Some(border),
        Placing::At(_) | Placing::Distances => None,
    }
}

/// What the calculator does for a change of a measure.
fn one_edit(recipe: &Recipe, measure: MeasureId) -> f64 {
    let mut edited = recipe.clone();
    let to = recipe.value(measure) + Length::mm(1);
    let begin = Instant::now();
    black_box(edited.set(measure, to)).ok();
    let card = work_out(&edited, &Tools::default());
    for drawing in [
        flat(&edited, &card, StripId::Base, Side::A),
        state(&edited, &card, 0, View::Front),
    ] {
        black_box(svg(&drawing, "figure", &|_| None));
    }
    if let Some(folded) = &card.folded {
        black_box(questions(&edited, &card.laid, folded));
    }
    begin.elapsed().as_secs_f64() * 1000.0
}
