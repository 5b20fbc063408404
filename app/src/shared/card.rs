//! The whole card, written out: everything somebody needs who makes it.

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::draw::{Colouring, Drawing, as_it_stands, flat, on_table, state, svg};
use foldwright_engine::faces::View;
use foldwright_engine::problem::Weight;
use foldwright_engine::recipe::{Recipe, Side};
use foldwright_engine::refit::between_marks;
use foldwright_engine::seen::{flat_seen, state_seen};
use foldwright_words::{Told, sentence};
use leptos::prelude::*;

use super::steps::AllSteps;
use crate::album::address;
use crate::part::{Ticks, passes, told};
use crate::spoken::{aloud, language, speaker, texts};

/// Everything about the card of a recipe, in the recipe's own notation.
#[component]
pub(crate) fn WholeCard(
    /// The recipe.
    recipe: Recipe,
    /// What the card is made with.
    tools: Tools,
) -> impl IntoView {
    let card = work_out(&recipe, &tools);
    let about = (!recipe.about.is_empty()).then(|| view! { <p>{recipe.about.clone()}</p> });
    let (say, facts) = (speaker(&recipe).with_exact(), card.facts());
    let many = (recipe.copies > 1).then(|| format!(" {}", texts().shared.for_cards(recipe.copies)));
    view! {
        <div class="whole-card">
            {about}
            <p>
                {say.whole(&facts)} " " {told(say.figures(&facts))} "." {many}
            </p>
            {problems(&recipe, &card)}
            {drawings(&recipe, &card)}
            {papers(&recipe, &card)}
            {sizes(&recipe, &card)}
            {supplies(&recipe, &card)}
            {measures(&recipe)}
            {scores(&recipe, &card)}
            {envelopes(&recipe, &card)}
            <h2>{texts().shared.step_by_step}</h2>
            <AllSteps recipe=recipe.clone() card/>
        </div>
    }
}

/// What keeps the card from being made well, where anything does.
fn problems(recipe: &Recipe, card: &Card) -> impl IntoView + use<> {
    let say = speaker(recipe).with_exact();
    let grave = card.problems.iter();
    let grave = grave.filter(|problem| problem.weight != Weight::Note);
    let all = grave.map(|problem| {
        let Told { what, why, remedy } = say.problem(problem);
        view! { <p class="callout warning"><b>{told(what)}</b> " " {told(why)} " " {told(remedy)}</p> }
    });
    all.collect_view()
}

fn drawings(recipe: &Recipe, card: &Card) -> impl IntoView + use<> {
    let say = speaker(recipe).with_exact();
    let standing = as_it_stands(recipe, card).map(|look| {
        let seen = (look.direction, Colouring::Paper);
        pictured(
            &on_table(recipe, card, &look.posed, seen),
            "standing",
            aloud(&say.whole(&card.facts())),
            told(say.stands(look.stands)).into_any(),
        )
    });
    let closed = card.folded.as_ref().map(|_| {
        let seen = state_seen(card, 0, View::Front);
        drawing(
            &state(recipe, card, 0, View::Front),
            "closed",
            texts().shared.closed_from_front,
            seen.map_or_else(String::new, |seen| say.state(&seen)),
        )
    });
    let pieces = card.laid.all_pieces().enumerate().map(|(number, piece)| {
        let seen = flat_seen(recipe, card, piece.of, Side::A);
        drawing(
            &flat(recipe, card, piece.of, Side::A),
            &format!("flat-{number}"),
            &sentence(say.lies(piece.of, Side::A)),
            seen.map_or_else(String::new, |seen| say.flat(&seen)),
        )
    });
    view! { <div class="card-drawings">{standing} {closed} {pieces.collect_view()}</div> }
}

fn drawing(
    drawing: &Drawing,
    name: &str,
    caption: &str,
    in_words: String,
) -> impl IntoView + use<> {
    let words = view! { <b>{caption.to_owned()}"."</b> " " {told(in_words)} };
    pictured(drawing, name, caption.to_owned(), words.into_any())
}

/// A drawing with what is told of it, drawn anew where a photograph of its paper comes
/// later.
pub(super) fn drawn(drawing: Drawing, name: String, label: String) -> impl Fn() -> AnyView {
    move || {
        let drawn = svg(&drawing, &name, &address);
        view! {
            <svg role="img" aria-label=label.clone() viewBox=drawn.view_box.clone()>
                <g inner_html=drawn.inside()></g>
            </svg>
        }
        .into_any()
    }
}

