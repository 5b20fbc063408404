//! Pages of shared recipes, and how often they are made.
//!
//! OWASP Application Security Verification Standard 5.0, 15.2.2: what takes
//! long is done once and does not keep others waiting.

use std::io::Read as _;
use std::net::TcpListener;
use std::process::Command;
use std::thread;

use flate2::read::GzDecoder;
use foldwright_sync::store::{Change, Sqlite, Store as _};
use serde_json::{Value, json};
use tempfile::NamedTempFile;

use crate::large_card::{accordion, as_change};
use crate::running::{BINARY, Started, header};

/// Where browsers find the server, as whoever runs it says.
const ADDRESS: &str = "https://cards.example.org";

/// A server with a workshop that shares recipes.
struct Sharing {
    server: Started,
    log: NamedTempFile,
    address: String,
    key: String,
    workshop: String,
}

impl Sharing {
    fn start() -> Self {
        let mut command = Command::new(BINARY);
        command.args(["--log", "debug", "--address", ADDRESS]);
        let log = NamedTempFile::new().expect("a file");
        // Told where it is found, it prints nothing of where it listens.
        let free = TcpListener::bind(("127.0.0.1", 0)).and_then(|free| free.local_addr());
        let port = free.expect("a free port").port();
        let server = Started::on(port, command.stderr(log.reopen().expect("a file")));
        let code = server.said.lines().find_map(|line| {
            let (_, code) = line.split_once("with the code ")?;
            Some(code.trim_end_matches('.').to_owned())
        });
        let mut sharing = Self {
            address: format!("http://localhost:{port}"),
            server,
            log,
            key: String::new(),
            workshop: String::new(),
        };
        let question = json!({ "code": code.expect("a code"), "name": "laptop" });
        let joined = sharing.ask("workshop/join", &question);
        let text = |name: &str| joined[name].as_str().expect("a text").to_owned();
        (sharing.key, sharing.workshop) = (text("key"), text("workshop"));
        sharing
    }

    fn ask(&self, function: &str, question: &Value) -> Value {
        let mut answer = ureq::post(format!("{}/api/{function}", self.address))
            .header("content-type", "application/json")
            .header("accept", "application/json")
            .send(question.to_string())
            .expect("an answer");
        let text = answer.body_mut().read_to_string().expect("text");
        serde_json::from_str(&text).expect("JSON")
    }

    /// Keeps a change of a document as a device would send it.
    fn keep(&self, document: &str, update: Vec<u8>) {
        let change = Change {
            workshop: self.workshop.clone(),
            document: document.to_owned(),
            update: update.into(),
        };
        let file = self.server.folder.path().join("workshops.db");
        let runtime = tokio::runtime::Runtime::new().expect("a runtime");
        runtime.block_on(async {
            let store = Sqlite::visit(&file).await.expect("it is there");
            store.append(&[change]).await.expect("it is kept");
            store.close().await;
        });
    }

    /// Shares a document; the address of its page here.
    fn share(&self, document: &str) -> String {
        let question = json!({ "key": self.key, "document": document });
        let link = self.ask("share/new", &question);
        let link = link["link"].as_str().expect("a link");
        let at = link.find("/shared/").expect("a page");
        format!("{}{}", self.address, &link[at..])
    }

    /// Stops it; how many pages it made, and how many files.
    fn end(mut self) -> [usize; 2] {
        let _ = self.server.process.kill();
        let _ = self.server.process.wait();
        let log = std::fs::read_to_string(self.log.path()).expect("text");
        let made = [
            "writing a shared recipe out",
            "making a file of a shared recipe",
        ];
        made.map(|made| log.matches(made).count())
    }
}

fn page(url: &str) -> String {
    let mut answer = ureq::get(url).call().expect("a page");
    let body = answer.body_mut().with_config().limit(64 * 1024 * 1024);
    body.read_to_string().expect("text")
}

