//! What sheets are made of: headings, texts, tables, drawings and cautions, each
//! with what it is for those who hear it.

mod table;

use std::sync::Arc;

use foldwright_engine::draw::{Drawing, Theme, Tone};
use foldwright_engine::paper::Colour;
use foldwright_words::Tongue;

use crate::code::Code;
use crate::flow::{Item, Whole};
use crate::paper::MM;
use crate::tags::{PartId, Parts, Role};
use crate::text::{Line, Style, Text};
use crate::typeface::{CAPITALS, Weight};

/// Texts are dark on paper, in the tones of drawings.
const INK: Colour = Tone::Length.colour(Theme::Light);
const QUIET: Colour = Tone::Quiet.colour(Theme::Light);
pub(crate) const ACCENT: Colour = Tone::Fold.colour(Theme::Light);
pub(crate) const HAIR: Colour = Colour::rgb(0xbf_c9_c6);

const fn style(size: f32, weight: Weight, colour: Colour) -> Style {
    Style {
        size,
        weight,
        colour,
    }
}

// Sizes of type in points: texts as large as books have them, since a sheet lies
// on a table. (Own choice.)
pub(crate) const TEXT: Style = style(9.0, Weight::Regular, INK);
pub(crate) const SMALL: Style = style(7.6, Weight::Regular, QUIET);
const STEP: Style = style(9.6, Weight::Bold, INK);

/// In what type something is set, and with how much white between, in points.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Manner {
    title: Style,
    /// A title of more than three lines.
    long_title: Style,
    section: Style,
    /// Texts.
    pub(crate) text: Style,
    /// What is said beside.
    pub(crate) small: Style,
    /// What nobody must overlook.
    care: Style,
    above_section: f32,
    /// Between two paragraphs.
    between: f32,
    /// Above each row of a table.
    above_row: f32,
}

/// What lies on a table.
pub(crate) const OF_SHEETS: Manner = Manner {
    title: style(22.0, Weight::Bold, INK),
    long_title: style(12.0, Weight::Bold, INK),
    section: style(12.5, Weight::Bold, INK),
    text: TEXT,
    small: SMALL,
    care: TEXT,
    above_section: 5.5 * MM,
    between: 1.4 * MM,
    above_row: 0.7 * MM,
};

/// What is held in a hand.
pub(crate) const OF_CARDS: Manner = Manner {
    title: style(13.0, Weight::Bold, INK),
    long_title: style(9.0, Weight::Bold, INK),
    section: style(8.6, Weight::Bold, INK),
    text: style(7.4, Weight::Regular, INK),
    small: style(6.4, Weight::Regular, QUIET),
    care: style(6.4, Weight::Regular, INK),
    above_section: 2.2 * MM,
    between: 0.7 * MM,
    above_row: 0.3 * MM,
};

/// A title of more lines than these is set smaller.
const MOST_TITLE_LINES: usize = 3;

/// How wide a drawing is at the side of its text, and what is between drawings, as
/// shares of a column.
const BESIDE: f32 = 0.36;
const GAP: f32 = 0.045;

/// How wide a square code is with the white round it: its squares are as large as a
/// camera needs however long the address is. (Own choice.)
const CODE: f32 = 34.0 * MM;

/// A text higher than this stands below its drawing, in points.
const MOST_BESIDE: f32 = 80.0 * MM;

/// Puts one thing below the other in a column of a width.
pub(crate) struct Composer<'a> {
    pub(crate) tongue: &'static dyn Tongue,
    pub(crate) manner: Manner,
    pub(crate) width: f32,
    pub(crate) parts: &'a mut Parts,
    pub(crate) headings: &'a mut Vec<(PartId, String)>,
    pub(crate) pieces: Vec<Whole>,
    /// Whether the typeface lacks a character of what was written.
    pub(crate) is_short: bool,
    /// What the parts that follow are within.
    within: Option<PartId>,
}

/// A drawing with what stands under it.
pub(crate) struct Picture {
    pub(crate) drawing: Drawing,
    pub(crate) caption: String,
    /// What it shows, for those who cannot see it.
    pub(crate) shows: String,
}

/// A square code with what stands under it.
pub(crate) struct Coded {
    pub(crate) code: Code,
    pub(crate) caption: String,
    /// Where it leads, for those who cannot see it.
    pub(crate) shows: String,
}

