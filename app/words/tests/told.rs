//! Every finding said in every language: whole sentences with no hole left empty,
//! none longer than a phone shows in three lines, and as in the files beside
//! this one. `WORDING=write` writes these anew.

#![expect(
    clippy::expect_used,
    reason = "a test stops where what it needs is not there"
)]

mod findings;

use std::num::NonZeroU32;
use std::path::Path;

use findings::{
    assumed, card, class, faults, file_errors, findings, forms, look, meanings, misread, missed,
    paper, part, refusals, remarks, steps, suggested, suggests, table, with_long_names,
};
use foldwright_cutting::class::{Class, Sheets};
use foldwright_cutting::{Planner, Trimmer};
use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::care::Hazard;
use foldwright_engine::cut_plan::CutPlan;
use foldwright_engine::length::{DecimalMark, Notation, Step as Ruler};
use foldwright_engine::problem::{Place, Problem, Weight};
use foldwright_engine::recipe::{Recipe, starters};
use foldwright_engine::steps::{planned_steps, steps as work_steps};
use foldwright_words::{
    Language, OfCard, OfClass, OfStep, Speaker, Told, fault, file_error, runs, starter,
};

/// About what a phone of 360 CSS px shows in three lines of 16 px: 37 characters
/// of half an em, as wide as letters are on average, in 300 px. An estimate.
const MOST_CHARACTERS: usize = 112;

/// What stands in a sentence, with its full stop.
fn sentences(text: &str) -> impl Iterator<Item = &str> {
    text.split_inclusive(". ").map(str::trim_end)
}

fn all(language: Language) -> Vec<Told> {
    let recipe = with_long_names();
    let say = Speaker::of(language.tongue(), &recipe);
    let told = findings(&recipe).into_iter().map(|finding| {
        say.problem(&Problem {
            place: Place::Recipe,
            weight: Weight::Note,
            finding,
        })
    });
    told.collect()
}

/// What is said of refits, and of recipes and files that can't be taken over.
fn others(language: Language) -> Vec<String> {
    let recipe = with_long_names();
    let say = Speaker::of(language.tongue(), &recipe);
    let outcomes = table::outcomes(&recipe).into_iter();
    let outcomes = outcomes.map(|it| say.outcome(&it));
    let refusals = refusals(&recipe).into_iter();
    let refusals = refusals.map(|it| say.refused(&it));
    let faults = faults(&recipe).into_iter();
    let faults = faults.map(|it| fault(language, &recipe, &it));
    let errors = file_errors(&recipe).into_iter();
    let errors = errors.map(|it| file_error(language, &it));
    let misread = misread().into_iter();
    let misread = misread.map(|problem| language.tongue().misread(&problem));
    let missed = missed().into_iter();
    let missed = missed.map(|why| say.missed(&why));
    let forms = forms().into_iter().map(|it| say.form(it).to_owned());
    let suggests = suggests().into_iter().map(|it| say.suggests(it).to_owned());
    let typed = refusals.chain(misread).chain(missed);
    let remarks = remarks(&recipe).into_iter();
    let remarks = remarks.map(|it| say.remark(it));
    let assumed = assumed().into_iter().map(|it| say.assumed(it));
    let typed = typed.chain(forms).chain(suggests);
    let typed = typed.chain(remarks).chain(assumed);
    outcomes
        .chain(typed)
        .chain(faults)
        .chain(errors)
        .chain(at_the_table(&say, &recipe))
        .chain(at_each_step(&say, &recipe))
        .chain(of_the_card(language, &say, &recipe))
        .chain(of_classes(language, &recipe, class::sentences()))
        .collect()
}

