//! A score chart as a table for each pass.

use foldwright_engine::card::Card;
use foldwright_engine::recipe::{Recipe, StripId};
use foldwright_engine::score::Chart;
use foldwright_words::ToldPass;
use leptos::prelude::*;

use super::told;
use crate::spoken::{speaker, texts};

/// How a piece is scored, pass by pass: how it lies, and each score from the
/// fence.
pub(crate) fn passes(
    recipe: &Recipe,
    card: &Card,
    of: StripId,
    chart: &Chart,
) -> impl IntoView + use<> {
    let passes = speaker(recipe).with_exact().passes(recipe, card, of, chart);
    let passes = passes.into_iter().map(|pass| {
        let ToldPass {
            between,
            lies,
            marks,
        } = pass;
        let marks = marks.into_iter().map(|[from_fence, folds]| {
            view! {
                <tr>
                    <th scope="row">{told(from_fence)}</th>
                    <td>{told(folds)}</td>
                </tr>
            }
        });
        view! {
            <li class="pass">
                {between.map(|between| view! { <p><b>{told(between)}</b></p> })}
                <p>{told(lies)}</p>
                <table>
                    <thead>
                        <tr>
                            <th scope="col">{texts().parts.from_the_fence}</th>
                            <th scope="col">{texts().parts.fold_as_it_lies}</th>
                        </tr>
                    </thead>
                    <tbody>{marks.collect_view()}</tbody>
                </table>
            </li>
        }
    });
    view! { <ol class="passes">{passes.collect_view()}</ol> }
}
