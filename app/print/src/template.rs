//! The parts of a card true to scale, to cut, score and glue by.

use std::collections::BTreeSet;
use std::sync::Arc;

use foldwright_engine::care::Hazard;
use foldwright_engine::draw::Drawing;
use foldwright_engine::part::Part;
use foldwright_engine::plane::Turn;
use foldwright_engine::problem::Weight;
use foldwright_engine::recipe::{Side, Stacked};
use foldwright_engine::template::{Template, templates};
use foldwright_words::{Speaker, Taken, Told, Tongue, aloud, sentence};

use crate::compose::{Composer, SMALL, TEXT};
use crate::flow::{FOOT, Item, MARGIN, OnPage, Whole, height, put_below};
use crate::leaf::{leaf, legend, map, ruler, ruler_length, whole};
use crate::paper::{MM, points};
use crate::sheet::{Sheet, title};
use crate::tags::{PartId, Parts, Role};
use crate::tiles::Tiles;
use crate::trouble::NotMade;
use crate::write::{About, pdf};

/// What is true to scale comes nearer to the edge of the page than texts do.
/// (Common practice: no printer needs more than 6.4 mm.)
const EDGE: f32 = 8.0 * MM;

/// Where pages begin, nearer to their head than a text of many pages does, so that
/// what is half as large as the page has room on it.
const TOP: f32 = 10.0 * MM;

/// Room for the ruler and for how lines look, above the foot of each page.
const BAND: f32 = 13.5 * MM;

/// Between two parts, and between a part and what is said of it.
const GAP: f32 = 6.0 * MM;
const BELOW_WORDS: f32 = 1.5 * MM;

/// What is said of a part is as wide as the part, but no narrower than this.
const NARROWEST: f32 = 58.0 * MM;

/// What is said of a part in more room than this goes on from page to page.
const MOST_WORDS: f32 = 60.0 * MM;

/// The map that tells where a page of a part lies, at most.
const MAP: [f32; 2] = [40.0 * MM, 28.0 * MM];

/// Makes the templates of a card, as a PDF: every part true to scale, seen from its
/// side A or mirrored, from behind.
///
/// The error is a mistake of ours: what the writer of PDF has found wrong.
pub fn template(of: &Sheet<'_>, seen: Side) -> Result<Vec<u8>, NotMade> {
    let language = of.tongue.language();
    let texts = language.taken();
    let name = match seen {
        Side::A => texts.templates_of(title(of.recipe)),
        Side::B => texts.mirrored_templates_of(title(of.recipe)),
    };
    let tongue = of.tongue;
    let mut leaves = Leaves {
        of,
        say: Speaker::of(tongue, of.recipe),
        tongue,
        texts,
        parts: Parts::default(),
        headings: Vec::new(),
        is_short: false,
        done: Vec::new(),
        page: OnPage::new(),
        row: Row::at(TOP),
    };
    leaves.flow(|leaves, on| leaves.begin(on, &name, seen));
    // What has room on a page fills the first ones.
    let all = templates(of.recipe, of.card, seen);
    let (on_a_page, larger): (Vec<_>, Vec<_>) = all
        .into_iter()
        .map(|it| leaves.lying(it))
        .partition(|lying| lying.fits);
    leaves.on_as_few_pages(on_a_page);
    for lying in &larger {
        leaves.on_pages(&lying.template);
    }
    if leaves.is_short {
        let missing = language.printed().letters_missing;
        leaves.flow(|_, on| on.paragraph(missing, SMALL));
    }
    leaves.end_page();
    let about = About {
        language,
        paper: of.paper,
        photos: of.photos,
        title: &name,
        foot: Some(SMALL),
        headings: leaves.headings,
    };
    pdf(&leaves.done, leaves.parts, &about)
}

/// Parts beside each other.
#[derive(Debug, Clone, Copy)]
struct Row {
    top: f32,
    /// Where the next one begins.
    left: f32,
    /// How far down the lowest reaches.
    bottom: f32,
}

impl Row {
    const fn at(top: f32) -> Self {
        Self {
            top,
            left: MARGIN,
            bottom: top,
        }
    }

    /// The same for something so wide, which begins nearer to the edge where it has
    /// to.
    fn wide_enough(self, width: f32, right: f32) -> Self {
        let left = if self.left + width > right {
            EDGE
        } else {
            self.left
        };
        Self { left, ..self }
    }
}

/// How a part lies on a page.
struct Lying {
    template: Template,
    is_turned: bool,
    fits: bool,
}