/// What is said of why there is no card, and of what can be saved.
fn at_the_table(say: &Speaker<'_>, recipe: &Recipe) -> Vec<String> {
    let conditions = table::conditions(recipe);
    let releases = table::releases(recipe);
    let mut all = Vec::new();
    all.extend(table::clashes().iter().map(|it| say.clash(it)));
    all.extend(conditions.iter().map(|it| say.condition(it)));
    all.extend(conditions.iter().map(|it| say.no_longer(it)));
    all.extend(table::reasons().iter().map(|it| say.reason(it)));
    all.extend(releases.iter().map(|it| say.released(it)));
    all.extend(table::notes(recipe).iter().map(|it| say.note(it)));
    all.extend(table::againsts(recipe).iter().map(|it| say.against(it)));
    all.extend(table::because(recipe).iter().map(|it| say.because(it)));
    all.extend(say.papers(&[]));
    all.extend(say.papers(&table::papers(recipe)));
    let cannots = table::cannots().into_iter();
    all.extend(cannots.map(|it| say.cannot_be(it).to_owned()));
    all
}

/// What is said of how to do a step, and of what to be careful with.
fn at_each_step(say: &Speaker<'_>, recipe: &Recipe) -> Vec<String> {
    let does = steps::instructions(recipe).into_iter();
    let does = does.map(|it| say.instruction(&it));
    let cautions = Hazard::ALL.into_iter().flat_map(|hazard| {
        let caution = say.caution(hazard);
        [caution.words, caution.defers].map(str::to_owned)
    });
    does.chain(cautions).collect()
}

/// What is said of a card besides.
fn of_the_card(language: Language, say: &Speaker<'_>, recipe: &Recipe) -> Vec<String> {
    let mut all = Vec::new();
    all.extend(card::facts(recipe).iter().map(|it| say.whole(it)));
    all.extend(card::wraps(recipe).iter().map(|it| say.wraps(it)));
    all.extend(card::insides(recipe).iter().map(|it| say.stays(*it)));
    let sights = card::sights(recipe).into_iter();
    all.extend(sights.map(|it| language.sights().seen(say, &it)));
    all.extend(look::stands().into_iter().map(|it| say.stands(it)));
    let places = card::places(recipe).into_iter();
    all.extend(places.map(|(of, place)| say.placed(of, place)));
    all.extend(paper::sentences().into_iter().map(|it| say.of_paper(it)));
    all
}

/// What is said of classes and of post.
fn of_classes(language: Language, recipe: &Recipe, all: Vec<OfClass<'_>>) -> Vec<String> {
    let tongue = language.class_tongue();
    let told = all.into_iter().map(|it| tongue.told(recipe, it));
    told.collect()
}

/// Drawings in words: sentences that list what there is to see.
fn drawings(language: Language) -> Vec<String> {
    let recipe = with_long_names();
    let say = Speaker::of(language.tongue(), &recipe);
    let flats = look::flats(&recipe).into_iter();
    let flats = flats.map(|it| say.flat(&it));
    let states = look::states(&recipe).into_iter();
    flats.chain(states.map(|it| say.state(&it))).collect()
}

/// Headings, the words of buttons, what a line of a list was read as, how a print
/// runs, and the room in an envelope: no sentences.
fn labels(language: Language) -> Vec<String> {
    let recipe = with_long_names();
    let say = Speaker::of(language.tongue(), &recipe);
    let headings = table::headings(&recipe).into_iter();
    let headings = headings.map(|it| say.heading(&it));
    let releases = table::releases(&recipe).into_iter();
    let releases = releases.map(|it| say.release(&it));
    let meanings = meanings().into_iter().map(|it| say.meaning(it));
    let prints = card::prints().into_iter().map(|it| say.print(it));
    let spares = card::spares().into_iter().map(|it| say.spare(&it));
    let meant = headings.chain(releases).chain(meanings);
    let facts = card::facts(&recipe).into_iter();
    let figures = facts.map(|it| say.figures(&it));
    let stages = look::stages(&recipe).into_iter();
    let stages = stages.map(|it| say.stage(&it));
    let fallen = look::fallen().into_iter();
    let fallen = fallen.flat_map(|it| [say.fallen(&it), say.falls_off(&it)]);
    let suggestions = suggested::suggestions(&recipe).into_iter();
    let suggestions = suggestions.map(|it| say.suggestion(&it));
    let papers = paper::labels().into_iter().map(|it| say.of_paper(it));
    let called = stages.chain(fallen).chain(suggestions).chain(papers);
    let values = part::Values::of(&recipe);
    let parts = values.all(&recipe).into_iter();
    let parts = parts.map(|it| say.of_part(it));
    let lies = card::layer_lies().into_iter();
    let lies = lies.map(|it| say.of_card(OfCard::LayerLies(it)));
    let counts = [0, 1, 12].map(|it| say.of_card(OfCard::PerSheet(it)));
    let seen = prints.chain(spares).chain(lies).chain(counts);
    let classes = of_classes(language, &recipe, class::labels());
    let meant = meant.chain(seen).chain(figures).chain(classes);
    meant.chain(called).chain(parts).collect()
}

