//! Kits for a class: what to take from the shelf, the cuts of the whole batch, and a
//! label for each kit.

use std::collections::BTreeSet;

use foldwright_engine::care::Hazard;
use foldwright_engine::cut_plan::CutPlan;
use foldwright_engine::post::{PostedIn, posted};
use foldwright_engine::recipe::Recipe;
use foldwright_engine::steps::{Value, cutting_steps};
use foldwright_words::{KitTexts, OfClass, Tongue};

use crate::compose::{Composer, SMALL, TEXT};
use crate::flow::{Pages, Whole, column};
use crate::labels::Grid;
use crate::sheet::{Filling, Sheet, cautions, rows, title};
use crate::tags::{PartId, Parts};
use crate::trouble::NotMade;
use crate::write::{About, pdf};

/// The most labels that are printed: as many as no class has makers. Our own bound.
const MOST_LABELS: u32 = 1000;

/// How many columns the cuts stand in.
const COLUMNS: u8 = 2;

/// What kits are made of.
#[derive(Clone, Copy)]
pub struct Kits<'a> {
    /// The recipe and its card, in which language, and on what it is printed.
    pub of: Sheet<'a>,
    /// How many makers there are.
    pub makers: u32,
    /// How many kits there are besides.
    pub spare: u32,
    /// How their sheets are cut; without it each part is cut from sheets of its own.
    pub plan: Option<&'a CutPlan>,
}

impl Kits<'_> {
    /// How many kits there are in all.
    pub(crate) const fn all(&self) -> u32 {
        self.makers.saturating_add(self.spare)
    }
}

/// Makes what is printed for a class, as a PDF.
///
/// The error is a mistake of ours: what the writer of PDF has found wrong.
pub fn kits(kits: &Kits<'_>) -> Result<Vec<u8>, NotMade> {
    let Sheet {
        recipe,
        card,
        tongue,
        paper,
        photos,
        ..
    } = kits.of;
    let texts = tongue.language().kits();
    let name = texts.kits_of(title(recipe));
    // Steps say what is done for all of them.
    let of_all = Recipe {
        copies: kits.all(),
        ..recipe.clone()
    };
    let batch = Batch {
        kits,
        filling: Filling::of(tongue, &of_all, card),
        texts,
    };
    let mut page = Page {
        tongue,
        parts: Parts::default(),
        headings: Vec::new(),
        is_short: false,
    };
    let mut pages = Pages::new(paper);
    let across = column(paper, 1);
    pages.put(page.composed(across, |on| batch.shelf(on, &name)), 1);
    let mut met = BTreeSet::new();
    let cuts = page.composed(column(paper, COLUMNS), |on| batch.cuts(on, &mut met));
    pages.put(cuts, COLUMNS);
    // What it looks like is the same for all but its number.
    let grid = Grid::of(paper, |width| {
        let mut apart = Page {
            parts: Parts::default(),
            headings: Vec::new(),
            ..page
        };
        let label = apart.composed(width, |on| batch.label(on, kits.all()));
        page.is_short |= apart.is_short;
        label
    });
    let is_short = page.is_short;
    let head = page.composed(across, |on| batch.above_labels(on, is_short, &mut met));
    let mut cells = Vec::new();
    for number in 1..=kits.all().min(MOST_LABELS) {
        let label = page.composed(grid.width(), |on| batch.label(on, number));
        let again = texts.continued(&batch.called(number));
        cells.extend(grid.parted(label, || page.composed(grid.width(), |on| on.entry(&again))));
    }
    pages.in_order.extend(grid.pages(head, cells));
    let about = About {
        language: tongue.language(),
        paper,
        photos,
        title: &name,
        foot: Some(SMALL),
        headings: page.headings,
    };
    pdf(&pages.in_order, page.parts, &about)
}

/// What is composed in the order in which it is read.
struct Page {
    tongue: &'static dyn Tongue,
    parts: Parts,
    headings: Vec<(PartId, String)>,
    is_short: bool,
}

impl Page {
    fn composed(&mut self, width: f32, fill: impl FnOnce(&mut Composer<'_>)) -> Vec<Whole> {
        let (parts, headings) = (&mut self.parts, &mut self.headings);
        let mut on = Composer::new(self.tongue, width, parts, headings);
        fill(&mut on);
        let (pieces, is_short) = (on.pieces, on.is_short);
        self.is_short |= is_short;
        pieces
    }
}

/// All kits together.
struct Batch<'a> {
    kits: &'a Kits<'a>,
    filling: Filling<'a>,
    texts: &'static KitTexts,
}

