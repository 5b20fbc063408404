//! A small site of our own, served over HTTPS on ports of its own.

use std::future::pending;
use std::net::{IpAddr, Ipv4Addr, SocketAddr};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use axum::Router;
use axum::extract::ws::WebSocketUpgrade;
use axum::extract::{ConnectInfo, State};
use axum::routing::{any, get};
use foldwright_net::{Behind, Bounded, Room, serve};
use foldwright_tls::{Choice, Names, Origin, Tls, Trouble};
use tempfile::TempDir;
use time::OffsetDateTime;
use tokio::net::TcpListener;
use tokio::runtime::Runtime;
use tokio::sync::{Barrier, oneshot};
use tokio::task::JoinHandle;

use crate::outside::{curl, openssl_well};

/// How a test starts a site.
pub(crate) struct Plan {
    pub(crate) choice: Choice,
    pub(crate) address: Option<Origin>,
    pub(crate) now: OffsetDateTime,
}

impl Plan {
    pub(crate) fn own() -> Self {
        Self {
            choice: Choice::Own,
            address: None,
            now: OffsetDateTime::now_utc(),
        }
    }

    pub(crate) fn files(certificate: &Path, key: &Path) -> Self {
        Self {
            choice: Choice::Files {
                certificate: certificate.to_owned(),
                key: key.to_owned(),
            },
            ..Self::own()
        }
    }

    /// What a start in `folder` gives, without serving.
    pub(crate) fn open(&self, folder: &Path, bound: SocketAddr) -> Result<Arc<Tls>, Trouble> {
        let address = self.address.as_ref();
        Tls::open(&self.choice, folder, bound, address, machine(), self.now)
    }

    /// Why a start in `folder` fails.
    pub(crate) fn refused(&self, folder: &Path) -> String {
        match self.open(folder, nowhere()) {
            Ok(_) => panic!("it starts"),
            Err(why) => why.to_string(),
        }
    }
}

/// A place to listen at that nobody listens at.
pub(crate) fn nowhere() -> SocketAddr {
    (Ipv4Addr::LOCALHOST, 1).into()
}

/// The machine of the tests, whatever machine runs them.
pub(crate) fn machine() -> Names {
    Names::new("laptop", ["192.168.1.5".parse().expect("an address")])
}

/// A site that is being served.
pub(crate) struct Site {
    pub(crate) tls: Arc<Tls>,
    /// Over HTTPS.
    pub(crate) port: u16,
    /// The pages over plain HTTP.
    pub(crate) plain: u16,
    /// The slow answer waits here when it is asked for, and again before it goes.
    pub(crate) slow: Arc<Barrier>,
    pub(crate) runtime: Runtime,
    serving: Option<JoinHandle<()>>,
    stop: Option<oneshot::Sender<()>>,
    folder: TempDir,
}

impl Site {
    pub(crate) fn start(plan: &Plan) -> Self {
        Self::start_in(plan, TempDir::new().expect("a folder"))
    }

    pub(crate) fn start_in(plan: &Plan, folder: TempDir) -> Self {
        let runtime = Runtime::new().expect("a runtime");
        let listen = || async {
            let any = (Ipv4Addr::LOCALHOST, 0);
            let tcp = TcpListener::bind(any).await.expect("a free port");
            let bound = tcp.local_addr().expect("a bound port");
            (tcp, bound)
        };
        let (tcp, bound) = runtime.block_on(listen());
        let (beside, at) = runtime.block_on(listen());
        let tls = plan.open(folder.path(), bound).expect("it starts");
        let (room, behind) = (
            Room::for_connections(100),
            Arc::new(Behind::these(Vec::new())),
        );
        let port = Bounded::new(tcp, room.clone());
        let listener = tls.listener(port).expect("a listener");
        let slow = Arc::new(Barrier::new(2));
        let app = Router::new()
            .route("/", get(|| async { "the site" }))
            .route("/peer", get(peer))
            .route("/slow", get(wait))
            .route("/echo", any(echo))
            .with_state(Arc::clone(&slow));
        let (stop, stopped) = oneshot::channel();
        let serving = runtime.spawn(async move {
            let stopped = async {
                let _ = stopped.await;
            };
            serve(listener, app, behind, stopped).await;
        });
        let (beside, pages) = (Bounded::new(beside, room), tls.pages());
        let nobody = Arc::new(Behind::these(Vec::new()));
        runtime.spawn(serve(beside, pages, nobody, pending()));
        Self {
            tls,
            port: bound.port(),
            plain: at.port(),
            slow,
            runtime,
            serving: Some(serving),
            stop: Some(stop),
            folder,
        }
    }

    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// The authority's certificate as a device fetches it, in the form that
    /// the outside programs read.
    pub(crate) fn authority(&self) -> PathBuf {
        let (der, pem) = (self.path("fetched.crt"), self.path("fetched.pem"));
        let from = format!("http://localhost:{}/foldwright-authority.crt", self.plain);
        let fetched = curl(&["--fail", "--output", text(&der), &from]);
        assert!(fetched.well, "{}", fetched.all);
        openssl_well(&[
            "x509",
            "-inform",
            "der",
            "-in",
            text(&der),
            "-out",
            text(&pem),
        ]);
        pem
    }

    /// Asks it to stop.
    pub(crate) fn stop(&mut self) -> JoinHandle<()> {
        self.stop
            .take()
            .expect("not stopped before")
            .send(())
            .expect("it serves");
        self.serving.take().expect("not stopped before")
    }

    /// Ends it and gives what it kept.
    pub(crate) fn end(self) -> TempDir {
        self.folder
    }
}

/// A path as an argument.
pub(crate) fn text(path: &Path) -> &str {
    path.to_str().expect("a plain path")
}

async fn peer(ConnectInfo(peer): ConnectInfo<IpAddr>) -> String {
    peer.to_string()
}

async fn wait(State(slow): State<Arc<Barrier>>) -> &'static str {
    slow.wait().await;
    slow.wait().await;
    "at last"
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
