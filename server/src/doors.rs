//! How the service is reached: over plain HTTP, or over HTTPS with the page on
//! which devices come to trust it beside.

use std::future::pending;
use std::io;
use std::net::{Ipv4Addr, SocketAddr};
use std::sync::Arc;
use std::time::Duration;

use axum::Router;
use foldwright_net::{Behind, Bounded, Room, serve};
use foldwright_tls::{Choice, Names, Origin, Tls};
use time::OffsetDateTime;
use tokio::net::TcpListener;
use tokio::sync::watch;

use crate::options::Options;
use crate::run::Trouble;
use crate::workshops;

/// How often to look whether another certificate is due.
const LOOK: Duration = Duration::from_secs(30);

/// Where the authority is kept, beside the workshops.
const FOLDER: &str = "foldwright-tls";

/// The ports listened on.
pub(crate) struct Doors {
    tcp: TcpListener,
    bound: SocketAddr,
    address: Option<Origin>,
    encrypted: Option<Encrypted>,
    behind: Behind,
}

struct Encrypted {
    tls: Arc<Tls>,
    /// For the page, where the authority is our own.
    trust: Option<(TcpListener, u16)>,
}

/// What a device has to trust.
pub(crate) struct Trust {
    /// The page that explains how.
    pub(crate) page: Origin,
    /// What to compare.
    pub(crate) fingerprint: String,
}

impl Doors {
    /// Listens where the options say.
    pub(crate) async fn open(options: &Options) -> Result<Self, Trouble> {
        let (tcp, bound) = listen(options, options.port, "--port").await?;
        let encrypted = match &options.tls {
            Some(choice) => Some(Encrypted::open(options, choice, bound).await?),
            None => None,
        };
        Ok(Self {
            tcp,
            bound,
            address: options.address.clone(),
            encrypted,
            behind: Behind::these(options.behind.clone()),
        })
    }

    /// Where it listens.
    pub(crate) fn bound(&self) -> SocketAddr {
        self.bound
    }

    /// Where other devices find it, as it was said or as well as can be
    /// guessed.
    pub(crate) fn origin(&self) -> Origin {
        if let Some(encrypted) = &self.encrypted {
            return encrypted.tls.origin();
        }
        let guess = || {
            let own = self.bound.ip();
            let machine = own.is_unspecified().then(Names::of_this_machine);
            let lan = machine.and_then(Result::ok).and_then(|names| names.lan());
            let here = if own.is_unspecified() {
                Ipv4Addr::LOCALHOST.into()
            } else {
                own
            };
            Origin::http(lan.unwrap_or(here), self.bound.port())
        };
        self.address.clone().unwrap_or_else(guess)
    }

    /// What devices have to trust, where it is not trusted by everyone.
    pub(crate) fn trust(&self) -> Option<Trust> {
        let Encrypted { tls, trust } = self.encrypted.as_ref()?;
        let (_, port) = trust.as_ref()?;
        Some(Trust {
            page: tls.origin().plain(*port),
            fingerprint: tls.fingerprint()?,
        })
    }

    /// Whether browsers may remember to take nothing but HTTPS here.
    pub(crate) fn is_of_a_domain(&self) -> bool {
        let encrypted = self.encrypted.as_ref();
        encrypted.is_some_and(|encrypted| encrypted.tls.is_of_a_domain())
    }

    /// Serves until told to stop, and then until every answer is given.
    pub(crate) async fn serve(
        self,
        app: Router,
        mut stop: watch::Receiver<bool>,
    ) -> io::Result<()> {
        let stopped = async move {
            // An error means that nobody can ask any more: stop as well.
            let _ = stop.wait_for(|stop| *stop).await;
        };
        // All ports share the room of the one process.
        let room = Room::of_this_process();
        let port = Bounded::new(self.tcp, room.clone());
        let behind = Arc::new(self.behind);
        let Some(Encrypted { tls, trust }) = self.encrypted else {
            serve(port, app, behind, stopped).await;
            return Ok(());
        };
        if let Some((listener, _)) = trust {
            let beside = Bounded::new(listener, room);
            let pages = serve(beside, tls.pages(), Arc::clone(&behind), pending());
            tokio::spawn(pages);
        }
        let port = tls.listener(port)?;
        tokio::spawn(async move { tls.keep_fresh(LOOK).await });
        serve(port, app, behind, stopped).await;
        Ok(())
    }
}

impl Encrypted {
    async fn open(options: &Options, choice: &Choice, bound: SocketAddr) -> Result<Self, Trouble> {
        if let (Choice::Files { .. }, Some(option)) = (choice, options.of_own_authority()) {
            return Err(Trouble::WithFiles { option });
        }
        let beside = || workshops::folder(options.data.as_deref()).join(FOLDER);
        let tls = Tls::open(
            choice,
            &options.tls_folder.clone().unwrap_or_else(beside),
            bound,
            options.address.as_ref(),
            Names::of_this_machine().map_err(foldwright_tls::Trouble::Machine)?,
            OffsetDateTime::now_utc(),
        )?;
        let trust = match choice {
            Choice::Own => {
                // Beside a port that is any free one, any free one.
                let next = match options.port {
                    0 => 0,
                    port => port.checked_add(1).unwrap_or(0),
                };
                let port = options.trust_port.unwrap_or(next);
                let (listener, bound) = listen(options, port, "--trust-port").await?;
                Some((listener, bound.port()))
            }
            Choice::Files { .. } => None,
        };
        Ok(Self { tls, trust })
    }
}

/// Listens on a port, which the option chooses.
async fn listen(
    options: &Options,
    port: u16,
    option: &'static str,
) -> Result<(TcpListener, SocketAddr), Trouble> {
    let address = SocketAddr::new(options.bind, port);
    let listener = TcpListener::bind(address)
        .await
        .map_err(|why| Trouble::Listening {
            address,
            option,
            why,
        })?;
    let bound = listener.local_addr().map_err(Trouble::System)?;
    Ok((listener, bound))
}
