//! Everything a step can state.

use foldwright_engine::paper::{Envelope, StockSide};
use foldwright_engine::part::Part;
use foldwright_engine::plane::{Edge, Turn};
use foldwright_engine::recipe::{EdgeSide, Fold, Recipe, Seat, Side, StripId, Which};
use foldwright_engine::steps::{
    AtFence, Caption, EdgeRuns, Falls, Form, Instruction, Kind, Label, Move, Off, Point, Runs,
    SheetLies, Taken, Title, Tool, Value,
};

use super::{There, mm, size};

/// Every kind of step.
pub(crate) fn kinds() -> Vec<Kind> {
    every!(Kind:
        Kind::Gather => [Kind::Gather],
        Kind::Cut => [Kind::Cut],
        Kind::Score => [Kind::Score],
        Kind::Fold => [Kind::Fold],
        Kind::Decorate => [Kind::Decorate],
        Kind::Glue => [Kind::Glue],
        Kind::Insert => [Kind::Insert],
        Kind::Dry => [Kind::Dry],
        Kind::Envelope => [Kind::Envelope],
        Kind::Own => [Kind::Own],
    )
}

/// Every title.
pub(crate) fn titles(recipe: &Recipe) -> Vec<Title> {
    let there = There::of(recipe);
    let (layer, piece, tab) = (there.layer, there.piece, there.tab);
    let (part, on) = (Part::Layer(layer), Seat::Face(there.faces[1]));
    let (score, crease, to) = (there.score, there.crease, size(105, 74));
    let fold = |line, more| Title::Fold { line, more };
    let scored = |of, up| Title::Score { of, up };
    every!(Title:
        Title::Gather => [Title::Gather],
        Title::CutAt(_) => [Title::CutAt(mm(148))],
        Title::Check(_) => [Title::Check(part), Title::Check(Part::Strip(StripId::Base))],
        Title::Cut(_) => [
            Title::Cut(part),
            Title::Cut(Part::Strip(StripId::Base)),
            Title::Cut(Part::Strip(StripId::Piece(piece))),
        ],
        Title::Trim { .. } => [Title::Trim { part, to }, Title::Trim { part: Part::Strip(StripId::Base), to }],
        Title::CutOut(_) => [Title::CutOut(there.cutout)],
        Title::CutLine(_) => [Title::CutLine(there.cut)],
        Title::Score { .. } => [
            scored(StripId::Base, None),
            scored(StripId::Base, Some(Side::B)),
            scored(StripId::Piece(piece), Some(Side::A)),
        ],
        Title::ScoreLine(_) => [Title::ScoreLine(crease)],
        Title::Fold { .. } => [
            fold(score, 0),
            fold(score, 1),
            fold(score, 3),
            fold(crease, 0),
            fold(crease, 1),
            fold(crease, 3),
        ],
        Title::Close => [Title::Close],
        Title::FoldPiece(_) => [Title::FoldPiece(piece)],
        Title::Decorate(_) => [Title::Decorate(layer)],
        Title::Glue(..) => [Title::Glue(layer, on), Title::Glue(layer, Seat::Layer(layer))],
        Title::LayOn(..) => [Title::LayOn(layer, on)],
        Title::GlueIn { .. } => [Title::GlueIn { part: tab, of: piece, on: there.faces[0] }],
        Title::Dry => [Title::Dry],
        Title::Envelope => [Title::Envelope],
        Title::Own(_) => [Title::Own(there.own)],
    )
}

fn forms() -> Vec<Form> {
    every!(Form:
        Form::Rounded(_) => [Form::Rounded(mm(5))],
        Form::Circle(_) => [Form::Circle(mm(60))],
        Form::Oval(_) => [Form::Oval(size(80, 60))],
        Form::Arched(_) => [Form::Arched(mm(12))],
        Form::Drawn => [Form::Drawn],
        Form::Follows => [Form::Follows],
    )
}

