//! Devices and a running service. The topics of the security tests are those
//! of the OWASP Application Security Verification Standard that apply here:
//! authentication, session management, access control, input, business logic.

#![expect(
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::unwrap_used,
    reason = "a test may stop where its own pieces do not fit"
)]

mod common;

use std::process::Command;

use common::service::{Heard, Service, Socket};
use common::{Cluster, Folder};
use foldwright_document::Document;
use serde_json::{Value, json};

const CLOSED_OUT: Option<u16> = Some(4401);
const NOT_UNDERSTOOD: Option<u16> = Some(4400);

struct Harbour {
    _folder: Folder,
    service: Service,
    laptop: String,
    phone: String,
}

/// A service with a workshop of two devices.
fn harbour() -> Harbour {
    let folder = Folder::new();
    let service = Service::start(folder.0.join("workshops.db").to_str().unwrap());
    let laptop = service.join(&service.code, "laptop");
    let phone = service.join_by(&laptop, "phone");
    Harbour {
        _folder: folder,
        service,
        laptop,
        phone,
    }
}

fn updates(heard: &[Heard]) -> usize {
    heard
        .iter()
        .filter(|it| matches!(it, Heard::About(_, 2, _)))
        .count()
}

#[tokio::test(flavor = "multi_thread")]
async fn changes_cross_over_live_and_after_a_break() {
    let Harbour {
        service,
        laptop,
        phone,
        ..
    } = &harbour();
    let mut near = Socket::open(service, laptop, 0).await;
    near.until(&json!({ "last": 0 })).await;
    let mut far = Socket::open(service, phone, 0).await;
    far.until(&json!({ "last": 0 })).await;

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
async fn nothing_without_a_key() {
    let Harbour {
        service, laptop, ..
    } = &harbour();
    for key in ["", "nonsense", &"0".repeat(64), &laptop[1..]] {
        for (method, path) in [
            ("POST", "code"),
            ("GET", "devices"),
            ("DELETE", "devices/x"),
            ("GET", "shares"),
            ("POST", "shares"),
            ("DELETE", "shares/x"),
            ("GET", "backup"),
        ] {
            let body = if path == "shares" {
                json!({ "document": "recipe/a" })
            } else {
                Value::Null
            };
            let body = if method == "GET" { Value::Null } else { body };
            let (status, _) = service.ask(method, path, key, &body);
            assert_eq!(status, 401, "{method} {path} with “{key}”");
        }
        let mut socket = Socket::open(service, key, 0).await;
        assert_eq!(socket.end().await, CLOSED_OUT);
    }
    let mut socket = Socket::bare(service).await;
    socket.raw(vec![1, 2, 3]).await;
    assert_eq!(socket.end().await, CLOSED_OUT, "no greeting, no service");
}

#[tokio::test(flavor = "multi_thread")]
async fn a_revoked_device_is_cut_off_at_once() {
    let Harbour {
        service,
        laptop,
        phone,
        ..
    } = &harbour();
    let mut far = Socket::open(service, phone, 0).await;
    far.until(&json!({ "last": 0 })).await;
    let (_, devices) = service.json("GET", "devices", laptop, &Value::Null);
    let devices = devices.as_array().unwrap();
    assert_eq!(devices.len(), 2);
    let lost = devices
        .iter()
        .find(|device| device["own"] == json!(false))
        .unwrap();
    assert_eq!(lost["name"], "phone");
    let path = format!("devices/{}", lost["id"].as_str().unwrap());
    assert_eq!(service.ask("DELETE", &path, laptop, &Value::Null).0, 204);
    assert_eq!(far.end().await, CLOSED_OUT);
    assert_eq!(
        Socket::open(service, phone, 0).await.end().await,
        CLOSED_OUT
    );
    assert_eq!(service.ask("GET", "devices", phone, &Value::Null).0, 401);
    assert_eq!(service.ask("DELETE", &path, laptop, &Value::Null).0, 404);
}

#[tokio::test(flavor = "multi_thread")]
async fn codes_open_once_and_cannot_be_guessed() {
    let Harbour {
        service, laptop, ..
    } = &harbour();
    let (_, answer) = service.json("POST", "code", laptop, &Value::Null);
    let code = answer["code"].as_str().unwrap();
    assert!(answer["picture"].as_str().unwrap().contains("<svg"));
    assert!(answer["link"].as_str().unwrap().ends_with(code));
    service.join(&code.to_lowercase().replace('-', " "), "tablet");
    let again = json!({ "code": code, "name": "again" });
    assert_eq!(service.ask("POST", "join", "", &again).0, 404, "once");
    assert_eq!(
        service
            .ask(
                "POST",
                "join",
                "",
                &json!({ "code": service.code, "name": "x" })
            )
            .0,
        404
    );
    // Two that were right, this one wrong, and the claim; then wrong ones.
    let tries = (0..20).map(|number| {
        let body = json!({ "code": format!("{number:08}"), "name": "thief" });
        service.ask("POST", "join", "", &body).0
    });
    let tries: Vec<u16> = tries.collect();
    let stopped = tries.iter().filter(|status| **status == 429).count();
    assert!(stopped >= 10, "{tries:?}");
    // Who is stopped is stopped with the right code too.
    let (_, answer) = service.json("POST", "code", laptop, &Value::Null);
    let right = json!({ "code": answer["code"], "name": "late" });
    assert_eq!(service.ask("POST", "join", "", &right).0, 429);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_share_shows_one_document_and_no_more() {
    let Harbour {
        service, laptop, ..
    } = &harbour();
    let mut near = Socket::open(service, laptop, 0).await;
    for name in ["recipe/a", "recipe/b"] {
        let mut document = Document::new(5);
        let update = document
            .write(&Value::Null, &json!({ "name": name }))
            .unwrap();
        assert!(near.send(name, 2, &update).await);
    }
    near.until(&json!({ "saved": 2 })).await;
    let share =
        |document: &str| service.json("POST", "shares", laptop, &json!({ "document": document }));
    assert_eq!(share("recipe/none").0, 404);
    assert_eq!(share("../workshops.db").0, 400);
    let (status, shared) = share("recipe/a");
    assert_eq!(status, 200);
    let token = shared["token"].as_str().unwrap();
    let path = format!("shared/{token}");
    let (status, bytes) = service.ask("GET", &path, "", &Value::Null);
    assert_eq!(status, 200);
    let read = Document::open(1, &bytes).unwrap().read().0;
    assert_eq!(read, Some(json!({ "name": "recipe/a" })));
    // It opens nothing else, writes nothing, and is listed nowhere openly.
    for method in ["POST", "PUT", "DELETE"] {
        let (status, _) = service.ask(method, &path, "", &Value::Null);
        assert_eq!(status, 405, "{method}");
    }
    assert_eq!(service.ask("GET", "devices", token, &Value::Null).0, 401);
    assert_eq!(
        Socket::open(service, token, 0).await.end().await,
        CLOSED_OUT
    );
    for path in [
        "shared/",
        "shared/x",
        "shared/..%2f..%2fetc%2fpasswd",
        "shared/%00",
        "shared",
    ] {
        assert_eq!(service.ask("GET", path, "", &Value::Null).0, 404, "{path}");
    }
    let (_, listed) = service.json("GET", "shares", laptop, &Value::Null);
    assert!(
        !listed.to_string().contains(token),
        "tokens are not told again"
    );
    let own = format!("shares/{}", shared["id"].as_str().unwrap());
    assert_eq!(service.ask("DELETE", &own, laptop, &Value::Null).0, 204);
    assert_eq!(service.ask("GET", &path, "", &Value::Null).0, 404, "ended");
}

#[tokio::test(flavor = "multi_thread")]
async fn workshops_do_not_see_each_other() {
    let folder = Folder::new();
    let file = folder.0.join("workshops.db");
    let service = Service::start(file.to_str().unwrap());
    // Two claims of two workshops: the code of a second start is for another.
    let other = Service::start(file.to_str().unwrap());
    let harbour = service.join(&service.code, "harbour");
    let hill = other.join(&other.code, "hill");
    let mut near = Socket::open(&service, &harbour, 0).await;
    let mut document = Document::new(5);
    let update = document
        .write(&Value::Null, &json!({ "name": "ours" }))
        .unwrap();
    assert!(near.send("recipe/a", 2, &update).await);
    near.until(&json!({ "saved": 1 })).await;
    let mut far = Socket::open(&service, &hill, 0).await;
    assert_eq!(updates(&far.until(&json!({ "last": 0 })).await), 0);
    assert_eq!(far.fetch("recipe/a").await.read().0, None);
    let (_, devices) = service.json("GET", "devices", &harbour, &Value::Null);
    let path = format!("devices/{}", devices[0]["id"].as_str().unwrap());
    assert_eq!(service.ask("DELETE", &path, &hill, &Value::Null).0, 404);
    assert_eq!(
        service
            .json("POST", "shares", &hill, &json!({ "document": "recipe/a" }))
            .0,
        404
    );
    let (_, backup) = service.json("GET", "backup", &harbour, &Value::Null);
    assert_eq!(backup["documents"].as_object().unwrap().len(), 1);
    let (_, backup) = service.json("GET", "backup", &hill, &Value::Null);
    assert_eq!(backup["documents"].as_object().unwrap().len(), 0);
    // What is on the disk opens nothing.
    drop(near);
    let mut kept = std::fs::read(&file).unwrap();
    kept.extend(std::fs::read(folder.0.join("workshops.db-wal")).unwrap_or_default());
    for secret in [&harbour, &hill] {
        assert!(
            !kept
                .windows(secret.len())
                .any(|part| part == secret.as_bytes())
        );
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn nonsense_is_refused_and_harms_nobody() {
    let Harbour {
        service,
        laptop,
        phone,
        ..
    } = &harbour();
    let mut state = 1_u64;
    let mut dice = || {
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        state >> 33
    };
    let mut good = Document::new(5);
    let update = good
        .write(&Value::Null, &json!({ "name": "good", "about": "x" }))
        .unwrap();
    for round in 0..300 {
        let mut socket = Socket::open(service, laptop, 0).await;
        let mut frame = vec![8];
        frame.extend_from_slice(b"recipe/z\x00\x02");
        frame.push(u8::try_from(update.len()).unwrap());
        frame.extend_from_slice(&update);
        match round % 3 {
            0 => {
                frame = (0..dice() % 300)
                    .map(|_| u8::try_from(dice() % 256).unwrap())
                    .collect()
            }
            1 => {
                let at = usize::try_from(dice()).unwrap() % frame.len();
                frame[at] ^= 1 << (dice() % 8);
            }
            _ => frame.truncate(usize::try_from(dice()).unwrap() % frame.len()),
        }
        socket.raw(frame).await;
        // Either refused, or by chance a message.
        assert!(socket.send("recipe/y", 2, &[]).await || round > 0);
        assert_eq!(socket.end().await, NOT_UNDERSTOOD, "round {round}");
    }
    let mut socket = Socket::open(service, laptop, 0).await;
    assert!(socket.send("recipe/a", 2, &vec![0; 2 * 1024 * 1024]).await || !laptop.is_empty());
    assert!(socket.end().await.is_none_or(|code| code >= 1000));
    let mut socket = Socket::open(service, phone, 0).await;
    assert!(socket.send("recipe/a", 2, &update).await);
    socket.until(&json!({ "saved": 1 })).await;

    // A page of another site, seen by an outside client.
    let status = Command::new("curl")
        .args([
            "-s",
            "-o",
            "/dev/null",
            "-w",
            "%{http_code}",
            "-H",
            "Origin: https://evil.example",
        ])
        .args(["-H", "Connection: Upgrade", "-H", "Upgrade: websocket"])
        .args([
            "-H",
            "Sec-WebSocket-Version: 13",
            "-H",
            "Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==",
        ])
        .arg(format!("http://{}/api/sync/socket", service.address))
        .output()
        .expect("curl is installed");
    assert_eq!(String::from_utf8_lossy(&status.stdout), "403");
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
    let update = document
        .write(&Value::Null, &json!({ "name": "ours" }))
        .unwrap();
    assert!(near.send("recipe/a", 2, &update).await);
    near.until(&json!({ "saved": 1 })).await;
    let heard = far.until(&json!({ "last": 1 })).await;
    assert_eq!(heard, [Heard::About("recipe/a".to_owned(), 2, update)]);
    let (_, devices) = one.json("GET", "devices", &laptop, &Value::Null);
    let lost = devices
        .as_array()
        .unwrap()
        .iter()
        .find(|device| device["name"] == "phone")
        .unwrap();
    let path = format!("devices/{}", lost["id"].as_str().unwrap());
    assert_eq!(one.ask("DELETE", &path, &laptop, &Value::Null).0, 204);
    assert_eq!(far.end().await, CLOSED_OUT, "cut off at the other server");
}
