//! Beside each line, what was read of it and what was not.

use std::time::Duration;

use foldwright_engine::problem::Weight;
use foldwright_engine::reading::ReadLine;
use foldwright_words::{Speaker, Told};
use leptos::prelude::*;

use super::Desk;
use crate::part::told;
use crate::spoken::{speaker, speaker_without_recipe, texts};

/// So many lines are drawn in one go; the others follow with time for the page in
/// between. Our own bound.
const DRAWN: usize = 30;

/// How a stretch of a line is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
enum Look {
    Plain,
    Known,
    Unread,
}

/// A line as it is said.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
struct Line {
    number: usize,
    stretches: Vec<(Look, String)>,
    known: String,
    remarks: Vec<String>,
    unread: Vec<Unread>,
    /// With the class by which each is shown.
    problems: Vec<(&'static str, String)>,
}

/// A part of a line that was not read, and why.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
struct Unread {
    part: String,
    why: String,
    is_number: bool,
}

/// All lines that are not empty.
#[component]
pub(super) fn Lines(desk: Desk) -> impl IntoView {
    let lines = Memo::new(move |_| {
        desk.read.with(|read| {
            // The layers are called as in the card that is made of the list.
            let folding = read.foldings.get(read.folded);
            let say = folding
                .map_or_else(
                    || speaker_without_recipe(read.notation),
                    |folding| speaker(&folding.recipe),
                )
                .with_exact();
            let lines = read.lines.iter().enumerate();
            let lines = lines.filter(|(_, line)| !line.text.trim().is_empty());
            let lines = lines.map(|(number, line)| one(number + 1, line, &say));
            lines.collect::<Vec<_>>()
        })
    });
    let drawn = RwSignal::new(DRAWN);
    Effect::new(move || {
        if drawn.get() < lines.with(Vec::len) {
            set_timeout(
                move || {
                    drawn.try_update(|drawn| *drawn += DRAWN);
                },
                Duration::ZERO,
            );
        }
    });
    let shown = move || {
        let drawn = drawn.get();
        lines.with(|lines| lines.iter().take(drawn).cloned().collect::<Vec<_>>())
    };
    view! {
        <Show when=move || lines.with(|lines| !lines.is_empty())>
            <h2>{texts().begin.line_by_line}</h2>
            <ol class="read-lines">
                <For each=shown key=Line::clone children=|line| view! { <OneLine line/> }/>
            </ol>
        </Show>
    }
}

fn one(number: usize, line: &ReadLine, say: &Speaker<'_>) -> Line {
    let known = line.understood.iter().map(|it| say.meaning(it.is));
    let unread = line.unread.iter().map(|unread| Unread {
        part: line.text.get(unread.at.clone()).unwrap_or_default().into(),
        why: say.missed(&unread.why),
        is_number: unread.is_number,
    });
    let problems = line.problems.iter().map(|problem| {
        let class = match problem.weight {
            Weight::Note => "read-not",
            Weight::Warning | Weight::Stop => "read-wrong",
        };
        let Told { what, why, remedy } = say.problem(problem);
        (class, format!("{what} {why} {remedy}"))
    });
    Line {
        number,
        stretches: stretches(line),
        known: known.collect::<Vec<_>>().join(" · "),
        remarks: line.remarks.iter().map(|it| say.remark(*it)).collect(),
        unread: unread.collect(),
        problems: problems.collect(),
    }
}

#[component]
fn OneLine(line: Line) -> impl IntoView {
    let text = line.stretches.into_iter().map(|(look, text)| match look {
        Look::Plain => view! { <span>{text}</span> }.into_any(),
        Look::Known => view! { <span class="read-known">{text}</span> }.into_any(),
        Look::Unread => view! { <span class="read-unread">{text}</span> }.into_any(),
    });
    let known = (!line.known.is_empty()).then(|| {
        view! { <p class="read-as">{told(line.known)}</p> }
    });
    let remarks = line.remarks.into_iter().map(|remark| {
        view! { <p class="read-how">{told(remark)}</p> }
    });
    let unread = line.unread.into_iter().map(|unread| {
        let class = if unread.is_number {
            "read-not number"
        } else {
            "read-not"
        };
        view! {
            <p class=class>
                <span class="read-part">{texts().list.quoted(unread.part.trim())}</span>
                " "
                {told(unread.why)}
            </p>
        }
    });
    let problems = line.problems.into_iter().map(|(class, words)| {
        view! { <p class=class>{told(words)}</p> }
    });
    view! {
        <li class="read-line" value=line.number>
            <p class="read-text">{text.collect_view()}</p>
            {known}
            {remarks.collect_view()}
            {unread.collect_view()}
            {problems.collect_view()}
        </li>
    }
}

/// The line in stretches, each as it was read.
fn stretches(line: &ReadLine) -> Vec<(Look, String)> {
    let known = line
        .understood
        .iter()
        .map(|it| (it.at.clone(), Look::Known));
    let unread = line.unread.iter().map(|it| (it.at.clone(), Look::Unread));
    let mut marked: Vec<_> = known.chain(unread).collect();
    marked.sort_by_key(|(at, _)| at.start);
    let mut stretches = Vec::new();
    let mut from = 0;
    let mut put = |look: Look, from: usize, to: usize| {
        if let Some(text) = line.text.get(from..to).filter(|text| !text.is_empty()) {
            stretches.push((look, text.to_owned()));
        }
    };
    for (at, look) in marked {
        if at.start >= from {
            put(Look::Plain, from, at.start);
            put(look, at.start, at.end);
            from = at.end;
        }
    }
    put(Look::Plain, from, line.text.len());
    stretches
}
