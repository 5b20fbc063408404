//! Which form of a file is sent: a release carries Brotli and gzip, a build for
//! development only plain bytes.

use std::io::Read as _;

use crate::running::{Answer, Server, header, named_files};

/// Builds for development leave compression out.
const CARRIED: bool = !cfg!(debug_assertions);

fn bytes(answer: &mut Answer) -> Vec<u8> {
    answer.body_mut().read_to_vec().expect("a whole answer")
}

fn unpacked(coding: &str, packed: &[u8]) -> Vec<u8> {
    let mut plain = Vec::new();
    let read = match coding {
        "br" => brotli::Decompressor::new(packed, 4096).read_to_end(&mut plain),
        "gzip" => flate2::read::GzDecoder::new(packed).read_to_end(&mut plain),
        _ => (&mut &packed[..]).read_to_end(&mut plain),
    };
    read.expect("what is called packed unpacks");
    plain
}

fn expected(coding: &str) -> &str {
    if CARRIED { coding } else { "" }
}

/// RFC 9110, §12.5.3: what a browser accepts decides what it is sent.
#[test]
fn the_form_follows_what_the_browser_accepts() {
    let server = Server::start();
    for (accept, coding) in [
        ("br", expected("br")),
        ("gzip, deflate, br, zstd", expected("br")),
        ("gzip", expected("gzip")),
        ("gzip;q=1.0, br;q=0.5", expected("gzip")),
        ("br;q=0, *", expected("gzip")),
        ("*", expected("br")),
        ("identity", ""),
        ("deflate, zstd", ""),
        ("", ""),
    ] {
        let answer = server.get("/worker.js", &[("accept-encoding", accept)]);
        assert_eq!(answer.status(), 200, "{accept}");
        assert_eq!(header(&answer, "content-encoding"), coding, "{accept}");
        assert_eq!(header(&answer, "vary"), "Accept-Encoding", "{accept}");
    }
}

/// What is no longer than this may not become shorter, in bytes.
const SHORT: usize = 120;

#[test]
fn every_form_holds_the_same_file() {
    let server = Server::start();
    let mut paths = named_files(&server.text("/worker.js"));
    paths.extend([String::from("/"), String::from("/worker.js")]);
    for path in paths {
        let mut answer = server.get(&path, &[]);
        let plain = bytes(&mut answer);
        assert!(!plain.is_empty(), "{path}");
        // Pictures are packed already; what is in the language of whoever asks is
        // packed by the server, and in gzip only.
        let packed = header(&answer, "content-type") != "image/png";
        let spoken = !header(&answer, "content-language").is_empty();
        for coding in ["br", "gzip"] {
            let carried = if spoken {
                coding == "gzip"
            } else {
                CARRIED && packed && plain.len() > SHORT
            };
            let mut answer = server.get(&path, &[("accept-encoding", coding)]);
            let sent = bytes(&mut answer);
            let named = header(&answer, "content-encoding");
            if carried {
                assert_eq!(named, coding, "{path}");
                assert!(sent.len() < plain.len(), "{path} grows in {coding}");
            }
            assert!(
                unpacked(named, &sent) == plain,
                "{path} differs in {coding}"
            );
        }
    }
}

/// RFC 9110, §8.8.3.3: forms of one file have tags of their own.
#[test]
fn a_form_is_known_by_a_tag_of_its_own() {
    let server = Server::start();
    let tag = |accept| {
        let answer = server.get("/worker.js", &[("accept-encoding", accept)]);
        header(&answer, "etag").to_owned()
    };
    let (brotli, plain) = (tag("br"), tag("identity"));
    assert_eq!(brotli != plain, CARRIED, "{brotli} and {plain}");
    let again = |accept, known: &str| {
        let headers = [("accept-encoding", accept), ("if-none-match", known)];
        server.get("/worker.js", &headers).status().as_u16()
    };
    assert_eq!(again("br", &brotli), 304);
    assert_eq!(again("br", &format!("\"other\", W/{brotli}")), 304);
    assert_eq!(again("identity", &brotli), if CARRIED { 200 } else { 304 });
}
