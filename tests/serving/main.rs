//! Checks of the running server, over HTTP as a browser speaks it.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

mod compressed;
mod https;
mod keeping;
mod large_card;
mod methods;
mod running;
mod shared_pages;
mod stalled;

use std::net::TcpListener;
use std::process::Command;

use running::{Server, header, named_files, run};

#[test]
fn everything_named_is_served_and_kept_as_it_should_be() {
    let server = Server::start();
    for source in ["/", "/worker.js"] {
        let files = named_files(&server.text(source));
        assert!(files.len() >= 5, "{source} names only {files:?}");
        for file in files {
            let response = server.get(&file, &[]);
            assert_eq!(response.status(), 200, "{file}");
            let kept = header(&response, "cache-control");
            if file.starts_with("/assets/") {
                assert_eq!(kept, "public, max-age=31536000, immutable", "{file}");
            } else {
                assert_eq!(kept, "no-cache", "{file}");
            }
        }
    }
    for asked_anew in ["/", "/worker.js", "/manifest.webmanifest"] {
        let response = server.get(asked_anew, &[]);
        assert_eq!(
            header(&response, "cache-control"),
            "no-cache",
            "{asked_anew}"
        );
    }
}

/// JSON Schema 2020-12, core, 14.1: its media type. RFC 9110, §13.1.2: what a program
/// has already is not sent again.
#[test]
fn how_recipes_are_built_is_told_to_programs() {
    let server = Server::start();
    let at = "/recipe.schema.json";
    let answer = server.get(at, &[]);
    assert_eq!(header(&answer, "content-type"), "application/schema+json");
    let tag = header(&answer, "etag").to_owned();
    let text = server.text(at);
    let schema: serde_json::Value = serde_json::from_str(&text).expect("JSON");
    let draft = "https://json-schema.org/draft/2020-12/schema";
    assert_eq!(schema["$schema"], draft);
    // It names no machine.
    let addresses = text.matches("://").count();
    assert_eq!(addresses, 1, "{text}");
    let again = server.get(at, &[("if-none-match", &tag)]);
    assert_eq!(again.status(), 304);
    let packed = server.get(at, &[("accept-encoding", "gzip")]);
    assert_eq!(header(&packed, "content-encoding"), "gzip");
}

#[test]
fn places_in_the_app_open_the_page_and_missing_files_are_missing() {
    let server = Server::start();
    let page = server.text("/");
    assert!(page.contains("id=\"app\""), "{page}");
    for place in ["/recipes/1", "/bench/1/3", "/settings"] {
        assert_eq!(server.text(place), page, "{place}");
    }
    for file in [
        "/assets/none.js",
        "/favicon.ico",
        "/api/none",
        "/../Cargo.toml",
    ] {
        assert_eq!(server.get(file, &[]).status(), 404, "{file}");
    }
}

#[test]
fn a_known_page_is_not_sent_again() {
    let server = Server::start();
    let tag = header(&server.get("/", &[]), "etag").to_owned();
    assert!(tag.starts_with('"'), "{tag}");
    assert_eq!(server.get("/", &[("if-none-match", &tag)]).status(), 304);
    assert_eq!(
        server.get("/", &[("if-none-match", "\"other\"")]).status(),
        200
    );
}

/// RFC 9110, §12.5.4, and the members `lang` and `description` of the Web
/// Application Manifest.
#[test]
fn what_is_installed_is_described_in_its_readers_language() {
    let server = Server::start();
    let path = "/manifest.webmanifest";
    let mut tags = Vec::new();
    for (asked, language, described) in [
        ("de-CH, en;q=0.8", "de", "Faltkarten"),
        ("en, de;q=0.8", "en", "folded cards"),
        ("fr", "en", "folded cards"),
    ] {
        let mut response = server.get(path, &[("accept-language", asked)]);
        assert_eq!(
            header(&response, "content-type"),
            "application/manifest+json"
        );
        assert_eq!(header(&response, "content-language"), language, "{asked}");
        assert!(header(&response, "vary").contains("Accept-Language"));
        let tag = header(&response, "etag").to_owned();
        let known = [("accept-language", asked), ("if-none-match", &*tag)];
        assert_eq!(server.get(path, &known).status(), 304, "{asked}");
        tags.push(tag);
        let text = response.body_mut().read_to_string();
        let text = text.expect("the answer is text");
        let manifest: serde_json::Value = serde_json::from_str(&text).expect("it is JSON");
        assert_eq!(manifest["lang"], language, "{asked}");
        let description = manifest["description"].as_str().expect("it has one");
        assert!(description.contains(described), "{asked}: {description}");
    }
    assert_ne!(tags[0], tags[1]);
}

