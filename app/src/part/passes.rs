//! A score chart as a table for each pass.

use foldwright_engine::card::Card;
use foldwright_engine::recipe::{Recipe, StripId};
use foldwright_engine::score::Chart;
use foldwright_engine::steps::{between_passes, how_to_lay, score_label};
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
    let say = speaker(recipe).with_exact();
    let before = std::iter::once(None).chain(chart.passes.iter().map(Some));
    let passes = chart.passes.iter().zip(before).map(|(pass, before)| {
        let between = before.map(|before| say.instruction(&between_passes(of, before, pass)));
        let lay = say.instructions(&how_to_lay(recipe, card, of, pass));
        let marks = pass.marks.iter().map(|mark| {
            view! {
                <tr>
                    <th scope="row">{told(say.short_length(mark.exact))}</th>
                    <td>{told(say.label(&score_label(of, mark)))}</td>
                </tr>
            }
        });
        view! {
            <li class="pass">
                {between.map(|between| view! { <p><b>{told(between)}</b></p> })}
                <p>{told(lay.join(" "))}</p>
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
