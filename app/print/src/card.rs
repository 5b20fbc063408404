//! Recipe cards: all of a card in short on a quarter of a page, four times the same,
//! to be cut apart. What a quarter has no room for is on its back.

use std::collections::BTreeSet;

use foldwright_engine::card::Card;
use foldwright_engine::care::Hazard;
use foldwright_engine::draw::{Colouring, as_it_stands, on_table, state};
use foldwright_engine::faces::View;
use foldwright_engine::problem::Weight;
use foldwright_engine::recipe::Recipe;
use foldwright_engine::steps::steps;
use foldwright_words::{Printed, Speaker, Texts, Told, ToldPass, Tongue, aloud, sentence};

use crate::compose::{Composer, Manner, OF_CARDS, Picture};
use crate::flow::{Item, OnPage, Whole, height, together};
use crate::paper::{MM, Paper};
use crate::sheet::{Sheet, coded, rows, title};
use crate::tags::{PartId, Parts};
use crate::trouble::NotMade;
use crate::write::{About, pdf};

/// The white inside the edges of a card, so that it may be cut a little askew, and no
/// printer is asked to print at the edge of a page. (Own choice.)
const EDGE: f32 = 8.0 * MM;

/// Above what stands at the foot.
const ABOVE_FOOT: f32 = 2.0 * MM;

/// How high the picture is at most.
const PICTURE: f32 = 30.0 * MM;

// More characters than these of one text leave no room for the others. (Own choice.)
const MOST_OF_TITLE: usize = 90;
const MOST_OF_NAME: usize = 48;
const MOST_OF_STEP: usize = 160;
const MOST_OF_NOTE: usize = 400;

/// Makes four recipe cards of a card, as a PDF of one page, or of two that are printed
/// on both sides of a leaf.
///
/// The error is a mistake of ours: what the writer of PDF has found wrong.
pub fn cards(of: &Sheet<'_>) -> Result<Vec<u8>, NotMade> {
    let tongue = of.tongue;
    let printed = tongue.language().printed();
    let [width, tall] = quarter(of.paper);
    let mut making = Making {
        tongue,
        printed,
        width: width - 2.0 * EDGE,
        parts: Parts::default(),
        headings: Vec::new(),
        is_short: false,
    };
    let mut filling = Filling {
        of,
        say: Speaker::of(tongue, of.recipe),
        texts: tongue.texts(),
        printed,
        is_left_out: false,
        met: BTreeSet::from([Hazard::Knife]),
    };
    let body = making.composed(|on| filling.fill(on));
    let more = making.composed(|on| on.paragraph(printed.more_on_sheet, on.manner.small));
    let sides = making.sides(&filling.say, body, more, (tall, filling.is_left_out));
    let mut pages: Vec<_> = sides.iter().map(|side| four_of(side, of.paper)).collect();
    if let Some(front) = pages.first_mut() {
        front.extend(cuts(of.paper));
    }
    let about = About {
        language: tongue.language(),
        paper: of.paper,
        photos: of.photos,
        title: &printed.card_of(title(of.recipe)),
        foot: None,
        headings: making.headings,
    };
    pdf(&pages, making.parts, &about)
}

/// Width and height of a card, in points.
fn quarter(paper: Paper) -> [f32; 2] {
    paper.size().map(|side| side / 2.0)
}

/// A side of a card in each quarter of a page. One is read; the others are there to be
/// cut apart.
fn four_of(side: &[Item], paper: Paper) -> OnPage {
    let [width, tall] = quarter(paper);
    let quarters = [[0.0, 0.0], [width, 0.0], [0.0, tall], [width, tall]];
    let items = quarters.into_iter().enumerate().flat_map(|(number, at)| {
        side.iter().map(move |item| {
            let item = item.clone().moved(at);
            match number {
                0 => item,
                _ => Item::Again(Box::new(item)),
            }
        })
    });
    items.collect()
}

/// Where the cards are cut apart, from edge to edge.
fn cuts(paper: Paper) -> [Item; 2] {
    let ([wide, high], [width, tall]) = (paper.size(), quarter(paper));
    [
        Item::Cut {
            from: [width, 0.0],
            to: [width, high],
        },
        Item::Cut {
            from: [0.0, tall],
            to: [wide, tall],
        },
    ]
}

/// What has no room where the rest begins.
type Rest = std::vec::IntoIter<Vec<Whole>>;

