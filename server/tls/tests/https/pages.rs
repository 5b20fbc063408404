//! What is answered over plain HTTP beside the own authority.

use std::fs;

use crate::outside::{curl, openssl_well};
use crate::site::{Plan, Site, text};

fn digits(text: &str) -> String {
    text.chars().filter(char::is_ascii_hexdigit).collect()
}

#[test]
fn the_page_explains_and_names_the_fingerprint() {
    let site = Site::start(&Plan::own());
    let authority = site.authority();
    let about = [
        "x509",
        "-noout",
        "-fingerprint",
        "-sha256",
        "-in",
        text(&authority),
    ];
    let computed = openssl_well(&about);
    let (_, computed) = computed.split_once('=').expect("a fingerprint");
    let own = site.tls.fingerprint().expect("an authority");
    assert_eq!(digits(&own), digits(computed));

    let url = format!("http://localhost:{}/", site.plain);
    let page = curl(&["--include", &url]).out.replace("\r\n", "\n");
    assert!(page.contains(&own), "{page}");
    for part in [
        "HTTP/1.1 200 OK\n",
        "content-type: text/html; charset=utf-8\n",
        "content-security-policy: default-src 'none';",
        "href=\"/foldwright-authority.crt\"",
        "Foldwright on laptop, ",
        "Remove it later",
    ] {
        assert!(page.contains(part), "{part}: {page}");
    }
    assert!(
        page.contains(&format!("href=\"https://localhost:{}/\"", site.port)),
        "{page}"
    );
    for never in [
        "<script",
        "onclick",
        "style=",
        "{",
        "strict-transport-security",
    ] {
        assert!(!page.contains(never), "{never}: {page}");
    }
    // RFC 9110, §12.5.4 and §12.5.5.
    let german = ["--include", "--header", "Accept-Language: de-AT, en;q=0.5"];
    let german = curl(&[&german[..], &[&url]].concat()).out;
    let german = german.replace("\r\n", "\n");
    for part in [
        "content-language: de\n",
        "vary: Accept-Language\n",
        "<html lang=\"de\">",
        "Diesem Foldwright-Server vertrauen",
        "href=\"/foldwright-authority.crt\"",
        &own,
    ] {
        assert!(german.contains(part), "{part}: {german}");
    }
    for part in ["<li>", "<details>", "<kbd>", "<p"] {
        let [english, german] = [&page, &german].map(|page| page.matches(part).count());
        assert_eq!(english, german, "{part}");
    }
    let style = format!("http://localhost:{}/trust.css", site.plain);
    let style = curl(&["--include", &style]).out;
    assert!(style.contains("content-type: text/css"), "{style}");
}

#[test]
fn the_certificate_comes_as_phones_install_it() {
    let site = Site::start(&Plan::own());
    let file = site.path("download.crt");
    let url = format!("http://127.0.0.1:{}/foldwright-authority.crt", site.plain);
    let said = curl(&[
        "--output",
        text(&file),
        "--write-out",
        "%{content_type}",
        &url,
    ]);
    assert_eq!(said.out, "application/x-x509-ca-cert");
    let kept = site.path("authority.pem");
    let read = |arguments: &[&str]| openssl_well(&[&["x509"], arguments].concat());
    assert_eq!(
        read(&["-inform", "der", "-in", text(&file)]),
        read(&["-in", text(&kept)])
    );
    let holds = fs::read(&file).expect("the file");
    assert!(!String::from_utf8_lossy(&holds).contains("PRIVATE"));
}

#[test]
fn everything_else_goes_to_https_on_either_port() {
    let site = Site::start(&Plan::own());
    for port in [site.plain, site.port] {
        let at = |path: &str, more: &[&str]| {
            let url = format!("http://localhost:{port}{path}");
            let first = [
                "--output",
                "-",
                "--write-out",
                "%{http_code} %{redirect_url}",
            ];
            curl(&[&first[..], more, &[&url]].concat()).out
        };
        for path in ["/recipes/1?a=b%20c", "/api/sync/join", "/authority.pem"] {
            let said = at(path, &[]);
            let there = format!("307 https://localhost:{}{path}", site.port);
            assert_eq!(said, there);
        }
        let said = at("/api/sync/join", &["--data", "secret"]);
        assert!(said.starts_with("307 https://localhost:"), "{said}");
        assert!(at("/", &[]).contains("Trust this Foldwright server"));
        for header in ["Host: laptop.local", "Host: LAPTOP.local.:80"] {
            let said = at("/bench", &["--header", header]);
            assert_eq!(
                said,
                format!("307 https://laptop.local:{}/bench", site.port)
            );
        }
    }
}

#[test]
fn no_redirect_leads_to_a_stranger() {
    let site = Site::start(&Plan::own());
    let at = |path: &str, more: &[&str]| {
        let url = format!("http://localhost:{}{path}", site.plain);
        curl(&[&["--include", "--path-as-is"], more, &[&url]].concat()).out
    };
    for host in [
        "example.org",
        "localhost.example.org",
        "localhost@example.org",
        "example.org:80",
        "localhost:80@example.org",
        "localhost/../example.org",
        "192.168.1.6",
        "[::2]",
        "local host",
        "%6cocalhost.example.org",
        "",
    ] {
        let said = at("/x", &["--header", &format!("Host: {host}")]);
        assert!(!said.to_lowercase().contains("location:"), "{host}: {said}");
    }
    let own = format!("https://localhost:{}/", site.port);
    for (path, target) in [
        ("//example.org/x", None),
        ("/\\example.org/x", None),
        ("/@example.org/x", None),
        ("/x", Some("http://example.org/x")),
        ("/x", Some("//example.org/x")),
        ("/x", Some("*")),
    ] {
        let more: Vec<&str> = target
            .into_iter()
            .flat_map(|to| ["--request-target", to])
            .collect();
        let said = at(path, &more);
        let to = said
            .lines()
            .find_map(|line| line.strip_prefix("location: "));
        assert!(
            to.is_none_or(|to| to.starts_with(&own)),
            "{path} {target:?}: {said}"
        );
        assert!(said.starts_with("HTTP/1.1 "), "{path} {target:?}: {said}");
    }
}
