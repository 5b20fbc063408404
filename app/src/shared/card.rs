//! The whole card, written out: everything somebody needs who makes it.

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::draw::{Drawing, flat, state, svg};
use foldwright_engine::problem::{Problem, Weight, sentence};
use foldwright_engine::recipe::{Recipe, Side};
use foldwright_engine::seen::{flat_in_words, state_in_words};
use foldwright_engine::show::View;
use foldwright_engine::words;
use leptos::prelude::*;

use super::steps::AllSteps;
use crate::part::passes;

/// More envelopes than these are a table, and nobody's next step.
const MOST_ENVELOPES: usize = 3;

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
    let many = (recipe.copies > 1).then(|| format!(" For {} cards.", recipe.copies));
    view! {
        <div class="whole-card">
            {about}
            <p>
                {words::card_in_words(&recipe, &card)} " "
                {words::closed_facts(&recipe, &card)} "." {many}
            </p>
            {problems(&card)}
            {drawings(&recipe, &card)}
            {papers(&recipe, &card)}
            {sizes(&recipe, &card)}
            {measures(&recipe)}
            {scores(&recipe, &card)}
            {envelopes(&recipe, &card)}
            <h2>"Step by step"</h2>
            <AllSteps recipe=recipe.clone() card/>
        </div>
    }
}

/// What keeps the card from being made well, where anything does.
fn problems(card: &Card) -> impl IntoView + use<> {
    let grave = card.problems.iter();
    let grave = grave.filter(|problem| problem.weight != Weight::Note);
    let told = grave.map(|problem| {
        let Problem {
            what, why, remedy, ..
        } = problem.clone();
        view! { <p class="callout warning"><b>{what}</b> " " {why} " " {remedy}</p> }
    });
    told.collect_view()
}

fn drawings(recipe: &Recipe, card: &Card) -> impl IntoView + use<> {
    let closed = card.folded.as_ref().map(|_| {
        drawing(
            &state(recipe, card, 0, View::Front),
            "closed",
            "Closed, from the front",
            state_in_words(recipe, card, 0, View::Front),
        )
    });
    let pieces = card.laid.all_pieces().enumerate().map(|(number, piece)| {
        let up = words::side_word(piece.of, Side::A);
        let name = words::piece_name(recipe, piece.of);
        drawing(
            &flat(recipe, card, piece.of, Side::A),
            &format!("flat-{number}"),
            &sentence(format!("{name}, {up} up")),
            flat_in_words(recipe, card, piece.of, Side::A),
        )
    });
    view! { <div class="card-drawings">{closed} {pieces.collect_view()}</div> }
}

fn drawing(
    drawing: &Drawing,
    name: &str,
    caption: &str,
    in_words: String,
) -> impl IntoView + use<> {
    let drawn = svg(drawing, &format!("whole-{name}"));
    let caption = caption.to_owned();
    view! {
        <figure class="card-drawing">
            <svg role="img" aria-label=caption.clone() viewBox=drawn.view_box.clone()>
                <g inner_html=drawn.inside()></g>
            </svg>
            <figcaption><b>{caption}"."</b> " " {sentence(in_words)}</figcaption>
        </figure>
    }
}

fn papers(recipe: &Recipe, card: &Card) -> impl IntoView + use<> {
    let used = |id| {
        let pieces = card.laid.all_pieces().map(|piece| piece.stock);
        let layers = card.laid.layers.iter().map(|layer| layer.stock);
        pieces.chain(layers).any(|stock| stock == id)
    };
    let rows = recipe.stocks.iter().filter(|stock| used(stock.id));
    let rows = rows.map(|stock| {
        view! {
            <tr>
                <th scope="row">{stock.name.clone()}</th>
                <td>{recipe.notation.size(stock.width, stock.height)}</td>
                <td>{stock.weight.words()}</td>
            </tr>
        }
    });
    view! {
        <h2>"Paper"</h2>
        <table class="card-table">
            <thead>
                <tr>
                    <th scope="col">"Paper"</th>
                    <th scope="col">"Sheet, width × height"</th>
                    <th scope="col">"Weight"</th>
                </tr>
            </thead>
            <tbody>{rows.collect_view()}</tbody>
        </table>
    }
}

fn sizes(recipe: &Recipe, card: &Card) -> impl IntoView + use<> {
    let paper = |id| {
        let stock = recipe.stock(id);
        stock.map_or_else(String::new, |stock| stock.name.clone())
    };
    let pieces = card.laid.all_pieces().map(|piece| {
        let name = sentence(words::piece_name(recipe, piece.of).to_owned());
        (name, piece.size, paper(piece.stock))
    });
    let layers = card.laid.layers.iter().map(|laid| {
        let layer = recipe.layer(laid.id);
        let name = layer.map_or_else(String::new, |layer| sentence(layer.name.clone()));
        (name, laid.at.size(), paper(laid.stock))
    });
    let rows = pieces.chain(layers).map(|(name, size, paper)| {
        view! {
            <tr>
                <th scope="row">{name}</th>
                <td>{recipe.notation.size(size.width, size.height)}</td>
                <td>{paper}</td>
            </tr>
        }
    });
    view! {
        <h2>"What to cut"</h2>
        <table class="card-table">
            <thead>
                <tr>
                    <th scope="col">"Piece"</th>
                    <th scope="col">"Width × height"</th>
                    <th scope="col">"From"</th>
                </tr>
            </thead>
            <tbody>{rows.collect_view()}</tbody>
        </table>
    }
}

fn measures(recipe: &Recipe) -> impl IntoView + use<> {
    let rows = recipe.measures.iter().map(|measure| {
        view! {
            <div>
                <dt>{sentence(measure.name.clone())}</dt>
                <dd>{recipe.notation.with_unit(measure.value)}</dd>
            </div>
        }
    });
    view! {
        <h2>"All measures"</h2>
        <dl class="card-measures">{rows.collect_view()}</dl>
    }
}

fn scores(recipe: &Recipe, card: &Card) -> impl IntoView + use<> {
    let pieces = card.pieces.iter().map(|work| (Some(work.of), &work.chart));
    let charts = std::iter::once((None, &card.chart)).chain(pieces);
    let charts: Vec<_> = charts
        .filter(|(_, chart)| !chart.passes.is_empty())
        .map(|(of, chart)| passes(recipe, card, of, chart))
        .collect();
    (!charts.is_empty()).then(|| view! { <h2>"Scores"</h2> {charts} })
}

fn envelopes(recipe: &Recipe, card: &Card) -> impl IntoView + use<> {
    let chosen = recipe.posting.envelope.as_deref();
    let mut fits: Vec<_> = card.envelopes.iter().collect();
    fits.sort_by_key(|fit| Some(fit.envelope.id) != chosen);
    let rows = fits.into_iter().take(MOST_ENVELOPES).map(|fit| {
        view! {
            <li>
                <b>{fit.envelope.name}</b> ", "
                {fit.envelope.size_words(recipe.notation.decimal)} ": "
                {words::spare_words(recipe, fit)}
            </li>
        }
    });
    let rows: Vec<_> = rows.collect();
    let none = rows
        .is_empty()
        .then(|| view! { <p>"No standard envelope takes it."</p> });
    view! {
        <h2>"Envelope"</h2>
        {none}
        <ul>{rows}</ul>
    }
}