/// Puts groups below each other as far as there is room; what comes of them, how far
/// down it reaches, and those that have none.
fn filled(mut groups: Rest, room: f32) -> (Vec<Item>, f32, Rest) {
    let (mut items, mut down) = (Vec::new(), 0.0_f32);
    while let Some(group) = groups.as_slice().first() {
        let is_head = items.is_empty();
        if down + height(group, is_head) > room {
            break;
        }
        let group = groups.next().unwrap_or_default();
        down = put(group, down, is_head, &mut items);
    }
    (items, down, groups)
}

/// Puts a group at a height; how far down it reaches.
fn put(group: Vec<Whole>, mut down: f32, is_head: bool, items: &mut Vec<Item>) -> f32 {
    for (number, piece) in group.into_iter().enumerate() {
        if number > 0 || !is_head {
            down += piece.above;
        }
        let moved = piece.items.into_iter();
        items.extend(moved.map(|item| item.moved([EDGE, EDGE + down])));
        down += piece.height;
    }
    down
}

/// What the cards are made of.
struct Making {
    tongue: &'static dyn Tongue,
    printed: &'static Printed,
    /// How wide texts are.
    width: f32,
    parts: Parts,
    headings: Vec<(PartId, String)>,
    is_short: bool,
}

impl Making {
    fn composed(&mut self, fill: impl FnOnce(&mut Composer<'_>)) -> Vec<Whole> {
        let (parts, headings) = (&mut self.parts, &mut self.headings);
        let on = Composer::new(self.tongue, self.width, parts, headings);
        let mut on = on.in_manner(OF_CARDS);
        fill(&mut on);
        self.is_short |= on.is_short;
        on.pieces
    }

    /// The front of a card as high as that, and its back where it needs one. Where
    /// something is left out, the last of them says so.
    fn sides(
        &mut self,
        say: &Speaker<'_>,
        body: Vec<Whole>,
        more: Vec<Whole>,
        (tall, is_left_out): (f32, bool),
    ) -> Vec<Vec<Item>> {
        let room = tall - 2.0 * EDGE;
        let mut groups = together(body, room / 2.0);
        if is_left_out {
            groups.push(more.clone());
        }
        for has_back in [false, true] {
            let foot = self.foot(say, has_back);
            let above = room - height(&foot, true);
            let (mut front, _, rest) = filled(groups.clone().into_iter(), above - ABOVE_FOOT);
            let is_whole = rest.as_slice().is_empty();
            if !is_whole && !has_back {
                continue;
            }
            put(foot, above, true, &mut front);
            if is_whole {
                return vec![front];
            }
            let (back, _, left) = filled(rest.clone(), room);
            if left.as_slice().is_empty() {
                return vec![front, back];
            }
            let last = height(&more, false);
            let (mut back, down, _) = filled(rest, room - last);
            put(more, down, false, &mut back);
            return vec![front, back];
        }
        Vec::new()
    }

    /// How the cards are cut apart, with due care, and printed where they have a back.
    fn foot(&mut self, say: &Speaker<'_>, has_back: bool) -> Vec<Whole> {
        let printed = self.printed;
        let is_short = self.is_short;
        self.composed(|on| {
            let Manner { small, .. } = on.manner;
            if has_back {
                on.paragraph(printed.print_both_sides, small);
            }
            on.paragraph(printed.cut_apart, small);
            for (title, words) in say.cautions(&[Hazard::Knife], &mut BTreeSet::new()) {
                let words = words.unwrap_or_default();
                on.paragraph(&format!("{title}: {words}"), small);
            }
            if is_short {
                on.paragraph(printed.letters_missing, small);
            }
        })
    }
}

struct Filling<'a> {
    of: &'a Sheet<'a>,
    say: Speaker<'a>,
    texts: &'static Texts,
    printed: &'static Printed,
    /// Whether a text was longer than a card has room for.
    is_left_out: bool,
    /// What is warned of already.
    met: BTreeSet<Hazard>,
}

