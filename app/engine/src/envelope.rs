//! An envelope made for a card: a flat pattern of its own, as a plain recipe.
//!
//! Its form is the customary one whose flaps stand square to the edges of the
//! sheet (common practice): a strip of two side flaps with the address side
//! between them, and a flap below and one above that. The side flaps fold in, the
//! lower flap folds up over them and is glued to them, and the upper flap closes it.
//! Four corners are cut off. The flaps run in at a slant from their folds, so that
//! none shows past another.
//!
//! The inside is the closed card and the room that its clearance rule asks for,
//! rounded up to the maker's marks, with the flap along the longer side.

use std::collections::BTreeMap;

use crate::card::Card;
use crate::length::{Length, Step, Unit, ceil, floor};
use crate::paper::{ClearanceRule, Stock, StockId, THICK};
use crate::pattern::{LineId, LineKind};
use crate::plane::Size;
use crate::recipe::{
    Base, Corner, Direction, DrawnLineId, End, Fold, FoldingIn, Ids, Is, Kept, Line, Listed,
    Measure, MeasureId, MeasureOf, Naming, New, OnTop, Owner, Panel, PanelId, Posting, Recipe,
    Relation, Role, Runs, Stacked, Strip, Term, shortened,
};
use crate::steps::{Along, StepKey};

/// What of an envelope has a name of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum EnvelopeName<'a> {
    /// The recipe, by the name of the card.
    Recipe(&'a str),
    /// How it is folded and glued, in a sentence.
    About,
    /// What to do before the lower flap is folded, in a sentence.
    Glue,
    /// The panel to the left, which is folded in.
    LeftFlap,
    /// The panel that is written on.
    AddressSide,
    /// The panel to the right, which is folded in.
    RightFlap,
    /// The crease of the lower flap.
    LowerFold,
    /// The crease of the upper flap.
    UpperFold,
    /// How long the card is.
    CardLength,
    /// How high it is.
    CardHeight,
    /// How much longer the envelope is.
    RoomLong,
    /// How much higher it is.
    RoomHigh,
    /// How wide the flaps lie on each other.
    Seam,
    /// By how much a flap runs in at each end.
    Slant,
    /// How high the envelope is.
    Height,
    /// How high the lower flap is.
    LowerFlap,
    /// How high the upper flap is.
    UpperFlap,
    /// How wide it is before it is folded.
    FlatWidth,
    /// How high it is before it is folded.
    FlatHeight,
    /// The left and the lower edge, at nothing.
    Edge,
    /// Where the right fold is.
    RightFold,
    /// Where the upper fold is.
    UpperFoldAt,
}

const ROOM_LONG: MeasureId = MeasureId(1);
const ROOM_HIGH: MeasureId = MeasureId(2);
const SEAM: MeasureId = MeasureId(3);
const SLANT: MeasureId = MeasureId(4);
const ALLOWANCE: MeasureId = MeasureId(5);
const CARD_LENGTH: MeasureId = MeasureId(6);
const CARD_HEIGHT: MeasureId = MeasureId(7);
const WIDTH: MeasureId = MeasureId(8);
const HEIGHT: MeasureId = MeasureId(9);
const LEFT_FLAP: MeasureId = MeasureId(10);
const RIGHT_FLAP: MeasureId = MeasureId(11);
const UPPER_FLAP: MeasureId = MeasureId(12);
const LOWER_FLAP: MeasureId = MeasureId(13);
const EDGE: MeasureId = MeasureId(14);
const RIGHT_FOLD: MeasureId = MeasureId(15);
const UPPER_FOLD: MeasureId = MeasureId(16);
const LEFT_IN: MeasureId = MeasureId(17);
const RIGHT_IN: MeasureId = MeasureId(18);
const LOWER_IN: MeasureId = MeasureId(19);
const UPPER_IN: MeasureId = MeasureId(20);
const FLAT_WIDTH: MeasureId = MeasureId(21);
const FLAT_HEIGHT: MeasureId = MeasureId(22);

