//! The service alone, for tests: `alone PLACE [PORT]` prints the address it
//! listens on, then the code to claim it with, if it is not claimed.
//! What it reports in most detail goes to the standard error.

use std::io::Write as _;
use std::net::SocketAddr;

use foldwright_api::{Release, routes};
use foldwright_sync::{Hub, Place, route};
use tokio::net::TcpListener;

#[tokio::main]
async fn main() -> Result<(), Box<dyn std::error::Error>> {
    tracing_subscriber::fmt()
        .with_max_level(tracing::Level::DEBUG)
        .with_writer(std::io::stderr)
        .init();
    let mut arguments = std::env::args().skip(1);
    let place = arguments.next().ok_or("alone PLACE [PORT]")?;
    let port = arguments.next().map_or(Ok(0), |port| port.parse())?;
    let store = Place::from(&*place).open().await?;
    let hub = Hub::start(store).await?;
    let listener = TcpListener::bind(("127.0.0.1", port)).await?;
    println!("{}", listener.local_addr()?);
    println!("{}", hub.claim().await?.unwrap_or_default());
    std::io::stdout().flush()?;
    let address = format!("http://{}", listener.local_addr()?);
    let release = Release { id: String::new() };
    let service = routes(Some(hub.clone()), release, address)
        .merge(route(hub))
        .into_make_service_with_connect_info::<SocketAddr>();
    axum::serve(listener, service).await?;
    Ok(())
}