#[test]
fn a_page_of_200_panels_is_made_once_for_all() {
    let sharing = Sharing::start();
    let recipe = accordion(200);
    sharing.keep("recipe/a", as_change(&recipe).expect("a change"));
    let small = accordion(3);
    sharing.keep("recipe/b", as_change(&small).expect("a change"));
    let (large, again, other) = (
        sharing.share("recipe/a"),
        sharing.share("recipe/a"),
        sharing.share("recipe/b"),
    );
    let asking: Vec<_> = (0..20)
        .map(|number| {
            let url = if number % 2 == 0 { &large } else { &again }.clone();
            thread::spawn(move || page(&url))
        })
        .collect();
    // Meanwhile others are answered.
    assert!(page(&other).contains("panel 3"));
    let pages: Vec<_> = asking
        .into_iter()
        .map(|asked| asked.join().expect("a page"))
        .collect();
    let first = pages.first().expect("a page");
    assert!(first.contains("panel 200"), "{}", first.len());
    assert!(first.len() < 17 * 1024 * 1024, "{} bytes", first.len());
    assert!(pages.iter().all(|page| page == first));
    // Browsers get it packed, a good deal smaller.
    let ask = ureq::get(&large).header("accept-encoding", "gzip, br");
    let mut packed = ask.call().expect("a page");
    assert_eq!(header(&packed, "content-encoding"), "gzip");
    assert_eq!(header(&packed, "vary"), "Accept-Encoding, Accept-Language");
    let packed = packed.body_mut().read_to_vec().expect("bytes");
    assert!(packed.len() < first.len() / 5, "{} bytes", packed.len());
    let mut unpacked = String::new();
    let read = GzDecoder::new(&packed[..]).read_to_string(&mut unpacked);
    assert!(read.is_ok() && unpacked == *first);
    // Another state is another page, and so is one of another name.
    let mut changed = recipe.clone();
    changed["name"] = json!("Quay wall in green");
    let document = foldwright_document::Document::open(9, &as_change(&recipe).expect("a change"));
    let mut document = document.expect("a document");
    let update = document.write(&recipe, &changed).expect("a change");
    sharing.keep("recipe/a", update);
    assert!(page(&large).contains("<h1>Quay wall in green</h1>"));
    let named = json!({ "key": sharing.key, "name": "Quay guild" });
    sharing.ask("workshop/rename", &named);
    assert!(page(&large).contains("Quay guild"));
    // A link that is ended opens nothing, whatever is kept.
    let shares = sharing.ask("share/all", &json!({ "key": sharing.key }));
    for share in shares.as_array().expect("a list") {
        let question = json!({ "key": sharing.key, "id": share["id"] });
        sharing.ask("share/end", &question);
    }
    let ended = ureq::get(&large).call();
    assert!(
        matches!(ended, Err(ureq::Error::StatusCode(404))),
        "{ended:?}"
    );
    // The large one as it was, renamed, and from another name; the small one.
    assert_eq!(sharing.end(), [4, 0]);
}

/// RFC 9110, §12.5.4 and §12.5.5: the reader's language is chosen by its weight,
/// the answer names it, and says what it was chosen by; both are kept.
#[test]
fn a_page_is_in_the_language_of_its_reader() {
    let sharing = Sharing::start();
    sharing.keep("recipe/a", as_change(&accordion(3)).expect("a change"));
    let url = sharing.share("recipe/a");
    let ask = |accept: &str| {
        let mut page = ureq::get(&url)
            .header("accept-language", accept)
            .call()
            .expect("a page");
        assert!(header(&page, "vary").contains("Accept-Language"));
        let language = header(&page, "content-language").to_owned();
        let text = page.body_mut().read_to_string().expect("a text");
        let html = format!("<html lang=\"{language}\">");
        assert!(text.contains(&html), "{html}");
        (language, text)
    };
    for _ in 0..2 {
        let (language, german) = ask("de-CH, en;q=0.8");
        assert_eq!(language, "de");
        assert!(german.contains("Schritt für Schritt") && !german.contains("Step by step"));
        for accept in ["en, de;q=0.9", "fr", "*", "de;q=0, en"] {
            let (language, english) = ask(accept);
            assert_eq!(language, "en", "{accept}");
            assert!(english.contains("Step by step"), "{accept}");
        }
    }
    // Each language is written once.
    assert_eq!(sharing.end(), [2, 0]);
}

