//! Cutting parts from sheets that they share, setting after setting of the fence.

use std::sync::Arc;

use super::cutting::{gather_sheets, layers, strips, trimmer};
use super::laying::how_piece_lies;
use super::shaping;
use super::{
    AtFence, Caption, Falls, Instruction, Kind, Label, Seen, Step, StepKey, Taken, Title, Tool,
    Value,
};
use crate::card::Card;
use crate::cut_list::Blank;
use crate::cut_plan::{CutPlan, Load, Lot, Setting, Yield};
use crate::paper::Grain;
use crate::part::Part;
use crate::plane::Edge;
use crate::recipe::Recipe;
use crate::sorted::InOrder as _;

/// What is needed, before anything is cut.
pub(super) fn gather(recipe: &Recipe, card: &Card, plan: &CutPlan) -> Step {
    let sheets = plan.sheets_of(&card.cut_list, recipe.copies);
    let mut step = gather_sheets(recipe, sheets, Instruction::SharedSheets);
    for scraps in &plan.scraps {
        let label = Label::Scraps(scraps.stock, scraps.count);
        step.figure(label, Value::Size(scraps.size));
    }
    step
}

/// Setting after setting; behind each the parts that are all cut by then, and at
/// the end those that are not planned, each from sheets of its own.
pub(super) fn cuts(recipe: &Recipe, card: &Card, plan: &CutPlan) -> Vec<Step> {
    let number = plan.number();
    let checks = |settings: usize| {
        let blanks = card.cut_list.blanks.iter();
        let ready = blanks.filter(move |blank| plan.ready_after(blank.part) == Some(settings));
        ready.map(move |blank| {
            let from_scraps = plan.scraps.iter().any(|it| it.stock == blank.stock);
            check(recipe, card, blank, settings == 0 && !from_scraps)
        })
    };
    let mut steps: Vec<Step> = checks(0).collect();
    for (index, setting) in plan.settings.iter().enumerate() {
        let key = StepKey::CutAt {
            plan: number,
            setting: index,
        };
        steps.push(at(recipe, key, setting));
        steps.extend(checks(index + 1));
    }
    let own = strips(recipe, card).into_iter().chain(layers(recipe, card));
    let unplanned = |step: &Step| match step.key {
        StepKey::Cut(part) => plan.ready_after(part).is_none(),
        _ => false,
    };
    steps.extend(own.filter(unplanned));
    steps
}

/// The parts of which all pieces are cut, by what is done of a plan's settings.
pub fn cut_by(plan: &CutPlan, is_done: impl Fn(StepKey) -> bool) -> Vec<Part> {
    let number = plan.number();
    let made = (0..plan.settings.len()).take_while(|setting| {
        is_done(StepKey::CutAt {
            plan: number,
            setting: *setting,
        })
    });
    let made = made.count();
    let settings = plan.settings.iter().flat_map(|setting| &setting.loads);
    let pieces = settings.flat_map(Load::yields).filter_map(|it| match it {
        Yield::Piece(parts) => Some(parts),
        Yield::Strip(_) | Yield::Offcut(_) => None,
    });
    let mut parts: Vec<Part> = pieces.flatten().copied().collect();
    parts.put_in_order();
    parts.dedup();
    parts.retain(|part| plan.ready_after(*part).is_some_and(|after| after <= made));
    parts
}

