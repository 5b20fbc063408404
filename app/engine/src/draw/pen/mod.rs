//! How what a drawing means is inked: one table for the screen, for paper and
//! for files that leave the app.
//!
//! Widths, dashes and letters are in millimetres of what is looked at: of the
//! screen, where a line stays as wide however the drawing is scaled, and of
//! paper in a file, which is as large as the card. Widths are of the series of
//! ISO 128-2, each about √2 times the one before, and letters of that of ISO
//! 3098-1 (both from memory).

mod sheet;

pub use sheet::style_sheet;

use super::{Ink, Role};
use crate::paper::Colour;

/// On what a drawing is seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Theme {
    /// On a light table or on paper.
    Light,
    /// On a dark table. Paper keeps its colour, and so does what lies on it.
    Dark,
}

/// What a colour stands for; each theme has its own for it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// The edge of paper, between paper and table.
    Edge,
    /// Folds of both kinds: vermilion.
    Fold,
    /// Cuts, and arrows to the head of a print.
    Cut,
    /// The rim that keeps a line in sight on dark paper.
    Rim,
    /// A line that another piece is laid along.
    Laid,
    /// Glue.
    Glue,
    /// Glue that is refused.
    Refused,
    /// What is cut away.
    Waste,
    /// The ground behind everything.
    Ground,
    /// Lengths.
    Length,
    /// Numbers that can be changed.
    Number,
    /// Names, dimension lines and the marks of a ruler.
    Quiet,
    /// A print on light paper.
    DarkPrint,
    /// A print on dark paper.
    LightPrint,
    /// What makes paper darker that lies at an angle.
    Shade,
}

impl Tone {
    /// All of them.
    pub const ALL: [Self; 15] = [
        Self::Edge,
        Self::Fold,
        Self::Cut,
        Self::Rim,
        Self::Laid,
        Self::Glue,
        Self::Refused,
        Self::Waste,
        Self::Ground,
        Self::Length,
        Self::Number,
        Self::Quiet,
        Self::DarkPrint,
        Self::LightPrint,
        Self::Shade,
    ];

    /// Its colour.
    pub const fn colour(self, theme: Theme) -> Colour {
        let (light, dark) = match self {
            Self::Edge => (0x43_52_4f, 0x94_a5_a0),
            // Three times as light or dark as the rim and the table at least
            // (WCAG 2.2, 1.4.11), on paper of any colour by its rim.
            Self::Fold => (0xb3_36_1b, 0xd9_48_1f),
            Self::Cut | Self::DarkPrint => (0x0b_2b_30, 0x0b_2b_30),
            Self::Rim => (0xff_fd_f7, 0xff_fd_f7),
            Self::Laid => (0x0d_5f_7a, 0x0d_5f_7a),
            Self::Glue => (0xd9_9a_1b, 0xd9_9a_1b),
            Self::Refused => (0xb3_36_1b, 0xff_94_74),
            Self::Waste => (0xd9_d1_bf, 0x26_36_34),
            Self::Ground => (0xff_fd_f7, 0x18_27_26),
            Self::Length => (0x12_30_2f, 0xf0_ea_dc),
            Self::Number => (0x0f_4a_4d, 0x8f_d0_c8),
            Self::Quiet => (0x4a_60_5d, 0xa9_ba_b5),
            Self::LightPrint => (0xff_f8_ea, 0xff_f8_ea),
            Self::Shade => (0, 0),
        };
        Colour::rgb(match theme {
            Theme::Light => light,
            Theme::Dark => dark,
        })
    }
}

/// What something is drawn with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Pen {
    /// Paper, which brings its own colour.
    Paper,
    EdgedPaper,
    Shade,
    DarkPrint,
    LightPrint,
    Ground,
    EdgedGround,
    Glue,
    Refused,
    Waste,
    Shadow,
    Line(Ink),
    /// What keeps a mountain in sight, and so on.
    MountainRim,
    ValleyRim,
    CutRim,
    LaidRim,
    Arrow,
    ArrowRim,
    Number,
    Length,
    Label,
    Graduation,
}

/// How a pen fills.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Filling {
    /// Not at all.
    None,
    /// With what the element brings.
    Own,
    /// With a tone.
    Of(Tone),
    /// With a tone that lets through what lies below, of an opacity from 0 to 1.
    Thin(Tone, f64),
}

