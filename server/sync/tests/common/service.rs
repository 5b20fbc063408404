//! A running service of our own, and a device that talks to it.

use std::io::{BufRead as _, BufReader};
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};
use std::sync::{Arc, Mutex};
use std::time::Duration;

use super::Folder;
use foldwright_api::{PHOTOS, SPOKEN};
use foldwright_document::Document;
use foldwright_document::frame::{self, Message};
use foldwright_document::pieces::{self, Gathering};
use futures_util::{SinkExt as _, StreamExt as _};
use serde_json::{Value, json};
use tokio::net::TcpStream;
use tokio::time::timeout;
use tokio_tungstenite::tungstenite::client::IntoClientRequest as _;
use tokio_tungstenite::tungstenite::{Error, Message as Frame};
use tokio_tungstenite::{MaybeTlsStream, WebSocketStream, connect_async};

/// How long anything may take before a test gives up.
const PATIENCE: Duration = Duration::from_secs(30);

/// A process that serves.
pub(crate) struct Service {
    process: Child,
    /// Host and port.
    pub(crate) address: String,
    /// The code to claim it with; empty once it is claimed.
    pub(crate) code: String,
    /// What it reported so far.
    pub(crate) log: Arc<Mutex<String>>,
}

/// The service alone, built with the tests.
pub(crate) fn program() -> PathBuf {
    let own = std::env::current_exe().expect("the path of this program");
    let built = own.parent().and_then(|deps| deps.parent());
    built.expect("a build folder").join("examples/alone")
}

impl Service {
    /// Starts one over a place; what it complained of where it does not come
    /// up.
    pub(crate) fn try_start(place: &str) -> Result<Self, String> {
        let mut command = Command::new(program());
        command.arg(place);
        Self::run(command)
    }

    /// Runs a command that starts one.
    pub(crate) fn run(mut command: Command) -> Result<Self, String> {
        let mut process = command
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap_or_else(|why| panic!("{command:?}: {why}"));
        let log = Arc::new(Mutex::new(String::new()));
        let errors = BufReader::new(process.stderr.take().expect("a pipe"));
        let reading = {
            let log = Arc::clone(&log);
            std::thread::spawn(move || {
                for line in errors.lines().map_while(Result::ok) {
                    let mut log = log.lock().expect("a log");
                    log.push_str(&line);
                    log.push('\n');
                }
            })
        };
        let mut lines = BufReader::new(process.stdout.take().expect("a pipe")).lines();
        let mut line = || lines.next()?.ok();
        if let (Some(address), Some(code)) = (line(), line()) {
            return Ok(Self {
                process,
                address,
                code,
                log,
            });
        }
        let _ = process.wait();
        let _ = reading.join();
        let said = log.lock().expect("a log").clone();
        Err(said)
    }

    /// Starts one over a place.
    pub(crate) fn start(place: &str) -> Self {
        Self::try_start(place).expect("the service starts")
    }

    /// The number of its process.
    pub(crate) fn process(&self) -> u32 {
        self.process.id()
    }

    /// Ends it as a crash or a power cut would end the process.
    pub(crate) fn kill(&mut self) {
        let _ = self.process.kill();
        let _ = self.process.wait();
    }

    /// Asks a server function: the status and the answer.
    pub(crate) fn ask(&self, function: &str, body: &Value) -> (u16, Value) {
        self.post(function, &[], &body.to_string())
    }

    /// Posts a text to a server function, with more headers.
    pub(crate) fn post(
        &self,
        function: &str,
        headers: &[(&str, &str)],
        body: &str,
    ) -> (u16, Value) {
        let (status, said, _) = self.post_for_cookies(function, headers, body);
        (status, said)
    }

    /// The same, with the cookies that come along.
    pub(crate) fn post_for_cookies(
        &self,
        function: &str,
        headers: &[(&str, &str)],
        body: &str,
    ) -> (u16, Value, Vec<String>) {
        let agent: ureq::Agent = ureq::Agent::config_builder()
            .http_status_as_error(false)
            .timeout_global(Some(PATIENCE))
            .build()
            .into();
        let mut request = agent
            .post(format!("http://{}/api/{function}", self.address))
            .header("content-type", "application/json")
            .header("accept", "application/json");
        for (name, value) in headers {
            request = request.header(*name, *value);
        }
        let mut answer = request.send(body).expect("an answer");
        let bytes = answer.body_mut().read_to_vec().expect("a body");
        let said = serde_json::from_slice(&bytes).unwrap_or(Value::Null);
        let cookies = answer.headers().get_all("set-cookie").iter();
        let cookies = cookies.map(|cookie| cookie.to_str().expect("text").to_owned());
        (answer.status().as_u16(), said, cookies.collect())
    }

