//! The nearest card for what is made: as much as can be stays as it is, what is
//! too large is trimmed, and only what helps nowhere else is cut again.

use super::Plan;
use super::edges::{Edges, trimmable};
use super::made::{Made, Progress, other};
use crate::card::{Card, work_out};
use crate::length::{Length, Notation, Step};
use crate::paper::{ClearanceRule, Envelope};
use crate::part::{Part, parts};
use crate::problem::{Problem, Weight};
use crate::recipe::{Layer, MeasureId, Recipe, StripId};
use crate::refit::{self, Cause, Clash, Moved, Refit, Wish, refit};
use crate::steps::StepKey;

/// A card that can still be made.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Solved {
    pub(super) recipe: Recipe,
    pub(super) card: Card,
    pub(super) wish: Wish,
    pub(super) refit: Refit,
    /// What moved besides what was measured.
    pub(super) changes: Vec<Moved>,
    /// What is made and counts, the part in hand first.
    pub(super) made: Vec<Made>,
    /// The other parts that are trimmed.
    pub(super) trimmed: Vec<Part>,
    /// The other parts that are cut again.
    pub(super) recut: Vec<Part>,
    /// The envelope that took the card, and whether it still does.
    pub(super) envelope: Option<(&'static Envelope, bool)>,
    /// What has to be set between marks.
    pub(super) off_marks: Vec<MeasureId>,
}

impl Solved {
    /// Whether nothing is given up for it and nothing else touched.
    pub(super) fn is_clean(&self) -> bool {
        self.recut.is_empty() && self.trimmed.is_empty() && self.loss() == Loss::default()
    }

    /// Whether it takes no new paper for what is cut already.
    pub(super) fn is_free(&self) -> bool {
        self.recut.is_empty()
    }

    /// Whether it loses nothing that it should have, and takes no new paper.
    pub(super) fn is_good(&self) -> bool {
        self.is_free() && self.loss() == Loss::default()
    }

    fn loss(&self) -> Loss {
        Loss {
            envelope: self.envelope.is_some_and(|(_, takes)| !takes),
            given_up: self.refit.given_up.len(),
            off_marks: !self.off_marks.is_empty(),
        }
    }
}

/// What a card loses that it should have: less is better.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord)]
struct Loss {
    envelope: bool,
    given_up: usize,
    off_marks: bool,
}

/// Why there is none.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Why {
    /// What is made, the part in hand first, and what must hold clash.
    Clash(Clash, Box<Wish>, Vec<Made>),
    /// The card would not come together.
    Problem(Problem),
    /// What is cut to the shape of another part would not fit it.
    Shape,
}

/// What may be asked of the parts besides the one in hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Reach {
    /// What is put on the part in hand or in it may be trimmed: layers for a
    /// layer, pieces too for a piece, all for the base.
    Lesser,
    /// Everything may.
    All,
}

/// A search for the nearest card.
pub(super) struct Search<'a> {
    pub(super) plan: &'a Plan<'a>,
    pub(super) card: &'a Card,
    pub(super) progress: Progress<'a>,
    /// The part in hand as it came out.
    pub(super) hand: Made,
    pub(super) reach: Reach,
    /// Whether parts may be cut again.
    pub(super) recut: bool,
    /// For how many cards of the batch it is.
    pub(super) cards: u32,
    /// Whether the part in hand is cut for all of them.
    pub(super) hand_is_cut: bool,
}

/// What came of a search.
pub(super) struct Searched {
    /// The cards found, the one for which the fewest parts are touched first.
    pub(super) solved: Vec<Solved>,
    /// Why there is none without new paper, where that is so.
    pub(super) stuck: Option<Why>,
}

impl Searched {
    /// Nothing, and why.
    pub(super) const fn none(why: Why) -> Self {
        Self {
            solved: Vec::new(),
            stuck: Some(why),
        }
    }

    /// Whether no card was found.
    pub(super) const fn is_empty(&self) -> bool {
        self.solved.is_empty()
    }
}

