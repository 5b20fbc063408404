//! What the numbers of a list suggest, and why.

use foldwright_engine::paper::{Clearance, ClearanceRule, Envelope};
use foldwright_engine::reading::{Evidence, Suggestion};
use foldwright_engine::recipe::Recipe;

use super::{There, mm, size};

/// Everything that can be suggested.
pub(crate) fn suggestions(recipe: &Recipe) -> Vec<Suggestion> {
    let there = There::of(recipe);
    let panel = |place: usize| there.panels[place];
    let layer = there.layer;
    let envelope = Envelope::by_id("na-a-long").expect("it is in the table");
    let rule = ClearanceRule::by_id("booklet").expect("it is in the table");
    every!(Suggestion:
        Suggestion::SamePanels(_) => [
            Suggestion::SamePanels(there.panels[..2].to_vec()),
            Suggestion::SamePanels(there.panels.clone()),
        ],
        Suggestion::FoldedIn { .. } => [
            Suggestion::FoldedIn { inner: panel(0), middle: panel(1) },
        ],
        Suggestion::Leaves { .. } => [
            Suggestion::Leaves { gap: mm(0) },
            Suggestion::Leaves { gap: mm(2) },
        ],
        Suggestion::Sum { .. } => [
            Suggestion::Sum { whole: panel(0), parts: [panel(1), panel(2)] },
        ],
        Suggestion::Double { .. } => [Suggestion::Double { whole: panel(0), half: panel(1) }],
        Suggestion::Square(_) => [Suggestion::Square(panel(0))],
        Suggestion::Border { .. } => [Suggestion::Border { layer, border: mm(3) }],
        Suggestion::SameBorders(_) => [Suggestion::SameBorders(vec![layer, layer])],
        Suggestion::SameSizes(_) => [Suggestion::SameSizes(vec![layer, layer])],
        Suggestion::Whole(_) => [Suggestion::Whole(layer)],
        Suggestion::Across { .. } => [
            Suggestion::Across { layer, tall: false },
            Suggestion::Across { layer, tall: true },
        ],
        Suggestion::Envelope(..) => [Suggestion::Envelope(envelope, rule)],
    )
}

/// All numbers that suggest something.
pub(crate) fn evidence() -> Vec<Evidence> {
    let (each, border, whole) = (mm(99), mm(3), mm(297));
    let by = |id, spare, on_marks, rule| Evidence::Envelope {
        envelope: Envelope::by_id(id).expect("it is in the table"),
        spare,
        card: size(210, 99),
        on_marks,
        rule,
    };
    every!(Evidence:
        Evidence::Times { .. } => [Evidence::Times { count: 3, each, whole }],
        Evidence::Each(_) => [Evidence::Each(each)],
        Evidence::Less { .. } => [Evidence::Less { whole, part: each, left: mm(198) }],
        Evidence::Plus { .. } => [Evidence::Plus { parts: [each, each], whole: mm(198) }],
        Evidence::Leaves { .. } => [
            Evidence::Leaves { leaves: [each, each], both: mm(198), middle: mm(200) },
        ],
        Evidence::Square(_) => [Evidence::Square(each)],
        Evidence::Border { .. } => [
            Evidence::Border { seat: size(105, 148), layer: size(99, 142), border },
        ],
        Evidence::Both(_) => [Evidence::Both(size(99, 142))],
        Evidence::BothWide(_) => [Evidence::BothWide(each)],
        Evidence::BothHigh(_) => [Evidence::BothHigh(each)],
        Evidence::EachBorder(_) => [Evidence::EachBorder(border)],
        Evidence::Alike { .. } => [Evidence::Alike { count: 2, size: size(99, 142) }],
        Evidence::Envelope { .. } => [
            by("iso-dl", size(10, 11), true, Clearance::IsoPairs),
            by("na-no-10", size(31, 5), false, Clearance::Booklet),
        ],
    )
}
