//! What can be wrong with the pieces of a card, and with how they fold.

use foldwright_engine::length::Length;
use foldwright_engine::pattern::{Fault, Misfit};
use foldwright_engine::plane::Segment;
use foldwright_engine::problem::{
    CutoutFinding, FoldingFinding, LaidFinding, OpeningFinding, OutlineFinding, Unclosed,
};
use foldwright_engine::recipe::{Fold, PieceId, Shaped, StripId};

use super::{There, at, degrees, mm, size};

impl There<'_> {
    pub(crate) fn laid(&self) -> Vec<LaidFinding> {
        let of = StripId::Piece(self.piece);
        every!(LaidFinding:
            LaidFinding::NoPlace(_) => [LaidFinding::NoPlace(self.piece)],
            LaidFinding::NoJoin { .. } => [LaidFinding::NoJoin {
                piece: self.piece,
                part: self.tab,
                on: self.panels[0],
            }],
            LaidFinding::OnNothing(_) => [LaidFinding::OnNothing(self.layer)],
            LaidFinding::Falls { .. } => [
                LaidFinding::Falls { of: StripId::Base, parts: 1 },
                LaidFinding::Falls { of, parts: 4 },
            ],
        )
    }

    pub(crate) fn outline(&self) -> Vec<OutlineFinding> {
        let (layer, window) = (Shaped::Layer(self.layer), Shaped::Window(self.cutout));
        every!(OutlineFinding:
            OutlineFinding::TooRound(_) => [OutlineFinding::TooRound(layer)],
            OutlineFinding::Crossed(_) => [OutlineFinding::Crossed(window)],
            OutlineFinding::NoRoom(_) => [OutlineFinding::NoRoom(self.layer)],
        )
    }

    pub(crate) fn cutout() -> Vec<CutoutFinding> {
        every!(CutoutFinding:
            CutoutFinding::NoPanel => [CutoutFinding::NoPanel],
            CutoutFinding::Beside => [CutoutFinding::Beside],
            CutoutFinding::TooManyCorners => [CutoutFinding::TooManyCorners],
            CutoutFinding::NoFreeCorner => [CutoutFinding::NoFreeCorner],
            CutoutFinding::AtScore => [CutoutFinding::AtScore],
            CutoutFinding::LeavesNothing => [CutoutFinding::LeavesNothing],
            CutoutFinding::Parts => [CutoutFinding::Parts],
        )
    }

    pub(crate) fn faults(&self) -> Vec<Fault> {
        let (spot, part) = (at(140, 95), Segment::new(at(10, 20), at(14, 20)));
        let lines = [self.crease, self.cut];
        every!(Fault:
            Fault::TooMany => [Fault::TooMany],
            Fault::TooFar { .. } => [Fault::TooFar { at: at(10_001, 0) }],
            Fault::Outline { .. } => [Fault::Outline { at: spot }],
            Fault::Hole { .. } => [Fault::Hole { hole: 1, at: spot }],
            Fault::NoLength { .. } => [Fault::NoLength { line: self.cut, at: spot }],
            Fault::Outside { .. } => [Fault::Outside { line: self.crease, part }],
            Fault::AlongEdge { .. } => [Fault::AlongEdge { line: self.cut, part }],
            Fault::Overlap { .. } => [Fault::Overlap { lines, part }],
            Fault::Crossing { .. } => [Fault::Crossing { lines, at: spot }],
            Fault::Dangles { .. } => [Fault::Dangles { line: self.crease, end: spot }],
            Fault::SamePanel { .. } => [Fault::SamePanel { line: self.crease, part }],
            Fault::Loose { .. } => [Fault::Loose { facet: 0, at: spot }],
        )
    }

    pub(crate) fn misfits(&self) -> Vec<Misfit> {
        let (at, gap) = (at(140, 95), Length::hundredths_mm(340));
        let opening = |is_hole, turned_over| Misfit::Opening {
            at,
            is_hole,
            turned_over,
            gap,
        };
        let angles = |first: i32| Misfit::Angles {
            at,
            sums: [degrees(first), degrees(360 - first)],
            gap,
        };
        every!(Misfit:
            Misfit::OddCreases { .. } => [Misfit::OddCreases { at, count: 3 }],
            Misfit::Angles { .. } => [angles(190), angles(250)],
            Misfit::Folds { .. } => [Misfit::Folds { at, mountains: 0, valleys: 4 }],
            Misfit::Opening { .. } => [
                opening(true, true),
                opening(true, false),
                opening(false, true),
                opening(false, false),
            ],
            Misfit::Drift { .. } => [Misfit::Drift {
                line: self.score,
                at,
                gap: Length::microns(2),
            }],
        )
    }

    pub(crate) fn folding(&self) -> Vec<FoldingFinding> {
        let [a, b, c, d] = self.panels[..4] else {
            unreachable!("it has four");
        };
        let trapped = |panels, fold| FoldingFinding::Trapped {
            panels,
            between: [a, d],
            fold,
        };
        let (one, two) = (vec![self.piece], vec![self.piece, self.piece]);
        let left_out = |pieces: &Vec<PieceId>, why| FoldingFinding::LeftOut {
            pieces: pieces.clone(),
            why,
        };
        every!(Unclosed:
            Unclosed::NoOrder(_) => [Unclosed::NoOrder(vec![a, b])],
            Unclosed::Undecided => [Unclosed::Undecided],
            Unclosed::Misfits => [Unclosed::Misfits],
        );
        every!(FoldingFinding:
            FoldingFinding::NoPanel => [FoldingFinding::NoPanel],
            FoldingFinding::Trapped { .. } => [
                trapped([b, b], Fold::Mountain),
                trapped([b, b], Fold::Valley),
                trapped([b, c], Fold::Mountain),
                trapped([b, c], Fold::Valley),
            ],
            FoldingFinding::NoOrder(_) => [
                FoldingFinding::NoOrder(vec![a, b, c]),
                FoldingFinding::NoOrder(vec![a.part(2), b, c, d]),
            ],
            FoldingFinding::Undecided => [FoldingFinding::Undecided],
            FoldingFinding::OtherOrder => [FoldingFinding::OtherOrder],
            FoldingFinding::LeftOut { .. } => [
                left_out(&one, Unclosed::NoOrder(vec![a, b])),
                left_out(&one, Unclosed::Misfits),
                left_out(&two, Unclosed::Undecided),
            ],
        )
    }

    pub(crate) fn opening(&self) -> Vec<OpeningFinding> {
        let panels = [self.panels[0], self.panels[1]];
        let locked = |line, glued| OpeningFinding::Locked { line, glued };
        let jam = |line| OpeningFinding::Jam {
            line,
            opened: degrees(84),
        };
        every!(OpeningFinding:
            OpeningFinding::Locked { .. } => [
                locked(self.score, Some(self.piece)),
                locked(self.crease, None),
            ],
            OpeningFinding::Jam { .. } => [jam(self.tab_score), jam(self.crease)],
            OpeningFinding::Unclosed { .. } => [OpeningFinding::Unclosed {
                panels: self.panels[..4].to_vec(),
                gap: mm(2),
            }],
            OpeningFinding::Collision { .. } => [OpeningFinding::Collision {
                panels,
                opened: degrees(120),
            }],
            OpeningFinding::TooCoupled => [OpeningFinding::TooCoupled],
            OpeningFinding::PastThePages { .. } => [OpeningFinding::PastThePages {
                panel: self.panels[2].part(1),
                by: mm(20),
                finished: size(120, 100),
            }],
        )
    }
}