fn edges() -> Vec<EdgeRuns> {
    every!(EdgeRuns:
        EdgeRuns::Arch => [EdgeRuns::Arch],
        EdgeRuns::Hollow => [EdgeRuns::Hollow],
        EdgeRuns::Scallops(_) => [EdgeRuns::Scallops(1), EdgeRuns::Scallops(6)],
        EdgeRuns::Points(_) => [EdgeRuns::Points(1), EdgeRuns::Points(6)],
        EdgeRuns::Drawn => [EdgeRuns::Drawn],
    )
}

fn at_fence() -> Vec<AtFence> {
    every!(AtFence:
        AtFence::Long(_) => [AtFence::Long(mm(297))],
        AtFence::Side => [AtFence::Side],
        AtFence::HeadOrFoot => [AtFence::HeadOrFoot],
        AtFence::AlongGrain => [AtFence::AlongGrain],
        AtFence::AcrossGrain => [AtFence::AcrossGrain],
        AtFence::Any => [AtFence::Any],
    )
}

fn offs() -> Vec<Off> {
    every!(Off:
        Off::Width(_) => [Off::Width(mm(3))],
        Off::Height(_) => [Off::Height(mm(2))],
        Off::Both(_) => [Off::Both(size(3, 2))],
    )
}

/// Everything to do.
pub(crate) fn instructions(recipe: &Recipe) -> Vec<Instruction> {
    let there = There::of(recipe);
    let mut all = one_of_each(&there);
    let (layer, cutout, panel) = (there.layer, there.cutout, there.panels[2]);
    let forms = forms();
    let shapes = forms.iter().map(|it| Instruction::Shape(layer, *it));
    all.extend(shapes);
    let windows = forms
        .iter()
        .map(|it| Instruction::CutWindow(cutout, Some(*it)));
    all.extend(windows);
    let edges = edges().into_iter();
    all.extend(edges.map(|runs| Instruction::CutEdge {
        panel,
        runs,
        depth: mm(4),
    }));
    let stock = recipe.base.strip.stock;
    all.extend(at_fence().into_iter().map(|edge| Instruction::Take {
        stock,
        what: Taken::Sheet,
        count: 3,
        edge,
        turned: false,
    }));
    for off in offs() {
        all.push(Instruction::OffStraight(layer, off));
        all.push(Instruction::OffAny(layer, off));
    }
    all
}

