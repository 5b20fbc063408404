//! A case and its answer as JSON.

use foldwright_engine::length::Length;
use foldwright_engine::paper::StockId;
use foldwright_engine::recipe::{
    Cut, Holds, Is, MeasureId, Placing, Recipe, Relation, Runs, Seat, Side, Strip,
};
use foldwright_engine::refit::{Cause, Clash, Free, Refit, in_unit_of};
use serde_json::{Value, json};

use crate::cases::Case;

/// All of a case that another program needs to solve it by itself.
pub(crate) fn told(case: &Case, answer: &Result<Refit, Clash>) -> Value {
    let Case { name, recipe, wish } = case;
    let notation = wish.notation.unwrap_or(recipe.notation);
    let asked = in_unit_of(recipe, notation);
    let told = Told(&asked);
    let step = notation.step.length();
    let measures = asked.measures.iter().map(|measure| {
        json!({
            "id": measure.id.0,
            "value": measure.value.units(),
            "least": measure.least.map(Length::units),
            "most": measure.most.map(Length::units),
            "pinned": measure.pinned,
        })
    });
    let stocks = recipe.stocks.iter();
    let papers = stocks.map(|stock| (stock.id.0.to_string(), size(stock.width, stock.height)));
    let panels = recipe.base.panels.iter().map(|panel| told.at(panel.width));
    let base = &recipe.base;
    json!({
        "name": name,
        "step": step.units(),
        "limit": Length::LIMIT.units(),
        "measures": measures.collect::<Vec<_>>(),
        "sizes": told.sizes(),
        "held": told.held(),
        "papers": papers.collect::<serde_json::Map<_, _>>(),
        "base": { "stock": base.stock.0, "sides": told.both(base.length, base.height) },
        "pieces": told.pieces(),
        "panels": panels.collect::<Vec<_>>(),
        "layers": told.layers(),
        "down": base.runs == Runs::Down,
        "sheet": wish.sheet.map(|sheet| json!({
            "stock": sheet.stock.0,
            "size": size(sheet.size.width, sheet.size.height),
        })),
        "finished": wish.finished.map(|wished| size(wished.width, wished.height)),
        "envelope": wish.envelope.map(|(envelope, rule)| {
            size(envelope.length - rule.length, envelope.height - rule.height)
        }),
        "answer": match answer {
            Ok(refit) => card(refit),
            Err(clash) => Told::clash(case, clash),
        },
    })
}

fn size(width: Length, height: Length) -> Value {
    json!([width.units(), height.units()])
}

struct Told<'a>(&'a Recipe);