impl<'a> Composer<'a> {
    pub(crate) fn new(
        tongue: &'static dyn Tongue,
        width: f32,
        parts: &'a mut Parts,
        headings: &'a mut Vec<(PartId, String)>,
    ) -> Self {
        Self {
            tongue,
            manner: OF_SHEETS,
            width,
            parts,
            headings,
            pieces: Vec::new(),
            is_short: false,
            within: None,
        }
    }

    /// The same in another manner.
    pub(crate) fn in_manner(self, manner: Manner) -> Self {
        Self { manner, ..self }
    }

    fn part(&mut self, role: Role) -> PartId {
        self.parts.add(role, self.within)
    }

    /// A text in the language of the sheet.
    pub(crate) fn said(&mut self, words: &str, style: Style) -> Text {
        let text = Text::of(self.tongue, words, style);
        self.is_short |= text.is_short();
        text
    }

    /// The title of the sheet.
    pub(crate) fn title(&mut self, words: &str) {
        let mut lines = self.said(words, self.manner.title).lines(self.width);
        if lines.len() > MOST_TITLE_LINES {
            lines = self.said(words, self.manner.long_title).lines(self.width);
        }
        let heading = self.part(Role::Heading(1, words.to_owned()));
        self.headings.push((heading, words.to_owned()));
        self.set(lines, heading, 0.0, 0.0);
    }

    /// The heading of a part of the sheet.
    pub(crate) fn section(&mut self, words: &str) {
        let heading = self.part(Role::Heading(2, words.to_owned()));
        self.headings.push((heading, words.to_owned()));
        let lines = self.said(words, self.manner.section).lines(self.width);
        self.set(lines, heading, self.manner.above_section, 0.0);
        self.rule(1.0 * MM, 0.5);
        self.keep();
    }

    /// The heading of a step, after its number.
    pub(crate) fn step(&mut self, number: usize, words: &str) {
        let heading = self.part(Role::Heading(3, format!("{number} {words}")));
        let number = self.said(&format!("{number}  "), STEP.coloured(ACCENT));
        let text = number.then(self.tongue, words, STEP);
        self.is_short |= text.is_short();
        self.set(text.lines(self.width), heading, 4.0 * MM, 0.0);
        self.keep();
    }

    /// The heading of one of many things of a section.
    pub(crate) fn entry(&mut self, words: &str) {
        let heading = self.part(Role::Heading(3, words.to_owned()));
        let lines = self.said(words, STEP.coloured(ACCENT)).lines(self.width);
        self.set(lines, heading, 0.0, 0.0);
        self.keep();
    }

    /// A paragraph.
    pub(crate) fn paragraph(&mut self, words: &str, style: Style) {
        let text = self.said(words, style);
        self.text(&text);
    }

    /// The same put together before.
    pub(crate) fn text(&mut self, text: &Text) {
        let paragraph = self.part(Role::Paragraph);
        self.set(text.lines(self.width), paragraph, self.manner.between, 0.0);
    }

    /// A paragraph whose first words are bold.
    pub(crate) fn led(&mut self, lead: &str, words: &str) {
        let text = self.leading(lead, words);
        self.text(&text);
    }

    /// Its text.
    pub(crate) fn leading(&mut self, lead: &str, words: &str) -> Text {
        let style = self.manner.text;
        let text = self.said(lead, style.bold());
        let text = text.then(self.tongue, &format!(" {words}"), style);
        self.is_short |= text.is_short();
        text
    }

    /// Numbers behind each other, each after what it is.
    pub(crate) fn numbers(&mut self, numbers: &[[String; 2]]) -> Text {
        let style = self.manner.text;
        let mut text = Text::default();
        for (place, [label, number]) in numbers.iter().enumerate() {
            let between = if place == 0 { "" } else { " · " };
            text = text
                .then(self.tongue, &format!("{between}{label}: "), style)
                .then(self.tongue, number, style.bold());
        }
        self.is_short |= text.is_short();
        text
    }

    /// Drawings and what is to be done: a drawing by itself at the left of it,
    /// several above it.
    pub(crate) fn shown(&mut self, mut pictures: Vec<Picture>, texts: Vec<Text>, highest: f32) {
        let width = self.width * BESIDE;
        let gap = self.width * GAP;
        let room = self.width - width - gap;
        let lines = texts.iter().map(|text| text.lines(room));
        let lines: Vec<_> = lines.collect();
        let high: f32 = lines.iter().flatten().map(|line| line.leading).sum();
        let picture = pictures.pop();
        match picture {
            Some(picture) if pictures.is_empty() && high < MOST_BESIDE => {
                self.at_left(picture, lines, [width, gap], highest);
                return;
            }
            picture => pictures.extend(picture),
        }
        self.pictures(pictures, 2, highest);
        for text in texts {
            self.text(&text);
        }
    }

