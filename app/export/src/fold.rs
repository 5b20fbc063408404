//! The crease patterns of what is folded, in the FOLD format, version 1.2
//! (<https://github.com/edemaine/fold/blob/main/doc/spec.md>).

use foldwright_engine::card::Card;
use foldwright_engine::laid::Piece;
use foldwright_engine::part::Part;
use foldwright_engine::plane::{PieceFrame, Point};
use foldwright_engine::recipe::{Fold, Recipe};
use foldwright_words::{Speaker, Tongue};
use serde_json::{Map, Value, json};

use crate::mesh::{Edge, Is, Mesh};
use crate::svg::name_of;

/// The version of the format.
const SPEC: f64 = 1.2;

/// The crease patterns of a card, seen from side A, in millimetres: the base, and each
/// piece glued in as a further frame, named in a language.
///
/// A cut with paper on both sides is one edge of the kind `C`, with both its faces,
/// which stands for a border of each. A crease that lies flat in the closed card is of
/// the kind `F`. A hole is joined to the border of its face by an edge of the kind `J`,
/// which is no line of the paper.
pub fn fold(recipe: &Recipe, card: &Card, tongue: &'static dyn Tongue) -> String {
    let say = Speaker::of(tongue, recipe);
    let mut frames = card.laid.all_pieces().map(|piece| {
        let mut frame = frame(card, piece);
        let title = name_of(&say, Part::Strip(piece.of));
        frame.insert("frame_title".to_owned(), json!(title));
        frame
    });
    let mut file = Map::new();
    file.insert("file_spec".to_owned(), json!(SPEC));
    file.insert("file_creator".to_owned(), json!("Foldwright"));
    file.insert("file_title".to_owned(), json!(recipe.name));
    file.insert("file_classes".to_owned(), json!(["singleModel"]));
    file.extend(frames.next().unwrap_or_default());
    let others: Vec<_> = frames.map(Value::Object).collect();
    if !others.is_empty() {
        file.insert("file_frames".to_owned(), Value::Array(others));
    }
    Value::Object(file).to_string()
}

fn frame(card: &Card, piece: &Piece) -> Map<String, Value> {
    let mesh = Mesh::of(card, piece);
    let has = |is: Is| mesh.edges.iter().any(|edge| edge.is == is);
    let attributes = [
        "2D",
        "manifold",
        "orientable",
        "nonSelfTouching",
        if has(Is::Cut) { "cuts" } else { "noCuts" },
        if has(Is::Join) { "joins" } else { "noJoins" },
    ];
    let at = |at: &Point<PieceFrame>| [at.x.as_mm_f64(), at.y.as_mm_f64()];
    let faces_of = |edge: &Edge| {
        let faces = edge.sides.iter().flatten();
        let index = faces.filter_map(|facet| mesh.faces.iter().position(|(of, _)| of == facet));
        index.collect::<Vec<_>>()
    };
    let vertices: Vec<_> = mesh.vertices.iter().map(at).collect();
    let edges: Vec<_> = mesh.edges.iter().map(|edge| edge.ends).collect();
    let faces: Vec<_> = mesh.faces.iter().map(|(_, round)| round).collect();
    let of_edges: Vec<_> = mesh.edges.iter().map(faces_of).collect();
    let assignments: Vec<_> = mesh.edges.iter().map(|edge| assignment(edge.is)).collect();
    let angles: Vec<_> = mesh.edges.iter().map(|edge| angle(edge.is)).collect();
    let mut frame = Map::new();
    for (name, value) in [
        ("frame_classes", json!(["creasePattern"])),
        ("frame_attributes", json!(attributes)),
        ("frame_unit", json!("mm")),
        ("vertices_coords", json!(vertices)),
        ("edges_vertices", json!(edges)),
        ("edges_assignment", json!(assignments)),
        ("edges_foldAngle", json!(angles)),
        ("edges_faces", json!(of_edges)),
        ("faces_vertices", json!(faces)),
    ] {
        frame.insert(name.to_owned(), value);
    }
    frame
}

const fn assignment(is: Is) -> &'static str {
    match is {
        Is::Border => "B",
        Is::Crease(Fold::Mountain) => "M",
        Is::Crease(Fold::Valley) => "V",
        Is::Flat => "F",
        Is::Cut => "C",
        Is::Join => "J",
    }
}

/// In degrees; more than nothing for valleys.
const fn angle(is: Is) -> i32 {
    match is {
        Is::Crease(Fold::Mountain) => -180,
        Is::Crease(Fold::Valley) => 180,
        Is::Border | Is::Flat | Is::Cut | Is::Join => 0,
    }
}
