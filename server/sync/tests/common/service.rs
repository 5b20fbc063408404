//! A running service of our own, and a device that talks to it.

use std::io::{BufRead as _, BufReader};
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use foldwright_document::Document;
use futures_util::{SinkExt as _, StreamExt as _};
use serde_json::{Value, json};
use tokio::net::TcpStream;
use tokio::time::timeout;
use tokio_tungstenite::tungstenite::Message;
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
}

impl Service {
    /// Starts one over a place; `None` where it does not come up.
    pub(crate) fn try_start(place: &str) -> Option<Self> {
        let own = std::env::current_exe().expect("the path of this program");
        let examples = own
            .parent()
            .and_then(|deps| deps.parent())
            .expect("a build folder");
        let program = examples.join("examples/alone");
        let mut process = Command::new(&program)
            .arg(place)
            .stdout(Stdio::piped())
            .spawn()
            .unwrap_or_else(|why| panic!("{}: {why}", program.display()));
        let mut lines = BufReader::new(process.stdout.take().expect("a pipe")).lines();
        let mut line = || lines.next()?.ok();
        if let (Some(address), Some(code)) = (line(), line()) {
            return Some(Self {
                process,
                address,
                code,
            });
        }
        let _ = process.wait();
        None
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

    /// Asks over HTTP: the status and the answer.
    pub(crate) fn ask(&self, method: &str, path: &str, key: &str, body: &Value) -> (u16, Vec<u8>) {
        let agent: ureq::Agent = ureq::Agent::config_builder()
            .http_status_as_error(false)
            .build()
            .into();
        let url = format!("http://{}/api/{path}", self.address);
        let mut request = ureq::http::Request::builder().method(method).uri(url);
        if !key.is_empty() {
            request = request.header("authorization", format!("Bearer {key}"));
        }
        let body = if body.is_null() {
            String::new()
        } else {
            body.to_string()
        };
        if !body.is_empty() {
            request = request.header("content-type", "application/json");
        }
        let request = request.body(body).expect("a request");
        let mut answer = agent.run(request).expect("an answer");
        let bytes = answer.body_mut().read_to_vec().expect("a body");
        (answer.status().as_u16(), bytes)
    }

    /// Asks and reads the answer as JSON.
    pub(crate) fn json(&self, method: &str, path: &str, key: &str, body: &Value) -> (u16, Value) {
        let (status, bytes) = self.ask(method, path, key, body);
        (
            status,
            serde_json::from_slice(&bytes).unwrap_or(Value::Null),
        )
    }

    /// Joins with a code; the key.
    pub(crate) fn join(&self, code: &str, name: &str) -> String {
        let (status, answer) =
            self.json("POST", "join", "", &json!({ "code": code, "name": name }));
        assert_eq!(status, 200, "{answer}");
        answer["key"].as_str().expect("a key").to_owned()
    }

    /// Joins the workshop of a device that is in it.
    pub(crate) fn join_by(&self, key: &str, name: &str) -> String {
        let (status, answer) = self.json("POST", "code", key, &Value::Null);
        assert_eq!(status, 200, "{answer}");
        self.join(answer["code"].as_str().expect("a code"), name)
    }
}

impl Drop for Service {
    fn drop(&mut self) {
        self.kill();
    }
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
pub(crate) struct Socket(WebSocketStream<MaybeTlsStream<TcpStream>>);

impl Socket {
    pub(crate) async fn bare(service: &Service) -> Self {
        let url = format!("ws://{}/api/sync", service.address);
        let (socket, _) = connect_async(url).await.expect("a socket");
        Self(socket)
    }

    pub(crate) async fn open(service: &Service, key: &str, since: i64) -> Self {
        let mut socket = Self::bare(service).await;
        socket
            .say(&json!({ "key": key, "since": since }).to_string())
            .await;
        socket
    }

    pub(crate) async fn say(&mut self, text: &str) {
        let _ = self.0.send(Message::Text(text.into())).await;
    }

    pub(crate) async fn raw(&mut self, bytes: Vec<u8>) -> bool {
        self.0.send(Message::Binary(bytes.into())).await.is_ok()
    }

    /// Sends a message about a document; whether it could be.
    pub(crate) async fn send(&mut self, name: &str, step: u8, payload: &[u8]) -> bool {
        let mut frame = Vec::new();
        put(&mut frame, name.len());
        frame.extend_from_slice(name.as_bytes());
        frame.extend_from_slice(&[0, step]);
        put(&mut frame, payload.len());
        frame.extend_from_slice(payload);
        self.raw(frame).await
    }

    pub(crate) async fn hear(&mut self) -> Heard {
        loop {
            let next = timeout(PATIENCE, self.0.next())
                .await
                .expect("something in time");
            match next {
                Some(Ok(Message::Binary(frame))) => {
                    let (name, rest) = chunk(&frame);
                    let (payload, _) = chunk(&rest[2..]);
                    let name = String::from_utf8(name.to_vec()).expect("a name");
                    return Heard::About(name, rest[1], payload.to_vec());
                }
                Some(Ok(Message::Text(text))) => {
                    return Heard::Said(serde_json::from_str(&text).expect("JSON"));
                }
                Some(Ok(Message::Close(frame))) => {
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
        let document = Document::new(7);
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

fn put(frame: &mut Vec<u8>, mut number: usize) {
    while number > 0x7f {
        frame.push(u8::try_from(number & 0x7f).expect("seven bits") | 0x80);
        number >>= 7;
    }
    frame.push(u8::try_from(number).expect("seven bits"));
}

fn chunk(bytes: &[u8]) -> (&[u8], &[u8]) {
    let mut length = 0;
    for (at, byte) in bytes.iter().enumerate() {
        length |= usize::from(byte & 0x7f) << (7 * at);
        if byte & 0x80 == 0 {
            return bytes[at + 1..].split_at(length);
        }
    }
    (&[], &[])
}