    fn at_left(
        &mut self,
        picture: Picture,
        texts: Vec<Vec<Line>>,
        [width, gap]: [f32; 2],
        highest: f32,
    ) {
        let [wide, high] = picture.drawing.size();
        let share = highest.min(width * ratio(high, wide));
        let figure = self.part(Role::Figure(picture.shows));
        let mut whole = Whole {
            above: 1.6 * MM,
            items: vec![Item::Figure {
                at: [0.0, 0.6 * MM],
                size: [width, share],
                drawing: Arc::new(picture.drawing),
                of: figure,
            }],
            ..Whole::default()
        };
        let caption = self.part(Role::Caption);
        let lines = self.said(&picture.caption, self.manner.small).lines(width);
        let left = whole.lines(lines, caption, [0.0, share + 1.2 * MM]);
        let mut down = 0.0;
        for (number, lines) in texts.into_iter().enumerate() {
            let paragraph = self.part(Role::Paragraph);
            let between = if number == 0 {
                0.0
            } else {
                self.manner.between
            };
            let from = down + between;
            down = whole.lines(lines, paragraph, [width + gap, from]);
        }
        whole.height = left.max(down);
        self.pieces.push(whole);
    }

    /// A square code, and at its right what it is for.
    pub(crate) fn code(
        &mut self,
        Coded {
            code,
            caption,
            shows,
        }: Coded,
    ) {
        let of = self.part(Role::Figure(shows));
        let mut whole = Whole {
            above: self.manner.above_section,
            items: vec![Item::Code {
                at: [0.0; 2],
                wide: CODE,
                code,
                of,
            }],
            ..Whole::default()
        };
        let under = self.part(Role::Caption);
        let gap = self.width * GAP;
        let lines = self.said(&caption, self.manner.small);
        let lines = lines.lines(self.width - CODE - gap);
        let high = whole.lines(lines, under, [CODE + gap, 0.0]);
        whole.height = high.max(CODE);
        self.pieces.push(whole);
    }

    /// A paragraph with a bar at its side, for what nobody must overlook.
    pub(crate) fn callout(&mut self, lead: &str, words: &str) {
        let aside = self.part(Role::Aside);
        let outer = self.within.replace(aside);
        let paragraph = self.part(Role::Paragraph);
        let style = self.manner.care;
        let text = self.said(lead, style.bold().coloured(ACCENT));
        let text = text.then(self.tongue, &format!(" {words}"), style);
        self.is_short |= text.is_short();
        let indent = 3.0 * MM;
        let from = self.pieces.len();
        self.set(text.lines(self.width - indent), paragraph, 1.8 * MM, indent);
        let last = self.pieces.len() - 1;
        for (number, piece) in self.pieces.iter_mut().enumerate().skip(from) {
            // Nobody reads half of a caution.
            piece.keeps = number < last;
            piece.items.push(Item::Fill {
                at: [0.0, 0.0],
                size: [0.8 * MM, piece.height],
                colour: ACCENT,
            });
        }
        self.within = outer;
    }

    /// Lines below each other, of which the first two and the last two stay
    /// together.
    fn set(&mut self, lines: Vec<Line>, of: PartId, above: f32, indent: f32) {
        let all = lines.len();
        for (number, line) in lines.into_iter().enumerate() {
            let is_first = number == 0;
            self.pieces.push(Whole {
                above: if is_first { above } else { 0.0 },
                height: line.leading,
                keeps: number + 1 < all && (is_first || number + 2 == all),
                items: vec![Item::Line {
                    at: [indent, base_line(&line)],
                    line,
                    of,
                }],
            });
        }
    }

    /// What was put last stays with what follows.
    pub(crate) fn keep(&mut self) {
        if let Some(last) = self.pieces.last_mut() {
            last.keeps = true;
        }
    }

    fn rule(&mut self, above: f32, thick: f32) {
        if let Some(last) = self.pieces.last_mut() {
            last.keeps = true;
        }
        self.pieces.push(Whole {
            above: 0.0,
            height: above,
            keeps: false,
            items: vec![Item::Fill {
                at: [0.0, above - thick],
                size: [self.width, thick],
                colour: HAIR,
            }],
        });
    }

