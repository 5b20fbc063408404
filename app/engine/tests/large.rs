//! Cards of many parts, against slower ways to the same answers.

#![expect(
    clippy::expect_used,
    reason = "a test stops where what it needs is not there"
)]

#[path = "common/naming.rs"]
mod plain;
mod strips;

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::faces::{Part, View, readings, shown};
use foldwright_engine::fold::{Orders, fold};
use foldwright_engine::laid::lay_out;
use foldwright_engine::length::Length;
use foldwright_engine::problem::Finding;
use foldwright_engine::recipe::{
    EditError, Face, Fault, FileError, Fold, LayerKind, MeasureId, Misread, PanelId, Parts,
    Placing, Recipe, Runs, Seat, Side, StripId, read, read_kept, write,
};
use plain::Plain;
use strips::strip;

fn mm(length: i64) -> Length {
    Length::mm(length)
}

/// Numbers from a seed (Marsaglia's xorshift).
struct Numbers(u64);

impl Numbers {
    fn of(seed: u64) -> Self {
        println!("seed {seed}");
        Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15))
    }

    fn below(&mut self, most: i64) -> i64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        i64::try_from(self.0 >> 2).expect("two bits fewer fit") % most
    }

    /// A strip of so many panels of a few widths, folded anyhow.
    fn strip(&mut self, panels: usize) -> (Vec<Length>, String) {
        let widths = (0..panels).map(|_| mm(30 + 5 * self.below(3))).collect();
        let labels = (1..panels).map(|_| if self.below(2) == 0 { 'M' } else { 'V' });
        (widths, labels.collect())
    }
}

/// A strip that folds flat is told in one line at once; the search among all
/// orders of its panels, which knows nothing of strips, has that one too.
#[test]
fn a_long_strip_lies_as_the_search_allows() {
    let mut folded = 0;
    for seed in 1..=60 {
        let mut numbers = Numbers::of(seed);
        let panels = 12 + usize::try_from(numbers.below(20)).expect("it is small");
        let (widths, labels) = numbers.strip(panels);
        let folds: Vec<_> = labels.chars().map(fold_of).collect();
        let orders = Orders::of(&widths, &folds);
        let recipe = strip(&widths, mm(100), &labels, 0, Runs::Across);
        let Ok(card) = fold(&recipe, &lay_out(&recipe)) else {
            assert_eq!(orders.first(&[]), Ok(None));
            continue;
        };
        let closed = card.states.first().expect("it can be closed");
        let all = || (0..panels).flat_map(|a| (0..panels).map(move |b| (a, b)));
        let over: Vec<_> = all().filter(|(a, b)| closed.is_over(*a, *b)).collect();
        assert!(matches!(orders.first(&over), Ok(Some(_))));
        folded += 1;
    }
    assert!(folded > 5, "{folded} of 60 fold flat");
}

fn fold_of(label: char) -> Fold {
    match label {
        'M' => Fold::Mountain,
        _ => Fold::Valley,
    }
}

/// A face is read in the first state in which anything of it shows: looked for
/// in the drawings of every state, all of them, from the front and the back.
#[test]
fn faces_are_read_where_they_first_show() {
    let mut read = 0;
    for seed in 1..=40 {
        let mut numbers = Numbers::of(seed);
        let panels = 3 + usize::try_from(numbers.below(12)).expect("it is small");
        let (widths, labels) = numbers.strip(panels);
        let runs = [Runs::Across, Runs::Down][usize::from(numbers.below(2) == 0)];
        let recipe = strip(&widths, mm(100), &labels, 0, runs);
        let laid = lay_out(&recipe);
        let Ok(card) = fold(&recipe, &laid) else {
            continue;
        };
        let shows = |face: Face, number: usize, view: View| {
            let state = card.states.get(number).expect("it is one of the card");
            let shown = shown(state, view, &[], &[]);
            shown.iter().any(|it| it.part == Part::Face(face))
        };
        for reading in readings(&laid, &card) {
            let ways = [View::Front, View::Back].into_iter();
            let mut ways = ways.flat_map(|view| (0..card.states.len()).map(move |at| (at, view)));
            let first = ways.find(|(at, view)| shows(reading.face, *at, *view));
            assert_eq!(first, Some((reading.state, reading.view)));
            read += 1;
        }
    }
    assert!(read > 100, "{read} faces were read");
}

/// Forty mats stacked on each panel with borders of 1 mm. By hand: the n-th of a
/// stack is 2n mm narrower than its panel. The strip is firmer than its panels,
/// so that one panel grows at the cost of the other, each with its stack, and
/// nothing else moves.
#[test]
fn stacks_of_mats_follow_their_panels() {
    let mut recipe = strip(&[mm(150), mm(150)], mm(200), "V", 0, Runs::Across);
    let stacks = [0, 1].map(|panel| stack(&mut recipe, panel));
    let changes = recipe.set(strips::panel(1), mm(160)).expect("it can be");
    let mut moved: Vec<_> = changes.iter().map(|change| change.measure).collect();
    moved.sort_unstable();
    let panels = [strips::panel(0), strips::panel(1)];
    let mut follow: Vec<_> = stacks.iter().flatten().copied().chain(panels).collect();
    follow.sort_unstable();
    assert_eq!(moved, follow);
    for (stack, panel) in stacks.iter().zip([140, 160]) {
        for (layer, number) in stack.iter().zip(1..) {
            assert_eq!(recipe.value(*layer), mm(panel - 2 * number));
        }
    }
}

