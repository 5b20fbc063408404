//! Who may do what. Each test names what it stands for in the OWASP
//! Application Security Verification Standard 5.0.

#![expect(
    clippy::expect_used,
    clippy::unwrap_used,
    reason = "a test may stop where its own pieces do not fit"
)]

mod common;

use std::path::Path;

use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use common::Cluster;
use common::service::{Harbour, Service, Socket, harbour, updates};
use foldwright_api::SPOKEN;
use foldwright_document::Document;
use foldwright_document::pieces::WHOLE;
use foldwright_sync::store::{Sqlite, Store as _};
use serde_json::{Value, json};
use tokio::io::{AsyncReadExt as _, AsyncWriteExt as _};

const CLOSED_OUT: Option<u16> = Some(4401);
const UNKNOWN: Option<u16> = Some(4404);
const NOT_UNDERSTOOD: Option<u16> = Some(4400);
const EARLIER: Option<u16> = Some(4426);

/// Where the service is told that a proxy is.
const PROXY: [u8; 4] = [127, 0, 0, 2];

/// Every function that a key opens, with the rest of what it is asked.
fn functions() -> [(&'static str, Value); 12] {
    [
        ("workshop/code", json!({})),
        ("workshop/devices", json!({})),
        (
            "workshop/rename-device",
            json!({ "id": "x", "name": "new" }),
        ),
        ("workshop/rename", json!({ "name": "new" })),
        ("workshop/revoke", json!({ "id": "x" })),
        ("workshop/leave", json!({})),
        ("workshop/room", json!({})),
        ("workshop/backup", json!({})),
        ("share/new", json!({ "document": "recipe/a" })),
        ("share/all", json!({})),
        ("share/end", json!({ "id": "x" })),
        ("share/open", json!({})),
    ]
}

/// A question with a key; the one thing that a token opens takes it as such.
fn with(key: &str, rest: &Value) -> Value {
    let mut question = rest.clone();
    question["key"] = json!(key);
    question["token"] = json!(key);
    question
}

/// Sends a recipe of that name from a device.
async fn write(service: &Service, key: &str, document: &str) {
    let mut socket = Socket::open(service, key, 0).await;
    let recipe = json!({ "name": document });
    let update = Document::new(5).write(&Value::Null, &recipe).unwrap();
    assert!(socket.send(document, 2, &update).await);
    socket.until(&json!({ "saved": 1 })).await;
}

/// Shares a document: the name of the share, and its token.
fn share(service: &Service, key: &str, document: &str) -> (String, String) {
    let (status, link) = service.ask("share/new", &json!({ "key": key, "document": document }));
    assert_eq!(status, 200, "{link}");
    let token = link["link"].as_str().unwrap().rsplit('/').next().unwrap();
    (link["id"].as_str().unwrap().to_owned(), token.to_owned())
}

/// 8.2.1 access to functions, 7.2.1 keys are verified here: every function and the socket ask
/// for a key, and refuse alike whatever is wrong with it.
#[tokio::test(flavor = "multi_thread")]
async fn nothing_without_a_key() {
    let harbour = harbour();
    let (service, laptop, _) = harbour.parts();
    let cut = laptop.get(1..).unwrap();
    for key in ["", "nonsense", &"0".repeat(64), cut, "' OR 1=1 --", "\0"] {
        for (function, rest) in functions() {
            let (status, said) = service.ask(function, &with(key, &rest));
            // A token is no key: what it does not open is not there.
            let expected = if function == "share/open" { 404 } else { 401 };
            assert_eq!(status, expected, "{function} with {key:?}: {said}");
        }
        let mut socket = Socket::open(service, key, 0).await;
        assert_eq!(socket.end().await, UNKNOWN);
    }
    for (function, rest) in functions() {
        let (status, said) = service.ask(function, &rest);
        assert_eq!(status, 400, "{function} without a key: {said}");
    }
    let mut socket = Socket::bare(service).await;
    socket.raw(vec![1, 2, 3]).await;
    assert_eq!(socket.end().await, UNKNOWN, "no greeting, no service");
}

/// A page of a release that does not know how recipes are kept by now would
/// put back in its browser what has been changed since.
#[tokio::test(flavor = "multi_thread")]
async fn a_page_of_an_earlier_release_is_not_connected() {
    let harbour = harbour();
    let (service, laptop, _) = harbour.parts();
    for greeting in [
        json!({ "key": laptop, "since": 0 }),
        json!({ "key": laptop, "since": 0, "speaks": SPOKEN - 1 }),
    ] {
        let mut socket = Socket::bare(service).await;
        socket.say(&greeting.to_string()).await;
        assert_eq!(socket.end().await, EARLIER);
    }
    write(service, laptop, "recipe/a").await;
}

/// 7.4.1 and 7.4.5 sessions end: at once, on every way in, and on every server.
#[tokio::test(flavor = "multi_thread")]
async fn a_revoked_device_is_cut_off_at_once() {
    let cluster = Cluster::start();
    let place = cluster.database("workshops");
    let one = Service::start(&place);
    let laptop = one.join(&one.code, "laptop");
    let other = Service::start(&place);
    for (at, name) in [(&one, "phone"), (&other, "tablet")] {
        let lost = at.join_by(&laptop, name);
        let mut far = Socket::open(at, &lost, 0).await;
        far.until(&json!({ "last": 0 })).await;
        let id = one.device(&laptop, name);
        let revoke = json!({ "key": laptop, "id": id });
        assert_eq!(one.ask("workshop/revoke", &revoke).0, 200);
        far.until(&json!({ "removed": "laptop" })).await;
        assert_eq!(far.end().await, CLOSED_OUT, "{name}");
        assert_eq!(Socket::open(at, &lost, 0).await.end().await, CLOSED_OUT);
        for (function, rest) in functions() {
            let status = at.ask(function, &with(&lost, &rest)).0;
            assert!([401, 404].contains(&status), "{function}: {status}");
        }
        assert_eq!(one.ask("workshop/revoke", &revoke).0, 404, "once");
    }
    // Who leaves is cut off too.
    let mut own = Socket::open(&other, &laptop, 0).await;
    own.until(&json!({ "last": 0 })).await;
    assert_eq!(one.ask("workshop/leave", &json!({ "key": laptop })).0, 200);
    assert_eq!(own.end().await, CLOSED_OUT);
}

/// 3.3.2 and 3.3.4 cookies: the one that gives a place back can be read by no script, goes
/// to one address of this site only, and opens nothing by itself.
#[tokio::test(flavor = "multi_thread")]
async fn a_cookie_gives_a_place_back_and_nothing_else() {
    let harbour = harbour();
    let (service, laptop, _) = harbour.parts();
    let code = service.code_by(laptop);
    let question = json!({ "code": code, "name": "Tablet" }).to_string();
    let (_, joined, cookies) = service.post_for_cookies("workshop/join", &[], &question);
    let key = joined["key"].as_str().unwrap();
    let [secret, mark] = &cookies[..] else {
        panic!("two cookies: {cookies:?}");
    };
    for part in [
        "; HttpOnly",
        "; SameSite=Strict",
        "; Path=/api/workshop/recover;",
    ] {
        assert!(secret.contains(part), "{secret}");
    }
    assert!(secret.contains(key) && !mark.contains(key), "{mark}");
    assert!(mark.contains("; SameSite=Strict"), "{mark}");

    let cookie = secret.split(';').next().unwrap();
    let recover =
        |headers: &[(&str, &str)]| service.post_for_cookies("workshop/recover", headers, "{}");
    let (status, place, _) = recover(&[("cookie", cookie)]);
    assert_eq!(status, 200);
    assert_eq!(place, joined, "the place it had");
    let mixed = format!("a=b; {cookie}; c=d");
    assert_eq!(recover(&[("cookie", &mixed)]).1, joined);
    let name = cookie.split('=').next().unwrap();
    for other in [
        "",
        "a=b",
        &format!("{name}="),
        &format!("{name}=nonsense"),
        name,
    ] {
        let (status, place, _) = recover(&[("cookie", other)]);
        assert_eq!((status, place), (200, Value::Null), "{other}");
    }
    let foreign = [("cookie", cookie), ("origin", "https://evil.example")];
    assert_eq!(recover(&foreign).0, 403);
    // It is no key for anything else.
    let (status, ..) = service.post_for_cookies("workshop/devices", &[("cookie", cookie)], "{}");
    assert_eq!(status, 400);

    let id = service.device(laptop, "Tablet");
    let revoke = json!({ "key": laptop, "id": id });
    assert_eq!(service.ask("workshop/revoke", &revoke).0, 200);
    let (status, place, cookies) = recover(&[("cookie", cookie)]);
    assert_eq!((status, place), (200, Value::Null), "it was removed");
    assert!(
        cookies.iter().all(|cookie| cookie.contains("Max-Age=0")),
        "{cookies:?}"
    );
}

/// 6.3.1 and 6.6.3 brute force, 6.5.1 codes: used once, in time, and not to
/// be guessed.
#[tokio::test(flavor = "multi_thread")]
async fn codes_open_once_and_cannot_be_guessed() {
    let harbour = harbour();
    let (service, laptop, _) = harbour.parts();
    let (_, made) = service.ask("workshop/code", &json!({ "key": laptop }));
    let code = made["code"].as_str().unwrap();
    assert!(made["picture"].as_str().unwrap().contains("<svg"));
    assert!(made["link"].as_str().unwrap().ends_with(code));
    let join = |code: &str| {
        let question = json!({ "code": code, "name": "one more" });
        service.ask("workshop/join", &question).0
    };
    assert_eq!(join(&code.to_lowercase().replace('-', " ")), 200);
    assert_eq!(join(code), 404, "once");
    assert_eq!(join(&service.code), 404, "the claim, once");
    // With the two of the laptop and the phone, five tries of ten a minute.
    let tries: Vec<u16> = (0..20)
        .map(|number| join(&format!("{number:08}")))
        .collect();
    assert_eq!(tries, [[404; 5].as_slice(), &[429; 15]].concat());
    assert_eq!(
        join(&service.code_by(laptop)),
        429,
        "with the right one too"
    );
}

/// 15.3.4 and 6.6.3: guesses count for whoever makes them, also
/// through the proxy, and nobody can make others count for them.
#[tokio::test(flavor = "multi_thread")]
async fn guesses_elsewhere_do_not_keep_others_out() {
    let harbour = harbour();
    let (service, laptop, _) = harbour.parts();
    let code = service.code_by(laptop);
    let join = |code: &str, by: [u8; 4], asker: &str| {
        let question = json!({ "code": code, "name": "one more" }).to_string();
        let head = format!(
            "POST /api/workshop/join HTTP/1.1\r\nHost: {}\r\nConnection: close\r\n\
             Content-Type: application/json\r\nAccept: application/json\r\n\
             X-Forwarded-For: {asker}\r\nContent-Length: {}\r\n\r\n{question}",
            service.address,
            question.len(),
        );
        let to: std::net::SocketAddr = service.address.parse().unwrap();
        async move {
            let socket = tokio::net::TcpSocket::new_v4().unwrap();
            socket.bind((by, 0).into()).unwrap();
            let mut stream = socket.connect(to).await.unwrap();
            stream.write_all(head.as_bytes()).await.unwrap();
            let mut answer = String::new();
            stream.read_to_string(&mut answer).await.unwrap();
            answer.get(9..12).unwrap().parse::<u16>().unwrap()
        }
    };
    let mut tries = Vec::new();
    for number in 0..12 {
        tries.push(join(&format!("{number:08}"), PROXY, "203.0.113.7").await);
    }
    assert_eq!(tries, [[404; 10].as_slice(), &[429; 2]].concat());
    // What they write themselves before the proxy adds where they are.
    let made_up = join("00000000", PROXY, "198.51.100.9, 203.0.113.7").await;
    assert_eq!(made_up, 429);
    // Nobody who is no proxy is believed.
    let mut tries = Vec::new();
    for number in 0..12 {
        let asker = format!("198.51.100.{number}");
        tries.push(join("00000000", [127, 0, 0, 3], &asker).await);
    }
    assert_eq!(tries, [[404; 10].as_slice(), &[429; 2]].concat());
    assert_eq!(
        join(&code, PROXY, "203.0.113.8").await,
        200,
        "another asker"
    );
}

/// 6.4.1: a code that was not used in time opens nothing.
#[tokio::test(flavor = "multi_thread")]
async fn codes_run_out() {
    let harbour = harbour();
    let (service, laptop, _) = harbour.parts();
    let code = service.code_by(laptop);
    let late = {
        let store = Sqlite::visit(&harbour.file()).await.unwrap();
        let sql = rewind(&harbour.file());
        assert!(sql, "the code is made older than it is");
        store.check().await.is_ok()
    };
    assert!(late);
    let question = json!({ "code": code, "name": "late" });
    assert_eq!(service.ask("workshop/join", &question).0, 404);
}

/// Lets all codes in a file have run out an hour ago.
fn rewind(file: &Path) -> bool {
    let script = "import sqlite3,sys; c=sqlite3.connect(sys.argv[1]); \
                  n=c.execute('UPDATE offer SET until = until - 90000').rowcount; \
                  c.commit(); sys.exit(0 if n > 0 else 1)";
    let done = std::process::Command::new("python3")
        .args(["-c", script])
        .arg(file)
        .status();
    done.expect("Python 3 is installed").success()
}

/// 8.2.2 access to single things, 5.3.2 names are no paths: a token reads one
/// document.
#[tokio::test(flavor = "multi_thread")]
async fn a_share_shows_one_document_and_no_more() {
    let harbour = harbour();
    let (service, laptop, _) = harbour.parts();
    write(service, laptop, "recipe/a").await;
    write(service, laptop, "recipe/b").await;
    let new = |document: &str| {
        let question = json!({ "key": laptop, "document": document });
        service.ask("share/new", &question).0
    };
    assert_eq!(new("recipe/none"), 404);
    for path in [
        "../workshops.db",
        "/etc/passwd%00",
        "recipe\\a",
        "recipe/./a",
        "recipe/a\n",
        "",
    ] {
        assert_eq!(new(path), 400, "{path:?}");
    }
    // Names are compared, never followed.
    assert_eq!(new("/etc/passwd"), 404);
    let (id, token) = share(service, laptop, "recipe/a");
    let open = |token: &str| service.ask("share/open", &json!({ "token": token }));
    let (status, opened) = open(&token);
    assert_eq!(status, 200, "{opened}");
    let bytes = BASE64_STANDARD.decode(opened["document"].as_str().unwrap());
    let read = Document::open(1, &bytes.unwrap()).unwrap().read().0;
    assert_eq!(read, Some(json!({ "name": "recipe/a" })));
    // It opens nothing else, by no function, and does not write.
    for (function, rest) in functions() {
        let status = service.ask(function, &with(&token, &rest)).0;
        let expected = if function == "share/open" { 200 } else { 401 };
        assert_eq!(status, expected, "{function}");
    }
    let mut socket = Socket::open(service, &token, 0).await;
    assert_eq!(socket.end().await, UNKNOWN);
    // Neither the names of shares nor keys nor documents are tokens.
    for guess in [
        &*id,
        laptop,
        "recipe/a",
        "recipe/b",
        "",
        &token.to_uppercase(),
    ] {
        assert_eq!(open(guess).0, 404, "{guess}");
    }
    let (_, listed) = service.ask("share/all", &json!({ "key": laptop }));
    assert!(listed.to_string().contains(&id));
    assert!(!listed.to_string().contains(&token), "told once");
    let end = json!({ "key": laptop, "id": id });
    assert_eq!(service.ask("share/end", &end).0, 200);
    assert_eq!(open(&token).0, 404, "ended at once");
}

/// 8.4.1 another's things cannot be reached by naming them.
#[tokio::test(flavor = "multi_thread")]
async fn workshops_do_not_see_each_other() {
    let cluster = Cluster::start();
    let place = cluster.database("workshops");
    // The codes of two servers nobody uses yet are for two workshops.
    let service = Service::start(&place);
    let other = Service::start(&place);
    let harbour = service.join(&service.code, "harbour");
    let hill = other.join(&other.code, "hill");
    write(&service, &harbour, "recipe/a").await;
    let (id, _) = share(&service, &harbour, "recipe/a");
    let mut far = Socket::open(&service, &hill, 0).await;
    assert_eq!(updates(&far.until(&json!({ "last": 0 })).await), 0);
    assert_eq!(far.fetch("recipe/a").await.read().0, None);
    let device = service.device(&harbour, "harbour");
    for (function, rest) in [
        (
            "workshop/rename-device",
            json!({ "id": device, "name": "mine" }),
        ),
        ("workshop/revoke", json!({ "id": device })),
        ("share/new", json!({ "document": "recipe/a" })),
        ("share/end", json!({ "id": id })),
    ] {
        assert_eq!(
            service.ask(function, &with(&hill, &rest)).0,
            404,
            "{function}"
        );
    }
    let lists = |function: &str, key: &str| service.ask(function, &json!({ "key": key })).1;
    assert!(
        !lists("workshop/devices", &hill)
            .to_string()
            .contains(&device)
    );
    assert_eq!(lists("share/all", &hill), json!([]));
    let documents = |key: &str| {
        let text = lists("workshop/backup", key);
        let backup: Value = serde_json::from_str(text.as_str().unwrap()).unwrap();
        backup["documents"].as_object().unwrap().len()
    };
    assert_eq!((documents(&harbour), documents(&hill)), (1, 0));
    // Names that the two have in common are two documents.
    write(&service, &hill, "recipe/a").await;
    assert_eq!((documents(&harbour), documents(&hill)), (1, 1));
    let question = json!({ "key": hill, "name": "Hill" });
    assert_eq!(service.ask("workshop/rename", &question).0, 200);
    let (_, shared) = service.ask(
        "share/open",
        &json!({ "token": share(&service, &harbour, "recipe/a").1 }),
    );
    assert_ne!(shared["from"], "Hill");
}

/// 16.2.5 nothing secret is reported, 13.3.2 nothing secret is kept as it
/// is.
#[tokio::test(flavor = "multi_thread")]
async fn secrets_are_neither_reported_nor_kept() {
    let Harbour {
        folder,
        service,
        laptop,
        phone,
    } = harbour();
    write(&service, &laptop, "recipe/a").await;
    let code = service.code_by(&laptop);
    let (_, token) = share(&service, &laptop, "recipe/a");
    service.ask("share/open", &json!({ "token": token }));
    for (function, rest) in functions() {
        service.ask(function, &with(&phone, &rest));
        service.ask(function, &with("wrong-key-in-clear", &rest));
    }
    // Lost while it reports in most detail: what a mistake leaves behind.
    let mut socket = Socket::open(&service, &laptop, 0).await;
    socket.raw(vec![0xff; 40]).await;
    assert_eq!(socket.end().await, NOT_UNDERSTOOD);
    let secrets = [&laptop, &phone, &token, &code, &service.code];
    let log = service.log.lock().unwrap().clone();
    assert!(log.contains("DEBUG"), "it reports: {log}");
    let mut kept = Vec::new();
    for entry in std::fs::read_dir(&folder.0).unwrap() {
        kept.extend(std::fs::read(entry.unwrap().path()).unwrap());
    }
    assert!(kept.len() > 10_000);
    for secret in secrets {
        assert!(!log.contains(secret.as_str()), "reported: {secret}");
        let bare = secret.replace('-', "");
        for secret in [secret.as_bytes(), bare.as_bytes()] {
            let found = kept.windows(secret.len()).any(|part| part == secret);
            assert!(!found, "kept as it is");
        }
    }
    assert!(!log.contains("wrong-key-in-clear"));
}

/// 3.5.1 pages of other sites, 4.4.2 their sockets.
#[tokio::test(flavor = "multi_thread")]
async fn other_sites_are_refused() {
    let harbour = harbour();
    let (service, laptop, _) = harbour.parts();
    let own = format!("http://{}", service.address);
    for (origin, allowed) in [
        (&*own, true),
        ("https://evil.example", false),
        ("null", false),
        ("http://127.0.0.1", false),
        (&format!("{own}.evil.example"), false),
    ] {
        for (function, rest) in functions() {
            if function == "workshop/leave" {
                continue;
            }
            let question = with(laptop, &rest).to_string();
            let (status, _) = service.post(function, &[("origin", origin)], &question);
            assert_eq!(
                status == 403,
                !allowed,
                "{function} from {origin}: {status}"
            );
        }
        let opened = Socket::from(service, origin).await;
        assert_eq!(opened.is_some(), allowed, "the socket from {origin}");
    }
    // What a form of another site could send is no question.
    let form = [("content-type", "application/x-www-form-urlencoded")];
    let (status, _) = service.post("workshop/devices", &form, &format!("key={laptop}"));
    assert!((400..500).contains(&status), "{status}");
}

/// 2.2.1 input, 5.2.1 size: what is no question is refused.
#[tokio::test(flavor = "multi_thread")]
async fn nonsense_is_refused_and_harms_nobody() {
    let harbour = harbour();
    let (service, laptop, phone) = harbour.parts();
    let mut state = 1_u64;
    let mut dice = |below: usize| {
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(state >> 33).unwrap() % below
    };
    let good = json!({ "name": "good", "about": "x" });
    let update = Document::new(5).write(&Value::Null, &good).unwrap();
    for round in 0..300 {
        let mut socket = Socket::open(service, laptop, 0).await;
        let mut frame: Vec<u8> = match round % 3 {
            0 => (0..dice(300))
                .map(|_| u8::try_from(dice(256)).unwrap())
                .collect(),
            1 => vec![0x80; dice(300)],
            _ => {
                let mut frame = b"\x08recipe/z\x00\x02".to_vec();
                frame.push(u8::try_from(update.len()).unwrap());
                frame.extend_from_slice(&update);
                frame.truncate(dice(frame.len()));
                frame
            }
        };
        // With a zero before it, it would be a piece whose rest is awaited.
        if let Some(first) = frame.first_mut() {
            *first |= 1;
        }
        socket.raw(frame).await;
        assert_eq!(socket.end().await, NOT_UNDERSTOOD, "round {round}");
    }
    let names = ["../a", "a\0b", "a b", "%2e%2e", "a.b", "ü", ""];
    for name in names
        .map(str::to_owned)
        .into_iter()
        .chain(["x".repeat(121)])
    {
        let mut socket = Socket::open(service, laptop, 0).await;
        socket.send(&name, 2, &update).await;
        assert_eq!(socket.end().await, NOT_UNDERSTOOD, "{name}");
    }
    // More than goes whole: the server does not even read it.
    let mut socket = Socket::open(service, laptop, 0).await;
    socket.raw(vec![0; WHOLE + 1]).await;
    let end = socket.end().await;
    assert!(matches!(end, None | Some(1009)), "{end:?}");
    let long = json!({ "code": "x".repeat(5000), "name": "x" }).to_string();
    assert_eq!(service.post("workshop/join", &[], &long).0, 413);
    for odd in [
        "",
        "{",
        "[]",
        "null",
        "{\"key\":7}",
        "{\"key\":\"\\ud800\"}",
    ] {
        let (status, _) = service.post("workshop/devices", &[], odd);
        assert_eq!(status, 400, "{odd}");
    }
    let deep = "[".repeat(2000);
    assert_eq!(service.post("workshop/devices", &[], &deep).0, 400);
    // The others go on.
    let mut socket = Socket::open(service, phone, 0).await;
    assert!(socket.send("recipe/a", 2, &update).await);
    socket.until(&json!({ "saved": 1 })).await;
}
