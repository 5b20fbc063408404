//! Connections of those who do not ask, over real ports.
//!
//! Stands for the OWASP Application Security Verification Standard 5.0, 2.4.1
//! and 15.2.2 (nobody keeps others out by asking much or slowly), 15.4.4 (fair
//! access to what is scarce) and 15.3.4 (who asks behind a proxy). What the
//! slow-header, slow-body and slow-read modes of attacking tools send is from
//! memory.

#![expect(
    clippy::expect_used,
    reason = "a test may stop where its own pieces do not fit"
)]

use std::future::pending;
use std::io::ErrorKind;
use std::net::{IpAddr, Ipv4Addr, SocketAddr};
use std::sync::Arc;
use std::time::Duration;

use axum::Router;
use axum::extract::ConnectInfo;
use axum::extract::ws::WebSocketUpgrade;
use axum::routing::{any, get, post};
use foldwright_net::{Behind, Bounded, Room, TO_ASK, TO_LISTEN, serve};
use tokio::io::{AsyncReadExt as _, AsyncWriteExt as _};
use tokio::net::{TcpListener, TcpSocket, TcpStream};
use tokio::sync::oneshot;
use tokio::task::JoinHandle;
use tokio::time::{sleep, timeout};

/// How long anything may take before a test gives up.
const PATIENCE: Duration = Duration::from_secs(90);

/// More bytes than systems keep for somebody who does not read.
const LARGE: usize = 64 * 1024 * 1024;

struct Site {
    address: SocketAddr,
    stop: Option<oneshot::Sender<()>>,
    serving: JoinHandle<()>,
}

/// A site with room for so many, behind a proxy at 127.0.0.2.
async fn site(most: usize) -> Site {
    let app = Router::new()
        .route("/", get(|| async { "open" }))
        .route("/who", get(who))
        .route("/large", get(|| async { vec![0_u8; LARGE] }))
        .route("/said", post(|said: String| async move { said }))
        .route("/echo", any(echo));
    let tcp = TcpListener::bind((Ipv4Addr::LOCALHOST, 0));
    let tcp = tcp.await.expect("a free port");
    let address = tcp.local_addr().expect("a bound port");
    let proxy = "127.0.0.2".parse().expect("an address");
    let behind = Arc::new(Behind::these(vec![proxy]));
    let port = Bounded::new(tcp, Room::for_connections(most));
    let (stop, stopped) = oneshot::channel::<()>();
    let serving = tokio::spawn(serve(port, app, behind, async {
        if stopped.await.is_err() {
            pending::<()>().await;
        }
    }));
    Site {
        address,
        stop: Some(stop),
        serving,
    }
}

async fn who(ConnectInfo(who): ConnectInfo<IpAddr>) -> String {
    who.to_string()
}

async fn echo(upgrade: WebSocketUpgrade) -> axum::response::Response {
    upgrade.on_upgrade(|mut socket| async move {
        while let Some(Ok(message)) = socket.recv().await {
            if socket.send(message).await.is_err() {
                return;
            }
        }
    })
}

impl Site {
    async fn connect(&self) -> TcpStream {
        let connected = TcpStream::connect(self.address);
        connected.await.expect("it listens")
    }

    /// A connection that has said so much.
    async fn said(&self, what: &str) -> TcpStream {
        let mut stream = self.connect().await;
        let sent = stream.write_all(what.as_bytes()).await;
        sent.expect("it takes something");
        stream
    }

    /// What is answered to a whole request.
    async fn get(&self, path: &str, from: [u8; 4], header: &str) -> String {
        let socket = TcpSocket::new_v4().expect("a socket");
        socket.bind((from, 0).into()).expect("an own address");
        let stream = socket.connect(self.address).await;
        let mut stream = stream.expect("it listens");
        let question =
            format!("GET {path} HTTP/1.1\r\nHost: x\r\n{header}Connection: close\r\n\r\n");
        let sent = stream.write_all(question.as_bytes()).await;
        sent.expect("it takes something");
        let mut all = String::new();
        let read = timeout(PATIENCE, stream.read_to_string(&mut all)).await;
        read.expect("an answer in time").expect("text");
        all
    }

    /// Opens a socket for messages.
    async fn socket(&self) -> TcpStream {
        let mut stream = self
            .said(
                // The key of the example in RFC 6455, §1.3.
                "GET /echo HTTP/1.1\r\nHost: x\r\nConnection: Upgrade\r\nUpgrade: websocket\r\n\
                 Sec-WebSocket-Version: 13\r\nSec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==\r\n\r\n",
            )
            .await;
        let mut head = Vec::new();
        while !head.ends_with(b"\r\n\r\n") {
            head.push(stream.read_u8().await.expect("an answer"));
        }
        assert!(head.starts_with(b"HTTP/1.1 101"), "it is opened");
        stream
    }
}

/// Reads on until the other side ends it; what came.
async fn until_ended(mut stream: TcpStream) -> Vec<u8> {
    let mut all = Vec::new();
    let ended = timeout(PATIENCE, stream.read_to_end(&mut all)).await;
    match ended.expect("it is ended") {
        Ok(_) => {}
        Err(why) => assert_eq!(why.kind(), ErrorKind::ConnectionReset),
    }
    all
}

