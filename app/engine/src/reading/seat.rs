//! Where the flat pieces of a list lie.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use super::choose::{Choice, Found, Place, Wanted, Why};
use super::outside::Outside;
use super::piece::{Cut, List};
use super::sense::{Form, Kind};
use super::shape::Shape;
use super::told::{Told, Trouble};
use crate::length::{Length, Notation};
use crate::plane::Size;
use crate::recipe::Side;

/// What a layer lies on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum On {
    /// A face of the panel at this place.
    Face(usize, Side),
    /// The layer at this place.
    Layer(usize),
}

/// A layer in its place.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Seated {
    pub(super) name: String,
    pub(super) kind: Option<Kind>,
    pub(super) is_round: bool,
    /// As its reader sees it.
    pub(super) size: Size,
    pub(super) on: On,
    /// How far it lies from the left and the bottom of that.
    pub(super) at: Size,
    /// The even border it leaves.
    pub(super) border: Option<Length>,
    /// Whether another place of another size would leave an even border too.
    pub(super) doubtful: bool,
    pub(super) why: Why,
}

/// A piece in its place, not called anything yet.
struct Laid<'a> {
    /// Its line of the list, by its place among the pieces.
    listed: usize,
    cut: &'a Cut,
    found: Found,
    on: On,
    at: Size,
    /// The panel at the bottom of it all.
    panel: usize,
}

/// Puts every piece but the base on something.
pub(super) struct Seating<'a> {
    pub(super) list: &'a List,
    /// The base, by its place among the pieces.
    pub(super) base: usize,
    pub(super) shape: &'a Shape,
    pub(super) outside: &'a Outside,
    pub(super) notation: Notation,
    pub(super) told: &'a mut Told,
}

/// The layers, and how many pieces could not lie where the list says.
pub(super) struct Seats {
    pub(super) layers: Vec<Seated>,
    pub(super) misplaced: usize,
}

/// The most layers that are put on. Our own bound.
const MOST: usize = 60;

impl<'a> Seating<'a> {
    /// Every piece in its place.
    pub(super) fn seat(mut self) -> Seats {
        let list = self.list;
        let bases = list.cuts.get(self.base).map_or(1, |cut| cut.count.max(1));
        let mut places = self.faces();
        let mut laid = Vec::new();
        let mut misplaced = 0;
        for (listed, cut) in in_order(list, self.base) {
            if cut.is_folded() {
                self.told.trouble(cut.line, Trouble::SecondFolded);
                continue;
            }
            // As many for each card as there are cards in the list.
            let each = if cut.count.is_multiple_of(bases) {
                cut.count / bases
            } else {
                cut.count
            };
            let each = each.max(1);
            for done in 0..each {
                if laid.len() >= MOST {
                    self.told.trouble(cut.line, Trouble::TooMany);
                    break;
                }
                let choice = Choice {
                    places: &places,
                    outside: self.outside,
                    shape: self.shape,
                };
                let wanted = |keeps_spot| Wanted {
                    alike: each - done,
                    is_first: done == 0,
                    keeps_spot,
                };
                let told = choice.choose(cut, wanted(true));
                let found = told.or_else(|| choice.choose(cut, wanted(false)));
                if told.is_none() {
                    misplaced += 1;
                }
                let put =
                    found.and_then(|found| self.put(listed, cut, found, &mut places, laid.len()));
                let Some(put) = put else {
                    self.told.trouble(cut.line, Trouble::TooLarge(cut.size));
                    break;
                };
                if let Some(spot) = cut.spot.filter(|_| told.is_none()) {
                    let trouble = Trouble::NotThere(cut.size, spot);
                    self.told.trouble(cut.line, trouble);
                }
                laid.push(put);
            }
        }
        Seats {
            layers: self.called(&laid),
            misplaced,
        }
    }

    /// The faces of the panels, in the order they are usually covered.
    fn faces(&self) -> Vec<Place> {
        let faces = self.outside.faces().filter_map(|face| {
            let size = self.shape.panel(face.0)?;
            Some(Place {
                on: On::Face(face.0, face.1),
                size,
                taken: false,
                under: None,
                face,
                within: size,
                at: Size::default(),
                is_round: false,
            })
        });
        faces.collect()
    }

