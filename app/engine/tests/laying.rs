//! What is said of how a piece lies on its sheet, followed by hand: a piece of
//! paper is a matrix of whole numbers, and nothing here asks our placements
//! where anything lies.

#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "a test stops where what it needs is not there"
)]

mod strips;

use std::collections::BTreeMap;

use foldwright_engine::card::{Card, LayFacts, Tools, lay_facts, work_out};
use foldwright_engine::draw::{Drawing, Ink, Mark, Role, part_on_sheet};
use foldwright_engine::faces::{Reading, View};
use foldwright_engine::lay::LayReport;
use foldwright_engine::length::Length;
use foldwright_engine::paper::{Heads, Print, ReadyPaper, Stock, StockSide};
use foldwright_engine::part::Part;
use foldwright_engine::plane::{Edge, Size, Turn};
use foldwright_engine::recipe::{
    Face, Lay, PanelId, PieceId, Recipe, Runs, Scoring, Side, StripId, starters,
};
use foldwright_engine::steps::{Instruction, Runs as Lies, SheetLies, how_to_cut, how_to_lay};
use strips::strip;

/// A direction on the table, to the right and away from the maker.
type Way = [i64; 2];
/// Where the two directions of a piece go, drawn from its inside: along it, and
/// up.
type Matrix = [Way; 2];

const UP: Way = [0, 1];
const ALONG: Matrix = [[1, 0], [0, 1]];
const PAGE: Matrix = [[-1, 0], [0, 1]];

fn times(matrix: Matrix, [x, y]: Way) -> Way {
    [0, 1].map(|i| matrix[0][i] * x + matrix[1][i] * y)
}

/// One movement, and then another.
fn then(first: Matrix, next: Matrix) -> Matrix {
    first.map(|way| times(next, way))
}

/// A movement of paper undone: mirrored in its main diagonal, for it keeps
/// right angles and lengths.
fn back(matrix: Matrix) -> Matrix {
    [[matrix[0][0], matrix[1][0]], [matrix[0][1], matrix[1][1]]]
}

/// Folding over a crease, where it runs along the piece, across it, or halfway
/// between.
fn folding(from: [Length; 2], to: [Length; 2]) -> Option<Matrix> {
    let [x, y] = [0, 1].map(|i| (to[i] - from[i]).units());
    match (x, y) {
        (0, _) => Some([[-1, 0], [0, 1]]),
        (_, 0) => Some([[1, 0], [0, -1]]),
        (x, y) if x == y => Some([[0, 1], [1, 0]]),
        (x, y) if x == -y => Some([[0, -1], [-1, 0]]),
        _ => None,
    }
}

/// The way to an edge of the sheet.
fn way_to(edge: Edge) -> Way {
    match edge {
        Edge::Left => [-1, 0],
        Edge::Right => [1, 0],
        Edge::Top => [0, 1],
        Edge::Bottom => [0, -1],
    }
}

/// The piece as it lies on the table when its first panel lies towards an edge
/// and one side is up: along it goes away from that edge; the inside is
/// turned, the outside mirrored.
fn lying(first: Way, up: Side) -> Matrix {
    let along = first.map(|part| -part);
    let left_of_it = [-along[1], along[0]];
    match up {
        Side::A => [along, left_of_it],
        Side::B => [along, left_of_it.map(|part| -part)],
    }
}

/// What the label says: where the first panel lies, and what is up.
fn label(said: &LayFacts) -> (Way, Side) {
    let way = way_to(said.at);
    assert_eq!(said.across, way[1] == 0, "{said:?}");
    let up = match said.outside {
        // The sheet lies face up.
        Some(StockSide::Face) => Side::B,
        Some(StockSide::Back) => Side::A,
        None => panic!("its sides look alike: {said:?}"),
    };
    (way, up)
}

/// Where the print of a side has its head on the sheet that lies face up, its
/// print upright. Head to head: turned like a page it is upright again, and
/// that leaves up where it was; head to foot: it is upside down.
fn head_on_sheet(side: StockSide, heads: Heads) -> Way {
    match (side, heads) {
        (StockSide::Face, _) | (StockSide::Back, Heads::ToHead) => UP,
        (StockSide::Back, Heads::ToFoot) => [0, -1],
    }
}

/// Where the print on a side of a piece has its head, as the piece is drawn from
/// its inside, when it was cut as it lies.
fn head_on_piece(lies: Matrix, up: Side, side: Side, heads: Heads) -> Way {
    let from = if side == up {
        StockSide::Face
    } else {
        StockSide::Back
    };
    times(back(lies), head_on_sheet(from, heads))
}

