//! What is said of a list of measurements.

use foldwright_engine::length::{Length, Odd, ReadProblem, Written};
use foldwright_engine::paper::{Envelope, SheetSize};
use foldwright_engine::problem::{Extent, Hand, Spot, Trouble, Where};
use foldwright_engine::reading::{
    Aside, Assumed, FoldForm, Meaning, Missed, OfLength, OfSize, Remark, SeatedFor, Suggests,
    UnitFor, Unlikely, Way, WayRound,
};
use foldwright_engine::recipe::{Fold, Recipe, Seat};

use super::{There, mm, size};

fn units() -> Vec<Written> {
    every!(Written:
        Written::Inch => [Written::Inch],
        Written::Millimetre => [Written::Millimetre],
        Written::Centimetre => [Written::Centimetre],
        Written::Metre => [Written::Metre],
        Written::Foot => [Written::Foot],
    )
}

/// Everything a part of a list may be read as.
pub(crate) fn meanings() -> Vec<Meaning> {
    let ways = every!(Way:
        Way::Zigzag => [Way::Zigzag],
        Way::Roll => [Way::Roll],
        Way::Gate => [Way::Gate],
        Way::DoubleParallel => [Way::DoubleParallel],
    );
    let lengths = every!(OfLength:
        OfLength::Diameter => [OfLength::Diameter],
        OfLength::Border => [OfLength::Border],
        OfLength::Score(_) => [OfLength::Score(None), OfLength::Score(Some(Fold::Mountain)), OfLength::Score(Some(Fold::Valley))],
        OfLength::Every => [OfLength::Every],
        OfLength::Panel => [OfLength::Panel],
    );
    let sizes = every!(OfSize:
        OfSize::Piece => [OfSize::Piece],
        OfSize::Round => [OfSize::Round],
        OfSize::Oval => [OfSize::Oval],
        OfSize::Square => [OfSize::Square],
        OfSize::Closed => [OfSize::Closed],
        OfSize::Envelope => [OfSize::Envelope],
        OfSize::Sheet => [OfSize::Sheet],
    );
    let envelope = Envelope::by_id("na-a-long").expect("it is in the table");
    let sheet = SheetSize::by_id("trade-12x12-in").expect("it is in the table");
    let all = every!(Meaning:
        Meaning::Name => [Meaning::Name],
        Meaning::Pieces(_) => [Meaning::Pieces(1), Meaning::Pieces(12)],
        Meaning::Way(_) => [Meaning::Way(Way::Gate)],
        Meaning::Half => [Meaning::Half],
        Meaning::Envelope(_) => [Meaning::Envelope(envelope)],
        Meaning::CutFrom(_) => [Meaning::CutFrom(sheet)],
        Meaning::Length(..) => [Meaning::Length(OfLength::Every, mm(12))],
        Meaning::Size(..) => [Meaning::Size(OfSize::Sheet, size(210, 297))],
    );
    let ways = ways.into_iter().map(Meaning::Way);
    let lengths = lengths.into_iter().map(|of| Meaning::Length(of, mm(105)));
    let sizes = sizes
        .into_iter()
        .map(|of| Meaning::Size(of, size(105, 148)));
    let all = all.into_iter().chain(ways);
    all.chain(lengths).chain(sizes).collect()
}

