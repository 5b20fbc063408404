//! What all parts of the calculator share: the recipe, the card worked out
//! from it, and what came of the last change.

use std::time::Duration;

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::length::{Length, Notation};
use foldwright_engine::problem::Place;
use foldwright_engine::recipe::{
    Change, Clash, CutoutId, EditError, LayerId, MeasureId, PanelId, PieceId, Recipe, StripId,
};
use foldwright_engine::sight::{Seen, sights};
use foldwright_words::Term;
use leptos::prelude::*;

use super::asking::Asking;
use crate::history::History;
use crate::part::Edited;
use crate::spoken::{speaker, texts};
use crate::store::Store;

/// A part of the calculator's page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Section {
    Panels,
    Layers,
    Pieces,
    Paper,
    Print,
    Scores,
    Envelope,
    Class,
    Refit,
}

impl Section {
    pub(super) fn word(self) -> &'static str {
        match self {
            Self::Panels => texts().desk.panels,
            Self::Layers => texts().desk.layers,
            Self::Pieces => texts().desk.pieces,
            Self::Paper => texts().paper.papers,
            Self::Print => texts().desk.print,
            Self::Scores => texts().desk.scores,
            Self::Envelope => texts().desk.envelope,
            Self::Class => texts().desk.class,
            Self::Refit => texts().desk.resize,
        }
    }

    /// The first of its words that are explained.
    pub(super) const fn term(self) -> Term {
        match self {
            Self::Panels => Term::Panel,
            Self::Layers => Term::Layer,
            Self::Pieces => Term::Tab,
            Self::Paper => Term::Sheet,
            Self::Print => Term::PrintDirection,
            Self::Scores => Term::Score,
            Self::Envelope | Self::Refit => Term::FinishedSize,
            Self::Class => Term::Kit,
        }
    }
}

/// What came of the last change.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) enum Outcome {
    /// Nothing worth saying.
    #[default]
    Quiet,
    /// It was made.
    Made {
        /// What lies somewhere in another way than before, and what else to know of
        /// it.
        placed: Vec<String>,
        /// The lengths that moved with it.
        moved: Vec<String>,
    },
    /// It was not made.
    Refused {
        /// Why, and what to do.
        words: String,
        /// The pinned measures that could be freed.
        pinned: Vec<(MeasureId, String)>,
    },
}

/// The recipe on the desk.
#[derive(Clone, Copy)]
pub(super) struct Desk {
    /// The recipe's name in the store.
    pub(super) id: StoredValue<String>,
    pub(super) recipe: RwSignal<Recipe>,
    pub(super) card: Signal<Card>,
    /// Where each side is first seen. Worked out once somebody asks for it.
    pub(super) sights: Memo<Vec<Seen>>,
    pub(super) history: History,
    pub(super) outcome: RwSignal<Outcome>,
    pub(super) section: RwSignal<Section>,
    /// Whether all that is wrong with the card is shown.
    pub(super) problems: RwSignal<bool>,
    /// The layer whose particulars are shown.
    pub(super) layer: RwSignal<Option<LayerId>>,
    /// The piece glued in whose particulars are shown.
    pub(super) piece: RwSignal<Option<PieceId>>,
    /// What was chosen last, in the figure or beside it; a line's ends can then
    /// be taken hold of.
    pub(super) chosen: RwSignal<Option<Place>>,
    /// What was turned to and is yet to be brought into view.
    pub(super) sought: RwSignal<Option<Place>>,
    /// The window, corners or edge that was worked on last.
    pub(super) cutout: RwSignal<Option<CutoutId>>,
    /// What the card is to be refitted to.
    pub(super) asking: RwSignal<Asking>,
    /// The measure in the number editor.
    pub(super) measure: RwSignal<Option<MeasureId>>,
    pub(super) editor_open: RwSignal<bool>,
}

impl Desk {
    /// The recipe, for what is kept beside its card.
    pub(super) fn edited(self) -> Edited {
        Edited::new(self.recipe, self.history, expect_context(), self.id)
    }