    /// Asks for photographs as an app does: the status, the headers and the answer.
    pub(crate) fn photos(
        &self,
        method: &str,
        path: &str,
        headers: &[(&str, &str)],
        body: &[u8],
    ) -> (u16, ureq::http::HeaderMap, Vec<u8>) {
        let agent: ureq::Agent = ureq::Agent::config_builder()
            .http_status_as_error(false)
            .allow_non_standard_methods(true)
            .timeout_global(Some(PATIENCE))
            .build()
            .into();
        let address = format!("http://{}{PHOTOS}{path}", self.address);
        let mut request = ureq::http::Request::builder().method(method).uri(address);
        for (name, value) in headers {
            request = request.header(*name, *value);
        }
        let request = request.body(body).expect("a request");
        let mut answer = agent.run(request).expect("an answer");
        let body = answer.body_mut().read_to_vec().expect("a body");
        (answer.status().as_u16(), answer.headers().clone(), body)
    }

    /// Joins with a code; the key.
    pub(crate) fn join(&self, code: &str, name: &str) -> String {
        let (status, answer) = self.ask("workshop/join", &json!({ "code": code, "name": name }));
        assert_eq!(status, 200, "{answer}");
        answer["key"].as_str().expect("a key").to_owned()
    }

    /// Joins the workshop of a device that is in it.
    pub(crate) fn join_by(&self, key: &str, name: &str) -> String {
        self.join(&self.code_by(key), name)
    }

    /// A code for one more device.
    pub(crate) fn code_by(&self, key: &str) -> String {
        let (status, answer) = self.ask("workshop/code", &json!({ "key": key }));
        assert_eq!(status, 200, "{answer}");
        answer["code"].as_str().expect("a code").to_owned()
    }

    /// The name in the store of the device that is called so.
    pub(crate) fn device(&self, key: &str, name: &str) -> String {
        let (status, devices) = self.ask("workshop/devices", &json!({ "key": key }));
        assert_eq!(status, 200, "{devices}");
        let devices = devices.as_array().expect("a list");
        let device = devices.iter().find(|device| device["name"] == name);
        let id = device.and_then(|device| device["id"].as_str());
        id.expect("a device of that name").to_owned()
    }
}

impl Drop for Service {
    fn drop(&mut self) {
        self.kill();
    }
}

/// A service with a workshop of two devices.
pub(crate) struct Harbour {
    pub(crate) folder: Folder,
    pub(crate) service: Service,
    pub(crate) laptop: String,
    pub(crate) phone: String,
}

impl Harbour {
    pub(crate) fn parts(&self) -> (&Service, &str, &str) {
        (&self.service, &self.laptop, &self.phone)
    }

    /// The file the workshop is kept in.
    pub(crate) fn file(&self) -> PathBuf {
        self.folder.0.join("workshops.db")
    }
}

pub(crate) fn harbour() -> Harbour {
    let folder = Folder::new();
    let service = Service::start(&folder.0.join("workshops.db").display().to_string());
    let laptop = service.join(&service.code, "laptop");
    let phone = service.join_by(&laptop, "phone");
    Harbour {
        folder,
        service,
        laptop,
        phone,
    }
}

/// How many changes are among what was heard.
pub(crate) fn updates(heard: &[Heard]) -> usize {
    let update = |heard: &&Heard| matches!(heard, Heard::About(_, 2, _));
    heard.iter().filter(update).count()
}

/// What comes over a socket.
#[derive(Debug, PartialEq)]
pub(crate) enum Heard {
    /// A message about a document: its name, the step, the payload.
    About(String, u8, Vec<u8>),
    /// Something in JSON.
    Said(Value),
    /// The end, with the code it was given.
    End(Option<u16>),
}

/// A device's socket.
pub(crate) struct Socket(WebSocketStream<MaybeTlsStream<TcpStream>>, Gathering);

impl Socket {
    pub(crate) async fn bare(service: &Service) -> Self {
        let url = format!("ws://{}/api/sync", service.address);
        let (socket, _) = connect_async(url).await.expect("a socket");
        Self(socket, Gathering::new(usize::MAX))
    }

