//! The nearest card for what is made, giving up parts where it must.

use super::Plan;
use super::made::Made;
use super::offer::size_in;
use super::work::Part;
use crate::card::{Card, work_out};
use crate::length::{Length, Notation, Step};
use crate::paper::{ClearanceRule, Envelope};
use crate::problem::{Problem, Weight};
use crate::recipe::{Layer, MeasureId, Recipe};
use crate::refit::{Cause, Clash, Moved, Refit, Wish, refit};

/// A card that can still be made.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Solved {
    pub(super) recipe: Recipe,
    pub(super) card: Card,
    pub(super) wish: Wish,
    pub(super) refit: Refit,
    /// What moved besides what was measured.
    pub(super) changes: Vec<Moved>,
    /// The parts that can't stay as they were cut.
    pub(super) given_up: Vec<Part>,
    /// The envelope that took the card, and whether it still does.
    pub(super) envelope: Option<(&'static Envelope, bool)>,
    /// How many sums of the wish are about the part in hand; they come first.
    pub(super) in_hand: usize,
    /// What has to be set between marks.
    pub(super) off_marks: Vec<MeasureId>,
}

impl Solved {
    /// Whether nothing is given up for it.
    pub(super) fn is_clean(&self) -> bool {
        self.given_up.is_empty()
            && self.envelope.is_none_or(|(_, takes)| takes)
            && self.off_marks.is_empty()
            && self.refit.given_up.is_empty()
    }
}

/// Why there is none.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Why {
    /// What is made and what must hold clash.
    Clash(Clash, Box<Wish>),
    /// The card would not come together.
    Problem(Problem),
    /// What is cut to the shape of another part would not fit it.
    Shape,
}

/// The nearest card with the part in hand as it is, and as many of the others
/// as can stay.
pub(super) fn solve(
    plan: &Plan<'_>,
    card: &Card,
    hand: &Made,
    others: Vec<Made>,
) -> Result<Solved, Why> {
    let before = plan.recipe;
    let envelope = envelope(before, card);
    let mut kept = others;
    let mut given_up = Vec::new();
    let mut held = envelope;
    let mut first_clash = None;
    // Each round gives up a part, the envelope, or a coarse mark.
    loop {
        let wish = wish(hand, &kept, held);
        match nearest(before, &wish) {
            Ok(refit) => {
                let mut solved = finished(plan, card, hand, wish, refit, given_up, envelope, held)?;
                let shapes: Vec<_> = reshaped(before, card, &solved.card, &kept).collect();
                solved.given_up.extend(shapes);
                return if is_worth_it(before, card, &solved, hand.part) {
                    Ok(solved)
                } else {
                    Err(first_clash.unwrap_or(Why::Shape))
                };
            }
            Err(clash) => {
                let causes = match &clash {
                    Clash::Between { causes, .. } => &causes[..],
                    Clash::CutShort | Clash::TooTangled => &[],
                };
                let place = in_the_way(hand, &kept, causes);
                let envelope = causes.contains(&Cause::Envelope);
                let why = Why::Clash(clash, Box::new(wish));
                if let Some(place) = place {
                    given_up.push(kept.remove(place).part);
                    first_clash.get_or_insert(why);
                } else if envelope {
                    held = None;
                } else {
                    return Err(first_clash.unwrap_or(why));
                }
            }
        }
    }
}

/// The layers cut to the shape of what carries them, where that shape changes.
fn reshaped<'a>(
    recipe: &'a Recipe,
    before: &'a Card,
    after: &'a Card,
    kept: &'a [Made],
) -> impl Iterator<Item = Part> + 'a {
    let parts = kept.iter().map(|made| made.part);
    parts.filter(|part| match part {
        Part::Layer(id) => {
            follows(recipe, *part) && before.laid.layer(*id) != after.laid.layer(*id)
        }
        Part::Strip(_) => false,
    })
}

/// Whether a part takes the shape of what carries it.
pub(super) fn follows(recipe: &Recipe, part: Part) -> bool {
    match part {
        Part::Layer(id) => {
            let layer = recipe.layer(id);
            layer.is_some_and(Layer::follows)
        }
        Part::Strip(_) => false,
    }
}

/// Whether it makes sense to keep a part at the price of others: a strip is
/// worth cutting layers and glued-in pieces again, and a layer is worth cutting
/// others down.
fn is_worth_it(recipe: &Recipe, before: &Card, solved: &Solved, hand: Part) -> bool {
    let is_layer = |part: &Part| matches!(part, Part::Layer(_));
    let mut given_up = solved.given_up.iter();
    match hand {
        Part::Strip(None) => true,
        Part::Strip(Some(_)) => given_up.all(is_layer),
        Part::Layer(_) => given_up.all(|part| {
            let (was, is) = (size_in(before, *part), size_in(&solved.card, *part));
            let smaller = is.width <= was.width && is.height <= was.height;
            is_layer(part) && smaller && !follows(recipe, *part)
        }),
    }
}

