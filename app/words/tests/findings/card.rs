//! Everything there is to say of a card besides its steps and its problems.

use foldwright_engine::allowance::{Inside, Wrap};
use foldwright_engine::card::{Closed, Facts};
use foldwright_engine::faces::View;
use foldwright_engine::lay::LayerLies;
use foldwright_engine::paper::{Envelope, EnvelopeFit, Lies, Mass};
use foldwright_engine::plane::{Bearing, Turn};
use foldwright_engine::problem::Contents;
use foldwright_engine::recipe::{Anchor, PieceId, Placing, Recipe, Shaped};
use foldwright_engine::sight::Sight;

use super::{There, mm, size};

/// Cards at a glance.
pub(crate) fn facts(recipe: &Recipe) -> Vec<Facts> {
    let there = There::of(recipe);
    let facts = |panels, closed| Facts {
        panels,
        closed,
        flat: size(210, 148),
    };
    let closed = |without: &[PieceId]| {
        Some(Closed {
            front: Some(there.panels[1]),
            without: without.to_vec(),
            size: size(105, 148),
            thickness: mm(1),
            mass: Mass::from_micrograms(12_340_000),
        })
    };
    vec![
        facts(1, None),
        facts(4, None),
        facts(1, closed(&[])),
        facts(1, closed(&[there.piece])),
        facts(4, closed(&[])),
        facts(4, closed(&[there.piece])),
    ]
}

/// Folds that wrap something.
pub(crate) fn wraps(recipe: &Recipe) -> Vec<Wrap> {
    let there = There::of(recipe);
    let wrap = |line, sheets| Wrap {
        line,
        panels: [there.panels[0], there.panels[1]],
        sheets,
        thickness: mm(1),
        asked: mm(1),
        inside: Vec::new(),
    };
    vec![
        wrap(there.score, 1),
        wrap(there.tab_score, 4),
        wrap(there.crease, 2),
    ]
}

/// What lies inside a fold.
pub(crate) fn insides(recipe: &Recipe) -> Vec<Inside> {
    let there = There::of(recipe);
    let all = every!(Contents:
        Contents::Panel(_) => [Contents::Panel(there.panels[0])],
        Contents::Layer(_) => [Contents::Layer(there.layer)],
    );
    let all = all.into_iter().map(|what| Inside { what, gap: mm(2) });
    all.collect()
}

/// Where a face is first seen.
pub(crate) fn sights(recipe: &Recipe) -> Vec<Sight> {
    let there = There::of(recipe);
    let panels = |count: usize| there.panels[..count].to_vec();
    let opened = |opening, count| Sight::Opened {
        opening,
        panels: panels(count),
    };
    every!(Sight:
        Sight::Front => [Sight::Front],
        Sight::Back => [Sight::Back],
        Sight::Open(_) => [Sight::Open(View::Front), Sight::Open(View::Back)],
        Sight::Opened { .. } => [opened(1, 0), opened(1, 1), opened(2, 0), opened(2, 2)],
        Sight::Standing => [Sight::Standing],
        Sight::Never => [Sight::Never],
    )
}

/// How something is placed.
pub(crate) fn places(recipe: &Recipe) -> Vec<(Shaped, Placing)> {
    let there = There::of(recipe);
    let border = recipe.measures[0].id;
    let all = every!(Placing:
        Placing::Border(_) => [Placing::Border(border)],
        Placing::At(_) => [Placing::At(Anchor::Centre)],
        Placing::Distances => [Placing::Distances],
    );
    let of = [
        Shaped::Layer(there.layer),
        Shaped::Window(there.cutout),
        Shaped::Layer(there.layer),
    ];
    of.into_iter().zip(all).collect()
}

/// Prints turned so many degrees to the left; the last has no direction.
pub(crate) fn prints() -> Vec<Option<Bearing>> {
    let turned = |degrees: f64| {
        let (sin, cos) = degrees.to_radians().sin_cos();
        Bearing::towards(cos, sin)
    };
    let degrees = [0.2, 180.0, 90.0, -90.0, -30.0, 22.46, 135.0];
    degrees.into_iter().map(turned).chain([None]).collect()
}

/// How layers lie on their sheets.
pub(crate) fn layer_lies() -> Vec<LayerLies> {
    every!(LayerLies:
        LayerLies::Head(_) => [
            LayerLies::Head(Turn::None),
            LayerLies::Head(Turn::Left),
            LayerLies::Head(Turn::Half),
            LayerLies::Head(Turn::Right),
        ],
        LayerLies::AlongGrain(_) => [LayerLies::AlongGrain(true), LayerLies::AlongGrain(false)],
        LayerLies::Across(_) => [LayerLies::Across(true), LayerLies::Across(false)],
    )
}

/// Envelopes that take the card.
pub(crate) fn spares() -> Vec<EnvelopeFit> {
    let envelope = Envelope::by_id("na-a-long").expect("it is in the table");
    let all = every!(Lies:
        Lies::Upright => [Lies::Upright],
        Lies::Turned => [Lies::Turned],
    );
    let fit = |lies| EnvelopeFit {
        envelope,
        spare_length: mm(6),
        spare_height: mm(4),
        lies,
    };
    all.into_iter().map(fit).collect()
}
