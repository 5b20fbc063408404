//! That the schema of files of recipes says what is written and what is read: by the
//! crate `jsonschema`, which knows nothing of us (JSON Schema 2020-12).

use std::collections::BTreeSet;
use std::sync::LazyLock;

use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::paper::{CLEARANCE_RULES, ENVELOPES, FOLD_IN_RULES, PrintedPaper};
use foldwright_engine::recipe::{
    MOST_BENDS, MOST_COPIES, MOST_TEXT, MOST_TRACED, Parts, VERSION, read,
};
use foldwright_engine::recipe::{Recipe, starters, write};
use foldwright_export::RECIPE_SCHEMA;
use foldwright_words::{Language, starter};
use jsonschema::{Validator, draft202012};
use serde_json::{Value, json};

use crate::samples::SAMPLES;
use crate::spoken::speak;

fn schema() -> Value {
    serde_json::from_str(RECIPE_SCHEMA).expect("the schema is JSON")
}

static TAKES: LazyLock<Validator> =
    LazyLock::new(|| draft202012::new(&schema()).expect("a schema"));

/// Where a file of recipes is not as the schema says.
pub(crate) fn told(file: &str) -> Vec<String> {
    let file = serde_json::from_str(file).expect("JSON");
    let wrong = TAKES.iter_errors(&file);
    let wrong = wrong.map(|wrong| format!("{}: {wrong}", wrong.instance_path()));
    wrong.collect()
}

/// The name of a photograph.
const PHOTO: &str = "00112233445566778899aabbccddeeff";

/// The folds to start from and the finished cards, in each language and unit.
fn known() -> Vec<Recipe> {
    let steps = [Step::Sixteenth, Step::HalfMillimetre];
    let mut all = Vec::new();
    for language in Language::ALL {
        speak(language);
        for step in steps {
            let notation = Notation {
                step,
                decimal: DecimalMark::Point,
            };
            let tongue = language.tongue();
            all.extend(starters().iter().map(|it| starter(tongue, it, notation)));
            let texts = language.samples();
            let samples = SAMPLES.iter().map(|sample| sample.recipe(texts, notation));
            all.extend(samples.map(|sample| sample.expect("a sample")));
        }
    }
    all
}

/// What is not paper, of every kind.
fn supplies() -> Value {
    json!([
        {
            "id": 1, "name": "gem", "takes": { "count": 3 },
            "bought": { "holds": { "count": 100 }, "price": 450, "mass": 12_500_000 },
        },
        {
            "id": 2, "name": "ribbon", "takes": { "ribbon": { "wraps": "across", "knot": "0 in" } },
            "bought": { "holds": { "length": 1_440_000_000 } },
        },
        { "id": 3, "name": "glue", "takes": { "share": 40 } },
    ])
}

/// Where on its sheet something is cut.
fn place() -> Value {
    json!({ "x": "1 in", "y": "25 mm" })
}

/// Everything that can be cut out of a panel.
fn cutouts(panel: &Value, measure: &Value) -> Value {
    let cut = json!([{ "x": 0, "y": 0, "bow": 9 }, { "x": 9, "y": 0 }, { "x": 0, "y": 9 }]);
    let window = |outline: Value, place: Value| {
        json!({ "window": {
            "width": measure, "height": measure, "left": measure, "bottom": measure,
            "place": place, "outline": outline,
        } })
    };
    let edge = |form: Value| json!({ "edge": { "side": "left", "form": form, "depth": measure } });
    let cuts = [
        window(json!({ "rounded": measure }), json!({ "border": measure })),
        window(json!({ "arched": measure }), json!({ "at": "centre" })),
        window(json!({ "cut": cut }), json!("distances")),
        json!({ "corners": { "radius": measure, "which": "upper" } }),
        edge(json!({ "scallops": 3 })),
        edge(json!({ "points": 3 })),
        edge(json!({ "cut": cut })),
        edge(json!("arch")),
    ];
    let cutouts = cuts.into_iter().zip(1..).map(|(cut, id): (Value, u32)| {
        json!({ "id": id, "name": "cut out", "panel": panel, "cut": cut })
    });
    cutouts.collect()
}

