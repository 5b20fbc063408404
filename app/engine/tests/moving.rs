//! Moving moves, and resizing resizes: what a change of one number does to the
//! rest of a recipe.

#![expect(
    clippy::expect_used,
    reason = "a test stops where what it needs is not there"
)]

#[path = "common/naming.rs"]
mod plain;
mod strips;

use std::collections::BTreeSet;

use foldwright_engine::card::add_piece;
use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::plane::Point;
use foldwright_engine::recipe::{
    Anchor, End, Face, Holds, LayerId, LayerKind, MeasureId, PanelId, Placing, Recipe, Relation,
    Runs, Seat, Shaped, Side, starters,
};
use plain::Plain;
use strips::{HEIGHT, panel, strip};

const ANCHORS: [Anchor; 9] = [
    Anchor::TopLeft,
    Anchor::Top,
    Anchor::TopRight,
    Anchor::Left,
    Anchor::Centre,
    Anchor::Right,
    Anchor::BottomLeft,
    Anchor::Bottom,
    Anchor::BottomRight,
];

fn eighths(count: i64) -> Length {
    Length::sixty_fourths(8 * count)
}

/// A card of 4 1/4 × 5 1/2 in.
fn book() -> Recipe {
    strip(&[eighths(34); 2], eighths(44), "V", 1, Runs::Across)
}

fn front(side: Side) -> Seat {
    Seat::Face(Face {
        panel: PanelId(0),
        side,
    })
}

/// Width, height, from the left, from the bottom.
fn rectangle(recipe: &Recipe, of: Shaped) -> [MeasureId; 4] {
    match of {
        Shaped::Layer(id) => {
            let it = recipe.layer(id).expect("it is there");
            [it.width, it.height, it.left, it.bottom]
        }
        Shaped::Window(id) => {
            let it = recipe.cutout(id).and_then(|it| it.cut.window());
            let it = it.expect("it is there");
            [it.width, it.height, it.left, it.bottom]
        }
    }
}

fn values(recipe: &Recipe, of: Shaped) -> [Length; 4] {
    rectangle(recipe, of).map(|id| recipe.value(id))
}

fn place(recipe: &mut Recipe, of: Shaped, place: Placing) {
    match of {
        Shaped::Layer(id) => recipe.place_layer(id, place),
        Shaped::Window(id) => recipe.place_window(id, place),
    }
    .expect("it can be placed so");
}

/// Worked by hand: a layer as wide as its panel of 4 1/4 in, held in the middle;
/// 1 1/4 in from the left it hangs over on the right, and is as wide as before
/// (it became 1 3/4 in).
#[test]
fn a_layer_held_at_a_point_moves_and_keeps_its_width() {
    let mut recipe = book();
    let id = recipe
        .add_layer(front(Side::B), LayerKind::Focal, &Plain)
        .expect("there is room")
        .id;
    let of = Shaped::Layer(id);
    let [width, _, left, bottom] = rectangle(&recipe, of);
    recipe.set(width, eighths(34)).expect("it fits");
    let before = recipe.placings();
    assert_eq!(recipe.value(left), Length::ZERO);
    let was = recipe.value(bottom);
    let moved = recipe.set(left, eighths(10)).expect("it moves");
    assert_eq!(moved.len(), 1, "{moved:?}");
    assert_eq!(recipe.value(width), eighths(34));
    assert_eq!(recipe.value(bottom), was);
    assert_eq!(recipe.placed_anew(&before), [(of, Placing::Distances)]);
    // Afterwards the panel may grow without it.
    recipe.set(panel(0), eighths(40)).expect("it is free");
    assert_eq!(recipe.value(left), eighths(10));
    assert_eq!(recipe.value(width), eighths(34));
}

/// Two layers tied to lie as far from the left, both held in the middle: moved by
/// one of them, both move, and both keep their widths.
#[test]
fn what_is_tied_to_a_moved_layer_moves_with_it() {
    let mut recipe = book();
    let [one, other] = [Side::A, Side::B].map(|side| {
        let added = recipe.add_layer(front(side), LayerKind::Focal, &Plain);
        rectangle(&recipe, Shaped::Layer(added.expect("there is room").id))
    });
    recipe.tie_equal(one[2], other[2]).expect("they are equal");
    let widths = [one[0], other[0]].map(|id| recipe.value(id));
    recipe.set(other[2], eighths(3)).expect("it moves");
    assert_eq!(
        [one[2], other[2]].map(|id| recipe.value(id)),
        [eighths(3); 2]
    );
    assert_eq!([one[0], other[0]].map(|id| recipe.value(id)), widths);
}

