//! The authority of one's own.

use std::fs;
use std::path::Path;

use foldwright_tls::Names;
use tempfile::TempDir;
use time::{Duration, OffsetDateTime};

use crate::outside::{Line, curl, openssl, openssl_well, serial};
use crate::site::{Plan, Site, machine, nowhere, text};

fn connect(site: &Site, authority: &Path, check: &[&str]) -> crate::outside::Said {
    let to = format!("localhost:{}", site.port);
    let first = [
        "s_client",
        "-verify_return_error",
        "-connect",
        &to,
        "-CAfile",
    ];
    openssl(&[&first[..], &[text(authority)], check].concat())
}

/// The certificate the server shows, in a file.
fn shown(site: &Site) -> std::path::PathBuf {
    let (all, alone) = (site.path("shown.txt"), site.path("shown.pem"));
    let to = format!("localhost:{}", site.port);
    let said = openssl_well(&["s_client", "-connect", &to]);
    fs::write(&all, said).expect("a file");
    openssl_well(&["x509", "-in", text(&all), "-out", text(&alone)]);
    alone
}

#[test]
fn whoever_trusts_the_authority_gets_in_under_every_name() {
    let site = Site::start(&Plan::own());
    let authority = site.authority();
    for name in ["localhost", "laptop", "laptop.local"] {
        let said = connect(&site, &authority, &["-verify_hostname", name]);
        assert!(said.well, "{name}: {}", said.all);
    }
    for ip in ["127.0.0.1", "::1", "192.168.1.5"] {
        let said = connect(&site, &authority, &["-verify_ip", ip]);
        assert!(said.well, "{ip}: {}", said.all);
    }
    for host in ["localhost", "127.0.0.1", "laptop.local"] {
        let url = format!("https://{host}:{}/", site.port);
        let here = format!("laptop.local:{}:127.0.0.1", site.port);
        let said = curl(&["--cacert", text(&authority), "--resolve", &here, &url]);
        assert_eq!(said.out, "the site", "{host}: {}", said.all);
    }
}

#[test]
fn other_names_and_strangers_do_not() {
    let site = Site::start(&Plan::own());
    let authority = site.authority();
    let said = connect(&site, &authority, &["-verify_hostname", "example.org"]);
    assert!(
        !said.well && said.all.contains("ostname mismatch"),
        "{}",
        said.all
    );
    let said = connect(&site, &authority, &["-verify_ip", "192.168.1.6"]);
    assert!(
        !said.well && said.all.contains("IP address mismatch"),
        "{}",
        said.all
    );

    // 60 is curl's “peer certificate cannot be authenticated”.
    let url = format!("https://localhost:{}/", site.port);
    assert_eq!(curl(&[&url]).code, Some(60));
    let other = Site::start(&Plan::own());
    let said = curl(&["--cacert", text(&other.authority()), &url]);
    assert_eq!(said.code, Some(60), "{}", said.all);
}

/// RFC 5280 for the fields; that phones want the names as alternatives, a
/// purpose, and a life of 398 days at most is what their makers publish.
#[test]
fn certificates_say_what_they_are_for() {
    let site = Site::start(&Plan::own());
    let (authority, shown) = (site.authority(), shown(&site));
    let about = |file: &Path| openssl_well(&["x509", "-noout", "-text", "-in", text(file)]);

    let said = about(&authority);
    for part in [
        "Basic Constraints: critical\n                CA:TRUE, pathlen:0",
        "Key Usage: critical\n                Certificate Sign\n",
        "Extended Key Usage: \n                TLS Web Server Authentication\n",
        "Name Constraints: critical",
        "DNS:local\n",
        "IP:192.168.0.0/255.255.0.0",
        "IP:172.16.0.0/255.240.0.0",
        "NIST CURVE: P-256",
    ] {
        assert!(said.contains(part), "{part}: {said}");
    }
    assert!(!said.contains("DNS:laptop.local"), "{said}");

    let said = about(&shown);
    for part in [
        "TLS Web Server Authentication",
        "Key Usage: critical\n                Digital Signature\n",
        "DNS:laptop, DNS:laptop.local, DNS:localhost, IP Address:127.0.0.1, \
         IP Address:192.168.1.5, IP Address:0:0:0:0:0:0:0:1",
        "Authority Key Identifier",
        "NIST CURVE: P-256",
    ] {
        assert!(said.contains(part), "{part}: {said}");
    }
}