/// An outline taken from a drawing.
fn traced() -> Value {
    let ring = json!([[0, 0], [100_000, 0], [50_000, 100_000]]);
    let hole = json!([[40_000, 20_000], [60_000, 20_000], [50_000, 40_000]]);
    json!({ "traced": { "rim": ring, "holes": [hole] } })
}

/// A log of one run.
fn runs() -> Value {
    let spent = [
        json!({ "paper": "card", "count": 3 }),
        json!({ "paper": "card", "size": { "width": "4 in", "height": "5 in" }, "count": 1, "left": true }),
    ];
    json!([{
        "id": 1_767_225_600_000_u64, "cards": 24, "spent": spent, "text": "For the quay.",
        "photo": PHOTO,
    }])
}

/// A file of one recipe that has everything a recipe can have.
fn full() -> Value {
    let gate = starters().iter().find(|starter| starter.id == "gate");
    let file = write(&[gate.expect("there is a gate").recipe.clone()]);
    let mut file: Value = serde_json::from_str(&file).expect("JSON");
    let base = &file["recipes"][0]["base"];
    let (panel, measure) = (base["panels"][0]["id"].clone(), base["length"].clone());
    let stock = base["stock"].clone();
    let corner = json!({ "x": measure, "y": measure });
    let face = json!({ "panel": panel, "side": "a" });
    let mark = json!({ "shows": "b", "from": corner, "to": corner });
    let line = |id: u32, kind: Value| json!({ "id": id, "name": "line", "kind": kind, "from": corner, "to": corner });
    let keep = json!({ "panel": panel, "along": 500, "across": 500 });
    let recipe = &mut file["recipes"][0];
    recipe["base"]["lines"] = json!([
        line(1, json!({ "crease": "valley" })),
        line(2, json!("cut"))
    ]);
    recipe["base"]["cutouts"] = cutouts(&panel, &measure);
    recipe["base"]["keep"] = keep;
    recipe["base"]["cut_at"] = place();
    recipe["stocks"][0]["face"]["printed"] = json!("lighthouses");
    recipe["stocks"][0]["face"]["photo"] = json!(PHOTO);
    recipe["base"]["on_top"] = json!([{ "upper": panel, "lower": { "layer": 1 } }]);
    recipe["pieces"] = json!([{
        "id": 1,
        "name": "step",
        "strip": {
            "stock": stock, "length": measure, "height": measure, "folds": [],
            "panels": [{ "id": 900, "name": "panel", "width": measure }],
        },
        "flat": [7],
        "joins": [{ "panel": 900, "on": face, "at": mark }],
        "lay": { "outside": "back", "turn": "half" },
    }]);
    let layer = |id: u32, on: Value, bond: Value| {
        json!({
            "id": id, "name": "mat", "stock": stock, "shows": "face", "turn": "left", "on": on,
            "width": measure, "height": measure, "left": measure, "bottom": measure,
            "place": "distances", "outline": "round", "bond": bond, "focal": true,
            "cut_at": place(),
        })
    };
    let within = json!({ "left": "0 in", "right": "1 mm", "top": "1/8 in", "bottom": 1 });
    recipe["layers"] = json!([
        layer(1, json!({ "face": face }), json!({ "within": within })),
        layer(2, json!({ "layer": 1 }), json!("loose")),
    ]);
    recipe["layers"][1]["outline"] = traced();
    recipe["upright"] = json!([face]);
    recipe["lay"] = json!({ "outside": "face", "turn": "right" });
    recipe["scoring"] = json!({ "one-pass": "b" });
    let size = json!({ "width": "210 mm", "height": "11 in" });
    recipe["designed_on"] = json!({ "sheet": size, "fitted": size });
    recipe["posting"]["envelope"] = json!("iso-c6");
    recipe["posting"]["is_envelope"] = json!(true);
    recipe["posting"]["made_of"] = stock;
    recipe["supplies"] = supplies();
    recipe["class"] = json!({ "cards": 24, "spare": 10, "rounds": 120 });
    recipe["notes"] = json!({ "gather": "Two sheets." });
    recipe["photos"] = json!({ "gather": PHOTO });
    recipe["runs"] = runs();
    recipe["own_steps"] = json!([{ "id": 1, "text": "Stamp", "each": true }]);
    recipe["order"] = json!(["gather", "own-1"]);
    recipe["stocks"][0]["weight"] = json!({ "basis": { "pounds": 80, "grade": "cover" } });
    recipe["stocks"][1]["weight"] = json!({ "grammage": { "tenths": 2000 } });
    recipe["relations"] = json!([{
        "left": [{ "times": 2, "of": measure }], "is": "at-least", "right": [],
        "plus": "1/2 in", "holds": "should",
    }]);
    for (place, of) in [
        json!({ "part": { "panel": panel }, "is": "width" }),
        json!({ "part": { "layer": 1 }, "is": { "end": ["from", "along"] } }),
        json!({ "part": { "cutout": 1 }, "is": { "mark": ["to", "across"] } }),
        json!({ "part": { "line": 1 }, "is": { "mark-at": [1, "to", "across"] } }),
        json!({ "part": { "piece": 1 }, "is": "length" }),
    ]
    .into_iter()
    .enumerate()
    {
        recipe["measures"][place]["of"] = of;
    }
    for limit in ["least", "most", "designed"] {
        recipe["measures"][0][limit] = recipe["measures"][0]["value"].clone();
    }
    file
}

