//! The frame of a file that is read: its vertices and edges as they stand there.

use std::collections::BTreeMap;

use foldwright_engine::recipe::{Fold, shortened};
use serde_json::{Map, Value};

use super::web::{Is, Web};
use super::{Change, Refusal, Sheet};

/// The largest file that is read, in bytes. Our own bound: many times a pattern that a
/// recipe can hold, with its faces.
pub const LARGEST: usize = 4_000_000;

/// The most frames, vertices and edges. Our own bounds: several times what a recipe can
/// hold.
const MOST_FRAMES: usize = 1000;
const MOST_VERTICES: usize = 4000;
const MOST_EDGES: usize = 8000;

/// By what of the sheet's size it may be off a plane, for the rounding of whatever wrote
/// it. Our own bound.
const FLAT_WITHIN: f64 = 1e-6;

/// A fold angle this near to 180° is folded flat, in degrees. Our own bound.
const SHUT_WITHIN: f64 = 0.5;

/// A list of a frame.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Field {
    /// `vertices_coords`
    Vertices,
    /// `edges_vertices`
    Edges,
    /// `edges_assignment`
    Assignment,
}

impl Field {
    /// What it is called in a file.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Vertices => "vertices_coords",
            Self::Edges => "edges_vertices",
            Self::Assignment => "edges_assignment",
        }
    }

    const fn damaged(self, at: usize) -> Refusal {
        Refusal::Damaged {
            field: self,
            at: Some(at),
        }
    }

    const fn no_list(self) -> Refusal {
        Refusal::Damaged {
            field: self,
            at: None,
        }
    }
}

/// Millimetres in the units that the format names; those of no or another name tell no
/// size.
fn millimetres(unit: &str) -> Option<f64> {
    Some(match unit {
        "in" => 25.4,
        "pt" => 25.4 / 72.0,
        "m" => 1000.0,
        "cm" => 10.0,
        "mm" => 1.0,
        "um" => 1e-3,
        "nm" => 1e-6,
        _ => return None,
    })
}

/// The frames of a file, the key frame first.
struct Frames<'a>(Vec<&'a Map<String, Value>>);

impl<'a> Frames<'a> {
    /// What a frame has of a field, or what it inherits.
    fn field(&self, frame: usize, name: &str) -> Option<&'a Value> {
        let mut at = frame;
        // No frame inherits from more than all others.
        for _ in 0..self.0.len() {
            let own = self.0.get(at)?;
            if let Some(value) = own.get(name) {
                return Some(value);
            }
            if at == 0 || own.get("frame_inherit").and_then(Value::as_bool) != Some(true) {
                return None;
            }
            let parent = own.get("frame_parent").and_then(Value::as_u64)?;
            at = usize::try_from(parent).ok()?;
        }
        None
    }

    fn text(&self, frame: usize, name: &str) -> Option<&'a str> {
        self.field(frame, name)?.as_str()
    }

    fn has_edges(&self, frame: usize) -> bool {
        let fields = [Field::Vertices, Field::Edges];
        fields
            .iter()
            .all(|field| self.field(frame, field.name()).is_some())
    }

    fn is_of_class(&self, frame: usize, class: &str) -> bool {
        let classes = self.field(frame, "frame_classes").and_then(Value::as_array);
        classes.is_some_and(|all| all.iter().any(|it| it.as_str() == Some(class)))
    }

    /// The first crease pattern, or else the first that may be one.
    fn pattern(&self) -> Result<usize, Refusal> {
        let with_edges = || (0..self.0.len()).filter(|frame| self.has_edges(*frame));
        let others = ["foldedForm", "linkage"];
        let is_other = |frame: &usize| others.iter().any(|it| self.is_of_class(*frame, it));
        with_edges()
            .find(|frame| self.is_of_class(*frame, "creasePattern"))
            .or_else(|| with_edges().find(|frame| !is_other(frame)))
            .ok_or_else(|| match with_edges().next() {
                Some(_) => Refusal::Folded,
                None => Refusal::NoPattern,
            })
    }
}

pub(super) fn read(text: &str) -> Result<Sheet, Refusal> {
    if text.len() > LARGEST {
        return Err(Refusal::TooLarge);
    }
    let text = text.trim_start_matches('\u{FEFF}');
    let Ok(Value::Object(file)) = serde_json::from_str(text) else {
        return Err(Refusal::NoFold);
    };
    let spec = file.get("file_spec").and_then(Value::as_f64);
    if spec.is_some_and(|spec| spec >= 2.0) {
        return Err(Refusal::Version);
    }
    let more = file.get("file_frames").and_then(Value::as_array);
    let more = more.into_iter().flatten().filter_map(Value::as_object);
    let frames = Frames(std::iter::once(&file).chain(more).collect());
    if frames.0.len() > MOST_FRAMES {
        return Err(Refusal::TooMuch);
    }
    let frame = frames.pattern()?;
    let mut changes = BTreeMap::new();
    let others = (0..frames.0.len()).filter(|it| *it != frame && frames.has_edges(*it));
    count(&mut changes, Change::Frames, others.count());
    let orders = frames.field(frame, "faceOrders").and_then(Value::as_array);
    let has_order = orders.is_some_and(|orders| !orders.is_empty());
    count(&mut changes, Change::Order, usize::from(has_order));
    let vertices = vertices(&frames, frame)?;
    let edges = edges(&frames, frame, vertices.len(), &mut changes)?;
    let words = |names: [&str; 2]| {
        let [of_file, of_frame] = names.map(|name| frames.text(frame, name).map(str::trim));
        let of_key = file.get(names[0]).and_then(Value::as_str).map(str::trim);
        let all = [of_file.or(of_key), of_frame];
        let told = all.into_iter().flatten().find(|words| !words.is_empty());
        shortened(told.unwrap_or_default()).to_owned()
    };
    Ok(Sheet {
        title: words(["file_title", "frame_title"]),
        about: words(["file_description", "frame_description"]),
        millimetres: frames.text(frame, "frame_unit").and_then(millimetres),
        web: Web { vertices, edges },
        changes,
    })
}

