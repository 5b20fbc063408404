//! What the tabs show.

mod bends;
mod cutouts;
mod envelope;
mod fallen;
mod fold_in;
mod holds;
mod layer;
mod layers;
mod lines;
mod outline;
mod panels;
mod paper;
mod piece;
mod pieces;
mod print;
mod problems;
mod refit;
mod refitted;
mod scores;
mod size;
mod stock;
mod strip;

pub(super) use envelope::Envelope;
pub(super) use layers::Layers;
pub(super) use panels::Panels;
pub(super) use paper::Paper;
pub(super) use pieces::Pieces;
pub(super) use print::Print;
pub(super) use problems::Problems;
pub(super) use refit::Refit;
pub(super) use scores::Scores;