    pub(super) fn new(recipe: RwSignal<Recipe>, id: &str) -> Self {
        let store = use_context::<Store>();
        let tools =
            Memo::new(move |_| store.map_or_else(Tools::default, |store| store.settings().tools()));
        let card = Memo::new(move |_| recipe.with(|recipe| work_out(recipe, &tools.get())));
        Self {
            id: StoredValue::new(id.to_owned()),
            recipe,
            card: card.into(),
            sights: Memo::new(move |_| card.with(sights)),
            history: use_context().unwrap_or_else(|| History::of(recipe)),
            outcome: RwSignal::default(),
            section: RwSignal::new(Section::Panels),
            problems: RwSignal::new(false),
            layer: RwSignal::new(None),
            piece: RwSignal::new(None),
            chosen: RwSignal::new(None),
            sought: RwSignal::new(None),
            cutout: RwSignal::new(None),
            asking: RwSignal::default(),
            measure: RwSignal::new(None),
            editor_open: RwSignal::new(false),
        }
    }

    /// The same desk for what is beside the figure: it shows each change right
    /// after the frame in which the figure does, so that a frame is long
    /// enough for that on a slow phone.
    pub(super) fn behind(self) -> Self {
        let recipe = RwSignal::new(self.recipe.get_untracked());
        let card = RwSignal::new(self.card.get_untracked());
        after_frames(
            move || {
                self.recipe.track();
                self.card.track();
            },
            move || {
                // The page may be gone by now.
                if let (Some(now), Some(worked_out)) = (
                    self.recipe.try_get_untracked(),
                    self.card.try_get_untracked(),
                ) {
                    recipe.try_set(now);
                    card.try_set(worked_out);
                }
            },
        );
        Self {
            recipe,
            card: card.into(),
            sights: Memo::new(move |_| card.with(sights)),
            ..self
        }
    }

    /// The desk of the calculator around a component.
    pub(super) fn here() -> Self {
        expect_context()
    }

    /// Whether the recipe is an envelope itself. Tracks.
    pub(super) fn is_envelope(self) -> bool {
        self.recipe.with(|recipe| recipe.posting.is_envelope)
    }

    /// Whether the recipe has that part of the page: an envelope goes into none.
    /// Tracks.
    pub(super) fn has(self, section: Section) -> bool {
        section != Section::Envelope || !self.is_envelope()
    }

    /// How lengths are written. Tracks.
    pub(super) fn notation(self) -> Notation {
        self.recipe.with(|recipe| recipe.notation)
    }

    /// A length with its unit. Tracks.
    pub(super) fn written(self, length: Length) -> String {
        self.notation().with_unit(length)
    }

    /// A change that cannot fail and moves no length.
    pub(super) fn change(self, change: impl FnOnce(&mut Recipe)) {
        self.history.edit(change);
        self.outcome.set(Outcome::Quiet);
    }

    /// A change that may be refused; `asked` is the measure the maker gave a
    /// value, which is not told to have moved.
    pub(super) fn edit(
        self,
        asked: Option<MeasureId>,
        change: impl FnOnce(&mut Recipe) -> Result<Vec<Change>, EditError>,
    ) -> bool {
        let had: Vec<_> = self
            .recipe
            .with_untracked(|recipe| recipe.measures.iter().map(|measure| measure.id).collect());
        let places = self.recipe.with_untracked(Recipe::placings);
        let done = self.history.edit(change);
        let outcome = self.recipe.with_untracked(|recipe| match &done {
            Ok(changes) => {
                let say = speaker(recipe).with_exact();
                let moved: Vec<_> = changes
                    .iter()
                    .filter(|change| Some(change.measure) != asked)
                    // What has just come has not moved.
                    .filter(|change| had.contains(&change.measure))
                    .map(|change| say.moved(change))
                    .collect();
                let placed = recipe.placed_anew(&places).into_iter();
                let placed: Vec<_> = placed.map(|(of, place)| say.placed(of, place)).collect();
                if moved.is_empty() && placed.is_empty() && asked.is_none() {
                    Outcome::Quiet
                } else {
                    Outcome::Made { placed, moved }
                }
            }
            Err(error) => refusal(recipe, error),
        });
        self.outcome.set(outcome);
        done.is_ok()
    }