/// A line that a pen draws.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stroke {
    pub(super) tone: Tone,
    /// In millimetres.
    pub(super) width: f64,
    /// Dashes and gaps by turns in millimetres; none where it goes through.
    pub(super) dashes: &'static [f64],
    /// Whether its ends and corners are round.
    pub(super) round: bool,
}

/// Letters that a pen writes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Letters {
    /// The height of its capitals in millimetres.
    pub(super) height: f64,
    pub(super) bold: bool,
}

/// What a pen does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Style {
    pub(super) filling: Filling,
    pub(super) stroke: Option<Stroke>,
    pub(super) letters: Option<Letters>,
}

/// How far a rim stands out on each side of its line, in millimetres. (Our own
/// choice: a pixel of a screen at least.)
const RIM: f64 = 0.25;

impl Style {
    const fn area(filling: Filling) -> Self {
        Self {
            filling,
            stroke: None,
            letters: None,
        }
    }

    const fn line(tone: Tone, width: f64) -> Self {
        Self {
            filling: Filling::None,
            stroke: Some(Stroke {
                tone,
                width,
                dashes: &[],
                round: false,
            }),
            letters: None,
        }
    }

    const fn text(tone: Tone, height: f64, bold: bool) -> Self {
        Self {
            letters: Some(Letters { height, bold }),
            ..Self::area(Filling::Of(tone))
        }
    }

    const fn filled(self, filling: Filling) -> Self {
        Self { filling, ..self }
    }

    const fn dashed(self, dashes: &'static [f64]) -> Self {
        match self.stroke {
            Some(stroke) => Self {
                stroke: Some(Stroke { dashes, ..stroke }),
                ..self
            },
            None => self,
        }
    }

    const fn round(self) -> Self {
        match self.stroke {
            Some(stroke) => Self {
                stroke: Some(Stroke {
                    round: true,
                    ..stroke
                }),
                ..self
            },
            None => self,
        }
    }

    fn rim(self) -> Self {
        Self {
            stroke: self.stroke.map(|stroke| Stroke {
                tone: Tone::Rim,
                width: stroke.width + 2.0 * RIM,
                ..stroke
            }),
            ..self
        }
    }
}

impl Pen {
    /// All of them.
    pub(super) const ALL: [Self; 31] = [
        Self::Paper,
        Self::EdgedPaper,
        Self::Shade,
        Self::DarkPrint,
        Self::LightPrint,
        Self::Ground,
        Self::EdgedGround,
        Self::Glue,
        Self::Refused,
        Self::Waste,
        Self::Shadow,
        Self::Line(Ink::Edge),
        Self::Line(Ink::Section),
        Self::Line(Ink::Mountain),
        Self::Line(Ink::Valley),
        Self::Line(Ink::Cut),
        Self::Line(Ink::Faint),
        Self::Line(Ink::Hidden),
        Self::Line(Ink::Laid),
        Self::Line(Ink::Dimension),
        Self::Line(Ink::Ruler),
        Self::MountainRim,
        Self::ValleyRim,
        Self::CutRim,
        Self::LaidRim,
        Self::Arrow,
        Self::ArrowRim,
        Self::Number,
        Self::Length,
        Self::Label,
        Self::Graduation,
    ];

    /// The table.
    pub(super) fn style(self) -> Style {
        match self {
            Self::Paper => Style::area(Filling::Own),
            Self::EdgedPaper => Style::line(Tone::Edge, 0.25).filled(Filling::Own),
            // How dark it is, the element brings.
            Self::Shade => Style::area(Filling::Of(Tone::Shade)),
            Self::DarkPrint => Style::area(Filling::Thin(Tone::DarkPrint, 0.5)),
            Self::LightPrint => Style::area(Filling::Thin(Tone::LightPrint, 0.5)),
            Self::Ground => Style::area(Filling::Of(Tone::Ground)),
            Self::EdgedGround => Style::line(Tone::Edge, 0.25).filled(Filling::Of(Tone::Ground)),
            Self::Glue => Style::line(Tone::Glue, 0.35).filled(Filling::Thin(Tone::Glue, 0.55)),
            Self::Refused => Style::line(Tone::Refused, 0.5)
                .filled(Filling::Thin(Tone::Refused, 0.35))
                .dashed(&[1.5, 1.0]),
            Self::Waste => Style::area(Filling::Thin(Tone::Waste, 0.75)),
            // Five lie on each other where no light comes at all.
            Self::Shadow => Style::area(Filling::Thin(Tone::Shade, 0.05)),
            Self::Line(ink) => line(ink),
            Self::MountainRim => line(Ink::Mountain).rim(),
            Self::ValleyRim => line(Ink::Valley).rim(),
            Self::CutRim => line(Ink::Cut).rim(),
            Self::LaidRim => line(Ink::Laid).rim(),
            Self::Arrow => Style::line(Tone::Cut, 0.5).round(),
            Self::ArrowRim => Self::Arrow.style().rim(),
            Self::Number => Style::text(Tone::Number, 3.5, true),
            Self::Length => Style::text(Tone::Length, 3.5, false),
            Self::Label => Style::text(Tone::Quiet, 3.5, false),
            Self::Graduation => Style::text(Tone::Quiet, 2.5, false),
        }
    }