const LEFT: PanelId = PanelId(1);
const ADDRESS_SIDE: PanelId = PanelId(2);
const RIGHT: PanelId = PanelId(3);

/// The crease of the lower flap.
const LOWER: DrawnLineId = DrawnLineId(1);
/// The crease of the upper flap.
const UPPER: DrawnLineId = DrawnLineId(2);

/// What is usual in a unit, all of it our own choice: how wide a seam is, how wide
/// at least, by how much a flap runs in, and by how much at least.
const fn usual(unit: Unit) -> [Length; 4] {
    match unit {
        Unit::Inch => [
            Length::sixty_fourths(40),
            Length::sixty_fourths(24),
            Length::sixty_fourths(8),
            Length::sixty_fourths(4),
        ],
        Unit::Millimetre => [Length::mm(15), Length::mm(10), Length::mm(3), Length::mm(1)],
    }
}

/// The lengths that all others follow from.
struct Sizes {
    /// The card: its longer side, then its shorter one, each up to a mark.
    card: [Length; 2],
    /// By how much the envelope is larger.
    room: [Length; 2],
    seam: Length,
    slant: Length,
    upper_flap: Length,
}

impl Sizes {
    /// `None` where the card is too small for flaps with a seam between them.
    fn of(finished: Size, thickness: Length, rule: &ClearanceRule, step: Step) -> Option<Self> {
        // The rules are for cards of a usual thickness. A flat sleeve goes round a
        // box once its width is that of the box and its thickness.
        let thick = if thickness >= THICK {
            thickness
        } else {
            Length::ZERO
        };
        let up = |length| ceil(length, step).at;
        let longer = finished.width.max(finished.height);
        let shorter = finished.width.min(finished.height);
        let inside = [longer + rule.length + thick, shorter + rule.height + thick].map(up);
        let card = [longer, shorter].map(up);
        let room = [inside[0] - card[0], inside[1] - card[1]];
        let [seam, _, slant, _] = usual(step.unit());
        let down = |length: Length| floor(length.half_down(), step).at;
        let upper_flap = up(inside[1].half_down());
        // As the relations ask: the side flaps do not reach each other, their ends
        // have some width, and the lower flap stays clear of the upper fold.
        let seam = seam
            .min(down(inside[0]) - slant)
            .min(inside[1] - slant - slant)
            .min(down(upper_flap));
        (shorter > Length::ZERO && seam > Length::ZERO).then_some(Self {
            card,
            room,
            seam,
            slant,
            upper_flap,
        })
    }

    fn inside(&self) -> [Length; 2] {
        [self.card[0] + self.room[0], self.card[1] + self.room[1]]
    }

    /// Every measure, by its name.
    fn value(&self, id: MeasureId) -> Length {
        let [width, height] = self.inside();
        let flap = self.seam + self.slant;
        let lower_flap = height + self.seam - self.upper_flap;
        match id {
            ROOM_LONG => self.room[0],
            ROOM_HIGH => self.room[1],
            SEAM => self.seam,
            SLANT => self.slant,
            CARD_LENGTH => self.card[0],
            CARD_HEIGHT => self.card[1],
            WIDTH => width,
            HEIGHT => height,
            LEFT_FLAP | RIGHT_FLAP => flap,
            UPPER_FLAP => self.upper_flap,
            LOWER_FLAP => lower_flap,
            RIGHT_FOLD => flap + width,
            UPPER_FOLD => lower_flap + height,
            LEFT_IN => flap + self.slant,
            RIGHT_IN => flap + width - self.slant,
            LOWER_IN => lower_flap + self.slant,
            UPPER_IN => lower_flap + height - self.slant,
            FLAT_WIDTH => flap + width + flap,
            FLAT_HEIGHT => lower_flap + height + self.upper_flap,
            _ => Length::ZERO,
        }
    }

