//! The card that comes of what is asked for, or what stands in its way.

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::recipe::{MeasureId, Recipe};
use foldwright_engine::refit::{
    Clash, Free, Keep, Loss, Refit, Turned, Wish, design_words, follows_words, given_up_words,
    keeping_count, keeping_lay, losses, moved_words, off_marks_words, refit, turning,
};
use leptos::html;
use leptos::prelude::*;

use super::super::asking::Asking;
use super::super::desk::{Desk, Section, after_frames};
use crate::part::{BeforeAfter, Changed, Changes, Clashes};

/// What came of it.
#[derive(Clone, PartialEq)]
struct Found {
    asking: Asking,
    /// The recipe with what was let go of.
    loosened: Recipe,
    wish: Wish,
    result: Result<Nearest, Clash>,
    /// What turning the base on its sheet would give.
    turned: Option<Turned>,
}

#[derive(Clone, PartialEq)]
struct Nearest {
    refit: Refit,
    card: Card,
    losses: Vec<Loss>,
    /// Whether keeping the count of cards from a sheet is possible.
    can_keep: bool,
    /// Whether keeping grain, print and side is.
    can_lie: bool,
}

/// The nearest card, worked out right after the frame in which it was asked
/// for.
#[component]
pub(super) fn Refitted() -> impl IntoView {
    let desk = Desk::here();
    let found = RwSignal::new(None::<Found>);
    let place = NodeRef::<html::Div>::new();
    let find = move || {
        let asking = desk.asking.get_untracked();
        let now = desk.recipe.with_untracked(|recipe| {
            (!asking.is_empty()).then(|| {
                let before = desk.card.get_untracked();
                solve(recipe, &before, asking)
            })
        });
        found.set(now);
    };
    find();
    after_frames(
        move || {
            desk.asking.track();
            desk.recipe.track();
        },
        move || {
            // The page may be gone by now.
            if found.try_get_untracked().is_some() {
                find();
            }
        },
    );
    // What a tap asked for comes into sight.
    Effect::new(move |before: Option<Asking>| {
        let asked = found.with(|found| found.as_ref().map(|found| found.asking.clone()));
        let asked = asked.unwrap_or_default();
        if let Some(place) = place.get_untracked()
            && before.is_some_and(|before| before != asked)
            && !asked.is_empty()
        {
            place.scroll_into_view();
        }
        asked
    });
    view! {
        <div class="refitted" node_ref=place aria-live="polite">
            {move || match found.get() {
                None => ().into_any(),
                Some(found) => match &found.result {
                    Ok(nearest) => {
                        let nearest = nearest.clone();
                        view! { <Freed freed=found.asking.freed.clone() found=found.clone()/> <Offer found nearest/> }.into_any()
                    }
                    Err(clash) => {
                        let clash = clash.clone();
                        view! { <Freed freed=found.asking.freed.clone() found=found.clone()/> <Stuck found clash/> }.into_any()
                    }
                },
            }}
        </div>
    }
}

fn solve(recipe: &Recipe, before: &Card, asking: Asking) -> Found {
    let (loosened, wish) = asking.of(recipe);
    let found = refit(&loosened, &wish);
    let turned = turning(&loosened, &wish, &found);
    let result = found.map(|refit| {
        let card = work_out(&refit.recipe, &Tools::default());
        let losses = losses(before, &card);
        let fewer = losses.iter().any(|loss| matches!(loss, Loss::Yield { .. }));
        let turned = losses
            .iter()
            .any(|loss| !matches!(loss, Loss::Yield { .. }));
        Nearest {
            can_lie: turned && keeping_lay(before, &loosened, &wish).is_some(),
            can_keep: fewer && keeping_count(&loosened, &wish).is_some(),
            losses,
            card,
            refit,
        }
    });
    Found {
        asking,
        loosened,
        wish,
        result,
        turned,
    }
}

