//! What a step states, as values: lengths and lasting names, never a text. A
//! line has the name it has in its pattern.

use crate::length::Length;
use crate::paper::{Envelope, StockId, StockSide};
use crate::part::Part;
use crate::pattern::LineId;
use crate::plane::{Edge, Size, Turn};
use crate::recipe::{
    CutoutId, EdgeSide, Face, Fold, LayerId, OwnStepId, PanelId, PieceId, Seat, Side, StripId,
    Which,
};

/// What to do, in a few words.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Title {
    /// Take out paper and tools.
    Gather,
    /// Cut with the fence so far from the blade.
    CutAt(Length),
    /// Cut a part from its sheet.
    Cut(Part),
    /// Make sure of a part that is cut.
    Check(Part),
    /// Trim a part that is cut already.
    Trim {
        /// What is trimmed.
        part: Part,
        /// The size it gets.
        to: Size,
    },
    /// Cut something out of a strip.
    CutOut(CutoutId),
    /// Cut along a line.
    CutLine(LineId),
    /// Score a strip.
    Score {
        /// Which strip.
        of: StripId,
        /// The side that is up, where there are several passes.
        up: Option<Side>,
    },
    /// Score a crease besides the scores.
    ScoreLine(LineId),
    /// Fold the base.
    Fold {
        /// Along this line.
        line: LineId,
        /// How many more creases lie on it by then.
        more: usize,
    },
    /// Close the card, all folds at once.
    Close,
    /// Fold a piece before it is glued in.
    FoldPiece(PieceId),
    /// Decorate a layer.
    Decorate(LayerId),
    /// Glue a layer to what it lies on.
    Glue(LayerId, Seat),
    /// Lay a layer on what it lies on without glue.
    LayOn(LayerId, Seat),
    /// Glue a panel of a piece.
    GlueIn {
        /// The panel.
        part: PanelId,
        /// The piece it belongs to.
        of: PieceId,
        /// What it is glued to.
        on: Face,
    },
    /// Let the glue dry.
    Dry,
    /// Find an envelope.
    Envelope,
    /// What the maker says of a step of their own.
    Own(OwnStepId),
}

/// How a sheet lies, face up, whose width alone does not tell which way round.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SheetLies {
    /// Either way.
    Either,
    /// With the print upright.
    Upright,
    /// With the head of the print under it away from the maker.
    HeadAway,
    /// With the head of the print under it towards the maker.
    HeadTowards,
}

/// How a piece lies on the sheet it is cut from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Runs {
    /// Its length across the print: landscape.
    AcrossPrint,
    /// Its length up the print: portrait.
    UpPrint,
    /// Its length across a sheet without direction.
    AcrossSheet,
    /// Its length up a sheet without direction.
    UpSheet,
}

/// A form that is not a plain rectangle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// With corners of this radius.
    Rounded(Length),
    /// Round, so far across.
    Circle(Length),
    /// Oval.
    Oval(Size),
    /// With a top in one arc that rises so far.
    Arched(Length),
    /// As a die cuts it.
    Drawn,
    /// An even border inside what carries it.
    Follows,
}

/// How an edge runs that is not straight.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EdgeRuns {
    /// In one arc, farthest out in its middle.
    Arch,
    /// In one arc, farthest in at its middle.
    Hollow,
    /// In so many arcs.
    Scallops(u8),
    /// To so many points.
    Points(u8),
    /// Along a drawn line.
    Drawn,
}

/// How a strip comes to lie for the next pass.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Move {
    /// Turned over, the same edge at the fence.
    Over,
    /// Turned over, the other edge at the fence.
    EndForEnd,
    /// Turned on the table, the other edge at the fence.
    HalfRound,
    /// Left as it lies.
    Stay,
}

/// What to cut off a layer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Off {
    /// So much of its width.
    Width(Length),
    /// So much of its height.
    Height(Length),
    /// So much of both.
    Both(Size),
}

/// An edge of a sheet or a strip that is to lie against the fence.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AtFence {
    /// One so long.
    Long(Length),
    /// Of a square, a side of its print.
    Side,
    /// Of a square, the head or the foot of its print.
    HeadOrFoot,
    /// Of a square without print, one along the grain.
    AlongGrain,
    /// Of a square without print, one across the grain.
    AcrossGrain,
    /// Of a square that is the same all round, any.
    Any,
}

