//! The sides that show the white back of their paper, and a mat for each.

use foldwright_engine::problem::Place;
use foldwright_engine::recipe::{Face, LayerKind, Seat};
use foldwright_engine::sight::white_backs;
use foldwright_words::sentence;
use leptos::prelude::*;

use super::super::desk::Desk;
use crate::part::heard;
use crate::spoken::{aloud, language, naming, speaker, texts};

/// A side with the white back of its paper, in words.
#[derive(Clone, PartialEq, Eq, Hash)]
struct White {
    face: Face,
    /// Where it is seen.
    seen: String,
    /// What it is called, and what its paper is.
    about: String,
    /// What a button does about it.
    add: String,
}

/// The sides that show the white back of their paper, each with a button that puts a
/// mat there; nothing where there are none.
#[component]
pub(super) fn WhiteBacks() -> impl IntoView {
    let desk = Desk::here();
    let found = Memo::new(move |_| {
        desk.recipe.with(|recipe| {
            desk.card.with(|card| {
                let (say, texts) = (speaker(recipe), language().sights());
                let sights = desk.sights.read();
                let white = white_backs(recipe, card, &sights).into_iter();
                let told = white.filter_map(|(face, stock)| {
                    let seen = sights.iter().find(|seen| seen.face == face)?;
                    let (side, paper) = (say.face(face), &recipe.stock(stock)?.name);
                    Some(White {
                        face,
                        seen: texts.seen(&say, &seen.sight),
                        about: sentence(texts.white_back_of(&side, paper)),
                        add: aloud(&texts.add_mat_on(&side)),
                    })
                });
                told.collect::<Vec<_>>()
            })
        })
    });
    let add = move |face: Face| {
        let mut fresh = None;
        desk.edit(None, |recipe| {
            let added = recipe.add_layer(Seat::Face(face), LayerKind::Mat, naming())?;
            fresh = Some(added.id);
            Ok(added.changes)
        });
        if let Some(fresh) = fresh {
            desk.go(Place::Layer(fresh));
        }
    };
    let one = move |white: White| {
        let face = white.face;
        view! {
            <li class="panel white-back">
                <span>
                    <b>{heard(white.seen)}</b> " " <span class="quiet">{heard(white.about)}</span>
                </span>
                <button type="button" class="button" aria-label=white.add on:click=move |_| add(face)>
                    {texts().shape.add_mat}
                </button>
            </li>
        }
    };
    view! {
        <Show when=move || found.with(|found| !found.is_empty())>
            <h2>{language().sights().white_backs}</h2>
            <p class="quiet">{language().sights().about_white_backs}</p>
            <ul class="layers">
                <For each=move || found.get() key=Clone::clone children=one/>
            </ul>
        </Show>
    }
}