/// A recipe may have so much in it that nobody could read its page.
#[test]
fn what_is_too_large_to_be_written_out_says_so() {
    let sharing = Sharing::start();
    let recipe = accordion(201);
    sharing.keep("recipe/a", as_change(&recipe).expect("a change"));
    let page = page(&sharing.share("recipe/a"));
    assert!(
        page.contains("too large to be written out"),
        "{}",
        page.len()
    );
    assert!(page.len() < 100_000, "{} bytes", page.len());
    assert!(!page.contains("?sheet="));
}

/// The sheet of a recipe is a file that browsers keep (RFC 6266), in the language
/// of its reader (RFC 9110, §12.5.4), made once for each paper; `qpdf` finds it
/// whole.
#[test]
fn a_sheet_to_print_is_had_without_scripts() {
    let sharing = Sharing::start();
    sharing.keep("recipe/a", as_change(&accordion(3)).expect("a change"));
    sharing.keep("recipe/b", as_change(&accordion(201)).expect("a change"));
    let url = sharing.share("recipe/a");
    let large = sharing.share("recipe/b");
    // The reader's own paper is offered first.
    for (accept, first, then) in [("en-US", "letter", "a4"), ("en-GB", "a4", "letter")] {
        let asked = ureq::get(&url).header("accept-language", accept).call();
        let page = asked.expect("a page").body_mut().read_to_string();
        let page = page.expect("a text");
        let at = |paper: &str| page.find(&format!("href=\"?sheet={paper}\""));
        assert!(at(first).is_some() && at(first) < at(then), "{accept}");
    }
    let ask = |paper: &str, accept: &str, coding: &str| {
        let asked = ureq::get(format!("{url}?sheet={paper}"))
            .header("accept-language", accept)
            .header("accept-encoding", coding);
        let mut sheet = asked.call().expect("a sheet");
        for (name, value) in [
            ("content-type", "application/pdf"),
            ("cache-control", "no-store"),
            ("x-content-type-options", "nosniff"),
            ("x-robots-tag", "noindex, nofollow"),
            ("vary", "Accept-Encoding, Accept-Language"),
            ("content-language", accept),
        ] {
            assert_eq!(header(&sheet, name), value);
        }
        let kept_as = header(&sheet, "content-disposition");
        assert!(kept_as.starts_with("attachment; filename="), "{kept_as}");
        assert!(kept_as.contains(".pdf"), "{kept_as}");
        sheet.body_mut().read_to_vec().expect("bytes")
    };
    let plain = ask("a4", "en", "identity");
    let packed = ask("a4", "en", "gzip");
    let mut unpacked = Vec::new();
    let read = GzDecoder::new(&packed[..]).read_to_end(&mut unpacked);
    assert!(read.is_ok() && unpacked == plain);
    let others = [ask("letter", "en", "identity"), ask("a4", "de", "identity")];
    for sheet in others.iter().chain([&plain]) {
        assert!(sheet.len() < 200_000, "{} bytes", sheet.len());
        let file = NamedTempFile::new().expect("a file");
        std::fs::write(file.path(), sheet).expect("it is written");
        let checked = Command::new("qpdf")
            .arg("--check")
            .arg(file.path())
            .output();
        assert!(checked.expect("qpdf, see tests/run").status.success());
    }
    assert!(others.iter().all(|other| *other != plain));
    // Each has the link it was asked by on it, and nobody else's.
    let again = sharing.share("recipe/a");
    let token = |url: &str| url.rsplit('/').next().map(str::to_owned).expect("a token");
    for (url, other) in [(&url, &again), (&again, &url)] {
        let asked = ureq::get(format!("{url}?sheet=a4")).call();
        let sheet = asked.expect("a sheet").body_mut().read_to_vec();
        let file = NamedTempFile::new().expect("a file");
        std::fs::write(file.path(), sheet.expect("bytes")).expect("it is written");
        let said = Command::new("pdftotext").arg(file.path()).arg("-").output();
        let said = said.expect("Poppler, see tests/run").stdout;
        let said = String::from_utf8(said).expect("UTF-8").replace('\n', "");
        let live = format!("{ADDRESS}/shared/{}", token(url));
        assert!(said.contains(&live), "{live} in {said}");
        assert!(!said.contains(&token(other)), "{said}");
    }
    // No such paper, a card too large to be written out, and no recipe.
    let nobody = format!("{}/shared/nobody?sheet=a4", sharing.address);
    for nothing in [
        format!("{url}?sheet=foolscap"),
        format!("{url}?sheet=a4&sheet=a4"),
        format!("{large}?sheet=a4"),
        nobody,
    ] {
        let missing = ureq::get(&nothing).call();
        let is_missing = matches!(missing, Err(ureq::Error::StatusCode(404)));
        assert!(is_missing, "{nothing}: {missing:?}");
    }
    // Two papers, another language and another link; the large one is tried.
    assert_eq!(sharing.end(), [2, 5]);
}