    /// As a page at `origin` opens one; `None` where it is forbidden.
    pub(crate) async fn from(service: &Service, origin: &str) -> Option<Self> {
        let url = format!("ws://{}/api/sync", service.address);
        let mut request = url.into_client_request().expect("a request");
        let origin = origin.parse().expect("an origin");
        request.headers_mut().insert("origin", origin);
        match connect_async(request).await {
            Ok((socket, _)) => Some(Self(socket, Gathering::new(usize::MAX))),
            Err(Error::Http(answer)) => {
                assert_eq!(answer.status(), 403);
                None
            }
            Err(why) => panic!("{why}"),
        }
    }

    pub(crate) async fn open(service: &Service, key: &str, since: i64) -> Self {
        let mut socket = Self::bare(service).await;
        socket
            .say(&json!({ "key": key, "since": since, "speaks": SPOKEN }).to_string())
            .await;
        socket
    }

    pub(crate) async fn say(&mut self, text: &str) {
        let _ = self.0.send(Frame::Text(text.into())).await;
    }

    pub(crate) async fn raw(&mut self, bytes: Vec<u8>) -> bool {
        self.0.send(Frame::Binary(bytes.into())).await.is_ok()
    }

    /// Sends a message about a document, in pieces where it is large; whether
    /// it could be.
    pub(crate) async fn send(&mut self, name: &str, step: u8, payload: &[u8]) -> bool {
        let message = match step {
            0 => Message::State(payload),
            1 => Message::Rest(payload),
            _ => Message::Update(payload),
        };
        for piece in pieces::cut(&frame::write(name, message)) {
            if !self.raw(piece).await {
                return false;
            }
        }
        true
    }

    pub(crate) async fn hear(&mut self) -> Heard {
        loop {
            let next = timeout(PATIENCE, self.0.next())
                .await
                .expect("something in time");
            match next {
                Some(Ok(Frame::Binary(bytes))) => {
                    let Some(frame) = self.1.take(&bytes).expect("the next piece") else {
                        continue;
                    };
                    let (name, message) = frame::read(&frame).expect("a message");
                    let (step, payload) = match message {
                        Message::State(payload) => (0, payload),
                        Message::Rest(payload) => (1, payload),
                        Message::Update(payload) => (2, payload),
                    };
                    return Heard::About(name.to_owned(), step, payload.to_vec());
                }
                Some(Ok(Frame::Text(text))) => {
                    return Heard::Said(serde_json::from_str(&text).expect("JSON"));
                }
                Some(Ok(Frame::Close(frame))) => {
                    return Heard::End(frame.map(|frame| frame.code.into()));
                }
                Some(Ok(_)) => {}
                Some(Err(_)) | None => return Heard::End(None),
            }
        }
    }

    /// What comes until `said` is among it.
    pub(crate) async fn until(&mut self, said: &Value) -> Vec<Heard> {
        let mut all = Vec::new();
        loop {
            match self.hear().await {
                Heard::Said(what) if what == *said => return all,
                Heard::End(code) => panic!("ended with {code:?} before {said}: {all:?}"),
                heard => all.push(heard),
            }
        }
    }

    /// Waits until everything there is has come.
    pub(crate) async fn caught_up(&mut self) {
        loop {
            match self.hear().await {
                Heard::Said(said) if said.get("last").is_some() => return,
                Heard::End(code) => panic!("ended with {code:?}"),
                _ => {}
            }
        }
    }

    /// Whether something comes within a second.
    pub(crate) async fn soon(&mut self) -> Option<()> {
        let next = timeout(Duration::from_secs(1), self.hear());
        next.await.ok().map(drop)
    }

    /// What it complains of before it ends, and the code it ends with.
    pub(crate) async fn complaint(&mut self) -> (String, Option<u16>) {
        let mut complaint = String::new();
        loop {
            match self.hear().await {
                Heard::Said(said) => {
                    if let Some(trouble) = said["trouble"].as_str() {
                        trouble.clone_into(&mut complaint);
                    }
                }
                Heard::About(..) => {}
                Heard::End(code) => return (complaint, code),
            }
        }
    }

    /// The code it ends with, whatever else comes.
    pub(crate) async fn end(&mut self) -> Option<u16> {
        loop {
            if let Heard::End(code) = self.hear().await {
                return code;
            }
        }
    }

    /// The document, as the server has it.
    pub(crate) async fn fetch(&mut self, name: &str) -> Document {
        let mut document = Document::new(7);
        assert!(self.send(name, 0, &document.state()).await);
        loop {
            match self.hear().await {
                Heard::About(of, 1, rest) if of == name => {
                    document.apply(&rest).expect("a document");
                    return document;
                }
                Heard::End(code) => panic!("ended with {code:?}"),
                _ => {}
            }
        }
    }
}