/// How the panels of the base lie before the reader of a state, fold by fold
/// from the one that rests; without those that stand, or that a crease in
/// between turns by another angle.
fn folded(recipe: &Recipe, card: &Card, state: usize) -> BTreeMap<PanelId, Matrix> {
    let runs = match recipe.base.runs {
        Runs::Across => ALONG,
        // From top to bottom: along the strip is down the card.
        Runs::Down => [[0, -1], [1, 0]],
    };
    let states = &card.folded.as_ref().expect("it folds").states;
    let opened = states
        .iter()
        .take(state + 1)
        .filter_map(|it| it.opened.as_ref());
    let opened: Vec<usize> = opened.flat_map(|it| it.hinges.iter().copied()).collect();
    let stands = |panel: PanelId| {
        let mut poses = states[state].poses.iter();
        poses.any(|pose| pose.panel == panel && pose.stands)
    };
    let mut found = BTreeMap::new();
    let mut waiting = vec![(recipe.base.rests, runs)];
    while let Some((panel, lies)) = waiting.pop() {
        if stands(panel) || found.insert(panel, lies).is_some() {
            continue;
        }
        for (number, hinge) in card.laid.hinges.iter().enumerate() {
            let [left, right] = [hinge.left, hinge.right].map(|it| card.laid.panels[it].id);
            let beyond = match panel {
                _ if panel == left => right,
                _ if panel == right => left,
                _ => continue,
            };
            let [from, to] = [hinge.axis.from, hinge.axis.to].map(|end| [end.x, end.y]);
            let over = match (opened.contains(&number), folding(from, to)) {
                (true, _) => ALONG,
                (false, Some(over)) => over,
                (false, None) => continue,
            };
            if !found.contains_key(&beyond) {
                waiting.push((beyond, then(over, lies)));
            }
        }
    }
    found
}

/// A piece glued in, as it lies in the closed card: the panel that is laid along
/// a line, on what the line is drawn on.
fn laid_along(recipe: &Recipe, card: &Card, of: PieceId) -> Option<(PanelId, Matrix)> {
    let join = recipe.piece(of)?.joins.first()?;
    let mark = join.at?;
    let carrier = *folded(recipe, card, 0).get(&join.on.panel)?;
    let at = |corner: foldwright_engine::recipe::Corner| {
        [corner.x, corner.y].map(|measure| recipe.value(measure))
    };
    let straight = |from: [Length; 2], to: [Length; 2]| {
        let [x, y] = [0, 1].map(|i| (to[i] - from[i]).units().signum());
        (x == 0 || y == 0).then_some([x, y])
    };
    let line = straight(at(mark.from), at(mark.to))?;
    // Its crease is the score beside the panel, from the bottom up.
    let across = |way: Way| [way[1], -way[0]];
    let upright = if mark.shows == join.on.side {
        [across(line), line]
    } else {
        [across(line).map(|part| -part), line]
    };
    Some((join.panel, then(upright, carrier)))
}

/// The direction of a print's head before the reader of a face.
fn seen(reading: &Reading, lies: Matrix, head: Way) -> Way {
    let view = match reading.view {
        View::Front => ALONG,
        View::Back => PAGE,
    };
    times(view, times(lies, head))
}

/// A recipe whose papers are printed one way on both sides and as large as any
/// piece.
fn printed(mut recipe: Recipe, heads: Heads) -> Recipe {
    for stock in &mut recipe.stocks {
        (stock.width, stock.height) = (Length::inches(48), Length::inches(40));
        stock.heads = heads;
        stock.face.print = Print::OneWay;
        stock.back.print = Print::OneWay;
    }
    recipe
}

/// The first panel of several.
fn first_panel(recipe: &Recipe, of: StripId) -> Option<PanelId> {
    match &recipe.strip(of).expect("it is there").panels[..] {
        [first, _, ..] => Some(first.id),
        _ => None,
    }
}

/// The label of every lay of a piece.
fn labels(recipe: &Recipe, card: &Card, of: StripId) -> Vec<(Lay, LayFacts)> {
    let strip = recipe.strip(of).expect("it is there");
    let stock = recipe.stock(strip.stock).expect("it has paper");
    let reports: &[LayReport] = &card.lies(Part::Strip(of)).expect("it has paper").lays;
    let told = |report: &LayReport| (report.lay, lay_facts(recipe, of, stock, report));
    reports.iter().map(told).collect()
}