/// Templates and data are files as the sheet is, each of its own kind (RFC 6838: media
/// types; RFC 4180, 3: that of CSV) and made once.
#[test]
fn templates_and_data_are_had_without_scripts() {
    let sharing = Sharing::start();
    sharing.keep("recipe/a", as_change(&accordion(3)).expect("a change"));
    sharing.keep("recipe/b", as_change(&accordion(201)).expect("a change"));
    let url = sharing.share("recipe/a");
    let large = sharing.share("recipe/b");
    let whole = page(&url);
    for (query, kind, ending, begins) in [
        ("cards=a4", "application/pdf", "cards.pdf", "%PDF-"),
        ("template=a4", "application/pdf", "templates.pdf", "%PDF-"),
        (
            "template=letter",
            "application/pdf",
            "templates.pdf",
            "%PDF-",
        ),
        (
            "template=a4&mirrored",
            "application/pdf",
            "mirrored.pdf",
            "%PDF-",
        ),
        ("template=svg", "image/svg+xml", ".svg", "<?xml"),
        (
            "template=svg&mirrored",
            "image/svg+xml",
            "mirrored.svg",
            "<?xml",
        ),
        ("data=fold", "application/json", ".fold", "{"),
        (
            "data=csv",
            "text/csv; charset=utf-8; header=present",
            ".csv",
            "Row,Name,Width",
        ),
    ] {
        let link = format!("href=\"?{}\"", query.replace('&', "&amp;"));
        assert!(whole.contains(&link), "{link}");
        let ask = || {
            let asked = ureq::get(format!("{url}?{query}")).header("accept-encoding", "gzip");
            asked.call().expect("a file")
        };
        let mut file = ask();
        for (name, value) in [
            ("content-type", kind),
            ("cache-control", "no-store"),
            ("x-content-type-options", "nosniff"),
            ("x-robots-tag", "noindex, nofollow"),
            ("content-language", "en"),
        ] {
            assert_eq!(header(&file, name), value, "{query}");
        }
        let kept_as = header(&file, "content-disposition").to_owned();
        assert!(kept_as.starts_with("attachment; "), "{kept_as}");
        assert!(kept_as.ends_with(ending), "{kept_as}");
        let packed = file.body_mut().read_to_vec().expect("bytes");
        let mut bytes = Vec::new();
        let read = GzDecoder::new(&packed[..]).read_to_end(&mut bytes);
        assert!(
            read.is_ok() && bytes.starts_with(begins.as_bytes()),
            "{query}"
        );
        let again = ask().body_mut().read_to_vec().expect("bytes");
        assert_eq!(again, packed);
    }
    // What others add to an address changes nothing.
    assert_eq!(page(&format!("{url}?from=harbour")), whole);
    assert!(page(&format!("{url}?data=csv&from=harbour")).starts_with("Row,"));
    for nothing in [
        format!("{url}?template=foolscap"),
        format!("{url}?template=a4&data=csv"),
        format!("{url}?mirrored"),
        format!("{url}?sheet=a4&mirrored"),
        format!("{url}?data=fold&data=fold"),
        format!("{large}?template=a4"),
    ] {
        let missing = ureq::get(&nothing).call();
        let is_missing = matches!(missing, Err(ureq::Error::StatusCode(404)));
        assert!(is_missing, "{nothing}: {missing:?}");
    }
    // Eight files; the large one is tried.
    assert_eq!(sharing.end(), [1, 9]);
}

