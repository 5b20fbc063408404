//! The service alone, for tests: `alone PLACE [PORT [LEVEL]]` prints the
//! address it listens on, then the code to claim it with, if it is not
//! claimed. What it reports goes to the standard error, in most detail unless
//! a level such as `warn` says otherwise. At 127.0.0.2 there is a proxy.

use std::io::Write as _;
use std::sync::Arc;

use foldwright_api::{Release, routes};
use foldwright_net::{Behind, Bounded, Room, serve};
use foldwright_sync::{Hub, Place, route};
use tokio::net::TcpListener;
use tracing::Level;

#[tokio::main]
async fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut arguments = std::env::args().skip(1);
    let place = arguments.next().ok_or("alone PLACE [PORT [LEVEL]]")?;
    let port = arguments.next().map_or(Ok(0), |port| port.parse())?;
    let level = arguments.next().map_or(Ok(Level::DEBUG), |it| it.parse())?;
    tracing_subscriber::fmt()
        .with_max_level(level)
        .with_writer(std::io::stderr)
        .init();
    let store = Place::from(&*place).open().await?;
    let hub = Hub::start(store).await?;
    let listener = TcpListener::bind(("127.0.0.1", port)).await?;
    println!("{}", listener.local_addr()?);
    println!("{}", hub.claim().await?.unwrap_or_default());
    std::io::stdout().flush()?;
    let address = format!("http://{}", listener.local_addr()?);
    let release = Release { id: String::new() };
    let service = routes(Some(hub.clone()), release, address).merge(route(hub));
    let port = Bounded::new(listener, Room::of_this_process());
    let behind = Arc::new(Behind::these(vec!["127.0.0.2".parse()?]));
    serve(port, service, behind, std::future::pending()).await;
    Ok(())
}