/// What is said of steps in a few words: what is no sentence.
fn short(language: Language) -> Vec<String> {
    let recipe = with_long_names();
    let say = Speaker::of(language.tongue(), &recipe);
    let kinds = steps::kinds().into_iter().map(|it| say.kind(it));
    let titles = steps::titles(&recipe).into_iter();
    let titles = titles.map(|it| say.title(&it));
    let labels = steps::labels(&recipe).into_iter();
    let labels = labels.map(|it| say.label(&it));
    let values = steps::values().into_iter().map(|it| say.value(&it));
    let captions = steps::captions(&recipe).into_iter();
    let captions = captions.map(|it| say.of_step(OfStep::Caption(&it)));
    let tools = steps::tools().into_iter();
    let tools = tools.map(|it| say.of_step(OfStep::Tool(it)));
    let cautions = Hazard::ALL.into_iter();
    let cautions = cautions.map(|it| say.caution(it).title.to_owned());
    let named = kinds.chain(titles).chain(labels).chain(values);
    let evidence = suggested::evidence().into_iter();
    let evidence = evidence.map(|it| say.evidence(&it));
    let sold = paper::sold().into_iter().map(|it| say.of_paper(it));
    let others = captions.chain(tools).chain(cautions);
    let posts = of_classes(language, &recipe, class::called());
    let named = named.chain(others).chain(evidence);
    named.chain(sold).chain(posts).collect()
}

#[test]
fn what_is_no_sentence_is_short_and_whole() {
    for language in Language::ALL {
        for text in short(language).into_iter().chain(labels(language)) {
            let length = text.chars().count();
            let tag = language.tag();
            assert!(
                length > 0 && length <= MOST_CHARACTERS,
                "{tag} {length}: {text}"
            );
            let holes = ["  ", " ,", "“”", "„“", "{", "}", "\n", "missing", "fehl"];
            assert!(
                holes.iter().all(|hole| !text.contains(hole)),
                "{tag}: {text}"
            );
            assert!(!text.ends_with('.') && text.trim() == text, "{tag}: {text}");
        }
    }
}

/// As the sheets for these cards are cut, by the first plan there is.
fn planned(recipe: &Recipe, card: &Card) -> CutPlan {
    let sheets: Vec<Sheets> = recipe.stocks.iter().map(Sheets::new).collect();
    let cards = NonZeroU32::new(24).expect("some");
    let trimmer = Trimmer {
        stack: NonZeroU32::new(3).expect("some"),
        ..Trimmer::PLAIN
    };
    let class = Class::new(&card.cut_list, cards, &sheets, trimmer).expect("a job");
    let plan = class.told(Planner::new(&class.job).plan());
    plan.expect("each piece fits its sheet")
}

