//! Beside each line, what was read of it and what was not.

use foldwright_engine::problem::{Problem, Weight};
use foldwright_engine::reading::ReadLine;
use leptos::prelude::*;

use super::Desk;

/// How a stretch of a line is shown.
#[derive(Clone, Copy)]
enum Look {
    Plain,
    Known,
    Unread,
}

/// All lines that are not empty.
#[component]
pub(super) fn Lines(desk: Desk) -> impl IntoView {
    let lines = move || {
        desk.read.with(|read| {
            let lines = read.lines.iter().enumerate();
            let lines = lines.filter(|(_, line)| !line.text.trim().is_empty());
            lines
                .map(|(number, line)| one(number + 1, line))
                .collect_view()
        })
    };
    let any = move || {
        desk.read
            .with(|read| read.lines.iter().any(|line| !line.text.trim().is_empty()))
    };
    view! {
        <Show when=any>
            <h2>"Line by line"</h2>
            <ol class="read-lines">{lines}</ol>
        </Show>
    }
}

fn one(number: usize, line: &ReadLine) -> impl IntoView + use<> {
    let text = stretches(line)
        .into_iter()
        .map(|(look, text)| match look {
            Look::Plain => view! { <span>{text}</span> }.into_any(),
            Look::Known => view! { <span class="read-known">{text}</span> }.into_any(),
            Look::Unread => view! { <span class="read-unread">{text}</span> }.into_any(),
        })
        .collect_view();
    let known: Vec<String> = line.understood.iter().map(|it| it.words.clone()).collect();
    let known = (!known.is_empty()).then(|| {
        view! { <p class="read-as">{known.join(" · ")}</p> }
    });
    let remarks = line.remarks.iter().map(|remark| {
        view! { <p class="read-how">{remark.clone()}</p> }
    });
    let unread = line.unread.iter().map(|unread| {
        let part = line.text.get(unread.at.clone()).unwrap_or_default();
        let class = if unread.is_number {
            "read-not number"
        } else {
            "read-not"
        };
        view! {
            <p class=class>
                <span class="read-part">{format!("“{}”", part.trim())}</span>
                " "
                {unread.why.clone()}
            </p>
        }
    });
    let problems = line.problems.iter().map(problem);
    view! {
        <li class="read-line" value=number>
            <p class="read-text">{text}</p>
            {known}
            {remarks.collect_view()}
            {unread.collect_view()}
            {problems.collect_view()}
        </li>
    }
}

fn problem(problem: &Problem) -> impl IntoView + use<> {
    let class = match problem.weight {
        Weight::Note => "read-not",
        Weight::Warning | Weight::Stop => "read-wrong",
    };
    let words = format!("{} {} {}", problem.what, problem.why, problem.remedy);
    view! { <p class=class>{words}</p> }
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