async fn echoes(stream: &mut TcpStream) {
    // The masked and the unmasked “Hello” of RFC 6455, §5.7.
    let hello = [
        0x81, 0x85, 0x37, 0xfa, 0x21, 0x3d, 0x7f, 0x9f, 0x4d, 0x51, 0x58,
    ];
    stream.write_all(&hello).await.expect("it is open");
    let mut back = [0; 7];
    stream.read_exact(&mut back).await.expect("it is open");
    assert_eq!(&back, b"\x81\x05Hello");
}

#[tokio::test(flavor = "multi_thread")]
async fn who_does_not_go_on_is_not_waited_for_and_open_sockets_stay() {
    let site = site(100).await;
    let mut socket = site.socket().await;
    // Nothing; half a head; a head again and again; half a body; one request
    // and no other.
    let silent = site.connect().await;
    let half = site.said("GET / HTTP/1.1\r\nHost: x\r\nX-Half: ").await;
    let body = site
        .said("POST /said HTTP/1.1\r\nHost: x\r\nContent-Length: 4000\r\n\r\nhalf")
        .await;
    let idle = site.said("GET / HTTP/1.1\r\nHost: x\r\n\r\n").await;
    let slow = site.said("GET / HTTP/1.1\r\n").await;
    let (read, mut write) = slow.into_split();
    let dripping = tokio::spawn(async move {
        while write.write_all(b"X-Slow: drip\r\n").await.is_ok() {
            sleep(Duration::from_secs(1)).await;
        }
    });
    // Asks for a large answer and takes in nothing of it.
    let deaf = site.said("GET /large HTTP/1.1\r\nHost: x\r\n\r\n").await;

    let whole = b"HTTP/1.1 200 OK";
    let (silent, half, body, idle) = tokio::join!(
        until_ended(silent),
        until_ended(half),
        until_ended(body),
        until_ended(idle),
    );
    assert!(silent.is_empty());
    assert!(!half.starts_with(whole) && !body.starts_with(whole));
    assert!(idle.starts_with(whole), "it was answered first");
    dripping.await.expect("it was cut off");
    drop(read);
    sleep(TO_LISTEN).await;
    let got = until_ended(deaf).await;
    assert!(got.len() < LARGE, "{}", got.len());

    // It was quiet for longer than any of them.
    assert!(TO_LISTEN > TO_ASK);
    echoes(&mut socket).await;
}

/// A photograph over a poor network.
#[tokio::test(flavor = "multi_thread")]
async fn a_large_body_has_longer_to_come() {
    const HALF: usize = 80_000;
    let site = site(100).await;
    let head = format!(
        "POST /said HTTP/1.1\r\nHost: x\r\nConnection: close\r\nContent-Length: {}\r\n\r\n",
        2 * HALF
    );
    let half = "x".repeat(HALF);
    let mut slow = site.said(&(head + &half)).await;
    sleep(TO_ASK + Duration::from_secs(1)).await;
    let sent = slow.write_all(half.as_bytes()).await;
    sent.expect("it is waited for");
    let answer = until_ended(slow).await;
    assert!(answer.starts_with(b"HTTP/1.1 200 OK"));
    assert!(answer.len() > 2 * HALF, "{}", answer.len());
}

#[tokio::test(flavor = "multi_thread")]
async fn who_does_not_ask_gives_way_to_who_does() {
    const MOST: usize = 20;
    let site = site(MOST).await;
    let mut sockets = Vec::new();
    for _ in 0..MOST / 2 {
        sockets.push(site.socket().await);
    }
    let mut silent = Vec::new();
    for _ in 0..200 {
        silent.push(site.said("GET / HTTP/1.1\r\nHost: ").await);
    }
    let said = site.get("/", [127, 0, 0, 1], "").await;
    assert!(said.ends_with("open"), "{said}");
    for socket in &mut sockets {
        echoes(socket).await;
    }
    // All the room is taken by sockets: nobody of them is cut off, and the next
    // comes in when one ends.
    drop(silent);
    for _ in MOST / 2..MOST {
        sockets.push(site.socket().await);
    }
    let waiting = site.get("/", [127, 0, 0, 1], "");
    let mut waiting = std::pin::pin!(waiting);
    let early = timeout(Duration::from_secs(1), &mut waiting).await;
    assert!(early.is_err(), "{early:?}");
    for socket in &mut sockets {
        echoes(socket).await;
    }
    sockets.pop();
    let said = waiting.await;
    assert!(said.ends_with("open"), "{said}");
}

#[tokio::test(flavor = "multi_thread")]
async fn who_asks_is_known_behind_the_proxy_that_is_named_only() {
    let site = site(10).await;
    let named = "X-Forwarded-For: 198.51.100.1, 203.0.113.7\r\n";
    let said = site.get("/who", [127, 0, 0, 2], named).await;
    assert!(said.ends_with("\r\n203.0.113.7"), "{said}");
    let said = site.get("/who", [127, 0, 0, 3], named).await;
    assert!(said.ends_with("\r\n127.0.0.3"), "{said}");
}

#[tokio::test(flavor = "multi_thread")]
async fn stopping_ends_those_who_ask_nothing() {
    let mut site = site(10).await;
    let idle = site.said("GET / HTTP/1.1\r\nHost: x\r\n\r\n").await;
    let mut first = [0; 15];
    let read = idle.readable().await;
    read.expect("an answer");
    let _ = idle.try_read(&mut first);
    let stop = site.stop.take().expect("not stopped before");
    stop.send(()).expect("it serves");
    let ended = timeout(PATIENCE, site.serving).await;
    ended.expect("in time").expect("it ends well");
    until_ended(idle).await;
}
