//! The pages.

mod bench;
mod devices;
mod download_all;
mod earlier;
mod forgets;
mod from_file;
mod from_list;
mod glossary;
mod importing;
mod missing;
mod new;
mod one_recipe;
mod paper;
mod recipes;
mod samples;
mod scrap;
mod set_aside;
mod settings;
mod share;
mod shared;
mod start;
mod take_in;
mod take_in_pattern;

pub(crate) use bench::AtBench;
pub(crate) use devices::Devices;
pub(crate) use earlier::Earlier;
pub(crate) use from_list::FromList;
pub(crate) use glossary::Glossary;
pub(crate) use importing::{ImportProgress, Importing};
pub(crate) use missing::Missing;
pub(crate) use new::New;
pub(crate) use one_recipe::OneRecipe;
pub(crate) use paper::PaperAtHand;
pub(crate) use recipes::Recipes;
pub(crate) use samples::Samples;
pub(crate) use scrap::Scrap;
pub(crate) use settings::SettingsPage;
pub(crate) use shared::OfLink;
pub(crate) use start::Start;
pub(crate) use take_in::{TakeIn, TakesIn, take_in};
pub(crate) use take_in_pattern::{TakePattern, take_pattern};

use leptos::prelude::*;
use leptos_router::hooks::use_params_map;

/// Names the page in the browser's tab and history.
pub fn page_title(title: impl Fn() -> String + 'static) {
    Effect::new(move || document().set_title(&format!("{} · Foldwright", title())));
}

/// The recipe an address names. Changes when the address does.
fn recipe_in_address() -> Memo<String> {
    let address = use_params_map();
    Memo::new(move |_| address.with(|address| address.get("id").unwrap_or_default()))
}
