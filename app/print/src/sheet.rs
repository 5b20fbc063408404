//! The sheet for a class: all of a card on one or two pages.

use std::collections::BTreeSet;

use foldwright_engine::card::Card;
use foldwright_engine::care::Hazard;
use foldwright_engine::draw::{Colouring, Drawing, as_it_stands, flat, on_table, state};
use foldwright_engine::faces::View;
use foldwright_engine::problem::Weight;
use foldwright_engine::recipe::{Recipe, Side, StripId};
use foldwright_engine::refit::between_marks;
use foldwright_engine::score::Chart;
use foldwright_engine::seen::{flat_seen, state_seen};
use foldwright_engine::steps::{Instruction, Step, steps};
use foldwright_words::{Printed, Speaker, Texts, Told, ToldPass, Tongue, aloud, sentence};

use crate::code::Code;
use crate::compose::{Coded, Composer, Picture, SMALL, TEXT};
use crate::flow::{Pages, column};
use crate::paper::{MM, Paper};
use crate::photo::Photos;
use crate::tags::{PartId, Parts};
use crate::trouble::NotMade;
use crate::write::{About, pdf};

/// How many columns there are below the card itself.
const COLUMNS: u8 = 2;

/// How high drawings are at most, in points: of the card, of a flat piece, of a
/// step.
const CARD: f32 = 54.0 * MM;
const FLAT: f32 = 52.0 * MM;
const STEP: f32 = 30.0 * MM;

/// What a sheet is made of.
#[derive(Clone, Copy)]
pub struct Sheet<'a> {
    /// The recipe.
    pub recipe: &'a Recipe,
    /// The same worked out.
    pub card: &'a Card,
    /// Who shares it; empty where that is not known.
    pub from: &'a str,
    /// Where its live page is; empty where it has none.
    pub link: &'a str,
    /// The language in which it speaks.
    pub tongue: &'static dyn Tongue,
    /// On what it is printed.
    pub paper: Paper,
    /// The photographs of its papers that are at hand.
    pub photos: &'a Photos,
}

/// Makes a sheet, as a PDF.
///
/// The error is a mistake of ours: what the writer of PDF has found wrong.
pub fn sheet(of: &Sheet<'_>) -> Result<Vec<u8>, NotMade> {
    let mut parts = Parts::default();
    let mut headings: Vec<(PartId, String)> = Vec::new();
    let mut pages = Pages::new(of.paper);
    let tongue = of.tongue;
    let filling = Filling::of(of.tongue, of.recipe, of.card);
    let mut top = Composer::new(tongue, column(of.paper, 1), &mut parts, &mut headings);
    filling.top(&mut top, of.from, of.link);
    let (pieces, mut is_short) = (top.pieces, top.is_short);
    pages.put(pieces, 1);
    let width = column(of.paper, COLUMNS);
    let mut below = Composer::new(tongue, width, &mut parts, &mut headings);
    filling.below(&mut below);
    is_short |= below.is_short;
    if is_short {
        below.paragraph(filling.printed.letters_missing, SMALL);
    }
    pages.put(below.pieces, COLUMNS);
    let about = About {
        language: tongue.language(),
        paper: of.paper,
        photos: of.photos,
        title: title(of.recipe),
        foot: Some(SMALL),
        headings,
    };
    pdf(&pages.in_order, parts, &about)
}

/// What the sheet is called; a file needs a title.
pub(crate) fn title(recipe: &Recipe) -> &str {
    let name = recipe.name.trim();
    if name.is_empty() { "Foldwright" } else { name }
}

/// Says on sheets what is so of a card.
pub(crate) struct Filling<'a> {
    pub(crate) recipe: &'a Recipe,
    pub(crate) card: &'a Card,
    pub(crate) say: Speaker<'a>,
    pub(crate) texts: &'static Texts,
    pub(crate) printed: &'static Printed,
    tongue: &'static dyn Tongue,
}

impl<'a> Filling<'a> {
    pub(crate) fn of(tongue: &'static dyn Tongue, recipe: &'a Recipe, card: &'a Card) -> Self {
        Self {
            recipe,
            card,
            say: Speaker::of(tongue, recipe),
            texts: tongue.texts(),
            printed: tongue.language().printed(),
            tongue,
        }
    }
}

