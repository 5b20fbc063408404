//! Steps of parts that share sheets, by plans made by hand.
//!
//! Cards like a book: the base 8 1/2 × 5 1/2 in and the mat 4 × 5 1/4 in, both of
//! Letter, 8 1/2 × 11 in (ANSI/ASME Y14.1).

#![expect(
    clippy::expect_used,
    reason = "a check may stop where its own pieces do not fit"
)]

use std::collections::BTreeMap;

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::cut_plan::{CutPlan, Load, Lot, Scraps, Setting, Yield};
use foldwright_engine::draw::{Drawing, Fill, Ink, Mark, Role, letter};
use foldwright_engine::length::{DecimalMark, Length, Notation, Step as Ruler};
use foldwright_engine::paper::{Grain, Print, StockId};
use foldwright_engine::part::Part;
use foldwright_engine::plane::{Edge, Size};
use foldwright_engine::recipe::{LayerId, Recipe, StripId, starters};
use foldwright_engine::steps::{
    AtFence, Caption, Falls, Instruction, Kind, Label, Step, StepKey, Taken, Title, Value, cut_by,
    planned_steps, steps,
};

const BASE: Part = Part::Strip(StripId::Base);
const MAT: Part = Part::Layer(LayerId(1));
const LETTER: StockId = StockId(1);
const SHORE: StockId = StockId(3);

/// So many quarters of an inch.
fn quarters(count: i64) -> Length {
    Length::sixty_fourths(count * 16)
}

fn size(width: i64, height: i64) -> Size {
    Size {
        width: quarters(width),
        height: quarters(height),
    }
}

fn books(cards: u32) -> (Recipe, Card) {
    let found = starters().iter().find(|starter| starter.id == "book");
    let mut recipe = found.expect("it is there").recipe_in(Notation {
        step: Ruler::Sixteenth,
        decimal: DecimalMark::Point,
    });
    recipe.copies = cards;
    recipe.layers[0].stock = LETTER;
    let card = work_out(&recipe, &Tools::default());
    (recipe, card)
}

fn piece(part: Part) -> Yield {
    Yield::Piece(vec![part])
}

fn sheets(count: u32, edge: Edge, off: Vec<Yield>, rest: Yield) -> Load {
    Load {
        stock: LETTER,
        size: size(34, 44),
        is: Lot::Sheet,
        count,
        edge,
        turned: false,
        stack: 3,
        off,
        rest: Some(rest),
    }
}

fn strips(of: Size, load: Load) -> Load {
    Load {
        size: of,
        is: Lot::Strip,
        ..load
    }
}

/// One sheet for one card: the base is half of it, and the other half gives the
/// mat.
fn one() -> CutPlan {
    let half = size(34, 22);
    let upright = size(16, 22);
    let mut last = strips(
        upright,
        sheets(
            1,
            Edge::Bottom,
            vec![piece(MAT)],
            Yield::Offcut(size(16, 1)),
        ),
    );
    last.turned = true;
    let mut second = strips(
        half,
        sheets(
            1,
            Edge::Left,
            vec![Yield::Strip(upright)],
            Yield::Offcut(size(18, 22)),
        ),
    );
    second.turned = true;
    let settings = [
        (
            22,
            sheets(1, Edge::Bottom, vec![piece(BASE)], Yield::Strip(half)),
        ),
        (16, second),
        (21, last),
    ];
    plan(1, settings)
}

/// Nine sheets for twelve cards: six give two bases each, and three four mats
/// each, two across and two up.
fn twelve() -> CutPlan {
    let upright = size(16, 44);
    let mut last = strips(
        upright,
        sheets(
            6,
            Edge::Bottom,
            vec![piece(MAT), piece(MAT)],
            Yield::Offcut(size(16, 2)),
        ),
    );
    last.turned = true;
    let settings = [
        (22, sheets(6, Edge::Bottom, vec![piece(BASE)], piece(BASE))),
        (
            16,
            sheets(
                3,
                Edge::Left,
                vec![Yield::Strip(upright), Yield::Strip(upright)],
                Yield::Offcut(size(2, 44)),
            ),
        ),
        (21, last),
    ];
    plan(9, settings)
}

fn plan(sheets: u32, settings: [(i64, Load); 3]) -> CutPlan {
    let settings = settings.map(|(fence, load)| Setting {
        fence: quarters(fence),
        loads: vec![load],
    });
    CutPlan {
        sheets: BTreeMap::from([(LETTER, sheets)]),
        scraps: Vec::new(),
        settings: settings.to_vec(),
        whole: Vec::new(),
    }
}

fn setting(plan: &CutPlan, setting: usize) -> StepKey {
    StepKey::CutAt {
        plan: plan.number(),
        setting,
    }
}