/// Typed as it is, nothing is placed anew.
#[test]
fn the_same_distance_again_changes_nothing() {
    let mut recipe = book();
    let id = recipe
        .add_layer(front(Side::B), LayerKind::Mat, &Plain)
        .expect("there is room")
        .id;
    let left = rectangle(&recipe, Shaped::Layer(id))[2];
    let before = recipe.clone();
    let now = recipe.value(left);
    assert_eq!(recipe.set(left, now), Ok(Vec::new()));
    assert_eq!(recipe, before);
}

/// Layers and windows, placed in every way there is.
fn placed() -> Vec<(Recipe, Shaped)> {
    let mut found = Vec::new();
    let layer = |recipe: &mut Recipe| {
        let added = recipe.add_layer(front(Side::A), LayerKind::Focal, &Plain);
        Shaped::Layer(added.expect("there is room").id)
    };
    let on_layer = |recipe: &mut Recipe| {
        let under = recipe.add_layer(front(Side::B), LayerKind::Mat, &Plain);
        let under = under.expect("there is room").id;
        let added = recipe.add_layer(Seat::Layer(under), LayerKind::Focal, &Plain);
        Shaped::Layer(added.expect("there is room").id)
    };
    let window = |recipe: &mut Recipe| {
        let added = recipe.add_window(PanelId(0), &Plain);
        Shaped::Window(added.expect("there is room").id)
    };
    for add in [&layer as &dyn Fn(&mut Recipe) -> Shaped, &on_layer, &window] {
        let mut recipe = book();
        let of = add(&mut recipe);
        let ways = ANCHORS
            .map(Placing::At)
            .into_iter()
            .chain([Placing::Distances]);
        for way in ways {
            let mut recipe = recipe.clone();
            place(&mut recipe, of, way);
            found.push((recipe, of));
        }
        match of {
            Shaped::Layer(id) => recipe.border_layer(id, &Plain),
            Shaped::Window(id) => recipe.border_window(id, &Plain),
        }
        .expect("a border");
        found.push((recipe, of));
    }
    found
}

#[test]
fn moving_moves_whatever_way_it_was_placed() {
    for (recipe, of) in placed() {
        let [width, height, left, bottom] = rectangle(&recipe, of);
        let was = values(&recipe, of);
        for (distance, other) in [(left, bottom), (bottom, left)] {
            for to in [eighths(3), eighths(-2), eighths(30)] {
                let mut moved = recipe.clone();
                moved.set(distance, to).expect("it moves");
                assert_eq!(moved.value(width), was[0]);
                assert_eq!(moved.value(height), was[1]);
                assert_eq!(moved.value(distance), to);
                assert_eq!(moved.value(other), recipe.value(other));
                assert_eq!(moved.broken(), []);
                assert_eq!(moved.check(), []);
            }
        }
    }
}

/// From one edge to the other it stays where it is held: at the edge, or in the
/// middle; what is placed by its distances keeps its left and its lower edge.
#[test]
fn resizing_keeps_the_edge_or_the_middle_it_is_held_by() {
    for (recipe, of) in placed() {
        let way = recipe.placings().into_iter().find(|(it, _)| *it == of);
        let (_, way) = way.expect("it is among them");
        // Twice what stays, by how much of the size lies before it.
        let [across, up] = match way {
            Placing::Distances | Placing::At(Anchor::BottomLeft) => [0, 0],
            Placing::Border(_) | Placing::At(Anchor::Centre) => [1, 1],
            Placing::At(Anchor::TopLeft) => [0, 2],
            Placing::At(Anchor::Top) => [1, 2],
            Placing::At(Anchor::TopRight) => [2, 2],
            Placing::At(Anchor::Left) => [0, 1],
            Placing::At(Anchor::Right) => [2, 1],
            Placing::At(Anchor::Bottom) => [1, 0],
            Placing::At(Anchor::BottomRight) => [2, 0],
        };
        let ids = rectangle(&recipe, of);
        let kept = |recipe: &Recipe, (size, from, held): (usize, usize, i64)| {
            recipe.value(ids[from]) * 2 + recipe.value(ids[size]) * held
        };
        for direction in [(0, 2, across), (1, 3, up)] {
            for by in [-4, -2, 2, 12] {
                let to = recipe.value(ids[direction.0]) + eighths(by);
                let mut sized = recipe.clone();
                sized.set(ids[direction.0], to).expect("it is free");
                assert_eq!(sized.value(ids[direction.0]), to);
                let (now, was) = (kept(&sized, direction), kept(&recipe, direction));
                assert_eq!(now, was, "{way:?}");
                let again = sized.placings().into_iter().find(|(it, _)| *it == of);
                assert_eq!(again, Some((of, way)));
            }
        }
    }
}

