//! The server's binary over HTTPS, asked with curl.

use std::process::{Command, Output};

use crate::running::{Started, run};

fn curl(arguments: &[&str]) -> Output {
    Command::new("curl")
        .args([
            "--silent",
            "--show-error",
            "--max-time",
            "30",
            "--noproxy",
            "*",
        ])
        .args(arguments)
        .output()
        .expect("curl is needed")
}

#[test]
fn an_authority_of_its_own_is_kept_beside_the_workshops_and_vouches_for_it() {
    let mut server = Started::with(&["--tls", "own"]);
    let kept = server.folder.path().join("foldwright-tls/authority.pem");
    let kept = kept.to_str().expect("a plain path");
    let health = format!("{}/health", server.address("https://"));
    let said = curl(&["--include", "--cacert", kept, &health]);
    let said = String::from_utf8_lossy(&said.stdout);
    assert!(said.contains("\"status\":\"ok\""), "{said}");
    assert!(said.contains("content-security-policy"), "{said}");
    assert!(!said.contains("strict-transport-security"), "{said}");
    // 60 is curl's “peer certificate cannot be authenticated”.
    assert_eq!(curl(&[&health]).status.code(), Some(60));

    let page = curl(&[&format!("{}/", server.address("http://"))]);
    let page = String::from_utf8_lossy(&page.stdout);
    let rows: Vec<&str> = server
        .said
        .lines()
        .filter(|line| line.starts_with("  "))
        .collect();
    assert_eq!(rows.len(), 4, "{}", server.said);
    for row in rows {
        assert!(page.contains(row.trim()), "{row}: {page}");
    }

    #[cfg(unix)]
    {
        let id = server.process.id().to_string();
        let asked = Command::new("kill").args(["-TERM", &id]).status();
        assert!(asked.expect("kill is a standard command").success());
        assert!(server.process.wait().expect("the server ends").success());
    }
}

/// OWASP Application Security Verification Standard 5.0, 3.4.1, for a domain:
/// an authority of one's own can be lost, and plain HTTP is the trusting page's.
#[test]
fn browsers_are_told_to_take_only_https_from_a_domain() {
    let folder = tempfile::TempDir::new().expect("a folder");
    let [certificate, key] = ["cert.pem", "key.pem"].map(|name| {
        let path = folder.path().join(name);
        path.to_str().expect("a plain path").to_owned()
    });
    for (names, told) in [
        ("DNS:cards.example.org", true),
        ("DNS:*.example.org", true),
        ("DNS:laptop.local,DNS:localhost,IP:127.0.0.1", false),
    ] {
        let made = Command::new("openssl")
            .args(["req", "-x509", "-newkey", "ec", "-nodes", "-days", "30"])
            .args(["-pkeyopt", "ec_paramgen_curve:prime256v1", "-subj", "/CN=x"])
            .args(["-addext", &format!("subjectAltName={names}")])
            .args(["-keyout", &key, "-out", &certificate])
            .output()
            .expect("openssl is needed");
        assert!(made.status.success(), "{made:?}");
        let server = Started::with(&["--tls", &format!("{certificate},{key}")]);
        let port = server
            .said
            .lines()
            .next()
            .and_then(|line| line.trim_end_matches('/').rsplit(':').next());
        let port = port.expect("an address");
        for path in ["/", "/health", "/none.js", "/shared/none"] {
            let url = format!("https://127.0.0.1:{port}{path}");
            let said = curl(&["--insecure", "--include", &url]);
            let said = String::from_utf8_lossy(&said.stdout).to_lowercase();
            assert!(said.starts_with("http/1.1"), "{said}");
            let header = said.contains("strict-transport-security: max-age=31536000\r\n");
            assert_eq!(header, told, "{names} {path}: {said}");
        }
        let plain = curl(&["--include", &format!("http://127.0.0.1:{port}/")]);
        let plain = String::from_utf8_lossy(&plain.stdout).to_lowercase();
        assert!(!plain.contains("strict-transport-security"), "{plain}");
    }
}

#[test]
fn plain_http_for_others_is_said_aloud_unless_a_proxy_is_in_front() {
    let open = ["--bind", "0.0.0.0"];
    let server = Started::with(&open);
    assert!(
        server
            .said
            .starts_with("Foldwright is open at http://127.0.0.1:"),
        "{}",
        server.said
    );
    assert!(
        server.said.contains("!! HTTPS at home: --tls own."),
        "{}",
        server.said
    );

    let address = ["--address", "https://cards.example.org"];
    let server = Started::with(&[open, address].concat());
    let first = server.said.lines().next();
    assert_eq!(
        first,
        Some("Foldwright is open at https://cards.example.org/")
    );
    assert!(!server.said.contains("!!"), "{}", server.said);

    let server = Started::with(&[]);
    assert!(!server.said.contains("!!"), "{}", server.said);
}

#[test]
fn what_cannot_be_meant_is_explained() {
    for (arguments, part) in [
        (&["--tls", "yes"][..], "--tls cert.pem,key.pem"),
        (&["--tls", "none.pem,key.pem"], "none.pem cannot be read"),
        (
            &["--address", "cards.example.org/x"],
            "https://cards.example.org",
        ),
        (
            &["--address", "https://cards.example.org/x"],
            "a host and a port",
        ),
        (&["--trust-port", "4748"], "--tls"),
        (&["--behind", "proxy"], "--behind 10.0.0.0/8"),
        (
            &["--tls", "a.pem,b.pem", "--trust-port", "4748"],
            "--trust-port belongs to --tls own",
        ),
        (
            &["--tls", "a.pem,b.pem", "--tls-folder", "x"],
            "--tls-folder belongs to --tls own",
        ),
    ] {
        let output = run(&[&["--port", "0"], arguments].concat());
        assert!(!output.status.success(), "{arguments:?}");
        let said = String::from_utf8_lossy(&output.stderr);
        assert!(said.contains(part), "{arguments:?}: {said}");
    }
}