/// Every step of every starting fold, from sheets of its own or shared, in both
/// notations: what it names is there, and each sentence is short.
#[test]
fn every_step_of_the_starting_folds_is_said() {
    let millimetres = Notation {
        step: Ruler::Millimetre,
        decimal: DecimalMark::Comma,
    };
    for starting in starters() {
        for notation in [starting.recipe.notation, millimetres] {
            for language in Language::ALL {
                let recipe = starter(language.tongue(), starting, notation);
                let card = work_out(&recipe, &Tools::default());
                let shared = planned_steps(&recipe, &card, &planned(&recipe, &card));
                for step in work_steps(&recipe, &card).into_iter().chain(shared) {
                    let told = Speaker::of(language.tongue(), &recipe).step(&step);
                    let what = format!("{} {} {told:?}", language.tag(), starting.id);
                    assert_eq!(told.captions.len(), step.pictures.len(), "{what}");
                    assert_eq!(told.figures.len(), step.figures.len(), "{what}");
                    let sentences = told.does.iter().flat_map(|text| sentences(text));
                    for text in sentences.chain([told.title.as_str()]) {
                        assert!(text.chars().count() <= MOST_CHARACTERS, "{text} in {what}");
                        let missing = ["a crease", "a panel", "a layer", "a piece", "a window"];
                        assert!(missing.iter().all(|it| !text.contains(it)), "{what}");
                    }
                }
            }
        }
    }
}

/// The small parts rule is for children under three (16 CFR 1501), and every
/// caution leaves the last word to makers and local rules.
#[test]
fn every_caution_defers() {
    let recipe = with_long_names();
    for (language, defers, three) in [
        (
            Language::English,
            "instructions and your local rules come first",
            "under three",
        ),
        (
            Language::German,
            "und die Regeln bei dir gehen vor",
            "unter drei Jahren",
        ),
    ] {
        let say = Speaker::of(language.tongue(), &recipe);
        for hazard in Hazard::ALL {
            let caution = say.caution(hazard);
            assert!(caution.defers.contains(defers), "{}", caution.defers);
            assert!(!caution.title.is_empty() && !caution.words.is_empty());
        }
        assert!(say.caution(Hazard::SmallParts).words.contains(three));
    }
}

