//! The ways out of a clash, each solved before it is offered.

use super::ask::Asked;
use super::{Cause, Clash, Free, Refit, Wish, find, refit_within};
use crate::length::{Length, Step};
use crate::paper::StockId;
use crate::plane::Size;
use crate::program::Work;
use crate::recipe::Recipe;
use crate::sorted::InOrder as _;

/// A paper nothing is too large for.
const PLENTY: Size = Size {
    width: Length::LIMIT,
    height: Length::LIMIT,
};

/// How many things one way out may let go of. Our own bound: who has to let go of
/// more is better off with another wish.
const MOST: usize = 4;

/// How much may be done to find all ways out, and how much for one card on the
/// way. Our own bounds: the maker waits for it, and ordinary cards need a hundredth
/// of the latter.
const WORK: u64 = 6_000_000;
const ONE: u64 = 1_000_000;

/// Something that leads out of a clash.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Way {
    /// What of the clash it is about; nothing where it is about more than one
    /// thing.
    pub cause: Option<Cause>,
    /// What is let go of, or asked for instead: mostly one thing.
    pub frees: Vec<Free>,
    /// Width and height of the closed card that comes of it.
    pub finished: Size,
}

impl Way {
    /// Whether nothing is left of some part of the wish.
    fn gives_up_the_wish(&self) -> bool {
        let mut frees = self.frees.iter();
        frees.all(|free| matches!(free, Free::Wish(_) | Free::Stock(..)))
    }
}

impl Clash {
    /// What would free the card. With each of them there is a card: it was worked
    /// out to see. What takes too long to find is not among them.
    pub fn ways_out(&self, recipe: &Recipe, wish: &Wish) -> Vec<Way> {
        let Self::Between { causes, .. } = self else {
            return Vec::new();
        };
        let work = Work::of(WORK);
        let mut out = Out { recipe, wish, work };
        let mut ways: Vec<Way> = Vec::new();
        for cause in causes {
            let free = cause.free();
            ways.extend(free.and_then(|free| out.way(Some(*cause), vec![free])));
            let stock = match (cause, wish.sheet) {
                (Cause::Sheet, Some(sheet)) => Some(sheet.stock),
                (Cause::Paper(stock), _) => Some(*stock),
                _ => None,
            };
            ways.extend(stock.and_then(|stock| out.larger(*cause, stock)));
        }
        let others = out.nearest_size().into_iter().chain(out.finer());
        let others: Vec<_> = others.collect();
        // Where nothing alone helps but giving up the wish, several things are.
        if ways.iter().all(Way::gives_up_the_wish) {
            let mut own = causes.iter().filter(|cause| !cause.is_wish());
            ways.extend(own.find_map(|cause| out.together(*cause)));
        }
        if ways.is_empty() {
            ways.extend(causes.iter().find_map(|cause| out.together(*cause)));
        }
        if ways.is_empty() {
            out.work = Work::of(WORK);
            ways.extend(out.way(None, out.whole_wish()));
        }
        ways.extend(others);
        ways
    }
}

/// What is to be freed.
struct Out<'a> {
    recipe: &'a Recipe,
    wish: &'a Wish,
    /// What may still be done to find out.
    work: Work,
}

