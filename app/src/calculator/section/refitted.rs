//! The card that comes of what is asked for, or what stands in its way.

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::part::Part;
use foldwright_engine::recipe::{MeasureId, Recipe, StripId};
use foldwright_engine::refit::{
    Clash, Free, Keep, Loss, Outcome, Refit, Turned, Wish, follows, from_design, keeping_count,
    keeping_lay, losses, off_marks, refit, turning,
};
use foldwright_words::ClassTongue;
use leptos::html;
use leptos::prelude::*;

use super::super::asking::Asking;
use super::super::desk::{Desk, Section, after_frames};
use super::make_envelope::{MakeEnvelope, made_for};
use crate::part::{BeforeAfter, Changed, Changes, Clashes, told};
use crate::spoken::{aloud, speaker, texts};

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
    let was_said = speaker(&before).with_exact();
    let say = speaker(&refit.recipe).with_exact();
    let changed: Vec<_> = refit
        .changes
        .iter()
        .map(|moved| Changed {
            name: name(moved.change.measure),
            from: was_said.short_length(moved.change.from),
            to: say.short_length(moved.change.to),
            why: moved
                .reason(&loosened, &wish)
                .map_or_else(String::new, |it| say.reason(&it)),
        })
        .collect();
    let was = desk.card.get_untracked();
    let said = |outcome: Outcome| say.outcome(&outcome);
    let mut notes: Vec<String> = from_design(&before).map(said).into_iter().collect();
    let no_longer = refit.no_longer(&loosened, &wish);
    notes.extend(no_longer.map(|it| say.no_longer(&it)));
    let follows = follows(&before, &was, &refit, &card);
    let outcomes = off_marks(&refit).into_iter().chain(follows);
    let lost = losses.into_iter().map(Outcome::Lost);
    let cut_short = (!refit.nearest).then_some(Outcome::CutShort);
    notes.extend(outcomes.chain(lost).chain(cut_short).map(said));
    let none = card.envelopes.is_empty() && !before.posting.is_envelope;
    // That it went into one is said above.
    let never = none && was.envelopes.is_empty() && before.posting.envelope.is_none();
    let nothing = changed.is_empty();
    let now = (before.clone(), was);
    let then = (refit.recipe.clone(), card);
    let kept = asking.kept(&before, &refit.recipe);
    let new = StoredValue::new((kept.clone(), then.1.clone()));
    let made = move |say: &'static dyn ClassTongue| {
        new.with_value(|(recipe, card)| made_for(say, recipe, card))
    };
    let take = move |_| {
        let kept = kept.clone();
        desk.change(|recipe| *recipe = kept);
        desk.asking.set(Asking::default());
    };
    let keep = move |_| desk.asking.update(|asking| asking.keep = Some(Keep::Count));
    let lie = move |_| {
        let lay = desk
            .card
            .with_untracked(|card| card.lies(Part::Strip(StripId::Base)).map(|lies| lies.lay));
        desk.asking.update(|asking| asking.lay = lay);
    };
    view! {
        <h3>{texts().resize.what_changes}</h3>
        <BeforeAfter before=now after=then name="refit"/>
        <Show when=move || nothing>
            <p>{texts().resize.no_length_changes}</p>
        </Show>
        <Changes changes=changed/>
        {notes
            .into_iter()
            .map(|note| view! { <p class="callout">{told(note)}</p> })
            .collect_view()}
        {never.then(|| view! { <p class="callout">{texts().shared.no_envelope}</p> })}
        {none.then(|| view! { <MakeEnvelope made opens=false/> })}
        {can_keep
            .then(|| {
                view! {
                    <button type="button" class="button" on:click=keep>
                        {texts().resize.keep_as_many}
                    </button>
                }
            })}
        {can_lie
            .then(|| {
                view! {
                    <button type="button" class="button" on:click=lie>
                        {texts().resize.keep_as_it_lies}
                    </button>
                }
            })}
        <Turning turned/>
        <div class="actions">
            <button type="button" class="button primary" on:click=take>{texts().resize.take_this_card}</button>
            <button type="button" class="button" on:click=move |_| desk.asking.set(Asking::default())>
                {texts().resize.leave_as_it_is}
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
        let words = speaker(&turned.refit.recipe).with_exact().outcome(&turned.outcome());
        let turn = move |_| desk.asking.update(|asking| asking.lay = Some(lay));
        view! {
            <p class="callout">{told(words)}</p>
            <button type="button" class="button" on:click=turn>{texts().resize.turn_on_sheet}</button>
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
            {texts().resize.leave_as_it_is}
        </button>
    }
}

/// What was let go of, each to be held again.
#[component]
fn Freed(freed: Vec<Free>, found: Found) -> impl IntoView {
    let desk = Desk::here();
    let recipe = desk.recipe.get_untracked();
    let notation = found.wish.notation.unwrap_or(recipe.notation);
    let say = speaker(&recipe).written_in(notation);
    let rows = freed.into_iter().filter_map(|free| {
        let release = free.release(&recipe, &found.wish)?;
        let (words, done) = (say.release(&release), say.with_exact().released(&release));
        let hold = move |_| desk.asking.update(|asking| asking.freed.retain(|it| *it != free));
        Some(view! {
            <li class="clash">
                <p class="quiet">{told(done)}</p>
                <button type="button" class="button quiet" aria-label=aloud(&texts().resize.hold_again(&words)) on:click=hold>
                    {texts().resize.hold_it_again}
                </button>
            </li>
        })
    });
    let rows = rows.collect_view();
    view! { <ul class="clashes">{rows}</ul> }
}