    /// What a line that lies on paper is drawn on, so that it stays in sight on
    /// dark paper too; none for lines beside it.
    pub(super) const fn rim_of(ink: Ink) -> Option<Self> {
        match ink {
            Ink::Mountain => Some(Self::MountainRim),
            Ink::Valley => Some(Self::ValleyRim),
            Ink::Cut => Some(Self::CutRim),
            Ink::Laid => Some(Self::LaidRim),
            Ink::Edge | Ink::Section | Ink::Faint | Ink::Hidden | Ink::Dimension | Ink::Ruler => {
                None
            }
        }
    }

    /// The class of what it draws. A browser is told there how to draw it, so
    /// that what moves stays small.
    pub(super) const fn class(self) -> &'static str {
        match self {
            Self::Paper => "paper",
            Self::EdgedPaper => "paper edged",
            Self::Shade => "shade",
            Self::DarkPrint => "motif dark",
            Self::LightPrint => "motif light",
            Self::Ground => "ground",
            Self::EdgedGround => "ground edged",
            Self::Glue => "glue",
            Self::Refused => "refused",
            Self::Waste => "waste",
            Self::Shadow => "shadow",
            Self::Line(ink) => match ink {
                Ink::Edge => "edge",
                Ink::Section => "section",
                Ink::Mountain => "mountain",
                Ink::Valley => "valley",
                Ink::Cut => "cut",
                Ink::Faint => "faint",
                Ink::Hidden => "hidden",
                Ink::Laid => "laid",
                Ink::Dimension => "dimension",
                Ink::Ruler => "ruler",
            },
            Self::MountainRim => "mountain rim",
            Self::ValleyRim => "valley rim",
            Self::CutRim => "cut rim",
            Self::LaidRim => "laid rim",
            Self::Arrow => "arrow",
            Self::ArrowRim => "arrow rim",
            Self::Number => "number",
            Self::Length => "length",
            Self::Label => "label",
            Self::Graduation => "graduation",
        }
    }
}

/// Both kinds of fold have one colour. A valley is dashed and a mountain dashed
/// and dotted, as drawings of folds have it, and a mountain is heavier: it rises
/// towards who looks at it (common practice; the lengths of dashes our own).
const fn line(ink: Ink) -> Style {
    match ink {
        Ink::Edge => Style::line(Tone::Edge, 0.35),
        Ink::Section => Style::line(Tone::Length, 0.7).round(),
        Ink::Mountain => Style::line(Tone::Fold, 0.7).dashed(&[2.8, 1.0, 0.7, 1.0]),
        Ink::Valley => Style::line(Tone::Fold, 0.5).dashed(&[2.0, 1.2]),
        Ink::Cut => Style::line(Tone::Cut, 0.5).round(),
        Ink::Faint => Style::line(Tone::Edge, 0.25).dashed(&[2.0, 1.2]),
        Ink::Hidden => Style::line(Tone::Edge, 0.25).dashed(&[0.5, 1.0]),
        Ink::Laid => Style::line(Tone::Laid, 0.5).dashed(&[0.0, 1.0]).round(),
        Ink::Dimension | Ink::Ruler => Style::line(Tone::Quiet, 0.25),
    }
}

impl From<Role> for Pen {
    fn from(role: Role) -> Self {
        match role {
            Role::Number(_) => Self::Number,
            Role::Length => Self::Length,
            Role::Label => Self::Label,
            Role::Graduation => Self::Graduation,
        }
    }
}
