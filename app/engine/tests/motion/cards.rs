//! Cards to open: two pages with a fold at x = 0, and what is glued to them.

use foldwright_engine::motion::{Assembly, Bond, Facet, Hinge, Lay, Sense};

pub(crate) const LEFT: usize = 0;
pub(crate) const RIGHT: usize = 1;

fn rectangle(from: [f64; 2], to: [f64; 2]) -> Vec<[f64; 2]> {
    vec![from, [to[0], from[1]], to, [from[0], to[1]]]
}

fn part(corners: Vec<[f64; 2]>) -> Facet {
    Facet {
        corners,
        holes: Vec::new(),
    }
}

fn hinge(facets: [usize; 2], axis: [[f64; 2]; 2], sense: Sense) -> Hinge {
    Hinge {
        facets,
        axis,
        sense,
        folded: true,
    }
}

fn shifted(x: f64, y: f64) -> Lay {
    Lay {
        shift: [x, y],
        ..Lay::SAME
    }
}

/// Two pages side by side, the left one on the table; the fold between them
/// is hinge 0, a valley.
pub(crate) fn card(width: f64, height: f64) -> Assembly {
    let page = |from, to| Facet {
        corners: rectangle([from, 0.0], [to, height]),
        holes: Vec::new(),
    };
    Assembly {
        facets: vec![page(-width, 0.0), page(0.0, width)],
        hinges: vec![hinge(
            [LEFT, RIGHT],
            [[0.0, 0.0], [0.0, height]],
            Sense::Valley,
        )],
        bonds: Vec::new(),
        root: LEFT,
        table: Lay::SAME,
        main: 0,
    }
}

/// A strip of panels between parallel creases, alternating labels, joined in
/// a row; its first panel rests on the table, its first crease is the main fold.
pub(crate) fn strip(lengths: &[f64], senses: &[Sense], root: usize, main: usize) -> Assembly {
    let mut at = 0.0;
    let mut facets = Vec::new();
    let mut hinges = Vec::new();
    for (place, length) in lengths.iter().enumerate() {
        if place > 0 {
            let axis = [[at, 0.0], [at, 60.0]];
            hinges.push(hinge([place - 1, place], axis, senses[place - 1]));
        }
        facets.push(Facet {
            corners: rectangle([at, 0.0], [at + length, 60.0]),
            holes: Vec::new(),
        });
        at += length;
    }
    Assembly {
        facets,
        hinges,
        bonds: Vec::new(),
        root,
        table: Lay::SAME,
        main,
    }
}

/// Where a tab is glued: the facet, and the distance of the tab's crease from
/// the fold that the pop-up spans.
#[derive(Clone, Copy)]
pub(crate) struct Foot {
    pub(crate) on: usize,
    /// The fold's place along x in the carrier.
    pub(crate) fold: f64,
    pub(crate) away: f64,
}

/// Glues a strip of two walls and two tabs over a fold along y: the walls are
/// `walls[0]` long from the left foot and `walls[1]` from the right one. Gives
/// the places of its first facet and first hinge.
///
/// In the strip: tab, wall, wall, tab along x; side A faces the reader.
pub(crate) fn tent(
    card: &mut Assembly,
    left: Foot,
    right: Foot,
    walls: [f64; 2],
    along: [f64; 2],
) -> (usize, usize) {
    const TAB: f64 = 8.0;
    let (facet, first) = (card.facets.len(), card.hinges.len());
    let ends = [
        -TAB,
        0.0,
        walls[0],
        walls[0] + walls[1],
        walls[0] + walls[1] + TAB,
    ];
    for pair in ends.windows(2) {
        card.facets
            .push(part(rectangle([pair[0], along[0]], [pair[1], along[1]])));
    }
    let senses = [Sense::Valley, Sense::Mountain, Sense::Valley];
    for (place, sense) in senses.into_iter().enumerate() {
        let at = ends[place + 1];
        card.hinges.push(hinge(
            [facet + place, facet + place + 1],
            [[at, along[0]], [at, along[1]]],
            sense,
        ));
    }
    card.bonds.push(Bond {
        on: left.on,
        part: facet,
        lay: shifted(left.fold - left.away, 0.0),
    });
    card.bonds.push(Bond {
        on: right.on,
        part: facet + 3,
        lay: shifted(right.fold + right.away - ends[3], 0.0),
    });
    (facet, first)
}

/// A strip over the main fold, its feet at `feet` from the fold.
pub(crate) fn tented(width: f64, feet: [f64; 2], walls: [f64; 2]) -> Assembly {
    let mut card = card(width, 120.0);
    tent(
        &mut card,
        foot(LEFT, feet[0]),
        foot(RIGHT, feet[1]),
        walls,
        [30.0, 90.0],
    );
    card
}

pub(crate) fn foot(on: usize, away: f64) -> Foot {
    Foot {
        on,
        fold: 0.0,
        away,
    }
}

/// Glues a V-fold over a fold along y: on each side the crease of the foot
/// runs from the point `at` up the fold at an angle `feet` from it, and the
/// wing between it and the middle crease has the angle `wings` at the point.
/// `carriers` are the facets and the fold's place along x in each.
pub(crate) fn vee(
    card: &mut Assembly,
    carriers: [(usize, f64); 2],
    at: f64,
    feet: [f64; 2],
    wings: [f64; 2],
    long: f64,
) -> (usize, usize) {
    let (facet, first) = (card.facets.len(), card.hinges.len());
    // Directions anticlockwise from up, in the piece.
    let way = |angle: f64, far: f64| [-angle.sin() * far, angle.cos() * far];
    let [left, right] = wings;
    let tab = 0.15;
    let o = [0.0, 0.0];
    let near = long * 0.9;
    card.facets
        .push(part(vec![o, way(left, long), way(left + tab, near)]));
    card.facets
        .push(part(vec![o, way(0.0, long), way(left, long)]));
    card.facets
        .push(part(vec![o, way(-right, long), way(0.0, long)]));
    card.facets
        .push(part(vec![o, way(-right - tab, near), way(-right, long)]));
    for (place, (angle, sense)) in [
        (left, Sense::Valley),
        (0.0, Sense::Mountain),
        (-right, Sense::Valley),
    ]
    .into_iter()
    .enumerate()
    {
        card.hinges.push(hinge(
            [facet + place, facet + place + 1],
            [o, way(angle, long)],
            sense,
        ));
    }
    let [(on_left, fold_left), (on_right, fold_right)] = carriers;
    card.bonds.push(Bond {
        on: on_left,
        part: facet,
        lay: Lay {
            mirrored: false,
            turn: feet[0] - left,
            shift: [fold_left, at],
        },
    });
    card.bonds.push(Bond {
        on: on_right,
        part: facet + 3,
        lay: Lay {
            mirrored: false,
            turn: right - feet[1],
            shift: [fold_right, at],
        },
    });
    (facet, first)
}

/// Glues a rectangle measured in the carrier's coordinates onto it.
pub(crate) fn layer(card: &mut Assembly, on: usize, from: [f64; 2], to: [f64; 2]) -> usize {
    let place = card.facets.len();
    card.facets.push(part(rectangle(from, to)));
    card.bonds.push(Bond {
        on,
        part: place,
        lay: Lay::SAME,
    });
    place
}