fn cutting(all: &[Step]) -> Vec<&Step> {
    all.iter().filter(|step| step.kind == Kind::Cut).collect()
}

/// Each part is looked at right behind the setting after which all of it is there.
#[test]
fn one_card_takes_one_sheet() {
    let (recipe, card) = books(1);
    let plan = one();
    let all = planned_steps(&recipe, &card, &plan);
    let told: Vec<_> = all[0]
        .figures
        .iter()
        .map(|it| (it.label, it.value))
        .collect();
    assert_eq!(told, [(Label::Paper(LETTER), Value::Sheets(Some(1)))]);
    assert_eq!(all[0].does, [Instruction::SharedSheets]);
    let keys: Vec<_> = cutting(&all).iter().map(|step| step.key).collect();
    let at = |index| setting(&plan, index);
    let (base, mat) = (StepKey::Cut(BASE), StepKey::Cut(MAT));
    assert_eq!(keys, [at(0), base, at(1), at(2), mat]);
    // Each by itself would take a sheet.
    let apart = steps(&recipe, &card);
    assert_eq!(apart[0].figures[0].value, Value::Sheets(Some(2)));
    assert_eq!(apart[0].does, [Instruction::OwnSheets]);
    // What follows is the same.
    let rest = |all: &[Step]| {
        let rest = all.iter().skip_while(|step| step.kind <= Kind::Cut);
        rest.cloned().collect::<Vec<_>>()
    };
    assert_eq!(rest(&all), rest(&apart));
}

#[test]
fn a_setting_says_what_is_cut_and_what_comes_off() {
    let (recipe, card) = books(1);
    let all = planned_steps(&recipe, &card, &one());
    let cuts = cutting(&all);
    let fence = quarters(22);
    assert_eq!(cuts[0].title, Title::CutAt(fence));
    assert_eq!(cuts[0].figures[0].label, Label::FromFence);
    assert_eq!(cuts[0].figures[0].value, Value::Length(fence));
    let falls = |number, what| Instruction::Falls {
        number,
        count: 1,
        what,
    };
    let once = Instruction::CutTimes {
        times: 1,
        stack: None,
    };
    let take = |what, edge, turned| Instruction::Take {
        stock: LETTER,
        what,
        count: 1,
        edge: AtFence::Long(quarters(edge)),
        turned,
    };
    let half = size(34, 22);
    assert_eq!(
        cuts[0].does,
        [
            Instruction::SetFence(fence),
            take(Taken::Sheet, 34, false),
            once,
            falls(0, Falls::Piece(BASE)),
            falls(1, Falls::Strip(half)),
        ]
    );
    assert_eq!(cuts[0].pictures[0].caption, Caption::SheetAtFence(LETTER));
    assert_eq!(
        cuts[2].does,
        [
            Instruction::SetFence(quarters(16)),
            take(Taken::Strip(half), 22, true),
            once,
            falls(0, Falls::Strip(size(16, 22))),
            falls(1, Falls::Offcut(size(18, 22))),
        ]
    );
    assert_eq!(cuts[2].pictures[0].caption, Caption::StripAtFence(LETTER));
    // A part that is cut is looked at, and measured first.
    assert_eq!(cuts[1].title, Title::Check(BASE));
    assert_eq!(cuts[1].does, [Instruction::MeasureAcross(BASE)]);
    assert_eq!(cuts[1].figures[0].value, Value::Length(quarters(34)));
    assert_eq!(cuts[1].figures[1].value, Value::Length(quarters(22)));
}

/// Six sheets and six strips lie three on each other; a setting is made once for
/// all cards, and pieces are counted for each.
#[test]
fn twelve_cards_are_cut_together() {
    let (recipe, card) = books(12);
    let plan = twelve();
    let all = planned_steps(&recipe, &card, &plan);
    let cuts = cutting(&all);
    let times: Vec<_> = cuts.iter().map(|step| step.times).collect();
    assert_eq!(times, [1, 12, 1, 1, 12]);
    assert!(cuts[0].does.contains(&Instruction::CutTimes {
        times: 1,
        stack: Some(3)
    }));
    assert!(cuts[3].does.contains(&Instruction::CutTimes {
        times: 2,
        stack: Some(3)
    }));
    // 12 × 1 of each come off: 6 × 2 bases, 6 × 2 mats.
    let mut pieces = BTreeMap::new();
    for does in cuts.iter().flat_map(|step| &step.does) {
        if let Instruction::Falls {
            count,
            what: Falls::Piece(part),
            ..
        } = does
        {
            *pieces.entry(*part).or_insert(0) += count;
        }
    }
    assert_eq!(pieces, BTreeMap::from([(BASE, 12), (MAT, 12)]));
    let sheets = plan.sheets_of(&card.cut_list, 12);
    assert_eq!(sheets, BTreeMap::from([(LETTER, Some(9))]));
}