/// Whenever it got its even border: as its panel grows by 1/2 in, so does a mat or
/// a window, and the border stays (given a border later, it kept its width, and
/// its height shrank by as much as the panel grew).
#[test]
fn an_even_border_stays_as_the_panel_changes() {
    for (recipe, of) in placed() {
        let way = recipe.placings().into_iter().find(|(it, _)| *it == of);
        let Some((_, Placing::Border(border))) = way else {
            continue;
        };
        for (measure, by) in [(panel(0), [4, 0]), (HEIGHT, [0, 4])] {
            let mut grown = recipe.clone();
            let to = grown.value(measure) + eighths(4);
            grown.set(measure, to).expect("it is free");
            assert_eq!(grown.value(border), recipe.value(border));
            let (now, was) = (values(&grown, of), values(&recipe, of));
            for i in [0, 1] {
                assert_eq!(now[i], was[i] + eighths(by[i]), "{of:?}");
                assert_eq!(now[i + 2], was[i + 2], "{of:?}");
            }
        }
    }
}

/// A window that is dragged keeps its size, and both of its numbers move.
#[test]
fn dragging_moves() {
    for (mut recipe, of) in placed() {
        let Shaped::Window(id) = of else { continue };
        let was = values(&recipe, of);
        let by = (eighths(1), eighths(-3));
        recipe.move_window(id, by).expect("it moves");
        let to = [was[0], was[1], was[2] + by.0, was[3] + by.1];
        assert_eq!(values(&recipe, of), to);
    }
}

/// A piece is laid along a line; where the line begins is where the piece is, so
/// moved to the right it does not come to slant.
#[test]
fn a_piece_glued_in_moves_without_turning() {
    let mut recipe = book();
    let Seat::Face(on) = front(Side::A) else {
        return;
    };
    let id = add_piece(&mut recipe, on, &Plain)
        .expect("there is room")
        .id;
    let strip = recipe.piece(id).expect("it was added").strip.clone();
    let sizes = [strip.length, strip.height].map(|id| recipe.value(id));
    let mark = recipe
        .piece(id)
        .and_then(|it| it.joins[0].at)
        .expect("a line");
    let at = |recipe: &Recipe| {
        [mark.from, mark.to].map(|end| Point::<()>::new(recipe.value(end.x), recipe.value(end.y)))
    };
    let was = at(&recipe);
    let by = eighths(2);
    recipe.set(mark.from.x, was[0].x + by).expect("it moves");
    recipe.set(mark.from.y, was[0].y - by).expect("it moves");
    let to = was.map(|end| Point::new(end.x + by, end.y - by));
    assert_eq!(at(&recipe), to);
    assert_eq!(
        [strip.length, strip.height].map(|id| recipe.value(id)),
        sizes
    );
    // So does the point itself.
    let mut dragged = recipe.clone();
    let back = was[0];
    let back = Point::new(back.x, back.y);
    dragged.move_mark(id, 0, End::From, back).expect("it moves");
    assert_eq!(at(&dragged), was);
    // Its other end turns it.
    recipe.set(mark.to.x, to[1].x + by).expect("it turns");
    assert_eq!(at(&recipe)[0], to[0]);
}

