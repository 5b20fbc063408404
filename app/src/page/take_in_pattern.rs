//! Taking in a crease pattern from a file in the format FOLD.

use foldwright_engine::drawn::Undrawn;
use foldwright_engine::length::{Length, Notation, read as read_length};
use foldwright_engine::recipe::Parts;
use foldwright_export::read::{Change, LARGEST, Made, Refusal, read};
use futures::channel::oneshot;
use leptos::mount::mount_to;
use leptos::prelude::*;
use web_sys::wasm_bindgen::JsCast as _;
use web_sys::{File, HtmlElement};

use super::take_in::TakenIn;
use crate::notice::Notice;
use crate::part::taking::canvas::bytes;
use crate::part::{Sheet, Typed};
use crate::spoken::{language, misread, naming, texts};
use crate::store::Store;
use crate::turns::give_way;

/// How long the longer side of a sheet is taken to be until the maker has told it. Our own
/// choice, about that of a card.
const AS_IF: Length = Length::mm(200);

/// The way to it.
pub(crate) type TakePattern = fn(Store, File) -> TakenIn;

/// Makes a recipe of the crease pattern in a file, and says what came of it. Where the
/// file does not tell how large the sheet is, the maker is asked.
pub(crate) fn take_pattern(store: Store, file: File) -> TakenIn {
    Box::pin(async move {
        let notation = store.settings().notation;
        match made(&file, notation).await {
            Ok(Some(made)) => kept(store, &made),
            Ok(None) => Notice::plain(texts().import.cancelled),
            Err(why) => Notice::warning("import", format!("{}: {why}", file.name())),
        }
    })
}

/// The recipe of a file, unless the maker does not go on; or why there is none.
async fn made(file: &File, notation: Notation) -> Result<Option<Made>, String> {
    let refused = |why| refused(why, notation);
    #[expect(clippy::cast_precision_loss, reason = "a few million")]
    if file.size() > LARGEST as f64 {
        return Err(refused(Refusal::TooLarge));
    }
    let text = bytes(file).await.ok_or(texts().import.unread)?;
    let text = String::from_utf8(text).map_err(|_| refused(Refusal::NoFold))?;
    let sheet = read(&text).map_err(refused)?;
    let file = file.name();
    let name = match &*sheet.title {
        "" => file.rsplit_once('.').map_or(&*file, |(name, _)| name),
        title => title,
    };
    let of_size = |longest| {
        let made = sheet.recipe(longest, name, notation, naming());
        made.map_err(refused)
    };
    // What is refused at any size is refused before the size is asked for.
    let made = of_size(AS_IF)?;
    if sheet.tells_size() {
        return Ok(Some(made));
    }
    match asked(notation).await {
        Some(longest) => of_size(longest).map(Some),
        None => Ok(None),
    }
}

/// Keeps a recipe, and says what became of its pattern.
fn kept(store: Store, made: &Made) -> Notice {
    let Made {
        recipe,
        changes,
        moved,
    } = made;
    let Some(id) = store.put(recipe) else {
        return Notice::warning("import", texts().import.nothing_added);
    };
    let words = language().patterns();
    let base = &recipe.base;
    let [length, height] = [base.length, base.height].map(|side| recipe.value(side));
    let size = recipe.notation.size(length, height);
    let mut told = vec![words.added(&recipe.name, &size)];
    told.extend(changes.iter().map(|(what, count)| changed(*what, *count)));
    if *moved > Length::ZERO {
        told.push(words.moved(&recipe.notation.exactly(*moved)));
    }
    let notice = if told.len() > 1 {
        // Of several files each is told.
        Notice::warning("", told.join(" "))
    } else {
        Notice::plain(told.join(" "))
    };
    notice.with_link(words.open, format!("/recipe/{id}"))
}

/// What is otherwise in the recipe, in words.
fn changed(what: Change, count: usize) -> String {
    let words = language().patterns();
    match what {
        Change::Unassigned => words.unassigned(count),
        Change::Flat => words.flat(count),
        Change::Partly => words.partly(count),
        Change::Unknown => words.unknown(count),
        Change::Twice => words.twice(count),
        Change::Point => words.points(count),
        Change::Beside => words.beside(count),
        Change::Frames => words.frames(count),
        Change::Order => words.order.to_owned(),
    }
}

