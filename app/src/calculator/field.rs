//! Fields to type into: names, and lengths that are not measures.

use foldwright_engine::length::{Length, read};
use leptos::prelude::*;

use super::desk::Desk;
use crate::part::{LessOrMore, Typed};
use crate::spoken::{misread, texts};

/// A name.
#[component]
pub(super) fn NameField(
    /// What is named.
    label: &'static str,
    /// The name.
    #[prop(into)]
    name: Signal<String>,
    /// What to do with another one.
    rename: impl Fn(String) + Copy + Send + Sync + 'static,
) -> impl IntoView {
    let take = move |typed: &str| {
        let typed = typed.trim();
        if !typed.is_empty() {
            rename(typed.to_owned());
        }
        Ok(())
    };
    view! { <Typed label kept=name take/> }
}

/// A length that nothing else follows.
#[component]
pub(super) fn LengthField(
    /// What it is the length of.
    label: &'static str,
    /// The length.
    #[prop(into)]
    length: Signal<Length>,
    /// What to do with another one.
    set: impl Fn(Length) + Copy + Send + Sync + 'static,
    /// Whether nothing and less than nothing is refused.
    #[prop(optional)]
    positive: bool,
) -> impl IntoView {
    let desk = Desk::here();
    let take = move |typed: &str| {
        let unit = untrack(|| desk.notation().unit());
        match read(typed, unit) {
            Ok(length) if positive && length <= Length::ZERO => {
                Err(texts().desk.above_zero.to_owned())
            }
            Ok(length) => {
                set(length);
                Ok(())
            }
            Err(error) => Err(misread(&error)),
        }
    };
    let kept = Signal::derive(move || desk.notation().exact(length.get()));
    view! { <Typed label kept take/> }
}

/// A share in hundredths, told to the tenth; kept in thousandths.
#[component]
pub(super) fn ShareField(
    /// What it is a share of, or what it does.
    label: &'static str,
    /// The share.
    #[prop(into)]
    share: Signal<i16>,
    /// The least and the most it may be.
    range: (i16, i16),
    /// What to do with another one.
    set: impl Fn(i16) + Copy + Send + Sync + 'static,
) -> impl IntoView {
    let desk = Desk::here();
    let written = move |share: i16| {
        let sign = if share < 0 { "−" } else { "" };
        let (whole, tenths) = (share.unsigned_abs() / 10, share.unsigned_abs() % 10);
        if tenths == 0 {
            format!("{sign}{whole}")
        } else {
            format!("{sign}{whole}{}{tenths}", desk.notation().decimal.as_str())
        }
    };
    let take = move |typed: &str| {
        let share = read_share(typed).filter(|share| (range.0..=range.1).contains(share));
        let Some(share) = share else {
            let between = |(least, most)| texts().desk.between(&written(least), &written(most));
            return Err(untrack(|| between(range)));
        };
        set(share);
        Ok(())
    };
    view! { <Typed label kept=Signal::derive(move || written(share.get())) take/> }
}

/// A number with at most one decimal, in tenths.
fn read_share(typed: &str) -> Option<i16> {
    let typed = typed.trim().trim_end_matches('%').trim_end();
    let (sign, digits) = match typed.strip_prefix(['-', '−']) {
        Some(rest) => (-1, rest.trim_start()),
        None => (1, typed),
    };
    let (whole, tenth) = digits.split_once(['.', ',']).unwrap_or((digits, "0"));
    let is_digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    if !is_digits(whole) || !is_digits(tenth) || tenth.len() > 1 {
        return None;
    }
    let whole: i16 = whole.parse().ok()?;
    let tenth: i16 = tenth.parse().ok()?;
    Some(sign * whole.checked_mul(10)?.checked_add(tenth)?)
}

/// A whole number with buttons for one less and one more.
#[component]
pub(super) fn CountField(
    /// What is counted.
    label: &'static str,
    /// How many.
    #[prop(into)]
    count: Signal<u8>,
    /// The most there may be; the least is one.
    most: u8,
    /// What to do with another number.
    set: impl Fn(u8) + Copy + Send + Sync + 'static,
) -> impl IntoView {
    let by = move |more: bool| {
        let now = count.get_untracked();
        let next = if more {
            now.saturating_add(1)
        } else {
            now.saturating_sub(1)
        };
        set(next.clamp(1, most));
    };
    view! {
        <div class="field" role="group" aria-label=label>
            <span>{label}</span>
            <div class="counter">
                <LessOrMore
                    less=texts().desk.one_less(label)
                    more=texts().desk.one_more(label)
                    button="button"
                    is_least=Signal::derive(move || count.get() <= 1)
                    is_most=Signal::derive(move || count.get() >= most)
                    by
                >
                    <output>{move || count.get().to_string()}</output>
                </LessOrMore>
            </div>
        </div>
    }
}