/// OWASP Application Security Verification Standard 5.0, 8.2.2: a link shows the
/// photographs that its recipe uses, and no others of the workshop; RFC 8246: what never
/// changes is not asked for again.
#[test]
fn a_link_shows_the_photographs_of_its_recipe_alone() {
    let sharing = Sharing::start();
    let [used, other, gone] = ["a", "b", "c"].map(|digit| digit.repeat(32));
    let mut recipe = accordion(3);
    recipe["stocks"][0]["face"]["photo"] = json!(used);
    recipe["stocks"][0]["back"]["photo"] = json!(gone);
    sharing.keep("recipe/a", as_change(&recipe).expect("a change"));
    sharing.keep("recipe/b", as_change(&accordion(3)).expect("a change"));
    let picture = b"\x89PNG\r\n\x1a\n and so on";
    let file = sharing.server.folder.path().join("workshops.db");
    let runtime = tokio::runtime::Runtime::new().expect("a runtime");
    runtime.block_on(async {
        let store = Sqlite::visit(&file).await.expect("it is there");
        for name in [&used, &other] {
            let kept = store.keep_photo(&sharing.workshop, name, picture).await;
            assert!(kept.expect("it is kept"));
        }
        store.close().await;
    });
    let (shows, without) = (sharing.share("recipe/a"), sharing.share("recipe/b"));
    let mut photo = ureq::get(format!("{shows}?photo={used}"))
        .call()
        .expect("a photograph");
    for (name, value) in [
        ("content-type", "image/png"),
        ("cache-control", "private, max-age=31536000, immutable"),
        ("x-content-type-options", "nosniff"),
        ("x-robots-tag", "noindex, nofollow"),
    ] {
        assert_eq!(header(&photo, name), value);
    }
    let bytes = photo.body_mut().read_to_vec().expect("bytes");
    assert_eq!(bytes, picture);
    let nobody = format!("{}/shared/nobody?photo={used}", sharing.address);
    for nothing in [
        format!("{shows}?photo={other}"),
        format!("{shows}?photo={gone}"),
        format!("{shows}?photo={}", used.to_uppercase()),
        format!("{shows}?photo="),
        format!("{shows}?photo=..%2fworkshops.db"),
        format!("{without}?photo={used}"),
        format!("{}/api/photos/{used}", sharing.address),
        nobody,
    ] {
        let missing = ureq::get(&nothing).call();
        let refused = matches!(missing, Err(ureq::Error::StatusCode(401 | 404)));
        assert!(refused, "{nothing}: {missing:?}");
    }
    let shares = sharing.ask("share/all", &json!({ "key": sharing.key }));
    for share in shares.as_array().expect("a list") {
        let question = json!({ "key": sharing.key, "id": share["id"] });
        sharing.ask("share/end", &question);
    }
    let ended = ureq::get(format!("{shows}?photo={used}")).call();
    assert!(
        matches!(ended, Err(ureq::Error::StatusCode(404))),
        "{ended:?}"
    );
    // No page and no file was made.
    assert_eq!(sharing.end(), [0, 0]);
}
