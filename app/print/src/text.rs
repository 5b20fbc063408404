//! Texts in lines.

use foldwright_engine::paper::Colour;
use foldwright_words::{Tongue, runs};
use unicode_linebreak::{BreakOpportunity, linebreaks};

use crate::typeface::{Shaped, Weight, writable};

/// More characters than any line of a sheet has room for.
const MOST_IN_LINE: usize = 400;

/// How a stretch of text looks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Style {
    /// The size of type, in points.
    pub(crate) size: f32,
    pub(crate) weight: Weight,
    pub(crate) colour: Colour,
}

impl Style {
    pub(crate) const fn bold(self) -> Self {
        Self {
            weight: Weight::Bold,
            ..self
        }
    }

    pub(crate) const fn coloured(self, colour: Colour) -> Self {
        Self { colour, ..self }
    }

    /// From one line to the next, in points. (Common practice: a third more than
    /// the size of type for texts, less for headings.)
    pub(crate) fn leading(self) -> f32 {
        self.size * if self.size > 14.0 { 1.2 } else { 1.34 }
    }

    /// How wide a text is on one line, in points.
    pub(crate) fn width(self, text: &str) -> f32 {
        self.weight.face().shape(&writable(text).text).width * self.size
    }
}

/// A stretch of text that is heard as one.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Span {
    /// As the typeface writes it.
    text: String,
    style: Style,
    /// What is heard, where that is not what is written.
    aloud: Option<String>,
    /// What it is, where the typeface lacks some of it.
    actual: Option<String>,
}

/// A text in stretches, one after the other.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Text(Vec<Span>);

impl Text {
    /// What is said in a language, its numbers in words for those who hear them.
    pub(crate) fn of(tongue: &dyn Tongue, words: &str, style: Style) -> Self {
        Self::default().then(tongue, words, style)
    }

    /// The same with more behind it.
    pub(crate) fn then(mut self, tongue: &dyn Tongue, words: &str, style: Style) -> Self {
        for run in runs(tongue, words) {
            let written = writable(&run.shown);
            if !written.is_short {
                self.0.push(Span {
                    text: written.text,
                    style,
                    aloud: run.aloud,
                    actual: None,
                });
                continue;
            }
            // Word by word, so that each stays on its line with what it is.
            for word in run.shown.split_inclusive(char::is_whitespace) {
                let written = writable(word);
                self.0.push(Span {
                    actual: written.is_short.then(|| word.to_owned()),
                    text: written.text,
                    style,
                    aloud: None,
                });
            }
        }
        self
    }

    /// Whether the typeface lacks some of its characters.
    pub(crate) fn is_short(&self) -> bool {
        self.0.iter().any(|span| span.actual.is_some())
    }

    /// How wide it is on one line, in points.
    pub(crate) fn width(&self) -> f32 {
        let whole: String = self.0.iter().map(|span| span.text.as_str()).collect();
        let mut widest = 0.0_f32;
        let mut from = 0;
        for line in whole.split('\n') {
            let width = self.measured(&whole, from, from + line.len());
            widest = widest.max(width);
            from += line.len() + 1;
        }
        widest
    }

    /// In lines no wider than so many points, broken where the rules of Unicode
    /// let them (UAX #14), and within a word only where it has no room on a line
    /// of its own.
    pub(crate) fn lines(&self, width: f32) -> Vec<Line> {
        let whole: String = self.0.iter().map(|span| span.text.as_str()).collect();
        let mut lines = Vec::new();
        let mut from = 0;
        let mut used = 0.0;
        let mut at = 0;
        for (to, kind) in linebreaks(&whole) {
            let word = whole.get(at..to).unwrap_or_default();
            // White space at the end of a line takes no room.
            let seen = at + word.trim_end().len();
            if used > 0.0 && used + self.measured(&whole, at, seen) > width {
                lines.push(self.line(&whole, from, at));
                (from, used) = (at, 0.0);
            }
            while let Some(cut) = self.too_long(&whole, at, seen, width - used) {
                lines.push(self.line(&whole, from, cut));
                (from, at, used) = (cut, cut, 0.0);
            }
            used += self.measured(&whole, at, to);
            at = to;
            if kind == BreakOpportunity::Mandatory && (to < whole.len() || whole.ends_with('\n')) {
                lines.push(self.line(&whole, from, to));
                (from, used) = (to, 0.0);
            }
        }
        if from < whole.len() || lines.is_empty() {
            lines.push(self.line(&whole, from, whole.len()));
        }
        lines
    }

    /// Where a word has to be cut that is wider than a line; `None` where it has
    /// room. One character stays at least.
    fn too_long(&self, whole: &str, from: usize, to: usize, width: f32) -> Option<usize> {
        if self.measured(whole, from, to) <= width {
            return None;
        }
        let word = whole.get(from..to)?;
        let ends = word.char_indices().skip(1).take(MOST_IN_LINE);
        let ends = ends.map(|(at, _)| from + at);
        let ends: Vec<_> = ends.collect();
        let fitting = ends.partition_point(|end| self.measured(whole, from, *end) <= width);
        ends.get(fitting.saturating_sub(1)).copied()
    }

