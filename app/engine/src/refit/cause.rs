//! What a card has to satisfy, by where it comes from.

use crate::length::{Length, Notation, Step, ceil, floor};
use crate::paper::{SHEETS, SheetSize, StockId};
use crate::plane::Size;
use crate::recipe::{CutoutId, LayerId, MeasureId, PieceId, Recipe};

use super::Wish;

/// Where something that holds comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Cause {
    /// The envelope asked for.
    Envelope,
    /// The finished size asked for.
    Finished,
    /// The sheet asked for.
    Sheet,
    /// A measure asked for.
    Asked(MeasureId),
    /// What has been made already, by its place in the wish.
    Made(usize),
    /// How much of the sheet was to be kept.
    Kept,
    /// A measure the maker pinned.
    Pinned(MeasureId),
    /// The least a measure may be.
    Least(MeasureId),
    /// The most a measure may be.
    Most(MeasureId),
    /// A relation of the recipe, by its place among them.
    Relation(usize),
    /// A layer keeps its place.
    Layer(LayerId),
    /// A window keeps its place.
    Window(CutoutId),
    /// The panels make up the base, or the strip of a piece.
    Strip(Option<PieceId>),
    /// What is cut from a paper fits it.
    Paper(StockId),
    /// There is paper at all; a distance stays on its side.
    Something(MeasureId),
}

/// What would undo a cause.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Free {
    /// Take back a part of the wish.
    Wish(Cause),
    /// Let a pinned measure move.
    Unpin(MeasureId),
    /// Let a measure be less than its limit.
    Least(MeasureId),
    /// Let a measure be more than its limit.
    Most(MeasureId),
    /// Let a relation of the recipe only be something that should hold.
    Relation(usize),
    /// Place a layer by its distances.
    Place(LayerId),
    /// Place a window by its distances.
    PlaceWindow(CutoutId),
    /// Take a paper of this size, print upright.
    Stock(StockId, Size),
    /// Ask for this finished size instead.
    Size(Size),
    /// Take other marks.
    Marks(Step),
}

impl Cause {
    /// What would undo it; nothing does where paper would have to be nothing, and
    /// what is too small a paper is not said by itself.
    pub fn free(self) -> Option<Free> {
        Some(match self {
            Self::Envelope
            | Self::Finished
            | Self::Sheet
            | Self::Asked(_)
            | Self::Made(_)
            | Self::Kept => Free::Wish(self),
            Self::Pinned(measure) => Free::Unpin(measure),
            Self::Least(measure) => Free::Least(measure),
            Self::Most(measure) => Free::Most(measure),
            Self::Relation(place) => Free::Relation(place),
            Self::Layer(layer) => Free::Place(layer),
            Self::Window(window) => Free::PlaceWindow(window),
            Self::Paper(_) | Self::Strip(_) | Self::Something(_) => return None,
        })
    }

    /// Whether it is asked for, and not in the recipe.
    pub(super) const fn is_wish(self) -> bool {
        matches!(
            self,
            Self::Envelope
                | Self::Finished
                | Self::Sheet
                | Self::Asked(_)
                | Self::Made(_)
                | Self::Kept
        )
    }

    /// Whether it holds of anything made of paper, so that nobody could do without
    /// it: a clash is one beside it, and does not name it.
    pub(super) const fn is_given(self) -> bool {
        matches!(self, Self::Strip(_) | Self::Something(_))
    }