#[expect(clippy::too_many_lines, reason = "a list of all there is")]
fn one_of_each(there: &There<'_>) -> Vec<Instruction> {
    let (layer, piece, tab, cutout) = (there.layer, there.piece, there.tab, there.cutout);
    let (panel, part) = (there.panels[2], Part::Layer(layer));
    let (score, crease, cut) = (there.score, there.crease, there.cut);
    let stock = there.recipe.base.strip.stock;
    let envelope = Envelope::by_id("iso-c6").expect("an envelope");
    let lay = |lies| Instruction::LaySheet {
        lies,
        side: mm(210),
    };
    let strip = |of, runs| Instruction::CutStrip {
        of,
        size: size(297, 105),
        runs,
    };
    let lies = |of, first, at| Instruction::LiesThere {
        of,
        up: Side::B,
        first,
        at,
    };
    let round = |which| Instruction::RoundCorners {
        panel,
        which,
        radius: mm(5),
    };
    let fence = |of, up, panel, long| Instruction::AtFence {
        of,
        up,
        panel,
        long,
    };
    let already = |part, pieces| Instruction::CutAlready {
        part,
        pieces,
        size: size(105, 148),
    };
    let seat = Seat::Face(there.faces[1]);
    let take = |what, count, edge, turned| Instruction::Take {
        stock,
        what,
        count,
        edge,
        turned,
    };
    let times = |times, stack| Instruction::CutTimes { times, stack };
    let falls = |count, what| Instruction::Falls {
        number: 0,
        count,
        what,
    };
    every!(Instruction:
        Instruction::Batch(_) => [Instruction::Batch(24)],
        Instruction::OwnSheets => [Instruction::OwnSheets],
        Instruction::SharedSheets => [Instruction::SharedSheets],
        Instruction::SetFence(_) => [Instruction::SetFence(mm(148))],
        Instruction::Take { .. } => [
            take(Taken::Sheet, 1, AtFence::Long(mm(297)), false),
            take(Taken::Sheet, 12, AtFence::Side, false),
            take(Taken::Strip(size(297, 105)), 1, AtFence::Long(mm(105)), true),
            take(Taken::Strip(size(105, 105)), 24, AtFence::Any, true),
            take(Taken::Scrap(size(297, 105)), 1, AtFence::Long(mm(105)), false),
            take(Taken::Scrap(size(297, 105)), 4, AtFence::Long(mm(105)), false),
        ],
        Instruction::CutTimes { .. } => [
            times(1, None),
            times(1, Some(3)),
            times(4, None),
            times(4, Some(3)),
        ],
        Instruction::Falls { .. } => [
            falls(1, Falls::Piece(part)),
            falls(24, Falls::Piece(Part::Strip(StripId::Base))),
            falls(1, Falls::Strip(size(297, 105))),
            falls(24, Falls::Strip(size(297, 105))),
            falls(1, Falls::Offcut(size(297, 12))),
            falls(24, Falls::Offcut(size(297, 12))),
        ],
        Instruction::AlsoFor { .. } => [Instruction::AlsoFor { number: 1, part }],
        Instruction::MeasureAcross(_) => [
            Instruction::MeasureAcross(part),
            Instruction::MeasureAcross(Part::Strip(StripId::Base)),
        ],
        Instruction::WholeSheet(..) => [Instruction::WholeSheet(part, stock)],
        Instruction::LayPiece(..) => [
            Instruction::LayPiece(part, SheetLies::Either),
            Instruction::LayPiece(Part::Strip(StripId::Base), SheetLies::Upright),
            Instruction::LayPiece(part, SheetLies::HeadAway),
            Instruction::LayPiece(part, SheetLies::HeadTowards),
        ],
        Instruction::LaySheet { .. } => [
            lay(SheetLies::Either),
            lay(SheetLies::Upright),
            lay(SheetLies::HeadAway),
            lay(SheetLies::HeadTowards),
        ],
        Instruction::MeasureFromCorner(_) => [
            Instruction::MeasureFromCorner(part),
            Instruction::MeasureFromCorner(Part::Strip(StripId::Base)),
        ],
        Instruction::CutAt { .. } => [
            Instruction::CutAt {
                part,
                left: mm(30),
                top: mm(0),
            },
            Instruction::CutAt {
                part: Part::Strip(StripId::Base),
                left: mm(0),
                top: mm(45),
            },
        ],
        Instruction::CutStrip { .. } => [
            strip(StripId::Base, Runs::AcrossPrint),
            strip(StripId::Base, Runs::UpPrint),
            strip(StripId::Base, Runs::AcrossSheet),
            strip(StripId::Piece(piece), Runs::UpSheet),
        ],
        Instruction::LiesThere { .. } => [
            lies(StripId::Base, Some(panel), Edge::Left),
            lies(StripId::Base, Some(panel), Edge::Top),
            lies(StripId::Piece(piece), None, Edge::Right),
            lies(StripId::Piece(piece), None, Edge::Bottom),
        ],
        Instruction::Outside(..) => [
            Instruction::Outside(StripId::Base, StockSide::Face),
            Instruction::Outside(StripId::Base, StockSide::Back),
            Instruction::Outside(StripId::Piece(piece), StockSide::Face),
        ],
        Instruction::CutLayer(..) => [Instruction::CutLayer(layer, stock)],
        Instruction::UpPrint(_) => [Instruction::UpPrint(layer)],
        Instruction::TopLies(..) => [
            Instruction::TopLies(layer, Edge::Left),
            Instruction::TopLies(layer, Edge::Top),
        ],
        Instruction::RectangleFirst(_) => [Instruction::RectangleFirst(layer)],
        Instruction::Shape(..) => [Instruction::Shape(layer, Form::Drawn)],
        Instruction::MeasureFlat(_) => [
            Instruction::MeasureFlat(StripId::Base),
            Instruction::MeasureFlat(StripId::Piece(piece)),
        ],
        Instruction::DrawWindow(..) => [Instruction::DrawWindow(cutout, panel)],
        Instruction::CutWindow(..) => [Instruction::CutWindow(cutout, None)],
        Instruction::MeasureRadius(_) => [Instruction::MeasureRadius(panel)],
        Instruction::RoundCorners { .. } => [
            round(Which::Both),
            round(Which::Upper),
            round(Which::Lower),
        ],
        Instruction::MeasureDepth(..) => [
            Instruction::MeasureDepth(panel, EdgeSide::Left),
            Instruction::MeasureDepth(panel, EdgeSide::Right),
            Instruction::MeasureDepth(tab, EdgeSide::Top),
            Instruction::MeasureDepth(tab, EdgeSide::Bottom),
        ],
        Instruction::CutEdge { .. } => [Instruction::CutEdge {
            panel,
            runs: EdgeRuns::Arch,
            depth: mm(4),
        }],
        Instruction::ScoreBetween(_) => [Instruction::ScoreBetween(crease)],
        Instruction::Becomes(..) => [
            Instruction::Becomes(crease, StripId::Base, Fold::Mountain),
            Instruction::Becomes(crease, StripId::Piece(piece), Fold::Valley),
        ],
        Instruction::CutBetween(_) => [Instruction::CutBetween(cut)],
        Instruction::MeasureFromFence(_) => [
            Instruction::MeasureFromFence(StripId::Base),
            Instruction::MeasureFromFence(StripId::Piece(piece)),
        ],
        Instruction::Between(..) => [
            Instruction::Between(StripId::Base, Move::Over),
            Instruction::Between(StripId::Piece(piece), Move::EndForEnd),
            Instruction::Between(StripId::Base, Move::HalfRound),
            Instruction::Between(StripId::Base, Move::Stay),
        ],
        Instruction::AtFence { .. } => [
            fence(StripId::Base, Side::A, panel, false),
            fence(StripId::Piece(piece), Side::B, tab, true),
        ],
        Instruction::Head(_) => [
            Instruction::Head(Turn::None),
            Instruction::Head(Turn::Left),
            Instruction::Head(Turn::Half),
            Instruction::Head(Turn::Right),
        ],
        Instruction::ScoreAt(_) => [Instruction::ScoreAt(mm(74))],
        Instruction::Find(_) => [Instruction::Find(score), Instruction::Find(crease)],
        Instruction::FoldOver(_) => [Instruction::FoldOver(panel)],
        Instruction::FoldUnder => [Instruction::FoldUnder],
        Instruction::OneLine => [Instruction::OneLine],
        Instruction::FoldAllOver(_) => [Instruction::FoldAllOver(panel)],
        Instruction::FoldAllUnder => [Instruction::FoldAllUnder],
        Instruction::PressFold => [Instruction::PressFold],
        Instruction::HeavyPaper => [Instruction::HeavyPaper],
        Instruction::StartEach => [Instruction::StartEach],
        Instruction::CloseSlowly => [Instruction::CloseSlowly],
        Instruction::PressShut => [Instruction::PressShut],
        Instruction::FoldEach(_) => [Instruction::FoldEach(piece)],
        Instruction::PressFolds(_) => [Instruction::PressFolds(piece)],
        Instruction::DecorateNow(_) => [Instruction::DecorateNow(layer)],
        Instruction::MeasureSeat(_) => [
            Instruction::MeasureSeat(seat),
            Instruction::MeasureSeat(Seat::Layer(layer)),
        ],
        Instruction::TurnLikePage(_) => [Instruction::TurnLikePage(layer)],
        Instruction::GlueAcross { .. } => [Instruction::GlueAcross {
            left: mm(12),
            right: mm(13),
        }],
        Instruction::GlueUp { .. } => [Instruction::GlueUp {
            top: mm(14),
            bottom: mm(15),
        }],
        Instruction::KeepToShape => [Instruction::KeepToShape],
        Instruction::NowhereToGlue(_) => [Instruction::NowhereToGlue(layer)],
        Instruction::GlueSpoils(_) => [Instruction::GlueSpoils(layer)],
        Instruction::SetDown(_) => [Instruction::SetDown(layer)],
        Instruction::SetLoose(_) => [Instruction::SetLoose(layer)],
        Instruction::MeasureCarrier(_) => [
            Instruction::MeasureCarrier(StripId::Base),
            Instruction::MeasureCarrier(StripId::Piece(piece)),
        ],
        Instruction::DrawLine(_) => [Instruction::DrawLine(there.faces[0])],
        Instruction::Spread { .. } => [
            Instruction::Spread { panel: tab, side: Side::A },
            Instruction::Spread { panel: tab, side: Side::B },
        ],
        Instruction::LayCrease(_) => [Instruction::LayCrease(tab)],
        Instruction::CloseOn(_) => [Instruction::CloseOn(piece)],
        Instruction::PressDry => [Instruction::PressDry],
        Instruction::OpenOnce => [Instruction::OpenOnce],
        Instruction::GoesInto(_) => [Instruction::GoesInto(envelope)],
        Instruction::NoEnvelope => [Instruction::NoEnvelope],
        Instruction::TryFirst => [Instruction::TryFirst],
        Instruction::MeasureOff(_) => [
            Instruction::MeasureOff(part),
            Instruction::MeasureOff(Part::Strip(StripId::Base)),
        ],
        Instruction::CutAlready { .. } => [
            already(part, 1),
            already(Part::Strip(StripId::Base), 1),
            already(Part::Strip(StripId::Base), 12),
        ],
        Instruction::OffEnd { .. } => [Instruction::OffEnd {
            panel,
            off: mm(3),
            stays: mm(74),
        }],
        Instruction::OffTop(..) => [
            Instruction::OffTop(StripId::Base, mm(3)),
            Instruction::OffTop(StripId::Piece(piece), mm(3)),
        ],
        Instruction::CutAgain(..) => [
            Instruction::CutAgain(layer, size(60, 60)),
            Instruction::CutAgain(layer, size(80, 60)),
        ],
        Instruction::OffStraight(..) => [Instruction::OffStraight(layer, Off::Width(mm(3)))],
        Instruction::OffAny(..) => [Instruction::OffAny(layer, Off::Width(mm(3)))],
        Instruction::CornersAgain(..) => [Instruction::CornersAgain(layer, mm(5))],
        Instruction::AnyEdge => [Instruction::AnyEdge],
    )
}