    fn measured(&self, whole: &str, from: usize, to: usize) -> f32 {
        let stretches = self.stretches(from, to);
        let widths = stretches.map(|(span, from, to)| {
            let text = whole.get(from..to).unwrap_or_default().replace('\n', "");
            span.style.weight.face().shape(&text).width * span.style.size
        });
        widths.sum()
    }

    /// The stretches between two places of the whole, with where each begins and
    /// ends there.
    fn stretches(&self, from: usize, to: usize) -> impl Iterator<Item = (&Span, usize, usize)> {
        let mut at = 0;
        let spans = self.0.iter().map(move |span| {
            let begins = at;
            at += span.text.len();
            (span, begins, at)
        });
        let within = spans.map(move |(span, begins, ends)| (span, begins.max(from), ends.min(to)));
        within.filter(|(_, begins, ends)| begins < ends)
    }

    fn line(&self, whole: &str, from: usize, to: usize) -> Line {
        let seen = whole.get(from..to).unwrap_or_default().trim_end().len() + from;
        let mut line = Line::default();
        for (span, begins, ends) in self.stretches(from, to) {
            // A space stays at the end of each line, so that words stay apart where
            // the text is read as one.
            let text = whole
                .get(begins..ends)
                .unwrap_or_default()
                .replace('\n', " ");
            let shaped = span.style.weight.face().shape(&text);
            let is_whole = ends - begins == span.text.len();
            let width = shaped.width * span.style.size;
            line.leading = line.leading.max(span.style.leading());
            line.size = line.size.max(span.style.size);
            line.pieces.push(Piece {
                x: line.whole,
                text,
                shaped,
                style: span.style,
                aloud: span.aloud.clone().filter(|_| is_whole),
                actual: span.actual.clone().filter(|_| is_whole),
            });
            line.whole += width;
        }
        line.width = self.measured(whole, from, seen);
        if line.pieces.is_empty() {
            // An empty line is as high as the others.
            let style = self.0.first().map(|span| span.style);
            line.leading = style.map_or(0.0, Style::leading);
            line.size = style.map_or(0.0, |style| style.size);
        }
        line
    }
}

/// A line of text.
#[derive(Debug, Clone, Default)]
pub(crate) struct Line {
    pub(crate) pieces: Vec<Piece>,
    /// How wide what is seen of it is, in points.
    pub(crate) width: f32,
    /// The same with the space at its end.
    whole: f32,
    /// Its height, in points.
    pub(crate) leading: f32,
    /// Its largest size of type.
    pub(crate) size: f32,
}

/// A stretch of a line.
#[derive(Debug, Clone)]
pub(crate) struct Piece {
    /// How far it is from the beginning of the line, in points.
    pub(crate) x: f32,
    pub(crate) text: String,
    pub(crate) shaped: Shaped,
    pub(crate) style: Style,
    pub(crate) aloud: Option<String>,
    pub(crate) actual: Option<String>,
}

#[cfg(test)]
mod tests {
    use foldwright_engine::paper::Colour;
    use foldwright_words::Language;

    use super::{Style, Text};
    use crate::typeface::Weight;

    const STYLE: Style = Style {
        size: 10.0,
        weight: Weight::Regular,
        colour: Colour::rgb(0),
    };

    fn lines(words: &str, width: f32) -> Vec<String> {
        let text = Text::of(Language::English.tongue(), words, STYLE);
        let lines = text.lines(width);
        for line in &lines {
            assert!(line.width <= width, "{} of {width}", line.width);
        }
        let written = lines.iter().map(|line| {
            let pieces = line.pieces.iter();
            pieces.map(|piece| piece.text.as_str()).collect()
        });
        written.collect()
    }

    /// UAX #14: at spaces, after hyphens, at ends of lines, and never before the
    /// unit behind a space that holds together.
    #[test]
    fn lines_break_where_the_rules_let_them() {
        let words = "Cut the quay-wall at 12¹³⁄₁₆\u{A0}in.\n\nThen fold.";
        assert_eq!(
            lines(words, 1000.0),
            ["Cut the quay-wall at 12¹³⁄₁₆\u{A0}in. ", " ", "Then fold."]
        );
        assert_eq!(
            lines(words, 68.0),
            [
                "Cut the quay-",
                "wall at ",
                "12¹³⁄₁₆\u{A0}in. ",
                " ",
                "Then fold."
            ]
        );
        assert_eq!(lines("", 100.0), [""]);
    }

    #[test]
    fn a_word_wider_than_a_line_is_parted_and_none_of_it_lost() {
        let word = "Hafen".repeat(40);
        for width in [9.0, 31.0, 100.0] {
            let lines = lines(&format!("An {word} end"), width);
            assert!(lines.len() > 4);
            assert_eq!(lines.concat().replace(' ', ""), format!("An{word}end"));
        }
        // Where not one character has room, each has a line.
        let text = Text::of(Language::English.tongue(), "quay", STYLE);
        assert_eq!(text.lines(0.1).len(), 4);
    }
}
