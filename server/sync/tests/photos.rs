//! Photographs of paper at the server: who may do what with them, and what is taken.

#![expect(
    clippy::unwrap_used,
    reason = "a test may stop where its own pieces do not fit"
)]

mod common;

use std::process::Command;

use common::Cluster;
use common::service::{Harbour, Service, harbour};
use foldwright_api::{LARGEST_PHOTO, MOST_PHOTOS};
use serde_json::{Value, json};

/// A file that begins as a JPEG and is as large as that.
fn jpeg(size: usize, filled: u8) -> Vec<u8> {
    let mut file = vec![filled; size];
    file[..4].copy_from_slice(b"\xff\xd8\xff\xe0");
    file
}

/// The first half of a file's SHA-256, by Python's hashlib.
fn named(file: &[u8]) -> String {
    use std::io::Write as _;
    let script = "import sys,hashlib; \
                  print(hashlib.sha256(sys.stdin.buffer.read()).hexdigest()[:32])";
    let mut python = Command::new("python3")
        .args(["-c", script])
        .stdin(std::process::Stdio::piped())
        .stdout(std::process::Stdio::piped())
        .spawn()
        .unwrap();
    python.stdin.take().unwrap().write_all(file).unwrap();
    let said = python.wait_with_output().unwrap().stdout;
    String::from_utf8(said).unwrap().trim().to_owned()
}

/// A device that asks for photographs.
struct Device<'a>(&'a Service, String);

impl<'a> Device<'a> {
    fn of(service: &'a Service, key: &str) -> Self {
        Self(service, format!("Bearer {key}"))
    }

    fn ask(&self, method: &str, path: &str, body: &[u8]) -> (u16, Value) {
        let headers = [("authorization", &*self.1)];
        let (status, _, body) = self.0.photos(method, path, &headers, body);
        (status, serde_json::from_slice(&body).unwrap_or(Value::Null))
    }

    fn put(&self, file: &[u8]) -> (u16, Value) {
        self.ask("PUT", &format!("/{}", named(file)), file)
    }

    fn list(&self) -> Value {
        let (status, list) = self.ask("GET", "", &[]);
        assert_eq!(status, 200, "{list}");
        list
    }
}

fn goes_along(service: &Service, laptop: &str, phone: &str) {
    let (laptop, phone) = (Device::of(service, laptop), Device::of(service, phone));
    assert_eq!(laptop.list(), json!([]));
    let file = jpeg(LARGEST_PHOTO, 7);
    let name = named(&file);
    assert_eq!(laptop.put(&file).0, 204);
    assert_eq!(laptop.put(&file).0, 204, "there already");
    let there = json!([{ "name": name, "bytes": LARGEST_PHOTO }]);
    assert_eq!(phone.list(), there);
    let headers = [("authorization", &*phone.1)];
    let path = format!("/{name}");
    let (status, headers, bytes) = service.photos("GET", &path, &headers, &[]);
    assert_eq!((status, bytes == file), (200, true));
    // RFC 9111 and RFC 8246; nosniff as in the WHATWG's Fetch standard.
    for (name, value) in [
        ("content-type", "image/jpeg"),
        ("cache-control", "private, max-age=31536000, immutable"),
        ("vary", "Authorization"),
        ("x-content-type-options", "nosniff"),
    ] {
        assert_eq!(headers[name], value);
    }
    assert_eq!(phone.ask("HEAD", &path, &[]).0, 200);
    let (_, room) = service.ask(
        "workshop/room",
        &json!({ "key": phone.1.strip_prefix("Bearer ") }),
    );
    assert!(room["taken"].as_u64() >= Some(LARGEST_PHOTO as u64));
    assert_eq!(phone.ask("DELETE", &path, &[]).0, 204);
    assert_eq!(phone.ask("DELETE", &path, &[]).0, 404, "once");
    assert_eq!(laptop.ask("GET", &path, &[]).0, 404);
    assert_eq!(laptop.ask("HEAD", &path, &[]).0, 404);
    assert_eq!(laptop.list(), json!([]));
}

#[test]
fn what_one_device_sends_another_gets() {
    let harbour = harbour();
    let (service, laptop, phone) = harbour.parts();
    goes_along(service, laptop, phone);
    let cluster = Cluster::start();
    let service = Service::start(&cluster.database("workshops"));
    let laptop = service.join(&service.code, "laptop");
    let phone = service.join_by(&laptop, "phone");
    goes_along(&service, &laptop, &phone);
}