fn pictured(
    drawing: &Drawing,
    name: &str,
    label: String,
    caption: AnyView,
) -> impl IntoView + use<> {
    let drawn = drawn(drawing.clone(), format!("whole-{name}"), label);
    view! {
        <figure class="card-drawing">
            {drawn}
            <figcaption>{caption}</figcaption>
        </figure>
    }
}

fn papers(recipe: &Recipe, card: &Card) -> impl IntoView + use<> {
    let rows = speaker(recipe).with_exact().paper_rows(recipe, card);
    let rows = rows.into_iter().map(|[name, sheet, weight]| {
        view! {
            <tr>
                <th scope="row">{name}</th>
                <td>{told(sheet)}</td>
                <td>{weight}</td>
            </tr>
        }
    });
    view! {
        <h2>{texts().shared.paper}</h2>
        <table class="card-table">
            <thead>
                <tr>
                    <th scope="col">{texts().shared.paper}</th>
                    <th scope="col">{texts().shared.sheet_size}</th>
                    <th scope="col">{texts().shared.weight}</th>
                </tr>
            </thead>
            <tbody>{rows.collect_view()}</tbody>
        </table>
    }
}

fn sizes(recipe: &Recipe, card: &Card) -> impl IntoView + use<> {
    let rows = speaker(recipe).with_exact().cut_rows(recipe, card);
    let rows = rows.into_iter().map(|[part, size, paper]| {
        view! {
            <tr>
                <th scope="row">{part}</th>
                <td>{told(size)}</td>
                <td>{paper}</td>
            </tr>
        }
    });
    view! {
        <h2>{texts().shared.what_to_cut}</h2>
        <table class="card-table">
            <thead>
                <tr>
                    <th scope="col">{texts().shared.piece}</th>
                    <th scope="col">{texts().shared.width_height}</th>
                    <th scope="col">{texts().shared.from_paper}</th>
                </tr>
            </thead>
            <tbody>{rows.collect_view()}</tbody>
        </table>
    }
}

/// What it takes that is not paper, where it takes any such thing.
fn supplies(recipe: &Recipe, card: &Card) -> impl IntoView + use<> {
    let rows = speaker(recipe).with_exact();
    let rows = rows.supply_rows(recipe, card, recipe.copies).into_iter();
    let many = recipe.copies > 1;
    let rows = rows.map(|[name, each, all]| {
        view! {
            <tr>
                <th scope="row">{name}</th>
                <td>{told(each)}</td>
                {many.then(|| view! { <td>{told(all)}</td> })}
            </tr>
        }
    });
    let texts = language().kits();
    (!recipe.supplies.is_empty()).then(|| {
        view! {
            <h2>{texts.besides_paper}</h2>
            <table class="card-table">
                <thead>
                    <tr>
                        <th scope="col">{texts.what}</th>
                        <th scope="col">{texts.a_card_takes}</th>
                        {many.then(|| view! { <th scope="col">{texts.in_all}</th> })}
                    </tr>
                </thead>
                <tbody>{rows.collect_view()}</tbody>
            </table>
        }
    })
}

fn measures(recipe: &Recipe) -> impl IntoView + use<> {
    let say = speaker(recipe).with_exact();
    let any = Signal::stored(!between_marks(recipe).is_empty());
    let rows = recipe.measures.iter().map(|measure| {
        view! {
            <div>
                <dt>{sentence(measure.name.clone())}</dt>
                <dd>{told(say.short_length(measure.value))}</dd>
            </div>
        }
    });
    view! {
        <h2>{texts().shared.all_measurements}</h2>
        <dl class="card-measures">{rows.collect_view()}</dl>
        <Ticks any/>
    }
}

fn scores(recipe: &Recipe, card: &Card) -> impl IntoView + use<> {
    let charts: Vec<_> = card
        .charts()
        .filter(|(_, chart)| !chart.passes.is_empty())
        .map(|(of, chart)| passes(recipe, card, of, chart))
        .collect();
    (!charts.is_empty()).then(|| view! { <h2>{texts().shared.scores}</h2> {charts} })
}

fn envelopes(recipe: &Recipe, card: &Card) -> impl IntoView + use<> {
    if recipe.posting.is_envelope {
        return None;
    }
    let rows = speaker(recipe).with_exact().envelope_rows(recipe, card);
    let rows = rows.into_iter().map(|[name, size, room]| {
        view! { <li><b>{name}</b> ", " {told(size)} ": " {told(room)}</li> }
    });
    let rows: Vec<_> = rows.collect();
    let none = rows
        .is_empty()
        .then(|| view! { <p>{texts().shared.no_envelope}</p> });
    Some(view! {
        <h2>{texts().shared.envelope}</h2>
        {none}
        <ul>{rows}</ul>
    })
}
