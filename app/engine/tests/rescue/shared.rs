//! Recipes at the table, and what a rescue promises, checked from scratch.

use std::collections::BTreeMap;

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::problem::Weight;
use foldwright_engine::recipe::{Is, Recipe, Relation, StripId, Term, starters};
use foldwright_engine::rescue::{
    About, Against, Done, Fate, Miscut, Offer, Part, Plan, Remark, Rescue, Way, rescue, work,
};
use foldwright_engine::steps::{self, Kind, StepKey, Title, Trims, steps, steps_with};

pub(crate) const INCHES: Notation = Notation {
    step: Step::Sixteenth,
    decimal: DecimalMark::Point,
};
pub(crate) const MILLIMETRES: Notation = Notation {
    step: Step::Millimetre,
    decimal: DecimalMark::Point,
};

/// A board of 12 in.
pub(crate) const TOOLS: Tools = Tools {
    board: Length::inches(12),
};

/// Cutting and scoring the card base.
pub(crate) const CUT_BASE: StepKey = StepKey::Cut(Part::Strip(StripId::Base));
pub(crate) const SCORE_BASE: StepKey = StepKey::Score(StripId::Base, 0);

/// Numbers from a seed (Marsaglia's xorshift).
pub(crate) struct Numbers(u64);

impl Numbers {
    pub(crate) fn of(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15))
    }

    pub(crate) fn below(&mut self, most: u64) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0 % most
    }

    pub(crate) fn chance(&mut self, of: u64) -> bool {
        self.below(of) == 0
    }
}

pub(crate) fn starter(id: &str, notation: Notation) -> Recipe {
    let starter = starters().iter().find(|starter| starter.id == id);
    starter.expect("a known starter").recipe_in(notation)
}

/// A recipe at the table with all steps done for all cards up to one, and that
/// one open.
pub(crate) struct Table {
    pub(crate) recipe: Recipe,
    pub(crate) card: Card,
    pub(crate) done: Done,
    pub(crate) trims: Trims,
    /// None after the last step.
    pub(crate) at: Option<StepKey>,
}

impl Table {
    pub(crate) fn at(recipe: Recipe, key: StepKey) -> Self {
        let card = work_out(&recipe, &Tools::default());
        let steps = steps(&recipe, &card);
        assert!(steps.iter().any(|step| step.key == key), "{key}");
        let before = steps.iter().take_while(|step| step.key != key);
        let done = before.map(|step| (step.key, step.times)).collect();
        Self {
            at: Some(key),
            recipe,
            card,
            done,
            trims: Trims::new(),
        }
    }

