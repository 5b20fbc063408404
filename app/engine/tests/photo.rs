//! Photographs of papers on the parts that are cut from them.
//!
//! What a part shows of its sheet is held against where the part lies on it: the
//! corners of everything that is drawn of a part, taken back to the sheet, lie on the
//! sheet where the part is cut from, and what is seen is never a mirror image.

#![expect(
    clippy::panic,
    reason = "a helper of a test fails the test, and says what was missing"
)]

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::draw::{
    Affine, Direction, Drawing, Fill, Mark, Photo, Spot, document, flat, opening_from,
    part_on_sheet, state, svg, told_apart,
};
use foldwright_engine::draw::{Moment, back_of_layer};
use foldwright_engine::faces::{Part, View};
use foldwright_engine::length::Length;
use foldwright_engine::paper::{Heads, PhotoId, SideLook, Stock, StockSide};
use foldwright_engine::part::Part as Cut;
use foldwright_engine::plane::Point;
use foldwright_engine::problem::{Finding, FitFinding};
use foldwright_engine::recipe::{Lay, Recipe, Side, StripId, starters};
use foldwright_engine::steps::{Instruction, how_to_cut};

/// A hundredth of a millimetre.
const NEAR: f64 = 0.01;

fn photo(of: StockSide) -> PhotoId {
    PhotoId::of_digest([if of == StockSide::Face { 1 } else { 2 }; 32])
}

/// Every paper photographed on both sides.
fn photographed(recipe: &Recipe, heads: Heads) -> Recipe {
    let mut recipe = recipe.clone();
    for stock in &mut recipe.stocks {
        for (side, look) in [
            (StockSide::Face, &mut stock.face),
            (StockSide::Back, &mut stock.back),
        ] {
            *look = SideLook {
                photo: Some(photo(side)),
                ..*look
            };
        }
        stock.heads = heads;
    }
    recipe
}

/// Something of paper that is drawn: what it is, its outlines, and what it shows.
type Drawn<'a> = (Option<Part>, &'a [Vec<Spot>], Photo, Affine);

fn papers(drawing: &Drawing) -> Vec<Drawn<'_>> {
    let marks = drawing.marks.iter().filter_map(|mark| match mark {
        Mark::Area {
            outlines,
            fill:
                Fill::Paper {
                    photo: Some(photo),
                    place,
                    ..
                },
            part,
            ..
        } => Some((*part, &outlines[..], *photo, *place)),
        _ => None,
    });
    marks.collect()
}

fn determinant(place: &Affine) -> f64 {
    place.x[0] * place.y[1] - place.x[1] * place.y[0]
}

/// The place on the print that is drawn at a spot.
fn back(place: &Affine, at: Spot) -> Spot {
    let [x, y] = [0, 1].map(|i| at[i] - place.origin[i]);
    let all = determinant(place);
    [
        (x * place.y[1] - y * place.y[0]) / all,
        (y * place.x[0] - x * place.x[1]) / all,
    ]
}

/// A place on the print of a side as it lies on the sheet, by the rule of DOMAIN:
/// head to head the sheet is turned about its upright axis, head to foot about its
/// level one.
fn on_sheet(stock: &Stock, id: PhotoId, [x, y]: Spot) -> Spot {
    let [width, height] = [stock.width, stock.height].map(Length::as_mm_f64);
    match (id == photo(StockSide::Back), stock.heads) {
        (false, _) => [x, y],
        (true, Heads::ToHead) => [width - x, y],
        (true, Heads::ToFoot) => [x, height - y],
    }
}

fn cut_of(recipe: &Recipe, card: &Card, part: Part) -> Option<(Cut, u32)> {
    match part {
        Part::Face(face) => {
            let piece = card.laid.piece_with(card.laid.index_of(face.panel)?)?;
            Some((Cut::Strip(piece.of), piece.stock.0))
        }
        Part::Layer(id) | Part::LayerBack(id) => {
            let layer = recipe.layers.iter().find(|layer| layer.id == id)?;
            Some((Cut::Layer(id), layer.stock.0))
        }
    }
}

/// Where the first of a part is cut from, as it is drawn on its sheet: the low and the
/// high corner.
fn cut_from(recipe: &Recipe, card: &Card, cut: Cut) -> Option<[Spot; 2]> {
    let drawing = part_on_sheet(recipe, card, cut)?;
    let mut edges = drawing.marks.iter().filter_map(|mark| match mark {
        Mark::Line {
            from,
            to,
            ink: foldwright_engine::draw::Ink::Edge,
            ..
        } => Some([*from, *to]),
        _ => None,
    });
    let first: Vec<Spot> = edges.by_ref().take(4).flatten().collect();
    let of = |i: usize, pick: fn(f64, f64) -> f64| first.iter().map(|at| at[i]).reduce(pick);
    Some([
        [of(0, f64::min)?, of(1, f64::min)?],
        [of(0, f64::max)?, of(1, f64::max)?],
    ])
}

