//! Listens, says where, serves, and stops when asked.

use std::fmt;
use std::io::{self, ErrorKind};
use std::net::SocketAddr;
use std::time::Duration;

use axum::middleware::map_response;
use foldwright_sync::store::Trouble::Foreign;
use tokio::sync::watch;

use crate::announce::announce;
use crate::app::app;
use crate::doors::Doors;
use crate::headers;
use crate::options::Options;
use crate::site::Site;
use crate::workshops;

/// How long answers under way may take once the server is asked to stop.
const LAST_ANSWERS: Duration = Duration::from_secs(5);

/// Why the server could not run, in words for the person who started it.
#[derive(Debug)]
pub enum Trouble {
    /// The address cannot be listened on.
    Listening {
        /// The address that was asked for.
        address: SocketAddr,
        /// The option that chooses its port.
        option: &'static str,
        /// What the system said.
        why: io::Error,
    },
    /// What is kept of workshops cannot be used.
    Workshops(foldwright_sync::store::Trouble),
    /// Something else that was to be done with workshops was not.
    NotDone {
        /// What was not, in a sentence.
        what: &'static str,
        /// What stood in the way.
        why: foldwright_sync::store::Trouble,
        /// What to do; nothing where `why` says it.
        instead: String,
    },
    /// HTTPS cannot be served.
    Https(foldwright_tls::Trouble),
    /// An option of `--tls own` beside the files of a certificate.
    WithFiles {
        /// The option.
        option: &'static str,
    },
    /// Something the system refused later.
    System(io::Error),
}

impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (address, option, why) = match self {
            Self::Listening {
                address,
                option,
                why,
            } => (address, option, why),
            Self::Workshops(why) => {
                let another = match why {
                    Foreign(_) => {
                        " Name another file with --data; where there is none, one is made."
                    }
                    _ => "",
                };
                return write!(f, "Foldwright cannot start: {why}{another}");
            }
            Self::NotDone { what, why, instead } => {
                let space = if instead.is_empty() { "" } else { " " };
                return write!(f, "{what} {why}{space}{instead}");
            }
            Self::Https(why) => return write!(f, "Foldwright cannot start: {why}"),
            Self::WithFiles { option } => {
                return write!(
                    f,
                    "{option} belongs to --tls own: devices need not be told to trust a \
                     certificate in files. Leave it out."
                );
            }
            Self::System(why) => return write!(f, "Foldwright had to stop: {why}."),
        };
        let (port, ip) = (address.port(), address.ip());
        write!(f, "Foldwright cannot listen on {address}: ")?;
        match why.kind() {
            ErrorKind::AddrInUse => write!(
                f,
                "port {port} is taken by another program.\nStop that program, or choose another \
                 port, for example: {option} {}",
                if port == 4850 { 4851 } else { 4850 }
            ),
            ErrorKind::AddrNotAvailable => write!(
                f,
                "this computer has no address {ip}.\nUse --bind 127.0.0.1 for this computer \
                 only, or --bind 0.0.0.0 for every address it has."
            ),
            ErrorKind::PermissionDenied => write!(
                f,
                "this account may not use port {port}.\nChoose a port above 1023, for example: \
                 {option} 4747"
            ),
            _ => write!(f, "{why}.\nTry another {option} or --bind address."),
        }
    }
}

impl std::error::Error for Trouble {}

impl From<foldwright_tls::Trouble> for Trouble {
    fn from(why: foldwright_tls::Trouble) -> Self {
        Self::Https(why)
    }
}

/// Serves until the process is asked to stop.
///
/// # Errors
///
/// Says why the address cannot be listened on and what to do, or what the
/// system refused.
pub fn run(options: &Options) -> Result<(), Trouble> {
    tracing_subscriber::fmt()
        .with_max_level(tracing::Level::from(options.log))
        .with_writer(io::stderr)
        .init();
    tokio::runtime::Builder::new_multi_thread()
        .enable_all()
        .build()
        .map_err(Trouble::System)?
        .block_on(begin(options))
}

async fn begin(options: &Options) -> Result<(), Trouble> {
    if let Some(to) = &options.backup {
        return workshops::back_up(options.data.as_deref(), to).await;
    }
    if let Some(from) = &options.restore {
        return workshops::restore(options.data.as_deref(), from).await;
    }
    if let Some(name) = &options.code_for {
        return workshops::invite(options.data.as_deref(), name).await;
    }
    let hub = workshops::open(options.data.as_deref()).await?;
    let doors = Doors::open(options).await?;
    let site = Site::embedded();
    let code = match &hub {
        Some(hub) => hub.claim().await.map_err(Trouble::Workshops)?,
        None => None,
    };
    // Whoever reads the address may ask for the end at once.
    let asked = asked_to_stop();
    announce(&doors, &site.release, code.as_deref());

    let (stop, stopping) = watch::channel(false);
    let mut last = stopping.clone();
    tokio::spawn(async move {
        asked.await;
        tracing::info!("stopping");
        let _ = stop.send(true);
    });
    let mut app = app(site, hub.clone(), doors.origin().to_string());
    if doors.is_of_a_domain() {
        app = app.layer(map_response(headers::only_https));
    }
    let ended = tokio::select! {
        ended = doors.serve(app, stopping) => ended.map_err(Trouble::System),
        () = async {
            let _ = last.wait_for(|stop| *stop).await;
            tokio::time::sleep(LAST_ANSWERS).await;
        } => Ok(()),
    };
    if let Some(hub) = hub {
        // What is not done by then is given up, as a crash would.
        let _ = tokio::time::timeout(LAST_ANSWERS, hub.close()).await;
    }
    ended
}

/// Listens from now on for Ctrl+C and for the system ending the process, and
/// gives what waits for one of them.
#[cfg(unix)]
fn asked_to_stop() -> impl Future<Output = ()> {
    use tokio::signal::unix::{Signal, SignalKind, signal};

    async fn heard(signal: io::Result<Signal>) {
        match signal {
            Ok(mut signal) => {
                signal.recv().await;
            }
            // Without a handler the system's own way of stopping is left.
            Err(_) => std::future::pending().await,
        }
    }

    let interrupted = signal(SignalKind::interrupt());
    let ended = signal(SignalKind::terminate());
    async {
        tokio::select! {
            () = heard(interrupted) => {}
            () = heard(ended) => {}
        }
    }
}

/// Waits for Ctrl+C.
#[cfg(not(unix))]
async fn asked_to_stop() {
    if tokio::signal::ctrl_c().await.is_err() {
        // Without a handler the system's own way of stopping is left.
        std::future::pending::<()>().await;
    }
}