    /// What holds, as part of a sentence: "the card goes into C6". Limits are
    /// given as the last mark that keeps them.
    pub fn words(self, recipe: &Recipe, wish: &Wish) -> String {
        let notation = wish.notation.unwrap_or(recipe.notation);
        let measure = |id: MeasureId| {
            let measure = recipe.measure(id);
            measure.map_or("a missing measure", |measure| measure.name.as_str())
        };
        let value = |id: MeasureId, value: Option<Length>| {
            notation.with_unit(value.unwrap_or_else(|| recipe.value(id)))
        };
        match self {
            Self::Envelope => match wish.envelope {
                Some((envelope, _)) => format!("the card goes into {}", envelope.name),
                None => "the card goes into its envelope".to_owned(),
            },
            Self::Finished => {
                let size = wish.finished.unwrap_or_default();
                let size = notation.size(size.width, size.height);
                format!("the closed card is {size}")
            }
            Self::Sheet => match &wish.sheet {
                Some(sheet) => format!("the sheet is {}", sheet_name(sheet.size, notation)),
                None => "the pieces fit the sheet".to_owned(),
            },
            Self::Asked(id) => {
                let asked = wish.pinned.iter().find(|(asked, _)| *asked == id);
                let asked = value(id, asked.map(|(_, value)| *value));
                format!("{} is {asked}", measure(id))
            }
            Self::Made(place) => match wish.made.get(place) {
                Some(relation) => relation.words(recipe),
                None => "what is made stays as it is".to_owned(),
            },
            Self::Kept => match wish.sheet.map(|sheet| sheet.keep) {
                Some(super::Keep::Share) => "the card is the same share of the sheet".to_owned(),
                _ => "a sheet makes as many cards as now".to_owned(),
            },
            Self::Pinned(id) => format!("{} is pinned at {}", measure(id), value(id, None)),
            Self::Least(id) => {
                let least = recipe.measure(id).and_then(|measure| measure.least);
                let least = least.map(|least| ceil(least, notation.step).at);
                format!("{} is at least {}", measure(id), value(id, least))
            }
            Self::Most(id) => {
                let most = recipe.measure(id).and_then(|measure| measure.most);
                let most = most.map(|most| floor(most, notation.step).at);
                format!("{} is at most {}", measure(id), value(id, most))
            }
            Self::Relation(place) => match recipe.relations.get(place) {
                Some(relation) => relation.words(recipe),
                None => "a relation holds".to_owned(),
            },
            Self::Layer(id) => {
                let layer = recipe.layer(id);
                let name = layer.map_or("a layer", |layer| layer.name.as_str());
                format!("{name} keeps its place")
            }
            Self::Window(id) => {
                let window = recipe.cutout(id);
                let name = window.map_or("a window", |window| window.name.as_str());
                format!("{name} keeps its place")
            }
            Self::Strip(of) => match recipe.strip(of) {
                Some(strip) => strip.sum().words(recipe),
                None => "the panels make up their strip".to_owned(),
            },
            Self::Paper(id) => {
                let stock = recipe.stock(id);
                let name = stock.map_or("its paper", |stock| stock.name.as_str());
                format!("what is cut from {name} fits it")
            }
            Self::Something(id) => format!("{} can't be less than nothing", measure(id)),
        }
    }
}

impl Free {
    /// What to do, as an order: "unpin back width".
    pub fn words(self, recipe: &Recipe, wish: &Wish) -> String {
        let notation = wish.notation.unwrap_or(recipe.notation);
        let measure = |id: MeasureId| {
            let measure = recipe.measure(id);
            measure.map_or("a missing measure", |measure| measure.name.as_str())
        };
        match self {
            Self::Wish(Cause::Envelope) => "choose another envelope or rule".to_owned(),
            Self::Wish(Cause::Finished) => "choose another finished size".to_owned(),
            Self::Wish(Cause::Sheet) => "choose another sheet".to_owned(),
            Self::Wish(Cause::Asked(id)) => format!("ask for another {}", measure(id)),
            Self::Wish(cause) => format!("do without this: {}", cause.words(recipe, wish)),
            Self::Unpin(id) => format!("unpin {}", measure(id)),
            Self::Least(id) => format!("let {} be less", measure(id)),
            Self::Most(id) => format!("let {} be more", measure(id)),
            Self::Relation(place) => match recipe.relations.get(place) {
                Some(relation) => format!("let go of this: {}", relation.words(recipe)),
                None => "let go of a relation".to_owned(),
            },
            Self::Place(id) => {
                let layer = recipe.layer(id);
                let name = layer.map_or("the layer", |layer| layer.name.as_str());
                format!("place {name} by its distances")
            }
            Self::PlaceWindow(id) => {
                let window = recipe.cutout(id);
                let name = window.map_or("the window", |window| window.name.as_str());
                format!("place {name} by its distances")
            }
            Self::Stock(id, size) => {
                let stock = recipe.stock(id);
                let name = stock.map_or("its paper", |stock| stock.name.as_str());
                let least = notation.size(size.width, size.height);
                match large_enough(size) {
                    Some(sheet) if sheet_name(size, notation) == sheet.name => {
                        format!("take {} for {name}", sheet.name)
                    }
                    Some(sheet) => format!(
                        "take a sheet of at least {least} for {name} ({} is large enough)",
                        sheet.name
                    ),
                    None => format!("take a sheet of at least {least} for {name}"),
                }
            }
            Self::Size(size) => format!(
                "ask for {}, the nearest size that works",
                notation.size(size.width, size.height)
            ),
            Self::Marks(step) => {
                format!("use marks of {}", step.words(notation.decimal))
            }
        }
    }
}

/// The smallest sheet in the table that holds one of that size.
fn large_enough(size: Size) -> Option<&'static SheetSize> {
    let holds = |sheet: &&SheetSize| {
        let within = |size: Size| size.width <= sheet.width && size.height <= sheet.height;
        within(size) || within(size.turned())
    };
    let area =
        |sheet: &&SheetSize| i128::from(sheet.width.units()) * i128::from(sheet.height.units());
    SHEETS.iter().filter(holds).min_by_key(area)
}

/// What people call a sheet of that size, or the size itself.
pub fn sheet_name(size: Size, notation: Notation) -> String {
    let is = |width: Length, height: Length| size == Size { width, height };
    let known = SHEETS
        .iter()
        .find(|sheet| is(sheet.width, sheet.height) || is(sheet.height, sheet.width));
    match known {
        Some(sheet) => sheet.name.to_owned(),
        None => notation.size(size.width, size.height),
    }
}
