//! Everything there is to say of what a refit comes to, of why there is no card,
//! and of what can be saved.

use foldwright_engine::length::{Length, Step};
use foldwright_engine::paper::{Envelope, SHEETS};
use foldwright_engine::part::Part;
use foldwright_engine::problem::{Finding, Place, Problem, Weight};
use foldwright_engine::recipe::{Is, Recipe, Relation, Shaped, StripId};
use foldwright_engine::refit::{self, Cause, Clash, Condition, Limits, Loss, Outcome, Release};
use foldwright_engine::rescue::{
    About, Against, Along, CannotBe, Does, Heading, Hurdle, Note, Paper, Ready, Reason,
};

use super::{There, broken, mm, size};

/// Whatever can hold.
pub(crate) fn conditions(recipe: &Recipe) -> Vec<Condition> {
    let there = There::of(recipe);
    let measure = recipe.measures[0].id;
    let stock = recipe.stocks[0].id;
    let (layer, window) = (Shaped::Layer(there.layer), Shaped::Window(there.cutout));
    let rules: Vec<_> = broken(recipe).map(Condition::Rule).collect();
    let mut all = every!(Condition:
        Condition::Goes(_) => [Condition::Goes(envelope("iso-c6"))],
        Condition::Closed(_) => [Condition::Closed(size(105, 148))],
        Condition::Sheet(_) => [
            Condition::Sheet(size(297, 210)),
            Condition::Sheet(size(200, 201)),
        ],
        Condition::Share => [Condition::Share],
        Condition::Count => [Condition::Count],
        Condition::Is(..) => [Condition::Is(measure, mm(105))],
        Condition::Pinned(..) => [Condition::Pinned(measure, mm(105))],
        Condition::AtLeast(..) => [Condition::AtLeast(measure, mm(5))],
        Condition::AtMost(..) => [Condition::AtMost(measure, mm(200))],
        Condition::Rule(_) => [rules[0].clone()],
        Condition::InPlace(_) => [Condition::InPlace(layer), Condition::InPlace(window)],
        Condition::Fits(_) => [Condition::Fits(stock)],
        Condition::NotBelowZero(_) => [Condition::NotBelowZero(measure)],
    );
    all.extend(rules.into_iter().skip(1));
    all
}

fn envelope(id: &str) -> &'static Envelope {
    Envelope::by_id(id).expect("it is in the table")
}

/// Every way in which there is no card.
pub(crate) fn clashes() -> Vec<Clash> {
    let between = |causes: &[Cause], marks| Clash::Between {
        causes: causes.to_vec(),
        marks,
        smallest: true,
    };
    let two = [Cause::Envelope, Cause::Sheet];
    every!(Clash:
        Clash::Between { .. } => [
            between(&two[..1], false),
            between(&two[..1], true),
            between(&two, false),
            between(&two, true),
        ],
        Clash::NeverCloses => [Clash::NeverCloses],
        Clash::CutShort => [Clash::CutShort],
        Clash::TooTangled => [Clash::TooTangled],
    )
}

/// Why a measure moves.
pub(crate) fn reasons() -> Vec<refit::Reason> {
    every!(refit::Reason:
        refit::Reason::Designed => [refit::Reason::Designed],
        refit::Reason::Holds(_) => [refit::Reason::Holds(Condition::Share)],
    )
}

/// Everything that can be let go of.
pub(crate) fn releases(recipe: &Recipe) -> Vec<Release> {
    let there = There::of(recipe);
    let measure = recipe.measures[0].id;
    let (layer, window) = (Shaped::Layer(there.layer), Shaped::Window(there.cutout));
    let rule = broken(recipe).next().expect("there are some");
    let a4 = SHEETS.iter().find(|sheet| sheet.id == "iso-a4");
    let paper = |least, sheet| Release::Paper {
        stock: recipe.stocks[0].id,
        least,
        sheet,
    };
    every!(Release:
        Release::Envelope => [Release::Envelope],
        Release::Finished => [Release::Finished],
        Release::Sheet => [Release::Sheet],
        Release::Asked(_) => [Release::Asked(measure)],
        Release::Without(_) => [Release::Without(Condition::Count)],
        Release::Unpin(_) => [Release::Unpin(measure)],
        Release::Less(_) => [Release::Less(measure)],
        Release::More(_) => [Release::More(measure)],
        Release::Rule(_) => [Release::Rule(rule)],
        Release::Place(_) => [Release::Place(layer), Release::Place(window)],
        Release::Paper { .. } => [
            paper(size(210, 297), a4),
            paper(size(200, 290), a4),
            paper(size(9000, 9001), None),
        ],
        Release::Size(_) => [Release::Size(size(105, 148))],
        Release::Marks(_) => [Release::Marks(Step::TenthMillimetre)],
    )
}

