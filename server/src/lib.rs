//! The Foldwright server: carries the app in its own binary and serves it,
//! with the answers to the app's server functions.

mod announce;
mod app;
mod doors;
mod files;
mod folds;
mod frame;
mod headers;
mod negotiate;
mod options;
mod pages;
mod run;
mod schema;
mod shared;
mod site;
mod spoken;
mod workshops;

pub use app::app;
pub use options::Options;
pub use run::run;
pub use site::{Asset, Keep, Site};
