//! The devices of a workshop, and how one comes into it.

mod add;
mod deleted;
mod join;
mod joined;

use foldwright_api::{Ailing, Refused};
use leptos::prelude::*;

use super::page_title;
use crate::spoken::texts;
use crate::store::Store;

/// Joining a workshop, or the workshop this device is in.
#[component]
pub(crate) fn Devices() -> impl IntoView {
    page_title(|| String::from(texts().devices.devices));
    let store = expect_context::<Store>();
    let paired = Memo::new(move |_| store.member().is_some() && store.cut_off().is_none());
    view! {
        <section class="page settings devices">
            <h1>{texts().devices.devices}</h1>
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

/// Why the server does not do what it is asked.
pub(super) fn refused(why: &Refused) -> String {
    let texts = &texts().devices;
    match why {
        Refused::NoKey => texts.no_key.to_owned(),
        Refused::Missing => texts.missing.to_owned(),
        Refused::Senseless => texts.senseless.to_owned(),
        Refused::Nameless => texts.nameless.to_owned(),
        Refused::TooMany => texts.too_many_codes.to_owned(),
        Refused::Trouble(why) => texts.server_problem(ailing(*why)),
        Refused::Unreached => texts.unreached.to_owned(),
    }
}

/// What is wrong with the server, after that it cannot do something.
fn ailing(why: Ailing) -> &'static str {
    let texts = &texts().devices;
    match why {
        Ailing::Full => texts.disk_is_full,
        Ailing::ReadOnly => texts.database_is_read_only,
        Ailing::Away => texts.database_is_away,
        Ailing::Busy => texts.database_is_busy,
        Ailing::Damaged => texts.database_is_damaged,
        Ailing::Newer => texts.database_is_newer,
        Ailing::NoWorkshops => texts.no_workshops_kept,
        Ailing::NotUnderstood => texts.not_understood,
        Ailing::EarlierPage => texts.earlier_page,
        Ailing::Other => texts.log_says_why,
    }
}

/// How long ago something was, as people say it.
fn ago(seconds: i64) -> String {
    let texts = &texts().devices;
    match seconds {
        ..90 => texts.now.to_owned(),
        90..5_400 => texts.minutes_ago((seconds + 30) / 60),
        5_400..129_600 => texts.hours_ago((seconds + 1_800) / 3_600),
        _ => texts.days_ago((seconds + 43_200) / 86_400),
    }
}

#[cfg(test)]
mod tests {
    use foldwright_api::{Ailing, Refused};
    use serde_json::{from_value, json};

    use super::{ago, refused};

    /// What only a later server says is something else, and not unheard.
    #[test]
    fn what_ails_a_server_is_told() {
        for (said, ailing, words) in [
            ("away", Ailing::Away, "It can’t reach its database."),
            ("full", Ailing::Full, "Its disk is full."),
            ("upside down", Ailing::Other, "Its log says why."),
        ] {
            let heard: Refused = from_value(json!({ "Trouble": said })).expect("it is read");
            assert_eq!(heard, Refused::Trouble(ailing));
            assert_eq!(refused(&heard), format!("Server problem: {words}"));
        }
    }

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