/// Mats on each other; their widths.
fn stack(recipe: &mut Recipe, panel: u32) -> Vec<MeasureId> {
    let mut on = Seat::Face(Face {
        panel: PanelId(panel),
        side: Side::A,
    });
    let mut widths = Vec::new();
    for _ in 0..40 {
        let id = recipe
            .add_layer(on, LayerKind::Mat, &Plain)
            .expect("there is room")
            .id;
        let layer = recipe.layer(id).expect("it was added");
        widths.push(layer.width);
        let border = match layer.place {
            Placing::Border(border) => border,
            Placing::At(_) | Placing::Distances => layer.left,
        };
        recipe.set(border, mm(1)).expect("nothing holds it");
        on = Seat::Layer(id);
    }
    widths
}

/// As many panels as a recipe can have, and one more.
fn too_many_panels() -> Recipe {
    let widths = vec![mm(60); Parts::Panels.most() + 1];
    let labels = "VM".repeat(Parts::Panels.most() / 2);
    let mut recipe = strip(&widths, mm(100), &labels, 0, Runs::Across);
    // The measures of so many panels are named like those of the strip.
    for (place, measure) in recipe.measures.iter_mut().enumerate() {
        measure.id = MeasureId(u32::try_from(place).expect("it is small"));
    }
    let [height, length, allowance] = [0, 1, 2].map(MeasureId);
    recipe.base.height = height;
    recipe.base.length = length;
    recipe.folding_in.allowance = allowance;
    for (panel, measure) in recipe.base.panels.iter_mut().zip(3..) {
        panel.width = MeasureId(measure);
    }
    recipe
}

#[test]
fn what_is_added_beyond_a_limit_is_refused_by_name() {
    let mut recipe = strip(&[mm(60), mm(60)], mm(100), "V", 0, Runs::Across);
    let refused = loop {
        let last = recipe.base.panels.len() - 1;
        if let Err(error) = recipe.add_panel(StripId::Base, last, None, &Plain) {
            break error;
        }
    };
    assert_eq!(refused, EditError::TooMany(Parts::Panels));
    assert_eq!(recipe.base.panels.len(), 120);
    assert_eq!(recipe.check(), []);

    let mut recipe = strip(&[mm(60), mm(60)], mm(100), "V", 0, Runs::Across);
    let on = Seat::Face(Face {
        panel: PanelId(0),
        side: Side::A,
    });
    let refused = loop {
        if let Err(error) = recipe.add_layer(on, LayerKind::Mat, &Plain) {
            break error;
        }
    };
    assert_eq!(refused, EditError::TooMany(Parts::Layers));
    assert_eq!(recipe.layers.len(), 200);
    assert_eq!(recipe.check(), []);
}

#[test]
fn a_file_beyond_a_limit_says_which_and_by_how_much() {
    let mut recipe = too_many_panels();
    recipe.name = "Harbour front".to_owned();
    let refused = read(&write(std::slice::from_ref(&recipe)));
    let many = Fault::TooMany {
        parts: Parts::Panels,
        number: 121,
    };
    let of = Misread {
        recipe: Box::new(recipe),
        faults: vec![many],
    };
    assert_eq!(refused, Err(FileError::TooLarge { recipe: 1, of }));
}

/// A recipe from before a limit is kept whole, says what is too much of it, and
/// can be changed in every way but growing further.
#[test]
fn what_is_kept_already_is_not_lost_for_a_limit() {
    let mut recipe = too_many_panels();
    let kept = read_kept(&write(std::slice::from_ref(&recipe)));
    assert_eq!(kept.as_deref(), Ok(std::slice::from_ref(&recipe)));
    let problems = |recipe: &Recipe| {
        let card = work_out(recipe, &Tools::default());
        let all = card.problems.into_iter();
        let many = all.filter_map(|problem| match problem.finding {
            Finding::TooMany { parts, number } => Some((parts, number)),
            _ => None,
        });
        many.collect::<Vec<_>>()
    };
    assert_eq!(problems(&recipe), [(Parts::Panels, 121)]);
    let added = recipe.add_panel(StripId::Base, 0, None, &Plain);
    assert_eq!(added.map(drop), Err(EditError::TooMany(Parts::Panels)));
    let first = recipe.base.panels[0].clone();
    let on = Seat::Face(Face {
        panel: first.id,
        side: Side::A,
    });
    recipe
        .add_layer(on, LayerKind::Mat, &Plain)
        .expect("there is room");
    recipe.set(first.width, mm(50)).expect("nothing holds it");
    recipe.remove_panel(first.id).expect("others are left");
    assert_eq!(recipe.check(), []);
    assert_eq!(problems(&recipe), []);
}