/// For every starting fold, panel, side of it, way to lay the sheet and way the
/// two prints stand to each other: laid as the label says, cut, folded and
/// read, the print is upright just where we say so.
#[test]
fn labels_followed_by_hand_put_the_print_where_it_is_said_to_be() {
    let (mut tried, mut upright) = (0, 0);
    for starter in starters() {
        for heads in [Heads::ToHead, Heads::ToFoot] {
            let recipe = printed(starter.recipe.clone(), heads);
            let card = work_out(&recipe, &Tools::default());
            for (of, _) in recipe.strips() {
                let first = first_panel(&recipe, of);
                let stock = recipe.stock(recipe.strip(of).expect("it is there").stock);
                let stock: &Stock = stock.expect("it has paper");
                let labels = labels(&recipe, &card, of);
                assert_eq!(labels.len(), 8);
                for reading in &card.readings {
                    let face = reading.face;
                    let on = recipe.strip_with(face.panel).map(|(of, ..)| of);
                    let lies = match of {
                        StripId::Base => folded(&recipe, &card, reading.state)
                            .get(&face.panel)
                            .copied(),
                        StripId::Piece(id) => laid_along(&recipe, &card, id)
                            .filter(|(panel, _)| *panel == face.panel && reading.state == 0)
                            .map(|(_, lies)| lies),
                    };
                    let (true, Some(lies)) = (on == Some(of), lies) else {
                        continue;
                    };
                    for (lay, said) in &labels {
                        assert_eq!((said.of, said.first), (of, first));
                        let (way, up) = label(said);
                        let head = head_on_piece(lying(way, up), up, face.side, heads);
                        let by_hand = seen(reading, lies, head) == UP;
                        let is = lay.is_upright(stock, face.side, &reading.place);
                        assert_eq!(by_hand, is, "{} {face:?} {said:?}", starter.id);
                        tried += 1;
                        upright += usize::from(by_hand);
                    }
                }
            }
        }
    }
    // Of four turns of either side one is right.
    assert!(tried >= 1900, "{tried}");
    assert_eq!(upright * 4, tried);
}

/// Worked by hand: a tent's front hangs from the fold, so with its outside up and
/// upright the back lies beyond the fold, away from the maker.
#[test]
fn a_tent_with_its_face_outside_has_its_front_at_the_bottom() {
    let starter = starters().iter().find(|it| it.id == "tent");
    let mut recipe = printed(starter.expect("it is there").recipe.clone(), Heads::ToHead);
    recipe.upright = vec![Face {
        panel: recipe.base.panels[0].id,
        side: Side::B,
    }];
    let card = work_out(&recipe, &Tools::default());
    let labels = labels(&recipe, &card, StripId::Base);
    let said = &labels[0].1;
    assert!(!said.across, "its length runs up the sheet");
    assert_eq!(said.first, Some(recipe.base.panels[0].id));
    assert_eq!(
        (said.at, said.outside),
        (Edge::Bottom, Some(StockSide::Face))
    );
    assert_eq!(said.upright, (1, 1));
}

/// The first sheet's piece: its lower left and upper right corners, and where the
/// name in it stands.
fn drawn(drawing: &Drawing, first: &str) -> ([f64; 2], [f64; 2], [f64; 2]) {
    let mut low = [f64::INFINITY; 2];
    let mut high = [f64::NEG_INFINITY; 2];
    let name = drawing.marks.iter().find_map(|mark| match mark {
        Mark::Text {
            at,
            words,
            role: Role::Label,
        } if words == first => Some(*at),
        _ => None,
    });
    let name = name.expect("the first panel is named");
    let edges = drawing.marks.iter().filter_map(|mark| match mark {
        Mark::Line {
            from,
            to,
            ink: Ink::Edge,
            ..
        } => Some((from, to)),
        _ => None,
    });
    for (from, to) in edges.take(4) {
        for end in [from, to] {
            for i in [0, 1] {
                low[i] = low[i].min(end[i]);
                high[i] = high[i].max(end[i]);
            }
        }
    }
    (low, high, name)
}

/// What is up on the scoring board, what panel is at the fence, and where the
/// head of the print points.
fn on_board(does: &[Instruction]) -> (Side, PanelId, Way) {
    let [
        Instruction::AtFence { up, panel, .. },
        Instruction::Head(head),
    ] = does
    else {
        panic!("{does:?}");
    };
    let head = match head {
        Turn::None => [0, 1],
        Turn::Left => [-1, 0],
        Turn::Half => [0, -1],
        Turn::Right => [1, 0],
    };
    (*up, *panel, head)
}