    /// Puts one piece where it is to go, as the layer at a place.
    fn put(
        &self,
        listed: usize,
        cut: &'a Cut,
        found: Found,
        places: &mut Vec<Place>,
        layer: usize,
    ) -> Option<Laid<'a>> {
        let place = places.get_mut(found.place)?;
        place.taken = true;
        let place = place.clone();
        let at = self.at(&place, found);
        let laid = Laid {
            listed,
            cut,
            found,
            on: place.on,
            at,
            panel: place.face.0,
        };
        places.push(Place {
            on: On::Layer(layer),
            size: found.size,
            taken: false,
            under: Some(found.place),
            at: Size {
                width: place.at.width + at.width,
                height: place.at.height + at.height,
            },
            is_round: cut.is_round(),
            ..place
        });
        Some(laid)
    }

    /// The layers by their names, each told of beside its line.
    fn called(&mut self, laid: &[Laid]) -> Vec<Seated> {
        let names = names(laid);
        for at in as_listed(laid) {
            if let (Some(it), Some(name)) = (laid.get(at), names.get(&at)) {
                let words = self.remark(it, name, &names);
                self.told.remark(it.cut.line, words);
            }
        }
        laid.iter()
            .zip(names.into_values())
            .map(|(it, name)| Seated {
                name,
                kind: it.cut.kind,
                is_round: it.cut.is_round(),
                size: it.found.size,
                on: it.on,
                at: it.at,
                border: it.found.border,
                doubtful: it.found.doubtful,
                why: it.found.why,
            })
            .collect()
    }

    /// Where a layer lies, and why, in a sentence.
    fn remark(&self, laid: &Laid, name: &str, names: &BTreeMap<usize, String>) -> String {
        let where_to = self.words(laid.on, names);
        let why = self.reason(laid.found, laid.cut, laid.panel);
        let subject = if laid.cut.count > 1 {
            format!("{name} lies on {where_to}")
        } else {
            format!("on {where_to}")
        };
        crate::problem::sentence(format!("{subject}{why}."))
    }

    /// How far a piece lies from the left and the bottom of its place: in the
    /// middle of it, or of the closed card where it lies across.
    fn at(&self, place: &Place, found: Found) -> Size {
        let middle = |whole: Length, part: Length| (whole - part).half_down();
        let Size { width, height } = found.size;
        if found.why != Why::Across {
            return Size {
                width: middle(place.size.width, width),
                height: middle(place.size.height, height),
            };
        }
        let (closed, front) = (self.outside.closed, self.outside.front_at);
        Size {
            width: middle(closed.width, width) - front.width - place.at.width,
            height: middle(closed.height, height) - front.height - place.at.height,
        }
    }

    /// What a layer lies on.
    fn words(&self, on: On, names: &BTreeMap<usize, String>) -> String {
        match on {
            On::Layer(at) => names.get(&at).cloned().unwrap_or_default(),
            On::Face(at, side) => {
                format!("the {} of {}", side.word(), self.panel_name(at))
            }
        }
    }

    fn panel_name(&self, place: usize) -> String {
        let name = self.shape.names().into_iter().nth(place);
        name.unwrap_or_else(|| "a panel".to_owned())
    }

    /// Why it lies there, and which way round.
    fn reason(&self, found: Found, cut: &Cut, panel: usize) -> String {
        let turned = match (found.turned, cut.is_fixed) {
            (true, _) => ", turned a quarter",
            (false, true) => ", as the list says it lies",
            (false, false) => "",
        };
        let why = match (found.why, found.border) {
            (Why::Border | Why::WideBorder, Some(border)) => {
                format!(": an even border of {}", self.notation.with_unit(border))
            }
            (Why::Whole, _) => ": both are equally large".to_owned(),
            (Why::Width, _) => ": as wide as the closed card".to_owned(),
            (Why::Height, _) => ": as high as the closed card".to_owned(),
            (Why::Across, _) => {
                let panel = self.panel_name(panel);
                format!(": in the middle of the closed card, glued to {panel} only")
            }
            _ if found.turned => ": it fits only so".to_owned(),
            _ => String::new(),
        };
        format!("{turned}{why}")
    }
}

/// The pieces in the order they are put on: mats before what is seen first,
/// larger ones first; each with its place in the list.
fn in_order(list: &List, base: usize) -> Vec<(usize, &Cut)> {
    let cuts = list.cuts.iter().enumerate();
    let mut cuts: Vec<(usize, &Cut)> = cuts.filter(|(at, _)| *at != base).collect();
    cuts.sort_by_key(|(_, cut)| match cut.kind {
        Some(Kind::Focal | Kind::Insert) => (1, Reverse(0)),
        _ => (0, Reverse(cut.size.area())),
    });
    cuts
}

/// The places of the layers in the order of the list.
fn as_listed(laid: &[Laid]) -> Vec<usize> {
    let mut all: Vec<(usize, usize)> = laid
        .iter()
        .enumerate()
        .map(|(at, it)| (it.listed, at))
        .collect();
    all.sort_unstable();
    all.into_iter().map(|(_, at)| at).collect()
}

/// What each layer is called, by its place. They are counted as the list goes,
/// but a stack from its bottom up: which piece is larger does not renumber pieces
/// on other panels.
fn names(laid: &[Laid]) -> BTreeMap<usize, String> {
    let below = |at: &usize| match laid.get(*at)?.on {
        On::Layer(at) => Some(at),
        On::Face(..) => None,
    };
    let mut names = BTreeMap::new();
    for at in as_listed(laid) {
        let stack = std::iter::successors(Some(at), below).take(laid.len());
        let stack: Vec<usize> = stack.collect();
        for at in stack.into_iter().rev() {
            if let Some(it) = laid.get(at)
                && !names.contains_key(&at)
            {
                names.insert(at, name(it.cut, &names));
            }
        }
    }
    names
}

/// What a layer is called: as in the list, with a number where another is
/// called so.
fn name(cut: &Cut, names: &BTreeMap<usize, String>) -> String {
    let word = match (&cut.label, cut.form, cut.kind) {
        (Some(label), ..) => label.as_str(),
        (None, Some(Form::Round), _) => "circle",
        (None, Some(Form::Oval), _) => "oval",
        (None, _, Some(Kind::Focal)) => "focal piece",
        (None, _, Some(Kind::Insert)) => "insert",
        (None, ..) => "mat",
    };
    let taken = |name: &str| names.values().any(|it| it == name);
    if !taken(word) {
        return word.to_owned();
    }
    (2..=names.len() + 2)
        .map(|number| format!("{word} {number}"))
        .find(|name| !taken(name))
        .unwrap_or_else(|| word.to_owned())
}