/// What becomes of the other parts in a try.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Holds {
    /// Each with the edges along which it may be cut down; none where it is cut
    /// again.
    parts: Vec<(Part, Option<Edges>)>,
    envelope: Option<(&'static Envelope, &'static ClearanceRule)>,
}

/// Measures that go together.
#[derive(Clone)]
struct Reached {
    holds: Holds,
    wish: Wish,
    refit: Refit,
    made: Vec<Made>,
    /// Why something had to be cut again for it.
    forced: Option<Why>,
}

impl Search<'_> {
    /// The nearest cards with the part in hand as it is.
    pub(super) fn run(&self) -> Searched {
        let (mut solved, mut stuck) = (Vec::<Solved>::new(), None);
        let (as_cut, loose) = (self.as_cut(), self.loose());
        if let Some(reached) = self.found(&as_cut) {
            self.add(&mut solved, &mut stuck, reached);
        }
        if solved.first().is_some_and(Solved::is_clean) {
            return Searched { solved, stuck };
        }
        let mut best = self.found(&loose).filter(|_| loose != as_cut);
        if best.is_none() && solved.is_empty() {
            match self.settle(loose, self.recut) {
                Ok(reached) => {
                    stuck.clone_from(&reached.forced);
                    best = Some(reached);
                }
                Err(why) => {
                    stuck.get_or_insert(why);
                }
            }
        }
        if let Some(reached) = best {
            let best = self.loss(&reached);
            if solved.is_empty() {
                let least = self.tighten(&reached, None);
                self.add(&mut solved, &mut stuck, least);
            }
            if solved.first().is_none_or(|it| best < it.loss()) {
                let best = self.tighten(&reached, Some(best));
                self.add(&mut solved, &mut stuck, best);
            }
        }
        if solved.iter().any(Solved::is_free) {
            stuck = None;
        }
        Searched { solved, stuck }
    }

    fn add(&self, solved: &mut Vec<Solved>, stuck: &mut Option<Why>, reached: Reached) {
        match self.finished(reached) {
            Ok(found) => {
                let same = |it: &Solved| it.recipe == found.recipe && it.trimmed == found.trimmed;
                if !solved.iter().any(same) {
                    solved.push(found);
                }
            }
            Err(why) => {
                stuck.get_or_insert(why);
            }
        }
    }

    /// The other parts that are cut, as they are.
    fn as_cut(&self) -> Holds {
        let recipe = self.plan.recipe;
        let cut = parts(recipe)
            .filter(|part| *part != self.hand.part && self.progress.has(StepKey::Cut(*part)));
        Holds {
            parts: cut.map(|part| (part, Some(Edges::STAY))).collect(),
            envelope: envelope(recipe, self.card),
        }
    }

    /// The same with all that may be trimmed.
    fn loose(&self) -> Holds {
        let mut holds = self.as_cut();
        for (part, edges) in &mut holds.parts {
            let reached = match (self.reach, self.hand.part, *part) {
                (Reach::All, ..) | (_, Part::Strip(StripId::Base), _) | (_, _, Part::Layer(_)) => {
                    true
                }
                (_, Part::Strip(StripId::Piece(_)), Part::Strip(of)) => !of.is_base(),
                (_, Part::Layer(_), Part::Strip(_)) => false,
            };
            if reached {
                *edges = Some(trimmable(self.plan.recipe, &self.progress, *part));
            }
        }
        holds
    }

    /// Measures that go together, on the coarsest marks and with the envelope
    /// where that can be; why there are none is not looked into, which takes far
    /// longer.
    fn found(&self, holds: &Holds) -> Option<Reached> {
        let own = self.plan.recipe.notation;
        let finer = Step::all_for(own.unit()).iter();
        let finer = finer.filter(|step| step.length() < own.step.length());
        let finer = finer.map(|step| Some(Notation { step: *step, ..own }));
        let marks: Vec<_> = std::iter::once(None).chain(finer).collect();
        let tried = |envelope, notation| {
            let holds = Holds {
                envelope,
                ..holds.clone()
            };
            let made = self.made(&holds);
            let wish = Wish {
                notation,
                ..self.wish(&holds, &made)
            };
            let refit = refit::card(self.plan.recipe, &wish)?;
            Some(Reached {
                holds,
                wish,
                refit,
                made,
                forced: None,
            })
        };
        // What fails on the finest marks without an envelope fails altogether.
        tried(None, *marks.last()?)?;
        let envelopes = holds.envelope.map(Some).into_iter().chain([None]);
        let mut ways = envelopes.flat_map(|envelope| marks.iter().map(move |it| (envelope, *it)));
        ways.find_map(|(envelope, notation)| tried(envelope, notation))
    }

    /// Gives up, where that is allowed, one part after the other until the rest
    /// goes together, and the envelope where no part is in the way.
    fn settle(&self, mut holds: Holds, recut: bool) -> Result<Reached, Why> {
        let mut first = None;
        // Each round gives up a part or the envelope.
        loop {
            let made = self.made(&holds);
            let wish = self.wish(&holds, &made);
            let clash = match nearest(self.plan.recipe, &wish) {
                Ok((wish, refit)) => {
                    return Ok(Reached {
                        holds,
                        wish,
                        refit,
                        made,
                        forced: first,
                    });
                }
                Err(clash) => clash,
            };
            let causes = match &clash {
                Clash::Between { causes, .. } => &causes[..],
                Clash::NeverCloses | Clash::CutShort | Clash::TooTangled => &[],
            };
            let place = if recut {
                self.in_the_way(&made, causes)
            } else {
                None
            };
            let envelope = causes.contains(&Cause::Envelope);
            let why = Why::Clash(clash, Box::new(wish), made);
            let given_up = place.and_then(|part| {
                let mut parts = holds.parts.iter_mut();
                parts.find(|(other, _)| *other == part)
            });
            if let Some((_, edges)) = given_up {
                *edges = None;
                first.get_or_insert(why);
            } else if envelope && holds.envelope.is_some() {
                holds.envelope = None;
            } else {
                return Err(first.unwrap_or(why));
            }
        }
    }

    /// The same card with as little touched as can be: what needn't be cut again
    /// or trimmed stays, the larger parts before the smaller. Where a loss is
    /// told, it gets no greater.
    fn tighten(&self, reached: &Reached, loss: Option<Loss>) -> Reached {
        // Why something can't stay need not be known, and marks get no finer.
        let tried = |holds: Holds| {
            let made = self.made(&holds);
            let wish = Wish {
                notation: reached.wish.notation,
                ..self.wish(&holds, &made)
            };
            let reached = Reached {
                refit: refit::card(self.plan.recipe, &wish)?,
                forced: reached.forced.clone(),
                holds,
                wish,
                made,
            };
            let as_good = loss.is_none_or(|loss| self.loss(&reached) <= loss);
            as_good.then_some(reached)
        };
        let mut best = reached.clone();
        let loose = self.loose();
        for (index, (_, edges)) in loose.parts.into_iter().enumerate() {
            let mut holds = best.holds.clone();
            if let Some((_, none @ None)) = holds.parts.get_mut(index) {
                *none = edges;
                best = tried(holds).unwrap_or(best);
            }
        }
        // What did not move is held at once.
        let mut holds = best.holds.clone();
        for (part, edges) in &mut holds.parts {
            if let Some(edges) = edges {
                let made = best.made.iter().find(|made| made.part == *part);
                let now = sizes(&best.refit.recipe, *part);
                if let (Some(made), Some([width, height])) = (made, now) {
                    edges.width &= width != made.size.width;
                    edges.height &= height != made.size.height;
                }
            }
        }
        best = tried(holds).unwrap_or(best);
        for index in 0..best.holds.parts.len() {
            for along in [true, false] {
                let mut holds = best.holds.clone();
                if let Some((_, Some(edges))) = holds.parts.get_mut(index) {
                    let edge = if along {
                        &mut edges.width
                    } else {
                        &mut edges.height
                    };
                    if std::mem::take(edge) {
                        best = tried(holds).unwrap_or(best);
                    }
                }
            }
        }
        best
    }

    fn loss(&self, reached: &Reached) -> Loss {
        Loss {
            envelope: reached.holds.envelope.is_none()
                && envelope(self.plan.recipe, self.card).is_some(),
            given_up: reached.refit.given_up.len(),
            off_marks: !self.off_marks(&reached.refit.recipe).is_empty(),
        }
    }

    /// What is made and counts, the part in hand first.
    fn made(&self, holds: &Holds) -> Vec<Made> {
        let others = holds.parts.iter().filter_map(|(part, edges)| {
            other(
                self.plan.recipe,
                self.card,
                &self.progress,
                *part,
                (*edges)?,
            )
        });
        std::iter::once(self.hand.clone()).chain(others).collect()
    }

    fn wish(&self, holds: &Holds, made: &[Made]) -> Wish {
        let mut pinned: Vec<(MeasureId, Length)> = Vec::new();
        for pin in made.iter().flat_map(|made| &made.pinned) {
            if !pinned.contains(pin) {
                pinned.push(*pin);
            }
        }
        // What is cut for all these cards fits its sheet.
        let all = self.progress.others + self.cards;
        let count = |part: &Part| {
            self.plan
                .done
                .get(&StepKey::Cut(*part))
                .copied()
                .unwrap_or(0)
        };
        let cut = made.iter().map(|made| made.part);
        let cut = cut.filter(|part| {
            let in_hand = *part == self.hand.part && self.hand_is_cut;
            in_hand || count(part) >= all
        });
        Wish {
            envelope: holds.envelope,
            pinned,
            made: made.iter().flat_map(|made| &made.sums).cloned().collect(),
            cut: cut.collect(),
            between: true,
            ..Wish::default()
        }
    }

    /// Which of the other parts to cut again: one that clashes, layers before
    /// strips and what comes later in the work before what comes earlier. A
    /// piece is worth cutting layers again, a layer nothing.
    fn in_the_way(&self, made: &[Made], causes: &[Cause]) -> Option<Part> {
        let owners = causes.iter().flat_map(|cause| owners(made, *cause));
        let others = owners.filter(|part| {
            *part != self.hand.part
                && match self.hand.part {
                    Part::Strip(StripId::Base) => true,
                    Part::Strip(StripId::Piece(_)) => matches!(part, Part::Layer(_)),
                    Part::Layer(_) => false,
                }
        });
        // Strips come before layers, and what is later is larger.
        others.max()
    }

    fn finished(&self, reached: Reached) -> Result<Solved, Why> {
        let Reached {
            holds,
            wish,
            refit,
            made,
            forced: _,
        } = reached;
        let before = self.plan.recipe;
        let mut recipe = refit.recipe.clone();
        recipe.notation = before.notation;
        // A closest envelope stays the closest one and is not chosen by that.
        recipe.posting = before.posting.clone();
        let after = work_out(&recipe, self.plan.tools);
        if let Some(problem) = stops(&after).nth(stops(self.card).count()) {
            return Err(Why::Problem(problem.clone()));
        }
        let kept = holds.parts.iter().filter(|(_, edges)| edges.is_some());
        let kept: Vec<_> = kept.map(|(part, _)| *part).collect();
        let reshaped: Vec<_> = reshaped(before, self.card, &after, &kept).collect();
        let recut = holds.parts.iter().filter(|(_, edges)| edges.is_none());
        let recut: Vec<_> = recut
            .map(|(part, _)| *part)
            .chain(reshaped.iter().copied())
            .collect();
        if !recut.is_empty() && (!self.recut || matches!(self.hand.part, Part::Layer(_))) {
            return Err(Why::Shape);
        }
        let trimmed = kept.into_iter().filter(|part| {
            let was = made.iter().find(|made| made.part == *part);
            let is = after.cut_list.size_of(*part);
            !reshaped.contains(part) && was.map(|made| made.size) != is
        });
        let was_made = |id: MeasureId| self.hand.pinned.iter().any(|(made, _)| *made == id);
        let moved = refit.changes.iter();
        let changes = moved
            .filter(|moved| !was_made(moved.change.measure))
            .copied()
            .collect();
        let had = envelope(before, self.card);
        Ok(Solved {
            trimmed: trimmed.collect(),
            recut,
            changes,
            envelope: had.map(|(envelope, _)| (envelope, holds.envelope.is_some())),
            off_marks: self.off_marks(&recipe),
            card: after,
            recipe,
            wish,
            made,
            refit,
        })
    }

    /// What moved and has to be set between marks.
    fn off_marks(&self, recipe: &Recipe) -> Vec<MeasureId> {
        let before = self.plan.recipe;
        let step = before.notation.step.length().units();
        let was_made = |id: MeasureId| self.hand.pinned.iter().any(|(made, _)| *made == id);
        let measures = recipe.measures.iter().filter(|measure| {
            let is_off = measure.value.units() % step != 0;
            is_off && !was_made(measure.id) && measure.value != before.value(measure.id)
        });
        measures.map(|measure| measure.id).collect()
    }
}

