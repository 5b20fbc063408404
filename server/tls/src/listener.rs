//! Takes connections over TLS.

use std::sync::Arc;
use std::time::Duration;
use std::{fmt, io};

use axum::Router;
use axum::serve::Listener;
use foldwright_net::{Bounded, Guest, Peer};
use hyper::server::conn::http1;
use hyper_util::rt::TokioIo;
use hyper_util::service::TowerToHyperService;
use rustls::ServerConfig;
use rustls::crypto::ring::default_provider;
use tokio::task::JoinSet;
use tokio_rustls::TlsAcceptor;
use tokio_rustls::server::TlsStream;

use crate::served::Current;
use crate::tls::Tls;

/// How long a device may take to agree on how to encrypt, or to be told in
/// plain HTTP where to go.
const PATIENCE: Duration = Duration::from_secs(10);

/// The first byte a browser sends that wants to encrypt: a handshake record
/// (RFC 8446, §5.1). No request in plain HTTP begins with it.
const HANDSHAKE: u8 = 22;

/// What is read and written once it is agreed how to encrypt.
pub type Stream = TlsStream<Guest>;

/// Agrees with several devices at once, so that a slow one keeps nobody.
pub struct Secure {
    port: Bounded,
    acceptor: TlsAcceptor,
    plain: Router,
    under_way: JoinSet<Option<(Stream, Peer)>>,
}

impl Tls {
    /// Takes connections from `port`. TLS 1.2 and 1.3 are spoken; whoever
    /// speaks plain HTTP here is answered as [`Tls::pages`] does.
    ///
    /// # Errors
    ///
    /// Where the library for TLS lacks what it was built with.
    pub fn listener(self: &Arc<Self>, port: Bounded) -> io::Result<Secure> {
        let mut config = ServerConfig::builder_with_provider(Arc::new(default_provider()))
            .with_safe_default_protocol_versions()
            .map_err(io::Error::other)?
            .with_no_client_auth()
            .with_cert_resolver(Arc::new(Current(self.current())));
        // Sockets for changes need HTTP/1.1, and a dozen files gain nothing
        // from HTTP/2.
        config.alpn_protocols = vec![b"http/1.1".to_vec()];
        Ok(Secure {
            port,
            acceptor: TlsAcceptor::from(Arc::new(config)),
            plain: self.pages(),
            under_way: JoinSet::new(),
        })
    }
}

impl Listener for Secure {
    type Io = Stream;
    type Addr = Peer;

    async fn accept(&mut self) -> (Stream, Peer) {
        loop {
            tokio::select! {
                (stream, peer) = self.port.accept() => {
                    let (acceptor, plain) = (self.acceptor.clone(), self.plain.clone());
                    self.under_way.spawn(async move {
                        let agreed = agree(stream, acceptor, plain);
                        match tokio::time::timeout(PATIENCE, agreed).await {
                            Ok(Ok(stream)) => return Some((stream?, peer)),
                            Ok(Err(why)) => tracing::debug!(%peer.address, %why, "not agreed"),
                            Err(_) => tracing::debug!(%peer.address, "too slow to agree"),
                        }
                        None
                    });
                }
                Some(ended) = self.under_way.join_next() => {
                    if let Ok(Some(agreed)) = ended {
                        return agreed;
                    }
                }
            }
        }
    }

    fn local_addr(&self) -> io::Result<Peer> {
        self.port.local_addr()
    }
}

/// The encrypted stream; none for a device that speaks plain HTTP, once it is
/// answered: addresses are often typed without https before them.
async fn agree(stream: Guest, acceptor: TlsAcceptor, plain: Router) -> io::Result<Option<Stream>> {
    match stream.first().await? {
        None => return Ok(None),
        Some(HANDSHAKE) => return acceptor.accept(stream).await.map(Some),
        Some(_) => {}
    }
    http1::Builder::new()
        .keep_alive(false)
        .serve_connection(TokioIo::new(stream), TowerToHyperService::new(plain))
        .await
        .map_err(io::Error::other)?;
    Ok(None)
}

impl fmt::Debug for Secure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Secure")
            .field("port", &self.port)
            .finish_non_exhaustive()
    }
}