#[test]
fn certificates_live_as_long_as_devices_accept() {
    const DAY: i64 = 24 * 60 * 60;
    let plan = Plan::own();
    let site = Site::start(&plan);
    let (authority, shown) = (site.authority(), shown(&site));
    let at = |file: &Path, seconds: i64| {
        let time = (plan.now.unix_timestamp() + seconds).to_string();
        let trust = ["verify", "-attime", &time, "-CAfile", text(&authority)];
        openssl(&[&trust[..], &["-purpose", "sslserver", text(file)]].concat())
    };
    for seconds in [60 - DAY, 0, 395 * DAY] {
        let said = at(&shown, seconds);
        assert!(said.well, "{seconds}: {}", said.all);
    }
    for (seconds, why) in [
        (-DAY - 60, "not yet valid"),
        (396 * DAY + 60, "certificate has expired"),
    ] {
        let said = at(&shown, seconds);
        assert!(
            !said.well && said.all.contains(why),
            "{seconds}: {}",
            said.all
        );
    }
    let ten_years = 3649 * DAY;
    let alone = |seconds: i64| {
        let time = (plan.now.unix_timestamp() + seconds).to_string();
        let file = text(&authority);
        openssl(&["verify", "-attime", &time, "-CAfile", file, file])
    };
    assert!(alone(ten_years - 60).well);
    assert!(!alone(ten_years + 60).well);
}

/// Even who holds the key cannot make devices believe in other sites.
#[test]
fn the_authority_is_good_only_at_home() {
    let site = Site::start(&Plan::own());
    let authority = site.authority();
    let kept = site.path("authority.pem");
    let sign = |names: &str| {
        let (request, extra, signed) = (
            site.path("request.pem"),
            site.path("extra.txt"),
            site.path("signed.pem"),
        );
        let key = site.path("key.pem");
        openssl_well(&[
            "req",
            "-new",
            "-newkey",
            "ec",
            "-pkeyopt",
            "ec_paramgen_curve:P-256",
            "-nodes",
            "-keyout",
            text(&key),
            "-subj",
            "/O=Somebody",
            "-out",
            text(&request),
        ]);
        fs::write(&extra, format!("subjectAltName={names}\n")).expect("a file");
        openssl_well(&[
            "x509",
            "-req",
            "-in",
            text(&request),
            "-CA",
            text(&kept),
            "-CAkey",
            text(&kept),
            "-days",
            "30",
            "-extfile",
            text(&extra),
            "-out",
            text(&signed),
        ]);
        openssl(&["verify", "-CAfile", text(&authority), text(&signed)])
    };
    for names in [
        "DNS:desk.local",
        "IP:192.168.7.7",
        "IP:10.1.2.3",
        "DNS:laptop",
    ] {
        let said = sign(names);
        assert!(said.well, "{names}: {}", said.all);
    }
    for names in [
        "DNS:example.org",
        "DNS:notlocal",
        "DNS:desk.local,DNS:example.org",
        "IP:192.0.2.1",
        "IP:2001:db8::1",
    ] {
        let said = sign(names);
        assert!(!said.well, "{names}: {}", said.all);
        assert!(
            said.all.contains("permitted subtree violation"),
            "{}",
            said.all
        );
    }
}