impl Filling<'_> {
    /// As much of a text as so many characters.
    fn brief(&mut self, text: &str, most: usize) -> String {
        let Some((end, _)) = text.char_indices().nth(most) else {
            return text.to_owned();
        };
        self.is_left_out = true;
        format!("{}…", text.get(..end).unwrap_or_default().trim_end())
    }

    fn fill(&mut self, on: &mut Composer<'_>) {
        let Sheet { recipe, card, .. } = *self.of;
        let shared = &self.texts.shared;
        let Manner { text, small, .. } = on.manner;
        let name = self.brief(title(recipe), MOST_OF_TITLE);
        on.title(&name);
        if !self.of.from.is_empty() {
            on.paragraph(&shared.shared_by(self.of.from), small);
        }
        on.keep();
        self.at_a_glance(on, recipe, card);
        for problem in card.problems.iter().filter(|it| it.weight == Weight::Stop) {
            let Told { what, remedy, .. } = self.say.problem(problem);
            on.callout(&what, &remedy);
        }
        on.section(shared.what_to_cut);
        let cut = self.say.cut_rows(recipe, card).into_iter();
        let cut = cut.map(|row| row.map(|cell| self.brief(&cell, MOST_OF_NAME)));
        let cut: Vec<_> = cut.collect();
        let heads = [shared.piece, shared.width_height, shared.from_paper];
        on.table(&heads, &rows(cut));
        for [name, size, weight] in self.say.paper_rows(recipe, card) {
            let name = self.brief(&name, MOST_OF_NAME);
            on.led(&format!("{name}:"), &format!("{size}, {weight}"));
        }
        for [name, each, _] in self.say.supply_rows(recipe, card, 1) {
            let name = self.brief(&name, MOST_OF_NAME);
            on.led(&format!("{name}:"), &each);
        }
        self.scores(on, recipe, card);
        on.section(shared.step_by_step);
        for (number, step) in steps(recipe, card).iter().enumerate() {
            for (title, words) in self.say.cautions(&step.care, &mut self.met) {
                if let Some(words) = words {
                    on.callout(&format!("{title}:"), &words);
                    on.keep();
                }
            }
            let told = self.say.step(step);
            let words = self.brief(&format!("{}: {}", told.kind, told.title), MOST_OF_STEP);
            on.led(&(number + 1).to_string(), &words);
        }
        if !recipe.about.is_empty() {
            let about = self.brief(&recipe.about, MOST_OF_NOTE);
            on.section(shared.note.trim_end_matches(':'));
            on.paragraph(&about, text);
        }
        if let Some(code) = coded(self.of.link, self.printed) {
            on.code(code);
        }
    }

    /// The finished card, and its sizes.
    fn at_a_glance(&self, on: &mut Composer<'_>, recipe: &Recipe, card: &Card) {
        let facts = card.facts();
        let whole = self.say.whole(&facts);
        let mut pictures = Vec::new();
        if let Some(look) = as_it_stands(recipe, card) {
            let caption = self.say.stands(look.stands);
            let seen = (look.direction, Colouring::Paper);
            pictures.push(Picture {
                drawing: on_table(recipe, card, &look.posed, seen),
                shows: aloud(self.of.tongue, &format!("{whole} {caption}")),
                caption,
            });
        } else if card.folded.is_some() {
            let caption = self.texts.shared.closed_from_front;
            pictures.push(Picture {
                drawing: state(recipe, card, 0, View::Front),
                shows: aloud(self.of.tongue, &format!("{whole} {caption}.")),
                caption: caption.to_owned(),
            });
        }
        let figures = self.say.figures(&facts);
        let mut texts = vec![on.said(&format!("{whole} {figures}."), on.manner.text)];
        if !recipe.posting.is_envelope
            && let Some([name, size, room]) = self.say.envelope_rows(recipe, card).first()
        {
            let label = self.texts.shared.envelope;
            texts.push(on.leading(&format!("{label}:"), &format!("{name}, {size}: {room}")));
        }
        on.shown(pictures, texts, PICTURE);
    }

    /// Where each piece is scored, from the fence.
    fn scores(&self, on: &mut Composer<'_>, recipe: &Recipe, card: &Card) {
        let charts = card.charts().filter(|(_, chart)| !chart.passes.is_empty());
        for (number, (of, chart)) in charts.enumerate() {
            if number == 0 {
                on.section(self.texts.shared.scores);
            }
            for pass in self.say.passes(recipe, card, of, chart) {
                let ToldPass {
                    between,
                    lies,
                    marks,
                } = pass;
                match between {
                    Some(between) => on.led(&between, &lies),
                    None => on.paragraph(&lies, on.manner.text),
                }
                on.keep();
                // Those of one kind after each other are told together.
                let alike = marks.chunk_by(|[_, fold], [_, next]| fold == next);
                let alike = alike.map(|marks| {
                    let at: Vec<_> = marks.iter().map(|[at, _]| at.as_str()).collect();
                    let fold = marks.first().map_or("", |[_, fold]| fold.as_str());
                    [sentence(fold.to_owned()), at.join(", ")]
                });
                let alike: Vec<_> = alike.collect();
                let marks = on.numbers(&alike);
                on.text(&marks);
            }
        }
    }
}
