//! A score chart as a table for each pass.

use foldwright_engine::card::Card;
use foldwright_engine::recipe::{PieceId, Recipe};
use foldwright_engine::score::Chart;
use foldwright_engine::words;
use leptos::prelude::*;

/// How a piece is scored, pass by pass: how it lies, and each score from the
/// stop.
pub(crate) fn passes(
    recipe: &Recipe,
    card: &Card,
    of: Option<PieceId>,
    chart: &Chart,
) -> impl IntoView + use<> {
    let before = std::iter::once(None).chain(chart.passes.iter().map(Some));
    let passes = chart.passes.iter().zip(before).map(|(pass, before)| {
        let between = before.map(|before| words::between_passes(before, pass));
        let marks = pass.marks.iter().map(|mark| {
            view! {
                <tr>
                    <th scope="row">{recipe.notation.with_unit(mark.exact)}</th>
                    <td>{words::fold_words(mark)}</td>
                </tr>
            }
        });
        view! {
            <li class="pass">
                {between.map(|between| view! { <p><b>{between}</b></p> })}
                <p>{words::how_to_lay(recipe, card, of, pass)}</p>
                <table>
                    <thead>
                        <tr>
                            <th scope="col">"From the stop"</th>
                            <th scope="col">"Fold, as it lies"</th>
                        </tr>
                    </thead>
                    <tbody>{marks.collect_view()}</tbody>
                </table>
            </li>
        }
    });
    view! { <ol class="passes">{passes.collect_view()}</ol> }
}