/// What every number of a step can be.
pub(crate) fn labels(recipe: &Recipe) -> Vec<Label> {
    let there = There::of(recipe);
    let score = |of, fold, ridge_inside| Label::Score {
        of,
        fold,
        ridge_inside,
    };
    let piece = StripId::Piece(there.piece);
    every!(Label:
        Label::Paper(_) => [Label::Paper(recipe.base.strip.stock)],
        Label::Scraps(..) => [
            Label::Scraps(recipe.base.strip.stock, 1),
            Label::Scraps(recipe.base.strip.stock, 12),
        ],
        Label::Length => [Label::Length],
        Label::FromFence => [Label::FromFence],
        Label::Width => [Label::Width],
        Label::Height => [Label::Height],
        Label::Radius => [Label::Radius],
        Label::Rise => [Label::Rise],
        Label::Depth => [Label::Depth],
        Label::Across => [Label::Across],
        Label::FromLeft => [Label::FromLeft],
        Label::FromBottom => [Label::FromBottom],
        Label::PointFromLeft(_) => [
            Label::PointFromLeft(Point::First),
            Label::PointFromLeft(Point::Second),
        ],
        Label::PointFromBottom(_) => [
            Label::PointFromBottom(Point::First),
            Label::PointFromBottom(Point::Second),
        ],
        Label::FromLeftEdge => [Label::FromLeftEdge],
        Label::FromBottomEdge => [Label::FromBottomEdge],
        Label::Score { .. } => [
            score(StripId::Base, Fold::Mountain, true),
            score(StripId::Base, Fold::Valley, true),
            score(StripId::Base, Fold::Mountain, false),
            score(StripId::Base, Fold::Valley, false),
            score(piece, Fold::Mountain, false),
            score(piece, Fold::Valley, false),
        ],
        Label::FoldInside(_) => [
            Label::FoldInside(Fold::Mountain),
            Label::FoldInside(Fold::Valley),
        ],
        Label::LineInside(_) => [Label::LineInside(there.crease), Label::LineInside(there.score)],
        Label::SeenInside => [Label::SeenInside],
        Label::Line(_) => [Label::Line(there.crease), Label::Line(there.tab_score)],
        Label::Closed => [Label::Closed],
        Label::Thickest => [Label::Thickest],
    )
}