/// Every heading of a way out.
pub(crate) fn headings(recipe: &Recipe) -> Vec<Heading> {
    let there = There::of(recipe);
    let does = every!(Does:
        Does::Nothing => [Does::Nothing],
        Does::Keep => [Does::Keep],
        Does::KeepAll => [Does::KeepAll],
        Does::Trim(_) => [Does::Trim(size(105, 148))],
        Does::ScoreAgain => [Does::ScoreAgain],
        Does::Recut => [Does::Recut],
    );
    let trimmed = [Part::Layer(there.layer)];
    let recut = [Part::Strip(StripId::Piece(there.piece))];
    let mut all = Vec::new();
    for does in does {
        // A batch of one has no others that could become like it.
        let cards = match does {
            Does::KeepAll => &[12][..],
            _ => &[1, 12],
        };
        let others = match does {
            Does::Keep | Does::KeepAll | Does::Trim(_) => 4,
            Does::Nothing | Does::ScoreAgain | Does::Recut => 1,
        };
        for cards in cards.iter().copied() {
            let which = [
                (&trimmed[..0], &recut[..0]),
                (&trimmed[..], &recut[..0]),
                (&trimmed[..0], &recut[..]),
                (&trimmed[..], &recut[..]),
            ];
            for (trimmed, recut) in which.into_iter().take(others) {
                all.push(Heading {
                    does,
                    part: Part::Strip(StripId::Base),
                    cards,
                    trimmed: trimmed.to_vec(),
                    recut: recut.to_vec(),
                });
            }
        }
    }
    all
}

/// Everything a way out can mean for the work.
pub(crate) fn notes(recipe: &Recipe) -> Vec<Note> {
    let there = There::of(recipe);
    let (base, layer) = (Part::Strip(StripId::Base), Part::Layer(there.layer));
    let along = every!(Along:
        Along::Length => [Along::Length],
        Along::Width => [Along::Width],
        Along::Height => [Along::Height],
    );
    let along = along.into_iter();
    let cut_down = along.map(|along| Note::CutDown {
        part: layer,
        along,
        is: mm(148),
    });
    let cut_down: Vec<_> = cut_down.collect();
    let apart = |these, others| Note::Apart { these, others };
    every!(Note:
        Note::AsPlanned => [Note::AsPlanned],
        Note::NothingElse => [Note::NothingElse],
        Note::CutDown { .. } => [
            cut_down[0].clone(),
            cut_down[1].clone(),
            cut_down[2].clone(),
        ],
        Note::GluedOn { .. } => [Note::GluedOn { part: layer, to: base }],
        Note::TrimTo(..) => [
            Note::TrimTo(layer, size(105, 148)),
            Note::TrimTo(base, size(105, 148)),
        ],
        Note::CutAgain(_) => [Note::CutAgain(layer)],
        Note::SecondLine => [Note::SecondLine],
        Note::Closed(_) => [Note::Closed(size(105, 148))],
        Note::Goes(..) => [
            Note::Goes(envelope("na-a2"), true),
            Note::Goes(envelope("na-a2"), false),
        ],
        Note::NoLonger(_) => [Note::NoLonger(Condition::Share)],
        Note::Refit(_) => [Note::Refit(Outcome::CutShort)],
        Note::Apart { .. } => [apart(1, 1), apart(2, 1), apart(1, 22), apart(2, 22)],
    )
}

fn ready(part: Part) -> [Ready; 2] {
    [false, true].map(|scored| Ready {
        part,
        size: size(254, 178),
        scored,
    })
}

/// Everything that can stand against a way out.
pub(crate) fn againsts(recipe: &Recipe) -> Vec<Against> {
    let there = There::of(recipe);
    let [cut, scored] = ready(Part::Strip(StripId::Base));
    let hurdles = every!(Hurdle:
        Hurdle::Ready(_) => [Hurdle::Ready(cut), Hurdle::Ready(scored)],
        Hurdle::Border(_) => [Hurdle::Border(there.layer)],
        Hurdle::Holds(_) => [Hurdle::Holds(Condition::Share)],
    );
    let wrong = broken(recipe).next().expect("there are some");
    let problem = Problem {
        place: Place::Recipe,
        weight: Weight::Stop,
        finding: Finding::Broken(wrong),
    };
    every!(Against:
        Against::Hurdles(_) => [Against::Hurdles(Vec::new()), Against::Hurdles(hurdles)],
        Against::Shape => [Against::Shape],
        Against::Problem(_) => [Against::Problem(problem)],
        Against::Clash(_) => [Against::Clash(Clash::CutShort)],
    )
}

