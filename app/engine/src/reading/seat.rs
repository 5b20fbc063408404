//! Where the flat pieces of a list lie.

use std::cmp::Reverse;

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

impl Seating<'_> {
    /// Every piece in its place.
    pub(super) fn seat(mut self) -> Seats {
        let list = self.list;
        let bases = list.cuts.get(self.base).map_or(1, |cut| cut.count.max(1));
        let mut places = self.faces();
        let mut seats = Seats {
            layers: Vec::new(),
            misplaced: 0,
        };
        for cut in in_order(list, self.base) {
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
                if seats.layers.len() >= MOST {
                    self.told.trouble(cut.line, Trouble::TooMany);
                    break;
                }
                if !self.put(cut, each - done, done == 0, &mut places, &mut seats) {
                    self.told.trouble(cut.line, Trouble::TooLarge(cut.size));
                    break;
                }
            }
        }
        seats
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

    /// Puts one piece somewhere; whether there is such a place.
    fn put(
        &mut self,
        cut: &Cut,
        alike: u32,
        is_first: bool,
        places: &mut Vec<Place>,
        seats: &mut Seats,
    ) -> bool {
        let choice = Choice {
            places,
            outside: self.outside,
            shape: self.shape,
        };
        let wanted = |keeps_spot| Wanted {
            alike,
            is_first,
            keeps_spot,
        };
        let told = choice.choose(cut, wanted(true));
        let found = told.or_else(|| choice.choose(cut, wanted(false)));
        if told.is_none() {
            seats.misplaced += 1;
        }
        let Some(found) = found else { return false };
        let name = name(cut, &seats.layers);
        let Some(place) = places.get_mut(found.place) else {
            return false;
        };
        place.taken = true;
        let place = place.clone();
        let on = place.on;
        let at = self.at(&place, found);
        let where_to = self.words(on, &seats.layers);
        if let Some(spot) = cut.spot.filter(|_| told.is_none()) {
            let trouble = Trouble::NotThere(cut.size, spot);
            self.told.trouble(cut.line, trouble);
        }
        let why = self.reason(found, cut, place.face.0);
        let subject = if cut.count > 1 {
            format!("{name} lies on {where_to}")
        } else {
            format!("on {where_to}")
        };
        let words = crate::problem::sentence(format!("{subject}{why}."));
        self.told.remark(cut.line, words);
        places.push(Place {
            on: On::Layer(seats.layers.len()),
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
        seats.layers.push(Seated {
            name,
            kind: cut.kind,
            is_round: cut.is_round(),
            size: found.size,
            on,
            at,
            border: found.border,
            doubtful: found.doubtful,
            why: found.why,
        });
        true
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
    fn words(&self, on: On, layers: &[Seated]) -> String {
        match on {
            On::Layer(at) => layers.get(at).map(|it| it.name.clone()).unwrap_or_default(),
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
/// larger ones first.
fn in_order(list: &List, base: usize) -> Vec<&Cut> {
    let cuts = list.cuts.iter().enumerate();
    let mut cuts: Vec<&Cut> = cuts
        .filter(|(at, _)| *at != base)
        .map(|(_, cut)| cut)
        .collect();
    cuts.sort_by_key(|cut| match cut.kind {
        Some(Kind::Focal | Kind::Insert) => (1, Reverse(0)),
        _ => (0, Reverse(cut.size.area())),
    });
    cuts
}

/// What a layer is called: as in the list, with a number where another is
/// called so.
fn name(cut: &Cut, layers: &[Seated]) -> String {
    let word = match (&cut.label, cut.form, cut.kind) {
        (Some(label), ..) => label.as_str(),
        (None, Some(Form::Round), _) => "circle",
        (None, Some(Form::Oval), _) => "oval",
        (None, _, Some(Kind::Focal)) => "focal piece",
        (None, _, Some(Kind::Insert)) => "insert",
        (None, ..) => "mat",
    };
    let taken = |name: &str| layers.iter().any(|layer| layer.name == name);
    if !taken(word) {
        return word.to_owned();
    }
    (2..=layers.len() + 2)
        .map(|number| format!("{word} {number}"))
        .find(|name| !taken(name))
        .unwrap_or_else(|| word.to_owned())
}
