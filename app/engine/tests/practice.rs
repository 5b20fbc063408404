//! A whole card as makers describe it (common practice), from recipe to
//! instructions: a 5 1/2 × 12 in strip scored at 1 3/4, 4 3/4 and 7 3/4 in,
//! folded as an accordion, from head-to-foot paper.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

mod strips;

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::length::Length;
use foldwright_engine::paper::{Grain, Heads, Print};
use foldwright_engine::part::Part;
use foldwright_engine::plane::Turn;
use foldwright_engine::problem::{Finding, FitFinding, FoldingFinding, Place, Weight};
use foldwright_engine::recipe::{
    Face, Fold, Lay, PanelId, Recipe, Runs, Scoring, Side, Stacked, StripId,
};
use foldwright_engine::steps::{Instruction, Runs as Lies, how_to_cut, how_to_lay};
use strips::strip;

fn sixteenths(count: i64) -> Length {
    Length::sixty_fourths(count * 4)
}

fn accordion() -> Recipe {
    let widths = [28, 48, 48, 68].map(sixteenths);
    let mut recipe = strip(&widths, sixteenths(88), "VMV", 3, Runs::Across);
    let stock = recipe.stocks.first_mut().expect("a strip has its paper");
    stock.width = Length::inches(12);
    stock.height = Length::inches(12);
    stock.heads = Heads::ToFoot;
    stock.face.print = Print::OneWay;
    stock.back.print = Print::OneWay;
    recipe.scoring = Scoring::OnePass(Side::A);
    recipe.upright = vec![Face {
        panel: PanelId(0),
        side: Side::B,
    }];
    recipe
}

#[test]
fn closes_to_its_size_and_reads_upright() {
    let recipe = accordion();
    let card = work_out(&recipe, &Tools::default());
    assert_eq!(
        recipe
            .notation
            .size(card.finished.width, card.finished.height),
        "4¼\u{a0}× 5½\u{a0}in"
    );
    let print = card
        .lies(Part::Strip(StripId::Base))
        .expect("the paper is there");
    assert_eq!(print.conflicts, []);
    assert!(print.lay.runs_across());
    let cut = Instruction::CutStrip {
        of: StripId::Base,
        size: card.laid.base.size,
        runs: Lies::AcrossPrint,
    };
    assert!(how_to_cut(&recipe, &card, StripId::Base).contains(&cut));
    // Two strips from a sheet of 12 × 12 in.
    assert_eq!(print.lays.first().map(|report| report.per_sheet), Some(2));
}

#[test]
fn is_scored_inside_up_with_the_print_upside_down() {
    let recipe = accordion();
    let card = work_out(&recipe, &Tools::default());
    let [pass] = card.chart.passes.as_slice() else {
        panic!("one pass does it: {:?}", card.chart);
    };
    assert_eq!(
        how_to_lay(&recipe, &card, StripId::Base, pass),
        [
            Instruction::AtFence {
                of: StripId::Base,
                up: Side::A,
                panel: PanelId(0),
                long: false,
            },
            // The print's feet point away from the maker.
            Instruction::Head(Turn::Half),
        ]
    );
    let scores: Vec<_> = pass.marks.iter().map(|mark| mark.exact).collect();
    assert_eq!(scores, [28, 76, 124].map(sixteenths));
    assert_eq!((card.chart.turns_over, card.chart.turns_round), (0, 0));
}

/// The bump of a score belongs inside the fold (printers' folding guides): on
/// an accordion that takes both sides, turned over once.
#[test]
fn is_scored_crispest_from_both_sides() {
    let mut recipe = accordion();
    recipe.scoring = Scoring::Crispest;
    let card = work_out(&recipe, &Tools::default());
    assert_eq!(card.chart.passes.len(), 2);
    assert_eq!((card.chart.turns_over, card.chart.turns_round), (1, 0));
    for mark in card.chart.passes.iter().flat_map(|pass| &pass.marks) {
        assert!(mark.bump_inside);
        // Seen from the side that is up, it is a mountain.
        assert_eq!(mark.fold, Fold::Mountain);
    }
}

/// A board shorter than the strip: the far scores are read from the other end.
#[test]
fn a_short_board_turns_the_strip_round() {
    let recipe = accordion();
    let tools = Tools {
        board: Length::inches(6),
    };
    let card = work_out(&recipe, &tools);
    let marks: Vec<Vec<_>> = card
        .chart
        .passes
        .iter()
        .map(|pass| pass.marks.iter().map(|mark| mark.exact).collect())
        .collect();
    assert_eq!(
        marks,
        [vec![sixteenths(28), sixteenths(76)], vec![sixteenths(68)],]
    );
    assert_eq!((card.chart.turns_over, card.chart.turns_round), (0, 1));
}

