//! Takes connections over TLS.

use std::net::SocketAddr;
use std::sync::Arc;
use std::time::Duration;
use std::{fmt, io};

use axum::Router;
use axum::serve::{Listener, ListenerExt as _, TapIo};
use hyper::server::conn::http1;
use hyper_util::rt::TokioIo;
use hyper_util::service::TowerToHyperService;
use rustls::ServerConfig;
use rustls::crypto::ring::default_provider;
use tokio::net::{TcpListener, TcpStream};
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
pub type Stream = TlsStream<TcpStream>;

/// A listener for `axum::serve`, wrapped so that the address of the other side
/// can be asked for as over plain HTTP.
pub type Secure = TapIo<Agreeing, fn(&mut Stream)>;

/// Agrees with several devices at once, so that a slow one keeps nobody.
pub struct Agreeing {
    tcp: TcpListener,
    acceptor: TlsAcceptor,
    plain: Router,
    under_way: JoinSet<Option<(Stream, SocketAddr)>>,
}

impl Tls {
    /// Takes connections from `tcp`. TLS 1.2 and 1.3 are spoken; whoever
    /// speaks plain HTTP here is answered as [`Tls::pages`] does.
    ///
    /// # Errors
    ///
    /// Where the library for TLS lacks what it was built with.
    pub fn listener(self: &Arc<Self>, tcp: TcpListener) -> io::Result<Secure> {
        let mut config = ServerConfig::builder_with_provider(Arc::new(default_provider()))
            .with_safe_default_protocol_versions()
            .map_err(io::Error::other)?
            .with_no_client_auth()
            .with_cert_resolver(Arc::new(Current(self.current())));
        // Sockets for changes need HTTP/1.1, and a dozen files gain nothing
        // from HTTP/2.
        config.alpn_protocols = vec![b"http/1.1".to_vec()];
        let agreeing = Agreeing {
            tcp,
            acceptor: TlsAcceptor::from(Arc::new(config)),
            plain: self.pages(),
            under_way: JoinSet::new(),
        };
        Ok(agreeing.tap_io(at_once))
    }
}

/// Small messages leave without waiting for more to go with them.
fn at_once(stream: &mut Stream) {
    // Where it cannot be set, all works, only later.
    let _ = stream.get_ref().0.set_nodelay(true);
}

impl Listener for Agreeing {
    type Io = Stream;
    type Addr = SocketAddr;

    async fn accept(&mut self) -> (Stream, SocketAddr) {
        loop {
            tokio::select! {
                (stream, peer) = Listener::accept(&mut self.tcp) => {
                    let (acceptor, plain) = (self.acceptor.clone(), self.plain.clone());
                    self.under_way.spawn(async move {
                        let agreed = agree(stream, acceptor, plain);
                        match tokio::time::timeout(PATIENCE, agreed).await {
                            Ok(Ok(stream)) => return Some((stream?, peer)),
                            Ok(Err(why)) => tracing::debug!(%peer, %why, "not agreed"),
                            Err(_) => tracing::debug!(%peer, "too slow to agree"),
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

    fn local_addr(&self) -> io::Result<SocketAddr> {
        self.tcp.local_addr()
    }
}

/// The encrypted stream; none for a device that speaks plain HTTP, once it is
/// answered: addresses are often typed without https before them.
async fn agree(
    stream: TcpStream,
    acceptor: TlsAcceptor,
    plain: Router,
) -> io::Result<Option<Stream>> {
    let mut first = [0];
    if stream.peek(&mut first).await? == 0 {
        return Ok(None);
    }
    if first == [HANDSHAKE] {
        return acceptor.accept(stream).await.map(Some);
    }
    http1::Builder::new()
        .keep_alive(false)
        .serve_connection(TokioIo::new(stream), TowerToHyperService::new(plain))
        .await
        .map_err(io::Error::other)?;
    Ok(None)
}

impl fmt::Debug for Agreeing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Agreeing")
            .field("tcp", &self.tcp)
            .finish_non_exhaustive()
    }
}
