//! Rules of thumb of folding and scoring, as printed; where they disagree they
//! stand side by side with their sources. What no reader can look up is called
//! common practice, and what we made of a rule our own use of it.

use super::{Source, Weight};
use crate::length::{Length, half_even};

const THIRTY_SECOND: Length = Length::sixty_fourths(2);
const SIXTEENTH: Length = Length::sixty_fourths(4);
const EIGHTH: Length = Length::sixty_fourths(8);
const QUARTER: Length = Length::sixty_fourths(16);

/// Whether a paper handles like writing paper or like card.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Body {
    /// Text stock.
    Text,
    /// Cover stock and card.
    Cover,
}

impl Body {
    /// Cover from 150 g/m²: our own line, between the heaviest text weight
    /// (100 lb, 148 g/m²) and 60 lb cover (162 g/m²) of the printed tables.
    pub fn of(weight: Weight) -> Self {
        if weight.milligrams_per_square_metre() < 150_000 {
            Self::Text
        } else {
            Self::Cover
        }
    }
}

/// How much room a fold asks for what is folded inside it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FoldAsks {
    /// The same for every fold, by the kind of paper.
    Fixed {
        /// On text stock.
        text: Length,
        /// On cover stock.
        cover: Length,
    },
    /// By how thick what it wraps is: so many thousandths of the outer radius
    /// of the fold, and at least as much as [`LEAST_ROOM`].
    Radius {
        /// The thousandths.
        thousandths: i64,
    },
}

/// The least a panel folded inside others is shorter: "enough for most paper"
/// (an article on letter folds).
pub const LEAST_ROOM: Length = THIRTY_SECOND;

/// Which rule for what is folded inside others.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum FoldIn {
    /// 1/16 in on any paper.
    Sixteenth,
    /// 1/16 in on text, 1/8 in on card.
    SixteenthEighth,
    /// 1/32 in on most paper, 1/8 in on thick.
    ThirtySecondEighth,
    /// 3 mm, as for A4 in three.
    ThreeMm,
    /// By thickness: the radius of the fold.
    Radius,
    /// By thickness: half of what a round fold takes up.
    Bend,
    /// By thickness: a round fold, and a fifth for air.
    BendAir,
}

/// How much shorter a panel folded inside others is cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FoldInRule {
    /// Its lasting name in stored recipes.
    pub id: &'static str,
    /// Which it is.
    pub is: FoldIn,
    /// What it asks for.
    pub asks: FoldAsks,
    /// Where the rule comes from.
    pub source: Source,
}

impl FoldInRule {
    /// The rule of that name.
    pub fn by_id(id: &str) -> Option<&'static Self> {
        FOLD_IN_RULES.iter().find(|rule| rule.id == id)
    }

    /// The allowance on a paper, for a fold of an outer radius: half of what it
    /// wraps and the paper itself.
    pub fn allowance(&self, body: Body, radius: Length) -> Length {
        match (self.asks, body) {
            (FoldAsks::Fixed { text, .. }, Body::Text) => text,
            (FoldAsks::Fixed { cover, .. }, Body::Cover) => cover,
            (FoldAsks::Radius { thousandths }, _) => {
                let units = i128::from(radius.units()) * i128::from(thousandths);
                let units = half_even(units, 1000);
                Length::from_units(i64::try_from(units).unwrap_or(i64::MAX)).max(LEAST_ROOM)
            }
        }
    }

    /// Whether it looks at what each fold wraps.
    pub const fn is_by_thickness(&self) -> bool {
        matches!(self.asks, FoldAsks::Radius { .. })
    }
}

/// Fold-in allowances, the usual one first.
///
/// Those by thickness are one model: in a round fold the paper runs along a
/// half circle whose outer radius is half of what the fold wraps and its own
/// thickness. Of nested sheets the inner ones are pushed out by that radius, or
/// by a quarter of its circle where they follow the curve, and by a fifth more
/// with the air that paper keeps between.
pub const FOLD_IN_RULES: &[FoldInRule] = &[
    FoldInRule {
        id: "sixteenth",
        is: FoldIn::Sixteenth,
        asks: FoldAsks::Fixed {
            text: SIXTEENTH,
            cover: SIXTEENTH,
        },
        source: Source::FoldingGuides,
    },
    FoldInRule {
        id: "sixteenth-eighth",
        is: FoldIn::SixteenthEighth,
        asks: FoldAsks::Fixed {
            text: SIXTEENTH,
            cover: EIGHTH,
        },
        source: Source::PanelGuide,
    },
    FoldInRule {
        id: "thirty-second-eighth",
        is: FoldIn::ThirtySecondEighth,
        asks: FoldAsks::Fixed {
            text: THIRTY_SECOND,
            cover: EIGHTH,
        },
        source: Source::LetterFolds,
    },
    FoldInRule {
        id: "three-mm",
        is: FoldIn::ThreeMm,
        asks: FoldAsks::Fixed {
            text: Length::mm(3),
            cover: Length::mm(3),
        },
        source: Source::FolderGuides,
    },
    FoldInRule {
        id: "radius",
        is: FoldIn::Radius,
        asks: FoldAsks::Radius { thousandths: 1000 },
        source: Source::SimpleCreep,
    },
    FoldInRule {
        id: "bend",
        is: FoldIn::Bend,
        asks: FoldAsks::Radius { thousandths: 1571 },
        source: Source::FoldingFormula,
    },
    FoldInRule {
        id: "bend-air",
        is: FoldIn::BendAir,
        asks: FoldAsks::Radius { thousandths: 1885 },
        source: Source::CurvedCreep,
    },
];

/// How the panels of a roll fold shorten towards the inside.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RollRule {
    /// Each inner panel is this much narrower than the one round it, on text
    /// stock.
    pub text: Length,
    /// The same on cover stock.
    pub cover: Length,
    /// The innermost panel is this much narrower than the one round it.
    pub last: Length,
    /// Where the rule comes from.
    pub source: Source,
}

/// The roll fold's steps. The two outermost panels are equal.
pub const ROLL_RULE: RollRule = RollRule {
    text: Length::sixty_fourths(6),
    cover: EIGHTH,
    last: SIXTEENTH,
    source: Source::FoldingGuides,
};

/// The gap between the two leaves of a closed gate.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct GateGapRule {
    /// Its lasting name in stored recipes.
    pub id: &'static str,
    /// The whole gap; each leaf gives half.
    pub gap: Length,
    /// Where the rule comes from.
    pub source: Source,
}

/// Gate gaps, narrow first.
pub const GATE_GAP_RULES: &[GateGapRule] = &[
    GateGapRule {
        id: "eighth",
        gap: EIGHTH,
        source: Source::BinderyPage,
    },
    GateGapRule {
        id: "quarter",
        gap: QUARTER,
        source: Source::FoldingStyles,
    },
];

/// A weight from which paper is scored before it is folded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ScoreThreshold {
    /// Paper heavier than this is scored.
    pub above: Weight,
    /// Where the threshold comes from.
    pub source: Source,
}

/// Score thresholds, lightest first; the first is the safe one.
pub const SCORE_THRESHOLDS: &[ScoreThreshold] = &[
    ScoreThreshold {
        above: Weight::grams(150),
        source: Source::CreasingGuide,
    },
    ScoreThreshold {
        above: Weight::grams(170),
        source: Source::CreasingArticle,
    },
    ScoreThreshold {
        above: Weight::grams(200),
        source: Source::FinishingGlossary,
    },
];