/// On head-to-foot paper the outside of the front and the inside beside it
/// cannot both be upright, and the card says which and why.
#[test]
fn says_which_faces_cannot_both_be_upright() {
    let mut recipe = accordion();
    recipe.upright.push(Face {
        panel: PanelId(1),
        side: Side::A,
    });
    let card = work_out(&recipe, &Tools::default());
    let print = card
        .lies(Part::Strip(StripId::Base))
        .expect("the paper is there");
    assert_eq!(print.conflicts.len(), 1);
    let problem = card
        .problems
        .iter()
        .find(|problem| matches!(problem.place, Place::Face(_)))
        .expect("the conflict is a problem");
    let outside = Face {
        panel: PanelId(0),
        side: Side::B,
    };
    let inside = Face {
        panel: PanelId(1),
        side: Side::A,
    };
    let both = FitFinding::NotBothUpright([outside, inside]);
    assert_eq!(problem.finding, Finding::Fit(both));
    let stock = recipe.stocks.first_mut().expect("a strip has its paper");
    stock.heads = Heads::ToHead;
    let card = work_out(&recipe, &Tools::default());
    let print = card
        .lies(Part::Strip(StripId::Base))
        .expect("the paper is there");
    assert_eq!(print.conflicts, []);
}

/// A quarter of a Letter sheet goes into an A2 envelope by the rule of 1/8 in
/// round, and not by that of 1/4 in (published envelope charts disagree).
#[test]
fn the_rule_decides_about_the_envelope() {
    let mut recipe = accordion();
    let names = |recipe: &Recipe| -> Vec<&str> {
        let card = work_out(recipe, &Tools::default());
        card.envelopes.iter().map(|fit| fit.envelope.id).collect()
    };
    assert!(names(&recipe).contains(&"na-a2"));
    recipe.posting.rule = "quarter-in-all".to_owned();
    assert!(!names(&recipe).contains(&"na-a2"));
    recipe.posting.envelope = Some("na-a2".to_owned());
    let card = work_out(&recipe, &Tools::default());
    assert!(card.problems.iter().any(|problem| match problem.finding {
        Finding::Fit(FitFinding::Tight(misfit)) => misfit.envelope.id == "na-a2",
        _ => false,
    }));
}

/// A strip that cannot fold says which panels trap each other.
#[test]
fn a_strip_that_does_not_fold_says_why() {
    let recipe = strip(
        &[100, 60, 100].map(Length::mm),
        Length::mm(80),
        "VV",
        1,
        Runs::Across,
    );
    let card = work_out(&recipe, &Tools::default());
    assert_eq!(card.folded, None);
    let problem = card.problems.first().expect("the gravest comes first");
    assert_eq!(problem.weight, Weight::Stop);
    let trapped = FoldingFinding::Trapped {
        panels: [PanelId(1), PanelId(1)],
        between: [PanelId(0), PanelId(2)],
        fold: Fold::Valley,
    };
    assert_eq!(problem.finding, Finding::Folding(trapped));
}

/// A panel folded inside others without an allowance is reported; made shorter
/// by it, it is not (printers' folding guides).
#[test]
fn a_folded_in_panel_needs_its_allowance() {
    let told = |short: i64| {
        let widths = [100, 100, short].map(Length::mm);
        let mut recipe = strip(&widths, Length::mm(210), "VV", 1, Runs::Across);
        recipe.base.on_top = vec![foldwright_engine::recipe::OnTop {
            upper: Stacked::Panel(PanelId(0)),
            lower: Stacked::Panel(PanelId(2)),
        }];
        let card = work_out(&recipe, &Tools::default());
        card.problems
            .iter()
            .filter(|problem| problem.place == Place::Panel(PanelId(2)))
            .count()
    };
    assert_eq!(told(100), 1);
    assert_eq!(told(99), 1);
    assert_eq!(told(97), 0);
}

/// Folds belong along the grain where there is a choice, and across it the card
/// says so (printers' guides on grain).
#[test]
fn folds_along_the_grain_where_there_is_a_choice() {
    let mut recipe = accordion();
    recipe.upright.clear();
    for (grain, across) in [(Grain::AlongHeight, true), (Grain::AlongWidth, false)] {
        if let Some(stock) = recipe.stocks.first_mut() {
            stock.grain = grain;
        }
        recipe.lay = None;
        let told = |recipe: &Recipe| {
            let problems = work_out(recipe, &Tools::default()).problems;
            let across = Finding::Fit(FitFinding::AcrossGrain(StripId::Base));
            problems.iter().any(|problem| problem.finding == across)
        };
        let card = work_out(&recipe, &Tools::default());
        let lay = card
            .lies(Part::Strip(StripId::Base))
            .expect("the paper is there")
            .lay;
        assert_eq!(lay.runs_across(), across, "{grain:?}");
        assert!(!told(&recipe));
        recipe.lay = Some(Lay {
            turn: lay.turn.then(Turn::Left),
            ..lay
        });
        assert!(told(&recipe));
    }
}