/// Everything that is said of how a line was read.
pub(crate) fn remarks(recipe: &Recipe) -> Vec<Remark> {
    let there = There::of(recipe);
    let likelier = |unit, why| Remark::Likelier {
        unit,
        than: Written::Millimetre,
        why,
    };
    let unlikely = every!(Unlikely:
        Unlikely::Large => [Unlikely::Large],
        Unlikely::Small => [Unlikely::Small],
    );
    let round = every!(WayRound:
        WayRound::AsWritten => [WayRound::AsWritten],
        WayRound::AsSaid => [WayRound::AsSaid],
        WayRound::Turned => [WayRound::Turned],
    );
    let why = every!(SeatedFor:
        SeatedFor::Border(_) => [SeatedFor::Border(mm(3))],
        SeatedFor::Whole => [SeatedFor::Whole],
        SeatedFor::Width => [SeatedFor::Width],
        SeatedFor::Height => [SeatedFor::Height],
        SeatedFor::Across(_) => [SeatedFor::Across(there.panels[0])],
        SeatedFor::OnlySo => [SeatedFor::OnlySo],
        SeatedFor::Fits => [SeatedFor::Fits],
    );
    let seated = |on, lies, why| Remark::Seated {
        layer: there.layer,
        on,
        lies,
        why,
    };
    let [inside, outside] = there.faces.map(Seat::Face);
    let layer = Seat::Layer(there.layer);
    let all = every!(Remark:
        Remark::Carried(_) => [Remark::Carried(Written::Centimetre)],
        Remark::Likelier { .. } => [likelier(Written::Centimetre, Unlikely::Small)],
        Remark::Heading(_) => [Remark::Heading(spots()[0])],
        Remark::Seated { .. } => [seated(layer, WayRound::AsWritten, SeatedFor::Fits)],
    );
    let units = units().into_iter().map(Remark::Carried);
    let unlikely = unlikely.into_iter().map(|why| likelier(Written::Inch, why));
    let headings = spots().into_iter().map(Remark::Heading);
    let round = round
        .into_iter()
        .map(|lies| seated(outside, lies, SeatedFor::Fits));
    let why = why
        .into_iter()
        .map(|why| seated(inside, WayRound::Turned, why));
    let all = all.into_iter().chain(units).chain(unlikely);
    all.chain(headings).chain(round).chain(why).collect()
}

/// Everything that is taken for granted about units.
pub(crate) fn assumed() -> Vec<Assumed> {
    let why = every!(UnitFor:
        UnitFor::Elsewhere => [UnitFor::Elsewhere],
        UnitFor::Fractions => [UnitFor::Fractions],
        UnitFor::TooLarge => [UnitFor::TooLarge],
        UnitFor::TooSmall => [UnitFor::TooSmall],
        UnitFor::Language => [UnitFor::Language],
        UnitFor::Settings => [UnitFor::Settings],
    );
    let all = |why| Assumed::All {
        unit: Written::Millimetre,
        why,
    };
    let mixed = every!(Assumed:
        Assumed::Mixed => [Assumed::Mixed],
        Assumed::All { .. } => [all(UnitFor::Settings)],
    );
    mixed.into_iter().chain(why.into_iter().map(all)).collect()
}

/// Every reason why a part of a list is not read.
pub(crate) fn missed() -> Vec<Missed> {
    let asides = every!(Aside:
        Aside::Price => [Aside::Price],
        Aside::Numbering => [Aside::Numbering],
        Aside::Count => [Aside::Count],
        Aside::Weight => [Aside::Weight],
        Aside::Date => [Aside::Date],
        Aside::Time => [Aside::Time],
        Aside::Other => [Aside::Other],
    );
    let odd = every!(Odd:
        Odd::NoLength(_) => [Odd::NoLength(ReadProblem::TwoDecimalMarks)],
        Odd::Date => [Odd::Date],
        Odd::Improper => [Odd::Improper],
        Odd::Area => [Odd::Area],
    );
    let all = every!(Missed:
        Missed::Aside(_) => [Missed::Aside(Aside::Other)],
        Missed::Alone => [Missed::Alone],
        Missed::Three => [Missed::Three],
        Missed::Odd(_) => [Missed::Odd(Odd::Date)],
        Missed::Words => [Missed::Words],
        Missed::Nothing => [Missed::Nothing],
        Missed::TooLong => [Missed::TooLong],
        Missed::Rest => [Missed::Rest],
    );
    let asides = asides.into_iter().map(Missed::Aside);
    let odd = odd.into_iter().map(Missed::Odd);
    all.into_iter().chain(asides).chain(odd).collect()
}