/// RFC 9110, §12.5.4, and the attribute `lang` of HTML: what the page says while the
/// app is not there is in its reader's language, and in no other.
#[test]
fn the_page_is_in_its_readers_language() {
    let server = Server::start();
    let mut tags = Vec::new();
    for (asked, language, says, says_not) in [
        ("de-CH, en;q=0.8", "de", "nicht starten", "could not"),
        ("en, de;q=0.8", "en", "could not start", "nicht starten"),
        ("fr", "en", "could not start", "nicht starten"),
    ] {
        let mut response = server.get("/settings", &[("accept-language", asked)]);
        assert_eq!(header(&response, "content-language"), language, "{asked}");
        assert!(header(&response, "vary").contains("Accept-Language"));
        tags.push(header(&response, "etag").to_owned());
        let page = response.body_mut().read_to_string();
        let page = page.expect("the answer is text");
        assert!(page.contains(&format!("<html lang=\"{language}\">")));
        assert!(page.contains(says) && !page.contains(says_not), "{page}");
    }
    assert_ne!(tags[0], tags[1]);
    assert_eq!(tags[1], tags[2]);
}

#[test]
fn every_answer_carries_the_policy() {
    let server = Server::start();
    for path in [
        "/",
        "/worker.js",
        "/health",
        "/api/release",
        "/assets/none.js",
    ] {
        let response = server.get(path, &[]);
        let policy = header(&response, "content-security-policy");
        assert!(policy.starts_with("default-src 'none'"), "{path}: {policy}");
        assert!(!policy.contains("unsafe-inline"), "{path}: {policy}");
        assert_eq!(
            header(&response, "x-content-type-options"),
            "nosniff",
            "{path}"
        );
    }
}

#[test]
fn health_and_release_are_answered() {
    let server = Server::start();
    let health: serde_json::Value =
        serde_json::from_str(&server.text("/health")).expect("health is JSON");
    assert_eq!(health["status"], "ok");
    let release: serde_json::Value =
        serde_json::from_str(&server.text("/api/release")).expect("the release is JSON");
    let id = release["id"].as_str().expect("a release has a name");
    assert!(server.text("/").contains(id), "the page names {id}");
    assert!(
        server.text("/worker.js").contains(id),
        "the worker names {id}"
    );
}

#[test]
fn a_taken_port_is_explained() {
    let taken = TcpListener::bind("127.0.0.1:0").expect("a free port");
    let port = taken.local_addr().expect("a bound port").port().to_string();
    let output = run(&["--port", &port]);
    assert_eq!(output.status.code(), Some(1));
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(said.contains(&format!("port {port} is taken")), "{said}");
    assert!(said.contains("--port"), "{said}");
}

#[test]
fn help_names_every_option() {
    let output = run(&["--help"]);
    assert!(output.status.success());
    let said = String::from_utf8_lossy(&output.stdout);
    for option in [
        "--port",
        "--bind",
        "--tls",
        "--address",
        "--behind",
        "--log",
    ] {
        assert!(said.contains(option), "{said}");
    }
}

#[cfg(unix)]
#[test]
fn stops_in_good_order_when_asked() {
    let mut server = Server::start();
    assert_eq!(server.get("/health", &[]).status(), 200);
    let asked = Command::new("kill")
        .args(["-TERM", &server.process.id().to_string()])
        .status()
        .expect("kill is a standard command");
    assert!(asked.success());
    assert!(server.process.wait().expect("the server ends").success());
}