/// Pages as they fill.
struct Leaves<'a> {
    of: &'a Sheet<'a>,
    say: Speaker<'a>,
    tongue: &'static dyn Tongue,
    texts: &'static Taken,
    parts: Parts,
    headings: Vec<(PartId, String)>,
    is_short: bool,
    done: Vec<OnPage>,
    page: OnPage,
    row: Row,
}

impl Leaves<'_> {
    fn right(&self) -> f32 {
        self.of.paper.size()[0] - EDGE
    }

    /// How far down a page may be filled.
    fn bottom(&self) -> f32 {
        self.of.paper.size()[1] - MARGIN - FOOT - BAND
    }

    /// Texts put together in a column of a width.
    fn composed(&mut self, width: f32, fill: impl Fn(&Self, &mut Composer<'_>)) -> Vec<Whole> {
        let mut parts = std::mem::take(&mut self.parts);
        let mut headings = std::mem::take(&mut self.headings);
        let mut on = Composer::new(self.tongue, width, &mut parts, &mut headings);
        fill(self, &mut on);
        let (pieces, is_short) = (on.pieces, on.is_short);
        (self.parts, self.headings) = (parts, headings);
        self.is_short |= is_short;
        pieces
    }

    /// How high texts are in a column of a width.
    fn measured(&self, width: f32, fill: impl Fn(&Self, &mut Composer<'_>)) -> f32 {
        let (mut parts, mut headings) = (Parts::default(), Vec::new());
        let mut on = Composer::new(self.tongue, width, &mut parts, &mut headings);
        fill(self, &mut on);
        height(&on.pieces, true)
    }

    /// Texts across the page below all that is there, which go on from page to page.
    fn flow(&mut self, fill: impl Fn(&Self, &mut Composer<'_>)) {
        let width = self.of.paper.size()[0] - 2.0 * MARGIN;
        let mut top = self.row.bottom;
        if !self.page.is_empty() {
            top += GAP;
        }
        for (number, piece) in self.composed(width, fill).into_iter().enumerate() {
            let above = if number == 0 { 0.0 } else { piece.above };
            if top + above + piece.height > self.bottom() {
                // What names the ruler of this page is read after what follows here,
                // since that is one text.
                self.end_page();
                top = TOP;
            } else {
                top += above;
            }
            top = put_below(&mut self.page, vec![piece], [MARGIN, top]);
        }
        self.row = Row::at(top + GAP);
    }

    fn begin(&self, on: &mut Composer<'_>, name: &str, seen: Side) {
        let texts = self.texts;
        on.title(name);
        if !self.of.from.is_empty() {
            let shared = &self.tongue.texts().shared;
            on.paragraph(&shared.shared_by(self.of.from), SMALL);
        }
        on.led(texts.at_full_size, texts.measure_first);
        let side = match seen {
            Side::A => texts.seen_from_front,
            Side::B => texts.seen_from_back,
        };
        on.paragraph(side, TEXT);
        on.paragraph(texts.how_lines_look, TEXT);
        let problems = self.of.card.problems.iter();
        for problem in problems.filter(|problem| problem.weight == Weight::Stop) {
            let Told { what, why, remedy } = self.say.problem(problem);
            on.callout(&what, &format!("{why} {remedy}"));
        }
        let cautions = self.say.cautions(&[Hazard::Knife], &mut BTreeSet::new());
        for (title, words) in cautions {
            on.callout(&format!("{title}:"), &words.unwrap_or_default());
        }
        on.callout(&format!("{}:", texts.bone_folder), texts.bone_folder_care);
    }

    fn name(&self, of: Part) -> String {
        sentence(match of {
            Part::Strip(of) => self.say.strip(of),
            Part::Layer(layer) => self.say.stacked(Stacked::Layer { layer }),
        })
    }

    /// What is said of a part: its name, its size, how many, and how it lies.
    fn caption(&self, on: &mut Composer<'_>, template: &Template, is_turned: bool) {
        let texts = self.texts;
        on.section(&self.name(template.part));
        let size = if is_turned {
            template.size.turned()
        } else {
            template.size
        };
        let size = self.say.short_size(size);
        let count = i64::from(template.per_card) * i64::from(self.of.recipe.copies);
        let mut words = vec![texts.pieces(count)];
        if let Some(stock) = self.of.recipe.stock(template.stock) {
            words.push(texts.paper_of(&stock.name));
        }
        words.extend(self.directions(template).map(str::to_owned));
        for glue in &template.glue {
            let here = if glue.is_seen {
                texts.glue_here
            } else {
                texts.glue_behind
            };
            if !words.iter().any(|said| said == here) {
                words.push(here.to_owned());
            }
        }
        if is_turned {
            words.push(texts.turned_to_fit.to_owned());
        }
        on.led(&size, &words.join(" "));
    }

    /// How the print and the grain run.
    fn directions(&self, template: &Template) -> impl Iterator<Item = &'static str> + use<> {
        let texts = self.texts;
        let head = template.head.map(|head| match head {
            (Turn::None | Turn::Half, true) => texts.print_upright_both_ways,
            (Turn::Left | Turn::Right, true) => texts.print_sideways_both_ways,
            (Turn::None, false) => texts.print_head_up,
            (Turn::Left, false) => texts.print_head_left,
            (Turn::Half, false) => texts.print_head_down,
            (Turn::Right, false) => texts.print_head_right,
        });
        let grain = template.grain_upright.map(|is_upright| {
            if is_upright {
                texts.grain_up
            } else {
                texts.grain_across
            }
        });
        head.into_iter().chain(grain)
    }

    /// A part as it has room on a page, turned where it has none as it is.
    fn lying(&self, template: Template) -> Lying {
        let turned = template.turned();
        for (template, is_turned) in [(&template, false), (&turned, true)] {
            if self.fits(template, is_turned) {
                return Lying {
                    template: template.clone(),
                    is_turned,
                    fits: true,
                };
            }
        }
        Lying {
            template,
            is_turned: false,
            fits: false,
        }
    }

    /// How wide a part is with what is said of it, and how high these words and the
    /// part are.
    fn block(&self, template: &Template, is_turned: bool) -> [f32; 3] {
        let [wide, high] = size_of(template);
        let width = wide.max(NARROWEST);
        let words = self.measured(width, |leaves, on| {
            leaves.caption(on, template, is_turned);
        });
        [width, words, high]
    }

    fn fits(&self, template: &Template, is_turned: bool) -> bool {
        let [width, words, high] = self.block(template, is_turned);
        let words = if words > MOST_WORDS { 0.0 } else { words };
        width <= self.right() - EDGE && words + BELOW_WORDS + high <= self.bottom() - TOP
    }

    /// Parts that each have room on a page: after one the first that has room beside
    /// or below it.
    fn on_as_few_pages(&mut self, mut all: Vec<Lying>) {
        while !all.is_empty() {
            let mut places = all.iter();
            let next = places.position(|it| self.room_for(&it.template, it.is_turned).is_some());
            if next.is_none() {
                self.end_page();
            }
            let Lying {
                template,
                is_turned,
                ..
            } = all.remove(next.unwrap_or_default());
            self.on_a_page(&template, is_turned);
        }
    }

    /// The row of the page that has room for a part, beside others or below them.
    fn room_for(&self, template: &Template, is_turned: bool) -> Option<Row> {
        let [width, words, high] = self.block(template, is_turned);
        let words = if words > MOST_WORDS { 0.0 } else { words };
        let tall = words + BELOW_WORDS + high;
        let below = Row::at(self.row.bottom + if self.page.is_empty() { 0.0 } else { GAP });
        let mut rows = [self.row, below.wide_enough(width, self.right())].into_iter();
        rows.find(|row| row.left + width <= self.right() && row.top + tall <= self.bottom())
    }

    fn on_a_page(&mut self, template: &Template, is_turned: bool) {
        let [width, words, high] = self.block(template, is_turned);
        let is_apart = words > MOST_WORDS;
        if is_apart {
            self.flow(|leaves, on| leaves.caption(on, template, is_turned));
        }
        self.row = self.room_for(template, is_turned).unwrap_or_else(|| {
            self.end_page();
            Row::at(TOP).wide_enough(width, self.right())
        });
        let [left, mut top] = [self.row.left, self.row.top];
        if !is_apart {
            let pieces = self.composed(width, |leaves, on| {
                leaves.caption(on, template, is_turned);
            });
            top = put_below(&mut self.page, pieces, [left, top]);
        }
        let size = self.say.size(template.size);
        let shows = self.texts.true_to_scale(&self.name(template.part), &size);
        let drawing = leaf(template, whole(template), &[], self.texts);
        self.leaf(drawing, &shows, [left, top + BELOW_WORDS]);
        self.row.left += width + GAP;
        self.row.bottom = self.row.bottom.max(top + BELOW_WORDS + high);
    }

    /// A part on several pages, turned so that it takes the fewest.
    fn on_pages(&mut self, upright: &Template) {
        let turned = &upright.turned();
        let wide = f64::from((self.right() - EDGE) / MM);
        let texts_wide = self.of.paper.size()[0] - 2.0 * MARGIN - MAP[0] - GAP;
        let words = [(upright, false), (turned, true)].map(|(template, is_turned)| {
            self.measured(texts_wide, |leaves, on| {
                leaves.joined(on, template, is_turned);
                on.paragraph(&leaves.texts.page_of_part(1, 1), TEXT);
            })
        });
        let words = words[0].max(words[1]);
        let is_apart = words > MOST_WORDS;
        let head = if is_apart { MAP[1] } else { words.max(MAP[1]) };
        let top = TOP + head + BELOW_WORDS;
        let room = [wide, f64::from((self.bottom() - top) / MM)];
        let needed = |template: &Template| {
            let all = whole(template);
            Tiles::needed([0, 1].map(|i| all.high[i] - all.low[i]), room)
        };
        let is_turned = needed(turned) < needed(upright);
        let template = if is_turned { turned } else { upright };
        let all = whole(template);
        let tiles = match Tiles::of(all.low, all.high, room) {
            Ok(tiles) => tiles,
            Err(pages) => {
                self.flow(|leaves, on| {
                    leaves.caption(on, upright, false);
                    on.paragraph(&leaves.texts.too_many_pages(pages), TEXT);
                });
                return;
            }
        };
        if is_apart {
            self.flow(|leaves, on| leaves.joined(on, template, is_turned));
        }
        let name = self.name(template.part);
        let count = tiles.windows.len();
        for (number, window) in tiles.windows.iter().enumerate() {
            self.start_page();
            let pieces = self.composed(texts_wide, |leaves, on| {
                if number == 0 && !is_apart {
                    leaves.joined(on, template, is_turned);
                } else if !is_apart {
                    on.paragraph(&name, TEXT.bold());
                }
                on.paragraph(&leaves.texts.page_of_part(number + 1, count), TEXT);
            });
            put_below(&mut self.page, pieces, [MARGIN, TOP]);
            let page = number + 1;
            let shows = self.texts.where_it_lies(page, count);
            let figure = self.parts.add(Role::Figure(self.heard(&shows)), None);
            let left = self.of.paper.size()[0] - MARGIN - MAP[0];
            self.page.push(Item::Figure {
                at: [left, TOP],
                size: MAP,
                drawing: Arc::new(map(template, &tiles, number)),
                of: figure,
            });
            let size = self.say.size(upright.size);
            let shows = self.texts.true_to_scale(&name, &size);
            let shows = format!("{shows}. {}", self.texts.page_of_part(page, count));
            let drawing = leaf(template, *window, &tiles.joins, self.texts);
            self.leaf(drawing, &shows, [EDGE, top]);
            self.row.bottom = self.bottom();
        }
        self.end_page();
    }

    /// What is said of a part that is joined from several pages.
    fn joined(&self, on: &mut Composer<'_>, template: &Template, is_turned: bool) {
        self.caption(on, template, is_turned);
        on.led(self.texts.joined, self.texts.how_to_join);
    }

    fn heard(&self, words: &str) -> String {
        aloud(self.tongue, words)
    }

    fn leaf(&mut self, drawing: Drawing, shows: &str, at: [f32; 2]) {
        let of = self.parts.add(Role::Figure(self.heard(shows)), None);
        let drawing = Arc::new(drawing);
        self.page.push(Item::Leaf { at, drawing, of });
    }

    /// A page with nothing on it.
    fn start_page(&mut self) {
        if !self.page.is_empty() {
            self.end_page();
        }
    }

    /// Ends a page with the ruler to measure by, and how lines look.
    fn end_page(&mut self) {
        if self.page.is_empty() {
            return;
        }
        let [width, _] = self.of.paper.size();
        let unit = self.of.recipe.notation.unit();
        let words = self.texts.ruler(&self.say.length(ruler_length(unit)));
        let top = self.bottom() + 1.0 * MM;
        let pieces = self.composed(width - 2.0 * MARGIN, |_, on| on.paragraph(&words, SMALL));
        let below = put_below(&mut self.page, pieces, [MARGIN, top]) + 1.0 * MM;
        let measured = ruler(unit);
        let aside = points(measured.low[0]);
        self.leaf(measured, &words, [MARGIN + aside, below]);
        let samples = legend(self.texts);
        let left = width - MARGIN - points(samples.size()[0]);
        self.leaf(samples, self.texts.how_lines_look, [left, below]);
        self.done.push(std::mem::take(&mut self.page));
        self.row = Row::at(TOP);
    }
}

/// Width and height of a part with its rim, in points.
fn size_of(template: &Template) -> [f32; 2] {
    let all = whole(template);
    [0, 1].map(|i| points(all.high[i] - all.low[i]))
}