    pub(crate) fn plan(&self) -> Plan<'_> {
        Plan {
            recipe: &self.recipe,
            tools: &TOOLS,
            done: &self.done,
            trims: &self.trims,
            at: self.at,
        }
    }

    pub(crate) fn miscut(&self, key: StepKey, measured: &[Option<Length>], cards: u32) -> Miscut {
        let work = work(&self.recipe, &self.card, key).expect("a step of cutting or scoring");
        assert_eq!(work.planned.len(), measured.len());
        Miscut {
            key,
            about: work.about,
            measured: measured.to_vec(),
            cards,
        }
    }

    /// What can be done, after checking that all of it is true.
    pub(crate) fn rescue(&self, miscut: &Miscut) -> Rescue {
        let rescue = rescue(&self.plan(), miscut).expect("it can be measured");
        for offer in &rescue.offers {
            self.check(miscut, offer);
        }
        rescue
    }

    fn check(&self, miscut: &Miscut, offer: &Offer) {
        let plan = self.plan();
        let heading = offer.heading(miscut);
        let what = format!("{heading:?}");
        assert_eq!(heading.part, miscut.about.part());
        assert!(offer.paper.iter().all(|paper| paper.pieces > 0), "{what}");
        for remark in offer.remarks(&plan, miscut) {
            match remark {
                Remark::Note(_) | Remark::Do(_) => {}
                Remark::Against(Against::Problem(problem)) => {
                    assert_eq!(problem.weight, Weight::Stop, "{what}");
                }
                Remark::Against(_) => assert_eq!(offer.way, Way::Trim, "{what}"),
            }
        }
        let then = work_out(&offer.recipe, &TOOLS);
        let new = steps_with(&offer.recipe, &then, &offer.trims);
        let known = |key| new.iter().any(|step| step.key == key);
        assert!(offer.step.is_none_or(known), "{what}");

        match offer.way {
            Way::ScoreAgain | Way::Recut => {
                assert_eq!(offer.recipe, self.recipe, "{what}");
                let left = self.recipe.copies - miscut.cards;
                let again = offer.done.get(&miscut.key).copied().unwrap_or(0);
                assert!(again <= left, "{what}");
                assert!(offer.rest.is_none());
                return;
            }
            Way::Keep | Way::KeepAll | Way::Trim => {}
        }
        assert_eq!(offer.recipe.check(), [], "{what}");
        for relation in offer.recipe.held() {
            let must = relation.holds == foldwright_engine::recipe::Holds::Must;
            assert!(
                !must || holds(&offer.recipe, &relation),
                "{what}: {relation:?}"
            );
        }
        for measure in &offer.recipe.measures {
            assert!(
                measure.least.is_none_or(|least| measure.value >= least),
                "{what}"
            );
            assert!(
                measure.most.is_none_or(|most| measure.value <= most),
                "{what}"
            );
        }
        self.check_trims(miscut, offer, &new);
        let others = self.recipe.copies - offer.cards;
        let made = |key| self.done.get(&key).is_some_and(|done| *done > others);
        self.check_in_hand(miscut, offer, &then, &made);
        self.check_others(miscut, offer, &then, &made);

        // What counts as done is still right: its numbers are as they were.
        let old = steps_with(&self.recipe, &self.card, &self.trims);
        let given_up: Vec<_> = offer.fates.iter().map(|(part, _)| *part).collect();
        for step in &new {
            let done = offer.done.get(&step.key).copied().unwrap_or(0);
            assert!(done <= step.times, "{what}: {}", step.key);
            let same = matches!(
                step.kind,
                Kind::Cut | Kind::Score | Kind::Glue | Kind::Insert
            );
            let about = work(&offer.recipe, &then, step.key).map(|work| work.about.part());
            let excepted = step.key == miscut.key
                || about == Some(miscut.about.part())
                || about.is_some_and(|part| given_up.contains(&part));
            if done > 0 && same && !excepted {
                let was = old
                    .iter()
                    .find(|old| old.key == step.key)
                    .expect("it was there");
                assert_eq!(was.figures, step.figures, "{what}: {}", step.key);
            }
        }
        match &offer.rest {
            Some(rest) => {
                assert_eq!(rest.recipe.copies + offer.recipe.copies, self.recipe.copies);
                let mut same = rest.recipe.clone();
                same.copies = self.recipe.copies;
                assert_eq!(same, self.recipe);
                for (key, done) in &rest.done {
                    assert!(*done <= rest.recipe.copies.max(1), "{what}: {key}");
                }
            }
            None => assert_eq!(offer.recipe.copies, self.recipe.copies, "{what}"),
        }
    }

    /// What is trimmed gets no larger, is a step of its own that comes next and
    /// takes no paper, and stays cut.
    fn check_trims(&self, miscut: &Miscut, offer: &Offer, new: &[steps::Step]) {
        let trimmed = offer.fates.iter().filter_map(|(part, fate)| match fate {
            Fate::Trimmed(to) => Some((*part, *to)),
            Fate::Recut => None,
        });
        let mut keys = Vec::new();
        for (part, to) in trimmed {
            let trim = offer.trims[&part];
            assert!(
                to.width <= trim.width && to.height <= trim.height,
                "{part:?}"
            );
            assert!(to != trim.size(), "{part:?}");
            if part == miscut.about.part() && matches!(miscut.about, About::Cut(_)) {
                let is = [trim.width, trim.height].map(Some);
                assert_eq!(miscut.measured[..2], is);
            } else if self.trims.is_empty() {
                assert_eq!([trim.width, trim.height], sizes_in(&self.card, part));
            }
            let key = StepKey::Trim(part);
            let step = new.iter().find(|step| step.key == key).expect("its step");
            let is_trim = matches!(step.title, Title::Trim { part: it, .. } if it == part);
            assert!(is_trim, "{:?}", step.title);
            assert!(step.does.len() > 2, "{:?}", step.does);
            assert_eq!(offer.done.get(&key).copied().unwrap_or(0), 0);
            assert!(offer.done[&StepKey::Cut(part)] >= step.times.min(1));
            assert!(offer.paper.iter().all(|paper| paper.part != part));
            keys.push(key);
        }
        let first = new.iter().find(|step| keys.contains(&step.key));
        if let Some(first) = first {
            let place = |key| new.iter().position(|step| step.key == key);
            let next = offer.step.and_then(place);
            assert!(next <= place(first.key), "{:?}", offer.step);
        }
    }

    /// The part in hand is as it was measured, or cut down from that.
    fn check_in_hand(
        &self,
        miscut: &Miscut,
        offer: &Offer,
        then: &Card,
        made: &dyn Fn(StepKey) -> bool,
    ) {
        let part = miscut.about.part();
        let trimmed = offer.way == Way::Trim;
        let (was, is) = (sizes_in(&self.card, part), sizes_in(then, part));
        let measured = |number: usize| miscut.measured[number];
        match miscut.about {
            About::Cut(_) => {
                for (number, is) in is.into_iter().enumerate() {
                    let measured = measured(number).expect("both are measured");
                    assert!(is == measured || trimmed && is < measured);
                }
            }
            About::Scores(of, pass) => {
                assert!(is == was || trimmed && is[0] <= was[0] && is[1] <= was[1]);
                let chart = chart(&self.card, of);
                let pass = &chart.passes[pass];
                let mut found: BTreeMap<_, _> = made_scores(&self.card, of, made);
                for (mark, at) in pass.marks.iter().zip(&miscut.measured) {
                    found.remove(&mark.score);
                    if let Some(at) = at {
                        let at = match pass.at_stop {
                            foldwright_engine::score::AtStop::First => *at,
                            foldwright_engine::score::AtStop::Last => was[0] - *at,
                        };
                        found.insert(mark.score, at);
                    }
                }
                let now = positions(then, of);
                // Cut down on the left, all move by the same.
                let off: Vec<_> = found.iter().map(|(score, at)| *at - now[score]).collect();
                assert!(off.windows(2).all(|two| two[0] == two[1]), "{off:?}");
                assert!(
                    trimmed || off.iter().all(|off| *off == Length::ZERO),
                    "{off:?}"
                );
            }
            About::Line(..) | About::Cutout(..) => {
                assert_eq!(is, was);
                let now = work(&offer.recipe, then, miscut.key).expect("it is there");
                for (planned, measured) in now.planned.iter().zip(&miscut.measured) {
                    assert_eq!(Some(planned.length), *measured);
                }
            }
        }
    }

    /// Every other part that is cut stays as it is, or it is said what becomes
    /// of it.
    fn check_others(
        &self,
        miscut: &Miscut,
        offer: &Offer,
        then: &Card,
        made: &dyn Fn(StepKey) -> bool,
    ) {
        for part in parts(&self.recipe) {
            if part == miscut.about.part() || !made(StepKey::Cut(part)) {
                continue;
            }
            let (was, is) = (sizes_in(&self.card, part), sizes_in(then, part));
            let fate = offer.fates.iter().find(|(other, _)| *other == part);
            match fate.map(|(_, fate)| fate) {
                None => {
                    assert_eq!(was, is, "{part:?}");
                    if let Part::Strip(of) = part {
                        let now = positions(then, of);
                        for (score, at) in made_scores(&self.card, of, made) {
                            assert_eq!(now[&score], at);
                        }
                    }
                }
                Some(Fate::Trimmed(to)) => {
                    assert_eq!(is, [to.width, to.height]);
                    assert!(is[0] <= was[0] && is[1] <= was[1] && is != was);
                }
                Some(Fate::Recut) => {}
            }
        }
    }
}

