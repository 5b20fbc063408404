//! Recipes at the table, and what a rescue promises, checked from scratch.

use std::collections::BTreeMap;

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::recipe::{Is, PieceId, Recipe, Relation, Term, starters};
use foldwright_engine::rescue::{
    About, Done, Fate, Miscut, Offer, Part, Plan, Rescue, Way, offer_notes, offer_title,
    paper_words, rescue, work,
};
use foldwright_engine::steps::{self, Kind, Trims, steps, steps_with};

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
    pub(crate) at: String,
}

impl Table {
    pub(crate) fn at(recipe: Recipe, key: &str) -> Self {
        let card = work_out(&recipe, &Tools::default());
        let steps = steps(&recipe, &card);
        assert!(steps.iter().any(|step| step.key == key), "{key}");
        let before = steps.iter().take_while(|step| step.key != key);
        let done = before.map(|step| (step.key.clone(), step.times)).collect();
        Self {
            at: key.to_owned(),
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
            at: &self.at,
        }
    }

    pub(crate) fn miscut(&self, key: &str, measured: &[Option<Length>], cards: u32) -> Miscut {
        let work = work(&self.recipe, &self.card, key).expect("a step of cutting or scoring");
        assert_eq!(work.planned.len(), measured.len());
        Miscut {
            key: key.to_owned(),
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
        let what = offer_title(&plan, miscut, offer);
        assert!(!what.is_empty());
        assert!(!paper_words(&offer.recipe, offer).is_empty(), "{what}");
        let notes = offer_notes(&plan, miscut, offer);
        assert!(notes.iter().all(|note| note.ends_with('.')), "{notes:?}");
        let then = work_out(&offer.recipe, &TOOLS);
        let new = steps_with(&offer.recipe, &then, &offer.trims);
        let known = |key: &str| new.iter().any(|step| step.key == key);
        assert!(offer.step == "finish" || known(&offer.step), "{what}");

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
                "{what}: {}",
                relation.words(&offer.recipe)
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
        let made = |key: &str| self.done.get(key).is_some_and(|done| *done > others);
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
            let about = work(&offer.recipe, &then, &step.key).map(|work| work.about.part());
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
            let trim = offer.trims[&part.cut_key()];
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
            let key = part.trim_key();
            let step = new.iter().find(|step| step.key == key).expect("its step");
            assert!(step.title.starts_with("Trim "), "{}", step.title);
            assert!(step.does.len() > 1, "{:?}", step.does);
            assert_eq!(offer.done.get(&key).copied().unwrap_or(0), 0);
            assert!(offer.done[&part.cut_key()] >= step.times.min(1));
            assert!(offer.paper.iter().all(|paper| paper.part != part));
            keys.push(key);
        }
        let first = new.iter().find(|step| keys.contains(&step.key));
        if let Some(first) = first {
            let place = |key: &str| new.iter().position(|step| step.key == key);
            assert!(place(&offer.step) <= place(&first.key), "{}", offer.step);
        }
    }

    /// The part in hand is as it was measured, or cut down from that.
    fn check_in_hand(
        &self,
        miscut: &Miscut,
        offer: &Offer,
        then: &Card,
        made: &dyn Fn(&str) -> bool,
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
                let now = work(&offer.recipe, then, &miscut.key).expect("it is there");
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
        made: &dyn Fn(&str) -> bool,
    ) {
        for part in parts(&self.recipe) {
            if part == miscut.about.part() || !made(&cut_key(part)) {
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

pub(crate) fn cut_key(part: Part) -> String {
    match part {
        Part::Strip(None) => "cut-strip".to_owned(),
        Part::Strip(Some(id)) => format!("cut-piece-{}", id.0),
        Part::Layer(id) => format!("cut-layer-{}", id.0),
    }
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

fn chart(card: &Card, of: Option<PieceId>) -> &foldwright_engine::score::Chart {
    match of {
        None => &card.chart,
        Some(id) => {
            let work = card.pieces.iter().find(|work| work.of == id);
            &work.expect("it is there").chart
        }
    }
}

fn positions(card: &Card, of: Option<PieceId>) -> BTreeMap<usize, Length> {
    let creases = &card.laid.piece(of).expect("it is there").creases;
    creases
        .iter()
        .map(|crease| crease.from.x)
        .enumerate()
        .collect()
}

fn made_scores(
    card: &Card,
    of: Option<PieceId>,
    made: &dyn Fn(&str) -> bool,
) -> BTreeMap<usize, Length> {
    let positions = positions(card, of);
    let passes = chart(card, of).passes.iter().enumerate();
    let done = passes.filter(|(pass, _)| {
        made(&match of {
            None => format!("score-{pass}"),
            Some(id) => format!("score-piece-{}-{pass}", id.0),
        })
    });
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