/// Why a measure becomes another at the table.
pub(crate) fn because(recipe: &Recipe) -> Vec<Reason> {
    let there = There::of(recipe);
    let of = StripId::Piece(there.piece);
    let crease = there.crease.line().expect("it was drawn");
    let about = every!(About:
        About::Cut(_) => [About::Cut(Part::Strip(StripId::Base))],
        About::Scores(..) => [About::Scores(of, 0)],
        About::Line(..) => [About::Line(StripId::Base, crease)],
        About::Cutout(..) => [About::Cutout(StripId::Base, there.cutout)],
    );
    let [cut, scored] = ready(Part::Strip(of));
    let mut all = every!(Reason:
        Reason::InHand(_) => [Reason::InHand(about[0])],
        Reason::Ready(_) => [Reason::Ready(cut), Reason::Ready(scored)],
        Reason::Holds(_) => [Reason::Holds(Condition::Count)],
    );
    all.extend(about.into_iter().skip(1).map(Reason::InHand));
    all
}

/// Whatever a way out takes of paper.
pub(crate) fn papers(recipe: &Recipe) -> Vec<Paper> {
    let there = There::of(recipe);
    let mut all = Vec::new();
    for (part, pieces) in [
        (Part::Strip(StripId::Base), 1),
        (Part::Layer(there.layer), 12),
    ] {
        for (more, spare) in [
            (None, 0),
            (Some(0), 0),
            (Some(0), 1),
            (Some(0), 3),
            (Some(1), 0),
            (Some(4), 0),
        ] {
            all.push(Paper {
                stock: recipe.stocks[0].id,
                part,
                pieces,
                more,
                spare,
            });
        }
    }
    all
}

/// Why something can't have been measured.
pub(crate) fn cannots() -> Vec<CannotBe> {
    every!(CannotBe:
        CannotBe::NoStep => [CannotBe::NoStep],
        CannotBe::Nonsense => [CannotBe::Nonsense],
    )
}

/// Everything a refit can come to besides its lengths.
pub(crate) fn outcomes(recipe: &Recipe) -> Vec<Outcome> {
    let there = There::of(recipe);
    let measures: Vec<_> = recipe.measures.iter().map(|it| it.id).collect();
    let off = Length::hundredths_mm(20_840);
    let (c6, a2) = (envelope("iso-c6"), envelope("na-a2"));
    let goes = |chosen| Outcome::Goes {
        envelope: c6,
        chosen,
    };
    let goes_not = |chosen, closest| Outcome::GoesNot {
        envelope: c6,
        chosen,
        closest,
    };
    let room = |to_mark| Outcome::Room {
        from: Length::hundredths_mm(170),
        to: mm(2),
        to_mark,
    };
    let losses = every!(Loss:
        Loss::Yield { .. } => [
            Loss::Yield { from: 1, to: 0 },
            Loss::Yield { from: 2, to: 0 },
            Loss::Yield { from: 2, to: 1 },
            Loss::Yield { from: 4, to: 2 },
        ],
        Loss::Grain => [Loss::Grain],
        Loss::Print(_) => [Loss::Print(there.faces[1])],
        Loss::Side => [Loss::Side],
    );
    let limits = every!(Limits:
        Limits::AtLeast(_) => [Limits::AtLeast(mm(12))],
        Limits::AtMost(_) => [Limits::AtMost(mm(12))],
        Limits::Between(..) => [Limits::Between(mm(1), mm(3))],
    );
    let limited = |limits, count| Outcome::Limits {
        of: measures.iter().copied().take(count).collect(),
        limits,
    };
    let mut all = every!(Outcome:
        Outcome::FromDesign(_) => [Outcome::FromDesign(size(105, 148))],
        Outcome::OffMarks(_) => [Outcome::OffMarks(vec![(measures[0], off), (measures[1], off)])],
        Outcome::Goes { .. } => [goes(true), goes(false)],
        Outcome::GoesNot { .. } => [
            goes_not(true, Some(a2)),
            goes_not(true, None),
            goes_not(false, Some(a2)),
            goes_not(false, None),
        ],
        Outcome::Room { .. } => [room(true), room(false)],
        Outcome::Rule(_) => [Outcome::Rule(Relation {
            is: Is::AtLeast,
            plus: mm(3),
            ..Relation::sum(measures[0], [])
        })],
        Outcome::Limits { .. } => [
            limited(limits[0], 1),
            limited(limits[0], 4),
            limited(limits[1], 1),
            limited(limits[1], 2),
            limited(limits[2], 1),
            limited(limits[2], 2),
        ],
        Outcome::GlueMargin(_) => [Outcome::GlueMargin(mm(3))],
        Outcome::Lost(_) => [Outcome::Lost(losses[0])],
        Outcome::ShortWay { .. } => [Outcome::ShortWay {
            short: mm(210),
            turned: size(127, 203),
        }],
        Outcome::CutShort => [Outcome::CutShort],
    );
    all.extend(losses.into_iter().skip(1).map(Outcome::Lost));
    all
}