/// Why no recipe is made, in words.
fn refused(why: Refusal, notation: Notation) -> String {
    let words = language().patterns();
    let too_many = |parts: Parts, number| match parts {
        Parts::Panels => words.panels(number, parts.most()),
        Parts::Cutouts => words.cutouts(number, parts.most()),
        Parts::Lines => words.lines(number, parts.most()),
        _ => words.too_much.to_owned(),
    };
    let words = match why {
        Refusal::TooLarge => return words.too_large(LARGEST / 1_000_000),
        Refusal::Damaged { field, at } => {
            return match at {
                Some(at) => words.damaged(field.name(), at + 1),
                None => words.damaged_list(field.name()),
            };
        }
        Refusal::Border { at } => {
            let [left, bottom] = [at.x, at.y].map(|it| notation.with_unit(it));
            return words.border(&left, &bottom);
        }
        Refusal::Undrawn(Undrawn::TooMany { parts, number }) => return too_many(parts, number),
        Refusal::Undrawn(Undrawn::Outline) => words.crossed,
        Refusal::Undrawn(Undrawn::TooFine) => words.too_fine,
        Refusal::NoFold => words.no_fold,
        Refusal::Version => words.version,
        Refusal::TooMuch => words.too_much,
        Refusal::NoPattern => words.no_pattern,
        Refusal::Folded => words.folded,
        Refusal::InSpace => words.in_space,
        Refusal::TooLong => words.too_long,
        Refusal::NoBorder => words.no_border,
        Refusal::Sheets => words.sheets,
    };
    words.to_owned()
}

/// Asks how long the longer side of the sheet is; `None` where the maker does not go on.
async fn asked(notation: Notation) -> Option<Length> {
    let place = document().create_element("div").ok()?;
    let place = place.dyn_into::<HtmlElement>().ok()?;
    document().body()?.append_child(&place).ok()?;
    let (say, said) = oneshot::channel();
    let asking = mount_to(place.clone(), move || view! { <Asking notation say/> });
    let longest = said.await.ok().flatten();
    // The dialog tells that it is closed before it goes.
    give_way().await;
    drop(asking);
    place.remove();
    longest
}

/// The dialog that asks for it.
#[component]
fn Asking(
    /// How the maker writes lengths.
    notation: Notation,
    /// Where the answer goes.
    say: oneshot::Sender<Option<Length>>,
) -> impl IntoView {
    let words = language().patterns();
    let open = RwSignal::new(true);
    let longest = RwSignal::new(None::<Length>);
    let is_sure = RwSignal::new(false);
    let say = StoredValue::new(Some(say));
    Effect::new(move || {
        if open.get() {
            return;
        }
        if let Some(say) = say.try_update_value(Option::take).flatten() {
            let sure = is_sure.get_untracked();
            // Nobody waits for it any more where that fails.
            let _ = say.send(longest.get_untracked().filter(|_| sure));
        }
    });
    let take = move |typed: &str| match read_length(typed, notation.unit()) {
        Ok(length) if length > Length::ZERO && length <= Length::LIMIT => {
            longest.set(Some(length));
            Ok(())
        }
        Ok(_) => Err(words.no_size.to_owned()),
        Err(error) => Err(misread(&error)),
    };
    let kept = Signal::derive(move || {
        let longest = longest.get();
        longest.map_or_else(String::new, |longest| notation.exact(longest))
    });
    let add = move |_| {
        is_sure.set(true);
        open.set(false);
    };
    view! {
        <Sheet open title=words.how_large>
            <p>{words.untold}</p>
            <div class="fields">
                <Typed label=words.longer_side kept take/>
            </div>
            <div class="actions">
                <button
                    type="button"
                    class="button primary"
                    disabled=move || longest.with(Option::is_none)
                    on:click=add
                >
                    {words.add}
                </button>
            </div>
        </Sheet>
    }
}
