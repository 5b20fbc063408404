//! Measures the project's figures and prints one line of JSON for each.
//!
//! `figures` measures all, `figures NAME…` those named, `figures --list`
//! names them. Words for people go to standard error.

mod arrivals;
mod binary;
mod bundles;
mod client;
#[path = "../../server/sync/tests/common/cluster.rs"]
mod cluster;
mod cutting;
#[path = "../../app/cutting/tests/common/instances.rs"]
mod cutting_instances;
mod engine_sentences;
mod first_load;
mod imports;
mod kept;
mod ladder;
#[path = "../serving/large_card.rs"]
mod large_card;
mod measure;
mod merging;
mod offline;
mod opening;
mod photos;
mod pipeline;
mod printed;
mod redraw;
mod refit_reference;
#[path = "../../app/engine/examples/refits/systems.rs"]
mod refit_systems;
mod refits;
mod requests;
mod scraps;
mod serving;
mod shared_page;
mod sizes;
mod stacks;
mod stalled;
mod sync;
mod templates;

use std::process::ExitCode;

use measure::{Figure, Trouble, Workshop};

/// How one figure, or several that share the work, are measured.
type Measuring = fn(&mut Workshop) -> Result<Vec<Figure>, Trouble>;

/// Every figure with the way to it.
const ALL: [(&[&str], Measuring); 32] = [
    (
        &["first_load_bytes", "first_load_ratio", "language_bytes"],
        first_load::figures,
    ),
    (&["arrival_bytes", "arrival_lcp_ms"], arrivals::figures),
    (&["engine_sentences"], engine_sentences::figures),
    (&["binary_mb"], binary::size),
    (&["server_start_ms"], binary::start),
    (&["pipeline_ms_max"], pipeline::figures),
    (&["edit_large_ms"], sizes::edit),
    (
        &["stack_50_ms", "stack_growth", "stamps_10_ms"],
        stacks::orders,
    ),
    (&["strip_million_s"], stacks::strip),
    (&["scrap_search_200_ms"], scraps::search),
    (
        &[
            "cut_sheets_vs_lower_bound",
            "cut_losses_to_baseline",
            "cut_proven_share",
        ],
        cutting::packing,
    ),
    (&["cut_one_sheet_unanswered"], cutting::one_sheet),
    (
        &["cut_first_plan_ms", "cut_class_gap", "cut_growth"],
        cutting::class,
    ),
    (&["refit_ms_max", "refit_growth"], refits::native),
    (&["refit_large_ms"], refit_reference::large),
    (
        &["refit_vs_reference", "clash_ways_true"],
        refit_reference::alike,
    ),
    (&["refit_browser_p95_ms"], refits::browser),
    (&["offline_open_ms", "offline_open_ratio"], offline::figures),
    (&["edit_redraw_p95_ms"], redraw::figures),
    (
        &[
            "import_5000_s",
            "import_5000_longest_task_ms",
            "import_200mb_ms",
        ],
        imports::figures,
    ),
    (&["photo_ms"], photos::figures),
    (&["opening_frame_ms"], opening::frame),
    (
        &["animation_frame_p95_ms", "animation_40_p95_ms"],
        opening::animation,
    ),
    (
        &[
            "sync_edits_per_s",
            "sync_p99_ms",
            "sync_rss_mb",
            "sync_throughput_vs_peer",
            "sync_memory_vs_peer",
        ],
        sync::sqlite,
    ),
    (
        &["merge_unsolved", "merge_untold", "counts_lost"],
        merging::figures,
    ),
    (&["static_vs_bare_axum"], requests::against_bare),
    (&["db_bytes_per_edit"], kept::bytes_per_edit),
    (&["share_page_200_panels_ms"], shared_page::second),
    (&["sheet_pdf_ms", "sheet_pdf_kb"], printed::figures),
    (&["template_error_mm"], templates::error),
    (&["stalled_connections_held"], stalled::held),
    (
        &["sync_edits_per_s_pg", "sync_p99_ms_pg", "sync_rss_mb_pg"],
        sync::postgres,
    ),
];

fn main() -> ExitCode {
    let asked: Vec<String> = std::env::args().skip(1).collect();
    let names = || ALL.iter().flat_map(|(names, _)| names.iter().copied());
    if asked.iter().any(|argument| argument == "--list") {
        names().for_each(|name| println!("{name}"));
        return ExitCode::SUCCESS;
    }
    if let Some(unknown) = asked
        .iter()
        .find(|asked| !names().any(|name| name == *asked))
    {
        eprintln!("There is no figure called {unknown}. figures --list names them.");
        return ExitCode::FAILURE;
    }
    if cfg!(debug_assertions) {
        eprintln!("Figures are those of the release: cargo run --release --bin figures");
        return ExitCode::FAILURE;
    }
    let wanted = |name: &str| asked.is_empty() || asked.iter().any(|asked| asked == name);
    let mut workshop = Workshop::default();
    let mut ending = ExitCode::SUCCESS;
    for (names, measuring) in ALL {
        if !names.iter().any(|name| wanted(name)) {
            continue;
        }
        eprintln!("Measuring {} …", names.join(", "));
        match measuring(&mut workshop) {
            Ok(figures) => figures
                .iter()
                .filter(|figure| wanted(figure.name))
                .for_each(Figure::print),
            Err(trouble) => {
                eprintln!("{} could not be measured: {trouble}", names.join(", "));
                ending = ExitCode::FAILURE;
            }
        }
    }
    ending
}