    /// Drawings beside each other, none higher than so much, each with its caption
    /// under it.
    pub(crate) fn pictures(&mut self, pictures: Vec<Picture>, beside: usize, highest: f32) {
        let mut rest = pictures.into_iter().peekable();
        while rest.peek().is_some() {
            let row: Vec<_> = rest.by_ref().take(beside).collect();
            self.picture_row(row, beside, None, highest);
        }
    }

    /// Two drawings beside each other, and at their right a square code.
    pub(crate) fn pictures_and_code(&mut self, row: Vec<Picture>, code: Coded, highest: f32) {
        self.picture_row(row, 2, Some(code), highest);
    }

    fn picture_row(&mut self, row: Vec<Picture>, beside: usize, code: Option<Coded>, highest: f32) {
        let gap = self.width * GAP;
        let room = self.width - code.as_ref().map_or(0.0, |_| CODE + gap);
        #[expect(
            clippy::cast_precision_loss,
            reason = "there are two or three beside each other"
        )]
        let width = (room - gap * (beside as f32 - 1.0)) / beside as f32;
        let mut items = Vec::new();
        let mut tallest = 0.0_f32;
        let mut captions = Vec::new();
        let mut x = 0.0;
        for picture in row {
            let [wide, high] = picture.drawing.size();
            let share = highest.min(width * ratio(high, wide));
            tallest = tallest.max(share);
            let figure = self.part(Role::Figure(picture.shows));
            items.push((x, share, Arc::new(picture.drawing), figure));
            let caption = self.part(Role::Caption);
            let lines = self.said(&picture.caption, self.manner.small).lines(width);
            captions.push((x, caption, lines));
            x += width + gap;
        }
        let code = code.map(
            |Coded {
                 code,
                 caption,
                 shows,
             }| {
                let of = self.part(Role::Figure(shows));
                tallest = tallest.max(CODE);
                let under = self.part(Role::Caption);
                let x = self.width - CODE;
                let caption = self.said(&caption, self.manner.small).lines(CODE);
                captions.push((x, under, caption));
                Item::Code {
                    at: [x, tallest - CODE],
                    wide: CODE,
                    code,
                    of,
                }
            },
        );
        let items = items
            .into_iter()
            .map(|(x, share, drawing, of)| Item::Figure {
                at: [x, tallest - share],
                size: [width, share],
                drawing,
                of,
            });
        self.pieces.push(Whole {
            above: 2.0 * MM,
            height: tallest + 0.8 * MM,
            keeps: true,
            items: items.chain(code).collect(),
        });
        self.beside(captions, 0.0);
    }

    /// Lines that begin beside each other.
    fn beside(&mut self, cells: Vec<(f32, PartId, Vec<Line>)>, above: f32) {
        let most = cells
            .iter()
            .map(|(.., lines)| lines.len())
            .max()
            .unwrap_or(0);
        let mut cells: Vec<_> = cells
            .into_iter()
            .map(|(x, of, lines)| (x, of, lines.into_iter()))
            .collect();
        for number in 0..most {
            let mut whole = Whole {
                above: if number == 0 { above } else { 0.0 },
                keeps: number + 1 < most,
                ..Whole::default()
            };
            for (x, of, lines) in &mut cells {
                let Some(line) = lines.next() else {
                    continue;
                };
                whole.height = whole.height.max(line.leading);
                whole.items.push(Item::Line {
                    at: [*x, base_line(&line)],
                    line,
                    of: *of,
                });
            }
            self.pieces.push(whole);
        }
    }
}

impl Whole {
    /// Lines below each other from a place on; where they end.
    fn lines(&mut self, lines: Vec<Line>, of: PartId, [x, mut down]: [f32; 2]) -> f32 {
        for line in lines {
            let high = line.leading;
            self.items.push(Item::Line {
                at: [x, down + base_line(&line)],
                line,
                of,
            });
            down += high;
        }
        down
    }
}

/// Where the letters of a line stand: its capitals in the middle of it.
fn base_line(line: &Line) -> f32 {
    f32::midpoint(line.leading, line.size * CAPITALS)
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "a millionth of a page is seen by nobody"
)]
fn ratio(high: f64, wide: f64) -> f32 {
    (high / wide.max(f64::MIN_POSITIVE)) as f32
}
