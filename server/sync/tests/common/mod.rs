//! What several tests need.

#![allow(dead_code, reason = "not every test needs all of it")]
#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "a test may stop where its own pieces do not fit"
)]
#![allow(unused_imports, reason = "not every test needs both")]

mod cluster;
pub(crate) mod service;

use std::time::Duration;

pub(crate) use cluster::{Cluster, Folder};

/// Waits for something that comes about by itself.
pub(crate) async fn until<T>(what: &str, mut found: impl AsyncFnMut() -> Option<T>) -> T {
    for _ in 0..600 {
        if let Some(found) = found().await {
            return found;
        }
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
    panic!("{what} did not come about");
}