/// Every kind of number.
pub(crate) fn values() -> Vec<Value> {
    every!(Value:
        Value::Length(_) => [Value::Length(mm(74))],
        Value::Size(_) => [Value::Size(size(105, 148))],
        Value::Sheets(_) => [Value::Sheets(None), Value::Sheets(Some(1)), Value::Sheets(Some(3))],
        Value::Fold(_) => [Value::Fold(Fold::Mountain), Value::Fold(Fold::Valley)],
        Value::ThenFlat(_) => [Value::ThenFlat(Fold::Mountain), Value::ThenFlat(Fold::Valley)],
    )
}

/// Every caption.
pub(crate) fn captions(recipe: &Recipe) -> Vec<Caption> {
    let piece = StripId::Piece(There::of(recipe).piece);
    every!(Caption:
        Caption::OnSheet => [Caption::OnSheet],
        Caption::SheetAtFence(_) => [Caption::SheetAtFence(recipe.base.strip.stock)],
        Caption::ScrapAtFence(_) => [Caption::ScrapAtFence(recipe.base.strip.stock)],
        Caption::StripAtFence(_) => [Caption::StripAtFence(recipe.base.strip.stock)],
        Caption::SideUp(..) => [Caption::SideUp(StripId::Base, Side::A), Caption::SideUp(piece, Side::B)],
        Caption::Outline => [Caption::Outline],
        Caption::GlueOnBack => [Caption::GlueOnBack],
        Caption::InPlace => [Caption::InPlace],
        Caption::OnTheWay => [Caption::OnTheWay],
        Caption::Folded => [Caption::Folded],
        Caption::PlaceOn(..) => [Caption::PlaceOn(StripId::Base, Side::A), Caption::PlaceOn(piece, Side::B)],
        Caption::Open => [Caption::Open],
    )
}

/// Every tool.
pub(crate) fn tools() -> Vec<Tool> {
    every!(Tool:
        Tool::Trimmer => [Tool::Trimmer],
        Tool::Ruler => [Tool::Ruler],
        Tool::ScoringBoard => [Tool::ScoringBoard],
        Tool::BoneFolder => [Tool::BoneFolder],
        Tool::Glue => [Tool::Glue],
        Tool::ScrapPaper => [Tool::ScrapPaper],
        Tool::Pencil => [Tool::Pencil],
        Tool::CraftKnife => [Tool::CraftKnife],
        Tool::CuttingMat => [Tool::CuttingMat],
        Tool::CornerPunch => [Tool::CornerPunch],
        Tool::Die => [Tool::Die],
        Tool::DieOrRuler => [Tool::DieOrRuler],
        Tool::DieOrScissors => [Tool::DieOrScissors],
        Tool::Decoration => [Tool::Decoration],
        Tool::CleanPaper => [Tool::CleanPaper],
        Tool::Weight => [Tool::Weight],
    )
}
