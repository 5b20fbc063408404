//! What cards for a class need and cost, and how they are posted.

use foldwright_engine::card::Card;
use foldwright_engine::recipe::{ForClass, Recipe};
use foldwright_engine::steps::Value;
use foldwright_print::Paper as Print;
use foldwright_words::{ClassTongue, OfClass};
use leptos::prelude::*;

use super::super::desk::Desk;
use super::class_words::InClassWords;
use super::costs::Costs;
use super::files::Files;
use super::needed::{Needed, Papers};
use super::planned::Planned;
use super::post::Post;
use super::supplies::Supplies;
use crate::download::{Batch, Wanted, own_first, usual_paper};
use crate::part::{Choice, HowMany, heard, told};
use crate::spoken::{speaker, texts};
use crate::store::Store;

/// What is made besides, in hundredths of the cards. Our own choice.
const SPARES: [u32; 3] = [0, 5, 10];

/// All of it, once its words are here.
#[component]
pub(crate) fn Class() -> impl IntoView {
    view! { <InClassWords inside=|say| view! { <Told say/> }.into_any()/> }
}

#[component]
fn Told(say: &'static dyn ClassTongue) -> impl IntoView {
    let desk = Desk::here();
    let class = Memo::new(move |_| desk.recipe.with(Recipe::for_class));
    // Another number is planned anew.
    let plan_for = move |cards, spare| {
        let present = class.get_untracked();
        if (present.cards, present.spare) != (cards, spare) {
            let rounds = None;
            let class = ForClass {
                cards,
                spare,
                rounds,
            };
            desk.change(|recipe| recipe.class = Some(class));
        }
    };
    let all = Memo::new(move |_| class.get().all());
    let needed = Needed::of(desk, all);
    let unit = expect_context::<Store>().settings().unit();
    let to_print = own_first(usual_paper(unit)).map(|paper| {
        let label = match paper {
            Print::A4 => say.texts().kits_on_a4,
            Print::Letter => say.texts().kits_on_letter,
        };
        let asked = move |()| {
            let batch = Batch {
                makers: class.get_untracked().cards,
                spare: class.get_untracked().spare_cards(),
                plan: needed.plan_now(),
            };
            Wanted::Kits(paper, batch)
        };
        (label, Callback::new(asked))
    });
    let to_print: Vec<_> = to_print.collect();
    let spares = move || {
        let words = |spare| match spare {
            0 => say.texts().no_spare.to_owned(),
            spare => format!("{spare}\u{a0}%"),
        };
        SPARES.map(|spare| (spare, words(spare))).to_vec()
    };
    view! {
        <HowMany
            cards=Signal::derive(move || class.get().cards)
            set=move |number| plan_for(number, class.get_untracked().spare)
        />
        <Choice
            label=say.texts().spare.to_owned()
            titled=true
            options=spares
            chosen=Signal::derive(move || class.get().spare)
            choose=move |share| plan_for(class.get_untracked().cards, share)
        />
        <h2>{texts().desk.paper}</h2>
        <Papers say needed/>
        <Planned say needed/>
        <h2>{say.texts().in_each_kit}</h2>
        <ul class="rows">{move || desk.recipe.with(|recipe| desk.card.with(|card| kit(recipe, card)))}</ul>
        {move || desk.recipe.with(|recipe| desk.card.with(|card| adhesive(say, recipe, card, all.get())))}
        <h2>{say.texts().besides_paper}</h2>
        <Supplies say cards=all/>
        <Costs say needed/>
        <h2>{say.texts().kits_to_print}</h2>
        <p class="quiet">{say.texts().about_kits}</p>
        <Files choices=to_print/>
        // An envelope is posted with its card.
        <Show when=move || !desk.is_envelope()>
            <h2>{say.texts().weight_and_post}</h2>
            <Post say cards=all/>
        </Show>
    }
}

/// The pieces that one maker gets.
fn kit(recipe: &Recipe, card: &Card) -> impl IntoView + use<> {
    let say = speaker(recipe).with_exact();
    let blanks = card.cut_list.blanks.iter();
    let rows = blanks.map(|blank| {
        let name = say.part(blank.part);
        let size = told(say.value(&Value::Size(blank.size)));
        view! { <li class="paper"><span class="paper-name">{name}</span><span>{size}</span></li> }
    });
    rows.collect_view()
}

/// How much adhesive the cards take, by its area and along its edges, where anything is
/// glued on them.
fn adhesive(
    say: &'static dyn ClassTongue,
    recipe: &Recipe,
    card: &Card,
    cards: u32,
) -> impl IntoView + use<> {
    let each = card.adhesive();
    (each > 0).then(|| {
        let run = card.glue_run();
        let words = say.told(recipe, OfClass::Adhesive { each, cards });
        let along = say.told(recipe, OfClass::GlueRun { each: run, cards });
        view! { <p>{heard(words)} " " {heard(along)}</p> }
    })
}
