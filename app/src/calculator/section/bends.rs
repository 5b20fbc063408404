//! Corners of an outline told in hundredths, with how the way goes on to the
//! next.

use foldwright_engine::recipe::Bend;
use leptos::prelude::*;

use super::super::field::ShareField;
use crate::spoken::texts;

/// The corners one by one.
#[component]
pub(super) fn BendList(
    /// The corners as they are.
    bends: Signal<Vec<Bend>>,
    /// What to do with others.
    set: impl Fn(Vec<Bend>) + Copy + Send + Sync + 'static,
    /// What the two places and the bend are called here.
    labels: [&'static str; 3],
    /// Whether the last leads back to the first.
    closed: bool,
) -> impl IntoView {
    let change = move |number: usize, change: &dyn Fn(&mut Bend)| {
        let mut changed = bends.get_untracked();
        if let Some(bend) = changed.get_mut(number) {
            change(bend);
            set(changed);
        }
    };
    let remove = move |number: usize| {
        let mut left = bends.get_untracked();
        if number < left.len() {
            left.remove(number);
            set(left);
        }
    };
    // Half-way along the last stretch, from where it can be moved.
    let add = move |_| {
        let mut more = bends.get_untracked();
        let end = if closed {
            more.first().copied()
        } else {
            more.pop()
        };
        let (from, to) = more.last().copied().zip(end).unwrap_or_default();
        more.push(Bend {
            x: from.x.midpoint(to.x),
            y: from.y.midpoint(to.y),
            bow: 0,
        });
        more.extend(end.filter(|_| !closed));
        set(more);
    };
    let least = if closed { 3 } else { 2 };
    let row = move |number: usize| {
        let of = move |part: fn(&Bend) -> i16| {
            Signal::derive(move || bends.with(|bends| bends.get(number).map_or(0, part)))
        };
        let place = |share: i16| u16::try_from(share).unwrap_or(0);
        let few = move || bends.with(|bends| bends.len() <= least);
        view! {
            <li>
                <div class="fields three" role="group" aria-label=texts().shape.corner(number + 1)>
                    <ShareField
                        label=labels[0]
                        share=of(|bend| i16::try_from(bend.x).unwrap_or(i16::MAX))
                        range=(0, 1000)
                        set=move |share| change(number, &|bend| bend.x = place(share))
                    />
                    <ShareField
                        label=labels[1]
                        share=of(|bend| i16::try_from(bend.y).unwrap_or(i16::MAX))
                        range=(0, 1000)
                        set=move |share| change(number, &|bend| bend.y = place(share))
                    />
                    <ShareField
                        label=labels[2]
                        share=of(|bend| bend.bow)
                        range=(-Bend::MOST_BOW, Bend::MOST_BOW)
                        set=move |share| change(number, &|bend| bend.bow = share)
                    />
                    <button
                        type="button"
                        class="button quiet"
                        aria-label=texts().shape.remove_corner(number + 1)
                        disabled=few
                        on:click=move |_| remove(number)
                    >
                        {texts().desk.remove}
                    </button>
                </div>
            </li>
        }
    };
    view! {
        <ol class="bend-list">
            <For
                each=move || 0..bends.with(Vec::len)
                key=|number| *number
                children=row
            />
        </ol>
        <button type="button" class="button" on:click=add>{texts().shape.add_corner}</button>
    }
}