/// Once its leaves are untied, one leaf of a gate changes alone, and the gap
/// between them gives way (they took turns before: the right one moved with the
/// left).
#[test]
fn untied_leaves_of_a_gate_stay_where_they_are() {
    for id in ["gate", "shaped-gate", "arched-gate"] {
        let starter = starters().iter().find(|it| it.id == id);
        let mut recipe = starter.expect("it is there").recipe.clone();
        let named = |recipe: &Recipe, name: &str| {
            let measure = recipe.measures.iter().find(|it| it.name == name);
            measure.expect(name).id
        };
        let [left, right, gap, middle, length] = [
            "left leaf width",
            "right leaf width",
            "gap between the leaves",
            "middle width",
            "strip length",
        ]
        .map(|name| named(&recipe, name));
        let tie = recipe.relations.iter().position(|held| {
            *held == Relation::same(left, right) || *held == Relation::same(right, left)
        });
        // Tied, both move, and the gap with them.
        let mut tied = recipe.clone();
        tied.set(left, eighths(15)).expect("it is free");
        assert_eq!(tied.value(right), eighths(15));
        assert_eq!(tied.value(gap), eighths(4));

        recipe
            .untie(tie.expect("they are tied"))
            .expect("it is there");
        for (leaf, other) in [(left, right), (right, left)] {
            let mut one = recipe.clone();
            let still = one.value(other);
            // 4 1/4 in less 1 7/8 and 2 1/16 in.
            let moved = one.set(leaf, eighths(15)).expect("it is free");
            assert_eq!(one.value(other), still, "{id}: {moved:?}");
            assert_eq!(one.value(gap), Length::sixty_fourths(20), "{id}");
            assert_eq!(one.value(middle), eighths(34), "{id}");
            assert_eq!(
                one.value(length),
                one.value(left) + one.value(middle) + one.value(right)
            );
        }
        // A wider card has a wider gap, and leaves as wide as they were set.
        let leaves = [left, right].map(|id| recipe.value(id));
        recipe.set(middle, eighths(36)).expect("it is free");
        assert_eq!([left, right].map(|id| recipe.value(id)), leaves);
    }
}

/// Untying measures that share no sum with a gap leaves the order alone.
#[test]
fn untying_others_keeps_their_order() {
    let mut recipe = book();
    recipe
        .tie_equal(panel(1), panel(0))
        .expect("they are equal");
    let order = |recipe: &Recipe| recipe.measures.iter().map(|it| it.id).collect::<Vec<_>>();
    let before = order(&recipe);
    recipe.untie(0).expect("it is there");
    assert_eq!(order(&recipe), before);
}

/// The measures that relations lead to from one of them.
fn within_reach(recipe: &Recipe, from: MeasureId) -> BTreeSet<MeasureId> {
    let held = recipe.held();
    let mut reach = BTreeSet::from([from]);
    loop {
        let before = reach.len();
        for relation in &held {
            let terms = || {
                relation
                    .left
                    .iter()
                    .chain(&relation.right)
                    .map(|term| term.of)
            };
            if terms().any(|of| reach.contains(&of)) {
                reach.extend(terms());
            }
        }
        if reach.len() == before {
            return reach;
        }
    }
}

/// Every starting fold with a layer held in each way on its first panel, and a
/// window in it.
fn furnished(notation: Notation) -> Vec<Recipe> {
    let furnish = |starter: &foldwright_engine::recipe::Starter| {
        let mut recipe = starter.recipe_in(notation);
        let panel = recipe.base.panels[0].id;
        let on = Seat::Face(Face {
            panel,
            side: Side::A,
        });
        for anchor in [Anchor::Centre, Anchor::TopRight, Anchor::Left] {
            let id = recipe
                .add_layer(on, LayerKind::Focal, &Plain)
                .expect("there is room")
                .id;
            recipe
                .place_layer(id, Placing::At(anchor))
                .expect("it is there");
        }
        recipe
            .add_layer(on, LayerKind::Mat, &Plain)
            .expect("there is room");
        recipe.add_window(panel, &Plain).expect("there is room");
        recipe
    };
    starters().iter().map(furnish).collect()
}