/// One setting of the fence, for all cards at once.
fn at(recipe: &Recipe, key: StepKey, setting: &Setting) -> Step {
    let mut step = Step::new(key, Kind::Cut, Title::CutAt(setting.fence), recipe);
    step.times = 1;
    step.length(Label::FromFence, setting.fence);
    step.does.push(Instruction::SetFence(setting.fence));
    let shown = Arc::new(setting.clone());
    for (index, load) in setting.loads.iter().enumerate() {
        step.does.push(Instruction::Take {
            stock: load.stock,
            what: match load.is {
                Lot::Sheet => Taken::Sheet,
                Lot::Scrap => Taken::Scrap(load.size),
                Lot::Strip => Taken::Strip(load.size),
            },
            count: load.count,
            edge: edge_at_fence(recipe, load),
            turned: load.turned,
        });
        step.does.push(Instruction::CutTimes {
            times: load.off.len(),
            stack: (load.count > 1).then(|| load.stack.min(load.count)),
        });
        step.does.extend(falls(setting, load));
        let caption = match load.is {
            Lot::Sheet => Caption::SheetAtFence(load.stock),
            Lot::Scrap => Caption::ScrapAtFence(load.stock),
            Lot::Strip => Caption::StripAtFence(load.stock),
        };
        step.picture(caption, Seen::AtFence(Arc::clone(&shown), index));
    }
    trimmer(&mut step);
    step
}

/// Which edge goes against the fence: the length tells, but of a square.
fn edge_at_fence(recipe: &Recipe, load: &Load) -> AtFence {
    if load.size.width != load.size.height {
        return AtFence::Long(load.along());
    }
    let is_side = matches!(load.edge, Edge::Left | Edge::Right);
    let Some(stock) = recipe.stock(load.stock) else {
        return AtFence::Any;
    };
    if stock.has_direction() {
        return if is_side {
            AtFence::Side
        } else {
            AtFence::HeadOrFoot
        };
    }
    match stock.grain {
        Grain::Unknown => AtFence::Any,
        Grain::AlongHeight if is_side => AtFence::AlongGrain,
        Grain::AlongWidth if !is_side => AtFence::AlongGrain,
        Grain::AlongHeight | Grain::AlongWidth => AtFence::AcrossGrain,
    }
}

/// What comes off a load, each kind once.
fn falls(setting: &Setting, load: &Load) -> Vec<Instruction> {
    let mut does = Vec::new();
    for (number, (stock, kind)) in setting.kinds().into_iter().enumerate() {
        let each = load.yields().filter(|it| *it == kind).count();
        if each == 0 || stock != load.stock {
            continue;
        }
        let each = u32::try_from(each).unwrap_or(u32::MAX);
        let count = load.count.saturating_mul(each);
        let what = |what| Instruction::Falls {
            number,
            count,
            what,
        };
        match kind {
            Yield::Strip(size) => does.push(what(Falls::Strip(*size))),
            Yield::Offcut(size) => does.push(what(Falls::Offcut(*size))),
            Yield::Piece(parts) => {
                let mut parts = parts.iter();
                does.extend(parts.next().map(|part| what(Falls::Piece(*part))));
                does.extend(parts.map(|part| Instruction::AlsoFor {
                    number,
                    part: *part,
                }));
            }
        }
    }
    does
}

/// A part that is cut: whether it has its size, which way it lies, and what is
/// still to be cut of it.
fn check(recipe: &Recipe, card: &Card, blank: &Blank, is_whole: bool) -> Step {
    let part = blank.part;
    let shaped = match part {
        Part::Strip(_) => None,
        Part::Layer(id) => card.laid.layer(id).filter(|laid| laid.shape.is_some()),
    };
    let title = if shaped.is_some() {
        Title::Cut(part)
    } else {
        Title::Check(part)
    };
    let mut step = Step::new(StepKey::Cut(part), Kind::Cut, title, recipe);
    let label = match part {
        Part::Strip(_) => Label::Length,
        Part::Layer(_) => Label::Width,
    };
    step.length(label, blank.size.width);
    step.length(Label::Height, blank.size.height);
    step.does.push(Instruction::MeasureAcross(part));
    if is_whole {
        let whole = Instruction::WholeSheet(part, blank.stock);
        step.does.push(whole);
    }
    step.does.extend(how_piece_lies(recipe, blank));
    step.tools = vec![Tool::Ruler];
    match part {
        Part::Strip(of) => step.bare(of),
        Part::Layer(id) => {
            if let (Some(layer), Some(laid)) = (recipe.layer(id), shaped) {
                shaping::outline(recipe, layer, laid, true, &mut step);
            }
        }
    }
    step
}
