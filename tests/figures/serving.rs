//! Serves a bundle as the server does, until told to stop.

use std::net::SocketAddr;

use foldwright_server::{Site, app};
use tokio::net::TcpListener;
use tokio::runtime::Runtime;

use crate::measure::Trouble;

/// A server inside this process.
pub(crate) struct Serving {
    pub(crate) address: SocketAddr,
    runtime: Runtime,
}

impl Serving {
    pub(crate) fn start(site: Site) -> Result<Self, Trouble> {
        let runtime = Runtime::new()?;
        let listener = runtime.block_on(TcpListener::bind(("127.0.0.1", 0)))?;
        let address = listener.local_addr()?;
        runtime.spawn(async move {
            // It ends with the runtime; nothing is left to say then.
            let _ = axum::serve(listener, app(site, None, String::new())).await;
        });
        Ok(Self { address, runtime })
    }

    /// Closes the port and every connection.
    pub(crate) fn stop(self) {
        self.runtime.shutdown_background();
    }
}
