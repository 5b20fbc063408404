//! How many static answers a second the service gives, against a bare axum
//! that knows nothing but the same bytes.

use std::io::{self, BufRead as _, BufReader, Read as _, Write as _};
use std::net::{SocketAddr, TcpStream};
use std::thread;
use std::time::{Duration, Instant};

use axum::Router;
use axum::body::Bytes;
use axum::http::header::CONTENT_TYPE;
use axum::routing::get;
use foldwright_server::Site;
use foldwright_words::Language;
use tokio::net::TcpListener;
use tokio::runtime::Runtime;

use crate::measure::{Figure, Trouble, Workshop};
use crate::serving::Serving;

/// Connections that ask at once.
const CLIENTS: usize = 4;
/// How long one round lasts, and how many there are of each.
const ROUND: Duration = Duration::from_secs(1);
const ROUNDS: usize = 5;

/// The ratio of the two.
pub(crate) fn against_bare(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let site = Site::embedded();
    let page = site
        .asset("/", Language::English)
        .map(|page| page.plain().clone())
        .ok_or_else(|| Trouble(String::from("the site has no page")))?;
    let ours = Serving::start(site)?;
    let bare = Bare::start(page)?;
    let (mut of_ours, mut of_bare) = (Vec::new(), Vec::new());
    // In turns, so that what else the computer does falls on both.
    for _ in 0..ROUNDS {
        of_ours.push(answers(ours.address)?);
        of_bare.push(answers(bare.address)?);
    }
    ours.stop();
    bare.runtime.shutdown_background();
    let (ours, bare) = (median(of_ours), median(of_bare));
    Ok(vec![Figure {
        name: "static_vs_bare_axum",
        value: ours / bare,
        unit: "",
        target: None,
        how: format!(
            "at least 0.7 is wanted; the page over {CLIENTS} connections in this process, medians \
             of {ROUNDS} rounds: {ours:.0} and {bare:.0} answers/s"
        ),
    }])
}

struct Bare {
    address: SocketAddr,
    runtime: Runtime,
}

impl Bare {
    fn start(page: Bytes) -> Result<Self, Trouble> {
        let runtime = Runtime::new()?;
        let listener = runtime.block_on(TcpListener::bind(("127.0.0.1", 0)))?;
        let address = listener.local_addr()?;
        let answer = get(async move || ([(CONTENT_TYPE, "text/html; charset=utf-8")], page));
        runtime.spawn(async move {
            // It ends with the runtime; nothing is left to say then.
            let _ = axum::serve(listener, Router::new().route("/", answer)).await;
        });
        Ok(Self { address, runtime })
    }
}

/// Answers a second, over all connections.
fn answers(address: SocketAddr) -> Result<f64, Trouble> {
    let clients: Vec<_> = (0..CLIENTS)
        .map(|_| thread::spawn(move || ask(address)))
        .collect();
    let mut all = 0.0;
    for client in clients {
        let counted = client
            .join()
            .map_err(|_| Trouble(String::from("a client broke off")))?;
        all += f64::from(counted?);
    }
    Ok(all / ROUND.as_secs_f64())
}

/// Asks again and again for a round; returns how often there was an answer.
fn ask(address: SocketAddr) -> io::Result<u32> {
    let mut socket = TcpStream::connect(address)?;
    let mut reader = BufReader::new(socket.try_clone()?);
    let end = Instant::now() + ROUND;
    let mut count = 0;
    let mut body = Vec::new();
    while Instant::now() < end {
        socket.write_all(b"GET / HTTP/1.1\r\nHost: figures\r\n\r\n")?;
        let mut length = 0;
        loop {
            let mut line = String::new();
            reader.read_line(&mut line)?;
            let line = line.trim_end().to_ascii_lowercase();
            if let Some(told) = line.strip_prefix("content-length:") {
                length = told.trim().parse().unwrap_or(0);
            }
            if line.is_empty() {
                break;
            }
        }
        body.resize(length, 0);
        reader.read_exact(&mut body)?;
        count += 1;
    }
    Ok(count)
}

fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 2).copied().unwrap_or(0.0)
}
