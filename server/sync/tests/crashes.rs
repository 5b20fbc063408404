//! The service is killed in the middle of work, again and again: what it had
//! acknowledged is there afterwards. `KILLS` says how often.

#![expect(
    clippy::expect_used,
    clippy::unwrap_used,
    reason = "a test may stop where its own pieces do not fit"
)]

mod common;

use std::time::Duration;

use common::service::{Heard, Service, Socket};
use common::{Cluster, Folder};
use foldwright_document::Document;

fn kills(otherwise: u32) -> u32 {
    std::env::var("KILLS").map_or(otherwise, |text| text.parse().expect("a number"))
}

/// Kills the service over a place so many times and counts what was
/// acknowledged.
async fn crash(place: &str, times: u32) -> usize {
    let mut service = Service::start(place);
    let laptop = service.join(&service.code, "laptop");
    let phone = service.join_by(&laptop, "phone");
    let mut acknowledged = 0;
    for round in 0..times {
        let name = format!("recipe/r{round}");
        // Connected before the time runs, which a busy machine may need all of.
        let near = Socket::open(&service, &laptop, 0).await;
        let far = Socket::open(&service, &phone, 0).await;
        // The work goes on until it finds the service gone.
        let (one, other, ()) = tokio::join!(
            work(near, &name, u64::from(round) * 2 + 1),
            work(far, &name, u64::from(round) * 2 + 2),
            async {
                let after = u64::from(20 + round * 37 % 180);
                tokio::time::sleep(Duration::from_millis(after)).await;
                kill(&service);
            },
        );
        service.kill();
        // It starts only if its store is sound.
        service = Service::start(place);
        let counts = Socket::open(&service, &laptop, 0)
            .await
            .fetch(&name)
            .await
            .counts();
        for edit in one.iter().chain(&other) {
            assert_eq!(
                counts.get(edit),
                Some(&1),
                "round {round}: {edit} was acknowledged"
            );
        }
        acknowledged += one.len() + other.len();
    }
    acknowledged
}

fn kill(service: &Service) {
    let done = std::process::Command::new("kill")
        .args(["-9", &service.process().to_string()])
        .status();
    assert!(done.expect("kill").success());
}

/// Makes changes without end; those acknowledged by the time it ends.
async fn work(mut socket: Socket, name: &str, writer: u64) -> Vec<String> {
    let mut document = Document::new(writer);
    let mut sent = Vec::new();
    let mut saved = 0;
    loop {
        // A few on the way at a time.
        while sent.len() < saved + 8 {
            let edit = format!("{writer}x{}", sent.len());
            let update = document.add(&edit, 1).unwrap();
            if !socket.send(name, 2, &update).await {
                break;
            }
            sent.push(edit);
        }
        match socket.hear().await {
            Heard::Said(said) => {
                if let Some(now) = said.get("saved").and_then(serde_json::Value::as_u64) {
                    saved = usize::try_from(now).unwrap();
                }
            }
            Heard::About(..) => {}
            Heard::End(_) => {
                sent.truncate(saved);
                return sent;
            }
        }
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn sqlite_keeps_what_it_acknowledged() {
    let folder = Folder::new();
    let place = folder.0.join("workshops.db").display().to_string();
    let times = kills(200);
    let acknowledged = crash(&place, times).await;
    println!("{times} kills, {acknowledged} changes acknowledged, none lost");
    assert!(acknowledged > 0, "work was done");
}

#[tokio::test(flavor = "multi_thread")]
async fn postgres_keeps_what_it_acknowledged() {
    let cluster = Cluster::start();
    let times = kills(50);
    let acknowledged = crash(&cluster.database("workshops"), times).await;
    println!("{times} kills, {acknowledged} changes acknowledged, none lost");
    assert!(acknowledged > 0, "work was done");
}