#[test]
fn everything_is_said_in_whole_short_sentences() {
    let mut wrong = Vec::new();
    for language in Language::ALL {
        let told = all(language).into_iter();
        let told = told.flat_map(|Told { what, why, remedy }| [what, why, remedy]);
        for text in told.chain(others(language)).chain(drawings(language)) {
            let whole = text.ends_with('.') && !text.contains("  ") && !text.contains("..");
            let filled = [" ,", " .", "“”", "„“", "{", "}", "\n"]
                .iter()
                .all(|hole| !text.contains(hole));
            let mut begins = sentences(&text).map(|it| it.chars().next());
            let begun = begins.all(|it| it.is_some_and(|it| !it.is_lowercase()));
            if !(whole && filled && begun) {
                wrong.push(format!("{}: {text}", language.tag()));
            }
            // Of what is listed, each is heard by itself.
            for sentence in sentences(&text).flat_map(|it| it.split("; ")) {
                let long = sentence.chars().count();
                if long > MOST_CHARACTERS {
                    wrong.push(format!("{} {long}: {sentence}", language.tag()));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// Where the exact length stands behind each that is rounded, the same is seen.
#[test]
fn what_stands_behind_changes_nothing_that_is_seen() {
    for language in Language::ALL {
        let (recipe, tongue) = (with_long_names(), language.tongue());
        let say = Speaker::of(tongue, &recipe);
        let behind = say.with_exact();
        let mut told = Vec::new();
        for finding in findings(&recipe) {
            let problem = Problem {
                place: Place::Recipe,
                weight: Weight::Note,
                finding,
            };
            let (one, other) = (say.problem(&problem), behind.problem(&problem));
            told.push((one.what, other.what));
            told.push((one.why, other.why));
            told.push((one.remedy, other.remedy));
        }
        for does in steps::instructions(&recipe) {
            told.push((say.instruction(&does), behind.instruction(&does)));
        }
        assert!(told.iter().any(|(one, other)| one != other));
        for (one, other) in told {
            let seen: String = runs(tongue, &other)
                .into_iter()
                .map(|it| it.shown)
                .collect();
            assert_eq!(seen, one);
        }
    }
}

/// No sentence was forgotten when a language was written from another.
#[test]
fn no_language_speaks_another() {
    let [english, german] = Language::ALL.map(all);
    for (one, other) in english.iter().zip(&german) {
        for (one, other) in [
            (&one.what, &other.what),
            (&one.why, &other.why),
            (&one.remedy, &other.remedy),
        ] {
            assert_ne!(one, other);
        }
    }
    let [english, german] = Language::ALL.map(others);
    let [drawn, also_drawn] = Language::ALL.map(drawings);
    for (one, other) in drawn.iter().zip(&also_drawn) {
        assert_ne!(one, other);
    }
    let [labels, written] = Language::ALL.map(labels);
    let english = english.iter().chain(&labels);
    for (one, other) in english.zip(german.iter().chain(&written)) {
        // A rule of measures that are equal has no words of its own.
        assert!(one != other || one.contains(" = "), "{one}");
    }
}

#[test]
fn the_wording_is_as_it_was_agreed() {
    for language in Language::ALL {
        let told = all(language).into_iter();
        let told =
            told.map(|Told { what, why, remedy }| format!("{what}\n    {why}\n    {remedy}\n"));
        let others = others(language).into_iter().chain(labels(language));
        let others = others.chain(drawings(language));
        let others = others.chain(short(language));
        let others = others.map(|text| format!("{text}\n"));
        let told: String = told.chain(others).collect();
        let name = format!("tests/wording.{}.txt", language.tag());
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(name);
        if std::env::var_os("WORDING").is_some_and(|it| it == "write") {
            std::fs::write(&path, &told).expect("the file can be written");
        }
        let agreed = std::fs::read_to_string(&path).unwrap_or_default();
        for (now, then) in told.lines().zip(agreed.lines()) {
            assert_eq!(now, then, "{}", path.display());
        }
        assert_eq!(told.lines().count(), agreed.lines().count());
    }
}

/// What the starting folds are made of is called in the maker's language, each
/// part by a name of its own, and nothing by its key.
#[test]
fn every_starting_fold_has_names_in_every_language() {
    let inches = Notation {
        step: Ruler::Sixteenth,
        decimal: DecimalMark::Point,
    };
    let millimetres = Notation {
        step: Ruler::Millimetre,
        decimal: DecimalMark::Comma,
    };
    for starting in starters() {
        for notation in [inches, millimetres] {
            let keys = starting.recipe_in(notation);
            let german = starter(Language::German.tongue(), starting, notation);
            for language in Language::ALL {
                let tongue = language.tongue();
                let recipe = starter(tongue, starting, notation);
                assert!(!recipe.name.is_empty(), "{} has a name", starting.id);
                assert!(recipe.about.ends_with('.'), "{}", recipe.about);
                assert!(
                    recipe.about.chars().count() <= MOST_CHARACTERS,
                    "{}",
                    recipe.about
                );
                assert_eq!(recipe.check(), []);
                let names: Vec<_> = recipe.measures.iter().map(|it| &it.name).collect();
                for (place, name) in names.iter().enumerate() {
                    assert!(
                        !names[..place].contains(name),
                        "{}: {name} twice",
                        starting.id
                    );
                }
            }
            for (key, name) in all_names(&keys).iter().zip(all_names(&german)) {
                assert!(*key != name || key == "pop-up", "{}: {key}", starting.id);
            }
        }
    }
}

/// Every name in a recipe, always in the same order.
fn all_names(recipe: &Recipe) -> Vec<String> {
    let strips = recipe.strips().map(|(_, strip)| strip);
    let on_strips = strips.flat_map(|strip| {
        let panels = strip.panels.iter().map(|it| &it.name);
        let lines = strip.lines.iter().map(|it| &it.name);
        let cutouts = strip.cutouts.iter().map(|it| &it.name);
        panels.chain(lines).chain(cutouts)
    });
    let layers = recipe.layers.iter().map(|it| &it.name);
    let pieces = recipe.pieces.iter().map(|it| &it.name);
    let stocks = recipe.stocks.iter().map(|it| &it.name);
    let measures = recipe.measures.iter().map(|it| &it.name);
    let all = on_strips.chain(layers).chain(pieces);
    all.chain(stocks).chain(measures).cloned().collect()
}
