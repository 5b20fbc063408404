//! How long the page of a shared recipe takes once it is made.

use std::io::{Read as _, Write as _};
use std::net::{IpAddr, Ipv4Addr, SocketAddr, TcpStream};
use std::time::Instant;

use foldwright_api::{Asked, Refused, Workshops};
use foldwright_server::{Site, app};
use foldwright_sync::store::{self, Change};
use foldwright_sync::{Hub, Place};
use tokio::net::TcpListener;
use tokio::runtime::Runtime;

use crate::cluster::Folder;
use crate::large_card::{accordion, as_change};
use crate::measure::{Figure, Trouble, Workshop, median};

/// How often it is asked for after the first time.
const RUNS: u32 = 21;

impl From<store::Trouble> for Trouble {
    fn from(why: store::Trouble) -> Self {
        Self(why.to_string())
    }
}

impl From<Refused> for Trouble {
    fn from(why: Refused) -> Self {
        Self(format!("the service refuses: {why:?}"))
    }
}

/// The page of an accordion of 200 panels, from the second time on.
pub(crate) fn second(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let folder = Folder::new();
    let runtime = Runtime::new()?;
    let (address, path) = runtime.block_on(share(&folder, 200))?;
    let (first, bytes) = ask(address, &path)?;
    let again: Result<Vec<_>, _> = (0..RUNS).map(|_| ask(address, &path)).collect();
    let again = again?.into_iter().map(|(time, _)| time).collect();
    runtime.shutdown_background();
    let value = median(again).ok_or_else(|| Trouble(String::from("nothing was measured")))?;
    Ok(vec![Figure {
        name: "share_page_200_panels_ms",
        value,
        unit: "ms",
        target: Some(5.0),
        how: format!(
            "the page of an accordion of 200 panels over HTTP in this process, connecting \
             included and in gzip as browsers ask for it, median of {RUNS} after the first, which took {first:.0} ms; {bytes} bytes"
        ),
    }])
}

/// Serves a workshop that shares an accordion of so many panels: where, and the path
/// of its page.
pub(crate) async fn share(folder: &Folder, panels: u32) -> Result<(SocketAddr, String), Trouble> {
    let store = Place::File(folder.0.join("workshops.db")).open().await?;
    let hub = Hub::start(store.clone()).await?;
    let code = hub.claim().await?.unwrap_or_default();
    let asked = Asked {
        workshops: hub.clone(),
        from: IpAddr::from(Ipv4Addr::LOCALHOST),
        address: String::new(),
    };
    let joined = hub.join(&asked, &code, "laptop").await?;
    let update = as_change(&accordion(panels));
    let update = update.ok_or_else(|| Trouble(String::from("there is no recipe")))?;
    let change = Change {
        workshop: joined.workshop,
        document: String::from("recipe/a"),
        update: update.into(),
    };
    store.append(&[change]).await?;
    let link = hub.share(&asked, &joined.key, "recipe/a").await?;
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).await?;
    let address = listener.local_addr()?;
    tokio::spawn(async move {
        // It ends with the runtime; nothing is left to say then.
        let _ = axum::serve(listener, app(Site::embedded(), Some(hub), String::new())).await;
    });
    Ok((address, link.link))
}

/// Asks for the page: the milliseconds that took, and its bytes.
fn ask(address: SocketAddr, path: &str) -> Result<(f64, usize), Trouble> {
    let begin = Instant::now();
    let mut socket = TcpStream::connect(address)?;
    let question = format!(
        "GET {path} HTTP/1.1\r\nHost: figures\r\nConnection: close\r\n\
         Accept-Encoding: gzip\r\n\r\n"
    );
    socket.write_all(question.as_bytes())?;
    let mut page = Vec::new();
    socket.read_to_end(&mut page)?;
    let time = begin.elapsed().as_secs_f64() * 1000.0;
    if page.starts_with(b"HTTP/1.1 200") {
        return Ok((time, page.len()));
    }
    let said = String::from_utf8_lossy(page.get(..80).unwrap_or(&page)).into_owned();
    Err(Trouble(format!("the page is none: {said}")))
}