/// What is laid against the fence.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Taken {
    /// Whole sheets.
    Sheet,
    /// Scraps of that size.
    Scrap(Size),
    /// Strips of that size.
    Strip(Size),
}

/// What comes off at a setting.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Falls {
    /// Pieces for a part.
    Piece(Part),
    /// Strips to be cut further.
    Strip(Size),
    /// What is left over.
    Offcut(Size),
}

/// What to do, one thing at a time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Instruction {
    /// There are so many cards; each step is done for all of them.
    Batch(u32),
    /// Each kind of piece is counted on sheets of its own: it takes no more.
    OwnSheets,
    /// Pieces share sheets where that saves paper, and are cut in the order of the
    /// steps.
    SharedSheets,
    /// Set the fence so far from the blade.
    SetFence(Length),
    /// Lay sheets, scraps or strips against the fence.
    Take {
        /// Their paper.
        stock: StockId,
        /// What they are.
        what: Taken,
        /// How many.
        count: u32,
        /// Which edge goes against the fence.
        edge: AtFence,
        /// Whether they are turned a quarter from how they lay before.
        turned: bool,
    },
    /// Cut them so often, each time with the new edge against the fence.
    CutTimes {
        /// How often.
        times: usize,
        /// How many lie on each other at most; `None` where there is only one.
        stack: Option<u32>,
    },
    /// What comes off, by its number in the picture, counted from 0.
    Falls {
        /// Its number.
        number: usize,
        /// How many of it.
        count: u32,
        /// What it is.
        what: Falls,
    },
    /// Pieces with that number are for another part too.
    AlsoFor {
        /// The number.
        number: usize,
        /// The other part.
        part: Part,
    },
    /// Measure a part that is cut from edge to edge.
    MeasureAcross(Part),
    /// A part is a whole sheet.
    WholeSheet(Part, StockId),
    /// How a part that is cut lies to be looked at, by how its sheet lay.
    LayPiece(Part, SheetLies),
    /// Lay the sheet face up.
    LaySheet {
        /// Which way round.
        lies: SheetLies,
        /// The length of the side towards the maker.
        side: Length,
    },
    /// Measure what is cut from a corner of its sheet.
    MeasureFromCorner(Part),
    /// Cut a part at a place of its sheet, which lies face up.
    CutAt {
        /// Which part.
        part: Part,
        /// How far its left edge is from that of the sheet.
        left: Length,
        /// How far its upper edge is from that of the sheet.
        top: Length,
    },
    /// Cut a strip from the sheet.
    CutStrip {
        /// Which strip.
        of: StripId,
        /// Its length and height.
        size: Size,
        /// How it lies on the sheet.
        runs: Runs,
    },
    /// Which side of a strip is up as it lies on the sheet, and where its first
    /// panel is; `None` for the left edge of its only one.
    LiesThere {
        /// Which strip.
        of: StripId,
        /// The side that is up.
        up: Side,
        /// Its first panel.
        first: Option<PanelId>,
        /// Where that is.
        at: Edge,
    },
    /// Which side of the paper becomes side B of a strip.
    Outside(StripId, StockSide),
    /// Cut a layer from its paper.
    CutLayer(LayerId, StockId),
    /// The height of a layer runs up the print.
    UpPrint(LayerId),
    /// Towards which edge of its sheet the top of a layer lies.
    TopLies(LayerId, Edge),
    /// Cut a layer as a rectangle first.
    RectangleFirst(LayerId),
    /// Then give a layer its form.
    Shape(LayerId, Form),
    /// Lay a strip side A up, and measure from its left and its bottom edge.
    MeasureFlat(StripId),
    /// Draw something that is cut out, on side A of a panel.
    DrawWindow(CutoutId, PanelId),
    /// Cut it out: a rectangle where no form is given.
    CutWindow(CutoutId, Option<Form>),
    /// Measure the radius of corners from the end of the strip at a panel.
    MeasureRadius(PanelId),
    /// Round corners of a panel.
    RoundCorners {
        /// The panel.
        panel: PanelId,
        /// Which corners.
        which: Which,
        /// The radius.
        radius: Length,
    },
    /// Measure the depth of an edge from a panel's edge inwards.
    MeasureDepth(PanelId, EdgeSide),
    /// Cut an edge of a panel.
    CutEdge {
        /// The panel.
        panel: PanelId,
        /// How it runs.
        runs: EdgeRuns,
        /// How far in.
        depth: Length,
    },
    /// Mark both ends of a line and score between them.
    ScoreBetween(LineId),
    /// What a crease becomes, seen from side A of the strip it is on.
    Becomes(LineId, StripId, Fold),
    /// Mark both ends of a line and cut between them.
    CutBetween(LineId),
    /// Measure each score of a strip from the fence.
    MeasureFromFence(StripId),
    /// How to move a strip between two passes.
    Between(StripId, Move),
    /// Lay a strip at the fence.
    AtFence {
        /// Which strip.
        of: StripId,
        /// The side that is up.
        up: Side,
        /// The panel at the fence.
        panel: PanelId,
        /// Whether that edge is the longer one of the strip.
        long: bool,
    },
    /// Which way the head of the print points, for someone in front of the
    /// table.
    Head(Turn),
    /// Score so far from the fence.
    ScoreAt(Length),
    /// Find the line to fold along.
    Find(LineId),
    /// Fold over, with a panel flat on the table.
    FoldOver(PanelId),
    /// Turn the card over, fold over, turn it back.
    FoldUnder,
    /// Creases lie on one line by now.
    OneLine,
    /// Fold all layers over along it, with a panel flat on the table.
    FoldAllOver(PanelId),
    /// Turn the card over, fold all layers over along it, turn it back.
    FoldAllUnder,
    /// Press the fold from its middle.
    PressFold,
    /// Heavy paper folds only along its score.
    HeavyPaper,
    /// Start each fold.
    StartEach,
    /// Close the card slowly, all at once.
    CloseSlowly,
    /// Press the folds once it is shut.
    PressShut,
    /// Fold each crease of a piece as listed, seen from its side A.
    FoldEach(PieceId),
    /// Press the folds of a piece.
    PressFolds(PieceId),
    /// Decorate a layer while it lies flat.
    DecorateNow(LayerId),
    /// Measure from the left and the bottom edge of what a layer lies on.
    MeasureSeat(Seat),
    /// Turn a layer over like a page.
    TurnLikePage(LayerId),
    /// Put glue on its back no nearer to its left and right edges, as they lie
    /// then.
    GlueAcross {
        /// From the left.
        left: Length,
        /// From the right.
        right: Length,
    },
    /// Put glue on its back no nearer to its top and bottom edges, as they lie
    /// then.
    GlueUp {
        /// From the top.
        top: Length,
        /// From the bottom.
        bottom: Length,
    },
    /// Within these edges, keep to the shape that is shown.
    KeepToShape,
    /// Glue is safe nowhere on the back of a layer.
    NowhereToGlue(LayerId),
    /// Glue there would spoil the card.
    GlueSpoils(LayerId),
    /// Set a layer in its place and press it down.
    SetDown(LayerId),
    /// Lay a layer in its place without glue.
    SetLoose(LayerId),
    /// Measure from the left and the bottom edge of a strip, its side A up.
    MeasureCarrier(StripId),
    /// Draw a line from the first point to the second.
    DrawLine(Face),
    /// Put glue on a side of a panel of a piece.
    Spread {
        /// The panel.
        panel: PanelId,
        /// Which side of it.
        side: Side,
    },
    /// Lay the crease of a panel along the line and press it down.
    LayCrease(PanelId),
    /// Close the card on a piece and press.
    CloseOn(PieceId),
    /// Press the card while it dries.
    PressDry,
    /// Open it once before the glue sets.
    OpenOnce,
    /// The envelope that takes the card.
    GoesInto(&'static Envelope),
    /// No standard envelope takes it.
    NoEnvelope,
    /// Try the first card in a real envelope.
    TryFirst,
    /// Measure what comes off from the edge it comes off.
    MeasureOff(Part),
    /// So many are cut already, in this size.
    CutAlready {
        /// What is cut.
        part: Part,
        /// How many.
        pieces: u32,
        /// How large they are.
        size: Size,
    },
    /// Cut off the edge of the panel at an end.
    OffEnd {
        /// The panel.
        panel: PanelId,
        /// How much comes off.
        off: Length,
        /// How wide the panel stays.
        stays: Length,
    },
    /// Cut off the top edge of a strip, seen from side A.
    OffTop(StripId, Length),
    /// Cut a round or an oval layer once more, smaller.
    CutAgain(LayerId, Size),
    /// Cut off the straight edges of a layer with an arc.
    OffStraight(LayerId, Off),
    /// Cut off any edges of a layer.
    OffAny(LayerId, Off),
    /// Round the corners that are cut away again.
    CornersAgain(LayerId, Length),
    /// Which edges do not matter.
    AnyEdge,
}