/// The envelope the card goes into now.
fn envelope(recipe: &Recipe, card: &Card) -> Option<(&'static Envelope, &'static ClearanceRule)> {
    let rule = ClearanceRule::by_id(&recipe.posting.rule)?;
    let chosen = recipe.posting.envelope.as_deref();
    let mut fits = card.envelopes.iter();
    let fit = match chosen {
        Some(id) => fits.find(|fit| fit.envelope.id == id),
        None => fits.next(),
    };
    Some((fit?.envelope, rule))
}

fn wish(
    hand: &Made,
    others: &[Made],
    envelope: Option<(&'static Envelope, &'static ClearanceRule)>,
) -> Wish {
    let all = || std::iter::once(hand).chain(others);
    let mut pinned: Vec<(MeasureId, Length)> = Vec::new();
    for pin in all().flat_map(|made| &made.pinned) {
        if !pinned.contains(pin) {
            pinned.push(*pin);
        }
    }
    Wish {
        envelope,
        pinned,
        made: all().flat_map(|made| &made.sums).cloned().collect(),
        between: true,
        ..Wish::default()
    }
}

/// The nearest card on the maker's marks, or else on finer ones.
fn nearest(recipe: &Recipe, wish: &Wish) -> Result<Refit, Clash> {
    let mut found = refit(recipe, wish);
    let own = recipe.notation.step.length();
    let finer = Step::all_for(recipe.notation.unit()).iter();
    for step in finer.filter(|step| step.length() < own) {
        if !matches!(found, Err(Clash::Between { marks: true, .. })) {
            break;
        }
        let finer = Wish {
            notation: Some(Notation {
                step: *step,
                ..recipe.notation
            }),
            ..wish.clone()
        };
        if let Ok(finer) = refit(recipe, &finer) {
            found = Ok(finer);
        }
    }
    found
}

/// Which of the others to give up: one that clashes, layers before strips and
/// what comes later in the work before what comes earlier.
fn in_the_way(hand: &Made, others: &[Made], causes: &[Cause]) -> Option<usize> {
    let mut first = hand.sums.len();
    let mut found: Option<(usize, bool)> = None;
    for (place, made) in others.iter().enumerate() {
        let sums = first..first + made.sums.len();
        first = sums.end;
        let clashes = causes.iter().any(|cause| match cause {
            Cause::Asked(id) => {
                let pins = |made: &Made| made.pinned.iter().any(|(pinned, _)| pinned == id);
                // A measure of both is what the part in hand says.
                pins(made)
            }
            Cause::Made(number) => sums.contains(number),
            _ => false,
        });
        let layer = matches!(made.part, Part::Layer(_));
        let better = found.is_none_or(|(_, found)| layer || !found);
        if clashes && better {
            found = Some((place, layer));
        }
    }
    found.map(|(place, _)| place)
}

#[expect(
    clippy::too_many_arguments,
    reason = "the ends of one search, put together once"
)]
fn finished(
    plan: &Plan<'_>,
    card: &Card,
    hand: &Made,
    wish: Wish,
    refit: Refit,
    given_up: Vec<Part>,
    envelope: Option<(&'static Envelope, &'static ClearanceRule)>,
    held: Option<(&'static Envelope, &'static ClearanceRule)>,
) -> Result<Solved, Why> {
    let before = plan.recipe;
    let mut recipe = refit.recipe.clone();
    recipe.notation = before.notation;
    // A closest envelope stays the closest one and is not chosen by that.
    recipe.posting = before.posting.clone();
    let after = work_out(&recipe, plan.tools);
    if let Some(problem) = stops(&after).nth(stops(card).count()) {
        return Err(Why::Problem(problem.clone()));
    }
    let step = before.notation.step.length().units();
    let was_made = |id: MeasureId| hand.pinned.iter().any(|(made, _)| *made == id);
    let off_marks = recipe
        .measures
        .iter()
        .filter(|measure| {
            let is_off = measure.value.units() % step != 0;
            is_off && !was_made(measure.id) && measure.value != before.value(measure.id)
        })
        .map(|measure| measure.id)
        .collect();
    let moved = refit.changes.iter();
    let changes = moved
        .filter(|moved| !was_made(moved.change.measure))
        .copied()
        .collect();
    Ok(Solved {
        card: after,
        recipe,
        wish,
        changes,
        given_up,
        envelope: envelope.map(|(envelope, _)| (envelope, held.is_some())),
        in_hand: hand.sums.len(),
        off_marks,
        refit,
    })
}

fn stops(card: &Card) -> impl Iterator<Item = &Problem> {
    let problems = card.problems.iter();
    problems.filter(|problem| problem.weight == Weight::Stop)
}
