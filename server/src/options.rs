//! What can be set on the command line.

use std::net::{IpAddr, Ipv4Addr};
use std::path::PathBuf;

use clap::{Parser, ValueEnum};
use foldwright_net::Proxy;
use foldwright_tls::{Choice, Origin};

/// Serves Foldwright, the folded-card workshop, to the browsers that open its
/// address.
#[derive(Clone, Debug, Parser)]
#[command(name = "foldwright", version)]
pub struct Options {
    /// Port to listen on; 0 takes any free one
    #[arg(long, default_value_t = 4747)]
    pub port: u16,

    /// Address to listen on: 127.0.0.1 is open to this computer only, 0.0.0.0
    /// to every device that can reach it
    #[arg(long, value_name = "ADDRESS", default_value_t = IpAddr::V4(Ipv4Addr::LOCALHOST))]
    pub bind: IpAddr,

    /// Serves over HTTPS, which phones need: `own` makes an authority on this
    /// computer that each device trusts once; or the files of a certificate
    /// and of its key
    #[arg(long, value_name = "own|CERT,KEY")]
    pub tls: Option<Choice>,

    /// Port of the page, over plain HTTP, on which devices come to trust the
    /// authority of --tls own. Without it, the one after --port
    #[arg(long, value_name = "PORT", requires = "tls")]
    pub trust_port: Option<u16>,

    /// Where the authority of --tls own is kept. Without it, the folder
    /// foldwright-tls beside the workshops or this program
    #[arg(long, value_name = "FOLDER", requires = "tls")]
    pub tls_folder: Option<PathBuf>,

    /// Where browsers find the server, for links and codes, as in
    /// `https://cards.example.org`. Needed behind a proxy; without it, guessed
    #[arg(long, value_name = "URL")]
    pub address: Option<Origin>,

    /// A proxy in front of this server, by its address or network, as in
    /// `127.0.0.1` or `10.0.0.0/8`: it is believed, as nobody else is, when it
    /// names in `X-Forwarded-For` for whom it asks. May be given several times
    #[arg(long, value_name = "ADDRESS OR NETWORK", value_delimiter = ',')]
    pub behind: Vec<Proxy>,

    /// Where workshops are kept: a file, or the address of a PostgreSQL
    /// database, as in `postgres://user@host/name`. Without it, the file
    /// foldwright.db beside this program
    #[arg(long, value_name = "FILE OR ADDRESS")]
    pub data: Option<String>,

    /// Copies all workshops into a new file, while a server may run, and ends
    #[arg(long, value_name = "FILE", conflicts_with = "code_for")]
    pub backup: Option<PathBuf>,

    /// Puts the copy that --backup made in place of all workshops, while no
    /// server runs, and ends. What was there is kept under another name
    #[arg(long, value_name = "FILE", conflicts_with_all = ["backup", "code_for"])]
    pub restore: Option<PathBuf>,

    /// Prints a code with which a device comes into the workshop of this
    /// name, one that is new or one whose devices are lost, and ends
    #[arg(long, value_name = "WORKSHOP")]
    pub code_for: Option<String>,

    /// How much to report while running
    #[arg(long, value_name = "LEVEL", default_value = "warn")]
    pub log: Log,
}

impl Options {
    /// The first option that was given and means something only with an
    /// authority of one's own.
    pub(crate) fn of_own_authority(&self) -> Option<&'static str> {
        let port = self.trust_port.map(|_| "--trust-port");
        port.or(self.tls_folder.as_ref().map(|_| "--tls-folder"))
    }
}

/// How much the server reports.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Log {
    /// What failed
    Error,
    /// What failed and what looks wrong
    Warn,
    /// Starting and stopping too
    Info,
    /// Every request too
    Debug,
}

impl From<Log> for tracing::Level {
    fn from(log: Log) -> Self {
        match log {
            Log::Error => Self::ERROR,
            Log::Warn => Self::WARN,
            Log::Info => Self::INFO,
            Log::Debug => Self::DEBUG,
        }
    }
}