/// The steps, the figure of the sheet and the score chart say the same as the
/// label, for every starting fold and every lay.
#[test]
fn steps_and_figures_agree_with_the_label() {
    for starter in starters() {
        for heads in [Heads::ToHead, Heads::ToFoot] {
            for lay in Lay::all() {
                let mut recipe = printed(starter.recipe.clone(), heads);
                recipe.lay = Some(lay);
                recipe.scoring = Scoring::Crispest;
                let card = work_out(&recipe, &Tools::default());
                let what = format!("{} {lay:?}", starter.id);
                let labels = labels(&recipe, &card, StripId::Base);
                let (_, said) = labels
                    .iter()
                    .find(|it| it.0 == lay)
                    .expect("it is among them");
                let (way, up) = label(said);

                // Cutting.
                let told = how_to_cut(&recipe, &card, StripId::Base);
                let sheet = Instruction::LaySheet {
                    lies: SheetLies::Upright,
                    side: Length::inches(48),
                };
                assert_eq!(told[1], sheet);
                let Instruction::LiesThere {
                    up: side,
                    first: at_edge,
                    at,
                    ..
                } = told[3]
                else {
                    panic!("{what}: {told:?}");
                };
                assert_eq!(side, up, "{what}");
                assert_eq!(way_to(at), way, "{what}");
                let panels = &recipe.base.panels;
                let named = (panels.len() > 1).then_some(panels[0].id);
                assert_eq!(at_edge, named, "{what}");

                // The figure of the sheet.
                let drawing = part_on_sheet(&recipe, &card, Part::Strip(StripId::Base))
                    .expect("it has paper");
                let (low, high, name) = drawn(&drawing, &panels[0].name);
                let off = [0, 1].map(|i| name[i] - low[i].midpoint(high[i]));
                if panels.len() > 1 {
                    let drawn = [0, 1].map(|i| match off[i] {
                        off if off > 1e-6 => 1,
                        off if off < -1e-6 => -1,
                        _ => 0,
                    });
                    assert_eq!(drawn, way, "{what}");
                }

                // Scoring: the first panel, or the last, at the fence.
                for pass in &card.chart.passes {
                    let does = how_to_lay(&recipe, &card, StripId::Base, pass);
                    let (side, at_fence, head) = on_board(&does);
                    let last = panels[panels.len() - 1].id;
                    let to_first = if at_fence == panels[0].id {
                        [-1, 0]
                    } else {
                        [1, 0]
                    };
                    assert!(to_first == [-1, 0] || at_fence == last, "{does:?}");
                    let by_hand = head_on_piece(lying(way, up), up, side, heads);
                    assert_eq!(
                        times(lying(to_first, side), by_hand),
                        head,
                        "{what}: {does:?}"
                    );
                    assert_eq!(pass.up, side);
                }
            }
        }
    }
}

/// A strip of two panels on paper whose two sides differ and have no direction:
/// the sheet's own side towards the maker is named.
#[test]
fn the_side_of_the_sheet_towards_the_maker_is_named() {
    let mut recipe = strip(
        &[Length::inches(4); 2],
        Length::inches(5),
        "V",
        1,
        Runs::Across,
    );
    let mut stock = ReadyPaper::Cream.stock("cream".to_owned());
    (stock.width, stock.height) = (Length::sixty_fourths(544), Length::inches(11));
    stock.back.colour = "#123456".parse().expect("a colour");
    recipe.base.strip.stock = stock.id;
    recipe.stocks = vec![stock];
    let card = work_out(&recipe, &Tools::default());
    assert_eq!(
        how_to_cut(&recipe, &card, StripId::Base),
        [
            Instruction::MeasureFromCorner(Part::Strip(StripId::Base)),
            Instruction::LaySheet {
                lies: SheetLies::Either,
                side: Length::sixty_fourths(544),
            },
            Instruction::CutStrip {
                of: StripId::Base,
                size: Size {
                    width: Length::inches(8),
                    height: Length::inches(5),
                },
                runs: Lies::AcrossSheet,
            },
            Instruction::LiesThere {
                of: StripId::Base,
                up: Side::B,
                first: Some(PanelId(0)),
                at: Edge::Right,
            },
            Instruction::Outside(StripId::Base, StockSide::Face),
        ]
    );
    // Where only the back is printed, its head tells which way round.
    recipe.stocks[0].back.print = Print::OneWay;
    recipe.stocks[0].heads = Heads::ToFoot;
    let card = work_out(&recipe, &Tools::default());
    assert_eq!(
        how_to_cut(&recipe, &card, StripId::Base)[1],
        Instruction::LaySheet {
            lies: SheetLies::HeadTowards,
            side: Length::sixty_fourths(544),
        }
    );
}