/// For every starting fold and every measure: a mark more or less moves only
/// what relations lead to, and what is moved keeps its size.
#[test]
fn a_number_moves_only_what_depends_on_it() {
    let mut tried = 0;
    for step in [Step::Sixteenth, Step::Millimetre] {
        let notation = Notation {
            step,
            decimal: DecimalMark::Point,
        };
        for recipe in furnished(notation) {
            let rectangles: Vec<_> = recipe
                .placings()
                .into_iter()
                .map(|(of, _)| (of, rectangle(&recipe, of)))
                .collect();
            // Lines of a panel that nothing ties go along with its ends.
            let lines: BTreeSet<_> = recipe
                .strips()
                .flat_map(|(_, strip)| &strip.lines)
                .flat_map(|line| [line.from.x, line.from.y, line.to.x, line.to.y])
                .collect();
            let carried: BTreeSet<_> = recipe
                .pieces
                .iter()
                .flat_map(|piece| piece.joins.iter().filter_map(|join| join.at))
                .flat_map(|mark| [mark.to.x, mark.to.y])
                .collect();
            for measure in &recipe.measures {
                for by in [step.length(), -step.length()] {
                    let mut after = recipe.clone();
                    let Ok(changes) = after.set(measure.id, measure.value + by) else {
                        continue;
                    };
                    let what = format!("{}: {} by {by:?}", recipe.name, measure.name);
                    let reach = within_reach(&recipe, measure.id);
                    for change in &changes {
                        let it = change.measure;
                        assert!(
                            reach.contains(&it) || lines.contains(&it) || carried.contains(&it),
                            "{what} moved {:?}",
                            recipe.measure(it)
                        );
                    }
                    for (of, [width, height, left, bottom]) in &rectangles {
                        if [left, bottom].contains(&&measure.id) {
                            let sizes = [*width, *height];
                            let before = sizes.map(|id| recipe.value(id));
                            assert_eq!(sizes.map(|id| after.value(id)), before, "{what} {of:?}");
                        }
                    }
                    // Off by more than rounding, sums would no longer hold.
                    for (_, strip) in after.strips() {
                        let panels = strip.panels.iter().map(|panel| after.value(panel.width));
                        assert_eq!(panels.sum::<Length>(), after.value(strip.length), "{what}");
                    }
                    tried += 1;
                }
            }
        }
    }
    assert!(tried > 3000, "{tried}");
}

/// The rules of a number are found from it: the leaves of a gate are equal, and
/// make up the card with the gap.
#[test]
fn rules_are_found_from_their_numbers() {
    let starter = starters().iter().find(|it| it.id == "gate");
    let recipe = &starter.expect("it is there").recipe;
    let left = recipe.base.panels[0].width;
    let named = |name: &str| {
        let measure = recipe.measures.iter().find(|it| it.name == name);
        measure.expect("it is there").id
    };
    let [middle, right] = [1, 2].map(|place| recipe.base.panels[place].width);
    let gap = named("gap between the leaves");
    let mut leaves = Relation::sum(left, [right, gap]);
    leaves.left.append(&mut leaves.right);
    leaves.right = Relation::same(middle, middle).left;
    let rules: Vec<_> = recipe
        .ties_of(&[left])
        .into_iter()
        .map(|place| Relation {
            holds: Holds::Must,
            ..recipe.relations[place].clone()
        })
        .collect();
    assert_eq!(rules, [Relation::same(left, right), leaves]);
    assert_eq!(recipe.ties_of(&[]), [0_usize; 0]);
}

/// A new layer, or a new piece, is cut from a sheet of the recipe's own unit.
#[test]
fn what_is_new_comes_from_paper_of_the_recipes_unit() {
    for (step, round) in [
        (Step::Sixteenth, eighths(1)),
        (Step::Millimetre, Length::mm(1)),
    ] {
        let notation = Notation {
            step,
            decimal: DecimalMark::Point,
        };
        for starter in starters() {
            let mut recipe = starter.recipe_in(notation);
            let face = Face {
                panel: recipe.base.panels[0].id,
                side: Side::A,
            };
            let layer: LayerId = recipe
                .add_layer(Seat::Face(face), LayerKind::Mat, &Plain)
                .expect("there is room")
                .id;
            let piece = add_piece(&mut recipe, face, &Plain)
                .expect("there is room")
                .id;
            let used = [
                recipe.layer(layer).map(|it| it.stock),
                recipe.piece(piece).map(|it| it.strip.stock),
            ];
            for stock in used.map(|id| recipe.stock(id.expect("it is there"))) {
                let stock = stock.expect("it has paper");
                assert_ne!(stock.id, recipe.base.stock, "{}", starter.id);
                for side in [stock.width, stock.height] {
                    let (_, rest) = side.div_rem(round.units()).expect("above nothing");
                    assert_eq!(rest, Length::ZERO, "{}: {}", starter.id, stock.name);
                }
            }
            assert_eq!(recipe.check(), [], "{}", starter.id);
        }
    }
}