/// How many parts of a drawing were looked at.
fn shows_its_part(recipe: &Recipe, card: &Card, drawing: &Drawing, name: &str) -> usize {
    let mut looked = 0;
    for (part, outlines, shown, place) in papers(drawing) {
        assert!(
            determinant(&place) > -1e-9,
            "{name}: {part:?} is a mirror image"
        );
        // What is seen along its edge tells nothing.
        if determinant(&place) < 1e-3 {
            continue;
        }
        let Some((cut, stock)) = part.and_then(|part| cut_of(recipe, card, part)) else {
            continue;
        };
        let stock = recipe.stocks.iter().find(|it| it.id.0 == stock);
        let (Some(stock), Some([low, high])) = (stock, cut_from(recipe, card, cut)) else {
            panic!("{name}: {part:?} is cut from nothing");
        };
        for at in outlines.iter().flatten() {
            let at = on_sheet(stock, shown.id, back(&place, *at));
            for i in [0, 1] {
                assert!(
                    at[i] > low[i] - NEAR && at[i] < high[i] + NEAR,
                    "{name}: {part:?} shows {at:?}, but is cut from {low:?} to {high:?}"
                );
            }
        }
        looked += 1;
    }
    looked
}

#[test]
fn every_figure_shows_the_part_of_the_sheet_that_is_cut() {
    let mut looked = 0;
    for starter in starters() {
        for heads in [Heads::ToHead, Heads::ToFoot] {
            for lay in [None].into_iter().chain(Lay::all().map(Some)) {
                let mut recipe = photographed(&starter.recipe, heads);
                recipe.lay = lay;
                let card = work_out(&recipe, &Tools::default());
                let fits = |cut| card.cut_list.of(cut).is_some_and(|it| it.per_sheet() > 0);
                if !card.cut_list.blanks.iter().all(|blank| fits(blank.part)) {
                    continue;
                }
                let moment = Moment {
                    state: 0,
                    part: 0.4,
                };
                let aslant = Direction {
                    round: -30.0,
                    above: 40.0,
                };
                let drawings = [
                    flat(&recipe, &card, StripId::Base, Side::A),
                    flat(&recipe, &card, StripId::Base, Side::B),
                    state(&recipe, &card, 0, View::Front),
                    state(&recipe, &card, 0, View::Back),
                    opening_from(&recipe, &card, moment, aslant),
                    told_apart(&recipe, &card),
                ];
                for drawing in &drawings {
                    looked += shows_its_part(&recipe, &card, drawing, &starter.id);
                }
                for gluing in &card.gluings {
                    let drawing = back_of_layer(&recipe, &card, gluing);
                    for (_, _, _, place) in papers(&drawing) {
                        assert!(determinant(&place) > 0.9, "{}", starter.id);
                    }
                }
            }
        }
    }
    assert!(looked > 3000, "only {looked}");
}

/// Everything is cut a third of the way across its sheet and half of the way up it.
#[test]
fn a_part_that_is_cut_at_a_place_shows_that_place() {
    let mut looked = 0;
    for starter in starters() {
        let mut recipe = photographed(&starter.recipe, Heads::ToHead);
        let card = work_out(&recipe, &Tools::default());
        for blank in &card.cut_list.blanks {
            let stock = recipe.stock(blank.stock).expect("it has paper");
            let (Some(lies), Some(takes)) = (&blank.lies, blank.takes(stock)) else {
                panic!("{}: {:?} lies nowhere", starter.id, blank.part);
            };
            let left = (stock.width - takes.size().width).div_rem(3);
            let up = (stock.height - takes.size().height).div_rem(2);
            let (left, up) = (left.expect("no 0").0, up.expect("no 0").0);
            let place = Point::new(left, up);
            blank.part.cut_from(&mut recipe, Some((place, lies.lay)));
        }
        let card = work_out(&recipe, &Tools::default());
        for drawing in [
            flat(&recipe, &card, StripId::Base, Side::A),
            state(&recipe, &card, 0, View::Front),
            told_apart(&recipe, &card),
        ] {
            looked += shows_its_part(&recipe, &card, &drawing, &starter.id);
        }
        for blank in &card.cut_list.blanks {
            assert!(blank.per_sheet() <= 1, "{}", starter.id);
        }
    }
    assert!(looked > 150, "only {looked}");
}