/// What a number of a step is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Label {
    /// Sheets of a paper.
    Paper(StockId),
    /// So many scraps of a paper.
    Scraps(StockId, u32),
    /// The length of a strip.
    Length,
    /// From the fence to the blade.
    FromFence,
    /// A width.
    Width,
    /// A height.
    Height,
    /// The radius of corners.
    Radius,
    /// How far an arc rises.
    Rise,
    /// How deep an edge is cut in.
    Depth,
    /// How far across a circle is.
    Across,
    /// From the left.
    FromLeft,
    /// From the bottom.
    FromBottom,
    /// A point of a line, from the left.
    PointFromLeft(Point),
    /// A point of a line, from the bottom.
    PointFromBottom(Point),
    /// From the left edge of what carries it.
    FromLeftEdge,
    /// From the bottom edge of what carries it.
    FromBottomEdge,
    /// A score, by how it folds as it lies and where its ridge goes.
    Score {
        /// The strip it is on.
        of: StripId,
        /// How it folds, seen from the side that is up.
        fold: Fold,
        /// Whether its ridge comes to lie inside the fold.
        ridge_inside: bool,
    },
    /// A fold, seen from the inside.
    FoldInside(Fold),
    /// A crease, seen from the inside.
    LineInside(LineId),
    /// The crease the step is about, seen from the inside.
    SeenInside,
    /// A crease, seen from the side the step names.
    Line(LineId),
    /// The closed card.
    Closed,
    /// The thickest place.
    Thickest,
}

