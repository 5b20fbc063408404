//! Which ways a part may lie on the sheet it is cut from, and which is best.

use crate::paper::{Grain, Print, Stock, StockSide};
use crate::plane::{FaceFrame, PieceFrame, Placement, Size, Turn};
use crate::recipe::{Face, Lay, Side};
use crate::sorted::InOrder as _;

/// How a lay does on the recipe's paper.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LayReport {
    /// The lay.
    pub lay: Lay,
    /// The faces that are to read upright and do so with it: of a strip those
    /// the maker marked, of a layer the one it lies on.
    pub upright: Vec<Face>,
    /// Those of them that read upright with no lay, for which this one comes
    /// nearest to it.
    pub nearest: Vec<Face>,
    /// How many one sheet gives, all laid alike in rows; none where it does
    /// not fit so.
    pub per_sheet: i64,
    /// Whether the folds run along the paper's grain, where that is known: of a
    /// layer, the folds of what carries it. `None` where there are none.
    pub along_grain: Option<bool>,
}

/// What a maker sees of how a layer lies on its sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LayerLies {
    /// Where the head of its print is, as its reader sees the layer.
    Head(Turn),
    /// Its print has no direction: whether the folds of what carries it run along
    /// its grain.
    AlongGrain(bool),
    /// Neither print nor grain tells: whether its width runs across the sheet, or
    /// up it.
    Across(bool),
}

impl LayReport {
    /// What a maker sees of how a layer of that paper lies. A print that reads
    /// both ways is told by its nearer head.
    pub fn of_layer(&self, stock: &Stock) -> LayerLies {
        let shows = self.lay.stock_side(Side::A);
        let head = self.lay.head_on(stock, Side::A);
        match (head, stock.side(shows).print, self.along_grain) {
            (Some(Turn::Half), Print::TwoWay, _) => LayerLies::Head(Turn::None),
            (Some(Turn::Right), Print::TwoWay, _) => LayerLies::Head(Turn::Left),
            (Some(head), ..) => LayerLies::Head(head),
            (None, _, Some(along)) => LayerLies::AlongGrain(along),
            (None, _, None) => LayerLies::Across(self.lay.runs_across()),
        }
    }
}

/// Something that keeps a part from lying on its sheet in another way.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Ask {
    /// The maker chose how it lies.
    Maker,
    /// The two sides of its paper look different.
    Side,
    /// Its print has a direction.
    Print,
    /// The folds run along the grain.
    Grain,
}

impl Ask {
    /// Every one, the firmest first.
    pub const ALL: [Self; 4] = [Self::Maker, Self::Side, Self::Print, Self::Grain];
}

/// How a part lies on its sheet, and how else it might.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LayAdvice {
    /// The lay to use: the maker's choice, or else the best.
    pub lay: Lay,
    /// Every lay, the best first.
    pub lays: Vec<LayReport>,
    /// The lays that give the same part: it looks like the one cut with the lay
    /// to use, folds along the grain where that does, and lies across the sheet
    /// or up it where the maker said so. The best first; never empty.
    pub allowed: Vec<Lay>,
    /// What keeps it from lying in any other way; nothing where all lays give
    /// the same part.
    pub asks: Vec<Ask>,
    /// Marked faces that no lay makes upright together.
    pub conflicts: Vec<(Face, Face)>,
    /// Marked faces that no lay makes upright, for their panels lie at a slant.
    pub slants: Vec<Face>,
}

impl LayAdvice {
    /// How the lay to use does; `None` where that lay is none.
    pub fn used(&self) -> Option<&LayReport> {
        self.lays.iter().find(|report| report.lay == self.lay)
    }

    /// How many a sheet gives with the lay to use; none where it does not fit.
    pub fn per_sheet(&self) -> i64 {
        self.used().map_or(0, |report| report.per_sheet)
    }

    /// The maker has said from which part of the sheet it is cut: it lies in no other
    /// way.
    pub(crate) fn lies_only_so(&mut self) {
        let lay = self.lay;
        self.allowed.retain(|other| *other == lay);
        if self.asks.first() != Some(&Ask::Maker) {
            self.asks.insert(0, Ask::Maker);
        }
    }

    /// Whether, with the lay to use, the folds run across the paper's grain.
    pub(crate) fn is_across_grain(&self) -> bool {
        let used = self.used();
        used.is_some_and(|report| report.along_grain == Some(false))
    }
}

/// A side whose print should be upright.
pub(crate) struct Marked {
    /// The face that is read so.
    pub(crate) face: Face,
    /// The side of the part that is seen there.
    pub(crate) side: Side,
    /// From the part to its reader; `None` where nobody comes to read it.
    pub(crate) place: Option<Placement<PieceFrame, FaceFrame>>,
}

/// What is to be laid on a sheet.
pub(crate) struct ToLay<'a> {
    /// The paper.
    pub(crate) stock: &'a Stock,
    /// The part as it is drawn.
    pub(crate) size: Size,
    /// How it can lie.
    pub(crate) lays: Vec<Lay>,
    /// How the maker says it lies.
    pub(crate) chosen: Option<Lay>,
    /// The sides of it that are seen.
    pub(crate) seen: &'static [Side],
    /// What should be upright.
    pub(crate) marked: Vec<Marked>,
    /// How its folds run, or those of what carries it, as it is drawn.
    pub(crate) folds: Option<Turn>,
}