/// Blades come with a caution (customary care of workshops and schools).
#[test]
fn settings_come_with_a_caution() {
    let (recipe, card) = books(12);
    for step in planned_steps(&recipe, &card, &twelve()) {
        if matches!(step.key, StepKey::CutAt { .. }) {
            assert!(!step.care.is_empty());
        }
    }
}

/// What the plan has no sheets for is cut from sheets of its own, as without it.
#[test]
fn what_is_not_planned_keeps_its_step() {
    let (recipe, card) = books(12);
    let mut plan = twelve();
    plan.settings.truncate(1);
    plan.sheets.insert(LETTER, 6);
    let own = |all: &[Step]| all.iter().find(|it| it.key == StepKey::Cut(MAT)).cloned();
    let all = planned_steps(&recipe, &card, &plan);
    assert_eq!(own(&all), own(&steps(&recipe, &card)));
    assert!(own(&all).is_some());
    let sheets = plan.sheets_of(&card.cut_list, 12);
    assert_eq!(sheets, BTreeMap::from([(LETTER, Some(9))]));
}

#[test]
fn a_part_is_cut_once_all_its_settings_are_made() {
    let plan = one();
    let made = |so_far: usize| {
        let keys: Vec<_> = (0..so_far).map(|index| setting(&plan, index)).collect();
        cut_by(&plan, |key| keys.contains(&key))
    };
    assert_eq!(made(0), []);
    assert_eq!(made(1), [BASE]);
    assert_eq!(made(2), [BASE]);
    assert_eq!(made(3), [BASE, MAT]);
    // The last alone gives nothing.
    assert_eq!(cut_by(&plan, |key| key == setting(&plan, 2)), []);
}

/// A part as large as its sheet needs no cut.
#[test]
fn a_whole_sheet_is_looked_at_first() {
    let (mut recipe, _) = books(1);
    recipe.stocks[0].width = quarters(34);
    recipe.stocks[0].height = quarters(22);
    let card = work_out(&recipe, &Tools::default());
    let mut plan = one();
    plan.settings.remove(0);
    plan.whole.push(BASE);
    let all = planned_steps(&recipe, &card, &plan);
    assert_eq!(all[1].key, StepKey::Cut(BASE));
    assert_eq!(
        all[1].does,
        [
            Instruction::MeasureAcross(BASE),
            Instruction::WholeSheet(BASE, LETTER)
        ]
    );
}

/// Edges of a square are as long as each other: its print tells them apart, or its
/// grain.
#[test]
fn edges_of_a_square_are_told_by_print_or_grain() {
    let (mut recipe, _) = books(1);
    let square = |edge| {
        let mut plan = one();
        let load = &mut plan.settings[0].loads[0];
        load.stock = SHORE;
        load.size = size(48, 48);
        load.edge = edge;
        plan
    };
    let mut edges = |print, grain| {
        let shore = recipe.stocks.iter_mut().find(|stock| stock.id == SHORE);
        let shore = shore.expect("it is there");
        shore.face.print = print;
        shore.back.print = Print::Plain;
        shore.grain = grain;
        let card = work_out(&recipe, &Tools::default());
        [Edge::Left, Edge::Bottom].map(|edge| {
            let all = planned_steps(&recipe, &card, &square(edge));
            match cutting(&all)[0].does[1] {
                Instruction::Take { edge, .. } => edge,
                other => panic!("{other:?}"),
            }
        })
    };
    let printed = [AtFence::Side, AtFence::HeadOrFoot];
    assert_eq!(edges(Print::OneWay, Grain::AlongWidth), printed);
    let along_height = [AtFence::AlongGrain, AtFence::AcrossGrain];
    assert_eq!(edges(Print::Plain, Grain::AlongHeight), along_height);
    let along_width = [AtFence::AcrossGrain, AtFence::AlongGrain];
    assert_eq!(edges(Print::Plain, Grain::AlongWidth), along_width);
    assert_eq!(edges(Print::Plain, Grain::Unknown), [AtFence::Any; 2]);
}

/// Plans that differ in anything that is done have other names for their steps.
#[test]
fn the_number_tells_plans_apart() {
    let numbers = [one().number(), twelve().number()];
    assert_ne!(numbers[0], numbers[1]);
    let mut more = twelve();
    more.settings[0].loads[0].count += 1;
    assert_ne!(more.number(), numbers[1]);
    let mut wider = twelve();
    wider.settings[2].fence = quarters(20);
    assert_ne!(wider.number(), numbers[1]);
    // Progress is kept by it: it may never change. The same by a few lines of Python.
    assert_eq!(numbers, [2_759_298_450, 2_026_940_978]);
}