/// Every way the base of a list may fold.
pub(crate) fn forms() -> Vec<FoldForm> {
    every!(FoldForm:
        FoldForm::Flat => [FoldForm::Flat],
        FoldForm::Book => [FoldForm::Book],
        FoldForm::Flap => [FoldForm::Flap],
        FoldForm::Gate { .. } => [FoldForm::Gate { gap: Length::ZERO }],
        FoldForm::Leaves => [FoldForm::Leaves],
        FoldForm::LastIn => [FoldForm::LastIn],
        FoldForm::FirstIn => [FoldForm::FirstIn],
        FoldForm::BackOver => [FoldForm::BackOver],
        FoldForm::BackOverFirst => [FoldForm::BackOverFirst],
        FoldForm::FrontIn => [FoldForm::FrontIn],
        FoldForm::FrontInFirst => [FoldForm::FrontInFirst],
        FoldForm::Zigzag => [FoldForm::Zigzag],
        FoldForm::ZigzagBack => [FoldForm::ZigzagBack],
        FoldForm::Roll => [FoldForm::Roll],
        FoldForm::DoubleParallel => [FoldForm::DoubleParallel],
        FoldForm::Told => [FoldForm::Told],
    )
}

/// Every reason why it may fold so.
pub(crate) fn suggests() -> Vec<Suggests> {
    every!(Suggests:
        Suggests::NoScore => [Suggests::NoScore],
        Suggests::Book => [Suggests::Book],
        Suggests::WideBack => [Suggests::WideBack],
        Suggests::LeavesMeet => [Suggests::LeavesMeet],
        Suggests::Allowance => [Suggests::Allowance],
        Suggests::ToAndFro => [Suggests::ToAndFro],
        Suggests::BackOver => [Suggests::BackOver],
        Suggests::FrontIn => [Suggests::FrontIn],
        Suggests::WideMiddle => [Suggests::WideMiddle],
        Suggests::NarrowLast => [Suggests::NarrowLast],
        Suggests::LastBehind => [Suggests::LastBehind],
        Suggests::NarrowFirst => [Suggests::NarrowFirst],
        Suggests::NarrowFront => [Suggests::NarrowFront],
        Suggests::EqualThree => [Suggests::EqualThree],
        Suggests::Letter => [Suggests::Letter],
        Suggests::TwoAllowances => [Suggests::TwoAllowances],
        Suggests::Shrinking => [Suggests::Shrinking],
        Suggests::EqualFour => [Suggests::EqualFour],
        Suggests::EqualInner => [Suggests::EqualInner],
        Suggests::OddLast => [Suggests::OddLast],
        Suggests::OddFirst => [Suggests::OddFirst],
        Suggests::Row => [Suggests::Row],
        Suggests::Told => [Suggests::Told],
    )
}

/// Where a list may say that a piece goes.
fn spots() -> [Spot; 4] {
    let spot = |side, hand, extent| Spot { side, hand, extent };
    [
        spot(Where::Front, None, None),
        spot(Where::Inside, Some(Hand::Left), Some(Extent::Large)),
        spot(Where::Back, Some(Hand::Right), Some(Extent::Small)),
        spot(Where::Inside, Some(Hand::Middle), None),
    ]
}

/// Everything that can be wrong with a list.
pub(crate) fn troubles() -> Vec<Trouble> {
    let (at, length) = (mm(230), mm(210));
    let not_there = |spot| Trouble::NotThere(size(95, 70), spot);
    let [plain, left, right, middle] = spots().map(not_there);
    let envelope = Envelope::by_id("na-a2").expect("it is in the table");
    every!(Trouble:
        Trouble::Beyond { .. } => [Trouble::Beyond { at, length }],
        Trouble::Twice(_) => [Trouble::Twice(at)],
        Trouble::Sum { .. } => [Trouble::Sum { sum: at, length }],
        Trouble::NoPiece => [Trouble::NoPiece],
        Trouble::Finished { .. } => [Trouble::Finished {
            told: size(100, 150),
            is: size(105, 148),
        }],
        Trouble::NoEnvelope(_) => [Trouble::NoEnvelope(size(100, 150))],
        Trouble::Tight(_) => [Trouble::Tight(envelope)],
        Trouble::TooLarge(_) => [Trouble::TooLarge(size(300, 300))],
        Trouble::NotThere(..) => [
            plain,
            left,
            right,
            middle,
        ],
        Trouble::NoBase => [Trouble::NoBase],
        Trouble::Border { .. } => [Trouble::Border { told: mm(3), is: mm(5) }],
        Trouble::SecondFolded => [Trouble::SecondFolded],
        Trouble::Sheet(_) => [Trouble::Sheet(size(210, 297))],
        Trouble::TooMany => [Trouble::TooMany],
        Trouble::TooLong => [Trouble::TooLong],
    )
}
