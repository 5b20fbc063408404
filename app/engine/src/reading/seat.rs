//! Where the flat pieces of a list lie.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use super::build::{layer_at, panel_at};
use super::choose::{Carrier, Choice, Found, Wanted, Why};
use super::outside::Outside;
use super::piece::{Cut, List};
use super::sense::{Form, Kind};
use super::shape::Shape;
use super::told::Told;
use super::told::{Remark, SeatedFor, WayRound};
use crate::length::Length;
use crate::plane::Size;
use crate::problem::Trouble;
use crate::recipe::{LayerKind, Listed, Naming, New, Side};
use crate::sorted::InOrder as _;

/// What a layer lies on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum On {
    /// A face of the panel at this index.
    Face(usize, Side),
    /// The layer at this index.
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
    /// Its line of the list, by its index among the pieces.
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
    /// The base, by its index among the pieces.
    pub(super) base: usize,
    pub(super) shape: &'a Shape,
    pub(super) outside: &'a Outside,
    pub(super) told: &'a mut Told,
    pub(super) naming: &'a dyn Naming,
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
        let mut carriers = self.faces();
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
                    carriers: &carriers,
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
                    found.and_then(|found| self.put(listed, cut, found, &mut carriers, laid.len()));
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
    fn faces(&self) -> Vec<Carrier> {
        let faces = self.outside.faces().filter_map(|face| {
            let size = self.shape.panel(face.0)?;
            Some(Carrier {
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

    /// Puts one piece where it is to go, as the layer at an index.
    fn put(
        &self,
        listed: usize,
        cut: &'a Cut,
        found: Found,
        carriers: &mut Vec<Carrier>,
        layer: usize,
    ) -> Option<Laid<'a>> {
        let carrier = carriers.get_mut(found.carrier)?;
        carrier.taken = true;
        let carrier = carrier.clone();
        let at = self.at(&carrier, found);
        let laid = Laid {
            listed,
            cut,
            found,
            on: carrier.on,
            at,
            panel: carrier.face.0,
        };
        carriers.push(Carrier {
            on: On::Layer(layer),
            size: found.size,
            taken: false,
            under: Some(found.carrier),
            at: Size {
                width: carrier.at.width + at.width,
                height: carrier.at.height + at.height,
            },
            is_round: cut.is_round(),
            ..carrier
        });
        Some(laid)
    }

    /// The layers by their names, each told of beside its line.
    fn called(&mut self, laid: &[Laid]) -> Vec<Seated> {
        let names = names(laid, self.naming);
        for at in as_listed(laid) {
            if let Some(it) = laid.get(at) {
                self.told.remark(it.cut.line, Self::remark(it, at));
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

    /// Where the layer at an index lies, and why.
    fn remark(laid: &Laid, layer: usize) -> Remark {
        let Found {
            why,
            border,
            turned,
            ..
        } = laid.found;
        Remark::Seated {
            layer: layer_at(layer),
            on: laid.on.seat(),
            lies: match (turned, laid.cut.is_fixed) {
                (true, _) => WayRound::Turned,
                (false, true) => WayRound::AsSaid,
                (false, false) => WayRound::AsWritten,
            },
            why: match (why, border) {
                (Why::Border | Why::WideBorder, Some(border)) => SeatedFor::Border(border),
                (Why::Whole, _) => SeatedFor::Whole,
                (Why::Width, _) => SeatedFor::Width,
                (Why::Height, _) => SeatedFor::Height,
                (Why::Across, _) => SeatedFor::Across(panel_at(laid.panel)),
                _ if turned => SeatedFor::OnlySo,
                _ => SeatedFor::Fits,
            },
        }
    }

    /// How far a piece lies from the left and the bottom of its place: in the
    /// middle of it, or of the closed card where it lies across.
    fn at(&self, carrier: &Carrier, found: Found) -> Size {
        let middle = |whole: Length, part: Length| (whole - part).half_down();
        let Size { width, height } = found.size;
        if found.why != Why::Across {
            return Size {
                width: middle(carrier.size.width, width),
                height: middle(carrier.size.height, height),
            };
        }
        let (closed, front) = (self.outside.closed, self.outside.front_at);
        Size {
            width: middle(closed.width, width) - front.width - carrier.at.width,
            height: middle(closed.height, height) - front.height - carrier.at.height,
        }
    }
}

/// The pieces in the order they are put on: mats before what is seen first,
/// larger ones first; each with its index in the list.
fn in_order(list: &List, base: usize) -> Vec<(usize, &Cut)> {
    let cuts = list.cuts.iter().enumerate();
    let mut cuts: Vec<(usize, &Cut)> = cuts.filter(|(at, _)| *at != base).collect();
    cuts.put_in_order_by_key(|(_, cut)| match cut.kind {
        Some(Kind::Focal | Kind::Insert) => (1, Reverse(0)),
        _ => (0, Reverse(cut.size.area())),
    });
    cuts
}

/// The indices of the layers in the order of the list.
fn as_listed(laid: &[Laid]) -> Vec<usize> {
    let mut all: Vec<(usize, usize)> = laid
        .iter()
        .enumerate()
        .map(|(at, it)| (it.listed, at))
        .collect();
    all.put_in_order();
    all.into_iter().map(|(_, at)| at).collect()
}

/// What each layer is called, by its index. They are counted as the list goes,
/// but a stack from its bottom up: which piece is larger does not renumber pieces
/// on other panels.
fn names(laid: &[Laid], naming: &dyn Naming) -> BTreeMap<usize, String> {
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
                names.insert(at, name(it.cut, &names, naming));
            }
        }
    }
    names
}

/// What a layer is called: as in the list, with a number where another is
/// called so.
fn name(cut: &Cut, names: &BTreeMap<usize, String>, naming: &dyn Naming) -> String {
    let word = match (&cut.label, cut.form, cut.kind) {
        (Some(label), ..) => label.clone(),
        (None, Some(Form::Round), _) => naming.name(New::Listed(Listed::Circle)),
        (None, Some(Form::Oval), _) => naming.name(New::Listed(Listed::Oval)),
        (None, _, Some(Kind::Focal)) => naming.name(New::Layer(LayerKind::Focal)),
        (None, _, Some(Kind::Insert)) => naming.name(New::Layer(LayerKind::Insert)),
        (None, ..) => naming.name(New::Layer(LayerKind::Mat)),
    };
    let taken = |name: &str| names.values().any(|it| it == name);
    if !taken(&word) {
        return word;
    }
    (2..=names.len() + 2)
        .map(|number| naming.name(New::Again(&word, number)))
        .find(|name| !taken(name))
        .unwrap_or(word)
}
