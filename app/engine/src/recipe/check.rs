//! Whether a recipe from outside holds together.

use std::collections::{BTreeMap, BTreeSet};

use super::line::MOST_NAMES;
use super::{
    Bend, Bond, LayerId, MOST_BENDS, MOST_TEXT, MOST_WAVES, MeasureId, Outline, PanelId, Parts,
    Recipe, Seat, Stacked,
};
use crate::length::Length;
use crate::paper::{ClearanceRule, Envelope, FoldInRule, StockId};

/// The most times a measure may stand in a relation. Our own bound.
pub const MOST_TIMES: u64 = 1000;

/// The most cards of one recipe.
pub const MOST_COPIES: u32 = 9999;

/// Something that keeps a recipe from holding together. What it names is to be
/// looked up in that recipe.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Fault {
    /// A strip has no panel.
    NoPanel,
    /// There is not one fold between each two neighbouring panels.
    Folds {
        /// How many panels there are.
        panels: usize,
        /// How many folds.
        folds: usize,
    },
    /// More of something than can be worked with.
    TooMany {
        /// Of what.
        parts: Parts,
        /// How many there are.
        number: usize,
    },
    /// Two things of a kind go by the same number in the file.
    Twice(Parts),
    /// A panel or a line goes by a number that is too large.
    Name(Parts),
    /// Something is spoken of that the recipe, or a table, does not have.
    Missing(Needed),
    /// A length is beyond the limit.
    TooLong(Measured),
    /// A size or a thickness is nothing or less.
    NotPositive(Measured),
    /// The number of cards is not between 1 and [`MOST_COPIES`], or that of the
    /// class is not.
    Copies(u32),
    /// A text is longer than [`MOST_TEXT`].
    Text(Written),
    /// The least a measure may be is more than the most.
    Limits(MeasureId),
    /// A measure stands in a relation not at all, or more than [`MOST_TIMES`]
    /// times.
    Times(i64),
    /// An outline has too many corners or waves, or a corner past its width or
    /// height.
    Outline,
    /// Layers lie on each other in a circle.
    Circle(LayerId),
    /// A card takes none of a supply, or more than [`MOST_OF_A_KIND`]; or the knot of a
    /// ribbon takes less than nothing, or more than the limit of lengths; or there is
    /// nothing in a pack of it, or more than in any.
    ///
    /// [`MOST_OF_A_KIND`]: super::MOST_OF_A_KIND
    Supply,
}

/// What a recipe speaks of and has to have.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "the names say which")]
pub enum Needed {
    Measure,
    Paper,
    Panel,
    Layer,
    /// A panel by which a piece is glued, or to which.
    PanelToGlue,
    /// A panel out of which something is cut.
    PanelToCut,
    FoldInRule,
    ClearanceRule,
    Envelope,
}

/// A length of a recipe.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "the names say which")]
pub enum Measured {
    Measure(MeasureId),
    /// The least or the most a measure may be.
    Limit(MeasureId),
    /// What a measure was before a refit.
    Designed(MeasureId),
    GlueMargin,
    /// The fixed length of a relation.
    Plus,
    /// How far glue stays from the edges of a layer.
    GlueOf(LayerId),
    SheetWidth(StockId),
    SheetHeight(StockId),
    Caliper(StockId),
}

/// A text of a recipe.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "the names say which")]
pub enum Written {
    Name,
    About,
    Note,
}

impl Recipe {
    /// Everything that keeps the recipe from holding together, or from being
    /// worked with without a pause; a recipe made by the editor has none.
    pub fn check(&self) -> Vec<Fault> {
        self.faults(Parts::most)
    }

    /// The same for a recipe that is kept already. It may have more parts than
    /// one can have that is made now, and is not lost for that.
    pub fn check_kept(&self) -> Vec<Fault> {
        self.faults(Parts::most_kept)
    }

