//! Everything there is to say of how a card looks and opens.

use foldwright_engine::faces::Part;
use foldwright_engine::pattern::LineKind;
use foldwright_engine::posed::Stands;
use foldwright_engine::recipe::{Fold, PanelId, Recipe, StripId};
use foldwright_engine::seen::{Fallen, FlatSeen, StateSeen, Third};
use foldwright_engine::stage::{Stage, Stop, Swung};

use super::{There, mm, size};

/// More than are told one by one.
const MANY: usize = 13;

/// Flat pieces.
pub(crate) fn flats(recipe: &Recipe) -> Vec<FlatSeen> {
    let there = There::of(recipe);
    let whole = FlatSeen {
        of: StripId::Base,
        size: size(210, 148),
        panels: there.panels.iter().map(|id| (*id, mm(52))).collect(),
        lines: vec![
            (there.score, LineKind::Crease(Fold::Valley)),
            (there.crease, LineKind::Crease(Fold::Mountain)),
            (there.cut, LineKind::Cut),
        ],
        fallen: vec![fallen()[0]],
        on: vec![(there.layer, size(40, 60))],
    };
    let bare = FlatSeen {
        of: StripId::Piece(there.piece),
        panels: vec![(there.tab, mm(12))],
        lines: Vec::new(),
        fallen: Vec::new(),
        on: Vec::new(),
        ..whole.clone()
    };
    let many = FlatSeen {
        panels: vec![(there.panels[0], mm(9)); MANY],
        lines: vec![(there.cut, LineKind::Cut); MANY],
        fallen: vec![fallen()[1]; MANY],
        on: vec![(there.layer, size(40, 60)); MANY],
        ..whole.clone()
    };
    vec![whole, bare, many]
}

/// States of the folded card.
pub(crate) fn states(recipe: &Recipe) -> Vec<StateSeen> {
    let there = There::of(recipe);
    let parts = every!(Part:
        Part::Face(_) => [Part::Face(there.faces[0])],
        Part::Layer(_) => [Part::Layer(there.layer)],
        Part::LayerBack(_) => [Part::LayerBack(there.layer)],
    );
    let parts: Vec<_> = parts
        .into_iter()
        .map(|it| (it, Some(size(40, 60))))
        .collect();
    let lies = |parts, standing: &[PanelId]| StateSeen::Lies {
        size: size(105, 148),
        parts,
        standing: standing.to_vec(),
    };
    let many = vec![(Part::Layer(there.layer), None); MANY];
    every!(StateSeen:
        StateSeen::NotFlat => [StateSeen::NotFlat],
        StateSeen::Stopped(_) => [
            StateSeen::Stopped(Stop::Degrees(84)),
            StateSeen::Stopped(Stop::AsFarAsItGoes),
        ],
        StateSeen::Lies { .. } => [
            lies(parts.clone(), &[]),
            lies(parts.clone(), &there.panels[..1]),
            lies(Vec::new(), &there.panels[..2]),
            lies(many.clone(), &[there.panels[0]; MANY]),
        ],
    )
}

/// Stages of the opening.
pub(crate) fn stages(recipe: &Recipe) -> Vec<Stage> {
    let there = There::of(recipe);
    let panels = |count: usize| Swung::Panels(there.panels[..count].to_vec());
    let swings = every!(Swung:
        Swung::Card => [Swung::Card],
        Swung::Panels(_) => [panels(0), panels(1), panels(2), panels(3)],
    );
    let opening = swings.clone().into_iter().map(Stage::Opening);
    let opened = swings.into_iter().flat_map(|swung| {
        [false, true].map(|stops| Stage::Opened {
            swung: swung.clone(),
            stops,
        })
    });
    let stages = every!(Stage:
        Stage::NotFlat => [Stage::NotFlat],
        Stage::Closed => [Stage::Closed],
        Stage::HeldShut => [Stage::HeldShut],
        Stage::NoFold => [Stage::NoFold],
        Stage::Open => [Stage::Open],
        Stage::Flat => [Stage::Flat],
        Stage::Stopped(_) => [
            Stage::Stopped(Stop::Degrees(84)),
            Stage::Stopped(Stop::AsFarAsItGoes),
        ],
        Stage::Opening(_) => [Stage::Opening(Swung::Card)],
        Stage::Opened { .. } => [Stage::Opened { swung: Swung::Card, stops: false }],
    );
    stages.into_iter().chain(opening).chain(opened).collect()
}

/// How a card stands.
pub(crate) fn stands() -> Vec<Stands> {
    every!(Stands:
        Stands::Firm(_) => [Stands::Firm(mm(14))],
        Stands::Barely => [Stands::Barely],
        Stands::Falls => [Stands::Falls],
    )
}

/// Parts that fall off, in every third.
pub(crate) fn fallen() -> Vec<Fallen> {
    let thirds = every!(Third:
        Third::First => [Third::First],
        Third::Middle => [Third::Middle],
        Third::Last => [Third::Last],
    );
    let across = thirds.clone();
    let all = thirds.into_iter().flat_map(|up| {
        across.clone().into_iter().map(move |across| Fallen {
            size: size(20, 30),
            across,
            up,
        })
    });
    all.collect()
}