impl Filling<'_> {
    /// What a drawing shows, as it is heard.
    fn heard(&self, words: &str) -> String {
        aloud(self.tongue, words)
    }

    /// The card itself, across the page.
    fn top(&self, on: &mut Composer<'_>, from: &str, link: &str) {
        let shared = &self.texts.shared;
        on.title(title(self.recipe));
        if !from.is_empty() {
            on.paragraph(&shared.shared_by(from), SMALL);
        }
        on.keep();
        let facts = self.card.facts();
        let mut pictures = Vec::new();
        if let Some(look) = as_it_stands(self.recipe, self.card) {
            let seen = (look.direction, Colouring::Paper);
            let caption = self.say.stands(look.stands);
            pictures.push(Picture {
                drawing: on_table(self.recipe, self.card, &look.posed, seen),
                shows: self.heard(&format!("{} {caption}", self.say.whole(&facts))),
                caption,
            });
        }
        if self.card.folded.is_some() {
            let seen = state_seen(self.card, 0, View::Front);
            let seen = seen.map_or_else(String::new, |seen| self.say.state(&seen));
            pictures.push(Picture {
                drawing: state(self.recipe, self.card, 0, View::Front),
                caption: shared.closed_from_front.to_owned(),
                shows: self.heard(&format!("{}. {seen}", shared.closed_from_front)),
            });
        }
        match coded(link, self.printed) {
            Some(code) => on.pictures_and_code(pictures, code, CARD),
            None => on.pictures(pictures, 2, CARD),
        }
        let many = (self.recipe.copies > 1).then(|| shared.for_cards(self.recipe.copies));
        let many = many.map_or_else(String::new, |many| format!(" {many}"));
        let figures = self.say.figures(&facts);
        on.paragraph(
            &format!("{} {figures}.{many}", self.say.whole(&facts)),
            TEXT,
        );
        if !self.recipe.about.is_empty() {
            on.paragraph(&self.recipe.about, TEXT);
        }
    }

    /// What it takes to make the card, in columns.
    fn below(&self, on: &mut Composer<'_>) {
        let shared = &self.texts.shared;
        self.problems(on);
        on.section(shared.paper);
        on.table(
            &[shared.paper, shared.sheet_size, shared.weight],
            &rows(self.say.paper_rows(self.recipe, self.card)),
        );
        on.section(shared.what_to_cut);
        on.table(
            &[shared.piece, shared.width_height, shared.from_paper],
            &rows(self.say.cut_rows(self.recipe, self.card)),
        );
        self.supplies(on);
        if !between_marks(self.recipe).is_empty() {
            on.paragraph(self.texts.parts.ticks, SMALL);
        }
        // An envelope goes into none.
        if !self.recipe.posting.is_envelope {
            self.envelopes(on);
        }
        self.scores(on);
        on.section(shared.step_by_step);
        self.steps(on, &steps(self.recipe, self.card), &mut BTreeSet::new());
    }

    /// What is wrong with the card.
    pub(crate) fn problems(&self, on: &mut Composer<'_>) {
        let problems = self.card.problems.iter();
        for problem in problems.filter(|problem| problem.weight != Weight::Note) {
            let Told { what, why, remedy } = self.say.problem(problem);
            on.callout(&what, &format!("{why} {remedy}"));
        }
    }

    /// Steps one after the other, with what to be careful with that was not met before.
    pub(crate) fn steps(&self, on: &mut Composer<'_>, steps: &[Step], met: &mut BTreeSet<Hazard>) {
        for (number, step) in steps.iter().enumerate() {
            let cautions = self.say.cautions(&step.care, met);
            self.step(on, number + 1, step, cautions);
        }
    }

    /// What it takes that is not paper.
    fn supplies(&self, on: &mut Composer<'_>) {
        let texts = self.tongue.language().kits();
        let copies = self.recipe.copies;
        let supplies = self.say.supply_rows(self.recipe, self.card, copies);
        if supplies.is_empty() {
            return;
        }
        on.section(texts.besides_paper);
        let heads = [texts.what, texts.a_card_takes, texts.in_all];
        if copies == 1 {
            let each = supplies.into_iter().map(|[name, each, _]| [name, each]);
            on.table(&heads[..2], &rows(each.collect()));
        } else {
            on.table(&heads, &rows(supplies));
        }
    }

    /// The envelopes that take the card.
    fn envelopes(&self, on: &mut Composer<'_>) {
        let shared = &self.texts.shared;
        on.section(shared.envelope);
        let envelopes = self.say.envelope_rows(self.recipe, self.card);
        if envelopes.is_empty() {
            on.paragraph(shared.no_envelope, TEXT);
        }
        for [name, size, room] in envelopes {
            on.led(&format!("{name},"), &format!("{size}: {room}"));
        }
    }

    /// Each piece flat with its numbers, and the score chart of each that is
    /// scored.
    fn scores(&self, on: &mut Composer<'_>) {
        on.section(self.texts.shared.scores);
        for piece in self.card.laid.all_pieces() {
            on.pictures(vec![self.flat(piece.of)], 1, FLAT);
            let chart = self.card.chart_of(piece.of);
            if let Some(chart) = chart.filter(|chart| !chart.passes.is_empty()) {
                on.keep();
                self.chart(on, piece.of, chart);
            }
        }
    }

    fn flat(&self, of: StripId) -> Picture {
        let seen = flat_seen(self.recipe, self.card, of, Side::A);
        let seen = seen.map_or_else(String::new, |seen| self.say.flat(&seen));
        let caption = sentence(self.say.lies(of, Side::A));
        Picture {
            drawing: flat(self.recipe, self.card, of, Side::A),
            shows: self.heard(&format!("{caption}. {seen}")),
            caption,
        }
    }

    fn chart(&self, on: &mut Composer<'_>, of: StripId, chart: &Chart) {
        let parts = &self.texts.parts;
        let passes = self.say.passes(self.recipe, self.card, of, chart);
        for pass in passes {
            let ToldPass {
                between,
                lies,
                marks,
            } = pass;
            match between {
                Some(between) => on.led(&between, &lies),
                None => on.paragraph(&lies, TEXT),
            }
            on.keep();
            on.table(&[parts.from_the_fence, parts.fold_as_it_lies], &rows(marks));
        }
    }

    fn step(
        &self,
        on: &mut Composer<'_>,
        number: usize,
        step: &Step,
        cautions: Vec<(&'static str, Option<String>)>,
    ) {
        let shared = &self.texts.shared;
        let told = self.say.step(step);
        on.step(number, &format!("{}: {}", told.kind, told.title));
        self::cautions(on, cautions);
        let drawings = step.pictures.iter();
        let drawings = drawings.map(|picture| picture.drawing(self.recipe, self.card));
        let pictures = told.captions.iter().zip(drawings);
        let pictures = pictures.map(|(caption, drawing): (&String, Drawing)| Picture {
            drawing,
            caption: caption.clone(),
            shows: self.heard(caption),
        });
        let pictures = pictures.collect();
        let mut texts = Vec::new();
        let figures = told.figures.iter();
        let figures = figures.map(|figure| [figure.label.clone(), figure.whole()]);
        let figures: Vec<_> = figures.collect();
        if !figures.is_empty() {
            texts.push(on.numbers(&figures));
        }
        // What is done with what was laid at the fence stands by itself.
        let mut paragraphs = Vec::<String>::new();
        for (does, words) in step.does.iter().zip(&told.does) {
            match paragraphs.last_mut() {
                Some(last) if !matches!(does, Instruction::Take { .. }) => {
                    *last = format!("{last} {words}");
                }
                _ => paragraphs.push(words.clone()),
            }
        }
        texts.extend(paragraphs.iter().map(|words| on.said(words, TEXT)));
        if !told.tools.is_empty() {
            let tools = told.tools.join(", ");
            texts.push(on.said(&format!("{} {tools}", self.texts.bench.have_ready), SMALL));
        }
        if let Some(note) = self.recipe.notes.get(&step.key.to_string()) {
            texts.push(on.leading(shared.note, note));
        }
        on.shown(pictures, texts, STEP);
    }
}

/// What to be careful with, beside what follows.
pub(crate) fn cautions(on: &mut Composer<'_>, all: Vec<(&'static str, Option<String>)>) {
    for (title, words) in all {
        match words {
            Some(words) => on.callout(&format!("{title}:"), &words),
            None => on.callout(title, ""),
        }
        on.keep();
    }
}

/// The code that leads to a live page, and its address in words; `None` without one.
pub(crate) fn coded(link: &str, printed: &Printed) -> Option<Coded> {
    let code = Code::of(link).filter(|_| !link.is_empty())?;
    Some(Coded {
        code,
        caption: printed.live_at(link),
        shows: printed.code_for_camera.to_owned(),
    })
}

/// The rows of a table.
pub(crate) fn rows<const CELLS: usize>(rows: Vec<[String; CELLS]>) -> Vec<Vec<String>> {
    rows.into_iter().map(Vec::from).collect()
}