/// Everything that is written is as the schema says, at every limit too: texts of every
/// letter, lengths of each kind, as many parts as there may be. What is changed at
/// random is looked at beside it (`sync/tests/limits.rs`).
#[test]
fn what_is_written_is_as_the_schema_says() {
    assert!(draft202012::meta::is_valid(&schema()));
    for recipe in known() {
        let told = told(&write(std::slice::from_ref(&recipe)));
        assert_eq!(told, Vec::<String>::new(), "{}", recipe.name);
    }
    let mut recipe = starters()[0].recipe.clone();
    for letter in ["a", "ß", "🂡"] {
        recipe.name = letter.repeat(MOST_TEXT);
        recipe
            .notes
            .insert(letter.repeat(MOST_TEXT), letter.repeat(MOST_TEXT));
        assert_eq!(
            told(&write(std::slice::from_ref(&recipe))),
            Vec::<String>::new()
        );
    }
    for units in [0, 1, -1, 72, -72_000, 28_575, 71_999, Length::LIMIT.units()] {
        recipe.glue_margin = Length::from_units(units);
        let file = write(std::slice::from_ref(&recipe));
        assert_eq!(told(&file), Vec::<String>::new(), "{units}");
    }
}

/// The numbers and names of the tables of the engine are those of the schema.
#[test]
fn the_schema_has_the_limits_and_names_of_the_reader() {
    let schema = schema();
    let defs = &schema["$defs"];
    let of = |name: &str, property: &str| &defs[name]["properties"][property];
    assert_eq!(schema["properties"]["foldwright"]["maximum"], VERSION);
    assert_eq!(defs["text"]["maxLength"], MOST_TEXT);
    assert_eq!(
        defs["outline"]["anyOf"][3]["properties"]["cut"]["maxItems"],
        MOST_BENDS
    );
    assert_eq!(defs["ring"]["maxItems"], MOST_TRACED);
    assert_eq!(of("recipe", "copies")["maximum"], MOST_COPIES);
    for (parts, limit) in [
        (Parts::Measures, &of("recipe", "measures")["maxItems"]),
        (Parts::Relations, &of("recipe", "relations")["maxItems"]),
        (Parts::Terms, &of("relation", "left")["maxItems"]),
        (Parts::Papers, &of("recipe", "stocks")["maxItems"]),
        (Parts::Panels, &of("strip", "panels")["maxItems"]),
        (
            Parts::Answers,
            &defs["base"]["allOf"][1]["properties"]["on_top"]["maxItems"],
        ),
        (Parts::Lines, &of("strip", "lines")["maxItems"]),
        (Parts::Cutouts, &of("strip", "cutouts")["maxItems"]),
        (Parts::Pieces, &of("recipe", "pieces")["maxItems"]),
        (Parts::Joins, &of("piece", "joins")["maxItems"]),
        (Parts::Layers, &of("recipe", "layers")["maxItems"]),
        (Parts::Supplies, &of("recipe", "supplies")["maxItems"]),
        (Parts::Upright, &of("recipe", "upright")["maxItems"]),
        (Parts::Notes, &of("recipe", "notes")["maxProperties"]),
        (Parts::Notes, &of("recipe", "photos")["maxProperties"]),
        (Parts::Notes, &of("recipe", "runs")["maxItems"]),
        (Parts::OwnSteps, &of("recipe", "own_steps")["maxItems"]),
        (Parts::Ordered, &of("recipe", "order")["maxItems"]),
    ] {
        assert_eq!(*limit, parts.most(), "{parts:?}");
    }
    let names = |at: &Value| serde_json::from_value::<Vec<String>>(at.clone()).expect("names");
    let rule = |of: &Value| names(&of["properties"]["rule"]["enum"]);
    let rules: Vec<_> = FOLD_IN_RULES.iter().map(|rule| rule.id).collect();
    assert_eq!(rule(of("recipe", "folding_in")), rules);
    let rules: Vec<_> = CLEARANCE_RULES.iter().map(|rule| rule.id).collect();
    let posting = of("recipe", "posting");
    assert_eq!(rule(posting), rules);
    let envelopes: Vec<_> = ENVELOPES.iter().map(|envelope| envelope.id).collect();
    let named = &posting["properties"]["envelope"]["anyOf"][0]["enum"];
    assert_eq!(names(named), envelopes);
    let papers = serde_json::to_value(PrintedPaper::ALL).expect("names");
    assert_eq!(of("look", "printed")["enum"], papers);
}

