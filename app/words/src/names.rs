//! What stands in the holes of sentences, whatever the language: the names a
//! maker gave, and lengths in the recipe's notation.

use foldwright_engine::length::{DecimalMark, Length, Notation, Step, nearest};
use foldwright_engine::paper::{Envelope, Mass, StockId};
use foldwright_engine::pattern::{Angle, LineId, LineKind};
use foldwright_engine::plane::{Bearing, PieceFrame, Point, Size};
use foldwright_engine::recipe::{
    CutoutId, DrawnLineId, End, LayerId, MeasureId, OwnStepId, PanelId, PieceId, Recipe, Runs,
    Seat, StripId,
};

use crate::Language;
use crate::numerals::{a_little_off, about, less_than};
use crate::runs::with_exact;

/// The names and the notation of what is spoken about.
#[derive(Clone, Copy)]
pub struct Names<'a> {
    language: Language,
    notation: Notation,
    recipe: Option<&'a Recipe>,
    /// Whether the exact length stands behind each that is rounded.
    exact_behind: bool,
}

/// What a line is called in a recipe.
pub(crate) enum Called<'a> {
    /// A score of the base, so far from its left end.
    Score(Length),
    /// A score of a piece, so far from the piece's left end.
    PieceScore(PieceId, Length),
    /// A crease with the maker's name.
    Crease(&'a str),
    /// A cut with the maker's name.
    Cut(&'a str),
}

impl<'a> Names<'a> {
    pub(crate) fn of(language: Language, recipe: &'a Recipe) -> Self {
        Self {
            recipe: Some(recipe),
            ..Self::without_recipe(language, recipe.notation)
        }
    }

    pub(crate) const fn without_recipe(language: Language, notation: Notation) -> Self {
        Self {
            language,
            notation,
            recipe: None,
            exact_behind: false,
        }
    }

    pub(crate) const fn written_in(self, notation: Notation) -> Self {
        Self { notation, ..self }
    }

    pub(crate) const fn with_exact(self) -> Self {
        Self {
            exact_behind: true,
            ..self
        }
    }

    pub(crate) const fn without_exact(self) -> Self {
        Self {
            exact_behind: false,
            ..self
        }
    }

    /// In a name that is kept.
    pub(crate) fn size_in_names(&self, size: Size) -> String {
        self.notation.size_in_names(size.width, size.height)
    }

    /// The exact length, where it is shown rounded.
    pub(crate) fn exact(&self, length: Length) -> Option<String> {
        (!self.is_on_mark(length)).then(|| self.notation.exactly(length))
    }

    /// The exact size, where it is shown rounded.
    pub(crate) fn exact_size(&self, size: Size) -> Option<String> {
        let on_marks = self.is_on_mark(size.width) && self.is_on_mark(size.height);
        (!on_marks).then(|| self.notation.exact_size(size.width, size.height))
    }

    /// In a sentence: "3⅛ in", "about 3⅛ in", "less than ¹⁄₁₆ in".
    pub(crate) fn length(&self, length: Length) -> String {
        let mark = nearest(length, self.notation.step);
        if mark.is_exact() {
            return self.notation.with_unit(length);
        }
        let told = |at| self.rounded(self.notation.with_unit(at), self.exact(length));
        if mark.at != Length::ZERO {
            return about(self.language, &told(mark.at));
        }
        if length.is_negative() {
            // Which way it goes stands before the number.
            return self.short(length);
        }
        less_than(self.language, &told(self.notation.step.length()))
    }

    /// In a sentence where it matters whether it is more or less: "3⅛ in", "a little
    /// over 3⅛ in", "less than ¹⁄₁₆ in".
    pub(crate) fn sided(&self, length: Length) -> String {
        let mark = nearest(length, self.notation.step);
        if mark.is_exact() || mark.at == Length::ZERO {
            return self.length(length);
        }
        let told = self.rounded(self.notation.with_unit(mark.at), self.exact(length));
        a_little_off(self.language, &told, length.abs() > mark.at.abs())
    }

    /// Where there is little room, or where it matters whether it is more or less:
    /// "3⅛ in", "3⅛⁺ in", "<¹⁄₁₆ in".
    pub(crate) fn short(&self, length: Length) -> String {
        self.rounded(self.notation.with_unit(length), self.exact(length))
    }

    /// The same without its unit, beside another that has it.
    pub(crate) fn plain(&self, length: Length) -> String {
        self.rounded(self.notation.plain(length), self.exact(length))
    }

    /// In a sentence: "4¼ × 5½ in", "about 4¼ × 5½ in".
    pub(crate) fn size(&self, size: Size) -> String {
        let marks = [size.width, size.height].map(|side| nearest(side, self.notation.step));
        if marks.iter().any(|mark| mark.at == Length::ZERO) || marks.iter().all(|it| it.is_exact())
        {
            return self.short_size(size);
        }
        let [across, up] = marks.map(|mark| mark.at);
        let shown = self.notation.size(across, up);
        about(self.language, &self.rounded(shown, self.exact_size(size)))
    }

    /// Where there is little room, or where it matters whether it is more or less:
    /// "4¼⁺ × 5½ in".
    pub(crate) fn short_size(&self, size: Size) -> String {
        let shown = self.notation.size(size.width, size.height);
        self.rounded(shown, self.exact_size(size))
    }

    fn is_on_mark(&self, length: Length) -> bool {
        nearest(length, self.notation.step).is_exact()
    }

    /// What is shown, with what is exact behind it where it is rounded and that is
    /// asked for.
    pub(crate) fn rounded(&self, shown: String, exact: Option<String>) -> String {
        match exact.filter(|_| self.exact_behind) {
            Some(exact) => with_exact(&shown, &exact),
            None => shown,
        }
    }

    /// In tenths of a millimetre, for what no ruler shows.
    pub(crate) fn tenths(&self, length: Length) -> String {
        let tenths = Notation {
            step: Step::TenthMillimetre,
            decimal: self.notation.decimal,
        };
        match nearest(length, tenths.step).at {
            Length::ZERO => tenths.with_unit(length),
            tenth => tenths.with_unit(tenth),
        }
    }

    /// In grams, to a tenth.
    pub(crate) fn grams(&self, mass: Mass) -> String {
        let tenths = mass.tenths_of_a_gram();
        let mark = self.notation.decimal.as_str();
        format!("{}{mark}{} g", tenths / 10, tenths % 10)
    }

    /// In grams per square metre, given in tenths.
    pub(crate) fn grammage(&self, tenths: u32) -> String {
        match (tenths / 10, tenths % 10) {
            (grams, 0) => format!("{grams} g/m²"),
            (grams, tenths) => {
                let mark = self.notation.decimal.as_str();
                format!("{grams}{mark}{tenths} g/m²")
            }
        }
    }

    /// An envelope's size, in the unit it is sold by.
    pub(crate) fn envelope(&self, envelope: &Envelope) -> String {
        envelope.size_words(self.notation.decimal)
    }

    /// The decimal mark.
    pub(crate) const fn decimal(&self) -> DecimalMark {
        self.notation.decimal
    }

    pub(crate) fn step(&self) -> Step {
        self.notation.step
    }

    /// A division of a ruler.
    pub(crate) fn division(&self, step: Step) -> String {
        step.words(self.notation.decimal)
    }

    pub(crate) fn angle(&self, angle: Angle) -> String {
        angle.words(self.notation.decimal)
    }

    /// In whole degrees.
    pub(crate) fn degrees(&self, angle: Angle) -> String {
        let thousandths = angle.as_thousandths();
        let whole = thousandths.saturating_add(500).div_euclid(1000);
        self.angle(Angle::thousandths(whole.saturating_mul(1000)))
    }

    /// How far a print is turned from upright, to a tenth of a degree, and
    /// whether to the left.
    pub(crate) fn slant(&self, turned: Bearing) -> (String, bool) {
        let (cos, sin) = turned.cos_sin();
        let angle = Angle::from_radians(sin.atan2(cos)).as_thousandths();
        let size = i32::try_from(angle.unsigned_abs()).unwrap_or(i32::MAX);
        let tenths = size.saturating_add(50).div_euclid(100);
        let angle_told = self.angle(Angle::thousandths(tenths.saturating_mul(100)));
        (angle_told, angle > 0)
    }

    pub(crate) fn layer(&self, id: LayerId) -> Option<&'a str> {
        Some(self.recipe?.layer(id)?.name.as_str())
    }

    pub(crate) fn piece(&self, id: PieceId) -> Option<&'a str> {
        Some(self.recipe?.piece(id)?.name.as_str())
    }

    /// What the maker says of a step of their own.
    pub(crate) fn own_step(&self, id: OwnStepId) -> &'a str {
        let step = self.recipe.and_then(|recipe| recipe.own_step(id));
        step.map_or("", |step| step.text.as_str())
    }

    pub(crate) fn cutout(&self, id: CutoutId) -> Option<&'a str> {
        Some(self.recipe?.cutout(id)?.name.as_str())
    }

    pub(crate) fn measure(&self, id: MeasureId) -> Option<&'a str> {
        Some(self.recipe?.measure(id)?.name.as_str())
    }

    pub(crate) fn stock(&self, id: StockId) -> Option<(&'a str, Size)> {
        let stock = self.recipe?.stock(id)?;
        let (width, height) = (stock.width, stock.height);
        Some((stock.name.as_str(), Size { width, height }))
    }

    /// The name of a panel, and which part of it this is where that is not its
    /// largest, counted from 2.
    pub(crate) fn panel(&self, id: PanelId) -> Option<(&'a str, Option<u32>)> {
        let (_, panel) = self.recipe?.panel(id)?;
        let part = match id.part_number() {
            0 => None,
            part => Some(part.saturating_add(1)),
        };
        Some((panel.name.as_str(), part))
    }

    /// The strip a panel belongs to; that of the base where there is no such
    /// panel.
    pub(crate) fn strip_with(&self, panel: PanelId) -> StripId {
        let strip = self.recipe.and_then(|recipe| recipe.strip_with(panel));
        strip.map_or(StripId::Base, |(of, ..)| of)
    }

    pub(crate) fn line(&self, id: LineId) -> Option<Called<'a>> {
        let recipe = self.recipe?;
        if let Some(score) = id.score() {
            let widths = recipe.base.panels.iter().take(score + 1);
            let at = widths.map(|panel| recipe.value(panel.width)).sum();
            return Some(Called::Score(at));
        }
        if let Some(after) = id.piece_score() {
            let (of, strip, place) = recipe.strip_with(after)?;
            let widths = strip.panels.iter().take(place + 1);
            let at = widths.map(|panel| recipe.value(panel.width)).sum();
            return Some(Called::PieceScore(of.piece()?, at));
        }
        let line = recipe.line(id.line()?)?;
        Some(match line.kind {
            LineKind::Crease(_) => Called::Crease(&line.name),
            LineKind::Cut => Called::Cut(&line.name),
        })
    }

    /// What a line does, and where it runs, from the left and from the bottom.
    pub(crate) fn runs(&self, id: DrawnLineId) -> Option<(LineKind, [Point<PieceFrame>; 2])> {
        let recipe = self.recipe?;
        let kind = recipe.line(id)?.kind;
        let from = recipe.line_end(id, End::From)?;
        Some((kind, [from, recipe.line_end(id, End::To)?]))
    }

    /// How many panels the base has.
    pub(crate) fn panels(&self) -> usize {
        self.recipe.map_or(0, |recipe| recipe.base.panels.len())
    }

    /// Whether the panels of the base lie above each other.
    pub(crate) fn runs_down(&self) -> bool {
        self.recipe
            .is_some_and(|recipe| recipe.base.runs == Runs::Down)
    }

    /// What a layer lies on.
    pub(crate) fn seat_of(&self, id: LayerId) -> Option<Seat> {
        Some(self.recipe?.layer(id)?.on)
    }
}