/// The parts whose making a cause is, by what is pinned or summed for them.
pub(super) fn owners(made: &[Made], cause: Cause) -> Vec<Part> {
    let mut first = 0;
    let mut owners = Vec::new();
    for made in made {
        let sums = first..first + made.sums.len();
        first = sums.end;
        let owns = match cause {
            Cause::Asked(id) => made.pinned.iter().any(|(pinned, _)| *pinned == id),
            Cause::Made(number) => sums.contains(&number),
            _ => false,
        };
        if owns {
            owners.push(made.part);
        }
    }
    owners
}

/// What the sizes of a part are by its measures.
fn sizes(recipe: &Recipe, part: Part) -> Option<[Length; 2]> {
    let ids = match part {
        Part::Strip(of) => recipe.strip(of).map(|it| [it.length, it.height]),
        Part::Layer(id) => recipe.layer(id).map(|it| [it.width, it.height]),
    };
    ids.map(|ids| ids.map(|id| recipe.value(id)))
}

/// The layers cut to the shape of what carries them, where that shape changes.
fn reshaped<'a>(
    recipe: &'a Recipe,
    before: &'a Card,
    after: &'a Card,
    kept: &'a [Part],
) -> impl Iterator<Item = Part> + 'a {
    kept.iter().copied().filter(|part| match part {
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

/// The nearest card on the maker's marks, or else on finer ones, and the wish for
/// it with those.
fn nearest(recipe: &Recipe, wish: &Wish) -> Result<(Wish, Refit), Clash> {
    let clash = match refit(recipe, wish) {
        Ok(found) => return Ok((wish.clone(), found)),
        Err(clash) => clash,
    };
    if !matches!(clash, Clash::Between { marks: true, .. }) {
        return Err(clash);
    }
    let own = recipe.notation.step.length();
    let finer = Step::all_for(recipe.notation.unit()).iter();
    let finer = finer.filter(|step| step.length() < own).map(|step| Wish {
        notation: Some(Notation {
            step: *step,
            ..recipe.notation
        }),
        ..wish.clone()
    });
    let mut found = finer.filter_map(|wish| {
        let found = refit::card(recipe, &wish)?;
        Some((wish, found))
    });
    found.next().ok_or(clash)
}

fn stops(card: &Card) -> impl Iterator<Item = &Problem> {
    let problems = card.problems.iter();
    problems.filter(|problem| problem.weight == Weight::Stop)
}
