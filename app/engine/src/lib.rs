//! The fold engine of Foldwright.
//!
//! Plain types and pure functions from a recipe to a folded card. Nothing here
//! knows a browser, a network, a clock or a screen.

pub mod allowance;
pub mod card;
pub mod care;
pub mod cut_list;
pub mod cut_plan;
pub mod draw;
pub mod drawn;
pub mod envelope;
pub mod faces;
pub mod fold;
pub mod glue;
pub mod laid;
pub mod lay;
pub mod length;
pub mod motion;
pub mod outlines;
pub mod pace;
pub mod paper;
pub mod part;
pub mod pattern;
pub mod plane;
pub mod posed;
pub mod post;
pub mod problem;
mod program;
pub mod reach;
pub mod reading;
pub mod recipe;
pub mod refit;
pub mod rescue;
pub mod score;
pub mod seen;
pub mod sight;
pub mod sorted;
pub mod stage;
pub mod steps;
pub mod template;
pub mod thickness;
