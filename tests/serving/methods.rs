//! What is asked of an address besides reading it.

use crate::running::{Server, header, named_files};

/// RFC 9110, §9.3.2: the headers of GET, without the content.
#[test]
fn head_tells_what_get_would() {
    let server = Server::start();
    let mut paths = named_files(&server.text("/"));
    paths.extend(
        [
            "/",
            "/worker.js",
            "/recipes/1",
            "/health",
            "/assets/none.js",
        ]
        .map(String::from),
    );
    for path in paths {
        for accept in ["identity", "br"] {
            let headers = [("accept-encoding", accept)];
            let get = server.get(&path, &headers);
            let mut head = server.ask("HEAD", &path, &headers);
            assert_eq!(head.status(), get.status(), "{path}");
            for name in [
                "cache-control",
                "content-encoding",
                "content-length",
                "content-security-policy",
                "content-type",
                "etag",
                "vary",
            ] {
                assert_eq!(header(&head, name), header(&get, name), "{name} of {path}");
            }
            let content = head.body_mut().read_to_vec().expect("a whole answer");
            assert!(content.is_empty(), "{path} has content");
        }
    }
}

/// RFC 9110, §15.5.6: a method that is not allowed is refused, and those that
/// are get named (OWASP Application Security Verification Standard 5.0, 4.1.4).
#[test]
fn other_methods_are_refused() {
    let server = Server::start();
    let asset = named_files(&server.text("/"))
        .into_iter()
        .next()
        .expect("the page names files");
    for path in ["/", "/recipes/1", "/worker.js", "/health", &asset] {
        for method in ["POST", "PUT", "DELETE", "PATCH", "FOLD"] {
            let answer = server.ask(method, path, &[]);
            assert_eq!(answer.status(), 405, "{method} {path}");
            assert_eq!(header(&answer, "allow"), "GET,HEAD", "{method} {path}");
            assert_eq!(
                header(&answer, "x-content-type-options"),
                "nosniff",
                "{method} {path}"
            );
        }
    }
    for (path, allowed) in [
        ("/api/release", "GET,HEAD"),
        ("/api/sync", "GET,HEAD"),
        ("/shared/token", "GET,HEAD"),
        ("/api/workshop/join", "POST"),
        ("/api/workshop/recover", "POST"),
        ("/api/share/open", "POST"),
    ] {
        for method in ["GET", "HEAD", "POST", "PUT", "DELETE", "TRACE", "FOLD"] {
            if allowed.split(',').any(|allowed| allowed == method) {
                continue;
            }
            let answer = server.ask(method, path, &[]);
            assert_eq!(answer.status(), 405, "{method} {path}");
            assert_eq!(header(&answer, "allow"), allowed, "{method} {path}");
        }
    }
    let head = server.ask("HEAD", "/api/release", &[]);
    assert_eq!(head.status(), 200);
}