/// The nearest card beside the one there is.
#[component]
fn Offer(found: Found, nearest: Nearest) -> impl IntoView {
    let desk = Desk::here();
    let Found {
        asking,
        loosened,
        wish,
        turned,
        ..
    } = found;
    let Nearest {
        refit,
        card,
        losses,
        can_keep,
        can_lie,
    } = nearest;
    let before = desk.recipe.get_untracked();
    let name = |id: MeasureId| {
        let measure = before.measure(id);
        measure.map_or_else(String::new, |measure| measure.name.clone())
    };
    let written = |recipe: &Recipe, length| recipe.notation.with_unit(length);
    let changed: Vec<_> = refit
        .changes
        .iter()
        .map(|moved| Changed {
            name: name(moved.change.measure),
            from: written(&before, moved.change.from),
            to: written(&refit.recipe, moved.change.to),
            why: moved_words(&loosened, &wish, &refit, moved),
        })
        .collect();
    let was = desk.card.get_untracked();
    let mut notes: Vec<String> = design_words(&before).into_iter().collect();
    notes.extend(given_up_words(&loosened, &wish, &refit));
    notes.extend(off_marks_words(&refit));
    notes.extend(follows_words(&before, &was, &refit, &card));
    notes.extend(losses.iter().map(|loss| loss.words(&refit.recipe)));
    if !refit.nearest {
        notes.push("There may be a nearer card; the search was cut short.".to_owned());
    }
    let nothing = changed.is_empty();
    let now = (before.clone(), was);
    let then = (refit.recipe.clone(), card);
    let kept = asking.kept(&before, &refit.recipe);
    let take = move |_| {
        let kept = kept.clone();
        desk.change(|recipe| *recipe = kept);
        desk.asking.set(Asking::default());
    };
    let keep = move |_| desk.asking.update(|asking| asking.keep = Some(Keep::Count));
    let lie = move |_| {
        let lay = desk
            .card
            .with_untracked(|card| card.print.as_ref().map(|print| print.lay));
        desk.asking.update(|asking| asking.lay = lay);
    };
    view! {
        <h3>"What changes"</h3>
        <BeforeAfter before=now after=then name="refit"/>
        <Show when=move || nothing>
            <p>"No length has to change."</p>
        </Show>
        <Changes changes=changed/>
        {notes
            .into_iter()
            .map(|note| view! { <p class="callout">{note}</p> })
            .collect_view()}
        {can_keep
            .then(|| {
                view! {
                    <button type="button" class="button" on:click=keep>
                        "Keep as many from a sheet"
                    </button>
                }
            })}
        {can_lie
            .then(|| {
                view! {
                    <button type="button" class="button" on:click=lie>
                        "Keep the paper as it lies"
                    </button>
                }
            })}
        <Turning turned/>
        <div class="actions">
            <button type="button" class="button primary" on:click=take>"Take this card"</button>
            <button type="button" class="button" on:click=move |_| desk.asking.set(Asking::default())>
                "Leave it as it is"
            </button>
        </div>
    }
}

/// What turning the base on its sheet would give, and the button for it.
#[component]
fn Turning(turned: Option<Turned>) -> impl IntoView {
    let desk = Desk::here();
    turned.map(|turned| {
        let lay = turned.lay;
        let turn = move |_| desk.asking.update(|asking| asking.lay = Some(lay));
        view! {
            <p class="callout">{turned.words()}</p>
            <button type="button" class="button" on:click=turn>"Turn it on the sheet"</button>
        }
    })
}

/// What clashes, and the buttons that let go of it.
#[component]
fn Stuck(found: Found, clash: Clash) -> impl IntoView {
    let desk = Desk::here();
    let Found {
        loosened,
        wish,
        turned,
        ..
    } = found;
    let base = loosened.base.stock;
    let free = move |frees: Vec<Free>| {
        let of_others = |free: &Free| matches!(free, Free::Stock(id, _) if *id != base);
        if frees.iter().any(of_others) {
            // The paper of a layer or a piece is changed among the papers.
            desk.show(Section::Paper);
        } else {
            desk.asking
                .update(|asking| frees.into_iter().for_each(|free| asking.let_go(free)));
        }
    };
    view! {
        <Clashes clash recipe=loosened wish papers=true free/>
        <Turning turned/>
        <button type="button" class="button" on:click=move |_| desk.asking.set(Asking::default())>
            "Leave it as it is"
        </button>
    }
}

/// What was let go of, each to be held again.
#[component]
fn Freed(freed: Vec<Free>, found: Found) -> impl IntoView {
    let desk = Desk::here();
    let rows = freed.into_iter().map(|free| {
        let words = free.words(&desk.recipe.get_untracked(), &found.wish);
        let hold = move |_| desk.asking.update(|asking| asking.freed.retain(|it| *it != free));
        view! {
            <li class="clash">
                <p class="quiet">{format!("Done: {words}.")}</p>
                <button type="button" class="button quiet" aria-label=format!("Hold again: {words}") on:click=hold>
                    "Hold it again"
                </button>
            </li>
        }
    });
    let rows = rows.collect_view();
    view! { <ul class="clashes">{rows}</ul> }
}
