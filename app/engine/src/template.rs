//! The parts of a card as they are cut, scored and glued, flat and exact: what a
//! template shows, and what a file of outlines holds.

use crate::card::Card;
use crate::cut_list::Blank;
use crate::fold::Glued;
use crate::length::Length;
use crate::paper::{Grain, Print, Stock, StockId};
use crate::part::Part;
use crate::pattern::{Line, LineId};
use crate::plane::{PieceFrame, Placement, Point, Polygon, Rect, Region, Segment, Size, Turn};
use crate::recipe::{Fold, LayerId, Recipe, Side, StripId};

/// Where glue goes on a part.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Glue {
    /// Whether it goes on the side that is seen, or on the one behind it.
    pub is_seen: bool,
    /// Its outlines, and those of what it leaves out.
    pub outlines: Vec<Polygon<PieceFrame>>,
}

/// A part, flat, from one of its sides. Its lower left corner, before anything is
/// cut out of it, is the origin of its frame.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Template {
    /// What becomes of it.
    pub part: Part,
    /// The paper.
    pub stock: StockId,
    /// The side that is seen: of a strip, A is the inside of the card; of a layer,
    /// its face.
    pub seen: Side,
    /// From side to side and from foot to head as it is drawn here.
    pub size: Size,
    /// How many a card takes.
    pub per_card: u32,
    /// Its edge, and the edges of what is cut out of it.
    pub edges: Vec<Polygon<PieceFrame>>,
    /// The cuts within it.
    pub cuts: Vec<Segment<PieceFrame>>,
    /// Its creases, each as it folds seen from the side that is seen.
    pub folds: Vec<(Fold, Segment<PieceFrame>)>,
    /// Where glue goes.
    pub glue: Vec<Glue>,
    /// Where the print of the side that is seen has its head, and whether its foot
    /// may be taken for it; `None` where it has no direction.
    pub head: Option<(Turn, bool)>,
    /// Whether the paper's grain runs from foot to head, and not from side to side;
    /// `None` where it is not known.
    pub grain_upright: Option<bool>,
}

/// All parts of a card in the order of the work, from one of their sides.
pub fn templates(recipe: &Recipe, card: &Card, seen: Side) -> Vec<Template> {
    let blanks = card.cut_list.blanks.iter();
    let all = blanks.filter_map(|blank| {
        let front = match blank.part {
            Part::Strip(of) => of_strip(recipe, card, of, blank)?,
            Part::Layer(id) => of_layer(card, id, blank)?,
        };
        let front = front.laid_on(recipe.stock(blank.stock), blank, seen);
        Some(match seen {
            Side::A => front,
            Side::B => front.behind(),
        })
    });
    all.collect()
}

fn empty(blank: &Blank) -> Template {
    Template {
        part: blank.part,
        stock: blank.stock,
        seen: Side::A,
        size: blank.size,
        per_card: blank.per_card,
        edges: Vec::new(),
        cuts: Vec::new(),
        folds: Vec::new(),
        glue: Vec::new(),
        head: None,
        grain_upright: None,
    }
}

fn of_strip(recipe: &Recipe, card: &Card, of: StripId, blank: &Blank) -> Option<Template> {
    let (piece, strip) = (card.laid.piece(of)?, recipe.strip(of)?);
    let mut template = empty(blank);
    template.edges.push(piece.outline.clone());
    template.edges.extend(piece.holes.iter().cloned());
    let scores = piece.creases.iter().zip(&strip.panels).enumerate();
    let scores = scores.map(|(score, (crease, panel))| {
        let line = LineId::of_strip_score(of, score, panel.id);
        (line, crease.fold, Segment::new(crease.from, crease.to))
    });
    let lines = piece.lines.iter();
    let lines = lines.filter_map(|line| Some((line.id, line.fold()?, line.course())));
    for (line, fold, course) in scores.chain(lines) {
        let stretches = card.laid.stretches(line, course).into_iter();
        template.folds.extend(stretches.map(|it| (fold, it)));
    }
    let cuts = piece.lines.iter().filter(|line| line.fold().is_none());
    template.cuts.extend(cuts.map(Line::course));
    let folded = card.folded.iter();
    let glued = folded.flat_map(|folded| &folded.glued);
    let glued = glued.filter(|glued| StripId::Piece(glued.join.0) == of);
    template.glue = glued.filter_map(|it| glue_of_join(card, it)).collect();
    Some(template)
}