/// A card base of 8 1/2 by 5 1/2 in on a sheet of 8 1/2 by 11 in, worked by hand: asked
/// for 3 in to the right and 2 in up it can go 2 in up alone; its upper edge is
/// 11 − 2 − 5 1/2 = 3 1/2 in from that of the sheet.
#[test]
fn what_is_cut_at_a_place_stays_on_its_sheet_and_the_steps_say_where() {
    let book = starters().iter().find(|it| it.id == "book");
    let mut recipe = book.expect("it is one of them").recipe.clone();
    let part = Cut::Strip(StripId::Base);
    let place = Point::new(Length::inches(3), Length::inches(2));
    part.cut_from(&mut recipe, Some((place, Lay::AS_DRAWN)));
    let card = work_out(&recipe, &Tools::default());
    let blank = card.cut_list.of(part).expect("it is cut");
    let size = [blank.size.width, blank.size.height];
    assert_eq!(
        size,
        [Length::sixty_fourths(544), Length::sixty_fourths(352)]
    );
    assert_eq!(blank.at, Some(Point::new(Length::ZERO, Length::inches(2))));
    // That it moved is said; a place that is on the sheet stays, and nothing is.
    let moved = Finding::Fit(FitFinding::Moved(part));
    assert!(card.problems.iter().any(|it| it.finding == moved));
    let kept = Point::new(Length::ZERO, Length::inches(1));
    part.cut_from(&mut recipe, Some((kept, Lay::AS_DRAWN)));
    let within = work_out(&recipe, &Tools::default());
    assert!(within.problems.iter().all(|it| it.finding != moved));
    let does = how_to_cut(&recipe, &card, StripId::Base);
    assert!(does.contains(&Instruction::CutAt {
        part,
        left: Length::ZERO,
        top: Length::sixty_fourths(224),
    }));
    assert!(!does.contains(&Instruction::MeasureFromCorner(part)));
    part.cut_from(&mut recipe, None);
    let card = work_out(&recipe, &Tools::default());
    assert_eq!(card.cut_list.of(part).and_then(|blank| blank.at), None);
}

/// A strip of 8 1/2 by 5 1/2 in from the upper left corner of a square of 12 in, its
/// face outside (worked by hand): on the sheet, which lies face up, the strip lies
/// turned over like a page, so that its lower left corner, as it is drawn, lies 8 1/2
/// in from the left and 6 1/2 in up.
#[test]
fn a_strip_shows_the_corner_it_was_cut_from() {
    let book = starters().iter().find(|it| it.id == "book");
    let mut recipe = photographed(&book.expect("it is one of them").recipe, Heads::ToHead);
    recipe.lay = Some(Lay::AS_DRAWN);
    let card = work_out(&recipe, &Tools::default());
    let blank = card.cut_list.of(Cut::Strip(StripId::Base));
    let size = blank.expect("it is cut").size;
    let base = recipe.base.stock;
    let stock = recipe.stocks.iter().find(|it| it.id == base);
    let sheet = stock.expect("it has paper").size();
    let drawing = flat(&recipe, &card, StripId::Base, Side::B);
    let (_, outlines, shown, place) = papers(&drawing)[0];
    assert_eq!(shown.id, photo(StockSide::Face));
    // Side B up it is turned about its long axis: its first panel stays at the left,
    // and what was its lower edge is its upper one.
    let left_top = [0.0, size.height.as_mm_f64()];
    let is_there = |at: &Spot| (0..2).all(|i| (at[i] - left_top[i]).abs() < NEAR);
    assert!(outlines.iter().flatten().any(is_there));
    let at = back(&place, left_top);
    let wanted = [
        size.width.as_mm_f64(),
        (sheet.height - size.height).as_mm_f64(),
    ];
    assert!(
        (0..2).all(|i| (at[i] - wanted[i]).abs() < NEAR),
        "{at:?} {wanted:?}"
    );
}

/// A photograph is an image in what is drawn; without its address, colour and print.
#[test]
fn a_photograph_that_is_not_at_hand_is_shown_as_colour_and_print() {
    let starter = &starters()[0].recipe;
    let recipe = photographed(starter, Heads::ToHead);
    let card = work_out(&recipe, &Tools::default());
    let drawing = told_apart(&recipe, &card);
    let with = svg(&drawing, "it", &|photo| Some(format!("blob:{photo}"))).inside();
    let without = svg(&drawing, "it", &|_| None).inside();
    assert!(with.contains("<image") && with.contains("blob:0101"));
    assert!(!without.contains("<image"));
    let file = document(&drawing, "It", &|_| {
        Some("data:image/png;base64,".to_owned())
    });
    let read = usvg::Tree::from_str(&file, &usvg::Options::default());
    assert!(read.is_ok(), "{file}");
}