impl ToLay<'_> {
    fn reads(&self, lay: Lay, marked: &Marked) -> bool {
        let place = marked.place.as_ref();
        place.is_some_and(|place| lay.is_upright(self.stock, marked.side, place))
    }

    /// The cosine of its turn, in steps far finer than anyone sees.
    fn nearness(&self, lay: Lay, marked: &Marked) -> Option<i64> {
        let turned = lay.turned(self.stock, marked.side, marked.place.as_ref()?)?;
        #[expect(clippy::cast_possible_truncation, reason = "a cosine is small")]
        let steps = (turned.cos_sin().0 * 1e6).round() as i64;
        Some(steps)
    }

    fn is_nearest(&self, lay: Lay, marked: &Marked) -> bool {
        let all = self.lays.iter();
        let most = all.filter_map(|lay| self.nearness(*lay, marked)).max();
        most.is_some() && self.nearness(lay, marked) == most
    }

    fn report(&self, lay: Lay, slants: &[Face]) -> LayReport {
        let size = lay.size(self.size);
        let upright = self.marked.iter().filter(|it| self.reads(lay, it));
        let slanting = self.marked.iter().filter(|it| slants.contains(&it.face));
        let nearest = slanting.filter(|it| self.is_nearest(lay, it));
        LayReport {
            lay,
            upright: upright.map(|it| it.face).collect(),
            nearest: nearest.map(|it| it.face).collect(),
            per_sheet: self.stock.per_sheet(size),
            along_grain: self.along_grain(lay),
        }
    }

    fn along_grain(&self, lay: Lay) -> Option<bool> {
        let folds = lay.on_sheet().direction(self.folds?).quarter()?;
        match self.stock.grain {
            Grain::Unknown => None,
            Grain::AlongHeight => Some(!folds.is_sideways()),
            Grain::AlongWidth => Some(folds.is_sideways()),
        }
    }

    /// Whether something lets a part lie otherwise than with the lay to use.
    fn lets(&self, ask: Ask, used: Lay, other: Lay) -> bool {
        let look = |lay: Lay, side| self.stock.side(lay.stock_side(side));
        match ask {
            Ask::Maker => self.chosen.is_none() || other.runs_across() == used.runs_across(),
            Ask::Side => {
                let mut seen = self.seen.iter();
                seen.all(|side| look(other, *side) == look(used, *side))
            }
            Ask::Print => self.seen.iter().all(|side| {
                let both = look(used, *side).print == Print::TwoWay;
                let head = |lay: Lay| lay.head_on(self.stock, *side);
                match (head(used), head(other)) {
                    (Some(used), Some(other)) => {
                        other == used || both && other == used.then(Turn::Half)
                    }
                    _ => true,
                }
            }),
            Ask::Grain => {
                self.along_grain(used) != Some(true) || self.along_grain(other) == Some(true)
            }
        }
    }

    /// The marked faces that each read upright with some lay, and never
    /// together.
    fn conflicts(&self, slants: &[Face]) -> Vec<(Face, Face)> {
        let straight = || self.marked.iter().filter(|it| !slants.contains(&it.face));
        let mut conflicts = Vec::new();
        for (at, a) in straight().enumerate() {
            for b in straight().skip(at + 1) {
                let both = |lay: &Lay| self.reads(*lay, a) && self.reads(*lay, b);
                if !self.lays.iter().any(both) {
                    conflicts.push((a.face, b.face));
                }
            }
        }
        conflicts
    }

    /// Tries every lay.
    ///
    /// Best is what makes most marked faces upright, comes nearest to it for
    /// most of those that no lay makes so, fits the sheet, has the face of the
    /// paper outside, gives most from a sheet, and has the folds along the
    /// grain; between equals, the least turn.
    pub(crate) fn advise(&self) -> LayAdvice {
        let slants = self.marked.iter();
        let slants = slants.filter(|it| !self.lays.iter().any(|lay| self.reads(*lay, it)));
        let slants: Vec<Face> = slants.map(|it| it.face).collect();
        let lays = self.lays.iter();
        let mut lays: Vec<_> = lays.map(|lay| self.report(*lay, &slants)).collect();
        lays.put_in_order_by_key(|report| {
            std::cmp::Reverse((
                report.upright.len(),
                report.nearest.len(),
                report.per_sheet > 0,
                report.lay.outside == StockSide::Face,
                report.per_sheet,
                report.along_grain == Some(true),
            ))
        });
        let best = lays.first().map(|report| report.lay);
        let lay = self.chosen.or(best).unwrap_or(Lay::AS_DRAWN);
        let alike = |other: Lay| Ask::ALL.iter().all(|ask| self.lets(*ask, lay, other));
        let allowed = lays.iter().map(|report| report.lay);
        let allowed = allowed.filter(|other| *other == lay || alike(*other));
        let asks = Ask::ALL.into_iter().filter(|ask| {
            let mut others = self.lays.iter();
            others.any(|other| !self.lets(*ask, lay, *other))
        });
        LayAdvice {
            lay,
            allowed: allowed.collect(),
            asks: asks.collect(),
            conflicts: self.conflicts(&slants),
            slants,
            lays,
        }
    }
}
