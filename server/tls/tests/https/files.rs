//! Certificates in files.

use std::fs;
use std::path::{Path, PathBuf};

use tempfile::TempDir;
use time::Duration;

use crate::outside::{Line, curl, openssl_well, serial};
use crate::site::{Plan, Site, machine, text};

/// A certificate that vouches for itself, and its key.
struct Pair {
    certificate: PathBuf,
    key: PathBuf,
}

impl Pair {
    fn make(folder: &Path, name: &str) -> Self {
        let certificate = folder.join(format!("{name}.pem"));
        let key = folder.join(format!("{name}-key.pem"));
        openssl_well(&[
            "req",
            "-x509",
            "-newkey",
            "ec",
            "-pkeyopt",
            "ec_paramgen_curve:P-256",
            "-nodes",
            "-days",
            "30",
            "-subj",
            "/CN=cards",
            "-addext",
            "subjectAltName=DNS:localhost,DNS:*.example.org",
            "-keyout",
            text(&key),
            "-out",
            text(&certificate),
        ]);
        Self { certificate, key }
    }

    fn plan(&self) -> Plan {
        Plan::files(&self.certificate, &self.key)
    }

    fn becomes(&self, other: &Self) {
        fs::copy(&other.certificate, &self.certificate).expect("a file");
        fs::copy(&other.key, &self.key).expect("a file");
    }
}

#[test]
fn they_are_served_and_exchanged_files_are_taken_up() {
    let folder = TempDir::new().expect("a folder");
    let used = Pair::make(folder.path(), "used");
    let next = Pair::make(folder.path(), "next");
    let trusted = Pair::make(folder.path(), "trusted");
    trusted.becomes(&used);
    let site = Site::start(&used.plan());
    let first = serial(site.port);
    let url = format!("https://localhost:{}/", site.port);
    let said = curl(&["--cacert", text(&used.certificate), &url]);
    assert_eq!(said.out, "the site", "{}", said.all);
    let mut line = Line::open(site.port, &trusted.certificate);
    let mut ask = || {
        line.send(b"GET / HTTP/1.1\r\nHost: localhost\r\n\r\n");
        line.until(b"the site");
    };
    ask();

    used.becomes(&next);
    let tls = std::sync::Arc::clone(&site.tls);
    site.runtime.spawn(async move {
        tls.keep_fresh(std::time::Duration::from_millis(10)).await;
    });
    let taken_up = (0..1000).any(|_| serial(site.port) != first);
    assert!(taken_up, "a thousand connections saw the old one");
    let said = curl(&["--cacert", text(&next.certificate), &url]);
    assert_eq!(said.out, "the site", "{}", said.all);
    ask();
}

#[test]
fn a_broken_exchange_keeps_the_old_until_it_is_mended() {
    let folder = TempDir::new().expect("a folder");
    let used = Pair::make(folder.path(), "used");
    let next = Pair::make(folder.path(), "next");
    let plan = used.plan();
    let site = Site::start(&plan);
    let first = serial(site.port);
    let check = || site.tls.check(machine(), plan.now);
    let fails = |part: &str| {
        let why = check().expect_err(part).to_string();
        assert!(why.contains(part), "{why}");
        assert!(why.contains(text(folder.path())), "{why}");
        assert_eq!(serial(site.port), first, "{part}");
    };

    fs::copy(&next.certificate, &used.certificate).expect("a file");
    fails("does not belong to the certificate");
    fs::write(&used.certificate, "not a certificate").expect("a file");
    fails("holds no certificate");
    fs::remove_file(&used.certificate).expect("the file");
    fails("cannot be read");
    fs::copy(&next.certificate, &used.certificate).expect("a file");
    fs::write(&used.key, "").expect("a file");
    fails("holds no private key");

    used.becomes(&next);
    check().expect("it is whole again");
    assert_ne!(serial(site.port), first);
}

/// The certificate is good for thirty days.
#[test]
fn one_that_runs_out_unrenewed_is_told_of_in_time() {
    let folder = TempDir::new().expect("a folder");
    let used = Pair::make(folder.path(), "used");
    let plan = used.plan();
    let site = Site::start(&plan);
    let check = |days| site.tls.check(machine(), plan.now + Duration::days(days));
    check(22).expect("a week and more is left");
    for days in [24, 31] {
        let why = check(days).expect_err("it is late").to_string();
        assert!(why.contains("runs out on"), "{why}");
        assert!(why.contains(text(&used.certificate)), "{why}");
    }
    used.becomes(&Pair::make(folder.path(), "next"));
    check(0).expect("it is renewed");
}

#[test]
fn what_is_wrong_at_the_start_is_said() {
    let folder = TempDir::new().expect("a folder");
    let one = Pair::make(folder.path(), "one");
    let two = Pair::make(folder.path(), "two");
    let none = folder.path().join("none.pem");
    let start =
        |certificate: &Path, key: &Path| Plan::files(certificate, key).refused(folder.path());
    for (why, parts) in [
        (start(&none, &one.key), ["none.pem", "cannot be read"]),
        (
            start(&one.certificate, &none),
            ["none.pem", "cannot be read"],
        ),
        (
            start(&one.certificate, folder.path()),
            ["", "cannot be read"],
        ),
        (start(&one.key, &one.key), ["one-key.pem", "no certificate"]),
        (
            start(&one.certificate, &one.certificate),
            ["one.pem", "no private key"],
        ),
        (
            start(&one.certificate, &two.key),
            ["two-key.pem", "does not belong"],
        ),
    ] {
        assert!(
            parts.iter().all(|part| why.contains(part)),
            "{parts:?}: {why}"
        );
    }
    for days in [-2, 40] {
        let mut plan = one.plan();
        plan.now += Duration::days(days);
        let why = plan.refused(folder.path());
        assert!(
            why.contains("is valid from") && why.contains("one.pem"),
            "{why}"
        );
    }
}

#[test]
fn plain_http_is_sent_to_a_host_of_the_certificate_or_nowhere() {
    let folder = TempDir::new().expect("a folder");
    let pair = Pair::make(folder.path(), "pair");
    let site = Site::start(&pair.plan());
    assert_eq!(
        site.tls.origin().to_string(),
        format!("https://localhost:{}", site.port)
    );
    assert_eq!(site.tls.fingerprint(), None);
    let url = format!("http://127.0.0.1:{}/recipes/1", site.port);
    let ask = |host: &str| {
        let host = format!("Host: {host}");
        curl(&[
            "--write-out",
            "%{http_code} %{redirect_url}",
            "--header",
            &host,
            &url,
        ])
        .out
    };
    for host in ["localhost", "cards.example.org"] {
        assert_eq!(
            ask(host),
            format!("307 https://{host}:{}/recipes/1", site.port)
        );
    }
    for host in ["127.0.0.1", "example.org", "a.b.example.org", "example.com"] {
        let said = ask(host);
        assert!(
            said.contains("speaks HTTPS") && said.ends_with("400 "),
            "{host}: {said}"
        );
    }
}