#[test]
fn renewal_is_seen_by_the_next_connection_and_felt_by_none() {
    let start = OffsetDateTime::now_utc() - Duration::days(270);
    let site = Site::start(&Plan {
        now: start,
        ..Plan::own()
    });
    let authority = site.authority();
    let first = serial(site.port);
    let mut line = Line::open(site.port, &authority);
    let mut ask = || {
        line.send(b"GET / HTTP/1.1\r\nHost: localhost\r\n\r\n");
        line.until(b"the site");
    };
    ask();

    let check = |days| site.tls.check(machine(), start + Duration::days(days));
    check(263).expect("all is well");
    assert_eq!(
        serial(site.port),
        first,
        "more than a third of its life is left"
    );
    check(265).expect("all is well");
    let second = serial(site.port);
    assert_ne!(second, first, "a third of its life is left");
    ask();
    let said = connect(&site, &authority, &["-verify_hostname", "localhost"]);
    assert!(said.well, "{}", said.all);
    check(266).expect("all is well");
    assert_eq!(serial(site.port), second, "it was renewed a day ago");
}

#[test]
fn another_address_of_the_machine_asks_for_another_certificate() {
    let plan = Plan::own();
    let site = Site::start(&plan);
    let authority = site.authority();
    let first = serial(site.port);
    site.tls.check(machine(), plan.now).expect("all is well");
    assert_eq!(serial(site.port), first, "nothing has changed");

    let moved = Names::new("laptop", ["10.0.0.7".parse().expect("an address")]);
    site.tls.check(moved, plan.now).expect("all is well");
    assert_ne!(serial(site.port), first);
    assert!(connect(&site, &authority, &["-verify_ip", "10.0.0.7"]).well);
    assert!(!connect(&site, &authority, &["-verify_ip", "192.168.1.5"]).well);
    let moved = serial(site.port);

    // A public address is not home, and would make devices refuse it all.
    let out = ["10.0.0.7", "192.0.2.1"].map(|ip| ip.parse().expect("an address"));
    site.tls
        .check(Names::new("laptop", out), plan.now)
        .expect("all is well");
    assert_eq!(serial(site.port), moved);
}

#[test]
fn the_address_it_is_found_at_is_signed_for() {
    let address = "https://cards.example.org".parse().expect("an address");
    let plan = Plan {
        address: Some(address),
        ..Plan::own()
    };
    let site = Site::start(&plan);
    let said = connect(
        &site,
        &site.authority(),
        &["-verify_hostname", "cards.example.org"],
    );
    assert!(said.well, "{}", said.all);
    assert_eq!(site.tls.origin().to_string(), "https://cards.example.org");

    // One that was made before for something else says so.
    let folder = TempDir::new().expect("a folder");
    Plan::own()
        .open(folder.path(), nowhere())
        .expect("it starts");
    let why = plan.refused(folder.path());
    assert!(why.contains("was not made for cards.example.org"), "{why}");
    assert!(why.contains("authority.pem"), "{why}");
}

#[test]
fn the_address_is_guessed_where_none_is_said() {
    let folder = TempDir::new().expect("a folder");
    for (bound, guess) in [
        ("0.0.0.0:4747", "https://192.168.1.5:4747"),
        ("[::]:443", "https://192.168.1.5"),
        ("127.0.0.1:4747", "https://127.0.0.1:4747"),
        ("[::1]:4747", "https://[::1]:4747"),
    ] {
        let bound = bound.parse().expect("an address");
        let tls = Plan::own().open(folder.path(), bound).expect("it starts");
        assert_eq!(tls.origin().to_string(), guess);
    }
}

/// Someone who has an authority already can put it in place.
#[test]
fn an_authority_without_limits_signs_for_every_name() {
    let folder = TempDir::new().expect("a folder");
    let [key, certificate] = ["key.pem", "authority.pem"].map(|name| folder.path().join(name));
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
        "/CN=Ours",
        "-addext",
        "keyUsage=critical,keyCertSign",
        "-keyout",
        text(&key),
        "-out",
        text(&certificate),
    ]);
    let both = [&certificate, &key].map(|file| fs::read_to_string(file).expect("a file"));
    fs::write(&certificate, both.concat()).expect("a file");
    let site = Site::start_in(
        &Plan {
            address: Some("https://cards.example.org".parse().expect("an address")),
            ..Plan::own()
        },
        folder,
    );
    let authority = site.authority();
    for name in ["cards.example.org", "laptop.local"] {
        let said = connect(&site, &authority, &["-verify_hostname", name]);
        assert!(said.well, "{name}: {}", said.all);
    }
}