impl Told<'_> {
    fn at(&self, id: MeasureId) -> usize {
        let mut measures = self.0.measures.iter();
        measures.position(|measure| measure.id == id).unwrap_or(0)
    }

    fn both(&self, a: MeasureId, b: MeasureId) -> [usize; 2] {
        [self.at(a), self.at(b)]
    }

    /// The measures that are the size of some paper.
    fn sizes(&self) -> Vec<usize> {
        let recipe = self.0;
        let strip = |strip: &Strip| {
            let panels = strip.panels.iter().map(|panel| panel.width);
            let windows = strip.cutouts.iter().flat_map(|cutout| match &cutout.cut {
                Cut::Window(window) => [Some(window.width), Some(window.height)]
                    .into_iter()
                    .chain([window.outline.measure()])
                    .flatten()
                    .collect::<Vec<_>>(),
                Cut::Corners { radius, .. } => vec![*radius],
                Cut::Edge { depth, .. } => vec![*depth],
            });
            let own = [strip.length, strip.height].into_iter();
            own.chain(panels).chain(windows).collect::<Vec<_>>()
        };
        let strips = recipe.strips().flat_map(|(_, it)| strip(it));
        let layers = recipe.layers.iter().flat_map(|layer| {
            let sides = [
                Some(layer.width),
                Some(layer.height),
                layer.outline.measure(),
            ];
            sides.into_iter().flatten()
        });
        strips.chain(layers).map(|id| self.at(id)).collect()
    }

    fn relation(&self, cause: Cause, relation: &Relation) -> Value {
        let left = relation.left.iter().map(|it| (self.at(it.of), it.times));
        let right = relation.right.iter().map(|it| (self.at(it.of), -it.times));
        json!({
            "cause": format!("{cause:?}"),
            "terms": left.chain(right).collect::<Vec<_>>(),
            "is": match relation.is {
                Is::Equal => "=",
                Is::AtLeast => ">",
                Is::AtMost => "<",
            },
            "plus": relation.plus.units(),
            "should": relation.holds == Holds::Should,
        })
    }

    /// Everything a recipe says that holds, with where it comes from.
    fn held(&self) -> Vec<Value> {
        let recipe = self.0;
        let strips: Vec<_> = recipe.strips().map(|(of, _)| of).collect();
        let mut told = Vec::new();
        for (of, relation) in strips.iter().zip(recipe.held()) {
            told.push(self.relation(Cause::Strip(*of), &relation));
        }
        // What keeps one part in its place is what remains with all others loose.
        for layer in &recipe.layers {
            let kept = loose(recipe, Some(Cause::Layer(layer.id)));
            let kept = kept.iter().skip(strips.len());
            told.extend(kept.map(|it| self.relation(Cause::Layer(layer.id), it)));
        }
        for (_, cutout) in recipe.cutouts() {
            let kept = loose(recipe, Some(Cause::Window(cutout.id)));
            let kept = kept.iter().skip(strips.len());
            told.extend(kept.map(|it| self.relation(Cause::Window(cutout.id), it)));
        }
        let relations = recipe.relations.iter().enumerate();
        told.extend(relations.map(|(at, it)| self.relation(Cause::Relation(at), it)));
        told
    }

    /// What is cut from paper besides the base.
    fn pieces(&self) -> Vec<Value> {
        let layers = self.0.layers.iter();
        let layers = layers.map(|it| (it.stock, self.both(it.width, it.height)));
        let pieces = self.0.pieces.iter().map(|piece| &piece.strip);
        let pieces = pieces.map(|it| (it.stock, self.both(it.length, it.height)));
        let told = |(stock, sides): (StockId, _)| json!({ "stock": stock.0, "sides": sides });
        layers.chain(pieces).map(told).collect()
    }

    /// Where layers lie on the base: on which panel, on its outside or not, and how
    /// far from the left and the bottom as seen there.
    fn layers(&self) -> Vec<Value> {
        let panels = &self.0.base.panels;
        let layers = self.0.layers.iter().filter_map(|layer| {
            let Seat::Face(face) = layer.on else {
                return None;
            };
            Some(json!({
                "panel": panels.iter().position(|panel| panel.id == face.panel)?,
                "outside": face.side == Side::B,
                "from": self.both(layer.left, layer.bottom),
                "sides": self.both(layer.width, layer.height),
            }))
        });
        layers.collect()
    }

    fn clash(case: &Case, clash: &Clash) -> Value {
        let Clash::Between {
            causes, smallest, ..
        } = clash
        else {
            return json!({ "unknown": format!("{clash:?}") });
        };
        let causes = causes.iter().map(|cause| format!("{cause:?}"));
        let ways = clash.ways_out(&case.recipe, &case.wish);
        let ways = ways.iter().map(|way| {
            let frees = way.frees.iter().map(|it| free(*it));
            json!({
                "frees": frees.collect::<Vec<_>>(),
                "finished": size(way.finished.width, way.finished.height),
            })
        });
        json!({
            "clash": causes.collect::<Vec<_>>(),
            "smallest": smallest,
            "ways": ways.collect::<Vec<_>>(),
        })
    }
}

/// What holds in a recipe without its own relations, and with every part free to
/// lie anywhere but one.
fn loose(recipe: &Recipe, but: Option<Cause>) -> Vec<Relation> {
    let mut recipe = recipe.clone();
    recipe.relations.clear();
    for layer in &mut recipe.layers {
        if but != Some(Cause::Layer(layer.id)) {
            layer.place = Placing::Distances;
        }
    }
    let pieces = recipe.pieces.iter_mut().map(|piece| &mut piece.strip);
    for strip in pieces.chain([&mut recipe.base.strip]) {
        for cutout in &mut strip.cutouts {
            if let Cut::Window(window) = &mut cutout.cut
                && but != Some(Cause::Window(cutout.id))
            {
                window.place = Placing::Distances;
            }
        }
    }
    recipe.held()
}

/// A card, and what became of it.
fn card(refit: &Refit) -> Value {
    let values = refit.recipe.measures.iter().map(|it| it.value.units());
    let given_up = refit.given_up.iter().filter_map(|cause| match cause {
        Cause::Relation(at) => Some(*at),
        _ => None,
    });
    json!({
        "values": values.collect::<Vec<_>>(),
        "given_up": given_up.collect::<Vec<_>>(),
        "between_marks": !refit.off_marks.is_empty(),
        "nearest": refit.nearest,
        "finished": size(refit.finished.width, refit.finished.height),
    })
}

/// What is let go of: a cause, or what is taken in place of what there is.
fn free(free: Free) -> Value {
    let without = |cause: Cause| json!(["without", format!("{cause:?}")]);
    match free {
        Free::Wish(cause) => without(cause),
        Free::Unpin(id) => without(Cause::Pinned(id)),
        Free::Least(id) => without(Cause::Least(id)),
        Free::Most(id) => without(Cause::Most(id)),
        Free::Relation(at) => without(Cause::Relation(at)),
        Free::Place(id) => without(Cause::Layer(id)),
        Free::PlaceWindow(id) => without(Cause::Window(id)),
        Free::Stock(id, of) => json!(["stock", id.0, size(of.width, of.height)]),
        Free::Size(of) => json!(["finished", size(of.width, of.height)]),
        Free::Marks(step) => json!(["step", step.length().units()]),
    }
}