impl Batch<'_> {
    /// What there is of it, and what to take for it.
    fn shelf(&self, on: &mut Composer<'_>, name: &str) {
        let Filling {
            recipe, card, say, ..
        } = &self.filling;
        let (texts, shared) = (self.texts, &self.filling.texts.shared);
        let all = self.kits.all();
        on.title(name);
        on.paragraph(&texts.for_makers(self.kits.makers, self.kits.spare), TEXT);
        self.filling.problems(on);
        on.section(texts.from_the_shelf);
        let heads = [texts.what, texts.size, texts.how_many];
        on.table(&heads, &self.taken());
        let each = card.adhesive();
        if each > 0 {
            let of = OfClass::Adhesive { each, cards: all };
            let class = on.tongue.language().class_tongue();
            let run = card.glue_run();
            let along = OfClass::GlueRun {
                each: run,
                cards: all,
            };
            let words = [of, along].map(|of| class.told(recipe, of));
            on.paragraph(&words.join(" "), TEXT);
        }
        on.section(texts.all_pieces);
        let heads = [
            shared.piece,
            shared.width_height,
            shared.from_paper,
            texts.in_a_kit,
            texts.in_all,
        ];
        let blanks = card.cut_list.blanks.iter();
        let pieces = say.cut_rows(recipe, card).into_iter().zip(blanks);
        let pieces = pieces.map(|([name, size, paper], blank)| {
            let [each, all] = [i64::from(blank.per_card), blank.pieces(all)];
            [name, size, paper, each.to_string(), all.to_string()]
        });
        on.table(&heads, &rows(pieces.collect()));
    }

    /// What to take from the shelf, each with its size and how many.
    fn taken(&self) -> Vec<Vec<String>> {
        let Filling {
            recipe, card, say, ..
        } = &self.filling;
        let all = self.kits.all();
        let sheets = match self.kits.plan {
            Some(plan) => plan.sheets_of(&card.cut_list, all),
            None => card.cut_list.sheets(all),
        };
        let mut taken = Vec::new();
        for (stock, sheets) in sheets {
            if let Some(stock) = recipe.stock(stock) {
                let sheets = say.value(&Value::Sheets(sheets));
                let size = say.short_size(stock.size());
                taken.push(vec![stock.name.clone(), size, sheets]);
            }
        }
        let scraps = self.kits.plan.into_iter().flat_map(|plan| &plan.scraps);
        for scraps in scraps {
            if let Some(stock) = recipe.stock(scraps.stock) {
                let name = self.texts.scrap_of(&stock.name);
                let size = say.short_size(scraps.size);
                taken.push(vec![name, size, scraps.count.to_string()]);
            }
        }
        if let Some([name, size]) = self.envelope() {
            taken.push(vec![name, size, all.to_string()]);
        }
        let supplies = say.supply_rows(recipe, card, all).into_iter();
        taken.extend(supplies.map(|[name, _, all]| vec![name, String::new(), all]));
        taken
    }

    /// The envelope of a card and its size; `None` where there is none.
    fn envelope(&self) -> Option<[String; 2]> {
        let Filling {
            recipe, card, say, ..
        } = &self.filling;
        // An envelope goes into none.
        if recipe.posting.is_envelope {
            return None;
        }
        Some(match posted(recipe, card)?.envelope {
            PostedIn::Bought(envelope) => {
                let name = self.texts.envelope_called(&say.envelope(envelope));
                [name, envelope.size_words(recipe.notation.decimal)]
            }
            PostedIn::Made { of, size } => {
                let paper = recipe.stock(of)?;
                let name = self.texts.envelope_made_of(&paper.name);
                [name, say.short_size(size)]
            }
        })
    }

    /// How all pieces are cut.
    fn cuts(&self, on: &mut Composer<'_>, met: &mut BTreeSet<Hazard>) {
        let Filling {
            recipe, card, say, ..
        } = &self.filling;
        on.section(self.texts.cut_for_all);
        let mut steps = cutting_steps(recipe, card, self.kits.plan).into_iter();
        if let Some(gather) = steps.next() {
            let told = say.step(&gather);
            on.paragraph(&told.does.join(" "), TEXT);
            let ready = self.filling.texts.bench.have_ready;
            on.led(ready, &told.tools.join(", "));
        }
        self.filling.steps(on, &steps.collect::<Vec<_>>(), met);
    }

    fn above_labels(&self, on: &mut Composer<'_>, is_short: bool, met: &mut BTreeSet<Hazard>) {
        on.section(self.texts.labels);
        on.paragraph(self.texts.trim_labels, TEXT);
        if self.kits.all() > MOST_LABELS {
            on.paragraph(&self.texts.labels_for_the_first(MOST_LABELS), TEXT);
        }
        let care = [Hazard::Trimmer, Hazard::Guillotine];
        cautions(on, self.filling.say.cautions(&care, met));
        if is_short {
            on.paragraph(self.filling.printed.letters_missing, SMALL);
        }
    }

    /// Which kit it is: those of the makers first, then the spare ones.
    fn called(&self, number: u32) -> String {
        let makers = self.kits.makers;
        match number.checked_sub(makers) {
            None | Some(0) => self.texts.kit_of(number, makers),
            Some(spare) => self.texts.spare_kit_of(spare, self.kits.spare),
        }
    }

    /// What is written on a kit.
    fn label(&self, on: &mut Composer<'_>, number: u32) {
        let Filling {
            recipe, card, say, ..
        } = &self.filling;
        let shared = &self.filling.texts.shared;
        on.entry(&self.called(number));
        on.paragraph(title(recipe), TEXT.bold());
        let blanks = card.cut_list.blanks.iter();
        let pieces = say.cut_rows(recipe, card).into_iter().zip(blanks);
        let pieces =
            pieces.map(|([name, size, _], blank)| [name, size, blank.per_card.to_string()]);
        let heads = [shared.piece, shared.width_height, self.texts.how_many];
        on.table(&heads, &rows(pieces.collect()));
        if let Some(envelope) = self.envelope() {
            on.led(self.texts.also_in_it, &envelope.join(", "));
        }
        let supplies = say.supply_rows(recipe, card, 1);
        if !supplies.is_empty() {
            let each = supplies.into_iter().map(|[name, each, _]| [name, each]);
            let heads = [self.texts.besides_paper, self.texts.how_many];
            on.table(&heads, &rows(each.collect()));
        }
    }
}
