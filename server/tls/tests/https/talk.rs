//! What goes over the encrypted connections.

use std::net::TcpStream;

use crate::outside::{Line, curl, openssl};
use crate::site::{Plan, Site, text};

#[test]
fn the_other_side_is_known_and_sockets_open() {
    let site = Site::start(&Plan::own());
    let authority = site.authority();
    let url = format!("https://localhost:{}/peer", site.port);
    let said = curl(&["--cacert", text(&authority), &url]);
    assert_eq!(said.out, "127.0.0.1", "{}", said.all);

    let mut line = Line::open(site.port, &authority);
    // The key of the example in RFC 6455, §1.3, and the answer it must get.
    line.send(
        b"GET /echo HTTP/1.1\r\nHost: localhost\r\nConnection: Upgrade\r\nUpgrade: websocket\r\n\
          Sec-WebSocket-Version: 13\r\nSec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==\r\n\r\n",
    );
    let head = String::from_utf8(line.until(b"\r\n\r\n")).expect("text");
    assert!(head.starts_with("HTTP/1.1 101 "), "{head}");
    assert!(head.contains("s3pPLMBiTxaQ9kYGzzhZRbK+xOo="), "{head}");
    // The masked and the unmasked “Hello” of RFC 6455, §5.7.
    line.send(&[
        0x81, 0x85, 0x37, 0xfa, 0x21, 0x3d, 0x7f, 0x9f, 0x4d, 0x51, 0x58,
    ]);
    assert_eq!(line.until(b"Hello"), b"\x81\x05Hello");
}

#[test]
fn only_versions_that_are_still_sound_are_spoken() {
    let site = Site::start(&Plan::own());
    let to = format!("localhost:{}", site.port);
    let speak = |version| {
        let weak = "DEFAULT@SECLEVEL=0";
        openssl(&["s_client", version, "-cipher", weak, "-connect", &to])
    };
    for version in ["-tls1_2", "-tls1_3"] {
        let said = speak(version);
        assert!(said.well, "{version}: {}", said.all);
    }
    for version in ["-tls1", "-tls1_1"] {
        let said = speak(version);
        assert!(!said.well, "{version}: {}", said.all);
        let cut = said.all.contains("no peer certificate") && said.all.contains("SSL alert");
        assert!(cut, "{version}: {}", said.all);
    }
}

#[test]
fn who_says_nothing_keeps_nobody_waiting() {
    let site = Site::start(&Plan::own());
    let silent: Vec<_> = (0..20)
        .map(|_| TcpStream::connect(("127.0.0.1", site.port)).expect("it listens"))
        .collect();
    let url = format!("https://localhost:{}/", site.port);
    let said = curl(&["--cacert", text(&site.authority()), &url]);
    assert_eq!(said.out, "the site", "{}", said.all);
    assert_eq!(silent.len(), 20);
}

#[test]
fn stopping_waits_for_answers_under_way() {
    let mut site = Site::start(&Plan::own());
    let mut line = Line::open(site.port, &site.authority());
    line.send(b"GET /slow HTTP/1.1\r\nHost: localhost\r\n\r\n");
    site.runtime.block_on(site.slow.wait());
    let stopping = site.stop();
    while TcpStream::connect(("127.0.0.1", site.port)).is_ok() {
        std::thread::yield_now();
    }
    site.runtime.block_on(site.slow.wait());
    line.until(b"at last");
    site.runtime.block_on(stopping).expect("it ends well");
}