    /// The kinds of parts of which the recipe has more than it can have.
    pub(crate) fn too_many(&self) -> impl Iterator<Item = (Parts, usize)> + '_ {
        let counts = Parts::ALL.into_iter().map(|parts| (parts, parts.of(self)));
        counts.filter(|(parts, number)| *number > parts.most())
    }

    fn faults(&self, most: fn(Parts) -> usize) -> Vec<Fault> {
        let counts = Parts::ALL.into_iter().map(|parts| (parts, parts.of(self)));
        let many = counts.filter(|(parts, number)| *number > most(*parts));
        let many = many.map(|(parts, number)| Fault::TooMany { parts, number });
        let mut faults: Vec<_> = many.collect();
        // A hostile file is not looked into any further.
        if faults.is_empty() {
            faults.extend(self.wrong_strip());
            faults.extend(self.same_ids());
            faults.extend(self.large_ids());
            faults.extend(self.missing());
            faults.extend(self.wrong_lengths());
            faults.extend(self.wrong_limits());
            faults.extend(self.wrong_relations());
            faults.extend(self.wrong_outlines());
            faults.extend(self.long_texts());
            faults.extend(self.circle());
            let mut supplies = self.supplies.iter();
            let unsound = supplies.any(|supply| !supply.is_sound());
            faults.extend(unsound.then_some(Fault::Supply));
        }
        faults
    }

    fn wrong_strip(&self) -> Vec<Fault> {
        let mut faults = Vec::new();
        for (_, strip) in self.strips() {
            let (panels, folds) = (strip.panels.len(), strip.folds.len());
            if panels == 0 {
                faults.push(Fault::NoPanel);
            } else if panels != folds + 1 {
                faults.push(Fault::Folds { panels, folds });
            }
        }
        let of_class = self.class.map(|class| class.cards);
        let numbers = std::iter::once(self.copies).chain(of_class);
        let wrong = numbers.filter(|number| !(1..=MOST_COPIES).contains(number));
        faults.extend(wrong.map(Fault::Copies));
        faults
    }

    fn same_ids(&self) -> Vec<Fault> {
        let strips = || self.strips().map(|(_, strip)| strip);
        let panels = strips().flat_map(|strip| &strip.panels);
        let lines = strips().flat_map(|strip| &strip.lines);
        let cutouts = strips().flat_map(|strip| &strip.cutouts);
        let kinds: [(Parts, Vec<u32>); 9] = [
            (
                Parts::Measures,
                self.measures.iter().map(|it| it.id.0).collect(),
            ),
            (
                Parts::Papers,
                self.stocks.iter().map(|it| it.id.0).collect(),
            ),
            (Parts::Panels, panels.map(|it| it.id.0).collect()),
            (Parts::Lines, lines.map(|it| it.id.0).collect()),
            (Parts::Cutouts, cutouts.map(|it| it.id.0).collect()),
            (
                Parts::Pieces,
                self.pieces.iter().map(|it| it.id.0).collect(),
            ),
            (
                Parts::Layers,
                self.layers.iter().map(|it| it.id.0).collect(),
            ),
            (
                Parts::Supplies,
                self.supplies.iter().map(|it| it.id.0).collect(),
            ),
            (
                Parts::OwnSteps,
                self.own_steps.iter().map(|it| it.id.0).collect(),
            ),
        ];
        let runs: BTreeSet<_> = self.runs.iter().map(|run| run.id).collect();
        let same_runs = runs.len() < self.runs.len();
        kinds
            .into_iter()
            .filter(|(_, ids)| ids.iter().collect::<BTreeSet<_>>().len() < ids.len())
            .map(|(parts, _)| Fault::Twice(parts))
            .chain(same_runs.then_some(Fault::Twice(Parts::Notes)))
            .collect()
    }

    fn large_ids(&self) -> Vec<Fault> {
        let strips = || self.strips().map(|(_, strip)| strip);
        let panels = strips().flat_map(|strip| &strip.panels);
        let panels = panels.map(|panel| panel.id.0).max();
        let lines = strips().flat_map(|strip| &strip.lines);
        let lines = lines.map(|line| line.id.0).max();
        [(panels, Parts::Panels), (lines, Parts::Lines)]
            .into_iter()
            .filter(|(most, _)| most.is_some_and(|most| most >= MOST_NAMES))
            .map(|(_, parts)| Fault::Name(parts))
            .collect()
    }

    fn missing(&self) -> Vec<Fault> {
        let base = &self.base;
        let known: BTreeSet<_> = self.measures.iter().map(|it| it.id).collect();
        let mut measures = self.part_measures().chain(
            self.relations
                .iter()
                .flat_map(|relation| relation.terms().map(|(_, of)| of)),
        );
        let mut stocks = self
            .layers
            .iter()
            .map(|layer| layer.stock)
            .chain(self.strips().map(|(_, strip)| strip.stock));
        let faces = self
            .layers
            .iter()
            .filter_map(|layer| match layer.on {
                Seat::Face(face) => Some(face),
                Seat::Layer(_) => None,
            })
            .chain(self.upright.iter().copied());
        let answers = || base.on_top.iter().flat_map(|it| it.sheets());
        let answered = answers().filter_map(|sheet| match sheet {
            Stacked::Panel(panel) => Some(panel),
            Stacked::Layer { .. } => None,
        });
        let answered_layers = answers().filter_map(|sheet| match sheet {
            Stacked::Layer { layer } => Some(layer),
            Stacked::Panel(_) => None,
        });
        // A piece is glued by its own panels, to what is there before it.
        let mut there: BTreeSet<PanelId> = base.panels.iter().map(|panel| panel.id).collect();
        let mut astray = false;
        for piece in &self.pieces {
            for join in &piece.joins {
                astray |= piece.strip.index_of(join.panel).is_none()
                    || !there.contains(&join.on.panel.strip_panel());
            }
            there.extend(piece.strip.panels.iter().map(|panel| panel.id));
        }
        let mut panels = faces
            .map(|face| face.panel)
            .chain(answered)
            .chain([base.rests]);
        let under = self.layers.iter().filter_map(|layer| match layer.on {
            Seat::Layer(id) => Some(id),
            Seat::Face(_) => None,
        });
        let mut under = under.chain(answered_layers);
        let envelope = self.posting.envelope.as_deref();
        [
            (measures.any(|id| !known.contains(&id)), Needed::Measure),
            (stocks.any(|id| self.stock(id).is_none()), Needed::Paper),
            (panels.any(|id| self.panel(id).is_none()), Needed::Panel),
            (under.any(|id| self.layer(id).is_none()), Needed::Layer),
            (astray, Needed::PanelToGlue),
            (
                self.cutouts()
                    .any(|(strip, it)| strip.index_of(it.panel).is_none()),
                Needed::PanelToCut,
            ),
            (
                FoldInRule::by_id(&self.folding_in.rule).is_none(),
                Needed::FoldInRule,
            ),
            (
                ClearanceRule::by_id(&self.posting.rule).is_none(),
                Needed::ClearanceRule,
            ),
            (
                envelope.is_some_and(|id| Envelope::by_id(id).is_none()),
                Needed::Envelope,
            ),
        ]
        .into_iter()
        .filter(|(missing, _)| *missing)
        .map(|(_, what)| Fault::Missing(what))
        .collect()
    }

    fn wrong_lengths(&self) -> Vec<Fault> {
        let mut lengths: Vec<(Measured, Length)> = Vec::new();
        for measure in &self.measures {
            lengths.push((Measured::Measure(measure.id), measure.value));
            let limits = [measure.least, measure.most].into_iter().flatten();
            lengths.extend(limits.map(|limit| (Measured::Limit(measure.id), limit)));
            let designed = measure.designed.into_iter();
            lengths.extend(designed.map(|it| (Measured::Designed(measure.id), it)));
        }
        lengths.push((Measured::GlueMargin, self.glue_margin));
        let relations = self.relations.iter();
        lengths.extend(relations.map(|relation| (Measured::Plus, relation.plus)));
        for layer in &self.layers {
            if let Bond::Within {
                left,
                right,
                top,
                bottom,
            } = layer.bond
            {
                let glue = Measured::GlueOf(layer.id);
                lengths.extend([left, right, top, bottom].map(|length| (glue, length)));
            }
        }
        let sizes = self.stocks.iter().flat_map(|stock| {
            [
                (Measured::SheetWidth(stock.id), stock.width),
                (Measured::SheetHeight(stock.id), stock.height),
                (Measured::Caliper(stock.id), stock.caliper),
            ]
        });
        let ids: BTreeSet<_> = self.sizes().collect();
        let measures = ids.into_iter().filter_map(|id| self.measure(id));
        let measures = measures.map(|measure| (Measured::Measure(measure.id), measure.value));
        let positive = sizes.clone().chain(measures);
        let too_long = lengths
            .into_iter()
            .chain(sizes)
            .filter(|(_, length)| length.abs() > Length::LIMIT)
            .map(|(what, _)| Fault::TooLong(what));
        let not_positive = positive
            .filter(|(_, length)| *length <= Length::ZERO)
            .map(|(what, _)| Fault::NotPositive(what));
        too_long.chain(not_positive).collect()
    }

    fn wrong_limits(&self) -> Vec<Fault> {
        let crossed = |least: Option<Length>, most: Option<Length>| {
            least.zip(most).is_some_and(|(least, most)| least > most)
        };
        self.measures
            .iter()
            .filter(|measure| crossed(measure.least, measure.most))
            .map(|measure| Fault::Limits(measure.id))
            .collect()
    }

    fn wrong_relations(&self) -> Vec<Fault> {
        let terms = self
            .relations
            .iter()
            .flat_map(|relation| relation.left.iter().chain(&relation.right));
        terms
            .map(|term| term.times)
            .filter(|times| *times == 0 || times.unsigned_abs() > MOST_TIMES)
            .map(Fault::Times)
            .collect()
    }

    fn wrong_outlines(&self) -> Vec<Fault> {
        let layers = self.layers.iter().map(|layer| match &layer.outline {
            Outline::Cut(bends) => (bends.as_slice(), 1),
            _ => (&[][..], 1),
        });
        let cutouts = self.cutouts();
        let cutouts = cutouts.map(|(_, it)| (it.cut.bends(), it.cut.waves().unwrap_or(1)));
        let sound = |(bends, waves): &(&[Bend], u8)| {
            let within = bends.iter().all(|bend| bend.is_sound());
            within && bends.len() <= MOST_BENDS && (1..=MOST_WAVES).contains(waves)
        };
        let unsound = layers.chain(cutouts).filter(|all| !sound(all));
        let outlines = self.layers.iter().map(|layer| &layer.outline);
        let windows = self.cutouts().filter_map(|(_, it)| it.cut.window());
        let outlines = outlines.chain(windows.map(|window| &window.outline));
        let unsound_traced =
            outlines.filter(|it| matches!(it, Outline::Traced(traced) if !traced.is_sound()));
        let unsound = unsound.map(|_| Fault::Outline);
        unsound
            .chain(unsound_traced.map(|_| Fault::Outline))
            .collect()
    }

    fn long_texts(&self) -> Vec<Fault> {
        let strips = || self.strips().map(|(_, strip)| strip);
        let names = self
            .measures
            .iter()
            .map(|it| &it.name)
            .chain(self.stocks.iter().map(|it| &it.name))
            .chain(strips().flat_map(|strip| &strip.panels).map(|it| &it.name))
            .chain(strips().flat_map(|strip| &strip.lines).map(|it| &it.name))
            .chain(strips().flat_map(|strip| &strip.cutouts).map(|it| &it.name))
            .chain(self.pieces.iter().map(|it| &it.name))
            .chain(self.layers.iter().map(|it| &it.name))
            .chain(self.supplies.iter().map(|it| &it.name))
            .chain([&self.name]);
        let notes = self.notes.iter().flat_map(|(step, note)| [step, note]);
        let spent = self.runs.iter().flat_map(|run| &run.spent);
        let own = self.own_steps.iter().map(|it| &it.text);
        let notes = notes.chain(own).chain(&self.order);
        names
            .map(|text| (text, Written::Name))
            .chain([(&self.about, Written::About)])
            .chain(notes.map(|text| (text, Written::Note)))
            .chain(self.photos.keys().map(|text| (text, Written::Note)))
            .chain(self.runs.iter().map(|run| (&run.text, Written::Note)))
            .chain(spent.map(|spent| (&spent.paper, Written::Name)))
            .filter(|(text, _)| text.chars().count() > MOST_TEXT)
            .map(|(_, what)| Fault::Text(what))
            .collect()
    }

    /// A layer that, followed down from layer to layer, never comes to a panel.
    fn circle(&self) -> Option<Fault> {
        let layers = self.layers.iter();
        let seats: BTreeMap<_, _> = layers.map(|layer| (layer.id, layer.on)).collect();
        let below = |seat: &Seat| match seat {
            Seat::Layer(id) => seats.get(id).copied(),
            Seat::Face(_) => None,
        };
        // Layers mostly lie on those before them.
        let mut grounded: BTreeSet<LayerId> = BTreeSet::new();
        let mut layers = self.layers.iter();
        layers
            .find(|layer| {
                let down = std::iter::successors(Some(layer.on), below).take(seats.len() + 1);
                let stands = |seat: Seat| match seat {
                    Seat::Layer(id) => grounded.contains(&id) || !seats.contains_key(&id),
                    Seat::Face(_) => true,
                };
                let is_grounded = down.into_iter().any(stands);
                grounded.extend(is_grounded.then_some(layer.id));
                !is_grounded
            })
            .map(|layer| Fault::Circle(layer.id))
    }
}