    /// The size of the paper it is cut from.
    fn flat(&self) -> Size {
        Size {
            width: self.value(FLAT_WIDTH),
            height: self.value(FLAT_HEIGHT),
        }
    }
}

/// An envelope for a card, with the names that `naming` gives to what every recipe
/// has and `called` to the rest. It is cut from the lightest of the card's papers
/// that is large enough.
///
/// `None` where the card does not fold flat, or is too small.
pub fn envelope_for(
    recipe: &Recipe,
    card: &Card,
    naming: &dyn Naming,
    called: &dyn Fn(EnvelopeName<'_>) -> String,
) -> Option<Recipe> {
    card.folded.as_ref()?;
    let rule = ClearanceRule::by_id(&recipe.posting.rule)?;
    let thickness = card.thickest.map_or(Length::ZERO, |it| it.thickness);
    let step = recipe.notation.step;
    let sizes = Sizes::of(card.finished, thickness, rule, step)?;
    let name = called(EnvelopeName::Recipe(&recipe.name));
    let glued = StepKey::Fold(Along::Line(LineId::of_line(LOWER)), 1);
    let allowance = ceil(recipe.value(recipe.folding_in.allowance), step).at;
    Some(Recipe {
        name: shortened(&name).to_owned(),
        about: called(EnvelopeName::About),
        notation: recipe.notation,
        measures: measures(&sizes, allowance, step.unit(), naming, called),
        relations: relations(),
        stocks: recipe.stocks.clone(),
        designed_on: None,
        base: Base {
            strip: strip(paper(recipe, sizes.flat()), naming, called),
            rests: ADDRESS_SIDE,
            runs: Runs::Across,
            on_top: on_top(),
        },
        pieces: Vec::new(),
        layers: Vec::new(),
        supplies: Vec::new(),
        upright: Vec::new(),
        lay: None,
        scoring: recipe.scoring,
        glue_margin: recipe.glue_margin,
        folding_in: FoldingIn {
            rule: recipe.folding_in.rule.clone(),
            allowance: ALLOWANCE,
        },
        posting: Posting {
            rule: recipe.posting.rule.clone(),
            envelope: None,
            is_envelope: true,
            made_of: None,
        },
        copies: recipe.copies,
        class: None,
        own_steps: Vec::new(),
        order: Vec::new(),
        notes: BTreeMap::from([(glued.to_string(), called(EnvelopeName::Glue))]),
        photos: BTreeMap::new(),
        runs: Vec::new(),
        ids: Ids::default(),
    })
}

/// The lightest paper that holds a piece, or else the largest.
fn paper(recipe: &Recipe, flat: Size) -> StockId {
    let holds = |stock: &&Stock| stock.per_sheet(flat) > 0 || stock.per_sheet(flat.turned()) > 0;
    let stocks = || recipe.stocks.iter();
    let lightest = stocks()
        .filter(holds)
        .min_by_key(|stock| stock.weight.milligrams_per_square_metre());
    let largest = || stocks().max_by_key(|stock| stock.size().area());
    let stock = lightest.or_else(largest);
    stock.map_or(recipe.base.stock, |stock| stock.id)
}

fn measures(
    sizes: &Sizes,
    allowance: Length,
    unit: Unit,
    naming: &dyn Naming,
    called: &dyn Fn(EnvelopeName<'_>) -> String,
) -> Vec<Measure> {
    let [_, least_seam, _, least_slant] = usual(unit);
    let own = |id, name| Measure::new(id, called(name), sizes.value(id));
    let least = |measure: Measure, least: Length| Measure {
        least: Some(least.min(measure.value)),
        ..measure
    };
    let of = |id, part, name: &str, is| Measure {
        of: Some(MeasureOf { part, is }),
        ..Measure::new(id, naming.name(New::Measure(name, is)), sizes.value(id))
    };
    let panel = |id, panel, name| of(id, Owner::Panel(panel), &called(name), Role::Width);
    let slanted = |id, number: usize, end, direction| {
        let (line, name) = cut(number, naming);
        of(id, Owner::Line(line), &name, Role::End(end, direction))
    };
    let room = |id, name| least(own(id, name), sizes.value(id));
    vec![
        room(ROOM_LONG, EnvelopeName::RoomLong),
        room(ROOM_HIGH, EnvelopeName::RoomHigh),
        least(own(SEAM, EnvelopeName::Seam), least_seam),
        least(own(SLANT, EnvelopeName::Slant), least_slant),
        Measure::new(
            ALLOWANCE,
            naming.name(New::Listed(Listed::Allowance)),
            allowance,
        ),
        own(CARD_LENGTH, EnvelopeName::CardLength),
        own(CARD_HEIGHT, EnvelopeName::CardHeight),
        panel(WIDTH, ADDRESS_SIDE, EnvelopeName::AddressSide),
        own(HEIGHT, EnvelopeName::Height),
        panel(LEFT_FLAP, LEFT, EnvelopeName::LeftFlap),
        panel(RIGHT_FLAP, RIGHT, EnvelopeName::RightFlap),
        own(UPPER_FLAP, EnvelopeName::UpperFlap),
        own(LOWER_FLAP, EnvelopeName::LowerFlap),
        own(EDGE, EnvelopeName::Edge),
        own(RIGHT_FOLD, EnvelopeName::RightFold),
        own(UPPER_FOLD, EnvelopeName::UpperFoldAt),
        slanted(LEFT_IN, 2, End::To, Direction::Along),
        slanted(RIGHT_IN, 4, End::To, Direction::Along),
        slanted(LOWER_IN, 1, End::To, Direction::Across),
        slanted(UPPER_IN, 5, End::To, Direction::Across),
        own(FLAT_WIDTH, EnvelopeName::FlatWidth),
        own(FLAT_HEIGHT, EnvelopeName::FlatHeight),
    ]
}

/// What ties the envelope to the card, and its parts to each other. That the panels
/// make up the strip is said by the strip.
fn relations() -> Vec<Relation> {
    let terms = |all: &[(i64, MeasureId)]| {
        let all = all.iter().map(|(times, of)| Term {
            times: *times,
            of: *of,
        });
        all.collect::<Vec<_>>()
    };
    let at_least = |left: &[(i64, MeasureId)], right: &[(i64, MeasureId)]| Relation {
        left: terms(left),
        is: Is::AtLeast,
        right: terms(right),
        ..Relation::sum(EDGE, [])
    };
    vec![
        Relation::sum(WIDTH, [CARD_LENGTH, ROOM_LONG]),
        Relation::sum(HEIGHT, [CARD_HEIGHT, ROOM_HIGH]),
        Relation::sum(LEFT_FLAP, [SEAM, SLANT]),
        Relation::same(RIGHT_FLAP, LEFT_FLAP),
        // The upper flap lies on the lower one as wide as a seam, and is no higher.
        Relation {
            left: terms(&[(1, LOWER_FLAP), (1, UPPER_FLAP)]),
            ..Relation::sum(EDGE, [HEIGHT, SEAM])
        },
        at_least(&[(2, UPPER_FLAP)], &[(1, HEIGHT)]),
        at_least(&[(1, LOWER_FLAP)], &[(1, UPPER_FLAP)]),
        // The lower flap stays clear of the upper fold.
        at_least(&[(1, HEIGHT)], &[(1, LOWER_FLAP), (1, SEAM)]),
        // The side flaps do not reach each other, and have some height.
        at_least(&[(1, WIDTH)], &[(2, LEFT_FLAP)]),
        at_least(&[(1, HEIGHT)], &[(2, SLANT), (1, SEAM)]),
        Relation::sum(RIGHT_FOLD, [LEFT_FLAP, WIDTH]),
        Relation::sum(UPPER_FOLD, [LOWER_FLAP, HEIGHT]),
        Relation::sum(LEFT_IN, [LEFT_FLAP, SLANT]),
        Relation::less(RIGHT_IN, 1, SLANT, RIGHT_FOLD),
        Relation::sum(LOWER_IN, [LOWER_FLAP, SLANT]),
        Relation::less(UPPER_IN, 1, SLANT, UPPER_FOLD),
        Relation::sum(FLAT_HEIGHT, [UPPER_FOLD, UPPER_FLAP]),
    ]
}

fn strip(
    stock: StockId,
    naming: &dyn Naming,
    called: &dyn Fn(EnvelopeName<'_>) -> String,
) -> Strip {
    let panel = |id, name, width| Panel {
        id,
        name: called(name),
        width,
    };
    let across = |id, name, y| Line {
        id,
        name: called(name),
        kind: LineKind::Crease(Fold::Valley),
        from: Corner { x: LEFT_FLAP, y },
        to: Corner { x: RIGHT_FOLD, y },
    };
    let lower = across(LOWER, EnvelopeName::LowerFold, LOWER_FLAP);
    let upper = across(UPPER, EnvelopeName::UpperFold, UPPER_FOLD);
    // Round each corner of the address side, from there outwards: along the side
    // flap, then along the flap below or above.
    let corners = [
        (LEFT_FLAP, LOWER_FLAP, EDGE, LOWER_IN, LEFT_IN, EDGE),
        (RIGHT_FOLD, LOWER_FLAP, FLAT_WIDTH, LOWER_IN, RIGHT_IN, EDGE),
        (LEFT_FLAP, UPPER_FOLD, EDGE, UPPER_IN, LEFT_IN, FLAT_HEIGHT),
        (
            RIGHT_FOLD,
            UPPER_FOLD,
            FLAT_WIDTH,
            UPPER_IN,
            RIGHT_IN,
            FLAT_HEIGHT,
        ),
    ];
    let cuts = corners
        .into_iter()
        .flat_map(|(x, y, side_x, side_y, flap_x, flap_y)| {
            let from = Corner { x, y };
            let side = Corner {
                x: side_x,
                y: side_y,
            };
            let flap = Corner {
                x: flap_x,
                y: flap_y,
            };
            [(from, side), (from, flap)]
        });
    let cuts = (1..).zip(cuts).map(|(number, (from, to))| {
        let (id, name) = cut(number, naming);
        Line {
            id,
            name,
            kind: LineKind::Cut,
            from,
            to,
        }
    });
    Strip {
        stock,
        length: FLAT_WIDTH,
        height: FLAT_HEIGHT,
        panels: vec![
            panel(LEFT, EnvelopeName::LeftFlap, LEFT_FLAP),
            panel(ADDRESS_SIDE, EnvelopeName::AddressSide, WIDTH),
            panel(RIGHT, EnvelopeName::RightFlap, RIGHT_FLAP),
        ],
        folds: vec![Fold::Valley, Fold::Valley],
        lines: [lower, upper].into_iter().chain(cuts).collect(),
        cutouts: Vec::new(),
        keep: Some(Kept {
            panel: ADDRESS_SIDE,
            along: 500,
            across: 500,
        }),
        cut_at: None,
    }
}

/// The name and the number of a cut, counted from 1.
fn cut(number: usize, naming: &dyn Naming) -> (DrawnLineId, String) {
    let id = u32::try_from(number).map_or(u32::MAX, |number| UPPER.0 + number);
    (
        DrawnLineId(id),
        naming.name(New::Line(LineKind::Cut, number)),
    )
}

/// The lower flap lies on the side flaps, and the upper one on it.
fn on_top() -> Vec<OnTop> {
    let [lower, upper] = [ADDRESS_SIDE.part(1), ADDRESS_SIDE.part(2)];
    [(lower, LEFT), (lower, RIGHT), (upper, lower)]
        .map(|(upper, lower)| OnTop {
            upper: Stacked::Panel(upper),
            lower: Stacked::Panel(lower),
        })
        .to_vec()
}