#[test]
fn the_authority_outlives_a_restart_and_is_replaced_when_it_ran_out() {
    let plan = Plan::own();
    let long_ago = Plan {
        now: plan.now - Duration::days(3651),
        ..Plan::own()
    };
    let folder = TempDir::new().expect("a folder");
    let old = long_ago.open(folder.path(), nowhere()).expect("it starts");
    let again = long_ago.open(folder.path(), nowhere()).expect("it starts");
    assert_eq!(old.fingerprint(), again.fingerprint());

    let why = old.check(machine(), plan.now).expect_err("it ran out");
    assert!(why.to_string().contains("ran out on"), "{why}");
    let new = plan.open(folder.path(), nowhere()).expect("it starts");
    assert_ne!(new.fingerprint(), old.fingerprint());

    let site = Site::start_in(&plan, folder);
    assert_eq!(site.tls.fingerprint(), new.fingerprint());
    assert!(connect(&site, &site.authority(), &[]).well);
}

#[cfg(unix)]
#[test]
fn the_key_is_its_owners_alone() {
    use std::os::unix::fs::PermissionsExt as _;
    let site = Site::start(&Plan::own());
    let file = site.path("authority.pem");
    let mode = || {
        let about = fs::metadata(&file).expect("the file");
        about.permissions().mode() & 0o777
    };
    assert_eq!(mode(), 0o600);
    let holds = fs::read_to_string(&file).expect("the file");
    assert!(holds.contains("PRIVATE KEY") && holds.contains("CERTIFICATE"));

    // A copy that came back readable to all.
    fs::set_permissions(&file, fs::Permissions::from_mode(0o644)).expect("it is ours");
    let folder = site.end();
    let again = Site::start_in(&Plan::own(), folder);
    let about = fs::metadata(again.path("authority.pem")).expect("the file");
    assert_eq!(about.permissions().mode() & 0o777, 0o600);
    let names: Vec<_> = fs::read_dir(again.path("."))
        .expect("the folder")
        .map(|entry| entry.expect("an entry").file_name())
        .collect();
    assert_eq!(names, ["authority.pem"], "nothing else is kept");
}

#[test]
fn a_damaged_authority_is_left_alone_and_explained() {
    let folder = TempDir::new().expect("a folder");
    Plan::own()
        .open(folder.path(), nowhere())
        .expect("it starts");
    let file = folder.path().join("authority.pem");
    let whole = fs::read_to_string(&file).expect("the file");
    let other = TempDir::new().expect("a folder");
    Plan::own()
        .open(other.path(), nowhere())
        .expect("it starts");
    let other = fs::read_to_string(other.path().join("authority.pem")).expect("the file");
    let (key, _) = whole.split_once("-----BEGIN CERT").expect("a certificate");
    let certificate = &other[other.find("-----BEGIN CERT").expect("a certificate")..];
    for damaged in [
        String::new(),
        whole[..whole.len() / 2].to_owned(),
        key.to_owned(),
        whole.replace("MI", "AA"),
        format!("{key}{certificate}"),
    ] {
        fs::write(&file, &damaged).expect("a file");
        let why = Plan::own().refused(folder.path());
        assert!(
            why.contains("authority.pem") && why.contains("cannot be used"),
            "{why}"
        );
        assert_eq!(fs::read_to_string(&file).expect("the file"), damaged);
    }
}

#[test]
fn a_folder_that_cannot_be_made_is_explained() {
    let folder = TempDir::new().expect("a folder");
    let file = folder.path().join("file");
    fs::write(&file, "").expect("a file");
    let why = Plan::own().refused(&file.join("folder"));
    assert!(
        why.contains("--tls-folder") || why.contains("cannot be read"),
        "{why}"
    );
}