pub(crate) fn parts(recipe: &Recipe) -> Vec<Part> {
    let strips = recipe.strips().map(|(of, _)| Part::Strip(of));
    strips
        .chain(recipe.layers.iter().map(|layer| Part::Layer(layer.id)))
        .collect()
}

/// The size of a part as it is cut.
pub(crate) fn sizes(recipe: &Recipe, part: Part) -> [Length; 2] {
    sizes_in(&work_out(recipe, &TOOLS), part)
}

/// The size of a part as it is cut, of a card that is worked out.
pub(crate) fn sizes_in(card: &Card, part: Part) -> [Length; 2] {
    let size = match part {
        Part::Strip(of) => card.laid.piece(of).expect("it is there").size,
        Part::Layer(id) => card.laid.layer(id).expect("it is there").at.size(),
    };
    [size.width, size.height]
}

fn chart(card: &Card, of: StripId) -> &foldwright_engine::score::Chart {
    card.chart_of(of).expect("it is there")
}

fn positions(card: &Card, of: StripId) -> BTreeMap<usize, Length> {
    let creases = &card.laid.piece(of).expect("it is there").creases;
    creases
        .iter()
        .map(|crease| crease.from.x)
        .enumerate()
        .collect()
}

fn made_scores(
    card: &Card,
    of: StripId,
    made: &dyn Fn(StepKey) -> bool,
) -> BTreeMap<usize, Length> {
    let positions = positions(card, of);
    let passes = chart(card, of).passes.iter().enumerate();
    let done = passes.filter(|(pass, _)| made(StepKey::Score(of, *pass)));
    done.flat_map(|(_, pass)| &pass.marks)
        .map(|mark| (mark.score, positions[&mark.score]))
        .collect()
}

/// Whether a relation holds exactly.
fn holds(recipe: &Recipe, relation: &Relation) -> bool {
    let side = |terms: &[Term]| {
        let terms = terms.iter();
        let units = |id| i128::from(recipe.value(id).units());
        terms
            .map(|term| i128::from(term.times) * units(term.of))
            .sum::<i128>()
    };
    let left = side(&relation.left);
    let right = side(&relation.right) + i128::from(relation.plus.units());
    match relation.is {
        Is::Equal => left == right,
        Is::AtLeast => left >= right,
        Is::AtMost => left <= right,
    }
}
