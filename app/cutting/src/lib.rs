//! Plans edge-to-edge cuts: which pieces come from which sheets.
//!
//! A [`Job`] says what is wanted, what there is to cut it from, and what the
//! trimmer can do. A [`Planner`] makes plans of it, at once a good one and then
//! better ones for as long as it is let, until it has proven that there is none
//! better or has nothing left to try. First it wants as few pieces missing as can
//! be, then the least cost (the fewest new sheets), then the fewest cuts and
//! settings of the fence, then the largest offcut in one piece. The first two are
//! proven where the search gets so far; [`Planner::bound`] tells how far it got.
//! A [`Plan`] is cut by its [`Sequence`], setting after setting of the fence.
//! [`OneSheet`] asks what one sheet gives at most.
//!
//! All lengths are whole numbers of one unit, whichever the caller has. Sheets
//! and pieces are measured from their left near corner as they lie. Nothing here
//! knows a clock, a browser or a text: work is given in units and a search can be
//! left at any time.
//!
//! ```
//! use std::num::NonZeroU32;
//! use foldwright_cutting::{Job, Lie, Piece, Planner, Size, Source, Stock, Trimmer};
//!
//! // Twelve square cards with a top, in quarters of an inch, from 12 in sheets
//! // and from a scrap on the shelf.
//! let sheet = Stock { size: Size::new(48, 48).unwrap(), supply: None, cost: 1, margin: 0 };
//! let scrap = Stock { size: Size::new(48, 20).unwrap(), supply: Some(1), cost: 0, margin: 0 };
//! let upright = |stock| Source { stock, lie: Lie::Upright, area: None };
//! let card = Piece {
//!     size: Size::new(16, 16).unwrap(),
//!     count: NonZeroU32::new(12).unwrap(),
//!     sources: vec![upright(0), upright(1)],
//! };
//! let trimmer = Trimmer { stack: NonZeroU32::new(3).unwrap(), ..Trimmer::PLAIN };
//! let planner = Planner::new(&Job::new(vec![sheet, scrap], vec![card], trimmer).unwrap());
//! assert_eq!(planner.plan().cost(), 1);
//! assert_eq!(planner.plan().sheets(), 2);
//! // Every cut is made with the fence at 4 in.
//! let settings = planner.plan().sequence().settings();
//! assert!(settings.iter().all(|setting| setting.fence.get() == 16));
//! ```
//!
//! # How it works
//!
//! | | |
//! | --- | --- |
//! | `ground` | a stock without kerf and margin, and how pieces may lie on it |
//! | `greedy` | quick plans, piece after piece, in many orders |
//! | `simplex` | the linear program over the fillings found so far |
//! | `relaxed`, `builds` | the best filling at given prices, and a bound of it |
//! | `bound` | what prices prove |
//! | `search` | these together: the fewest sheets, then the least handling |
//! | `recut` | a sheet cut apart in another order |
//! | `class` | the job of a class, from what a card is cut from, and its plan as steps say it |
//! | `planner`, `plan`, `sequence` | jobs in parts, what comes out, and in which order it is cut |

mod bound;
mod builds;
pub mod class;
mod dice;
mod greedy;
mod ground;
mod job;
mod layout;
mod length;
mod one_sheet;
mod plan;
mod planner;
mod plot;
mod pool;
mod raster;
mod recut;
mod relaxed;
mod search;
mod sequence;
mod simplex;
mod tally;

pub use job::{Job, Lie, Nonsense, Piece, Source, Stock, Trimmer};
pub use layout::{Along, Batch, Becomes, Cut, Layout, Part};
pub use length::{Length, Rect, Size};
pub use one_sheet::OneSheet;
pub use plan::{Bound, Plan};
pub use planner::{Planner, Progress};
pub use sequence::{Edge, Parts, Sequence, Setting, Stroke, Turn};
