//! The devices of a workshop, and how one comes into it.

mod add;
mod deleted;
mod join;
mod joined;

use leptos::prelude::*;

use super::page_title;
use crate::store::Store;

/// Joining a workshop, or the workshop this device is in.
#[component]
pub(crate) fn Devices() -> impl IntoView {
    page_title(|| String::from("Devices"));
    let store = expect_context::<Store>();
    let paired = Memo::new(move |_| store.member().is_some() && store.cut_off().is_none());
    view! {
        <section class="page settings devices">
            <h1>"Devices"</h1>
            {move || {
                if paired.get() {
                    view! { <joined::Workshop/> }.into_any()
                } else {
                    view! { <join::Join/> }.into_any()
                }
            }}
            <deleted::RecentlyDeleted/>
        </section>
    }
}

/// How long ago something was, as people say it.
fn ago(seconds: i64) -> String {
    let (count, unit) = match seconds {
        ..90 => return String::from("now"),
        90..5_400 => ((seconds + 30) / 60, "minute"),
        5_400..129_600 => ((seconds + 1_800) / 3_600, "hour"),
        _ => ((seconds + 43_200) / 86_400, "day"),
    };
    let end = if count == 1 { "" } else { "s" };
    format!("{count} {unit}{end} ago")
}

#[cfg(test)]
mod tests {
    use super::ago;

    #[test]
    fn time_is_told_as_people_say_it() {
        for (seconds, words) in [
            (-5, "now"),
            (89, "now"),
            (120, "2 minutes ago"),
            (3_600, "60 minutes ago"),
            (7_200, "2 hours ago"),
            (90_000, "25 hours ago"),
            (172_800, "2 days ago"),
        ] {
            assert_eq!(ago(seconds), words);
        }
    }
}