/// A place in a file with what makes it wrong; nothing where it is taken away.
type Wrong = (&'static str, Option<Value>);

/// Every way to be wrong that the schema knows, each by itself.
#[expect(clippy::too_many_lines, reason = "it is one list")]
fn wrong() -> Vec<Wrong> {
    let some = |place, value| (place, Some(value));
    let gone = |place| (place, None);
    let long = "x".repeat(MOST_TEXT + 1);
    vec![
        gone("/foldwright"),
        some("/foldwright", json!(0)),
        some("/foldwright", json!(5)),
        some("/foldwright", json!("4")),
        gone("/recipes"),
        some("/recipes", json!({})),
        some("/recipes/0", json!(7)),
        gone("/recipes/0/name"),
        some("/recipes/0/name", json!(7)),
        some("/recipes/0/name", json!(long)),
        some("/recipes/0/about", json!(long)),
        gone("/recipes/0/notation"),
        gone("/recipes/0/notation/decimal"),
        some("/recipes/0/notation/step", json!("fifth")),
        gone("/recipes/0/measures"),
        some("/recipes/0/measures/0/id", json!(-1)),
        some("/recipes/0/measures/0/id", json!("a")),
        some("/recipes/0/measures/0/id", json!(4_294_967_296_u64)),
        gone("/recipes/0/measures/0/name"),
        gone("/recipes/0/measures/0/value"),
        some("/recipes/0/measures/0/value", json!("4 1/4")),
        some("/recipes/0/measures/0/value", json!("wide")),
        some("/recipes/0/measures/0/value", json!(true)),
        some("/recipes/0/measures/0/value", json!(1.5)),
        some("/recipes/0/measures/0/pinned", json!("yes")),
        some("/recipes/0/measures/0/least", json!("none")),
        some(
            "/recipes/0/measures/0/of",
            json!({ "part": { "panel": 1 } }),
        ),
        some(
            "/recipes/0/measures/0/of",
            json!({ "part": { "leaf": 1 }, "is": "width" }),
        ),
        some(
            "/recipes/0/measures/0/of",
            json!({ "part": { "panel": 1 }, "is": "girth" }),
        ),
        some("/recipes/0/measures/0/of/is", json!({ "end": ["from"] })),
        gone("/recipes/0/relations"),
        gone("/recipes/0/relations/0/left"),
        some("/recipes/0/relations/0/is", json!("more")),
        some("/recipes/0/relations/0/holds", json!("may")),
        some("/recipes/0/relations/0/plus", json!("x")),
        gone("/recipes/0/relations/0/left/0/of"),
        some("/recipes/0/relations/0/left/0/times", json!(0)),
        some("/recipes/0/relations/0/left/0/times", json!(1001)),
        some("/recipes/0/relations/0/left/0/times", json!(-1001)),
        gone("/recipes/0/stocks"),
        gone("/recipes/0/stocks/0/face"),
        some("/recipes/0/stocks/0/width", json!("0 mm")),
        some("/recipes/0/stocks/0/height", json!("-11 in")),
        some("/recipes/0/stocks/0/caliper", json!(0)),
        some("/recipes/0/stocks/0/weight", json!({ "heavy": {} })),
        some("/recipes/0/stocks/0/weight", json!({ "grammage": {} })),
        some("/recipes/0/stocks/0/weight/basis/grade", json!("stone")),
        some("/recipes/0/stocks/0/face/colour", json!("#12")),
        some("/recipes/0/stocks/0/face/colour", json!("grey")),
        some("/recipes/0/stocks/0/back/print", json!("spotted")),
        some("/recipes/0/stocks/0/face/printed", json!("spots")),
        some("/recipes/0/stocks/0/heads", json!("to-side")),
        some("/recipes/0/stocks/0/grain", json!("across")),
        some("/recipes/0/designed_on", json!({})),
        gone("/recipes/0/own_steps/0/text"),
        some("/recipes/0/own_steps/0/text", json!(long)),
        some("/recipes/0/own_steps/0/each", json!("card")),
        some("/recipes/0/order", json!({})),
        some("/recipes/0/order/0", json!(7)),
        gone("/recipes/0/supplies/0/takes"),
        some("/recipes/0/supplies/0/takes", json!({})),
        some("/recipes/0/supplies/0/takes", json!({ "count": 0 })),
        some("/recipes/0/supplies/0/takes/count", json!(10_000)),
        some("/recipes/0/supplies/1/takes/ribbon/wraps", json!("twice")),
        some("/recipes/0/supplies/1/takes/ribbon/knot", json!("-1 in")),
        some("/recipes/0/supplies/2/takes/share", json!(0)),
        some("/recipes/0/supplies/0/bought", json!({ "price": 1 })),
        some("/recipes/0/supplies/0/bought/holds", json!({})),
        some("/recipes/0/supplies/0/bought/holds/count", json!(0)),
        some("/recipes/0/supplies/0/bought/holds/count", json!(100_000)),
        some("/recipes/0/supplies/0/bought/price", json!(-1)),
        some("/recipes/0/supplies/0/bought/price", json!(4.5)),
        some("/recipes/0/supplies/0/bought/mass", json!(-1)),
        some(
            "/recipes/0/supplies/0/bought/mass",
            json!(1_000_000_000_001_i64),
        ),
        some("/recipes/0/supplies/1/bought/holds/length", json!("0 mm")),
        some(
            "/recipes/0/supplies/1/bought/holds/length",
            json!(72_000_000_001_i64),
        ),
        gone("/recipes/0/class/cards"),
        some("/recipes/0/class/cards", json!(0)),
        some("/recipes/0/class/cards", json!(10_000)),
        some("/recipes/0/class/spare", json!(-1)),
        some("/recipes/0/class/rounds", json!("all")),
        some("/recipes/0/posting/made_of", json!("cream")),
        gone("/recipes/0/base"),
        gone("/recipes/0/base/rests"),
        gone("/recipes/0/base/stock"),
        some("/recipes/0/base/runs", json!("round")),
        some("/recipes/0/base/panels", json!([])),
        some("/recipes/0/base/panels/0/id", json!(65_536)),
        gone("/recipes/0/base/panels/0/width"),
        some("/recipes/0/base/folds/0", json!("up")),
        some("/recipes/0/base/on_top/0", json!({ "upper": 1 })),
        some("/recipes/0/base/on_top/0/upper", json!({ "leaf": 1 })),
        some(
            "/recipes/0/base/keep",
            json!({ "panel": 1, "along": 65_536, "across": 0 }),
        ),
        some("/recipes/0/base/lines/0/id", json!(65_536)),
        some("/recipes/0/base/lines/0/kind", json!("tear")),
        some("/recipes/0/base/lines/0/kind", json!({ "crease": "flat" })),
        gone("/recipes/0/base/lines/0/from/y"),
        gone("/recipes/0/base/cutouts/0/panel"),
        some("/recipes/0/base/cutouts/0/cut", json!({ "hole": {} })),
        gone("/recipes/0/base/cutouts/0/cut/window/place"),
        some(
            "/recipes/0/base/cutouts/0/cut/window/place",
            json!({ "at": "middle" }),
        ),
        some("/recipes/0/base/cutouts/3/cut/corners/which", json!("left")),
        some(
            "/recipes/0/base/cutouts/4/cut/edge/form",
            json!({ "scallops": 0 }),
        ),
        some(
            "/recipes/0/base/cutouts/5/cut/edge/form",
            json!({ "points": 31 }),
        ),
        some("/recipes/0/base/cutouts/6/cut/edge/side", json!("inside")),
        gone("/recipes/0/pieces/0/joins"),
        gone("/recipes/0/pieces/0/strip"),
        some("/recipes/0/pieces/0/flat", json!(["a"])),
        gone("/recipes/0/pieces/0/joins/0/on"),
        gone("/recipes/0/pieces/0/joins/0/at/shows"),
        gone("/recipes/0/layers/0/on"),
        some("/recipes/0/layers/0/on", json!({})),
        some("/recipes/0/layers/0/on", json!({ "wall": 1 })),
        some("/recipes/0/layers/0/on/face/side", json!("c")),
        some("/recipes/0/layers/0/shows", json!("front")),
        some("/recipes/0/layers/0/turn", json!("around")),
        some("/recipes/0/layers/0/place", json!("anywhere")),
        some(
            "/recipes/0/layers/0/outline",
            json!({ "cut": [{ "x": 1001, "y": 0 }] }),
        ),
        some(
            "/recipes/0/layers/0/outline",
            json!({ "cut": [{ "x": 0, "y": 0, "bow": 501 }] }),
        ),
        gone("/recipes/0/layers/1/outline/traced/rim"),
        some("/recipes/0/layers/1/outline/traced/rim/0/0", json!(100_001)),
        some("/recipes/0/layers/1/outline/traced/rim/0", json!([1, 2, 3])),
        some(
            "/recipes/0/layers/1/outline/traced/rim",
            json!([[0, 0], [9, 9]]),
        ),
        some(
            "/recipes/0/layers/1/outline/traced/rim",
            json!(vec![[0, 0]; MOST_TRACED + 1]),
        ),
        some("/recipes/0/layers/1/outline/traced/holes/0", json!([])),
        some("/recipes/0/layers/0/outline", json!("star")),
        some("/recipes/0/layers/0/bond", json!("sticky")),
        gone("/recipes/0/layers/0/bond/within/top"),
        some("/recipes/0/layers/0/focal", json!(1)),
        gone("/recipes/0/upright/0/side"),
        some("/recipes/0/lay", json!({ "outside": "face" })),
        some("/recipes/0/scoring", json!("best")),
        some("/recipes/0/scoring", json!({ "one-pass": "c" })),
        gone("/recipes/0/glue_margin"),
        gone("/recipes/0/folding_in"),
        some("/recipes/0/folding_in/rule", json!("own")),
        gone("/recipes/0/folding_in/allowance"),
        gone("/recipes/0/posting"),
        some("/recipes/0/posting/rule", json!("none")),
        some("/recipes/0/posting/envelope", json!("none")),
        some("/recipes/0/posting/is_envelope", json!(1)),
        some("/recipes/0/copies", json!(0)),
        some("/recipes/0/copies", json!(10_000)),
        some("/recipes/0/copies", json!(1.5)),
        some("/recipes/0/notes", json!({ "gather": 7 })),
        some("/recipes/0/notes", json!({ long.clone(): "" })),
        some("/recipes/0/notes", json!({ "gather": long })),
        some("/recipes/0/photos", json!({ "gather": 7 })),
        some("/recipes/0/photos", json!({ "gather": "quay.jpg" })),
        some("/recipes/0/photos", json!({ long.clone(): PHOTO })),
        gone("/recipes/0/runs/0/id"),
        gone("/recipes/0/runs/0/cards"),
        some("/recipes/0/runs/0/id", json!(-1)),
        some("/recipes/0/runs/0/cards", json!(1.5)),
        some("/recipes/0/runs/0/text", json!(long)),
        some("/recipes/0/runs/0/photo", json!("quay.jpg")),
        gone("/recipes/0/runs/0/spent/0/count"),
        some("/recipes/0/runs/0/spent/0/paper", json!(long)),
        some("/recipes/0/runs/0/spent/1/size", json!("large")),
        some("/recipes/0/runs/0/spent/1/left", json!("yes")),
    ]
}

/// Makes a file wrong at a place.
fn spoil(file: &mut Value, place: &str, value: Option<Value>) {
    let (outer, name) = place.rsplit_once('/').expect("a place");
    let outer = file.pointer_mut(outer).expect(place);
    match (outer, value) {
        (Value::Object(all), Some(value)) => drop(all.insert(name.to_owned(), value)),
        (Value::Object(all), None) => assert!(all.remove(name).is_some(), "{place}"),
        (Value::Array(all), Some(value)) => {
            let place: usize = name.parse().expect("a number");
            *all.get_mut(place).expect("it is there") = value;
        }
        _ => panic!("{place}"),
    }
}

/// What is wrong is refused by the schema and by the reader.
#[test]
fn what_is_wrong_is_refused_by_both() {
    let sound = full().to_string();
    assert_eq!(told(&sound), Vec::<String>::new());
    assert!(read(&sound).is_ok(), "{:?}", read(&sound).err());
    let wrong = wrong();
    assert!(wrong.len() > 100, "{}", wrong.len());
    for (place, value) in wrong {
        let mut file = full();
        let said = format!("{place} {value:?}");
        spoil(&mut file, place, value);
        let file = file.to_string();
        assert!(!told(&file).is_empty(), "{said}: the schema takes it");
        assert!(read(&file).is_err(), "{said}: the reader takes it");
    }
}

/// So is one part more than there may be.
#[test]
fn what_is_too_much_is_refused_by_both() {
    for (place, parts) in [
        ("measures", Parts::Measures),
        ("relations", Parts::Relations),
        ("relations/0/left", Parts::Terms),
        ("stocks", Parts::Papers),
        ("base/panels", Parts::Panels),
        ("base/on_top", Parts::Answers),
        ("base/lines", Parts::Lines),
        ("base/cutouts", Parts::Cutouts),
        ("pieces", Parts::Pieces),
        ("pieces/0/joins", Parts::Joins),
        ("layers", Parts::Layers),
        ("supplies", Parts::Supplies),
        ("runs", Parts::Notes),
        ("upright", Parts::Upright),
        ("own_steps", Parts::OwnSteps),
        ("order", Parts::Ordered),
    ] {
        let mut file = full();
        let all = file.pointer_mut(&format!("/recipes/0/{place}"));
        let all = all.and_then(Value::as_array_mut).expect(place);
        let more = vec![all[0].clone(); parts.most() + 1 - all.len()];
        all.extend(more);
        let file = file.to_string();
        assert!(!told(&file).is_empty(), "{place}: the schema takes it");
        assert!(read(&file).is_err(), "{place}: the reader takes it");
    }
    for (place, value) in [("notes", ""), ("photos", PHOTO)] {
        let mut file = full();
        let all = (0..=Parts::Notes.most()).map(|step| (step.to_string(), json!(value)));
        file["recipes"][0][place] = Value::Object(all.collect());
        let file = file.to_string();
        assert!(!told(&file).is_empty() && read(&file).is_err(), "{place}");
    }
}

/// Every object of the schema that names properties, by its place.
fn objects(at: &Value, place: &str, found: &mut Vec<String>) {
    match at {
        Value::Object(all) => {
            if all.get("properties").is_some_and(Value::is_object) && all.contains_key("type") {
                found.push(place.to_owned());
            }
            for (name, inside) in all {
                objects(inside, &format!("{place}/{name}"), found);
            }
        }
        Value::Array(all) => {
            for (number, inside) in all.iter().enumerate() {
                objects(inside, &format!("{place}/{number}"), found);
            }
        }
        _ => {}
    }
}

/// The properties of the schema are exactly those that are written: nothing is written
/// that it does not name, and everything it names is written.
#[test]
fn the_properties_are_those_that_are_written() {
    let mut strict = schema();
    let mut places = Vec::new();
    objects(&strict, "", &mut places);
    let mut named = BTreeSet::new();
    for place in &places {
        let object = strict.pointer_mut(place).expect("it is there");
        let properties = object["properties"].as_object().expect("properties");
        named.extend(properties.keys().map(|name| (place.clone(), name.clone())));
        // What is of a strip stands in the object of the base.
        if !["/$defs/strip", "/$defs/base/allOf/1"].contains(&place.as_str()) {
            object["additionalProperties"] = json!(false);
        }
    }
    strict["$defs"]["base"]["unevaluatedProperties"] = json!(false);
    strict["$defs"]["piece"]["properties"]["strip"]["unevaluatedProperties"] = json!(false);
    let written = read(&full().to_string()).expect("a recipe");
    let written = written.into_iter().chain(known());
    let written: Vec<Value> = written
        .map(|recipe| serde_json::from_str(&write(&[recipe])).expect("JSON"))
        .collect();
    let takes = draft202012::new(&strict).expect("a schema");
    for file in &written {
        let wrong = takes.iter_errors(file).map(|wrong| wrong.to_string());
        assert_eq!(wrong.collect::<Vec<_>>(), Vec::<String>::new());
    }
    for (place, name) in named {
        let mut less = strict.clone();
        let object = less.pointer_mut(&place).expect("it is there");
        let properties = object["properties"].as_object_mut().expect("properties");
        properties.remove(&name);
        let takes = draft202012::new(&less).expect("a schema");
        let is_written = written.iter().any(|file| !takes.is_valid(file));
        assert!(is_written, "{place}: nothing writes {name}");
    }
}