impl Out<'_> {
    /// The recipe and the wish with some things let go of.
    fn freed(&self, frees: &[Free]) -> (Recipe, Wish) {
        let (mut recipe, mut wish) = (self.recipe.clone(), self.wish.clone());
        for free in frees {
            free.apply(&mut recipe, &mut wish);
        }
        (recipe, wish)
    }

    /// Every part of the wish that can be done without.
    fn whole_wish(&self) -> Vec<Free> {
        let parts = [
            self.wish.envelope.map(|_| Cause::Envelope),
            self.wish.finished.map(|_| Cause::Finished),
            self.wish.sheet.map(|_| Cause::Sheet),
        ];
        parts.into_iter().flatten().map(Free::Wish).collect()
    }

    fn card(&mut self, frees: &[Free]) -> Option<Refit> {
        let (recipe, wish) = self.freed(frees);
        self.nearest(&Asked::of(&recipe, &wish))
    }

    /// The nearest card, where it is found in good time.
    fn nearest(&mut self, asked: &Asked) -> Option<Refit> {
        let mut part = self.work.aside(ONE);
        let found = find(asked, &mut part);
        self.work.back(part);
        found.ok()?.ok()
    }

    fn way(&mut self, cause: Option<Cause>, frees: Vec<Free>) -> Option<Way> {
        let finished = self.card(&frees)?.finished;
        Some(Way {
            cause,
            frees,
            finished,
        })
    }

    /// A larger paper, where that helps: as large as the nearest card then needs.
    fn larger(&mut self, cause: Cause, stock: StockId) -> Option<Way> {
        let plenty = self.card(&[Free::Stock(stock, PLENTY)])?;
        let needed = needed(&plenty.recipe, stock)?;
        self.way(Some(cause), vec![Free::Stock(stock, needed)])
    }

    /// Several things to let go of where one alone does not help, beginning with
    /// this cause: what then still clashes is let go of too, the wish last, and
    /// what turns out to be spare is not.
    fn together(&mut self, cause: Cause) -> Option<Way> {
        let mut frees = vec![cause.free()?];
        loop {
            let (recipe, wish) = self.freed(&frees);
            let causes = match refit_within(&recipe, &wish, &mut self.work) {
                Ok(_) => break,
                Err(Clash::Between { causes, .. }) => causes,
                Err(Clash::NeverCloses | Clash::CutShort | Clash::TooTangled) => return None,
            };
            let still = causes.into_iter().filter(|cause| cause.free().is_some());
            let next = still.min_by_key(|cause| (cause.is_wish(), *cause));
            let next = next.and_then(Cause::free)?;
            if frees.len() == MOST {
                return None;
            }
            frees.push(next);
        }
        for spare in frees.clone() {
            let fewer: Vec<_> = frees.iter().copied().filter(|it| *it != spare).collect();
            if self.card(&fewer).is_some() {
                frees = fewer;
            }
        }
        self.way(None, frees)
    }

    /// The first finer marks on which there is a card.
    fn finer(&mut self) -> Option<Way> {
        let notation = self.wish.notation.unwrap_or(self.recipe.notation);
        let mut finer: Vec<Step> = Step::all_for(notation.unit())
            .iter()
            .copied()
            .filter(|step| step.length() < notation.step.length())
            .collect();
        finer.put_in_order_by_key(|step| std::cmp::Reverse(step.length()));
        let mut ways = finer.into_iter();
        ways.find_map(|step| self.way(None, vec![Free::Marks(step)]))
    }

    /// The finished size nearest to the one asked for that works: its worse side
    /// is as little off as can be, and then the other.
    fn nearest_size(&mut self) -> Option<Way> {
        let asked = self.wish.finished?;
        let notation = self.wish.notation.unwrap_or(self.recipe.notation);
        let step = notation.step.length();
        let mut off = |width: i64, height: i64| {
            let mut wished = Asked::of(self.recipe, self.wish);
            wished.slack = Size {
                width: step * width,
                height: step * height,
            };
            Some(self.nearest(&wished)?.finished)
        };
        let (longer, _) = asked.width.max(asked.height).div_rem(step.units())?;
        let (worse, both) = fewest(longer.units(), |marks| off(marks, marks))?;
        let high = fewest(worse, |marks| off(worse, marks));
        let wide = fewest(worse, |marks| off(marks, worse));
        let better = high.into_iter().chain(wide).min_by_key(|(marks, _)| *marks);
        let size = better.map_or(both, |(_, size)| size);
        self.way(None, vec![Free::Size(size)])
    }
}

/// The fewest marks with which something is found, where no more than so many
/// are needed, and what is found with more if it is with fewer.
fn fewest<T>(most: i64, mut found: impl FnMut(i64) -> Option<T>) -> Option<(i64, T)> {
    let (mut least, mut most) = (-1, most);
    let mut best = found(most)?;
    while most - least > 1 {
        let middle = least + (most - least) / 2;
        match found(middle) {
            Some(other) => (most, best) = (middle, other),
            None => least = middle,
        }
    }
    Some((most, best))
}

/// How large a sheet has to be for every piece that is cut from it, each lying as
/// it does best.
fn needed(recipe: &Recipe, stock: StockId) -> Option<Size> {
    let layers = recipe.layers.iter();
    let layers = layers.map(|layer| (layer.stock, [layer.width, layer.height]));
    let pieces = recipe.pieces.iter().map(|piece| &piece.strip);
    let strips = pieces.chain([&recipe.base.strip]);
    let strips = strips.map(|strip| (strip.stock, [strip.length, strip.height]));
    let all = layers.chain(strips).filter(|(of, _)| *of == stock);
    let all = all.map(|(_, sides)| sides.map(|id| recipe.value(id)));
    let (long, short) = all.fold((Length::ZERO, Length::ZERO), |(long, short), [a, b]| {
        (long.max(a.max(b)), short.max(a.min(b)))
    });
    let was = recipe.stock(stock)?;
    let upright = was.height >= was.width;
    (long > Length::ZERO).then(|| {
        let size = Size {
            width: short,
            height: long,
        };
        if upright { size } else { size.turned() }
    })
}