/// OWASP Application Security Verification Standard 5.0, 5.2.1 and 5.2.2: sizes and kinds
/// of files are checked here, whatever is said of them.
#[test]
fn only_photographs_are_taken() {
    let harbour = harbour();
    let (service, laptop, _) = harbour.parts();
    let laptop = Device::of(service, laptop);
    assert_eq!(
        laptop.put(&jpeg(LARGEST_PHOTO + 1, 7)),
        (413, json!("TooLarge"))
    );
    for other in [
        &b""[..],
        b"GIF89a",
        b"<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'/>",
        b"<!doctype html><script>alert(1)</script>",
        b"RIFF\0\0\0\0WAVEfmt ",
    ] {
        assert_eq!(laptop.put(other), (415, json!("NoPhotograph")), "{other:?}");
    }
    let file = jpeg(100, 7);
    let other = named(&jpeg(100, 8));
    assert_eq!(
        laptop.ask("PUT", &format!("/{other}"), &file),
        (422, json!("OtherName"))
    );
    // Names are compared and never followed.
    let upper = named(&file).to_uppercase();
    for path in [
        "/",
        "/x",
        "/..%2f..%2fworkshops.db",
        "/%00",
        "/%ff",
        "/a/b",
        &format!("/{upper}"),
        &format!("/{}0", named(&file)),
    ] {
        for method in ["GET", "PUT", "DELETE"] {
            let status = laptop.ask(method, path, &file).0;
            assert!([400, 404].contains(&status), "{method} {path}: {status}");
        }
    }
    for method in ["POST", "PATCH"] {
        assert_eq!(
            laptop.ask(method, &format!("/{}", named(&file)), &file).0,
            405
        );
    }
    assert_eq!(laptop.list(), json!([]), "nothing was taken");
}

/// 8.2.1, 8.2.2 and 8.4.1 of the same: nothing without a key, nothing of others; 3.5.1:
/// nor for pages of other sites.
#[test]
fn photographs_are_for_their_workshop_alone() {
    let cluster = Cluster::start();
    let place = cluster.database("workshops");
    // The codes of two servers nobody uses yet are for two workshops.
    let (service, other) = (Service::start(&place), Service::start(&place));
    let harbour = service.join(&service.code, "harbour");
    let hill = other.join(&other.code, "hill");
    let (harbour, hill) = (Device::of(&service, &harbour), Device::of(&service, &hill));
    let file = jpeg(100, 7);
    let path = format!("/{}", named(&file));
    assert_eq!(harbour.put(&file).0, 204);
    assert_eq!(hill.list(), json!([]));
    for method in ["GET", "HEAD", "DELETE"] {
        assert_eq!(hill.ask(method, &path, &[]).0, 404, "{method}");
    }
    // Theirs is another one of the same name.
    assert_eq!(hill.put(&file).0, 204);
    assert_eq!(hill.ask("DELETE", &path, &[]).0, 204);
    assert_eq!(harbour.ask("GET", &path, &[]).0, 200);
    let key = harbour.1.strip_prefix("Bearer ").unwrap();
    for shown in [
        "",
        "Bearer",
        "Bearer ",
        key,
        &format!("bearer {key}"),
        "Bearer ' OR 1=1 --",
    ] {
        for (method, path) in [
            ("GET", ""),
            ("GET", &*path),
            ("PUT", &path),
            ("DELETE", &path),
        ] {
            let shown = [("authorization", shown)];
            let (status, _, said) = service.photos(method, path, &shown, &file);
            assert_eq!(status, 401, "{method} {path} {shown:?}: {said:?}");
        }
    }
    let foreign = [
        ("authorization", &*harbour.1),
        ("origin", "https://evil.example"),
    ];
    for method in ["GET", "PUT", "DELETE"] {
        assert_eq!(service.photos(method, &path, &foreign, &file).0, 403);
    }
    // One that was removed has no key any more.
    let lost = service.join_by(key, "lost");
    let id = service.device(key, "lost");
    let lost = Device::of(&service, &lost);
    assert_eq!(lost.ask("GET", &path, &[]).0, 200);
    let revoke = json!({ "key": key, "id": id });
    assert_eq!(service.ask("workshop/revoke", &revoke).0, 200);
    assert_eq!(lost.ask("GET", &path, &[]).0, 401);
    assert_eq!(harbour.ask("GET", &path, &[]).0, 200, "still there");
}

#[test]
fn a_workshop_has_room_for_so_many() {
    let Harbour {
        folder: _folder,
        service,
        laptop,
        ..
    } = harbour();
    let laptop = Device::of(&service, &laptop);
    let file = |number: usize| {
        let mut file = jpeg(100, 7);
        file.extend(number.to_be_bytes());
        file
    };
    for number in 0..MOST_PHOTOS {
        assert_eq!(laptop.put(&file(number)).0, 204, "{number}");
    }
    assert_eq!(laptop.put(&file(MOST_PHOTOS)), (507, json!("Full")));
    assert_eq!(laptop.put(&file(3)).0, 204, "there already");
    let path = format!("/{}", named(&file(3)));
    assert_eq!(laptop.ask("DELETE", &path, &[]).0, 204);
    assert_eq!(laptop.put(&file(MOST_PHOTOS)).0, 204);
}
