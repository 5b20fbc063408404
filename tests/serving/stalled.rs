//! Connections on which nobody asks anything, held open by the dozen.
//!
//! OWASP Application Security Verification Standard 5.0, 2.4.1 and 15.2.2.

#![cfg(unix)]

use std::io::{Read as _, Write as _};
use std::net::TcpStream;
use std::process::Command;
use std::time::Duration;

use crate::running::{BINARY, Started};

/// Few files, as small machines grant them: the connections alone are more.
const FILES: u32 = 128;

#[test]
fn two_hundred_who_say_half_a_sentence_lock_nobody_out() {
    for tls in [&[][..], &["--tls", "own"]] {
        let mut limited = Command::new("sh");
        let begin = format!("ulimit -n {FILES}; exec \"$0\" \"$@\"");
        limited.args(["-c", &begin, BINARY]).args(tls);
        let server = Started::of(&mut limited);
        let first = server.said.lines().next().unwrap_or_default();
        let url = first.rsplit(' ').next().expect("an address");
        let port = url.trim_end_matches('/').rsplit(':').next();
        let port: u16 = port.and_then(|port| port.parse().ok()).expect("a port");
        let mut stalled = Vec::new();
        for _ in 0..200 {
            let mut stream = TcpStream::connect(("127.0.0.1", port)).expect("it listens");
            // Half of the head of a request, or of the first message of TLS.
            let half: &[u8] = if tls.is_empty() {
                b"GET / HTTP/1.1\r\nHost: "
            } else {
                &[22, 3, 1]
            };
            stream.write_all(half).expect("it takes something");
            stalled.push(stream);
        }
        let health = format!(
            "{}://127.0.0.1:{port}/health",
            &url[..url.find(':').expect("a scheme")]
        );
        let said = Command::new("curl")
            .args(["--silent", "--show-error", "--insecure", "--max-time", "60"])
            .args(["--noproxy", "*", &health])
            .output()
            .expect("curl is needed");
        let said = String::from_utf8_lossy(&said.stdout);
        assert!(said.contains("ok"), "{tls:?}: {said}");
        // All of them are let go of, without a word more from them.
        for mut stream in stalled {
            let patience = Some(Duration::from_mins(1));
            stream.set_read_timeout(patience).expect("a time");
            let mut rest = Vec::new();
            if let Err(why) = stream.read_to_end(&mut rest) {
                assert_eq!(why.kind(), std::io::ErrorKind::ConnectionReset);
            }
        }
    }
}
