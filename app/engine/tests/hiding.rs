//! What hides what while the card opens, told place by place: the paper that is
//! nearest there must be painted last. The reference knows nothing of areas; it
//! compares heights at single places.

#[path = "../../../tests/figures/ladder.rs"]
mod ladder;

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::draw::{Mark, Moment, Spot, opening};
use foldwright_engine::motion::Rigid;
use foldwright_engine::plane::{PieceFrame, Polygon};
use foldwright_engine::recipe::{Recipe, starters};
use foldwright_engine::show::Part;

/// How a lifted point moves in the picture for each millimetre of height.
const LIFT: Spot = [0.12, 0.36];
/// Sheets nearer to each other than this lie as they do in the closed card.
const TOUCHING: f64 = 0.06;
/// Places this near to an edge belong to either side.
const EDGE: f64 = 0.05;

/// A number from 0 to 1 that looks random (the finaliser of `SplitMix64`).
fn random(seed: &mut u64) -> f64 {
    *seed = seed.wrapping_add(0x9e37_79b9_7f4a_7c15);
    let mixed = (*seed ^ (*seed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    let [a, b, c, ..] = (mixed ^ (mixed >> 31)).to_be_bytes().map(f64::from);
    (a + (b + c / 256.0) / 256.0) / 256.0
}

/// A place of the picture on a sheet's own plane, and how high it is there;
/// nothing where the sheet is seen nearly edge on.
fn on_sheet(sheet: &Rigid, at: Spot) -> Option<(Spot, f64)> {
    let [right, up, facing] = sheet.turn;
    let steep = facing[2] - facing[0] * LIFT[0] - facing[1] * LIFT[1];
    if steep.abs() < 0.02 {
        return None;
    }
    let off = [0, 1].map(|i| at[i] - sheet.shift[i]);
    let high = (sheet.shift[2] * facing[2] - off[0] * facing[0] - off[1] * facing[1]) / steep;
    let way = [
        off[0] - LIFT[0] * high,
        off[1] - LIFT[1] * high,
        high - sheet.shift[2],
    ];
    let along = |of: [f64; 3]| (0..3).map(|i| of[i] * way[i]).sum();
    Some(([along(right), along(up)], high))
}

/// Whether a place lies within a ring (an odd number of crossings to its
/// right), and how far from its nearest edge.
fn within(ring: &Polygon<PieceFrame>, [x, y]: Spot) -> (bool, f64) {
    let corners = ring.corners.iter();
    let corners: Vec<Spot> = corners
        .map(|at| [at.x.as_mm_f64(), at.y.as_mm_f64()])
        .collect();
    let mut inside = false;
    let mut off = f64::INFINITY;
    for (a, b) in corners.iter().zip(corners.iter().cycle().skip(1)) {
        if (a[1] > y) != (b[1] > y) && x < a[0] + (y - a[1]) / (b[1] - a[1]) * (b[0] - a[0]) {
            inside = !inside;
        }
        let (way, to) = ([b[0] - a[0], b[1] - a[1]], [x - a[0], y - a[1]]);
        let long = way[0] * way[0] + way[1] * way[1];
        let part = ((to[0] * way[0] + to[1] * way[1]) / long).clamp(0.0, 1.0);
        off = off.min((to[0] - part * way[0]).hypot(to[1] - part * way[1]));
    }
    (inside, off)
}

/// How high the sheet is where it is seen at a place. The error stands for a
/// place too near to an edge to tell.
fn height(card: &Card, panel: usize, sheet: &Rigid, at: Spot) -> Result<Option<f64>, ()> {
    let Some((on, high)) = on_sheet(sheet, at) else {
        return Err(());
    };
    let facet = &card.laid.panels[panel].facet;
    let mut inside = false;
    for (number, ring) in std::iter::once(&facet.outline)
        .chain(&facet.holes)
        .enumerate()
    {
        let (is_within, off) = within(ring, on);
        if off < EDGE {
            return Err(());
        }
        inside = if number == 0 {
            is_within
        } else {
            inside && !is_within
        };
    }
    Ok(inside.then_some(high))
}

/// Compares the order of the panels painted with what is nearest at random
/// places; how many places told two sheets apart.
fn check(recipe: &Recipe, seed: &mut u64) -> u32 {
    let card = work_out(recipe, &Tools::default());
    let (Some(folded), Some(whole)) = (&card.folded, &card.whole) else {
        return 0;
    };
    let together = folded.states.iter().position(|state| {
        let opened = state.opened.as_ref();
        opened.is_some_and(|opened| opened.together)
    });
    let Some(together) = together else { return 0 };
    let mut told = 0;
    for step in 1..=12 {
        let share = f64::from(step) / 12.5;
        let moment = Moment {
            state: together - 1,
            part: share,
        };
        let drawing = opening(recipe, &card, moment);
        let painted: Vec<usize> = drawing
            .marks
            .iter()
            .filter_map(|mark| match mark {
                Mark::Area {
                    part: Some(Part::Face(face)),
                    ..
                } => card.laid.place_of(face.panel),
                _ => None,
            })
            .collect();
        assert_eq!(painted.len(), card.laid.panels.len(), "{}", recipe.name);
        let pose = whole.pose_at(share);
        for _ in 0..400 {
            let mut between =
                |i: usize| drawing.low[i] + random(seed) * (drawing.high[i] - drawing.low[i]);
            let at = [between(0), between(1)];
            let mut highest: Option<(f64, usize)> = None;
            for panel in painted.iter().copied() {
                let Ok(Some(high)) = height(&card, panel, &pose.facets[panel], at) else {
                    continue;
                };
                if let Some((before, under)) = highest {
                    told += u32::from((high - before).abs() > TOUCHING);
                    assert!(
                        high > before - TOUCHING,
                        "{}, {share:.2} open, at {at:?}: panel {panel} is painted over {under} \
                         and lies {:.2} mm farther",
                        recipe.name,
                        before - high
                    );
                }
                if highest.is_none_or(|(before, _)| high > before) {
                    highest = Some((high, panel));
                }
            }
        }
    }
    told
}

#[test]
fn the_nearest_paper_is_painted_last() {
    let mut seed = 7;
    println!("seed {seed}");
    let ladder = ladder::ladder().expect("the ladder can be drawn");
    let told = check(&ladder, &mut seed);
    assert!(told > 300, "only {told} places told two sheets apart");
    let mut opened = 0;
    for starter in starters() {
        opened += u32::from(check(&starter.recipe, &mut seed) > 0);
    }
    assert!(opened >= 3, "only {opened} starting folds open as a whole");
}
