//! Devices and a running service: changes cross over.

mod common;

use common::Cluster;
use common::service::{Heard, Service, Socket, harbour, updates};
use foldwright_api::ARE_YOU_THERE;
use foldwright_document::Document;
use serde_json::{Value, json};

#[tokio::test(flavor = "multi_thread")]
async fn changes_cross_over_live_and_after_a_break() {
    let harbour = harbour();
    let (service, laptop, phone) = harbour.parts();
    let mut near = Socket::open(service, laptop, 0).await;
    near.until(&json!({ "last": 0 })).await;
    let mut far = Socket::open(service, phone, 0).await;
    far.until(&json!({ "last": 0 })).await;
    // Whoever asks hears that the server is there.
    near.say(ARE_YOU_THERE).await;
    near.until(&json!({ "last": 0 })).await;

    let mut mine = Document::new(11);
    let recipe = json!({ "name": "Gate", "measures": [{ "id": 1, "name": "width" }] });
    let first = mine.write(&Value::Null, &recipe).unwrap();
    assert!(near.send("recipe/a", 2, &first).await);
    let own = near.until(&json!({ "saved": 1 })).await;
    assert_eq!(updates(&own), 0, "one's own changes do not come back");
    let heard = far.until(&json!({ "last": 1 })).await;
    assert_eq!(heard, [Heard::About("recipe/a".to_owned(), 2, first)]);
    drop(far);

    // While the phone is away, and it changes something too.
    let mut renamed = recipe.clone();
    renamed["name"] = json!("Harbour gate");
    let second = mine.write(&recipe, &renamed).unwrap();
    assert!(near.send("recipe/a", 2, &second).await);
    near.until(&json!({ "saved": 2 })).await;
    let mut far = Socket::open(service, phone, 1).await;
    let heard = far.until(&json!({ "last": 2 })).await;
    assert_eq!(heard, [Heard::About("recipe/a".to_owned(), 2, second)]);

    // Both steps of y-sync: what the server has, and what it wants.
    let mut theirs = far.fetch("recipe/a").await;
    assert_eq!(theirs.read().0, Some(renamed.clone()));
    let mut wider = renamed.clone();
    wider["measures"][0]["name"] = json!("whole width");
    let third = theirs.write(&renamed, &wider).unwrap();
    assert!(far.send("recipe/a", 1, &third).await);
    far.until(&json!({ "saved": 1 })).await;
    near.until(&json!({ "last": 3 })).await;
    // A number nobody ever had: everything again.
    let mut odd = Socket::open(service, phone, 99).await;
    assert_eq!(updates(&odd.until(&json!({ "last": 3 })).await), 3);
}

#[tokio::test(flavor = "multi_thread")]
async fn servers_over_one_database_pass_changes_on() {
    let cluster = Cluster::start();
    let place = cluster.database("workshops");
    let one = Service::start(&place);
    let laptop = one.join(&one.code, "laptop");
    let phone = one.join_by(&laptop, "phone");
    let other = Service::start(&place);
    assert_eq!(other.code, "", "it is claimed");
    let mut near = Socket::open(&one, &laptop, 0).await;
    let mut far = Socket::open(&other, &phone, 0).await;
    far.until(&json!({ "last": 0 })).await;
    let mut document = Document::new(5);
    let ours = json!({ "name": "ours" });
    let update = document.write(&Value::Null, &ours).unwrap();
    assert!(near.send("recipe/a", 2, &update).await);
    near.until(&json!({ "saved": 1 })).await;
    let heard = far.until(&json!({ "last": 1 })).await;
    assert_eq!(heard, [Heard::About("recipe/a".to_owned(), 2, update)]);
}