/// Where a piece is glued to what carries it: all of the panel that lies there.
fn glue_of_join(card: &Card, glued: &Glued) -> Option<Glue> {
    let facet = &card.laid.panels.get(glued.part)?.facet;
    let outlines = std::iter::once(&facet.outline).chain(&facet.holes);
    Some(Glue {
        // On side A of what carries it, what is not mirrored shows its own side A.
        is_seen: (glued.face.side == Side::A) == glued.place.mirrored,
        outlines: outlines.cloned().collect(),
    })
}

fn of_layer(card: &Card, id: LayerId, blank: &Blank) -> Option<Template> {
    let laid = card.laid.layer(id)?;
    let mut template = empty(blank);
    let (left, bottom) = (laid.at.low.x, laid.at.low.y);
    template.edges = polygons(&laid.region(), |at| Point::new(at.x - left, at.y - bottom));
    let gluing = card.gluings.iter().find(|gluing| gluing.layer == id);
    let wanted = gluing.and_then(|gluing| {
        let wanted = gluing.wanted.as_ref()?;
        if gluing.refused {
            gluing.safe.as_ref()
        } else {
            Some(wanted)
        }
    });
    // The back is turned over like a page.
    let glue = wanted.map(|wanted| Glue {
        is_seen: false,
        outlines: polygons(wanted, |at| Point::new(blank.size.width - at.x, at.y)),
    });
    template.glue.extend(glue);
    Some(template)
}

/// The outlines of a region, and of what it leaves out, carried elsewhere.
fn polygons<F>(
    region: &Region<F>,
    carried: impl Fn(Point<F>) -> Point<PieceFrame>,
) -> Vec<Polygon<PieceFrame>> {
    let contours = region.contours();
    let polygons = contours.map(|contour| Polygon {
        corners: contour.into_iter().map(&carried).collect(),
    });
    polygons.collect()
}

impl Template {
    /// The same, which is drawn from side A, with how the print of a side and the
    /// grain run.
    fn laid_on(mut self, stock: Option<&Stock>, blank: &Blank, seen: Side) -> Self {
        let (Some(stock), Some(lies)) = (stock, &blank.lies) else {
            return self;
        };
        let print = stock.side(lies.lay.stock_side(seen)).print;
        let head = lies.lay.head_on(stock, seen);
        self.head = head.map(|head| (head, print == Print::TwoWay));
        self.grain_upright = match stock.grain {
            Grain::Unknown => None,
            Grain::AlongHeight => Some(lies.lay.runs_across()),
            Grain::AlongWidth => Some(!lies.lay.runs_across()),
        };
        self
    }

    /// The same from the side behind, turned over like a page.
    #[must_use]
    fn behind(self) -> Self {
        let mut behind = self.placed(true, Turn::None);
        behind.seen = self.seen.other();
        for (fold, _) in &mut behind.folds {
            *fold = fold.flipped();
        }
        for glue in &mut behind.glue {
            glue.is_seen = !glue.is_seen;
        }
        behind
    }

    /// The same a quarter turned to the left.
    #[must_use]
    pub fn turned(&self) -> Self {
        self.placed(false, Turn::Left)
    }

    fn placed(&self, mirrored: bool, turn: Turn) -> Self {
        let origin = Point::new(Length::ZERO, Length::ZERO);
        let about = Placement::<PieceFrame, PieceFrame>::new(mirrored, turn, origin);
        let blank = about.rect(&Rect::at(origin, self.size));
        let place = Placement::new(mirrored, turn, Point::new(-blank.low.x, -blank.low.y));
        let polygons = |all: &[Polygon<PieceFrame>]| {
            let all = all.iter().map(|polygon| place.polygon(polygon));
            all.collect::<Vec<_>>()
        };
        let segment =
            |it: &Segment<PieceFrame>| Segment::new(place.point(it.from), place.point(it.to));
        let glue = self.glue.iter().map(|glue| Glue {
            is_seen: glue.is_seen,
            outlines: polygons(&glue.outlines),
        });
        let head = self.head.and_then(|(head, both)| {
            let head = place.direction(head).quarter()?;
            Some((head, both))
        });
        Self {
            size: blank.size(),
            edges: polygons(&self.edges),
            cuts: self.cuts.iter().map(segment).collect(),
            folds: self
                .folds
                .iter()
                .map(|(fold, it)| (*fold, segment(it)))
                .collect(),
            glue: glue.collect(),
            head,
            grain_upright: self.grain_upright.map(|it| it != turn.is_sideways()),
            ..*self
        }
    }
}