/// One of the two points a line is drawn by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[expect(missing_docs, reason = "the names are the two points")]
pub enum Point {
    First,
    Second,
}

/// A number of a step, or how it folds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Value {
    /// A length.
    Length(Length),
    /// A size.
    Size(Size),
    /// So many sheets; `None` where a piece does not fit its sheet.
    Sheets(Option<i64>),
    /// A fold.
    Fold(Fold),
    /// A fold that is flat again afterwards.
    ThenFlat(Fold),
}

/// What a picture shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Caption {
    /// What is cut, on its sheet, face up.
    OnSheet,
    /// A sheet of a paper at the fence.
    SheetAtFence(StockId),
    /// A scrap of a paper as it lies at the fence.
    ScrapAtFence(StockId),
    /// A strip of a paper at the fence.
    StripAtFence(StockId),
    /// A strip with a side up.
    SideUp(StripId, Side),
    /// An outline.
    Outline,
    /// Where glue goes on a back.
    GlueOnBack,
    /// A layer in its place.
    InPlace,
    /// A fold on the way.
    OnTheWay,
    /// The same folded.
    Folded,
    /// The place of a piece on a strip, seen from a side of that.
    PlaceOn(StripId, Side),
    /// The card open.
    Open,
}

/// What to have ready.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[expect(missing_docs, reason = "the names are the tools")]
pub enum Tool {
    Trimmer,
    Ruler,
    ScoringBoard,
    BoneFolder,
    Glue,
    ScrapPaper,
    Pencil,
    CraftKnife,
    CuttingMat,
    /// A corner punch, or a template and scissors.
    CornerPunch,
    /// A die, or a template and a craft knife.
    Die,
    /// A die, or a ruler, a template and a craft knife.
    DieOrRuler,
    /// A die, or a template and scissors.
    DieOrScissors,
    /// Whatever one decorates with.
    Decoration,
    CleanPaper,
    Weight,
}