pub(super) fn count(changes: &mut BTreeMap<Change, usize>, what: Change, number: usize) {
    if number > 0 {
        *changes.entry(what).or_default() += number;
    }
}

fn list<'a>(frames: &Frames<'a>, frame: usize, field: Field) -> Result<&'a [Value], Refusal> {
    let list = frames.field(frame, field.name()).and_then(Value::as_array);
    list.map(Vec::as_slice).ok_or_else(|| field.no_list())
}

/// The places of vertices; those that are not told are 0.
fn vertices(frames: &Frames<'_>, frame: usize) -> Result<Vec<[f64; 2]>, Refusal> {
    let list = list(frames, frame, Field::Vertices)?;
    if list.len() > MOST_VERTICES {
        return Err(Refusal::TooMuch);
    }
    let mut vertices = Vec::with_capacity(list.len());
    let (mut off, mut size) = (0.0_f64, 0.0_f64);
    for (number, vertex) in list.iter().enumerate() {
        let damaged = || Field::Vertices.damaged(number);
        let told = vertex.as_array().ok_or_else(damaged)?;
        let mut place = [0.0; 2];
        for (axis, value) in told.iter().enumerate() {
            let value = value.as_f64().filter(|it| it.is_finite());
            let value = value.ok_or_else(damaged)?;
            match place.get_mut(axis) {
                Some(at) => {
                    *at = value;
                    size = size.max(value.abs());
                }
                None => off = off.max(value.abs()),
            }
        }
        vertices.push(place);
    }
    if off > size * FLAT_WITHIN {
        return Err(Refusal::InSpace);
    }
    Ok(vertices)
}

/// The edges, by the indices of their ends, and what they are; without joins, which are no
/// lines of the paper.
fn edges(
    frames: &Frames<'_>,
    frame: usize,
    vertices: usize,
    changes: &mut BTreeMap<Change, usize>,
) -> Result<Vec<([usize; 2], Is)>, Refusal> {
    let list = list(frames, frame, Field::Edges)?;
    if list.len() > MOST_EDGES {
        return Err(Refusal::TooMuch);
    }
    let told = match frames.field(frame, Field::Assignment.name()) {
        Some(told) => {
            let told = told.as_array().filter(|told| told.len() == list.len());
            Some(told.ok_or_else(|| Field::Assignment.no_list())?)
        }
        None => None,
    };
    let angles = frames.field(frame, "edges_foldAngle");
    let angles = angles.and_then(Value::as_array);
    let mut edges = Vec::with_capacity(list.len());
    for (number, edge) in list.iter().enumerate() {
        let damaged = || Field::Edges.damaged(number);
        let [from, to] = edge.as_array().map_or(&[][..], Vec::as_slice) else {
            return Err(damaged());
        };
        let end = |it: &Value| {
            let end = it.as_u64().and_then(|it| usize::try_from(it).ok());
            end.filter(|end| *end < vertices).ok_or_else(damaged)
        };
        let ends = [end(from)?, end(to)?];
        let letter = told.and_then(|told| told.get(number));
        let letter = match letter {
            Some(letter) => {
                let letter = letter.as_str();
                letter.ok_or_else(|| Field::Assignment.damaged(number))?
            }
            None => "U",
        };
        let Some(is) = is(letter, changes) else {
            continue;
        };
        let angle = angles.and_then(|angles| angles.get(number)?.as_f64());
        let is_partly = angle.is_some_and(|angle| (angle.abs() - 180.0).abs() > SHUT_WITHIN);
        let is_assigned = matches!(letter, "M" | "V");
        count(
            changes,
            Change::Partly,
            usize::from(is_partly && is_assigned),
        );
        edges.push((ends, is));
    }
    Ok(edges)
}

/// What a letter says; `None` for what is no line of the recipe.
fn is(letter: &str, changes: &mut BTreeMap<Change, usize>) -> Option<Is> {
    Some(match letter {
        "B" => Is::Border,
        "M" => Is::Crease(Fold::Mountain),
        "V" => Is::Crease(Fold::Valley),
        "U" => Is::Unassigned,
        "F" => Is::Flat,
        "C" => Is::Cut,
        "J" => return None,
        _ => {
            count(changes, Change::Unknown, 1);
            return None;
        }
    })
}