    /// Opens the number editor.
    pub(super) fn ask(self, measure: MeasureId) {
        self.outcome.set(Outcome::Quiet);
        self.measure.set(Some(measure));
        self.editor_open.set(true);
    }

    /// Opens a measure in the number editor, where the recipe has it.
    pub(super) fn look_at(self, measure: MeasureId) {
        let recipe = self.recipe.try_get_untracked();
        // The page may be gone by now.
        if recipe.is_some_and(|recipe| recipe.measure(measure).is_some()) {
            self.ask(measure);
        }
    }

    /// Turns to a part of the page.
    pub(super) fn show(self, section: Section) {
        self.outcome.set(Outcome::Quiet);
        // Shown anew, it would lose the row that is turned to.
        if self.section.get_untracked() != section {
            self.section.set(section);
        }
    }

    /// Where the particulars of the base are, or of a piece, which they are then
    /// of.
    fn strip(self, of: StripId) -> Section {
        let StripId::Piece(piece) = of else {
            return Section::Panels;
        };
        self.piece.set(Some(piece));
        Section::Pieces
    }

    fn strip_of(self, panel: PanelId) -> Section {
        let of = |recipe: &Recipe| recipe.strip_with(panel).map(|(of, ..)| of);
        self.strip(self.recipe.with_untracked(of).unwrap_or(StripId::Base))
    }

    /// Goes where a problem, or what was chosen, lies.
    pub(super) fn go(self, place: Place) {
        self.problems.set(false);
        self.chosen.set(Some(place));
        self.sought.set(Some(place));
        self.show(match place {
            Place::Measure(measure) => return self.ask(measure),
            Place::Layer(layer) => {
                self.layer.set(Some(layer));
                Section::Layers
            }
            Place::Line(line) => {
                let of = |recipe: &Recipe| recipe.line_on(line).map(|(of, _)| of);
                self.strip(self.recipe.with_untracked(of).unwrap_or(StripId::Base))
            }
            Place::Piece(piece) => {
                self.piece.set(Some(piece));
                Section::Pieces
            }
            Place::Fallen { of, .. } => self.strip(of),
            Place::Panel(panel) => self.strip_of(panel),
            Place::Recipe => Section::Panels,
            Place::Cutout(cutout) => {
                self.cutout.set(Some(cutout));
                let panel = |recipe: &Recipe| recipe.cutout(cutout).map(|it| it.panel);
                let panel = self.recipe.with_untracked(panel);
                panel.map_or(Section::Panels, |panel| self.strip_of(panel))
            }
            Place::Score(line) => {
                let of = |recipe: &Recipe| recipe.score(line).map(|(of, _)| of);
                self.strip(self.recipe.with_untracked(of).unwrap_or(StripId::Base))
            }
            Place::Face(_) => Section::Print,
            Place::Paper => Section::Paper,
            Place::Envelope => Section::Envelope,
        });
    }
}

/// Does something again whenever what `track` reads changes, each time right
/// after the next frame is painted.
pub(super) fn after_frames(track: impl Fn() + 'static, run: impl Fn() + Copy + 'static) {
    Effect::new(move |before: Option<()>| {
        track();
        if before.is_some() {
            after_frame(run);
        }
    });
}

/// Does something right after the next frame is painted.
pub(super) fn after_frame(run: impl FnOnce() + 'static) {
    request_animation_frame(move || set_timeout(run, Duration::ZERO));
}

fn refusal(recipe: &Recipe, error: &EditError) -> Outcome {
    let pinned = match error {
        EditError::Clash(Clash::Relations { pinned, .. }) => pinned
            .iter()
            .filter_map(|id| Some((*id, recipe.measure(*id)?.name.clone())))
            .collect(),
        _ => Vec::new(),
    };
    Outcome::Refused {
        words: speaker(recipe).with_exact().refused(error),
        pinned,
    }
}