fn drawings(recipe: &Recipe, card: &Card, plan: &CutPlan) -> Vec<Drawing> {
    let all = planned_steps(recipe, card, plan);
    let settings = all
        .iter()
        .filter(|step| matches!(step.key, StepKey::CutAt { .. }));
    let pictures = settings.flat_map(|step| &step.pictures);
    pictures.map(|it| it.drawing(recipe, card)).collect()
}

/// The picture of each setting has its cuts as far from the fence as they are, what
/// is left over shaded, and a letter for each kind that comes off.
#[test]
fn every_setting_is_drawn() {
    let (recipe, card) = books(12);
    let drawn = drawings(&recipe, &card, &twelve());
    let cuts = |drawing: &Drawing| {
        let cuts = drawing.marks.iter().filter_map(|mark| match mark {
            Mark::Line {
                from,
                to,
                ink: Ink::Cut,
                ..
            } if from[0].to_bits() == to[0].to_bits() => Some(from[0]),
            _ => None,
        });
        cuts.collect::<Vec<_>>()
    };
    // 5 1/2, 4 and 8, 5 1/4 and 10 1/2 in.
    let by_hand = [vec![139.7], vec![101.6, 203.2], vec![133.35, 266.7]];
    for (drawing, by_hand) in drawn.iter().zip(&by_hand) {
        let cuts = cuts(drawing);
        assert_eq!(cuts.len(), by_hand.len());
        let near = cuts
            .iter()
            .zip(by_hand)
            .all(|(is, at)| (is - at).abs() < 1e-9);
        assert!(near, "{cuts:?}");
    }
    assert_eq!(drawn.len(), by_hand.len());
    let letters = |drawing: &Drawing| {
        let letters = drawing.marks.iter().filter_map(|mark| match mark {
            Mark::Text {
                words,
                role: Role::Label,
                ..
            } => Some(words.clone()),
            _ => None,
        });
        letters.collect::<Vec<_>>().concat()
    };
    let all: Vec<_> = drawn.iter().map(letters).collect();
    assert_eq!(all, ["AA", "AAB", "AAB"]);
    let waste = |drawing: &Drawing| {
        let waste = |mark: &&Mark| {
            matches!(
                mark,
                Mark::Area {
                    fill: Fill::Waste,
                    ..
                }
            )
        };
        drawing.marks.iter().filter(waste).count()
    };
    let all: Vec<_> = drawn.iter().map(waste).collect();
    assert_eq!(all, [0, 1, 1]);
}

#[test]
fn letters_go_on_behind_the_last() {
    let told = [0, 1, 25, 26, 27, 701, 702].map(letter);
    assert_eq!(told, ["A", "B", "Z", "AA", "AB", "ZZ", "AAA"]);
}

/// The half of a Letter sheet that one card leaves over serves the next: the scrap
/// is listed with the sheets, and taken as one. What is left of both is told.
#[test]
fn scraps_are_fetched_and_cut_as_such() {
    let (recipe, card) = books(1);
    let half = size(34, 22);
    let mut plan = one();
    let before = plan.number();
    plan.sheets.clear();
    plan.scraps = vec![Scraps {
        stock: LETTER,
        size: half,
        count: 2,
    }];
    plan.settings.remove(0);
    for setting in &mut plan.settings {
        for load in &mut setting.loads {
            if load.size == half {
                load.is = Lot::Scrap;
            }
        }
    }
    assert_ne!(plan.number(), before);
    let all = planned_steps(&recipe, &card, &plan);
    let gather = all.iter().find(|step| step.key == StepKey::Gather);
    let figures = &gather.expect("a step").figures;
    let told = figures.iter().map(|it| (it.label, it.value));
    let scraps = (Label::Scraps(LETTER, 2), Value::Size(half));
    assert!(told.into_iter().any(|it| it == scraps));
    let cut = all.iter().find(|step| step.key == setting(&plan, 0));
    let cut = cut.expect("a step");
    let is_scrap = |does: &Instruction| matches!(does, Instruction::Take { what: Taken::Scrap(of), .. } if *of == half);
    assert!(cut.does.iter().any(is_scrap), "{:?}", cut.does);
    assert_eq!(cut.pictures[0].caption, Caption::ScrapAtFence(LETTER));
    let left = Scraps {
        stock: LETTER,
        size: size(18, 22),
        count: 1,
    };
    assert!(plan.offcuts(quarters(18)).contains(&left));
    assert!(!plan.offcuts(quarters(19)).contains(&left));
}
