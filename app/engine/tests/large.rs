//! Cards of many parts, against slower ways to the same answers.

#![expect(
    clippy::expect_used,
    reason = "a test stops where what it needs is not there"
)]

mod strips;

use foldwright_engine::face::readings;
use foldwright_engine::fold::{Orders, fold};
use foldwright_engine::laid::lay_out;
use foldwright_engine::length::Length;
use foldwright_engine::recipe::{
    Face, Fold, LayerKind, MeasureId, PanelId, Place, Recipe, Runs, Seat, Side,
};
use foldwright_engine::show::{Part, View, shown};
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
            .add_layer(on, LayerKind::Mat)
            .expect("there is room")
            .id;
        let layer = recipe.layer(id).expect("it was added");
        widths.push(layer.width);
        let border = match layer.place {
            Place::Border(border) => border,
            Place::At(_) | Place::Distances => layer.left,
        };
        recipe.set(border, mm(1)).expect("nothing holds it");
        on = Seat::Layer(id);
    }
    widths
}
